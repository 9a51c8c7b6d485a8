//! Signed answers: what is signed of an answer, by whom, and whether it still stands.
//!
//! A signature is over a digest of the whole answer, the request's digest, the engine and the verdict, so that the four
//! can be kept and checked by themselves and still no figure can be altered. Bytes do not matter, only what they say:
//! both digests are of the canonical form (RFC 8785), so an answer may be indented or sorted and is still the same.

use std::path::Path;
use std::sync::Arc;

use serde::Serialize;
use serde::ser::Error;
use serde_json::Value;

use crate::http::gate::canonical;
use crate::service::digest::input_digest;
use crate::service::signing::{ALGORITHM, NoKey, PublicKey, Signer};
use crate::wire::signature::{Signature, Signed};

/// Member of an answer that holds its signature.
const MEMBER: &str = "signature";

/// Largest file of a key, bytes.
const MOST_KEY_BYTES: u64 = 64 * 1024;

/// An answer in the bytes it is sent in, signed where there is a key.
///
/// # Errors
/// When it cannot be written as JSON.
pub fn written(answer: &impl Serialize, signer: Option<&Signer>) -> serde_json::Result<Vec<u8>> {
    let Some(signer) = signer else { return serde_json::to_vec(answer) };
    let mut answer = serde_json::to_value(answer)?;
    sign(&mut answer, signer)?;
    serde_json::to_vec(&answer)
}

/// A line of answers in the bytes it is sent in; where there is a key, the answer on it is signed as by itself.
///
/// # Errors
/// When it cannot be written as JSON.
pub fn write_line(
    out: &mut Vec<u8>,
    line: &impl Serialize,
    signer: Option<&Signer>,
) -> serde_json::Result<()> {
    let Some(signer) = signer else { return serde_json::to_writer(out, line) };
    let mut line = serde_json::to_value(line)?;
    // A problem has no result, and is never signed.
    if let Some(answer) = line.get_mut("result") {
        sign(answer, signer)?;
    }
    serde_json::to_writer(out, &line)
}

fn sign(answer: &mut Value, signer: &Signer) -> serde_json::Result<()> {
    let signs = signed_of(answer)?;
    let signature = Signature {
        algorithm: ALGORITHM.to_owned(),
        key_id: signer.public().id().to_owned(),
        jws: signer.detached(&payload(&signs)?),
        signs,
    };
    let members = answer.as_object_mut().ok_or_else(|| serde_json::Error::custom("no object"))?;
    members.insert(MEMBER.to_owned(), serde_json::to_value(signature)?);
    Ok(())
}

/// What is to be signed of an answer, whether or not it has a signature already.
fn signed_of(answer: &Value) -> serde_json::Result<Signed> {
    let member = |name: &str| answer.get(name).cloned().unwrap_or_default();
    Ok(Signed {
        answer_digest: input_digest(&canonical(answer, &[MEMBER])),
        engine: serde_json::from_value(member("engine"))?,
        input_digest: serde_json::from_value(member("input_digest"))?,
        verdict: serde_json::from_value(member("verdict"))?,
    })
}

fn payload(signs: &Signed) -> serde_json::Result<Vec<u8>> {
    serde_json::to_value(signs).map(|signs| canonical(&signs, &[]))
}

/// Why an answer is not vouched for.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unverified {
    /// There is no signature.
    #[error("it has no signature")]
    Unsigned,
    /// The signature is none, or the document no answer.
    #[error("it is no signed answer: {0}")]
    Malformed(String),
    /// Signed by somebody else.
    #[error("it names the key {0}, which is none of those given")]
    OtherKey(String),
    /// Some of the answer is not what was signed.
    #[error("it was altered: {0} is not what was signed")]
    Altered(&'static str),
    /// The signature is not by that key over what it says is signed.
    #[error("its signature is false")]
    False,
}

/// What is signed of an answer, if it is signed by one of these keys and says what was signed.
///
/// # Errors
/// [`Unverified`] otherwise.
pub fn verified(answer: &Value, keys: &[PublicKey]) -> Result<Signed, Unverified> {
    let malformed = |error: serde_json::Error| Unverified::Malformed(error.to_string());
    let signature = answer.get(MEMBER).ok_or(Unverified::Unsigned)?;
    let signature: Signature = serde_json::from_value(signature.clone()).map_err(malformed)?;
    if signature.algorithm != ALGORITHM {
        return Err(Unverified::Malformed(format!("{} is unknown", signature.algorithm)));
    }
    let key = keys.iter().find(|key| key.id() == signature.key_id);
    let key = key.ok_or_else(|| Unverified::OtherKey(signature.key_id.clone()))?;
    if !key.has_signed(&payload(&signature.signs).map_err(malformed)?, &signature.jws) {
        return Err(Unverified::False);
    }
    let (signs, says) = (signature.signs, signed_of(answer).map_err(malformed)?);
    // What is told apart first says more than that something is another.
    for (same, what) in [
        (signs.verdict == says.verdict, "its verdict"),
        (signs.engine == says.engine, "its engine"),
        (signs.input_digest == says.input_digest, "its digest of the request"),
        (signs.answer_digest == says.answer_digest, "something in it"),
    ] {
        if !same {
            return Err(Unverified::Altered(what));
        }
    }
    Ok(signs)
}

/// Why there is no key in a file.
#[derive(Debug, thiserror::Error)]
pub enum KeyError {
    /// It cannot be read.
    #[error("it cannot be read: {0}")]
    Unreadable(#[from] std::io::Error),
    /// It is larger than a key.
    #[error("it is larger than a key")]
    TooLarge,
    /// Everybody on the machine may read or change it.
    #[error(
        "others than its owner and its group may reach it, or its group may change it; chmod 600 it"
    )]
    Open,
    /// What it holds is no key.
    #[error("{0}")]
    NoKey(#[from] NoKey),
}

/// The key in a file that only its owner, and at most its group, may read.
///
/// # Errors
/// [`KeyError`] where it holds none, or is open to others.
pub fn signer(path: &Path) -> Result<Arc<Signer>, KeyError> {
    let known = path.metadata()?;
    closed(&known)?;
    Ok(Arc::new(Signer::from_pem(&text(path, &known)?)?))
}

/// The public key in a file.
///
/// # Errors
/// [`KeyError`] where it holds none.
pub fn public_key(path: &Path) -> Result<PublicKey, KeyError> {
    Ok(PublicKey::from_text(&text(path, &path.metadata()?)?)?)
}

fn text(path: &Path, known: &std::fs::Metadata) -> Result<String, KeyError> {
    if known.len() > MOST_KEY_BYTES {
        return Err(KeyError::TooLarge);
    }
    Ok(std::fs::read_to_string(path)?)
}

/// Secrets of a cluster come with a group that may read them; more than that is never needed.
#[cfg(unix)]
fn closed(known: &std::fs::Metadata) -> Result<(), KeyError> {
    use std::os::unix::fs::MetadataExt;
    if known.mode() & 0o027 == 0 { Ok(()) } else { Err(KeyError::Open) }
}

#[cfg(not(unix))]
fn closed(_: &std::fs::Metadata) -> Result<(), KeyError> {
    Ok(())
}
