//! The example of a batch, of the examples the kinds of job have.

use serde_json::{Value, json};

use crate::http::job::Kind;
use crate::http::problem::{Problem, ProblemCode};
use crate::wire::actions::ActionsRequest;

/// Two lines of a batch, for the description: the second has a fault.
pub fn example_batch() -> Value {
    let mut faulty = ActionsRequest::example();
    faulty["roof"]["pitch_deg"] = json!(95);
    let lines = [
        json!({"id": "contract-0815", "kind": "actions", "job": ActionsRequest::example()}),
        json!({"id": "contract-0816", "kind": "actions", "job": faulty}),
    ];
    Value::String(lines.map(|line| format!("{line}\n")).concat())
}

/// The answer to them, its result abridged.
pub fn example_batch_answer() -> Value {
    let problem = Problem::example(ProblemCode::InvalidRequest).inside("/job");
    let lines = [
        json!({"id": "contract-0815", "line": 1, "kind": "actions", "status": 200, "result": {"kind": "actions", "input_digest": "…"}}),
        json!({"id": "contract-0816", "line": 2, "kind": "problem", "status": 422, "problem": problem}),
        json!({"kind": "end", "summary": {
            "complete": true, "next_line": 3, "lines": 2, "answered": 1, "refused": 1,
            "verdicts": {"holds": 0, "holds_with_warnings": 0, "fails": 0, "incomplete": 0},
        }}),
    ];
    Value::String(lines.map(|line| format!("{line}\n")).concat())
}
