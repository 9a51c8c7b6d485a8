//! How far a beam sags between and beyond two supports, by how these move.

use crate::mechanics::beam::bay::PLACES;
use crate::mechanics::beam::lanes::Both;

/// How far a place in a bay is from the straight line through its supports, or the tip of a free
/// end from the line through the nearest two, in some parts.
#[derive(Debug, Clone, Copy)]
pub struct Sag<const PARTS: usize> {
    /// Length of the bay, twice that of the free end, mm.
    pub length: f64,
    /// Deflection from that line, mm.
    pub sag: [Both; PARTS],
}

/// Deflection of one of the places asked for in a bay from its chord, by how far the slopes of its
/// ends are from that of the chord.
pub(super) fn turned(left: [Both; 2], right: [Both; 2], length: f64, place: usize) -> Both {
    let (from_left, from_right) = (PLACES[place], 1.0 - PLACES[place]);
    let chord = (right[0] - left[0]) * (1.0 / length);
    let bent = (left[1] - chord) * from_right - (right[1] - chord) * from_left;
    bent * (length * from_left * from_right)
}

/// Deflection of the tip of a free end, `reach` beyond a support, from the line through that and
/// the next support, as far as the slope over the support goes beyond that line; `length` from
/// that next support to this, both signed towards the tip.
pub(super) fn tip(near: [Both; 2], far: [Both; 2], length: f64, reach: f64) -> Both {
    (near[1] - (near[0] - far[0]) * (1.0 / length)) * reach
}
