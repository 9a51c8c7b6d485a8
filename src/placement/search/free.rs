//! Without a pattern: the fewest hooks, and of all choices of as many the one used least.

use std::ops::RangeInclusive;

use super::right_parts::RightParts;
use super::{Best, Found, Outcome, STEPS, Search, Way};

/// Pairs of parts that take as long as asking about one part.
const PAIRS: u64 = 8;

/// Pairs from which on a left part is asked about by itself first.
const SEVERAL: u64 = 3;

impl Search<'_> {
    /// Counts, then ranks, in a given way or in that which takes least.
    pub(super) fn free(mut self, like: &[usize], way: Option<Way>) -> Found {
        let n = self.segment.candidates.len();
        self.begin_with(like);
        // Every two candidates are looked at first.
        self.spend(n, n);
        if self.allowance.is_spent() {
            let best = self.fewest.take().map(|(hooks, _)| hooks).or_else(|| self.spread_evenly());
            return self.cut_short(best, self.lower_bound);
        }
        self.spans = self.probe.spans(self.bound);
        self.guess();
        let known = self.fewest.as_ref().map(|(hooks, _)| hooks.len());
        let way = way.unwrap_or_else(|| self.way(known.unwrap_or(self.lower_bound)));
        match way {
            Way::Walk => self.count(0),
            Way::Parts => {
                self.gather(known.unwrap_or(n));
                self.count(0);
            }
            Way::Windows => self.count_by_windows(),
        }
        let fewest = self.fewest.take();
        let proven = fewest.as_ref().is_some_and(|(hooks, _)| hooks.len() <= self.lower_bound);
        if self.exhausted() && !proven {
            let best = fewest.map(|(hooks, _)| hooks);
            let best = match best {
                None if self.allowance.is_spent() => self.spread_evenly(),
                None => self.thin_out(),
                known => known,
            };
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
        match way {
            Way::Walk | Way::Parts => self.rank(0, hooks),
            Way::Windows => self.rank_by_windows(hooks),
        }
        let outcome =
            if self.exhausted() { Outcome::FewestProvenNotRanked } else { Outcome::FewestProven };
        let subset = self.best.take().map(|best| best.subset).unwrap_or_default();
        self.proven(subset, outcome)
    }

    /// Gathers the right parts of choices of at most so many hooks.
    fn gather(&mut self, most: usize) {
        if !self.exhausted() {
            let (right, asked) = RightParts::gather(&self.probe, &self.spans, most, self.bound);
            self.right = Some(right);
            self.weighed += asked;
            self.allowance.spend(asked);
        }
    }

    /// Whether this candidate may be right of the last one taken.
    pub(super) fn follows(&self, next: usize) -> bool {
        let n = self.segment.candidates.len();
        self.probe.subset().last().is_none_or(|last| self.spans[last * n + next])
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
            self.spend(1, 1);
            let complete =
                self.probe.subset().len() >= 2 && candidate.may_be_last && must_follow == 0;
            // What refutes all that goes on from here refutes what ends here.
            if complete && self.right.is_some() && self.refuted(room.max(2), self.bound) {
                self.probe.pop();
                continue;
            }
            let passes = complete.then(|| self.within(self.bound)).flatten();
            if let Some(utilisation) = passes {
                self.fewest = Some((self.probe.subset().to_vec(), utilisation));
            } else if room > 0 && next + 1 < n {
                if let Some(mut choices) = self.met(0..=room, self.bound) {
                    choices.sort_by_key(Vec::len);
                    self.count_among(choices);
                } else if !self.refuted(room, self.bound) {
                    self.count(next + 1);
                }
            }
            self.probe.pop();
        }
    }

    /// Looks for fewer hooks among choices that begin with those taken, the fewest first.
    fn count_among(&mut self, choices: Vec<Vec<usize>>) {
        let taken = self.probe.subset().len();
        for hooks in choices {
            let fewer = self.fewest.as_ref().is_none_or(|(fewest, _)| hooks.len() < fewest.len());
            if !fewer || self.exhausted() {
                break;
            }
            self.probe.take(&hooks);
            if let Some(utilisation) = self.within(self.bound) {
                self.fewest = Some((hooks, utilisation));
            }
        }
        self.probe.keep(taken);
    }

    /// Weighs every way to add `more` hooks right of candidate `from`.
    fn rank(&mut self, from: usize, more: usize) {
        if more == 0 {
            if let Some(utilisation) = self.within(self.bound_now()) {
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
                self.spend(1, 1);
                let bound = self.bound_now();
                // A right part adds one hook at least.
                let choices = (more > 1).then(|| self.met(more - 1..=more - 1, bound)).flatten();
                if let Some(choices) = choices {
                    self.rank_among(choices);
                } else if !self.refuted(more - 1, bound) {
                    self.rank(next + 1, more - 1);
                }
                self.probe.pop();
            }
            if candidate.stands {
                return;
            }
        }
    }

    /// Weighs choices that begin with those taken.
    fn rank_among(&mut self, choices: Vec<Vec<usize>>) {
        let taken = self.probe.subset().len();
        for subset in choices {
            if self.exhausted() {
                break;
            }
            self.probe.take(&subset);
            if let Some(utilisation) = self.within(self.bound_now()) {
                self.best = Some(Best { utilisation, subset, guessed: false });
            }
        }
        self.probe.keep(taken);
    }

    /// The choices made up of the hooks taken and of a right part that adds so many to them, in
    /// lexicographic order, without those that surely do not pass; `None` where no right parts
    /// begin at the last hook, or where those taken tell nothing of themselves.
    fn met(&mut self, adds: RangeInclusive<usize>, bound: f64) -> Option<Vec<Vec<usize>>> {
        let at = *self.probe.subset().last()?;
        let right = self.right.as_ref().filter(|right| right.begin_at(at))?;
        let pairs = right.count(at, &adds);
        if pairs == 0 || (pairs >= SEVERAL && self.refuted(*adds.end(), bound)) {
            return Some(Vec::new());
        }
        self.probe.stay_within(bound);
        self.weighed += pairs / PAIRS;
        self.allowance.spend(pairs);
        self.right.as_mut()?.meet(&self.probe, &adds)
    }

    /// Whether no completion of the left part by at most `more` hooks stays within `bound`.
    fn refuted(&mut self, more: usize, bound: f64) -> bool {
        // Too little is known of one hook alone, and a single missing hook is as soon weighed.
        if self.probe.subset().len() < 2 || more < 2 {
            return false;
        }
        self.weighed += 1;
        self.spend(1, STEPS);
        self.probe.refutes(more, bound, None)
    }
}
