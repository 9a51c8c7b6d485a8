//! How much snow and wind a job bears: an answer on request, and the event of a recheck.

use crate::wire::enumeration::enumeration;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// How much of each load the hooks bear before the first limit, the other load as the job has it.
///
/// Of each scope: the largest value such that from the job's value up to it every check of the scope
/// keeps its limit; where a check is over its limit at the job's value already, the largest lower value
/// at which none is. What the rolling of feet adds to hooks and rails (`foot.roll-not-carried`) counts,
/// and is held against all of their resistance. Combinations leave out what relieves a check, so a scope
/// holds at lower values, too; under drifts, whose shape changes with the snow, that is not proven.
/// Drifts and exceptional snow follow from the snow on the ground. Hooks, feet and parts stay as they
/// are; resistances are design values.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CapacityAnswer {
    /// Snow on the ground.
    pub ground_snow: LoadCapacity,
    /// Peak velocity pressure of a gust at ridge height.
    pub peak_pressure: LoadCapacity,
}

/// How much of one load the job bears.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct LoadCapacity {
    /// What the job is computed with, kN/m².
    pub of_the_job_kn_per_m2: f64,
    /// Greatest value looked at, kN/m².
    pub greatest_kn_per_m2: f64,
    /// As characteristic values, in the combinations of the rules with their partial factors.
    pub characteristic: Vec<ScopeCapacity>,
    /// With every partial factor 1, in the same combinations, the other load with its combination
    /// factor: what may be observed. It leaves no margin on the load.
    pub observed: Vec<ScopeCapacity>,
}

/// How much of a load a scope bears.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ScopeCapacity {
    /// The scope.
    pub scope: CapacityScope,
    /// What can be said.
    pub outcome: CapacityOutcome,
    /// Every check of the scope was run. Where it is false the load is that of the checks that were, and
    /// another may come first: `warnings` name those that were not.
    pub complete: bool,
    /// The load, kN/m², rounded down to 0.0001; with `limited` alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = 2.31)]
    pub load_kn_per_m2: Option<f64>,
    /// Of snow: the even load on the roof it stands for, per area on plan, kN/m².
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = 1.85)]
    pub on_roof_kn_per_m2: Option<f64>,
    /// The check that passes its limit next: one of `checks`, or `splice`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "screws")]
    pub check: Option<String>,
    /// The hook, rail, module or rafter it is of.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "A2-3")]
    pub element: Option<String>,
    /// The combination that governs there.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "uls:G+S")]
    pub combination: Option<String>,
    /// What to look at first under that load, the most used first; five at most.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(nullable = false)]
    pub inspect_first: Vec<InspectedElement>,
}

enumeration! {
    /// A scope with checks that loads can bring to their limit.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum CapacityScope {
        /// Hook, screws, foot, bolt, clearance.
        Fixing,
        /// The rails and their splices.
        Rail,
        /// The modules and their clamps.
        Modules,
        /// The rafters.
        Rafters,
    }
}

enumeration! {
    /// What can be said of the load a scope bears.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum CapacityOutcome {
        /// It bears the load named.
        Limited,
        /// No limit is passed up to the greatest value looked at.
        NoLimitFound,
        /// A limit is passed whatever the load.
        Never,
        /// The scope fails for a reason that is no matter of loads, so no load is named.
        FailsOtherwise,
        /// No check of the scope was run.
        NotChecked,
        /// The steps of the job were spent before it was known: ask for a part of the roof.
        Undecided,
    }
}

/// Something to look at.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct InspectedElement {
    /// The hook, rail, module or rafter.
    #[schema(example = "A2-3")]
    pub element: String,
    /// Its check that is used most.
    #[schema(example = "screws")]
    pub check: String,
    /// How far, in a statement of capacity with what the rolling of feet adds, rounded up in the fourth decimal.
    pub utilisation: f64,
}

/// What was observed on or near the roof: give the snow in one of two ways, or the gust, or both. What
/// is not given did not act.
///
/// The job is then checked for it with every factor 1 and against its design resistances: alone and
/// together, for strength and for serviceability, snow and wind in the duration classes the rules give
/// them. That says whether what happened was within the resistances; it does not say that the job bears
/// what its site is designed for.
#[derive(Debug, Clone, Copy, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Event {
    /// Snow on the ground, kN/m²: how much lies on the roof follows by shape, exposure and heat.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 30, example = 0.9)]
    pub ground_snow_kn_per_m2: Option<f64>,
    /// Snow on the roof per area on plan, kN/m², as weighed where it lay evenly.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 30, example = 0.7)]
    pub snow_on_roof_kn_per_m2: Option<f64>,
    /// Peak velocity pressure of the gust at ridge height, kN/m².
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 10, example = 0.5)]
    pub peak_pressure_kn_per_m2: Option<f64>,
}

/// Whether what happened was within the resistances.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct EventAnswer {
    /// No check that was run passed its limit, with what the rolling of feet adds; the verdict tells what
    /// was not run.
    pub within_resistances: bool,
    /// Snow on the ground it was judged by, kN/m².
    pub ground_snow_kn_per_m2: f64,
    /// The same evenly on the roof, per area on plan, kN/m².
    pub snow_on_roof_kn_per_m2: f64,
    /// Peak pressure it was judged by, kN/m².
    pub peak_pressure_kn_per_m2: f64,
    /// The characteristic snow on the ground of the site, kN/m².
    pub site_ground_snow_kn_per_m2: f64,
    /// The peak pressure of the site, kN/m².
    pub site_peak_pressure_kn_per_m2: f64,
    /// Every hook, the most used first.
    pub inspect_first: Vec<InspectedElement>,
}
