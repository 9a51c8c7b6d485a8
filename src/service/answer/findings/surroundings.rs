//! What lies around the array and acts on it in ways that are not computed: edges of the slope,
//! guards that hold snow, openings that cut rafters.

use crate::geometry::Rect;
use crate::placement::Job;
use crate::placement::layout::Layout;
use crate::roof::Edge;
use crate::service::warnings::{self as kinds, Warnings, number, text};

/// Every effect of the surroundings that is not computed.
pub(super) fn surroundings(job: &Job, layout: &Layout, out: &mut Warnings) {
    edges(job, out);
    cut_rafters(job, layout, out);
}

/// Sides of the slope whose wind zones or snow are not computed.
fn edges(job: &Job, out: &mut Warnings) {
    for (edge, what, effect) in [
        (Edge::Hip, "a hip", "the wind zones along it"),
        (Edge::Valley, "a valley", "the snow that gathers in it, and the wind zones along it"),
        (
            Edge::Abutment,
            "an abutment",
            "the snow that drifts or slides against it, and the wind there",
        ),
    ] {
        let sides = sides(job, |i| job.roof.edges[i] == edge);
        if !sides.is_empty() {
            out.add(
                &kinds::EDGE_NOT_COMPUTED,
                "",
                format!(
                    "Side {sides} of the slope is {what}: {effect} are not computed. A structural \
                     engineer has to add them."
                ),
                [("sides", text(sides)), ("edge", text(what.rsplit(' ').next().unwrap_or(what)))],
            );
        }
    }
    let bounds = job.roof.outline.bounds();
    let inner = sides(job, |i| {
        let straight = matches!(job.roof.edges[i], Edge::Eaves | Edge::Verge | Edge::Ridge);
        straight && !on_the_bounds(job, i, &bounds)
    });
    if !inner.is_empty() {
        out.add(
            &kinds::EDGE_NOT_COMPUTED,
            "",
            format!(
                "The wind zones are laid out on the rectangle around the slope, and side {inner} does \
                 not lie on it: the zones along that side are not computed. A structural engineer \
                 has to add them."
            ),
            [("sides", text(inner))],
        );
    }
}

/// Numbers of the sides of the outline that are meant, counted from 0.
fn sides(job: &Job, meant: impl Fn(usize) -> bool) -> String {
    let all = 0..job.roof.edges.len();
    all.filter(|i| meant(*i)).map(|i| i.to_string()).collect::<Vec<_>>().join(", ")
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

/// Rafters in a sentence.
fn named(rafters: &[usize]) -> String {
    match rafters {
        [] => "nothing".to_owned(),
        [one] => format!("rafter {one}"),
        [first @ .., last] => {
            let first: Vec<String> = first.iter().map(usize::to_string).collect();
            format!("rafters {} and {last}", first.join(", "))
        }
    }
}

/// Openings that cut rafters which carry hooks, or lay the load of cut ones on such.
fn cut_rafters(job: &Job, layout: &Layout, out: &mut Warnings) {
    let carries = |rafter: &usize| layout.rafters.iter().any(|under| under.rafter == *rafter);
    let list =
        |rafters: &[usize]| rafters.iter().map(usize::to_string).collect::<Vec<_>>().join(", ");
    for cut in job.roof.cuts() {
        let touched: Vec<usize> =
            cut.rafters.iter().chain(&cut.beside).copied().filter(carries).collect();
        if touched.is_empty() {
            continue;
        }
        out.add(
            &kinds::RAFTER_CUT,
            "/rafters",
            format!(
                "Obstacle {} stands where {} would run: what is cut there is laid on {} by trimmers. \
                 Hooks stand on {}; how span and load change is not computed. A structural engineer \
                 has to look at them.",
                cut.obstacle,
                named(&cut.rafters),
                named(&cut.beside),
                named(&touched)
            ),
            [
                ("obstacle", number(cut.obstacle as f64)),
                ("rafters", text(list(&cut.rafters))),
                ("hooks_on", text(list(&touched))),
            ],
        );
    }
}
