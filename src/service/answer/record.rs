//! What is kept of an answer to check the job again by. Nothing is rounded here: the same rails and hooks
//! are to come to the same figures.

use crate::placement::Job;
use crate::placement::kept::Kept;
use crate::placement::laid::{Layout, Rail};
use crate::placement::rail_axis::RailAxis;
use crate::service::intake::TakenSurvey;
use crate::survey::{Outcome, Survey};
use crate::units::Length;
use crate::wire::built::{Built, BuiltHook, BuiltRail};
use crate::wire::provenance::Engine;
use crate::wire::record::Recorded;
use crate::wire::remarks::Verdict;

/// Rails and hooks of a layout, of those that are kept what the request says of them.
#[must_use]
pub fn as_laid_out(job: &Job, layout: &Layout, (kept, there): (&Kept, Option<&Built>)) -> Built {
    let hooks = layout.hooks().map(|(at, place)| {
        let rail = &layout.rails[at[0]];
        let kept = kept.hook_at(at[0], place);
        let told = kept.zip(there).map(|(hook, there)| &there.hooks[hook]);
        BuiltHook {
            id: super::hook_name(layout, at),
            rail: rail.line.id.clone(),
            x_mm: told.map_or(place.x.mm(), |told| told.x_mm),
            y_mm: job.rail_axis.told(RailAxis::UpSlope, place.at.mm()),
            arm_x_mm: Some(place.arm_x.mm()),
            packers_mm: packers(layout, place.setting),
            found: told.and_then(|told| told.found.clone()),
        }
    });
    let hooks = hooks.collect();
    Built { rails: layout.rails.iter().map(|rail| self::rail(job, rail)).collect(), hooks }
}

fn packers(layout: &Layout, footing: usize) -> Vec<f64> {
    layout.footings[footing].packers.iter().flatten().copied().map(Length::mm).collect()
}

fn rail(job: &Job, rail: &Rail) -> BuiltRail {
    // Hinged bars are computed as equal ones: where they meet follows from the rail.
    let equal = job.rail.hinged_splices && rail.line.spliced_at.is_none();
    // Where the bars of a rail that is there meet may not be known.
    let unknown = rail.line.there.is_some_and(|there| !there.told);
    let pieces = rail.segments.iter().filter(|_| !equal && !unknown);
    BuiltRail {
        id: rail.line.id.clone(),
        y_mm: job.rail_axis.told(RailAxis::AlongEaves, rail.line.across.mm()),
        x_mm: job.rail_axis.told(RailAxis::UpSlope, rail.line.across.mm()),
        start_mm: Some(rail.line.start().mm()),
        end_mm: Some(rail.line.end().mm()),
        splices_mm: pieces.flat_map(|laid| laid.splices.iter().map(|at| at.mm())).collect(),
    }
}

/// Rails and hooks of a survey, packed and bolted as was chosen, where that could be.
#[must_use]
pub fn as_surveyed(taken: &TakenSurvey, outcomes: &[(Survey, Outcome)]) -> Built {
    let mut built = taken.joined.clone();
    for (rail, (_, outcome)) in taken.rails.iter().zip(outcomes) {
        let Outcome::Levelled(levelled) = outcome else { continue };
        for (surveyed, setting) in rail.hooks.iter().zip(&levelled.hooks) {
            let hook = &mut built.hooks[surveyed.hook];
            hook.packers_mm = setting.packers.iter().copied().map(Length::mm).collect();
            let found = hook.found.get_or_insert_default();
            found.clearance_mm = Some(setting.clearance.mm());
            found.slot_mm = Some(setting.slot.mm());
        }
    }
    built
}

/// What an answer says, as a later recheck compares it. Its digest is that of no recheck.
#[must_use]
pub fn recorded(
    engine: &Engine,
    verdict: Verdict,
    max_utilisation: f64,
    job_key: &str,
) -> Recorded {
    Recorded {
        engine_version: Some(engine.version.clone()),
        engine_model: Some(engine.model),
        rules_revision: Some(engine.rules.revision.clone()),
        verdict: Some(verdict),
        max_utilisation: Some(max_utilisation),
        job_key: Some(job_key.to_owned()),
        input_digest: None,
    }
}
