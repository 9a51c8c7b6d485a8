//! How what the request says is known, and the weakest of it.

use super::{Fact, Findings, Place};

/// How a value is known; the weakest is the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Provenance {
    /// Measured or seen.
    Measured,
    /// Worked out of something else.
    Inferred,
    /// Taken for granted.
    Assumed,
}

/// The weakest provenance among the values that are marked, and the pointers to all that are known no
/// better.
#[must_use]
pub fn weakest(marked: &[(String, Provenance)]) -> Option<(Provenance, Vec<String>)> {
    let weakest = marked.iter().map(|(_, provenance)| *provenance).max()?;
    Some((weakest, known_by(marked, weakest)))
}

fn known_by(marked: &[(String, Provenance)], provenance: Provenance) -> Vec<String> {
    let of = marked.iter().filter(|(_, known)| *known == provenance);
    of.map(|(pointer, _)| pointer.clone()).collect()
}

/// Values that nobody has measured.
pub(super) fn provenance(marked: &[(String, Provenance)], out: &mut Findings) {
    let values = known_by(marked, Provenance::Assumed);
    if !values.is_empty() {
        out.add(Place::Whole, Fact::ValuesAssumed { values });
    }
    let values = known_by(marked, Provenance::Inferred);
    if !values.is_empty() {
        out.add(Place::Whole, Fact::ValuesInferred { values });
    }
}
