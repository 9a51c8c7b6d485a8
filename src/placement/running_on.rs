//! Rails that run on beyond their modules, to a rafter that can hold them.
//!
//! Where no rafter under a run of modules can hold an end of its rail within the overhang the rail allows,
//! the rail is laid as far as the next rafter outside, if it meets nothing on the way and no bar of it
//! becomes longer than it may be. What cannot be held so is left as it is, and found among the free ends.

use std::cell::LazyCell;

use crate::geometry::Rect;
use crate::roof::End;
use crate::units::Length;

use super::Job;
use super::array::{self, Placed};
use super::free_ends::{self, LongEnd};
use super::rail_lines::RailLine;

/// Rail beyond the outermost hook, so that its bolt holds; common practice, no source.
const BEYOND_HOOK: Length = Length::from_mm(50.0);

/// Room a rail takes on either side of its line; judgement.
const HALF_WIDTH: Length = Length::from_mm(50.0);

/// Lets every rail run on where one of its ends needs it and is free to be set.
pub fn run_on(job: &Job, lines: &mut [RailLine], is_free: impl Fn(usize, End) -> bool) {
    // Most layouts have no end that is too long, and never ask.
    let modules = LazyCell::new(|| array::modules(&job.fields));
    for rail in 0..lines.len() {
        for end in [End::Left, End::Right].into_iter().filter(|end| is_free(rail, *end)) {
            let Some(long) = long_end(job, &lines[rail], end) else { continue };
            if let Some(longer) = longer(job, (lines, &modules), rail, &long) {
                lines[rail] = longer;
            }
        }
    }
}

/// An end of a rail, if it is too long.
fn long_end(job: &Job, line: &RailLine, end: End) -> Option<LongEnd> {
    let segment = match end {
        End::Left => 0,
        End::Right => line.segments.len().checked_sub(1)?,
    };
    free_ends::long_ends_of(job, line, segment).into_iter().find(|long| long.end == end)
}

/// The rail, longer at an end that is too long, if it can be.
fn longer(
    job: &Job,
    (lines, modules): (&[RailLine], &[Placed]),
    rail: usize,
    long: &LongEnd,
) -> Option<RailLine> {
    let line = &lines[rail];
    let LongEnd { segment, end, .. } = *long;
    let side = usize::from(end == End::Right);
    let by = long.longer_by? + BEYOND_HOOK.max(job.rail.end_projection);
    let mut longer = line.clone();
    let at = &mut longer.segments[segment][side];
    let from = *at;
    *at = match end {
        End::Left => *at - by,
        End::Right => *at + by,
    };
    let way = [from.min(*at), from.max(*at)];
    longer.runs_on[side] = by;
    let [left, right] = longer.segments[segment];
    let hook = job.hook.footprint(long.outside?.x, long.outside?.y);
    let allowed = right - left <= job.rail.max_continuous
        && job.roof.outline.covers(&hook)
        && is_clear(job, (lines, modules), rail, way);
    // Seen from its new end the arm on that rafter may leave through another trough.
    (allowed && long_end(job, &longer, end).is_none()).then_some(longer)
}

/// Whether nothing lies where a rail is to run on: the edge of the roof, an obstacle, a module, another rail.
fn is_clear(
    job: &Job,
    (lines, modules): (&[RailLine], &[Placed]),
    rail: usize,
    way: [Length; 2],
) -> bool {
    let strip = |line: &RailLine, ends: [Length; 2]| {
        let across = [line.across - HALF_WIDTH, line.across + HALF_WIDTH];
        line.axis().rect(ends.map(Length::mm), across.map(Length::mm))
    };
    let own = strip(&lines[rail], way);
    let meets = |rect: &Rect| rect.overlap(&own) > 0.0;
    let other = |(i, line): (usize, &RailLine)| {
        let lies = |ends: &[Length; 2]| meets(&strip(line, *ends));
        i != rail && line.segments.iter().any(lies)
    };
    job.roof.outline.covers(&own)
        && !job.roof.obstacles.iter().any(|obstacle| obstacle.reaches(&own))
        && !modules.iter().any(|module| !lines[rail].carries(module) && meets(&module.rect))
        && !lines.iter().enumerate().any(other)
}
