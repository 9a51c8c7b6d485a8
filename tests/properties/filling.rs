//! Fields filled on random slopes: every module lies where it may, no raster that is tried holds more, and a
//! slope in a mirror holds as many.
//!
//! The raster is a brute force of our own, and its tests of single modules are the distances and overlaps of
//! the `geo` library, which the filling does not use.

use hookspan::geometry::{Outline, Rect};
use hookspan::hardware::Module;
use hookspan::placement::array::{Field, modules};
use hookspan::placement::filling::{LOOKS, Room, Rows, Unfilled, Wanted, fill};
use hookspan::roof::Roof;
use hookspan::service::intake;
use hookspan::units::Length;
use hookspan::wire::layout::LayoutRequest;
use proptest::prelude::*;

use crate::{Tally, runner};

const BARN: &str = include_str!("../data/layout-barn.json");

/// A slope with obstacles, and what it is filled with.
#[derive(Debug, Clone)]
struct Draft {
    /// From the left end of the eaves to the right, then back along the upper edge.
    corners: [[f64; 2]; 4],
    /// A dormer that cuts into the eaves: left side, width and height as shares.
    notch: Option<[f64; 3]>,
    /// Middle, half width and half height of each, as shares, and its strip, mm.
    obstacles: Vec<([f64; 4], f64)>,
    size: [f64; 2],
    gaps: [f64; 2],
    keep: f64,
}

fn drafts() -> impl Strategy<Value = Draft> {
    let length = 6000.0..12_000.0_f64;
    let lean = prop::array::uniform4(-0.5..0.5_f64);
    let corners = (length, 4000.0..7500.0_f64, lean);
    let obstacle = ((0.1..0.9, 0.1..0.9, 0.01..0.07, 0.02..0.1), 0.0..250.0);
    let notch = prop::option::of((0.2..0.6, 0.1..0.2, 0.2..0.5));
    let module = (900.0..1200.0_f64, 1300.0..1900.0_f64, 10.0..60.0_f64, 10.0..60.0_f64);
    let many = prop::collection::vec(obstacle, 0..4);
    (corners, notch, many, module, 0.0..500.0_f64).prop_map(
        |((length, height, lean), notch, obstacles, (width, up, gap, row_gap), keep)| Draft {
            corners: [
                [lean[0].max(0.0) * length, 0.0],
                [length * (1.0 + lean[1].min(0.0)), 0.0],
                [length * (1.0 + lean[2].min(0.0)), height],
                [lean[3].max(0.0) * length, height],
            ]
            .map(|corner| corner.map(f64::round)),
            notch: notch.map(|(left, width, high)| [left, width, high]),
            obstacles: obstacles
                .into_iter()
                .map(|((x, y, w, h), keep)| ([x, y, w, h], keep))
                .collect(),
            size: [width.round(), up.round()],
            gaps: [gap.round(), row_gap.round()],
            keep: keep.round(),
        },
    )
}

impl Draft {
    /// The same with left and right exchanged.
    fn points(&self, mirrored: bool) -> Vec<[f64; 2]> {
        let [a, b, c, d] = self.corners;
        let mut points = vec![a];
        if let Some([left, width, high]) = self.notch {
            let x = |share: f64| (a[0] + (b[0] - a[0]) * share).round();
            let top = (c[1] * high).round();
            let (from, to) = (x(left), x(left + width));
            points.extend([[from, 0.0], [from, top], [to, top], [to, 0.0]]);
        }
        points.extend([b, c, d]);
        turned(points, mirrored)
    }

    fn outlines(&self, mirrored: bool) -> Vec<(Vec<[f64; 2]>, f64)> {
        let [length, height] = [self.corners[1][0], self.corners[2][1]];
        let one = |([x, y, w, h], keep): &([f64; 4], f64)| {
            let [x, y, w, h] = [x * length, y * height, w * length, h * height].map(f64::round);
            // A corner that is cut off makes oblique sides.
            let points =
                vec![[x - w, y - h], [x + w, y - h], [x + w, y], [x, y + h], [x - w, y + h]];
            (turned(points, mirrored), keep.round())
        };
        self.obstacles.iter().map(one).collect()
    }

    fn roof(&self, mirrored: bool) -> Option<Roof> {
        use hookspan::roof::{ArrayPart, Edge, EdgeDistance, Obstacle, ObstacleKind};
        let request: LayoutRequest = serde_json::from_str(BARN).expect("the example");
        let mut roof = intake::take(&request).expect("a job").job.roof;
        let points = self.points(mirrored);
        roof.outline = Outline::new(&points).ok()?;
        roof.edges = vec![Edge::Verge; points.len()];
        let least = Length::from_mm(self.keep);
        let part = ArrayPart::Modules;
        roof.distances.edges = vec![EdgeDistance { edge: Edge::Verge, part, least, source: None }];
        roof.obstacles = Vec::new();
        for (points, keep) in self.outlines(mirrored) {
            let outline = Outline::new(&points).ok()?;
            let (kind, clearance) = (ObstacleKind::Other, Length::from_mm(keep));
            roof.obstacles.push(Obstacle { kind, outline, clearance, cuts: None });
        }
        Some(roof)
    }

    fn field(&self) -> Field {
        let request: LayoutRequest = serde_json::from_str(BARN).expect("the example");
        let job = intake::take(&request).expect("a job").job;
        let [width, length] = self.size.map(Length::from_mm);
        let [column_gap, row_gap] = self.gaps.map(Length::from_mm);
        let like = job.fields[0].clone();
        let module = Module { width, length, ..like.module };
        Field { module, column_gap, row_gap, portrait: true, ..like }
    }
}

/// Points as they are, or mirrored and again counter-clockwise.
fn turned(points: Vec<[f64; 2]>, mirrored: bool) -> Vec<[f64; 2]> {
    if !mirrored {
        return points;
    }
    points.into_iter().rev().map(|[x, y]| [15_000.0 - x, y]).collect()
}

fn filled(draft: &Draft, roof: &Roof, rows: Rows) -> Option<Field> {
    let field = draft.field();
    let room = Room { roof, region: None, taken: &[], rail_ends: 50.0 };
    let wanted = Wanted { field, rows, most: None, places: 5000, looks: LOOKS };
    match fill(room, &wanted, &|_| true) {
        Ok(field) => Some(field),
        Err(why) => {
            assert_eq!(why, Unfilled::NoRoom);
            None
        }
    }
}

/// Whether a module may lie here, by figures that the filling does not use.
fn may_lie(roof: &Roof, keep: f64, rect: &Rect) -> bool {
    let far = |side: usize| rect.distance(roof.side(side)) >= keep - 1e-6;
    roof.outline.covers(rect)
        && (keep <= 0.0 || (0..roof.edges.len()).all(far))
        && !roof.obstacles.iter().any(|obstacle| obstacle.reaches(rect))
}

/// The most modules of a raster, tried at phases along and up the slope: in columns, and row by row.
fn most_of_rasters(draft: &Draft, roof: &Roof) -> [usize; 2] {
    const ALONG: u32 = 9;
    const UP: u32 = 7;
    let bounds = roof.outline.bounds();
    let pitch = [0, 1].map(|axis: usize| draft.size[axis] + draft.gaps[axis]);
    let mut most = [0, 0];
    for up in 0..UP {
        let lowest = (bounds.y[0] + pitch[1] * f64::from(up) / f64::from(UP)).ceil();
        let mut counts: Vec<Vec<usize>> = Vec::new();
        let mut y = lowest;
        while y + draft.size[1] <= bounds.y[1] {
            let of_phase = |along: u32| {
                let mut x = bounds.x[0] + pitch[0] * f64::from(along) / f64::from(ALONG);
                let mut count = 0;
                while x + draft.size[0] <= bounds.x[1] {
                    let rect = Rect { x: [x, x + draft.size[0]], y: [y, y + draft.size[1]] };
                    count += usize::from(may_lie(roof, draft.keep, &rect));
                    x += pitch[0];
                }
                count
            };
            counts.push((0..ALONG).map(of_phase).collect());
            y += pitch[1];
        }
        let in_columns = (0..ALONG as usize).map(|a| counts.iter().map(|row| row[a]).sum());
        let by_row = counts.iter().map(|row| row.iter().max().copied().unwrap_or(0)).sum();
        most = [most[0].max(in_columns.max().unwrap_or(0)), most[1].max(by_row)];
    }
    most
}

#[test]
fn a_filled_field_lies_where_it_may_and_no_raster_holds_more() {
    let (slopes, equal, notched) = (Tally::default(), Tally::default(), Tally::default());
    runner(24)
        .run(&drafts(), |draft| {
            let (Some(roof), Some(image)) = (draft.roof(false), draft.roof(true)) else {
                return Ok(());
            };
            let tried = most_of_rasters(&draft, &roof);
            let mut counts = [0, 0];
            for (i, rows) in [Rows::Aligned, Rows::Shifted].into_iter().enumerate() {
                let field = filled(&draft, &roof, rows);
                let placed: Vec<_> =
                    field.iter().flat_map(|field| modules(std::slice::from_ref(field))).collect();
                for module in &placed {
                    prop_assert!(may_lie(&roof, draft.keep, &module.rect), "{:?}", module);
                }
                counts[i] = placed.len();
                prop_assert!(counts[i] >= tried[i], "{rows:?}: {} of {}", counts[i], tried[i]);
                equal.see(counts[i] == tried[i]);
                let image = filled(&draft, &image, rows);
                let mirrored = image.map_or(0, |f| modules(std::slice::from_ref(&f)).len());
                prop_assert_eq!(counts[i], mirrored, "{:?}", rows);
            }
            prop_assert!(counts[1] >= counts[0], "{counts:?}");
            slopes.see(counts[0] > 4);
            notched.see(draft.notch.is_some() && counts[0] > 0);
            Ok(())
        })
        .expect("no counterexample");
    slopes.at_least(15, "slopes with more than four modules");
    equal.at_least(5, "fields of which a raster that was tried holds as many");
    notched.at_least(5, "slopes with a dormer in them");
}
