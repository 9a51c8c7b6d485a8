//! What the array lies on: courses, rafters, the edge of the slope, obstacles.

use crate::covering::courses;
use crate::drawing::canvas::{Canvas, INK, Pen};
use crate::drawing::marks;
use crate::drawing::pens;
use crate::drawing::text::{Label, NORMAL};
use crate::geometry::{Outline, Point, Rect};
use crate::language::{Words, ordinal};
use crate::placement::Job;
use crate::roof::ObstacleKind;
use crate::units::Length;

use super::view::View;

/// Tail edges of the courses.
pub fn covering(canvas: &mut Canvas, view: &View, job: &Job) {
    let outline = &job.roof.outline;
    let [low, high] = view.window.rect.y.map(Length::from_mm);
    for course in courses::courses_between(&job.covering, low, high) {
        let y = courses::tail_edge(&job.covering, course).mm();
        for [a, b] in inside(outline, y) {
            canvas.line(&pens::COURSE, &[[view.x(a), view.y(y)], [view.x(b), view.y(y)]]);
        }
    }
}

/// Rafters with their axes.
pub fn rafters(canvas: &mut Canvas, view: &View, job: &Job) {
    let half = job.roof.rafters.width.mm() / 2.0;
    for (rafter, axis) in job.roof.rafters.positions.iter().map(|x| x.mm()).enumerate() {
        for [low, high] in inside_upright(&job.roof.outline, axis) {
            let wood = Rect { x: [axis - half, axis + half], y: [low, high] };
            canvas.rect(&pens::RAFTER, &view.rect(&wood));
            if job.roof.rafters.is_barred(rafter) {
                marks::barred(canvas, &view.rect(&wood));
            }
            canvas.line(&pens::AXIS, &[[view.x(axis), view.y(low)], [view.x(axis), view.y(high)]]);
        }
    }
}

/// The edge of the slope.
pub fn edge(canvas: &mut Canvas, view: &View, job: &Job) {
    canvas.polygon(&pens::ROOF, &view.outline(&job.roof.outline));
}

/// Lines the array is kept behind: along edges and party walls whose distance is given.
pub fn kept_clear(canvas: &mut Canvas, view: &View, job: &Job) {
    for [a, b] in strips(job) {
        canvas.line(&pens::STRIP, &[[view.x(a.x), view.y(a.y)], [view.x(b.x), view.y(b.y)]]);
    }
}

/// Every side of the slope moved inwards by what is to stay clear along it.
pub fn strips(job: &Job) -> Vec<[Point; 2]> {
    let roof = &job.roof;
    let from_edges = roof.distances.edges.iter().filter(|asked| asked.source.is_some());
    let from_edges = from_edges.flat_map(|asked| {
        let sides = roof.edges.iter().enumerate().filter(|(_, edge)| **edge == asked.edge);
        sides.map(|(side, _)| (side, asked.least))
    });
    let walls = roof.distances.party_walls.iter();
    let from_walls = walls.filter_map(|wall| {
        let (least, _) = wall.fire.as_ref()?;
        Some((wall.side, *least + wall.face))
    });
    from_edges.chain(from_walls).map(|(side, by)| inwards(roof.side(side), by.mm())).collect()
}

/// A side moved to its left, where the slope lies, mm.
fn inwards([a, b]: [Point; 2], by: f64) -> [Point; 2] {
    let length = (b.x - a.x).hypot(b.y - a.y);
    let (dx, dy) = ((a.y - b.y) / length * by, (b.x - a.x) / length * by);
    [a, b].map(|end| Point { x: end.x + dx, y: end.y + dy })
}

/// Obstacles with the strip around them.
pub fn obstacles(canvas: &mut Canvas, view: &View, job: &Job) {
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

/// Their numbers and names.
pub fn obstacle_labels(canvas: &mut Canvas, view: &View, job: &Job, words: &Words) {
    for (i, obstacle) in job.roof.obstacles.iter().enumerate() {
        let Some(Rect { x, y }) = view.shown(&obstacle.outline.bounds()) else { continue };
        let strip = obstacle.clearance.mm() * view.scale;
        let name = format!("{} · {}", ordinal(i), obstacle_name(obstacle.kind, words));
        let half = Label::new(name.clone(), [0.0; 2]).length() / 2.0;
        // An obstacle at the edge of a page keeps its name on it.
        let [left, right] = view.frame().x;
        let across = f64::midpoint(x[0], x[1]).min(right - half).max(left + half);
        let middle = [across, f64::midpoint(y[0], y[1])];
        let label = Label::new(name, middle);
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
