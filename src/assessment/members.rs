//! Hooks off their axis, tiles, modules, clamps and rafters.

use crate::checks::Governing;
use crate::covering::{Laying, courses, opening};
use crate::placement::laid::{Layout, ModuleResult, RafterResult, Rail};
use crate::placement::{Job, sideways};
use crate::units::{Force, Length};

use super::value::{HeldBy, RafterCheck, Sense, Share, Utilisation};
use super::{Fact, Findings, Place, footing, strength};

/// Arms that stand off the axis of their rafter.
pub(super) fn arms(job: &Job, layout: &Layout, out: &mut Findings) {
    let off = layout.hooks().map(|(_, place)| (place.arm_x - place.x).abs());
    let offset = off.fold(Length::ZERO, Length::max);
    if offset > Length::ZERO {
        let range = job.hook.foot.lateral_range;
        let beyond = layout
            .hooks()
            .filter(|(_, place)| (place.arm_x - place.x).abs() - range > sideways::ROUNDING);
        let hooks: Vec<String> = beyond.map(|(at, _)| layout.hook_name(at).to_owned()).collect();
        let fact = if hooks.is_empty() {
            Fact::ArmOffAxis { offset }
        } else {
            Fact::ArmBeyondRange { hooks, offset, range }
        };
        out.add(Place::Hooks, fact);
    }
    // A rail beside the axis of the rafter turns the foot, be it that the arm stands there or that the rail
    // bears beside it.
    let beside = layout.hooks().map(|(_, place)| (place.arm_x + job.rail_aside() - place.x).abs());
    let turned = beside.fold(Length::ZERO, Length::max) + job.hook.load_aside;
    if turned > Length::ZERO {
        footing::sideways_edge(job, layout, turned, out);
    }
}

/// Arms that lie along a joint of the tiles below, and notches no tile survives.
pub(super) fn tiles(job: &Job, layout: &Layout, out: &mut Findings) {
    let (covering, hook) = (&job.covering, &job.hook);
    let highest = layout.footings.iter().map(|f| f.clearance_at_exit(job));
    let room =
        highest.fold(Length::ZERO, Length::max) + hook.arm_thickness + job.wishes.min_room_above;
    let tile = covering.tile_thickness;
    let is_too_high = hook.substitute_tiles == 0 && room > tile;
    if covering.laying == Laying::Interlocking {
        if is_too_high {
            out.add(Place::Hooks, Fact::ProfileMustTakeArm { room, tile });
        }
        return;
    }
    let over_joint = layout.hooks().filter(|(_, place)| {
        let below = place.course - 1;
        // A metal tile under the arm covers the joint.
        !opening::replaces_below(hook)
            && courses::exit_at(covering, below, place.arm_x).side_joint < hook.arm_width / 2.0
    });
    let hooks: Vec<String> = over_joint.map(|(at, _)| layout.hook_name(at).to_owned()).collect();
    if !hooks.is_empty() {
        let count = hooks.len();
        out.add(Place::Hooks, Fact::ArmAlongJoint { hooks, count });
    }
    if is_too_high {
        out.add(Place::Hooks, Fact::NotchDeeperThanTile { room, tile });
    }
}

/// The bolt between hook and rail, where nothing is known of it or of its slot.
pub(super) fn bolt(job: &Job, layout: &Layout, out: &mut Findings) {
    if job.hook.includes_bolt {
        return;
    }
    match job.bolt.filter(|bolt| bolt.resistance.is_some()) {
        None => out.add(Place::Hooks, Fact::BoltUnknown {}),
        Some(bolt) if bolt.slip.is_none() && job.hook.slot_range > Length::ZERO => {
            let results = layout.segments().filter_map(|segment| segment.result.as_ref());
            let forces = results.flat_map(|result| result.forces.iter().flatten());
            let normal = forces.map(|[normal, _]| normal.abs()).fold(Force::ZERO, Force::max);
            out.add(Place::Hooks, Fact::SlotSlipUnknown { normal });
        }
        Some(_) => {}
    }
}

/// Rafters no hook can stand on.
pub(super) fn out_of_reach(job: &Job, layout: &Layout, out: &mut Findings) {
    let rafters = unreachable_rafters(job, layout);
    if !rafters.is_empty() {
        let range = job.hook.foot.lateral_range;
        out.add(Place::Whole, Fact::NoTroughInReach { rafters, range });
    }
}

fn unreachable_rafters(job: &Job, layout: &Layout) -> Vec<usize> {
    let blocked = |x: Length| {
        let under = |rail: &&Rail| rail.line.start() <= x && x <= rail.line.end();
        layout.rails.iter().filter(under).any(|rail| {
            let ends = [rail.line.start(), rail.line.end()];
            let course = rail.line.course();
            course.is_some_and(|course| sideways::arm_position(job, course, x, ends).is_none())
        })
    };
    job.roof.rafters.open().filter(|(_, x)| blocked(*x)).map(|(rafter, _)| rafter).collect()
}

/// One finding for all modules, about the worst, and one for all clamps.
pub(super) fn modules(job: &Job, layout: &Layout, out: &mut Findings) {
    let limit = job.wishes.max_utilisation;
    let worst = |used: fn(&ModuleResult) -> f64| {
        let failing = layout.modules.iter().enumerate().filter(move |(_, m)| used(m) > limit);
        let count = failing.clone().count();
        let worst = failing.reduce(|a, b| if used(b.1) > used(a.1) { b } else { a })?;
        Some((worst.0, worst.1, Utilisation::new(used(worst.1)), count))
    };
    let bound = strength::bound(job);
    if let Some((i, one, utilisation, modules)) = worst(|m| m.check.press.max(m.check.lift)) {
        let presses = one.check.press >= one.check.lift;
        let (sense, load) =
            if presses { (Sense::Pressing, one.press) } else { (Sense::Lifting, one.lift) };
        let module = job.module_name(&one.placed);
        let fact = Fact::ModuleOverloaded { module, sense, load, utilisation, modules, bound };
        out.add(Place::Module(i), fact);
    }
    if let Some((i, one, utilisation, modules)) = worst(|m| m.check.clamp) {
        let (module, lift) = (job.module_name(&one.placed), one.check.clamp_lift);
        let fact = Fact::ClampOverloaded { module, lift, utilisation, modules, bound };
        out.add(Place::Module(i), fact);
    }
    if let Some((i, one, utilisation, modules)) = worst(|m| m.check.slip.unwrap_or(0.0)) {
        let (module, slope) = (job.module_name(&one.placed), one.check.clamp_slope);
        let on_stop = one.placed.row == 0 && job.clamp.stop.is_some();
        let held_by = if on_stop { HeldBy::Stop } else { HeldBy::Clamp };
        let fact = Fact::ClampSlips { module, slope, held_by, utilisation, modules, bound };
        out.add(Place::Module(i), fact);
    }
    let unknown = layout.modules.iter().filter(|m| m.check.slip.is_none());
    let modules = unknown.clone().count();
    if modules > 0 {
        let slope = unknown.map(|m| m.check.clamp_slope).fold(Force::ZERO, Force::max);
        out.add(Place::Modules, Fact::ClampSlipUnknown { slope, modules });
    }
}

pub(super) fn rafters(job: &Job, layout: &Layout, out: &mut Findings) {
    const BENCHMARK: f64 = 0.15;
    if job.roof.rafters.span.is_none() && !layout.rafters.is_empty() {
        out.add(Place::Rafters, Fact::RafterNotVerified {});
    }
    if job.roof.rafters.trussed && !layout.rafters.is_empty() {
        out.add(Place::Rafters, Fact::RafterTrussed {});
    }
    let most = layout.rafters.iter().map(|r| r.added_share).fold(0.0, f64::max);
    if most > BENCHMARK {
        out.add(Place::Rafters, Fact::AddedLoad { share: Share(most) });
    }
    overloaded_rafters(job, layout, out);
}

/// One finding for the rafters that failed before there was an array, one for those it overloads.
fn overloaded_rafters(job: &Job, layout: &Layout, out: &mut Findings) {
    let limit = job.wishes.max_utilisation;
    let worse = |[bending, shear]: [Governing; 2]| {
        let in_shear = shear.utilisation > bending.utilisation;
        if in_shear { (shear, RafterCheck::Shear) } else { (bending, RafterCheck::Bending) }
    };
    let used = |rafter: &RafterResult| {
        rafter.utilisation.map_or((Governing::NONE, RafterCheck::Bending), worse)
    };
    // In the check that governs with the array: what counts is whether that one failed already.
    let before = |rafter: &RafterResult| {
        let [bending, shear] = rafter.before.unwrap_or([Governing::NONE; 2]);
        match used(rafter).1 {
            RafterCheck::Bending => bending.utilisation,
            RafterCheck::Shear => shear.utilisation,
        }
    };
    for failed_before in [true, false] {
        let failing = layout.rafters.iter().enumerate().filter(|(_, rafter)| {
            used(rafter).0.utilisation > limit && (before(rafter) > limit) == failed_before
        });
        let rafters: Vec<usize> = failing.clone().map(|(_, r)| r.rafter).collect();
        let worst = failing
            .reduce(|a, b| if used(b.1).0.utilisation > used(a.1).0.utilisation { b } else { a });
        let Some((i, rafter)) = worst else { continue };
        let (governing, check) = used(rafter);
        let combination = job.combination_name(governing.combination).to_owned();
        let utilisation = Utilisation::new(governing.utilisation);
        let before = Utilisation::new(before(rafter));
        let rafter = rafter.rafter;
        let fact = if failed_before {
            Fact::RafterOverloadedBefore {
                rafter,
                check,
                utilisation,
                before,
                combination,
                rafters,
            }
        } else {
            Fact::RafterOverloaded { rafter, check, utilisation, combination, rafters }
        };
        out.add(Place::Rafter(i), fact);
    }
}
