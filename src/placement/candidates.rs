//! Places a hook can stand on a rail segment.

use std::sync::Arc;

use crate::checks::foot::{FootModel, Stance};
use crate::checks::segment::Candidate;
use crate::units::Length;

use super::Job;
use super::footing::Footing;
use super::places::{self, Place};
use super::rail_axis::RailAxis;
use super::rail_lines::RailLine;

/// Every place a hook can stand on a segment as drawn: on the stretch of it that is left to its hooks.
#[must_use]
pub fn candidates(
    job: &Job,
    footing: &Footing,
    line: &RailLine,
    (ends, stretch): ([Length; 2], [Length; 2]),
    allowed: impl Fn(&Place) -> bool,
) -> Vec<Candidate> {
    let mut out: Vec<(Place, Candidate)> = Vec::new();
    for place in places::places(job, line, ends) {
        let [low, high] = place.reach(line.axis());
        let after_last = out.last().is_none_or(|(_, last)| last.at < place.at);
        if stretch[0] <= low && high <= stretch[1] && after_last {
            // Most arms stand alike, and their levers are the same.
            let shift = place.arm_x - place.x;
            let like = out.last().filter(|(_, last)| last.arm_x - last.x == shift);
            let foot =
                like.map_or_else(|| foot(job, footing, shift), |(_, last)| last.foot.clone());
            out.push((place, with_foot(job, (foot, 0), place, [low, high], ends)));
        }
    }
    // The outermost places hold the ends of the rail, whatever the pattern.
    let outermost = [out.first(), out.last()].map(|end| end.map(|(place, _)| *place));
    out.retain(|(place, _)| allowed(place) || outermost.contains(&Some(*place)));
    out.into_iter().map(|(_, candidate)| candidate).collect()
}

/// A hook in a place under a rail, its foot set in the way given with its place among the footings.
#[must_use]
pub fn candidate(
    job: &Job,
    (footing, setting): (&Footing, usize),
    place: Place,
    ends: [Length; 2],
) -> Candidate {
    let foot = foot(job, footing, place.arm_x - place.x);
    with_foot(job, (foot, setting), place, place.reach(job.rail_axis), ends)
}

fn foot(job: &Job, footing: &Footing, arm_offset: Length) -> Arc<FootModel> {
    let aside = job.hook.load_aside;
    let below = match job.rail_axis {
        RailAxis::AlongEaves => job.rail.axis_offset.max(Length::ZERO),
        RailAxis::UpSlope => Length::ZERO,
    };
    let load = arm_offset + job.rail_aside();
    let stance = Stance {
        // A rail that hangs below its bolt turns the foot on a longer arm about both its edges.
        reach: job.hook.reach + below,
        heights: footing.heights,
        // On which side of the arm's axis the rail bears is not said.
        load: [load - aside, load + aside],
        bearing_width: footing.bearing_width,
        spread: [footing.bearing_spread; 2],
    };
    Arc::new(FootModel::new(&job.hook.foot, &stance))
}

fn with_foot(
    job: &Job,
    (foot, setting): (Arc<FootModel>, usize),
    place: Place,
    [low, high]: [Length; 2],
    ends: [Length; 2],
) -> Candidate {
    let limit = job.rail.max_cantilever;
    let Place { rafter, course, x, arm_x, at } = place;
    Candidate {
        rafter,
        course,
        step: place.step(job.rail_axis),
        x,
        arm_x,
        at,
        foot,
        setting,
        // The limit holds however it is measured.
        may_be_first: high - ends[0] <= limit,
        may_be_last: ends[1] - low <= limit,
        stands: false,
    }
}
