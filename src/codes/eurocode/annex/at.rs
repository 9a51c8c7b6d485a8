//! Austria: national choices, drifted snow and exposure factors.
//!
//! Documents: ÖNORM B 1990-1, ÖNORM B 1991-1-3, ÖNORM B 1991-1-4, ÖNORM B 1995-1-1, ÖNORM B 1999-1-1. None
//! of the printed texts was at hand; each value says how it was confirmed.
//!
//! **Left out.** The ground snow of a place, which since May 2022 is read off a grid and not computed from
//! zones: the caller looks it up; likewise the basic wind velocity, which is listed by place. Orography, for
//! which the exposure factors leave no room that was seen: the caller gives the peak pressure there. The
//! simplified coefficients of roofs, of which only those of flat roofs were seen; they stand beside the
//! tables of the standard. The distributed load of category H, which acts on no array. Whether there is
//! exceptional snow the caller says, with its load.

use super::{Annex, DriftedShape, Least, PartialFactors, Strength};
use crate::codes::cited::{Source, Step};
use crate::codes::eurocode::en1991_1_4_2005::EN1991_1_4;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::velocity_pressure;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::{no_zones, velocity_step};
use crate::codes::eurocode::site_steps::{
    basic_pressure_step, height_step, no_map_of_snow, peak_pressure_step,
};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, Trouble,
    WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Density, Force, Length};

const SNOW: &str = "ÖNORM B 1991-1-3";
const WIND: &str = "ÖNORM B 1991-1-4";

/// The Austrian choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "AT",
    title: "Austria",
    revision: "AT-1",
    strength: Strength::Single {
        // ÖNORM B 1990-1, as recommended. Confirmed: two open programs that compute by Austrian rules have 1.35
        // and 1.5, one of them 1.0.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // Whether Austria makes use of Table B3 was not seen: nothing is lowered, and 1.1 for a high
        // class is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::OneSource,
    // ÖNORM B 1990-1, as recommended. Confirmed up to 1000 m: the same two programs have 0.5 and 0.6. From memory
    // above.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen: ψ_1 is the safe one, a fifth of the wind beside the snow.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // One source: an open Austrian program of 2019.
    drifted_shape: Some(DriftedShape {
        factor: drifted_shape_factor,
        clause: Clause::new(SNOW, "NDP to 5.3.3(4)"),
    }),
    // NDP to 5.2(7), as recommended. From memory that Austria keeps Table 5.1.
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
    // ÖNORM B 1991-1-4, as recommended. From memory that Austria keeps the tables of pitched roofs beside
    // its simplified ones; one source says that it has both.
    roof_tables: RoofTables {
        evidence: Evidence::FromMemory,
        hipped_evidence: Evidence::FromMemory,
        ..RECOMMENDED
    },
    // As recommended. Confirmed: two open programs.
    air_density: Density::from_kg_per_m3(1.25),
    // As recommended. From memory that Austria keeps them.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // ÖNORM B 1995-1-1, as recommended. From memory that Austria keeps them.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // As recommended, the safe one of the values in use.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // ÖNORM B 1999-1-1, ÖNORM B 1993-1-1 and ÖNORM B 1993-1-8, as recommended. From memory.
    gamma_m1_aluminium: 1.10,
    gamma_m0_steel: 1.0,
    gamma_m2_steel: 1.25,
};

const SNOW_WAYS: &[&[SiteField]] = &[&[SiteField::GroundSnow]];
const WIND_WAYS: &[&[SiteField]] =
    &[&[SiteField::BasicVelocity, SiteField::TerrainCategory], &[SiteField::PeakPressure]];

/// No zone gives the ground snow of a place.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    no_map_of_snow(site, SNOW_WAYS)
}

/// Peak pressure by the exposure factors of the annex, which has no profile of turbulence.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    no_zones(site, WIND_WAYS)?;
    let mut faults = Vec::new();
    if site.orography.is_some_and(|c_o| c_o > 1.0) {
        const INSTEAD: &[&[SiteField]] = &[&[SiteField::PeakPressure]];
        faults.push(SiteField::Orography.with(Trouble::Unused { instead: INSTEAD }));
    }
    let velocity = SiteField::BasicVelocity.need(site.basic_velocity);
    let names = TerrainCategory::NAMES;
    let terrain = SiteField::TerrainCategory.read(site.terrain, names, TerrainCategory::parse);
    let exposure = terrain.and_then(|terrain| {
        exposure_factor(terrain, site.height)
            .map_err(SiteField::RidgeHeight.silent(&[SiteField::PeakPressure]))
    });
    let (v_b, c_e) = match (velocity, exposure) {
        (Ok(velocity), Ok(exposure)) if faults.is_empty() => (velocity, exposure),
        (velocity, exposure) => {
            faults.extend(velocity.err().into_iter().chain(exposure.err()));
            return Err(faults);
        }
    };
    let q_b = velocity_pressure(ANNEX.air_density, v_b);
    let q_p = q_b * c_e;
    let table = Source::clause(WIND, "NDP to 4.5(1)");
    Ok(PeakPressure {
        pressure: q_p,
        basic: Some(q_b),
        described: format!(
            "annex {}, v_b {} m/s, terrain {}, ridge at {} m",
            ANNEX.code,
            v_b.m_per_s(),
            site.terrain.unwrap_or_default(),
            site.height.m()
        ),
        evidence: Evidence::Confirmed,
        steps: vec![
            velocity_step("v_b,0", v_b, Source::Given),
            basic_pressure_step(q_b),
            height_step(site.height),
            Step::new(Quantity::WindExposure, "c_e(z)", c_e, "", table),
            peak_pressure_step(q_p, Source::clause(EN1991_1_4, "Eq. (4.8)")),
        ],
    })
}

/// `μ`: shape coefficient of the slope of a duopitch roof that snow drifts onto.
///
/// ÖNORM B 1991-1-3, NDP to EN 1991-1-3, 5.3.3(4): 0.8 up to 15°, `0.8 + 0.2 (α - 15°)/15°` up to 30°,
/// `(60° - α)/30°` up to 60°, 0 beyond.
///
/// One source: an open Austrian program of 2019.
#[must_use]
pub fn drifted_shape_factor(pitch: Angle) -> f64 {
    match pitch.deg() {
        alpha if alpha <= 15.0 => 0.8,
        alpha if alpha <= 30.0 => 0.8 + 0.2 * (alpha - 15.0) / 15.0,
        alpha => f64::max((60.0 - alpha) / 30.0, 0.0),
    }
}

spelled! {
    /// Terrain category that the annex has exposure factors for.
    TerrainCategory {
        /// II: open country.
        Ii = "II",
        /// III: villages, suburbs, forest.
        Iii = "III",
        /// IV: towns.
        Iv = "IV",
    }
}

/// `c_e(z)`: peak over basic velocity pressure of a terrain in Austria.
///
/// ÖNORM B 1991-1-4, NDP to EN 1991-1-4, 4.5(1): `c (z/10)^n` with `c` and `n` 2.1 and 0.24 (II), 1.75 and 0.29 (III), 1.2
/// and 0.38 (IV), constant below 5, 10 and 15 m.
///
/// Confirmed: two open Austrian programs.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ z ≤ 200 m`.
pub fn exposure_factor(category: TerrainCategory, z: Length) -> Result<f64, NotCovered> {
    Clause::new(WIND, "NDP to 4.5(1)")
        .covers((0.0..=200.0).contains(&z.m()), "0 m <= z <= 200 m")?;
    let (c, n, z_min): (f64, f64, f64) = match category {
        TerrainCategory::Ii => (2.1, 0.24, 5.0),
        TerrainCategory::Iii => (1.75, 0.29, 10.0),
        TerrainCategory::Iv => (1.2, 0.38, 15.0),
    };
    Ok(c * (f64::max(z.m(), z_min) / 10.0).powf(n))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::en1991_1_3_2003::shape_factor;

    /// The branches meet, and drifted snow is never less than even snow that is free to slide.
    #[test]
    fn drifted_snow_is_no_less_than_even_snow() {
        for tenths in 0..=900 {
            let pitch = Angle::from_deg(f64::from(tenths) / 10.0);
            let next = Angle::from_deg(f64::from(tenths) / 10.0 + 1e-9);
            let drifted = drifted_shape_factor(pitch);
            assert!(drifted >= shape_factor(pitch, false) - 1e-12, "{pitch:?}");
            assert!((drifted_shape_factor(next) - drifted).abs() < 1e-9, "{pitch:?}");
        }
        assert!((drifted_shape_factor(Angle::from_deg(30.0)) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_exposure_factors_are_silent_beyond_their_ends() {
        let at = |z: f64| exposure_factor(TerrainCategory::Ii, Length::from_m(z)).is_ok();
        assert!(at(200.0) && !at(200.1) && !at(-0.1));
    }
}
