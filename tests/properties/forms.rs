//! Wind zones of roofs of every form: they cover each slope once, and look the same in a mirror.

use hookspan::codes::vocabulary::{
    Building, Direction, Evidence, Face, NetCoefficients, PeakPressure, Sense, WindCase, WindField,
};
use hookspan::codes::{Code, Rules};
use hookspan::geometry::{Outline, Point, Rect};
use hookspan::roof::{Edge, Form};
use hookspan::units::{Angle, Area, Length, Pressure};
use proptest::prelude::*;

use crate::{Tally, runner};

/// A slope of some form; lengths in m, in plan.
#[derive(Debug, Clone)]
struct Slope {
    form: Form,
    /// Along the eaves, from eaves to upper edge, height of the building.
    size: [f64; 3],
    pitch_deg: f64,
    /// From the ends of the eaves to where the upper edge begins and ends, as shares of the length.
    inset: [f64; 2],
    /// A notch in the right half of the eaves, as a dormer leaves it: width and depth as shares.
    notch: Option<[f64; 2]>,
}

/// A slope of any form: hipped ones with hips at both ends that meet in a point or at a ridge, or with a gable
/// at one end.
fn slopes() -> impl Strategy<Value = Slope> {
    let size = (3.0..40.0_f64, 2.0..12.0_f64, 3.0..25.0_f64).prop_map(|(l, r, h)| [l, r, h]);
    let inset = prop_oneof![
        Just([0.0, 0.0]),
        (0.1..0.45_f64, 0.1..0.45_f64).prop_map(|(left, right)| [left, right]),
        (0.2..0.8_f64).prop_map(|left| [left, 1.0 - left]),
        (0.1..0.6_f64).prop_map(|left| [left, 0.0]),
    ];
    let notch = proptest::option::of((0.1..0.4_f64, 0.1..0.9_f64).prop_map(|(w, d)| [w, d]));
    (0..3_usize, size, 10.0..45.0_f64, inset, notch).prop_map(
        |(form, size, pitch_deg, inset, notch)| {
            let form = [Form::Duopitch, Form::Monopitch, Form::Hipped][form];
            let inset = if form == Form::Hipped { inset } else { [0.0, 0.0] };
            Slope { form, size, pitch_deg, inset, notch }
        },
    )
}

impl Slope {
    /// Corners on the slope, mm, and what the sides are.
    fn drawn(&self) -> (Vec<[f64; 2]>, Vec<Edge>) {
        let [length, run, _] = self.size.map(|m| m * 1000.0);
        let up = run / self.pitch_deg.to_radians().cos();
        let [left, right] = self.inset.map(|share| share * length);
        let end = |inset: f64| if inset > 0.0 { Edge::Hip } else { Edge::Verge };
        let mut corners = vec![[0.0, 0.0]];
        let mut edges = vec![Edge::Eaves];
        if let Some([width, depth]) = self.notch {
            let (from, to) = (0.5 * length, (0.5 + 0.5 * width) * length);
            // Below the hips.
            let top =
                depth * up * if self.inset.iter().any(|share| *share > 0.0) { 0.3 } else { 1.0 };
            corners.extend([[from, 0.0], [from, top], [to, top], [to, 0.0]]);
            edges.extend([Edge::Verge, Edge::Eaves, Edge::Verge, Edge::Eaves]);
        }
        corners.push([length, 0.0]);
        edges.push(end(right));
        if length - left - right > 1.0 {
            corners.extend([[length - right, up], [left, up]]);
            edges.extend([Edge::Ridge, end(left)]);
        } else {
            corners.push([left, up]);
            edges.push(end(left));
        }
        (corners, edges)
    }

    /// The slope as a mirror shows it.
    fn mirrored(
        &self,
        (corners, edges): &(Vec<[f64; 2]>, Vec<Edge>),
    ) -> (Vec<[f64; 2]>, Vec<Edge>) {
        let length = self.size[0] * 1000.0;
        let corners = corners.iter().rev().map(|[x, y]| [length - x, *y]).collect();
        let mut edges: Vec<Edge> = edges.iter().rev().copied().collect();
        // Side i runs to the next corner: turned round, the list of sides begins one later.
        edges.rotate_left(1);
        (corners, edges)
    }

    fn wind(&self, (corners, edges): &(Vec<[f64; 2]>, Vec<Edge>)) -> Option<WindField> {
        let [length, run, height] = self.size.map(Length::from_m);
        let outline = Outline::new(corners).expect("a simple outline");
        let width = if self.form == Form::Monopitch { run } else { run * 2.0 };
        let pitch = Angle::from_deg(self.pitch_deg);
        let building = Building { form: self.form, length, width, height, pitch };
        let peak = PeakPressure {
            pressure: Pressure::from_kn_per_m2(1.0),
            basic: None,
            described: String::new(),
            evidence: Evidence::Given,
            steps: Vec::new(),
        };
        let rules = Rules::all().next().expect("a rule set");
        let face = Face { outline: &outline, edges };
        let area = Area::from_m2(1.0);
        rules.wind(peak, &building, &face, area, NetCoefficients::RoofSurface).ok()
    }
}

/// Rectangles over the slope and beyond its sides.
fn rects() -> impl Strategy<Value = [f64; 4]> {
    [-0.1..1.0_f64, -0.1..1.0_f64, 0.01..0.6_f64, 0.01..0.6_f64]
}

fn rect_on(slope: &Slope, [x, y, wide, high]: [f64; 4]) -> Rect {
    let [length, run, _] = slope.size.map(|m| m * 1000.0);
    let up = run / slope.pitch_deg.to_radians().cos();
    Rect { x: [x * length, (x + wide) * length], y: [y * up, (y + high) * up] }
}

#[test]
fn zones_of_every_form_cover_their_slope_once() {
    let (covered, hipped, notched) = (Tally::default(), Tally::default(), Tally::default());
    runner(3000)
        .run(&(slopes(), rects()), |(slope, rect)| {
            let drawn = slope.drawn();
            let Some(wind) = slope.wind(&drawn) else { return Ok(()) };
            let rect = rect_on(&slope, rect);
            let region = Outline::new(&drawn.0).expect("a simple outline").region();
            let share = region.within(&rect).map_or(0.0, |part| part.area);
            for direction in Direction::ALL {
                let patches = wind.patches(&rect).filter(|p| p.zone.direction == direction);
                let sum: f64 = patches.map(|patch| patch.part.area).sum();
                prop_assert!(
                    (sum - share).abs() < 1e-6 * rect.area(),
                    "{direction:?}: {sum} of {share} mm²"
                );
            }
            covered.see(share > 0.0);
            hipped.see(share > 0.0 && slope.inset[0] > 0.0);
            notched.see(share > 0.0 && slope.notch.is_some());
            Ok(())
        })
        .unwrap();
    covered.at_least(2000, "rectangles that share area with their slope");
    hipped.at_least(400, "of them on slopes with a hip");
    notched.at_least(900, "of them on slopes with a notch");
}

#[test]
fn zones_of_every_form_look_the_same_in_a_mirror() {
    let looked = Tally::default();
    runner(2000)
        .run(&(slopes(), rects()), |(slope, rect)| {
            let drawn = slope.drawn();
            let image = slope.mirrored(&drawn);
            let Some((wind, seen)) = slope.wind(&drawn).zip(slope.wind(&image)) else {
                return Ok(());
            };
            let rect = rect_on(&slope, rect);
            let length = slope.size[0] * 1000.0;
            let in_mirror = Rect { x: [length - rect.x[1], length - rect.x[0]], ..rect };
            let [here, there] = [wind.on_whole(&rect), seen.on_whole(&in_mirror)];
            for direction in Direction::ALL {
                let other = match direction {
                    Direction::Left => Direction::Right,
                    Direction::Right => Direction::Left,
                    straight => straight,
                };
                for sense in Sense::ALL {
                    let here = here.of(WindCase { direction, sense }).kn();
                    let there = there.of(WindCase { direction: other, sense }).kn();
                    let close = (here - there).abs() < 1e-6 * (1.0 + here.abs());
                    prop_assert!(close, "{direction:?} {sense:?}: {here} kN, {there} kN");
                    looked.see(here != 0.0);
                }
            }
            Ok(())
        })
        .unwrap();
    looked.at_least(5000, "forces of the wind, compared with those in the mirror");
}

/// Of a square roof any side may be called the front: its main slopes, which meet at a ridge of 2 mm, and its
/// hip ends, which end in a point, meet the same wind.
#[test]
fn a_square_hipped_roof_can_be_turned() {
    let looked = Tally::default();
    runner(300)
        .run(&(3.0..20.0_f64, 3.0..15.0_f64, 10.0..45.0_f64), |(side, height, pitch_deg)| {
            let of = |length: f64, share: f64| {
                let size = [length, side / 2.0, height];
                let inset = [share, share];
                Slope { form: Form::Hipped, size, pitch_deg, inset, notch: None }
            };
            let ridge = 0.002;
            let main = of(side + ridge, side / 2.0 / (side + ridge));
            let end = of(side, 0.5);
            let forces = |slope: &Slope| {
                let wind = slope.wind(&slope.drawn()).expect("within the table");
                wind.on_whole(&rect_on(slope, [0.0, 0.0, 1.0, 1.0]))
            };
            let [main, end] = [forces(&main), forces(&end)];
            for direction in Direction::ALL {
                for sense in Sense::ALL {
                    let case = WindCase { direction, sense };
                    let [main, end] = [main.of(case).kn(), end.of(case).kn()];
                    let close = (main - end).abs() <= 0.005 * end.abs();
                    prop_assert!(close, "{direction:?} {sense:?}: {main} kN, {end} kN");
                    looked.see(end != 0.0);
                }
            }
            Ok(())
        })
        .unwrap();
    looked.at_least(1000, "forces of the wind on a main slope and a hip end");
}

/// The point by which a zone is found.
#[test]
fn each_wind_finds_the_zones_of_its_form() {
    let names = |slope: &Slope, direction: Direction, [x, y]: [f64; 2]| {
        let wind = slope.wind(&slope.drawn()).expect("within the tables");
        let at = Point { x: x * 1000.0, y: y * 1000.0 };
        let rect = Rect { x: [at.x - 1.0, at.x + 1.0], y: [at.y - 1.0, at.y + 1.0] };
        let patch = wind.patches(&rect).find(|patch| patch.zone.direction == direction);
        patch.map_or("none", |patch| patch.zone.name)
    };
    let slope =
        |form, inset| Slope { form, size: [20.0, 5.0, 5.0], pitch_deg: 30.0, inset, notch: None };
    let lean_to = slope(Form::Monopitch, [0.0, 0.0]);
    let hipped = slope(Form::Hipped, [0.25, 0.25]);
    let half = slope(Form::Hipped, [0.25, 0.0]);
    for (roof, direction, at, zone) in [
        (&lean_to, Direction::Front, [0.5, 0.5], "F"),
        (&lean_to, Direction::Back, [0.5, 5.5], "F"),
        (&lean_to, Direction::Left, [0.2, 5.5], "Fup"),
        (&lean_to, Direction::Right, [19.8, 0.2], "Flow"),
        (&hipped, Direction::Front, [1.5, 0.5], "F"),
        (&hipped, Direction::Back, [10.0, 5.5], "K"),
        (&hipped, Direction::Back, [1.0, 0.5], "J"),
        (&hipped, Direction::Left, [1.0, 0.5], "L"),
        (&hipped, Direction::Right, [1.0, 0.5], "M"),
        // The gable at the right end has the zones of a gable, the hip at the left those of a hip.
        (&half, Direction::Right, [19.8, 0.5], "F"),
        (&half, Direction::Left, [1.0, 0.5], "L"),
    ] {
        assert_eq!(names(roof, direction, at), zone, "{:?} {direction:?} {at:?}", roof.form);
    }
}
