//! Checks that could not run: what is to be done, and who answers for them.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::scopes::ScopeName;
use crate::wire::enumeration::enumeration;

/// Somebody answers for a check that cannot run here. Its scopes then hold with warnings at best. A
/// check that runs and fails stays a failure, whatever is declared.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Declaration {
    /// Code of the finding it takes over: `missing` of an answer names it, and
    /// `GET /v1/warnings` says what its `acts` are.
    #[schema(min_length = 1, max_length = 64, example = "clearance.stiffness-unknown")]
    pub check: String,
    /// On what ground.
    pub by: DeclaredBy,
    /// Who answers for it.
    #[schema(min_length = 1, max_length = 200, example = "structural engineer of the building")]
    pub who: String,
    /// The document in which he does.
    #[schema(min_length = 1, max_length = 200, example = "letter S-12, page 2")]
    pub document: String,
}

enumeration! {
    /// Ground of a declaration.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum DeclaredBy {
        /// Tests were made.
        Tested,
        /// An approval covers it.
        Approved,
        /// Somebody else verifies it.
        OtherParty,
        /// It does not arise in this job.
        NotApplicable,
    }
}

/// A declaration, and what it took over: no check of this service stands behind that.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct TakenOver {
    /// Code of the finding.
    #[schema(example = "clearance.stiffness-unknown")]
    pub check: &'static str,
    /// Scopes of the verdict that hold with warnings at best for it.
    #[schema(example = json!(["fixing"]))]
    pub scopes: Vec<ScopeName>,
    /// On what ground.
    pub by: DeclaredBy,
    /// Who answers for it.
    pub who: String,
    /// The document.
    pub document: String,
    /// What was not verified, a sentence for each place.
    pub instead_of: Vec<String>,
}

enumeration! {
    /// What has to be done before a check can run, or is settled without it.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Act {
        /// Measure or look at something on the roof, and say what is there.
        Measure,
        /// Ask the maker of a part for a figure, or take it from the part's approval.
        AskMaker,
        /// Ask a structural engineer for a figure he answers for.
        AskEngineer,
        /// Look up what holds on the site.
        LookUp,
        /// Change the job.
        Change,
        /// Have somebody answer for it, and declare that.
        Declare,
        /// Have it tested or approved, and declare that: nobody's word does for less.
        Prove,
    }
}
