//! The lever rule: a force shared between two supports.
//!
//! Applied along both sides of a plate on four points it keeps the force and its moments about both
//! axes, and `Σ F·x·y` as well: no warping is left over, which takes the plate as soft in twist.
//!
//! **Layer.** Knows no module and no rail: places come in as plain lengths.

use crate::units::Length;

/// Share of a force at `at` that the support at `own` takes when there is one more at `other`:
/// `(other - at) / (other - own)`.
///
/// Beyond the supports one share is above 1 and the other one negative: the far support is lifted
/// by what presses, and the other way round.
#[must_use]
pub fn share(at: Length, own: Length, other: Length) -> f64 {
    (other - at) / (other - own)
}

/// Pressing force on the support at `own` from a force of 1 down the slope, which acts this high
/// above both supports: `height / (other - own)`, heights up the slope being positive. The other
/// support is lifted as much.
#[must_use]
pub fn couple(height: Length, own: Length, other: Length) -> f64 {
    height / (other - own)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_force_beyond_a_support_lifts_the_other_one() {
        let [lower, upper, at] = [500.0, 1500.0, 100.0].map(Length::from_mm);
        assert!((share(at, lower, upper) - 1.4).abs() < 1e-12);
        assert!((share(at, upper, lower) + 0.4).abs() < 1e-12);
    }
}
