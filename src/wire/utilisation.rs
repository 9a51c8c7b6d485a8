//! Answer: what is used most.

use serde::Serialize;
use utoipa::ToSchema;

/// The highest utilisation and where it is.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct JobUtilisation {
    /// Highest utilisation, rounded up in the fourth decimal.
    pub max: f64,
    /// Slope it is on, of a building.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "S1")]
    pub slope: Option<String>,
    /// Id of the hook, rail or module, or `rafter` with the index of the rafter, counted from 0.
    #[schema(example = "A2-3")]
    pub element: String,
    /// Check that governs there.
    #[schema(example = "screws")]
    pub check: String,
    /// Combination that governs there.
    pub combination: String,
}
