//! The fewest hooks to add where a built rail does not hold.
//!
//! Every rafter under the rail that is free takes a hook as drawn, or every course where the rail runs up the
//! slope; the hooks that stand stay. The search for the fewest hooks then says how few of them do, with the
//! same proof, because it runs the same checks over choices that all have the hooks that stand.

use crate::checks::segment::{Candidate, Hold, SegmentResult};
use crate::effort::Allowance;
use crate::units::Length;

use super::Job;
use super::built::{Built, BuiltHook, Checked};
use super::candidates;
use super::footing::Footing;
use super::laid::{LaidSegment, Rail};
use super::places::{self, Place};
use super::rail_axis::RailAxis;
use super::rail_lines::RailLine;
use super::search::{self, Found, Limit, Pattern};
use super::{segments, shared_rafters, up_slope};

/// Most choices weighed for one segment: a built job may have many that fail.
pub const MOST_WEIGHED: u64 = 20_000;

/// What can be done about a segment that does not hold.
#[derive(Debug, Clone)]
pub struct Repair {
    /// Rail, by place.
    pub rail: usize,
    /// Segment of it.
    pub segment: usize,
    /// The choice found, over the places that stand or are free.
    pub found: Found,
    /// Those places.
    pub places: Vec<Candidate>,
    /// Checks of that choice; `None` when the rail is not stable on it.
    pub result: Option<SegmentResult>,
}

impl Repair {
    /// Hooks to add, where adding helps.
    pub fn added(&self) -> impl Iterator<Item = &Candidate> {
        let chosen = self.found.subset.iter().map(|at| &self.places[*at]);
        chosen.filter(|place| !place.stands && self.found.outcome.passes())
    }
}

/// Looks for a repair of every segment that does not hold.
#[must_use]
pub fn repairs(job: &Job, built: &Built, checked: &Checked) -> Vec<Repair> {
    on(job, (built, &footings(job, built)), checked)
}

/// The same as if no arm touched its tile, however far it comes down.
#[must_use]
pub fn repairs_beside_clearance(job: &Job, built: &Built, checked: &Checked) -> Vec<Repair> {
    let footings: Vec<Footing> =
        footings(job, built).into_iter().map(Footing::clear_of_tiles).collect();
    on(job, (built, &footings), checked)
}

/// Those that stand, and last that of a hook that is added.
fn footings(job: &Job, built: &Built) -> Vec<Footing> {
    let mut footings = built.footings.clone();
    footings.push(built.added(job).1);
    footings
}

fn on(job: &Job, (built, footings): (&Built, &[Footing]), checked: &Checked) -> Vec<Repair> {
    let mut allowance = Allowance::from(&job.effort);
    let stretches = shared_rafters::stretches(job, &that_fail(job, checked));
    let failing = checked.layout.segments().filter(|laid| !holds(job, laid));
    let mut left = failing.count() as u64;
    let mut out = Vec::new();
    for (r, rail) in checked.layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            if !holds(job, laid) {
                let mut part = allowance.part(left);
                let free = free_places(job, (built, footings), checked, ([r, s], stretches[r][s]));
                out.push(repair(job, footings, rail, ([r, s], free), &mut part));
                allowance.spend(part.spent());
                left -= 1;
            }
        }
    }
    out
}

/// The lines of the rails, without length where no hooks are to be added.
fn that_fail(job: &Job, checked: &Checked) -> Vec<RailLine> {
    let line = |rail: &Rail| {
        let parts = rail.segments.iter().zip(&rail.line.segments);
        let parts =
            parts.map(|(laid, [from, to])| [*from, if holds(job, laid) { *from } else { *to }]);
        RailLine { segments: parts.collect(), ..rail.line.clone() }
    };
    checked.layout.rails.iter().map(line).collect()
}

/// Whether the supports of a segment and every check of it by utilisation pass.
#[must_use]
pub fn holds(job: &Job, laid: &LaidSegment) -> bool {
    let within = |result: &SegmentResult| job.wishes.allow(result.governing().1.utilisation);
    laid.segment.ends_are_short(&laid.found.subset) && laid.result.as_ref().is_some_and(within)
}

fn repair(
    job: &Job,
    footings: &[Footing],
    rail: &Rail,
    ([r, s], free): ([usize; 2], Vec<Candidate>),
    allowance: &mut Allowance,
) -> Repair {
    let ends = rail.line.segments[s];
    let mut places: Vec<Candidate> = rail.segments[s]
        .segment
        .candidates
        .iter()
        .map(|place| Candidate { stands: true, ..place.clone() })
        .collect();
    places.extend(free);
    places.sort_by(|a, b| a.at.mm().total_cmp(&b.at.mm()));
    let segment = segments::segment(job, footings, &rail.line, ends, places);
    let bound = job.wishes.max_utilisation;
    let weighed = job.wishes.search_limit.min(MOST_WEIGHED);
    let limit = Limit { weighed, allowance: Some(allowance) };
    let found = search::fewest_hooks(&segment, bound, Pattern::Free, limit, &[]);
    let result = segment.check_all(&found.subset);
    Repair { rail: r, segment: s, found, places: segment.candidates, result }
}

/// Rafters without a hook of this rail where one has room beside those that stand, or courses of a rail up the
/// slope where a foot has room beside all that stand on its rafter. Of these so many are left to the next part
/// of a rail on that rafter that hooks added to both do not meet.
fn free_places(
    job: &Job,
    (built, footings): (&Built, &[Footing]),
    checked: &Checked,
    ([r, s], stretch): ([usize; 2], [Length; 2]),
) -> Vec<Candidate> {
    let rail = &checked.layout.rails[r];
    let (ends, standing) = (rail.line.segments[s], &rail.segments[s].segment.candidates);
    let Some((drawn, setting)) = footings.last().zip(footings.len().checked_sub(1)) else {
        return Vec::new();
    };
    // A foot takes its place, whether its hook carries or not.
    let on_rafters = built.on_rafters(job);
    let mut out: Vec<Candidate> = Vec::new();
    for place in places::places(job, &rail.line, ends) {
        let [low, high] = place.reach(job.rail_axis);
        let is_free = match job.rail_axis {
            RailAxis::AlongEaves => {
                let Place { rafter, arm_x, .. } = place;
                let room = |other: &Candidate| (other.arm_x - arm_x).abs() >= job.hook.arm_width;
                let taken = standing.iter().any(|other| other.rafter == rafter);
                !taken && standing.iter().chain(&out).all(room)
            }
            RailAxis::UpSlope => on_rafters.iter().all(|(rafter, at, _)| {
                *rafter != place.rafter || up_slope::are_apart(job, [*at, place.at])
            }),
        };
        if stretch[0] <= low
            && high <= stretch[1]
            && is_free
            && !is_beyond_holder(job, standing, &place)
        {
            out.push(candidates::candidate(job, (drawn, setting), place, ends));
        }
    }
    out
}

/// Whether a place lies beyond the hook that holds the rail along its axis: no hook is added there, so that it
/// stays the one.
fn is_beyond_holder(job: &Job, standing: &[Candidate], place: &Place) -> bool {
    match job.hold {
        Hold::AllHooks => false,
        Hold::LowestHook => standing.first().is_some_and(|lowest| place.at < lowest.at),
        Hold::HighestHook => standing.last().is_some_and(|highest| place.at > highest.at),
    }
}

/// The job with the hooks of its repairs added.
#[must_use]
pub fn repaired(job: &Job, built: &Built, repairs: &[Repair]) -> Built {
    let mut with = built.clone();
    let (way, footing) = built.added(job);
    with.footings.push(footing);
    with.ways.push(way);
    for repair in repairs {
        for place in repair.added() {
            with.hooks.push(BuiltHook {
                id: format!("{}+{}", built.rails[repair.rail].id, place.step),
                rail: repair.rail,
                x: place.x,
                y: job.rail_axis.told(RailAxis::UpSlope, place.at),
                arm_x: Some(place.arm_x),
                measured: false,
                unsound: None,
                footing: built.footings.len(),
            });
        }
    }
    with
}
