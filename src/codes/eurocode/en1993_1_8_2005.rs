//! EN 1993-1-8:2005, joints in steel: bolts in shear and tension.
//!
//! **Model.** Bolts of Category A and D, not preloaded; the shear plane passes through the thread.
//!
//! **Left out.** Bearing in slots, block tearing, preloaded joints: slip along a slot is declared.

use crate::codes::vocabulary::BoltClass;
use crate::units::{Area, Force, Length, Stress};

/// Document, as cited.
pub(super) const EN1993_1_8: &str = "EN 1993-1-8:2005";

/// `γ_M2`: recommended value of EN 1993-1-8, Table 2.1.
pub(super) const GAMMA_M2: f64 = 1.25;

/// `A_s`: stress area of a bolt with a coarse thread; `None` for a diameter without one here.
///
/// EN 1993-1-8:2005, Table 3.4, by way of ISO 898-1.
///
/// From memory.
#[must_use]
pub fn stress_area(d: Length) -> Option<Area> {
    const AREAS: [(f64, f64); 6] =
        [(6.0, 20.1), (8.0, 36.6), (10.0, 58.0), (12.0, 84.3), (14.0, 115.0), (16.0, 157.0)];
    let known = AREAS.iter().find(|(diameter, _)| (d.mm() - diameter).abs() < 1e-6);
    known.map(|(_, area)| Area::from_mm2(*area))
}

/// `f_ub` and `α_v` of a class: ultimate strength, and its share in shear through the thread.
///
/// EN 1993-1-8:2005, Tables 3.1 and 3.4; stainless classes by EN 1993-1-4 and EN ISO 3506-1, with the
/// lower of the two shares.
///
/// From memory.
#[must_use]
pub const fn bolt_strength(class: BoltClass) -> (Stress, f64) {
    let (f_ub, alpha_v) = match class {
        BoltClass::Steel4Point6 => (400.0, 0.6),
        BoltClass::Steel5Point6 => (500.0, 0.6),
        BoltClass::Steel8Point8 => (800.0, 0.6),
        BoltClass::Steel10Point9 => (1000.0, 0.5),
        BoltClass::Stainless50 => (500.0, 0.5),
        BoltClass::Stainless70 => (700.0, 0.5),
        BoltClass::Stainless80 => (800.0, 0.5),
    };
    (Stress::from_n_per_mm2(f_ub), alpha_v)
}

/// `F_v,Rd`: shear resistance of a bolt in one plane.
///
/// EN 1993-1-8:2005, Table 3.4: `F_v,Rd = α_v · f_ub · A_s / γ_M2`.
///
/// From memory.
#[must_use]
pub fn shear_resistance(alpha_v: f64, f_ub: Stress, a_s: Area, gamma_m2: f64) -> Force {
    f_ub * a_s * alpha_v / gamma_m2
}

/// `F_t,Rd`: tension resistance of a bolt.
///
/// EN 1993-1-8:2005, Table 3.4: `F_t,Rd = 0.9 · f_ub · A_s / γ_M2`.
///
/// From memory.
#[must_use]
pub fn tension_resistance(f_ub: Stress, a_s: Area, gamma_m2: f64) -> Force {
    f_ub * a_s * 0.9 / gamma_m2
}

/// Tension resistance of a bolt in the sum with shear.
///
/// EN 1993-1-8:2005, Table 3.4: `F_v,Ed / F_v,Rd + F_t,Ed / (1.4 F_t,Rd) ≤ 1`.
///
/// From memory.
#[must_use]
pub fn tension_beside_shear(f_t_rd: Force) -> Force {
    f_t_rd * 1.4
}
