//! Bending of the rail where its pieces meet.

use crate::checks::Governing;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::units::{Length, Moment};

use super::{Limit, Segment, Workspace};

impl Segment {
    /// What uses the splices at these places most, in any combination of strength, with the rail on a
    /// subset. `None` without splices, where nothing declares what they bear, and where the beam is not
    /// stable.
    #[must_use]
    pub fn splices_used(&self, subset: &[usize], places: &[Length]) -> Option<Governing> {
        let (splice, mut space) = (self.limits.splice?, Workspace::default());
        if places.is_empty() || !self.solve(subset, &mut space) {
            return None;
        }
        self.sweep(subset, &mut space);
        let mut most = Governing::NONE;
        for case in self.cases.iter().filter(|case| matches!(case.limit, Limit::Strength)) {
            self.superpose(case, &mut space);
            for place in places {
                let [n, s] = moments_at(&space, *place);
                most.see(splice.utilisation(n, s), case.combination);
            }
        }
        Some(most)
    }

    /// The splice used most in one case, with its provenance; nothing where [`Self::splices_used`] is
    /// `None`.
    #[must_use]
    pub fn splice_steps(&self, subset: &[usize], places: &[Length], case: usize) -> Vec<Step> {
        const STATICS: Source = Source::Other("beam on springs");
        const DECLARED: Source = Source::Other("declared for the rail");
        const BOTH: Source = Source::Other("interaction of both moments, as the rules have it");
        let (Some(splice), mut space) = (self.limits.splice, Workspace::default()) else {
            return Vec::new();
        };
        if !self.solve(subset, &mut space) {
            return Vec::new();
        }
        self.sweep(subset, &mut space);
        self.superpose(&self.cases[case], &mut space);
        let used = |place: Length| {
            let [n, s] = moments_at(&space, place);
            splice.utilisation(n, s)
        };
        let most = places.iter().copied().reduce(|a, b| if used(b) > used(a) { b } else { a });
        let Some(place) = most else { return Vec::new() };
        let [n, s] = moments_at(&space, place);
        let knm = |quantity, symbol, moment: Moment, source| {
            Step::new(quantity, symbol, moment.knm(), "kN·m", source)
        };
        vec![
            Step::new(Quantity::PlaceOnRail, "x", place.mm(), "mm", STATICS),
            knm(Quantity::RailMomentNormal, "M_n", n, STATICS),
            knm(Quantity::RailMomentSlope, "M_s", s, STATICS),
            knm(Quantity::DesignMomentNormal, "M_n,Rd", splice.normal, DECLARED),
            knm(Quantity::DesignMomentSlope, "M_s,Rd", splice.slope, DECLARED),
            Step::new(Quantity::Utilisation, "u", used(place), "", BOTH),
        ]
    }
}

/// Moments of a superposed case at a place, under load square to the roof and along the slope.
fn moments_at(space: &Workspace, place: Length) -> [Moment; 2] {
    let [normal, slope] = &space.profiles;
    [normal, slope].map(|moments| Moment::from_nmm(moments.moment_at(place.mm())))
}
