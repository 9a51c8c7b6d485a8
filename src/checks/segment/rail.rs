//! Bending and deflection of the rail on a subset.

use crate::mechanics::sweep::Deflection;

use super::{Case, Limit, Segment, Workspace};

impl Segment {
    /// Moments along the rail of a solved subset, in both directions.
    pub(super) fn sweep(&self, subset: &[usize], space: &mut Workspace) {
        let ([normal, slope], supports) = (&mut space.sweeps, self.supports(subset));
        normal.fill(&self.normal, &supports, &space.reactions[0]);
        slope.fill(&self.slope, &supports, &space.reactions[1]);
    }

    /// Utilisation of the rail of a swept subset in one case; 0 when it is not above `known`.
    pub(super) fn rail_in(&self, case: &Case, space: &mut Workspace, known: f64) -> f64 {
        match case.limit {
            Limit::Strength => self.bending_in(case, space, known),
            Limit::Service => self.deflection_in(case, space, known).map_or(0.0, |(used, _)| used),
        }
    }

    pub(super) fn bending_in(&self, case: &Case, space: &mut Workspace, known: f64) -> f64 {
        if self.bending_at_most(case, space) < known {
            return 0.0;
        }
        self.superpose(case, space);
        let [normal, slope] = &space.profiles;
        self.limits.bending_above(known, normal, slope)
    }

    pub(super) fn deflection_in(
        &self,
        case: &Case,
        space: &mut Workspace,
        known: f64,
    ) -> Option<(f64, Deflection)> {
        if self.deflection_at_most(case, space) <= known {
            return None;
        }
        self.superpose(case, space);
        let [normal, slope] = &space.profiles;
        let found = self.limits.deflection_above(known, normal, self.normal.rigidity());
        let known = found.map_or(known, |(used, _)| used);
        self.limits.deflection_above(known, slope, self.slope.rigidity()).or(found)
    }

    /// What bending uses at most: both moments at their largest in one place is the worst there can
    /// be.
    pub(super) fn bending_at_most(&self, case: &Case, space: &Workspace) -> f64 {
        let [normal, slope] = &space.sweeps;
        let moments = [normal.moment_at_most(&case.normal), slope.moment_at_most(&case.slope)];
        self.limits.stressed(moments, slope.axial_at_most(&case.slope), normal.longest_part())
    }

    /// What deflection uses at most.
    pub(super) fn deflection_at_most(&self, case: &Case, space: &Workspace) -> f64 {
        let [normal, slope] = &space.sweeps;
        let normal = normal.deflection_at_most(&case.normal, self.normal.rigidity());
        let slope = slope.deflection_at_most(&case.slope, self.slope.rigidity());
        self.limits.deflection_of(normal.max(slope))
    }

    /// Moments and deflections of a swept subset in one case.
    pub(super) fn superpose(&self, case: &Case, space: &mut Workspace) {
        let Workspace { sweeps: [normal, slope], reactions, profiles, .. } = space;
        normal.superpose(&self.normal, &case.normal, &reactions[0], &mut profiles[0]);
        slope.superpose(&self.slope, &case.slope, &reactions[1], &mut profiles[1]);
    }
}
