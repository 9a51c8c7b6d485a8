//! Tables 8.1 and 8.2: screws in a row, and their distances, under lateral load.

use super::EN1995;
use super::screws_lateral::Predrilling;
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Length};

/// `n_ef`: how many of `n` screws in a row along the grain count under lateral load along it.
///
/// EN 1995-1-1:2004, 8.3.1.1(8), Eq. (8.17) and Table 8.1, nail rules (`d_ef ≤ 6 mm`):
/// `n_ef = n^k_ef` with `k_ef` 1.0 from `a_1 = 14 d`, 0.85 at `10 d`, 0.7 at `7 d` and, predrilled
/// only, 0.5 at `4 d`; linear between.
///
/// One source: a clause-by-clause library.
///
/// # Errors
/// [`NotCovered`] for two or more screws closer than `7 d`, predrilled `4 d`.
pub fn effective_number_in_row(
    n: usize,
    a1: Length,
    d: Length,
    predrilled: Predrilling,
) -> Result<f64, NotCovered> {
    if n <= 1 {
        return Ok(n as f64);
    }
    let clause = Clause::new(EN1995, "Table 8.1");
    let s = a1 / d;
    let k_ef = match predrilled {
        _ if s >= 14.0 => 1.0,
        _ if s >= 10.0 => 0.85 + 0.15 * (s - 10.0) / 4.0,
        _ if s >= 7.0 => 0.7 + 0.15 * (s - 7.0) / 3.0,
        Predrilling::Predrilled if s >= 4.0 => 0.5 + 0.2 * (s - 4.0) / 3.0,
        Predrilling::Predrilled => {
            return Err(NotCovered { clause, condition: "a_1 >= 4 d" });
        }
        Predrilling::None => {
            return Err(NotCovered { clause, condition: "a_1 >= 7 d without predrilling" });
        }
    };
    Ok((n as f64).powf(k_ef))
}

/// Least distances of screws under lateral load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LateralDistances {
    /// `a_1`: between screws along the grain.
    pub a1: Length,
    /// `a_2`: between screws across the grain.
    pub a2: Length,
    /// `a_3,t`: to an end the load points at.
    pub a3_t: Length,
    /// `a_3,c`: to an end the load points away from.
    pub a3_c: Length,
    /// `a_4,t`: to an edge the load points at.
    pub a4_t: Length,
    /// `a_4,c`: to an edge the load does not point at.
    pub a4_c: Length,
}

impl LateralDistances {
    /// Under a steel plate screws may stand nearer to each other: 8.3.1.4(1), 0.7 times `a_1` and
    /// `a_2` of Table 8.2.
    #[must_use]
    pub fn under_steel_plates(self) -> Self {
        Self { a1: self.a1 * 0.7, a2: self.a2 * 0.7, ..self }
    }
}

/// `n_ef`: how many of `n` thick screws in a row along the grain count under lateral load along it.
///
/// EN 1995-1-1:2004, 8.5.1.1(4), Eq. (8.34), which 8.7.1(5) gives to screws with `d_ef > 6 mm`:
/// `min(n, n^0.9 (a_1 / 13 d)^0.25)`, with the outer diameter for `d`, which is safe.
///
/// One source: a clause-by-clause library.
#[must_use]
pub fn effective_number_of_bolts(n: usize, a1: Length, d: Length) -> f64 {
    let n = n as f64;
    n.min(n.powf(0.9) * (a1 / (13.0 * d)).powf(0.25))
}

/// Least distances of thick screws under lateral load at an angle `α` to the grain.
///
/// EN 1995-1-1:2004, 8.5.1.1(3), Table 8.4, which 8.7.1(5) gives to screws with `d_ef > 6 mm`:
/// `a_1 = (4 + cos α) d`, `a_2 = 4 d`, `a_3,t = max(7 d, 80 mm)`,
/// `a_3,c = max((1 + 6 sin α) d, 4 d)`, `a_4,t = max((2 + 2 sin α) d, 3 d)`, `a_4,c = 3 d`. Sine and
/// cosine are taken positive; `d` is the outer diameter.
///
/// Confirmed: two libraries.
#[must_use]
pub fn bolt_distances(d: Length, load_to_grain: Angle) -> LateralDistances {
    let (sin, cos) = (load_to_grain.sin().abs(), load_to_grain.cos().abs());
    LateralDistances {
        a1: d * (4.0 + cos),
        a2: d * 4.0,
        a3_t: (d * 7.0).max(Length::from_mm(80.0)),
        a3_c: (d * (1.0 + 6.0 * sin)).max(d * 4.0),
        a4_t: (d * (2.0 + 2.0 * sin)).max(d * 3.0),
        a4_c: d * 3.0,
    }
}

/// Least distances of screws under lateral load at an angle `α` to the grain.
///
/// EN 1995-1-1:2004, 8.3.1.2(5), Table 8.2, for `ρ_k ≤ 420 kg/m³`, on the outer diameter `d`:
///
/// | | not predrilled | predrilled |
/// |---|---|---|
/// | `a_1` | `(5 + 7 cos α) d`, below 5 mm `(5 + 5 cos α) d` | `(4 + cos α) d` |
/// | `a_2` | `5 d` | `(3 + sin α) d` |
/// | `a_3,t` | `(10 + 5 cos α) d` | `(7 + 5 cos α) d` |
/// | `a_3,c` | `10 d` | `7 d` |
/// | `a_4,t` | `(5 + 5 sin α) d`, below 5 mm `(5 + 2 sin α) d` | `(3 + 4 sin α) d`, `(3 + 2 sin α) d` |
/// | `a_4,c` | `5 d` | `3 d` |
///
/// Sine and cosine are taken positive. The reduction for steel plates is not in it.
///
/// Confirmed: a handbook and a library. That screws with `d_ef ≤ 6 mm` use this table with their
/// outer diameter follows the same two sources.
#[must_use]
pub fn lateral_distances(
    d: Length,
    predrilled: Predrilling,
    load_to_grain: Angle,
) -> LateralDistances {
    let (sin, cos) = (load_to_grain.sin().abs(), load_to_grain.cos().abs());
    let thin = d < Length::from_mm(5.0);
    match predrilled {
        Predrilling::None => LateralDistances {
            a1: d * (5.0 + if thin { 5.0 } else { 7.0 } * cos),
            a2: d * 5.0,
            a3_t: d * (10.0 + 5.0 * cos),
            a3_c: d * 10.0,
            a4_t: d * (5.0 + if thin { 2.0 } else { 5.0 } * sin),
            a4_c: d * 5.0,
        },
        Predrilling::Predrilled => LateralDistances {
            a1: d * (4.0 + cos),
            a2: d * (3.0 + sin),
            a3_t: d * (7.0 + 5.0 * cos),
            a3_c: d * 7.0,
            a4_t: d * (3.0 + if thin { 2.0 } else { 4.0 } * sin),
            a4_c: d * 3.0,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_too_close_is_not_covered() {
        let d = Length::from_mm(8.0);
        let row = |n, a1: f64, how| effective_number_in_row(n, a1 * d, d, how);
        assert!(row(2, 6.9, Predrilling::None).is_err());
        assert!(row(2, 3.9, Predrilling::Predrilled).is_err());
        assert_eq!(row(1, 0.0, Predrilling::None), Ok(1.0));
        assert_eq!(row(3, 14.0, Predrilling::None), Ok(3.0));
    }

    /// Table 8.1 between its rows: 0.925 at 12 d, 0.869 at 10.5 d; from 14 d on all count.
    #[test]
    fn a_row_counts_as_the_table_has_it_between_its_rows() {
        let d = Length::from_mm(8.0);
        let two = |a1: f64| {
            let found = effective_number_in_row(2, a1 * d, d, Predrilling::Predrilled);
            found.expect("far enough apart").log2()
        };
        for (a1, k_ef) in [(14.5, 1.0), (14.0, 1.0), (12.0, 0.925), (10.5, 0.868_75), (8.5, 0.775)]
        {
            assert!((two(a1) - k_ef).abs() < 1e-9, "{} at {a1} d", two(a1));
        }
    }

    /// Table 8.4 for 12 mm: at 90° 84 mm to an end the load points at, 7 d to one it leaves, 4 d to an
    /// edge it points at; at 30° the least of 4 d and 3 d govern. For 8 mm the least end is 80 mm.
    #[test]
    fn thick_screws_stand_as_table_8_4_has_it() {
        let of = |d: f64, angle: f64| bolt_distances(Length::from_mm(d), Angle::from_deg(angle));
        let across = of(12.0, 90.0);
        let near = |have: Length, want: f64| {
            assert!((have.mm() - want).abs() < 1e-9, "{} and not {want}", have.mm());
        };
        near(across.a3_t, 84.0);
        near(across.a3_c, 84.0);
        near(across.a4_t, 48.0);
        let flat = of(12.0, 30.0);
        near(flat.a3_c, 48.0);
        near(flat.a4_t, 36.0);
        near(of(8.0, 0.0).a3_t, 80.0);
        let steel = across.under_steel_plates();
        near(steel.a1, 0.7 * across.a1.mm());
        near(steel.a2, 0.7 * 48.0);
    }

    /// Table 8.2, screws that are not predrilled, across the grain: (5 + 2) d below 5 mm, (5 + 5) d from
    /// there on.
    #[test]
    fn five_millimetres_part_thin_screws_from_others() {
        let edge = |d: f64| {
            let angle = Angle::from_deg(90.0);
            lateral_distances(Length::from_mm(d), Predrilling::None, angle).a4_t.mm()
        };
        assert!((edge(4.9) - 34.3).abs() < 1e-9 && (edge(5.2) - 52.0).abs() < 1e-9);
    }
}
