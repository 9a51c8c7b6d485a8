//! Wind zones of one direction on the slope.

use crate::codes::vocabulary::{Direction, ZoneOnSlope};
use crate::drawing::canvas::Canvas;
use crate::drawing::marks::{self, HookMark};
use crate::drawing::pens;
use crate::drawing::text::{Label, SMALL};
use crate::geometry::{Point, Ramp, Rect, Region};
use crate::language::Words;
use crate::placement::Job;
use crate::placement::laid::Layout;

use super::view::View;

/// Wind of the combination the hook used most is governed by, or else the wind that lifts most.
pub fn governing(job: &Job, layout: &Layout, marks: &[HookMark]) -> Option<Direction> {
    let governing = marks::most_used(layout, marks).and_then(|mark| {
        let [r, s, h] = mark.at;
        let result = layout.rails[r].segments[s].result.as_ref()?;
        let combination = result.hooks[h].governing().1.combination;
        Some(job.actions.combinations.get(combination)?.wind?.direction)
    });
    let most_lifting = || {
        let zones = job.actions.wind.zoned().zones.iter();
        zones.min_by(|a, b| a.coefficients.suction.total_cmp(&b.coefficients.suction))
    };
    governing.or_else(|| most_lifting().map(|zone| zone.direction))
}

/// The zones of a direction.
pub fn of(job: &Job, direction: Direction) -> Vec<&ZoneOnSlope> {
    job.actions.wind.zoned().zones.iter().filter(|zone| zone.direction == direction).collect()
}

/// A direction in words.
pub const fn name(direction: Direction, words: &Words) -> &'static str {
    match direction {
        Direction::Front => words.wind_from_front,
        Direction::Back => words.wind_from_back,
        Direction::Left => words.wind_from_left,
        Direction::Right => words.wind_from_right,
    }
}

/// Borders of the zones; those on the edge of the slope are there already.
pub fn borders(canvas: &mut Canvas, view: &View, job: &Job, zones: &[&ZoneOnSlope]) {
    let edges: Vec<[Point; 2]> = job.roof.outline.sides().collect();
    for side in zones.iter().flat_map(|zone| zone.region.sides()) {
        if !edges.iter().any(|edge| runs_along(*edge, side)) {
            canvas.line(&pens::ZONE, &side.map(|end| view.point(end)));
        }
    }
}

/// Whether a side lies on an edge, but for what cannot be seen.
fn runs_along(edge: [Point; 2], side: [Point; 2]) -> bool {
    const UNSEEN: f64 = 1.0;
    let edge = Ramp::new(edge, 0.0);
    side.into_iter().all(|end| edge.distance(end).abs() < UNSEEN)
}

/// What is written in each zone, where there is room; its name alone where there is only room for
/// that.
pub fn labels(
    canvas: &mut Canvas,
    view: &View,
    zones: &[&ZoneOnSlope],
    text: impl Fn(&ZoneOnSlope) -> String,
) {
    for zone in zones {
        let Some(shown) = view.shown(zone.region.bounds()) else { continue };
        for text in [text(zone), zone.name.to_owned()] {
            let label = Label::new(text, [0.0; 2]).size(SMALL).bold();
            let places = places(&label, &shown);
            let inside = places.into_iter().filter(|at| holds(view, &zone.region, &label, *at));
            if canvas.label_where_clear(&label, inside).is_some() {
                break;
            }
        }
    }
}

/// Whether a label at a place lies wholly in a zone.
fn holds(view: &View, zone: &Region, label: &Label, at: [f64; 2]) -> bool {
    let covered = view.on_slope(&Label { at, ..label.clone() }.bounds());
    let held = zone.within(&covered).map_or(0.0, |part| part.area);
    zone.is_rect() || held > 0.999 * covered.area()
}

/// Places within a rectangle, from its upper left corner on; none where it is too small.
fn places(label: &Label, Rect { x, y }: &Rect) -> Vec<[f64; 2]> {
    let (half, high) = (label.length() / 2.0 + 4.0, SMALL * 0.8);
    let spare = [x[1] - x[0] - 2.0 * half, y[1] - y[0] - 2.0 * high];
    if spare.iter().any(|spare| *spare < 0.0) {
        return Vec::new();
    }
    let shares = || (0..=10).map(|tenth| f64::from(tenth) / 10.0);
    shares()
        .flat_map(|up| {
            shares().map(move |along| [x[0] + half + spare[0] * along, y[0] + high + spare[1] * up])
        })
        .collect()
}
