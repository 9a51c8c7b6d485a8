//! From loads on modules to load cases on a rail segment.
//!
//! A module shares its load between its two rails by the lever rule, for the slope force as for
//! the normal one, and stands on each rail with its two side frames: two equal point loads at its
//! left and right edge. The rail's own weight is a line load. Clamps stand at the side frames, half
//! of a mid clamp on either neighbour.

use crate::actions::combinations::Combination;
use crate::checks::foot::FootModel;
use crate::checks::rail::RailLimits;
use crate::checks::screws::{self, Capacity, Seat};
use crate::checks::segment::{Candidate, Case, Limit, Segment, Setting};
use crate::mechanics::beam::{self, Strip, StripParts};
use crate::roof::Layers;
use crate::rules::NotCovered;
use crate::rules::en1990_2002::Situation;
use crate::units::{FlexuralRigidity, Force, Length, Pressure, Stiffness};

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
    /// How the screws sit.
    pub seat: Seat,
    /// What they carry.
    pub capacity: Result<Capacity, NotCovered>,
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
        use crate::checks::clearance;
        let bare = clearance::unloaded(&job.hook, &job.roof.layers, &job.covering);
        let packers = clearance::packers_for(&job.packers, bare, job.wishes.min_clearance);
        let packed: Length = packers.iter().flatten().copied().sum();
        let seat = Seat::new(&job.screw, &job.hook.foot, packed, job.roof.layers.under_foot);
        Self {
            packers,
            bare_clearance: bare,
            clearance: bare + packed,
            rafter_width: job.roof.rafters.width,
            bearing_width: job.roof.layers.bearing_width,
            seat,
            capacity: screws::capacity(&job.screw, &job.hook.foot, &seat, job.timber),
        }
    }

    /// As found.
    #[must_use]
    pub fn found(job: &Job, found: &FoundFooting) -> Self {
        use crate::checks::clearance;
        let packed: Length = found.packers.iter().copied().sum();
        let bare = found.clearance.map_or_else(
            || clearance::unloaded(&job.hook, &found.layers, &job.covering),
            |measured| measured - packed,
        );
        let mut screw = job.screw.clone();
        screw.length = found.screw_length;
        let seat = Seat::new(&screw, &job.hook.foot, packed, found.layers.under_foot);
        Self {
            packers: Some(found.packers.clone()),
            bare_clearance: bare,
            clearance: found.clearance.unwrap_or(bare + packed),
            rafter_width: found.rafter_width,
            bearing_width: found.layers.bearing_width,
            capacity: screws::capacity(&screw, &job.hook.foot, &seat, job.timber),
            seat,
        }
    }

    /// What the checks need of it.
    fn setting(&self, job: &Job) -> Setting {
        Setting {
            // Without a clearance to start from there is nothing to use up: that fails by itself.
            clearance: if self.packers.is_some() {
                self.clearance
            } else {
                Length::from_mm(f64::INFINITY)
            },
            screws: job
                .actions
                .combinations
                .iter()
                .map(|c| screw_resistance(job, self, c))
                .collect(),
        }
    }
}

/// Characteristic loads of one module, normal components pressing, N; slope components down.
#[derive(Debug, Clone, Copy)]
struct ModuleLoads {
    weight: [f64; 2],
    snow: [f64; 2],
    exceptional: [f64; 2],
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
    let combinations = &job.actions.combinations;
    let normal: Vec<beam::Case> =
        combinations.iter().map(|c| load_case(job, line, &columns, c, Component::Normal)).collect();
    // Wind has no slope component, so many combinations share one slope case.
    let mut slope: Vec<beam::Case> = Vec::new();
    let mut cases = Vec::with_capacity(combinations.len());
    for (index, combination) in combinations.iter().enumerate() {
        let case = load_case(job, line, &columns, combination, Component::Slope);
        let at = slope.iter().position(|known| *known == case).unwrap_or_else(|| {
            slope.push(case);
            slope.len() - 1
        });
        let limit = match combination.factors.situation {
            Situation::Characteristic => Limit::Service,
            Situation::Persistent | Situation::Accidental => Limit::Strength,
        };
        cases.push(Case { combination: index, limit, normal: index, slope: at });
    }
    let alike = candidates.windows(2).all(|pair| pair[0].setting == pair[1].setting);
    let feet: Vec<FootModel> = candidates.iter().map(|c| c.foot.clone()).collect();
    let least_foot = FootModel::least_loaded(&feet).filter(|_| alike);
    Segment {
        normal: strip(job.hook.normal_stiffness, job.rail.normal_rigidity, normal),
        slope: strip(job.hook.slope_stiffness, job.rail.slope_rigidity, slope),
        cases,
        candidates,
        hook: job.hook.clone(),
        limits: RailLimits::of(&job.rail, job.annex.gamma_m1_aluminium),
        settings: footings.iter().map(|footing| footing.setting(job)).collect(),
        least_foot,
    }
}

/// Design resistance of a screw; without bound where the rules could not say, which the layout
/// reports as not verified.
fn screw_resistance(job: &Job, footing: &Footing, combination: &Combination) -> screws::Resistance {
    let unbounded = Force::from_n(f64::INFINITY);
    footing.capacity.as_ref().map_or(
        screws::Resistance { pull: unbounded, shear: unbounded },
        |capacity| {
            capacity.design(
                combination.k_mod,
                combination.gamma_m_connections,
                job.annex.gamma_m2_steel,
            )
        },
    )
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
    for (rafter, x) in job.roof.rafters.positions.iter().copied().enumerate() {
        let Some(arm_x) = sideways::arm_position(job, line.course, x, ends) else {
            continue;
        };
        let after_last = out.last().is_none_or(|last| last.arm_x < arm_x);
        if !inside(x) || !inside(arm_x) || !after_last {
            continue;
        }
        out.push(candidate(job, (footing, 0), rafter, [x, arm_x], ends));
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
    let height = job.hook.bolt_height + footing.packed();
    let limit = job.rail.max_cantilever;
    Candidate {
        rafter,
        x,
        arm_x,
        foot: FootModel::new(
            &job.hook.foot,
            job.hook.reach,
            height,
            arm_x - x,
            footing.bearing_width,
        ),
        setting,
        // Both the arm and the rafter it belongs to: the limit holds however it is measured.
        may_be_first: x.max(arm_x) - ends[0] <= limit,
        may_be_last: ends[1] - x.min(arm_x) <= limit,
        stands: false,
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Component {
    Normal,
    Slope,
}

fn load_case(
    job: &Job,
    line: &RailLine,
    columns: &[u32],
    combination: &Combination,
    component: Component,
) -> beam::Case {
    let field = &job.fields[line.field];
    let factors = &combination.factors;
    let i = usize::from(component == Component::Slope);
    let loads = module_loads(job);
    let still = factors.permanent * loads.weight[i]
        + factors.snow * loads.snow[i]
        + factors.exceptional_snow * loads.exceptional[i];
    let direction = direction_cosines(job)[i];
    let clamp = factors.permanent * job.actions.weight.clamp.n() * direction;
    let mut points = Vec::with_capacity(2 * columns.len());
    for (k, column) in columns.iter().enumerate() {
        let wind = match (component, combination.direction) {
            (Component::Normal, Some(direction)) => {
                let rect = field.place(&job.module, line.row, *column);
                let pressure = job.actions.wind.pressure_on(&rect, direction, factors.wind);
                factors.wind_factor * (pressure * job.module.area()).n()
            }
            _ => 0.0,
        };
        let frame = (still + wind) * line.share / 2.0;
        let half = |is_end: bool| if is_end { clamp } else { clamp / 2.0 };
        points.push(frame + half(k == 0));
        points.push(frame + half(k + 1 == columns.len()));
    }
    let uniform = factors.permanent * job.actions.weight.rail.kn_per_m() * direction;
    beam::Case { points, uniform }
}

fn module_loads(job: &Job) -> ModuleLoads {
    let area = job.module.area();
    let weight = job.actions.weight.module.n();
    let [cos, sin] = direction_cosines(job);
    let on = |p: Pressure| (p * area).n();
    let snow = &job.actions.snow;
    ModuleLoads {
        weight: [weight * cos, weight * sin],
        snow: [on(snow.on_slope.normal), on(snow.on_slope.slope)],
        exceptional: [on(snow.exceptional_on_slope.normal), on(snow.exceptional_on_slope.slope)],
    }
}

fn direction_cosines(job: &Job) -> [f64; 2] {
    [job.roof.pitch.cos(), job.roof.pitch.sin()]
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
