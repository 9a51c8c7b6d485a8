//! The search against trying every choice of hooks.

use hookspan::checks::segment::{Segment, Workspace};
use hookspan::mechanics::beam;
use hookspan::placement::laid::LaidSegment;
use hookspan::placement::layout::lay_out;
use hookspan::placement::search::{Found, Outcome, Pattern, Way, fewest_hooks, fewest_hooks_by};
use hookspan::wire::array::Objective;
use proptest::prelude::*;

use crate::jobs::{Draft, RAFTERS_OF_LONG_ROW, beside_walls, job, long_row, short_job};
use crate::stronger::stronger;
use crate::{Tally, runner};

/// Utilisations closer than this count as equal.
const EQUAL: f64 = 1e-9;

/// A choice of hooks whose free ends are short enough, and its largest utilisation.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    pub hooks: Vec<usize>,
    pub utilisation: f64,
}

/// Every choice of two or more hooks, fewest first, then in lexicographic order.
pub fn every_choice(segment: &Segment) -> Vec<Choice> {
    let places = &segment.candidates;
    let mut all: Vec<Choice> = (0..1_u32 << places.len())
        .map(|bits| (0..places.len()).filter(|i| bits >> i & 1 == 1).collect::<Vec<_>>())
        .filter(|hooks| match hooks[..] {
            [first, .., last] => places[first].may_be_first && places[last].may_be_last,
            _ => false,
        })
        .filter_map(|hooks| {
            let utilisation = segment.check_all(&hooks)?.governing().1.utilisation;
            Some(Choice { hooks, utilisation })
        })
        .collect();
    all.sort_by(|a, b| (a.hooks.len(), &a.hooks).cmp(&(b.hooks.len(), &b.hooks)));
    all
}

/// The choice to be found: the fewest hooks, of these the lowest utilisation, of these the first.
pub fn best(choices: &[Choice], bound: f64) -> Option<&Choice> {
    let fewest = choices.iter().find(|c| c.utilisation <= bound)?.hooks.len();
    let of_these = || choices.iter().filter(|c| c.hooks.len() == fewest && c.utilisation <= bound);
    let lowest = of_these().map(|c| c.utilisation).fold(f64::INFINITY, f64::min);
    of_these().find(|c| c.utilisation <= lowest + EQUAL)
}

/// Lowest utilisation with a number of hooks.
pub fn lowest(choices: &[Choice], hooks: usize) -> f64 {
    let with = choices.iter().filter(|c| c.hooks.len() == hooks);
    with.map(|c| c.utilisation).fold(f64::INFINITY, f64::min)
}

/// Bounds on the utilisation that make every number of hooks the fewest once, and one that no
/// choice meets.
pub fn bounds(choices: &[Choice], places: usize) -> Vec<f64> {
    let mut least = f64::INFINITY;
    let mut bounds = Vec::new();
    for hooks in 2..=places {
        let lowest = lowest(choices, hooks);
        if lowest < least && lowest <= 1.0 {
            bounds.push(if least.is_finite() { f64::midpoint(lowest, least) } else { lowest });
            least = lowest;
        }
    }
    bounds.push(least.min(1.0) * 0.99);
    bounds
}

/// Tries every choice of hooks on so many jobs; tallies of segments, of bounds that ask for more than
/// two hooks and fewer than all, of counts above the bound by equilibrium, of all hooks, of none.
fn no_choice_beats_the_one_found_in(jobs: &impl Strategy<Value = Draft>, cases: u32) -> [Tally; 5] {
    let [segments, between, above_bound, all_taken, none] =
        std::array::from_fn(|_| Tally::default());
    runner(cases)
        .run(jobs, |draft| {
            let job = job(&draft.request());
            for laid in lay_out(&job).segments() {
                let places = laid.segment.candidates.len();
                if places > 12 {
                    continue;
                }
                // Two hooks are to pass where they are strong enough.
                let two = lowest(&every_choice(&laid.segment), 2);
                let segment = &stronger(&laid.segment, if two.is_finite() { two } else { 1.0 });
                let choices = every_choice(segment);
                segments.see(true);
                for bound in bounds(&choices, places) {
                    let found = fewest_hooks(segment, bound, Pattern::Free, u64::MAX, &[]);
                    for way in [Way::Parts, Way::Windows] {
                        let same = fewest_hooks_by(way, segment, bound, u64::MAX);
                        prop_assert_eq!(same.outcome, found.outcome, "{:?}", way);
                        prop_assert_eq!(&same.subset, &found.subset, "{:?}", way);
                        let proven =
                            |found: &Found| found.outcome.is_proven().then_some(found.lower_bound);
                        prop_assert_eq!(proven(&same), proven(&found), "{:?}", way);
                    }
                    let least = segment.fewest_by_equilibrium(bound);
                    let Some(best) = best(&choices, bound) else {
                        prop_assert_eq!(found.outcome, Outcome::NonePasses);
                        prop_assert_eq!(found.subset.len(), places);
                        none.see(places > 2);
                        continue;
                    };
                    prop_assert_eq!(found.outcome, Outcome::FewestProven);
                    prop_assert_eq!(&found.subset, &best.hooks);
                    prop_assert_eq!(found.lower_bound, best.hooks.len());
                    prop_assert!(least <= best.hooks.len());
                    between.see(2 < best.hooks.len() && best.hooks.len() < places);
                    above_bound.see(least < best.hooks.len());
                    all_taken.see(best.hooks.len() == places);
                }
            }
            Ok(())
        })
        .unwrap();
    [segments, between, above_bound, all_taken, none]
}

#[test]
fn no_choice_beats_the_one_found() {
    let [segments, between, above_bound, all_taken, none] =
        no_choice_beats_the_one_found_in(&short_job(), 110);
    segments.at_least(200, "rail segments on which every choice of hooks was tried");
    between.at_least(100, "answers between two hooks and all");
    above_bound.at_least(50, "answers above the bound by equilibrium");
    all_taken.at_least(10, "answers that take all candidates");
    none.at_least(50, "bounds no choice meets");
}

/// Drifts load one end of a rail more than the other, and one rail more than the next.
#[test]
fn no_choice_beats_the_one_found_under_a_drift() {
    let [segments, between, above_bound, ..] =
        no_choice_beats_the_one_found_in(&beside_walls(short_job()), 50);
    segments.at_least(80, "rail segments on which every choice of hooks was tried");
    between.at_least(40, "answers between two hooks and all");
    above_bound.at_least(20, "answers above the bound by equilibrium");
}

/// Subsets of so many of `n`, in lexicographic order.
fn subsets(n: usize, size: usize) -> impl Iterator<Item = Vec<usize>> {
    let mut next = (size <= n).then(|| (0..size).collect::<Vec<_>>());
    std::iter::from_fn(move || {
        let this = next.take()?;
        if let Some(at) = (0..size).rev().find(|at| this[*at] < n - size + at) {
            let mut after = this.clone();
            after[at] += 1;
            for i in at + 1..size {
                after[i] = after[i - 1] + 1;
            }
            next = Some(after);
        }
        Some(this)
    })
}

/// Among many candidates, where left and right parts are put together: every choice of as many
/// hooks or of one fewer, and those of fewer still.
#[test]
fn no_choice_beats_the_one_found_among_many() {
    let [tried, above_two, moved] = std::array::from_fn(|_| Tally::default());
    runner(60)
        .run(&long_row(), |draft| {
            let job = job(&draft.request());
            let mut space = Workspace::default();
            for laid in lay_out(&job).segments().take(2) {
                let places = laid.segment.candidates.len();
                if !(18..=26).contains(&places) {
                    continue;
                }
                let bound = 1.0;
                for times in [1.0, 1.5, 2.2, 3.3, 5.0, 7.5, 11.0] {
                    let segment = &stronger(&laid.segment, times);
                    let found = fewest_hooks(segment, bound, Pattern::Free, u64::MAX, &[]);
                    let hooks = found.subset.len();
                    if found.outcome != Outcome::FewestProven || hooks > 4 {
                        continue;
                    }
                    for fewer in 2..hooks {
                        for choice in subsets(places, fewer) {
                            let used = segment.within_alone(&choice, bound, &mut space);
                            prop_assert_eq!(used, None, "{:?}", choice);
                        }
                    }
                    let mut best: Option<(f64, Vec<usize>)> = None;
                    for choice in subsets(places, hooks) {
                        let below = best.as_ref().map_or(bound, |(used, _)| used - EQUAL);
                        if let Some(used) = segment.within_alone(&choice, below, &mut space) {
                            best = Some((used, choice));
                        }
                    }
                    let best = best.map(|(_, choice)| choice);
                    prop_assert_eq!(best.as_ref(), Some(&found.subset));
                    tried.see(true);
                    above_two.see(hooks > 2);
                    moved.see(found.subset != laid.found.subset);
                    // The most that stronger parts could show is seen already.
                    break;
                }
            }
            Ok(())
        })
        .unwrap();
    tried.at_least(20, "rail segments of many candidates with few hooks");
    above_two.at_least(10, "of them with three hooks or four");
    moved.at_least(5, "laid out otherwise with the parts it has");
}

#[test]
fn weighing_and_examining_agree() {
    let weighed = Tally::default();
    let jobs = (short_job(), prop::collection::vec(any::<u32>(), 8));
    runner(60)
        .run(&jobs, |(draft, picks)| {
            let job = job(&draft.request());
            let mut space = Workspace::default();
            for laid in lay_out(&job).segments() {
                let segment = &laid.segment;
                for pick in &picks {
                    let subset: Vec<usize> =
                        (0..segment.candidates.len()).filter(|i| pick >> i & 1 == 1).collect();
                    let weight = segment.within(&subset, f64::INFINITY, &mut space);
                    let result = segment.check_all(&subset);
                    prop_assert_eq!(weight.is_some(), result.is_some());
                    if let Some((weight, result)) = weight.zip(result) {
                        let largest = result.governing().1.utilisation;
                        let apart = weight.to_bits() != largest.to_bits();
                        prop_assert!(!apart || (weight - largest).abs() <= 1e-12 * largest);
                        weighed.see(true);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    weighed.at_least(300, "choices of hooks both weighed and examined");
}

#[test]
fn a_search_cut_short_says_so_and_still_passes() {
    let [cut, found_something] = std::array::from_fn(|_| Tally::default());
    runner(60)
        .run(&short_job(), |draft| {
            let job = job(&draft.request());
            for laid in lay_out(&job).segments() {
                let whole = fewest_hooks(&laid.segment, 1.0, Pattern::Free, u64::MAX, &[]);
                let short = fewest_hooks(&laid.segment, 1.0, Pattern::Free, 2, &[]);
                cut.see(short.outcome != whole.outcome);
                match short.outcome {
                    Outcome::Given | Outcome::Spread | Outcome::Together => {
                        prop_assert!(false, "nothing was given, spread or solved together");
                    }
                    Outcome::FewestProven | Outcome::FewestProvenNotRanked => {
                        prop_assert_eq!(short.subset.len(), whole.subset.len());
                    }
                    Outcome::BestFound => {
                        let result = laid.segment.check_all(&short.subset);
                        let used = result.map(|r| r.governing().1.utilisation);
                        prop_assert!(used.is_some_and(|used| used <= 1.0));
                        prop_assert!(short.lower_bound <= whole.subset.len());
                        found_something.see(true);
                    }
                    Outcome::NonePasses | Outcome::NoneFound => {
                        prop_assert_eq!(short.subset.len(), laid.segment.candidates.len());
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    cut.at_least(20, "searches cut short");
    found_something.at_least(10, "searches cut short that found something");
}

/// The rows the benches time are what they are said to be, and no aim beats the one for few hooks.
#[test]
fn long_rows_are_laid_out_for_every_aim() {
    let [rows, hold] = std::array::from_fn(|_| Tally::default());
    runner(14)
        .run(&long_row(), |mut draft| {
            let mut with_aim = |aim| {
                draft.objective = aim;
                let job = job(&draft.request());
                let layout = lay_out(&job);
                prop_assert_eq!(job.roof.rafters.positions.len(), RAFTERS_OF_LONG_ROW as usize);
                prop_assert!(layout.rails.iter().all(|rail| rail.segments.len() > 1));
                let varies = |case: &beam::Case| {
                    case.points.windows(2).any(|pair| (pair[0] - pair[1]).abs() > 1.0)
                };
                let by_zone = |laid: &LaidSegment| laid.segment.normal.cases().iter().any(varies);
                prop_assert!(layout.segments().any(by_zone));
                let passes = layout.segments().all(|laid| laid.found.outcome.passes());
                Ok(passes.then(|| layout.hooks().count()))
            };
            let fewest = with_aim(Objective::FewestHooks)?;
            for other in [Objective::EvenSpacing, Objective::Staggered, Objective::SameRafters] {
                if let Some(hooks) = with_aim(other)? {
                    prop_assert!(fewest.is_some_and(|fewest| fewest <= hooks));
                }
            }
            rows.see(true);
            hold.see(fewest.is_some());
            Ok(())
        })
        .unwrap();
    rows.at_least(14, "long rows laid out for every aim");
    hold.at_least(3, "of them with hooks that hold");
}
