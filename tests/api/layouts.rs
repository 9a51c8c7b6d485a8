//! What a layout promises: hooks on rafters, free ends within their limit, every check passed, the
//! fewest hooks proven, the same bytes twice; and what it says when nothing passes.

use serde_json::{Value, json};

use crate::server::{
    BARN, COTTAGE, all_known, answer, example, list, number, param, post, warnings,
};

fn solve(job: &Value) -> Value {
    answer("/v1/layouts", job)
}

fn rafters(job: &Value) -> Vec<f64> {
    let rafters = &job["roof"]["rafters"];
    if let Some(positions) = rafters["positions_mm"].as_array() {
        return positions.iter().map(number).collect();
    }
    let count = rafters["count"].as_u64().expect("a count");
    (0..count)
        .map(|i| number(&rafters["first_mm"]) + number(&rafters["spacing_mm"]) * i as f64)
        .collect()
}

#[test]
fn the_examples_hold_with_the_fewest_hooks_once_all_is_known_of_them() {
    for text in [BARN, COTTAGE] {
        assert_eq!(solve(&example(text))["verdict"], "incomplete", "an opening cuts a rafter");
        let job = all_known(text);
        let answer = solve(&job);
        let rafters = rafters(&job);
        assert_eq!(answer["verdict"], "holds_with_warnings");
        assert!(number(&answer["utilisation"]["max"]) <= 1.0);
        assert_eq!(answer["optimality"]["proven"], true);
        assert_eq!(answer["optimality"]["hooks"], answer["optimality"]["lower_bound"]);
        assert_eq!(list(&answer["rails"]).len(), 4);
        for rail in list(&answer["rails"]) {
            let hooks: Vec<f64> = list(&answer["hooks"])
                .iter()
                .filter(|h| h["rail"] == rail["id"])
                .map(|h| number(&h["x_mm"]))
                .collect();
            assert!(hooks.len() >= 2, "{}", rail["id"]);
            assert!(hooks.iter().all(|x| rafters.contains(x)), "{hooks:?}");
            let (start, end) = (number(&rail["start_mm"]), number(&rail["end_mm"]));
            assert!(hooks[0] - start <= 400.0 && end - hooks[hooks.len() - 1] <= 400.0);
            for segment in list(&rail["segments"]) {
                assert!(number(&segment["left_cantilever_mm"]) <= 400.0);
                assert!(number(&segment["right_cantilever_mm"]) <= 400.0);
            }
        }
    }
}

#[test]
fn the_same_request_gives_the_same_bytes() {
    let once = post("/v1/layouts", BARN.as_bytes());
    assert_eq!(once.text(), post("/v1/layouts", BARN.as_bytes()).text());
}

/// Two figures of the barn worked by hand from the annex: `0.25 + 1.91·(520/760)² = 1.1442`,
/// `0.8·(60 − 42)/30 = 0.48`.
#[test]
fn the_snow_of_the_barn_is_as_worked_by_hand() {
    let answer = solve(&example(BARN));
    let snow = &answer["actions"]["snow"];
    assert!((number(&snow["ground_load_kn_per_m2"]) - 1.1442).abs() < 5e-5);
    assert!((number(&snow["shape_factor"]) - 0.48).abs() < 1e-9);
    assert!((number(&snow["roof_load_kn_per_m2"]) - 0.5492).abs() < 5e-5);
}

#[test]
fn a_rafter_just_outside_the_field_is_named_and_a_move_that_reaches_it_is_tried() {
    let mut job = all_known(COTTAGE);
    job["array"]["fields"][0]["origin_mm"] = json!([700, 400]);
    // As long as the rails are with their usual ends.
    job["components"]["rail"]["max_continuous_mm"] = json!(6984);
    let answer = solve(&job);
    assert_eq!(answer["verdict"], "fails");
    assert!(!list(&answer["hooks"]).is_empty());
    let ends = warnings(&answer, "rail.free-end-too-long");
    let left = ends
        .iter()
        .find(|w| *param(w, "rail") == "B1" && *param(w, "end") == "left")
        .expect("the left end of B1 is named");
    let params = |name: &str| param(left, name);
    assert_eq!(*params("free_end_mm"), 590.0);
    assert_eq!(*params("limit_mm"), 400.0);
    assert_eq!(*params("rafter_outside_x_mm"), 650.0);
    assert_eq!(*params("longer_end_mm"), 10.0);

    let remedies = list(&answer["remedies"]["helping"]);
    let best = remedies.first().expect("a remedy");
    assert_eq!(best["changes"], json!(["move_along_eaves"]));
    assert_eq!(best["verdict"], "holds_with_warnings");
    let origin = json!([690.0, 400.0]);
    let path = "/array/fields/0/origin_mm";
    assert_eq!(best["edits"], json!([{"op": "add", "path": path, "value": origin}]));
    job["array"]["fields"][0]["origin_mm"] = origin;
    assert_eq!(solve(&job)["verdict"], "holds_with_warnings");
}

/// The cottage's first rafter stands 10 mm outside the usual left end of its rails: they run on to it, 50 mm
/// beyond its hook, and a recheck of what was built finds them there. The shorter upper row ends at
/// 700 + 5 · 1134 + 4 · 20 + 40 = 6490 mm; the arm of the next rafter leaves in the trough at 22 · 300 + 75 =
/// 6675 mm.
#[test]
fn rails_run_on_to_a_rafter_that_holds_their_end() {
    let mut job = all_known(COTTAGE);
    job["array"]["fields"][0]["origin_mm"] = json!([700, 400]);
    let laid = solve(&job);
    assert_eq!(laid["verdict"], "holds_with_warnings");
    assert!(warnings(&laid, "rail.free-end-too-long").is_empty());
    let found = warnings(&laid, "rail.runs-on")[0];
    assert_eq!(*param(found, "longest_mm"), 6675.0 - 6490.0 + 50.0);
    assert_eq!(*param(found, "rails"), json!(["B1", "B2", "B3", "B4"]));
    for rail in list(&laid["rails"]) {
        assert_eq!(rail["start_mm"], 600.0, "{}", rail["id"]);
    }
    let first = list(&laid["hooks"]).iter().find(|hook| hook["rail"] == "B1").expect("a hook");
    assert_eq!(first["x_mm"], 650.0);
    let utilisation = laid["utilisation"].clone();
    job["built"] = laid["record"]["built"].clone();
    let again = answer("/v1/rechecks", &job);
    assert_eq!(again["utilisation"]["max"], utilisation["max"]);
    // Without their ends, as somebody notes them who has only looked at the hooks.
    for rail in job["built"]["rails"].as_array_mut().expect("rails") {
        for end in ["start_mm", "end_mm"] {
            rail.as_object_mut().expect("an object").remove(end);
        }
    }
    let again = answer("/v1/rechecks", &job);
    assert_eq!(again["utilisation"]["max"], utilisation["max"]);
    // On the roof's edge there is nothing to run on to.
    job.as_object_mut().expect("an object").remove("built");
    job["roof"]["outline_mm"] = json!([[620, 0], [9600, 0], [9600, 4272], [620, 4272]]);
    assert!(!warnings(&solve(&job), "rail.free-end-too-long").is_empty());
}

#[test]
fn more_snow_than_any_pattern_holds_fails_with_all_candidates() {
    let mut job = example(BARN);
    job["site"]["snow"] = json!({"ground_load_kn_per_m2": 6, "exceptional": false});
    let answer = solve(&job);
    assert_eq!(answer["verdict"], "fails");
    // Fourteen rafters lie under each of the four rails.
    assert_eq!(list(&answer["hooks"]).len(), 4 * 14);
    let failures = warnings(&answer, "rail.no-hook-pattern-passes");
    assert_eq!(failures.len(), 4);
    for failure in failures {
        assert_eq!(*param(failure, "check"), "clearance");
        assert!(number(param(failure, "utilisation")) > 1.0);
    }
}

#[test]
fn what_cannot_be_verified_never_holds() {
    let mut unknown = example(BARN);
    unknown["components"]["hook"]["resistance"]["basis"] = json!("unknown");
    assert_eq!(solve(&unknown)["verdict"], "incomplete");

    let mut soft = example(BARN);
    soft["components"]["hook"].as_object_mut().expect("a hook").remove("stiffness");
    soft["components"]["hook"]["arm"].as_object_mut().expect("an arm").remove("grade");
    // Stiff hooks share less evenly than those of the example, whose screws bear as much.
    soft["components"]["screw"]["length_mm"] = json!(160);
    soft["components"]["screw"]["thread_length_mm"] = json!(100);
    let answer = solve(&soft);
    assert_eq!(answer["verdict"], "incomplete");
    assert_eq!(answer["optimality"]["proven"], false);
    assert!(answer["hooks"][0]["utilisation"].get("clearance").is_none());
    assert!(answer["hooks"][0].get("clearance_under_load_mm").is_none());
}

#[test]
fn a_long_row_is_cut_where_two_modules_meet() {
    let mut job = example(BARN);
    job["roof"]["length_m"] = json!(40.0);
    job["roof"]["outline_mm"] = json!([[0, 0], [40000, 0], [40000, 5786], [0, 5786]]);
    job["roof"]["rafters"] = json!({
        "first_mm": 100, "spacing_mm": 500, "count": 80, "width_mm": 100, "depth_mm": 160,
        "strength_class": "C24"
    });
    job["roof"]["obstacles"] = json!([]);
    job["array"]["fields"][0]["columns"] = json!(32);
    job["wishes"]["search_limit"] = json!(2000);
    let answer = solve(&job);
    for rail in list(&answer["rails"]) {
        let segments = list(&rail["segments"]);
        // At least three: 37 m in parts of 13 m. More where that leaves an end without a rafter.
        assert!(segments.len() >= 3);
        assert_eq!(list(&rail["expansion_gaps_mm"]).len(), segments.len() - 1);
        for segment in segments {
            assert!(number(&segment["end_mm"]) - number(&segment["start_mm"]) <= 13000.0);
        }
    }
    assert!(warnings(&answer, "rail.free-end-too-long").is_empty());
    assert_eq!(warnings(&answer, "rail.expansion-gap-needs-room").len(), 1);
}

#[test]
fn the_trace_shows_the_figures_of_the_answer() {
    let reply = post("/v1/layouts?trace=full", BARN.as_bytes());
    let answer = reply.json();
    let value = |symbol: &str| {
        list(&answer["trace"])
            .iter()
            .find(|line| line["symbol"] == symbol)
            .map_or_else(|| panic!("no {symbol} in the trace"), |line| number(&line["value"]))
    };
    assert!((value("s_k") - 1.1442).abs() < 5e-5);
    // By hand: 11 N/mm² · 8 mm · 80 mm = 7.04 kN.
    assert!((value("F_ax,Rk") - 7.04).abs() < 1e-6);
    assert!((value("q_p") - 0.65).abs() < 1e-9);
}

/// Rails of 10 446 mm from bars of 5500 mm: two pieces each, both longer than 4400 mm, so no less
/// than two of the longest bars; one of them stays whole and 5500 − 4946 − 3 = 551 mm remain.
#[test]
fn the_order_of_the_barn_is_as_counted_by_hand() {
    let answer = solve(&example(BARN));
    let parts = &answer["parts"];
    let line = |kind: &str| {
        let found = list(&parts["lines"]).iter().find(|line| line["kind"] == kind);
        found.unwrap_or_else(|| panic!("no {kind} in the order"))
    };
    let hooks = list(&answer["hooks"]).len();
    assert_eq!(line("screw")["needed"], 2 * hooks);
    assert_eq!(line("screw")["why"], format!("{hooks} hooks × 2 screws"));
    assert_eq!(line("mid_clamp")["needed"], 4 * 8);
    assert_eq!(line("end_clamp")["needed"], 4 * 2);
    assert_eq!(line("rail_bar")["needed"], 8);
    let cutting = &parts["cutting"];
    assert_eq!(cutting["bought_mm"], 44000.0);
    assert_eq!(cutting["proven"], true);
    for bar in list(&cutting["bars"]) {
        let whole = bar["cuts"] == 0;
        assert_eq!(bar["offcut_mm"], if whole { 0.0 } else { 551.0 });
    }
    for splice in list(&cutting["splices"]) {
        assert_eq!(splice["rules"], "all");
    }
}

#[test]
fn a_least_piece_no_bar_can_be_halved_into_is_a_fault() {
    let mut job = example(BARN);
    job["wishes"]["order"] = json!({"min_piece_mm": 2751});
    let problem = post("/v1/layouts", job.to_string().as_bytes()).problem();
    assert_eq!(problem["errors"][0]["pointer"], "/wishes/order/min_piece_mm");
    assert_eq!(list(&problem["errors"]).len(), 1);
}

/// The wind on the module at the lower left corner, from the parts the trace tells: each part's
/// `q_p · c · A_z` times its levers is what the frames put on the lower rail.
#[test]
fn the_wind_on_a_module_can_be_followed_by_hand() {
    let answer = answer("/v1/layouts?trace=full", &example(BARN));
    let value = |element: &str, symbol: &str| {
        let mut lines = list(&answer["trace"]).iter();
        let line = lines.find(|line| line["element"] == element && line["symbol"] == symbol);
        number(&line.unwrap_or_else(|| panic!("no {symbol} of {element}"))["value"])
    };
    let rail = |id: &str| {
        let mut rails = list(&answer["rails"]).iter();
        number(&rails.find(|rail| rail["id"] == id).expect("a rail")["y_mm"])
    };
    let modules = &answer["modules"];
    let module = list(modules).iter().find(|module| module["id"] == "A/0/0").expect("a module");
    let left = number(&module["origin_mm"][0]);
    let width = number(&module["size_mm"][0]);
    let (lower, upper) = (rail("A1"), rail("A2"));
    let peak = number(&answer["actions"]["wind"]["peak_pressure_kn_per_m2"]);
    let mut by_hand = [0.0; 2];
    let mut parts = 0;
    for zone in ["F", "G", "H", "I"] {
        let part = format!("A/0/0/left/{zone}");
        if !list(&answer["trace"]).iter().any(|line| line["element"] == part.as_str()) {
            continue;
        }
        let force = peak * value(&format!("fixings/left/{zone}"), "c_pe-") * value(&part, "A_z");
        let on_rail = force * (upper - value(&part, "y_z")) / (upper - lower);
        let right_of_left = (value(&part, "x_z") - left) / width;
        by_hand[0] += on_rail * (1.0 - right_of_left);
        by_hand[1] += on_rail * right_of_left;
        parts += 1;
    }
    assert!(parts >= 2, "a border of zones crosses the module");
    let frames = ["W_l", "W_r"].map(|symbol| value("A1/A/0/0/left:lifting", symbol));
    for (frame, by_hand) in frames.iter().zip(by_hand) {
        assert!((frame - by_hand).abs() < 1e-4 * by_hand.abs(), "{frame}, by hand {by_hand}");
    }
    assert!((frames[0] - frames[1]).abs() > 1e-3, "the frames differ: {frames:?}");
}

/// A splice that bears what the rail does is used no more than the rail, and one that bears half as much
/// twice as far.
#[test]
fn splices_are_bent_where_they_lie() {
    let with = |share: f64| {
        let mut job = example(BARN);
        let rail = &mut job["components"]["rail"];
        let bears = |modulus: &Value, strength: &Value| {
            json!(share * number(modulus) * number(strength) / 1.1 * 1e-6)
        };
        let strength = rail["proof_strength_n_per_mm2"].clone();
        rail["splice_moment"] = json!({
            "normal_knm": bears(&rail["w_normal_mm3"], &strength),
            "slope_knm": bears(&rail["w_slope_mm3"], &strength),
        });
        solve(&job)
    };
    let [whole, half] = [1.0, 0.5].map(with);
    for (rail, weaker) in list(&whole["rails"]).iter().zip(list(&half["rails"])) {
        let used = |rail: &Value| number(&rail["segments"][0]["splice_utilisation"]);
        assert!(used(rail) > 0.0, "{rail}");
        assert!(used(rail) <= number(&rail["utilisation_by_check"]["bending"]) + 1e-4, "{rail}");
        assert!((used(weaker) - 2.0 * used(rail)).abs() < 2e-4, "{weaker}");
    }
    let plain = solve(&example(BARN));
    assert!(plain["rails"][0]["segments"][0].get("splice_utilisation").is_none());
    // A splice that bears next to nothing governs the job.
    let weak = with(0.01);
    assert_eq!(weak["utilisation"]["check"], "splice");
    assert_eq!(weak["verdicts"]["rail"], "fails");
    let most =
        list(&weak["rails"]).iter().map(|rail| number(&rail["utilisation_by_check"]["splice"]));
    let told = number(&weak["utilisation"]["max"]);
    assert!((most.fold(0.0, f64::max) - told).abs() < 1e-9, "{told}");
}
