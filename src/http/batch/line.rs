//! One line of a batch: envelope, job, answer. What a line is answered with is what its job would
//! be answered with by itself, so a bad line costs nobody but itself.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::LazyLock;
use std::time::Duration;

use serde::{Deserialize, Serialize};
use serde_json::Value;
use utoipa::ToSchema;

use crate::http::gate::fault::{BodyFault, MOST_FAULTS};
use crate::http::gate::{self, Checkable, Parsed, Shape, checkable};
use crate::http::metrics::{Lane, Metrics};
use crate::http::problem::{Problem, ProblemCode};
use crate::http::routes::{JobKind, LineResult};
use crate::service::batch::{Line, Tally};
use crate::service::request::Options;
use crate::wire::batch::BatchSummary;
use crate::wire::fault::Fault;

/// One line of a batch, on one line of text.
#[derive(Debug, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct BatchLine {
    /// The caller's own name of the line; echoed. Lines are numbered, too.
    #[serde(default)]
    #[schema(nullable = false, max_length = 200, example = "contract-0815")]
    #[expect(dead_code, reason = "echoed from the document, also where the rest has faults")]
    id: Option<String>,
    /// What is asked.
    kind: JobKind,
    /// The request, as it would be sent by itself: `LayoutRequest`, `RecheckRequest`,
    /// `SurveyRequest` or `ActionsRequest`.
    #[schema(value_type = Object)]
    job: Value,
}

checkable!(BatchLine);

/// One line of the answer: of a line of the batch, or the last one of all.
#[derive(Debug, Serialize, ToSchema)]
#[serde(untagged)]
pub enum BatchOutput {
    /// What became of one line, in the order of the lines.
    Line(Box<LineAnswer>),
    /// The last line: what became of all of them.
    Summary(SummaryLine),
}

/// What became of one line.
#[derive(Debug, Serialize, ToSchema)]
pub struct LineAnswer {
    /// Echo of the line's id.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    id: Option<String>,
    /// Number of the line in the batch, counted from 1; empty lines count.
    #[schema(example = 1)]
    line: u64,
    /// HTTP status the job would have had by itself.
    #[schema(example = 200)]
    status: u16,
    /// The answer to the job.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    result: Option<LineResult>,
    /// Why there is none; pointers are those of the line.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    problem: Option<Problem>,
}

/// The last line of the answer.
#[derive(Debug, Serialize, ToSchema)]
pub struct SummaryLine {
    /// What became of all lines.
    pub summary: BatchSummary,
}

/// What became of a line.
pub struct Outcome {
    number: u64,
    id: Option<String>,
    result: Result<LineResult, Problem>,
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
        let kind = self.result.as_ref().map_or("refused", LineResult::tag);
        metrics.computed(kind, Lane::batch, took);
        if let Some(cut_short) = self.result.as_ref().ok().and_then(LineResult::cut_short) {
            metrics.searched(cut_short);
        }
    }

    /// Writes it with a line feed, and accounts for it.
    pub fn write(self, out: &mut Vec<u8>, tally: &mut Tally) {
        let Self { number: line, id, result } = self;
        match &result {
            Ok(result) => tally.answered(result.verdict()),
            Err(_) => tally.refused(),
        }
        let answer = match result {
            Ok(result) => LineAnswer { id, line, status: 200, result: Some(result), problem: None },
            Err(problem) => refusal(id, line, problem),
        };
        let begin = out.len();
        if let Err(error) = serde_json::to_writer(&mut *out, &answer) {
            tracing::error!(%error, "an answer could not be written as JSON");
            out.truncate(begin);
            // A refusal is made of texts and numbers only.
            let _ = serde_json::to_writer(&mut *out, &refusal(None, line, Problem::internal()));
        }
        out.push(b'\n');
    }
}

fn refusal(id: Option<String>, line: u64, problem: Problem) -> LineAnswer {
    let status = problem.code().status().as_u16();
    LineAnswer { id, line, status, result: None, problem: Some(problem) }
}

/// A line on which the calculation breaks costs only itself, too.
fn guarded(
    number: u64,
    text: &[u8],
    options: &Options,
) -> (Option<String>, Result<LineResult, Problem>) {
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
) -> Result<LineResult, Problem> {
    let Parsed { document, faults } =
        gate::parse(text, line_shape()).map_err(|fault| on_line(fault, number))?;
    // Told even when the rest of the line makes no sense, so that the caller finds it again.
    *id = document.get("id").and_then(Value::as_str).map(str::to_owned);
    let mut faults = gate::faults_of(faults, BatchLine::contract(), &document);
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
    let BatchLine { kind, job, .. } = serde_json::from_value(document).map_err(|error| {
        tracing::error!(%error, "the envelope of a line passed the gate and is none");
        Problem::internal()
    })?;
    kind.answer(job, options).map_err(|problem| problem.inside("/job"))
}

/// What a line can hold. Its kind may be told after its job, so the job can be one of any kind until
/// it is held against its own description.
fn line_shape() -> &'static Shape {
    static SHAPE: LazyLock<Shape> = LazyLock::new(|| {
        let jobs = JobKind::ALL.iter().map(|kind| kind.contract().shape());
        BatchLine::contract().shape().clone().with_member("job", jobs)
    });
    &SHAPE
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
