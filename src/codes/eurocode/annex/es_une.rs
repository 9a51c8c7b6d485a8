//! Spain by the annexes to the Eurocodes (UNE-EN, "AN"), beside its building code in [`super::es_cte`].
//!
//! Documents: UNE-EN 1990/AN, UNE-EN 1991-1-3/AN, UNE-EN 1991-1-4/AN, UNE-EN 1995-1-1/AN, UNE-EN 1999-1-1/AN.
//! None of the printed texts was at hand; each value says how it was confirmed.
//!
//! **Left out.** Sectors of wind direction; the distributed load of category H, which acts on no array.
//! Whether there is exceptional snow the caller says, with its load.

use super::es::{self, SnowZone, WindZone};
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
use crate::units::{Density, Length};

const SNOW: &str = "UNE-EN 1991-1-3/AN";
const WIND: &str = "UNE-EN 1991-1-4/AN";

/// The choices of the Spanish annexes.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "ES-UNE",
    title: "Spain, annexes to the Eurocodes",
    revision: "ES-UNE-1",
    strength: Strength::Single {
        // UNE-EN 1990/AN, as recommended. One source: a library that combines by it.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // Whether Spain makes use of Table B3 was not seen: nothing is lowered, and 1.1 for a high class
        // is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::OneSource,
    // UNE-EN 1990/AN Table A1.1, as recommended. One source: an open Spanish library, by which Spain has nothing of
    // its own for buildings.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen, nor whether ψ_1 is 0.2 or the 0.5 of the building code: the greatest
    // of them, on the safe side.
    psi_wind_accidental: 0.5,
    exceptional_snow_factor: None,
    // NDP to 5.2(7), as recommended. From memory that Spain keeps Table 5.1.
    least_exposure: Some(Least {
        value: 0.8,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e >= 0.8" },
    }),
    least_thermal: None,
    // EN 1991-1-1:2002, as recommended. From memory that Spain keeps it.
    maintenance_force: maintenance_force(),
    // NDP to 6.3(1) and (2), as recommended. From memory that Spain keeps them.
    eaves_snow_above: Length::from_m(800.0),
    eaves_snow_k: f64::INFINITY,
    // μ_1 = 0.8 as in the standard. One source: a program that has both.
    roof_snow_law: None,
    drifted_shape: None,
    places: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    // UNE-EN 1991-1-4/AN, as recommended. From memory that Spain keeps the tables.
    roof_tables: RoofTables {
        evidence: Evidence::FromMemory,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. From memory that Spain keeps it.
    air_density: Density::from_kg_per_m3(1.25),
    // As recommended. From memory that Spain keeps them.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // UNE-EN 1995-1-1/AN, as recommended. From memory that Spain keeps them.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // UNE-EN 1999-1-1/AN and UNE-EN 1993-1-8/AN, as recommended. From memory.
    gamma_m1_aluminium: 1.10,
    // UNE-EN 1993-1-1/AN, above the recommended 1.0. From memory.
    gamma_m0_steel: 1.05,
    gamma_m2_steel: 1.25,
};

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::SnowZone], &[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::WindZone, SiteField::TerrainCategory],
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// Ground snow by the zones of the Spanish map.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    const TABLE: Clause = Clause::new(SNOW, "Table AN.2");
    let map = ZonesAndAltitude {
        code: ANNEX.code,
        ways: SNOW_WAYS,
        names: SnowZone::NAMES,
        parse: SnowZone::parse,
        load: |zone, altitude| es::ground_snow_load(TABLE, zone, altitude),
        source: Source::Clause(TABLE),
        evidence: Evidence::Confirmed,
    };
    map.ground_snow(site).map(|(_, ground)| ground)
}

/// Peak pressure by the profile of the standard over its own terrains, from memory that Spain keeps both.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let velocity = |name: &str| Some(es::basic_velocity(WindZone::parse(name)?));
    let terrain = |name: &str| Some(TerrainCategory::parse(name)?.terrain());
    ZonesAndTerrains {
        code: ANNEX.code,
        ways: WIND_WAYS,
        zones: (WindZone::NAMES, velocity, Source::clause(WIND, "NDP to 4.2(1)P")),
        terrains: (TerrainCategory::NAMES, terrain, Source::clause(EN1991_1_4, "Table 4.1")),
        air_density: (ANNEX.air_density, Source::clause(EN1991_1_4, "4.5(1)")),
        evidence: Evidence::FromMemory,
    }
    .peak_pressure(site)
}
