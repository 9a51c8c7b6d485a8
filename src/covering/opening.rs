//! Which tiles come off for a hook, which are replaced, and which nib is in the way.
//!
//! **Model.** The foot stands above the head of the tile below the arm. What covers it is the
//! course the arm leaves under and, laid double, the next one as well; a crown covering has a cover
//! row and a bed row in that one course. Of these come off all that lie over the foot and over the
//! room hands and driver need beside it; interlocking tiles are pushed up whole and need no more
//! than the foot. That this makes five or six plain tiles a hook, two to four in a crown covering
//! and one or two interlocking ones is common practice, and tested as that.
//!
//! **Nibs.** A tile with its nib over the arm rides on it when it is slid back; a nib of the tile
//! below is in the way where the foot has no room above its head.
//!
//! **Left out.** Tiles that are only lifted at their tail, mortar, nails and clips.

use super::courses::{self, column_at};
use super::{Covering, Laying};
use crate::units::Length;

/// Room for hands and driver on either side of a foot under tiles laid double (common practice, no
/// source).
const BESIDE_FOOT: Length = Length::from_mm(70.0);

/// An arm this much nearer than its edge to a side joint concerns the tiles on both sides of it
/// (common practice, no source).
const BESIDE_ARM: Length = Length::from_mm(10.0);

/// Width of a nib (common practice, no source).
const NIB: Length = Length::from_mm(40.0);

/// A tile, by its place on the grid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tile {
    /// Course.
    pub course: i64,
    /// Column of that course.
    pub column: i64,
}

/// Row of a course that tiles lie in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Row {
    /// The row that is seen; the only one but in a crown covering.
    Cover,
    /// The row under it, in a crown covering, half a tile to the right of it.
    Bed,
}

/// Neighbouring tiles of one row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Run {
    /// Course.
    pub course: i64,
    /// Row of the course.
    pub row: Row,
    /// First and last column.
    pub columns: [i64; 2],
}

impl Run {
    /// How many tiles it has.
    #[must_use]
    pub const fn tiles(&self) -> i64 {
        self.columns[1] - self.columns[0] + 1
    }
}

/// What is to be done to the tiles at one hook.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Tiles that come off, lowest course first.
    pub lift: Vec<Run>,
    /// The tile under the arm.
    pub below: Tile,
    /// The tile over the arm.
    pub above: Tile,
    /// The tile beside that, across the joint the arm is nearest to.
    pub beside: Tile,
    /// From the arm's axis to the nearest side joint of the course below.
    pub lower_joint: Length,
}

/// The opening for a hook whose foot stands on `axis` and whose arm leaves under `course` at `arm`.
#[must_use]
pub fn opening(
    covering: &Covering,
    course: i64,
    [axis, arm]: [Length; 2],
    foot_width: Length,
) -> Opening {
    let across = |room: Length| [axis - foot_width / 2.0 - room, axis + foot_width / 2.0 + room];
    let run = |course: i64, row: Row, [left, right]: [Length; 2]| {
        let shift = row_shift(covering, row);
        let column = |x: Length| column_at(covering, course, x - shift);
        Run { course, row, columns: [column(left), column(right)] }
    };
    let lift = match covering.laying {
        Laying::DoubleLap => {
            let across = across(BESIDE_FOOT);
            vec![run(course, Row::Cover, across), run(course + 1, Row::Cover, across)]
        }
        Laying::Crown => {
            let across = across(Length::ZERO);
            vec![run(course, Row::Bed, across), run(course, Row::Cover, across)]
        }
        Laying::Interlocking => vec![run(course, Row::Cover, across(Length::ZERO))],
    };
    let exit = courses::exit_at(covering, course, arm);
    let lower = courses::exit_at(covering, course - 1, arm);
    let to_left = arm - courses::left_joint(covering, course, exit.column);
    let at_left_joint = to_left <= covering.cover_width / 2.0;
    let beside = if at_left_joint { exit.column - 1 } else { exit.column + 1 };
    Opening {
        lift,
        below: Tile { course: course - 1, column: lower.column },
        above: Tile { course, column: exit.column },
        beside: Tile { course, column: beside },
        lower_joint: lower.side_joint,
    }
}

/// Whether an arm stands so near to a side joint that the tiles on both sides of it are concerned.
#[must_use]
pub fn concerns_both(side_joint: Length, arm_width: Length) -> bool {
    side_joint < arm_width / 2.0 + BESIDE_ARM
}

/// How far the tiles of a row lie to the right of the course's joints.
#[must_use]
pub fn row_shift(covering: &Covering, row: Row) -> Length {
    match row {
        Row::Cover => Length::ZERO,
        Row::Bed => covering.cover_width / 2.0,
    }
}

/// Whether a nib of a tile comes within `reach` of `x`; a tile of one course, under or over `x`.
#[must_use]
pub fn nib_within(covering: &Covering, tile: Tile, x: Length, reach: Length) -> bool {
    let left = courses::left_joint(covering, tile.course, tile.column);
    covering.nibs.iter().any(|nib| (left + *nib - x).abs() < reach + NIB / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn covering(laying: Laying, cover_width: f64) -> Covering {
        let mm = Length::from_mm;
        Covering {
            laying,
            tile_length: mm(380.0),
            tile_thickness: mm(14.0),
            camber: Length::ZERO,
            cover_width: mm(cover_width),
            gauge: mm(if laying == Laying::Crown { 310.0 } else { 155.0 }),
            first_course: Length::ZERO,
            batten_thickness: mm(30.0),
            batten_width: mm(50.0),
            half_bond: laying != Laying::Crown,
            joint_origin: Length::ZERO,
            troughs: Vec::new(),
            head_projection: mm(15.0),
            nibs: vec![mm(cover_width / 2.0)],
        }
    }

    fn tiles(laying: Laying, cover_width: f64) -> Vec<i64> {
        let covering = covering(laying, cover_width);
        // Every place across two tiles, a millimetre apart.
        let count = |x: f64| {
            let x = Length::from_mm(x + 0.3);
            opening(&covering, 7, [x, x], Length::from_mm(140.0)).lift.iter().map(Run::tiles).sum()
        };
        let mut all: Vec<i64> =
            (0..2 * 400).map(|step| count(f64::from(step) * cover_width / 400.0)).collect();
        all.sort_unstable();
        all.dedup();
        all
    }

    /// Common practice, no source: five to six plain tiles a hook, two to four in a crown covering,
    /// one or two interlocking ones pushed up.
    #[test]
    fn as_many_tiles_come_off_as_is_common_practice() {
        assert_eq!(tiles(Laying::DoubleLap, 183.0), [5, 6]);
        assert_eq!(tiles(Laying::DoubleLap, 168.0), [5, 6]);
        assert_eq!(tiles(Laying::Crown, 183.0), [3, 4]);
        assert_eq!(tiles(Laying::Interlocking, 300.0), [1, 2]);
    }

    #[test]
    fn with_half_bond_a_joint_above_means_a_whole_tile_below() {
        let covering = covering(Laying::DoubleLap, 183.0);
        let at = |x: f64| {
            let x = Length::from_mm(x);
            opening(&covering, 4, [x, x], Length::from_mm(140.0))
        };
        // Course 4 has joints at 0 and 183, course 3 at 91.5.
        let on_joint = at(183.0);
        assert!((on_joint.lower_joint.mm() - 91.5).abs() < 1e-9);
        assert_eq!(on_joint.above, Tile { course: 4, column: 1 });
        assert_eq!(on_joint.beside, Tile { course: 4, column: 0 });
        assert_eq!(on_joint.below, Tile { course: 3, column: 0 });
        let left_of_it = at(180.0);
        assert_eq!(left_of_it.above, Tile { course: 4, column: 0 });
        assert_eq!(left_of_it.beside, Tile { course: 4, column: 1 });
        // Nearer to its left joint by the width of a hair, and as near but for rounding.
        assert_eq!(at(91.4).beside, Tile { course: 4, column: -1 });
        let shifted = Covering { joint_origin: Length::from_mm(5.1), ..covering.clone() };
        for tile in 0..60 {
            let x = Length::from_mm(5.1 + 183.0 * f64::from(tile) + 28.5);
            let beside = opening(&shifted, 4, [x, x], Length::from_mm(140.0)).beside;
            assert_eq!(beside.column, i64::from(tile) - 1, "at {} mm", x.mm());
        }
        // In the middle of a tile the joint of the course below lies under the arm.
        let in_the_middle = at(91.0);
        assert!(in_the_middle.lower_joint.mm() < 1.0);
        // Half of a 30 mm arm and 10 mm.
        let both =
            |side_joint: f64| concerns_both(Length::from_mm(side_joint), Length::from_mm(30.0));
        assert!(both(24.9) && !both(25.0));
    }

    #[test]
    fn a_nib_is_met_where_it_is() {
        let covering = covering(Laying::DoubleLap, 183.0);
        let tile = Tile { course: 4, column: 2 };
        let met = |x: f64| nib_within(&covering, tile, Length::from_mm(x), Length::from_mm(15.0));
        // Its left joint lies at 366, its nib at 457.5: 20 of nib and 15 of arm to either side.
        assert!(met(457.5) && met(423.0) && met(492.0));
        assert!(!met(422.0) && !met(493.0));
    }
}
