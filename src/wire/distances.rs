//! Request: how far the array stays from the edges of the slope and from party walls.

use crate::wire::enumeration::enumeration;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// How far a part of the array has to stay from every edge of a kind.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct EdgeDistance {
    /// Kind of edge; distances from party walls belong to `party_walls`.
    pub edge: OpenEdge,
    /// Part of the array. Assumed the modules.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub part: Option<ArrayPart>,
    /// What must lie between them at least, in the plane of the roof, mm. The array fails where it does not.
    #[schema(minimum = 0, maximum = 10_000, example = 400.0)]
    pub least_mm: f64,
    /// The rule it is taken from.
    #[schema(
        min_length = 1,
        max_length = 200,
        example = "installation instructions of the rail, page 6"
    )]
    pub source: String,
}

enumeration! {
    /// A kind of edge of the slope.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    #[expect(missing_docs, reason = "the names are those of the sides of the outline")]
    pub enum OpenEdge {
        Eaves,
        Verge,
        Ridge,
        Hip,
        Valley,
        Abutment,
    }
}

enumeration! {
    /// A part of the array.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ArrayPart {
        /// The modules.
        Modules,
        /// The rails with their ends.
        Rails,
        /// The hooks, from the rail to the upper end of the foot.
        Hooks,
    }
}

/// The wall a house in a row shares with its neighbour.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct PartyWall {
    /// The side of the outline, counted from 0.
    #[schema(minimum = 0, maximum = 99, example = 1)]
    pub side: u32,
    /// How far the array has to stay from it for the sake of fire. Building regulations set that, and not
    /// everywhere alike. Left out, the answer is incomplete where modules or rails lie nearer than 1250 mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub fire_distance: Option<FireDistance>,
    /// How much of the wall's thickness lies on this side of the outline, under the covering: distances
    /// are measured from its face. Assumed 0.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1000, example = 120.0)]
    pub wall_on_slope_mm: Option<f64>,
    /// How far roofs at this level run on beyond it, along the eaves, m: the rest of the row; 0 where none
    /// does. Wind zones are those of the whole row. Assumed twice the height of the ridge, beyond
    /// which the zones grow no more.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 500, example = 18.6)]
    pub roof_beyond_m: Option<f64>,
}

/// A distance that keeps fire from passing a party wall.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct FireDistance {
    /// What must lie between wall and array at least, in the plane of the roof, mm.
    #[schema(minimum = 0, maximum = 10_000, example = 500.0)]
    pub least_mm: f64,
    /// The regulation it is taken from.
    #[schema(
        min_length = 1,
        max_length = 200,
        example = "building regulations of the state, roofs, paragraph 5"
    )]
    pub source: String,
}
