//! Rails and hooks that are there already and stay where they are when the rest is laid out.
//!
//! A kept rail takes the place of the one that would be laid for the same modules, and goes on beyond its
//! ends where they need it to. A kept hook is part of every choice of hooks on its rail, with its foot as it
//! is set; no other stands on its rafter there, nor where its arm would meet the one of a kept hook.

use crate::checks::segment::Candidate;
use crate::units::Length;

use super::array::{self, Run};
use super::built::{self, Built, BuiltHook, Unplaced};
use super::candidates;
use super::footing::{Footing, FoundFooting, UnderRails};
use super::rail_lines::{self, Given, RailLine};
use super::{Job, places, sideways};

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
    /// Rafter.
    rafter: usize,
    /// Course its arm leaves under.
    course: i64,
    /// Its axis at the hook, and where the arm stands.
    at: [Length; 2],
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
    /// Its rail does not reach it, or has an expansion gap there.
    #[error("No rail of the layout is over it")]
    BeyondRail,
    /// Its arm meets that of another kept hook.
    #[error("Its arm meets that of another hook of the rail")]
    OnAnother,
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
        let clear = rail_lines::under(job, &lines).clear;
        for way in &mut built.ways {
            way.rails.clear = clear;
        }
        built.footings = built.ways.iter().map(|way| Footing::found(job, way)).collect();
        let mut unkept = Vec::new();
        let mut places: Vec<Place> = Vec::with_capacity(built.hooks.len());
        for (h, hook) in built.hooks.iter().enumerate() {
            match place(job, &lines, hook) {
                Ok(place) => {
                    let meets = |other: &Place| {
                        other.rail == place.rail
                            && (other.at[1] - place.at[1]).abs() < job.hook.arm_width
                    };
                    if places.iter().any(meets) {
                        unkept.push(Unkept::Hook(h, Misplaced::OnAnother));
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
            (kept.rail, kept.rafter, kept.at) == (rail, place.rafter, [place.x, place.arm_x])
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
                let at = places::Place::along_eaves(place.course, place.rafter, place.at);
                let there = candidates::candidate(job, footing, at, ends);
                Candidate { stands: true, ..there }
            })
            .collect();
        if standing.is_empty() {
            return drawn;
        }
        let has_room = |place: &Candidate| {
            standing.iter().all(|other| {
                other.rafter != place.rafter
                    && (other.arm_x - place.arm_x).abs() >= job.hook.arm_width
            })
        };
        let mut places: Vec<Candidate> = drawn.into_iter().filter(has_room).collect();
        places.extend(standing);
        places.sort_by(|a, b| a.arm_x.mm().total_cmp(&b.arm_x.mm()));
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
            None => unkept.push(Unkept::Rail(r, Unplaced::NoModules)),
        }
    }
    let y = |rail: usize| built.rails[rail].y;
    for (i, (run, rail)) in over.iter().enumerate() {
        let before = over[..i].iter().filter(|(other, _)| other == run);
        let before: Vec<usize> = before.map(|(_, rail)| *rail).collect();
        if before.len() > 1 {
            unkept.push(Unkept::Rail(*rail, Unplaced::Third));
        } else if before.iter().any(|other| (y(*other) - y(*rail)).abs() < job.rail.depth) {
            unkept.push(Unkept::Rail(*rail, Unplaced::OnAnother));
        }
    }
    if !unkept.is_empty() {
        return Err(unkept);
    }
    let given = |rail: usize| {
        let kept = &built.rails[rail];
        let (course, on_grid) = built::course_at(job, kept.y);
        let (ends, splices) = (kept.ends, kept.splices.clone());
        Given { rail, y: kept.y, course, on_grid, ends, splices }
    };
    Ok(rail_lines::beside(job, |run| {
        let mut of: Vec<usize> =
            over.iter().filter(|(other, _)| other == run).map(|(_, rail)| *rail).collect();
        of.sort_by(|a, b| y(*a).mm().total_cmp(&y(*b).mm()));
        match of[..] {
            [lower, upper] => [Some(given(lower)), Some(given(upper))],
            [rail] if built::position_alone(job, *run, y(rail)).place() == 0 => {
                [Some(given(rail)), None]
            }
            [rail] => [None, Some(given(rail))],
            _ => [None, None],
        }
    }))
}

/// Of the runs over a rail, the one that most of its hooks belong to, of equals the first.
fn run_over(job: &Job, built: &Built, runs: &[Run], rail: usize, own: &[usize]) -> Option<Run> {
    let rail = &built.rails[rail];
    let meets = |run: &&Run| {
        let [left, right] = built::edges(job, **run);
        rail.ends[0].is_none_or(|start| start < right) && rail.ends[1].is_none_or(|end| left < end)
    };
    let over = runs.iter().filter(|run| built::lies_over(job, **run, rail.y)).filter(meets);
    let hooks = |run: &Run| built.hooks_under(job, *run, own);
    over.copied().reduce(|a, b| if hooks(&b) > hooks(&a) { b } else { a })
}

/// Where a kept hook stands.
fn place(job: &Job, lines: &[RailLine], hook: &BuiltHook) -> Result<Place, Misplaced> {
    let rafter = built::rafter_under(job, hook).ok_or(Misplaced::MissesRafter)?;
    if job.roof.rafters.is_barred(rafter) {
        return Err(Misplaced::Barred(rafter));
    }
    let over = lines.iter().enumerate().find_map(|(rail, line)| {
        let there = line.there.filter(|there| there.rail == hook.rail)?;
        let reached = there.reach[0] <= hook.x && hook.x <= there.reach[1];
        let over = |ends: &[Length; 2]| ends[0] <= hook.x && hook.x <= ends[1];
        let segment = line.segments.iter().position(over).filter(|_| reached)?;
        Some((rail, segment, line))
    });
    let (rail, segment, line) = over.ok_or(Misplaced::BeyondRail)?;
    let ends = line.segments[segment];
    let arm_x = hook
        .arm_x
        .or_else(|| sideways::arm_position(job, line.course()?, hook.x, ends))
        .filter(|arm_x| ends[0] <= *arm_x && *arm_x <= ends[1])
        .unwrap_or(hook.x);
    let course = line.course().unwrap_or_default();
    Ok(Place { rail, segment, rafter, course, at: [hook.x, arm_x] })
}
