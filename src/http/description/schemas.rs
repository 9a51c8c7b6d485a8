//! What the derived schemas do not say of themselves, and every reader of the description relies on.

use std::collections::BTreeSet;

use serde_json::{Map, Value, json};

/// Completes the schemas of a description.
pub fn complete(description: &mut Value) {
    let asked = named_by_requests(description);
    let schemas = &mut description["components"]["schemas"];
    say_values(schemas, &asked);
    say_tags(schemas);
    let_empty_lists_stand(schemas);
    tell_apart(schemas);
    say_signatures(schemas);
}

/// Every answer may be signed, which no answer does of itself: it is told here, as it is done, for all of them at once.
fn say_signatures(schemas: &mut Value) {
    for schema in schemas.as_object_mut().into_iter().flat_map(Map::values_mut) {
        let Some(members) = schema.get_mut("properties").and_then(Value::as_object_mut) else {
            continue;
        };
        if ["kind", "engine", "input_digest"].iter().all(|name| members.contains_key(*name)) {
            let signature = json!({
                "$ref": "#/components/schemas/Signature",
                "description": "Who vouches for all of it, where the operator has a key for that.",
            });
            members.insert("signature".to_owned(), signature);
        }
    }
}

/// Names of the schemas that requests can contain, in their bodies or as parameters.
fn named_by_requests(description: &Value) -> BTreeSet<String> {
    let paths = description["paths"].as_object().into_iter().flat_map(Map::values);
    let operations = paths.filter_map(Value::as_object).flat_map(Map::values);
    let mut open: Vec<&Value> = operations
        .flat_map(|operation| [operation.get("requestBody"), operation.get("parameters")])
        .flatten()
        .collect();
    let mut named = BTreeSet::new();
    while let Some(value) = open.pop() {
        match value {
            Value::Object(members) => open.extend(members.values()),
            Value::Array(items) => open.extend(items),
            Value::String(text) => {
                let name = text.strip_prefix("#/components/schemas/");
                if let Some(name) = name.filter(|name| named.insert((*name).to_owned())) {
                    open.push(&description["components"]["schemas"][name]);
                }
            }
            _ => {}
        }
    }
    named
}

/// Sets the name of each value of an enumeration before what it means, which stands in the description in
/// the order of the values, and says what becomes of a value that is none of them.
fn say_values(schemas: &mut Value, asked: &BTreeSet<String>) {
    for (name, schema) in schemas.as_object_mut().into_iter().flatten() {
        let Some(values) = schema.get("enum").and_then(Value::as_array) else { continue };
        let said = schema["description"].as_str().unwrap_or_default();
        let trimmed =
            |text: &str| text.trim().lines().map(str::trim).collect::<Vec<_>>().join("\n");
        let mut parts = said.split("\n-").map(trimmed);
        let mut text = parts.next().unwrap_or_default();
        let meanings: Vec<String> = parts.collect();
        if meanings.len() == values.len() && meanings.iter().any(|meaning| !meaning.is_empty()) {
            let lines = values.iter().zip(&meanings).map(|(value, meaning)| {
                let value = value.as_str().unwrap_or_default();
                format!("\n- `{value}`: {}", meaning.replace('\n', " "))
            });
            text.push('\n');
            text.extend(lines);
        }
        text.push_str(if asked.contains(name) { CLOSED } else { OPEN });
        schema["description"] = json!(text);
    }
}

/// Of values a request can have.
const CLOSED: &str = "\n\nA request with any other value is refused.";

/// Of values only answers have.
const OPEN: &str = "\n\nLater versions may add values: take one you do not know for a new one of its kind, not for an error.";

/// An empty list is an absent list: a least number of entries holds only where there are any.
fn let_empty_lists_stand(schemas: &mut Value) {
    for schema in schemas.as_object_mut().into_iter().flat_map(Map::values_mut) {
        let required = schema.get("required").cloned().unwrap_or_default();
        let is_required = |name: &str| {
            required.as_array().is_some_and(|names| names.iter().any(|known| known == name))
        };
        let Some(members) = schema.get_mut("properties").and_then(Value::as_object_mut) else {
            continue;
        };
        for (_, list) in members.iter_mut().filter(|(name, _)| !is_required(name)) {
            let Some(list) =
                list.as_object_mut().filter(|list| list.get("type") == Some(&json!("array")))
            else {
                continue;
            };
            let least = list.remove("minItems").and_then(|least| least.as_u64()).unwrap_or(0);
            if least > 1 {
                list.insert("not".to_owned(), json!({ "minItems": 1, "maxItems": least - 1 }));
            }
        }
    }
}

/// What a member that is a tag is for, in one schema with the tag: the two come as parts of a whole, which
/// generators take for an object.
fn say_tags(schemas: &mut Value) {
    let objects = schemas.as_object_mut().into_iter().flat_map(Map::values_mut);
    let members = objects.filter_map(|schema| schema.get_mut("properties")?.as_object_mut());
    for member in members.flat_map(Map::values_mut) {
        let Some([tag, about]) = member.get("allOf").and_then(Value::as_array).map(Vec::as_slice)
        else {
            continue;
        };
        let mut said = tag.clone();
        said["description"] = about["description"].clone();
        *member = said;
    }
}

/// Names the member that tells the alternatives of every choice of objects apart, with the schema each of
/// its values stands for: without it, generated clients try one after the other and take the first that
/// fits.
fn tell_apart(schemas: &mut Value) {
    let mut found: Vec<(String, Map<String, Value>)> = Vec::new();
    for (name, schema) in schemas.as_object().into_iter().flatten() {
        let alternatives = schema["oneOf"].as_array().into_iter().flatten();
        let mapping = alternatives.filter_map(|alternative| {
            let reference = alternative["$ref"].as_str()?;
            let named = reference.rsplit('/').next()?;
            let kind = schemas[named]["properties"]["kind"]["enum"][0].as_str()?;
            Some((kind.to_owned(), Value::from(reference)))
        });
        let mapping: Map<String, Value> = mapping.collect();
        if !mapping.is_empty() {
            found.push((name.clone(), mapping));
        }
    }
    // Words beside a reference say what the reference leads to says itself; generators take such an
    // alternative for a type of its own.
    for alternatives in schemas.as_object_mut().into_iter().flat_map(Map::values_mut) {
        let alternatives = alternatives.get_mut("oneOf").and_then(Value::as_array_mut);
        for alternative in alternatives.into_iter().flatten() {
            let members = alternative.as_object_mut().filter(|of| of.contains_key("$ref"));
            if let Some(members) = members {
                members.retain(|name, _| name == "$ref");
            }
        }
    }
    for (name, mapping) in found {
        schemas[name]["discriminator"] = json!({ "propertyName": "kind", "mapping": mapping });
    }
}
