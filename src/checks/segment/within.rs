//! Whether a subset stays within a bound: the search's question, answered by the first check that
//! does not.

use super::{Segment, Workspace};

impl Segment {
    /// Largest utilisation of a subset if it is at most `bound`; `None` as soon as it is not, or
    /// when the beam is not stable on it.
    ///
    /// The combination that refused the last subset is asked first: it usually refuses the next.
    #[must_use]
    pub fn within(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        let mut worst = self.hooks_within(subset, bound, space)?;
        self.sweep(subset, space);
        for rank in 0..self.cases.len() {
            let index = space.order[rank];
            let largest = self.rail_in(&self.cases[index], space, worst);
            if largest > bound {
                space.refuse(rank);
                return None;
            }
            worst = worst.max(largest);
        }
        Some(worst)
    }

    /// The same of the hooks alone, without the rail.
    #[must_use]
    pub fn hooks_within(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        if !self.solve(subset, space) {
            return None;
        }
        let mut worst = 0.0_f64;
        for rank in 0..self.cases.len() {
            let index = space.order[rank];
            let largest = self.hooks_in(index, subset, space, bound);
            if largest > bound {
                space.refuse(rank);
                return None;
            }
            worst = worst.max(largest);
        }
        Some(worst)
    }

    /// The same for a subset by itself, which also fails where its free ends are too long.
    #[must_use]
    pub fn within_alone(&self, subset: &[usize], bound: f64, space: &mut Workspace) -> Option<f64> {
        self.ends_are_short(subset).then(|| self.within(subset, bound, space)).flatten()
    }
}
