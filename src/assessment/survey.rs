//! What the choice of packers and slots along a surveyed rail leaves to be known.

use crate::survey::{Impossible, Levelled, NoStack, Outcome, Reason, Survey};
use crate::units::Length;

use super::{Fact, Finding, Place};

/// A bolt nearer than this to an end of its slot has nothing left to adjust (common practice, no
/// source).
const LITTLE_SLOT: Length = Length::from_mm(1.0);

/// Findings of a rail with hooks of these names, from left to right.
#[must_use]
pub fn of_levelling(
    rail: &str,
    hooks: &[&str],
    survey: &Survey,
    outcome: &Outcome,
) -> Vec<Finding> {
    let rail = rail.to_owned();
    let one = |place, fact| vec![Finding { fact, place }];
    match outcome {
        Outcome::Levelled(levelled) => settings(&rail, hooks, survey, levelled),
        Outcome::Impossible(why) => one(Place::SurveyObstruction, obstruction(rail, hooks, why)),
        Outcome::Undecided => {
            let steps = survey.search_limit as u64;
            one(Place::Survey, Fact::PackingNotDecided { rail, steps })
        }
        Outcome::Incomplete(missing) => {
            let mut hooks: Vec<String> =
                missing.iter().map(|missing| hooks[missing.hook].to_owned()).collect();
            hooks.dedup();
            one(Place::Survey, Fact::NotMeasured { rail, hooks })
        }
    }
}

fn settings(rail: &str, hooks: &[&str], survey: &Survey, levelled: &Levelled) -> Vec<Finding> {
    let mut out = Vec::new();
    for (place, setting) in levelled.hooks.iter().enumerate() {
        let left = setting.slot.min(survey.slot_range - setting.slot);
        if survey.slot_range > LITTLE_SLOT * 2.0 && left < LITTLE_SLOT {
            let (hook, left) = (hooks[place].to_owned(), left.max(Length::ZERO));
            let fact = Fact::SlotNearlyUsedUp { hook, left };
            out.push(Finding { fact, place: Place::SurveyHook(place) });
        }
    }
    if !levelled.proven {
        let fact = Fact::PackingNotProven {
            rail: rail.to_owned(),
            packing: levelled.total,
            bound: levelled.total_bound,
        };
        out.push(Finding { fact, place: Place::SurveyLine });
    }
    out
}

fn obstruction(rail: String, hooks: &[&str], why: &Impossible) -> Fact {
    let named = |places: &[usize]| places.iter().map(|at| hooks[*at].to_owned()).collect();
    match &why.reason {
        Reason::NoStack(without) => {
            let lacks = without.iter().map(NoStack::lacks).fold(Length::ZERO, Length::max);
            let places: Vec<usize> = without.iter().map(|hook| hook.hook).collect();
            Fact::NoStackClearsTile { rail, hooks: named(&places), by: lacks }
        }
        Reason::NotStraight { proud, low, by } => {
            Fact::RailNotStraight { rail, hooks: named(proud), low: named(low), by: *by }
        }
        Reason::SlotShorterThanSteps { hooks: at } => {
            Fact::RailNotStraight { rail, hooks: named(at), low: Vec::new(), by: Length::ZERO }
        }
    }
}
