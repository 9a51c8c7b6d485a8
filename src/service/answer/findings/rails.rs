//! Rails: why no choice of hooks passes, and rails that meet.

use crate::service::answer::elements::{combination_id, hook_id};
use crate::service::rounding::{mm, utilisation, utilisation_text};

use super::strength;
use crate::checks::Check;
use crate::checks::segment::SegmentResult;
use crate::placement::free_ends::{self};
use crate::placement::layout::{LaidSegment, Layout, Rail};
use crate::placement::search::Outcome;
use crate::placement::{Job, Objective};
use crate::service::warnings::{self as kinds, Warnings, number, text};

pub(super) fn rails(job: &Job, layout: &Layout, out: &mut Warnings) {
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            segment(job, layout, [r, s], rail, laid, out);
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
    out: &mut Warnings,
) {
    let id = &rail.line.id;
    let path = format!("/rails/{r}/segments/{s}");
    let candidates = laid.segment.candidates.len();
    match laid.found.outcome {
        Outcome::FewestProven | Outcome::Given => {}
        Outcome::FewestProvenNotRanked => out.add(
            &kinds::NOT_RANKED,
            path,
            format!(
                "Rail {id} takes {} hooks, and no choice of fewer passes. Whether another choice of as \
                 many would be used less was not looked at to the end.",
                laid.found.subset.len()
            ),
            [("rail", text(id)), ("hooks", number(laid.found.subset.len() as f64))],
        ),
        Outcome::Spread => out.add(
            &kinds::SPREAD,
            path,
            format!(
                "The fewest hooks rail {id} passes with by itself, {}, would overload a rafter: it \
                 takes {}.",
                laid.found.lower_bound,
                laid.found.subset.len()
            ),
            [
                ("rail", text(id)),
                ("lower_bound", number(laid.found.lower_bound as f64)),
                ("hooks", number(laid.found.subset.len() as f64)),
            ],
        ),
        Outcome::BestFound => out.add(
            &kinds::LIMIT,
            path,
            format!(
                "The search on rail {id} stopped after {} hook patterns; at least {} hooks are \
                 needed, {} are used.",
                laid.found.weighed,
                laid.found.lower_bound,
                laid.found.subset.len()
            ),
            [("rail", text(id)), ("lower_bound", number(laid.found.lower_bound as f64))],
        ),
        Outcome::NonePasses | Outcome::NoneFound if candidates < 2 => out.add(
            &kinds::TOO_FEW_RAFTERS,
            path,
            format!("Only {candidates} rafters can take a hook under rail {id}."),
            [("rail", text(id)), ("candidates", number(candidates as f64))],
        ),
        Outcome::NonePasses | Outcome::NoneFound => match &laid.result {
            None => out.add(
                &kinds::UNSTABLE,
                path,
                format!("The splices of rail {id} are hinges and leave it free to move."),
                [("rail", text(id))],
            ),
            Some(result) => no_pattern(job, layout, [r, s], (laid, result), out),
        },
    }
}

/// Why no choice of hooks passes on a segment: first the ends, then every check that fails.
fn no_pattern(
    job: &Job,
    layout: &Layout,
    [r, s]: [usize; 2],
    (laid, result): (&LaidSegment, &SegmentResult),
    out: &mut Warnings,
) {
    let line = &layout.rails[r].line;
    let rail = &line.id;
    let path = format!("/rails/{r}/segments/{s}");
    let places = &laid.segment.candidates;
    let candidates = places.len();
    let ends_held = places.iter().any(|c| c.may_be_first) && places.iter().any(|c| c.may_be_last);
    let pattern = match job.wishes.objective {
        Objective::FewestHooks => "",
        Objective::EvenSpacing | Objective::Staggered => " in the pattern asked for",
    };
    let (check, governing, hook) = result.governing();
    let bound = job.wishes.max_utilisation;
    if !ends_held {
        // A free end no rafter can hold has a warning of its own and is the cause to cure first.
        if !free_ends::long_ends_of(job, line, s).is_empty() {
            return;
        }
        out.add(
            &kinds::NO_PATTERN,
            path,
            format!(
                "No choice of hooks on rail {rail} passes{pattern}: it leaves an end of the rail \
                 free for more than the {} mm it may overhang.",
                mm(job.rail.max_cantilever.mm())
            ),
            [("rail", text(rail)), ("candidates", number(candidates as f64))],
        );
        return;
    }
    if governing.utilisation <= bound {
        out.add(
            &kinds::NO_PATTERN,
            path,
            format!(
                "No choice of hooks on rail {rail} passes{pattern}; all {candidates} candidates \
                 without a pattern do."
            ),
            [("rail", text(rail)), ("candidates", number(candidates as f64))],
        );
        return;
    }
    let element = hook.map_or_else(|| rail.clone(), |h| hook_id(layout, [r, s, h]));
    let used = utilisation(governing.utilisation);
    let combination = combination_id(job, governing.combination);
    let limit =
        if bound < 1.0 { format!(" The limit asked for is {bound}.") } else { String::new() };
    out.add(
        &kinds::NO_PATTERN,
        path,
        format!(
            "No choice of hooks on rail {rail} passes{pattern}. With all {candidates} candidates \
             used, {element} governs with {} {} in {combination}.{limit}",
            label(check),
            utilisation_text(governing.utilisation),
        ),
        [
            ("rail", text(rail)),
            ("candidates", number(candidates as f64)),
            ("element", text(element)),
            ("check", text(check.name())),
            ("utilisation", number(used)),
            ("combination", text(combination)),
        ],
    );
}

/// A check in words.
pub const fn label(check: Check) -> &'static str {
    match check {
        Check::Hook => "hook strength",
        Check::Screws => "screws",
        Check::Clearance => "clearance under load",
        Check::RailBending => "bending of the rail",
        Check::RailDeflection => "deflection of the rail",
        Check::Module => "module",
        Check::Clamp => "clamps",
        Check::Rafter => "rafter",
    }
}

/// What would help where it fails.
pub const fn cure(check: Check) -> &'static str {
    match check {
        Check::Hook => "a stronger hook, or a third rail under each row",
        Check::Screws => "longer or thicker screws, or more of them in the foot",
        Check::Clearance => "a stiffer hook, or more packers",
        Check::RailBending => "a stronger rail",
        Check::RailDeflection => "a stiffer rail",
        Check::Module => "a stronger module",
        Check::Clamp => "stronger clamps",
        Check::Rafter => "a structural engineer",
    }
}

pub(super) fn rails_that_meet(job: &Job, layout: &Layout, out: &mut Warnings) {
    for (i, a) in layout.rails.iter().enumerate() {
        for b in layout.rails.iter().skip(i + 1) {
            let (a, b) = (&a.line, &b.line);
            let level = (a.y - b.y).abs() < job.rail.depth;
            if level && a.start() <= b.end() && b.start() <= a.end() {
                out.add(
                    &kinds::RAILS_MEET,
                    format!("/rails/{i}"),
                    format!(
                        "Rails {} and {} meet at {} mm along the eaves. Move their fields apart, or \
                         make one field of them.",
                        a.id,
                        b.id,
                        mm(a.start().max(b.start()).mm())
                    ),
                    [("rail", text(&a.id)), ("other", text(&b.id))],
                );
            }
        }
    }
}
