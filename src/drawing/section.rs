//! Section through one hook, square to the eaves, with the slope drawn level: rafter, layers,
//! battens, tiles at their true slope to the rafter, foot with screws and packers, arm, rail, and
//! beside it, larger, the clearance at the tail edge before and under load.
//!
//! **Frame.** `u` up the slope from the rail bolt, `z` square to it from the face the foot bears on.
//!
//! **Simplified.** Between foot and tail edge the arm is drawn parallel to the tiles; slots stand in
//! the middle. Battens lie where the covering has them: a foot that meets one is drawn so. Lengths
//! that are written are those of the calculation.

use crate::covering::{Covering, Laying, stack};
use crate::geometry::Rect;
use crate::placement::Job;
use crate::placement::layout::Layout;
use crate::placement::loading::Footing;
use crate::units::Length;
use crate::wording::{Language, Words};

use super::canvas::{ALARM, Canvas, FAINT, Figure, INK, Pen};
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
    let marks = marks::hook_marks(job, layout);
    let mark = match hook {
        Some(id) => marks.iter().find(|mark| mark.id == id).ok_or(CannotDraw::NoSuchHook)?,
        None => marks::most_used(&marks).ok_or(CannotDraw::NoHook)?,
    };
    let words = language.words();
    let [r, s, h] = mark.at;
    let laid = &layout.rails[r].segments[s];
    let footing = &layout.footings[laid.segment.candidates[laid.found.subset[h]].setting];
    let sinks = laid
        .result
        .as_ref()
        .zip(job.hook.normal_stiffness)
        .map(|(result, stiffness)| (result.hooks[h].service_press / stiffness).mm());
    let shape = Shape::of(job, footing);
    Ok(paper(job, mark, footing, &shape, sinks, caption, words))
}

/// The outline of the section, mm.
struct Shape {
    /// What is shown along the slope.
    u: [f64; 2],
    /// What is shown square to it.
    z: [f64; 2],
    tail: f64,
    foot: [f64; 2],
    packed: f64,
    arm: f64,
    arm_at_foot: f64,
    bolt: f64,
    /// Rise of a tile over the rafter, per mm.
    slope: f64,
    battens: f64,
}

impl Shape {
    fn of(job: &Job, footing: &Footing) -> Self {
        let (hook, covering) = (&job.hook, &job.covering);
        let packed = footing.packed().mm();
        let battens = job.roof.layers.battens_above_foot.mm();
        let tail = hook.bolt_beyond_exit.mm();
        let foot = [hook.reach.mm(), (hook.reach + hook.foot.length).mm()];
        let arm = battens + stack::lower_tile_top(covering).mm() + footing.clearance.mm();
        let slope = tile_slope(covering);
        let bolt = hook.bolt_height.mm() + packed;
        let above = (bolt + job.rail.depth.mm() / 2.0).max(arm + hook.arm_thickness.mm());
        let below = job.roof.layers.under_foot.mm() + job.roof.rafters.depth.mm();
        Self {
            u: [(-95.0_f64).min(-job.rail.depth.mm() - 45.0), foot[1].max(tail) + 130.0],
            z: [-below, above + 12.0],
            tail,
            foot,
            packed,
            arm,
            arm_at_foot: (arm - slope * (foot[0] - tail)).max(packed + hook.foot.thickness.mm()),
            bolt,
            slope,
            battens,
        }
    }
}

/// Rise of a tile over the rafter, per mm; see [`stack`] for where it comes from.
fn tile_slope(covering: &Covering) -> f64 {
    let rise = covering.tile_thickness / covering.gauge;
    match covering.laying {
        Laying::DoubleLap | Laying::Interlocking => rise,
        Laying::Crown => 2.0 * rise,
    }
}

struct View {
    left: f64,
    top: f64,
    u: f64,
    z: f64,
    scale: f64,
}

impl View {
    fn at(&self, u: f64, z: f64) -> [f64; 2] {
        [self.left + (u - self.u) * self.scale, self.top + (self.z - z) * self.scale]
    }
    fn rect(&self, u: [f64; 2], z: [f64; 2]) -> Rect {
        let ([left, bottom], [right, top]) = (self.at(u[0], z[0]), self.at(u[1], z[1]));
        Rect { x: [left, right], y: [top, bottom] }
    }
}

/// Explanations of the numbers on the drawing, in the order they are given.
#[derive(Default)]
struct Key(Vec<String>);

impl Key {
    fn add(&mut self, canvas: &mut Canvas, [x, y]: [f64; 2], text: impl Into<String>) {
        self.0.push(text.into());
        Self::number(canvas, [x, y], self.0.len());
    }
    fn number(canvas: &mut Canvas, at: [f64; 2], number: usize) {
        canvas.circle(&Pen::line(INK, 1.2).filled("#fff"), at, 11.0);
        canvas.label(Label::new(number.to_string(), at).bold());
    }
}

fn paper(
    job: &Job,
    mark: &HookMark,
    footing: &Footing,
    shape: &Shape,
    sinks: Option<f64>,
    caption: &Caption,
    words: &Words,
) -> Figure {
    let wide = (shape.u[1] - shape.u[0]) * SCALE;
    let high = (shape.z[1] - shape.z[0]) * SCALE;
    let width = (wide + 2.0 * EDGE + 150.0).max(LEAST_PAPER);
    let room = width - 2.0 * EDGE;
    let mut canvas = Canvas::default();
    let mut y = EDGE + LARGE / 2.0;
    let name = format!("{} {} · {} {}", words.section, mark.id, words.rafter, mark.rafter);
    let title = caption.title.as_ref().map_or_else(|| name.clone(), |t| format!("{t} · {name}"));
    for line in text::wrap(&title, LARGE * 1.1, room) {
        canvas.label(Label::new(line, [EDGE, y]).size(LARGE).bold().from_start());
        y += LARGE * 1.35;
    }
    let used = format!("{} · {}", marks::percent(mark.used), words.section_note);
    for line in text::wrap(&used, NORMAL, room) {
        canvas.label(Label::new(line, [EDGE, y]).from_start());
        y += NORMAL * 1.6;
    }
    y += 30.0;
    let left = (width - wide) / 2.0;
    let view = View { left, top: y, u: shape.u[0], z: shape.z[1], scale: SCALE };
    canvas.label(
        Label::new(format!("← {}", words.towards_eaves), [left, y - 14.0]).bold().from_start(),
    );
    canvas.label(
        Label::new(format!("{} →", words.towards_ridge), [left + wide, y - 14.0]).bold().from_end(),
    );
    let mut key = Key::default();
    timber(&mut canvas, &view, job, shape, words, &mut key);
    tiles(&mut canvas, &view, job, shape, words, &mut key);
    hook(&mut canvas, &view, job, footing, shape, words, &mut key);
    pitch(&mut canvas, job, words, [left + wide - 96.0, y + 4.0]);
    y += high + 8.0;
    y = lengths(&mut canvas, &view, job, footing, shape, words, y);
    let detail_end = detail(&mut canvas, job, footing, shape, sinks, words, [EDGE, y + 26.0]);
    let mut line_y = y + 30.0;
    let key_left = EDGE + 400.0;
    for (i, text) in key.0.iter().enumerate() {
        Key::number(&mut canvas, [key_left + 11.0, line_y], i + 1);
        for line in text::wrap(text, NORMAL, width - key_left - 34.0 - EDGE) {
            canvas.label(Label::new(line, [key_left + 34.0, line_y]).from_start());
            line_y += NORMAL * 1.35;
        }
        line_y += 9.0;
    }
    y = line_y.max(detail_end) + 20.0;
    for line in caption.footer.iter().flat_map(|l| text::wrap(l, SMALL, room)) {
        canvas.label(Label::new(line, [EDGE, y]).size(SMALL).from_start());
        y += SMALL * 1.5;
    }
    canvas.finish([width, y + EDGE - SMALL], &name)
}

fn timber(
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

fn tiles(canvas: &mut Canvas, view: &View, job: &Job, shape: &Shape, words: &Words, key: &mut Key) {
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

fn hook(
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
        let tip = shape.packed - (footing.seat.gap + footing.seat.embedment).mm();
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
            view.at(-thick / 2.0, arm + thick),
            view.at(-thick / 2.0, arm),
            view.at(lip, arm),
            view.at(shape.foot[0], shape.arm_at_foot),
            view.at(shape.foot[0], shape.packed),
        ],
    );
    let upright = [arm, shape.bolt + 14.0];
    canvas.rect(&STEEL, &view.rect([-thick / 2.0, thick / 2.0], upright));
    let half = job.rail.depth.mm() / 2.0;
    let rail = [-thick / 2.0 - 2.0 * half, -thick / 2.0];
    canvas.rect(
        &Pen::line(INK, 2.6).filled("#fff"),
        &view.rect(rail, [shape.bolt - half, shape.bolt + half]),
    );
    canvas.rect(
        &STEEL,
        &view.rect([-thick / 2.0 - 12.0, thick / 2.0 + 7.0], [shape.bolt - 3.0, shape.bolt + 3.0]),
    );
    let profile = format!("{} {:.0} × {:.0}", words.rail, 2.0 * half, 2.0 * half);
    key.add(canvas, view.at(rail[0] - 14.0, shape.bolt + half - 4.0), profile);
    let middle = f64::midpoint(lip, shape.foot[0]);
    let arm_text = format!("{} {:.0} × {thick:.0}", words.arm, hook.arm_width.mm());
    let on_arm = arm - shape.slope * (middle - lip) + thick / 2.0;
    key.add(canvas, view.at(middle, on_arm + 30.0), arm_text);
    canvas.line(&DIMENSION, &[view.at(middle, on_arm + 23.0), view.at(middle, on_arm)]);
    let foot = format!(
        "{} {:.0} × {:.0} × {:.0}",
        words.foot,
        hook.foot.width.mm(),
        hook.foot.length.mm(),
        hook.foot.thickness.mm()
    );
    key.add(canvas, view.at(f64::midpoint(shape.foot[0], shape.foot[1]), plate + 12.0), foot);
    let screw = format!(
        "{} {} × {:.0} × {:.0}, {} {:.0}",
        words.screws,
        hook.foot.screws.len(),
        job.screw.diameter.mm(),
        job.screw.length.mm(),
        words.embedment,
        footing.seat.embedment.mm()
    );
    let last = hook.foot.screws.iter().map(|s| s[1].mm()).fold(0.0, f64::max);
    let depth = -job.roof.layers.under_foot.mm() - 34.0;
    key.add(canvas, view.at(shape.foot[0] + last + 16.0, depth), screw);
    let stack: Vec<String> =
        footing.packers.iter().flatten().map(|p| format!("{:.0}", p.mm())).collect();
    let text = if stack.is_empty() { words.no_packers.to_owned() } else { stack.join(" + ") };
    let beside = view.at(shape.foot[1] + 12.0, shape.packed / 2.0 + 4.0);
    key.add(canvas, beside, format!("{}: {text}", words.packers));
}

/// A small triangle with the pitch.
fn pitch(canvas: &mut Canvas, job: &Job, words: &Words, [x, y]: [f64; 2]) {
    let rise = job.roof.pitch.tan().min(1.6);
    let (run, high) = (54.0 / rise.max(1.0), 54.0 * rise / rise.max(1.0));
    canvas.polygon(&Pen::line(INK, 1.4), &[[x, y + high], [x + run, y + high], [x + run, y]]);
    let text = format!("{} {:.1}°", words.pitch, job.roof.pitch.deg());
    let label = Label::new(text, [x + run + 8.0, y + high - 8.0]).from_start();
    canvas.label(label);
}

fn lengths(
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

fn up(canvas: &mut Canvas, x: f64, [y0, y1]: [f64; 2]) {
    canvas.line(&DIMENSION, &[[x, y0], [x, y1]]);
    for y in [y0, y1] {
        canvas.line(&Pen::line(INK, 1.4), &[[x - 4.0, y + 4.0], [x + 4.0, y - 4.0]]);
    }
}

/// The clearance at the tail edge, larger; says where it ends.
fn detail(
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
    let high = (clear.max(0.0) + thick + tile + 3.0).min(60.0);
    let view = View { left, top: top + 24.0, u: -8.0, z: clear + thick + 3.0, scale: DETAIL };
    let u = [-8.0, 26.0];
    let rise = |at: f64| -shape.slope * at;
    let sides = [(u[0], 0.0), (u[1], 0.0), (u[1], -tile), (u[0], -tile)];
    canvas.polygon(&TILE, &sides.map(|(at, z)| view.at(at, z + rise(at))));
    let arm = |z: f64| {
        [
            (u[0], z),
            (0.0, z),
            (u[1], z + rise(u[1])),
            (u[1], z + rise(u[1]) + thick),
            (0.0, z + thick),
            (u[0], z + thick),
        ]
        .map(|(at, z)| view.at(at, z))
    };
    canvas.polygon(&STEEL, &arm(clear));
    let mut x = view.at(6.0, 0.0)[0];
    let mut figures = vec![(clear, words.before_load)];
    if let Some(sinks) = sinks {
        canvas.polygon(&Pen::line(ALARM, 1.6).dashed("6 4"), &arm(clear - sinks));
        figures.push((clear - sinks, words.under_load));
    }
    for (gap, _) in &figures {
        let at = (x - left) / DETAIL + u[0];
        up(canvas, x, [view.at(at, gap + rise(at.max(0.0)))[1], view.at(at, rise(at))[1]]);
        x += 46.0;
    }
    let mut y = top + 24.0 + high * DETAIL + 22.0;
    for (gap, when) in &figures {
        let text = format!("{} {when}: {gap:.1} mm", words.clearance);
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
