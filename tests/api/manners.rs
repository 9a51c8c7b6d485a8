//! How the service behaves as a server of HTTP, whatever is asked of it.

use serde_json::Value;

use crate::server::{ACTIONS, BARN, BUILT, GABLE, Reply, STATEMENT, SURVEY, get, send};

/// Every address whose content is fixed for a version.
const FIXED: [&str; 14] = [
    "/",
    "/start.js",
    "/docs/",
    "/docs/index.css",
    "/openapi.json",
    "/openapi-3.0.json",
    "/v1/components",
    "/v1/components/rail/demo-rail-40",
    "/v1/warnings",
    "/v1/rules",
    "/v1/statements/schema",
    "/v1/statements/form",
    "/problems/",
    "/problems/invalid_request",
];

const GZIP: (&str, &str) = ("accept-encoding", "gzip");

/// Sends a request and gives the head of the answer as it came, and how many bytes followed it.
fn raw(method: &str, path: &str, headers: &[(&str, &str)]) -> (String, usize) {
    use std::io::{Read, Write};
    let mut stream = std::net::TcpStream::connect(crate::server::address()).expect("a connection");
    let headers: Vec<String> = headers.iter().map(|(n, v)| format!("{n}: {v}\r\n")).collect();
    let headers = headers.concat();
    let request =
        format!("{method} {path} HTTP/1.1\r\nhost: test\r\nconnection: close\r\n{headers}\r\n");
    stream.write_all(request.as_bytes()).expect("it takes the request");
    let mut reply = Vec::new();
    stream.read_to_end(&mut reply).expect("it answers and hangs up");
    let end = reply.windows(4).position(|four| four == b"\r\n\r\n").expect("a head") + 4;
    (String::from_utf8_lossy(&reply[..end]).to_lowercase(), reply.len() - end)
}

/// RFC 9110, 13.1.2 and 15.4.5: the tag that was given, in a list, weak or strong, or `*`, spares the
/// content; what a cache goes by is there all the same.
#[test]
fn who_has_the_content_is_not_sent_it_again() {
    for path in FIXED {
        let first = get(path);
        let tag = first.header("etag").to_owned();
        assert!(tag.starts_with('"') && tag.ends_with('"') && tag.len() > 10, "{path}: {tag}");
        assert_eq!(first.header("cache-control"), "no-cache", "{path}");
        assert_eq!(get(path).header("etag"), tag, "{path}");
        let list = format!("\"other\", W/{tag}");
        for known in [&tag, &list, "*"] {
            let again = send("GET", path, &[("if-none-match", known)], b"");
            assert_eq!((again.status, again.body.len()), (304, 0), "{path}: {known}");
            for field in ["etag", "vary", "cache-control"] {
                assert_eq!(again.header(field), first.header(field), "{path}: {field}");
            }
        }
        for other in ["\"other\"", &tag[1..], ""] {
            let reply = send("GET", path, &[("if-none-match", other)], b"");
            assert_eq!((reply.status, &reply.body), (200, &first.body), "{path}: {other}");
        }
    }
}

/// RFC 9110, 8.8.3.3: packed bytes are others, so they do not carry the same strong tag; 8.6: no length
/// that is not the content's.
#[test]
fn a_packed_answer_has_a_weak_tag_that_spares_it_too() {
    for path in FIXED {
        let tag = get(path).header("etag").to_owned();
        let weak = format!("etag: w/{tag}\r\n");
        let (head, _) = raw("GET", path, &[GZIP]);
        assert!(head.contains("content-encoding: gzip") && head.contains(&weak), "{head}");
        for known in [tag.clone(), format!("W/{tag}")] {
            let (head, sent) = raw("GET", path, &[GZIP, ("if-none-match", &known)]);
            assert!(head.starts_with("http/1.1 304") && sent == 0, "{path}: {head}");
            assert!(head.contains(&weak) && head.contains("accept-encoding"), "{path}: {head}");
            for field in ["content-encoding", "content-length", "content-type", "transfer-encoding"]
            {
                assert!(!head.contains(&format!("\n{field}:")), "{path}: {head}");
            }
        }
    }
}

#[test]
fn a_question_for_the_head_alone_is_answered_as_that_for_the_whole() {
    for path in FIXED {
        let whole = get(path);
        let of_head = |reply: &Reply| {
            ["etag", "content-type", "content-length", "vary", "cache-control"]
                .map(|field| reply.header(field).to_owned())
        };
        let head = send("HEAD", path, &[], b"");
        assert_eq!((head.status, head.body.len()), (200, 0), "{path}");
        assert_eq!(of_head(&head), of_head(&whole), "{path}");
        let known = [("if-none-match", whole.header("etag"))];
        let (head, sent) = raw("HEAD", path, &known);
        assert!(head.starts_with("http/1.1 304") && sent == 0, "{path}: {head}");
    }
}

#[test]
fn what_changes_has_no_tag() {
    for path in [
        "/livez",
        "/readyz",
        "/metrics",
        "/docs",
        "/problems",
        "/problems/no_such_kind",
        "/nowhere",
    ] {
        let reply = send("GET", path, &[("if-none-match", "*")], b"");
        assert_ne!(reply.status, 304, "{path}");
        assert_eq!(reply.header("etag"), "", "{path}");
    }
}

/// The parameters a problem complains of, by name.
fn named(reply: &Reply) -> Vec<(String, String)> {
    let problem = reply.problem();
    let faults = problem["errors"].as_array().expect("faults");
    let text = |fault: &Value, member: &str| fault[member].as_str().expect("a text").to_owned();
    for fault in faults {
        assert_eq!(fault["pointer"], "", "a query has no place in the body");
        assert!(text(fault, "detail").contains(&text(fault, "parameter")), "{fault}");
    }
    faults.iter().map(|fault| (text(fault, "parameter"), text(fault, "code"))).collect()
}

#[test]
fn a_parameter_that_is_not_taken_is_refused_by_its_name() {
    let watching = ["/livez", "/readyz", "/metrics"];
    let all = FIXED.iter().chain(&watching).filter(|path| **path != "/v1/statements/form");
    for path in all {
        for method in ["GET", "HEAD"] {
            let reply = send(method, &format!("{path}?trace=full&x%20y&trace=none"), &[], b"");
            assert_eq!(reply.status, 422, "{method} {path}");
            if method == "GET" {
                let unknown = |name: &str| (name.to_owned(), "unknown_field".to_owned());
                assert_eq!(named(&reply), [unknown("trace"), unknown("x y")], "{path}");
            }
        }
        assert_eq!(get(&format!("{path}?")).status, get(path).status, "{path}");
    }
    assert_eq!(get("/nowhere?x=1").status, 404);
    assert_eq!(send("POST", "/v1/rules?x=1", &[], b"{}").status, 405);
}

#[test]
fn a_fault_of_a_query_names_its_parameter() {
    let json = ("content-type", "application/json");
    let drawing = ("accept", "image/svg+xml");
    let fault = |name: &str, code: &str| (name.to_owned(), code.to_owned());
    for (path, headers, faults) in [
        (
            "/v1/layouts?lang=fr&units=si",
            &[json][..],
            vec![fault("lang", "unknown_value"), fault("units", "unknown_value")],
        ),
        ("/v1/layouts?lang=de&lang=en", &[json], vec![fault("lang", "contradiction")]),
        ("/v1/layouts?answer=summary&trace=full", &[json], vec![fault("trace", "contradiction")]),
        ("/v1/layouts?view=wind", &[json], vec![fault("view", "contradiction")]),
        ("/v1/layouts?hook=A1-1", &[json, drawing], vec![fault("hook", "contradiction")]),
        ("/v1/actions?trce=full", &[json], vec![fault("trce", "unknown_field")]),
    ] {
        let body = if path.starts_with("/v1/actions") { ACTIONS } else { BARN };
        let reply = send("POST", path, headers, body.as_bytes());
        assert_eq!(reply.status, 422, "{path}");
        assert_eq!(named(&reply), faults, "{path}");
    }
    let body = BARN.replace("\"pitch_deg\": 42.0", "\"pitch_deg\": 95");
    let reply = send("POST", "/v1/layouts", &[json], body.as_bytes());
    assert!(reply.problem()["errors"][0].get("parameter").is_none(), "it is of the body");
    assert_eq!(named(&get("/v1/statements/form?part=nail")), [fault("part", "unknown_value")]);
}

/// Thousands of names fit into an address.
#[test]
fn a_query_of_very_many_parameters_has_a_short_answer() {
    let names: Vec<String> = (0..600).map(|name| name.to_string()).collect();
    let reply = get(&format!("/v1/rules?{}", names.join("&")));
    assert_eq!(reply.status, 422);
    assert!(reply.body.len() < 8 * 1024, "{} bytes", reply.body.len());
}

/// RFC 9110, 12.5.1 and 15.5.7: a form that the caller does not take is not sent, and why is said as a
/// problem, which is what every refusal is.
#[test]
fn who_takes_no_form_of_the_answer_is_told_so_and_sent_none() {
    let refused = |reply: &Reply, what: &str| {
        assert_eq!(reply.status, 406, "{what}");
        assert_eq!(reply.problem()["code"], "not_acceptable", "{what}");
        assert_eq!(reply.header("etag"), "", "{what}");
    };
    let pdf = ("accept", "application/pdf, text/plain;q=0.5");
    let plain = ["/livez", "/readyz"];
    for path in FIXED.iter().chain(&plain) {
        refused(&send("GET", path, &[pdf], b""), path);
        refused(&send("GET", path, &[pdf, ("if-none-match", "*")], b""), path);
        let own = get(path).header("content-type").to_owned();
        let none = format!("{}, */*;q=0", own.split(';').next().expect("a type"));
        for accept in ["*/*", "", "nonsense", &own, &none] {
            let reply = send("GET", path, &[("accept", accept)], b"");
            assert_eq!((reply.status, reply.header("content-type")), (200, &*own), "{accept}");
        }
        let but_this = format!("{};q=0, text/x-none", own.split(';').next().expect("a type"));
        refused(&send("GET", path, &[("accept", &but_this)], b""), path);
    }
    let json = ("content-type", "application/json");
    for (path, body) in [
        ("/v1/layouts", BARN),
        ("/v1/buildings", GABLE),
        ("/v1/rechecks", BUILT),
        ("/v1/surveys", SURVEY),
        ("/v1/actions", ACTIONS),
        ("/v1/statements", STATEMENT),
    ] {
        refused(&send("POST", path, &[json, pdf], body.as_bytes()), path);
    }
    let lines = ("content-type", "application/x-ndjson");
    refused(&send("POST", "/v1/batches", &[lines, pdf], b"\n"), "/v1/batches");
    let taken = ("accept", "application/x-ndjson");
    assert_eq!(send("POST", "/v1/batches", &[lines, taken], b"\n").status, 200);
}

#[test]
fn a_schema_is_json_for_who_knows_no_better_name() {
    for (accept, kind) in [
        ("*/*", "application/schema+json"),
        ("application/json", "application/json"),
        ("application/json;q=0.5, application/schema+json", "application/schema+json"),
    ] {
        let reply = send("GET", "/v1/statements/schema", &[("accept", accept)], b"");
        assert_eq!((reply.status, reply.header("content-type")), (200, kind), "{accept}");
        assert!(reply.header("vary").contains("accept"), "{:?}", reply.headers);
    }
}

/// RFC 9110, 9.3.7 and 10.2.1.
#[test]
fn every_address_says_what_can_be_done_there() {
    let watching = ["/livez", "/readyz", "/metrics", "/docs"];
    for path in FIXED.iter().chain(&watching) {
        let reply = send("OPTIONS", path, &[], b"");
        assert_eq!((reply.status, reply.body.len()), (204, 0), "{path}");
        assert_eq!(reply.header("allow"), "GET,HEAD,OPTIONS", "{path}");
        assert_eq!(reply.header("accept-post"), "", "{path}");
    }
    for (path, kind) in [
        ("/v1/layouts", "application/json"),
        ("/v1/buildings", "application/json"),
        ("/v1/rechecks", "application/json"),
        ("/v1/surveys", "application/json"),
        ("/v1/actions", "application/json"),
        ("/v1/batches", "application/x-ndjson"),
    ] {
        let reply = send("OPTIONS", path, &[], b"");
        assert_eq!((reply.status, reply.body.len()), (204, 0), "{path}");
        assert_eq!(reply.header("allow"), "POST,OPTIONS", "{path}");
        assert_eq!(reply.header("accept-post"), kind, "{path}");
        let (head, _) = raw("OPTIONS", path, &[]);
        assert!(!head.contains("content-length") && !head.contains("\ncontent-type"), "{head}");
        let reply = send("POST", path, &[("content-type", "text/plain")], b"x");
        assert_eq!((reply.status, reply.header("accept-post")), (415, kind), "{path}");
        assert_eq!(reply.problem()["code"], "unsupported_media_type", "{path}");
    }
    assert_eq!(send("OPTIONS", "/nowhere", &[], b"").status, 404);
}

/// RFC 9110, 12.5.3.
#[test]
fn a_coding_that_is_excluded_is_not_used() {
    for (accept, coding) in [
        ("gzip;q=0", None),
        ("gzip;q=0, zstd;q=0.0", None),
        ("gzip;q=0, zstd", Some("zstd")),
        ("identity;q=0, gzip", Some("gzip")),
        ("gzip;q=0.5, identity;q=1", None),
        ("*;q=0, identity", None),
        ("br", None),
        ("", None),
    ] {
        for path in ["/v1/rules", "/", "/openapi.json"] {
            let (head, _) = raw("GET", path, &[("accept-encoding", accept)]);
            assert!(head.starts_with("http/1.1 200"), "{path}, {accept}: {head}");
            let used = head.split("content-encoding: ").nth(1).and_then(|of| of.split('\r').next());
            assert_eq!(used, coding, "{path}, {accept}");
        }
    }
    for none in ["identity;q=0", "*;q=0", "gzip;q=0, zstd;q=0, identity;q=0"] {
        for path in ["/v1/rules", "/livez"] {
            let refusing = ("accept-encoding", none);
            let reply = send("GET", path, &[refusing, ("if-none-match", "*")], b"");
            assert_eq!(reply.status, 406, "{path}, {none}");
            assert_eq!(reply.problem()["code"], "not_acceptable", "{path}, {none}");
            assert_eq!(reply.header("etag"), "", "{path}, {none}");
        }
    }
}
