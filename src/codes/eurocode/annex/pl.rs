//! Poland: national choices, snow zones and wind zones.
//!
//! Documents: PN-EN 1990/NA, PN-EN 1991-1-3/NA, PN-EN 1991-1-4/NA, PN-EN 1995-1-1/NA, PN-EN 1999-1-1/NA.
//! None of the printed texts was at hand; each value says how it was confirmed.
//!
//! **Left out.** Orography, for which the annex's exposure factors leave no room that was seen: the caller
//! gives the peak pressure there; sectors of wind direction; the distributed load of category H, which
//! acts on no array. Whether there is exceptional snow the caller says, with its load.

use super::{Annex, Least, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_1_2002::maintenance_force;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::{
    TerrainCategory, minimum_height, velocity_pressure,
};
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::exposure::{Basic, Exposure, ZonesAndExposure};
use crate::codes::eurocode::profile::velocity_step;
use crate::codes::eurocode::snow_zones::ZonesAndAltitude;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Length, Pressure, Speed};

const SNOW: &str = "PN-EN 1991-1-3/NA";
const WIND: &str = "PN-EN 1991-1-4/NA";

/// The Polish choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "PL",
    title: "Poland",
    revision: "PL-1",
    strength: Strength::Single {
        // PN-EN 1990/NA. Confirmed for the values: two open Polish programs, which have (6.10a) and (6.10b) with
        // ξ = 0.85, which (6.10) is never below.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // Whether Poland makes use of Table B3 was not seen: nothing is lowered, and 1.1 for a high
        // class is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::OneSource,
    // PN-EN 1990/NA Table A1.1, as recommended. One source up to 1000 m: two open Polish programs of one family;
    // from memory above.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // ψ_1 of the leading action. One source: an open Polish program.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // As recommended. From memory.
    drifted_shape: None,
    // NDP to 5.2(7), as recommended. From memory that Poland keeps Table 5.1.
    least_exposure: Some(Least {
        value: 0.8,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e >= 0.8" },
    }),
    least_thermal: None,
    // EN 1991-1-1:2002, as recommended. From memory.
    maintenance_force: maintenance_force(),
    // NDP to 6.3(1) and (2), as recommended. From memory that Poland keeps them.
    eaves_snow_above: Length::from_m(800.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure: peak_pressure_of_site,
    wind_ways: WIND_WAYS,
    places: None,
    // PN-EN 1991-1-4/NA, as recommended. From memory that Poland keeps the tables.
    roof_tables: RoofTables {
        evidence: Evidence::FromMemory,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. Confirmed: a printed example.
    air_density: Density::from_kg_per_m3(1.25),
    // As recommended. From memory that Poland keeps them.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // PN-EN 1995-1-1/NA, as recommended. From memory that Poland keeps them.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // PN-EN 1999-1-1/NA and PN-EN 1993-1-8/NA, as recommended. From memory.
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

/// Ground snow by the zones of the Polish map.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    let map = ZonesAndAltitude {
        code: ANNEX.code,
        ways: SNOW_WAYS,
        names: SnowZone::NAMES,
        parse: SnowZone::parse,
        load: ground_snow_load,
        source: Source::clause(SNOW, "Table NB.1"),
        evidence: Evidence::Confirmed,
    };
    map.ground_snow(site).map(|(_, ground)| ground)
}

/// Peak pressure by the exposure factors of the annex, which has no profile of turbulence.
fn peak_pressure_of_site(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    ZonesAndExposure {
        code: ANNEX.code,
        ways: WIND_WAYS,
        zones: (WindZone::NAMES, |name, altitude| {
            let (zone, table) = (WindZone::parse(name)?, Source::clause(WIND, "Table NA.1"));
            let velocity = velocity_step("v_b,0", basic_velocity(zone, altitude), table);
            Some(Ok(Basic::new(velocity, ("q_b,0", basic_pressure(zone, altitude), table))))
        }),
        of_velocity: |v_b| Basic::of(ANNEX.air_density, v_b),
        terrains: (TerrainCategory::NAMES, |name, z, _| {
            let factor = exposure_factor(TerrainCategory::parse(name)?, z);
            Some(factor.map(|c_e| Exposure::new(c_e, Source::clause(WIND, "Table NA.3"))))
        }),
        orography: false,
        evidence: Evidence::Confirmed,
    }
    .peak_pressure(site)
}

spelled! {
    /// Snow zone of the Polish map.
    SnowZone {
        /// Zone 1.
        Z1 = "1",
        /// Zone 2.
        Z2 = "2",
        /// Zone 3.
        Z3 = "3",
        /// Zone 4.
        Z4 = "4",
        /// Zone 5.
        Z5 = "5",
    }
}

/// `s_k`: characteristic snow on the ground in Poland.
///
/// PN-EN 1991-1-3/NA, Table NB.1, with `A` the altitude in metres:
///
/// | zone | `s_k` in kN/m² | not below |
/// |---|---|---|
/// | 1 | `0.007 A - 1.4` | 0.70 |
/// | 2 | 0.9 | |
/// | 3 | `0.006 A - 0.6` | 1.2 |
/// | 4 | 1.6 | |
/// | 5 | `0.93 e^(0.00134 A)` | 2.0 |
///
/// Confirmed: four public pages, one of them of a regional authority.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ A ≤ 1500 m`, above which EN 1991-1-3, 1.1(2), leaves the load to others.
pub fn ground_snow_load(zone: SnowZone, altitude: Length) -> Result<Pressure, NotCovered> {
    let clause = Clause::new(SNOW, "Table NB.1");
    let a = altitude.m();
    clause.covers((0.0..=1500.0).contains(&a), "0 m <= altitude <= 1500 m")?;
    Ok(Pressure::from_kn_per_m2(match zone {
        SnowZone::Z1 => f64::max(0.007 * a - 1.4, 0.70),
        SnowZone::Z2 => 0.9,
        SnowZone::Z3 => f64::max(0.006 * a - 0.6, 1.2),
        SnowZone::Z4 => 1.6,
        SnowZone::Z5 => f64::max(0.93 * (0.00134 * a).exp(), 2.0),
    }))
}

spelled! {
    /// Wind zone of the Polish map.
    WindZone {
        /// Zone 1.
        Z1 = "1",
        /// Zone 2: the coast.
        Z2 = "2",
        /// Zone 3: the mountains.
        Z3 = "3",
    }
}

/// How much faster the wind is at an altitude, in the zones where that matters.
fn rise(zone: WindZone, altitude: Length) -> f64 {
    match zone {
        WindZone::Z2 => 1.0,
        WindZone::Z1 | WindZone::Z3 => 1.0 + 0.0006 * f64::max(altitude.m() - 300.0, 0.0),
    }
}

/// `v_b,0`: basic wind velocity of a zone.
///
/// PN-EN 1991-1-4/NA, Table NA.1: 22 m/s in zones 1 and 3, 26 m/s in zone 2; above 300 m in zones 1 and 3
/// times `1 + 0.0006 (A - 300)`, `A` the altitude in metres.
///
/// Confirmed: a printed example and a public program.
#[must_use]
pub fn basic_velocity(zone: WindZone, altitude: Length) -> Speed {
    let v = match zone {
        WindZone::Z1 | WindZone::Z3 => 22.0,
        WindZone::Z2 => 26.0,
    };
    Speed::from_m_per_s(v * rise(zone, altitude))
}

/// `q_b,0`: basic velocity pressure of a zone, which the annex prints rounded.
///
/// PN-EN 1991-1-4/NA, Table NA.1: 0.30 kN/m² in zones 1 and 3, 0.42 kN/m² in zone 2; above 300 m in zones 1
/// and 3 times the square of the rise of the velocity, and in zone 3 times
/// `(20000 - A) / (20000 + A)` for the thinner air.
///
/// In place of 0.30 and 0.42 stands what the velocity gives, 0.3025 and 0.4225: that is what a printed
/// example computes with, and the safe one by 0.8 %.
///
/// Confirmed: a printed example and a public program.
#[must_use]
pub fn basic_pressure(zone: WindZone, altitude: Length) -> Pressure {
    let q = velocity_pressure(ANNEX.air_density, basic_velocity(zone, altitude));
    let a = altitude.m();
    let thinner = match zone {
        WindZone::Z3 if a > 300.0 => (20_000.0 - a) / (20_000.0 + a),
        _ => 1.0,
    };
    q * thinner
}

/// `c_e(z)`: exposure factor of a terrain in Poland.
///
/// PN-EN 1991-1-4/NA, Table NA.3: `c (z/10)^n` with `c` and `n` 3.0 and 0.17 (0), 2.8 and 0.19 (I), 2.3
/// and 0.24 (II), 1.9 and 0.26 (III), 1.5 and 0.29 (IV), constant below the least height of the category.
///
/// Confirmed: a printed example, for three terrains, and a public program.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ z ≤ 200 m`.
pub fn exposure_factor(category: TerrainCategory, z: Length) -> Result<f64, NotCovered> {
    Clause::new(WIND, "Table NA.3").covers((0.0..=200.0).contains(&z.m()), "0 m <= z <= 200 m")?;
    let (c, n): (f64, f64) = match category {
        TerrainCategory::Zero => (3.0, 0.17),
        TerrainCategory::I => (2.8, 0.19),
        TerrainCategory::Ii => (2.3, 0.24),
        TerrainCategory::Iii => (1.9, 0.26),
        TerrainCategory::Iv => (1.5, 0.29),
    };
    Ok(c * (z.max(minimum_height(category)).m() / 10.0).powf(n))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tables_are_silent_beyond_their_ends() {
        let m = Length::from_m;
        assert!(ground_snow_load(SnowZone::Z5, m(1500.0)).is_ok());
        assert!(ground_snow_load(SnowZone::Z2, m(1500.1)).is_err());
        assert!(exposure_factor(TerrainCategory::Ii, m(200.0)).is_ok());
        assert!(exposure_factor(TerrainCategory::Ii, m(200.1)).is_err());
    }

    /// Air is thinner in the mountains; on the coast the altitude does not matter.
    #[test]
    fn altitude_counts_above_300_m_in_zones_1_and_3() {
        let q = |zone, a: f64| basic_pressure(zone, Length::from_m(a)).kn_per_m2();
        for zone in [WindZone::Z1, WindZone::Z2, WindZone::Z3] {
            assert!((q(zone, 300.0) - q(zone, 0.0)).abs() < 1e-12, "{zone:?}");
        }
        assert!((q(WindZone::Z2, 900.0) - q(WindZone::Z2, 0.0)).abs() < 1e-12);
        assert!(q(WindZone::Z1, 900.0) > q(WindZone::Z3, 900.0));
    }
}
