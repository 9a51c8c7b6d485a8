//! France: national choices, snow zones and wind zones of the mainland and Corsica.
//!
//! Documents: NF EN 1990/NA, NF EN 1991-1-3/NA with its amendments, NF EN 1991-1-4/NA with its
//! amendments, NF EN 1995-1-1/NA, NF EN 1999-1-1/NA. None of the printed texts was at hand; each value
//! says how it was confirmed.
//!
//! **Left out.** The overseas departments, whose snow is none and whose velocities rest on one library;
//! the simplified orography of the annex, for which the caller gives `c_o`; sectors of wind direction;
//! the 0.2 kN/m² on slopes below 3 %, as no slope here is so flat; the distributed load of category H,
//! which acts on no array; and exceptional drifts, which the
//! annex leaves to a project's own specification where local conditions call for them.

use super::{Annex, Least, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::Terrain;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::ZonesAndTerrains;
use crate::codes::eurocode::snow_zones::ZonesAndAltitude;
use crate::codes::vocabulary::{
    Evidence, Exceptional, ExceptionalGround, ExceptionalLoad, GroundSnow, LoadDuration,
    PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Force, Length, Pressure, Speed};

const SNOW: &str = "NF EN 1991-1-3/NA";
const WIND: &str = "NF EN 1991-1-4/NA";

/// The French choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "FR",
    title: "France",
    revision: "FR-1",
    strength: Strength::Single {
        // NF EN 1990/NA, as recommended. Confirmed for the values, from memory that France keeps them.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // Whether France makes use of Table B3 was not seen: nothing is lowered, and 1.1 for a high
        // class is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::OneSource,
    // NF EN 1990/NA Table A1.1. Confirmed: a summary of the annex, a public library.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen: ψ_1 is the safe one, a fifth of the wind beside the snow.
    psi_wind_accidental: 0.2,
    // The map has the load, see `exceptional_snow_load`.
    exceptional_snow_factor: None,
    // As recommended. From memory.
    drifted_shape: None,
    // NDP to 5.2(7). One source: a library has 1.0, and 1.25 where obstacles shelter the roof.
    least_exposure: Some(Least {
        value: 1.0,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e >= 1" },
    }),
    least_thermal: None,
    // NF EN 1991-1-1/NA, category H. From memory: 1.5 kN, above the recommended 1.0 kN.
    maintenance_force: Force::from_kn(1.5),
    // NDP to 6.3(1). One source: a library, for 900 m. That `k` has no limit of its own is from memory.
    eaves_snow_above: Length::from_m(900.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    places: Some(&super::fr_departments::DEPARTMENTS),
    // NF EN 1991-1-4/NA, as recommended. One source: a library that reads roofs by them.
    roof_tables: RoofTables {
        evidence: Evidence::OneSource,
        hipped_evidence: Evidence::OneSource,
        ..RECOMMENDED
    },
    // NDP to 4.5(1). One source: a library.
    air_density: Density::from_kg_per_m3(1.225),
    // From memory that snow lasts longer above 1000 m. France counts wind as instantaneous; the longer
    // class of the standard is kept, on the safe side, until that has been read.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // NF EN 1995-1-1/NA, as recommended. From memory that France keeps them.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // NF EN 1999-1-1/NA and NF EN 1993-1-8/NA, as recommended. From memory.
    gamma_m1_aluminium: 1.10,
    gamma_m2_steel: 1.25,
    // As recommended. From memory.
    gamma_m0_steel: 1.0,
};

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::SnowZone], &[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::WindZone, SiteField::TerrainCategory],
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// Ground snow by the zones of the French map, which say of exceptional snow as well.
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
    let (zone, ground) = map.ground_snow(site)?;
    let exceptional = exceptional_snow_load(zone).map_or(Exceptional::None, |load| {
        Exceptional::Considered(ExceptionalGround {
            load: ExceptionalLoad::Load(load),
            source: Source::clause(SNOW, "NDP to 4.3(1)"),
            evidence: Evidence::Confirmed,
        })
    });
    Ok(GroundSnow { exceptional, ..ground })
}

/// Peak pressure by the profile of the standard over the terrains of the annex.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let velocity = |name: &str| Some(basic_velocity(WindZone::parse(name)?));
    let terrain = |name: &str| Some(terrain_of(TerrainCategory::parse(name)?));
    ZonesAndTerrains {
        code: ANNEX.code,
        ways: WIND_WAYS,
        zones: (WindZone::NAMES, velocity, Source::clause(WIND, "NDP to 4.2(1)P")),
        terrains: (TerrainCategory::NAMES, terrain, Source::clause(WIND, "Table 4.1(NA)")),
        air_density: (ANNEX.air_density, Source::clause(WIND, "NDP to 4.5(1)")),
        evidence: Evidence::OneSource,
    }
    .peak_pressure(site)
}

spelled! {
    /// Snow zone of the French map.
    SnowZone {
        /// Zone A1.
        A1 = "A1",
        /// Zone A2.
        A2 = "A2",
        /// Zone B1.
        B1 = "B1",
        /// Zone B2.
        B2 = "B2",
        /// Zone C1.
        C1 = "C1",
        /// Zone C2.
        C2 = "C2",
        /// Zone D.
        D = "D",
        /// Zone E.
        E = "E",
    }
}

/// `s_k`: characteristic snow on the ground in France.
///
/// NF EN 1991-1-3/NA, NDP to 4.1(1): 0.45 (A1, A2), 0.55 (B1, B2), 0.65 (C1, C2), 0.90 (D) and
/// 1.40 kN/m² (E) up to 200 m, and for the altitude `A` in metres in addition
///
/// | altitude | A to D | E |
/// |---|---|---|
/// | 200 to 500 m | `A/1000 - 0.20` | `1.5 A/1000 - 0.30` |
/// | 500 to 1000 m | `1.5 A/1000 - 0.45` | `3.5 A/1000 - 1.30` |
/// | 1000 to 2000 m | `3.5 A/1000 - 2.45` | `7 A/1000 - 4.80` |
///
/// Confirmed: a public page of zones and a library; branches meet.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ A ≤ 2000 m`.
pub fn ground_snow_load(zone: SnowZone, altitude: Length) -> Result<Pressure, NotCovered> {
    let clause = Clause::new(SNOW, "NDP to 4.1(1)");
    let a = altitude.m();
    clause.covers((0.0..=2000.0).contains(&a), "0 m <= altitude <= 2000 m")?;
    let at_200 = match zone {
        SnowZone::A1 | SnowZone::A2 => 0.45,
        SnowZone::B1 | SnowZone::B2 => 0.55,
        SnowZone::C1 | SnowZone::C2 => 0.65,
        SnowZone::D => 0.90,
        SnowZone::E => 1.40,
    };
    let [low, middle, high] = match zone {
        SnowZone::E => [(1.5, 0.30), (3.5, 1.30), (7.0, 4.80)],
        _ => [(1.0, 0.20), (1.5, 0.45), (3.5, 2.45)],
    };
    let (rise, less) = match a {
        a if a <= 200.0 => (0.0, 0.0),
        a if a <= 500.0 => low,
        a if a <= 1000.0 => middle,
        _ => high,
    };
    Ok(Pressure::from_kn_per_m2(at_200 + (rise * a / 1000.0 - less)))
}

/// `s_Ad`: exceptional snow on the ground in France, whatever the altitude; none in some zones.
///
/// NF EN 1991-1-3/NA, NDP to 4.3(1) and to Table A.1: 1.00 (A2, B1), 1.35 (B2, C2), 1.80 kN/m² (D), and
/// no exceptional snow in A1, C1 and E.
///
/// Confirmed: a public page of zones and a library; which zones have none by a copy of the annex.
#[must_use]
pub const fn exceptional_snow_load(zone: SnowZone) -> Option<Pressure> {
    match zone {
        SnowZone::A1 | SnowZone::C1 | SnowZone::E => None,
        SnowZone::A2 | SnowZone::B1 => Some(Pressure::from_kn_per_m2(1.00)),
        SnowZone::B2 | SnowZone::C2 => Some(Pressure::from_kn_per_m2(1.35)),
        SnowZone::D => Some(Pressure::from_kn_per_m2(1.80)),
    }
}

spelled! {
    /// Wind zone of the French map.
    WindZone {
        /// Zone 1.
        Z1 = "1",
        /// Zone 2.
        Z2 = "2",
        /// Zone 3.
        Z3 = "3",
        /// Zone 4.
        Z4 = "4",
    }
}

/// `v_b,0`: basic wind velocity of a zone.
///
/// NF EN 1991-1-4/NA, NDP to 4.2(1)P: 22, 24, 26 and 28 m/s.
///
/// Confirmed: a public page of zones and a library.
#[must_use]
pub const fn basic_velocity(zone: WindZone) -> Speed {
    Speed::from_m_per_s(match zone {
        WindZone::Z1 => 22.0,
        WindZone::Z2 => 24.0,
        WindZone::Z3 => 26.0,
        WindZone::Z4 => 28.0,
    })
}

spelled! {
    /// Terrain category of the annex.
    TerrainCategory {
        /// 0: sea, coast open to it, lakes of 5 km and more.
        Zero = "0",
        /// II: open country, with or without single obstacles.
        Ii = "II",
        /// `IIIa`: country with hedges, vineyards, scattered houses.
        IiiA = "IIIa",
        /// `IIIb`: built-up or industrial areas, woods, orchards.
        IiiB = "IIIb",
        /// IV: towns, dense forest.
        Iv = "IV",
    }
}

/// `z_0`, `z_min` and `k_I`: the ground upwind in France.
///
/// NF EN 1991-1-4/NA, Table 4.1(NA): `z_0` and `z_min` 0.005 and 1 m (0), 0.05 and 2 m (II), 0.2 and 5 m
/// (`IIIa`), 0.5 and 9 m (`IIIb`), 1.0 and 15 m (IV), with [`turbulence_factor`].
///
/// Confirmed: a public page and a library.
#[must_use]
pub fn terrain_of(category: TerrainCategory) -> Terrain {
    let (z_0, z_min) = match category {
        TerrainCategory::Zero => (0.005, 1.0),
        TerrainCategory::Ii => (0.05, 2.0),
        TerrainCategory::IiiA => (0.2, 5.0),
        TerrainCategory::IiiB => (0.5, 9.0),
        TerrainCategory::Iv => (1.0, 15.0),
    };
    let z_0 = Length::from_m(z_0);
    Terrain { z_0, z_min: Length::from_m(z_min), k_r: None, k_i: turbulence_factor(z_0) }
}

/// `k_I`: turbulence factor in France.
///
/// NF EN 1991-1-4/NA, NDP to 4.4(1): `k_I = 1 - 2·10⁻⁴ (lg z_0 + 3)⁶`, `z_0` in metres.
///
/// One source: a library, whose pressures are reproduced to five digits.
#[must_use]
pub fn turbulence_factor(z_0: Length) -> f64 {
    1.0 - 2e-4 * (z_0.m().log10() + 3.0).powi(6)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ground_snow_has_no_steps_and_ends_at_2000_m() {
        let at = |zone, a: f64| ground_snow_load(zone, Length::from_m(a)).map(Pressure::kn_per_m2);
        for zone in SnowZone::NAMES.iter().map(|name| SnowZone::parse(name).expect("a name")) {
            for bound in [200.0, 500.0, 1000.0] {
                let (below, above) = (at(zone, bound), at(zone, bound + 1e-6));
                let step = above.expect("covered") - below.expect("covered");
                assert!(step.abs() < 1e-6, "{zone:?} at {bound} m: {step}");
            }
            assert!(at(zone, 2000.0).is_ok() && at(zone, 2000.1).is_err());
        }
    }
}
