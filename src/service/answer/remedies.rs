//! What was tried against failing checks, as the answer shows it.

use crate::assessment::remedies::{Change, Remedy, Standing};
use crate::language::{self, Reader};
use crate::service::remedies::Tried;
use crate::service::rounding;
use crate::wire::remedies::{Edit, LayoutRemedy, Remedies};

use super::findings;

/// Writes what helps, for a reader.
#[must_use]
pub fn remedies(tried: Tried, reader: Reader) -> Remedies {
    let Tried { before, times, complete, helping } = tried;
    let helping = helping.into_iter().map(|(helps, edits)| remedy(&helps, edits, &before, reader));
    Remedies { tried: times as u64, complete, helping: helping.collect() }
}

fn remedy(helps: &Remedy, edits: Vec<Edit>, before: &Standing, reader: Reader) -> LayoutRemedy {
    let Remedy { changes, after } = helps;
    let not_in = |these: &[&'static str], those: &[&'static str]| -> Vec<&'static str> {
        these.iter().copied().filter(|code| !those.contains(code)).collect()
    };
    LayoutRemedy {
        changes: changes.iter().map(Change::kind).collect(),
        message: language::remedies::remedy(helps, before, reader),
        edits,
        other_part: changes.iter().any(Change::takes_another_part),
        to_ask: changes.iter().flat_map(Change::to_ask).collect(),
        verdict: findings::verdict(after.verdict),
        hooks: [before.hooks as u64, after.hooks as u64],
        max_utilisation: [before, after].map(|of| rounding::utilisation(of.used.written())),
        lifts: not_in(&before.failing, &after.failing),
        still_failing: after.failing.clone(),
        new_incomplete: after.new_incomplete(before),
        new_warnings: not_in(&after.warnings, &before.warnings),
    }
}
