//! What the hook is built into: rafter, layers, battens, tiles.

use crate::covering::Laying;
use crate::drawing::canvas::{Canvas, Pen};
use crate::language::Words;
use crate::placement::Job;
use crate::units::Length;

use super::key::Key;
use super::shape::{Shape, View};
use super::{BEHIND, DIMENSION, LAYER, OPENED, TILE, WOOD};

/// Rafter, and the layers under and beside the foot.
pub fn timber(
    canvas: &mut Canvas,
    view: &View,
    job: &Job,
    shape: &Shape,
    words: &Words,
    key: &mut Key,
) {
    let under = job.roof.layers.under_foot.mm();
    let depth = job.roof.rafters.depth.mm();
    canvas.rect(&WOOD, &view.rect(shape.u, [-under - depth, -under]));
    let beside = shape.u[1] - 30.0;
    let size = format!("{} {:.0} × {depth:.0}", words.rafter, job.roof.rafters.width.mm());
    key.add(canvas, view.at(beside, -under - depth / 2.0), size);
    if under > 0.0 {
        canvas.rect(&LAYER, &view.rect(shape.u, [-under, 0.0]));
        key.add(
            canvas,
            view.at(beside, -under / 2.0),
            format!("{} {under:.0}", words.layers_under_foot),
        );
    }
    if shape.battens > 0.0 {
        // They run beside the foot and are not cut by the section.
        canvas.rect(&BEHIND, &view.rect(shape.u, [0.0, shape.battens]));
        let text = format!("{} {:.0}", words.layers_beside_foot, shape.battens);
        key.add(canvas, view.at(beside, shape.battens / 2.0), text);
    }
}

/// Battens and courses; the one that is opened for the arm is dashed.
pub fn tiles(
    canvas: &mut Canvas,
    view: &View,
    job: &Job,
    shape: &Shape,
    words: &Words,
    key: &mut Key,
) {
    let covering = &job.covering;
    let [length, t, gauge] =
        [covering.tile_length, covering.tile_thickness, covering.gauge].map(Length::mm);
    let base = shape.battens + covering.batten_thickness.mm();
    let layers = if covering.laying == Laying::Crown { 2 } else { 1 };
    let mut batten_named = false;
    // Enough courses to either side for whatever lies in view.
    let reach = ((shape.u[1] - shape.u[0]) / gauge).ceil().min(60.0) + 4.0;
    let mut course = -reach;
    while course <= reach {
        let tail = shape.tail + course * gauge;
        let upper = tail + length - covering.head_projection.mm();
        let batten = [upper - covering.batten_width.mm(), upper];
        if shape.u[0] < batten[0] && batten[1] < shape.u[1] {
            let z = [shape.battens, base];
            canvas.rect(&WOOD, &view.rect(batten, z));
            if !batten_named && batten[0] > shape.foot[1] {
                batten_named = true;
                let text = format!(
                    "{} {:.0} × {:.0}",
                    words.batten,
                    covering.batten_width.mm(),
                    covering.batten_thickness.mm()
                );
                key.add(canvas, view.at(upper - 12.0, base - 8.0), text);
            }
        }
        course += 1.0;
    }
    let tile = |canvas: &mut Canvas, course: f64, layer: i32, pen: &Pen| {
        let tail = shape.tail + course * gauge;
        let lift = f64::from(layer) * t;
        let [from, to] = [(shape.u[0] - tail).max(0.0), (shape.u[1] - tail).min(length)];
        if from >= to {
            return;
        }
        let low = |s: f64| base + lift + shape.slope * (length - s);
        let corners = [(from, low(from)), (to, low(to)), (to, low(to) + t), (from, low(from) + t)];
        canvas.polygon(pen, &corners.map(|(s, z)| view.at(tail + s, z)));
    };
    // From the eaves up, so that each course lies over the one below; the opened one is drawn as
    // what it is, a place that has to be treated.
    let mut course = -reach;
    while course <= reach {
        for layer in 0..layers {
            tile(canvas, course, layer, if course == 0.0 { &OPENED } else { &TILE });
        }
        course += 1.0;
    }
    let top = |course: f64, u: f64| {
        let s = u - shape.tail - course * gauge;
        base + f64::from(layers - 1) * t + shape.slope * (length - s) + t / 2.0
    };
    let below = f64::midpoint(shape.u[0], shape.tail) - 18.0;
    key.add(canvas, view.at(below, top(-1.0, below) - 2.0), words.tile_below);
    let above = shape.tail + gauge * 0.3;
    key.add(canvas, view.at(above, shape.arm + 34.0), words.tile_above);
    let [from, to] = [view.at(above, shape.arm + 27.0), view.at(above, top(0.0, above) + t / 2.0)];
    canvas.line(&DIMENSION, &[from, to]);
}
