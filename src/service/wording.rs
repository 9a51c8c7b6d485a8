//! Results in a word or a figure, the same on the start page, on drawings and on the sheet.

use crate::language::Words;
use crate::model::remarks::Verdict;

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

/// A utilisation that is rounded already, in per cent with one decimal.
#[must_use]
pub fn percent(used: f64) -> String {
    format!("{:.1} %", (used * 1000.0 - 1e-6).ceil() / 10.0 + 0.0)
}
