//! Many jobs, one a line: the batch of [`crate::http::batch`] between a file or a pipe and another.
//!
//! Reading has a thread of its own, computing as many as asked for; writing, in order, is left to
//! the caller's. All three wait for each other, so memory does not grow with the file.

use std::fs::File;
use std::io::{IsTerminal, Read, Write, stderr, stdin, stdout};
use std::num::NonZeroUsize;
use std::ops::RangeInclusive;
use std::path::{Path, PathBuf};

use bytes::Bytes;
use futures_util::StreamExt;
use futures_util::stream::poll_fn;
use indicatif::{ProgressBar, ProgressStyle};
use memchr::memchr_iter;
use tokio::sync::{mpsc, watch};

use super::Outcome;
use super::output::{Opened, Output};
use crate::http::batch::{self, Output as Piece, Terms};
use crate::http::call::Call;
use crate::http::connections::asked_to_end;
use crate::http::limits::{Limits, Places};
use crate::http::lines::EndLine;
use crate::http::metrics::Metrics;
use crate::service::request::Options;
use crate::wire::batch::BatchSummary;

/// Bytes read at once.
const PIECE: usize = 64 * 1024;

/// Which jobs, and how.
#[derive(Debug, Clone)]
pub struct Settings {
    /// File with a job on each line; `-` is standard input.
    pub jobs: PathBuf,
    /// File for the answers; standard output when absent.
    pub output: Option<Output>,
    /// Lines to answer.
    pub share: Share,
    /// Computations at once.
    pub threads: NonZeroUsize,
    /// Largest line, bytes.
    pub max_line_bytes: usize,
    /// What is asked of every answer.
    pub options: Options,
}

/// The lines of a file that are to be answered; a line keeps its number in the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Share {
    /// From one number to another.
    Lines(RangeInclusive<u64>),
    /// One of several parts of a file, as equal as can be.
    Part {
        /// Which, counted from 0.
        index: u64,
        /// Of how many.
        of: NonZeroUsize,
    },
}

/// Answers the lines of a file; the summary goes to `err`.
pub fn run(settings: &Settings, err: &mut impl Write) -> Outcome {
    let ended = Input::open(settings).and_then(|input| match &settings.output {
        Some(output) => to_file(settings, input, output),
        None => pump(settings, input, &mut stdout().lock()).map(Some),
    });
    // Where nobody reads the message, the exit status still says it.
    match ended {
        Ok(Some(summary)) => {
            let _ = super::line(err, &EndLine::of(summary));
            match summary {
                BatchSummary { complete: false, .. } => Outcome::Unreadable,
                BatchSummary { refused: 0, .. } => Outcome::Answered,
                _ => Outcome::Refused,
            }
        }
        Ok(None) => {
            let _ = writeln!(err, "hookspan: the file of answers is whole already");
            Outcome::Answered
        }
        Err(what) => {
            let _ = writeln!(err, "hookspan: {what}");
            Outcome::Unreadable
        }
    }
}

/// Answers lines into a file; no summary where it was whole before.
fn to_file(
    settings: &Settings,
    input: Input,
    output: &Output,
) -> Result<Option<BatchSummary>, String> {
    let mut begun = match output.open(&settings.jobs)? {
        Opened::Whole => return Ok(None),
        Opened::Begun(begun) => begun,
    };
    let summary = pump(settings, input.from(begun.from), &mut begun.file)?;
    if summary.complete {
        output.finish(&begun)?;
    }
    Ok(Some(summary))
}

/// The jobs, ready to be read: nothing is written before they are.
struct Input {
    lines: RangeInclusive<u64>,
    bytes: Box<dyn Read + Send>,
    bar: ProgressBar,
}

impl Input {
    fn open(settings: &Settings) -> Result<Self, String> {
        let file = &settings.jobs;
        let cannot_read = |error| format!("cannot read {}: {error}", file.display());
        let lines = match &settings.share {
            Share::Lines(lines) => lines.clone(),
            Share::Part { index, of } => part(count(file).map_err(cannot_read)?, *index, *of),
        };
        let (bytes, bar) = open(file).map_err(cannot_read)?;
        Ok(Self { lines, bytes, bar })
    }

    /// The same without the lines before one.
    fn from(self, line: u64) -> Self {
        let (first, last) = self.lines.into_inner();
        Self { lines: first.max(line)..=last, ..self }
    }
}

/// Everything from the input to `out`.
fn pump(settings: &Settings, input: Input, out: &mut impl Write) -> Result<BatchSummary, String> {
    let Input { lines, bytes, bar } = input;
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_io()
        .max_blocking_threads(settings.threads.get())
        .build()
        .map_err(|error| format!("cannot start: {error}"))?;
    let limits = Limits {
        max_body_bytes: settings.max_line_bytes,
        jobs_at_once: settings.threads.get(),
        deadline: None,
        ..Limits::default()
    };
    let places = Places::new(&limits, Metrics::default());
    let (end, stop) = watch::channel(false);
    let at_once = places.clone();
    let terms = Terms {
        max_line_bytes: settings.max_line_bytes,
        lines,
        options: settings.options.clone(),
        stop,
        patience: None,
        call: Call::default(),
    };
    let mut pieces = pieces(bytes);
    let mut outputs = Box::pin(batch::run(poll_fn(move |cx| pieces.poll_recv(cx)), places, terms));
    let summary = runtime.block_on(async {
        tokio::spawn(async move {
            asked_to_end().await;
            // What is under way is finished and summed up; who asks again does not wait for that.
            end.send_replace(true);
            asked_to_end().await;
            at_once.end();
        });
        let mut done = 0;
        while let Some(output) = outputs.next().await {
            match output {
                Piece::Lines { text, tally } => {
                    out.write_all(&text).map_err(|error| format!("cannot write: {error}"))?;
                    done += tally.lines();
                    bar.set_message(format!("{done} lines"));
                }
                Piece::End(summary) => return Ok(summary),
            }
        }
        Err("the batch ended without its summary".to_owned())
    });
    bar.finish_and_clear();
    out.flush().map_err(|error| format!("cannot write: {error}"))?;
    summary
}

/// The input, seen by a bar where somebody looks and the answers do not run across it.
fn open(file: &Path) -> std::io::Result<(Box<dyn Read + Send>, ProgressBar)> {
    if file == Path::new("-") {
        return Ok((Box::new(stdin()), ProgressBar::hidden()));
    }
    let input = File::open(file)?;
    if !stderr().is_terminal() || stdout().is_terminal() {
        return Ok((Box::new(input), ProgressBar::hidden()));
    }
    let bar = ProgressBar::new(input.metadata()?.len()).with_style(
        ProgressStyle::with_template("{wide_bar} {percent} %  {msg}  {eta} left")
            .unwrap_or_else(|_| ProgressStyle::default_bar()),
    );
    Ok((Box::new(bar.wrap_read(input)), bar))
}

/// Pieces of the input, read ahead by two.
fn pieces(mut input: Box<dyn Read + Send>) -> mpsc::Receiver<std::io::Result<Bytes>> {
    let (give, take) = mpsc::channel(2);
    std::thread::spawn(move || {
        loop {
            let mut piece = vec![0; PIECE];
            let piece = match input.read(&mut piece) {
                Ok(0) => return,
                Ok(length) => {
                    piece.truncate(length);
                    Ok(piece.into())
                }
                Err(error) if error.kind() == std::io::ErrorKind::Interrupted => continue,
                Err(error) => Err(error),
            };
            let broke_off = piece.is_err();
            if give.blocking_send(piece).is_err() || broke_off {
                return;
            }
        }
    });
    take
}

/// Lines of a file.
fn count(file: &Path) -> std::io::Result<u64> {
    let mut input = File::open(file)?;
    if !input.metadata()?.is_file() {
        return Err(std::io::Error::other(
            "only a file can be parted, its lines are counted first",
        ));
    }
    let (mut lines, mut open, mut piece) = (0, false, vec![0; PIECE]);
    loop {
        match input.read(&mut piece)? {
            0 => return Ok(lines + u64::from(open)),
            length => {
                lines += memchr_iter(b'\n', &piece[..length]).count() as u64;
                open = piece[length - 1] != b'\n';
            }
        }
    }
}

/// Lines of one of several parts of a file with `count` lines.
fn part(count: u64, index: u64, of: NonZeroUsize) -> RangeInclusive<u64> {
    let up_to = |parts: u64| {
        let end = u128::from(count) * u128::from(parts) / of.get() as u128;
        u64::try_from(end).unwrap_or(u64::MAX)
    };
    up_to(index) + 1..=up_to(index + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_cover_every_line_once() {
        for count in [0, 1, 7, 8, 9, 1000] {
            for of in [1, 2, 3, 8, 13] {
                let of = NonZeroUsize::new(of).expect("a number of parts");
                let parts = (0..of.get() as u64).map(|index| part(count, index, of));
                let lines: Vec<u64> = parts.clone().flatten().collect();
                assert_eq!(lines, (1..=count).collect::<Vec<_>>(), "{count} in {of}");
                let sizes: Vec<usize> = parts.map(Iterator::count).collect();
                let spread = sizes.iter().max().expect("a part") - sizes.iter().min().expect("one");
                assert!(spread <= 1, "{sizes:?}");
            }
        }
    }
}
