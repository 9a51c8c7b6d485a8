//! Every member of a request changes some answer, or is refused by a rule that is not the schema.
//!
//! The published description says which members there are. Each is given other values in jobs that
//! have it, or get it first. An answer counts as changed when it differs in more than the digest, the
//! reference and the text that was changed itself: a name that is only repeated is an echo, and every
//! echo is listed here with its reason. What the test cannot see is a number that an answer merely
//! repeats.

use std::collections::{BTreeMap, BTreeSet};

use hookspan::http::description::openapi_value;
use hookspan::http::job::{self, Kind};
use hookspan::service::request::Options;
use hookspan::wire::actions::ActionsRequest;
use hookspan::wire::choices::ChoicesRequest;
use hookspan::wire::layout::LayoutRequest;
use hookspan::wire::recheck::RecheckRequest;
use hookspan::wire::statement::StatementRequest;
use hookspan::wire::survey::SurveyRequest;
use serde_json::{Value, json};

/// Members that change nothing in the answers of some requests, or are only repeated there; a name
/// that ends with a stroke stands for all below it. And why.
const WITHOUT_EFFECT: &[(&[&str], &[&str], &str)] = &[
    (ALL, &["/reference"], "the caller's own name of the job, repeated"),
    (&["ChoicesRequest"], &["/reference"], "the caller's own name of the question, repeated"),
    (ALL, &["/rules/family"], "there is one family so far"),
    (
        ALL,
        &[
            "/components/screw/spacings/source",
            "/site/wind/loaded_area/reason",
            "/site/wind/equalisation/evidence",
            "/roof/covering/guild_pitch/source",
            "/roof/covering/maker_pitch/source",
            "/roof/covering/maker_pitch/agreed_in",
            "/roof/covering/underlay/source",
            "/roof/edge_distances/*/source",
            "/roof/party_walls/*/fire_distance/source",
            "/declarations/*/who",
            "/declarations/*/document",
        ],
        "evidence, repeated in the answer",
    ),
    (&JOBS, &["/array/fields/*/id"], "a name, repeated in those of rails and modules"),
    (
        &BUILT_JOBS,
        &["/array/fields/*/fill/"],
        "refused: what stands on a roof is surveyed and checked as it is",
    ),
    (
        &BUILT_JOBS,
        &["/components/rail/crossing/"],
        "rails that cross are laid out only: a job whose rails do is refused",
    ),
    (&["RecheckRequest"], &["/built/hooks/*/id"], "by which the answer speaks of the hook"),
    (&["LayoutRequest"], &["/kept/hooks/*/id"], "by which the answer says which hook it is"),
    (
        ALL,
        &[
            "/components/hook/id",
            "/components/hook/name",
            "/components/screw/id",
            "/components/rail/id",
            "/components/rail/material",
            "/components/clamp/id",
            "/components/packers/id",
        ],
        "names of parts, repeated where parts are counted and printed on the sheet",
    ),
    (
        &JOBS,
        &["/components/screw/head_diameter_mm"],
        "describe the part on the sheet; no check of this version needs them",
    ),
    (
        &BUILT_JOBS,
        &[
            "/wishes/order/",
            "/components/rail/kerf_mm",
            "/components/rail/splice_length_mm",
            "/components/hook/mass_kg",
        ],
        "for the order of parts, which a layout has",
    ),
    (
        &BUILT_JOBS,
        &["/roof/rafters/unmeasured/"],
        "refused: what stands on a roof has rafters that were found",
    ),
    (&BUILT_JOBS, &["/wishes/objective", "/wishes/arm_position"], "what is built is not laid out"),
    (
        &JOBS,
        &[
            "/components/hook/evidence/*/document",
            "/components/screw/evidence/*/document",
            "/components/rail/evidence/*/document",
            "/components/clamp/evidence/*/document",
            "/array/module/evidence/*/document",
            "/array/fields/*/module/evidence/*/document",
        ],
        "evidence, repeated in the answer",
    ),
    (
        &JOBS,
        &["/components/screw/evidence/*/series/partial_factor"],
        "refused: no figure of a screw is a design value",
    ),
    (
        &BUILT_JOBS,
        &["/components/rail/evidence/*/series/partial_factor"],
        "only a splice moment is a design value, and how much that is does not matter there",
    ),
    (
        &["StatementRequest"],
        &[
            "/maker",
            "/document",
            "/hook/evidence/*/document",
            "/screw/evidence/*/document",
            "/rail/evidence/*/document",
            "/clamp/evidence/*/document",
            "/module/evidence/*/document",
        ],
        "who states it and where, repeated in the answer",
    ),
    (
        &["StatementRequest"],
        &["/screw/evidence/*/series/partial_factor"],
        "refused: no figure of a screw is a design value",
    ),
    (&["StatementRequest"], &["/rules/family"], "there is one family so far"),
    (
        &["StatementRequest"],
        &[
            "/hook/id",
            "/hook/name",
            "/hook/arm/grade",
            "/hook/bolt/class",
            "/hook/stiffness/includes_foot",
            "/screw/id",
            "/screw/predrilled",
            "/screw/spacings/source",
            "/rail/id",
            "/rail/material",
            "/rail/stock_lengths_mm/*",
            "/clamp/id",
        ],
        "no figures: they are printed on the form and count where a job takes the part",
    ),
    (
        &["ActionsRequest"],
        &["/components/rail/", "/components/clamp/"],
        "parts are given as they are to a layout; only their mass acts",
    ),
];

/// Members below a listed name that do have an effect.
const YET_OF_EFFECT: &[(&str, &str)] = &[
    ("ActionsRequest", "/components/rail/mass_kg_per_m"),
    ("ActionsRequest", "/components/clamp/mass_kg"),
];

const ALL: &[&str] = &["LayoutRequest", "RecheckRequest", "SurveyRequest", "ActionsRequest"];
const JOBS: [&str; 3] = ["LayoutRequest", "RecheckRequest", "SurveyRequest"];
const BUILT_JOBS: [&str; 2] = ["RecheckRequest", "SurveyRequest"];

fn is_without_effect(request: &str, member: &str) -> bool {
    let listed = WITHOUT_EFFECT.iter().any(|(requests, members, _)| {
        let is = |name: &&str| *name == member || name.ends_with('/') && member.starts_with(*name);
        requests.contains(&request) && members.iter().any(is)
    });
    listed && !YET_OF_EFFECT.contains(&(request, member))
}

/// A member: its place, with `*` for any entry of a list, and what may stand there.
type Members = BTreeMap<String, Vec<&'static Value>>;

/// Adds the members below a schema that are no objects or lists.
fn members(schema: &'static Value, at: &str, found: &mut Members) {
    if let Some(target) = schema["$ref"].as_str() {
        let target = openapi_value().pointer(target.trim_start_matches('#'));
        return members(target.expect("a reference leads somewhere"), at, found);
    }
    let choices = ["oneOf", "anyOf", "allOf"].map(|choice| schema[choice].as_array());
    let choices: Vec<_> = choices.into_iter().flatten().flatten().collect();
    let properties = schema["properties"].as_object();
    for choice in &choices {
        members(choice, at, found);
    }
    for (name, member) in properties.into_iter().flatten() {
        members(member, &format!("{at}/{name}"), found);
    }
    if schema["type"] == "array" {
        members(&schema["items"], &format!("{at}/*"), found);
    } else if choices.is_empty() && properties.is_none() {
        found.entry(at.to_owned()).or_default().push(schema);
    }
}

/// Other values than `now` that may stand in a place, those near it first.
fn others(schemas: &[&Value], now: Option<&Value>) -> Vec<Value> {
    let of = |schema: &&Value| -> Vec<Value> {
        if let Some(names) = schema["enum"].as_array() {
            return names.clone();
        }
        let ends = ["minimum", "maximum"].map(|end| schema[end].as_f64());
        let [least, most] = [ends[0].unwrap_or(-1e6), ends[1].unwrap_or(1e6)];
        let numbers = |near: &[f64]| {
            let within = near.iter().copied().filter(|x| (least..=most).contains(x));
            within.collect::<Vec<f64>>()
        };
        match schema["type"].as_str() {
            Some("boolean") => vec![json!(true), json!(false)],
            Some("integer") => {
                let now = now.and_then(Value::as_f64).unwrap_or(least + 1.0).round();
                let near = numbers(&[now + 1.0, now - 1.0, now + 4.0, least, most]);
                near.into_iter().map(|x| json!(x)).collect()
            }
            Some("number") => {
                let middle = f64::midpoint(least, most);
                let now = now.and_then(Value::as_f64).unwrap_or(middle);
                let near = [now * 1.2, now * 0.8, now + 30.0, now - 30.0];
                let far = [now * 0.3, least, most];
                let all = numbers(&[&near[..], &far].concat());
                all.into_iter().map(|x| json!(x)).collect()
            }
            Some("string") => {
                // One that is part of what stands there could not be told from its echo.
                let now = now.and_then(Value::as_str).unwrap_or_default();
                let names = ["1", "2", "3", "another", "EN"];
                names.into_iter().filter(|name| !now.contains(name)).map(Value::from).collect()
            }
            kind => panic!("a member of the kind {kind:?}"),
        }
    };
    let all = schemas.iter().flat_map(of).filter(|value| Some(value) != now);
    all.collect()
}

/// The places of a member in a document: of a list the first entry and the last. A member that is
/// not there has the place it would have.
fn places(document: &Value, member: &str) -> Vec<String> {
    let mut found = vec![String::new()];
    for step in member.split('/').skip(1) {
        found = found
            .into_iter()
            .flat_map(|at| match document.pointer(&at) {
                Some(Value::Array(items)) if step == "*" && !items.is_empty() => {
                    let mut ends = vec![0, items.len() - 1];
                    ends.dedup();
                    ends.into_iter().map(|i| format!("{at}/{i}")).collect()
                }
                Some(Value::Array(_) | Value::String(_) | Value::Number(_)) => Vec::new(),
                _ if step == "*" => Vec::new(),
                _ => vec![format!("{at}/{step}")],
            })
            .collect();
    }
    found
}

/// The document with a value in a place, and objects around it where there are none.
fn with(document: &Value, at: &str, value: Value) -> Value {
    let mut document = document.clone();
    let mut place = &mut document;
    for step in at.split('/').skip(1) {
        place = match place {
            Value::Array(items) => &mut items[step.parse::<usize>().expect("an index")],
            object => &mut object[step],
        };
    }
    *place = value;
    document
}

/// What a request is answered with: nothing where its schema refuses it, and no answer where
/// another rule does.
fn asked<R: Kind>(document: &Value) -> Option<Result<Value, String>> {
    if !R::contract().faults(document).is_empty() {
        return None;
    }
    let answer = job::answer::<R>(document.to_string().as_bytes(), &Options::default());
    Some(answer.map_err(|problem| format!("{problem:?}")).map(|answer| {
        let mut answer = serde_json::to_value(answer).expect("an answer is JSON");
        for at in ["", "/record/recorded"] {
            if let Some(Value::Object(members)) = answer.pointer_mut(at) {
                members.retain(|name, _| {
                    !matches!(name.as_str(), "reference" | "input_digest" | "job_key")
                });
            }
        }
        answer
    }))
}

/// What giving a member another value does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Effect {
    Nothing,
    Echo,
    Refused,
    Changed,
}

/// What changing a value does to a job that is answered.
fn effect<R: Kind>(before: &Value, now: Option<&Value>, changed: &Value, to: &Value) -> Effect {
    match asked::<R>(changed) {
        None => Effect::Nothing,
        Some(Err(_)) => Effect::Refused,
        Some(Ok(after)) if after == *before => Effect::Nothing,
        Some(Ok(after)) => {
            let names = now.and_then(Value::as_str).zip(to.as_str());
            let echo = names.is_some_and(|(old, new)| {
                after.to_string().replace(new, old) == before.to_string().replace(new, old)
            });
            if echo { Effect::Echo } else { Effect::Changed }
        }
    }
}

/// The most that other values of a member do in one of these jobs.
fn most<R: Kind>(member: &str, schemas: &[&Value], jobs: &[(Value, Value)]) -> Effect {
    let mut most = Effect::Nothing;
    // Whatever changes changes the digest, and an answer says when that is not the recorded one.
    let of_record = member.starts_with("/recorded/");
    let names = ["/recorded/input_digest", "/recorded/job_key"];
    let is_asked = |job: &Value| of_record || names.iter().all(|name| job.pointer(name).is_none());
    for (job, answer) in jobs.iter().filter(|(job, _)| is_asked(job)) {
        for at in places(job, member) {
            let now = job.pointer(&at);
            let given: Vec<(Value, Value)> = if now.is_some() {
                vec![(job.clone(), answer.clone())]
            } else {
                // What is not there is put there first, so that what changes is its value.
                let jobs = others(schemas, None).into_iter().map(|value| with(job, &at, value));
                let answered = |job: Value| Some((asked::<R>(&job)?.ok()?, job));
                jobs.filter_map(answered).map(|(answer, job)| (job, answer)).take(1).collect()
            };
            for (job, answer) in given {
                let now = job.pointer(&at);
                for value in others(schemas, now) {
                    let changed = with(&job, &at, value.clone());
                    most = most.max(effect::<R>(&answer, now, &changed, &value));
                    if most == Effect::Changed {
                        return most;
                    }
                }
            }
        }
    }
    most
}

/// Jobs that are answered, with their answers.
fn answered<R: Kind>(jobs: Vec<Value>) -> Vec<(Value, Value)> {
    let answer = |job: Value| {
        let answer = asked::<R>(&job).expect("a job that its schema lets pass");
        (job, answer.expect("a job that is answered"))
    };
    jobs.into_iter().map(answer).collect()
}

/// A document with patches, each a pointer and a value; null takes a member away.
pub fn patched(document: Value, patches: &[(&str, Value)]) -> Value {
    patches.iter().fold(document, |document, (at, value)| {
        let mut document = with(&document, at, value.clone());
        let (parent, last) = at.rsplit_once('/').expect("a pointer");
        if let (Value::Null, Some(Value::Object(members))) = (value, document.pointer_mut(parent)) {
            members.remove(last);
        }
        document
    })
}

/// An example with patches. Only one row of four modules is left of it, and the rails and hooks below
/// that.
fn job(text: &str, patches: &[(&str, Value)]) -> Value {
    let mut job: Value = serde_json::from_str(text).expect("an example is JSON");
    if let Some(field) = job.pointer_mut("/array/fields/0") {
        field["rows"] = json!(1);
        field["columns"] = json!(4);
    }
    let is_left = |rail: &Value| rail == "A1" || rail == "A2";
    let stands = |x: &Value| x.as_f64().is_some_and(|x| x < 5000.0);
    let mut keep = |list: &str, is_kept: &dyn Fn(&Value) -> bool| {
        if let Some(Value::Array(items)) = job.pointer_mut(list) {
            items.retain(is_kept);
        }
    };
    keep("/built/rails", &|rail| is_left(&rail["id"]));
    keep("/built/hooks", &|hook| is_left(&hook["rail"]) && stands(&hook["x_mm"]));
    keep("/measured/hooks", &|hook| stands(&hook["rafter_x_mm"]));
    patched(job, patches)
}

fn every_member_does_something<R: Kind>(name: &str, jobs: Vec<Value>) {
    let found = members_of(name);
    assert!(found.len() > 50, "only {} members were found", found.len());
    these_do_something::<R>(name, &found, jobs);
}

fn members_of(name: &str) -> Members {
    let mut found = Members::new();
    members(&openapi_value()["components"]["schemas"][name], "", &mut found);
    found
}

fn these_do_something<R: Kind>(name: &str, found: &Members, jobs: Vec<Value>) {
    let jobs = answered::<R>(jobs);
    let (mut wrong, mut refused) = (Vec::new(), Vec::new());
    for (member, schemas) in found {
        let without = is_without_effect(name, member);
        match most::<R>(member, schemas, &jobs) {
            Effect::Changed if !without => {}
            Effect::Refused if !without => refused.push(member),
            Effect::Nothing | Effect::Echo | Effect::Refused if without => {}
            effect => wrong.push(format!("{member}: {effect:?}")),
        }
    }
    println!("{name}: {} members, seen by a refusal alone: {refused:?}", found.len());
    assert!(wrong.is_empty(), "{name}:\n{}", wrong.join("\n"));
}

const BARN: &str = include_str!("../data/layout-barn.json");
const CHOICES: &str = include_str!("../data/choices-barn.json");
const COTTAGE: &str = include_str!("../data/layout-cottage.json");
const TERRACE: &str = include_str!("../data/layout-terrace.json");
const BOATHOUSE: &str = include_str!("../data/layout-boathouse.json");
const STABLE: &str = include_str!("../data/layout-stable.json");
const BUILT: &str = include_str!("../data/recheck-barn.json");
const TERRACE_BUILT: &str = include_str!("../data/recheck-terrace.json");
const SURVEY: &str = include_str!("../data/survey-barn.json");
const STATEMENT: &str = include_str!("../data/statement-trough-hook.json");
const ACTIONS: &str = include_str!("../data/actions-barn.json");

type Patches = Vec<(&'static str, Value)>;

/// A part of an example.
fn part(text: &str, at: &str) -> Value {
    let example: Value = serde_json::from_str(text).expect("an example is JSON");
    example.pointer(at).expect("a part of the example").clone()
}

/// The site by basic velocity and by a map of Europe.
fn by_velocity() -> Patches {
    let wind = json!({
        "basic_velocity_m_per_s": 25.0, "terrain_category": "II", "orography_factor": 1.1,
        "model": "roof_surface",
        "loaded_area": {"basis": "given", "area_m2": 1.6, "reason": "bay times half a module"},
    });
    vec![
        ("/rules", json!({"family": "eurocode", "annex": "EN", "revision": "EN-2"})),
        ("/site/snow", json!({"region": "central_east", "zone": "2", "exceptional": true})),
        ("/site/wind", wind),
    ]
}

/// The site by a velocity of a map and the distance from the shore.
fn by_shore() -> Patches {
    let wind = json!({ "basic_velocity_m_per_s": 23.0, "shore_distance_km": 12.0 });
    vec![
        ("/rules", json!({"family": "eurocode", "annex": "GB", "revision": "GB-1"})),
        ("/site/snow", json!({"zone": "3", "exceptional": false})),
        ("/site/wind", wind),
    ]
}

/// The site by given loads.
fn given() -> Patches {
    let wind = json!({
        "peak_pressure_kn_per_m2": 0.7, "model": "given",
        "net_coefficients": {"suction": -1.1, "pressure": 0.4},
    });
    vec![
        (
            "/site/snow",
            json!({
                "ground_load_kn_per_m2": 1.2, "exceptional": true, "exceptional_load_kn_per_m2": 2.5,
            }),
        ),
        ("/site/wind", wind),
    ]
}

/// The site by its place.
fn by_place() -> Patches {
    vec![
        ("/rules", json!({"family": "eurocode", "annex": "FR", "revision": "FR-1"})),
        ("/site/place", json!("24322")),
        ("/site/snow", json!({})),
        ("/site/wind", json!({"terrain_category": "IIIa"})),
    ]
}

/// The site by a share of the coefficients of the roof.
fn equalised() -> Patches {
    let wind = json!({
        "zone": "2", "setting": "inland", "model": "equalised",
        "equalisation": {
            "suction_factor": 0.7, "pressure_factor": 0.9, "evidence": "a wind-tunnel report",
        },
    });
    vec![("/site/wind", wind)]
}

/// What a job can say of roof and parts and no example does, and flaws that let it matter.
fn more_of_the_roof() -> Patches {
    let chimney = json!([[4260, 1300], [4650, 1300], [4650, 1700], [4260, 1700]]);
    let rafters = json!({
        "first_mm": 80.0, "spacing_mm": 780.0, "count": 16, "width_mm": 80.0, "depth_mm": 160.0,
        "strength_class": "C24", "span_m": 3.4, "existing_load_kn_per_m2": 0.8, "barred": [2],
    });
    vec![
        ("/roof/rafters", rafters),
        ("/roof/obstacles/0/outline_mm", chimney),
        ("/roof/obstacles/0/cuts_rafters", json!([5])),
        ("/roof/covering/tile/nib_offsets_mm", json!([60.0, 120.0])),
        ("/components/hook/resistance/kind", json!("characteristic")),
        ("/components/hook/resistance/partial_factor", json!(1.25)),
        ("/components/hook/arm/underside_height_mm", json!(64.0)),
        ("/components/hook/arm/underside_at_bolt_mm", json!(68.0)),
        ("/components/hook/substitute_tiles", json!(0)),
        ("/array/fields/0/omitted", json!([[0, 3]])),
    ]
}

/// Screws placed by their approval, which come out of a thin rafter, and a bolt in a firm slot.
fn approved() -> Patches {
    let spacings = json!({
        "a1_mm": 61.0, "a2_mm": 29.0, "edge_mm": 20.0, "timber_mm": 96.0, "source": "an approval",
    });
    vec![
        ("/roof/rafters/depth_mm", json!(90.0)),
        ("/components/screw/spacings", spacings),
        ("/components/screw/point_mm", json!(10.0)),
        (
            "/components/hook/bolt",
            json!({"diameter_mm": 10, "class": "A2-70", "slot_slip_kn": 40.0}),
        ),
        ("/components/hook/resistance/includes_bolt", json!(false)),
    ]
}

/// A hook nothing is declared of but its bar.
fn undeclared() -> Patches {
    vec![
        ("/components/hook/resistance", Value::Null),
        ("/components/hook/stiffness", Value::Null),
        ("/components/hook/arm/grade", json!("1.4301")),
        ("/components/hook/arm/load_aside_mm", json!(5.0)),
        ("/components/rail/splice_moment", json!({"normal_knm": 0.5, "slope_knm": 0.3})),
        ("/components/rail/effective_share", json!(0.9)),
        ("/components/rail/stock_lengths_mm", json!([1650.0])),
    ]
}

/// A bolt of its own, a rail beside it, stops and a truss.
fn bolted() -> Patches {
    vec![
        ("/components/hook/bolt", json!({"diameter_mm": 8, "class": "8.8", "slot_slip_kn": 0.9})),
        ("/components/hook/resistance/includes_bolt", json!(false)),
        ("/components/hook/resistance/includes_offset_mm", json!(5.0)),
        ("/components/rail/axis_offset_mm", json!(20.0)),
        ("/components/clamp/slope_stop_kn", json!(2.5)),
        ("/roof/rafters/trussed", json!(true)),
    ]
}

/// A job of which not everything is asked, and of which somebody answers for something.
fn declared() -> Patches {
    let declared = |check: &str| json!({"check": check, "by": "tested", "who": "a laboratory", "document": "report 7"});
    let checks = ["hook.resistance-basis-unknown", "clamp.slip-unknown"];
    vec![
        ("/scopes", json!(["modules", "rail"])),
        ("/declarations", checks.map(declared).into()),
        ("/components/hook/resistance/basis", json!("unknown")),
        ("/components/clamp/slope_kn", Value::Null),
    ]
}

/// A figure that rests on tests.
fn tested(figure: &str, values: [f64; 3], partial_factor: Option<f64>) -> Value {
    let mut series = json!({
        "values": values, "distribution": "normal", "known_variation": 0.08,
    });
    if let Some(factor) = partial_factor {
        series["partial_factor"] = json!(factor);
    }
    json!([{"figure": figure, "by": "test", "document": "report 7", "series": series}])
}

/// Parts whose makers say what a figure of theirs rests on.
fn stated() -> Patches {
    vec![
        ("/components/hook/resistance/basis", json!("test")),
        ("/components/hook/evidence", tested("/resistance/lift_kn", [4.0, 4.2, 4.1], Some(1.25))),
        ("/components/screw/evidence", tested("/tension_kn", [28.0, 29.0, 27.0], None)),
        (
            "/components/rail/evidence",
            tested("/proof_strength_n_per_mm2", [241.0, 243.0, 239.0], None),
        ),
        ("/components/clamp/evidence", tested("/lift_kn", [3.5, 3.6, 3.7], Some(1.25))),
        ("/array/module/evidence", tested("/lift_capacity_kn_per_m2", [3.2, 3.0, 3.1], Some(1.25))),
    ]
}

/// A field with a module of its own, stated by its maker, and one with that of the job.
fn own_module() -> Patches {
    let mut own = part(BARN, "/array/fields/0");
    (own["rows"], own["columns"]) = (json!(1), json!(4));
    own["module"] = part(BARN, "/array/module");
    own["module"]["evidence"] = tested("/lift_capacity_kn_per_m2", [3.2, 3.0, 3.1], Some(1.25));
    vec![("/array/fields", json!([own, of_the_job()]))]
}

/// The same with modules that lie landscape.
fn own_module_landscape() -> Patches {
    let mut own = part(BARN, "/array/fields/0");
    (own["rows"], own["columns"], own["orientation"]) = (json!(1), json!(2), json!("landscape"));
    own["module"] = part(BARN, "/array/module");
    for (member, value) in [
        ("length_mm", json!(2300.0)),
        ("width_mm", json!(1762.0)),
        ("short_side_clamp_zone_mm", json!([250.0, 550.0])),
    ] {
        own["module"][member] = value;
    }
    let covering = part(COTTAGE, "/roof/covering");
    vec![("/array/fields", json!([own, of_the_job()])), ("/roof/covering", covering)]
}

/// A field that names no module.
fn of_the_job() -> Value {
    let mut field = part(BARN, "/array/fields/0");
    (field["id"], field["origin_mm"]) = (json!("S"), json!([8000.0, 900.0]));
    (field["rows"], field["columns"]) = (json!(1), json!(2));
    field
}

/// A wall beside the slope, a valley below it, and a dormer on it.
fn walled() -> Patches {
    let dormer = json!({
        "kind": "dormer", "height_mm": 1200.0, "drift_shape_factor": 1.4, "cuts_no_rafter": true,
        "outline_mm": [[6000, 1000], [7200, 1000], [7200, 2600], [6000, 2600]],
    });
    let wall = json!({
        "side": 1, "height_m": 6.0, "least_height_m": 2.0, "upper_width_m": 3.0,
        "upper_pitch_deg": 30.0, "upper_run_m": 3.0,
    });
    vec![
        ("/roof/edges", json!(["valley", "abutment", "ridge", "verge"])),
        ("/roof/abutments", json!([wall])),
        ("/roof/valleys", json!([{"side": 0, "other_pitch_deg": 10.0}])),
        ("/roof/obstacles", json!([dormer])),
        ("/roof/outline_mm", json!([[0, 0], [7400, 0], [7400, 5786], [0, 5786]])),
    ]
}

/// A house in a row, flatter than the rule pitch of its tiles, with the array close to its edges.
fn in_a_row() -> Patches {
    let wall = json!({
        "side": 1, "roof_beyond_m": 1.0, "wall_on_slope_mm": 120.0,
        "fire_distance": {"least_mm": 500.0, "source": "building regulations"},
    });
    let near = json!({"edge": "verge", "part": "rails", "least_mm": 900.0, "source": "a maker"});
    vec![
        ("/roof/outline_mm", json!([[0, 0], [5700, 0], [5700, 5786], [0, 5786]])),
        ("/roof/edges", json!(["eaves", "party_wall", "ridge", "verge"])),
        ("/roof/party_walls", json!([wall])),
        ("/roof/edge_distances", json!([near])),
        ("/roof/obstacles", json!([])),
        ("/roof/pitch_deg", json!(25.0)),
        (
            "/roof/covering/guild_pitch",
            json!({"rule_pitch_deg": 30.0, "least_pitch_deg": 18.0, "source": "a rule"}),
        ),
        ("/roof/covering/underlay", json!({"class": 4, "source": "seen"})),
        ("/roof/covering/hook_passage", json!("universal_part")),
    ]
}

/// The same where the maker's pitch is agreed.
fn by_its_maker() -> Patches {
    let maker = json!({
        "rule_pitch_deg": 27.0, "least_pitch_deg": 15.0, "source": "a data sheet",
        "agreed_in": "a contract",
    });
    let mut patches = in_a_row();
    patches.push(("/roof/covering/maker_pitch", maker));
    patches
}

fn jobs(text: &str, more: &[Patches]) -> Vec<Value> {
    let patches = [
        by_velocity(),
        by_shore(),
        given(),
        equalised(),
        by_place(),
        more_of_the_roof(),
        approved(),
        bolted(),
        undeclared(),
        walled(),
        in_a_row(),
        by_its_maker(),
        declared(),
        stated(),
        own_module(),
        own_module_landscape(),
    ];
    patches.iter().chain(more).map(|patches| job(text, patches)).collect()
}

#[test]
fn of_a_layout() {
    let every = json!({"spare_percent": 10.0, "pack_size": 3});
    let kinds = [
        "hook",
        "screw",
        "substitute_tile",
        "packer",
        "bolt_set",
        "splice",
        "mid_clamp",
        "end_clamp",
        "end_cap",
    ];
    let allowances: Value = kinds.iter().map(|kind| (*kind, every.clone())).collect();
    let order =
        json!({"stock_aim": "least_length", "min_piece_mm": 300.0, "allowances": allowances});
    let ordered = vec![
        ("/wishes/order", order),
        ("/array/fields/0/rows", json!(2)),
        ("/array/fields/0/omitted", json!([[1, 3]])),
        ("/components/rail/stock_lengths_mm", json!([3600.0, 5000.0, 9600.0])),
        ("/components/hook/arm/underside_height_mm", json!(64.0)),
    ];
    let splices = vec![
        ("/components/rail/splice_moment", json!({"normal_knm": 0.5, "slope_knm": 0.3})),
        (
            "/components/rail/evidence",
            tested("/splice_moment/normal_knm", [1.1, 1.2, 1.0], Some(1.1)),
        ),
    ];
    let mut jobs = jobs(BARN, &[ordered, splices]);
    jobs.push(job(COTTAGE, &[("/array/fields/0/omitted", json!([]))]));
    jobs.push(job(BARN, &[("/capacity", json!(false))]));
    jobs.push(job(BARN, &[("/savings", json!(false))]));
    jobs.push(job(
        COTTAGE,
        &[
            ("/room_to_move", json!({"tolerance_mm": 10.0})),
            ("/array/fields/0/rows", json!(1)),
            ("/array/fields/0/columns", json!(2)),
            ("/array/fields/0/omitted", json!([])),
        ],
    ));
    jobs.push(job(
        BARN,
        &[("/remedies", json!(true)), ("/components/screw/length_mm", json!(80.0))],
    ));
    let landscape = vec![
        ("/array/fields", json!([part(STABLE, "/array/fields/1")])),
        ("/array/fields/0/rows", json!(1)),
        ("/array/fields/0/columns", json!(4)),
    ];
    jobs.push(job(STABLE, &landscape));
    let mut filled = part(BARN, "/array/fields/0");
    for given in ["origin_mm", "rows", "columns", "omitted"] {
        filled.as_object_mut().expect("a field").remove(given);
    }
    filled["fill"] = json!({
        "region_mm": [[1000, 300], [7000, 300], [2500, 5400]], "rows": "aligned", "most_modules": 4,
    });
    jobs.push(job(BARN, &[("/array/fields/0", filled)]));
    let shifted = json!([0.0, 400.0]);
    let rows = [("/array/fields/0/rows", json!(2)), ("/array/fields/0/row_shifts_mm", shifted)];
    jobs.push(job(BARN, &rows));
    let of_short_bars = [("/components/rail/stock_lengths_mm", json!([2000.0]))];
    jobs.push(patched(serde_json::from_str(TERRACE).expect("an example"), &of_short_bars));
    jobs.extend(kept());
    let there = terrace_built()["built"].clone();
    jobs.push(patched(serde_json::from_str(TERRACE).expect("an example"), &[("/kept", there)]));
    jobs.push(serde_json::from_str(BOATHOUSE).expect("an example"));
    jobs.extend(unmeasured());
    every_member_does_something::<LayoutRequest>("LayoutRequest", jobs);
}

/// Layouts with rafters that nobody has seen yet.
fn unmeasured() -> [Value; 2] {
    let of = |rafters: Value| {
        let mut all = json!({"width_mm": 100.0, "depth_mm": 160.0, "strength_class": "C24"});
        let said = rafters.as_object().expect("members").clone();
        all.as_object_mut().expect("rafters").extend(said);
        job(BARN, &[("/roof/rafters", all)])
    };
    [
        of(json!({"spacing_mm": 780.0, "unmeasured": {
            "known": "spacing", "step_mm": 400.0, "shown_first_mm": 100.0,
        }})),
        of(
            json!({"unmeasured": {"known": "nothing", "step_mm": 500.0, "spacings_mm": [700.0, 850.0]}}),
        ),
    ]
}

/// Layouts beside what the example of a recheck has on the roof.
fn kept() -> Vec<Value> {
    let beside = |built: &[(&'static str, Value)], more: Patches| {
        let there = job(BUILT, built)["built"].clone();
        job(BARN, &[&[("/kept", there)][..], &more].concat())
    };
    let [arms, _, all_found, spliced] = built();
    let of = |patches: &Patches, kept: bool| -> Patches {
        let own = patches.iter().filter(|(at, _)| at.starts_with("/built/") == kept);
        own.cloned().collect()
    };
    let ways = [arms, all_found, spliced];
    ways.iter().map(|way| beside(&of(way, true), of(way, false))).collect()
}

/// A building has the members of a layout, roof and array on each slope, and a name for it. That each slope is
/// what its layout says of them is for `buildings.rs` here and among the tests of the routes.
#[test]
fn of_a_building() {
    let of = |name: &str| -> BTreeSet<String> { members_of(name).into_keys().collect() };
    let on_slope = |member: String| {
        let own = ["/roof/", "/array/"].iter().any(|start| member.starts_with(start));
        if own { format!("/slopes/*{member}") } else { member }
    };
    // What is there already has the names of the rails of one slope, and what would save hooks and how far they may
    // stand is asked of one: such a slope is laid out by itself.
    let alone = |member: &String| {
        member == "/savings" || ["/kept/", "/room_to_move/"].iter().any(|of| member.starts_with(of))
    };
    let of_layout = of("LayoutRequest").into_iter().filter(|member| !alone(member));
    let mut expected: BTreeSet<String> = of_layout.map(on_slope).collect();
    expected.insert("/slopes/*/id".to_owned());
    assert!(expected.len() > 100, "only {} members were found", expected.len());
    assert_eq!(of("BuildingRequest"), expected);
}

/// What encloses a job has all of its members: that a choice is what a layout says of the job with it is for
/// `choices.rs` here and among the tests of the routes. Parts that may be taken are those of a job.
#[test]
fn of_choices() {
    let mut found = members_of("ChoicesRequest");
    let mut expected = BTreeSet::new();
    for member in members_of("LayoutRequest").into_keys() {
        for kind in ["hook", "screw", "rail", "clamp"] {
            if let Some(of_part) = member.strip_prefix(&format!("/components/{kind}/")) {
                expected.insert(format!("/choices/{kind}s/*/{kind}/{of_part}"));
            }
        }
        expected.insert(format!("/job{member}"));
    }
    assert!(expected.len() > 200, "only {} members were found", expected.len());
    let enclosed = |member: &String| expected.contains(member);
    let known: BTreeSet<String> = found.keys().filter(|at| enclosed(at)).cloned().collect();
    assert_eq!(known, expected);
    found.retain(|member, _| !enclosed(member));
    let mut fixings: Value = serde_json::from_str(CHOICES).expect("an example is JSON");
    fixings["job"] = job(BARN, &[]);
    fixings["choices"]["positions"] = json!([{
        "fields": ["A"], "right": {"from_mm": 0, "to_mm": 30, "step_mm": 30},
        "up": {"from_mm": 0, "to_mm": 10, "step_mm": 10},
    }]);
    fixings["choices"]["screws"].as_array_mut().expect("a list").truncate(1);
    let aims = ["hooks", "price", "mass", "tiles_lifted", "minutes"];
    fixings["aim"] = aims.iter().map(|aim| ((*aim).to_owned(), json!(1.0))).collect();
    let mut rails = fixings.clone();
    rails["job"]["components"]["rail"]["stock_lengths_mm"] = json!([2000.0]);
    rails["choices"] = json!({});
    for kind in ["rail", "clamp"] {
        let mut listed = json!({"price": 7.0, "minutes": 1.0});
        listed[kind] = rails["job"]["components"][kind].clone();
        listed[kind]["id"] = json!("other");
        rails["choices"][format!("{kind}s")] = json!([listed]);
    }
    for kind in ["packer", "end_cap", "module", "lifted_tile", "substitute_tile", "bolt_set"] {
        rails["rates"][kind] = json!({"price": 2.0, "minutes": 1.0});
    }
    rails["rows"] = json!(3);
    rails["least_verdict"] = json!("incomplete");
    these_do_something::<ChoicesRequest>("ChoicesRequest", &found, vec![fixings, rails]);
}

/// Ways a built job can be besides those of the example.
fn built() -> [Patches; 4] {
    let found = json!({
        "rafter_x_mm": 2425.0, "rafter_width_mm": 90.0, "rafter_condition": "split", "counter_batten_mm": 28.0,
        "clearance_mm": 6.0, "side_joint_mm": 20.0, "screw_length_mm": 140.0,
    });
    let arms = vec![
        ("/array/fields/0/rows", json!(2)),
        ("/array/fields/0/omitted", json!([[1, 3]])),
        ("/array/fields/0/row_shifts_mm", json!([0.0, 0.0])),
        ("/components/rail/stock_lengths_mm", json!([2200.0])),
        ("/built/hooks/0/arm_x_mm", json!(880.0)),
        ("/built/hooks/0/packers_mm", json!([3.0])),
        ("/built/hooks/1/found", found),
    ];
    let landscape = vec![
        ("/array/module/length_mm", json!(2300.0)),
        ("/array/module/width_mm", json!(1762.0)),
        ("/array/module/short_side_clamp_zone_mm", json!([250.0, 550.0])),
        ("/array/fields/0/orientation", json!("landscape")),
        ("/array/fields/0/columns", json!(2)),
        ("/roof/covering", part(COTTAGE, "/roof/covering")),
    ];
    let all_found = json!({
        "rafter_x_mm": 3975.0, "rafter_width_mm": 90.0, "counter_batten_mm": 28.0,
        "clearance_mm": 6.0, "side_joint_mm": 20.0, "slot_mm": 12.0, "screw_length_mm": 140.0,
    });
    // Splices so weak that what they bear decides the rail.
    let spliced = vec![
        ("/components/rail/stock_lengths_mm", json!([2200.0])),
        ("/components/rail/splice_moment", json!({"normal_knm": 0.02, "slope_knm": 0.01})),
        ("/built/rails/0/splices_mm", json!([2700.0, 4800.0])),
    ];
    [arms, landscape, vec![("/built/hooks/5/found", all_found)], spliced]
}

/// A built job with rails up the slope, made of short bars.
fn terrace_built() -> Value {
    let of_short_bars = [
        ("/components/rail/stock_lengths_mm", json!([2000.0])),
        ("/built/rails/0/splices_mm", json!([2800.0])),
        ("/built/hooks/1/arm_x_mm", json!(1002.0)),
        ("/components/rail/groove_slip_kn", json!(0.3)),
        ("/array/rails_held_by", json!("lowest_hook")),
    ];
    patched(serde_json::from_str(TERRACE_BUILT).expect("an example"), &of_short_bars)
}

#[test]
fn of_a_recheck() {
    let plain = job(BUILT, &[("/recorded", Value::Null)]);
    let [digest, key] =
        ["input_digest", "job_key"].map(|name| asked_for::<RecheckRequest>(&plain, name));
    let recorded = json!({
        "engine_version": env!("CARGO_PKG_VERSION"), "engine_model": 4, "rules_revision": "DE-4", "verdict": "fails",
        "max_utilisation": 0.9, "input_digest": digest,
    });
    let recorded = vec![("/recorded", recorded)];
    let keyed = vec![("/recorded", json!({"job_key": key}))];
    let asked = vec![("/recorded", Value::Null), ("/capacity", json!(false))];
    let event = |of: Value| vec![("/recorded", Value::Null), ("/event", of)];
    let events = vec![
        event(json!({"ground_snow_kn_per_m2": 0.9, "peak_pressure_kn_per_m2": 0.4})),
        event(json!({"snow_on_roof_kn_per_m2": 0.4})),
    ];
    let more = [built().to_vec(), vec![recorded, keyed, asked], events].concat();
    let mut jobs = jobs(BUILT, &more);
    jobs.push(terrace_built());
    every_member_does_something::<RecheckRequest>("RecheckRequest", jobs);
}

/// A name in the answer to a job.
fn asked_for<R: Kind>(document: &Value, name: &str) -> Value {
    let answer = job::answer::<R>(document.to_string().as_bytes(), &Options::default());
    let answer = serde_json::to_value(answer.expect("an answer")).expect("an answer is JSON");
    answer[name].clone()
}

#[test]
fn of_a_survey() {
    let read = vec![
        ("/measured/hooks/0/rafter_width_mm", json!(90.0)),
        ("/measured/hooks/0/rafter_condition", json!("split")),
        ("/measured/hooks/0/counter_batten_mm", json!(28.0)),
        ("/measured/hooks/0/screw_length_mm", json!(140.0)),
        ("/measured/hooks/0/room_above_mm", json!(9.0)),
    ];
    let ways = [&built()[..], &[read]].concat();
    let mut jobs = jobs(SURVEY, &ways);
    let measured = json!({"rail": "T1", "hooks": [
        {"id": "T1-1", "clearance_mm": 8.0, "level_mm": 1.0},
        {"id": "T1-2", "clearance_mm": 8.0, "level_mm": -2.0},
    ]});
    jobs.push(patched(terrace_built(), &[("/measured", measured), ("/recorded", Value::Null)]));
    every_member_does_something::<SurveyRequest>("SurveyRequest", jobs);
}

/// Evidence by somebody's word.
fn by_word(figures: &[&str]) -> Value {
    figures.iter().map(|figure| json!({"figure": figure, "by": "declared"})).collect()
}

#[test]
fn of_a_statement() {
    let rules = ("/rules", json!({"family": "eurocode", "annex": "EN", "revision": "EN-2"}));
    let slip = tested("/bolt/slot_slip_kn", [4.1, 4.3, 4.2], Some(1.25));
    let tests = vec![
        rules,
        ("/hook/evidence", slip),
        ("/screw/evidence", tested("/tension_kn", [28.0, 29.0, 27.0], None)),
        ("/rail/splice_moment", json!({"normal_knm": 0.5, "slope_knm": 0.3})),
        ("/rail/evidence", tested("/splice_moment/normal_knm", [1.1, 1.2, 1.0], Some(1.1))),
        ("/module/evidence", tested("/lift_capacity_kn_per_m2", [4.8, 4.7, 4.9], Some(1.25))),
    ];
    let of_rail = by_word(&[
        "/splice_moment/slope_knm",
        "/splice_moment/normal_knm",
        "/effective_share",
        "/splice_length_mm",
        "/load_height_mm",
        "/axis_offset_mm",
        "/area_mm2",
        "/splice_force_kn",
        "/crossing/lift_kn",
        "/crossing/slide_kn",
        "/groove_slip_kn",
    ]);
    let more = vec![
        ("/hook/arm/load_aside_mm", json!(5.0)),
        ("/hook/resistance/includes_offset_mm", json!(5.0)),
        ("/hook/evidence", by_word(&["/arm/load_aside_mm", "/resistance/includes_offset_mm"])),
        ("/rail/splice_moment", json!({"normal_knm": 0.5, "slope_knm": 0.3})),
        ("/rail/effective_share", json!(0.9)),
        ("/rail/splice_length_mm", json!(200.0)),
        ("/rail/load_height_mm", json!(50.0)),
        ("/rail/axis_offset_mm", json!(20.0)),
        ("/rail/area_mm2", json!(352.0)),
        ("/rail/crossing", json!({"lift_kn": 2.5, "slide_kn": 1.5})),
        ("/rail/groove_slip_kn", json!(2.2)),
        ("/rail/evidence", of_rail),
        ("/clamp/slope_stop_kn", json!(2.5)),
        ("/clamp/evidence", by_word(&["/slope_stop_kn"])),
    ];
    let included = vec![
        ("/hook/evidence", json!([])),
        ("/hook/bolt", Value::Null),
        ("/hook/resistance/includes_bolt", json!(true)),
        ("/hook/resistance/basis", json!("calculation")),
    ];
    let patches = [vec![], tests, more, included];
    let jobs = patches.iter().map(|patches| job(STATEMENT, patches)).collect();
    every_member_does_something::<StatementRequest>("StatementRequest", jobs);
}

#[test]
fn of_a_question_for_the_actions() {
    let parts = ["rail", "clamp"].map(|of| (of, part(BARN, &format!("/components/{of}"))));
    let [rail, clamp] = parts.map(|(_, part)| part);
    let inline = vec![("/components/rail", rail), ("/components/clamp", clamp)];
    let hipped = vec![
        ("/roof/form", json!("hipped")),
        ("/roof/outline_mm", json!([[0, 0], [12400, 0], [11000, 5786], [4300, 5786]])),
        ("/roof/edges", json!(["eaves", "verge", "ridge", "hip"])),
    ];
    let patches = [by_velocity(), by_shore(), given(), equalised(), by_place(), inline, hipped];
    let jobs = patches.iter().map(|patches| job(ACTIONS, patches)).collect();
    every_member_does_something::<ActionsRequest>("ActionsRequest", jobs);
}
