//! The gate: bytes in, typed request or every fault out. No HTTP in here; the command line uses
//! the same function.
//!
//! 1. `json` reads the text (line and column of a mistake, members given twice, lists too long) and
//!    keeps of it what `shape` lets stand in a document of this kind.
//! 2. `schema` holds the document against the published description, which is therefore the
//!    contract and not a picture of it: every fault at once, each with its exact pointer.
//! 3. serde builds the typed request. After step 2 it should find nothing; what it does find is
//!    a fault of the caller all the same, never a failure of the service.

mod canonical;
mod document;
pub mod fault;
mod json;
mod key;
mod schema;
mod sentence;
mod shape;

use fault::{BodyFault, MOST_FAULTS};
use serde::de::DeserializeOwned;
use serde_json::Value;

pub(super) use canonical::canonical;
use document::Document;
pub(super) use json::{Parsed, parse};
pub use schema::Contract;
pub(super) use shape::Shape;

use crate::service::digest::input_digest;
use crate::service::intake::short::Completed;
use crate::service::request::{NamesJob, Request};
use crate::wire::array::FilledField;
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::layout::LayoutRequest;
use crate::wire::provenance::Assumption;
use crate::wire::remedies::Edit;

/// A request this service takes.
pub trait Checkable: DeserializeOwned + Request {
    /// Its published schema.
    fn contract() -> &'static Contract;
}

/// Makes a request one that this service takes, by the schema of its own name.
macro_rules! checkable {
    ($request:ident) => {
        impl $crate::http::gate::Checkable for $request {
            fn contract() -> &'static $crate::http::gate::Contract {
                static CONTRACT: $crate::http::gate::Contract =
                    $crate::http::gate::Contract::new(stringify!($request));
                &CONTRACT
            }
        }
    };
}
pub(crate) use checkable;

/// A request that passed the gate.
#[derive(Debug)]
pub struct Checked<T> {
    /// The typed request.
    pub request: T,
    /// The document it came from.
    document: Value,
    /// The same with what was completed, where anything was.
    completed: Option<Value>,
}

/// Reads and checks a body.
///
/// # Errors
/// [`BodyFault`] with everything that is wrong.
pub fn read<T: Checkable>(bytes: &[u8]) -> Result<Checked<T>, BodyFault> {
    let Parsed { document, faults } = parse(bytes, T::contract().shape())?;
    let faults = faults_of(faults, T::contract(), &document);
    if !faults.is_empty() {
        return Err(BodyFault::Faults(in_document_order(faults, &document)));
    }
    typed(document)
}

/// All faults of a document: those seen while it was parsed, then what its contract says.
pub(super) fn faults_of(seen: Vec<Fault>, contract: &Contract, document: &Value) -> Vec<Fault> {
    let mut faults = seen;
    faults.truncate(MOST_FAULTS);
    faults.extend(contract.faults(document));
    faults
}

/// The typed request of a document without faults, completed where it is short.
pub(super) fn typed<T: Checkable>(document: Value) -> Result<Checked<T>, BodyFault> {
    let Completed { completions, filled, faults } = T::completed(&Document(&document));
    if !faults.is_empty() {
        return Err(BodyFault::Faults(in_document_order(faults, &document)));
    }
    let completed = (!filled.is_empty()).then(|| document::completed(&document, filled));
    let whole = completed.as_ref().unwrap_or(&document);
    let request = match T::deserialize(whole) {
        Ok(request) => request,
        // Once more, to learn where: remembering the way is not worth its time when all is well.
        Err(_) => serde_path_to_error::deserialize(whole)
            .map_err(|error| BodyFault::Faults(vec![last_line_of_defence(&error)]))?,
    };
    let request: T = request;
    Ok(Checked { request: request.with_completions(completions), document, completed })
}

impl<T> Checked<T> {
    /// The document in canonical form, to take its digest; without some of its members if so wanted.
    #[must_use]
    pub fn canonical(&self, left_out: &[&str]) -> Vec<u8> {
        canonical::canonical(&self.document, left_out)
    }

    /// What stands at a pointer of the document.
    #[must_use]
    pub fn at(&self, pointer: &str) -> Option<&Value> {
        self.document.pointer(pointer)
    }

    /// Takes the request out and keeps what is needed to order faults found later.
    #[must_use]
    pub fn into_parts(self) -> (T, Order) {
        let Self { request, document, completed } = self;
        (request, Order { document, completed })
    }
}

/// The order in which things appear in a document.
#[derive(Debug)]
pub struct Order {
    document: Value,
    completed: Option<Value>,
}

impl Order {
    /// Faults in the order in which their places appear, each once.
    #[must_use]
    pub fn sort(&self, mut faults: Vec<Fault>) -> Vec<Fault> {
        for fault in &mut faults {
            document::as_written(&self.document, &mut fault.pointer);
        }
        in_document_order(faults, &self.document)
    }

    /// The name of the job the document asks about, by what was assumed of it and the fields that were
    /// filled; of a building that on one of its slopes.
    #[must_use]
    pub fn job_key(
        &self,
        slope: Option<usize>,
        assumed: &[Assumption],
        filled: &[FilledField],
    ) -> String {
        let whole = self.completed.as_ref().unwrap_or(&self.document);
        input_digest(&key::canonical_job(whole, slope, assumed, filled))
    }
}

/// Member of a request that is the job it encloses.
const ENCLOSED: &str = "job";

impl Order {
    /// The enclosed job with edits made to it, as a request for its layout.
    fn edited(&self, edits: &[Edit]) -> Value {
        let mut job = self.document.get(ENCLOSED).cloned().unwrap_or_default();
        document::edit(&mut job, edits);
        job
    }
}

impl NamesJob for Order {
    fn digest_of_job(&self, edits: &[Edit]) -> String {
        input_digest(&canonical::canonical(&self.edited(edits), LayoutRequest::APART))
    }

    fn key_of_job(&self, edits: &[Edit], assumed: &[Assumption], filled: &[FilledField]) -> String {
        let job = self.edited(edits);
        // Other parts may be completed otherwise.
        let Completed { filled: completing, .. } = LayoutRequest::completed(&Document(&job));
        let whole = document::completed(&job, completing);
        input_digest(&key::canonical_job(&whole, None, assumed, filled))
    }
}

/// Writes a JSON pointer (RFC 6901) one step further.
fn step(pointer: &str, token: &str) -> String {
    format!("{pointer}/{}", token.replace('~', "~0").replace('/', "~1"))
}

/// Sorts by place, a container before its members, a missing member after those present; removes
/// repetitions. The sort is stable: missing members keep the order of the description.
pub(super) fn in_document_order(faults: Vec<Fault>, document: &Value) -> Vec<Fault> {
    let mut keyed: Vec<(Vec<usize>, Fault)> =
        faults.into_iter().map(|fault| (place(&fault.pointer, document), fault)).collect();
    keyed.sort_by(|a, b| a.0.cmp(&b.0));
    let mut ordered: Vec<Fault> = keyed.into_iter().map(|(_, fault)| fault).collect();
    ordered.dedup();
    ordered
}

/// Position of every step of a pointer among its siblings.
fn place(pointer: &str, document: &Value) -> Vec<usize> {
    let mut at = Some(document);
    pointer
        .split('/')
        .skip(1)
        .map(|token| {
            let token = token.replace("~1", "/").replace("~0", "~");
            let (position, next) = match at {
                Some(Value::Object(members)) => {
                    (members.keys().position(|key| *key == token), members.get(&token))
                }
                Some(Value::Array(items)) => {
                    let index = token.parse().ok();
                    (index, index.and_then(|index: usize| items.get(index)))
                }
                _ => (None, None),
            };
            at = next;
            position.unwrap_or(usize::MAX)
        })
        .collect()
}

/// A fault the description let pass and the typed request did not.
fn last_line_of_defence(error: &serde_path_to_error::Error<serde_json::Error>) -> Fault {
    use serde_path_to_error::Segment;
    let pointer = error.path().iter().fold(String::new(), |pointer, segment| match segment {
        Segment::Seq { index } => step(&pointer, &index.to_string()),
        Segment::Map { key } => step(&pointer, key),
        Segment::Enum { .. } | Segment::Unknown => pointer,
    });
    tracing::warn!(%pointer, "the published description let a fault pass");
    Fault::new(
        pointer,
        FaultCode::WrongType,
        format!("This value does not fit: {}.", error.inner()),
    )
}

#[cfg(test)]
mod tests;
