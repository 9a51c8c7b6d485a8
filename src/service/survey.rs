//! `POST /v1/surveys`: what was measured along rails in, packers, slots and a recheck out.
//!
//! The forces on the hooks follow from rail, rafters and the stiffness of hooks as drawn, so the movement
//! of every arm under load is all but known before packers are chosen. Packers raise the bolt and shorten
//! the thread in the rafter, so that a foot turns a little more: where an arm would then come down farther
//! than was taken, packers are chosen once more. At last the job is checked with them.

use crate::assessment::{self, Finding};
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
use super::intake::{self, SurveyedRail, TakenSurvey};
use super::recheck::{self, Rechecked};
use super::request::{Names, Options, Request};
use super::{answer, trace};

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
        let undecided = answer.surveyed.iter().any(|found| {
            found.outcome == LevellingOutcome::Undecided
                || found.line.as_ref().is_some_and(|line| !line.proven)
        });
        Some(undecided || RecheckRequest::cut_short(&answer.recheck) == Some(true))
    }
}

/// Chooses packers and slots for rails and rechecks the job with them. Pure: the same request
/// gives the same answer.
///
/// # Errors
/// Every fault of the request that its schema cannot see.
pub fn run<'a>(
    request: &SurveyRequest,
    names: impl Into<Names<'a>>,
    options: &Options,
) -> Result<SurveyAnswer, Vec<Fault>> {
    let (job, layout, mut answer, _) = surveyed(request, options)?;
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

/// The job, its rails and hooks as checked with what was chosen, the answer without reference,
/// digest and trace, and the layout with what would mend it.
pub(super) fn surveyed(
    request: &SurveyRequest,
    options: &Options,
) -> Result<(Job, Layout, SurveyAnswer, Option<Layout>), Vec<Fault>> {
    let mut taken = intake::take_survey(request)?;
    taken.built.taken.job.effort = options.effort.clone();
    let reader = options.reader;
    let job = &taken.built.taken.job;
    let found = built::check(job, &taken.built.built, taken.built.lines.clone());
    let mut built = taken.built.built.clone();
    let mut outcomes: Vec<(Survey, Outcome)> = Vec::with_capacity(taken.rails.len());
    // A foot that is set anew changes nothing at others, so that rails are levelled one by one.
    for rail in &taken.rails {
        let (survey, outcome) = levelled((&taken, rail), &found, &mut built)
            .map_err(|why| vec![unreadable(rail, why)])?;
        outcomes.push((survey, outcome));
    }
    let built_so = record::as_surveyed(&taken, &outcomes);
    let record = Record { built: Some(built_so), recorded: Recorded::default() };
    let told = taken.rails.iter().zip(&outcomes).enumerate();
    let told = told.flat_map(|(i, (rail, (survey, outcome)))| {
        let names = rail.hook_names(&taken.built.built);
        let name = &taken.built.built.rails[rail.rail].id;
        assessment::of_levelling((i, name), &names, survey, outcome)
    });
    let told: Vec<Finding> = told.collect();
    let lines = taken.built.lines.clone();
    let Rechecked { layout, answer: mut recheck, assessed, mended } =
        recheck::answer(&taken.built.taken, &built, &lines, (&told, reader));
    recheck.missing.extend(answer::survey::missing(&taken, &outcomes, reader));
    recheck.kind = None;
    let surveyed = answer::survey::levellings(&taken, &outcomes, (&layout, &assessed), reader);
    let to_measure = answer::survey::to_measure(&taken, &outcomes, &layout);
    let answer = SurveyAnswer { kind: SurveyTag, surveyed, to_measure, record, recheck };
    Ok((taken.built.taken.job, layout, answer, mended))
}

/// How often packers are chosen at most.
const MOST_ROUNDS: usize = 3;

/// Packers and slots of a rail, with the movements that the arms have on them; what was built is built with them.
fn levelled(
    (taken, rail): (&TakenSurvey, &SurveyedRail),
    found: &Checked,
    built: &mut Built,
) -> Result<(Survey, Outcome), Unreadable> {
    let mut survey = survey((taken, rail), found);
    let mut outcome = survey::straighten(&survey)?;
    for round in 1..=MOST_ROUNDS {
        let Outcome::Levelled(levelled) = &mut outcome else { break };
        *built = packed((taken, rail), levelled, built);
        let moved = movements(rail, found, built);
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
    Ok((survey, outcome))
}

/// How far every arm comes down under the characteristic load, on feet that are set so.
fn movements(rail: &SurveyedRail, found: &Checked, set: &Built) -> Vec<Option<Length>> {
    let laid = &found.layout.rails[rail.rail];
    let most = Length::from_mm(survey::LARGEST_HEIGHT_MM);
    let hooks = rail.hooks.iter().map(|surveyed| {
        let hook = &set.hooks[surveyed.hook];
        let spring = &set.footings[hook.footing].spring;
        // One that moves farther than any height that is read touches its tile whatever is under it.
        laid.movement_of(&hook.id, spring).map(|moved| moved.min(most))
    });
    hooks.collect()
}

/// What was measured, with the movement of every arm under the characteristic load on its foot as found.
fn survey((taken, rail): (&TakenSurvey, &SurveyedRail), found: &Checked) -> Survey {
    let built = &taken.built.built;
    let job = &taken.built.taken.job;
    let moved = movements(rail, found, built);
    let hooks = rail.hooks.iter().zip(moved).map(|(surveyed, deflection)| {
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

/// What was built, and what was chosen for other rails, with the packers that were chosen for this one.
fn packed(
    (taken, rail): (&TakenSurvey, &SurveyedRail),
    levelled: &Levelled,
    built: &Built,
) -> Built {
    let as_found = &taken.built.built;
    let feet: Vec<(usize, FoundFooting)> = rail
        .hooks
        .iter()
        .zip(&levelled.hooks)
        .map(|(surveyed, setting)| {
            let way = &as_found.ways[as_found.hooks[surveyed.hook].footing];
            let packers = setting.packers.clone();
            let clearance = Some(setting.clearance);
            let slot = Some(setting.slot);
            (surveyed.hook, FoundFooting { packers, slot, clearance, ..way.clone() })
        })
        .collect();
    built.with_feet(&taken.built.taken.job, &feet)
}

/// The schema lets single values within range only; what is left is a pile of packers.
fn unreadable(rail: &SurveyedRail, why: Unreadable) -> Fault {
    let pointer = match why {
        Unreadable::HookValue(place) => {
            format!("/built/hooks/{}/packers_mm", rail.hooks[place].hook)
        }
        Unreadable::NoHooks | Unreadable::TooManyHooks => "/measured/rail".to_owned(),
        Unreadable::Setting => "/components/hook/slot_range_mm".to_owned(),
    };
    let most = survey::LARGEST_HEIGHT_MM;
    Fault::new(pointer, FaultCode::OutOfRange, format!("No height may exceed {most} mm: {why}."))
}
