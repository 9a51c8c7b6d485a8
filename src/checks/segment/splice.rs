//! Bending of the rail where its pieces meet.

use crate::checks::Governing;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::units::{Force, Length, Moment};

use super::{Limit, Segment, Workspace};

impl Segment {
    /// What uses the splices at these places most, in any combination of strength, with the rail on a
    /// subset. `None` without splices, where nothing declares what they bear, and where the beam is not
    /// stable.
    #[must_use]
    pub fn splices_used(&self, subset: &[usize], places: &[Length]) -> Option<Governing> {
        let (splice, mut space) = (self.limits.at_splices()?, Workspace::default());
        if places.is_empty() || !self.solve(subset, &mut space) {
            return None;
        }
        self.sweep(subset, &mut space);
        let mut most = Governing::NONE;
        for case in self.cases.iter().filter(|case| matches!(case.limit, Limit::Strength)) {
            self.superpose(case, &mut space);
            for place in places {
                let (moments, axial) = forces_at(&space, *place);
                most.see(splice.utilisation(moments, axial), case.combination);
            }
        }
        Some(most)
    }

    /// Largest force along the axis of the rail at these places in any combination of strength, with the rail
    /// on a subset; `None` where the beam is not stable.
    #[must_use]
    pub fn axial_at(&self, subset: &[usize], places: &[Length]) -> Option<Force> {
        let mut space = Workspace::default();
        if !self.solve(subset, &mut space) {
            return None;
        }
        self.sweep(subset, &mut space);
        let mut most = Force::ZERO;
        for case in self.cases.iter().filter(|case| matches!(case.limit, Limit::Strength)) {
            self.superpose(case, &mut space);
            most = places.iter().map(|place| forces_at(&space, *place).1).fold(most, Force::max);
        }
        Some(most)
    }

    /// The splice used most in one case, with its provenance; nothing where [`Self::splices_used`] is
    /// `None`.
    #[must_use]
    pub fn splice_steps(&self, subset: &[usize], places: &[Length], case: usize) -> Vec<Step> {
        const STATICS: Source = Source::Other("beam on springs");
        const DECLARED: Source = Source::Other("declared for the rail");
        const ALL: Source = Source::Other("interaction of both moments, as the rules have it");
        const WITH_FORCE: Source = Source::Other("M_n/M_n,Rd + N/N_Rd");
        let (Some(splice), mut space) = (self.limits.at_splices(), Workspace::default()) else {
            return Vec::new();
        };
        if !self.solve(subset, &mut space) {
            return Vec::new();
        }
        self.sweep(subset, &mut space);
        self.superpose(&self.cases[case], &mut space);
        let used = |place: Length| {
            let (moments, axial) = forces_at(&space, place);
            splice.utilisation(moments, axial)
        };
        let most = places.iter().copied().reduce(|a, b| if used(b) > used(a) { b } else { a });
        let Some(place) = most else { return Vec::new() };
        let ([n, s], axial) = forces_at(&space, place);
        let knm = |quantity, symbol, moment: Moment, source| {
            Step::new(quantity, symbol, moment.knm(), "kN·m", source)
        };
        let kn = |quantity, symbol, force: Force, source| {
            Step::new(quantity, symbol, force.kn(), "kN", source)
        };
        let mut steps = vec![
            Step::new(Quantity::PlaceOnRail, "x", place.mm(), "mm", STATICS),
            knm(Quantity::RailMomentNormal, "M_n", n, STATICS),
        ];
        match splice.force {
            None => steps.extend([
                knm(Quantity::RailMomentSlope, "M_s", s, STATICS),
                knm(Quantity::DesignMomentNormal, "M_n,Rd", splice.bending.normal, DECLARED),
                knm(Quantity::DesignMomentSlope, "M_s,Rd", splice.bending.slope, DECLARED),
                Step::new(Quantity::Utilisation, "u", used(place), "", ALL),
            ]),
            Some(force) => steps.extend([
                kn(Quantity::RailAxialForce, "N", axial, self.statics_along()),
                knm(Quantity::DesignMomentNormal, "M_n,Rd", splice.bending.normal, DECLARED),
                kn(Quantity::DesignAxialForce, "N_Rd", force, DECLARED),
                Step::new(Quantity::Utilisation, "u", used(place), "", WITH_FORCE),
            ]),
        }
        steps
    }
}

/// Moments of a superposed case at a place, under load square to the roof and along the slope, and the force
/// along the axis.
fn forces_at(space: &Workspace, place: Length) -> ([Moment; 2], Force) {
    let [normal, slope] = &space.profiles;
    let moments = [normal, slope].map(|moments| Moment::from_nmm(moments.moment_at(place.mm())));
    (moments, Force::from_n(slope.axial_at(place.mm())))
}
