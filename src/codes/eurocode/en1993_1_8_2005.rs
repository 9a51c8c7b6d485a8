//! EN 1993-1-8:2005, joints in steel: bolts in shear and tension.
//!
//! **Model.** Bolts of Category A and D, not preloaded; the shear plane passes through the thread.
//!
//! **Left out.** Block tearing, preloaded joints: slip along a slot is declared. Bearing in a slot is
//! written, but no request says how thick the plate is and where its edges lie.

use crate::codes::vocabulary::BoltClass;
use crate::units::{Area, Force, Length, Stress};

/// Document, as cited.
pub(super) const EN1993_1_8: &str = "EN 1993-1-8:2005";

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

/// A bolt in a plate: where it stands and how thick the plate is.
#[derive(Debug, Clone, Copy)]
pub struct BoltInPlate {
    /// Nominal diameter of the bolt, `d`.
    pub diameter: Length,
    /// Width of the hole or slot, `d_0`.
    pub hole: Length,
    /// Thickness of the plate, `t`.
    pub plate: Length,
    /// To the edge the force points at, `e_1`.
    pub end: Length,
    /// To the edge beside it, `e_2`.
    pub edge: Length,
}

/// `F_b,Rd`: bearing resistance of a plate in a slot whose length runs across the force.
///
/// EN 1993-1-8:2005, Table 3.4, with its note 1 for slotted holes:
/// `F_b,Rd = 0.6 · k_1 · α_b · f_u · d · t / γ_M2`, `α_b = min(e_1/(3 d_0), f_ub/f_u, 1)`,
/// `k_1 = min(2.8 e_2/d_0 - 1.7, 2.5)`.
///
/// One source: an own reading of public notes on the table.
#[must_use]
pub fn slot_bearing_resistance(
    bolt: &BoltInPlate,
    f_ub: Stress,
    f_u: Stress,
    gamma_m2: f64,
) -> Force {
    let alpha_b = (bolt.end / (bolt.hole * 3.0)).min(f_ub / f_u).min(1.0);
    let k_1 = (bolt.edge / bolt.hole * 2.8 - 1.7).min(2.5);
    let area = Area::from_mm2(bolt.diameter.mm() * bolt.plate.mm());
    f_u * area * (0.6 * k_1 * alpha_b / gamma_m2)
}
