//! Jobs without HTTP: the same gate, the same computation, the same answers and the same problems,
//! over files and pipes, so that any scheduler can spread jobs. Here one job; in [`lines`] many.
//!
//! **Layer.** Top, beside `http`, whose gate and problems it uses.

pub mod lines;
mod resume;

use std::io::{Read, Write};
use std::path::Path;

use crate::http::job;
use crate::service::request::Options;
use crate::wire::layout::LayoutRequest;

/// How `solve` ended; the numbers are the exit status.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Every answer was written, whatever its verdict.
    Answered = 0,
    /// A request has faults; its problem was written.
    Refused = 1,
    /// The input could not be read to its end or an answer not be written.
    Unreadable = 2,
}

/// Reads a request from `file` (standard input when absent or `-`), writes the answer to `out`
/// or what is wrong to `err`.
pub fn run(
    file: Option<&Path>,
    options: &Options,
    out: &mut impl Write,
    err: &mut impl Write,
) -> Outcome {
    let bytes = match read(file) {
        Ok(bytes) => bytes,
        Err(error) => {
            let name = file.map_or("standard input".into(), Path::to_string_lossy);
            // Where nobody reads the message, the exit status still says it.
            let _ = writeln!(err, "hookspan: cannot read {name}: {error}");
            return Outcome::Unreadable;
        }
    };
    let (written, outcome) = match job::answer::<LayoutRequest>(&bytes, options) {
        Ok(answer) => (line(out, &answer), Outcome::Answered),
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
    to.write_all(&bytes)?;
    to.flush()
}
