//! What lies around the array and acts on it in ways that are not computed: edges of the slope, openings that
//! cut rafters and rafters that were found split. What the request says of guards is looked at with the request.

use crate::geometry::Rect;
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::roof::{Edge, Form, Unsound};

use super::value::EdgeName;
use super::{Fact, Findings, Place};

/// Every effect of the surroundings that is not computed.
pub(super) fn surroundings(job: &Job, layout: &Layout, out: &mut Findings) {
    edges(job, out);
    split_rafters(job, layout, out);
    cut_rafters(job, layout, out);
}

/// Sides of the slope along which the wind is not computed.
fn edges(job: &Job, out: &mut Findings) {
    let bounds = job.roof.outline.bounds();
    let name = |(side, edge): (usize, &Edge)| match edge {
        // The zones of a hipped roof begin at its hips.
        Edge::Hip if job.roof.form == Form::Hipped => None,
        Edge::Hip => Some(EdgeName::Hip),
        Edge::Valley => Some(EdgeName::Valley),
        Edge::Abutment => Some(EdgeName::Abutment),
        // Along a party wall the zones of a verge are taken.
        Edge::Eaves | Edge::Verge | Edge::Ridge | Edge::PartyWall => {
            (!on_the_bounds(job, side, &bounds)).then_some(EdgeName::OffRectangle)
        }
    };
    for edge in [EdgeName::Hip, EdgeName::Valley, EdgeName::Abutment, EdgeName::OffRectangle] {
        let named = job.roof.edges.iter().enumerate().filter(|side| name(*side) == Some(edge));
        let sides: Vec<usize> = named.map(|(side, _)| side).collect();
        if sides.is_empty() {
            continue;
        }
        // Coefficients that are given hold on the whole slope, but for modules alone.
        let is_given = job.actions.wind.zoned().loaded_area.is_none();
        if !is_given {
            out.add(Place::Whole, Fact::EdgeNotComputed { sides, edge });
        } else if job.actions.wind.covering.is_some() {
            out.add(Place::Rafters, Fact::EdgeWindOnRafters { sides });
        }
    }
}

/// Whether a side of the outline lies on a side of the rectangle around it.
fn on_the_bounds(job: &Job, side: usize, bounds: &Rect) -> bool {
    /// How exactly an outline is drawn, mm.
    const DRAWN: f64 = 1.0;
    let points = job.roof.outline.points();
    let [a, b] = [points[side], points[(side + 1) % points.len()]];
    let both = |p: f64, q: f64, at: f64| (p - at).abs() <= DRAWN && (q - at).abs() <= DRAWN;
    bounds.x.iter().any(|x| both(a.x, b.x, *x)) || bounds.y.iter().any(|y| both(a.y, b.y, *y))
}

/// Rafters found split that carry hooks.
fn split_rafters(job: &Job, layout: &Layout, out: &mut Findings) {
    let split = job.roof.rafters.unsound.iter().filter(|(_, what)| *what == Unsound::Split);
    let carries = |rafter: &usize| layout.rafters.iter().any(|under| under.rafter == *rafter);
    let rafters: Vec<usize> = split.map(|(rafter, _)| *rafter).filter(carries).collect();
    if !rafters.is_empty() {
        out.add(Place::Rafters, Fact::RafterSplit { rafters });
    }
}

/// Openings that cut rafters which carry hooks, or lay the load of cut ones on such.
fn cut_rafters(job: &Job, layout: &Layout, out: &mut Findings) {
    let carries = |rafter: &usize| layout.rafters.iter().any(|under| under.rafter == *rafter);
    for cut in job.roof.cuts() {
        let near = cut.rafters.iter().chain(&cut.beside).copied();
        let hooks_on: Vec<usize> = near.filter(carries).collect();
        if !hooks_on.is_empty() {
            let fact = Fact::RafterCut {
                obstacle: cut.obstacle,
                rafters: cut.rafters,
                beside: cut.beside,
                hooks_on,
                stated: job.roof.obstacles[cut.obstacle].cuts.is_some(),
            };
            out.add(Place::Rafters, fact);
        }
    }
}
