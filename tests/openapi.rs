//! The published description is current, complete and sound.

use hookspan::http::description::{openapi_30_text, openapi_30_value, openapi_text, openapi_value};
use hookspan::http::router;
use serde_json::{Value, json};

/// `UPDATE_OPENAPI=1 cargo test --test openapi` rewrites the files after a wanted change.
#[test]
fn the_committed_descriptions_are_the_generated_ones() {
    for (committed, generated) in [
        ("openapi/hookspan.json", openapi_text()),
        ("openapi/hookspan-3.0.json", openapi_30_text()),
    ] {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(committed);
        if std::env::var_os("UPDATE_OPENAPI").is_some() {
            std::fs::write(&path, generated).expect("the description can be written");
        }
        let text = std::fs::read_to_string(&path).expect("the description is committed");
        assert!(
            text == generated,
            "{committed} is out of date; run UPDATE_OPENAPI=1 cargo test --test openapi"
        );
    }
}

/// What 3.0 does not know is not in it, and everything else is.
#[test]
fn the_older_description_is_of_the_same_service() {
    let [now, older] = [openapi_value(), openapi_30_value()];
    assert_eq!(older["openapi"], "3.0.3");
    let names = |of: &Value, at: &str| -> Vec<String> {
        of.pointer(at).and_then(Value::as_object).expect("an object").keys().cloned().collect()
    };
    for at in ["/paths", "/components/schemas", "/components/schemas/Hook/properties"] {
        assert_eq!(names(now, at), names(older, at), "{at}");
    }
    walk(older, "", &mut |pointer, value| {
        let Some(members) = value.as_object() else { return };
        let is_reference = members.get("$ref").is_some_and(Value::is_string);
        assert!(!is_reference || members.len() == 1, "{pointer}");
        assert!(!members.get("type").is_some_and(Value::is_array), "{pointer}");
        for word in ["const", "prefixItems", "propertyNames", "examples", "$defs", "$schema"] {
            let is_word = members.contains_key(word) && !pointer.contains("/example");
            assert!(!is_word, "{pointer} has {word}");
        }
        assert!(!members.get("exclusiveMinimum").is_some_and(Value::is_number), "{pointer}");
    });
}

/// A choice of objects says by which member they are told apart; other choices are between a text and an
/// object, which any reader tells apart.
#[test]
fn every_choice_can_be_told_apart() {
    let mut choices = 0;
    walk(openapi_value(), "", &mut |pointer, value| {
        let Some(alternatives) = value.get("oneOf").and_then(Value::as_array) else { return };
        choices += 1;
        let objects = alternatives.iter().filter(|schema| schema.get("$ref").is_some()).count();
        let texts = alternatives.iter().filter(|schema| schema["type"] == "string").count();
        if (objects, texts, alternatives.len()) == (1, 1, 2) {
            return;
        }
        let mapping = value["discriminator"]["mapping"].as_object().expect(pointer);
        assert_eq!(mapping.len(), alternatives.len(), "{pointer}");
        for (kind, reference) in mapping {
            let path = reference.as_str().expect("a reference").trim_start_matches('#');
            let of = openapi_value().pointer(path).expect("it leads somewhere");
            assert_eq!(of["properties"]["kind"]["enum"], json!([kind]), "{pointer}");
            let required = of["required"].as_array().expect("a list");
            assert!(required.contains(&json!("kind")), "{pointer}");
        }
    });
    assert!(choices >= 10, "{choices} choices");
    walk(openapi_value(), "", &mut |pointer, value| {
        assert!(value.get("anyOf").is_none() && value.get("allOf").is_none(), "{pointer}");
    });
}

/// Calls `visit` with every value of a document and its pointer.
fn walk(value: &Value, pointer: &str, visit: &mut impl FnMut(&str, &Value)) {
    visit(pointer, value);
    match value {
        Value::Object(members) => {
            for (name, member) in members {
                let name = name.replace('~', "~0").replace('/', "~1");
                walk(member, &format!("{pointer}/{name}"), visit);
            }
        }
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                walk(item, &format!("{pointer}/{index}"), visit);
            }
        }
        _ => {}
    }
}

#[test]
fn every_reference_leads_somewhere_and_every_schema_is_used() {
    let description = openapi_value();
    let mut used = std::collections::BTreeSet::new();
    walk(description, "", &mut |pointer, value| {
        if let Some(target) = value.get("$ref").and_then(Value::as_str) {
            let target = target.strip_prefix('#').expect("only references within the document");
            assert!(description.pointer(target).is_some(), "{pointer} leads to nothing: {target}");
            used.insert(target.to_owned());
        }
    });
    for name in schemas().keys() {
        assert!(used.contains(&format!("/components/schemas/{name}")), "{name} is never used");
    }
}

fn schemas() -> &'static serde_json::Map<String, Value> {
    openapi_value()["components"]["schemas"].as_object().expect("there are schemas")
}

#[test]
fn the_description_says_everything_its_reader_needs() {
    let description = openapi_value();
    assert_eq!(description["openapi"], "3.1.0");
    assert_eq!(description["info"]["title"], "hookspan");
    assert_eq!(description["info"]["version"], env!("CARGO_PKG_VERSION"));
    assert_eq!(description["info"]["contact"], Value::Null, "no person is published");
    let mut gaps = Vec::new();
    for (name, schema) in schemas() {
        if schema["description"].as_str().unwrap_or_default().is_empty() {
            gaps.push(name.clone());
        }
        for (property, schema) in schema["properties"].as_object().into_iter().flatten() {
            if schema["description"].as_str().unwrap_or_default().is_empty() {
                gaps.push(format!("{name}.{property}"));
            }
        }
    }
    assert_eq!(gaps, Vec::<String>::new(), "without description");
}

/// Lists whose values are words of the trade or names of a standard, which say what they mean.
const PLAIN_VALUES: [&str; 5] =
    ["BearingFace", "ClimateRegion", "ObstacleKind", "OpenEdge", "StrengthClass"];

#[test]
fn every_value_is_described_and_every_list_says_whether_it_is_closed() {
    let mut lists = 0;
    for (name, schema) in schemas() {
        let Some(values) = schema["enum"].as_array() else { continue };
        lists += 1;
        let about = schema["description"].as_str().expect(name);
        let closed = about.contains("A request with any other value is refused.");
        let open = about.contains("Later versions may add values");
        assert!(closed != open, "{name}: {about}");
        let described = values.iter().filter(|value| {
            let value = value.as_str().expect("a text");
            let (_, rest) = about.split_once(&format!("\n- `{value}`: ")).unwrap_or_default();
            rest.starts_with(|c: char| c.is_alphanumeric())
        });
        let described = described.count();
        let all = if PLAIN_VALUES.contains(&name.as_str()) { 0 } else { values.len() };
        assert_eq!(described, all, "{name}: {about}");
    }
    assert!(lists >= 60, "{lists} lists of values");
}

#[test]
fn every_operation_is_named_described_tagged_and_lists_its_problems() {
    let paths = openapi_value()["paths"].as_object().expect("there are paths");
    let mut names = std::collections::BTreeSet::new();
    for (path, operations) in paths {
        for (method, operation) in operations.as_object().expect("operations") {
            let place = format!("{method} {path}");
            for field in ["operationId", "summary", "description"] {
                let text = operation[field].as_str().unwrap_or_default();
                assert!(!text.is_empty(), "{place} has no {field}");
            }
            assert!(names.insert(operation["operationId"].to_string()), "{place}: name used twice");
            assert_eq!(operation["tags"].as_array().map(Vec::len), Some(1), "{place}");
            let responses = operation["responses"].as_object().expect("responses");
            assert!(responses.contains_key("200") && responses.contains_key("500"), "{place}");
            let kinds = responses["200"]["content"].as_object().expect("an answer has content");
            for (kind, content) in kinds {
                assert!(!content["example"].is_null(), "{place} {kind}: no example");
            }
            for (status, response) in responses {
                let headers = &response["headers"];
                assert!(!headers["x-request-id"].is_null(), "{place} {status}");
                let again = ["429", "503"].contains(&status.as_str());
                assert_eq!(again, !headers["retry-after"].is_null(), "{place} {status}");
                let challenge = ["401", "403"].contains(&status.as_str());
                assert_eq!(challenge, !headers["www-authenticate"].is_null(), "{place} {status}");
            }
            let fixed = responses.contains_key("304");
            assert_eq!(fixed, !responses["200"]["headers"]["etag"].is_null(), "{place}");
            for (status, response) in responses {
                if ["200", "304"].contains(&status.as_str()) {
                    continue;
                }
                let content = &response["content"]["application/problem+json"];
                assert_eq!(
                    content["schema"]["$ref"], "#/components/schemas/Problem",
                    "{place} {status}"
                );
                assert_eq!(
                    content["example"]["status"].to_string(),
                    *status,
                    "{place} {status}: the example is of another kind"
                );
            }
        }
    }
    let layouts = &paths["/v1/layouts"]["post"];
    let statuses: Vec<_> = layouts["responses"].as_object().expect("responses").keys().collect();
    assert_eq!(
        statuses,
        ["200", "400", "401", "406", "408", "413", "415", "422", "429", "500", "503"]
    );
}

/// Schema of a request and the example shown with its operation.
fn request(name: &str, path: &str) -> (jsonschema::Validator, &'static Value) {
    let schema = json!({
        "$ref": format!("#/components/schemas/{name}"),
        "components": openapi_value()["components"],
    });
    let validator = jsonschema::draft202012::new(&schema).expect("the description is a schema");
    let body = &openapi_value()["paths"][path]["post"]["requestBody"];
    (validator, &body["content"]["application/json"]["example"])
}

#[test]
fn the_examples_fit_the_request_schema_and_nonsense_does_not() {
    let barn = include_str!("data/layout-barn.json");
    let cottage = include_str!("data/layout-cottage.json");
    let building = include_str!("data/building-gable.json");
    let short = include_str!("data/building-short.json");
    let choices = include_str!("data/choices-barn.json");
    let built = include_str!("data/recheck-barn.json");
    let terrace = include_str!("data/recheck-terrace.json");
    let survey = include_str!("data/survey-barn.json");
    let actions = include_str!("data/actions-barn.json");
    let statement = include_str!("data/statement-trough-hook.json");
    for (name, path, shown, others) in [
        ("LayoutRequest", "/v1/layouts", barn, vec![cottage]),
        ("BuildingRequest", "/v1/buildings", building, vec![short]),
        ("ChoicesRequest", "/v1/choices", choices, vec![]),
        ("RecheckRequest", "/v1/rechecks", built, vec![terrace]),
        ("SurveyRequest", "/v1/surveys", survey, vec![]),
        ("ActionsRequest", "/v1/actions", actions, vec![]),
        ("StatementRequest", "/v1/statements", statement, vec![]),
    ] {
        let (validator, example) = request(name, path);
        for text in others.into_iter().chain([shown]) {
            let request: Value = serde_json::from_str(text).expect("an example is JSON");
            let faults: Vec<_> = validator.iter_errors(&request).map(|e| e.to_string()).collect();
            assert_eq!(faults, Vec::<String>::new());
        }
        assert_eq!(*example, serde_json::from_str::<Value>(shown).expect("an example is JSON"));
        assert!(!validator.is_valid(&json!({})));
    }
}

/// Every example of every answer, problems included, in the schema it stands beside.
#[test]
fn the_examples_of_answers_fit_their_schemas() {
    let mut seen = 0;
    walk(&openapi_value()["paths"], "", &mut |pointer, value| {
        let (schema, example) = (&value["schema"], &value["example"]);
        let is_content = pointer.contains("/responses/") && pointer.contains("/content/");
        if !is_content || schema.is_null() || example.is_null() || pointer.contains("x-ndjson") {
            return;
        }
        let whole = json!({ "allOf": [schema], "components": openapi_value()["components"] });
        let validator = jsonschema::draft202012::new(&whole).expect("a schema");
        let faults: Vec<_> = validator.iter_errors(example).map(|e| e.to_string()).collect();
        assert_eq!(faults, Vec::<String>::new(), "{pointer}");
        seen += 1;
    });
    assert!(seen > 130, "{seen} examples");
}

/// Schemas a request can contain: an unknown member is refused in every one of them.
#[test]
fn every_object_of_the_request_refuses_unknown_members() {
    let requests = [
        "LayoutRequest",
        "BuildingRequest",
        "ChoicesRequest",
        "RecheckRequest",
        "SurveyRequest",
        "ActionsRequest",
        "StatementRequest",
    ];
    let mut reached = requests.map(str::to_owned).to_vec();
    let mut next = 0;
    while let Some(name) = reached.get(next).cloned() {
        next += 1;
        let schema = &schemas()[&name];
        if schema["type"] == "object" {
            assert_eq!(schema["additionalProperties"], false, "{name} lets unknown members pass");
        }
        walk(schema, "", &mut |_, value| {
            if let Some(target) = value.get("$ref").and_then(Value::as_str) {
                let target = target.rsplit('/').next().unwrap_or_default().to_owned();
                if !reached.contains(&target) {
                    reached.push(target);
                }
            }
        });
    }
    assert!(next > 30, "only {next} schemas were reached");
}

/// Every number of a request has limits, so that none can be large enough to upset a formula.
#[test]
fn every_number_of_the_request_has_limits() {
    let answers_only = ["Answer", "Problem", "Health", "Fault"];
    let mut open = Vec::new();
    for (name, schema) in schemas() {
        let of_request =
            schema["additionalProperties"] == false || ["Point", "Cell"].contains(&name.as_str());
        if !of_request || answers_only.iter().any(|part| name.contains(part)) {
            continue;
        }
        walk(schema, "", &mut |pointer, value| {
            let kind = value["type"].as_str().unwrap_or_default();
            let number = kind == "number" || kind == "integer";
            if number && (value["minimum"].is_null() || value["maximum"].is_null()) {
                open.push(format!("{name}{pointer}"));
            }
        });
    }
    assert_eq!(open, Vec::<String>::new(), "without limits");
}

#[test]
fn the_router_is_built_without_clashing_routes() {
    use hookspan::http::App;
    use hookspan::http::limits::Limits;
    let limits = Limits { max_body_bytes: 1024, ..Limits::default() };
    let router = router(App::new(&limits));
    assert!(router.has_routes());
}

/// Of two types with one name only one is published, and the other is described by a schema that is not
/// its own.
#[test]
fn no_two_types_are_published_under_one_name() {
    fn published(folder: &std::path::Path, names: &mut Vec<String>) {
        for entry in std::fs::read_dir(folder).expect("the sources") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                published(&path, names);
                continue;
            }
            let text = std::fs::read_to_string(&path).expect("a text");
            for item in text.split("#[derive(").skip(1) {
                let (derived, rest) = item.split_once(")]").expect("the attribute ends");
                let head = rest.lines().map(str::trim_start).find_map(|line| {
                    line.strip_prefix("pub struct ").or_else(|| line.strip_prefix("pub enum "))
                });
                // A macro has a variable where the name will be.
                let is_named = |head: &&str| derived.contains("ToSchema") && !head.starts_with('$');
                if let Some(head) = head.filter(is_named) {
                    let end = head.find(|c: char| !c.is_alphanumeric()).unwrap_or(head.len());
                    names.push(head[..end].to_owned());
                }
            }
        }
    }
    let mut names = Vec::new();
    for room in ["src/wire", "src/http"] {
        published(std::path::Path::new(room), &mut names);
    }
    assert!(names.len() > 200, "{} types found", names.len());
    names.sort();
    let twice: Vec<&String> =
        names.windows(2).filter(|pair| pair[0] == pair[1]).map(|pair| &pair[0]).collect();
    assert_eq!(twice, Vec::<&String>::new());
}
