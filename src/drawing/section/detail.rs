//! The clearance between arm and tile, larger.

use crate::drawing::canvas::{ALARM, Canvas, Pen};
use crate::drawing::text::{Label, NORMAL};
use crate::language::Words;
use crate::placement::Job;
use crate::placement::footing::Footing;
use crate::units::Length;

use super::dimensions::up;
use super::shape::{Shape, View};
use super::{DETAIL, STEEL, TILE};

/// The clearance where it is least, larger; says where it ends.
pub fn draw(
    canvas: &mut Canvas,
    job: &Job,
    footing: &Footing,
    shape: &Shape,
    sinks: Option<f64>,
    words: &Words,
    [left, top]: [f64; 2],
) -> f64 {
    canvas.label(
        Label::new(format!("{} ({})", words.detail, words.drawn_larger), [left, top])
            .bold()
            .from_start(),
    );
    let clear = footing.clearance.mm();
    let thick = job.hook.arm_thickness.mm();
    let tile = job.covering.tile_thickness.mm().min(10.0);
    // A tile falls towards the ridge, and so does what is drawn of it.
    let high = (clear.max(0.0) + thick + tile + 3.0).min(60.0) + 26.0 * shape.slope;
    let view = View { left, top: top + 24.0, u: -8.0, z: clear + thick + 3.0, scale: DETAIL };
    let u = [-8.0, 26.0];
    let rise = |at: f64| -shape.slope * at;
    // The least is at the lower end of the arm, unless the arm leads away from the tile.
    let (level, by) = if footing.narrowing(job) > Length::ZERO {
        (shape.tail.min(u[1]), (shape.arm - shape.arm_at_bolt) / shape.tail)
    } else {
        (0.0, 0.0)
    };
    let arm_rise = |at: f64| at.clamp(0.0, level) * by + rise(at.max(level)) - rise(level);
    let sides = [(u[0], 0.0), (u[1], 0.0), (u[1], -tile), (u[0], -tile)];
    canvas.polygon(&TILE, &sides.map(|(at, z)| view.at(at, z + rise(at))));
    let arm = |z: f64| {
        [
            (u[0], z),
            (level, z + arm_rise(level)),
            (u[1], z + arm_rise(u[1])),
            (u[1], z + arm_rise(u[1]) + thick),
            (level, z + arm_rise(level) + thick),
            (u[0], z + thick),
        ]
        .map(|(at, z)| view.at(at, z))
    };
    canvas.polygon(&STEEL, &arm(clear));
    let mut x = view.at(0.0, 0.0)[0];
    let mut figures = vec![(clear, words.before_load)];
    if let Some(sinks) = sinks {
        canvas.polygon(&Pen::line(ALARM, 1.6).dashed("6 4"), &arm(clear - sinks));
        figures.push((clear - sinks, words.under_load));
    }
    for (gap, _) in &figures {
        let at = (x - left) / DETAIL + u[0];
        let [upper, lower] = [gap + arm_rise(at), rise(at)].map(|z| view.at(at, z)[1]);
        up(canvas, x, [upper, lower]);
        if lower - upper > NORMAL * 1.5 {
            let middle = [x + 6.0, f64::midpoint(upper, lower)];
            canvas.label(Label::new(words.figure(*gap, 1), middle).from_start());
        }
        x += 64.0;
    }
    let mut y = top + 24.0 + high * DETAIL + 22.0;
    for (gap, when) in &figures {
        let text = format!("{} {when}: {} mm", words.clearance, words.figure(*gap, 1));
        canvas.label(Label::new(text, [left, y]).bold().from_start());
        y += NORMAL * 1.5;
    }
    if sinks.is_none() {
        let text = format!("{} {}: {}", words.clearance, words.under_load, words.not_verified);
        canvas.label(Label::new(text, [left, y]).from_start());
        y += NORMAL * 1.5;
    }
    y
}
