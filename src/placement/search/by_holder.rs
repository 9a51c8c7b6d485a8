//! Rails that one hook holds along their axis: every candidate that may be that hook, searched by itself.
//!
//! Every choice of hooks has one that holds the rail, so that the searches between them look at every choice once.
//! The fewest hooks of all of them are proven where each proved its own, or could prove that it needs more.

use crate::checks::segment::{Held, Segment, Workspace};
use crate::effort::Allowance;

use super::{Asked, EQUAL, Found, Outcome};

/// The best choice of all holders.
pub(super) fn best(
    segment: &Segment,
    asked: Asked,
    like: &[usize],
    allowance: &mut Allowance,
) -> Found {
    if segment.overloads_any_holder(asked.bound) {
        let subset = segment.everything();
        let lower_bound = segment.candidates.len();
        return Found { subset, outcome: Outcome::NonePasses, lower_bound, weighed: 0 };
    }
    let holders = segment.by_holder();
    let mut space = Workspace::default();
    let mut best: Option<(Found, f64)> = None;
    let (mut lower_bound, mut weighed) = (usize::MAX, 0);
    let (mut proven, mut ranked) = (true, true);
    for (i, held) in holders.iter().enumerate() {
        let mut part = allowance.part((holders.len() - i) as u64);
        let left = Asked { weighed: asked.weighed.saturating_sub(weighed), ..asked };
        let mut found = left.of(&held.segment, &like_of(held, like), &mut part);
        allowance.take_back(&part);
        weighed += found.weighed;
        found.subset.iter_mut().for_each(|at| *at += held.left_out);
        if found.outcome == Outcome::NonePasses {
            continue;
        }
        lower_bound = lower_bound.min(found.lower_bound);
        let hooks = found.subset.len();
        let fewest = best.as_ref().map_or(usize::MAX, |(best, _)| best.subset.len());
        if !found.outcome.passes() {
            proven = false;
            continue;
        }
        proven &= found.outcome.is_proven();
        if hooks < fewest {
            ranked = true;
        }
        if hooks <= fewest {
            ranked &= found.outcome == Outcome::FewestProven;
        }
        let Some(used) = segment.within(&found.subset, asked.bound, &mut space) else { continue };
        let is_better = best.as_ref().is_none_or(|(best, least)| {
            let as_many = hooks == best.subset.len();
            let comes_first = used <= least + EQUAL && found.subset < best.subset;
            hooks < best.subset.len() || as_many && (used < least - EQUAL || comes_first)
        });
        if is_better {
            best = Some((found, used));
        }
    }
    let Some((best, _)) = best else {
        let lower_bound = lower_bound.min(segment.candidates.len());
        let outcome = if proven { Outcome::NonePasses } else { Outcome::NoneFound };
        return Found { subset: segment.everything(), outcome, lower_bound, weighed };
    };
    let is_fewest = proven || best.subset.len() <= lower_bound;
    let outcome = match (is_fewest, ranked && proven) {
        (true, true) => Outcome::FewestProven,
        (true, false) => Outcome::FewestProvenNotRanked,
        (false, _) => Outcome::BestFound,
    };
    Found { lower_bound: lower_bound.min(best.subset.len()), outcome, weighed, ..best }
}

/// A choice that held on a rail much like this one, as the candidates beside a holder count it; nothing where it
/// reaches beyond them or leaves that hook out.
fn like_of(held: &Held, like: &[usize]) -> Vec<usize> {
    let candidates = &held.segment.candidates;
    let counted = |at: &usize| at.checked_sub(held.left_out).filter(|at| *at < candidates.len());
    let like: Option<Vec<usize>> = like.iter().map(counted).collect();
    let has_all = |like: &Vec<usize>| {
        candidates.iter().enumerate().all(|(at, place)| !place.stands || like.contains(&at))
    };
    like.filter(has_all).unwrap_or_default()
}
