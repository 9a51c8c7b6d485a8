//! What is to be done at hooks that stand: packers and slots of a surveyed rail, feet to set anew and
//! hooks to add; and what would lift the failing checks of a layout.

use maud::{Markup, html};

use crate::language::Words;
use crate::placement::laid::Rail;
use crate::service::rounding;
use crate::wire::recheck::{PartsChange, RepairParts, Suggestion};
use crate::wire::remedies::Remedies;
use crate::wire::survey::{
    HookSetting, Levelling, LevellingOutcome, NeededReading, PackedFor, RailToMeasure,
};

use super::crew::{self, Height};
use super::{Content, Mended, Sheet, head, mm, stack};
use crate::service::wording::verdict;

/// Packers and slots of a surveyed rail.
pub fn surveyed(content: &Content<'_>, words: &Words) -> Markup {
    html! {
        @for survey in content.levellings.into_iter().flatten() { (levelling(survey, words)) }
        @if !content.to_measure.is_empty() { (to_measure(content.to_measure, words)) }
    }
}

/// Feet to set anew and hooks to add at hooks that stand.
pub fn suggested(sheet: &Sheet<'_>, words: &Words) -> Markup {
    let found = sheet.content.suggestion.zip(sheet.mended.as_ref());
    html! {
        @if let Some((suggestion, mended)) = found { (suggestion_in_full(sheet, suggestion, mended, words)) }
    }
}

/// Packers and slots, hook by hook.
fn levelling(survey: &Levelling, words: &Words) -> Markup {
    let outcome = match survey.outcome {
        LevellingOutcome::Levelled => words.levelled,
        LevellingOutcome::Impossible => words.cannot_be_levelled,
        LevellingOutcome::Undecided => words.levelling_undecided,
        LevellingOutcome::Incomplete => words.levelling_incomplete,
    };
    html! {
        h3 { (words.packers_and_slots) " · " (words.rail) " " (survey.rail) }
        p { strong { (outcome) } }
        @if let Some(why) = &survey.obstruction {
            p { (why.message) }
            ul { @for remedy in &why.remedies { li { (remedy.message) } } }
        }
        @if survey.outcome == LevellingOutcome::Levelled {
            p { @if survey.may_close { (words.may_be_closed) } @else { (words.stays_open) } }
        }
        @if !survey.hooks.is_empty() {
            table tabindex="0" {
                (head(&[
                    words.hook, "x", words.packers, words.packed_for, words.slot,
                    words.from_slot_middle, words.unloaded_mm, words.under_load_mm,
                    words.packed_tick,
                ]))
                tbody { @for hook in &survey.hooks { (setting(hook, words)) } }
            }
        }
    }
}

/// What is still to be measured, with room for the readings.
fn to_measure(rails: &[RailToMeasure], words: &Words) -> Markup {
    html! {
        h3 { (words.still_to_measure) }
        table tabindex="0" {
            (head(&[words.rail, words.hook, words.reading_clearance, words.reading_level]))
            tbody {
                @for rail in rails {
                    @for hook in &rail.hooks {
                        tr {
                            td { (rail.rail) }
                            th scope="row" { (hook.id) }
                            @for reading in [NeededReading::ClearanceMm, NeededReading::LevelMm] {
                                td .tick {
                                    @if hook.measure.contains(&reading) { "____ mm" } @else { "✓" }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn setting(hook: &HookSetting, words: &Words) -> Markup {
    let purpose = match hook.packed_for {
        PackedFor::Nothing => "–",
        PackedFor::Clearance => words.clearance,
        PackedFor::Level => words.for_level,
    };
    html! {
        tr {
            th scope="row" { (hook.id) }
            td { (mm(hook.x_mm)) }
            td .main { (stack(&hook.packers_mm, words)) }
            td { (purpose) }
            td .main { (words.figure(hook.slot_mm, 1)) }
            td {
                @if hook.slot_from_middle_mm > 0.0 { "+" }
                (words.figure(hook.slot_from_middle_mm, 1))
            }
            td { (words.figure(hook.clearance_mm, 1)) }
            td {
                @match hook.clearance_under_load_mm {
                    Some(left) => (words.figure(left, 1)),
                    None => (words.not_verified),
                }
            }
            td .tick { "☐" }
        }
    }
}

/// What helps of what was tried, best first.
pub fn tried(remedies: &Remedies, words: &Words) -> Markup {
    html! {
        h4 { (words.what_would_help) }
        @if remedies.helping.is_empty() {
            p { (words.nothing_tried_helps) }
        } @else {
            p { (words.each_tried) }
            ol { @for remedy in &remedies.helping { li { (remedy.message) } } }
        }
        @if !remedies.complete { p { (words.not_all_tried) } }
    }
}

/// What would make the job hold.
fn suggestion_in_full(
    sheet: &Sheet<'_>,
    suggestion: &Suggestion,
    mended: &Mended<'_>,
    words: &Words,
) -> Markup {
    let added = mended.added(sheet.content.hooks);
    html! {
        h3 { (words.what_would_help) }
        p {
            (words.with_all_this) ": " strong { (verdict(suggestion.verdict, words)) } ", "
            (words.used(suggestion.max_utilisation, 1))
        }
        div .two {
            (parts(&suggestion.parts, words))
            (before_and_with(sheet, mended, words))
        }
        @if !suggestion.take_off.is_empty() {
            p { (words.hooks_to_take_off) ": " strong { (suggestion.take_off.join(", ")) } }
        }
        @if !suggestion.refit.is_empty() {
            table tabindex="0" {
                caption { (words.feet_to_set_anew) }
                (head(&[words.hook, words.packers, words.screw, "☐"]))
                tbody {
                    @for foot in &suggestion.refit {
                        tr {
                            th scope="row" { (foot.hook) }
                            td .main { (stack(&foot.packers_mm, words)) }
                            td .main { (mm(foot.screw_length_mm)) " mm" }
                            td .tick { "☐" }
                        }
                    }
                }
            }
        }
        @if !added.is_empty() {
            table .setting-out tabindex="0" {
                caption { (words.hooks_to_add) ": " (words.set_out_as_below) }
                (head(&crew::columns(sheet.job, Height::InRow, words)))
                tbody { @for hook in &added { (crew::row(sheet, hook, Height::InRow, words)) } }
            }
        }
        @for segment in &suggestion.segments {
            @if let Some(reason) = &segment.reason {
                p { (segment.rail) ": " (reason) }
            }
        }
    }
}

/// What the repair takes and leaves over, without spares.
fn parts(parts: &RepairParts, words: &Words) -> Markup {
    let row = |name: &str, size: Option<f64>, change: PartsChange| {
        html! {
            tr {
                th scope="row" {
                    (name)
                    @if let Some(size) = size { " " (words.number(size, 1)) " mm" }
                }
                td .main { (change.needed) }
                td { (change.freed) }
                td .tick { "☐" }
            }
        }
    };
    let to_lay_again = PartsChange { needed: parts.covering_tiles, freed: 0 };
    let whole = [
        (words.part_hook, parts.hooks),
        (words.part_substitute_tile, parts.substitute_tiles),
        (words.part_bolt_set, parts.bolt_sets),
        (words.part_covering_tile, to_lay_again),
    ];
    html! {
        table .repair tabindex="0" {
            caption { (words.parts_for_repair) }
            (head(&[words.part, words.needed, words.freed, "☐"]))
            tbody {
                @for (name, change) in whole.into_iter().filter(|(_, change)| change.is_any()) {
                    (row(name, None, change))
                }
                @for of in &parts.screws {
                    (row(words.part_screw, Some(of.length_mm), PartsChange { needed: of.needed, freed: 0 }))
                }
                @for of in &parts.packers {
                    (row(words.part_packer, Some(of.thickness_mm), PartsChange { needed: of.needed, freed: of.freed }))
                }
            }
        }
    }
}

/// Each rail as it stands and with the repair: its hooks, and the most used of it.
fn before_and_with(sheet: &Sheet<'_>, mended: &Mended<'_>, words: &Words) -> Markup {
    let used = |rail: &Rail| {
        let used = rail.most_used().map(rounding::utilisation);
        used.map_or_else(|| words.not_verified.to_owned(), |used| words.used(used, 1))
    };
    let rails = sheet.layout.rails.iter().zip(&mended.layout.rails);
    html! {
        table .repair tabindex="0" {
            caption { (words.before_and_with) }
            (head(&[
                words.rail,
                &format!("{}, {}", words.hooks, words.as_it_stands),
                &format!("{}, {}", words.hooks, words.repaired),
                &format!("{}, {}", words.used_most, words.as_it_stands),
                &format!("{}, {}", words.used_most, words.repaired),
            ]))
            tbody {
                @for (rail, with) in rails {
                    tr {
                        th scope="row" { (rail.line.id) }
                        td { (rail.hooks.len()) }
                        td { (with.hooks.len()) }
                        td { (used(rail)) }
                        td .main { (used(with)) }
                    }
                }
            }
        }
    }
}
