//! The crew's part: in which order the work goes, what is photographed, and the form for what was found at
//! each hook: its blanks are the members a survey asks for.

use maud::{Markup, html};

use crate::language::Words;
use crate::wire::layout::RailLayer;

use super::{Sheet, head};

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
                        @for _ in blanks { td .blank {} }
                        td .tick { "☐" }
                    }
                }
            }
        }
    }
}
