//! The modules of a layout: what acts on each, and where its clamps hold it.

use crate::checks::module;
use crate::codes::vocabulary::Situation;
use crate::units::{Force, Length, Pressure};

use super::Job;
use super::array::{self, Placed};
use super::laid::{LaidSegment, ModuleResult, Rail};
use super::loads;
use super::rail_lines::{Position, RailLine};
use super::segments;

/// Largest design loads on every module, and its clamps.
pub(super) fn on(job: &Job, rails: &[Rail]) -> Vec<ModuleResult> {
    let clamped: Vec<Clamped<'_>> = rails.iter().flat_map(|rail| clamps_of(job, rail)).collect();
    array::modules(&job.fields, &job.module)
        .into_iter()
        .map(|placed| {
            let mut press = (Pressure::ZERO, 0);
            let mut lift = (Pressure::ZERO, 0);
            let wind = job.actions.wind.modules.on_whole(&placed.rect);
            for (i, c) in job.actions.combinations.iter().enumerate() {
                if c.situation == Situation::Characteristic {
                    continue;
                }
                let load = loads::load_on_module(job, c, &wind);
                let p = Pressure::from_n_per_m2(load.n() / job.module.area().m2());
                if p > press.0 {
                    press = (p, i);
                }
                if -p > lift.0 {
                    lift = (-p, i);
                }
            }
            let near = |y: Length| {
                let [bottom, top] = placed.rect.y.map(Length::from_mm);
                (y - bottom).min(top - y)
            };
            let clamps = [Position::Lower, Position::Upper].map(|position| {
                let line = rails.iter().map(|rail| &rail.line);
                let mut line = line.filter(|l| l.carries(&placed) && l.position == position);
                line.next().map_or(Length::ZERO, |l| near(l.y))
            });
            let on_clamps = clamped.iter().filter(|clamps| clamps.line.carries(&placed));
            let on_clamp = largest(on_clamps.flat_map(|clamps| clamps.of(&placed)));
            let check = module::check(&job.module, &job.clamp, press.0, lift.0, on_clamp.0);
            let combinations = [press.1, lift.1, on_clamp.1];
            ModuleResult { placed, press: press.0, lift: lift.0, combinations, clamps, check }
        })
        .collect()
}

/// Lift as a magnitude, and the combination it occurs in.
type Lift = (Force, usize);

fn largest(lifts: impl Iterator<Item = Lift>) -> Lift {
    lifts.fold((Force::ZERO, 0), |most, next| if next.0 > most.0 { next } else { most })
}

/// The clamps on one segment of a rail.
struct Clamped<'a> {
    line: &'a RailLine,
    /// Columns of its modules, left to right.
    columns: Vec<u32>,
    /// Largest lift on each clamp, left to right: one more than there are modules.
    lifts: Vec<Lift>,
}

impl Clamped<'_> {
    /// The lifts on the two clamps that hold a module; on none where the segment does not carry it.
    fn of(&self, placed: &Placed) -> impl Iterator<Item = Lift> {
        let at = self.columns.iter().position(|column| *column == placed.column);
        at.into_iter().flat_map(|at| [self.lifts[at], self.lifts[at + 1]])
    }
}

fn clamps_of<'a>(job: &Job, rail: &'a Rail) -> impl Iterator<Item = Clamped<'a>> {
    let segments = rail.line.segments.iter().zip(&rail.segments);
    segments.map(|(ends, laid)| {
        let over = segments::modules_over(job, &rail.line, *ends);
        Clamped {
            line: &rail.line,
            columns: over.map(|(column, _)| column).collect(),
            lifts: lifts_on_clamps(job, laid),
        }
    })
}

/// What the rail feels at a clamp is what the clamp holds: the side frames of the modules on either
/// side of it in one combination, and its own weight. Where one frame lifts and the other presses
/// the sum counts.
fn lifts_on_clamps(job: &Job, laid: &LaidSegment) -> Vec<Lift> {
    let strip = &laid.segment.normal;
    let mut lifts = vec![(Force::ZERO, 0); strip.load_points().len() / 2 + 1];
    for case in &laid.segment.cases {
        if job.actions.combinations[case.combination].situation == Situation::Characteristic {
            continue;
        }
        // Clamp i stands between the right frame of one module and the left frame of the next.
        let frames = strip.as_case(&case.normal).points;
        let lift = |frame: usize| frames.get(frame).map_or(0.0, |force| -force);
        for (clamp, most) in lifts.iter_mut().enumerate() {
            let of_left = clamp.checked_sub(1).map_or(0.0, |module| lift(2 * module + 1));
            let sum = (Force::from_n(of_left + lift(2 * clamp)), case.combination);
            if sum.0 > most.0 {
                *most = sum;
            }
        }
    }
    lifts
}
