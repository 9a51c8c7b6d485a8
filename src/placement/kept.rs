//! Rails and hooks that are there already and stay where they are when the rest is laid out.
//!
//! A kept rail takes the place of the one that would be laid for the same modules, and goes on beyond its
//! ends where they need it to. A kept hook is part of every choice of hooks on its rail, with its foot as it
//! is set; no other stands on its rafter there, nor where its arm would meet the one of a kept hook, nor under a
//! rail up the slope where its foot would.

use crate::checks::segment::Candidate;
use crate::units::Length;

use super::array::{self, Run};
use super::built::{self, Built, BuiltHook, Idle, Unplaced};
use super::candidates;
use super::footing::{Footing, FoundFooting, UnderRails};
use super::places;
use super::rail_axis::RailAxis;
use super::rail_lines::{self, Given, RailLine};
use super::{Job, up_slope};

/// Rails and hooks that stay, each in its place in the layout.
#[derive(Debug, Clone, Default)]
pub struct Kept {
    /// As they were built.
    pub built: Built,
    /// Every rail of the layout, the kept ones on their lines.
    lines: Vec<RailLine>,
    /// Where each hook stands, in the same order.
    places: Vec<Place>,
}

/// Where a kept hook stands.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Place {
    /// Rail of the layout.
    rail: usize,
    /// Segment of it.
    segment: usize,
    /// The place under it.
    of: places::Place,
}

/// What cannot be kept, by place among those to be kept, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unkept {
    /// A rail.
    Rail(usize, Unplaced),
    /// A hook.
    Hook(usize, Misplaced),
}

/// Why a hook cannot be kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Misplaced {
    /// No rafter is near.
    #[error("No rafter lies within {} mm of it", built::OFF_RAFTER.mm())]
    MissesRafter,
    /// Its rafter is barred.
    #[error("It stands on rafter {0}, which is barred: a hook that does not hold is left out")]
    Barred(usize),
    /// Its rafter was found rotten.
    #[error(
        "It stands on rafter {0}, which was found rotten: leave out the hook and bar the rafter"
    )]
    OnRotten(usize),
    /// Its rail does not reach it, or has an expansion gap there.
    #[error("No rail of the layout is over it")]
    BeyondRail,
    /// Its arm does not leave the covering where its rail up the slope has its arms.
    #[error("Its arm does not leave the covering under its rail")]
    BesideRail,
    /// Its arm meets that of another kept hook.
    #[error("Its arm meets that of another hook of the rail")]
    OnAnother,
    /// Its foot meets that of another kept hook.
    #[error("Its foot meets that of another hook on the rafter")]
    FootOnAnother,
}

impl Kept {
    /// Whether nothing is there yet.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.built.rails.is_empty()
    }

    /// Finds the place of everything that is to stay.
    ///
    /// # Errors
    /// Everything that has none.
    pub fn of(job: &Job, mut built: Built) -> Result<Self, Vec<Unkept>> {
        let lines = lines(job, &built)?;
        let clear = match job.rail_axis {
            RailAxis::AlongEaves => rail_lines::under(job, &lines).clear,
            RailAxis::UpSlope => built.clear(job),
        };
        for way in &mut built.ways {
            way.rails.clear = clear;
        }
        built.footings = built.ways.iter().map(|way| Footing::found(job, way)).collect();
        let mut unkept = Vec::new();
        let mut places: Vec<Place> = Vec::with_capacity(built.hooks.len());
        for (h, hook) in built.hooks.iter().enumerate() {
            match place(job, &lines, hook) {
                Ok(place) => {
                    if let Some(why) = places.iter().find_map(|other| meets(job, other, &place)) {
                        unkept.push(Unkept::Hook(h, why));
                    }
                    places.push(place);
                }
                Err(misplaced) => unkept.push(Unkept::Hook(h, misplaced)),
            }
        }
        if unkept.is_empty() { Ok(Self { built, lines, places }) } else { Err(unkept) }
    }

    /// Every rail of the layout.
    #[must_use]
    pub fn lines(&self, job: &Job) -> Vec<RailLine> {
        if self.is_empty() { rail_lines::rail_lines(job) } else { self.lines.clone() }
    }

    /// How a new foot is set under these rails, and what it comes to.
    #[must_use]
    pub fn new_foot(&self, job: &Job, rails: UnderRails) -> (FoundFooting, Footing) {
        self.built.added_under(job, rails)
    }

    /// Which kept hook stands in a place of a rail of the layout, if one does.
    #[must_use]
    pub fn hook_at(&self, rail: usize, place: &Candidate) -> Option<usize> {
        let is = |kept: &Place| {
            let places::Place { rafter, x, arm_x, at, .. } = kept.of;
            (kept.rail, rafter, [x, arm_x, at])
                == (rail, place.rafter, [place.x, place.arm_x, place.at])
        };
        self.places.iter().position(is).filter(|_| place.stands)
    }
}

/// How the feet of a layout are set: the new ones in the first way, the kept ones as they are.
#[derive(Debug, Clone)]
pub struct Feet<'a> {
    kept: &'a Kept,
    /// Ways the feet are set.
    pub footings: Vec<Footing>,
    /// Place among them of each way in which kept ones are set.
    settings: Vec<usize>,
}

impl<'a> Feet<'a> {
    /// New feet set in a way, and what it comes to, beside those that are kept.
    #[must_use]
    pub fn beside(kept: &'a Kept, (way, footing): (&FoundFooting, Footing)) -> Self {
        let packed = footing.packers.is_some();
        let mut footings = vec![footing];
        let ways = kept.built.ways.iter().zip(&kept.built.footings);
        let settings = ways
            .map(|(kept, footing)| {
                if packed && alike(kept, way) {
                    return 0;
                }
                footings.push(footing.clone());
                footings.len() - 1
            })
            .collect();
        Self { kept, footings, settings }
    }

    /// The places of a segment of a rail with those of its kept hooks among them, in the stead of the
    /// places for which these leave no room.
    #[must_use]
    pub fn among(
        &self,
        job: &Job,
        [rail, segment]: [usize; 2],
        ends: [Length; 2],
        drawn: Vec<Candidate>,
    ) -> Vec<Candidate> {
        let kept = self.kept.places.iter().zip(&self.kept.built.hooks);
        let own = kept.filter(|(place, _)| [place.rail, place.segment] == [rail, segment]);
        let standing: Vec<Candidate> = own
            .map(|(place, hook)| {
                let setting = self.settings[hook.footing];
                let footing = (&self.footings[setting], setting);
                let there = candidates::candidate(job, footing, place.of, ends);
                Candidate { stands: true, ..there }
            })
            .collect();
        let has_room = |place: &Candidate| match job.rail_axis {
            RailAxis::AlongEaves => standing.iter().all(|other| {
                other.rafter != place.rafter
                    && (other.arm_x - place.arm_x).abs() >= job.hook.arm_width
            }),
            // Hooks of other rails stand on its rafter too.
            RailAxis::UpSlope => self.kept.places.iter().all(|other| {
                other.of.rafter != place.rafter || up_slope::are_apart(job, [other.of.at, place.at])
            }),
        };
        let mut places: Vec<Candidate> = drawn.into_iter().filter(has_room).collect();
        places.extend(standing);
        places.sort_by(|a, b| a.at.mm().total_cmp(&b.at.mm()));
        places
    }
}

/// Whether feet are set alike but for the rounding of where their rails lie.
fn alike(one: &FoundFooting, other: &FoundFooting) -> bool {
    const ROUNDING: Length = Length::from_mm(1e-6);
    let off = one.rails.bolt_beyond_exit - other.rails.bolt_beyond_exit;
    off.abs() < ROUNDING && FoundFooting { rails: other.rails, ..one.clone() } == *other
}

/// Every rail of the layout.
fn lines(job: &Job, built: &Built) -> Result<Vec<RailLine>, Vec<Unkept>> {
    let runs: Vec<Run> = array::runs(&job.fields, job.rail_axis).collect();
    let own = built.by_rail();
    let mut unkept = Vec::new();
    let mut over: Vec<(Run, usize)> = Vec::new();
    for (r, own) in own.iter().enumerate() {
        match run_over(job, built, &runs, r, own) {
            Some(run) => over.push((run, r)),
            None => unkept.push(Unkept::Rail(r, built::no_modules(job.rail_axis))),
        }
    }
    let across = |rail: usize| built.rails[rail].across;
    for (i, (run, rail)) in over.iter().enumerate() {
        let before = over[..i].iter().filter(|(other, _)| other == run);
        let before: Vec<usize> = before.map(|(_, rail)| *rail).collect();
        if before.len() > 1 {
            unkept.push(Unkept::Rail(*rail, Unplaced::Third));
        } else if before.iter().any(|other| (across(*other) - across(*rail)).abs() < job.rail.depth)
        {
            unkept.push(Unkept::Rail(*rail, Unplaced::OnAnother));
        }
    }
    if !unkept.is_empty() {
        return Err(unkept);
    }
    let given = |rail: usize| {
        let kept = &built.rails[rail];
        let line = built::follows(job, built, rail, &own[rail]);
        Given { rail, line, ends: kept.ends, splices: kept.splices.clone() }
    };
    Ok(rail_lines::beside(job, |run| {
        let mut of: Vec<usize> =
            over.iter().filter(|(other, _)| other == run).map(|(_, rail)| *rail).collect();
        of.sort_by(|a, b| across(*a).mm().total_cmp(&across(*b).mm()));
        match of[..] {
            [near, far] => [Some(given(near)), Some(given(far))],
            [rail] if built::position_alone(job, *run, across(rail)).place() == 0 => {
                [Some(given(rail)), None]
            }
            [rail] => [None, Some(given(rail))],
            _ => [None, None],
        }
    }))
}

/// Of the runs over a rail, the one that most of its hooks belong to, of equals the first. Fields may lie so
/// close above each other that a rail up the slope reaches under both: of equals the one it lies under most.
fn run_over(job: &Job, built: &Built, runs: &[Run], rail: usize, own: &[usize]) -> Option<Run> {
    let rail = &built.rails[rail];
    let meets = |run: &&Run| {
        let [from, to] = built::edges(job, **run);
        rail.ends[0].is_none_or(|start| start < to) && rail.ends[1].is_none_or(|end| from < end)
    };
    let over = runs.iter().filter(|run| built::lies_over(job, **run, rail.across)).filter(meets);
    let under = |run: &Run| {
        let [from, to] = built::edges(job, *run);
        let [start, end] = rail.ends;
        end.map_or(to, |end| end.min(to)) - start.map_or(from, |start| start.max(from))
    };
    let more = |run: &Run, than: &Run| {
        let [hooks, known] = [run, than].map(|run| built.hooks_under(job, *run, own));
        let is_tie = hooks == known && job.rail_axis == RailAxis::UpSlope;
        hooks > known || is_tie && under(run) > under(than)
    };
    over.copied().reduce(|a, b| if more(&b, &a) { b } else { a })
}

/// Why two kept hooks cannot stand beside each other.
fn meets(job: &Job, one: &Place, other: &Place) -> Option<Misplaced> {
    let apart = (one.of.at - other.of.at).abs();
    match job.rail_axis {
        RailAxis::AlongEaves => {
            (one.rail == other.rail && apart < job.hook.arm_width).then_some(Misplaced::OnAnother)
        }
        RailAxis::UpSlope => (one.of.rafter == other.of.rafter
            && apart < job.hook.foot.length - built::ROUNDING)
            .then_some(Misplaced::FootOnAnother),
    }
}

/// Where a kept hook stands.
fn place(job: &Job, lines: &[RailLine], hook: &BuiltHook) -> Result<Place, Misplaced> {
    let rafter = built::rafter_under(job, hook).ok_or(Misplaced::MissesRafter)?;
    if job.roof.rafters.barred.binary_search(&rafter).is_ok() {
        return Err(Misplaced::Barred(rafter));
    }
    let reaches = |line: &&RailLine| {
        let there = line.there.filter(|there| there.rail == hook.rail);
        let within = |[from, to]: [Length; 2]| from <= hook.along() && hook.along() <= to;
        there.is_some_and(|there| within(there.reach))
    };
    let rail = lines.iter().position(|line| reaches(&line)).ok_or(Misplaced::BeyondRail)?;
    let (segment, of) = built::stand(job, &lines[rail], hook).map_err(|idle| match idle {
        Idle::MissesRafter => Misplaced::MissesRafter,
        Idle::OnRotten(rafter) => Misplaced::OnRotten(rafter),
        Idle::BeyondRail | Idle::OnAnother | Idle::FootOnAnother(_) => Misplaced::BeyondRail,
        Idle::BesideRail(_) => Misplaced::BesideRail,
    })?;
    Ok(Place { rail, segment, of })
}
