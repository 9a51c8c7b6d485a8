//! Actions that act together, and how much of each.

use crate::codes::Clause;
use crate::codes::cited::Source;
use crate::units::{Force, Length};

use super::wind::WindCase;

/// What kind of limit a combination belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Situation {
    /// Strength.
    Persistent,
    /// Strength under an accidental action, such as exceptional snow.
    Accidental,
    /// Serviceability.
    Characteristic,
}

/// How long an action lasts over the life of the timber, longest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LoadDuration {
    /// More than ten years.
    Permanent,
    /// Half a year to ten years.
    Long,
    /// A week to half a year.
    Medium,
    /// Less than a week.
    Short,
    /// Between short and instantaneous.
    ShortInstantaneous,
    /// Moments.
    Instantaneous,
}

/// Consequence of failure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ConsequenceClass {
    /// Low: people do not normally enter.
    Low,
    /// Medium: homes and offices.
    Medium,
    /// High: crowds.
    High,
}

/// Factors on the characteristic actions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factors {
    /// On self-weight.
    pub permanent: f64,
    /// On snow.
    pub snow: f64,
    /// On exceptional snow.
    pub exceptional_snow: f64,
    /// On wind.
    pub wind: f64,
}

/// A combination of actions, wind from every direction its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Combination {
    /// Name, such as `uls:G+S+W:front:pressing`.
    pub id: String,
    /// The limit it belongs to.
    pub situation: Situation,
    /// How much of each action.
    pub factors: Factors,
    /// The wind that takes part, if any.
    pub wind: Option<WindCase>,
    /// How the snow lies in it, by place among the arrangements; `None` where it lies evenly or there
    /// is none.
    pub snow: Option<usize>,
    /// Duration class of the shortest action that takes part.
    pub duration: LoadDuration,
    /// The rule that combines the actions so.
    pub clause: Clause,
}

/// Somebody at work on the roof.
#[derive(Debug, Clone, PartialEq)]
pub struct Person {
    /// The combination he is part of: weights and nothing else beside him.
    pub combination: Combination,
    /// His weight, characteristic.
    pub weight: Force,
    /// The rule it comes from.
    pub source: Source,
    /// Factor on it.
    pub factor: f64,
}

/// Partial factors of a set of combinations.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FactorSet {
    /// Those of design, with the factor of the consequence class.
    Design,
    /// All 1.
    One,
}

/// What the combinations of a building depend on beside its wind.
#[derive(Debug, Clone, Copy)]
pub struct CombinationBasis {
    /// Consequence of failure.
    pub consequence: ConsequenceClass,
    /// Altitude of the site.
    pub altitude: Length,
    /// Whether exceptional snow is to be considered.
    pub exceptional_snow: bool,
    /// Partial factors in the combinations of strength.
    pub factors: FactorSet,
}
