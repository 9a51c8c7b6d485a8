//! Free ends longer than the rail allows, and what would cure them.

use crate::geometry::Rect;
use crate::roof::End;
use crate::units::Length;

use super::array::{self};
use super::laid::Rail;
use super::rail_axis::RailAxis;
use super::rail_lines::RailLine;
use super::{Job, places};

/// Moves are compared with this much slack, so that a move onto a limit meets it.
const SLACK: Length = Length::from_mm(1e-6);

/// A place on a rafter where a hook could stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct At {
    /// Number of the rafter.
    pub rafter: usize,
    /// Its axis.
    pub x: Length,
    /// Course the arm would leave under.
    pub course: i64,
    /// Height of the rail there.
    pub y: Length,
}

/// A free end that is too long.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LongEnd {
    /// Rail.
    pub rail: usize,
    /// Segment of it.
    pub segment: usize,
    /// Which end.
    pub end: End,
    /// First place inside, if any, as seen from this end.
    pub inside: Option<At>,
    /// From the end to the axis of its rafter, or to the hook where rails run up the slope.
    pub to_rafter: Option<Length>,
    /// From the end to where the arm of a hook on it would hold the rail.
    pub to_arm: Option<Length>,
    /// Nearest place beyond the end that could take a hook, if any.
    pub outside: Option<At>,
    /// How much longer the rail would have to be at this end to reach it.
    pub longer_by: Option<Length>,
}

/// Every free end that is too long.
#[must_use]
pub fn long_ends(job: &Job, rails: &[Rail]) -> Vec<LongEnd> {
    let mut found = Vec::new();
    for (r, rail) in rails.iter().enumerate() {
        for s in 0..rail.line.segments.len() {
            let long = long_ends_of(job, &rail.line, s).into_iter();
            let long = long.filter(|long| !is_held_by_kept(rail, long));
            found.extend(long.map(|long| LongEnd { rail: r, ..long }));
        }
    }
    found
}

/// Whether a hook that is there holds an end that no rafter as drawn can hold.
fn is_held_by_kept(rail: &Rail, long: &LongEnd) -> bool {
    let places = rail.segments.get(long.segment).map(|laid| &laid.segment.candidates);
    places.into_iter().flatten().filter(|place| place.stands).any(|place| match long.end {
        End::Left => place.may_be_first,
        End::Right => place.may_be_last,
    })
}

/// Free ends of one segment that no rafter can hold short enough. Their `rail` is left 0.
#[must_use]
pub fn long_ends_of(job: &Job, line: &RailLine, segment: usize) -> Vec<LongEnd> {
    let Some(ends) = line.segments.get(segment).copied() else { return Vec::new() };
    if line.is_upper() {
        // Lower rails hold it, see `assessment`.
        return Vec::new();
    }
    let places = places(job, line, ends);
    let mut found = Vec::new();
    for end in [End::Left, End::Right] {
        if held(job, &places, ends, end) {
            continue;
        }
        let within = |p: &&Place| p.inside(ends);
        let (inside, outside) = match end {
            End::Left => {
                (places.iter().find(within), places.iter().rev().find(|p| p.low() < ends[0]))
            }
            End::Right => {
                (places.iter().rev().find(within), places.iter().find(|p| p.high() > ends[1]))
            }
        };
        let from_end = |x: Length| match end {
            End::Left => x - ends[0],
            End::Right => ends[1] - x,
        };
        found.push(LongEnd {
            rail: 0,
            segment,
            end,
            inside: inside.map(|p| p.at),
            to_rafter: inside.map(|p| from_end(p.axis)),
            to_arm: inside.map(|p| from_end(p.arm)),
            outside: outside.map(|p| p.at),
            longer_by: outside.map(|p| match end {
                End::Left => ends[0] - p.low(),
                End::Right => p.high() - ends[1],
            }),
        });
    }
    found
}

/// Smallest move of a field along its rails (positive to the right, or up the slope) that leaves no free end of
/// them too long and all its modules on the roof and off the obstacles.
#[must_use]
pub fn smallest_shift(job: &Job, rails: &[Rail], field: usize) -> Option<Length> {
    let own: Vec<([Length; 2], Vec<Place>)> = rails
        .iter()
        .map(|r| &r.line)
        .filter(|line| line.field() == field)
        .flat_map(|line| line.segments.iter().map(|ends| (*ends, places(job, line, *ends))))
        .collect();
    let modules: Vec<Rect> = array::modules(&job.fields)
        .into_iter()
        .filter(|p| p.field == field)
        .map(|p| p.rect)
        .collect();
    let axis = job.rail_axis;
    let mut moves: Vec<Length> =
        own.iter().flat_map(|(ends, places)| moves(job, places, *ends)).collect();
    moves.extend(modules.iter().flat_map(|rect| past_obstacles(job, rect)));
    sort(&mut moves);
    moves.into_iter().find(|shift| {
        let cured = own.iter().all(|(ends, places)| {
            let moved = ends.map(|x| x + *shift);
            held(job, places, moved, End::Left) && held(job, places, moved, End::Right)
        });
        cured
            && modules.iter().all(|rect| {
                let [along, across] = axis.sides(rect);
                let rect = axis.rect(along.map(|x| x + shift.mm()), across);
                job.roof.outline.covers(&rect)
                    && !job.roof.obstacles.iter().any(|o| o.reaches(&rect))
            })
    })
}

/// Moves worth trying for a rail, smallest first: a best one brings some rafter just inside an end,
/// or just within the limit of it.
fn moves(job: &Job, places: &[Place], ends: [Length; 2]) -> Vec<Length> {
    let limit = job.rail.max_cantilever;
    let mut moves: Vec<Length> = places
        .iter()
        .flat_map(|place| {
            [
                place.low() - ends[0],
                place.high() - ends[0] - limit,
                place.high() - ends[1],
                place.low() - ends[1] + limit,
            ]
        })
        .collect();
    sort(&mut moves);
    moves
}

/// Moves that bring a module beside an obstacle's strip or onto an edge of the roof.
fn past_obstacles(job: &Job, module: &Rect) -> impl Iterator<Item = Length> {
    let along = |rect: &Rect| job.rail_axis.sides(rect)[0];
    let (roof, module) = (along(&job.roof.outline.bounds()), along(module));
    let strips = job.roof.obstacles.iter().map(|o| {
        let around = along(&o.outline.bounds());
        [around[0] - o.clearance.mm(), around[1] + o.clearance.mm()]
    });
    let beside = strips.flat_map(|strip| [strip[0] - module[1], strip[1] - module[0]]);
    let edges = [roof[0] - module[0], roof[1] - module[1]];
    beside.chain(edges).map(Length::from_mm).collect::<Vec<_>>().into_iter()
}

/// Smallest first, of equals the one to the left.
fn sort(moves: &mut [Length]) {
    moves.sort_by(|a, b| a.abs().mm().total_cmp(&b.abs().mm()).then(a.mm().total_cmp(&b.mm())));
}

/// A place where a hook could stand, along the rail.
#[derive(Debug, Clone, Copy)]
struct Place {
    at: At,
    /// Axis of the rafter, or the hook where rails run up the slope.
    axis: Length,
    arm: Length,
}

impl Place {
    fn low(&self) -> Length {
        self.axis.min(self.arm)
    }
    fn high(&self) -> Length {
        self.axis.max(self.arm)
    }
    fn inside(&self, ends: [Length; 2]) -> bool {
        ends[0] <= self.low() + SLACK && self.high() <= ends[1] + SLACK
    }
}

fn places(job: &Job, line: &RailLine, ends: [Length; 2]) -> Vec<Place> {
    let all = places::places(job, line, ends).into_iter();
    all.map(|place| {
        let places::Place { rafter, course, x, at, .. } = place;
        let axis = match line.axis() {
            RailAxis::AlongEaves => x,
            RailAxis::UpSlope => at,
        };
        Place { at: At { rafter, x, course, y: line.height_at(at) }, axis, arm: at }
    })
    .collect()
}

/// Whether some rafter can hold the rail close enough to an end.
fn held(job: &Job, places: &[Place], ends: [Length; 2], end: End) -> bool {
    let limit = job.rail.max_cantilever + SLACK;
    places.iter().filter(|p| p.inside(ends)).any(|p| match end {
        End::Left => p.high() - ends[0] <= limit,
        End::Right => ends[1] - p.low() <= limit,
    })
}
