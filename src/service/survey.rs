//! `POST /v1/surveys`: what was measured along a rail in, packers, slots and a recheck out.
//!
//! The order matters and closes no circle: the forces on the hooks follow from rail, rafters and
//! stiffness alone, so the movement of every arm under load is known before packers are chosen;
//! the packers then lengthen levers and shorten screws, and the job is checked with them.

use crate::assessment;
use crate::model::fault::{Fault, FaultCode};
use crate::model::recheck::RecheckRequest;
use crate::model::remarks::Verdict;
use crate::model::survey::{LevellingOutcome, SurveyAnswer, SurveyRequest};
use crate::placement::Job;
use crate::placement::built::{self, Built, Checked};
use crate::placement::footing::FoundFooting;
use crate::placement::laid::Layout;
use crate::survey::{self, Levelled, Measured, Outcome, Survey, Unreadable};
use crate::units::{Force, Length};

use super::intake::{self, TakenSurvey};
use super::request::{Options, Request};
use super::{answer, recheck, trace};

impl Request for SurveyRequest {
    type Answer = SurveyAnswer;

    fn answer(&self, input_digest: String, options: &Options) -> Result<SurveyAnswer, Vec<Fault>> {
        run(self, input_digest, options)
    }

    fn verdict(answer: &SurveyAnswer) -> Option<Verdict> {
        Some(answer.recheck.verdict)
    }

    fn cut_short(answer: &SurveyAnswer) -> Option<bool> {
        let found = &answer.survey;
        let undecided = found.outcome == LevellingOutcome::Undecided
            || found.line.as_ref().is_some_and(|line| !line.proven);
        Some(undecided || RecheckRequest::cut_short(&answer.recheck) == Some(true))
    }
}

/// Chooses packers and slots for a rail and rechecks the job with them. Pure: the same request
/// gives the same answer.
///
/// # Errors
/// Every fault of the request that its schema cannot see.
pub fn run(
    request: &SurveyRequest,
    input_digest: String,
    options: &Options,
) -> Result<SurveyAnswer, Vec<Fault>> {
    let (job, layout, mut answer) = surveyed(request, options)?;
    let recheck = &mut answer.recheck;
    recheck.reference.clone_from(&request.reference);
    recheck.input_digest = input_digest;
    if options.trace {
        recheck.trace = Some(trace::lines(&job, &layout, options.reader.language));
    }
    Ok(answer)
}

/// The job, its rails and hooks as checked with what was chosen, and the answer without reference,
/// digest and trace.
pub(super) fn surveyed(
    request: &SurveyRequest,
    options: &Options,
) -> Result<(Job, Layout, SurveyAnswer), Vec<Fault>> {
    let mut taken = intake::take_survey(request)?;
    taken.built.taken.job.effort = options.effort.clone();
    let reader = options.reader;
    let job = &taken.built.taken.job;
    let found = built::check(job, &taken.built.built, taken.built.lines.clone());
    let survey = survey(&taken, &found);
    let outcome = survey::straighten(&survey).map_err(|why| vec![unreadable(&taken, why)])?;
    let built = match &outcome {
        Outcome::Levelled(levelled) => packed(&taken, levelled),
        _ => taken.built.built.clone(),
    };
    let rail = &taken.built.built.rails[taken.rail].id;
    let hooks = taken.hook_names();
    let levelling = answer::survey::levelling(&taken, &survey, &outcome, reader);
    let found = assessment::of_levelling(rail, &hooks, &survey, &outcome);
    let lines = taken.built.lines.clone();
    let (layout, mut recheck) =
        recheck::answer(&taken.built.taken, &built, lines, (&found, reader));
    recheck.missing.extend(answer::survey::missing(&taken, &outcome, reader));
    Ok((taken.built.taken.job, layout, SurveyAnswer { survey: levelling, recheck }))
}

/// What was measured, with the movement of every arm under the characteristic load.
fn survey(taken: &TakenSurvey, found: &Checked) -> Survey {
    let built = &taken.built.built;
    let job = &taken.built.taken.job;
    let rail = &found.layout.rails[taken.rail];
    let most = Length::from_mm(survey::LARGEST_HEIGHT_MM);
    let hooks = taken.hooks.iter().map(|surveyed| {
        let hook = &built.hooks[surveyed.hook];
        let pressed = rail.result_of(&hook.id).map(|result| result.service_press);
        Measured {
            x: hook.x,
            clearance: surveyed.clearance,
            level: surveyed.level,
            // A hook that carries nothing does not move. One that moves farther than any height
            // that is read touches its tile whatever is under it.
            deflection: job
                .hook
                .normal_stiffness
                .map(|k| (pressed.unwrap_or(Force::ZERO) / k).min(most)),
            room_above: surveyed.room_above,
            built: built.ways[hook.footing].packers.clone(),
        }
    });
    Survey {
        hooks: hooks.collect(),
        slot_range: job.hook.slot_range,
        packers: job.packers.clone(),
        min_clearance: job.wishes.min_clearance,
        min_room_above: job.wishes.min_room_above,
        max_tilt: None,
        search_limit: survey::USUAL_LIMIT,
    }
}

/// What was built, with the packers that were chosen.
fn packed(taken: &TakenSurvey, levelled: &Levelled) -> Built {
    let built = &taken.built.built;
    let feet: Vec<(usize, FoundFooting)> = taken
        .hooks
        .iter()
        .zip(&levelled.hooks)
        .map(|(surveyed, setting)| {
            let way = &built.ways[built.hooks[surveyed.hook].footing];
            let packers = setting.packers.clone();
            let clearance = Some(setting.clearance);
            let slot = Some(setting.slot);
            (surveyed.hook, FoundFooting { packers, slot, clearance, ..way.clone() })
        })
        .collect();
    built.with_feet(&taken.built.taken.job, &feet)
}

/// The schema lets single values within range only; what is left is a pile of packers.
fn unreadable(taken: &TakenSurvey, why: Unreadable) -> Fault {
    let pointer = match why {
        Unreadable::HookValue(place) => {
            format!("/built/hooks/{}/packers_mm", taken.hooks[place].hook)
        }
        Unreadable::NoHooks | Unreadable::TooManyHooks => "/measured/rail".to_owned(),
        Unreadable::Setting => "/components/hook/slot_range_mm".to_owned(),
    };
    let most = survey::LARGEST_HEIGHT_MM;
    Fault::new(pointer, FaultCode::OutOfRange, format!("No height may exceed {most} mm: {why}."))
}
