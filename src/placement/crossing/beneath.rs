//! Lower rails: over which rafters one may lie, under which upper rails, and where its hooks may stand.

use crate::checks::segment::Candidate;
use crate::geometry::Rect;
use crate::placement::array::Run;
use crate::placement::footing::Footing;
use crate::placement::laid::{Rail, hooks_of};
use crate::placement::line::Line;
use crate::placement::places;
use crate::placement::rail_axis::RailAxis;
use crate::placement::rail_lines::{Position, RailLine};
use crate::placement::{Job, candidates, up_slope};
use crate::units::Length;

use super::upper::UpperSegment;

/// A lower rail that may lie over a rafter, in as many parts as obstacles and its greatest length leave of it.
#[derive(Debug, Clone)]
pub(super) struct Beneath {
    /// Its line.
    pub(super) line: RailLine,
    /// Its parts, the lowest first.
    pub(super) parts: Vec<Part>,
}

/// One part of a lower rail.
#[derive(Debug, Clone)]
pub(super) struct Part {
    /// Lower and upper end.
    pub(super) ends: [Length; 2],
    /// The segments of upper rails that it bears, the lowest first.
    pub(super) over: Vec<usize>,
    /// Where hooks may stand.
    pub(super) candidates: Vec<Candidate>,
}

impl Beneath {
    /// Whether it bears a segment of an upper rail.
    pub(super) fn bears(&self, upper: usize) -> bool {
        self.parts.iter().any(|part| part.over.contains(&upper))
    }
}

/// A line that a lower rail of any field may lie on over each rafter, without ends.
#[must_use]
pub fn lines(job: &Job) -> Vec<RailLine> {
    let of_field =
        |field| rafters(job, field).into_iter().filter_map(|lines| lines.into_iter().next());
    (0..job.fields.len()).flat_map(of_field).collect()
}

/// The lines under one field, rafter by rafter: over every rafter that is not barred, wherever arms within reach of
/// its foot can leave, the one nearest to its axis first.
fn rafters(job: &Job, field: usize) -> Vec<Vec<RailLine>> {
    let [left, right] = job.fields[field].bounds().x.map(Length::from_mm);
    let range = job.hook.foot.lateral_range;
    let under = |(_, x): &(usize, Length)| left - range <= *x && *x <= right + range;
    let line = |of: Line| RailLine {
        id: String::new(),
        run: Run { field, axis: RailAxis::UpSlope, lane: 0, places: [0, 0] },
        position: Position::Beneath,
        across: of.across,
        over: of.over,
        on_grid: of.on_grid,
        lowered: of.lowered,
        other: None,
        runs_on: [Length::ZERO; 2],
        spliced_at: None,
        there: None,
        segments: Vec::new(),
    };
    let of_rafter =
        |(rafter, x)| up_slope::lines_over(job, rafter, x).into_iter().map(line).collect();
    job.roof.rafters.open().filter(under).map(of_rafter).collect()
}

/// Every lower rail that may lie under the upper ones of a field, from left to right, beside the rails of others: of
/// the places over a rafter the one under most upper rails, of those the one nearest to the axis of the rafter.
pub(super) fn under(
    job: &Job,
    footings: &[Footing],
    uppers: &[UpperSegment],
    (field, others): (usize, &[Rail]),
) -> Vec<Beneath> {
    let mut all: Vec<Beneath> = Vec::new();
    for lines in rafters(job, field) {
        let mut best: Option<(usize, Beneath)> = None;
        for line in lines {
            let parts = parts(job, footings, &line, (uppers, others));
            let borne = parts.iter().map(|part| part.over.len()).sum();
            if borne > best.as_ref().map_or(0, |(most, _)| *most) {
                let segments = parts.iter().map(|part| part.ends).collect();
                best = Some((borne, Beneath { line: RailLine { segments, ..line }, parts }));
            }
        }
        all.extend(best.map(|(_, beneath)| beneath));
    }
    all
}

/// The parts of a lower rail on a line that hooks can hold.
fn parts(
    job: &Job,
    footings: &[Footing],
    line: &RailLine,
    (uppers, others): (&[UpperSegment], &[Rail]),
) -> Vec<Part> {
    let part = |(ends, over): ([Length; 2], Vec<usize>)| {
        let crossings: Vec<Length> = over.iter().map(|upper| uppers[*upper].y).collect();
        let ends = run_on(job, line, ends, &crossings);
        let places = candidates::candidates(job, &footings[0], line, (ends, ends), |_| true);
        let mut places = beside(job, places, others);
        places.retain(|place| crossings.iter().all(|crossing| clears(job, place.at, *crossing)));
        let is_free = is_free(line, ends, job.rail.depth, others);
        let can_be = is_free && can_be_held(job, &places);
        can_be.then_some(Part { ends, over, candidates: places })
    };
    ends(job, line, uppers).into_iter().filter_map(part).collect()
}

/// Whether the upright of a hook stands beside an upper rail and not in its way. How far it rises above the lower
/// rail is not told, so that none is taken to end below the upper one: own judgement.
fn clears(job: &Job, hook: Length, upper: Length) -> bool {
    (hook - upper).abs() >= (job.rail.depth + job.hook.arm_width) / 2.0
}

/// How far a lower rail runs on beyond the axis of the last upper rail: both are as wide as they are deep.
fn beyond(job: &Job) -> Length {
    job.rail.end_projection.max(job.rail.depth)
}

/// Ends of the parts of a lower rail on this line, each with the upper rails it bears, the lowest first: as many
/// as lie one above the other without an obstacle between, no part longer than a rail may be.
fn ends(job: &Job, line: &RailLine, uppers: &[UpperSegment]) -> Vec<([Length; 2], Vec<usize>)> {
    let (half, beyond) = (job.rail.depth / 2.0, beyond(job));
    let is_clear = |stretch: [Length; 2]| is_clear(job, line, stretch);
    let mut over: Vec<usize> = (0..uppers.len())
        .filter(|upper| {
            let UpperSegment { ends: [left, right], y, .. } = uppers[*upper];
            left + half <= line.across
                && line.across <= right - half
                && is_clear([y - beyond, y + beyond])
        })
        .collect();
    over.sort_by(|a, b| uppers[*a].y.mm().total_cmp(&uppers[*b].y.mm()));
    let mut parts: Vec<([Length; 2], Vec<usize>)> = Vec::new();
    for upper in over {
        let y = uppers[upper].y;
        match parts.last_mut() {
            Some(([low, high], over))
                if y + beyond - *low <= job.rail.max_continuous
                    && is_clear([*high, y + beyond]) =>
            {
                *high = y + beyond;
                over.push(upper);
            }
            _ => parts.push(([y - beyond, y + beyond], vec![upper])),
        }
    }
    parts
}

/// Whether a stretch of a lower rail lies on the roof and off its obstacles.
fn is_clear(job: &Job, line: &RailLine, stretch: [Length; 2]) -> bool {
    let half = job.rail.depth / 2.0;
    let across = [line.across - half, line.across + half].map(Length::mm);
    let strip = Rect { x: across, y: stretch.map(Length::mm) };
    job.roof.outline.covers(&strip)
        && !job.roof.obstacles.iter().any(|obstacle| obstacle.outline.overlaps(&strip))
}

/// Rail beyond the outermost hook, so that its bolt holds; common practice, no source.
const BEYOND_HOOK: Length = Length::from_mm(50.0);

/// A part of a lower rail that runs on to the courses nearest to its outermost crossings, where these lie beyond its
/// ends and nothing is in the way: hooks there load the ones inside less.
fn run_on(job: &Job, line: &RailLine, ends: [Length; 2], crossings: &[Length]) -> [Length; 2] {
    let places = places::places(job, line, ends).into_iter().map(|place| place.at);
    let places: Vec<Length> =
        places.filter(|at| crossings.iter().all(|crossing| clears(job, *at, *crossing))).collect();
    let nearest = |crossing: Length| {
        let off = |at: &Length| (*at - crossing).abs().mm();
        places.iter().copied().min_by(|a, b| off(a).total_cmp(&off(b)))
    };
    let mut longer = ends;
    if let Some(at) = crossings.first().and_then(|lowest| nearest(*lowest)) {
        longer[0] = ends[0].min(at - BEYOND_HOOK);
    }
    if let Some(at) = crossings.last().and_then(|highest| nearest(*highest)) {
        longer[1] = ends[1].max(at + BEYOND_HOOK);
    }
    let [low, high] = longer;
    let fits = high - low <= job.rail.max_continuous && is_clear(job, line, longer);
    if fits { longer } else { ends }
}

/// Whether no lower rail of another field lies where a part is to lie.
fn is_free(line: &RailLine, ends: [Length; 2], depth: Length, others: &[Rail]) -> bool {
    !others.iter().map(|rail| &rail.line).any(|other| {
        other.is_beneath()
            && (other.across - line.across).abs() < depth
            && other.segments.iter().any(|of| of[0] < ends[1] && ends[0] < of[1])
    })
}

/// The places that hooks of other fields on the same rafter leave.
fn beside(job: &Job, places: Vec<Candidate>, others: &[Rail]) -> Vec<Candidate> {
    let standing: Vec<(usize, Length)> =
        hooks_of(others).map(|(_, hook)| (hook.rafter, hook.at)).collect();
    let has_room = |place: &Candidate| {
        standing.iter().all(|(rafter, at)| {
            *rafter != place.rafter || up_slope::are_apart(job, [*at, place.at])
        })
    };
    places.into_iter().filter(has_room).collect()
}

/// Whether two hooks can hold a part, its free ends short enough.
fn can_be_held(job: &Job, places: &[Candidate]) -> bool {
    let first = places.iter().find(|place| place.may_be_first);
    let last = places.iter().rev().find(|place| place.may_be_last);
    first.zip(last).is_some_and(|(first, last)| {
        first.at < last.at && up_slope::are_apart(job, [first.at, last.at])
    })
}

/// Height of the upper face of a lower rail above its bolts, which go through the middle of its side.
#[must_use]
pub(super) fn lever(job: &Job) -> Length {
    job.rail.depth / 2.0
}

impl Part {
    /// Its hooks when all places are taken that leave room for each other.
    pub(super) fn everything(&self, job: &Job) -> Vec<usize> {
        let mut taken: Vec<usize> = Vec::new();
        for (place, candidate) in self.candidates.iter().enumerate() {
            let last = taken.last().map(|last| self.candidates[*last].at);
            if last.is_none_or(|last| up_slope::are_apart(job, [last, candidate.at])) {
                taken.push(place);
            }
        }
        taken
    }
}
