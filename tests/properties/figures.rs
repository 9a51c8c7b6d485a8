//! Plane figures against another way to the same area; wind zones against the face they lie on.

use geo::{Area, BooleanOps, Coord, LineString, Polygon};
use hookspan::codes::eurocode::en1991_1_4_2005::duopitch::duopitch_zones;
use hookspan::codes::eurocode::en1991_1_4_2005::plan::FacePlan;
use hookspan::codes::vocabulary::Direction;
use hookspan::geometry::{Outline, Rect};
use hookspan::units::Length;
use proptest::prelude::*;

use crate::{Tally, runner};

fn rects() -> impl Strategy<Value = Rect> {
    let place = || 0.0..100.0;
    let size = || 1.0..80.0;
    (place(), place(), size(), size())
        .prop_map(|(x, y, w, h)| Rect { x: [x, x + w], y: [y, y + h] })
}

/// Star-shaped about its middle, so never crossing itself; counter-clockwise.
fn outlines() -> impl Strategy<Value = Vec<[f64; 2]>> {
    prop::collection::vec(10.0..60.0, 3..12).prop_map(|radii: Vec<f64>| {
        let turn = std::f64::consts::TAU / radii.len() as f64;
        let point = |(i, radius): (usize, &f64)| {
            let (sin, cos) = (turn * i as f64).sin_cos();
            [70.0 + radius * cos, 70.0 + radius * sin]
        };
        radii.iter().enumerate().map(point).collect()
    })
}

fn polygon(points: &[[f64; 2]]) -> Polygon {
    let ring = points.iter().map(|[x, y]| Coord { x: *x, y: *y }).collect();
    Polygon::new(LineString::new(ring), Vec::new())
}

#[test]
fn overlaps_of_rectangles_are_areas_of_intersections() {
    let [apart, together] = std::array::from_fn(|_| Tally::default());
    runner(300)
        .run(&(rects(), rects()), |(a, b)| {
            let common = polygon(&a.corners()).intersection(&polygon(&b.corners()));
            let area = common.unsigned_area();
            prop_assert!((a.overlap(&b) - area).abs() < 1e-6 * a.area().max(b.area()));
            apart.see(area <= 0.0);
            together.see(area > 0.0);
            Ok(())
        })
        .unwrap();
    apart.at_least(50, "rectangles apart");
    together.at_least(50, "rectangles that overlap");
}

#[test]
fn an_outline_covers_what_it_has_in_common_with_a_rectangle() {
    let [covered, crossed, beside] = std::array::from_fn(|_| Tally::default());
    runner(400)
        .run(&(outlines(), rects()), |(points, mut rect)| {
            // Small ones too, so that some lie inside.
            rect.x[1] = rect.x[0] + (rect.x[1] - rect.x[0]) / 4.0;
            rect.y[1] = rect.y[0] + (rect.y[1] - rect.y[0]) / 4.0;
            let outline = Outline::new(&points).expect("a star is an outline");
            let area = polygon(&points).intersection(&polygon(&rect.corners())).unsigned_area();
            let whole = rect.area();
            // On the very edge the two ways may differ by rounding.
            prop_assume!(area < 1e-9 * whole || area > 1e-6 * whole);
            prop_assume!(area > (1.0 - 1e-9) * whole || area < (1.0 - 1e-6) * whole);
            let inside = area > (1.0 - 1e-9) * whole;
            prop_assert_eq!(outline.covers(&rect), inside);
            prop_assert_eq!(outline.overlaps(&rect), area > 1e-9 * whole);
            prop_assert_eq!(outline.distance(&rect) > 0.0, area <= 1e-9 * whole);
            prop_assert!(outline.bounds().overlap(&rect) >= area * (1.0 - 1e-6));
            covered.see(inside);
            crossed.see(!inside && area > 0.0);
            beside.see(area <= 0.0);
            Ok(())
        })
        .unwrap();
    covered.at_least(20, "rectangles inside an outline");
    crossed.at_least(20, "rectangles across an outline");
    beside.at_least(20, "rectangles beside an outline");
}

#[test]
fn wind_zones_tile_the_face() {
    let zones = Tally::default();
    let buildings = (2.0..100.0, 2.0..60.0, 0.3..1.5, 0.2..1.0, 2.0..60.0);
    runner(300)
        .run(&buildings, |(length, width, run_share, face_share, height)| {
            let building = FacePlan {
                length: Length::from_m(length),
                width: Length::from_m(width),
                face_run: Length::from_m(width * run_share / 2.0),
                face_length: Length::from_m(length * face_share),
                height: Length::from_m(height),
            };
            let face = (building.face_length * building.face_run).m2();
            for direction in Direction::ALL {
                let rects: Vec<Rect> = duopitch_zones(&building, direction)
                    .iter()
                    .map(|z| Rect { x: z.x.map(Length::m), y: z.run.map(Length::m) })
                    .collect();
                let area: f64 = rects.iter().map(Rect::area).sum();
                prop_assert!((area - face).abs() <= 1e-9 * face, "{area} m² of {face} m²");
                for (i, a) in rects.iter().enumerate() {
                    prop_assert!(rects[i + 1..].iter().all(|b| a.overlap(b) <= 1e-9 * face));
                    zones.see(true);
                }
            }
            Ok(())
        })
        .unwrap();
    zones.at_least(2000, "wind zones");
}
