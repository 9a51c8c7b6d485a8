//! EN 1999-1-1:2007+A1:2009, aluminium structures: extruded rails in bending, and along their axis.
//!
//! **Model.** Elastic section modulus and linear sum of the two axes. Both stay below what the
//! standard allows for compact sections, so a rail needs no classification here.
//!
//! **Left out.** Classes 1, 2 and 4, shear, heat-affected zones (rails are not welded), net
//! sections at holes.

use crate::codes::vocabulary::Interaction;
use crate::units::{Area, FlexuralRigidity, Force, Length, Moment, SectionModulus, Stress};

pub(super) const EN1999: &str = "EN 1999-1-1:2007+A1:2009";

/// `M_Rd`: bending resistance of a rail, elastic.
///
/// EN 1999-1-1:2007, 6.2.5.1, Eq. (6.25) with the shape factor 1:
/// `M_Rd = W_el · f_o / γ_M1`.
///
/// From memory; the partial factor 1.10 is confirmed by a printed teaching example.
#[must_use]
pub fn bending_resistance(w_el: SectionModulus, f_o: Stress, gamma_m1: f64) -> Moment {
    f_o * w_el / gamma_m1
}

/// `N_Rd`: resistance of a rail to a force along its axis, of either sense.
///
/// EN 1999-1-1:2007, 6.2.3 Eq. (6.18) and 6.2.4 Eq. (6.22), without holes and of class 3 or better:
/// `N_Rd = A · f_o / γ_M1`.
///
/// From memory.
#[must_use]
pub fn axial_resistance(a: Area, f_o: Stress, gamma_m1: f64) -> Force {
    f_o * a / gamma_m1
}

/// `N_cr·l²`: elastic critical force of a rail times the square of its length between supports.
///
/// EN 1999-1-1:2007, 6.3.1.2(1), `N_cr = π²·E·I / l²`; what bends the rail bends it `1/(1 − N/N_cr)` times as
/// much, 5.2.2(5).
///
/// From memory.
#[must_use]
pub fn critical_force_by_length(ei: FlexuralRigidity) -> FlexuralRigidity {
    ei * std::f64::consts::PI.powi(2)
}

/// How bending of a rail about both axes adds up.
///
/// EN 1999-1-1:2007, 6.2.9.1 with all exponents 1: `|M_y| / M_y,Rd + |M_z| / M_z,Rd`.
///
/// From memory; the exponents of Eqs. (6.41) to (6.43) are all at least as favourable.
#[must_use]
pub const fn biaxial_interaction() -> Interaction {
    Interaction::Linear
}

/// `T_Rd`: resistance of a closed rail to torsion.
///
/// EN 1999-1-1:2007, 6.2.7, St. Venant torsion of a thin-walled tube:
/// `T_Rd = 2·A_m·t·f_o / (√3·γ_M1)`, with `A_m` the area its wall encloses.
///
/// From memory.
#[must_use]
pub fn closed_torsion_resistance(a_m: Area, t: Length, f_o: Stress, gamma_m1: f64) -> Moment {
    let wall = f_o * a_m * (2.0 / (3.0_f64.sqrt() * gamma_m1));
    wall * t
}
