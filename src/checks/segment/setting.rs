//! How the feet of a segment are set.

use crate::checks::clearance;
use crate::checks::foot::FootModel;
use crate::checks::screws;
use crate::codes::vocabulary::{Interaction, Resistance, ScrewResistance};
use crate::hardware::NormalSpring;
use crate::units::{Force, Length, Stress};

/// How feet are set, as far as their checks need it.
#[derive(Debug, Clone)]
pub struct Setting {
    /// Clearance before load, packers in place.
    pub clearance: Length,
    /// How far the arm comes down on it.
    pub spring: NormalSpring,
    /// Design resistance of a screw, for each of the segment's cases; that of a serviceability case
    /// is not asked for. Where the rules are silent the check of the screws is not run.
    pub screws: Resistance<Vec<ScrewResistance>>,
    /// Design stress the timber under the foot bears across the grain, for each case alike.
    pub timber: Vec<Stress>,
}

impl Setting {
    /// Utilisation of the screws of a foot and of the timber under it, of the latter alone where the
    /// rules are silent on the screws.
    #[must_use]
    pub fn foot_used(&self, foot: &FootModel, case: usize, normal: Force, slope: Force) -> f64 {
        let loaded = foot.under(normal, slope, self.timber[case]);
        let screws = self.screws.known();
        let screws = screws.map_or(0.0, |of| screws::utilisation(&loaded, &of[case]));
        screws.max(loaded.timber_used())
    }

    /// How much of its clearance an arm uses up under a normal and a slope force.
    #[must_use]
    pub fn clearance_used(&self, [normal, slope]: [Force; 2]) -> f64 {
        let pressing = clearance::pressing(&self.spring, normal, slope);
        clearance::used(&self.spring, self.clearance, pressing)
    }

    /// Resistance beyond which no screw passes in a case: any is borne where the rules are silent.
    #[must_use]
    pub(in crate::checks) fn screw_bound(&self, case: usize) -> ScrewResistance {
        let unbounded = Force::from_n(f64::INFINITY);
        self.screws.known().map_or(
            ScrewResistance {
                pull: unbounded,
                shear: unbounded,
                interaction: Interaction::RootOfSquares,
            },
            |screws| screws[case],
        )
    }
}
