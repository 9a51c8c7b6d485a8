//! EN 1999-1-1:2007+A1:2009, aluminium structures: extruded rails in bending.
//!
//! **Model.** Elastic section modulus and linear sum of the two axes. Both stay below what the
//! standard allows for compact sections, so a rail needs no classification here.
//!
//! **Left out.** Classes 1, 2 and 4, shear, heat-affected zones (rails are not welded), net
//! sections at holes.

use crate::units::{Moment, SectionModulus, Stress};

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

/// Utilisation of a rail bent about both axes, linear.
///
/// EN 1999-1-1:2007, 6.2.9.1 with all exponents 1: `|M_y| / M_y,Rd + |M_z| / M_z,Rd`.
///
/// From memory; the exponents of Eqs. (6.41) to (6.43) are all at least as favourable. A resistance
/// of zero gives an infinite utilisation under any moment and none without one.
#[must_use]
pub fn biaxial_utilisation(m_y: Moment, m_y_rd: Moment, m_z: Moment, m_z_rd: Moment) -> f64 {
    share(m_y, m_y_rd) + share(m_z, m_z_rd)
}

fn share(m: Moment, m_rd: Moment) -> f64 {
    // Nothing over nothing must not become NaN.
    if m == Moment::ZERO { 0.0 } else { m.abs() / m_rd }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_axis_without_load_or_resistance_takes_no_part() {
        let m = Moment::from_knm(1.0);
        let u = biaxial_utilisation(m, m * 2.0, Moment::ZERO, Moment::ZERO);
        assert!((u - 0.5).abs() < 1e-12);
    }
}
