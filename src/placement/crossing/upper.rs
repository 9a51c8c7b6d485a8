//! Upper rails: two under each row of modules, where their clamps are best.

use crate::checks::segment::Segment;
use crate::placement::footing::Footing;
use crate::placement::line::{Line, Over};
use crate::placement::rail_axis::RailAxis;
use crate::placement::rail_lines::{Position, RailLine};
use crate::placement::{Job, array, clamp_zones, expansion, segments};
use crate::units::Length;

/// A segment of an upper rail with what its modules put on it.
#[derive(Debug, Clone)]
pub(super) struct UpperSegment {
    /// Which of the upper rails of the field, and which of its segments.
    pub(super) of: [usize; 2],
    /// Left and right end.
    pub(super) ends: [Length; 2],
    /// Its height.
    pub(super) y: Length,
    /// Its loads and what it bears; it stands on nothing yet.
    pub(super) segment: Segment,
}

/// The upper rails of a field, without names.
pub(super) fn lines(job: &Job, field: usize) -> Vec<RailLine> {
    let axis = RailAxis::AlongEaves;
    let of = &job.fields[field];
    let zones = clamp_zones::zones_or_halves(of, axis);
    let quarters = clamp_zones::quarters(of, axis);
    let mut lines = Vec::new();
    for run in array::runs(&job.fields, axis).filter(|run| run.field == field) {
        let bottom = Length::from_mm(run.end(&job.fields, 0).y[0]);
        let pair = [0, 1].map(|i| {
            let [low, high] = zones[i];
            let across = bottom + quarters[i].max(low).min(high);
            Line { across, over: Over::Rails, on_grid: true, lowered: Length::ZERO }
        });
        let segments = expansion::segments(job, &run, &pair);
        for (position, [line, other]) in
            Position::pair(axis).into_iter().zip([[&pair[0], &pair[1]], [&pair[1], &pair[0]]])
        {
            lines.push(RailLine {
                id: String::new(),
                run,
                position,
                across: line.across,
                over: line.over,
                on_grid: line.on_grid,
                lowered: line.lowered,
                other: Some(other.across),
                runs_on: [Length::ZERO; 2],
                spliced_at: None,
                there: None,
                segments: segments.clone(),
            });
        }
    }
    lines
}

/// Every segment of these rails under its loads.
pub(super) fn segments(job: &Job, footings: &[Footing], lines: &[RailLine]) -> Vec<UpperSegment> {
    let of_lines = lines.iter().enumerate().flat_map(|(rail, line)| {
        line.segments.iter().enumerate().map(move |(place, ends)| UpperSegment {
            of: [rail, place],
            ends: *ends,
            y: line.across,
            segment: segments::segment(job, footings, line, *ends, Vec::new()),
        })
    });
    of_lines.collect()
}
