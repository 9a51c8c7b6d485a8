//! What would lift the failing checks of a layout, tried: each change is made to the request, which is
//! then understood, laid out and assessed like any other.
//!
//! All tries share what the job may still take. One that did not come to its end is left out: what it
//! would come to by itself may be something else.

mod edits;

use std::cmp::Ordering;

use crate::assessment::remedies::{Change, Proposal, Remedy, Standing, best_first, proposals};
use crate::assessment::{self, Assessment, Verdict};
use crate::effort::{Allowance, Effort};
use crate::parts::take_off::take_off;
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::layout::{Took, counted};
use crate::wire::array::FilledField;
use crate::wire::layout::LayoutRequest;
use crate::wire::remedies::Edit;

use super::intake::{self, Taken};
use super::steps::beside_the_search;

pub use edits::{in_full, made};

/// Times the job is laid out with several changes at once, at most.
const MOST_TOGETHER: usize = 3;

/// What was tried.
#[derive(Debug)]
pub struct Tried {
    /// How the job stands as it is.
    pub before: Standing,
    /// How often something was tried.
    pub times: usize,
    /// Whether every try came to its end.
    pub complete: bool,
    /// What helps, best first, each with its edits of the request.
    pub helping: Vec<(Remedy, Vec<Edit>)>,
}

/// Tries what may help a layout that fails; `None` where it does not fail, or nobody asks.
#[must_use]
pub fn tried(
    (request, filled): (&LayoutRequest, &[FilledField]),
    (job, layout, took): (&Job, &Layout, Took),
    assessed: &Assessment,
    effort: &Effort,
) -> Option<Tried> {
    if assessed.verdict() != Verdict::Fails || request.remedies == Some(false) {
        return None;
    }
    let in_full = edits::in_full(request, filled);
    let request = in_full.as_ref().map_or(request, |(in_full, _)| in_full);
    let mut left = Allowance::from(effort);
    left.spend(took.steps);
    let before = Standing::of(layout, assessed);
    let mut tries = Tries { request, before: &before, left, times: 0, yet: 1, complete: true };
    let mut proposals = proposals(job, layout, assessed);
    if request.kept.is_some() {
        // Hooks that are there have the parts they have.
        proposals.retain(|proposal| !proposal.takes_another_part());
    }
    tries.yet = MOST_TOGETHER + proposals.iter().map(Proposal::most_tries).sum::<usize>();
    let mut found = Vec::new();
    for proposal in proposals {
        found.extend(match proposal {
            Proposal::One(change) => tries.of(vec![change]),
            Proposal::Growing(changes) => tries.least_of(&changes),
        });
    }
    let mut found = best_first(found);
    found.extend(tries.together(&found));
    let Tries { times, complete, .. } = tries;
    let with_edits = |remedy: Remedy| {
        let (_, edits) = edits::made(request, &remedy.changes);
        let first = in_full.iter().map(|(_, edit)| edit.clone());
        let edits = first.chain(edits).collect();
        (remedy, edits)
    };
    let helping = best_first(found).into_iter().map(with_edits).collect();
    Some(Tried { before, times, complete, helping })
}

struct Tries<'a> {
    request: &'a LayoutRequest,
    before: &'a Standing,
    left: Allowance,
    times: usize,
    /// Tries that may still come: each may take an equal part of what is left.
    yet: usize,
    complete: bool,
}

impl Tries<'_> {
    /// The changes as a remedy, if they are one.
    fn of(&mut self, changes: Vec<Change>) -> Option<Remedy> {
        let part = self.yet.max(1);
        self.yet = part - 1;
        if self.left.is_spent() {
            self.complete = false;
            return None;
        }
        self.times += 1;
        let (changed, _) = edits::made(self.request, &changes);
        // A field moved off the roof or onto another is no remedy.
        let Taken { mut job, kept, order, remarks, .. } = intake::take(&changed).ok()?;
        job.effort = self.left.effort(part as u64);
        let (mut layout, took) = counted(&job, &kept);
        self.left.spend(took.steps.saturating_add(beside_the_search(&job, &layout)));
        if took.cut_short {
            self.complete = false;
            return None;
        }
        let take_off = take_off(&job, &layout, &order);
        take_off.on(0).cut(&mut layout);
        let assessed = assessment::of_layout(&job, &layout, take_off.on(0), &remarks);
        let after = Standing::of(&layout, &assessed);
        after.helps(self.before).then_some(Remedy { changes, after })
    }

    /// The first of growing changes that does as much as the last, if that is a remedy.
    fn least_of(&mut self, changes: &[Change]) -> Option<Remedy> {
        let mut best = self.of(vec![changes.last()?.clone()])?;
        let (mut low, mut high) = (0, changes.len() - 1);
        while low < high {
            let middle = usize::midpoint(low, high);
            match self.of(vec![changes[middle].clone()]) {
                Some(as_much) if as_much.compare(&best) != Ordering::Greater => {
                    (best, high) = (as_much, middle);
                }
                _ => low = middle + 1,
            }
        }
        Some(best)
    }

    /// Changes that help a little by themselves, made together where none cures everything: the best
    /// first, then each of the others that helps further.
    fn together(&mut self, found: &[Remedy]) -> Option<Remedy> {
        let (first, others) = found.split_first()?;
        let mut best = first.clone();
        for other in others.iter().take(MOST_TOGETHER) {
            if best.after.is_cured() {
                break;
            }
            let changes = [&best.changes[..], &other.changes].concat();
            let further = self.of(changes);
            best = further.filter(|further| further.after.helps(&best.after)).unwrap_or(best);
        }
        (best.changes.len() > 1).then_some(best)
    }
}
