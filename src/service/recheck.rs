//! `POST /v1/rechecks`: a job as built in, its checks and what has changed since out.

use crate::assessment::{Assessment, Finding};
use crate::language::Reader;
use crate::placement::Job;
use crate::placement::built::{self, Built, Checked};
use crate::placement::laid::Layout;
use crate::placement::mending::{self, Mending};
use crate::placement::rail_lines::RailLine;
use crate::wire::fault::Fault;
use crate::wire::recheck::{
    Difference, DifferenceCause, RecheckAnswer, RecheckRequest, RepairOutcome, Suggestion,
};
use crate::wire::record::Recorded;
use crate::wire::remarks::Verdict;
use crate::wire::short::Completion;

use super::intake::short::{self, Completed, Said};
use super::intake::{self, Taken, TakenBuilt};
use super::request::{Names, Options, Request};
use super::{answer, mechanics, rounding, trace};

impl Request for RecheckRequest {
    type Answer = RecheckAnswer;
    const APART: &'static [&'static str] = &["recorded", "capacity"];

    fn completed(said: &dyn Said) -> Completed {
        short::completed(said)
    }

    fn with_completions(self, completions: Vec<Completion>) -> Self {
        Self { completions, ..self }
    }

    fn answer(&self, names: Names<'_>, options: &Options) -> Result<RecheckAnswer, Vec<Fault>> {
        run(self, names, options)
    }

    fn verdict(answer: &RecheckAnswer) -> Option<Verdict> {
        Some(answer.verdict)
    }

    fn cut_short(answer: &RecheckAnswer) -> Option<bool> {
        use RepairOutcome::{BestFound, NoneFound};
        let mut repairs = answer.suggestion.as_ref()?.segments.iter();
        Some(repairs.any(|repair| matches!(repair.outcome, BestFound | NoneFound)))
    }
}

/// Checks a job as built. Pure: the same request gives the same answer.
///
/// `input_digest` is that of the request without its record.
///
/// # Errors
/// Every fault of the request that its schema cannot see.
pub fn run<'a>(
    request: &RecheckRequest,
    names: impl Into<Names<'a>>,
    options: &Options,
) -> Result<RecheckAnswer, Vec<Fault>> {
    let (job, layout, mut answer, _) = rechecked(request, options)?;
    answer.reference.clone_from(&request.reference);
    let names = names.into();
    answer.job_key = names.job_key(&answer.assumptions, &[]);
    answer.input_digest = names.input_digest;
    request.components.hook_id().clone_into(&mut answer.hook_part);
    answer.difference = request.recorded.as_ref().map(|recorded| difference(recorded, &answer));
    if options.trace {
        answer.trace = Some(trace::lines(&job, &layout, options.reader.language));
    }
    Ok(answer)
}

/// The job, its rails and hooks as checked, the answer without reference, digest, difference
/// and trace, and the layout with what would mend it.
pub(super) fn rechecked(
    request: &RecheckRequest,
    options: &Options,
) -> Result<(Job, Layout, RecheckAnswer, Option<Layout>), Vec<Fault>> {
    let TakenBuilt { mut taken, built, lines, .. } = intake::take_built(request)?;
    taken.job.effort = options.effort.clone();
    let Rechecked { layout, answer, mended, .. } =
        answer(&taken, &built, &lines, (&[], options.reader));
    Ok((taken.job, layout, answer, mended))
}

/// A built job as checked.
pub(super) struct Rechecked {
    /// Its rails and hooks.
    pub layout: Layout,
    /// The answer about it: its checks, and what would mend it.
    pub answer: RecheckAnswer,
    /// The assessment it tells.
    pub assessed: Assessment,
    /// The layout with what would mend it.
    pub mended: Option<Layout>,
}

/// A built job as checked, with what else was found, for a reader.
pub(super) fn answer(
    taken: &Taken,
    built: &Built,
    lines: &[RailLine],
    (found, reader): (&[Finding], Reader),
) -> Rechecked {
    let Taken { job, assumptions, remarks, .. } = taken;
    let checked = built::check(job, built, lines.to_vec());
    let (mut answer, assessed) =
        answer::recheck(job, built, &checked, assumptions, remarks, (found, reader));
    answer.evidence = answer::evidence(&taken.evidence);
    // What would have held in the event need not hold what the site is designed for.
    let mended = remarks.event.is_none().then(|| suggestion(taken, built, &checked, lines, reader));
    let (suggestion, mended) = mended.flatten().unzip();
    answer.suggestion = suggestion;
    Rechecked { layout: checked.layout, answer, assessed, mended }
}

/// Feet to set anew and hooks to add where a job does not hold, and how it stands with them. Feet come
/// first: where they suffice no hook is added. Where the job would still fail, hooks come first.
fn suggestion(
    taken: &Taken,
    built: &Built,
    checked: &Checked,
    lines: &[RailLine],
    reader: Reader,
) -> Option<(Suggestion, Layout)> {
    let Taken { job, remarks, .. } = taken;
    let judged = |with: Mending| {
        let stands = answer::standing(job, &with.built, &with.checked, remarks);
        (with, stands)
    };
    let fails = |(_, (verdict, _)): &(Mending, (Verdict, f64))| *verdict == Verdict::Fails;
    let feet_first = judged(mending::feet_first(job, (built, checked), lines)?);
    let hooks_first = fails(&feet_first)
        .then(|| mending::hooks_first(job, (built, checked), lines).map(judged))
        .flatten()
        .filter(|with| !fails(with));
    let (best, stands) = hooks_first.unwrap_or(feet_first);
    let told = answer::suggestion((job, built), checked, &best, stands, reader);
    Some((told, best.checked.layout))
}

fn difference(recorded: &Recorded, answer: &RecheckAnswer) -> Difference {
    let differs = |then: &Option<String>, now: &str| then.as_ref().map(|then| then != now);
    let now = answer.utilisation.max;
    let model_changed = recorded.engine_model.map(|then| then != answer.engine.model);
    let input_changed = differs(&recorded.input_digest, &answer.input_digest)
        .or_else(|| differs(&recorded.job_key, &answer.job_key));
    let rules_changed = differs(&recorded.rules_revision, &answer.engine.rules.revision);
    let decided = recorded.verdict.is_some_and(|then| then != Verdict::Incomplete);
    let asked = decided && answer.verdict == Verdict::Incomplete && input_changed != Some(true);
    let single = [
        (input_changed == Some(true), DifferenceCause::Input),
        (rules_changed == Some(true), DifferenceCause::AnnexValues),
        (asked, DifferenceCause::DataAskedFor),
    ];
    let single = single.into_iter().filter(|(is, _)| *is).map(|(_, cause)| cause);
    let of_mechanics = recorded.engine_model.into_iter().flat_map(mechanics::since);
    Difference {
        recorded_max_utilisation: recorded.max_utilisation,
        max_utilisation: now,
        change: recorded.max_utilisation.map(|then| rounding::factor(now - then)),
        recorded_verdict: recorded.verdict,
        verdict_changed: recorded.verdict.map(|then: Verdict| then != answer.verdict),
        rules_changed,
        engine_changed: differs(&recorded.engine_version, &answer.engine.version),
        model_changed,
        input_changed,
        causes: single.chain(of_mechanics).collect(),
    }
}
