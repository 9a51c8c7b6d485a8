//! An empty list is an absent list: programs that keep their lists in types write those they were not
//! given as empty.

use serde_json::{Value, json};

use crate::server::{
    ACTIONS, BARN, BUILT, CHOICES, COTTAGE, GABLE, STATEMENT, SURVEY, example, get, post,
};

/// Fills every list that may be left out, and is, with nothing; the pointers of those filled.
fn filled(schemas: &Value, schema: &Value, value: &mut Value, at: &str, done: &mut Vec<String>) {
    let schema = match schema["$ref"].as_str() {
        Some(path) => &schemas[path.rsplit('/').next().expect("a name")],
        None => schema,
    };
    if let Some(choices) = schema["oneOf"].as_array() {
        if value.is_object() {
            let of_objects = choices.iter().find(|choice| choice["$ref"].is_string());
            filled(schemas, of_objects.expect("one is an object"), value, at, done);
        }
        return;
    }
    if let Some(items) = value.as_array_mut() {
        for (i, item) in items.iter_mut().enumerate() {
            filled(schemas, &schema["items"], item, &format!("{at}/{i}"), done);
        }
    }
    let Some(members) = value.as_object_mut() else { return };
    for (name, schema_of) in schema["properties"].as_object().into_iter().flatten() {
        let at = format!("{at}/{name}");
        match members.get_mut(name) {
            Some(member) => filled(schemas, schema_of, member, &at, done),
            None if schema_of["type"] == "array" => {
                members.insert(name.clone(), json!([]));
                done.push(at);
            }
            None => {}
        }
    }
}

#[test]
fn an_empty_list_is_an_absent_list() {
    let description = get("/openapi.json").json();
    let schemas = &description["components"]["schemas"];
    let mut all = Vec::new();
    for (path, request, text) in [
        ("/v1/layouts", "LayoutRequest", BARN),
        ("/v1/layouts", "LayoutRequest", COTTAGE),
        ("/v1/buildings", "BuildingRequest", GABLE),
        ("/v1/choices", "ChoicesRequest", CHOICES),
        ("/v1/rechecks", "RecheckRequest", BUILT),
        ("/v1/surveys", "SurveyRequest", SURVEY),
        ("/v1/actions", "ActionsRequest", ACTIONS),
        ("/v1/statements", "StatementRequest", STATEMENT),
    ] {
        let mut job = example(text);
        let mut done = Vec::new();
        filled(schemas, &schemas[request], &mut job, "", &mut done);
        let (without, with) = (post(path, text.as_bytes()), post(path, job.to_string().as_bytes()));
        assert_eq!(with.status, 200, "{path}: {}", with.text());
        // The digest, too: it is the same job.
        assert!(without.body == with.body, "{path}: {done:?}");
        all.extend(done);
    }
    for list in ["cuts_rafters", "nib_offsets_mm", "trough_offsets_mm", "scopes", "evidence"] {
        assert!(all.iter().any(|at| at.ends_with(list)), "{list} is left out of no example");
    }
}
