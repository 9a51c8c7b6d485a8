//! Layouts beside hooks that stay, and rafters that take none: against trying every choice of hooks.
//!
//! The enumeration is an own derivation: it goes through the checks of the product and through nothing of
//! its search.

use hookspan::placement::Job;
use hookspan::placement::built::{Built, BuiltHook, BuiltRail, bolt_beyond_exit};
use hookspan::placement::footing::{FoundFooting, UnderRails};
use hookspan::placement::kept::{Kept, Misplaced, Unkept};
use hookspan::placement::laid::{LaidSegment, Layout};
use hookspan::placement::layout::{counted, lay_out};
use hookspan::placement::search::{Outcome, Pattern, Way, fewest_hooks, fewest_hooks_by};
use hookspan::service::layout::run;
use hookspan::service::request::Options;
use hookspan::units::Length;
use hookspan::wire::array::Objective;
use proptest::prelude::*;

use crate::jobs::{any_job, job, long_row, short_job};
use crate::search::{Choice, best, bounds, every_choice, lowest};
use crate::stronger::stronger;
use crate::{Tally, runner};

/// What is drawn of a place of a segment: whether its hook stays, how far that stands off and what is
/// under its foot; whether its rafter is barred.
type Draw = (bool, [f64; 2], u8, bool);

fn draws() -> impl Strategy<Value = Vec<Draw>> {
    let off = prop_oneof![Just([0.0, 0.0]), [-20.0..20.0, -15.0..15.0]];
    let one = (prop::bool::weighted(0.25), off, 0..3_u8, prop::bool::weighted(0.12));
    prop::collection::vec(one, 24)
}

/// A hook that is to stay: its rail, its rafter, its axis and its arm.
type Stays = (usize, usize, [Length; 2]);

/// The job with rafters barred, and hooks that stay on others.
fn drawn(mut job: Job, plain: &Layout, draws: &[Draw]) -> (Job, Built, Vec<Stays>) {
    let of = |place: usize| draws[place % draws.len()];
    let rafters = job.roof.rafters.positions.len();
    job.roof.rafters.barred = (0..rafters).filter(|rafter| of(*rafter).3).collect();
    let rails: Vec<BuiltRail> = plain
        .rails
        .iter()
        .enumerate()
        .map(|(r, rail)| BuiltRail {
            id: format!("there {r}"),
            across: rail.line.across,
            ends: [rail.line.start(), rail.line.end()].map(Some),
            splices: None,
        })
        .collect();
    let mut built = Built { rails, ..Built::default() };
    let mut stay = Vec::new();
    for (r, rail) in plain.rails.iter().enumerate() {
        let rails = UnderRails {
            clear: Length::ZERO,
            bolt_beyond_exit: bolt_beyond_exit(&job, rail.line.across),
        };
        for (laid, ends) in rail.segments.iter().zip(&rail.line.segments) {
            for (p, place) in laid.segment.candidates.iter().enumerate() {
                let (stays, [x, arm_x], packers, _) = of(7 * r + 3 * p);
                if !stays || job.roof.rafters.is_barred(place.rafter) {
                    continue;
                }
                let at = [place.x + Length::from_mm(x), place.arm_x + Length::from_mm(x + arm_x)];
                if at.iter().any(|x| *x < ends[0] || ends[1] < *x) {
                    continue;
                }
                let drawn = FoundFooting::drawn(&job, rails);
                let added = (0..packers).map(|_| Length::from_mm(3.0));
                let packers = drawn.packers.iter().copied().chain(added).collect();
                built.ways.push(FoundFooting { packers, ..drawn });
                stay.push((r, place.rafter, at));
                built.hooks.push(BuiltHook {
                    id: format!("hook {}", stay.len()),
                    rail: r,
                    x: at[0],
                    y: None,
                    arm_x: Some(at[1]),
                    measured: false,
                    unsound: None,
                    footing: built.ways.len() - 1,
                });
            }
        }
    }
    (job, built, stay)
}

/// The places that a rail should have: those as drawn whose rafters are free and open, and those of the
/// hooks that stay.
fn expected(job: &Job, plain: &LaidSegment, stay: &[Stays]) -> Vec<(usize, [Length; 2], bool)> {
    let free = plain.segment.candidates.iter().filter(|place| {
        let room = |(_, rafter, [_, arm_x]): &Stays| {
            *rafter != place.rafter && (*arm_x - place.arm_x).abs() >= job.hook.arm_width
        };
        !job.roof.rafters.is_barred(place.rafter) && stay.iter().all(room)
    });
    let free = free.map(|place| (place.rafter, [place.x, place.arm_x], false));
    let mut all: Vec<_> =
        free.chain(stay.iter().map(|(_, rafter, at)| (*rafter, *at, true))).collect();
    all.sort_by(|a, b| a.1[1].mm().total_cmp(&b.1[1].mm()));
    all
}

/// The hooks of a segment that stay.
fn standing(laid: &LaidSegment) -> Vec<usize> {
    let candidates = &laid.segment.candidates;
    (0..candidates.len()).filter(|at| candidates[*at].stands).collect()
}

#[test]
fn no_choice_beats_the_hooks_added_to_those_that_stay() {
    let [segments, with_some, added, none, bar, packed] = std::array::from_fn(|_| Tally::default());
    runner(110)
        .run(&(short_job(), draws()), |(draft, draws)| {
            let mut request = draft.request();
            request.roof.rafters.span_m = None;
            let (plain, job) = (lay_out(&job(&request)), job(&request));
            let (job, built, stay) = drawn(job, &plain, &draws);
            let kept = match Kept::of(&job, built) {
                Ok(kept) => kept,
                Err(why) => {
                    // A rafter that is barred may move an expansion gap to where a hook stands.
                    let in_gap =
                        |one: &Unkept| matches!(one, Unkept::Hook(_, Misplaced::BeyondRail));
                    prop_assert!(why.iter().all(in_gap), "{:?}", why);
                    return Ok(());
                }
            };
            let (layout, _) = counted(&job, &kept);
            for (r, (rail, plain)) in layout.rails.iter().zip(&plain.rails).enumerate() {
                if rail.line.segments != plain.line.segments {
                    continue;
                }
                for ((laid, was), ends) in
                    rail.segments.iter().zip(&plain.segments).zip(&plain.line.segments)
                {
                    let own = stay
                        .iter()
                        .filter(|(of, _, at)| *of == r && ends[0] <= at[0] && at[0] <= ends[1]);
                    let own: Vec<Stays> = own.copied().collect();
                    let places = laid.segment.candidates.iter();
                    let places: Vec<_> =
                        places.map(|p| (p.rafter, [p.x, p.arm_x], p.stands)).collect();
                    prop_assert_eq!(&places, &expected(&job, was, &own));
                    bar.see(was.segment.candidates.len() > places.len());
                    let must = standing(laid);
                    if places.len() > 12 || places.len() < 2 {
                        continue;
                    }
                    let settings = laid.segment.candidates.iter().map(|p| p.setting);
                    packed.see(settings.collect::<std::collections::BTreeSet<_>>().len() > 1);
                    // The layout itself, within the bound of the job.
                    let choices = supersets(laid, &must);
                    let wanted = best(&choices, job.wishes.max_utilisation);
                    let all: Vec<usize> = (0..places.len()).collect();
                    let chosen = wanted.map_or(&all, |wanted| &wanted.hooks);
                    prop_assert_eq!(&laid.found.subset, chosen);
                    prop_assert_eq!(laid.found.outcome.passes(), wanted.is_some());
                    segments.see(true);
                    with_some.see(!must.is_empty());
                    // The search, in every way and within every bound that matters.
                    let least = lowest(&choices, must.len().max(2));
                    let times = if least.is_finite() { least } else { 1.0 };
                    let mut strong = laid.clone();
                    strong.segment = stronger(&laid.segment, times);
                    let choices = supersets(&strong, &must);
                    for bound in bounds(&choices, places.len()) {
                        let free =
                            fewest_hooks(&strong.segment, bound, Pattern::Free, u64::MAX, &[]);
                        let ways = [Way::Walk, Way::Parts, Way::Windows];
                        let ways =
                            ways.map(|way| fewest_hooks_by(way, &strong.segment, bound, u64::MAX));
                        for found in ways.iter().chain([&free]) {
                            match best(&choices, bound) {
                                None => {
                                    prop_assert_eq!(found.outcome, Outcome::NonePasses);
                                    none.see(true);
                                }
                                Some(best) => {
                                    prop_assert_eq!(found.outcome, Outcome::FewestProven);
                                    prop_assert_eq!(&found.subset, &best.hooks);
                                    prop_assert_eq!(found.lower_bound, best.hooks.len());
                                    let adds = best.hooks.len() > must.len();
                                    added.see(adds && !must.is_empty());
                                }
                            }
                        }
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    segments.at_least(150, "rail segments on which every choice of hooks was tried");
    with_some.at_least(80, "of them with hooks that stay");
    added.at_least(100, "choices that add hooks to some that stay");
    none.at_least(50, "bounds no choice meets");
    bar.at_least(40, "segments with fewer places than without barred rafters");
    packed.at_least(20, "segments whose feet are not set alike");
}

/// Every choice that has all of these hooks.
fn supersets(laid: &LaidSegment, must: &[usize]) -> Vec<Choice> {
    let mut choices = every_choice(&laid.segment);
    choices.retain(|choice| must.iter().all(|hook| choice.hooks.contains(hook)));
    choices
}

/// Among many candidates, where the other ways of the search are taken: they agree with a plain walk.
#[test]
fn every_way_of_the_search_keeps_the_same_hooks() {
    let [compared, kept_some] = std::array::from_fn(|_| Tally::default());
    runner(12)
        .run(&(long_row(), draws()), |(draft, draws)| {
            let plain = lay_out(&job(&draft.request()));
            let (job, built, _) = drawn(job(&draft.request()), &plain, &draws);
            let Ok(kept) = Kept::of(&job, built) else { return Ok(()) };
            let (layout, _) = counted(&job, &kept);
            for laid in layout.segments().filter(|laid| laid.found.outcome.is_proven()).take(2) {
                let must = standing(laid);
                prop_assert!(must.iter().all(|hook| laid.found.subset.contains(hook)));
                let bound = job.wishes.max_utilisation;
                for way in [Way::Walk, Way::Parts, Way::Windows] {
                    let found = fewest_hooks_by(way, &laid.segment, bound, 300_000);
                    if found.outcome == Outcome::FewestProven {
                        prop_assert_eq!(found.subset.len(), laid.found.subset.len(), "{:?}", way);
                        compared.see(true);
                        kept_some.see(!must.is_empty());
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    compared.at_least(10, "searches of long rails compared");
    kept_some.at_least(5, "of them with hooks that stay");
}

#[test]
fn keeping_the_hooks_of_a_layout_adds_none_and_leaves_them_as_they_are() {
    let [jobs, moved] = std::array::from_fn(|_| Tally::default());
    runner(60)
        .run(&any_job(), |mut draft| {
            draft.objective = Objective::FewestHooks;
            let mut request = draft.request();
            request.remedies = Some(false);
            let Ok(before) = run(&request, String::new(), &Options::default()) else {
                return Ok(());
            };
            if before.rails.iter().any(|rail| rail.course.is_none()) {
                // No course lies inside the clamp zone: there is no telling where an arm would leave.
                return Ok(());
            }
            request.kept = before.record.built.clone();
            let after = run(&request, String::new(), &Options::default());
            let after = match after {
                Ok(after) => after,
                Err(faults) => return Err(TestCaseError::fail(format!("{faults:?}"))),
            };
            prop_assert_eq!(after.optimality.added, Some(0));
            prop_assert_eq!(before.hooks.len(), after.hooks.len());
            for (before, after) in before.hooks.iter().zip(&after.hooks) {
                prop_assert_eq!(after.kept.as_ref(), Some(&before.id));
                prop_assert!((before.arm_x_mm - after.arm_x_mm).abs() < 1e-9);
                prop_assert_eq!(before.rafter, after.rafter);
                prop_assert_eq!(&before.packers_mm, &after.packers_mm);
                moved.see(before.arm_shift_mm != 0.0);
            }
            prop_assert!((before.utilisation.max - after.utilisation.max).abs() < 2e-4);
            jobs.see(true);
            Ok(())
        })
        .unwrap();
    jobs.at_least(25, "layouts kept");
    moved.at_least(50, "arms kept off their axes");
}
