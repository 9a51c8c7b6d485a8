//! 7.2.6: zones of a hipped roof, seen in plan, and their external pressure coefficients.
//!
//! **Model.** One face of the roof, a main slope or a hip end, seen standing outside in front of its eaves:
//! a polygon whose sides are eaves, hips and, on a main slope, the ridge. Wind from the front meets this
//! face, wind from the back the opposite one; from the left or the right it meets the face beyond the hip
//! on that side and passes along this one. The figure shows the wind on a main slope (`θ = 0°`) and on a
//! hip end (`θ = 90°`); both are the same rule for a face that lies to the wind, from it, or along it.
//!
//! **Signs.** Negative lifts, positive presses.
//!
//! **Left out.** Hips and ridges that are not straight, eaves at different heights.

use super::coefficients::area_interpolation;
use super::plan::edge_dimension;
use super::tables::{RoofTables, between};
use crate::codes::vocabulary::{Coefficients, Direction};
use crate::codes::{Clause, NotCovered};
use crate::geometry::{Border, Region, split_all};
use crate::roof::{Edge, End, Side, hip_at};
use crate::units::{Angle, Area, Length};

/// Zone of a hipped roof with one pressure coefficient.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Zone {
    /// Corner of the eaves the wind meets.
    F,
    /// The eaves the wind meets, between the corners.
    G,
    /// The rest of the face the wind meets.
    H,
    /// The rest of the face that lies from the wind.
    I,
    /// Strip along a hip of the face that lies from the wind.
    J,
    /// Strip behind the ridge, on the face that lies from the wind.
    K,
    /// Strip behind the hip the wind meets, on a face along the wind.
    L,
    /// Behind that strip.
    M,
    /// Far from the hip the wind meets, on a face along the wind.
    N,
}

impl Zone {
    /// Every zone, as the columns of the table stand.
    pub const ALL: [Self; 9] =
        [Self::F, Self::G, Self::H, Self::I, Self::J, Self::K, Self::L, Self::M, Self::N];
}

/// One face of a hipped roof, as its zones need it.
#[derive(Debug, Clone, Copy)]
pub struct HippedFace<'a> {
    /// Plan length of the building along the eaves of this face.
    pub length: Length,
    /// Plan width of the building across the eaves of this face.
    pub width: Length,
    /// `h`: ridge height above ground.
    pub height: Length,
    /// Pitch of this face.
    pub pitch: Angle,
    /// The face in plan, mm.
    pub plan: &'a Region,
    /// Its sides in plan.
    pub sides: &'a [Side],
}

/// Coefficients of one zone, at the pitch of the face the wind meets.
///
/// EN 1991-1-4:2005, 7.2.6, Table 7.5 with its notes: the pitch of the face the wind meets governs on every
/// face. Linear between tabulated pitches within a set, which the standard allows between values of the
/// same sign; a set the table does not have at a pitch is no load of that sign.
///
/// Confirmed: an official table of another country and a second transcription, cell by cell.
///
/// # Errors
/// [`NotCovered`] outside pitches of 5° to 75°.
pub fn coefficients(
    tables: &RoofTables,
    zone: Zone,
    windward_pitch: Angle,
    loaded_area: Area,
) -> Result<Coefficients, NotCovered> {
    let cell = between(tables.hipped, zone as usize, windward_pitch);
    let [cpe_10, cpe_1, pressure] = cell.ok_or(NotCovered {
        clause: Clause::new(tables.document, "Table 7.5"),
        condition: "5 deg <= pitch of the face the wind meets <= 75 deg",
    })?;
    Ok(Coefficients { suction: area_interpolation(cpe_1, cpe_10, loaded_area), pressure })
}

/// The zones of one face for one wind direction, covering it exactly once; a zone can lie in several pieces.
///
/// EN 1991-1-4:2005, 7.2.6, Figure 7.9, all lengths in plan, `e = min(b, 2h)`:
/// - front: at the eaves corners `F` of `e/4 × e/10`, `G` between them, `H` the rest;
/// - back: `K` of `e/10` behind the ridge and as long as it, `J` of `e/10` along the hips, `I` the rest;
/// - left and right: `L` of `e/10` behind the hip the wind meets, `M` the rest.
///
/// Three readings are on the safe side until the figure has been read again: strips along hips are
/// `e/10` wide square to the hip; where two strips overlap, the one with the greater suction on 1 m² has the
/// place; and `M` covers the whole of the face behind `L`, so that `N`, which nowhere lifts more, lies
/// nowhere.
///
/// Partly from memory: the zones and the width of `F`, `J`, `K` and `L` by a printed example, where they meet
/// by none.
///
/// # Errors
/// [`NotCovered`] outside pitches of 5° to 75°.
pub fn zones(
    tables: &RoofTables,
    face: &HippedFace<'_>,
    direction: Direction,
) -> Result<Vec<(Zone, Region)>, NotCovered> {
    let b = match direction {
        Direction::Front | Direction::Back => face.length,
        Direction::Left | Direction::Right => face.width,
    };
    let e = edge_dimension(b, face.height).max(Length::ZERO).mm();
    let mut pieces: Vec<(Zone, Vec<Region>)> = Vec::new();
    let whole = vec![face.plan.clone()];
    match direction {
        Direction::Front => {
            let [left, right] = face.plan.bounds().x;
            let corner = (e / 4.0).min((right - left) / 2.0);
            let [rest, eaves] =
                split_all(&whole, &Border::level(face.plan.bounds().y[0] + e / 10.0));
            let [left_corner, others] = split_all(&eaves, &Border::upright(left + corner));
            let [between, right_corner] = split_all(&others, &Border::upright(right - corner));
            pieces.extend([
                (Zone::F, left_corner),
                (Zone::G, between),
                (Zone::F, right_corner),
                (Zone::H, rest),
            ]);
        }
        Direction::Back => {
            let strips = strips_behind(tables, face)?;
            pieces.extend(beside(whole, &strips, e / 10.0, Zone::I));
        }
        Direction::Left | Direction::Right => {
            let end = if direction == Direction::Left { End::Left } else { End::Right };
            let hip = hip_at(face.sides, end).map(|hip| (Zone::L, hip));
            pieces.extend(beside(whole, hip.as_slice(), e / 10.0, Zone::M));
        }
    }
    let named = |(zone, pieces): (Zone, Vec<Region>)| pieces.into_iter().map(move |p| (zone, p));
    Ok(pieces.into_iter().flat_map(named).collect())
}

/// Ridge and hips of a face that lies from the wind, those first whose strips lift more.
fn strips_behind(
    tables: &RoofTables,
    face: &HippedFace<'_>,
) -> Result<Vec<(Zone, Side)>, NotCovered> {
    let lifts =
        |zone| coefficients(tables, zone, face.pitch, Area::from_m2(1.0)).map(|c| c.suction);
    let ridge_first = lifts(Zone::K)? < lifts(Zone::J)?;
    let strips = face.sides.iter().filter_map(|side| match side.edge {
        Edge::Ridge => Some((Zone::K, *side)),
        Edge::Hip => Some((Zone::J, *side)),
        _ => None,
    });
    let mut strips: Vec<(Zone, Side)> = strips.collect();
    strips.sort_by_key(|(zone, _)| (*zone == Zone::K) != ridge_first);
    Ok(strips)
}

/// Strips of this width along sides, the first before the others, and what is left of the face.
fn beside(
    mut left: Vec<Region>,
    strips: &[(Zone, Side)],
    width: f64,
    rest: Zone,
) -> Vec<(Zone, Vec<Region>)> {
    let mut out = Vec::with_capacity(strips.len() + 1);
    for (zone, side) in strips {
        if let Some(line) = Border::through(side.line) {
            let [mut beyond, mut strip] = split_all(&left, &line.shifted_left(width));
            if side.edge == Edge::Ridge {
                // It is no longer than the ridge. Strips along hips end where the face does.
                let [from, to] = side.line;
                for end in [line.square_at(from).reversed(), line.square_at(to)] {
                    let [within, outside] = split_all(&strip, &end);
                    beyond.extend(outside);
                    strip = within;
                }
            }
            out.push((*zone, strip));
            left = beyond;
        }
    }
    out.push((rest, left));
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::eurocode::en1991_1_4_2005::tables::RECOMMENDED;
    use crate::geometry::Outline;

    const PITCH: f64 = 30.0;

    /// A main slope 20 m by 5 m in plan between two hips at 45°, or the hip end beside it.
    fn face(points: &[[f64; 2]], edges: &[Edge]) -> (Region, Vec<Side>) {
        let points: Vec<[f64; 2]> = points.iter().map(|p| p.map(|m| m * 1000.0)).collect();
        let outline = Outline::new(&points).expect("an outline");
        (outline.region(), Side::all(&outline, edges))
    }

    fn main_slope() -> (Region, Vec<Side>) {
        face(
            &[[0.0, 0.0], [20.0, 0.0], [15.0, 5.0], [5.0, 5.0]],
            &[Edge::Eaves, Edge::Hip, Edge::Ridge, Edge::Hip],
        )
    }

    fn hip_end() -> (Region, Vec<Side>) {
        face(&[[0.0, 0.0], [10.0, 0.0], [5.0, 5.0]], &[Edge::Eaves, Edge::Hip, Edge::Hip])
    }

    fn areas(
        (plan, sides): &(Region, Vec<Side>),
        [length, width]: [f64; 2],
        direction: Direction,
    ) -> Vec<(Zone, f64)> {
        let [length, width] = [length, width].map(Length::from_m);
        let (height, pitch) = (Length::from_m(5.0), Angle::from_deg(PITCH));
        let face = HippedFace { length, width, height, pitch, plan, sides };
        let found = zones(&RECOMMENDED, &face, direction).expect("covered");
        let total: f64 = found.iter().map(|(_, piece)| piece.area()).sum();
        assert!((total - plan.area()).abs() < 1e-3, "{direction:?}: {total}");
        let area = |zone: Zone| {
            let pieces = found.iter().filter(|(other, _)| *other == zone);
            pieces.map(|(_, piece)| piece.area()).sum::<f64>() / 1e6
        };
        let present = Zone::ALL.into_iter().map(|zone| (zone, area(zone)));
        present.filter(|(_, area)| *area > 0.0).collect()
    }

    fn assert_areas(found: &[(Zone, f64)], expected: &[(Zone, f64)]) {
        assert_eq!(found.len(), expected.len(), "{found:?}");
        for ((zone, area), (of, expected)) in found.iter().zip(expected) {
            assert!(zone == of && (area - expected).abs() < 1e-6, "{found:?}");
        }
    }

    /// By hand, `e = 10 m` on every side: strips of 1 m.
    #[test]
    fn zones_of_a_main_slope_and_a_hip_end_by_hand() {
        let plan = [20.0, 10.0];
        // At the eaves 20 and 19 m² a metre: two corners of 2.5 m, each less a triangle of 0.5 m².
        assert_areas(
            &areas(&main_slope(), plan, Direction::Front),
            &[(Zone::F, 4.0), (Zone::G, 15.0), (Zone::H, 56.0)],
        );
        // At 30° J lifts more than K and has the corners. Strips along the hips are √2 m wide along the
        // eaves and 5 m high; a strip behind the ridge is 11 m by 1 m on average, less theirs.
        let strip = 5.0 * 2.0_f64.sqrt();
        let behind_ridge = 11.0 - 2.0 * 2.0_f64.sqrt();
        assert_areas(
            &areas(&main_slope(), plan, Direction::Back),
            &[
                (Zone::I, 75.0 - 2.0 * strip - behind_ridge),
                (Zone::J, 2.0 * strip),
                (Zone::K, behind_ridge),
            ],
        );
        assert_areas(
            &areas(&main_slope(), plan, Direction::Left),
            &[(Zone::L, strip), (Zone::M, 75.0 - strip)],
        );
        assert_areas(
            &areas(&hip_end(), [10.0, 20.0], Direction::Front),
            &[(Zone::F, 4.0), (Zone::G, 5.0), (Zone::H, 16.0)],
        );
    }

    #[test]
    fn silent_outside_the_table() {
        let at = |deg| {
            coefficients(&RECOMMENDED, Zone::M, Angle::from_deg(deg), Area::from_m2(1.0)).is_ok()
        };
        assert!(at(5.0) && at(75.0) && !at(4.99) && !at(75.01) && !at(f64::NAN));
    }

    /// The reason why `M` may stand for `N`.
    #[test]
    fn nowhere_does_n_lift_more_than_m() {
        for deg in (5..=75).map(f64::from) {
            for area in [0.5, 1.0, 3.0, 10.0] {
                let of = |zone| {
                    let found =
                        coefficients(&RECOMMENDED, zone, Angle::from_deg(deg), Area::from_m2(area));
                    found.expect("covered").suction
                };
                assert!(of(Zone::M) <= of(Zone::N), "{deg} {area}");
            }
        }
    }
}
