//! The provenance of what a subset was found to use, check by check: for the trace.

use crate::checks::{clearance, hook};
use crate::codes::cited::Step;
use crate::units::Force;

use super::{Candidate, Segment, SegmentResult, Workspace};

impl Segment {
    /// What the hook itself is used to.
    #[must_use]
    pub fn hook_steps(&self, [normal, slope]: [Force; 2]) -> [Step; 5] {
        hook::steps(&self.hook, normal, slope)
    }

    /// What the bolt is used to, where it is known.
    #[must_use]
    pub fn bolt_steps(&self, [normal, slope]: [Force; 2]) -> Option<Vec<Step>> {
        self.bolt.map(|bolt| bolt.steps(normal, slope))
    }

    /// What is used of the clearance below an arm.
    pub fn clearance_steps(
        &self,
        candidate: &Candidate,
        forces: [Force; 2],
    ) -> impl Iterator<Item = Step> {
        let setting = &self.settings[candidate.setting];
        clearance::steps(&setting.spring, setting.clearance, forces)
    }

    /// What the rail is bent to on a subset in one case; nothing when the beam is not stable on it.
    #[must_use]
    pub fn bending_steps(&self, subset: &[usize], case: usize) -> Vec<Step> {
        let mut space = Workspace::default();
        if !self.solve(subset, &mut space) {
            return Vec::new();
        }
        self.sweep(subset, &mut space);
        self.superpose(&self.cases[case], &mut space);
        let [normal, slope] = &space.profiles;
        self.limits.bending_steps([normal, slope], self.statics_along())
    }

    /// The connector used most in one case; nothing where the rail crosses none or it is not known what they bear.
    #[must_use]
    pub fn crossing_steps(&self, case: usize) -> Vec<Step> {
        let (Some(limits), Some(_)) = (&self.limits.crossing, &self.borne) else {
            return Vec::new();
        };
        let mut space = Workspace::default();
        if !self.solve(&[], &mut space) {
            return Vec::new();
        }
        let all: Vec<[Force; 2]> = self.forces_in(case, &mut space).collect();
        let used = |forces: &[Force; 2]| limits.utilisation(*forces);
        let most = all.into_iter().reduce(|a, b| if used(&b) > used(&a) { b } else { a });
        most.map_or_else(Vec::new, |forces| limits.steps(forces).to_vec())
    }

    /// What the rail gives way where that governs; nothing where no deflection is judged.
    #[must_use]
    pub fn deflection_steps(&self, result: &SegmentResult) -> Vec<Step> {
        let deflected = result.deflected.iter();
        deflected.flat_map(|found| self.limits.deflection_steps(found)).collect()
    }
}
