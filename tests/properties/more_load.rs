//! More snow on a roof, or more wind, never makes anything easier.
//!
//! Every utilisation is a convex function of the loads and 0 without any. So what lies between two
//! loads uses no more than the larger of both, and a part of a load no more than all of it.
//!
//! * **Wind.** Take a combination with wind and let all wind grow. What it was before lies between what
//!   it is now and the same without wind. That is among the combinations, or a part of one: weight with
//!   the same snow or more, or a share of the full weight; timber that bears the wind bears these no
//!   better.
//! * **Snow.** Take a combination with snow and let all snow grow. What it was before lies between what
//!   it is now and the same without snow. That is among the combinations, or lies between two of them:
//!   the full weight alone and with all the wind.
//!
//! So the largest utilisation of a check over all combinations never falls. Loads grow in proportion
//! here, drifts with the rest. More snow on the ground raises a drift only as far as the wall is high.

use hookspan::checks::segment::Segment;
use hookspan::checks::{Check, Member};
use hookspan::codes::vocabulary::Factors;
use hookspan::placement::Job;
use hookspan::placement::capacity::{Used, used};
use hookspan::placement::laid::Layout;
use hookspan::placement::layout::lay_out;
use hookspan::placement::reload::reloaded;
use hookspan::wire::layout::LayoutRequest;
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
                // Feet may be packed higher under more snow: both are looked at on those of less.
                let alike = Segment {
                    settings: a.segment.settings.clone(),
                    ..b.segment.with_candidates(a.segment.candidates.clone())
                };
                let results = a.segment.check_all(&all).zip(alike.check_all(&all));
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
    runner(150)
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

/// Every check of every member on the hooks of a layout as they stand, under the loads of a job. What
/// rolling feet add is told of the hook that gets most of it, which may be another under other loads.
fn on_the_same_hooks(job: &Job, layout: &Layout) -> Vec<Used> {
    used(&reloaded(job, layout)).into_iter().filter(|used| !used.rolling).collect()
}

/// Whether nothing is used less than before, as far as timber holds under the feet: above that pulls are
/// not convex.
fn none_falls(
    before: &[Used],
    after: &[Used],
    rises: &[Tally; Member::ALL.len()],
) -> Result<(), TestCaseError> {
    prop_assert_eq!(before.len(), after.len());
    let timber_fails = after
        .iter()
        .any(|used| used.check == Check::FootBearing && used.governing.utilisation > 1.0);
    for (before, after) in before.iter().zip(after) {
        let check = after.check;
        prop_assert_eq!((before.check, before.element), (check, after.element));
        if timber_fails && check == Check::Screws {
            continue;
        }
        let [a, b] = [before, after].map(|used| used.governing.utilisation);
        prop_assert!(b >= a * (1.0 - ROUNDING), "{check:?}: {a} falls to {b}");
        rises[check.member() as usize].see(b > a * (1.0 + ROUNDING));
    }
    Ok(())
}

#[test]
fn more_wind_never_lowers_what_is_used_most() {
    never_lowers_what_is_used_most(|factors, times| factors.wind *= times);
}

#[test]
fn more_snow_never_lowers_what_is_used_most() {
    never_lowers_what_is_used_most(|factors, times| {
        factors.snow *= times;
        factors.exceptional_snow *= times;
    });
}

fn never_lowers_what_is_used_most(scale: impl Fn(&mut Factors, f64)) {
    let rises = Default::default();
    let jobs = prop_oneof![any_job(), beside_walls(any_job())];
    runner(60)
        .run(&(jobs, 1.0..2.5), |(draft, times)| {
            let job = job(&draft.request());
            let layout = lay_out(&job);
            let more = with_factors(&job, |factors| scale(factors, times));
            let before = on_the_same_hooks(&job, &layout);
            let after = on_the_same_hooks(&more, &layout);
            none_falls(&before, &after, &rises)
        })
        .unwrap();
    for member in Member::ALL {
        rises[member as usize].at_least(100, &format!("utilisations that rise of {member:?}"));
    }
}
