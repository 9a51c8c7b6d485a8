//! Places where a hook can stand under a rail, as far as rafters and covering tell.

use crate::covering::courses;
use crate::units::Length;

use super::line::Over;
use super::rail_axis::RailAxis;
use super::rail_lines::RailLine;
use super::{Job, sideways, up_slope};

/// A place where a hook can stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Rafter.
    pub rafter: usize,
    /// Course its arm leaves under.
    pub course: i64,
    /// Axis of the rafter.
    pub x: Length,
    /// Where its arm leaves.
    pub arm_x: Length,
    /// Where the arm holds the rail, along the rail.
    pub at: Length,
}

impl Place {
    /// Under a rail along the eaves.
    #[must_use]
    pub const fn along_eaves(course: i64, rafter: usize, [x, arm_x]: [Length; 2]) -> Self {
        Self { rafter, course, x, arm_x, at: arm_x }
    }

    /// Number of its rafter, or of its course where rails run up the slope.
    #[must_use]
    pub const fn step(&self, axis: RailAxis) -> i64 {
        match axis {
            RailAxis::AlongEaves => self.rafter.cast_signed() as i64,
            RailAxis::UpSlope => self.course,
        }
    }

    /// What it takes of the rail: where that runs along the eaves, both the arm and the rafter it belongs to,
    /// so that every limit holds however it is measured.
    #[must_use]
    pub fn reach(&self, axis: RailAxis) -> [Length; 2] {
        match axis {
            RailAxis::AlongEaves => [self.x.min(self.arm_x), self.x.max(self.arm_x)],
            RailAxis::UpSlope => [self.at; 2],
        }
    }
}

/// Every place where a hook can stand under a rail with these ends, along the rail. They may lie beyond the
/// ends. Rafters that are barred are left out.
#[must_use]
pub fn places(job: &Job, line: &RailLine, ends: [Length; 2]) -> Vec<Place> {
    match line.over {
        Over::Course(course) => sideways::places(job, course, ends)
            .map(|(rafter, at)| Place::along_eaves(course, rafter, at))
            .collect(),
        Over::Rafter(rafter) => up_rafter(job, line, rafter),
        Over::Rails => Vec::new(),
    }
}

/// Of a rail over a rafter the courses whose arms can leave where the rail lies.
fn up_rafter(job: &Job, line: &RailLine, rafter: usize) -> Vec<Place> {
    let (covering, roof) = (&job.covering, job.roof.outline.bounds().y.map(Length::from_mm));
    let beyond = job.hook.bolt_beyond_exit + line.lowered;
    let x = job.roof.rafters.positions[rafter];
    if !line.on_grid || job.roof.rafters.is_barred(rafter) {
        return Vec::new();
    }
    let [low, high] = roof.map(|y| y + beyond);
    let courses = courses::courses_between(covering, low, high);
    let arm_x = line.across - job.rail_aside();
    let leaves = courses.filter(|course| up_slope::leaves_at(job, *course, arm_x));
    let place = |course: i64| Place {
        rafter,
        course,
        x,
        arm_x,
        at: courses::tail_edge(covering, course) - beyond,
    };
    leaves.map(place).collect()
}
