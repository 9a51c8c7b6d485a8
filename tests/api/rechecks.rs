//! What a recheck promises: every hook where it is, what was found felt in every check, a verdict
//! no better than its evidence, what has changed since, the same bytes twice.

use serde_json::{Value, json};

use crate::server::{
    BARN, BUILT, COTTAGE, all_known, answer, example, list, number, param, post, warnings,
};

fn barn() -> Value {
    example(BUILT)
}

fn check(job: &Value) -> Value {
    answer("/v1/rechecks", job)
}

fn hook<'a>(answer: &'a Value, id: &str) -> &'a Value {
    list(&answer["hooks"])
        .iter()
        .find(|h| h["id"] == id)
        .unwrap_or_else(|| panic!("there is no hook {id}"))
}

/// The barn with one hook found as said.
fn barn_with(hook: usize, found: Value) -> Value {
    let mut job = barn();
    job["built"]["hooks"][hook]["found"] = found;
    job
}

/// The barn, its chimney away, with the hooks of its own layout: a job that holds.
fn laid_out() -> (Value, Value) {
    as_laid_out(BARN)
}

/// A job with the hooks of its own layout.
fn as_laid_out(text: &str) -> (Value, Value) {
    let mut job = all_known(text);
    let layout = answer("/v1/layouts", &job);
    let pick = |of: &Value, names: &[&str]| -> Value {
        names.iter().map(|name| ((*name).to_owned(), of[*name].clone())).collect()
    };
    let rails: Vec<Value> =
        list(&layout["rails"]).iter().map(|r| pick(r, &["id", "y_mm"])).collect();
    let hooks: Vec<Value> = list(&layout["hooks"])
        .iter()
        .map(|h| pick(h, &["id", "rail", "x_mm", "arm_x_mm", "packers_mm"]))
        .collect();
    job["built"] = json!({"rails": rails, "hooks": hooks});
    (job, layout)
}

#[test]
fn the_example_is_checked_hook_by_hook_and_compared_with_its_record() {
    let job = barn();
    let answer = check(&job);
    assert_eq!(answer["reference"], "mill-barn-south");
    assert_eq!(list(&answer["hooks"]).len(), list(&job["built"]["hooks"]).len());
    for (built, hook) in list(&job["built"]["hooks"]).iter().zip(list(&answer["hooks"])) {
        assert_eq!((&built["id"], &built["rail"]), (&hook["id"], &hook["rail"]));
        assert!((number(&built["x_mm"]) - number(&hook["x_mm"])).abs() < 1e-9);
        assert_eq!(built["packers_mm"], hook["packers_mm"]);
    }
    let max = number(&answer["utilisation"]["max"]);
    let largest = list(&answer["hooks"]).iter().map(|h| number(&h["utilisation"]["max"]));
    assert!(largest.fold(0.0, f64::max) <= max);
    let difference = &answer["difference"];
    assert_eq!(difference["recorded_max_utilisation"], 0.81);
    assert_eq!(difference["max_utilisation"], answer["utilisation"]["max"]);
    assert!((number(&difference["change"]) - (max - 0.81)).abs() < 1e-9);
    assert_eq!(difference["engine_changed"], true);
    assert_eq!(difference["verdict_changed"], answer["verdict"] != "holds");
    assert_eq!(difference.get("model_changed"), None);
    assert_eq!(difference["rules_changed"], answer["engine"]["rules"]["revision"] != "DE-1");
    let over = list(&answer["hooks"]).iter().any(|h| number(&h["utilisation"]["max"]) > 1.0);
    assert_eq!(answer["verdict"] == "fails", over || max > 1.0);
}

#[test]
fn the_same_request_gives_the_same_bytes_and_the_record_is_no_part_of_the_job() {
    let once = post("/v1/rechecks", BUILT.as_bytes());
    assert_eq!(once.body, post("/v1/rechecks", BUILT.as_bytes()).body);
    let digest = once.json()["input_digest"].clone();
    let mut job = barn();
    job["recorded"] = json!({"input_digest": digest});
    let again = check(&job);
    assert_eq!(again["input_digest"], digest);
    assert_eq!(again["difference"]["input_changed"], false);
    assert_eq!(again["difference"]["verdict_changed"], Value::Null);
    job["built"]["hooks"][0]["packers_mm"] = json!([]);
    assert_eq!(check(&job)["difference"]["input_changed"], true);
}

#[test]
fn a_layout_built_as_drawn_is_used_as_the_layout_says() {
    let (job, mut layout) = laid_out();
    let mut answer = check(&job);
    assert_eq!(answer["verdict"], layout["verdict"], "{}", answer["warnings"]);
    // A built job does not tell where its stiff splices are; a layout plans them.
    for rail in [&mut answer, &mut layout].into_iter().filter_map(|a| a["rails"].as_array_mut()) {
        for segment in rail.iter_mut().filter_map(|r| r["segments"].as_array_mut()).flatten() {
            segment["splices_mm"].take();
        }
    }
    for part in ["utilisation", "hooks", "rails", "rafters", "modules", "actions"] {
        assert_eq!(answer[part], layout[part], "{part}");
    }
    assert_eq!(answer["difference"], Value::Null);
}

/// Packers under one foot: 3 mm more of lever and 3 mm less of thread for its screws only.
#[test]
fn packers_lengthen_the_lever_and_shorten_the_hold() {
    let (mut job, _) = laid_out();
    let before = check(&job);
    job["built"]["hooks"][2]["packers_mm"] = json!([10.0, 1.0]);
    let after = check(&job);
    let id = job["built"]["hooks"][2]["id"].as_str().expect("an id");
    let (then, now) = (hook(&before, id), hook(&after, id));
    assert!((number(&then["embedment_mm"]) - number(&now["embedment_mm"]) - 3.0).abs() < 1e-9);
    assert!((number(&now["clearance_mm"]) - number(&then["clearance_mm"]) - 3.0).abs() < 1e-9);
    assert!(number(&now["utilisation"]["screws"]) > number(&then["utilisation"]["screws"]));
    assert!(number(&now["utilisation"]["clearance"]) < number(&then["utilisation"]["clearance"]));
    // The beam does not feel it: rails, sums of forces on the rafters, and every other hook stay.
    for part in ["rails", "rafters"] {
        assert_eq!(before[part], after[part], "{part}");
    }
    for (a, b) in list(&before["hooks"]).iter().zip(list(&after["hooks"])) {
        assert!(a["id"] == id || a == b, "{a} {b}");
    }
}

#[test]
fn what_was_found_is_felt_where_it_matters() {
    let plain = check(&barn());
    let then = hook(&plain, "A1-3");
    let found = |found: Value| {
        let answer = check(&barn_with(2, found));
        (hook(&answer, "A1-3").clone(), answer)
    };
    let (now, _) = found(json!({"screw_length_mm": 160}));
    assert!((number(&now["embedment_mm"]) - number(&then["embedment_mm"]) - 20.0).abs() < 1e-9);
    assert!(number(&now["utilisation"]["screws"]) <= number(&then["utilisation"]["screws"]));
    let (now, _) = found(json!({"counter_batten_mm": 24}));
    assert!((number(&now["embedment_mm"]) - number(&then["embedment_mm"]) - 6.0).abs() < 1e-9);
    let (now, answer) = found(json!({"clearance_mm": 2.5}));
    assert_eq!(now["clearance_mm"], 2.5);
    assert!(number(&now["utilisation"]["clearance"]) > number(&then["utilisation"]["clearance"]));
    let low = warnings(&answer, "clearance.below-minimum");
    assert_eq!((low.len(), param(low[0], "hooks")), (1, &json!(["A1-3"])));
    let (now, _) = found(json!({"rafter_x_mm": 4100}));
    assert_eq!((&now["x_mm"], &now["rafter"]), (&json!(4100.0), &json!(5)));
    assert_ne!(now["normal_kn"], then["normal_kn"]);
    let (_, answer) = found(json!({"rafter_width_mm": 60}));
    let edge = warnings(&answer, "screw.too-near-rafter-edge");
    assert_eq!(edge.len(), 1, "{}", answer["warnings"]);
    assert!(edge[0]["message"].as_str().expect("a sentence").starts_with("Hooks A1-3: "));
}

#[test]
fn a_verdict_is_no_better_than_its_evidence() {
    let (mut job, _) = laid_out();
    assert_eq!(check(&job)["missing"], json!([]));
    job["components"]["hook"]["resistance"]["basis"] = json!("unknown");
    job["components"]["hook"].as_object_mut().expect("a hook").remove("stiffness");
    job["components"]["hook"]["arm"].as_object_mut().expect("an arm").remove("grade");
    // Stiff hooks share loads differently; the limit of strength is not what is asked about here.
    for load in ["press_kn", "lift_kn", "slope_kn"] {
        job["components"]["hook"]["resistance"][load] = json!(50.0);
    }
    job["components"]["screw"]["withdrawal_n_per_mm2"] = json!(30.0);
    job["components"]["screw"]["tension_kn"] = json!(60.0);
    let answer = check(&job);
    assert_eq!(answer["verdict"], "incomplete", "{}", answer["warnings"]);
    let missing: Vec<(&Value, &Value)> =
        list(&answer["missing"]).iter().map(|m| (&m["pointer"], &m["check"])).collect();
    let [stiffness, basis] =
        ["/components/hook/stiffness/normal_kn_per_mm", "/components/hook/resistance/basis"]
            .map(Value::from);
    let lacks = |pointer: &Value, code: &str| missing.contains(&(pointer, &Value::from(code)));
    assert_eq!(missing.len(), 3, "{missing:?}");
    assert!(lacks(&stiffness, "clearance.stiffness-unknown"), "{missing:?}");
    assert!(lacks(&basis, "hook.resistance-basis-unknown"), "{missing:?}");
    assert!(lacks(&basis, "hook.stronger-than-its-bar"), "{missing:?}");
}

/// One hook of a layout with the fewest is gone: one hook is enough, and where it may go is said.
#[test]
fn a_hook_to_add_is_suggested_where_one_is_missing() {
    let (mut job, _) = laid_out();
    let gone = job["built"]["hooks"].as_array_mut().expect("hooks").remove(3);
    let answer = check(&job);
    assert_eq!(answer["verdict"], "fails");
    let suggestion = &answer["suggestion"];
    let [part] = list(&suggestion["segments"]) else { panic!("{suggestion}") };
    assert_eq!((&part["rail"], &part["outcome"]), (&gone["rail"], &json!("fewest_proven")));
    let [added] = list(&suggestion["add"]) else { panic!("{suggestion}") };
    assert_eq!(added["rail"], gone["rail"]);
    assert_eq!(suggestion["verdict"], "holds_with_warnings");
    assert!(number(&suggestion["max_utilisation"]) <= 1.0);
}

/// No hook beside it helps one whose arm lies on the tile already, deeper than packers reach.
#[test]
fn where_no_hook_added_helps_the_reason_is_said() {
    let (mut job, _) = laid_out();
    job["built"]["hooks"][2]["found"] = json!({"clearance_mm": -20.0});
    let answer = check(&job);
    let part = &answer["suggestion"]["segments"][0];
    assert_eq!(part["outcome"], "none_helps", "{}", answer["suggestion"]);
    let reason = part["reason"].as_str().expect("a reason");
    let id = job["built"]["hooks"][2]["id"].as_str().expect("an id");
    assert!(reason.contains(id) && reason.contains("clearance under load"), "{reason}");
}

#[test]
fn what_is_in_the_wrong_place_is_found() {
    type Change = fn(&mut Value);
    let cases: [(&str, Change); 8] = [
        ("hook.misses-rafter", |b| b["hooks"][1]["x_mm"] = json!(2025)),
        ("hook.beyond-rail-end", |b| b["hooks"][7]["x_mm"] = json!(12_310)),
        ("hook.on-another-hook", |b| b["hooks"][1]["x_mm"] = json!(870)),
        ("rail.free-end-too-long", |b| {
            b["hooks"].as_array_mut().expect("hooks").remove(0);
        }),
        ("rail.too-few-hooks", |b| {
            b["hooks"].as_array_mut().expect("hooks").retain(|h| h["rail"] != "A2");
        }),
        ("rail.outside-clamp-zone", |b| b["rails"][0]["y_mm"] = json!(1418 + 155)),
        ("rail.off-course-line", |b| b["rails"][0]["y_mm"] = json!(1300)),
        ("array.row-without-two-rails", |b| {
            b["rails"].as_array_mut().expect("rails").pop();
            b["hooks"].as_array_mut().expect("hooks").retain(|h| h["rail"] != "A4");
        }),
    ];
    for (code, change) in cases {
        let (mut job, _) = laid_out();
        let hooks = barn()["built"]["hooks"].clone();
        job["built"]["hooks"] = hooks;
        change(&mut job["built"]);
        let answer = check(&job);
        let found = warnings(&answer, code);
        assert_eq!(found.len(), 1, "{code}: {}", answer["warnings"]);
        if found[0]["severity"] == "failure" {
            assert_eq!(answer["verdict"], "fails", "{code}");
        }
        let carrying = list(&answer["hooks"]).len();
        let idle = usize::from(code.starts_with("hook."));
        assert_eq!(carrying + idle, list(&job["built"]["hooks"]).len(), "{code}");
    }
}

#[test]
fn a_stack_of_packers_beyond_its_limit_is_found() {
    let mut job = barn();
    job["built"]["hooks"][0]["packers_mm"] = json!([10.0, 10.0, 5.0]);
    let answer = check(&job);
    assert_eq!(warnings(&answer, "packers.stack-too-high").len(), 1);
}

#[test]
fn the_trace_names_the_screws_of_every_way_a_foot_is_set() {
    let reply = post("/v1/rechecks?trace=full", BUILT.as_bytes());
    let answer = reply.json();
    let lengths: Vec<f64> = list(&answer["trace"])
        .iter()
        .filter(|line| line["symbol"] == "l_ef" || line["symbol"] == "t")
        .map(|line| number(&line["value"]))
        .collect();
    assert_eq!(lengths.len(), 4, "feet with and without packers: {lengths:?}");
}

/// The job with everything a suggestion says done.
fn mended(job: &Value, suggestion: &Value) -> Value {
    let mut job = job.clone();
    let hooks = job["built"]["hooks"].as_array_mut().expect("hooks");
    for foot in list(&suggestion["refit"]) {
        let hook = hooks.iter_mut().find(|hook| hook["id"] == foot["hook"]).expect("a hook");
        let packed = |stack: &Value| list(stack).iter().map(number).sum::<f64>();
        let rise = packed(&foot["packers_mm"]) - packed(&hook["packers_mm"]);
        if let Some(clearance) = hook["found"].get("clearance_mm").map(number) {
            hook["found"]["clearance_mm"] = json!(clearance + rise);
        }
        hook["packers_mm"] = foot["packers_mm"].clone();
        hook["found"]["screw_length_mm"] = foot["screw_length_mm"].clone();
    }
    hooks.retain(|hook| !list(&suggestion["take_off"]).contains(&hook["id"]));
    for (number, hook) in list(&suggestion["add"]).iter().enumerate() {
        let mut hook = hook.clone();
        for told in ["rafter", "tiles"] {
            hook.as_object_mut().expect("a hook").remove(told);
        }
        hook["id"] = json!(format!("new {number}"));
        hooks.push(hook);
    }
    job
}

#[test]
fn an_arm_too_near_to_its_tile_is_packed_before_hooks_are_added() {
    let (mut job, layout) = laid_out();
    assert_ne!(layout["verdict"], "fails");
    job["built"]["hooks"][3]["found"] = json!({"clearance_mm": 2.2});
    let answer = check(&job);
    assert_eq!(answer["verdict"], "fails");
    assert_eq!(warnings(&answer, "clearance.below-minimum").len(), 1);
    let suggestion = &answer["suggestion"];
    // 2.2 mm on packers of 5 and 3 mm: 11 mm of packing would give the 5 mm before load, less than the arm is
    // pressed down; 17 mm clear the tile. The screws hold with it as they are.
    let id = &layout["hooks"][3]["id"];
    let foot = json!({"hook": id, "packers_mm": [10.0, 5.0, 2.0], "screw_length_mm": 140.0});
    assert_eq!(suggestion["refit"], json!([foot]));
    assert!(list(&suggestion["add"]).is_empty());
    let nothing = json!({"needed": 0, "freed": 0});
    let packer = |thickness: f64, needed: u64, freed: u64| json!({"thickness_mm": thickness, "needed": needed, "freed": freed});
    let parts = json!({
        "hooks": nothing, "bolt_sets": nothing, "substitute_tiles": nothing, "covering_tiles": 0,
        "screws": [{"length_mm": 140.0, "needed": list(&job["components"]["hook"]["foot"]["screws_mm"]).len()}],
        "packers": [packer(10.0, 1, 0), packer(3.0, 0, 1), packer(2.0, 1, 0)],
    });
    assert_eq!(suggestion["parts"], parts);
    let after = check(&mended(&job, suggestion));
    assert_eq!(after["verdict"], suggestion["verdict"]);
    assert_ne!(after["verdict"], "fails");
    assert_eq!(after["utilisation"]["max"], suggestion["max_utilisation"]);
}

/// Where the arms of a rail with half the hooks it needs lie on their tiles under load, packers alone would
/// have to be higher than there are, and hooks alone leave the feet too low.
#[test]
fn hooks_are_added_before_feet_are_packed_where_each_alone_fails() {
    let mut job = all_known(BUILT);
    job["components"]["hook"]["stiffness"].as_object_mut().expect("it").remove("includes_foot");
    let answer = check(&job);
    assert_eq!(answer["verdict"], "fails");
    assert!(!warnings(&answer, "clearance.closes-under-load").is_empty());
    let suggestion = &answer["suggestion"];
    assert!(!list(&suggestion["refit"]).is_empty() && !list(&suggestion["add"]).is_empty());
    assert_ne!(suggestion["verdict"], "fails", "{suggestion}");
    let built = list(&job["built"]["hooks"]);
    for foot in list(&suggestion["refit"]) {
        assert!(built.iter().any(|hook| hook["id"] == foot["hook"]), "{foot}");
    }
    let after = check(&mended(&job, suggestion));
    assert_eq!(after["verdict"], suggestion["verdict"]);
    assert_eq!(after["utilisation"]["max"], suggestion["max_utilisation"]);
}

#[test]
fn screws_too_short_are_replaced_by_the_shortest_usual_ones_that_hold() {
    let (mut job, layout) = laid_out();
    // 70 mm less 6 mm of plate and 30 mm of counter-batten: 34 mm, less than six diameters.
    job["built"]["hooks"][3]["found"] = json!({"screw_length_mm": 70.0});
    let answer = check(&job);
    assert_eq!(warnings(&answer, "screw.too-short").len(), 1);
    let suggestion = &answer["suggestion"];
    assert_eq!(suggestion["refit"][0]["hook"], layout["hooks"][3]["id"]);
    let length = number(&suggestion["refit"][0]["screw_length_mm"]);
    assert!(list(&suggestion["add"]).is_empty());
    let after = check(&mended(&job, suggestion));
    assert_ne!(after["verdict"], "fails");
    // One usual length less does not do.
    job["built"]["hooks"][3]["found"] = json!({"screw_length_mm": length - 20.0});
    assert_eq!(check(&job)["verdict"], "fails");
}

#[test]
fn where_feet_do_not_suffice_hooks_are_added_and_both_together_hold() {
    let mut job = barn();
    job["built"]["hooks"][0]["found"] = json!({"clearance_mm": 1.0});
    let answer = check(&job);
    let suggestion = &answer["suggestion"];
    assert!(list(&suggestion["refit"]).iter().any(|foot| foot["hook"] == "A1-1"));
    assert!(!list(&suggestion["add"]).is_empty());
    let after = check(&mended(&job, suggestion));
    assert_eq!(after["verdict"], suggestion["verdict"]);
    assert_ne!(after["verdict"], "fails", "{}", after["warnings"]);
}

/// A shed, whose actions the first German values lowered by 0.9.
#[test]
fn a_past_job_can_be_followed_by_the_values_of_its_day() {
    let warning = |answer: &Value, code: &str| {
        list(&answer["warnings"]).iter().any(|warning| warning["code"] == code)
    };
    let mut job = barn();
    job["site"]["consequence_class"] = json!("CC1");
    job["recorded"] = json!({"rules_revision": "DE-1"});
    let today = check(&job);
    assert_eq!(today["difference"]["causes"], json!(["annex_values"]));
    job["rules"]["revision"] = json!("DE-1");
    let then = check(&job);
    assert_eq!(then["engine"]["rules"]["revision"], "DE-1");
    assert_eq!(then["difference"]["causes"], json!([]));
    assert!(warning(&then, "rules.earlier-revision"), "{}", then["warnings"]);
    assert!(!warning(&today, "rules.earlier-revision"));
    let most = |answer: &Value| number(&answer["utilisation"]["max"]);
    assert!(most(&then) < most(&today), "{} and {}", most(&then), most(&today));
}

#[test]
fn a_difference_names_the_causes_its_record_tells() {
    let mut job = barn();
    let causes = |job: &Value| check(job)["difference"]["causes"].clone();
    job["recorded"] = json!({"verdict": "fails"});
    assert_eq!(causes(&job), json!([]));
    let now = check(&job);
    job["recorded"] = json!({
        "engine_model": now["engine"]["model"],
        "rules_revision": now["engine"]["rules"]["revision"],
        "input_digest": now["input_digest"],
    });
    assert_eq!(causes(&job), json!([]));
    job["recorded"] = json!({"rules_revision": "DE-1", "input_digest": "0"});
    assert_eq!(causes(&job), json!(["input", "annex_values"]));
    job["recorded"] = json!({"engine_model": 1});
    let of_mechanics = causes(&job);
    for cause in ["wind_patches", "foot_bearing", "arm_as_bar", "loaded_area", "slot_setting"] {
        assert!(list(&of_mechanics).contains(&json!(cause)), "{cause}: {of_mechanics}");
    }
    assert_eq!(check(&job)["difference"]["model_changed"], true);
    job["recorded"] = json!({"engine_model": 2});
    assert_eq!(
        causes(&job),
        json!([
            "wind_without_snow",
            "foot_turns",
            "least_clearance",
            "rail_beside_hook",
            "rail_over_tile",
            "wind_within_outline",
            "modules_at_rail_ends"
        ])
    );
    // A record that held, and a job that asks for the span of its rafters now.
    let (mut open, _) = laid_out();
    open["roof"]["rafters"].as_object_mut().expect("rafters").remove("span_m");
    open["recorded"] = json!({"verdict": "holds"});
    assert_eq!(causes(&open), json!(["data_asked_for"]));
}

/// A splice that is told is checked: one beside its rail, or fewer than bars are long, is refused.
#[test]
fn splices_of_a_built_rail_are_where_the_rail_is() {
    let faults = |splices: Value| {
        let mut job = example(BUILT);
        job["built"]["rails"][0]["splices_mm"] = splices;
        let reply = post("/v1/rechecks", job.to_string().as_bytes());
        let problem = reply.json();
        let errors = problem["errors"].as_array().cloned().unwrap_or_default();
        let told = errors.iter().map(|fault| fault["pointer"].as_str().expect("one").to_owned());
        (reply.status, told.collect::<Vec<String>>())
    };
    let at = |place: &str| vec![format!("/built/rails/0/splices_mm{place}")];
    assert_eq!(faults(json!([4200.0, 7700.0])), (200, Vec::new()));
    assert_eq!(faults(json!([4200.0, 7700.0, 12_000.0])), (422, at("/2")), "beside the rail");
    assert_eq!(faults(json!([4200.0])), (422, at("")), "a piece longer than any bar");
    assert_eq!(faults(json!([7700.0, 4200.0])), (422, at("/1")), "not from left to right");
}

/// Rot found at one hook takes the whole rafter: its hooks are checked as if they were not there, and none is
/// added on it.
#[test]
fn a_rotten_rafter_holds_nothing() {
    let (job, _) = laid_out();
    let hooks = list(&job["built"]["hooks"]);
    let on = |x: &Value| hooks.iter().filter(|hook| hook["x_mm"] == *x).count();
    let shares = |hook: &Value| on(&hook["x_mm"]) > 1;
    let found_at = hooks.iter().position(shares).expect("a rafter with two hooks");
    let (id, x) = (hooks[found_at]["id"].clone(), hooks[found_at]["x_mm"].clone());
    let mut rotten = job.clone();
    rotten["built"]["hooks"][found_at]["found"] = json!({"rafter_condition": "rotten"});
    let answer = check(&rotten);
    assert_eq!(answer["verdict"], "fails");
    let found = crate::server::warnings(&answer, "hook.on-rotten-rafter");
    assert_eq!(found.len(), on(&x), "{found:?}");
    assert!(found.iter().any(|one| one["params"]["hook"]["text"] == id), "{found:?}");

    let mut without = job.clone();
    without["built"]["hooks"].as_array_mut().expect("hooks").retain(|hook| hook["x_mm"] != x);
    let bare = check(&without);
    for part in ["utilisation", "hooks", "rails", "modules"] {
        assert_eq!(answer[part], bare[part], "{part}");
    }
    let rafter = &found[0]["params"]["rafter"]["integer"];
    for added in list(&answer["suggestion"]["add"]) {
        assert_ne!(added["rafter"], *rafter, "{added}");
    }
}

/// Hooks on a rotten rafter come off and others take their place; what comes off is left over for them.
#[test]
fn a_rotten_rafter_is_gone_round_with_the_fewest_other_hooks() {
    let (mut job, _) = as_laid_out(COTTAGE);
    let hooks = job["built"]["hooks"].as_array_mut().expect("hooks");
    let found = hooks.iter_mut().find(|hook| hook["id"] == "B1-2").expect("a hook");
    found["found"] = json!({"rafter_condition": "rotten"});
    let x = found["x_mm"].clone();
    let on_it: Vec<Value> = hooks.iter().filter(|hook| hook["x_mm"] == x).cloned().collect();
    let answer = check(&job);
    assert_eq!(answer["verdict"], "fails");

    let suggestion = &answer["suggestion"];
    let names: Vec<&Value> = on_it.iter().map(|hook| &hook["id"]).collect();
    assert_eq!(list(&suggestion["take_off"]).iter().collect::<Vec<_>>(), names);
    assert_ne!(suggestion["verdict"], "fails", "{suggestion}");
    let segments = list(&suggestion["segments"]);
    assert!(segments.iter().all(|part| part["outcome"] == "fewest_proven"), "{segments:?}");
    let after = check(&mended(&job, suggestion));
    assert_eq!(after["verdict"], suggestion["verdict"]);
    assert_eq!(after["utilisation"]["max"], suggestion["max_utilisation"]);

    let added = list(&suggestion["add"]);
    let parts = &suggestion["parts"];
    let change = json!({"needed": added.len(), "freed": on_it.len()});
    assert_eq!([&parts["hooks"], &parts["bolt_sets"]], [&change, &change]);
    let metal: usize = added.iter().map(|hook| list(&hook["tiles"]["substitute"]).len()).sum();
    let each = job["components"]["hook"]["substitute_tiles"].as_u64().expect("a count");
    assert_eq!(
        parts["substitute_tiles"],
        json!({"needed": metal, "freed": each * on_it.len() as u64})
    );
    assert_eq!(parts["covering_tiles"], parts["substitute_tiles"]["freed"]);
    let packed = |hooks: &[Value], thickness: &Value| {
        let all = hooks.iter().flat_map(|hook| list(&hook["packers_mm"]));
        all.filter(|packer| *packer == thickness).count()
    };
    for packer in list(&parts["packers"]) {
        let size = &packer["thickness_mm"];
        assert_eq!(packer["needed"], packed(added, size), "{size}");
        assert_eq!(packer["freed"], packed(&on_it, size), "{size}");
    }
    // A hook that is added is set out as the plan would: its tiles are those of the checked job after it.
    for hook in added {
        let set = list(&after["hooks"])
            .iter()
            .find(|set| set["rafter"] == hook["rafter"] && set["rail"] == hook["rail"]);
        assert_eq!(set.expect("the hook")["tiles"], hook["tiles"]);
    }
}

/// A split rafter keeps its hooks in the computation; whether it may, somebody has to answer for.
#[test]
fn a_split_rafter_is_for_an_engineer_and_a_sound_one_changes_nothing() {
    let (mut job, _) = laid_out();
    let plain = check(&job);
    job["built"]["hooks"][2]["found"] = json!({"rafter_condition": "sound"});
    let sound = check(&job);
    job["built"]["hooks"][2]["found"] = json!({"rafter_condition": "split"});
    let split = check(&job);
    assert_eq!(crate::server::warnings(&split, "rafter.split").len(), 1);
    assert_eq!(split["verdict"], "incomplete");
    assert_eq!(split["verdicts"]["fixing"], "incomplete");
    for part in ["utilisation", "hooks", "rails", "rafters", "modules"] {
        assert_eq!((&plain[part], &plain[part]), (&sound[part], &split[part]), "{part}");
    }
    assert_eq!(plain["warnings"], sound["warnings"]);
}
