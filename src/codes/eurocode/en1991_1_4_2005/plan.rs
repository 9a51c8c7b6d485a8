//! 7.2: what the zones of roofs of every form are laid out from, seen in plan.
//!
//! **Model.** One face of the roof, as seen standing outside in front of it: `x` along the eaves from the
//! left end, `run` horizontally from the eaves line towards the upper edge.

use crate::units::Length;

/// A rectangle of one zone, in plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ZoneInPlan<Z> {
    /// Which zone.
    pub zone: Z,
    /// From and to along the eaves, from the face's left end.
    pub x: [Length; 2],
    /// From and to horizontally up the slope, from the eaves line.
    pub run: [Length; 2],
}

/// What the zones of a rectangular face depend on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FacePlan {
    /// Plan length of the building, along the eaves.
    pub length: Length,
    /// Plan width of the building, across the eaves.
    pub width: Length,
    /// Horizontal distance from the eaves line to the upper edge of this face.
    pub face_run: Length,
    /// Length of this face along the eaves.
    pub face_length: Length,
    /// `h`: upper edge above ground.
    pub height: Length,
}

/// `e`: the length all roof zones scale with.
///
/// EN 1991-1-4:2005, 7.2.5, Figure 7.8: `e = min(b, 2h)`, `b` the dimension across the wind.
///
/// Confirmed: three implementations, and one published sheet reproduced to the millimetre.
#[must_use]
pub fn edge_dimension(b: Length, h: Length) -> Length {
    b.min(2.0 * h)
}
