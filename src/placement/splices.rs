//! Where the bars of a rail meet, as the statics have them until the rails are cut.

use crate::units::Length;

use super::Job;
use super::rail_lines::RailLine;

/// The same for every segment of a rail.
#[must_use]
pub fn splices_of(job: &Job, line: &RailLine) -> Vec<Vec<Length>> {
    let of = |ends: &[Length; 2]| splices(job, *ends).into_iter().map(Length::from_mm).collect();
    line.segments.iter().map(of).collect()
}

/// Where the bars of a segment meet: as few equal bars as the longest stock length allows, mm.
#[must_use]
pub fn splices(job: &Job, ends: [Length; 2]) -> Vec<f64> {
    let length = ends[1] - ends[0];
    // A bar may be a hair longer than stock only by rounding.
    let bars = (length / job.rail.longest_stock - 1e-9).ceil().max(1.0);
    let mut at = Vec::new();
    let mut bar = 1.0;
    while bar < bars {
        at.push(ends[0].mm() + length.mm() * bar / bars);
        bar += 1.0;
    }
    at
}
