//! Italy: what the building law chooses, with its snow zones, wind zones and exposure categories.
//!
//! Documents: NTC 2018 (ministerial decree of 17 January 2018) and its circular 7/2019. The law was read in
//! a public transcription that gives the page of each table, not in print; where it is silent, the annexes
//! to UNI EN 1995-1-1, UNI EN 1999-1-1 and UNI EN 1993-1-8 were not at hand. Each value says how it was
//! confirmed.
//!
//! **Combinations.** Eqs. (6.10), (6.11b) and (6.14b) of EN 1990, which the law restates as [2.5.1], [2.5.6]
//! and [2.5.2].
//!
//! **Weight.** The law tells the weight of the structure (G1) from that of what it carries (G2). Modules,
//! rails, hooks and covering are G2, and so all weight takes the factors of G2 here: 1.5 and 0.8. That a
//! G2 which is well defined may take those of G1, 1.3 and 1.0, is not made use of; of a rafter's own weight
//! it is on the safe side.
//!
//! **Left out.** The exposure category of a place (3.3.7, from the zone, the distance from the sea, the
//! altitude and the roughness): the caller gives it. Whether there is exceptional snow, of which the law knows nothing, the caller says, with its load. The coefficients of
//! whole roofs in the circular, which are for structures, not for modules; the distributed load of
//! category H, which acts on no array.

use super::{Annex, Least, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_4_2005::tables::RECOMMENDED;
use crate::codes::eurocode::en1991_1_4_2005::velocity::velocity_pressure;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::exposure::{Basic, Exposure, Roughness, ZonesAndExposure};
use crate::codes::eurocode::profile::velocity_step;
use crate::codes::eurocode::snow_zones::ZonesAndAltitude;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Force, Length, Pressure, Speed};

const NTC: &str = "NTC 2018";

/// The Italian choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "IT",
    title: "Italy",
    revision: "IT-1",
    strength: Strength::Single {
        // NTC 2018, Table 2.6.I, column A1, of G2. Confirmed: the law's text and a library with tests.
        factors: PartialFactors {
            permanent_unfavourable: 1.50,
            permanent_favourable: 0.80,
            variable: 1.50,
        },
        // The law has no factor by consequence class: nothing is lowered, and 1.1 for a high class is
        // kept for whoever asks for one, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::Confirmed,
    // NTC 2018, Table 2.5.I. Confirmed: the law's text and a library.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    // Table 2.5.I means sites above 1000 m, 4.4.4 those from 1000 m on: both begin there.
    snow_altitude_limit: Length::from_m(999.999),
    // NTC 2018, [2.5.6], with ψ_2 of every variable action. One source: a library.
    psi_wind_accidental: 0.0,
    exceptional_snow_factor: None,
    // NTC 2018, Table 3.4.I: 0.9, 1.0 and 1.1. Confirmed: several programs.
    least_exposure: Some(Least {
        value: 0.9,
        rule: NotCovered {
            clause: Clause::new(NTC, "3.4.4, Table 3.4.I"),
            condition: "C_E >= 0.9",
        },
    }),
    // NTC 2018, 3.4.5: 1 unless a study of the building says otherwise, which is the caller's.
    least_thermal: None,
    // NTC 2018, Table 3.1.II, category H. Confirmed: the law's text and two programs.
    maintenance_force: Force::from_kn(1.2),
    // As recommended. From memory that the circular keeps them.
    eaves_snow_above: Length::from_m(800.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: None,
    drifted_shape: None,
    places: Some(&super::it_provinces::PROVINCES),
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    // Circular 7/2019, C3.3.8.1.2 to C3.3.8.1.5: the local coefficients are those of the standard.
    // Confirmed: its tables compared cell by cell with a library and a public table.
    roof_tables: RECOMMENDED,
    // NTC 2018, [3.3.6]. Confirmed: several programs.
    air_density: Density::from_kg_per_m3(1.25),
    // NTC 2018, 4.4.4: below 1000 m by the site, short as recommended; at least medium from there on.
    // The gust, which the pressure is of, is instantaneous. One source: the law's text.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Instantaneous,
    // NTC 2018, Table 4.4.III, column A. Confirmed: the law's text and a trade association.
    gamma_m_connections: 1.5,
    gamma_m_solid_timber: 1.5,
    gamma_m_accidental: 1.0,
    timber_law: Some([Clause::new(NTC, "Table 4.4.IV"), Clause::new(NTC, "Table 4.4.III")]),
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // UNI EN 1999-1-1 and NTC 2018, Table 4.2.XIV, as recommended. From memory.
    gamma_m1_aluminium: 1.10,
    // NTC 2018, Table 4.2.VII, above the recommended 1.0. From memory.
    gamma_m0_steel: 1.05,
    gamma_m2_steel: 1.25,
};

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::SnowZone], &[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::WindZone, SiteField::TerrainCategory],
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// Ground snow by the zones of the Italian map.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    let map = ZonesAndAltitude {
        code: ANNEX.code,
        ways: SNOW_WAYS,
        names: SnowZone::NAMES,
        parse: SnowZone::parse,
        load: ground_snow_load,
        source: Source::clause(NTC, "3.4.2"),
        evidence: Evidence::Confirmed,
    };
    map.ground_snow(site).map(|(_, ground)| ground)
}

/// Peak pressure by the exposure factors of the law.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    ZonesAndExposure {
        code: ANNEX.code,
        ways: WIND_WAYS,
        zones: (WindZone::NAMES, |name, altitude| {
            let zone = WindZone::parse(name)?;
            let found = basic_velocity(zone, altitude.max(Length::ZERO));
            Some(found.map(|v_b| basic(v_b, Source::clause(NTC, "[3.3.1], Table 3.3.I"))))
        }),
        of_velocity: |v_b| basic(v_b, Source::Given),
        terrains: (ExposureCategory::NAMES, |name, z, c_t| {
            let category = ExposureCategory::parse(name)?;
            let cited = ["Table 3.3.II", "[3.3.7]"].map(|number| Source::clause(NTC, number));
            let over = |c_e| Exposure::over(ground_of(category), Some(("c_t", c_t)), c_e, cited);
            Some(exposure_factor(category, z, c_t).map(over))
        }),
        orography: true,
        evidence: Evidence::Confirmed,
    }
    .peak_pressure(site)
}

/// The pressure of a velocity, [3.3.6].
fn basic(v_b: Speed, source: Source) -> Basic {
    let pressure = velocity_pressure(ANNEX.air_density, v_b);
    let cited = Source::clause(NTC, "[3.3.6]");
    Basic::new(velocity_step("v_b", v_b, source), ("q_r", pressure, cited))
}

spelled! {
    /// Snow zone of the Italian map.
    SnowZone {
        /// Zone I, Alpine.
        Ia = "IA",
        /// Zone I, Mediterranean.
        Im = "IM",
        /// Zone II.
        Ii = "II",
        /// Zone III.
        Iii = "III",
    }
}

/// `q_sk`: characteristic snow on the ground in Italy.
///
/// NTC 2018, 3.4.2, [3.4.2] to [3.4.5], with `a` the altitude in metres:
///
/// | zone | up to 200 m | above |
/// |---|---|---|
/// | IA | 1.50 | `1.39 [1 + (a/728)²]` |
/// | IM | 1.50 | `1.35 [1 + (a/602)²]` |
/// | II | 1.00 | `0.85 [1 + (a/481)²]` |
/// | III | 0.60 | `0.51 [1 + (a/481)²]` |
///
/// Confirmed: three public codes, three pages and a library.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ a ≤ 1500 m`, above which the law asks for data of the place.
pub fn ground_snow_load(zone: SnowZone, altitude: Length) -> Result<Pressure, NotCovered> {
    let a = altitude.m();
    Clause::new(NTC, "3.4.2").covers((0.0..=1500.0).contains(&a), "0 m <= altitude <= 1500 m")?;
    let (low, at_sea, rise) = match zone {
        SnowZone::Ia => (1.50, 1.39, 728.0),
        SnowZone::Im => (1.50, 1.35, 602.0),
        SnowZone::Ii => (1.00, 0.85, 481.0),
        SnowZone::Iii => (0.60, 0.51, 481.0),
    };
    let above = at_sea * (1.0 + (a / rise) * (a / rise));
    Ok(Pressure::from_kn_per_m2(if a <= 200.0 { low } else { above }))
}

spelled! {
    /// Wind zone of the Italian map.
    WindZone {
        /// Zone 1: the Alps and the plain of the Po, but for Emilia-Romagna, Liguria and Trieste.
        Z1 = "1",
        /// Zone 2: Emilia-Romagna.
        Z2 = "2",
        /// Zone 3: the centre, and the south but for Reggio Calabria.
        Z3 = "3",
        /// Zone 4: Sicily and Reggio Calabria.
        Z4 = "4",
        /// Zone 5: the east of Sardinia.
        Z5 = "5",
        /// Zone 6: the west of Sardinia.
        Z6 = "6",
        /// Zone 7: Liguria.
        Z7 = "7",
        /// Zone 8: Trieste.
        Z8 = "8",
        /// Zone 9: other islands and the open sea.
        Z9 = "9",
    }
}

/// `v_b`: basic wind velocity of a zone at an altitude.
///
/// NTC 2018, 3.3.1, [3.3.1] and Table 3.3.I: `v_b = v_b,0 c_a`, with `c_a = 1` up to `a_0` and
/// `1 + k_s (a/a_0 - 1)` above.
///
/// | zone | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 |
/// |---|---|---|---|---|---|---|---|---|---|
/// | `v_b,0` in m/s | 25 | 25 | 27 | 28 | 28 | 28 | 28 | 30 | 31 |
/// | `a_0` in m | 1000 | 750 | 500 | 500 | 750 | 500 | 1000 | 1500 | 500 |
/// | `k_s` | 0.40 | 0.45 | 0.37 | 0.36 | 0.40 | 0.36 | 0.54 | 0.50 | 0.32 |
///
/// Confirmed: the law's text, two programs and a library.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ a ≤ 1500 m`, above which the law asks for data of the place.
pub fn basic_velocity(zone: WindZone, altitude: Length) -> Result<Speed, NotCovered> {
    let a = altitude.m();
    Clause::new(NTC, "3.3.1").covers((0.0..=1500.0).contains(&a), "0 m <= altitude <= 1500 m")?;
    let (v_b_0, a_0, k_s) = match zone {
        WindZone::Z1 => (25.0, 1000.0, 0.40),
        WindZone::Z2 => (25.0, 750.0, 0.45),
        WindZone::Z3 => (27.0, 500.0, 0.37),
        WindZone::Z4 | WindZone::Z6 => (28.0, 500.0, 0.36),
        WindZone::Z5 => (28.0, 750.0, 0.40),
        WindZone::Z7 => (28.0, 1000.0, 0.54),
        WindZone::Z8 => (30.0, 1500.0, 0.50),
        WindZone::Z9 => (31.0, 500.0, 0.32),
    };
    let c_a = 1.0 + k_s * f64::max(a / a_0 - 1.0, 0.0);
    Ok(Speed::from_m_per_s(v_b_0 * c_a))
}

spelled! {
    /// Exposure category of the law, which is not the terrain category of the standard.
    ExposureCategory {
        /// I: the open sea and its shore.
        I = "I",
        /// II: open country near the sea.
        Ii = "II",
        /// III: country with scattered obstacles.
        Iii = "III",
        /// IV: built-up or wooded country.
        Iv = "IV",
        /// V: towns.
        V = "V",
    }
}

/// `k_r`, `z_0` and `z_min`: the ground of an exposure category.
///
/// NTC 2018, Table 3.3.II: 0.17, 0.01 and 2 m (I), 0.19, 0.05 and 4 m (II), 0.20, 0.10 and 5 m (III), 0.22,
/// 0.30 and 8 m (IV), 0.23, 0.70 and 12 m (V).
///
/// Confirmed: two programs and a library.
#[must_use]
pub const fn ground_of(category: ExposureCategory) -> Roughness {
    let (k_r, z_0, z_min) = match category {
        ExposureCategory::I => (0.17, 0.01, 2.0),
        ExposureCategory::Ii => (0.19, 0.05, 4.0),
        ExposureCategory::Iii => (0.20, 0.10, 5.0),
        ExposureCategory::Iv => (0.22, 0.30, 8.0),
        ExposureCategory::V => (0.23, 0.70, 12.0),
    };
    Roughness { k_r, z_0: Length::from_m(z_0), z_min: Length::from_m(z_min) }
}

/// `c_e(z)`: exposure factor in Italy.
///
/// NTC 2018, 3.3.7, [3.3.7]: `k_r² c_t ln(z/z_0) [7 + c_t ln(z/z_0)]`, constant below `z_min`, with `c_t`
/// the factor of hills.
///
/// Confirmed: four public programs and a library.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ z ≤ 200 m` and unless `c_t > 0`.
pub fn exposure_factor(category: ExposureCategory, z: Length, c_t: f64) -> Result<f64, NotCovered> {
    let clause = Clause::new(NTC, "3.3.7");
    clause.covers((0.0..=200.0).contains(&z.m()), "0 m <= z <= 200 m")?;
    clause.covers(c_t > 0.0, "the topography factor is positive")?;
    Ok(ground_of(category).exposure(z, c_t))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_law_is_silent_above_1500_m_and_beyond_200_m_of_height() {
        let m = Length::from_m;
        assert!(ground_snow_load(SnowZone::Ia, m(1500.0)).is_ok());
        assert!(ground_snow_load(SnowZone::Iii, m(1500.1)).is_err());
        assert!(basic_velocity(WindZone::Z8, m(1500.0)).is_ok());
        assert!(basic_velocity(WindZone::Z1, m(1500.1)).is_err());
        let at = |z: f64, c_t| exposure_factor(ExposureCategory::Ii, m(z), c_t).is_ok();
        assert!(at(200.0, 1.0) && !at(200.1, 1.0) && !at(8.0, 0.0));
    }

    /// The two branches of a zone nearly meet at 200 m: by two per cent of the load at most.
    #[test]
    fn ground_snow_hardly_steps_at_200_m() {
        for zone in SnowZone::NAMES.iter().map(|name| SnowZone::parse(name).expect("a name")) {
            let at = |a: f64| ground_snow_load(zone, Length::from_m(a)).expect("covered");
            assert!((at(200.001) / at(200.0) - 1.0).abs() < 0.02, "{zone:?}");
        }
    }
}
