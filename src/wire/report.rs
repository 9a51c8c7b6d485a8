//! What the answers of a batch come to: `hookspan report`.
//!
//! Everything is counted by answers, one for each line. Lists are in a total order and lists of rows are cut,
//! so that the parts of a batch come to the same report in whatever order they are read.

use serde::Serialize;
use utoipa::ToSchema;

use super::batch::VerdictCounts;
use super::capacity::CapacityScope;
use super::kinds::{JobKind, ReportTag};
use super::remarks::{Caution, Severity, Verdict};
use super::scopes::ScopeName;
use crate::wire::enumeration::enumeration;

/// What the answers of a batch come to.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Report {
    /// What this is.
    #[schema(inline)]
    pub kind: ReportTag,
    /// Version of the program that made the report.
    #[schema(example = "0.1.0")]
    pub version: String,
    /// Number of its mechanics, as `engine.model` of an answer.
    #[schema(example = 9)]
    pub model: u32,
    /// What was read.
    pub lines: LinesRead,
    /// Which lines of the batch have an answer or a problem.
    pub answered: LinesAnswered,
    /// Whether all answers are of one number of the mechanics. Where they are not, their figures are not
    /// comparable: what is counted, ranked and distributed below is then of all of them together.
    pub comparable: bool,
    /// What computed the answers.
    pub engines: Vec<EngineCount>,
    /// Answers by verdict.
    pub verdicts: VerdictCounts,
    /// The same by kind of job. A problem does not say what kind of job it is of.
    pub by_kind: Vec<KindCount>,
    /// The same by set of rules.
    pub by_rules: Vec<NameCount>,
    /// The same by the part that the hooks are, where answers say it.
    pub by_hook: Vec<NameCount>,
    /// Answers by verdict on each scope.
    pub by_scope: Vec<ScopeCount>,
    /// What was found, in how many answers each; most serious first, then the most frequent.
    pub findings: Vec<FindingCount>,
    /// Utilisation of all answers that have one, and of those in which each check governs.
    pub utilisation: Vec<UtilisationSpread>,
    /// How far a quantile may lie above the exact one.
    pub resolution: Resolution,
    /// How rechecks differ from what was recorded; absent where none was compared.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub changes: Option<Changes>,
    /// What jobs bear; absent where no answer says it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub capacity: Option<Capacities>,
    /// What an observed event came to; absent where no answer is of one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub event: Option<EventCount>,
    /// The answers to look at first: those that fail, those that are incomplete, then the others; among them
    /// the most used first.
    pub worst: Vec<WorstRow>,
    /// Lines that were refused.
    pub problems: Problems,
    /// Lines that could not be read.
    pub unread: Unread,
    /// Cautions that go with every answer.
    pub cautions: Vec<Caution>,
}

/// What was read.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct LinesRead {
    /// Lines that are not empty.
    pub read: u64,
    /// Of these, answers.
    pub answers: u64,
    /// Problems.
    pub problems: u64,
    /// Ends of batches.
    pub ends: u64,
    /// Of these ends, those that say that the batch broke off.
    pub broken_off: u64,
    /// Lines that could not be read.
    pub unread: u64,
}

/// Which lines of the batch have an answer or a problem.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct LinesAnswered {
    /// The first of them; absent where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = 1)]
    pub first: Option<u64>,
    /// The last of them.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = 1_000_000)]
    pub last: Option<u64>,
    /// How many lines have neither: between the first and the last, or of those that the batch was said to
    /// have. An empty line of a batch has neither.
    pub without: u64,
    /// These lines, the first thousand ranges: `solve --lines` does them again.
    #[schema(max_items = 1000)]
    pub without_ranges: Vec<LineRange>,
    /// How many have more than one. Each is counted in this report, so that a part that was done again has to
    /// take the place of the former.
    pub repeated: u64,
    /// These lines, the first thousand ranges.
    #[schema(max_items = 1000)]
    pub repeated_ranges: Vec<LineRange>,
}

/// Lines of a batch, both ends included.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct LineRange {
    /// The first.
    pub first: u64,
    /// The last.
    pub last: u64,
}

/// What computed how many answers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct EngineCount {
    /// Version of the service.
    pub version: String,
    /// Number of its mechanics.
    pub model: u32,
    /// Set of rules.
    #[schema(example = "eurocode/DE")]
    pub rules: String,
    /// Revision of it.
    #[schema(example = "DE-1")]
    pub revision: String,
    /// Whether version and mechanics are those of the program that made the report.
    pub own: bool,
    /// Answers.
    pub answers: u64,
    /// The first line of the batch that has one.
    pub first_line: u64,
}

/// Answers of a kind of job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct KindCount {
    /// The kind.
    pub of: JobKind,
    /// Answers.
    pub answers: u64,
    /// Answers by verdict; those of a kind without one are not among them.
    pub verdicts: VerdictCounts,
}

/// Answers that have a name in common.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct NameCount {
    /// The name.
    pub name: String,
    /// Answers.
    pub answers: u64,
    /// Answers by verdict; those of a kind without one are not among them.
    pub verdicts: VerdictCounts,
}

/// Answers by verdict on a scope.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct ScopeCount {
    /// The scope.
    pub scope: ScopeName,
    /// Answers by verdict on it.
    pub verdicts: VerdictCounts,
    /// Answers in which it was not asked.
    pub not_assessed: u64,
}

/// What was found in how many answers.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FindingCount {
    /// Code of the finding, catalogued at `GET /v1/warnings`.
    #[schema(example = "screw.overloaded")]
    pub code: String,
    /// How much it matters.
    pub severity: Severity,
    /// Answers it is found in, however often.
    pub answers: u64,
    /// Scopes of the verdict it matters to; empty where this version does not know it.
    pub scopes: Vec<ScopeName>,
    /// Clause or practice it rests on; absent where this version does not know it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub source: Option<String>,
}

/// How the utilisation of answers is spread.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct UtilisationSpread {
    /// The check that governs these answers; absent of all answers that have a utilisation.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "screws")]
    pub check: Option<String>,
    /// How many there are.
    pub answers: u64,
    /// The highest of them, rounded up in the fourth decimal.
    pub max: f64,
    /// What so many of them are at most.
    pub quantiles: Vec<Quantile>,
    /// How many lie in each range; ranges without any are left out.
    pub bins: Vec<Bin>,
}

/// What a share of some values is at most.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct Quantile {
    /// The share.
    #[schema(example = 0.95)]
    pub share: f64,
    /// The least value that at least so many are not above, rounded up to the resolution.
    pub value: f64,
}

/// How many values lie in a range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct Bin {
    /// Above this; the first range has its lower end as well.
    pub above: f64,
    /// Up to this; absent of the last range.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub up_to: Option<f64>,
    /// Values.
    pub answers: u64,
}

/// How far a quantile may lie above the exact one; never below.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct Resolution {
    /// Up to `exact_to`.
    pub step: f64,
    /// Where larger steps begin.
    pub exact_to: f64,
    /// From there on, in addition, as a share of the value.
    pub share: f64,
}

/// How rechecks differ from what was recorded.
#[derive(Debug, Clone, Default, PartialEq, Serialize, ToSchema)]
pub struct Changes {
    /// Answers that were compared with a record.
    pub compared: u64,
    /// Of these, those with another verdict.
    pub verdict_changed: u64,
    /// Those with the same verdict.
    pub verdict_kept: u64,
    /// Those whose record has no verdict.
    pub verdict_unknown: u64,
    /// From which verdict to which, where the record says it.
    pub verdicts: Vec<VerdictChange>,
    /// Those that are used more.
    pub used_more: u64,
    /// Those that are used less.
    pub used_less: u64,
    /// Those that are used as before, to the fourth decimal.
    pub used_alike: u64,
    /// Those whose record has no utilisation.
    pub used_unknown: u64,
    /// Those of another version of the service.
    pub engine_changed: u64,
    /// Those of other mechanics.
    pub model_changed: u64,
    /// Those of another revision of the rules.
    pub rules_changed: u64,
    /// Those whose job is not the one of the record.
    pub input_changed: u64,
    /// What may have made a difference. An answer can have several causes.
    pub causes: Vec<CauseCount>,
    /// Those with another verdict, in the order of `worst`.
    pub worst: Vec<WorstRow>,
}

/// Answers whose verdict changed in the same way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct VerdictChange {
    /// Verdict of the record.
    pub from: Verdict,
    /// Verdict of the answer.
    pub to: Verdict,
    /// Answers.
    pub answers: u64,
}

/// What may have made answers differ from their records.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CauseCount {
    /// The cause, one of those of `difference` in the answer to a recheck.
    #[schema(example = "annex_values")]
    pub cause: String,
    /// Answers that name it.
    pub answers: u64,
    /// Of these, those with another verdict.
    pub verdict_changed: u64,
}

/// What jobs bear, each slope of a building by itself.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Capacities {
    /// Snow on the ground.
    pub ground_snow: LoadCapacities,
    /// Peak velocity pressure of a gust at ridge height.
    pub peak_pressure: LoadCapacities,
}

/// What jobs bear of one load, with every partial factor 1: `observed` of the answers.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct LoadCapacities {
    /// Statements.
    pub statements: u64,
    /// Of these, those with a load: of the scope with the least.
    pub limited: u64,
    /// Those that bear none, as a check of a scope is over its limit whatever the load.
    pub never: u64,
    /// Those that name no load: no limit is found, or nothing can be said.
    pub open: u64,
    /// What so many of `limited` and `never` bear at most, kN/m², rounded up to the resolution.
    pub quantiles: Vec<Quantile>,
    /// The smallest first; those that bear none come before all.
    pub smallest: Vec<CapacityRow>,
}

/// What a job bears of a load.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct CapacityRow {
    /// The answer.
    #[serde(flatten)]
    pub of: RowName,
    /// Slope of a building.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub slope: Option<String>,
    /// The load, kN/m²; zero where it bears none.
    pub load_kn_per_m2: f64,
    /// What the job is computed with, kN/m².
    pub of_the_job_kn_per_m2: f64,
    /// The scope with the least.
    pub scope: CapacityScope,
    /// Whether every check of every scope was run. Otherwise another limit may come first.
    pub complete: bool,
    /// The check that passes its limit next.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "screws")]
    pub check: Option<String>,
    /// The hook, rail, module or rafter it is of.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "A2-3")]
    pub element: Option<String>,
}

/// What an observed event came to.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct EventCount {
    /// Rechecks of an event.
    pub answers: u64,
    /// Of these, those in which no check that was run passed its limit.
    pub within_resistances: u64,
    /// By verdict, which also tells what was not run.
    pub verdicts: VerdictCounts,
    /// Which roofs to look at first: those that fail or are incomplete under the event, in the order of
    /// `worst`.
    pub look_at: Vec<WorstRow>,
}

/// How an answer is found again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct RowName {
    /// Number of its line in the batch, counted from 1.
    pub line: u64,
    /// Id of that line.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "contract-0815")]
    pub id: Option<String>,
    /// Reference of the job; of a statement, its number.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub reference: Option<String>,
}

/// An answer among the worst.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct WorstRow {
    /// The answer.
    #[serde(flatten)]
    pub of: RowName,
    /// Kind of the job.
    pub job: JobKind,
    /// Set of rules.
    #[schema(example = "eurocode/DE")]
    pub rules: String,
    /// Version and mechanics of another program than the one that made the report; absent where they are its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "0.0.9 (1)")]
    pub other_engine: Option<String>,
    /// The part that its hooks are.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "plain-tile-side-hook-12")]
    pub hook_part: Option<String>,
    /// Its verdict.
    pub verdict: Verdict,
    /// Verdict of the record it was compared with.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub recorded_verdict: Option<Verdict>,
    /// Its highest utilisation.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub utilisation: Option<f64>,
    /// Slope of a building it is on.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub slope: Option<String>,
    /// The hook, rail, module or rafter it is of.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "A2-3")]
    pub element: Option<String>,
    /// The check that governs there.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "screws")]
    pub check: Option<String>,
    /// The combination that governs there.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub combination: Option<String>,
    /// Codes of what made the verdict: of failures, or else of what did not run.
    pub codes: Vec<String>,
    /// The verdict and its reason in one sentence, in the language of the answer.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub headline: Option<String>,
}

/// Lines that were refused.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct Problems {
    /// How many for each code of a problem.
    pub codes: Vec<ProblemCount>,
    /// The first of them by their number in the batch.
    #[schema(max_items = 1000)]
    pub listed: Vec<ProblemRow>,
}

/// How many lines were refused for a reason.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ProblemCount {
    /// Code of the problem.
    #[schema(example = "invalid_request")]
    pub code: String,
    /// Lines.
    pub lines: u64,
}

/// A line that was refused.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ProblemRow {
    /// Number of its line in the batch, counted from 1.
    pub line: u64,
    /// Id of that line.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub id: Option<String>,
    /// Code of the problem.
    pub code: String,
    /// What is wrong: the first fault, or the problem itself.
    pub detail: String,
    /// Where in the line the first fault is (RFC 6901).
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub pointer: Option<String>,
}

/// Lines that could not be read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct Unread {
    /// How many for each reason.
    pub reasons: Vec<UnreadCount>,
    /// The first of them: by their number in the batch where it can be made out, then by the line of their file.
    #[schema(max_items = 1000)]
    pub listed: Vec<UnreadRow>,
}

/// How many lines could not be read for a reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct UnreadCount {
    /// The reason.
    pub reason: UnreadReason,
    /// Lines.
    pub lines: u64,
}

enumeration! {
    /// Why a line could not be read.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum UnreadReason {
        /// It is no JSON, half a line say.
        NotJson,
        /// It is JSON and no line of the answers to a batch, or not one this version knows.
        NotAnAnswer,
        /// It is longer than 64 MiB.
        TooLong,
    }
}

/// A line that could not be read. Where its number in the batch can be made out it is named by that, and
/// otherwise by its file and the line of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct UnreadRow {
    /// Number in the batch.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub line: Option<u64>,
    /// The file, as it was named.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub file: Option<String>,
    /// The line of it, counted from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub line_of_file: Option<u64>,
    /// Why.
    pub reason: UnreadReason,
    /// What the reader says of it.
    pub detail: String,
}

enumeration! {
    /// What a table of a report lists.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ReportTable {
        /// The answers to look at first, one line for each.
        Worst,
        /// Answers by verdict: of all, by kind of job, set of rules, hook and scope.
        Counts,
        /// What was found, one line for each code.
        Findings,
        /// How utilisations are spread, one line for each range of each check.
        Utilisations,
        /// What may have changed answers against their records, one line for each cause.
        Causes,
        /// Rechecks with another verdict than their record, one line for each.
        Changed,
        /// What jobs bear, one line for each job and load, the smallest first.
        Capacities,
        /// Roofs to look at after an event, one line for each.
        Event,
        /// Lines that were refused or could not be read, one line for each.
        Left,
    }
}

impl ReportTable {
    /// Every table.
    pub const ALL: [Self; 9] = [
        Self::Worst,
        Self::Counts,
        Self::Findings,
        Self::Utilisations,
        Self::Causes,
        Self::Changed,
        Self::Capacities,
        Self::Event,
        Self::Left,
    ];

    /// Its name on the command line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Worst => "worst",
            Self::Counts => "counts",
            Self::Findings => "findings",
            Self::Utilisations => "utilisations",
            Self::Causes => "causes",
            Self::Changed => "changed",
            Self::Capacities => "capacities",
            Self::Event => "event",
            Self::Left => "left",
        }
    }
}
