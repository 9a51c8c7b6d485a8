//! What may stand where in a request, by the published description.

use std::collections::{BTreeMap, BTreeSet};

use hookspan::http::description::openapi_value;
use serde_json::{Map, Value, json};

/// What may stand in a place, whose indices are written as `*`.
#[derive(Debug, Default)]
pub struct Place {
    /// Names, ends of ranges, examples and defaults.
    pub values: Vec<Value>,
    /// Members an object may have, each with one that is sound.
    pub members: BTreeMap<String, Value>,
}

/// The places of a kind of request.
#[derive(Debug, Default)]
pub struct Places(BTreeMap<String, Place>);

impl Places {
    /// Those below the schema of a request.
    pub fn of(schema: &str) -> Self {
        let mut places = Self::default();
        places.add(&json!({"$ref": format!("#/components/schemas/{schema}")}), "");
        assert!(places.0.len() > 20, "{schema} has {} places", places.0.len());
        places
    }

    /// What may stand at a pointer.
    pub fn at(&self, pointer: &str) -> Option<&Place> {
        self.0.get(&general(pointer))
    }

    fn add(&mut self, schema: &Value, at: &str) {
        let schema = resolved(schema);
        for choice in choices(schema) {
            self.add(choice, at);
        }
        let place = self.0.entry(at.to_owned()).or_default();
        place.values.extend(schema["enum"].as_array().into_iter().flatten().cloned());
        for name in ["minimum", "maximum", "exclusiveMinimum", "example", "default"] {
            place.values.extend(schema.get(name).cloned());
        }
        for (name, member) in schema["properties"].as_object().into_iter().flatten() {
            self.0.entry(at.to_owned()).or_default().members.insert(name.clone(), sound(member));
            self.add(member, &format!("{at}/{name}"));
        }
        if schema["type"] == "array" {
            self.add(&schema["items"], &format!("{at}/*"));
        }
    }
}

/// A pointer with `*` for every index.
pub fn general(pointer: &str) -> String {
    let is_index = |step: &str| !step.is_empty() && step.bytes().all(|byte| byte.is_ascii_digit());
    let steps = pointer.split('/').map(|step| if is_index(step) { "*" } else { step });
    steps.collect::<Vec<_>>().join("/")
}

fn resolved(schema: &Value) -> &Value {
    match schema["$ref"].as_str() {
        None => schema,
        Some(target) => {
            let target = openapi_value().pointer(target.trim_start_matches('#'));
            resolved(target.expect("a reference leads somewhere"))
        }
    }
}

fn choices(schema: &Value) -> impl Iterator<Item = &Value> {
    ["oneOf", "anyOf", "allOf"].into_iter().filter_map(|name| schema[name].as_array()).flatten()
}

/// A value that a schema admits, as far as it can be told from it alone.
fn sound(schema: &Value) -> Value {
    let schema = resolved(schema);
    let known = ["example", "default"].iter().find_map(|name| schema.get(*name));
    if let Some(known) = known.or_else(|| schema["enum"].get(0)) {
        return known.clone();
    }
    if schema["allOf"].is_array() {
        let mut whole = Map::new();
        for part in choices(schema) {
            whole.extend(sound(part).as_object().cloned().unwrap_or_default());
        }
        return Value::Object(whole);
    }
    if let Some(choice) = choices(schema).next() {
        return sound(choice);
    }
    let required: BTreeSet<&str> =
        schema["required"].as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    match schema["type"].as_str() {
        Some("object") => {
            let members = schema["properties"].as_object().into_iter().flatten();
            let needed = members.filter(|(name, _)| required.contains(name.as_str()));
            needed.map(|(name, member)| (name.clone(), sound(member))).collect()
        }
        Some("array") => json!([sound(&schema["items"])]),
        Some("boolean") => json!(true),
        Some("string") => json!("a"),
        _ => schema.get("minimum").cloned().unwrap_or_else(|| json!(1)),
    }
}
