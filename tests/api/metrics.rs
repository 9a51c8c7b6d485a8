//! What the instance counts, read back by a strict reader of the text format of `OpenMetrics` 1.0
//! (<https://github.com/prometheus/OpenMetrics/blob/v1.0.0/specification/OpenMetrics.md>, "Text
//! format" and "Metric types").

use std::collections::BTreeMap;
use std::net::SocketAddr;

use hookspan::http::App;
use hookspan::http::connections::Connections;
use hookspan::http::limits::Limits;
use serde_json::json;

use crate::server::{ACTIONS, BARN, BUILT, MAX_BODY_BYTES, example, send_to, serving};

/// Labels of a sample, in the order of their names.
type Labels = BTreeMap<String, String>;

/// A family: its type, its unit, and its samples by name and labels.
#[derive(Debug, Default)]
struct Family {
    kind: String,
    unit: String,
    help: bool,
    samples: Vec<(String, Labels, f64)>,
}

/// Reads a whole exposition; panics at whatever the format does not allow.
fn read(text: &str) -> BTreeMap<String, Family> {
    let text = text.strip_suffix("# EOF\n").expect("it ends with EOF");
    let mut families: BTreeMap<String, Family> = BTreeMap::new();
    let mut current = String::new();
    for line in text.lines() {
        if let Some(about) = line.strip_prefix("# ") {
            let mut words = about.splitn(3, ' ');
            let [what, name, rest] = [(); 3].map(|()| words.next().expect("three words"));
            if name != current {
                assert!(!families.contains_key(name), "{name} comes in two parts");
                assert_name(name);
                name.clone_into(&mut current);
            }
            let family = families.entry(current.clone()).or_default();
            assert!(family.samples.is_empty(), "{line} comes after its samples");
            match what {
                "HELP" => family.help = !rest.is_empty(),
                "TYPE" => rest.clone_into(&mut family.kind),
                "UNIT" => {
                    assert!(name.ends_with(&format!("_{rest}")), "{name} is not in {rest}");
                    rest.clone_into(&mut family.unit);
                }
                other => panic!("{other}"),
            }
            continue;
        }
        let (name, labels, value) = sample(line);
        let suffix = name.strip_prefix(&current).unwrap_or_else(|| panic!("{line} in {current}"));
        let family = families.get_mut(&current).expect("its family is there");
        let allowed: &[&str] = match family.kind.as_str() {
            "counter" => &["_total"],
            "gauge" => &[""],
            "histogram" => &["_bucket", "_sum", "_count"],
            "info" => &["_info"],
            other => panic!("{current} is a {other}"),
        };
        assert!(allowed.contains(&suffix), "{name} is no sample of a {}", family.kind);
        let twice = family.samples.iter().any(|(n, l, _)| *n == name && *l == labels);
        assert!(!twice, "{line} stands there twice");
        family.samples.push((name, labels, value));
    }
    for (name, family) in &families {
        assert!(family.help && !family.kind.is_empty(), "{name} is not described");
        check_values(name, family);
    }
    families
}

fn assert_name(name: &str) {
    let right = name.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_');
    assert!(right && name.starts_with("hookspan_"), "{name}");
}

fn sample(line: &str) -> (String, Labels, f64) {
    let (name, rest) = line.split_at(line.find(['{', ' ']).expect("a value"));
    let mut labels = Labels::new();
    let mut rest = rest;
    if let Some(inside) = rest.strip_prefix('{') {
        let (inside, behind) = inside.split_once("} ").expect("a closed list of labels");
        for label in inside.split(',').filter(|label| !label.is_empty()) {
            let (name, value) = label.split_once("=\"").expect("a label");
            let value = value.strip_suffix('"').expect("a closed value");
            assert!(!value.contains(['"', '\\', '\n']), "{line}");
            assert!(labels.insert(name.to_owned(), value.to_owned()).is_none(), "{line}");
        }
        rest = behind;
    }
    let value = rest.trim_start_matches(' ').parse().unwrap_or_else(|_| panic!("{line}"));
    (name.to_owned(), labels, value)
}

fn check_values(name: &str, family: &Family) {
    for (sample, labels, value) in &family.samples {
        assert!(value.is_finite(), "{sample} {labels:?}");
        assert!(family.kind == "gauge" || *value >= 0.0, "{sample} {labels:?} {value}");
    }
    if family.kind != "histogram" {
        return;
    }
    let mut classes: BTreeMap<Labels, Vec<(f64, f64)>> = BTreeMap::new();
    for (sample, labels, value) in &family.samples {
        if sample.ends_with("_bucket") {
            let mut labels = labels.clone();
            let limit = labels.remove("le").expect("a limit").replace('+', "");
            let limit = if limit == "Inf" { f64::INFINITY } else { limit.parse().expect("one") };
            classes.entry(labels).or_default().push((limit, *value));
        }
    }
    for (labels, classes) in classes {
        let rises = |pair: &[(f64, f64)]| pair[0].0 < pair[1].0 && pair[0].1 <= pair[1].1;
        assert!(classes.windows(2).all(rises), "{name} {labels:?}: {classes:?}");
        let (last, all) = classes.last().expect("there are some");
        assert!(last.is_infinite(), "{name} {labels:?} has a last class without limit");
        let count = family.samples.iter().find(|(n, l, _)| n.ends_with("_count") && *l == labels);
        assert_eq!(count.map(|(.., count)| count), Some(all), "{name} {labels:?}");
    }
}

/// The value of one sample; 0 where it has never been counted.
fn value(families: &BTreeMap<String, Family>, name: &str, labels: &[(&str, &str)]) -> f64 {
    let labels: Labels =
        labels.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())).collect();
    let mut samples = families.values().flat_map(|family| &family.samples);
    samples.find(|(n, l, _)| n == name && *l == labels).map_or(0.0, |(.., value)| *value)
}

/// Whole numbers only.
fn count(families: &BTreeMap<String, Family>, name: &str, labels: &[(&str, &str)]) -> u64 {
    let value = value(families, name, labels);
    assert!(value.fract() == 0.0 && value >= 0.0, "{name} is {value}");
    value.to_string().parse().expect("a whole number")
}

fn counters(address: SocketAddr) -> BTreeMap<String, Family> {
    let reply = send_to(address, "GET", "/metrics", &[], b"");
    assert_eq!(reply.status, 200);
    let kind = "application/openmetrics-text; version=1.0.0; charset=utf-8";
    assert_eq!(reply.header("content-type"), kind);
    read(reply.text())
}

fn sent(address: SocketAddr, path: &str, kind: &str, body: &str) -> u16 {
    send_to(address, "POST", path, &[("content-type", kind)], body.as_bytes()).status
}

#[test]
fn what_happens_is_counted() {
    let limits = Limits { jobs_at_once: 2, max_body_bytes: MAX_BODY_BYTES, ..Limits::default() };
    let (_, address) = serving(App::new(&limits), Connections::default());
    let before = counters(address);
    assert_eq!(count(&before, "hookspan_places", &[]), 3, "two, and one more");
    assert_eq!(count(&before, "hookspan_places_taken", &[("lane", "single")]), 0);

    let mut limited = example(BARN);
    limited["wishes"]["search_limit"] = json!(1);
    let json = "application/json";
    for (path, body, status) in [
        ("/v1/layouts", BARN, 200),
        ("/v1/layouts", &limited.to_string()[..], 200),
        ("/v1/rechecks", BUILT, 200),
        ("/v1/actions", ACTIONS, 200),
        ("/v1/actions", "{}", 422),
        ("/v1/actions", "{", 400),
        ("/v1/actions?lang=xx", ACTIONS, 422),
        ("/secret/of/mine", "{}", 404),
    ] {
        assert_eq!(sent(address, path, json, body), status, "{path} {body:.10}");
    }
    let line = json!({"kind": "actions", "job": example(ACTIONS)});
    let lines = format!("{line}\n{line}\n{{}}\n");
    assert_eq!(sent(address, "/v1/batches", "application/x-ndjson", &lines), 200);

    let now = counters(address);
    let of = |name: &str, labels: &[(&str, &str)]| count(&now, name, labels);
    let requests = "hookspan_requests_total";
    assert_eq!(of(requests, &[("route", "/v1/layouts"), ("status", "200")]), 2);
    assert_eq!(of(requests, &[("route", "/v1/actions"), ("status", "422")]), 2);
    assert_eq!(of(requests, &[("route", "none"), ("status", "404")]), 1);
    assert_eq!(of(requests, &[("route", "/v1/batches"), ("status", "200")]), 1);
    let refusals = "hookspan_refusals_total";
    assert_eq!(of(refusals, &[("code", "invalid_request")]), 2);
    assert_eq!(of(refusals, &[("code", "malformed_json")]), 1);
    assert_eq!(of(refusals, &[("code", "not_found")]), 1);
    let computed = "hookspan_computation_seconds_count";
    for (kind, lane, times) in [
        ("layouts", "single", 2),
        ("rechecks", "single", 1),
        ("actions", "single", 1),
        ("refused", "single", 2),
        ("actions", "batch", 2),
        ("refused", "batch", 1),
    ] {
        assert_eq!(of(computed, &[("kind", kind), ("lane", lane)]), times, "{kind} {lane}");
    }
    assert_eq!(of("hookspan_queue_wait_seconds_count", &[("lane", "single")]), 6);
    assert!(of("hookspan_queue_wait_seconds_count", &[("lane", "batch")]) >= 1);
    assert_eq!(of("hookspan_searches_total", &[("outcome", "cut_short")]), 1);
    assert!(of("hookspan_searches_total", &[("outcome", "proven")]) >= 1);
    assert_eq!(of("hookspan_batch_lines_total", &[("outcome", "answered")]), 2);
    assert_eq!(of("hookspan_batch_lines_total", &[("outcome", "refused")]), 1);
    assert_eq!(of("hookspan_batches_total", &[("outcome", "complete")]), 1);
    let received = of("hookspan_body_bytes_total", &[("direction", "received")]);
    let least = 2 * BARN.len() + BUILT.len() + ACTIONS.len() + lines.len();
    assert!(received >= least as u64 - 1000, "{received} of {least}");
    assert!(of("hookspan_body_bytes_total", &[("direction", "sent")]) > 10_000);
    assert!(value(&now, "hookspan_cpu_seconds_total", &[("lane", "single")]) > 0.0);
    assert!(value(&now, "hookspan_cpu_seconds_total", &[("lane", "batch")]) > 0.0);
    assert_eq!(of("hookspan_bodies_held_bytes", &[]), 0, "nothing is under way");
    assert_eq!(of("hookspan_build_info", &[("version", env!("CARGO_PKG_VERSION"))]), 1);
    let written =
        serde_json::to_string(&now.values().map(|f| format!("{f:?}")).collect::<Vec<_>>());
    assert!(!written.expect("a text").contains("secret"), "what a caller sends is no label");
}

#[test]
fn an_answer_names_the_trace_of_its_request() {
    let (_, address) = serving(App::new(&Limits::default()), Connections::default());
    let trace = "4bf92f3577b34da6a3ce929d0e0e4736";
    let parent = format!("00-{trace}-00f067aa0ba902b7-01");
    let said = |headers: &[(&str, &str)]| {
        send_to(address, "GET", "/livez", headers, b"").header("traceresponse").to_owned()
    };
    let kept = said(&[("traceparent", &parent)]);
    assert!(kept.starts_with(&format!("00-{trace}-")) && kept.ends_with("-01"), "{kept}");
    assert!(!kept.contains("00f067aa0ba902b7"), "our part has a name of its own: {kept}");
    for headers in [
        &[][..],
        &[("traceparent", "00-xyz")],
        &[("traceparent", &parent[..]), ("traceparent", &parent[..])],
    ] {
        let begun = said(headers);
        assert!(begun.len() == 55 && !begun.contains(trace), "{headers:?}: {begun}");
    }
}

/// The example a caller of the format starts from is read, and what breaks its rules is not.
#[test]
fn the_reader_is_strict() {
    let good =
        "# HELP hookspan_a What.\n# TYPE hookspan_a counter\nhookspan_a_total{x=\"1\"} 2\n# EOF\n";
    assert_eq!(count(&read(good), "hookspan_a_total", &[("x", "1")]), 2);
    let bucket = "# HELP hookspan_h What.\n# TYPE hookspan_h histogram\n";
    for bad in [
        good.replace("# EOF\n", ""),
        good.replace("_total", ""),
        good.replace("counter", "thing"),
        good.replace("# HELP hookspan_a What.\n", ""),
        good.replace("hookspan_a_total{x=\"1\"} 2\n", &"hookspan_a_total{x=\"1\"} 2\n".repeat(2)),
        good.replace("} 2", "} NaN"),
        format!("{bucket}hookspan_h_bucket{{le=\"1.0\"}} 2\nhookspan_h_count 2\n# EOF\n"),
        format!("{bucket}hookspan_h_bucket{{le=\"+Inf\"}} 2\nhookspan_h_count 3\n# EOF\n"),
    ] {
        let read = std::panic::catch_unwind(|| read(&bad));
        assert!(read.is_err(), "{bad}");
    }
}
