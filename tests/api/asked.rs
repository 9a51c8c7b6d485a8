//! What a verdict is asked on, and what somebody else answers for.

use serde_json::{Value, json};

use crate::server::{BARN, BUILT, COTTAGE, SURVEY, answer, example, list, param, send, warnings};

const SVG: (&str, &str) = ("accept", "image/svg+xml");
const SHEET: (&str, &str) = ("accept", "text/html");

fn lay_out(job: &Value) -> Value {
    answer("/v1/layouts", job)
}

/// The cottage on trusses of which no span is known; its rafters and modules are not asked about.
fn without_rafters() -> Value {
    let mut job = example(COTTAGE);
    job["scopes"] = json!(["fixing"]);
    job
}

fn declared(check: &str) -> Value {
    json!([{
        "check": check, "by": "other_party", "who": "Office for timber <north>",
        "document": "statement 4, page 2",
    }])
}

fn shown(path: &str, accept: (&str, &str), job: &Value) -> String {
    let body = job.to_string();
    let headers = [("content-type", "application/json"), accept];
    let reply = send("POST", path, &headers, body.as_bytes());
    assert_eq!(reply.status, 200, "{}", reply.text());
    reply.text().to_owned()
}

#[test]
fn a_scope_that_was_not_asked_is_not_assessed_and_not_in_the_verdict() {
    for (path, body) in [("/v1/layouts", COTTAGE), ("/v1/rechecks", BUILT), ("/v1/surveys", SURVEY)]
    {
        let mut job = example(body);
        let all = answer(path, &job);
        assert_ne!(all["verdicts"]["rafters"], "not_assessed", "{path}");
        job["scopes"] = json!(["fixing"]);
        let asked = answer(path, &job);
        for scope in ["rafters", "modules"] {
            assert_eq!(asked["verdicts"][scope], "not_assessed", "{path}");
        }
        for scope in ["fixing", "rail", "covering", "data"] {
            assert_eq!(asked["verdicts"][scope], all["verdicts"][scope], "{path}: {scope}");
        }
        let headline = asked["headline"].as_str().expect("a sentence");
        assert!(headline.contains("(not assessed: modules, rafters)"), "{path}: {headline}");
        assert_eq!(asked["hooks"], all["hooks"], "{path}: what is computed stays");
    }
}

/// The cottage with a metal tile over each arm lacks nothing but the span of its rafters.
#[test]
fn the_whole_is_the_worst_of_what_was_asked() {
    let mut job = example(COTTAGE);
    job["roof"]["obstacles"] = json!([]);
    job["components"]["hook"]["substitute_tiles"] = json!(1);
    let all = lay_out(&job);
    assert_eq!(all["verdicts"]["rafters"], "incomplete");
    assert_eq!(all["verdict"], "incomplete");
    assert!(list(&all["missing"]).iter().any(|m| m["check"] == "rafter.not-verified"));
    job["scopes"] = json!(["modules"]);
    let asked = lay_out(&job);
    assert_eq!(asked["verdicts"]["rafters"], "not_assessed");
    assert_eq!(asked["verdict"], "holds", "{}", asked["headline"]);
    assert_eq!(asked["missing"], json!([]), "nothing more is needed for what is asked");
}

#[test]
fn what_was_not_assessed_stands_beside_the_verdict_on_paper() {
    let job = without_rafters();
    for (query, words) in
        [("", "Not assessed: modules, rafters"), ("?lang=de", "Nicht beurteilt: Module, Sparren")]
    {
        let svg = shown(&format!("/v1/layouts{query}"), SVG, &job);
        assert!(svg.contains(words), "{query}: no \"{words}\" on the drawing");
    }
    let sheet = shown("/v1/layouts", SHEET, &job);
    assert!(sheet.contains("<dt>Not assessed</dt><dd>– modules, rafters</dd>"));
    let asked = shown("/v1/layouts", SHEET, &example(COTTAGE));
    assert!(!asked.contains("Not assessed"));
}

#[test]
fn a_declaration_stands_in_the_answer_and_on_the_sheet() {
    let mut job = example(COTTAGE);
    job["roof"]["obstacles"] = json!([]);
    job["declarations"] = declared("rafter.not-verified");
    let held = lay_out(&job);
    assert_eq!(held["verdicts"]["rafters"], "holds_with_warnings");
    assert_eq!(held["verdict"], "holds_with_warnings", "{}", held["headline"]);
    assert!(warnings(&held, "rafter.not-verified").is_empty());
    let [taken] = list(&held["declarations"]) else { panic!("{}", held["declarations"]) };
    assert_eq!(taken["scopes"], json!(["rafters"]));
    assert_eq!(taken["who"], "Office for timber <north>");
    let sheet = shown("/v1/layouts", SHEET, &job);
    for text in ["Taken over by declaration", "Office for timber &lt;north&gt;", "statement 4"] {
        assert!(sheet.contains(text), "no \"{text}\" on the sheet");
    }
}

/// The rafter is too thin for its load: that somebody answers for the span changes nothing.
#[test]
fn no_declaration_lifts_a_failure() {
    let mut job = example(BARN);
    job["roof"]["rafters"]["depth_mm"] = json!(78.0);
    job["declarations"] = declared("rafter.cut-by-opening");
    let fails = lay_out(&job);
    assert_eq!(fails["verdicts"]["rafters"], "fails");
    assert_eq!(list(&fails["declarations"]).len(), 1);
    let headline = fails["headline"].as_str().expect("a sentence");
    assert!(headline.starts_with("Fails"), "{headline}");
}

#[test]
fn a_declaration_that_meets_nothing_is_told_and_costs_nothing() {
    let job = example(COTTAGE);
    let before = lay_out(&job);
    let mut declaring = job;
    declaring["declarations"] = declared("rafter.trussed");
    let after = lay_out(&declaring);
    assert_eq!(warnings(&after, "declaration.without-effect").len(), 1);
    assert_eq!(after["declarations"], json!([]));
    assert_eq!(after["verdicts"], before["verdicts"]);
}

/// A rail of hooks that are too weak: every check over its limit is there, each cause once.
#[test]
fn causes_are_one_line_each_and_the_most_serious_come_first() {
    let mut job = example(BARN);
    for load in ["press_kn", "lift_kn"] {
        job["components"]["hook"]["resistance"][load] = json!(0.4);
    }
    job["components"]["hook"]["stiffness"]["normal_kn_per_mm"] = json!(0.05);
    let answer = lay_out(&job);
    let causes = list(&answer["causes"]);
    let mut codes: Vec<&str> = causes.iter().filter_map(|cause| cause["code"].as_str()).collect();
    for code in ["hook.overloaded", "clearance.closes-under-load"] {
        assert!(codes.contains(&code), "{codes:?}");
        let cause = causes.iter().find(|cause| cause["code"] == code).expect("a cause");
        let places = list(&cause["paths"]).len();
        assert_eq!(places, warnings(&answer, code).len(), "{code}");
        let line = cause["line"].as_str().expect("a line");
        // Their figures differ, and those of the worst are not told as those of all.
        assert!(!line.contains("The same"), "{line}");
        assert!(
            places > 1 && line.contains("This is the worst; ") && line.contains(" at: A"),
            "{line}"
        );
    }
    codes.dedup();
    assert_eq!(codes.len(), causes.len(), "each cause once");
    let used = |warning: &&Value| param(warning, "utilisation").as_f64();
    let failures = list(&answer["warnings"]).iter().filter(|w| w["severity"] == "failure");
    let used: Vec<f64> = failures.filter_map(|warning| used(&warning)).collect();
    assert!(used.len() > 4 && used.is_sorted_by(|a, b| a >= b), "{used:?}");
}

#[test]
fn a_batch_takes_scopes_and_declarations_as_its_jobs_do() {
    let mut job = without_rafters();
    job["declarations"] = declared("roof.edge-not-computed");
    let line = json!({"id": "1", "kind": "layout", "job": job}).to_string() + "\n";
    let lines = [("content-type", "application/x-ndjson")];
    let reply = send("POST", "/v1/batches", &lines, line.as_bytes());
    let text = reply.text();
    let first: Value = serde_json::from_str(text.lines().next().expect("a line")).expect("JSON");
    assert_eq!(first["result"], lay_out(&job));
    assert_eq!(first["result"]["verdicts"]["rafters"], "not_assessed");
}
