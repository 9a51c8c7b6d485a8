//! What a maker's figures rest on: part of every part of a request, and what is made of it.

use crate::wire::enumeration::enumeration;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// What a figure of a part rests on.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Evidence {
    /// The figure: a JSON pointer (RFC 6901) inside the part.
    #[schema(min_length = 2, max_length = 64, example = "/resistance/lift_kn")]
    pub figure: String,
    /// What it rests on.
    pub by: EvidenceKind,
    /// The document that states it; needed for approvals and tests.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(
        nullable = false,
        min_length = 1,
        max_length = 200,
        example = "test report 7, page 3"
    )]
    pub document: Option<String>,
    /// The tests; needed for `by: test`, and only there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub series: Option<TestSeries>,
}

enumeration! {
    /// What a figure can rest on.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum EvidenceKind {
        /// The maker's word.
        Declared,
        /// A technical approval or assessment.
        Approval,
        /// A series of tests, from which the figure follows by EN 1990 Annex D.
        Test,
        /// The arm of the hook as a flat bar, from its section and grade.
        Bar,
    }
}

/// Results of tests on specimens that differ by chance alone, in the unit of the figure and under the
/// conditions of use.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct TestSeries {
    /// The results.
    #[schema(min_items = 1, max_items = 100, minimum = 0, maximum = 10_000_000, example = json!([3.4, 3.7, 3.2, 3.6, 3.5]))]
    pub values: Vec<f64>,
    /// How they are taken to scatter.
    pub distribution: TestDistribution,
    /// Coefficient of variation where it is known beforehand, from much experience of the same. Absent:
    /// that of the series, at least 0.10.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.01, maximum = 1, example = 0.08)]
    pub known_variation: Option<f64>,
    /// Partial factor between the characteristic value and the figure; needed where the figure is a
    /// design value, and only there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 3, example = 1.25)]
    pub partial_factor: Option<f64>,
}

enumeration! {
    /// How results scatter.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum TestDistribution {
        /// Evenly to both sides of the mean.
        Normal,
        /// As the logarithms of a normal distribution.
        Lognormal,
    }
}

enumeration! {
    /// Kinds of part whose maker can say what their figures rest on.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum PartKind {
        /// The roof hook.
        Hook,
        /// The wood screw.
        Screw,
        /// The rail.
        Rail,
        /// The module clamp.
        Clamp,
        /// The module.
        Module,
    }
}

impl PartKind {
    /// Name of the kind, as on the wire.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hook => "hook",
            Self::Screw => "screw",
            Self::Rail => "rail",
            Self::Clamp => "clamp",
            Self::Module => "module",
        }
    }
}

/// A figure, and what it rests on.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct EvidenceAnswer {
    /// Kind of part.
    pub part: PartKind,
    /// Field whose own module it is; absent for the parts of the job.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "B")]
    pub field: Option<String>,
    /// The figure: a JSON pointer inside the part.
    #[schema(example = "/resistance/lift_kn")]
    pub figure: &'static str,
    /// Its value, as the part states it.
    #[schema(example = 2.1)]
    pub stated: f64,
    /// What it rests on.
    pub by: EvidenceKind,
    /// The document.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub document: Option<String>,
    /// What the tests give; the figure is no more than that.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub tested: Option<TestedAnswer>,
}

/// What a series of tests gives.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TestedAnswer {
    /// Number of tests.
    pub tests: u64,
    /// Mean of the results.
    pub mean: f64,
    /// Coefficient of variation that counts.
    pub variation: f64,
    /// Factor `k_n` on it for the number of tests; of no effect on a stiffness, which is a mean.
    pub fractile_factor: f64,
    /// Characteristic value, 5 %.
    pub characteristic: f64,
    /// What the figure may be: the characteristic value, that over the partial factor, or of a stiffness
    /// the mean.
    pub bears: f64,
    /// Rule.
    #[schema(example = "EN 1990:2002+A1:2005 Annex D, D7.2")]
    pub clause: String,
}
