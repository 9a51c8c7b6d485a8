//! Small plan that says which part of the slope a page shows.

use crate::drawing::canvas::{Canvas, FAINT, INK, Pen, THIN};
use crate::geometry::Rect;
use crate::placement::Job;
use crate::placement::laid::Layout;

use super::view::{View, Window};

/// Largest size.
const ROOM: [f64; 2] = [260.0, 64.0];

/// Draws the slope with its modules and the part shown, hung on its upper right corner; says what
/// room it takes.
pub fn draw(
    canvas: &mut Canvas,
    job: &Job,
    layout: &Layout,
    part: &Window,
    [right, top]: [f64; 2],
) -> Rect {
    let whole = Window::whole(job);
    let Rect { x, y } = whole.rect;
    let scale = (ROOM[0] / (x[1] - x[0])).min(ROOM[1] / (y[1] - y[0]));
    let view = View { left: right - (x[1] - x[0]) * scale, top, scale, window: whole };
    canvas.rect(&Pen::line("none", 0.0).filled(THIN), &view.rect(&part.rect));
    for module in &layout.modules {
        canvas.rect(&Pen::line(FAINT, 0.6), &view.rect(&module.placed.rect));
    }
    canvas.polygon(&Pen::line(INK, 1.0), &view.outline(&job.roof.outline));
    canvas.rect(&Pen::line(INK, 2.4), &view.rect(&part.rect));
    let taken = view.frame();
    canvas.keep_clear(taken);
    taken
}
