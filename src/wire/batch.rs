//! `POST /v1/batches`: what is the same whatever the kind of a line.

use serde::Serialize;
use utoipa::ToSchema;

/// The account of a batch.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct BatchSummary {
    /// True when the input was read to its end. False when it broke off or this instance is about
    /// to stop: send the rest again, from `next_line` on.
    pub complete: bool,
    /// Number of the first line that was not answered.
    #[schema(example = 4)]
    pub next_line: u64,
    /// Lines answered or refused; empty ones do not count.
    #[schema(example = 3)]
    pub lines: u64,
    /// Lines with a result.
    #[schema(example = 2)]
    pub answered: u64,
    /// Lines with a problem.
    #[schema(example = 1)]
    pub refused: u64,
    /// Results by verdict.
    pub verdicts: VerdictCounts,
}

/// Results by verdict; results of a kind without verdict are not among them.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct VerdictCounts {
    /// Every check passes and nothing needs attention.
    #[schema(example = 0)]
    pub holds: u64,
    /// Every check passes; read the warnings.
    #[schema(example = 1)]
    pub holds_with_warnings: u64,
    /// A check fails.
    #[schema(example = 0)]
    pub fails: u64,
    /// Something that decides could not be verified.
    #[schema(example = 0)]
    pub incomplete: u64,
}
