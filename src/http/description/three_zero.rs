//! The description in the words of `OpenAPI` 3.0.3, made of the one in 3.1: some generators of clients
//! know no other. Both describe the same service.

use serde_json::{Map, Value, json};

use super::rules;

/// Version of the standard.
const VERSION: &str = "3.0.3";

/// Where the licence stands, for which 3.0 has no name.
const LICENSE: &str = "https://www.apache.org/licenses/LICENSE-2.0";

/// The description in 3.1 as one in 3.0.3.
pub fn of(description: &Value) -> Value {
    let mut older = description.clone();
    older["components"]["schemas"] = rules::unsaid(&older["components"]["schemas"]);
    rewrite(&mut older);
    older["openapi"] = json!(VERSION);
    if let Some(license) = older["info"]["license"].as_object_mut() {
        license.remove("identifier");
        license.insert("url".to_owned(), json!(LICENSE));
    }
    lines_as_bytes(&mut older);
    older
}

/// What 3.1 took over from JSON Schema and 3.0 does not know.
fn rewrite(value: &mut Value) {
    match value {
        Value::Object(members) => {
            // Beside a reference nothing else is read; what it says is said where it leads, too.
            if members.get("$ref").is_some_and(Value::is_string) {
                members.retain(|name, _| name == "$ref");
            }
            members.remove("propertyNames");
            members.values_mut().for_each(rewrite);
        }
        Value::Array(items) => items.iter_mut().for_each(rewrite),
        _ => {}
    }
}

/// The body of a batch: generators of this version have no word for lines of JSON and take the file as it
/// is.
fn lines_as_bytes(older: &mut Value) {
    let content = &mut older["paths"]["/v1/batches"]["post"]["requestBody"]["content"];
    let file = json!({ "schema": { "type": "string", "format": "binary" } });
    *content = Value::Object(Map::from_iter([("application/octet-stream".to_owned(), file)]));
}
