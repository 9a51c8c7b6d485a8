//! Regions of the plane that lines cut into pieces.

use super::{Point, Rect, sides_of};

/// Points nearer to a line than this lie on it, mm: far below what can be measured, far above the
/// rounding of coordinates of a roof.
const ON_LINE: f64 = 1e-6;

/// A directed line: the plane lies to its left and to its right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Border {
    through: Point,
    /// Unit vector along it.
    along: [f64; 2],
}

impl Border {
    /// The upright line at this `x`; what is further right lies to its right.
    #[must_use]
    pub const fn upright(x: f64) -> Self {
        Self { through: Point { x, y: 0.0 }, along: [0.0, 1.0] }
    }

    /// The level line at this `y`; what is lower lies to its right.
    #[must_use]
    pub const fn level(y: f64) -> Self {
        Self { through: Point { x: 0.0, y }, along: [1.0, 0.0] }
    }

    /// From one point through another; `None` where they are one point.
    #[must_use]
    pub fn through([from, to]: [Point; 2]) -> Option<Self> {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let length = dx.hypot(dy);
        (length > 0.0).then(|| Self { through: from, along: [dx / length, dy / length] })
    }

    /// The line that runs the same way, this far to its left.
    #[must_use]
    pub fn shifted_left(self, distance: f64) -> Self {
        let [x, y] = self.along;
        let through = Point { x: self.through.x - y * distance, y: self.through.y + x * distance };
        Self { through, ..self }
    }

    /// The line square to it through a point, running to its left.
    #[must_use]
    pub const fn square_at(self, through: Point) -> Self {
        let [x, y] = self.along;
        Self { through, along: [-y, x] }
    }

    /// The same line run the other way.
    #[must_use]
    pub const fn reversed(self) -> Self {
        let [x, y] = self.along;
        Self { along: [-x, -y], ..self }
    }

    /// Distance of a point, positive to the left; 0 for what lies on the line.
    fn distance_left(self, point: Point) -> f64 {
        let [x, y] = self.along;
        let distance = x * (point.y - self.through.y) - y * (point.x - self.through.x);
        if distance.abs() < ON_LINE { 0.0 } else { distance }
    }

    /// How far along the line the foot of the perpendicular through a point lies.
    fn place_along(self, point: Point) -> f64 {
        let [x, y] = self.along;
        x * (point.x - self.through.x) + y * (point.y - self.through.y)
    }
}

/// A simple polygon, counter-clockwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Region {
    points: Vec<Point>,
    bounds: Rect,
    /// Whether it fills its bounds.
    is_rect: bool,
}

/// What a rectangle holds of a region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Its area, mm².
    pub area: f64,
    /// Its centroid.
    pub centre: Point,
}

impl From<Rect> for Region {
    fn from(rect: Rect) -> Self {
        let points = rect.corners().map(|[x, y]| Point { x, y }).to_vec();
        Self { points, bounds: rect, is_rect: true }
    }
}

impl Region {
    /// The polygon with these points, which must be simple and run counter-clockwise.
    #[must_use]
    pub fn new(points: Vec<Point>) -> Self {
        let span = |of: fn(&Point) -> f64| {
            let ends = [f64::INFINITY, f64::NEG_INFINITY];
            points.iter().map(of).fold(ends, |[low, high], at| [low.min(at), high.max(at)])
        };
        let bounds = Rect { x: span(|p| p.x), y: span(|p| p.y) };
        let at_corner = |p: &Point| bounds.x.contains(&p.x) && bounds.y.contains(&p.y);
        if points.len() == 4 && points.iter().all(at_corner) {
            return Self::from(bounds);
        }
        Self { points, bounds, is_rect: false }
    }

    /// Its corners.
    #[must_use]
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// Its sides, each from a corner to the next.
    pub fn sides(&self) -> impl Iterator<Item = [Point; 2]> {
        sides_of(&self.points)
    }

    /// Smallest rectangle around it.
    #[must_use]
    pub const fn bounds(&self) -> &Rect {
        &self.bounds
    }

    /// Whether all its sides run along the axes and it is a rectangle.
    #[must_use]
    pub const fn is_rect(&self) -> bool {
        self.is_rect
    }

    /// The same region with every point moved.
    #[must_use]
    pub fn mapped(&self, to: impl Fn(Point) -> Point) -> Self {
        Self::new(self.points.iter().copied().map(to).collect())
    }

    /// Area, mm².
    #[must_use]
    pub fn area(&self) -> f64 {
        part_of(&self.points).map_or(0.0, |part| part.area)
    }

    /// What a rectangle holds of it; `None` where they share no area.
    #[must_use]
    pub fn within(&self, rect: &Rect) -> Option<Part> {
        let cut = self.bounds.cut(rect);
        let area = cut.area();
        if area <= 0.0 {
            return None;
        }
        if self.is_rect {
            return Some(Part { area, centre: cut.centre() });
        }
        let sides = [
            Border::upright(cut.x[1]),
            Border::upright(cut.x[0]).reversed(),
            Border::level(cut.y[0]),
            Border::level(cut.y[1]).reversed(),
        ];
        let held = sides.iter().fold(self.points.clone(), |points, side| clipped(&points, side));
        part_of(&held)
    }

    /// The pieces to the left and to the right of a line; each may be in several pieces.
    #[must_use]
    pub fn split(&self, line: &Border) -> [Vec<Self>; 2] {
        let corners = with_crossings(&self.points, line);
        let sign = |keep: fn(f64) -> bool| corners.iter().any(|(_, d)| keep(*d));
        match [sign(|d| d > 0.0), sign(|d| d < 0.0)] {
            [true, true] => {
                let right: Vec<(Point, f64)> = corners.iter().map(|(p, d)| (*p, -d)).collect();
                [pieces(&corners, line), pieces(&right, &line.reversed())]
            }
            [_, false] => [vec![self.clone()], Vec::new()],
            [false, true] => [Vec::new(), vec![self.clone()]],
        }
    }
}

/// The pieces of all regions to the left and to the right of a line.
#[must_use]
pub fn split_all(regions: &[Region], line: &Border) -> [Vec<Region>; 2] {
    let mut both = [Vec::new(), Vec::new()];
    for pieces in regions.iter().map(|region| region.split(line)) {
        for (side, pieces) in both.iter_mut().zip(pieces) {
            side.extend(pieces);
        }
    }
    both
}

/// The corners of a polygon and the points where its sides cross a line, each with its distance from
/// the line, positive to the left.
fn with_crossings(points: &[Point], line: &Border) -> Vec<(Point, f64)> {
    let mut corners = Vec::with_capacity(points.len() + 4);
    for [from, to] in sides_of(points) {
        let [here, there] = [line.distance_left(from), line.distance_left(to)];
        corners.push((from, here));
        if here * there < 0.0 {
            corners.push((crossing((from, here), (to, there)), 0.0));
        }
    }
    corners
}

/// Where a side crosses the line that its ends lie on either side of.
fn crossing((from, here): (Point, f64), (to, there): (Point, f64)) -> Point {
    let share = here / (here - there);
    Point { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share }
}

/// The polygon left of a line. A polygon that is not convex may come back as one whose parts hang together
/// by sides along the line, back and forth: they add nothing to area and centroid.
fn clipped(points: &[Point], line: &Border) -> Vec<Point> {
    let corners = with_crossings(points, line);
    corners.into_iter().filter(|(_, d)| *d >= 0.0).map(|(point, _)| point).collect()
}

/// The pieces of a polygon left of a line that crosses it.
///
/// What the line cuts the boundary into are chains that begin and end on the line. Along the line the
/// polygon is inside from an end of a chain to the next beginning, so the first end is joined to the
/// first beginning, the second to the second, and so on.
fn pieces(corners: &[(Point, f64)], line: &Border) -> Vec<Region> {
    let chains = chains(corners);
    let by_place = |of: fn(&[Point]) -> Option<&Point>| {
        let mut order: Vec<usize> = (0..chains.len()).collect();
        let place =
            |chain: &usize| of(&chains[*chain]).map_or(0.0, |point| line.place_along(*point));
        order.sort_by(|a, b| place(a).total_cmp(&place(b)));
        order
    };
    let mut after = vec![0; chains.len()];
    for (end, beginning) in by_place(<[Point]>::last).into_iter().zip(by_place(<[Point]>::first)) {
        after[end] = beginning;
    }
    let mut told = vec![false; chains.len()];
    let mut pieces = Vec::new();
    for first in 0..chains.len() {
        let mut points: Vec<Point> = Vec::new();
        let mut chain = first;
        while !std::mem::replace(&mut told[chain], true) {
            points.extend(&chains[chain]);
            chain = after[chain];
        }
        points.dedup();
        if points.len() > 1 && points.first() == points.last() {
            points.pop();
        }
        if part_of(&points).is_some() {
            pieces.push(Region::new(points));
        }
    }
    pieces
}

/// The stretches of a boundary that lie left of the line, each from one point on it to another.
fn chains(corners: &[(Point, f64)]) -> Vec<Vec<Point>> {
    let at = |i: usize| corners[i % corners.len()];
    let leaves_line = |i: &usize| at(*i).1 == 0.0 && at(i + 1).1 > 0.0;
    let chain = |start: usize| {
        let inner = (start + 1..).map(at).take_while(|(_, d)| *d > 0.0);
        let inner: Vec<Point> = inner.map(|(point, _)| point).collect();
        let end = at(start + 1 + inner.len()).0;
        [vec![at(start).0], inner, vec![end]].concat()
    };
    (0..corners.len()).filter(leaves_line).map(chain).collect()
}

/// Area and centroid of a polygon; `None` without area.
fn part_of(points: &[Point]) -> Option<Part> {
    let from = *points.first()?;
    let [mut twice, mut x, mut y] = [0.0; 3];
    // From a corner of its own, so that a small polygon far from the origin loses no digits.
    for pair in points.windows(2) {
        let [a, b] = [&pair[0], &pair[1]].map(|p| [p.x - from.x, p.y - from.y]);
        let cross = a[0] * b[1] - b[0] * a[1];
        twice += cross;
        x += (a[0] + b[0]) * cross;
        y += (a[1] + b[1]) * cross;
    }
    (twice > 2.0 * NO_AREA).then(|| Part {
        area: twice / 2.0,
        centre: Point { x: from.x + x / (3.0 * twice), y: from.y + y / (3.0 * twice) },
    })
}

/// Less area than this is none, mm².
const NO_AREA: f64 = 1e-6;

#[cfg(test)]
mod tests {
    use super::*;

    fn region(points: &[[f64; 2]]) -> Region {
        Region::new(points.iter().map(|[x, y]| Point { x: *x, y: *y }).collect())
    }

    /// A comb of two teeth that point up.
    fn comb() -> Region {
        region(&[
            [0.0, 0.0],
            [9.0, 0.0],
            [9.0, 5.0],
            [6.0, 5.0],
            [6.0, 1.0],
            [3.0, 1.0],
            [3.0, 4.0],
            [0.0, 4.0],
        ])
    }

    #[test]
    fn a_line_across_a_comb_leaves_its_teeth_apart() {
        let [above, below] = comb().split(&Border::level(2.0));
        assert_eq!(above.iter().map(Region::area).collect::<Vec<_>>(), [9.0, 6.0]);
        assert!(above.iter().all(Region::is_rect));
        assert_eq!(below.iter().map(Region::area).collect::<Vec<_>>(), [15.0]);
        // Along the bottom between the teeth it only touches.
        let [above, below] = comb().split(&Border::level(1.0));
        assert_eq!(above.iter().map(Region::area).collect::<Vec<_>>(), [12.0, 9.0]);
        assert_eq!(below.iter().map(Region::area).collect::<Vec<_>>(), [9.0]);
        // Along its whole lower side it cuts nothing off.
        let [above, below] = comb().split(&Border::level(0.0));
        assert_eq!((above, below), (vec![comb()], Vec::new()));
    }

    #[test]
    fn a_line_through_the_tip_of_a_notch_cuts_there() {
        let notched = region(&[[0.0, 0.0], [8.0, 0.0], [8.0, 4.0], [4.0, 2.0], [0.0, 4.0]]);
        let [above, below] = notched.split(&Border::level(2.0));
        assert_eq!(above.iter().map(Region::area).collect::<Vec<_>>(), [4.0, 4.0]);
        assert_eq!(below.iter().map(Region::area).collect::<Vec<_>>(), [16.0]);
        let apex = region(&[[0.0, 0.0], [4.0, 4.0], [-4.0, 4.0]]);
        assert_eq!(apex.split(&Border::level(0.0)), [vec![apex.clone()], Vec::new()]);
    }

    #[test]
    fn pieces_have_the_area_and_the_centroid_of_the_whole() {
        let whole = comb();
        for line in [
            Border::upright(7.0),
            Border::level(3.5),
            Border::through([Point { x: -1.0, y: -2.0 }, Point { x: 9.0, y: 6.0 }]).unwrap(),
            Border::through([Point { x: 9.0, y: 0.0 }, Point { x: 0.0, y: 4.0 }]).unwrap(),
        ] {
            let pieces = whole.split(&line).concat();
            assert!(pieces.len() > 1, "{line:?}");
            let all = Rect { x: [-9.0, 19.0], y: [-9.0, 19.0] };
            let held: Vec<Part> = pieces.iter().filter_map(|piece| piece.within(&all)).collect();
            let area: f64 = held.iter().map(|part| part.area).sum();
            let moment: f64 = held.iter().map(|part| part.area * part.centre.x).sum();
            let of_whole = whole.within(&all).unwrap();
            assert!((area - 30.0).abs() < 1e-12, "{line:?}: {area}");
            assert!((moment - 30.0 * of_whole.centre.x).abs() < 1e-9, "{line:?}: {moment}");
        }
    }

    #[test]
    fn a_rectangle_holds_its_part_of_a_triangle() {
        let triangle = region(&[[0.0, 0.0], [6.0, 0.0], [0.0, 6.0]]);
        let part = triangle.within(&Rect { x: [0.0, 3.0], y: [3.0, 9.0] }).unwrap();
        assert!((part.area - 4.5).abs() < 1e-12);
        assert!((part.centre.x - 1.0).abs() < 1e-12 && (part.centre.y - 4.0).abs() < 1e-12);
        assert_eq!(triangle.within(&Rect { x: [3.0, 6.0], y: [3.0, 6.0] }), None);
        assert!(!triangle.is_rect() && Region::from(*triangle.bounds()).is_rect());
    }
}
