//! What is wrong with a job as built.
//!
//! A wrong place of a hook or a rail is a finding, not a fault of the request: it is how the roof
//! was built, and the reader wants to know what that does to the rest.

use crate::checks::segment::Candidate;
use crate::placement::built::{self, Built, Checked, Idle};
use crate::placement::laid::{Layout, Rail};
use crate::placement::line::{OFF_LINE, Over};
use crate::placement::rail_axis::RailAxis;
use crate::placement::{Job, up_slope};
use crate::units::Length;

use super::value::{End, SlopeEnd};
use super::{Fact, Findings, Place, footing, strength};

/// What places are given to: a limit met in an answer is met when the answer is read back.
const LAST_DIGIT: Length = Length::from_mm(0.01);

pub(super) fn built(job: &Job, built: &Built, checked: &Checked, out: &mut Findings) {
    let layout = &checked.layout;
    idle_hooks(job, built, &checked.idle, out);
    let unknown = layout.rails.iter().filter(|rail| rail.line.spliced_at.is_none());
    let spliced = unknown.flat_map(|rail| &rail.segments).any(|laid| !laid.splices.is_empty());
    if job.rail.splice_moment.is_some() && spliced {
        out.add(Place::Rails, Fact::SplicePlacesUnknown {});
    }
    rows(job, layout, out);
    let mut hooks_before = 0;
    for (r, rail) in layout.rails.iter().enumerate() {
        lines(job, r, rail, out);
        for s in 0..rail.segments.len() {
            supports(job, rail, [r, s], out);
            strength::hook_by_hook(job, layout, [r, s], hooks_before, out);
            hooks_before += rail.segments[s].found.subset.len();
        }
    }
    courses(job, layout, |_| true, out);
    for setting in 0..layout.footings.len() {
        feet(job, layout, setting, out);
    }
}

fn idle_hooks(job: &Job, built: &Built, idle: &[(usize, Idle)], out: &mut Findings) {
    for (hook, why) in idle {
        let hook = &built.hooks[*hook];
        let rail = built.rails[hook.rail].id.clone();
        let (name, x, y) = (hook.id.clone(), hook.x, hook.y);
        let fact = match why {
            Idle::MissesRafter => {
                let off = built::nearest_rafter(job, x).map_or(Length::ZERO, |(_, off)| off);
                Fact::MissesRafter { hook: name, rail, x, off }
            }
            Idle::OnRotten(rafter) => Fact::OnRottenRafter { hook: name, rail, rafter: *rafter, x },
            Idle::BeyondRail => Fact::BeyondRailEnd { hook: name, rail, x, y },
            Idle::BesideRail(off) => {
                Fact::ArmBesideRail { hook: name, rail, off: *off, limit: OFF_LINE }
            }
            Idle::OnAnother => Fact::OnAnotherHook { hook: name, rail, x },
            Idle::FootOnAnother(below) => {
                let below = &built.hooks[*below];
                Fact::FootOnAnotherFoot {
                    hook: name,
                    rail,
                    below: below.id.clone(),
                    apart: hook.along() - below.along(),
                    need: job.hook.foot.length,
                }
            }
        };
        out.add(Place::Hooks, fact);
    }
}

fn rows(job: &Job, layout: &Layout, out: &mut Findings) {
    let lines: Vec<_> = layout.rails.iter().map(|rail| rail.line.clone()).collect();
    for (field, row, rails) in built::rows_without_two_rails(job, &lines) {
        let field = job.fields[field].id.clone();
        let [row, column] = on_axes(job.rail_axis, u64::from(row));
        out.add(Place::Rails, Fact::RowWithoutTwoRails { field, row, column, rails });
    }
}

/// What is told of rails along the eaves, and of those up the slope.
fn on_axes<T>(axis: RailAxis, what: T) -> [Option<T>; 2] {
    match axis {
        RailAxis::AlongEaves => [Some(what), None],
        RailAxis::UpSlope => [None, Some(what)],
    }
}

pub(super) fn lines(job: &Job, r: usize, rail: &Rail, out: &mut Findings) {
    let line = &rail.line;
    let place = Place::Rail(r);
    let name = || line.id.clone();
    let [y, x] = on_axes(line.axis(), line.across);
    if let Some(off) = built::outside_clamp_zone(job, line) {
        out.add(place, Fact::OutsideClampZone { rail: name(), y, x, off });
    }
    match line.over {
        _ if line.on_grid => {}
        Over::Rails => {}
        Over::Course(_) => {
            let fact = Fact::OffCourseLine { rail: name(), y: line.across, off: OFF_LINE };
            out.add(place, fact);
        }
        Over::Rafter(rafter) => {
            let (x, range) = (line.across, job.hook.foot.lateral_range);
            let beside = (x - job.rail_aside() - job.roof.rafters.positions[rafter]).abs();
            let fact = Fact::OffRafterLine { rail: name(), x, beside, range, off: OFF_LINE };
            out.add(place, fact);
        }
    }
    let longest = line.segments.iter().map(|[a, b]| *b - *a).fold(Length::ZERO, Length::max);
    let limit = job.rail.max_continuous;
    if longest - limit > LAST_DIGIT {
        out.add(place, Fact::LongerThanContinuous { rail: name(), length: longest, limit });
    }
}

/// Whether a segment has hooks enough, near enough to its ends.
fn supports(job: &Job, rail: &Rail, [r, s]: [usize; 2], out: &mut Findings) {
    let name = || rail.line.id.clone();
    let laid = &rail.segments[s];
    let place = Place::Segment(r, s);
    let hooks = &laid.segment.candidates;
    let (Some(first), Some(last), 2..) = (hooks.first(), hooks.last(), hooks.len()) else {
        out.add(place, Fact::TooFewHooks { rail: name(), hooks: hooks.len() });
        return;
    };
    if laid.result.is_none() {
        out.add(place, Fact::Unstable { rail: name() });
    }
    let ends = rail.line.segments[s];
    let limit = job.rail.max_cantilever;
    if job.rail_axis == RailAxis::UpSlope {
        for (end, free, hook) in [
            (SlopeEnd::Lower, first.at - ends[0], first),
            (SlopeEnd::Upper, ends[1] - last.at, last),
        ] {
            if free - limit > LAST_DIGIT {
                let fact = Fact::FreeEndUpSlope {
                    rail: name(),
                    end,
                    limit,
                    free: Some(free),
                    course_inside: usize::try_from(hook.course).ok(),
                    course_outside: None,
                    longer: None,
                    field: job.fields[rail.line.field()].id.clone(),
                };
                out.add(place, fact);
            }
        }
        return;
    }
    for (end, free) in [
        (End::Left, first.x.max(first.arm_x) - ends[0]),
        (End::Right, ends[1] - last.x.min(last.arm_x)),
    ] {
        if free - limit > LAST_DIGIT {
            let fact = Fact::FreeEnd {
                rail: name(),
                end,
                limit,
                free: Some(free),
                rafter_inside: None,
                rafter_inside_x: None,
                arm: None,
                rafter_outside: None,
                rafter_outside_x: None,
                longer: None,
                field: None,
            };
            out.add(place, fact);
        }
    }
}

/// Hooks under rails up the slope, of those that stand, which stand beside the courses, or whose arms leave them
/// beside their troughs.
pub(super) fn courses(
    job: &Job,
    layout: &Layout,
    stands: impl Fn(&Candidate) -> bool,
    out: &mut Findings,
) {
    if job.rail_axis == RailAxis::AlongEaves {
        return;
    }
    let standing = || layout.hooks().filter(|(_, place)| stands(place));
    let name = |at: [usize; 3]| layout.hook_name(at).to_owned();
    let off = standing().filter(|(_, place)| !built::course_at(job, place.at).1);
    let hooks: Vec<String> = off.map(|(at, _)| name(at)).collect();
    if !hooks.is_empty() {
        out.add(Place::Hooks, Fact::OffCourse { hooks, off: OFF_LINE });
    }
    let beside = standing()
        .map(|(at, place)| (at, up_slope::beside_exit(job, place.course, place.arm_x)))
        .filter(|(_, beside)| *beside - OFF_LINE > LAST_DIGIT);
    let beside: Vec<([usize; 3], Length)> = beside.collect();
    if let Some(farthest) = beside.iter().map(|(_, beside)| *beside).reduce(Length::max) {
        let hooks = beside.into_iter().map(|(at, _)| name(at)).collect();
        let fact = Fact::ArmBesideTrough { hooks, beside: farthest, limit: OFF_LINE };
        out.add(Place::Hooks, fact);
    }
}

/// What is wrong with the feet that are set in one way.
pub(super) fn feet(job: &Job, layout: &Layout, setting: usize, out: &mut Findings) {
    let hooks: Vec<String> = layout.hooks_set(setting).map(str::to_owned).collect();
    if hooks.is_empty() {
        return;
    }
    let found = &layout.footings[setting];
    let least = job.wishes.min_clearance;
    if least - found.clearance > footing::PRINTED {
        let fact = Fact::ClearanceBelowMinimum {
            hooks: Some(hooks.clone()),
            clearance: found.clearance,
            least,
            highest_stack: None,
        };
        out.add(Place::Hooks, fact);
    }
    let (stack, limit) = (found.packed(), job.packers.max_stack);
    if stack - limit > footing::PRINTED {
        out.add(Place::Hooks, Fact::StackTooHigh { hooks: hooks.clone(), stack, limit });
    }
    footing::screws(job, found, Some(&hooks), out);
}
