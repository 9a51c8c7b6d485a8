//! Rails that cross: lower and upper ones bend to one shape, and hooks carry all that acts.
//!
//! What is held against the answer here is derived anew from areas, pressures, levers and elastic lines; none of it
//! is an outside check. The frames of another program are in `tests/reference`.

use hookspan::mechanics::elastic_line::elastic_line;
use hookspan::mechanics::sweep::Profile;
use hookspan::placement::Job;
use hookspan::placement::laid::{LaidSegment, Layout, Rail};
use hookspan::placement::layout::lay_out;
use hookspan::placement::search::Outcome;
use hookspan::units::{Force, Length};
use hookspan::wire::array::{Objective, RailDirection};
use proptest::prelude::*;

use crate::equilibrium::on_module;
use crate::jobs::job;
use crate::up_slope::wind_on;
use crate::up_slope_jobs::up_slope_job;
use crate::{Tally, runner};

/// Jobs whose rails cross, with connectors that bear what comes.
fn crossing_job() -> impl Strategy<Value = Job> {
    up_slope_job().prop_map(|draft| {
        let mut request = draft.request();
        request.array.rail_direction = RailDirection::Crossing;
        request.array.rails_held_by = None;
        let wishes = request.wishes.as_mut();
        if let Some(objective) = wishes.and_then(|wishes| wishes.objective.as_mut())
            && *objective == Objective::Staggered
        {
            *objective = Objective::FewestHooks;
        }
        job(&request)
    })
}

fn uppers(layout: &Layout) -> impl Iterator<Item = &Rail> {
    layout.rails.iter().filter(|rail| rail.line.is_upper())
}

fn lowers(layout: &Layout) -> impl Iterator<Item = &Rail> {
    layout.rails.iter().filter(|rail| rail.line.is_beneath())
}

/// Deflection of a rail square to the slope at a place in a case, mm; `None` where it has hinges.
fn deflection(laid: &LaidSegment, case: usize, at: f64) -> Option<f64> {
    let segment = &laid.segment;
    let (reactions, supports) = segment.reactions(&laid.found.subset)?;
    let load = &segment.cases[case].normal;
    let profile = Profile::of(&segment.normal, load, &supports, &reactions);
    let line = elastic_line(&profile, segment.normal.rigidity())?;
    let off = |point: &&[f64; 2]| (point[0] - at).abs();
    let near = line.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
    ((near[0] - at).abs() < 1e-6).then_some(near[1])
}

#[test]
fn both_layers_bend_to_one_shape() {
    let [seen, bent] = [(); 2].map(|()| Tally::default());
    runner(20)
        .run(&crossing_job(), |job| {
            let layout = lay_out(&job);
            for rail in uppers(&layout) {
                for laid in rail.segments.iter().filter(|laid| laid.segment.borne.is_some()) {
                    let crossings: Vec<Length> = laid.crossings().collect();
                    for case in 0..laid.segment.cases.len() {
                        for (place, x) in crossings.iter().enumerate() {
                            let lower = lowers(&layout).find_map(|lower| {
                                let own = lower.line.across == *x
                                    && lower.line.field() == rail.line.field();
                                let ends = lower.line.segments.iter();
                                let y = rail.line.across;
                                let part = ends.clone().position(|of| of[0] <= y && y <= of[1])?;
                                own.then(|| &lower.segments[part])
                            });
                            let Some(lower) = lower else {
                                return Err(TestCaseError::fail("a crossing without a lower rail"));
                            };
                            let below = deflection(lower, case, rail.line.across.mm());
                            let above = deflection(laid, case, x.mm());
                            let (Some(below), Some(above)) = (below, above) else { continue };
                            let scale = 1e-3 + 1e-3 * below.abs();
                            prop_assert!(
                                (below - above).abs() < scale,
                                "{} {place} at {x:?}: {above} above, {below} below",
                                rail.line.id
                            );
                            seen.see(true);
                            bent.see(below.abs() > 0.5 && crossings.len() > 2);
                        }
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    seen.at_least(2000, "crossings looked at");
    bent.at_least(200, "crossings of statically undetermined rails that give way");
}

#[test]
fn hooks_carry_what_acts_on_both_layers_and_turns_about_the_eaves() {
    let [sums, turns] = [(); 2].map(|()| Tally::default());
    runner(20)
        .run(&crossing_job(), |job| {
            let layout = lay_out(&job);
            if layout.segments().any(|laid| laid.result.is_none())
                || uppers(&layout)
                    .any(|rail| rail.segments.iter().any(|s| s.segment.borne.is_none()))
            {
                return Ok(());
            }
            let (sin, cos) = job.roof.pitch.deg().to_radians().sin_cos();
            let depth = job.rail.depth.mm();
            for (index, combination) in job.actions.combinations.iter().enumerate() {
                // Square to the roof, down it, about the eaves, and all of it whichever way.
                let mut acts = [0.0_f64; 4];
                let mut add = |normal: f64, slope: f64, y: f64, above: f64| {
                    acts[0] += normal;
                    acts[1] += slope;
                    acts[2] += normal * y - slope * above;
                    acts[3] += normal.abs() + slope.abs();
                };
                for module in &layout.modules {
                    let field = module.placed.field;
                    let weighs = on_module(&job, field, combination);
                    // The modules push above the bolts of the upper rails, and these above those of the lower ones.
                    let above = job.load_heights[field].mm() + depth / 2.0;
                    let rect = &module.placed.rect;
                    let y = f64::midpoint(rect.y[0], rect.y[1]);
                    add(weighs * cos, weighs * sin, y, above);
                    for (force, [_, y]) in wind_on(&job, combination, rect) {
                        add(force, 0.0, y, 0.0);
                    }
                }
                let permanent = combination.factors.permanent;
                let clamp = permanent * job.actions.weight.clamp.n();
                let metre = permanent * job.actions.weight.rail.kn_per_m();
                for rail in &layout.rails {
                    for (laid, ends) in rail.segments.iter().zip(&rail.line.segments) {
                        let weighs = metre * (ends[1] - ends[0]).mm();
                        if rail.line.is_upper() {
                            let clamps = laid.segment.normal.load_points().len() as f64 / 2.0 + 1.0;
                            let weighs = weighs + clamp * clamps;
                            add(weighs * cos, weighs * sin, rail.line.across.mm(), depth / 2.0);
                        } else {
                            let y = f64::midpoint(ends[0].mm(), ends[1].mm());
                            add(weighs * cos, weighs * sin, y, 0.0);
                        }
                    }
                }
                let mut carried = [0.0_f64; 3];
                for ([r, s, h], place) in layout.hooks() {
                    let result = layout.rails[r].segments[s].result.as_ref().expect("seen above");
                    let [n, s] = result.forces[index][h].map(Force::n);
                    carried[0] += n;
                    carried[1] += s;
                    carried[2] += n * place.at.mm();
                }
                let all = acts[3].max(1.0);
                for (sum, acts) in carried.iter().zip(acts).take(2) {
                    prop_assert!((sum - acts).abs() < 1e-6 * all, "{carried:?} of {acts:?}");
                }
                prop_assert!(
                    (carried[2] - acts[2]).abs() < 1e-2 * all,
                    "turning: {carried:?} of {acts:?} in {}",
                    combination.id
                );
                sums.see(true);
                turns.see(acts[1] > 100.0);
            }
            Ok(())
        })
        .unwrap();
    sums.at_least(200, "combinations");
    turns.at_least(50, "combinations with a force down the slope");
}

#[test]
fn what_is_said_to_pass_does_and_is_proven_only_where_hooks_change_nothing() {
    let [passes, proven, together, fails] = [(); 4].map(|()| Tally::default());
    runner(30)
        .run(&crossing_job(), |job| {
            let layout = lay_out(&job);
            let segments = || lowers(&layout).flat_map(|rail| &rail.segments);
            let all_pass = layout.segments().all(|laid| laid.found.outcome.passes());
            passes.see(all_pass && segments().next().is_some());
            fails.see(!all_pass);
            for laid in layout.segments() {
                let used = laid.result.as_ref().map(|result| result.governing().1.utilisation);
                if all_pass {
                    prop_assert!(used.is_some_and(|used| job.wishes.allow(used)), "{used:?}");
                }
                let crossed_twice = uppers(&layout)
                    .flat_map(|rail| &rail.segments)
                    .all(|laid| laid.crossings().count() == 2);
                if laid.segment.borne.is_none() && laid.found.outcome.is_proven() {
                    prop_assert!(crossed_twice || layout_fields(&job) > 1);
                    proven.see(true);
                }
                together.see(laid.found.outcome == Outcome::Together);
            }
            // No two hooks of one rafter meet, and none stands in the way of an upper rail.
            for (at, hook) in layout.hooks() {
                for upper in uppers(&layout) {
                    let crosses = upper
                        .segments
                        .iter()
                        .any(|laid| laid.crossings().any(|x| x == layout.rails[at[0]].line.across));
                    let apart = (hook.at - upper.line.across).abs();
                    let room = (job.rail.depth + job.hook.arm_width) / 2.0;
                    prop_assert!(!crosses || apart >= room, "{apart:?}");
                }
            }
            Ok(())
        })
        .unwrap();
    passes.at_least(6, "layouts that pass");
    fails.at_least(5, "layouts that fail");
    proven.at_least(2, "lower rails proven");
    together.at_least(12, "lower rails found together");
}

fn layout_fields(job: &Job) -> usize {
    job.fields.len()
}
