//! Feet that tend to roll, where hooks and rail cannot be shown to bear what that adds.

use crate::checks::Check;
use crate::checks::roll::BORNE;
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::rail_axis::RailAxis;

use super::value::Utilisation;
use super::{Fact, Findings, Place};

/// Every part of a rail along the eaves that bears its loads and not for certain what the rolling of its feet adds.
pub(super) fn rolling(job: &Job, layout: &Layout, out: &mut Findings) {
    if job.rail_axis == RailAxis::UpSlope {
        return;
    }
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let Some(result) = &laid.result else { continue };
            // What fails without it is found by its checks. That an arm or a rail gives too much says
            // nothing of what they bear.
            let bears = |check: Check| !matches!(check, Check::Clearance | Check::RailDeflection);
            let mut strengths = result.checks().filter(|((check, _), _)| bears(*check));
            if strengths.any(|(_, used)| !job.wishes.allow(used.utilisation)) {
                continue;
            }
            let Some(rolling) = laid.segment.rolling(&laid.found.subset, result) else { continue };
            if rolling.utilisation() <= BORNE {
                continue;
            }
            let fact = Fact::FootRolls {
                hook: layout.hook_name([r, s, rolling.hook]).to_owned(),
                force: rolling.force,
                utilisation: Utilisation::new(rolling.utilisation()),
            };
            out.add(Place::Segment(r, s), fact);
        }
    }
}
