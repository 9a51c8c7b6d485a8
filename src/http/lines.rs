//! Lines of the answer to a batch that are the same whatever the kind of a job.

use serde::Serialize;
use utoipa::ToSchema;

use crate::http::problem::Problem;
use crate::wire::batch::BatchSummary;
use crate::wire::kinds::{EndTag, ProblemTag, SummaryTag};
use crate::wire::summary::AnswerSummary;

/// The answer to a line in short.
#[derive(Debug, Serialize, ToSchema)]
pub struct SummaryLine {
    /// Echo of the line's id.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "contract-0815")]
    id: Option<String>,
    /// Number of the line in the batch, counted from 1; empty lines count.
    #[schema(minimum = 1, example = 1)]
    line: u64,
    /// What the line is.
    #[schema(inline)]
    kind: SummaryTag,
    /// HTTP status the job would have had by itself.
    #[schema(minimum = 200, maximum = 200, example = 200)]
    status: u16,
    /// The answer in short.
    result: Box<AnswerSummary>,
}

impl SummaryLine {
    /// An answer on its line.
    #[must_use]
    pub const fn of(id: Option<String>, line: u64, result: Box<AnswerSummary>) -> Self {
        Self { id, line, kind: SummaryTag, status: 200, result }
    }
}

/// A line without an answer.
#[derive(Debug, Serialize, ToSchema)]
pub struct ProblemLine {
    /// Echo of the line's id, where it could be read.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "contract-0816")]
    id: Option<String>,
    /// Number of the line in the batch, counted from 1; empty lines count.
    #[schema(minimum = 1, example = 2)]
    line: u64,
    /// What the line is.
    #[schema(inline)]
    kind: ProblemTag,
    /// HTTP status the job would have had by itself.
    #[schema(minimum = 400, maximum = 599, example = 422)]
    status: u16,
    /// Why there is none; pointers are those of the line.
    problem: Problem,
}

impl ProblemLine {
    /// A problem on its line.
    #[must_use]
    pub fn of(id: Option<String>, line: u64, problem: Problem) -> Self {
        let status = problem.code().status().as_u16();
        Self { id, line, kind: ProblemTag, status, problem }
    }
}

/// The last line of the answer.
#[derive(Debug, Serialize, ToSchema)]
pub struct EndLine {
    /// What the line is.
    #[schema(inline)]
    kind: EndTag,
    /// What became of all lines.
    summary: BatchSummary,
}

impl EndLine {
    /// The end of a batch.
    #[must_use]
    pub const fn of(summary: BatchSummary) -> Self {
        Self { kind: EndTag, summary }
    }
}
