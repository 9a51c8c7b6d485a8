//! A document that may be short: what it says before it is read, and the same with what completes it.

use serde_json::Value;

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
            members.insert(name.to_owned(), value);
        }
    }
    whole
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
