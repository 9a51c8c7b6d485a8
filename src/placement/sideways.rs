//! How far the arm stands off the rafter axis.
//!
//! Under interlocking tiles an arm can only leave in a trough: it goes to the nearest one, and of
//! two equally near to the one nearer to an end of the rail, where it shortens the free end. Under
//! flat tiles it can leave anywhere and is on the axis, where the foot is loaded least, until
//! `side_joints` moves it.

use crate::covering::courses;
use crate::units::Length;

use super::Job;

/// Distances that differ by no more than rounding in the grid.
pub const ROUNDING: Length = Length::from_mm(0.1);

/// Every rafter that can take a hook under a rail with these ends, left to right: its number, its
/// axis and where the arm leaves. They may lie beyond the ends. Those that are barred are left out.
pub fn places(
    job: &Job,
    course: i64,
    ends: [Length; 2],
) -> impl Iterator<Item = (usize, [Length; 2])> + '_ {
    job.roof.rafters.open().filter_map(move |(rafter, x)| {
        arm_position(job, course, x, ends).map(|arm_x| (rafter, [x, arm_x]))
    })
}

/// Where the arm of a hook on this rafter leaves a course under a rail with these ends; `None` when
/// no trough is within the foot's lateral range.
#[must_use]
pub fn arm_position(
    job: &Job,
    course: i64,
    rafter_axis: Length,
    ends: [Length; 2],
) -> Option<Length> {
    let range = job.hook.foot.lateral_range + ROUNDING;
    let off = |at: Length| (at - rafter_axis).abs();
    let to_end = |at: Length| {
        let inside = ends[0] <= at && at <= ends[1];
        let nearest = (at - ends[0]).abs().min((ends[1] - at).abs());
        (!inside, nearest)
    };
    courses::troughs_around(&job.covering, course, rafter_axis)
        .into_iter()
        .filter(|at| off(*at) <= range)
        .reduce(|best, at| {
            let nearer = off(at) < off(best) - ROUNDING;
            let as_near = off(at) <= off(best) + ROUNDING;
            if nearer || (as_near && to_end(at) < to_end(best)) { at } else { best }
        })
}
