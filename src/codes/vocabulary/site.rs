//! How a site is described, and what can be wrong with the description.
//!
//! A family says which *field* of the site it cannot use and what it would understand; where that
//! field stands in a request, and in which words the caller hears of it, is not its business.

use super::Evidence;
use crate::codes::NotCovered;
use crate::units::{Length, Pressure, Speed};

/// A field of the description of a site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SiteField {
    /// Place on the maps.
    Place,
    /// Altitude above sea level.
    Altitude,
    /// Ridge above ground.
    RidgeHeight,
    /// Pitch of the slope.
    Pitch,
    /// The snow as a whole.
    Snow,
    /// Ground load as a number.
    GroundSnow,
    /// Snow zone of a map.
    SnowZone,
    /// Region whose map has the zone.
    SnowRegion,
    /// Whether exceptional snow is to be considered.
    ExceptionalSnow,
    /// Exceptional ground load as a number.
    ExceptionalLoad,
    /// Exposure coefficient of the snow.
    Exposure,
    /// Thermal coefficient of the snow.
    Thermal,
    /// The wind as a whole.
    Wind,
    /// Wind zone of a map.
    WindZone,
    /// Setting within a wind zone.
    WindSetting,
    /// Basic wind velocity.
    BasicVelocity,
    /// Terrain category.
    TerrainCategory,
    /// Distance from the shore.
    ShoreDistance,
    /// Orography factor.
    Orography,
    /// Peak pressure as a number.
    PeakPressure,
}

impl SiteField {
    /// Reads a value the annex has names for.
    ///
    /// # Errors
    /// That the field is missing or that nobody knows its value, with the `known` ones.
    pub fn read<T>(
        self,
        given: Option<&str>,
        known: &'static [&'static str],
        parse: impl Fn(&str) -> Option<T>,
    ) -> Result<T, SiteFault> {
        let given = given.ok_or(self.with(Trouble::Missing { known }))?;
        parse(given).ok_or_else(|| self.with(Trouble::Unknown { given: given.to_owned(), known }))
    }

    /// A number the annex needs.
    ///
    /// # Errors
    /// That the field is missing.
    pub fn need<T>(self, given: Option<T>) -> Result<T, SiteFault> {
        given.ok_or(self.with(Trouble::Missing { known: &[] }))
    }

    /// This field is at fault.
    #[must_use]
    pub const fn with(self, trouble: Trouble) -> SiteFault {
        SiteFault { field: self, trouble }
    }

    /// A rule does not cover the value of this field; the `instead` fields would do without it.
    pub fn silent(self, instead: &'static [Self]) -> impl Fn(NotCovered) -> SiteFault {
        move |rule| self.with(Trouble::Silent { rule, instead })
    }
}

/// What is wrong with a field.
#[derive(Debug, Clone, PartialEq)]
pub enum Trouble {
    /// It is needed with what else was given; it has one of the `known` values, or is a number where
    /// there are none.
    Missing {
        /// Names it may have.
        known: &'static [&'static str],
    },
    /// Its value is none of the `known` ones.
    Unknown {
        /// What was given.
        given: String,
        /// Names it may have.
        known: &'static [&'static str],
    },
    /// It is no place the annex has zones of.
    UnknownPlace {
        /// What was given.
        given: String,
        /// What is known, as a sentence says it after "there are".
        known: &'static str,
    },
    /// The annex has no list of places.
    NoPlaces,
    /// The place lies in several zones of the map, and it was not said in which.
    SeveralZones {
        /// The place as a sentence names it.
        place: String,
        /// Its zones.
        zones: &'static [&'static str],
    },
    /// The place does not lie in the zone that was given.
    Elsewhere {
        /// The place as a sentence names it.
        place: String,
        /// What was given.
        given: String,
        /// Its zones.
        zones: &'static [&'static str],
    },
    /// The annex has no use for it; one of the other ways would be understood.
    Unused {
        /// The ways, each with the fields it needs.
        instead: &'static [&'static [SiteField]],
    },
    /// It contradicts another, because the effect of one is part of the other.
    Included {
        /// The other.
        beside: SiteField,
    },
    /// Another field settles it, and otherwise than was said.
    Settled {
        /// The other.
        by: SiteField,
        /// As which flag.
        as_flag: bool,
    },
    /// A rule does not cover its value; the `instead` fields would do without it.
    Silent {
        /// The rule.
        rule: NotCovered,
        /// What would be understood.
        instead: &'static [SiteField],
    },
    /// Exactly one of several ways of describing it is to be chosen.
    ChooseOne {
        /// The ways, each with the fields it needs.
        ways: &'static [&'static [SiteField]],
    },
}

/// A fault in the description of a site.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteFault {
    /// Where.
    pub field: SiteField,
    /// What.
    pub trouble: Trouble,
}

/// Where a place lies on the maps of an annex.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaceOnMaps {
    /// The place as a sentence names it.
    pub name: String,
    /// What its list says of the snow.
    pub snow: SnowOfPlace,
    /// Zones of wind; none where its list says nothing of the wind.
    pub wind_zones: &'static [&'static str],
    /// How well that is known.
    pub evidence: Evidence,
}

/// What a list says of the snow of a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SnowOfPlace {
    /// Zones of the map it lies in: several where it is too large for one.
    Zones(&'static [&'static str]),
    /// The load on the ground.
    Load(LoadOfPlace),
}

/// Snow on the ground of a place, as a table has it beside the altitude of the place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadOfPlace {
    /// `s_k`.
    pub load: Pressure,
    /// Altitude of the place.
    pub altitude: Length,
    /// How far below and how far above that the load holds.
    pub reach: [Length; 2],
    /// The table, and within which altitudes it is read, for whoever is outside.
    pub rule: NotCovered,
}

impl LoadOfPlace {
    /// Whether the load holds at an altitude.
    ///
    /// # Errors
    /// [`NotCovered`] outside its reach.
    pub fn at(&self, altitude: Length) -> Result<Pressure, NotCovered> {
        let [below, above] = self.reach;
        let within = self.altitude - below <= altitude && altitude <= self.altitude + above;
        if within { Ok(self.load) } else { Err(self.rule) }
    }
}

/// What is known of the snow on the ground.
#[derive(Debug, Clone, Copy, Default)]
pub struct SnowSite<'a> {
    /// Zone of a map.
    pub zone: Option<&'a str>,
    /// Region whose map has the zone.
    pub region: Option<&'a str>,
    /// The load itself.
    pub load: Option<Pressure>,
    /// The place, and what the annex knows of it.
    pub place: Option<&'a PlaceOnMaps>,
    /// Whether exceptional snow is to be considered.
    pub exceptional: Option<bool>,
    /// The exceptional load itself.
    pub exceptional_load: Option<Pressure>,
    /// Exposure coefficient.
    pub exposure: Option<f64>,
    /// Thermal coefficient.
    pub thermal: Option<f64>,
    /// Altitude.
    pub altitude: Length,
}

/// What is known of the wind.
#[derive(Debug, Clone, Copy, Default)]
pub struct WindSite<'a> {
    /// Zone of a map.
    pub zone: Option<&'a str>,
    /// Setting within the zone.
    pub setting: Option<&'a str>,
    /// Basic velocity.
    pub basic_velocity: Option<Speed>,
    /// Terrain category.
    pub terrain: Option<&'a str>,
    /// Distance from the shore upwind.
    pub shore_distance: Option<Length>,
    /// Orography factor.
    pub orography: Option<f64>,
    /// The peak pressure itself.
    pub peak: Option<Pressure>,
    /// Ridge above ground.
    pub height: Length,
    /// Altitude.
    pub altitude: Length,
}
