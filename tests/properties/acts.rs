//! Whatever could not run names the act that lifts it: the act is done, and the finding is gone.
//!
//! `acts.json` says how a job comes to lack something, which act its answer names, and what the request
//! says once that is done; where the act is a declaration, it says nothing more.

use std::collections::BTreeSet;

use hookspan::assessment::{Act, CATALOGUE};
use serde::Deserialize;
use serde_json::{Map, Value, json};

use crate::facts::{answer_of, codes_of};
use crate::members::patched;

/// What no job here lacks, and why it stays.
const LACKED_BY_NO_JOB: &[(&str, &str)] = &[(
    "survey.search-ended",
    "the search for packers has a limit; no survey is known that it reaches without a way found",
)];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    lacks: String,
    base: String,
    edits: Map<String, Value>,
    act: String,
    done: Map<String, Value>,
}

fn cases() -> Vec<Case> {
    serde_json::from_str(include_str!("acts.json")).expect("cases")
}

impl Case {
    /// The job that lacks something.
    fn job(&self) -> Value {
        let path = format!("tests/data/{}.json", self.base);
        let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
        edited(serde_json::from_str(&text).expect("an example is JSON"), &self.edits)
    }

    fn answer(&self, job: &Value) -> Value {
        let answer = answer_of(&self.base, job);
        answer.get("recheck").cloned().unwrap_or(answer)
    }

    fn is_lacked_in(&self, answer: &Value) -> bool {
        codes_of(answer).contains(&self.lacks)
    }
}

fn edited(job: Value, edits: &Map<String, Value>) -> Value {
    let edits: Vec<_> = edits.iter().map(|(at, value)| (at.as_str(), value.clone())).collect();
    patched(job, &edits)
}

fn declared(job: &Value, check: &str) -> Value {
    let declaration = json!({
        "check": check, "by": "approved", "who": "an office", "document": "approval 12",
    });
    patched(job.clone(), &[("/declarations", json!([declaration]))])
}

#[test]
fn every_act_lifts_what_it_is_named_for() {
    for case in cases() {
        let code = &case.lacks;
        let job = case.job();
        let before = case.answer(&job);
        assert!(case.is_lacked_in(&before), "{code}: {:?}", codes_of(&before));
        let missing = before["missing"].as_array().expect("a list");
        let named: Vec<&Value> = missing.iter().filter(|m| m["check"] == **code).collect();
        assert!(!named.is_empty(), "{code}");
        for missing in named {
            assert_eq!(missing["act"], case.act, "{code}");
            if code != "survey.not-measured" {
                assert_ne!(missing["pointer"], "", "{code}");
            }
        }
        if case.act != "declare" {
            assert!(!case.done.is_empty(), "{code}");
            let after = case.answer(&edited(job, &case.done));
            assert!(!case.is_lacked_in(&after), "{code}: {after}");
        }
    }
}

#[test]
fn a_declaration_takes_over_whatever_can_be_declared_and_never_makes_it_hold() {
    let held = ["holds_with_warnings", "incomplete", "fails", "not_assessed"];
    let mut seen = BTreeSet::new();
    for case in cases() {
        let code = &case.lacks;
        let kind = CATALOGUE.iter().find(|kind| kind.code == *code).expect("a kind");
        if !kind.acts.iter().any(|act| matches!(act, Act::Declare | Act::Prove)) {
            continue;
        }
        seen.insert(code.clone());
        let answer = case.answer(&declared(&case.job(), code));
        assert!(!case.is_lacked_in(&answer), "{code}");
        let [taken] = answer["declarations"].as_array().expect("a list").as_slice() else {
            panic!("{code}: {}", answer["declarations"])
        };
        assert_eq!(taken["check"], **code);
        assert!(!taken["instead_of"].as_array().expect("a list").is_empty(), "{code}");
        for scope in taken["scopes"].as_array().expect("a list") {
            let verdict = &answer["verdicts"][scope.as_str().expect("a name")];
            assert!(held.iter().any(|held| verdict == held), "{code}: {scope} {verdict}");
        }
    }
    assert!(seen.len() > 20, "{}", seen.len());
}

#[test]
fn every_kind_that_can_be_without_a_result_has_its_job_here() {
    let lacked: BTreeSet<String> = cases().into_iter().map(|case| case.lacks).collect();
    for kind in CATALOGUE.iter().filter(|kind| !kind.acts.is_empty()) {
        let listed = LACKED_BY_NO_JOB.iter().any(|(code, _)| *code == kind.code);
        assert!(lacked.contains(kind.code) != listed, "{}", kind.code);
    }
}
