//! Rails that cross: what of their connectors is not known, upper rails that nothing holds, and what is not proven.

use crate::checks::crossing::CrossingResult;
use crate::placement::Job;
use crate::placement::laid::{Layout, Rail};
use crate::placement::search::Outcome;
use crate::units::{Force, Length};

use super::{Fact, Findings, Place};

pub(super) fn crossing(job: &Job, layout: &Layout, out: &mut Findings) {
    if !job.rails_cross {
        return;
    }
    not_held(job, layout, out);
    connectors(job, layout, out);
    not_proven(job, layout, out);
}

/// Upper rails that do not rest on two lower ones, or have an end that is free for too much.
fn not_held(job: &Job, layout: &Layout, out: &mut Findings) {
    let limit = job.rail.max_cantilever;
    for (r, rail) in layout.rails.iter().enumerate().filter(|(_, rail)| rail.line.is_upper()) {
        for (s, (laid, ends)) in rail.segments.iter().zip(&rail.line.segments).enumerate() {
            let lower: Vec<Length> = laid.crossings().collect();
            let ends_are_short = match lower[..] {
                [first, .., last] => (first - ends[0]).max(ends[1] - last) <= limit + ROUNDING,
                _ => false,
            };
            if !ends_are_short {
                let (rail, lower_rails) = (rail.line.id.clone(), lower.len());
                out.add(Place::Segment(r, s), Fact::UpperRailNotHeld { rail, lower_rails, limit });
            }
        }
    }
}

/// What a free end may be off by in rounding.
const ROUNDING: Length = Length::from_mm(1e-6);

/// What connectors take where it is not known what they bear.
fn connectors(job: &Job, layout: &Layout, out: &mut Findings) {
    let results = layout.segments().filter_map(|laid| laid.result.as_ref());
    let all: Vec<&CrossingResult> = results.flat_map(|result| &result.crossings).collect();
    if job.rail.crossing.is_some() || all.is_empty() {
        return;
    }
    let most = |of: fn(&CrossingResult) -> Force| {
        all.iter().map(|crossing| of(crossing)).fold(Force::ZERO, Force::max)
    };
    let (lift, slide) = (most(|crossing| crossing.lift), most(|crossing| crossing.slide));
    out.add(Place::Rails, Fact::CrossingUnknown { crossings: all.len(), lift, slide });
}

/// Fields whose lower rails were searched one by one while they bear on one another.
fn not_proven(job: &Job, layout: &Layout, out: &mut Findings) {
    for (field, of) in job.fields.iter().enumerate() {
        let own = |rail: &&Rail| rail.line.is_beneath() && rail.line.field() == field;
        let rails: Vec<&Rail> = layout.rails.iter().filter(own).collect();
        let segments = || rails.iter().flat_map(|rail| &rail.segments);
        if segments().any(|laid| laid.found.outcome == Outcome::Together) {
            let hooks = segments().map(|laid| laid.found.subset.len()).sum();
            let (field, lower_rails) = (of.id.clone(), rails.len());
            out.add(Place::Rails, Fact::RailsBearOnEachOther { field, lower_rails, hooks });
        }
    }
}
