//! Short requests: what is usual is left out or named, told, and the same as if it were said.

use serde_json::{Value, json};

use crate::server::{answer, example, get, list, post, send};

const SHORT: &str = include_str!("../data/layout-short.json");

/// Values of a request that are no objects or lists of them.
fn values(of: &Value) -> usize {
    match of {
        Value::Object(members) => members.values().map(values).sum(),
        Value::Array(items) => items.iter().map(values).sum(),
        _ => 1,
    }
}

fn assumed<'a>(answer: &'a Value, code: &str) -> &'a Value {
    let all = list(&answer["assumptions"]);
    all.iter().find(|one| one["code"] == code).unwrap_or_else(|| panic!("{code} is not assumed"))
}

/// The short request with everything in full that it names or leaves out.
fn in_full() -> Value {
    let usual = get("/v1/usual").json();
    let find = |list_of: &str, id: &Value, member: &str| {
        let entry = list(&usual[list_of]).iter().find(|entry| entry["id"] == *id);
        entry.unwrap_or_else(|| panic!("no {id} in {list_of}"))[member].clone()
    };
    let mut job = example(SHORT);
    job["roof"]["covering"] = find("coverings", &job["roof"]["covering"], "covering");
    // At 42° the headlap is 70 mm.
    job["roof"]["covering"]["gauge_mm"] = json!((380.0 - 70.0) / 2.0);
    job["roof"]["layers"] = find("layers", &job["roof"]["layers"], "layers");
    job["array"]["module"] = find("modules", &job["array"]["module"], "module");
    // 4300 mm over the cosine of 42°, worked by hand: 5786.24.
    job["roof"]["outline_mm"] = json!([[0, 0], [12400, 0], [12400, 5786], [0, 5786]]);
    job["roof"]["edges"] = json!(["eaves", "verge", "ridge", "verge"]);
    job["roof"]["rafters"]["strength_class"] = json!("C16");
    job["array"]["rail_direction"] = json!("along_eaves");
    // 8 columns of 1134 and 2 rows of 1762 with gaps of 20, in the middle.
    job["array"]["fields"][0] = json!({
        "id": "A", "rows": 2, "columns": 8, "orientation": "portrait",
        "column_gap_mm": 20, "row_gap_mm": 20, "origin_mm": [1594, 1121],
    });
    job
}

#[test]
fn thirty_values_are_enough_for_a_layout_that_lacks_data_alone() {
    let job = example(SHORT);
    assert!(values(&job) <= 30, "{} values", values(&job));
    let short = answer("/v1/layouts", &job);
    for (scope, verdict) in short["verdicts"].as_object().expect("verdicts") {
        let holds = verdict.as_str().is_some_and(|verdict| verdict.starts_with("holds"));
        assert_eq!(holds, scope != "data", "{scope}: {verdict}");
    }
    assert_eq!(short["verdict"], "incomplete");
    for (code, pointer, value) in [
        ("covering.usual", "/roof/covering", json!("plain-tile-380x180-double-lap")),
        ("covering.usual-gauge", "/roof/covering", json!(155.0)),
        ("layers.usual", "/roof/layers", json!("counter-batten-30-on-rafters")),
        ("roof.rectangular-slope", "/roof/outline_mm", json!(5786.0)),
        ("rafters.strength-class", "/roof/rafters/strength_class", json!("C16")),
        ("array.rails-along-eaves", "/array/rail_direction", json!("along_eaves")),
        ("field.name", "/array/fields/0/id", json!("A")),
        ("field.portrait", "/array/fields/0/orientation", json!("portrait")),
        ("field.column-gap", "/array/fields/0/column_gap_mm", json!(20.0)),
        ("field.row-gap", "/array/fields/0/row_gap_mm", json!(20.0)),
        ("field.origin-along-eaves", "/array/fields/0/origin_mm/0", json!(1594.0)),
        ("field.origin-up-slope", "/array/fields/0/origin_mm/1", json!(1121.0)),
    ] {
        let told = assumed(&short, code);
        assert_eq!((&told["pointer"], &told["value"]), (&json!(pointer), &value), "{code}");
    }
    // What decides and nobody measured is to be measured.
    let missing: Vec<&str> = list(&short["missing"])
        .iter()
        .filter(|missing| missing["act"] == "measure")
        .map(|missing| missing["pointer"].as_str().expect("a pointer"))
        .collect();
    let expected =
        ["/roof/covering", "/roof/layers", "/roof/outline_mm", "/roof/rafters/strength_class"];
    assert_eq!(missing, expected);
}

#[test]
fn what_is_named_or_left_out_is_as_if_it_were_said() {
    let (short, full) = (answer("/v1/layouts", &example(SHORT)), answer("/v1/layouts", &in_full()));
    for member in ["utilisation", "hooks", "rails", "modules", "rafters", "actions", "parts"] {
        assert_eq!(short[member], full[member], "{member}");
    }
    assert_eq!(short["job_key"], full["job_key"], "it is the same job");
    assert_ne!(short["input_digest"], full["input_digest"]);
}

/// On paper what is missing is named in words, the module named by id among it.
#[test]
fn the_sheet_of_a_short_job_names_what_is_invented() {
    for (language, named) in [
        ("en", "(module, hook, screw, rail, clamp, packers)"),
        ("de", "(Modul, Dachhaken, Schraube, Schiene, Klemme, Unterlegplatten)"),
    ] {
        let headers = [("content-type", "application/json"), ("accept", "text/html")];
        let path = format!("/v1/layouts?lang={language}");
        let sheet = send("POST", &path, &headers, SHORT.as_bytes());
        assert!(sheet.text().contains(named), "{language}");
    }
}

/// A recheck takes the short request with the record of its layout.
#[test]
fn a_short_job_is_rechecked_by_its_record() {
    let layout = answer("/v1/layouts", &example(SHORT));
    let mut built = example(SHORT);
    built["built"] = layout["record"]["built"].clone();
    built["recorded"] = layout["record"]["recorded"].clone();
    let recheck = answer("/v1/rechecks", &built);
    assert_eq!(recheck["utilisation"], layout["utilisation"]);
    assert_eq!(recheck["difference"]["input_changed"], false);
}

#[test]
fn what_nothing_usual_stands_for_is_a_fault_where_it_belongs() {
    let faults = |edit: fn(&mut Value)| -> Vec<(String, String)> {
        let mut job = example(SHORT);
        edit(&mut job);
        let reply = post("/v1/layouts", job.to_string().as_bytes());
        assert_eq!(reply.status, 422, "{}", reply.text());
        let problem = reply.json();
        let text = |of: &Value| of.as_str().expect("a text").to_owned();
        let errors = list(&problem["errors"]).iter();
        errors.map(|fault| (text(&fault["pointer"]), text(&fault["code"]))).collect()
    };
    let fault = |pointer: &str, code: &str| (pointer.to_owned(), code.to_owned());
    let unknown = |job: &mut Value| {
        job["roof"]["covering"] = json!("thatch");
        job["roof"]["layers"] = json!("straw");
        job["array"]["module"] = json!("module");
    };
    let expected = ["/roof/layers", "/roof/covering", "/array/module"];
    assert_eq!(faults(unknown), expected.map(|at| fault(at, "unknown_component")));
    let edges =
        |job: &mut Value| job["roof"]["edges"] = json!(["eaves", "verge", "ridge", "verge"]);
    assert_eq!(
        faults(edges),
        [fault("/roof/outline_mm", "missing"), fault("/array/fields/0/origin_mm", "missing")]
    );
    let several = |job: &mut Value| {
        job["array"]["fields"] = json!([{"rows": 1, "columns": 2}, {"rows": 1, "columns": 2}]);
    };
    let expected = ["/array/fields/0/origin_mm", "/array/fields/1/origin_mm"];
    assert_eq!(faults(several), expected.map(|at| fault(at, "missing")));
    let form = |job: &mut Value| job["roof"]["form"] = json!("hipped");
    let expected = ["/roof/outline_mm", "/roof/edges", "/array/fields/0/origin_mm"];
    assert_eq!(faults(form), expected.map(|at| fault(at, "missing")));
    // A fault of something that is only named is one of the name.
    let other_hook = |job: &mut Value| {
        job["components"]["hook"] = json!("demo-trough-hook");
        job["roof"]["covering"] = json!("interlocking-tile-10-per-m2");
        job["array"]["fields"][0]["rows"] = json!(9);
    };
    assert!(faults(other_hook).iter().all(|(at, _)| !at.starts_with("/roof/covering/")));
}
