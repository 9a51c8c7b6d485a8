//! What a calculation of the loads leaves open where rails run up the slope: how hooks hold such a rail along it,
//! and what holds feet that tend to roll under it.

use crate::checks::segment::Hold;
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
    let declared = job.bolt.and_then(|bolt| bolt.groove_slip);
    if job.hold == Hold::AllHooks {
        let slope = most_along(layout).map_or(Force::ZERO, |(_, slope)| slope);
        let restraint = restraint(job, layout);
        out.add(Place::Hooks, Fact::HoldAlongUnknown { slope, declared, restraint });
    } else if let (None, Some((hook, slope))) = (declared, most_along(layout)) {
        let hook = hook.to_owned();
        out.add(Place::Hooks, Fact::HoldOfOneUnknown { hook, slope });
    }
    rolling(layout, out);
}

/// The hook that bears most along its rail, by name, and how much; of equals the first.
fn most_along(layout: &Layout) -> Option<(&str, Force)> {
    let mut most: Option<([usize; 3], Force)> = None;
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let of_case = laid.result.iter().flat_map(|result| result.forces.iter());
            for (hook, [_, slope]) in of_case.flat_map(|forces| forces.iter().enumerate()) {
                if most.is_none_or(|(_, known)| slope.abs() > known) {
                    most = Some(([r, s, hook], slope.abs()));
                }
            }
        }
    }
    most.map(|(at, slope)| (layout.hook_name(at), slope))
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
