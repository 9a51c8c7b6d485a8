//! What figures of the parts rest on, as an answer shows it.

use crate::service::intake::Rests;
use crate::service::rounding::{factor, traced};
use crate::wire::evidence::{EvidenceAnswer, TestedAnswer};

/// One entry a figure, in the order of the request.
#[must_use]
pub fn evidence(rests: &[Rests]) -> Vec<EvidenceAnswer> {
    let entry = |rests: &Rests| EvidenceAnswer {
        part: rests.part,
        field: rests.field.clone(),
        figure: rests.figure,
        stated: rests.stated,
        by: rests.by,
        document: rests.document.clone(),
        tested: rests.tested.map(|(found, bears)| TestedAnswer {
            tests: found.tests as u64,
            mean: traced(found.mean),
            variation: factor(found.variation),
            fractile_factor: factor(found.factor),
            characteristic: traced(found.value),
            bears: traced(bears),
            clause: found.clause.to_string(),
        }),
    };
    rests.iter().map(entry).collect()
}
