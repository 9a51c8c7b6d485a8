//! Where an answer comes from: what computed it, what it assumed, and the clause of every quantity.

use serde::Serialize;
use utoipa::ToSchema;

/// What computed an answer.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Engine {
    /// Version of this service.
    pub version: String,
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
    /// Pointer into the request where the caller could have said otherwise; `""` for a choice of model.
    pub pointer: String,
    /// What was assumed.
    pub value: String,
    /// Why.
    pub why: String,
}

/// One quantity of the calculation.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct TraceLine {
    /// Element it belongs to, or `""`.
    pub element: String,
    /// What it is.
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
