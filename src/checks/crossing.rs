//! The connectors that hold upper rails on lower ones where rails cross.
//!
//! A connector bears a force that lifts the upper rail off and one along the lower rail, added up as linear
//! shares: our own judgement, on the safe side. What presses the rails together goes through their faces.

use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::units::Force;

use super::Governing;

/// What a connector bears.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrossingLimits {
    /// Design force that lifts the upper rail off the lower one.
    pub lift: Force,
    /// Design force along the lower rail.
    pub slide: Force,
}

impl CrossingLimits {
    /// Utilisation by a force square to the roof, negative where it lifts, and one along the lower rail.
    #[must_use]
    pub fn utilisation(&self, [normal, slope]: [Force; 2]) -> f64 {
        let lift = (-normal).max(Force::ZERO) / self.lift;
        lift + slope.abs() / self.slide
    }

    /// The same with its provenance.
    #[must_use]
    pub fn steps(&self, [normal, slope]: [Force; 2]) -> [Step; 5] {
        const GRID: Source = Source::Other("both layers of rails solved together");
        const DECLARED: Source = Source::Other("declared for the rail");
        const SHARES: Source = Source::Other("max(-N, 0)/N_Rd + |S|/S_Rd");
        let kn = |quantity, symbol, force: Force, source| {
            Step::new(quantity, symbol, force.kn(), "kN", source)
        };
        [
            kn(Quantity::ForceSquareToRoof, "N", normal, GRID),
            kn(Quantity::ForceDownSlope, "S", slope, GRID),
            kn(Quantity::CrossingLift, "N_Rd", self.lift, DECLARED),
            kn(Quantity::CrossingSlide, "S_Rd", self.slide, DECLARED),
            Step::new(Quantity::Utilisation, "u", self.utilisation([normal, slope]), "", SHARES),
        ]
    }
}

/// What goes on at one crossing in all combinations of strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrossingResult {
    /// The connector, where it is known what it bears.
    pub used: Governing,
    /// Largest force that lifts the upper rail off.
    pub lift: Force,
    /// Largest force that presses it on the lower one.
    pub press: Force,
    /// Largest force along the lower rail, of either sense.
    pub slide: Force,
}

impl CrossingResult {
    /// Nothing acts.
    pub const NONE: Self =
        Self { used: Governing::NONE, lift: Force::ZERO, press: Force::ZERO, slide: Force::ZERO };

    /// Takes in one combination.
    pub fn see(&mut self, limits: Option<&CrossingLimits>, forces: [Force; 2], combination: usize) {
        let [normal, slope] = forces;
        self.lift = self.lift.max(-normal);
        self.press = self.press.max(normal);
        self.slide = self.slide.max(slope.abs());
        if let Some(limits) = limits {
            self.used.see(limits.utilisation(forces), combination);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 0.6 of 2.0 kN that lift and 0.5 of 1.0 kN down the slope: 0.3 + 0.5. Pressed, only the latter.
    #[test]
    fn lift_and_slide_add_up_by_hand() {
        let limits = CrossingLimits { lift: Force::from_kn(2.0), slide: Force::from_kn(1.0) };
        let used = |normal: f64| limits.utilisation([normal, 0.5].map(Force::from_kn));
        assert!((used(-0.6) - 0.8).abs() < 1e-12 && (used(0.6) - 0.5).abs() < 1e-12);
    }
}
