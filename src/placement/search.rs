//! Fewest hooks on a rail segment, with proof.
//!
//! **Method.** Two walks over the tree of all subsets whose free ends are short enough, each
//! support taken from left to right, so that subsets with the same left part share the elimination
//! of their beam equations. On the way a [`Probe`] asks the combinations that are likely to refuse:
//! a left part is dropped with everything that could follow it when [`Probe::refutes`] shows that no
//! completion of the size still of interest stays within the bound, and a whole choice where
//! [`Probe::passes`] does not let it. What is left is weighed in every combination.
//! * *Counting* looks for ever fewer hooks: it takes the farthest next hook first, so that a choice
//!   of few hooks is met early, and from then on drops all that cannot do with fewer. When nothing
//!   is left, or the valid lower bound [`Segment::fewest_by_equilibrium`] is met, the number known
//!   is the fewest: every choice of fewer hooks was dropped by an argument or weighed.
//! * *Ranking* walks the subsets of that very number in lexicographic order. Of those that pass, the
//!   one with the smallest largest utilisation is kept, of equals the first: the bound drops to the
//!   best utilisation known, which a quick descent from the choice counting ended with provides.
//!
//! The utilisation of a rail does not always fall with more hooks (two near each other may tear at
//! one another), so that no number of hooks is taken to follow from another.
//!
//! A choice that held on a rail much like this one is weighed before both, and stands for the fewest
//! known if it holds here.
//!
//! **Hooks that stand.** A choice always has the candidates that stand already; the fewest hooks
//! are then the fewest added to them. The quick descent, which moves hooks, is left out.
//!
//! **Patterns.** Even rows are few; they are weighed one by one, fewest hooks first.
//!
//! **Limit.** Each subset weighed and each left part asked about counts against `limit`. Cut short
//! while counting, the fewest hooks met are the answer; where none passed yet, all candidates are
//! taken if they pass and hooks are taken away greedily. The lower bound is then that by
//! equilibrium, for even rows the number being tried. Cut short while ranking, the number is proven
//! all the same.
//!
//! **Deterministic.** No clock, no randomness, no threads.

use crate::checks::probe::Probe;
use crate::checks::segment::{Segment, Workspace};

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
///
/// `like` is a choice that held on a segment much like this one, or nothing: where it holds here as
/// well, the search starts from it. What is found does not depend on it, only how soon.
#[must_use]
pub fn fewest_hooks(
    segment: &Segment,
    bound: f64,
    pattern: Pattern,
    limit: u64,
    like: &[usize],
) -> Found {
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
    let Some(probe) = Probe::new(segment) else {
        return Found {
            subset: everything,
            outcome: Outcome::NonePasses,
            lower_bound: n,
            weighed: 0,
        };
    };
    let search = Search {
        segment,
        bound,
        limit,
        weighed: 0,
        lower_bound,
        fewest: None,
        best: None,
        probe,
        spans: Vec::new(),
        standing_right,
        space: Workspace::default(),
    };
    match pattern {
        Pattern::Free => search.free(like),
        Pattern::Even => search.even(),
    }
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
    lower_bound: usize,
    /// The fewest hooks met while counting, and their utilisation.
    fewest: Option<(Vec<usize>, f64)>,
    best: Option<Best>,
    probe: Probe<'a>,
    standing_right: Vec<usize>,
    /// Which candidates can be neighbours, by left and right one; asked only without a pattern.
    spans: Vec<bool>,
    space: Workspace,
}

impl Search<'_> {
    /// Without a pattern: counts, then ranks.
    fn free(mut self, like: &[usize]) -> Found {
        let n = self.segment.candidates.len();
        self.spans = self.probe.spans(self.bound);
        self.begin_with(like);
        self.count(0);
        let fewest = self.fewest.take();
        let proven = fewest.as_ref().is_some_and(|(hooks, _)| hooks.len() <= self.lower_bound);
        if self.exhausted() && !proven {
            let best = fewest.map(|(hooks, _)| hooks).or_else(|| self.thin_out());
            return self.cut_short(best, self.lower_bound);
        }
        let Some((subset, utilisation)) = fewest else {
            return self.none_passes();
        };
        let hooks = subset.len();
        // There is but one way to take all.
        if hooks == n {
            return self.proven(subset, Outcome::FewestProven);
        }
        self.best = Some(Best { utilisation, subset, guessed: true });
        if self.standing_right[0] == 0 {
            self.improve();
        }
        self.rank(0, hooks);
        let outcome =
            if self.exhausted() { Outcome::FewestProvenNotRanked } else { Outcome::FewestProven };
        let subset = self.best.take().map(|best| best.subset).unwrap_or_default();
        self.proven(subset, outcome)
    }

    /// Takes a choice for the fewest known, if it holds and has the hooks that stand.
    fn begin_with(&mut self, hooks: &[usize]) {
        let candidates = &self.segment.candidates;
        let fits = hooks.len() >= 2
            && hooks.windows(2).all(|pair| pair[0] < pair[1])
            && hooks.last().is_some_and(|last| *last < candidates.len())
            && (0..candidates.len()).all(|i| !candidates[i].stands || hooks.contains(&i))
            && self.segment.ends_are_short(hooks);
        if fits {
            self.probe.take(hooks);
            if let Some(utilisation) = self.weigh(self.bound) {
                self.fewest = Some((hooks.to_vec(), utilisation));
            }
            self.probe.take(&[]);
        }
    }

    /// The same number of rafters from hook to hook.
    fn even(mut self) -> Found {
        let n = self.segment.candidates.len();
        for hooks in self.lower_bound..=n {
            self.even_rows(hooks);
            let exhausted = self.exhausted();
            if let Some(Best { subset, .. }) = self.best.take() {
                let outcome =
                    if exhausted { Outcome::FewestProvenNotRanked } else { Outcome::FewestProven };
                return self.proven(subset, outcome);
            }
            if exhausted {
                let best = self.all_if_even();
                return self.cut_short(best, hooks);
            }
        }
        self.none_passes()
    }

    /// Whether this candidate may be right of the last one taken.
    fn follows(&self, next: usize) -> bool {
        let n = self.segment.candidates.len();
        self.probe.subset().last().is_none_or(|last| self.spans[last * n + next])
    }

    fn exhausted(&self) -> bool {
        self.weighed >= self.limit
    }

    fn proven(&self, subset: Vec<usize>, outcome: Outcome) -> Found {
        Found { lower_bound: subset.len(), subset, outcome, weighed: self.weighed }
    }

    fn none_passes(&self) -> Found {
        let (lower_bound, weighed) = (self.lower_bound, self.weighed);
        Found { subset: self.everything(), outcome: Outcome::NonePasses, lower_bound, weighed }
    }

    fn cut_short(&self, best: Option<Vec<usize>>, lower_bound: usize) -> Found {
        let outcome = if best.is_some() { Outcome::BestFound } else { Outcome::NoneFound };
        let subset = best.unwrap_or_else(|| self.everything());
        Found { subset, outcome, lower_bound, weighed: self.weighed }
    }

    fn everything(&self) -> Vec<usize> {
        (0..self.segment.candidates.len()).collect()
    }

    /// Looks for fewer hooks than the fewest known that begin with those taken and go on right of
    /// candidate `from`, the farthest next hook first.
    fn count(&mut self, from: usize) {
        let candidates = &self.segment.candidates;
        let n = candidates.len();
        // No hook that stands may be passed over.
        let stop = (from..n).find(|i| candidates[*i].stands).map_or(n, |i| i + 1);
        for next in (from..stop).rev() {
            // One fewer than the fewest known, and fewer still as that falls.
            let most = self.fewest.as_ref().map_or(n, |(hooks, _)| hooks.len() - 1);
            let room = most.saturating_sub(self.probe.subset().len() + 1);
            if self.exhausted() || most < self.lower_bound || most <= self.probe.subset().len() {
                return;
            }
            let candidate = &candidates[next];
            let must_follow = self.standing_right[next + 1];
            if !self.follows(next)
                || must_follow > room
                || (room == 0 && !candidate.may_be_last)
                || (self.probe.subset().is_empty() && !candidate.may_be_first)
            {
                continue;
            }
            self.probe.push(next);
            let complete =
                self.probe.subset().len() >= 2 && candidate.may_be_last && must_follow == 0;
            let passes = complete.then(|| self.weigh(self.bound)).flatten();
            if let Some(utilisation) = passes {
                self.fewest = Some((self.probe.subset().to_vec(), utilisation));
            } else if room > 0 && next + 1 < n && !self.refuted(room, self.bound) {
                self.count(next + 1);
            }
            self.probe.pop();
        }
    }

    /// Weighs every way to add `more` hooks right of candidate `from`.
    fn rank(&mut self, from: usize, more: usize) {
        if more == 0 {
            if let Some(utilisation) = self.weigh(self.bound_now()) {
                self.best = Some(Best {
                    utilisation,
                    subset: self.probe.subset().to_vec(),
                    guessed: false,
                });
            }
            return;
        }
        let candidates = &self.segment.candidates;
        let end = candidates.len() + 1 - more;
        for (next, candidate) in candidates.iter().enumerate().take(end).skip(from) {
            if self.exhausted() {
                return;
            }
            if self.probe.subset().is_empty() && !candidate.may_be_first {
                // Candidates run away from the left end: none further right can be first either.
                return;
            }
            let room = self.standing_right[next + 1] < more;
            if room && self.follows(next) && (more > 1 || candidate.may_be_last) {
                self.probe.push(next);
                if !self.refuted(more - 1, self.bound_now()) {
                    self.rank(next + 1, more - 1);
                }
                self.probe.pop();
            }
            if candidate.stands {
                return;
            }
        }
    }

    /// Weighs every row of this many hooks that are the same number of rafters apart.
    fn even_rows(&mut self, hooks: usize) {
        let n = self.segment.candidates.len();
        for first in 0..n {
            for second in first + 1..n {
                let Some(row) = self.even_row(first, second, hooks) else { continue };
                if self.exhausted() || !self.segment.ends_are_short(&row) {
                    continue;
                }
                self.probe.take(&row);
                if let Some(utilisation) = self.weigh(self.bound_now()) {
                    self.best = Some(Best { utilisation, subset: row, guessed: false });
                }
            }
        }
        self.probe.take(&[]);
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

    /// Whether no completion of the left part by at most `more` hooks stays within `bound`.
    fn refuted(&mut self, more: usize, bound: f64) -> bool {
        // Too little is known of one hook alone, and a single missing hook is as soon weighed.
        if self.probe.subset().len() < 2 || more < 2 {
            return false;
        }
        self.weighed += 1;
        self.probe.refutes(more, bound)
    }

    /// Utilisation of the hooks taken, if it stays within `bound`.
    fn weigh(&mut self, bound: f64) -> Option<f64> {
        self.weighed += 1;
        if !self.probe.passes(bound) {
            return None;
        }
        let used = self.segment.weigh(self.probe.subset(), bound, &mut self.space);
        if let (None, Some(case)) = (used, self.space.refused_last()) {
            self.probe.turn_to(case);
        }
        used
    }

    /// What a subset has to stay within to be kept.
    fn bound_now(&self) -> f64 {
        match &self.best {
            None => self.bound,
            Some(Best { utilisation, guessed: true, .. }) => self.bound.min(utilisation + EQUAL),
            Some(Best { utilisation, .. }) => utilisation - EQUAL,
        }
    }

    /// Quick descent from the best subset known: hooks are moved to the next free candidate as long
    /// as that lowers the largest utilisation.
    fn improve(&mut self) {
        let Some(Best { subset, utilisation, .. }) = &self.best else { return };
        let (mut subset, known) = (subset.clone(), *utilisation);
        let n = self.segment.candidates.len();
        let mut best = f64::INFINITY;
        loop {
            let mut better = None;
            for i in 0..subset.len() {
                let low = if i == 0 { 0 } else { subset[i - 1] + 1 };
                let high = subset.get(i + 1).map_or(n, |next| *next);
                for to in [subset[i].wrapping_sub(1), subset[i] + 1] {
                    if !(low..high).contains(&to) || self.exhausted() {
                        continue;
                    }
                    let from = std::mem::replace(&mut subset[i], to);
                    if let Some(utilisation) = self.look(&subset, best.min(known) - EQUAL) {
                        best = utilisation;
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
        self.probe.take(&subset);
        if best < known
            && let Some(utilisation) = self.weigh(known)
        {
            self.best = Some(Best { utilisation, subset, guessed: true });
        }
        self.probe.take(&[]);
    }

    /// Utilisation of these hooks alone, without the rail, if the free ends are short enough.
    fn look(&mut self, hooks: &[usize], bound: f64) -> Option<f64> {
        self.weighed += 1;
        if !self.segment.ends_are_short(hooks) {
            return None;
        }
        self.probe.take(hooks);
        if !self.probe.passes(bound) {
            return None;
        }
        self.segment.weigh_hooks(hooks, bound, &mut self.space)
    }

    /// Takes hooks away one by one from all, as long as one can go.
    fn thin_out(&mut self) -> Option<Vec<usize>> {
        let mut kept = self.everything();
        self.passes(&kept).then_some(())?;
        let mut at = 0;
        while at < kept.len() {
            if self.segment.candidates[kept[at]].stands {
                at += 1;
                continue;
            }
            let candidate = kept.remove(at);
            if !self.passes(&kept) {
                kept.insert(at, candidate);
                at += 1;
            }
        }
        Some(kept)
    }

    /// All candidates, where they pass and stand in an even row.
    fn all_if_even(&mut self) -> Option<Vec<usize>> {
        let all = self.everything();
        let even = self.even_row(0, 1, all.len()).is_some_and(|row| row == all);
        (even && self.passes(&all)).then_some(all)
    }

    fn passes(&mut self, hooks: &[usize]) -> bool {
        self.probe.take(hooks);
        self.segment.ends_are_short(hooks) && self.weigh(self.bound).is_some()
    }
}
