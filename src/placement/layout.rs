//! The whole job laid out: rails, hooks, modules and rafters, each with its checks.

use crate::checks::clearance;
use crate::checks::roll::BORNE;
use crate::checks::segment::{Candidate, HookResult, Segment, SegmentResult, Workspace};
use crate::checks::{Check, most_used};
use crate::effort::Allowance;
use crate::units::Length;

use super::candidates;
use super::crossing;
use super::footing::Footing;
use super::kept::{Feet, Kept};
use super::laid::{InAnyPattern, LaidSegment, Layout, ModuleResult, RafterResult, Rail};
use super::places::Place;
use super::rail_lines::{self, Position, RailLine};
use super::search::{self, Found, Limit, Outcome, Pattern};
use super::segments;
use super::shared_rafters;
use super::splices;
use super::{ArmPosition, Job, Objective, modules, rafters, running_on, same_rafters, side_joints};

/// What laying out a job took.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Took {
    /// Steps.
    pub steps: u64,
    /// Whether some part of it ended because its steps were spent: with more, another layout may come
    /// out.
    pub cut_short: bool,
}

/// Lays out a job.
#[must_use]
pub fn lay_out(job: &Job) -> Layout {
    counted(job, &Kept::default()).0
}

/// Stacks of packers that are tried at most: forces hardly depend on them, so the first one that is
/// high enough for those of the stack before mostly is.
const MOST_STACKS: usize = 4;

/// Lays out a job beside what is kept and says what it took.
#[must_use]
pub fn counted(job: &Job, kept: &Kept) -> (Layout, Took) {
    let mut allowance = Allowance::from(&job.effort);
    let in_any_pattern = (job.wishes.objective == Objective::SameRafters)
        .then(|| {
            let mut part = allowance.part(2);
            let found = in_any_pattern(job, kept, &mut part);
            allowance.take_back(&part);
            found
        })
        .flatten();
    let layout = Layout { in_any_pattern, ..stacked(job, kept, &mut allowance) };
    let took = Took { steps: allowance.spent(), cut_short: allowance.has_run_out() };
    (layout, took)
}

/// What the job comes to with hooks in any pattern; `None` where a rail does not hold on these either.
fn in_any_pattern(job: &Job, kept: &Kept, allowance: &mut Allowance) -> Option<InAnyPattern> {
    let mut job = job.clone();
    job.wishes.objective = Objective::FewestHooks;
    let layout = stacked(&job, kept, allowance);
    let (not_passing, over, not_held, hooks) = rank(&job, &layout.rails);
    let proven = layout.segments().all(|laid| laid.found.outcome.is_proven());
    (not_passing + over + not_held == 0).then_some(InAnyPattern { hooks, proven })
}

/// Lays out a job beside what is kept, on feet as high as their arms need them.
fn stacked(job: &Job, kept: &Kept, allowance: &mut Allowance) -> Layout {
    let mut lines = if job.rails_cross { crossing::lines(job) } else { kept.lines(job) };
    // A rail that is there ends where it ends, or goes on under modules that were added.
    let is_new: Vec<bool> = lines.iter().map(|line| line.there.is_none()).collect();
    running_on::run_on(job, &mut lines, |rail, _| is_new[rail] && !job.rails_cross);
    let rails = rail_lines::under(job, &lines);
    let (mut way, footing) = kept.new_foot(job, rails);
    let mut layout = on(job, &Feet::beside(kept, (&way, footing)), &lines, allowance);
    // Where arms come down on the tile under load: the lowest stack on which they do not.
    let mut next = higher_stack(job, &layout);
    for _ in 0..MOST_STACKS {
        let Some(packers) = next else { break };
        way.packers.clone_from(&packers);
        let footing = Footing::stacked(job, packers, rails);
        let higher = on(job, &Feet::beside(kept, (&way, footing)), &lines, allowance);
        next = higher_stack(job, &higher);
        // Screws hold less on a higher stack: it may not help.
        if rank(job, &higher.rails) < rank(job, &layout.rails) {
            layout = higher;
        }
    }
    layout
}

/// How many times the clearance under load is asked for where feet roll: with more of it, hooks are chosen
/// by their screws, which hold the feet. Own judgement.
const ROOM_FOR_SCREWS: f64 = 1.1;

/// How many times the clearance under load is asked for under crossing rails where nothing of the hooks is used
/// more: their many hooks near each other become fewer on higher arms. Own judgement.
const ROOM_FOR_FEWER: f64 = 1.5;

/// Whether the hook used most is used most in its clearance.
fn clearance_governs(layout: &Layout) -> bool {
    let results = layout.segments().filter_map(|laid| laid.result.as_ref());
    let most = most_used(results.flat_map(|result| &result.hooks).map(HookResult::governing));
    most.is_some_and(|(check, _)| check == Check::Clearance)
}

/// The lowest stack of packers that would leave the arms of new hooks clear of the tile under the forces of a
/// layout, and with room to spare where feet roll and are not held; `None` where they have that room, or no
/// stack gives it.
fn higher_stack(job: &Job, layout: &Layout) -> Option<Vec<Length>> {
    let footing = layout.footings.first()?;
    let hooks = layout.segments().flat_map(|laid| {
        let results = laid.result.iter().flat_map(|result| &result.hooks);
        laid.hooks().zip(results)
    });
    let new = hooks.filter(|(place, _)| place.setting == 0);
    let used = new.map(|(_, hook)| hook.clearance.utilisation);
    let mut times = used.fold(0.0, f64::max) / job.wishes.max_utilisation;
    if not_held(&layout.rails) > 0 {
        times *= ROOM_FOR_SCREWS;
    }
    if job.rails_cross && clearance_governs(layout) {
        times *= ROOM_FOR_FEWER;
    }
    if times <= 1.0 || !times.is_finite() {
        return None;
    }
    let packers =
        clearance::packers_for(&job.packers, footing.bare_clearance, footing.clearance * times)?;
    (packers.iter().copied().sum::<Length>() > footing.packed()).then_some(packers)
}

/// A job laid out on feet set in these ways.
fn on(job: &Job, feet: &Feet<'_>, lines: &[RailLine], allowance: &mut Allowance) -> Layout {
    // What is done after the search has a share of its own.
    let mut searching = allowance.part(2);
    let mut rails = match job.wishes.objective {
        Objective::FewestHooks => rails(job, feet, lines, Pattern::Free, &mut searching),
        Objective::EvenSpacing => rails(job, feet, lines, Pattern::Even, &mut searching),
        Objective::Staggered => staggered(job, feet, lines, &mut searching),
        Objective::SameRafters => in_common(job, feet, lines, &mut searching),
    };
    let footings = feet.footings.clone();
    allowance.take_back(&searching);
    let modules = modules::on(job, &rails);
    let passed = rails.iter().flat_map(|r| &r.segments).all(|s| s.found.outcome.passes());
    let may_spread = passed && job.wishes.objective == Objective::FewestHooks && !job.rails_cross;
    let (mut moved, mut rafters) = settled(job, &footings, &modules, &rails);
    if may_spread
        && !rafters::pass(job, &rafters)
        && let Some(spread) = spread_for_rafters(job, &footings, &modules, rails.clone(), allowance)
    {
        rails = spread;
        (moved, rafters) = settled(job, &footings, &modules, &rails);
    }
    rails = moved.unwrap_or(rails);
    rails.iter_mut().for_each(Rail::count_hooks);
    rafters::compare(job, &mut rafters);
    Layout { footings, rails, modules, rafters, in_any_pattern: None }
}

/// The rails with their arms moved, `None` where these stay, and what that leaves on the rafters.
///
/// Rafters are looked at job by job: arms stay where moving them would overload one.
fn settled(
    job: &Job,
    footings: &[Footing],
    modules: &[ModuleResult],
    rails: &[Rail],
) -> (Option<Vec<Rail>>, Vec<RafterResult>) {
    let on_axes = || rafters::under(job, footings, rails, modules);
    let Some(moved) = arms_moved(job, footings, rails) else { return (None, on_axes()) };
    let under = rafters::under(job, footings, &moved, modules);
    if !rafters::pass(job, &under) {
        let before = on_axes();
        if rafters::pass(job, &before) {
            return (None, before);
        }
    }
    (Some(moved), under)
}

/// The rails with arms nearer to side joints, where that is wanted; `None` when none moves.
fn arms_moved(job: &Job, footings: &[Footing], rails: &[Rail]) -> Option<Vec<Rail>> {
    if job.wishes.arms == ArmPosition::RafterAxis {
        return None;
    }
    let results = rails.iter().flat_map(|rail| &rail.segments).filter_map(|s| s.result.as_ref());
    let used = |result: &SegmentResult| result.governing().1.utilisation;
    let most_used = results.map(used).fold(0.0, f64::max);
    // Where some rail is over its limit, those that hold still do.
    let limit = job.wishes.max_utilisation;
    let bound_of = |laid: &LaidSegment| {
        let holds = laid.result.as_ref().is_some_and(|result| used(result) <= limit);
        if holds { most_used.min(limit) } else { most_used }
    };
    let mut moved: Option<Vec<Rail>> = None;
    for (r, rail) in rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let ends = rail.line.segments[s];
            let nearer = side_joints::towards_joints(
                job,
                footings,
                &rail.line,
                (laid, ends),
                bound_of(laid),
            );
            // Arms stay where moving them would leave feet to roll.
            let nearer = nearer.filter(|nearer| is_held(nearer) || !is_held(laid));
            if let Some(mut nearer) = nearer {
                nearer.segment.forget();
                moved.get_or_insert_with(|| rails.to_vec())[r].segments[s] = nearer;
            }
        }
    }
    moved
}

/// Hooks on more rafters, where the fewest overload one: all candidates, then hooks taken away one
/// by one as long as rails and rafters pass. `None` when all candidates do not pass either.
///
/// Rafters couple the rails, which the search looks at one by one, so the number of hooks this ends
/// with is not proven to be the fewest; that of the search remains its lower bound. When the job has
/// spent what it is allowed, the hooks that are left stay.
fn spread_for_rafters(
    job: &Job,
    footings: &[Footing],
    modules: &[ModuleResult],
    mut rails: Vec<Rail>,
    allowance: &mut Allowance,
) -> Option<Vec<Rail>> {
    let bound = job.wishes.max_utilisation;
    let mut space = Workspace::default();
    for laid in rails.iter_mut().flat_map(|r| &mut r.segments) {
        let all = laid.segment.everything();
        laid.found.outcome = Outcome::Spread;
        if !laid.take(all, bound, &mut space) {
            return None;
        }
        laid.segment.forget();
    }
    if !rafters::pass(job, &rafters::under(job, footings, &rails, modules)) {
        return None;
    }
    for r in 0..rails.len() {
        for s in 0..rails[r].segments.len() {
            let mut at = 0;
            while at < rails[r].segments[s].found.subset.len() && !allowance.is_spent() {
                let laid = &rails[r].segments[s];
                if laid.segment.candidates[laid.found.subset[at]].stands {
                    at += 1;
                    continue;
                }
                allowance.spend(steps_of(&rails));
                let before = rails[r].segments[s].found.subset.clone();
                let mut fewer = before.clone();
                fewer.remove(at);
                let holds = rails[r].segments[s].take(fewer, bound, &mut space)
                    && rafters::pass(job, &rafters::under(job, footings, &rails, modules));
                if !holds {
                    rails[r].segments[s].take(before, bound, &mut space);
                    at += 1;
                }
            }
            rails[r].segments[s].segment.forget();
        }
    }
    for laid in rails.iter_mut().flat_map(|r| &mut r.segments) {
        // Other hooks, but no more of them than the fewest.
        if laid.found.subset.len() == laid.found.lower_bound {
            laid.found.outcome = Outcome::FewestProvenNotRanked;
        }
    }
    Some(rails)
}

/// Steps that looking at all rafters is counted as: every hook in every combination beside every other
/// on its rafter, eight of which take about as long as a step of the search.
fn steps_of(rails: &[Rail]) -> u64 {
    let of = |laid: &LaidSegment| laid.found.subset.len() * laid.segment.cases.len();
    let hooks: usize = rails.iter().flat_map(|rail| &rail.segments).map(of).sum();
    (hooks * rails.len()).div_ceil(8) as u64
}

/// Less is better: segments that do not pass, those over a limit, those whose feet are not held, hooks.
fn rank(job: &Job, rails: &[Rail]) -> (usize, usize, usize, usize) {
    let segments = || rails.iter().flat_map(|r| &r.segments);
    let results = segments().filter_map(|laid| laid.result.as_ref());
    let over = results.filter(|result| !job.wishes.allow(result.governing().1.utilisation));
    (
        segments().filter(|s| !s.found.outcome.passes()).count(),
        over.count(),
        // Rails that cross hold no foot by bending, however few roll.
        if job.rails_cross { 0 } else { not_held(rails) },
        segments().map(|s| s.found.subset.len()).sum(),
    )
}

/// Segments that bear their loads and not for certain what the rolling of their feet adds.
fn not_held(rails: &[Rail]) -> usize {
    let segments = rails.iter().flat_map(|rail| &rail.segments);
    let passing = segments.filter(|laid| laid.found.outcome.passes());
    passing.filter(|laid| !is_held(laid)).count()
}

/// Whether hooks and rail bear what the rolling of the feet of a segment adds.
fn is_held(laid: &LaidSegment) -> bool {
    let result = laid.result.as_ref();
    let rolling = result.and_then(|result| laid.segment.rolling(&laid.found.subset, result));
    rolling.is_none_or(|rolling| rolling.utilisation() <= BORNE)
}

/// The rails of every row on alternate rafters; of every column, where they run up the slope, under alternate
/// courses. Which of the two takes the even ones is free: the
/// better choice counts.
fn staggered(
    job: &Job,
    feet: &Feet<'_>,
    lines: &[RailLine],
    allowance: &mut Allowance,
) -> Vec<Rail> {
    let [one, other] = [0, 1].map(|even: i64| {
        let mut part = allowance.part(if even == 0 { 2 } else { 1 });
        let staggered = |position: Position, step: i64| {
            let is_even = (step + even).rem_euclid(2) == 0;
            is_even == (position.place() == 0)
        };
        let rails = rails_on(job, feet, lines.to_vec(), Pattern::Free, staggered, &mut part);
        allowance.take_back(&part);
        rails
    });
    if rank(job, &other) < rank(job, &one) { other } else { one }
}

fn rails(
    job: &Job,
    feet: &Feet<'_>,
    lines: &[RailLine],
    pattern: Pattern,
    allowance: &mut Allowance,
) -> Vec<Rail> {
    rails_on(job, feet, lines.to_vec(), pattern, |_, _| true, allowance)
}

/// Rails with hooks on those rafters, or under those courses, that a rail of their position may take.
fn rails_on(
    job: &Job,
    feet: &Feet<'_>,
    lines: Vec<RailLine>,
    pattern: Pattern,
    may_take: impl Fn(Position, i64) -> bool,
    allowance: &mut Allowance,
) -> Vec<Rail> {
    if job.rails_cross {
        return crossing::rails(job, &feet.footings, pattern, allowance);
    }
    let mut left: u64 = lines.iter().map(|line| line.segments.len() as u64).sum();
    let bound = job.wishes.max_utilisation;
    // Rails of a field are much alike: what held on one is tried first on the next.
    let mut held: Vec<(usize, Vec<usize>)> = Vec::new();
    let stretches = shared_rafters::stretches(job, &lines);
    lines
        .into_iter()
        .enumerate()
        .map(|(r, line)| {
            let allowed = |place: &Place| may_take(line.position, place.step(job.rail_axis));
            let segments = (0..line.segments.len())
                .map(|s| {
                    let within = ([r, s], stretches[r][s]);
                    let segment = unsearched(job, feet, &line, within, (allowed, |_| true));
                    let count = segment.candidates.len();
                    let like = held.iter().rev().find(|(as_many, _)| *as_many == count);
                    let like = like.map_or(&[][..], |(_, hooks)| hooks);
                    let mut part = allowance.part(left);
                    left -= 1;
                    let limit =
                        Limit { weighed: job.wishes.search_limit, allowance: Some(&mut part) };
                    let found = search::fewest_hooks(&segment, bound, pattern, limit, like);
                    allowance.take_back(&part);
                    if found.outcome.passes() {
                        held.push((count, found.subset.clone()));
                    }
                    checked(job, &line, s, segment, found)
                })
                .collect();
            Rail { line, segments, hooks: Vec::new() }
        })
        .collect()
}

/// Rails with hooks on the same rafters wherever they belong to one field.
fn in_common(
    job: &Job,
    feet: &Feet<'_>,
    lines: &[RailLine],
    allowance: &mut Allowance,
) -> Vec<Rail> {
    let stretches = shared_rafters::stretches(job, lines);
    let not_in_common = same_rafters::not_in_common(job, lines);
    let segments: Vec<Vec<Segment>> = lines
        .iter()
        .enumerate()
        .map(|(r, line)| {
            let shared = |place: &Candidate| !not_in_common.contains(&[line.field(), place.rafter]);
            let of = |s: usize| {
                let within = ([r, s], stretches[r][s]);
                unsearched(job, feet, line, within, (|_: &Place| true, shared))
            };
            (0..line.segments.len()).map(of).collect()
        })
        .collect();
    let found = same_rafters::found(job, lines, &segments, allowance);
    let of_rails = lines.iter().zip(segments.into_iter().zip(found));
    let rails = of_rails.map(|(line, (segments, found))| Rail {
        line: line.clone(),
        segments: segments
            .into_iter()
            .zip(found)
            .enumerate()
            .map(|(s, (segment, found))| checked(job, line, s, segment, found))
            .collect(),
        hooks: Vec::new(),
    });
    rails.collect()
}

/// A segment of a rail with the places hooks may take on the stretch of it that is left to them: those that are
/// allowed, and the outermost; of them only those that are wanted.
fn unsearched(
    job: &Job,
    feet: &Feet<'_>,
    line: &RailLine,
    ([r, s], stretch): ([usize; 2], [Length; 2]),
    (allowed, wanted): (impl Fn(&Place) -> bool, impl Fn(&Candidate) -> bool),
) -> Segment {
    let (footings, ends) = (&feet.footings[..], line.segments[s]);
    let mut places = candidates::candidates(job, &footings[0], line, (ends, stretch), allowed);
    places.retain(wanted);
    let places = feet.among(job, [r, s], ends, places);
    let mut segment = segments::segment(job, footings, line, ends, places);
    if line.there.is_some_and(|there| !there.told) {
        // Where its stiff splices lie is not known.
        segment.limits.splice = None;
    }
    segment
}

/// A segment of a rail on the hooks found, with all its checks.
fn checked(job: &Job, line: &RailLine, s: usize, segment: Segment, found: Found) -> LaidSegment {
    let splices = splices::splices(job, line.spliced_at.as_deref(), line.segments[s]);
    let mut laid = LaidSegment::checked(segment, found, splices);
    laid.segment.forget();
    laid
}
