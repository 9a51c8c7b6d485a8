//! Feet that tend to roll, where hooks and rail cannot be shown to bear what that adds.

use crate::placement::Job;
use crate::placement::laid::Layout;

use super::value::Utilisation;
use super::{Fact, Findings, Place};

/// Every part of a rail that bears its loads and not for certain what the rolling of its feet adds.
pub(super) fn rolling(job: &Job, layout: &Layout, out: &mut Findings) {
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let Some(result) = &laid.result else { continue };
            // What fails without it is found by its checks.
            if result.checks().any(|(_, used)| !job.wishes.allow(used.utilisation)) {
                continue;
            }
            let Some(rolling) = laid.segment.rolling(&laid.found.subset, result) else { continue };
            let (hook, used) = rolling.hook;
            let used = used.max(rolling.rail);
            if used <= 1.0 {
                continue;
            }
            let fact = Fact::FootRolls {
                hook: layout.hook_name([r, s, hook]).to_owned(),
                force: rolling.force,
                utilisation: Utilisation::new(used),
            };
            out.add(Place::Segment(r, s), fact);
        }
    }
}
