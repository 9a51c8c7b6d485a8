//! The only rounding: what is printed, and nothing that is computed with.

/// A length or coordinate in mm, to a hundredth.
#[must_use]
pub fn mm(value: f64) -> f64 {
    to(value, 100.0)
}

/// A force in kN or a pressure in kN/m², to four decimals.
#[must_use]
pub fn load(value: f64) -> f64 {
    to(value, 1e4)
}

/// A mass in kg, to a gram.
#[must_use]
pub fn kg(value: f64) -> f64 {
    to(value, 1e3)
}

/// A share in percent, to a hundredth.
#[must_use]
pub fn percent(value: f64) -> f64 {
    to(value, 100.0)
}

/// A factor or coefficient, to six decimals.
#[must_use]
pub fn factor(value: f64) -> f64 {
    to(value, 1e6)
}

/// A figure of the trace, to nine significant digits: whoever calculates with it meets the product's
/// figures. A figure that is not finite, such as a demand against nothing, is told as 9999, as a
/// utilisation is.
#[must_use]
pub fn traced(value: f64) -> f64 {
    let finite = if value.is_finite() { value } else { 9999.0_f64.copysign(value) };
    clean(format!("{finite:.8e}").parse().unwrap_or(finite))
}

/// A utilisation, upwards to four decimals: what prints as 1.0 is no more than 1. A billionth is
/// let go first, so that the rounding of the arithmetic itself does not show.
#[must_use]
pub fn utilisation(value: f64) -> f64 {
    // JSON has no infinity: a demand against nothing prints as a figure nobody takes for a pass.
    clean((value.min(9999.0) * 1e4 - 1e-5).ceil() / 1e4)
}

/// A load up to which something holds, in kN/m², downwards to four decimals. A part of a thousandth of
/// these is let go first, so that the rounding of the arithmetic itself does not show.
#[must_use]
pub fn borne(value: f64) -> f64 {
    clean((value * 1e4 + 1e-3).floor() / 1e4)
}

fn to(value: f64, steps: f64) -> f64 {
    clean((value * steps).round() / steps)
}

/// No minus in front of a zero.
fn clean(value: f64) -> f64 {
    value + 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_utilisation_over_one_never_prints_as_one() {
        assert!(utilisation(1.000_01) > 1.0);
        assert!((utilisation(1.0) - 1.0).abs() < 1e-12);
        assert!(utilisation(0.0).is_sign_positive());
    }
}
