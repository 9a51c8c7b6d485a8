//! Plane figures of the roof slope: outlines, rectangles, overlaps. Coordinates in mm.
//!
//! Validity, containment and distances are the `geo` library's; the one overlap area the wind
//! needs for every module is worked out here without allocation.
//!
//! **Layer.** Bottom, beside `units`.

mod ramp;
mod region;
mod shadow;

pub use ramp::{Heap, Ramp};
pub use region::{Border, Part, Region, split_all};
pub use shadow::shadow;

use geo::coordinate_position::{CoordPos, CoordinatePosition};
use geo::{Coord, Distance, Euclidean, IsConvex, Line, LineString, Polygon, Relate, Validation};

use crate::units::Angle;

/// A point of the roof plane, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Along the eaves to the right.
    pub x: f64,
    /// Up the slope.
    pub y: f64,
}

impl Point {
    /// The point as a plan of a roof of this pitch shows it.
    #[must_use]
    pub fn on_plan(self, pitch: Angle) -> Self {
        Self { y: self.y * pitch.cos(), ..self }
    }
}

/// A rectangle with sides along the axes, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect {
    /// Left and right.
    pub x: [f64; 2],
    /// Bottom and top.
    pub y: [f64; 2],
}

impl Rect {
    /// Area, mm².
    #[must_use]
    pub fn area(&self) -> f64 {
        (self.x[1] - self.x[0]).max(0.0) * (self.y[1] - self.y[0]).max(0.0)
    }
    /// What it shares with another rectangle; without area where they are apart.
    #[must_use]
    pub const fn cut(&self, other: &Self) -> Self {
        Self {
            x: [self.x[0].max(other.x[0]), self.x[1].min(other.x[1])],
            y: [self.y[0].max(other.y[0]), self.y[1].min(other.y[1])],
        }
    }
    /// Area shared with another rectangle, mm².
    #[must_use]
    pub fn overlap(&self, other: &Self) -> f64 {
        self.cut(other).area()
    }
    /// Distance to a line between two points, 0 where they meet, mm.
    #[must_use]
    pub fn distance(&self, [from, to]: [Point; 2]) -> f64 {
        let line = Line::new(Coord { x: from.x, y: from.y }, Coord { x: to.x, y: to.y });
        Euclidean.distance(&line, &self.polygon())
    }
    /// Its centroid.
    #[must_use]
    pub const fn centre(&self) -> Point {
        Point { x: f64::midpoint(self.x[0], self.x[1]), y: f64::midpoint(self.y[0], self.y[1]) }
    }
    /// Corners, counter-clockwise from the lower left.
    #[must_use]
    pub const fn corners(&self) -> [[f64; 2]; 4] {
        [
            [self.x[0], self.y[0]],
            [self.x[1], self.y[0]],
            [self.x[1], self.y[1]],
            [self.x[0], self.y[1]],
        ]
    }
    fn polygon(&self) -> Polygon {
        polygon(&self.corners())
    }
}

/// What is wrong with an outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum BadOutline {
    /// Crosses or touches itself, or has no area.
    #[error("the outline crosses or touches itself, or encloses no area")]
    NotSimple,
    /// Runs clockwise.
    #[error("the outline runs clockwise; list its points counter-clockwise")]
    Clockwise,
}

/// A simple, counter-clockwise outline.
#[derive(Debug, Clone)]
pub struct Outline {
    points: Vec<Point>,
    polygon: Polygon,
    convex: bool,
}

impl Outline {
    /// Checks and keeps an outline.
    ///
    /// # Errors
    /// [`BadOutline`] when it is not simple or runs clockwise.
    pub fn new(points: &[[f64; 2]]) -> Result<Self, BadOutline> {
        let twice_area: f64 = points
            .iter()
            .zip(points.iter().cycle().skip(1))
            .map(|(a, b)| a[0] * b[1] - b[0] * a[1])
            .sum();
        let polygon = polygon(points);
        if points.len() < 3 || twice_area == 0.0 || !polygon.is_valid() {
            return Err(BadOutline::NotSimple);
        }
        if twice_area < 0.0 {
            return Err(BadOutline::Clockwise);
        }
        let points = points.iter().map(|p| Point { x: p[0], y: p[1] }).collect();
        let convex = polygon.exterior().is_convex();
        Ok(Self { points, polygon, convex })
    }

    /// Its points.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// Its sides, each from a corner to the next.
    pub fn sides(&self) -> impl Iterator<Item = [Point; 2]> + '_ {
        sides_of(&self.points)
    }

    /// What it encloses.
    #[must_use]
    pub fn region(&self) -> Region {
        Region::new(self.points.clone())
    }

    /// Smallest rectangle around it.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let span = |of: fn(&Point) -> f64| {
            self.points
                .iter()
                .map(of)
                .fold([f64::INFINITY, f64::NEG_INFINITY], |[lo, hi], v| [lo.min(v), hi.max(v)])
        };
        Rect { x: span(|p| p.x), y: span(|p| p.y) }
    }

    /// Whether a rectangle lies inside, edges allowed to touch.
    #[must_use]
    pub fn covers(&self, rect: &Rect) -> bool {
        if self.convex {
            // The whole of a convex figure lies where its corners do.
            let outside = |[x, y]: [f64; 2]| {
                self.polygon.coordinate_position(&Coord { x, y }) == CoordPos::Outside
            };
            return !rect.corners().into_iter().any(outside);
        }
        self.polygon.relate(&rect.polygon()).is_covers()
    }

    /// Whether a point lies inside, not on a side.
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        let at = Coord { x: point.x, y: point.y };
        self.polygon.coordinate_position(&at) == CoordPos::Inside
    }

    /// Distance to a rectangle, 0 when they share an inner point or touch, mm.
    #[must_use]
    pub fn distance(&self, rect: &Rect) -> f64 {
        Euclidean.distance(&self.polygon, &rect.polygon())
    }

    /// Whether a rectangle shares area with it.
    #[must_use]
    pub fn overlaps(&self, rect: &Rect) -> bool {
        let relation = self.polygon.relate(&rect.polygon());
        relation.is_intersects() && !relation.is_touches()
    }

    /// Left and right edge of the outline at height `y`: the nearest ones on either side of `x`.
    #[must_use]
    pub fn edges_beside(&self, x: f64, y: f64) -> Option<[f64; 2]> {
        let mut left = f64::NEG_INFINITY;
        let mut right = f64::INFINITY;
        for [a, b] in self.sides() {
            if (a.y <= y) != (b.y <= y) {
                let at = a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
                if at <= x {
                    left = left.max(at);
                } else {
                    right = right.min(at);
                }
            }
        }
        (left.is_finite() && right.is_finite()).then_some([left, right])
    }
}

/// The sides of a polygon, each from a corner to the next.
fn sides_of(points: &[Point]) -> impl Iterator<Item = [Point; 2]> + '_ {
    points.iter().zip(points.iter().cycle().skip(1)).map(|(from, to)| [*from, *to])
}

fn polygon(points: &[[f64; 2]]) -> Polygon {
    Polygon::new(
        LineString::new(points.iter().map(|p| Coord { x: p[0], y: p[1] }).collect()),
        Vec::new(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bow_tie_is_no_outline() {
        let bow = [[0.0, 0.0], [10.0, 10.0], [10.0, 0.0], [0.0, 10.0]];
        assert_eq!(Outline::new(&bow).err(), Some(BadOutline::NotSimple));
    }

    #[test]
    fn a_module_flush_with_the_edge_is_on_the_roof() {
        let roof = Outline::new(&[[0.0, 0.0], [10.0, 0.0], [10.0, 5.0], [0.0, 5.0]]).unwrap();
        assert!(roof.covers(&Rect { x: [0.0, 2.0], y: [0.0, 5.0] }));
        assert!(!roof.covers(&Rect { x: [-0.1, 2.0], y: [0.0, 5.0] }));
    }

    /// Its corners alone would be on the roof: a dormer cuts into its upper edge.
    #[test]
    fn a_module_across_a_notch_is_not_on_the_roof() {
        let notch = [[6.0, 5.0], [6.0, 4.0], [4.0, 4.0], [4.0, 5.0]];
        let roof = [&[[0.0, 0.0], [10.0, 0.0], [10.0, 5.0]][..], &notch, &[[0.0, 5.0]]].concat();
        let roof = Outline::new(&roof).unwrap();
        assert!(!roof.covers(&Rect { x: [3.0, 7.0], y: [0.0, 5.0] }));
        assert!(roof.covers(&Rect { x: [3.0, 7.0], y: [0.0, 4.0] }));
    }
}
