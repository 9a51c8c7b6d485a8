//! What a question for the actions promises: the figures of a layout before there is one.

use serde_json::{Value, json};

use crate::server::{ACTIONS, BARN, answer, example, list, number, post, warnings};

fn barn() -> Value {
    example(ACTIONS)
}

#[test]
fn the_actions_are_those_of_the_layout_of_the_same_roof() {
    let alone = answer("/v1/actions", &barn());
    let layout = answer("/v1/layouts?trace=full", &example(BARN));
    assert_eq!(alone["actions"], layout["actions"]);
    assert_eq!(alone["engine"], layout["engine"]);
    assert_eq!(alone["cautions"], layout["cautions"]);
    assert_eq!(alone["reference"], "mill-barn-south");
    let trace = list(&alone["trace"]);
    assert!(trace.len() > 20, "{} lines", trace.len());
    assert_eq!(trace, &list(&layout["trace"])[..trace.len()]);
}

/// EN 1991-1-3/NA (DE) zone 2 at 380 m: 0.25 + 1.91 ((380 + 140) / 760)²; `mu_1` at 42° by
/// EN 1991-1-3 Table 5.2; worked by hand.
#[test]
fn the_snow_can_be_followed_by_hand() {
    let snow = answer("/v1/actions", &barn())["actions"]["snow"].clone();
    assert!((number(&snow["ground_load_kn_per_m2"]) - 1.1442).abs() < 1e-4);
    assert!((number(&snow["shape_factor"]) - 0.8 * 18.0 / 30.0).abs() < 1e-6);
    assert!((number(&snow["roof_load_kn_per_m2"]) - 0.5492).abs() < 1e-4);
}

#[test]
fn parts_not_chosen_yet_weigh_nothing_and_are_listed() {
    let mut job = barn();
    job.as_object_mut().expect("an object").remove("components");
    let bare = answer("/v1/actions", &job);
    assert_eq!(bare["actions"]["weight"]["rail_kn_per_m"], 0.0);
    assert_eq!(bare["actions"]["weight"]["clamps_kn_per_module"], 0.0);
    let assumed = |answer: &Value| -> Vec<String> {
        let pointers = list(&answer["assumptions"]).iter();
        let pointers = pointers.filter_map(|a| a["pointer"].as_str());
        pointers.filter(|p| p.starts_with("/components")).map(str::to_owned).collect()
    };
    assert_eq!(assumed(&bare), ["/components/rail", "/components/clamp"]);
    let chosen = answer("/v1/actions", &barn());
    assert!(number(&chosen["actions"]["weight"]["rail_kn_per_m"]) > 0.0);
    assert_eq!(assumed(&chosen), Vec::<String>::new());
}

/// A larger loaded area never has more suction per area: EN 1991-1-4 7.2.1(1).
#[test]
fn coefficients_on_modules_are_read_at_their_own_area() {
    let small = answer("/v1/actions", &barn());
    let mut job = barn();
    job["array"]["module"] = json!({"length_mm": 3000, "width_mm": 3000, "mass_kg": 60});
    let large = answer("/v1/actions", &job);
    let areas = &large["actions"]["wind"]["loaded_areas"];
    assert_eq!(*areas, json!({"fixings_m2": 1.0, "modules_m2": 9.0}));
    let zones = |answer: &Value| list(&answer["actions"]["wind"]["zones"]).to_vec();
    let mut less = 0;
    for (small, large) in zones(&small).iter().zip(zones(&large)) {
        assert_eq!(small["suction"], large["suction"], "fixings stay as small as they are");
        let [small, large] = [small, &large].map(|zone| number(&zone["on_modules"]["suction"]));
        assert!(large >= small - 1e-9, "{large} lifts more than {small}");
        less += usize::from(large > small + 1e-6);
    }
    assert!(less > 0, "no coefficient depends on the area");
}

/// Zone G, wind onto a gable, 42°: `c_pe,1` is -2.0 and `c_pe,10` -1.4 at 30° and at 45° (EN
/// 1991-1-4 Table 7.4b), so `-2.0 + 0.6 lg A`: by hand -1.8196 at the 1.762 m · 1.134 m of a module
/// and -1.8775 at 1.6 m².
#[test]
fn fixings_take_the_coefficient_of_small_areas_unless_the_caller_says_otherwise() {
    let on = |loaded_area: Option<Value>| {
        let mut job = barn();
        if let Some(area) = loaded_area {
            job["site"]["wind"]["loaded_area"] = area;
        }
        let answer = answer("/v1/actions", &job);
        let zones = list(&answer["actions"]["wind"]["zones"]).iter();
        let mut zones = zones.filter(|z| z["direction"] == "left" && z["zone"] == "G");
        let zone = zones.next().expect("a zone G");
        let assumed = list(&answer["assumptions"]).iter();
        let assumed = assumed.filter(|a| a["code"] == "wind.loaded-area").count();
        let areas = answer["actions"]["wind"]["loaded_areas"].clone();
        (number(&zone["suction"]), number(&zone["on_modules"]["suction"]), assumed, areas)
    };
    let near = |value: f64, by_hand: f64| (value - by_hand).abs() < 5e-5;
    let (fixings, modules, assumed, _) = on(None);
    assert!(near(fixings, -2.0) && near(modules, -1.8196), "{fixings} {modules}");
    assert_eq!(assumed, 1);
    let (fixings, _, assumed, _) = on(Some(json!({"basis": "fixing"})));
    assert!(near(fixings, -2.0) && assumed == 0);
    let (fixings, modules, _, _) = on(Some(json!({"basis": "module"})));
    assert!(near(fixings, -1.8196) && near(modules, -1.8196));
    let reason = "bay of 1.8 m times half a module";
    let given = json!({"basis": "given", "area_m2": 1.6, "reason": reason});
    let (fixings, modules, _, areas) = on(Some(given));
    assert!(near(fixings, -1.8775) && near(modules, -1.8196), "{fixings} {modules}");
    assert_eq!(areas["reason"], reason);
}

/// Coefficients that are given hold as they are: no area goes with them.
#[test]
fn given_coefficients_have_no_loaded_area() {
    let mut job = barn();
    job["site"]["wind"]["model"] = json!("given");
    job["site"]["wind"]["net_coefficients"] = json!({"suction": -0.9, "pressure": 0.5});
    let answer = answer("/v1/actions", &job);
    let wind = &answer["actions"]["wind"];
    assert_eq!(wind["loaded_areas"], Value::Null);
    for zone in list(&wind["zones"]) {
        assert_eq!(
            (&zone["suction"], &zone["on_modules"]["suction"]),
            (&json!(-0.9), &json!(-0.9))
        );
    }
    let assumed = list(&answer["assumptions"]).iter();
    assert_eq!(assumed.filter(|a| a["code"] == "wind.loaded-area").count(), 0);
}

#[test]
fn doubts_about_the_actions_are_warned_of() {
    let mut job = barn();
    job["roof"]["width_m"] = json!(16);
    assert_eq!(warnings(&answer("/v1/actions", &job), "roof.plan-mismatch").len(), 1);
    assert_eq!(warnings(&answer("/v1/actions", &barn()), "roof.plan-mismatch").len(), 0);
}

#[test]
fn the_same_question_gives_the_same_bytes() {
    let once = post("/v1/actions", ACTIONS.as_bytes());
    assert_eq!(once.status, 200);
    assert_eq!(once.body, post("/v1/actions", ACTIONS.as_bytes()).body);
}

/// 0.6 of every suction and 0.9 of every pressure of the roof act on the array, and say whose they are.
/// The covering beside it keeps its own: the rafters bear on the bare roof what they bore.
#[test]
fn equalised_pressures_are_the_share_that_was_tested() {
    let evidence = "wind-tunnel report 17";
    let mut job = example(BARN);
    job["roof"]["rafters"]["span_m"] = json!(3.0);
    let full = answer("/v1/layouts", &job);
    job["site"]["wind"]["model"] = json!("equalised");
    job["site"]["wind"]["equalisation"] =
        json!({"suction_factor": 0.6, "pressure_factor": 0.9, "evidence": evidence});
    let shared = answer("/v1/layouts?trace=full", &job);
    let zones = |answer: &Value| list(&answer["actions"]["wind"]["zones"]).to_vec();
    let (of_roof, of_array) = (zones(&full), zones(&shared));
    assert!(!of_roof.is_empty() && of_roof.len() == of_array.len());
    for (roof, array) in of_roof.iter().zip(&of_array) {
        for (roof, array) in [(roof, array), (&roof["on_modules"], &array["on_modules"])] {
            for (sense, factor) in [("suction", 0.6), ("pressure", 0.9)] {
                let by_hand = factor * number(&roof[sense]);
                assert!((number(&array[sense]) - by_hand).abs() < 1e-6, "{roof} {array}");
            }
        }
    }
    let assumptions = list(&shared["assumptions"]);
    let told = assumptions.iter().find(|assumed| assumed["code"] == "wind.equalisation");
    let told = told.expect("the factors are among the assumptions");
    assert_eq!(told["pointer"], "/site/wind/equalisation");
    assert!(told["why"].as_str().is_some_and(|why| why.contains(evidence)), "{told}");
    let traced = |symbol: &str| {
        let mut lines = list(&shared["trace"]).iter();
        lines.find(|line| line["symbol"] == symbol).map(|line| number(&line["value"]))
    };
    assert_eq!([traced("f-"), traced("f+")], [Some(0.6), Some(0.9)]);
    let before = |answer: &Value| answer["rafters"][0]["before"]["bending"].clone();
    assert_eq!(before(&full), before(&shared));
    let lift = |answer: &Value| number(&answer["modules"][0]["lift_kn_per_m2"]);
    assert!(lift(&shared) < 0.6 * lift(&full), "weight helps as much as before");
    // A share of one is no share.
    job["site"]["wind"]["equalisation"] =
        json!({"suction_factor": 1.0, "pressure_factor": 1.0, "evidence": evidence});
    let same = answer("/v1/layouts", &job);
    for member in ["actions", "hooks", "rails", "modules", "rafters", "verdict"] {
        assert_eq!(same[member], full[member]);
    }
}
