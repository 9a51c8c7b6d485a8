//! Fewest hooks on a rail segment, with proof.
//!
//! **Method.** Numbers of hooks are tried from a valid lower bound upwards
//! ([`Segment::fewest_by_equilibrium`]); for each, every subset of that many candidates whose free
//! ends are short enough is weighed, in lexicographic order, walking a tree that shares the
//! elimination of the beam equations between subsets with the same left part. The first number
//! with a subset that passes is the fewest: everything smaller has been refuted one by one or by
//! the bound. Of its subsets the one with the smallest largest utilisation is kept, of equals the
//! first.
//!
//! **Limit.** Each weighed subset counts against `limit`. When it runs out before any subset
//! passed, all candidates are taken if they pass and hooks are taken away greedily; the number of
//! hooks being tried is then the lower bound.
//!
//! **Deterministic.** No clock, no randomness, no threads.

use crate::checks::segment::{Segment, Workspace};
use crate::mechanics::beam::Chain;

/// Two utilisations closer than this count as equal, so that the order decides.
const EQUAL: f64 = 1e-9;

/// Extra rule the pattern of hooks has to follow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pattern {
    /// None.
    Free,
    /// The same number of candidates from hook to hook.
    Even,
}

/// What was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Candidates taken, ascending.
    pub subset: Vec<usize>,
    /// How the search ended.
    pub outcome: Outcome,
    /// No smaller number of hooks passes.
    pub lower_bound: usize,
    /// Subsets weighed.
    pub weighed: u64,
}

/// How a search ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Fewest, and of those the lowest utilisation.
    FewestProven,
    /// Fewest; a lower utilisation may exist with as many.
    FewestProvenNotRanked,
    /// Passes; fewer may.
    BestFound,
    /// Nothing passes; all candidates taken.
    NonePasses,
    /// Nothing found within the limit; all candidates taken.
    NoneFound,
}

impl Outcome {
    /// Whether it is certain that no smaller number passes.
    #[must_use]
    pub const fn is_proven(self) -> bool {
        matches!(self, Self::FewestProven | Self::FewestProvenNotRanked)
    }
    /// Whether the subset passes every check.
    #[must_use]
    pub const fn passes(self) -> bool {
        matches!(self, Self::FewestProven | Self::FewestProvenNotRanked | Self::BestFound)
    }
}

/// Searches a segment for the fewest hooks whose utilisation stays within `bound`.
#[must_use]
pub fn fewest_hooks(segment: &Segment, bound: f64, pattern: Pattern, limit: u64) -> Found {
    let n = segment.candidates.len();
    let everything: Vec<usize> = (0..n).collect();
    let lower_bound = segment.fewest_by_equilibrium(bound);
    let reachable = segment.candidates.iter().any(|c| c.may_be_first)
        && segment.candidates.iter().any(|c| c.may_be_last);
    if lower_bound > n || !reachable {
        return Found {
            subset: everything,
            outcome: Outcome::NonePasses,
            lower_bound: lower_bound.min(n.max(2)),
            weighed: 0,
        };
    }
    let mut search = Search {
        segment,
        bound,
        limit,
        weighed: 0,
        best: None,
        normal: Chain::new(&segment.normal),
        slope: Chain::new(&segment.slope),
        subset: Vec::with_capacity(n),
        space: Workspace::default(),
    };
    for hooks in lower_bound..=n {
        match pattern {
            Pattern::Free => search.descend(0, hooks),
            Pattern::Even => search.even(hooks),
        }
        let exhausted = search.weighed >= limit;
        if let Some((_, subset)) = search.best.take() {
            let outcome =
                if exhausted { Outcome::FewestProvenNotRanked } else { Outcome::FewestProven };
            return Found { subset, outcome, lower_bound: hooks, weighed: search.weighed };
        }
        if exhausted {
            let (subset, outcome) = match search.thin_out(everything.clone(), pattern) {
                Some(subset) => (subset, Outcome::BestFound),
                None => (everything, Outcome::NoneFound),
            };
            return Found { subset, outcome, lower_bound: hooks, weighed: search.weighed };
        }
    }
    Found { subset: everything, outcome: Outcome::NonePasses, lower_bound, weighed: search.weighed }
}

struct Search<'a> {
    segment: &'a Segment,
    bound: f64,
    limit: u64,
    weighed: u64,
    best: Option<(f64, Vec<usize>)>,
    normal: Chain<'a>,
    slope: Chain<'a>,
    subset: Vec<usize>,
    space: Workspace,
}

impl Search<'_> {
    /// Tries every way to add `more` hooks right of candidate `from`.
    fn descend(&mut self, from: usize, more: usize) {
        if more == 0 {
            self.weigh();
            return;
        }
        let candidates = &self.segment.candidates;
        let end = candidates.len() + 1 - more;
        for (next, candidate) in candidates.iter().enumerate().take(end).skip(from) {
            if self.weighed >= self.limit {
                return;
            }
            if self.subset.is_empty() && !candidate.may_be_first {
                // Candidates run away from the left end: none further right can be first either.
                return;
            }
            if more == 1 && !candidate.may_be_last {
                continue;
            }
            self.push(next);
            self.descend(next + 1, more - 1);
            self.pop();
        }
    }

    /// Tries every arithmetic row of candidates with this many hooks.
    fn even(&mut self, hooks: usize) {
        let n = self.segment.candidates.len();
        for first in 0..n {
            for step in 1..n {
                let last = first + step * (hooks - 1);
                let fits = last < n
                    && self.segment.candidates[first].may_be_first
                    && self.segment.candidates[last].may_be_last;
                if !fits || self.weighed >= self.limit {
                    continue;
                }
                for candidate in (first..=last).step_by(step) {
                    self.push(candidate);
                }
                self.weigh();
                while !self.subset.is_empty() {
                    self.pop();
                }
            }
        }
    }

    fn push(&mut self, candidate: usize) {
        self.subset.push(candidate);
        self.normal.push(candidate);
        self.slope.push(candidate);
    }

    fn pop(&mut self) {
        self.subset.pop();
        self.normal.pop();
        self.slope.pop();
    }

    fn weigh(&mut self) {
        self.weighed += 1;
        let bound = self.best.as_ref().map_or(self.bound, |(u, _)| u - EQUAL);
        let weight =
            self.segment.weigh(&self.normal, &self.slope, &self.subset, bound, &mut self.space);
        if let Some(u) = weight {
            self.best = Some((u, self.subset.clone()));
        }
    }

    /// Takes hooks away one by one from a subset that passes, as long as one can go.
    fn thin_out(&mut self, start: Vec<usize>, pattern: Pattern) -> Option<Vec<usize>> {
        let passes = |subset: &[usize], space: &mut Workspace| {
            let ends = subset.first().zip(subset.last()).is_some_and(|(a, b)| {
                self.segment.candidates[*a].may_be_first && self.segment.candidates[*b].may_be_last
            });
            let normal = Chain::of(&self.segment.normal, subset);
            let slope = Chain::of(&self.segment.slope, subset);
            ends && self.segment.weigh(&normal, &slope, subset, self.bound, space).is_some()
        };
        let mut space = Workspace::default();
        let mut kept = start;
        if !passes(&kept, &mut space) {
            return None;
        }
        if pattern == Pattern::Even {
            return Some(kept);
        }
        let mut at = 0;
        while at < kept.len() {
            let mut fewer = kept.clone();
            fewer.remove(at);
            if passes(&fewer, &mut space) {
                kept = fewer;
            } else {
                at += 1;
            }
        }
        Some(kept)
    }
}
