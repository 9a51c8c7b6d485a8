//! An example of every answer. They stand in a file that the tests write from what the service answers to
//! the examples of requests, so that none can say what the service does not.

use serde_json::Value;

use super::operations;

/// Answers by operation and media type; long ones abridged.
const EXAMPLES: &str = include_str!("../../../openapi/examples.json");

/// Shows an example beside every answer that has none.
///
/// # Panics
/// When the file is not JSON: a mistake of this crate that every test of the description shows.
pub fn show(description: &mut Value) {
    let examples: Value = serde_json::from_str(EXAMPLES).expect("the embedded examples are JSON");
    for (_, _, operation) in operations::of(description) {
        let id = operation["operationId"].as_str().unwrap_or_default().to_owned();
        let content = operation["responses"]["200"]["content"].as_object_mut();
        for (kind, answer) in content.into_iter().flatten() {
            if let Some(example) = examples[&id].get(kind)
                && answer.get("example").is_none()
            {
                answer["example"] = example.clone();
            }
        }
    }
}
