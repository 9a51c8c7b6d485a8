//! Layouts beside what is there already: hooks and rails that stay, rafters that take no hook.

use serde_json::{Value, json};

use crate::server::{BARN, BUILT, COTTAGE, all_known, answer, example, list, number, post, send};

fn lay_out(job: &Value) -> Value {
    answer("/v1/layouts", job)
}

/// A job with what an answer has on the roof kept.
fn keeping(job: &Value, answer: &Value) -> Value {
    let mut job = job.clone();
    job["kept"] = answer["record"]["built"].clone();
    job
}

/// What an order has of a kind of part.
fn ordered(answer: &Value, kind: &str) -> u64 {
    let lines = list(&answer["parts"]["lines"]).iter();
    lines.filter(|line| line["kind"] == kind).filter_map(|line| line["needed"].as_u64()).sum()
}

/// The hooks of an answer without their names.
fn places(answer: &Value) -> Vec<(Value, Value, Value)> {
    let hooks = list(&answer["hooks"]).iter();
    hooks.map(|h| (h["y_mm"].clone(), h["rafter"].clone(), h["arm_x_mm"].clone())).collect()
}

/// The recheck of what an answer has on the roof.
fn rechecked(job: &Value, laid: &Value) -> Value {
    let mut built = job.clone();
    let members = built.as_object_mut().expect("an object");
    members.remove("kept");
    members.insert("built".to_owned(), laid["record"]["built"].clone());
    answer("/v1/rechecks", &built)
}

/// Looks whether a recheck of a layout comes to its figures.
fn comes_to_the_same(job: &Value, laid: &Value) {
    let again = rechecked(job, laid);
    assert_eq!(laid["verdict"], again["verdict"], "{}", again["headline"]);
    assert_eq!(laid["utilisation"], again["utilisation"]);
    let of = |answer: &Value| -> Vec<Value> {
        let hooks = list(&answer["hooks"]).iter().cloned();
        hooks
            .map(|mut hook| {
                hook.as_object_mut().expect("a hook").remove("kept");
                hook
            })
            .collect()
    };
    assert_eq!(of(laid), of(&again));
}

#[test]
fn keeping_a_layout_adds_nothing_and_changes_nothing() {
    for text in [BARN, COTTAGE] {
        let job = all_known(text);
        let before = lay_out(&job);
        let kept = keeping(&job, &before);
        let after = lay_out(&kept);
        assert_eq!(places(&before), places(&after));
        assert_eq!(before["verdict"], after["verdict"]);
        assert_eq!(before["utilisation"], after["utilisation"]);
        // That a rail is laid lower for its feet is no matter once it lies there.
        let causes = |answer: &Value| -> Vec<Value> {
            let codes = list(&answer["causes"]).iter().map(|cause| cause["code"].clone());
            codes.filter(|code| *code != "hook.foot-meets-batten-or-tile").collect()
        };
        assert_eq!(causes(&before), causes(&after));
        let hooks = list(&before["hooks"]).len();
        assert_eq!(after["optimality"]["kept"], hooks);
        assert_eq!(after["optimality"]["added"], 0);
        assert_eq!(after["optimality"]["proven"], true);
        for kind in ["hook", "screw", "packer", "bolt_set", "rail_bar", "splice", "end_cap"] {
            assert_eq!(ordered(&after, kind), 0, "{kind}");
        }
        assert_eq!(ordered(&after, "module"), ordered(&before, "module"));
        assert_eq!(before["parts"]["mass"], after["parts"]["mass"]);
        assert!(list(&after["hooks"]).iter().all(|hook| hook["kept"] == hook["id"]));
        assert!(list(&after["rails"]).iter().all(|rail| rail["kept"] == rail["id"]));
        comes_to_the_same(&kept, &after);
        assert_eq!(after["job_key"], before["job_key"]);
    }
}

#[test]
fn a_row_is_added_to_an_array_that_stays() {
    let mut job = all_known(BARN);
    job["array"]["fields"][0]["rows"] = json!(1);
    let one = lay_out(&job);
    job["array"]["fields"][0]["rows"] = json!(2);
    let fresh = lay_out(&job);
    let kept = keeping(&job, &one);
    let both = lay_out(&kept);
    assert_eq!(both["verdict"], "holds_with_warnings", "{}", both["headline"]);
    let is_kept = |hook: &&Value| hook.get("kept").is_some();
    let standing: Vec<&Value> = list(&both["hooks"]).iter().filter(is_kept).collect();
    assert_eq!(standing.len(), list(&one["hooks"]).len());
    for (before, now) in list(&one["hooks"]).iter().zip(standing) {
        for of in ["x_mm", "y_mm", "arm_x_mm", "rafter", "packers_mm"] {
            assert_eq!(before[of], now[of], "{of}");
        }
        assert_eq!(before["id"], now["kept"]);
    }
    let added = both["optimality"]["added"].as_u64().expect("a count");
    assert!(added > 0);
    assert_eq!(ordered(&both, "hook"), added);
    assert_eq!(ordered(&both, "screw"), 2 * added);
    assert!(ordered(&both, "rail_bar") < ordered(&fresh, "rail_bar"));
    assert!(list(&both["hooks"]).len() >= list(&fresh["hooks"]).len());
    comes_to_the_same(&kept, &both);
}

#[test]
fn columns_are_added_to_an_array_that_stays() {
    let mut job = all_known(BARN);
    job["array"]["fields"][0]["columns"] = json!(5);
    let narrow = lay_out(&job);
    job["array"]["fields"][0]["columns"] = json!(9);
    let kept = keeping(&job, &narrow);
    let wide = lay_out(&kept);
    assert_eq!(wide["verdict"], "holds_with_warnings", "{}", wide["headline"]);
    let there = list(&narrow["rails"]).len() as u64;
    let bars = list(&wide["parts"]["cutting"]["bars"]).iter().flat_map(|bar| list(&bar["pieces"]));
    let pieces: Vec<&Value> = bars.collect();
    for (rail, before) in list(&wide["rails"]).iter().zip(list(&narrow["rails"])) {
        assert_eq!(rail["kept"], before["id"]);
        // The rail goes on where it ended, and what is added reaches from there to its new end.
        let [splices, old] = [rail, before].map(|of| list(&of["segments"][0]["splices_mm"]));
        assert_eq!(&splices[..old.len()], old);
        assert!(splices.contains(&before["end_mm"]), "{splices:?}");
        let own = pieces.iter().filter(|piece| piece["rail"] == rail["id"]);
        let added: f64 = own.clone().map(|piece| number(&piece["length_mm"])).sum();
        let longer = number(&rail["end_mm"]) - number(&before["end_mm"]);
        assert!((added - longer).abs() < 0.2, "{added} mm of {longer} mm");
        assert!(own.clone().all(|piece| number(&piece["start_mm"]) >= number(&before["end_mm"])));
        let numbers: Vec<u64> = own.filter_map(|piece| piece["piece"].as_u64()).collect();
        assert!(numbers.iter().all(|number| *number > old.len() as u64), "{numbers:?}");
    }
    let listed = list(&wide["parts"]["cutting"]["splices"]).len() as u64;
    assert_eq!(ordered(&wide, "splice"), listed);
    assert_eq!(ordered(&wide, "splice"), pieces.len() as u64);
    assert_eq!(ordered(&wide, "end_cap"), there);
    let hooks = [&narrow, &wide].map(|of| list(&of["hooks"]).len() as u64);
    assert_eq!(ordered(&wide, "hook"), hooks[1] - hooks[0]);
    comes_to_the_same(&kept, &wide);
}

#[test]
fn a_rotten_rafter_takes_no_hook() {
    let mut job = all_known(BARN);
    // So little acts that not every rafter has a hook; without a span hooks are spread for none.
    job["site"]["snow"] = json!({"ground_load_kn_per_m2": 0.4, "exceptional": false});
    job["site"]["wind"] = json!({"peak_pressure_kn_per_m2": 0.35});
    job["wishes"]["min_clearance_mm"] = json!(14.0);
    job["roof"]["rafters"].as_object_mut().expect("rafters").remove("span_m");
    let before = lay_out(&job);
    let carries = |answer: &Value, rafter: u64| {
        list(&answer["hooks"]).iter().any(|hook| hook["rafter"] == rafter)
    };
    let rotten = list(&before["hooks"])[2]["rafter"].as_u64().expect("a rafter");
    job["roof"]["rafters"]["barred"] = json!([rotten]);
    let after = lay_out(&job);
    assert!(carries(&before, rotten) && !carries(&after, rotten));
    let candidates = |answer: &Value| -> u64 {
        let rails = list(&answer["optimality"]["rails"]).iter();
        rails.filter_map(|rail| rail["candidates"].as_u64()).sum()
    };
    assert_eq!(candidates(&before) - candidates(&after), list(&before["rails"]).len() as u64);
    // The rest stays, without the hooks that do not hold.
    let mut kept = keeping(&job, &before);
    let gone: Vec<&Value> =
        list(&before["hooks"]).iter().filter(|hook| hook["rafter"] == rotten).collect();
    let hooks = kept["kept"]["hooks"].as_array_mut().expect("a list");
    hooks.retain(|hook| gone.iter().all(|other| other["id"] != hook["id"]));
    let mended = lay_out(&kept);
    assert!(!carries(&mended, rotten));
    assert_eq!(mended["optimality"]["proven"], true);
    assert!(number(&mended["optimality"]["added"]) > 0.0);
    comes_to_the_same(&kept, &mended);
}

#[test]
fn an_empty_list_of_barred_rafters_bars_none() {
    let mut job = example(BARN);
    let before = post("/v1/layouts", job.to_string().as_bytes());
    job["roof"]["rafters"]["barred"] = json!([]);
    let after = post("/v1/layouts", job.to_string().as_bytes());
    assert_eq!(before.text(), after.text());
}

#[test]
fn a_rail_that_stays_alone_leaves_the_other_to_be_laid() {
    let mut job = all_known(BARN);
    job["kept"] = json!({"rails": [{"id": "old", "y_mm": 1278.0}], "hooks": []});
    let answer = lay_out(&job);
    let rail = &answer["rails"][0];
    assert_eq!((&rail["kept"], &rail["y_mm"]), (&json!("old"), &json!(1278.0)));
    assert!(list(&answer["rails"])[1..].iter().all(|rail| rail.get("kept").is_none()));
    assert!(list(&answer["hooks"]).iter().all(|hook| hook.get("kept").is_none()));
    assert_eq!(answer["optimality"]["kept"], 0);
    assert_eq!(answer["optimality"]["added"], answer["optimality"]["hooks"]);
    let codes: Vec<&Value> = list(&answer["warnings"]).iter().map(|w| &w["code"]).collect();
    assert!(codes.contains(&&json!("rail.off-course-line")), "{codes:?}");
}

#[test]
fn hooks_that_stay_alone_and_cannot_hold_fail_with_every_rafter_taken() {
    let mut job = all_known(BARN);
    let before = lay_out(&job);
    job["site"]["snow"] = json!({"ground_load_kn_per_m2": 9.0, "exceptional": false});
    let answer = lay_out(&keeping(&job, &before));
    assert_eq!(answer["verdict"], "fails");
    for rail in list(&answer["optimality"]["rails"]) {
        assert_eq!(rail["outcome"], "none_passes");
        assert_eq!(rail["hooks"], rail["candidates"]);
    }
    // Hooks that are there have the parts they have: no other part is no remedy.
    let remedies = answer["remedies"]["remedies"].as_array().into_iter().flatten();
    let mut changes = remedies.flat_map(|remedy| list(&remedy["changes"]));
    assert!(changes.all(|change| change["kind"] != "screw_length"));
}

#[test]
fn everything_that_cannot_stay_is_said_at_once() {
    let mut job = all_known(BARN);
    job["wishes"]["objective"] = json!("even_spacing");
    job["roof"]["rafters"]["barred"] = json!([2]);
    let hook = |id: &str, rail: &str, x: f64| json!({"id": id, "rail": rail, "x_mm": x});
    job["kept"] = json!({
        "rails": [{"id": "A", "y_mm": 1278.0}, {"id": "B", "y_mm": 2518.0, "end_mm": 6000.0}],
        "hooks": [
            hook("on none", "A", 1250.0),
            hook("rotten", "A", 1640.0),
            hook("beyond", "B", 6310.0),
            hook("one", "A", 2425.0),
            hook("another", "A", 2430.0),
        ],
    });
    let faults = |job: &Value| -> Vec<(String, String)> {
        let problem = post("/v1/layouts", job.to_string().as_bytes()).problem();
        let of = |fault: &Value, name: &str| fault[name].as_str().expect("a text").to_owned();
        list(&problem["errors"]).iter().map(|f| (of(f, "pointer"), of(f, "code"))).collect()
    };
    let at = |pointers: &[&str]| -> Vec<(String, String)> {
        pointers.iter().map(|at| ((*at).to_owned(), "contradiction".to_owned())).collect()
    };
    let all = [
        "/wishes/objective",
        "/kept",
        "/kept/hooks/0",
        "/kept/hooks/1",
        "/kept/hooks/2",
        "/kept/hooks/4",
    ];
    assert_eq!(faults(&job), at(&all));
    job["wishes"]["objective"] = json!("fewest_hooks");
    job["kept"]["rails"] = json!([{"id": "A", "y_mm": 300.0}, {"id": "A", "y_mm": 1278.0}]);
    job["kept"]["hooks"] = json!([hook("one", "A", 2425.0)]);
    assert_eq!(faults(&job), at(&["/kept/rails/1/id"]));
    job["kept"]["rails"] = json!([{"id": "A", "y_mm": 300.0}, {"id": "B", "y_mm": 1278.0}]);
    assert_eq!(faults(&job), at(&["/kept/rails/0/y_mm"]));
    job["kept"]["rails"] = json!([{"id": "A", "y_mm": 1278.0}, {"id": "B", "y_mm": 1290.0}]);
    assert_eq!(faults(&job), at(&["/kept/rails/1/y_mm"]));
    job.as_object_mut().expect("an object").remove("kept");
    job["roof"]["rafters"]["barred"] = json!([2, 17, 2]);
    let barred = ["/roof/rafters/barred/1", "/roof/rafters/barred/2"];
    assert_eq!(faults(&job), at(&barred));
}

#[test]
fn a_built_hook_on_a_barred_rafter_is_refused() {
    let mut job = example(BUILT);
    job["roof"]["rafters"]["barred"] = json!([1]);
    let problem = post("/v1/rechecks", job.to_string().as_bytes()).problem();
    let faults = list(&problem["errors"]);
    assert!(!faults.is_empty());
    for fault in faults {
        let pointer = fault["pointer"].as_str().expect("a pointer");
        let hook = job.pointer(pointer).expect("a hook");
        assert!((number(&hook["x_mm"]) - 862.0).abs() < 26.0, "{hook}");
    }
}

#[test]
fn what_was_found_at_a_kept_hook_goes_into_the_record() {
    let job = all_known(BARN);
    let before = lay_out(&job);
    let mut kept = keeping(&job, &before);
    kept["kept"]["hooks"][3]["found"] = json!({"screw_length_mm": 160.0, "clearance_mm": 9.0});
    let after = lay_out(&kept);
    assert_eq!(after["record"]["built"]["hooks"][3]["found"], kept["kept"]["hooks"][3]["found"]);
    assert_eq!(after["hooks"][3]["clearance_mm"], 9.0);
    assert!(
        number(&after["hooks"][3]["embedment_mm"]) > number(&after["hooks"][2]["embedment_mm"])
    );
    comes_to_the_same(&kept, &after);
}

#[test]
fn drawing_and_sheet_tell_what_is_there_from_what_is_added() {
    let mut job = all_known(BARN);
    job["array"]["fields"][0]["rows"] = json!(1);
    let one = lay_out(&job);
    job["array"]["fields"][0]["rows"] = json!(2);
    job["roof"]["rafters"]["barred"] = json!([16]);
    let shown = |job: &Value, form: &str| {
        let headers = [("content-type", "application/json"), ("accept", form)];
        let reply = send("POST", "/v1/layouts", &headers, job.to_string().as_bytes());
        assert_eq!(reply.status, 200, "{}", reply.text());
        reply.text().to_owned()
    };
    let kept = keeping(&job, &one);
    let grey = |drawing: &str| drawing.matches("#c9cfd4").count();
    let [fresh, beside] = [&job, &kept].map(|job| shown(job, "image/svg+xml"));
    assert_eq!(grey(&fresh), 0);
    // Each hook and rail that is there, and the signs of both in the legend.
    assert!(grey(&beside) >= list(&one["hooks"]).len() + list(&one["rails"]).len());
    assert!(beside.contains("Grey: there already") && !fresh.contains("Grey: there already"));
    assert!(beside.contains("Rafter that takes no further hook"));
    let said = |sheet: &str| sheet.matches("there already").count();
    let [fresh, beside] = [&job, &kept].map(|job| shown(job, "text/html"));
    assert_eq!(said(&fresh), 0);
    assert!(said(&beside) > list(&one["hooks"]).len());
}

/// A hook on a rotten rafter cannot stay; one on a split rafter stays, no other joins it there, and somebody has
/// to answer for it.
#[test]
fn what_was_found_of_a_rafter_decides_what_may_stay_on_it() {
    let job = all_known(BARN);
    let laid = lay_out(&job);
    let mut kept = keeping(&job, &laid);
    let [first, x] = ["id", "x_mm"].map(|name| kept["kept"]["hooks"][1][name].clone());
    kept["kept"]["hooks"]
        .as_array_mut()
        .expect("hooks")
        .retain(|hook| hook["x_mm"] != x || hook["id"] == first);
    kept["kept"]["hooks"][1]["found"] = json!({"rafter_condition": "rotten"});
    let refused = post("/v1/layouts", kept.to_string().as_bytes());
    assert_eq!(refused.status, 422);
    let faults = refused.json()["errors"].clone();
    assert_eq!(faults[0]["pointer"], "/kept/hooks/1", "{faults}");
    assert_eq!(list(&faults).len(), 1, "{faults}");

    kept["kept"]["hooks"][1]["found"] = json!({"rafter_condition": "split"});
    let beside = lay_out(&kept);
    let found = crate::server::warnings(&beside, "rafter.split");
    assert_eq!(found.len(), 1, "{}", beside["headline"]);
    let on_it = list(&beside["hooks"]).iter().filter(|hook| hook["x_mm"] == x);
    assert_eq!(on_it.count(), 1);
}
