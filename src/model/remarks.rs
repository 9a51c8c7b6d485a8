//! What every kind of answer says of its job in words: the judgement, what the reader must know,
//! and what is still to be found out.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::declarations::Act;
use super::scopes::ScopeName;

/// The judgement.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Every check passes and nothing needs attention.
    Holds,
    /// Every check passes; read the warnings.
    HoldsWithWarnings,
    /// A check fails.
    Fails,
    /// Something that decides could not be verified.
    Incomplete,
}

/// Something the reader must know.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Warning {
    /// Stable code, catalogued at `GET /v1/warnings`.
    #[schema(example = "rail.free-end-too-long")]
    pub code: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What and where.
    pub message: String,
    /// Pointer into this answer (RFC 6901), or `""` for the whole.
    pub path: String,
    /// The figures in the message.
    pub params: BTreeMap<&'static str, Param>,
    /// Clause or practice the warning rests on.
    pub source: String,
}

/// All findings of one kind.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Cause {
    /// Code of the findings.
    #[schema(example = "screw.overloaded")]
    pub code: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// Scopes of the verdict it matters to.
    #[schema(example = json!(["fixing"]))]
    pub scopes: Vec<ScopeName>,
    /// What is found at the most serious place, and where else it is found.
    pub line: String,
    /// Pointers into this answer, the most serious place first; `""` for the whole.
    #[schema(example = json!(["/hooks/4", "/hooks/11"]))]
    pub paths: Vec<String>,
}

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// A check fails, or the thing cannot be built: the verdict is `fails`.
    Failure,
    /// Something that decides did not run: the verdict is `incomplete` at best.
    Incomplete,
    /// Something a person must act on: the verdict is `holds_with_warnings` at best.
    Warning,
    /// For information: it costs no verdict.
    Notice,
}

/// A figure or a name in a warning.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
#[serde(untagged)]
pub enum Param {
    /// A figure.
    Number(f64),
    /// How many, or a number by which something goes.
    Count(u64),
    /// A name.
    Text(String),
    /// Several names.
    Texts(Vec<String>),
    /// Several numbers by which things go.
    Counts(Vec<u64>),
    /// Yes or no.
    Flag(bool),
}

/// Something that must be known before the job can be said to hold.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct MissingInput {
    /// Code of the check that could not run: what a declaration names.
    #[schema(example = "clearance.stiffness-unknown")]
    pub check: &'static str,
    /// What is to be done.
    pub act: Act,
    /// Whether a declaration can take the check over as well.
    pub declarable: bool,
    /// Pointer into the request where it belongs.
    #[schema(example = "/components/hook/stiffness/normal_kn_per_mm")]
    pub pointer: String,
    /// What it decides.
    pub why: String,
}

/// A caution that goes with every answer.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Caution {
    /// Stable code.
    #[schema(example = "work-at-height")]
    pub code: &'static str,
    /// Text.
    pub text: &'static str,
}
