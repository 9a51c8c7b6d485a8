//! What the sides of the outline are called, held against where they run and what roof it is.
//!
//! Water runs down the slope: away from ridge and hip, towards eaves and valley, along a verge. In
//! a counter-clockwise outline the first two therefore run to the left, the others to the right.

use crate::assessment::Assumed;
use crate::geometry::Point;
use crate::roof::{Edge, Side};
use crate::units::Angle;
use crate::wire::fault::FaultCode;
use crate::wire::roof::{EdgeKind, Point as WirePoint, RoofForm};

use super::Notes;

/// A slope, as far as its sides go.
#[derive(Debug, Clone, Copy)]
pub struct Sides<'a> {
    /// Form of the whole roof.
    pub form: RoofForm,
    /// Pitch of the slope, degrees.
    pub pitch_deg: f64,
    /// Corners of the outline.
    pub points: &'a [WirePoint],
    /// What its sides are called.
    pub edges: &'a [EdgeKind],
}

/// The sides of the outline. Where they run is looked at only where the outline is one.
pub fn edges(slope: &Sides<'_>, is_outline: bool, notes: &mut Notes) -> Vec<Edge> {
    let Sides { points, edges, .. } = *slope;
    if edges.len() == points.len() {
        let called =
            |(i, edge): (usize, &EdgeKind)| (i, *edge, [points[i], points[(i + 1) % points.len()]]);
        let sides = edges.iter().enumerate().map(called).filter(|_| is_outline);
        for (i, edge, [from, to]) in sides {
            let course = [to[0] - from[0], to[1] - from[1]];
            if let Some(why) = contradicts_course(edge, course) {
                notes.fault(format!("/roof/edges/{i}"), FaultCode::Contradiction, why);
            } else if (edge, slope.form) == (EdgeKind::Hip, RoofForm::Hipped) {
                slope_beyond_hip(i, course, Angle::from_deg(slope.pitch_deg), notes);
            }
        }
        contradict_form(slope, notes);
    } else {
        notes.fault(
            "/roof/edges",
            FaultCode::Contradiction,
            format!("The outline has {} sides, but {} edges are named.", points.len(), edges.len()),
        );
    }
    // One more than there are sides is a fault by now, and belongs to no side.
    edges.iter().take(points.len()).copied().map(edge_of).collect()
}

/// The sides of a hipped roof of which nothing is said: eaves below and ridge above where they are level,
/// hips above where they slant, verges else.
pub fn by_course(points: &[WirePoint]) -> Vec<EdgeKind> {
    let kind = |i: usize| {
        let [from, to] = [points[i], points[(i + 1) % points.len()]];
        let [right, up] = [to[0] - from[0], to[1] - from[1]];
        match (right < 0.0, up.abs() <= LEVEL_MM) {
            (true, false) => EdgeKind::Hip,
            (true, true) => EdgeKind::Ridge,
            (false, true) => EdgeKind::Eaves,
            (false, false) => EdgeKind::Verge,
        }
    };
    (0..points.len()).map(kind).collect()
}

/// A side that rises less than this is level.
const LEVEL_MM: f64 = 1.0;

/// The pitch of the slope beyond a hip of a hipped roof: the wind that meets it passes along this slope,
/// and its coefficients are read at that pitch.
fn slope_beyond_hip(side: usize, [right, up]: [f64; 2], pitch: Angle, notes: &mut Notes) {
    const COVERED_DEG: std::ops::RangeInclusive<f64> = 5.0..=75.0;
    let line = [[0.0, 0.0], [right, up]].map(|[x, y]| Point { x, y });
    let beyond = Side { edge: Edge::Hip, line }.pitch_beyond(pitch);
    let pointer = format!("/roof/edges/{side}");
    if COVERED_DEG.contains(&beyond.deg()) {
        notes.note(&pointer, Assumed::PitchBeyondHip(beyond));
    } else {
        let why = format!(
            "A hip that runs like this one has a slope of {:.1}° beyond it, if the eaves of both are equally \
             high; wind zones are computed from 5° to 75°.",
            beyond.deg()
        );
        notes.fault(pointer, FaultCode::NotCovered, why);
    }
}

const fn edge_of(wire: EdgeKind) -> Edge {
    match wire {
        EdgeKind::Eaves => Edge::Eaves,
        EdgeKind::Verge => Edge::Verge,
        EdgeKind::Ridge => Edge::Ridge,
        EdgeKind::Hip => Edge::Hip,
        EdgeKind::Valley => Edge::Valley,
        EdgeKind::Abutment => Edge::Abutment,
        EdgeKind::PartyWall => Edge::PartyWall,
    }
}

/// Why a side cannot be what it is called, by where it runs from its first point to the next.
fn contradicts_course(edge: EdgeKind, [right, up]: [f64; 2]) -> Option<&'static str> {
    match edge {
        EdgeKind::Eaves if right <= 0.0 => {
            Some("Water runs down to the eaves: they have the slope above them.")
        }
        EdgeKind::Ridge if right >= 0.0 => {
            Some("Water runs down from the ridge: it has the slope below it.")
        }
        EdgeKind::Hip if right >= 0.0 || up == 0.0 => Some(
            "A hip runs at an angle to eaves and rafters, with the slope below it; this side does not.",
        ),
        EdgeKind::Valley if right <= 0.0 => Some(
            "A valley has the slope above it, and does not run along a rafter; this side does not.",
        ),
        EdgeKind::PartyWall if right.abs() >= up.abs() => {
            Some("A party wall stands at the left or right end of the slope; this side does not.")
        }
        _ => None,
    }
}

/// Whether the slope has a wall above it.
fn ends_at_a_wall(slope: &Sides<'_>) -> bool {
    let ends = slope.points.iter().zip(slope.points.iter().cycle().skip(1));
    let mut sides = slope.edges.iter().zip(ends);
    sides.any(|(edge, (from, to))| *edge == EdgeKind::Abutment && to[0] < from[0])
}

/// Sides a roof of this form cannot have, or cannot do without.
fn contradict_form(slope: &Sides<'_>, notes: &mut Notes) {
    let edges = slope.edges;
    let has = |kind: EdgeKind| edges.contains(&kind);
    let mut fault = |pointer: String, why: &str| {
        notes.fault(pointer, FaultCode::Contradiction, why);
    };
    match slope.form {
        RoofForm::Duopitch => {
            if !has(EdgeKind::Ridge) && !ends_at_a_wall(slope) {
                let why = "The slope of a duopitch roof ends at a ridge or at a taller wall, and no side is called so.";
                fault("/roof/edges".to_owned(), why);
            }
            for i in (0..edges.len()).filter(|i| edges[*i] == EdgeKind::Hip) {
                let beside = [(i + edges.len() - 1) % edges.len(), (i + 1) % edges.len()];
                if beside.iter().any(|other| edges[*other] == EdgeKind::Eaves) {
                    let why = "A hip that runs down to the eaves makes the roof a hipped one; a \
                               duopitch roof can have half-hips, which end at a verge.";
                    fault(format!("/roof/edges/{i}"), why);
                }
            }
        }
        RoofForm::Monopitch => {
            for (i, edge) in edges.iter().enumerate() {
                if matches!(edge, EdgeKind::Hip | EdgeKind::Valley) {
                    let why =
                        "A monopitch roof has one slope: nothing meets it in a hip or valley.";
                    fault(format!("/roof/edges/{i}"), why);
                }
            }
        }
        RoofForm::Hipped => {
            if !has(EdgeKind::Hip) {
                let why = "Every slope of a hipped roof ends at a hip, and no side is called so.";
                fault("/roof/edges".to_owned(), why);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A main slope that has all of them, counter-clockwise: eaves, valley to the right, ridge, half a
    /// hip on the left and the verge under it.
    #[test]
    fn sides_run_as_the_water_does() {
        use EdgeKind::{Abutment, Eaves, Hip, PartyWall, Ridge, Valley, Verge};
        for (edge, along) in [
            (Eaves, [8.0, 0.0]),
            (Valley, [3.0, 3.0]),
            (Valley, [3.0, -3.0]),
            (Ridge, [-9.0, 0.0]),
            (Hip, [-2.0, -2.0]),
            (Hip, [-2.0, 2.0]),
            (Verge, [0.0, -1.0]),
            (Abutment, [0.0, 1.0]),
            (PartyWall, [0.0, 1.0]),
        ] {
            assert_eq!(contradicts_course(edge, along), None, "{edge:?} {along:?}");
            let turned = along.map(|step: f64| -step);
            let free = matches!(edge, Verge | Abutment | PartyWall);
            assert_eq!(contradicts_course(edge, turned).is_none(), free, "{edge:?} {turned:?}");
        }
        for edge in [Eaves, Ridge, Hip, Valley] {
            assert!(contradicts_course(edge, [0.0, 5.0]).is_some(), "{edge:?} along a rafter");
        }
        assert!(contradicts_course(Hip, [5.0, 0.0]).is_some(), "a hip along the eaves");
        for edge in [Hip, Valley] {
            assert!(contradicts_course(edge, [-5.0, 0.0]).is_some(), "{edge:?} along the ridge");
        }
        assert_eq!(contradicts_course(Valley, [5.0, 0.0]), None, "a valley between two roofs");
        for along in [[5.0, 0.0], [-5.0, 0.0], [5.0, 4.0]] {
            assert!(contradicts_course(PartyWall, along).is_some(), "{along:?}");
        }
    }
}
