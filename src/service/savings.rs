//! What one change of a layout that does not fail would save, each tried: the change is made to the request, which
//! is then understood, laid out and assessed like any other. And what one hook fewer would mean.
//!
//! All tries share what the job may still take. One that did not come to its end is left out: what it would come to
//! by itself may be something else.

use crate::assessment::Verdict;
use crate::assessment::remedies::{Change, cheaper};
use crate::effort::{Allowance, Effort};
use crate::language::Reader;
use crate::placement::Objective;
use crate::placement::one_fewer::one_fewer;
use crate::wire::array::FilledField;
use crate::wire::layout::LayoutRequest;
use crate::wire::savings::{OneHookFewer, Saving, Savings};

use super::answer::savings::{self, Stands};
use super::intake;
use super::laying::Laid;
use super::remedies::{in_full, made};
use super::steps::beside_the_search;

/// What saves something; `None` where nobody asks.
#[must_use]
pub fn found(
    (request, filled): (&LayoutRequest, &[FilledField]),
    laid: &Laid,
    effort: &Effort,
    reader: Reader,
) -> Option<Savings> {
    if request.savings != Some(true) {
        return None;
    }
    let mut out =
        Savings { tried: 0, complete: true, changes: Vec::new(), one_hook_fewer: Vec::new() };
    if laid.assessed.verdict() == Verdict::Fails {
        return Some(out);
    }
    let in_full = in_full(request, filled);
    let whole = in_full.as_ref().map_or(request, |(in_full, _)| in_full);
    let mut left = Allowance::from(effort);
    left.spend(laid.took.steps);
    let before = Stands::of(laid);
    let mut changes = cheaper(laid.job(), &laid.layout);
    if request.kept.is_some() {
        // Hooks that are there have the parts they have.
        changes.retain(|change| !change.takes_another_part());
    }
    let mut saving: Vec<(Change, Stands)> = Vec::new();
    for (at, change) in changes.iter().enumerate() {
        let (changed, _) = made(whole, std::slice::from_ref(change));
        // A field moved off the roof or onto another saves nothing.
        let Ok(taken) = intake::take(&changed) else { continue };
        if left.is_spent() {
            out.complete = false;
            break;
        }
        out.tried += 1;
        // What one hook fewer would mean has a share like that of a try.
        let tried = Laid::of(taken, left.effort((changes.len() - at) as u64 + 1));
        let beside = beside_the_search(tried.job(), &tried.layout);
        left.spend(tried.took.steps.saturating_add(beside));
        if tried.took.cut_short {
            out.complete = false;
            continue;
        }
        let after = Stands::of(&tried);
        let is_sound =
            after.standing.is_cured() && after.standing.new_incomplete(&before.standing).is_empty();
        if is_sound && after.counted() < before.counted() {
            saving.push((change.clone(), after));
        }
    }
    // Of equals the one that was tried first: the smallest move.
    saving.sort_by_key(|(_, after)| after.counted());
    for (change, after) in saving {
        if out.changes.iter().any(|better: &Saving| better.change == change.kind()) {
            continue;
        }
        let (_, edits) = made(whole, std::slice::from_ref(&change));
        let first = in_full.iter().map(|(_, edit)| edit.clone());
        let edits = first.chain(edits).collect();
        out.changes.push(savings::saving(&change, edits, (&before, &after), reader));
    }
    out.one_hook_fewer = fewer(laid, &mut left, reader);
    Some(out)
}

/// What one hook fewer would mean on every segment that was searched in any pattern and passes.
fn fewer(laid: &Laid, left: &mut Allowance, reader: Reader) -> Vec<OneHookFewer> {
    let (job, layout) = (laid.job(), &laid.layout);
    if job.wishes.objective != Objective::FewestHooks || job.rails_cross {
        return Vec::new();
    }
    let segments =
        layout.rails.iter().enumerate().flat_map(|(r, rail)| {
            rail.segments.iter().enumerate().map(move |(s, of)| ([r, s], of))
        });
    let passing = segments.filter(|(_, of)| of.found.outcome.passes());
    passing
        .filter_map(|(at, of)| {
            let fewer = one_fewer(of, left)?;
            Some(savings::one_hook_fewer((job, layout), at, &fewer, reader))
        })
        .collect()
}
