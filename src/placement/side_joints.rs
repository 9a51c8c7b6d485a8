//! Arms moved towards a side joint of the tile they leave under.
//!
//! Near a joint a tile is notched at its edge instead of in its middle, and with half bond the arm
//! lies over the middle of the tile below instead of along a joint of it. The foot turns for it, so
//! an arm moves only as far as
//! * the foot's own range and the screws' distance to the edge of the rafter allow,
//! * no hook and no rail is used more than the most used one of the job was before, and
//! * both free ends stay within their limit.
//!
//! How far a foot lets its arm go is asked of each by itself first, under the forces it has on its
//! axis: moving arms changes those but little, and the segment is then weighed as it would stand.
//!
//! Number of hooks, proof and highest utilisation therefore stay what the search made them; how near
//! the arms come is then as near as a stepwise retreat found, not proven nearest.
//!
//! Under interlocking tiles arms stand in troughs and stay there, and so does every arm that is kept.

use crate::checks::segment::Candidate;
use crate::checks::sideways;
use crate::covering::courses;
use crate::units::Length;

use super::candidates;
use super::footing::Footing;
use super::laid::LaidSegment;
use super::places::Place;
use super::rail_lines::RailLine;
use super::{Job, ROUNDING};

/// Steps an arm retreats by when it cannot go the whole way: quarters of it.
const STEPS: u32 = 4;

/// Times a segment is weighed with its arms moved before they stay where they are.
const ROUNDS: u32 = 3;

/// Two joints whose distances differ by no more than this are equally near.
const AS_NEAR: Length = Length::from_mm(0.1);

/// The segment with its arms nearer to side joints, no hook and no rail used more than `bound`;
/// `None` when none can move.
#[must_use]
pub fn towards_joints(
    job: &Job,
    footings: &[Footing],
    line: &RailLine,
    (laid, ends): (&LaidSegment, [Length; 2]),
    bound: f64,
) -> Option<LaidSegment> {
    // Arms under a rail up the slope stand where it lies.
    if line.course().is_none() || !job.covering.troughs.is_empty() {
        return None;
    }
    if !laid.found.outcome.passes() || laid.result.is_none() {
        return None;
    }
    let bound = bound + ROUNDING;
    let chosen = &laid.found.subset;
    let ranges: Vec<Length> = footings.iter().map(|footing| range(job, footing)).collect();
    let wanted: Vec<Length> = chosen
        .iter()
        .enumerate()
        .map(|(h, place)| {
            let place = &laid.segment.candidates[*place];
            let way = way_to_joint(job, place, ranges[place.setting], ends);
            let there = || off_axis(job, footings, place, way, ends);
            let holds_left = |there: &Candidate| there.may_be_first && ends[0] <= there.arm_x;
            let holds_right = |there: &Candidate| there.may_be_last && there.arm_x <= ends[1];
            let is_held =
                (h > 0 || holds_left(&there())) && (h + 1 < chosen.len() || holds_right(&there()));
            if is_held { way } else { Length::ZERO }
        })
        .collect();
    let mut steps: Vec<u32> = wanted
        .iter()
        .enumerate()
        .map(|(h, way)| foot_lets(job, footings, (laid, h, ends), *way, bound))
        .collect();
    for _ in 0..ROUNDS {
        if steps.iter().all(|step| *step == 0) {
            return None;
        }
        let moved = moved(job, footings, (laid, ends), &wanted, &steps)?;
        let Some(result) = &moved.result else { return None };
        let rail = result.bending.utilisation.max(result.deflection.utilisation);
        let over: Vec<bool> =
            result.hooks.iter().map(|hook| hook.governing().1.utilisation > bound).collect();
        if rail <= bound && !over.contains(&true) {
            return Some(moved);
        }
        retreat(&mut steps, &over);
    }
    None
}

/// Steps of its way that a foot lets its arm go under the forces it has on its axis.
fn foot_lets(
    job: &Job,
    footings: &[Footing],
    (laid, h, ends): (&LaidSegment, usize, [Length; 2]),
    way: Length,
    bound: f64,
) -> u32 {
    if way == Length::ZERO {
        return 0;
    }
    let place = &laid.segment.candidates[laid.found.subset[h]];
    let setting = &laid.segment.settings[place.setting];
    let holds = |step: &u32| {
        let foot = off_axis(job, footings, place, part_of(way, *step), ends).foot;
        laid.foot_holds(h, &foot, setting, |used| used <= bound)
    };
    (1..=STEPS).rev().find(holds).unwrap_or(0)
}

/// So many steps of a way, in whole millimetres: what setting out is good for.
fn part_of(way: Length, step: u32) -> Length {
    Length::from_mm((way.mm() * f64::from(step) / f64::from(STEPS)).trunc())
}

/// Whoever is over retreats a step; where it stands on its axis already, its neighbours do, and
/// where they do as well, or the rail is over, all.
fn retreat(steps: &mut [u32], over: &[bool]) {
    let back = |steps: &mut [u32], mut who: Vec<usize>| {
        who.retain(|h| steps.get(*h).is_some_and(|step| *step > 0));
        for h in &who {
            steps[*h] -= 1;
        }
        !who.is_empty()
    };
    let blamed: Vec<usize> = (0..over.len()).filter(|h| over[*h]).collect();
    let mut beside: Vec<usize> =
        blamed.iter().flat_map(|h| [h.checked_sub(1), Some(h + 1)]).flatten().collect();
    beside.sort_unstable();
    beside.dedup();
    if !back(steps, blamed) && !back(steps, beside) {
        let all = (0..steps.len()).collect();
        back(steps, all);
    }
}

/// How far an arm on its axis may go to the nearest side joint, in whole millimetres, right
/// positive; of two equally near joints to the one nearer to an end of the rail.
fn way_to_joint(job: &Job, place: &Candidate, most: Length, ends: [Length; 2]) -> Length {
    let x = place.x;
    if place.arm_x != x || place.stands {
        return Length::ZERO;
    }
    let column = courses::column_at(&job.covering, place.course, x);
    let left = courses::left_joint(&job.covering, place.course, column);
    let [to_left, to_right] = [x - left, left + job.covering.cover_width - x];
    let nearer_right = if (to_right - to_left).abs() <= AS_NEAR {
        ends[1] - x < x - ends[0]
    } else {
        to_right < to_left
    };
    let way = |to: Length| Length::from_mm(to.min(most).mm().floor());
    if nearer_right { way(to_right) } else { -way(to_left) }
}

/// How far off its axis an arm may stand.
fn range(job: &Job, footing: &Footing) -> Length {
    sideways::largest_offset(job.rules, &job.hook.foot, &job.screw, footing.rafter_width)
}

/// The segment with arms that many steps of their way off their axes; `None` where two would meet.
fn moved(
    job: &Job,
    footings: &[Footing],
    (laid, ends): (&LaidSegment, [Length; 2]),
    wanted: &[Length],
    steps: &[u32],
) -> Option<LaidSegment> {
    let mut places = laid.segment.candidates.clone();
    for ((at, way), step) in laid.found.subset.iter().zip(wanted).zip(steps) {
        places[*at] = off_axis(job, footings, &places[*at], part_of(*way, *step), ends);
    }
    let apart = |pair: &[Candidate]| pair[1].arm_x - pair[0].arm_x >= job.hook.arm_width;
    places.windows(2).all(apart).then(|| {
        let segment = laid.segment.with_candidates(places);
        LaidSegment::checked(segment, laid.found.clone(), laid.splices.clone())
    })
}

fn off_axis(
    job: &Job,
    footings: &[Footing],
    place: &Candidate,
    off: Length,
    ends: [Length; 2],
) -> Candidate {
    let footing = (&footings[place.setting], place.setting);
    let moved = Place::along_eaves(place.course, place.rafter, [place.x, place.x + off]);
    let there = candidates::candidate(job, footing, moved, ends);
    Candidate { stands: place.stands, ..there }
}
