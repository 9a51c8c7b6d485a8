//! Whether a subset stays within a bound: the search's question, answered by the first check that
//! does not.

use super::{Segment, Workspace};

impl Segment {
    /// Largest utilisation of a subset if it is at most `bound`; `None` as soon as it is not, or
    /// when the beam is not stable on it.
    #[must_use]
    pub fn within(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        let hooks = self.hooks_within(subset, bound, space)?;
        self.sweep(subset, space);
        Self::largest_within(bound, hooks, space, |index, worst, space| {
            self.rail_in(&self.cases[index], space, worst)
        })
    }

    /// The same of the hooks alone, without the rail.
    #[must_use]
    pub fn hooks_within(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        if !self.solve(subset, space) {
            return None;
        }
        Self::largest_within(bound, 0.0, space, |index, _, space| {
            self.hooks_in(index, subset, space, bound)
        })
    }

    /// Larger of `worst` and the largest utilisation over all cases, `None` if that is above `bound`.
    ///
    /// The case that refused the last subset is asked first: it usually refuses the next.
    fn largest_within(
        bound: f64,
        mut worst: f64,
        space: &mut Workspace,
        used_in: impl Fn(usize, f64, &mut Workspace) -> f64,
    ) -> Option<f64> {
        for rank in 0..space.order.len() {
            let used = used_in(space.order[rank], worst, space);
            if used > bound {
                space.refuse(rank);
                return None;
            }
            worst = worst.max(used);
        }
        Some(worst)
    }

    /// The same for a subset by itself, which also fails where its free ends are too long.
    #[must_use]
    pub fn within_alone(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        self.ends_are_short(subset).then(|| self.within(subset, bound, space)).flatten()
    }
}
