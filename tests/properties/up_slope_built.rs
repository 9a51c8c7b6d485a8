//! Rails up the slope that stand: rechecks of them whatever was found, what is suggested where they do not hold,
//! and layouts beside them, against trying every choice of hooks.
//!
//! The enumerations are own derivations: they go through the checks of the product and through nothing of its
//! search.

use hookspan::placement::built::{self, Built, BuiltHook, BuiltRail, Checked, bolt_beyond_exit};
use hookspan::placement::footing::{FoundFooting, UnderRails};
use hookspan::placement::kept::{Kept, Misplaced, Unkept};
use hookspan::placement::laid::{LaidSegment, Layout};
use hookspan::placement::layout::{counted, lay_out};
use hookspan::placement::search::{Outcome, Pattern, fewest_hooks};
use hookspan::placement::{Job, Objective, repair, segments};
use hookspan::service::intake;
use hookspan::service::layout::run;
use hookspan::service::request::Options;
use hookspan::units::Length;
use hookspan::wire::array::Objective as WireObjective;
use hookspan::wire::built::{BuiltHook as WireHook, Found};
use hookspan::wire::layout::{LayoutAnswer, LayoutRequest};
use hookspan::wire::recheck::RecheckRequest;
use hookspan::wire::remarks::Verdict;
use proptest::prelude::*;
use serde_json::{Value, json};

use crate::built_jobs::{add, as_built, check, refit};
use crate::jobs::job;
use crate::search::{Choice, best, bounds, lowest};
use crate::stronger::stronger;
use crate::up_slope_jobs::{UpSlope, short_up_slope_job, up_slope_job};
use crate::{Tally, runner};

/// How far a hook that is built as drawn may be off without being called so, mm: less than a course line
/// may, with the last digit of its place.
const AS_DRAWN: f64 = 9.0;

/// What is drawn of a hook: how far it stands off up the slope, its arm and its rafter aside, packers under
/// its foot, whether it is there.
type Draw = ([f64; 3], u8, bool);

fn draws() -> impl Strategy<Value = Vec<Draw>> {
    let little = [-AS_DRAWN..AS_DRAWN, -AS_DRAWN..AS_DRAWN, -20.0..20.0];
    let far = [-90.0..90.0, -25.0..25.0, -40.0..40.0];
    let off = prop_oneof![3 => Just([0.0; 3]), 2 => little, 1 => far];
    prop::collection::vec((off, 0..3_u8, prop::bool::weighted(0.85)), 24)
}

/// The layout of a job and what it leaves on the roof, with the hooks changed as drawn.
fn built_as_drawn(draft: &UpSlope, draws: &[Draw]) -> Option<(RecheckRequest, LayoutAnswer)> {
    changed(draft.request(), draws)
}

/// The layout of a request and what it leaves on the roof, with the hooks changed as drawn.
fn changed(mut request: LayoutRequest, draws: &[Draw]) -> Option<(RecheckRequest, LayoutAnswer)> {
    request.remedies = Some(false);
    let answer = run(&request, String::new(), &Options::default()).ok()?;
    let mut built = answer.record.built.clone()?;
    let hooks = built.hooks.into_iter().enumerate();
    let changed = hooks.filter_map(|(h, hook)| {
        let ([up, aside, rafter], packers, stays) = draws[h % draws.len()];
        stays.then(|| WireHook {
            y_mm: hook.y_mm.map(|y| y + up),
            arm_x_mm: hook.arm_x_mm.map(|x| x + aside),
            packers_mm: vec![3.0; usize::from(packers)],
            found: (rafter != 0.0)
                .then(|| Found { rafter_x_mm: Some(hook.x_mm + rafter), ..Found::default() }),
            ..hook
        })
    });
    built.hooks = changed.collect();
    Some((as_built(&request, built), answer))
}

const TERRACE: &str = include_str!("../data/layout-terrace.json");

/// Layouts of the terrace under other loads, with other fields and stronger hooks: most of them hold.
fn terraces() -> impl Strategy<Value = LayoutRequest> {
    let loads = (25.0..50.0, 0.2..1.0, 0.2..0.6);
    (loads, 1..5_u32, 1..3_u32, 1.0..2.5).prop_map(
        |((pitch, snow, wind), rows, columns, strength)| {
            let mut job: Value = serde_json::from_str(TERRACE).expect("an example");
            job["site"]["snow"] = json!({"ground_load_kn_per_m2": snow, "exceptional": false});
            job["site"]["wind"] = json!({"peak_pressure_kn_per_m2": wind});
            job["roof"]["pitch_deg"] = json!(pitch);
            // High enough for four modules, and as wide as that makes the house.
            job["roof"]["outline_mm"] = json!([[0, 0], [5200, 0], [5200, 6500], [0, 6500]]);
            job["roof"]["width_m"] = json!(13.0 * f64::to_radians(pitch).cos());
            job["roof"]["rafters"].as_object_mut().expect("rafters").remove("span_m");
            job["array"]["fields"][0]["rows"] = json!(rows);
            job["array"]["fields"][0]["columns"] = json!(columns);
            for force in ["press_kn", "lift_kn", "slope_kn"] {
                let at = &mut job["components"]["hook"]["resistance"][force];
                *at = json!(at.as_f64().expect("declared") * strength);
            }
            job["remedies"] = json!(false);
            serde_json::from_value(job).expect("a request")
        },
    )
}

/// A job as built, checked; `None` where it has faults.
fn checked(request: &RecheckRequest) -> Option<(Job, Built, Checked)> {
    let taken = intake::take_built(request).ok()?;
    let checked = built::check(&taken.taken.job, &taken.built, taken.lines);
    Some((taken.taken.job, taken.built, checked))
}

/// Every foot that bears, by rafter and height.
fn feet(layout: &Layout) -> Vec<(usize, f64)> {
    let mut feet: Vec<(usize, f64)> =
        layout.hooks().map(|(_, place)| (place.rafter, place.at.mm())).collect();
    feet.sort_by(|a, b| a.partial_cmp(b).expect("numbers"));
    feet
}

#[test]
fn hooks_carry_the_loads_of_their_rail_and_stand_beside_each_other_whatever_was_found() {
    let [sums, pairs, idle, off] = std::array::from_fn(|_| Tally::default());
    runner(120)
        .run(&(up_slope_job(), draws()), |(draft, draws)| {
            let Some((request, _)) = built_as_drawn(&draft, &draws) else { return Ok(()) };
            let Some((job, built, checked)) = checked(&request) else {
                return Err(TestCaseError::fail("what was built has no faults"));
            };
            for laid in checked.layout.segments() {
                let Some(result) = &laid.result else { continue };
                for (case, forces) in laid.segment.cases.iter().zip(result.forces.iter()) {
                    let strips =
                        [(&laid.segment.normal, case.normal), (&laid.segment.slope, case.slope)];
                    for (axis, (strip, of)) in strips.into_iter().enumerate() {
                        let total = strip.total_load(&of);
                        let sum: f64 = forces.iter().map(|f| f[axis].n()).sum();
                        let gross: f64 = forces.iter().map(|f| f[axis].n().abs()).sum();
                        prop_assert!((sum - total).abs() <= 1e-9 * gross.max(total.abs()));
                        sums.see(true);
                    }
                }
            }
            let foot = job.hook.foot.length.mm();
            for pair in feet(&checked.layout).windows(2).filter(|pair| pair[0].0 == pair[1].0) {
                prop_assert!(pair[1].1 - pair[0].1 >= foot - 0.5 - 1e-6);
                pairs.see(true);
            }
            // Every hook bears in its place, or is told of.
            let bears = checked.layout.hooks().count();
            prop_assert_eq!(bears + checked.idle.len(), built.hooks.len());
            idle.see(!checked.idle.is_empty());
            let beside = |at: Length| !built::course_at(&job, at).1;
            off.see(checked.layout.hooks().any(|(_, place)| beside(place.at)));
            Ok(())
        })
        .unwrap();
    sums.at_least(3000, "sums of hook forces against the loads of a built rail");
    pairs.at_least(300, "neighbouring feet that bear");
    idle.at_least(15, "jobs with hooks that bear nothing");
    off.at_least(15, "jobs with hooks beside their courses");
}

/// Every choice of free courses, tried one by one, on rails that lost hooks.
#[test]
fn no_choice_of_free_courses_beats_the_suggestion() {
    let [found, more, none] = std::array::from_fn(|_| Tally::default());
    runner(150)
        .run(&(short_up_slope_job(), draws()), |(draft, draws)| {
            let Some((request, _)) = built_as_drawn(&draft, &draws) else { return Ok(()) };
            let Some((job, built, checked)) = checked(&request) else { return Ok(()) };
            for repair in repair::repairs(&job, &built, &checked) {
                let rail = &checked.layout.rails[repair.rail].line;
                let mut footings = built.footings.clone();
                footings.push(built.added(&job).1);
                let ends = rail.segments[repair.segment];
                let places = repair.places.clone();
                let segment = segments::segment(&job, &footings, rail, ends, places.clone());
                let free: Vec<usize> = (0..places.len()).filter(|p| !places[*p].stands).collect();
                if free.len() > 10 {
                    continue;
                }
                let foot = job.hook.foot.length.mm();
                let fewest = (0..1_u32 << free.len())
                    .filter_map(|bits| {
                        let chosen: Vec<usize> = (0..places.len())
                            .filter(|p| {
                                let at = free.iter().position(|f| f == p);
                                at.is_none_or(|at| bits >> at & 1 == 1)
                            })
                            .collect();
                        let meet = chosen.windows(2).any(|pair| {
                            let [lower, upper] = [0, 1].map(|i| &places[pair[i]]);
                            let both_stand = lower.stands && upper.stands;
                            upper.at.mm() - lower.at.mm() < foot - 1e-6 && !both_stand
                        });
                        let (first, last) = chosen.first().zip(chosen.last())?;
                        let held = places[*first].may_be_first && places[*last].may_be_last;
                        if meet || !held {
                            return None;
                        }
                        let used = segment.check_all(&chosen)?.governing().1.utilisation;
                        let holds = used <= job.wishes.max_utilisation;
                        holds.then_some(bits.count_ones() as usize)
                    })
                    .min();
                let said = repair.found.outcome.passes().then(|| repair.added().count());
                prop_assert_eq!(said, fewest);
                found.see(said.is_some());
                more.see(said.is_some_and(|more| more > 1));
                none.see(said.is_none());
            }
            Ok(())
        })
        .unwrap();
    found.at_least(20, "rails that hooks added make hold");
    more.at_least(5, "of them by more than one");
    none.at_least(5, "rails that no hooks added make hold");
}

/// Feet set anew and hooks added as suggested give the verdict and utilisation suggested, and stand clear
/// of each other.
#[test]
fn what_is_suggested_up_the_slope_comes_true() {
    let [jobs, added, holds, near] = std::array::from_fn(|_| Tally::default());
    // Random jobs mostly go on failing, terraces mostly do not.
    let anything = prop_oneof![up_slope_job().prop_map(|draft| draft.request()), terraces()];
    runner(120)
        .run(&(anything, draws()), |(request, draws)| {
            let Some((mut request, _)) = changed(request, &draws) else { return Ok(()) };
            let Some(suggestion) = check(&request).suggestion else { return Ok(()) };
            refit(&mut request.built, &suggestion.refit);
            add(&mut request.built, &suggestion.add);
            let after = check(&request);
            prop_assert_eq!(after.verdict, suggestion.verdict);
            // Places and packers are printed to a hundredth of a millimetre.
            let off = (after.utilisation.max - suggestion.max_utilisation).abs();
            prop_assert!(off <= 1e-3 * suggestion.max_utilisation, "off by {off}");
            let Some((job, _, checked)) = checked(&request) else { return Ok(()) };
            let foot = job.hook.foot.length.mm();
            for pair in feet(&checked.layout).windows(2).filter(|pair| pair[0].0 == pair[1].0) {
                prop_assert!(pair[1].1 - pair[0].1 >= foot - 0.5 - 1e-6);
                near.see(pair[1].1 - pair[0].1 < 1.5 * foot);
            }
            jobs.see(true);
            added.see(!suggestion.add.is_empty());
            holds.see(suggestion.verdict != Verdict::Fails);
            Ok(())
        })
        .unwrap();
    jobs.at_least(50, "jobs with suggestions");
    added.at_least(30, "of them with hooks to add");
    holds.at_least(2, "of them that no longer fail with it");
    near.at_least(10, "feet near each other");
}

/// Of a job that holds and lost hooks no more are suggested than it lost.
#[test]
fn what_a_layout_lost_is_put_back() {
    let [jobs, hooks] = std::array::from_fn(|_| Tally::default());
    let lost = prop::collection::vec(any::<prop::sample::Index>(), 1..4);
    runner(120)
        .run(&(terraces(), lost), |(request, lost)| {
            let Ok(answer) = run(&request, String::new(), &Options::default()) else {
                return Ok(());
            };
            let built = answer.record.built.clone().expect("it is recorded");
            let mut request = as_built(&request, built);
            if answer.verdict == Verdict::Fails || !answer.optimality.proven {
                return Ok(());
            }
            for at in lost {
                request.built.hooks.remove(at.index(request.built.hooks.len()));
            }
            let suggestion = check(&request).suggestion;
            let Some(suggestion) = suggestion else {
                return Err(TestCaseError::fail("hooks of a proven layout are missing"));
            };
            let gone = answer.hooks.len() - request.built.hooks.len();
            prop_assert!(suggestion.add.len() <= gone, "{} for {gone}", suggestion.add.len());
            prop_assert!(suggestion.verdict != Verdict::Fails);
            for part in &suggestion.segments {
                prop_assert!(part.free_rafters.is_none() && part.free_courses.is_some());
            }
            jobs.see(true);
            suggestion.add.iter().for_each(|_| hooks.see(true));
            Ok(())
        })
        .unwrap();
    jobs.at_least(20, "jobs mended");
    hooks.at_least(20, "hooks put back");
}

/// Hooks that are to stay on the rails of a layout, as drawn, each on its rafter.
fn staying(job: &Job, plain: &Layout, draws: &[Draw]) -> Built {
    let rail = |(r, rail): (usize, &hookspan::placement::laid::Rail)| BuiltRail {
        id: format!("there {r}"),
        across: rail.line.across,
        ends: [rail.line.start(), rail.line.end()].map(Some),
        splices: None,
    };
    let rails = plain.rails.iter().enumerate().map(rail).collect();
    let mut built = Built { rails, ..Built::default() };
    let mut last: Option<(usize, Length)> = None;
    let mut all: Vec<(usize, usize, Length, Length, Length)> = Vec::new();
    for (r, rail) in plain.rails.iter().enumerate() {
        for (laid, ends) in rail.segments.iter().zip(&rail.line.segments) {
            for (p, place) in laid.segment.candidates.iter().enumerate() {
                let ([up, aside, _], packers, is_not) = draws[(5 * r + 3 * p) % draws.len()];
                let [up, aside] =
                    [up, aside].map(|by| Length::from_mm(by.clamp(-AS_DRAWN, AS_DRAWN)));
                let at = place.at + up;
                if (is_not && p % 3 != 0) || at < ends[0] || ends[1] < at {
                    continue;
                }
                all.push((r, usize::from(packers), place.x, place.arm_x + aside, at));
            }
        }
    }
    all.sort_by(|a, b| (a.2.mm(), a.4.mm()).partial_cmp(&(b.2.mm(), b.4.mm())).expect("numbers"));
    for (r, packers, x, arm_x, at) in all {
        let rafter = built::nearest_rafter(job, x).expect("a rafter").0;
        let meets = |(other, below): (usize, Length)| {
            other == rafter && (at - below).mm() < job.hook.foot.length.mm()
        };
        if last.is_some_and(meets) {
            continue;
        }
        last = Some((rafter, at));
        let rails = UnderRails { clear: Length::ZERO, bolt_beyond_exit: bolt_beyond_exit(job, at) };
        let drawn = FoundFooting::drawn(job, rails);
        let packers = drawn.packers.iter().copied().chain(vec![Length::from_mm(3.0); packers]);
        let packers = packers.collect();
        built.ways.push(FoundFooting { packers, ..drawn });
        built.hooks.push(BuiltHook {
            id: format!("hook {}", built.ways.len()),
            rail: r,
            x,
            y: Some(at),
            arm_x: Some(arm_x),
            measured: false,
            unsound: None,
            footing: built.ways.len() - 1,
        });
    }
    built
}

/// Every choice that has all hooks that stand, of which no others stand too near to them or each other and
/// which holds both ends, fewest first.
fn supersets(job: &Job, laid: &LaidSegment) -> Vec<Choice> {
    let (gauge, foot) = (job.covering.gauge.mm(), job.hook.foot.length.mm());
    let mut apart = gauge;
    while apart < foot - 1e-6 {
        apart += gauge;
    }
    let places = &laid.segment.candidates;
    let stands = |hooks: &[usize]| {
        let (Some(first), Some(last), 2..) = (hooks.first(), hooks.last(), hooks.len()) else {
            return false;
        };
        let near = |pair: &[usize]| {
            let [lower, upper] = [0, 1].map(|i| &places[pair[i]]);
            upper.at.mm() - lower.at.mm() < apart - 1e-6 && !(lower.stands && upper.stands)
        };
        places[*first].may_be_first
            && places[*last].may_be_last
            && !hooks.windows(2).any(near)
            && (0..places.len()).all(|i| !places[i].stands || hooks.contains(&i))
    };
    let mut all: Vec<Choice> = (0..1_u32 << places.len())
        .map(|bits| (0..places.len()).filter(|i| bits >> i & 1 == 1).collect::<Vec<_>>())
        .filter(|hooks| stands(hooks))
        .filter_map(|hooks| {
            let utilisation = laid.segment.check_all(&hooks)?.governing().1.utilisation;
            Some(Choice { hooks, utilisation })
        })
        .collect();
    all.sort_by(|a, b| (a.hooks.len(), &a.hooks).cmp(&(b.hooks.len(), &b.hooks)));
    all
}

#[test]
fn no_choice_beats_the_hooks_added_up_the_slope_to_those_that_stay() {
    let [segments, with_some, added, none] = std::array::from_fn(|_| Tally::default());
    runner(100)
        .run(&(short_up_slope_job(), draws()), |(draft, draws)| {
            let mut job = job(&draft.request());
            job.wishes.objective = Objective::FewestHooks;
            let plain = lay_out(&job);
            let built = staying(&job, &plain, &draws);
            let kept = match Kept::of(&job, built.clone()) {
                Ok(kept) => kept,
                Err(why) => {
                    // A rail at the quarter points of its modules may lie over nothing at all.
                    let off =
                        |one: &Unkept| matches!(one, Unkept::Hook(_, Misplaced::MissesRafter));
                    prop_assert!(why.iter().all(off), "{:?}", why);
                    return Ok(());
                }
            };
            let (layout, _) = counted(&job, &kept);
            let standing = layout.hooks().filter(|(_, place)| place.stands).count();
            prop_assert_eq!(standing, built.hooks.len());
            let foot = job.hook.foot.length.mm();
            for pair in feet(&layout).windows(2).filter(|pair| pair[0].0 == pair[1].0) {
                prop_assert!(pair[1].1 - pair[0].1 >= foot - 0.5 - 1e-6, "feet meet");
            }
            for laid in layout.segments() {
                let places = &laid.segment.candidates;
                if !(2..=11).contains(&places.len()) {
                    continue;
                }
                let must = places.iter().filter(|place| place.stands).count();
                let choices = supersets(&job, laid);
                let wanted = best(&choices, job.wishes.max_utilisation);
                prop_assert_eq!(laid.found.outcome.passes(), wanted.is_some());
                if let Some(wanted) = wanted {
                    prop_assert_eq!(&laid.found.subset, &wanted.hooks);
                }
                segments.see(true);
                with_some.see(must > 0);
                let least = lowest(&choices, must.max(2));
                let times = if least.is_finite() { least } else { 1.0 };
                let mut strong = laid.clone();
                strong.segment = stronger(&laid.segment, times);
                let choices = supersets(&job, &strong);
                for bound in bounds(&choices, places.len()) {
                    let found = fewest_hooks(&strong.segment, bound, Pattern::Free, u64::MAX, &[]);
                    let Some(best) = best(&choices, bound) else {
                        prop_assert_eq!(found.outcome, Outcome::NonePasses);
                        none.see(true);
                        continue;
                    };
                    prop_assert_eq!(found.outcome, Outcome::FewestProven);
                    prop_assert_eq!(&found.subset, &best.hooks);
                    prop_assert_eq!(found.lower_bound, best.hooks.len());
                    added.see(best.hooks.len() > must && must > 0);
                }
            }
            Ok(())
        })
        .unwrap();
    segments.at_least(60, "rail segments on which every choice of hooks was tried");
    with_some.at_least(40, "of them with hooks that stay");
    added.at_least(40, "choices that add hooks to some that stay");
    none.at_least(20, "bounds no choice meets");
}

/// What a layout leaves on the roof, kept by another.
fn keeping(request: &LayoutRequest, answer: &LayoutAnswer) -> LayoutRequest {
    LayoutRequest { kept: answer.record.built.clone(), ..request.clone() }
}

#[test]
fn keeping_the_hooks_of_a_layout_up_the_slope_adds_none_and_leaves_them_as_they_are() {
    let [jobs, hooks] = std::array::from_fn(|_| Tally::default());
    runner(60)
        .run(
            &prop_oneof![terraces(), up_slope_job().prop_map(|draft| draft.request())],
            |request| {
                let mut request = request;
                request.remedies = Some(false);
                // Rails beside what is kept are held by all their hooks.
                request.array.rails_held_by = None;
                request.wishes.get_or_insert_default().objective = Some(WireObjective::FewestHooks);
                let Ok(before) = run(&request, String::new(), &Options::default()) else {
                    return Ok(());
                };
                if before.rails.iter().any(|rail| rail.rafter.is_none()) {
                    // No rafter lies inside the clamp zones: there is no telling where hooks would stand.
                    return Ok(());
                }
                let after = run(&keeping(&request, &before), String::new(), &Options::default());
                let after = match after {
                    Ok(after) => after,
                    Err(faults) => return Err(TestCaseError::fail(format!("{faults:?}"))),
                };
                prop_assert_eq!(after.optimality.added, Some(0));
                prop_assert_eq!(before.hooks.len(), after.hooks.len());
                for (before, after) in before.hooks.iter().zip(&after.hooks) {
                    prop_assert_eq!(after.kept.as_ref(), Some(&before.id));
                    let same = |of: fn(&hookspan::wire::layout::HookAnswer) -> f64| {
                        (of(before) - of(after)).abs() < 1e-9
                    };
                    prop_assert!(same(|hook| hook.y_mm) && same(|hook| hook.arm_x_mm));
                    prop_assert!(same(|hook| hook.normal_kn) && same(|hook| hook.utilisation.max));
                    prop_assert_eq!(before.rafter, after.rafter);
                    prop_assert_eq!(&before.packers_mm, &after.packers_mm);
                    hooks.see(true);
                }
                prop_assert!((before.utilisation.max - after.utilisation.max).abs() < 1e-9);
                jobs.see(true);
                Ok(())
            },
        )
        .unwrap();
    jobs.at_least(20, "layouts kept");
    hooks.at_least(200, "hooks kept");
}
