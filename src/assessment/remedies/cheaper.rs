//! Which changes of a layout that holds may save hooks, or tiles that come off.
//!
//! Each is one change by itself, tried like a remedy on the whole job. Figures are such as are bought and set out.

use crate::checks::clearance;
use crate::checks::{Check, most_used};
use crate::placement::footing::Footing;
use crate::placement::laid::Layout;
use crate::placement::{Job, Objective};
use crate::units::Length;

use super::change::{Change, Move};
use super::proposals::{LARGEST_CLEARANCE, lengths};

/// Into how many equal steps the distance is cut after which rafters, or courses, come again. Own judgement.
const STEPS: i32 = 8;

/// How much more clearance higher packers are tried for, in shares of what there is. Own judgement.
const MORE_CLEARANCE: [f64; 3] = [1.25, 1.5, 2.0];

/// The next usual lengths of screws that are tried.
const NEXT_LENGTHS: usize = 2;

/// What is worth a try, the smallest moves first.
#[must_use]
pub fn cheaper(job: &Job, layout: &Layout) -> Vec<Change> {
    let mut out = Vec::new();
    if job.wishes.objective != Objective::FewestHooks {
        out.push(Change::AnyPattern);
    }
    out.extend(moves(job, rafter_centres(job)).into_iter().map(Change::MoveAlong));
    out.extend(moves(job, Some(job.covering.gauge)).into_iter().map(Change::MoveUp));
    if let Some(footing) = layout.footings.first() {
        out.extend(packers(job, layout, footing));
        out.extend(lengths(job, footing).into_iter().take(NEXT_LENGTHS));
    }
    out
}

/// The usual distance from rafter to rafter: the median.
fn rafter_centres(job: &Job) -> Option<Length> {
    let positions = job.roof.rafters.positions.windows(2).map(|pair| (pair[1] - pair[0]).mm());
    let mut centres: Vec<f64> = positions.collect();
    centres.sort_by(f64::total_cmp);
    centres.get(centres.len() / 2).copied().map(Length::from_mm)
}

/// All fields moved together by equal steps, up to half of the distance after which what lies below comes again.
fn moves(job: &Job, again: Option<Length>) -> Vec<Vec<Move>> {
    let Some(again) = again else { return Vec::new() };
    let mut out = Vec::new();
    for step in 1..=STEPS / 2 {
        let by = (again.mm() * f64::from(step) / f64::from(STEPS)).round();
        for by in [by, -by] {
            let of = |(field, of): (usize, &crate::placement::array::Field)| Move {
                field,
                name: of.id.clone(),
                by: Length::from_mm(by),
            };
            if by != 0.0 {
                out.push(job.fields.iter().enumerate().map(of).collect());
            }
        }
    }
    out
}

/// Higher stacks of packers where the clearance governs.
fn packers(job: &Job, layout: &Layout, footing: &Footing) -> Vec<Change> {
    let governs =
        most_used(layout.checks()).is_some_and(|((check, _), _)| check == Check::Clearance);
    let mut out: Vec<Change> = Vec::new();
    if !governs {
        return out;
    }
    for times in MORE_CLEARANCE {
        let want = footing.clearance * times;
        let Some(packers) = clearance::packers_for(&job.packers, footing.bare_clearance, want)
        else {
            continue;
        };
        let stack: Length = packers.iter().copied().sum();
        // A tenth of a millimetre is asked for less than the stack gives.
        let has = (footing.bare_clearance + stack).mm();
        let clearance = Length::from_mm((has * 10.0).floor() / 10.0);
        let change = Change::HigherPackers { clearance, stack, limit: None, piece: None };
        let fits = clearance <= LARGEST_CLEARANCE && stack > footing.packed();
        if fits && clearance > job.wishes.min_clearance && !out.contains(&change) {
            out.push(change);
        }
    }
    out
}
