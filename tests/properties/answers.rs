//! What an answer says of itself is true.

use hookspan::service::layout::run;
use hookspan::service::request::Options;
use hookspan::wire::layout::LayoutAnswer;
use hookspan::wire::remarks::{Severity, Verdict};
use proptest::prelude::*;
use serde_json::Value;

use crate::jobs::{Draft, any_job};
use crate::{Tally, runner};

fn answer(draft: &Draft) -> LayoutAnswer {
    run(&draft.request(), String::new(), &Options { trace: true, ..Options::default() })
        .expect("a valid job")
}

/// Pointers to every null, which is what a number that is none would become.
fn nulls(value: &Value, at: &str, found: &mut Vec<String>) {
    match value {
        Value::Null => found.push(at.to_owned()),
        Value::Array(items) => {
            for (i, item) in items.iter().enumerate() {
                nulls(item, &format!("{at}/{i}"), found);
            }
        }
        Value::Object(members) => {
            for (name, member) in members {
                nulls(member, &format!("{at}/{name}"), found);
            }
        }
        Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}

/// The largest utilisation printed beside any hook, rail, module or rafter.
fn largest_printed(answer: &LayoutAnswer) -> f64 {
    let hooks = answer.hooks.iter().map(|hook| hook.utilisation.max);
    let rails = answer.rails.iter().map(|rail| rail.utilisation);
    let modules = answer.modules.iter().map(|module| module.utilisation.max);
    let rafters = answer.rafters.iter().filter_map(|r| Some(r.utilisation.as_ref()?.max));
    hooks.chain(rails).chain(modules).chain(rafters).fold(0.0, f64::max)
}

#[test]
fn the_same_request_gets_the_same_bytes() {
    let answers = Tally::default();
    runner(40)
        .run(&any_job(), |draft| {
            let text = || serde_json::to_string(&answer(&draft)).expect("an answer is JSON");
            prop_assert_eq!(text(), text());
            answers.see(true);
            Ok(())
        })
        .unwrap();
    answers.at_least(40, "answers given twice");
}

#[test]
fn every_number_of_an_answer_is_one() {
    let answers = Tally::default();
    runner(80)
        .run(&any_job(), |draft| {
            let value = serde_json::to_value(answer(&draft)).expect("an answer is JSON");
            let mut found = Vec::new();
            nulls(&value, "", &mut found);
            prop_assert!(found.is_empty(), "null at {found:?}");
            answers.see(true);
            Ok(())
        })
        .unwrap();
    answers.at_least(80, "answers without a null");
}

#[test]
fn verdict_warnings_and_utilisations_agree() {
    let [holding, failing, incomplete] = std::array::from_fn(|_| Tally::default());
    runner(150)
        .run(&any_job(), |draft| {
            let answer = answer(&draft);
            let largest = largest_printed(&answer);
            prop_assert!((answer.utilisation.max - largest).abs() < 1e-12);
            let worst = answer.warnings.iter().map(|w| w.severity).min();
            let first = answer.warnings.first().map(|w| w.severity);
            prop_assert_eq!(worst, first, "most severe first");
            let expected = match worst {
                Some(Severity::Failure) => Verdict::Fails,
                Some(Severity::Incomplete) => Verdict::Incomplete,
                Some(Severity::Warning) => Verdict::HoldsWithWarnings,
                Some(Severity::Notice) | None => Verdict::Holds,
            };
            prop_assert_eq!(answer.verdict, expected);
            if answer.verdict != Verdict::Fails {
                prop_assert!(largest <= 1.0, "{largest} in {:?}", answer.verdict);
            }
            let optimality = &answer.optimality;
            prop_assert_eq!(optimality.hooks, answer.hooks.len() as u64);
            prop_assert!(!optimality.proven || optimality.lower_bound == optimality.hooks);
            holding.see(matches!(answer.verdict, Verdict::Holds | Verdict::HoldsWithWarnings));
            failing.see(answer.verdict == Verdict::Fails);
            incomplete.see(answer.verdict == Verdict::Incomplete);
            Ok(())
        })
        .unwrap();
    holding.at_least(5, "answers that hold");
    failing.at_least(30, "answers that fail");
    incomplete.at_least(3, "answers that are incomplete");
}
