//! A job as built: which modules a rail carries, which hooks hold it, and every check of both.
//!
//! Nothing is searched. A rail carries the run of modules over it; the two rails of a run share
//! its load by the lever rule from where they really lie. A hook is a support where it stands on a
//! rafter, under its rail and beside, not on, the hook to its left; one that is none of that
//! carries nothing, and the rest is checked without it.

use std::collections::HashMap;

use crate::covering::courses;
use crate::roof::End;
use crate::units::Length;

use super::array::{self, Field, Run};
use super::candidates;
use super::clamp_zones;
use super::expansion;
use super::footing::{self, Footing, FoundFooting, UnderRails};
use super::laid::{LaidSegment, Layout, Rail};
use super::line::{Line, Over};
use super::places::Place;
use super::rail_lines::{Position, RailLine};
use super::search::Found;
use super::segments;
use super::splices;
use super::{Job, modules, rafters, running_on, sideways};

/// How far a hook may stand from the rafter it belongs to before it counts as missing it: what
/// marking out and measuring may differ by (common practice, no source).
pub const OFF_RAFTER: Length = Length::from_mm(25.0);

/// How far a rail may lie from the line its arms would leave at and still count as on it: about
/// what a slotted arm and uneven battens take up (common practice, no source).
pub const OFF_COURSE: Length = Length::from_mm(10.0);

/// A rail as built.
#[derive(Debug, Clone)]
pub struct BuiltRail {
    /// Name.
    pub id: String,
    /// Height of its line.
    pub y: Length,
    /// Left and right end, where known.
    pub ends: [Option<Length>; 2],
    /// Where its bars meet, where known.
    pub splices: Option<Vec<Length>>,
}

/// A hook as built.
#[derive(Debug, Clone)]
pub struct BuiltHook {
    /// Name.
    pub id: String,
    /// Its rail, by place.
    pub rail: usize,
    /// Axis of the rafter under it.
    pub x: Length,
    /// Where its arm stands, if that is known.
    pub arm_x: Option<Length>,
    /// That axis was measured at the hook: it is a rafter, wherever the drawing has it.
    pub measured: bool,
    /// How its foot is set, by place among the footings.
    pub footing: usize,
}

/// What was built.
#[derive(Debug, Clone, Default)]
pub struct Built {
    /// Rails.
    pub rails: Vec<BuiltRail>,
    /// Hooks.
    pub hooks: Vec<BuiltHook>,
    /// Ways the feet were found set.
    pub ways: Vec<FoundFooting>,
    /// What each of them comes to, in the same order.
    pub footings: Vec<Footing>,
}

impl Built {
    /// Least clear distance along a rafter between the feet of hooks on its rails.
    #[must_use]
    pub fn clear(&self, job: &Job) -> Length {
        let rails: Vec<(Length, [Option<Length>; 2])> =
            self.rails.iter().map(|rail| (rail.y, rail.ends)).collect();
        footing::clear_along_rafters(&job.hook.foot, &rails)
    }

    /// The hooks of every rail, by place.
    pub(super) fn by_rail(&self) -> Vec<Vec<usize>> {
        let mut own = vec![Vec::new(); self.rails.len()];
        for (h, hook) in self.hooks.iter().enumerate() {
            own[hook.rail].push(h);
        }
        own
    }

    /// What its rails decide of a foot under any of them: the bolt as far beyond the tail edge as that of
    /// any.
    fn under_any(&self, job: &Job) -> UnderRails {
        let beyond = self.rails.iter().map(|rail| bolt_beyond_exit(job, rail.y));
        UnderRails {
            clear: self.clear(job),
            bolt_beyond_exit: beyond.reduce(Length::max).unwrap_or(job.hook.bolt_beyond_exit),
        }
    }

    /// How the foot of a hook is set that is added to these: packed as the lowest of them that is no lower
    /// than a new one needs, and what it comes to.
    #[must_use]
    pub fn added(&self, job: &Job) -> (FoundFooting, Footing) {
        self.added_under(job, self.under_any(job))
    }

    /// The same under rails of which others decide as well.
    #[must_use]
    pub(super) fn added_under(&self, job: &Job, rails: UnderRails) -> (FoundFooting, Footing) {
        let drawn = FoundFooting::drawn(job, rails);
        let packed = |way: &FoundFooting| way.packers.iter().copied().sum::<Length>().mm();
        let stand = self.hooks.iter().map(|hook| &self.ways[hook.footing]);
        let high = stand.filter(|way| packed(way) >= packed(&drawn));
        match high.min_by(|a, b| packed(a).total_cmp(&packed(b))) {
            Some(way) => {
                let footing = Footing::stacked(job, way.packers.clone(), rails);
                (FoundFooting { packers: way.packers.clone(), ..drawn }, footing)
            }
            None => (drawn, Footing::of(job, rails)),
        }
    }

    /// How many of some hooks, by place, stand under the modules of a run.
    pub(super) fn hooks_under(&self, job: &Job, run: Run, hooks: &[usize]) -> usize {
        let [left, right] = edges(job, run);
        let projection = job.rail.end_projection;
        let under = |x: Length| left - projection <= x && x <= right + projection;
        hooks.iter().filter(|hook| under(self.hooks[**hook].x)).count()
    }

    /// The same with the feet of some hooks, by place, set in another way.
    #[must_use]
    pub fn with_feet(&self, job: &Job, feet: &[(usize, FoundFooting)]) -> Self {
        let mut with = self.clone();
        for (hook, way) in feet {
            with.hooks[*hook].footing = with.footings.len();
            with.footings.push(Footing::found(job, way));
            with.ways.push(way.clone());
        }
        with
    }
}

/// Why a rail cannot be computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Unplaced {
    /// Nothing lies over it.
    #[error("No row of modules lies over this height: the rail carries nothing")]
    NoModules,
    /// It ends under the modules.
    #[error("The rail ends before the modules over it do: it must reach both side frames of each")]
    TooShort,
    /// The run has two rails already.
    #[error("Three rails under one run of modules are not computed")]
    Third,
    /// It lies where the other rail of the run does.
    #[error("The rail lies on the other rail of the same modules")]
    OnAnother,
}

/// Why a hook carries nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Idle {
    /// No rafter is near.
    MissesRafter,
    /// Its rail does not reach it.
    BeyondRail,
    /// It stands where another hook of the rail stands.
    OnAnother,
}

/// A built job with all its checks.
#[derive(Debug, Clone)]
pub struct Checked {
    /// Rails, hooks, modules and rafters with their checks.
    pub layout: Layout,
    /// Hooks that carry nothing, by place, in the order of the request.
    pub idle: Vec<(usize, Idle)>,
}

/// Finds the modules over every rail.
///
/// # Errors
/// Every rail that cannot be computed, by place.
pub fn lines(job: &Job, built: &Built) -> Result<Vec<RailLine>, Vec<(usize, Unplaced)>> {
    let mut faults = Vec::new();
    let mut over: Vec<Run> = Vec::with_capacity(built.rails.len());
    let runs: Vec<Run> = array::runs(&job.fields, job.rail_axis).collect();
    for (rail, own) in built.rails.iter().zip(built.by_rail()) {
        match run_over(job, built, &runs, rail, &own) {
            Ok(run) => over.push(run),
            Err(unplaced) => faults.push((over.len() + faults.len(), unplaced)),
        }
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut lines = Vec::with_capacity(over.len());
    let mut along: HashMap<Run, Vec<usize>> = HashMap::new();
    for (r, run) in over.iter().enumerate() {
        along.entry(*run).or_default().push(r);
    }
    for (r, (rail, run)) in built.rails.iter().zip(&over).enumerate() {
        let others: Vec<usize> = along[run].iter().copied().filter(|o| *o != r).collect();
        let other = match others.as_slice() {
            [] => None,
            [other] => Some(built.rails[*other].y),
            // Said once, of the last of them.
            [.., last] if *last < r => {
                faults.push((r, Unplaced::Third));
                continue;
            }
            _ => continue,
        };
        if other.is_some_and(|y| (y - rail.y).abs() < job.rail.depth) {
            faults.push((r, Unplaced::OnAnother));
            continue;
        }
        lines.push(line(job, rail, *run, other));
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    // An end that is not given is where a layout would have it.
    running_on::run_on(job, &mut lines, |rail, end| {
        built.rails[rail].ends[usize::from(end == End::Right)].is_none()
    });
    Ok(lines)
}

/// Names of the rows of which some run has not two rails: field, row, and how many it has.
#[must_use]
pub fn rows_without_two_rails(job: &Job, lines: &[RailLine]) -> Vec<(usize, u32, usize)> {
    let mut out: Vec<(usize, u32, usize)> = Vec::new();
    for run in array::runs(&job.fields, job.rail_axis) {
        let rails = lines.iter().filter(|line| line.run == run).count();
        if rails < 2 && !out.iter().any(|(f, r, _)| (*f, *r) == (run.field, run.lane)) {
            out.push((run.field, run.lane, rails));
        }
    }
    out
}

/// Of the runs over a rail, the one that its ends and most of its hooks belong to.
fn run_over(
    job: &Job,
    built: &Built,
    runs: &[Run],
    rail: &BuiltRail,
    own: &[usize],
) -> Result<Run, Unplaced> {
    let over: Vec<Run> = runs.iter().copied().filter(|run| lies_over(job, *run, rail.y)).collect();
    let reached: Vec<Run> = over
        .iter()
        .copied()
        .filter(|run| {
            let [left, right] = edges(job, *run);
            rail.ends[0].is_none_or(|start| start <= left)
                && rail.ends[1].is_none_or(|end| right <= end)
        })
        .collect();
    let hooks = |run: &Run| built.hooks_under(job, *run, own);
    let best = reached.into_iter().reduce(|a, b| if hooks(&b) > hooks(&a) { b } else { a });
    best.ok_or(if over.is_empty() { Unplaced::NoModules } else { Unplaced::TooShort })
}

/// Whether the modules of a run lie over a height.
pub(super) fn lies_over(job: &Job, run: Run, y: Length) -> bool {
    let rect = run.end(&job.fields, 0);
    rect.y[0] <= y.mm() && y.mm() <= rect.y[1]
}

/// Outer edges of a run.
pub(super) fn edges(job: &Job, run: Run) -> [Length; 2] {
    [0, 1].map(|side| Length::from_mm(run.end(&job.fields, side).x[side]))
}

/// Which rail of a run the only one at this height is.
pub(super) fn position_alone(job: &Job, run: Run, y: Length) -> Position {
    let field = &job.fields[run.field];
    let bottom = Length::from_mm(run.end(&job.fields, 0).y[0]);
    let middle = bottom + field.module_size()[1] / 2.0;
    if y < middle { Position::Lower } else { Position::Upper }
}

fn line(job: &Job, rail: &BuiltRail, run: Run, other: Option<Length>) -> RailLine {
    let position = match other {
        Some(other) if rail.y < other => Position::Lower,
        Some(_) => Position::Upper,
        None => position_alone(job, run, rail.y),
    };
    let (course, on_grid) = course_at(job, rail.y);
    let beside = other.map_or(course, |other| course_at(job, other).0);
    let both = if position == Position::Lower { [course, beside] } else { [beside, course] };
    let both = both.map(|course| Line {
        across: rail.y,
        over: Over::Course(course),
        on_grid,
        lowered: Length::ZERO,
    });
    let mut segments = expansion::segments(job, &run, &both);
    if let (Some(start), Some(first)) = (rail.ends[0], segments.first_mut()) {
        first[0] = start;
    }
    if let (Some(end), Some(last)) = (rail.ends[1], segments.last_mut()) {
        last[1] = end;
    }
    RailLine {
        id: rail.id.clone(),
        run,
        position,
        across: rail.y,
        over: Over::Course(course),
        on_grid,
        lowered: Length::ZERO,
        // That a single rail does not hold the modules is a finding.
        other,
        runs_on: [Length::ZERO; 2],
        spliced_at: rail.splices.clone(),
        there: None,
        segments,
    }
}

/// The course whose tail edge is nearest to where the arms of a rail at this height leave, and whether
/// they leave under it.
pub(super) fn course_at(job: &Job, y: Length) -> (i64, bool) {
    let exit = y + job.hook.bolt_beyond_exit;
    let course = courses::nearest_course(&job.covering, exit);
    let off = (courses::tail_edge(&job.covering, course) - exit).abs();
    (course, off <= OFF_COURSE + ROUNDING)
}

/// From the tail edge that the arms of a rail at this height leave under down the slope to its bolts; as
/// the hook is made where no tail edge is near.
#[must_use]
pub fn bolt_beyond_exit(job: &Job, y: Length) -> Length {
    match course_at(job, y) {
        (course, true) => courses::tail_edge(&job.covering, course) - y,
        (_, false) => job.hook.bolt_beyond_exit,
    }
}

/// What the last digit of a recorded height may be off by.
const ROUNDING: Length = Length::from_mm(0.5);

/// How far outside the module's clamp zone a rail lies; `None` where it lies inside, or where no
/// zone is known.
#[must_use]
pub fn outside_clamp_zone(job: &Job, line: &RailLine) -> Option<Length> {
    let field: &Field = &job.fields[line.field()];
    let zones = clamp_zones::clamp_zones(field, job.rail_axis)?;
    let zone = zones[line.position.place()];
    let [_, across] = line.axis().sides(&line.run.end(&job.fields, 0));
    let at = line.across - Length::from_mm(across[0]);
    let off = (zone[0] - at).max(at - zone[1]);
    (off > ROUNDING).then_some(off)
}

/// Checks a job as built, on the lines its rails were found to follow.
#[must_use]
pub fn check(job: &Job, built: &Built, lines: Vec<RailLine>) -> Checked {
    let mut idle = Vec::new();
    let rails: Vec<Rail> = lines
        .into_iter()
        .zip(built.by_rail())
        .map(|(line, mut own)| {
            own.sort_by(|a, b| built.hooks[*a].x.mm().total_cmp(&built.hooks[*b].x.mm()));
            self::rail(job, built, line, &own, &mut idle)
        })
        .collect();
    idle.sort_by_key(|(hook, _)| *hook);
    let modules = modules::on(job, &rails);
    let mut rafters = rafters::under(job, &built.footings, &rails, &modules);
    rafters::compare(job, &mut rafters);
    let layout = Layout { footings: built.footings.clone(), rails, modules, rafters };
    Checked { layout, idle }
}

fn rail(
    job: &Job,
    built: &Built,
    line: RailLine,
    own: &[usize],
    idle: &mut Vec<(usize, Idle)>,
) -> Rail {
    let mut names = Vec::with_capacity(own.len());
    let mut places = vec![Vec::new(); line.segments.len()];
    let mut last = None::<Length>;
    for index in own {
        let hook = &built.hooks[*index];
        let Some(rafter) = rafter_under(job, hook) else {
            idle.push((*index, Idle::MissesRafter));
            continue;
        };
        let under = |ends: &[Length; 2], x: Length| ends[0] <= x && x <= ends[1];
        let Some(s) = line.segments.iter().position(|ends| under(ends, hook.x)) else {
            idle.push((*index, Idle::BeyondRail));
            continue;
        };
        let ends = line.segments[s];
        // An arm that is there left the covering somewhere: where no trough is in reach, or it lies
        // beyond the rail, the axis is as good a place as any.
        let arm_x = hook
            .arm_x
            .or_else(|| sideways::arm_position(job, line.course()?, hook.x, ends))
            .filter(|arm_x| under(&ends, *arm_x))
            .unwrap_or(hook.x);
        if last.is_some_and(|last| arm_x - last < job.hook.arm_width) {
            idle.push((*index, Idle::OnAnother));
            continue;
        }
        last = Some(arm_x);
        let footing = (&built.footings[hook.footing], hook.footing);
        let place = Place::along_eaves(line.course().unwrap_or(0), rafter, [hook.x, arm_x]);
        places[s].push(candidates::candidate(job, footing, place, ends));
        names.push(hook.id.clone());
    }
    let segments = line
        .segments
        .iter()
        .zip(places)
        .map(|(ends, places)| {
            let found = Found::given(places.len());
            let mut segment = segments::segment(job, &built.footings, &line, *ends, places);
            let known = line.spliced_at.as_deref();
            if known.is_none() {
                // Where its stiff splices lie is not known.
                segment.limits.splice = None;
            }
            LaidSegment::checked(segment, found, splices::splices(job, known, *ends))
        })
        .collect();
    Rail { line, segments, hooks: names }
}

/// The rafter a hook stands on: the nearest, if it is near enough or was measured there.
#[must_use]
pub fn rafter_under(job: &Job, hook: &BuiltHook) -> Option<usize> {
    let (rafter, off) = nearest_rafter(job, hook.x)?;
    (hook.measured || off <= OFF_RAFTER).then_some(rafter)
}

/// The rafter nearest to a place, and how far it is.
#[must_use]
pub fn nearest_rafter(job: &Job, x: Length) -> Option<(usize, Length)> {
    let all = job.roof.rafters.positions.iter().map(|at| (*at - x).abs()).enumerate();
    all.reduce(|a, b| if b.1 < a.1 { b } else { a })
}
