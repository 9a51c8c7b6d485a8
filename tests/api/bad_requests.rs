//! Every kind of bad request is a problem of the caller, with all its faults in their places.
//!
//! `bad_requests.json` says how each request differs from a good one: `edits` of the example
//! (`set`, `add`, `remove` at a JSON pointer), or a `raw` body, a `repeat`ed text, other
//! `headers`, `method` or `path`. It expects a status, a problem code, the faults in order, and
//! where it matters the line and column (`at`) or a part of the first sentence (`detail`).

use serde::Deserialize;
use serde_json::Value;

use crate::server::{ACTIONS, BARN, BUILT, COTTAGE, Reply, SURVEY, TERRACE_BUILT, send};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Cases {
    /// Found before the job is looked at: by the routes or by the check of the body.
    gate: Vec<Case>,
    /// Found by the job itself: each statement is possible, together they are not.
    job: Vec<Case>,
    /// Found in what was built, by the gate or by the job.
    built: Vec<Case>,
    /// Found in a question for the actions alone.
    actions: Vec<Case>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    #[serde(default)]
    base: Base,
    #[serde(default)]
    edits: Vec<Edit>,
    raw: Option<String>,
    raw_bytes: Option<Vec<u8>>,
    repeat: Option<Repeat>,
    headers: Option<std::collections::BTreeMap<String, String>>,
    method: Option<String>,
    path: Option<String>,
    at: Option<(u64, u64)>,
    detail: Option<String>,
    expect: Expect,
}

#[derive(Deserialize, Default, Clone, Copy)]
#[serde(rename_all = "snake_case")]
enum Base {
    #[default]
    Barn,
    Cottage,
    Built,
    Terrace,
    Survey,
    Actions,
}

impl Base {
    const fn text(self) -> &'static str {
        match self {
            Self::Barn => BARN,
            Self::Cottage => COTTAGE,
            Self::Built => BUILT,
            Self::Terrace => TERRACE_BUILT,
            Self::Survey => SURVEY,
            Self::Actions => ACTIONS,
        }
    }
    const fn path(self) -> &'static str {
        match self {
            Self::Barn | Self::Cottage => "/v1/layouts",
            Self::Built | Self::Terrace => "/v1/rechecks",
            Self::Survey => "/v1/surveys",
            Self::Actions => "/v1/actions",
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, untagged)]
enum Edit {
    Set { set: String, value: Value },
    Add { add: String, value: Value },
    Remove { remove: String },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Repeat {
    text: String,
    times: usize,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Expect {
    status: u16,
    code: String,
    #[serde(default)]
    errors: Vec<Place>,
}

#[derive(Deserialize, PartialEq, Debug)]
#[serde(deny_unknown_fields)]
struct Place {
    pointer: String,
    code: String,
}

fn cases() -> Cases {
    serde_json::from_str(include_str!("bad_requests.json")).expect("the cases can be read")
}

#[test]
fn every_fault_the_gate_finds_is_reported_in_its_place() {
    let cases = cases().gate;
    assert!(cases.len() >= 45, "only {} cases", cases.len());
    check(&cases);
}

#[test]
fn every_fault_the_job_finds_is_reported_in_its_place() {
    let cases = cases().job;
    assert!(cases.len() >= 30, "only {} cases", cases.len());
    check(&cases);
}

#[test]
fn every_fault_of_what_was_built_is_reported_in_its_place() {
    let cases = cases().built;
    assert!(cases.len() >= 15, "only {} cases", cases.len());
    check(&cases);
}

#[test]
fn every_fault_of_a_question_for_actions_is_reported_in_its_place() {
    let cases = cases().actions;
    assert!(cases.len() >= 10, "only {} cases", cases.len());
    check(&cases);
}

/// Without this, an edit that changes nothing could pass for a bad request.
#[test]
fn the_examples_the_cases_start_from_have_no_faults() {
    for base in [Base::Barn, Base::Cottage, Base::Built, Base::Terrace, Base::Actions] {
        let reply = send("POST", base.path(), JSON, base.text().as_bytes());
        assert_eq!(reply.status, 200, "{}", reply.text());
    }
}

const JSON: &[(&str, &str)] = &[("content-type", "application/json")];

fn check(cases: &[Case]) {
    let wrong: Vec<String> = cases.iter().filter_map(Case::disagreement).collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), cases.len(), wrong.join("\n"));
}

impl Case {
    fn send(&self) -> Reply {
        let method = self.method.as_deref().unwrap_or("POST");
        let path = self.path.as_deref().unwrap_or(self.base.path());
        let own: Option<Vec<(&str, &str)>> = self
            .headers
            .as_ref()
            .map(|headers| headers.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect());
        let body = if method == "POST" { self.body() } else { Vec::new() };
        send(method, path, own.as_deref().unwrap_or(JSON), &body)
    }

    fn body(&self) -> Vec<u8> {
        match (&self.raw, &self.raw_bytes, &self.repeat) {
            (Some(text), _, _) => text.clone().into_bytes(),
            (_, Some(bytes), _) => bytes.clone(),
            (_, _, Some(Repeat { text, times })) => text.repeat(*times).into_bytes(),
            _ => {
                let mut job = serde_json::from_str(self.base.text()).expect("an example is JSON");
                for edit in &self.edits {
                    edit.apply(&mut job, &self.name);
                }
                job.to_string().into_bytes()
            }
        }
    }

    /// What is not as expected, in a line.
    fn disagreement(&self) -> Option<String> {
        let reply = self.send();
        if reply.status != self.expect.status {
            return Some(format!("{}: {} {}", self.name, reply.status, reply.text()));
        }
        let problem = reply.problem();
        let found: Vec<Place> = problem["errors"]
            .as_array()
            .into_iter()
            .flatten()
            .map(|error| Place {
                pointer: error["pointer"].as_str().expect("a pointer").to_owned(),
                code: error["code"].as_str().expect("a code").to_owned(),
            })
            .collect();
        let sentence = problem["errors"][0]["detail"].as_str().unwrap_or_default();
        let at = problem["line"].as_u64().zip(problem["column"].as_u64());
        let agrees = problem["code"] == *self.expect.code
            && found == self.expect.errors
            && self.at.is_none_or(|expected| Some(expected) == at)
            && self.detail.as_ref().is_none_or(|part| sentence.contains(part))
            && (found.is_empty() || (sentence.ends_with('.') && sentence.len() > 10));
        (!agrees).then(|| format!("{}: {}", self.name, reply.text()))
    }
}

impl Edit {
    fn apply(&self, job: &mut Value, case: &str) {
        let place = match self {
            Self::Set { set: at, .. } | Self::Add { add: at, .. } | Self::Remove { remove: at } => {
                at
            }
        };
        let (parent, last) = place.rsplit_once('/').expect("a pointer");
        let last = last.replace("~1", "/").replace("~0", "~");
        let parent = job.pointer_mut(parent).unwrap_or_else(|| panic!("{case}: no {parent}"));
        let there = parent.get(&last).is_some()
            || last.parse().is_ok_and(|index: usize| parent.get(index).is_some());
        let new = matches!(self, Self::Add { .. });
        assert_ne!(there, new, "{case}: {place} is{} there", if there { "" } else { " not" });
        match (parent, self) {
            (Value::Object(members), Self::Set { value, .. } | Self::Add { value, .. }) => {
                members.insert(last, value.clone());
            }
            // Removing keeps the order of what stays.
            (Value::Object(members), Self::Remove { .. }) => drop(members.shift_remove(&last)),
            (Value::Array(items), Self::Set { value, .. }) => {
                items[last.parse::<usize>().expect("an index")] = value.clone();
            }
            (Value::Array(items), Self::Add { value, .. }) if last == "-" => {
                items.push(value.clone());
            }
            _ => panic!("{case}: {place} cannot be edited like this"),
        }
    }
}
