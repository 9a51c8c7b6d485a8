//! Rails up the slope that follow one another on a rafter: which of their hooks may stand where.
//!
//! Segments on both sides of an expansion gap, and rails of fields that lie above each other, have their
//! hooks on one rafter. Each is searched by itself, so that beforehand so many of the courses nearest to where
//! they meet are left to one of them that no two feet can meet, whichever hooks are chosen: those that leave
//! both ends held, then those that leave the shorter free end. Where a foot fits between two courses this takes
//! nothing from either.

use crate::units::Length;

use super::Job;
use super::line::Over;
use super::places;
use super::rail_lines::RailLine;
use super::up_slope;

/// What the grid of courses may be off by in rounding.
const ROUNDING: Length = Length::from_mm(1e-6);

/// A segment with the places for hooks that are left to it.
struct Stretch {
    /// Rail and segment.
    of: [usize; 2],
    rafter: usize,
    ends: [Length; 2],
    places: Vec<Length>,
}

/// The stretch of every segment of every rail within which its hooks may stand, along the rail: all of a
/// segment that shares its rafter with no other.
pub(super) fn stretches(job: &Job, lines: &[RailLine]) -> Vec<Vec<[Length; 2]>> {
    let mut out: Vec<Vec<[Length; 2]>> = lines.iter().map(|line| line.segments.clone()).collect();
    let mut all: Vec<Stretch> = Vec::new();
    for (r, line) in lines.iter().enumerate() {
        let Over::Rafter(rafter) = line.over else { continue };
        for (s, ends) in line.segments.iter().enumerate() {
            let places = places::places(job, line, *ends).into_iter().map(|place| place.at);
            let places: Vec<Length> =
                places.filter(|at| ends[0] <= *at && *at <= ends[1]).collect();
            if !places.is_empty() {
                all.push(Stretch { of: [r, s], rafter, ends: *ends, places });
            }
        }
    }
    all.sort_by(|a, b| a.rafter.cmp(&b.rafter).then(a.ends[0].mm().total_cmp(&b.ends[0].mm())));
    let mut all = all.into_iter();
    let Some(mut lower) = all.next() else { return out };
    for mut upper in all {
        if lower.rafter == upper.rafter {
            let [top, first] = parted(job, &lower, &upper);
            out[lower.of[0]][lower.of[1]][1] = top;
            out[upper.of[0]][upper.of[1]][0] = first;
            upper.places.retain(|at| *at >= first);
            if upper.places.is_empty() {
                // The next one meets what stands below.
                lower.places.retain(|at| *at <= top);
                continue;
            }
        }
        lower = upper;
    }
    out
}

/// Up to where hooks of a segment may stand, and from where on those of the next one above it.
fn parted(job: &Job, lower: &Stretch, upper: &Stretch) -> [Length; 2] {
    let (apart, limit) = (up_slope::least_apart(job) - ROUNDING, job.rail.max_cantilever);
    let mut best: Option<((usize, f64), [Length; 2])> = None;
    for top in lower.places.iter().rev() {
        let first = upper.places.iter().find(|at| **at - *top >= apart);
        let free =
            [lower.ends[1] - *top, first.map_or(upper.ends[1], |first| *first) - upper.ends[0]];
        let not_held = free.iter().filter(|free| **free > limit).count();
        let cost = (not_held, free[0].max(free[1]).mm());
        if best.is_none_or(|(known, _)| cost < known) {
            best = Some((cost, [*top, first.map_or(upper.ends[1] + apart, |first| *first)]));
        }
        if first == upper.places.first() {
            break;
        }
    }
    best.map_or([lower.ends[1], upper.ends[0]], |(_, parted)| parted)
}
