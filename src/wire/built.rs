//! Request: rails and hooks that exist, with what was found on the roof.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::provenance::FoundProvenance;
use crate::wire::enumeration::enumeration;

/// What was built.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Built {
    /// The rails.
    #[schema(min_items = 1, max_items = 10_000)]
    pub rails: Vec<BuiltRail>,
    /// The hooks, in any order.
    #[schema(max_items = 40_000)]
    pub hooks: Vec<BuiltHook>,
}

/// A rail. It carries the run of modules that lies over it.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct BuiltRail {
    /// Name; no two rails have the same.
    #[schema(min_length = 1, max_length = 64, example = "A1")]
    pub id: String,
    /// Height of a rail along the eaves above the eaves line, along the slope, mm: such a rail needs it, and one
    /// up the slope has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000, example = 1263.0)]
    pub y_mm: Option<f64>,
    /// Distance of the axis of a rail up the slope from the left end of the eaves line, mm: such a rail needs it,
    /// and one along the eaves has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000)]
    pub x_mm: Option<f64>,
    /// Left end, mm; of a rail up the slope its lower end. Assumed where a layout would end it: the module's
    /// edge and the end projection.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000, example = 760.0)]
    pub start_mm: Option<f64>,
    /// Right end, mm; of a rail up the slope its upper end. Assumed like the other.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000, example = 11_206.0)]
    pub end_mm: Option<f64>,
    /// Where its pieces meet, from left to right or upwards, mm. Assumed where equal bars no longer than the longest
    /// stock length meet; what a splice bears is not checked there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 200, minimum = -200_000, maximum = 200_000, example = json!([4160.0, 7660.0]))]
    pub splices_mm: Vec<f64>,
}

/// A hook.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct BuiltHook {
    /// Name; no two hooks have the same.
    #[schema(min_length = 1, max_length = 64, example = "A1-1")]
    pub id: String,
    /// Rail it holds.
    #[schema(min_length = 1, max_length = 64, example = "A1")]
    pub rail: String,
    /// Axis of the foot and of the rafter under it, from the left end of the eaves line, mm. It
    /// must lie within 25 mm of a rafter of the request, unless `found.rafter_x_mm` is given.
    #[schema(minimum = -200_000, maximum = 200_000, example = 862.0)]
    pub x_mm: f64,
    /// Height of its rail bolt above the eaves line, along the slope, mm: a hook under a rail up the slope needs
    /// it; under one along the eaves the rail tells it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000)]
    pub y_mm: Option<f64>,
    /// Where its arm leaves the covering, from the left end of the eaves line, mm. Assumed on the
    /// rafter's axis, or in the nearest trough of an interlocking tile; under a rail up the slope as far
    /// beside that as `axis_offset_mm` says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000, example = 877.0)]
    pub arm_x_mm: Option<f64>,
    /// Packers under the foot, mm. Assumed none.
    #[serde(default)]
    #[schema(max_items = 20, minimum = 0.1, maximum = 100, example = json!([3.0]))]
    pub packers_mm: Vec<f64>,
    /// Where the roof is not as the request draws it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub found: Option<Found>,
}

/// What was found at one hook; what is left out is as the request draws it.
#[derive(Debug, Clone, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Found {
    /// Axis of the rafter the foot is screwed to, mm; it takes the place of `x_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000, example = 2431.0)]
    pub rafter_x_mm: Option<f64>,
    /// Width of that rafter, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 20, maximum = 400, example = 80.0)]
    pub rafter_width_mm: Option<f64>,
    /// How the timber of that rafter was found. The worst that was found at any hook holds for the whole rafter:
    /// one that is split or rotten takes no other hook, and hooks on a rotten one count as carrying nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_condition: Option<RafterCondition>,
    /// Thickness of the counter-batten there, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 200, example = 24.0)]
    pub counter_batten_mm: Option<f64>,
    /// Measured clearance between arm and tile below, unloaded and with the packers in place, mm. It is
    /// measured where it is least, mostly at the lower end of the arm.
    /// Assumed from the geometry of the covering.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -100, maximum = 200, example = 6.0)]
    pub clearance_mm: Option<f64>,
    /// From the arm's axis to the nearest side joint of the course it leaves under, mm. Assumed from
    /// the grid of the covering.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1000, example = 12.0)]
    pub side_joint_mm: Option<f64>,
    /// The rail bolt in its slot, from the end nearer to the roof, mm; it must lie within the slot's
    /// range. Left out, each end of the slot is taken where it is worse.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 200, example = 14.0)]
    pub slot_mm: Option<f64>,
    /// Length of the screws that were used, mm; thread and diameter are those of the screw given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 20, maximum = 1000, example = 160.0)]
    pub screw_length_mm: Option<f64>,
    /// How these values are known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub provenance: Option<FoundProvenance>,
}

enumeration! {
    /// How the timber of a rafter was found.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RafterCondition {
        /// Looked at, and neither split nor rotten.
        Sound,
        /// Split or cracked where the screws go, or along the rafter: what they bear there no rule says.
        Split,
        /// Rotten, soft or eaten by insects: it holds no screw.
        Rotten,
    }
}
