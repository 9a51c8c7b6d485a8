//! Countries: what an annex changes in an answer, and what it says where it does not know.

use serde_json::{Value, json};

use crate::server::{ACTIONS, answer, list, warnings};

/// The actions of the barn under an annex, with what the site says of snow and wind.
fn actions(annex: &str, snow: &Value, wind: &Value, edit: impl Fn(&mut Value)) -> Value {
    let mut request: Value = serde_json::from_str(ACTIONS).expect("an example");
    request["rules"] = json!({ "family": "eurocode", "annex": annex });
    request["site"]["snow"] = snow.clone();
    request["site"]["wind"] = wind.clone();
    edit(&mut request);
    answer("/v1/actions", &request)
}

fn ids(answer: &Value) -> Vec<&str> {
    let all = list(&answer["actions"]["combinations"]);
    all.iter().map(|c| c["id"].as_str().expect("an id")).collect()
}

fn known(answer: &Value, value: &str) -> String {
    let found = list(&answer["actions"]["evidence"])
        .iter()
        .find(|of| of["value"] == value)
        .expect("the value is listed");
    found["known"].as_str().expect("how").to_owned()
}

fn warns(answer: &Value, code: &str) -> bool {
    !warnings(answer, code).is_empty()
}

fn assumed(answer: &Value) -> Vec<&str> {
    let all = list(&answer["assumptions"]);
    all.iter().map(|a| a["pointer"].as_str().expect("a pointer")).collect()
}

/// NF EN 1991-1-3/NA: zone C2 has exceptional snow, 1.35 kN/m², and zone C1 has none; nobody has to say.
#[test]
fn the_french_map_says_where_exceptional_snow_is_to_be_considered() {
    let wind = json!({ "zone": "2", "terrain_category": "IIIa" });
    let with = actions("FR", &json!({ "zone": "C2" }), &wind, |_| ());
    let load = &with["actions"]["snow"]["exceptional_ground_load_kn_per_m2"];
    assert_eq!(load.as_f64(), Some(1.35));
    assert!(ids(&with).contains(&"acc:G+A") && ids(&with).contains(&"acc:G+A+W:front:pressing"));
    let without = actions("FR", &json!({ "zone": "C1" }), &wind, |_| ());
    assert!(!ids(&without).iter().any(|id| id.starts_with("acc:")));
    for answer in [&with, &without] {
        assert!(!warns(answer, "snow.exceptional-not-said"));
        assert!(!assumed(answer).contains(&"/site/snow/exceptional"));
        assert!(assumed(answer).contains(&"/site/wind/orography_factor"));
    }
    // Where the load is given instead of the zone, it has to be said.
    let given = actions("FR", &json!({ "ground_load_kn_per_m2": 0.8 }), &wind, |_| ());
    assert!(warns(&given, "snow.exceptional-not-said"));
    assert_eq!([known(&with, "ground_snow"), known(&given, "ground_snow")], ["confirmed", "given"]);
}

/// NEN-EN 1990/NB: nothing accompanies, so that no combination has snow and wind; the weight counts for
/// more where it acts alone.
#[test]
fn dutch_actions_act_alone_by_the_pair_of_rules() {
    let wind = json!({ "zone": "II", "terrain_category": "III" });
    let answer = actions("NL", &json!({ "exceptional": false }), &wind, |_| ());
    assert_eq!(answer["actions"]["snow"]["ground_load_kn_per_m2"].as_f64(), Some(0.7));
    let strength: Vec<&str> =
        ids(&answer).into_iter().filter(|id| id.starts_with("uls:")).collect();
    assert!(strength.contains(&"uls:Ga") && strength.contains(&"uls:G+S"));
    let both = |id: &&str| id.contains('S') && id.contains('W');
    assert_eq!(strength.iter().find(|id| both(id)), None);
    let weight = |id: &str| {
        let all = list(&answer["actions"]["combinations"]);
        all.iter().find(|c| c["id"] == id).expect("the combination")["weight"].as_f64()
    };
    assert_eq!([weight("uls:Ga"), weight("uls:G+S")], [Some(1.35), Some(1.2)]);
    assert_eq!(weight("uls:G-W:left:lifting"), Some(0.9));
}

/// No source has the Dutch table of hipped roofs: the recommended one stands in, and says so.
#[test]
fn a_dutch_hipped_roof_is_incomplete_until_somebody_answers_for_its_coefficients() {
    let wind = json!({ "zone": "II", "terrain_category": "III" });
    let hipped = |request: &mut Value| {
        request["roof"]["form"] = json!("hipped");
        request["roof"]["edges"] = json!(["eaves", "hip", "ridge", "hip"]);
        request["roof"]["outline_mm"] = json!([[0, 0], [12400, 0], [8100, 5786], [4300, 5786]]);
    };
    let snow = json!({ "exceptional": false });
    let answer = actions("NL", &snow, &wind, hipped);
    assert_eq!(known(&answer, "wind_coefficients"), "stand_in");
    assert!(warns(&answer, "rules.stand-in"));
    let duopitch = actions("NL", &snow, &wind, |_| ());
    assert_eq!(known(&duopitch, "wind_coefficients"), "confirmed");
    assert!(!warns(&duopitch, "rules.stand-in"));
}

/// PN-EN 1991-1-4/NA, Tables NA.1 and NA.3: 22 m/s and half of 1.25 times its square, raised from 300 m to
/// 380 m by the square of 1 + 0.0006·80 = 1.048, times 2.3 (8.2/10)^0.24.
#[test]
fn polish_wind_follows_the_exposure_factors_of_its_annex() {
    let wind = json!({ "zone": "1", "terrain_category": "II" });
    let answer = actions("PL", &json!({ "zone": "2", "exceptional": false }), &wind, |_| ());
    let peak = answer["actions"]["wind"]["peak_pressure_kn_per_m2"].as_f64().expect("a number");
    assert!((peak - 0.3025 * 1.048_f64.powi(2) * 2.3 * 0.82_f64.powf(0.24)).abs() < 1e-4, "{peak}");
    assert_eq!(known(&answer, "wind_coefficients"), "from_memory");
    assert!(warns(&answer, "rules.from-memory"));
}
