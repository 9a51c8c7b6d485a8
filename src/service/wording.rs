//! Results in a word or a figure, the same on the start page, on drawings and on the sheet.

use crate::language::Words;
use crate::model::remarks::Verdict;

use super::answer::Element;

/// A verdict in words.
#[must_use]
pub const fn verdict(verdict: Verdict, words: &Words) -> &'static str {
    match verdict {
        Verdict::Holds => words.holds,
        Verdict::HoldsWithWarnings => words.holds_with_warnings,
        Verdict::Fails => words.fails,
        Verdict::Incomplete => words.incomplete,
    }
}

/// An element in words.
#[must_use]
pub fn element(element: &Element, words: &Words) -> String {
    match element {
        Element::Named(id) => id.clone(),
        Element::Rafter(rafter) => format!("{} {rafter}", words.rafter),
    }
}
