//! Places whose zones on the maps of an annex are published as a list.

use crate::codes::vocabulary::{Evidence, PlaceOnMaps};

/// A place, and the zones it lies in: several where it is too large for one.
#[derive(Debug, Clone, Copy)]
pub struct Place {
    /// As the list has it.
    pub code: &'static str,
    /// For people.
    pub name: &'static str,
    /// On the map of snow, as the annex spells them.
    pub snow_zones: &'static [&'static str],
    /// On the map of wind.
    pub wind_zones: &'static [&'static str],
}

impl Place {
    /// A row of a list.
    #[must_use]
    pub const fn new(
        code: &'static str,
        name: &'static str,
        snow_zones: &'static [&'static str],
        wind_zones: &'static [&'static str],
    ) -> Self {
        Self { code, name, snow_zones, wind_zones }
    }
}

/// The places of an annex.
#[derive(Debug, Clone, Copy)]
pub struct Places {
    /// Each once.
    pub all: &'static [Place],
    /// The code in the list of what a caller gives.
    pub code_of: fn(&str) -> Option<&str>,
    /// What is known, as a sentence says it after "there are".
    pub known: &'static str,
    /// How well the list is known.
    pub evidence: Evidence,
}

impl Places {
    /// The place a caller names.
    #[must_use]
    pub fn find(&self, given: &str) -> Option<&'static Place> {
        let code = (self.code_of)(given)?;
        self.all.iter().find(|place| place.code == code)
    }

    /// Its zones.
    #[must_use]
    pub fn on_maps(&self, given: &str) -> Option<PlaceOnMaps> {
        let place = self.find(given)?;
        Some(PlaceOnMaps {
            name: format!("{} ({})", place.code, place.name),
            snow_zones: place.snow_zones,
            wind_zones: place.wind_zones,
            evidence: self.evidence,
        })
    }
}
