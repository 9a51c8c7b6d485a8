//! What names a job: the same whatever it is called, whatever stands on the roof, and whether or not what
//! the service assumed is spelled out.

use serde_json::{Value, json};

use crate::server::{BARN, BUILT, COTTAGE, SURVEY, answer, example, list, post};

fn key(answer: &Value) -> &str {
    let key = answer["job_key"].as_str().expect("a key");
    assert_eq!(key.len(), 64, "{key}");
    key
}

/// Puts a value where the request has none, with the objects around it.
fn spell_out(job: &mut Value, pointer: &str, value: &Value) {
    let mut at = job;
    for token in pointer.split('/').skip(1) {
        at = match at {
            Value::Array(items) => &mut items[token.parse::<usize>().expect("a place")],
            _ => &mut at[token],
        };
    }
    assert!(at.is_null(), "{pointer} is there already");
    *at = value.clone();
}

/// What cannot be said by the one value that was assumed: the member takes a list or an object, or is there
/// and has another meaning.
const NOT_ONE_VALUE: [&str; 8] = [
    "array.edge-distance",
    "covering.rule-pitch",
    "hook.foot-gives",
    "hook.slot-setting",
    "obstacle.cuts-rafters",
    "rail.splice-moment",
    "tile.nibs",
    "wind.loaded-area",
];

#[test]
fn what_was_assumed_can_be_said_and_it_is_the_same_job() {
    let mut said = Vec::new();
    for text in [BARN, COTTAGE, include_str!("../data/layout-hall.json")] {
        let mut job = example(text);
        // So that the search does not cost the test its time.
        job["array"]["fields"].as_array_mut().expect("a list").truncate(1);
        job["array"]["fields"][0]["rows"] = json!(1);
        job["array"]["fields"][0]["omitted"] = json!([]);
        job["remedies"] = json!(false);
        let before = answer("/v1/layouts", &job);
        for assumption in list(&before["assumptions"]) {
            let pointer = assumption["pointer"].as_str().expect("a pointer");
            let code = assumption["code"].as_str().expect("a code");
            let open = !pointer.is_empty() && !NOT_ONE_VALUE.contains(&code);
            let Some(value) = assumption.get("value").filter(|_| open) else { continue };
            let mut spelled = job.clone();
            spell_out(&mut spelled, pointer, value);
            let reply = post("/v1/layouts", spelled.to_string().as_bytes());
            assert_eq!(reply.status, 200, "{pointer}: {}", reply.text());
            let after = reply.json();
            assert_eq!(key(&after), key(&before), "{pointer}");
            assert_ne!(after["input_digest"], before["input_digest"], "{pointer}");
            let is_assumed =
                |of: &Value| list(&of["assumptions"]).iter().any(|a| a["pointer"] == pointer);
            assert!(!is_assumed(&after), "{pointer} is said and still assumed");
            said.push(pointer.to_owned());
        }
        for (member, value) in [("reference", json!("another name")), ("capacity", json!(false))] {
            let mut named = job.clone();
            named[member] = value;
            assert_eq!(key(&answer("/v1/layouts", &named)), key(&before), "{member}");
        }
        let mut other = job.clone();
        other["roof"]["pitch_deg"] = json!(41.0);
        assert_ne!(
            key(&answer("/v1/layouts", &other)),
            key(&before),
            "another roof is another job"
        );
    }
    said.sort();
    said.dedup();
    assert!(said.len() >= 20, "{said:?}");
}

/// A layout, its survey and its recheck are of one job, and a recheck knows it.
#[test]
fn a_job_keeps_its_key_from_layout_to_recheck() {
    let layout = answer("/v1/layouts", &example(BARN));
    let mut built = example(BARN);
    built["built"] = layout["record"]["built"].clone();
    built["recorded"] = layout["record"]["recorded"].clone();
    let recheck = answer("/v1/rechecks", &built);
    assert_eq!(key(&recheck), key(&layout));
    assert_eq!(recheck["difference"]["input_changed"], false);
    assert_eq!(recheck["difference"]["causes"], json!([]));
    built["site"]["altitude_m"] = json!(400.0);
    let elsewhere = answer("/v1/rechecks", &built);
    assert_eq!(elsewhere["difference"]["input_changed"], true);
    assert_eq!(elsewhere["difference"]["causes"], json!(["input"]));
    let [survey, again] = [("/v1/surveys", SURVEY), ("/v1/rechecks", BUILT)]
        .map(|(path, job)| answer(path, &example(job)));
    assert_ne!(key(&survey), key(&layout), "the example of a survey has another hook");
    assert_eq!(key(&survey).len(), key(&again).len());
}
