//! What the choice of packers and slots along a surveyed rail leaves to be known.

use std::ops::Range;

use crate::placement::laid::Layout;
use crate::survey::{Impossible, Levelled, NoStack, Outcome, Reason, Survey};
use crate::units::Length;

use super::{Assessment, Fact, Finding, Place, Scope, Severity};

/// A bolt nearer than this to an end of its slot has nothing left to adjust (common practice, no
/// source).
const LITTLE_SLOT: Length = Length::from_mm(1.0);

/// Findings of a rail, the first, second or so of those surveyed, with hooks of these names, from left to right.
#[must_use]
pub fn of_levelling(
    (place, rail): (usize, &str),
    hooks: &[&str],
    survey: &Survey,
    outcome: &Outcome,
) -> Vec<Finding> {
    let rail = rail.to_owned();
    let one = |place, fact| vec![Finding { fact, place }];
    match outcome {
        Outcome::Levelled(levelled) => settings((place, &rail), hooks, survey, levelled),
        Outcome::Impossible(why) => {
            one(Place::SurveyObstruction(place), obstruction(rail, hooks, why))
        }
        Outcome::Undecided => {
            let steps = survey.search_limit as u64;
            one(Place::Survey(place), Fact::PackingNotDecided { rail, steps })
        }
        Outcome::Incomplete(missing) => {
            let mut hooks: Vec<String> =
                missing.iter().map(|missing| hooks[missing.hook].to_owned()).collect();
            hooks.dedup();
            one(Place::Survey(place), Fact::NotMeasured { rail, hooks })
        }
    }
}

fn settings(
    (place, rail): (usize, &str),
    hooks: &[&str],
    survey: &Survey,
    levelled: &Levelled,
) -> Vec<Finding> {
    let mut out = Vec::new();
    for (at, setting) in levelled.hooks.iter().enumerate() {
        let left = setting.slot.min(survey.slot_range - setting.slot);
        if survey.slot_range > LITTLE_SLOT * 2.0 && left < LITTLE_SLOT {
            let (hook, left) = (hooks[at].to_owned(), left.max(Length::ZERO));
            let fact = Fact::SlotNearlyUsedUp { hook, left };
            out.push(Finding { fact, place: Place::SurveyHook(place, at) });
        }
    }
    if !levelled.proven {
        let fact = Fact::PackingNotProven {
            rail: rail.to_owned(),
            packing: levelled.total,
            bound: levelled.total_bound,
        };
        out.push(Finding { fact, place: Place::SurveyLine(place) });
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

impl Assessment {
    /// Whether the tiles over the hooks of a rail may be closed, as far as what was found goes: nothing of it, and
    /// nothing of all rails, fails or was left open on hooks, rails, rafters or covering. The rail is a place among
    /// those of the layout, its hooks places among all of them, and the survey of it one among the surveys.
    #[must_use]
    pub fn lets_close(&self, rail: usize, hooks: Range<usize>, survey: usize) -> bool {
        let blocks = |finding: &&Finding| {
            let kind = finding.kind();
            let is_serious = matches!(kind.severity, Severity::Failure | Severity::Incomplete);
            let of_fixings = [Scope::Fixing, Scope::Rail, Scope::Rafters, Scope::Covering];
            is_serious && kind.scopes.iter().any(|scope| of_fixings.contains(scope))
        };
        !self.that_matter().filter(blocks).any(|finding| match finding.place {
            Place::Rail(of) | Place::Segment(of, _) => of == rail,
            Place::Hook(hook) => hooks.contains(&hook),
            Place::Survey(of)
            | Place::SurveyLine(of)
            | Place::SurveyHook(of, _)
            | Place::SurveyObstruction(of) => of == survey,
            Place::Whole
            | Place::Rails
            | Place::Hooks
            | Place::Rafters
            | Place::Rafter(_)
            | Place::Covering => true,
            Place::Modules | Place::Module(_) | Place::Snow | Place::WindZones | Place::Cutting => {
                false
            }
        })
    }
}

/// The rails that are not measured to the end, by place, in the order in which they are best measured: those that
/// were begun, the one with the fewest readings left first; then those whose arms come nearest to the tile under
/// load.
#[must_use]
pub fn in_order(layout: &Layout, left: &[(usize, Left)]) -> Vec<usize> {
    let mut order: Vec<(bool, usize, f64, usize)> = left
        .iter()
        .map(|(rail, left)| {
            let results =
                layout.rails[*rail].segments.iter().filter_map(|laid| laid.result.as_ref());
            let used =
                results.flat_map(|result| &result.hooks).map(|hook| hook.clearance.utilisation);
            let readings = if left.begun { left.readings } else { 0 };
            (!left.begun, readings, -used.fold(0.0, f64::max), *rail)
        })
        .collect();
    order.sort_by(|a, b| (a.0, a.1).cmp(&(b.0, b.1)).then(a.2.total_cmp(&b.2)).then(a.3.cmp(&b.3)));
    order.into_iter().map(|(.., rail)| rail).collect()
}

/// What is left to measure along a rail.
#[derive(Debug, Clone, Copy)]
pub struct Left {
    /// Something was measured along it.
    pub begun: bool,
    /// Readings that are missing.
    pub readings: usize,
}
