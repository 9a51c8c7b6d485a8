//! 8.7.2: screws pulled along their axis.
//!
//! **Model.** Two routes to withdrawal: the standard's own fit ([`thread_withdrawal_capacity`]),
//! which is narrow, and the strength the screw's maker declares
//! ([`declared_withdrawal_capacity`]). All values are characteristic, for one screw.
//!
//! **Left out.** Screws closer than 30° to the grain, and the tension strength of the screw, which
//! is always declared.

use super::EN1995;
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Area, Density, Force, Length, Stress};

/// The threaded part of a screw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thread {
    /// `d`: outer diameter.
    pub outer: Length,
    /// `d_1`: inner diameter.
    pub inner: Length,
}

/// `f_ax,k`: characteristic withdrawal strength of a thread, across the grain.
///
/// EN 1995-1-1:2004+A1:2008, 8.7.2(4), Eq. (8.39):
/// `f_ax,k = 0.52 · d^-0.5 · l_ef^-0.1 · ρ_k^0.8`. A fit to tests: mm, kg/m³ and N/mm² only.
///
/// Confirmed: two clause-by-clause libraries and four further codes.
///
/// # Errors
/// [`NotCovered`] outside `6 mm ≤ d ≤ 12 mm`, `0.6 ≤ d_1/d ≤ 0.75` (8.7.2(4)) or `l_ef ≥ 6 d`
/// (8.7.2(3)); the caller then needs the screw's own declared strength.
pub fn thread_withdrawal_strength(
    thread: Thread,
    l_ef: Length,
    rho_k: Density,
) -> Result<Stress, NotCovered> {
    let (in_fit, in_wood) = (Clause::new(EN1995, "8.7.2(4)"), Clause::new(EN1995, "8.7.2(3)"));
    let d = thread.outer;
    in_fit.covers((6.0..=12.0).contains(&d.mm()), "6 mm <= d <= 12 mm")?;
    // Half a per mille of slack: 0.75 d rounded to a tenth of a millimetre must not fall out.
    let root = thread.inner / d;
    in_fit.covers((0.5995..=0.7505).contains(&root), "0.6 <= d_1/d <= 0.75")?;
    in_wood.covers(l_ef >= minimum_point_side_length(d), "l_ef >= 6 d")?;

    let f_ax_k = 0.52 * d.mm().powf(-0.5) * l_ef.mm().powf(-0.1) * rho_k.kg_per_m3().powf(0.8);
    Ok(Stress::from_n_per_mm2(f_ax_k))
}

/// `F_ax,α,Rk`: withdrawal of one screw by the standard's own strength.
///
/// EN 1995-1-1:2004+A1:2008, 8.7.2(4), Eqs. (8.38) and (8.40):
/// `F = f_ax,k · d · l_ef · k_d / (1.2 cos² α + sin² α)`, `k_d = min(d / 8, 1)`.
///
/// Confirmed: two clause-by-clause libraries.
///
/// # Errors
/// [`NotCovered`] as [`thread_withdrawal_strength`], and for `α < 30°` (8.7.2(2)).
pub fn thread_withdrawal_capacity(
    thread: Thread,
    l_ef: Length,
    rho_k: Density,
    angle_to_grain: Angle,
) -> Result<Force, NotCovered> {
    let steep = angle_to_grain >= Angle::from_deg(30.0);
    Clause::new(EN1995, "8.7.2(2)").covers(steep, "the angle to the grain is at least 30 deg")?;
    let f_ax_k = thread_withdrawal_strength(thread, l_ef, rho_k)?;
    let k_d = f64::min(thread.outer.mm() / 8.0, 1.0);
    Ok(f_ax_k * (thread.outer * l_ef) * (k_d / grain_divisor(angle_to_grain)))
}

/// `F_ax,α,Rk`: withdrawal of one screw by its declared strength.
///
/// EN 1995-1-1:2004+A1:2008, 8.7.2(5), Eq. (8.40a):
/// `F = f_ax,k · d · l_ef / (1.2 cos² α + sin² α) · (ρ_k / ρ_a)^0.8`, with `f_ax,k` declared at
/// density `ρ_a`; no `k_d` here.
///
/// Confirmed: one clause-by-clause library; a printed example across the grain at `ρ_k = ρ_a`.
/// The caller keeps `α ≥ 30°` (8.7.2(2)) and [`minimum_point_side_length`].
#[must_use]
pub fn declared_withdrawal_capacity(
    f_ax_k: Stress,
    d: Length,
    l_ef: Length,
    rho_k: Density,
    rho_a: Density,
    angle_to_grain: Angle,
) -> Force {
    // A screw that ends before the timber begins holds nothing.
    f_ax_k
        * (d * l_ef.max(Length::ZERO))
        * (density_factor(rho_k, rho_a) / grain_divisor(angle_to_grain))
}

/// `F_ax,α,Rk`: pulling the head of one screw through what it holds.
///
/// EN 1995-1-1:2004+A1:2008, 8.7.2(6), Eq. (8.40b): `F = f_head,k · d_h² · (ρ_k / ρ_a)^0.8`. Under
/// a steel plate the head does not pull through and this does not apply.
///
/// Confirmed: two clause-by-clause libraries and a thesis example.
#[must_use]
pub fn head_pull_through(f_head_k: Stress, d_h: Length, rho_k: Density, rho_a: Density) -> Force {
    let head: Area = d_h * d_h;
    f_head_k * head * density_factor(rho_k, rho_a)
}

/// Least length of thread in the member at the point.
///
/// EN 1995-1-1:2004, 8.7.2(3): `6 d`. Less is no withdrawal connection at all.
///
/// Confirmed: a library and two handbooks.
#[must_use]
pub fn minimum_point_side_length(d: Length) -> Length {
    6.0 * d
}

/// `n_ef`: how many of `n` screws pulled together count.
///
/// EN 1995-1-1:2004, 8.7.2(8), Eq. (8.41): `n_ef = n^0.9`.
///
/// Confirmed: a library and a printed handbook example.
#[must_use]
pub fn effective_number(n: usize) -> f64 {
    (n as f64).powf(0.9)
}

/// Least distances of screws loaded along their axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxialDistances {
    /// `a_1`: between screws along the grain.
    pub a1: Length,
    /// `a_2`: between screws across the grain.
    pub a2: Length,
    /// `a_1,CG`: from the end grain to the centre of the thread.
    pub a1_cg: Length,
    /// `a_2,CG`: from the edge to the centre of the thread.
    pub a2_cg: Length,
}

/// Least distances of screws loaded along their axis, in timber at least `12 d` thick.
///
/// EN 1995-1-1:2004+A1:2008, 8.7.2(2), Table 8.6: `7 d`, `5 d`, `10 d`, `4 d`.
///
/// Confirmed: a library and a printed handbook; a draft of the amendment had other values.
#[must_use]
pub fn axial_distances(d: Length) -> AxialDistances {
    AxialDistances { a1: 7.0 * d, a2: 5.0 * d, a1_cg: 10.0 * d, a2_cg: 4.0 * d }
}

/// Least thickness of a timber along screws that are loaded along their axis.
///
/// EN 1995-1-1:2004+A1:2008, 8.7.2(2): `t ≥ 12 d`, without which Table 8.6 does not hold.
///
/// Confirmed: a library and a printed handbook.
#[must_use]
pub fn least_timber(d: Length) -> Length {
    12.0 * d
}

/// `1.2 cos² α + sin² α`, between 1 and 1.2.
fn grain_divisor(alpha: Angle) -> f64 {
    1.2 * alpha.cos().powi(2) + alpha.sin().powi(2)
}

/// `(ρ_k / ρ_a)^0.8`.
fn density_factor(rho_k: Density, rho_a: Density) -> f64 {
    (rho_k / rho_a).powf(0.8)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outside_the_fit_the_clause_says_nothing() {
        let thread =
            |d: f64, d_1: f64| Thread { outer: Length::from_mm(d), inner: Length::from_mm(d_1) };
        let rho_k = Density::from_kg_per_m3(350.0);
        let strength = |t, l: f64| thread_withdrawal_strength(t, Length::from_mm(l), rho_k);
        assert!(strength(thread(8.0, 5.3), 80.0).is_ok());
        assert!(strength(thread(5.0, 3.3), 80.0).is_err());
        assert!(strength(thread(8.0, 4.0), 80.0).is_err());
        assert!(strength(thread(8.0, 5.3), 47.0).is_err());
        assert!(strength(thread(12.0, 8.0), 80.0).is_ok());
        assert!(strength(thread(12.1, 8.0), 80.0).is_err());
        assert!(strength(thread(8.0, 6.0), 80.0).is_ok());
        assert!(strength(thread(8.0, 6.1), 80.0).is_err());
        let long = Length::from_mm(80.0);
        let at = |degrees: f64| {
            let angle = Angle::from_deg(degrees);
            thread_withdrawal_capacity(thread(8.0, 5.3), long, rho_k, angle).is_ok()
        };
        assert!(!at(20.0) && !at(29.9) && at(30.1));
    }
}
