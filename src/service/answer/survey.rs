//! Packers and slots of a rail as the answer shows them.

use crate::language::{self, Reader};
use crate::service::intake::TakenSurvey;
use crate::service::rounding::mm;
use crate::survey::{
    Impossible, Levelled, Measurement, Missing, NoStack, Outcome, Reason, Remedy, Setting, Survey,
};
use crate::units::Length;
use crate::wire::declarations::Act;
use crate::wire::remarks::MissingInput;
use crate::wire::survey::{
    HookSetting, Levelling, LevellingOutcome, Obstruction, ObstructionKind, PackedFor, RailLine,
    Remedy as WireRemedy, RemedyKind,
};

/// Writes what is to be done along a rail.
#[must_use]
pub fn levelling(
    taken: &TakenSurvey,
    survey: &Survey,
    outcome: &Outcome,
    reader: Reader,
) -> Levelling {
    let nothing = |outcome| Levelling {
        rail: taken.built.built.rails[taken.rail].id.clone(),
        outcome,
        line: None,
        hooks: Vec::new(),
        obstruction: None,
    };
    match outcome {
        Outcome::Levelled(levelled) => Levelling {
            line: Some(line(survey, levelled)),
            hooks: hooks(taken, survey, levelled),
            ..nothing(LevellingOutcome::Levelled)
        },
        Outcome::Impossible(why) => Levelling {
            obstruction: Some(obstruction(&taken.hook_names(), why, reader)),
            ..nothing(LevellingOutcome::Impossible)
        },
        Outcome::Undecided => nothing(LevellingOutcome::Undecided),
        Outcome::Incomplete(_) => nothing(LevellingOutcome::Incomplete),
    }
}

/// Code of the finding that measurements are missing: only those lift it.
pub(super) const NOT_MEASURED: &str = "survey.not-measured";

/// What is still to be measured.
#[must_use]
pub fn missing(taken: &TakenSurvey, outcome: &Outcome, reader: Reader) -> Vec<MissingInput> {
    let Outcome::Incomplete(missing) = outcome else { return Vec::new() };
    missing.iter().map(|missing| input(taken, *missing, reader)).collect()
}

fn input(taken: &TakenSurvey, Missing { hook, what }: Missing, reader: Reader) -> MissingInput {
    let surveyed = &taken.hooks[hook];
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

fn hooks(taken: &TakenSurvey, survey: &Survey, levelled: &Levelled) -> Vec<HookSetting> {
    let found = taken.hooks.iter().zip(&survey.hooks).zip(&levelled.hooks);
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
