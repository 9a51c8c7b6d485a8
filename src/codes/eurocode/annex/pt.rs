//! Portugal: national choices, snow zones, wind zones and terrains.
//!
//! Documents: NP EN 1990/NA, NP EN 1991-1-3/NA, NP EN 1991-1-4/NA, NP EN 1995-1-1/NA, NP EN 1999-1-1/NA. None of
//! the printed texts was at hand; each value says how it was confirmed.
//!
//! **Left out.** The snow zone of a municipality; the distributed load of category H, which acts on no
//! array. Whether there is exceptional snow the caller says, with its load.

use super::{Annex, Least, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::Terrain;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::ZonesAndTerrains;
use crate::codes::eurocode::snow_zones::ZonesAndAltitude;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Force, Length, Pressure, Speed};

const SNOW: &str = "NP EN 1991-1-3/NA";
const WIND: &str = "NP EN 1991-1-4/NA";

/// The Portuguese choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "PT",
    title: "Portugal",
    revision: "PT-1",
    strength: Strength::Single {
        // NP EN 1990/NA, as recommended. Confirmed for the values, from memory that Portugal keeps them.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // Whether Portugal makes use of Table B3 was not seen: nothing is lowered, and 1.1 for a high
        // class is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::FromMemory,
    // NP EN 1990/NA, as recommended. From memory that Portugal keeps them.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen: ψ_1 is the safe one, a fifth of the wind beside the snow.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // As recommended. From memory.
    drifted_shape: None,
    // NDP to 5.2(7), as recommended. From memory that Portugal keeps Table 5.1.
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
    // NP EN 1991-1-4/NA, as recommended. From memory that Portugal keeps the tables.
    roof_tables: RoofTables {
        evidence: Evidence::FromMemory,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. From memory that Portugal keeps it.
    air_density: Density::from_kg_per_m3(1.25),
    // As recommended. From memory that Portugal keeps them.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // NP EN 1995-1-1/NA, as recommended. From memory that Portugal keeps them.
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

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::SnowZone], &[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::WindZone, SiteField::TerrainCategory],
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// Ground snow by the zones of the Portuguese map.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    let map = ZonesAndAltitude {
        code: ANNEX.code,
        ways: SNOW_WAYS,
        names: SnowZone::NAMES,
        parse: SnowZone::parse,
        load: ground_snow_load,
        source: Source::clause(SNOW, "NDP to 4.1(1)"),
        evidence: Evidence::FromMemory,
    };
    map.ground_snow(site).map(|(_, ground)| ground)
}

/// Peak pressure by the profile of the standard over the terrains of the annex.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let velocity = |name: &str| Some(basic_velocity(WindZone::parse(name)?));
    let terrain = |name: &str| Some(terrain_of(TerrainCategory::parse(name)?));
    let mut found = ZonesAndTerrains {
        code: ANNEX.code,
        ways: WIND_WAYS,
        zones: (WindZone::NAMES, velocity, Source::clause(WIND, "NDP to 4.2(1)P")),
        terrains: (TerrainCategory::NAMES, terrain, Source::clause(WIND, "Table 4.1")),
        air_density: (ANNEX.air_density, Source::clause(WIND, "NDP to 4.5(1)")),
        evidence: Evidence::OneSource,
    }
    .peak_pressure(site);
    let too_high = site.zone == Some("A") && site.altitude > HIGHEST_IN_ZONE_A;
    if too_high {
        let rule = NotCovered {
            clause: Clause::new(WIND, "NDP to 4.2(1)P"),
            condition: "altitude <= 600 m in zone A, and zone B above",
        };
        let fault = SiteField::WindZone.silent(&[])(rule);
        match &mut found {
            Ok(_) => found = Err(vec![fault]),
            Err(faults) => faults.insert(0, fault),
        }
    }
    found
}

/// Zone B begins above. From memory.
const HIGHEST_IN_ZONE_A: Length = Length::from_m(600.0);

spelled! {
    /// Snow zone of the Portuguese map.
    SnowZone {
        /// Zone 1.
        Z1 = "Z1",
        /// Zone 2.
        Z2 = "Z2",
        /// Zone 3.
        Z3 = "Z3",
    }
}

/// `s_k`: characteristic snow on the ground in Portugal.
///
/// NP EN 1991-1-3/NA, NDP to 4.1(1): `C_z (1 + (A/500)²)` with `C_z` 0.3, 0.2 and 0.1 kN/m² in zones Z1, Z2 and Z3,
/// `A` the altitude in metres.
///
/// Partly from memory: the zones' coefficients by a public library; how the altitude enters by none.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ A ≤ 1500 m`, above which EN 1991-1-3, 1.1(2), leaves the load to others.
pub fn ground_snow_load(zone: SnowZone, altitude: Length) -> Result<Pressure, NotCovered> {
    let a = altitude.m();
    Clause::new(SNOW, "NDP to 4.1(1)")
        .covers((0.0..=1500.0).contains(&a), "0 m <= altitude <= 1500 m")?;
    let c_z = match zone {
        SnowZone::Z1 => 0.3,
        SnowZone::Z2 => 0.2,
        SnowZone::Z3 => 0.1,
    };
    Ok(Pressure::from_kn_per_m2(c_z * (1.0 + (a / 500.0).powi(2))))
}

spelled! {
    /// Wind zone of the Portuguese map.
    WindZone {
        /// Zone A: the mainland but for zone B.
        A = "A",
        /// Zone B: the Azores and Madeira, 5 km along the coast, and above 600 m.
        B = "B",
    }
}

/// `v_b,0`: basic wind velocity of a zone.
///
/// NP EN 1991-1-4/NA, NDP to 4.2(1)P: 27 m/s in zone A, 30 m/s in zone B.
///
/// One source: a public library.
#[must_use]
pub const fn basic_velocity(zone: WindZone) -> Speed {
    Speed::from_m_per_s(match zone {
        WindZone::A => 27.0,
        WindZone::B => 30.0,
    })
}

spelled! {
    /// Terrain category of the annex.
    TerrainCategory {
        /// I: the coast open to the sea.
        I = "I",
        /// II: low vegetation and single obstacles.
        Ii = "II",
        /// III: villages, suburbs, forest.
        Iii = "III",
        /// IV: towns.
        Iv = "IV",
    }
}

/// `z_0` and `z_min`: the ground upwind in Portugal.
///
/// NP EN 1991-1-4/NA, Table 4.1: 0.005 and 1 m (I), 0.05 and 2 m (II), 0.3 and 8 m (III), 1 and 15 m (IV).
///
/// One source: a public library.
#[must_use]
pub const fn terrain_of(category: TerrainCategory) -> Terrain {
    let (z_0, z_min) = match category {
        TerrainCategory::I => (0.005, 1.0),
        TerrainCategory::Ii => (0.05, 2.0),
        TerrainCategory::Iii => (0.3, 8.0),
        TerrainCategory::Iv => (1.0, 15.0),
    };
    Terrain { z_0: Length::from_m(z_0), z_min: Length::from_m(z_min), k_r: None, k_i: 1.0 }
}
