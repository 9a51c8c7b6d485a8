//! EN 1993-1-1:2005 and EN 1993-1-4:2006, members of steel and of stainless steel: a solid flat bar in
//! bending about its weak axis and in torsion.
//!
//! **Model.** A solid bar is of class 1: it yields across its whole section before anything buckles.
//!
//! **Left out.** The axial force in a leg of the bar, which takes less than a thousandth of the moment
//! in any hook; strength gained by cold bending, which needs tests.

use crate::codes::vocabulary::SteelGrade;
use crate::units::{Length, Moment, SectionModulus, Stress};

/// `f_y` of a flat product.
///
/// EN 1993-1-1:2005, 3.2.1(1)a: the yield strength of the product standard, which falls with the
/// thickness; EN 1993-1-4:2006, Table 2.1, hot rolled strip, for stainless steel.
///
/// Partly from memory: structural grades by three public transcriptions of EN 10025-2:2004, Table 7,
/// 1.4301 by a trade association's sheet; 1.4401 by none.
#[must_use]
pub fn yield_strength(grade: SteelGrade, thickness: Length) -> Stress {
    let by_thickness = |up_to: [f64; 3]| {
        let row = if thickness.mm() <= 16.0 {
            0
        } else if thickness.mm() <= 40.0 {
            1
        } else {
            2
        };
        up_to[row]
    };
    Stress::from_n_per_mm2(match grade {
        SteelGrade::S235 => by_thickness([235.0, 225.0, 215.0]),
        SteelGrade::S275 => by_thickness([275.0, 265.0, 255.0]),
        SteelGrade::S355 => by_thickness([355.0, 345.0, 335.0]),
        SteelGrade::Stainless1_4301 => 210.0,
        SteelGrade::Stainless1_4401 => 220.0,
    })
}

/// `E`: modulus of elasticity.
///
/// EN 1993-1-1:2005, 3.2.6(1); EN 1993-1-4:2006, 2.1.3(1), of austenitic grades.
///
/// Confirmed: a published design guide for structural steel, a trade association's sheet for stainless
/// steel.
#[must_use]
pub const fn modulus_of_elasticity(grade: SteelGrade) -> Stress {
    Stress::from_n_per_mm2(match grade {
        SteelGrade::S235 | SteelGrade::S275 | SteelGrade::S355 => 210_000.0,
        SteelGrade::Stainless1_4301 | SteelGrade::Stainless1_4401 => 200_000.0,
    })
}

/// `γ_M0`: recommended partial factor of cross-sections.
///
/// EN 1993-1-1:2005, 6.1(1), note 2B; EN 1993-1-4:2006, 5.1(2).
///
/// Partly from memory: that of structural steel by two published resistance tables; that of stainless
/// steel by none.
#[must_use]
pub const fn section_factor(grade: SteelGrade) -> f64 {
    match grade {
        SteelGrade::S235 | SteelGrade::S275 | SteelGrade::S355 => 1.0,
        SteelGrade::Stainless1_4301 | SteelGrade::Stainless1_4401 => 1.1,
    }
}

/// `M_pl,Rd`: plastic bending resistance of a flat bar `b` wide and `t` thick about its weak axis.
///
/// EN 1993-1-1:2005, 6.2.5(2): `M_pl,Rd = W_pl · f_y / γ_M0`, with `W_pl = b·t²/4`.
///
/// From memory.
#[must_use]
pub fn plastic_moment([b, t]: [Length; 2], f_y: Stress, gamma_m0: f64) -> Moment {
    SectionModulus::from_mm3(b.mm() * t.mm().powi(2) / 4.0) * f_y / gamma_m0
}

/// `T_Rd`: resistance of a flat bar to torsion.
///
/// EN 1993-1-1:2005, 6.2.7: `T_Rd = W_T · f_y / (√3 · γ_M0)`, with the elastic `W_T = b·t²/3` of a thin
/// rectangle, which is less than the plastic one from `b = t` on.
///
/// From memory.
#[must_use]
pub fn torsion_resistance([b, t]: [Length; 2], f_y: Stress, gamma_m0: f64) -> Moment {
    let [thin, wide] = [b.min(t), b.max(t)];
    let modulus = SectionModulus::from_mm3(wide.mm() * thin.mm().powi(2) / 3.0);
    modulus * f_y / (3.0_f64.sqrt() * gamma_m0)
}
