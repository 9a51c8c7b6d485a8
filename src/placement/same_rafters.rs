//! Hooks on the same rafters on all rails of a field along the eaves, so that a crew strikes one line for each.
//!
//! A rafter of the set takes a hook on every rail of the field that lies over it. One that cannot take a hook on
//! one of these rails is no part of it. Rails of a field that share no rafter, as on both sides of an expansion
//! gap, are searched apart: what stands on one of them has no say on the other.

use std::collections::BTreeSet;

use crate::checks::segment::Segment;
use crate::effort::Allowance;

use super::Job;
use super::line::Over;
use super::places;
use super::rail_lines::RailLine;
use super::search::{self, Found, Limit, Outcome, Pattern};

/// Rafters that cannot take a hook under every rail of their field that lies over them, by field and rafter.
pub(super) fn not_in_common(job: &Job, lines: &[RailLine]) -> BTreeSet<[usize; 2]> {
    let mut out = BTreeSet::new();
    for line in lines.iter().filter(|line| matches!(line.over, Over::Course(_))) {
        for ends in &line.segments {
            let places = places::places(job, line, *ends);
            let with_place: BTreeSet<usize> = places.iter().map(|place| place.rafter).collect();
            let rafters = job.roof.rafters.positions.iter().enumerate();
            let beneath = rafters.filter(|(_, x)| ends[0] <= **x && **x <= ends[1]);
            let without = beneath.filter(|(rafter, _)| !with_place.contains(rafter));
            out.extend(without.map(|(rafter, _)| [line.field(), rafter]));
        }
    }
    out
}

/// What is found for every segment of every rail, with the same rafters on all rails of a field.
pub(super) fn found(
    job: &Job,
    lines: &[RailLine],
    segments: &[Vec<Segment>],
    allowance: &mut Allowance,
) -> Vec<Vec<Found>> {
    // Each by itself first: that bounds what they need together.
    let mut alone = alone(job, segments, allowance);
    let all = segments.iter().enumerate();
    let all = all.flat_map(|(r, of)| (0..of.len()).map(move |s| [r, s]));
    // What nothing holds by itself has all its hooks and binds the others to nothing.
    let holds = |[r, s]: &[usize; 2]| alone[*r][*s].outcome != Outcome::NonePasses;
    let together = sharing(lines, segments, all.filter(holds));
    let mut left = together.len() as u64;
    for group in together {
        let of_group: Vec<&Segment> = group.iter().map(|[r, s]| &segments[*r][*s]).collect();
        let by_itself: Vec<Found> = group.iter().map(|[r, s]| alone[*r][*s].clone()).collect();
        let mut part = allowance.part(left);
        left -= 1;
        let weighed = job.wishes.search_limit.saturating_mul(group.len() as u64);
        let limit = Limit { weighed, allowance: Some(&mut part) };
        let bound = job.wishes.max_utilisation;
        let found = search::fewest_in_common(&of_group, &by_itself, bound, limit);
        allowance.take_back(&part);
        for ([r, s], found) in group.into_iter().zip(found) {
            alone[r][s] = found;
        }
    }
    alone
}

/// What is found for every segment by itself. A half of what is allowed is left for the rest.
fn alone(job: &Job, segments: &[Vec<Segment>], allowance: &mut Allowance) -> Vec<Vec<Found>> {
    let mut half = allowance.part(2);
    let mut left: u64 = segments.iter().map(|of| of.len() as u64).sum();
    let mut held: Vec<(usize, Vec<usize>)> = Vec::new();
    let bound = job.wishes.max_utilisation;
    let mut one = |segment: &Segment| {
        let count = segment.candidates.len();
        let like = held.iter().rev().find(|(as_many, _)| *as_many == count);
        let like = like.map_or(&[][..], |(_, hooks)| hooks);
        let mut part = half.part(left);
        left -= 1;
        let limit = Limit { weighed: job.wishes.search_limit, allowance: Some(&mut part) };
        let found = search::fewest_hooks(segment, bound, Pattern::Free, limit, like);
        half.take_back(&part);
        if found.outcome.passes() {
            held.push((count, found.subset.clone()));
        }
        found
    };
    let found = segments.iter().map(|of| of.iter().map(&mut one).collect()).collect();
    allowance.take_back(&half);
    found
}

/// Segments of a field that are bound to each other by rafters they share.
fn sharing(
    lines: &[RailLine],
    segments: &[Vec<Segment>],
    all: impl Iterator<Item = [usize; 2]>,
) -> Vec<Vec<[usize; 2]>> {
    let mut groups: Vec<(usize, BTreeSet<usize>, Vec<[usize; 2]>)> = Vec::new();
    for [r, s] in all {
        let field = lines[r].field();
        let candidates = &segments[r][s].candidates;
        let mut rafters: BTreeSet<usize> = candidates.iter().map(|place| place.rafter).collect();
        let mut members = Vec::new();
        let (bound, others): (Vec<_>, Vec<_>) = groups
            .into_iter()
            .partition(|(of, theirs, _)| *of == field && !theirs.is_disjoint(&rafters));
        for (_, theirs, of) in bound {
            rafters.extend(theirs);
            members.extend(of);
        }
        members.push([r, s]);
        members.sort_unstable();
        groups = others;
        groups.push((field, rafters, members));
    }
    groups.into_iter().map(|(_, _, members)| members).collect()
}
