//! A maker's statement outside the calculation: its schema as a document of its own, and the form to
//! print. Both follow from the published description.

mod form;
mod rows;
mod series;

use std::collections::BTreeSet;
use std::sync::OnceLock;

use serde_json::{Map, Value, json};

use crate::http::description::openapi_value;

pub use form::{empty_form, sheet};

const REQUEST: &str = "StatementRequest";
const PUBLISHED: &str = "#/components/schemas/";
const OWN: &str = "#/$defs/";

/// The schema of a statement as published: indented JSON with a final line feed.
#[must_use]
pub fn schema_text() -> &'static str {
    static TEXT: OnceLock<String> = OnceLock::new();
    TEXT.get_or_init(|| format!("{:#}\n", schema()))
}

/// The schema of a statement with everything it refers to, and nothing else.
fn schema() -> Value {
    let mut names = BTreeSet::from([REQUEST.to_owned()]);
    let mut open = vec![REQUEST.to_owned()];
    while let Some(name) = open.pop() {
        for target in references(published(&name)) {
            if names.insert(target.clone()) {
                open.push(target);
            }
        }
    }
    let defs: Map<String, Value> =
        names.into_iter().map(|name| (name.clone(), moved(published(&name)))).collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Maker's statement of parts",
        "$ref": format!("{OWN}{REQUEST}"),
        "$defs": defs,
    })
}

/// A schema of the published description.
fn published(name: &str) -> &'static Value {
    &openapi_value()["components"]["schemas"][name]
}

/// Names of the schemas that one refers to.
fn references(schema: &Value) -> Vec<String> {
    match schema {
        Value::Object(members) => {
            let own = members.get("$ref").and_then(Value::as_str);
            let own = own.and_then(|target| target.strip_prefix(PUBLISHED)).map(str::to_owned);
            own.into_iter().chain(members.values().flat_map(references)).collect()
        }
        Value::Array(items) => items.iter().flat_map(references).collect(),
        _ => Vec::new(),
    }
}

/// The same schema where its references lead to the definitions beside it.
fn moved(schema: &Value) -> Value {
    match schema {
        Value::Object(members) => {
            let member = |(name, value): (&String, &Value)| {
                let target = value.as_str().and_then(|target| target.strip_prefix(PUBLISHED));
                let value = match target {
                    Some(target) if name == "$ref" => json!(format!("{OWN}{target}")),
                    _ => moved(value),
                };
                (name.clone(), value)
            };
            Value::Object(members.iter().map(member).collect())
        }
        Value::Array(items) => Value::Array(items.iter().map(moved).collect()),
        other => other.clone(),
    }
}
