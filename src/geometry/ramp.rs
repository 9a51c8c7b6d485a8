//! What is largest along a line and falls evenly to nothing beside it, or stays as it is and ends.

use super::Point;

/// A wedge over the plane: 1 along a line, falling evenly to 0 at some distance to the left of it,
/// and 0 beyond, behind the line, and outside the perpendiculars at its ends. A level one is 1 all the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ramp {
    from: Point,
    /// Unit vector along the line.
    along: [f64; 2],
    length: f64,
    reach: f64,
    /// How much of its height it loses on the way, 1 or nothing.
    fall: f64,
}

/// A body over an area: how much it holds, and the point of the plane below its centroid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heap {
    /// Height times area.
    pub volume: f64,
    /// Centroid.
    pub at: Point,
}

impl Ramp {
    /// Along a line from one point to another, this wide. A line of no length has nothing beside it.
    #[must_use]
    pub fn new([from, to]: [Point; 2], reach: f64) -> Self {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let length = dx.hypot(dy);
        let along = if length > 0.0 { [dx / length, dy / length] } else { [0.0; 2] };
        Self { from, along, length, reach: reach.max(0.0), fall: 1.0 }
    }

    /// The same without its fall: a step.
    #[must_use]
    pub const fn level(self) -> Self {
        Self { fall: 0.0, ..self }
    }

    /// Distance of a point from the line, positive to the left.
    #[must_use]
    pub fn distance(&self, point: Point) -> f64 {
        self.along[0] * (point.y - self.from.y) - self.along[1] * (point.x - self.from.x)
    }

    /// How far along the line the foot of the perpendicular through a point lies.
    fn beside(&self, point: Point) -> f64 {
        self.along[0] * (point.x - self.from.x) + self.along[1] * (point.y - self.from.y)
    }

    /// Its height where it is not 0, and what this would be in its plane elsewhere.
    fn height(&self, point: Point) -> f64 {
        1.0 - self.fall * self.distance(point) / self.reach
    }

    /// The part of a convex polygon it covers.
    fn covered(&self, polygon: &[Point]) -> Vec<Point> {
        if self.length <= 0.0 || self.reach <= 0.0 {
            return Vec::new();
        }
        let sides: [&dyn Fn(Point) -> f64; 4] = [
            &|p| self.distance(p),
            &|p| self.reach - self.distance(p),
            &|p| self.beside(p),
            &|p| self.length - self.beside(p),
        ];
        sides.iter().fold(polygon.to_vec(), |part, inside| clip(&part, inside))
    }

    /// What it holds over a convex polygon; nothing where it does not reach it.
    #[must_use]
    pub fn over(&self, polygon: &[Point]) -> Option<Heap> {
        let covered = self.covered(polygon);
        let (first, rest) = covered.split_first()?;
        let (mut volume, mut moment) = (0.0, [0.0; 2]);
        for pair in rest.windows(2) {
            let corners = [*first, pair[0], pair[1]];
            let [a, b, c] = corners;
            let area = ((b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y)) / 2.0;
            let heights = corners.map(|corner| self.height(corner));
            let sum: f64 = heights.iter().sum();
            volume += area * sum / 3.0;
            // ∫ f x over a triangle, both linear: A/12 (Σf Σx + Σ f x).
            for (axis, moment) in moment.iter_mut().enumerate() {
                let at = corners.map(|corner| [corner.x, corner.y][axis]);
                let both: f64 = heights.iter().zip(at).map(|(f, x)| f * x).sum();
                *moment += area / 12.0 * (sum * at.iter().sum::<f64>() + both);
            }
        }
        let [x, y] = moment.map(|moment| moment / volume);
        (volume > 0.0).then_some(Heap { volume, at: Point { x, y } })
    }

    /// Its greatest height over a convex polygon.
    #[must_use]
    pub fn greatest_over(&self, polygon: &[Point]) -> f64 {
        let covered = self.covered(polygon);
        covered.iter().map(|corner| self.height(*corner)).fold(0.0, f64::max)
    }
}

/// What of a convex polygon lies where a linear function is not negative.
fn clip(polygon: &[Point], inside: &dyn Fn(Point) -> f64) -> Vec<Point> {
    let mut kept = Vec::with_capacity(polygon.len() + 1);
    for (i, from) in polygon.iter().enumerate() {
        let to = polygon[(i + 1) % polygon.len()];
        let (here, there) = (inside(*from), inside(to));
        if here >= 0.0 {
            kept.push(*from);
        }
        if (here >= 0.0) != (there >= 0.0) {
            let t = here / (here - there);
            kept.push(Point { x: from.x + (to.x - from.x) * t, y: from.y + (to.y - from.y) * t });
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn at(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    fn rect(x: [f64; 2], y: [f64; 2]) -> [Point; 4] {
        [at(x[0], y[0]), at(x[1], y[0]), at(x[1], y[1]), at(x[0], y[1])]
    }

    fn close(heap: Option<Heap>, volume: f64, [x, y]: [f64; 2]) {
        let heap = heap.expect("it is reached");
        let off = [heap.volume - volume, heap.at.x - x, heap.at.y - y];
        assert!(off.iter().all(|off| off.abs() < 1e-12), "{heap:?}");
    }

    /// Along the lower edge of the plane, 4 wide: over a strip from 1 to 3 it falls from 3/4 to 1/4, so
    /// that 2·1·1/2 = 1 lies there, 1/3 (3/4 + 2/4) / (3/4 + 1/4) of the way up: 1 + 2·5/12.
    #[test]
    fn a_strip_under_a_ramp_by_hand() {
        let ramp = Ramp::new([at(0.0, 0.0), at(10.0, 0.0)], 4.0);
        close(ramp.over(&rect([2.0, 3.0], [1.0, 3.0])), 1.0, [2.5, 1.0 + 5.0 / 6.0]);
        // Of one that reaches beyond the kink at 4 the triangle from 2 to 4 counts: 1/2·2·1/2.
        close(ramp.over(&rect([2.0, 3.0], [2.0, 9.0])), 0.5, [2.5, 2.0 + 2.0 / 3.0]);
        assert_eq!(ramp.over(&rect([2.0, 3.0], [4.0, 9.0])), None);
        // As a step it is 1 from 1 to 3, and from 2 to its end at 4.
        close(ramp.level().over(&rect([2.0, 3.0], [1.0, 3.0])), 2.0, [2.5, 2.0]);
        close(ramp.level().over(&rect([2.0, 3.0], [2.0, 9.0])), 2.0, [2.5, 3.0]);
        assert_eq!(
            ramp.level().greatest_over(&rect([2.0, 3.0], [3.0, 9.0])).to_bits(),
            1.0_f64.to_bits()
        );
        assert_eq!(ramp.over(&rect([10.0, 12.0], [0.0, 1.0])), None, "beyond its end");
        assert_eq!(ramp.over(&rect([1.0, 2.0], [-2.0, 0.0])), None, "behind it");
        assert!((ramp.greatest_over(&rect([2.0, 3.0], [1.0, 9.0])) - 0.75).abs() < 1e-12);
    }

    /// A ramp along the diagonal, wide enough to cover half a square of 2: the pyramid over a triangle
    /// of area 2, 1 high along its long side, holds 2·2/3; its distances from the diagonal lie √2/4 away.
    #[test]
    fn a_slanting_ramp_by_hand() {
        let ramp = Ramp::new([at(0.0, 0.0), at(2.0, 2.0)], 2.0_f64.sqrt());
        let middle = 1.0 - 0.25;
        close(ramp.over(&rect([0.0, 2.0], [0.0, 2.0])), 4.0 / 3.0, [middle, 2.0 - middle]);
    }
}
