//! Dimensions from one datum, and where the fields of modules begin and end.

use crate::covering::watertight::Sheds;
use crate::drawing::canvas::{Canvas, INK, Pen};
use crate::drawing::marks::HookMark;
use crate::drawing::ordinates::Ordinate;
use crate::drawing::text::{self, Label, NORMAL, Weight};
use crate::language::{Pieces, Words, ordinal};
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::line::Over;
use crate::placement::rail_axis::RailAxis;
use crate::placement::rail_lines::RailLine;

use super::ends;
use super::view::{View, Window};

/// A dimension, and the place it measures, mm.
pub type Measured = (f64, Ordinate);

/// Dimensions ascending along the paper, each where its place comes to lie there.
pub fn on_paper(list: &[Measured], to: impl Fn(f64) -> f64) -> Vec<Ordinate> {
    let mut list: Vec<Ordinate> =
        list.iter().map(|(mm, o)| Ordinate { at: to(*mm), ..o.clone() }).collect();
    list.sort_by(|a, b| a.at.total_cmp(&b.at));
    list
}

/// What the covering of a job is made of.
#[must_use]
pub const fn pieces(job: &Job) -> Pieces {
    match job.watertight.sheds {
        Sheds::FlatTile => Pieces::Tiles,
        Sheds::Slate => Pieces::Slates,
        Sheds::InterlockingTile => Pieces::Pantiles,
    }
}

/// Number of a course as people count: the first full one above the eaves is 1.
#[must_use]
pub const fn course_number(course: i64) -> i64 {
    course.saturating_add(1)
}

/// Heights the rails are set at, with those that lie there, or where rails run up the slope those of the
/// hooks, and of eaves and upper edge. A part of a slope has the rails that have hooks in it.
pub fn heights(
    job: &Job,
    layout: &Layout,
    marks: &[HookMark],
    words: &Words,
    window: &Window,
) -> Vec<Measured> {
    struct Row<'a> {
        y: f64,
        course: Option<i64>,
        ids: Vec<&'a str>,
    }
    let [eaves, top] = job.roof.outline.bounds().y;
    let mut rows: Vec<Row<'_>> = Vec::new();
    let has_hooks =
        |rail: usize| marks.iter().any(|mark| mark.at[0] == rail && window.owns([mark.x, mark.y]));
    let rails = layout.rails.iter().enumerate();
    let shown = rails.filter(|(rail, _)| window.is_whole() || has_hooks(*rail));
    let rails = shown.filter_map(|(_, rail)| {
        let line = &rail.line;
        let course = match line.over {
            Over::Course(course) => Some(course).filter(|_| line.on_grid),
            Over::Rails => None,
            Over::Rafter(_) => return None,
        };
        Some((line.across.mm(), course, Some(&*line.id)))
    });
    let hooks = marks.iter().filter(|mark| window.owns([mark.x, mark.y]));
    let hooks = hooks.filter(|_| job.rail_axis == RailAxis::UpSlope);
    let hooks = hooks.map(|mark| (mark.y, Some(mark.course), None));
    for (y, course, id) in rails.chain(hooks) {
        let joins = |row: &&mut Row<'_>| (row.y - y).abs() < 0.5 && row.course == course;
        match rows.iter_mut().find(joins) {
            Some(row) => row.ids.extend(id),
            None => rows.push(Row { y, course, ids: id.into_iter().collect() }),
        }
    }
    let called = words.of_covering(pieces(job));
    let rail = |row: Row<'_>| {
        let ids = match row.ids.as_slice() {
            [first, .., last] if row.ids.len() > 3 => format!("{first} … {last}"),
            ids => ids.join(" "),
        };
        let course = row.course.map(|c| format!("{} {}", called.course, course_number(c)));
        let parts = [ids, course.unwrap_or_default(), format!("{:.0}", row.y)];
        let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        (row.y, Ordinate::new(0.0, parts.join(" · "), Weight::Bold))
    };
    let edge = |(y, name)| (y, Ordinate::new(0.0, format!("{name} · {y:.0}"), Weight::Plain));
    let edges = [(eaves, words.eaves), (top, ends::upper(job, words))];
    let edges = edges.into_iter().filter(|(y, _)| window.rect.y.contains(y));
    rows.into_iter().map(rail).chain(edges.map(edge)).collect()
}

/// Distances of the rafters in a window, those with hooks in heavy type and with the rails that run up the
/// slope over them, and of both ends.
pub fn distances(
    job: &Job,
    layout: &Layout,
    marks: &[HookMark],
    words: &Words,
    window: &Window,
) -> Vec<Measured> {
    let over = |rafter: usize, x: f64| {
        let lines = layout.rails.iter().map(|rail| &rail.line);
        let lines = lines.filter(move |line| line.over == Over::Rafter(rafter));
        let name = |line: &RailLine| {
            let at = line.across.mm();
            let beside = if (at - x).abs() < 0.5 { String::new() } else { format!(" {at:.0}") };
            format!(" · {}{beside}", line.id)
        };
        lines.map(name).collect::<String>()
    };
    let rafters = job.roof.rafters.positions.iter().map(|x| x.mm()).enumerate();
    let rafters = rafters.filter(|(_, x)| window.owns_along(*x)).map(|(i, x)| {
        let carries = marks.iter().any(|mark| mark.rafter == i);
        let weight = if carries { Weight::Bold } else { Weight::Plain };
        let text = format!("{} · {x:.0}{}", ordinal(i), over(i, x));
        (x, Ordinate::new(0.0, text, weight))
    });
    let bounds = job.roof.outline.bounds();
    let verges = [(bounds.x[0], ends::left(job, words)), (bounds.x[1], ends::right(job, words))];
    let verges = verges
        .into_iter()
        .filter(|(x, _)| window.rect.x.contains(x))
        .map(|(x, name)| (x, Ordinate::new(0.0, format!("{name} · {x:.0}"), Weight::Plain)));
    rafters.chain(verges).collect()
}

/// Where the fields of modules begin and end: above the ridge and beside the right verge. Where
/// only a part of a length is shown, its figure is still that of the whole.
pub fn field_chains(canvas: &mut Canvas, view: &View, job: &Job) {
    let thin = Pen::line(INK, 0.9);
    let frame = view.frame();
    let y = frame.y[0] - 32.0;
    canvas.line(&thin, &frame.x.map(|x| [x, y]));
    let along = chain(&stops(job, 0), frame.x, |x| view.x(x));
    for x in &along.ticks {
        tick(canvas, [*x, y]);
    }
    for (text, at) in along.placed(Label::length) {
        canvas.label(Label::new(text, [at, y - 12.0]));
    }
    let x = frame.x[1] + 18.0;
    canvas.line(&thin, &frame.y.map(|y| [x, y]));
    let up = chain(&stops(job, 1), frame.y, |y| view.y(y));
    for y in &up.ticks {
        tick(canvas, [x, *y]);
    }
    for (text, at) in up.placed(|_| NORMAL * 1.2) {
        canvas.label(Label::new(text, [x + 10.0, at]).from_start());
    }
}

fn tick(canvas: &mut Canvas, [x, y]: [f64; 2]) {
    canvas.line(&Pen::line(INK, 1.4), &[[x - 4.0, y + 4.0], [x + 4.0, y - 4.0]]);
}

/// Ends of slope and fields along an axis, mm.
fn stops(job: &Job, axis: usize) -> Vec<f64> {
    let bounds = job.roof.outline.bounds();
    let mut stops = [bounds.x, bounds.y][axis].to_vec();
    for field in &job.fields {
        let bounds = field.bounds();
        stops.extend([bounds.x, bounds.y][axis]);
    }
    stops.sort_by(f64::total_cmp);
    stops.dedup_by(|a, b| (*a - *b).abs() < 0.5);
    stops
}

/// A chain of lengths on paper.
struct Chain {
    ticks: Vec<f64>,
    /// Lengths, each with the middle of what is shown of it, ascending.
    lengths: Vec<(String, f64)>,
}

impl Chain {
    /// The lengths moved apart so that each has its room.
    fn placed(self, room: impl Fn(&Label) -> f64) -> Vec<(String, f64)> {
        let wanted: Vec<(f64, f64)> = self
            .lengths
            .iter()
            .map(|(text, at)| (*at, room(&Label::new(text.clone(), [0.0; 2]))))
            .collect();
        let places = text::spread(&wanted, 4.0);
        self.lengths.into_iter().map(|(text, _)| text).zip(places).collect()
    }
}

fn chain(stops: &[f64], [low, high]: [f64; 2], to: impl Fn(f64) -> f64) -> Chain {
    let shown = |at: f64| (low - 0.5..=high + 0.5).contains(&at);
    let ticks = stops.iter().map(|stop| to(*stop)).filter(|at| shown(*at)).collect();
    let mut lengths: Vec<(String, f64)> = stops
        .windows(2)
        .filter_map(|pair| {
            let ends = [to(pair[0]), to(pair[1])];
            let from = ends[0].min(ends[1]).max(low);
            let until = ends[0].max(ends[1]).min(high);
            (from < until)
                .then(|| (format!("{:.0}", pair[1] - pair[0]), f64::midpoint(from, until)))
        })
        .collect();
    lengths.sort_by(|a, b| a.1.total_cmp(&b.1));
    Chain { ticks, lengths }
}
