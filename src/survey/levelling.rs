//! Straight rails as exact points in the plane of all lines, and the one that keeps its slots
//! nearest the middle.
//!
//! **Model.** A straight rail is `z = a + m·x`: a point `(a, m)`. "The rail passes station `x` at
//! `z` or below" is a half-plane of such points, so what a set of slots allows is a convex
//! [`Region`], held by its corners. Every corner is the crossing of two of the bounds that were
//! asked for, never of derived ones: its numbers do not grow, and every comparison is made in
//! whole numbers without any tolerance.
//!
//! **Units.** Heights in millionths of a millimetre, stations in hundredths; both are whole
//! numbers here. [`crate::units`] at the border, in the parent module.
//!
//! **Why the best fit is exact.** The sum of distances to aims is convex and, between the lines
//! of rails that meet one aim exactly, linear. A linear function on a bounded polygon is least at
//! a corner; so among the corners of the region, the crossings of aims with its edges and the
//! crossings of aims with each other lies a best rail. All of them are tried.
//!
//! **Checked by** `tests/properties/survey.rs` against a general-purpose solver.

use std::cmp::Ordering;

/// A whole number wide enough for every product formed here.
pub type Exact = i128;

/// A straight rail `z = (a + m·x)/d` with `d > 0`.
#[derive(Debug, Clone, Copy)]
pub struct RailLine {
    a: Exact,
    m: Exact,
    d: Exact,
}

impl RailLine {
    /// The rail on the border of two bounds; `None` where they are parallel.
    fn on_both(one: Bound, other: Bound) -> Option<Self> {
        let d = one.on_a * other.on_m - one.on_m * other.on_a;
        let a = one.at * other.on_m - one.on_m * other.at;
        let m = one.on_a * other.at - one.at * other.on_a;
        match d.cmp(&0) {
            Ordering::Equal => None,
            Ordering::Greater => Some(Self { a, m, d }),
            Ordering::Less => Some(Self { a: -a, m: -m, d: -d }),
        }
    }

    /// Height at a station, as the fraction's numerator.
    const fn over(&self, x: Exact) -> Exact {
        self.a + self.m * x
    }

    /// Whether two fractions describe the same rail.
    const fn is(&self, other: &Self) -> bool {
        self.a * other.d == other.a * self.d && self.m * other.d == other.m * self.d
    }

    /// Height at a station.
    #[must_use]
    pub fn at(&self, x: Exact) -> f64 {
        self.over(x) as f64 / self.d as f64
    }

    /// Height at a station, rounded up and rounded down.
    #[must_use]
    pub fn rounded(&self, x: Exact) -> [Exact; 2] {
        [-floor(-self.over(x), self.d), floor(self.over(x), self.d)]
    }

    /// Height at a station above `z`, rounded only once: small differences of large heights keep
    /// their digits.
    #[must_use]
    pub fn above(&self, x: Exact, z: Exact) -> f64 {
        (self.over(x) - z * self.d) as f64 / self.d as f64
    }

    /// Rise per unit of the stations.
    #[must_use]
    pub fn slope(&self) -> f64 {
        self.m as f64 / self.d as f64
    }
}

/// The half-plane of rails with `on_a·a + on_m·m <= at`.
#[derive(Debug, Clone, Copy)]
pub struct Bound {
    on_a: Exact,
    on_m: Exact,
    at: Exact,
}

impl Bound {
    /// Rails at `z` or lower at station `x`.
    #[must_use]
    pub const fn not_above(x: Exact, z: Exact) -> Self {
        Self { on_a: 1, on_m: x, at: z }
    }

    /// Rails at `z` or higher at station `x`.
    #[must_use]
    pub const fn not_below(x: Exact, z: Exact) -> Self {
        Self { on_a: -1, on_m: -x, at: -z }
    }

    /// Rails that rise by at most `rise` over `run`, and those that fall by at most as much.
    #[must_use]
    pub const fn tilt(rise: Exact, run: Exact) -> [Self; 2] {
        [Self { on_a: 0, on_m: run, at: rise }, Self { on_a: 0, on_m: -run, at: rise }]
    }

    /// Above zero where a rail breaks the bound, zero on its border.
    const fn excess(self, line: &RailLine) -> Exact {
        self.on_a * line.a + self.on_m * line.m - self.at * line.d
    }
}

/// A convex set of rails: its corners in order, each with the bound whose border runs from it to
/// the next. It may have shrunk to a segment or a point; it is never empty.
#[derive(Debug, Clone)]
pub struct Region {
    corners: Vec<(RailLine, Bound)>,
}

/// How high the rails of a region pass one station.
#[derive(Debug, Clone, Copy)]
pub struct Reach {
    /// Lowest height, rounded up.
    pub lowest_up: Exact,
    /// Highest height, rounded down.
    pub highest_down: Exact,
    /// Highest height, rounded up.
    pub highest_up: Exact,
}

impl Region {
    /// All rails through two gates, each a station with its lowest and highest height. Where both
    /// stand at the same station nothing says how a rail tilts: it is held level.
    #[must_use]
    pub fn through(one: (Exact, [Exact; 2]), other: (Exact, [Exact; 2])) -> Option<Self> {
        let (x1, [low1, top1]) = one;
        let (x2, [low2, top2]) = other;
        if low1 > top1 || low2 > top2 {
            return None;
        }
        if x1 == x2 {
            let (low, top) = (low1.max(low2), top1.min(top2));
            let [level, _] = Bound::tilt(0, 1);
            let end = |z| (RailLine { a: z, m: 0, d: 1 }, level);
            return (low <= top).then(|| Self { corners: vec![end(low), end(top)] });
        }
        let (floor1, ceiling1) = (Bound::not_below(x1, low1), Bound::not_above(x1, top1));
        let (floor2, ceiling2) = (Bound::not_below(x2, low2), Bound::not_above(x2, top2));
        let corners = [
            (floor1, floor2, floor1),
            (floor1, ceiling2, ceiling2),
            (ceiling1, ceiling2, ceiling1),
            (ceiling1, floor2, floor2),
        ];
        let corners = corners
            .into_iter()
            .filter_map(|(a, b, edge)| RailLine::on_both(a, b).map(|line| (line, edge)))
            .collect();
        let mut region = Self { corners };
        region.merge_equal_corners();
        Some(region)
    }

    /// Keeps the rails within a bound; `false` when none is left, and the region is then void.
    #[must_use]
    pub fn keep(&mut self, bound: Bound) -> bool {
        let excess: Vec<Exact> = self.corners.iter().map(|(line, _)| bound.excess(line)).collect();
        if excess.iter().all(|e| *e <= 0) {
            return true;
        }
        let mut kept = Vec::with_capacity(self.corners.len() + 1);
        for (k, (line, edge)) in self.corners.iter().enumerate() {
            let (here, next) = (excess[k], excess[(k + 1) % excess.len()]);
            if here < 0 {
                kept.push((*line, *edge));
            } else if here == 0 {
                // On the border: from here the region follows the old edge inwards or the new one.
                kept.push((*line, if next > 0 { bound } else { *edge }));
            }
            let crosses = (here < 0 && next > 0) || (here > 0 && next < 0);
            if crosses && let Some(crossing) = RailLine::on_both(*edge, bound) {
                kept.push((crossing, if next > 0 { bound } else { *edge }));
            }
        }
        self.corners = kept;
        self.merge_equal_corners();
        !self.corners.is_empty()
    }

    /// An edge of no length carries a bound that tells nothing about the corners beside it.
    fn merge_equal_corners(&mut self) {
        let mut k = 0;
        while self.corners.len() > 1 && k < self.corners.len() {
            let next = (k + 1) % self.corners.len();
            if self.corners[k].0.is(&self.corners[next].0) {
                self.corners.remove(k);
            } else {
                k += 1;
            }
        }
    }

    /// How high the rails pass a station.
    #[must_use]
    pub fn reach(&self, x: Exact) -> Reach {
        let mut ends: Option<[(Exact, Exact); 2]> = None;
        for (line, _) in &self.corners {
            let here = (line.over(x), line.d);
            let [lowest, highest] = ends.unwrap_or([here, here]);
            ends = Some([
                if here.0 * lowest.1 < lowest.0 * here.1 { here } else { lowest },
                if here.0 * highest.1 > highest.0 * here.1 { here } else { highest },
            ]);
        }
        // A region is never empty.
        let [(low, low_d), (high, high_d)] = ends.unwrap_or([(0, 1), (0, 1)]);
        let highest_down = floor(high, high_d);
        Reach {
            lowest_up: -floor(-low, low_d),
            highest_down,
            highest_up: highest_down + Exact::from(highest_down * high_d != high),
        }
    }

    /// Some rail of the region: always the same one.
    #[must_use]
    pub fn any(&self) -> Option<RailLine> {
        self.corners.first().map(|(line, _)| *line)
    }

    /// The rail with the least sum of distances to the aims, none of them further than half of
    /// `range`; and that sum.
    #[must_use]
    pub fn nearest(&self, aims: &[Aim], range: Exact) -> Option<(RailLine, Distance)> {
        let mut best: Option<(RailLine, Distance)> = None;
        let mut consider = |line: RailLine| {
            let worst = best.map(|(_, distance)| distance);
            if let Some(distance) = Distance::of(&line, aims, range, worst) {
                best = Some((line, distance));
            }
        };
        for (line, _) in &self.corners {
            consider(*line);
        }
        let crossing: Vec<Bound> =
            aims.iter().map(Aim::met).filter(|met| self.is_crossed_by(*met)).collect();
        for (k, met) in crossing.iter().enumerate() {
            let edges = self.corners.iter().map(|(_, edge)| edge);
            for other in crossing[..k].iter().chain(edges) {
                if let Some(line) = RailLine::on_both(*met, *other)
                    && self.holds(&line)
                {
                    consider(line);
                }
            }
        }
        best
    }

    /// Whether a rail on the border of an edge, or between edges, is within the region. The edges
    /// alone do not tell where a region that has shrunk to a segment ends: its corners' tilts do.
    fn holds(&self, line: &RailLine) -> bool {
        let tilts = || self.corners.iter().map(|(c, _)| (c.m * line.d).cmp(&(line.m * c.d)));
        self.corners.iter().all(|(_, edge)| edge.excess(line) <= 0)
            && tilts().any(Ordering::is_le)
            && tilts().any(Ordering::is_ge)
    }

    fn is_crossed_by(&self, border: Bound) -> bool {
        let sides = || self.corners.iter().map(|(line, _)| border.excess(line));
        sides().any(|side| side <= 0) && sides().any(|side| side >= 0)
    }
}

/// Where a rail would best pass a station: twice the height, so that a middle is a whole number.
#[derive(Debug, Clone, Copy)]
pub struct Aim {
    /// The station.
    pub x: Exact,
    /// Twice the height.
    pub twice: Exact,
}

impl Aim {
    /// The bound on whose border the rails meet the aim.
    const fn met(&self) -> Bound {
        Bound { on_a: 2, on_m: 2 * self.x, at: self.twice }
    }
}

/// A sum of distances, kept as a fraction.
#[derive(Debug, Clone, Copy)]
pub struct Distance {
    twice: Exact,
    d: Exact,
}

impl Distance {
    /// `None` when one distance is above half the range, or the sum is not below `worst`.
    fn of(line: &RailLine, aims: &[Aim], range: Exact, worst: Option<Self>) -> Option<Self> {
        let mut sum = Self { twice: 0, d: line.d };
        for aim in aims {
            let apart = (2 * line.over(aim.x) - aim.twice * line.d).abs();
            if apart > range * line.d {
                return None;
            }
            sum.twice += apart;
        }
        worst.is_none_or(|worst| sum.compare(&worst).is_lt()).then_some(sum)
    }

    /// Which of two sums is larger.
    #[must_use]
    pub fn compare(&self, other: &Self) -> Ordering {
        (self.twice * other.d).cmp(&(other.twice * self.d))
    }

    /// The sum itself.
    #[must_use]
    pub fn sum(&self) -> f64 {
        self.twice as f64 / (2 * self.d) as f64
    }
}

/// The whole number at or below a fraction with a denominator above zero. Most fractions fit the
/// machine's own word, where dividing is many times faster.
fn floor(numerator: Exact, denominator: Exact) -> Exact {
    match (i64::try_from(numerator), i64::try_from(denominator)) {
        (Ok(n), Ok(d)) if d > 0 => Exact::from(n.div_euclid(d)),
        _ => numerator.div_euclid(denominator.max(1)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_region_is_cut_to_a_segment_to_a_point_and_away() {
        let mut region = Region::through((0, [0, 10]), (10, [0, 10])).expect("rails");
        assert!(region.keep(Bound::not_below(5, 10)), "one rail reaches the top all along");
        let reach = region.reach(7);
        assert_eq!((reach.lowest_up, reach.highest_down), (10, 10));
        assert!(region.keep(Bound::not_above(20, 10)));
        assert!(!region.keep(Bound::not_above(3, 9)));
    }

    #[test]
    fn reach_is_rounded_to_the_safe_side() {
        let mut region = Region::through((0, [0, 1]), (3, [0, 1])).expect("rails");
        let reach = region.reach(1);
        assert_eq!((reach.lowest_up, reach.highest_down, reach.highest_up), (0, 1, 1));
        assert!(region.keep(Bound::not_above(0, 0)), "then one third at station 1");
        let reach = region.reach(1);
        assert_eq!((reach.lowest_up, reach.highest_down, reach.highest_up), (0, 0, 1));
    }

    #[test]
    fn stations_at_one_place_hold_the_rail_level() {
        let region = Region::through((4, [0, 6]), (4, [2, 9])).expect("rails");
        let reach = region.reach(-100);
        assert_eq!((reach.lowest_up, reach.highest_down), (2, 6));
        assert!(Region::through((4, [0, 1]), (4, [2, 9])).is_none());
    }

    #[test]
    fn the_nearest_rail_passes_through_the_many_and_misses_the_one() {
        let region = Region::through((0, [-10, 10]), (30, [-10, 10])).expect("rails");
        let aims = [(0, 0), (10, 0), (20, 5), (30, 0)].map(|(x, z)| Aim { x, twice: 2 * z });
        let (line, distance) = region.nearest(&aims, 20).expect("a rail");
        assert!((distance.sum() - 5.0).abs() < 1e-12, "{distance:?}");
        assert!(line.at(15).abs() < 1e-12, "{line:?}");
    }
}
