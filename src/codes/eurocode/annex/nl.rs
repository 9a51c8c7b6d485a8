//! The Netherlands: national choices, wind areas, and coefficients of roofs of their own.
//!
//! Documents: NEN-EN 1990/NB, NEN-EN 1991-1-1/NB, NEN-EN 1991-1-3/NB, NEN-EN 1991-1-4:2005+C2:2011/NB:2019,
//! NEN-EN 1995-1-1/NB, NEN-EN 1999-1-1/NB. None of the printed texts was at hand; each value says how it
//! was confirmed.
//!
//! **Left out.** The area of a place, as the map follows the borders of municipalities; NEN 7250 with its
//! coefficients for modules, whose values were not at hand; the distributed load of category H, which acts
//! on no array. Whether there is exceptional snow the caller says, with its load.

use super::{Annex, Least, PAIR_OF_EN_1990, PairFactors, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RoofTables, Table};
use crate::codes::eurocode::en1991_1_4_2005::velocity::Terrain;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::ZonesAndTerrains;
use crate::codes::eurocode::site_steps::ground_snow_step;
use crate::codes::vocabulary::{
    Evidence, Exceptional, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite,
    Trouble, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Force, Length, Pressure, Speed};

const SNOW: &str = "NEN-EN 1991-1-3/NB";
const WIND: &str = "NEN-EN 1991-1-4:2005+C2:2011/NB:2019";

/// The Dutch choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "NL",
    title: "Netherlands",
    revision: "NL-1",
    // NEN-EN 1990/NB Tables NB.4 and NB.5. Confirmed: a public engineering project in two places; a
    // university's handbook for (6.10b) and for 0.9 where the weight helps.
    strength: Strength::Pair {
        by_class: [pair(1.20, 1.10, 1.35), pair(1.35, 1.20, 1.50), pair(1.50, 1.30, 1.65)],
        clauses: PAIR_OF_EN_1990,
    },
    combination_evidence: Evidence::Confirmed,
    // NEN-EN 1990/NB Table NB.2: nothing accompanies. Confirmed: as the factors.
    psi_0_wind: 0.0,
    psi_0_snow_low: 0.0,
    psi_0_snow_high: 0.0,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen: ψ_1 is the safe one, a fifth of the wind beside the snow.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // As recommended. From memory.
    drifted_shape: None,
    // NDP to 5.2(7) and (8). Confirmed: two public sources have both as 1.
    least_exposure: Some(Least {
        value: 1.0,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e = 1" },
    }),
    least_thermal: Some(Least {
        value: 1.0,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(8)"), condition: "C_t = 1" },
    }),
    // NEN-EN 1991-1-1/NB, category H. One source: a university's handbook.
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
    roof_tables: RoofTables {
        document: WIND,
        duopitch_across: ACROSS_RIDGE,
        duopitch_along: ALONG_RIDGE,
        monopitch_lower: LOWER_EAVES,
        monopitch_upper: UPPER_EAVES,
        monopitch_verge: VERGE,
        hipped: HIPPED,
        evidence: Evidence::Confirmed,
        hipped_evidence: Evidence::StandIn,
    },
    // As recommended. Confirmed: two printed pressures are reproduced with it.
    air_density: Density::from_kg_per_m3(1.25),
    // As recommended. From memory that the Netherlands keep them; the altitude does not matter there.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // NEN-EN 1995-1-1/NB, as recommended. From memory that the Netherlands keep them.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // NEN-EN 1999-1-1/NB and NEN-EN 1993-1-8/NB, as recommended. From memory.
    gamma_m1_aluminium: 1.10,
    gamma_m2_steel: 1.25,
    // As recommended. From memory.
    gamma_m0_steel: 1.0,
};

/// Factors of a class, of the weight in (6.10a), of the weight in (6.10b), of a variable action.
const fn pair(heavy: f64, light: f64, variable: f64) -> PairFactors {
    const FAVOURABLE: f64 = 0.90;
    const fn of(permanent_unfavourable: f64, variable: f64) -> PartialFactors {
        PartialFactors { permanent_unfavourable, permanent_favourable: FAVOURABLE, variable }
    }
    PairFactors { heavy: of(heavy, variable), light: of(light, variable) }
}

const SNOW_WAYS: &[&[SiteField]] = &[&[], &[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::WindZone, SiteField::TerrainCategory],
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// Ground snow: the same everywhere, so that nothing has to be said of it.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    let said = [(SiteField::SnowRegion, site.region), (SiteField::SnowZone, site.zone)];
    let unused =
        |field: SiteField| field.with(Trouble::Unused { instead: &[&[SiteField::GroundSnow]] });
    let faults: Vec<SiteFault> =
        said.iter().filter(|(_, said)| said.is_some()).map(|(field, _)| unused(*field)).collect();
    if !faults.is_empty() {
        return Err(faults);
    }
    let load = ground_snow_load();
    Ok(GroundSnow {
        load,
        described: format!("annex {}", ANNEX.code),
        evidence: Evidence::Confirmed,
        exceptional: Exceptional::NotSaid,
        steps: vec![ground_snow_step(load, Source::clause(SNOW, "NDP to 4.1(1)"))],
    })
}

/// Peak pressure by the profile of the standard over the terrains of the annex.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let velocity = |name: &str| Some(basic_velocity(WindArea::parse(name)?));
    let terrain = |name: &str| Some(terrain_of(TerrainCategory::parse(name)?));
    ZonesAndTerrains {
        code: ANNEX.code,
        ways: WIND_WAYS,
        zones: (WindArea::NAMES, velocity, Source::clause(WIND, "Table NB.1")),
        terrains: (TerrainCategory::NAMES, terrain, Source::clause(WIND, "Table NB.3-4.1")),
        air_density: (ANNEX.air_density, Source::clause(WIND, "NDP to 4.5(1)")),
        evidence: Evidence::Confirmed,
    }
    .peak_pressure(site)
}

/// `s_k`: characteristic snow on the ground in the Netherlands.
///
/// NEN-EN 1991-1-3/NB, NDP to 4.1(1): 0.70 kN/m² everywhere.
///
/// Confirmed: several public sources.
#[must_use]
pub const fn ground_snow_load() -> Pressure {
    Pressure::from_kn_per_m2(0.70)
}

spelled! {
    /// Wind area of the Dutch map.
    WindArea {
        /// Area I.
        I = "I",
        /// Area II.
        Ii = "II",
        /// Area III.
        Iii = "III",
    }
}

/// `v_b,0`: basic wind velocity of an area.
///
/// NEN-EN 1991-1-4/NB, Table NB.1: 29.5, 27.0 and 24.5 m/s.
///
/// Confirmed: two public sources; two printed pressures are reproduced.
#[must_use]
pub const fn basic_velocity(area: WindArea) -> Speed {
    Speed::from_m_per_s(match area {
        WindArea::I => 29.5,
        WindArea::Ii => 27.0,
        WindArea::Iii => 24.5,
    })
}

spelled! {
    /// Terrain category of the annex.
    TerrainCategory {
        /// 0: sea or coast open to it.
        Zero = "0",
        /// II: rural.
        Ii = "II",
        /// III: built-up.
        Iii = "III",
    }
}

/// `z_0` and `z_min`: the ground upwind in the Netherlands.
///
/// NEN-EN 1991-1-4/NB, Table NB.3-4.1: 0.005 and 1 m (coast), 0.2 and 4 m (rural), 0.5 and 7 m (built-up);
/// nothing is taken off the height for buildings upwind.
///
/// Confirmed: a public engineering project, a public script; of the coast one page has 0.1 m for
/// `z_min`, which changes nothing above 1 m.
#[must_use]
pub const fn terrain_of(category: TerrainCategory) -> Terrain {
    let (z_0, z_min) = match category {
        TerrainCategory::Zero => (0.005, 1.0),
        TerrainCategory::Ii => (0.2, 4.0),
        TerrainCategory::Iii => (0.5, 7.0),
    };
    Terrain { z_0: Length::from_m(z_0), z_min: Length::from_m(z_min), k_r: None, k_i: 1.0 }
}

/// Monopitch, wind onto the lower eaves, zones F G H: Table NB.8-7.3a. Confirmed: a public project that
/// transcribes the page, a public script.
#[rustfmt::skip]
const LOWER_EAVES: Table<3> = &[
    (  5.0, [[-1.7, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.6, -1.2, 0.0]]),
    ( 15.0, [[-0.9, -2.0, 0.2], [-0.8, -1.5, 0.2], [-0.3, -1.0, 0.2]]),
    ( 30.0, [[-0.5, -1.5, 0.7], [-0.5, -1.5, 0.7], [-0.2, -1.0, 0.4]]),
    ( 45.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.6]]),
    ( 60.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7]]),
    ( 75.0, [[ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8]]),
];

/// The same table, wind onto the upper eaves. Confirmed: as the other half.
#[rustfmt::skip]
const UPPER_EAVES: Table<3> = &[
    (  5.0, [[-2.3, -2.5, 0.0], [-1.3, -2.0, 0.0], [-0.8, -1.2, 0.0]]),
    ( 15.0, [[-2.5, -2.8, 0.0], [-1.3, -2.0, 0.0], [-0.9, -1.2, 0.0]]),
    ( 30.0, [[-1.1, -2.3, 0.0], [-0.8, -1.5, 0.0], [-0.8, -1.0, 0.0]]),
    ( 45.0, [[-0.6, -1.3, 0.0], [-0.5, -1.0, 0.0], [-0.7, -1.0, 0.0]]),
    ( 60.0, [[-0.5, -1.0, 0.0], [-0.5, -1.0, 0.0], [-0.5, -1.0, 0.0]]),
    ( 75.0, [[-0.5, -1.0, 0.0], [-0.5, -1.0, 0.0], [-0.5, -1.0, 0.0]]),
];

/// Monopitch, wind onto a verge, zones Fup Flow G H I: Table NB.9-7.3b. Confirmed: as Table NB.8-7.3a.
#[rustfmt::skip]
const VERGE: Table<5> = &[
    (  5.0, [[-2.1, -2.6, 0.0], [-2.1, -2.4, 0.0], [-1.8, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.5, -1.0, 0.0]]),
    ( 15.0, [[-2.4, -2.9, 0.0], [-1.6, -2.4, 0.0], [-1.9, -2.5, 0.0], [-0.8, -1.2, 0.0], [-0.7, -1.2, 0.0]]),
    ( 30.0, [[-2.1, -2.9, 0.0], [-1.3, -2.0, 0.0], [-1.5, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.8, -1.2, 0.0]]),
    ( 45.0, [[-1.5, -2.4, 0.0], [-1.3, -2.0, 0.0], [-1.4, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.9, -1.2, 0.0]]),
    ( 60.0, [[-1.2, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.7, -1.2, 0.0]]),
    ( 75.0, [[-1.2, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.5, -1.0, 0.0]]),
];

/// Duopitch, wind across the ridge, zones F G H I J: Table NB.10-7.4a. Confirmed: as Table NB.8-7.3a.
#[rustfmt::skip]
const ACROSS_RIDGE: Table<5> = &[
    (-45.0, [[-0.6, -0.6, 0.0], [-0.6, -0.6, 0.0], [-0.8, -0.8, 0.0], [-0.7, -1.0, 0.0], [-1.0, -1.5, 0.0]]),
    (-30.0, [[-1.1, -2.0, 0.0], [-0.8, -1.5, 0.0], [-0.8, -0.8, 0.0], [-0.6, -1.0, 0.0], [-0.8, -1.4, 0.0]]),
    (-15.0, [[-2.5, -2.8, 0.0], [-1.3, -2.0, 0.0], [-0.9, -1.2, 0.0], [-0.5, -1.0, 0.0], [-0.7, -1.2, 0.0]]),
    ( -5.0, [[-2.3, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.6, -1.0, 0.2], [-0.6, -0.6, 0.2]]),
    (  5.0, [[-1.7, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.6, -1.0, 0.0], [-0.6, -1.0, 0.2]]),
    ( 15.0, [[-0.9, -2.0, 0.2], [-0.8, -1.5, 0.2], [-0.3, -1.0, 0.2], [-0.4, -1.0, 0.0], [-1.0, -1.5, 0.0]]),
    ( 30.0, [[-0.5, -1.5, 0.7], [-0.5, -1.5, 0.7], [-0.2, -1.0, 0.4], [-0.4, -1.0, 0.0], [-0.5, -1.0, 0.0]]),
    ( 45.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.6], [-0.2, -1.0, 0.0], [-0.3, -1.0, 0.0]]),
    ( 60.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [-0.2, -1.0, 0.0], [-0.3, -1.0, 0.0]]),
    ( 75.0, [[ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [-0.2, -1.0, 0.0], [-0.3, -1.0, 0.0]]),
];

/// Duopitch, wind along the ridge, zones F G H I and an empty J: Table NB.11-7.4b. Confirmed: as Table
/// NB.8-7.3a.
#[rustfmt::skip]
const ALONG_RIDGE: Table<5> = &[
    (-45.0, [[-1.4, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.9, -1.2, 0.0], [ 0.0,  0.0, 0.0]]),
    (-30.0, [[-1.5, -2.1, 0.0], [-1.2, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.9, -1.2, 0.0], [ 0.0,  0.0, 0.0]]),
    (-15.0, [[-1.9, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.8, -1.2, 0.0], [ 0.0,  0.0, 0.0]]),
    ( -5.0, [[-1.8, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.7, -1.2, 0.0], [-0.6, -1.2, 0.0], [ 0.0,  0.0, 0.0]]),
    (  5.0, [[-1.6, -2.2, 0.0], [-1.3, -2.0, 0.0], [-0.7, -1.2, 0.0], [-0.6, -1.0, 0.0], [ 0.0,  0.0, 0.0]]),
    ( 15.0, [[-1.3, -2.0, 0.0], [-1.3, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.5, -1.0, 0.0], [ 0.0,  0.0, 0.0]]),
    ( 30.0, [[-1.1, -1.5, 0.0], [-1.4, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.5, -1.0, 0.0], [ 0.0,  0.0, 0.0]]),
    ( 45.0, [[-1.1, -1.5, 0.0], [-1.4, -2.0, 0.0], [-0.9, -1.2, 0.0], [-0.5, -1.0, 0.0], [ 0.0,  0.0, 0.0]]),
    ( 60.0, [[-1.1, -1.5, 0.0], [-1.2, -2.0, 0.0], [-0.8, -1.0, 0.0], [-0.5, -1.0, 0.0], [ 0.0,  0.0, 0.0]]),
    ( 75.0, [[-1.1, -1.5, 0.0], [-1.2, -2.0, 0.0], [-0.8, -1.0, 0.0], [-0.5, -1.0, 0.0], [ 0.0,  0.0, 0.0]]),
];

/// Hipped, zones F to N: Table 7.5 as recommended, and as in the other tables -1.0 on 1 m² where it has a
/// single value that lifts. A stand-in: the Dutch table was not seen.
#[rustfmt::skip]
const HIPPED: Table<9> = &[
    (  5.0, [[-1.7, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.3, -1.0, 0.0], [-0.6, -1.0, 0.0], [-0.6, -1.0, 0.0], [-1.2, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.4, -1.0, 0.0]]),
    ( 15.0, [[-0.9, -2.0, 0.2], [-0.8, -1.5, 0.2], [-0.3, -1.0, 0.2], [-0.5, -1.0, 0.0], [-1.0, -1.5, 0.0], [-1.2, -2.0, 0.0], [-1.4, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.3, -1.0, 0.0]]),
    ( 30.0, [[-0.5, -1.5, 0.5], [-0.5, -1.5, 0.7], [-0.2, -1.0, 0.4], [-0.4, -1.0, 0.0], [-0.7, -1.2, 0.0], [-0.5, -1.0, 0.0], [-1.4, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.2, -1.0, 0.0]]),
    ( 45.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.6], [-0.3, -1.0, 0.0], [-0.6, -1.0, 0.0], [-0.3, -1.0, 0.0], [-1.3, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.2, -1.0, 0.0]]),
    ( 60.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [-0.3, -1.0, 0.0], [-0.6, -1.0, 0.0], [-0.3, -1.0, 0.0], [-1.2, -2.0, 0.0], [-0.4, -1.0, 0.0], [-0.2, -1.0, 0.0]]),
    ( 75.0, [[ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [-0.3, -1.0, 0.0], [-0.6, -1.0, 0.0], [-0.3, -1.0, 0.0], [-1.2, -2.0, 0.0], [-0.4, -1.0, 0.0], [-0.2, -1.0, 0.0]]),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::en1991_1_4_2005::tables::RECOMMENDED;

    /// The annex changes coefficients on 1 m² alone, and lets none of them lift less.
    #[test]
    fn the_tables_differ_from_the_recommended_ones_on_small_areas_alone() {
        fn compared<const N: usize>(own: Table<N>, recommended: Table<N>) -> usize {
            assert_eq!(own.len(), recommended.len());
            let rows = own.iter().zip(recommended);
            let cells = rows.flat_map(|((pitch, own), (same, recommended))| {
                assert_eq!(pitch.to_bits(), same.to_bits());
                own.iter().zip(recommended)
            });
            let changed = cells.filter(|([own_10, own_1, own_up], [cpe_10, cpe_1, up])| {
                assert_eq!((own_10.to_bits(), own_up.to_bits()), (cpe_10.to_bits(), up.to_bits()));
                let same = own_1.to_bits() == cpe_1.to_bits();
                assert!(same || (cpe_1.to_bits() == cpe_10.to_bits() && own_1 < cpe_1));
                assert!(same || own_1.to_bits() == (-1.0_f64).to_bits());
                !same
            });
            changed.count()
        }
        let own = ANNEX.roof_tables;
        assert_eq!(compared(own.monopitch_lower, RECOMMENDED.monopitch_lower), 2);
        assert_eq!(compared(own.monopitch_upper, RECOMMENDED.monopitch_upper), 7);
        assert_eq!(compared(own.monopitch_verge, RECOMMENDED.monopitch_verge), 2);
        assert_eq!(compared(own.duopitch_across, RECOMMENDED.duopitch_across), 17);
        assert_eq!(compared(own.duopitch_along, RECOMMENDED.duopitch_along), 6);
        assert!(compared(own.hipped, RECOMMENDED.hipped) > 0);
    }
}
