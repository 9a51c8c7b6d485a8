//! Room to move: rechecks with one hook moved agree with the room it is said to have, and rechecks with all hooks
//! of a rail moved to either side with what rafters that are off are said to come to.

use serde_json::{Value, json};

use crate::server::{BARN, COTTAGE, all_known, answer, example, list, number, post, send};

const TERRACE: &str = include_str!("../data/layout-terrace.json");
const LEAN_TO: &str = include_str!("../data/layout-lean-to.json");

fn asked(mut job: Value, room: Value) -> Value {
    job["room_to_move"] = room;
    job
}

fn in_troughs(job: &Value) -> bool {
    job["roof"]["covering"]["kind"] == "interlocking"
}

/// A layout as it was built, with some hooks moved along their rails.
fn rechecked(job: &Value, laid: &Value, moves: &[(&str, f64)]) -> Value {
    let mut built = job.clone();
    built["built"] = laid["record"]["built"].clone();
    for (name, by) in moves {
        let hooks = built["built"]["hooks"].as_array_mut().expect("hooks");
        let hook = hooks.iter_mut().find(|hook| hook["id"] == *name).expect("the hook");
        hook["found"]["rafter_x_mm"] = json!(number(&hook["x_mm"]) + by);
        if in_troughs(job) {
            hook.as_object_mut().expect("a hook").remove("arm_x_mm");
        } else {
            hook["arm_x_mm"] = json!(number(&hook["arm_x_mm"]) + by);
        }
    }
    answer("/v1/rechecks", &built)
}

#[test]
fn a_hook_holds_to_the_end_of_its_room_and_no_further() {
    let mut stops = std::collections::BTreeMap::new();
    let mut shed = all_known(BARN);
    shed["array"]["fields"][0]["columns"] = json!(3);
    shed["array"]["fields"][0]["rows"] = json!(1);
    for job in [all_known(COTTAGE), all_known(LEAN_TO), shed] {
        let plain = answer("/v1/layouts", &job);
        let mut laid = answer("/v1/layouts", &asked(job.clone(), json!({})));
        let room = laid.as_object_mut().expect("an answer").remove("room_to_move").expect("it");
        assert_eq!(laid, plain, "nothing else changes");
        assert_eq!(room["complete"], true);
        let names = |of: &Value, name: &str| -> Vec<Value> {
            list(of).iter().map(|hook| hook[name].clone()).collect()
        };
        assert_eq!(names(&room["hooks"], "hook"), names(&laid["hooks"], "id"));
        let unmoved = rechecked(&job, &laid, &[]);
        assert_ne!(unmoved["verdict"], "fails");
        for hook in list(&room["hooks"]).iter().step_by(5) {
            let name = hook["hook"].as_str().expect("a name");
            let set = list(&laid["hooks"]).iter().find(|set| set["id"] == name).expect("it");
            for (way, sign) in [("left", -1.0), ("right", 1.0)] {
                let way = &hook[way];
                let (by, from) = (number(&way["by_mm"]), number(&set["x_mm"]));
                assert!((number(&way["at_mm"]) - from - sign * by).abs() < 0.11, "{hook}");
                let there = rechecked(&job, &laid, &[(name, sign * by)]);
                // No worse than as it is set out: a foot that tips sideways leaves it open.
                assert_eq!(there["verdict"], unmoved["verdict"], "{hook}: {}", there["headline"]);
                let stop = way["stop"].as_str().expect("a stop");
                *stops.entry(stop.to_owned()).or_insert(0) += 1;
                if stop == "not_tried" {
                    assert_eq!(way["by_mm"], json!(100.0));
                    continue;
                }
                let beyond = rechecked(&job, &laid, &[(name, sign * (by + 1.0))]);
                if stop == "check" {
                    assert!(number(&beyond["utilisation"]["max"]) > 1.0, "{hook}");
                    assert_eq!(beyond["utilisation"]["check"], way["check"], "{hook}");
                }
                if ["tipping", "screw_edge"].contains(&stop) {
                    assert_eq!(beyond["verdict"], "incomplete", "{hook}: {}", beyond["headline"]);
                    continue;
                }
                if stop == "rail_end" {
                    let rail = list(&laid["rails"]).iter().find(|rail| rail["id"] == set["rail"]);
                    let end = if sign < 0.0 { "start_mm" } else { "end_mm" };
                    // Both the rafter and the arm stay over the rail. Under interlocking tiles the arm goes to another
                    // trough, and that may lie beyond it.
                    let end = number(&rail.expect("it")[end]);
                    if in_troughs(&job) {
                        assert!(sign * (end - from) >= by, "{hook}");
                    } else {
                        let outer = sign * f64::max(sign * from, sign * number(&set["arm_x_mm"]));
                        let left = sign * (end - outer) - by;
                        assert!((0.0..1.0).contains(&left), "{hook}");
                    }
                    continue;
                }
                assert_eq!(beyond["verdict"], "fails", "{hook}: {}", beyond["headline"]);
            }
        }
    }
    println!("{stops:?}");
    assert!(stops["check"] >= 3 && stops["rail_end"] >= 1 && stops["not_tried"] >= 1, "{stops:?}");
}

#[test]
fn rafters_that_are_off_come_to_the_worst_of_every_choice_of_sides() {
    let mut job = all_known(COTTAGE);
    job["array"]["fields"][0]["columns"] = json!(4);
    job["array"]["fields"][0]["omitted"] = json!([]);
    let laid = answer("/v1/layouts", &asked(job.clone(), json!({"tolerance_mm": 25.0})));
    let off = &laid["room_to_move"]["rafters_off"];
    assert_eq!((&off["tolerance_mm"], &off["every_choice"]), (&json!(25.0), &json!(true)), "{off}");
    assert_ne!(off["worst"]["check"], "rafter", "hooks and rails are compared");
    let (mut worst, mut tried) = (0.0_f64, 0);
    for rail in list(&laid["rails"]) {
        let hooks: Vec<&str> = list(&laid["hooks"])
            .iter()
            .filter(|hook| hook["rail"] == rail["id"])
            .map(|hook| hook["id"].as_str().expect("a name"))
            .collect();
        for choice in 0..1_u32 << hooks.len() {
            let side = |i: usize| if choice >> i & 1 == 1 { 25.0 } else { -25.0 };
            let moves: Vec<(&str, f64)> =
                hooks.iter().enumerate().map(|(i, hook)| (*hook, side(i))).collect();
            let after = rechecked(&job, &laid, &moves);
            let of = |part: &str, id: &str| -> Vec<Value> {
                list(&after[part]).iter().filter(|of| of[id] == rail["id"]).cloned().collect()
            };
            let used = of("hooks", "rail").into_iter().chain(of("rails", "id"));
            let used = used.map(|of| match &of["utilisation"] {
                Value::Object(by_check) => number(&by_check["max"]),
                whole => number(whole),
            });
            worst = used.fold(worst, f64::max);
            tried += 1;
        }
    }
    assert_eq!((&off["tried"], number(&off["worst"]["max"])), (&json!(tried), worst), "{off}");
    assert_eq!(off["passes"], json!(worst <= 1.0));
    let said = off["message"].as_str().expect("a sentence");
    assert_eq!(said.contains("more than is allowed"), worst > 1.0, "{said}");
}

/// Of long rails choices are picked, and what is found is not said to be the worst of all.
#[test]
fn of_many_hooks_some_choices_of_sides_are_tried() {
    let mut shed = all_known(BARN);
    shed["array"]["fields"][0]["columns"] = json!(6);
    shed["array"]["fields"][0]["rows"] = json!(1);
    let laid = answer("/v1/layouts", &asked(shed, json!({"tolerance_mm": 10.0})));
    let off = &laid["room_to_move"]["rafters_off"];
    assert_eq!(off["every_choice"], false, "{} hooks", list(&laid["hooks"]).len());
    let said = off["message"].as_str().expect("a sentence");
    assert!(said.starts_with("Rafters 10 mm off") && said.contains("Not every choice"), "{said}");
}

#[test]
fn a_layout_that_fails_has_no_room() {
    let mut job = all_known(COTTAGE);
    job["array"]["module"]["press_capacity_kn_per_m2"] = json!(0.1);
    job["remedies"] = json!(false);
    let laid = answer("/v1/layouts", &asked(job, json!({"tolerance_mm": 5.0})));
    assert_eq!(laid["verdict"], "fails");
    assert_eq!(laid["room_to_move"], json!({"complete": true, "hooks": []}));
}

#[test]
fn room_is_refused_where_nothing_is_meant_by_it() {
    let fault = |job: &Value| {
        let reply = post("/v1/layouts", job.to_string().as_bytes());
        let problem = reply.json();
        let [fault] = list(&problem["errors"]) else { panic!("{problem}") };
        (reply.status, fault["pointer"].clone(), fault["code"].clone())
    };
    let not_covered = (422, json!("/room_to_move"), json!("not_covered"));
    for text in [TERRACE, include_str!("../data/layout-boathouse.json")] {
        assert_eq!(fault(&asked(example(text), json!({"tolerance_mm": 10.0}))), not_covered);
    }
    let unseen = include_str!("../data/layout-covered.json");
    let contradiction = (422, json!("/room_to_move"), json!("contradiction"));
    assert_eq!(fault(&asked(example(unseen), json!({}))), contradiction);
    let far = fault(&asked(example(COTTAGE), json!({"tolerance_mm": 101.0})));
    assert_eq!(far.1, "/room_to_move/tolerance_mm");
}

#[test]
fn the_sheet_tells_the_crew_how_far_a_rafter_may_be_off() {
    let job = asked(all_known(COTTAGE), json!({"tolerance_mm": 10.0}));
    for (language, title) in [
        ("en", "Where a rafter is not where it was drawn"),
        ("de", "Wenn ein Sparren nicht liegt wie gezeichnet"),
    ] {
        let headers = [
            ("content-type", "application/json"),
            ("accept", "text/html"),
            ("accept-language", language),
        ];
        let sheet = send("POST", "/v1/layouts?part=crew", &headers, job.to_string().as_bytes());
        assert!(sheet.text().contains(title), "{language}");
    }
}
