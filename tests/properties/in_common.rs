//! Hooks on the same rafters on all rails of a field, against trying every set of rafters.

use std::collections::{BTreeMap, BTreeSet};

use hookspan::checks::segment::Segment;
use hookspan::effort::{Allowance, Effort};
use hookspan::placement::laid::{LaidSegment, Layout};
use hookspan::placement::layout::lay_out;
use hookspan::placement::search::{Found, Limit, Outcome, Pattern, fewest_hooks, fewest_in_common};
use hookspan::wire::array::Objective;
use proptest::prelude::*;

use crate::jobs::{Draft, job, short_job};
use crate::mirror::mirrored;
use crate::stronger::stronger;
use crate::{Tally, runner};

/// Utilisations closer than this count as equal.
const EQUAL: f64 = 1e-9;

/// A set of rafters, by their numbers, on all segments.
#[derive(Debug, Clone)]
struct Choice {
    rafters: Vec<i64>,
    hooks: usize,
    used: f64,
}

/// The candidates of a segment on a set of rafters.
fn on(segment: &Segment, rafters: &[i64]) -> Vec<usize> {
    let candidates = segment.candidates.iter().enumerate();
    candidates.filter(|(_, c)| rafters.contains(&c.step)).map(|(i, _)| i).collect()
}

/// Every set of rafters that holds the ends of all segments, in lexicographic order.
fn every_choice(segments: &[Segment]) -> Vec<Choice> {
    let steps = segments.iter().flat_map(|s| s.candidates.iter().map(|c| c.step));
    let all: Vec<i64> = steps.collect::<BTreeSet<i64>>().into_iter().collect();
    // What a choice of hooks on a segment uses does not depend on the other segments.
    let mut known: BTreeMap<(usize, Vec<usize>), Option<f64>> = BTreeMap::new();
    let mut out = Vec::new();
    for bits in 0..1_u32 << all.len() {
        let rafters: Vec<i64> =
            (0..all.len()).filter(|i| bits >> i & 1 == 1).map(|i| all[i]).collect();
        let mut choice = Choice { rafters, hooks: 0, used: 0.0 };
        let all_stand = segments.iter().enumerate().all(|(s, segment)| {
            let hooks = on(segment, &choice.rafters);
            choice.hooks += hooks.len();
            let used = known.entry((s, hooks)).or_insert_with_key(|(_, hooks)| {
                let ends = hooks.len() >= 2 && segment.ends_are_short(hooks);
                let result = ends.then(|| segment.check_all(hooks)).flatten();
                result.map(|result| result.governing().1.utilisation)
            });
            choice.used = choice.used.max(used.unwrap_or(f64::INFINITY));
            used.is_some()
        });
        if all_stand {
            out.push(choice);
        }
    }
    out.sort_by(|a, b| a.rafters.cmp(&b.rafters));
    out
}

/// The set to be found: the fewest hooks in all, of these the lowest utilisation, of these the first.
fn best(choices: &[Choice], bound: f64) -> Option<&Choice> {
    let passing = || choices.iter().filter(|choice| choice.used <= bound);
    let fewest = passing().map(|choice| choice.hooks).min()?;
    let of_these = || passing().filter(|choice| choice.hooks == fewest);
    let lowest = of_these().map(|choice| choice.used).fold(f64::INFINITY, f64::min);
    of_these().find(|choice| choice.used <= lowest + EQUAL)
}

/// Bounds that make sets of rafters of different numbers the fewest, and one that none meets.
fn bounds(choices: &[Choice]) -> Vec<f64> {
    let mut lowest: BTreeMap<usize, f64> = BTreeMap::new();
    for choice in choices {
        let known = lowest.entry(choice.hooks).or_insert(f64::INFINITY);
        *known = known.min(choice.used);
    }
    let mut out: Vec<f64> = Vec::new();
    let mut least = f64::INFINITY;
    for used in lowest.into_values().filter(|used| *used <= 1.0) {
        if used < least {
            out.push(if least.is_finite() { f64::midpoint(used, least) } else { used });
            least = used;
        }
    }
    out.push(least.min(1.0) * 0.99);
    out
}

fn searched(segments: &[Segment], bound: f64, weighed: u64) -> (Vec<Found>, Vec<Found>) {
    let alone = |segment| fewest_hooks(segment, bound, Pattern::Free, weighed, &[]);
    let alone: Vec<Found> = segments.iter().map(alone).collect();
    let mut allowance = Allowance::from(&Effort::unlimited());
    let limit = Limit { weighed, allowance: Some(&mut allowance) };
    let of: Vec<&Segment> = segments.iter().collect();
    let found = fewest_in_common(&of, &alone, bound, limit);
    (alone, found)
}

/// The segments of a field, made so strong that two hooks on each do if they are the right ones.
fn segments_of_a_field(draft: &Draft) -> Vec<Segment> {
    let job = job(&draft.request());
    let layout = lay_out(&job);
    let rails = layout.rails.iter().filter(|rail| rail.line.field() == 0);
    let all = rails.flat_map(|rail| &rail.segments);
    let mut all: Vec<Segment> = all.map(|laid| stronger(&laid.segment, 1.0)).collect();
    all.retain(|segment| segment.candidates.len() >= 2);
    all
}

#[test]
fn no_set_of_rafters_beats_the_one_found() {
    let [fields, bounds_seen, unequal, dearer, three] = std::array::from_fn(|_| Tally::default());
    runner(150)
        .run(&short_job(), |draft| {
            let all = segments_of_a_field(&draft);
            let steps = all.iter().flat_map(|s| s.candidates.iter().map(|c| c.step));
            if all.len() < 2 || steps.collect::<BTreeSet<i64>>().len() > 10 {
                return Ok(());
            }
            let two = every_choice(&all).iter().map(|c| (c.hooks, c.used)).fold(
                (usize::MAX, f64::INFINITY),
                |least, next| {
                    if next.0 < least.0 || (next.0 == least.0 && next.1 < least.1) {
                        next
                    } else {
                        least
                    }
                },
            );
            let by = if two.1.is_finite() { two.1 } else { 1.0 };
            let all: Vec<Segment> = all.iter().map(|segment| stronger(segment, by)).collect();
            let choices = every_choice(&all);
            fields.see(true);
            for bound in bounds(&choices) {
                let (alone, found) = searched(&all, bound, u64::MAX);
                if alone.iter().any(|found| !found.outcome.is_proven()) {
                    prop_assert!(best(&choices, bound).is_none());
                    continue;
                }
                let Some(best) = best(&choices, bound) else {
                    for (segment, found) in all.iter().zip(&found) {
                        prop_assert_eq!(found.outcome, Outcome::NonePasses);
                        prop_assert_eq!(found.subset.len(), segment.candidates.len());
                    }
                    continue;
                };
                let hooks: usize = found.iter().map(|found| found.subset.len()).sum();
                for (segment, found) in all.iter().zip(&found) {
                    prop_assert_eq!(found.outcome, Outcome::FewestProven);
                    prop_assert_eq!(&found.subset, &on(segment, &best.rafters));
                    prop_assert_eq!(found.lower_bound, found.subset.len());
                }
                prop_assert_eq!(hooks, best.hooks);
                bounds_seen.see(true);
                let by_itself: usize = alone.iter().map(|found| found.subset.len()).sum();
                prop_assert!(by_itself <= hooks);
                dearer.see(by_itself < hooks);
                let places = |s: &Segment| s.candidates.iter().map(|c| c.step).collect::<Vec<_>>();
                unequal.see(all.iter().any(|s| places(s) != places(&all[0])));
                three.see(best.rafters.len() > 2);
            }
            Ok(())
        })
        .unwrap();
    fields.at_least(50, "fields whose sets of rafters were all tried");
    bounds_seen.at_least(100, "bounds that some set of rafters meets");
    dearer.at_least(10, "of them with more hooks than rails by themselves");
    unequal.at_least(5, "of them with rails over different rafters");
    three.at_least(50, "of them with more than two rafters");
}

#[test]
fn a_search_in_common_that_is_cut_short_says_so() {
    let [cut, passing] = std::array::from_fn(|_| Tally::default());
    runner(40)
        .run(&short_job(), |draft| {
            let all = segments_of_a_field(&draft);
            if all.len() < 2 {
                return Ok(());
            }
            let (alone, whole) = searched(&all, 1.0, 20_000);
            if alone.iter().any(|found| found.outcome == Outcome::NonePasses) {
                return Ok(());
            }
            let total = |found: &[Found]| found.iter().map(|f| f.subset.len()).sum::<usize>();
            for weighed in [1, 20, 60] {
                let mut allowance = Allowance::from(&Effort::unlimited());
                let limit = Limit { weighed, allowance: Some(&mut allowance) };
                let of: Vec<&Segment> = all.iter().collect();
                let short = fewest_in_common(&of, &alone, 1.0, limit);
                let outcome = short[0].outcome;
                prop_assert!(short.iter().all(|found| found.outcome == outcome));
                if outcome.is_proven() && whole[0].outcome.is_proven() {
                    prop_assert_eq!(total(&short), total(&whole));
                }
                if outcome.passes() {
                    passing.see(true);
                    for (segment, found) in all.iter().zip(&short) {
                        let result = segment.check_all(&found.subset).expect("a stable rail");
                        prop_assert!(result.governing().1.utilisation <= 1.0 + EQUAL);
                        prop_assert!(found.lower_bound <= found.subset.len());
                    }
                }
                cut.see(outcome != whole[0].outcome);
            }
            Ok(())
        })
        .unwrap();
    cut.at_least(15, "searches cut short");
    passing.at_least(15, "searches that found something");
}

/// Rafters by rail.
fn rafters(layout: &Layout) -> Vec<BTreeSet<usize>> {
    let rails = layout.rails.iter().map(|rail| {
        let hooks = rail.segments.iter().flat_map(LaidSegment::hooks);
        hooks.map(|place| place.rafter).collect()
    });
    rails.collect()
}

#[test]
fn all_rails_of_a_field_over_a_rafter_have_a_hook_on_it_or_none() {
    let [fields, dearer, images] = std::array::from_fn(|_| Tally::default());
    runner(100)
        .run(&short_job(), |mut draft| {
            draft.objective = Objective::SameRafters;
            let request = draft.request();
            let job_ = job(&request);
            let layout = lay_out(&job_);
            let holds = |layout: &Layout| layout.segments().all(|l| l.found.outcome.passes());
            if !holds(&layout) {
                return Ok(());
            }
            let taken = rafters(&layout);
            for (r, rail) in layout.rails.iter().enumerate() {
                for (s, laid) in rail.segments.iter().enumerate() {
                    let here = &laid.segment.candidates;
                    let beside = layout.rails.iter().zip(&taken);
                    let beside = beside.filter(|(o, _)| o.line.field() == rail.line.field());
                    let wanted: BTreeSet<usize> =
                        beside.flat_map(|(_, rafters)| rafters.iter().copied()).collect();
                    let over = |rafter: &usize| {
                        let [from, to] = rail.line.segments[s];
                        let x = job_.roof.rafters.positions[*rafter];
                        from <= x && x <= to
                    };
                    for rafter in wanted.iter().filter(|rafter| over(rafter)) {
                        // At the very end of a rail an arm may not reach it any more.
                        let reaches = here.iter().any(|place| place.rafter == *rafter);
                        let is_end = here.first().is_none_or(|place| *rafter < place.rafter)
                            || here.last().is_none_or(|place| *rafter > place.rafter);
                        prop_assert!(reaches || is_end);
                        prop_assert!(taken[r].contains(rafter) || !reaches);
                    }
                }
            }
            fields.see(true);
            if let Some(free) = layout.in_any_pattern {
                let hooks = layout.hooks().count();
                prop_assert!(free.hooks <= hooks || !free.proven);
                dearer.see(free.hooks < hooks);
                draft.objective = Objective::FewestHooks;
                prop_assert_eq!(lay_out(&job(&draft.request())).hooks().count(), free.hooks);
            }
            let image = lay_out(&job(&mirrored(&request)));
            let proven = |layout: &Layout| layout.segments().all(|l| l.found.outcome.is_proven());
            if proven(&layout) && proven(&image) {
                prop_assert_eq!(layout.hooks().count(), image.hooks().count());
                images.see(true);
            }
            Ok(())
        })
        .unwrap();
    fields.at_least(20, "layouts on the same rafters that hold");
    dearer.at_least(3, "of them with more hooks than in any pattern");
    images.at_least(20, "of them seen in a mirror");
}
