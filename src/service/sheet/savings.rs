//! What one change would save, and what one hook fewer would mean, on the parts for the office and the engineer.

use maud::{Markup, html};

use crate::language::Words;

use super::Content;

/// Both, where they were asked for.
pub fn savings(content: &Content<'_>, words: &Words) -> Markup {
    html! {
        @if let Some(savings) = content.savings {
            section {
                h3 { (words.what_would_save) }
                @if savings.changes.is_empty() {
                    p { (words.nothing_tried_saves) }
                } @else {
                    p { (words.each_saving_tried) }
                    ol { @for saving in &savings.changes { li { (saving.message) } } }
                }
                @if !savings.complete { p { (words.not_all_tried) } }
                @if !savings.one_hook_fewer.is_empty() {
                    h4 { (words.one_hook_fewer) }
                    ul { @for fewer in &savings.one_hook_fewer { li { (fewer.message) } } }
                }
            }
        }
    }
}
