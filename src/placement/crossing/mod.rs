//! Crossing rails: lower ones up the slope on hooks, upper ones along the eaves on them.
//!
//! Two upper rails lie under each row of modules wherever their clamps want them, so that no row has to follow
//! the courses. Lower rails lie over rafters as rails up the slope do and bear every upper rail they pass under.
//! A connector holds the rails together: it passes on the force square to the slope and the force down it, which
//! acts at the upper face of the lower rail, half its depth above its bolts.
//!
//! **Statics.** All rails of a field are solved together (`together.rs`). The upper rails lean on the lower ones as
//! these give way, and these bear what comes of that. Each lower rail under those forces is a rail up the slope as
//! any other, with the same checks.
//!
//! **Search.** What is chosen is over which rafters lower rails lie and which of their courses have hooks.
//! * *Rafters.* Every `k`-th that a rail may lie over is tried, from each beginning, and rafters that hold the
//!   ends of upper rails are added. When every `k`-th overloads the upper rails from whichever beginning, or none
//!   passes any more, wider steps are not tried.
//! * *Hooks.* With forces from both layers solved together each lower rail is searched by itself for its fewest
//!   hooks. On those the forces are others: both layers are solved again, until every rail stays within its
//!   bound under the forces that belong to the hooks it has.
//!
//! The choice with the fewest hooks is taken, of these the one with the fewest lower rails, then the one used
//! least. Where every upper rail lies on two lower ones, what these bear is a matter of statics alone, and the
//! number of hooks of each lower rail is proven for the rafters chosen. Otherwise it is found, not proven.
//!
//! **Left out.** Torsion of rails, the give of connectors, and lower rails that differ from upper ones. Also that a
//! lower rail which is bent turns, and so moves its upper face along the slope: in the frame of
//! `tests/reference/boathouse_frame.py`, which has that, connectors differ by up to 10 N of 370 N down the slope, hooks
//! by 2 N of 500 N, and the most used connector by 0.0042 of 0.3885.

mod beneath;
mod together;
mod upper;

use std::collections::BTreeSet;

use crate::effort::Allowance;
use crate::units::Length;

use super::Job;
use super::footing::Footing;
use super::laid::Rail;
use super::search::Pattern;

use beneath::Beneath;
use together::{Chosen, Settled};
use upper::UpperSegment;

pub use beneath::lines;

/// The rails of a job whose rails cross: lower ones, then upper ones, field by field.
pub(super) fn rails(
    job: &Job,
    footings: &[Footing],
    pattern: Pattern,
    allowance: &mut Allowance,
) -> Vec<Rail> {
    let mut all: Vec<Rail> = Vec::new();
    let fields = job.fields.len();
    for field in 0..fields {
        let mut share = allowance.part((fields - field) as u64);
        let of_field = of_field(job, footings, (field, &all), pattern, &mut share);
        allowance.take_back(&share);
        all.extend(of_field);
    }
    all
}

/// The rails of one field beside those of others.
fn of_field(
    job: &Job,
    footings: &[Footing],
    (field, others): (usize, &[Rail]),
    pattern: Pattern,
    allowance: &mut Allowance,
) -> Vec<Rail> {
    let lines = upper::lines(job, field);
    let uppers = upper::segments(job, footings, &lines);
    let beneath = beneath::under(job, footings, &uppers, (field, others));
    let choices = choices(job, &uppers, &beneath);
    let mut best: Option<Settled> = None;
    let mut left = choices.iter().map(Vec::len).sum::<usize>() as u64;
    for of_step in &choices {
        let (mut is_borne, mut passes) = (false, false);
        for rafters in of_step {
            let mut share = allowance.part(left.max(1));
            left -= 1;
            let chosen = Chosen::of(job, footings, &uppers, rafters.iter().map(|at| &beneath[*at]));
            let settled = chosen.settled(pattern, &mut share);
            allowance.take_back(&share);
            allowance.spend(settled.solving);
            is_borne |= settled.uppers_pass;
            passes |= settled.passes;
            if best.as_ref().is_none_or(|best| settled.is_better_than(best)) {
                best = Some(settled);
            }
        }
        // With wider steps upper rails are bent more, and fewer lower ones bear more each.
        let has_passed = best.as_ref().is_some_and(|best| best.passes);
        if !is_borne || has_passed && !passes || allowance.is_spent() {
            break;
        }
    }
    best.map_or_else(Vec::new, |best| named(job, field, best.into_rails(job, &lines)))
}

/// Numbers the rails of a field, the lower ones first.
fn named(job: &Job, field: usize, mut rails: Vec<Rail>) -> Vec<Rail> {
    for (number, rail) in rails.iter_mut().enumerate() {
        rail.line.id = format!("{}{}", job.fields[field].id, number + 1);
    }
    rails
}

/// Which rafters lower rails may lie over, by place among those that can bear one: every first, every second
/// and so on, from each beginning, each with those added that hold the ends of upper rails. No choice comes twice.
/// Where none can, the only choice is to have none.
fn choices(job: &Job, uppers: &[UpperSegment], beneath: &[Beneath]) -> Vec<Vec<Vec<usize>>> {
    let mut seen: BTreeSet<Vec<usize>> = BTreeSet::new();
    let mut all = Vec::new();
    for step in 1..=beneath.len().max(1) {
        let mut of_step = Vec::new();
        for first in 0..step {
            let mut chosen: BTreeSet<usize> = (first..beneath.len()).step_by(step).collect();
            for (u, upper) in uppers.iter().enumerate() {
                hold_ends(job, (u, upper), beneath, &mut chosen);
            }
            let chosen: Vec<usize> = chosen.into_iter().collect();
            if seen.insert(chosen.clone()) {
                of_step.push(chosen);
            }
        }
        all.push(of_step);
    }
    all
}

/// Adds rafters that hold the ends of an upper rail, where none of those chosen does and some can: the ones
/// farthest from its ends.
fn hold_ends(
    job: &Job,
    (u, upper): (usize, &UpperSegment),
    beneath: &[Beneath],
    chosen: &mut BTreeSet<usize>,
) {
    let limit = job.rail.max_cantilever;
    let reach: [&dyn Fn(Length) -> Length; 2] = [&|x| x - upper.ends[0], &|x| upper.ends[1] - x];
    for free in reach {
        let holds = |at: &usize| {
            let line = &beneath[*at];
            line.bears(u) && free(line.line.across) <= limit
        };
        if chosen.iter().any(holds) {
            continue;
        }
        let far = |at: &usize| free(beneath[*at].line.across).mm();
        let able = (0..beneath.len()).filter(holds);
        chosen.extend(able.max_by(|a, b| far(a).total_cmp(&far(b))));
    }
}
