//! Jobs without HTTP: the same gate, the same computation, the same answers and the same problems,
//! over files and pipes, so that any scheduler can spread jobs. Here one job; in [`lines`] many.
//!
//! **Layer.** Top, beside `http`, whose gate and problems it uses.

pub mod lines;
pub mod output;
mod resume;

use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use crate::http::job::Told;
use crate::service::request::Options;
use crate::service::shown::Look;
use crate::wire::kinds::JobKind;
use crate::wire::remarks::Verdict;

/// How `solve` ended; the numbers are the exit status.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// The job was answered and holds, with or without warnings, or has no verdict; of many jobs: every
    /// answer was written, whatever its verdict.
    Answered = 0,
    /// A request has faults; its problem was written.
    Refused = 1,
    /// The input could not be read to its end or an answer not be written.
    Unreadable = 2,
    /// The one job was answered and fails.
    Fails = 3,
    /// The one job was answered and is incomplete.
    Incomplete = 4,
}

impl From<Option<Verdict>> for Outcome {
    fn from(verdict: Option<Verdict>) -> Self {
        match verdict {
            None | Some(Verdict::Holds | Verdict::HoldsWithWarnings) => Self::Answered,
            Some(Verdict::Fails) => Self::Fails,
            Some(Verdict::Incomplete) => Self::Incomplete,
        }
    }
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        Self::from(outcome as u8)
    }
}

/// Which job, and in which form its answer is to be.
#[derive(Debug, Clone)]
pub struct Settings {
    /// File with the request; standard input when absent or `-`.
    pub file: Option<PathBuf>,
    /// What it asks for.
    pub kind: JobKind,
    /// What people are to look at; JSON when absent.
    pub look: Option<Look>,
    /// What is asked of the answer.
    pub options: Options,
}

/// Reads a request, writes the answer to `out` or what is wrong to `err`.
pub fn run(settings: &Settings, out: &mut impl Write, err: &mut impl Write) -> Outcome {
    let Settings { kind, look, options, .. } = settings;
    let file = settings.file.as_deref();
    let bytes = match read(file) {
        Ok(bytes) => bytes,
        Err(error) => {
            let name = file.map_or("standard input".into(), Path::to_string_lossy);
            // Where nobody reads the message, the exit status still says it.
            let _ = writeln!(err, "hookspan: cannot read {name}: {error}");
            return Outcome::Unreadable;
        }
    };
    let (written, outcome) = match kind.told(&bytes, look.as_ref(), options) {
        Ok(Told { mut bytes, verdict }) => {
            // JSON is a line among lines; a sheet or drawing is a file and stays as it is.
            if look.is_none() {
                bytes.push(b'\n');
            }
            (write(out, &bytes), verdict.into())
        }
        Err(problem) => (line(err, &problem), Outcome::Refused),
    };
    match written {
        Ok(()) => outcome,
        Err(error) => {
            let _ = writeln!(err, "hookspan: cannot write: {error}");
            Outcome::Unreadable
        }
    }
}

fn read(file: Option<&Path>) -> std::io::Result<Vec<u8>> {
    match file {
        Some(path) if path != Path::new("-") => std::fs::read(path),
        _ => {
            let mut bytes = Vec::new();
            std::io::stdin().lock().read_to_end(&mut bytes).map(|_| bytes)
        }
    }
}

/// The same bytes as over HTTP, and a line feed.
fn line(to: &mut impl Write, value: &impl serde::Serialize) -> std::io::Result<()> {
    let mut bytes = serde_json::to_vec(value)?;
    bytes.push(b'\n');
    write(to, &bytes)
}

fn write(to: &mut impl Write, bytes: &[u8]) -> std::io::Result<()> {
    to.write_all(bytes)?;
    to.flush()
}
