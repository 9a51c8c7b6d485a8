//! Documents of a file, one after the other. A member that is given twice makes a document none: readers differ in
//! which of the two they believe.

use std::fmt;
use std::fs::File;
use std::io::{BufReader, Read, Result};
use std::path::Path;

use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Value};

/// Every document of a file, or why it is none; after the first that is none nothing can be told.
///
/// # Errors
/// When the file cannot be opened.
pub fn documents(path: &Path) -> Result<impl Iterator<Item = std::result::Result<Value, String>>> {
    let input: Box<dyn Read> = if path == Path::new("-") {
        Box::new(std::io::stdin())
    } else {
        Box::new(File::open(path)?)
    };
    let documents =
        serde_json::Deserializer::from_reader(BufReader::new(input)).into_iter::<Once>();
    let mut over = false;
    Ok(documents
        .map(|document| {
            document.map(|Once(value)| value).map_err(|error| format!("it is no JSON: {error}"))
        })
        .take_while(move |document| !std::mem::replace(&mut over, document.is_err())))
}

/// A value of which every member is given once.
struct Once(Value);

impl<'de> Deserialize<'de> for Once {
    fn deserialize<D: Deserializer<'de>>(from: D) -> std::result::Result<Self, D::Error> {
        from.deserialize_any(Reader).map(Self)
    }
}

struct Reader;

impl<'de> Visitor<'de> for Reader {
    type Value = Value;

    fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str("a value")
    }

    fn visit_unit<E: Error>(self) -> std::result::Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E: Error>(self, value: bool) -> std::result::Result<Value, E> {
        Ok(value.into())
    }

    fn visit_i64<E: Error>(self, value: i64) -> std::result::Result<Value, E> {
        Ok(value.into())
    }

    fn visit_u64<E: Error>(self, value: u64) -> std::result::Result<Value, E> {
        Ok(value.into())
    }

    fn visit_f64<E: Error>(self, value: f64) -> std::result::Result<Value, E> {
        Ok(value.into())
    }

    fn visit_str<E: Error>(self, value: &str) -> std::result::Result<Value, E> {
        Ok(value.into())
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> std::result::Result<Value, A::Error> {
        let mut list = Vec::new();
        while let Some(Once(item)) = items.next_element()? {
            list.push(item);
        }
        Ok(list.into())
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> std::result::Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some((name, Once(value))) = members.next_entry::<String, Once>()? {
            if map.insert(name.clone(), value).is_some() {
                return Err(A::Error::custom(format!("\"{name}\" is given twice")));
            }
        }
        Ok(map.into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_member_given_twice_makes_a_document_none() {
        let read = |text: &str| serde_json::from_str::<Once>(text).map(|once| once.0);
        let text = r#"{"a": [1, -2, 1.5, 1263.0000000000002, "x", null, true], "b": {"a": {}}}"#;
        assert_eq!(read(text).expect("JSON"), serde_json::from_str::<Value>(text).expect("JSON"));
        let twice = read(r#"{"b": {"a": 1, "a": 1}}"#).expect_err("twice").to_string();
        assert!(twice.contains("\"a\" is given twice"), "{twice}");
    }
}
