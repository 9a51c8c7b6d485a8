//! Where an answer comes from: what computed it, what it assumed, and the clause of every quantity.

use serde::Serialize;
use utoipa::ToSchema;

use super::remarks::Param;

/// What computed an answer.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Engine {
    /// Version of this service.
    pub version: String,
    /// Number of the mechanics: where it is the same, so are the figures, save for the values of an annex.
    #[schema(example = 2)]
    pub model: u32,
    /// Rule set.
    pub rules: EngineRules,
}

/// Rule set of an answer.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct EngineRules {
    /// Family and annex.
    #[schema(example = "eurocode/DE")]
    pub id: String,
    /// Revision, to pin in a later request.
    #[schema(example = "DE-1")]
    pub revision: String,
}

/// A value or a choice of model the service made for the caller.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Assumption {
    /// Stable code.
    #[schema(example = "wishes.min-clearance")]
    pub code: &'static str,
    /// Pointer into the request where the caller could have said otherwise; `""` for a choice of model.
    pub pointer: String,
    /// The value; absent for a choice of model, and where it is more than one figure.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub value: Option<Param>,
    /// Its unit, where it has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "mm")]
    pub unit: Option<&'static str>,
    /// What was assumed, for people.
    #[schema(example = "5 mm")]
    pub said: String,
    /// Why.
    pub why: String,
}

/// One quantity of the calculation.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct TraceLine {
    /// Element it belongs to, or `""`. What a check makes of it stands under element, combination and
    /// check: `A1-3/uls:G+S/hook`, for the combination that governs that check.
    pub element: String,
    /// What it is, for people.
    pub quantity: String,
    /// Symbol.
    pub symbol: String,
    /// Value.
    pub value: f64,
    /// Unit, empty for a pure number.
    pub unit: &'static str,
    /// Clause.
    pub clause: String,
}
