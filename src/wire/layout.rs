//! `POST /v1/layouts`: request and answer.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::actions::Actions;
use super::array::{FilledField, ModuleArray, Wishes};
use super::built::Built;
use super::capacity::CapacityAnswer;
use super::components::Components;
use super::declarations::{Declaration, TakenOver};
use super::evidence::EvidenceAnswer;
use super::kinds::LayoutTag;
use super::parts::PartsAnswer;
use super::phases::PhasesAnswer;
use super::provenance::{Assumption, Engine, TraceLine, WeakestProvenance};
use super::record::Record;
use super::remarks::{Cause, Caution, MissingInput, Verdict, Warning};
use super::remedies::Remedies;
use super::roof::Roof;
use super::room::{RoomToMove, RoomWanted};
use super::savings::Savings;
use super::scopes::{ScopeName, Verdicts};
use super::shapes::PointSchema;
use super::site::{RulesChoice, Site};
pub use super::utilisation::JobUtilisation;
use super::watertight::RulePitchAnswer;
use crate::wire::enumeration::enumeration;
use crate::wire::envelope::{job_answer, job_request};

job_request! {
    /// A job: one slope, one array, one set of parts.
    #[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
    #[serde(deny_unknown_fields)]
    pub struct LayoutRequest {
        /// What the caller wants of the layout.
        wishes,
        asks {
            /// Say how much snow and wind the hooks bear. Only where it is true: it costs some twenty times the
            /// checks of the job.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false, example = true)]
            pub capacity: Option<bool>,
            /// Whether to try what would lift the failing checks of a layout that fails. Absent: it is tried.
            /// False saves the time, such as in a batch that only sorts roofs.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false, example = true)]
            pub remedies: Option<bool>,
            /// Say what one change of the job would save, in hooks and in tiles that come off, and what one hook
            /// fewer would mean on each rail. Only where it is true: the job is laid out some twenty times.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false, example = true)]
            pub savings: Option<bool>,
            /// Say how far each hook may stand from where it is set out, all others where they are, and whether the
            /// layout bears rafters that are off by a tolerance. Each hook is tried up to fifty times. Rails up the
            /// slope, rails that cross and rafters that are not measured refuse it.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub room_to_move: Option<RoomWanted>,
        }
        holds {
            /// Rails and hooks that are there already and stay where they are: of an array that is extended,
            /// of a roof that is half done. They are described as in a recheck, and `record.built` of an
            /// earlier answer is such a description. They are taken to be the parts of `components`.
            ///
            /// The layout has all of these hooks and the fewest others. A rail that ends before the modules
            /// over it do goes on at its ends; expansion gaps lie where those of a new rail would. Ordered is
            /// what is added, but modules and clamps are ordered in full. With `even_spacing` and `staggered`
            /// nothing can be kept.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub kept: Option<Built>,
        }
    }
}

job_answer! {
    /// The layout with its checks.
    #[derive(Debug, Clone, Serialize, ToSchema)]
    pub struct LayoutAnswer {
        is {
            /// What this is.
            #[schema(inline)]
            pub kind: LayoutTag,
        }
        /// SHA-256 of the request without `capacity`, `remedies`, `savings`, `room_to_move` and empty lists in
        /// canonical form (RFC 8785), hexadecimal.
        input_digest,
        /// The judgement in a word.
        verdict,
        tells {
            /// How many hooks, and whether fewer could do.
            pub optimality: Optimality,
        }
        /// The hooks, rail by rail from left to right.
        hooks,
        orders {
            /// Fields that were filled, where some were to be.
            #[serde(skip_serializing_if = "Vec::is_empty")]
            #[schema(required = false)]
            pub fields: Vec<FilledField>,
            /// What to order, how to cut the rails, what to carry up.
            pub parts: PartsAnswer,
            /// Of rafters that are not measured: what other places of theirs come to, and the order that
            /// suffices for all that do not fail.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub phases: Option<PhasesAnswer>,
            /// What to keep in order to check the job again once it is built.
            pub record: Record,
            /// What is to be found out, supplied or looked at before the job can be said to hold.
            pub missing: Vec<MissingInput>,
            /// What would lift the failing checks of a layout that fails, unless it is not asked for or rafters
            /// are not measured.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub remedies: Option<Remedies>,
            /// What one change would save, and what one hook fewer would mean; on request.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub savings: Option<Savings>,
            /// How far hooks may stand from where they are set out; on request.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub room_to_move: Option<RoomToMove>,
        }
    }
}

/// How many hooks, and whether fewer could do.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Optimality {
    /// Hooks of the layout, those that are kept among them.
    pub hooks: u64,
    /// Of these, how many are there already; absent where the request keeps nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub kept: Option<u64>,
    /// How many are added to them; absent where the request keeps nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub added: Option<u64>,
    /// True when it is proven that no smaller number passes on any rail: the fewest for this position
    /// of the field, these parts, this pattern and the hooks that are kept.
    pub proven: bool,
    /// No layout with fewer hooks than this can pass, with the field where it is, these parts and this
    /// pattern.
    pub lower_bound: u64,
    /// With the objective `same_rafters`, the same job with hooks in any pattern: what the wish costs. Absent with
    /// other objectives, and where the job does not hold in any pattern.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub in_any_pattern: Option<InAnyPattern>,
    /// The same for each rail segment. With the objective `same_rafters`, what is proven is the sum over the rails of
    /// a field: one of them alone may do with fewer where another then needs more.
    pub rails: Vec<SegmentOptimality>,
}

/// A job laid out with hooks in any pattern.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct InAnyPattern {
    /// Its hooks.
    pub hooks: u64,
    /// How many more the layout has.
    pub saved: u64,
    /// True when it is proven that no smaller number passes on any rail.
    pub proven: bool,
}

/// Result of the search on one rail segment.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SegmentOptimality {
    /// Id of the rail.
    pub rail: String,
    /// Segment of the rail, counted from 0.
    pub segment: u64,
    /// Rafters a hook could stand on.
    pub candidates: u64,
    /// Hooks taken, those that are kept among them.
    pub hooks: u64,
    /// Of these, how many are there already; absent where the request keeps nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub kept: Option<u64>,
    /// Fewest that could pass, for this position of the field, these parts and this pattern.
    pub lower_bound: u64,
    /// How the search ended.
    pub outcome: SearchOutcome,
    /// Hook patterns weighed.
    pub weighed: u64,
}

enumeration! {
    /// How a search ended.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum SearchOutcome {
        /// Fewest hooks for this position of the field, these parts and this pattern, proven; of those the
        /// lowest utilisation.
        FewestProven,
        /// Fewest hooks for this position of the field, these parts and this pattern, proven; a lower
        /// utilisation with the same number may exist.
        FewestProvenNotRanked,
        /// Passes; fewer hooks may do, the search limit was reached.
        BestFound,
        /// Passes; the fewest hooks overload a rafter, so they are spread over more.
        SpreadForRafters,
        /// Passes; fewer hooks may do, for rails that cross bear on one another and are searched one by one.
        BearOnEachOther,
        /// No choice of hooks passes; all candidates are used.
        NonePasses,
        /// None found before the search limit; all candidates are used.
        NoneFound,
    }
}

/// One rail.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RailAnswer {
    /// Name: field and number, counted up the slope.
    #[schema(example = "A1")]
    pub id: String,
    /// Name in the request of the rail that is kept on this line; absent where none is.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "A1")]
    pub kept: Option<String>,
    /// Field.
    pub field: String,
    /// Row of modules, counted from 0 at the eaves; of a rail up the slope the lowest.
    pub row: u64,
    /// Layer of a rail that crosses others; absent where there is but one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub layer: Option<RailLayer>,
    /// Column of modules, counted from 0 at the left, of a rail up the slope to which they are clamped.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub column: Option<u64>,
    /// Distance of the axis of a rail up the slope from the left end of the eaves line, mm. Its hooks stand beside
    /// it, see `arm_x_mm`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub x_mm: Option<f64>,
    /// Height of the rail line above the eaves line, along the slope, mm; of a rail up the slope that of its
    /// lower end.
    pub y_mm: f64,
    /// Course whose tail edge the arms leave under, counted from 0 at the first full course.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub course: Option<i64>,
    /// Rafter that a rail up the slope lies over; absent where none is in reach of its clamps.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter: Option<u64>,
    /// Left end, mm; of a rail up the slope its lower end.
    pub start_mm: f64,
    /// Right end, mm; of a rail up the slope its upper end.
    pub end_mm: f64,
    /// Length including expansion gaps, mm.
    pub length_mm: f64,
    /// Parts between expansion gaps, left to right or upwards.
    pub segments: Vec<SegmentAnswer>,
    /// Expansion gaps: middle of each, mm.
    pub expansion_gaps_mm: Vec<f64>,
    /// Where an upper rail lies on lower ones, left to right.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub crossings: Vec<CrossingAnswer>,
    /// Highest utilisation of the rail itself.
    pub utilisation: f64,
    /// The same by check.
    pub utilisation_by_check: RailUtilisation,
    /// Highest deflection from the chord between neighbouring hooks, mm.
    pub deflection_mm: f64,
    /// Its limit there, mm.
    pub deflection_limit_mm: f64,
}

enumeration! {
    /// Layer of a rail that crosses others.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RailLayer {
        /// On the hooks, up the slope.
        Lower,
        /// On the lower rails, along the eaves, under the modules.
        Upper,
    }
}

/// Where an upper rail lies on a lower one.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CrossingAnswer {
    /// Lower rail.
    #[schema(example = "A1")]
    pub rail: String,
    /// Axis of the lower rail from the left end of the eaves line, mm.
    pub x_mm: f64,
    /// Largest design force that presses the upper rail on it, kN.
    pub press_kn: f64,
    /// Largest design force that lifts the upper rail off, kN.
    pub lift_kn: f64,
    /// Largest design force along the lower rail, kN.
    pub slide_kn: f64,
    /// Utilisation of the connector; absent where it is not known what it bears.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub utilisation: Option<f64>,
}

/// Part of a rail between expansion gaps.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SegmentAnswer {
    /// Left end, mm; of a rail up the slope the lower one.
    pub start_mm: f64,
    /// Right end, mm; of a rail up the slope the upper one.
    pub end_mm: f64,
    /// Free length left of the first hook, or below it, mm; of an upper rail, left of the first lower one.
    pub left_cantilever_mm: f64,
    /// Free length right of the last hook, or above it, mm; of an upper rail, right of the last lower one.
    pub right_cantilever_mm: f64,
    /// Where its pieces meet, mm. In a layout as the cutting plan says; in a recheck where equal
    /// bars no longer than the longest stock length meet, which counts where splices are hinges.
    pub splices_mm: Vec<f64>,
    /// Utilisation of the splice used most, in a layout whose rail declares what its splices bear.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub splice_utilisation: Option<f64>,
}

/// Utilisation of a rail by check.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RailUtilisation {
    /// Bending about both axes.
    pub bending: f64,
    /// Deflection of spans and free ends.
    pub deflection: f64,
    /// Bending where pieces meet, where it is declared what a splice bears.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub splice: Option<f64>,
    /// Connectors on lower rails, where it crosses some and it is known what they bear.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub crossing: Option<f64>,
    /// Combination that governs the largest of them.
    pub combination: String,
}

/// One hook.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct HookAnswer {
    /// Name: rail and number, counted from the left.
    #[schema(example = "A1-1")]
    pub id: String,
    /// Name in the request of the kept hook that this is; absent of one that is added.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "A1-1")]
    pub kept: Option<String>,
    /// Rail.
    pub rail: String,
    /// Rafter, counted from 0 at the left.
    pub rafter: u64,
    /// Axis of the rafter and of the foot, from the left end of the eaves line, mm.
    pub x_mm: f64,
    /// Rail bolt above the eaves line, along the slope, mm.
    pub y_mm: f64,
    /// Where the arm leaves the covering, mm. It holds a rail along the eaves there, one up the slope at its side.
    pub arm_x_mm: f64,
    /// From the left edge of the slope at this height, mm.
    pub from_left_edge_mm: f64,
    /// From the right edge of the slope at this height, mm.
    pub from_right_edge_mm: f64,
    /// Tail edge the arm leaves under: courses counted from 0 at the first full course.
    pub course: i64,
    /// Tile the arm leaves under: columns counted from 0 at the joint origin.
    pub column: i64,
    /// The same tile counted from the left verge, where the first one, cut or whole, is 1.
    pub column_from_verge: i64,
    /// How far the arm stands off the axis of the rafter, right positive, mm.
    pub arm_shift_mm: f64,
    /// From the arm's axis to the nearest side joint of that course, mm.
    pub side_joint_mm: f64,
    /// What is to be done to the tiles; at a kept hook what was.
    pub tiles: TileWork,
    /// Force square to the roof in the governing combination, positive pressing, kN.
    pub normal_kn: f64,
    /// Force down the slope in the governing combination, kN.
    pub slope_kn: f64,
    /// Governing combination.
    pub combination: String,
    /// Utilisation by check.
    pub utilisation: HookUtilisation,
    /// Clearance between arm and tile below where it is least, unloaded, packers in place, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clearance_mm: Option<f64>,
    /// Clearance under the characteristic load; absent when the hook's stiffness is not known, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clearance_under_load_mm: Option<f64>,
    /// Packers for under the foot, thickest first, mm.
    pub packers_mm: Vec<f64>,
    /// Length of the screw in the rafter, mm.
    pub embedment_mm: f64,
    /// Whether it alone holds its rail along the slope, so that its bolt is tightened in the groove and the rail slides
    /// on the others; absent of all others, and where all hooks hold it.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    #[schema(required = false)]
    pub holds_rail: bool,
    /// Largest tension in a screw, any combination, kN.
    pub screw_tension_kn: f64,
    /// Largest shear on a screw, any combination, kN.
    pub screw_shear_kn: f64,
}

/// What is to be done to the tiles at one hook. Courses and columns are those of the grid: courses
/// from 0 at the first full course, columns from 0 at the joint origin.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct TileWork {
    /// Tiles that come off, lowest course first, those that are replaced, notched or lose a nib among
    /// them.
    pub lift: Vec<TileRun>,
    /// How many that are.
    pub lift_count: u64,
    /// Tiles that metal ones take the place of, in the order in which they are laid.
    pub substitute: Vec<SubstituteTile>,
    /// Tile beside the one over the arm that is to be notched at its edge as well, because the arm
    /// stands at their joint.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub notch_beside: Option<TilePlace>,
    /// Tile whose nib is in the way and is to be knocked off; absent when all nibs stay.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub nib_to_remove: Option<TilePlace>,
    /// From the arm's axis to the nearest side joint of the course below, mm.
    pub lower_joint_mm: f64,
    /// How far the tile above must stand clear of the tile below where the arm leaves: clearance,
    /// arm and the room above it, mm.
    pub room_for_arm_mm: f64,
}

/// Neighbouring tiles of one course.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TileRun {
    /// Course.
    pub course: i64,
    /// First and last column.
    #[schema(value_type = Vec<i64>, min_items = 2, max_items = 2)]
    pub columns: [i64; 2],
    /// The same counted from the left verge, where the first tile, cut or whole, is 1.
    #[schema(value_type = Vec<i64>, min_items = 2, max_items = 2)]
    pub from_verge: [i64; 2],
    /// Row of the course, in a crown covering.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub row: Option<TileRow>,
}

enumeration! {
    /// Row of a course of a crown covering.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum TileRow {
        /// The row that is seen.
        Cover,
        /// The row under it, half a tile to the right of it.
        Bed,
    }
}

/// A tile.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct TilePlace {
    /// Course.
    pub course: i64,
    /// Column of that course.
    pub column: i64,
}

/// A tile that a metal one takes the place of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
pub struct SubstituteTile {
    /// Course.
    pub course: i64,
    /// Column of that course.
    pub column: i64,
    /// Where it lies to the arm.
    pub place: SubstitutePlace,
}

enumeration! {
    /// Where a substitute tile lies to the arm.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum SubstitutePlace {
        /// Under it.
        Below,
        /// Over it.
        Above,
        /// Beside the one over it.
        Beside,
    }
}

/// The covering as computed, to be held against the roof.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CoveringAnswer {
    /// Overlap of a course by the next one that still covers it, mm.
    pub headlap_mm: f64,
    /// How much flatter than the rafters the tiles lie, degrees.
    pub tile_slope_deg: f64,
    /// Pitch of the tiles themselves, degrees.
    pub tile_pitch_deg: f64,
    /// Tiles on a square metre of slope.
    pub tiles_per_m2: f64,
    /// Top of the tile under the arm where the arm leaves, above the underside of the battens, mm.
    pub lower_tile_top_mm: f64,
    /// Length over which the arm lies between tiles, mm.
    pub covered_length_mm: f64,
    /// Length between the head of a tile and the next batten, where a foot can stand, mm.
    pub clear_bay_mm: f64,
    /// From the head of the tile below the arm up to the foot, negative when it stands on it, mm.
    pub foot_above_head_mm: f64,
    /// From the foot up to the next batten, negative when it meets it, mm.
    pub foot_below_batten_mm: f64,
    /// From the batten of the tile below up to the underside of the arm, unpacked, for an arm that
    /// follows the slope of the tiles, mm.
    pub arm_over_batten_mm: f64,
    /// Rule pitch and least pitch that govern.
    pub rule_pitch: RulePitchAnswer,
}

/// Utilisation of a hook by check; each is the largest over all combinations.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct HookUtilisation {
    /// The hook itself.
    pub hook: f64,
    /// The bolt that holds the rail to it, and its slot; absent where the bolt is not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub bolt: Option<f64>,
    /// Its screws; absent when the rules do not cover them.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub screws: Option<f64>,
    /// The timber its foot presses on, across the grain.
    pub foot_bearing: f64,
    /// Movement under load against the clearance there is; absent when it is not verified.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clearance: Option<f64>,
    /// Largest of those verified.
    pub max: f64,
}

/// One rafter that carries hooks.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RafterAnswer {
    /// Rafter, counted from 0 at the left.
    pub rafter: u64,
    /// Its axis, mm.
    pub x_mm: f64,
    /// Hooks it carries.
    pub hooks: Vec<String>,
    /// Largest sum of pressing hook forces, kN.
    pub press_kn: f64,
    /// Largest sum of lifting hook forces, kN.
    pub lift_kn: f64,
    /// Largest sum of forces down the slope, kN.
    pub slope_kn: f64,
    /// Weight of the array against the permanent load the rafter already carries.
    pub added_load_share: f64,
    /// Area its wind coefficients are read at, for the bare covering beside the array, m²; absent
    /// without a span.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub loaded_area_m2: Option<f64>,
    /// Bending and shear under array and bare covering, when a span is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub utilisation: Option<RafterUtilisation>,
    /// The same rafter under the bare roof, before there is an array.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub before: Option<RafterUtilisation>,
}

/// Utilisation of a rafter.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RafterUtilisation {
    /// Bending.
    pub bending: f64,
    /// Shear.
    pub shear: f64,
    /// Larger of both.
    pub max: f64,
    /// Combination that governs.
    pub combination: String,
}

/// One module.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ModuleAnswer {
    /// Name: field, row and column, counted from 0.
    #[schema(example = "A/0/3")]
    pub id: String,
    /// Lower left corner, mm.
    #[schema(value_type = PointSchema)]
    pub origin_mm: [f64; 2],
    /// Size along eaves and up the slope, mm.
    #[schema(value_type = Vec<f64>, min_items = 2, max_items = 2)]
    pub size_mm: [f64; 2],
    /// Largest design load pressing on it, kN/m².
    pub press_kn_per_m2: f64,
    /// Largest design load lifting it, kN/m².
    pub lift_kn_per_m2: f64,
    /// Largest design lift on one of its clamps, kN.
    pub clamp_lift_kn: f64,
    /// Design force down the slope on the clamp nearest to slipping, or on the stop below it, kN.
    pub clamp_slope_kn: f64,
    /// Rail lines from the nearer module ends, lower and upper, mm.
    #[schema(value_type = Vec<f64>, min_items = 2, max_items = 2)]
    pub clamps_from_ends_mm: [f64; 2],
    /// Utilisation.
    pub utilisation: ModuleUtilisation,
}

/// Utilisation of a module and its clamps.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ModuleUtilisation {
    /// Pressing load against the module's capacity.
    pub press: f64,
    /// Lifting load against the module's capacity.
    pub lift: f64,
    /// Lift on a clamp against its capacity.
    pub clamp: f64,
    /// Force down the slope on a clamp or stop, with the lift on the clamp, against what it holds.
    /// Absent: not known, not checked.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clamp_slip: Option<f64>,
    /// Largest of these.
    pub max: f64,
}
