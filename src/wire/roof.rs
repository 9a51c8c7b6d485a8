//! Request: the roof, its timber and its covering.
//!
//! Roof-plane frame: stand outside facing the slope; the origin is the lower left end of the
//! eaves line, `x` runs along the eaves to the right, `y` up the slope in true length.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::distances::{EdgeDistance, PartyWall};
use super::phases::Unmeasured;
use super::provenance::RoofProvenance;
use super::shapes::{PointSchema, by_id};
use super::watertight::{HookPassage, MakersPitch, StatedPitch, Underlay};
use crate::wire::enumeration::enumeration;

/// A point of the roof plane, `[x, y]` in mm.
pub type Point = [f64; 2];

/// The roof slope that carries the array, and the building under it.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Roof {
    /// Form of the whole roof.
    pub form: RoofForm,
    /// Pitch of the rafters, degrees. Measure on a rafter: plain tiles lie flatter.
    #[schema(minimum = 5, maximum = 75, example = 42.0)]
    pub pitch_deg: f64,
    /// Height of the ridge above the ground, of a monopitch roof that of its upper edge, m: the reference
    /// height of the wind.
    #[schema(minimum = 2, maximum = 200, example = 8.2)]
    pub ridge_height_m: f64,
    /// Length of the building along the eaves, in plan, m. Of a house in a row its own: what runs on
    /// beyond its party walls is said in `party_walls`.
    #[schema(minimum = 2, maximum = 500, example = 12.4)]
    pub length_m: f64,
    /// Width of the building across the eaves, in plan, m. Of a lean-to its own.
    #[schema(minimum = 2, maximum = 200, example = 8.6)]
    pub width_m: f64,
    /// Outline of the slope, counter-clockwise, first point not repeated, mm. Assumed a rectangle over the
    /// building from eaves to ridge.
    #[schema(required = false, value_type = Vec<PointSchema>, min_items = 3, max_items = 100, example = json!([[0, 0], [12400, 0], [12400, 5786], [0, 5786]]))]
    pub outline_mm: Vec<Point>,
    /// What each side of the outline is; side `i` runs from point `i` to the next. Given with the outline
    /// or not at all.
    #[schema(required = false, min_items = 3, max_items = 100, example = json!(["eaves", "verge", "ridge", "verge"]))]
    pub edges: Vec<EdgeKind>,
    /// What stands at sides called `abutment`: snow drifts against it and slides off it. Of a side
    /// that is not among them no drift is computed, and the answer is incomplete.
    #[serde(default)]
    #[schema(max_items = 100)]
    pub abutments: Vec<Abutment>,
    /// What lies beyond sides called `valley`. Of a side that is not among them no drift is computed,
    /// and the answer is incomplete.
    #[serde(default)]
    #[schema(max_items = 100)]
    pub valleys: Vec<Valley>,
    /// What is known of sides called `party_wall`. Of one that is not among them the distance the array
    /// has to keep is not known, and roofs are taken to run on as far beyond it as the wind can feel.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 2)]
    pub party_walls: Vec<PartyWall>,
    /// How far the array has to stay from edges of the slope, by whatever rule holds. Where nothing is
    /// said of modules and a kind of edge other than walls, 300 mm is taken (common practice), and less
    /// is warned of.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 18)]
    pub edge_distances: Vec<EdgeDistance>,
    /// Chimneys, windows and the like on the slope. Assumed none.
    #[serde(default)]
    #[schema(max_items = 200)]
    pub obstacles: Vec<Obstacle>,
    /// The rafters.
    pub rafters: Rafters,
    /// What lies between rafter and tiling battens: in full, or the id of a usual build-up.
    #[schema(value_type = LayersChoice)]
    pub layers: Layers,
    /// The covering: in full, or the id of a usual one.
    #[schema(value_type = CoveringChoice)]
    pub covering: Covering,
    /// How what is said of the roof is known. Nothing is said in the answer of what is not marked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub provenance: Option<RoofProvenance>,
}

by_id!(
    /// Layers in full, or the id of a usual build-up.
    LayersChoice(Layers)
);
by_id!(
    /// A covering in full, or the id of a usual one.
    CoveringChoice(Covering)
);

enumeration! {
    /// Form of the whole roof.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RoofForm {
        /// Two slopes that meet at a ridge.
        Duopitch,
        /// One slope, whose upper edge is called `ridge`, or `abutment` where it leans against a wall.
        Monopitch,
        /// Slopes on all sides that meet at ridge and hips. The building is as long as the eaves of the slope
        /// in question, so a hip end has length and width the other way round.
        Hipped,
    }
}

enumeration! {
    /// What a side of the outline is.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum EdgeKind {
        /// Lower edge.
        Eaves,
        /// Side edge at a gable.
        Verge,
        /// Upper edge, where two slopes meet.
        Ridge,
        /// Outer corner of two slopes.
        Hip,
        /// Inner corner of two slopes.
        Valley,
        /// A wall against a taller building.
        Abutment,
        /// The wall a house in a row shares with its neighbour, at the left or right end of the slope. Wind
        /// zones along it are those of a verge.
        PartyWall,
    }
}

/// The taller building at a side called `abutment`, or the wall alone that rises above the covering at
/// a side called `party_wall`: at most 1 m, with no width and no pitch of a taller roof.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Abutment {
    /// The side of the outline, counted from 0.
    #[schema(minimum = 0, maximum = 99, example = 2)]
    pub side: u32,
    /// Height of its wall above the covering, where it is greatest, m: up to the eaves of the taller
    /// roof.
    #[schema(minimum = 0, maximum = 200, example = 2.5)]
    pub height_m: f64,
    /// The same where it is least, m. Assumed as much along eaves or ridge, and 0 along a verge, where
    /// the greatest drift of any height between counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 200, example = 2.5)]
    pub least_height_m: Option<f64>,
    /// Width of the taller roof square to the wall, in plan, m.
    #[schema(minimum = 0, maximum = 500, example = 8.0)]
    pub upper_width_m: f64,
    /// Pitch of its slope that falls towards the wall, degrees; 0 where none does.
    #[schema(minimum = 0, maximum = 75, example = 10.0)]
    pub upper_pitch_deg: f64,
    /// Length of that slope in plan, m: above 15° half of the snow on it slides down. Assumed as much as
    /// the width of the taller roof.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 500, example = 4.0)]
    pub upper_run_m: Option<f64>,
}

/// The slope beyond a side called `valley`.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Valley {
    /// The side of the outline, counted from 0.
    #[schema(minimum = 0, maximum = 99, example = 1)]
    pub side: u32,
    /// Pitch of the slope on the other side of the valley, degrees.
    #[schema(minimum = 0, maximum = 75, example = 38.0)]
    pub other_pitch_deg: f64,
}

/// Something on the slope that modules keep away from.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Obstacle {
    /// What it is.
    pub kind: ObstacleKind,
    /// Its outline, counter-clockwise, mm.
    #[schema(value_type = Vec<PointSchema>, min_items = 3, max_items = 100)]
    pub outline_mm: Vec<Point>,
    /// Strip around it that stays free of modules, mm. Assumed 0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 5000, example = 200.0)]
    pub clearance_mm: Option<f64>,
    /// How far it stands out above the covering, mm: snow drifts against what is 500 mm high and 1 m
    /// wide or more. Absent: a window, a guard, a step iron or an aerial is taken as low; anything
    /// else that is wide enough makes the answer incomplete where modules lie beside it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 20_000, example = 900.0)]
    pub height_mm: Option<f64>,
    /// Shape coefficient of the snow at it, by who answers for local conditions (EN 1991-1-3 6.2(2)).
    /// Absent: by that clause up to a pitch of 15°; on steeper roofs the clause does not apply, and
    /// the answer is incomplete.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.8, maximum = 10, example = 1.2)]
    pub drift_shape_factor: Option<f64>,
    /// Rafters it cuts, counted from 0 at the left. Assumed for a chimney, a window, a dormer, something else, and a pipe more than 150 mm wide: all
    /// whose timber does not clear the outline by 20 mm on either side. Other kinds: none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_items = 600, minimum = 0, maximum = 599, example = json!([15]))]
    pub cuts_rafters: Option<Vec<u32>>,
    /// True where somebody looked and it cuts none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub cuts_no_rafter: Option<bool>,
}

enumeration! {
    /// Kinds of obstacle.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    #[expect(missing_docs, reason = "the names are the trade's own")]
    pub enum ObstacleKind {
        Chimney,
        RoofWindow,
        Dormer,
        Vent,
        Flue,
        SnowGuard,
        StepIron,
        Aerial,
        Other,
    }
}

/// The rafters: measured `positions_mm`, or `first_mm`, `spacing_mm` and `count`. Before the tiles are off
/// `unmeasured`, with `spacing_mm` where that is known.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Rafters {
    /// Measured axis of every rafter, from left to right, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, min_items = 2, max_items = 600, minimum = -200_000, maximum = 200_000, example = json!([90.0, 862.0, 1640.0]))]
    pub positions_mm: Option<Vec<f64>>,
    /// Axis of the first rafter, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000, example = 50.0)]
    pub first_mm: Option<f64>,
    /// Centres of equally spaced rafters, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 100, maximum = 5000, example = 600.0)]
    pub spacing_mm: Option<f64>,
    /// Number of equally spaced rafters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 2, maximum = 600, example = 16)]
    pub count: Option<u32>,
    /// Says that nobody has seen yet where they stand.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub unmeasured: Option<Unmeasured>,
    /// Breadth of a rafter, mm.
    #[schema(minimum = 20, maximum = 500, example = 100.0)]
    pub width_mm: f64,
    /// Depth of a rafter, mm.
    #[schema(minimum = 40, maximum = 1000, example = 160.0)]
    pub depth_mm: f64,
    /// Strength class of EN 338. Assumed C16.
    #[schema(required = false)]
    pub strength_class: StrengthClass,
    /// Longest free span of a rafter between its supports, measured along the slope, m.
    /// Absent: the rafter is not verified, only its forces are reported.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0.5, maximum = 20, example = 3.4)]
    pub span_m: Option<f64>,
    /// Whether they are the upper chords of nail-plate trusses, which nobody drills or loads without
    /// their designer. Assumed not.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub trussed: Option<bool>,
    /// Permanent load of covering, battens and rafters per area of slope, kN/m². Assumed by
    /// kind of covering.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 5, example = 0.85)]
    pub existing_load_kn_per_m2: Option<f64>,
    /// Rafters that take no hook, counted from 0 at the left: one that is rotten, cracked or out of
    /// reach. What they carry of the roof stays as it is.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 600, minimum = 0, maximum = 599, example = json!([7]))]
    pub barred: Vec<u32>,
}

enumeration! {
    /// Strength classes of softwood, EN 338.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, ToSchema)]
    #[expect(missing_docs, reason = "the names are the standard's own")]
    pub enum StrengthClass {
        C16,
        C18,
        C20,
        C22,
        C24,
        C27,
        C30,
        C35,
        C40,
    }
}

/// What lies between rafter and tiling battens, and where the foot of the hook stands.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Layers {
    /// Thickness of the counter-batten, 0 where there is none, mm.
    #[schema(minimum = 0, maximum = 200, example = 30.0)]
    pub counter_batten_mm: f64,
    /// Width of the counter-batten, where the foot stands on one, mm. Assumed 50.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 20, maximum = 200, example = 50.0)]
    pub counter_batten_width_mm: Option<f64>,
    /// Thickness of boarding on the rafters, mm.
    #[schema(minimum = 0, maximum = 100, example = 0.0)]
    pub boarding_mm: f64,
    /// Thickness of insulation above the rafters, mm.
    #[schema(minimum = 0, maximum = 500, example = 0.0)]
    pub insulation_mm: f64,
    /// The face the foot of the hook stands on.
    pub foot_bears_on: BearingFace,
    /// Strength class of the timber the foot stands on, where that is not the rafter. Assumed C24, or
    /// that of the rafters if it is lower.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub bearing_strength_class: Option<StrengthClass>,
}

enumeration! {
    /// The face the foot of the hook stands on.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    #[expect(missing_docs, reason = "the names are the trade's own")]
    pub enum BearingFace {
        Rafter,
        Boarding,
        CounterBatten,
    }
}

/// The covering.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Covering {
    /// Kind of covering and way of laying.
    pub kind: CoveringKind,
    /// One tile or slate.
    pub tile: Tile,
    /// Width of the open side joint between neighbours, mm.
    #[schema(minimum = 0, maximum = 30, example = 3.0)]
    pub joint_mm: f64,
    /// Width one tile covers, mm; needed for interlocking tiles. Others: tile width plus joint.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 50, maximum = 1000, example = 300.0)]
    pub cover_width_mm: Option<f64>,
    /// Distance from one visible tail edge to the next up the slope, mm.
    #[schema(minimum = 40, maximum = 1000, example = 155.0)]
    pub gauge_mm: f64,
    /// Tail edge of the first full course above the eaves line, mm.
    #[schema(minimum = -1000, maximum = 5000, example = 210.0)]
    pub first_course_mm: f64,
    /// The tiling batten.
    pub batten: Batten,
    /// How side joints of neighbouring courses lie.
    pub bond: Bond,
    /// A side joint of the first course, from the left end of the eaves line, mm.
    #[schema(minimum = -10_000, maximum = 10_000, example = 0.0)]
    pub joint_origin_mm: f64,
    /// Troughs of an interlocking tile, from its left joint, mm: where an arm can leave.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, min_items = 1, max_items = 8, minimum = 0, maximum = 1000, example = json!([75.0, 225.0]))]
    pub trough_offsets_mm: Option<Vec<f64>>,
    /// Rule pitch by the rules of the roofers' trade.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub guild_pitch: Option<StatedPitch>,
    /// Rule pitch by the maker of the tiles or slates. Where both are given the steeper governs, unless
    /// the maker's is agreed in the contract. Where neither is given, one is assumed by the kind of
    /// covering: 30° for flat tiles, 22° for slates and interlocking tiles (common practice).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub maker_pitch: Option<MakersPitch>,
    /// What keeps water out under the covering. It decides where the roof is flatter than the rule pitch;
    /// left out, the answer is then incomplete.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub underlay: Option<Underlay>,
    /// How hooks pass through the covering. It decides where the roof is flatter than the rule pitch;
    /// there assumed `headlap`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub hook_passage: Option<HookPassage>,
}

enumeration! {
    /// Kind of covering and way of laying.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum CoveringKind {
        /// Flat tiles, one course on each batten, three layers in the headlap.
        PlainTileDoubleLap,
        /// Flat tiles, two courses on each batten. The gauge is the distance of the battens.
        PlainTileCrown,
        /// Slates laid double-lap.
        SlateDoubleLap,
        /// Tiles that interlock at side and head.
        Interlocking,
    }
}

/// One tile or slate.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Tile {
    /// Overall length, mm.
    #[schema(minimum = 100, maximum = 1500, example = 380.0)]
    pub length_mm: f64,
    /// Overall width, mm.
    #[schema(minimum = 50, maximum = 1000, example = 180.0)]
    pub width_mm: f64,
    /// Thickness of the body where the arm passes, mm.
    #[schema(minimum = 3, maximum = 60, example = 14.0)]
    pub thickness_mm: f64,
    /// Rise of the tile's middle above its ends, mm.
    #[schema(minimum = 0, maximum = 30, example = 0.0)]
    pub camber_mm: f64,
    /// How far its head stands above the upper edge of its batten, mm. Assumed 15, interlocking 0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 60, example = 15.0)]
    pub head_projection_mm: Option<f64>,
    /// Middles of its nibs from its left edge, mm. Assumed one in the middle of a plain tile, none of a
    /// slate; of no consequence for interlocking tiles.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_items = 4, minimum = 0, maximum = 1000, example = json!([90.0]))]
    pub nib_offsets_mm: Option<Vec<f64>>,
    /// True where a plain tile has no nibs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub without_nibs: Option<bool>,
}

/// The tiling batten.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Batten {
    /// Thickness square to the roof, mm.
    #[schema(minimum = 10, maximum = 120, example = 30.0)]
    pub thickness_mm: f64,
    /// Width along the slope, mm.
    #[schema(minimum = 15, maximum = 200, example = 50.0)]
    pub width_mm: f64,
}

enumeration! {
    /// How side joints of neighbouring courses lie.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Bond {
        /// One above the other.
        Straight,
        /// Shifted by half a tile from course to course.
        Half,
    }
}
