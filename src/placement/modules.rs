//! The modules of a layout: what acts on each, and where its clamps hold it.

use crate::checks::module as check;
use crate::codes::vocabulary::Situation;
use crate::units::{Force, Length, Pressure};

use super::Job;
use super::array::{self, Placed};
use super::laid::{LaidSegment, Layout, ModuleResult, Rail};
use super::loads;
use super::rail_axis::RailAxis;
use super::rail_lines::{Position, RailLine};
use super::segments;

/// Largest design loads on every module, and its clamps.
pub(super) fn on(job: &Job, rails: &[Rail]) -> Vec<ModuleResult> {
    let clamped: Vec<Clamped<'_>> = rails.iter().flat_map(|rail| clamps_of(job, rail)).collect();
    array::modules(&job.fields)
        .into_iter()
        .map(|placed| {
            let mut press = (Pressure::ZERO, 0);
            let mut lift = (Pressure::ZERO, 0);
            let module = job.module(&placed);
            let wind = job.actions.wind.on(module.area()).modules.on_whole(&placed.rect);
            for (i, c) in job.actions.combinations.iter().enumerate() {
                if c.situation == Situation::Characteristic {
                    continue;
                }
                let load = loads::load_on_module(job, c, &placed, &wind);
                let p = Pressure::from_n_per_m2(load.n() / module.area().m2());
                if p > press.0 {
                    press = (p, i);
                }
                if -p > lift.0 {
                    lift = (-p, i);
                }
            }
            let near = |across: Length| {
                let [low, high] = job.clamped_axis().sides(&placed.rect)[1].map(Length::from_mm);
                (across - low).min(high - across)
            };
            let clamps = Position::pair(job.clamped_axis()).map(|position| {
                let line = rails.iter().map(|rail| &rail.line);
                let mut line = line.filter(|l| l.carries(&placed) && l.position == position);
                line.next().map_or(Length::ZERO, |l| near(l.across))
            });
            let on_clamps = clamped.iter().filter(|clamps| clamps.line.carries(&placed));
            let held = || on_clamps.clone().flat_map(|clamps| clamps.of(&placed));
            let lift_on_clamp = largest(held());
            let slip = slip(job, &placed, held(), on_stop(job, &clamped, &placed));
            let loads = [press.0, lift.0];
            let check = check::check(module, &job.clamp, loads, lift_on_clamp.0, slip.0);
            let combinations = [press.1, lift.1, lift_on_clamp.1, slip.1];
            ModuleResult { placed, press: press.0, lift: lift.0, combinations, clamps, check }
        })
        .collect()
}

/// What one clamp holds in one combination: the side frames of the modules on either side of it.
#[derive(Debug, Clone, Copy)]
pub struct Held {
    /// Off the roof; negative where the modules press on the rail.
    pub lift: Force,
    /// Down the slope.
    pub slope: Force,
    /// Which combination.
    pub combination: usize,
}

/// What each clamp of every module holds in every combination of strength, module by module.
#[must_use]
pub fn held_by_modules(job: &Job, layout: &Layout) -> Vec<Vec<Held>> {
    let clamped: Vec<Clamped<'_>> =
        layout.rails.iter().flat_map(|rail| clamps_of(job, rail)).collect();
    let of = |placed: &Placed| {
        let on_clamps = clamped.iter().filter(|clamps| clamps.line.carries(placed));
        on_clamps.flat_map(|clamps| clamps.of(placed)).collect()
    };
    layout.modules.iter().map(|module| of(&module.placed)).collect()
}

/// What a stop bears that takes the slope force of a module in the place of its clamps.
#[must_use]
pub fn stop_below(job: &Job, placed: &Placed) -> Option<Force> {
    job.clamp.stop.filter(|_| placed.row == 0)
}

fn largest(held: impl Iterator<Item = Held>) -> (Force, usize) {
    let lifts = held.map(|held| (held.lift, held.combination));
    lifts.fold((Force::ZERO, 0), |most, next| if next.0 > most.0 { next } else { most })
}

/// Force down the slope and utilisation of the clamp of a module that is nearest to slipping, or of
/// a stop below it, and the combination.
fn slip(
    job: &Job,
    placed: &Placed,
    held: impl Iterator<Item = Held>,
    share: f64,
) -> ((Force, Option<f64>), usize) {
    let combinations = job.actions.combinations.iter().enumerate();
    if let Some(stop) = stop_below(job, placed) {
        let strength = combinations.filter(|(_, c)| c.situation != Situation::Characteristic);
        let on_stop = strength.map(|(i, c)| (loads::slope_on_module(job, c, placed) * share, i));
        let most = on_stop.fold((Force::ZERO, 0), |a, b| if b.0 > a.0 { b } else { a });
        return ((most.0, Some(most.0 / stop)), most.1);
    }
    let mut worst = ((Force::ZERO, job.clamp.slope.map(|_| 0.0)), 0);
    for held in held {
        let slope = held.slope.abs();
        let used = check::slip(&job.clamp, slope, held.lift.max(Force::ZERO));
        let worse = match (used, worst.0.1) {
            (Some(used), Some(worst)) => used > worst,
            _ => slope > worst.0.0,
        };
        if worse {
            worst = ((slope, used), held.combination);
        }
    }
    worst
}

/// Share of the slope force of a module that the stop below it bears which bears most.
///
/// On a rail along the eaves a stop between two modules bears half of either, and those halves make up one
/// module. Rails up the slope have a stop each, and bear what they take of the module by the lever rule.
fn on_stop(job: &Job, clamped: &[Clamped<'_>], placed: &Placed) -> f64 {
    match job.clamped_axis() {
        RailAxis::AlongEaves if in_row(clamped, placed) > 1 => 1.0,
        RailAxis::AlongEaves => 0.5,
        RailAxis::UpSlope => {
            let [low, high] = job.clamped_axis().sides(&placed.rect)[1];
            let centre = Length::from_mm(f64::midpoint(low, high));
            let under = clamped.iter().filter(|clamps| clamps.line.carries(placed));
            under.map(|clamps| clamps.line.share(centre)).fold(0.0, f64::max)
        }
    }
}

/// Modules that lie on the same segment of the lower rail.
fn in_row(clamped: &[Clamped<'_>], placed: &Placed) -> usize {
    let own = |clamps: &&Clamped<'_>| {
        let line = clamps.line;
        line.position == Position::Lower
            && clamps.modules.contains(&[placed.row, placed.column])
            && line.field() == placed.field
    };
    // Where no rail is known to be the lower one, a neighbour is assumed.
    clamped.iter().find(own).map_or(2, |clamps| clamps.modules.len())
}

/// The clamps on one segment of a rail.
struct Clamped<'a> {
    line: &'a RailLine,
    /// Row and column of its modules, along the rail.
    modules: Vec<[u32; 2]>,
    /// What each clamp holds in every combination of strength, along the rail: one clamp more than
    /// there are modules.
    held: Vec<Vec<Held>>,
}

impl Clamped<'_> {
    /// What the two clamps that hold a module hold; nothing where the segment does not carry it.
    fn of(&self, placed: &Placed) -> impl Iterator<Item = Held> {
        let at = self.modules.iter().position(|at| *at == [placed.row, placed.column]);
        at.into_iter().flat_map(|at| &self.held[at..=at + 1]).flatten().copied()
    }
}

fn clamps_of<'a>(job: &Job, rail: &'a Rail) -> impl Iterator<Item = Clamped<'a>> {
    let carries = !rail.line.is_beneath();
    let segments = rail.line.segments.iter().zip(&rail.segments).filter(move |_| carries);
    segments.map(|(ends, laid)| {
        let over = segments::modules_over(job, &rail.line, *ends);
        Clamped {
            line: &rail.line,
            modules: over.map(|(at, _)| at).collect(),
            held: held_by_clamps(job, laid),
        }
    })
}

/// What the rail feels at a clamp is what the clamp holds: the side frames of the modules on either
/// side of it in one combination, and its own weight. Where one frame lifts and the other presses
/// the sum counts.
fn held_by_clamps(job: &Job, laid: &LaidSegment) -> Vec<Vec<Held>> {
    let (normal, slope) = (&laid.segment.normal, &laid.segment.slope);
    let mut held = vec![Vec::new(); normal.load_points().len() / 2 + 1];
    for case in &laid.segment.cases {
        if job.actions.combinations[case.combination].situation == Situation::Characteristic {
            continue;
        }
        let [press, down] =
            [normal.as_case(&case.normal), slope.as_case(&case.slope)].map(|case| case.points);
        for (clamp, held) in held.iter_mut().enumerate() {
            // Clamp i stands between the right frame of one module and the left frame of the next.
            let frames = [(2 * clamp).checked_sub(1), Some(2 * clamp)];
            let sum = |points: &[f64]| {
                let at = frames.iter().flatten().filter_map(|frame| points.get(*frame));
                Force::from_n(at.sum())
            };
            let (lift, slope) = (-sum(&press), sum(&down));
            held.push(Held { lift, slope, combination: case.combination });
        }
    }
    held
}
