//! What could be done about a built job that does not hold.

use crate::assessment::{FreePlaces, why_no_help};
use crate::language::{self, Reader};
use crate::placement::Job;
use crate::placement::built::{Built, Checked};
use crate::placement::footing::FoundFooting;
use crate::placement::kept::Kept;
use crate::placement::mending::Mending;
use crate::placement::rail_axis::RailAxis;
use crate::placement::refit::Refit;
use crate::placement::repair::{self, Repair};
use crate::placement::search::Outcome;
use crate::wire::layout::HookAnswer;
use crate::wire::recheck::{AddedHook, RefittedFoot, RepairOutcome, SegmentRepair, Suggestion};
use crate::wire::remarks::Verdict;

use super::elements;
use super::repair_parts::repair_parts;
use super::rounding::mm;

/// Writes the hooks to take off, the feet to set anew and the hooks to add, what that takes in parts, and
/// how the job stands with all of it: its verdict and its highest utilisation. `then` is the job as it was.
#[must_use]
pub fn suggestion(
    (job, built): (&Job, &Built),
    then: &Checked,
    with: &Mending,
    (verdict, max_utilisation): (Verdict, f64),
    reader: Reader,
) -> Suggestion {
    let name = |hook: &usize| built.hooks[*hook].id.clone();
    let added = added(job, built, with);
    let add = added.iter().map(|hook| AddedHook {
        rail: hook.rail.clone(),
        rafter: hook.rafter,
        x_mm: hook.x_mm,
        y_mm: job.rail_axis.told(RailAxis::UpSlope, hook.y_mm),
        packers_mm: hook.packers_mm.clone(),
        tiles: hook.tiles.clone(),
    });
    let reset = |refit: &Refit| RefittedFoot {
        hook: name(&refit.hook),
        packers_mm: packers(&refit.way),
        screw_length_mm: mm(refit.way.screw_length.mm()),
    };
    let now = &with.before_hooks;
    let mut segments = mended(job, then, now);
    segments.extend(with.repairs.iter().map(|repair| segment(job, now, repair, reader)));
    Suggestion {
        take_off: with.taken_off.iter().map(name).collect(),
        refit: with.refits.iter().map(reset).collect(),
        add: add.collect(),
        segments,
        parts: repair_parts((job, built), with, &added),
        verdict,
        max_utilisation,
    }
}

/// The hooks that are added, rail by rail.
fn added(job: &Job, built: &Built, with: &Mending) -> Vec<HookAnswer> {
    let new = &with.built.hooks[built.hooks.len()..];
    let mut hooks = elements::hooks(job, &with.checked.layout, &Kept::default());
    hooks.retain(|hook| new.iter().any(|new| new.id == hook.id));
    hooks
}

fn packers(way: &FoundFooting) -> Vec<f64> {
    way.packers.iter().map(|packer| mm(packer.mm())).collect()
}

/// The segments that hold now and did not then.
fn mended(job: &Job, then: &Checked, now: &Checked) -> Vec<SegmentRepair> {
    let mut out = Vec::new();
    for (before, after) in then.layout.rails.iter().zip(&now.layout.rails) {
        for (s, (before, now)) in before.segments.iter().zip(&after.segments).enumerate() {
            if !repair::holds(job, before) && repair::holds(job, now) {
                out.push(SegmentRepair {
                    rail: after.line.id.clone(),
                    segment: s as u64,
                    outcome: RepairOutcome::FeetSuffice,
                    free_rafters: job.rail_axis.told(RailAxis::AlongEaves, 0),
                    free_courses: job.rail_axis.told(RailAxis::UpSlope, 0),
                    add: 0,
                    reason: None,
                });
            }
        }
    }
    out
}

fn segment(job: &Job, checked: &Checked, repair: &Repair, reader: Reader) -> SegmentRepair {
    let outcome = match repair.found.outcome {
        // Chosen as if no arm touched its tile, and no more hooks were wanted.
        Outcome::FewestProven | Outcome::FewestProvenNotRanked if repair.added().count() == 0 => {
            RepairOutcome::FeetSuffice
        }
        Outcome::FewestProven | Outcome::FewestProvenNotRanked => RepairOutcome::FewestProven,
        Outcome::BestFound | Outcome::Spread | Outcome::Together => RepairOutcome::BestFound,
        Outcome::NonePasses | Outcome::Given => RepairOutcome::NoneHelps,
        Outcome::NoneFound => RepairOutcome::NoneFound,
    };
    let helps = repair.found.outcome.passes();
    let free = repair.places.iter().filter(|place| !place.stands).count() as u64;
    SegmentRepair {
        rail: checked.layout.rails[repair.rail].line.id.clone(),
        segment: repair.segment as u64,
        outcome,
        free_rafters: job.rail_axis.told(RailAxis::AlongEaves, free),
        free_courses: job.rail_axis.told(RailAxis::UpSlope, free),
        add: repair.added().count() as u64,
        reason: (!helps)
            .then(|| why_no_help(job, checked, repair))
            .map(|why| language::repair::no_help(&why, FreePlaces::of(job), reader)),
    }
}
