//! Every check of a subset in full: what the answer is written from.

use crate::checks::Governing;
use crate::checks::crossing::CrossingResult;
use crate::checks::{clearance, hook, screws};
use crate::codes::vocabulary::Resistance;
use crate::units::Force;

use super::{Candidate, Case, Forces, HookResult, Limit, Segment, SegmentResult, Workspace};

impl Segment {
    /// Every check of a subset in full. `None` when the beam is not stable on it.
    #[must_use]
    pub fn check_all(&self, subset: &[usize]) -> Option<SegmentResult> {
        let mut space = Workspace::default();
        if !self.solve(subset, &mut space) {
            return None;
        }
        self.sweep(subset, &mut space);
        let mut result = SegmentResult {
            hooks: vec![HookResult::NONE; subset.len()],
            forces: Forces {
                hooks: subset.len(),
                of_case: Vec::with_capacity(self.cases.len() * subset.len()),
            },
            bending: Governing::NONE,
            deflection: Governing::NONE,
            deflected: None,
            splice: None,
            crossings: Vec::new(),
        };
        if self.borne.is_some() {
            result.crossings = self.crossings(&mut space);
        }
        for index in 0..self.cases.len() {
            let forces = self.forces_in(index, &mut space);
            for ((candidate, hook), forces) in subset.iter().zip(&mut result.hooks).zip(forces) {
                self.check_hook(index, &self.candidates[*candidate], forces, hook);
                result.forces.of_case.push(forces);
            }
        }
        self.check_rail(&mut space, &mut result);
        Some(result)
    }

    /// What goes on at every crossing with a lower rail.
    fn crossings(&self, space: &mut Workspace) -> Vec<CrossingResult> {
        let mut results = vec![CrossingResult::NONE; self.normal.candidates().len()];
        for (index, case) in self.cases.iter().enumerate() {
            if matches!(case.limit, Limit::Service) {
                continue;
            }
            for (result, forces) in results.iter_mut().zip(self.forces_in(index, space)) {
                result.see(self.limits.crossing.as_ref(), forces, case.combination);
            }
        }
        results
    }

    /// Checks of the rail of a swept subset: after the cases that may use most, few of the others
    /// can raise what is known.
    fn check_rail(&self, space: &mut Workspace, result: &mut SegmentResult) {
        let at_most = |case: &Case| match case.limit {
            Limit::Strength => self.bending_at_most(case, space),
            Limit::Service => self.deflection_at_most(case, space),
        };
        let mut order: Vec<(f64, &Case)> =
            self.cases.iter().map(|case| (at_most(case), case)).collect();
        order.sort_by(|a, b| b.0.total_cmp(&a.0));
        for (_, case) in order {
            match case.limit {
                Limit::Strength => {
                    let known = result.bending.utilisation;
                    result.bending.see(self.bending_in(case, space, known), case.combination);
                }
                Limit::Service => {
                    // One as large is looked at: of equals the first combination governs.
                    let known = result.deflection.utilisation.next_down();
                    if let Some((used, deflection)) = self.deflection_in(case, space, known)
                        && result.deflection.see(used, case.combination)
                    {
                        result.deflected = Some(deflection);
                    }
                }
            }
        }
    }

    /// Every check of a hook in one case, on top of what others came to.
    pub(in crate::checks) fn check_hook(
        &self,
        case: usize,
        candidate: &Candidate,
        [n, s]: [Force; 2],
        result: &mut HookResult,
    ) {
        let setting = &self.settings[candidate.setting];
        let Case { combination, limit, .. } = self.cases[case];
        let before = [result.hook, result.bolt, result.screws, result.timber, result.clearance]
            .map(|known| known.utilisation);
        let used = match limit {
            Limit::Strength => {
                let mut screws = 0.0_f64;
                let foot = candidate.foot.under(n, s, setting.timber[case]);
                for demand in foot.demands() {
                    result.screw_pull = result.screw_pull.max(demand.pull);
                    result.screw_shear = result.screw_shear.max(demand.shear);
                    if let Resistance::Known(resistances) = &setting.screws {
                        screws = screws.max(screws::used_by(demand, &resistances[case]));
                    }
                }
                let hook = hook::utilisation(&self.hook, n, s);
                let bolt = self.bolt.map_or(0.0, |bolt| bolt.utilisation(n, s));
                result.hook.see(hook, combination);
                result.bolt.see(bolt, combination);
                result.screws.see(screws, combination);
                result.timber.see(foot.timber_used(), combination);
                hook.max(bolt).max(screws).max(foot.timber_used())
            }
            Limit::Service => {
                let pressing = clearance::pressing(&setting.spring, n, s);
                let clearance = clearance::used(&setting.spring, setting.clearance, pressing);
                result.clearance.see(clearance, combination);
                result.service_press = result.service_press.max(pressing);
                clearance
            }
        };
        if before.iter().all(|before| used > *before) {
            result.normal = n;
            result.slope = s;
        }
    }
}
