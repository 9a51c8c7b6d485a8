//! A job as built: which modules a rail carries, which hooks hold it, and every check of both.
//!
//! Nothing is searched. A rail carries the run of modules over it; the two rails of a run share
//! its load by the lever rule from where they really lie. A hook is a support where it stands on a
//! rafter that is not rotten, under its rail and beside, not on, the hook to its left; one that is none of that
//! carries nothing, and the rest is checked without it. Under rails up the slope a hook stands beside the one
//! below it on its rafter, whatever rail that holds, where their feet do not meet.

use std::collections::{BTreeMap, HashMap};

use crate::covering::courses;
use crate::roof::{End, Unsound};
use crate::units::Length;

use super::array::{self, Field, Run};
use super::candidates;
use super::clamp_zones;
use super::expansion;
use super::footing::{self, Footing, FoundFooting, UnderRails};
use super::laid::{LaidSegment, Layout, Rail};
use super::line::{Line, OFF_LINE, Over};
use super::places::Place;
use super::rail_axis::RailAxis;
use super::rail_lines::{Position, RailLine};
use super::search::Found;
use super::segments;
use super::splices;
use super::{Job, modules, rafters, running_on, sideways, up_slope};

/// How far a hook may stand from the rafter it belongs to before it counts as missing it: what
/// marking out and measuring may differ by (common practice, no source).
pub const OFF_RAFTER: Length = Length::from_mm(25.0);

/// A rail as built.
#[derive(Debug, Clone)]
pub struct BuiltRail {
    /// Name.
    pub id: String,
    /// Place of its line across its direction: its height, or how far one up the slope lies from the left end
    /// of the eaves line.
    pub across: Length,
    /// Left and right end, or lower and upper end, where known.
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
    /// Height at which it holds a rail up the slope; one along the eaves tells it by itself.
    pub y: Option<Length>,
    /// Where its arm stands, if that is known.
    pub arm_x: Option<Length>,
    /// That axis was measured at the hook: it is a rafter, wherever the drawing has it.
    pub measured: bool,
    /// What was found wrong with the timber under it, if anything was.
    pub unsound: Option<Unsound>,
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
    /// Least clear distance along a rafter between the feet of hooks on its rails. Of those under rails up the
    /// slope no more than a layout leaves.
    #[must_use]
    pub fn clear(&self, job: &Job) -> Length {
        match job.rail_axis {
            RailAxis::AlongEaves => {
                let rails: Vec<(Length, [Option<Length>; 2])> =
                    self.rails.iter().map(|rail| (rail.across, rail.ends)).collect();
                footing::clear_along_rafters(&job.hook.foot, &rails)
            }
            RailAxis::UpSlope => {
                let on_rafters = self.on_rafters(job);
                let pairs = on_rafters.windows(2).filter(|pair| pair[0].0 == pair[1].0);
                let clear = pairs.map(|pair| pair[1].1 - pair[0].1 - job.hook.foot.length);
                clear.fold(up_slope::clear_between_feet(job), Length::min).max(Length::ZERO)
            }
        }
    }

    /// Every hook that has a rafter, with its rafter and its height, upwards on one after the other.
    pub(super) fn on_rafters(&self, job: &Job) -> Vec<(usize, Length, usize)> {
        let hooks = self.hooks.iter().enumerate();
        let mut on: Vec<(usize, Length, usize)> = hooks
            .filter_map(|(h, hook)| Some((rafter_under(job, hook)?, hook.along(), h)))
            .collect();
        on.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.mm().total_cmp(&b.1.mm())));
        on
    }

    /// The rafters found unsound at any of its hooks, from left to right, each with the worst that was found.
    #[must_use]
    pub fn unsound(&self, job: &Job) -> Vec<(usize, Unsound)> {
        let mut worst = BTreeMap::new();
        for hook in &self.hooks {
            if let (Some(rafter), Some(found)) = (rafter_under(job, hook), hook.unsound) {
                let known = worst.entry(rafter).or_insert(found);
                *known = found.max(*known);
            }
        }
        worst.into_iter().collect()
    }

    /// The hooks of every rail, by place.
    pub(super) fn by_rail(&self) -> Vec<Vec<usize>> {
        let mut own = vec![Vec::new(); self.rails.len()];
        for (h, hook) in self.hooks.iter().enumerate() {
            own[hook.rail].push(h);
        }
        own
    }

    /// What its rails decide of a foot that is added under any of them: the bolt as far beyond the tail edge as
    /// that of any, or as a layout has it under a rail up the slope, whose hooks each have a height of their own.
    fn under_any(&self, job: &Job) -> UnderRails {
        let beyond = match job.rail_axis {
            RailAxis::AlongEaves => {
                let beyond = self.rails.iter().map(|rail| bolt_beyond_exit(job, rail.across));
                beyond.reduce(Length::max).unwrap_or(job.hook.bolt_beyond_exit)
            }
            RailAxis::UpSlope => job.hook.bolt_beyond_exit + up_slope::lowered(job),
        };
        UnderRails { clear: self.clear(job), bolt_beyond_exit: beyond }
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
        let [from, to] = edges(job, run);
        let projection = job.rail.end_projection;
        let under = |at: Length| from - projection <= at && at <= to + projection;
        hooks.iter().filter(|hook| under(self.hooks[**hook].along())).count()
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

impl BuiltHook {
    /// Where it stands along its rail.
    #[must_use]
    pub fn along(&self) -> Length {
        self.y.unwrap_or(self.x)
    }
}

/// Why a rail cannot be computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Unplaced {
    /// Nothing lies over a rail along the eaves.
    #[error("No row of modules lies over this height: the rail carries nothing")]
    NoRow,
    /// Nothing lies over a rail up the slope.
    #[error("No column of modules lies over this place: the rail carries nothing")]
    NoColumn,
    /// A rail along the eaves ends under the modules.
    #[error("The rail ends before the modules over it do: it must reach both side frames of each")]
    TooShort,
    /// One up the slope does.
    #[error(
        "The rail ends before the modules over it do: it must reach the lower and the upper frame of each"
    )]
    TooLow,
    /// The run has two rails already.
    #[error("Three rails under one run of modules are not computed")]
    Third,
    /// It lies where the other rail of the run does.
    #[error("The rail lies on the other rail of the same modules")]
    OnAnother,
}

/// Why a hook carries nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Idle {
    /// No rafter is near.
    MissesRafter,
    /// Its rafter, this one, was found rotten.
    OnRotten(usize),
    /// Its rail does not reach it.
    BeyondRail,
    /// Its arm leaves the covering beside its rail up the slope, so far away.
    BesideRail(Length),
    /// It stands where another hook of the rail stands.
    OnAnother,
    /// Its foot would lie on that of the hook below it on the rafter, by place.
    FootOnAnother(usize),
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
    let own = built.by_rail();
    let follows: Vec<Line> = (0..over.len()).map(|r| follows(job, built, r, &own[r])).collect();
    let mut lines = Vec::with_capacity(over.len());
    let mut along: HashMap<Run, Vec<usize>> = HashMap::new();
    for (r, run) in over.iter().enumerate() {
        along.entry(*run).or_default().push(r);
    }
    for (r, (rail, run)) in built.rails.iter().zip(&over).enumerate() {
        let others: Vec<usize> = along[run].iter().copied().filter(|o| *o != r).collect();
        let other = match others.as_slice() {
            [] => None,
            [other] => Some(follows[*other]),
            // Said once, of the last of them.
            [.., last] if *last < r => {
                faults.push((r, Unplaced::Third));
                continue;
            }
            _ => continue,
        };
        let line = follows[r];
        if other.is_some_and(|other| (other.across - line.across).abs() < job.rail.depth) {
            faults.push((r, Unplaced::OnAnother));
            continue;
        }
        lines.push(rail_line(job, rail, *run, line, other));
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
    let over = runs.iter().copied().filter(|run| lies_over(job, *run, rail.across));
    let over: Vec<Run> = over.collect();
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
    best.ok_or(match job.rail_axis {
        axis if over.is_empty() => no_modules(axis),
        RailAxis::AlongEaves => Unplaced::TooShort,
        RailAxis::UpSlope => Unplaced::TooLow,
    })
}

/// That nothing lies over a rail.
pub(super) const fn no_modules(axis: RailAxis) -> Unplaced {
    match axis {
        RailAxis::AlongEaves => Unplaced::NoRow,
        RailAxis::UpSlope => Unplaced::NoColumn,
    }
}

/// Whether the modules of a run lie over a rail in this place across its direction.
pub(super) fn lies_over(job: &Job, run: Run, across: Length) -> bool {
    let [_, [from, to]] = run.axis.sides(&run.end(&job.fields, 0));
    from <= across.mm() && across.mm() <= to
}

/// Outer edges of a run, along its rails.
pub(super) fn edges(job: &Job, run: Run) -> [Length; 2] {
    [0, 1].map(|side| {
        let [along, _] = run.axis.sides(&run.end(&job.fields, side));
        Length::from_mm(along[side])
    })
}

/// Which rail of a run the only one in this place across its direction is.
pub(super) fn position_alone(job: &Job, run: Run, across: Length) -> Position {
    let field = &job.fields[run.field];
    let [_, [from, _]] = run.axis.sides(&run.end(&job.fields, 0));
    let [_, size] = run.axis.turned(field.module_size());
    let middle = Length::from_mm(from) + size / 2.0;
    let [near, far] = Position::pair(run.axis);
    if across < middle { near } else { far }
}

/// The line of a rail, by place, with hooks of its own.
///
/// One up the slope lies over the rafter its first hook stands on, or over the nearest.
pub(super) fn follows(job: &Job, built: &Built, rail: usize, own: &[usize]) -> Line {
    let across = built.rails[rail].across;
    match job.rail_axis {
        RailAxis::AlongEaves => {
            let (course, on_grid) = course_at(job, across);
            Line { across, over: Over::Course(course), on_grid, lowered: Length::ZERO }
        }
        RailAxis::UpSlope => {
            let under = own.iter().find_map(|hook| rafter_under(job, &built.hooks[*hook]));
            let arms = across - job.rail_aside();
            let nearest = || nearest_rafter(job, arms).map_or(0, |(rafter, _)| rafter);
            up_slope::standing_over(job, under.unwrap_or_else(nearest), across)
        }
    }
}

fn rail_line(job: &Job, rail: &BuiltRail, run: Run, line: Line, other: Option<Line>) -> RailLine {
    let [near, far] = Position::pair(run.axis);
    let position = match other {
        Some(other) if line.across < other.across => near,
        Some(_) => far,
        None => position_alone(job, run, line.across),
    };
    let beside = other.unwrap_or(line);
    let both = if position == near { [line, beside] } else { [beside, line] };
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
        across: line.across,
        over: line.over,
        on_grid: line.on_grid,
        lowered: line.lowered,
        // That a single rail does not hold the modules is a finding.
        other: other.map(|other| other.across),
        runs_on: [Length::ZERO; 2],
        spliced_at: rail.splices.clone(),
        there: None,
        segments,
    }
}

/// The course whose tail edge is nearest to where the arms of a rail at this height leave, and whether
/// they leave under it.
#[must_use]
pub fn course_at(job: &Job, y: Length) -> (i64, bool) {
    let exit = y + job.hook.bolt_beyond_exit;
    let course = courses::nearest_course(&job.covering, exit);
    let off = (courses::tail_edge(&job.covering, course) - exit).abs();
    (course, off <= OFF_LINE + ROUNDING)
}

/// From the tail edge that arms leave under whose bolts lie at this height down the slope to them; as the hook
/// is made where no tail edge is near.
#[must_use]
pub fn bolt_beyond_exit(job: &Job, y: Length) -> Length {
    /// Parts of a millimetre by which hooks under one rail are told apart.
    const PARTS: f64 = 1e6;
    let beyond = match course_at(job, y) {
        (course, true) => courses::tail_edge(&job.covering, course) - y,
        (_, false) => job.hook.bolt_beyond_exit,
    };
    match job.rail_axis {
        RailAxis::AlongEaves => beyond,
        // Hooks of many courses, all set alike, differ by the rounding of their heights.
        RailAxis::UpSlope => Length::from_mm((beyond.mm() * PARTS).round() / PARTS),
    }
}

/// What the last digit of a recorded height may be off by.
pub(super) const ROUNDING: Length = Length::from_mm(0.5);

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
    let own: Vec<Vec<usize>> = built
        .by_rail()
        .into_iter()
        .map(|mut own| {
            own.sort_by(|a, b| {
                let [a, b] = [a, b].map(|hook| built.hooks[*hook].along().mm());
                a.total_cmp(&b)
            });
            own
        })
        .collect();
    let stand = stands(job, built, &lines, &own);
    let idle = stand.iter().enumerate().filter_map(|(hook, stand)| Some((hook, stand.err()?)));
    let idle = idle.collect();
    let rails: Vec<Rail> = lines
        .into_iter()
        .zip(&own)
        .map(|(line, own)| self::rail(job, built, line, own, &stand))
        .collect();
    let modules = modules::on(job, &rails);
    let mut rafters = rafters::under(job, &built.footings, &rails, &modules);
    rafters::compare(job, &mut rafters);
    let layout =
        Layout { footings: built.footings.clone(), rails, modules, rafters, in_any_pattern: None };
    Checked { layout, idle }
}

/// The part of its rail that a hook holds and the place in which it does, of every hook by place, or why it
/// holds none. `own` are the hooks of every rail along it.
fn stands(
    job: &Job,
    built: &Built,
    lines: &[RailLine],
    own: &[Vec<usize>],
) -> Vec<Result<(usize, Place), Idle>> {
    let hooks = built.hooks.iter();
    let mut stand: Vec<_> = hooks.map(|hook| stand(job, &lines[hook.rail], hook)).collect();
    let is_near = |stand: &[Result<(usize, Place), Idle>], [hook, last]: [usize; 2], least| {
        let at = |hook: usize| stand[hook].ok().map(|(_, place)| place.at);
        at(hook).zip(at(last)).is_some_and(|(at, last)| at - last < least)
    };
    match job.rail_axis {
        RailAxis::AlongEaves => {
            for own in own {
                let mut last = None;
                for hook in own.iter().copied() {
                    if stand[hook].is_err() {
                        continue;
                    }
                    if last.is_some_and(|last| is_near(&stand, [hook, last], job.hook.arm_width)) {
                        stand[hook] = Err(Idle::OnAnother);
                        continue;
                    }
                    last = Some(hook);
                }
            }
        }
        RailAxis::UpSlope => {
            let mut last: Option<(usize, usize)> = None;
            let least = job.hook.foot.length - ROUNDING;
            for (rafter, _, hook) in built.on_rafters(job) {
                if stand[hook].is_err() {
                    continue;
                }
                match last.filter(|(other, _)| *other == rafter) {
                    Some((_, below)) if is_near(&stand, [hook, below], least) => {
                        stand[hook] = Err(Idle::FootOnAnother(below));
                    }
                    _ => last = Some((rafter, hook)),
                }
            }
        }
    }
    stand
}

/// The part of a rail that a hook holds and the place in which it does, whatever stands beside it.
pub(super) fn stand(job: &Job, line: &RailLine, hook: &BuiltHook) -> Result<(usize, Place), Idle> {
    let rafter = rafter_under(job, hook).ok_or(Idle::MissesRafter)?;
    if is_on_rotten(job, hook) {
        return Err(Idle::OnRotten(rafter));
    }
    let under = |ends: &[Length; 2], at: Length| ends[0] <= at && at <= ends[1];
    let part = line.segments.iter().position(|ends| under(ends, hook.along()));
    let part = part.ok_or(Idle::BeyondRail)?;
    let place = match line.over {
        Over::Rails => return Err(Idle::BeyondRail),
        Over::Course(course) => {
            let ends = line.segments[part];
            // An arm that is there left the covering somewhere: where no trough is in reach, or it lies
            // beyond the rail, the axis is as good a place as any.
            let arm_x = hook
                .arm_x
                .or_else(|| sideways::arm_position(job, course, hook.x, ends))
                .filter(|arm_x| under(&ends, *arm_x))
                .unwrap_or(hook.x);
            Place::along_eaves(course, rafter, [hook.x, arm_x])
        }
        Over::Rafter(_) => {
            // An arm of which nothing is told is on the axis where the rail lies for that, to the last digit.
            let arms = line.across - job.rail_aside();
            let is_on_axis = (arms - hook.x).abs() <= ROUNDING;
            let assumed = if is_on_axis { hook.x } else { arms };
            let (at, arm_x) = (hook.along(), hook.arm_x.unwrap_or(assumed));
            let off = (arm_x - arms).abs();
            if off > OFF_LINE + ROUNDING {
                return Err(Idle::BesideRail(off));
            }
            Place { rafter, course: course_at(job, at).0, x: hook.x, arm_x, at }
        }
    };
    Ok((part, place))
}

fn rail(
    job: &Job,
    built: &Built,
    line: RailLine,
    own: &[usize],
    stand: &[Result<(usize, Place), Idle>],
) -> Rail {
    let mut names = Vec::with_capacity(own.len());
    let mut places = vec![Vec::new(); line.segments.len()];
    for index in own {
        let Ok((part, place)) = stand[*index] else { continue };
        let hook = &built.hooks[*index];
        let footing = (&built.footings[hook.footing], hook.footing);
        places[part].push(candidates::candidate(job, footing, place, line.segments[part]));
        names.push(hook.id.clone());
    }
    let segments = line
        .segments
        .iter()
        .zip(places)
        .map(|(ends, places)| {
            let found = Found::given(places.len());
            let mut segment = segments::segment(job, &built.footings, &line, *ends, places);
            // They stand as they do.
            segment.least_apart = Length::ZERO;
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

/// Whether a hook stands on a rafter that was found rotten.
#[must_use]
pub fn is_on_rotten(job: &Job, hook: &BuiltHook) -> bool {
    let found = rafter_under(job, hook).and_then(|at| job.roof.rafters.found_unsound(at));
    found == Some(Unsound::Rotten)
}

/// The rafter nearest to a place, and how far it is.
#[must_use]
pub fn nearest_rafter(job: &Job, x: Length) -> Option<(usize, Length)> {
    let all = job.roof.rafters.positions.iter().map(|at| (*at - x).abs()).enumerate();
    all.reduce(|a, b| if b.1 < a.1 { b } else { a })
}
