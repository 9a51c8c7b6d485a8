//! What the derived schemas do not say of themselves, and every reader of the description relies on.

use serde_json::{Map, Value, json};

/// Completes the schemas.
pub fn complete(schemas: &mut Value) {
    say_tags(schemas);
    let_empty_lists_stand(schemas);
    tell_apart(schemas);
}

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
