//! A document that may be short: what it says before it is read, and the same with what completes it.

use serde::Serialize;
use serde_json::Value;

use crate::service::intake::short::{Filled, Said};
use crate::wire::remedies::{Edit, EditOperation};

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
        put(&mut whole, &pointer, filling);
    }
    whole
}

/// Makes edits to a document.
pub fn edit(document: &mut Value, edits: &[Edit]) {
    for Edit { op: EditOperation::Add, path, value } in edits {
        put(document, path, value);
    }
}

/// Puts a value into a member, in the place of what is there.
fn put(document: &mut Value, pointer: &str, value: impl Serialize) {
    let Some((parent, name)) = pointer.rsplit_once('/') else { return };
    let members = document.pointer_mut(parent).and_then(Value::as_object_mut);
    // Without the object around it the document would not have fitted its schema.
    if let (Some(members), Ok(value)) = (members, serde_json::to_value(value)) {
        members.insert(name.to_owned(), value);
    }
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
