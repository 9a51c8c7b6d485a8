//! Where the bars of a rail meet, as the statics have them until the rails are cut.

use crate::units::Length;

use super::Job;

/// Where the bars of a segment meet: where it is known, there; else as few equal bars as the longest stock
/// length allows.
#[must_use]
pub fn splices(job: &Job, known: Option<&[Length]>, ends: [Length; 2]) -> Vec<Length> {
    if let Some(known) = known {
        return known.iter().copied().filter(|at| ends[0] < *at && *at < ends[1]).collect();
    }
    let length = ends[1] - ends[0];
    // A bar may be a hair longer than stock only by rounding.
    let bars = (length / job.rail.longest_stock - 1e-9).ceil().max(1.0);
    let mut at = Vec::new();
    let mut bar = 1.0;
    while bar < bars {
        at.push(ends[0] + length * bar / bars);
        bar += 1.0;
    }
    at
}
