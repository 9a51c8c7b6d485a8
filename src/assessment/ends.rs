//! Free ends that no rafter can hold.

use crate::placement::Job;
use crate::placement::free_ends::{self, At, LongEnd};
use crate::placement::laid::Layout;
use crate::placement::rail_axis::RailAxis;
use crate::placement::rail_lines::RailLine;
use crate::roof;
use crate::units::Length;

use super::value::{End, SlopeEnd};
use super::{Fact, Findings, Place};

pub(super) fn free_ends(job: &Job, layout: &Layout, out: &mut Findings) {
    for end in free_ends::long_ends(job, &layout.rails) {
        free_end(job, layout, &end, out);
    }
}

fn free_end(job: &Job, layout: &Layout, end: &LongEnd, out: &mut Findings) {
    /// Two lengths closer than this are told as one.
    const TOLD_APART: Length = Length::from_mm(0.1);
    let rail = &layout.rails[end.rail];
    let line = &rail.line;
    if line.axis() == RailAxis::UpSlope {
        // That no rafter is there, or that too few hooks can stand there, tells more.
        let candidates = rail.segments[end.segment].segment.candidates.len();
        let is_told = !line.on_grid && (line.there.is_none() || candidates < 2);
        if !is_told {
            up_slope(job, line, end, out);
        }
        return;
    }
    let inside = end.inside.zip(end.to_rafter);
    let outside = end.outside.zip(end.longer_by);
    let apart = |a: Length, b: Length| (a - b).abs() > TOLD_APART;
    let arm = inside.and_then(|(_, free)| end.to_arm.filter(|arm| apart(*arm, free)));
    let fact = Fact::FreeEnd {
        rail: line.id.clone(),
        end: match end.end {
            roof::End::Left => End::Left,
            roof::End::Right => End::Right,
        },
        limit: job.rail.max_cantilever,
        free: inside.map(|(_, free)| free),
        rafter_inside: inside.map(|(at, _)| at.rafter),
        rafter_inside_x: inside.map(|(at, _)| at.x),
        arm,
        rafter_outside: outside.map(|(at, _)| at.rafter),
        rafter_outside_x: outside.map(|(at, _)| at.x),
        longer: outside.map(|(_, longer)| longer),
        field: Some(job.fields[line.field()].id.clone()),
    };
    out.add(Place::Segment(end.rail, end.segment), fact);
}

/// Courses count from the first full one, and none that holds a rail lies below it.
fn up_slope(job: &Job, line: &RailLine, end: &LongEnd, out: &mut Findings) {
    let course = |at: At| usize::try_from(at.course).ok();
    let fact = Fact::FreeEndUpSlope {
        rail: line.id.clone(),
        end: match end.end {
            roof::End::Left => SlopeEnd::Lower,
            roof::End::Right => SlopeEnd::Upper,
        },
        limit: job.rail.max_cantilever,
        free: end.to_arm,
        course_inside: end.inside.and_then(course),
        course_outside: end.outside.and_then(course),
        longer: end.longer_by,
        field: job.fields[line.field()].id.clone(),
    };
    out.add(Place::Segment(end.rail, end.segment), fact);
}
