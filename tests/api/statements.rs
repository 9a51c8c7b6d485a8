//! A maker's statement: what is checked of it, its schema and form, and what it does for a job.

use std::collections::BTreeSet;

use hookspan::http::description::openapi_value;
use serde_json::{Value, json};

use crate::server::{answer, example, get, list, number, post, send, warnings};

const STATEMENT: &str = include_str!("../data/statement-trough-hook.json");
/// A job that lacks what a usual data sheet does not print.
const VILLA: &str = include_str!("../data/ordinary/075-villa.json");

const PARTS: [&str; 5] = ["hook", "screw", "rail", "clamp", "module"];

/// Where a job keeps a part.
fn place(part: &str) -> String {
    if part == "module" { "/array/module".to_owned() } else { format!("/components/{part}") }
}

/// The job with the parts of the statement, as they stand there.
fn with_stated_parts(statement: &Value) -> Value {
    let mut job = example(VILLA);
    for part in PARTS {
        *job.pointer_mut(&place(part)).expect("a part") = statement[part].clone();
    }
    job
}

/// Puts a value in a place; null takes the member away.
fn set(document: &mut Value, at: &str, value: Value) {
    if !value.is_null() && document.pointer(at).is_some() {
        *document.pointer_mut(at).expect("a place") = value;
        return;
    }
    let (parent, member) = at.rsplit_once('/').expect("a pointer");
    let of = document.pointer_mut(parent).and_then(Value::as_object_mut).expect("an object");
    if value.is_null() {
        of.remove(member);
    } else {
        of.insert(member.to_owned(), value);
    }
}

/// Takes a member away, and what is said of its evidence.
fn take_away(document: &mut Value, part: &str, figure: &str) {
    let at = format!("{part}{figure}");
    let (parent, member) = at.rsplit_once('/').expect("a pointer");
    let of = document.pointer_mut(parent).expect("a place");
    assert!(of.as_object_mut().expect("an object").remove(member).is_some(), "{at}");
    let evidence = document.pointer_mut(part).expect("a part")["evidence"].as_array_mut();
    evidence.expect("evidence").retain(|entry| {
        let rest = entry["figure"].as_str().expect("a pointer").strip_prefix(figure);
        !rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
    });
}

fn holds_plainly(answer: &Value) -> bool {
    ["fixing", "rail", "modules"].iter().all(|scope| answer["verdicts"][scope] == "holds")
}

/// How a job comes to need what a finding asks for, beside what is stated: by the code of the finding.
fn where_it_arises(check: &str) -> Vec<(&'static str, Value)> {
    match check {
        // A core of little more than half the thread.
        "screw.outside-rules" => vec![("/components/screw/core_diameter_mm", json!(4.5))],
        "screw.too-near-rafter-edge" => vec![("/roof/rafters/width_mm", json!(60.0))],
        // Five diameters apart.
        "screw.too-near-another" => vec![(
            "/components/hook/foot/screws_mm",
            json!([[0.0, 20.0], [0.0, 60.0], [0.0, 130.0]]),
        )],
        // The arms have to leave the axis for the troughs.
        "screw.edge-under-sideways-load" => vec![
            ("/roof/rafters/first_mm", json!(105.0)),
            ("/roof/rafters/width_mm", json!(68.0)),
            ("/components/hook/foot/lateral_range_mm", json!(40.0)),
        ],
        "screw.rafter-too-thin" => vec![
            ("/roof/rafters/depth_mm", json!(94.0)),
            ("/components/screw/length_mm", json!(90.0)),
            ("/components/screw/thread_length_mm", json!(70.0)),
        ],
        // Nothing says what the arm is made of.
        "clearance.stiffness-unknown" => vec![("/components/hook/arm/grade", Value::Null)],
        // Rails up the slope of bars that are shorter than they.
        "rail.splice-force-unknown" => vec![
            ("/array/rail_direction", json!("up_slope")),
            ("/components/rail/stock_lengths_mm", json!([2600.0])),
            ("/array/fields/0/orientation", json!("landscape")),
            ("/array/fields/0/rows", json!(3)),
            ("/array/fields/0/columns", json!(1)),
            ("/array/fields/0/origin_mm", json!([1025.0, 703.0])),
        ],
        // One hook holds rails that run up the slope.
        "rail.hold-of-one-hook-unknown" => vec![
            ("/array/rail_direction", json!("up_slope")),
            ("/array/rails_held_by", json!("lowest_hook")),
            ("/array/fields/0/orientation", json!("landscape")),
            ("/array/fields/0/rows", json!(1)),
            ("/array/fields/0/columns", json!(1)),
            ("/array/fields/0/origin_mm", json!([1025.0, 703.0])),
        ],
        "rail.crossing-unknown" => vec![("/array/rail_direction", json!("crossing"))],
        "clamp.short-side-zone-unknown" => vec![
            ("/array/fields/0/orientation", json!("landscape")),
            ("/array/fields/0/columns", json!(5)),
            ("/array/fields/0/origin_mm", json!([1200.0, 651.0])),
        ],
        _ => Vec::new(),
    }
}

#[test]
fn stated_parts_make_an_ordinary_job_plainly_hold_and_each_figure_is_needed_for_it() {
    let statement = example(STATEMENT);
    let lacking = answer("/v1/layouts", &example(VILLA));
    assert!(!holds_plainly(&lacking), "the job lacks nothing to begin with");
    let job = with_stated_parts(&statement);
    let stated = answer("/v1/layouts", &job);
    assert!(holds_plainly(&stated), "{} {}", stated["verdicts"], stated["warnings"]);

    let asked = answer("/v1/statements", &statement);
    let mut seen = BTreeSet::new();
    for needed in list(&asked["needed"]) {
        let check = needed["check"].as_str().expect("a code");
        assert_eq!(needed["stated"], true, "{needed}");
        let mut job = job.clone();
        for (at, value) in where_it_arises(check) {
            set(&mut job, at, value);
        }
        // How a rail up the slope is held along it somebody has to answer for, whatever the makers state.
        let holds_plainly = |answer: &Value| match check {
            "rail.splice-force-unknown" | "rail.crossing-unknown" => {
                answer["verdicts"]["rail"] == "holds"
            }
            _ => holds_plainly(answer),
        };
        let before = answer("/v1/layouts", &job);
        assert!(holds_plainly(&before), "{check}: {} {}", before["verdicts"], before["warnings"]);
        let part = place(needed["part"].as_str().expect("a part"));
        let figure = list(&needed["figures"])
            .iter()
            .filter_map(Value::as_str)
            .find(|figure| job.pointer(&format!("{part}{figure}")).is_some())
            .expect("a figure that is stated");
        take_away(&mut job, &part, figure);
        let reply = post("/v1/layouts", job.to_string().as_bytes());
        // Without the basis of its resistances there is no hook.
        if reply.status == 422 {
            assert_eq!(figure, "/resistance/basis", "{}", reply.text());
        } else {
            let without = reply.json();
            assert!(!holds_plainly(&without), "{check}: it holds without {figure}");
            assert!(!warnings(&without, check).is_empty(), "{check}: {}", without["warnings"]);
        }
        seen.insert(check);
    }
    assert!(seen.len() > 12, "{seen:?}");
}

#[test]
fn what_is_needed_is_what_the_findings_ask_the_makers_for() {
    let asked = answer("/v1/statements", &example(STATEMENT));
    let needed: BTreeSet<_> =
        list(&asked["needed"]).iter().filter_map(|needed| needed["check"].as_str()).collect();
    let catalogue = get("/v1/warnings").json();
    let asks: BTreeSet<_> = list(&catalogue["warnings"])
        .iter()
        .filter(|kind| list(&kind["acts"]).iter().any(|act| act == "ask_maker"))
        .filter_map(|kind| kind["code"].as_str())
        // No figure of a part settles that it is invented.
        .filter(|code| *code != "parts.invented")
        .collect();
    // And one warning: the stiffness of the arm alone.
    let more: Vec<_> = needed.difference(&asks).copied().collect();
    assert_eq!(more, ["hook.stiffness-of-its-bar"]);
    assert!(asks.is_subset(&needed), "{asks:?} {needed:?}");
}

#[test]
fn a_basis_is_stated_where_it_is_what_the_finding_asks_for() {
    let stated = |basis: &str| {
        let mut statement = example(STATEMENT);
        statement["hook"]["resistance"]["basis"] = json!(basis);
        statement["hook"].as_object_mut().expect("a hook").remove("evidence");
        let asked = answer("/v1/statements", &statement);
        ["hook.resistance-basis-unknown", "hook.stronger-than-its-bar"].map(|check| {
            let mut needed = list(&asked["needed"]).iter();
            needed.find(|needed| needed["check"] == check).expect("it is needed")["stated"] == true
        })
    };
    assert_eq!(stated("approval"), [true, true]);
    assert_eq!(stated("calculation"), [true, false]);
    assert_eq!(stated("unknown"), [false, false]);
}

#[test]
fn every_figure_of_the_statement_says_what_it_rests_on() {
    let statement = example(STATEMENT);
    let asked = answer("/v1/statements", &statement);
    assert_eq!(asked["without_evidence"], json!([]));
    let lift = list(&asked["evidence"])
        .iter()
        .find(|e| e["part"] == "hook" && e["figure"] == "/resistance/slope_kn")
        .expect("its evidence");
    // 2.06 (1 - 1.80·0.06), V known.
    let tested = &lift["tested"];
    assert_eq!((&tested["tests"], &tested["fractile_factor"]), (&json!(5), &json!(1.8)));
    assert!((number(&tested["characteristic"]) - 2.06 * (1.0 - 1.8 * 0.06)).abs() < 1e-6);
    // A job says the same of the same part.
    let laid = answer("/v1/layouts", &with_stated_parts(&statement));
    assert!(list(&laid["evidence"]).contains(lift));
    // What is not said is listed.
    let mut silent = statement.clone();
    silent["clamp"].as_object_mut().expect("a clamp").remove("evidence");
    let asked = answer("/v1/statements", &silent);
    assert_eq!(list(&asked["without_evidence"]).len(), 5);
}

#[test]
fn evidence_that_does_not_bear_its_figure_is_refused() {
    let faults = |edit: &dyn Fn(&mut Value)| {
        let mut statement = example(STATEMENT);
        edit(&mut statement);
        let reply = post("/v1/statements", statement.to_string().as_bytes());
        let problem = reply.problem();
        let pairs = list(&problem["errors"]).iter().map(|fault| {
            let part = |name: &str| fault[name].as_str().unwrap_or_default().to_owned();
            (part("pointer"), part("code"))
        });
        pairs.collect::<Vec<_>>()
    };
    let is = |found: &[(String, String)], pointer: &str, code: &str| {
        assert_eq!(found, [(pointer.to_owned(), code.to_owned())]);
    };
    // The figure is more than the tests give.
    let found = faults(&|s| s["hook"]["resistance"]["press_kn"] = json!(2.9));
    is(&found, "/hook/evidence/0/series", "contradiction");
    // Two tests of unknown scatter say nothing.
    let found = faults(&|s| s["hook"]["evidence"][0]["series"]["values"] = json!([3.0, 3.2]));
    is(&found, "/hook/evidence/0/series/values", "not_covered");
    // An approval without its number.
    let found = faults(&|s| {
        s["screw"]["evidence"][0].as_object_mut().expect("an entry").remove("document");
    });
    is(&found, "/screw/evidence/0/document", "missing");
    // Tests without results, and results without tests.
    let found = faults(&|s| {
        s["clamp"]["evidence"][0].as_object_mut().expect("an entry").remove("series");
    });
    is(&found, "/clamp/evidence/0/series", "missing");
    let found = faults(&|s| s["clamp"]["evidence"][0]["by"] = json!("approval"));
    is(&found, "/clamp/evidence/0/series", "contradiction");
    // A design value without its partial factor, a characteristic one with it.
    let found = faults(&|s| {
        let series = s["clamp"]["evidence"][0]["series"].as_object_mut();
        series.expect("a series").remove("partial_factor");
    });
    is(&found, "/clamp/evidence/0/series/partial_factor", "missing");
    let found = faults(&|s| s["hook"]["evidence"][0]["series"]["partial_factor"] = json!(1.25));
    is(&found, "/hook/evidence/0/series/partial_factor", "contradiction");
    // A length does not follow from Annex D.
    let series = json!({"values": [1762, 1762, 1762], "distribution": "normal"});
    let found = faults(&|s| {
        s["module"]["evidence"][2] =
            json!({"figure": "/length_mm", "by": "test", "document": "a report", "series": series});
    });
    is(&found, "/module/evidence/2/by", "contradiction");
    // No such figure; one that is not stated; one twice.
    let found = faults(&|s| s["rail"]["evidence"][0]["figure"] = json!("/strength"));
    is(&found, "/rail/evidence/0/figure", "unknown_value");
    let found = faults(&|s| s["rail"]["evidence"][0]["figure"] = json!("/axis_offset_mm"));
    is(&found, "/rail/evidence/0/figure", "contradiction");
    let found =
        faults(&|s| s["rail"]["evidence"][1]["figure"] = json!("/proof_strength_n_per_mm2"));
    is(&found, "/rail/evidence/1/figure", "contradiction");
    // Only the hook has an arm, and a basis that has to agree.
    let found = faults(&|s| {
        s["rail"]["evidence"][0] = json!({"figure": "/proof_strength_n_per_mm2", "by": "bar"});
    });
    is(&found, "/rail/evidence/0/by", "contradiction");
    let found = faults(&|s| {
        s["hook"]["evidence"][0] = json!({"figure": "/resistance/press_kn", "by": "declared"});
    });
    is(&found, "/hook/evidence/0/by", "contradiction");
    // A statement of nothing.
    let empty =
        json!({"maker": "m", "document": "d", "rules": {"family": "eurocode", "annex": "EN"}});
    let problem = post("/v1/statements", empty.to_string().as_bytes()).problem();
    assert_eq!(problem["errors"][0]["code"], "choose_one");
}

/// A figure of the bar is one, whoever writes it down: it holds no better than a figure left out.
#[test]
fn figures_of_the_bar_are_taken_for_no_more() {
    let mut job = with_stated_parts(&example(STATEMENT));
    let hook = &mut job["components"]["hook"];
    let of_resistance = |entry: &Value| {
        let figure = entry["figure"].as_str().expect("a pointer");
        !figure.starts_with("/resistance/") && !figure.starts_with("/stiffness/")
    };
    hook["evidence"].as_array_mut().expect("evidence").retain(of_resistance);
    hook["resistance"]["basis"] = json!("calculation");
    let plain = answer("/v1/layouts", &job);
    assert!(warnings(&plain, "hook.resistance-of-its-bar").is_empty(), "{}", plain["warnings"]);
    let hook = &mut job["components"]["hook"];
    hook["resistance"]["press_kn"] = json!(1.0);
    hook["stiffness"]["normal_kn_per_mm"] = json!(0.1);
    let evidence = hook["evidence"].as_array_mut().expect("evidence");
    evidence.push(json!({"figure": "/resistance/press_kn", "by": "bar"}));
    evidence.push(json!({"figure": "/stiffness/normal_kn_per_mm", "by": "bar"}));
    let of_bar = answer("/v1/layouts", &job);
    assert_eq!(warnings(&of_bar, "hook.resistance-of-its-bar").len(), 1);
    assert_eq!(warnings(&of_bar, "hook.stiffness-of-its-bar").len(), 1);
    job["components"]["hook"]["resistance"]["press_kn"] = json!(50.0);
    let problem = post("/v1/layouts", job.to_string().as_bytes()).problem();
    let faults = list(&problem["errors"]).iter().map(|fault| &fault["code"]);
    assert!(faults.clone().all(|code| code == "contradiction"), "{problem}");
}

/// Tests of a stiffness stand behind it, whatever the resistances rest on.
#[test]
fn a_tested_stiffness_needs_no_other_proof() {
    let mut job = with_stated_parts(&example(STATEMENT));
    let hook = &mut job["components"]["hook"];
    hook["resistance"]["basis"] = json!("calculation");
    hook["stiffness"]["normal_kn_per_mm"] = json!(9.0);
    let evidence = hook["evidence"].as_array_mut().expect("evidence");
    evidence
        .retain(|entry| !entry["figure"].as_str().expect("a pointer").starts_with("/resistance/"));
    let stiffness = evidence
        .iter_mut()
        .find(|entry| entry["figure"] == "/stiffness/normal_kn_per_mm")
        .expect("its evidence");
    stiffness["series"]["values"] = json!([9.0, 9.1, 9.2]);
    let tested = answer("/v1/layouts", &job);
    assert!(warnings(&tested, "hook.stiffer-than-its-bar").is_empty());
    let evidence = job["components"]["hook"]["evidence"].as_array_mut().expect("evidence");
    evidence.retain(|entry| entry["figure"] != "/stiffness/normal_kn_per_mm");
    let untested = answer("/v1/layouts", &job);
    assert_eq!(warnings(&untested, "hook.stiffer-than-its-bar").len(), 1);
}

#[test]
fn the_schema_of_a_statement_stands_by_itself() {
    let reply = get("/v1/statements/schema");
    assert_eq!(reply.header("content-type"), "application/schema+json");
    let path = "openapi/statement.schema.json";
    if std::env::var_os("UPDATE_OPENAPI").is_some() {
        std::fs::write(path, reply.text()).expect("a writable file");
    }
    let committed = std::fs::read_to_string(path).unwrap_or_default();
    assert!(committed == reply.text(), "{path} is not what is served; UPDATE_OPENAPI=1 writes it");
    let schema = reply.json();
    assert!(!reply.text().contains("#/components/"), "it refers to another document");
    let validator = jsonschema::draft202012::new(&schema).expect("a schema");
    let faults: Vec<_> =
        validator.iter_errors(&example(STATEMENT)).map(|fault| fault.to_string()).collect();
    assert_eq!(faults, Vec::<String>::new());
    let mut wrong = example(STATEMENT);
    wrong["hook"]["evidence"][0]["by"] = json!("hearsay");
    assert!(!validator.is_valid(&wrong));
    let published = &openapi_value()["components"]["schemas"];
    for name in schema["$defs"].as_object().expect("definitions").keys() {
        assert!(published.get(name).is_some(), "{name}");
    }
}

#[test]
fn the_form_has_a_row_for_every_member_and_says_what_is_needed() {
    let all = get("/v1/statements/form");
    assert_eq!((all.status, all.header("content-type")), (200, "text/html; charset=utf-8"));
    let members = |schema: &str| {
        let of = &openapi_value()["components"]["schemas"][schema]["properties"];
        of.as_object().expect("members").keys().filter(|name| *name != "evidence").cloned()
    };
    for schema in ["Hook", "Screw", "Rail", "Clamp", "Module"] {
        for member in members(schema) {
            assert!(all.text().contains(&format!("<code>/{member}")), "{schema} {member}");
        }
    }
    for needed in list(&answer("/v1/statements", &example(STATEMENT))["needed"]) {
        assert!(all.text().contains(needed["check"].as_str().expect("a code")), "{needed}");
        assert!(all.text().contains(needed["why"].as_str().expect("why")), "{needed}");
    }
    let clamp = get("/v1/statements/form?part=clamp&lang=de");
    assert!(
        clamp.text().contains("<html lang=\"de\">") && clamp.text().contains("<h2>Klemme</h2>")
    );
    assert!(!clamp.text().contains("/resistance/") && clamp.text().contains("Abrutschen"));
    // Tests are offered for what follows from tests.
    let offered = |pointer: &str| {
        let rows = all.text();
        let row = rows.split("<tr>").find(|row| row.contains(&format!("<code>{pointer}</code>")));
        let row = row.expect("a row").to_owned();
        ["☐ tests", "☐ arm as a flat bar"].map(|ground| row.contains(ground))
    };
    assert_eq!(offered("/resistance/lift_kn"), [true, true]);
    assert_eq!(offered("/bolt/slot_slip_kn"), [true, false]);
    assert_eq!(offered("/arm/thickness_mm"), [false, false]);
    // Whatever is a row has a name in the reader's language.
    let german = get("/v1/statements/form?lang=de");
    for row in german.text().split("<th scope=\"row\">").skip(1) {
        assert!(!row.starts_with('/'), "a row without a name: {}", &row[..40]);
    }
    for wrong in ["part=tile", "part=hook&part=rail", "lang=fr", "x=1"] {
        assert_eq!(get(&format!("/v1/statements/form?{wrong}")).status, 422, "{wrong}");
    }
}

#[test]
fn a_statement_can_be_printed() {
    let headers = [("content-type", "application/json"), ("accept", "text/html")];
    let printed = send("POST", "/v1/statements?lang=de", &headers, STATEMENT.as_bytes());
    assert_eq!(printed.status, 200, "{}", printed.text());
    for there in [
        "test report H-7, page 4",
        "statement 12, issue 3",
        "eurocode/EN",
        "☑ Versuche",
        "☑ charakteristische Werte",
        "0 | 20; 0 | 130 mm",
        "0,060 (vorab bekannt)",
        "2; 2,1; 1,9; 2,1; 2,2",
    ] {
        assert!(printed.text().contains(there), "{there}");
    }
    // The sheet of a job with these parts says the same.
    let job = with_stated_parts(&example(STATEMENT)).to_string();
    let sheet = send("POST", "/v1/layouts?lang=de", &headers, job.as_bytes());
    for there in ["hook/resistance/lift_kn", "test report H-7, page 5"] {
        assert!(sheet.text().contains(there), "{there}");
    }
    let drawing = [("content-type", "application/json"), ("accept", "image/svg+xml")];
    assert_eq!(send("POST", "/v1/statements", &drawing, STATEMENT.as_bytes()).status, 406);
}

/// Evidence can be stated for every number of a part, and for nothing else.
#[test]
fn every_number_of_a_part_is_a_figure() {
    use hookspan::service::figures::{CLAMP, HOOK, MODULE, RAIL, SCREW};
    fn numbers(schema: &Value, at: &str, found: &mut BTreeSet<String>) {
        let schemas = &openapi_value()["components"]["schemas"];
        let choice = ["oneOf", "allOf", "anyOf"].iter().find_map(|of| schema[*of].get(0));
        let target = schema["$ref"].as_str().or_else(|| choice?["$ref"].as_str());
        let schema =
            target.and_then(|t| t.rsplit('/').next()).map_or(schema, |name| &schemas[name]);
        for (member, schema) in schema["properties"].as_object().into_iter().flatten() {
            numbers(schema, &format!("{at}/{member}"), found);
        }
        if schema["type"] == "number" || schema["type"] == "integer" {
            found.insert(at.to_owned());
        }
    }
    let known = [
        ("Hook", HOOK.iter().map(|f| f.pointer).collect::<BTreeSet<_>>()),
        ("Screw", SCREW.iter().map(|f| f.pointer).collect()),
        ("Rail", RAIL.iter().map(|f| f.pointer).collect()),
        ("Clamp", CLAMP.iter().map(|f| f.pointer).collect()),
        ("Module", MODULE.iter().map(|f| f.pointer).collect()),
    ];
    for (name, figures) in known {
        let mut found = BTreeSet::new();
        numbers(&openapi_value()["components"]["schemas"][name], "", &mut found);
        let found: BTreeSet<&str> = found.iter().map(String::as_str).collect();
        assert_eq!(found, figures, "{name}");
    }
}
