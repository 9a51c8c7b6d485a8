//! Feet that stand, set anew: packers that lift an arm clear of its tile, longer screws that hold.
//!
//! What a hook carries follows from rail, rafters and the stiffness of hooks as drawn, not from how its
//! foot is set. So each foot is looked at by itself, against the forces it has, and what is found for it
//! is exact: a low stack that clears the tile before load and under it, then the shortest usual screw
//! that holds with that stack. A screw may end in the rafter, not below it.

use crate::checks::clearance;
use crate::checks::segment::Candidate;
use crate::units::Length;

use super::Job;
use super::built::{Built, Checked};
use super::candidates;
use super::footing::{Footing, FoundFooting};
use super::laid::LaidSegment;
use super::places::Place;

/// The same, mm.
const USUAL_LENGTHS_MM: [f64; 17] = [
    80.0, 100.0, 120.0, 140.0, 160.0, 180.0, 200.0, 220.0, 240.0, 260.0, 280.0, 300.0, 320.0,
    340.0, 360.0, 380.0, 400.0,
];

/// Lengths wood screws for hooks come in, shortest first (common practice, no source).
pub fn usual_lengths() -> impl Iterator<Item = Length> {
    USUAL_LENGTHS_MM.map(Length::from_mm).into_iter()
}

/// Stacks of packers that are tried for a foot at most: the first one mostly does.
const MOST_STACKS: usize = 3;

/// A foot to set anew.
#[derive(Debug, Clone, PartialEq)]
pub struct Refit {
    /// The hook, by place among those built.
    pub hook: usize,
    /// How to set it.
    pub way: FoundFooting,
}

/// The feet to set anew: all of a segment where that alone makes it hold, and elsewhere those whose
/// arm stands too near to its tile before any load, which no hook added would change.
#[must_use]
pub fn refits(job: &Job, built: &Built, checked: &Checked) -> Vec<Refit> {
    let mut out = Vec::new();
    for rail in &checked.layout.rails {
        for (s, (laid, ends)) in rail.segments.iter().zip(&rail.line.segments).enumerate() {
            let Some(result) = &laid.result else { continue };
            let mut feet = Vec::new();
            for h in 0..laid.found.subset.len() {
                let name = rail.name_of([s, h]);
                let Some(hook) = built.hooks.iter().position(|b| b.id == name) else { continue };
                feet.push(foot(job, built, hook, (laid, h, *ends)));
            }
            let rail_within = job.wishes.allow(result.bending.utilisation)
                && job.wishes.allow(result.deflection.utilisation);
            let hooks_within =
                result.hooks.iter().all(|hook| job.wishes.allow(hook.hook.utilisation));
            let alone = rail_within
                && hooks_within
                && laid.segment.ends_are_short(&laid.found.subset)
                && feet.iter().all(|foot| !matches!(foot, Foot::Beyond { .. }));
            out.extend(feet.into_iter().filter_map(|foot| match foot {
                Foot::Refit { refit, too_near } => (alone || too_near).then_some(refit),
                Foot::Beyond { packed } => packed,
                Foot::Holds => None,
            }));
        }
    }
    out
}

/// What can be done about one foot.
enum Foot {
    /// Nothing has to be.
    Holds,
    /// This makes it hold; it may also have been too near to its tile.
    Refit { refit: Refit, too_near: bool },
    /// Nothing makes it hold under its load; packers may still clear the tile before load.
    Beyond { packed: Option<Refit> },
}

fn foot(
    job: &Job,
    built: &Built,
    hook: usize,
    (laid, h, ends): (&LaidSegment, usize, [Length; 2]),
) -> Foot {
    let place = built.hooks[hook].footing;
    let (footing, way) = (&built.footings[place], &built.ways[place]);
    let Some(result) = laid.result.as_ref().and_then(|result| result.hooks.get(h)) else {
        return Foot::Holds;
    };
    let too_near = footing.clearance < job.wishes.min_clearance;
    let screwed = footing.capacity.is_ok() && job.wishes.allow(result.screws.utilisation);
    if !too_near && screwed && job.wishes.allow(result.clearance.utilisation) {
        return Foot::Holds;
    }
    let stack = |want: Length| {
        let packers = clearance::packers_for(&job.packers, footing.bare_clearance, want)?;
        let height: Length = packers.iter().copied().sum();
        let clearance = way.clearance.map(|_| footing.bare_clearance + height);
        Some(FoundFooting { packers, clearance, ..way.clone() })
    };
    let mut enough = job.wishes.min_clearance.max(movement(job, laid, h, footing));
    let mut refit = None;
    for _ in 0..MOST_STACKS {
        let packed = if footing.clearance < enough { stack(enough) } else { Some(way.clone()) };
        let Some(way) = packed.and_then(|packed| shortest_screws(job, &packed, (laid, h, ends)))
        else {
            break;
        };
        // On another stack and with other screws the foot gives otherwise.
        let set = Footing::found(job, &way);
        enough = job.wishes.min_clearance.max(movement(job, laid, h, &set));
        if set.clearance >= enough - SAME {
            refit = Some(Refit { hook, way });
            break;
        }
    }
    refit.map_or_else(
        || {
            let before_load = if too_near { stack(job.wishes.min_clearance) } else { None };
            Foot::Beyond { packed: before_load.map(|way| Refit { hook, way }) }
        },
        |refit| Foot::Refit { refit, too_near },
    )
}

/// Clearance a hook whose foot is set so uses up under the characteristic load, with what is to be kept in
/// reserve.
fn movement(job: &Job, laid: &LaidSegment, hook: usize, footing: &Footing) -> Length {
    let moved = laid.movement(hook, &footing.spring).unwrap_or_default();
    moved / job.wishes.max_utilisation
}

/// Heights this little apart are the same.
const SAME: Length = Length::from_mm(1e-9);

/// The way with the screws it has, or the shortest usual ones that hold; `None` when none do.
fn shortest_screws(
    job: &Job,
    way: &FoundFooting,
    at: (&LaidSegment, usize, [Length; 2]),
) -> Option<FoundFooting> {
    let longer = usual_lengths().filter(|length| *length > way.screw_length);
    let mut lengths = std::iter::once(way.screw_length).chain(longer);
    lengths.find_map(|screw_length| {
        let way = FoundFooting { screw_length, ..way.clone() };
        screws_hold(job, &way, at).then_some(way)
    })
}

fn screws_hold(
    job: &Job,
    way: &FoundFooting,
    (laid, h, ends): (&LaidSegment, usize, [Length; 2]),
) -> bool {
    let footing = Footing::found(job, way);
    if footing.capacity.is_err() || footing.seat.comes_out() {
        return false;
    }
    let stands = &laid.segment.candidates[laid.found.subset[h]];
    let Candidate { rafter, course, x, arm_x, at, .. } = *stands;
    let place = Place { rafter, course, x, arm_x, at };
    let foot = candidates::candidate(job, (&footing, 0), place, ends).foot;
    laid.foot_holds(h, &foot, &footing.setting(), |used| job.wishes.allow(used))
}
