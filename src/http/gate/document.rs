//! A document that may be short: what it says before it is read, and the same with what completes it.

use serde_json::{Map, Value};

use crate::service::intake::short::{Filled, Said};

/// A document as the pipeline asks about it.
pub struct Document<'a>(pub &'a Value);

impl Said for Document<'_> {
    fn number(&self, pointer: &str) -> Option<f64> {
        self.0.pointer(pointer)?.as_f64()
    }

    fn text(&self, pointer: &str) -> Option<&str> {
        self.0.pointer(pointer)?.as_str()
    }

    fn count(&self, pointer: &str) -> usize {
        self.0.pointer(pointer).and_then(Value::as_array).map_or(0, Vec::len)
    }

    fn has(&self, pointer: &str) -> bool {
        self.0.pointer(pointer).is_some()
    }
}

/// The document with values where it has none, or only a name.
pub fn completed(document: &Value, filled: Vec<Filled>) -> Value {
    let mut whole = document.clone();
    for Filled { pointer, filling } in filled {
        let Some((parent, name)) = pointer.rsplit_once('/') else { continue };
        let members = whole.pointer_mut(parent).and_then(Value::as_object_mut);
        let value = serde_json::to_value(filling);
        // Without the object around it the document would not have fitted its schema.
        if let (Some(members), Ok(value)) = (members, value) {
            members.insert(name.to_owned(), numbers_as_read(value));
        }
    }
    whole
}

/// Whole numbers without a fraction, as the reader of a document has them.
fn numbers_as_read(value: Value) -> Value {
    match value {
        Value::Number(number) => {
            let whole = number.as_f64().filter(|n| n.fract() == 0.0 && n.abs() < 1e15);
            #[expect(clippy::cast_possible_truncation, reason = "whole and below 2^53")]
            whole.map_or(Value::Number(number), |whole| Value::from(whole as i64))
        }
        Value::Array(items) => items.into_iter().map(numbers_as_read).collect(),
        Value::Object(members) => {
            let members = members.into_iter().filter(|(_, member)| !is_empty_list(member));
            let members = members.map(|(name, member)| (name, numbers_as_read(member)));
            Value::Object(members.collect::<Map<_, _>>())
        }
        other => other,
    }
}

fn is_empty_list(value: &Value) -> bool {
    value.as_array().is_some_and(Vec::is_empty)
}

/// Shortens a pointer into something that the document only names to where it names it.
pub fn as_written(document: &Value, pointer: &mut String) {
    let ends = pointer.char_indices().filter(|(at, c)| *at > 0 && *c == '/').map(|(at, _)| at);
    let name = ends
        .into_iter()
        .find(|end| document.pointer(&pointer[..*end]).is_some_and(Value::is_string));
    if let Some(end) = name {
        pointer.truncate(end);
    }
}
