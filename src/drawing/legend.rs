//! Legend and scale bar.

use crate::geometry::Rect;
use crate::language::Words;
use crate::placement::rail_axis::RailAxis;

use super::canvas::{Canvas, FAINT, INK, Pen};
use super::marks::{self, State};
use super::pens;
use super::text::{Label, NORMAL, SMALL, Weight, width};

/// Height of a line.
const LINE: f64 = 27.0;
/// Room for a sign.
const SIGN: f64 = 46.0;

/// What a legend explains.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Entry {
    /// Disc with sector.
    Hook,
    /// Open ring.
    ToAdd,
    /// Double ring.
    MostUsed,
    /// Square.
    Over,
    /// Diamond.
    Unverified,
    /// Rail.
    Rail,
    /// Hook and rail that are there already.
    There,
    /// Splice.
    Splice,
    /// Expansion gap.
    Gap,
    /// Module of a kind, by its place among the kinds.
    Module(usize),
    /// Rafter.
    Rafter,
    /// Rafter that takes no hook.
    Barred,
    /// Course.
    Course,
    /// Wind zone.
    Zone,
    /// Obstacle.
    Obstacle,
    /// Strip along an edge.
    Strip,
}

fn text(entry: Entry, words: &Words) -> &'static str {
    match entry {
        Entry::Hook => words.legend_hook,
        Entry::ToAdd => words.legend_to_add,
        Entry::MostUsed => words.legend_most_used,
        Entry::Over => words.legend_over,
        Entry::Unverified => words.legend_unverified,
        Entry::Rail => words.legend_rail,
        Entry::There => words.legend_there,
        Entry::Splice => words.legend_splice,
        Entry::Gap => words.legend_gap,
        Entry::Module(_) => words.legend_module,
        Entry::Rafter => words.legend_rafter,
        Entry::Barred => words.legend_barred,
        Entry::Course => words.legend_course,
        Entry::Zone => words.legend_zone,
        Entry::Obstacle => words.legend_keep_clear,
        Entry::Strip => words.legend_strip,
    }
}

fn columns(entries: &[(Entry, String)], room: f64) -> (usize, f64) {
    let widest = entries
        .iter()
        .map(|(_, text)| width(text, NORMAL, Weight::Plain) + SIGN + 24.0)
        .fold(1.0, f64::max);
    let mut count = 1;
    while (count + 1) as f64 * widest <= room && count < entries.len() {
        count += 1;
    }
    (count, room / count as f64)
}

/// The texts of entries, each followed by a remark where there is one.
#[must_use]
pub fn entries(
    which: &[Entry],
    remark: impl Fn(Entry) -> String,
    words: &Words,
) -> Vec<(Entry, String)> {
    let entry = |entry: &Entry| {
        let (text, remark) = (text(*entry, words), remark(*entry));
        (*entry, if remark.is_empty() { text.to_owned() } else { format!("{text}, {remark}") })
    };
    which.iter().map(entry).collect()
}

/// Height a legend takes in a given width.
#[must_use]
pub fn height(entries: &[(Entry, String)], room: f64) -> f64 {
    let (count, _) = columns(entries, room);
    entries.len().div_ceil(count) as f64 * LINE
}

/// Draws a legend.
pub fn draw(canvas: &mut Canvas, entries: &[(Entry, String)], [left, top]: [f64; 2], room: f64) {
    let (count, wide) = columns(entries, room);
    let rows = entries.len().div_ceil(count);
    for (i, (entry, text)) in entries.iter().enumerate() {
        let x = left + (i / rows) as f64 * wide;
        let y = top + (i % rows) as f64 * LINE + LINE / 2.0;
        sign(canvas, *entry, [x + SIGN / 2.0 - 6.0, y]);
        canvas.label(Label::new(text.clone(), [x + SIGN, y]).from_start());
    }
}

fn sign(canvas: &mut Canvas, entry: Entry, [x, y]: [f64; 2]) {
    let wide = Rect { x: [x - 16.0, x + 16.0], y: [y - 8.0, y + 8.0] };
    let across = [[x - 16.0, y], [x + 16.0, y]];
    match entry {
        Entry::Hook => marks::draw(canvas, [x, y], (0.7, State::Within), false, false),
        Entry::ToAdd => marks::ring(canvas, [x, y]),
        Entry::MostUsed => marks::draw(canvas, [x, y], (0.9, State::Within), true, false),
        Entry::Over => marks::draw(canvas, [x, y], (1.2, State::Over), false, false),
        Entry::Unverified => marks::draw(canvas, [x, y], (0.4, State::Unverified), false, false),
        Entry::There => {
            canvas.rect(&pens::RAIL_THERE, &Rect { x: wide.x, y: [y - 2.5, y + 2.5] });
            marks::draw(canvas, [x, y], (0.7, State::Within), false, true);
        }
        Entry::Rail => {
            canvas.rect(&pens::RAIL, &Rect { x: wide.x, y: [y - 2.5, y + 2.5] });
        }
        Entry::Splice => {
            canvas.rect(&pens::RAIL, &Rect { x: wide.x, y: [y - 2.5, y + 2.5] });
            marks::splice(canvas, [x, y], RailAxis::AlongEaves);
        }
        Entry::Gap => {
            canvas.rect(&pens::RAIL, &Rect { x: [x - 16.0, x - 4.0], y: [y - 2.5, y + 2.5] });
            canvas.rect(&pens::RAIL, &Rect { x: [x + 4.0, x + 16.0], y: [y - 2.5, y + 2.5] });
        }
        Entry::Module(kind) => canvas.rect(pens::module(kind), &wide),
        Entry::Rafter => {
            canvas.rect(&pens::RAFTER, &Rect { x: [x - 5.0, x + 5.0], y: [y - 10.0, y + 10.0] });
            canvas.line(&pens::AXIS, &[[x, y - 12.0], [x, y + 12.0]]);
        }
        Entry::Barred => {
            let wood = Rect { x: [x - 5.0, x + 5.0], y: [y - 11.0, y + 11.0] };
            canvas.rect(&pens::RAFTER, &wood);
            marks::barred(canvas, &wood);
        }
        Entry::Course => {
            for lift in [-6.0, 0.0, 6.0] {
                canvas.line(&pens::COURSE, &across.map(|[x, y]| [x, y + lift]));
            }
        }
        Entry::Zone => canvas.line(&pens::ZONE, &across),
        Entry::Strip => canvas.line(&pens::STRIP, &across),
        Entry::Obstacle => {
            canvas.rect(&pens::STRIP, &Rect { x: [x - 16.0, x + 16.0], y: [y - 10.0, y + 10.0] });
            let inner = Rect { x: [x - 11.0, x + 11.0], y: [y - 6.0, y + 6.0] };
            canvas.rect(&pens::OBSTACLE, &inner);
        }
    }
}

/// A scale bar of whole metres, `scale` units to the mm, ending at `right`.
pub fn scale_bar(canvas: &mut Canvas, [right, y]: [f64; 2], scale: f64) {
    let metre = 1000.0 * scale;
    let (count, step) = if metre >= 60.0 { (2, 1) } else { (2, 5) };
    let field = metre * f64::from(step);
    let left = right - field * f64::from(count);
    for i in 0..count {
        let x = left + field * f64::from(i);
        let fill = if i % 2 == 0 { INK } else { "#fff" };
        let rect = Rect { x: [x, x + field], y: [y - 4.0, y + 4.0] };
        canvas.rect(&Pen::line(FAINT, 1.0).filled(fill), &rect);
    }
    for i in 0..=count {
        let text = format!("{}{}", i * step, if i == count { " m" } else { "" });
        canvas.label(Label::new(text, [left + field * f64::from(i), y + 16.0]).size(SMALL));
    }
}
