//! How far each hook may stand from where it is set out, for the crew.

use maud::{Markup, html};

use crate::checks::Check;
use crate::language::Language;
use crate::language::findings::label;
use crate::wire::room::{HookRoom, RoomStop, RoomWay};

use super::{Sheet, head, mm};

/// The room of every hook, where it was asked for.
pub fn room(sheet: &Sheet<'_>, language: Language) -> Markup {
    let words = language.words();
    let Some(room) = sheet.content.room else { return html! {} };
    html! {
        @if !room.hooks.is_empty() {
            section {
                h3 { (words.room_of_hooks) }
                p .note { (words.room_on_rafters) }
                @if let Some(off) = &room.rafters_off { p { (off.message) } }
                table .room tabindex="0" {
                    (head(&[words.hook, words.room_left, words.room_ends_at, words.room_right, words.room_ends_at]))
                    tbody { @for hook in &room.hooks { (row(hook, language)) } }
                }
                @if !room.complete { p { (words.not_all_rooms) } }
            }
        }
    }
}

fn row(hook: &HookRoom, language: Language) -> Markup {
    html! {
        tr {
            th scope="row" { (hook.hook) }
            @for way in [&hook.left, &hook.right] {
                td .main { (mm(way.by_mm)) }
                td { (ends_at(way, language)) }
            }
        }
    }
}

/// What a hook meets at the end of its room.
fn ends_at(way: &RoomWay, language: Language) -> &'static str {
    let words = language.words();
    match way.stop {
        RoomStop::Check => {
            let check = Check::ALL.iter().find(|check| way.check.as_deref() == Some(check.name()));
            check.map_or("", |check| label(*check, language))
        }
        RoomStop::Tipping => words.room_tipping,
        RoomStop::ScrewEdge => words.room_screw_edge,
        RoomStop::NoTrough => words.room_no_trough,
        RoomStop::RailEnd => words.room_rail_end,
        RoomStop::FreeEnd => words.room_free_end,
        RoomStop::NextHook => words.room_next_hook,
        RoomStop::NotTried => words.room_not_tried,
    }
}
