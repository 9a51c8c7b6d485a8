//! Checks of rails and hooks that are over the limit, whatever else is wrong.

use crate::checks::segment::{HookResult, SegmentResult};
use crate::checks::{Check, Governing};
use crate::placement::Job;
use crate::placement::layout::Layout;
use crate::service::answer::elements::{combination_id, hook_id};
use crate::service::rounding::{utilisation, utilisation_text};
use crate::service::warnings::{self as kinds, WarningKind, Warnings, number, text};

use super::rails::{cure, label};

/// A check of a rail or a hook, what is said where it is over the limit, and how much is used.
type Checked = (Check, &'static WarningKind, Governing);

const fn of_rail(result: &SegmentResult) -> [Checked; 2] {
    [
        (Check::RailBending, &kinds::RAIL_BENDS, result.bending),
        (Check::RailDeflection, &kinds::RAIL_DEFLECTS, result.deflection),
    ]
}

const fn of_hook(result: &HookResult) -> [Checked; 3] {
    [
        (Check::Hook, &kinds::HOOK_OVER, result.hook),
        (Check::Screws, &kinds::SCREW_OVER, result.screws),
        (Check::Clearance, &kinds::CLEARANCE_CLOSES, result.clearance),
    ]
}

/// Every check of a segment that is over the limit, hook by hook.
pub(super) fn hook_by_hook(
    job: &Job,
    layout: &Layout,
    [r, s]: [usize; 2],
    hooks_before: usize,
    out: &mut Warnings,
) {
    let Some(result) = &layout.rails[r].segments[s].result else { return };
    rail(job, layout, r, result, out);
    for (h, hook) in result.hooks.iter().enumerate() {
        let id = hook_id(layout, [r, s, h]);
        for checked in of_hook(hook) {
            over(job, checked, (&id, format!("/hooks/{}", hooks_before + h)), &[], out);
        }
    }
}

/// Every check of a segment that is over the limit, each once, with the hook that uses most.
pub(super) fn check_by_check(job: &Job, layout: &Layout, [r, s]: [usize; 2], out: &mut Warnings) {
    let Some(result) = &layout.rails[r].segments[s].result else { return };
    rail(job, layout, r, result, out);
    let before: usize = layout
        .rails
        .iter()
        .enumerate()
        .flat_map(|(q, rail)| rail.segments.iter().enumerate().map(move |(t, laid)| ((q, t), laid)))
        .take_while(|(at, _)| *at < (r, s))
        .map(|(_, laid)| laid.found.subset.len())
        .sum();
    for check in 0..of_hook(&HookResult::NONE).len() {
        let used = |h: usize| of_hook(&result.hooks[h])[check].2.utilisation;
        let failing: Vec<usize> =
            (0..result.hooks.len()).filter(|h| !job.wishes.allow(used(*h))).collect();
        let worst = failing.iter().copied().reduce(|a, b| if used(b) > used(a) { b } else { a });
        let Some(worst) = worst else { continue };
        let id = |h: usize| hook_id(layout, [r, s, h]);
        let others: Vec<String> = failing.iter().filter(|h| **h != worst).map(|h| id(*h)).collect();
        let place = (&*id(worst), format!("/hooks/{}", before + worst));
        over(job, of_hook(&result.hooks[worst])[check], place, &others, out);
    }
}

fn rail(job: &Job, layout: &Layout, r: usize, result: &SegmentResult, out: &mut Warnings) {
    let id = &layout.rails[r].line.id;
    for checked in of_rail(result) {
        over(job, checked, (id, format!("/rails/{r}")), &[], out);
    }
}

fn over(
    job: &Job,
    (check, kind, governing): Checked,
    (element, path): (&str, String),
    others: &[String],
    out: &mut Warnings,
) {
    if job.wishes.allow(governing.utilisation) {
        return;
    }
    let bound = job.wishes.max_utilisation;
    let combination = combination_id(job, governing.combination);
    let limit =
        if bound < 1.0 { format!("; the limit asked for is {bound}") } else { String::new() };
    let others = if others.is_empty() {
        String::new()
    } else {
        format!(" Over the limit as well: {}.", others.join(", "))
    };
    out.add(
        kind,
        path,
        format!(
            "{element}: {} {} in {combination}{limit}.{others} What would help: {}.",
            label(check),
            utilisation_text(governing.utilisation),
            cure(check)
        ),
        [
            ("element", text(element)),
            ("check", text(check.name())),
            ("utilisation", number(utilisation(governing.utilisation))),
            ("combination", text(combination)),
        ],
    );
}
