//! The examples the service shows: jobs of our own with invented parts, in the description and on
//! the start page.

use serde_json::{Value, json};

use crate::http::problem::{Problem, ProblemCode};

/// The example job, as a caller would send it.
pub const EXAMPLE_JOB: &str = include_str!("../../tests/data/layout-barn.json");

/// The example of a built job.
const EXAMPLE_RECHECK: &str = include_str!("../../tests/data/recheck-barn.json");

/// The example of a survey.
const EXAMPLE_SURVEY: &str = include_str!("../../tests/data/survey-barn.json");

/// The example of a question for the actions alone.
const EXAMPLE_ACTIONS: &str = include_str!("../../tests/data/actions-barn.json");

/// The example job as a JSON value, for the description.
pub(super) fn example_request() -> Value {
    serde_json::from_str(EXAMPLE_JOB).expect("the embedded example is JSON")
}

/// The example of a built job as a JSON value, for the description.
pub(super) fn example_recheck() -> Value {
    serde_json::from_str(EXAMPLE_RECHECK).expect("the embedded example is JSON")
}

/// The example of a survey as a JSON value, for the description.
pub(super) fn example_survey() -> Value {
    serde_json::from_str(EXAMPLE_SURVEY).expect("the embedded example is JSON")
}

/// The example of a question for the actions alone as a JSON value, for the description.
pub(super) fn example_actions() -> Value {
    serde_json::from_str(EXAMPLE_ACTIONS).expect("the embedded example is JSON")
}

/// Two lines of a batch, for the description: the second has a fault.
pub(super) fn example_batch() -> Value {
    let mut faulty = example_actions();
    faulty["roof"]["pitch_deg"] = json!(95);
    let lines = [
        json!({"id": "contract-0815", "kind": "actions", "job": example_actions()}),
        json!({"id": "contract-0816", "kind": "actions", "job": faulty}),
    ];
    Value::String(lines.map(|line| format!("{line}\n")).concat())
}

/// The answer to them, its result abridged.
pub(super) fn example_batch_answer() -> Value {
    let problem = Problem::example(ProblemCode::InvalidRequest).inside("/job");
    let lines = [
        json!({"id": "contract-0815", "line": 1, "status": 200, "result": {"input_digest": "…"}}),
        json!({"id": "contract-0816", "line": 2, "status": 422, "problem": problem}),
        json!({"summary": {
            "complete": true, "next_line": 3, "lines": 2, "answered": 1, "refused": 1,
            "verdicts": {"holds": 0, "holds_with_warnings": 0, "fails": 0, "incomplete": 0},
        }}),
    ];
    Value::String(lines.map(|line| format!("{line}\n")).concat())
}
