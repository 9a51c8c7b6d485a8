//! What one change would save: each saving is the layout of the job so changed, and nothing that saves nothing is
//! listed. What one hook fewer would mean is the best of all choices of so many hooks.

use serde_json::{Value, json};

use crate::server::{
    BARN, COTTAGE, TWO_MODULES, all_known, answer, example, list, number, post, send,
};

const COVERED: &str = include_str!("../data/layout-covered.json");
const HALL: &str = include_str!("../data/layout-hall.json");
const LEAN_TO: &str = include_str!("../data/layout-lean-to.json");

fn asked(mut job: Value) -> Value {
    job["savings"] = json!(true);
    job
}

fn edited(job: &Value, edits: &Value) -> Value {
    let mut job = job.clone();
    for edit in list(edits) {
        let path = edit["path"].as_str().expect("a pointer");
        let (parent, name) = path.rsplit_once('/').expect("a member");
        job.pointer_mut(parent).expect("its parent")[name] = edit["value"].clone();
    }
    job
}

/// Tiles that come off, each counted once.
fn tiles(answer: &Value) -> u64 {
    let mut all = std::collections::BTreeSet::new();
    for run in list(&answer["hooks"]).iter().flat_map(|hook| list(&hook["tiles"]["lift"])) {
        let column = |i: usize| run["columns"][i].as_i64().expect("a column");
        for column in column(0)..=column(1) {
            all.insert((run["course"].to_string(), run["row"].to_string(), column));
        }
    }
    all.len() as u64
}

#[test]
fn every_saving_is_the_layout_of_the_job_so_changed() {
    let mut seen = 0;
    let mut kinds = std::collections::BTreeSet::new();
    let mut low = all_known(BARN);
    low["site"]["altitude_m"] = json!(100);
    let mut even = all_known(COTTAGE);
    even["wishes"]["objective"] = json!("even_spacing");
    for job in [all_known(LEAN_TO), low, even, example(TWO_MODULES)] {
        let plain = answer("/v1/layouts", &job);
        let mut told = answer("/v1/layouts", &asked(job.clone()));
        let savings = told["savings"].take();
        told.as_object_mut().expect("an answer").remove("savings");
        assert_eq!(told, plain, "nothing else changes");
        assert_eq!(savings["complete"], true);
        let mut before = [0, 0];
        for saving in list(&savings["changes"]) {
            let after = answer("/v1/layouts", &edited(&job, &saving["edits"]));
            let of = |answer: &Value| [list(&answer["hooks"]).len() as u64, tiles(answer)];
            let [then, now] = [of(&plain), of(&after)];
            assert_eq!(saving["hooks"], json!([then[0], now[0]]), "{saving}");
            assert_eq!(saving["tiles_lifted"], json!([then[1], now[1]]), "{saving}");
            assert_eq!(saving["verdict"], after["verdict"]);
            assert_eq!(saving["proven"], after["optimality"]["proven"]);
            assert_eq!(saving["utilisation"], after["utilisation"]);
            assert!(now < then && before <= now, "{saving}");
            assert_ne!(after["verdict"], "fails");
            before = now;
            seen += 1;
            kinds.insert(saving["change"].as_str().expect("a kind").to_owned());
        }
    }
    println!("{seen} savings: {kinds:?}");
    let wanted = ["any_pattern", "higher_packers", "move_along_eaves", "move_up_slope"];
    assert!(seen >= 5 && kinds.iter().eq(&wanted), "{seen} savings: {kinds:?}");
}

#[test]
fn one_hook_fewer_overloads_a_rail_that_has_the_fewest() {
    let told = answer("/v1/layouts", &asked(all_known(COTTAGE)));
    let fewer = list(&told["savings"]["one_hook_fewer"]);
    let rails = list(&told["optimality"]["rails"]);
    assert_eq!(fewer.len(), rails.len());
    for (fewer, rail) in fewer.iter().zip(rails) {
        assert_eq!((&fewer["rail"], &fewer["segment"]), (&rail["rail"], &rail["segment"]));
        assert_eq!(fewer["hooks"], rail["hooks"].as_u64().expect("a count") - 1);
        if let Some(used) = fewer.get("utilisation") {
            assert_eq!(fewer["exact"], true);
            assert!(number(used) > 1.0, "{fewer}");
            assert!(fewer["check"].is_string() && fewer["combination"].is_string());
        }
    }
    assert!(fewer.iter().any(|of| of.get("utilisation").is_some()));
}

#[test]
fn a_layout_that_fails_has_remedies_and_no_savings() {
    let told = answer("/v1/layouts", &asked(example(HALL)));
    assert_eq!(told["verdict"], "fails");
    let savings = &told["savings"];
    assert_eq!((&savings["tried"], &savings["complete"]), (&json!(0), &json!(true)));
    assert!(list(&savings["changes"]).is_empty() && list(&savings["one_hook_fewer"]).is_empty());
    let plain = answer("/v1/layouts", &example(HALL));
    assert!(plain.get("savings").is_none());
}

#[test]
fn rafters_that_are_not_measured_have_no_savings() {
    let reply = post("/v1/layouts", asked(example(COVERED)).to_string().as_bytes());
    let fault = &reply.problem()["errors"][0];
    assert_eq!((&fault["pointer"], &fault["code"]), (&json!("/savings"), &json!("contradiction")));
}

#[test]
fn the_office_and_the_engineer_read_them_on_the_sheet() {
    let job = asked(all_known(COTTAGE)).to_string();
    for (language, title, fewer) in [
        ("en", "What one change would save", "One hook fewer on a rail"),
        ("de", "Was eine Änderung spart", "Ein Dachhaken weniger an einer Schiene"),
    ] {
        for (part, told) in [("order", true), ("engineer", true), ("crew", false)] {
            let headers = [
                ("content-type", "application/json"),
                ("accept", "text/html"),
                ("accept-language", language),
            ];
            let path = format!("/v1/layouts?part={part}");
            let reply = send("POST", &path, &headers, job.as_bytes());
            assert_eq!(reply.status, 200, "{}", reply.text());
            assert_eq!(reply.text().contains(title), told, "{part} in {language}");
            assert_eq!(reply.text().contains(fewer), told, "{part} in {language}");
        }
    }
}
