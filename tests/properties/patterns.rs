//! Wishes about the pattern of hooks are kept to.

use hookspan::placement::laid::LaidSegment;
use hookspan::placement::layout::lay_out;
use hookspan::placement::rail_lines::Position;
use hookspan::wire::array::Objective;
use proptest::prelude::*;

use crate::jobs::{any_job, job};
use crate::{Tally, runner};

fn rafters(laid: &LaidSegment) -> Vec<usize> {
    laid.found.subset.iter().map(|c| laid.segment.candidates[*c].rafter).collect()
}

#[test]
fn hooks_stand_on_listed_rafters_within_the_free_ends() {
    let hooks = Tally::default();
    runner(80)
        .run(&any_job(), |draft| {
            let job = job(&draft.request());
            for laid in lay_out(&job).segments() {
                let (start, end) = laid.segment.normal.ends();
                let at = |c: &usize| &laid.segment.candidates[*c];
                for candidate in laid.found.subset.iter().map(at) {
                    prop_assert_eq!(candidate.x, job.roof.rafters.positions[candidate.rafter]);
                    hooks.see(true);
                }
                if laid.found.outcome.passes() {
                    let ends = laid.found.subset.first().zip(laid.found.subset.last());
                    let (first, last) = ends.expect("a choice that passes has hooks");
                    let limit = job.rail.max_cantilever.mm();
                    prop_assert!(at(first).x.mm() - start <= limit);
                    prop_assert!(end - at(last).x.mm() <= limit);
                }
            }
            Ok(())
        })
        .unwrap();
    hooks.at_least(500, "hooks on their rafters");
}

#[test]
fn evenly_spaced_hooks_stand_the_same_number_of_rafters_apart() {
    let [passing, wide] = std::array::from_fn(|_| Tally::default());
    runner(150)
        .run(&any_job(), |mut draft| {
            draft.objective = Objective::EvenSpacing;
            let job = job(&draft.request());
            for laid in lay_out(&job).segments().filter(|l| l.found.outcome.passes()) {
                let rafters = rafters(laid);
                let apart: Vec<usize> = rafters.windows(2).map(|r| r[1] - r[0]).collect();
                prop_assert!(apart.windows(2).all(|a| a[0] == a[1]), "rafters {rafters:?}");
                passing.see(true);
                wide.see(apart.len() > 1 && apart[0] > 1);
            }
            Ok(())
        })
        .unwrap();
    passing.at_least(100, "evenly spaced rails that pass");
    wide.at_least(5, "of them with rafters left out between three or more hooks");
}

#[test]
fn staggered_rails_of_a_row_share_only_rafters_that_hold_their_ends() {
    let [rows, inner] = std::array::from_fn(|_| Tally::default());
    runner(80)
        .run(&any_job(), |mut draft| {
            draft.objective = Objective::Staggered;
            let job = job(&draft.request());
            for pair in lay_out(&job).rails.chunks_exact(2) {
                prop_assert_eq!(pair[0].line.position, Position::Lower);
                for (lower, upper) in pair[0].segments.iter().zip(&pair[1].segments) {
                    let places = [lower, upper].map(|laid| &laid.segment.candidates);
                    let outermost =
                        places.map(|p| [p.first(), p.last()].map(|c| c.map(|c| c.rafter)));
                    let shared: Vec<usize> = rafters(lower)
                        .into_iter()
                        .filter(|rafter| rafters(upper).contains(rafter))
                        .collect();
                    let at_an_end =
                        |rafter: &usize| outermost.as_flattened().contains(&Some(*rafter));
                    prop_assert!(shared.iter().all(at_an_end), "rafters {shared:?}");
                    rows.see(true);
                    inner.see(rafters(lower).len() > 3);
                }
            }
            Ok(())
        })
        .unwrap();
    rows.at_least(80, "staggered rows");
    inner.at_least(20, "of them with hooks between the ends");
}
