//! Denmark: national choices.
//!
//! Documents: DS/EN 1990 DK NA:2024, DS/EN 1991-1-3 DK NA, DS/EN 1991-1-4 DK NA, DS/EN 1995-1-1 DK NA,
//! DS/EN 1993 DK NA, DS/EN 1999-1-1 DK NA. None of the printed texts was at hand; each value says how it was
//! confirmed.
//!
//! **Left out.** The ground snow, whose value no source confirms: the caller gives it. What is taken off the wind
//! by its direction, as nothing says where a slope faces. Control classes, by which partial factors of materials
//! may be lowered. The distributed load of category H, which acts on no array. Whether there is exceptional snow
//! the caller says, with its load.

use super::{Annex, Least, PAIR_OF_EN_1990, PairFactors, PartialFactors, Strength};
use crate::codes::cited::{Source, Step};
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::TerrainCategory;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::{VelocityAndTerrains, no_zones, velocity_step};
use crate::codes::eurocode::site_steps::no_map_of_snow;
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, Trouble,
    WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Force, Length, Speed};

const SNOW: &str = "DS/EN 1991-1-3 DK NA";
const WIND: &str = "DS/EN 1991-1-4 DK NA";

/// The Danish choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "DK",
    title: "Denmark",
    revision: "DK-1",
    // DS/EN 1990 DK NA, Table A1.2(B+C), with `K_FI`. One source: a public Danish project that reads the table in
    // the editions of 2019 and 2024.
    strength: Strength::Pair {
        by_class: [combinations(0.9), combinations(1.0), combinations(1.1)],
        clauses: PAIR_OF_EN_1990,
    },
    combination_evidence: Evidence::OneSource,
    // DS/EN 1990 DK NA, Table A1.1: 0.3 for both, but no snow where the wind leads, and snow accompanies nothing
    // else here. One source: as the factors.
    psi_0_wind: 0.3,
    psi_0_snow_low: 0.0,
    psi_0_snow_high: 0.0,
    snow_altitude_limit: Length::from_m(1000.0),
    // DS/EN 1990 DK NA: ψ_2 beside accidents other than fire, which is 0 for wind. One source: as the factors.
    psi_wind_accidental: 0.0,
    exceptional_snow_factor: None,
    // As recommended. From memory.
    drifted_shape: None,
    // NDP to 5.2(7), as recommended. From memory that Denmark goes no lower.
    least_exposure: Some(Least {
        value: 0.8,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e >= 0.8" },
    }),
    least_thermal: None,
    // DS/EN 1991-1-1 DK NA, category H. From memory: 1.5 kN, above the recommended 1.0 kN.
    maintenance_force: Force::from_kn(1.5),
    // No ground is so high as the recommended 800 m. Computed at every altitude, on the safe side.
    eaves_snow_above: Length::from_m(-1000.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    places: None,
    // DS/EN 1991-1-4 DK NA, as recommended. One source for duopitch and monopitch roofs: a public Danish
    // program; from memory for hipped ones.
    roof_tables: RoofTables {
        evidence: Evidence::OneSource,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. One source: a public Danish test document, whose pressures are reproduced.
    air_density: Density::from_kg_per_m3(1.25),
    // As recommended. From memory that Denmark keeps them.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // DS/EN 1995-1-1 DK NA. From memory: 1.35 in the ordinary control class, above the recommended 1.3.
    gamma_m_connections: 1.35,
    gamma_m_solid_timber: 1.35,
    // DS/EN 1990 DK NA. One source: as the factors.
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // DS/EN 1999-1-1 DK NA, DS/EN 1993-1-1 DK NA. From memory: 1.20, 1.10 and 1.35 in the ordinary control
    // class, above the recommended 1.10, 1.0 and 1.25.
    gamma_m1_aluminium: 1.20,
    gamma_m0_steel: 1.10,
    gamma_m2_steel: 1.35,
};

/// Eq. (6.10a), which has no variable action, and Eq. (6.10b), with `K_FI` on all but weight that helps.
const fn combinations(k_fi: f64) -> PairFactors {
    PairFactors {
        heavy: PartialFactors {
            permanent_unfavourable: 1.2 * k_fi,
            permanent_favourable: 1.0,
            variable: 0.0,
        },
        light: PartialFactors {
            permanent_unfavourable: 1.0 * k_fi,
            permanent_favourable: 0.9,
            variable: 1.5 * k_fi,
        },
    }
}

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::ShoreDistance, SiteField::TerrainCategory],
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// No zone gives the ground snow of a place.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    no_map_of_snow(site, SNOW_WAYS)
}

/// Peak pressure by the profile and the terrains of the standard, of a velocity that is stated or follows the
/// distance from the shore.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let terrain = |name: &str| Some(TerrainCategory::parse(name)?.terrain());
    let over = VelocityAndTerrains {
        code: ANNEX.code,
        ways: WIND_WAYS,
        terrains: (TerrainCategory::NAMES, terrain, Source::clause(WIND, "Table 4.1")),
        air_density: (ANNEX.air_density, Source::clause(WIND, "NDP to 4.5(1)")),
        peak_factor: None,
        evidence: Evidence::OneSource,
    };
    let Some(shore) = site.shore_distance else { return over.peak_pressure(site) };
    no_zones(site, WIND_WAYS)?;
    let v_b_0 = basic_velocity(shore);
    let velocity = if site.basic_velocity.is_some() {
        let beside = SiteField::BasicVelocity;
        Err(SiteField::ShoreDistance.with(Trouble::Included { beside }))
    } else {
        Ok((v_b_0, velocity_step("v_b,0", v_b_0, Source::clause(WIND, "NDP to 4.2(1)P"))))
    };
    let found = over.at_ridge(velocity, site)?;
    let distance = shore.m() / 1000.0;
    let given = Step::new(Quantity::ShoreDistance, "d", distance, "km", Source::Given);
    Ok(PeakPressure { steps: [given].into_iter().chain(found.steps).collect(), ..found })
}

/// `v_b,0`: basic wind velocity at a distance `d` from the North Sea or Ringkøbing Fjord, whichever is nearer.
///
/// DS/EN 1991-1-4 DK NA, NDP to 4.2(1)P: 27 m/s at the shore, falling evenly to 24 m/s at 25 km, and 24 m/s
/// everywhere else. The distance from another shore that is nearer gives no less.
///
/// Confirmed: a public Danish program, a page of a Danish engineering office.
#[must_use]
pub fn basic_velocity(d: Length) -> Speed {
    const BORDER: Length = Length::from_m(25_000.0);
    const INLAND: f64 = 24.0;
    const AT_THE_SHORE: f64 = 27.0;
    let nearness = (1.0 - d / BORDER).clamp(0.0, 1.0);
    Speed::from_m_per_s(INLAND + (AT_THE_SHORE - INLAND) * nearness)
}
