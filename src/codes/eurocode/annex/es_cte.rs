//! Spain by its building code (CTE): DB SE, DB SE-AE and DB SE-M, with rules of its own for snow on roofs.
//!
//! Documents: DB SE, DB SE-AE (April 2009) and DB SE-M. The code was read in public programs that transcribe
//! its pages, not in print; where it is silent, EN 1991-1-3 and the annexes to UNE-EN 1999-1-1 and UNE-EN
//! 1993-1-8 stand in. Each value says how it was confirmed.
//!
//! **Snow.** `μ` is 1 up to 30°, where the standard has 0.8; the exposure factor is 0.8 where a building is
//! *sheltered* from the wind and 1.2 where it is strongly exposed, the other way round than in the standard.
//!
//! **Combinations.** Eqs. (6.10), (6.11b) and (6.14b) of EN 1990, which DB SE, 4.2.2 and 4.3.2, restates.
//!
//! **Left out.** What slides off slopes steeper than 30° into valleys and onto lower roofs (3.5.4), which
//! depends on the length of the other slope: the request is refused unless it leaves the valley or the wall
//! undescribed, and then the answer is incomplete. Sites above 2000 m and hills, for which the code has no wind
//! pressure: the caller gives it. 1.0 kN/m² on flat roofs; the distributed load of category G, which acts on no
//! array. Whether there is exceptional snow, of which the code knows nothing, the caller says, with its load.

use super::es::{self, SnowZone, WindZone};
use super::es_capitals::CAPITALS;
use super::{Annex, Least, PartialFactors, RoofSnowLaw, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::exposure::{Basic, Exposure, Roughness, ZonesAndExposure};
use crate::codes::eurocode::profile::velocity_step;
use crate::codes::eurocode::snow_zones::ZonesAndAltitude;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Density, Force, Length, LineLoad, Pressure};

const SE_AE: &str = "DB SE-AE";

/// The choices of the Spanish building code.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "ES-CTE",
    title: "Spain, building code",
    revision: "ES-CTE-1",
    strength: Strength::Single {
        // DB SE, Table 4.1, strength. Confirmed: two public programs for 1.35 and 1.5, one for 0.80.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 0.80,
            variable: 1.50,
        },
        // The code has no factor by consequence class: nothing is lowered, and 1.1 for a high class is
        // kept for whoever asks for one, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::OneSource,
    // DB SE, Table 4.2. Confirmed: two public programs.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // DB SE, 4.2.2, (4.5), with ψ_1 of the leading action, of wind 0.5. Confirmed for 0.5: two public
    // programs; from memory that it is ψ_1.
    psi_wind_accidental: 0.5,
    exceptional_snow_factor: None,
    // DB SE-AE, 3.5.1(3): 20 % less where sheltered. One source: a program that transcribes the page.
    least_exposure: Some(Least {
        value: 0.8,
        rule: NotCovered { clause: Clause::new(SE_AE, "3.5.1(3)"), condition: "a factor >= 0.8" },
    }),
    // The code takes nothing off for heat from below.
    least_thermal: Some(Least {
        value: 1.0,
        rule: NotCovered { clause: Clause::new(SE_AE, "3.5.1"), condition: "C_t >= 1" },
    }),
    // DB SE-AE, Table 3.1, categories G1 and G2; 1 kN on light roofs is not made use of. One source: a
    // program that transcribes the page.
    maintenance_force: Force::from_kn(2.0),
    // DB SE-AE, 3.5.1(4), see `ice_at_eaves`.
    eaves_snow_above: Length::from_m(1000.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: Some(RoofSnowLaw {
        shape: shape_of_slope,
        shape_clause: Clause::new(SE_AE, "3.5.3(2)"),
        exposure_clause: Clause::new(SE_AE, "3.5.1(3)"),
        roof_clause: Clause::new(SE_AE, "3.5.1(2), Eq. (3.2)"),
        valley: shape_in_valley,
        valley_reach: Length::from_m(2.0),
        valley_clause: Clause::new(SE_AE, "3.5.3(3)"),
        wall: nothing_slides,
        eaves: ice_at_eaves,
        eaves_clause: Clause::new(SE_AE, "3.5.1(4), Eq. (3.3)"),
    }),
    drifted_shape: None,
    places: Some(&CAPITALS),
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    // DB SE-AE, Annex D.3, with the coefficients of the standard. Confirmed for Table D.6 of duopitch
    // roofs, one source for monopitch roofs; of hipped roofs from memory.
    roof_tables: RoofTables {
        evidence: Evidence::OneSource,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // DB SE-AE, D.1(3). Confirmed: two public programs.
    air_density: Density::from_kg_per_m3(1.25),
    // DB SE-M, Table 2.2. From memory: snow medium above 1000 m, short below it, as wind.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // DB SE-M, Table 2.3. One source: a program that transcribes the page.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: Some([Clause::new("DB SE-M", "Table 2.4"), Clause::new("DB SE-M", "Table 2.3")]),
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // UNE-EN 1999-1-1/AN and DB SE-A, as recommended. From memory.
    gamma_m1_aluminium: 1.10,
    // DB SE-A, 2.3.3, above the recommended 1.0. From memory.
    gamma_m0_steel: 1.05,
    gamma_m2_steel: 1.25,
};

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::SnowZone], &[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] = &[
    &[SiteField::WindZone, SiteField::TerrainCategory],
    &[SiteField::BasicVelocity, SiteField::TerrainCategory],
    &[SiteField::PeakPressure],
];

/// Ground snow by the zones of the Spanish map.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    const TABLE: Clause = Clause::new(SE_AE, "Table E.2");
    let map = ZonesAndAltitude {
        code: ANNEX.code,
        ways: SNOW_WAYS,
        names: SnowZone::NAMES,
        parse: SnowZone::parse,
        load: |zone, altitude| es::ground_snow_load(TABLE, zone, altitude),
        source: Source::Clause(TABLE),
        evidence: Evidence::Confirmed,
    };
    map.ground_snow(site).map(|(_, ground)| ground)
}

/// Peak pressure by the exposure coefficients of the code, up to 2000 m.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    let found = ZonesAndExposure {
        code: ANNEX.code,
        ways: WIND_WAYS,
        zones: (WindZone::NAMES, |name, _| {
            let (zone, table) = (WindZone::parse(name)?, Source::clause(SE_AE, "D.1(4)"));
            let velocity = velocity_step("v_b", es::basic_velocity(zone), table);
            Some(Ok(Basic::new(velocity, ("q_b", basic_pressure(zone), table))))
        }),
        of_velocity: |v_b| Basic::of(ANNEX.air_density, v_b),
        terrains: (Degree::NAMES, |name, z, _| {
            let degree = Degree::parse(name)?;
            let cited = ["Table D.2", "Eq. (D.2)"].map(|number| Source::clause(SE_AE, number));
            let over = |c_e| Exposure::over(ground_of(degree), None, c_e, cited);
            Some(exposure_factor(degree, z).map(over))
        }),
        orography: false,
        evidence: Evidence::Confirmed,
    }
    .peak_pressure(site);
    let low = Clause::new(SE_AE, "3.3.1(2)")
        .covers(site.altitude <= Length::from_m(2000.0), "altitude <= 2000 m")
        .map_err(SiteField::Altitude.silent(&[SiteField::PeakPressure]));
    match (found, low) {
        (found, Ok(())) => found,
        (Ok(_), Err(high)) => Err(vec![high]),
        (Err(faults), Err(high)) => Err([high].into_iter().chain(faults).collect()),
    }
}

/// `q_b`: basic velocity pressure of a zone, which the code prints rounded.
///
/// DB SE-AE, D.1(4): 0.42, 0.45 and 0.52 kN/m².
///
/// Confirmed: two public programs.
#[must_use]
pub const fn basic_pressure(zone: WindZone) -> Pressure {
    Pressure::from_kn_per_m2(match zone {
        WindZone::A => 0.42,
        WindZone::B => 0.45,
        WindZone::C => 0.52,
    })
}

spelled! {
    /// Degree of roughness of the code, one more than the terrain category of the standard.
    Degree {
        /// I: the edge of the sea or of a lake, with 5 km of water upwind.
        I = "I",
        /// II: flat country without obstacles.
        Ii = "II",
        /// III: country with single obstacles, such as trees and small buildings.
        Iii = "III",
        /// IV: towns, industry and woods.
        Iv = "IV",
        /// V: centres of large towns, with many high buildings.
        V = "V",
    }
}

/// `k`, `L` and `Z`: the ground of a degree of roughness, as `k_r`, `z_0` and `z_min`.
///
/// DB SE-AE, Table D.2: 0.156, 0.003 and 1 m (I), 0.17, 0.01 and 1 m (II), 0.19, 0.05 and 2 m (III), 0.22,
/// 0.3 and 5 m (IV), 0.24, 1 and 10 m (V).
///
/// Confirmed: two public programs. A third has 0.15 for degree I, which is 7.5 % less and not followed.
#[must_use]
pub const fn ground_of(degree: Degree) -> Roughness {
    let (k_r, z_0, z_min) = match degree {
        Degree::I => (0.156, 0.003, 1.0),
        Degree::Ii => (0.17, 0.01, 1.0),
        Degree::Iii => (0.19, 0.05, 2.0),
        Degree::Iv => (0.22, 0.3, 5.0),
        Degree::V => (0.24, 1.0, 10.0),
    };
    Roughness { k_r, z_0: Length::from_m(z_0), z_min: Length::from_m(z_min) }
}

/// `c_e`: exposure coefficient.
///
/// DB SE-AE, Eqs. (D.2) and (D.3): `F (F + 7 k)`, `F = k ln(max(z, Z) / L)`.
///
/// Confirmed: two public programs, and Table 3.4 to the digit it is printed with.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ z ≤ 200 m`.
pub fn exposure_factor(degree: Degree, z: Length) -> Result<f64, NotCovered> {
    Clause::new(SE_AE, "D.2(1)").covers((0.0..=200.0).contains(&z.m()), "0 m <= z <= 200 m")?;
    Ok(ground_of(degree).exposure(z, 1.0))
}

/// `μ`: shape coefficient of a slope.
///
/// DB SE-AE, 3.5.3(2): 1 up to 30°, falling evenly to 0 at 60°; 1 where something keeps the snow from
/// sliding (`held`).
///
/// One source: a program that transcribes the page, with its tests.
#[must_use]
pub fn shape_of_slope(pitch: Angle, held: bool) -> f64 {
    if held { 1.0 } else { ((60.0 - pitch.deg()) / 30.0).clamp(0.0, 1.0) }
}

/// `μ` in a valley between two slopes, all over the 2 m beside it.
///
/// DB SE-AE, 3.5.3(3)b: `1 + β/30°`, 2 at most, with `β` the mean of both pitches.
///
/// One source: a program that transcribes the page, with its tests.
///
/// # Errors
/// [`NotCovered`] where one of the slopes is steeper than 30°: what slides off it, 3.5.4, adds to the load.
pub fn shape_in_valley(pitches: [Angle; 2]) -> Result<f64, NotCovered> {
    for pitch in pitches {
        nothing_slides(pitch)?;
    }
    let [this, other] = pitches.map(Angle::deg);
    Ok(f64::min(1.0 + f64::midpoint(this, other) / 30.0, 2.0))
}

/// Whether the snow stays on a slope, 3.5.4: where its coefficient is 1.
fn nothing_slides(pitch: Angle) -> Result<(), NotCovered> {
    Clause::new(SE_AE, "3.5.4").covers(pitch <= Angle::from_deg(30.0), "slopes of 30° or less")
}

/// `p_n`: ice and snow along eaves above 1000 m, from the coefficient of the slope and the load at a
/// coefficient of 1.
///
/// DB SE-AE, 3.5.1(4), Eq. (3.3): `3 m · μ² s_k`.
///
/// One source: a program that transcribes the page, with its tests.
#[must_use]
pub fn ice_at_eaves(shape: f64, s: Pressure) -> LineLoad {
    s * Length::from_m(3.0 * shape * shape)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_code_is_silent_beyond_its_ends() {
        let degrees = Angle::from_deg;
        assert!(shape_in_valley([degrees(30.0), degrees(30.0)]).is_ok());
        assert!(shape_in_valley([degrees(10.0), degrees(30.1)]).is_err());
        assert!(shape_in_valley([degrees(30.1), degrees(10.0)]).is_err());
        let at = |z: f64| exposure_factor(Degree::Iii, Length::from_m(z)).is_ok();
        assert!(at(200.0) && !at(200.1) && !at(-0.1));
    }
}
