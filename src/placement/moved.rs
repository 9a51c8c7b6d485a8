//! Hooks under rails along the eaves on rafters that are not where they were drawn.
//!
//! **Where the arm stands.** Under interlocking tiles the trough stays where it is: the arm leaves in the one
//! nearest to the rafter, as it would have if the rafter had been drawn there. Under all other coverings the
//! arm stands to its rafter as it did.
//!
//! **Layer.** Of `placement`; what is asked of moved hooks is in [`room`](super::room) and
//! [`rafters_off`](super::rafters_off).

use crate::checks::Check;
use crate::checks::roll::BORNE;
use crate::checks::segment::Candidate;
use crate::checks::sideways::loaded_edge;
use crate::units::Length;

use super::laid::{LaidSegment, Layout, Rail};
use super::places::Place;
use super::search::Found;
use super::{Job, candidates, sideways};

/// Why hooks cannot stand in a place, or not with all checks passed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Obstacle {
    /// A check does not pass.
    Check(Check),
    /// A foot tends to tip sideways, and what would hold it bears no more.
    Tipping,
    /// With the arm farther off the axis a screw stands too near to the edge of the rafter.
    ScrewEdge,
    /// No trough of the covering is within the lateral range of the foot.
    NoTrough,
    /// The rail ends.
    RailEnd,
    /// A free end of the rail would be longer than it may be.
    FreeEnd,
    /// The next hook stands there.
    NextHook,
}

/// A segment with each of its hooks moved so far along it, checked: whatever that comes to, it has a result.
/// Rafters are left out.
///
/// # Errors
/// Why hooks cannot stand there.
pub fn segment(
    job: &Job,
    layout: &Layout,
    [r, s]: [usize; 2],
    moves: &[Length],
) -> Result<LaidSegment, Obstacle> {
    let laid = &layout.rails[r].segments[s];
    let hooks = laid.hooks().zip(moves).map(|(hook, by)| {
        if *by == Length::ZERO { Ok(hook.clone()) } else { moved(job, layout, ([r, s], hook), *by) }
    });
    let hooks: Vec<Candidate> = hooks.collect::<Result<_, _>>()?;
    let ends_hold = hooks.first().is_none_or(|first| first.may_be_first)
        && hooks.last().is_none_or(|last| last.may_be_last);
    if !ends_hold {
        return Err(Obstacle::FreeEnd);
    }
    let beside = |pair: &[Candidate]| pair[1].at - pair[0].at < job.hook.arm_width;
    if hooks.windows(2).any(beside) {
        return Err(Obstacle::NextHook);
    }
    let found = Found::given(hooks.len());
    let moved = laid.segment.with_candidates(hooks);
    let moved = LaidSegment::checked(moved, found, laid.splices.clone());
    // A rail that is not stable on its hooks has too long an end.
    if moved.result.is_some() { Ok(moved) } else { Err(Obstacle::FreeEnd) }
}

fn moved(
    job: &Job,
    layout: &Layout,
    ([r, s], hook): ([usize; 2], &Candidate),
    by: Length,
) -> Result<Candidate, Obstacle> {
    let line = &layout.rails[r].line;
    let ends = line.segments[s];
    let Candidate { rafter, course, x, arm_x, setting, .. } = *hook;
    let arm_x = if job.covering.troughs.is_empty() {
        arm_x + by
    } else {
        sideways::arm_position(job, course, x + by, ends).ok_or(Obstacle::NoTrough)?
    };
    let footing = &layout.footings[setting];
    let (offset, before) = ((arm_x - x - by).abs(), (hook.arm_x - x).abs());
    let foot = &job.hook.foot;
    let edge = loaded_edge(job.rules, foot, &job.screw, offset, footing.rafter_width);
    if offset > before && edge.is_some_and(|edge| edge.have < edge.need) {
        return Err(Obstacle::ScrewEdge);
    }
    let place = Place::along_eaves(course, rafter, [x + by, arm_x]);
    let [low, high] = place.reach(job.rail_axis);
    if low < ends[0] || ends[1] < high {
        return Err(Obstacle::RailEnd);
    }
    Ok(candidates::candidate(job, (footing, setting), place, ends))
}

/// Why a segment that was checked does not pass, if it does not: a check, or a foot that tips sideways, for which
/// an assessment asks as well.
///
/// # Errors
/// What does not pass.
pub fn passes(job: &Job, laid: &LaidSegment) -> Result<(), Obstacle> {
    let Some(result) = &laid.result else { return Err(Obstacle::FreeEnd) };
    let (check, most, _) = result.governing();
    if !job.wishes.allow(most.utilisation) {
        return Err(Obstacle::Check(check));
    }
    let rolling = laid.segment.rolling(&laid.found.subset, result);
    let is_held = rolling.is_none_or(|rolling| rolling.utilisation() <= BORNE);
    if is_held { Ok(()) } else { Err(Obstacle::Tipping) }
}

/// What `asked` says of rails with some segments in the place of those of the layout. `rails` are those of the
/// layout, and are so again afterwards.
pub fn with_segments<T>(
    rails: &mut [Rail],
    with: Vec<([usize; 2], LaidSegment)>,
    asked: impl FnOnce(&[Rail]) -> T,
) -> T {
    let put = |rails: &mut [Rail], ([r, s], laid): ([usize; 2], LaidSegment)| {
        ([r, s], std::mem::replace(&mut rails[r].segments[s], laid))
    };
    let before: Vec<_> = with.into_iter().map(|one| put(rails, one)).collect();
    let said = asked(rails);
    for one in before {
        put(rails, one);
    }
    said
}
