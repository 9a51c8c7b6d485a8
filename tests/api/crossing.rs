//! Rails that cross: a boathouse under large tiles whose courses no row of modules meets.

use serde_json::{Value, json};

use crate::server::{answer, changed, example, list, number, param, post, send, warnings};

const BOATHOUSE: &str = include_str!("../data/layout-boathouse.json");
const BUILT: &str = include_str!("../data/recheck-terrace.json");

fn boathouse(edits: &[(&str, Value)]) -> Value {
    changed(BOATHOUSE, edits)
}

fn laid_out(edits: &[(&str, Value)]) -> Value {
    answer("/v1/layouts", &boathouse(edits))
}

fn of_layer<'a>(laid: &'a Value, layer: &'a str) -> Vec<&'a Value> {
    list(&laid["rails"]).iter().filter(|rail| rail["layer"] == layer).collect()
}

#[test]
fn rails_cross_where_no_course_meets_the_clamps_and_else_nothing_can_be_laid() {
    let along = laid_out(&[("/array/rail_direction", json!("along_eaves"))]);
    assert_eq!(warnings(&along, "rail.no-course-in-clamp-zone").len(), 2, "{}", along["warnings"]);
    let laid = laid_out(&[]);
    assert_eq!(laid["verdict"], "holds_with_warnings", "{}", laid["warnings"]);
    let [lower, upper] = ["lower", "upper"].map(|layer| of_layer(&laid, layer));
    // A quarter and three quarters of 1762 mm above the lower edges of both rows, 700 and 2482 mm.
    let heights: Vec<f64> = upper.iter().map(|rail| number(&rail["y_mm"])).collect();
    assert_eq!(heights, [1140.5, 2021.5, 2922.5, 3803.5]);
    for rail in &upper {
        assert_eq!([&rail["course"], &rail["rafter"], &rail["x_mm"]], [&Value::Null; 3]);
        let crossings = list(&rail["crossings"]);
        assert_eq!(crossings.len(), lower.len());
        for (crossing, below) in crossings.iter().zip(&lower) {
            assert_eq!([&crossing["rail"], &crossing["x_mm"]], [&below["id"], &below["x_mm"]]);
        }
    }
    for rail in &lower {
        // A trough, 75 or 225 mm into tiles 300 mm wide, within 75 mm of its rafter.
        let (x, rafter) = (number(&rail["x_mm"]), number(&rail["rafter"]));
        assert!((x - 100.0 - 850.0 * rafter).abs() <= 75.0, "{rail}");
        assert!([75.0, 225.0].contains(&(x % 300.0)), "{rail}");
        assert!(rail.get("crossings").is_none(), "{rail}");
    }
    for hook in list(&laid["hooks"]) {
        assert!(lower.iter().any(|rail| rail["id"] == hook["rail"]), "{hook}");
        // Rail and arm, 40 mm each: half of both beside every upper rail.
        let y = number(&hook["y_mm"]);
        assert!(heights.iter().all(|height| (height - y).abs() >= 40.0), "{hook}");
    }
}

/// Down the slope act the weights of 12 modules of 21.5 kg, of the upper rails at 0.95 kg/m and of 7 clamps of 0.06 kg
/// on each, times sin 32°: what the connectors pass on where only wind acts besides. All crossings of an upper rail
/// together have its part of that, and no more than a twelfth of a percent is lost in printing.
#[test]
fn connectors_pass_on_what_slides_by_hand() {
    let job = boathouse(&[]);
    let trace = post("/v1/layouts?trace=full", job.to_string().as_bytes()).json();
    let end = "/uls:G-W:front:lifting";
    let slides: f64 = list(&trace["trace"])
        .iter()
        .filter(|line| {
            let of = line["element"].as_str().unwrap_or_default();
            let crossing = of.strip_suffix(end).is_some_and(|of| of.contains('/'));
            crossing && line["symbol"] == "S"
        })
        .map(|line| number(&line["value"]))
        .sum();
    let upper = of_layer(&trace, "upper");
    let metres: f64 = upper.iter().map(|rail| number(&rail["length_mm"]) / 1000.0).sum();
    let mass = 12.0 * 21.5 + 0.95 * metres + 4.0 * 7.0 * 0.06;
    let by_hand = mass * 9.81 / 1000.0 * 32.0_f64.to_radians().sin();
    assert!((slides - by_hand).abs() < 1e-3 * by_hand, "{slides} kN, by hand {by_hand}");
}

#[test]
fn connectors_are_ordered_checked_and_asked_for() {
    let laid = laid_out(&[]);
    let crossings: usize =
        of_layer(&laid, "upper").iter().map(|rail| list(&rail["crossings"]).len()).sum();
    let order = list(&laid["parts"]["lines"]);
    let connectors = order.iter().find(|line| line["kind"] == "crossing_connector");
    let connectors = connectors.expect("connectors are ordered");
    assert_eq!(connectors["needed"], json!(crossings));
    for rail in of_layer(&laid, "upper") {
        let most = list(&rail["crossings"])
            .iter()
            .map(|crossing| number(&crossing["utilisation"]))
            .fold(0.0, f64::max);
        assert_eq!(rail["utilisation_by_check"]["crossing"], json!(most), "{rail}");
    }
    let unknown = laid_out(&[("/components/rail/crossing", Value::Null)]);
    assert_eq!(unknown["verdict"], "incomplete");
    let told = warnings(&unknown, "rail.crossing-unknown");
    assert_eq!(told.len(), 1);
    assert_eq!(param(told[0], "crossings"), &json!(crossings));
    let weak = laid_out(&[("/components/rail/crossing", json!({"lift_kn": 0.4, "slide_kn": 0.4}))]);
    assert_eq!(weak["verdict"], "fails");
    assert!(!warnings(&weak, "rail.crossing-overloaded").is_empty(), "{}", weak["warnings"]);
}

#[test]
fn what_stands_of_rails_that_cross_is_refused_at_its_pointer() {
    let mut built = example(BUILT);
    built["array"]["rail_direction"] = json!("crossing");
    let reply = post("/v1/rechecks", built.to_string().as_bytes());
    assert_eq!(reply.status, 422);
    let faults = reply.json()["errors"].clone();
    let at = |faults: &Value, pointer: &str| {
        list(faults)
            .iter()
            .any(|fault| fault["pointer"] == pointer && fault["code"] == "not_covered")
    };
    assert!(at(&faults, "/array/rail_direction"), "{faults}");
    let kept = boathouse(&[("/kept", example(BUILT)["built"].clone()), ("/capacity", json!(true))]);
    let reply = post("/v1/layouts", kept.to_string().as_bytes());
    let faults = reply.json()["errors"].clone();
    assert_eq!(reply.status, 422, "{faults}");
    assert!(at(&faults, "/kept") && at(&faults, "/capacity"), "{faults}");
    let staggered = boathouse(&[("/wishes/objective", json!("staggered"))]);
    let reply = post("/v1/layouts", staggered.to_string().as_bytes());
    assert!(at(&reply.json()["errors"], "/wishes/objective"), "{}", reply.text());
}

#[test]
fn drawing_and_sheet_show_both_layers() {
    let job = boathouse(&[]).to_string();
    let drawn = send(
        "POST",
        "/v1/layouts",
        &[("content-type", "application/json"), ("accept", "image/svg+xml")],
        job.as_bytes(),
    );
    let laid = laid_out(&[]);
    for rail in of_layer(&laid, "upper") {
        let name = rail["id"].as_str().expect("a name");
        assert!(drawn.text().contains(&format!(">{name} · ")), "{name} is named at its height");
    }
    let sheet = send(
        "POST",
        "/v1/layouts",
        &[("content-type", "application/json"), ("accept", "text/html")],
        job.as_bytes(),
    );
    let text = sheet.text();
    assert!(
        text.contains("Lower rails, on the hooks") && text.contains("Upper rails, on the lower")
    );
    assert!(text.contains("Connector of crossing rails"));
}

/// Where rails hang on no rafter at all the upper ones are still told, each by its name.
#[test]
fn rails_that_nothing_holds_are_named_and_fail() {
    let barred: Vec<u64> = (0..13).collect();
    let laid = laid_out(&[("/roof/rafters/barred", json!(barred))]);
    assert_eq!(laid["verdict"], "fails");
    let names: Vec<&str> =
        list(&laid["rails"]).iter().filter_map(|rail| rail["id"].as_str()).collect();
    assert_eq!(names, ["B1", "B2", "B3", "B4"]);
    assert_eq!(warnings(&laid, "rail.upper-rail-not-held").len(), 4, "{}", laid["warnings"]);
}
