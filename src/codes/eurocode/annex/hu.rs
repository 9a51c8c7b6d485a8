//! Hungary: national choices and ground snow.
//!
//! Documents: MSZ EN 1990/NA, MSZ EN 1991-1-3/NA, MSZ EN 1991-1-4/NA, MSZ EN 1995-1-1/NA, MSZ EN 1999-1-1/NA.
//! None of the printed texts was at hand; each value says how it was confirmed.
//!
//! **Left out.** The basic wind velocity, which no source confirms: the caller gives it. The distributed
//! load of category H, which acts on no array. Whether there is exceptional snow the caller says, with its
//! load.

use super::{Annex, Least, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::TerrainCategory;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::VelocityAndTerrains;
use crate::codes::eurocode::snow_altitude::AltitudeAlone;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Force, Length, Pressure};

const SNOW: &str = "MSZ EN 1991-1-3/NA";
const WIND: &str = "MSZ EN 1991-1-4/NA";

/// The Hungarian choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "HU",
    title: "Hungary",
    revision: "HU-1",
    strength: Strength::Single {
        // MSZ EN 1990/NA, as recommended. Confirmed for the values, from memory that Hungary keeps them.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // Whether Hungary makes use of Table B3 was not seen: nothing is lowered, and 1.1 for a high
        // class is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::FromMemory,
    // MSZ EN 1990/NA, as recommended. From memory that Hungary keeps them.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen: ψ_1 is the safe one, a fifth of the wind beside the snow.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // As recommended. From memory.
    drifted_shape: None,
    // NDP to 5.2(7), as recommended. From memory that Hungary keeps Table 5.1.
    least_exposure: Some(Least {
        value: 0.8,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e >= 0.8" },
    }),
    least_thermal: None,
    // Not seen: 1.5 kN as in the countries that raise the recommended 1.0 kN, on the safe side.
    maintenance_force: Force::from_kn(1.5),
    // NDP to 6.3(1) and (2) not seen. Computed at every altitude, without a limit of `k`, on the safe side.
    eaves_snow_above: Length::from_m(-1000.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    places: None,
    // MSZ EN 1991-1-4/NA, as recommended. From memory that Hungary keeps the tables.
    roof_tables: RoofTables {
        evidence: Evidence::FromMemory,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. From memory that Hungary keeps it.
    air_density: Density::from_kg_per_m3(1.25),
    // As recommended. From memory that Hungary keeps them.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // MSZ EN 1995-1-1/NA, as recommended. From memory that Hungary keeps them.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // As recommended. From memory.
    gamma_m1_aluminium: 1.10,
    gamma_m0_steel: 1.0,
    gamma_m2_steel: 1.25,
};

const SNOW_WAYS: &[&[SiteField]] = &[&[], &[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] =
    &[&[SiteField::BasicVelocity, SiteField::TerrainCategory], &[SiteField::PeakPressure]];

/// Ground snow by the altitude alone, so that nothing else has to be said of it.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    AltitudeAlone {
        code: ANNEX.code,
        load: ground_snow_load,
        source: Source::clause(SNOW, "NDP to 4.1(1)"),
        evidence: Evidence::OneSource,
    }
    .ground_snow(site)
}

/// Peak pressure by the profile and the terrains of the standard.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let terrain = |name: &str| Some(TerrainCategory::parse(name)?.terrain());
    VelocityAndTerrains {
        code: ANNEX.code,
        ways: WIND_WAYS,
        terrains: (TerrainCategory::NAMES, terrain, Source::clause(WIND, "Table 4.1")),
        air_density: (ANNEX.air_density, Source::clause(WIND, "NDP to 4.5(1)")),
        peak_factor: None,
        evidence: Evidence::FromMemory,
    }
    .peak_pressure(site)
}

/// `s_k`: characteristic snow on the ground in Hungary.
///
/// MSZ EN 1991-1-3/NA, NDP to 4.1(1): 1.25 kN/m² up to 400 m, `1.25 + (A - 400)/400` above, `A` the altitude in
/// metres.
///
/// One source: a public Hungarian program.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ A ≤ 1500 m`, above which EN 1991-1-3, 1.1(2), leaves the load to others.
pub fn ground_snow_load(altitude: Length) -> Result<Pressure, NotCovered> {
    let a = altitude.m();
    Clause::new(SNOW, "NDP to 4.1(1)")
        .covers((0.0..=1500.0).contains(&a), "0 m <= altitude <= 1500 m")?;
    Ok(Pressure::from_kn_per_m2(1.25 + f64::max(a - 400.0, 0.0) / 400.0))
}
