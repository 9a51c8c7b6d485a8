//! Rails that run up the slope: over which rafters they lie, and how near their hooks may stand.
//!
//! A rail is bolted to the sides of the uprights of its hooks, so that it lies as far beside their arms as its
//! axis is from theirs ([`Job::rail_aside`]), to the right where that is positive. The arms leave the covering as
//! far beside the axis of a rafter as the foot allows and, under tiles that let arms out in troughs, in a trough.
//! Of the places of a rail inside a clamp zone the one nearest an axis is taken, because a rail beside it loads
//! the foot more; of those equally near the one nearest the module's quarter point, of two of these the left one.

use crate::covering::courses;
use crate::covering::passage;
use crate::units::Length;

use super::array::Run;
use super::line::{self, Line, Over};
use super::{Job, clamp_zones, sideways};

/// The two lines of a column of modules, left and right. Rafters that are taken by the rails of a column beside
/// it are not for them: feet of both would meet. A line that is given stays.
pub(super) fn pair_of(
    job: &Job,
    run: &Run,
    given: [Option<Line>; 2],
    is_taken: impl Fn(usize) -> bool,
) -> [Line; 2] {
    let field = &job.fields[run.field];
    let left = Length::from_mm(run.end(&job.fields, 0).x[0]);
    let zones = clamp_zones::zones_or_halves(field, job.rail_axis);
    let quarters = clamp_zones::quarters(field, job.rail_axis);
    let stays = given.iter().flatten().map(|line| line.over);
    let taken: Vec<usize> = stays.filter_map(Over::rafter).collect();
    let is_taken = |rafter: usize| taken.contains(&rafter) || is_taken(rafter);
    let drawn = |i: usize| {
        let zone = zones[i].map(|edge| left + edge);
        let (across, rafter) = nearest_line(job, zone, left + quarters[i], is_taken)?;
        Some(over(job, rafter, across))
    };
    let lines = [0, 1].map(|i| given[i].or_else(|| drawn(i)));
    match lines {
        [Some(lower), Some(upper)] if lower.across < upper.across && lower.over != upper.over => {
            [lower, upper]
        }
        // No rafter will do: the quarter points, so that the rest can still be looked at.
        _ => [0, 1].map(|i| {
            let across = left + quarters[i];
            let off = |x: Length| (x - across).abs().mm();
            let all = job.roof.rafters.positions.iter().copied().enumerate();
            let nearest = all.min_by(|a, b| off(a.1).total_cmp(&off(b.1)));
            let over = Over::Rafter(nearest.map_or(0, |(rafter, _)| rafter));
            given[i].unwrap_or(Line { across, over, on_grid: false, lowered: Length::ZERO })
        }),
    }
}

/// A line over a rafter, its hooks set as a layout sets them.
fn over(job: &Job, rafter: usize, across: Length) -> Line {
    Line { across, over: Over::Rafter(rafter), on_grid: true, lowered: lowered(job) }
}

/// The lines of a rail that may lie over a rafter wherever arms on it can leave, the one nearest to its axis first.
#[must_use]
pub(super) fn lines_over(job: &Job, rafter: usize, axis: Length) -> Vec<Line> {
    let (range, aside) = (job.hook.foot.lateral_range, job.rail_aside());
    let arms = exits_between(job, [axis - range, axis + range], axis - aside).into_iter();
    let mut places: Vec<Length> = arms.map(|arm| arm + aside).collect();
    let off = |across: &Length| (*across - axis).abs().mm().round();
    places.sort_by(|a, b| off(a).total_cmp(&off(b)));
    places.into_iter().map(|across| over(job, rafter, across)).collect()
}

/// The line of a rail that stands, whose hooks stand on a rafter: over it where arms on that can leave under
/// the rail.
#[must_use]
pub fn standing_over(job: &Job, rafter: usize, across: Length) -> Line {
    let axis = job.roof.rafters.positions[rafter];
    let within = job.hook.foot.lateral_range + line::OFF_LINE;
    let arm_x = across - job.rail_aside();
    let on_grid = (arm_x - axis).abs() <= within && nearest_exit(job, arm_x) <= line::OFF_LINE;
    Line { on_grid, ..over(job, rafter, across) }
}

/// How much lower than the hook is made for the arms of hooks that are added leave their courses.
#[must_use]
pub fn lowered(job: &Job) -> Length {
    line::lowered(job, passage::EXIT_EXTRA)
}

/// The best place in a zone where arms on a rafter can leave, and that rafter.
fn nearest_line(
    job: &Job,
    zone: [Length; 2],
    aim: Length,
    is_taken: impl Fn(usize) -> bool,
) -> Option<(Length, usize)> {
    let (range, aside) = (job.hook.foot.lateral_range, job.rail_aside());
    // Distances that differ by less are one.
    let rank = |(at, axis): (Length, Length)| {
        let [beside, off] = [at - axis, at - aim].map(|by| by.abs().mm().round());
        (beside, off)
    };
    let mut best: Option<(Length, usize, (f64, f64))> = None;
    for (rafter, axis) in job.roof.rafters.open() {
        let of_arms = zone.map(|edge| edge - aside);
        let [low, high] = [of_arms[0].max(axis - range), of_arms[1].min(axis + range)];
        if low > high || is_taken(rafter) {
            continue;
        }
        for at in exits_between(job, [low, high], axis - aside).into_iter().map(|arm| arm + aside) {
            let rank = rank((at, axis));
            if best.is_none_or(|(_, _, known)| rank < known) {
                best = Some((at, rafter, rank));
            }
        }
    }
    best.map(|(at, rafter, _)| (at, rafter))
}

/// Where arms can leave the courses between two places, near the one aimed at: as near as may be, or in the
/// troughs of one course and the next, which repeat from there on.
fn exits_between(job: &Job, [low, high]: [Length; 2], aim: Length) -> Vec<Length> {
    if job.covering.troughs.is_empty() {
        return vec![aim.max(low).min(high)];
    }
    let mut exits: Vec<Length> = [0, 1]
        .iter()
        .flat_map(|course| courses::troughs_around(&job.covering, *course, aim))
        .filter(|at| low - sideways::ROUNDING <= *at && *at <= high + sideways::ROUNDING)
        .collect();
    exits.sort_by(|a, b| a.mm().total_cmp(&b.mm()));
    exits.dedup();
    exits
}

/// Least distance between hooks on one rafter: that feet stand clear of each other between battens, so many
/// whole courses that a foot and the batten above it fit.
#[must_use]
pub fn least_apart(job: &Job) -> Length {
    let gauge = job.covering.gauge;
    let courses = (job.hook.foot.length / gauge - 1e-9).ceil().max(1.0);
    gauge * courses
}

/// Whether two hooks on one rafter stand so far apart.
#[must_use]
pub fn are_apart(job: &Job, [one, other]: [Length; 2]) -> bool {
    /// What the grid of courses may be off by in rounding.
    const ROUNDING: Length = Length::from_mm(1e-6);
    (one - other).abs() >= least_apart(job) - ROUNDING
}

/// Least clear distance between feet on one rafter.
pub(super) fn clear_between_feet(job: &Job) -> Length {
    (least_apart(job) - job.hook.foot.length).max(Length::ZERO)
}

/// Whether some course lets an arm out over a rail within a stretch of it.
pub(super) fn is_held(job: &Job, line: &Line, stretch: [Length; 2]) -> bool {
    let beyond = job.hook.bolt_beyond_exit + line.lowered;
    let [low, high] = stretch.map(|y| y + beyond);
    let mut between = courses::courses_between(&job.covering, low, high);
    between.any(|course| leaves_at(job, course, line.across - job.rail_aside()))
}

/// Whether an arm can leave a course in this place: in the nearest trough, which the arms of a rail that stands
/// may stand a little beside.
#[must_use]
pub fn leaves_at(job: &Job, course: i64, arm_x: Length) -> bool {
    let nearest = nearest_exit(job, arm_x);
    nearest <= line::OFF_LINE && beside_exit(job, course, arm_x) <= nearest + sideways::ROUNDING
}

/// How far a place lies beside the nearest one where an arm can leave a course.
#[must_use]
pub fn beside_exit(job: &Job, course: i64, arm_x: Length) -> Length {
    let near = courses::troughs_around(&job.covering, course, arm_x).into_iter();
    let off = near.map(|trough| (trough - arm_x).abs());
    off.reduce(Length::min).unwrap_or_default()
}

/// The same of whichever course comes nearest: they repeat from the second on.
fn nearest_exit(job: &Job, arm_x: Length) -> Length {
    beside_exit(job, 0, arm_x).min(beside_exit(job, 1, arm_x))
}
