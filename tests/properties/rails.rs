//! The fewest hooks on a rail against two ways to find them that share nothing with the search: a
//! general frame solver that tried every choice of hooks, and a mixed-integer programme.
//!
//! `rails_enumerated.py` drew the rails, solved each on every subset of its places and wrote the
//! fixture beside it; `benches/independent/rails_milp.py` found the same numbers without trying all.
//! Screws and deflection of the rail are left out there and do not govern here.

use hookspan::placement::search::{Outcome, Pattern, fewest_hooks};
use serde_json::Value;

use crate::rails_given::{cases, segment};

const PROGRAMME: &str = include_str!("rails_milp.json");

/// The fewest hooks the search finds for a rail; `None` where it proves that nothing holds.
fn ours(given: &Value) -> Option<u64> {
    let found = fewest_hooks(&segment(given), 1.0, Pattern::Free, u64::MAX, &[]);
    match found.outcome {
        Outcome::FewestProven => Some(found.subset.len() as u64),
        Outcome::NonePasses => None,
        other => panic!("a rail this short is searched to its end, not {other:?}"),
    }
}

#[test]
fn as_many_hooks_as_a_general_frame_solver_finds_by_trying_all() {
    let (mut held, mut refused) = (0, 0);
    for case in cases() {
        let hooks = ours(&case["given"]);
        assert_eq!(hooks, case["hooks"].as_u64(), "{}", case["id"]);
        *if hooks.is_some() { &mut held } else { &mut refused } += 1;
    }
    println!("{held} rails laid out, {refused} that nothing holds");
    assert!(held >= 80 && refused >= 5 && held + refused == 100, "{held} and {refused}");
}

#[test]
fn as_many_hooks_as_a_mixed_integer_programme_finds() {
    let fixture: Value = serde_json::from_str(PROGRAMME).expect("the fixture is JSON");
    let answers = fixture["cases"].as_array().expect("a list of cases");
    assert_eq!(answers.len(), 100);
    for (case, answer) in cases().iter().zip(answers) {
        assert_eq!(case["id"], answer["id"]);
        assert_eq!(ours(&case["given"]), answer["hooks"].as_u64(), "{}", case["id"]);
    }
}
