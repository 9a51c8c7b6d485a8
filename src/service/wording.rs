//! Results in a word or a figure, the same on the start page, on drawings and on the sheet.

use crate::assessment::{DeclaredBy as Ground, Scope};
use crate::language::headline::{ground, scope};
use crate::language::{Language, Words, module_on_paper, ordinal};
use crate::wire::declarations::DeclaredBy;
use crate::wire::remarks::Verdict;
use crate::wire::scopes::{ScopeVerdict, Verdicts};

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

/// Every scope in words, with the verdict on it; none where it was not asked.
#[must_use]
pub fn by_scope(verdicts: &Verdicts, language: Language) -> [(&'static str, Option<Verdict>); 6] {
    Scope::ALL.map(|of| {
        let on = match of {
            Scope::Fixing => verdicts.fixing,
            Scope::Rail => verdicts.rail,
            Scope::Modules => verdicts.modules,
            Scope::Rafters => verdicts.rafters,
            Scope::Covering => verdicts.covering,
            Scope::Data => verdicts.data,
        };
        let verdict = match on {
            ScopeVerdict::Holds => Some(Verdict::Holds),
            ScopeVerdict::HoldsWithWarnings => Some(Verdict::HoldsWithWarnings),
            ScopeVerdict::Fails => Some(Verdict::Fails),
            ScopeVerdict::Incomplete => Some(Verdict::Incomplete),
            ScopeVerdict::NotAssessed => None,
        };
        (scope(of, language), verdict)
    })
}

/// The scopes that were not asked, in words; none where all were.
#[must_use]
pub fn not_assessed(verdicts: &Verdicts, language: Language) -> Option<String> {
    let all = by_scope(verdicts, language);
    let without: Vec<&str> = all.iter().filter(|(_, on)| on.is_none()).map(|(of, _)| *of).collect();
    (!without.is_empty()).then(|| without.join(", "))
}

/// The ground of a declaration in words.
#[must_use]
pub const fn declared_by(by: DeclaredBy, language: Language) -> &'static str {
    let by = match by {
        DeclaredBy::Tested => Ground::Tested,
        DeclaredBy::Approved => Ground::Approved,
        DeclaredBy::OtherParty => Ground::OtherParty,
        DeclaredBy::NotApplicable => Ground::NotApplicable,
    };
    ground(by, language)
}

/// An element by its id in words.
#[must_use]
pub fn named(id: &str, words: &Words) -> String {
    let rafter = id.strip_prefix("rafter ").and_then(|index| index.parse().ok());
    rafter.map_or_else(|| module_on_paper(id), |index| element(&Element::Rafter(index), words))
}

/// An element in words.
#[must_use]
pub fn element(element: &Element, words: &Words) -> String {
    match element {
        Element::Named(id) => module_on_paper(id),
        Element::Rafter(rafter) => format!("{} {}", words.rafter, ordinal(*rafter)),
    }
}
