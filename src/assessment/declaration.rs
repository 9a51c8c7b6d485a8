//! What lifts what did not run: acts, and declarations by which somebody answers for a check.

use super::{Fact, Finding, Findings, Kind, Place, Severity};

/// What has to be done before a check can run, or is settled without it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Act {
    /// Measure or look at something on the roof, and say what is there.
    Measure,
    /// Ask the maker of a part for a figure, or take it from the part's approval.
    AskMaker,
    /// Ask a structural engineer for a figure he answers for.
    AskEngineer,
    /// Look up what holds on the site.
    LookUp,
    /// Change the job.
    Change,
    /// Have somebody answer for it, and declare that.
    Declare,
    /// Have it tested or approved, and declare that: nobody's word does for less.
    Prove,
}

impl Act {
    /// Every act.
    pub const ALL: [Self; 7] = [
        Self::Measure,
        Self::AskMaker,
        Self::AskEngineer,
        Self::LookUp,
        Self::Change,
        Self::Declare,
        Self::Prove,
    ];
}

/// On what ground somebody takes over a check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DeclaredBy {
    /// Tests were made.
    Tested,
    /// An approval covers it.
    Approved,
    /// Somebody else verifies it.
    OtherParty,
    /// It does not arise in this job.
    NotApplicable,
}

/// Somebody takes over a check that cannot run here.
#[derive(Debug, Clone)]
pub struct Declaration {
    /// What could not be verified.
    pub check: &'static Kind,
    /// On what ground.
    pub by: DeclaredBy,
    /// Who answers for it.
    pub who: String,
    /// The document in which he does.
    pub document: String,
}

/// A declaration, and what it took over.
#[derive(Debug, Clone)]
pub struct TakenOver {
    /// The declaration.
    pub declaration: Declaration,
    /// What did not run, once for each place.
    pub findings: Vec<Finding>,
}

/// Moves what is declared out of the findings, and adds which declarations met nothing. A failure
/// is no check that could not run: it stays, whatever is declared.
pub(super) fn take_over(found: &mut Findings, declarations: &[Declaration]) -> Vec<TakenOver> {
    let mut out = Vec::new();
    for declaration in declarations {
        let Declaration { check, by, .. } = declaration;
        let lifts = |finding: &Finding| {
            let kind = finding.kind();
            kind.code == check.code && kind.severity == Severity::Incomplete && kind.yields_to(*by)
        };
        let (findings, rest) = std::mem::take(&mut found.0).into_iter().partition(lifts);
        found.0 = rest;
        let taken = TakenOver { declaration: declaration.clone(), findings };
        if taken.findings.is_empty() {
            let check = check.code.to_owned();
            found.add(Place::Whole, Fact::DeclaredInVain { check, who: declaration.who.clone() });
        } else {
            out.push(taken);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::{CATALOGUE, samples};

    fn declared(check: &'static Kind, by: DeclaredBy) -> Vec<Declaration> {
        vec![Declaration { check, by, who: "A. Engineer".to_owned(), document: "S-1".to_owned() }]
    }

    fn found() -> Findings {
        let one = |fact| Finding { fact, place: Place::Whole };
        Findings(samples(true).into_iter().map(one).collect())
    }

    #[test]
    fn a_declaration_takes_over_what_it_names_and_nothing_else() {
        for kind in CATALOGUE {
            let mut found = found();
            let taken = take_over(&mut found, &declared(kind, DeclaredBy::Approved));
            let is_left = found.0.iter().any(|finding| finding.kind().code == kind.code);
            let told = found.0.iter().filter(|f| matches!(f.fact, Fact::DeclaredInVain { .. }));
            if kind.yields_to(DeclaredBy::Approved) {
                assert_eq!(kind.severity, Severity::Incomplete, "{}", kind.code);
                assert!(!is_left && taken.len() == 1 && told.count() == 1, "{}", kind.code);
            } else {
                assert!(is_left && taken.is_empty() && told.count() == 2, "{}", kind.code);
            }
        }
    }

    #[test]
    fn what_needs_evidence_takes_nobodys_word() {
        let basis = Kind::of_code("hook.resistance-basis-unknown").expect("a kind");
        for by in [DeclaredBy::OtherParty, DeclaredBy::NotApplicable] {
            assert!(take_over(&mut found(), &declared(basis, by)).is_empty(), "{by:?}");
        }
        assert_eq!(take_over(&mut found(), &declared(basis, DeclaredBy::Tested)).len(), 1);
    }
}
