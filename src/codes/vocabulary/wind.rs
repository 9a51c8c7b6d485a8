//! Wind on a slope: cases, coefficients and the field of pressures they make.

use crate::codes::cited::{Source, Step};
use crate::geometry::{Outline, Part, Rect, Region};
use crate::roof::{Edge, Form};
use crate::units::{Angle, Area, Force, Length, Pressure};

use super::evidence::Evidence;

/// Where the wind comes from, seen standing outside in front of the slope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// Onto this slope's eaves: it is windward.
    Front,
    /// Over the ridge: the slope is leeward.
    Back,
    /// Onto the gable at the left end.
    Left,
    /// Onto the gable at the right end.
    Right,
}

impl Direction {
    /// Every direction, in the order of the enum.
    pub const ALL: [Self; 4] = [Self::Front, Self::Back, Self::Left, Self::Right];

    /// Name in ids.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Back => "back",
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// Which of the two coefficients of a zone the slope is checked with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sense {
    /// Wind that presses on the roof.
    Pressing,
    /// Wind that lifts.
    Lifting,
}

impl Sense {
    /// Both, in the order of the enum.
    pub const ALL: [Self; 2] = [Self::Pressing, Self::Lifting];

    /// Name in ids.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pressing => "pressing",
            Self::Lifting => "lifting",
        }
    }
}

/// Wind as a combination names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WindCase {
    /// Where it comes from.
    pub direction: Direction,
    /// Which way it acts.
    pub sense: Sense,
}

/// The two coefficients of a zone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coefficients {
    /// Lifting, zero or negative.
    pub suction: f64,
    /// Pressing, zero or positive.
    pub pressure: f64,
}

impl NetCoefficients {
    /// What acts on a module where the roof has these coefficients; where they are given, those.
    #[must_use]
    pub fn of(&self, roof: Coefficients) -> Coefficients {
        match *self {
            Self::RoofSurface => roof,
            Self::Equalised { suction, pressure } => {
                Coefficients { suction: roof.suction * suction, pressure: roof.pressure * pressure }
            }
            Self::Given(given) => given,
        }
    }
}

impl Coefficients {
    /// The coefficient of one sense.
    #[must_use]
    pub const fn of(&self, sense: Sense) -> f64 {
        match sense {
            Sense::Pressing => self.pressure,
            Sense::Lifting => self.suction,
        }
    }
}

/// Where the coefficients of a module come from.
#[derive(Debug, Clone, Copy)]
pub enum NetCoefficients {
    /// The module takes the coefficient of the roof zone it lies in.
    RoofSurface,
    /// It takes these shares of that coefficient: the caller's, as tested.
    Equalised {
        /// Of one that lifts.
        suction: f64,
        /// Of one that presses.
        pressure: f64,
    },
    /// The caller's, everywhere and for every direction.
    Given(Coefficients),
}

/// The slope that carries the array, as the zones need it.
#[derive(Debug, Clone, Copy)]
pub struct Face<'a> {
    /// Its outline.
    pub outline: &'a Outline,
    /// What each side of the outline is.
    pub edges: &'a [Edge],
}

/// The building under the slope, as the zones need it.
#[derive(Debug, Clone, Copy)]
pub struct Building {
    /// Form of its roof.
    pub form: Form,
    /// Along the eaves.
    pub length: Length,
    /// Across the eaves.
    pub width: Length,
    /// Ridge above ground.
    pub height: Length,
    /// Pitch of the slope.
    pub pitch: Angle,
}

/// Peak velocity pressure at ridge height.
#[derive(Debug, Clone, PartialEq)]
pub struct PeakPressure {
    /// The pressure.
    pub pressure: Pressure,
    /// Basic velocity pressure, where known.
    pub basic: Option<Pressure>,
    /// Where it comes from, for people.
    pub described: String,
    /// How well the rule it follows is known.
    pub evidence: Evidence,
    /// How it was found.
    pub steps: Vec<Step>,
}

/// A zone on the slope.
#[derive(Debug, Clone)]
pub struct ZoneOnSlope {
    /// Wind direction.
    pub direction: Direction,
    /// Letter, or `given`.
    pub name: &'static str,
    /// Where: a zone that lies in several places is several of these.
    pub region: Region,
    /// Coefficients.
    pub coefficients: Coefficients,
    /// Where they come from.
    pub source: Source,
}

/// The area at which coefficients are read, and the rule that reads them so.
#[derive(Debug, Clone, Copy)]
pub struct LoadedArea {
    /// The area.
    pub area: Area,
    /// The rule.
    pub source: Source,
}

/// Pressures of the wind on a slope, by zone and direction.
#[derive(Debug, Clone)]
pub struct WindField {
    /// Pressure the coefficients multiply.
    pub peak: PeakPressure,
    /// What they are of those of the roof.
    pub net: NetCoefficients,
    /// How well the coefficients are known.
    pub evidence: Evidence,
    /// Area the coefficients were read at; none where they were given.
    pub loaded_area: Option<LoadedArea>,
    /// Zones of all directions.
    pub zones: Vec<ZoneOnSlope>,
}

/// The part of a rectangle that lies in one zone: the wind presses or lifts it evenly.
#[derive(Debug, Clone, Copy)]
pub struct WindPatch<'a> {
    /// Its zone.
    pub zone: &'a ZoneOnSlope,
    /// What it is of the rectangle.
    pub part: Part,
    rect: Rect,
    peak: Pressure,
}

impl WindPatch<'_> {
    /// Its area.
    #[must_use]
    pub fn area(&self) -> Area {
        Area::from_mm2(self.part.area)
    }

    /// Area it shares with another rectangle, mm².
    #[must_use]
    pub fn overlap(&self, other: &Rect) -> f64 {
        self.zone.region.within(&self.rect.cut(other)).map_or(0.0, |part| part.area)
    }

    /// Force of the wind on it in a sense, at its centroid; positive pressing.
    #[must_use]
    pub fn force(&self, sense: Sense) -> Force {
        self.pressure(sense) * self.area()
    }

    /// Pressure of the wind on it in a sense; positive pressing.
    #[must_use]
    pub fn pressure(&self, sense: Sense) -> Pressure {
        self.peak * self.zone.coefficients.of(sense)
    }
}

/// A value for every wind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ByCase<T>([[T; 2]; Direction::ALL.len()]);

impl<T: Copy> ByCase<T> {
    /// The same for every wind.
    #[must_use]
    pub const fn all(value: T) -> Self {
        Self([[value; 2]; Direction::ALL.len()])
    }

    /// The value of one wind.
    #[must_use]
    pub const fn of(&self, case: WindCase) -> T {
        self.0[case.direction as usize][case.sense as usize]
    }

    /// The value of one wind, to be changed.
    pub const fn of_mut(&mut self, case: WindCase) -> &mut T {
        &mut self.0[case.direction as usize][case.sense as usize]
    }
}

impl WindField {
    /// What the zones of all directions cut a rectangle into.
    pub fn patches<'a>(&'a self, rect: &'a Rect) -> impl Iterator<Item = WindPatch<'a>> {
        let peak = self.peak.pressure;
        self.zones.iter().filter_map(move |zone| {
            let part = zone.region.within(rect)?;
            Some(WindPatch { zone, rect: *rect, part, peak })
        })
    }

    /// Wind of every case on a rectangle as a whole. Where it acts is left out: this is for what
    /// has a resistance per area, and never for what holds the rectangle at some points.
    #[must_use]
    pub fn on_whole(&self, rect: &Rect) -> ByCase<Force> {
        let mut sums = ByCase::all(Force::ZERO);
        for patch in self.patches(rect) {
            for sense in Sense::ALL {
                *sums.of_mut(WindCase { direction: patch.zone.direction, sense }) +=
                    patch.force(sense);
            }
        }
        sums
    }

    /// Whether any zone has a coefficient for this case.
    #[must_use]
    pub fn acts(&self, case: WindCase) -> bool {
        self.zones
            .iter()
            .any(|z| z.direction == case.direction && z.coefficients.of(case.sense) != 0.0)
    }
}
