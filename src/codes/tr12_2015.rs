//! AWC Technical Report 12 (2015), general dowel equations: lateral strength of a dowel between
//! two members that need not touch.
//!
//! **Model.** Plastic yield theory. Each member is an [`End`] of the dowel: it either lets the
//! dowel rotate as a rigid bar in plastic embedment, or holds a plastic hinge. The two ends and the
//! gap between the members add up to `A P² + B P - C = 0`, whose positive root is the load. A steel
//! plate is an end that needs no length at all: a hinge at its face, or a plain pin.
//!
//! **Left out.** Friction, rope effect, the report's reduction terms `R_d`: what comes out is the
//! mean or characteristic yield load, whichever the strengths put in were.
//!
//! **Checked by** `tests/reference/cases/tr12/` (the report's own Example 3.1) and
//! `tests/reference/cases/nds/` (published tables that rest on the same equations).

use crate::units::{Force, Length, LineLoad, Moment};

/// Document, as cited.
pub(super) const TR12: &str = "AWC TR12 (2015)";

/// What one end of the dowel adds to the equation of moments, as `a P² + b P` on the left and `c`
/// on the right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    a: f64,
    b: f64,
    c: f64,
}

/// The dowel turns rigidly in a member of embedment `q` per length and depth `l`.
///
/// AWC TR12 (2015), Table 1-1, modes II and III: `1 / (4 q)`, `l / 2`, `q l² / 4`.
///
/// Confirmed: the report's table by transcription; Example 3.1 recomputed within its rounding.
#[must_use]
pub fn rotating_end(q: LineLoad, l: Length) -> End {
    End { a: 0.25 / q.kn_per_m(), b: l.mm() / 2.0, c: q.kn_per_m() * l.mm() * l.mm() / 4.0 }
}

/// The dowel yields inside a member of embedment `q` per length.
///
/// AWC TR12 (2015), Table 1-1, modes III and IV: `1 / (2 q)`, `0`, `M`.
///
/// Confirmed: as [`rotating_end`].
#[must_use]
pub fn hinged_end(q: LineLoad, m: Moment) -> End {
    End { a: 0.5 / q.kn_per_m(), b: 0.0, c: m.nmm() }
}

/// The dowel is held in a member so stiff that it yields at its face: a thick steel plate.
///
/// AWC TR12 (2015), Table 1-1, the limit of [`hinged_end`] for embedment without bound: `0`, `0`,
/// `M`.
///
/// One source: EN 1995-1-1, Eq. (8.10), to which it falls back when the gap closes, less the factor
/// 1.15; the report itself has no steel plate.
#[must_use]
pub fn clamped_end(m: Moment) -> End {
    End { a: 0.0, b: 0.0, c: m.nmm() }
}

/// The dowel passes a member so stiff and thin that it only pins it: a thin steel plate.
///
/// AWC TR12 (2015), Table 1-1, the limit of [`rotating_end`] for embedment without bound and no
/// depth: all zero.
///
/// One source: EN 1995-1-1, Eq. (8.9), to which it falls back when the gap closes, less the factor
/// 1.15; the report itself has no steel plate.
#[must_use]
pub fn pinned_end() -> End {
    End { a: 0.0, b: 0.0, c: 0.0 }
}

/// `P`: load at which a dowel between two ends yields across a gap.
///
/// AWC TR12 (2015), Table 1-1: positive root of `A P² + B P - C = 0` with `A` and `C` the sums of
/// both ends and `B` the same plus the gap `g`. Ends without embedment (`q = 0`) carry nothing.
///
/// Confirmed: Example 3.1 of the report, seven variants with gaps of up to half an inch.
#[must_use]
pub fn yield_load(side: End, main: End, gap: Length) -> Force {
    let a = side.a + main.a;
    let b = side.b + main.b + gap.max(Length::ZERO).mm();
    let c = side.c + main.c;
    if !a.is_finite() || c <= 0.0 {
        return Force::ZERO;
    }
    // The root written without a difference of near-equal numbers: exact for long gaps too.
    Force::from_n(2.0 * c / (b + (b * b + 4.0 * a * c).sqrt()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn timber_without_embedment_carries_nothing() {
        let none = LineLoad::ZERO;
        let m = Moment::from_nmm(2e4);
        let load = yield_load(clamped_end(m), hinged_end(none, m), Length::ZERO);
        assert_eq!(load, Force::ZERO);
        let load =
            yield_load(pinned_end(), rotating_end(none, Length::from_mm(40.0)), Length::ZERO);
        assert_eq!(load, Force::ZERO);
    }
}
