//! Tables of answers, read back by a general reader (the crate `csv`, which follows RFC 4180): they say what
//! the JSON says.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use crate::server::{
    ACTIONS, BARN, BUILT, COTTAGE, GABLE, Reply, STATEMENT, SURVEY, TERRACE_BUILT, TWO_MODULES,
    answer, example, list, number, send,
};

const COVERED: &str = include_str!("../data/layout-covered.json");
const HALL: &str = include_str!("../data/layout-hall.json");
const LEAN_TO: &str = include_str!("../data/layout-lean-to.json");
const STABLE: &str = include_str!("../data/layout-stable.json");
/// Rails up the slope, under modules in landscape.
const TERRACE: &str = include_str!("../data/layout-terrace.json");
const FARMHOUSE: &str = include_str!("../data/building-farmhouse.json");

const LAYOUTS: &str = "/v1/layouts";
const RECHECKS: &str = "/v1/rechecks";
const SURVEYS: &str = "/v1/surveys";
const BUILDINGS: &str = "/v1/buildings";

const JOBS: [(&str, &str); 13] = [
    (LAYOUTS, BARN),
    (LAYOUTS, COTTAGE),
    (LAYOUTS, COVERED),
    (LAYOUTS, HALL),
    (LAYOUTS, LEAN_TO),
    (LAYOUTS, STABLE),
    (LAYOUTS, TERRACE),
    (LAYOUTS, TWO_MODULES),
    (BUILDINGS, GABLE),
    (BUILDINGS, FARMHOUSE),
    (RECHECKS, BUILT),
    (RECHECKS, TERRACE_BUILT),
    (SURVEYS, SURVEY),
];

fn asked(path: &str, query: &str, job: &str) -> Reply {
    let headers = [("content-type", "application/json"), ("accept", "text/csv")];
    send("POST", &format!("{path}{query}"), &headers, job.as_bytes())
}

/// One line, by the names of the columns.
type Line = BTreeMap<String, String>;

fn read(reply: &Reply) -> Vec<Line> {
    assert_eq!(reply.status, 200, "{}", reply.text());
    assert_eq!(reply.header("content-type"), "text/csv; charset=utf-8; header=present");
    // RFC 4180, 2: every line ends with CR LF.
    assert_eq!(reply.text().matches('\n').count(), reply.text().matches("\r\n").count());
    assert!(reply.text().ends_with("\r\n"));
    let mut reader = csv::Reader::from_reader(reply.text().as_bytes());
    reader.deserialize().map(|line| line.expect("lines of one length")).collect()
}

fn table(path: &str, name: &str, job: &str) -> Vec<Line> {
    read(&asked(path, &format!("?table={name}"), job))
}

/// The same number, or nothing in both.
fn same(cell: &str, value: &Value) {
    if value.is_null() {
        assert_eq!(cell, "");
    } else {
        let read: f64 = cell.parse().unwrap_or_else(|_| panic!("{cell:?} is no number: {value}"));
        assert!(read.to_bits() == number(value).to_bits(), "{cell} is not {value}");
    }
}

/// What the JSON says of each slope, with its name; of other jobs of the one there is.
fn slopes(answer: &Value) -> Vec<(String, &Value)> {
    match answer.get("slopes") {
        Some(slopes) => list(slopes)
            .iter()
            .map(|slope| (slope["id"].as_str().expect("a name").to_owned(), slope))
            .collect(),
        None => vec![(String::new(), answer)],
    }
}

#[test]
fn an_order_says_what_the_answer_does() {
    let jobs = JOBS.into_iter().filter(|(path, _)| [LAYOUTS, BUILDINGS].contains(path));
    let (mut modules_with_measures, mut of_phases) = (0, 0);
    for (path, job) in jobs {
        let answer = answer(path, &example(job));
        // Where rafters are not measured, the order that suffices wherever they stand.
        let phases = answer.get("phases").map(|phases| list(&phases["order"]));
        of_phases += usize::from(phases.is_some());
        let lines = phases.unwrap_or_else(|| list(&answer["parts"]["lines"]));
        let read = table(path, "order", job);
        assert_eq!(read.len(), lines.len());
        for (cells, line) in read.iter().zip(lines) {
            assert_eq!(cells["kind"], line["kind"].as_str().expect("a kind"));
            assert_eq!(cells["part"], line["part"].as_str().unwrap_or_default());
            assert_eq!(cells["why"], line["why"].as_str().expect("a reason"));
            assert_eq!(cells["verdict"], answer["verdict"].as_str().expect("a verdict"));
            for name in ["size_mm", "needed", "spare", "ordered", "pack_size"] {
                same(&cells[name], &line[name]);
            }
            same(&cells["mass_of_needed_kg"], &line["mass_kg"]);
            let measures = ["module_length_mm", "module_width_mm", "module_frame_mm"];
            for (at, name) in measures.into_iter().enumerate() {
                same(&cells[name], &line["module_mm"][at]);
            }
            modules_with_measures += usize::from(line["module_mm"].is_array());
        }
    }
    assert!(modules_with_measures > 1 && of_phases > 0);
}

#[test]
fn a_setting_out_has_every_hook_where_the_answer_has_it() {
    for (path, job) in JOBS {
        let answer = answer(path, &example(job));
        let read = table(path, "setting_out", job);
        let mut lines = read.iter();
        for (slope, told) in slopes(&answer) {
            for hook in list(&told["hooks"]) {
                let cells = lines.next().expect("a line for every hook");
                assert_eq!(cells["slope"], slope);
                assert_eq!(cells["hook"], hook["id"].as_str().expect("a name"));
                assert_eq!(cells["rail"], hook["rail"].as_str().expect("a name"));
                assert_eq!(cells["kept"], hook["kept"].as_str().unwrap_or_default());
                assert_eq!(cells["verdict"], told["verdict"].as_str().expect("a verdict"));
                for name in [
                    "x_mm",
                    "y_mm",
                    "arm_x_mm",
                    "arm_shift_mm",
                    "from_left_edge_mm",
                    "side_joint_mm",
                    "from_right_edge_mm",
                    "clearance_mm",
                    "embedment_mm",
                ] {
                    same(&cells[name], &hook[name]);
                }
                same(&cells["tile_from_verge"], &hook["column_from_verge"]);
                same(&cells["tiles_off"], &hook["tiles"]["lift_count"]);
                for (name, from_0) in [("rafter_from_1", "rafter"), ("course_from_1", "course")] {
                    same(&cells[name], &json!(hook[from_0].as_i64().expect("an index") + 1));
                }
                same(&cells["tiles_replaced"], &json!(list(&hook["tiles"]["substitute"]).len()));
                let packers = cells["packers_mm"].split(" + ").filter(|packer| !packer.is_empty());
                let packers: Vec<f64> = packers.map(|mm| mm.parse().expect("a number")).collect();
                let told: Vec<f64> = list(&hook["packers_mm"]).iter().map(number).collect();
                assert_eq!(packers, told);
                let runs = cells["tiles_off_by_course"].split("; ").filter(|run| !run.is_empty());
                assert_eq!(runs.count(), list(&hook["tiles"]["lift"]).len());
            }
        }
        assert_eq!(lines.next(), None, "{path}");
        assert!(read.len() > 2);
    }
}

/// Counted both ways: every number of the answer has a line, and every line a number or the word that the
/// check did not run.
#[test]
fn utilisations_are_those_of_the_answer_and_what_did_not_run_says_so() {
    let mut did_not_run = 0;
    for (path, job) in JOBS {
        let answer = answer(path, &example(job));
        let read = table(path, "utilisations", job);
        let mut lines = read.iter();
        for (slope, told) in slopes(&answer) {
            let mut check = |kind: &str, element: &str, name: &str, value: &Value, by: &Value| {
                let cells = lines.next().expect("a line for every check");
                let says = ["slope", "kind", "element", "check"].map(|name| cells[name].as_str());
                assert_eq!(says, [&slope, kind, element, name]);
                same(&cells["utilisation"], value);
                assert_eq!(cells["verified"], if value.is_null() { "no" } else { "yes" });
                assert_eq!(cells["combination"], by.as_str().unwrap_or_default());
                assert_eq!(cells["verdict"], told["verdict"].as_str().expect("a verdict"));
                did_not_run += usize::from(value.is_null());
            };
            let id = |of: &Value| of["id"].as_str().expect("a name").to_owned();
            for hook in list(&told["hooks"]) {
                for name in ["hook", "bolt", "screws", "foot_bearing", "clearance"] {
                    let value = &hook["utilisation"][name];
                    check("hook", &id(hook), name, value, &hook["combination"]);
                }
            }
            for rail in list(&told["rails"]) {
                let by = &rail["utilisation_by_check"];
                let spliced =
                    list(&rail["segments"]).iter().any(|of| !list(&of["splices_mm"]).is_empty());
                let names = ["bending", "deflection", "splice"];
                for name in names.into_iter().take(if spliced { 3 } else { 2 }) {
                    check("rail", &id(rail), name, &by[name], &by["combination"]);
                }
                assert!(spliced || by["splice"].is_null(), "a splice nobody lists");
            }
            for rafter in list(&told["rafters"]) {
                let number = (rafter["rafter"].as_u64().expect("an index") + 1).to_string();
                for (kind, state) in [("rafter", "utilisation"), ("rafter_without_array", "before")]
                {
                    let of = &rafter[state];
                    for name in ["bending", "shear"] {
                        check(kind, &number, name, &of[name], &of["combination"]);
                    }
                }
            }
            for module in list(&told["modules"]) {
                for name in ["press", "lift", "clamp", "clamp_slip"] {
                    let value = &module["utilisation"][name];
                    check("module", &id(module), name, value, &Value::Null);
                }
            }
        }
        assert_eq!(lines.next(), None, "{path}");
    }
    assert!(did_not_run > 10, "only {did_not_run} checks did not run");
}

#[test]
fn a_table_is_a_file_with_a_name_and_the_same_bytes_each_time() {
    let digest = answer(LAYOUTS, &example(BARN))["input_digest"].as_str().expect("one").to_owned();
    let reply = asked(LAYOUTS, "?table=order", BARN);
    let name = format!("attachment; filename=\"mill-barn-south-order-{}.csv\"", &digest[..8]);
    assert_eq!(reply.header("content-disposition"), name);
    assert!(reply.header("vary").contains("accept"));
    assert_eq!(reply.text(), asked(LAYOUTS, "?table=order", BARN).text());
    // What no table is named for is the setting-out.
    let usual = asked(LAYOUTS, "", BARN);
    assert_eq!(usual.text(), asked(LAYOUTS, "?table=setting_out", BARN).text());
    assert!(usual.header("content-disposition").contains("-setting-out-"));
    // Numbers and columns are the same in every language; the reason of a count is a sentence.
    let german = asked(LAYOUTS, "?table=order&lang=de", BARN);
    let (german, english) = (read(&german), read(&reply));
    for (german, english) in german.iter().zip(&english) {
        assert!(german.keys().eq(english.keys()));
        let differs = german.iter().filter(|(name, cell)| english[*name] != **cell);
        assert!(differs.map(|(name, _)| name).all(|name| name == "why"));
    }
    assert!(german.iter().zip(&english).any(|(german, english)| german["why"] != english["why"]));
    // Other forms are looked at and have no name.
    let sheet = [("content-type", "application/json"), ("accept", "text/html")];
    let sheet = send("POST", LAYOUTS, &sheet, BARN.as_bytes());
    assert_eq!(sheet.header("content-disposition"), "");
}

/// Names a caller gives reach spreadsheets of people who never saw the request.
#[test]
fn no_name_of_the_caller_is_a_formula() {
    let formula = "=HYPERLINK(\"http://x\",\"y\")";
    let mut job = example(BARN);
    job["array"]["fields"][0]["id"] = json!("=1+1");
    job["components"]["screw"]["id"] = json!(formula);
    job["reference"] = json!("=cmd|' /C calc'!A0");
    let job = job.to_string();
    let order = asked(LAYOUTS, "?table=order", &job);
    assert!(order.header("content-disposition").contains("filename=\"cmd-C-calc-A0-order-"));
    let guarded = format!("'{formula}");
    let screws = read(&order);
    assert!(screws.iter().any(|line| line["part"] == guarded), "{}", order.text());
    let hooks = table(LAYOUTS, "setting_out", &job);
    assert!(hooks.iter().all(|line| line["hook"].starts_with("'=1+1")), "{:?}", hooks[0]);
    for name in ["order", "setting_out", "utilisations"] {
        for line in table(LAYOUTS, name, &job) {
            for (column, cell) in line {
                let computed = cell.starts_with(['=', '+', '@', '\t', '-']);
                assert!(!computed || cell.parse::<f64>().is_ok(), "{column}: {cell}");
            }
        }
    }
}

#[test]
fn a_table_that_is_not_there_is_a_problem() {
    for (path, query, job, code) in [
        (RECHECKS, "?table=order", BUILT, "unknown_value"),
        (SURVEYS, "?table=order", SURVEY, "unknown_value"),
        (LAYOUTS, "?table=hooks", BARN, "unknown_value"),
        (LAYOUTS, "?table=order&table=order", BARN, "contradiction"),
        (LAYOUTS, "?table=order&trace=full", BARN, "contradiction"),
        (LAYOUTS, "?view=slope", BARN, "contradiction"),
    ] {
        let problem = asked(path, query, job).problem();
        assert_eq!(problem["errors"][0]["code"], code, "{query}: {problem}");
        assert!(problem["errors"][0]["parameter"].is_string(), "{problem}");
    }
    for (path, job) in [("/v1/actions", ACTIONS), ("/v1/statements", STATEMENT)] {
        assert_eq!(asked(path, "", job).problem()["code"], "not_acceptable");
    }
    let wrong = asked(LAYOUTS, "?table=order", "{}");
    assert_eq!((wrong.status, wrong.header("content-type")), (422, "application/problem+json"));
    assert_eq!(wrong.header("content-disposition"), "");
}
