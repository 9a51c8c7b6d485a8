//! Fields that are filled: on slopes that are no rectangles, with fewer modules than fit, and what cannot be
//! filled.

use serde_json::{Value, json};

use crate::server::{BARN, answer, example, list, number, post, warnings};

/// The barn with another outline and nothing on it, its field to be filled.
fn to_fill(outline: &Value, edges: &Value, fill: &Value) -> Value {
    let mut job = example(BARN);
    job["roof"]["outline_mm"] = outline.clone();
    job["roof"]["edges"] = edges.clone();
    job["roof"]["obstacles"] = json!([]);
    let field = &job["array"]["fields"][0];
    job["array"]["fields"] = json!([{
        "id": field["id"], "orientation": field["orientation"], "column_gap_mm": field["column_gap_mm"],
        "row_gap_mm": field["row_gap_mm"], "fill": fill,
    }]);
    job
}

/// A hip end, all but a step at its top: 12.8 m along the eaves, 5.786 m up.
fn hip_end(fill: &Value) -> Value {
    let outline = json!([[0, 0], [12_800, 0], [6450, 5786], [6350, 5786]]);
    to_fill(&outline, &json!(["eaves", "verge", "ridge", "verge"]), fill)
}

/// A slope that ends at a valley on its right, with a chimney.
fn trapezoid(fill: &Value) -> Value {
    let outline = json!([[0, 0], [9000, 0], [12_400, 5786], [0, 5786]]);
    let mut job = to_fill(&outline, &json!(["eaves", "verge", "ridge", "verge"]), fill);
    job["roof"]["obstacles"] = json!([{
        "kind": "chimney", "outline_mm": [[4000, 2400], [4500, 2400], [4500, 3000], [4000, 3000]],
        "clearance_mm": 200, "cuts_no_rafter": true,
    }]);
    job
}

/// The same job with the field that the answer has, posted as it is.
fn in_full(job: &Value, answer: &Value) -> Value {
    let mut in_full = job.clone();
    for filled in list(&answer["fields"]) {
        let at = format!("/array/fields/{}", filled["place"]);
        *in_full.pointer_mut(&at).expect("a field") = filled["field"].clone();
    }
    in_full
}

/// Nothing of what the answer says of places differs.
fn assert_same_layout(job: &Value, answer: &Value) {
    let again = crate::server::answer("/v1/layouts", &in_full(job, answer));
    for part in ["verdict", "modules", "rails", "hooks", "parts", "warnings", "job_key", "record"] {
        assert_eq!(again[part], answer[part], "{part}");
    }
    assert_eq!(again["fields"], Value::Null);
}

#[test]
fn a_hip_end_is_filled_and_holds_more_in_shifted_rows() {
    let mut counts = Vec::new();
    for rows in ["aligned", "shifted"] {
        let job = hip_end(&json!({"rows": rows}));
        let answer = answer("/v1/layouts", &job);
        let filled = &answer["fields"][0];
        assert_eq!(filled["modules"].as_u64(), Some(list(&answer["modules"]).len() as u64));
        for code in ["array.near-edge", "rail.no-course", "array.inside-obstacle-clearance"] {
            assert!(warnings(&answer, code).is_empty(), "{code}");
        }
        assert_same_layout(&job, &answer);
        counts.push(filled["modules"].as_u64().expect("a count"));
        assert_eq!(filled["field"].get("row_shifts_mm").is_some(), rows == "shifted");
    }
    // Between sides that keep 300 mm lie 12800 − 2 · 445.4 − 2.195 y at y, worked by hand. A row from 300 mm has
    // 7383 at its upper edge, thus 6 modules, 6904 long; the next has 3471, thus 3 with 3442. In columns, three
    // over six lie half a pitch, 577, to one side, and together they have no more than 254 to spare.
    assert_eq!(counts, [8, 9]);
}

#[test]
fn a_filled_trapezoid_keeps_clear_of_its_chimney_and_is_rechecked_as_it_is() {
    let job = trapezoid(&json!({"rows": "shifted"}));
    let answer = answer("/v1/layouts", &job);
    assert!(list(&answer["modules"]).len() > 12, "{}", answer["fields"]);
    for warning in list(&answer["warnings"]) {
        let code = warning["code"].as_str().expect("a code");
        assert!(!code.starts_with("array."), "{warning}");
    }
    assert_same_layout(&job, &answer);
    let mut built = in_full(&job, &answer);
    built["built"] = answer["record"]["built"].clone();
    built["recorded"] = answer["record"]["recorded"].clone();
    let again = crate::server::answer("/v1/rechecks", &built);
    assert_eq!(again["job_key"], answer["job_key"]);
    assert_eq!(again["utilisation"]["max"], answer["utilisation"]["max"]);
    assert_eq!(list(&again["modules"]).len(), list(&answer["modules"]).len());
}

#[test]
fn what_is_left_open_of_a_fill_is_assumed_and_listed() {
    let answer = answer("/v1/layouts", &hip_end(&json!({})));
    let assumed = |code: &str| {
        let all = list(&answer["assumptions"]).iter();
        all.filter(|one| one["code"] == code).map(|one| one["pointer"].clone()).collect::<Vec<_>>()
    };
    assert_eq!(assumed("field.fill-region"), [json!("/array/fields/0/fill/region_mm")]);
    assert_eq!(assumed("field.fill-rows"), [json!("/array/fields/0/fill/rows")]);
}

#[test]
fn a_few_modules_lie_in_one_block_in_the_middle() {
    let outline = json!([[0, 0], [12_400, 0], [12_400, 5786], [0, 5786]]);
    let edges = json!(["eaves", "verge", "ridge", "verge"]);
    let job = to_fill(&outline, &edges, &json!({"most_modules": 12}));
    let answer = answer("/v1/layouts", &job);
    let field = &answer["fields"][0]["field"];
    assert_eq!((&field["rows"], &field["columns"]), (&json!(2), &json!(6)));
    assert_eq!(list(&answer["rails"]).len(), 4);
    // Six modules and five gaps: 6 · 1134 + 5 · 20 = 6904 in 12400.
    assert_eq!(field["origin_mm"][0], 2748.0);
    assert_same_layout(&job, &answer);
}

#[test]
fn two_fields_fill_what_the_one_before_leaves() {
    let mut job = trapezoid(&json!({"most_modules": 6}));
    let mut second = job["array"]["fields"][0].clone();
    second["id"] = json!("B");
    second["fill"] = json!({});
    job["array"]["fields"] = json!([job["array"]["fields"][0], second]);
    let answer = answer("/v1/layouts", &job);
    let fields = list(&answer["fields"]);
    assert_eq!(fields.len(), 2);
    assert_eq!(fields[0]["modules"], 6);
    assert!(fields[1]["modules"].as_u64() >= Some(4), "{}", fields[1]);
    assert_same_layout(&job, &answer);
}

/// The faults of a refused request: pointer and code.
fn faults(path: &str, job: &Value) -> Vec<(String, String)> {
    let reply = post(path, job.to_string().as_bytes());
    assert_eq!(reply.status, 422, "{}", reply.text());
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let problem = reply.problem();
    let faults = list(&problem["errors"]).iter();
    faults.map(|fault| (text(&fault["pointer"]), text(&fault["code"]))).collect()
}

fn told(faults: &[(&str, &str)]) -> Vec<(String, String)> {
    faults.iter().map(|(pointer, code)| ((*pointer).to_owned(), (*code).to_owned())).collect()
}

#[test]
fn where_nothing_fits_the_fill_is_at_fault() {
    let region = json!([[0, 0], [1300, 0], [1300, 5000], [0, 5000]]);
    let job = hip_end(&json!({"region_mm": region}));
    assert_eq!(faults("/v1/layouts", &job), told(&[("/array/fields/0/fill", "off_roof")]));
}

#[test]
fn a_field_is_filled_or_has_rows_and_columns() {
    let mut job = hip_end(&json!({}));
    let field = &mut job["array"]["fields"][0];
    field["origin_mm"] = json!([0, 0]);
    field["rows"] = json!(2);
    field["columns"] = json!(3);
    field["omitted"] = json!([[0, 0]]);
    field["row_shifts_mm"] = json!([0, 10]);
    let all = ["origin_mm", "rows", "columns", "omitted", "row_shifts_mm"];
    let all: Vec<(String, String)> = all
        .iter()
        .map(|name| (format!("/array/fields/0/{name}"), "choose_one".to_owned()))
        .collect();
    let mut found = faults("/v1/layouts", &job);
    found.sort();
    let mut all = all;
    all.sort();
    assert_eq!(found, all);
    let mut neither = hip_end(&json!({}));
    neither["array"]["fields"][0].as_object_mut().expect("a field").remove("fill");
    let missing = ["rows", "columns", "origin_mm"]
        .map(|name| (format!("/array/fields/0/{name}"), "missing".to_owned()));
    assert_eq!(faults("/v1/layouts", &neither), missing);
}

#[test]
fn a_region_that_is_none_and_rows_shifted_by_too_few_lengths_are_faults_at_once() {
    let mut job = hip_end(&json!({"region_mm": [[0, 0], [0, 5000], [5000, 0]]}));
    let mut second = example(BARN)["array"]["fields"][0].clone();
    second["id"] = json!("B");
    second["row_shifts_mm"] = json!([0, 10, 20]);
    let first = job["array"]["fields"][0].clone();
    job["array"]["fields"] = json!([first, second]);
    let found = faults("/v1/layouts", &job);
    for at in ["/array/fields/0/fill/region_mm", "/array/fields/1/row_shifts_mm"] {
        assert!(found.iter().any(|(pointer, _)| pointer == at), "{at}: {found:?}");
    }
}

#[test]
fn what_stands_is_not_filled() {
    let mut recheck = example(include_str!("../data/recheck-barn.json"));
    let field = recheck["array"]["fields"][0].as_object_mut().expect("a field");
    for given in ["origin_mm", "rows", "columns", "omitted"] {
        field.remove(given);
    }
    field.insert("fill".to_owned(), json!({}));
    let found = faults("/v1/rechecks", &recheck);
    assert!(found.contains(&("/array/fields/0/fill".to_owned(), "contradiction".to_owned())));
}

/// What is tried keeps the modules where they are, whatever a field would be filled with under a change: the
/// first edit says where that is.
#[test]
fn what_helps_a_filled_layout_helps_it_where_its_modules_lie() {
    let mut job = trapezoid(&json!({"most_modules": 6}));
    // Screws that are too short to hold.
    job["components"]["screw"]["length_mm"] = json!(80);
    let before = answer("/v1/layouts", &job);
    assert_eq!(before["verdict"], "fails");
    let helping = list(&before["remedies"]["helping"]);
    assert!(!helping.is_empty());
    let remedy = &helping[0];
    let mut changed = job.clone();
    for (i, edit) in list(&remedy["edits"]).iter().enumerate() {
        let path = edit["path"].as_str().expect("a path");
        assert_eq!(path == "/array/fields", i == 0, "{edit}");
        let (parent, member) = path.rsplit_once('/').expect("a pointer");
        changed.pointer_mut(parent).expect("the parent")[member] = edit["value"].clone();
    }
    let after = answer("/v1/layouts", &changed);
    assert_eq!(after["verdict"], remedy["verdict"]);
    assert_eq!(after["optimality"]["hooks"], remedy["hooks"][1]);
    let places = |answer: &Value| {
        let of = |m: &Value| [m["id"].clone(), m["origin_mm"].clone()];
        list(&answer["modules"]).iter().map(of).collect::<Vec<_>>()
    };
    assert!(!places(&before).is_empty() && places(&after) == places(&before));
}

/// As far out as coordinates go, with the smallest modules and the widest gaps there are: an answer or
/// faults, in bounded time.
#[test]
fn what_is_as_large_as_can_be_said_is_refused_or_filled() {
    let corners =
        [[-200_000, -200_000], [200_000, -200_000], [200_000, 200_000], [-200_000, 200_000]];
    let edges = json!(["eaves", "verge", "ridge", "verge"]);
    let mut job = to_fill(&json!(corners), &edges, &json!({"rows": "shifted"}));
    job["array"]["module"]["length_mm"] = json!(400);
    job["array"]["module"]["width_mm"] = json!(300);
    job["array"]["module"]["clamp_zone_mm"] = json!([50, 150]);
    job["array"]["fields"][0]["column_gap_mm"] = json!(0);
    let ring = |i: u32| {
        let angle = f64::from(i) * std::f64::consts::TAU / 100.0;
        json!([199_000.0 * angle.cos(), 199_000.0 * angle.sin()])
    };
    let ring: Vec<Value> = (0..100).map(ring).collect();
    job["roof"]["obstacles"] = (0..8)
        .map(|_| json!({"kind": "other", "outline_mm": ring, "cuts_no_rafter": true}))
        .collect();
    let began = std::time::Instant::now();
    assert_eq!(faults("/v1/layouts", &job), told(&[("/array/fields/0/fill", "out_of_range")]));
    println!("refused in {:?}", began.elapsed());
    job["roof"]["obstacles"] = json!([]);
    job["array"]["fields"][0]["row_gap_mm"] = json!(5000);
    job["array"]["fields"][0]["fill"] = json!({"region_mm": corners, "most_modules": 3});
    let began = std::time::Instant::now();
    assert_eq!(answer("/v1/layouts", &job)["fields"][0]["modules"], 3);
    println!("filled in {:?}", began.elapsed());
}

/// Rows of a field may lie shifted without being filled: the drawing and the parts follow.
#[test]
fn rows_are_shifted_as_they_are_said_to_be() {
    let mut job = example(BARN);
    job["roof"]["obstacles"] = json!([]);
    let straight = answer("/v1/layouts", &job);
    job["array"]["fields"][0]["columns"] = json!(5);
    job["array"]["fields"][0]["row_shifts_mm"] = json!([0, 577]);
    let shifted = answer("/v1/layouts", &job);
    let left = |answer: &Value, row: u64| {
        let of_row = format!("A/{row}/");
        let is_of_row = |m: &&Value| m["id"].as_str().is_some_and(|id| id.starts_with(&of_row));
        let modules = list(&answer["modules"]).iter().filter(is_of_row);
        let left = modules.map(|m| number(&m["origin_mm"][0])).reduce(f64::min);
        left.expect("a module in the row")
    };
    let by = |row: u64| left(&shifted, row) - left(&straight, row);
    assert!(by(0).abs() < 1e-9 && (by(1) - 577.0).abs() < 1e-9);
    let starts: Vec<f64> =
        list(&shifted["rails"]).iter().map(|rail| number(&rail["start_mm"])).collect();
    assert!((starts[2] - starts[0] - 577.0).abs() < 1e-9, "{starts:?}");
}
