//! Snow that does not lie evenly: EN 1991-1-3, and what it does to a module on two rails.

use hookspan::codes::eurocode::en1991_1_3_2003::drifts;
use hookspan::codes::eurocode::en1991_1_3_2003::{self as snow};
use hookspan::codes::eurocode::{Eurocode, annex};
use hookspan::codes::vocabulary::{
    Arrangement, Gatherer, GroundLevel, Snow, SnowConditions, SnowSite, Stated, Towards, Wall,
};
use hookspan::codes::{Code, Rules};
use hookspan::geometry::{Point, Ramp, Rect};
use hookspan::mechanics::lever;
use hookspan::units::{Angle, Length, Pressure};

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "snow_drift_at_wall" => drift_at_wall(inputs),
        "snow_at_wall" => on_module_at_wall(inputs),
        "snow_in_valley" => on_module_in_valley(inputs),
        "snow_valley_factor" => {
            let mean = Angle::from_deg(inputs.number("mean_pitch_deg"));
            values([("mu_2", drifts::valley_factor(mean).expect("covered"))])
        }
        "snow_at_obstacle" => {
            let h = Length::from_m(inputs.number("h_m"));
            let mu_2 = drifts::obstacle_factor(h, ground(inputs));
            values([("mu_2", mu_2), ("l_s_m", drifts::drift_length(h).m())])
        }
        "snow_guard_of_slope" => {
            let pitch = Angle::from_deg(inputs.number("pitch_deg"));
            let run = Length::from_mm(inputs.number("slope_mm")) * pitch.cos();
            let guard = lying(inputs, pitch, run).guard;
            values([("guard_force_kn_per_m", guard.kn_per_m())])
        }
        "module_trapezoid" => trapezoid(inputs),
        _ => return None,
    })
}

fn ground(inputs: &Inputs) -> Pressure {
    Pressure::from_kn_per_m2(inputs.number("s_k_kn_per_m2"))
}

fn drift_at_wall(inputs: &Inputs) -> Values {
    let m = |name| Length::from_m(inputs.number(name));
    let (s_k, h) = (ground(inputs), m("h_m"));
    let l_s = drifts::drift_length(h);
    let mu_w = drifts::wind_drift_factor(m("b_1_m"), m("b_2_m"), h, s_k);
    let upper_pitch = Angle::from_deg(inputs.number("upper_pitch_deg"));
    let mu_s = drifts::slide_factor(upper_pitch, m("upper_run_m"), l_s);
    let load = |mu| snow::roof_load(mu, 1.0, 1.0, s_k).kn_per_m2();
    values([
        ("mu_w", mu_w),
        ("mu_s", mu_s),
        ("l_s_m", l_s.m()),
        ("s_at_wall_kn_per_m2", load(mu_w + mu_s)),
        ("s_away_kn_per_m2", load(drifts::LOWER_ROOF)),
    ])
}

fn rules() -> Rules {
    Rules::Eurocode(Eurocode::new(annex::find("EN").expect("the recommended values")))
}

/// Snow on a slope by the recommended values, without reductions, free to slide.
fn lying(inputs: &Inputs, pitch: Angle, run: Length) -> Snow {
    let site = SnowSite { load: Some(ground(inputs)), ..SnowSite::default() };
    let one = Stated { value: 1.0, by_caller: true };
    let conditions = SnowConditions {
        exceptional: false,
        exposure: one,
        thermal: one,
        held: false,
        over_ridge: true,
    };
    rules().snow(rules().ground_snow(&site).expect("it is given"), conditions, pitch, run)
}

fn numbers<const N: usize>(inputs: &Inputs, name: &str) -> [f64; N] {
    let list = inputs.get(name).and_then(serde_json::Value::as_array);
    let list: Vec<f64> = list.into_iter().flatten().filter_map(serde_json::Value::as_f64).collect();
    list.try_into().expect("as many numbers as are asked for")
}

/// A line across the slope; the slope above it to its left where it runs to the right.
fn across(y: f64, [from, to]: [f64; 2]) -> [Point; 2] {
    [Point { x: from, y }, Point { x: to, y }]
}

/// What one gatherer does to the module of a case.
fn on_module(inputs: &Inputs, pitch: Angle, gatherer: Gatherer) -> (Values, Arrangement) {
    let snow = lying(inputs, pitch, Length::from_m(6.0));
    let arranged = rules().snow_arrangements(&snow, (pitch, Length::ZERO), &[gatherer]);
    let [arrangement] = &arranged.arrangements[..] else { panic!("{arranged:?}") };
    let [left, bottom, right, top] = numbers(inputs, "module_mm");
    let rails = numbers::<2>(inputs, "rails_y_mm").map(Length::from_mm);
    let module = Rect { x: [left, right], y: [bottom, top] };
    let patches: Vec<_> =
        arrangement.on_module(snow.at(GroundLevel::Characteristic), &module).collect();
    let weight: f64 = patches.iter().map(|patch| patch.weight.n()).sum();
    let on_rail = |own: usize| -> f64 {
        let share = |y: f64| lever::share(Length::from_mm(y), rails[own], rails[1 - own]);
        patches.iter().map(|patch| patch.weight.n() * pitch.cos() * share(patch.at.y)).sum()
    };
    let at = |y: f64| arrangement.greatest_on(&Rect { x: module.x, y: [y, y] });
    let named = values([
        ("mu_1", snow.shape),
        ("mu_2", arrangement.drifts[0].factor),
        ("mu_lower_edge", at(bottom)),
        ("mu_upper_edge", at(top)),
        ("normal_n", weight * pitch.cos()),
        ("slope_n", weight * pitch.sin()),
        ("lower_rail_n", on_rail(0)),
        ("upper_rail_n", on_rail(1)),
    ]);
    (named, arrangement.clone())
}

fn on_module_at_wall(inputs: &Inputs) -> Values {
    let m = |name| Length::from_m(inputs.number(name));
    let deg = |name| Angle::from_deg(inputs.number(name));
    let wall = Wall {
        side: 2,
        line: across(inputs.number("wall_y_mm"), [20_000.0, -20_000.0]),
        towards: Towards::Above,
        heights: [m("h_m"); 2],
        widths: [m("b_1_m"), m("b_2_m")],
        upper_slope: (deg("upper_pitch_deg"), m("upper_run_m")),
    };
    let (mut named, arrangement) = on_module(inputs, deg("pitch_deg"), Gatherer::Wall(wall));
    let drift = &arrangement.drifts[0];
    let step = |symbol: &str| {
        let step = drift.steps.iter().find(|step| step.symbol == symbol);
        step.expect("it is in the trace").value
    };
    named.extend(values([
        ("mu_w", step("mu_w")),
        ("mu_s", step("mu_s")),
        ("l_s_m", drift.reach.m()),
    ]));
    named
}

fn on_module_in_valley(inputs: &Inputs) -> Values {
    let valley = Gatherer::Valley {
        side: 0,
        line: across(0.0, [-20_000.0, 20_000.0]),
        run: Length::from_m(inputs.number("run_m")),
        other_pitch: Angle::from_deg(inputs.number("other_pitch_deg")),
    };
    let pitch = Angle::from_deg(inputs.number("pitch_deg"));
    let (mut named, _) = on_module(inputs, pitch, valley);
    let mean = f64::midpoint(pitch.deg(), inputs.number("other_pitch_deg"));
    let mu_2 = drifts::valley_factor(Angle::from_deg(mean)).expect("covered");
    named.insert("mu_2".to_owned(), mu_2);
    named
}

/// A load that grows evenly up a module: even, and a ramp along its upper edge.
fn trapezoid(inputs: &Inputs) -> Values {
    let (width, [bottom, top]) = (inputs.number("width_mm"), numbers::<2>(inputs, "y_mm"));
    let [low, high] = numbers::<2>(inputs, "pressure_at_ends_n_per_mm2");
    let rails = numbers::<2>(inputs, "rails_y_mm").map(Length::from_mm);
    let module = Rect { x: [0.0, width], y: [bottom, top] };
    let ramp = Ramp::new(across(top, [width, 0.0]), top - bottom);
    let corners = module.corners().map(|[x, y]| Point { x, y });
    let heap = ramp.over(&corners).expect("it lies on the module");
    let patches =
        [(low * module.area(), module.centre().y), ((high - low) * heap.volume, heap.at.y)];
    let force: f64 = patches.iter().map(|(force, _)| force).sum();
    let moment: f64 = patches.iter().map(|(force, y)| force * y).sum();
    let on_rail = |own: usize| -> f64 {
        let share = |y: f64| lever::share(Length::from_mm(y), rails[own], rails[1 - own]);
        patches.iter().map(|(force, y)| force * share(*y)).sum()
    };
    values([
        ("force_n", force),
        ("centroid_y_mm", moment / force),
        ("lower_rail_n", on_rail(0)),
        ("upper_rail_n", on_rail(1)),
    ])
}
