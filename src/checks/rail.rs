//! The rail: bending about both axes, deflection of spans and free ends.
//!
//! Bending is elastic and about both axes at once, as the rules add them up. Deflection is taken in
//! each direction by itself, in the characteristic combinations, from the chord through the
//! neighbouring hooks: a span may give its length over the ratio, a free end twice that (a limit of
//! trade practice: EN 1999-1-1 leaves it to the client).

use crate::codes::vocabulary::RailResistance;
use crate::codes::{Code, Rules};
use crate::hardware::RailProfile;
use crate::mechanics::sweep::{self, Deflection, Part, Profile};
use crate::units::Moment;

/// What a rail takes.
#[derive(Debug, Clone, Copy)]
pub struct RailLimits {
    /// In bending.
    pub bending: RailResistance,
    /// Span over deflection allowed.
    pub ratio: f64,
}

impl RailLimits {
    /// Of a profile.
    #[must_use]
    pub fn of(rail: &RailProfile, rules: Rules) -> Self {
        Self {
            bending: rules.rail([rail.normal_modulus, rail.slope_modulus], rail.proof_strength),
            ratio: rail.deflection_ratio,
        }
    }

    /// Bending utilisation under two moments in one place, normal and slope, N·mm.
    #[must_use]
    pub fn bending_of(&self, moments: [f64; 2]) -> f64 {
        let [n, s] = moments.map(Moment::from_nmm);
        self.bending.utilisation(n, s)
    }

    /// Largest bending utilisation along a rail under one combination; 0 when it is not above
    /// `known`.
    #[must_use]
    pub fn bending_above(&self, known: f64, normal: &Profile, slope: &Profile) -> f64 {
        let (most, _) = sweep::largest_of_two(normal, slope, |n, s| self.bending_of([n, s]));
        if most < known { 0.0 } else { most }
    }

    /// Share of what is allowed that a deflection is, told as its share of the length of a span or
    /// of twice that of a free end.
    #[must_use]
    pub fn deflection_of(&self, share_of_length: f64) -> f64 {
        share_of_length * self.ratio
    }

    /// Deflection allowed of a span or a free end, mm.
    #[must_use]
    pub fn allowed(&self, deflection: &Deflection) -> f64 {
        let length = match deflection.part {
            Part::Span => deflection.length,
            Part::FreeEnd => 2.0 * deflection.length,
        };
        length / self.ratio
    }

    /// The deflection of a profile that uses most of what is allowed, and how much, where that is
    /// more than `known`.
    #[must_use]
    pub fn deflection_above(
        &self,
        known: f64,
        profile: &Profile,
        rigidity: f64,
    ) -> Option<(f64, Deflection)> {
        let mut worst = known;
        let mut found = None;
        sweep::deflections_above(known / self.ratio, profile, rigidity, |d| {
            let allowed = self.allowed(&d);
            if allowed > 0.0 && d.deflection / allowed > worst {
                worst = d.deflection / allowed;
                found = Some((worst, d));
            }
            worst / self.ratio
        });
        found
    }
}
