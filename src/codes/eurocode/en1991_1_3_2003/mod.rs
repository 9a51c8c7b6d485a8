//! EN 1991-1-3:2003+A1:2015, snow: from the ground to the roof.
//!
//! **Signs.** Loads act vertically and are positive downwards; [`on_slope`] turns them into the
//! roof's own axes.
//!
//! **Units.** Ground and roof loads refer to the horizontal projection (5.2(5)), [`OnSlope`] to
//! the sloping surface.
//!
//! Drifts are in [`drifts`].
//!
//! **Left out.** Annex B.

pub mod drifts;

use crate::codes::vocabulary::OnSlope;
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Length, LineLoad, Pressure};

pub(super) const EN1991_1_3: &str = "EN 1991-1-3:2003+A1:2015";

/// `μ_1`: shape coefficient of a plane slope.
///
/// EN 1991-1-3:2003, 5.3.2 and 5.3.3, Table 5.2: `0.8` to 30°, `0.8 (60° - α) / 30°` to 60°,
/// `0` beyond. Where guards, a parapet or anything else keeps the snow from sliding (`held`), it
/// is not below `0.8` (5.3.2(2), 5.3.3(2)).
///
/// Confirmed: three independent implementations and a printed worked example. One public library
/// starts the falling branch from 0.5 instead of 0.8, which is unsafe and not followed.
#[must_use]
pub fn shape_factor(pitch: Angle, held: bool) -> f64 {
    if held || pitch <= Angle::from_deg(30.0) {
        0.8
    } else if pitch >= Angle::from_deg(60.0) {
        0.0
    } else {
        0.8 * (60.0 - pitch.deg()) / 30.0
    }
}

/// How open the site lies to the wind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Topography {
    /// Flat open country on all sides.
    Windswept,
    /// Neither open nor sheltered.
    Normal,
    /// Lower than its surroundings or among tall trees or buildings.
    Sheltered,
}

/// `C_e`: exposure coefficient.
///
/// EN 1991-1-3:2003, 5.2(7), Table 5.1: 0.8, 1.0, 1.2.
///
/// Confirmed: a public library and a national help page.
#[must_use]
pub const fn exposure_coefficient(topography: Topography) -> f64 {
    match topography {
        Topography::Windswept => 0.8,
        Topography::Normal => 1.0,
        Topography::Sheltered => 1.2,
    }
}

/// `s`: snow on the roof, per horizontal area.
///
/// EN 1991-1-3:2003, 5.2(3)P, Eqs. (5.1) and (5.2): `s = μ · C_e · C_t · s_k`, with `s_Ad` in
/// place of `s_k` for exceptional ground snow.
///
/// Confirmed: a printed worked example and two public worksheets.
#[must_use]
pub fn roof_load(mu: f64, c_e: f64, c_t: f64, s_k: Pressure) -> Pressure {
    s_k * (mu * c_e * c_t)
}

/// `s_Ad`: exceptional snow on the ground.
///
/// EN 1991-1-3:2003, 4.3(1), Eq. (4.1): `s_Ad = C_esl · s_k`.
///
/// Confirmed: a printed worked example (0.65 becomes 1.30 kN/m²).
#[must_use]
pub fn exceptional_ground_load(c_esl: f64, s_k: Pressure) -> Pressure {
    s_k * c_esl
}

/// Shape coefficients of the two slopes of a duopitch roof in one arrangement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrangement {
    /// On the slope looked at.
    pub this: f64,
    /// On the other slope.
    pub other: f64,
}

/// The load arrangements of a duopitch roof: even, then drifted to either side.
///
/// EN 1991-1-3:2003, 5.3.3(3) and (4), Figure 5.3: (i) `μ_1(α_1), μ_1(α_2)`;
/// (ii) `0.5 μ_1(α_1), μ_1(α_2)`; (iii) `μ_1(α_1), 0.5 μ_1(α_2)`.
///
/// Confirmed: a printed worked example, a library and a worked page. Some countries (Austria, the
/// United Kingdom) replace (ii) and (iii) by coefficients of their own.
#[must_use]
pub fn duopitch_arrangements(mu_this: f64, mu_other: f64) -> [Arrangement; 3] {
    [
        Arrangement { this: mu_this, other: mu_other },
        Arrangement { this: 0.5 * mu_this, other: mu_other },
        Arrangement { this: mu_this, other: 0.5 * mu_other },
    ]
}

/// Snow per horizontal area turned into the roof's axes.
///
/// EN 1991-1-3:2003, 5.2(5) for what `s` refers to; the rest is geometry:
/// `normal = s cos² α`, `slope = s cos α sin α`.
///
/// From memory for the clause; universally assumed.
#[must_use]
pub fn on_slope(s: Pressure, pitch: Angle) -> OnSlope {
    OnSlope { normal: s * pitch.cos() * pitch.cos(), slope: s * pitch.cos() * pitch.sin() }
}

/// `F_s`: what a snow guard holds back, per length along the eaves.
///
/// EN 1991-1-3:2003, 6.4, Eq. (6.5): `F_s = s · b · sin α`, with `s` the undrifted roof load and
/// `b` (`plan_run`) the horizontal distance to the next guard up the slope or to the ridge.
/// Friction between snow and roof is taken as zero.
///
/// Partly from memory: the formula is confirmed by an engineers' association and a library; that `b`
/// is measured on plan is not.
#[must_use]
pub fn guard_force(s: Pressure, plan_run: Length, pitch: Angle) -> LineLoad {
    s * plan_run * pitch.sin()
}

/// Specific weight of snow hanging over the eaves, 6.3(2): 3 kN/m³.
pub const EAVES_SNOW_KN_PER_M3: f64 = 3.0;

/// `s_e`: snow hanging over the eaves, per length of eaves.
///
/// EN 1991-1-3:2003, 6.3(2), Eq. (6.4): `s_e = k · s² / γ`, `k = 3 / d ≤ d · γ`, with `s` the most
/// onerous undrifted roof load, `d = s / γ` the depth of snow in metres and `γ` in kN/m³. A
/// country may set its own greatest `k`. Meant for sites above 800 m, or as the country says.
///
/// One source: a library for the depth `d = s / γ`, which one of two help documents asks for as an
/// input of its own; formula, factor and specific weight are in both.
///
/// # Errors
/// [`NotCovered`] unless `γ > 0`.
pub fn eaves_overhang_load(
    s: Pressure,
    gamma_kn_per_m3: f64,
    greatest_k: f64,
) -> Result<LineLoad, NotCovered> {
    let gamma = gamma_kn_per_m3;
    Clause::new(EN1991_1_3, "6.3(2)").covers(gamma > 0.0, "the specific weight is positive")?;
    let s = s.kn_per_m2();
    let d = s / gamma;
    // A bare roof has d = 0: the limit d γ is then the smaller one and the load is zero.
    let k = f64::min(3.0 / d, d * gamma).min(greatest_k);
    Ok(LineLoad::from_kn_per_m(k * s * s / gamma))
}

/// `s_n`: ground snow for another annual probability of being exceeded.
///
/// EN 1991-1-3:2003, Annex D, Eq. (D.1):
/// `s_n = s_k {1 - V (√6/π) [ln(-ln(1 - P_n)) + 0.57722]} / (1 + 2.5923 V)`.
///
/// Partly from memory: the formula is confirmed by a national zoning page and a public script; its
/// limits are not.
///
/// # Errors
/// [`NotCovered`] unless `0 < P_n ≤ 0.2` and `0 ≤ V`.
pub fn ground_load_for_return_period(
    s_k: Pressure,
    p_n: f64,
    v: f64,
) -> Result<Pressure, NotCovered> {
    let clause = Clause::new(EN1991_1_3, "Annex D");
    clause.covers(p_n > 0.0 && p_n <= 0.2, "0 < P_n <= 0.2")?;
    clause.covers(v >= 0.0 && v.is_finite(), "the coefficient of variation is not negative")?;
    let reduced = (-(1.0 - p_n).ln()).ln() + 0.577_22;
    let factor = (1.0 - v * 6.0_f64.sqrt() / std::f64::consts::PI * reduced) / (1.0 + 2.5923 * v);
    Ok(s_k * factor)
}

/// Climate region of the European ground snow maps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ClimateRegion {
    /// Alpine region.
    Alpine,
    /// Central East.
    CentralEast,
    /// Greece.
    Greece,
    /// Iberian Peninsula.
    Iberian,
    /// Mediterranean region.
    Mediterranean,
    /// Central West.
    CentralWest,
    /// Sweden and Finland.
    SwedenFinland,
    /// United Kingdom and Republic of Ireland.
    UkIreland,
}

impl ClimateRegion {
    /// Every name there is.
    pub const NAMES: &'static [&'static str] = &[
        "alpine",
        "central_east",
        "greece",
        "iberian",
        "mediterranean",
        "central_west",
        "sweden_finland",
        "uk_ireland",
    ];

    /// Reads the region in lower case words joined by underscores, `central_west`.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        match text {
            "alpine" => Some(Self::Alpine),
            "central_east" => Some(Self::CentralEast),
            "greece" => Some(Self::Greece),
            "iberian" => Some(Self::Iberian),
            "mediterranean" => Some(Self::Mediterranean),
            "central_west" => Some(Self::CentralWest),
            "sweden_finland" => Some(Self::SwedenFinland),
            "uk_ireland" => Some(Self::UkIreland),
            _ => None,
        }
    }

    /// [`Self::zones`] as they are written.
    pub(super) const fn zone_names(self) -> &'static [&'static str] {
        match self {
            Self::Alpine | Self::SwedenFinland => &["1", "2", "3", "4.5"],
            Self::Greece | Self::Iberian => &["1", "2", "4"],
            Self::CentralEast | Self::Mediterranean | Self::CentralWest | Self::UkIreland => {
                &["1", "2", "3", "4", "4.5"]
            }
        }
    }

    /// Zone numbers the region's map uses.
    const fn zones(self) -> &'static [f64] {
        match self {
            Self::Alpine | Self::SwedenFinland => &[1.0, 2.0, 3.0, 4.5],
            Self::Greece | Self::Iberian => &[1.0, 2.0, 4.0],
            Self::CentralEast | Self::Mediterranean | Self::CentralWest | Self::UkIreland => {
                &[1.0, 2.0, 3.0, 4.0, 4.5]
            }
        }
    }
}

/// `s_k`: ground snow of the European maps.
///
/// EN 1991-1-3:2003, Annex C, Table C.1, `Z` the zone number and `A` the altitude in metres. Two
/// forms: `(p Z + q) [1 + (A / r)²]` in the south and the Alps, `p Z + q + A / r` elsewhere.
///
/// From memory. Weak support: the Alpine `r = 728` is also Italy's, and Central West, zone 3 at
/// 350 m, leads to a roof load printed in a design guide.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ A ≤ 1500 m` and for a zone number the region's map does not use.
pub fn annex_c_ground_load(
    region: ClimateRegion,
    zone: f64,
    altitude: Length,
) -> Result<Pressure, NotCovered> {
    let clause = Clause::new(EN1991_1_3, "Table C.1");
    let a = altitude.m();
    clause.covers((0.0..=1500.0).contains(&a), "0 m <= altitude <= 1500 m")?;
    let on_map = region.zones().iter().any(|z| (z - zone).abs() < 1e-9);
    clause.covers(on_map, "the zone number is on the region's map")?;

    let parabola = |p: f64, q: f64, r: f64| (p * zone + q) * (1.0 + (a / r).powi(2));
    let line = |p: f64, q: f64, r: f64| p * zone + q + a / r;
    let s_k = match region {
        ClimateRegion::Alpine => parabola(0.642, 0.009, 728.0),
        ClimateRegion::CentralEast => parabola(0.264, -0.002, 256.0),
        ClimateRegion::Greece => parabola(0.420, -0.030, 917.0),
        ClimateRegion::Iberian => parabola(0.190, -0.095, 524.0),
        ClimateRegion::Mediterranean => parabola(0.498, -0.209, 452.0),
        ClimateRegion::CentralWest => line(0.164, -0.082, 966.0),
        ClimateRegion::SwedenFinland => line(0.790, 0.375, 336.0),
        ClimateRegion::UkIreland => line(0.140, -0.1, 501.0),
    };
    Ok(Pressure::from_kn_per_m2(s_k))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zones_the_map_does_not_have_are_not_covered() {
        let load = |region, zone, a: f64| annex_c_ground_load(region, zone, Length::from_m(a));
        assert!(load(ClimateRegion::Alpine, 4.5, 600.0).is_ok());
        assert!(load(ClimateRegion::Alpine, 4.0, 600.0).is_err());
        assert!(load(ClimateRegion::Greece, 3.0, 600.0).is_err());
        assert!(load(ClimateRegion::CentralEast, 2.0, 1501.0).is_err());
        assert!(load(ClimateRegion::CentralEast, f64::NAN, 100.0).is_err());
    }

    /// Every zone a map names has its load.
    #[test]
    fn every_zone_of_every_map_is_covered() {
        for region in ClimateRegion::NAMES {
            let region = ClimateRegion::parse(region).expect("one of the names");
            for name in region.zone_names() {
                let zone = name.parse().expect("zones are numbers");
                assert!(
                    annex_c_ground_load(region, zone, Length::ZERO).is_ok(),
                    "{region:?} {name}"
                );
            }
        }
    }

    #[test]
    fn the_clauses_are_silent_beyond_their_ends() {
        let s = Pressure::from_kn_per_m2(1.0);
        assert!(
            eaves_overhang_load(s, 0.05, 1.0).is_ok() && eaves_overhang_load(s, 0.0, 1.0).is_err()
        );
        let years = |p_n: f64, v: f64| ground_load_for_return_period(s, p_n, v).is_ok();
        assert!(years(0.2, 0.05) && years(0.05, 0.0));
        assert!(!years(0.201, 0.2) && !years(0.0, 0.2) && !years(0.1, -0.01));
    }

    /// Figure 5.3: even, then half of it on this slope, then half of it on the other.
    #[test]
    fn snow_on_two_slopes_lies_in_three_ways() {
        let ways = duopitch_arrangements(0.8, 0.6).map(|way| [way.this, way.other]);
        assert_eq!(ways, [[0.8, 0.6], [0.4, 0.6], [0.8, 0.3]]);
    }
}
