//! Snow on the ground and on a slope.

use crate::codes::cited::{Source, Step};
use crate::units::{LineLoad, Pressure};

use super::drifts::{Arrangement, GroundLevel};
use super::evidence::Evidence;

/// A factor with who states it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stated {
    /// The factor.
    pub value: f64,
    /// Whether the caller states it; assumed otherwise.
    pub by_caller: bool,
}

/// How the snow lies on the roof.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SnowConditions {
    /// Whether exceptional snow is to be considered.
    pub exceptional: bool,
    /// How much the wind leaves.
    pub exposure: Stated,
    /// How much heat from below leaves.
    pub thermal: Stated,
    /// Kept from sliding off.
    pub held: bool,
    /// Wind may carry snow onto the slope over a ridge: the roof has two faces.
    pub over_ridge: bool,
}

/// Characteristic snow on the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundSnow {
    /// The load.
    pub load: Pressure,
    /// Where it comes from, for people.
    pub described: String,
    /// How well the rule it follows is known.
    pub evidence: Evidence,
    /// What is known of exceptional snow there.
    pub exceptional: Exceptional,
    /// How it was found.
    pub steps: Vec<Step>,
}

/// Whether exceptional snow is to be considered at a site.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Exceptional {
    /// Neither the map nor the caller says.
    NotSaid,
    /// None is.
    None,
    /// This is.
    Considered(ExceptionalGround),
}

/// Exceptional snow on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExceptionalGround {
    /// How much it is.
    pub load: ExceptionalLoad,
    /// Where that comes from.
    pub source: Source,
    /// How well it is known.
    pub evidence: Evidence,
}

/// How much exceptional snow there is on the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ExceptionalLoad {
    /// This many times the characteristic load.
    Multiple(f64),
    /// This, whatever the characteristic load.
    Load(Pressure),
}

/// A vertical load in the roof's axes, per area of sloping surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnSlope {
    /// Square to the surface, pressing.
    pub normal: Pressure,
    /// Along the surface, down the slope.
    pub slope: Pressure,
}

/// Snow on a slope.
#[derive(Debug, Clone)]
pub struct Snow {
    /// What it was worked out from.
    pub ground: GroundSnow,
    /// How it lies.
    pub conditions: SnowConditions,
    /// Shape coefficient.
    pub shape: f64,
    /// On the roof, per area of plan.
    pub roof: Pressure,
    /// The same per area of slope, in two directions.
    pub on_slope: OnSlope,
    /// Exceptional snow on the ground, if it is to be considered.
    pub exceptional_ground: Option<Pressure>,
    /// Exceptional snow on the slope, zero if none.
    pub exceptional_on_slope: OnSlope,
    /// Force on a guard at the eaves.
    pub guard: LineLoad,
    /// Other ways it can lie, each by itself.
    pub arrangements: Vec<Arrangement>,
    /// How all this was found.
    pub steps: Vec<Step>,
}

impl Snow {
    /// Load per area of plan at a shape coefficient of 1.
    #[must_use]
    pub fn per_coefficient(&self, level: GroundLevel) -> Pressure {
        let ground = match level {
            GroundLevel::Characteristic => self.ground.load,
            GroundLevel::Exceptional => self.exceptional_ground.unwrap_or(Pressure::ZERO),
        };
        ground * (self.conditions.exposure.value * self.conditions.thermal.value)
    }

    /// The same with the level it is of, as an [`Arrangement`] asks for it.
    #[must_use]
    pub fn at(&self, level: GroundLevel) -> (Pressure, GroundLevel) {
        (self.per_coefficient(level), level)
    }
}
