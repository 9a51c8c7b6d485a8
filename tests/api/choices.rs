//! What the answer to a layout with freedom promises: the best is a layout as it is answered by itself, every row is
//! what a layout says of its choice, and a layout that was not verified or fails is put behind those that hold.

use hookspan::effort::Effort;
use hookspan::http::job;
use hookspan::service::request::Options;
use hookspan::wire::choices::ChoicesRequest;
use serde_json::{Value, json};

use crate::server::{CHOICES, answer, example, list, number, post, send};

const SHORT: &str = include_str!("../data/layout-short.json");

/// A request with edits: operations `add` of RFC 6902 on members of objects.
fn edited(job: &Value, edits: &Value) -> Value {
    let mut job = job.clone();
    for edit in list(edits) {
        assert_eq!(edit["op"], "add");
        let (parent, member) =
            edit["path"].as_str().and_then(|path| path.rsplit_once('/')).expect("a pointer");
        job.pointer_mut(parent).expect("its parent is there")[member] = edit["value"].clone();
    }
    job
}

/// The answer with what may be chosen, and nothing that is aimed for by prices.
fn of(job: &Value, choices: &Value) -> Value {
    answer("/v1/choices", &json!({"job": job, "choices": choices, "aim": {"hooks": 1}}))
}

/// The job of the example with a choice of it.
fn chosen(request: &Value, choice: &Value) -> Value {
    let mut job = request["job"].clone();
    for kind in ["hook", "screw", "rail", "clamp"] {
        let listed = request["choices"].get(format!("{kind}s")).map(list).unwrap_or_default();
        let part = listed.iter().map(|one| &one[kind]).find(|part| part["id"] == choice[kind]);
        if let Some(part) = part {
            job["components"][kind] = part.clone();
        }
    }
    for (axis, shift) in list(&choice["shifts_mm"][0]).iter().enumerate() {
        let from = number(&job["array"]["fields"][0]["origin_mm"][axis]);
        job["array"]["fields"][0]["origin_mm"][axis] = json!(from + number(shift));
    }
    job
}

/// What is ordered for a layout costs, by the rates of the example.
fn price(request: &Value, choice: &Value, layout: &Value) -> f64 {
    let rate = |kind: &str| {
        let listed = request["choices"].get(format!("{kind}s")).map(list).unwrap_or_default();
        let own = listed.iter().find(|one| one[kind]["id"] == choice[kind]);
        own.unwrap_or(&request["rates"][kind])["price"].as_f64().unwrap_or_default()
    };
    let lines = list(&layout["parts"]["lines"]).iter().map(|line| {
        let ordered = number(&line["ordered"]);
        match line["kind"].as_str().expect("a kind") {
            "rail_bar" => ordered * number(&line["size_mm"]) / 1000.0 * rate("rail"),
            "mid_clamp" | "end_clamp" => ordered * rate("clamp"),
            kind => ordered * rate(kind),
        }
    });
    lines.sum()
}

#[test]
fn the_best_is_answered_as_a_layout_by_itself() {
    let request = example(CHOICES);
    let told = post("/v1/choices", CHOICES.as_bytes());
    assert_eq!(told.status, 200, "{}", told.text());
    let answer = told.json();
    assert_eq!(answer["complete"], true);
    assert_eq!(answer["reached"], true);
    assert_eq!(answer["counts"]["choices"], 12);
    let edits = list(&answer["edits"]);
    assert!(!edits.is_empty(), "the best is the job as it stands, so that nothing is edited");
    let alone = edited(&request["job"], &answer["edits"]);
    let alone = post("/v1/layouts", alone.to_string().as_bytes());
    assert!(told.text().contains(alone.text()), "not the same bytes");
    assert_eq!(answer["layout"], alone.json());
    // Sentences are those of the reader.
    let german = send("POST", "/v1/choices?lang=de", &JSON, CHOICES.as_bytes());
    let edited = edited(&request["job"], &answer["edits"]).to_string();
    let alone = send("POST", "/v1/layouts?lang=de", &JSON, edited.as_bytes());
    assert!(german.text().contains(alone.text()), "not the same bytes in German");
    assert!(told.body == post("/v1/choices", CHOICES.as_bytes()).body, "not deterministic");
}

const JSON: [(&str, &str); 2] =
    [("content-type", "application/json"), ("accept", "application/json")];

#[test]
fn every_row_is_what_a_layout_says_of_its_choice() {
    let request = example(CHOICES);
    let answer = answer("/v1/choices", &request);
    let rows = list(&answer["rows"]);
    assert_eq!(rows.len(), 10);
    assert_eq!(answer["best"], rows[0]);
    for row in [&rows[0], &rows[9], &answer["as_asked"]] {
        let layout = crate::server::answer("/v1/layouts", &chosen(&request, &row["choice"]));
        for member in ["verdict", "utilisation"] {
            assert_eq!(row[member], layout[member], "{row}");
        }
        for member in ["hooks", "lower_bound"] {
            assert_eq!(row[member], layout["optimality"][member], "{row}");
        }
        assert_eq!(row["mass_kg"], layout["parts"]["mass"]["total_kg"]);
        let price = price(&request, &row["choice"], &layout);
        assert!((number(&row["price"]) - price).abs() < 1e-3, "{row}: {price}");
        let aim = number(&row["price"]) + 0.8 * number(&row["minutes"]);
        assert!((number(&row["aim"]) - aim).abs() < 1e-5, "{row}");
    }
    let aims: Vec<f64> = rows.iter().map(|row| number(&row["aim"])).collect();
    assert!(aims.is_sorted(), "{aims:?}");
    assert!(number(&answer["as_asked"]["hooks"]) > number(&answer["best"]["hooks"]));
    assert_eq!(answer["no_better_than"], answer["best"]["aim"]);
    assert_eq!(answer["without_price"], json!(["module", "packer", "end_cap"]));
}

/// With the screws of the job the second hook needs the same hooks and costs less, and stands so near to another that
/// somebody has to answer for it.
#[test]
fn what_is_not_verified_is_put_behind_what_holds_unless_it_is_asked_for() {
    let mut request = example(CHOICES);
    request["aim"] = json!({"price": 1});
    let holds = answer("/v1/choices", &request);
    assert_eq!(holds["best"]["choice"]["screw"], "wood-screw-8x160");
    assert_eq!(holds["verdict"], "holds_with_warnings");
    request["least_verdict"] = json!("incomplete");
    let open = answer("/v1/choices", &request);
    assert_eq!(open["best"]["choice"]["screw"], "wood-screw-8x140");
    assert_eq!(open["best"]["not_verified"], json!(["screw.too-near-another"]));
    assert_eq!(open["verdict"], "incomplete");
    assert!(number(&open["best"]["price"]) < number(&holds["best"]["price"]));
    // Where none is as good as asked for, the answer says so and is the nearest.
    request["least_verdict"] = json!("holds");
    let nearest = answer("/v1/choices", &request);
    assert_eq!(nearest["reached"], false);
    assert_eq!(nearest["best"], holds["best"]);
    // As many codes are open on every choice, so that the aim decides.
    request["job"]["roof"]["obstacles"][0]["cuts_no_rafter"].take();
    request["least_verdict"] = json!("holds_with_warnings");
    let fewest_open = answer("/v1/choices", &strip(request));
    assert_eq!(fewest_open["verdict"], "incomplete");
    assert_eq!(fewest_open["reached"], false);
    assert_eq!(fewest_open["best"]["choice"], holds["best"]["choice"]);
}

#[test]
fn a_layout_that_fails_is_never_the_best() {
    let mut job = example(CHOICES)["job"].take();
    job["array"]["module"]["lift_capacity_kn_per_m2"] = json!(0.2);
    let up = json!({"positions": [{"up": {"from_mm": 0, "to_mm": 10, "step_mm": 10}}]});
    let answer = of(&job, &up);
    assert_eq!(answer["verdict"], "fails");
    assert_eq!(answer["reached"], false);
    assert_eq!(answer["counts"]["laid_out"], 2);
    for absent in ["best", "layout", "no_better_than", "hooks_against_price", "without_price"] {
        assert!(answer.get(absent).is_none(), "{absent}");
    }
    assert_eq!(answer["edits"], json!([]));
    assert!(
        list(&answer["rows"]).iter().all(|row| row["fails_by"] == "module.overloaded"),
        "{answer}"
    );
}

#[test]
fn a_choice_that_cannot_be_laid_is_counted_with_its_reason() {
    let job = example(CHOICES)["job"].take();
    let far = json!({"positions": [{"right": {"from_mm": 0, "to_mm": 4000, "step_mm": 2000}}]});
    let answer = of(&job, &far);
    assert_eq!(
        answer["counts"],
        json!({"choices": 3, "laid_out": 1, "refused": 2, "not_reached": 0})
    );
    let refused = &answer["refused"][0];
    assert_eq!(refused["code"], "off_roof");
    assert_eq!(refused["choices"], 2);
    assert_eq!(refused["first"]["shifts_mm"], json!([[2000.0, 0.0]]));
    assert!(refused["pointer"].as_str().is_some_and(|at| at.starts_with("/job/array/fields/0")));
    assert_eq!(answer["complete"], true);
    // Where no choice can be laid, that is a fault of the request.
    let mut off = job.clone();
    off["array"]["fields"][0]["origin_mm"] = json!([6000, 900]);
    let request = json!({"job": off, "choices": far, "aim": {"hooks": 1}});
    let problem = post("/v1/choices", request.to_string().as_bytes()).problem();
    assert_eq!(problem["errors"][0]["code"], "off_roof");
    // And where the job itself cannot and others can, it is none.
    let near = json!({"positions": [{"right": {"from_mm": -5200, "to_mm": -5200, "step_mm": 1}}]});
    let answer = of(&off, &near);
    assert_eq!(answer["counts"]["choices"], 2);
    assert!(answer.get("as_asked").is_none());
    assert_eq!(answer["best"]["choice"]["shifts_mm"], json!([[-5200.0, 0.0]]));
}

/// What a short request leaves open is completed for every choice as for a layout.
#[test]
fn a_short_job_is_completed_for_each_choice() {
    let job = example(SHORT);
    assert!(job["array"]["fields"][0].get("origin_mm").is_none(), "it says where it lies");
    let mut clamp = json!({
        "id": "clamp-wide", "mid_gap_mm": 26.0, "lift_kn": 3.0, "slope_kn": 2.5, "mass_kg": 0.05,
        "end_width_mm": 30.0,
    });
    let positions = json!([{"right": {"from_mm": -60, "to_mm": 0, "step_mm": 60}}]);
    for (choices, aim) in [
        (json!({"positions": positions}), "hooks"),
        // The only clamp that weighs less, so that it is the best.
        (json!({"clamps": [{"clamp": clamp.clone()}]}), "mass"),
        (json!({"positions": positions, "clamps": [{"clamp": clamp.clone()}]}), "mass"),
        (json!({"screws": [{"screw": "demo-wood-screw-8x140"}]}), "hooks"),
    ] {
        let request = json!({
            "job": job, "choices": choices, "aim": {(aim): 1}, "least_verdict": "incomplete",
        });
        let told = post("/v1/choices", request.to_string().as_bytes());
        assert_eq!(told.status, 200, "{}", told.text());
        let edited = edited(&job, &told.json()["edits"]);
        let alone = post("/v1/layouts", edited.to_string().as_bytes());
        assert!(told.text().contains(alone.text()), "{choices}: {}", told.json()["edits"]);
        if aim == "mass" {
            assert_eq!(told.json()["best"]["choice"]["clamp"], "clamp-wide", "{}", told.text());
        }
    }
    // Ids tell parts of a kind apart.
    clamp["id"] = job["components"]["clamp"].clone();
    let request =
        json!({"job": job, "choices": {"clamps": [{"clamp": clamp}]}, "aim": {"hooks": 1}});
    let problem = post("/v1/choices", request.to_string().as_bytes()).problem();
    assert_eq!(problem["errors"][0]["pointer"], "/choices/clamps/0/clamp");
}

/// Whoever answers for the parts of the job does not answer for others.
#[test]
fn what_is_declared_of_parts_is_not_carried_over_to_others() {
    let mut request = example(CHOICES);
    let declared = |check: &str| json!({"check": check, "by": "other_party", "who": "an engineer", "document": "letter 7"});
    request["job"]["roof"]["obstacles"][0]["cuts_no_rafter"].take();
    request["job"]["declarations"] =
        json!([declared("rafter.cut-by-opening"), declared("screw.too-near-another")]);
    let answer = answer("/v1/choices", &strip(request));
    assert_eq!(answer["best"]["choice"]["screw"], "wood-screw-8x160");
    let edit = list(&answer["edits"]).iter().find(|edit| edit["path"] == "/declarations");
    assert_eq!(edit.expect("an edit")["value"], json!([declared("rafter.cut-by-opening")]));
    assert_eq!(answer["layout"]["declarations"][0]["check"], "rafter.cut-by-opening");
}

#[test]
fn every_fault_is_reported_at_once_at_its_place() {
    let mut request = example(CHOICES);
    let job = &mut request["job"];
    job["site"]["snow"]["zone"] = json!("9");
    job["components"]["rail"]["splice"] = json!("hinge");
    job["components"]["rail"]["splice_moment"] = json!({"normal_knm": 0.5, "slope_knm": 0.3});
    let choices = &mut request["choices"];
    choices["positions"] = json!([
        {"fields": ["A", "B"], "right": {"from_mm": 10, "to_mm": 0, "step_mm": 10}},
        {"fields": ["A"], "up": {"from_mm": 0, "to_mm": 0, "step_mm": 1}},
        {},
    ]);
    choices["hooks"][0]["price"].take();
    choices["screws"][0]["screw"]["core_diameter_mm"] = json!(9.0);
    choices["screws"][1]["screw"]["id"] = json!("wood-screw-8x140");
    choices["rails"] = json!([{"rail": "no-rail-of-ours", "price": 7.0, "minutes": 1.0}]);
    request["aim"] = json!({"price": 0});
    let problem = post("/v1/choices", strip(request).to_string().as_bytes()).problem();
    let faults: Vec<(&str, &str)> = list(&problem["errors"])
        .iter()
        .map(|fault| {
            let of = |member: &str| fault[member].as_str().expect("a text");
            (of("pointer"), of("code"))
        })
        .collect();
    let expected = [
        ("/job/site/snow/zone", "unknown_value"),
        ("/job/components/rail/splice", "contradiction"),
        ("/job/components/rail/splice_moment", "contradiction"),
        ("/choices/positions/0/fields/1", "unknown_value"),
        ("/choices/positions/0/right/to_mm", "out_of_range"),
        ("/choices/positions/1/fields/0", "contradiction"),
        ("/choices/positions/2", "choose_one"),
        ("/choices/positions/2", "contradiction"),
        ("/choices/hooks/0/price", "missing"),
        ("/choices/screws/0/screw/core_diameter_mm", "contradiction"),
        ("/choices/screws/1/screw", "contradiction"),
        ("/choices/rails/0/rail", "unknown_component"),
        ("/aim", "choose_one"),
    ];
    for fault in &expected {
        assert!(faults.contains(fault), "{fault:?} is not among {faults:#?}");
    }
}

/// Without the members that were taken out.
fn strip(mut value: Value) -> Value {
    match &mut value {
        Value::Object(members) => {
            members.retain(|_, member| !member.is_null());
            members.values_mut().for_each(|member| *member = strip(member.take()));
        }
        Value::Array(items) => items.iter_mut().for_each(|item| *item = strip(item.take())),
        _ => {}
    }
    value
}

#[test]
fn what_cannot_be_compared_or_is_too_much_is_refused() {
    let refused = |change: &dyn Fn(&mut Value)| {
        let mut request = example(CHOICES);
        change(&mut request);
        let problem = post("/v1/choices", strip(request).to_string().as_bytes()).problem();
        let first = &problem["errors"][0];
        format!(
            "{} {}",
            first["pointer"].as_str().unwrap_or("?"),
            first["code"].as_str().unwrap_or("?")
        )
    };
    let too_many = refused(&|request| {
        let shifts = json!({"from_mm": -500, "to_mm": 500, "step_mm": 10});
        request["choices"]["positions"] = json!([{"right": shifts, "up": shifts}]);
    });
    assert_eq!(too_many, "/choices out_of_range");
    let unpriced = refused(&|request| {
        request["aim"] = json!({"price": 1});
        request["rates"]["hook"].take();
    });
    assert_eq!(unpriced, "/rates/hook/price missing");
    let nothing_priced = refused(&|request| {
        request["aim"] = json!({"minutes": 1});
        request.as_object_mut().expect("an object").remove("rates");
        request["choices"] = json!({});
    });
    assert_eq!(nothing_priced, "/rates missing");
    let unmeasured = refused(&|request| {
        let rafters = &mut request["job"]["roof"]["rafters"];
        rafters["positions_mm"].take();
        rafters["spacing_mm"] = json!(780);
        rafters["unmeasured"] = json!({"known": "spacing", "step_mm": 400});
    });
    assert_eq!(unmeasured, "/job/roof/rafters/unmeasured contradiction");
    let filled = refused(&|request| {
        let field = &mut request["job"]["array"]["fields"][0];
        for member in ["origin_mm", "rows", "columns", "omitted"] {
            field[member].take();
        }
        field["fill"] = json!({});
    });
    assert_eq!(filled, "/choices/positions/0/fields/0 contradiction");
    let kept = refused(&|request| {
        request["job"]["kept"] = answer("/v1/layouts", &request["job"])["record"]["built"].clone();
    });
    assert_eq!(kept, "/job/kept contradiction");
}

/// Steps are counted, so that a job ends in the same place on every machine, and what was not come to is said.
#[test]
fn who_may_take_fewer_steps_is_told_what_was_not_looked_at() {
    let of = |steps: u64| -> Value {
        let options =
            Options { effort: Effort { steps, ..Effort::default() }, ..Options::default() };
        let answer = job::answer::<ChoicesRequest>(CHOICES.as_bytes(), &options);
        serde_json::to_value(answer.expect("an answer")).expect("an answer is JSON")
    };
    let whole = of(u64::MAX);
    assert_eq!(whole["complete"], true);
    let mut reached = 0;
    for steps in [500_000, 1_000_000] {
        let short = of(steps);
        let counts = &short["counts"];
        let laid_out = counts["laid_out"].as_u64().expect("a count");
        assert_eq!(short["complete"], false);
        assert_eq!(laid_out + counts["not_reached"].as_u64().expect("a count"), 12);
        assert!(laid_out > reached, "{counts}");
        reached = laid_out;
        assert!(
            short
                .get("no_better_than")
                .is_none_or(|least| number(least) <= number(&whole["best"]["aim"]))
        );
        assert_eq!(short["as_asked"], whole["as_asked"]);
        assert!(number(&short["best"]["aim"]) >= number(&whole["best"]["aim"]));
        // The layout that is shown is whole all the same.
        assert_eq!(short["layout"]["optimality"]["proven"], true);
    }
}

/// Who may ask for less search than the schema allows is held to it in a job that is enclosed as well.
#[test]
fn the_search_of_the_job_keeps_to_what_the_caller_may_ask_for() {
    let mut request = example(CHOICES);
    request["job"]["wishes"]["search_limit"] = json!(5000);
    let asked = |most: u64| {
        let options = Options { search_limit: Some(most), ..Options::default() };
        job::answer::<ChoicesRequest>(request.to_string().as_bytes(), &options)
    };
    let problem = asked(4999).expect_err("it asks for more than it may");
    let problem = serde_json::to_value(problem).expect("a problem is JSON");
    assert_eq!(problem["errors"][0]["pointer"], "/job/wishes/search_limit");
    assert!(asked(5000).is_ok());
}
