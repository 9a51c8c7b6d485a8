//! 7.2.5: where the zones of a duopitch roof lie, seen in plan.
//!
//! **Model.** One face of the roof, as seen standing outside in front of it: `x` along the eaves
//! from the left end, `run` horizontally from the eaves line towards the ridge. The corners of the
//! zones are those of the face.
//!
//! **Left out.** Eaves lower than their neighbours' walls, hipped ends, trough roofs.

use super::plan::{FacePlan, ZoneInPlan, edge_dimension};
use crate::codes::vocabulary::Direction;
use crate::units::Length;

/// Zone of a roof with one pressure coefficient.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Zone {
    /// Windward corner.
    F,
    /// Windward edge between the corners.
    G,
    /// Middle of a windward face; second strip behind a windward gable.
    H,
    /// Leeward face; the rest behind a windward gable.
    I,
    /// Strip behind the ridge on the leeward face.
    J,
}

/// The zones of one face for one wind direction, covering it exactly once.
///
/// EN 1991-1-4:2005, 7.2.5, Figure 7.8, all lengths in plan:
/// - front: corners `F` of `e/4 × e/10`, `G` between them, `H` behind;
/// - back: `J` of `e/10` behind the ridge, `I` the rest;
/// - gable: `F` of `e/4` from the eaves and `e/10` deep, `G` up to the ridge, `H` to `e/2`, `I`
///   beyond.
///
/// Where the face is too small for a zone, the zone nearer the wind keeps its size and the next
/// one shrinks to nothing.
///
/// Confirmed: two implementations, a public worksheet, and a published sheet whose eleven zone
/// lengths are reproduced to the millimetre.
#[must_use]
pub fn duopitch_zones(building: &FacePlan, direction: Direction) -> Vec<ZoneInPlan<Zone>> {
    let (length, run) = (building.face_length, building.face_run);
    let b = match direction {
        Direction::Front | Direction::Back => building.length,
        Direction::Left | Direction::Right => building.width,
    };
    let e = edge_dimension(b, building.height).max(Length::ZERO);
    let zero = Length::ZERO;

    let rectangles = match direction {
        Direction::Front => {
            let corner = (e / 4.0).min(length / 2.0);
            let edge = (e / 10.0).min(run);
            vec![
                (Zone::F, [zero, corner], [zero, edge]),
                (Zone::G, [corner, length - corner], [zero, edge]),
                (Zone::F, [length - corner, length], [zero, edge]),
                (Zone::H, [zero, length], [edge, run]),
            ]
        }
        Direction::Back => {
            let ridge = run - (e / 10.0).min(run);
            vec![(Zone::I, [zero, length], [zero, ridge]), (Zone::J, [zero, length], [ridge, run])]
        }
        Direction::Left | Direction::Right => {
            let corner = (e / 4.0).min(run);
            let edge = (e / 10.0).min(length);
            let middle = (e / 2.0).min(length);
            vec![
                (Zone::F, [zero, edge], [zero, corner]),
                (Zone::G, [zero, edge], [corner, run]),
                (Zone::H, [edge, middle], [zero, run]),
                (Zone::I, [middle, length], [zero, run]),
            ]
        }
    };
    let from_the_right = |[from, to]: [Length; 2]| [length - to, length - from];
    rectangles
        .into_iter()
        .filter(|(_, x, run)| x[0] < x[1] && run[0] < run[1])
        .map(|(zone, x, run)| {
            let x = if direction == Direction::Right { from_the_right(x) } else { x };
            ZoneInPlan { zone, x, run }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn building(length: f64, width: f64, run: f64, height: f64) -> FacePlan {
        FacePlan {
            length: Length::from_m(length),
            width: Length::from_m(width),
            face_run: Length::from_m(run),
            face_length: Length::from_m(length),
            height: Length::from_m(height),
        }
    }

    fn overlap(a: [Length; 2], b: [Length; 2]) -> f64 {
        (a[1].min(b[1]) - a[0].max(b[0])).m().max(0.0)
    }

    #[test]
    fn zones_tile_ordinary_and_degenerate_faces() {
        let shapes = [
            building(20.0, 10.0, 5.0, 8.0),
            // A tower: strips deeper than the face, e/2 longer than the roof.
            building(3.0, 60.0, 0.5, 40.0),
            // A long low shed with one very short face.
            building(80.0, 30.0, 0.2, 4.0),
            // A face much shorter than its building.
            FacePlan { face_length: Length::from_m(2.0), ..building(40.0, 12.0, 6.0, 9.0) },
        ];
        for shape in shapes {
            for direction in Direction::ALL {
                let zones = duopitch_zones(&shape, direction);
                let area: f64 =
                    zones.iter().map(|z| ((z.x[1] - z.x[0]) * (z.run[1] - z.run[0])).m2()).sum();
                let face = (shape.face_length * shape.face_run).m2();
                assert!((area - face).abs() < 1e-9, "{shape:?} {direction:?}: {area} of {face}");
                for (i, a) in zones.iter().enumerate() {
                    let clash = zones
                        .iter()
                        .skip(i + 1)
                        .any(|b| overlap(a.x, b.x) > 1e-12 && overlap(a.run, b.run) > 1e-12);
                    assert!(!clash, "{shape:?} {direction:?}: {a:?} overlaps");
                }
            }
        }
    }

    #[test]
    fn left_and_right_mirror_each_other() {
        let shape = building(20.0, 10.0, 5.0, 8.0);
        let left = duopitch_zones(&shape, Direction::Left);
        let right = duopitch_zones(&shape, Direction::Right);
        assert_eq!(left.len(), right.len());
        for (l, r) in left.iter().zip(&right) {
            assert_eq!((l.zone, l.run), (r.zone, r.run));
            assert!((l.x[0] + r.x[1] - shape.face_length).mm().abs() < 1e-9);
        }
    }

    /// Both corners of a face that is shorter than twice e/4: half of it each.
    #[test]
    fn corners_of_a_short_face_meet_in_its_middle() {
        let zones = duopitch_zones(&building(4.0, 40.0, 5.0, 20.0), Direction::Front);
        let corners: Vec<[f64; 2]> = zones
            .iter()
            .filter(|zone| zone.zone == Zone::F)
            .map(|zone| zone.x.map(Length::m))
            .collect();
        assert_eq!(corners, [[0.0, 1.0], [3.0, 4.0]], "e = b = 4 m, e/4 = 1 m");
        let short = FacePlan { face_length: Length::from_m(1.5), ..building(40.0, 12.0, 6.0, 9.0) };
        let zones = duopitch_zones(&short, Direction::Front);
        let corners: Vec<[f64; 2]> = zones
            .iter()
            .filter(|zone| zone.zone == Zone::F)
            .map(|zone| zone.x.map(Length::m))
            .collect();
        assert_eq!(corners, [[0.0, 0.75], [0.75, 1.5]]);
    }
}
