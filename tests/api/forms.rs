//! Roofs of one slope and with hips: their wind zones, and what is assumed of them.

use serde_json::{Value, json};

use crate::server::{ACTIONS, COTTAGE, answer, example, list, number};

/// A main slope of a hipped roof 12 m by 9 m, and six modules on it.
fn main_slope() -> Value {
    let mut job = example(COTTAGE);
    let roof = &mut job["roof"];
    roof["form"] = json!("hipped");
    roof["length_m"] = json!(12.0);
    roof["width_m"] = json!(9.0);
    // 4.5 m in plan at 35°.
    roof["outline_mm"] = json!([[0, 0], [12000, 0], [7500, 5493], [4500, 5493]]);
    roof["edges"] = json!(["eaves", "hip", "ridge", "hip"]);
    roof["obstacles"] = json!([]);
    roof["rafters"]["count"] = json!(20);
    job["array"]["fields"][0] = json!({
        "id": "S", "origin_mm": [2548, 600], "rows": 1, "columns": 6, "orientation": "portrait",
        "column_gap_mm": 20, "row_gap_mm": 20
    });
    job
}

/// A lean-to 14 m by 4.2 m.
fn lean_to() -> Value {
    let mut job = main_slope();
    let roof = &mut job["roof"];
    roof["form"] = json!("monopitch");
    roof["length_m"] = json!(14.0);
    roof["width_m"] = json!(4.2);
    roof["outline_mm"] = json!([[0, 0], [14000, 0], [14000, 5127], [0, 5127]]);
    roof["edges"] = json!(["eaves", "verge", "ridge", "verge"]);
    roof["rafters"]["count"] = json!(24);
    job
}

fn answer_of(job: &Value) -> Value {
    answer("/v1/layouts", job)
}

/// Zones of a direction: name, suction and pressure.
fn zones(answer: &Value, direction: &str) -> Vec<(String, f64, f64)> {
    let zones = list(&answer["actions"]["wind"]["zones"]);
    let of = zones.iter().filter(|zone| zone["direction"] == direction);
    let told = of.map(|zone| {
        let name = zone["zone"].as_str().expect("a name").to_owned();
        (name, number(&zone["suction"]), number(&zone["pressure"]))
    });
    told.collect()
}

fn codes(answer: &Value) -> Vec<String> {
    let warnings = list(&answer["warnings"]).iter();
    warnings.map(|found| found["code"].as_str().expect("a code").to_owned()).collect()
}

/// What is assumed at a place.
fn assumption(answer: &Value, pointer: &str) -> Value {
    let mut assumptions = list(&answer["assumptions"]).iter();
    let found = assumptions.find(|assumed| assumed["pointer"] == pointer);
    found.unwrap_or_else(|| panic!("nothing is assumed at {pointer}")).clone()
}

fn assert_zones(answer: &Value, direction: &str, expected: &[(&str, f64, f64)]) {
    let found = zones(answer, direction);
    assert_eq!(found.len(), expected.len(), "{direction}: {found:?}");
    for ((name, suction, pressure), (zone, lifts, presses)) in found.iter().zip(expected) {
        let close = (suction - lifts).abs() < 1e-6 && (pressure - presses).abs() < 1e-6;
        assert!(name == zone && close, "{direction}: {found:?}");
    }
}

/// EN 1991-1-4 Table 7.5 at 1 m², a third of the way from 30° to 45°; by hand.
#[test]
fn a_main_slope_has_the_zones_of_a_hipped_roof() {
    let answer = answer_of(&main_slope());
    let third = |low: f64, high: f64| low + (high - low) / 3.0;
    let [f, h] = [third(-1.5, 0.0), third(-0.2, 0.0)];
    let [p_f, p_h] = [third(0.5, 0.7), third(0.4, 0.6)];
    let front = [("F", f, p_f), ("G", f, 0.7), ("F", f, p_f), ("H", h, p_h)];
    assert_zones(&answer, "front", &front);
    let j = third(-1.2, -0.6);
    let back = [
        ("J", j, 0.0),
        ("J", j, 0.0),
        ("K", third(-0.5, -0.3), 0.0),
        ("I", third(-0.4, -0.3), 0.0),
    ];
    assert_zones(&answer, "back", &back);
    for side in ["left", "right"] {
        assert_zones(&answer, side, &[("L", -2.0, 0.0), ("M", -1.2, 0.0)]);
    }
    // e = 12 m across the front: corners of 3 m, 1.2 m deep in plan.
    let corner = &answer["actions"]["wind"]["zones"][0]["outline_mm"];
    let points: Vec<[f64; 2]> =
        list(corner).iter().map(|p| [number(&p[0]), number(&p[1])]).collect();
    let top = points.iter().map(|p| p[1]).fold(0.0, f64::max);
    assert!((top - 1200.0 / 35.0_f64.to_radians().cos()).abs() < 0.01, "{points:?}");
    assert!((points.iter().map(|p| p[0]).fold(0.0, f64::max) - 3000.0).abs() < 0.01);
    let codes = codes(&answer);
    assert!(!codes.iter().any(|code| code == "roof.edge-not-computed"), "{codes:?}");
    for side in [1, 3] {
        let beyond = assumption(&answer, &format!("/roof/edges/{side}"));
        assert!((number(&beyond["value"]) - 35.0).abs() < 0.01, "{beyond}");
    }
    assert_eq!(assumption(&answer, "/roof/form")["code"], "wind.hipped-zones");
}

/// Twice as steep beyond the hip, by its tangent: the wind from there is read at 54.5°, all else at 35°.
#[test]
fn the_wind_on_a_steeper_end_is_read_at_its_pitch() {
    let mut job = main_slope();
    job["roof"]["outline_mm"] = json!([[0, 0], [12000, 0], [9750, 5493], [4500, 5493]]);
    let answer = answer_of(&job);
    let steep = (2.0 * 35.0_f64.to_radians().tan()).atan().to_degrees();
    let m = -1.2 + (-0.4 + 1.2) * (steep - 45.0) / 15.0;
    let found = zones(&answer, "right");
    assert!(
        found.iter().any(|(name, lifts, _)| name == "M" && (lifts - m).abs() < 1e-3),
        "{found:?}"
    );
    assert_zones(&answer, "left", &[("L", -2.0, 0.0), ("M", -1.2, 0.0)]);
    // A gable at that end instead has the zones of one.
    job["roof"]["outline_mm"] = json!([[0, 0], [12000, 0], [12000, 5493], [4500, 5493]]);
    job["roof"]["edges"][1] = json!("verge");
    let answer = answer_of(&job);
    let names: Vec<String> = zones(&answer, "right").into_iter().map(|(name, ..)| name).collect();
    assert_eq!(names, ["F", "G", "H", "I"]);
}

/// EN 1991-1-4 Tables 7.3a and 7.3b at 1 m², a third of the way from 30° to 45°; by hand.
#[test]
fn a_lean_to_has_the_zones_of_a_monopitch_roof() {
    let answer = answer_of(&lean_to());
    let third = |low: f64, high: f64| low + (high - low) / 3.0;
    let f = third(-1.5, 0.0);
    let front =
        [("F", f, 0.7), ("G", f, 0.7), ("F", f, 0.7), ("H", third(-0.2, 0.0), third(0.4, 0.6))];
    assert_zones(&answer, "front", &front);
    let f = third(-2.3, -1.3);
    let back = [
        ("F", f, 0.0),
        ("G", third(-1.5, -0.5), 0.0),
        ("F", f, 0.0),
        ("H", third(-0.8, -0.7), 0.0),
    ];
    assert_zones(&answer, "back", &back);
    let left = [
        ("Flow", -2.0, 0.0),
        ("G", -2.0, 0.0),
        ("Fup", third(-2.9, -2.4), 0.0),
        ("H", -1.3, 0.0),
        ("I", -1.2, 0.0),
    ];
    assert_zones(&answer, "left", &left);
    let codes = codes(&answer);
    let odd = ["roof.edge-not-computed", "roof.plan-mismatch"];
    assert!(!codes.iter().any(|code| odd.contains(&code.as_str())), "{codes:?}");
    // Against a taller wall nobody has zones for it.
    let mut walled = lean_to();
    walled["roof"]["edges"][2] = json!("abutment");
    walled["roof"]["abutments"] =
        json!([{"side": 2, "height_m": 3, "upper_width_m": 10, "upper_pitch_deg": 0}]);
    let answer = answer_of(&walled);
    assert!(self::codes(&answer).iter().any(|code| code == "roof.edge-not-computed"));
    // Half the width in plan fits a gable roof, not this one.
    let mut short = lean_to();
    short["roof"]["width_m"] = json!(8.4);
    assert!(self::codes(&answer_of(&short)).iter().any(|code| code == "roof.plan-mismatch"));
}

#[test]
fn a_short_request_for_a_lean_to_gets_its_whole_width() {
    let mut job = lean_to();
    for member in ["outline_mm", "edges"] {
        job["roof"].as_object_mut().expect("an object").remove(member);
    }
    let layout = answer_of(&job);
    let outline = assumption(&layout, "/roof/outline_mm");
    let up = 4200.0 / 35.0_f64.to_radians().cos();
    assert!((number(&outline["value"]) - up.floor()).abs() < 1e-6, "{outline}");
}

/// Without edges a question for the actions takes them as they run.
#[test]
fn actions_take_the_sides_of_a_hipped_roof_as_they_run() {
    let mut job = example(ACTIONS);
    for member in ["form", "length_m", "width_m", "pitch_deg", "outline_mm"] {
        job["roof"][member] = main_slope()["roof"][member].clone();
    }
    let by_course = answer("/v1/actions", &job);
    assert_eq!(assumption(&by_course, "/roof/edges")["code"], "roof.edges-by-course");
    job["roof"]["edges"] = main_slope()["roof"]["edges"].clone();
    let told = answer("/v1/actions", &job);
    assert_eq!(by_course["actions"], told["actions"]);
    job["roof"]["outline_mm"] = json!([[0, 0], [12000, 0], [12000, 5493], [4500, 5493]]);
    job["roof"]["edges"][1] = json!("verge");
    let gable = answer("/v1/actions", &job);
    assert_eq!(zones(&gable, "right").len(), 4);
    assert_ne!(gable["actions"], told["actions"]);
}

const FARMHOUSE: &str = include_str!("../data/building-farmhouse.json");
const LEAN_TO: &str = include_str!("../data/layout-lean-to.json");

/// Fourteen modules on a main slope and a hip end, one order for both.
#[test]
fn a_farmhouse_with_hips_holds_as_one_building() {
    let job = example(FARMHOUSE);
    let building = answer("/v1/buildings", &job);
    assert_eq!(building["verdict"], "holds_with_warnings");
    assert_eq!(building["optimality"]["proven"], true);
    let slopes = list(&building["slopes"]);
    let modules = slopes.iter().map(|slope| list(&slope["modules"]).len());
    assert_eq!(modules.collect::<Vec<_>>(), [11, 3]);
    for (at, slope) in slopes.iter().enumerate() {
        let mut alone = job.clone();
        let members = alone.as_object_mut().expect("an object");
        members.remove("slopes");
        for member in ["roof", "array"] {
            members.insert(member.to_owned(), job["slopes"][at][member].clone());
        }
        let alone = answer_of(&alone);
        assert_eq!(alone["hooks"], slope["hooks"]);
        assert_eq!(alone["actions"], slope["actions"]);
    }
}

/// Nobody computes the wind beside the taller barn: without somebody who answers for it nothing is shown.
#[test]
fn a_lean_to_against_a_barn_holds_where_an_engineer_answers_for_the_wind() {
    let mut job = example(LEAN_TO);
    let answered = answer_of(&job);
    assert_eq!(answered["verdict"], "holds_with_warnings");
    assert_eq!(answered["declarations"][0]["check"], "roof.edge-not-computed");
    let drift = &answered["actions"]["snow"]["arrangements"][0]["drifts"][0];
    // EN 1991-1-3 5.3.6 by hand: mu_w = (11 + 4.2) / (2 · 5) = 1.52 on a drift 2 · 5 = 10 m long; half of the
    // snow on a slope of 5.5 m slides down, 0.5 · 0.8 · 5.5 = 2.2 m, in a wedge: mu_s = 2 · 2.2 / 10 = 0.44.
    assert!((number(&drift["shape_factor"]) - 1.96).abs() < 0.005, "{drift}");
    assert_eq!(drift["length_m"], 10.0);
    job.as_object_mut().expect("an object").remove("declarations");
    assert_eq!(answer_of(&job)["verdict"], "incomplete");
}
