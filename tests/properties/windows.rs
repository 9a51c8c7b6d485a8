//! Windows against every choice of hooks that passes, and rails too long for trying every choice
//! against the other ways to look through them.

use hookspan::checks::probe::Probe;
use hookspan::checks::segment::{Limit, Segment, Workspace};
use hookspan::checks::windows::{Hooks, WINDOW, Windows};
use hookspan::effort::{Allowance, Effort};
use hookspan::placement::layout::lay_out;
use hookspan::placement::search::{Outcome, Way, fewest_hooks_by};
use proptest::prelude::*;

use crate::jobs::{job, long_row, short_job};
use crate::stronger::stronger;
use crate::{Tally, runner};

/// Every choice whose free ends are short enough and that stays within a bound.
fn that_pass(segment: &Segment, bound: f64) -> Vec<Vec<usize>> {
    let places = &segment.candidates;
    (0..1_u32 << places.len())
        .map(|bits| (0..places.len()).filter(|i| bits >> i & 1 == 1).collect::<Vec<_>>())
        .filter(|hooks| hooks.len() >= WINDOW && segment.ends_are_short(hooks))
        .filter(|hooks| {
            let result = segment.check_all(hooks);
            result.is_some_and(|result| result.governing().1.utilisation <= bound)
        })
        .collect()
}

/// Whether every window of a choice is among these, which are told from the right.
fn are_kept(choice: &[usize], windows: &Windows) -> bool {
    (WINDOW..choice.len())
        .all(|taken| windows.right_of(&choice[..taken], choice.len() - taken).is_some())
}

/// The same rail with a limit on its deflection that governs, and a combination that asks for it.
fn deflected(segment: &Segment, share: f64) -> Option<(Segment, usize)> {
    let all: Vec<usize> = (0..segment.candidates.len()).collect();
    let used = segment.check_all(&all)?.deflection.utilisation;
    let mut segment = segment.clone();
    segment.limits.ratio *= share / used;
    let service = segment.cases.iter().position(|case| matches!(case.limit, Limit::Service))?;
    (used > 0.0).then_some((segment, service))
}

#[test]
fn every_choice_that_passes_is_a_row_of_windows() {
    let (tally, limp) = ([(); 3].map(|()| Tally::default()), Tally::default());
    runner(110)
        .run(&(short_job(), 0.5..1.0, 0.8..3.0, 0.5..1.0), |(draft, bound, times, share)| {
            let job = job(&draft.request());
            for laid in lay_out(&job).segments() {
                if laid.segment.candidates.len() > 11 {
                    continue;
                }
                let segment = &stronger(&laid.segment, times);
                rows_are_kept(segment, None, bound, &tally)?;
                if let Some((segment, service)) = deflected(segment, bound * share) {
                    rows_are_kept(&segment, Some(service), bound, &tally)?;
                    limp.see(true);
                }
            }
            Ok(())
        })
        .unwrap();
    let [kept, dropped, refuted] = tally;
    kept.at_least(1000, "choices that pass, made up of windows kept");
    dropped.at_least(200, "numbers of hooks no windows reach from end to end with");
    refuted.at_least(20, "rails no windows reach the ends of");
    limp.at_least(100, "rails whose deflection governs");
}

fn rows_are_kept(
    segment: &Segment,
    asked: Option<usize>,
    bound: f64,
    [kept, dropped, refuted]: &[Tally; 3],
) -> Result<(), TestCaseError> {
    let Some(mut probe) = Probe::new(segment) else { return Ok(()) };
    if let Some(case) = asked {
        prop_assert!(probe.turn_to(case));
    }
    probe.stay_within(bound);
    let spans = probe.spans(bound);
    let pass = that_pass(segment, bound);
    let most = segment.candidates.len();
    let allowance = Allowance::from(&Effort::unlimited());
    let patience = (u64::MAX, &allowance);
    let any = Windows::of_at_most(most, &probe, &spans, patience).expect("no limit");
    let back = |windows: &Windows, hooks| {
        windows.told_back(&probe, &spans, hooks, patience).expect("no limit")
    };
    let from_left = back(&any, Hooks::AtMost(most));
    let fewest = pass.iter().map(Vec::len).min();
    for windows in [&any, &from_left] {
        let least = windows.fewest(segment);
        prop_assert!(fewest.is_none_or(|fewest| least.is_some_and(|l| l <= fewest)));
        refuted.see(least.is_none());
    }
    for hooks in WINDOW..=most {
        let mut told = from_left.clone();
        let of_these: Vec<_> = pass.iter().filter(|c| c.len() == hooks).collect();
        // From the right, from the left, and from the right again.
        for turn in 0..3 {
            told = back(&told, Hooks::Exactly(hooks));
            let reach = told.fewest(segment).is_some();
            prop_assert!(reach || of_these.is_empty());
            dropped.see(!reach && turn == 2);
            for choice in of_these.iter().filter(|_| turn != 1) {
                prop_assert!(are_kept(choice, &any), "{:?}", choice);
                prop_assert!(are_kept(choice, &told), "{:?} {}", choice, turn);
                kept.see(true);
            }
        }
    }
    Ok(())
}

/// Rails too long for trying every choice, in two ways that share neither windows nor right parts.
#[test]
fn windows_and_parts_find_the_same() {
    let [same, none, above_five] = std::array::from_fn(|_| Tally::default());
    runner(12)
        .run(&long_row(), |draft| {
            let job = job(&draft.request());
            for laid in lay_out(&job).segments().take(2) {
                for times in [0.8, 1.0, 1.6] {
                    let segment = stronger(&laid.segment, times);
                    let [by_parts, by_windows] = [Way::Parts, Way::Windows]
                        .map(|way| fewest_hooks_by(way, &segment, 1.0, 2_000_000));
                    let ended = |outcome: Outcome| {
                        matches!(outcome, Outcome::FewestProven | Outcome::NonePasses)
                    };
                    if ended(by_parts.outcome) && ended(by_windows.outcome) {
                        prop_assert_eq!(by_parts.outcome, by_windows.outcome);
                        prop_assert_eq!(&by_parts.subset, &by_windows.subset);
                        same.see(true);
                        none.see(by_parts.outcome == Outcome::NonePasses);
                        above_five.see(by_parts.subset.len() > 5);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    same.at_least(30, "rail segments laid out alike");
    none.at_least(2, "of them nothing holds");
    above_five.at_least(10, "of them with more than five hooks");
}

/// Rows without a gap: more than sixty candidates in one piece, far too many for other ways. No hook
/// of what is said to be the fewest can be left out, and none moved to the next place so that all are
/// used less.
#[test]
fn rows_without_a_gap_are_proven() {
    let proven = Tally::default();
    runner(18)
        .run(&long_row(), |mut draft| {
            draft.parts.max_continuous_mm = 60_000.0;
            let mut request = draft.request();
            if let Some(wishes) = &mut request.wishes {
                wishes.search_limit = None;
            }
            let job = job(&request);
            let mut space = Workspace::default();
            for laid in lay_out(&job).segments() {
                let (segment, found) = (&laid.segment, &laid.found);
                if segment.candidates.len() < 60 || found.outcome != Outcome::FewestProven {
                    continue;
                }
                let used = segment.within_alone(&found.subset, 1.0, &mut space);
                let Some(used) = used else { return Err(TestCaseError::fail("it does not hold")) };
                prop_assert_eq!(found.lower_bound, found.subset.len());
                for at in 0..found.subset.len() {
                    let mut fewer = found.subset.clone();
                    let hook = fewer.remove(at);
                    prop_assert_eq!(segment.within_alone(&fewer, 1.0, &mut space), None);
                    for place in [hook.wrapping_sub(1), hook + 1] {
                        let mut moved = fewer.clone();
                        if place < segment.candidates.len() && !moved.contains(&place) {
                            moved.insert(at, place);
                            let less = segment.within_alone(&moved, used - 1e-9, &mut space);
                            prop_assert_eq!(less, None, "{} to {}", hook, place);
                        }
                    }
                }
                proven.see(true);
            }
            Ok(())
        })
        .unwrap();
    proven.at_least(4, "rails of sixty candidates and more proven");
}
