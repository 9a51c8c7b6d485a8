//! A module and its clamps.

use crate::hardware::{Clamp, Module};
use crate::units::{Force, Pressure};

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

/// Checks a module under its largest design pressures and the largest lift on any of its clamps,
/// all as magnitudes.
#[must_use]
pub fn check(
    module: &Module,
    clamp: &Clamp,
    press: Pressure,
    lift: Pressure,
    clamp_lift: Force,
) -> ModuleCheck {
    ModuleCheck {
        press: press / module.press,
        lift: lift / module.lift,
        clamp_lift,
        clamp: clamp_lift / clamp.lift,
    }
}
