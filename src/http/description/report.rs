//! The schema of a report, which no route answers with: a document of its own.

use serde_json::{Map, Value, json};
use utoipa::{PartialSchema, ToSchema};

use crate::wire::report::Report;

use super::schemas;

/// A JSON Schema (draft 2020-12) of what `hookspan report` writes, indented and with a final line feed.
#[must_use]
pub fn report_schema_text() -> String {
    let mut named = vec![(Report::name().into_owned(), Report::schema())];
    Report::schemas(&mut named);
    let named: Map<String, Value> = named
        .into_iter()
        // A schema is texts, numbers and lists.
        .map(|(name, schema)| (name, serde_json::to_value(schema).unwrap_or_default()))
        .collect();
    let mut description = json!({ "components": { "schemas": named } });
    schemas::complete(&mut description);
    let schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Report on the answers of a batch",
        "$ref": "#/components/schemas/Report",
        "$defs": description["components"]["schemas"],
    });
    format!("{schema:#}\n").replace("\"#/components/schemas/", "\"#/$defs/")
}
