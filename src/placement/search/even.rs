//! Rows with the same number of rafters from hook to hook.

use super::{Best, Found, Outcome, Search};

impl Search<'_> {
    /// The same number of rafters from hook to hook.
    pub(super) fn even(mut self) -> Found {
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

    /// Weighs every row of this many hooks that are the same number of rafters apart.
    fn even_rows(&mut self, hooks: usize) {
        let n = self.segment.candidates.len();
        for first in 0..n {
            if self.allowance.is_spent() {
                break;
            }
            self.spend(1, n - first);
            for second in first + 1..n {
                let Some(row) = self.even_row(first, second, hooks) else { continue };
                if self.exhausted()
                    || !self.segment.ends_are_short(&row)
                    || !self.has_standing(&row)
                {
                    continue;
                }
                self.probe.take(&row);
                if let Some(utilisation) = self.within(self.bound_now()) {
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
        let from = candidates[first].step;
        let step = candidates[second].step - from;
        (0_i64..)
            .take(hooks)
            .map(|i| candidates.binary_search_by_key(&(from + i * step), |c| c.step).ok())
            .collect()
    }

    /// Whether a row has every hook that stands.
    fn has_standing(&self, row: &[usize]) -> bool {
        let standing = row.iter().filter(|at| self.segment.candidates[**at].stands);
        standing.count() == self.standing_right[0]
    }

    /// All candidates, where they pass and stand in an even row.
    fn all_if_even(&mut self) -> Option<Vec<usize>> {
        let all = self.everything();
        let even = self.even_row(0, 1, all.len()).is_some_and(|row| row == all);
        (even && self.passes(&all)).then_some(all)
    }
}
