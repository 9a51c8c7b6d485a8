//! Sentences come in the language and the units the caller reads; names, codes and figures do not
//! change with them.

use serde_json::{Value, json};

use crate::server::{ACTIONS, BARN, BUILT, COTTAGE, Reply, SURVEY, example, list, send};

const JSON: (&str, &str) = ("content-type", "application/json");

fn post(path: &str, headers: &[(&str, &str)], body: &str) -> Reply {
    send("POST", path, &[&[JSON], headers].concat(), body.as_bytes())
}

/// Every sentence of an answer taken out, and the rest.
fn parted(answer: &Value) -> (Vec<String>, Value) {
    fn walk(value: &mut Value, out: &mut Vec<String>) {
        match value {
            Value::Object(members) => {
                for (name, member) in members {
                    let sentence = [
                        "message", "said", "why", "text", "reason", "quantity", "headline", "line",
                    ]
                    .contains(&name.as_str());
                    if let (true, Value::String(said)) = (sentence, &mut *member) {
                        out.push(std::mem::take(said));
                    }
                    walk(member, out);
                }
            }
            Value::Array(items) => items.iter_mut().for_each(|item| walk(item, out)),
            _ => {}
        }
    }
    let (mut rest, mut said) = (answer.clone(), Vec::new());
    walk(&mut rest, &mut said);
    (said, rest)
}

#[test]
fn findings_speak_the_language_of_the_caller_and_nothing_else_changes() {
    for (path, body) in [("/v1/layouts", BARN), ("/v1/rechecks", BUILT), ("/v1/surveys", SURVEY)] {
        let english = post(path, &[], body).json();
        let german = post(&format!("{path}?lang=de"), &[], body).json();
        let (said, rest) = parted(&english);
        let (gesagt, same) = parted(&german);
        assert_eq!(rest, same, "{path}");
        assert_eq!(said.len(), gesagt.len());
        let findings = |answer: &Value| -> Vec<String> {
            let messages = list(&answer["warnings"]).iter().map(|w| w["message"].to_string());
            // A cited clause alone reads the same in either language.
            let reasons = list(&answer["assumptions"]).iter().map(|a| a["why"].to_string());
            messages
                .chain(list(&answer["cautions"]).iter().map(|c| c["text"].to_string()))
                .chain(reasons.filter(|why| why.contains(' ') && !why.starts_with("\"EN ")))
                .collect()
        };
        let pairs = findings(&english).into_iter().zip(findings(&german));
        assert!(pairs.clone().count() > 10, "{path}");
        for (english, german) in pairs {
            assert_ne!(english, german, "{path}");
        }
        let by_header = post(path, &[("accept-language", "de-AT, en;q=0.5")], body);
        assert_eq!(by_header.json(), german, "{path}");
        assert!(by_header.header("vary").contains("accept-language"));
        let query_first = post(&format!("{path}?lang=en"), &[("accept-language", "de")], body);
        assert_eq!(query_first.json(), english, "{path}");
    }
    let german = post("/v1/actions?lang=de", &[], ACTIONS).json();
    assert!(german["warnings"][0]["message"].as_str().expect("a sentence").starts_with("Diese"));
}

/// The parts' reasons and the names of the trace are said in German, each of them; what is cited and
/// what is computed stays as it is.
#[test]
fn reasons_of_parts_and_quantities_of_the_trace_are_said_in_the_language_of_the_caller() {
    for (path, body) in [
        ("/v1/layouts", BARN),
        ("/v1/layouts", COTTAGE),
        ("/v1/rechecks", BUILT),
        ("/v1/surveys", SURVEY),
        ("/v1/actions", ACTIONS),
    ] {
        let traced = if path == "/v1/actions" { "" } else { "&trace=full" };
        let spoken = |tag: &str| post(&format!("{path}?lang={tag}{traced}"), &[], body).json();
        let (english, german) = (spoken("en"), spoken("de"));
        assert_eq!(parted(&english).1, parted(&german).1, "{path}");
        let named = |answer: &Value| -> Vec<String> {
            let quantities = list(&answer["trace"]).iter().map(|l| l["quantity"].to_string());
            let lines = answer["parts"]["lines"].as_array().into_iter().flatten();
            quantities.chain(lines.map(|line| line["why"].to_string())).collect()
        };
        let (names, namen) = (named(&english), named(&german));
        assert_eq!(names.len(), namen.len(), "{path}");
        assert!(names.len() > 10, "{path}: {}", names.len());
        for (english, german) in names.iter().zip(&namen) {
            assert_ne!(english, german, "{path}");
        }
    }
    let german = post("/v1/layouts?lang=de&trace=full", &[], BARN).json();
    assert_eq!(german["trace"][0]["quantity"], "Schneelast am Boden");
    let hooks = list(&german["parts"]["lines"]).iter().find(|line| line["kind"] == "hook");
    let why = hooks.expect("hooks")["why"].as_str().expect("a reason");
    assert!(why.ends_with(" Schienen"), "{why}");
}

#[test]
fn sentences_take_imperial_figures_and_members_keep_their_units() {
    let metric = post("/v1/layouts", &[], BARN).json();
    let imperial = post("/v1/layouts?units=imperial", &[], BARN).json();
    assert_eq!(parted(&metric).1, parted(&imperial).1);
    for warning in list(&imperial["warnings"]) {
        let message = warning["message"].as_str().expect("a sentence");
        assert!(!message.contains(" mm") && !message.contains(" kN"), "{message}");
    }
    let messages: Vec<&str> =
        list(&imperial["warnings"]).iter().filter_map(|w| w["message"].as_str()).collect();
    assert!(messages.iter().any(|message| message.contains(" in ")), "{messages:?}");
}

/// What is used most is named in words, and figures with a unit have the comma: those that keep the
/// point stand in what is cited or in the request.
#[test]
fn german_paper_names_checks_in_german_and_writes_decimal_commas() {
    for (job, query) in [(BARN, ""), (BARN, "view=section&"), (COTTAGE, "")] {
        let form = if query.is_empty() { "text/html" } else { "image/svg+xml" };
        let path = format!("/v1/layouts?{query}lang=de");
        let paper = post(&path, &[("accept", form)], job).text().to_owned();
        let mut commas = 0;
        for unit in [" %", " mm", " kN", " kg", "°"] {
            for (at, _) in paper.match_indices(unit) {
                let before = &paper[..at];
                let figure = before.rsplit([' ', '>', '(', '\n']).next().unwrap_or_default();
                assert!(
                    figure.parse::<u64>().is_ok() || figure.parse::<f64>().is_err(),
                    "{figure}"
                );
                let comma = figure.contains(',');
                commas += usize::from(comma && figure.replace(',', ".").parse::<f64>().is_ok());
            }
        }
        assert!(commas > 0, "{path}: no figure was found");
    }
    let sheet = post("/v1/layouts?lang=de", &[("accept", "text/html")], BARN);
    assert!(
        sheet.text().contains(" · A3-4, Freiraum unter Last, <code>sls:"),
        "the most used hook"
    );
}

#[test]
fn a_batch_speaks_one_language() {
    let line = json!({"id": "a", "kind": "layout", "job": example(BARN)}).to_string();
    let lines = [("content-type", "application/x-ndjson")];
    let reply = send("POST", "/v1/batches?lang=de", &lines, line.as_bytes());
    let first = reply.text().lines().next().expect("a line").to_owned();
    let answer: Value = serde_json::from_str(&first).expect("JSON");
    let alone = post("/v1/layouts?lang=de", &[], BARN).json();
    assert_eq!(answer["result"], alone);
}

/// The verdict is the worst of its scopes, and a warning says in the catalogue which these are.
#[test]
fn the_verdict_is_given_by_scope() {
    let answer = post("/v1/layouts", &[], BARN).json();
    let verdicts = answer["verdicts"].as_object().expect("verdicts");
    assert_eq!(verdicts.len(), 6);
    let order = ["holds", "holds_with_warnings", "incomplete", "fails"];
    let rank = |verdict: &Value| order.iter().position(|known| verdict == known).expect("known");
    let worst = verdicts.values().map(rank).max().expect("scopes");
    assert_eq!(rank(&answer["verdict"]), worst);
    assert_eq!(verdicts["rafters"], "incomplete", "the chimney cuts one");
    assert_eq!(verdicts["fixing"], "holds_with_warnings");
    let catalogue = send("GET", "/v1/warnings", &[], b"").json();
    let severities = ["failure", "incomplete", "warning", "notice"];
    for warning in list(&answer["warnings"]) {
        let kinds = list(&catalogue["warnings"]);
        let kind = kinds.iter().find(|kind| kind["code"] == warning["code"]).expect("it is listed");
        assert!(severities.iter().any(|known| kind["severity"] == *known));
        for scope in list(&kind["scopes"]) {
            let severity = kind["severity"].as_str().expect("a severity");
            let at_least = 3 - severities.iter().position(|s| *s == severity).expect("known");
            let verdict = &verdicts[scope.as_str().expect("a scope")];
            assert!(rank(verdict) >= at_least, "{scope} {verdict}: {warning}");
        }
        for (name, value) in warning["params"].as_object().expect("params") {
            let params = list(&kind["params"]);
            let entry = params.iter().find(|p| p["name"] == *name).expect("it is listed");
            let kind = entry["type"].as_str().expect("a type");
            assert_eq!(value.as_object().map(serde_json::Map::len), Some(1), "{name}: {value}");
            let value = &value[kind];
            let of_type: fn(&Value) -> bool = match kind {
                "number" => Value::is_f64,
                "integer" => Value::is_u64,
                "text" => Value::is_string,
                "flag" => Value::is_boolean,
                "texts" => |value| list(value).iter().all(Value::is_string),
                "integers" => |value| list(value).iter().all(Value::is_u64),
                other => panic!("{other}"),
            };
            assert!(of_type(value), "{name}: {value} is no {}", entry["type"]);
        }
    }
}
