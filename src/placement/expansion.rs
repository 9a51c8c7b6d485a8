//! Expansion gaps: where a rail longer than its continuous length is cut.
//!
//! A cut lies in the middle of a gap between two modules. Of all ways to cut a run into parts no
//! longer than allowed, the one is taken whose ends most often have a rafter within reach of the
//! overhang; of those the one with the fewest parts; of those the most even one. Exact, by dynamic
//! programming over the gaps.

use crate::units::Length;

use super::array::Field;
use super::{Job, sideways};

/// Width of an expansion gap: 13 m of aluminium over 70 K move 21 mm (common practice: 20 to 50 mm).
pub const EXPANSION_GAP: Length = Length::from_mm(20.0);

/// How good a way to cut is; smaller is better, in this order.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
struct Cost {
    /// Ends no rafter can hold.
    free_ends: u32,
    /// Parts.
    parts: u32,
    /// Sum of squared lengths, mm²: smallest when the parts are even.
    unevenness: f64,
}

/// Parts of the rail over one run of modules, whose arms leave under these courses.
#[must_use]
pub fn segments(
    job: &Job,
    field: &Field,
    row: u32,
    columns: [u32; 2],
    courses: [i64; 2],
) -> Vec<[Length; 2]> {
    let edge =
        |column: u32, side: usize| Length::from_mm(field.place(&job.module, row, column).x[side]);
    let projection = job.rail.end_projection;
    let gap = EXPANSION_GAP.min(field.column_gap);
    // Right end of a part that stops, and left end of one that starts, at every place to cut; the
    // run's own ends are the first and the last of them.
    let mut stops = vec![edge(columns[0], 0) - projection];
    let mut starts = stops.clone();
    for column in columns[0]..columns[1] {
        let middle = (edge(column, 1) + edge(column + 1, 0)) / 2.0;
        stops.push(middle - gap / 2.0);
        starts.push(middle + gap / 2.0);
    }
    stops.push(edge(columns[1], 1) + projection);
    starts.push(edge(columns[1], 1) + projection);

    let limit = job.rail.max_continuous;
    let whole = [starts[0], stops[stops.len() - 1]];
    if whole[1] - whole[0] <= limit {
        return vec![whole];
    }
    let held_right: Vec<u32> = stops
        .iter()
        .map(|x| u32::from(!held(job, courses, [*x - reach(job), *x], whole)))
        .collect();
    let held_left: Vec<u32> = starts
        .iter()
        .map(|x| u32::from(!held(job, courses, [*x, *x + reach(job)], whole)))
        .collect();
    let mut best: Vec<Option<(Cost, usize)>> = vec![None; stops.len()];
    best[0] = Some((Cost { free_ends: 0, parts: 0, unevenness: 0.0 }, 0));
    for to in 1..stops.len() {
        for from in 0..to {
            let length = stops[to] - starts[from];
            let Some((before, _)) = best[from] else { continue };
            // A single module may be longer than the limit: it is not cut.
            if length > limit && to > from + 1 {
                continue;
            }
            let cost = Cost {
                free_ends: before.free_ends + held_left[from] + held_right[to],
                parts: before.parts + 1,
                unevenness: before.unevenness + length.mm().powi(2),
            };
            if best[to].is_none_or(|(known, _)| cost < known) {
                best[to] = Some((cost, from));
            }
        }
    }
    let mut parts = Vec::new();
    let mut to = stops.len() - 1;
    while let Some((_, from)) = best[to].filter(|_| to > 0) {
        parts.push([starts[from], stops[to]]);
        to = from;
    }
    parts.reverse();
    parts
}

fn reach(job: &Job) -> Length {
    job.rail.max_cantilever
}

/// Whether for both courses some rafter and its arm lie within a stretch of the rail.
fn held(job: &Job, courses: [i64; 2], stretch: [Length; 2], rail: [Length; 2]) -> bool {
    let within = |x: Length| stretch[0] <= x && x <= stretch[1];
    courses.iter().all(|course| {
        job.roof.rafters.open().any(|(_, x)| {
            within(x) && sideways::arm_position(job, *course, x, rail).is_some_and(within)
        })
    })
}
