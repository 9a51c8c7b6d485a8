//! The operations of a description, whichever path they stand under.

use serde_json::{Map, Value};

/// Path, method and description of every operation.
pub fn of(description: &mut Value) -> impl Iterator<Item = (&String, &String, &mut Value)> {
    let paths = description["paths"].as_object_mut().into_iter().flat_map(Map::iter_mut);
    paths.flat_map(|(path, operations)| {
        let operations = operations.as_object_mut().into_iter().flat_map(Map::iter_mut);
        operations.map(move |(method, operation)| (path, method, operation))
    })
}
