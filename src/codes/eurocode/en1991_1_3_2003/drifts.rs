//! Drifted snow: in valleys, against walls and behind obstacles.
//!
//! **Signs.** As in the rest of the document.
//!
//! **Units.** Coefficients multiply the ground load per area of plan; distances are measured on
//! plan.
//!
//! **Left out.** Roofs of several spans (5.3.4(4)), cylindrical roofs, the exceptional drifts of
//! Annex B, and limits of coefficients that a country sets for itself.

use super::EN1991_1_3;
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Length, Pressure};

/// Specific weight of drifted snow, 5.3.6(1) and 6.2(2): 2 kN/m³.
pub const DRIFT_KN_PER_M3: f64 = 2.0;

/// Coefficient of a lower roof away from the wall, 5.3.6(1): snow does not slide off it.
pub const LOWER_ROOF: f64 = 0.8;

/// `μ_2`: shape coefficient in a valley between two slopes.
///
/// EN 1991-1-3:2003, 5.3.4(3), Table 5.2, at the mean `α` of both pitches: `0.8 + 0.8 α / 30°` to
/// 30°, `1.6` to 60°.
///
/// Confirmed: three implementations and a printed sheet.
///
/// # Errors
/// [`NotCovered`] above 60°, where 5.3.4(4) asks for special consideration.
pub fn valley_factor(mean_pitch: Angle) -> Result<f64, NotCovered> {
    let alpha = mean_pitch.deg();
    Clause::new(EN1991_1_3, "5.3.4(4)").covers(alpha <= 60.0, "a mean pitch of 60° or less")?;
    Ok(f64::min(0.8 + 0.8 * alpha / 30.0, 1.6))
}

/// `l_s`: length of a drift against a step or an obstacle of this height.
///
/// EN 1991-1-3:2003, 5.3.6(1), Eq. (5.10), and 6.2(2): `l_s = 2 h`, 5 m to 15 m.
///
/// Partly from memory: twice the height by a printed example; the limits by none.
#[must_use]
pub fn drift_length(h: Length) -> Length {
    (h * 2.0).max(Length::from_m(5.0)).min(Length::from_m(15.0))
}

/// `μ_w`: coefficient of what the wind drifts against a taller building at the wall.
///
/// EN 1991-1-3:2003, 5.3.6(1), Eq. (5.9): `(b_1 + b_2) / 2 h`, no more than `γ h / s_k`, with `b_1`
/// and `b_2` the widths of the taller and the lower roof square to the wall; 0.8 to 4.
///
/// Confirmed: a printed worked example and a library.
#[must_use]
pub fn wind_drift_factor(b_1: Length, b_2: Length, h: Length, s_k: Pressure) -> f64 {
    let by_width = if h > Length::ZERO { (b_1 + b_2) / (h * 2.0) } else { f64::INFINITY };
    by_width.min(fills_height(h, s_k)).clamp(0.8, 4.0)
}

/// `μ_s`: coefficient at the wall of what slides off a higher roof that falls towards it.
///
/// EN 1991-1-3:2003, 5.3.6(1): nothing up to 15°; steeper, half of the snow on that slope
/// (`μ_1 · b`, `b` its length on plan) comes down and lies as a triangle of the length `l_s`.
///
/// Partly from memory: nothing up to 15° and half the load by a printed example; that it lies as a
/// triangle by none.
#[must_use]
pub fn slide_factor(upper_pitch: Angle, b: Length, l_s: Length) -> f64 {
    if upper_pitch <= Angle::from_deg(15.0) {
        return 0.0;
    }
    super::shape_factor(upper_pitch, false) * (b / l_s)
}

/// `μ_2`: coefficient at an obstacle on a flat or nearly flat roof.
///
/// EN 1991-1-3:2003, 6.2(2), Eq. (6.1): `γ h / s_k`, 0.8 to 2.
///
/// From memory.
#[must_use]
pub fn obstacle_factor(h: Length, s_k: Pressure) -> f64 {
    fills_height(h, s_k).clamp(0.8, 2.0)
}

/// Coefficient at which drifted snow is as high as what it lies against.
fn fills_height(h: Length, s_k: Pressure) -> f64 {
    let full = DRIFT_KN_PER_M3 * h.m();
    if s_k > Pressure::ZERO { full / s_k.kn_per_m2() } else { f64::INFINITY }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn valleys_steeper_than_60_degrees_are_left_to_special_consideration() {
        let covered = |degrees: f64| valley_factor(Angle::from_deg(degrees)).is_ok();
        assert!(covered(60.0) && !covered(60.1));
    }
}
