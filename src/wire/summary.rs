//! The short form of an answer to any kind of job: what a list of many jobs shows of each.

use serde::Serialize;
use utoipa::ToSchema;

use super::kinds::{JobKind, SummaryTag};
use super::layout::JobUtilisation;
use super::provenance::Engine;
use super::recheck::Difference;
use super::remarks::Verdict;
use super::scopes::Verdicts;

/// An answer in short, with `?answer=summary`.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct AnswerSummary {
    /// What this is.
    #[schema(inline)]
    pub kind: SummaryTag,
    /// Kind of the job.
    pub of: JobKind,
    /// Echo of the request's reference; of a statement, its number.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub reference: Option<String>,
    /// What computed this.
    pub engine: Engine,
    /// Digest of the request, as in the full answer.
    pub input_digest: String,
    /// Name of the job, as in the full answer; of layouts, rechecks and surveys.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub job_key: Option<String>,
    /// Id of the part that the hooks are, as in the full answer; absent where the job has no hooks.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "plain-tile-side-hook-12")]
    pub hook_part: Option<String>,
    /// The judgement in a word, where the job has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub verdict: Option<Verdict>,
    /// The verdict and its reason, in one sentence.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "Fails: A1-3: screws 134.0 % in 7.")]
    pub headline: Option<String>,
    /// The verdict by scope.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub verdicts: Option<Verdicts>,
    /// Highest utilisation of the job.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub utilisation: Option<JobUtilisation>,
    /// How a recheck differs from the record, when one is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub difference: Option<Difference>,
    /// Whether the observed event of a recheck was within the resistances, where it has one; the verdict is
    /// then that of the event.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub event: Option<EventSummary>,
    /// How many there are of what.
    pub counts: SummaryCounts,
    /// Codes of what was found, each once.
    pub codes: SummaryCodes,
}

/// An observed event in short.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct EventSummary {
    /// No check that was run passed its limit, with what the rolling of feet adds.
    pub within_resistances: bool,
    /// Snow on the ground it was judged by, kN/m².
    pub ground_snow_kn_per_m2: f64,
    /// Peak pressure it was judged by, kN/m².
    pub peak_pressure_kn_per_m2: f64,
}

/// How many there are of what the full answer lists.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct SummaryCounts {
    /// Rails.
    pub rails: u64,
    /// Hooks.
    pub hooks: u64,
    /// Modules.
    pub modules: u64,
    /// Entries of `missing`; of a statement, those of `needed`.
    pub missing: u64,
    /// Findings that are failures.
    pub failures: u64,
    /// Findings of something that did not run.
    pub incomplete: u64,
    /// Findings a person must act on.
    pub warnings: u64,
    /// Findings for information.
    pub notices: u64,
    /// Values and choices of model the service assumed.
    pub assumptions: u64,
}

/// Codes of what was found, by severity, each once and in the order of the full answer.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct SummaryCodes {
    /// Codes of failures.
    #[schema(example = json!(["screw.overloaded"]))]
    pub failures: Vec<&'static str>,
    /// Codes of what did not run.
    pub incomplete: Vec<&'static str>,
    /// Codes of warnings.
    pub warnings: Vec<&'static str>,
    /// Codes of notices.
    pub notices: Vec<&'static str>,
}
