//! The slope to scale: covering, rafters, obstacles, wind zones, modules, rails, hooks, and the
//! dimensions the crew sets out by.

use crate::actions::wind::ZoneOnSlope;
use crate::covering::courses;
use crate::geometry::{Outline, Rect};
use crate::placement::Job;
use crate::placement::layout::{Layout, Rail};
use crate::roof::ObstacleKind;
use crate::rules::en1991_1_4_2005::duopitch::Direction;
use crate::units::Length;
use crate::wording::{Language, Words};

use super::Caption;
use super::canvas::{ALARM, Canvas, Figure, INK, N, Pen};
use super::legend::{self, Entry};
use super::marks::{self, HookMark, RADIUS, State};
use super::ordinates::{self, Ordinate, Side};
use super::text::{self, LARGE, Label, NORMAL, SMALL, Weight};

/// How things on the slope are drawn.
pub(super) mod pens {
    use crate::drawing::canvas::{FAINT, INK, Pen, THIN};

    pub const ROOF: Pen = Pen::line(INK, 2.4);
    pub const COURSE: Pen = Pen::line(THIN, 0.7);
    pub const RAFTER: Pen = Pen::line("none", 0.0).filled("#e6e0d6");
    pub const AXIS: Pen = Pen::line(FAINT, 0.9).dashed("11 3 2 3");
    pub const MODULE: Pen = Pen::line("#51606c", 1.2).filled("#dfe7ee99");
    pub const RAIL: Pen = Pen::line(INK, 1.2).filled("#fff");
    pub const ZONE: Pen = Pen::line(INK, 1.4).dashed("2 5");
    pub const OBSTACLE: Pen = Pen::line(INK, 1.6).filled("#fff");
    pub const STRIP: Pen = Pen::line(FAINT, 1.1).dashed("5 4");
}

/// Width the slope is drawn at unless its labels need more.
const USUAL_WIDTH: f64 = 1100.0;
/// Height it is not drawn beyond unless its labels need more.
const USUAL_HEIGHT: f64 = 1300.0;
/// Least width of the paper: legend and heading need it.
const LEAST_PAPER: f64 = 900.0;
/// White edge of the paper.
const EDGE: f64 = 24.0;

/// From the roof plane to paper.
struct View {
    left: f64,
    top: f64,
    scale: f64,
    bounds: Rect,
}

impl View {
    fn x(&self, mm: f64) -> f64 {
        self.left + (mm - self.bounds.x[0]) * self.scale
    }
    fn y(&self, mm: f64) -> f64 {
        self.top + (self.bounds.y[1] - mm) * self.scale
    }
    fn rect(&self, mm: &Rect) -> Rect {
        Rect { x: mm.x.map(|x| self.x(x)), y: [self.y(mm.y[1]), self.y(mm.y[0])] }
    }
    fn outline(&self, outline: &Outline) -> Vec<[f64; 2]> {
        outline.points().iter().map(|p| [self.x(p.x), self.y(p.y)]).collect()
    }
}

/// Draws the slope with its layout.
#[must_use]
pub fn draw(job: &Job, layout: &Layout, caption: &Caption, language: Language) -> Figure {
    let words = language.words();
    let marks = marks::hook_marks(job, layout);
    let worst = marks::most_used(&marks).map(|mark| mark.id.clone());
    let direction = shown_wind(job, layout, &marks);
    let bounds = job.roof.outline.bounds();
    let scale = scale(job, layout, &marks);
    let size = [bounds.x, bounds.y].map(|[low, high]| (high - low) * scale);

    let heights = heights(layout, words, &bounds);
    let left =
        EDGE + ordinates::LEADER + heights.iter().map(|(_, o)| o.length()).fold(0.0, f64::max);
    let right = EDGE + 76.0;
    let paper = (left + size[0] + right).max(LEAST_PAPER);

    let mut canvas = Canvas::default();
    let heading_end = heading(&mut canvas, caption, words, paper);
    let place = |list: &[(f64, Ordinate)], to: &dyn Fn(f64) -> f64| -> Vec<Ordinate> {
        let mut list: Vec<Ordinate> =
            list.iter().map(|(mm, o)| Ordinate { at: to(*mm), ..o.clone() }).collect();
        list.sort_by(|a, b| a.at.total_cmp(&b.at));
        list
    };
    // Room for the row of lengths and the word above the ridge, and for heights pushed beyond it.
    let beyond = ordinates::overhang(&place(&heights, &|mm| (bounds.y[1] - mm) * scale));
    let view = View { left, top: heading_end + 62.0_f64.max(beyond[0] + 20.0), scale, bounds };

    covering(&mut canvas, &view, job);
    rafters(&mut canvas, &view, job);
    canvas.polygon(&pens::ROOF, &view.outline(&job.roof.outline));
    modules(&mut canvas, &view, layout);
    obstacles(&mut canvas, &view, job);
    let zones: Vec<&ZoneOnSlope> =
        job.actions.wind.zones.iter().filter(|z| Some(z.direction) == direction).collect();
    zone_lines(&mut canvas, &view, &zones);
    for rail in &layout.rails {
        self::rail(&mut canvas, &view, job, rail);
    }
    hooks(&mut canvas, &view, &marks, worst.as_deref());
    rail_labels(&mut canvas, &view, layout);
    obstacle_labels(&mut canvas, &view, job, words);
    zone_labels(&mut canvas, &view, &zones);
    module_labels(&mut canvas, &view, job, layout);

    let bottom = view.y(bounds.y[0]);
    ordinates::draw(&mut canvas, &place(&heights, &|mm| view.y(mm)), Side::Left, view.left);
    let distances = place(&distances(job, &marks, words), &|mm| view.x(mm));
    ordinates::draw(&mut canvas, &distances, Side::Below, bottom);
    let figures = distances.iter().map(Ordinate::length).fold(0.0, f64::max);
    field_chains(&mut canvas, &view, job);
    let centre = f64::midpoint(view.x(bounds.x[0]), view.x(bounds.x[1]));
    canvas.label(Label::new(format!("↑ {}", words.ridge), [centre, view.top - 16.0]).bold());
    let mut y = bottom + ordinates::LEADER + figures + 18.0;
    canvas.label(Label::new(format!("↓ {}", words.eaves), [centre, y]).bold());

    let which = shown_entries(job, layout, &marks, direction);
    y = ending(&mut canvas, &which, direction, words, [y + 34.0, paper], scale);
    for line in caption.footer.iter().flat_map(|l| text::wrap(l, SMALL, paper - 2.0 * EDGE)) {
        canvas.label(Label::new(line, [EDGE, y]).size(SMALL).from_start());
        y += SMALL * 1.5;
    }
    canvas.finish([paper, y + EDGE - SMALL], words.roof_plan)
}

/// Units to the mm: as large as usual, and larger where hooks stand too close for their names.
fn scale(job: &Job, layout: &Layout, marks: &[HookMark]) -> f64 {
    let bounds = job.roof.outline.bounds();
    let usual =
        (USUAL_WIDTH / (bounds.x[1] - bounds.x[0])).min(USUAL_HEIGHT / (bounds.y[1] - bounds.y[0]));
    let longest = marks
        .iter()
        .map(|mark| Label::new(mark.id.clone(), [0.0; 2]).bold().length())
        .fold(44.0, f64::max);
    let side_by_side = marks
        .windows(2)
        .filter(|pair| pair[0].at[0] == pair[1].at[0])
        .map(|pair| pair[1].arm_x - pair[0].arm_x)
        .fold(f64::INFINITY, f64::min);
    let one_above = closest(layout);
    // A built job may have hooks a hand apart; its labels then look for other places.
    let needed = ((longest + 6.0) / side_by_side.max(250.0)).max(64.0 / one_above.max(250.0));
    usual.max(needed.min(0.2))
}

/// Smallest distance up the slope between rails that run above each other.
fn closest(layout: &Layout) -> f64 {
    let lines = || layout.rails.iter().map(|rail| &rail.line);
    let mut smallest = f64::INFINITY;
    for (i, one) in lines().enumerate() {
        for other in lines().skip(i + 1) {
            let apart = (one.y - other.y).abs().mm();
            if apart > 0.5 && one.start() < other.end() && other.start() < one.end() {
                smallest = smallest.min(apart);
            }
        }
    }
    smallest
}

fn heading(canvas: &mut Canvas, caption: &Caption, words: &Words, paper: f64) -> f64 {
    let room = paper - 2.0 * EDGE;
    let mut y = EDGE + LARGE / 2.0;
    let title = caption
        .title
        .as_ref()
        .map_or_else(|| words.roof_plan.to_owned(), |t| format!("{t} · {}", words.roof_plan));
    for line in text::wrap(&title, LARGE * 1.1, room) {
        canvas.label(Label::new(line, [EDGE, y]).size(LARGE).bold().from_start());
        y += LARGE * 1.35;
    }
    for line in text::wrap(&caption.result, NORMAL * 1.15, room) {
        canvas.label(Label::new(line, [EDGE, y]).size(NORMAL * 1.1).from_start());
        y += NORMAL * 1.6;
    }
    let notes = [words.seen_from_outside, words.count_from_zero, words.from_left, words.from_eaves];
    for line in notes.iter().flat_map(|note| text::wrap(note, SMALL, room)) {
        canvas.label(Label::new(line, [EDGE, y]).size(SMALL).from_start());
        y += SMALL * 1.5;
    }
    y
}

/// Wind of the combination the hook used most is governed by, or else the wind that lifts most.
fn shown_wind(job: &Job, layout: &Layout, marks: &[HookMark]) -> Option<Direction> {
    let governing = marks::most_used(marks).and_then(|mark| {
        let [r, s, h] = mark.at;
        let result = layout.rails[r].segments[s].result.as_ref()?;
        let combination = result.hooks[h].governing().1.combination;
        job.actions.combinations.get(combination)?.direction
    });
    let most_lifting = || {
        let zones = job.actions.wind.zones.iter();
        zones.min_by(|a, b| a.coefficients.suction.total_cmp(&b.coefficients.suction))
    };
    governing.or_else(|| most_lifting().map(|zone| zone.direction))
}

fn covering(canvas: &mut Canvas, view: &View, job: &Job) {
    let outline = &job.roof.outline;
    let [low, high] = view.bounds.y.map(Length::from_mm);
    for course in courses::courses_between(&job.covering, low, high) {
        let y = courses::tail_edge(&job.covering, course).mm();
        for [a, b] in inside(outline, y) {
            canvas.line(&pens::COURSE, &[[view.x(a), view.y(y)], [view.x(b), view.y(y)]]);
        }
    }
}

/// The parts of a level line that lie inside an outline.
fn inside(outline: &Outline, y: f64) -> Vec<[f64; 2]> {
    crossings(&outline.points().iter().map(|p| [p.x, p.y]).collect::<Vec<_>>(), y)
}

/// The parts of an upright line that lie inside an outline.
fn inside_upright(outline: &Outline, x: f64) -> Vec<[f64; 2]> {
    crossings(&outline.points().iter().map(|p| [p.y, p.x]).collect::<Vec<_>>(), x)
}

fn crossings(points: &[[f64; 2]], at: f64) -> Vec<[f64; 2]> {
    let mut cuts: Vec<f64> = points
        .iter()
        .zip(points.iter().cycle().skip(1))
        .filter(|(a, b)| (a[1] <= at) != (b[1] <= at))
        .map(|(a, b)| a[0] + (b[0] - a[0]) * (at - a[1]) / (b[1] - a[1]))
        .collect();
    cuts.sort_by(f64::total_cmp);
    cuts.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect()
}

fn rafters(canvas: &mut Canvas, view: &View, job: &Job) {
    let half = job.roof.rafters.width.mm() / 2.0;
    for axis in job.roof.rafters.positions.iter().map(|x| x.mm()) {
        for [low, high] in inside_upright(&job.roof.outline, axis) {
            let wood = Rect { x: [axis - half, axis + half], y: [low, high] };
            canvas.rect(&pens::RAFTER, &view.rect(&wood));
            canvas.line(&pens::AXIS, &[[view.x(axis), view.y(low)], [view.x(axis), view.y(high)]]);
        }
    }
}

fn modules(canvas: &mut Canvas, view: &View, layout: &Layout) {
    for module in &layout.modules {
        canvas.rect(&pens::MODULE, &view.rect(&module.placed.rect));
    }
}

fn obstacles(canvas: &mut Canvas, view: &View, job: &Job) {
    for obstacle in &job.roof.obstacles {
        let around = obstacle.outline.bounds();
        let strip = obstacle.clearance.mm();
        if strip > 0.0 {
            let grown = Rect {
                x: [around.x[0] - strip, around.x[1] + strip],
                y: [around.y[0] - strip, around.y[1] + strip],
            };
            canvas.rect(&pens::STRIP, &view.rect(&grown));
        }
        canvas.polygon(&pens::OBSTACLE, &view.outline(&obstacle.outline));
        let Rect { x, y } = view.rect(&around);
        if obstacle.outline.points().len() == 4 {
            canvas.line(&Pen::line(INK, 0.8), &[[x[0], y[0]], [x[1], y[1]]]);
            canvas.line(&Pen::line(INK, 0.8), &[[x[0], y[1]], [x[1], y[0]]]);
        }
    }
}

fn rail(canvas: &mut Canvas, view: &View, job: &Job, rail: &Rail) {
    let depth = (job.rail.depth.mm() * view.scale).max(5.0) / 2.0;
    let y = view.y(rail.line.y.mm());
    for (ends, splices) in rail.line.segments.iter().zip(&rail.splices) {
        let x = ends.map(|end| view.x(end.mm()));
        canvas.rect(&pens::RAIL, &Rect { x, y: [y - depth, y + depth] });
        for at in splices {
            splice(canvas, [view.x(at.mm()), y]);
        }
    }
}

/// The sign of a splice.
pub(super) fn splice(canvas: &mut Canvas, [x, y]: [f64; 2]) {
    for side in [-2.5, 2.5] {
        canvas.line(&Pen::line(INK, 1.8), &[[x + side, y - 8.0], [x + side, y + 8.0]]);
    }
}

fn hooks(canvas: &mut Canvas, view: &View, marks: &[HookMark], worst: Option<&str>) {
    let reach = RADIUS + 4.0;
    for mark in marks {
        let [x, y] = [view.x(mark.arm_x), view.y(mark.y)];
        canvas.keep_clear(Rect { x: [x - reach, x + reach], y: [y - reach, y + reach] });
    }
    for mark in marks {
        let [x, y] = [view.x(mark.arm_x), view.y(mark.y)];
        let is_worst = worst == Some(mark.id.as_str());
        let title = format!(
            "{}: x {} mm, y {} mm, {}",
            mark.id,
            N(mark.x),
            N(mark.y),
            marks::percent(mark.used)
        );
        canvas.begin_group(&mark.id, &title);
        // The foot sits on the rafter axis, the arm may stand beside it.
        let axis = view.x(mark.x);
        if (axis - x).abs() > 0.5 {
            canvas.line(&Pen::line(INK, 2.0), &[[axis, y - 11.0], [axis, y], [x, y]]);
        }
        marks::draw(canvas, [x, y], mark.used, mark.state, is_worst);
        canvas.end_group();
        // Above and below the sign; where that is taken, farther away, with a line to the sign.
        let name = Label::new(mark.id.clone(), [x, y]).bold();
        let share = Label::new(marks::percent(mark.used), [x, y]);
        for (label, side) in [(name, -1.0), (share, 1.0)] {
            let near = RADIUS + 5.0 + NORMAL * 0.62;
            let steps = (0..40).map(|step| near + f64::from(step) * NORMAL * 0.7);
            let places = steps.flat_map(|d| {
                [0.0, -30.0, 30.0]
                    .map(|aside| [x + aside * f64::from(u8::from(d > near)), y + side * d])
            });
            if let Some(at) = canvas.label_where_clear(&label, places) {
                let lead = (at[1] - y).abs();
                if lead > near + 1.0 {
                    let from = [x, y + side * (RADIUS + 3.0)];
                    let to = [at[0], at[1] - side * NORMAL * 0.6];
                    canvas.line(&Pen::line(if is_worst { ALARM } else { INK }, 0.8), &[from, to]);
                }
            }
        }
    }
}

fn rail_labels(canvas: &mut Canvas, view: &View, layout: &Layout) {
    for rail in &layout.rails {
        let y = view.y(rail.line.y.mm());
        let gaps = rail.line.segments.windows(2).map(|p| ((p[0][1] + p[1][0]) / 2.0).mm());
        let splices = rail.splices.iter().flatten().map(|at| at.mm());
        for at in gaps.chain(splices) {
            let x = view.x(at);
            let label = Label::new(format!("{at:.0}"), [x, y]).size(SMALL);
            let places = (0..6).flat_map(|step| {
                let d = 18.0 + f64::from(step) * 9.0;
                [[x, y + d], [x, y - d]]
            });
            canvas.label_where_clear(&label, places);
        }
    }
}

fn obstacle_labels(canvas: &mut Canvas, view: &View, job: &Job, words: &Words) {
    for obstacle in &job.roof.obstacles {
        let Rect { x, y } = view.rect(&obstacle.outline.bounds());
        let middle = [f64::midpoint(x[0], x[1]), f64::midpoint(y[0], y[1])];
        let strip = obstacle.clearance.mm() * view.scale;
        let label = Label::new(obstacle_name(obstacle.kind, words), middle);
        let half = label.length() / 2.0;
        let off = strip + NORMAL * 0.75;
        let places = [
            [middle[0], y[0] - off],
            [middle[0], y[1] + off],
            [x[0] - strip - half - 5.0, middle[1]],
            [x[1] + strip + half + 5.0, middle[1]],
            middle,
        ];
        canvas.label_where_clear(&label, places);
    }
}

const fn obstacle_name(kind: ObstacleKind, words: &Words) -> &'static str {
    match kind {
        ObstacleKind::Chimney => words.chimney,
        ObstacleKind::RoofWindow => words.roof_window,
        ObstacleKind::Dormer => words.dormer,
        ObstacleKind::Vent => words.vent,
        ObstacleKind::Flue => words.flue,
        ObstacleKind::SnowGuard => words.snow_guard,
        ObstacleKind::StepIron => words.step_iron,
        ObstacleKind::Aerial => words.aerial,
        ObstacleKind::Other => words.other_obstacle,
    }
}

fn zone_lines(canvas: &mut Canvas, view: &View, zones: &[&ZoneOnSlope]) {
    for zone in zones {
        let Rect { x, y } = zone.rect;
        // Sides on the outline are there already.
        for at in x.into_iter().filter(|at| is_within(*at, view.bounds.x)) {
            canvas.line(&pens::ZONE, &y.map(|y| [view.x(at), view.y(y)]));
        }
        for at in y.into_iter().filter(|at| is_within(*at, view.bounds.y)) {
            canvas.line(&pens::ZONE, &x.map(|x| [view.x(x), view.y(at)]));
        }
    }
}

fn is_within(at: f64, [low, high]: [f64; 2]) -> bool {
    low + 1.0 < at && at < high - 1.0
}

fn zone_labels(canvas: &mut Canvas, view: &View, zones: &[&ZoneOnSlope]) {
    for zone in zones.iter().filter(|z| z.rect.area() > 0.0) {
        let suction = format!("{:.2}", zone.coefficients.suction).replace('-', "−");
        let label = Label::new(format!("{} {suction}", zone.name), [0.0; 2]).size(SMALL).bold();
        let Rect { x, y } = view.rect(&zone.rect);
        let (half, high) = (label.length() / 2.0 + 4.0, SMALL * 0.8);
        if x[1] - x[0] < 2.0 * half || y[1] - y[0] < 2.0 * high {
            continue;
        }
        let shares = [0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0];
        let places = shares.into_iter().flat_map(|up| {
            shares.map(|along| {
                [
                    x[0] + half + (x[1] - x[0] - 2.0 * half) * along,
                    y[0] + high + (y[1] - y[0] - 2.0 * high) * up,
                ]
            })
        });
        canvas.label_where_clear(&label, places);
    }
}

fn module_labels(canvas: &mut Canvas, view: &View, job: &Job, layout: &Layout) {
    for module in &layout.modules {
        let placed = &module.placed;
        let field = job.fields.get(placed.field).map_or("", |field| field.id.as_str());
        let text = format!("{field}/{}/{}", placed.row, placed.column);
        let Rect { x, y } = view.rect(&placed.rect);
        let label = Label::new(text, [f64::midpoint(x[0], x[1]), 0.0]).size(SMALL);
        if label.length() > x[1] - x[0] {
            continue;
        }
        let places = [0.5, 0.42, 0.58, 0.34, 0.66, 0.9, 0.1]
            .map(|share| [label.at[0], y[0] + (y[1] - y[0]) * share]);
        canvas.label_where_clear(&label, places);
    }
}

/// Heights of the rails, with the rails that lie there, and of eaves and ridge.
fn heights(layout: &Layout, words: &Words, bounds: &Rect) -> Vec<(f64, Ordinate)> {
    let mut rows: Vec<(f64, i64, bool, Vec<&str>)> = Vec::new();
    for rail in &layout.rails {
        let line = &rail.line;
        let y = line.y.mm();
        let same = |row: &&mut (f64, i64, bool, Vec<&str>)| {
            (row.0 - y).abs() < 0.5 && row.1 == line.course
        };
        match rows.iter_mut().find(same) {
            Some(row) => row.3.push(&line.id),
            None => rows.push((y, line.course, line.on_grid, vec![&line.id])),
        }
    }
    let mut all: Vec<(f64, Ordinate)> = rows
        .into_iter()
        .map(|(y, course, on_grid, ids)| {
            let ids = match ids.as_slice() {
                [first, .., last] if ids.len() > 3 => format!("{first} … {last}"),
                _ => ids.join(" "),
            };
            let course =
                if on_grid { format!(" · {} {course}", words.course) } else { String::new() };
            (y, Ordinate::new(0.0, format!("{ids}{course} · {y:.0}"), Weight::Bold))
        })
        .collect();
    for (y, name) in [(bounds.y[0], words.eaves), (bounds.y[1], words.ridge)] {
        all.push((y, Ordinate::new(0.0, format!("{name} · {y:.0}"), Weight::Plain)));
    }
    all
}

/// Distances of the rafters, those with hooks in heavy type, and of both verges.
fn distances(job: &Job, marks: &[HookMark], words: &Words) -> Vec<(f64, Ordinate)> {
    let mut all: Vec<(f64, Ordinate)> = job
        .roof
        .rafters
        .positions
        .iter()
        .enumerate()
        .map(|(i, x)| {
            let carries = marks.iter().any(|mark| mark.rafter == i);
            let weight = if carries { Weight::Bold } else { Weight::Plain };
            (x.mm(), Ordinate::new(0.0, format!("{i} · {:.0}", x.mm()), weight))
        })
        .collect();
    let bounds = job.roof.outline.bounds();
    for (x, name) in [(bounds.x[0], words.left_verge), (bounds.x[1], words.right_verge)] {
        all.push((x, Ordinate::new(0.0, format!("{name} · {x:.0}"), Weight::Plain)));
    }
    all
}

/// Where the fields of modules begin and end: above the ridge and beside the right verge.
fn field_chains(canvas: &mut Canvas, view: &View, job: &Job) {
    let thin = Pen::line(INK, 0.9);
    let stops = |axis: usize| -> Vec<f64> {
        let bounds = [view.bounds.x, view.bounds.y][axis];
        let mut stops = bounds.to_vec();
        for field in &job.fields {
            let low = field.place(&job.module, 0, 0);
            let high = field.place(&job.module, field.rows.max(1) - 1, field.columns.max(1) - 1);
            stops.extend([[low.x[0], high.x[1]], [low.y[0], high.y[1]]][axis]);
        }
        stops.sort_by(f64::total_cmp);
        stops.dedup_by(|a, b| (*a - *b).abs() < 0.5);
        stops
    };
    let tick = |canvas: &mut Canvas, [x, y]: [f64; 2]| {
        canvas.line(&Pen::line(INK, 1.4), &[[x - 4.0, y + 4.0], [x + 4.0, y - 4.0]]);
    };
    let lengths = |stops: &[f64], to: &dyn Fn(f64) -> f64, upright: bool| {
        let wanted: Vec<(f64, f64)> = stops
            .windows(2)
            .map(|pair| {
                let length = Label::new(format!("{:.0}", pair[1] - pair[0]), [0.0; 2]).length();
                let room = if upright { NORMAL * 1.2 } else { length };
                (to(f64::midpoint(pair[0], pair[1])), room)
            })
            .collect();
        text::spread(&wanted, 4.0)
    };
    let along = stops(0);
    let y = view.top - 32.0;
    canvas.line(&thin, &[[view.x(view.bounds.x[0]), y], [view.x(view.bounds.x[1]), y]]);
    for x in &along {
        tick(canvas, [view.x(*x), y]);
    }
    for (pair, at) in along.windows(2).zip(lengths(&along, &|x| view.x(x), false)) {
        canvas.label(Label::new(format!("{:.0}", pair[1] - pair[0]), [at, y - 12.0]));
    }
    let mut up = stops(1);
    up.reverse();
    let x = view.x(view.bounds.x[1]) + 18.0;
    canvas.line(&thin, &[[x, view.y(view.bounds.y[0])], [x, view.y(view.bounds.y[1])]]);
    for y in &up {
        tick(canvas, [x, view.y(*y)]);
    }
    for (pair, at) in up.windows(2).zip(lengths(&up, &|y| view.y(y), true)) {
        let label = Label::new(format!("{:.0}", pair[0] - pair[1]), [x + 10.0, at]);
        canvas.label(label.from_start());
    }
}

/// What of the legend a job needs.
fn shown_entries(
    job: &Job,
    layout: &Layout,
    marks: &[HookMark],
    direction: Option<Direction>,
) -> Vec<Entry> {
    let mut which = vec![Entry::Hook, Entry::MostUsed];
    for (state, entry) in [(State::Over, Entry::Over), (State::Unverified, Entry::Unverified)] {
        if marks.iter().any(|mark| mark.state == state) {
            which.push(entry);
        }
    }
    which.push(Entry::Rail);
    if layout.rails.iter().flat_map(|rail| &rail.splices).any(|splices| !splices.is_empty()) {
        which.push(Entry::Splice);
    }
    if layout.rails.iter().any(|rail| rail.line.segments.len() > 1) {
        which.push(Entry::Gap);
    }
    which.extend([Entry::Module, Entry::Rafter, Entry::Course]);
    if direction.is_some() {
        which.push(Entry::Zone);
    }
    if !job.roof.obstacles.is_empty() {
        which.push(Entry::Obstacle);
    }
    which
}

/// Scale bar and legend; says where it ends.
fn ending(
    canvas: &mut Canvas,
    which: &[Entry],
    direction: Option<Direction>,
    words: &Words,
    [top, paper]: [f64; 2],
    scale: f64,
) -> f64 {
    canvas.label(Label::new(words.legend, [EDGE, top]).bold().from_start());
    legend::scale_bar(canvas, [paper - EDGE - 14.0, top], scale);
    let wind = direction.map_or("", |direction| match direction {
        Direction::Front => words.wind_from_front,
        Direction::Back => words.wind_from_back,
        Direction::Left => words.wind_from_left,
        Direction::Right => words.wind_from_right,
    });
    let entries = legend::entries(which, wind, words);
    let room = paper - 2.0 * EDGE;
    legend::draw(canvas, &entries, [EDGE, top + 26.0], room);
    top + 26.0 + legend::height(&entries, room) + 18.0
}
