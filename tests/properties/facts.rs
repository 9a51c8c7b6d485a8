//! Every fact that an assessment can find is found in some job.
//!
//! `facts.json` says how each job differs from an example (a value for each pointer, null to take the
//! member away) and which facts it is there for.

use std::collections::BTreeSet;

use hookspan::assessment::CATALOGUE;
use hookspan::checks::Check;
use hookspan::http::job::{self, Kind};
use hookspan::placement::layout::lay_out;
use hookspan::service::intake;
use hookspan::service::request::Options;
use hookspan::wire::actions::ActionsRequest;
use hookspan::wire::layout::LayoutRequest;
use hookspan::wire::recheck::RecheckRequest;
use hookspan::wire::survey::SurveyRequest;
use serde::Deserialize;
use serde_json::{Map, Value};

use crate::members::patched;

/// Facts no job here has, and why they stay.
const NOT_FOUND_HERE: &[(&str, &str)] = &[
    (
        "survey.search-ended",
        "the search for packers has a limit; no survey is known that it reaches without a way found",
    ),
    ("survey.packing-not-proven", "as before, with a way found that may not be the lowest"),
];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    base: String,
    edits: Map<String, Value>,
    finds: Vec<String>,
}

/// The codes of all findings of an answer.
pub fn codes_of(answer: &Value) -> BTreeSet<String> {
    let all = ["/warnings", "/recheck/warnings"].map(|at| answer.pointer(at));
    let warnings = all.into_iter().flatten().filter_map(Value::as_array).flatten();
    warnings.filter_map(|warning| warning["code"].as_str()).map(str::to_owned).collect()
}

/// The answer to a job made of an example.
pub fn answer_of(base: &str, job: &Value) -> Value {
    match base.split('-').next() {
        Some("layout") => answered::<LayoutRequest>(job),
        Some("recheck") => answered::<RecheckRequest>(job),
        Some("survey") => answered::<SurveyRequest>(job),
        _ => answered::<ActionsRequest>(job),
    }
}

fn answered<R: Kind>(job: &Value) -> Value {
    let answer = job::answer::<R>(job.to_string().as_bytes(), &Options::default());
    let answer = answer.unwrap_or_else(|problem| panic!("{problem:?}"));
    serde_json::to_value(answer).expect("an answer is JSON")
}

/// A check that no list of a member's results has would never be looked at.
#[test]
fn every_check_is_among_the_results_of_a_layout() {
    let barn = include_str!("../data/layout-barn.json");
    let request: LayoutRequest = serde_json::from_str(barn).expect("an example");
    let job = intake::take(&request).expect("a job").job;
    let layout = lay_out(&job);
    let made: BTreeSet<&str> = layout.checks().map(|((check, _), _)| check.name()).collect();
    assert_eq!(made, Check::ALL.iter().map(|check| check.name()).collect());
}

#[test]
fn every_fact_is_found_in_some_job() {
    let cases: Vec<Case> = serde_json::from_str(include_str!("facts.json")).expect("cases");
    let mut found = BTreeSet::new();
    for Case { base, edits, finds } in cases {
        let path = format!("tests/data/{base}.json");
        let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
        let edits: Vec<_> = edits.iter().map(|(at, value)| (at.as_str(), value.clone())).collect();
        let job = patched(serde_json::from_str(&text).expect("an example is JSON"), &edits);
        let here = codes_of(&answer_of(&base, &job));
        for fact in &finds {
            assert!(here.contains(fact), "{base} with {edits:?} has no {fact}: {here:?}");
        }
        found.extend(here);
    }
    for kind in CATALOGUE {
        let listed = NOT_FOUND_HERE.iter().any(|(code, _)| *code == kind.code);
        assert!(found.contains(kind.code) != listed, "{}: found and listed, or neither", kind.code);
    }
}
