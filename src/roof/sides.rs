//! The sides of a slope: what each is and where it runs.

use crate::geometry::{Outline, Point};
use crate::units::Angle;

use super::Edge;

/// A side of a slope, from one corner of its counter-clockwise outline to the next: the slope lies to its
/// left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Side {
    /// What it is.
    pub edge: Edge,
    /// Where it runs.
    pub line: [Point; 2],
}

/// An end of a slope or of a rail on it, seen from in front of its eaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The left one.
    Left,
    /// The right one.
    Right,
}

impl Side {
    /// Every side of an outline.
    #[must_use]
    pub fn all(outline: &Outline, edges: &[Edge]) -> Vec<Self> {
        edges.iter().zip(outline.sides()).map(|(edge, line)| Self { edge: *edge, line }).collect()
    }

    /// The side as a plan of a roof of this pitch shows it.
    #[must_use]
    pub fn on_plan(self, pitch: Angle) -> Self {
        Self { line: self.line.map(|point| point.on_plan(pitch)), ..self }
    }

    /// Whether the slope ends there to the left or to the right.
    #[must_use]
    pub fn is_at(&self, end: End) -> bool {
        let [from, to] = self.line;
        match end {
            End::Left => to.y < from.y,
            End::Right => to.y > from.y,
        }
    }

    /// Pitch of the slope beyond a hip, where this slope has this pitch: both are equally high along it and
    /// where their eaves meet. Geometry.
    #[must_use]
    pub fn pitch_beyond(&self, pitch: Angle) -> Angle {
        let [from, to] = self.line;
        let rise = (to.y - from.y).abs() * pitch.sin();
        Angle::from_deg(rise.atan2((to.x - from.x).abs()).to_degrees())
    }
}

/// The hip at an end of a slope; the lowest, where there are several.
#[must_use]
pub fn hip_at(sides: &[Side], end: End) -> Option<Side> {
    let hips = sides.iter().filter(|side| side.edge == Edge::Hip && side.is_at(end)).copied();
    let foot = |side: &Side| side.line[0].y.min(side.line[1].y);
    hips.min_by(|a, b| foot(a).total_cmp(&foot(b)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hip(along: [f64; 2]) -> Side {
        let line = [Point { x: 0.0, y: 0.0 }, Point { x: along[0], y: along[1] }];
        Side { edge: Edge::Hip, line }
    }

    #[test]
    fn the_course_of_a_hip_tells_the_pitch_beyond() {
        let pitch = Angle::from_deg(40.0);
        // At 45° in plan the two slopes are alike.
        let alike = hip([-3.0, 3.0 / pitch.cos()]);
        assert!((alike.pitch_beyond(pitch).deg() - 40.0).abs() < 1e-9);
        // Half the run to the same height: twice as steep by its tangent.
        let steep = hip([-1.5, 3.0 / pitch.cos()]);
        assert!((steep.pitch_beyond(pitch).tan() - 2.0 * pitch.tan()).abs() < 1e-9);
    }

    #[test]
    fn outlines_run_down_on_the_left_and_up_on_the_right() {
        let sides = [hip([-3.0, 4.0]), hip([-3.0, -4.0])];
        assert_eq!(hip_at(&sides, End::Right), Some(sides[0]));
        assert_eq!(hip_at(&sides, End::Left), Some(sides[1]));
        assert_eq!(hip_at(&sides[..1], End::Left), None);
    }
}
