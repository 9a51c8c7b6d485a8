//! Signed answers checked: files of answers in, a word on each out.
//!
//! **Layer.** Top, beside `solve` and `report`.

mod reading;

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use serde_json::Value;

use crate::http::digest_of;
use crate::http::signature::{public_key, verified};
use crate::service::signing::PublicKey;
use crate::wire::signature::Signed;

/// How `verify` ended; the numbers are the exit status.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Every answer is vouched for, and whatever else was asked holds.
    Verified = 0,
    /// Something is not; which, and why, is said.
    NotVerified = 1,
    /// A file could not be read, or holds no key.
    Unreadable = 2,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        Self::from(outcome as u8)
    }
}

/// What is checked, and by which keys.
#[derive(Debug, Clone)]
pub struct Settings {
    /// Files with an answer, or with one on each line; `-` is standard input.
    pub answers: Vec<PathBuf>,
    /// Files with the public keys of those who may have signed.
    pub public_keys: Vec<PathBuf>,
    /// File with the request that the one answer is to.
    pub request: Option<PathBuf>,
    /// Whether the answers have to be a chain.
    pub chain: bool,
}

/// An answer that is vouched for.
struct Vouched {
    /// Where it stands.
    name: String,
    answer: Value,
    signed: Signed,
}

/// Checks answers; what is verified goes to `out`, what is not to `err`.
pub fn run(settings: &Settings, out: &mut impl Write, err: &mut impl Write) -> Outcome {
    match checked(settings, out, err) {
        Ok(0) => Outcome::Verified,
        Ok(_) => Outcome::NotVerified,
        Err(what) => {
            // Where nobody reads the message, the exit status still says it.
            let _ = writeln!(err, "hookspan: {what}");
            Outcome::Unreadable
        }
    }
}

/// How many things are wrong.
fn checked(settings: &Settings, out: &mut impl Write, err: &mut impl Write) -> Result<u64, String> {
    let cannot_read = |path: &Path, error: &dyn std::fmt::Display| {
        format!("cannot read {}: {error}", path.display())
    };
    let keys = settings.public_keys.iter().map(|path| {
        public_key(path).map_err(|error| format!("{} holds no public key: {error}", path.display()))
    });
    let keys: Vec<PublicKey> = keys.collect::<Result<_, _>>()?;
    let request = settings
        .request
        .as_deref()
        .map(|path| std::fs::read(path).map_err(|error| cannot_read(path, &error)));
    let request = request.transpose()?;
    let (mut good, mut bad) = (0_u64, 0_u64);
    let mut before: Option<Vouched> = None;
    for path in &settings.answers {
        let file = path.to_string_lossy();
        for document in reading::documents(path).map_err(|error| cannot_read(path, &error))? {
            let read = document.map_err(|error| (file.clone().into_owned(), error));
            let judged =
                read.and_then(|document| one(&file, document, &keys)).and_then(|vouched| {
                    let Some(vouched) = vouched else { return Ok(None) };
                    let answers = request.as_deref().map(|request| is_to(&vouched.answer, request));
                    let follows = before
                        .as_ref()
                        .filter(|_| settings.chain)
                        .map(|before| follows(&vouched, before));
                    match answers.into_iter().chain(follows).find_map(Result::err) {
                        Some(what) => Err((vouched.name, what)),
                        None => Ok(Some(vouched)),
                    }
                });
            match judged {
                Ok(None) => {}
                Ok(Some(vouched)) => {
                    good += 1;
                    let _ = writeln!(out, "{}: {}", vouched.name, said(&vouched));
                    before = Some(vouched);
                }
                Err((name, what)) => {
                    bad += 1;
                    let _ = writeln!(err, "{name}: NOT VERIFIED: {what}");
                }
            }
        }
    }
    if good + bad == 0 {
        return Err("there is no answer".to_owned());
    }
    let chain = if settings.chain && bad == 0 { ", one chain" } else { "" };
    let _ = writeln!(out, "{good} of {} verified{chain}", good + bad);
    Ok(bad)
}

/// An answer of a document: the document itself, or what stands on a line of a batch. The end of a batch is none.
fn one(
    file: &str,
    document: Value,
    keys: &[PublicKey],
) -> Result<Option<Vouched>, (String, String)> {
    let line = document.get("line").and_then(Value::as_u64);
    let name = line.map_or_else(|| file.to_owned(), |line| format!("{file}, line {line}"));
    if line.is_none() && document.get("kind").is_some_and(|kind| kind == "end") {
        return Ok(None);
    }
    if document.get("problem").is_some() || document.get("errors").is_some() {
        return Err((name, "it is a problem, which nobody vouches for".to_owned()));
    }
    let answer = match document {
        Value::Object(mut members) if line.is_some() => {
            members.remove("result").unwrap_or_default()
        }
        document => document,
    };
    match verified(&answer, keys) {
        Ok(signed) => Ok(Some(Vouched { name, answer, signed })),
        Err(why) => Err((name, why.to_string())),
    }
}

/// Whether an answer is to a request.
fn is_to(answer: &Value, request: &[u8]) -> Result<(), String> {
    let digest = digest_of(kind(answer), request)?;
    if answer.get("input_digest").and_then(Value::as_str) == Some(&digest) {
        Ok(())
    } else {
        Err(format!("it is to another request: the digest of the one given is {digest}"))
    }
}

/// Kind of the job of an answer, in full or in short.
fn kind(answer: &Value) -> &str {
    let member = |name: &str| answer.get(name).and_then(Value::as_str);
    member("of").or_else(|| member("kind")).unwrap_or_default()
}

/// Whether an answer goes on where the one before it was: the same job, and for a recheck with a record, the verdict
/// and utilisation of that answer as its record.
fn follows(now: &Vouched, before: &Vouched) -> Result<(), String> {
    let key = |of: &Vouched| of.answer.get("job_key").and_then(Value::as_str).map(str::to_owned);
    let (ours, theirs) = (key(now), key(before));
    if ours.is_none() || ours != theirs {
        return Err(format!("it is of another job than {}: their job_key differs", before.name));
    }
    let Some(difference) = now.answer.get("difference") else { return Ok(()) };
    if difference.get("input_changed") == Some(&Value::Bool(true)) {
        return Err("what it was compared with is the record of another job".to_owned());
    }
    let then = &before.answer;
    for (recorded, said, what) in [
        (difference.get("recorded_verdict"), then.get("verdict"), "verdict"),
        (
            difference.get("recorded_max_utilisation"),
            then.pointer("/utilisation/max"),
            "utilisation",
        ),
    ] {
        if recorded.is_some_and(|recorded| Some(recorded) != said) {
            return Err(format!("the {what} it was compared with is not that of {}", before.name));
        }
    }
    Ok(())
}

/// What is vouched for, in a line.
fn said(vouched: &Vouched) -> String {
    let Signed { engine, verdict, input_digest, .. } = &vouched.signed;
    let verdict = serde_json::to_value(verdict).unwrap_or_default();
    format!(
        "{}, {}, by hookspan {} ({}), {} {}, to the request {}",
        kind(&vouched.answer),
        verdict.as_str().unwrap_or("without a verdict"),
        engine.version,
        engine.model,
        engine.rules.id,
        engine.rules.revision,
        input_digest,
    )
}
