//! Provenance: each function of a code returns what it found together with the steps that led there,
//! and the trace of an answer is made of these steps alone.

use super::Clause;
use super::quantity::Quantity;

/// Where a value comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// A clause.
    Clause(Clause),
    /// A clause, and which of its cases governs.
    Case(Clause, &'static str),
    /// The request.
    Given,
    /// Something that is no clause: geometry, statics, what a maker declares.
    Other(&'static str),
}

impl Source {
    /// A clause of a document.
    #[must_use]
    pub const fn clause(document: &'static str, number: &'static str) -> Self {
        Self::Clause(Clause::new(document, number))
    }

    /// The request where it states the value, the clause where it does not.
    #[must_use]
    pub const fn given_or(given: bool, clause: Clause) -> Self {
        if given { Self::Given } else { Self::Clause(clause) }
    }
}

impl std::fmt::Display for Source {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Clause(clause) => clause.fmt(f),
            Self::Case(clause, case) => {
                clause.fmt(f)?;
                f.write_str("; ")?;
                f.write_str(case)
            }
            Self::Given => f.write_str("given by the caller"),
            Self::Other(words) => f.write_str(words),
        }
    }
}

/// One value on the way to a result.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// What it is.
    pub quantity: Quantity,
    /// Its symbol in the document it comes from.
    pub symbol: &'static str,
    /// Its value, in [`Self::unit`].
    pub value: f64,
    /// Unit, empty for a pure number.
    pub unit: &'static str,
    /// Where it comes from.
    pub source: Source,
}

impl Step {
    /// A step: what, symbol, value with its unit, and where it comes from.
    #[must_use]
    pub const fn new(
        quantity: Quantity,
        symbol: &'static str,
        value: f64,
        unit: &'static str,
        source: Source,
    ) -> Self {
        Self { quantity, symbol, value, unit, source }
    }
}
