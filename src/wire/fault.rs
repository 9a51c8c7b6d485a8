//! Faults of a request: what is wrong, and where.

use crate::wire::enumeration::enumeration;
use serde::Serialize;
use utoipa::ToSchema;

/// One thing that is wrong with the request.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct Fault {
    /// Where in the request: a JSON pointer (RFC 6901), `""` for the whole document.
    #[schema(example = "/roof/pitch_deg")]
    pub pointer: String,
    /// The parameter of the query that is at fault, where it is one; `pointer` is then `""`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "trace")]
    pub parameter: Option<String>,
    /// Stable name of the kind of fault, for programs to branch on.
    #[schema(example = "out_of_range")]
    pub code: FaultCode,
    /// The fault in a plain sentence.
    #[schema(example = "95 is more than the largest allowed value, 75.")]
    pub detail: String,
}

impl Fault {
    /// A fault at `pointer`.
    pub fn new(pointer: impl Into<String>, code: FaultCode, detail: impl Into<String>) -> Self {
        Self { pointer: pointer.into(), parameter: None, code, detail: detail.into() }
    }

    /// A fault of a parameter of the query, which has no place in the body.
    pub fn of_parameter(
        name: impl Into<String>,
        code: FaultCode,
        detail: impl Into<String>,
    ) -> Self {
        Self { parameter: Some(name.into()), ..Self::new("", code, detail) }
    }
}

enumeration! {
    /// Kinds of fault. Names are stable: none is ever renamed or reused.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum FaultCode {
        /// A required field is absent.
        Missing,
        /// A field this service does not know.
        UnknownField,
        /// The value has another JSON type than the field.
        WrongType,
        /// A number, a length of text or a count outside its limits.
        OutOfRange,
        /// A text that is not one of the allowed values.
        UnknownValue,
        /// Two statements of the request exclude each other.
        Contradiction,
        /// One of several alternatives must be given, and none or several were.
        ChooseOne,
        /// An id that names none of the embedded components.
        UnknownComponent,
        /// A rule set or a revision of it that this service does not have.
        UnknownRules,
        /// The chosen rules do not cover the case; the sentence names the way out.
        NotCovered,
        /// An outline that crosses itself, is empty or runs clockwise.
        BadOutline,
        /// Positions that must rise from left to right and do not.
        NotAscending,
        /// A module lies wholly or partly off the roof.
        OffRoof,
        /// A module lies on an obstacle.
        OnObstacle,
        /// Two modules overlap.
        Overlap,
    }
}
