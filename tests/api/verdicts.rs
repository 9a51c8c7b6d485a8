//! What a verdict must not hide: every case here once read "holds", or said what was not so.

use serde_json::{Value, json};

use crate::server::{BARN, COTTAGE, all_known, answer, example, list, number, param, warnings};

fn lay_out(job: &Value) -> Value {
    answer("/v1/layouts", job)
}

fn missing(answer: &Value) -> Vec<&Value> {
    list(&answer["missing"]).iter().map(|missing| &missing["pointer"]).collect()
}

/// The barn with all that is known of it holds: what is changed below is what makes the difference.
#[test]
fn the_barn_without_its_chimney_holds() {
    let answer = lay_out(&all_known(BARN));
    assert_eq!(answer["verdict"], "holds_with_warnings", "{}", answer["warnings"]);
    assert_eq!(answer["missing"], json!([]));
}

/// 140 mm of screw through 6 mm of foot, 8 mm of packers and 30 mm of counter-batten reach 96 mm; 80 mm of
/// thread begin 16 mm below the face. A rafter of 90 mm holds no more than 74 mm of it, for the point comes
/// out and holds nothing; one of 65 mm under a packer of 1 mm holds 42 mm, less than the 48 mm that count
/// at all.
#[test]
fn thread_outside_the_rafter_holds_nothing() {
    let at = |depth: f64| {
        let mut job = all_known(BARN);
        job["roof"]["rafters"]["depth_mm"] = json!(depth);
        // Thin rafters fail by themselves: that is not what is asked about here.
        job["roof"]["rafters"].as_object_mut().expect("rafters").remove("span_m");
        lay_out(&job)
    };
    // The search answers less resistance with more hooks, or with hooks that are used more.
    let used = |answer: &Value| {
        let hooks = list(&answer["hooks"]);
        let screws = hooks.iter().map(|hook| number(&hook["utilisation"]["screws"]));
        (hooks.len(), screws.fold(0.0, f64::max))
    };
    let [whole, shorter] = [at(160.0), at(90.0)];
    // 140 mm less 6 mm of plate, 8 mm of packers and 30 mm of counter-batten.
    assert_eq!(whole["hooks"][0]["embedment_mm"], 96.0);
    assert_eq!(shorter["hooks"][0]["embedment_mm"], 90.0);
    assert!(used(&shorter) > used(&whole), "{:?} {:?}", used(&shorter), used(&whole));
    assert_eq!(warnings(&shorter, "screw.longer-than-rafter").len(), 1);
    let hardly = at(65.0);
    assert_eq!(hardly["verdict"], "fails");
    let [short] = &warnings(&hardly, "screw.too-short")[..] else { panic!("{hardly}") };
    assert_eq!(*param(short, "threaded_mm"), 42.0);
}

#[test]
fn invented_parts_are_named_and_nothing_holds_with_them() {
    let mut job = all_known(BARN);
    job["components"] = json!({
        "hook": "demo-plain-tile-side-hook-12", "screw": "demo-wood-screw-8x140",
        "rail": "demo-rail-40", "clamp": "demo-clamp-30", "packers": "demo-packer-set",
    });
    let named = lay_out(&job);
    assert_eq!(named["verdict"], "incomplete");
    let [invented] = &warnings(&named, "parts.invented")[..] else { panic!("{named}") };
    for id in ["demo-plain-tile-side-hook-12", "demo-packer-set"] {
        assert!(invented["message"].as_str().expect("a sentence").contains(id));
    }
    assert_eq!(missing(&named).len(), 5);
    // One of them is enough, also when its figures are copied out under its own id.
    let mut job = all_known(BARN);
    job["components"]["rail"]["id"] = json!("demo-rail-40");
    let copied = lay_out(&job);
    assert_eq!(copied["verdict"], "incomplete");
    assert_eq!(missing(&copied), ["/components/rail"]);
    job["components"]["hook"] = json!("plain-tile-side-hook-12");
    let reply = crate::server::post("/v1/layouts", job.to_string().as_bytes());
    assert_eq!(reply.problem()["errors"][0]["code"], "unknown_component");
}

#[test]
fn edges_that_are_not_computed_make_it_incomplete() {
    let with = |outline: Value, edges: Value| {
        let mut job = all_known(BARN);
        job["roof"]["outline_mm"] = outline;
        job["roof"]["edges"] = edges;
        // On the axis of the rafter, so that no foot rolls.
        job["components"]["hook"]["foot"]["screws_mm"] = json!([[0, 15], [0, 75]]);
        lay_out(&job)
    };
    let rectangle = || json!([[0, 0], [12400, 0], [12400, 5786], [0, 5786]]);
    for (outline, edges, sides, may_drift) in [
        (rectangle(), json!(["abutment", "verge", "ridge", "verge"]), &[0][..], true),
        (rectangle(), json!(["eaves", "abutment", "ridge", "abutment"]), &[1, 3], true),
        // A valley at the right, half a hip at the upper left, a notch in the eaves.
        (
            json!([[0, 0], [12400, 0], [14000, 5786], [0, 5786]]),
            json!(["eaves", "valley", "ridge", "verge"]),
            &[1],
            true,
        ),
        (
            json!([[0, 0], [12400, 0], [12400, 5786], [500, 5786], [0, 5286]]),
            json!(["eaves", "verge", "ridge", "hip", "verge"]),
            &[3],
            false,
        ),
        (
            json!([[0, 0], [12000, 0], [12000, 500], [12400, 500], [12400, 5786], [0, 5786]]),
            json!(["eaves", "verge", "eaves", "verge", "ridge", "verge"]),
            &[1, 2],
            false,
        ),
    ] {
        let answer = with(outline, edges);
        assert_eq!(answer["verdict"], "incomplete", "{sides:?}: {}", answer["warnings"]);
        let told = warnings(&answer, "roof.edge-not-computed");
        assert_eq!((told.len(), param(told[0], "sides")), (1, &json!(sides)));
        let mut named: Vec<String> =
            sides.iter().map(|side| format!("/roof/edges/{side}")).collect();
        // What the snow does there can be said.
        let drift = warnings(&answer, "snow.drift-unknown");
        named.extend(drift.iter().map(|drift| match param(drift, "edge").as_str() {
            Some("valley") => "/roof/valleys".to_owned(),
            _ => "/roof/abutments".to_owned(),
        }));
        assert_eq!(drift.len(), usize::from(may_drift), "{}", answer["warnings"]);
        assert_eq!(missing(&answer), named.iter().collect::<Vec<_>>());
    }
}

#[test]
fn a_guard_holds_snow_whether_it_is_said_or_not() {
    let mut job = all_known(BARN);
    job["roof"]["obstacles"] = json!([
        {"kind": "snow_guard", "outline_mm": [[0, 300], [12400, 300], [12400, 500], [0, 500]]},
    ]);
    let factor = |answer: &Value| number(&answer["actions"]["snow"]["shape_factor"]);
    job["site"].as_object_mut().expect("a site").remove("snow_held");
    let assumed = lay_out(&job);
    let held = list(&assumed["assumptions"]).iter().find(|a| a["pointer"] == "/site/snow_held");
    assert_eq!(held.map(|held| &held["code"]), Some(&json!("snow.held")));
    job["site"]["snow_held"] = json!(true);
    let said = lay_out(&job);
    assert_eq!((factor(&assumed), factor(&said)), (0.8, 0.8));
    for answer in [&assumed, &said] {
        assert!(warnings(answer, "snow.guard-not-computed").is_empty());
        assert_ne!(answer["verdict"], "incomplete");
    }
    // Whoever says that nothing holds it contradicts himself.
    job["site"]["snow_held"] = json!(false);
    let answer = lay_out(&job);
    assert_eq!((factor(&answer), &answer["verdict"]), (0.48, &json!("incomplete")));
    assert_eq!(missing(&answer), ["/site/snow_held"]);
}

/// With everything said of the wall what is left is the wind beside it, which no rule has; with
/// coefficients somebody answers for, nothing is.
#[test]
fn snow_against_a_wall_is_computed_once_the_wall_is_described() {
    let mut job = all_known(BARN);
    job["roof"]["edges"] = json!(["eaves", "verge", "abutment", "verge"]);
    job["components"]["rail"]["axis_offset_mm"] = json!(0.0);
    job["components"]["hook"]["foot"]["thickness_mm"] = json!(8.0);
    let unknown = lay_out(&job);
    assert_eq!(unknown["verdict"], "incomplete");
    assert_eq!(missing(&unknown), ["/roof/edges/2", "/roof/abutments"]);
    job["roof"]["abutments"] = json!([
        {"side": 2, "height_m": 1.5, "upper_width_m": 8, "upper_pitch_deg": 10},
    ]);
    let known = lay_out(&job);
    assert_eq!(missing(&known), ["/roof/edges/2"]);
    // γ h / s_k = 2·1.5/1.1442 = 2.622, less than (8 + 4.3)/3 = 4.1; 2 h = 3 m, at least 5 m.
    let [arrangement] = list(&known["actions"]["snow"]["arrangements"]) else { panic!("{known}") };
    assert_eq!(
        (&arrangement["id"], &arrangement["base_shape_factor"]),
        (&json!("wall-above"), &json!(0.8))
    );
    let drift = &arrangement["drifts"][0];
    assert!((number(&drift["shape_factor"]) - 2.622).abs() < 1e-3, "{drift}");
    assert_eq!((&drift["side"], &drift["length_m"]), (&json!(2), &json!(5.0)));
    let ids =
        list(&known["actions"]["combinations"]).iter().map(|c| c["id"].as_str().unwrap_or(""));
    assert!(ids.clone().any(|id| id == "uls:G+S:wall-above"));
    assert!(ids.clone().any(|id| id == "sls:G+S+W:wall-above:front:pressing"));
    let most = |answer: &Value| number(&answer["utilisation"]["max"]);
    assert!(most(&known) > most(&unknown), "{} and {}", most(&known), most(&unknown));
    job["site"]["wind"] = json!({
        "peak_pressure_kn_per_m2": 0.65, "model": "given",
        "net_coefficients": {"suction": -0.5, "pressure": 0.2},
    });
    let given = lay_out(&job);
    assert!(warnings(&given, "roof.edge-not-computed").is_empty());
    assert_ne!(given["verdicts"]["fixing"], "incomplete", "{}", given["warnings"]);
}

/// A dormer as wide as a chimney never is, on a steep roof: somebody has to answer for the snow at it.
/// A chimney, a window and what lies low or far off asks nothing.
#[test]
fn wide_obstacles_beside_modules_gather_snow() {
    let beside = |x: [i32; 2], more: Value| {
        let mut job = all_known(BARN);
        job["components"]["rail"]["axis_offset_mm"] = json!(0.0);
        let [left, right] = x;
        let mut obstacle = json!({
            "kind": "dormer", "cuts_no_rafter": true,
            "outline_mm": [[left, 3000], [right, 3000], [right, 4400], [left, 4400]],
        });
        for (name, value) in more.as_object().expect("members") {
            obstacle[name] = value.clone();
        }
        job["roof"]["obstacles"] = json!([obstacle]);
        lay_out(&job)
    };
    let wide = [11_250, 12_300];
    assert_eq!(missing(&beside(wide, json!({}))), ["/roof/obstacles/0/height_mm"]);
    let high = json!({"height_mm": 1200});
    assert_eq!(missing(&beside(wide, high)), ["/roof/obstacles/0/drift_shape_factor"]);
    let answered = beside(wide, json!({"height_mm": 1200, "drift_shape_factor": 0.9}));
    assert!(missing(&answered).is_empty(), "{}", answered["warnings"]);
    assert_eq!(answered["actions"]["snow"]["arrangements"][0]["id"], "obstacles");
    for (kind, more) in
        [("dormer", json!({"height_mm": 300})), ("roof_window", json!({"kind": "roof_window"}))]
    {
        assert!(missing(&beside(wide, more)).is_empty(), "{kind}");
    }
}

/// Modules that begin 250 mm above the eaves bear what hangs over them: in Germany `k s²/γ` with
/// `k = min(3/d, d γ, 0.4)`, here 0.4 · 0.5492² / 3 = 0.0402 kN/m.
#[test]
fn snow_over_the_eaves_loads_what_is_near() {
    let mut job = all_known(BARN);
    let far = lay_out(&job);
    assert_eq!(far["actions"]["snow"].get("arrangements"), None);
    job["array"]["fields"][0]["origin_mm"][1] = json!(250.0);
    let near = lay_out(&job);
    let arrangement = &near["actions"]["snow"]["arrangements"][0];
    assert_eq!(arrangement["id"], "eaves");
    assert!((number(&arrangement["eaves_kn_per_m"]) - 0.0402).abs() < 1e-4, "{arrangement}");
}

/// The chimney from 11500 to 12000 cuts the rafter at 11760; trimmers lay its load on those at 10975,
/// where hooks stand, and 12310.
#[test]
fn a_rafter_cut_by_an_opening_is_not_carried_on() {
    let answer = lay_out(&example(BARN));
    assert_eq!(answer["verdict"], "incomplete");
    let [cut] = &warnings(&answer, "rafter.cut-by-opening")[..] else { panic!("{answer}") };
    assert_eq!((param(cut, "rafters"), param(cut, "hooks_on")), (&json!([15]), &json!([14])));
    // An aerial on a bracket cuts nothing, an opening between two rafters neither.
    for (kind, [left, right]) in [("aerial", [11500, 12000]), ("vent", [11840, 12040])] {
        let mut job = all_known(BARN);
        job["roof"]["obstacles"] = json!([{
            "kind": kind,
            "outline_mm": [[left, 4300], [right, 4300], [right, 4900], [left, 4900]],
        }]);
        assert_eq!(lay_out(&job)["verdict"], "holds_with_warnings", "{kind}");
    }
    // Nor does one of which somebody who looked says so, and what he says it cuts counts.
    let mut job = all_known(BARN);
    job["roof"]["obstacles"] = example(BARN)["roof"]["obstacles"].clone();
    let assumed = |answer: &Value| {
        list(&answer["assumptions"]).iter().any(|one| one["code"] == "obstacle.cuts-rafters")
    };
    let unsaid = lay_out(&job);
    let [cut] = &warnings(&unsaid, "rafter.cut-by-opening")[..] else { panic!("{unsaid}") };
    assert!(cut["message"].as_str().expect("words").contains("Look in the loft"));
    assert_eq!(
        (param(cut, "stated"), &unsaid["missing"][0]["act"]),
        (&json!(false), &json!("measure"))
    );
    assert!(assumed(&unsaid));
    job["roof"]["obstacles"][0]["cuts_no_rafter"] = json!(true);
    let none = lay_out(&job);
    assert_eq!(none["verdict"], "holds_with_warnings");
    assert!(!assumed(&none) && !none.to_string().contains("loft"));
    // Where it is said what is cut, there is nothing left to look for.
    job["roof"]["obstacles"][0]["cuts_no_rafter"] = json!(false);
    job["roof"]["obstacles"][0]["cuts_rafters"] = json!([15, 14]);
    let answer = lay_out(&job);
    assert!(!assumed(&answer) && !answer.to_string().contains("loft"));
    assert_eq!(answer["missing"][0]["act"], "ask_engineer");
    let [cut] = &warnings(&answer, "rafter.cut-by-opening")[..] else { panic!("{answer}") };
    assert_eq!((param(cut, "rafters"), param(cut, "beside")), (&json!([14, 15]), &json!([13, 16])));
    let said = cut["message"].as_str().expect("words");
    assert!(said.starts_with("Obstacle 1 cuts rafters 15 and 16: "), "{said}");
}

/// EN 1995-1-1 Table 8.2, edge without load: 5 d for screws of 8 mm in holes that are not drilled, 3 d in
/// drilled ones. The foot's screws stand 14 mm beside its axis.
#[test]
fn drilling_is_asked_for_only_where_it_is_not_done_and_would_help() {
    let told = |width: f64, predrilled: bool| {
        let mut job = all_known(BARN);
        job["roof"]["layers"]["counter_batten_width_mm"] = json!(width);
        job["components"]["screw"]["predrilled"] = json!(predrilled);
        let answer = lay_out(&job);
        let found = warnings(&answer, "screw.near-counter-batten-edge");
        found.first().map(|one| one["message"].as_str().expect("words").to_owned())
    };
    let drilled = told(50.0, true).expect("11 mm are not 24");
    assert!(drilled.ends_with("24 mm are asked for. Use one at least 76 mm wide."), "{drilled}");
    assert_eq!(told(80.0, true), None);
    let helps = told(80.0, false).expect("26 mm are not 40");
    assert!(
        helps.ends_with("Drill their holes first, or use one at least 108 mm wide."),
        "{helps}"
    );
    let narrow = told(50.0, false).expect("11 mm are not 40");
    assert!(narrow.ends_with("40 mm are asked for. Use one at least 108 mm wide."), "{narrow}");
}

#[test]
fn trusses_are_for_their_designer() {
    let mut job = all_known(BARN);
    job["roof"]["rafters"]["trussed"] = json!(true);
    let answer = lay_out(&job);
    assert_eq!(warnings(&answer, "rafter.trussed").len(), 1);
    assert_eq!(answer["verdicts"]["rafters"], "incomplete");
    assert_eq!(answer["verdicts"]["fixing"], "incomplete");
    assert_eq!(missing(&answer), ["/roof/rafters/trussed"]);
}

#[test]
fn rafters_without_a_span_are_not_verified() {
    let mut job = all_known(BARN);
    job["roof"]["rafters"].as_object_mut().expect("rafters").remove("span_m");
    let answer = lay_out(&job);
    assert_eq!(answer["verdict"], "incomplete");
    assert_eq!(missing(&answer), ["/roof/rafters/span_m"]);
}

/// Slates 500 x 250 at a gauge of 200 mm under a hook with a reach of 240 mm: the head of the slate
/// below reaches 300 mm above the exit, the foot begins at 210 mm.
#[test]
fn a_hook_that_does_not_reach_over_the_slate_below_fails() {
    let mut job = all_known(BARN);
    job["roof"]["covering"] = json!({
        "kind": "slate_double_lap",
        "tile": {
            "length_mm": 500, "width_mm": 250, "thickness_mm": 6, "camber_mm": 0,
        },
        "joint_mm": 3, "gauge_mm": 200, "first_course_mm": 100,
        "batten": {"thickness_mm": 25, "width_mm": 50}, "bond": "half", "joint_origin_mm": 0,
    });
    let hook = &mut job["components"]["hook"];
    hook["arm"] = json!({
        "underside_height_mm": 45, "thickness_mm": 6, "width_mm": 30, "reach_mm": 240,
        "bolt_height_mm": 70, "bolt_beyond_exit_mm": 30,
    });
    hook["foot"]["length_mm"] = json!(120);
    let answer = lay_out(&job);
    assert_eq!(answer["verdict"], "fails");
    let [blocked] = &warnings(&answer, "hook.foot-does-not-fit")[..] else { panic!("{answer}") };
    let params = |name: &str| param(blocked, name);
    assert_eq!(*params("on_head_mm"), 90.0);
    let fitting = [params("fitting_reach_from_mm"), params("fitting_reach_to_mm")];
    assert_eq!(fitting, [330.0, 345.0].map(|reach| json!(reach)).each_ref());
    for reach in fitting {
        job["components"]["hook"]["arm"]["reach_mm"] = reach.clone();
        assert!(warnings(&lay_out(&job), "hook.foot-does-not-fit").is_empty(), "{reach}");
    }
}

/// What is advised for the foot leaves the bolt in front of the tile and the rail in its clamp zone.
#[test]
fn a_rail_at_the_end_of_its_clamp_zone_is_not_to_be_set_lower() {
    let mut job = all_known(BARN);
    let low = |answer: &Value| {
        let told = warnings(answer, "hook.foot-meets-batten-or-tile");
        let params = |name: &str| param(told[0], name);
        [params("lower_mm"), params("trim_batten_mm")].map(Value::as_f64)
    };
    assert_eq!(low(&lay_out(&job)), [5.0, 0.0].map(Some));
    // Rails lie 363 and 1293 mm above the lower end of the modules: 469 from the upper.
    job["array"]["module"]["clamp_zone_mm"] = json!([363, 550]);
    assert_eq!(low(&lay_out(&job)), [0.0, 5.0].map(Some));
}

#[test]
fn rails_and_feet_off_the_roof_fail() {
    let mut job = all_known(BARN);
    job["array"]["fields"][0]["origin_mm"] = json!([0, 900]);
    let answer = lay_out(&job);
    assert_eq!(answer["verdict"], "fails");
    assert_eq!(warnings(&answer, "rail.off-roof").len(), 4, "{}", answer["warnings"]);
    // The upper rail at 4053 holds its feet from 4315 to 4405.
    let mut job = all_known(BARN);
    job["roof"]["obstacles"] = json!([{
        "kind": "aerial",
        "outline_mm": [[3150, 4580], [3250, 4580], [3250, 4700], [3150, 4700]],
    }]);
    job["components"]["hook"]["arm"]["reach_mm"] = json!(440);
    assert_eq!(warnings(&lay_out(&job), "hook.foot-off-roof").len(), 1);
}

/// A search that is cut short when the number of hooks is known already has not stopped short of it.
#[test]
fn a_proven_number_is_said_to_be_proven() {
    let mut seen = [0, 0];
    for text in [BARN, COTTAGE] {
        for limit in [1_u64, 5, 20, 50, 100, 200, 400, 600, 800, 1000] {
            let mut job = all_known(text);
            job["wishes"] = json!({"search_limit": limit});
            let answer = lay_out(&job);
            let optimality = &answer["optimality"];
            let agree = optimality["hooks"] == optimality["lower_bound"];
            assert_eq!(optimality["proven"], agree, "{limit}: {optimality}");
            let stopped = warnings(&answer, "search.limit-reached");
            assert_eq!(stopped.is_empty(), agree, "{limit}: {}", answer["warnings"]);
            seen[usize::from(agree)] += 1;
        }
    }
    assert!(seen.iter().all(|times| *times >= 2), "{seen:?}");
}

/// Snow so heavy that screws, hooks and rails give, with a rail end that is too long besides.
#[test]
fn every_check_over_its_limit_is_listed_whatever_else_fails() {
    let mut job = all_known(COTTAGE);
    job["array"]["fields"][0]["origin_mm"] = json!([700, 400]);
    job["components"]["rail"]["max_continuous_mm"] = json!(6984);
    job["site"]["snow"] = json!({"ground_load_kn_per_m2": 9, "exceptional": false});
    let answer = lay_out(&job);
    assert!(!warnings(&answer, "rail.free-end-too-long").is_empty());
    let over = |check: &str| {
        list(&answer["hooks"])
            .iter()
            .filter(|hook| hook["utilisation"][check].as_f64().is_some_and(|used| used > 1.0))
            .count()
    };
    let mut listed = 0;
    for (check, code) in [
        ("hook", "hook.overloaded"),
        ("screws", "screw.overloaded"),
        ("clearance", "clearance.closes-under-load"),
    ] {
        assert_eq!(over(check) > 0, !warnings(&answer, code).is_empty(), "{check}");
        listed += usize::from(over(check) > 0);
    }
    assert!(listed >= 2, "{}", answer["warnings"]);
}

/// Screws of 8 mm stand 16 mm from the edge of a rafter 60 mm wide and ask for 32 mm; a rafter 90 mm
/// deep is thinner than the 96 mm the rules for withdrawal cover. The screw's approval may say less.
#[test]
fn an_approval_of_the_screw_takes_the_place_of_the_rules() {
    let narrow = |spacings: Option<Value>| {
        let mut job = all_known(BARN);
        job["roof"]["rafters"]["width_mm"] = json!(60.0);
        job["roof"]["rafters"]["depth_mm"] = json!(90.0);
        job["roof"]["rafters"]["span_m"] = json!(1.2);
        job["components"]["screw"]["length_mm"] = json!(120.0);
        // So stiff, and so little turned, that feet roll no farther than hooks and rail bear.
        job["components"]["hook"]["stiffness"]["includes_foot"] = json!(true);
        job["components"]["rail"]["axis_offset_mm"] = json!(0.0);
        if let Some(spacings) = spacings {
            job["components"]["screw"]["spacings"] = spacings;
        }
        lay_out(&job)
    };
    let by_rules = narrow(None);
    assert_eq!(by_rules["verdicts"]["fixing"], "incomplete", "{}", by_rules["warnings"]);
    for code in ["screw.too-near-rafter-edge", "screw.rafter-too-thin"] {
        assert_eq!(warnings(&by_rules, code).len(), 1, "{code}");
    }
    assert!(missing(&by_rules).iter().any(|pointer| *pointer == "/components/screw/spacings"));
    let approved = |edge: f64, timber: f64| {
        narrow(Some(json!({
            "a1_mm": 40.0, "a2_mm": 20.0, "edge_mm": edge, "timber_mm": timber,
            "source": "illustrative approval, table 4",
        })))
    };
    let held = approved(16.0, 80.0);
    let fixing = held["verdicts"]["fixing"].as_str().expect("a verdict");
    assert!(fixing.starts_with("holds"), "{fixing}: {}", held["warnings"]);
    assert_eq!(warnings(&held, "screw.spacings-declared").len(), 1);
    // An approval is held against the foot as the rules are.
    assert_eq!(warnings(&approved(20.0, 80.0), "screw.too-near-rafter-edge").len(), 1);
    assert_eq!(warnings(&approved(16.0, 95.0), "screw.rafter-too-thin").len(), 1);
}

/// What a clamp holds down the slope is a figure of its maker: without it nobody knows whether the
/// modules stay where they are. Stops below the lowest row settle that row alone.
#[test]
fn clamps_that_may_slip_leave_the_modules_open() {
    let with = |slope: Option<f64>, stop: Option<f64>| {
        let mut job = all_known(BARN);
        let clamp = job["components"]["clamp"].as_object_mut().expect("a clamp");
        clamp.remove("slope_kn");
        clamp.extend(slope.map(|slope| ("slope_kn".to_owned(), json!(slope))));
        clamp.extend(stop.map(|stop| ("slope_stop_kn".to_owned(), json!(stop))));
        lay_out(&job)
    };
    let of_row = |answer: &Value, row: &str, what: &str| -> Vec<Value> {
        let modules = list(&answer["modules"]).iter();
        let own = modules.filter(|m| m["id"].as_str().is_some_and(|id| id.contains(row)));
        own.map(|m| m["utilisation"][what].clone()).collect()
    };
    let unknown = with(None, None);
    assert_eq!(unknown["verdicts"]["modules"], "incomplete");
    assert_eq!(missing(&unknown), ["/components/clamp/slope_kn"]);
    assert!(of_row(&unknown, "/0/", "clamp_slip").iter().all(Value::is_null));

    let weak = with(Some(0.3), None);
    assert_eq!(weak["verdicts"]["modules"], "fails");
    let [slips] = &warnings(&weak, "clamp.slips")[..] else { panic!("{}", weak["warnings"]) };
    assert_eq!(*param(slips, "held_by"), "clamp");

    let stopped = with(None, Some(2.5));
    assert_eq!(missing(&stopped), ["/components/clamp/slope_kn"]);
    assert!(of_row(&stopped, "/0/", "clamp_slip").iter().all(Value::is_number));
    assert!(of_row(&stopped, "/1/", "clamp_slip").iter().all(Value::is_null));

    // A stop between two modules bears a whole one: 1.0 kN of barn module, of 0.5 kN.
    let crushed = with(Some(1.6), Some(0.5));
    let [slips] = &warnings(&crushed, "clamp.slips")[..] else { panic!("{}", crushed["warnings"]) };
    assert_eq!(*param(slips, "held_by"), "stop");
}

/// Bolt and slot are checked, or the hook's resistance says that it includes them.
#[test]
fn a_bolt_nobody_knows_leaves_the_fixing_open() {
    let with = |bolt: Value| {
        let mut job = all_known(BARN);
        let hook = job["components"]["hook"].as_object_mut().expect("a hook");
        hook["resistance"].as_object_mut().expect("a resistance").remove("includes_bolt");
        if !bolt.is_null() {
            hook.insert("bolt".to_owned(), bolt);
        }
        lay_out(&job)
    };
    let unknown = with(Value::Null);
    assert_eq!(unknown["verdicts"]["fixing"], "incomplete");
    assert_eq!(missing(&unknown), ["/components/hook/bolt"]);
    assert!(unknown["hooks"][0]["utilisation"]["bolt"].is_null());

    let loose = with(json!({"diameter_mm": 8, "class": "A2-70"}));
    assert_eq!(missing(&loose), ["/components/hook/bolt/slot_slip_kn"]);

    let tight = with(json!({"diameter_mm": 8, "class": "A2-70", "slot_slip_kn": 4}));
    assert_eq!(tight["verdicts"]["fixing"], "holds_with_warnings", "{}", tight["warnings"]);
    assert!(number(&tight["hooks"][0]["utilisation"]["bolt"]) > 0.0);

    // What hardly holds along its slot takes more hooks, or fails.
    let slips = with(json!({"diameter_mm": 8, "class": "A2-70", "slot_slip_kn": 0.1}));
    assert_eq!(slips["verdicts"]["fixing"], "fails");
}

/// A rail that hangs 20 mm below its bolts uses more of hooks and screws, unless the hook's figures
/// were declared with it; where nothing is said it stands beside the hook, half of 40 and of 12 mm below.
#[test]
fn a_rail_beside_its_bolts_turns_the_hooks() {
    let with = |offset: Option<f64>| {
        let mut job = all_known(BARN);
        if let Some(offset) = offset {
            job["components"]["rail"]["axis_offset_mm"] = json!(offset);
        }
        lay_out(&job)
    };
    let assumed = |answer: &Value| {
        let mut assumptions = list(&answer["assumptions"]).iter();
        assumptions.any(|a| a["pointer"] == "/components/rail/axis_offset_mm")
    };
    let most = |answer: &Value| {
        let hooks = list(&answer["hooks"]);
        (hooks.len(), hooks.iter().map(|h| number(&h["utilisation"]["screws"])).fold(0.0, f64::max))
    };
    let [open, centred, below] = [with(None), with(Some(0.0)), with(Some(20.0))];
    assert!(assumed(&open) && !assumed(&centred) && !assumed(&below));
    assert_eq!(most(&open), most(&with(Some(26.0))));
    assert!(most(&below) > most(&centred), "{:?} {:?}", most(&below), most(&centred));
}
