//! The covering: where courses and tiles lie, where an arm can leave, how high the tiles stand.
//!
//! **Layer.** Knows no standard and no hook.

pub mod courses;
pub mod opening;
pub mod passage;
pub mod stack;
pub mod watertight;

use crate::units::Length;

/// A covering, resolved.
#[derive(Debug, Clone)]
pub struct Covering {
    /// Way of laying.
    pub laying: Laying,
    /// Overall length of a tile.
    pub tile_length: Length,
    /// Thickness where the arm passes.
    pub tile_thickness: Length,
    /// Rise of the tile's middle above its ends.
    pub camber: Length,
    /// Width one tile covers, joint included.
    pub cover_width: Length,
    /// From one visible tail edge to the next, up the slope.
    pub gauge: Length,
    /// Tail edge of the first full course.
    pub first_course: Length,
    /// Thickness of the tiling batten.
    pub batten_thickness: Length,
    /// Width of the tiling batten along the slope.
    pub batten_width: Length,
    /// Side joints shift by half a tile from course to course.
    pub half_bond: bool,
    /// A side joint of the first course.
    pub joint_origin: Length,
    /// Where an arm can leave, from a tile's left joint; empty = anywhere.
    pub troughs: Vec<Length>,
    /// How far the head of a tile stands above the upper edge of its batten.
    pub head_projection: Length,
    /// Middles of the nibs that hang a tile on its batten, from its left edge; empty = none.
    pub nibs: Vec<Length>,
}

/// Ways of laying.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Laying {
    /// One course on each batten, three layers in the headlap: plain tile and slate.
    DoubleLap,
    /// Two courses on each batten.
    Crown,
    /// Single lap with interlocks.
    Interlocking,
}
