//! A survey in whole numbers, and an answer in lengths again.
//!
//! **Units.** Heights in millionths of a millimetre, positions in hundredths, both rounded to the
//! nearest. What is given in decimals of these is read exactly.

use crate::checks::stacks::Stacks;
use crate::hardware::Packers;
use crate::units::Length;

use super::levelling::Exact;
use super::packing::{Packing, Problem, Station};
use super::{
    LARGEST_HEIGHT_MM, LARGEST_POSITION_MM, Levelled, MOST_HOOKS, Measurement, Missing, NoStack,
    Setting, Survey, Unreadable,
};

/// Millionths of a millimetre in a millimetre.
const HEIGHT_GRAIN: f64 = 1e6;
/// The same in a hundredth of a millimetre, the grain of stacks.
const PER_HUNDREDTH: Exact = 10_000;
/// Hundredths of a millimetre in a millimetre.
const POSITION_GRAIN: f64 = 100.0;
/// Tilts are read to a millionth.
const TILT_GRAIN: f64 = 1e6;
/// Millionths of a millimetre of rise per hundredth of run, at a tilt of one.
const RISE_AT_ONE: f64 = HEIGHT_GRAIN / POSITION_GRAIN;

/// A survey in whole numbers, nothing missing.
#[derive(Debug, Clone)]
pub struct Reading {
    /// In the order of the survey.
    pub hooks: Vec<Spot>,
    /// What the packers stack up to.
    pub stacks: Stacks,
    /// Stock and limit as given.
    packers: Packers,
    range: Exact,
    tilt: Option<(Exact, Exact)>,
}

/// A survey read, or what it lacks.
#[derive(Debug, Clone)]
pub enum Read {
    /// Nothing is missing.
    Complete(Reading),
    /// These are.
    Lacking(Vec<Missing>),
}

/// One hook in whole numbers.
#[derive(Debug, Clone, Copy)]
pub struct Spot {
    x: Exact,
    /// The bearing face above the string.
    level: Exact,
    /// Least height for the clearances.
    pub need: Exact,
    /// Largest height for the room above.
    most: Option<Exact>,
}

impl Reading {
    /// Reads a survey.
    pub fn of(survey: &Survey) -> Result<Read, Unreadable> {
        if survey.hooks.is_empty() {
            return Err(Unreadable::NoHooks);
        }
        if survey.hooks.len() > MOST_HOOKS {
            return Err(Unreadable::TooManyHooks);
        }
        let setting = |length| whole(length, HEIGHT_GRAIN).ok_or(Unreadable::Setting);
        let min_clearance = setting(survey.min_clearance)?;
        let min_room = setting(survey.min_room_above)?;
        let range = setting(survey.slot_range)?;
        let tilt = survey.max_tilt.map(|tilt| {
            // A tilt of one is far beyond any roof: more is no limit that matters.
            let grains = (tilt.min(1.0) * RISE_AT_ONE * TILT_GRAIN).round();
            (to_exact(grains), to_exact(TILT_GRAIN))
        });
        let upright = |tilt: f64| tilt >= 0.0;
        if range < 0 || !survey.max_tilt.is_none_or(upright) {
            return Err(Unreadable::Setting);
        }
        let mut missing = Vec::new();
        let mut hooks = Vec::new();
        for (hook, found) in survey.hooks.iter().enumerate() {
            let unreadable = Unreadable::HookValue(hook);
            let read = |length: Option<Length>| match length {
                Some(length) => whole(length, HEIGHT_GRAIN).map(Some).ok_or(unreadable),
                None => Ok(None),
            };
            let x = position(found.x).ok_or(unreadable)?;
            let built = whole(found.built.iter().copied().sum(), HEIGHT_GRAIN).ok_or(unreadable)?;
            let (clearance, level) = (read(found.clearance)?, read(found.level)?);
            let (deflection, room) = (read(found.deflection)?, read(found.room_above)?);
            let needed =
                [(clearance, Measurement::Clearance), (level, Measurement::Level)].into_iter();
            missing.extend(
                needed.filter(|(v, _)| v.is_none()).map(|(_, what)| Missing { hook, what }),
            );
            if let (Some(clearance), Some(level)) = (clearance, level) {
                let least = deflection.map_or(min_clearance, |d| d.max(min_clearance));
                let need = least - clearance + built;
                let most = room.map(|room| room + built - min_room);
                hooks.push(Spot { x, level, need, most });
            }
        }
        if !missing.is_empty() {
            return Ok(Read::Lacking(missing));
        }
        let packers = survey.packers.clone();
        Ok(Read::Complete(Self { hooks, stacks: Stacks::of(&packers), packers, range, tilt }))
    }

    /// The problem to solve, or the hooks without any stack.
    pub fn problem(&self) -> Result<Problem, Vec<NoStack>> {
        let (heights, pieces): (Vec<Exact>, Vec<usize>) =
            self.stacks.heights().map(|(h, pieces)| (hundredths(h), pieces)).unzip();
        let mut stations = Vec::new();
        let mut without = Vec::new();
        for (hook, spot) in self.hooks.iter().enumerate() {
            let first = heights.partition_point(|h| *h < spot.need);
            let beyond =
                spot.most.map_or(heights.len(), |most| heights.partition_point(|h| *h <= most));
            if first < beyond {
                stations.push(Station { x: spot.x, level: spot.level, first, last: beyond - 1 });
            } else {
                let highest = beyond.checked_sub(1).map(|last| height(heights[last]));
                let needed = height(spot.need.max(0));
                without.push(NoStack { hook, needed, highest });
            }
        }
        if without.is_empty() {
            Ok(Problem { stations, heights, pieces, range: self.range, tilt: self.tilt })
        } else {
            Err(without)
        }
    }

    /// The same with another limit of stacks.
    #[must_use]
    pub fn stacked_up_to(&self, max_stack: Length) -> Self {
        let packers = Packers { max_stack, ..self.packers.clone() };
        Self { stacks: Stacks::of(&packers), packers, ..self.clone() }
    }

    /// The same with the face of one hook planed. Its arm sinks with it.
    #[must_use]
    pub fn planed(&self, hook: usize, by: Exact) -> Self {
        let mut planed = self.clone();
        if let Some(spot) = planed.hooks.get_mut(hook) {
            spot.level -= by;
            spot.need += by;
            spot.most = spot.most.map(|most| most + by);
        }
        planed
    }

    /// What a packing means at every hook. How far it is proven is for the caller to add.
    pub fn settings(&self, survey: &Survey, problem: &Problem, best: &Packing) -> Levelled {
        let hooks = survey.hooks.iter().zip(&problem.stations).zip(&best.heights);
        let hooks = hooks
            .map(|((found, station), h)| {
                let stack = problem.heights[*h];
                let slot = best.rail.above(station.x, station.level + stack);
                let built: Length = found.built.iter().copied().sum();
                let rise = height(stack) - built;
                let kept = whole(built, HEIGHT_GRAIN) == Some(stack)
                    && found.built.len() == problem.pieces[*h];
                let clearance = found.clearance.unwrap_or_default() + rise;
                Setting {
                    packers: if kept { found.built.clone() } else { self.pieces(stack) },
                    height: height(stack),
                    slot: Length::from_mm(slot / HEIGHT_GRAIN),
                    clearance,
                    clearance_under_load: found.deflection.map(|d| clearance - d),
                    room_above: found.room_above.map(|room| room - rise),
                }
            })
            .collect();
        Levelled {
            hooks,
            rail_at_origin: Length::from_mm(best.rail.at(0) / HEIGHT_GRAIN),
            rail_tilt: best.rail.slope() / RISE_AT_ONE,
            total: height(best.total),
            pieces: best.pieces,
            slot_deviation: Length::from_mm(best.deviation.sum() / HEIGHT_GRAIN),
            proven: false,
            total_bound: Length::ZERO,
            steps: 0,
        }
    }

    fn pieces(&self, stack: Exact) -> Vec<Length> {
        usize::try_from(stack / PER_HUNDREDTH)
            .map_or_else(|_| Vec::new(), |h| self.stacks.pieces(h))
    }
}

/// A length in whole grains; `None` when it is not a number or too large.
fn whole(length: Length, grain: f64) -> Option<Exact> {
    (length.mm().abs() <= LARGEST_HEIGHT_MM).then(|| to_exact((length.mm() * grain).round()))
}

fn position(x: Length) -> Option<Exact> {
    (x.mm().abs() <= LARGEST_POSITION_MM).then(|| to_exact((x.mm() * POSITION_GRAIN).round()))
}

#[expect(clippy::cast_possible_truncation, reason = "rounded and within the ranges read")]
const fn to_exact(rounded: f64) -> Exact {
    rounded as Exact
}

/// Hundredths of a millimetre in the grain of heights.
#[must_use]
pub fn hundredths(count: usize) -> Exact {
    Exact::try_from(count).unwrap_or(Exact::MAX / PER_HUNDREDTH) * PER_HUNDREDTH
}

/// Whole grains as a length.
#[must_use]
pub fn height(grains: Exact) -> Length {
    Length::from_mm(grains as f64 / HEIGHT_GRAIN)
}
