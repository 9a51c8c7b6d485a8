//! Programs in browsers: which of them may read an answer (Fetch Standard, "CORS protocol").

use std::net::SocketAddr;

use hookspan::http::App;
use hookspan::http::connections::Connections;
use hookspan::http::keys::Keys;
use hookspan::http::keys::admission::Access;
use hookspan::http::limits::Limits;
use serde_json::json;
use ureq::http::HeaderName;

use crate::keys::{KeyFile, hash, key};
use crate::server::{ACTIONS, Reply, send, send_to, serving};

const OURS: &str = "https://planning.example";

/// A server that asks everybody for a key, whose answers go to these origins.
fn sharing(origins: &str) -> (KeyFile, SocketAddr) {
    let limits = json!({"requests": {"quota": 2, "window_s": 3600}});
    let entry = json!({"name": "crm", "sha256": [hash(&key("crm"))], "limits": limits});
    let file = KeyFile::new(&json!([entry]));
    let keys = Some(Keys::open(&file.0).expect("it is a file of keys"));
    let access = Access { keys, loopback_needs_key: true, ..Access::default() };
    let app = App::new(&Limits::default())
        .guarded_by(access)
        .shared_with(Some(origins.parse().expect("they are origins")));
    let (_, address) = serving(app, Connections::default());
    (file, address)
}

/// What an answer says of origins, names of the fields only.
fn said(reply: &Reply) -> Vec<&str> {
    let names = reply.headers.keys().map(HeaderName::as_str);
    names.filter(|name| name.starts_with("access-control-")).collect()
}

fn varies_by_origin(reply: &Reply) -> bool {
    let mut all = reply.headers.get_all("vary").iter();
    all.any(|vary| vary.to_str().expect("a text").split(", ").any(|name| name == "origin"))
}

/// The words of a list in a header.
fn listed<'a>(reply: &'a Reply, name: &str) -> Vec<&'a str> {
    reply.header(name).split(',').map(str::trim).collect()
}

fn preflight(address: SocketAddr, path: &str, origin: &str) -> Reply {
    let headers = [
        ("origin", origin),
        ("access-control-request-method", "POST"),
        ("access-control-request-headers", "authorization,content-type"),
    ];
    send_to(address, "OPTIONS", path, &headers, b"")
}

#[test]
fn nothing_is_said_of_origins_unless_some_are_named() {
    for (method, path) in [("GET", "/v1/rules"), ("GET", "/nowhere"), ("OPTIONS", "/v1/layouts")] {
        let headers = [("origin", OURS), ("access-control-request-method", "POST")];
        let reply = send(method, path, &headers, b"");
        assert_eq!(said(&reply), [""; 0], "{method} {path}");
        assert!(!varies_by_origin(&reply), "{method} {path}");
    }
    let asked = send("OPTIONS", "/v1/layouts", &[("access-control-request-method", "POST")], b"");
    assert_eq!((asked.status, asked.header("allow")), (204, "POST,OPTIONS"));
}

#[test]
fn an_origin_that_is_named_may_read_and_another_may_not() {
    let (_file, address) = sharing("http://localhost:3000, https://planning.example");
    for origin in ["http://localhost:3000", OURS] {
        let reply = send_to(address, "GET", "/v1/rules", &[("origin", origin)], b"");
        assert_eq!(reply.header("access-control-allow-origin"), origin);
        assert_eq!(reply.header("access-control-allow-credentials"), "");
        assert!(varies_by_origin(&reply), "a cache has to know");
        let exposed = listed(&reply, "access-control-expose-headers");
        for name in ["etag", "x-request-id", "traceresponse"] {
            assert!(exposed.contains(&name) && !reply.header(name).is_empty(), "{name}");
        }
        // That of a table is read from an answer to a job.
        assert!(exposed.contains(&"content-disposition"));
        let headers = [("origin", origin), ("if-none-match", reply.header("etag"))];
        let again = send_to(address, "GET", "/v1/rules", &headers, b"");
        assert_eq!((again.status, again.header("access-control-allow-origin")), (304, origin));
    }
    for other in ["https://planning.example.org", "http://planning.example", "null", ""] {
        let reply = send_to(address, "GET", "/v1/rules", &[("origin", other)], b"");
        assert_eq!(
            (reply.status, reply.header("access-control-allow-origin")),
            (200, ""),
            "{other}"
        );
        assert!(varies_by_origin(&reply), "{other}");
        let reply = preflight(address, "/v1/actions", other);
        assert_eq!(reply.header("access-control-allow-origin"), "", "{other}");
    }
    let reply = send_to(address, "GET", "/v1/rules", &[], b"");
    assert_eq!(reply.header("access-control-allow-origin"), "");
    assert!(varies_by_origin(&reply), "a cache has to know of an answer to nobody, too");
}

#[test]
fn everybody_may_read_where_it_is_said() {
    let (_file, address) = sharing("*");
    let reply = send_to(address, "GET", "/v1/rules", &[("origin", "https://any.example")], b"");
    assert_eq!(reply.header("access-control-allow-origin"), "*");
    assert!(!varies_by_origin(&reply), "it is the same for all");
    let reply = preflight(address, "/v1/actions", "https://any.example");
    assert_eq!((reply.status, reply.header("access-control-allow-origin")), (200, "*"));
}

/// A browser asks without the key, before the request that has it.
#[test]
fn a_preflight_needs_no_key_and_spends_nothing() {
    let (_file, address) = sharing(OURS);
    for path in ["/v1/actions", "/v1/batches", "/nowhere"] {
        let reply = preflight(address, path, OURS);
        assert_eq!((reply.status, reply.body.len()), (200, 0), "{path}");
        assert_eq!(reply.header("access-control-allow-origin"), OURS, "{path}");
        let methods = listed(&reply, "access-control-allow-methods");
        assert!(["GET", "HEAD", "POST"].iter().all(|method| methods.contains(method)), "{path}");
        let allowed = listed(&reply, "access-control-allow-headers");
        for name in [
            "authorization",
            "content-type",
            "content-encoding",
            "accept",
            "accept-language",
            "if-none-match",
            "x-request-id",
            "traceparent",
        ] {
            assert!(allowed.contains(&name), "{name}");
        }
        assert!(reply.header("access-control-max-age").parse::<u32>().is_ok_and(|s| s >= 600));
        assert!(!reply.header("x-request-id").is_empty(), "it is in the log");
    }
}

/// Only what a browser sends is a preflight.
#[test]
fn what_can_be_done_at_an_address_is_still_said_there() {
    let (_file, address) = sharing(OURS);
    let method = ("access-control-request-method", "POST");
    for headers in [&[][..], &[("origin", OURS)], &[method]] {
        let reply = send_to(address, "OPTIONS", "/v1/rules", headers, b"");
        assert_eq!((reply.status, reply.header("allow")), (204, "GET,HEAD,OPTIONS"), "{headers:?}");
        assert_eq!(reply.header("access-control-allow-methods"), "", "{headers:?}");
        let shared = reply.header("access-control-allow-origin");
        assert_eq!(shared.is_empty(), !headers.contains(&("origin", OURS)), "{headers:?}");
        // This address is not public, and a question about it is no preflight.
        let reply = send_to(address, "OPTIONS", "/v1/layouts", headers, b"");
        assert_eq!(reply.status, 401, "{headers:?}");
    }
}

/// A program that cannot read why it was refused cannot do anything about it.
#[test]
fn problems_can_be_read_as_well() {
    let (_file, address) = sharing(OURS);
    let bearer = format!("Bearer {}", key("crm"));
    let of = |body: &str, with_key: bool| {
        let mut headers = vec![("origin", OURS), ("content-type", "application/json")];
        headers.extend(with_key.then_some(("authorization", bearer.as_str())));
        send_to(address, "POST", "/v1/actions", &headers, body.as_bytes())
    };
    let long = "x".repeat(5000);
    let too_long = send_to(address, "GET", &format!("/{long}"), &[("origin", OURS)], b"");
    for (reply, status, fields) in [
        (of(ACTIONS, false), 401, &["www-authenticate"][..]),
        (of("{}", true), 422, &["ratelimit", "ratelimit-policy"]),
        (of("{", true), 400, &["ratelimit", "ratelimit-policy"]),
        (of(ACTIONS, true), 429, &["retry-after", "ratelimit", "ratelimit-policy"]),
        (too_long, 414, &[]),
    ] {
        assert_eq!(reply.status, status);
        reply.problem();
        assert_eq!(reply.header("access-control-allow-origin"), OURS, "{status}");
        let exposed = listed(&reply, "access-control-expose-headers");
        for name in fields {
            assert!(exposed.contains(name) && !reply.header(name).is_empty(), "{status}: {name}");
        }
    }
}
