//! One line of a batch: envelope, job, answer. What a line is answered with is what its job would
//! be answered with by itself, so a bad line costs nobody but itself.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::Duration;

use serde::Deserialize;
use serde_json::Value;

use crate::http::gate::fault::{BodyFault, MOST_FAULTS};
use crate::http::gate::{self, Contract, Parsed};
use crate::http::job::Done;
use crate::http::lines::ProblemLine;
use crate::http::metrics::{Lane, Metrics};
use crate::http::problem::{Problem, ProblemCode};
use crate::http::routes::{BatchOutput, JobKind, LineResult};
use crate::http::signature;
use crate::service::batch::{Line, Tally};
use crate::service::request::Options;
use crate::service::signing::Signer;
use crate::wire::fault::Fault;

/// What every line has, whatever it asks.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Envelope {
    #[serde(default)]
    #[expect(dead_code, reason = "echoed from the document, also where the rest has faults")]
    id: Option<String>,
    kind: JobKind,
    job: Value,
}

/// The published contract of a line without what is said of its job, which has its own.
static ENVELOPE: Contract = Contract::of_envelope("BatchLine", "job");

/// Makes ready what lines are held against.
pub fn prepare() {
    ENVELOPE.prepare();
}

/// What became of a line.
pub struct Outcome {
    number: u64,
    id: Option<String>,
    result: Result<Done<LineResult>, Problem>,
}

/// Computes a line.
pub fn outcome(line: &Line, limit: usize, options: &Options) -> Outcome {
    let (id, result) = match &line.text {
        None => {
            let detail = format!("The line is larger than {limit} bytes.");
            (None, Err(Problem::new(ProblemCode::TooLarge, detail)))
        }
        Some(text) => guarded(line.number, text, options),
    };
    Outcome { number: line.number, id, result }
}

impl Outcome {
    /// The same, or a problem in its place.
    pub fn unless(self, problem: Option<Problem>) -> Self {
        Self { result: problem.map_or(self.result, Err), ..self }
    }

    /// Counts it, and the time it took.
    pub fn count(&self, metrics: &Metrics, took: Duration) {
        let kind = self.result.as_ref().map_or("refused", |done| done.tag);
        metrics.computed(kind, Lane::batch, took);
        if let Some(cut_short) = self.result.as_ref().ok().and_then(|done| done.cut_short) {
            metrics.searched(cut_short);
        }
    }

    /// Writes it with a line feed, signed where there is a key, and accounts for it.
    pub fn write(self, out: &mut Vec<u8>, tally: &mut Tally, signer: Option<&Signer>) {
        let Self { number: line, id, result } = self;
        match &result {
            Ok(done) => tally.answered(done.verdict),
            Err(_) => tally.refused(),
        }
        let answer = match result {
            Ok(done) => done.result.on_line(id, line),
            Err(problem) => refusal(id, line, problem),
        };
        let begin = out.len();
        if let Err(error) = signature::write_line(out, &answer, signer) {
            tracing::error!(%error, "an answer could not be written as JSON");
            out.truncate(begin);
            // A refusal is made of texts and numbers only.
            let _ = serde_json::to_writer(&mut *out, &refusal(None, line, Problem::internal()));
        }
        out.push(b'\n');
    }
}

fn refusal(id: Option<String>, line: u64, problem: Problem) -> BatchOutput {
    BatchOutput::Problem(ProblemLine::of(id, line, problem))
}

/// A line on which the calculation breaks costs only itself, too.
fn guarded(
    number: u64,
    text: &[u8],
    options: &Options,
) -> (Option<String>, Result<Done<LineResult>, Problem>) {
    let mut id = None;
    let outcome = catch_unwind(AssertUnwindSafe(|| read_and_run(number, text, options, &mut id)));
    let outcome = outcome.unwrap_or_else(|_| {
        tracing::error!(line = number, "the computation of a line did not end");
        Err(Problem::internal())
    });
    (id, outcome)
}

fn read_and_run(
    number: u64,
    text: &[u8],
    options: &Options,
    id: &mut Option<String>,
) -> Result<Done<LineResult>, Problem> {
    let Parsed { document, faults } =
        gate::parse(text, ENVELOPE.shape()).map_err(|fault| on_line(fault, number))?;
    // Told even when the rest of the line makes no sense, so that the caller finds it again.
    *id = document.get("id").and_then(Value::as_str).map(str::to_owned);
    let mut faults = gate::faults_of(faults, &ENVELOPE, &document);
    if let Some((kind, job)) = job_of(&document) {
        faults.extend(
            kind.contract()
                .faults(job)
                .into_iter()
                .map(|fault| Fault { pointer: format!("/job{}", fault.pointer), ..fault }),
        );
    }
    if !faults.is_empty() {
        faults.truncate(MOST_FAULTS);
        return Err(Problem::faults(gate::in_document_order(faults, &document)));
    }
    let Envelope { kind, job, .. } = serde_json::from_value(document).map_err(|error| {
        tracing::error!(%error, "the envelope of a line passed the gate and is none");
        Problem::internal()
    })?;
    kind.done(job, options).map_err(|problem| problem.inside("/job"))
}

/// Kind and job of a line, where both can be told.
fn job_of(document: &Value) -> Option<(JobKind, &Value)> {
    let kind = JobKind::deserialize(document.get("kind")?).ok()?;
    Some((kind, document.get("job").filter(|job| job.is_object())?))
}

/// A place in the one line of a body is a place in that line of the batch.
fn on_line(fault: BodyFault, number: u64) -> BodyFault {
    match fault {
        BodyFault::NotJson { column, what, .. } => {
            let line = usize::try_from(number).unwrap_or(usize::MAX);
            BodyFault::NotJson { line, column, what }
        }
        faults @ BodyFault::Faults(_) => faults,
    }
}
