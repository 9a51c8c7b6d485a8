//! What a survey promises: packers only where they are needed, a straight rail or a precise reason
//! why not, what is missing as a result, and the job rechecked with what was found and chosen.

use serde_json::{Value, json};

use crate::server::{SURVEY, answer, example, list, number, param, post, warnings};

/// Slot range and stack limit of the example.
const SLOT_MM: f64 = 25.0;

fn barn() -> Value {
    example(SURVEY)
}

/// The barn on hooks so stiff that no packer goes in for what they give under load.
fn on_stiff_hooks() -> Value {
    let mut job = barn();
    let stiffness = &mut job["components"]["hook"]["stiffness"];
    *stiffness = json!({"normal_kn_per_mm": 0.32, "includes_foot": true, "slope_kn_per_mm": 0.55});
    job
}

fn survey(job: &Value) -> Value {
    answer("/v1/surveys", job)
}

fn settings(answer: &Value) -> &[Value] {
    list(&answer["surveyed"][0]["hooks"])
}

/// The answer of the recheck about one hook.
fn checked<'a>(answer: &'a Value, id: &Value) -> &'a Value {
    list(&answer["hooks"]).iter().find(|hook| hook["id"] == *id).expect("a hook of that name")
}

#[test]
fn every_hook_of_the_example_gets_a_stack_and_a_slot_on_one_straight_line() {
    let job = barn();
    let answer = survey(&job);
    let survey = &answer["surveyed"][0];
    assert_eq!((&survey["rail"], &survey["outcome"]), (&json!("A1"), &json!("levelled")));
    assert_eq!(survey["line"]["proven"], true);
    let measured = list(&job["measured"]["hooks"]);
    assert_eq!(settings(&answer).len(), measured.len());
    let mut bolts = Vec::new();
    for (found, set) in measured.iter().zip(settings(&answer)) {
        assert_eq!(found["id"], set["id"]);
        let packed: f64 = list(&set["packers_mm"]).iter().map(number).sum();
        assert!((packed - number(&set["packed_mm"])).abs() < 1e-9);
        // Nothing was under these feet before.
        let clearance = number(&found["clearance_mm"]) + packed;
        assert!((clearance - number(&set["clearance_mm"])).abs() < 1e-9);
        assert!(clearance >= 5.0, "{set}");
        let left = clearance - number(&set["deflection_mm"]);
        assert!((left - number(&set["clearance_under_load_mm"])).abs() < 0.011, "{set}");
        assert!(left >= 0.0, "{set}");
        let (slot, middle) = (number(&set["slot_mm"]), number(&set["slot_from_middle_mm"]));
        assert!((0.0..=SLOT_MM).contains(&slot) && (slot - SLOT_MM / 2.0 - middle).abs() < 0.011);
        let bolt = number(&found["level_mm"]) + packed + slot;
        bolts.push((number(&found["rafter_x_mm"]), bolt));
    }
    let ((x0, z0), (x1, z1)) = (bolts[0], bolts[bolts.len() - 1]);
    for (x, z) in &bolts {
        let on_line = z0 + (z1 - z0) * (x - x0) / (x1 - x0);
        assert!((z - on_line).abs() < 0.03, "the rail bends at {x}: {z} against {on_line}");
    }
    assert!((number(&survey["line"]["rise_mm"]) - (z1 - z0)).abs() < 0.03);
}

/// Common practice, no source: 5 mm of clearance before load.
#[test]
fn who_stands_below_the_common_five_millimetres_is_packed_and_the_rest_only_for_level() {
    let answer = survey(&on_stiff_hooks());
    for set in settings(&answer) {
        let bare = number(&set["clearance_mm"]) - number(&set["packed_mm"]);
        let why = set["packed_for"].as_str().expect("a reason");
        match (bare < 5.0, number(&set["packed_mm"]) > 0.0) {
            (true, packed) => assert!(packed && why == "clearance", "{set}"),
            (false, true) => assert!(why == "level" || number(&set["deflection_mm"]) > bare),
            (false, false) => assert_eq!(why, "nothing", "{set}"),
        }
    }
    let packed = |id: &str| {
        let set = settings(&answer).iter().find(|set| set["id"] == id).expect("a hook");
        number(&set["packed_mm"])
    };
    // Measured at 2.5 mm, 3 mm and 4 mm.
    assert!((packed("A1-1") - 3.0).abs() < 1e-9);
    assert!((packed("A1-4") - 2.0).abs() < 1e-9);
    assert!((packed("A1-5") - 1.0).abs() < 1e-9);
    assert!((number(&answer["surveyed"][0]["line"]["packing_mm"]) - 6.0).abs() < 1e-9);
}

#[test]
fn the_job_is_rechecked_where_the_rafters_are_and_with_the_packers_chosen() {
    let job = barn();
    let answer = survey(&job);
    for (found, set) in list(&job["measured"]["hooks"]).iter().zip(settings(&answer)) {
        let hook = checked(&answer, &set["id"]);
        assert_eq!(hook["packers_mm"], set["packers_mm"]);
        assert_eq!(hook["clearance_mm"], set["clearance_mm"]);
        assert_eq!(hook["clearance_under_load_mm"], set["clearance_under_load_mm"]);
        assert!((number(&hook["x_mm"]) - number(&found["rafter_x_mm"])).abs() < 1e-9);
        // A packer keeps that much of the screw out of the rafter: 140 - 6 foot - 30 counter-batten.
        let embedment = 140.0 - 6.0 - 30.0 - number(&set["packed_mm"]);
        assert!((number(&hook["embedment_mm"]) - embedment).abs() < 1e-9, "{hook}");
    }
    assert_eq!(answer["reference"], "mill-barn-south");
    // Hooks on every second rafter do not hold this barn, levelled or not.
    assert_eq!(answer["verdict"], "fails");
    assert!(!list(&answer["suggestion"]["add"]).is_empty());
}

#[test]
fn the_same_request_gives_the_same_bytes() {
    assert_eq!(
        post("/v1/surveys", SURVEY.as_bytes()).body,
        post("/v1/surveys", SURVEY.as_bytes()).body
    );
}

#[test]
fn what_is_not_measured_is_named_and_makes_the_answer_incomplete_not_a_problem() {
    let mut job = barn();
    let hooks = job["measured"]["hooks"].as_array_mut().expect("hooks");
    hooks[2].as_object_mut().expect("a hook").remove("clearance_mm");
    hooks[4].as_object_mut().expect("a hook").remove("level_mm");
    hooks.pop();
    let answer = survey(&job);
    assert_eq!(answer["surveyed"][0]["outcome"], "incomplete");
    assert!(settings(&answer).is_empty());
    let missing: Vec<&Value> = list(&answer["missing"]).iter().map(|m| &m["pointer"]).collect();
    assert_eq!(
        missing,
        [
            // The chimney cuts a rafter.
            "/roof/obstacles/0/cuts_rafters",
            // Too few hooks bend the plates of their feet.
            "/components/hook/resistance/basis",
            "/measured/hooks/2/clearance_mm",
            "/measured/hooks/4/level_mm",
            "/measured/hooks",
            "/measured/hooks",
        ]
    );
    assert_eq!(warnings(&answer, "survey.not-measured").len(), 1);
    assert_eq!(answer["verdict"], "incomplete", "{:?}", answer["warnings"]);
}

#[test]
fn a_rail_that_cannot_be_straight_says_which_hooks_by_how_much_and_what_helps() {
    let mut job = barn();
    // One face 60 mm proud: 25 mm of slot and 20 mm of packers at its neighbours cannot meet it.
    job["measured"]["hooks"][2]["level_mm"] = json!(60.0);
    let answer = survey(&job);
    assert_eq!(answer["surveyed"][0]["outcome"], "impossible");
    let obstruction = &answer["surveyed"][0]["obstruction"];
    assert_eq!(obstruction["kind"], "not_straight");
    assert!(list(&obstruction["hooks"]).contains(&json!("A1-3")), "{obstruction}");
    let by = number(&obstruction["by_mm"]);
    assert!(by > 0.0);
    assert_eq!(answer["verdict"], "fails");
    assert_eq!(warnings(&answer, "survey.rail-not-straight").len(), 1);
    // Each remedy does what it says: the slots it asks for make the rail straight.
    let longer = list(&obstruction["remedies"])
        .iter()
        .find(|remedy| remedy["kind"] == "longer_slot")
        .expect("longer slots always help in the end");
    job["components"]["hook"]["slot_range_mm"] = json!(SLOT_MM + number(&longer["mm"]));
    assert_eq!(survey(&job)["surveyed"][0]["outcome"], "levelled");
    job["components"]["hook"]["slot_range_mm"] = json!(SLOT_MM + number(&longer["mm"]) - 0.1);
    assert_eq!(survey(&job)["surveyed"][0]["outcome"], "impossible");
}

/// Common practice, no source: 3 mm between arm and tile above.
#[test]
fn the_tile_above_keeps_its_common_three_millimetres() {
    let with_room = |room: f64| {
        let mut job = on_stiff_hooks();
        job["measured"]["hooks"][0]["room_above_mm"] = json!(room);
        survey(&job)
    };
    // Hook A1-1 needs 3 mm of packing: 6 mm of room leave 3 mm, 5.9 mm do not.
    let enough = with_room(6.0);
    assert_eq!(enough["surveyed"][0]["outcome"], "levelled");
    assert!((number(&settings(&enough)[0]["room_above_mm"]) - 3.0).abs() < 1e-9);
    let tight = with_room(5.9);
    assert_eq!(tight["surveyed"][0]["obstruction"]["kind"], "no_stack");
    assert_eq!(tight["surveyed"][0]["obstruction"]["hooks"], json!(["A1-1"]));
    assert_eq!(warnings(&tight, "survey.no-stack-clears-tile").len(), 1);
    // Whoever is content with less room says so.
    let mut job = on_stiff_hooks();
    job["measured"]["hooks"][0]["room_above_mm"] = json!(5.9);
    job["wishes"] = json!({"min_room_above_mm": 2.0});
    assert_eq!(survey(&job)["surveyed"][0]["outcome"], "levelled");
}

/// Common practice, no source: about 25 mm of height adjustment at the slot.
#[test]
fn twenty_five_millimetres_of_adjustment_level_that_much_without_packers() {
    let at = |low: f64| {
        let mut job = barn();
        for (h, hook) in
            job["measured"]["hooks"].as_array_mut().expect("hooks").iter_mut().enumerate()
        {
            hook["clearance_mm"] = json!(30.0);
            hook["level_mm"] = json!(if h % 2 == 0 { 0.0 } else { -low });
        }
        survey(&job)
    };
    assert!(number(&at(SLOT_MM)["surveyed"][0]["line"]["packing_mm"]).abs() < 1e-9);
    assert!(number(&at(SLOT_MM + 0.5)["surveyed"][0]["line"]["packing_mm"]) > 0.0);
}

#[test]
fn a_bolt_at_the_end_of_its_slot_is_pointed_out() {
    let answer = survey(&on_stiff_hooks());
    let at_end: Vec<&Value> = settings(&answer)
        .iter()
        .filter(|set| {
            let slot = number(&set["slot_mm"]);
            slot.min(SLOT_MM - slot) < 1.0
        })
        .map(|set| &set["id"])
        .collect();
    let told: Vec<&Value> = list(&answer["warnings"])
        .iter()
        .filter(|w| w["code"] == "survey.slot-nearly-used-up")
        .map(|w| param(w, "hook"))
        .collect();
    assert!(!at_end.is_empty());
    assert_eq!(told, at_end);
}

#[test]
fn a_hook_of_unknown_stiffness_is_levelled_but_never_said_to_hold() {
    let mut job = barn();
    job["components"]["hook"].as_object_mut().expect("a hook").remove("stiffness");
    job["components"]["hook"]["arm"].as_object_mut().expect("an arm").remove("grade");
    let answer = survey(&job);
    assert_eq!(answer["surveyed"][0]["outcome"], "levelled");
    for set in settings(&answer) {
        assert!(set.get("clearance_under_load_mm").is_none() && set.get("deflection_mm").is_none());
    }
    assert_eq!(warnings(&answer, "clearance.stiffness-unknown").len(), 1);
}

#[test]
fn faults_of_a_survey_are_all_named_at_once() {
    let mut job = barn();
    job["measured"]["rail"] = json!("B9");
    job["measured"]["hooks"][0]["id"] = json!("A9-9");
    job["measured"]["hooks"][1]["counter_batten_mm"] = json!(0.0);
    job["measured"]["hooks"][3]["id"] = json!("A1-3");
    let problem = post("/v1/surveys", &serde_json::to_vec(&job).expect("JSON")).problem();
    assert_eq!(problem["status"], 422);
    let pointers: Vec<&Value> = list(&problem["errors"]).iter().map(|e| &e["pointer"]).collect();
    // No hook belongs to a rail that is not there.
    for expected in [
        "/measured/rail",
        "/measured/hooks/0/id",
        "/measured/hooks/1/counter_batten_mm",
        "/measured/hooks/3/id",
    ] {
        assert!(pointers.iter().any(|p| **p == expected), "{expected} is not among {pointers:?}");
    }
    let mut job = barn();
    job["measured"]["hooks"][5]["id"] = json!("A2-6");
    let problem = post("/v1/surveys", &serde_json::to_vec(&job).expect("JSON")).problem();
    assert_eq!(problem["errors"][0]["pointer"], "/measured/hooks/5/id");
    assert_eq!(problem["errors"][0]["code"], "contradiction");
}

/// Hooks of rail A2 of the example as they might have been measured.
fn second_rail(job: &Value) -> Vec<Value> {
    let hooks = list(&job["built"]["hooks"]).iter().filter(|hook| hook["rail"] == "A2");
    let read = |(i, hook): (usize, &Value)| {
        let level = [0.0, 1.5, -2.0, 0.5, 3.0][i % 5];
        json!({"id": hook["id"], "clearance_mm": 7.0 + level, "level_mm": level})
    };
    hooks.enumerate().map(read).collect()
}

/// The example with readings along rails A1 and A2, mixed, and no rail named.
fn two_rails() -> Value {
    let mut job = barn();
    let mut all = second_rail(&job);
    all.extend(list(&job["measured"]["hooks"]).iter().cloned());
    job["measured"] = json!({"hooks": all});
    job
}

#[test]
fn rails_surveyed_together_come_out_as_rails_surveyed_one_after_the_other() {
    let together = survey(&two_rails());
    let rails: Vec<&Value> = list(&together["surveyed"]).iter().map(|of| &of["rail"]).collect();
    assert_eq!(rails, ["A1", "A2"]);
    let first = survey(&barn());
    assert_eq!(together["surveyed"][0]["hooks"], first["surveyed"][0]["hooks"]);
    // What the first survey says to keep, and the readings along the second rail.
    let mut job = barn();
    job["built"] = first["record"]["built"].clone();
    job["measured"] = json!({"rail": "A2", "hooks": second_rail(&job)});
    let second = survey(&job);
    assert_eq!(together["surveyed"][1], second["surveyed"][0]);
    assert_eq!(together["hooks"], second["hooks"]);
    assert_eq!(together["record"]["built"], second["record"]["built"]);
    let measured = |answer: &Value, rail: &str| {
        list(&answer["to_measure"]).iter().all(|left| left["rail"] != rail)
    };
    for answer in [&together, &second] {
        assert!(measured(answer, "A1") && measured(answer, "A2"), "{}", answer["to_measure"]);
    }
    assert!(!measured(&first, "A2"));
}

#[test]
fn a_field_is_surveyed_in_pieces_and_what_is_left_is_named_the_begun_first() {
    let mut job = two_rails();
    let hooks = job["measured"]["hooks"].as_array_mut().expect("hooks");
    let lost = hooks.remove(0)["id"].clone();
    let level = hooks[0].as_object_mut().expect("a hook").remove("level_mm");
    assert!(level.is_some());
    let half = hooks[0]["id"].clone();
    let answer = survey(&job);
    assert_eq!(answer["verdict"], "incomplete");
    let outcomes: Vec<&Value> = list(&answer["surveyed"]).iter().map(|of| &of["outcome"]).collect();
    assert_eq!(outcomes, ["levelled", "incomplete"]);
    assert_eq!(answer["surveyed"][1]["may_close"], false);
    let told = warnings(&answer, "survey.not-measured");
    assert_eq!(told[0]["path"], "/surveyed/1");
    let left = list(&answer["to_measure"]);
    assert_eq!((&left[0]["rail"], &left[0]["begun"]), (&json!("A2"), &json!(true)));
    let readings = |id: &Value| {
        let hook = list(&left[0]["hooks"]).iter().find(|hook| hook["id"] == *id);
        hook.expect("it is left")["measure"].clone()
    };
    assert_eq!(readings(&lost), json!(["clearance_mm", "level_mm"]));
    assert_eq!(readings(&half), json!(["level_mm"]));
    assert_eq!(list(&left[0]["hooks"]).len(), 2);
    assert!(left[1..].iter().all(|rail| rail["begun"] == false));
    // Of the others the one whose arms come nearest to the tile first.
    let worst = |rail: &Value| {
        let hooks = list(&answer["hooks"]).iter().filter(|hook| hook["rail"] == rail["rail"]);
        hooks.map(|hook| number(&hook["utilisation"]["clearance"])).fold(0.0, f64::max)
    };
    assert!(left[1..].windows(2).all(|pair| worst(&pair[0]) >= worst(&pair[1]) - 1e-3));
    assert_eq!(left.len(), 1 + list(&job["built"]["rails"]).len() - 2);
}

#[test]
fn nothing_measured_yet_asks_for_everything() {
    let mut job = barn();
    job["measured"] = json!({"hooks": []});
    let answer = survey(&job);
    assert_eq!(answer["surveyed"], json!([]));
    assert_eq!(list(&answer["to_measure"]).len(), list(&job["built"]["rails"]).len());
    let asked: usize =
        list(&answer["to_measure"]).iter().map(|rail| list(&rail["hooks"]).len()).sum();
    let known = list(&job["built"]["hooks"]).iter();
    assert_eq!(asked, known.filter(|hook| hook["found"]["slot_mm"].is_null()).count());
}

/// The barn of the example fails with hooks on every second rafter; with all that its layout has, and feet that
/// can be levelled, its rails may be closed, but not one that a hook of fails.
#[test]
fn tiles_may_be_closed_where_the_rail_is_levelled_and_holds() {
    let fails = survey(&two_rails());
    assert_eq!(fails["verdict"], "fails");
    let laid = answer("/v1/layouts", &example(crate::server::BARN));
    let mut job = two_rails();
    job["built"] = laid["record"]["built"].clone();
    let read = list(&job["built"]["hooks"]).iter().filter(|hook| hook["rail"] == "A1");
    let read = read.map(|hook| json!({"id": hook["id"], "clearance_mm": 9.0, "level_mm": 0.0}));
    job["measured"] = json!({"hooks": read.collect::<Vec<Value>>()});
    let holds = survey(&job);
    assert_eq!(holds["surveyed"][0]["outcome"], "levelled", "{}", holds["surveyed"]);
    let open = list(&holds["warnings"]).iter().filter(|warning| {
        let severity = warning["severity"].as_str().expect("a severity");
        ["failure", "incomplete"].contains(&severity)
    });
    let open: Vec<&Value> = open.map(|warning| &warning["code"]).collect();
    assert_eq!(holds["surveyed"][0]["may_close"], open.is_empty(), "{open:?}");
}

/// The fitter finds rot under one hook: it gets no packers, the rail may not be closed over, and the record
/// keeps what was found, so that a recheck of it fails alike.
#[test]
fn rot_found_in_a_survey_fails_the_job_and_stays_in_its_record() {
    let mut job = on_stiff_hooks();
    let third = job["measured"]["hooks"][2]["id"].clone();
    let before = settings(&survey(&job)).len();
    job["measured"]["hooks"][2]["rafter_condition"] = json!("rotten");
    let found = survey(&job);
    assert_eq!(found["verdict"], "fails");
    assert!(!warnings(&found, "hook.on-rotten-rafter").is_empty());
    assert_eq!(settings(&found).len(), before - 1);
    assert!(settings(&found).iter().all(|hook| hook["id"] != third));
    assert_eq!(found["surveyed"][0]["may_close"], false);
    let record = list(&found["record"]["built"]["hooks"]).iter().find(|hook| hook["id"] == third);
    assert_eq!(record.expect("the hook")["found"]["rafter_condition"], "rotten");
    let mut again = job.clone();
    let members = again.as_object_mut().expect("an object");
    members.remove("measured");
    members.insert("built".to_owned(), found["record"]["built"].clone());
    let rechecked = answer("/v1/rechecks", &again);
    assert_eq!(rechecked["verdict"], "fails");
    assert_eq!(
        warnings(&rechecked, "hook.on-rotten-rafter"),
        warnings(&found, "hook.on-rotten-rafter")
    );
}
