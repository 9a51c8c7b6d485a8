//! Beams on supports, loads that move over a rafter, a plate on screws, a module on four points.
//!
//! Every beam case becomes one strip whose supports are all taken, and answers with everything a
//! beam has: reactions, moments over its supports and in its spans, deflections. Sagging is
//! positive; `support_moment_1` is over the second support from the left.
//!
//! **How a source's beam is put to ours.** Line loads on some spans only are cut into short pieces
//! (the strip's line load covers all of it); a fixed end is the axis of symmetry of the beam and
//! its mirror image; a pinned end among springs is a sprung one that end forces push back to zero.
//!
//! **Left out**, because nothing in the crate computes it: the thermal elongation of a rail (the longest
//! continuous rail is declared by the caller).

use hookspan::checks::rafter;
use hookspan::geometry::Rect;
use hookspan::mechanics::beam::{Case, Member, Strip, StripParts, Superposition};
use hookspan::mechanics::bent_bar::BentBar;
use hookspan::mechanics::sweep::{self, Part, Profile};
use hookspan::mechanics::{lever, plate};
use hookspan::units::{Force, Length, LineLoad, Moment};
use serde_json::Value;

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "continuous_beam_udl" => equal_spans_under_line_load(inputs).answer(),
        "continuous_beam_point_loads" | "continuous_beam_springs" => {
            equal_spans_under_forces(inputs).answer()
        }
        "continuous_beam_three_moment" => line_load_beside_force(inputs).answer(),
        "overhang_beam_udl" => overhang(inputs).answer(),
        "hinged_beam" => hinged(inputs).answer(),
        "propped_cantilever" => propped_cantilever(inputs),
        "beam_on_springs" => pins_among_springs(inputs),
        "moving_loads" => moving_loads(inputs),
        "bent_bar" => bent_bar(inputs),
        "plate_pulls" => plate_pulls(inputs),
        "module_four_points" => module_four_points(inputs),
        "slope_force_couple" => {
            let apart = Length::from_mm(inputs.number("rails_apart_mm"));
            let height = Length::from_mm(inputs.number("height_above_bolt_mm"));
            let slope = inputs.number("slope_n");
            values([
                ("lower_rail_n", slope * lever::couple(height, Length::ZERO, apart)),
                ("upper_rail_n", slope * lever::couple(height, apart, Length::ZERO)),
            ])
        }
        _ => return None,
    })
}

/// A beam as a source describes it.
#[derive(Default)]
struct Beam {
    supports: Vec<f64>,
    end: f64,
    rigidity: f64,
    stiffness: Option<f64>,
    hinges: Vec<f64>,
    forces: Vec<[f64; 2]>,
    line_load: f64,
}

/// A beam with its support forces, and what they leave along it.
struct Solved {
    rigidity: f64,
    /// Force on every support, and its deflection.
    forces: Vec<f64>,
    deflections: Vec<f64>,
    profile: Profile,
}

impl Beam {
    /// On rigid supports, ending at the last.
    fn on(supports: Vec<f64>) -> Self {
        let end = supports.last().copied().unwrap_or_default();
        Self { supports, end, rigidity: 1.0, ..Self::default() }
    }

    fn solve(mut self) -> Solved {
        self.forces.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let strip = Strip::new(StripParts {
            member: Member::Beam,
            start: self.supports[0],
            end: self.end,
            rigidity: self.rigidity,
            stiffness: self.stiffness,
            candidates: self.supports,
            hinges: self.hinges,
            load_points: self.forces.iter().map(|[x, _]| *x).collect(),
            cases: vec![Case {
                points: self.forces.iter().map(|[_, p]| *p).collect(),
                uniform: self.line_load,
            }],
        });
        let all: Vec<usize> = (0..strip.candidates().len()).collect();
        let load = Superposition::alone(0);
        let reactions = strip.reactions(&all).expect("a stable beam");
        let forces = reactions.of_case(0).to_vec();
        let profile = Profile::of(&strip, &load, &all, &reactions);
        let deflections = forces.iter().map(|force| strip.settlement(*force)).collect();
        Solved { rigidity: self.rigidity, forces, deflections, profile }
    }

    fn answer(self) -> Values {
        self.solve().answer()
    }
}

impl Solved {
    fn answer(&self) -> Values {
        let mut named = Values::new();
        for (i, force) in self.forces.iter().enumerate() {
            named.insert(format!("reaction_{}", i + 1), *force);
            named.insert(format!("support_moment_{i}"), self.moment_over(i));
        }
        for (i, deflection) in self.deflections.iter().enumerate() {
            // The sources count upwards.
            named.insert(format!("support_deflection_{}", i + 1), -deflection);
        }
        for span in 1..self.forces.len() {
            named.insert(format!("span_moment_{span}"), self.largest_in_span(span));
        }
        let (mut largest, mut tip) = (0.0_f64, 0.0_f64);
        sweep::deflections(&self.profile, self.rigidity, |d| match d.part {
            Part::Span => largest = largest.max(d.deflection),
            Part::FreeEnd => tip = tip.max(d.deflection),
        });
        named.insert("largest_deflection".to_owned(), largest);
        named.insert("tip_deflection".to_owned(), tip);
        named
    }

    fn moment_over(&self, support: usize) -> f64 {
        self.profile.moment[self.profile.supports[support]]
    }

    /// Largest sagging moment between support `span` and the one before it.
    fn largest_in_span(&self, span: usize) -> f64 {
        let Profile { x, moment, shear, uniform, supports, .. } = &self.profile;
        let stations = supports[span - 1]..supports[span];
        let peak = |i: usize| {
            // Where a line load takes the shear away before the next station.
            let reach = (shear[i] / uniform).clamp(0.0, x[i + 1] - x[i]);
            let reach = if uniform.abs() > 0.0 { reach } else { 0.0 };
            moment[i] + shear[i] * reach - uniform * reach * reach / 2.0
        };
        stations.map(peak).fold(f64::NEG_INFINITY, f64::max)
    }
}

/// A line load on a part of a beam as forces in the middle of short pieces.
fn pieces(from: f64, to: f64, line_load: f64) -> impl Iterator<Item = [f64; 2]> {
    const PIECES: u32 = 4000;
    let step = (to - from) / f64::from(PIECES);
    (0..PIECES).map(move |i| [from + step * (f64::from(i) + 0.5), line_load * step])
}

fn numbers(value: &Value) -> Vec<f64> {
    let list = value.as_array().expect("a list of numbers");
    list.iter().map(|v| v.as_f64().expect("a number")).collect()
}

fn pairs(value: &Value) -> Vec<[f64; 2]> {
    let list = value.as_array().expect("a list of pairs");
    list.iter().map(|pair| numbers(pair).try_into().expect("a pair")).collect()
}

fn list(inputs: &Inputs, name: &str) -> Vec<f64> {
    inputs.get(name).map(numbers).unwrap_or_default()
}

/// Supports of equal spans.
fn spaced(spans: f64, length: f64) -> Vec<f64> {
    let mut supports = vec![0.0];
    while (supports.len() as f64) < spans + 1.0 {
        supports.push(supports.len() as f64 * length);
    }
    supports
}

fn equal_spans_under_line_load(inputs: &Inputs) -> Beam {
    let length = inputs.number("span_length");
    let load = inputs.number("line_load");
    let beam = Beam {
        rigidity: inputs.number("rigidity"),
        ..Beam::on(spaced(inputs.number("spans"), length))
    };
    match inputs.get("loaded_spans").map(numbers) {
        None => Beam { line_load: load, ..beam },
        Some(loaded) => Beam {
            forces: loaded
                .iter()
                .flat_map(|span| pieces((span - 1.0) * length, span * length, load))
                .collect(),
            ..beam
        },
    }
}

fn equal_spans_under_forces(inputs: &Inputs) -> Beam {
    let length = inputs.number("span_length_mm");
    let supports = spaced(inputs.number("spans"), length);
    let force = inputs.number("force_n");
    let places = list(inputs, "positions_in_span");
    let in_span = |x: &f64| places.iter().map(|p| [x + p * length, force]).collect::<Vec<_>>();
    Beam {
        rigidity: inputs.number("rigidity_nmm2"),
        stiffness: inputs.get("stiffness_n_per_mm").and_then(Value::as_f64),
        forces: supports.iter().take(supports.len() - 1).flat_map(in_span).collect(),
        ..Beam::on(supports)
    }
}

fn line_load_beside_force(inputs: &Inputs) -> Beam {
    let spans = list(inputs, "span_lengths_m");
    let middle = spans[0] + spans[1] / 2.0;
    let mut forces: Vec<_> =
        pieces(0.0, spans[0], inputs.number("line_load_span_1_kn_per_m")).collect();
    forces.push([middle, inputs.number("mid_force_span_2_kn")]);
    Beam { forces, ..Beam::on(vec![0.0, spans[0], spans[0] + spans[1]]) }
}

fn overhang(inputs: &Inputs) -> Beam {
    let span = inputs.number("span");
    Beam {
        end: span + inputs.number("overhang"),
        line_load: inputs.number("line_load"),
        ..Beam::on(vec![0.0, span])
    }
}

fn hinged(inputs: &Inputs) -> Beam {
    Beam {
        rigidity: inputs.number_or("rigidity", 1.0),
        stiffness: inputs.get("stiffness").and_then(Value::as_f64),
        hinges: list(inputs, "hinges"),
        forces: inputs.get("forces").map(pairs).unwrap_or_default(),
        line_load: inputs.number_or("line_load", 0.0),
        ..Beam::on(list(inputs, "supports"))
    }
}

/// The fixed end is the middle support of the beam and its mirror image, half of it each.
fn propped_cantilever(inputs: &Inputs) -> Values {
    let (length, at) = (inputs.number("length_m"), inputs.number("at_m"));
    let force = inputs.number("force_n");
    let solved = Beam {
        forces: vec![[length - at, force], [length + at, force]],
        ..Beam::on(vec![0.0, length, 2.0 * length])
    }
    .solve();
    values([
        ("reaction_1", solved.forces[1] / 2.0),
        ("reaction_2", solved.forces[2]),
        ("fixed_moment_nm", solved.moment_over(1)),
        ("moment_under_force_nm", solved.largest_in_span(2)),
    ])
}

/// Every node on a spring, the ends too; then end forces that leave no deflection there, so that
/// the end springs are idle and the end forces are those of the pins.
fn pins_among_springs(inputs: &Inputs) -> Values {
    let spacing = inputs.number("spacing_in");
    let nodes = spaced(inputs.number("nodes") - 1.0, spacing);
    let sprung = list(inputs, "spring_nodes");
    assert_eq!(sprung, [2.0, nodes.len() as f64 - 1.0], "springs at every node but the ends");
    let middle = (inputs.number("force_node") - 1.0) * spacing;
    let far = (nodes.len() - 1) as f64 * spacing;
    let under = |forces| {
        Beam {
            rigidity: inputs.number("modulus_ksi") * inputs.number("second_moment_in4"),
            stiffness: Some(inputs.number("stiffness_kip_per_in")),
            forces,
            ..Beam::on(nodes.clone())
        }
        .solve()
    };
    let loaded = under(vec![[middle, inputs.number("force_kip")]]);
    let pushed = under(vec![[0.0, 1.0], [far, 1.0]]);
    let centre = nodes.len() / 2;
    let push = -loaded.deflections[0] / pushed.deflections[0];
    let both = |of: fn(&Solved, usize) -> f64| of(&loaded, centre) + push * of(&pushed, centre);
    values([
        ("mid_moment_kip_in", both(Solved::moment_over)),
        ("mid_deflection_in", -both(|beam, node| beam.deflections[node])),
    ])
}

fn moving_loads(inputs: &Inputs) -> Values {
    let loads = inputs.get("loads_m_kn").map(pairs).unwrap_or_default();
    let train: Vec<_> =
        loads.iter().map(|[y, p]| (Length::from_m(*y), Force::from_kn(*p))).collect();
    let line_load = LineLoad::from_kn_per_m(inputs.number_or("line_load_kn_per_m", 0.0));
    let effects = rafter::effects(Length::from_m(inputs.number("span_m")), line_load, &train);
    values([("moment_knm", effects.moment.knm()), ("shear_kn", effects.shear.kn())])
}

/// The end of a bar bent twice.
fn bent_bar(inputs: &Inputs) -> Values {
    let mm = |name| Length::from_mm(inputs.number(name));
    let bar =
        BentBar { rise: mm("rise_mm"), run: mm("run_mm"), upstand: mm("upstand_mm") }.flexibility();
    let [b, t] = ["width_mm", "thickness_mm"].map(|name| inputs.number(name));
    let rigidity = inputs.number("e_n_per_mm2") * b * t.powi(3) / 12.0;
    let per_kn = |flexibility: f64| flexibility * 1e3 / rigidity;
    values([
        ("normal_mm_per_kn", per_kn(bar.normal)),
        ("slope_mm_per_kn", per_kn(bar.slope)),
        ("cross_mm_per_kn", per_kn(bar.cross)),
    ])
}

fn plate_pulls(inputs: &Inputs) -> Values {
    let distances: Vec<Length> =
        list(inputs, "distances_mm").into_iter().map(Length::from_mm).collect();
    let mut named = Values::new();
    let moment = Moment::from_nmm(inputs.number("moment_nmm"));
    for (i, pull) in plate::pulls(moment, distances.into_iter()).enumerate() {
        named.insert(format!("pull_{}_n", i + 1), pull.n());
    }
    named
}

/// A module cut by zones of even pressure, each given as left, bottom, right, top and pressure.
fn module_four_points(inputs: &Inputs) -> Values {
    let numbers = |value: &Value| -> Vec<f64> {
        value.as_array().into_iter().flatten().filter_map(Value::as_f64).collect()
    };
    let rect = |of: &[f64]| Rect { x: [of[0], of[2]], y: [of[1], of[3]] };
    let given = |name: &str| inputs.get(name).unwrap_or_else(|| panic!("the case needs {name}"));
    let pair = |name: &str| {
        let ends = numbers(given(name));
        [ends[0], ends[1]].map(Length::from_mm)
    };
    let module = rect(&numbers(given("module_mm")));
    let ([left, right], [lower, upper]) = (pair("frames_x_mm"), pair("rails_y_mm"));
    let zones = given("zones_mm_n_per_mm2").as_array().expect("a list of zones");
    let patches: Vec<([Length; 2], f64)> = zones
        .iter()
        .map(|zone| {
            let zone = numbers(zone);
            let patch = rect(&zone).cut(&module);
            let centre = patch.centre();
            ([centre.x, centre.y].map(Length::from_mm), zone[4] * patch.area())
        })
        .collect();
    let point = |rails: [Length; 2], frames: [Length; 2]| -> f64 {
        let on = patches.iter().map(|([x, y], force)| {
            force * lever::share(*y, rails[0], rails[1]) * lever::share(*x, frames[0], frames[1])
        });
        on.sum()
    };
    values([
        ("lower_left_n", point([lower, upper], [left, right])),
        ("lower_right_n", point([lower, upper], [right, left])),
        ("upper_left_n", point([upper, lower], [left, right])),
        ("upper_right_n", point([upper, lower], [right, left])),
    ])
}
