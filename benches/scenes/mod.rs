//! The jobs all benches compute: illustrative scenarios of our own, the same as the tests'.

#![allow(dead_code, reason = "every bench takes the jobs it needs")]

use std::fmt::Debug;

use hookspan::http::gate::{self, Checkable};
use hookspan::http::job;
use hookspan::service::request::Options;
use hookspan::wire::actions::ActionsRequest;
use hookspan::wire::layout::LayoutRequest;
use hookspan::wire::recheck::RecheckRequest;

/// 18 modules on plain tiles, the worked example.
pub const BARN: &[u8] = include_bytes!("../../tests/data/layout-barn.json");
/// The barn as built.
pub const BUILT: &[u8] = include_bytes!("../../tests/data/recheck-barn.json");
/// What acts on the barn, without a roof.
pub const ACTIONS: &[u8] = include_bytes!("../../tests/data/actions-barn.json");

/// Every layout, smallest first.
pub const LAYOUTS: [(&str, &[u8]); 4] = [
    ("cottage", include_bytes!("../../tests/data/layout-cottage.json")),
    ("barn", BARN),
    ("stable", include_bytes!("../../tests/data/layout-stable.json")),
    ("hall", include_bytes!("../../tests/data/layout-hall.json")),
];

/// A kind of job that is sent to the service.
#[derive(Debug, Clone, Copy)]
pub struct Kind {
    /// What several of it are called.
    pub name: &'static str,
    /// What a line of a batch calls it.
    pub word: &'static str,
    /// Where it is sent.
    pub path: &'static str,
    /// One of it.
    pub body: &'static [u8],
    /// Answers it in this thread.
    pub answer: fn(&[u8]) -> Vec<u8>,
}

/// The jobs of the barn.
pub const KINDS: [Kind; 3] = [
    Kind { name: "layouts", word: "layout", path: "/v1/layouts", body: BARN, answer: layout },
    Kind { name: "rechecks", word: "recheck", path: "/v1/rechecks", body: BUILT, answer: recheck },
    Kind { name: "actions", word: "actions", path: "/v1/actions", body: ACTIONS, answer: actions },
];

/// A request the gate lets pass.
pub fn read<R: Checkable + Debug>(body: &[u8]) -> R {
    gate::read(body).expect("the scenes are valid requests").request
}

/// A whole layout: bytes in, bytes out.
pub fn layout(body: &[u8]) -> Vec<u8> {
    written(&job::answer::<LayoutRequest>(body, &Options::default()).expect("it has no fault"))
}

/// A whole recheck: bytes in, bytes out.
pub fn recheck(body: &[u8]) -> Vec<u8> {
    written(&job::answer::<RecheckRequest>(body, &Options::default()).expect("it has no fault"))
}

/// A whole question for actions: bytes in, bytes out.
pub fn actions(body: &[u8]) -> Vec<u8> {
    written(&job::answer::<ActionsRequest>(body, &Options::default()).expect("it has no fault"))
}

/// The barn built as it was laid out: a recheck that holds, so that nothing is looked for to mend it.
pub fn built_as_laid_out() -> Vec<u8> {
    let (mut request, answer) = (value(BARN), value(&layout(BARN)));
    let of_each = |list: &str, members: &[&str]| -> serde_json::Value {
        let of = |one: &serde_json::Value| -> serde_json::Value {
            members.iter().map(|member| ((*member).to_owned(), one[*member].clone())).collect()
        };
        answer[list].as_array().expect("answers have lists of them").iter().map(of).collect()
    };
    request["built"] = serde_json::json!({
        "rails": of_each("rails", &["id", "y_mm"]),
        "hooks": of_each("hooks", &["id", "rail", "x_mm", "packers_mm"]),
    });
    written(&request)
}

/// A request on one line, as a batch takes it.
pub fn line(kind: &Kind) -> Vec<u8> {
    let mut line = written(&serde_json::json!({ "kind": kind.word, "job": value(kind.body) }));
    line.push(b'\n');
    line
}

fn value(body: &[u8]) -> serde_json::Value {
    serde_json::from_slice(body).expect("requests and answers are JSON")
}

fn written(answer: &impl serde::Serialize) -> Vec<u8> {
    serde_json::to_vec(answer).expect("every answer can be written")
}
