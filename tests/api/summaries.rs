//! What `?answer=summary` promises: nothing in it that the full answer does not say, and little of it.

use std::collections::BTreeSet;

use serde_json::{Value, json};

use crate::server::{ACTIONS, BARN, BUILT, COTTAGE, STATEMENT, SURVEY, list, post};

/// Most bytes of a summary.
const MOST_BYTES: usize = 1500;

/// Every kind of job: its address, its name and an example.
const JOBS: [(&str, &str, &str); 7] = [
    ("/v1/layouts", "layout", BARN),
    ("/v1/layouts", "layout", COTTAGE),
    ("/v1/layouts", "layout", include_str!("../data/layout-stable.json")),
    ("/v1/rechecks", "recheck", BUILT),
    ("/v1/surveys", "survey", SURVEY),
    ("/v1/actions", "actions", ACTIONS),
    ("/v1/statements", "statement", STATEMENT),
];

#[track_caller]
fn text_of(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("no text: {value}"))
}

fn number_of(answer: &Value, member: &str) -> usize {
    answer[member].as_array().map_or(0, Vec::len)
}

#[test]
fn a_summary_says_what_the_answer_says_and_is_short() {
    for (path, kind, job) in JOBS {
        let full = post(path, job.as_bytes()).json();
        let reply = post(&format!("{path}?answer=summary"), job.as_bytes());
        assert_eq!(reply.status, 200, "{path}");
        assert!(reply.body.len() < MOST_BYTES, "{path}: {} bytes", reply.body.len());
        let summary = reply.json();
        assert_eq!((&summary["kind"], &summary["of"]), (&json!("summary"), &json!(kind)));
        assert_eq!(full["kind"], kind);
        for member in [
            "engine",
            "input_digest",
            "hook_part",
            "verdict",
            "headline",
            "verdicts",
            "utilisation",
            "difference",
        ] {
            assert_eq!(summary.get(member), full.get(member), "{path}: {member}");
        }
        let reference = if kind == "statement" { "document" } else { "reference" };
        assert_eq!(summary["reference"], full[reference], "{path}");
        let missing = if kind == "statement" { "needed" } else { "missing" };
        for (count, member) in [
            ("rails", "rails"),
            ("hooks", "hooks"),
            ("modules", "modules"),
            ("missing", missing),
            ("assumptions", "assumptions"),
        ] {
            assert_eq!(summary["counts"][count], number_of(&full, member), "{path}: {member}");
        }
        let none = json!([]);
        let findings = list(full.get("warnings").unwrap_or(&none));
        for (severity, member) in [
            ("failure", "failures"),
            ("incomplete", "incomplete"),
            ("warning", "warnings"),
            ("notice", "notices"),
        ] {
            let of = findings.iter().filter(|finding| finding["severity"] == severity);
            let codes: Vec<&str> = of.map(|finding| text_of(&finding["code"])).collect();
            assert_eq!(summary["counts"][member], codes.len(), "{path}: {member}");
            let each: BTreeSet<&str> = codes.into_iter().collect();
            let told = list(&summary["codes"][member]);
            let told_each: BTreeSet<&str> = told.iter().map(text_of).collect();
            assert_eq!((told.len(), &told_each), (each.len(), &each), "{path}: {member}");
        }
    }
}

/// Its one sentence is in the language and the units asked for.
#[test]
fn a_summary_is_said_in_the_language_asked_for() {
    let said = |query: &str| {
        let reply = post(&format!("/v1/layouts?answer=summary{query}"), BARN.as_bytes());
        text_of(&reply.json()["headline"]).to_owned()
    };
    let full = post("/v1/layouts?lang=de", BARN.as_bytes()).json();
    assert_eq!(said("&lang=de"), text_of(&full["headline"]));
    assert_ne!(said("&lang=de"), said("&lang=en"));
}

#[test]
fn a_summary_has_no_trace_and_no_picture() {
    for (query, code) in [
        ("answer=summary&trace=full", "contradiction"),
        ("answer=short", "unknown_value"),
        ("answer=summary&answer=full", "contradiction"),
    ] {
        let reply = post(&format!("/v1/layouts?{query}"), BARN.as_bytes());
        assert_eq!(reply.status, 422, "{query}");
        assert_eq!(reply.json()["errors"][0]["code"], code, "{query}");
    }
}

/// Findings are joined by their ids: every id is there once, and whoever names one names one that is.
#[test]
fn findings_are_joined_by_their_ids() {
    let mut named = 0;
    for (path, _, job) in JOBS {
        let answer = post(path, job.as_bytes()).json();
        let none = json!([]);
        let findings = list(answer.get("warnings").unwrap_or(&none));
        let ids: BTreeSet<&str> = findings.iter().map(|finding| text_of(&finding["id"])).collect();
        assert_eq!(ids.len(), findings.len(), "{path}: an id is there twice");
        let elements: BTreeSet<&str> = ["hooks", "rails", "modules"]
            .iter()
            .flat_map(|member| list(answer.get(*member).unwrap_or(&none)))
            .map(|element| text_of(&element["id"]))
            .collect();
        for finding in findings {
            let path = text_of(&finding["path"]);
            let at = answer.pointer(path).unwrap_or_else(|| panic!("nothing is at {path}"));
            if let Some(element) = finding["element"].as_str() {
                let rafter = element.strip_prefix("rafter ");
                assert!(rafter.is_some() || elements.contains(element), "{finding}");
                // A segment has no id of its own: it is its rail's.
                assert!(at.get("id").is_none_or(|id| id == element), "{finding}");
                named += 1;
            }
        }
        let mut in_causes = BTreeSet::new();
        for cause in list(answer.get("causes").unwrap_or(&none)) {
            for id in list(&cause["findings"]) {
                let finding = findings.iter().find(|finding| finding["id"] == *id);
                let finding = finding.unwrap_or_else(|| panic!("no finding is called {id}"));
                assert_eq!(
                    (&finding["code"], &finding["severity"]),
                    (&cause["code"], &cause["severity"])
                );
                in_causes.insert(text_of(id));
            }
        }
        let has_causes = answer.get("causes").is_some();
        assert!(!has_causes || in_causes == ids, "{path}: every finding is in a cause");
        for missing in list(answer.get("missing").unwrap_or(&none)) {
            let Some(id) = missing.get("finding") else { continue };
            let finding =
                findings.iter().find(|finding| finding["id"] == *id).expect("it is there");
            assert_eq!(finding["code"], missing["check"]);
            assert!(finding["pointer"].is_string(), "{finding}");
        }
    }
    assert!(named > 0, "no finding of any job names an element");
}
