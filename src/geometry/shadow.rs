//! What a line keeps free of a rectangle that is moved sideways.

use super::Point;

/// Figures that are this near to each other touch: the rounding of the arithmetic, mm.
const TOUCH: f64 = 1e-7;

/// From where to where a rectangle between the heights of `band` must not reach, so that it stays `keep`
/// away from a line; with nothing to keep, so that the line does not run through it. `None` where the line
/// is too far above or below to matter.
///
/// A point of the line that lies `off` above or below the band blocks `√(keep² − off²)` to either side of
/// itself. Along the line that moves without a jump, so that what all points block is one stretch. Its ends
/// are largest and least values of a concave and a convex function of the place on the line: they lie where
/// the line enters or leaves the band or what is near it, or where it touches the round corner of that.
#[must_use]
pub fn shadow([from, to]: [Point; 2], band: [f64; 2], keep: f64) -> Option<[f64; 2]> {
    let [low, high] = if from.y <= to.y { [from, to] } else { [to, from] };
    let strip = [band[0] - keep + TOUCH, band[1] + keep - TOUCH];
    if high.y <= strip[0] || strip[1] <= low.y {
        return None;
    }
    let blocked = |x: f64, y: f64| {
        let off = (band[0] - y).max(y - band[1]).max(0.0);
        let reach = (keep * keep - off * off).max(0.0).sqrt();
        [x - reach, x + reach]
    };
    let join = |a: [f64; 2], b: [f64; 2]| [a[0].min(b[0]), a[1].max(b[1])];
    let [along, up] = [high.x - low.x, high.y - low.y];
    if up <= 0.0 {
        return Some(join(blocked(low.x, low.y), blocked(high.x, high.y)));
    }
    let tangent = keep * along.abs() / along.hypot(up);
    let places = [strip[0], strip[1], band[0], band[1], band[0] - tangent, band[1] + tangent];
    let [first, last] = [low.y.max(strip[0]), high.y.min(strip[1])];
    let each = places.into_iter().map(|y| {
        let y = y.clamp(first, last);
        blocked(low.x + along * ((y - low.y) / up), y)
    });
    each.reduce(join)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Rect;

    /// The distance is that of the `geo` library, so that this is no check of a formula against itself.
    #[test]
    fn a_rectangle_at_either_end_of_a_shadow_is_just_as_far_away_as_it_must_be() {
        let band = [1000.0, 2700.0];
        let ends = [-400.0, 900.0, 1000.0, 1500.0, 2700.0, 2950.0, 3300.0];
        let mut seen = 0;
        for keep in [50.0, 300.0] {
            for (y0, y1) in ends.into_iter().flat_map(|a| ends.map(|b| (a, b))) {
                for along in [-2000.0, -40.0, 0.0, 40.0, 2000.0] {
                    let line = [Point { x: 0.0, y: y0 }, Point { x: along, y: y1 }];
                    if along == 0.0 && (y0 - y1).abs() < 1.0 {
                        continue;
                    }
                    let rect = |x: f64| Rect { x: [x, x + 1134.0], y: band };
                    let Some([left, right]) = shadow(line, band, keep) else {
                        let nearest = rect(along.min(0.0)).distance(line);
                        assert!(nearest >= keep - 1e-6, "{line:?}");
                        continue;
                    };
                    for at in [left - 1134.0, right] {
                        let have = rect(at).distance(line);
                        assert!((have - keep).abs() < 1e-3, "{line:?} {keep}: {have}");
                    }
                    seen += 1;
                }
            }
        }
        assert!(seen > 300, "{seen}");
    }

    #[test]
    fn with_nothing_to_keep_a_line_may_be_touched_and_not_crossed() {
        let upright = [Point { x: 5.0, y: -10.0 }, Point { x: 5.0, y: 10.0 }];
        assert_eq!(shadow(upright, [0.0, 4.0], 0.0), Some([5.0, 5.0]));
        let level = [Point { x: 0.0, y: 4.0 }, Point { x: 9.0, y: 4.0 }];
        assert_eq!(shadow(level, [0.0, 4.0], 0.0), None);
        assert_eq!(shadow(level, [0.0, 4.5], 0.0), Some([0.0, 9.0]));
    }
}
