//! JSON text to document, remembering what a plain parse forgets, members given twice, and keeping
//! nothing that cannot be part of a valid one.

use std::cell::{Cell, RefCell};
use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};

use crate::http::gate::fault::{BodyFault, MOST_FAULTS};
use crate::http::gate::{Shape, sentence, step};
use crate::wire::fault::{Fault, FaultCode};

/// A document, as far as it can be one of its kind, and what was seen to be wrong while it was read.
pub struct Parsed {
    /// The document: of members given twice the last, nothing in members it cannot have, and of lists
    /// no more entries than there may be.
    pub document: Value,
    /// A fault for every repetition and every list that is too long, up to [`MOST_FAULTS`].
    pub faults: Vec<Fault>,
}

/// Parses UTF-8 JSON of a shape. Nesting deeper than 127 levels is refused as not JSON.
pub fn parse(bytes: &[u8], shape: &Shape) -> Result<Parsed, BodyFault> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let before = &bytes[..error.valid_up_to()];
        let last_line = before.rsplit(|byte| *byte == b'\n').next().unwrap_or_default();
        BodyFault::NotJson {
            line: before.split(|byte| *byte == b'\n').count(),
            column: 1 + last_line.len(),
            what: "the text is not UTF-8".to_owned(),
        }
    })?;
    let seen = Seen::default();
    let mut reader = serde_json::Deserializer::from_str(text);
    let document = Place { up: None, token: Token::Root, shape, seen: &seen }
        .deserialize(&mut reader)
        .and_then(|document| reader.end().map(|()| document));
    if let Some(fault) = seen.too_many.into_inner() {
        return Err(BodyFault::Faults(vec![fault]));
    }
    let document = document.map_err(|error| not_json(&error))?;
    Ok(Parsed { document, faults: seen.faults.into_inner() })
}

/// Line, column and the parser's own words without the place it appends to them.
fn not_json(error: &serde_json::Error) -> BodyFault {
    let (line, column) = (error.line(), error.column());
    let said = error.to_string();
    let what = said.strip_suffix(&format!(" at line {line} column {column}")).unwrap_or(&said);
    BodyFault::NotJson { line, column, what: what.to_owned() }
}

/// Most values of a document. The largest job, forty thousand hooks as built, has fewer.
const MOST_VALUES: usize = 458_752;

/// What was seen so far.
#[derive(Default)]
struct Seen {
    faults: RefCell<Vec<Fault>>,
    values: Cell<usize>,
    /// Set where there were too many values; nothing more is read then.
    too_many: RefCell<Option<Fault>>,
}

/// A value about to be read, and where it will stand: a chain of steps, spelled out only when a
/// fault needs it.
#[derive(Clone, Copy)]
struct Place<'a> {
    up: Option<&'a Place<'a>>,
    token: Token<'a>,
    shape: &'a Shape,
    seen: &'a Seen,
}

/// One step of the way to a value.
#[derive(Clone, Copy)]
enum Token<'a> {
    Root,
    Index(usize),
    Key(&'a str),
}

impl<'a> Place<'a> {
    const fn child(&'a self, token: Token<'a>, shape: &'a Shape) -> Self {
        Self { up: Some(self), token, shape, seen: self.seen }
    }

    fn fault(&self, code: FaultCode, detail: impl Into<String>) {
        let mut faults = self.seen.faults.borrow_mut();
        if faults.len() < MOST_FAULTS {
            faults.push(Fault::new(self.pointer(), code, detail));
        }
    }

    /// Counts this value, whether it is kept or not.
    fn count<E: Error>(&self) -> Result<(), E> {
        let values = self.seen.values.get() + 1;
        self.seen.values.set(values);
        if values <= MOST_VALUES {
            return Ok(());
        }
        let detail = sentence::too_many_values(MOST_VALUES);
        let fault = Fault::new(self.pointer(), FaultCode::OutOfRange, detail);
        *self.seen.too_many.borrow_mut() = Some(fault);
        Err(E::custom("too many values"))
    }

    fn pointer(&self) -> String {
        let above = self.up.map(Place::pointer).unwrap_or_default();
        match self.token {
            Token::Root => above,
            Token::Index(index) => step(&above, &index.to_string()),
            Token::Key(key) => step(&above, key),
        }
    }
}

impl<'de> DeserializeSeed<'de> for Place<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<Value, D::Error> {
        self.count()?;
        reader.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Place<'_> {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E: Error>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_u64<E: Error>(self, value: u64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_i64<E: Error>(self, value: i64) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    /// JSON has one kind of number: `2.0` is the whole number 2, also where a count is asked for.
    fn visit_f64<E: Error>(self, value: f64) -> Result<Value, E> {
        const EXACT: f64 = 9_007_199_254_740_992.0;
        if value.fract() == 0.0 && value.abs() < EXACT {
            #[expect(clippy::cast_possible_truncation, reason = "whole and below 2^53")]
            return Ok(Value::from(value as i64));
        }
        // The parser refuses numbers that are not finite before they come here.
        Ok(Number::from_f64(value).map_or(Value::Null, Value::Number))
    }

    fn visit_str<E: Error>(self, value: &str) -> Result<Value, E> {
        Ok(Value::from(value))
    }

    fn visit_string<E: Error>(self, value: String) -> Result<Value, E> {
        Ok(Value::String(value))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        // Where no list may stand the schema says so; what is in it is no matter.
        let (entry, most) = self.shape.list().unwrap_or((self.shape, 0));
        while list.len() < most {
            let place = self.child(Token::Index(list.len()), entry);
            let Some(item) = items.next_element_seed(place)? else {
                return Ok(Value::Array(list));
            };
            list.push(item);
        }
        let mut count = list.len();
        while items.next_element::<IgnoredAny>()?.is_some() {
            count += 1;
        }
        if self.shape.list().is_some() && count > most {
            self.fault(FaultCode::OutOfRange, sentence::too_many_entries(count, most));
        }
        Ok(Value::Array(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Value, A::Error> {
        let mut object = Map::new();
        while let Some(key) = members.next_key::<String>()? {
            let shape = self.shape.member(&key);
            let place = self.child(Token::Key(&key), shape.unwrap_or(self.shape));
            if object.contains_key(&key) {
                place.fault(FaultCode::Contradiction, "This member is given more than once.");
            }
            // That there is no such member is for the schema to say; what it holds is no matter.
            let value = if shape.is_some() {
                members.next_value_seed(place)?
            } else {
                place.count()?;
                members.next_value::<IgnoredAny>()?;
                Value::Null
            };
            let absent = shape.is_some_and(Shape::may_be_absent)
                && value.as_array().is_some_and(Vec::is_empty);
            if !absent {
                object.insert(key, value);
            }
        }
        Ok(Value::Object(object))
    }
}
