//! Command line, start and orderly end. Everything else is in the library.

use std::io::{Write, stderr, stdout};
use std::process::ExitCode;
use std::sync::Arc;
use std::time::Duration;

use clap::Parser;
use hookspan::config::{
    Cli, Command, LogFormat, Many, PublicPages, Report, Settings, Solve, Verify,
};
use hookspan::http::connections::{self, Connections};
use hookspan::http::cors::{NoOrigin, Origins};
use hookspan::http::keys::admission::{Access, Public};
use hookspan::http::keys::{EVERY, Keys, watch};
use hookspan::http::limits::Limits;
use hookspan::http::{App, description, metrics_router, router, signature};
use hookspan::report;
use hookspan::service::request::Options;
use hookspan::service::signing::Signer;
use hookspan::solve;
use hookspan::solve::lines::Share;
use hookspan::solve::output::{Existing, Named, Output};
use hookspan::verify;
use mimalloc::MiMalloc;
use tracing_subscriber::EnvFilter;

/// A job takes thousands of small pieces of memory and gives them all back: an allocator made for
/// that is felt, most of all in the static image, whose C library has a slow one.
#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

fn main() -> ExitCode {
    let cli = Cli::parse();
    if let Err(error) = start_log(&cli.settings) {
        eprintln!("hookspan: the log filter is not valid: {error}");
        return ExitCode::from(2);
    }
    match cli.command.unwrap_or(Command::Serve) {
        Command::Solve(solve) => solved(solve, &cli.settings),
        Command::Report(report) => reported(report, &cli.settings),
        Command::Verify(verify) => verified(verify),
        Command::Openapi => printed(description::openapi_text()),
        Command::Serve => match serve(&cli.settings) {
            Ok(()) => ExitCode::SUCCESS,
            Err(error) => {
                eprintln!("hookspan: {error}");
                ExitCode::FAILURE
            }
        },
    }
}

/// Prints a document.
fn printed(text: &str) -> ExitCode {
    let written = stdout().write_all(text.as_bytes());
    if written.is_ok() { ExitCode::SUCCESS } else { ExitCode::from(2) }
}

/// One job or many, without HTTP.
fn solved(solve: Solve, settings: &Settings) -> ExitCode {
    let look = match solve.look() {
        Ok(look) => look,
        Err(error) => {
            eprintln!("hookspan: {error}");
            return ExitCode::from(2);
        }
    };
    let signer = match signer(settings) {
        Ok(signer) => signer,
        Err(error) => {
            eprintln!("hookspan: {error}");
            return ExitCode::from(2);
        }
    };
    let options = Options { signer, ..solve.options() };
    let Many { jobs, lines, part, output, force, resume, rename_when_whole, threads } = solve.many;
    let Some(jobs) = jobs else {
        let job = solve::Settings { file: solve.file, kind: solve.kind, look, options };
        return solve::run(&job, &mut stdout(), &mut stderr()).into();
    };
    let settings = solve::lines::Settings {
        jobs,
        output: output.map(|path| Output {
            path,
            existing: match (resume, force) {
                (true, _) => Existing::GoneOnWith,
                (false, true) => Existing::WrittenOver,
                (false, false) => Existing::Stays,
            },
            named: if rename_when_whole { Named::WhenWhole } else { Named::AtOnce },
        }),
        share: match part {
            Some((index, of)) => Share::Part { index, of },
            None => Share::Lines(lines.unwrap_or(1..=u64::MAX)),
        },
        threads: threads.unwrap_or_else(|| settings.jobs_at_once()),
        max_line_bytes: settings.max_body_bytes,
        options,
    };
    solve::lines::run(&settings, &mut stderr()).into()
}

/// Whether answers are what was signed.
fn verified(verify: Verify) -> ExitCode {
    let Verify { answers, public_keys, request, chain } = verify;
    let settings = verify::Settings { answers, public_keys, request, chain };
    verify::run(&settings, &mut stdout(), &mut stderr()).into()
}

/// Who answers are signed by, by the settings.
fn signer(settings: &Settings) -> Result<Option<Arc<Signer>>, String> {
    let signer = settings.signing_key.as_deref().map(|path| {
        signature::signer(path)
            .map_err(|error| format!("{} holds no key to sign with: {error}", path.display()))
    });
    signer.transpose()
}

/// What the answers of a batch come to.
fn reported(report: Report, settings: &Settings) -> ExitCode {
    let Report { files, schema, csv, html, lang, worst, output, force, lines, threads, .. } =
        report;
    if schema {
        return printed(&description::report_schema_text());
    }
    let form = match csv {
        Some(table) => report::Form::Csv(table),
        None if html => report::Form::Html,
        None => report::Form::Json,
    };
    let settings = report::Settings {
        files,
        expected: lines,
        worst: worst.into(),
        form,
        language: lang,
        output,
        force,
        threads: threads.unwrap_or_else(|| settings.jobs_at_once()),
    };
    report::run(&settings, &mut stdout(), &mut stderr()).into()
}

fn start_log(settings: &Settings) -> Result<(), tracing_subscriber::filter::ParseError> {
    let log = tracing_subscriber::fmt()
        .with_env_filter(EnvFilter::try_new(&settings.log)?)
        .with_ansi(false)
        .with_writer(stderr);
    match settings.log_format {
        LogFormat::Text => log.init(),
        LogFormat::Json => log.json().init(),
    }
    Ok(())
}

#[tokio::main]
async fn serve(settings: &Settings) -> Result<(), Box<dyn std::error::Error>> {
    let bind = settings.checked_bind()?;
    let seconds = Duration::from_secs;
    let limits = Limits {
        max_body_bytes: settings.max_body_bytes,
        jobs_at_once: settings.jobs_at_once().get(),
        waiting: settings.max_waiting,
        queue: seconds(settings.queue_seconds),
        deadline: Some(seconds(settings.deadline_seconds)),
        body: seconds(settings.body_seconds),
        bodies_bytes: settings.max_bodies_bytes,
        answers_bytes: settings.max_answers_bytes,
    };
    let connections = Connections {
        most: settings.max_connections.get(),
        head: seconds(settings.head_seconds),
        write: seconds(settings.write_seconds),
    };
    let access = access(settings)?;
    let origins = origins(settings)?;
    let signer = signer(settings)?;
    say_who_may_call(&access, bind.ip().is_loopback());
    if let Some(signer) = &signer {
        tracing::info!(key = signer.public().id(), "answers are signed");
    }
    let listener =
        connections::listen(bind).map_err(|error| format!("cannot listen on {bind}: {error}"))?;
    tracing::info!(address = %listener.local_addr()?, ?settings, ?limits, version = env!("CARGO_PKG_VERSION"), "listening");
    let app = App::new(&limits)
        .guarded_by(access.clone())
        .shared_with(origins)
        .signing_with(signer)
        .with_lines(settings.access_lines);
    if let Some(keys) = access.keys {
        tokio::spawn(watch::keys(keys, app.metrics().clone(), EVERY));
    }
    if let Some(address) = settings.metrics_bind {
        let listener = connections::listen(address)
            .map_err(|error| format!("cannot listen on {address}: {error}"))?;
        tracing::info!(address = %listener.local_addr()?, "metrics are open to who reaches this");
        let (routes, never) = (metrics_router(app.clone()), std::future::pending());
        tokio::spawn(connections::serve(listener, routes, connections, never, Duration::ZERO));
    }
    let times = [settings.drain_seconds, settings.grace_seconds].map(seconds);
    let drained = drained(app.clone(), times);
    // Those cut short at the end of the grace still get their answers.
    let grace = seconds(settings.grace_seconds) + LAST_WORDS;
    match connections::serve(listener, router(app), connections, drained, grace).await {
        Ok(()) => tracing::info!("stopped"),
        Err(left) => tracing::warn!(left, "stopped, with connections cut off"),
    }
    Ok(())
}

/// Who may call, by the settings and the file of keys.
fn access(settings: &Settings) -> Result<Access, String> {
    let keys = settings.keys.as_deref().map(|path| {
        Keys::open(path).map_err(|error| format!("{} holds no keys: {error}", path.display()))
    });
    Ok(Access {
        keys: keys.transpose()?,
        loopback_needs_key: settings.loopback_needs_key,
        public: match settings.public {
            PublicPages::All => Public::All,
            PublicPages::Documents => Public::Documents,
            PublicPages::Nothing => Public::Nothing,
        },
        ..Access::default()
    })
}

/// Whose programs may read answers in a browser, by the settings.
fn origins(settings: &Settings) -> Result<Option<Origins>, String> {
    let read = settings.cors_origins.as_deref().map(str::parse);
    read.transpose()
        .map_err(|error: NoOrigin| format!("--cors-origins (HOOKSPAN_CORS_ORIGINS): {error}"))
}

/// Says at the start who may call, so that nobody has to guess it from the settings.
fn say_who_may_call(access: &Access, loopback: bool) {
    match &access.keys {
        None if loopback => tracing::info!("everybody on this machine may call; there are no keys"),
        None => tracing::warn!("everybody who reaches this address may call: --anonymous"),
        Some(keys) => {
            let here = if access.loopback_needs_key { "with a key" } else { "also without one" };
            tracing::info!(here, public = ?access.public, "callers need a key; on this machine:");
            watch::list(keys);
        }
    }
}

/// Time for the last answers to be sent.
const LAST_WORDS: Duration = Duration::from_secs(3);

/// Returns when listening is to end: once the process was asked to, and those who send requests
/// have had time to see that it is no longer ready. Batches then end with the lines they have begun,
/// and say where to go on; computations under way have some grace and are refused after that.
async fn drained(app: App, [drain, grace]: [Duration; 2]) {
    connections::asked_to_end().await;
    tracing::info!(?drain, ?grace, "draining");
    app.no_longer_ready();
    tokio::time::sleep(drain).await;
    app.end_batches();
    tokio::spawn(async move {
        tokio::time::sleep(grace).await;
        app.end_computations();
    });
}
