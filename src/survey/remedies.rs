//! What to tell a crew whose rail cannot be straight: why, and which single change would help.
//!
//! **Model.** A remedy is found by solving the changed problem again, so it is sure to help. Each
//! is the least of its kind.
//!
//! **Effort.** Where a slot is shorter than the steps of the stacks a question may take a search.
//! All of them draw on one stock of steps; what it does not suffice for is not named.

use super::levelling::Exact;
use super::packing::Problem;
use super::reading::{Reading, height, hundredths};
use super::{MOST_HOOKS, Reason, Remedy, conflict};

/// How far beyond the given limit a higher stack is looked for, hundredths of a millimetre.
const HIGHER_STACKS: usize = 5_000;
/// A face is planed by whole tenths of a millimetre.
const PLANING_STEP: Exact = 100_000;

/// Why a problem without solution has none.
#[must_use]
pub fn reason(problem: &Problem, steps: &mut usize) -> Reason {
    if let Some(clash) = conflict::smallest(problem) {
        let by = height(clash.by());
        return Reason::NotStraight { proud: clash.proud, low: clash.low, by };
    }
    // Hooks are left out one by one as long as the rest is impossible: what remains is
    // possible without any one of them.
    let mut kept: Vec<usize> = (0..problem.stations.len()).collect();
    for hook in 0..problem.stations.len() {
        let rest: Vec<usize> = kept.iter().copied().filter(|other| *other != hook).collect();
        let stations = rest.iter().map(|i| problem.stations[*i]).collect();
        let part = Problem { stations, ..problem.clone() };
        if !rest.is_empty() && part.is_possible(steps) == Some(false) {
            kept = rest;
        }
    }
    Reason::SlotShorterThanSteps { hooks: kept }
}

/// Whatever makes it possible by itself.
#[must_use]
pub fn all(reading: &Reading, reason: &Reason, steps: &mut usize) -> Vec<Remedy> {
    let mut remedies = Vec::new();
    if let Ok(problem) = reading.problem() {
        remedies.extend(longer_slot(&problem, steps));
    }
    remedies.extend(higher_stack(reading, steps));
    if let Reason::NotStraight { proud, .. } = reason {
        remedies.extend(proud.iter().filter_map(|hook| lower_face(reading, *hook, steps)));
    }
    remedies
}

/// The least by which longer slots make it possible. Longer slots never make it impossible: from
/// the length that lets the gates through and bridges every step it is possible, and below it the
/// range is halved.
fn longer_slot(problem: &Problem, steps: &mut usize) -> Option<Remedy> {
    let longer = |by| Problem { range: problem.range + by, ..problem.clone() };
    let mut low = conflict::worst(problem).map_or(0, |clash| clash.by());
    let mut high = low.max(problem.widest_step() - problem.range);
    while low < high {
        let middle = (low + high).div_euclid(2);
        if longer(middle).is_possible(steps)? {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    (high > 0).then(|| Remedy::LongerSlot { by: height(high) })
}

/// The lowest limit of stacks that makes it possible. More heights never make it impossible,
/// so the range of limits is halved.
fn higher_stack(reading: &Reading, steps: &mut usize) -> Option<Remedy> {
    let (last, _) = reading.stacks.heights().last()?;
    let raised = |hundredth: usize| reading.stacked_up_to(height(hundredths(hundredth)));
    let highest = raised(last + HIGHER_STACKS);
    let tops: Vec<usize> = highest.stacks.heights().map(|(h, _)| h).filter(|h| *h > last).collect();
    let mut does = |h: &usize| {
        raised(*h).problem().is_ok_and(|problem| problem.is_possible(steps) == Some(true))
    };
    let at = tops.partition_point(|h| !does(h));
    tops.get(at).map(|h| Remedy::HigherStack { to: height(hundredths(*h)) })
}

/// Each round ends the worst clash with the least planing that will; the planing one hook
/// needs is the limit of that, or it does not help.
fn lower_face(reading: &Reading, hook: usize, steps: &mut usize) -> Option<Remedy> {
    let problem = reading.problem().ok()?;
    let station = problem.stations.get(hook)?;
    let spare = problem.heights[station.first] - reading.hooks[hook].need;
    let mut by = 0;
    // Every clash that can be met is one of finitely many; a few rounds are the rule.
    for _ in 0..MOST_HOOKS {
        let lowered = reading.planed(hook, by).problem().ok()?;
        let Some(clash) = conflict::worst(&lowered) else {
            let does = by > 0 && lowered.is_possible(steps) == Some(true);
            return does.then_some(Remedy::LowerFace { hook, by: height(by) });
        };
        let more = clash.sinking(hook)?;
        by = -(-(by + more)).div_euclid(PLANING_STEP) * PLANING_STEP;
        (by <= spare).then_some(())?;
    }
    None
}
