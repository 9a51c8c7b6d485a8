//! Rails up the slope that stand: rechecks, surveys and events of them, and layouts beside them.

use serde_json::{Value, json};

use crate::server::{TERRACE_BUILT, answer, example, list, number, param, post, send, warnings};
use crate::up_slope::terrace;

fn laid_out(job: &Value) -> Value {
    answer("/v1/layouts", job)
}

/// The recheck of what an answer has on the roof.
fn built(job: &Value, laid: &Value) -> Value {
    let mut built = job.clone();
    built.as_object_mut().expect("an object").remove("kept");
    built["built"] = laid["record"]["built"].clone();
    built
}

fn check(job: &Value) -> Value {
    answer("/v1/rechecks", job)
}

/// Looks whether a recheck of a layout comes to its figures.
fn comes_to_the_same(job: &Value, laid: &Value) {
    let again = check(&built(job, laid));
    assert_eq!(laid["verdict"], again["verdict"], "{}", again["headline"]);
    for part in ["utilisation", "rafters", "modules", "actions"] {
        assert_eq!(laid[part], again[part], "{part}");
    }
    for part in ["hooks", "rails"] {
        let of = |answer: &Value| -> Vec<Value> {
            let mut all = list(&answer[part]).to_vec();
            for one in &mut all {
                one.as_object_mut().expect("an object").remove("kept");
            }
            all
        };
        assert_eq!(of(laid), of(&again), "{part}");
    }
}

/// The terrace as it was laid out, built, with one change.
fn with(change: impl Fn(&mut Value)) -> Value {
    let job = terrace(&[]);
    let mut job = built(&job, &laid_out(&job));
    change(&mut job["built"]);
    job
}

fn hooks(built: &mut Value) -> &mut Vec<Value> {
    built["hooks"].as_array_mut().expect("hooks")
}

fn moved(built: &mut Value, at: &str, by: f64) {
    let place = built.pointer_mut(at).expect("a place");
    *place = json!(number(place) + by);
}

#[test]
fn a_layout_up_the_slope_is_used_as_it_says_once_it_is_built() {
    let short = [("/components/rail/stock_lengths_mm", json!([2000.0]))];
    let beside = [("/components/rail/axis_offset_mm", json!(20.0))];
    let continuous = [
        ("/components/rail/max_continuous_mm", json!(2500.0)),
        ("/array/fields/0/row_gap_mm", json!(80.0)),
        ("/array/fields/0/rows", json!(3)),
    ];
    for edits in [&[][..], &short, &beside, &continuous] {
        let job = terrace(edits);
        let laid = laid_out(&job);
        assert!(!list(&laid["hooks"]).is_empty());
        comes_to_the_same(&job, &laid);
        let mut again = built(&job, &laid);
        again["recorded"] = laid["record"]["recorded"].clone();
        let difference = &check(&again)["difference"];
        assert_eq!(difference["input_changed"], false);
        assert_eq!(difference["change"], 0.0);
    }
}

/// A rail of the record lies somewhere along the eaves, its hooks at heights of their own.
#[test]
fn a_record_says_where_rails_and_hooks_up_the_slope_are() {
    let laid = laid_out(&terrace(&[]));
    let there = &laid["record"]["built"];
    for (rail, said) in list(&there["rails"]).iter().zip(list(&laid["rails"])) {
        assert_eq!(rail["x_mm"], said["x_mm"]);
        assert_eq!([&rail["start_mm"], &rail["end_mm"]], [&said["start_mm"], &said["end_mm"]]);
        assert_eq!(rail.get("y_mm"), None);
    }
    for (hook, said) in list(&there["hooks"]).iter().zip(list(&laid["hooks"])) {
        for member in ["id", "rail", "x_mm", "y_mm", "arm_x_mm", "packers_mm"] {
            assert_eq!(hook[member], said[member], "{member}");
        }
    }
}

#[test]
fn the_example_is_checked_hook_by_hook_where_each_was_found() {
    let job = example(TERRACE_BUILT);
    let answer = check(&job);
    assert_eq!(answer["verdict"], "holds_with_warnings", "{}", answer["warnings"]);
    assert_eq!(list(&answer["hooks"]).len(), list(&job["built"]["hooks"]).len());
    for (hook, checked) in list(&job["built"]["hooks"]).iter().zip(list(&answer["hooks"])) {
        assert_eq!((&hook["id"], &hook["y_mm"]), (&checked["id"], &checked["y_mm"]));
        let found = hook.get("found").and_then(|found| found.get("rafter_x_mm"));
        assert_eq!(found.unwrap_or(&hook["x_mm"]), &checked["x_mm"]);
        assert_eq!(hook["packers_mm"], checked["packers_mm"]);
        if let Some(found) = hook.get("found") {
            assert_eq!(found["clearance_mm"], checked["clearance_mm"]);
        }
    }
    assert_eq!(answer["difference"]["verdict_changed"], false);
}

#[test]
fn what_is_in_the_wrong_place_up_the_slope_is_found() {
    type Change = fn(&mut Value);
    let cases: [(&str, Change); 10] = [
        ("hook.misses-rafter", |b| moved(b, "/hooks/1/x_mm", 60.0)),
        ("hook.arm-beside-rail", |b| moved(b, "/hooks/1/arm_x_mm", 30.0)),
        ("hook.arm-beyond-lateral-range", |b| moved(b, "/hooks/1/arm_x_mm", 5.0)),
        ("hook.beyond-rail-end", |b| b["hooks"][0]["y_mm"] = json!(500.0)),
        ("hook.foot-on-another-foot", |b| {
            let below = number(&b["hooks"][0]["y_mm"]);
            b["hooks"][1]["y_mm"] = json!(below + 120.0);
        }),
        ("hook.off-course", |b| moved(b, "/hooks/1/y_mm", 60.0)),
        ("rail.free-end-beyond-courses", |b| drop(hooks(b).remove(0))),
        ("rail.too-few-hooks", |b| hooks(b).retain(|hook| hook["rail"] != "T2")),
        ("rail.outside-clamp-zone", |b| {
            b["rails"][0]["x_mm"] = json!(900.0);
        }),
        ("array.row-without-two-rails", |b| {
            b["rails"].as_array_mut().expect("rails").remove(3);
            hooks(b).retain(|hook| hook["rail"] != "T4");
        }),
    ];
    for (code, change) in cases {
        let answer = check(&with(change));
        let found = warnings(&answer, code);
        assert_eq!(found.len(), 1, "{code}: {}", answer["warnings"]);
        if found[0]["severity"] == "failure" {
            assert_eq!(answer["verdict"], "fails", "{code}");
        }
    }
    let column = check(&with(|b| {
        b["rails"].as_array_mut().expect("rails").remove(3);
        hooks(b).retain(|hook| hook["rail"] != "T4");
    }));
    let told = warnings(&column, "array.row-without-two-rails");
    assert_eq!([param(told[0], "column"), param(told[0], "rails")], [&json!(1), &json!(1)]);
    let zone = check(&with(|b| b["rails"][0]["x_mm"] = json!(900.0)));
    let told = warnings(&zone, "rail.outside-clamp-zone");
    assert_eq!([param(told[0], "x_mm"), param(told[0], "off_mm")], [&json!(900.0), &json!(100.0)]);
    // A rail off its rafter by more than arms may stand off it.
    let off = check(&with(|b| {
        moved(b, "/rails/0/x_mm", 40.0);
        for hook in hooks(b).iter_mut().filter(|hook| hook["rail"] == "T1") {
            hook.as_object_mut().expect("a hook").remove("arm_x_mm");
        }
    }));
    let told = warnings(&off, "rail.off-rafter-line");
    assert_eq!(
        [param(told[0], "beside_mm"), param(told[0], "range_mm")],
        [&json!(40.0), &json!(0.0)]
    );
    assert_eq!(off["verdict"], "fails");
}

/// Under tiles that let arms out in troughs alone.
#[test]
fn an_arm_beside_its_trough_is_told_of() {
    let covering = json!({
        "kind": "interlocking",
        "tile": {
            "length_mm": 420.0, "width_mm": 330.0, "thickness_mm": 25.0, "camber_mm": 0.0,
            "head_projection_mm": 20.0,
        },
        "joint_mm": 0.0, "cover_width_mm": 300.0, "trough_offsets_mm": [100.0, 250.0], "gauge_mm": 340.0,
        "first_course_mm": 300.0, "batten": {"thickness_mm": 30.0, "width_mm": 50.0},
        "bond": "straight", "joint_origin_mm": 0.0,
    });
    let job = terrace(&[
        ("/roof/covering", covering),
        ("/components/hook/foot/lateral_range_mm", json!(45.0)),
        ("/roof/rafters/width_mm", json!(120.0)),
    ]);
    let laid = laid_out(&job);
    let in_troughs = list(&laid["hooks"]).iter().all(|hook| {
        let into = number(&hook["arm_x_mm"]).rem_euclid(300.0);
        (into - 100.0).abs() < 0.1 || (into - 250.0).abs() < 0.1
    });
    assert!(in_troughs && !list(&laid["hooks"]).is_empty(), "{}", laid["hooks"]);
    let mut job = built(&job, &laid);
    assert!(warnings(&check(&job), "hook.arm-beside-trough").is_empty());
    moved(&mut job["built"], "/rails/0/x_mm", 22.0);
    for hook in hooks(&mut job["built"]).iter_mut().filter(|hook| hook["rail"] == "T1") {
        hook.as_object_mut().expect("a hook").remove("arm_x_mm");
    }
    let answer = check(&job);
    let told = warnings(&answer, "hook.arm-beside-trough");
    assert_eq!(told.len(), 1, "{}", answer["warnings"]);
    assert_eq!(param(told[0], "beside_mm"), &json!(22.0));
    let off = warnings(&answer, "rail.off-rafter-line");
    assert!(off.iter().any(|found| param(found, "rail") == "T1"), "{off:?}");
}

#[test]
fn hooks_that_are_lost_are_put_back_where_they_were() {
    for gone in [&[1][..], &[0], &[2, 1], &[9, 6]] {
        let mut lost = Vec::new();
        let mut job = with(|_| ());
        for at in gone {
            lost.push(hooks(&mut job["built"]).remove(*at));
        }
        let answer = check(&job);
        assert_eq!(answer["verdict"], "fails");
        let suggestion = &answer["suggestion"];
        assert_eq!(suggestion["verdict"], "holds_with_warnings", "{suggestion}");
        let add = list(&suggestion["add"]);
        assert_eq!(add.len(), lost.len(), "{suggestion}");
        for (number, hook) in add.iter().enumerate() {
            let mut hook = hook.clone();
            hook["id"] = json!(format!("new {number}"));
            for told in ["rafter", "tiles"] {
                hook.as_object_mut().expect("a hook").remove(told);
            }
            hooks(&mut job["built"]).push(hook);
        }
        let part = &suggestion["segments"][0];
        assert_eq!(part["outcome"], "fewest_proven");
        assert!(part["free_courses"].is_u64() && part.get("free_rafters").is_none(), "{part}");
        let mended = check(&job);
        assert_eq!(mended["verdict"], "holds_with_warnings", "{}", mended["warnings"]);
        assert_eq!(mended["utilisation"]["max"], suggestion["max_utilisation"]);
        assert_eq!(mended.get("suggestion"), None);
    }
}

#[test]
fn where_no_course_helps_the_reason_is_said() {
    let job = with(|b| {
        for hook in hooks(b).iter_mut().take(3) {
            hook["found"] = json!({"clearance_mm": -30.0});
        }
    });
    for (lang, says) in
        [("en", "under every free course"), ("de", "unter jeder freien Ziegelreihe")]
    {
        let headers = [("accept-language", lang), ("content-type", "application/json")];
        let reply = send("POST", "/v1/rechecks", &headers, job.to_string().as_bytes());
        let answer = reply.json();
        let reason = &answer["suggestion"]["segments"][0]["reason"];
        assert!(reason.as_str().is_some_and(|reason| reason.contains(says)), "{reason}");
    }
}

/// Snow of 0.6 kN/m² on the ground plan and no wind, every factor 1: rail T1 takes 596.5/1200 of three modules of
/// 1.762 m by 1.134 m and 21.5 kg with their snow, 3.522 m of rail at 0.95 kg/m and four clamps of 0.06 kg, at 38°.
#[test]
fn an_event_is_borne_by_hand() {
    let mut job = with(|_| ());
    job["event"] = json!({"snow_on_roof_kn_per_m2": 0.6});
    let answer = check(&job);
    let (sin, cos) = 38.0_f64.to_radians().sin_cos();
    let share = (1477.5 - 881.0) / 1200.0;
    let snow = 0.6 * 1.762 * 1.134 * cos;
    let module = 21.5 * 9.81e-3;
    let own = (3.522 * 0.95 + 4.0 * 0.06) * 9.81e-3;
    let down = 3.0 * share * (module + snow) + own;
    let on_rail = |member: &str| -> f64 {
        let hooks = list(&answer["hooks"]).iter().filter(|hook| hook["rail"] == "T1");
        hooks.map(|hook| number(&hook[member])).sum()
    };
    let governs = list(&answer["hooks"]).iter().all(|hook| {
        hook["combination"].as_str().is_some_and(|combination| combination.contains('S'))
    });
    assert!(governs, "{}", answer["hooks"]);
    // Five forces, each rounded to a tenth of a newton.
    for (member, by_hand) in [("normal_kn", down * cos), ("slope_kn", down * sin)] {
        let carried = on_rail(member);
        assert!((carried - by_hand).abs() < 3e-4, "{member} {carried}, by hand {by_hand}");
    }
    assert_eq!(answer["event"]["within_resistances"], true, "{}", answer["event"]);
}

#[test]
fn a_built_job_bears_as_much_as_its_layout() {
    let mut job = terrace(&[]);
    job["capacity"] = json!(true);
    let laid = laid_out(&job);
    let again = check(&built(&job, &laid));
    assert!(laid["capacity"].is_object());
    assert_eq!(laid["capacity"], again["capacity"]);
}

#[test]
fn a_built_job_is_traced_drawn_and_printed() {
    let job = with(|_| ());
    let body = job.to_string();
    let traced =
        |path: &str, job: &Value| answer(&format!("{path}?trace=full"), job)["trace"].clone();
    let of_layout = traced("/v1/layouts", &terrace(&[]));
    let of_recheck = traced("/v1/rechecks", &job);
    // What is worked out of rails and hooks is the same, step by step.
    let own = |trace: &Value| -> Vec<Value> {
        let lines = list(trace).iter();
        lines
            .filter(|line| line["element"].as_str().is_some_and(|e| e.starts_with('T')))
            .cloned()
            .collect()
    };
    assert!(own(&of_layout).len() > 20);
    assert_eq!(own(&of_layout), own(&of_recheck));
    for (accept, shows) in [("image/svg+xml", "T3-2"), ("text/html", "T3-2")] {
        let headers = [("accept", accept), ("content-type", "application/json")];
        let reply = send("POST", "/v1/rechecks", &headers, body.as_bytes());
        assert_eq!(reply.status, 200, "{}", reply.text());
        assert!(reply.text().contains(shows), "{accept}");
    }
}

/// Levels that rise by 2 mm from hook to hook lie on one line; one foot that lies 15 mm low has 2.5 mm less than
/// the slot of 25 mm takes up if the rest stay in the middle, so that nothing has to be packed.
#[test]
fn a_rail_up_the_slope_is_levelled_and_checked_so() {
    let mut job = with(|_| ());
    let own = hooks(&mut job["built"]).iter().filter(|hook| hook["rail"] == "T1");
    let ids: Vec<(Value, f64)> =
        own.map(|hook| (hook["id"].clone(), number(&hook["y_mm"]))).collect();
    let measured = |levels: &dyn Fn(usize, f64) -> f64| -> Value {
        let hooks = ids
            .iter()
            .enumerate()
            .map(|(i, (id, y))| json!({"id": id, "clearance_mm": 8.0, "level_mm": levels(i, *y)}));
        json!({"rail": "T1", "hooks": hooks.collect::<Vec<_>>()})
    };
    // In line along the slope, whatever the distances of the courses are.
    job["measured"] = measured(&|_, y| 2.0 + 0.004 * y);
    let straight = answer("/v1/surveys", &job);
    assert_eq!(straight["surveyed"][0]["outcome"], "levelled");
    assert_eq!(straight["surveyed"][0]["line"]["packing_mm"], 0.0);
    assert_eq!(straight["surveyed"][0]["line"]["slots_off_middle_mm"], 0.0);
    let run = ids[ids.len() - 1].1 - ids[0].1;
    let rise = number(&straight["surveyed"][0]["line"]["rise_mm"]);
    assert!((rise - 0.004 * run).abs() < 0.01, "{rise} over {run}");
    for (setting, (id, y)) in list(&straight["surveyed"][0]["hooks"]).iter().zip(&ids) {
        assert_eq!(&setting["id"], id);
        assert!((number(&setting["y_mm"]) - y).abs() < 0.006);
        assert_eq!(setting["slot_mm"], 12.5);
    }
    // A foot far below the others is packed.
    job["measured"] = measured(&|i, _| if i == 2 { -30.0 } else { 0.0 });
    let packed = answer("/v1/surveys", &job);
    assert_eq!(packed["surveyed"][0]["outcome"], "levelled", "{}", packed["surveyed"][0]);
    let packing = number(&packed["surveyed"][0]["line"]["packing_mm"]);
    assert!(packing >= 5.0, "{packing}");
    for survey in [&straight, &packed] {
        let mut again = job.clone();
        again.as_object_mut().expect("a job").remove("measured");
        again["built"] = survey["record"]["built"].clone();
        let again = check(&again);
        assert_eq!(again["verdict"], survey["verdict"]);
        assert_eq!(again["utilisation"], survey["utilisation"]);
        assert_eq!(again["hooks"], survey["hooks"]);
    }
}

#[test]
fn what_is_not_measured_up_the_slope_is_named() {
    let mut job = with(|_| ());
    job["measured"] = json!({"rail": "T1", "hooks": [{"id": "T1-1", "clearance_mm": 7.0}]});
    let open = answer("/v1/surveys", &job);
    assert_eq!(open["verdict"], "incomplete");
    assert_eq!(open["surveyed"][0]["outcome"], "incomplete");
    job["measured"]["hooks"][0]["id"] = json!("T2-1");
    let refused = post("/v1/surveys", job.to_string().as_bytes()).problem();
    assert_eq!(refused["errors"][0]["pointer"], "/measured/hooks/0/id");
}

/// A job with what an answer has on the roof kept.
fn keeping(job: &Value, laid: &Value) -> Value {
    let mut job = job.clone();
    job["kept"] = laid["record"]["built"].clone();
    job
}

#[test]
fn columns_and_rows_are_added_to_an_array_up_the_slope_that_stays() {
    let job = terrace(&[]);
    let whole = laid_out(&job);
    let kept = laid_out(&keeping(&job, &whole));
    assert_eq!([&kept["optimality"]["added"], &kept["verdict"]], [&json!(0), &whole["verdict"]]);
    comes_to_the_same(&job, &kept);
    for (member, of) in [("columns", 1), ("rows", 1), ("rows", 2)] {
        let part = terrace(&[(&format!("/array/fields/0/{member}"), json!(of))]);
        let before = laid_out(&part);
        let now = laid_out(&keeping(&job, &before));
        assert_eq!(now["verdict"], "holds_with_warnings", "{}", now["warnings"]);
        assert_eq!(now["optimality"]["kept"], list(&before["hooks"]).len());
        assert_eq!(now["optimality"]["proven"], true);
        let standing: Vec<&Value> =
            list(&now["hooks"]).iter().filter(|hook| hook.get("kept").is_some()).collect();
        assert_eq!(standing.len(), list(&before["hooks"]).len());
        for (then, now) in list(&before["hooks"]).iter().zip(standing) {
            for member in ["x_mm", "y_mm", "arm_x_mm", "course", "packers_mm"] {
                assert_eq!(then[member], now[member], "{member}");
            }
        }
        comes_to_the_same(&job, &now);
    }
}

#[test]
fn rails_and_hooks_that_cannot_be_kept_up_the_slope_are_refused() {
    type Change = fn(&mut Value);
    let cases: [(&str, &str, Change); 6] = [
        ("/kept/hooks/1", "No rafter", |b| moved(b, "/hooks/1/x_mm", 60.0)),
        ("/kept/hooks/1", "under its rail", |b| moved(b, "/hooks/1/arm_x_mm", 30.0)),
        ("/kept/hooks/0", "No rail", |b| b["hooks"][0]["y_mm"] = json!(500.0)),
        ("/kept/hooks/1", "Its foot meets", |b| {
            let below = number(&b["hooks"][0]["y_mm"]);
            b["hooks"][1]["y_mm"] = json!(below + 120.0);
        }),
        ("/kept/rails/0/x_mm", "No column", |b| b["rails"][0]["x_mm"] = json!(300.0)),
        ("/kept/rails/1/x_mm", "other rail", |b| {
            let beside = number(&b["rails"][0]["x_mm"]);
            b["rails"][1]["x_mm"] = json!(beside + 10.0);
        }),
    ];
    for (pointer, says, change) in cases {
        let job = terrace(&[]);
        let mut job = keeping(&job, &laid_out(&job));
        change(&mut job["kept"]);
        let refused = post("/v1/layouts", job.to_string().as_bytes()).problem();
        let fault = &refused["errors"][0];
        assert_eq!(fault["pointer"], pointer, "{refused}");
        assert!(fault["detail"].as_str().is_some_and(|detail| detail.contains(says)), "{fault}");
    }
}

/// A kept rail off its rafters takes no hooks: whatever else holds, the layout does not.
#[test]
fn a_kept_rail_no_rafter_holds_fails() {
    let mut job = terrace(&[]);
    job["kept"] = json!({"rails": [{"id": "old", "x_mm": 2180.0}], "hooks": []});
    let answer = laid_out(&job);
    assert_eq!(answer["verdict"], "fails");
    for code in ["rail.off-rafter-line", "rail.too-few-courses"] {
        assert_eq!(warnings(&answer, code).len(), 1, "{code}: {}", answer["warnings"]);
    }
}
