//! The crew's part: in which order the work goes, what is photographed, and the form for what was found at
//! each hook: its blanks are the members a survey asks for, filled in where they were found already. What departs
//! from the plan is told beside it, and whoever looked at it signs.

use maud::{Markup, html};

use crate::language::Words;
use crate::wire::built::{Found, RafterCondition};
use crate::wire::layout::RailLayer;
use crate::wire::recheck::{DepartingQuantity, Departure};

use super::{Sheet, head, stack};

/// The order of work, step by step, and the photos that prove it (common practice, no source).
pub fn order_of_work(words: &Words) -> Markup {
    let steps = [
        words.work_secure,
        words.work_set_out,
        words.work_open,
        words.work_fix,
        words.work_measure,
        words.work_photo,
        words.work_membrane,
        words.work_close,
        words.work_rails,
        words.work_hand_over,
    ];
    let photos = [words.photo_before, words.photo_opening, words.photo_membrane, words.photo_after];
    html! {
        div .two {
            div {
                h3 { (words.order_of_work) }
                ol .note { @for step in steps { li { (step) } } }
            }
            div {
                h3 { (words.photo_list) }
                ul .note.photos { @for photo in photos { li { "☐ " (photo) } } }
            }
        }
    }
}

/// The form: a row for every hook, its blanks in the order of a survey.
pub fn form(sheet: &Sheet<'_>, words: &Words) -> Markup {
    let blanks = [
        words.found_rafter_x,
        words.found_rafter_width,
        words.found_rafter_condition,
        words.found_counter_batten,
        words.found_screw_length,
        words.found_packers,
        words.found_clearance,
        words.found_level,
        words.found_room_above,
        words.found_side_joint,
    ];
    let mut columns = vec![words.hook];
    columns.extend(blanks);
    columns.push(words.photo);
    let content = &sheet.content;
    let on_roof = |rail: &str| {
        let mut upper = content.rails.iter().filter(|rail| rail.layer == Some(RailLayer::Upper));
        upper.all(|of| of.id != rail)
    };
    html! {
        h3 {
            (words.as_built)
            @if let Some(slope) = sheet.slope { " · " (words.slope) " " (slope) }
        }
        p .note { (words.as_built_note) }
        table .as-built tabindex="0" {
            (head(&columns))
            tbody {
                @for hook in content.hooks.iter().filter(|hook| on_roof(&hook.rail)) {
                    tr {
                        th scope="row" { (hook.id) }
                        @for cell in found(sheet, &hook.id, words) {
                            @match cell {
                                Some(found) => { td { (found) } }
                                None => { td .blank {} }
                            }
                        }
                        td .tick { "☐" }
                    }
                }
            }
        }
        @if sheet.built.is_some() {
            (departures(sheet.content.departures, words))
            (signatures(words))
        }
    }
}

/// What was found at a hook, in the order of the form; `None` of what nobody has looked at.
fn found(sheet: &Sheet<'_>, hook: &str, words: &Words) -> [Option<String>; 10] {
    let stands = sheet.built.and_then(|built| built.hooks.iter().find(|of| of.id == hook));
    let found = stands.and_then(|hook| hook.found.as_ref());
    let length =
        |of: fn(&Found) -> Option<f64>| found.and_then(of).map(|length| words.number(length, 1));
    let condition = found.and_then(|found| found.rafter_condition);
    [
        length(|found| found.rafter_x_mm),
        length(|found| found.rafter_width_mm),
        condition.map(|condition| self::condition(condition, words).to_owned()),
        length(|found| found.counter_batten_mm),
        length(|found| found.screw_length_mm),
        stands.map(|hook| stack(&hook.packers_mm, words)),
        length(|found| found.clearance_mm),
        None,
        None,
        length(|found| found.side_joint_mm),
    ]
}

const fn condition(condition: RafterCondition, words: &Words) -> &'static str {
    match condition {
        RafterCondition::Sound => words.condition_sound,
        RafterCondition::Split => words.condition_split,
        RafterCondition::Rotten => words.condition_rotten,
    }
}

/// Where hooks are not as planned.
fn departures(departures: &[Departure], words: &Words) -> Markup {
    html! {
        h3 { (words.not_as_planned) }
        @if departures.is_empty() {
            p { (words.all_as_planned) }
        } @else {
            table .departures tabindex="0" {
                (head(&[words.hook, words.quantity, words.planned_mm, words.found_mm, words.by_mm]))
                tbody {
                    @for of in departures {
                        tr {
                            th scope="row" { (of.hook) }
                            td { (quantity(of.quantity, words)) }
                            td { (words.number(of.planned_mm, 1)) }
                            td .main { (words.number(of.found_mm, 1)) }
                            td { @if of.by_mm > 0.0 { "+" } (words.number(of.by_mm, 1)) }
                        }
                    }
                }
            }
        }
    }
}

const fn quantity(quantity: DepartingQuantity, words: &Words) -> &'static str {
    match quantity {
        DepartingQuantity::RafterX => words.found_rafter_x,
        DepartingQuantity::RafterWidth => words.found_rafter_width,
        DepartingQuantity::CounterBatten => words.found_counter_batten,
        DepartingQuantity::ScrewLength => words.found_screw_length,
        DepartingQuantity::Clearance => words.found_clearance,
    }
}

/// Who built it, who looked at it and who took it over, each with room for name, date and signature.
fn signatures(words: &Words) -> Markup {
    html! {
        p .note { (words.look_again) }
        table .signatures tabindex="0" {
            (head(&["", words.name_in_print, words.date, words.signature]))
            tbody {
                @for role in [words.built_by, words.looked_at_by, words.taken_over_by] {
                    tr { th scope="row" { (role) } @for _ in 0..3 { td .blank {} } }
                }
            }
        }
    }
}
