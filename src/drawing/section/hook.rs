//! The hook itself: screws, packers, foot, arm, rail.

use crate::drawing::canvas::{Canvas, INK, Pen};
use crate::language::Words;
use crate::placement::Job;
use crate::placement::footing::Footing;
use crate::placement::rail_axis::RailAxis;

use super::key::Key;
use super::shape::{Shape, View};
use super::{DIMENSION, LAYER, STEEL};

/// Draws it, with what it is called.
pub fn hook(
    canvas: &mut Canvas,
    view: &View,
    job: &Job,
    footing: &Footing,
    shape: &Shape,
    words: &Words,
    key: &mut Key,
) {
    let hook = &job.hook;
    let thick = hook.arm_thickness.mm();
    let plate = shape.packed + hook.foot.thickness.mm();
    for screw in &hook.foot.screws {
        let u = shape.foot[0] + screw[1].mm();
        let head = plate + 3.0;
        let tip = shape.packed - (footing.seat.gap + footing.seat.reach).mm();
        let thread = (tip + job.screw.thread.mm()).min(plate);
        canvas.rect(&STEEL, &view.rect([u - 7.0, u + 7.0], [plate, head]));
        canvas.line(&Pen::line(INK, 3.0), &[view.at(u, plate), view.at(u, thread)]);
        canvas.line(
            &Pen::line(INK, 7.0).dashed("2 2.5"),
            &[view.at(u, thread), view.at(u, tip + 4.0)],
        );
        canvas.line(&Pen::line(INK, 3.0), &[view.at(u, thread), view.at(u, tip)]);
    }
    let mut z = 0.0;
    for packer in footing.packers.iter().flatten() {
        canvas.rect(&LAYER, &view.rect(shape.foot, [z, z + packer.mm()]));
        z += packer.mm();
    }
    canvas.rect(&STEEL, &view.rect(shape.foot, [shape.packed, plate]));
    // Foot, riser, arm: one piece of steel.
    let (lip, arm) = (shape.tail.max(0.0) + 1.0, shape.arm);
    canvas.polygon(
        &STEEL,
        &[
            view.at(shape.foot[0] + thick, shape.packed),
            view.at(shape.foot[0] + thick, shape.arm_at_foot + thick),
            view.at(lip, arm + thick),
            view.at(-thick / 2.0, shape.arm_at_bolt + thick),
            view.at(-thick / 2.0, shape.arm_at_bolt),
            view.at(lip, arm),
            view.at(shape.foot[0], shape.arm_at_foot),
            view.at(shape.foot[0], shape.packed),
        ],
    );
    let upright = [shape.arm_at_bolt, shape.bolt + 14.0];
    canvas.rect(&STEEL, &view.rect([-thick / 2.0, thick / 2.0], upright));
    let half = job.rail.depth.mm() / 2.0;
    let axis = -job.rail.axis_offset.mm();
    let (high, pen) = ([shape.bolt - half, shape.bolt + half], Pen::line(INK, 2.6));
    let rail = match job.rail_axis {
        RailAxis::AlongEaves => {
            let rail = [axis - half, axis + half];
            canvas.rect(&pen.filled("#fff"), &view.rect(rail, high));
            let bolt = view.rect(bolt(axis, thick / 2.0), [shape.bolt - 3.0, shape.bolt + 3.0]);
            canvas.rect(&STEEL, &bolt);
            rail
        }
        // Seen from its side, with the upright and the end of its bolt before it.
        RailAxis::UpSlope => {
            for z in high {
                canvas.line(&pen, &shape.u.map(|u| view.at(u, z)));
            }
            canvas.circle(&STEEL, view.at(0.0, shape.bolt), 6.0);
            shape.u
        }
    };
    let profile = format!("{} {:.0} × {:.0}", words.rail, 2.0 * half, 2.0 * half);
    let beside = match job.rail_axis {
        RailAxis::AlongEaves => view.at(rail[0].min(-thick / 2.0) - 14.0, shape.bolt + half - 4.0),
        RailAxis::UpSlope => view.at(rail[0] + 20.0, shape.bolt),
    };
    key.add(canvas, beside, profile);
    let middle = f64::midpoint(lip, shape.foot[0]);
    let arm_text = format!("{} {:.0} × {}", words.arm, hook.arm_width.mm(), words.number(thick, 1));
    let on_arm = arm - shape.slope * (middle - lip) + thick / 2.0;
    key.add(canvas, view.at(middle, on_arm + 30.0), arm_text);
    canvas.line(&DIMENSION, &[view.at(middle, on_arm + 23.0), view.at(middle, on_arm)]);
    let foot = format!(
        "{} {:.0} × {:.0} × {}",
        words.foot,
        hook.foot.width.mm(),
        hook.foot.length.mm(),
        words.number(hook.foot.thickness.mm(), 1)
    );
    key.add(canvas, view.at(f64::midpoint(shape.foot[0], shape.foot[1]), plate + 12.0), foot);
    let screw = format!(
        "{} {} × {} × {}, {} {:.0}",
        words.screws,
        hook.foot.screws.len(),
        words.number(job.screw.diameter.mm(), 1),
        words.number(job.screw.length.mm(), 1),
        words.embedment,
        footing.seat.embedment.mm()
    );
    let last = hook.foot.screws.iter().map(|s| s[1].mm()).fold(0.0, f64::max);
    let depth = -job.roof.layers.under_foot.mm() - 34.0;
    key.add(canvas, view.at(shape.foot[0] + last + 16.0, depth), screw);
    let stack: Vec<String> =
        footing.packers.iter().flatten().map(|p| words.number(p.mm(), 1)).collect();
    let text = if stack.is_empty() { words.no_packers.to_owned() } else { stack.join(" + ") };
    let beside = view.at(shape.foot[1] + 12.0, shape.packed / 2.0 + 4.0);
    key.add(canvas, beside, format!("{}: {text}", words.packers));
}

/// From where to where the bolt of a rail is seen: its head stands on the other side of the upright.
fn bolt(rail: f64, half_upright: f64) -> [f64; 2] {
    let (into_rail, head) = (half_upright + 12.0, half_upright + 7.0);
    if rail > 0.0 { [-head, into_rail] } else { [-into_rail, head] }
}
