//! Loads moved over a rafter against moving them in small steps.

use hookspan::checks::rafter;
use hookspan::units::{Force, Length, LineLoad};
use proptest::prelude::*;

use crate::{Tally, runner};

const STEPS: u32 = 400;

/// Moment at `x` and larger end shear of a span with some loads on it.
fn on_span(span: f64, line_load: f64, loads: &[[f64; 2]], x: f64) -> [f64; 2] {
    let on = || loads.iter().filter(|[a, _]| (0.0..=span).contains(a));
    let left = line_load * span / 2.0 + on().map(|[a, p]| p * (span - a) / span).sum::<f64>();
    let right = line_load * span / 2.0 + on().map(|[a, p]| p * a / span).sum::<f64>();
    let before: f64 = on().filter(|[a, _]| *a < x).map(|[a, p]| p * (x - a)).sum();
    let moment = left * x - line_load * x * x / 2.0 - before;
    [moment.abs(), left.abs().max(right.abs())]
}

#[test]
fn no_position_of_a_train_is_worse() {
    let [trains, lifting] = std::array::from_fn(|_| Tally::default());
    let load = (0.0..8.0, 0.2..3.0);
    let cases = (1.0..6.0, 0.0..1.0, any::<bool>(), prop::collection::vec(load, 1..7));
    runner(60)
        .run(&cases, |(span, line_load, lifts, loads)| {
            let sign = if lifts { -1.0 } else { 1.0 };
            let train: Vec<_> =
                loads.iter().map(|(y, p)| (Length::from_m(*y), Force::from_kn(sign * p))).collect();
            let q = LineLoad::from_kn_per_m(line_load);
            let effects = rafter::effects(Length::from_m(span), q, &train);
            let mut worst = [0.0_f64; 2];
            for step in 0..=STEPS {
                let start = -span + (8.0 + span) * f64::from(step) / f64::from(STEPS);
                let moved: Vec<_> = loads.iter().map(|(y, p)| [y - start, sign * p]).collect();
                for [x, _] in moved.iter().filter(|[x, _]| (0.0..=span).contains(x)) {
                    let found = on_span(span, line_load, &moved, *x);
                    worst = [0, 1].map(|i| worst[i].max(found[i]));
                }
            }
            let [moment, shear] = [effects.moment.knm(), effects.shear.kn()];
            prop_assert!(moment >= worst[0] * (1.0 - 1e-9), "{moment} below {}", worst[0]);
            prop_assert!(shear >= worst[1] * (1.0 - 1e-9), "{shear} below {}", worst[1]);
            let at_rest = [line_load * span * span / 8.0, line_load * span / 2.0];
            prop_assert!(moment <= (worst[0] * 1.05).max(at_rest[0] * 1.05) + 0.01);
            prop_assert!(shear <= (worst[1] + 0.3).max(at_rest[1]) * 1.05);
            trains.see(true);
            lifting.see(lifts);
            Ok(())
        })
        .unwrap();
    trains.at_least(60, "trains of loads");
    lifting.at_least(15, "of them lifting");
}
