//! What acts on the array: snow, wind and weight on the slope, and how they combine.
//!
//! **Layer.** Reads `codes` and `geometry`; knows no hook and no beam.

pub mod combinations;
pub mod snow;
pub mod weight;
pub mod wind;

/// Everything that acts.
#[derive(Debug, Clone)]
pub struct Actions {
    /// Snow.
    pub snow: snow::Snow,
    /// Wind.
    pub wind: wind::Wind,
    /// Weight.
    pub weight: weight::Weight,
    /// Combinations, each wind direction its own.
    pub combinations: Vec<combinations::Combination>,
}
