//! Parts, warnings, rules.

use std::collections::BTreeSet;

use serde_json::Value;

use crate::server::{BARN, COTTAGE, get, post};

#[test]
fn every_embedded_part_is_listed_marked_and_found() {
    let list = get("/v1/components").json();
    assert!(list["notice"].as_str().expect("a notice").contains("must not be used"));
    let parts = list["components"].as_array().expect("a list");
    let kinds: BTreeSet<&str> = parts.iter().filter_map(|part| part["kind"].as_str()).collect();
    assert_eq!(kinds, BTreeSet::from(["clamp", "hook", "packers", "rail", "screw"]));
    for part in parts {
        assert_eq!(part["illustrative"], true, "{part}");
        assert!(part["notice"].as_str().expect("a notice").contains("invented"));
        assert_eq!(part["id"], part["part"]["id"]);
        let (kind, id) =
            (part["kind"].as_str().expect("a kind"), part["id"].as_str().expect("an id"));
        assert_eq!(get(&format!("/v1/components/{kind}/{id}")).json(), *part);
    }
}

#[test]
fn the_parts_of_the_examples_are_embedded_with_the_same_figures() {
    for text in [BARN, COTTAGE] {
        let job: Value = serde_json::from_str(text).expect("an example is JSON");
        for (kind, part) in job["components"].as_object().expect("an object") {
            let id = part["id"].as_str().expect("an id");
            let demo = format!("demo-{id}");
            let mut embedded = get(&format!("/v1/components/{kind}/{demo}")).json();
            assert_eq!(embedded["part"]["id"], demo);
            embedded["part"]["id"] = part["id"].clone();
            assert_eq!(embedded["part"], *part, "{kind} {id}");
        }
    }
}

/// The catalogue is held to the same limits as a caller.
#[test]
fn every_embedded_part_fits_the_request() {
    let parts = get("/v1/components").json();
    for part in parts["components"].as_array().expect("a list") {
        let mut job: Value = serde_json::from_str(BARN).expect("the barn is JSON");
        let kind = part["kind"].as_str().expect("a kind");
        job["components"][kind] = part["part"].clone();
        let reply = post("/v1/layouts", job.to_string().as_bytes());
        let schema_faults =
            ["missing", "unknown_field", "wrong_type", "out_of_range", "unknown_value"];
        let faults = reply.json()["errors"].as_array().cloned().unwrap_or_default();
        for fault in &faults {
            let code = fault["code"].as_str().expect("a code");
            assert!(!schema_faults.contains(&code), "{kind} {}: {fault}", part["id"]);
        }
    }
}

#[test]
fn a_part_of_another_kind_or_id_is_not_found() {
    for path in [
        "/v1/components/hook/demo-rail-40",
        "/v1/components/rail/no-such-rail",
        "/v1/components/bolt/demo-rail-40",
        "/v1/components/rail/%ff",
    ] {
        let reply = get(path);
        assert_eq!(reply.status, 404, "{path}");
        assert_eq!(reply.problem()["code"], "not_found", "{path}");
    }
}

#[test]
fn warnings_have_unique_codes_and_a_source() {
    let list = get("/v1/warnings").json();
    let warnings = list["warnings"].as_array().expect("a list");
    assert!(!warnings.is_empty());
    let mut codes = BTreeSet::new();
    for warning in warnings {
        let code = warning["code"].as_str().expect("a code");
        assert!(codes.insert(code), "{code} is listed twice");
        assert!(code.contains('.') && code == code.to_lowercase(), "{code}");
        for field in ["severity", "meaning", "source"] {
            assert!(!warning[field].as_str().unwrap_or_default().is_empty(), "{code}: {field}");
        }
    }
}

#[test]
fn rule_sets_can_be_pinned_and_clauses_say_what_they_rest_on_and_whether_they_are_used() {
    let rules = get("/v1/rules").json();
    let sets = rules["rule_sets"].as_array().expect("a list");
    assert!(sets.iter().any(|set| set["annex"] == "DE"));
    for set in sets {
        let (annex, revision) = (set["annex"].as_str(), set["revision"].as_str());
        assert!(revision.expect("a revision").starts_with(annex.expect("an annex")), "{set}");
    }
    let clauses = rules["clauses"].as_array().expect("a list");
    assert!(!clauses.is_empty());
    for clause in clauses {
        let from_memory = clause["confirmed"] == "from_memory";
        assert_eq!(clause["confirmed_by"].is_null(), from_memory, "{clause}");
        assert!(!clause["document"].as_str().unwrap_or_default().is_empty(), "{clause}");
    }
    for usage in ["applied", "available"] {
        assert!(clauses.iter().any(|clause| clause["use"] == usage), "no clause is {usage}");
    }
}
