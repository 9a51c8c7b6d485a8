//! Czechia: national choices, snow zones and wind zones.
//!
//! Documents: ČSN EN 1990/NA, ČSN EN 1991-1-3/NA with its amendment Z1, ČSN EN 1991-1-4/NA, ČSN EN
//! 1995-1-1/NA, ČSN EN 1999-1-1/NA. None of the printed texts was at hand; each value says how it was
//! confirmed.
//!
//! **Left out.** Snow in zone VIII and anywhere by the digital map of the hydrometeorological institute,
//! both of which give a load of the place itself: the caller states it. Changes of roughness upwind, for
//! which the annex has its procedure: the caller chooses the rougher terrain only where it reaches far
//! enough. Sectors of wind direction; the distributed load of category H, which acts on no array. Whether
//! there is exceptional snow the caller says, with its load.

use super::{Annex, Least, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_1_2002::maintenance_force;
use crate::codes::eurocode::en1991_1_4_2005::EN1991_1_4;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::TerrainCategory;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::ZonesAndTerrains;
use crate::codes::eurocode::snow_zones::ZonesAndAltitude;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Length, Pressure, Speed};

const SNOW: &str = "ČSN EN 1991-1-3/NA";
const WIND: &str = "ČSN EN 1991-1-4/NA";

/// The Czech choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "CZ",
    title: "Czechia",
    revision: "CZ-1",
    strength: Strength::Single {
        // ČSN EN 1990/NA. From memory that it allows Eq. (6.10) beside the pair (6.10a) and (6.10b);
        // (6.10) is never the lower one, with the recommended factors in both.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // Whether Czechia makes use of Table B3 was not seen: nothing is lowered, and 1.1 for a high
        // class is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::FromMemory,
    // ČSN EN 1990/NA Table A1.1, as recommended. From memory that Czechia keeps them.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen: ψ_1 is the safe one, a fifth of the wind beside the snow.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // NDP to 5.2(7), as recommended. One source: a library has 0.8, 1.0 and 1.2.
    least_exposure: Some(Least {
        value: 0.8,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e >= 0.8" },
    }),
    least_thermal: None,
    // EN 1991-1-1:2002, as recommended. From memory that Czechia keeps it.
    maintenance_force: maintenance_force(),
    // NDP to 6.3(1) and (2), as recommended. From memory that Czechia keeps them.
    eaves_snow_above: Length::from_m(800.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: None,
    drifted_shape: None,
    places: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    // ČSN EN 1991-1-4/NA, as recommended. One source: a library for Czechia that reads duopitch and
    // monopitch roofs by them; of hipped roofs from memory.
    roof_tables: RoofTables {
        evidence: Evidence::OneSource,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. One source: a library.
    air_density: Density::from_kg_per_m3(1.25),
    // As recommended. From memory that Czechia keeps them.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // ČSN EN 1995-1-1/NA, as recommended. From memory that Czechia keeps them.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // ČSN EN 1999-1-1/NA and ČSN EN 1993-1-8/NA, as recommended. From memory.
    gamma_m1_aluminium: 1.10,
    gamma_m0_steel: 1.00,
    gamma_m2_steel: 1.25,
};

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::SnowZone], &[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::WindZone, SiteField::TerrainCategory],
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// Ground snow by the zones of the Czech map.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    let map = ZonesAndAltitude {
        code: ANNEX.code,
        ways: SNOW_WAYS,
        names: SnowZone::NAMES,
        parse: SnowZone::parse,
        load: ground_snow_load,
        source: Source::clause(SNOW, "NDP to 4.1(1)"),
        evidence: Evidence::Confirmed,
    };
    map.ground_snow(site).map(|(_, ground)| ground)
}

/// Peak pressure by the profile of the standard over its own terrains.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let velocity = |name: &str| Some(basic_velocity(WindZone::parse(name)?));
    let terrain = |name: &str| Some(TerrainCategory::parse(name)?.terrain());
    ZonesAndTerrains {
        code: ANNEX.code,
        ways: WIND_WAYS,
        zones: (WindZone::NAMES, velocity, Source::clause(WIND, "NDP to 4.2(1)P")),
        terrains: (TerrainCategory::NAMES, terrain, Source::clause(EN1991_1_4, "Table 4.1")),
        air_density: (ANNEX.air_density, Source::clause(EN1991_1_4, "4.5(1)")),
        evidence: Evidence::OneSource,
    }
    .peak_pressure(site)
}

spelled! {
    /// Snow zone of the Czech map.
    SnowZone {
        /// Zone I.
        I = "I",
        /// Zone II.
        Ii = "II",
        /// Zone III.
        Iii = "III",
        /// Zone IV.
        Iv = "IV",
        /// Zone V.
        V = "V",
        /// Zone VI.
        Vi = "VI",
        /// Zone VII.
        Vii = "VII",
        /// Zone VIII, whose load is that of the place itself.
        Viii = "VIII",
    }
}

/// `s_k`: characteristic snow on the ground in Czechia.
///
/// ČSN EN 1991-1-3/NA with amendment Z1, NDP to 4.1(1): 0.7, 1.0, 1.5, 2.0, 2.5, 3.0 and 4.0 kN/m² in zones
/// I to VII; the altitude is in the map. In zone VIII there is more, and how much is asked of the
/// hydrometeorological institute.
///
/// Confirmed: three public pages and a library, which has nothing for zone VIII.
///
/// # Errors
/// [`NotCovered`] in zone VIII, and above 1500 m, where EN 1991-1-3, 1.1(2), leaves the load to others.
pub fn ground_snow_load(zone: SnowZone, altitude: Length) -> Result<Pressure, NotCovered> {
    let clause = Clause::new(SNOW, "NDP to 4.1(1)");
    clause.covers(zone != SnowZone::Viii, "a zone below VIII, which has a load for each place")?;
    clause.covers((0.0..=1500.0).contains(&altitude.m()), "0 m <= altitude <= 1500 m")?;
    Ok(Pressure::from_kn_per_m2(match zone {
        SnowZone::I => 0.7,
        SnowZone::Ii => 1.0,
        SnowZone::Iii => 1.5,
        SnowZone::Iv => 2.0,
        SnowZone::V => 2.5,
        SnowZone::Vi => 3.0,
        SnowZone::Vii | SnowZone::Viii => 4.0,
    }))
}

spelled! {
    /// Wind zone of the Czech map.
    WindZone {
        /// Zone I.
        I = "I",
        /// Zone II.
        Ii = "II",
        /// Zone III.
        Iii = "III",
        /// Zone IV.
        Iv = "IV",
        /// Zone V: the highest mountains.
        V = "V",
    }
}

/// `v_b,0`: basic wind velocity of a zone.
///
/// ČSN EN 1991-1-4/NA, NDP to 4.2(1)P: 22.5, 25, 27.5, 30 and 36 m/s.
///
/// One source: a library; 25 m/s in zone II by a public project as well.
#[must_use]
pub const fn basic_velocity(zone: WindZone) -> Speed {
    Speed::from_m_per_s(match zone {
        WindZone::I => 22.5,
        WindZone::Ii => 25.0,
        WindZone::Iii => 27.5,
        WindZone::Iv => 30.0,
        WindZone::V => 36.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_map_is_silent_in_zone_viii_and_above_1500_m() {
        let at = |zone, a: f64| ground_snow_load(zone, Length::from_m(a));
        assert!(at(SnowZone::Viii, 900.0).is_err());
        assert!(at(SnowZone::Vii, 1500.0).is_ok() && at(SnowZone::Vii, 1500.1).is_err());
    }
}
