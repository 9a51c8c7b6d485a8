//! Hooks off their axis, modules, clamps and rafters.

use crate::covering::{Laying, courses};
use crate::service::answer::elements::{combination_id, hook_id, module_id};
use crate::service::rounding::{load, mm, utilisation, utilisation_text};

use crate::checks::Governing;
use crate::placement::layout::{Layout, Rail};
use crate::placement::modules::ModuleResult;
use crate::placement::rafters::RafterResult;
use crate::placement::{Job, sideways};
use crate::service::warnings::{self as kinds, Warnings, number, text};
use crate::units::Length;

/// Arms that stand off the axis of their rafter.
pub(super) fn arms(job: &Job, layout: &Layout, out: &mut Warnings) {
    let off = layout.hooks().map(|(_, place)| (place.arm_x - place.x).abs());
    let farthest = off.fold(Length::ZERO, Length::max);
    if farthest > Length::ZERO {
        out.add(
            &kinds::ARM_OFF_AXIS,
            "/hooks",
            format!(
                "Arms stand up to {} mm off the rafter axis; the screws are checked for it. Check \
                 that the hook's declared resistance and stiffness hold for it.",
                mm(farthest.mm())
            ),
            [("offset_mm", number(mm(farthest.mm())))],
        );
        super::footing::sideways_edge(job, layout, farthest, out);
    }
}

/// Arms that lie along a joint of the tiles below, and notches no tile survives.
pub(super) fn tiles(job: &Job, layout: &Layout, out: &mut Warnings) {
    let (covering, hook) = (&job.covering, &job.hook);
    if covering.laying == Laying::Interlocking {
        return;
    }
    let over_joint = layout.hooks().filter(|(at, place)| {
        let below = layout.rails[at[0]].line.course - 1;
        courses::exit_at(covering, below, place.arm_x).side_joint < hook.arm_width / 2.0
    });
    let along: Vec<String> = over_joint.map(|(at, _)| hook_id(layout, at)).collect();
    if !along.is_empty() {
        let hooks = along.join(", ");
        out.add(
            &kinds::LOWER_JOINT,
            "/hooks",
            format!(
                "Hooks {hooks}: the arm lies along a side joint of the tiles below it. A substitute \
                 tile under the arm, or an arm nearer to the joint above, covers it."
            ),
            [("hooks", text(hooks)), ("count", number(along.len() as f64))],
        );
    }
    let footings = layout.footings.iter();
    let highest = footings.map(|f| f.clearance).fold(Length::ZERO, Length::max);
    let room = highest + hook.arm_thickness + job.wishes.min_room_above;
    if hook.substitute_tiles == 0 && room > covering.tile_thickness {
        out.add(
            &kinds::NOTCH_THROUGH,
            "/hooks",
            format!(
                "Clearance, arm and the room above it take {} mm; the tile above is {} mm thick. Use \
                 metal substitute tiles.",
                mm(room.mm()),
                mm(covering.tile_thickness.mm())
            ),
            [
                ("room_mm", number(mm(room.mm()))),
                ("tile_mm", number(mm(covering.tile_thickness.mm()))),
            ],
        );
    }
}

/// Rafters no hook can stand on.
pub(super) fn out_of_reach(job: &Job, layout: &Layout, out: &mut Warnings) {
    let unreachable: Vec<String> = unreachable_rafters(job, layout);
    if !unreachable.is_empty() {
        out.add(
            &kinds::OUT_OF_REACH,
            "",
            format!(
                "Rafters {} have no trough within {} mm of their axis.",
                unreachable.join(", "),
                mm(job.hook.foot.lateral_range.mm())
            ),
            [("rafters", text(unreachable.join(", ")))],
        );
    }
}

fn unreachable_rafters(job: &Job, layout: &Layout) -> Vec<String> {
    let mut out = Vec::new();
    for (rafter, x) in job.roof.rafters.positions.iter().enumerate() {
        let under = |rail: &&Rail| rail.line.start() <= *x && *x <= rail.line.end();
        let blocked = layout.rails.iter().filter(under).any(|rail| {
            sideways::arm_position(job, rail.line.course, *x, [rail.line.start(), rail.line.end()])
                .is_none()
        });
        if blocked {
            out.push(rafter.to_string());
        }
    }
    out
}

/// One warning for all modules, about the worst.
pub(super) fn modules(job: &Job, layout: &Layout, out: &mut Warnings) {
    let bound = job.wishes.max_utilisation;
    let mut over = |kind, used: fn(&ModuleResult) -> f64, say: &dyn Fn(&ModuleResult) -> String| {
        let failing = layout.modules.iter().enumerate().filter(|(_, m)| used(m) > bound);
        let count = failing.clone().count();
        let worst = failing.reduce(|a, b| if used(b.1) > used(a.1) { b } else { a });
        let Some((i, module)) = worst else { return };
        let id = module_id(job, &module.placed);
        let others = if count > 1 {
            format!(" {} more modules exceed the limit.", count - 1)
        } else {
            String::new()
        };
        let value = utilisation(used(module));
        let limit = if bound < 1.0 { format!(", the limit is {bound}") } else { String::new() };
        out.add(
            kind,
            format!("/modules/{i}"),
            format!(
                "{}: {} of what it takes{limit}.{others}",
                say(module),
                utilisation_text(used(module))
            ),
            [
                ("module", text(id)),
                ("utilisation", number(value)),
                ("modules", number(count as f64)),
            ],
        );
    };
    over(&kinds::MODULE, |m| m.check.press.max(m.check.lift), &|module| {
        let presses = module.check.press >= module.check.lift;
        let (way, on_it) =
            if presses { ("pressing", module.press) } else { ("lifting", module.lift) };
        format!(
            "Module {} has a {way} design load of {:.2} kN/m²",
            module_id(job, &module.placed),
            on_it.kn_per_m2()
        )
    });
    over(&kinds::CLAMP, |m| m.check.clamp, &|module| {
        format!(
            "A clamp of module {} is lifted with {:.2} kN",
            module_id(job, &module.placed),
            module.check.clamp_lift.kn()
        )
    });
}

pub(super) fn rafters(job: &Job, layout: &Layout, out: &mut Warnings) {
    const BENCHMARK: f64 = 0.15;
    if job.roof.rafters.span.is_none() && !layout.rafters.is_empty() {
        out.add(
            &kinds::RAFTER_UNVERIFIED,
            "/rafters",
            "No rafter span is given, so the rafters themselves are not verified. Measure the longest \
             free length along the slope between supports and give it as roof.rafters.span_m.",
            [],
        );
    }
    let most = layout.rafters.iter().map(|r| r.added_share).fold(0.0, f64::max);
    if most > BENCHMARK {
        out.add(
            &kinds::ADDED_LOAD,
            "/rafters",
            format!(
                "The array adds up to {:.0} % to the permanent load of a rafter.",
                most * 100.0
            ),
            [("share", number(load(most)))],
        );
    }
    let used = |rafter: &RafterResult| {
        rafter.utilisation.map_or((Governing::NONE, "bending"), |[bending, shear]| {
            if shear.utilisation > bending.utilisation {
                (shear, "shear")
            } else {
                (bending, "bending")
            }
        })
    };
    let bound = job.wishes.max_utilisation;
    let failing = layout.rafters.iter().enumerate().filter(|(_, r)| used(r).0.utilisation > bound);
    let all: Vec<String> = failing.clone().map(|(_, r)| r.rafter.to_string()).collect();
    let worst = failing
        .reduce(|a, b| if used(b.1).0.utilisation > used(a.1).0.utilisation { b } else { a });
    if let Some((i, rafter)) = worst {
        let (governing, what) = used(rafter);
        let value = utilisation(governing.utilisation);
        out.add(
            &kinds::RAFTER,
            format!("/rafters/{i}"),
            format!(
                "Rafter {} reaches {} in {what} in {}; rafters over the limit: {}. No \
                 spread of the hooks that was tried brings them within it: ask a structural \
                 engineer.",
                rafter.rafter,
                utilisation_text(governing.utilisation),
                combination_id(job, governing.combination),
                all.join(", ")
            ),
            [
                ("rafter", number(rafter.rafter as f64)),
                ("utilisation", number(value)),
                ("combination", text(combination_id(job, governing.combination))),
                ("rafters", text(all.join(", "))),
            ],
        );
    }
}
