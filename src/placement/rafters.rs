//! The rafters under a layout: what its hooks put on each, and whether it bears that.

use crate::checks::Governing;
use crate::checks::rafter::{RafterEffects, Train};
use crate::checks::segment::SegmentResult;
use crate::codes::vocabulary::{Factors, Situation};
use crate::codes::{Code, RafterSection};
use crate::units::{Force, Length};

use super::Job;
use super::footing::Footing;
use super::laid::{ModuleResult, RafterResult, Rail, hooks_of};

/// Sums of hook forces on every rafter, and its checks when its span is known.
pub(super) fn under(
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
    let section =
        RafterSection { width: width_of_timber, depth: job.roof.rafters.depth, timber: job.timber };
    let carried: Vec<(&SegmentResult, usize, Length)> = hooks
        .iter()
        .filter_map(|[r, s, h]| {
            let result = rails[*r].segments[*s].result.as_ref()?;
            Some((result, *h, rails[*r].line.y))
        })
        .collect();
    let train = job.roof.rafters.span.map(|span| Train::new(span, carried.iter().map(|c| c.2)));
    let snow = &job.actions.snow;
    let uniform = |factors: &Factors| {
        let on_tiles = (snow.on_slope.normal * factors.snow
            + snow.exceptional_on_slope.normal * factors.exceptional_snow)
            * width
            * bare;
        permanent * (factors.permanent * cos) + on_tiles
    };
    let used_by = |i: usize, effects: &RafterEffects| {
        let combination = &job.actions.combinations[i];
        job.rules.rafter_utilisation(&section, combination, effects.moment, effects.shear)
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
        if combination.situation == Situation::Characteristic {
            // The permanent combination is the weight of the array itself.
            if factors.snow == 0.0 && combination.wind.is_none() {
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

/// Whether every rafter bears what is on it, as far as its span is known.
pub(super) fn pass(job: &Job, rafters: &[RafterResult]) -> bool {
    rafters
        .iter()
        .flat_map(|r| r.utilisation.iter().flatten())
        .all(|governing| governing.utilisation <= job.wishes.max_utilisation)
}
