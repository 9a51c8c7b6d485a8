//! What stays of rails and hooks that are there already when the rest is laid out.

use crate::placement::built::Unplaced;
use crate::placement::kept::{Kept, Unkept};
use crate::placement::{Job, Objective};
use crate::wire::array::RailDirection;
use crate::wire::fault::FaultCode;

use super::{Common, Notes, built, provenance};

/// Where it stands in a request.
const ROOT: &str = "/kept";

/// What a request says is to stay, each thing in its place. `None` only with faults noted, or without a
/// job it could belong to.
pub fn kept(common: &Common<'_>, job: Option<&mut Job>, notes: &mut Notes) -> Option<Kept> {
    let Some(wire) = common.kept else { return Some(Kept::default()) };
    let before = notes.faults.len();
    provenance::of_built(ROOT, wire, |_, _| false, notes);
    let direction = common.array.rail_direction;
    let named = built::rails_by_name(ROOT, wire, direction, notes);
    let built = built::hooks(ROOT, (common, job.as_deref()), wire, &named, notes);
    let job = job?;
    let named = notes.faults.len() == before;
    if job.wishes.objective != Objective::FewestHooks {
        let why = "Beside rails and hooks that are kept only the fewest hooks are looked for.";
        notes.contradiction([ROOT, "/wishes/objective"], why);
    }
    let built = built.filter(|_| named)?;
    job.roof.rafters.unsound = built.unsound(job);
    let kept = Kept::of(job, built)
        .map_err(|all| all.into_iter().for_each(|one| refuse(one, direction, notes)));
    let kept = kept.ok()?;
    let there = kept.lines(job).into_iter().filter_map(|line| {
        let there = line.there?;
        let parts = line.segments.iter().filter_map(|ends| there.of(*ends)).collect();
        Some((there.rail, parts))
    });
    for (rail, parts) in there {
        let told = kept.built.rails[rail].splices.as_deref();
        built::spliced(ROOT, rail, told, (parts, job.rail.longest_stock), notes);
    }
    built::assumed(ROOT, job, wire, &kept.built, notes);
    (notes.faults.len() == before).then_some(kept)
}

fn refuse(unkept: Unkept, direction: RailDirection, notes: &mut Notes) {
    match unkept {
        Unkept::Rail(rail, why) => {
            let code = match why {
                Unplaced::Third => FaultCode::NotCovered,
                Unplaced::NoRow
                | Unplaced::NoColumn
                | Unplaced::TooShort
                | Unplaced::TooLow
                | Unplaced::OnAnother => FaultCode::Contradiction,
            };
            let member = built::across(direction);
            notes.fault(format!("{ROOT}/rails/{rail}/{member}"), code, format!("{why}."));
        }
        Unkept::Hook(hook, why) => {
            let pointer = format!("{ROOT}/hooks/{hook}");
            notes.fault(pointer, FaultCode::Contradiction, format!("{why}."));
        }
    }
}
