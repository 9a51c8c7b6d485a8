//! How the feet of a segment are set.

use crate::codes::vocabulary::{Interaction, Resistance, ScrewResistance};
use crate::units::{Force, Length};

/// How feet are set, as far as their checks need it.
#[derive(Debug, Clone)]
pub struct Setting {
    /// Clearance before load, packers in place.
    pub clearance: Length,
    /// Design resistance of a screw, for each of the segment's cases; that of a serviceability case
    /// is not asked for. Where the rules are silent the check of the screws is not run.
    pub screws: Resistance<Vec<ScrewResistance>>,
}

impl Setting {
    /// Resistance beyond which no screw passes in a case: any is borne where the rules are silent.
    #[must_use]
    pub(in crate::checks) fn screw_bound(&self, case: usize) -> ScrewResistance {
        let unbounded = Force::from_n(f64::INFINITY);
        self.screws.known().map_or(
            ScrewResistance {
                pull: unbounded,
                shear: unbounded,
                interaction: Interaction::Quadratic,
            },
            |screws| screws[case],
        )
    }
}
