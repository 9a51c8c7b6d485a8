//! 7.2.4: zones of a monopitch roof, seen in plan, and their external pressure coefficients.
//!
//! **Model.** The roof is one face, seen standing outside in front of its lower eaves: `x` along the
//! eaves from the left end, `run` horizontally from the lower eaves to the upper. Wind from the front
//! meets the lower eaves (`θ = 0°`), wind from the back the upper (`θ = 180°`), wind from the left or the
//! right a verge (`θ = 90°`). Each zone has a suction set and a pressure set, as on a duopitch roof.
//!
//! **Signs.** Negative lifts, positive presses.
//!
//! **Left out.** Canopies (7.3), parapets, roofs below a taller wall.

use super::coefficients::area_interpolation;
use super::plan::{FacePlan, ZoneInPlan, edge_dimension};
use super::tables::{RoofTables, between};
use crate::codes::vocabulary::{Coefficients, Direction};
use crate::codes::{Clause, NotCovered};
use crate::units::{Angle, Area, Length};

/// Zone of a monopitch roof with one pressure coefficient.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Zone {
    /// Corner of the eaves the wind meets.
    F,
    /// Upper corner of the verge the wind meets.
    FUp,
    /// Lower corner of the verge the wind meets.
    FLow,
    /// The edge the wind meets between the corners.
    G,
    /// What lies behind; behind a verge, to half of `e`.
    H,
    /// The rest behind a verge.
    I,
}

/// Coefficients of one zone for the wind from one direction.
///
/// EN 1991-1-4:2005, 7.2.4, Tables 7.3a and 7.3b. Linear between tabulated pitches within a set, which
/// the standard allows between values of the same sign and prints zeros for; a set the table does not
/// have at a pitch is no load of that sign.
///
/// Confirmed: the tables by two libraries and a transcription, the interpolation by a library.
///
/// # Errors
/// [`NotCovered`] outside pitches of 5° to 75° and for a zone this direction does not have.
pub fn coefficients(
    tables: &RoofTables,
    direction: Direction,
    zone: Zone,
    pitch: Angle,
    loaded_area: Area,
) -> Result<Coefficients, NotCovered> {
    let eaves = [Zone::F, Zone::G, Zone::H];
    let verge = [Zone::FUp, Zone::FLow, Zone::G, Zone::H, Zone::I];
    let column = |zones: &[Zone]| zones.iter().position(|known| *known == zone);
    let (number, column) = match direction {
        Direction::Front | Direction::Back => ("Table 7.3a", column(&eaves)),
        Direction::Left | Direction::Right => ("Table 7.3b", column(&verge)),
    };
    let clause = Clause::new(tables.document, number);
    let absent = NotCovered { clause, condition: "the roof has the zone for this wind direction" };
    let column = column.ok_or(absent)?;
    let outside = NotCovered { clause, condition: "5 deg <= pitch <= 75 deg" };
    let cell = match direction {
        Direction::Front => between(tables.monopitch_lower, column, pitch),
        Direction::Back => between(tables.monopitch_upper, column, pitch),
        Direction::Left | Direction::Right => between(tables.monopitch_verge, column, pitch),
    };
    let [cpe_10, cpe_1, pressure] = cell.ok_or(outside)?;
    Ok(Coefficients { suction: area_interpolation(cpe_1, cpe_10, loaded_area), pressure })
}

/// The zones of the roof for one wind direction, covering it exactly once.
///
/// EN 1991-1-4:2005, 7.2.4, Figure 7.7, all lengths in plan:
/// - front and back: at the eaves the wind meets corners `F` of `e/4 × e/10`, `G` between them, `H`
///   behind;
/// - verge: corners `Fup` and `Flow` of `e/4` along the verge and `e/10` deep, `G` between them, `H` to
///   `e/2`, `I` beyond.
///
/// Where the roof is too small for a zone, the zone nearer the wind keeps its size and the next one
/// shrinks to nothing; two corners that meet share what there is.
///
/// Partly from memory: front and back by a library; the verge by none.
#[must_use]
pub fn zones(building: &FacePlan, direction: Direction) -> Vec<ZoneInPlan<Zone>> {
    let (length, run) = (building.face_length, building.face_run);
    let b = match direction {
        Direction::Front | Direction::Back => building.length,
        Direction::Left | Direction::Right => building.width,
    };
    let e = edge_dimension(b, building.height).max(Length::ZERO);
    let (zero, quarter, tenth) = (Length::ZERO, e / 4.0, e / 10.0);
    let rectangles = match direction {
        Direction::Front | Direction::Back => {
            let (corner, edge) = (quarter.min(length / 2.0), tenth.min(run));
            vec![
                (Zone::F, [zero, corner], [zero, edge]),
                (Zone::G, [corner, length - corner], [zero, edge]),
                (Zone::F, [length - corner, length], [zero, edge]),
                (Zone::H, [zero, length], [edge, run]),
            ]
        }
        Direction::Left | Direction::Right => {
            let (corner, edge) = (quarter.min(run / 2.0), tenth.min(length));
            let middle = (e / 2.0).min(length);
            vec![
                (Zone::FLow, [zero, edge], [zero, corner]),
                (Zone::G, [zero, edge], [corner, run - corner]),
                (Zone::FUp, [zero, edge], [run - corner, run]),
                (Zone::H, [edge, middle], [zero, run]),
                (Zone::I, [middle, length], [zero, run]),
            ]
        }
    };
    let mirrored = |whole: Length, [from, to]: [Length; 2]| [whole - to, whole - from];
    rectangles
        .into_iter()
        .filter(|(_, x, up)| x[0] < x[1] && up[0] < up[1])
        .map(|(zone, x, up)| {
            let x = if direction == Direction::Right { mirrored(length, x) } else { x };
            let run = if direction == Direction::Back { mirrored(run, up) } else { up };
            ZoneInPlan { zone, x, run }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::en1991_1_4_2005::tables::RECOMMENDED;

    fn building(length: f64, run: f64, height: f64) -> FacePlan {
        let [length, run, height] = [length, run, height].map(Length::from_m);
        FacePlan { length, width: run, face_length: length, face_run: run, height }
    }

    #[test]
    fn zones_tile_ordinary_and_degenerate_roofs_and_have_coefficients() {
        for shape in [
            building(20.0, 6.0, 5.0),
            building(3.0, 0.5, 40.0),
            building(80.0, 0.2, 4.0),
            building(2.0, 30.0, 9.0),
        ] {
            for direction in Direction::ALL {
                let zones = zones(&shape, direction);
                let area: f64 =
                    zones.iter().map(|z| ((z.x[1] - z.x[0]) * (z.run[1] - z.run[0])).m2()).sum();
                assert!(
                    (area - (shape.face_length * shape.face_run).m2()).abs() < 1e-9,
                    "{shape:?}"
                );
                let apart =
                    |a: [Length; 2], b: [Length; 2]| (a[1].min(b[1]) - a[0].max(b[0])).m() <= 1e-12;
                for (i, a) in zones.iter().enumerate() {
                    let clear = |b: &ZoneInPlan<Zone>| apart(a.x, b.x) || apart(a.run, b.run);
                    assert!(zones[i + 1..].iter().all(clear), "{shape:?} {direction:?}: {a:?}");
                    let at = |deg| {
                        let pitch = Angle::from_deg(deg);
                        coefficients(&RECOMMENDED, direction, a.zone, pitch, Area::from_m2(1.0))
                            .is_ok()
                    };
                    assert!(at(5.0) && at(75.0) && !at(4.99) && !at(75.01) && !at(f64::NAN));
                }
            }
        }
    }

    #[test]
    fn the_wind_finds_its_zones_on_its_own_side() {
        let shape = building(20.0, 6.0, 5.0);
        // e = min(20, 10) = 10 m across the eaves, min(6, 10) = 6 m along them.
        for (direction, zone, meters) in [
            (Direction::Front, Zone::F, [0.0, 2.5, 0.0, 1.0]),
            (Direction::Back, Zone::F, [0.0, 2.5, 5.0, 6.0]),
            (Direction::Left, Zone::FUp, [0.0, 0.6, 4.5, 6.0]),
            (Direction::Right, Zone::FLow, [19.4, 20.0, 0.0, 1.5]),
        ] {
            let zones = zones(&shape, direction);
            let found = zones.iter().find(|z| z.zone == zone).expect("a corner");
            let sides = [found.x[0], found.x[1], found.run[0], found.run[1]];
            for (side, meters) in sides.into_iter().zip(meters) {
                assert!((side.m() - meters).abs() < 1e-9, "{direction:?}: {found:?}");
            }
        }
    }

    #[test]
    fn silent_on_zones_the_direction_does_not_have() {
        let at = |direction, zone| {
            coefficients(&RECOMMENDED, direction, zone, Angle::from_deg(20.0), Area::from_m2(1.0))
                .is_ok()
        };
        assert!(at(Direction::Front, Zone::F) && !at(Direction::Front, Zone::FUp));
        assert!(!at(Direction::Back, Zone::I) && !at(Direction::Left, Zone::F));
    }
}
