//! Places a hook can stand on a rail segment.

use std::sync::Arc;

use crate::checks::foot::{FootModel, Stance};
use crate::checks::segment::Candidate;
use crate::units::Length;

use super::footing::Footing;
use super::rail_lines::RailLine;
use super::{Job, sideways};

/// Every place a hook can stand on a segment as drawn.
#[must_use]
pub fn candidates(
    job: &Job,
    footing: &Footing,
    line: &RailLine,
    ends: [Length; 2],
    allowed: impl Fn(usize) -> bool,
) -> Vec<Candidate> {
    let inside = |x: Length| ends[0] <= x && x <= ends[1];
    let mut out: Vec<Candidate> = Vec::new();
    for (rafter, [x, arm_x]) in sideways::places(job, line.course, ends) {
        let after_last = out.last().is_none_or(|last| last.arm_x < arm_x);
        if inside(x) && inside(arm_x) && after_last {
            // Most arms stand alike, and their levers are the same.
            let like = out.last().filter(|last| last.arm_x - last.x == arm_x - x);
            let foot = like.map_or_else(|| foot(job, footing, arm_x - x), |last| last.foot.clone());
            let place = with_foot(job, (foot, 0), rafter, [x, arm_x], ends);
            out.push(place);
        }
    }
    // The outermost rafters hold the ends of the rail, whatever the pattern.
    let outermost = [out.first().map(|c| c.rafter), out.last().map(|c| c.rafter)];
    out.retain(|c| allowed(c.rafter) || outermost.contains(&Some(c.rafter)));
    out
}

/// A hook on a rafter with its axis at `x` and its arm at `arm_x`, its foot set in the way given
/// with its place among the footings.
#[must_use]
pub fn candidate(
    job: &Job,
    (footing, setting): (&Footing, usize),
    rafter: usize,
    [x, arm_x]: [Length; 2],
    ends: [Length; 2],
) -> Candidate {
    let foot = foot(job, footing, arm_x - x);
    with_foot(job, (foot, setting), rafter, [x, arm_x], ends)
}

fn foot(job: &Job, footing: &Footing, arm_offset: Length) -> Arc<FootModel> {
    // The side on which the rail bears on the arm is not said: the one farther from the axis.
    let aside = job.hook.load_aside;
    let arm_offset =
        if arm_offset < Length::ZERO { arm_offset - aside } else { arm_offset + aside };
    let stance = Stance {
        // A rail that hangs below its bolt turns the foot on a longer arm about both its edges.
        reach: job.hook.reach + job.rail.axis_offset.max(Length::ZERO),
        heights: footing.heights,
        arm_offset,
        bearing_width: footing.bearing_width,
        spread: [footing.bearing_spread; 2],
    };
    Arc::new(FootModel::new(&job.hook.foot, &stance))
}

fn with_foot(
    job: &Job,
    (foot, setting): (Arc<FootModel>, usize),
    rafter: usize,
    [x, arm_x]: [Length; 2],
    ends: [Length; 2],
) -> Candidate {
    let limit = job.rail.max_cantilever;
    Candidate {
        rafter,
        x,
        arm_x,
        foot,
        setting,
        // Both the arm and the rafter it belongs to: the limit holds however it is measured.
        may_be_first: x.max(arm_x) - ends[0] <= limit,
        may_be_last: ends[1] - x.min(arm_x) <= limit,
        stands: false,
    }
}
