//! Before the tiles are off: rafters nobody has seen yet, and what a layout comes to wherever the first of
//! them stands.
//!
//! A *phase* is a place of the first rafter, counted from the left end of the slope; rafters at equal
//! centres are the same again one spacing further on.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::parts::PartLine;
use super::remarks::Verdict;
use crate::wire::enumeration::enumeration;

/// Rafters that nobody has seen yet. They are taken to stand at equal centres from one end of the slope to
/// the other. Layouts are made with the first of them in many places; the answer says in `phases` what they
/// come to and which order suffices for all that do not fail. Of places between those it says nothing, and
/// it is incomplete until the rafters are measured.
///
/// For layouts of one slope only, and for those only in which nothing is there already. Nothing may name
/// a rafter by its number. What would lift a failing check is not tried: ask for the phase by itself.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
#[schema(example = json!({"known": "spacing", "step_mm": 50.0}))]
pub struct Unmeasured {
    /// What is known of them.
    pub known: KnownOfRafters,
    /// Centres to look at, where they are not known, mm. Assumed 600, 700 and 800: common practice on houses;
    /// older roofs have others.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 10, minimum = 100, maximum = 5000, example = json!([600.0, 700.0, 800.0]))]
    pub spacings_mm: Vec<f64>,
    /// From one place of the first rafter to the next that is looked at, mm; less than the spacing. Assumed 50.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 2500, example = 50.0)]
    pub step_mm: Option<f64>,
    /// Axis of the first rafter in the layout that is shown in full, where centres are known, mm: no further
    /// from the left end of the slope than one spacing. It is looked at beside the others. Absent: that
    /// which needs the most hooks of those that do not fail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000, example = 320.0)]
    pub shown_first_mm: Option<f64>,
}

enumeration! {
    /// What is known of rafters that nobody has seen yet.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum KnownOfRafters {
        /// Their centres, in `spacing_mm`, and not where the first one stands.
        Spacing,
        /// Not even their centres: a first estimate.
        Nothing,
    }
}

/// What layouts come to wherever the first rafter stands, at the places looked at and at no others.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PhasesAnswer {
    /// From one place of the first rafter to the next, mm.
    #[schema(example = 50.0)]
    pub step_mm: f64,
    /// How many phases fail. The others may be incomplete, or hold with warnings: see the verdict of each.
    pub failing: u64,
    /// Fewest hooks of a phase that does not fail; absent where every one fails.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub least_hooks: Option<u64>,
    /// Most hooks of a phase that does not fail; absent where every one fails.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub most_hooks: Option<u64>,
    /// The phase that needs the fewest hooks of those that do not fail, by its index in `phases`; of
    /// equals that with the lowest utilisation.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub best: Option<u64>,
    /// The phase that needs the most hooks of those that do not fail, by its index in `phases`; of equals
    /// that with the highest utilisation.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub worst: Option<u64>,
    /// The phase whose layout is shown, by its index in `phases`.
    pub shown: u64,
    /// Why that one.
    pub shown_because: ShownBecause,
    /// An order that suffices for every phase looked at that does not fail: of each line the most that any
    /// of them needs. Absent where every phase fails. The cutting plan in `parts` is that of the phase
    /// shown; the others cut the same bars in other ways.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(required = false)]
    pub order: Vec<PartLine>,
    /// Every phase looked at, by spacing and first rafter.
    pub phases: Vec<PhaseAnswer>,
}

enumeration! {
    /// Why the layout of one phase is shown and not that of another.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ShownBecause {
        /// The request asks for it.
        Asked,
        /// It needs the most hooks of those that do not fail.
        MostHooks,
        /// Every phase fails; it needs the most hooks of all.
        AllFail,
    }
}

/// One phase: the rafters as another request has them, and what it would be answered.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PhaseAnswer {
    /// Axis of the first rafter, mm.
    #[schema(example = 320.0)]
    pub first_mm: f64,
    /// Centres of the rafters, mm.
    #[schema(example = 800.0)]
    pub spacing_mm: f64,
    /// Rafters on the slope.
    #[schema(example = 16)]
    pub count: u64,
    /// Verdict on the layout with rafters there.
    pub verdict: Verdict,
    /// Hooks of that layout.
    pub hooks: u64,
    /// Its highest utilisation.
    pub utilisation: f64,
    /// Code of what fails first, where something does.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "rail.free-end-too-long")]
    pub fails_by: Option<&'static str>,
    /// Whether a limit ended its search: fewer hooks may do.
    pub cut_short: bool,
}
