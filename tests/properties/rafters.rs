//! Loads moved over a rafter against moving them in small steps; more snow and what it uses of a
//! rafter.

use hookspan::checks::rafter::{self, Train};
use hookspan::units::{Force, Length, LineLoad};
use hookspan::wire::layout::{RafterAnswer, RafterUtilisation};
use proptest::prelude::*;

use crate::built_jobs::{as_drawn, check, drafts, lay_out};
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

/// Moment at `x` of a span under a line load from `a` to `b`: the area under the influence line.
fn under_line(span: f64, [a, b]: [f64; 2], w: f64, x: f64) -> f64 {
    let area_to = |y: f64| {
        let y = y.clamp(0.0, span);
        let rising = |y: f64| y * y / 2.0 * (span - x) / span;
        let falling = |y: f64| x * (y - y * y / (2.0 * span));
        if y <= x { rising(y) } else { rising(x) + falling(y) - falling(x) }
    };
    w * (area_to(b) - area_to(a))
}

/// Reaction of the lower support under the same.
fn reaction_to_line(span: f64, [a, b]: [f64; 2], w: f64) -> f64 {
    let [a, b] = [a, b].map(|y| y.clamp(0.0, span));
    w * (b - a) * (span - f64::midpoint(a, b)) / span
}

#[test]
fn no_position_under_pieces_of_line_load_is_worse() {
    const SLOPE: f64 = 6.0;
    const FAR: f64 = 100.0;
    let [positions, reversed] = std::array::from_fn(|_| Tally::default());
    let borders = prop::collection::vec(0.0..SLOPE, 3).prop_map(|mut borders: Vec<f64>| {
        borders.sort_by(f64::total_cmp);
        borders
    });
    let hooks = prop::collection::vec((0.0..SLOPE, -2.0..3.0), 0..5);
    let cases = (1.0..5.5, borders, prop::array::uniform4(-1.0..3.0), hooks);
    runner(60)
        .run(&cases, |(span, borders, w, hooks)| {
            let borders_m: Vec<_> = borders.iter().copied().map(Length::from_m).collect();
            let train = Train::new(
                Length::from_m(span),
                [Length::ZERO, Length::from_m(SLOPE)],
                hooks.iter().map(|(y, _)| Length::from_m(*y)),
                &borders_m,
            );
            let forces: Vec<_> = hooks.iter().map(|(_, f)| Force::from_kn(*f)).collect();
            let pieces = w.map(LineLoad::from_kn_per_m);
            let effects = train.effects(&pieces, &forces);
            let bound = train.at_most(&pieces, &forces);
            prop_assert!(effects.moment <= bound.moment && effects.shear <= bound.shear);

            let ends: Vec<f64> =
                [-FAR].into_iter().chain(borders.iter().copied()).chain([FAR]).collect();
            let (mut moment, mut shear) = (0.0_f64, 0.0_f64);
            for step in 0..=STEPS {
                let start = (SLOPE - span) * f64::from(step) / f64::from(STEPS);
                let lines =
                    || ends.windows(2).zip(w).map(|(y, w)| ([y[0] - start, y[1] - start], w));
                let loads: Vec<[f64; 2]> = hooks.iter().map(|(y, f)| [y - start, *f]).collect();
                for section in 0..=40 {
                    let x = span * f64::from(section) / 40.0;
                    let of_lines: f64 = lines().map(|(ab, w)| under_line(span, ab, w, x)).sum();
                    let on = loads.iter().filter(|[a, _]| (0.0..=span).contains(a));
                    let of_hooks: f64 =
                        on.map(|[a, f]| f * a.min(x) * (span - a.max(x)) / span).sum();
                    moment = moment.max((of_lines + of_hooks).abs());
                }
                let of_lines: f64 = lines().map(|(ab, w)| reaction_to_line(span, ab, w)).sum();
                let on = loads.iter().filter(|[a, _]| (0.0..=span).contains(a));
                let of_hooks: f64 = on.map(|[a, f]| f * (span - a) / span).sum();
                shear = shear.max((of_lines + of_hooks).abs());
                positions.see(true);
            }
            let [found, found_shear] = [effects.moment.knm(), effects.shear.kn()];
            prop_assert!(found >= moment * (1.0 - 1e-9), "{found} below {moment}");
            prop_assert!(found_shear >= shear * (1.0 - 1e-9), "{found_shear} below {shear}");
            // What samples may miss, and the 41 sections of this test.
            prop_assert!(found <= moment * 1.01 + 0.02, "{found} far above {moment}");
            reversed.see(w.iter().any(|w| *w < 0.0));
            Ok(())
        })
        .unwrap();
    positions.at_least(10_000, "positions of spans");
    reversed.at_least(20, "spans with pieces that lift");
}

/// Hooks stay where they are, so that nothing but the load changes.
#[test]
fn more_snow_never_uses_less_of_the_worst_rafter() {
    /// Utilisations of answers are rounded.
    const ROUNDING: f64 = 1e-4;
    let [rafters, rises] = std::array::from_fn(|_| Tally::default());
    let cases = (drafts(), 2.0..5.0, 1.0..3.0);
    runner(40)
        .run(&cases, |(draft, span, scale)| {
            let mut request = draft.request();
            request.roof.rafters.span_m = Some(span);
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            let under = |scale: f64| {
                let mut built = as_drawn(&request, &answer);
                let snow = &mut built.site.snow.ground_load_kn_per_m2;
                *snow = snow.map(|load| load * scale);
                let rafters = check(&built).rafters;
                let used = |of: fn(&RafterAnswer) -> Option<&RafterUtilisation>| {
                    rafters.iter().filter_map(of).map(|used| used.max).fold(0.0, f64::max)
                };
                [used(|r| r.utilisation.as_ref()), used(|r| r.before.as_ref())]
            };
            for (less, more) in under(1.0).into_iter().zip(under(scale)) {
                prop_assert!(more >= less - ROUNDING, "{less} falls to {more}");
                rafters.see(less > 0.0);
                rises.see(more > less);
            }
            Ok(())
        })
        .unwrap();
    rafters.at_least(50, "largest utilisations");
    rises.at_least(30, "of them higher");
}
