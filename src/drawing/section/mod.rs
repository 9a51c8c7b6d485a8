//! Section through one hook, square to the eaves, with the slope drawn level: rafter, layers,
//! battens, tiles at their true slope to the rafter, foot with screws and packers, arm, rail, and
//! beside it, larger, the clearance at the tail edge before and under load.
//!
//! **Frame.** `u` up the slope from the rail bolt, `z` square to it from the face the foot bears on.
//!
//! **Simplified.** Between foot and tail edge the arm is drawn parallel to the tiles; slots stand in
//! the middle. Battens lie where the covering has them: a foot that meets one is drawn so. Lengths
//! that are written are those of the calculation.

mod build_up;
mod detail;
mod dimensions;
mod hook;
mod key;
mod shape;

use key::Key;
use shape::Shape;

use crate::language::{Language, Words, ordinal};
use crate::placement::Job;
use crate::placement::footing::Footing;
use crate::placement::laid::Layout;

use super::canvas::{Canvas, FAINT, Figure, INK, Pen};
use super::marks::{self, HookMark};
use super::text::{self, LARGE, Label, NORMAL, SMALL};
use super::{CannotDraw, Caption};

const EDGE: f64 = 24.0;
/// Units to the mm.
const SCALE: f64 = 1.5;
/// Units to the mm of the detail.
const DETAIL: f64 = 7.0;
/// Least width of the paper.
const LEAST_PAPER: f64 = 900.0;

const WOOD: Pen = Pen::line(INK, 1.4).filled("#eee6d8");
const LAYER: Pen = Pen::line(INK, 1.2).filled("#f7f3ec");
const BEHIND: Pen = Pen::line(FAINT, 1.0).dashed("5 4");
const TILE: Pen = Pen::line("#5f6b75", 1.2).filled("#dde2e6");
const OPENED: Pen = Pen::line("#5f6b75", 1.4).dashed("7 4").filled("#f3f5f7");
const STEEL: Pen = Pen::line(INK, 1.4).filled("#7d8a95");
const DIMENSION: Pen = Pen::line(INK, 0.9);

/// Draws the section through a hook; through the one used most when none is named.
///
/// # Errors
/// [`CannotDraw`] when there is no such hook, or none at all.
pub fn draw(
    job: &Job,
    layout: &Layout,
    hook: Option<&str>,
    caption: &Caption,
    language: Language,
) -> Result<Figure, CannotDraw> {
    sized(job, layout, (hook, f64::INFINITY), caption, language)
}

/// The same through the hook used most, no wider than an upright page can print with text of 7 pt.
///
/// # Errors
/// [`CannotDraw`] when there is no hook.
pub fn on_page(
    job: &Job,
    layout: &Layout,
    caption: &Caption,
    language: Language,
) -> Result<Figure, CannotDraw> {
    sized(job, layout, (None, LEAST_PAPER), caption, language)
}

fn sized(
    job: &Job,
    layout: &Layout,
    (hook, widest): (Option<&str>, f64),
    caption: &Caption,
    language: Language,
) -> Result<Figure, CannotDraw> {
    let marks = marks::hook_marks(job, layout);
    let mark = match hook {
        Some(id) => marks.iter().find(|mark| mark.id == id).ok_or(CannotDraw::NoSuchHook)?,
        None => marks::most_used(layout, &marks).ok_or(CannotDraw::NoHook)?,
    };
    let words = language.words();
    let [r, s, h] = mark.at;
    let laid = &layout.rails[r].segments[s];
    let footing = &layout.footings[laid.segment.candidates[laid.found.subset[h]].setting];
    let sinks = laid
        .result
        .as_ref()
        .zip(footing.spring.stiffness)
        .map(|(result, stiffness)| (result.hooks[h].service_press / stiffness).mm());
    let shape = Shape::of(job, footing);
    Ok(paper(job, (mark, widest), footing, &shape, sinks, caption, words))
}

fn paper(
    job: &Job,
    (mark, widest): (&HookMark, f64),
    footing: &Footing,
    shape: &Shape,
    sinks: Option<f64>,
    caption: &Caption,
    words: &Words,
) -> Figure {
    let beside = 2.0 * EDGE + 150.0;
    let scale = ((widest - beside) / (shape.u[1] - shape.u[0])).min(SCALE);
    let wide = (shape.u[1] - shape.u[0]) * scale;
    let high = (shape.z[1] - shape.z[0]) * scale;
    let width = (wide + beside).max(LEAST_PAPER);
    let room = width - 2.0 * EDGE;
    let mut canvas = Canvas::default();
    let mut y = EDGE + LARGE / 2.0;
    let name = format!("{} {} · {} {}", words.section, mark.id, words.rafter, ordinal(mark.rafter));
    let title = caption.title.as_ref().map_or_else(|| name.clone(), |t| format!("{t} · {name}"));
    for line in text::wrap(&title, LARGE * 1.1, room) {
        canvas.label(Label::new(line, [EDGE, y]).size(LARGE).bold().from_start());
        y += LARGE * 1.35;
    }
    let used = format!("{} · {}", words.used(mark.used, 0), words.section_note);
    for line in text::wrap(&used, NORMAL, room) {
        canvas.label(Label::new(line, [EDGE, y]).from_start());
        y += NORMAL * 1.6;
    }
    y += 30.0;
    let left = (width - wide) / 2.0;
    let view = shape::View { left, top: y, u: shape.u[0], z: shape.z[1], scale };
    canvas.label(
        Label::new(format!("← {}", words.towards_eaves), [left, y - 14.0]).bold().from_start(),
    );
    canvas.label(
        Label::new(format!("{} →", words.towards_ridge), [left + wide, y - 14.0]).bold().from_end(),
    );
    let mut key = Key::default();
    build_up::timber(&mut canvas, &view, job, shape, words, &mut key);
    build_up::tiles(&mut canvas, &view, job, shape, words, &mut key);
    hook::hook(&mut canvas, &view, job, footing, shape, words, &mut key);
    dimensions::pitch(&mut canvas, job, words, [left + wide - 96.0, y + 4.0], width - EDGE);
    y += high + 8.0;
    y = dimensions::lengths(&mut canvas, &view, job, footing, shape, words, y);
    let detail_end = detail::draw(&mut canvas, job, footing, shape, sinks, words, [EDGE, y + 26.0]);
    let key_left = EDGE + 400.0;
    let key_end = key.list(&mut canvas, [key_left, y + 30.0], width - key_left - EDGE);
    y = key_end.max(detail_end) + 20.0;
    for line in caption.footer.iter().flat_map(|l| text::wrap(l, SMALL, room)) {
        canvas.label(Label::new(line, [EDGE, y]).size(SMALL).from_start());
        y += SMALL * 1.5;
    }
    canvas.finish([width, y + EDGE - SMALL], &name)
}
