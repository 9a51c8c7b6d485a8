//! What would lift the failing checks of a layout: changes worth a try, and whether one helps.
//!
//! Nothing here says that a change helps before the whole job was laid out and assessed with it. This
//! folder proposes the changes and compares what they come to; trying them takes the request, and so
//! is done above. A change keeps every figure a part is declared with, or takes one that is safe in its
//! place, so that no resistance is invented.

mod change;
mod cheaper;
mod proposals;

pub use change::{Change, Move};
pub use cheaper::cheaper;
pub use proposals::{Proposal, proposals};

use std::cmp::Ordering;

use crate::checks::most_used;
use crate::placement::laid::Layout;

use super::{Assessment, Fact, Kind, Scope, Severity, Utilisation, Verdict};

/// How a layout stands, as far as a remedy is judged by it.
#[derive(Debug, Clone)]
pub struct Standing {
    /// The verdict.
    pub verdict: Verdict,
    /// Codes of what fails, most serious first.
    pub failing: Vec<&'static str>,
    /// Codes of what did not run.
    pub incomplete: Vec<&'static str>,
    /// Codes of what a person must act on.
    pub warnings: Vec<&'static str>,
    /// Hooks.
    pub hooks: usize,
    /// Highest utilisation.
    pub used: Utilisation,
}

impl Standing {
    /// Of a layout, on the scopes that were asked.
    #[must_use]
    pub fn of(layout: &Layout, assessed: &Assessment) -> Self {
        let of = |severity: Severity| {
            let mut codes: Vec<&'static str> = Vec::new();
            let found = assessed.that_matter().filter(|found| found.kind().severity == severity);
            for finding in found.filter(|found| !follows(&found.fact, assessed)) {
                if !codes.contains(&finding.kind().code) {
                    codes.push(finding.kind().code);
                }
            }
            codes
        };
        Self {
            verdict: assessed.verdict(),
            failing: of(Severity::Failure),
            incomplete: of(Severity::Incomplete),
            warnings: of(Severity::Warning),
            hooks: layout.hooks().count(),
            used: Utilisation::new(
                most_used(layout.checks()).map_or(0.0, |(_, most)| most.utilisation),
            ),
        }
    }

    /// Whether a job that stands like this stands better than `before`: less of that fails, nothing
    /// fails that did not, and on the scopes it lifts a failure of, nothing is left open that was not.
    /// Elsewhere there may be something that had nothing to look at before, such as rafters that now
    /// carry hooks.
    #[must_use]
    pub fn helps(&self, before: &Self) -> bool {
        let within = |now: &[&str], then: &[&str]| now.iter().all(|code| then.contains(code));
        self.failing.len() < before.failing.len()
            && within(&self.failing, &before.failing)
            && !self.new_incomplete(before).iter().any(|code| {
                let lifted = before.failing.iter().filter(|code| !self.failing.contains(code));
                scopes(code).iter().any(|scope| lifted.clone().any(|of| scopes(of).contains(scope)))
            })
    }

    /// Codes of what did not run, and did or had nothing to look at `before`.
    #[must_use]
    pub fn new_incomplete(&self, before: &Self) -> Vec<&'static str> {
        let new = self.incomplete.iter().filter(|code| !before.incomplete.contains(code));
        new.copied().collect()
    }

    /// Whether nothing fails any more.
    #[must_use]
    pub fn is_cured(&self) -> bool {
        self.failing.is_empty()
    }
}

/// The scopes a code matters to.
fn scopes(code: &str) -> &'static [Scope] {
    Kind::of_code(code).map_or(&[], |kind| kind.scopes)
}

/// That no choice of hooks passes says nothing of its own where a check that is over its limit, or a
/// free end, is found as well.
fn follows(fact: &Fact, assessed: &Assessment) -> bool {
    let is_reason = |fact: &Fact| {
        let overall = matches!(fact, Fact::NoHookPattern { .. });
        !overall && (fact.utilisation().is_some() || matches!(fact, Fact::FreeEnd { .. }))
    };
    matches!(fact, Fact::NoHookPattern { .. })
        && assessed
            .that_matter()
            .any(|f| f.kind().severity == Severity::Failure && is_reason(&f.fact))
}

/// Changes that help, made together, and what they leave.
#[derive(Debug, Clone)]
pub struct Remedy {
    /// The changes, in the order in which they are made.
    pub changes: Vec<Change>,
    /// How the job stands with them.
    pub after: Standing,
}

impl Remedy {
    /// Which of two is better: the one that leaves less failing; then the one that takes no new parts,
    /// or fewer kinds of them; then the one with fewer changes; then the one with fewer hooks.
    #[must_use]
    pub fn compare(&self, other: &Self) -> Ordering {
        let key = |of: &Self| {
            let parts = of.changes.iter().filter(|change| change.takes_another_part()).count();
            (of.after.failing.len(), parts, of.changes.len(), of.after.hooks)
        };
        key(self).cmp(&key(other))
    }

    /// Whether it is of the same kinds of change.
    #[must_use]
    pub fn is_like(&self, other: &Self) -> bool {
        let alike = |(a, b): (&Change, &Change)| a.kind() == b.kind();
        self.changes.len() == other.changes.len()
            && self.changes.iter().zip(&other.changes).all(alike)
    }
}

/// Puts the best first and leaves one of each kind: of equals the one that was tried first.
#[must_use]
pub fn best_first(mut remedies: Vec<Remedy>) -> Vec<Remedy> {
    remedies.sort_by(Remedy::compare);
    let mut best: Vec<Remedy> = Vec::new();
    for remedy in remedies {
        if !best.iter().any(|better| better.is_like(&remedy)) {
            best.push(remedy);
        }
    }
    best
}
