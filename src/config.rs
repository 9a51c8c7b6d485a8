//! Flags and environment, read once into one struct; every limit with its default and unit.
//!
//! **Layer.** Top, beside `main`: nothing below knows where a setting came from.

use std::net::SocketAddr;
use std::num::NonZeroUsize;
use std::ops::RangeInclusive;
use std::path::PathBuf;

use clap::builder::BoolishValueParser;
use clap::{ArgAction, Args, Parser, Subcommand, ValueEnum};

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
    /// Compute jobs without HTTP: one layout, or a file with a job on each line
    ///
    /// One layout: the answer goes to standard output, a problem to standard error. With `--jobs`
    /// lines are read as by `POST /v1/batches`, answered in order, and summed up on standard error.
    /// Asked to end, it finishes the lines it has begun and says which is next; after that, or after
    /// it was killed, `--resume` goes on with the same file of answers.
    ///
    /// Exit status: 0 all answered (whatever the verdicts), 1 a request has faults, 2 the input
    /// could not be read to its end or an answer not be written.
    Solve {
        /// File with the request for a layout; standard input when absent or `-`
        file: Option<PathBuf>,
        /// File with a job on each line; `-` for standard input
        #[arg(long, value_name = "FILE", conflicts_with = "file")]
        jobs: Option<PathBuf>,
        /// Lines to answer, counted from 1: `1001..2000`, `1001..` or `..2000`, both ends included
        #[arg(long, requires = "jobs", value_parser = lines, conflicts_with = "part")]
        lines: Option<RangeInclusive<u64>>,
        /// Answer one of several equal parts of the file: `0/8` is the first of eight
        #[arg(long, requires = "jobs", value_parser = part)]
        part: Option<(u64, NonZeroUsize)>,
        /// File for the answers to `--jobs`, which must not exist yet; standard output when absent
        #[arg(long, value_name = "FILE", requires = "jobs")]
        output: Option<PathBuf>,
        /// Write over the file of `--output` where it exists
        #[arg(long, requires = "output")]
        force: bool,
        /// Go on with the file of `--output` after its last whole line, where it exists
        #[arg(long, requires = "output", conflicts_with = "force")]
        resume: bool,
        /// Computations at once; the number of cores when absent
        #[arg(long, requires = "jobs")]
        threads: Option<NonZeroUsize>,
        /// Add every quantity with symbol, value, unit and clause to the answer
        #[arg(long)]
        trace: bool,
    },
    /// Print the OpenAPI description of the service
    Openapi,
}

/// Settings of the service: a flag wins over its environment variable.
#[derive(Debug, Clone, Args)]
pub struct Settings {
    /// Address and port to listen on
    #[arg(long, global = true, env = "HOOKSPAN_BIND", default_value = "127.0.0.1:8080")]
    pub bind: SocketAddr,
    /// File of API keys: JSON with the SHA-256 of each key and what it may do. Read again when it
    /// changes, and on SIGHUP
    #[arg(long, global = true, env = "HOOKSPAN_KEYS", value_name = "FILE")]
    pub keys: Option<PathBuf>,
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

    #[test]
    fn at_least_one_job_runs_at_once() {
        assert_eq!(settings(&["--max-jobs", "3"]).jobs_at_once().get(), 3);
        assert!(settings(&[]).jobs_at_once().get() >= 1);
    }
}
