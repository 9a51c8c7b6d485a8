//! The foot on the roof: clearance, screws, edges.

use crate::checks::screws::{self, Nearness};
use crate::checks::sideways;
use crate::codes::Code;
use crate::placement::Job;
use crate::placement::footing::Footing;
use crate::placement::laid::Layout;
use crate::units::{Angle, Length};

use super::value::Utilisation;
use super::{Fact, Findings, Place};

/// A height printed as the one asked for is that one.
pub(super) const PRINTED: Length = Length::from_mm(0.005);

/// No stack of packers lifts the arm enough.
pub(super) fn no_stack(job: &Job, footing: &Footing, out: &mut Findings) {
    if footing.packers.is_none() {
        let fact = Fact::ClearanceBelowMinimum {
            hooks: None,
            clearance: footing.bare_clearance,
            least: job.wishes.min_clearance,
            highest_stack: Some(job.packers.max_stack),
        };
        out.add(Place::Whole, fact);
    }
}

/// What is wrong with the screws of feet set in one way: those of these hooks, or of all.
pub(super) fn screws(job: &Job, footing: &Footing, hooks: Option<&[String]>, out: &mut Findings) {
    let hooks = || hooks.map(<[String]>::to_vec);
    let seat = &footing.seat;
    let depth = job.roof.rafters.depth;
    if let Err(silent) = &footing.capacity {
        let (embedment, threaded) = (seat.embedment, seat.threaded);
        let least = job.rules.least_thread(job.screw.diameter);
        let fact = if threaded < least {
            let depth = seat.comes_out().then_some(depth);
            Fact::ScrewTooShort { hooks: hooks(), embedment, threaded, least, depth }
        } else {
            Fact::ScrewOutsideRules {
                hooks: hooks(),
                embedment,
                threaded,
                clause: silent.clause.to_string(),
                condition: silent.condition,
                declared: job.screw.withdrawal.is_some(),
            }
        };
        out.add(Place::Whole, fact);
    }
    if seat.comes_out() {
        let reach = seat.reach;
        out.add(Place::Whole, Fact::ScrewLongerThanRafter { hooks: hooks(), reach, depth });
    }
    if let Some(near) =
        screws::too_near(job.rules, &job.hook.foot, &job.screw, footing.rafter_width)
    {
        let (hooks, have, need) = (hooks(), near.have, near.need);
        let fact = match near.what {
            Nearness::RafterEdge => Fact::ScrewNearRafterEdge { hooks, have, need },
            Nearness::EachOther => Fact::ScrewNearAnother { hooks, have, need },
        };
        out.add(Place::Whole, fact);
    }
}

/// What is looked at alike however the feet are set.
pub(super) fn feet(job: &Job, out: &mut Findings) {
    let along = Angle::from_deg(0.0);
    let least = screws::least_distances(job.rules, &job.screw, along).timber;
    let depth = job.roof.rafters.depth;
    if depth < least {
        out.add(Place::Whole, Fact::RafterThinForScrew { depth, least });
    }
    if let Some(spacings) = &job.screw.spacings {
        let source = spacings.source.clone();
        out.add(Place::Whole, Fact::SpacingsDeclared { source });
    }
    counter_batten(job, out);
    if job.hook.normal_spring.stiffness.is_none() {
        out.add(Place::Whole, Fact::StiffnessUnknown {});
    }
}

/// Rails that would touch the tile below under load, wherever their bolts are in the slots or low in them.
pub(super) fn rails_over_tiles(job: &Job, layout: &Layout, out: &mut Findings) {
    for (setting, footing) in layout.footings.iter().enumerate() {
        let Some([least, need]) = layout.least_slot(job, setting) else { continue };
        let (range, slot) = (job.hook.slot_range, footing.slot);
        let hooks = (layout.footings.len() > 1)
            .then(|| layout.hooks_set(setting).map(str::to_owned).collect());
        let short = least - slot.unwrap_or(range);
        if short > PRINTED {
            out.add(Place::Hooks, Fact::RailOnTile { hooks, short, need, slot });
        } else if slot.is_none() && least > PRINTED {
            // Nobody sets a bolt to less than a millimetre.
            let least = Length::from_mm(least.mm().ceil()).min(range);
            out.add(Place::Hooks, Fact::RailLowInSlot { hooks, least, range, need });
        }
    }
}

/// Plates of feet that would yield where the arm rises from them, unless tests or an approval stand behind
/// the resistance of the hook, which then covers them.
pub(super) fn plates(job: &Job, layout: &Layout, out: &mut Findings) {
    if let Some(plate) = layout.plate_bent_most(job).filter(|plate| plate.used > 1.0) {
        let hook = layout.hook_name(plate.hook).to_owned();
        let utilisation = Utilisation::new(plate.used);
        let combination = job.combination_name(plate.combination).to_owned();
        out.add(Place::Hooks, Fact::PlateBends { hook, utilisation, combination });
    }
}

/// Arms that are left little of their clearance under load, where that rests on stiffnesses from memory.
pub(super) fn little_left(job: &Job, layout: &Layout, out: &mut Findings) {
    /// Own judgement: tiles, battens and readings differ by as much.
    const LITTLE: Length = Length::from_mm(1.0);
    if job.hook.arm_spring.is_none() {
        return;
    }
    let left = layout.hooks().filter_map(|(at, place)| {
        let moved = layout.movement(at)?;
        Some((layout.footings[place.setting].clearance - moved, at))
    });
    let least = left.reduce(|least, next| if next.0 < least.0 { next } else { least });
    if let Some((left, at)) = least.filter(|(left, _)| (Length::ZERO..LITTLE).contains(left)) {
        let hook = layout.hook_name(at).to_owned();
        out.add(Place::Hooks, Fact::ClearanceLittleLeft { hook, left, least: LITTLE });
    }
}

fn counter_batten(job: &Job, out: &mut Findings) {
    let width = job.roof.layers.bearing_width;
    if width >= job.roof.rafters.width {
        return;
    }
    let along = Angle::from_deg(0.0);
    let needed = |screw| screws::least_distances(job.rules, screw, along).unloaded_edge;
    let need = needed(&job.screw);
    let have = screws::edge_distance(&job.hook.foot, width);
    if have < need {
        let mut drilled = job.screw.clone();
        drilled.predrilled = true;
        out.add(
            Place::Whole,
            Fact::CounterBattenEdge {
                width,
                have,
                need,
                width_needed: width + (need - have) * 2.0,
                predrilling_helps: have >= needed(&drilled),
            },
        );
    }
}

/// The turning of a foot adds a part across the grain to the screws' load.
pub(super) fn sideways_edge(job: &Job, layout: &Layout, offset: Length, out: &mut Findings) {
    let narrowest = layout.footings.iter().map(|f| f.rafter_width).reduce(Length::min);
    let width = narrowest.unwrap_or(job.roof.rafters.width);
    let edge = sideways::loaded_edge(job.rules, &job.hook.foot, &job.screw, offset, width);
    if let Some(edge) = edge.filter(|edge| edge.have < edge.need) {
        let fact =
            Fact::SidewaysEdge { offset, angle: edge.angle, have: edge.have, need: edge.need };
        out.add(Place::Whole, fact);
    }
}
