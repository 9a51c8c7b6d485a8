//! The verdict: by scope, and in all.

use super::{Finding, Scope, Severity};

/// What an engineer may rely on. The worst is the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Every check ran and passed.
    Holds,
    /// The same, and there is something a person must act on.
    HoldsWithWarnings,
    /// Something that decides did not run, and nothing that ran fails.
    Incomplete,
    /// A check fails.
    Fails,
}

impl From<Severity> for Verdict {
    fn from(severity: Severity) -> Self {
        match severity {
            Severity::Failure => Self::Fails,
            Severity::Incomplete => Self::Incomplete,
            Severity::Warning => Self::HoldsWithWarnings,
            Severity::Notice => Self::Holds,
        }
    }
}

/// The verdict by scope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Verdicts([Verdict; Scope::ALL.len()]);

impl Verdicts {
    /// What findings leave of every scope.
    #[must_use]
    pub fn of(findings: &[Finding]) -> Self {
        Self(Scope::ALL.map(|scope| {
            let own = findings.iter().map(Finding::kind).filter(|k| k.scopes.contains(&scope));
            own.map(|kind| kind.severity.into()).max().unwrap_or(Verdict::Holds)
        }))
    }

    /// The verdict on one scope.
    #[must_use]
    pub const fn on(&self, scope: Scope) -> Verdict {
        self.0[scope as usize]
    }

    /// The worst of all scopes.
    #[must_use]
    pub fn whole(&self) -> Verdict {
        self.0.into_iter().max().unwrap_or(Verdict::Holds)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::{Fact, Place};

    #[test]
    fn a_scope_is_as_good_as_the_worst_of_it_and_the_whole_as_the_worst_scope() {
        let none = Verdicts::of(&[]);
        assert!(Scope::ALL.iter().all(|scope| none.on(*scope) == Verdict::Holds));
        let found = |fact| Finding { fact, place: Place::Whole };
        let findings = [
            found(Fact::BasisUnknown {}),
            found(Fact::RowWithoutTwoRails { field: "A".to_owned(), row: 0, rails: 1 }),
            found(Fact::SnowFromMemory {}),
        ];
        let verdicts = Verdicts::of(&findings);
        assert_eq!(verdicts.on(Scope::Data), Verdict::Incomplete);
        assert_eq!(verdicts.on(Scope::Modules), Verdict::Fails);
        assert_eq!(verdicts.on(Scope::Covering), Verdict::Holds);
        assert_eq!(verdicts.whole(), Verdict::Fails);
    }

    #[test]
    fn scopes_are_in_the_order_of_their_numbers() {
        for (i, scope) in Scope::ALL.into_iter().enumerate() {
            assert_eq!(scope as usize, i);
        }
    }
}
