//! What holds for every route: request ids, headers, compression, problems of the framework.

use crate::server::{BARN, get, post, send};

#[test]
fn an_id_is_made_for_a_request_without_one_and_kept_otherwise() {
    let made = get("/livez");
    assert!(made.header("x-request-id").len() >= 16, "{:?}", made.headers);
    let again = get("/livez");
    assert_ne!(made.header("x-request-id"), again.header("x-request-id"));
    let kept = send("GET", "/livez", &[("x-request-id", "job-4711")], b"");
    assert_eq!(kept.header("x-request-id"), "job-4711");
    assert!(get("/nowhere").header("x-request-id").len() >= 16, "also on a problem");
}

#[test]
fn every_answer_carries_the_security_headers() {
    for path in ["/", "/docs/", "/v1/rules", "/nowhere"] {
        let reply = get(path);
        assert_eq!(reply.header("x-content-type-options"), "nosniff", "{path}");
        assert_eq!(reply.header("x-frame-options"), "DENY", "{path}");
        assert_eq!(reply.header("referrer-policy"), "no-referrer", "{path}");
        assert!(
            reply.header("content-security-policy").contains("frame-ancestors 'none'"),
            "{path}"
        );
    }
}

#[test]
fn answers_are_compressed_for_who_asks() {
    assert_eq!(get("/livez").header("content-encoding"), "");
    // The client unpacks what it knows; this asks by hand and unpacks by hand.
    let packed = raw(
        "GET /openapi.json HTTP/1.1\r\nhost: test\r\naccept-encoding: gzip\r\nconnection: close\r\n\r\n",
    );
    let head_end = packed.windows(4).position(|four| four == b"\r\n\r\n").expect("a head");
    let head = String::from_utf8_lossy(&packed[..head_end]).to_lowercase();
    assert!(head.contains("content-encoding: gzip"), "{head}");
    let plain = get("/openapi.json").body.len();
    assert!(packed.len() < plain / 3, "{} of {plain} bytes", packed.len());
}

/// Sends bytes as they are and reads until the server hangs up.
fn raw(request: &str) -> Vec<u8> {
    use std::io::{Read, Write};
    let mut stream = std::net::TcpStream::connect(crate::server::address()).expect("a connection");
    stream.write_all(request.as_bytes()).expect("it takes the request");
    let mut reply = Vec::new();
    stream.read_to_end(&mut reply).expect("it answers and hangs up");
    reply
}

#[test]
fn a_wrong_method_names_the_right_ones() {
    let reply = get("/v1/layouts");
    assert_eq!(reply.status, 405);
    assert_eq!(reply.problem()["code"], "method_not_allowed");
    assert_eq!(reply.header("allow"), "POST,OPTIONS");
    let reply = post("/v1/rules", b"{}");
    assert_eq!(reply.status, 405);
    assert!(reply.header("allow").contains("GET"), "{}", reply.header("allow"));
}

#[test]
fn the_same_request_gives_the_same_bytes() {
    let first = post("/v1/layouts", BARN.as_bytes());
    let second = post("/v1/layouts", BARN.as_bytes());
    assert_eq!((first.status, &first.body), (second.status, &second.body));
}

/// Worked outside this project: the document with sorted members, no white space, no empty lists and
/// whole numbers without a point, through another program's SHA-256.
#[test]
fn anyone_can_recompute_the_digest_of_a_request() {
    let digest = "ce6868125e05ffdf0ec128b2b26bb6a01e21e90316e318f63152227b32d5420e";
    assert_eq!(post("/v1/layouts", BARN.as_bytes()).json()["input_digest"], digest);
    let compact: serde_json::Value = serde_json::from_str(BARN).expect("the barn is JSON");
    let compact = compact.to_string();
    assert_eq!(post("/v1/layouts", compact.as_bytes()).json()["input_digest"], digest);
}

#[test]
fn every_way_of_declaring_json_is_accepted() {
    let plain = post("/v1/layouts", BARN.as_bytes());
    for declared in
        ["application/json; charset=utf-8", "Application/JSON", "application/vnd.example+json"]
    {
        let reply = send("POST", "/v1/layouts", &[("content-type", declared)], BARN.as_bytes());
        assert_eq!((reply.status, &reply.body), (plain.status, &plain.body), "{declared}");
    }
}

/// Deterministic, so that a failure can be repeated.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % sides as u64).expect("fewer sides than fit")
    }
}

/// Whatever happens to the bytes of a request, it is the caller's fault or it is computed.
#[test]
fn damaged_requests_never_break_the_service() {
    let mut dice = Dice(0x5EED_4007);
    let mut refused = 0;
    for round in 0..300 {
        let mut body = BARN.as_bytes().to_vec();
        for _ in 0..=dice.roll(3) {
            let at = dice.roll(body.len());
            match dice.roll(4) {
                0 => body[at] = u8::try_from(dice.roll(256)).expect("a byte"),
                1 => drop(body.remove(at)),
                2 => body.insert(at, b"0123456789-.eE\"{}[],:tfn\\ "[dice.roll(25)]),
                _ => body.truncate(at.max(1)),
            }
        }
        let reply = post("/v1/layouts", &body);
        assert!(reply.status < 500, "round {round}: {} {}", reply.status, reply.text());
        if reply.status != 200 {
            reply.problem();
            refused += 1;
        }
    }
    assert!(refused > 100, "only {refused} of 300 were refused, so little was damaged");
}
