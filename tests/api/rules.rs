//! What the description says goes together, or stands for what, is what the service takes.

use serde_json::{Value, json};

use crate::server::{BARN, post};

/// Whether a layout fits its schema, rules between members included.
fn fits(request: &Value) -> bool {
    let schema = json!({
        "$ref": "#/components/schemas/LayoutRequest",
        "components": hookspan::http::description::openapi_value()["components"],
    });
    jsonschema::draft202012::is_valid(&schema, request)
}

/// The barn with a member set, under an annex that has words for everything a site can say.
fn barn(pointer: &str, member: &Value) -> Value {
    let mut request: Value = serde_json::from_str(BARN).expect("an example is JSON");
    request["rules"] = json!({ "family": "eurocode", "annex": "EN" });
    request["site"]["snow"] = json!({ "region": "alpine", "zone": "2" });
    request["site"]["wind"] = json!({ "basic_velocity_m_per_s": 25, "terrain_category": "II" });
    *request.pointer_mut(pointer).expect("the barn has it") = member.clone();
    request
}

/// The barn's own hook without what it bears, with a grade for its arm or without.
fn bare_hook(grade: Option<&str>) -> Value {
    let barn: Value = serde_json::from_str(BARN).expect("an example is JSON");
    let mut hook = barn["components"]["hook"].clone();
    let members = hook.as_object_mut().expect("a hook");
    members.remove("resistance");
    let arm = members["arm"].as_object_mut().expect("an arm");
    arm.remove("grade");
    if let Some(grade) = grade {
        arm.insert("grade".to_owned(), json!(grade));
    }
    hook
}

/// The barn's own array with rails that run so and are held so.
fn held(direction: &str, by: &str) -> Value {
    let barn: Value = serde_json::from_str(BARN).expect("an example is JSON");
    let mut array = barn["array"].clone();
    array["rail_direction"] = json!(direction);
    array["rails_held_by"] = json!(by);
    // What is looked for is whether it is taken, not how long a rail with one holder is searched.
    array["fields"][0]["columns"] = json!(2);
    array
}

/// Rafters of which so much is said.
fn rafters(members: &Value) -> Value {
    let mut rafters = json!({ "width_mm": 100, "depth_mm": 160, "strength_class": "C24" });
    let given = members.as_object().expect("members").clone();
    rafters.as_object_mut().expect("rafters").extend(given);
    rafters
}

/// Rafters at known centres that nobody has seen yet.
fn unmeasured(how: &Value) -> Value {
    rafters(&json!({ "spacing_mm": 780, "unmeasured": how }))
}

#[test]
fn what_breaks_a_rule_of_the_schema_is_refused() {
    let net = json!({ "suction": -1.0, "pressure": 0.5 });
    let wind = |members: Value| {
        let mut wind = json!({ "basic_velocity_m_per_s": 25, "terrain_category": "II" });
        let given = members.as_object().expect("members").clone();
        wind.as_object_mut().expect("wind").extend(given);
        wind
    };
    let broken = [
        ("/site/snow", json!({ "region": "alpine" })),
        ("/site/snow", json!({ "zone": "2", "ground_load_kn_per_m2": 1.0 })),
        ("/site/snow", json!({ "region": "alpine", "ground_load_kn_per_m2": 1.0 })),
        ("/site/wind", json!({})),
        ("/site/wind", json!({ "setting": "inland" })),
        ("/site/wind", json!({ "terrain_category": "II" })),
        ("/site/wind", json!({ "basic_velocity_m_per_s": 25 })),
        ("/site/wind", json!({ "shore_distance_km": 12 })),
        ("/site/wind", json!({ "shore_distance_km": 12, "peak_pressure_kn_per_m2": 0.65 })),
        ("/site/wind", wind(json!({ "setting": "inland" }))),
        ("/site/wind", wind(json!({ "peak_pressure_kn_per_m2": 0.65 }))),
        (
            "/site/wind",
            json!({ "peak_pressure_kn_per_m2": 0.65, "zone": "2", "setting": "inland" }),
        ),
        ("/site/wind", json!({ "peak_pressure_kn_per_m2": 0.65, "terrain_category": "II" })),
        ("/site/wind", json!({ "peak_pressure_kn_per_m2": 0.65, "orography_factor": 1.0 })),
        ("/site/wind", wind(json!({ "model": "given" }))),
        ("/site/wind", wind(json!({ "model": "equalised" }))),
        ("/site/wind", wind(json!({ "net_coefficients": net }))),
        ("/site/wind", wind(json!({ "model": "roof_surface", "net_coefficients": net }))),
        ("/site/wind", wind(json!({ "loaded_area": { "basis": "given" } }))),
        ("/site/wind", wind(json!({ "loaded_area": { "basis": "given", "area_m2": 1.5 } }))),
        ("/site/wind", wind(json!({ "loaded_area": { "basis": "fixing", "area_m2": 1.5 } }))),
        ("/site/wind", wind(json!({ "loaded_area": { "basis": "module", "reason": "a bay" } }))),
        ("/roof/rafters", rafters(&json!({}))),
        ("/roof/rafters", rafters(&json!({ "first_mm": 50, "spacing_mm": 600 }))),
        ("/roof/rafters", rafters(&json!({ "positions_mm": [50, 650, 1250], "count": 3 }))),
        ("/roof/rafters", rafters(&json!({ "unmeasured": { "known": "spacing" } }))),
        ("/roof/rafters", unmeasured(&json!({ "known": "nothing" }))),
        ("/roof/rafters", unmeasured(&json!({ "known": "spacing", "spacings_mm": [600] }))),
        (
            "/roof/rafters",
            rafters(&json!({ "unmeasured": { "known": "nothing", "shown_first_mm": 100 } })),
        ),
        (
            "/roof/rafters",
            rafters(&json!({
                "unmeasured": { "known": "spacing" }, "spacing_mm": 780, "first_mm": 90,
            })),
        ),
        (
            "/roof/rafters",
            rafters(&json!({ "unmeasured": { "known": "nothing" }, "positions_mm": [50, 650] })),
        ),
        ("/components/hook", bare_hook(None)),
        ("/array", held("along_eaves", "all_hooks")),
        ("/array", held("along_eaves", "lowest_hook")),
        ("/array", held("crossing", "highest_hook")),
    ];
    for (pointer, member) in broken {
        let request = barn(pointer, &member);
        assert!(!fits(&request), "the schema takes {pointer} {member}");
        let reply = post("/v1/layouts", request.to_string().as_bytes());
        assert_eq!(reply.status, 422, "{pointer} {member}");
        let problem = reply.problem();
        let faults = problem["errors"].as_array().expect("faults");
        let beneath =
            |fault: &Value| fault["pointer"].as_str().is_some_and(|at| at.starts_with(pointer));
        assert!(faults.iter().any(beneath), "{pointer} {member}: {problem}");
    }
}

/// Zones with terrain, snow that is the same everywhere, and zones of the place.
#[test]
fn sites_of_other_countries_keep_the_rules_of_the_schema() {
    let wind = |zone: &str| json!({ "zone": zone, "terrain_category": "II" });
    let sites = [
        ("FR", json!({ "snow": { "zone": "C2" }, "wind": wind("2") })),
        ("FR", json!({ "place": "24322", "snow": {}, "wind": { "terrain_category": "II" } })),
        ("NL", json!({ "snow": { "exceptional": false }, "wind": wind("II") })),
        ("PL", json!({ "snow": { "zone": "2" }, "wind": wind("1") })),
    ];
    for (annex, site) in sites {
        let mut request = barn("/rules/annex", &json!(annex));
        request["site"] = site;
        request["site"]["altitude_m"] = json!(210);
        assert!(fits(&request), "the schema refuses {}", request["site"]);
        let reply = post("/v1/layouts?answer=summary", request.to_string().as_bytes());
        assert_eq!(reply.status, 200, "{}", reply.text());
    }
}

#[test]
fn what_keeps_the_rules_of_the_schema_is_taken() {
    let net = json!({ "suction": -1.0, "pressure": 0.5 });
    let spaced = json!({
        "first_mm": 50, "spacing_mm": 600, "count": 30, "positions_mm": [],
        "width_mm": 100, "depth_mm": 160, "strength_class": "C24",
    });
    for (pointer, member) in [
        ("/site/snow", json!({ "ground_load_kn_per_m2": 1.0 })),
        ("/site/snow", json!({ "region": "alpine", "zone": "2" })),
        ("/site/wind", json!({ "peak_pressure_kn_per_m2": 0.65 })),
        (
            "/site/wind",
            json!({
                "peak_pressure_kn_per_m2": 0.65, "model": "given", "net_coefficients": net,
            }),
        ),
        (
            "/site/wind",
            json!({
                "peak_pressure_kn_per_m2": 0.65,
                "loaded_area": { "basis": "given", "area_m2": 1.5, "reason": "a bay" },
            }),
        ),
        ("/roof/rafters", spaced),
        ("/roof/rafters", unmeasured(&json!({ "known": "spacing", "step_mm": 390 }))),
        (
            "/roof/rafters",
            unmeasured(&json!({ "known": "spacing", "step_mm": 390, "spacings_mm": [] })),
        ),
        (
            "/roof/rafters",
            rafters(&json!({ "unmeasured": { "known": "nothing", "step_mm": 400 } })),
        ),
        ("/components/hook", bare_hook(Some("S235"))),
        ("/array", held("up_slope", "lowest_hook")),
        ("/array", held("up_slope", "all_hooks")),
        ("/array", held("crossing", "all_hooks")),
    ] {
        let request = barn(pointer, &member);
        assert!(fits(&request), "the schema refuses {pointer} {member}");
        let reply = post("/v1/layouts?answer=summary", request.to_string().as_bytes());
        assert_eq!(reply.status, 200, "{pointer} {member}: {}", reply.text());
    }
}

/// Annexes read zones by themselves, over a terrain or beside a velocity, and one needs nothing of snow.
#[test]
fn the_schema_takes_every_way_an_annex_reads_its_site() {
    let exceptional = json!({ "exceptional": false });
    let given = json!({ "ground_load_kn_per_m2": 1.5, "exceptional": false });
    let over_terrain = |zone: &str| json!({ "zone": zone, "terrain_category": "II" });
    let beside_a_velocity = json!({
        "zone": "south", "basic_velocity_m_per_s": 24, "terrain_category": "II",
    });
    let by_the_shore = json!({ "basic_velocity_m_per_s": 23, "shore_distance_km": 12 });
    let near_the_shore = json!({ "terrain_category": "II", "shore_distance_km": 12 });
    for (annex, snow, wind) in [
        ("FR", json!({ "zone": "A1" }), over_terrain("2")),
        ("NL", exceptional, over_terrain("II")),
        ("DK", given.clone(), near_the_shore),
        ("NO", given, beside_a_velocity),
        ("GB", json!({ "zone": "3" }), by_the_shore),
    ] {
        let mut request = barn("/site/snow", &snow);
        request["rules"]["annex"] = json!(annex);
        request["site"]["wind"] = wind;
        assert!(fits(&request), "the schema refuses a site of {annex}");
        let reply = post("/v1/layouts?answer=summary", request.to_string().as_bytes());
        assert_eq!(reply.status, 200, "{annex}: {}", reply.text());
    }
}
