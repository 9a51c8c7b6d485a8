//! Wind zones of one direction on the slope.

use crate::codes::vocabulary::{Direction, ZoneOnSlope};
use crate::drawing::canvas::Canvas;
use crate::drawing::marks::{self, HookMark};
use crate::drawing::pens;
use crate::drawing::text::{Label, SMALL};
use crate::geometry::Rect;
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
        let zones = job.actions.wind.fixings.zones.iter();
        zones.min_by(|a, b| a.coefficients.suction.total_cmp(&b.coefficients.suction))
    };
    governing.or_else(|| most_lifting().map(|zone| zone.direction))
}

/// The zones of a direction.
pub fn of(job: &Job, direction: Direction) -> Vec<&ZoneOnSlope> {
    job.actions.wind.fixings.zones.iter().filter(|zone| zone.direction == direction).collect()
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
pub fn borders(canvas: &mut Canvas, view: &View, zones: &[&ZoneOnSlope]) {
    let bounds = view.window.rect;
    for zone in zones {
        let Rect { x, y } = zone.rect;
        for at in x.into_iter().filter(|at| is_within(*at, bounds.x)) {
            canvas.line(&pens::ZONE, &y.map(|y| [view.x(at), view.y(y)]));
        }
        for at in y.into_iter().filter(|at| is_within(*at, bounds.y)) {
            canvas.line(&pens::ZONE, &x.map(|x| [view.x(x), view.y(at)]));
        }
    }
}

fn is_within(at: f64, [low, high]: [f64; 2]) -> bool {
    low + 1.0 < at && at < high - 1.0
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
        let Some(shown) = view.shown(&zone.rect) else { continue };
        for text in [text(zone), zone.name.to_owned()] {
            let label = Label::new(text, [0.0; 2]).size(SMALL).bold();
            if canvas.label_where_clear(&label, places(&label, &shown)).is_some() {
                break;
            }
        }
    }
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
