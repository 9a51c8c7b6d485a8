//! The verdict: by scope, and in all.

use super::{Finding, Kind, Scope, Severity, TakenOver};

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

/// The scopes a verdict is asked on. What holds the array to the roof is always asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Asked([bool; Scope::ALL.len()]);

impl Asked {
    /// These scopes, and those that are always asked.
    #[must_use]
    pub fn of(scopes: &[Scope]) -> Self {
        Self(Scope::ALL.map(|scope| scope.is_always_asked() || scopes.contains(&scope)))
    }

    /// Whether a scope is asked.
    #[must_use]
    pub const fn includes(self, scope: Scope) -> bool {
        self.0[scope as usize]
    }

    /// Whether one of the scopes a kind of finding matters to is asked.
    pub(super) fn concerns(self, kind: &Kind) -> bool {
        kind.scopes.iter().any(|scope| self.includes(*scope))
    }
}

impl Default for Asked {
    /// All of them.
    fn default() -> Self {
        Self::of(&Scope::ALL)
    }
}

/// The verdict by scope, on those that were asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Verdicts([Option<Verdict>; Scope::ALL.len()]);

impl Verdicts {
    /// What findings leave of every scope that was asked, where some of what did not run was taken
    /// over by declarations.
    #[must_use]
    pub(super) fn of(findings: &[Finding], taken_over: &[TakenOver], asked: Asked) -> Self {
        let found = findings.iter().map(|finding| (finding.kind(), finding.kind().severity.into()));
        let declared = taken_over.iter().map(|taken| {
            // Somebody else's word is no check of ours.
            (taken.declaration.check, Verdict::HoldsWithWarnings)
        });
        let all: Vec<(&Kind, Verdict)> = found.chain(declared).collect();
        Self(Scope::ALL.map(|scope| {
            let own = all.iter().filter(|(kind, _)| kind.scopes.contains(&scope));
            let worst = own.map(|(_, verdict)| *verdict).max().unwrap_or(Verdict::Holds);
            asked.includes(scope).then_some(worst)
        }))
    }

    /// On every scope the worst of several, of jobs that were asked the same.
    #[must_use]
    pub fn worst_of(all: impl IntoIterator<Item = Self>) -> Self {
        let none = Self([None; Scope::ALL.len()]);
        all.into_iter().fold(none, |worst, one| {
            Self(Scope::ALL.map(|scope| worst.on(scope).max(one.on(scope))))
        })
    }

    /// The verdict on one scope; none where it was not asked.
    #[must_use]
    pub const fn on(&self, scope: Scope) -> Option<Verdict> {
        self.0[scope as usize]
    }

    /// The worst of the scopes that were asked.
    #[must_use]
    pub fn whole(&self) -> Verdict {
        self.0.into_iter().flatten().max().unwrap_or(Verdict::Holds)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::{Declaration, DeclaredBy, Fact, Place};
    use crate::units::Length;

    #[test]
    fn a_scope_is_as_good_as_the_worst_of_it_and_the_whole_as_the_worst_scope() {
        let none = Verdicts::of(&[], &[], Asked::default());
        assert!(Scope::ALL.iter().all(|scope| none.on(*scope) == Some(Verdict::Holds)));
        let found = |fact| Finding { fact, place: Place::Whole };
        let findings = [
            found(Fact::BasisUnknown {}),
            found(Fact::RowWithoutTwoRails {
                field: "A".to_owned(),
                row: Some(0),
                column: None,
                rails: 1,
            }),
            found(Fact::SnowFromMemory {}),
        ];
        let verdicts = Verdicts::of(&findings, &[], Asked::default());
        assert_eq!(verdicts.on(Scope::Data), Some(Verdict::Incomplete));
        assert_eq!(verdicts.on(Scope::Modules), Some(Verdict::Fails));
        assert_eq!(verdicts.on(Scope::Covering), Some(Verdict::Holds));
        assert_eq!(verdicts.whole(), Verdict::Fails);
        let without_modules = Verdicts::of(&findings, &[], Asked::of(&[]));
        assert_eq!(without_modules.on(Scope::Modules), None);
        assert_eq!(without_modules.on(Scope::Data), Some(Verdict::Incomplete));
        assert_eq!(without_modules.whole(), Verdict::Incomplete);
    }

    #[test]
    fn several_are_on_every_scope_as_good_as_the_worst() {
        let found = |fact| [Finding { fact, place: Place::Whole }];
        let asked = Asked::of(&[Scope::Modules]);
        let unknown = Verdicts::of(&found(Fact::BasisUnknown {}), &[], asked);
        let rails = Fact::TooFewHooks { rail: "A1".to_owned(), hooks: 1 };
        let failing = Verdicts::of(&found(rails), &[], asked);
        let worst = Verdicts::worst_of([unknown, failing]);
        assert_eq!(worst.on(Scope::Data), Some(Verdict::Incomplete));
        assert_eq!(worst.on(Scope::Rail), Some(Verdict::Fails));
        assert_eq!(worst.on(Scope::Covering), Some(Verdict::Holds));
        assert_eq!(worst.on(Scope::Rafters), None);
        assert_eq!(worst.whole(), Verdict::Fails);
    }

    /// A declaration never makes a scope hold, and never hides what fails in it.
    #[test]
    fn what_is_declared_holds_with_warnings_at_best() {
        let stiffness = Fact::StiffnessUnknown {}.kind();
        let taken = [TakenOver {
            declaration: Declaration {
                check: stiffness,
                by: DeclaredBy::Tested,
                who: "A. Maker".to_owned(),
                document: "T-7".to_owned(),
            },
            findings: vec![Finding { fact: Fact::StiffnessUnknown {}, place: Place::Whole }],
        }];
        let verdicts = Verdicts::of(&[], &taken, Asked::default());
        assert_eq!(verdicts.on(Scope::Fixing), Some(Verdict::HoldsWithWarnings));
        assert_eq!(verdicts.on(Scope::Rail), Some(Verdict::Holds));
        let fails = Fact::ScrewTooShort {
            hooks: None,
            embedment: Length::ZERO,
            threaded: Length::ZERO,
            least: Length::ZERO,
            depth: None,
        };
        let fails = [Finding { fact: fails, place: Place::Whole }];
        let verdicts = Verdicts::of(&fails, &taken, Asked::default());
        assert_eq!(verdicts.on(Scope::Fixing), Some(Verdict::Fails));
    }

    #[test]
    fn scopes_are_in_the_order_of_their_numbers() {
        for (i, scope) in Scope::ALL.into_iter().enumerate() {
            assert_eq!(scope as usize, i);
        }
    }
}
