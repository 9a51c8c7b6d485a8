//! Forces on the hooks of a subset, and what they use of hook, screws and clearance.

use crate::checks::foot::FootModel;
use crate::checks::hook;
use crate::units::Force;

use super::{Case, Limit, Segment, Workspace};

impl Segment {
    /// Forces on the hooks of a subset; false when the beam is not stable on it.
    pub(super) fn solve(&self, subset: &[usize], space: &mut Workspace) -> bool {
        if space.order.len() != self.cases.len() {
            space.order = (0..self.cases.len()).collect();
        }
        space.refused = None;
        if let Some(borne) = &self.borne {
            space.reactions.clone_from(borne);
            return true;
        }
        let [normal, slope] = &mut space.reactions;
        if !self.are_apart(subset) || !self.normal.solve(subset, normal) {
            return false;
        }
        match self.holder(subset) {
            Some(holder) => {
                slope.all_on(&self.slope, holder, subset.len());
                true
            }
            None => self.slope.solve(subset, slope),
        }
    }

    /// Normal and slope force of each hook of a solved subset in one case.
    pub(super) fn forces_in<'a>(
        &self,
        case: usize,
        space: &'a mut Workspace,
    ) -> impl Iterator<Item = [Force; 2]> + 'a {
        let Case { normal, slope, .. } = &self.cases[case];
        let ([on_normal, on_slope], [n, s]) = (&space.reactions, &mut space.forces);
        on_normal.under(normal, n);
        on_slope.under(slope, s);
        n.iter().zip(s.iter()).map(|(n, s)| [Force::from_n(*n), Force::from_n(*s)])
    }

    /// Largest utilisation of any hook of a solved subset in one case, or the first over `bound`.
    pub(super) fn hooks_in(
        &self,
        case: usize,
        subset: &[usize],
        space: &mut Workspace,
        bound: f64,
    ) -> f64 {
        let mut worst = 0.0_f64;
        for (candidate, forces) in subset.iter().zip(self.forces_in(case, space)) {
            worst = worst.max(self.hook_used(*candidate, case, forces));
            if worst > bound {
                break;
            }
        }
        worst
    }

    /// Utilisation of a hook by its forces: of its own and its screws', or of its clearance.
    pub(in crate::checks) fn used_with(
        &self,
        foot: &FootModel,
        setting: usize,
        case: usize,
        [n, s]: [Force; 2],
    ) -> f64 {
        let setting = &self.settings[setting];
        match self.cases[case].limit {
            Limit::Strength => {
                let hook = hook::utilisation(&self.hook, n, s);
                let bolt = self.bolt.map_or(0.0, |bolt| bolt.utilisation(n, s));
                hook.max(bolt).max(setting.foot_used(foot, case, n, s))
            }
            Limit::Service => setting.clearance_used([n, s]),
        }
    }

    /// Utilisation of the hook on a candidate.
    pub(in crate::checks) fn hook_used(
        &self,
        candidate: usize,
        case: usize,
        forces: [Force; 2],
    ) -> f64 {
        let candidate = &self.candidates[candidate];
        self.used_with(&candidate.foot, candidate.setting, case, forces)
    }
}
