//! How far the arm stands off the rafter axis.
//!
//! Under interlocking tiles an arm can only leave in a trough: it goes to the nearest one. Under
//! flat tiles it can leave anywhere and stays on the axis, where the foot is loaded least.

use crate::covering::courses;
use crate::units::Length;

use super::Job;

/// Where the arm of a hook on this rafter leaves a course; `None` when no trough is within the
/// foot's lateral range.
#[must_use]
pub fn arm_position(job: &Job, course: i64, rafter_axis: Length) -> Option<Length> {
    let at = courses::nearest_trough(&job.covering, course, rafter_axis);
    // A tenth of a millimetre for rounding in the grid.
    let range = job.hook.foot.lateral_range + Length::from_mm(0.1);
    ((at - rafter_axis).abs() <= range).then_some(at)
}
