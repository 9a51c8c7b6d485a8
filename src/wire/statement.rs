//! `POST /v1/statements`: what a maker's parts are, and what every figure of them rests on.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::array::Module;
use super::components::{Clamp, Hook, Rail, Screw};
use super::declarations::Act;
use super::evidence::{EvidenceAnswer, PartKind};
use super::kinds::StatementTag;
use super::provenance::{Assumption, Engine};
use super::remarks::{Caution, Severity};
use super::scopes::ScopeName;
use super::site::RulesChoice;

/// A maker's statement: parts in the form in which a request takes them, each with the evidence of its
/// figures. Every part can be put into a request as it stands here.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct StatementRequest {
    /// Who states this.
    #[schema(min_length = 1, max_length = 200, example = "an illustrative maker")]
    pub maker: String,
    /// Number and issue of the statement.
    #[schema(min_length = 1, max_length = 200, example = "statement 12, issue 3")]
    pub document: String,
    /// Rules the figures were found by.
    pub rules: RulesChoice,
    /// A roof hook.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub hook: Option<Hook>,
    /// A wood screw.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub screw: Option<Screw>,
    /// A rail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rail: Option<Rail>,
    /// A module clamp.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clamp: Option<Clamp>,
    /// A module.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub module: Option<Module>,
}

/// What a statement says, and what it leaves open.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct StatementAnswer {
    /// What this is.
    #[schema(inline)]
    pub kind: StatementTag,
    /// Echo of who states this.
    pub maker: String,
    /// Echo of the number of the statement.
    pub document: String,
    /// What computed this.
    pub engine: Engine,
    /// SHA-256 of the statement without empty lists in canonical form (RFC 8785), hexadecimal.
    pub input_digest: String,
    /// Figures whose evidence is stated, with what tests give.
    pub evidence: Vec<EvidenceAnswer>,
    /// Figures stated without evidence: nobody learns from the statement what they rest on.
    pub without_evidence: Vec<StatedFigure>,
    /// What a maker has to state for a plain `holds`, by the finding that its absence brings.
    pub needed: Vec<NeededFigure>,
    /// What a job with these parts would assume of them.
    pub assumptions: Vec<Assumption>,
    /// Cautions that go with every answer.
    pub cautions: Vec<Caution>,
}

/// A figure of a part.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct StatedFigure {
    /// Kind of part.
    pub part: PartKind,
    /// The figure: a JSON pointer inside the part.
    #[schema(example = "/arm/reach_mm")]
    pub figure: &'static str,
}

/// A figure that a plain `holds` needs in some jobs at least.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct NeededFigure {
    /// Kind of part.
    pub part: PartKind,
    /// The figure or group of figures, any of which settles the matter: JSON pointers inside the part, the
    /// usual one first.
    #[schema(example = json!(["/bolt", "/resistance/includes_bolt"]))]
    pub figures: Vec<&'static str>,
    /// Whether the statement has one of them.
    pub stated: bool,
    /// Code of the finding that a job has without it.
    #[schema(example = "bolt.unknown")]
    pub check: &'static str,
    /// Severity of that finding.
    pub severity: Severity,
    /// Scopes of the verdict that do not plainly hold then.
    #[schema(example = json!(["fixing"]))]
    pub scopes: Vec<ScopeName>,
    /// What else would lift it in a job; the usual act first.
    pub acts: Vec<Act>,
    /// Why it is needed.
    pub why: &'static str,
}
