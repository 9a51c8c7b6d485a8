//! From loads on modules to load cases on a rail.
//!
//! A module shares its load between its two rails by the lever rule, for the slope force as for
//! the normal one, and stands on each rail with its two side frames: two equal point loads at its
//! left and right edge. The rail's own weight is a line load. Clamps stand at the side frames, half
//! of a mid clamp on either neighbour.

use crate::checks::segment::{Case, Limit};
use crate::codes::vocabulary::{Combination, OnSlope, Situation, WindCase, WindOn};
use crate::mechanics::beam::{self, Superposition};
use crate::units::Force;

use super::Job;
use super::rail_lines::RailLine;

/// Direction of a load on the slope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Component {
    /// Square to it.
    Normal,
    /// Down it.
    Slope,
}

/// Loads on a rail that all combinations are made up of: the weight of the array, a load of 1 N on
/// every module for what acts alike on all of them, and the wind of each direction that does not.
pub(super) struct Loads {
    /// Square to the slope.
    pub(super) normal: Vec<beam::Case>,
    /// Down it.
    pub(super) slope: Vec<beam::Case>,
    wind: Vec<(WindCase, WindLoad)>,
}

/// Wind of one case on the modules of a rail.
enum WindLoad {
    /// The same on every module.
    Alike(Force),
    /// Its place among the loads square to the roof.
    Case(usize),
}

/// Place of the weight of the array.
const WEIGHT: usize = 0;

/// Place of the load on every module.
const EVERY_MODULE: usize = 1;

impl Loads {
    /// On a line with these modules, by the wind on each.
    pub(super) fn on(job: &Job, line: &RailLine, modules: &[WindOn]) -> Self {
        // A module stands with two frames on each of its two rails.
        let on_frames = |of: &dyn Fn(&WindOn) -> f64| {
            let points = modules.iter().flat_map(|wind| [of(wind) * line.share / 2.0; 2]);
            beam::Case { points: points.collect(), uniform: 0.0 }
        };
        let alike = on_frames(&|_| 1.0);
        let slope = vec![weight(job, line, modules.len(), Component::Slope), alike.clone()];
        let mut normal = vec![weight(job, line, modules.len(), Component::Normal), alike];
        let mut wind: Vec<(WindCase, WindLoad)> = Vec::new();
        for combination in &job.actions.combinations {
            let Some(case) = combination.wind else { continue };
            if wind.iter().any(|(known, _)| *known == case) {
                continue;
            }
            let on = |wind: &WindOn| wind.pressure(case) * job.module.area();
            let first = modules.first().map_or(Force::ZERO, on);
            let as_first = |wind: &WindOn| (on(wind) - first).abs() <= first.abs() * ALIKE;
            let load = if modules.iter().all(as_first) {
                WindLoad::Alike(first)
            } else {
                normal.push(on_frames(&|wind| on(wind).n()));
                WindLoad::Case(normal.len() - 1)
            };
            wind.push((case, load));
        }
        Self { normal, slope, wind }
    }

    /// The load case of a combination.
    pub(super) fn case(&self, job: &Job, index: usize, combination: &Combination) -> Case {
        let factors = &combination.factors;
        let (snow, area) = (&job.actions.snow, job.module.area());
        let (all, exceptional) = (&snow.on_slope, &snow.exceptional_on_slope);
        let mut on_all =
            (all.normal * factors.snow + exceptional.normal * factors.exceptional_snow) * area;
        let down_all =
            (all.slope * factors.snow + exceptional.slope * factors.exceptional_snow) * area;
        let mut wind = (WEIGHT, 0.0);
        let blows = |known: &&(WindCase, WindLoad)| combination.wind == Some(known.0);
        match self.wind.iter().find(blows) {
            Some((_, WindLoad::Alike(load))) => on_all += *load * factors.wind,
            Some((_, WindLoad::Case(place))) => wind = (*place, factors.wind),
            None => {}
        }
        let weight = (WEIGHT, factors.permanent);
        let limit = match combination.situation {
            Situation::Characteristic => Limit::Service,
            Situation::Persistent | Situation::Accidental => Limit::Strength,
        };
        Case {
            combination: index,
            limit,
            normal: Superposition::new([weight, (EVERY_MODULE, on_all.n()), wind]),
            // Wind has no component along the slope.
            slope: Superposition::new([weight, (EVERY_MODULE, down_all.n()), (WEIGHT, 0.0)]),
        }
    }
}

/// Loads on two modules that differ by less than this share of them are the same but for rounding.
const ALIKE: f64 = 1e-12;

/// Weight of modules, clamps and rail.
fn weight(job: &Job, line: &RailLine, modules: usize, component: Component) -> beam::Case {
    let (weight, direction) = (&job.actions.weight, direction_cosine(job, component));
    let clamp = weight.clamp.n() * direction;
    let frame = weight.module.n() * direction * line.share / 2.0;
    let half = |is_end: bool| if is_end { clamp } else { clamp / 2.0 };
    let points = (0..modules).flat_map(|k| [half(k == 0), half(k + 1 == modules)]);
    beam::Case {
        points: points.map(|clamp| frame + clamp).collect(),
        uniform: weight.rail.kn_per_m() * direction,
    }
}

/// Load on a module in a combination, pressing or down the slope.
#[must_use]
pub fn module_load(
    job: &Job,
    combination: &Combination,
    wind: &WindOn,
    component: Component,
) -> Force {
    let factors = &combination.factors;
    let (snow, area) = (&job.actions.snow, job.module.area());
    let on = |snow: &OnSlope| match component {
        Component::Normal => snow.normal * area,
        Component::Slope => snow.slope * area,
    };
    let wind = match (component, combination.wind) {
        (Component::Normal, Some(case)) => wind.pressure(case) * area,
        // Wind has no component along the slope.
        (Component::Normal, None) | (Component::Slope, _) => Force::ZERO,
    };
    job.actions.weight.module * direction_cosine(job, component) * factors.permanent
        + on(&snow.on_slope) * factors.snow
        + on(&snow.exceptional_on_slope) * factors.exceptional_snow
        + wind * factors.wind
}

/// Part of a vertical force in a direction.
fn direction_cosine(job: &Job, component: Component) -> f64 {
    match component {
        Component::Normal => job.roof.pitch.cos(),
        Component::Slope => job.roof.pitch.sin(),
    }
}
