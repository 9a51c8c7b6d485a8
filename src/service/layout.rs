//! `POST /v1/layouts`: request in, layout with its checks out.

use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::wire::fault::Fault;
use crate::wire::layout::{LayoutAnswer, LayoutRequest, SearchOutcome};
use crate::wire::remarks::Verdict;
use crate::wire::short::Completion;

use super::answer::record;
use super::intake;
use super::intake::short::{self, Completed, Said};
use super::laying::Laid;
use super::request::{Names, Options, Request};
use super::{answer, phases, remedies, room, savings, trace};

impl Request for LayoutRequest {
    type Answer = LayoutAnswer;
    const APART: &'static [&'static str] = &["capacity", "remedies", "savings", "room_to_move"];

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
        let mut others = answer.phases.iter().flat_map(|phases| &phases.phases);
        let ended = rails.any(|rail| matches!(rail.outcome, BestFound | NoneFound));
        Some(ended || others.any(|phase| phase.cut_short))
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
    request.components.hook_id().clone_into(&mut answer.hook_part);
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
    if let Some(said) = &request.roof.rafters.unmeasured {
        return phases::laid_out(request, said, options);
    }
    let laid = Laid::of(intake::take(request)?, options.effort.clone());
    let mut answer = laid.answer(request, options.reader);
    if told == Told::WithRemedies {
        let asked = (request, &*answer.fields);
        let stands = (laid.job(), &laid.layout, laid.took);
        let tried = remedies::tried(asked, stands, &laid.assessed, &options.effort);
        answer.remedies = tried.map(|tried| answer::remedies(tried, options.reader));
        answer.savings = savings::found(asked, &laid, &options.effort, options.reader);
        answer.room_to_move = room::found(request, &laid, &options.effort, options.reader);
    }
    Ok((laid.taken.job, laid.layout, answer))
}
