//! United Kingdom: national choices, snow zones, drifted snow and exposure factors.
//!
//! Documents: NA to BS EN 1990, NA to BS EN 1991-1-3, NA to BS EN 1991-1-4, NA to BS EN 1995-1-1, NA to
//! BS EN 1999-1-1. None of the printed texts was at hand; each value says how it was confirmed.
//!
//! **Left out.** The basic wind velocity of the map, which the caller looks up, and the factors of
//! direction and season that go with it. What a town upwind takes off the wind, and what houses upwind take
//! off the height: open country to the foot of the wall, on the safe side. The tables of roofs, which
//! replace those of the standard and of which only the titles were seen: the recommended ones stand in. The
//! distributed load of category H, which acts on no array. Whether there is exceptional snow the caller
//! says, with its load.

use super::{Annex, DriftedShape, Least, PartialFactors, Strength};
use crate::codes::cited::{Source, Step};
use crate::codes::eurocode::en1991_1_1_2002::maintenance_force;
use crate::codes::eurocode::en1991_1_4_2005::EN1991_1_4;
use crate::codes::eurocode::en1991_1_4_2005::tables::{RECOMMENDED, RoofTables};
use crate::codes::eurocode::en1991_1_4_2005::velocity::velocity_pressure;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::{no_zones, velocity_step};
use crate::codes::eurocode::site_steps::{
    air_density_step, basic_pressure_step, height_step, peak_pressure_step,
};
use crate::codes::eurocode::snow_zones::ZonesAndAltitude;
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    Evidence, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite, Trouble,
    WindSite,
};
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Density, Length, Pressure};

const SNOW: &str = "NA to BS EN 1991-1-3";
const WIND: &str = "NA to BS EN 1991-1-4";

/// The British choices.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "GB",
    title: "United Kingdom",
    revision: "GB-1",
    strength: Strength::Single {
        // NA to BS EN 1990 Table NA.A1.2(B), as recommended. Confirmed: two open programs that name the table; (6.10) is never below (6.10a) and (6.10b), which it allows.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // Whether the United Kingdom makes use of Table B3 was not seen: nothing is lowered, and 1.1 for
        // a high class is kept, on the safe side.
        consequence: [1.0, 1.0, 1.1],
    },
    combination_evidence: Evidence::OneSource,
    // NA to BS EN 1990 Table NA.A1.1. Confirmed by an open program and a page of reference: 0.5 for snow; 0.5 for wind,
    // of which the recommended 0.6 is taken, on the safe side. One source: 0.7 for snow above 1000 m.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // Whether ψ_1 or ψ_2 was not seen: ψ_1 is the safe one, a fifth of the wind beside the snow.
    psi_wind_accidental: 0.2,
    exceptional_snow_factor: None,
    // One source: a public collection of notebooks on British snow.
    drifted_shape: Some(DriftedShape {
        factor: drifted_shape_factor,
        clause: Clause::new(SNOW, "NDP to 5.3.3(4)"),
    }),
    // NDP to 5.2(7) and (8). One source: a help page has both as 1.
    least_exposure: Some(Least {
        value: 1.0,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(7)"), condition: "C_e >= 1" },
    }),
    least_thermal: Some(Least {
        value: 1.0,
        rule: NotCovered { clause: Clause::new(SNOW, "NDP to 5.2(8)"), condition: "C_t >= 1" },
    }),
    // As recommended, no lower than what is remembered of the United Kingdom.
    maintenance_force: maintenance_force(),
    // NDP to 6.3(1) and (2) not seen. Computed at every altitude, without a limit of `k`, on the safe side.
    eaves_snow_above: Length::from_m(-1000.0),
    eaves_snow_k: f64::INFINITY,
    roof_snow_law: None,
    ground_snow,
    snow_ways: SNOW_WAYS,
    peak_pressure,
    wind_ways: WIND_WAYS,
    places: None,
    // The annex has tables of its own, which were not seen. A stand-in.
    roof_tables: RoofTables {
        evidence: Evidence::StandIn,
        hipped_evidence: Evidence::StandIn,
        ..RECOMMENDED
    },
    // NDP to 4.5(1). Confirmed: a help page, a worked article.
    air_density: Density::from_kg_per_m3(1.226),
    // As recommended. From memory that the United Kingdom keeps them.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // NA to BS EN 1995-1-1, as recommended. From memory that the United Kingdom keeps them.
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
const WIND_WAYS: &[&[SiteField]] =
    &[&[SiteField::BasicVelocity, SiteField::ShoreDistance], &[SiteField::PeakPressure]];

/// Ground snow by the zones of the British map.
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
    map.ground_snow(site).map(|(_, ground)| ground)
}

/// Peak pressure by the exposure factors of open country behind a shore.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    no_zones(site, WIND_WAYS)?;
    let mut faults = Vec::new();
    if site.terrain.is_some() {
        faults.push(SiteField::TerrainCategory.with(Trouble::Unused { instead: WIND_WAYS }));
    }
    let velocity = SiteField::BasicVelocity.need(site.basic_velocity);
    let shore = SiteField::ShoreDistance.need(site.shore_distance);
    let exposure = shore.and_then(|shore| {
        exposure_factor(site.height, shore)
            .map_err(SiteField::RidgeHeight.silent(&[SiteField::PeakPressure]))
    });
    let (v_map, c_e) = match (velocity, exposure) {
        (Ok(velocity), Ok(exposure)) if faults.is_empty() => (velocity, exposure),
        (velocity, exposure) => {
            faults.extend(velocity.err().into_iter().chain(exposure.err()));
            return Err(faults);
        }
    };
    let c_alt = altitude_factor(site.altitude, site.height);
    let v_b = v_map * c_alt;
    let q_b = velocity_pressure(ANNEX.air_density, v_b);
    let c_o = site.orography.unwrap_or(1.0);
    let q_p = q_b * (c_e * ((c_o + 0.6) / 1.6).powi(2));
    let of = |number| Source::clause(WIND, number);
    let shore = site.shore_distance.unwrap_or(Length::ZERO);
    Ok(PeakPressure {
        pressure: q_p,
        basic: Some(q_b),
        described: format!(
            "annex {}, v_map {} m/s, altitude {} m, {} km from the shore, ridge at {} m",
            ANNEX.code,
            v_map.m_per_s(),
            site.altitude.m(),
            shore.m() / 1000.0,
            site.height.m()
        ),
        evidence: Evidence::OneSource,
        steps: vec![
            velocity_step("v_b,map", v_map, Source::Given),
            Step::new(Quantity::RiseWithAltitude, "c_alt", c_alt, "", of("NDP to 4.2(2)P")),
            velocity_step("v_b", v_b, of("NDP to 4.2(1)P")),
            air_density_step(ANNEX.air_density, of("NDP to 4.5(1)")),
            basic_pressure_step(q_b),
            height_step(site.height),
            Step::new(Quantity::ShoreDistance, "d", shore.m() / 1000.0, "km", Source::Given),
            Step::new(Quantity::WindExposure, "c_e(z)", c_e, "", of("Figure NA.7")),
            Step::new(Quantity::Orography, "c_o", c_o, "", of("NDP to 4.3.3")),
            peak_pressure_step(q_p, Source::clause(EN1991_1_4, "Eq. (4.8)")),
        ],
    })
}

spelled! {
    /// Snow zone of the British map.
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

/// `s_k`: characteristic snow on the ground in the United Kingdom.
///
/// NA to BS EN 1991-1-3, NDP to 4.1(1), with the corrigendum of June 2007:
/// `0.15 + (0.1 Z + 0.05) + (A - 100)/525` in kN/m², `Z` the zone and `A` the altitude in metres.
///
/// Confirmed: a help page and a public collection of notebooks; two pages without the corrigendum are not
/// followed.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ A ≤ 1500 m`, above which EN 1991-1-3, 1.1(2), leaves the load to others.
pub fn ground_snow_load(zone: SnowZone, altitude: Length) -> Result<Pressure, NotCovered> {
    let a = altitude.m();
    Clause::new(SNOW, "NDP to 4.1(1)")
        .covers((0.0..=1500.0).contains(&a), "0 m <= altitude <= 1500 m")?;
    let z = match zone {
        SnowZone::Z1 => 1.0,
        SnowZone::Z2 => 2.0,
        SnowZone::Z3 => 3.0,
        SnowZone::Z4 => 4.0,
        SnowZone::Z5 => 5.0,
    };
    Ok(Pressure::from_kn_per_m2(0.15 + (0.1 * z + 0.05) + (a - 100.0) / 525.0))
}

/// `μ`: shape coefficient of the slope of a duopitch roof that snow drifts onto.
///
/// NA to BS EN 1991-1-3, NDP to EN 1991-1-3, 5.3.3(4): 0.8 up to 15°, `0.8 + 0.4 (α - 15°)/15°` up to 30°,
/// `1.2 (60° - α)/30°` up to 60°, 0 beyond.
///
/// One source: a public collection of notebooks on British snow.
#[must_use]
pub fn drifted_shape_factor(pitch: Angle) -> f64 {
    match pitch.deg() {
        alpha if alpha <= 15.0 => 0.8,
        alpha if alpha <= 30.0 => 0.8 + 0.4 * (alpha - 15.0) / 15.0,
        alpha => f64::max(1.2 * (60.0 - alpha) / 30.0, 0.0),
    }
}

/// `c_alt`: how much faster the wind is at an altitude `A` in metres.
///
/// NA to BS EN 1991-1-4, NDP to EN 1991-1-4, 4.2(2)P: `1 + 0.001 A` up to 10 m above the ground,
/// `1 + 0.001 A (10/z)^0.2` above.
///
/// Confirmed: two help documents, a worked article.
#[must_use]
pub fn altitude_factor(altitude: Length, z: Length) -> f64 {
    let lower = (10.0 / f64::max(z.m(), 10.0)).powf(0.2);
    1.0 + 0.001 * f64::max(altitude.m(), 0.0) * lower
}

/// `c_e(z)`: peak over basic velocity pressure in open country, at a distance `d` from the shore.
///
/// NA to BS EN 1991-1-4, Figure NA.7, for EN 1991-1-4, 4.5(1). The annex has a chart; this is
/// `((1 + 3 I_v) c_r)²`, with the turbulence `I_v` of its Figure NA.5 by the logarithm of `z`, and
/// `c_r = 0.1779 (ln(z/0.03) + 5.75 z/2722)(1 - 0.0396 x + 0.0080 x² - 0.0015 x³)`, `x = lg(d/10 km)`, fitted
/// to its points; at sea and no more than there `(1.6785 + 0.1683 y - 0.0120 y²)²`, `y = ln(z/10)`. From
/// 4 m to 20 m it keeps within 0.5 % of the points, up to 30 m within 1.1 %.
///
/// One source: a public program with the points of the chart; two of its charts agree with each other, and a
/// worked article to 0.3 %.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ z ≤ 30 m`; below 4 m it is what it is there.
pub fn exposure_factor(z: Length, shore: Length) -> Result<f64, NotCovered> {
    Clause::new(WIND, "Figure NA.7").covers((0.0..=30.0).contains(&z.m()), "0 m <= z <= 30 m")?;
    let z = f64::max(z.m(), 4.0);
    let y = (z / 10.0).ln();
    let sea = (1.6785 + 0.1683 * y - 0.0120 * y.powi(2)).powi(2);
    let d = shore.m() / 1000.0;
    if d < 0.1 {
        return Ok(sea);
    }
    let x = f64::min(d, 100.0).log10() - 1.0;
    let inland = 1.0 - 0.0396 * x + 0.0080 * x.powi(2) - 0.0015 * x.powi(3);
    let c_r = 0.1779 * ((z / 0.03).ln() + 5.75 * z / 2722.0) * inland;
    Ok(f64::min(sea, ((1.0 + 3.0 * turbulence(z)) * c_r).powi(2)))
}

/// `I_v` in open country, linear in the logarithm of the height in metres, from 4 m to 30 m: points of
/// Figure NA.5.
fn turbulence(z: f64) -> f64 {
    const POINTS: [(f64, f64); 10] = [
        (4.0, 0.193),
        (5.0, 0.188),
        (6.0, 0.184),
        (8.0, 0.178),
        (10.0, 0.173),
        (12.0, 0.170),
        (15.0, 0.165),
        (20.0, 0.160),
        (25.0, 0.155),
        (30.0, 0.152),
    ];
    let between = POINTS.windows(2).find_map(|pair| match pair {
        [(low, at_low), (high, at_high)] if z <= *high => {
            let share = (z / low).ln() / (high / low).ln();
            Some(at_low + (at_high - at_low) * share)
        }
        _ => None,
    });
    between.unwrap_or(0.152)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn c_e(z: f64, km: f64) -> f64 {
        exposure_factor(Length::from_m(z), Length::from_m(km * 1000.0)).expect("covered")
    }

    /// Farther from the shore the wind is never faster, higher up never slower.
    #[test]
    fn exposure_falls_from_the_shore_and_rises_with_the_height() {
        let heights = (0..=60).map(|half| f64::from(half) / 2.0);
        let shores = [0.0, 0.05, 0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 500.0];
        for z in heights {
            for pair in shores.windows(2) {
                assert!(c_e(z, pair[1]) <= c_e(z, pair[0]) + 1e-12, "{z} m, {pair:?} km");
            }
            for d in shores {
                assert!(c_e(f64::min(z + 0.5, 30.0), d) >= c_e(z, d) - 1e-12, "{z} m, {d} km");
            }
        }
        assert!(exposure_factor(Length::from_m(30.1), Length::ZERO).is_err());
    }

    /// The branches of drifted snow meet at 15°, 30° and 60°.
    #[test]
    fn drifted_snow_is_whole() {
        let mu = |deg: f64| drifted_shape_factor(Angle::from_deg(deg));
        for deg in [15.0, 30.0, 60.0] {
            assert!((mu(deg) - mu(deg + 1e-9)).abs() < 1e-9, "{deg}");
        }
        assert!((mu(30.0) - 1.2).abs() < 1e-12 && mu(75.0).abs() < 1e-12);
    }
}
