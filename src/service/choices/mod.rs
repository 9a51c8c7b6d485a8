//! `POST /v1/choices`: a layout with freedom in, the best of all choices out, and what the others come to.
//!
//! The layout of a choice is the one that a request for it would be answered with. Nothing is decided here but
//! which of them is the best: whether one holds is for the assessment.

mod looking;
mod ranking;

use crate::assessment;
use crate::wire::array::FilledField;
use crate::wire::choices::{
    ChoiceCounts, ChoiceRow, ChoicesAnswer, ChoicesRequest, LeastVerdict, Rate,
};
use crate::wire::fault::Fault;
use crate::wire::kinds::ChoicesTag;
use crate::wire::layout::LayoutAnswer;
use crate::wire::parts::OrderedKind;
use crate::wire::provenance::Assumption;
use crate::wire::remarks::Verdict;
use crate::wire::remedies::Edit;
use crate::wire::short::Completion;

use super::answer;
use super::intake::choices::combination::Combination;
use super::intake::short::{self, Completed, Said};
use super::intake::{TakenChoices, take_choices};
use super::layout;
use super::request::{Names, Options, Request};

use looking::{Outcome, look, rates};
use ranking::{Class, Looked, hooks_against_price};

impl Request for ChoicesRequest {
    type Answer = ChoicesAnswer;
    const SEARCH_LIMIT: &'static str = "/job/wishes/search_limit";

    fn completed(said: &dyn Said) -> Completed {
        completed(said)
    }

    fn with_completions(mut self, completions: Vec<Completion>) -> Self {
        self.job.completions = completions;
        self
    }

    fn answer(&self, names: Names<'_>, options: &Options) -> Result<ChoicesAnswer, Vec<Fault>> {
        run(self, names, options)
    }

    fn verdict(answer: &ChoicesAnswer) -> Option<Verdict> {
        Some(answer.verdict)
    }

    fn cut_short(answer: &ChoicesAnswer) -> Option<bool> {
        Some(!answer.complete)
    }
}

/// What a document says of its job, as if the job were all of it.
struct OfJob<'a>(&'a dyn Said);

impl Said for OfJob<'_> {
    fn number(&self, pointer: &str) -> Option<f64> {
        self.0.number(&of_job(pointer))
    }

    fn text(&self, pointer: &str) -> Option<&str> {
        self.0.text(&of_job(pointer))
    }

    fn count(&self, pointer: &str) -> usize {
        self.0.count(&of_job(pointer))
    }

    fn has(&self, pointer: &str) -> bool {
        self.0.has(&of_job(pointer))
    }
}

fn of_job(pointer: &str) -> String {
    format!("/job{pointer}")
}

/// Completes the job.
fn completed(said: &dyn Said) -> Completed {
    let mut out = short::completed(&OfJob(said));
    out.filled.iter_mut().for_each(|filled| filled.pointer = of_job(&filled.pointer));
    out.faults.iter_mut().for_each(|fault| fault.pointer = of_job(&fault.pointer));
    out
}

/// Finds the best of all choices. Pure: the same request gives the same answer.
///
/// # Errors
/// Every fault of the request that its schema cannot see, and those of the job where no choice can be laid.
pub fn run<'a>(
    request: &ChoicesRequest,
    names: impl Into<Names<'a>>,
    options: &Options,
) -> Result<ChoicesAnswer, Vec<Fault>> {
    let names = names.into();
    let taken = take_choices(request)?;
    let mut outcome = look(request, &taken, &options.effort);
    let Some(rules) = outcome.rules else { return Err(outcome.faults) };
    outcome.looked.sort_by(Looked::compare);
    let best = outcome.looked.first().filter(|best| !best.class.fails());
    let (layout, edits) = match best {
        Some(best) => {
            let (layout, edits) = in_full((request, &taken), best.at, &names, options)?;
            (Some(layout), edits)
        }
        None => (None, Vec::new()),
    };
    let rows = |of: &mut dyn Iterator<Item = &Looked>| -> Vec<ChoiceRow> {
        of.map(|looked| looked.row.clone()).collect()
    };
    let alike = outcome.looked.iter().filter(|of| best.is_some_and(|best| best.class == of.class));
    let [without_price, without_minutes] = without_rates(request, &outcome);
    Ok(ChoicesAnswer {
        kind: ChoicesTag,
        reference: request.reference.clone(),
        engine: answer::engine(rules),
        input_digest: names.input_digest.clone(),
        verdict: match best {
            Some(best) => best.row.verdict,
            None if outcome.looked.is_empty() => Verdict::Incomplete,
            None => Verdict::Fails,
        },
        least_verdict: match taken.least {
            assessment::Verdict::Holds => LeastVerdict::Holds,
            assessment::Verdict::Incomplete | assessment::Verdict::Fails => {
                LeastVerdict::Incomplete
            }
            assessment::Verdict::HoldsWithWarnings => LeastVerdict::HoldsWithWarnings,
        },
        reached: best.is_some_and(|best| best.class == Class::REACHED),
        counts: counts(&taken, &outcome),
        complete: outcome.not_reached == 0,
        no_better_than: best.map(|best| best.row.aim).filter(|_| outcome.not_reached == 0),
        best: best.map(|best| best.row.clone()),
        edits,
        as_asked: outcome.looked.iter().find(|of| of.at == 0).map(|of| of.row.clone()),
        rows: rows(&mut outcome.looked.iter().take(taken.rows)),
        hooks_against_price: rows(&mut hooks_against_price(alike).into_iter()),
        refused: outcome.refused,
        without_price,
        without_minutes,
        layout,
        cautions: answer::cautions(options.reader),
    })
}

/// The layout of a choice as a request for it is answered, with the edits of the job that make it.
fn in_full(
    (request, taken): (&ChoicesRequest, &TakenChoices),
    at: usize,
    names: &Names<'_>,
    options: &Options,
) -> Result<(LayoutAnswer, Vec<Edit>), Vec<Fault>> {
    let (made, edits) = taken.all[at].made(request, &taken.moved);
    let key = |_: Option<usize>, assumed: &[Assumption], filled: &[FilledField]| {
        names.key_of_job(&edits, assumed, filled)
    };
    let named = Names::new(names.digest_of_job(&edits), &key);
    Ok((layout::run(&made, named, options)?, edits))
}

fn counts(taken: &TakenChoices, outcome: &Outcome) -> ChoiceCounts {
    let choices = taken.all.len() as u64;
    let laid_out = outcome.looked.len() as u64;
    let not_reached = outcome.not_reached as u64;
    let refused = outcome.refused.iter().map(|of| of.choices).sum();
    ChoiceCounts { choices, laid_out, refused, not_reached }
}

/// Kinds of part that have no price, and those that have no minutes; none where nothing has any.
fn without_rates(request: &ChoicesRequest, outcome: &Outcome) -> [Vec<OrderedKind>; 2] {
    // Of a kind of part either all that may be chosen have a price, or none has.
    let rates = rates(request, &Combination::as_asked(request.choices.positions.len()));
    let without = |figure: fn(&Rate) -> Option<f64>| {
        let any = rates.any(figure);
        let kinds = outcome.kinds.iter().copied().filter(|_| any);
        kinds.filter(|kind| rates.of(*kind).as_ref().and_then(figure).is_none()).collect()
    };
    [without(|rate| rate.price), without(|rate| rate.minutes)]
}
