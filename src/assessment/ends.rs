//! Free ends that no rafter can hold.

use crate::placement::Job;
use crate::placement::free_ends::{self, LongEnd};
use crate::placement::laid::Layout;
use crate::roof;
use crate::units::Length;

use super::value::End;
use super::{Fact, Findings, Place};

pub(super) fn free_ends(job: &Job, layout: &Layout, out: &mut Findings) {
    for end in free_ends::long_ends(job, &layout.rails) {
        free_end(job, layout, &end, out);
    }
}

fn free_end(job: &Job, layout: &Layout, end: &LongEnd, out: &mut Findings) {
    /// Two lengths closer than this are told as one.
    const TOLD_APART: Length = Length::from_mm(0.1);
    let line = &layout.rails[end.rail].line;
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
        field: Some(job.fields[line.field].id.clone()),
    };
    out.add(Place::Segment(end.rail, end.segment), fact);
}
