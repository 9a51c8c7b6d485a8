//! A series of tests, and the characteristic value it gives.

use crate::codes::Clause;

/// How the values of a series are taken to scatter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Distribution {
    /// Evenly to both sides of the mean.
    Normal,
    /// As the logarithms of a normal distribution: never below zero.
    Lognormal,
}

/// Results of tests on specimens that differ by chance alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// The results, in one unit.
    pub values: Vec<f64>,
    /// How they scatter.
    pub distribution: Distribution,
    /// Coefficient of variation where it is known from elsewhere; else that of the series counts.
    pub known_variation: Option<f64>,
}

/// What a series of tests says of the value that nineteen of twenty parts reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Characteristic {
    /// Number of tests.
    pub tests: usize,
    /// Their mean.
    pub mean: f64,
    /// Coefficient of variation that counts.
    pub variation: f64,
    /// Factor on it for the number of tests.
    pub factor: f64,
    /// The characteristic value.
    pub value: f64,
    /// By which rule.
    pub clause: Clause,
}
