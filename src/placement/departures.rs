//! Where hooks of a built job are not as they were planned: on what was drawn, with the screws of the job. How many
//! packers were planned a built job does not say.
//!
//! **Units.** Lengths.
//!
//! **Checked by** `tests/api/departures.rs`: what is put into a job is what is found to depart.

use crate::roof::BearingFace;
use crate::units::Length;

use super::Job;
use super::built::{self, Built};
use super::footing::{Footing, FoundFooting};

/// What lengths may be off by in rounding.
const ROUNDING: Length = Length::from_mm(0.05);

/// A quantity that can depart from the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Axis of the rafter under the hook.
    RafterAxis,
    /// Width of that rafter.
    RafterWidth,
    /// Thickness of the counter-batten.
    CounterBatten,
    /// Length of the screws.
    ScrewLength,
    /// Clearance between arm and tile below before load, packers in place, where it was measured.
    Clearance,
}

/// One quantity at one hook.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Departure {
    /// The hook, by place.
    pub hook: usize,
    /// The quantity.
    pub quantity: Quantity,
    /// As planned.
    pub planned: Length,
    /// As found.
    pub found: Length,
}

/// Every departure, hook by hook.
#[must_use]
pub fn departures(job: &Job, built: &Built) -> Vec<Departure> {
    let of = |(hook, _)| of_hook(job, built, hook);
    built.hooks.iter().enumerate().flat_map(of).filter(departs).collect()
}

fn departs(departure: &Departure) -> bool {
    (departure.planned - departure.found).abs() > ROUNDING
}

fn of_hook(job: &Job, built: &Built, hook: usize) -> impl Iterator<Item = Departure> {
    let stands = &built.hooks[hook];
    let way = &built.ways[stands.footing];
    let drawn = FoundFooting::drawn(job, way.rails);
    let batten = |way: &FoundFooting| match way.layers.face {
        BearingFace::CounterBatten(thickness) => Some(thickness),
        BearingFace::Rafter(_) | BearingFace::Boarding => None,
    };
    let axis = built::nearest_rafter(job, stands.x).map(|(at, _)| job.roof.rafters.positions[at]);
    let clearance = way.clearance.map(|found| {
        let as_drawn = Footing::stacked(job, way.packers.clone(), way.rails);
        (as_drawn.clearance, found)
    });
    let all = [
        (Quantity::RafterAxis, axis.map(|axis| (axis, stands.x))),
        (Quantity::RafterWidth, Some((drawn.rafter_width, way.rafter_width))),
        (Quantity::CounterBatten, batten(&drawn).zip(batten(way))),
        (Quantity::ScrewLength, Some((drawn.screw_length, way.screw_length))),
        (Quantity::Clearance, clearance),
    ];
    all.into_iter().filter_map(move |(quantity, lengths)| {
        let (planned, found) = lengths?;
        Some(Departure { hook, quantity, planned, found })
    })
}
