//! What a calculation of the loads leaves open where rails run up the slope: how hooks hold such a rail along it,
//! and what holds feet that tend to roll under it.

use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::rail_axis::RailAxis;
use crate::units::{Force, Length};

use super::{Fact, Findings, Place};

/// Change of temperature of a rail since it was bolted down, K: own judgement.
const CHANGE: f64 = 30.0;

pub(super) fn held(job: &Job, layout: &Layout, out: &mut Findings) {
    if job.rail_axis == RailAxis::AlongEaves || layout.hooks().next().is_none() {
        return;
    }
    let results = layout.segments().filter_map(|laid| laid.result.as_ref());
    let forces = results.flat_map(|result| result.forces.iter().flatten());
    let slope = forces.map(|[_, slope]| slope.abs()).fold(Force::ZERO, Force::max);
    out.add(Place::Hooks, Fact::HoldAlongUnknown { slope, restraint: restraint(job, layout) });
    rolling(layout, out);
}

/// Most that a change of temperature puts on a hook where bolts do not slip: its spring times how far the rail
/// moves there, from the middle of the hooks of its segment. The rail gives less than its hooks, which is left
/// out. `None` where hooks are taken as rigid down the slope.
fn restraint(job: &Job, layout: &Layout) -> Option<Force> {
    let stiffness = job.hook.slope_stiffness?;
    let expansion = job.rail.metal().expansion();
    let farthest = layout.segments().flat_map(|laid| {
        let places: Vec<Length> = laid.hooks().map(|place| place.at).collect();
        let sum: Length = places.iter().copied().sum();
        let middle = sum / places.len().max(1) as f64;
        places.into_iter().map(move |at| (at - middle).abs())
    });
    Some(stiffness * (farthest.fold(Length::ZERO, Length::max) * (expansion * CHANGE)))
}

/// A rail along the eaves holds its feet against rolling by its bending; one up the slope only twists.
fn rolling(layout: &Layout, out: &mut Findings) {
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let Some(result) = &laid.result else { continue };
            if let Some(rolling) = laid.segment.rolling(&laid.found.subset, result) {
                let hook = layout.hook_name([r, s, rolling.hook]).to_owned();
                out.add(Place::Segment(r, s), Fact::RollUnderRailUpSlope { hook });
            }
        }
    }
}
