//! What acts on an array: snow, wind and weight on the slope, and how they combine.

use crate::codes::vocabulary::{Combination, Snow, WindField};
use crate::units::{Force, LineLoad};

/// Everything that acts.
#[derive(Debug, Clone)]
pub struct Actions {
    /// Snow.
    pub snow: Snow,
    /// Wind.
    pub wind: WindField,
    /// Weight.
    pub weight: Weight,
    /// Combinations, each wind direction its own.
    pub combinations: Vec<Combination>,
}

/// Weight of the parts that load the rails.
#[derive(Debug, Clone, Copy)]
pub struct Weight {
    /// One module.
    pub module: Force,
    /// One clamp.
    pub clamp: Force,
    /// A rail.
    pub rail: LineLoad,
}
