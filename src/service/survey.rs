//! `POST /v1/surveys`: what was measured along a rail in, packers, slots and a recheck out.
//!
//! The forces on the hooks follow from rail, rafters and the stiffness of hooks as drawn, so the movement
//! of every arm under load is all but known before packers are chosen. Packers raise the bolt and shorten
//! the thread in the rafter, so that a foot turns a little more: where an arm would then come down farther
//! than was taken, packers are chosen once more. At last the job is checked with them.

use crate::assessment;
use crate::placement::Job;
use crate::placement::built::{self, Built, Checked};
use crate::placement::footing::FoundFooting;
use crate::placement::laid::Layout;
use crate::survey::{self, Levelled, Measured, Outcome, Survey, Unreadable};
use crate::units::Length;
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::kinds::SurveyTag;
use crate::wire::recheck::RecheckRequest;
use crate::wire::record::Record;
use crate::wire::record::Recorded;
use crate::wire::remarks::Verdict;
use crate::wire::short::Completion;
use crate::wire::survey::{LevellingOutcome, SurveyAnswer, SurveyRequest};

use super::answer::record;
use super::intake::short::{self, Completed, Said};
use super::intake::{self, TakenSurvey};
use super::request::{Names, Options, Request};
use super::{answer, recheck, trace};

impl Request for SurveyRequest {
    type Answer = SurveyAnswer;

    fn completed(said: &dyn Said) -> Completed {
        short::completed(said)
    }

    fn with_completions(self, completions: Vec<Completion>) -> Self {
        Self { completions, ..self }
    }

    fn answer(&self, names: Names<'_>, options: &Options) -> Result<SurveyAnswer, Vec<Fault>> {
        run(self, names, options)
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
pub fn run<'a>(
    request: &SurveyRequest,
    names: impl Into<Names<'a>>,
    options: &Options,
) -> Result<SurveyAnswer, Vec<Fault>> {
    let (job, layout, mut answer) = surveyed(request, options)?;
    let recheck = &mut answer.recheck;
    recheck.reference.clone_from(&request.reference);
    let names = names.into();
    recheck.job_key = names.job_key(&recheck.assumptions, &[]);
    recheck.input_digest = names.input_digest;
    request.components.hook_id().clone_into(&mut recheck.hook_part);
    answer.record.recorded = record::recorded(
        &recheck.engine,
        recheck.verdict,
        recheck.utilisation.max,
        &recheck.job_key,
    );
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
    let (survey, outcome, built) =
        levelled(&taken, &found).map_err(|why| vec![unreadable(&taken, why)])?;
    let rail = &taken.built.built.rails[taken.rail].id;
    let hooks = taken.hook_names();
    let levelling = answer::survey::levelling(&taken, &survey, &outcome, reader);
    let chosen = if let Outcome::Levelled(levelled) = &outcome { Some(levelled) } else { None };
    let built_so = record::as_surveyed(&taken, chosen);
    let record = Record { built: Some(built_so), recorded: Recorded::default() };
    let found = assessment::of_levelling(rail, &hooks, &survey, &outcome);
    let lines = taken.built.lines.clone();
    let (layout, mut recheck) =
        recheck::answer(&taken.built.taken, &built, &lines, (&found, reader));
    recheck.missing.extend(answer::survey::missing(&taken, &outcome, reader));
    recheck.kind = None;
    let answer = SurveyAnswer { kind: SurveyTag, survey: levelling, record, recheck };
    Ok((taken.built.taken.job, layout, answer))
}

/// How often packers are chosen at most.
const MOST_ROUNDS: usize = 3;

/// Packers and slots, with the movements that the arms have on them, and what was built with them.
fn levelled(taken: &TakenSurvey, found: &Checked) -> Result<(Survey, Outcome, Built), Unreadable> {
    let mut built = taken.built.built.clone();
    let mut survey = survey(taken, found);
    let mut outcome = survey::straighten(&survey)?;
    for round in 1..=MOST_ROUNDS {
        let Outcome::Levelled(levelled) = &mut outcome else { break };
        built = packed(taken, levelled);
        let moved = movements(taken, found, &built);
        let farther = survey.hooks.iter().zip(&moved).any(|(hook, moved)| *moved > hook.deflection);
        let again = farther && round < MOST_ROUNDS;
        for ((hook, setting), moved) in survey.hooks.iter_mut().zip(&mut levelled.hooks).zip(moved)
        {
            // An arm that was once taken to come down farther still is, so that the rounds end.
            let taken = hook.deflection.filter(|_| again);
            hook.deflection = moved.map(|moved| taken.map_or(moved, |taken| taken.max(moved)));
            setting.clearance_under_load = moved.map(|moved| setting.clearance - moved);
        }
        if !again {
            break;
        }
        outcome = survey::straighten(&survey)?;
    }
    Ok((survey, outcome, built))
}

/// How far every arm comes down under the characteristic load, on feet that are set so.
fn movements(taken: &TakenSurvey, found: &Checked, set: &Built) -> Vec<Option<Length>> {
    let rail = &found.layout.rails[taken.rail];
    let most = Length::from_mm(survey::LARGEST_HEIGHT_MM);
    let hooks = taken.hooks.iter().map(|surveyed| {
        let hook = &set.hooks[surveyed.hook];
        let spring = &set.footings[hook.footing].spring;
        // One that moves farther than any height that is read touches its tile whatever is under it.
        rail.movement_of(&hook.id, spring).map(|moved| moved.min(most))
    });
    hooks.collect()
}

/// What was measured, with the movement of every arm under the characteristic load on its foot as found.
fn survey(taken: &TakenSurvey, found: &Checked) -> Survey {
    let built = &taken.built.built;
    let job = &taken.built.taken.job;
    let moved = movements(taken, found, built);
    let hooks = taken.hooks.iter().zip(moved).map(|(surveyed, deflection)| {
        let hook = &built.hooks[surveyed.hook];
        Measured {
            x: hook.along(),
            clearance: surveyed.clearance,
            level: surveyed.level,
            deflection,
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
