//! How much snow and wind a job bears, and what an observed event came to.

use serde_json::{Value, json};

use crate::server::{BARN, BUILT, all_known, answer, example, list, number, post, warnings};

/// One row of modules whose load against their capacity governs, and wind by given coefficients:
/// g = 21.5 kg · 9.81 m/s² / (1.762 · 1.134) m² = 0.105 556 kN/m² on a slope of 30°.
fn one_row() -> Value {
    let mut job = all_known(BARN);
    job["roof"]["pitch_deg"] = json!(30.0);
    job["site"]["snow"] = json!({"ground_load_kn_per_m2": 1.0, "exceptional": false});
    job["site"]["wind"] = json!({
        "peak_pressure_kn_per_m2": 0.5,
        "model": "given",
        "net_coefficients": {"suction": -1.2, "pressure": 0.0},
    });
    job["array"]["fields"][0]["rows"] = json!(1);
    job["array"]["module"]["press_capacity_kn_per_m2"] = json!(2.4);
    job["array"]["module"]["lift_capacity_kn_per_m2"] = json!(1.5);
    job["components"]["clamp"]["lift_kn"] = json!(40.0);
    job["components"]["clamp"]["slope_kn"] = json!(40.0);
    job["capacity"] = json!(true);
    job
}

fn scope<'a>(statement: &'a Value, scope: &str) -> &'a Value {
    list(statement).iter().find(|of| of["scope"] == scope).expect("every scope is there")
}

/// A layout whose feet roll farther than its hooks bear.
const STABLE: &str = include_str!("../data/layout-stable.json");

const G: f64 = 21.5 * 9.81e-3 / (1.762 * 1.134);

/// Snow: 1.35 g cos a + 1.5 · 0.8 cos² a · s = 2.4, with factors of 1 g cos a + 0.8 cos² a · s = 2.4.
/// Wind: 1.5 · 1.2 q - 1.0 g cos a = 1.5, with factors of 1 1.2 q - g cos a = 1.5. At 30° cos² a is
/// 0.75: 2.5296 and 3.8477 kN/m² of snow, 0.8841 and 1.3262 kN/m² of gust.
#[test]
fn a_row_of_modules_bears_what_a_hand_finds() {
    let cos = 30.0_f64.to_radians().cos();
    let borne = answer("/v1/layouts", &one_row())["capacity"].clone();
    let cases = [
        ("ground_snow", "characteristic", (2.4 - 1.35 * G * cos) / (1.5 * 0.8 * 0.75), 2.5295),
        ("ground_snow", "observed", (2.4 - G * cos) / (0.8 * 0.75), 3.8476),
        ("peak_pressure", "characteristic", (1.5 + G * cos) / (1.5 * 1.2), 0.8841),
        ("peak_pressure", "observed", (1.5 + G * cos) / 1.2, 1.3261),
    ];
    for (load, factors, by_hand, printed) in cases {
        let modules = scope(&borne[load][factors], "modules");
        assert_eq!((&modules["outcome"], &modules["check"]), (&json!("limited"), &json!("module")));
        let have = number(&modules["load_kn_per_m2"]);
        assert!(by_hand - 1.1e-4 <= have && have <= by_hand, "{load} {factors}: {have} {by_hand}");
        assert!((have - printed).abs() < 1.5e-4, "{load} {factors}: {have} {printed}");
    }
    let snow = scope(&borne["ground_snow"]["characteristic"], "modules");
    assert!(
        (number(&snow["on_roof_kn_per_m2"]) - 0.8 * number(&snow["load_kn_per_m2"])).abs() < 2e-4
    );
    assert!((number(&borne["ground_snow"]["of_the_job_kn_per_m2"]) - 1.0).abs() < 1e-12);
}

/// A job with what a layout came to as built.
fn as_laid_out(mut job: Value) -> Value {
    let layout = answer("/v1/layouts", &job);
    let pick = |of: &Value, names: &[&str]| -> Value {
        names.iter().map(|name| ((*name).to_owned(), of[*name].clone())).collect()
    };
    let each = |of: &str, names: &[&str]| -> Vec<Value> {
        list(&layout[of]).iter().map(|one| pick(one, names)).collect()
    };
    job["built"] = json!({
        "rails": each("rails", &["id", "y_mm"]),
        "hooks": each("hooks", &["id", "rail", "x_mm", "arm_x_mm", "packers_mm"]),
    });
    job
}

/// A job as built on a site with another load.
fn on_site(job: &Value, load: &str, value: f64) -> Value {
    let mut site = job.clone();
    match load {
        "ground_snow" => {
            site["site"]["snow"] = json!({"ground_load_kn_per_m2": value, "exceptional": false});
        }
        _ => site["site"]["wind"] = json!({"peak_pressure_kn_per_m2": value}),
    }
    answer("/v1/rechecks?trace=full", &site)
}

/// Whether feet roll farther than hooks and rail bear, also where these fail without that.
fn rolls(answer: &Value) -> bool {
    list(&answer["trace"]).iter().any(|line| {
        let of_roll = line["element"].as_str().is_some_and(|element| element.ends_with("/roll"));
        of_roll && line["symbol"] == "u" && number(&line["value"]) > 1.0
    })
}

/// Whoever puts the load of the statement on the site finds the scope within its limit, and beyond it
/// with a little more: by another request, from the beginning.
#[test]
fn the_load_stated_holds_on_the_site_and_a_little_more_does_not() {
    let mut job = as_laid_out(all_known(BARN));
    job["capacity"] = json!(true);
    let borne = answer("/v1/rechecks", &job)["capacity"].clone();
    job["capacity"] = json!(false);
    let mut tried = 0;
    for load in ["ground_snow", "peak_pressure"] {
        for of in list(&borne[load]["characteristic"]) {
            let Some(most) = of["load_kn_per_m2"].as_f64() else { continue };
            let name = of["scope"].as_str().expect("a name");
            let [within, beyond] = [most, most + 2e-4].map(|value| on_site(&job, load, value));
            assert_ne!(within["verdicts"][name], "fails", "{load} {of}");
            let ended_by_rolling = ["fixing", "rail"].contains(&name) && rolls(&beyond);
            assert!(beyond["verdicts"][name] == "fails" || ended_by_rolling, "{load} {of}");
            tried += 1;
        }
    }
    assert!(tried >= 6, "{tried}");
}

/// Feet that roll end what a fixing or a rail bears before a check without them does.
#[test]
fn what_rolling_feet_add_ends_the_load_stated() {
    let mut stable = example(STABLE);
    stable["components"]["hook"]["stiffness"]["includes_foot"] = json!(true);
    let mut job = as_laid_out(stable);
    let now = answer("/v1/rechecks?trace=full", &job);
    assert!(rolls(&now));
    job["capacity"] = json!(true);
    let borne = answer("/v1/rechecks", &job)["capacity"].clone();
    job["capacity"] = json!(false);
    // Wind alone makes them roll too far: no less snow helps.
    assert_eq!(scope(&borne["ground_snow"]["characteristic"], "fixing")["outcome"], "never");
    assert!(rolls(&on_site(&job, "ground_snow", 0.0)));
    let fixing = scope(&borne["peak_pressure"]["characteristic"], "fixing");
    let most = number(&fixing["load_kn_per_m2"]);
    assert!(most < number(&borne["peak_pressure"]["of_the_job_kn_per_m2"]), "{most}");
    assert!(!rolls(&on_site(&job, "peak_pressure", most)), "{most}");
    assert!(rolls(&on_site(&job, "peak_pressure", most + 2e-4)), "{most}");
}

#[test]
fn nothing_is_said_unasked_and_the_rest_stays() {
    let mut asked = all_known(BARN);
    let unasked = answer("/v1/layouts", &asked);
    asked["capacity"] = json!(true);
    let mut with = answer("/v1/layouts", &asked);
    let of = with.as_object_mut().expect("an object");
    assert!(of.remove("capacity").is_some());
    assert_eq!(with, unasked);
}

/// A job whose modules lie on one rail fails whatever acts: no load may be read as one it bears.
#[test]
fn a_scope_that_fails_otherwise_has_no_load() {
    let mut job = example(BUILT);
    let built = job["built"]["hooks"].as_array_mut().expect("hooks");
    built.retain(|hook| hook["rail"] != "A4");
    job["built"]["rails"].as_array_mut().expect("rails").retain(|rail| rail["id"] != "A4");
    job["capacity"] = json!(true);
    let borne = answer("/v1/rechecks", &job);
    for factors in ["characteristic", "observed"] {
        let modules = scope(&borne["capacity"]["ground_snow"][factors], "modules");
        assert_eq!(modules["outcome"], "fails_otherwise");
        assert_eq!(modules.get("load_kn_per_m2"), None);
    }
    // The rafters are cut by a chimney: what is told is not all there is to check.
    assert_eq!(scope(&borne["capacity"]["ground_snow"]["observed"], "rafters")["complete"], false);
}

/// 0.5 kN/m² on a slope of 42°: mu = 0.8 · (60 - 42) / 30 = 0.48, so 1.0417 kN/m² on the ground.
#[test]
fn an_event_is_judged_in_the_place_of_the_site() {
    let mut job = example(BUILT);
    job["event"] = json!({"snow_on_roof_kn_per_m2": 0.5, "peak_pressure_kn_per_m2": 0.4});
    let answer = answer("/v1/rechecks", &job);
    let event = &answer["event"];
    assert!((number(&event["ground_snow_kn_per_m2"]) - 0.5 / 0.48).abs() < 1e-4);
    assert!((number(&event["site_ground_snow_kn_per_m2"]) - 1.1442).abs() < 1e-9);
    assert!((number(&event["site_peak_pressure_kn_per_m2"]) - 0.65).abs() < 1e-9);
    assert_eq!(event["within_resistances"], false);
    for combination in list(&answer["actions"]["combinations"]) {
        for action in ["weight", "snow", "wind", "exceptional_snow"] {
            let factor = number(&combination[action]);
            assert!(factor == 0.0 || (factor - 1.0).abs() < 1e-12, "{combination}");
        }
        assert_eq!(combination.get("person"), None);
    }
    let ranked: Vec<f64> =
        list(&event["inspect_first"]).iter().map(|hook| number(&hook["utilisation"])).collect();
    assert_eq!(ranked.len(), list(&answer["hooks"]).len());
    assert!(ranked.windows(2).all(|pair| pair[0] >= pair[1]));
    assert!((ranked[0] - number(&answer["utilisation"]["max"])).abs() < 1e-12);
    assert_eq!(warnings(&answer, "event.judged").len(), 1);
    assert_eq!(answer.get("suggestion"), None);
    assert_eq!(answer["verdicts"]["data"], "holds_with_warnings");
}

/// Weight and gust by hand on a module: 1.2 · 0.5 - g cos a, against 1.5 kN/m², all factors 1.
#[test]
fn an_event_has_factors_of_one_by_hand() {
    let mut job = one_row();
    let layout = answer("/v1/layouts", &job);
    job["capacity"] = json!(false);
    let hooks = list(&layout["hooks"]).iter().map(|hook| {
        json!({"id": hook["id"], "rail": hook["rail"], "x_mm": hook["x_mm"],
               "arm_x_mm": hook["arm_x_mm"], "packers_mm": hook["packers_mm"]})
    });
    let rails = list(&layout["rails"])
        .iter()
        .map(|rail| json!({"id": rail["id"], "y_mm": rail["y_mm"]}))
        .collect::<Vec<_>>();
    job["built"] = json!({"rails": rails, "hooks": hooks.collect::<Vec<_>>()});
    job["event"] = json!({"peak_pressure_kn_per_m2": 0.5});
    let answer = answer("/v1/rechecks", &job);
    let lift = 1.2 * 0.5 - G * 30.0_f64.to_radians().cos();
    for module in list(&answer["modules"]) {
        assert!((number(&module["lift_kn_per_m2"]) - lift).abs() < 1e-4, "{module}");
    }
    assert_eq!(answer["event"]["within_resistances"], true);
}

#[test]
fn a_batch_carries_events_and_questions() {
    let mut event = example(BUILT);
    event["event"] = json!({"ground_snow_kn_per_m2": 0.4});
    let mut asked = example(BARN);
    asked["capacity"] = json!(true);
    let lines = [
        json!({"id": "storm", "kind": "recheck", "job": event}),
        json!({"id": "limits", "kind": "layout", "job": asked}),
    ];
    let body = lines.map(|line| line.to_string()).join("\n");
    let reply = crate::server::send(
        "POST",
        "/v1/batches",
        &[("content-type", "application/x-ndjson")],
        body.as_bytes(),
    );
    let lines: Vec<Value> =
        reply.text().lines().map(|line| serde_json::from_str(line).expect("JSON")).collect();
    assert!(lines[0]["result"]["event"]["inspect_first"].is_array());
    assert!(lines[1]["result"]["capacity"]["ground_snow"]["observed"].is_array());
    assert_eq!(post("/v1/rechecks", b"{}").status, 422);
}

#[test]
fn the_sheet_prints_what_was_asked_in_every_language() {
    let sheet = |path: &str, job: &Value| {
        let accept = [("content-type", "application/json"), ("accept", "text/html")];
        let reply = crate::server::send("POST", path, &accept, job.to_string().as_bytes());
        assert_eq!(reply.status, 200);
        reply.text().to_owned()
    };
    let plain = sheet("/v1/layouts", &all_known(BARN));
    assert!(!plain.contains("What the job bears"));
    let english = sheet("/v1/layouts", &one_row());
    assert!(english.contains("What the job bears") && english.contains("2.52 (on the roof 2.02)"));
    let german = sheet("/v1/layouts?lang=de", &one_row());
    assert!(german.contains("Was die Anlage trägt") && german.contains("2,52 (auf dem Dach 2,02)"));
    let mut job = example(BUILT);
    job["event"] = json!({"peak_pressure_kn_per_m2": 0.4});
    let event = sheet("/v1/rechecks", &job);
    assert!(event.contains("Observed event") && event.contains("Within the resistances"));
    assert!(sheet("/v1/rechecks?lang=de", &job).contains("Zuerst ansehen"));
}
