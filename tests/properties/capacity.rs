//! What a job is said to bear of snow and wind, held against fine scans of random jobs.

use hookspan::checks::Member;
use hookspan::effort::{Allowance, Effort};
use hookspan::placement::Job;
use hookspan::placement::capacity::{self, Capacity, Load, used};
use hookspan::placement::laid::Layout;
use hookspan::placement::layout::lay_out;
use hookspan::placement::reload::reloaded;
use hookspan::service::intake;
use hookspan::units::Pressure;
use proptest::prelude::*;

use crate::built_jobs::{as_drawn, check, drafts, lay_out as layout_of};
use crate::jobs::{any_job, beside_walls, short_job};
use crate::{Tally, runner};

/// By how much the limits of each member are passed under a value of a load; nothing of one without
/// checks.
fn over(job: &Job, layout: &Layout, load: Load, value: f64) -> [Option<f64>; 4] {
    let layout = reloaded(&load.on(job, Pressure::from_kn_per_m2(value)), layout);
    Member::ALL.map(|member| {
        let own = used(&layout).into_iter().filter(|used| used.check.member() == member);
        own.map(|used| used.over(job)).reduce(f64::max)
    })
}

/// What a scan of one load found: values, ascending, and by how much each member's limits are passed.
type Scan = Vec<(f64, [Option<f64>; 4])>;

fn scan(job: &Job, layout: &Layout, load: Load, to: f64) -> Scan {
    const STEPS: u32 = 40;
    let values = (0..=STEPS).map(|step| to * f64::from(step) / f64::from(STEPS));
    values.map(|value| (value, over(job, layout, load, value))).collect()
}

/// Holds what is said of a member against a scan.
fn agrees(job: &Job, layout: &Layout, load: Load, member: Member, said: &Capacity, scan: &Scan) {
    let now = load.of(&job.actions).kn_per_m2();
    let at = |value: f64| over(job, layout, load, value)[member as usize].unwrap_or(0.0);
    let held = |over: [Option<f64>; 4]| over[member as usize].unwrap_or(0.0) <= 1e-9;
    let all = |from: f64, to: f64, holds: bool| {
        for (value, over) in scan.iter().filter(|(value, _)| from < *value && *value < to) {
            assert_eq!(held(*over), holds, "{member:?} of {load:?} {value}, {from} to {to}");
        }
    };
    match said {
        Capacity::Undecided => panic!("{member:?} was not come to"),
        Capacity::NotChecked => assert_eq!(scan[0].1[member as usize], None),
        Capacity::Never => all(-1.0, now, false),
        Capacity::Beyond => all(now, load.greatest().kn_per_m2(), true),
        Capacity::Limited(limit) => {
            let load = limit.load.kn_per_m2();
            assert!(at(load) <= 1e-9, "{member:?} at {load}: {}", at(load));
            assert!(at(load + 2e-6) > 0.0, "{member:?} above {load}: {}", at(load + 2e-6));
            assert!(limit.next.over(job) > 0.0);
            assert_eq!(limit.next.check.member(), member);
            if load >= now {
                all(now, load, true);
            } else {
                all(load, now, false);
            }
            let uses = limit.inspect.iter().map(|used| used.governing.utilisation);
            assert!(uses.clone().zip(uses.skip(1)).all(|(more, less)| more >= less));
        }
    }
}

/// 20 random jobs, half of them beside walls, with between a third and three times the loads they were
/// laid out for: what is said of each member agrees with 41 values of the load.
#[test]
fn what_a_job_bears_agrees_with_a_scan() {
    let [limited, failing, drifting] = [(); 3].map(|()| Tally::default());
    let jobs = prop_oneof![any_job(), beside_walls(short_job())];
    runner(20)
        .run(&(jobs, 0.3..3.0, 0.3..3.0), |(draft, snow, wind)| {
            let Ok(taken) = intake::take(&draft.request()) else { return Ok(()) };
            let laid = taken.job;
            let layout = lay_out(&laid);
            if layout.segments().any(|segment| segment.result.is_none()) {
                return Ok(());
            }
            let more = |load: Load, job: &Job, by: f64| load.on(job, load.of(&job.actions) * by);
            let job = more(Load::PeakPressure, &more(Load::GroundSnow, &laid, snow), wind);
            for load in Load::ALL {
                let now = load.of(&job.actions).kn_per_m2();
                let said = capacity::of(&job, &layout, load, &mut Allowance::from(&job.effort));
                let farthest = said.iter().filter_map(|said| match said {
                    Capacity::Limited(limit) => Some(limit.load.kn_per_m2()),
                    _ => None,
                });
                let to = farthest.fold(now, f64::max).max(0.1) * 1.05;
                let scan = scan(&job, &layout, load, to);
                for (member, said) in Member::ALL.into_iter().zip(&said) {
                    agrees(&job, &layout, load, member, said, &scan);
                    if let Capacity::Limited(limit) = said {
                        limited.see(true);
                        failing.see(limit.load.kn_per_m2() < now);
                        drifting.see(!job.actions.snow.arrangements.is_empty());
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    limited.at_least(60, "limits scanned");
    failing.at_least(10, "limits below the value of the job");
    drifting.at_least(10, "limits of jobs with drifts");
}

/// What the search relies on inside a cell: where the snow lies evenly, what a member is used to has no
/// hump in either load, so that it is within its limit between two values at which it is. That of
/// modules and rafters is convex; that of fixings and of the rails their rolling bends need not be, for
/// the strip a foot bears on yields.
#[test]
fn a_utilisation_has_no_hump_in_a_load() {
    let [triples, bent] = [(); 2].map(|()| Tally::default());
    runner(25)
        .run(&any_job(), |draft| {
            let Ok(taken) = intake::take(&draft.request()) else { return Ok(()) };
            let job = taken.job;
            let layout = lay_out(&job);
            if !job.actions.snow.arrangements.is_empty() {
                return Ok(());
            }
            for load in Load::ALL {
                let scan = scan(&job, &layout, load, 6.0);
                for three in scan.windows(3) {
                    for member in Member::ALL {
                        let used = |i: usize| three[i].1[member as usize].unwrap_or(0.0);
                        let [low, middle, high] = [0, 1, 2].map(used);
                        let chord = f64::midpoint(low, high);
                        let convex = matches!(member, Member::Module | Member::Rafter);
                        let most = if convex { chord } else { low.max(high) };
                        prop_assert!(
                            middle <= most + 1e-9 * most.max(1.0),
                            "{member:?} {load:?} at {}: {low} {middle} {high}",
                            three[1].0
                        );
                        triples.see(true);
                        bent.see(middle < chord - 1e-6);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    triples.at_least(3000, "utilisations against the chord beside them");
    bent.at_least(100, "of them below it");
}

/// Another load on the same hooks is what the same job comes to where its site has that load: the whole
/// of it, taken in and checked as built.
#[test]
fn a_load_put_on_is_the_load_of_another_site() {
    let compared = Tally::default();
    runner(20)
        .run(&(drafts(), 0.0..3.0, 0.0..2.0), |(draft, snow, wind)| {
            let request = draft.request();
            let Some(answer) = layout_of(&request) else { return Ok(()) };
            let built = as_drawn(&request, &answer);
            let taken = intake::take_built(&built).expect("a built job");
            let job = taken.taken.job;
            let checked = hookspan::placement::built::check(&job, &taken.built, taken.lines);
            let job = Load::GroundSnow.on(&job, Pressure::from_kn_per_m2(snow));
            let job = Load::PeakPressure.on(&job, Pressure::from_kn_per_m2(wind));
            let here = used(&reloaded(&job, &checked.layout));
            let here = here.iter().map(|used| used.governing.utilisation).fold(0.0, f64::max);
            let mut there = built;
            there.site.snow.ground_load_kn_per_m2 = Some(snow);
            there.site.wind.peak_pressure_kn_per_m2 = Some(wind);
            let taken = intake::take_built(&there).expect("a built job");
            let site =
                hookspan::placement::built::check(&taken.taken.job, &taken.built, taken.lines);
            let there = used(&site.layout);
            let there = there.iter().map(|used| used.governing.utilisation).fold(0.0, f64::max);
            prop_assert!((here - there).abs() <= 1e-9 * there.max(1.0), "{here} {there}");
            compared.see(here > 0.0);
            Ok(())
        })
        .unwrap();
    compared.at_least(15, "loads put on and taken in");
}

/// An event is never worse than a design with the same loads, nor is more of it better: with the loads
/// of the site it uses no more than the site's combinations, and with half of both no more than that.
#[test]
fn an_event_is_milder_than_a_design_for_it() {
    let milder = Tally::default();
    runner(25)
        .run(&drafts(), |draft| {
            let request = draft.request();
            let Some(answer) = layout_of(&request) else { return Ok(()) };
            let mut built = as_drawn(&request, &answer);
            let design = check(&built);
            let event = |snow: Option<f64>, wind: Option<f64>| hookspan::wire::capacity::Event {
                ground_snow_kn_per_m2: snow,
                snow_on_roof_kn_per_m2: None,
                peak_pressure_kn_per_m2: wind,
            };
            let mut under = |snow: Option<f64>, wind: Option<f64>| {
                built.event = Some(event(snow, wind));
                check(&built)
            };
            let [snow, wind] = [
                request.site.snow.ground_load_kn_per_m2,
                request.site.wind.peak_pressure_kn_per_m2,
            ];
            for alone in [under(snow, None), under(None, wind)] {
                prop_assert!(alone.utilisation.max <= design.utilisation.max + 1e-4);
                let happened = alone.event.expect("an event");
                let most = happened.inspect_first.first().map_or(0.0, |hook| hook.utilisation);
                prop_assert!(most <= alone.utilisation.max);
                prop_assert_eq!(happened.inspect_first.len(), alone.hooks.len());
                milder.see(most > 0.0);
            }
            // What a roof bears under nothing but its weight is no event.
            let calm = under(Some(0.0), Some(0.0));
            prop_assert!(calm.actions.combinations.iter().all(|c| c.snow == 0.0 && c.wind == 0.0));
            Ok(())
        })
        .unwrap();
    milder.at_least(30, "events against the design for them");
}

/// A statement that takes more steps than its job has says so of every member it did not come to, and what
/// it says of the others is what it says with all of them.
#[test]
fn a_statement_ends_with_the_steps_of_its_job() {
    let job = include_str!("../data/layout-barn.json");
    let request: hookspan::wire::layout::LayoutRequest =
        serde_json::from_str(job).expect("an example");
    let job = intake::take(&request).expect("an example has no faults").job;
    let layout = lay_out(&job);
    let with = |steps: u64| {
        let mut allowance = Allowance::from(&Effort { steps, ..Effort::default() });
        let borne = capacity::of(&job, &layout, Load::GroundSnow, &mut allowance);
        (borne.map(|of| format!("{of:?}")), allowance.spent())
    };
    let (whole, steps) = with(u64::MAX);
    assert!(whole.iter().all(|of| of != "Undecided"), "{whole:?}");
    assert_eq!(with(steps + 1).0, whole);
    let mut undecided = Vec::new();
    for tenth in 0..10 {
        let (part, spent) = with(steps * tenth / 10);
        let open = part.iter().filter(|of| *of == "Undecided").count();
        undecided.push(open);
        assert!(part.iter().zip(&whole).all(|(of, all)| of == "Undecided" || of == all));
        assert!(spent <= steps, "{spent} of {steps}");
    }
    assert!(undecided.windows(2).all(|pair| pair[0] >= pair[1]), "{undecided:?}");
    assert!(undecided[0] >= 3 && undecided[9] >= 1, "{undecided:?}");
}
