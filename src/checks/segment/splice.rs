//! Bending of the rail where its pieces meet.

use crate::checks::Governing;
use crate::codes::vocabulary::RailResistance;
use crate::units::{Length, Moment};

use super::{Limit, Segment, Workspace};

impl Segment {
    /// What uses splices of this resistance at these places most, in any combination of strength, with
    /// the rail on a subset. Nothing when the beam is not stable on it.
    #[must_use]
    pub fn splices_used(
        &self,
        subset: &[usize],
        places: &[Length],
        resistance: &RailResistance,
    ) -> Governing {
        let (mut space, mut most) = (Workspace::default(), Governing::NONE);
        if !self.solve(subset, &mut space) {
            return most;
        }
        self.sweep(subset, &mut space);
        for case in self.cases.iter().filter(|case| matches!(case.limit, Limit::Strength)) {
            self.superpose(case, &mut space);
            let [normal, slope] = &space.profiles;
            for place in places {
                let [n, s] =
                    [normal, slope].map(|moments| Moment::from_nmm(moments.moment_at(place.mm())));
                most.see(resistance.utilisation(n, s), case.combination);
            }
        }
        most
    }
}
