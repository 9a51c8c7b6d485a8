//! What the kinds of cases compute, one file per part of the crate.

mod countries;
mod covering;
mod crossing;
mod dowels;
mod drifts;
mod loads;
mod mechanics;
mod models;
mod snow;
mod steel;
mod timber;
mod wind;

use std::collections::BTreeMap;

use crate::case::Inputs;

/// Computed results by name.
pub type Values = BTreeMap<String, f64>;

/// Collects named results.
pub fn values<const N: usize>(named: [(&str, f64); N]) -> Values {
    named.into_iter().map(|(name, value)| (name.to_owned(), value)).collect()
}

/// Computes a case. Each file answers for its own kinds and passes on the others.
pub fn compute(kind: &str, inputs: &Inputs) -> Values {
    let parts = [
        snow::compute,
        drifts::compute,
        wind::compute,
        countries::compute,
        loads::compute,
        steel::compute,
        timber::compute,
        dowels::compute,
        mechanics::compute,
        models::compute,
        covering::compute,
        crossing::compute,
    ];
    parts
        .iter()
        .find_map(|part| part(kind, inputs))
        .unwrap_or_else(|| panic!("nobody computes the kind {kind}"))
}
