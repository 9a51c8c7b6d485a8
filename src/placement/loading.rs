//! From loads on modules to load cases on a rail segment.
//!
//! A module shares its load between its two rails by the lever rule, for the slope force as for
//! the normal one, and stands on each rail with its two side frames: two equal point loads at its
//! left and right edge. The rail's own weight is a line load. Clamps stand at the side frames, half
//! of a mid clamp on either neighbour.

use std::sync::Arc;

use crate::checks::clearance;
use crate::checks::foot::FootModel;
use crate::checks::rail::RailLimits;
use crate::checks::screws::{self, Seat};
use crate::checks::segment::{Candidate, Case, Limit, Segment, Setting};
use crate::codes::NotCovered;
use crate::codes::vocabulary::{
    Combination, Connection, OnSlope, Resistance, Situation, WindCase, WindOn,
};
use crate::hardware::Screw;
use crate::mechanics::beam::{self, Strip, StripParts, Superposition};
use crate::roof::Layers;
use crate::units::{FlexuralRigidity, Force, Length, Stiffness};

use super::rail_lines::RailLine;
use super::{Job, sideways};

/// How a foot is set: the same everywhere in a layout, as found in a recheck.
#[derive(Debug, Clone)]
pub struct Footing {
    /// Packers, thickest first; `None` when no stack gives the clearance asked for.
    pub packers: Option<Vec<Length>>,
    /// Clearance without packers.
    pub bare_clearance: Length,
    /// Clearance with them.
    pub clearance: Length,
    /// Width of the rafter.
    pub rafter_width: Length,
    /// Width of timber the foot bears on.
    pub bearing_width: Length,
    /// Measured distance of the arm to the nearest side joint.
    pub side_joint: Option<Length>,
    /// How the screws sit.
    pub seat: Seat,
    /// What they carry.
    pub capacity: Result<Connection, NotCovered>,
}

/// What decides how a foot is set, where it is not as drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundFooting {
    /// Packers in place.
    pub packers: Vec<Length>,
    /// Layers under the covering.
    pub layers: Layers,
    /// Width of the rafter.
    pub rafter_width: Length,
    /// Length of the screws.
    pub screw_length: Length,
    /// Measured clearance before load, packers in place.
    pub clearance: Option<Length>,
    /// Measured distance of the arm to the nearest side joint.
    pub side_joint: Option<Length>,
}

impl FoundFooting {
    /// As a layout would set it.
    #[must_use]
    pub fn drawn(job: &Job) -> Self {
        Self {
            packers: Footing::of(job).packers.unwrap_or_default(),
            layers: job.roof.layers.clone(),
            rafter_width: job.roof.rafters.width,
            screw_length: job.screw.length,
            clearance: None,
            side_joint: None,
        }
    }
}

impl Footing {
    /// Height of the packers.
    #[must_use]
    pub fn packed(&self) -> Length {
        self.packers.iter().flatten().copied().sum()
    }

    /// For a job as drawn.
    #[must_use]
    pub fn of(job: &Job) -> Self {
        let (layers, rafter_width) = (&job.roof.layers, job.roof.rafters.width);
        let bare = clearance::unloaded(&job.hook, layers, &job.covering);
        let packers = clearance::packers_for(&job.packers, bare, job.wishes.min_clearance);
        Self::set(job, packers, layers, rafter_width, &job.screw, bare)
    }

    /// As found.
    #[must_use]
    pub fn found(job: &Job, found: &FoundFooting) -> Self {
        let packed: Length = found.packers.iter().copied().sum();
        let bare = found.clearance.map_or_else(
            || clearance::unloaded(&job.hook, &found.layers, &job.covering),
            |measured| measured - packed,
        );
        let screw = Screw { length: found.screw_length, ..job.screw.clone() };
        let packers = Some(found.packers.clone());
        let set = Self::set(job, packers, &found.layers, found.rafter_width, &screw, bare);
        // What was measured stands as it was measured, to the last digit.
        let clearance = found.clearance.unwrap_or(set.clearance);
        Self { clearance, side_joint: found.side_joint, ..set }
    }

    fn set(
        job: &Job,
        packers: Option<Vec<Length>>,
        layers: &Layers,
        rafter_width: Length,
        screw: &Screw,
        bare_clearance: Length,
    ) -> Self {
        let packed: Length = packers.iter().flatten().copied().sum();
        let seat =
            Seat::new(screw, &job.hook.foot, packed, layers.under_foot, job.roof.rafters.depth);
        Self {
            packers,
            bare_clearance,
            clearance: bare_clearance + packed,
            rafter_width,
            bearing_width: layers.bearing_width,
            side_joint: None,
            capacity: screws::capacity(
                job.rules,
                (screw, &job.hook.foot, &seat),
                job.timber,
                &job.actions.combinations,
            ),
            seat,
        }
    }

    /// What the checks need of it.
    #[must_use]
    pub fn setting(&self) -> Setting {
        Setting {
            // Without a clearance to start from there is nothing to use up: that fails by itself.
            clearance: if self.packers.is_some() {
                self.clearance
            } else {
                Length::from_mm(f64::INFINITY)
            },
            screws: Resistance::from(
                self.capacity
                    .as_ref()
                    .map_or_else(|silent| Err(*silent), |connection| Ok(connection.design.clone())),
            ),
        }
    }
}

/// Builds one segment of a rail with all its load cases over its candidates, whose settings are
/// places in `footings`.
#[must_use]
pub fn segment(
    job: &Job,
    footings: &[Footing],
    line: &RailLine,
    ends: [Length; 2],
    candidates: Vec<Candidate>,
) -> Segment {
    let field = &job.fields[line.field];
    let columns: Vec<u32> = (line.columns[0]..=line.columns[1])
        .filter(|c| {
            let x = field.place(&job.module, line.row, *c).x;
            ends[0].mm() <= x[0] && x[1] <= ends[1].mm()
        })
        .collect();
    let load_points: Vec<f64> =
        columns.iter().flat_map(|c| field.place(&job.module, line.row, *c).x).collect();

    let strip = |stiffness: Option<Stiffness>, rigidity: FlexuralRigidity, cases| {
        Strip::new(StripParts {
            start: ends[0].mm(),
            end: ends[1].mm(),
            rigidity: rigidity.nmm2(),
            stiffness: stiffness.map(Stiffness::n_per_mm),
            candidates: candidates.iter().map(|c| c.arm_x.mm()).collect(),
            hinges: if job.rail.hinged_splices { splices(job, ends) } else { Vec::new() },
            load_points: load_points.clone(),
            cases,
        })
    };
    let modules: Vec<WindOn> = columns
        .iter()
        .map(|c| job.actions.wind.on_rect(&field.place(&job.module, line.row, *c)))
        .collect();
    let loads = Loads::on(job, line, &modules);
    let cases = job.actions.combinations.iter().enumerate();
    let cases = cases.map(|(index, combination)| loads.case(job, index, combination)).collect();
    let least_foot = Segment::least_foot(&candidates);
    Segment {
        normal: strip(job.hook.normal_stiffness, job.rail.normal_rigidity, loads.normal),
        slope: strip(job.hook.slope_stiffness, job.rail.slope_rigidity, loads.slope),
        cases,
        candidates,
        hook: job.hook.clone(),
        limits: RailLimits::of(&job.rail, job.rules),
        settings: footings.iter().map(|footing| footing.setting()).collect(),
        least_foot,
    }
}

/// Every place a hook can stand on a segment as drawn.
#[must_use]
pub fn candidates(
    job: &Job,
    footing: &Footing,
    line: &RailLine,
    ends: [Length; 2],
    allowed: impl Fn(usize) -> bool,
) -> Vec<Candidate> {
    let inside = |x: Length| ends[0] <= x && x <= ends[1];
    let mut out: Vec<Candidate> = Vec::new();
    for (rafter, [x, arm_x]) in sideways::places(job, line.course, ends) {
        let after_last = out.last().is_none_or(|last| last.arm_x < arm_x);
        if inside(x) && inside(arm_x) && after_last {
            // Most arms stand alike, and their levers are the same.
            let like = out.last().filter(|last| last.arm_x - last.x == arm_x - x);
            let foot = like.map_or_else(|| foot(job, footing, arm_x - x), |last| last.foot.clone());
            let place = with_foot(job, (foot, 0), rafter, [x, arm_x], ends);
            out.push(place);
        }
    }
    // The outermost rafters hold the ends of the rail, whatever the pattern.
    let outermost = [out.first().map(|c| c.rafter), out.last().map(|c| c.rafter)];
    out.retain(|c| allowed(c.rafter) || outermost.contains(&Some(c.rafter)));
    out
}

/// A hook on a rafter with its axis at `x` and its arm at `arm_x`, its foot set in the way given
/// with its place among the footings.
#[must_use]
pub fn candidate(
    job: &Job,
    (footing, setting): (&Footing, usize),
    rafter: usize,
    [x, arm_x]: [Length; 2],
    ends: [Length; 2],
) -> Candidate {
    let foot = foot(job, footing, arm_x - x);
    with_foot(job, (foot, setting), rafter, [x, arm_x], ends)
}

fn foot(job: &Job, footing: &Footing, arm_offset: Length) -> Arc<FootModel> {
    let height = job.hook.bolt_height + footing.packed();
    let width = footing.bearing_width;
    Arc::new(FootModel::new(&job.hook.foot, job.hook.reach, height, arm_offset, width))
}

fn with_foot(
    job: &Job,
    (foot, setting): (Arc<FootModel>, usize),
    rafter: usize,
    [x, arm_x]: [Length; 2],
    ends: [Length; 2],
) -> Candidate {
    let limit = job.rail.max_cantilever;
    Candidate {
        rafter,
        x,
        arm_x,
        foot,
        setting,
        // Both the arm and the rafter it belongs to: the limit holds however it is measured.
        may_be_first: x.max(arm_x) - ends[0] <= limit,
        may_be_last: ends[1] - x.min(arm_x) <= limit,
        stands: false,
    }
}

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
struct Loads {
    normal: Vec<beam::Case>,
    slope: Vec<beam::Case>,
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
    fn on(job: &Job, line: &RailLine, modules: &[WindOn]) -> Self {
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

    fn case(&self, job: &Job, index: usize, combination: &Combination) -> Case {
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

/// The same for every segment of a rail.
#[must_use]
pub fn splices_of(job: &Job, line: &RailLine) -> Vec<Vec<Length>> {
    let of = |ends: &[Length; 2]| splices(job, *ends).into_iter().map(Length::from_mm).collect();
    line.segments.iter().map(of).collect()
}

/// Where the bars of a segment meet: as few equal bars as the longest stock length allows, mm.
#[must_use]
pub fn splices(job: &Job, ends: [Length; 2]) -> Vec<f64> {
    let length = ends[1] - ends[0];
    // A bar may be a hair longer than stock only by rounding.
    let bars = (length / job.rail.longest_stock - 1e-9).ceil().max(1.0);
    let mut at = Vec::new();
    let mut bar = 1.0;
    while bar < bars {
        at.push(ends[0].mm() + length.mm() * bar / bars);
        bar += 1.0;
    }
    at
}
