//! Places whose zones on the maps of an annex, or whose loads, are published as a list.

use crate::codes::vocabulary::{Evidence, LoadOfPlace, PlaceOnMaps, SnowOfPlace};

/// A place, and what the list says of it.
#[derive(Debug, Clone, Copy)]
pub struct Place {
    /// As the list has it.
    pub code: &'static str,
    /// For people.
    pub name: &'static str,
    /// Its snow, zones as the annex spells them.
    pub snow: SnowOfPlace,
    /// Its zones on the map of wind, none where the list has none.
    pub wind_zones: &'static [&'static str],
}

impl Place {
    /// A row of a list of zones: several where a place is too large for one.
    #[must_use]
    pub const fn new(
        code: &'static str,
        name: &'static str,
        snow_zones: &'static [&'static str],
        wind_zones: &'static [&'static str],
    ) -> Self {
        Self { code, name, snow: SnowOfPlace::Zones(snow_zones), wind_zones }
    }

    /// A row of a list of loads, in which a place goes by its name.
    #[must_use]
    pub const fn with_load(name: &'static str, load: LoadOfPlace) -> Self {
        Self { code: name, name, snow: SnowOfPlace::Load(load), wind_zones: &[] }
    }

    /// Its zones on the map of snow, where the list has them.
    #[must_use]
    pub const fn snow_zones(&self) -> &'static [&'static str] {
        match self.snow {
            SnowOfPlace::Zones(zones) => zones,
            SnowOfPlace::Load(_) => &[],
        }
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

    /// What is known of it.
    #[must_use]
    pub fn on_maps(&self, given: &str) -> Option<PlaceOnMaps> {
        let place = self.find(given)?;
        let name = match place.snow {
            SnowOfPlace::Zones(_) => format!("{} ({})", place.code, place.name),
            SnowOfPlace::Load(_) => place.name.to_owned(),
        };
        Some(PlaceOnMaps {
            name,
            snow: place.snow,
            wind_zones: place.wind_zones,
            evidence: self.evidence,
        })
    }
}
