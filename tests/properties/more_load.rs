//! More snow on a roof without wind never makes anything easier.
//!
//! Every utilisation is a convex function of the snow, and the combination without snow is
//! always among those looked at: the largest of both can only grow.

use hookspan::model::layout::LayoutRequest;
use hookspan::placement::laid::Layout;
use hookspan::placement::layout::lay_out;
use proptest::prelude::*;

use crate::jobs::{job, plain_job};
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
