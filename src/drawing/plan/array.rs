//! What is set out on the slope: modules, rails, hooks.

use crate::drawing::canvas::{ALARM, Canvas, INK, Pen};
use crate::drawing::marks::{self, HookMark, RADIUS};
use crate::drawing::pens;
use crate::drawing::text::{Label, NORMAL, SMALL};
use crate::geometry::Rect;
use crate::hardware::Module;
use crate::language::Words;
use crate::placement::Job;
use crate::placement::array;
use crate::placement::laid::{Layout, Rail};
use crate::placement::rail_axis::RailAxis;
use crate::units::Length;

use super::view::{HookText, View};

/// The modules.
pub fn modules(canvas: &mut Canvas, view: &View, job: &Job, layout: &Layout) {
    let kinds = array::kinds(&job.fields);
    for placed in layout.modules.iter().map(|module| &module.placed) {
        let first = array::kind_of(&job.fields, placed.field);
        let kind = kinds.iter().position(|kind| *kind == first).unwrap_or_default();
        canvas.rect(pens::module(kind), &view.rect(&placed.rect));
    }
}

/// The kinds of modules a legend explains: what each measures and its fields, where there are several.
#[must_use]
pub fn kinds(job: &Job) -> Vec<String> {
    /// Fields that are named; of more the legend would be longer than the paper.
    const NAMED: usize = 4;
    let kinds = array::kinds(&job.fields);
    if kinds.len() == 1 {
        return vec![String::new()];
    }
    let kind = |first: &usize| {
        let of_kind = (0..job.fields.len()).filter(|f| array::kind_of(&job.fields, *f) == *first);
        let ids: Vec<&str> = of_kind.map(|field| job.fields[field].id.as_str()).collect();
        let more = if ids.len() > NAMED { ", …" } else { "" };
        let named = ids.iter().take(NAMED).copied().collect::<Vec<_>>().join(", ");
        let Module { length, width, .. } = &job.fields[*first].module;
        format!("{:.0} × {:.0}: {named}{more}", length.mm(), width.mm())
    };
    kinds.iter().map(kind).collect()
}

/// Field, row and column of each module, counted from 1 as everything on paper.
pub fn module_labels(canvas: &mut Canvas, view: &View, job: &Job, layout: &Layout) {
    for module in &layout.modules {
        let placed = &module.placed;
        let field = job.fields.get(placed.field).map_or("", |field| field.id.as_str());
        let text = format!("{field}/{}/{}", placed.row + 1, placed.column + 1);
        let Some(Rect { x, y }) = view.shown(&placed.rect) else { continue };
        let label = Label::new(text, [f64::midpoint(x[0], x[1]), 0.0]).size(SMALL);
        if label.length() > x[1] - x[0] {
            continue;
        }
        let places = [0.5, 0.42, 0.58, 0.34, 0.66, 0.9, 0.1]
            .map(|share| [label.at[0], y[0] + (y[1] - y[0]) * share]);
        canvas.label_where_clear(&label, places);
    }
}

/// Rails with their splices.
pub fn rails(canvas: &mut Canvas, view: &View, job: &Job, layout: &Layout) {
    for rail in &layout.rails {
        self::rail(canvas, view, job, rail);
    }
}

fn rail(canvas: &mut Canvas, view: &View, job: &Job, rail: &Rail) {
    let depth = (job.rail.depth.mm() * view.scale).max(5.0) / 2.0;
    let (line, axis) = (&rail.line, rail.line.axis());
    let across = match axis {
        RailAxis::AlongEaves => view.y(line.across.mm()),
        RailAxis::UpSlope => view.x(line.across.mm()),
    };
    let along = |at: Length| match axis {
        RailAxis::AlongEaves => view.x(at.mm()),
        RailAxis::UpSlope => view.y(at.mm()),
    };
    let stretch = |ends: [Length; 2]| {
        let [a, b] = ends.map(along);
        axis.rect([a.min(b), a.max(b)], [across - depth, across + depth])
    };
    for (ends, laid) in line.segments.iter().zip(&rail.segments) {
        canvas.rect(&pens::RAIL, &stretch(*ends));
        if job.rails_cross {
            // Names stand between rails that cross.
            canvas.keep_clear(stretch(*ends));
        }
        if let Some(part) = line.there.and_then(|there| there.of(*ends)) {
            canvas.rect(&pens::RAIL_THERE, &stretch(part));
        }
        for at in &laid.splices {
            let [x, y] = axis.turned([along(*at), across]);
            marks::splice(canvas, [x, y], axis);
            // No name stands on a joint.
            canvas.keep_clear(Rect { x: [x - 7.0, x + 7.0], y: [y - 9.0, y + 9.0] });
        }
    }
}

/// Places of splices and expansion gaps: beside the sign, or else above or below it.
pub fn rail_labels(canvas: &mut Canvas, view: &View, layout: &Layout) {
    for rail in &layout.rails {
        let line = &rail.line;
        let gaps = line.segments.windows(2).map(|p| (p[0][1] + p[1][0]) / 2.0);
        let splices = rail.segments.iter().flat_map(|laid| laid.splices.iter().copied());
        for at in gaps.chain(splices) {
            let [x, y] = line.axis().place(at, line.across).map(Length::mm);
            if !view.window.owns([x, y]) {
                continue;
            }
            let (x, y) = (view.x(x), view.y(y));
            let label = Label::new(format!("{:.0}", at.mm()), [x, y]).size(SMALL);
            let beside = label.length() / 2.0 + 8.0;
            let near = [[x + beside, y + 11.0], [x + beside, y - 11.0], [x - beside, y + 11.0]];
            let apart = (0..6).flat_map(|step| {
                let d = 18.0 + f64::from(step) * 9.0;
                [0.0, beside - 4.0, 4.0 - beside]
                    .into_iter()
                    .flat_map(move |aside| [[x + aside, y + d], [x + aside, y - d]])
            });
            let frame = view.frame().y;
            let inside = |at: &[f64; 2]| frame[0] + 8.0 < at[1] && at[1] < frame[1] - 8.0;
            canvas.label_where_clear(&label, near.into_iter().chain(apart).filter(inside));
        }
    }
}

/// The hooks that belong to the window: their signs.
pub fn hooks(
    canvas: &mut Canvas,
    view: &View,
    marks: &[HookMark],
    worst: Option<&str>,
    words: &Words,
) {
    let reach = RADIUS + 4.0;
    for mark in marks.iter().filter(|mark| view.window.owns([mark.x, mark.y])) {
        let [x, y] = [view.x(mark.arm_x), view.y(mark.y)];
        canvas.keep_clear(Rect { x: [x - reach, x + reach], y: [y - reach, y + reach] });
        let title = format!(
            "{}: x {} mm, y {} mm, {}",
            mark.id,
            words.number(mark.x, 2),
            words.number(mark.y, 2),
            words.used(mark.used, 0)
        );
        canvas.begin_group(&mark.id, &title);
        // The foot sits on the rafter axis, the arm may stand beside it.
        let axis = view.x(mark.x);
        if (axis - x).abs() > 0.5 {
            canvas.line(&Pen::line(INK, 2.0), &[[axis, y - 11.0], [axis, y], [x, y]]);
        }
        let is_worst = worst == Some(mark.id.as_str());
        marks::draw(canvas, [x, y], (mark.used, mark.state), is_worst, mark.is_there);
        canvas.end_group();
    }
}

/// Hooks to add that belong to the window: rings with their names, below the rail and in full, so that they
/// are not taken for hooks that stand.
pub fn to_add(canvas: &mut Canvas, view: &View, added: &[HookMark]) {
    let within = || added.iter().filter(|mark| view.window.owns([mark.x, mark.y]));
    let reach = RADIUS + 4.0;
    for mark in within() {
        let [x, y] = [view.x(mark.arm_x), view.y(mark.y)];
        canvas.keep_clear(Rect { x: [x - reach, x + reach], y: [y - reach, y + reach] });
        marks::ring(canvas, [x, y]);
    }
    for mark in within() {
        let [x, y] = [view.x(mark.arm_x), view.y(mark.y)];
        let label = Label::new(mark.id.clone(), [x, y]).bold();
        let near = RADIUS + 5.0 + NORMAL * 0.62;
        let places = (0..12).map(f64::from).flat_map(|step| {
            let d = near + step * NORMAL * 0.7;
            [y + d, y - d].map(|y| [x, y])
        });
        canvas.label_where_clear(&label, places);
    }
}

/// Their names, and their utilisations where those are asked for: above and below the sign; where
/// that is taken, farther away, with a line to the sign.
pub fn hook_labels(
    canvas: &mut Canvas,
    view: &View,
    marks: &[HookMark],
    worst: Option<&str>,
    (text, words): (HookText, &Words),
    axis: RailAxis,
) {
    for mark in marks.iter().filter(|mark| view.window.owns([mark.x, mark.y])) {
        let [x, y] = [view.x(mark.arm_x), view.y(mark.y)];
        if axis == RailAxis::UpSlope {
            beside_rail(canvas, [x, y], mark, (text, words));
            continue;
        }
        let ink = if worst == Some(mark.id.as_str()) { ALARM } else { INK };
        let name = Label::new(text.of(&mark.id), [x, y]).bold();
        let used = (text == HookText::NameAndUtilisation)
            .then(|| (Label::new(words.used(mark.used, 0), [x, y]), 1.0));
        for (label, side) in std::iter::once((name, -1.0)).chain(used) {
            let near = RADIUS + 5.0 + NORMAL * 0.62;
            let places = (0..40).map(f64::from).flat_map(|step| {
                let d = near + step * NORMAL * 0.7;
                [0.0, -30.0, 30.0].map(|aside| [x + aside * step.min(1.0), y + side * d])
            });
            let Some(at) = canvas.label_where_clear(&label, places) else { continue };
            if (at[1] - y).abs() > near + 1.0 {
                let from = [x, y + side * (RADIUS + 3.0)];
                let to = [at[0], at[1] - side * NORMAL * 0.6];
                canvas.line(&Pen::line(ink, 0.8), &[from, to]);
            }
        }
    }
}

/// Name and utilisation of a hook on a rail up the slope: beside the sign, right of the rail or left of it.
fn beside_rail(
    canvas: &mut Canvas,
    [x, y]: [f64; 2],
    mark: &HookMark,
    (text, words): (HookText, &Words),
) {
    let name = Label::new(text.of(&mark.id), [x, y]).bold();
    let used = (text == HookText::NameAndUtilisation)
        .then(|| (Label::new(words.used(mark.used, 0), [x, y]), NORMAL * 0.62));
    let up = if used.is_some() { -NORMAL * 0.62 } else { 0.0 };
    for (label, down) in std::iter::once((name, up)).chain(used) {
        let aside = RADIUS + 7.0 + label.length() / 2.0;
        let places = (0..8).map(f64::from).flat_map(|step| {
            let d = down + step * NORMAL * 0.5;
            [[x + aside, y + d], [x - aside, y + d]]
        });
        canvas.label_where_clear(&label, places);
    }
}
