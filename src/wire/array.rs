//! Request: modules, fields of modules, also as they were filled, and the caller's wishes.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::evidence::Evidence;
use super::filling::Fill;
use super::parts::OrderWishes;
use super::shapes::{CellSchema, PointSchema};
use crate::wire::enumeration::enumeration;

/// The array.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ModuleArray {
    /// The module of every field that names none of its own; there is one: in full, or the id of an
    /// illustrative one.
    #[schema(value_type = ModuleChoice)]
    pub module: Module,
    /// Way the rails run. Assumed along the eaves.
    #[schema(required = false)]
    pub rail_direction: RailDirection,
    /// Which hooks hold a rail up the slope along its axis. Assumed all of them; only for `up_slope`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rails_held_by: Option<RailsHeldBy>,
    /// Fields of modules.
    #[schema(min_items = 1, max_items = 50)]
    pub fields: Vec<ModuleField>,
}

/// A module in full, or the id of an illustrative one.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(untagged)]
pub enum ModuleChoice {
    /// Id of a usual one, see `GET /v1/usual`.
    Id(String),
    /// In full.
    Inline(Box<Module>),
}

enumeration! {
    /// Way the rails run.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RailDirection {
        /// Along the eaves, two rails under each row of modules.
        AlongEaves,
        /// Up the slope, two rails under each column of modules, each over a rafter: for modules whose long sides
        /// lie along the eaves.
        UpSlope,
        /// In two layers that cross: lower rails up the slope on the hooks, each over a rafter, and on them upper
        /// rails along the eaves, two under each row of modules wherever these are best clamped. Both are of the
        /// one rail of the components. For layouts; rechecks, surveys, events, capacities and what is kept do not
        /// take them.
        Crossing,
    }
}

enumeration! {
    /// Which hooks hold a rail up the slope along its axis.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RailsHeldBy {
        /// All its hooks, which share the force down the slope by their stiffness.
        AllHooks,
        /// The lowest hook alone. It takes the whole force down the slope; on all others the rail may slide, so that
        /// it grows and shrinks with the temperature.
        LowestHook,
        /// The highest hook alone, in the same way.
        HighestHook,
    }
}

/// A module.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Module {
    /// Long side, mm.
    #[schema(minimum = 300, maximum = 3000, example = 1762.0)]
    pub length_mm: f64,
    /// Short side, mm.
    #[schema(minimum = 300, maximum = 3000, example = 1134.0)]
    pub width_mm: f64,
    /// Height of the frame, mm.
    #[schema(minimum = 3, maximum = 100, example = 30.0)]
    pub thickness_mm: f64,
    /// Mass, kg.
    #[schema(minimum = 1, maximum = 100, example = 21.5)]
    pub mass_kg: f64,
    /// Where clamps may hold the long side: nearest and farthest distance from either end, mm.
    #[schema(value_type = Vec<f64>, min_items = 2, max_items = 2, minimum = 0, maximum = 3000, example = json!([250.0, 550.0]))]
    pub clamp_zone_mm: [f64; 2],
    /// The same for the short side, for modules laid landscape on rails along the eaves, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, value_type = Option<Vec<f64>>, min_items = 2, max_items = 2, minimum = 0, maximum = 3000, example = json!([150.0, 350.0]))]
    pub short_side_clamp_zone_mm: Option<[f64; 2]>,
    /// Design pressure the module takes, kN/m².
    #[schema(minimum = 0.1, maximum = 20, example = 3.6)]
    pub press_capacity_kn_per_m2: f64,
    /// Design suction the module takes, kN/m².
    #[schema(minimum = 0.1, maximum = 20, example = 1.6)]
    pub lift_capacity_kn_per_m2: f64,
    /// What its figures rest on, one entry a figure. What is not among them rests on nothing that is
    /// stated.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub evidence: Vec<Evidence>,
}

/// A field of equal modules: where its rows and columns lie, or that it is to be filled.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ModuleField {
    /// Name of the field; rails and hooks are named after it. Assumed A, B and so on.
    #[schema(required = false, min_length = 1, max_length = 16, example = "A")]
    pub id: String,
    /// The module, where it is not that of the array: in full, or the id of an illustrative one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub module: Option<ModuleChoice>,
    /// Lower left corner of the first module, mm. Assumed so that the only field of a roof without an
    /// outline lies in the middle of the slope. A field with `fill` has none.
    #[serde(default)]
    #[schema(required = false, value_type = PointSchema, example = json!([800.0, 900.0]))]
    pub origin_mm: [f64; 2],
    /// Rows, counted up the slope. Required but for a field with `fill`, which has none.
    #[serde(default)]
    #[schema(required = false, minimum = 1, maximum = 100, example = 2)]
    pub rows: u32,
    /// Columns, counted to the right. Required but for a field with `fill`, which has none.
    #[serde(default)]
    #[schema(required = false, minimum = 1, maximum = 200, example = 9)]
    pub columns: u32,
    /// How the modules stand. Assumed portrait.
    #[schema(required = false)]
    pub orientation: Orientation,
    /// Gap between neighbours in a row, mm. Assumed what the clamp between them takes.
    #[schema(required = false, minimum = 0, maximum = 1000, example = 20.0)]
    pub column_gap_mm: f64,
    /// Gap between rows, mm. Assumed 20 (common practice).
    #[schema(required = false, minimum = 0, maximum = 5000, example = 20.0)]
    pub row_gap_mm: f64,
    /// Modules left out, each `[row, column]` counted from 0. Assumed none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(value_type = Vec<CellSchema>, max_items = 5000, example = json!([[1, 5]]))]
    pub omitted: Vec<[u32; 2]>,
    /// How far each row lies to the right of where its columns would stand one above the other, mm; negative
    /// to the left. One for each row. Assumed that no row is shifted.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 100, minimum = -200_000, maximum = 200_000, example = json!([0.0, 577.0]))]
    pub row_shifts_mm: Vec<f64>,
    /// That the field is filled with as many modules as fit, in place of `origin_mm`, `rows`, `columns`,
    /// `omitted` and `row_shifts_mm`. Only in a request for a layout, whose answer says under `fields` what
    /// came of it: what stands on a roof is surveyed and checked again as it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub fill: Option<Fill>,
}

/// A field that was filled.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct FilledField {
    /// Its place in `array.fields` of the request, counted from 0.
    pub place: u64,
    /// Modules it has.
    #[schema(example = 23)]
    pub modules: u64,
    /// The field with its rows and columns. In its place a request for the same layout, a survey or a recheck
    /// says where the modules lie.
    pub field: ModuleField,
}

enumeration! {
    /// How modules stand.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Orientation {
        /// Long side up the slope.
        Portrait,
        /// Long side along the eaves.
        Landscape,
    }
}

/// What the caller wants of the layout. Every wish has a default, which the answer lists.
#[derive(Debug, Clone, PartialEq, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Wishes {
    /// What to aim for. Assumed `fewest_hooks`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub objective: Option<Objective>,
    /// Largest utilisation allowed anywhere. Assumed 1.0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.1, maximum = 1, example = 1.0)]
    pub max_utilisation: Option<f64>,
    /// Least clearance between arm and tile below, unloaded, mm. Assumed 5 (common practice).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 50, example = 5.0)]
    pub min_clearance_mm: Option<f64>,
    /// Least room between arm and tile above, mm. Assumed 3 (common practice).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 50, example = 3.0)]
    pub min_room_above_mm: Option<f64>,
    /// Where arms stand under tiles that let them out anywhere. Assumed `towards_side_joint`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub arm_position: Option<ArmPosition>,
    /// Most hook patterns the search may weigh for one rail segment before it answers with the
    /// best found and a lower bound. Assumed 200 000, or 20 000 where one hook holds a rail up the slope. All segments of a job together may take some
    /// 50 million steps besides, one for each hook of a pattern that is looked at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 20_000_000, example = 200_000)]
    pub search_limit: Option<u64>,
    /// What the order and the cutting of the rails should look like.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub order: Option<OrderWishes>,
}

enumeration! {
    /// Where arms stand under tiles that let them out anywhere; under interlocking tiles they stand in
    /// troughs.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ArmPosition {
        /// As near to a side joint of the tile they leave under as the foot allows and as makes no hook
        /// and no rail more used than the most used one.
        TowardsSideJoint,
        /// On the axis of the rafter.
        RafterAxis,
    }
}

enumeration! {
    /// What the layout aims for.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Objective {
        /// As few hooks as provably pass, for this position of the field, these parts and this pattern.
        FewestHooks,
        /// The same number of rafters from hook to hook along a rail, fewest hooks under that rule.
        EvenSpacing,
        /// The two rails of a row take alternate rafters, save the outermost, which may hold both;
        /// fewest hooks under that rule.
        Staggered,
        /// All rails of a field along the eaves take the same rafters, wherever they lie over them, so that one
        /// line is struck for each rafter; fewest hooks of all these rails under that rule.
        SameRafters,
    }
}
