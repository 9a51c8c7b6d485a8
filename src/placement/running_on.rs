//! Rails that run on beyond their modules, to a rafter that can hold them.
//!
//! Where no rafter under a run of modules can hold an end of its rail within the overhang the rail allows,
//! the rail is laid as far as the next rafter outside, if it meets nothing on the way and no bar of it
//! becomes longer than it may be. What cannot be held so is left as it is, and found among the free ends.

use crate::geometry::Rect;
use crate::roof::End;
use crate::units::Length;

use super::Job;
use super::array;
use super::free_ends::{self, LongEnd};
use super::rail_lines::RailLine;

/// Rail beyond the outermost hook, so that its bolt holds; common practice, no source.
const BEYOND_HOOK: Length = Length::from_mm(50.0);

/// Room a rail takes on either side of its line; judgement.
const HALF_WIDTH: Length = Length::from_mm(50.0);

/// Lets every rail run on where one of its ends needs it and is free to be set.
pub fn run_on(job: &Job, lines: &mut [RailLine], is_free: impl Fn(usize, End) -> bool) {
    for rail in 0..lines.len() {
        for end in [End::Left, End::Right].into_iter().filter(|end| is_free(rail, *end)) {
            if let Some(longer) = longer(job, lines, rail, end) {
                lines[rail] = longer;
            }
        }
    }
}

/// The rail, longer at an end that needs it and can be.
fn longer(job: &Job, lines: &[RailLine], rail: usize, end: End) -> Option<RailLine> {
    let line = &lines[rail];
    let last = line.segments.len().checked_sub(1)?;
    let (segment, side) = match end {
        End::Left => (0, 0),
        End::Right => (last, 1),
    };
    let is_long = |line: &RailLine| -> Option<LongEnd> {
        free_ends::long_ends_of(job, line, segment).into_iter().find(|long| long.end == end)
    };
    let long = is_long(line)?;
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
    let foot = foot_on(job, line, long.outside?.x);
    let allowed = right - left <= job.rail.max_continuous
        && job.roof.outline.covers(&foot)
        && is_clear(job, lines, rail, way);
    // Seen from its new end the arm on that rafter may leave through another trough.
    (allowed && is_long(&longer).is_none()).then_some(longer)
}

/// Where a hook on a rafter stands, from its rail to the upper end of its foot.
fn foot_on(job: &Job, line: &RailLine, rafter: Length) -> Rect {
    let half = job.hook.foot.width / 2.0;
    let up = line.y + job.hook.reach + job.hook.foot.length;
    Rect { x: [(rafter - half).mm(), (rafter + half).mm()], y: [line.y.mm(), up.mm()] }
}

/// Whether nothing lies where a rail is to run on: the edge of the roof, an obstacle, a module, another rail.
fn is_clear(job: &Job, lines: &[RailLine], rail: usize, way: [Length; 2]) -> bool {
    let across = |y: Length| [(y - HALF_WIDTH).mm(), (y + HALF_WIDTH).mm()];
    let strip = Rect { x: way.map(Length::mm), y: across(lines[rail].y) };
    let meets = |rect: &Rect| rect.overlap(&strip) > 0.0;
    let other = |(i, line): (usize, &RailLine)| {
        let lies = |ends: &[Length; 2]| meets(&Rect { x: ends.map(Length::mm), y: across(line.y) });
        i != rail && line.segments.iter().any(lies)
    };
    let modules = array::modules(&job.fields, &job.module);
    job.roof.outline.covers(&strip)
        && !job.roof.obstacles.iter().any(|obstacle| obstacle.reaches(&strip))
        && !modules.iter().any(|module| !lines[rail].carries(module) && meets(&module.rect))
        && !lines.iter().enumerate().any(other)
}
