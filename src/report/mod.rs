//! What the answers of a batch come to: files of answers in, one report out, in memory that does not grow with
//! what is read.
//!
//! One thread reads and cuts lines, others read what they say, each into an account of its own; the accounts
//! are added up at the end. As the sum does not depend on their order (`account.rs`), neither does the report
//! depend on the number of threads, on the order of the files, or on the parts a batch was answered in: the report
//! of all parts is that of the whole, to the byte. Two things are said of files and not of the batch, and can differ:
//! a line that does not even tell its number is named by its file and its place there, and every file that came from
//! `POST /v1/batches` ends with a summary, which is counted. Files of `solve --jobs` have neither.
//!
//! **Layer.** Top, beside `solve`, whose answers it reads by the names of their members.

mod account;
mod first;
mod line;
mod numbers;
mod page;
mod spread;
mod tables;

use std::fs::File;
use std::io::{ErrorKind, Read, Write};
use std::num::NonZeroUsize;
use std::ops::RangeInclusive;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Arc, Mutex, PoisonError};

use bytes::Bytes;

use crate::language::Language;
use crate::service::batch::{Cutter, Line};
use crate::wire::report::{Report, ReportTable, UnreadReason};

use account::Account;

/// Longest line that is read, bytes: far above that of any answer.
const LONGEST: usize = 64 * 1024 * 1024;

/// Bytes read at once.
const PIECE: usize = 1024 * 1024;

/// Bytes of lines that are handed over at once, save for a single longer line.
const HANDFUL: usize = 256 * 1024;

/// How `report` ended; the numbers are the exit status.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// The report is of every line.
    Whole = 0,
    /// The report was written, and some lines could not be read.
    Partly = 1,
    /// A file could not be read or the report not be written.
    Unreadable = 2,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        Self::from(outcome as u8)
    }
}

/// What a report is written as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// JSON: all of it.
    Json,
    /// One table.
    Csv(ReportTable),
    /// A page to read and to print.
    Html,
}

/// Which answers, and what is made of them.
#[derive(Debug, Clone)]
pub struct Settings {
    /// Files with an answer on each line; `-` is standard input.
    pub files: Vec<PathBuf>,
    /// Lines that the batch has, where that is said.
    pub expected: Option<RangeInclusive<u64>>,
    /// Answers that are listed at most, in each list.
    pub worst: usize,
    /// What is written.
    pub form: Form,
    /// Language of what people read.
    pub language: Language,
    /// File for it; standard output when absent.
    pub output: Option<PathBuf>,
    /// Whether that file is written over where it exists.
    pub force: bool,
    /// Threads that read what lines say.
    pub threads: NonZeroUsize,
}

/// Reads answers and writes what they come to, to `out`, or why it cannot, to `err`.
pub fn run(settings: &Settings, out: &mut impl Write, err: &mut impl Write) -> Outcome {
    let ended = accounted(settings).and_then(|account| {
        let report = account.close(settings.expected.clone(), settings.language);
        let text = written(&report, settings)?;
        if let Some(path) = &settings.output {
            write_file(path, text.as_bytes(), settings.force)?;
        } else {
            let write = out.write_all(text.as_bytes()).and_then(|()| out.flush());
            write.map_err(|error| format!("cannot write: {error}"))?;
        }
        Ok(if report.lines.unread == 0 { Outcome::Whole } else { Outcome::Partly })
    });
    ended.unwrap_or_else(|what| {
        // Where nobody reads the message, the exit status still says it.
        let _ = writeln!(err, "hookspan: {what}");
        Outcome::Unreadable
    })
}

fn written(report: &Report, settings: &Settings) -> Result<String, String> {
    match settings.form {
        Form::Json => {
            let text = serde_json::to_string_pretty(report);
            text.map(|text| text + "\n").map_err(|error| format!("cannot write: {error}"))
        }
        Form::Csv(table) => Ok(tables::table(report, table)),
        Form::Html => Ok(page::write(report, settings.language)),
    }
}

/// Writes a file. One that exists stays as it is, unless it is to be written over.
fn write_file(path: &Path, bytes: &[u8], force: bool) -> Result<(), String> {
    let made = if force { File::create(path) } else { File::create_new(path) };
    let written = made.and_then(|mut file| file.write_all(bytes));
    written.map_err(|error| {
        let hint =
            if error.kind() == ErrorKind::AlreadyExists { "; --force writes over it" } else { "" };
        format!("cannot write {}: {error}{hint}", path.display())
    })
}

/// Lines of one file that are read together.
struct Handful {
    file: Arc<str>,
    lines: Vec<Line>,
}

/// The account of all lines of all files.
fn accounted(settings: &Settings) -> Result<Account, String> {
    let threads = settings.threads.get();
    let (give, take) = sync_channel(2 * threads);
    let take = Mutex::new(take);
    std::thread::scope(|scope| {
        let readers: Vec<_> =
            (0..threads).map(|_| scope.spawn(|| read_lines(&take, settings.worst))).collect();
        let cut = settings.files.iter().try_for_each(|file| cut_lines(file, &give));
        // Without a giver the readers end.
        drop(give);
        let mut whole = Account::of(settings.worst);
        for reader in readers {
            whole.add(reader.join().map_err(|_| "the lines could not be read".to_owned())?);
        }
        cut.map(|()| whole)
    })
}

/// Takes lines and reads what they say, until nobody gives any more.
fn read_lines(take: &Mutex<Receiver<Handful>>, worst: usize) -> Account {
    let mut account = Account::of(worst);
    loop {
        let next = take.lock().unwrap_or_else(PoisonError::into_inner).recv();
        let Ok(Handful { file, lines }) = next else { return account };
        for Line { number, text } in lines {
            let line = text.as_deref().map_or_else(too_long, line::read);
            account.enter(line, &file, number);
        }
    }
}

fn too_long<'a>() -> line::Line<'a> {
    line::Line::Unread(line::Failure {
        line: None,
        reason: UnreadReason::TooLong,
        detail: format!("longer than {LONGEST} bytes"),
    })
}

/// Cuts a file into lines and gives them by the handful.
fn cut_lines(path: &Path, give: &SyncSender<Handful>) -> Result<(), String> {
    let cannot_read = |error| format!("cannot read {}: {error}", path.display());
    let mut input: Box<dyn Read> = if path == Path::new("-") {
        Box::new(std::io::stdin().lock())
    } else {
        Box::new(File::open(path).map_err(cannot_read)?)
    };
    let file: Arc<str> = path.to_string_lossy().into();
    let mut cutter = Cutter::new(LONGEST, 1..=u64::MAX);
    let mut handful = Vec::new();
    let mut bytes = 0;
    let mut hand_over = |line: Option<Line>, handful: &mut Vec<Line>| {
        let ends = line.is_none();
        if let Some(line) = line {
            bytes += line.text.as_ref().map_or(0, Bytes::len);
            handful.push(line);
        }
        if !handful.is_empty() && (ends || bytes >= HANDFUL) {
            bytes = 0;
            let lines = std::mem::take(handful);
            // They take for as long as there is a giver.
            let _ = give.send(Handful { file: Arc::clone(&file), lines });
        }
    };
    loop {
        let mut piece = vec![0; PIECE];
        match input.read(&mut piece) {
            Ok(0) => break,
            Ok(length) => {
                piece.truncate(length);
                cutter.feed(piece.into());
                while let Some(line) = cutter.cut() {
                    hand_over(Some(line), &mut handful);
                }
            }
            Err(error) if error.kind() == ErrorKind::Interrupted => {}
            Err(error) => return Err(cannot_read(error)),
        }
    }
    if let Some(line) = cutter.finish() {
        hand_over(Some(line), &mut handful);
    }
    hand_over(None, &mut handful);
    Ok(())
}
