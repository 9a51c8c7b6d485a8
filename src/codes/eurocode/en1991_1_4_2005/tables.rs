//! Tables 7.3a to 7.5: external pressure coefficients of pitched roofs, as recommended, and what a country
//! may put in their place.
//!
//! **Signs.** Negative lifts, positive presses. Where a table prints no value for a set, that set does not
//! exist and is written `0.0` here: no load of that sign.
//!
//! **Checked by** `tests/reference/cases/en1991_1_4/` (public libraries, printed examples, an official
//! table of another country).

use super::EN1991_1_4;
use crate::codes::vocabulary::Evidence;
use crate::units::Angle;

/// `[c_pe,10, c_pe,1]` of the suction set and the one value of the pressure set; `0.0` where a table has none.
pub type Cell = [f64; 3];

/// Rows of a table: pitch in degrees, and a cell for each of its zones.
pub type Table<const N: usize> = &'static [(f64, [Cell; N])];

/// The tables that roofs are read by in a country.
#[derive(Debug, Clone, Copy)]
pub struct RoofTables {
    /// Document they stand in.
    pub document: &'static str,
    /// Duopitch, wind across the ridge, zones F G H I J: Table 7.4a.
    pub duopitch_across: Table<5>,
    /// Duopitch, wind along the ridge, zones F G H I and an empty J: Table 7.4b.
    pub duopitch_along: Table<5>,
    /// Monopitch, wind onto the lower eaves, zones F G H: Table 7.3a.
    pub monopitch_lower: Table<3>,
    /// Monopitch, wind onto the upper eaves, zones F G H: Table 7.3a.
    pub monopitch_upper: Table<3>,
    /// Monopitch, wind onto a verge, zones Fup Flow G H I: Table 7.3b.
    pub monopitch_verge: Table<5>,
    /// Hipped, zones F to N: Table 7.5.
    pub hipped: Table<9>,
    /// How well those of duopitch and monopitch roofs are known.
    pub evidence: Evidence,
    /// How well that of hipped roofs is known.
    pub hipped_evidence: Evidence,
}

/// The recommended tables.
pub const RECOMMENDED: RoofTables = RoofTables {
    document: EN1991_1_4,
    duopitch_across: TABLE_7_4A,
    duopitch_along: TABLE_7_4B,
    monopitch_lower: LOWER_EAVES,
    monopitch_upper: UPPER_EAVES,
    monopitch_verge: VERGE,
    hipped: TABLE_7_5,
    evidence: Evidence::Confirmed,
    hipped_evidence: Evidence::Confirmed,
};

/// EN 1991-1-4:2005+A1:2010, Table 7.3a, `θ = 0°`, zones F G H, pitch in degrees.
/// Confirmed: two libraries compared cell by cell, a public transcription.
#[rustfmt::skip]
const LOWER_EAVES: Table<3> = &[
    ( 5.0, [[-1.7, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.6, -1.2, 0.0]]),
    (15.0, [[-0.9, -2.0, 0.2], [-0.8, -1.5, 0.2], [-0.3, -0.3, 0.2]]),
    (30.0, [[-0.5, -1.5, 0.7], [-0.5, -1.5, 0.7], [-0.2, -0.2, 0.4]]),
    (45.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.6]]),
    (60.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7]]),
    (75.0, [[ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8]]),
];

/// The same table, `θ = 180°`. Confirmed: as the other half.
#[rustfmt::skip]
const UPPER_EAVES: Table<3> = &[
    ( 5.0, [[-2.3, -2.5, 0.0], [-1.3, -2.0, 0.0], [-0.8, -1.2, 0.0]]),
    (15.0, [[-2.5, -2.8, 0.0], [-1.3, -2.0, 0.0], [-0.9, -1.2, 0.0]]),
    (30.0, [[-1.1, -2.3, 0.0], [-0.8, -1.5, 0.0], [-0.8, -0.8, 0.0]]),
    (45.0, [[-0.6, -1.3, 0.0], [-0.5, -0.5, 0.0], [-0.7, -0.7, 0.0]]),
    (60.0, [[-0.5, -1.0, 0.0], [-0.5, -0.5, 0.0], [-0.5, -0.5, 0.0]]),
    (75.0, [[-0.5, -1.0, 0.0], [-0.5, -0.5, 0.0], [-0.5, -0.5, 0.0]]),
];

/// EN 1991-1-4:2005+A1:2010, Table 7.3b, `θ = 90°`, zones Fup Flow G H I. Confirmed: as Table 7.3a.
#[rustfmt::skip]
const VERGE: Table<5> = &[
    ( 5.0, [[-2.1, -2.6, 0.0], [-2.1, -2.4, 0.0], [-1.8, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.5, -0.5, 0.0]]),
    (15.0, [[-2.4, -2.9, 0.0], [-1.6, -2.4, 0.0], [-1.9, -2.5, 0.0], [-0.8, -1.2, 0.0], [-0.7, -1.2, 0.0]]),
    (30.0, [[-2.1, -2.9, 0.0], [-1.3, -2.0, 0.0], [-1.5, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.8, -1.2, 0.0]]),
    (45.0, [[-1.5, -2.4, 0.0], [-1.3, -2.0, 0.0], [-1.4, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.9, -1.2, 0.0]]),
    (60.0, [[-1.2, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.7, -1.2, 0.0]]),
    (75.0, [[-1.2, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.5, -0.5, 0.0]]),
];

/// EN 1991-1-4:2005+A1:2010, Table 7.4a (`θ = 0°`), zones F G H I J, pitch in degrees.
/// Confirmed: five independent transcriptions. The pressure set of zone I at 5° is missing in one
/// of them and zero in another; both mean no pressure.
#[rustfmt::skip]
const TABLE_7_4A: Table<5> = &[
    (-45.0, [[-0.6, -0.6, 0.0], [-0.6, -0.6, 0.0], [-0.8, -0.8, 0.0], [-0.7, -0.7, 0.0], [-1.0, -1.5, 0.0]]),
    (-30.0, [[-1.1, -2.0, 0.0], [-0.8, -1.5, 0.0], [-0.8, -0.8, 0.0], [-0.6, -0.6, 0.0], [-0.8, -1.4, 0.0]]),
    (-15.0, [[-2.5, -2.8, 0.0], [-1.3, -2.0, 0.0], [-0.9, -1.2, 0.0], [-0.5, -0.5, 0.0], [-0.7, -1.2, 0.0]]),
    ( -5.0, [[-2.3, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.6, -0.6, 0.2], [-0.6, -0.6, 0.2]]),
    (  5.0, [[-1.7, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.6, -0.6, 0.0], [-0.6, -0.6, 0.2]]),
    ( 15.0, [[-0.9, -2.0, 0.2], [-0.8, -1.5, 0.2], [-0.3, -0.3, 0.2], [-0.4, -0.4, 0.0], [-1.0, -1.5, 0.0]]),
    ( 30.0, [[-0.5, -1.5, 0.7], [-0.5, -1.5, 0.7], [-0.2, -0.2, 0.4], [-0.4, -0.4, 0.0], [-0.5, -0.5, 0.0]]),
    ( 45.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.6], [-0.2, -0.2, 0.0], [-0.3, -0.3, 0.0]]),
    ( 60.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [-0.2, -0.2, 0.0], [-0.3, -0.3, 0.0]]),
    ( 75.0, [[ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [-0.2, -0.2, 0.0], [-0.3, -0.3, 0.0]]),
];

/// EN 1991-1-4:2005+A1:2010, Table 7.4b (`θ = 90°`), zones F G H I and, to keep the shape of the
/// other table, an empty J. Confirmed: five independent transcriptions.
#[rustfmt::skip]
const TABLE_7_4B: Table<5> = &[
    (-45.0, [[-1.4, -2.0, 0.0], [-1.2, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.9, -1.2, 0.0], [0.0; 3]]),
    (-30.0, [[-1.5, -2.1, 0.0], [-1.2, -2.0, 0.0], [-1.0, -1.3, 0.0], [-0.9, -1.2, 0.0], [0.0; 3]]),
    (-15.0, [[-1.9, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.8, -1.2, 0.0], [0.0; 3]]),
    ( -5.0, [[-1.8, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.7, -1.2, 0.0], [-0.6, -1.2, 0.0], [0.0; 3]]),
    (  5.0, [[-1.6, -2.2, 0.0], [-1.3, -2.0, 0.0], [-0.7, -1.2, 0.0], [-0.6, -0.6, 0.0], [0.0; 3]]),
    ( 15.0, [[-1.3, -2.0, 0.0], [-1.3, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.5, -0.5, 0.0], [0.0; 3]]),
    ( 30.0, [[-1.1, -1.5, 0.0], [-1.4, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.5, -0.5, 0.0], [0.0; 3]]),
    ( 45.0, [[-1.1, -1.5, 0.0], [-1.4, -2.0, 0.0], [-0.9, -1.2, 0.0], [-0.5, -0.5, 0.0], [0.0; 3]]),
    ( 60.0, [[-1.1, -1.5, 0.0], [-1.2, -2.0, 0.0], [-0.8, -1.0, 0.0], [-0.5, -0.5, 0.0], [0.0; 3]]),
    ( 75.0, [[-1.1, -1.5, 0.0], [-1.2, -2.0, 0.0], [-0.8, -1.0, 0.0], [-0.5, -0.5, 0.0], [0.0; 3]]),
];

/// EN 1991-1-4:2005+A1:2010, Table 7.5, zones F to N, pitch in degrees.
/// Confirmed: an official table of another country that repeats it and a second transcription, cell by
/// cell. Between 45° and 60° the suction set of F, G and H ends with a printed zero.
#[rustfmt::skip]
const TABLE_7_5: Table<9> = &[
    ( 5.0, [[-1.7, -2.5, 0.0], [-1.2, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.3, -0.3, 0.0], [-0.6, -0.6, 0.0], [-0.6, -0.6, 0.0], [-1.2, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.4, -0.4, 0.0]]),
    (15.0, [[-0.9, -2.0, 0.2], [-0.8, -1.5, 0.2], [-0.3, -0.3, 0.2], [-0.5, -0.5, 0.0], [-1.0, -1.5, 0.0], [-1.2, -2.0, 0.0], [-1.4, -2.0, 0.0], [-0.6, -1.2, 0.0], [-0.3, -0.3, 0.0]]),
    (30.0, [[-0.5, -1.5, 0.5], [-0.5, -1.5, 0.7], [-0.2, -0.2, 0.4], [-0.4, -0.4, 0.0], [-0.7, -1.2, 0.0], [-0.5, -0.5, 0.0], [-1.4, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.2, -0.2, 0.0]]),
    (45.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.6], [-0.3, -0.3, 0.0], [-0.6, -0.6, 0.0], [-0.3, -0.3, 0.0], [-1.3, -2.0, 0.0], [-0.8, -1.2, 0.0], [-0.2, -0.2, 0.0]]),
    (60.0, [[ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [ 0.0,  0.0, 0.7], [-0.3, -0.3, 0.0], [-0.6, -0.6, 0.0], [-0.3, -0.3, 0.0], [-1.2, -2.0, 0.0], [-0.4, -0.4, 0.0], [-0.2, -0.2, 0.0]]),
    (75.0, [[ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [ 0.0,  0.0, 0.8], [-0.3, -0.3, 0.0], [-0.6, -0.6, 0.0], [-0.3, -0.3, 0.0], [-1.2, -2.0, 0.0], [-0.4, -0.4, 0.0], [-0.2, -0.2, 0.0]]),
];

/// A column of a table at a pitch; nothing outside of its rows.
pub(super) fn between<const N: usize>(
    table: Table<N>,
    column: usize,
    pitch: Angle,
) -> Option<Cell> {
    let deg = pitch.deg();
    table.windows(2).find_map(|rows| match rows {
        [(from, low), (to, high)] if *from <= deg && deg <= *to => {
            let (low, high) = (low.get(column)?, high.get(column)?);
            let share = (deg - from) / (to - from);
            Some(std::array::from_fn(|i| low[i] + (high[i] - low[i]) * share))
        }
        _ => None,
    })
}
