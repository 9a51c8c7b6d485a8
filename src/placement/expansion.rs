//! Expansion gaps: where a rail longer than its continuous length is cut.
//!
//! A cut lies in the middle of a gap between two modules. Of all ways to cut a run into parts no
//! longer than allowed, the one is taken whose ends most often have a rafter within reach of the
//! overhang; of those the one with the fewest parts; of those the most even one. Exact, by dynamic
//! programming over the gaps.

use crate::units::Length;

use super::array::Run;
use super::line::{Line, Over};
use super::{Job, sideways, up_slope};

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

/// Parts of each of the two rails under a run of modules, which lie on these lines.
#[must_use]
pub(super) fn segments(job: &Job, run: &Run, lines: &[Line; 2]) -> Vec<[Length; 2]> {
    let field = &job.fields[run.field];
    let modules: Vec<[Length; 2]> = run
        .modules()
        .map(|[row, column]| {
            let [along, _] = run.axis.sides(&field.place(row, column));
            along.map(Length::from_mm)
        })
        .collect();
    let [Some(first), Some(last)] = [modules.first(), modules.last()] else { return Vec::new() };
    let projection = job.rail.end_projection;
    let [between, _] = run.axis.turned([field.column_gap, field.row_gap]);
    let gap = EXPANSION_GAP.min(between);
    // Right end of a part that stops, and left end of one that starts, at every place to cut; the
    // run's own ends are the first and the last of them.
    let mut stops = vec![first[0] - projection];
    let mut starts = stops.clone();
    for pair in modules.windows(2) {
        let middle = (pair[0][1] + pair[1][0]) / 2.0;
        stops.push(middle - gap / 2.0);
        starts.push(middle + gap / 2.0);
    }
    stops.push(last[1] + projection);
    starts.push(last[1] + projection);

    let limit = job.rail.max_continuous;
    let whole = [starts[0], stops[stops.len() - 1]];
    if whole[1] - whole[0] <= limit {
        return vec![whole];
    }
    let held_right: Vec<u32> =
        stops.iter().map(|x| u32::from(!held(job, lines, [*x - reach(job), *x], whole))).collect();
    let held_left: Vec<u32> =
        starts.iter().map(|x| u32::from(!held(job, lines, [*x, *x + reach(job)], whole))).collect();
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

/// Whether on both lines some hook and its arm would lie within a stretch of the rail.
fn held(job: &Job, lines: &[Line; 2], stretch: [Length; 2], rail: [Length; 2]) -> bool {
    let within = |x: Length| stretch[0] <= x && x <= stretch[1];
    lines.iter().all(|line| match line.over {
        Over::Course(course) => job.roof.rafters.open().any(|(_, x)| {
            within(x) && sideways::arm_position(job, course, x, rail).is_some_and(within)
        }),
        Over::Rafter(_) => up_slope::is_held(job, line, stretch),
        Over::Rails => job.roof.rafters.open().any(|(_, x)| within(x)),
    })
}
