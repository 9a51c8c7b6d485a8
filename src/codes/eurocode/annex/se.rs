//! Sweden: the national rules that took the place of the Swedish choices in the Eurocodes.
//!
//! Documents: BFS 2024:6, alone in force since July 2026, for actions and how they are combined;
//! SS-EN 1995-1-1, SS-EN 1993 and SS-EN 1999-1-1 for resistances. None of the printed texts was at hand; each
//! value says how it was confirmed. Of the combinations, LK1 has the form of EN 1990, Eq. (6.10b), and LK2 that
//! of Eq. (6.10a) without variable actions.
//!
//! **Left out.** The basic values of snow and the reference wind velocity of a place, which the authority
//! publishes: the caller looks them up. The snow zones that the combination factor of snow depends on: the
//! greatest of the factors stands for all. Natural frequencies, on which the peak factor would depend. The
//! distributed load of category H, which acts on no array. Whether there is exceptional snow the caller
//! says, with its load.

use super::{Annex, Least, PairFactors, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_1_2002::maintenance_force;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::TerrainCategory;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::VelocityAndTerrains;
use crate::codes::eurocode::site_steps::no_map_of_snow;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Length};

const RULES: &str = "BFS 2024:6";

/// The Swedish choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "SE",
    title: "Sweden",
    revision: "SE-1",
    // BFS 2024:6, Table 3:1 and 2 kap. 2 §. Confirmed: two public Swedish programs have the same factors, one
    // by these rules, and the partial factors of the safety classes, 0.83, 0.91 and 1.0, which stand for
    // the low, medium and high class.
    strength: Strength::Pair {
        by_class: [combinations(0.83), combinations(0.91), combinations(1.0)],
        clauses: [Clause::new(RULES, "Table 3:1, LK2"), Clause::new(RULES, "Table 3:1, LK1")],
    },
    combination_evidence: Evidence::OneSource,
    // BFS 2024:6, Table 3:5. One source: a public Swedish program.
    psi_0_wind: 0.3,
    // BFS 2024:6, Table 3:6: 0.6 below 2 kN/m², 0.7 from there, 0.8 from 3 kN/m² of snow on the ground. One
    // source: a public Swedish program. The greatest stands for all, on the safe side.
    psi_0_snow_low: 0.8,
    psi_0_snow_high: 0.8,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen: ψ_1 is the safe one, a fifth of the wind beside the snow.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // As recommended. Confirmed: a public Swedish program has the whole and the half of Figure 5.3.
    drifted_shape: None,
    // As recommended. One source: a public Swedish program has 0.8, 1.0 and 1.2.
    least_exposure: Some(Least {
        value: 0.8,
        rule: NotCovered { clause: Clause::new(RULES, "4 kap."), condition: "C_e >= 0.8" },
    }),
    least_thermal: None,
    // As recommended. From memory.
    maintenance_force: maintenance_force(),
    // Not seen. Computed at every altitude, without a limit of `k`, on the safe side.
    eaves_snow_above: Length::from_m(-1000.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    places: None,
    // As recommended. From memory that the tables are those of EN 1991-1-4; one public Swedish program reads
    // duopitch roofs by them.
    roof_tables: RoofTables {
        evidence: Evidence::FromMemory,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. Confirmed: two public Swedish programs.
    air_density: Density::from_kg_per_m3(1.25),
    // Snow lasts for the medium term and wind for an instant. Confirmed: two public Swedish programs.
    snow_duration_low: LoadDuration::Medium,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Instantaneous,
    // As recommended. From memory that Sweden keeps them.
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

/// LK2, which has no variable action, and LK1, with the partial factor `gamma_d` of the safety class on
/// all but weight that helps.
const fn combinations(gamma_d: f64) -> PairFactors {
    const fn of(permanent: f64, variable: f64) -> PartialFactors {
        PartialFactors { permanent_unfavourable: permanent, permanent_favourable: 1.0, variable }
    }
    PairFactors { heavy: of(gamma_d * 1.35, 0.0), light: of(gamma_d * 1.2, gamma_d * 1.5) }
}

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] =
    &[&[SiteField::BasicVelocity, SiteField::TerrainCategory], &[SiteField::PeakPressure]];

/// No zone gives the ground snow of a place.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    no_map_of_snow(site, SNOW_WAYS)
}

/// Peak pressure by the profile and the terrains of the standard, with gusts of the Swedish peak factor.
///
/// BFS 2024:6, 4 kap. 38 and 39 §: `k_p = 3.0`, so that `q_p = (1 + 6 I_v) · ½ ρ v_m²`. Confirmed: two public
/// Swedish programs.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let terrain = |name: &str| Some(TerrainCategory::parse(name)?.terrain());
    VelocityAndTerrains {
        code: ANNEX.code,
        ways: WIND_WAYS,
        terrains: (TerrainCategory::NAMES, terrain, Source::clause(RULES, "Table 4:4")),
        air_density: (ANNEX.air_density, Source::clause(RULES, "4 kap. 38 §")),
        peak_factor: Some((3.0, Source::clause(RULES, "4 kap. 38 §"))),
        evidence: Evidence::Confirmed,
    }
    .peak_pressure(site)
}
