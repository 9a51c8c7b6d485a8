//! Rails that run up the slope: a slate terrace between party walls, modules lying.

use serde_json::{Value, json};

use crate::server::{answer, changed, example, list, number, param, post, send, warnings};

const TERRACE: &str = include_str!("../data/layout-terrace.json");

pub fn terrace(edits: &[(&str, Value)]) -> Value {
    changed(TERRACE, edits)
}

fn laid_out(edits: &[(&str, Value)]) -> Value {
    answer("/v1/layouts", &terrace(edits))
}

fn hooks_of<'a>(laid: &'a Value, rail: &'a str) -> impl Iterator<Item = &'a Value> {
    list(&laid["hooks"]).iter().filter(move |hook| hook["rail"] == rail)
}

#[test]
fn a_terrace_of_slates_holds_with_rails_over_its_rafters() {
    let laid = laid_out(&[]);
    assert_eq!(laid["verdict"], "holds_with_warnings", "{}", laid["warnings"]);
    assert_eq!(laid["optimality"]["proven"], true);
    let rails = list(&laid["rails"]);
    assert_eq!(rails.len(), 4);
    for rail in rails {
        // Half of a rail of 40 mm and of an upright of 15 mm to the right of the axis of its rafter, of which
        // there is one every 400 mm; from a hand below the lowest module to one above the highest.
        let (x, rafter) = (number(&rail["x_mm"]), number(&rail["rafter"]));
        let axis = 200.0 + 400.0 * rafter;
        assert!((x - axis - f64::midpoint(40.0, 15.0)).abs() < 1e-9, "{rail}");
        assert_eq!([&rail["start_mm"], &rail["end_mm"]], [&json!(860.0), &json!(4382.0)]);
        assert_eq!(rail["y_mm"], rail["start_mm"]);
        let name = rail["id"].as_str().expect("a name");
        assert!(hooks_of(&laid, name).count() >= 2);
        for hook in hooks_of(&laid, name) {
            assert_eq!([&hook["x_mm"], &hook["arm_x_mm"]], [&json!(axis); 2]);
            // The tail of its course less the bolt beyond it, and what the foot needs to stand free.
            let tail = 160.0 + 200.0 * number(&hook["course"]);
            assert!((number(&hook["y_mm"]) - (tail - 40.0 - 10.0)).abs() < 1e-9, "{hook}");
        }
    }
}

/// Rail T1 lies at 277.5 mm of a module of 1762 mm, T2 at 1477.5 mm: T1 takes (1477.5 - 881)/1200 of each module
/// and so of the slope force, which is its own weight where only wind lifts. Three modules of 21.5 kg, 3.522 m
/// of rail at 0.95 kg/m and four clamps of 0.06 kg, at 38°.
#[test]
fn the_weight_down_the_slope_goes_along_the_rail_by_hand() {
    let laid = laid_out(&[]);
    let sin = 38.0_f64.to_radians().sin();
    let share = (1477.5 - 881.0) / 1200.0;
    let mass = 3.0 * 21.5 * share + 3.522 * 0.95 + 4.0 * 0.06;
    let by_hand = mass * 9.81e-3 * sin;
    let down: f64 = hooks_of(&laid, "T1").map(|hook| number(&hook["slope_kn"])).sum();
    let lifting = hooks_of(&laid, "T1").all(|hook| hook["combination"] == "uls:G-W:left:lifting");
    assert!(lifting, "other combinations govern");
    // Five forces, each rounded to a tenth of a newton.
    assert!((down - by_hand).abs() < 3e-4, "{down}, by hand {by_hand}");
}

#[test]
fn an_area_by_mass_is_listed_and_the_same_where_it_is_given() {
    let assumed = laid_out(&[("/components/rail/area_mm2", Value::Null)]);
    let listed = list(&assumed["assumptions"]).iter().find(|a| a["code"] == "rail.area");
    let listed = listed.expect("the area is assumed");
    // 0.95 kg/m over 2700 kg/m³.
    assert!((number(&listed["value"]) - 351.85).abs() < 0.01, "{listed}");
    assert_eq!(listed["unit"], "mm²");
    let weightless = terrace(&[
        ("/components/rail/area_mm2", Value::Null),
        ("/components/rail/mass_kg_per_m", json!(0.0)),
    ]);
    let body = serde_json::to_vec(&weightless).expect("a document");
    let refused = post("/v1/layouts", &body).problem();
    assert_eq!(refused["errors"][0]["pointer"], "/components/rail/area_mm2");
}

#[test]
fn what_a_splice_passes_along_the_rail_has_to_be_known_and_enough() {
    let short = ("/components/rail/stock_lengths_mm", json!([2000.0]));
    let unknown = laid_out(&[short.clone(), ("/components/rail/splice_force_kn", Value::Null)]);
    assert_eq!(unknown["verdicts"]["rail"], "incomplete");
    let told = warnings(&unknown, "rail.splice-force-unknown");
    assert_eq!(told.len(), 4, "{told:?}");
    assert!(told.iter().all(|warning| warning["pointer"] == "/components/rail/splice_force_kn"));
    let weak = laid_out(&[short.clone(), ("/components/rail/splice_force_kn", json!(0.02))]);
    assert!(!warnings(&weak, "rail.splice-overloaded").is_empty(), "{}", weak["warnings"]);
    let enough = laid_out(&[short]);
    assert!(warnings(&enough, "rail.splice-overloaded").is_empty());
    assert!(warnings(&enough, "rail.splice-force-unknown").is_empty());
}

/// A rail beside the upright twists the arm of the hook, whatever its resistances say of rails down the slope.
#[test]
fn a_rail_beside_its_upright_needs_more_hooks() {
    let hooks = |laid: &Value| number(&laid["optimality"]["hooks"]);
    let offset = "/components/rail/axis_offset_mm";
    let included = "/components/hook/resistance/includes_offset_mm";
    let [on_axis, beside, told] = [
        laid_out(&[(offset, json!(0.0))]),
        laid_out(&[(offset, json!(20.0))]),
        laid_out(&[(offset, json!(20.0)), (included, json!(25.0))]),
    ];
    assert!(hooks(&beside) > hooks(&on_axis), "{} {}", hooks(&beside), hooks(&on_axis));
    assert_eq!(told["hooks"], beside["hooks"]);
}

/// Hooks of 0.7 kN/mm at 1110 to 4310 mm: the farthest from their middle takes what 30 K move the rail there.
#[test]
fn somebody_has_to_answer_for_how_a_rail_is_held_along_it() {
    let open = laid_out(&[("/declarations", json!([]))]);
    assert_eq!(open["verdicts"]["fixing"], "incomplete");
    let told = warnings(&open, "rail.hold-along-unknown");
    assert_eq!(told.len(), 1);
    let farthest = ["T1", "T2", "T3", "T4"].map(|rail| {
        let at: Vec<f64> = hooks_of(&open, rail).map(|hook| number(&hook["y_mm"])).collect();
        let middle = at.iter().sum::<f64>() / at.len() as f64;
        at.iter().map(|at| (at - middle).abs()).fold(0.0, f64::max)
    });
    let by_hand = 0.7 * 23e-6 * 30.0 * farthest.into_iter().fold(0.0, f64::max);
    let restraint = number(param(told[0], "restraint_kn"));
    assert!((restraint - by_hand).abs() < 1e-4, "{restraint}, by hand {by_hand}");
    let rigid = laid_out(&[
        ("/declarations", json!([])),
        ("/components/hook/stiffness/slope_kn_per_mm", Value::Null),
        ("/components/hook/arm/grade", Value::Null),
    ]);
    assert_eq!(warnings(&rigid, "rail.hold-along-unknown").len(), 1);
}

/// The terrace with its rails made fast to one hook each.
fn held_by(hook: &str, slip_kn: Option<f64>) -> Value {
    laid_out(&[
        ("/declarations", json!([])),
        ("/array/rails_held_by", json!(hook)),
        ("/components/rail/groove_slip_kn", slip_kn.map_or(Value::Null, |slip| json!(slip))),
    ])
}

/// As in `the_weight_down_the_slope_goes_along_the_rail_by_hand`, but into one hook of rail T1, and nothing into
/// its others.
#[test]
fn one_hook_alone_may_hold_a_rail_by_hand() {
    let share = (1477.5 - 881.0) / 1200.0;
    let mass = 3.0 * 21.5 * share + 3.522 * 0.95 + 4.0 * 0.06;
    let weight = mass * 9.81e-3 * 38.0_f64.to_radians().sin();
    for hook in ["lowest_hook", "highest_hook"] {
        let laid = held_by(hook, Some(9.0));
        assert_ne!(laid["verdict"], "fails", "{}", laid["warnings"]);
        assert_eq!(laid["optimality"]["proven"], true);
        for code in ["rail.hold-along-unknown", "rail.hold-of-one-hook-unknown"] {
            assert!(warnings(&laid, code).is_empty(), "{code}");
        }
        for rail in ["T1", "T2", "T3", "T4"] {
            let hooks: Vec<&Value> = hooks_of(&laid, rail).collect();
            let place = if hook == "lowest_hook" { 0 } else { hooks.len() - 1 };
            for (i, on_rail) in hooks.iter().enumerate() {
                assert_eq!(on_rail["holds_rail"] == true, i == place, "{on_rail}");
                if i != place {
                    assert_eq!(on_rail["slope_kn"], 0.0, "{on_rail}");
                    continue;
                }
                let slope = number(&on_rail["slope_kn"]);
                let factor =
                    if on_rail["combination"] == "uls:G-W:left:lifting" { 1.0 } else { 1.35 };
                assert!(slope >= factor * weight - 1e-4 || rail != "T1", "{on_rail}");
            }
        }
        // What the bolt holds along the groove is checked against all that acts along the rail.
        let weak = held_by(hook, Some(0.05));
        assert_eq!(weak["verdicts"]["fixing"], "fails", "{}", weak["warnings"]);
        assert!(!warnings(&weak, "bolt.overloaded").is_empty());
        let open = held_by(hook, None);
        assert_eq!(open["verdicts"]["fixing"], "incomplete");
        let told = warnings(&open, "rail.hold-of-one-hook-unknown");
        assert_eq!(told.len(), 1);
        assert_eq!(told[0]["pointer"], "/components/rail/groove_slip_kn");
    }
}

/// The force in the rail above or below the one hook that holds it is that of all that lies beyond: of rail T1
/// held at its lowest hook no less, under snow, than of the same rail held by all.
#[test]
fn a_rail_that_one_hook_holds_is_pressed_or_pulled_by_all_that_lies_beyond() {
    let short = ("/components/rail/stock_lengths_mm", json!([2000.0]));
    let spliced = |held: &str| {
        let laid = laid_out(&[
            short.clone(),
            ("/array/rails_held_by", json!(held)),
            ("/components/rail/groove_slip_kn", json!(9.0)),
            ("/components/rail/splice_force_kn", json!(1.0)),
        ]);
        let used = list(&laid["rails"]).iter().flat_map(|rail| list(&rail["segments"]));
        used.map(|part| number(&part["splice_utilisation"])).fold(0.0, f64::max)
    };
    let [all, one] = ["all_hooks", "lowest_hook"].map(spliced);
    assert!(one > 1.2 * all && all > 0.0, "{one}, {all}");
}

#[test]
fn all_hooks_are_assumed_to_hold_a_rail_and_declared_slip_is_told() {
    let laid = laid_out(&[("/declarations", json!([]))]);
    let codes: Vec<&Value> = list(&laid["assumptions"]).iter().map(|a| &a["code"]).collect();
    assert!(codes.contains(&&json!("array.rails-held-by-all-hooks")), "{codes:?}");
    let said = laid_out(&[
        ("/declarations", json!([])),
        ("/array/rails_held_by", json!("all_hooks")),
        ("/components/rail/groove_slip_kn", json!(2.0)),
    ]);
    let codes: Vec<&Value> = list(&said["assumptions"]).iter().map(|a| &a["code"]).collect();
    assert!(!codes.contains(&&json!("array.rails-held-by-all-hooks")), "{codes:?}");
    let told = warnings(&said, "rail.hold-along-unknown");
    assert_eq!(*param(told[0], "declared_kn"), 2.0);
    assert_eq!(said["hooks"].as_array().map(Vec::len), laid["hooks"].as_array().map(Vec::len));
}

#[test]
fn patterns_count_courses_where_rails_run_up_the_slope() {
    let even = laid_out(&[("/wishes/objective", json!("even_spacing"))]);
    for rail in ["T1", "T2", "T3", "T4"] {
        let courses: Vec<i64> =
            hooks_of(&even, rail).map(|h| h["course"].as_i64().expect("a course")).collect();
        assert!(courses.windows(3).all(|c| c[2] - c[1] == c[1] - c[0]), "{courses:?}");
    }
    let staggered = laid_out(&[("/wishes/objective", json!("staggered"))]);
    for (rail, other) in [("T1", "T2"), ("T3", "T4")] {
        let inner = |rail| -> Vec<i64> {
            let all = hooks_of(&staggered, rail).map(|h| h["course"].as_i64().expect("a course"));
            let all: Vec<i64> = all.collect();
            all[1..all.len() - 1].iter().map(|course| course.rem_euclid(2)).collect()
        };
        let [one, other] = [inner(rail), inner(other)];
        assert!(one.iter().all(|parity| *parity == one[0]), "{one:?}");
        assert!(other.iter().all(|parity| *parity == 1 - one[0]), "{one:?} {other:?}");
    }
}

/// A column of the terrace with modules of its own.
fn column(id: &str, x: f64, rows: u64) -> Value {
    let module = json!({
        "length_mm": 1762.0, "width_mm": 1134.0, "thickness_mm": 35.0, "mass_kg": 24.0,
        "clamp_zone_mm": [250.0, 550.0],
        "press_capacity_kn_per_m2": 3.0, "lift_capacity_kn_per_m2": 1.5,
    });
    json!({
        "id": id, "module": module, "origin_mm": [x, 900.0], "rows": rows, "columns": 1,
        "orientation": "landscape", "column_gap_mm": 20.0, "row_gap_mm": 20.0,
    })
}

/// The field of the terrace with one column of so many rows, and another field.
fn two_fields(rows: u64, other: Value) -> Value {
    let mut job = example(TERRACE);
    let fields = job["array"]["fields"].as_array_mut().expect("fields");
    (fields[0]["rows"], fields[0]["columns"]) = (json!(rows), json!(1));
    fields.push(other);
    job
}

/// 20 mm beside each other, where nothing of either runs to the other: 1782 mm from column to column.
#[test]
fn columns_of_different_modules_are_what_each_is_alone() {
    let job = two_fields(3, column("U", 2532.0, 3));
    let both = answer("/v1/layouts?trace=full", &job);
    let each = [0, 1].map(|field| {
        let mut alone = job.clone();
        let mut own = alone["array"]["fields"][field].take();
        if let Some(module) = own.as_object_mut().expect("a field").remove("module") {
            alone["array"]["module"] = module;
        }
        alone["array"]["fields"] = json!([own]);
        answer("/v1/layouts?trace=full", &alone)
    });
    for of in ["rails", "hooks", "modules", "rafters"] {
        let apart: Vec<Value> = each.iter().flat_map(|one| list(&one[of])).cloned().collect();
        assert!(apart.len() >= 4, "{of}");
        assert_eq!(list(&both[of]), apart, "{of}");
    }
    // What a rail takes of a force, how much more the lower frame has of it, and what acts there.
    let on_rail = |answer: &Value, rail: &str| -> Vec<Value> {
        let lines = list(&answer["trace"]).iter().filter(|line| line["element"] == rail);
        lines.map(|line| json!([line["symbol"], line["value"]])).collect()
    };
    for (rail, alone) in [("T1", &each[0]), ("T2", &each[0]), ("U1", &each[1]), ("U2", &each[1])] {
        let lines = on_rail(&both, rail);
        assert!(lines.len() > 5, "{lines:?}");
        assert_eq!(lines, on_rail(alone, rail), "{rail}");
    }
    assert_ne!(on_rail(&both, "T1"), on_rail(&both, "U1"));
}

/// A rail stands out 40 mm beyond its modules, an end clamp takes 30 mm: over one rafter two fields need 80 mm
/// between them up the slope, over two 30 mm.
#[test]
fn fields_of_different_modules_above_each_other_need_room_for_their_rails_and_clamps() {
    let above = |x: f64, gap: f64| {
        let mut other = column("U", x, 1);
        other["origin_mm"][1] = json!(900.0 + 2.0 * 1134.0 + 20.0 + gap);
        let job = two_fields(2, other);
        let reply = post("/v1/layouts", job.to_string().as_bytes());
        if reply.status == 200 { Vec::new() } else { list(&reply.problem()["errors"]).to_vec() }
    };
    let told = |faults: &[Value]| {
        let [fault] = faults else { panic!("{faults:?}") };
        assert_eq!([&fault["pointer"], &fault["code"]], ["/array/fields/1", "overlap"]);
        fault["detail"].as_str().expect("a sentence").to_owned()
    };
    // In one column both lie over the same rafters, a rafter further over others.
    for (x, need) in [(750.0, 80.0), (1150.0, 30.0)] {
        let detail = told(&above(x, need - 1.0));
        let sentence = format!("{:.0} mm above or below field T", need - 1.0);
        assert!(detail.contains(&sentence), "{detail}");
        assert!(detail.contains(&format!("need {need:.0} mm")), "{detail}");
        assert!(above(x, need + 1.0).is_empty(), "{x}");
    }
}

#[test]
fn the_crew_is_told_on_which_side_of_the_hooks_a_rail_is_bolted() {
    for (offset, side) in [(Value::Null, "right"), (json!(-22.0), "left")] {
        let job = terrace(&[("/components/rail/axis_offset_mm", offset)]);
        let accept = [("content-type", "application/json"), ("accept", "text/html")];
        let sheet = send("POST", "/v1/layouts", &accept, job.to_string().as_bytes());
        let told = format!("Bolt the rail to the {side} of the hooks");
        assert!(sheet.text().contains(&told), "no \"{told}\"");
        // The table of the rails counts up the slope.
        for head in ["from y", "to y", "Splices at y", "Free ends lower / upper"] {
            assert!(sheet.text().contains(&format!(">{head}<")), "no column \"{head}\"");
        }
    }
    let laid = laid_out(&[("/components/rail/axis_offset_mm", json!(-22.0))]);
    for rail in list(&laid["rails"]) {
        let name = rail["id"].as_str().expect("a name");
        for hook in hooks_of(&laid, name) {
            let beside = number(&hook["arm_x_mm"]) - number(&rail["x_mm"]);
            assert!((beside - 22.0).abs() < 1e-9, "{beside}");
        }
    }
}
