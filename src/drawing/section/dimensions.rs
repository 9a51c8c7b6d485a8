//! Dimensions of the section.

use crate::drawing::canvas::{Canvas, FAINT, INK, Pen};
use crate::drawing::text::Label;
use crate::language::Words;
use crate::placement::Job;
use crate::placement::footing::Footing;

use super::DIMENSION;
use super::shape::{Shape, View};

/// A small triangle with the pitch, farther left where its text would end beyond `right`: faces differ
/// in width.
pub fn pitch(canvas: &mut Canvas, job: &Job, words: &Words, [x, y]: [f64; 2], right: f64) {
    let rise = job.roof.pitch.tan().min(1.6);
    let (run, high) = (54.0 / rise.max(1.0), 54.0 * rise / rise.max(1.0));
    let text = format!("{} {}°", words.pitch, words.figure(job.roof.pitch.deg(), 1));
    let label = Label::new(text, [x + run + 8.0, y + high - 8.0]).from_start();
    let beyond = (label.bounds().x[1] - right).max(0.0);
    let x = x - beyond;
    canvas.polygon(&Pen::line(INK, 1.4), &[[x, y + high], [x + run, y + high], [x + run, y]]);
    canvas.label(label.moved([-beyond, 0.0]));
}

/// Reach, foot and bolt below the section, the bolt's height beside it; says where they end.
pub fn lengths(
    canvas: &mut Canvas,
    view: &View,
    job: &Job,
    footing: &Footing,
    shape: &Shape,
    words: &Words,
    y: f64,
) -> f64 {
    let rows: [&[(f64, f64, &str)]; 2] = [
        &[(0.0, shape.foot[0], words.reach), (shape.foot[0], shape.foot[1], words.foot)],
        &[(0.0, shape.tail, words.bolt_beyond_exit)],
    ];
    let mut at = y + 14.0;
    for row in rows {
        for (from, to, name) in row {
            let [x0, x1] = [view.at(*from, 0.0)[0], view.at(*to, 0.0)[0]];
            across(canvas, [x0, x1], at);
            let text = format!("{name} {:.0}", (to - from).abs());
            let label = Label::new(text, [f64::midpoint(x0, x1), at + 14.0]);
            // A text longer than its dimension stands beside it.
            canvas.label(if label.length() > (x1 - x0).abs() + 30.0 {
                Label { at: [x0.max(x1) + 10.0, at], ..label.from_start() }
            } else {
                label
            });
        }
        at += 38.0;
    }
    // Height of the bolt, beside the rail.
    let x = view.at(shape.u[0], 0.0)[0] - 26.0;
    let [low, high] = [view.at(0.0, 0.0)[1], view.at(0.0, shape.bolt)[1]];
    up(canvas, x, [high, low]);
    let text =
        format!("{} {:.0}", words.bolt_height, job.hook.bolt_height.mm() + footing.packed().mm());
    canvas.label(Label::new(text, [x - 14.0, f64::midpoint(low, high)]).upwards());
    for z in [0.0, shape.bolt] {
        let end = view.at(shape.u[0], z);
        canvas.line(&Pen::line(FAINT, 0.8), &[[x - 6.0, end[1]], end]);
    }
    at - 10.0
}

fn across(canvas: &mut Canvas, [x0, x1]: [f64; 2], y: f64) {
    canvas.line(&DIMENSION, &[[x0, y], [x1, y]]);
    for x in [x0, x1] {
        canvas.line(&Pen::line(FAINT, 0.8), &[[x, y - 14.0], [x, y + 5.0]]);
        canvas.line(&Pen::line(INK, 1.4), &[[x - 4.0, y + 4.0], [x + 4.0, y - 4.0]]);
    }
}

/// An upright dimension.
pub fn up(canvas: &mut Canvas, x: f64, [y0, y1]: [f64; 2]) {
    canvas.line(&DIMENSION, &[[x, y0], [x, y1]]);
    for y in [y0, y1] {
        canvas.line(&Pen::line(INK, 1.4), &[[x - 4.0, y + 4.0], [x + 4.0, y - 4.0]]);
    }
}
