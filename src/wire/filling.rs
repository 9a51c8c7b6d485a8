//! Request: fields that are filled with as many modules as fit.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::roof::Point;
use super::shapes::PointSchema;
use crate::wire::enumeration::enumeration;

/// A field that is filled with the most whole modules that lie in a region and on the roof, clear of
/// obstacles with their strips and of modules of other fields, and as far from the edges of the slope and
/// from party walls as modules have to stay. Fields are filled in their order, after those that are given.
#[derive(Debug, Clone, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Fill {
    /// Outline of what is filled, counter-clockwise, first point not repeated, mm. What of it is not on the
    /// slope counts for nothing. Assumed the outline of the slope.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, value_type = Option<Vec<PointSchema>>, min_items = 3, max_items = 100, example = json!([[0, 0], [8400, 0], [4200, 5100]]))]
    pub region_mm: Option<Vec<Point>>,
    /// How rows lie to each other. Assumed `aligned`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rows: Option<FilledRows>,
    /// Most modules, where all there is room for are too many. Rows are then whole as far as can be: as few
    /// as hold so many, next to each other and even in length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 5000, example = 12)]
    pub most_modules: Option<u32>,
}

enumeration! {
    /// How the rows of a filled field lie to each other.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum FilledRows {
        /// Columns stand one above the other.
        Aligned,
        /// Each row is shifted to where it holds the most modules, in the middle of its room: beside hips and
        /// valleys often more than in columns.
        Shifted,
    }
}
