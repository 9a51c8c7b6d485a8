//! 8.2.3, 8.3.1, 8.5.1 and 8.7.1: screws pushed sideways by a steel plate.
//!
//! **Model.** Yield theory: embedment of the timber and bending of the screw, both plastic; the
//! smallest mode governs. A plate thinner than half a diameter lets the screw turn, one at least a
//! diameter thick clamps it. Touching plates follow the standard's own equations; across a free
//! gap, where the standard is silent, the general dowel equations of [`tr12_2015`] do.
//!
//! **Left out.** Splitting by load across the grain, more than one shear plane.
//!
//! **Checked by** `tests/reference/cases/en1995_1_1/` (a library, thesis examples, an independent
//! plastic-limit program).

use crate::codes::tr12_2015;
use crate::codes::vocabulary::Interaction;
use crate::units::{Angle, Density, Force, Length, LineLoad, Moment, Stress};

/// Whether the timber was drilled before the screw went in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Predrilling {
    /// Driven straight into the timber.
    None,
    /// Into a drilled hole.
    Predrilled,
}

/// `d_ef`: diameter of a screw's thread for yield theory.
///
/// EN 1995-1-1:2004, 8.7.1(3): `d_ef = 1.1 d_core`.
///
/// Confirmed: a textbook and three libraries.
#[must_use]
pub fn effective_diameter(core: Length) -> Length {
    1.1 * core
}

/// The rules a screw follows under lateral load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LateralRule {
    /// Those of nails, 8.3.1.
    Nails,
    /// Those of bolts, 8.5.1.
    Bolts,
}

impl LateralRule {
    /// EN 1995-1-1:2004, 8.7.1(4) and (5): bolts above `d_ef = 6 mm`.
    #[must_use]
    pub fn of(d_ef: Length) -> Self {
        if d_ef <= Length::from_mm(6.0) { Self::Nails } else { Self::Bolts }
    }
}

/// `f_h,k`: embedment strength of softwood under a screw.
///
/// EN 1995-1-1:2004, 8.7.1(4) and (5). Nail rules to `d_ef = 6 mm`: `0.082 ρ_k d^-0.3` (8.15), or
/// `0.082 (1 - 0.01 d) ρ_k` predrilled (8.16). Bolt rules above:
/// `0.082 (1 - 0.01 d) ρ_k / (k_90 sin² α + cos² α)` (8.31) and (8.32), `k_90 = 1.35 + 0.015 d`
/// (8.33), `α` between load and grain. Fits to tests: mm, kg/m³, N/mm². A diameter of zero has no
/// strength.
///
/// Confirmed: two clause-by-clause libraries and a handbook.
#[must_use]
pub fn embedment_strength(
    d_ef: Length,
    rho_k: Density,
    predrilled: Predrilling,
    load_to_grain: Angle,
) -> Stress {
    let (d, rho) = (d_ef.mm(), rho_k.kg_per_m3());
    if d <= 0.0 {
        return Stress::ZERO;
    }
    let drilled = 0.082 * (1.0 - 0.01 * d).max(0.0) * rho;
    let nail = d <= 6.0;
    Stress::from_n_per_mm2(match predrilled {
        Predrilling::None if nail => 0.082 * rho * d.powf(-0.3),
        Predrilling::Predrilled if nail => drilled,
        _ => {
            let k_90 = 1.35 + 0.015 * d;
            drilled / (k_90 * load_to_grain.sin().powi(2) + load_to_grain.cos().powi(2))
        }
    })
}

/// `M_y,Rk`: yield moment of a screw from the strength of its steel.
///
/// EN 1995-1-1:2004, 8.3.1.1(4), Eq. (8.14), and 8.5.1.1(1), Eq. (8.30):
/// `M_y,Rk = 0.3 f_u d^2.6`, N, mm. A declared yield moment of a hardened screw is better.
///
/// Confirmed: a textbook and a library.
#[must_use]
pub fn yield_moment(f_u: Stress, d_ef: Length) -> Moment {
    Moment::from_nmm(0.3 * f_u.n_per_mm2() * d_ef.mm().max(0.0).powf(2.6))
}

/// How a steel plate holds the head end of the screw.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlateGrip {
    /// `t_s ≤ 0.5 d`: the screw turns freely in the plate.
    Thin,
    /// `t_s ≥ d` and a tight hole: the screw is clamped.
    Thick,
}

/// Lateral capacity of one screw and the way it fails.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LateralCapacity {
    /// `F_v,Rk`: characteristic, per screw and shear plane.
    pub force: Force,
    /// The mode that governs, in words.
    pub mode: &'static str,
}

const EMBEDMENT: &str = "embedment of the timber";
const ROTATION: &str = "thin plate, screw rotates in the timber";
const ONE_HINGE: &str = "thin plate, one hinge in the screw";
const HINGE_AT_PLATE: &str = "thick plate, one hinge at the plate";
const TWO_HINGES: &str = "thick plate, two hinges in the screw";
const BETWEEN: &str = "between a thin and a thick plate";

fn least(modes: &[(Force, &'static str)]) -> LateralCapacity {
    let start = LateralCapacity { force: Force::from_n(f64::INFINITY), mode: EMBEDMENT };
    modes.iter().fold(start, |least, &(force, mode)| {
        if force < least.force { LateralCapacity { force, mode } } else { least }
    })
}

/// `F_v,Rk`: screw through a thin plate lying on the timber.
///
/// EN 1995-1-1:2004, 8.2.3(3), Eq. (8.9): least of `0.4 f_h t d` and
/// `1.15 √(2 M_y f_h d) + F_ax,Rk / 4`. The rope part `F_ax,Rk / 4` may not exceed the rest of its
/// mode (8.2.2(2), screws 100 %); without one, `f_ax_rk` is zero.
///
/// Confirmed: two libraries and a thesis example.
#[must_use]
pub fn thin_plate_capacity(
    t: Length,
    f_h: Stress,
    d: Length,
    m_y: Moment,
    f_ax_rk: Force,
) -> LateralCapacity {
    let (q, t) = (embedment_line(f_h, d), t.max(Length::ZERO));
    let hinge = 1.15 * root(2.0, m_y, q);
    least(&[(q * t * 0.4, ROTATION), (roped(hinge, f_ax_rk), ONE_HINGE)])
}

/// `F_v,Rk`: screw clamped by a thick plate lying on the timber.
///
/// EN 1995-1-1:2004, 8.2.3(3), Eq. (8.10): least of
/// `f_h t d [√(2 + 4 M_y / (f_h d t²)) - 1] + F_ax,Rk / 4`, `2.3 √(M_y f_h d) + F_ax,Rk / 4` and
/// `f_h t d`; rope part as in [`thin_plate_capacity`].
///
/// Confirmed: two libraries and a thesis example.
#[must_use]
pub fn thick_plate_capacity(
    t: Length,
    f_h: Stress,
    d: Length,
    m_y: Moment,
    f_ax_rk: Force,
) -> LateralCapacity {
    let (q, t) = (embedment_line(f_h, d), t.max(Length::ZERO));
    // q t [√(2 + 4 M / (q t²)) - 1] with t taken under the root, so that t = 0 is no division.
    let qt = (q * t).n();
    let rigid = Force::from_n((2.0 * qt * qt + 4.0 * m_y.nmm() * q.kn_per_m()).sqrt() - qt);
    let hinges = 2.3 * root(1.0, m_y, q);
    least(&[
        (q * t, EMBEDMENT),
        (roped(rigid, f_ax_rk), HINGE_AT_PLATE),
        (roped(hinges, f_ax_rk), TWO_HINGES),
    ])
}

/// Capacity of a plate between thin and thick.
///
/// EN 1995-1-1:2004, 8.2.3(1): linear in the plate's thickness `t_s` between `0.5 d` and `d`.
///
/// One source: a library, recomputed.
#[must_use]
pub fn between_thin_and_thick(
    t_s: Length,
    d: Length,
    thin: LateralCapacity,
    thick: LateralCapacity,
) -> LateralCapacity {
    let share = head_clamping(t_s, d);
    if share <= 0.0 {
        thin
    } else if share >= 1.0 {
        thick
    } else {
        let force = thin.force + (thick.force - thin.force) * share;
        LateralCapacity { force, mode: BETWEEN }
    }
}

/// How far a steel plate clamps the heads of screws: 0 of a thin plate, 1 of a thick one.
///
/// EN 1995-1-1:2004, 8.2.3(1): thin up to `t_s = 0.5 d`, thick from `d` on, linear between.
///
/// One source: a library, recomputed.
#[must_use]
pub fn head_clamping(t_s: Length, d: Length) -> f64 {
    ((t_s - 0.5 * d) / (0.5 * d)).clamp(0.0, 1.0)
}

/// `F_v,Rk`: screw from a plate into timber across a free gap `g`.
///
/// Not in EN 1995-1-1. AWC TR12 (2015), Table 1-1, with a rigid plate, `q = f_h d`:
///
/// | plate | mode | `F` |
/// |---|---|---|
/// | thick | two hinges | `q [√(g² + 4 M / q) - g]` |
/// | thick | hinge at the plate | `q [√((2g + t)² + 4 M / q + t²) - (2g + t)]` |
/// | both | embedment | `q t` |
/// | thin | one hinge | `q [√(g² + 2 M / q) - g]` |
/// | thin | rotation | `q [√((2g + t)² + t²) - (2g + t)]` |
///
/// Least of the plate's group. No rope part (it needs contact) and no factor 1.15, so a closing
/// gap ends below the standard's own equations: on the safe side.
///
/// One source: the report, whose printed example has timber on both sides. That a steel plate pins
/// or clamps the dowel is our own reading, checked with a plastic-limit program of our own.
#[must_use]
pub fn capacity_across_gap(
    grip: PlateGrip,
    gap: Length,
    t: Length,
    f_h: Stress,
    d: Length,
    m_y: Moment,
) -> LateralCapacity {
    let (q, t) = (embedment_line(f_h, d), t.max(Length::ZERO));
    let (rotates, hinges) = (tr12_2015::rotating_end(q, t), tr12_2015::hinged_end(q, m_y));
    let (plate, rotation, hinge) = match grip {
        PlateGrip::Thin => (tr12_2015::pinned_end(), ROTATION, ONE_HINGE),
        PlateGrip::Thick => (tr12_2015::clamped_end(m_y), HINGE_AT_PLATE, TWO_HINGES),
    };
    least(&[
        (q * t, EMBEDMENT),
        (tr12_2015::yield_load(plate, rotates, gap), rotation),
        (tr12_2015::yield_load(plate, hinges, gap), hinge),
    ])
}

/// `F_v,Rk`: screw from a steel plate of thickness `t_s` into timber of embedded length `t`, with
/// or without a gap; rope effect left out.
///
/// EN 1995-1-1:2004, 8.2.3, where plate and timber touch ([`thin_plate_capacity`],
/// [`thick_plate_capacity`]), else [`capacity_across_gap`]; between thin and thick linear. `d` is
/// the effective diameter; `d_plate` the one the plate's thickness is compared with (8.2.3(1)):
/// libraries take the effective diameter there too, the outer diameter is on the safe side.
///
/// One source for a plate between thin and thick and for a gap, see the functions named.
#[must_use]
pub fn lateral_capacity(
    t_s: Length,
    gap: Length,
    t: Length,
    f_h: Stress,
    d: Length,
    d_plate: Length,
    m_y: Moment,
) -> LateralCapacity {
    let (thin, thick) = if gap > Length::ZERO {
        let across = |grip| capacity_across_gap(grip, gap, t, f_h, d, m_y);
        (across(PlateGrip::Thin), across(PlateGrip::Thick))
    } else {
        let rope = Force::ZERO;
        (thin_plate_capacity(t, f_h, d, m_y, rope), thick_plate_capacity(t, f_h, d, m_y, rope))
    };
    between_thin_and_thick(t_s, d_plate, thin, thick)
}

/// How pull and lateral load of a screw meet.
///
/// EN 1995-1-1:2004, 8.7.3(1) and 8.3.3, Eq. (8.28):
/// `(F_ax,Ed / F_ax,Rd)² + (F_v,Ed / F_v,Rd)² ≤ 1`.
///
/// One source: an engineer's published calculation.
#[must_use]
pub const fn combined_interaction() -> Interaction {
    Interaction::RootOfSquares
}

/// `f_h · d` as force per length of screw.
fn embedment_line(f_h: Stress, d: Length) -> LineLoad {
    LineLoad::from_kn_per_m(f_h.n_per_mm2() * d.mm().max(0.0))
}

/// `√(k M q)`.
fn root(k: f64, m_y: Moment, q: LineLoad) -> Force {
    Force::from_n((k * m_y.nmm() * q.kn_per_m()).max(0.0).sqrt())
}

/// A mode with its rope part, which may at most double it.
fn roped(mode: Force, f_ax_rk: Force) -> Force {
    mode + (f_ax_rk / 4.0).max(Force::ZERO).min(mode)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn capacity(gap: f64, t: f64) -> LateralCapacity {
        let mm = Length::from_mm;
        let f_h = Stress::from_n_per_mm2(15.9);
        lateral_capacity(mm(6.0), mm(gap), mm(t), f_h, mm(8.0), mm(8.0), Moment::from_nmm(2e4))
    }

    #[test]
    fn a_wider_gap_never_carries_more() {
        let forces: Vec<f64> =
            [0.0, 0.1, 1.0, 5.0, 20.0, 60.0].iter().map(|g| capacity(*g, 60.0).force.n()).collect();
        assert!(forces.windows(2).all(|pair| pair[1] < pair[0]), "{forces:?}");
    }

    #[test]
    fn no_length_in_the_timber_carries_nothing() {
        assert_eq!(capacity(0.0, 0.0).force, Force::ZERO);
        assert_eq!(capacity(30.0, 0.0).force, Force::ZERO);
        assert_eq!(capacity(0.0, -5.0).force, Force::ZERO);
        assert_eq!(capacity(30.0, -5.0).force, Force::ZERO);
    }

    /// To 6 mm a screw counts as a nail, beyond as a bolt, whose strength depends on the grain.
    #[test]
    fn six_millimetres_part_nails_from_bolts() {
        let mm = Length::from_mm;
        assert_eq!(LateralRule::of(mm(6.0)), LateralRule::Nails);
        assert_eq!(LateralRule::of(mm(6.1)), LateralRule::Bolts);
        let across = |d: f64| {
            let rho_k = Density::from_kg_per_m3(350.0);
            embedment_strength(mm(d), rho_k, Predrilling::None, Angle::from_deg(90.0)).n_per_mm2()
        };
        // 0.082 · 350 · 6^-0.3 and 0.082 · 0.939 · 350 / (1.35 + 0.0915).
        assert!((across(6.0) - 16.7663).abs() < 1e-3, "{}", across(6.0));
        assert!((across(6.1) - 18.6946).abs() < 1e-3, "{}", across(6.1));
        assert!(across(0.05) > 0.0, "a wire holds a little, too");
    }

    /// 8.2.3(1): half a diameter clamps nothing, a whole one all, three quarters half.
    #[test]
    fn a_plate_clamps_heads_by_its_thickness() {
        let clamped = |t_s: f64| head_clamping(Length::from_mm(t_s), Length::from_mm(8.0));
        let found = [2.0, 4.0, 6.0, 8.0, 12.0].map(clamped);
        assert!(found.iter().zip([0.0, 0.0, 0.5, 1.0, 1.0]).all(|(a, b)| (a - b).abs() < 1e-12));
    }
}
