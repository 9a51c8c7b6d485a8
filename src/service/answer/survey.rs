//! Packers and slots of a rail as the answer shows them.

use std::ops::Range;

use crate::assessment::{self, Assessment, Left};
use crate::language::{self, Reader};
use crate::placement::laid::Layout;
use crate::service::intake::{SurveyedRail, TakenSurvey};
use crate::service::rounding::mm;
use crate::survey::{
    Impossible, Levelled, Measurement, Missing, NoStack, Outcome, Reason, Remedy, Setting, Survey,
};
use crate::units::Length;
use crate::wire::declarations::Act;
use crate::wire::remarks::MissingInput;
use crate::wire::survey::{
    HookSetting, HookToMeasure, Levelling, LevellingOutcome, NeededReading, Obstruction,
    ObstructionKind, PackedFor, RailLine, RailToMeasure, Remedy as WireRemedy, RemedyKind,
};

/// Writes what is to be done along the rails that were surveyed.
#[must_use]
pub fn levellings(
    taken: &TakenSurvey,
    outcomes: &[(Survey, Outcome)],
    (layout, assessed): (&Layout, &Assessment),
    reader: Reader,
) -> Vec<Levelling> {
    let all = taken.rails.iter().zip(outcomes).enumerate();
    all.map(|(i, (rail, (survey, outcome)))| {
        let levelling = levelling((taken, rail), survey, outcome, reader);
        let hooks = hooks_of(layout, rail);
        let may_close = matches!(outcome, Outcome::Levelled(_))
            && hooks.is_some_and(|hooks| assessed.lets_close(rail.rail, hooks, i));
        Levelling { may_close, ..levelling }
    })
    .collect()
}

/// The hooks of a rail among all of a layout; `None` where one of them bears nothing.
fn hooks_of(layout: &Layout, rail: &SurveyedRail) -> Option<Range<usize>> {
    let mut of_rails = layout.hooks().map(|(at, _)| at[0]).enumerate();
    let first = of_rails.find(|(_, of)| *of == rail.rail)?.0;
    (layout.rails[rail.rail].hooks.len() == rail.hooks.len())
        .then(|| first..first + rail.hooks.len())
}

fn levelling(
    (taken, rail): (&TakenSurvey, &SurveyedRail),
    survey: &Survey,
    outcome: &Outcome,
    reader: Reader,
) -> Levelling {
    let nothing = |outcome| Levelling {
        rail: taken.built.built.rails[rail.rail].id.clone(),
        outcome,
        line: None,
        may_close: false,
        hooks: Vec::new(),
        obstruction: None,
    };
    match outcome {
        Outcome::Levelled(levelled) => Levelling {
            line: Some(line(survey, levelled)),
            hooks: hooks((taken, rail), survey, levelled),
            ..nothing(LevellingOutcome::Levelled)
        },
        Outcome::Impossible(why) => Levelling {
            obstruction: Some(obstruction(&rail.hook_names(&taken.built.built), why, reader)),
            ..nothing(LevellingOutcome::Impossible)
        },
        Outcome::Undecided => nothing(LevellingOutcome::Undecided),
        Outcome::Incomplete(_) => nothing(LevellingOutcome::Incomplete),
    }
}

/// What is still to be measured, rail by rail.
///
/// A rail whose slots are all said to be set was surveyed before.
#[must_use]
pub fn to_measure(
    taken: &TakenSurvey,
    outcomes: &[(Survey, Outcome)],
    layout: &Layout,
) -> Vec<RailToMeasure> {
    let built = &taken.built.built;
    let needs = |rail: usize| -> RailToMeasure {
        let id = built.rails[rail].id.clone();
        if let Some(at) = taken.rails.iter().position(|surveyed| surveyed.rail == rail) {
            let (surveyed, (_, outcome)) = (&taken.rails[at], &outcomes[at]);
            let missing =
                if let Outcome::Incomplete(missing) = outcome { &missing[..] } else { &[] };
            let hooks = surveyed.hooks.iter().enumerate().map(|(place, hook)| HookToMeasure {
                id: built.hooks[hook.hook].id.clone(),
                measure: missing
                    .iter()
                    .filter(|m| m.hook == place)
                    .map(|m| reading(m.what))
                    .collect(),
            });
            return RailToMeasure { rail: id, begun: true, hooks: that_need(hooks) };
        }
        let mut own: Vec<usize> =
            (0..built.hooks.len()).filter(|hook| built.hooks[*hook].rail == rail).collect();
        own.sort_by(|a, b| built.hooks[*a].along().mm().total_cmp(&built.hooks[*b].along().mm()));
        let found = |hook: &usize| taken.joined.hooks[*hook].found.as_ref();
        if own.iter().all(|hook| found(hook).is_some_and(|found| found.slot_mm.is_some())) {
            return RailToMeasure { rail: id, begun: false, hooks: Vec::new() };
        }
        let hooks = own.iter().map(|hook| {
            let has_clearance = found(hook).is_some_and(|found| found.clearance_mm.is_some());
            let clearance = (!has_clearance).then_some(NeededReading::ClearanceMm);
            HookToMeasure {
                id: built.hooks[*hook].id.clone(),
                measure: clearance.into_iter().chain([NeededReading::LevelMm]).collect(),
            }
        });
        RailToMeasure { rail: id, begun: false, hooks: that_need(hooks) }
    };
    let all: Vec<(usize, RailToMeasure)> = (0..built.rails.len())
        .map(|rail| (rail, needs(rail)))
        .filter(|(_, needs)| !needs.hooks.is_empty())
        .collect();
    let left: Vec<(usize, Left)> = all
        .iter()
        .map(|(rail, needs)| {
            let readings = needs.hooks.iter().map(|hook| hook.measure.len()).sum();
            (*rail, Left { begun: needs.begun, readings })
        })
        .collect();
    let order = assessment::in_order(layout, &left);
    let of = |rail: &usize| all.iter().find(|(of, _)| of == rail).map(|(_, needs)| needs.clone());
    order.iter().filter_map(of).collect()
}

fn that_need(hooks: impl Iterator<Item = HookToMeasure>) -> Vec<HookToMeasure> {
    hooks.filter(|hook| !hook.measure.is_empty()).collect()
}

const fn reading(what: Measurement) -> NeededReading {
    match what {
        Measurement::Clearance => NeededReading::ClearanceMm,
        Measurement::Level => NeededReading::LevelMm,
    }
}

/// Code of the finding that measurements are missing: only those lift it.
pub(super) const NOT_MEASURED: &str = "survey.not-measured";

/// What is still to be measured along rails that were begun.
#[must_use]
pub fn missing(
    taken: &TakenSurvey,
    outcomes: &[(Survey, Outcome)],
    reader: Reader,
) -> Vec<MissingInput> {
    let of = |(rail, (_, outcome)): (&SurveyedRail, &(Survey, Outcome))| {
        let missing = if let Outcome::Incomplete(missing) = outcome { &missing[..] } else { &[] };
        missing.iter().map(|missing| input((taken, rail), *missing, reader)).collect::<Vec<_>>()
    };
    taken.rails.iter().zip(outcomes).flat_map(of).collect()
}

fn input(
    (taken, rail): (&TakenSurvey, &SurveyedRail),
    Missing { hook, what }: Missing,
    reader: Reader,
) -> MissingInput {
    let surveyed = &rail.hooks[hook];
    let member = match what {
        Measurement::Clearance => "clearance_mm",
        Measurement::Level => "level_mm",
    };
    let pointer = surveyed
        .measured
        .map_or_else(|| "/measured/hooks".to_owned(), |m| format!("/measured/hooks/{m}/{member}"));
    let name = &taken.built.built.hooks[surveyed.hook].id;
    MissingInput {
        finding: None,
        check: NOT_MEASURED,
        act: Act::Measure,
        declarable: false,
        pointer,
        why: language::survey::measurement(what, name, reader),
    }
}

fn line(survey: &Survey, levelled: &Levelled) -> RailLine {
    let first = survey.hooks.first().map_or(Length::ZERO, |hook| hook.x);
    let last = survey.hooks.last().map_or(Length::ZERO, |hook| hook.x);
    RailLine {
        packing_mm: mm(levelled.total.mm()),
        pieces: levelled.pieces as u64,
        slots_off_middle_mm: mm(levelled.slot_deviation.mm()),
        rise_mm: mm(levelled.rail_tilt * (last - first).mm()),
        proven: levelled.proven,
        packing_bound_mm: mm(levelled.total_bound.mm()),
    }
}

fn hooks(
    (taken, rail): (&TakenSurvey, &SurveyedRail),
    survey: &Survey,
    levelled: &Levelled,
) -> Vec<HookSetting> {
    let found = rail.hooks.iter().zip(&survey.hooks).zip(&levelled.hooks);
    found
        .map(|((surveyed, measured), setting)| {
            let hook = &taken.built.built.hooks[surveyed.hook];
            HookSetting {
                id: hook.id.clone(),
                x_mm: mm(hook.x.mm()),
                y_mm: hook.y.map(|y| mm(y.mm())),
                packers_mm: setting.packers.iter().map(|piece| mm(piece.mm())).collect(),
                packed_mm: mm(setting.height.mm()),
                packed_for: packed_for(survey, measured.deflection, setting),
                slot_mm: mm(setting.slot.mm()),
                slot_from_middle_mm: mm((setting.slot - survey.slot_range / 2.0).mm()),
                clearance_mm: mm(setting.clearance.mm()),
                deflection_mm: measured.deflection.map(|d| mm(d.mm())),
                clearance_under_load_mm: setting.clearance_under_load.map(|left| mm(left.mm())),
                room_above_mm: setting.room_above.map(|room| mm(room.mm())),
            }
        })
        .collect()
}

/// Packers are for clearance when the arm would not stand clear without its thinnest one.
fn packed_for(survey: &Survey, deflection: Option<Length>, setting: &Setting) -> PackedFor {
    let Some(thinnest) = setting.packers.iter().copied().reduce(Length::min) else {
        return PackedFor::Nothing;
    };
    let least = survey.min_clearance.max(deflection.unwrap_or(Length::ZERO));
    if setting.clearance - thinnest < least { PackedFor::Clearance } else { PackedFor::Level }
}

fn obstruction(hooks: &[&str], why: &Impossible, reader: Reader) -> Obstruction {
    let list = |places: &[usize]| -> Vec<String> {
        places.iter().map(|place| hooks[*place].to_owned()).collect()
    };
    let (kind, found, low, by) = match &why.reason {
        Reason::NoStack(without) => {
            let by = without.iter().map(NoStack::lacks).fold(Length::ZERO, Length::max);
            let found: Vec<usize> = without.iter().map(|hook| hook.hook).collect();
            (ObstructionKind::NoStack, list(&found), Vec::new(), by)
        }
        Reason::NotStraight { proud, low, by } => {
            (ObstructionKind::NotStraight, list(proud), list(low), *by)
        }
        Reason::SlotShorterThanSteps { hooks } => {
            (ObstructionKind::SlotShorterThanSteps, list(hooks), Vec::new(), Length::ZERO)
        }
    };
    Obstruction {
        kind,
        message: language::survey::obstruction(&why.reason, hooks, reader),
        hooks: found,
        low_hooks: low,
        by_mm: mm(by.mm()),
        remedies: why.remedies.iter().map(|r| remedy(hooks, r, reader)).collect(),
    }
}

fn remedy(hooks: &[&str], remedy: &Remedy, reader: Reader) -> WireRemedy {
    let (kind, hook, by) = match remedy {
        Remedy::LongerSlot { by } => (RemedyKind::LongerSlot, None, *by),
        Remedy::HigherStack { to } => (RemedyKind::HigherStack, None, *to),
        Remedy::LowerFace { hook, by } => (RemedyKind::LowerFace, Some(*hook), *by),
    };
    WireRemedy {
        kind,
        hook: hook.map(|place| hooks[place].to_owned()),
        mm: mm(by.mm()),
        message: language::survey::remedy(remedy, hooks, reader),
    }
}
