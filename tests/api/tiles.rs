//! What an answer says of the tiles at a hook: which come off, which are replaced, what is notched.
//! The counts and distances of the trade are marked as common practice.

use serde_json::{Value, json};

use crate::server::{BARN, COTTAGE, SURVEY, answer, example, list, number, param, warnings};

fn lay_out(job: &Value) -> Value {
    answer("/v1/layouts", job)
}

fn hooks(answer: &Value) -> &[Value] {
    list(&answer["hooks"])
}

/// Side joints of a course of the barn, tiles of 180 mm and joints of 3 mm in half bond.
fn joint_distance(x: f64, course: i64) -> f64 {
    let origin = if course.rem_euclid(2) == 1 { 91.5 } else { 0.0 };
    let beside = (x - origin).rem_euclid(183.0);
    beside.min(183.0 - beside)
}

fn whole(value: &Value) -> i64 {
    value.as_i64().unwrap_or_else(|| panic!("{value} is not a whole number"))
}

/// Common practice, no source: five to six plain tiles lifted for a hook, two substitute tiles. The
/// upper one takes the place of one of those, the lower one that of a seventh tile at most.
#[test]
fn a_plain_tile_hook_takes_two_substitutes_and_what_they_replace_comes_off_too() {
    for hook in hooks(&lay_out(&example(BARN))) {
        let tiles = &hook["tiles"];
        let lifted = list(&tiles["lift"]).iter().map(|run| {
            let columns = list(&run["columns"]);
            whole(&columns[1]) - whole(&columns[0]) + 1
        });
        assert_eq!(lifted.sum::<i64>(), whole(&tiles["lift_count"]));
        assert!((6..=7).contains(&whole(&tiles["lift_count"])), "{hook}");
        for replaced in list(&tiles["substitute"]) {
            let [course, column] = ["course", "column"].map(|name| whole(&replaced[name]));
            let comes_off = list(&tiles["lift"]).iter().any(|run| {
                let columns = [0, 1].map(|end| whole(&run["columns"][end]));
                whole(&run["course"]) == course && (columns[0]..=columns[1]).contains(&column)
            });
            assert!(comes_off, "{replaced} is not among {}", tiles["lift"]);
        }
        let course = whole(&hook["course"]);
        let courses: Vec<i64> =
            list(&tiles["lift"]).iter().map(|run| whole(&run["course"])).collect();
        assert_eq!(courses, [course - 1, course, course + 1]);
        let places: Vec<(i64, &str)> = list(&tiles["substitute"])
            .iter()
            .map(|tile| (whole(&tile["course"]), tile["place"].as_str().expect("a place")))
            .collect();
        assert_eq!(places, [(course - 1, "below"), (course, "above")]);
        assert_eq!(tiles["substitute"][1]["column"], hook["column"]);
        // Both are metal: no nib is in the way.
        assert!(tiles.get("nib_to_remove").is_none());
    }
}

#[test]
fn joints_and_columns_are_those_of_the_grid() {
    for hook in hooks(&lay_out(&example(BARN))) {
        let (arm, course) = (number(&hook["arm_x_mm"]), whole(&hook["course"]));
        assert!((number(&hook["side_joint_mm"]) - joint_distance(arm, course)).abs() < 0.011);
        let lower = number(&hook["tiles"]["lower_joint_mm"]);
        assert!((lower - joint_distance(arm, course - 1)).abs() < 0.011);
        assert!((arm - number(&hook["x_mm"]) - number(&hook["arm_shift_mm"])).abs() < 1e-9);
        // The verge lies at 0: an odd course begins with half a tile.
        let odd = i64::from(course.rem_euclid(2) == 1);
        assert_eq!(whole(&hook["column_from_verge"]), whole(&hook["column"]) + 1 + odd);
        // Tail edges lie at 210 mm and every 155 mm above; the bolt 32 mm below one and 5 mm more, for
        // the foot to end below the next batten.
        let y = 210.0 + 155.0 * f64::from(i32::try_from(course).expect("small")) - 37.0;
        assert!((number(&hook["y_mm"]) - y).abs() < 1e-9);
    }
}

#[test]
fn arms_go_towards_a_joint_and_cost_neither_hooks_nor_utilisation() {
    let mut job = example(BARN);
    // Where feet would roll beside their joints, arms stay.
    job["components"]["rail"]["axis_offset_mm"] = json!(0.0);
    let moved = lay_out(&job);
    job["wishes"] = json!({"arm_position": "rafter_axis"});
    let on_axes = lay_out(&job);
    assert_eq!(moved["optimality"], on_axes["optimality"]);
    let max = |answer: &Value| number(&answer["utilisation"]["max"]);
    assert!(max(&moved) <= max(&on_axes) + 1e-9);
    assert_eq!(hooks(&moved).len(), hooks(&on_axes).len());
    let mut nearer = 0;
    for (there, here) in hooks(&moved).iter().zip(hooks(&on_axes)) {
        assert_eq!((&there["id"], &there["x_mm"]), (&here["id"], &here["x_mm"]));
        assert!(number(&here["arm_shift_mm"]).abs() < 1e-9);
        let shift = number(&there["arm_shift_mm"]).abs();
        assert!(shift <= 45.0, "beyond the foot's range");
        let gained = number(&here["side_joint_mm"]) - number(&there["side_joint_mm"]);
        assert!((gained - shift).abs() < 0.011, "{there} went another way than to its joint");
        nearer += usize::from(shift > 0.0);
    }
    assert!(nearer * 2 > hooks(&moved).len(), "only {nearer} arms moved");
    assert!(warnings(&moved, "screw.edge-under-sideways-load").is_empty());
}

#[test]
fn the_covering_is_shown_to_be_held_against_the_roof() {
    let answer = lay_out(&example(BARN));
    let covering = &answer["covering"];
    let close = |name: &str, expected: f64| {
        assert!((number(&covering[name]) - expected).abs() < 0.006, "{name}: {covering}");
    };
    // By hand: 380 - 2·155; atan(14/155); 42 less that; 1/(0.155·0.183); 30 + 28 + 14·70/155.
    close("headlap_mm", 70.0);
    close("tile_slope_deg", 5.16);
    close("tile_pitch_deg", 36.84);
    close("tiles_per_m2", 35.25);
    close("lower_tile_top_mm", 64.32);
    // 380 - 155; 155 - 50 - 15; the foot from 262 - 32 = 230 up to 320 between 225 and 315.
    close("covered_length_mm", 225.0);
    close("clear_bay_mm", 90.0);
    close("foot_above_head_mm", 5.0);
    close("foot_below_batten_mm", -5.0);
    // 72 - 225·14/155 - 30.
    close("arm_over_batten_mm", 21.68);
    let told = warnings(&answer, "hook.foot-meets-batten-or-tile");
    assert!((number(param(told[0], "lower_mm")) - 5.0).abs() < 1e-9);
    // A foot 10 mm shorter, whose arm is as much shorter, stands free.
    let mut job = example(BARN);
    job["components"]["hook"]["foot"]["length_mm"] = json!(80.0);
    assert!(warnings(&lay_out(&job), "hook.foot-meets-batten-or-tile").is_empty());
    // One that is longer than the bay stands nowhere.
    job["components"]["hook"]["foot"]["length_mm"] = json!(110.0);
    assert_eq!(warnings(&lay_out(&job), "hook.foot-longer-than-bay").len(), 1);
}

/// A metal tile under the arm covers the joint; one over the arm does not.
#[test]
fn an_arm_along_a_joint_is_told_where_no_metal_tile_covers_it() {
    let told = |tiles: u32| {
        let mut job = example(BARN);
        job["components"]["hook"]["substitute_tiles"] = json!(tiles);
        let answer = lay_out(&job);
        let found = warnings(&answer, "tile.arm-along-joint-below");
        found.first().map_or(0, |one| whole(param(one, "count")))
    };
    assert_eq!([0, 1, 2, 3].map(told), [16, 16, 0, 0]);
}

#[test]
fn without_substitutes_nibs_notches_and_thickness_are_thought_of() {
    let mut job = example(BARN);
    job["components"]["hook"]["substitute_tiles"] = json!(0);
    let answer = lay_out(&job);
    assert_eq!(warnings(&answer, "tile.notch-deeper-than-tile").len(), 1);
    let mut with_nib = 0;
    for hook in hooks(&answer) {
        assert!(list(&hook["tiles"]["substitute"]).is_empty());
        // One nib in the middle of a tile 180 mm wide: 20 mm of nib and 25 mm of arm to each side.
        let course = whole(&hook["course"]);
        let left = number(&hook["arm_x_mm"])
            - 183.0 * f64::from(i32::try_from(whole(&hook["column"])).expect("small"))
            - if course.rem_euclid(2) == 1 { 91.5 } else { 0.0 };
        let met = (left - 90.0).abs() < 45.0;
        let told = hook["tiles"].get("nib_to_remove");
        assert_eq!(told.is_some(), met, "{hook}");
        if let Some(tile) = told {
            assert_eq!((&tile["course"], &tile["column"]), (&hook["course"], &hook["column"]));
            with_nib += 1;
        }
        let both = number(&hook["side_joint_mm"]) < 35.0;
        assert_eq!(hook["tiles"].get("notch_beside").is_some(), both, "{hook}");
    }
    assert!(with_nib > 0);
    job["roof"]["covering"]["tile"]["without_nibs"] = json!(true);
    assert!(hooks(&lay_out(&job)).iter().all(|hook| hook["tiles"].get("nib_to_remove").is_none()));
}

/// Common practice, no source: one or two interlocking tiles are pushed up.
#[test]
fn interlocking_tiles_are_pushed_up_and_arms_stay_in_their_troughs() {
    let answer = lay_out(&example(COTTAGE));
    for hook in hooks(&answer) {
        assert!((1..=2).contains(&whole(&hook["tiles"]["lift_count"])));
        assert_eq!(list(&hook["tiles"]["lift"]).len(), 1);
        let trough = number(&hook["arm_x_mm"]).rem_euclid(300.0);
        assert!((trough - 75.0).abs() < 1e-6 || (trough - 225.0).abs() < 1e-6, "{hook}");
    }
}

#[test]
fn what_is_made_of_the_opening_is_what_the_hook_takes() {
    for hook in hooks(&lay_out(&example(BARN))) {
        // The clearance where the arm leaves, above a tile that rises by 14 mm over its gauge of 155 mm
        // and stands so much higher below the bolt, 37 mm down the slope; an arm of 12 mm, and 3 mm to
        // the tile above (common practice, no source).
        let at_exit = number(&hook["clearance_mm"]) + 37.0 * 14.0 / 155.0;
        let room = at_exit + 12.0 + 3.0;
        assert!((number(&hook["tiles"]["room_for_arm_mm"]) - room).abs() < 0.011);
    }
}

#[test]
fn a_measured_side_joint_goes_before_the_grid() {
    let answer = answer("/v1/surveys", &example(SURVEY));
    let hook = |id: &str| {
        hooks(&answer).iter().find(|hook| hook["id"] == id).unwrap_or_else(|| panic!("no {id}"))
    };
    assert_eq!(hook("A1-2")["side_joint_mm"], 12.0);
    assert!(hook("A1-2")["tiles"].get("notch_beside").is_some());
    assert_eq!(hook("A1-3")["side_joint_mm"], 71.0);
    assert!(hook("A1-3")["tiles"].get("notch_beside").is_none());
    // Not measured: by the grid.
    let last = hook("A1-8");
    let by_grid = joint_distance(number(&last["arm_x_mm"]), whole(&last["course"]));
    assert!((number(&last["side_joint_mm"]) - by_grid).abs() < 0.011);
}
