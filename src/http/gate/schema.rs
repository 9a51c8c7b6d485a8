//! A document against the published description.

use std::sync::OnceLock;

use jsonschema::error::{TypeKind, ValidationErrorKind as Kind};
use jsonschema::{ValidationError, Validator};
use serde_json::{Value, json};

use crate::http::description::{self, rules};
use crate::http::gate::fault::MOST_FAULTS;
use crate::http::gate::{Shape, sentence, step};
use crate::wire::fault::{Fault, FaultCode};

/// Most unknown members of one object that are listed; more than it has fields.
const MOST_UNKNOWN: usize = 50;

/// A schema of the published description, compiled once.
#[derive(Debug)]
pub struct Contract {
    name: &'static str,
    /// Member that is held against another contract, of an envelope.
    enclosed: Option<&'static str>,
    compiled: OnceLock<Validator>,
    shape: OnceLock<Shape>,
}

impl Contract {
    /// The schema called `name` under `#/components/schemas`.
    #[must_use]
    pub const fn new(name: &'static str) -> Self {
        Self { name, enclosed: None, compiled: OnceLock::new(), shape: OnceLock::new() }
    }

    /// What all alternatives of the schema called `name` have in common around their member `enclosed`,
    /// which is only held to be an object here.
    #[must_use]
    pub const fn of_envelope(name: &'static str, enclosed: &'static str) -> Self {
        Self { name, enclosed: Some(enclosed), compiled: OnceLock::new(), shape: OnceLock::new() }
    }

    /// Compiles the schema now rather than with the first request.
    ///
    /// # Panics
    /// When the description has no such schema: a mistake of this crate that shows at start.
    pub fn prepare(&self) -> &Validator {
        self.compiled.get_or_init(|| {
            let description = description::openapi_value();
            assert!(
                description["components"]["schemas"].get(self.name).is_some(),
                "{} is not part of the published description",
                self.name
            );
            let schema = match self.enclosed {
                Some(enclosed) => envelope(description, self.name, enclosed),
                None => json!({
                    "$schema": "https://json-schema.org/draft/2020-12/schema",
                    "$ref": format!("#/components/schemas/{}", self.name),
                    "components": {
                        "schemas": rules::unsaid(&description["components"]["schemas"]),
                    },
                }),
            };
            jsonschema::draft202012::new(&schema).expect("the generated description is a schema")
        })
    }

    /// What a document of this kind can hold.
    pub fn shape(&self) -> &Shape {
        self.shape.get_or_init(|| Shape::of(description::openapi_value(), self.name))
    }

    /// Every fault of `document`.
    pub fn faults(&self, document: &Value) -> Vec<Fault> {
        let mut faults = Vec::new();
        for error in self.prepare().iter_errors(document) {
            collect(&error, &mut faults);
            if faults.len() >= MOST_FAULTS {
                faults.truncate(MOST_FAULTS);
                break;
            }
        }
        faults
    }
}

/// The members that the alternatives of a schema share, each a tag of one value or the same everywhere.
fn envelope(description: &Value, name: &str, enclosed: &str) -> Value {
    let schemas = &description["components"]["schemas"];
    let named = |reference: &Value| {
        let name = reference["$ref"].as_str().and_then(|path| path.rsplit('/').next());
        &schemas[name.unwrap_or_default()]
    };
    let mut shared = Value::Null;
    for alternative in schemas[name]["oneOf"].as_array().into_iter().flatten().map(named) {
        if shared.is_null() {
            shared = alternative.clone();
            shared["additionalProperties"] = json!(false);
            shared["properties"][enclosed] = json!({ "type": "object" });
            continue;
        }
        let tag = alternative["properties"]["kind"]["enum"].as_array().into_iter().flatten();
        if let Some(tags) = shared["properties"]["kind"]["enum"].as_array_mut() {
            tags.extend(tag.cloned());
        }
    }
    shared
}

/// Translates one error of the validator into faults: none of its words, only what it found.
fn collect(error: &ValidationError<'_>, faults: &mut Vec<Fault>) {
    let at = error.instance_path().as_str();
    let value = error.instance().as_ref();
    let mut push = |pointer: String, code: FaultCode, detail: String| {
        faults.push(Fault::new(pointer, code, detail));
    };
    match error.kind() {
        Kind::Required { property } => {
            let name = property.as_str().unwrap_or_default();
            push(step(at, name), FaultCode::Missing, sentence::missing(name));
        }
        Kind::AdditionalProperties { unexpected } | Kind::UnevaluatedProperties { unexpected } => {
            for name in unexpected.iter().take(MOST_UNKNOWN) {
                push(step(at, name), FaultCode::UnknownField, sentence::unknown_field(name));
            }
        }
        Kind::Type { kind } => {
            let expected: Vec<_> = match kind {
                TypeKind::Single(single) => vec![*single],
                TypeKind::Multiple(several) => several.iter().collect(),
            };
            push(at.to_owned(), FaultCode::WrongType, sentence::wrong_type(&expected, value));
        }
        Kind::Enum { options } => {
            push(at.to_owned(), FaultCode::UnknownValue, sentence::unknown_value(options, value));
        }
        Kind::AnyOf { context } | Kind::OneOfNotValid { context } => {
            if let Some(branch) = branch_of_same_type(at, context) {
                for inner in branch {
                    collect(inner, faults);
                }
            } else {
                let expected: Vec<_> = context.iter().flatten().filter_map(only_type).collect();
                push(at.to_owned(), FaultCode::WrongType, sentence::wrong_type(&expected, value));
            }
        }
        other => match sentence::limit(other, value) {
            Some(detail) => push(at.to_owned(), FaultCode::OutOfRange, detail),
            None => push(at.to_owned(), FaultCode::WrongType, sentence::other(error)),
        },
    }
}

/// Of the alternatives, the first whose JSON type is that of the value: its faults are the ones
/// the caller can act on.
fn branch_of_same_type<'a>(
    at: &str,
    branches: &'a [Vec<ValidationError<'static>>],
) -> Option<&'a [ValidationError<'static>]> {
    branches
        .iter()
        .find(|branch| {
            !branch.iter().any(|error| {
                error.instance_path().as_str() == at && matches!(error.kind(), Kind::Type { .. })
            })
        })
        .map(Vec::as_slice)
}

/// The one JSON type an error asks for.
fn only_type(error: &ValidationError<'_>) -> Option<jsonschema::JsonType> {
    match error.kind() {
        Kind::Type { kind: TypeKind::Single(single) } => Some(*single),
        _ => None,
    }
}
