//! What is kept of an answer to check the job again by, in a year or after a storm.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::built::Built;
use super::remarks::Verdict;

/// Rails and hooks as this answer has them and what it says of them. A recheck of the same job takes both
/// members as they stand, and comes to the same figures as long as rules and mechanics are the same.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Record {
    /// Rails and hooks: the member `built` of a recheck. Its figures are not rounded.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub built: Option<Built>,
    /// What this answer says: the member `recorded` of a recheck.
    pub recorded: Recorded,
}

/// What an earlier answer said.
#[derive(Debug, Clone, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Recorded {
    /// Version of the service.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 64, example = "0.0.9")]
    pub engine_version: Option<String>,
    /// Number of its mechanics, `engine.model`; answers without one count as 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 10_000, example = 1)]
    pub engine_model: Option<u32>,
    /// Revision of the rule set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 32, example = "DE-1")]
    pub rules_revision: Option<String>,
    /// Verdict.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub verdict: Option<Verdict>,
    /// Highest utilisation.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 10_000, example = 0.81)]
    pub max_utilisation: Option<f64>,
    /// `job_key` of an earlier answer of any kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 64)]
    pub job_key: Option<String>,
    /// `input_digest` of an earlier recheck; it goes before `job_key`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 64)]
    pub input_digest: Option<String>,
}
