//! What one hook fewer would mean on a rail, against every choice of so many hooks.

use hookspan::effort::{Allowance, Effort};
use hookspan::placement::layout::lay_out;
use hookspan::placement::one_fewer::one_fewer;

use crate::jobs::{job, short_job};
use crate::search::{every_choice, lowest};
use crate::{Tally, runner};
use proptest::prelude::*;

/// Utilisations closer than this count as equal.
const EQUAL: f64 = 1e-9;

#[test]
fn one_hook_fewer_is_the_best_of_all_choices_of_so_many() {
    let [rails, over, not_held] = std::array::from_fn(|_| Tally::default());
    runner(80)
        .run(&short_job(), |draft| {
            let job = job(&draft.request());
            for laid in lay_out(&job).segments().filter(|laid| laid.found.outcome.passes()) {
                if laid.segment.candidates.len() > 12 {
                    continue;
                }
                let mut unlimited = Allowance::from(&Effort::unlimited());
                let fewer = one_fewer(laid, &mut unlimited).expect("few choices");
                prop_assert!(fewer.exact);
                prop_assert_eq!(fewer.hooks + 1, laid.found.subset.len());
                let best = lowest(&every_choice(&laid.segment), fewer.hooks);
                if let Some((_, most)) = fewer.governing {
                    prop_assert!((most.utilisation - best).abs() <= EQUAL * best);
                    // The fewest are proven: with one fewer something is over its limit.
                    prop_assert!(!laid.found.outcome.is_proven() || best > 1.0);
                    over.see(best > 1.0);
                } else {
                    prop_assert!(best.is_infinite());
                    not_held.see(true);
                }
                rails.see(true);
            }
            Ok(())
        })
        .unwrap();
    rails.at_least(60, "rails that pass");
    over.at_least(20, "of them overloaded with one hook fewer");
    not_held.at_least(5, "of them not held with one hook fewer");
}
