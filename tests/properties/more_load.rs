//! More snow on a roof without wind, or more wind, never makes anything easier.
//!
//! Every utilisation is a convex function of the loads and 0 without any. So what lies between two
//! loads uses no more than the larger of both, and a part of a load no more than all of it.
//!
//! * **Wind.** Take a combination with wind and let all wind grow. What it was before lies between what
//!   it is now and the same without wind. That is among the combinations, or a part of one: weight with
//!   the same snow or more, or a share of the full weight; timber that bears the wind bears these no
//!   better. So the largest utilisation of a check over all combinations never falls.
//! * **Snow.** The same holds among the combinations without wind. With wind it does not: snow can
//!   relieve what the wind lifts or presses elsewhere, and no combination has pressing wind and no snow.
//!   What never falls is the larger of both: all combinations as they are, and all without their snow.
//!
//! Loads grow in proportion here, drifts with the rest. More snow on the ground raises a drift only as
//! far as the wall is high.

use hookspan::checks::Check;
use hookspan::codes::vocabulary::Factors;
use hookspan::model::layout::LayoutRequest;
use hookspan::placement::Job;
use hookspan::placement::laid::Layout;
use hookspan::placement::layout::lay_out;
use hookspan::placement::segments::segment;
use proptest::prelude::*;

use crate::jobs::{any_job, beside_walls, job, plain_job};
use crate::{Tally, runner};

/// What is lost by rounding.
const ROUNDING: f64 = 1e-9;

fn under(request: &LayoutRequest, snow: f64) -> Layout {
    let mut request = request.clone();
    request.site.wind.peak_pressure_kn_per_m2 = Some(0.0);
    request.site.snow.ground_load_kn_per_m2 = Some(snow);
    lay_out(&job(&request))
}

#[test]
fn more_snow_never_lowers_a_utilisation() {
    let [hooks, rises] = std::array::from_fn(|_| Tally::default());
    let cases = (plain_job(), 0.0..3.0, 0.01..3.0);
    runner(80)
        .run(&cases, |(draft, snow, more)| {
            let request = draft.request();
            let (less, more) = (under(&request, snow), under(&request, snow + more));
            for (a, b) in less.segments().zip(more.segments()) {
                let all: Vec<usize> = (0..a.segment.candidates.len()).collect();
                let results = a.segment.check_all(&all).zip(b.segment.check_all(&all));
                let Some((a, b)) = results else { continue };
                let rail = [(a.bending, b.bending), (a.deflection, b.deflection)];
                let each = a.hooks.iter().zip(&b.hooks).flat_map(|(a, b)| {
                    [(a.hook, b.hook), (a.screws, b.screws), (a.clearance, b.clearance)]
                });
                for (a, b) in each.chain(rail) {
                    let (a, b) = (a.utilisation, b.utilisation);
                    prop_assert!(b >= a * (1.0 - ROUNDING), "{a} falls to {b}");
                    hooks.see(true);
                    rises.see(b > a);
                }
            }
            Ok(())
        })
        .unwrap();
    hooks.at_least(2000, "utilisations under more snow");
    rises.at_least(1000, "of them higher");
}

#[test]
fn more_snow_never_needs_fewer_hooks() {
    let [rails, more_hooks] = std::array::from_fn(|_| Tally::default());
    let cases = (plain_job(), 0.0..2.0, 0.5..4.0);
    runner(120)
        .run(&cases, |(draft, snow, more)| {
            let request = draft.request();
            let (less, more) = (under(&request, snow), under(&request, snow + more));
            for (a, b) in less.segments().zip(more.segments()) {
                if !(a.found.outcome.is_proven() && b.found.outcome.is_proven()) {
                    prop_assert!(a.found.outcome.passes() || !b.found.outcome.is_proven());
                    continue;
                }
                let (a, b) = (a.found.subset.len(), b.found.subset.len());
                prop_assert!(b >= a, "{a} hooks under less snow, {b} under more");
                rails.see(true);
                more_hooks.see(b > a);
            }
            Ok(())
        })
        .unwrap();
    rails.at_least(60, "rails that pass under both loads");
    more_hooks.at_least(5, "of them with more hooks under more snow");
}

/// The same job with other factors in every combination.
fn with_factors(job: &Job, change: impl Fn(&mut Factors)) -> Job {
    let mut job = job.clone();
    for combination in &mut job.actions.combinations {
        change(&mut combination.factors);
    }
    job
}

/// Every check of every rail and its hooks on the very hooks of a layout, under the loads of a job.
fn on_the_same_hooks(job: &Job, layout: &Layout) -> Vec<(Check, f64)> {
    let mut all = Vec::new();
    for rail in &layout.rails {
        for (ends, laid) in rail.line.segments.iter().zip(&rail.segments) {
            let places = laid.segment.candidates.clone();
            let loaded = segment(job, &layout.footings, &rail.line, *ends, places);
            let Some(result) = loaded.check_all(&laid.found.subset) else { continue };
            all.extend(result.checks().map(|((check, _), used)| (check, used.utilisation)));
        }
    }
    all
}

/// Whether nothing is used less than before, as far as timber holds under the feet: above that pulls are
/// not convex.
fn none_falls(before: &[(Check, f64)], after: &[(Check, f64)]) -> Result<u32, TestCaseError> {
    let timber_fails =
        after.iter().any(|(check, used)| *check == Check::FootBearing && *used > 1.0);
    let mut rises = 0;
    for ((check, a), (_, b)) in before.iter().zip(after) {
        if timber_fails && *check == Check::Screws {
            continue;
        }
        prop_assert!(*b >= a * (1.0 - ROUNDING), "{check:?}: {a} falls to {b}");
        rises += u32::from(*b > a * (1.0 + ROUNDING));
    }
    Ok(rises)
}

#[test]
fn more_wind_never_lowers_what_is_used_most() {
    let rises = Tally::default();
    let jobs = prop_oneof![any_job(), beside_walls(any_job())];
    runner(60)
        .run(&(jobs, 1.0..2.5), |(draft, times)| {
            let job = job(&draft.request());
            let layout = lay_out(&job);
            let windier = with_factors(&job, |factors| factors.wind *= times);
            let before = on_the_same_hooks(&job, &layout);
            let after = on_the_same_hooks(&windier, &layout);
            for _ in 0..none_falls(&before, &after)? {
                rises.see(true);
            }
            Ok(())
        })
        .unwrap();
    rises.at_least(1000, "utilisations that rise with the wind");
}

#[test]
fn more_snow_never_lowers_what_is_used_most_with_it_or_without() {
    let rises = Tally::default();
    let jobs = prop_oneof![any_job(), beside_walls(any_job())];
    runner(60)
        .run(&(jobs, 1.0..2.5), |(draft, times)| {
            let job = job(&draft.request());
            let layout = lay_out(&job);
            let scaled = |times: f64| {
                with_factors(&job, |factors| {
                    factors.snow *= times;
                    factors.exceptional_snow *= times;
                })
            };
            let without = on_the_same_hooks(&scaled(0.0), &layout);
            let larger = |with: Vec<(Check, f64)>| -> Vec<(Check, f64)> {
                let both = with.into_iter().zip(&without);
                both.map(|((check, with), (_, without))| (check, with.max(*without))).collect()
            };
            let before = larger(on_the_same_hooks(&job, &layout));
            let after = larger(on_the_same_hooks(&scaled(times), &layout));
            for _ in 0..none_falls(&before, &after)? {
                rises.see(true);
            }
            Ok(())
        })
        .unwrap();
    rises.at_least(1000, "utilisations that rise with the snow");
}
