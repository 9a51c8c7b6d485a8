//! The wind zones of all four directions side by side, each with its coefficients.

use crate::codes::vocabulary::Direction;
use crate::drawing::Caption;
use crate::drawing::canvas::{Canvas, FAINT, Figure, INK, Pen};
use crate::drawing::marks;
use crate::drawing::pens;
use crate::drawing::text::{self, LARGE, Label, NORMAL, SMALL};
use crate::geometry::Rect;
use crate::language::{Language, Words};
use crate::placement::Job;
use crate::placement::laid::Layout;

use super::view::{View, Window};
use super::{EDGE, roof, zones};

/// Width of the drawing: printed on an upright page its text is 7 pt.
const WIDTH: f64 = 900.0;
/// Largest size of one plan.
const ROOM: [f64; 2] = [330.0, 170.0];
/// Room beside a plan for the arrow.
const BESIDE: f64 = 40.0;

/// Draws the zones. A job whose coefficients are given has one zone for every direction.
#[must_use]
pub fn draw(job: &Job, layout: &Layout, caption: &Caption, language: Language) -> Figure {
    let words = language.words();
    let mut canvas = Canvas::default();
    let mut y = EDGE + LARGE / 2.0;
    let title = caption
        .title
        .as_ref()
        .map_or_else(|| words.wind_zones.to_owned(), |t| format!("{t} · {}", words.wind_zones));
    let room = WIDTH - 2.0 * EDGE;
    for line in text::wrap(&title, LARGE * 1.1, room) {
        canvas.label(Label::new(line, [EDGE, y]).size(LARGE).bold().from_start());
        y += LARGE * 1.35;
    }
    for line in text::wrap(words.wind_zones_note, SMALL, room) {
        canvas.label(Label::new(line, [EDGE, y]).size(SMALL).from_start());
        y += SMALL * 1.5;
    }
    y += 12.0;
    let governing = zones::governing(job, layout, &marks::hook_marks(job, layout));
    for pair in Direction::ALL.chunks(2) {
        let mut end = y;
        for (column, direction) in pair.iter().enumerate() {
            let left = EDGE + column as f64 * room / 2.0;
            let governs = governing == Some(*direction);
            let plan = Plan { job, layout, words, direction: *direction };
            end = plan.draw(&mut canvas, [left, y], governs.then_some(words.governs)).max(end);
        }
        y = end + 26.0;
    }
    for line in caption.footer.iter().flat_map(|l| text::wrap(l, SMALL, room)) {
        canvas.label(Label::new(line, [EDGE, y]).size(SMALL).from_start());
        y += SMALL * 1.5;
    }
    canvas.finish([WIDTH, y + EDGE - SMALL], words.wind_zones)
}

/// The plan of one direction.
struct Plan<'a> {
    job: &'a Job,
    layout: &'a Layout,
    words: &'a Words,
    direction: Direction,
}

impl Plan<'_> {
    fn draw(&self, canvas: &mut Canvas, [left, top]: [f64; 2], remark: Option<&str>) -> f64 {
        let Self { job, layout, words, direction } = *self;
        let name = zones::name(direction, words);
        let name = capitalised(name);
        let name = remark.map_or_else(|| name.clone(), |remark| format!("{name} ({remark})"));
        canvas.label(Label::new(name, [left, top + NORMAL / 2.0]).bold().from_start());
        let window = Window::whole(job);
        let Rect { x, y } = window.rect;
        let scale = (ROOM[0] / (x[1] - x[0])).min(ROOM[1] / (y[1] - y[0]));
        let view = View { left: left + BESIDE, top: top + NORMAL + BESIDE, scale, window };
        for module in &layout.modules {
            canvas.rect(&Pen::line(FAINT, 0.7), &view.rect(&module.placed.rect));
        }
        roof::edge(canvas, &view, job);
        let found = zones::of(job, direction);
        for zone in &found {
            // Zones may overlap the edge of another by nothing but rounding.
            let corners = zone.region.points().iter().map(|corner| view.point(*corner));
            canvas.polygon(&pens::ZONE, &corners.collect::<Vec<_>>());
        }
        zones::labels(canvas, &view, &found, |zone| zone.name.to_owned());
        let frame = view.frame();
        arrow(canvas, direction, &frame);
        let mut end = frame.y[1] + BESIDE + SMALL / 2.0;
        let mut listed: Vec<String> = Vec::new();
        for zone in found.iter().filter(|zone| zone.region.area() > 0.0) {
            let text = format!(
                "{}  {} / {}",
                zone.name,
                self.words.figure(zone.coefficients.suction, 2),
                self.words.figure(zone.coefficients.pressure, 2)
            );
            if !listed.contains(&text) {
                listed.push(text);
            }
        }
        let mut at = left;
        for text in listed {
            let label = Label::new(text, [at, end]).size(SMALL).from_start();
            let length = label.length();
            let label = if at > left && at + length > left + ROOM[0] + BESIDE {
                [at, end] = [left, end + SMALL * 1.5];
                Label { at: [at, end], ..label }
            } else {
                label
            };
            at += length + 18.0;
            canvas.label(label);
        }
        end + SMALL
    }
}

fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect()
}

/// Where the wind comes from.
fn arrow(canvas: &mut Canvas, direction: Direction, frame: &Rect) {
    let middle = [f64::midpoint(frame.x[0], frame.x[1]), f64::midpoint(frame.y[0], frame.y[1])];
    let (tip, along) = match direction {
        Direction::Front => ([middle[0], frame.y[1] + 6.0], [0.0, 1.0]),
        Direction::Back => ([middle[0], frame.y[0] - 6.0], [0.0, -1.0]),
        Direction::Left => ([frame.x[0] - 6.0, middle[1]], [-1.0, 0.0]),
        Direction::Right => ([frame.x[1] + 6.0, middle[1]], [1.0, 0.0]),
    };
    let at = |back: f64, aside: f64| {
        [tip[0] + along[0] * back + along[1] * aside, tip[1] + along[1] * back + along[0] * aside]
    };
    canvas.line(&Pen::line(INK, 2.4), &[at(26.0, 0.0), at(9.0, 0.0)]);
    canvas.polygon(&Pen::line(INK, 1.0).filled(INK), &[tip, at(10.0, 5.0), at(10.0, -5.0)]);
}
