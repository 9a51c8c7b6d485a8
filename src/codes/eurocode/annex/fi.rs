//! Finland: national choices.
//!
//! Documents: SFS-EN 1990/NA, SFS-EN 1991-1-3/NA, SFS-EN 1991-1-4/NA, SFS-EN 1995-1-1/NA, SFS-EN 1999-1-1/NA. None
//! of the printed texts was at hand; each value says how it was confirmed.
//!
//! **Left out.** The ground snow of a municipality: the caller looks it up. The basic wind velocities at
//! sea and on the fells, of which that of the mainland alone was confirmed. The distributed load of
//! category H, which acts on no array. Whether there is exceptional snow the caller says, with its load.

use super::{Annex, Least, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::{Terrain, TerrainCategory};
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::ZonesAndTerrains;
use crate::codes::eurocode::site_steps::no_map_of_snow;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Force, Length, Speed};

const SNOW: &str = "SFS-EN 1991-1-3/NA";
const WIND: &str = "SFS-EN 1991-1-4/NA";

/// The Finnish choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "FI",
    title: "Finland",
    revision: "FI-1",
    strength: Strength::Single {
        // Which of the rules Finland takes was not seen: (6.10) is never below (6.10a) and (6.10b); 0.9 where
        // the weight helps is from memory, and on the safe side.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 0.90,
            variable: 1.50,
        },
        // Whether Finland makes use of Table B3 was not seen: nothing is lowered, and 1.1 for a high
        // class is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::OneSource,
    // SFS-EN 1990/NA Table A1.1(FI). Confirmed: its text in two languages, a Finnish program.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.7,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // ψ_1 where snow or wind leads. One source: a Finnish program.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // As recommended. From memory.
    drifted_shape: None,
    // NDP to 5.2(7), as recommended. From memory that Finland keeps Table 5.1.
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
    // SFS-EN 1991-1-4/NA, as recommended. From memory that Finland keeps the tables.
    roof_tables: RoofTables {
        evidence: Evidence::FromMemory,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. From memory that Finland keeps it.
    air_density: Density::from_kg_per_m3(1.25),
    // Not seen: the longer of the two classes that EN 1995-1-1 has for snow, on the safe side.
    snow_duration_low: LoadDuration::Medium,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // SFS-EN 1995-1-1/NA. From memory: 1.4 for sawn timber and what is fixed to it, above the recommended 1.3.
    gamma_m_connections: 1.4,
    gamma_m_solid_timber: 1.4,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // As recommended. From memory.
    gamma_m1_aluminium: 1.10,
    gamma_m0_steel: 1.0,
    gamma_m2_steel: 1.25,
};

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::WindZone, SiteField::TerrainCategory],
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// No zone gives the ground snow of a place.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    no_map_of_snow(site, SNOW_WAYS)
}

/// Peak pressure by the profile of the standard.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let velocity = |name: &str| Some(basic_velocity(WindZone::parse(name)?));
    let terrain = |name: &str| Some(terrain_of(TerrainCategory::parse(name)?));
    ZonesAndTerrains {
        code: ANNEX.code,
        ways: WIND_WAYS,
        zones: (WindZone::NAMES, velocity, Source::clause(WIND, "NDP to 4.2(1)P")),
        terrains: (TerrainCategory::NAMES, terrain, Source::clause(WIND, "Table 4.1")),
        air_density: (ANNEX.air_density, Source::clause(WIND, "NDP to 4.5(1)")),
        evidence: Evidence::FromMemory,
    }
    .peak_pressure(site)
}

spelled! {
    /// Where the wind is as fast.
    WindZone {
        /// The mainland, without the coastal waters and the fells.
        Mainland = "mainland",
    }
}

/// `v_b,0`: basic wind velocity of a zone.
///
/// SFS-EN 1991-1-4/NA, NDP to 4.2(1)P: 21 m/s on the mainland.
///
/// Confirmed: two public projects.
#[must_use]
pub const fn basic_velocity(zone: WindZone) -> Speed {
    match zone {
        WindZone::Mainland => Speed::from_m_per_s(21.0),
    }
}

/// `z_0` and `z_min`: the ground upwind in Finland.
///
/// SFS-EN 1991-1-4/NA, Table 4.1: as recommended, but `k_r = 0.18` at sea (0).
///
/// From memory.
#[must_use]
pub const fn terrain_of(category: TerrainCategory) -> Terrain {
    let recommended = category.terrain();
    match category {
        TerrainCategory::Zero => Terrain { k_r: Some(0.18), ..recommended },
        _ => recommended,
    }
}
