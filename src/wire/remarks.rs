//! What every kind of answer says of its job in words: the judgement, what the reader must know,
//! and what is still to be found out.

use std::borrow::Cow;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize, Serializer};
use utoipa::openapi::schema::{ArrayBuilder, ObjectBuilder, Type};
use utoipa::openapi::{RefOr, Schema};
use utoipa::{PartialSchema, ToSchema};

use super::declarations::Act;
use super::scopes::ScopeName;
use crate::wire::enumeration::enumeration;

enumeration! {
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
}

/// Something the reader must know.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Warning {
    /// Name of this finding: its code and what it is about. No other finding of the answer has it, and
    /// the same finding has the same name in the next answer to the job.
    #[schema(example = "rail.free-end-too-long@A1")]
    pub id: String,
    /// Stable code, catalogued at `GET /v1/warnings`.
    #[schema(example = "rail.free-end-too-long")]
    pub code: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What and where.
    pub message: String,
    /// Pointer into this answer (RFC 6901), or `""` for the whole.
    pub path: String,
    /// Id of the hook, rail or module it is about, or `rafter` with the index of the rafter; absent where
    /// it is about none of them, or about all.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "A1")]
    pub element: Option<String>,
    /// Pointer into the request (RFC 6901) where it is settled, the first where there are several, as in
    /// `missing`; absent where no member of the request settles it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "/components/rail/splice_moment")]
    pub pointer: Option<String>,
    /// The figures in the message.
    pub params: BTreeMap<&'static str, Param>,
    /// Clause or practice the warning rests on.
    pub source: String,
}

/// All findings of one kind.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
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
    /// Ids of the findings, the most serious first.
    #[schema(example = json!(["screw.overloaded@A1-5"]))]
    pub findings: Vec<String>,
}

enumeration! {
    /// How much a finding matters.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, ToSchema)]
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
}

/// A figure or a name, in the one member that is of its type.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Param {
    /// A figure.
    Number(f64),
    /// How many, or a number by which something goes.
    Integer(u64),
    /// A name.
    Text(String),
    /// Several names.
    Texts(Vec<String>),
    /// Several numbers by which things go.
    Integers(Vec<u64>),
    /// Yes or no.
    Flag(bool),
}

/// An object with one member: what a generator makes of a union of bare values, no program can tell
/// apart again.
impl PartialSchema for Param {
    fn schema() -> RefOr<Schema> {
        let of = |kind: Type| ObjectBuilder::new().schema_type(kind);
        let said = "A figure or a name, in the one member that is of its type. The catalogue of warnings \
                    names that member in `type`.";
        let mut object = ObjectBuilder::new()
            .description(Some(said))
            .property("number", of(Type::Number).description(Some("A figure.")))
            .property(
                "integer",
                of(Type::Integer)
                    .minimum(Some(0))
                    .description(Some("How many, or a number by which something goes.")),
            )
            .property("text", of(Type::String).description(Some("A name.")))
            .property(
                "texts",
                ArrayBuilder::new().items(of(Type::String)).description(Some("Several names.")),
            )
            .property(
                "integers",
                ArrayBuilder::new()
                    .items(of(Type::Integer).minimum(Some(0)))
                    .description(Some("Several numbers by which things go.")),
            )
            .property("flag", of(Type::Boolean).description(Some("Yes or no.")));
        object = object.min_properties(Some(1)).max_properties(Some(1));
        object.build().into()
    }
}

impl Param {
    /// The same as a bare value, as the request would take it.
    fn bare<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Number(number) => number.serialize(to),
            Self::Integer(number) => number.serialize(to),
            Self::Text(text) => text.serialize(to),
            Self::Texts(texts) => texts.serialize(to),
            Self::Integers(numbers) => numbers.serialize(to),
            Self::Flag(flag) => flag.serialize(to),
        }
    }
}

/// A value of a request, bare.
#[derive(Debug, Clone, PartialEq)]
pub struct Plain(pub Param);

impl Serialize for Plain {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.0.bare(to)
    }
}

impl ToSchema for Param {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed("Param")
    }
}

/// Something that must be known before the job can be said to hold.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct MissingInput {
    /// Id of the finding it would settle; absent where nothing was found yet because it is missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "clearance.stiffness-unknown")]
    pub finding: Option<String>,
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
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct Caution {
    /// Stable code.
    #[schema(example = "work-at-height")]
    pub code: &'static str,
    /// Text.
    pub text: &'static str,
}
