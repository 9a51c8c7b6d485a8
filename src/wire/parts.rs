//! What to order, how to cut the rails, and what to carry up to each field.

use crate::wire::enumeration::enumeration;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// Wishes for the order.
#[derive(Debug, Clone, PartialEq, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct OrderWishes {
    /// What the cutting plan saves first. Assumed `least_length`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub stock_aim: Option<StockAim>,
    /// Shortest piece of rail worth joining to another, and shortest offcut worth keeping, mm.
    /// Assumed 500, or half the longest stock length where that is less (common practice, no
    /// source).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 10_000, example = 500.0)]
    pub min_piece_mm: Option<f64>,
    /// Spares and packs by kind of part. Assumed: 2 % spare hooks, 5 % of everything else, sold
    /// singly (common practice, no source).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub allowances: Option<Allowances>,
}

enumeration! {
    /// What a cutting plan saves first.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum StockAim {
        /// The least length of rail bought; among such plans the fewest bars.
        LeastLength,
        /// The fewest bars carried up; among such plans the least length bought.
        FewestBars,
    }
}

/// Spares and packs by kind of part.
#[derive(Debug, Clone, PartialEq, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Allowances {
    /// Hooks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub hook: Option<Allowance>,
    /// Screws.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub screw: Option<Allowance>,
    /// Metal substitute tiles.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub substitute_tile: Option<Allowance>,
    /// Packers of every thickness.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub packer: Option<Allowance>,
    /// Bolts with nut between hook and rail, and connectors where rails cross.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub bolt_set: Option<Allowance>,
    /// Splices.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub splice: Option<Allowance>,
    /// Mid clamps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub mid_clamp: Option<Allowance>,
    /// End clamps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub end_clamp: Option<Allowance>,
    /// End caps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub end_cap: Option<Allowance>,
}

/// Spare and pack of one kind of part.
#[derive(Debug, Clone, Copy, PartialEq, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Allowance {
    /// Spare on top of the exact count, in percent of it; rounded up to whole parts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 100, example = 5.0)]
    pub spare_percent: Option<f64>,
    /// Parts in a pack; the order is rounded up to whole packs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 10_000, example = 100)]
    pub pack_size: Option<u32>,
}

/// The parts of the job; of a building those of all its slopes.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PartsAnswer {
    /// The order, line by line. A kind of which nothing is needed has no line.
    pub lines: Vec<PartLine>,
    /// How the rails are cut from bars.
    pub cutting: CuttingAnswer,
    /// Expansion gaps between rail segments. No part goes there and nothing may be laid across
    /// but the bonding conductor, which has to bridge each.
    pub expansion_gaps: u64,
    /// What to carry up to each field, in the order of the request. Exact counts, without spares.
    pub fields: Vec<FieldParts>,
    /// What the array weighs.
    pub mass: ArrayMass,
}

/// One line of the order.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PartLine {
    /// Kind of part.
    pub kind: OrderedKind,
    /// Id of the part in the request; absent for parts the request does not describe.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "wood-screw-8x140")]
    pub part: Option<String>,
    /// Stock length of a bar, thickness of a packer, mm; of a clamp the height of the frames it holds, where
    /// these are not all alike.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub size_mm: Option<f64>,
    /// Length, width and height of the frame of a module, mm; absent where all modules are alike.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, value_type = Option<Vec<f64>>, min_items = 3, max_items = 3, example = json!([1762.0, 1134.0, 30.0]))]
    pub module_mm: Option<[f64; 3]>,
    /// Exact count: what is built in.
    pub needed: u64,
    /// Spare on top.
    pub spare: u64,
    /// What to order: count and spare in whole packs.
    pub ordered: u64,
    /// Parts in a pack.
    pub pack_size: u64,
    /// Mass of the exact count, kg; absent where the part's mass is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub mass_kg: Option<f64>,
    /// Where the count comes from, for people.
    #[schema(example = "44 hooks × 2 screws")]
    pub why: String,
}

enumeration! {
    /// Kind of part.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum OrderedKind {
        /// Module.
        Module,
        /// Roof hook.
        Hook,
        /// Screw of a foot.
        Screw,
        /// Metal substitute tile.
        SubstituteTile,
        /// Packer of the thickness in `size_mm`.
        Packer,
        /// Bolt with nut that holds the rail in the slot of the hook.
        BoltSet,
        /// Connector with its own fixings that holds an upper rail on a lower one.
        CrossingConnector,
        /// Bar of rail of the stock length in `size_mm`, as ordered.
        RailBar,
        /// Piece of rail of the length in `size_mm`, cut; in lists of fields.
        RailPiece,
        /// Splice with its own fixings.
        Splice,
        /// Mid clamp with its own bolt.
        MidClamp,
        /// End clamp with its own bolt.
        EndClamp,
        /// Cap for an end of a rail.
        EndCap,
    }
}

/// What to carry up to one field.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct FieldParts {
    /// Slope it is on, in an order for a building.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "S1")]
    pub slope: Option<String>,
    /// Field.
    #[schema(example = "A")]
    pub field: String,
    /// Its parts.
    pub lines: Vec<FieldLine>,
    /// Their mass as far as it is known, kg.
    pub mass_kg: f64,
}

/// One part of a field.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct FieldLine {
    /// Kind of part.
    pub kind: OrderedKind,
    /// Id of the part in the request; absent for parts the request does not describe.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub part: Option<String>,
    /// Length of a piece of rail, thickness of a packer, mm; of a clamp the height of the frames it holds,
    /// where these are not all alike.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub size_mm: Option<f64>,
    /// How many.
    pub count: u64,
    /// Their mass, kg; absent where it is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub mass_kg: Option<f64>,
}

/// What the array weighs: modules, rails, hooks and clamps. Screws, bolts, splices, caps, packers
/// and substitute tiles are left out, for their masses are not known.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ArrayMass {
    /// Modules, kg.
    pub modules_kg: f64,
    /// Rails as built in, without offcuts, kg.
    pub rails_kg: f64,
    /// Hooks, kg.
    pub hooks_kg: f64,
    /// Clamps, kg.
    pub clamps_kg: f64,
    /// All of them, kg.
    pub total_kg: f64,
    /// The same over the area of the modules, kg/m².
    pub total_kg_per_m2: f64,
}

/// How the rails are cut from bars.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CuttingAnswer {
    /// What was saved first.
    pub aim: StockAim,
    /// The bars: longest first, those cut alike beside each other.
    pub bars: Vec<BarAnswer>,
    /// The splices, rail by rail from left to right.
    pub splices: Vec<SpliceAnswer>,
    /// Length of all bars, mm.
    pub bought_mm: f64,
    /// Length of all pieces, mm.
    pub used_mm: f64,
    /// Lost in saw cuts, mm.
    pub sawn_mm: f64,
    /// Offcuts long enough to keep, mm.
    pub kept_mm: f64,
    /// Offcuts too short to keep, mm.
    pub scrap_mm: f64,
    /// Bought and not built in, in percent of what is bought; kept offcuts count.
    pub waste_percent: f64,
    /// True when it is proven that no plan on the same splice places is better.
    pub proven: bool,
    /// What no plan on the same splice places can be better than.
    pub lower_bound: CuttingBound,
}

/// What no cutting plan can be better than.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CuttingBound {
    /// Length bought, mm; with the aim `fewest_bars`, of plans that take no more bars than that.
    pub bought_mm: f64,
    /// Bars; with the aim `least_length`, of plans that buy no more than that.
    pub bars: u64,
}

/// One bar and what is cut from it.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct BarAnswer {
    /// Number of the bar, counted from 1.
    pub bar: u64,
    /// Its stock length, mm.
    pub stock_mm: f64,
    /// Pieces, longest first, each a stretch of a rail.
    pub pieces: Vec<PieceAnswer>,
    /// Saw cuts.
    pub cuts: u64,
    /// What remains, mm.
    pub offcut_mm: f64,
    /// True when the offcut is long enough to keep for another job.
    pub offcut_kept: bool,
}

/// A piece of rail.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct PieceAnswer {
    /// Slope its rail is on, in an order for a building.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "S1")]
    pub slope: Option<String>,
    /// Rail it is for.
    #[schema(example = "A1")]
    pub rail: String,
    /// Segment of the rail, counted from 0.
    pub segment: u64,
    /// Piece of the segment, counted from 0 at the left.
    pub piece: u64,
    /// Where its left end comes to lie, mm from the left end of the eaves line.
    pub start_mm: f64,
    /// Its length, mm.
    pub length_mm: f64,
}

/// A splice.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SpliceAnswer {
    /// Slope its rail is on, in an order for a building.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "S1")]
    pub slope: Option<String>,
    /// Rail.
    #[schema(example = "A1")]
    pub rail: String,
    /// Segment of the rail, counted from 0.
    pub segment: u64,
    /// Where the pieces meet, mm from the left end of the eaves line.
    pub x_mm: f64,
    /// Rules the splices of this segment keep.
    pub rules: SpliceRules,
}

enumeration! {
    /// Which rules the splices of a rail segment keep. Each entry keeps fewer than the one before; the
    /// first one that can be kept is taken.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum SpliceRules {
        /// Every piece lies on two hooks or more, so no splice is in a free end or an end span; no
        /// splice lies at a hook, under a clamp or in the middle third of a span.
        All,
        /// The same, but the middle third of a span is allowed.
        MiddleThirdUsed,
        /// Pieces lie on one hook or more, so splices may lie in an end span.
        EndSpanUsed,
        /// Splices may lie in a free end.
        FreeEndUsed,
        /// Splices may lie anywhere, at hooks and under clamps too.
        None,
    }
}
