//! What could be done about a built job that does not hold.

use crate::assessment::why_no_help;
use crate::language::{self, Reader};
use crate::model::recheck::{AddedHook, RefittedFoot, RepairOutcome, SegmentRepair, Suggestion};
use crate::model::remarks::Verdict;
use crate::placement::Job;
use crate::placement::built::{Built, Checked};
use crate::placement::refit::Refit;
use crate::placement::repair::{self, Repair};
use crate::placement::search::Outcome;

use super::rounding::mm;

/// Writes the feet to set anew and the hooks to add, and how the job stands with them: its verdict
/// and its highest utilisation. `then` is the job as it was, `now` with its feet set anew.
#[must_use]
pub fn suggestion(
    (job, built): (&Job, &Built),
    (then, now): (&Checked, &Checked),
    refits: &[Refit],
    repairs: &[Repair],
    (verdict, max_utilisation): (Verdict, f64),
    reader: Reader,
) -> Suggestion {
    let (added, _) = built.added(job);
    let packers: Vec<f64> = added.packers.iter().map(|p| mm(p.mm())).collect();
    let add = repairs
        .iter()
        .flat_map(|repair| {
            let rail = &now.layout.rails[repair.rail].line.id;
            let packers = &packers;
            repair.added().map(move |place| AddedHook {
                rail: rail.clone(),
                rafter: place.rafter as u64,
                x_mm: mm(place.x.mm()),
                packers_mm: packers.clone(),
            })
        })
        .collect();
    let reset = |refit: &Refit| RefittedFoot {
        hook: built.hooks[refit.hook].id.clone(),
        packers_mm: refit.way.packers.iter().map(|p| mm(p.mm())).collect(),
        screw_length_mm: mm(refit.way.screw_length.mm()),
    };
    let mut segments = mended(job, then, now);
    segments.extend(repairs.iter().map(|repair| segment(job, now, repair, reader)));
    Suggestion {
        refit: refits.iter().map(reset).collect(),
        add,
        segments,
        verdict,
        max_utilisation,
    }
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
                    free_rafters: 0,
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
        Outcome::FewestProven | Outcome::FewestProvenNotRanked => RepairOutcome::FewestProven,
        Outcome::BestFound | Outcome::Spread => RepairOutcome::BestFound,
        Outcome::NonePasses | Outcome::Given => RepairOutcome::NoneHelps,
        Outcome::NoneFound => RepairOutcome::NoneFound,
    };
    let helps = repair.found.outcome.passes();
    SegmentRepair {
        rail: checked.layout.rails[repair.rail].line.id.clone(),
        segment: repair.segment as u64,
        outcome,
        free_rafters: repair.places.iter().filter(|place| !place.stands).count() as u64,
        add: repair.added().count() as u64,
        reason: (!helps)
            .then(|| language::repair::no_help(&why_no_help(job, checked, repair), reader)),
    }
}
