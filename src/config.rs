//! Flags and environment, read once into one struct; every limit with its default and unit.
//!
//! **Layer.** Top, beside `main`: nothing below knows where a setting came from.

use std::net::SocketAddr;
use std::num::NonZeroUsize;
use std::ops::RangeInclusive;
use std::path::PathBuf;

use clap::builder::{BoolishValueParser, PossibleValuesParser, TypedValueParser};
use clap::{ArgAction, Args, Parser, Subcommand, ValueEnum};

use crate::language::{Language, Reader, Units};
use crate::service::request::Options;
use crate::service::shown::{Look, View};
use crate::wire::kinds::JobKind;
use crate::wire::report::ReportTable;
use crate::wire::sheets::SheetPart;
use crate::wire::tables::TableName;

/// Lays out and checks the roof hooks of a solar array on a tiled or slated pitched roof.
#[derive(Debug, Parser)]
#[command(name = "hookspan", version)]
pub struct Cli {
    /// What to do; `serve` when absent.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// Settings of the service and of its log.
    #[command(flatten)]
    pub settings: Settings,
}

/// What the program is asked to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Answer requests over HTTP until told to stop (the default)
    Serve,
    /// Compute jobs without HTTP: one job, or a file with a job on each line
    ///
    /// One job: its answer goes to standard output, a problem to standard error, each in the bytes the
    /// service would send; JSON ends with a line feed. With `--jobs` lines are read as by
    /// `POST /v1/batches`, answered in order, and summed up on standard error. Asked to end, it finishes
    /// the lines it has begun and says which is next; after that, or after it was killed, `--resume`
    /// goes on with the same file of answers.
    ///
    /// Exit status of one job: 0 it holds, with or without warnings, or its kind has no verdict; 1 the
    /// request has faults; 2 the command line makes no sense, the input could not be read or the answer
    /// not be written; 3 the job fails; 4 it is incomplete. Of `--jobs`, which have many verdicts that
    /// the summary counts: 0 every line was answered, 1 a line has faults, 2 as before, or the run broke
    /// off.
    Solve(Solve),
    /// Tell what the answers of a batch come to: counts, spreads, what changed, the worst first
    ///
    /// Reads the answers that `solve --jobs` or `POST /v1/batches` wrote, in full or in short, one on each
    /// line. Several files are the parts of one batch: in whatever order they are named, their report is that of
    /// one file of all. Memory does not grow with the number of lines, but for a bit each.
    ///
    /// Exit status: 0 the report is of every line, 1 it was written and lists lines that could not be read,
    /// 2 the command line makes no sense, a file could not be read or the report not be written.
    Report(Report),
    /// Check that answers are what was signed
    ///
    /// Reads signed answers, each in a file of its own or as the lines of a batch, and says of each who signed it and
    /// what it says, or why nobody vouches for it: no signature, another key, or something altered since.
    ///
    /// Exit status: 0 every answer is verified, and so is whatever else was asked; 1 something is not; 2 the command
    /// line makes no sense, a file could not be read, or one holds no public key.
    Verify(Verify),
    /// Print the OpenAPI description of the service
    Openapi,
}

/// Jobs without HTTP, and what is asked of their answers.
#[derive(Debug, Args)]
pub struct Solve {
    /// File with the request for one job; standard input when absent or `-`
    pub file: Option<PathBuf>,
    /// What the job is; a file is not searched for it
    #[arg(
        long, default_value = JobKind::Layout.name(), conflicts_with = "jobs",
        value_parser = one_of(JobKind::ALL, JobKind::name)
    )]
    pub kind: JobKind,
    /// Answer in short: verdicts, highest utilisation, counts and codes
    #[arg(long, conflicts_with = "trace")]
    pub summary: bool,
    /// Add every quantity with symbol, value, unit and clause to the answer
    #[arg(long)]
    pub trace: bool,
    /// Write the sheet to print (HTML) in place of the answer, or one part of it (`--sheet=crew`); of a
    /// statement, the form filled in
    #[arg(
        long, value_name = "PART", num_args = 0..=1, require_equals = true,
        default_missing_value = SheetPart::All.name(),
        value_parser = one_of(&SheetPart::EVERY, SheetPart::name),
        conflicts_with_all = ["jobs", "drawing", "summary", "trace", "units"]
    )]
    pub sheet: Option<SheetPart>,
    /// Write a drawing (SVG) in place of the answer
    #[arg(long, value_enum, conflicts_with_all = ["jobs", "summary", "trace", "units"])]
    pub drawing: Option<Drawing>,
    /// Write a table (CSV) in place of the answer
    #[arg(
        long, value_name = "TABLE", value_parser = one_of(&TableName::ALL, TableName::name),
        conflicts_with_all = ["jobs", "sheet", "drawing", "summary", "trace", "units"]
    )]
    pub csv: Option<TableName>,
    /// Id of the hook that `--drawing section` goes through, of a building with its slope before it, such as
    /// `S1/A1-1`; the one used most when absent
    #[arg(long, value_name = "ID", requires = "drawing")]
    pub hook: Option<String>,
    /// Language of sentences, drawings and sheets
    #[arg(
        long, default_value = Language::English.tag(),
        value_parser = one_of(&Language::ALL, Language::tag)
    )]
    pub lang: Language,
    /// Units of the figures in sentences; the members of an answer keep the units in their names
    #[arg(
        long, default_value = Units::Metric.name(),
        value_parser = one_of(&Units::ALL, Units::name)
    )]
    pub units: Units,
    /// The file of jobs, and what is done with it.
    #[command(flatten)]
    pub many: Many,
}

impl Solve {
    /// What is asked of every answer.
    #[must_use]
    pub fn options(&self) -> Options {
        let reader = Reader { language: self.lang, units: self.units, ..Reader::default() };
        Options { trace: self.trace, summary: self.summary, reader, ..Options::default() }
    }

    /// What people are to look at; nothing where the answer is to be JSON.
    ///
    /// # Errors
    /// [`Unsuited`] when the kind of the job has nothing of what is asked for, or a hook is named that no
    /// section goes through.
    pub fn look(&self) -> Result<Option<Look>, Unsuited> {
        let (kind, offer) = (self.kind.name(), self.kind.offer());
        // Of lines of several kinds, those have a trace that can have one, as over HTTP.
        if self.trace && self.many.jobs.is_none() && !offer.trace {
            return Err(Unsuited::Trace(kind));
        }
        if let Some(part) = self.sheet {
            return match part {
                _ if !offer.sheet => Err(Unsuited::Sheet(kind)),
                // All of it is what there is, whatever it has parts for.
                SheetPart::All => Ok(Some(Look::Sheet(part))),
                _ if offer.parts.contains(&part) => Ok(Some(Look::Sheet(part))),
                _ => Err(Unsuited::Part(part.name(), kind)),
            };
        }
        if let Some(table) = self.csv {
            let listed = offer.tables.contains(&table);
            return if listed {
                Ok(Some(Look::Table(table)))
            } else {
                Err(Unsuited::Table(table.name(), kind))
            };
        }
        let Some(drawing) = self.drawing else { return Ok(None) };
        let view = match (drawing, &self.hook) {
            _ if !offer.drawing => return Err(Unsuited::Drawing(kind)),
            (Drawing::Section, hook) => View::Section(hook.clone()),
            (_, Some(_)) => return Err(Unsuited::Hook),
            (Drawing::Slope, None) => View::Slope,
            (Drawing::Wind, None) => View::Wind,
        };
        Ok(Some(Look::Drawing(view)))
    }
}

/// Signed answers, and what they are checked by.
#[derive(Debug, Args)]
pub struct Verify {
    /// Files with an answer, or with the answers of a batch; `-` for standard input
    #[arg(required = true)]
    pub answers: Vec<PathBuf>,
    /// Public key of who may have signed: PEM, or the JSON of `GET /v1/signing-key`. Once for each key, where there were
    /// several
    #[arg(long = "public-key", value_name = "FILE", env = "HOOKSPAN_PUBLIC_KEY", required = true)]
    pub public_keys: Vec<PathBuf>,
    /// File with the request that the answer has to be to
    #[arg(long, value_name = "FILE")]
    pub request: Option<PathBuf>,
    /// The answers have to be a chain in the order they are named, such as a layout, a survey and a recheck: all of one
    /// job, each recheck with a record against the one before it
    #[arg(long)]
    pub chain: bool,
}

/// The answers to report on, and what is made of them.
#[derive(Debug, Args)]
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of its own")]
pub struct Report {
    /// Files with an answer on each line; `-` for standard input
    #[arg(required_unless_present = "schema")]
    pub files: Vec<PathBuf>,
    /// Print the JSON Schema of a report, and read nothing
    #[arg(long, conflicts_with_all = ["files", "csv", "html"])]
    pub schema: bool,
    /// Write all of it as JSON (the default)
    #[arg(long, conflicts_with_all = ["csv", "html"])]
    pub json: bool,
    /// Write a table (CSV)
    #[arg(long, value_name = "TABLE", value_parser = one_of(&ReportTable::ALL, ReportTable::name))]
    pub csv: Option<ReportTable>,
    /// Write a page to read and to print (HTML)
    #[arg(long, conflicts_with = "csv")]
    pub html: bool,
    /// Language of the page and of the cautions; reasons are in that of the answers
    #[arg(
        long, default_value = Language::English.tag(),
        value_parser = one_of(&Language::ALL, Language::tag)
    )]
    pub lang: Language,
    /// Answers in each list of answers at most
    #[arg(
        long, value_name = "N", default_value_t = 20,
        value_parser = clap::value_parser!(u16).range(0..=10_000)
    )]
    pub worst: u16,
    /// File for the report, which must not exist yet; standard output when absent
    #[arg(long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// Write over the file of `--output` where it exists
    #[arg(long, requires = "output")]
    pub force: bool,
    /// Lines the batch has, counted from 1, such as `1..1000000`: those without an answer are told. Between the
    /// first and the last answer when absent
    #[arg(long, value_parser = lines)]
    pub lines: Option<RangeInclusive<u64>>,
    /// Threads that read what lines say; the number of cores when absent
    #[arg(long)]
    pub threads: Option<NonZeroUsize>,
}

/// Many jobs, one a line.
#[derive(Debug, Args)]
#[command(next_help_heading = "Many jobs, one a line")]
pub struct Many {
    /// File with a job on each line; `-` for standard input
    #[arg(long, value_name = "FILE", conflicts_with = "file")]
    pub jobs: Option<PathBuf>,
    /// Lines to answer, counted from 1: `1001..2000`, `1001..` or `..2000`, both ends included
    #[arg(long, requires = "jobs", value_parser = lines, conflicts_with = "part")]
    pub lines: Option<RangeInclusive<u64>>,
    /// Answer one of several equal parts of the file: `0/8` is the first of eight
    #[arg(long, requires = "jobs", value_parser = part)]
    pub part: Option<(u64, NonZeroUsize)>,
    /// File for the answers to `--jobs`, which must not exist yet; standard output when absent
    #[arg(long, value_name = "FILE", requires = "jobs")]
    pub output: Option<PathBuf>,
    /// Write over the file of `--output` where it exists
    #[arg(long, requires = "output")]
    pub force: bool,
    /// Go on with the file of `--output` after its last whole line, where it exists
    #[arg(long, requires = "output", conflicts_with = "force")]
    pub resume: bool,
    /// Call the file of --output FILE.begun until every line is answered. With --resume nothing is done where FILE
    /// is there: it is whole. Nothing is lost or half there when this run is killed and its command given again
    #[arg(long, requires = "output")]
    pub rename_when_whole: bool,
    /// Computations at once; the number of cores when absent
    #[arg(long, requires = "jobs")]
    pub threads: Option<NonZeroUsize>,
}

/// What a drawing shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Drawing {
    /// The slope with everything on it.
    Slope,
    /// The section through a hook.
    Section,
    /// The wind zones of all four directions.
    Wind,
}

/// Flags that ask for what the job cannot have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Unsuited {
    /// A trace of a kind that shows its figures in any case, or computes none.
    #[error("--trace does not go with --kind {0}, whose answer says all there is without it")]
    Trace(&'static str),
    /// A sheet of a kind that has none.
    #[error("--sheet does not go with --kind {0}, of which there is no sheet")]
    Sheet(&'static str),
    /// A part of a sheet of a kind that does not have it.
    #[error("--sheet={0} does not go with --kind {1}, whose sheet has no such part")]
    Part(&'static str, &'static str),
    /// A drawing of a kind that has none.
    #[error("--drawing does not go with --kind {0}, of which there is no drawing")]
    Drawing(&'static str),
    /// A table of a kind that does not have it.
    #[error("--csv {0} does not go with --kind {1}, of which there is no such table")]
    Table(&'static str, &'static str),
    /// A hook without its section.
    #[error("--hook goes with --drawing section only")]
    Hook,
}

/// Settings of the service: a flag wins over its environment variable.
#[derive(Debug, Clone, Args)]
#[command(next_help_heading = "Settings of the service and of its log")]
pub struct Settings {
    /// Address and port to listen on
    #[arg(long, global = true, env = "HOOKSPAN_BIND", default_value = "127.0.0.1:8080")]
    pub bind: SocketAddr,
    /// File of API keys: JSON with the SHA-256 of each key and what it may do. Read again when it
    /// changes, and on SIGHUP
    #[arg(long, global = true, env = "HOOKSPAN_KEYS", value_name = "FILE")]
    pub keys: Option<PathBuf>,
    /// File of the private key that answers are signed with: Ed25519 in PKCS #8 and PEM, as `openssl genpkey
    /// -algorithm ed25519` writes it, which others than its owner and its group cannot read. Answers have no signature
    /// when absent
    #[arg(long, global = true, env = "HOOKSPAN_SIGNING_KEY", value_name = "FILE")]
    pub signing_key: Option<PathBuf>,
    /// Ask callers on this machine for a key, too. Needed behind a proxy on this machine that does
    /// not say it forwards requests: all its callers come from loopback
    #[arg(
        long, global = true, env = "HOOKSPAN_LOOPBACK_NEEDS_KEY",
        action = ArgAction::SetTrue, value_parser = BoolishValueParser::new()
    )]
    pub loopback_needs_key: bool,
    /// What nobody needs a key for, beside `/livez` and `/readyz`
    #[arg(long, global = true, env = "HOOKSPAN_PUBLIC", value_enum, default_value_t)]
    pub public: PublicPages,
    /// Address and port for `/metrics` of its own, open to everybody who reaches it
    #[arg(long, global = true, env = "HOOKSPAN_METRICS_BIND")]
    pub metrics_bind: Option<SocketAddr>,
    /// Let everyone who reaches a non-loopback address use the service, where there are no keys
    #[arg(
        long, global = true, env = "HOOKSPAN_ANONYMOUS",
        action = ArgAction::SetTrue, value_parser = BoolishValueParser::new()
    )]
    pub anonymous: bool,
    /// Origins whose programs may read answers in a browser, separated by commas, such as
    /// `https://planning.example,http://localhost:3000`; `*` for those of everybody. None when absent
    #[arg(long, global = true, env = "HOOKSPAN_CORS_ORIGINS", value_name = "ORIGINS")]
    pub cors_origins: Option<String>,
    /// Largest request body, bytes
    #[arg(long, global = true, env = "HOOKSPAN_MAX_BODY_BYTES", default_value_t = 4_194_304)]
    pub max_body_bytes: usize,
    /// Computations under way at once; the number of cores when absent
    #[arg(long, global = true, env = "HOOKSPAN_MAX_JOBS")]
    pub max_jobs: Option<NonZeroUsize>,
    /// Longest wait of a request for its computation to begin, seconds
    #[arg(long, global = true, env = "HOOKSPAN_QUEUE_SECONDS", default_value_t = 2)]
    pub queue_seconds: u64,
    /// Requests that wait for their computation at most; the rest are refused at once
    #[arg(long, global = true, env = "HOOKSPAN_MAX_WAITING", default_value_t = 32)]
    pub max_waiting: usize,
    /// Longest computation of one job, seconds; jobs of `solve` have all the time they need
    #[arg(
        long, global = true, env = "HOOKSPAN_DEADLINE_SECONDS", default_value_t = 10,
        value_parser = clap::value_parser!(u64).range(1..=3600)
    )]
    pub deadline_seconds: u64,
    /// Longest time a body may take to arrive, and a batch to go on, seconds
    #[arg(
        long, global = true, env = "HOOKSPAN_BODY_SECONDS", default_value_t = 15,
        value_parser = clap::value_parser!(u64).range(1..=3600)
    )]
    pub body_seconds: u64,
    /// Bodies that are being read or wait for their answer, bytes in all
    #[arg(long, global = true, env = "HOOKSPAN_MAX_BODIES_BYTES", default_value_t = 33_554_432)]
    pub max_bodies_bytes: usize,
    /// Answers that are not yet taken, bytes in all; beyond that no further one is begun. Half of it is
    /// for batches
    #[arg(long, global = true, env = "HOOKSPAN_MAX_ANSWERS_BYTES", default_value_t = 67_108_864)]
    pub max_answers_bytes: usize,
    /// Connections at once; more wait until one is closed
    #[arg(long, global = true, env = "HOOKSPAN_MAX_CONNECTIONS", default_value_t = NonZeroUsize::MIN.saturating_add(511))]
    pub max_connections: NonZeroUsize,
    /// Longest time for the head of a request, and between two requests, seconds
    #[arg(
        long, global = true, env = "HOOKSPAN_HEAD_SECONDS", default_value_t = 10,
        value_parser = clap::value_parser!(u64).range(1..=3600)
    )]
    pub head_seconds: u64,
    /// Longest time in which a caller takes nothing of an answer, seconds
    #[arg(
        long, global = true, env = "HOOKSPAN_WRITE_SECONDS", default_value_t = 30,
        value_parser = clap::value_parser!(u64).range(1..=3600)
    )]
    pub write_seconds: u64,
    /// Time for requests under way after the end of listening; then they are refused, seconds
    #[arg(long, global = true, env = "HOOKSPAN_GRACE_SECONDS", default_value_t = 5)]
    pub grace_seconds: u64,
    /// Time between the signal to stop and the end of listening, in which `/readyz` says no, seconds
    #[arg(long, global = true, env = "HOOKSPAN_DRAIN_SECONDS", default_value_t = 0)]
    pub drain_seconds: u64,
    /// What to log: a level, or levels by module
    #[arg(long, global = true, env = "HOOKSPAN_LOG", default_value = "info")]
    pub log: String,
    /// Lines of the log a second for requests without a key; what is done with a key always has one
    #[arg(long, global = true, env = "HOOKSPAN_ACCESS_LINES", default_value_t = 100)]
    pub access_lines: u32,
    /// Form of the log, on standard error
    #[arg(long, global = true, env = "HOOKSPAN_LOG_FORMAT", value_enum, default_value_t)]
    pub log_format: LogFormat,
}

/// What nobody needs a key for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub enum PublicPages {
    /// Start page, description, pages of the problems, and the catalogues.
    #[default]
    All,
    /// The same without the catalogues.
    Documents,
    /// Nothing.
    Nothing,
}

/// Form of the log.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub enum LogFormat {
    /// Lines for people.
    #[default]
    Text,
    /// One JSON object a line, for programs.
    Json,
}

/// Settings that leave open who may call.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unguarded {
    /// The address is open to others, and nobody said that this is meant.
    #[error(
        "{0} can be reached from other machines, and there are no API keys: anyone could use it. Name \
         a file of keys with --keys (HOOKSPAN_KEYS), listen on a loopback address such as \
         127.0.0.1, or say --anonymous (HOOKSPAN_ANONYMOUS=true) where something in front decides \
         who may call."
    )]
    OpenToAnyone(SocketAddr),
    /// Keys are asked for, and they are not.
    #[error(
        "--keys asks everybody for a key and --anonymous nobody: say one of them (HOOKSPAN_KEYS, \
         HOOKSPAN_ANONYMOUS)."
    )]
    Contradiction,
    /// Keys are asked for, and there are none.
    #[error("--loopback-needs-key (HOOKSPAN_LOOPBACK_NEEDS_KEY) needs a file of keys: --keys.")]
    NoKeys,
}

/// Reads one of several things by its name.
fn one_of<T: Copy + Send + Sync + 'static>(
    all: &'static [T],
    name: fn(T) -> &'static str,
) -> impl TypedValueParser<Value = T> {
    let named = move |text: &str| all.iter().copied().find(|one| name(*one) == text);
    PossibleValuesParser::new(all.iter().copied().map(name))
        .try_map(move |text| named(&text).ok_or("nothing has this name"))
}

/// Reads `A..B`, either end of which may be absent.
fn lines(text: &str) -> Result<RangeInclusive<u64>, String> {
    let (first, last) = text.split_once("..").ok_or("two numbers with .. between are needed")?;
    let end = |text: &str, open: u64| match text {
        "" => Ok(open),
        text => text.parse().map_err(|_| format!("\"{text}\" is not the number of a line")),
    };
    let (first, last) = (end(first, 1)?, end(last, u64::MAX)?);
    if first == 0 || last < first {
        return Err("lines count from 1, and the first is not after the last".to_owned());
    }
    Ok(first..=last)
}

/// Reads `I/N`.
fn part(text: &str) -> Result<(u64, NonZeroUsize), String> {
    let parsed = text.split_once('/').and_then(|(i, n)| Some((i.parse().ok()?, n.parse().ok()?)));
    parsed
        .filter(|(index, of): &(u64, NonZeroUsize)| *index < of.get() as u64)
        .ok_or_else(|| "a part and their number are needed, the first being 0: 0/8".to_owned())
}

impl Settings {
    /// The address to listen on.
    ///
    /// # Errors
    /// [`Unguarded`] when it is no loopback address, and neither keys nor `anonymous` say who may call;
    /// or when the settings contradict each other.
    pub fn checked_bind(&self) -> Result<SocketAddr, Unguarded> {
        match (&self.keys, self.anonymous) {
            (Some(_), true) => Err(Unguarded::Contradiction),
            (None, _) if self.loopback_needs_key => Err(Unguarded::NoKeys),
            (None, false) if !self.bind.ip().is_loopback() => {
                Err(Unguarded::OpenToAnyone(self.bind))
            }
            _ => Ok(self.bind),
        }
    }

    /// Computations under way at once.
    #[must_use]
    pub fn jobs_at_once(&self) -> NonZeroUsize {
        self.max_jobs
            .or_else(|| std::thread::available_parallelism().ok())
            .unwrap_or(NonZeroUsize::MIN)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settings(arguments: &[&str]) -> Settings {
        let line = std::iter::once("hookspan").chain(arguments.iter().copied());
        Cli::try_parse_from(line).expect("arguments are valid").settings
    }

    #[test]
    fn the_command_line_is_consistent() {
        use clap::CommandFactory;
        Cli::command().debug_assert();
    }

    #[test]
    fn another_address_needs_keys_or_the_anonymous_flag() {
        let bound = |arguments: &[&str]| settings(arguments).checked_bind();
        let refused = bound(&["--bind", "0.0.0.0:80"]).expect_err("refused").to_string();
        assert!(refused.contains("--anonymous") && refused.contains("--keys"), "{refused}");
        assert!(bound(&["--bind", "0.0.0.0:80", "--anonymous"]).is_ok());
        assert!(bound(&["--bind", "0.0.0.0:80", "--keys", "keys.json"]).is_ok());
        assert!(bound(&["--bind", "[::1]:80"]).is_ok());
        assert!(bound(&["serve", "--bind", "127.0.0.2:80"]).is_ok());
        assert!(bound(&["--keys", "keys.json", "--loopback-needs-key"]).is_ok());
        for (wrong, why) in [
            (&["--keys", "keys.json", "--anonymous"][..], Unguarded::Contradiction),
            (&["--loopback-needs-key"], Unguarded::NoKeys),
        ] {
            assert_eq!(bound(wrong), Err(why));
        }
    }

    #[test]
    fn lines_and_parts_are_read_or_refused() {
        assert_eq!(lines("3..5"), Ok(3..=5));
        assert_eq!(lines("3.."), Ok(3..=u64::MAX));
        assert_eq!(lines("..5"), Ok(1..=5));
        assert_eq!(part("7/8"), Ok((7, NonZeroUsize::new(8).expect("not zero"))));
        for wrong in ["", "3", "0..5", "5..3", "a..b", "-1..2"] {
            assert!(lines(wrong).is_err(), "{wrong}");
        }
        for wrong in ["", "8", "8/8", "0/0", "1/x", "-1/8"] {
            assert!(part(wrong).is_err(), "{wrong}");
        }
    }

    fn look(arguments: &[&str]) -> Result<Option<Look>, Unsuited> {
        let line = ["hookspan", "solve"].iter().chain(arguments);
        match Cli::try_parse_from(line).expect("arguments are valid").command {
            Some(Command::Solve(solve)) => solve.look(),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_kind_has_the_looks_it_has() {
        let section = |hook: Option<&str>| Look::Drawing(View::Section(hook.map(str::to_owned)));
        for (arguments, seen) in [
            (&["job.json"][..], Ok(None)),
            (&["--trace"], Ok(None)),
            (&["--sheet", "--kind", "survey"], Ok(Some(Look::Sheet(SheetPart::All)))),
            (&["--sheet", "--kind", "statement"], Ok(Some(Look::Sheet(SheetPart::All)))),
            (&["--sheet=crew", "job.json"], Ok(Some(Look::Sheet(SheetPart::Crew)))),
            (&["--sheet", "job.json"], Ok(Some(Look::Sheet(SheetPart::All)))),
            (&["--sheet=order", "--kind", "recheck"], Err(Unsuited::Part("order", "recheck"))),
            (&["--sheet=crew", "--kind", "statement"], Err(Unsuited::Part("crew", "statement"))),
            (&["--sheet", "--kind", "actions"], Err(Unsuited::Sheet("actions"))),
            (&["--drawing", "slope"], Ok(Some(Look::Drawing(View::Slope)))),
            (&["--drawing", "wind", "--lang", "de"], Ok(Some(Look::Drawing(View::Wind)))),
            (&["--drawing", "section"], Ok(Some(section(None)))),
            (&["--drawing", "section", "--hook", "A1-1"], Ok(Some(section(Some("A1-1"))))),
            (&["--drawing", "slope", "--hook", "A1-1"], Err(Unsuited::Hook)),
            (&["--drawing", "wind", "--kind", "statement"], Err(Unsuited::Drawing("statement"))),
            (&["--csv", "order"], Ok(Some(Look::Table(TableName::Order)))),
            (
                &["--csv", "setting_out", "--kind", "survey"],
                Ok(Some(Look::Table(TableName::SettingOut))),
            ),
            (&["--csv", "order", "--kind", "recheck"], Err(Unsuited::Table("order", "recheck"))),
            (
                &["--csv", "utilisations", "--kind", "actions"],
                Err(Unsuited::Table("utilisations", "actions")),
            ),
            (&["--trace", "--kind", "actions"], Err(Unsuited::Trace("actions"))),
            (&["--trace", "--jobs", "jobs.ndjson"], Ok(None)),
        ] {
            assert_eq!(look(arguments), seen, "{arguments:?}");
        }
    }

    #[test]
    fn at_least_one_job_runs_at_once() {
        assert_eq!(settings(&["--max-jobs", "3"]).jobs_at_once().get(), 3);
        assert!(settings(&[]).jobs_at_once().get() >= 1);
    }
}
