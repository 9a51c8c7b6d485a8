//! The whole job: rails, hooks, modules and rafters, each with its checks.

use crate::checks::Governing;
use crate::checks::module::{self, ModuleCheck};
use crate::checks::rafter::{self, RafterEffects, RafterSection, Train};
use crate::checks::segment::{Candidate, HookResult, Segment, SegmentResult, Workspace};
use crate::rules::en1990_2002::{self as en1990, Situation, WindSense};
use crate::rules::en1995_1_1_2004::timber;
use crate::units::{Force, Length, Pressure};

use super::array::{self, Placed};
use super::loading::{self, Component, Footing};
use super::rail_lines::{self, Position, RailLine};
use super::search::{self, Found, Outcome, Pattern};
use super::{ArmPosition, Job, Objective, side_joints};

/// A layout with all its checks.
#[derive(Debug, Clone)]
pub struct Layout {
    /// Ways the feet are set; every hook's place names one of them.
    pub footings: Vec<Footing>,
    /// Rails with their hooks.
    pub rails: Vec<Rail>,
    /// Modules.
    pub modules: Vec<ModuleResult>,
    /// Rafters that carry hooks.
    pub rafters: Vec<RafterResult>,
}

/// A rail with its hooks.
#[derive(Debug, Clone)]
pub struct Rail {
    /// Its line.
    pub line: RailLine,
    /// Its segments, left to right.
    pub segments: Vec<LaidSegment>,
    /// Names of its hooks, left to right.
    pub hooks: Vec<String>,
    /// Where the pieces of each segment meet: as the statics have them, until the rails are cut.
    pub splices: Vec<Vec<Length>>,
}

impl Rail {
    /// Name of a hook, by segment and place in it: numbers run through the segments.
    #[must_use]
    pub fn name_of(&self, [segment, hook]: [usize; 2]) -> &str {
        let before: usize = self.segments[..segment].iter().map(|s| s.found.subset.len()).sum();
        self.hooks.get(before + hook).map_or("", String::as_str)
    }

    /// Checks of the hook of this name; `None` when there is none, or its rail is not stable.
    #[must_use]
    pub fn result_of(&self, hook: &str) -> Option<&HookResult> {
        let at = self.hooks.iter().position(|name| name == hook)?;
        let mut results = self.segments.iter().flat_map(|laid| {
            let count = laid.found.subset.len();
            (0..count).map(move |h| laid.result.as_ref().and_then(|result| result.hooks.get(h)))
        });
        results.nth(at).flatten()
    }

    /// Names the hooks by rail and number.
    fn count_hooks(&mut self) {
        let count: usize = self.segments.iter().map(|s| s.found.subset.len()).sum();
        self.hooks = (1..=count).map(|number| format!("{}-{number}", self.line.id)).collect();
    }
}

/// A segment with its hooks.
#[derive(Debug, Clone)]
pub struct LaidSegment {
    /// Loads, candidates and checks.
    pub segment: Segment,
    /// What the search found.
    pub found: Found,
    /// Checks of the subset taken; `None` when the rail is not stable on it.
    pub result: Option<SegmentResult>,
}

impl LaidSegment {
    /// The places taken, left to right.
    pub fn hooks(&self) -> impl Iterator<Item = &Candidate> {
        self.found.subset.iter().map(|place| &self.segment.candidates[*place])
    }

    /// Takes another subset if it passes on this segment; leaves everything as it was otherwise.
    fn take(&mut self, subset: Vec<usize>, bound: f64, space: &mut Workspace) -> bool {
        let passes = self.segment.weigh_alone(&subset, bound, space).is_some();
        if passes {
            self.result = self.segment.examine(&subset);
            self.found.subset = subset;
        }
        passes
    }
}

/// A module with its checks.
#[derive(Debug, Clone)]
pub struct ModuleResult {
    /// Where it is.
    pub placed: Placed,
    /// Largest pressing design load.
    pub press: Pressure,
    /// Largest lifting design load.
    pub lift: Pressure,
    /// Combinations these occur in.
    pub combinations: [usize; 2],
    /// Rail lines from the nearer module end, lower and upper.
    pub clamps: [Length; 2],
    /// Utilisation.
    pub check: ModuleCheck,
}

/// A rafter with the hooks it carries.
#[derive(Debug, Clone)]
pub struct RafterResult {
    /// Which.
    pub rafter: usize,
    /// Its hooks: rail, segment, hook.
    pub hooks: Vec<[usize; 3]>,
    /// Largest pressing sum.
    pub press: Force,
    /// Largest lifting sum, as a magnitude.
    pub lift: Force,
    /// Largest sum down the slope.
    pub slope: Force,
    /// Weight of the array on it against what it carries already.
    pub added_share: f64,
    /// Bending, shear, when its span is known.
    pub utilisation: Option<[Governing; 2]>,
}

impl Layout {
    /// Every segment of every rail.
    pub fn segments(&self) -> impl Iterator<Item = &LaidSegment> {
        self.rails.iter().flat_map(|r| &r.segments)
    }

    /// Every hook, rail by rail from left to right: rail, segment and hook, and its place.
    pub fn hooks(&self) -> impl Iterator<Item = ([usize; 3], &Candidate)> {
        hooks_of(&self.rails)
    }
}

fn hooks_of(rails: &[Rail]) -> impl Iterator<Item = ([usize; 3], &Candidate)> {
    rails.iter().enumerate().flat_map(|(r, rail)| {
        rail.segments.iter().enumerate().flat_map(move |(s, laid)| {
            laid.hooks().enumerate().map(move |(h, place)| ([r, s, h], place))
        })
    })
}

/// Lays out a job.
#[must_use]
pub fn lay_out(job: &Job) -> Layout {
    let footings = vec![Footing::of(job)];
    let lines = rail_lines::rail_lines(job);
    let mut rails = match job.wishes.objective {
        Objective::FewestHooks => rails(job, &footings, lines, Pattern::Free, None),
        Objective::EvenSpacing => rails(job, &footings, lines, Pattern::Even, None),
        Objective::Staggered => {
            // Which of the two rails takes the even rafters is free: the better choice counts.
            let one = rails(job, &footings, lines.clone(), Pattern::Free, Some(0));
            let other = rails(job, &footings, lines, Pattern::Free, Some(1));
            if rank(&other) < rank(&one) { other } else { one }
        }
    };
    let modules = modules(job, &rails);
    let moved = arms_moved(job, &footings, &rails);
    let mut rafters = self::rafters(job, &footings, moved.as_ref().unwrap_or(&rails), &modules);
    if rafters_pass(job, &rafters) {
        rails = moved.unwrap_or(rails);
    } else {
        // Rafters are looked at job by job: what moving arms does to them counts as well.
        if moved.is_some() {
            rafters = self::rafters(job, &footings, &rails, &modules);
        }
        let passed = rails.iter().flat_map(|r| &r.segments).all(|s| s.found.outcome.passes());
        let may_spread = passed && job.wishes.objective == Objective::FewestHooks;
        if may_spread
            && !rafters_pass(job, &rafters)
            && let Some(spread) = spread_for_rafters(job, &footings, &modules, rails.clone())
        {
            rails = spread;
            rafters = self::rafters(job, &footings, &rails, &modules);
        }
        if let Some(moved) = arms_moved(job, &footings, &rails) {
            let under = self::rafters(job, &footings, &moved, &modules);
            if rafters_pass(job, &under) || !rafters_pass(job, &rafters) {
                (rails, rafters) = (moved, under);
            }
        }
    }
    rails.iter_mut().for_each(Rail::count_hooks);
    Layout { footings, rails, modules, rafters }
}

/// The rails with arms nearer to side joints, where that is wanted; `None` when none moves.
fn arms_moved(job: &Job, footings: &[Footing], rails: &[Rail]) -> Option<Vec<Rail>> {
    if job.wishes.arms == ArmPosition::RafterAxis {
        return None;
    }
    let results = rails.iter().flat_map(|rail| &rail.segments).filter_map(|s| s.result.as_ref());
    let bound = results.map(|result| result.governing().1.utilisation).fold(0.0, f64::max);
    let mut moved: Option<Vec<Rail>> = None;
    for (r, rail) in rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let ends = rail.line.segments[s];
            let nearer =
                side_joints::towards_joints(job, footings, &rail.line, (laid, ends), bound);
            if let Some(nearer) = nearer {
                moved.get_or_insert_with(|| rails.to_vec())[r].segments[s] = nearer;
            }
        }
    }
    moved
}

fn rafters_pass(job: &Job, rafters: &[RafterResult]) -> bool {
    rafters
        .iter()
        .flat_map(|r| r.utilisation.iter().flatten())
        .all(|governing| governing.utilisation <= job.wishes.max_utilisation)
}

/// Hooks on more rafters, where the fewest overload one: all candidates, then hooks taken away one
/// by one as long as rails and rafters pass. `None` when all candidates do not pass either.
///
/// Rafters couple the rails, which the search looks at one by one, so the number of hooks this ends
/// with is not proven to be the fewest; that of the search remains its lower bound.
fn spread_for_rafters(
    job: &Job,
    footings: &[Footing],
    modules: &[ModuleResult],
    mut rails: Vec<Rail>,
) -> Option<Vec<Rail>> {
    let bound = job.wishes.max_utilisation;
    let mut space = Workspace::default();
    for laid in rails.iter_mut().flat_map(|r| &mut r.segments) {
        let all: Vec<usize> = (0..laid.segment.candidates.len()).collect();
        laid.found.outcome = Outcome::BestFound;
        if !laid.take(all, bound, &mut space) {
            return None;
        }
    }
    if !rafters_pass(job, &rafters(job, footings, &rails, modules)) {
        return None;
    }
    for r in 0..rails.len() {
        for s in 0..rails[r].segments.len() {
            let mut at = 0;
            while at < rails[r].segments[s].found.subset.len() {
                let before = rails[r].segments[s].found.subset.clone();
                let mut fewer = before.clone();
                fewer.remove(at);
                let holds = rails[r].segments[s].take(fewer, bound, &mut space)
                    && rafters_pass(job, &rafters(job, footings, &rails, modules));
                if !holds {
                    rails[r].segments[s].take(before, bound, &mut space);
                    at += 1;
                }
            }
        }
    }
    Some(rails)
}

fn rank(rails: &[Rail]) -> (usize, usize) {
    let segments = || rails.iter().flat_map(|r| &r.segments);
    (
        segments().filter(|s| !s.found.outcome.passes()).count(),
        segments().map(|s| s.found.subset.len()).sum(),
    )
}

fn rails(
    job: &Job,
    footings: &[Footing],
    lines: Vec<RailLine>,
    pattern: Pattern,
    stagger: Option<usize>,
) -> Vec<Rail> {
    let bound = job.wishes.max_utilisation;
    // Rails of a field are much alike: what held on one is tried first on the next.
    let mut held: Vec<(usize, Vec<usize>)> = Vec::new();
    lines
        .into_iter()
        .map(|line| {
            let allowed = |rafter: usize| {
                stagger.is_none_or(|even| {
                    (rafter + even).is_multiple_of(2) == (line.position == Position::Lower)
                })
            };
            let segments = line
                .segments
                .iter()
                .map(|ends| {
                    let places = loading::candidates(job, &footings[0], &line, *ends, allowed);
                    let segment = loading::segment(job, footings, &line, *ends, places);
                    let count = segment.candidates.len();
                    let like = held.iter().rev().find(|(as_many, _)| *as_many == count);
                    let like = like.map_or(&[][..], |(_, hooks)| hooks);
                    let limit = job.wishes.search_limit;
                    let found = search::fewest_hooks(&segment, bound, pattern, limit, like);
                    if found.outcome.passes() {
                        held.push((count, found.subset.clone()));
                    }
                    let result = segment.examine(&found.subset);
                    LaidSegment { segment, found, result }
                })
                .collect();
            let splices = loading::splices_of(job, &line);
            Rail { line, segments, hooks: Vec::new(), splices }
        })
        .collect()
}

/// Largest design loads on every module, and its clamps.
pub(super) fn modules(job: &Job, rails: &[Rail]) -> Vec<ModuleResult> {
    array::modules(&job.fields, &job.module)
        .into_iter()
        .map(|placed| {
            let mut press = (Pressure::ZERO, 0);
            let mut lift = (Pressure::ZERO, 0);
            let wind = job.actions.wind.on_rect(&placed.rect);
            for (i, c) in job.actions.combinations.iter().enumerate() {
                if c.factors.situation == Situation::Characteristic {
                    continue;
                }
                let load = loading::module_load(job, c, &wind, Component::Normal);
                let p = Pressure::from_n_per_m2(load.n() / job.module.area().m2());
                if p > press.0 {
                    press = (p, i);
                }
                if -p > lift.0 {
                    lift = (-p, i);
                }
            }
            let own: Vec<&RailLine> = rails
                .iter()
                .map(|r| &r.line)
                .filter(|l| {
                    l.field == placed.field
                        && l.row == placed.row
                        && (l.columns[0]..=l.columns[1]).contains(&placed.column)
                })
                .collect();
            let share = own.iter().map(|l| l.share).fold(0.0, f64::max);
            let inner = own.iter().any(|l| l.columns[0] < l.columns[1]);
            let near = |y: Length| {
                let [bottom, top] = placed.rect.y.map(Length::from_mm);
                (y - bottom).min(top - y)
            };
            let clamps = [Position::Lower, Position::Upper].map(|position| {
                own.iter().find(|l| l.position == position).map_or(Length::ZERO, |l| near(l.y))
            });
            let check = module::check(
                &job.module,
                &job.clamp,
                press.0,
                lift.0,
                share,
                if inner { 2 } else { 1 },
            );
            let combinations = [press.1, lift.1];
            ModuleResult { placed, press: press.0, lift: lift.0, combinations, clamps, check }
        })
        .collect()
}

/// Sums of hook forces on every rafter, and its checks when its span is known.
pub(super) fn rafters(
    job: &Job,
    footings: &[Footing],
    rails: &[Rail],
    modules: &[ModuleResult],
) -> Vec<RafterResult> {
    let mut hooks: Vec<Vec<[usize; 3]>> = vec![Vec::new(); job.roof.rafters.positions.len()];
    for (at, place) in hooks_of(rails) {
        hooks[place.rafter].push(at);
    }
    hooks
        .into_iter()
        .enumerate()
        .filter(|(_, hooks)| !hooks.is_empty())
        .map(|(rafter, hooks)| {
            let bare = bare_share(job, modules, job.roof.rafters.positions[rafter]);
            rafter_result(job, footings, rails, bare, (rafter, hooks))
        })
        .collect()
}

fn rafter_result(
    job: &Job,
    footings: &[Footing],
    rails: &[Rail],
    bare: f64,
    (rafter, hooks): (usize, Vec<[usize; 3]>),
) -> RafterResult {
    let drawn = job.roof.rafters.width;
    let found = hooks.iter().map(|[r, s, h]| {
        let laid = &rails[*r].segments[*s];
        footings[laid.segment.candidates[laid.found.subset[*h]].setting].rafter_width
    });
    // Where widths were measured, the least of them: a rafter may be cut or worn in one place.
    let width_of_timber = found.reduce(Length::min).unwrap_or(drawn);
    let [cos, sin] = [job.roof.pitch.cos(), job.roof.pitch.sin()];
    let width = job.roof.rafters.carried_width(rafter);
    let permanent = job.roof.rafters.permanent * width;
    let mut out = RafterResult {
        rafter,
        hooks: Vec::new(),
        press: Force::ZERO,
        lift: Force::ZERO,
        slope: Force::ZERO,
        added_share: 0.0,
        utilisation: job.roof.rafters.span.map(|_| [Governing::NONE; 2]),
    };
    let section = RafterSection {
        width: width_of_timber,
        depth: job.roof.rafters.depth,
        timber: job.timber,
        k_cr: timber::crack_factor(job.annex.k_cr_rule, job.timber.f_v_k),
    };
    let carried: Vec<(&SegmentResult, usize, Length)> = hooks
        .iter()
        .filter_map(|[r, s, h]| {
            let result = rails[*r].segments[*s].result.as_ref()?;
            Some((result, *h, rails[*r].line.y))
        })
        .collect();
    let train = job.roof.rafters.span.map(|span| Train::new(span, carried.iter().map(|c| c.2)));
    let snow = &job.actions.snow;
    let uniform = |factors: &en1990::Combination| {
        let on_tiles = (snow.on_slope.normal * factors.snow
            + snow.exceptional_on_slope.normal * factors.exceptional_snow)
            * width
            * bare;
        permanent * (factors.permanent * cos) + on_tiles
    };
    let used_by = |i: usize, effects: &RafterEffects| {
        let combination = &job.actions.combinations[i];
        rafter::utilisation(&section, effects, combination.k_mod, combination.gamma_m_timber)
    };
    let mut forces: Vec<Force> = Vec::with_capacity(carried.len());
    // What each combination uses at most.
    let mut at_most: Vec<([f64; 2], usize)> = Vec::new();
    for (i, combination) in job.actions.combinations.iter().enumerate() {
        forces.clear();
        forces.extend(carried.iter().map(|(result, h, _)| result.forces[i][*h][0]));
        let slope: Force = carried.iter().map(|(result, h, _)| result.forces[i][*h][1]).sum();
        let sum: Force = forces.iter().copied().sum();
        let factors = &combination.factors;
        if factors.situation == Situation::Characteristic {
            // The permanent combination is the weight of the array itself.
            if factors.snow == 0.0 && factors.wind == WindSense::None {
                let bounds = job.roof.outline.bounds();
                let carried = permanent * Length::from_mm(bounds.y[1] - bounds.y[0]);
                let vertical = sum * cos + slope * sin;
                out.added_share = if carried > Force::ZERO { vertical / carried } else { 0.0 };
            }
            continue;
        }
        out.press = out.press.max(sum);
        out.lift = out.lift.max(-sum);
        out.slope = out.slope.max(slope);
        if let Some(train) = &train {
            at_most.push((used_by(i, &train.at_most(uniform(factors), &forces)), i));
        }
    }
    if let (Some(train), Some(worst)) = (&train, out.utilisation.as_mut()) {
        // After those that may use most, few of the others can raise what is known.
        at_most.sort_by(|a, b| b.0[0].total_cmp(&a.0[0]));
        for (at_most, i) in at_most {
            if at_most.iter().zip(&*worst).all(|(most, known)| *most < known.utilisation) {
                continue;
            }
            forces.clear();
            forces.extend(carried.iter().map(|(result, h, _)| result.forces[i][*h][0]));
            let factors = &job.actions.combinations[i].factors;
            let used = used_by(i, &train.effects(uniform(factors), &forces));
            for (worst, used) in worst.iter_mut().zip(used) {
                worst.see(used, i);
            }
        }
    }
    out.hooks = hooks;
    out
}

/// Share of a rafter's length that no module covers.
fn bare_share(job: &Job, modules: &[ModuleResult], x: Length) -> f64 {
    let bounds = job.roof.outline.bounds();
    let covered: f64 = modules
        .iter()
        .map(|module| &module.placed.rect)
        .filter(|rect| rect.x[0] <= x.mm() && x.mm() <= rect.x[1])
        .map(|rect| rect.y[1] - rect.y[0])
        .sum();
    (1.0 - covered / (bounds.y[1] - bounds.y[0])).clamp(0.0, 1.0)
}
