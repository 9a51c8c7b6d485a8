//! The grid of courses and tile columns.
//!
//! Courses count from 0 at the first full course, upwards; columns from 0 at the joint origin, to
//! the right. Both may be negative.

use super::Covering;
use crate::units::Length;

/// A place on the grid where an arm leaves the covering.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exit {
    /// Course whose tail edge it leaves under.
    pub course: i64,
    /// Tile of that course it leaves under.
    pub column: i64,
    /// Distance to the nearest side joint of that course.
    pub side_joint: Length,
}

/// Tail edge of a course above the eaves line: `first + course · gauge`.
#[must_use]
pub fn tail_edge(covering: &Covering, course: i64) -> Length {
    covering.first_course + covering.gauge * course as f64
}

/// Courses whose tail edge lies between two heights, lowest first.
///
/// A tenth of a millimetre is allowed for: a line that was itself rounded must find its course.
pub fn courses_between(
    covering: &Covering,
    low: Length,
    high: Length,
) -> impl Iterator<Item = i64> + use<> {
    const ROUNDING: f64 = 0.1;
    let count = |y: Length| (y - covering.first_course) / covering.gauge;
    let slack = ROUNDING / covering.gauge.mm();
    let first = whole((count(low) - slack).ceil().max(0.0));
    let last = whole((count(high) + slack).floor());
    first..=last
}

/// The course whose tail edge lies nearest to a height.
#[must_use]
pub fn nearest_course(covering: &Covering, y: Length) -> i64 {
    whole(((y - covering.first_course) / covering.gauge).round())
}

/// Tile column and nearest side joint of a course at `x`.
#[must_use]
pub fn exit_at(covering: &Covering, course: i64, x: Length) -> Exit {
    let pitch = covering.cover_width;
    let places = (x - course_origin(covering, course)) / pitch;
    let column = places.floor();
    let beside = places - column;
    Exit { course, column: whole(column), side_joint: pitch * beside.min(1.0 - beside) }
}

/// Column of the tile of a course at `x`.
#[must_use]
pub fn column_at(covering: &Covering, course: i64, x: Length) -> i64 {
    exit_at(covering, course, x).column
}

/// Side joint on the left of a tile.
#[must_use]
pub fn left_joint(covering: &Covering, course: i64, column: i64) -> Length {
    course_origin(covering, course) + covering.cover_width * column as f64
}

/// Number of a tile of a course counted from the left verge, whose first, cut or whole, is 1.
#[must_use]
pub fn from_verge(covering: &Covering, course: i64, column: i64, verge: Length) -> i64 {
    /// A sliver of a tile that is only rounding is none.
    const ROUNDING: Length = Length::from_mm(0.1);
    column.saturating_sub(column_at(covering, course, verge + ROUNDING)).saturating_add(1)
}

/// Troughs of a course on the tiles around `x`, left to right; `x` itself where the covering lets
/// an arm out anywhere.
#[must_use]
pub fn troughs_around(covering: &Covering, course: i64, x: Length) -> Vec<Length> {
    if covering.troughs.is_empty() {
        return vec![x];
    }
    let pitch = covering.cover_width;
    let origin = course_origin(covering, course);
    let column = ((x - origin) / pitch).floor();
    // The nearest trough may belong to the tile on either side.
    let mut all: Vec<Length> = [column - 1.0, column, column + 1.0]
        .iter()
        .flat_map(|tile| covering.troughs.iter().map(move |at| origin + pitch * *tile + *at))
        .collect();
    all.sort_by(|a, b| a.mm().total_cmp(&b.mm()));
    all
}

fn course_origin(covering: &Covering, course: i64) -> Length {
    let shifted = covering.half_bond && course.rem_euclid(2) == 1;
    covering.joint_origin + covering.cover_width * if shifted { 0.5 } else { 0.0 }
}

/// A rounded number as a count; the conversion saturates, so no input can make it wrap.
#[expect(clippy::cast_possible_truncation, reason = "the argument is already rounded")]
const fn whole(rounded: f64) -> i64 {
    rounded as i64
}
