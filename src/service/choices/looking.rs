//! All choices looked at: each is made to the job, which is then understood, laid out and assessed like any other.
//!
//! All of them share what the job may take. A layout that a limit ended is not that of its choice: where more steps
//! could have made another of it, looking ends there.

use std::collections::BTreeSet;

use crate::codes::Rules;
use crate::effort::{Allowance, Effort};
use crate::service::answer::choices::row;
use crate::service::intake::choices::combination::{Combination, PartChosen};
use crate::service::intake::choices::{TakenChoices, in_request, rate};
use crate::service::intake::{self};
use crate::service::laying::Laid;
use crate::service::steps::beside_the_search;
use crate::wire::choices::{ChoicesRequest, Rates, RefusedChoices};
use crate::wire::fault::Fault;
use crate::wire::parts::OrderedKind;

use super::ranking::{Class, Looked};

/// Steps that understanding a job is counted as.
const UNDERSTANDING: u64 = 10_000;

/// What became of all choices.
#[derive(Debug)]
pub struct Outcome {
    /// Rules they are judged by; nothing where none can be laid.
    pub rules: Option<Rules>,
    /// Those laid out, in the order in which they were.
    pub looked: Vec<Looked>,
    /// Why others cannot be.
    pub refused: Vec<RefusedChoices>,
    /// Faults of the first that cannot be.
    pub faults: Vec<Fault>,
    /// How many were not come to.
    pub not_reached: usize,
    /// Kinds of part ordered for any of them.
    pub kinds: BTreeSet<OrderedKind>,
}

/// Looks at all choices.
#[must_use]
pub fn look(request: &ChoicesRequest, taken: &TakenChoices, effort: &Effort) -> Outcome {
    let mut out = Outcome {
        rules: None,
        looked: Vec::new(),
        refused: Vec::new(),
        faults: Vec::new(),
        not_reached: 0,
        kinds: BTreeSet::new(),
    };
    let mut left = Allowance::from(effort);
    for (at, choice) in taken.all.iter().enumerate() {
        if at > 0 && left.is_spent() {
            out.not_reached = taken.all.len() - at;
            break;
        }
        let (made, _) = choice.made(request, &taken.moved);
        let understood = match intake::take(&made) {
            Ok(understood) => understood,
            Err(faults) => {
                left.spend(UNDERSTANDING);
                let faults = faults.into_iter().map(|fault| in_request(fault, choice)).collect();
                out.refuse(request, choice, faults);
                continue;
            }
        };
        let rest = left.effort(1);
        let is_whole = rest.steps == effort.steps;
        out.rules = Some(understood.job.rules);
        let laid = Laid::of(understood, rest);
        left.spend(taken_by(&laid));
        if laid.took.cut_short && !is_whole {
            out.not_reached = taken.all.len() - at;
            break;
        }
        let rates = rates(request, choice);
        let (row, kinds) = row(choice.told(request), (&laid, &made), (&rates, taken.weights));
        out.kinds.extend(kinds);
        out.looked.push(Looked { at, class: Class::of(&row, taken.least), row });
    }
    out
}

/// Steps that laying out a choice is counted as, so that those of a job are spent in about the time they take of a
/// search. What is beside the search grows faster than the modules, about with the power 3/2 of their number: as
/// measured on arrays of 18 to 3000.
fn taken_by(laid: &Laid) -> u64 {
    let times = (laid.layout.modules.len().isqrt() / 3).max(2) as u64;
    let beside = beside_the_search(laid.job(), &laid.layout).saturating_mul(times);
    UNDERSTANDING.saturating_add(laid.took.steps).saturating_add(beside)
}

impl Outcome {
    fn refuse(&mut self, request: &ChoicesRequest, choice: &Combination, faults: Vec<Fault>) {
        let Some(first) = faults.first() else { return };
        let is_same = |known: &&mut RefusedChoices| {
            (&known.pointer, known.code) == (&first.pointer, first.code)
        };
        match self.refused.iter_mut().find(is_same) {
            Some(known) => known.choices += 1,
            None => self.refused.push(RefusedChoices {
                choices: 1,
                first: choice.told(request),
                pointer: first.pointer.clone(),
                code: first.code,
                detail: first.detail.clone(),
            }),
        }
        if self.faults.is_empty() {
            self.faults = faults;
        }
    }
}

/// What the parts of a choice cost and how long they take.
pub fn rates(request: &ChoicesRequest, choice: &Combination) -> Rates {
    let chosen = |kind: PartChosen| rate(request, kind, choice.part(kind));
    Rates {
        hook: chosen(PartChosen::Hook),
        screw: chosen(PartChosen::Screw),
        rail: chosen(PartChosen::Rail),
        clamp: chosen(PartChosen::Clamp),
        ..request.rates.clone().unwrap_or_default()
    }
}
