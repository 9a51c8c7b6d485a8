//! Packers and slots of a rail as the answer shows them, and what is worth a warning about them.

use crate::model::layout::MissingEvidence;
use crate::model::survey::{
    HookSetting, Levelling, LevellingOutcome, Obstruction, ObstructionKind, PackedFor, RailLine,
    Remedy as WireRemedy, RemedyKind,
};
use crate::service::intake::TakenSurvey;
use crate::service::rounding::mm;
use crate::service::warnings::{self as kinds, Warnings, number, text};
use crate::survey::{
    Impossible, Levelled, Measurement, Missing, Outcome, Reason, Remedy, Setting, Survey,
};
use crate::units::Length;

/// A bolt nearer than this to an end of its slot has nothing left to adjust (common practice, no
/// source).
const LITTLE_SLOT: Length = Length::from_mm(1.0);

/// Writes what is to be done along a rail, and what the reader must know of it.
#[must_use]
pub fn levelling(taken: &TakenSurvey, survey: &Survey, outcome: &Outcome) -> (Levelling, Warnings) {
    let rail = taken.built.built.rails[taken.rail].id.clone();
    let mut noted = Warnings::default();
    let nothing = |outcome| Levelling {
        rail: rail.clone(),
        outcome,
        line: None,
        hooks: Vec::new(),
        obstruction: None,
    };
    let levelling = match outcome {
        Outcome::Levelled(levelled) => {
            warn_of_settings(taken, survey, levelled, &mut noted);
            Levelling {
                line: Some(line(survey, levelled)),
                hooks: hooks(taken, survey, levelled),
                ..nothing(LevellingOutcome::Levelled)
            }
        }
        Outcome::Impossible(why) => {
            let obstruction = obstruction(taken, why);
            warn_of_obstruction(&rail, &obstruction, &mut noted);
            Levelling { obstruction: Some(obstruction), ..nothing(LevellingOutcome::Impossible) }
        }
        Outcome::Undecided => {
            noted.add(
                &kinds::NOT_DECIDED,
                "/survey",
                format!(
                    "Rail {rail}: the search for packers and slots ended after {} steps with none \
                     found and none excluded.",
                    survey.search_limit
                ),
                [("rail", text(&rail)), ("steps", number(survey.search_limit as f64))],
            );
            nothing(LevellingOutcome::Undecided)
        }
        Outcome::Incomplete(missing) => {
            let hooks = names(taken, missing.iter().map(|m| m.hook));
            noted.add(
                &kinds::NOT_MEASURED,
                "/survey",
                format!(
                    "Rail {rail}: clearance or level of hooks {hooks} is not measured; `missing` \
                     lists what to measure."
                ),
                [("rail", text(&rail)), ("hooks", text(&hooks))],
            );
            nothing(LevellingOutcome::Incomplete)
        }
    };
    (levelling, noted)
}

/// What is still to be measured.
#[must_use]
pub fn missing(taken: &TakenSurvey, outcome: &Outcome) -> Vec<MissingEvidence> {
    let Outcome::Incomplete(missing) = outcome else { return Vec::new() };
    missing.iter().map(|missing| evidence(taken, *missing)).collect()
}

fn evidence(taken: &TakenSurvey, Missing { hook, what }: Missing) -> MissingEvidence {
    let surveyed = &taken.hooks[hook];
    let id = &taken.built.built.hooks[surveyed.hook].id;
    let (member, why) = match what {
        Measurement::Clearance => (
            "clearance_mm",
            format!(
                "Clearance between arm and tile below at hook {id}, unloaded: it decides the \
                 packers."
            ),
        ),
        Measurement::Level => (
            "level_mm",
            format!(
                "Bearing face at hook {id} above a taut string along the rail: it decides packers \
                 and slot."
            ),
        ),
    };
    let pointer = surveyed
        .measured
        .map_or_else(|| "/measured/hooks".to_owned(), |m| format!("/measured/hooks/{m}/{member}"));
    MissingEvidence { pointer, why }
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

fn warn_of_settings(
    taken: &TakenSurvey,
    survey: &Survey,
    levelled: &Levelled,
    noted: &mut Warnings,
) {
    let rail = &taken.built.built.rails[taken.rail].id;
    let ends = levelled.hooks.iter().enumerate().filter_map(|(place, setting)| {
        let left = setting.slot.min(survey.slot_range - setting.slot);
        (survey.slot_range > LITTLE_SLOT * 2.0 && left < LITTLE_SLOT).then_some((place, left))
    });
    for (place, left) in ends {
        let id = names(taken, [place].into_iter());
        noted.add(
            &kinds::SLOT_END,
            format!("/survey/hooks/{place}"),
            format!(
                "Hook {id}: the bolt comes to sit {} mm from the end of its slot. A packer more or \
                 less there, or a rail line set anew, leaves more to adjust.",
                mm(left.mm().max(0.0))
            ),
            [("hook", text(id)), ("left_mm", number(mm(left.mm().max(0.0))))],
        );
    }
    if !levelled.proven {
        noted.add(
            &kinds::PACKING_NOT_BEST,
            "/survey/line",
            format!(
                "Rail {rail}: {} mm of packing do; the search ended before it was proven that none \
                 down to {} mm would.",
                mm(levelled.total.mm()),
                mm(levelled.total_bound.mm())
            ),
            [
                ("rail", text(rail)),
                ("packing_mm", number(mm(levelled.total.mm()))),
                ("packing_bound_mm", number(mm(levelled.total_bound.mm()))),
            ],
        );
    }
}

fn warn_of_obstruction(rail: &str, obstruction: &Obstruction, noted: &mut Warnings) {
    let kind = match obstruction.kind {
        ObstructionKind::NoStack => &kinds::NO_STACK,
        ObstructionKind::NotStraight | ObstructionKind::SlotShorterThanSteps => {
            &kinds::NOT_STRAIGHT
        }
    };
    let help: Vec<&str> = obstruction.remedies.iter().map(|r| r.message.as_str()).collect();
    let help = if help.is_empty() {
        "Nothing tried helps by itself.".to_owned()
    } else {
        format!("What would help: {}.", help.join("; or "))
    };
    noted.add(
        kind,
        "/survey/obstruction",
        format!("Rail {rail}: {} {help}", obstruction.message),
        [
            ("rail", text(rail)),
            ("hooks", text(obstruction.hooks.join(", "))),
            ("by_mm", number(obstruction.by_mm)),
        ],
    );
}

fn obstruction(taken: &TakenSurvey, why: &Impossible) -> Obstruction {
    let list = |places: &[usize]| -> Vec<String> {
        places.iter().map(|place| name(taken, *place)).collect()
    };
    let remedies = why.remedies.iter().map(|remedy| self::remedy(taken, remedy)).collect();
    match &why.reason {
        Reason::NoStack(without) => {
            let lacks =
                |needed: Length, highest: Option<Length>| needed - highest.unwrap_or(Length::ZERO);
            let by = without
                .iter()
                .map(|hook| lacks(hook.needed, hook.highest))
                .fold(Length::ZERO, Length::max);
            let each = without.iter().map(|hook| {
                let id = name(taken, hook.hook);
                let needed = mm(hook.needed.mm());
                hook.highest.map_or_else(
                    || {
                        format!(
                            "{id} needs {needed} mm, and the tile above leaves no room for the arm \
                             even without packers"
                        )
                    },
                    |highest| {
                        format!(
                            "{id} needs {needed} mm; the highest it can have is {} mm",
                            mm(highest.mm())
                        )
                    },
                )
            });
            let each: Vec<String> = each.collect();
            Obstruction {
                kind: ObstructionKind::NoStack,
                message: format!(
                    "No stack of packers is right for some hooks: {}.",
                    each.join("; ")
                ),
                hooks: without.iter().map(|hook| name(taken, hook.hook)).collect(),
                low_hooks: Vec::new(),
                by_mm: mm(by.mm()),
                remedies,
            }
        }
        Reason::NotStraight { proud, low, by } => Obstruction {
            kind: ObstructionKind::NotStraight,
            message: format!(
                "{} stand out too far and {} lie too low for one straight rail: the slots are {} mm \
                 short, whatever the packers.",
                list(proud).join(", "),
                list(low).join(", "),
                mm(by.mm())
            ),
            hooks: list(proud),
            low_hooks: list(low),
            by_mm: mm(by.mm()),
            remedies,
        },
        Reason::SlotShorterThanSteps { hooks } => Obstruction {
            kind: ObstructionKind::SlotShorterThanSteps,
            message: format!(
                "The slots are shorter than the steps between stacks of packers, and no stacks \
                 bring {} into line.",
                list(hooks).join(", ")
            ),
            hooks: list(hooks),
            low_hooks: Vec::new(),
            by_mm: 0.0,
            remedies,
        },
    }
}

fn remedy(taken: &TakenSurvey, remedy: &Remedy) -> WireRemedy {
    match remedy {
        Remedy::LongerSlot { by } => WireRemedy {
            kind: RemedyKind::LongerSlot,
            hook: None,
            mm: mm(by.mm()),
            message: format!("hooks whose slots are {} mm longer", mm(by.mm())),
        },
        Remedy::HigherStack { to } => WireRemedy {
            kind: RemedyKind::HigherStack,
            hook: None,
            mm: mm(to.mm()),
            message: format!(
                "stacks of up to {} mm, where packers, screws and rules allow them",
                mm(to.mm())
            ),
        },
        Remedy::LowerFace { hook, by } => {
            let id = name(taken, *hook);
            WireRemedy {
                kind: RemedyKind::LowerFace,
                mm: mm(by.mm()),
                message: format!("{} mm planed off what the foot of {id} bears on", mm(by.mm())),
                hook: Some(id),
            }
        }
    }
}

fn name(taken: &TakenSurvey, place: usize) -> String {
    taken.built.built.hooks[taken.hooks[place].hook].id.clone()
}

/// Names of hooks, each once.
fn names(taken: &TakenSurvey, places: impl Iterator<Item = usize>) -> String {
    let mut all: Vec<String> = places.map(|place| name(taken, place)).collect();
    all.dedup();
    all.join(", ")
}
