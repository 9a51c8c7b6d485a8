//! Fewest hooks on a rail segment, with proof.
//!
//! **Method.** Numbers of hooks are tried from a valid lower bound upwards
//! ([`Segment::fewest_by_equilibrium`]). For each number the tree of all subsets of that many
//! candidates whose free ends are short enough is walked in lexicographic order; subsets with the
//! same left part share the elimination of their beam equations. A left part is dropped with
//! everything that could follow it when [`Segment::refutes`] shows that no completion stays within
//! the bound; whatever is complete is weighed. The first number with a subset that passes is the
//! fewest: every smaller one has been refuted. Of its subsets the one with the smallest largest
//! utilisation is kept, of equals the first: the bound drops to the best utilisation known, which
//! a quick descent provides before the walk starts.
//!
//! **Hooks that stand.** A choice always has the candidates that stand already; the fewest hooks
//! are then the fewest added to them. The quick descent, which moves hooks, is left out.
//!
//! **Limit.** Each subset weighed and each left part asked about counts against `limit`. When it
//! runs out before any subset passed, all candidates are taken if they pass and hooks are taken
//! away greedily; the number of hooks being tried is then the lower bound.
//!
//! **Deterministic.** No clock, no randomness, no threads.

use crate::checks::segment::{Scope, Segment, Workspace};
use crate::mechanics::beam::Chain;

/// Two utilisations closer than this count as equal, so that the order decides.
const EQUAL: f64 = 1e-9;

/// Extra rule the pattern of hooks has to follow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pattern {
    /// None.
    Free,
    /// The same number of rafters from hook to hook.
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
    /// Nothing was searched: the hooks are given.
    Given,
}

impl Found {
    /// All of so many candidates, given and not searched.
    #[must_use]
    pub fn given(hooks: usize) -> Self {
        Self {
            subset: (0..hooks).collect(),
            outcome: Outcome::Given,
            lower_bound: hooks,
            weighed: 0,
        }
    }
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
    let standing_right = standing_right(segment);
    let standing = standing_right[0];
    let lower_bound = segment.fewest_by_equilibrium(bound).max(standing);
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
        standing_right,
        space: Workspace::default(),
    };
    segment.prepare(&mut search.space);
    for hooks in lower_bound..=n {
        match pattern {
            Pattern::Free => {
                if standing == 0 {
                    search.guess(hooks);
                }
                search.descend(0, hooks);
            }
            Pattern::Even => search.even(hooks),
        }
        let exhausted = search.weighed >= limit;
        if let Some(Best { subset, .. }) = search.best.take() {
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

/// How many hooks stand from each candidate on to the right end.
fn standing_right(segment: &Segment) -> Vec<usize> {
    let mut count = vec![0; segment.candidates.len() + 1];
    for (i, candidate) in segment.candidates.iter().enumerate().rev() {
        count[i] = count[i + 1] + usize::from(candidate.stands);
    }
    count
}

/// The best subset known of the number being tried.
struct Best {
    utilisation: f64,
    subset: Vec<usize>,
    /// Found by the quick descent: an equal subset met on the walk comes first in order.
    guessed: bool,
}

struct Search<'a> {
    segment: &'a Segment,
    bound: f64,
    limit: u64,
    weighed: u64,
    best: Option<Best>,
    normal: Chain<'a>,
    slope: Chain<'a>,
    subset: Vec<usize>,
    standing_right: Vec<usize>,
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
            let room = self.standing_right[next + 1] < more;
            if room && (more > 1 || candidate.may_be_last) {
                self.push(next);
                if !self.refuted(more - 1) {
                    self.descend(next + 1, more - 1);
                }
                self.pop();
            }
            if candidate.stands {
                return;
            }
        }
    }

    /// Tries every row of this many hooks that are the same number of rafters apart.
    fn even(&mut self, hooks: usize) {
        let n = self.segment.candidates.len();
        for first in 0..n {
            for second in first + 1..n {
                let Some(row) = self.even_row(first, second, hooks) else { continue };
                let fits = self.segment.candidates[first].may_be_first
                    && row.last().is_some_and(|last| self.segment.candidates[*last].may_be_last);
                if !fits || self.weighed >= self.limit {
                    continue;
                }
                for candidate in row {
                    self.push(candidate);
                }
                self.weigh();
                while !self.subset.is_empty() {
                    self.pop();
                }
            }
        }
    }

    /// The row that goes on as its first two hooks begin; `None` where a rafter of it cannot take
    /// a hook.
    fn even_row(&self, first: usize, second: usize, hooks: usize) -> Option<Vec<usize>> {
        let candidates = &self.segment.candidates;
        let from = candidates[first].rafter;
        let step = candidates[second].rafter - from;
        (0..hooks)
            .map(|i| candidates.binary_search_by_key(&(from + i * step), |c| c.rafter).ok())
            .collect()
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

    /// Whether no completion of the left part by `more` hooks can better what is known.
    fn refuted(&mut self, more: usize) -> bool {
        // Too little is known of one hook alone, and a single missing hook is as soon weighed.
        if self.subset.len() < 2 || more < 2 {
            return false;
        }
        self.weighed += 1;
        let bound = self.bound_now();
        self.segment.refutes(&self.normal, &self.slope, &self.subset, more, bound, &mut self.space)
    }

    /// What a subset has to stay within to be kept.
    fn bound_now(&self) -> f64 {
        match &self.best {
            None => self.bound,
            Some(Best { utilisation, guessed: true, .. }) => self.bound.min(utilisation + EQUAL),
            Some(Best { utilisation, .. }) => utilisation - EQUAL,
        }
    }

    fn weigh(&mut self) {
        self.weighed += 1;
        let bound = self.bound_now();
        let weight =
            self.segment.weigh(&self.normal, &self.slope, &self.subset, bound, &mut self.space);
        if let Some(utilisation) = weight {
            self.best = Some(Best { utilisation, subset: self.subset.clone(), guessed: false });
        }
    }

    /// Quick descent to a good subset of this many hooks: an even spread, then hooks moved to the
    /// next free candidate as long as that lowers the largest utilisation.
    fn guess(&mut self, hooks: usize) {
        let n = self.segment.candidates.len();
        let mut subset: Vec<usize> = (0..hooks).map(|i| i * (n - 1) / (hooks - 1)).collect();
        let mut best = self.look(&subset, f64::INFINITY, Scope::Hooks);
        loop {
            let mut better = None;
            for i in 0..hooks {
                let low = if i == 0 { 0 } else { subset[i - 1] + 1 };
                let high = if i + 1 == hooks { n - 1 } else { subset[i + 1] - 1 };
                for to in [subset[i].wrapping_sub(1), subset[i] + 1] {
                    if !(low..=high).contains(&to) || self.weighed >= self.limit {
                        continue;
                    }
                    let from = std::mem::replace(&mut subset[i], to);
                    let bound = best.unwrap_or(f64::INFINITY) - EQUAL;
                    if let Some(u) = self.look(&subset, bound, Scope::Hooks) {
                        best = Some(u);
                        better = Some((i, to));
                    }
                    subset[i] = from;
                }
            }
            match better {
                Some((i, to)) => subset[i] = to,
                None => break,
            }
        }
        // The rail has its say only now: it seldom governs, and its checks cost the most.
        if best.is_none_or(|u| u > self.bound) {
            return;
        }
        if let Some(utilisation) = self.look(&subset, self.bound, Scope::All) {
            self.best = Some(Best { utilisation, subset, guessed: true });
        }
    }

    /// Weighs a subset by itself, if its free ends are short enough.
    fn look(&mut self, subset: &[usize], bound: f64, scope: Scope) -> Option<f64> {
        self.weighed += 1;
        self.segment.weigh_alone(subset, bound, scope, &mut self.space)
    }

    /// Takes hooks away one by one from a subset that passes, as long as one can go.
    fn thin_out(&mut self, start: Vec<usize>, pattern: Pattern) -> Option<Vec<usize>> {
        let mut kept = start;
        self.look(&kept, self.bound, Scope::All)?;
        if pattern == Pattern::Even {
            let neighbours = self.even_row(0, 1, kept.len());
            return neighbours.filter(|row| *row == kept);
        }
        let mut at = 0;
        while at < kept.len() {
            if self.segment.candidates[kept[at]].stands {
                at += 1;
                continue;
            }
            let mut fewer = kept.clone();
            fewer.remove(at);
            if self.look(&fewer, self.bound, Scope::All).is_some() {
                kept = fewer;
            } else {
                at += 1;
            }
        }
        Some(kept)
    }
}
