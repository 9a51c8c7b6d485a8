//! A module and its clamps.

use crate::hardware::{Clamp, Module};
use crate::units::{Force, Pressure};

/// Utilisation of a module and of its most loaded clamps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModuleCheck {
    /// Pressing load against capacity.
    pub press: f64,
    /// Lifting load against capacity.
    pub lift: f64,
    /// Lift on the most loaded clamp.
    pub clamp_lift: Force,
    /// Its utilisation.
    pub clamp: f64,
    /// Force down the slope on the clamp nearest to slipping, or on the stop in its place.
    pub clamp_slope: Force,
    /// Its utilisation; `None` where no resistance is known.
    pub slip: Option<f64>,
}

impl ModuleCheck {
    /// The largest utilisation of module and clamp.
    #[must_use]
    pub const fn largest(&self) -> f64 {
        let largest = self.press.max(self.lift).max(self.clamp);
        match self.slip {
            Some(slip) => largest.max(slip),
            None => largest,
        }
    }
}

/// Checks a module under its largest design pressures and the largest lift on any of its clamps,
/// all as magnitudes, and takes over what was found on slip.
#[must_use]
pub fn check(
    module: &Module,
    clamp: &Clamp,
    [press, lift]: [Pressure; 2],
    clamp_lift: Force,
    (clamp_slope, slip): (Force, Option<f64>),
) -> ModuleCheck {
    ModuleCheck {
        press: press / module.press,
        lift: lift / module.lift,
        clamp_lift,
        clamp: clamp_lift / clamp.lift,
        clamp_slope,
        slip,
    }
}

/// Utilisation of a clamp that is pushed along the slope and lifted in the same combination, all as
/// magnitudes: `F_slope/R_slope + F_lift/R_lift`. Linear interaction, our own judgement: lift takes
/// from what clamps the frame to the rail. The grip that pressing load adds is left out. `None` where
/// the resistance along the slope is not known.
#[must_use]
pub fn slip(clamp: &Clamp, slope: Force, lift: Force) -> Option<f64> {
    Some(slope / clamp.slope? + lift / clamp.lift)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    /// 1.2 of 2.4 kN/m² pressing, 0.6 of 1.5 kN/m² lifting, 0.95 of 1.9 kN on a clamp: 0.5, 0.4, 0.5.
    #[test]
    fn a_module_and_its_clamp_are_used_by_hand() {
        let mm = Length::from_mm;
        let module = Module {
            length: mm(1762.0),
            width: mm(1134.0),
            thickness: mm(30.0),
            weight: Force::ZERO,
            press: Pressure::from_kn_per_m2(2.4),
            lift: Pressure::from_kn_per_m2(1.5),
            clamp_zone: [mm(250.0), mm(550.0)],
            short_side_clamp_zone: None,
        };
        let clamp = Clamp {
            lift: Force::from_kn(1.9),
            slope: None,
            stop: None,
            weight: Force::ZERO,
            mid_gap: Length::ZERO,
            end_width: Length::ZERO,
        };
        let loads = [1.2, 0.6].map(Pressure::from_kn_per_m2);
        let slip = (Force::ZERO, None);
        let used = check(&module, &clamp, loads, Force::from_kn(0.95), slip);
        let near = |have: f64, want: f64| (have - want).abs() < 1e-12;
        assert!(near(used.press, 0.5) && near(used.lift, 0.4) && near(used.clamp, 0.5), "{used:?}");
        assert!(near(used.largest(), 0.5));
    }

    /// 0.6 of 1.2 kN down the slope and 0.475 of 1.9 kN up: 0.5 + 0.25.
    #[test]
    fn a_clamp_slips_by_slope_force_and_lift_by_hand() {
        let mut clamp = Clamp {
            lift: Force::from_kn(1.9),
            slope: Some(Force::from_kn(1.2)),
            stop: None,
            weight: Force::ZERO,
            mid_gap: Length::ZERO,
            end_width: Length::ZERO,
        };
        let [slope, lift] = [0.6, 0.475].map(Force::from_kn);
        let used = slip(&clamp, slope, lift).expect("a resistance");
        assert!((used - 0.75).abs() < 1e-12, "{used}");
        clamp.slope = None;
        assert_eq!(slip(&clamp, slope, lift), None);
    }
}
