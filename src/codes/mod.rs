//! What the standards say: a folder per family of codes; in it one file per document and edition, one
//! function per quantity.
//!
//! **Border.** Other rooms ask [`Rules`], a family with its annex, the questions of [`Code`], and
//! hear the answers in the words of [`vocabulary`]. No other room names a family, save where a
//! request chooses one, and none but a family's `annex` names a country.
//!
//! **Layer.** Knows no roof hook and no beam solver. Plain values in, plain values out; what a
//! country may choose arrives as an argument taken from its annex.

pub mod cited;
pub mod code;
pub mod eurocode;
pub mod ledger;
pub mod quantity;
pub mod rules;
pub mod tr12_2015;
pub mod vocabulary;

pub use code::{Code, RafterSection, Timber};
pub use rules::Rules;

/// A place in a standard: document, edition and clause.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clause {
    /// Document and edition, as printed on its cover.
    pub document: &'static str,
    /// Clause, equation or table.
    pub number: &'static str,
}

impl Clause {
    /// Names a clause.
    #[must_use]
    pub const fn new(document: &'static str, number: &'static str) -> Self {
        Self { document, number }
    }

    /// Passes when the clause covers the case at hand.
    ///
    /// # Errors
    /// [`NotCovered`] with `condition`, the rule's own limit of validity, when it does not.
    pub const fn covers(self, inside: bool, condition: &'static str) -> Result<(), NotCovered> {
        if inside { Ok(()) } else { Err(NotCovered { clause: self, condition }) }
    }
}

impl std::fmt::Display for Clause {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.document)?;
        f.write_str(" ")?;
        f.write_str(self.number)
    }
}

/// A rule is silent on this case: an answer, not an error of the caller.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("{clause} covers this only where {condition}")]
pub struct NotCovered {
    /// The rule that was asked.
    pub clause: Clause,
    /// Its limit of validity, in words or as an inequality.
    pub condition: &'static str,
}
