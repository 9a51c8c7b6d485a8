//! What would lift the failing checks of a layout: tried, told in words and as edits.

use serde_json::{Value, json};

use crate::server::{BARN, COTTAGE, all_known, answer, example, list, number, post, send};

/// The barn with one row on strong hooks and a stiff rail, rafters at 600 mm, and screws too short to
/// hold it: threaded over their whole length, as 6d of it and a little more are in the rafter.
fn short_screws() -> Value {
    let mut job = example(BARN);
    job["array"]["fields"][0]["rows"] = json!(1);
    job["roof"]["obstacles"] = json!([]);
    job["roof"]["rafters"] = json!({
        "first_mm": 120.0, "spacing_mm": 600.0, "count": 21,
        "width_mm": 120.0, "depth_mm": 220.0, "strength_class": "C24",
    });
    job["scopes"] = json!(["modules"]);
    let hook = &mut job["components"]["hook"];
    hook["resistance"] = json!({
        "press_kn": 9.6, "lift_kn": 8.4, "slope_kn": 6.4, "kind": "design", "basis": "test",
        "includes_bolt": true,
    });
    hook["stiffness"]["normal_kn_per_mm"] = json!(1.0);
    // On the axis of the rafter, so that no foot rolls.
    hook["foot"]["screws_mm"] = json!([[0, 15], [0, 75]]);
    let rail = &mut job["components"]["rail"];
    for figure in ["i_normal_mm4", "i_slope_mm4", "w_normal_mm3", "w_slope_mm3"] {
        rail[figure] = json!(6.0 * number(&rail[figure]));
    }
    rail["max_cantilever_mm"] = json!(700.0);
    let screw = &mut job["components"]["screw"];
    (screw["length_mm"], screw["thread_length_mm"]) = (json!(90.0), json!(90.0));
    job
}

fn edited(job: &Value, edits: &Value) -> Value {
    let mut job = job.clone();
    for edit in list(edits) {
        let (parent, member) =
            edit["path"].as_str().and_then(|path| path.rsplit_once('/')).expect("a pointer");
        job.pointer_mut(parent).expect("the parent")[member] = edit["value"].clone();
    }
    job
}

/// The remedy of one change of a kind.
fn remedy<'a>(answer: &'a Value, kind: &str) -> &'a Value {
    let mut all = list(&answer["remedies"]["helping"]).iter();
    let found = all.find(|remedy| remedy["changes"] == json!([kind]));
    found.unwrap_or_else(|| panic!("no {kind} in {}", answer["remedies"]))
}

/// An approval of a screw is none of a longer one.
#[test]
fn what_was_said_of_a_part_is_not_said_of_another() {
    let mut job = short_screws();
    let of_strength =
        json!({"figure": "/tension_kn", "by": "approval", "document": "approval 3, table 2"});
    job["components"]["screw"]["evidence"] = json!([
        {"figure": "/thread_length_mm", "by": "approval", "document": "approval 3, table 1"},
        of_strength,
        {"figure": "/length_mm", "by": "declared"},
    ]);
    let before = answer("/v1/layouts", &job);
    assert_eq!(list(&before["evidence"]).len(), 3);
    let longer = remedy(&before, "screw_length");
    let last = list(&longer["edits"]).last().expect("an edit");
    let kept = json!([of_strength]);
    assert_eq!(*last, json!({"op": "add", "path": "/components/screw/evidence", "value": kept}));
    let after = answer("/v1/layouts", &edited(&job, &longer["edits"]));
    assert_eq!(after["verdict"], longer["verdict"]);
    assert_eq!(list(&after["evidence"]).len(), 1);
    // Another foot makes another hook; its arm is the same bar.
    let mut job = example(COTTAGE);
    job["components"]["hook"]["foot"]["lateral_range_mm"] = json!(20.0);
    let of = |figure: &str, by: &str| json!({"figure": figure, "by": by});
    let of_arm = [of("/arm/width_mm", "declared"), of("/stiffness/slope_kn_per_mm", "bar")];
    let of_hook = [
        of("/foot/lateral_range_mm", "declared"),
        of("/resistance/lift_kn", "declared"),
        of("/stiffness/normal_kn_per_mm", "declared"),
    ];
    job["components"]["hook"]["evidence"] = json!([&of_hook[..], &of_arm[..]].concat());
    let before = answer("/v1/layouts", &job);
    let last = list(&remedy(&before, "wider_foot")["edits"]).last().expect("an edit");
    assert_eq!(
        (&last["path"], &last["value"]),
        (&json!("/components/hook/evidence"), &json!(of_arm))
    );
}

/// With 90 mm every rafter has a hook on either rail, 17 on each, and the screws fail all the same;
/// with 160 mm, nine on each do.
#[test]
fn longer_screws_cut_many_hooks_to_few() {
    let job = short_screws();
    let before = answer("/v1/layouts", &job);
    assert_eq!((&before["verdict"], list(&before["hooks"]).len()), (&json!("fails"), 34));
    let longer = remedy(&before, "screw_length");
    assert_eq!(longer["hooks"], json!([34, 18]));
    assert_eq!(longer["lifts"], json!(["screw.overloaded"]));
    assert_eq!(longer["still_failing"], json!([]));
    assert_eq!(longer["other_part"], true);
    assert_eq!(longer["to_ask"], json!(["/components/screw/thread_length_mm"]));
    let edits = json!([
        {"op": "add", "path": "/components/screw/length_mm", "value": 180.0},
        {"op": "add", "path": "/components/screw/thread_length_mm", "value": 180.0},
    ]);
    assert_eq!(longer["edits"], edits);
    let message = longer["message"].as_str().expect("a message");
    let begins = "Take screws 180 mm long instead of 90 mm, with 180 mm of thread: 18 hooks instead \
                  of 34, highest utilisation";
    assert!(message.starts_with(begins), "{message}");
    let after = answer("/v1/layouts", &edited(&job, &longer["edits"]));
    assert_eq!(after["verdict"], longer["verdict"]);
    assert_eq!(list(&after["hooks"]).len(), 18);
    assert_eq!(after["utilisation"]["max"], longer["max_utilisation"][1]);
    assert!(after.get("remedies").is_none());
}

#[test]
fn a_remedy_stands_on_the_sheet_in_the_language_of_its_reader() {
    let body = short_screws().to_string();
    let sheet = |path: &str| {
        let headers = [("content-type", "application/json"), ("accept", "text/html")];
        let reply = send("POST", path, &headers, body.as_bytes());
        assert_eq!(reply.status, 200);
        reply.text().to_owned()
    };
    let english = sheet("/v1/layouts");
    assert!(english.contains("Take screws 180 mm long instead of 90 mm"));
    let german = sheet("/v1/layouts?lang=de");
    assert!(german.contains("Schrauben von 180 mm statt 90 mm Länge nehmen"));
    assert!(german.contains("18 statt 34 Dachhaken"));
}

/// Asking or not changes nothing of a job that does not fail, and never the digest.
#[test]
fn a_job_that_does_not_fail_has_no_remedies() {
    let bytes = |job: &Value| post("/v1/layouts", job.to_string().as_bytes()).text().to_owned();
    let job = all_known(COTTAGE);
    let plain = bytes(&job);
    assert!(!plain.contains("\"remedies\""));
    for asked in [true, false] {
        let mut job = job.clone();
        job["remedies"] = json!(asked);
        assert_eq!(bytes(&job), plain, "asked: {asked}");
    }
    let mut failing = short_screws();
    let asked = answer("/v1/layouts", &failing);
    failing["remedies"] = json!(false);
    let mut not_asked = answer("/v1/layouts", &failing);
    assert!(not_asked.get("remedies").is_none());
    not_asked["remedies"] = asked["remedies"].clone();
    assert_eq!(not_asked, asked);
}

/// More snow than screws and timber bear on every rafter: no change tried cures either, and none is named.
#[test]
fn what_does_not_help_is_not_named() {
    let mut job = example(BARN);
    job["site"]["snow"] = json!({"ground_load_kn_per_m2": 2.5, "exceptional": false});
    // So stiff, and rising with the tile, that arms stay clear of it.
    job["components"]["hook"]["arm"]["underside_at_bolt_mm"] = json!(78.0);
    job["components"]["hook"]["stiffness"]["includes_foot"] = json!(true);
    let answer = answer("/v1/layouts", &job);
    assert_eq!(answer["verdict"], "fails");
    let remedies = &answer["remedies"];
    assert!(number(&remedies["tried"]) >= 1.0, "{remedies}");
    assert_eq!(remedies["complete"], true);
    assert_eq!(remedies["helping"], json!([]));
    for warning in list(&answer["warnings"]) {
        let message = warning["message"].as_str().expect("a message");
        assert!(!message.contains("would help"), "{message}");
    }
}

/// Parts by id are edited in in full, under their own id: they stay invented.
#[test]
fn an_embedded_part_is_put_in_in_full() {
    let mut job = short_screws();
    job["components"]["packers"] = json!("demo-packer-set");
    job["components"]["hook"]["arm"]["underside_height_mm"] = json!(45.0);
    job["components"]["screw"] = example(BARN)["components"]["screw"].clone();
    let before = answer("/v1/layouts", &job);
    let higher = remedy(&before, "higher_packers");
    let edits = list(&higher["edits"]);
    assert_eq!(edits[0]["path"], "/components/packers");
    assert_eq!(edits[0]["value"]["id"], "demo-packer-set");
    assert_eq!(higher["to_ask"], json!(["/components/packers/max_stack_mm"]));
    let after = answer("/v1/layouts", &edited(&job, &higher["edits"]));
    assert_eq!(after["verdict"], higher["verdict"]);
    assert_eq!(after["utilisation"]["max"], higher["max_utilisation"][1]);
}

/// A foot that reaches no trough from any rafter, 22.5 mm off at most: one that does holds the rails.
#[test]
fn a_wider_foot_reaches_the_troughs() {
    let mut job = example(COTTAGE);
    job["components"]["hook"]["foot"]["lateral_range_mm"] = json!(20.0);
    let before = answer("/v1/layouts", &job);
    assert_eq!((&before["verdict"], list(&before["hooks"]).len()), (&json!("fails"), 0));
    let wider = remedy(&before, "wider_foot");
    assert_eq!(wider["edits"][0]["value"], 25.0);
    assert_eq!(wider["hooks"], json!([0, 22]));
    assert_eq!(wider["still_failing"], json!([]));
    let after = answer("/v1/layouts", &edited(&job, &wider["edits"]));
    assert_eq!(after["verdict"], wider["verdict"]);
}
