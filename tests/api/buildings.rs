//! What the answer to a building promises: each slope as its layout alone says it, one order and one cutting
//! plan for all, what is so on every slope told once, and pointers into the request that was sent.

use std::collections::BTreeSet;

use serde_json::{Value, json};

use crate::server::{BARN, GABLE, answer, example, list, number, post, send};

const SHORT: &str = include_str!("../data/building-short.json");

/// Two slopes of the barn under its ridge, the second with an array that fails and is not asked for
/// remedies.
fn barn_with_a_failing_slope() -> Value {
    let mut job = example(BARN);
    let (roof, array) = (job["roof"].take(), job["array"].take());
    job.as_object_mut().expect("an object").retain(|_, member| !member.is_null());
    let mut north = json!({"id": "north", "roof": roof, "array": array});
    north["array"]["fields"][0]["rows"] = json!(1);
    north["array"]["fields"][0]["origin_mm"] = json!([500, 900]);
    north["array"]["module"]["mass_kg"] = json!(23.0);
    north["array"]["module"]["lift_capacity_kn_per_m2"] = json!(0.2);
    job["slopes"] = json!([{"id": "south", "roof": roof, "array": array}, north]);
    job["remedies"] = json!(false);
    job
}

/// The request for a layout of one slope.
fn alone(building: &Value, slope: usize) -> Value {
    let mut job = building.clone();
    let slope = job["slopes"][slope].take();
    let members = job.as_object_mut().expect("an object");
    members.remove("slopes");
    for member in ["roof", "array"] {
        members.insert(member.to_owned(), slope[member].clone());
    }
    job
}

fn alone_of_all(building: &Value) -> Vec<Value> {
    let slopes = list(&building["slopes"]).len();
    (0..slopes).map(|slope| answer("/v1/layouts", &alone(building, slope))).collect()
}

/// The same without a pointer's way to the slope.
fn off_slope(told: &Value, slope: usize) -> Value {
    let at = format!("/slopes/{slope}");
    serde_json::from_str(&told.to_string().replace(&at, "")).expect("it is JSON still")
}

/// Entries in any order.
fn sorted(entries: impl IntoIterator<Item = Value>) -> Vec<String> {
    let mut all: Vec<String> = entries.into_iter().map(|entry| entry.to_string()).collect();
    all.sort();
    all
}

/// Rails, or what is kept of them, without the places where they are cut.
fn uncut(rails: &Value) -> Value {
    let mut rails = rails.clone();
    for rail in rails.as_array_mut().expect("a list") {
        let rail = rail.as_object_mut().expect("a rail");
        rail.remove("splices_mm");
        for segment in rail.get_mut("segments").and_then(Value::as_array_mut).into_iter().flatten()
        {
            segment.as_object_mut().expect("a segment").remove("splices_mm");
        }
    }
    rails
}

#[test]
fn every_slope_is_what_its_layout_alone_says() {
    for job in [example(GABLE), example(SHORT), barn_with_a_failing_slope()] {
        let building = answer("/v1/buildings", &job);
        for (at, alone) in alone_of_all(&job).iter().enumerate() {
            let slope = off_slope(&building["slopes"][at], at);
            for member in [
                "job_key",
                "declarations",
                "verdict",
                "verdicts",
                "utilisation",
                "optimality",
                "actions",
                "covering",
                "hooks",
                "rafters",
                "modules",
                "remedies",
                "headline",
            ] {
                assert_eq!(slope.get(member), alone.get(member), "{at}: {member}");
            }
            assert_eq!(uncut(&slope["rails"]), uncut(&alone["rails"]), "{at}");
            let [own, other] = [&slope["record"], &alone["record"]];
            assert_eq!(own["recorded"], other["recorded"], "{at}");
            assert_eq!(own["built"]["hooks"], other["built"]["hooks"], "{at}");
            assert_eq!(uncut(&own["built"]["rails"]), uncut(&other["built"]["rails"]), "{at}");
            for member in ["warnings", "causes", "assumptions"] {
                let told = list(&building[member]).iter().chain(list(&slope[member])).cloned();
                let told = told.filter(|told| told["code"] != "slope.name");
                assert_eq!(sorted(told), sorted(list(&alone[member]).to_vec()), "{at}: {member}");
            }
            // The finding of what is to be supplied once may be one on each slope.
            let unnamed = |missing: &Value| json!([missing["check"], missing["pointer"]]);
            let told = list(&building["missing"]).iter().chain(list(&slope["missing"]));
            let expected = list(&alone["missing"]).iter().map(unnamed);
            assert_eq!(sorted(told.map(unnamed)), sorted(expected), "{at}: missing");
        }
    }
}

#[test]
fn what_is_asked_beside_the_layouts_is_told_of_every_slope() {
    let mut job = barn_with_a_failing_slope();
    for slope in job["slopes"].as_array_mut().expect("slopes") {
        slope["array"]["fields"][0]["rows"] = json!(1);
        slope["array"]["fields"][0]["columns"] = json!(4);
    }
    job["capacity"] = json!(true);
    job["scopes"] = json!(["fixing"]);
    let building = answer("/v1/buildings?trace=full", &job);
    for at in [0, 1] {
        let alone = answer("/v1/layouts?trace=full", &alone(&job, at));
        let slope = &building["slopes"][at];
        assert_eq!(slope["capacity"], alone["capacity"]);
        assert_eq!(slope["trace"], alone["trace"]);
        assert!(list(&slope["trace"]).len() > 100);
        assert_eq!(slope["verdicts"]["rafters"], "not_assessed");
    }
}

#[test]
fn the_verdict_is_the_worst_of_the_slopes_and_names_them() {
    let job = barn_with_a_failing_slope();
    let building = answer("/v1/buildings", &job);
    let verdicts: Vec<&Value> = list(&building["slopes"]).iter().map(|s| &s["verdict"]).collect();
    assert_eq!(verdicts, ["incomplete", "fails"], "an opening cuts a rafter; modules are too weak");
    assert_eq!(building["verdict"], "fails");
    let headline = building["headline"].as_str().expect("a sentence");
    assert!(headline.starts_with("Fails, on slope north"), "{headline}");
    let order = ["holds", "holds_with_warnings", "incomplete", "fails"];
    let rank = |verdict: &Value| order.iter().position(|known| verdict == known);
    for (scope, verdict) in building["verdicts"].as_object().expect("verdicts") {
        let of_slopes =
            list(&building["slopes"]).iter().map(|slope| rank(&slope["verdicts"][scope]));
        assert_eq!(rank(verdict), of_slopes.max().expect("slopes"), "{scope}");
    }
    let german = post("/v1/buildings?lang=de", job.to_string().as_bytes()).json();
    let headline = german["headline"].as_str().expect("a sentence");
    assert!(headline.starts_with("Nachweis nicht eingehalten, auf Dachfläche north"), "{headline}");
    let most = |slope: &Value| number(&slope["utilisation"]["max"]);
    let used = list(&building["slopes"]).iter().map(most).fold(0.0, f64::max);
    assert!((number(&building["utilisation"]["max"]) - used).abs() < 1e-12);
    let named = building["utilisation"]["slope"].as_str().expect("a slope");
    let of_named = list(&building["slopes"]).iter().find(|slope| slope["id"] == named);
    assert!((most(of_named.expect("it is one of them")) - used).abs() < 1e-12);
    for count in ["hooks", "lower_bound"] {
        let sum: f64 =
            list(&building["slopes"]).iter().map(|s| number(&s["optimality"][count])).sum();
        assert!((number(&building["optimality"][count]) - sum).abs() < 1e-9, "{count}");
    }
}

/// What is built in is the sum of the slopes; rails alone are bought for all of them together.
#[test]
fn one_order_is_for_all_slopes() {
    for job in [example(GABLE), example(SHORT), barn_with_a_failing_slope()] {
        let building = answer("/v1/buildings", &job);
        let alone = alone_of_all(&job);
        let needed = |answer: &Value, kind: &Value, size: Option<&Value>| -> f64 {
            let lines = list(&answer["parts"]["lines"]).iter();
            let lines = lines.filter(|line| line["kind"] == *kind && line.get("size_mm") == size);
            lines.map(|line| number(&line["needed"])).sum()
        };
        let of_alone = alone.iter().flat_map(|answer| list(&answer["parts"]["lines"]));
        let kinds = list(&building["parts"]["lines"]).iter().chain(of_alone);
        for line in kinds.filter(|line| line["kind"] != "rail_bar") {
            let (kind, size) = (&line["kind"], line.get("size_mm"));
            let sum: f64 = alone.iter().map(|answer| needed(answer, kind, size)).sum();
            assert!((needed(&building, kind, size) - sum).abs() < 1e-9, "{kind} {size:?}");
        }
        for mass in ["modules_kg", "rails_kg", "hooks_kg", "clamps_kg", "total_kg"] {
            let of = |answer: &Value| number(&answer["parts"]["mass"][mass]);
            let sum: f64 = alone.iter().map(of).sum();
            assert!((of(&building) - sum).abs() < 0.005, "{mass}: rounded once and not twice");
        }
        let fields = list(&building["parts"]["fields"]).iter().map(|field| &field["slope"]);
        let ids = list(&building["slopes"]).iter().map(|slope| &slope["id"]);
        assert!(fields.eq(ids), "each of these slopes has one field");
    }
    let mut other_module = example(GABLE);
    other_module["slopes"][1]["array"]["module"]["mass_kg"] = json!(22.0);
    let building = answer("/v1/buildings", &other_module);
    let modules = list(&building["parts"]["lines"]).iter().filter(|line| line["kind"] == "module");
    let modules: Vec<(f64, &str)> =
        modules.map(|line| (number(&line["needed"]), line["why"].as_str().expect("why"))).collect();
    assert_eq!(modules, [(16.0, "field south/A: 16"), (6.0, "field north/A: 6")]);
}

/// The plan holds what the rails are made of, and a common plan never buys more than one for each slope
/// would: what it saves first is never more.
#[test]
fn one_cutting_plan_makes_the_rails_of_all_slopes() {
    for aim in ["least_length", "fewest_bars"] {
        for mut job in [example(GABLE), example(SHORT), barn_with_a_failing_slope()] {
            job["wishes"]["order"] = json!({"stock_aim": aim});
            let building = answer("/v1/buildings", &job);
            let plan = &building["parts"]["cutting"];
            let alone = alone_of_all(&job);
            let plans = alone.iter().map(|answer| &answer["parts"]["cutting"]);
            let first = |plan: &Value| match aim {
                "least_length" => number(&plan["bought_mm"]),
                _ => list(&plan["bars"]).len() as f64,
            };
            let apart: f64 = plans.map(first).sum();
            assert_eq!(plan["proven"], true);
            assert!(first(plan) <= apart, "{aim}: {} against {apart}", first(plan));
            let mut pieces = pieces_of_the_rails(&building);
            for bar in list(&plan["bars"]) {
                let cut = list(&bar["pieces"]);
                let lengths: f64 = cut.iter().map(|piece| number(&piece["length_mm"])).sum();
                let between = 3.0 * (cut.len() as f64 - 1.0);
                assert!(lengths + between <= number(&bar["stock_mm"]) + 1e-6, "{bar}");
                for piece in cut {
                    let named =
                        json!([piece["slope"], piece["rail"], piece["segment"], piece["piece"]]);
                    let at = pieces.iter().position(|(name, ..)| *name == named);
                    let (_, start, length) = pieces.swap_remove(at.expect("a piece of a rail"));
                    assert!((start - number(&piece["start_mm"])).abs() < 0.02, "{piece}");
                    assert!((length - number(&piece["length_mm"])).abs() < 0.12, "{piece}");
                }
            }
            assert_eq!(pieces, [], "every piece is cut once");
        }
    }
}

/// Rails of three modules on one slope and of one on the other, bars of 5.5 m, worked by hand: alone they
/// take two bars and one, together the short ones are cut from what the long ones leave.
#[test]
fn an_offcut_of_one_slope_is_a_piece_of_the_other() {
    let mut job = example(GABLE);
    for (slope, columns) in [(0, 3), (1, 1)] {
        let field = &mut job["slopes"][slope]["array"]["fields"][0];
        field["rows"] = json!(1);
        field["columns"] = json!(columns);
    }
    job["components"]["rail"]["stock_lengths_mm"] = json!([5500]);
    job["remedies"] = json!(false);
    let bars = |answer: &Value| list(&answer["parts"]["cutting"]["bars"]).len();
    assert_eq!(alone_of_all(&job).iter().map(bars).collect::<Vec<_>>(), [2, 1]);
    let building = answer("/v1/buildings", &job);
    assert_eq!(bars(&building), 2);
    for bar in list(&building["parts"]["cutting"]["bars"]) {
        let slopes: Vec<&Value> =
            list(&bar["pieces"]).iter().map(|piece| &piece["slope"]).collect();
        assert_eq!(slopes, ["south", "north"]);
    }
    let bought = list(&building["parts"]["lines"]).iter().find(|line| line["kind"] == "rail_bar");
    assert_eq!(bought.expect("bars are bought")["needed"], 2);
}

/// Name, start and length of every piece of every rail.
fn pieces_of_the_rails(building: &Value) -> Vec<(Value, f64, f64)> {
    let mut pieces = Vec::new();
    for slope in list(&building["slopes"]) {
        for rail in list(&slope["rails"]) {
            for (s, segment) in list(&rail["segments"]).iter().enumerate() {
                let inner = list(&segment["splices_mm"]).iter().map(number);
                let stops = [number(&segment["start_mm"])].into_iter().chain(inner);
                let stops: Vec<f64> = stops.chain([number(&segment["end_mm"])]).collect();
                for (n, ends) in stops.windows(2).enumerate() {
                    let name = json!([slope["id"], rail["id"], s, n]);
                    pieces.push((name, ends[0], ends[1] - ends[0]));
                }
            }
        }
    }
    pieces
}

#[test]
fn faults_of_all_slopes_and_of_what_they_share_are_told_at_once() {
    let mut job = example(GABLE);
    job["slopes"][0]["array"]["fields"][0]["origin_mm"] = json!([-500, 725]);
    job["slopes"][1]["id"] = json!("south");
    job["slopes"][1]["roof"]["covering"]["gauge_mm"] = json!(425);
    job["components"]["hook"] = json!("nobody-makes-it");
    let problem = post("/v1/buildings", job.to_string().as_bytes()).problem();
    let faults: Vec<[&str; 2]> = list(&problem["errors"])
        .iter()
        .map(|fault| ["pointer", "code"].map(|member| fault[member].as_str().expect("a text")))
        .collect();
    assert_eq!(
        faults,
        [
            ["/slopes/0/array/fields/0", "off_roof"],
            ["/slopes/1/id", "contradiction"],
            ["/slopes/1/roof/covering/gauge_mm", "contradiction"],
            ["/components/hook", "unknown_component"],
        ]
    );
    let mut job = example(GABLE);
    job["slopes"][1]["roof"]["pitch_deg"] = json!(95);
    job["slopes"][0]["roof"]["colour"] = json!("red");
    let problem = post("/v1/buildings", job.to_string().as_bytes()).problem();
    let at = list(&problem["errors"]).iter().map(|fault| &fault["pointer"]);
    assert_eq!(at.collect::<Vec<_>>(), ["/slopes/0/roof/colour", "/slopes/1/roof/pitch_deg"]);
    for slopes in [json!([]), json!(vec![example(GABLE)["slopes"][0].clone(); 13])] {
        let mut job = example(GABLE);
        job["slopes"] = slopes;
        let problem = post("/v1/buildings", job.to_string().as_bytes()).problem();
        assert_eq!(problem["errors"][0]["pointer"], "/slopes");
        assert_eq!(problem["errors"][0]["code"], "out_of_range");
    }
}

#[test]
fn the_slopes_together_have_the_limits_of_one_job() {
    let mut job = example(GABLE);
    for slope in job["slopes"].as_array_mut().expect("slopes") {
        slope["array"]["fields"][0]["rows"] = json!(50);
        slope["array"]["fields"][0]["columns"] = json!(60);
    }
    let problem = post("/v1/buildings", job.to_string().as_bytes()).problem();
    let of_all = list(&problem["errors"]).iter().find(|fault| fault["pointer"] == "/slopes");
    let detail = of_all.expect("a fault of all slopes")["detail"].as_str().expect("a sentence");
    assert!(detail.contains("6000 places"), "{detail}");
}

#[test]
fn a_short_request_is_completed_on_every_slope() {
    let building = answer("/v1/buildings", &example(SHORT));
    for (at, id) in ["S1", "S2"].into_iter().enumerate() {
        let slope = &building["slopes"][at];
        assert_eq!(slope["id"], id);
        let pointers: BTreeSet<&str> = list(&slope["assumptions"])
            .iter()
            .map(|assumed| assumed["pointer"].as_str().expect("a pointer"))
            .collect();
        for member in [
            "id",
            "roof/outline_mm",
            "roof/covering",
            "roof/layers",
            "roof/rafters/strength_class",
            "array/rail_direction",
            "array/fields/0/id",
            "array/fields/0/origin_mm/0",
        ] {
            assert!(
                pointers.contains(&*format!("/slopes/{at}/{member}")),
                "{member}: {pointers:?}"
            );
        }
    }
    let of_both = list(&building["assumptions"]).iter().map(|a| a["pointer"].as_str());
    assert!(of_both.flatten().all(|pointer| !pointer.starts_with("/slopes")));
    let mut job = example(SHORT);
    job["slopes"][1]["roof"]["form"] = json!("hipped");
    job["slopes"][1]["array"]["module"] = json!("nobody-makes-it");
    let problem = post("/v1/buildings", job.to_string().as_bytes()).problem();
    let at = list(&problem["errors"]).iter().map(|fault| fault["pointer"].as_str().expect("one"));
    let at: Vec<&str> = at.collect();
    assert!(at.iter().all(|pointer| pointer.starts_with("/slopes/1/")), "{at:?}");
    for pointer in ["/slopes/1/array/module", "/slopes/1/roof/outline_mm", "/slopes/1/roof/edges"] {
        assert!(at.contains(&pointer), "{pointer}: {at:?}");
    }
}

/// Whoever reads a finding finds what it is about, and whoever names one names one that is there.
#[test]
fn findings_lead_to_their_places_and_are_joined_by_their_ids() {
    for job in [example(GABLE), example(SHORT), barn_with_a_failing_slope()] {
        let building = answer("/v1/buildings", &job);
        let none = Value::Null;
        for part in [&none].into_iter().chain(list(&building["slopes"])) {
            let own = if part.is_null() { &building } else { part };
            let known = list(&own["warnings"]).iter().chain(list(&building["warnings"]));
            let known: BTreeSet<&str> = known.filter_map(|found| found["id"].as_str()).collect();
            for found in list(&own["warnings"]) {
                let path = found["path"].as_str().expect("a path");
                assert!(building.pointer(path).is_some(), "nothing is at {path}");
                let pointer = found["pointer"].as_str().unwrap_or_default();
                let rooted = pointer.is_empty()
                    || ["/slopes/", "/components/", "/site/", "/rules", "/wishes/"]
                        .iter()
                        .any(|root| pointer.starts_with(root));
                assert!(rooted, "{pointer}");
            }
            for cause in list(&own["causes"]) {
                let ids = list(&cause["findings"]).iter().filter_map(Value::as_str);
                assert!(
                    ids.clone().count() > 0 && ids.clone().all(|id| known.contains(id)),
                    "{cause}"
                );
                let mut paths = list(&cause["paths"]).iter().filter_map(Value::as_str);
                assert!(paths.all(|path| building.pointer(path).is_some()), "{cause}");
            }
            for missing in list(&own["missing"]) {
                let named = missing.get("finding").and_then(Value::as_str);
                assert!(named.is_none_or(|id| known.contains(id)), "{missing}");
            }
        }
    }
}

/// A slope that was laid out with others can be checked again by itself.
#[test]
fn the_record_of_a_slope_is_that_of_its_recheck() {
    let job = example(GABLE);
    let building = answer("/v1/buildings", &job);
    for (at, slope) in list(&building["slopes"]).iter().enumerate() {
        let mut built = alone(&job, at);
        built["built"] = slope["record"]["built"].clone();
        built["recorded"] = slope["record"]["recorded"].clone();
        let recheck = answer("/v1/rechecks", &built);
        assert_eq!(recheck["job_key"], slope["job_key"]);
        assert_eq!(recheck["difference"]["input_changed"], false);
        assert_eq!(recheck["difference"]["causes"], json!([]));
        let [now, then] = [&recheck, slope].map(|of| number(&of["utilisation"]["max"]));
        assert!((now - then).abs() < 1e-9, "{now} is not {then}");
    }
}

#[test]
fn a_summary_is_of_all_slopes() {
    for job in [GABLE, SHORT] {
        let full = post("/v1/buildings", job.as_bytes()).json();
        let reply = post("/v1/buildings?answer=summary", job.as_bytes());
        assert!(reply.body.len() < 1500, "{} bytes", reply.body.len());
        let summary = reply.json();
        assert_eq!((&summary["kind"], &summary["of"]), (&json!("summary"), &json!("building")));
        for member in
            ["reference", "input_digest", "verdict", "verdicts", "headline", "utilisation"]
        {
            assert_eq!(summary.get(member), full.get(member), "{member}");
        }
        let sum = |member: &str| {
            let of_slopes = list(&full["slopes"]).iter().map(|slope| list(&slope[member]).len());
            of_slopes.sum::<usize>() + full[member].as_array().map_or(0, Vec::len)
        };
        for member in ["rails", "hooks", "modules", "missing", "assumptions"] {
            assert_eq!(summary["counts"][member], sum(member), "{member}");
        }
        let counted = ["failures", "incomplete", "warnings", "notices"];
        let counted: f64 = counted.iter().map(|of| number(&summary["counts"][of])).sum();
        assert!((counted - sum("warnings") as f64).abs() < 1e-9);
    }
}

fn shown(query: &str, accept: &str, language: &str, job: &str) -> crate::server::Reply {
    let headers =
        [("content-type", "application/json"), ("accept", accept), ("accept-language", language)];
    send("POST", &format!("/v1/buildings{query}"), &headers, job.as_bytes())
}

#[test]
fn a_drawing_has_the_slopes_one_below_the_other_or_a_section_through_one_hook() {
    let building = post("/v1/buildings", GABLE.as_bytes()).json();
    for (query, titles) in [
        (
            "",
            [
                "Roof slope south · Roof slope with hooks",
                "Roof slope north · Roof slope with hooks",
            ],
        ),
        ("?view=wind", ["Roof slope south · Wind zones", "Roof slope north · Wind zones"]),
    ] {
        let reply = shown(query, "image/svg+xml", "en", GABLE);
        assert_eq!(reply.status, 200, "{}", reply.text());
        let drawing = well_formed(reply.text());
        let at = titles.map(|title| drawing.find(title).unwrap_or_else(|| panic!("no {title}")));
        assert!(at[0] < at[1]);
    }
    let worst = building["utilisation"]["slope"].as_str().expect("a slope");
    let section = shown("?view=section", "image/svg+xml", "de", GABLE);
    assert!(section.text().contains(&format!("Dachfläche {worst}")));
    let named = shown("?view=section&hook=north/A2-1", "image/svg+xml", "en", GABLE);
    assert!(named.text().contains("Roof slope north") && named.text().contains("A2-1"));
    for hook in ["A2-1", "north/A9-1", "east/A1-1", "north/"] {
        let reply = shown(&format!("?view=section&hook={hook}"), "image/svg+xml", "en", GABLE);
        assert_eq!(reply.problem()["errors"][0]["code"], "unknown_value", "{hook}");
    }
}

/// Every tag that is opened is closed, in order.
fn well_formed(svg: &str) -> &str {
    let mut open: Vec<&str> = Vec::new();
    for tag in svg.split('<').skip(1).filter(|tag| !tag.starts_with('?')) {
        let (tag, _) = tag.split_once('>').expect("a tag ends");
        let word = tag.trim_start_matches('/').split([' ', '/']).next().expect("a name");
        if tag.starts_with('/') {
            assert_eq!(open.pop(), Some(word));
        } else if !tag.ends_with('/') {
            open.push(word);
        }
    }
    assert_eq!(open, Vec::<&str>::new());
    svg
}

#[test]
fn a_sheet_goes_slope_by_slope_and_has_one_order() {
    for (language, slope, order) in [
        ("en", "Roof slope", "Order for all roof slopes"),
        ("de", "Dachfläche", "Bestellung für alle Dachflächen"),
    ] {
        let reply = shown("", "text/html", language, GABLE);
        let html = reply.text();
        let mut before = 0;
        for id in ["south", "north"] {
            let heading = format!(">{slope} {id}</h2>");
            let at = html.find(&heading).unwrap_or_else(|| panic!("no {heading}"));
            assert!(before < at, "slopes are in their order");
            before = at;
        }
        assert!(before < html.find(order).expect(order), "the order is behind the slopes");
        assert_eq!(html.matches("<table class=\"order\"").count(), 1);
        assert!(
            html.contains("north/A1: ") && html.contains("south/A1: "),
            "pieces name their slope"
        );
        let ids: Vec<&str> =
            html.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
        let each: BTreeSet<&&str> = ids.iter().collect();
        assert_eq!(each.len(), ids.len(), "{ids:?}");
    }
    let job = barn_with_a_failing_slope().to_string();
    let html = shown("", "text/html", "en", &job).text().to_owned();
    let stop = html.find("✗ Do not build or order from this sheet").expect("a notice");
    assert!(stop < html.find("id=\"cautions\"").expect("cautions"));
    assert!(html.contains("id=\"stop-1\""), "the slope that fails says why");
    let crew = &html[..html.find("id=\"engineer\"").expect("the engineer's part")];
    assert!(!crew.contains("/slopes/"), "whoever is on the roof has no request in hand");
}

/// The order is of all slopes, the rest of each; nothing gets lost between the parts.
#[test]
fn a_sheet_of_a_building_has_its_parts_too() {
    let of = |query: &str| shown(query, "text/html", "en", GABLE).text().to_owned();
    let whole = of("");
    let parts = ["?part=crew", "?part=order", "?part=engineer"].map(of);
    let tables = |html: &str| html.matches("<table").count();
    assert_eq!(parts.iter().map(|part| tables(part)).sum::<usize>(), tables(&whole));
    let [crew, order, engineer] = &parts;
    assert!(crew.contains("class=\"setting-out\"") && !crew.contains("class=\"order\""));
    assert!(order.contains("class=\"order\"") && !order.contains("class=\"setting-out\""));
    assert!(engineer.contains("id=\"engineer\"") && !engineer.contains("class=\"setting-out\""));
}

#[test]
fn the_same_request_gives_the_same_bytes_and_one_slope_is_a_building_too() {
    let once = post("/v1/buildings", GABLE.as_bytes());
    assert_eq!(once.text(), post("/v1/buildings", GABLE.as_bytes()).text());
    let mut job = example(GABLE);
    job["slopes"].as_array_mut().expect("slopes").truncate(1);
    let building = answer("/v1/buildings", &job);
    let layout = answer("/v1/layouts", &alone(&job, 0));
    assert_eq!(building["slopes"][0]["rails"], layout["rails"], "the same plan");
    for member in ["bars", "splices"] {
        let mut own = building["parts"]["cutting"][member].clone();
        let text = own.to_string().replace("\"slope\":\"south\",", "");
        own = serde_json::from_str(&text).expect("JSON");
        assert_eq!(own, layout["parts"]["cutting"][member], "{member}");
    }
    assert_eq!(building["parts"]["mass"], layout["parts"]["mass"]);
}
