//! A module and its clamps.

use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
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

const DECLARED: Source = Source::Other("declared");
const OVER: Source = Source::Other("demand over resistance");
const FRAMES: Source = Source::Other("side frames beside the clamp");

const fn force(quantity: Quantity, symbol: &'static str, force: Force, source: Source) -> Step {
    Step::new(quantity, symbol, force.kn(), "kN", source)
}

const fn used(value: f64, source: Source) -> Step {
    Step::new(Quantity::Utilisation, "u", value, "", source)
}

/// What a design load, as a magnitude, uses of a module's capacity against it.
#[must_use]
pub fn load_steps(module: &Module, load: Pressure, capacity: Pressure) -> [Step; 4] {
    let by_area = |quantity, symbol, load: Pressure, source| {
        Step::new(quantity, symbol, load.kn_per_m2(), "kN/m²", source)
    };
    let area = module.area().m2();
    [
        Step::new(Quantity::ModuleArea, "A", area, "m²", Source::Other("geometry")),
        by_area(Quantity::ModuleLoad, "p_Ed", load, Source::Other("sum over the area")),
        by_area(Quantity::ModuleCapacity, "p_Rd", capacity, DECLARED),
        used(load / capacity, OVER),
    ]
}

/// What lift uses of a clamp.
#[must_use]
pub fn clamp_steps(clamp: &Clamp, lift: Force) -> [Step; 3] {
    [
        force(Quantity::ClampLift, "F_lift", lift, FRAMES),
        force(Quantity::ClampLiftResistance, "R_lift", clamp.lift, DECLARED),
        used(lift / clamp.lift, OVER),
    ]
}

/// [`slip`] with its provenance; nothing where the resistance along the slope is not known.
pub fn slip_steps(clamp: &Clamp, slope: Force, lift: Force) -> impl Iterator<Item = Step> + '_ {
    const LINEAR: Source = Source::Other("linear interaction, own judgement");
    clamp.slope.zip(slip(clamp, slope, lift)).into_iter().flat_map(move |(resistance, share)| {
        [
            force(Quantity::ClampSlope, "F_slope", slope, FRAMES),
            force(Quantity::ClampLift, "F_lift", lift, FRAMES),
            force(Quantity::ClampSlopeResistance, "R_slope", resistance, DECLARED),
            force(Quantity::ClampLiftResistance, "R_lift", clamp.lift, DECLARED),
            used(share, LINEAR),
        ]
    })
}

/// What a stop in the place of clamps is used to.
#[must_use]
pub fn stop_steps(stop: Force, slope: Force) -> [Step; 3] {
    [
        force(Quantity::StopForce, "F_stop", slope, Source::Other("modules above it")),
        force(Quantity::StopResistance, "R_stop", stop, DECLARED),
        used(slope / stop, OVER),
    ]
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
