//! Who sends too much, too slowly or too often costs nobody else anything: what is refused, with
//! which problem, and that everything is free again afterwards.

use std::io::{Read, Write};
use std::net::{Shutdown, SocketAddr, TcpStream};
use std::time::Duration;

use hookspan::http::connections::Connections;
use hookspan::http::limits::Limits;
use serde_json::{Value, json};

use crate::server::{ACTIONS, BARN, address, example, post, send, started};

/// Longer than any test runs.
const LONG: Duration = Duration::from_secs(3600);
/// Over at once.
const SHORT: Duration = Duration::from_millis(50);

fn connected(address: SocketAddr) -> TcpStream {
    let stream = TcpStream::connect(address).expect("a connection");
    stream.set_read_timeout(Some(Duration::from_secs(60))).expect("a limit");
    stream
}

/// What comes until the server hangs up.
fn rest(stream: &mut TcpStream) -> String {
    let mut reply = Vec::new();
    // A connection that is reset has ended, too.
    let _ = stream.read_to_end(&mut reply);
    String::from_utf8_lossy(&reply).into_owned()
}

/// Sends bytes as they are and reads until the server hangs up.
fn raw(address: SocketAddr, request: &str) -> String {
    let mut stream = connected(address);
    stream.write_all(request.as_bytes()).expect("it takes the request");
    rest(&mut stream)
}

fn job_of(length: usize) -> String {
    format!(
        "POST /v1/actions HTTP/1.1\r\nhost: test\r\nconnection: close\r\n\
         content-type: application/json\r\ncontent-length: {length}\r\n\r\n"
    )
}

/// Status and code of an answer with a problem.
fn refused(reply: &str) -> (&str, String) {
    let (head, body) = reply.split_once("\r\n\r\n").unwrap_or_else(|| panic!("no head: {reply:?}"));
    assert!(head.contains("application/problem+json"), "{head}");
    let problem: Value = serde_json::from_str(body).unwrap_or_else(|e| panic!("{e}: {body}"));
    (head.split(' ').nth(1).unwrap_or(""), problem["code"].as_str().unwrap_or("").to_owned())
}

#[test]
fn a_head_is_as_rfc_9112_has_it_and_no_longer_than_needed() {
    for hosts in ["", "host: a\r\nhost: b\r\n"] {
        let reply =
            raw(address(), &format!("GET /livez HTTP/1.1\r\n{hosts}connection: close\r\n\r\n"));
        assert_eq!(refused(&reply), ("400", "malformed_request".to_owned()), "{hosts}");
    }
    let old = raw(address(), "GET /livez HTTP/1.0\r\n\r\n");
    assert!(old.starts_with("HTTP/1.0 200"), "HTTP/1.0 knows no Host: {old}");
    let long = "x".repeat(5000);
    let reply = send("GET", &format!("/{long}"), &[], b"");
    assert_eq!((reply.status, &reply.problem()["code"]), (414, &json!("address_too_long")));
    let headers: Vec<(&str, &str)> = ["a", "b", "c", "d"].map(|name| (name, &long[..])).to_vec();
    let reply = send("GET", "/livez", &headers, b"");
    assert_eq!((reply.status, &reply.problem()["code"]), (431, &json!("headers_too_large")));
}

#[test]
fn an_id_that_is_not_one_is_replaced() {
    for wild in ["a b", "x\"y", "<script>", &"7".repeat(65)] {
        let reply = send("GET", "/livez", &[("x-request-id", wild)], b"");
        let id = reply.header("x-request-id");
        assert!(id != wild && id.len() == 36, "{wild} became {id}");
    }
}

/// Memory a request costs grows with its values, not with its bytes.
#[test]
fn a_document_of_too_many_values_is_refused_where_they_became_too_many() {
    let fields: String = vec![r#"{"omitted":[["a","b"]]}"#; 3000].join(",");
    let many = format!(r#"{{"array":{{"fields":[{fields}]}},"roof":{{}}}}"#);
    let limits = Limits { max_body_bytes: 4 << 20, ..Limits::default() };
    let (_, address) = started(limits, Connections::default());
    let of = |body: &str| {
        let head = job_of(body.len()).replace("/v1/actions", "/v1/layouts");
        let reply = raw(address, &format!("{head}{body}"));
        let (_, body) = reply.split_once("\r\n\r\n").expect("a head");
        serde_json::from_str::<Value>(body).expect("a problem")["errors"].clone()
    };
    let unknown = r#""x":0,"#.repeat(460_000);
    let faults = of(&format!(r#"{{{unknown}"roof":{{}}}}"#));
    assert_eq!(faults.as_array().map(Vec::len), Some(1), "{faults}");
    assert_eq!((&faults[0]["pointer"], &faults[0]["code"]), (&json!("/x"), &json!("out_of_range")));
    assert!(of(&many).as_array().is_some_and(|faults| faults.len() > 1), "these are few enough");
}

fn packed(coding: &str, bytes: &[u8]) -> Vec<u8> {
    if coding == "zstd" {
        return zstd::encode_all(bytes, 1).expect("it fits");
    }
    let mut packed = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    packed.write_all(bytes).expect("it fits");
    packed.finish().expect("it ends")
}

#[test]
fn nothing_may_follow_a_packed_body() {
    for coding in ["gzip", "zstd"] {
        for garbage in 1..12 {
            let mut body = packed(coding, ACTIONS.as_bytes());
            body.extend(vec![b'x'; garbage]);
            let headers = [("content-type", "application/json"), ("content-encoding", coding)];
            let reply = send("POST", "/v1/actions", &headers, &body);
            assert_eq!(reply.status, 400, "{coding} and {garbage} bytes");
        }
    }
}

/// What a decoder has to keep is said in the first bytes of a body.
#[test]
fn a_window_of_zstd_is_no_larger_than_it_has_to_be() {
    let with_window = |log: u32| {
        let mut encoder = zstd::Encoder::new(Vec::new(), 1).expect("an encoder");
        encoder.window_log(log).expect("a window");
        encoder.write_all(ACTIONS.as_bytes()).expect("it fits");
        encoder.finish().expect("it ends")
    };
    let headers = [("content-type", "application/json"), ("content-encoding", "zstd")];
    for (log, status) in [(20, 200), (23, 200), (24, 400), (27, 400)] {
        let reply = send("POST", "/v1/actions", &headers, &with_window(log));
        assert_eq!(reply.status, status, "2^{log} bytes");
    }
    let (_, address) = started(Limits { body: LONG, ..Limits::default() }, Connections::default());
    let body = with_window(23);
    let head = job_of(body.len()).replace("\r\n\r\n", "\r\ncontent-encoding: zstd\r\n\r\n");
    let half = || {
        let mut stream = connected(address);
        stream.write_all(head.as_bytes()).expect("it takes the head");
        stream.write_all(&body[..body.len() / 2]).expect("it takes a part");
        stream
    };
    let mut held: Vec<TcpStream> = std::iter::repeat_with(half).take(20).collect();
    // The first to be answered is one of those there is no memory for.
    let one = held.pop().map(|mut last| rest(&mut last)).expect("there are some");
    assert_eq!(refused(&one), ("503", "busy".to_owned()));
}

/// Ten million empty lines are a few kilobytes of zstd.
#[test]
fn a_batch_of_empty_lines_ends() {
    let line = json!({"kind": "actions", "job": example(ACTIONS)}).to_string();
    let headers = [("content-type", "application/x-ndjson"), ("content-encoding", "zstd")];
    let of = |empty: usize| {
        let text = format!("{line}\n{}{line}\n", "\n".repeat(empty));
        let reply = send("POST", "/v1/batches", &headers, &packed("zstd", text.as_bytes()));
        let summary = reply.text().lines().last().expect("a summary").to_owned();
        serde_json::from_str::<Value>(&summary).expect("JSON")["summary"].clone()
    };
    assert_eq!((&of(9_999)["complete"], &of(9_999)["lines"]), (&json!(true), &json!(2)));
    let ended = of(10_000_000);
    assert_eq!((&ended["complete"], &ended["lines"]), (&json!(false), &json!(1)));
    assert!(ended["next_line"].as_u64().is_some_and(|next| (10_000..40_000).contains(&next)));
}

#[test]
fn a_body_that_does_not_arrive_is_not_waited_for() {
    let limits = Limits { body: SHORT, ..Limits::default() };
    let (_, address) = started(limits, Connections::default());
    let mut stream = connected(address);
    stream.write_all(job_of(ACTIONS.len()).as_bytes()).expect("it takes the head");
    stream.write_all(&ACTIONS.as_bytes()[..100]).expect("it takes a part");
    assert_eq!(refused(&rest(&mut stream)), ("408", "body_too_slow".to_owned()));
    let mut batch = connected(address);
    let head = "POST /v1/batches HTTP/1.1\r\nhost: test\r\nconnection: close\r\n\
                content-type: application/x-ndjson\r\ntransfer-encoding: chunked\r\n\r\n4\r\n{}\n\n\r\n";
    batch.write_all(head.as_bytes()).expect("it takes a line");
    let answer = rest(&mut batch);
    assert!(answer.contains(r#""complete":false,"next_line":3"#), "{answer}");
}

#[test]
fn a_head_that_does_not_arrive_is_not_waited_for() {
    let connections = Connections { head: SHORT, ..Connections::default() };
    let (_, address) = started(Limits::default(), connections);
    let mut half = connected(address);
    half.write_all(b"GET /livez HTTP/1.1\r\nhost: te").expect("it takes a part");
    rest(&mut half);
    let mut idle = connected(address);
    idle.write_all(b"GET /livez HTTP/1.1\r\nhost: test\r\n\r\n").expect("it takes a request");
    assert!(
        rest(&mut idle).starts_with("HTTP/1.1 200"),
        "answered, and closed when nothing follows"
    );
}

#[test]
fn an_answer_nobody_takes_is_not_kept() {
    let connections = Connections { write: SHORT, ..Connections::default() };
    let (_, address) = started(Limits::default(), connections);
    let mut stream = connected(address);
    // More than the buffers between here and there hold.
    let one = "GET /openapi.json HTTP/1.1\r\nhost: test\r\n\r\n";
    let ended = std::iter::repeat_with(|| stream.write_all(one.as_bytes())).take(1_000_000);
    assert!(ended.into_iter().any(|sent| sent.is_err()), "it still takes requests");
}

#[test]
fn there_are_only_so_many_connections() {
    let connections = Connections { most: 1, ..Connections::default() };
    let (_, address) = started(Limits::default(), connections);
    let request = b"GET /livez HTTP/1.1\r\nhost: test\r\n\r\n";
    let (mut first, mut second) = (connected(address), connected(address));
    first.write_all(request).expect("it takes the request");
    let mut byte = [0];
    first.read_exact(&mut byte).expect("it answers");
    second.write_all(request).expect("the system takes the request");
    second.set_read_timeout(Some(SHORT)).expect("a limit");
    assert!(second.read_exact(&mut byte).is_err(), "there is one connection only");
    second.set_read_timeout(Some(Duration::from_secs(60))).expect("a limit");
    first.shutdown(Shutdown::Both).expect("it hangs up");
    second.read_exact(&mut byte).expect("now it is its turn");
}

#[test]
fn bodies_take_only_so_much_memory() {
    // Room for one.
    let bodies_bytes = ACTIONS.len().next_multiple_of(1024);
    let limits = Limits { bodies_bytes, body: LONG, ..Limits::default() };
    let (_, address) = started(limits, Connections::default());
    let mut half = connected(address);
    half.write_all(job_of(ACTIONS.len()).as_bytes()).expect("it takes the head");
    half.write_all(&ACTIONS.as_bytes()[..ACTIONS.len() - 1]).expect("it takes nearly all");
    // Sent before that, another would take the room instead.
    let held = format!("hookspan_bodies_held_bytes {bodies_bytes}\n");
    let counters = "GET /metrics HTTP/1.1\r\nhost: test\r\nconnection: close\r\n\r\n";
    while !raw(address, counters).contains(&held) {
        std::thread::sleep(Duration::from_millis(5));
    }
    let whole = format!("{}{ACTIONS}", job_of(ACTIONS.len()));
    let busy = raw(address, &whole);
    assert_eq!(refused(&busy), ("503", "busy".to_owned()));
    assert!(busy.to_lowercase().contains("retry-after: "), "{busy}");
    half.write_all(&ACTIONS.as_bytes()[ACTIONS.len() - 1..]).expect("it takes the rest");
    assert!(rest(&mut half).starts_with("HTTP/1.1 200"), "who is in is served");
    assert!(raw(address, &whole).starts_with("HTTP/1.1 200"), "there is room again");
}

/// Lines of a batch count like bodies: what is begun of one, and what waits for its answer.
#[test]
fn lines_of_batches_take_only_so_much_memory() {
    let limits = Limits {
        bodies_bytes: 16 * 1024,
        body: LONG,
        queue: Duration::from_millis(200),
        ..Limits::default()
    };
    let (_, address) = started(limits, Connections::default());
    let head = "POST /v1/batches HTTP/1.1\r\nhost: test\r\nconnection: close\r\n\
                content-type: application/x-ndjson\r\ntransfer-encoding: chunked\r\n\r\n";
    let begun = |bytes: usize| format!("{bytes:x}\r\n{}\r\n", "x".repeat(bytes));
    let batch = || {
        let mut stream = connected(address);
        stream.write_all(head.as_bytes()).expect("it takes the head");
        let mut status = [0; 12];
        stream.read_exact(&mut status).expect("it answers");
        assert_eq!(&status, b"HTTP/1.1 200");
        stream
    };
    let (mut first, mut second) = (batch(), batch());
    first.write_all(begun(10_000).as_bytes()).expect("it takes a part of a line");
    // Refused before anything of it is read, once the first has its room.
    let refusal = loop {
        let reply = raw(address, &format!("{head}0\r\n\r\n"));
        if !reply.starts_with("HTTP/1.1 200") {
            break reply;
        }
    };
    assert_eq!(refused(&refusal), ("503", "busy".to_owned()));
    second.write_all(begun(10_000).as_bytes()).expect("the system takes it");
    let answer = rest(&mut second);
    assert!(answer.contains(r#""complete":false,"next_line":1,"lines":0"#), "{answer}");
    first.write_all(b"1\r\n\n\r\n0\r\n\r\n").expect("it takes the rest");
    let answer = rest(&mut first);
    assert!(answer.contains(r#""complete":true,"next_line":2,"lines":1"#), "{answer}");
    assert!(raw(address, &format!("{head}0\r\n\r\n")).starts_with("HTTP/1.1 200"));
}

/// A job that takes long: the same row on ever more rafters.
pub fn long_job() -> String {
    let mut job = example(BARN);
    let rafters = &mut job["roof"]["rafters"];
    let members = rafters.as_object_mut().expect("an object");
    for name in ["first_mm", "spacing_mm", "count"] {
        members.remove(name);
    }
    let places: Vec<u32> = (0..120).map(|i| 90 + 100 * i).collect();
    members.insert("positions_mm".to_owned(), json!(places));
    job["wishes"]["search_limit"] = json!(20_000_000);
    job.to_string()
}

#[test]
fn a_computation_that_takes_too_long_is_refused_and_frees_its_place() {
    let limits = Limits { deadline: Some(Duration::from_millis(1)), ..Limits::default() };
    let (_, address) = started(limits, Connections::default());
    let job = long_job();
    let head = job_of(job.len()).replace("/v1/actions", "/v1/layouts");
    for _ in 0..3 {
        let reply = raw(address, &format!("{head}{job}"));
        assert_eq!(refused(&reply), ("503", "overdue".to_owned()));
    }
    let line = json!({"kind": "layout", "job": serde_json::from_str::<Value>(&job).expect("JSON")});
    let head = job_of(line.to_string().len())
        .replace("/v1/actions", "/v1/batches")
        .replace("application/json", "application/x-ndjson");
    let answer = raw(address, &format!("{head}{line}"));
    assert!(
        answer.contains(r#""status":503"#) && answer.contains(r#""code":"overdue""#),
        "{answer}"
    );
}

/// An instance that is told to end sums up its batches, also to who still sends.
#[test]
fn a_batch_has_its_summary_though_its_caller_still_sends() {
    let (app, address) = started(Limits::default(), Connections::default());
    let mut stream = connected(address);
    let head = "POST /v1/batches HTTP/1.1\r\nhost: test\r\nconnection: close\r\n\
                content-type: application/x-ndjson\r\ntransfer-encoding: chunked\r\n\r\n";
    let line = json!({"kind": "actions", "job": example(ACTIONS)}).to_string() + "\n";
    let chunk = format!("{:x}\r\n{line}\r\n", line.len());
    stream.write_all(format!("{head}{chunk}").as_bytes()).expect("it takes a line");
    let mut begun = [0; 512];
    stream.read_exact(&mut begun).expect("it answers");
    app.end_batches();
    let mut sender = stream.try_clone().expect("a handle");
    let writer = std::thread::spawn(move || while sender.write_all(chunk.as_bytes()).is_ok() {});
    let answer = rest(&mut stream);
    assert!(answer.contains(r#""summary":{"complete":false,"next_line":"#), "{answer}");
    writer.join().expect("it was hung up on");
    assert_eq!(post("/v1/actions", ACTIONS.as_bytes()).status, 200, "others are not concerned");
}
