//! `POST /v1/rechecks`: a job as built in, its checks and what has changed since out.

use crate::model::fault::Fault;
use crate::model::layout::Verdict;
use crate::model::recheck::{Difference, RecheckAnswer, RecheckRequest, Recorded, Suggestion};
use crate::placement::built::{self, Built, Checked};
use crate::placement::rail_lines::RailLine;
use crate::placement::repair;

use super::intake::{self, Taken, TakenBuilt};
use super::layout::Options;
use super::request::Request;
use super::{report, rounding, trace};

impl Request for RecheckRequest {
    type Answer = RecheckAnswer;
    const RECORD: Option<&'static str> = Some("recorded");

    fn answer(&self, input_digest: String, options: &Options) -> Result<RecheckAnswer, Vec<Fault>> {
        run(self, input_digest, options)
    }
}

/// Checks a job as built. Pure: the same request gives the same answer.
///
/// `input_digest` is that of the request without its record.
///
/// # Errors
/// Every fault of the request that its schema cannot see.
pub fn run(
    request: &RecheckRequest,
    input_digest: String,
    options: &Options,
) -> Result<RecheckAnswer, Vec<Fault>> {
    let TakenBuilt { taken, built, lines } = intake::take_built(request)?;
    let checked = built::check(&taken.job, &built, lines.clone());
    let mut answer =
        report::recheck(&taken.job, &built, &checked, taken.assumptions.clone(), &taken.remarks);
    answer.reference.clone_from(&request.reference);
    answer.input_digest = input_digest;
    answer.suggestion = suggestion(&taken, &built, &checked, lines);
    answer.difference = request.recorded.as_ref().map(|recorded| difference(recorded, &answer));
    if options.trace {
        answer.trace = Some(trace::lines(&taken.job, &checked.layout));
    }
    Ok(answer)
}

/// Hooks to add where rails do not hold, and the whole job checked with them.
fn suggestion(
    taken: &Taken,
    built: &Built,
    checked: &Checked,
    lines: Vec<RailLine>,
) -> Option<Suggestion> {
    let Taken { job, remarks, .. } = taken;
    let repairs = repair::repairs(job, built, checked);
    if repairs.is_empty() {
        return None;
    }
    let with = repair::repaired(job, built, &repairs);
    let after = built::check(job, &with, lines);
    let stands = report::standing(job, &with, &after, remarks);
    Some(report::suggestion(job, checked, &repairs, stands))
}

fn difference(recorded: &Recorded, answer: &RecheckAnswer) -> Difference {
    let differs = |then: &Option<String>, now: &str| then.as_ref().map(|then| then != now);
    let now = answer.utilisation.max;
    Difference {
        recorded_max_utilisation: recorded.max_utilisation,
        max_utilisation: now,
        change: recorded.max_utilisation.map(|then| rounding::factor(now - then)),
        verdict_changed: recorded.verdict.map(|then: Verdict| then != answer.verdict),
        rules_changed: differs(&recorded.rules_revision, &answer.engine.rules.revision),
        engine_changed: differs(&recorded.engine_version, &answer.engine.version),
        input_changed: differs(&recorded.input_digest, &answer.input_digest),
    }
}
