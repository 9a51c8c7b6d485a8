//! Rails: why no choice of hooks passes, and rails that meet.

use crate::checks::segment::SegmentResult;
use crate::placement::free_ends;
use crate::placement::laid::{InAnyPattern, LaidSegment, Layout, Rail};
use crate::placement::rail_axis::RailAxis;
use crate::placement::search::Outcome;
use crate::placement::{Job, Objective};

use super::value::{PatternAsked, Utilisation};
use super::{Fact, Findings, Place, strength};

pub(super) fn rails(job: &Job, layout: &Layout, out: &mut Findings) {
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            if !rail.line.is_upper() {
                segment(job, layout, [r, s], rail, laid, out);
            }
            strength::check_by_check(job, layout, [r, s], out);
        }
    }
}

fn segment(
    job: &Job,
    layout: &Layout,
    [r, s]: [usize; 2],
    rail: &Rail,
    laid: &LaidSegment,
    out: &mut Findings,
) {
    let name = rail.line.id.clone();
    let place = Place::Segment(r, s);
    let segment = (rail.segments.len() > 1).then_some(s + 1);
    let candidates = laid.segment.candidates.len();
    let hooks = laid.found.subset.len();
    let fact = match laid.found.outcome {
        // That of rails that cross is told of all of a field together.
        Outcome::FewestProven | Outcome::Given | Outcome::Together => return,
        Outcome::FewestProvenNotRanked => Fact::NotRanked { rail: name, segment, hooks },
        Outcome::Spread => {
            let lower_bound = laid.found.lower_bound;
            Fact::SpreadForRafters { rail: name, segment, lower_bound, hooks }
        }
        Outcome::BestFound => Fact::SearchLimit {
            rail: name,
            segment,
            weighed: laid.found.weighed,
            lower_bound: laid.found.lower_bound,
            hooks,
        },
        Outcome::NonePasses | Outcome::NoneFound if candidates < 2 => match rail.line.axis() {
            RailAxis::AlongEaves => Fact::TooFewRafters { rail: name, candidates },
            // That no rafter is there tells more.
            RailAxis::UpSlope if !rail.line.on_grid && rail.line.there.is_none() => return,
            RailAxis::UpSlope => Fact::TooFewCourses { rail: name, candidates },
        },
        Outcome::NonePasses | Outcome::NoneFound => match &laid.result {
            None => Fact::Unstable { rail: name },
            // Rails that cross fail together, and each is told of by what it fails in.
            Some(_) if rail.line.is_beneath() => return,
            Some(result) => match no_pattern(job, layout, [r, s], (laid, result)) {
                Some(fact) => fact,
                None => return,
            },
        },
    };
    out.add(place, fact);
}

/// What it costs to have hooks on the same rafters on all rails of a field, where every rail holds on them.
pub(super) fn same_rafters(layout: &Layout, out: &mut Findings) {
    let passes = layout.segments().all(|laid| laid.found.outcome.passes());
    let Some(InAnyPattern { hooks: in_any_pattern, .. }) = layout.in_any_pattern.filter(|_| passes)
    else {
        return;
    };
    let hooks = layout.hooks().count();
    out.add(Place::Rails, Fact::SameRaftersCost { hooks, in_any_pattern });
}

/// Why no choice of hooks passes on a segment: its ends, or the check that governs with all
/// candidates. `None` where a free end no rafter can hold is the cause, which is found by itself.
fn no_pattern(
    job: &Job,
    layout: &Layout,
    [r, s]: [usize; 2],
    (laid, result): (&LaidSegment, &SegmentResult),
) -> Option<Fact> {
    let line = &layout.rails[r].line;
    let places = &laid.segment.candidates;
    let ends_held = places.iter().any(|c| c.may_be_first) && places.iter().any(|c| c.may_be_last);
    if !ends_held && !free_ends::long_ends_of(job, line, s).is_empty() {
        return None;
    }
    let (check, governing, hook) = result.governing();
    let over = ends_held && governing.utilisation > job.wishes.max_utilisation;
    let element = hook.map_or(&*line.id, |h| layout.hook_name([r, s, h]));
    Some(Fact::NoHookPattern {
        rail: line.id.clone(),
        candidates: places.len(),
        pattern: match job.wishes.objective {
            Objective::FewestHooks => PatternAsked::Free,
            Objective::EvenSpacing | Objective::Staggered | Objective::SameRafters => {
                PatternAsked::Asked
            }
        },
        free_end: (!ends_held).then_some(job.rail.max_cantilever),
        element: over.then(|| element.to_owned()),
        check: over.then_some(check),
        utilisation: over.then(|| Utilisation::new(governing.utilisation)),
        combination: over.then(|| job.combination_name(governing.combination).to_owned()),
        bound: strength::bound(job),
    })
}

pub(super) fn rails_that_meet(job: &Job, layout: &Layout, out: &mut Findings) {
    for (i, a) in layout.rails.iter().enumerate() {
        for b in layout.rails.iter().skip(i + 1) {
            let (a, b) = (&a.line, &b.line);
            let level = a.axis() == b.axis() && (a.across - b.across).abs() < job.rail.depth;
            if level && a.start() <= b.end() && b.start() <= a.end() {
                let x = a.start().max(b.start());
                let (rail, other) = (a.id.clone(), b.id.clone());
                out.add(Place::Rail(i), Fact::RailsOverlap { rail, other, x });
            }
        }
    }
}
