//! Before the tiles are off: rafters nobody has seen yet. What an answer says of every place of the first
//! rafter is held against layouts that are posted one by one.

use serde_json::{Value, json};

use crate::server::{
    BARN, COTTAGE, GABLE, TWO_MODULES, answer, example, list, number, param, post, warnings,
};

const COVERED: &str = include_str!("../data/layout-covered.json");

/// The job with its rafters where a phase has them.
fn at(job: &Value, phase: &Value) -> Value {
    let mut job = job.clone();
    let rafters = job["roof"]["rafters"].as_object_mut().expect("rafters");
    rafters.remove("unmeasured");
    for member in ["first_mm", "spacing_mm", "count"] {
        rafters.insert(member.to_owned(), phase[member].clone());
    }
    job
}

/// The job of the cottage with nothing known of its rafters but their centres.
fn cottage(unmeasured: Value) -> Value {
    covered(COTTAGE, unmeasured)
}

/// An example with nothing known of its rafters but their centres.
fn covered(measured: &str, unmeasured: Value) -> Value {
    let mut job = example(measured);
    let rafters = job["roof"]["rafters"].as_object_mut().expect("rafters");
    rafters.remove("first_mm");
    rafters.remove("count");
    rafters.insert("unmeasured".to_owned(), unmeasured);
    job
}

/// Layouts with the rafters of every phase, posted one by one.
fn alone(job: &Value, answered: &Value) -> Vec<Value> {
    let phases = list(&answered["phases"]["phases"]).iter();
    phases.map(|phase| answer("/v1/layouts", &at(job, phase))).collect()
}

fn count(value: &Value) -> u64 {
    value.as_u64().expect("a count")
}

fn index(value: &Value) -> usize {
    usize::try_from(count(value)).expect("an index")
}

fn is_same_part(a: &Value, b: &Value) -> bool {
    ["kind", "part", "size_mm", "module_mm"].iter().all(|member| a[member] == b[member])
}

/// The phases of an answer are what each is answered by itself, and its order is of every line the most.
fn assert_phases_as_posted_alone(job: &Value, answered: &Value) {
    let phases = list(&answered["phases"]["phases"]);
    let all = alone(job, answered);
    let mut most: Vec<Value> = Vec::new();
    for (phase, alone) in phases.iter().zip(&all) {
        assert_eq!(phase["verdict"], alone["verdict"], "{phase}");
        assert_eq!(count(&phase["hooks"]), list(&alone["hooks"]).len() as u64, "{phase}");
        assert_eq!(phase["utilisation"], alone["utilisation"]["max"], "{phase}");
        let failure = list(&alone["causes"]).iter().find(|cause| cause["severity"] == "failure");
        assert_eq!(phase.get("fails_by"), failure.map(|cause| &cause["code"]), "{phase}");
        if alone["verdict"] == "fails" {
            continue;
        }
        for line in list(&alone["parts"]["lines"]) {
            match most.iter_mut().find(|known| is_same_part(known, line)) {
                None => most.push(line.clone()),
                Some(known) => {
                    for member in ["needed", "spare", "ordered"] {
                        let more = count(&known[member]).max(count(&line[member]));
                        known[member] = json!(more);
                    }
                }
            }
        }
    }
    let order = answered["phases"].get("order").map(list).unwrap_or_default();
    assert_eq!(order.len(), most.len(), "{order:?}");
    for line in &most {
        let own = order.iter().find(|own| is_same_part(own, line)).expect("a line");
        for member in ["needed", "spare", "ordered", "pack_size"] {
            assert_eq!(own[member], line[member], "{own} {line}");
        }
    }

    let failing = all.iter().filter(|alone| alone["verdict"] == "fails").count() as u64;
    assert_eq!(count(&answered["phases"]["failing"]), failing);
    let passing = phases.iter().filter(|phase| phase["verdict"] != "fails");
    let hooks: Vec<u64> = passing.map(|phase| count(&phase["hooks"])).collect();
    for (name, hooks) in [("least_hooks", hooks.iter().min()), ("most_hooks", hooks.iter().max())] {
        assert_eq!(answered["phases"].get(name).map(count), hooks.copied(), "{name}");
    }
    for (name, range) in [("best", "least_hooks"), ("worst", "most_hooks")] {
        let picked = answered["phases"].get(name).map(|at| &phases[index(at)]["hooks"]);
        assert_eq!(picked, answered["phases"].get(range), "{name}");
    }
}

/// What is shown is the layout of the phase shown and says nothing of others, save what is not measured.
fn assert_shown_as_posted_alone(job: &Value, answered: &Value) {
    let shown = index(&answered["phases"]["shown"]);
    let phase = &list(&answered["phases"]["phases"])[shown];
    let alone = answer("/v1/layouts", &at(job, phase));
    for member in
        ["hooks", "rails", "rafters", "modules", "parts", "actions", "utilisation", "optimality"]
    {
        assert_eq!(answered[member], alone[member], "{member}");
    }
    assert_eq!(answered["record"]["built"], alone["record"]["built"]);
    let others = list(&answered["warnings"]).iter();
    let others: Vec<&Value> = others.filter(|one| one["code"] != "rafters.not-measured").collect();
    assert_eq!(others, list(&alone["warnings"]).iter().collect::<Vec<_>>());
}

#[test]
fn the_order_is_of_every_line_the_most_that_layouts_posted_one_by_one_need() {
    let job = example(COVERED);
    let answered = answer("/v1/layouts", &job);
    let phases = &answered["phases"];
    let firsts: Vec<f64> = list(&phases["phases"]).iter().map(|p| number(&p["first_mm"])).collect();
    assert_eq!(firsts, (0..12).map(|k| 60.0 * f64::from(k)).collect::<Vec<_>>());
    assert_phases_as_posted_alone(&job, &answered);
    assert_shown_as_posted_alone(&job, &answered);
    // The phases do differ, and what is shown is the one that needs most.
    assert!(count(&phases["least_hooks"]) < count(&phases["most_hooks"]), "{phases}");
    assert_eq!(phases["shown"], phases["worst"]);
    assert_eq!(phases["shown_because"], "most_hooks");
    let hooks = list(&phases["order"]).iter().find(|line| line["kind"] == "hook").expect("hooks");
    assert_eq!(hooks["why"], "the most at any of 12 places of the first rafter");
}

#[test]
fn the_order_keeps_kinds_of_modules_and_clamps_for_their_frames_apart() {
    let job = covered(TWO_MODULES, json!({"known": "spacing", "step_mm": 250.0}));
    let answered = answer("/v1/layouts", &job);
    assert_phases_as_posted_alone(&job, &answered);
    assert_shown_as_posted_alone(&job, &answered);
    let of_kind = |kind: &str, member: &str| -> Vec<Value> {
        let lines = list(&answered["phases"]["order"]).iter().filter(|line| line["kind"] == kind);
        lines.map(|line| json!([line[member], line["needed"]])).collect()
    };
    let modules = of_kind("module", "module_mm");
    assert_eq!(modules, [json!([[1762.0, 1134.0, 30.0], 8]), json!([[1480.0, 670.0, 35.0], 4])]);
    // Two rails under each row: of four modules, in two rows of 30 mm and in one of 35 mm.
    for (kind, of_rail) in [("mid_clamp", 3), ("end_clamp", 2)] {
        let by_hand = [json!([30.0, 4 * of_rail]), json!([35.0, 2 * of_rail])];
        assert_eq!(of_kind(kind, "size_mm"), by_hand, "{kind}");
    }
    // As in the order of the layout that is shown.
    let names = |lines: &Value| -> Vec<[Value; 3]> {
        let lines = list(lines).iter();
        lines.map(|line| ["kind", "size_mm", "module_mm"].map(|of| line[of].clone())).collect()
    };
    let [order, shown] = [&answered["phases"]["order"], &answered["parts"]["lines"]].map(names);
    assert_eq!(order, shown);
}

#[test]
fn it_is_incomplete_until_the_rafters_are_measured_and_nobody_can_declare_it() {
    let job = example(COVERED);
    let answered = answer("/v1/layouts", &job);
    assert_eq!(answered["verdict"], "incomplete");
    assert_eq!(answered["verdicts"]["data"], "incomplete");
    let [finding] = warnings(&answered, "rafters.not-measured")[..] else { panic!("one finding") };
    assert_eq!(param(finding, "places"), 12);
    assert_eq!(param(finding, "failing"), 0);
    assert_eq!(param(finding, "step_mm"), 60.0);
    let [missing] = list(&answered["missing"]) else { panic!("{}", answered["missing"]) };
    assert_eq!(missing["act"], "measure");
    assert_eq!(missing["declarable"], false);
    assert_eq!(missing["pointer"], "/roof/rafters/positions_mm");

    let mut declared = job.clone();
    declared["declarations"] = json!([{
        "check": "rafters.not-measured", "by": "other_party", "who": "an office", "document": "a note",
    }]);
    let reply = post("/v1/layouts", declared.to_string().as_bytes());
    assert_eq!(reply.status, 422, "{}", reply.text());
    assert_eq!(reply.problem()["errors"][0]["pointer"], "/declarations/0/check");

    // The act: the rafters as they were found, neither at equal centres nor where a step lies.
    let mut measured = job;
    let found: Vec<f64> =
        (0..14).map(|i| 137.0 + 720.0 * f64::from(i) + f64::from(i % 3)).collect();
    let rafters = measured["roof"]["rafters"].as_object_mut().expect("rafters");
    rafters.remove("unmeasured");
    rafters.remove("spacing_mm");
    rafters.insert("positions_mm".to_owned(), json!(found));
    let measured = answer("/v1/layouts", &measured);
    assert_eq!(measured["verdict"], "holds_with_warnings");
    assert_eq!(measured.get("phases"), None);
}

#[test]
fn the_caller_chooses_which_place_is_shown() {
    let plain = answer("/v1/layouts", &cottage(json!({"known": "spacing", "step_mm": 200})));
    let mut asked = cottage(json!({"known": "spacing", "step_mm": 200, "shown_first_mm": 130}));
    let answered = answer("/v1/layouts", &asked);
    let phases = &answered["phases"];
    assert_eq!(phases["shown_because"], "asked");
    assert_eq!(list(&phases["phases"])[1]["first_mm"], 130.0);
    assert_eq!(phases["shown"], 1);
    assert_eq!(list(&phases["phases"]).len(), list(&plain["phases"]["phases"]).len() + 1);
    assert_phases_as_posted_alone(&asked, &answered);
    assert_shown_as_posted_alone(&asked, &answered);
    // One that is looked at anyway is not looked at twice.
    asked["roof"]["rafters"]["unmeasured"]["shown_first_mm"] = json!(400);
    let again = answer("/v1/layouts", &asked);
    assert_eq!(again["phases"]["shown"], 2);
    assert_eq!(again["phases"]["phases"], plain["phases"]["phases"]);
    assert_shown_as_posted_alone(&asked, &again);
    // Which one is shown, and what is looked at, makes no other job of it.
    assert_eq!(again["job_key"], plain["job_key"]);
    assert_ne!(again["input_digest"], plain["input_digest"]);
}

#[test]
fn places_that_fail_are_named_and_the_order_is_for_the_others() {
    let job = cottage(json!({"known": "spacing", "step_mm": 100}));
    let answered = answer("/v1/layouts", &job);
    assert_phases_as_posted_alone(&job, &answered);
    let failing = count(&answered["phases"]["failing"]);
    assert!((1..6).contains(&failing), "{}", answered["phases"]);
    assert_ne!(answered["verdict"], "fails");
    let [finding] = warnings(&answered, "rafters.not-measured")[..] else { panic!("one finding") };
    assert_eq!(param(finding, "failing"), failing);

    // One that fails can be asked for, and then the verdict is its own.
    let phases = list(&answered["phases"]["phases"]);
    let fails = phases.iter().find(|phase| phase["verdict"] == "fails").expect("one that fails");
    let unmeasured =
        json!({"known": "spacing", "step_mm": 100, "shown_first_mm": fails["first_mm"]});
    let asked = answer("/v1/layouts", &cottage(unmeasured));
    assert_eq!(asked["verdict"], "fails");
    assert_eq!(asked.get("remedies"), None);
    assert_eq!(asked["phases"]["order"], answered["phases"]["order"]);
}

#[test]
fn where_every_place_fails_nothing_is_ordered() {
    let mut job = cottage(json!({"known": "spacing", "step_mm": 250}));
    job["wishes"]["max_utilisation"] = json!(0.3);
    let answered = answer("/v1/layouts", &job);
    assert_eq!(answered["verdict"], "fails");
    assert_eq!(answered["phases"]["shown_because"], "all_fail");
    assert_eq!(answered["phases"]["failing"], 3);
    for member in ["order", "best", "worst", "least_hooks", "most_hooks"] {
        assert_eq!(answered["phases"].get(member), None, "{member}");
    }
    assert_phases_as_posted_alone(&job, &answered);
    assert_shown_as_posted_alone(&job, &answered);
}

#[test]
fn a_first_estimate_looks_at_usual_centres_and_says_so() {
    let mut job = cottage(json!({"known": "nothing", "step_mm": 250}));
    job["roof"]["rafters"].as_object_mut().expect("rafters").remove("spacing_mm");
    let answered = answer("/v1/layouts", &job);
    let places = |answered: &Value| -> Vec<[f64; 2]> {
        let phases = list(&answered["phases"]["phases"]).iter();
        phases.map(|p| [number(&p["spacing_mm"]), number(&p["first_mm"])]).collect()
    };
    let of = |spacing: f64| [0.0, 250.0, 500.0].map(|first| [spacing, first]);
    let usual = [of(600.0), of(700.0), of(800.0)].concat();
    let usual: Vec<[f64; 2]> = [usual, vec![[800.0, 750.0]]].concat();
    assert_eq!(places(&answered), usual);
    assert_phases_as_posted_alone(&job, &answered);
    assert_eq!(warnings(&answered, "rafters.not-measured").len(), 1);
    let assumed = |answered: &Value, code: &str| {
        let all = list(&answered["assumptions"]).iter().filter(|one| one["code"] == code);
        all.map(|one| one["said"].as_str().expect("a text").to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(assumed(&answered, "rafters.usual-spacings"), ["600 mm, 700 mm and 800 mm"]);
    assert_eq!(assumed(&answered, "rafters.equal-centres").len(), 1);

    // Said is not assumed.
    job["roof"]["rafters"]["unmeasured"]["spacings_mm"] = json!([800, 600]);
    let said = answer("/v1/layouts", &job);
    assert!(assumed(&said, "rafters.usual-spacings").is_empty());
    assert_eq!(places(&said).len(), 7);
    job["roof"]["rafters"]["unmeasured"].as_object_mut().expect("members").remove("step_mm");
    let steps = answer("/v1/layouts?answer=summary", &job);
    assert_eq!(steps["verdict"], answered["verdict"]);
}

#[test]
fn the_step_is_assumed_where_none_is_said() {
    let answered = answer("/v1/layouts", &cottage(json!({"known": "spacing"})));
    assert_eq!(list(&answered["phases"]["phases"]).len(), 12);
    let step =
        list(&answered["assumptions"]).iter().find(|one| one["code"] == "rafters.phase-step");
    let step = step.expect("an assumption");
    assert_eq!(step["pointer"], "/roof/rafters/unmeasured/step_mm");
    assert_eq!(step["value"], 50.0);
}

/// Fields are filled once for all places, as each would fill them by itself.
#[test]
fn a_filled_field_is_the_same_wherever_rafters_stand() {
    let mut job = cottage(json!({"known": "spacing", "step_mm": 200}));
    let field = job["array"]["fields"][0].as_object_mut().expect("a field");
    for given in ["origin_mm", "rows", "columns", "omitted"] {
        field.remove(given);
    }
    field.insert("fill".to_owned(), json!({"most_modules": 6}));
    let answered = answer("/v1/layouts", &job);
    assert_eq!(answered["fields"][0]["modules"], 6);
    assert_phases_as_posted_alone(&job, &answered);
    assert_shown_as_posted_alone(&job, &answered);
    let assumed = |answered: &Value| -> Vec<Value> {
        let all = list(&answered["assumptions"]).iter();
        let new = ["rafters.equal-centres", "rafters.phase-step"];
        all.filter(|one| new.iter().all(|code| one["code"] != *code)).cloned().collect()
    };
    let shown = &list(&answered["phases"]["phases"])[index(&answered["phases"]["shown"])];
    assert_eq!(assumed(&answered), assumed(&answer("/v1/layouts", &at(&job, shown))));
}

/// Only a layout of one slope looks at places: what stands has rafters that were found, and slopes of a
/// building share one order.
#[test]
fn other_jobs_ask_for_measured_rafters() {
    let unmeasured = json!({"spacing_mm": 780, "unmeasured": {"known": "spacing"}, "width_mm": 100, "depth_mm": 160});
    let mut building = example(GABLE);
    building["slopes"][0]["roof"]["rafters"] = unmeasured.clone();
    let barn = answer("/v1/layouts", &example(BARN));
    let mut built = example(BARN);
    built["built"] = barn["record"]["built"].clone();
    built["roof"]["rafters"] = unmeasured.clone();
    let mut survey = example(crate::server::SURVEY);
    survey["roof"]["rafters"] = unmeasured;
    let mut kept = built.clone();
    kept["kept"] = kept.as_object_mut().expect("an object").remove("built").expect("hooks");
    for (path, job, pointer) in [
        ("/v1/layouts", kept, "/roof/rafters/unmeasured"),
        ("/v1/buildings", building, "/slopes/0/roof/rafters/unmeasured"),
        ("/v1/rechecks", built, "/roof/rafters/unmeasured"),
        ("/v1/surveys", survey, "/roof/rafters/unmeasured"),
    ] {
        let reply = post(path, job.to_string().as_bytes());
        assert_eq!(reply.status, 422, "{path}: {}", reply.text());
        let problem = reply.problem();
        let faults = list(&problem["errors"]);
        let found = faults
            .iter()
            .any(|fault| fault["pointer"] == pointer && fault["code"] == "contradiction");
        assert!(found, "{path}: {problem}");
    }
}

/// What each place may have as a job, all of them may not have together.
#[test]
fn all_places_together_have_the_limits_of_one_job() {
    let mut job = cottage(json!({"known": "spacing", "step_mm": 6.2}));
    job["roof"]["obstacles"] = json!([]);
    job["roof"]["ridge_height_m"] = json!(16);
    job["roof"]["width_m"] = json!(30);
    job["roof"]["outline_mm"] = json!([[0, 0], [9600, 0], [9600, 18_311], [0, 18_311]]);
    let field = &mut job["array"]["fields"][0];
    field["rows"] = json!(9);
    field["columns"] = json!(7);
    field["omitted"] = json!([]);
    let refused = |job: &Value| {
        let reply = post("/v1/layouts", job.to_string().as_bytes());
        assert_eq!(reply.status, 422, "{}", reply.text());
        let problem = reply.problem();
        let [fault] = list(&problem["errors"]) else { panic!("{problem}") };
        assert_eq!(fault["pointer"], "/roof/rafters/unmeasured/step_mm");
        assert_eq!(fault["code"], "out_of_range");
        fault["detail"].as_str().expect("a sentence").to_owned()
    };
    // 97 places of 63 modules.
    let said = refused(&job);
    assert!(said.contains("6111 modules") && said.contains("5000"), "{said}");
    job["roof"]["rafters"]["unmeasured"]["step_mm"] = json!(5);
    let said = refused(&job);
    assert!(said.contains("120 places") && said.contains("100"), "{said}");
}

#[test]
fn the_sheet_orders_for_every_place_and_is_not_to_be_built_from() {
    let sheet = |job: &Value, address: &str| {
        let headers = [("accept", "text/html"), ("content-type", "application/json")];
        let reply = crate::server::send("POST", address, &headers, job.to_string().as_bytes());
        assert_eq!(reply.status, 200);
        reply.text().to_owned()
    };
    let job = example(COVERED);
    let answered = answer("/v1/layouts", &job);
    let english = sheet(&job, "/v1/layouts");
    assert!(english.contains("Order from this sheet, and do not build from it"));
    assert!(!english.contains("Do not build or order"));
    assert!(english.contains("the most at any of 12 places of the first rafter"));
    assert_eq!(english.matches(" mm, shown here").count(), 1);
    let german = sheet(&job, "/v1/layouts?lang=de");
    assert!(german.contains("Nach diesem Blatt bestellen, aber nicht bauen"));
    let bars = |lines: &Value| {
        let bars = list(lines).iter().filter(|line| line["kind"] == "rail_bar");
        bars.map(|line| count(&line["ordered"])).sum::<u64>()
    };
    // The phase that needs the most hooks is not the one that needs the most bars.
    assert!(bars(&answered["phases"]["order"]) > bars(&answered["parts"]["lines"]));

    // Where places fail, or anything else is open, it is no sheet to order from.
    let failing = sheet(&cottage(json!({"known": "spacing", "step_mm": 100})), "/v1/layouts");
    assert!(failing.contains("Do not build or order from this sheet yet"));
}
