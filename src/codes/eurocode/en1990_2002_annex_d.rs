//! EN 1990:2002+A1:2005, Annex D: characteristic values from a series of tests.
//!
//! **Left out.** Design values straight from tests (D7.3, Table D2); resistance models calibrated by
//! tests (D8); the conversion factor `η_d`: results are taken to be those of the conditions of use.

use crate::codes::vocabulary::{Characteristic, Distribution, Series};
use crate::codes::{Clause, NotCovered};

const EN1990: &str = "EN 1990:2002+A1:2005";
const TABLE: Clause = Clause::new(EN1990, "Annex D, Table D1");

/// Whether the coefficient of variation is known before the tests.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Variation {
    /// From much earlier experience of the same.
    Known,
    /// From the series alone.
    Unknown,
}

/// Rows of Table D1: number of tests, `k_n` with `V_X` known, `k_n` with `V_X` unknown.
const ROWS: [(usize, f64, Option<f64>); 10] = [
    (1, 2.31, None),
    (2, 2.01, None),
    (3, 1.89, Some(3.37)),
    (4, 1.83, Some(2.63)),
    (5, 1.80, Some(2.33)),
    (6, 1.77, Some(2.18)),
    (8, 1.74, Some(2.00)),
    (10, 1.72, Some(1.92)),
    (20, 1.68, Some(1.76)),
    (30, 1.67, Some(1.73)),
];

/// `k_n`: factor on the scatter of `n` tests for the 5 % characteristic value.
///
/// EN 1990:2002 Annex D, D7.2, Table D1. Between two rows the straight line lies above the curve of
/// the prediction method, so it is safe; beyond 30 tests the factor of 30 stays.
///
/// Confirmed: two public programs that share no code print the table; quantile of Student's
/// distribution times `√(1 + 1/n)` gives every entry to within 0.02, the table lying below it.
///
/// # Errors
/// [`NotCovered`] for no test at all, and with `V_X` unknown for fewer than three.
pub fn fractile_factor(n: usize, variation: Variation) -> Result<f64, NotCovered> {
    let of = |(_, known, unknown): (usize, f64, Option<f64>)| match variation {
        Variation::Known => Some(known),
        Variation::Unknown => unknown,
    };
    let row = |(tests, ..): &&(usize, f64, Option<f64>)| *tests <= n;
    let below = ROWS.iter().rfind(row).and_then(|row| Some((row.0, of(*row)?)));
    let condition = match variation {
        Variation::Known => "there is a test",
        Variation::Unknown => "there are three tests, or the coefficient of variation is known",
    };
    let (fewer, k) = below.ok_or(NotCovered { clause: TABLE, condition })?;
    let above = ROWS.iter().find(|(tests, ..)| *tests > n).and_then(|row| Some((row.0, of(*row)?)));
    Ok(above
        .map_or(k, |(more, k_more)| k + (k_more - k) * (n - fewer) as f64 / (more - fewer) as f64))
}

/// `X_k(n)`: characteristic value of a series of tests.
///
/// EN 1990:2002 Annex D, D7.2, Eqs. (D.1) and (D.2): `m_X·(1 - k_n·V_X)`, or for a lognormal
/// distribution `exp(m_y - k_n·s_y)` with mean `m_y` of the logarithms and their deviation `s_y`, which
/// is `√ln(V_X² + 1)` where `V_X` is known. An unknown `V_X` counts as 0.10 at least (D7.1(5)). No
/// value is below zero.
///
/// Partly from memory: the equation of the normal distribution by two public programs; that of the
/// lognormal one and the least variation are not.
///
/// # Errors
/// [`NotCovered`] as [`fractile_factor`], and where a result is not above zero.
pub fn characteristic_value(series: &Series) -> Result<Characteristic, NotCovered> {
    const CLAUSE: Clause = Clause::new(EN1990, "Annex D, D7.2");
    let Series { values, distribution, known_variation } = series;
    CLAUSE.covers(values.iter().all(|x| *x > 0.0), "every result is above zero")?;
    let n = values.len();
    let variation = match known_variation {
        Some(_) => Variation::Known,
        None => Variation::Unknown,
    };
    let k_n = fractile_factor(n, variation)?;
    let m_x = mean(values);
    let (v_x, value) = match distribution {
        Distribution::Normal => {
            let v_x = known_variation.unwrap_or_else(|| least(deviation(values) / m_x));
            (v_x, (m_x * (1.0 - k_n * v_x)).max(0.0))
        }
        Distribution::Lognormal => {
            let y: Vec<f64> = values.iter().map(|x| x.ln()).collect();
            // Of a lognormal distribution V_X² is exp(s_y²) - 1.
            let v_x =
                known_variation.unwrap_or_else(|| least(deviation(&y).powi(2).exp_m1().sqrt()));
            let s_y = v_x.powi(2).ln_1p().sqrt();
            (v_x, (mean(&y) - k_n * s_y).exp())
        }
    };
    Ok(Characteristic { tests: n, mean: m_x, variation: v_x, factor: k_n, value, clause: CLAUSE })
}

/// An unknown coefficient of variation is not taken to be less than this.
const LEAST_UNKNOWN: f64 = 0.10;

const fn least(v_x: f64) -> f64 {
    v_x.max(LEAST_UNKNOWN)
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// `s`: deviation of a sample, with `n - 1`.
fn deviation(values: &[f64]) -> f64 {
    let m = mean(values);
    let squares: f64 = values.iter().map(|x| (x - m).powi(2)).sum();
    (squares / (values.len() as f64 - 1.0)).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn more_tests_never_give_a_larger_factor() {
        for variation in [Variation::Known, Variation::Unknown] {
            let factors: Vec<f64> =
                (1..60).filter_map(|n| fractile_factor(n, variation).ok()).collect();
            assert!(factors.windows(2).all(|pair| pair[0] >= pair[1]));
            assert!(factors.iter().all(|k| *k > 1.64));
        }
        assert!(fractile_factor(2, Variation::Unknown).is_err());
        assert!(fractile_factor(0, Variation::Known).is_err());
    }

    #[test]
    fn a_series_without_scatter_counts_as_one_with_a_tenth() {
        let series = |known_variation, distribution| Series {
            values: vec![2.0; 5],
            distribution,
            known_variation,
        };
        let of = |known, distribution| {
            characteristic_value(&series(known, distribution)).expect("covered").value
        };
        assert!((of(None, Distribution::Normal) - 2.0 * (1.0 - 2.33 * 0.1)).abs() < 1e-12);
        assert!((of(Some(0.1), Distribution::Normal) - 2.0 * (1.0 - 1.8 * 0.1)).abs() < 1e-12);
        // √ln 1.01 = 0.099751.
        let lognormal = 2.0 * (-2.33_f64 * 0.099_751).exp();
        assert!((of(None, Distribution::Lognormal) - lognormal).abs() < 1e-5);
    }

    #[test]
    fn what_failed_at_nothing_gives_no_value() {
        let none = Series {
            values: vec![0.0, 2.0, 2.1],
            distribution: Distribution::Lognormal,
            known_variation: None,
        };
        assert!(characteristic_value(&none).is_err());
    }

    /// Three results so far apart that `1 - k_n V_x` is below zero, and none that is nothing.
    #[test]
    fn a_series_that_scatters_wildly_has_no_strength() {
        let of = |values: [f64; 3]| {
            characteristic_value(&Series {
                values: values.to_vec(),
                distribution: Distribution::Normal,
                known_variation: None,
            })
        };
        assert!(of([1.0, 5.0, 9.0]).expect("covered").value.abs() < 1e-12);
        assert!(of([0.05, 0.06, 0.06]).is_ok());
    }
}
