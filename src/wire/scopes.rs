//! What a verdict is asked on, and the verdict by scope.

use crate::wire::enumeration::enumeration;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

enumeration! {
    /// A scope of the verdict.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ScopeName {
        /// Hook, screws, foot, clearance.
        Fixing,
        /// The rails.
        Rail,
        /// The modules and their clamps.
        Modules,
        /// The rafters.
        Rafters,
        /// Whether the hook fits the courses, and what becomes of the tiles.
        Covering,
        /// What was assumed, invented or not measured.
        Data,
    }
}

enumeration! {
    /// The judgement on one scope.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ScopeVerdict {
        /// Every check passes and nothing needs attention.
        Holds,
        /// Every check passes or is taken over by a declaration; read the warnings and declarations.
        HoldsWithWarnings,
        /// A check fails.
        Fails,
        /// Something that decides could not be verified.
        Incomplete,
        /// Not asked: nothing is said of it.
        NotAssessed,
    }
}

/// The verdict by scope. The whole is the worst of those that were assessed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
pub struct Verdicts {
    /// Hook, screws, foot, clearance.
    pub fixing: ScopeVerdict,
    /// The rails.
    pub rail: ScopeVerdict,
    /// The modules and their clamps.
    pub modules: ScopeVerdict,
    /// The rafters.
    pub rafters: ScopeVerdict,
    /// Whether the hook fits the courses, and what becomes of the tiles.
    pub covering: ScopeVerdict,
    /// What was assumed, invented or not measured.
    pub data: ScopeVerdict,
}
