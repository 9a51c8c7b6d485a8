//! Belgium: national choices and ground snow.
//!
//! Documents: NBN EN 1990 ANB, NBN EN 1991-1-3 ANB, NBN EN 1991-1-4 ANB, NBN EN 1995-1-1 ANB,
//! NBN EN 1999-1-1 ANB. None of the printed texts was at hand; each value says how it was confirmed.
//!
//! **Left out.** The basic wind velocity, which is listed by municipality: the caller looks it up. The
//! distributed load of category H, which acts on no array. Whether there is exceptional snow the caller
//! says, with its load.

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

const SNOW: &str = "NBN EN 1991-1-3 ANB";
const WIND: &str = "NBN EN 1991-1-4 ANB";

/// The Belgian choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "BE",
    title: "Belgium",
    revision: "BE-2",
    strength: Strength::Single {
        // NBN EN 1990 ANB:2021, as recommended. Confirmed: a transcription of the annex, two Belgian calculations.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // NBN EN 1990 ANB:2021, Annex B, which is normative there. One source, a transcription: 0.9 for a low class,
        // which is not made use of, and for a high one 1.1 on permanent and 1.2 on variable actions where neither
        // design nor execution is supervised in the highest degree. 1.2 on both, on the safe side.
        consequence: [1.0, 1.0, 1.2],
    },
    combination_evidence: Evidence::OneSource,
    // NBN EN 1990 ANB:2021 Table A1.1, as recommended. One source, a transcription, which has 0.3 where snow and
    // wind accompany each other: these are never less.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // NBN EN 1990 ANB:2021 Table A1.3, ψ_1. One source, a transcription.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // As recommended. From memory.
    drifted_shape: None,
    // NDP to 5.2(7) and (8). One source: a Belgian page of snow loads has both as 1.
    least_exposure: Some(Least {
        value: 1.0,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e >= 1" },
    }),
    least_thermal: Some(Least {
        value: 1.0,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(8)"), condition: "C_t >= 1" },
    }),
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
    // NBN EN 1991-1-4 ANB, as recommended. From memory that Belgium keeps the tables.
    roof_tables: RoofTables {
        evidence: Evidence::FromMemory,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. From memory that Belgium keeps it.
    air_density: Density::from_kg_per_m3(1.25),
    // As recommended. From memory that Belgium keeps them.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // NBN EN 1995-1-1 ANB, as recommended. From memory that Belgium keeps them.
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

/// The Belgian choices before the factor of a high class was read off the annex.
///
/// Partly from memory: as [`ANNEX`].
pub const BE_1: Annex = Annex {
    revision: "BE-1",
    strength: Strength::Single {
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        consequence: [1.0, 1.0, 1.1],
    },
    ..ANNEX
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
        evidence: Evidence::OneSource,
    }
    .peak_pressure(site)
}

/// `s_k`: characteristic snow on the ground in Belgium.
///
/// NBN EN 1991-1-3 ANB, NDP to 4.1(1): 0.50 kN/m² up to 100 m, `0.50 + 0.007 (A - 100)/6` up to 700 m, `A` the
/// altitude in metres.
///
/// One source: a page of snow loads, whose 0.613 kN/m² at 197 m is reproduced.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ A ≤ 700 m`.
pub fn ground_snow_load(altitude: Length) -> Result<Pressure, NotCovered> {
    let a = altitude.m();
    Clause::new(SNOW, "NDP to 4.1(1)")
        .covers((0.0..=700.0).contains(&a), "0 m <= altitude <= 700 m")?;
    Ok(Pressure::from_kn_per_m2(0.50 + 0.007 * f64::max(a - 100.0, 0.0) / 6.0))
}
