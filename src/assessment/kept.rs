//! What is wrong with rails and hooks that are kept: what is looked at where they stand as built.

use crate::placement::Job;
use crate::placement::laid::Layout;

use super::{Fact, Findings, Place, built, footing};

pub(super) fn kept(job: &Job, layout: &Layout, out: &mut Findings) {
    let there = || layout.rails.iter().enumerate().filter(|(_, rail)| rail.line.there.is_some());
    let unknown = there().filter(|(_, rail)| rail.line.there.is_some_and(|there| !there.told));
    let mut segments = unknown.flat_map(|(_, rail)| &rail.segments);
    if job.rail.splice_moment.is_some() && segments.any(|laid| !laid.splices.is_empty()) {
        out.add(Place::Rails, Fact::SplicePlacesUnknown {});
    }
    for (r, rail) in there() {
        built::lines(job, r, rail, out);
    }
    built::courses(job, layout, |place| place.stands, out);
    // What is wrong with new feet is no matter where no hook is added.
    let adds = layout.hooks_set(0).next().is_some();
    if let Some(new) = layout.footings.first().filter(|_| adds || there().next().is_none()) {
        footing::no_stack(job, new, out);
        let hooks: Vec<String> = layout.hooks_set(0).map(str::to_owned).collect();
        let hooks = (layout.footings.len() > 1).then_some(&hooks[..]);
        footing::screws(job, new, hooks, out);
    }
    for setting in 1..layout.footings.len() {
        built::feet(job, layout, setting, out);
    }
}
