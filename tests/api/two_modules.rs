//! Fields with modules of their own: each is what it would be alone, and what is common says of which
//! module it speaks.

use serde_json::{Value, json};

use crate::server::{
    COTTAGE, GABLE, TWO_MODULES, answer, example, list, number, param, post, send, warnings,
};

fn lay_out(job: &Value) -> Value {
    answer("/v1/layouts", job)
}

/// The example with one of its fields alone, and the module of that field as the job's.
fn alone(field: usize) -> Value {
    let mut job = example(TWO_MODULES);
    let mut own = job["array"]["fields"][field].take();
    if let Some(module) = own.as_object_mut().expect("a field").remove("module") {
        job["array"]["module"] = module;
    }
    job["array"]["fields"] = json!([own]);
    job
}

/// The example with the module of field B as the job's, and that of field A as the field's own.
fn swapped() -> Value {
    let mut job = example(TWO_MODULES);
    let of_job = job["array"]["module"].take();
    let of_b = job["array"]["fields"][1].as_object_mut().expect("a field").remove("module");
    job["array"]["module"] = of_b.expect("a module of its own");
    job["array"]["fields"][0]["module"] = of_job;
    job
}

/// An answer without what names the request it is of.
fn unnamed(mut answer: Value) -> Value {
    for (at, name) in
        [("", "input_digest"), ("", "job_key"), ("/record/recorded", "job_key"), ("", "reference")]
    {
        if let Some(Value::Object(members)) = answer.pointer_mut(at) {
            members.remove(name);
        }
    }
    answer
}

/// The entries of a list of an answer that belong to a field, by a member that begins with its name.
fn of_field(answer: &Value, of: &str, field: &str) -> Vec<Value> {
    let name = |entry: &Value| entry["id"].as_str().unwrap_or_default().to_owned();
    let all = list(&answer[of]).iter();
    all.filter(|entry| name(entry).starts_with(field)).cloned().collect()
}

/// What an order has of a kind of part, by size.
fn ordered(answer: &Value, kind: &str) -> Vec<(Value, u64)> {
    let lines = list(&answer["parts"]["lines"]).iter().filter(|line| line["kind"] == kind);
    let needed = |line: &Value| line["needed"].as_u64().expect("a count");
    lines.map(|line| (line["size_mm"].clone(), needed(line))).collect()
}

#[test]
fn each_field_is_what_it_is_alone() {
    let both = lay_out(&example(TWO_MODULES));
    let each = [0, 1].map(|field| lay_out(&alone(field)));
    for of in ["rails", "hooks", "modules"] {
        let apart: Vec<Value> = each.iter().flat_map(|one| list(&one[of])).cloned().collect();
        assert!(apart.len() > 3, "{of}");
        assert_eq!(list(&both[of]), apart, "{of}");
    }
    // No rafter carries hooks of both.
    let rafters: Vec<&Value> = each.iter().flat_map(|one| list(&one["rafters"])).collect();
    assert_eq!(list(&both["rafters"]).iter().collect::<Vec<_>>(), rafters);
    let most = each.iter().map(|one| number(&one["utilisation"]["max"])).fold(0.0, f64::max);
    assert!((number(&both["utilisation"]["max"]) - most).abs() < 1e-9);
}

#[test]
fn the_order_of_both_is_the_sum_of_each_and_keeps_frames_apart() {
    let both = lay_out(&example(TWO_MODULES));
    let each = [0, 1].map(|field| lay_out(&alone(field)));
    for kind in ["hook", "screw", "bolt_set", "end_cap"] {
        let sum: u64 = each.iter().flat_map(|one| ordered(one, kind)).map(|(_, n)| n).sum();
        assert_eq!(ordered(&both, kind), [(Value::Null, sum)], "{kind}");
    }
    for kind in ["mid_clamp", "end_clamp"] {
        let [a, b] = each.each_ref().map(|one| ordered(one, kind)[0].1);
        assert_eq!(ordered(&both, kind), [(json!(30.0), a), (json!(35.0), b)], "{kind}");
    }
    let modules = list(&both["parts"]["lines"]).iter().filter(|line| line["kind"] == "module");
    let modules: Vec<[&Value; 3]> =
        modules.map(|line| ["module_mm", "needed", "mass_kg"].map(|name| &line[name])).collect();
    assert_eq!(modules[0], [&json!([1762.0, 1134.0, 30.0]), &json!(8), &json!(8.0 * 21.5)]);
    assert_eq!(modules[1], [&json!([1480.0, 670.0, 35.0]), &json!(4), &json!(4.0 * 12.0)]);
    for one in &each {
        let plain = list(&one["parts"]["lines"]).iter();
        assert!(plain.clone().all(|line| line.get("module_mm").is_none()));
    }
    // Fields carry what they carry alone, but that clamps are told by their frames.
    for (field, one) in list(&both["parts"]["fields"]).iter().zip(&each) {
        let mut lines = field["lines"].clone();
        for line in lines.as_array_mut().expect("lines") {
            if line["kind"].as_str().is_some_and(|kind| kind.ends_with("_clamp")) {
                let frame = line.as_object_mut().expect("a line").remove("size_mm");
                let own = if field["field"] == "A" { 30.0 } else { 35.0 };
                assert_eq!(frame, Some(json!(own)));
            }
        }
        assert_eq!(lines, one["parts"]["fields"][0]["lines"]);
        assert_eq!(field["mass_kg"], one["parts"]["fields"][0]["mass_kg"]);
    }
    for part in ["modules_kg", "hooks_kg", "rails_kg", "clamps_kg", "total_kg"] {
        let sum: f64 = each.iter().map(|one| number(&one["parts"]["mass"][part])).sum();
        let mass = number(&both["parts"]["mass"][part]);
        assert!((mass - sum).abs() < 0.01, "{part}: {mass}, apart {sum}");
    }
    let area = 8.0 * 1.762 * 1.134 + 4.0 * 1.48 * 0.67;
    let mass = &both["parts"]["mass"];
    let per_area = number(&mass["total_kg"]) / area;
    assert!((number(&mass["total_kg_per_m2"]) - per_area).abs() < 0.01);
}

#[test]
fn which_module_is_the_jobs_and_which_the_fields_own_does_not_matter() {
    let options = "/v1/layouts?trace=full";
    let [one, other] = [example(TWO_MODULES), swapped()].map(|job| unnamed(answer(options, &job)));
    assert_eq!(one, other);
    // A field that names the job's own module has nothing of its own.
    let named = |with: bool| {
        let mut job = example(TWO_MODULES);
        let own = if with { Some(job["array"]["module"].clone()) } else { None };
        let field = job["array"]["fields"][1].as_object_mut().expect("a field");
        field.remove("module");
        field.extend(own.map(|own| ("module".to_owned(), own)));
        field.insert("columns".to_owned(), json!(2));
        unnamed(answer(options, &job))
    };
    assert_eq!(named(true), named(false));
}

#[test]
fn another_module_in_one_field_changes_only_that_field() {
    let before = lay_out(&example(TWO_MODULES));
    let at = |member: &str| format!("/array/fields/1/module/{member}");
    for (member, value, part) in [
        ("mass_kg", json!(30.0), "hooks"),
        ("press_capacity_kn_per_m2", json!(1.2), "modules"),
        ("lift_capacity_kn_per_m2", json!(1.1), "modules"),
        ("length_mm", json!(1500.0), "modules"),
        ("clamp_zone_mm", json!([180.0, 200.0]), "rails"),
        ("thickness_mm", json!(50.0), "hooks"),
    ] {
        let mut job = example(TWO_MODULES);
        *job.pointer_mut(&at(member)).expect("a member") = value;
        let after = lay_out(&job);
        for of in ["rails", "hooks", "modules"] {
            let [was, is] = [&before, &after].map(|answer| of_field(answer, of, "A"));
            assert_eq!(was, is, "{member}: {of} of A");
        }
        let [was, is] = [&before, &after].map(|answer| of_field(answer, part, "B"));
        assert_ne!(was, is, "{member}: {part} of B");
    }
}

/// Weight and even snow at a frame follow from mass, area and height of the field's own module: half of
/// what acts square to the slope by the share of the rail, and the couple of what acts down it.
#[test]
fn a_frame_bears_its_own_module_by_hand() {
    let answer = answer("/v1/layouts?trace=full", &example(TWO_MODULES));
    let traced = |element: &str, symbol: &str| {
        let line = list(&answer["trace"])
            .iter()
            .find(|line| line["element"] == element && line["symbol"] == symbol);
        number(&line.unwrap_or_else(|| panic!("{symbol} of {element}"))["value"])
    };
    let pitch = 35.0_f64.to_radians();
    let near = |value: f64, by_hand: f64| (value - by_hand).abs() < 1e-4 * by_hand.abs();
    let on_slope = [traced("", "s cos²α"), traced("", "s cosα sinα")];
    for (field, rail, mass, area, height) in [
        ("field/A", "A1", 21.5, 1.762 * 1.134, 20.0 + 30.0),
        ("field/B", "B1", 12.0, 1.48 * 0.67, 20.0 + 35.0),
    ] {
        let weight = mass * 9.81 / 1000.0;
        assert!(near(traced(field, "G_m"), weight), "{field}");
        assert!(near(traced(field, "e_z"), height), "{field}");
        let ys: Vec<f64> = of_field(&answer, "rails", &rail[..1])
            .iter()
            .take(2)
            .map(|rail| number(&rail["y_mm"]))
            .collect();
        let couple = height / (ys[1] - ys[0]);
        assert!(near(traced(rail, "e_z/Δy"), couple), "{rail}");
        let share = traced(rail, "s");
        let at_frame = |normal: f64, slope: f64| 0.5 * (normal * share + slope * couple);
        let dead = at_frame(weight * pitch.cos(), weight * pitch.sin());
        assert!(near(traced(rail, "G_f"), dead), "{rail}: {dead}");
        let snow = at_frame(on_slope[0] * area, on_slope[1] * area);
        assert!(near(traced(rail, "S_f"), snow), "{rail}: {snow}");
    }
    // EN 1991-1-4 7.2.1: B's modules are smaller than 1 m² and take c_pe,1, which fixings of 1 m² do too.
    let zones = |of: &str| -> Vec<f64> {
        let lines = list(&answer["trace"]).iter();
        let own = lines.filter(|line| {
            line["symbol"] == "c_pe-" && line["element"].as_str().is_some_and(|e| e.starts_with(of))
        });
        own.map(|line| number(&line["value"])).collect()
    };
    assert_eq!(zones("field/B/modules/"), zones("field/B/fixings/"));
    assert_ne!(zones("field/A/modules/"), zones("field/A/fixings/"));
    let acting = list(&answer["actions"]["fields"]);
    for (of, by_hand) in acting.iter().zip([21.5 / (1.762 * 1.134), 12.0 / (1.48 * 0.67)]) {
        let told = number(&of["module_kn_per_m2"]);
        assert!((told - by_hand * 9.81e-3).abs() < 1e-4, "{told}");
    }
    let differ = |of: &Value| {
        let zones = list(&of["zones"]).iter();
        zones.filter(|zone| zone["suction"] != zone["on_modules"]["suction"]).count()
    };
    assert!(differ(&acting[0]) > 0 && differ(&acting[1]) == 0);
    let zones = list(&answer["actions"]["wind"]["zones"]).len();
    assert!(acting.iter().all(|of| list(&of["zones"]).len() == zones));
}

#[test]
fn a_recheck_of_the_record_comes_to_the_same_figures() {
    let job = example(TWO_MODULES);
    let laid = lay_out(&job);
    let mut built = job;
    built["built"] = laid["record"]["built"].clone();
    built["recorded"] = laid["record"]["recorded"].clone();
    let again = answer("/v1/rechecks", &built);
    for of in ["verdict", "utilisation", "hooks", "modules", "rafters", "job_key"] {
        assert_eq!(laid[of], again[of], "{of}");
    }
    // A rail of B stands where that of another module would: it is held against B's own zone.
    let mut other = built;
    other["array"]["fields"][1]["module"]["clamp_zone_mm"] = json!([300.0, 500.0]);
    let outside = answer("/v1/rechecks", &other);
    let found = warnings(&outside, "rail.outside-clamp-zone");
    let rails: Vec<&Value> = found.iter().map(|one| param(one, "rail")).collect();
    assert_eq!(rails, ["B1"]);
}

#[test]
fn what_is_kept_of_old_modules_stands_beside_new_ones() {
    let whole = lay_out(&example(TWO_MODULES));
    let mut job = example(TWO_MODULES);
    let mut there = whole["record"]["built"].clone();
    for (of, member) in [("rails", "id"), ("hooks", "rail")] {
        let all = there[of].as_array_mut().expect("a list");
        all.retain(|one| one[member].as_str().is_some_and(|rail| rail.starts_with('A')));
    }
    job["kept"] = there;
    let beside = lay_out(&job);
    let places = |answer: &Value| -> Vec<[Value; 3]> {
        let hooks = list(&answer["hooks"]).iter();
        hooks.map(|h| ["y_mm", "rafter", "utilisation"].map(|name| h[name].clone())).collect()
    };
    assert_eq!(places(&whole), places(&beside));
    assert_eq!(ordered(&beside, "hook")[0].1, of_field(&whole, "hooks", "B").len() as u64);
}

#[test]
fn a_module_named_by_its_id_is_the_one_in_full_and_told_to_be_invented() {
    let id = "demo-module-2094x1134";
    let mut named = example(TWO_MODULES);
    let field = &mut named["array"]["fields"][1];
    (field["module"], field["columns"]) = (json!(id), json!(2));
    let usual = send("GET", "/v1/usual", &[("accept", "application/json")], b"").json();
    let module = list(&usual["modules"]).iter().find(|one| one["id"] == id);
    let mut in_full = named.clone();
    in_full["array"]["fields"][1]["module"] = module.expect("it is there")["module"].clone();
    let [named, in_full] = [named, in_full].map(|job| lay_out(&job));
    for of in ["rails", "hooks", "modules", "parts", "actions"] {
        assert_eq!(named[of], in_full[of], "{of}");
    }
    let invented = warnings(&named, "parts.invented");
    assert_eq!(invented.len(), 1);
    assert_eq!(invented[0]["pointer"], "/array/fields/1/module");
    assert_eq!(*param(invented[0], "parts"), json!([format!("module {id}")]));
    assert_eq!(*param(invented[0], "field_place"), 1);
    let missing = list(&named["missing"]).iter().find(|one| one["check"] == "parts.invented");
    assert_eq!(missing.expect("it is missing")["pointer"], "/array/fields/1/module");
    assert!(warnings(&in_full, "parts.invented").is_empty());
}

#[test]
fn a_finding_about_a_module_points_at_the_fields_own() {
    let mut job = example(TWO_MODULES);
    let field = &mut job["array"]["fields"][1];
    (field["orientation"], field["columns"]) = (json!("landscape"), json!(1));
    let own = "/array/fields/1/module/short_side_clamp_zone_mm";
    let pointer = |answer: &Value| {
        let found = warnings(answer, "clamp.short-side-zone-unknown");
        found.iter().map(|one| one["pointer"].clone()).collect::<Vec<_>>()
    };
    let laid = lay_out(&job);
    assert_eq!(pointer(&laid), [json!(own)]);
    let asked = list(&laid["missing"]).iter().any(|one| one["pointer"] == own);
    assert!(asked, "{}", laid["missing"]);
    job["array"]["fields"][1]["module"]["short_side_clamp_zone_mm"] = json!([80.0, 300.0]);
    assert!(pointer(&lay_out(&job)).is_empty());
    // On a slope of a building it is the module of the field on that slope.
    let mut building = example(GABLE);
    let fields = building["slopes"][1]["array"]["fields"].as_array_mut().expect("fields");
    let mut own = fields[0].clone();
    let columns = fields[0]["columns"].as_u64().expect("a count");
    fields[0]["columns"] = json!(columns - 2);
    (own["id"], own["columns"]) = (json!("own"), json!(1));
    own["module"] = json!("demo-module-1762x1134");
    let along = (columns - 1) as f64 * (1134.0 + number(&own["column_gap_mm"]));
    own["origin_mm"][0] = json!(number(&own["origin_mm"][0]) + along);
    fields.push(own);
    let told = answer("/v1/buildings", &building);
    let missing = list(&told["slopes"][1]["missing"]).iter();
    let pointers: Vec<&Value> = missing.map(|one| &one["pointer"]).collect();
    assert!(pointers.contains(&&json!("/slopes/1/array/fields/1/module")), "{pointers:?}");
}

/// A rail stands out 40 mm beyond its modules, an end clamp takes 30 mm: on one course line two fields need
/// 80 mm between them, on two 30 mm.
#[test]
fn fields_of_different_modules_need_room_for_their_rails_and_clamps() {
    let beside = |gap: f64, change: &dyn Fn(&mut Value)| {
        let mut job = example(TWO_MODULES);
        let fields = &mut job["array"]["fields"];
        fields[0]["rows"] = json!(1);
        fields[1]["origin_mm"][0] = json!(560.0 + 4.0 * 1134.0 + 3.0 * 20.0 + gap);
        change(&mut job);
        let reply = post("/v1/layouts", job.to_string().as_bytes());
        if reply.status == 200 { Vec::new() } else { list(&reply.problem()["errors"]).to_vec() }
    };
    let as_it_is = |_: &mut Value| {};
    // Rails of A lie at 915 and 1905 mm, those of B at 585 and 1575 mm.
    assert!(beside(31.0, &as_it_is).is_empty());
    let faults = beside(29.0, &as_it_is);
    let [fault] = &faults[..] else { panic!("{faults:?}") };
    assert_eq!([&fault["pointer"], &fault["code"]], ["/array/fields/1", "overlap"]);
    let detail = fault["detail"].as_str().expect("a sentence");
    assert!(detail.contains("29 mm beside field A") && detail.contains("need 30 mm"), "{detail}");
    // B a course higher: its lower rail lies on the line of A's.
    let higher = |job: &mut Value| job["array"]["fields"][1]["origin_mm"][1] = json!(730.0);
    let on_one_line = beside(79.0, &higher);
    let detail = on_one_line[0]["detail"].as_str().expect("a sentence");
    assert!(detail.contains("need 80 mm"), "{detail}");
    assert!(beside(81.0, &higher).is_empty());
    // Modules of one kind beside each other are laid as before.
    let alike = |job: &mut Value| {
        job["array"]["fields"][1].as_object_mut().expect("a field").remove("module");
        job["array"]["fields"][1]["columns"] = json!(2);
    };
    assert!(beside(20.0, &alike).is_empty());
}

#[test]
fn what_a_figure_of_an_own_module_rests_on_is_told_with_its_field() {
    let evidence = json!([{
        "figure": "/lift_capacity_kn_per_m2", "by": "test", "document": "report 7",
        "series": {"values": [3.2, 3.0, 3.1], "distribution": "normal", "partial_factor": 1.25},
    }]);
    let mut job = example(TWO_MODULES);
    job["array"]["fields"][1]["module"]["evidence"] = evidence.clone();
    let told = lay_out(&job);
    let told = &list(&told["evidence"])[0];
    assert_eq!([&told["part"], &told["field"]], ["module", "B"]);
    assert!(number(&told["tested"]["bears"]) > 1.6);
    let mut weak = evidence;
    weak[0]["series"]["values"] = json!([1.2, 1.3, 1.1]);
    job["array"]["fields"][1]["module"]["evidence"] = weak;
    let reply = post("/v1/layouts", job.to_string().as_bytes());
    let problem = reply.problem();
    let at = &list(&problem["errors"])[0]["pointer"];
    assert_eq!(*at, "/array/fields/1/module/evidence/0/series");
}

#[test]
fn one_clamp_for_several_frames_is_an_assumption() {
    let of = |answer: &Value, code: &str| -> Vec<(Value, Value)> {
        let all = list(&answer["assumptions"]).iter().filter(|one| one["code"] == code);
        all.map(|one| (one["pointer"].clone(), one["said"].clone())).collect()
    };
    let both = lay_out(&example(TWO_MODULES));
    let [(pointer, said)] = &of(&both, "clamp.frames")[..] else { panic!("one assumption") };
    assert_eq!(*pointer, "/components/clamp");
    assert!(said.as_str().is_some_and(|said| said.contains("30 mm, 35 mm")), "{said}");
    let heights = of(&both, "rail.load-heights");
    let at = json!("/components/rail/load_height_mm");
    assert_eq!(heights, [(at.clone(), json!("50 mm, 55 mm"))]);
    assert!(of(&both, "rail.load-height").is_empty());
    // One frame, or one height declared for all: nothing differs.
    let alone = lay_out(&alone(1));
    assert!(of(&alone, "clamp.frames").is_empty());
    assert_eq!(of(&alone, "rail.load-height"), [(at, json!("55 mm"))]);
    let mut declared = example(TWO_MODULES);
    declared["components"]["rail"]["load_height_mm"] = json!(50.0);
    let declared = lay_out(&declared);
    assert!(of(&declared, "rail.load-heights").is_empty());
    // What is assumed of two modules is no figure of one: the jobs are not the same.
    assert_ne!(both["job_key"], declared["job_key"]);
}

#[test]
fn a_field_of_its_own_module_is_filled_with_it() {
    let mut job = example(TWO_MODULES);
    let field = job["array"]["fields"][1].as_object_mut().expect("a field");
    for given in ["origin_mm", "rows", "columns"] {
        field.remove(given);
    }
    let region = json!([[5300, 0], [9600, 0], [9600, 2500], [5300, 2500]]);
    field.insert("fill".to_owned(), json!({"region_mm": region}));
    let module = field["module"].clone();
    let filled = lay_out(&job);
    let [of_b] = list(&filled["fields"]) else { panic!("one field was filled") };
    assert_eq!(of_b["field"]["module"], module);
    let sizes: Vec<Value> =
        of_field(&filled, "modules", "B").iter().map(|one| one["size_mm"].clone()).collect();
    assert_eq!(sizes, vec![json!([670.0, 1480.0]); sizes.len()]);
    assert!(sizes.len() >= 4, "{}", sizes.len());
    // In its place the field it became is the same job.
    let mut explicit = job.clone();
    explicit["array"]["fields"][1] = of_b["field"].clone();
    let explicit = lay_out(&explicit);
    for of in ["job_key", "rails", "hooks", "modules", "parts", "verdict"] {
        assert_eq!(filled[of], explicit[of], "{of}");
    }
    // One that is named stays named.
    job["array"]["fields"][1]["module"] = json!("demo-module-1762x1134");
    let named = lay_out(&job);
    assert_eq!(named["fields"][0]["field"]["module"], "demo-module-1762x1134");
}

#[test]
fn papers_tell_the_kinds_apart() {
    let bytes = |job: &Value| job.to_string().into_bytes();
    let json = ("content-type", "application/json");
    let drawn = |job: &Value| {
        let headers = [json, ("accept", "image/svg+xml")];
        let reply = send("POST", "/v1/layouts", &headers, &bytes(job));
        assert_eq!(reply.status, 200, "{}", reply.text());
        reply.text().to_owned()
    };
    let both = drawn(&example(TWO_MODULES));
    for kind in ["1762 × 1134: A", "1480 × 670: B"] {
        assert!(both.contains(kind), "{kind}");
    }
    for one in [drawn(&alone(0)), drawn(&example(COTTAGE))] {
        assert!(!one.contains("1762 × 1134"));
    }
    let headers = [json, ("accept", "text/html")];
    let sheet = send("POST", "/v1/layouts", &headers, &bytes(&example(TWO_MODULES)));
    assert_eq!(sheet.status, 200, "{}", sheet.text());
    for told in ["1762 × 1134 × 30 mm", "1480 × 670 × 35 mm", "35 mm (clamp-30)", "field/A/fixings"]
    {
        assert!(sheet.text().contains(told), "{told}");
    }
}
