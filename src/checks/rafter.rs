//! The rafter under its hooks.
//!
//! **Model.** One span, simply supported, of the longest free length the caller knows. Where along
//! the slope it lies is not known, so the hooks of the rafter are run over it as a train of loads
//! and the worst position counts: for bending every load is set where the moment under it is
//! largest (without a line load the middle of the span halves the way between load and
//! resultant), for shear each load over a support. A line load acts on the whole span: the
//! permanent load of the covering, and the snow on the part of the rafter no module covers, spread
//! over its length. Lifting trains are relieved by nothing but the permanent load at 1.00.
//!
//! **Left out.** Wind on bare tiles, axial force from the roof's own statics, the supports, deflection.

use crate::units::{Force, Length, LineLoad, Moment};

/// Design moment and shear of a rafter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RafterEffects {
    /// Largest moment, either sense.
    pub moment: Moment,
    /// Largest shear, either sense.
    pub shear: Force,
}

/// Hooks that are run over a span as a train of loads: where they are, whatever they carry.
#[derive(Debug, Clone)]
pub struct Train {
    span: f64,
    places: Vec<f64>,
    /// Places of the span's start, ascending, at which a load stands over either support: there,
    /// and only there, other loads come onto the span.
    starts: Vec<f64>,
}

impl Train {
    /// Hooks at these distances along the slope, in any order, and a span.
    #[must_use]
    pub fn new(span: Length, hooks: impl Iterator<Item = Length>) -> Self {
        let span = span.mm();
        let places: Vec<f64> = hooks.map(Length::mm).collect();
        let mut starts: Vec<f64> = places.iter().flat_map(|y| [*y, y - span]).collect();
        starts.sort_by(f64::total_cmp);
        Self { span, places, starts }
    }

    /// Moment and shear nothing in [`Self::effects`] exceeds: all hooks in the middle, or all over
    /// one support.
    #[must_use]
    pub fn at_most(&self, uniform: LineLoad, forces: &[Force]) -> RafterEffects {
        /// Room for the rounding of what is bounded.
        const ROUNDING: f64 = 1.0 + 1e-9;
        let (l, q) = (self.span, uniform.kn_per_m().abs());
        let sum: f64 = forces.iter().map(|f| f.n().abs()).sum();
        RafterEffects {
            moment: Moment::from_nmm((q * l * l / 8.0 + sum * l / 4.0) * ROUNDING),
            shear: Force::from_n((q * l / 2.0 + sum) * ROUNDING),
        }
    }

    /// Runs the hooks, each with its force square to the roof, over the span, which also carries a
    /// line load.
    #[must_use]
    pub fn effects(&self, uniform: LineLoad, forces: &[Force]) -> RafterEffects {
        let l = self.span;
        let q = uniform.kn_per_m();
        let mut moment = (q * l * l / 8.0).abs();
        let mut shear = (q * l / 2.0).abs();
        // Loads on a span that starts at `start`, and what is on its left support.
        let on = |start: f64| {
            let loads = self.places.iter().zip(forces).map(move |(y, f)| (y - start, f.n()));
            loads.filter(move |(a, _)| (-1e-9..=l + 1e-9).contains(a))
        };
        let left = |start: f64| q * l / 2.0 + on(start).map(|(a, f)| f * (l - a) / l).sum::<f64>();
        let moment_at = |start: f64, left: f64, x: f64| {
            let before = on(start).filter(|(a, _)| *a < x).map(|(a, f)| f * (x - a)).sum::<f64>();
            (left * x - q * x * x / 2.0 - before).abs()
        };
        for start in &self.starts {
            let left = left(*start);
            let total: f64 = q * l + on(*start).map(|(_, f)| f).sum::<f64>();
            shear = shear.max(left.abs()).max((total - left).abs());
            for x in on(*start).map(|(a, _)| a).chain([l / 2.0]) {
                moment = moment.max(moment_at(*start, left, x));
            }
        }
        // Between two such places the same loads are on it: each of them is set where the moment
        // under it is largest.
        for pair in self.starts.windows(2) {
            let start = f64::midpoint(pair[0], pair[1]);
            let sum: f64 = on(start).map(|(_, f)| f).sum();
            let about: f64 = on(start).map(|(a, f)| f * a).sum();
            for (a, _) in on(start) {
                let x = (q * l * l / 2.0 + sum * (l + a) - about) / (q * l + 2.0 * sum);
                if (0.0..=l).contains(&x) {
                    let start = start + a - x;
                    moment = moment.max(moment_at(start, left(start), x));
                }
            }
        }
        RafterEffects { moment: Moment::from_nmm(moment), shear: Force::from_n(shear) }
    }
}

/// Runs a train of hook forces over a span that also carries a line load.
///
/// `train` lists distance along the slope and force square to the roof, in any order.
#[must_use]
pub fn effects(span: Length, uniform: LineLoad, train: &[(Length, Force)]) -> RafterEffects {
    let forces: Vec<Force> = train.iter().map(|(_, force)| *force).collect();
    Train::new(span, train.iter().map(|(y, _)| *y)).effects(uniform, &forces)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two equal loads P a distance c apart on a span L: the largest moment is P/(2L)·(L − c/2)²
    /// (any handbook's table of moving loads). P = 1 kN, L = 4 m, c = 1 m: 1.53125 kN·m.
    #[test]
    fn two_moving_loads_as_the_handbooks_have_them() {
        let train = [1.0, 2.0].map(|y| (Length::from_m(y), Force::from_kn(1.0)));
        let effects = effects(Length::from_m(4.0), LineLoad::ZERO, &train);
        assert!((effects.moment.knm() - 1.531_25).abs() < 1e-9);
        assert!((effects.shear.kn() - 1.75).abs() < 1e-9);
    }
}
