//! What a fault says to the developer on the other side: one plain sentence, with the value that
//! was sent and the limit it breaks.

use jsonschema::error::ValidationErrorKind as Kind;
use jsonschema::{JsonType, ValidationError};
use serde_json::Value;

/// Longest piece of the caller's own text that a sentence repeats, in characters.
const LONGEST_QUOTE: usize = 60;

pub(super) fn missing(name: &str) -> String {
    format!("\"{}\" is required and is not there.", shorten(name))
}

pub(super) fn unknown_field(name: &str) -> String {
    format!("\"{}\" is not a field this object can have.", shorten(name))
}

pub(super) fn wrong_type(expected: &[JsonType], value: &Value) -> String {
    let wanted: Vec<&str> = expected.iter().map(|kind| noun(*kind)).collect();
    let wanted =
        if wanted.is_empty() { "another kind of value".to_owned() } else { wanted.join(" or ") };
    format!("Expected {wanted}, found {}.", found(value))
}

pub(super) fn unknown_value(options: &Value, value: &Value) -> String {
    let allowed: Vec<String> = match options {
        Value::Array(options) => options.iter().map(plain).collect(),
        single => vec![plain(single)],
    };
    format!("{} is not one of the allowed values: {}.", quote(value), allowed.join(", "))
}

/// The sentence for a number, a length or a count outside its limits; none for other kinds.
pub(super) fn limit(kind: &Kind, value: &Value) -> Option<String> {
    let number = quote(value);
    Some(match kind {
        Kind::Maximum { limit } => {
            format!("{number} is more than the largest allowed value, {limit}.")
        }
        Kind::Minimum { limit } => {
            format!("{number} is less than the smallest allowed value, {limit}.")
        }
        Kind::ExclusiveMaximum { limit } => format!("{number} must be less than {limit}."),
        Kind::ExclusiveMinimum { limit } => format!("{number} must be more than {limit}."),
        Kind::MaxLength { limit } => {
            format!("The text has {}; at most {limit} are allowed.", characters(value))
        }
        Kind::MinLength { limit } => {
            format!("The text has {}; at least {limit} must be there.", characters(value))
        }
        Kind::MaxItems { limit } => too_many_entries(value.as_array().map_or(0, Vec::len), *limit),
        Kind::AdditionalItems { limit } => {
            too_many_entries(value.as_array().map_or(0, Vec::len), *limit)
        }
        Kind::Not { schema } => {
            let least = schema["maxItems"].as_u64()? + 1;
            format!(
                "The list has {}; none or at least {least} must be there.",
                entries(value.as_array().map_or(0, Vec::len))
            )
        }
        Kind::MinItems { limit } => {
            format!(
                "The list has {}; at least {limit} must be there.",
                entries(value.as_array().map_or(0, Vec::len))
            )
        }
        _ => return None,
    })
}

/// A kind of fault the description cannot raise today; still a sentence, without the value.
pub(super) fn other(error: &ValidationError<'_>) -> String {
    format!("Does not fit the description: {}.", error.masked())
}

/// The sentence for a list that is too long.
pub(super) fn too_many_entries(n: usize, limit: impl std::fmt::Display) -> String {
    format!("The list has {}; at most {limit} are allowed.", entries(n))
}

/// The sentence for a document of too many values.
pub(super) fn too_many_values(limit: usize) -> String {
    format!("The document has more than {limit} values; nothing after this one was read.")
}

const fn noun(kind: JsonType) -> &'static str {
    match kind {
        JsonType::Array => "a list",
        JsonType::Boolean => "true or false",
        JsonType::Integer => "a whole number",
        JsonType::Null => "null",
        JsonType::Number => "a number",
        JsonType::Object => "an object",
        JsonType::String => "a text",
    }
}

fn found(value: &Value) -> String {
    match value {
        Value::Null => "null".to_owned(),
        Value::Bool(value) => value.to_string(),
        Value::Number(value) => format!("the number {value}"),
        Value::String(value) => format!("the text \"{}\"", shorten(value)),
        Value::Array(_) => "a list".to_owned(),
        Value::Object(_) => "an object".to_owned(),
    }
}

fn quote(value: &Value) -> String {
    match value {
        Value::String(text) => format!("\"{}\"", shorten(text)),
        Value::Array(_) | Value::Object(_) => "This value".to_owned(),
        scalar => scalar.to_string(),
    }
}

fn plain(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

fn characters(value: &Value) -> String {
    counted(value.as_str().map_or(0, |text| text.chars().count()), "character")
}

fn entries(n: usize) -> String {
    match n {
        1 => "1 entry".to_owned(),
        n => format!("{n} entries"),
    }
}

fn counted(n: usize, noun: &str) -> String {
    if n == 1 { format!("1 {noun}") } else { format!("{n} {noun}s") }
}

fn shorten(text: &str) -> String {
    match text.char_indices().nth(LONGEST_QUOTE) {
        Some((cut, _)) => format!("{}…", &text[..cut]),
        None => text.to_owned(),
    }
}
