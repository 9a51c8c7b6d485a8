//! A module and its clamps.

use crate::hardware::{Clamp, Module};
use crate::units::{Area, Force, Pressure};

/// Utilisation of a module and of its most loaded clamp.
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
}

impl ModuleCheck {
    /// The largest utilisation of module and clamp.
    #[must_use]
    pub const fn largest(&self) -> f64 {
        self.press.max(self.lift).max(self.clamp)
    }
}

/// Checks a module under its largest design pressures, both as magnitudes.
///
/// Its load stands on four side-frame points, half of each rail's share on either side:
/// `larger_share` is the share of the more loaded rail. A clamp between two modules holds the edge
/// of both, one at an end only that of one: `edges` is 2 or 1.
#[must_use]
pub fn check(
    module: &Module,
    clamp: &Clamp,
    press: Pressure,
    lift: Pressure,
    larger_share: f64,
    edges: u8,
) -> ModuleCheck {
    let area: Area = module.area();
    let clamp_lift = lift * area * (larger_share / 2.0 * f64::from(edges));
    ModuleCheck {
        press: press / module.press,
        lift: lift / module.lift,
        clamp_lift,
        clamp: clamp_lift / clamp.lift,
    }
}
