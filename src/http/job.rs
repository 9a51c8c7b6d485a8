//! One job from bytes to answer, of whatever kind: the gate, the digest, the pipeline, faults in the
//! order of the document. No HTTP in here; the command line and batches use the same function.

use crate::http::check::{self, Checkable, Checked};
use crate::http::problem::Problem;
use crate::model::fault::Fault;
use crate::service::digest::input_digest;
use crate::service::request::Options;
use crate::service::request::Request;

/// A kind of job this service takes: a published contract and a pipeline.
pub trait Kind: Checkable + Request {}

impl<R: Checkable + Request> Kind for R {}

/// The answer to the request in `bytes`.
///
/// # Errors
/// A problem with everything that is wrong with the request.
pub fn answer<R: Kind>(bytes: &[u8], options: &Options) -> Result<R::Answer, Problem> {
    answer_checked::<R>(check::read(bytes)?, options)
}

/// Another form of the answer to the request in `bytes`, made by `show` from the request and its
/// digest.
///
/// # Errors
/// A problem with everything that is wrong with the request.
pub fn shown<R: Kind>(
    bytes: &[u8],
    show: impl FnOnce(&R, &str) -> Result<String, Vec<Fault>>,
) -> Result<String, Problem> {
    let checked = check::read::<R>(bytes)?;
    let digest = digest_of(&checked);
    let (request, order) = checked.into_parts();
    show(&request, &digest).map_err(|faults| Problem::faults(order.sort(faults)))
}

/// The answer to a request that passed the gate.
///
/// # Errors
/// A problem with every fault that only the pipeline sees.
pub fn answer_checked<R: Kind>(
    checked: Checked<R>,
    options: &Options,
) -> Result<R::Answer, Problem> {
    let digest = digest_of(&checked);
    let (request, order) = checked.into_parts();
    request.answer(digest, options).map_err(|faults| Problem::faults(order.sort(faults)))
}

/// Digest of a request without its record of an earlier answer.
fn digest_of<R: Kind>(checked: &Checked<R>) -> String {
    input_digest(&checked.canonical(R::RECORD))
}
