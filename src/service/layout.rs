//! `POST /v1/layouts`: request in, layout with its checks out.

use crate::assessment;
use crate::parts::take_off::take_off;
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::layout::counted;
use crate::wire::fault::Fault;
use crate::wire::layout::{LayoutAnswer, LayoutRequest, SearchOutcome};
use crate::wire::remarks::Verdict;
use crate::wire::short::Completion;

use super::answer::record;
use super::intake::short::{self, Completed, Said};
use super::intake::{self, Taken};
use super::request::{Names, Options, Request};
use super::{answer, remedies, trace};

impl Request for LayoutRequest {
    type Answer = LayoutAnswer;
    const APART: &'static [&'static str] = &["capacity", "remedies"];

    fn completed(said: &dyn Said) -> Completed {
        short::completed(said)
    }

    fn with_completions(self, completions: Vec<Completion>) -> Self {
        Self { completions, ..self }
    }

    fn answer(&self, names: Names<'_>, options: &Options) -> Result<LayoutAnswer, Vec<Fault>> {
        run(self, names, options)
    }

    fn verdict(answer: &LayoutAnswer) -> Option<Verdict> {
        Some(answer.verdict)
    }

    fn cut_short(answer: &LayoutAnswer) -> Option<bool> {
        use SearchOutcome::{BestFound, NoneFound};
        let mut rails = answer.optimality.rails.iter();
        Some(rails.any(|rail| matches!(rail.outcome, BestFound | NoneFound)))
    }
}

/// Lays out a job. Pure: the same request gives the same answer.
///
/// # Errors
/// Every fault of the request that its schema cannot see.
pub fn run<'a>(
    request: &LayoutRequest,
    names: impl Into<Names<'a>>,
    options: &Options,
) -> Result<LayoutAnswer, Vec<Fault>> {
    let (job, layout, mut answer) = laid_out(request, options, Told::WithRemedies)?;
    answer.reference.clone_from(&request.reference);
    let names = names.into();
    answer.job_key = names.job_key(&answer.assumptions, &answer.fields);
    answer.input_digest = names.input_digest;
    answer.record.recorded =
        record::recorded(&answer.engine, answer.verdict, answer.utilisation.max, &answer.job_key);
    if options.trace {
        answer.trace = Some(trace::lines(&job, &layout, options.reader.language));
    }
    Ok(answer)
}

/// How much of the answer is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Told {
    /// With what would lift what fails.
    WithRemedies,
    /// Without: a drawing shows none.
    WithoutRemedies,
}

/// The job, its layout with the rails cut, and the answer without reference, digest and trace.
pub(super) fn laid_out(
    request: &LayoutRequest,
    options: &Options,
    told: Told,
) -> Result<(Job, Layout, LayoutAnswer), Vec<Fault>> {
    let taken = intake::take(request)?;
    let Taken { mut job, kept, order, filled, assumptions, evidence, remarks } = taken;
    job.effort = options.effort.clone();
    let (mut layout, took) = counted(&job, &kept);
    let take_off = take_off(&job, &layout, &order);
    take_off.on(0).cut(&mut layout);
    let ordered = answer::Ordered {
        components: &request.components,
        kept: &kept,
        there: request.kept.as_ref(),
        order: &order,
        take_off: &take_off,
    };
    let assessed = assessment::of_layout(&job, &layout, take_off.on(0), &remarks);
    let judged = (&remarks, &assessed);
    let mut answer = answer::layout(&job, &layout, &ordered, &assumptions, judged, options.reader);
    answer.evidence = answer::evidence(&evidence);
    answer.fields = answer::filled(&job, &filled);
    if told == Told::WithRemedies {
        let asked = (request, &*answer.fields);
        let tried = remedies::tried(asked, (&job, &layout, took), &assessed, &options.effort);
        answer.remedies = tried.map(|tried| answer::remedies(tried, options.reader));
    }
    Ok((job, layout, answer))
}
