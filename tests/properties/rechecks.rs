//! What is true of every recheck.

use hookspan::placement::segments;
use hookspan::placement::{built, repair};
use hookspan::service::intake;
use hookspan::wire::recheck::RepairOutcome;
use hookspan::wire::remarks::Verdict;
use proptest::prelude::*;

use crate::built_jobs::{add, as_drawn, change, check, drafts, lay_out, oddities, on_axes, refit};
use crate::{Tally, runner};

/// 200 built jobs with whatever found: on every rail that stands, the hooks carry its loads, no
/// more and no less, in every combination.
#[test]
fn hooks_carry_the_loads_of_their_rail_whatever_was_found() {
    let sums = Tally::default();
    runner(200)
        .run(&(drafts(), oddities()), |(draft, odd)| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            let mut request = as_drawn(&request, &answer);
            change(&mut request.built, &odd);
            let taken = intake::take_built(&request).expect("nothing is wrong with the request");
            let checked = built::check(&taken.taken.job, &taken.built, taken.lines);
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
            Ok(())
        })
        .unwrap();
    sums.at_least(10_000, "sums of hook forces against the loads of a built rail");
}

/// What a layout says of its hooks is what a recheck says of the same hooks built.
#[test]
fn a_layout_built_as_drawn_is_used_as_it_says() {
    let jobs = Tally::default();
    runner(60)
        .run(&drafts(), |draft| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            let again = check(&as_drawn(&request, &answer));
            // A height between two hundredths of a millimetre moves the rails by less than that.
            prop_assert!((again.utilisation.max - answer.utilisation.max).abs() <= 1e-9);
            for (now, then) in again.hooks.iter().zip(&answer.hooks) {
                prop_assert_eq!(&now.id, &then.id);
                prop_assert!((now.utilisation.max - then.utilisation.max).abs() <= 1e-9);
                prop_assert!((now.normal_kn - then.normal_kn).abs() <= 1e-9);
            }
            for (now, then) in again.rails.iter().zip(&answer.rails) {
                prop_assert!((now.utilisation - then.utilisation).abs() <= 1e-9);
            }
            prop_assert_eq!(again.hooks.len(), answer.hooks.len());
            prop_assert_eq!(again.verdict, answer.verdict);
            jobs.see(true);
            Ok(())
        })
        .unwrap();
    jobs.at_least(50, "layouts built as drawn");
}

/// Of the fewest hooks none can go.
#[test]
fn without_any_hook_of_a_proven_layout_the_job_fails() {
    let removed = Tally::default();
    runner(50)
        .run(&drafts(), |draft| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            if answer.verdict == Verdict::Fails || !answer.optimality.proven {
                return Ok(());
            }
            let mut whole = as_drawn(&request, &answer);
            on_axes(&mut whole.built);
            for at in 0..whole.built.hooks.len() {
                let mut fewer = whole.clone();
                let gone = fewer.built.hooks.remove(at);
                let answer = check(&fewer);
                prop_assert_eq!(answer.verdict, Verdict::Fails, "without {}", gone.id);
                removed.see(true);
            }
            Ok(())
        })
        .unwrap();
    removed.at_least(200, "hooks taken away from a proven layout");
}

/// A job that held and lost hooks is told how few to add, never more than it lost on a rail, or how to
/// pack the feet that are left; and with that built it holds again.
#[test]
fn a_suggestion_that_is_built_holds() {
    let (mended, segments) = (Tally::default(), Tally::default());
    let lost = prop::collection::vec(any::<prop::sample::Index>(), 1..4);
    runner(250)
        .run(&(drafts(), lost), |(draft, lost)| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            if answer.verdict == Verdict::Fails || !answer.optimality.proven {
                return Ok(());
            }
            let mut request = as_drawn(&request, &answer);
            on_axes(&mut request.built);
            for at in lost {
                request.built.hooks.remove(at.index(request.built.hooks.len()));
            }
            let broken = check(&request);
            let suggestion = broken.suggestion.expect("hooks of a proven layout are missing");
            for part in &suggestion.segments {
                let on = |rail: &str| rail == part.rail;
                let before = answer.hooks.iter().filter(|h| on(&h.rail)).count();
                let left = request.built.hooks.iter().filter(|h| on(&h.rail)).count();
                let (more, lost) = (usize::try_from(part.add).unwrap(), before - left);
                // Where arms only came down on the tile, packing the feet that stand cures it.
                if part.outcome == RepairOutcome::FeetSuffice {
                    prop_assert!(more == 0 && !suggestion.refit.is_empty(), "{suggestion:?}");
                    continue;
                }
                prop_assert!((1..=lost).contains(&more), "{more} for {lost}: {suggestion:?}");
                prop_assert_eq!(part.outcome, RepairOutcome::FewestProven);
            }
            suggestion.segments.iter().for_each(|_| segments.see(true));
            refit(&mut request.built, &suggestion.refit);
            add(&mut request.built, &suggestion.add);
            let mended_job = check(&request);
            prop_assert!(mended_job.suggestion.is_none());
            prop_assert_eq!(mended_job.verdict, suggestion.verdict);
            let max = mended_job.utilisation.max;
            prop_assert!((max - suggestion.max_utilisation).abs() <= 1e-9);
            mended.see(true);
            Ok(())
        })
        .unwrap();
    mended.at_least(40, "jobs mended as suggested");
    segments.at_least(60, "rails they were mended on");
}

/// Every choice of free rafters, tried one by one, on short rails that lost hooks or whose feet
/// were packed: none with fewer hooks holds, and where none is said to help, none does.
#[test]
fn no_choice_of_free_rafters_beats_the_suggestion() {
    let (found, none) = (Tally::default(), Tally::default());
    runner(200)
        .run(&(drafts(), oddities()), |(draft, odd)| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            let mut request = as_drawn(&request, &answer);
            change(&mut request.built, &odd);
            let taken = intake::take_built(&request).expect("nothing is wrong with the request");
            let job = &taken.taken.job;
            let checked = built::check(job, &taken.built, taken.lines);
            for repair in repair::repairs(job, &taken.built, &checked) {
                let rail = &checked.layout.rails[repair.rail].line;
                let mut footings = taken.built.footings.clone();
                footings.push(taken.built.added(job).1);
                let ends = rail.segments[repair.segment];
                let places = repair.places.clone();
                let segment = segments::segment(job, &footings, rail, ends, places.clone());
                let free: Vec<usize> = (0..places.len()).filter(|p| !places[*p].stands).collect();
                if free.len() > 10 {
                    continue;
                }
                let fewest = (0..1_u32 << free.len())
                    .filter_map(|bits| {
                        let chosen: Vec<usize> = (0..places.len())
                            .filter(|p| {
                                let at = free.iter().position(|f| f == p);
                                at.is_none_or(|at| bits >> at & 1 == 1)
                            })
                            .collect();
                        let (first, last) = chosen.first().zip(chosen.last())?;
                        let held = places[*first].may_be_first && places[*last].may_be_last;
                        let used = segment.check_all(&chosen)?.governing().1.utilisation;
                        let holds = held && used <= job.wishes.max_utilisation;
                        holds.then_some(bits.count_ones() as usize)
                    })
                    .min();
                let said = repair.found.outcome.passes().then(|| repair.added().count());
                prop_assert_eq!(said, fewest);
                found.see(said.is_some());
                none.see(said.is_none());
            }
            Ok(())
        })
        .unwrap();
    found.at_least(20, "rails that hooks added make hold");
    none.at_least(5, "rails that no hooks added make hold");
}

/// Whatever was found: feet set anew and hooks added as suggested give the verdict and utilisation
/// suggested, and where feet are said to suffice, they do.
#[test]
fn what_is_suggested_for_feet_and_hooks_comes_true() {
    let [refitted, sufficed, jobs] = std::array::from_fn(|_| Tally::default());
    runner(250)
        .run(&(drafts(), oddities()), |(draft, odd)| {
            let request = draft.request();
            let Some(answer) = lay_out(&request) else { return Ok(()) };
            let mut request = as_drawn(&request, &answer);
            on_axes(&mut request.built);
            change(&mut request.built, &odd);
            let Some(suggestion) = check(&request).suggestion else { return Ok(()) };
            refit(&mut request.built, &suggestion.refit);
            suggestion.refit.iter().for_each(|_| refitted.see(true));
            add(&mut request.built, &suggestion.add);
            let after = check(&request);
            prop_assert_eq!(after.verdict, suggestion.verdict);
            // Packers are printed to a hundredth of a millimetre.
            let off = (after.utilisation.max - suggestion.max_utilisation).abs();
            prop_assert!(off <= 1e-3 * suggestion.max_utilisation, "off by {off}");
            for part in &suggestion.segments {
                if part.outcome == RepairOutcome::FeetSuffice {
                    let rail = after.rails.iter().find(|rail| rail.id == part.rail);
                    prop_assert!(rail.is_some_and(|rail| rail.utilisation <= 1.0));
                    sufficed.see(true);
                }
            }
            jobs.see(true);
            Ok(())
        })
        .unwrap();
    jobs.at_least(60, "jobs with suggestions");
    refitted.at_least(40, "feet set anew");
    sufficed.at_least(10, "rails that new feet made hold");
}
