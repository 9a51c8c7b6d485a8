//! What the trade asks for: rule pitch, distances from edges, party walls.

use serde_json::{Value, json};

use crate::server::{BARN, all_known, answer, list, number, param, warnings};

fn lay_out(job: &Value) -> Value {
    answer("/v1/layouts", job)
}

/// The barn at a pitch, with more said of its covering.
fn at(pitch: f64, covering: &Value) -> Value {
    let mut job = all_known(BARN);
    job["roof"]["pitch_deg"] = json!(pitch);
    let said = covering.as_object().expect("an object").clone();
    job["roof"]["covering"].as_object_mut().expect("an object").extend(said);
    lay_out(&job)
}

fn codes(answer: &Value) -> Vec<&str> {
    let all = list(&answer["warnings"]).iter();
    let codes = all.filter_map(|warning| warning["code"].as_str());
    codes.filter(|code| code.starts_with("covering.")).collect()
}

fn assumed<'a>(answer: &'a Value, code: &str) -> Option<&'a Value> {
    list(&answer["assumptions"]).iter().find(|assumption| assumption["code"] == code)
}

/// Rule pitch 30° of flat tiles laid double: the German guild's rules of 2006, as a trade encyclopedia
/// quotes their table; some flat tiles have 35° (British association of makers).
#[test]
fn without_a_word_the_rule_pitch_of_common_practice_is_assumed_and_listed() {
    let steep = at(42.0, &json!({}));
    assert!(codes(&steep).is_empty(), "{}", steep["warnings"]);
    let of = &steep["covering"]["rule_pitch"];
    assert_eq!((&of["rule_pitch_deg"], &of["by"]), (&json!(30.0), &json!("common_practice")));
    let said = assumed(&steep, "covering.rule-pitch").expect("an assumption");
    assert_eq!((&said["value"], &said["unit"]), (&json!(30.0), &json!("°")));
    assert!(said["why"].as_str().expect("a reason").starts_with("common practice"));
    assert_eq!(codes(&at(32.0, &json!({}))), ["covering.rule-pitch-assumed"]);
    let stated = at(32.0, &json!({"guild_pitch": {"rule_pitch_deg": 30, "source": "the guild"}}));
    assert!(codes(&stated).is_empty(), "{}", stated["warnings"]);
    assert_eq!(assumed(&stated, "covering.rule-pitch"), None);
}

/// Flat tiles of 30° on a roof of 25° need a class of 3; at 21° 2; below 18° they may not be laid
/// (`src/covering/watertight.rs` names what that rests on). Hooks pass through parts made for the tile.
#[test]
fn below_the_rule_pitch_underlay_and_hooks_have_to_suit() {
    let bare = at(25.0, &json!({}));
    let asked = [
        "covering.underlay-not-enough",
        "covering.hooks-through-laps",
        "covering.below-rule-pitch",
    ];
    assert_eq!(codes(&bare), asked);
    assert_eq!(bare["verdicts"]["covering"], "incomplete");
    assert_eq!(bare["covering"]["rule_pitch"]["underlay_class_needed"], 3);
    assert_eq!(assumed(&bare, "covering.hook-passage").expect("listed")["value"], "headlap");
    assert_eq!(assumed(&bare, "covering.least-pitch").expect("listed")["value"], 18.0);
    let helped = |class: u32, passage: &str| json!({"underlay": {"class": class, "source": "seen"}, "hook_passage": passage});
    let met = at(25.0, &helped(3, "system_part"));
    assert_eq!(codes(&met), ["covering.below-rule-pitch"]);
    assert_eq!(met["verdicts"]["covering"], "holds_with_warnings");
    let short = at(21.0, &helped(3, "universal_part"));
    assert_eq!(codes(&short), asked);
    let [told] = &warnings(&short, "covering.underlay-not-enough")[..] else { panic!("{short}") };
    assert_eq!((param(told, "need_class"), param(told, "have_class")), (&json!(2), &json!(3)));
    let flat = at(17.0, &helped(1, "system_part"));
    assert_eq!(codes(&flat), ["covering.below-least-pitch"]);
    assert_eq!(flat["verdicts"]["covering"], "fails");
}

/// "Several makers publish lower pitches than the guild rule; using them must be agreed in the contract"
/// (trade press on rule pitches, in own words).
#[test]
fn the_steeper_of_guild_and_maker_governs_unless_the_makers_is_agreed() {
    let both = |maker: f64, agreed: Option<&str>| {
        let mut said = json!({
            "guild_pitch": {"rule_pitch_deg": 30, "source": "the guild"},
            "maker_pitch": {"rule_pitch_deg": maker, "source": "the maker"},
        });
        if let Some(contract) = agreed {
            said["maker_pitch"]["agreed_in"] = json!(contract);
        }
        at(27.0, &said)
    };
    let of = |answer: &Value| {
        let of = &answer["covering"]["rule_pitch"];
        (number(&of["rule_pitch_deg"]), of["by"].clone(), of["source"].clone())
    };
    let lower = both(25.0, None);
    assert_eq!(of(&lower), (30.0, json!("guild"), json!("the guild")));
    let [told] = &warnings(&lower, "covering.below-rule-pitch")[..] else { panic!("{lower}") };
    assert_eq!(*param(told, "maker_pitch_deg"), 25.0);
    let agreed = both(25.0, Some("contract, section 4"));
    assert_eq!(of(&agreed), (25.0, json!("maker"), json!("the maker")));
    assert!(codes(&agreed).is_empty(), "{}", agreed["warnings"]);
    assert_eq!(of(&both(35.0, None)), (35.0, json!("maker"), json!("the maker")));
    let alone = json!({"maker_pitch": {"rule_pitch_deg": 25, "source": "the maker"}});
    assert_eq!(codes(&at(27.0, &alone)), ["covering.maker-pitch-not-agreed"]);
}

/// The barn's modules begin 800 mm from the left verge and its rails 40 mm before them; 300 mm is what
/// an installer's page quotes of British training, and what is taken where nothing is said.
#[test]
fn the_array_stays_from_edges_as_far_as_is_usual_or_said() {
    let at = |x: f64, distances: Value| {
        let mut job = all_known(BARN);
        job["array"]["fields"][0]["origin_mm"] = json!([x, 900.0]);
        job["roof"]["edge_distances"] = distances;
        lay_out(&job)
    };
    let usual = at(300.0, json!([]));
    assert_eq!(assumed(&usual, "array.edge-distance").expect("listed")["value"], 300.0);
    assert!(warnings(&usual, "array.near-edge").is_empty());
    let near = at(299.0, json!([]));
    let [told] = &warnings(&near, "array.near-edge")[..] else { panic!("{near}") };
    assert_eq!(told["severity"], "warning");
    let params = |name: &str| param(told, name);
    assert_eq!(
        (params("edge"), params("side"), params("have_mm")),
        (&json!("verge"), &json!(3), &json!(299.0))
    );
    assert_eq!(*params("element"), "A/0/0");
    let of = |part: &str, least: f64| json!([{"edge": "verge", "part": part, "least_mm": least, "source": "page 6"}]);
    for (part, have) in [("modules", 800.0), ("rails", 760.0)] {
        let enough = at(800.0, of(part, have));
        assert!(warnings(&enough, "array.inside-edge-distance").is_empty(), "{part}");
        let short = at(800.0, of(part, have + 1.0));
        let [told] = &warnings(&short, "array.inside-edge-distance")[..] else { panic!("{short}") };
        assert_eq!((param(told, "have_mm"), &told["severity"]), (&json!(have), &json!("failure")));
        assert_eq!(short["verdicts"]["covering"], "fails");
    }
    // The foot of the outermost hook is 140 mm wide, and its rafter lies at 862 mm.
    let hooks = at(800.0, of("hooks", 862.0 - 70.0 + 1.0));
    let [told] = &warnings(&hooks, "array.inside-edge-distance")[..] else { panic!("{hooks}") };
    assert_eq!(*param(told, "have_mm"), 792.0);
}

/// The barn as a house in a row, whose modules end at 11 166 mm and rails at 11 206 mm.
fn in_a_row(right: f64, wall: &Value) -> Value {
    let mut job = all_known(BARN);
    job["roof"]["outline_mm"] = json!([[0, 0], [right, 0], [right, 5786], [0, 5786]]);
    job["roof"]["edges"] = json!(["eaves", "party_wall", "ridge", "verge"]);
    job["roof"]["length_m"] = json!(right / 1000.0);
    if !wall.is_null() {
        job["roof"]["party_walls"] = json!([wall]);
    }
    job
}

/// 0.5 m for arrays parallel to the roof by the German model building regulations of 2022, 32(5), and
/// 1.25 m by older ones: newspapers and associations quote them; states differ, so the caller says.
#[test]
fn arrays_stay_from_party_walls_as_the_building_regulations_ask() {
    let asked = |least: f64| json!({"side": 1, "fire_distance": {"least_mm": least, "source": "regulations, 32(5)"}});
    let far = lay_out(&in_a_row(12_456.0, &Value::Null));
    assert!(warnings(&far, "array.fire-distance-unknown").is_empty());
    let unsaid = lay_out(&in_a_row(12_455.0, &Value::Null));
    let [told] = &warnings(&unsaid, "array.fire-distance-unknown")[..] else { panic!("{unsaid}") };
    assert_eq!((param(told, "have_mm"), &told["severity"]), (&json!(1249.0), &json!("incomplete")));
    let missing = &list(&unsaid["missing"])[0];
    assert_eq!(
        (&missing["act"], &missing["pointer"]),
        (&json!("look_up"), &json!("/roof/party_walls"))
    );
    let kept = lay_out(&in_a_row(11_706.0, &asked(500.0)));
    assert!(warnings(&kept, "array.inside-fire-distance").is_empty());
    let short = lay_out(&in_a_row(11_706.0, &asked(501.0)));
    assert_eq!(warnings(&short, "array.inside-fire-distance").len(), 1);
    assert_eq!(short["verdicts"]["covering"], "fails");
    // Half of a wall of 240 mm stands under the covering on this side of the line between the houses.
    let mut thick = asked(500.0);
    thick["wall_on_slope_mm"] = json!(120.0);
    let short = lay_out(&in_a_row(11_706.0, &thick));
    let [told] = &warnings(&short, "array.inside-fire-distance")[..] else { panic!("{short}") };
    assert_eq!(*param(told, "have_mm"), 380.0);
}

/// EN 1991-1-4 7.2.5: bands along the eaves are `e/10` deep with `e` the smaller of the length across the
/// wind and twice the height. A house of 12.4 m and a ridge at 8.2 m by itself has `e` of 12.4 m; in a row
/// of 16.4 m or more, 16.4 m.
#[test]
fn wind_zones_are_those_of_the_row_and_along_a_party_wall_those_of_a_verge() {
    let depth = |answer: &Value| {
        let zones = list(&answer["actions"]["wind"]["zones"]).iter();
        let mut of_g = zones.filter(|zone| zone["direction"] == "front" && zone["zone"] == "G");
        let outline = list(&of_g.next().expect("a zone G")["outline_mm"]);
        outline.iter().map(|point| number(&point[1])).fold(0.0, f64::max)
    };
    let beyond = |length: f64| json!({"side": 1, "roof_beyond_m": length});
    let on_slope = |e: f64| e * 100.0 / 42.0_f64.to_radians().cos();
    let row = |wall: Value| lay_out(&in_a_row(12_400.0, &wall));
    let alone = row(beyond(0.0));
    for (answer, e) in [
        (&alone, 12.4),
        (&row(beyond(2.0)), 14.4),
        (&row(beyond(30.0)), 16.4),
        (&row(Value::Null), 16.4),
    ] {
        assert!((depth(answer) - on_slope(e)).abs() < 0.5, "{} {e}", depth(answer));
    }
    let gable = lay_out(&all_known(BARN));
    assert_eq!(alone["actions"]["wind"]["zones"], gable["actions"]["wind"]["zones"]);
    assert!(warnings(&alone, "roof.edge-not-computed").is_empty());
    for code in ["party-wall.as-verge", "party-wall.below-covering"] {
        assert!(assumed(&alone, code).is_some(), "{code}");
    }
    let length = assumed(&row(Value::Null), "party-wall.roof-beyond").cloned();
    assert_eq!(length.expect("listed")["value"], 16_400.0);
}

/// EN 1991-1-3 5.3.6: against a wall of 0.9 m, `mu_w` is what fills it, 2 kN/m³ times 0.9 m over the snow
/// on the ground.
#[test]
fn snow_drifts_against_a_party_wall_that_rises_above_the_covering() {
    let mut job = in_a_row(12_400.0, &json!({"side": 1, "roof_beyond_m": 18.0}));
    let wall = json!({"side": 1, "height_m": 0.9, "upper_width_m": 0, "upper_pitch_deg": 0});
    job["roof"]["abutments"] = json!([wall]);
    let answer = lay_out(&job);
    assert!(assumed(&answer, "party-wall.below-covering").is_none());
    let drifts = &answer["actions"]["snow"]["arrangements"][0]["drifts"];
    let [drift] = list(drifts) else { panic!("{}", answer["actions"]["snow"]) };
    let ground = number(&answer["actions"]["snow"]["ground_load_kn_per_m2"]);
    let shape = number(&drift["shape_factor"]);
    assert!((shape - 2.0 * 0.9 / ground).abs() < 1e-3, "{drift} on {ground}");
}

#[test]
fn lines_the_array_stays_behind_are_drawn_and_explained() {
    let mut job = in_a_row(
        11_706.0,
        &json!({"side": 1, "fire_distance": {"least_mm": 500, "source": "regulations"}}),
    );
    let drawn = |job: &Value| {
        let headers = [("accept", "image/svg+xml"), ("content-type", "application/json")];
        crate::server::send("POST", "/v1/layouts", &headers, job.to_string().as_bytes())
    };
    let explained = "Array to stay behind this line";
    assert!(drawn(&job).text().contains(explained));
    job["roof"]["party_walls"] = json!([]);
    assert!(!drawn(&job).text().contains(explained));
}
