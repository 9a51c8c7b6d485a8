//! The examples of answers in the description are what the service answers.

use serde_json::{Map, Value, json};

use crate::server::{self, send_to};
use crate::signatures::signing;

/// Most characters of a drawing or a page that are shown.
const MOST_CHARACTERS: usize = 240;

/// `UPDATE_OPENAPI=1 cargo test --test api examples` rewrites the file after a wanted change.
#[test]
fn the_examples_of_answers_are_what_the_service_answers() {
    let description = hookspan::http::description::openapi_value();
    let mut examples = Map::new();
    for (path, operations) in description["paths"].as_object().expect("paths") {
        for (method, operation) in operations.as_object().expect("operations") {
            let id = operation["operationId"].as_str().expect("a name");
            // A body of many lines, whose example is made of those of the kinds of job.
            if id == "run_batch" {
                continue;
            }
            let content = operation["responses"]["200"]["content"].as_object().expect("content");
            let shown = content.keys().map(|kind| (kind.clone(), shown(path, method, kind)));
            examples.insert(id.to_owned(), Value::Object(shown.collect()));
        }
    }
    let made = format!("{:#}\n", Value::Object(examples));
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/openapi/examples.json");
    if std::env::var_os("UPDATE_OPENAPI").is_some() {
        std::fs::write(file, &made).expect("the examples can be written");
    }
    let committed = std::fs::read_to_string(file).expect("the examples are committed");
    assert!(committed == made, "openapi/examples.json says what the service does not");
}

/// What an operation answers in a form: to its own example, in short where there is a short form.
fn shown(path: &str, method: &str, kind: &str) -> Value {
    let operation = &hookspan::http::description::openapi_value()["paths"][path][method];
    let job = operation["requestBody"]["content"]["application/json"]["example"].to_string();
    let body: &[u8] = if method == "post" { job.as_bytes() } else { b"" };
    let mut address = path.to_owned();
    for parameter in operation["parameters"].as_array().into_iter().flatten() {
        if parameter["in"] == "path" {
            let name = parameter["name"].as_str().expect("a name");
            let value = parameter["example"].as_str().expect("an example");
            address = address.replace(&format!("{{{name}}}"), value);
        }
    }
    if method == "post" && kind == "application/json" {
        address.push_str("?answer=summary");
    }
    let accept = if path == "/metrics" { "*/*" } else { kind };
    let headers = [("accept", accept), ("content-type", "application/json")];
    let headers = if method == "post" { &headers[..] } else { &headers[..1] };
    // Who signs nothing has no key to show.
    let at = if path == "/v1/signing-key" { signing() } else { server::address() };
    let reply = send_to(at, &method.to_uppercase(), &address, headers, body);
    assert_eq!(reply.status, 200, "{method} {address}: {}", reply.text());
    assert!(reply.header("content-type").starts_with(kind), "{address}: {kind}");
    match kind {
        "application/json" | "application/schema+json" => abridged(path, reply.json()),
        "application/openmetrics-text" => {
            let lines: Vec<&str> =
                reply.text().lines().filter(|line| line.starts_with("# ")).collect();
            let (first, last) = (&lines[..2], lines.last().expect("an end"));
            json!(format!("{}\n…\n{last}\n", first.join("\n")))
        }
        "text/csv" => {
            let lines: Vec<&str> = reply.text().split_inclusive('\n').take(3).collect();
            json!(lines.concat())
        }
        _ => {
            let text = reply.text();
            let text: String = text.chars().take(MOST_CHARACTERS).collect();
            let whole = text.rfind('>').map_or(text.as_str(), |end| &text[..=end]);
            json!(format!("{whole}…"))
        }
    }
}

/// A long document, cut to what shows its form: the head of the description and of the schema, and of the
/// lists of a catalogue the first entry.
fn abridged(path: &str, mut document: Value) -> Value {
    let members = document.as_object_mut().expect("an object");
    if path.starts_with("/openapi") {
        members.retain(|name, _| name == "openapi");
    } else if path == "/v1/statements/schema" {
        members.retain(|name, _| ["$schema", "title", "type"].contains(&name.as_str()));
    } else if path.starts_with("/v1/") && !path.contains("statements") {
        for list in members.values_mut().filter_map(Value::as_array_mut) {
            list.truncate(1);
        }
    }
    document
}
