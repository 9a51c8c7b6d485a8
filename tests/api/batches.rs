//! What a batch promises: each line answered as its job would be by itself, in order, whatever the
//! lines around it are; packed bodies; a reader who does not read holds it up; a summary at the end.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Shutdown, TcpStream};
use std::time::Duration;

use serde_json::{Value, json};

use crate::server::{
    ACTIONS, BARN, BUILT, GABLE, MAX_BODY_BYTES, Reply, STATEMENT, SURVEY, address, example, post,
    send,
};

const LINES: (&str, &str) = ("content-type", "application/x-ndjson");

/// One line of a batch.
fn line(id: &str, kind: &str, job: &str) -> String {
    json!({"id": id, "kind": kind, "job": example(job)}).to_string() + "\n"
}

/// Answers to the lines, and the summary.
fn taken_apart(reply: &Reply) -> (Vec<Value>, Value) {
    assert_eq!(reply.status, 200, "{}", reply.text());
    assert_eq!(reply.header("content-type"), "application/x-ndjson");
    assert!(reply.text().ends_with('\n'));
    let mut lines: Vec<Value> =
        reply.text().lines().map(|l| serde_json::from_str(l).expect("a line is JSON")).collect();
    let last = lines.pop().expect("there is a last line");
    assert_eq!(last["kind"], "end", "the last line is the summary");
    let summary = last["summary"].clone();
    (lines, summary)
}

fn batch(text: &str) -> (Vec<Value>, Value) {
    taken_apart(&send("POST", "/v1/batches", &[LINES], text.as_bytes()))
}

/// A line of every kind there is.
fn every_kind() -> [(&'static str, &'static str); 6] {
    [
        ("layout", BARN),
        ("building", GABLE),
        ("recheck", BUILT),
        ("survey", SURVEY),
        ("actions", ACTIONS),
        ("statement", STATEMENT),
    ]
}

/// A program that reads a line knows by its `kind` alone what it is: the description has a schema for
/// every kind of line, and the line is that and no other.
#[test]
fn every_line_asked_and_answered_is_what_the_description_says_of_its_kind() {
    let description: Value = serde_json::from_str(hookspan::http::description::openapi_text())
        .expect("the description is JSON");
    let fits = |schema: &str| {
        let schema = json!({
            "$schema": "https://json-schema.org/draft/2020-12/schema",
            "$ref": format!("#/components/schemas/{schema}"),
            "components": description["components"],
        });
        jsonschema::draft202012::new(&schema).expect("the description is a schema")
    };
    let named = |choice: &str, line: &Value| {
        let mapping = &description["components"]["schemas"][choice]["discriminator"]["mapping"];
        let reference = mapping[line["kind"].as_str().expect("a kind")].as_str();
        reference.expect("a kind of the description").rsplit('/').next().expect("a name").to_owned()
    };
    let asked: Vec<String> = every_kind().iter().map(|(kind, job)| line(kind, kind, job)).collect();
    let bad = [
        "{}",
        "not JSON",
        r#"{"id":"a","kind":"layout","job":{}}"#,
        r#"{"kind":"roof","job":{}}"#,
        r#"{"kind":"layout"}"#,
    ];
    let text = asked.concat() + &bad.join("\n");
    let whole = [fits("BatchLine"), fits("BatchOutput")];
    for line in &asked {
        let line: Value = serde_json::from_str(line).expect("JSON");
        assert!(whole[0].is_valid(&line), "{}", line["kind"]);
        assert!(fits(&named("BatchLine", &line)).is_valid(&line), "{}", line["kind"]);
    }
    for query in ["", "?trace=full", "?answer=summary"] {
        let reply = send("POST", &format!("/v1/batches{query}"), &[LINES], text.as_bytes());
        let mut kinds = Vec::new();
        for line in reply.text().lines() {
            let line: Value = serde_json::from_str(line).expect("JSON");
            let errors: Vec<String> = fits(&named("BatchOutput", &line))
                .iter_errors(&line)
                .map(|error| format!("{}: {error}", error.instance_path()))
                .collect();
            assert_eq!(errors, Vec::<String>::new(), "{query}: {}", line["kind"]);
            assert!(whole[1].is_valid(&line), "{query}: {} is of two kinds", line["kind"]);
            kinds.push(line["kind"].as_str().expect("a kind").to_owned());
        }
        let mut expected: Vec<&str> = every_kind().iter().map(|(kind, _)| *kind).collect();
        if query == "?answer=summary" {
            expected = vec!["summary"; every_kind().len()];
        }
        expected.extend(["problem"; 5]);
        expected.push("end");
        assert_eq!(kinds, expected, "{query}");
    }
}

#[test]
fn every_kind_is_answered_with_the_bytes_it_would_have_by_itself() {
    let kinds = every_kind();
    let text: String = kinds.iter().map(|(kind, job)| line(kind, kind, job)).collect();
    for (query, trace) in [("", "none"), ("?trace=full", "full")] {
        let path = format!("/v1/batches{query}");
        let reply = send("POST", &path, &[LINES], text.as_bytes());
        let (_, summary) = taken_apart(&reply);
        assert_eq!(
            (&summary["answered"], &summary["complete"]),
            (&json!(kinds.len()), &json!(true))
        );
        for (number, ((kind, job), given)) in kinds.iter().zip(reply.text().lines()).enumerate() {
            let path = match *kind {
                "actions" => "/v1/actions".to_owned(),
                "statement" => "/v1/statements".to_owned(),
                kind => format!("/v1/{kind}s?trace={trace}"),
            };
            let alone = post(&path, job.as_bytes());
            let expected = format!(
                r#"{{"id":"{kind}","line":{},"kind":"{kind}","status":200,"result":{}}}"#,
                number + 1,
                alone.text()
            );
            assert!(given == expected, "{kind}, trace {trace}: not the same bytes");
            let own: Value = serde_json::from_slice(&alone.body).expect("JSON");
            assert_eq!(own["kind"], *kind, "an answer says what it is");
        }
    }
}

#[test]
fn answers_keep_the_order_of_the_lines() {
    let quick = line("quick", "actions", ACTIONS);
    let text: String = (0..120)
        .map(|i| if i % 20 == 0 { line("slow", "layout", BARN) } else { quick.clone() })
        .collect();
    let (lines, summary) = batch(&text);
    for (at, line) in lines.iter().enumerate() {
        assert_eq!(line["line"], at + 1);
        assert_eq!(line["id"], if at % 20 == 0 { "slow" } else { "quick" });
    }
    assert_eq!((&summary["lines"], &summary["answered"]), (&json!(120), &json!(120)));
    assert_eq!(summary["next_line"], 121);
    let verdicts = summary["verdicts"].as_object().expect("counts").values();
    assert_eq!(verdicts.filter_map(Value::as_u64).sum::<u64>(), 6, "actions have no verdict");
}

/// A line, and what becomes of it: status, code, pointers, id.
type Bad = (String, u16, &'static str, Vec<&'static str>, Option<&'static str>);

fn bad_lines() -> Vec<Bad> {
    let mut barn = example(BARN);
    barn["roof"]["pitch_deg"] = json!(95);
    barn["surprise"] = json!(1);
    let faulty = json!({"id": "f", "kind": "layout", "job": barn, "extra": 0}).to_string();
    let mut crossed = example(ACTIONS);
    crossed["roof"]["outline_mm"] = json!([[0, 0], [12400, 0], [0, 5786], [12400, 5786]]);
    let crossed = json!({"kind": "actions", "job": crossed}).to_string();
    let i = "invalid_request";
    let m = "malformed_json";
    vec![
        ("this is not JSON".into(), 400, m, vec![], None),
        (r#"{"id": "cut", "kind": "lay"#.into(), 400, m, vec![], None),
        ("[]".into(), 422, i, vec![""], None),
        ("{}".into(), 422, i, vec!["/kind", "/job"], None),
        (r#"{"id": "k", "kind": "roof", "job": {}}"#.into(), 422, i, vec!["/kind"], Some("k")),
        (r#"{"id": 7, "kind": "layout", "job": 7}"#.into(), 422, i, vec!["/id", "/job"], None),
        (
            r#"{"id": "t", "id": "t", "kind": "actions"}"#.into(),
            422,
            i,
            vec!["/id", "/job"],
            Some("t"),
        ),
        (faulty, 422, i, vec!["/job/roof/pitch_deg", "/job/surprise", "/extra"], Some("f")),
        (crossed, 422, i, vec!["/job/roof/outline_mm"], None),
        (format!("\"{}\"", "x".repeat(MAX_BODY_BYTES)), 413, "too_large", vec![], None),
    ]
}

#[test]
fn a_bad_line_costs_only_itself() {
    let good = line("good", "actions", ACTIONS);
    let text: String =
        bad_lines().into_iter().flat_map(|(bad, ..)| [bad, format!("\n{good}")]).collect();
    let (lines, summary) = batch(&text);
    assert_eq!(lines.len(), 2 * bad_lines().len());
    for ((bad, status, code, pointers, id), given) in bad_lines().iter().zip(lines.chunks(2)) {
        let bad = &bad[..bad.len().min(60)];
        let problem = &given[0]["problem"];
        assert_eq!(given[0]["status"], *status, "{bad}");
        assert_eq!((&problem["status"], &problem["code"]), (&json!(status), &json!(code)), "{bad}");
        let found: Vec<&str> = problem["errors"]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(|fault| fault["pointer"].as_str())
            .collect();
        assert_eq!(found, *pointers, "{bad}");
        assert_eq!(given[0]["id"].as_str(), *id, "{bad}");
        assert!(given[0]["result"].is_null());
        if *code == "malformed_json" {
            assert_eq!(problem["line"], given[0]["line"], "{bad}");
        }
        assert_eq!((&given[1]["id"], &given[1]["status"]), (&json!("good"), &json!(200)), "{bad}");
    }
    let bad = bad_lines().len();
    assert_eq!((&summary["answered"], &summary["refused"]), (&json!(bad), &json!(bad)));
}

#[test]
fn empty_lines_are_counted_and_a_last_line_needs_no_line_feed() {
    let good = line("x", "actions", ACTIONS);
    let bare = json!({"kind": "actions", "job": example(ACTIONS)});
    let (lines, summary) = batch(&format!("\n\r\n{good}  \n{bare}"));
    let numbers: Vec<_> = lines.iter().filter_map(|line| line["line"].as_u64()).collect();
    assert_eq!(numbers, [3, 5]);
    assert!(lines[1].get("id").is_none(), "none was given");
    assert_eq!((&summary["lines"], &summary["next_line"]), (&json!(2), &json!(6)));
    let (lines, summary) = batch("\n");
    assert_eq!((lines.len(), &summary["complete"]), (0, &json!(true)));
}

#[test]
fn a_batch_must_be_declared_as_lines_and_takes_known_parameters_only() {
    let text = line("x", "actions", ACTIONS);
    for declared in
        ["application/x-ndjson; charset=utf-8", "Application/NDJSON", "application/jsonl"]
    {
        let reply = send("POST", "/v1/batches", &[("content-type", declared)], text.as_bytes());
        assert_eq!(reply.status, 200, "{declared}");
    }
    for declared in ["application/json", "text/plain"] {
        let reply = send("POST", "/v1/batches", &[("content-type", declared)], text.as_bytes());
        assert_eq!(reply.problem()["code"], "unsupported_media_type", "{declared}");
    }
    let reply = send("POST", "/v1/batches?tracing=full", &[LINES], text.as_bytes());
    assert_eq!(reply.problem()["code"], "invalid_request");
}

fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut packed = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    packed.write_all(bytes).expect("it fits");
    packed.finish().expect("it ends")
}

fn zstd(bytes: &[u8]) -> Vec<u8> {
    zstd::encode_all(bytes, 1).expect("it fits")
}

const JSON: (&str, &str) = ("content-type", "application/json");

#[test]
fn packed_bodies_are_taken() {
    let text = line("a", "layout", BARN) + &line("b", "actions", ACTIONS);
    let plain = send("POST", "/v1/batches", &[LINES], text.as_bytes());
    for (coding, pack) in [("gzip", gzip as fn(&[u8]) -> Vec<u8>), ("zstd", zstd)] {
        let packed = [("content-encoding", coding)];
        let reply = send("POST", "/v1/batches", &[LINES, packed[0]], &pack(text.as_bytes()));
        assert_eq!((reply.status, reply.text()), (200, plain.text()), "{coding}");
        let reply = send("POST", "/v1/layouts", &[JSON, packed[0]], &pack(BARN.as_bytes()));
        assert_eq!(reply.text(), post("/v1/layouts", BARN.as_bytes()).text(), "{coding}");
    }
}

/// Several packed pieces one after the other are one body (RFC 1952 2.2, RFC 8878 3.1).
#[test]
fn every_piece_of_a_packed_body_is_read() {
    let (first, second) = (line("a", "layout", BARN), line("b", "actions", ACTIONS));
    for (coding, pack) in [("gzip", gzip as fn(&[u8]) -> Vec<u8>), ("zstd", zstd)] {
        let packed = ("content-encoding", coding);
        let pieces = [pack(first.as_bytes()), pack(second.as_bytes())].concat();
        let reply = send("POST", "/v1/batches", &[LINES, packed], &pieces);
        let (lines, summary) = taken_apart(&reply);
        let ids: Vec<_> = lines.iter().map(|line| &line["id"]).collect();
        assert_eq!(ids, ["a", "b"], "{coding}");
        assert_eq!(summary["complete"], true, "{coding}");
        let (begin, end) = BARN.as_bytes().split_at(BARN.len() / 2);
        let pieces = [pack(begin), pack(end)].concat();
        let reply = send("POST", "/v1/layouts", &[JSON, packed], &pieces);
        assert_eq!(reply.text(), post("/v1/layouts", BARN.as_bytes()).text(), "{coding}");
    }
}

/// What counts is the size of what is unpacked.
#[test]
fn a_small_body_cannot_unpack_to_a_large_one() {
    let large = vec![b' '; 200 * MAX_BODY_BYTES];
    for (coding, packed) in [("gzip", gzip(&large)), ("zstd", zstd(&large))] {
        assert!(packed.len() < MAX_BODY_BYTES, "{coding}");
        let header = ("content-encoding", coding);
        let reply = send("POST", "/v1/layouts", &[JSON, header], &packed);
        assert_eq!(reply.problem()["code"], "too_large", "{coding}");
    }
    let mut text = large;
    text.extend(b"\n");
    text.extend(line("next", "actions", ACTIONS).bytes());
    let packed = [LINES, ("content-encoding", "gzip")];
    let (lines, _) = taken_apart(&send("POST", "/v1/batches", &packed, &gzip(&text)));
    assert_eq!((&lines[0]["status"], &lines[1]["status"]), (&json!(413), &json!(200)));
}

#[test]
fn what_cannot_be_unpacked_is_said() {
    let reply = send("POST", "/v1/layouts", &[JSON, ("content-encoding", "br")], BARN.as_bytes());
    assert_eq!(reply.problem()["code"], "unsupported_media_type");
    assert!(reply.header("accept-encoding").contains("zstd"), "{:?}", reply.headers);
    let gzipped = ("content-encoding", "gzip");
    let reply = send("POST", "/v1/layouts", &[JSON, gzipped], BARN.as_bytes());
    assert_eq!(reply.status, 400, "{}", reply.text());
    let mut packed = gzip(line("a", "actions", ACTIONS).repeat(50).as_bytes());
    packed.truncate(packed.len() / 2);
    let (lines, summary) = taken_apart(&send("POST", "/v1/batches", &[LINES, gzipped], &packed));
    assert_eq!(summary["complete"], false);
    assert_eq!(summary["next_line"], lines.len() + 1);
}

/// A connection on which a batch of unknown length begins.
fn begin() -> TcpStream {
    let mut stream = TcpStream::connect(address()).expect("a connection");
    let head = "POST /v1/batches HTTP/1.1\r\nhost: test\r\nconnection: close\r\n\
                content-type: application/x-ndjson\r\ntransfer-encoding: chunked\r\n\r\n";
    stream.write_all(head.as_bytes()).expect("it takes the head");
    stream.set_read_timeout(Some(Duration::from_secs(60))).expect("a limit");
    stream
}

fn chunk(text: &str) -> String {
    format!("{:x}\r\n{text}\r\n", text.len())
}

/// The first line of the answer that begins like this.
fn await_line(reader: &mut impl BufRead, begin: &str) -> String {
    loop {
        let mut line = String::new();
        assert_ne!(reader.read_line(&mut line).expect("it answers"), 0, "no line begins {begin}");
        if line.starts_with(begin) {
            return line;
        }
    }
}

#[test]
fn a_line_is_answered_before_the_next_is_sent() {
    let mut stream = begin();
    let mut reader = BufReader::new(stream.try_clone().expect("a handle"));
    for number in 1..=3 {
        stream.write_all(chunk(&line("x", "actions", ACTIONS)).as_bytes()).expect("it takes it");
        let answer = await_line(&mut reader, r#"{"id":"x""#);
        assert!(answer.starts_with(&format!(r#"{{"id":"x","line":{number},"#)), "{answer}");
    }
    stream.write_all(b"0\r\n\r\n").expect("it takes the end");
    await_line(&mut reader, r#"{"kind":"end","summary":{"complete":true,"next_line":4"#);
}

#[test]
fn who_does_not_read_is_not_read_from() {
    const MOST: usize = 48 << 20;
    let mut stream = begin();
    stream.set_write_timeout(Some(Duration::from_secs(3))).expect("a limit");
    let piece = chunk(&line("x", "actions", ACTIONS).repeat(20));
    let mut sent = 0;
    let held_up = loop {
        // Cut off where the socket is full, so that the rest can follow.
        match stream.write(&piece.as_bytes()[sent % piece.len()..]) {
            Ok(bytes) => sent += bytes,
            Err(error) => break error,
        }
        assert!(sent < MOST, "{sent} bytes were taken and no answer was");
    };
    assert!(matches!(
        held_up.kind(),
        std::io::ErrorKind::WouldBlock | std::io::ErrorKind::TimedOut
    ));
    // Nobody else is held up, and once it is read from it goes on.
    assert_eq!(post("/v1/actions", ACTIONS.as_bytes()).status, 200);
    let mut reader = BufReader::new(stream.try_clone().expect("a handle"));
    let rest = piece.as_bytes()[sent % piece.len()..].to_vec();
    let writer = std::thread::spawn(move || {
        stream.set_write_timeout(None).expect("no limit");
        stream.write_all(&rest).and_then(|()| stream.write_all(b"0\r\n\r\n"))
    });
    let summary = await_line(&mut reader, r#"{"kind":"end","summary":"#);
    assert!(
        summary.contains(r#""complete":true"#) && summary.contains(r#""refused":0"#),
        "{summary}"
    );
    writer.join().expect("it ran").expect("it took the rest");
}

#[test]
fn a_single_request_goes_between_the_lines_of_a_batch() {
    let mut stream = begin();
    let mut reader = BufReader::new(stream.try_clone().expect("a handle"));
    let text = chunk(&line("b", "layout", BARN).repeat(8));
    let writer = std::thread::spawn(move || {
        for _ in 0..5000 {
            stream.write_all(text.as_bytes())?;
        }
        stream.write_all(b"0\r\n\r\n")
    });
    await_line(&mut reader, r#"{"id":"b","line":1,"#);
    assert_eq!(post("/v1/layouts", BARN.as_bytes()).status, 200);
    // Far from its end, the batch is given up: the writer's connection breaks.
    assert!(!writer.is_finished(), "the batch was over before the request was");
    reader.get_ref().shutdown(Shutdown::Both).expect("it hangs up");
    assert!(writer.join().expect("it ran").is_err());
    assert_eq!(post("/v1/layouts", BARN.as_bytes()).status, 200);
}

/// The answer is packed for who asks, and still comes line by line.
#[test]
fn a_packed_answer_is_not_held_back() {
    let mut stream = TcpStream::connect(address()).expect("a connection");
    let head = "POST /v1/batches HTTP/1.1\r\nhost: test\r\naccept-encoding: gzip\r\n\
                content-type: application/x-ndjson\r\ntransfer-encoding: chunked\r\n\r\n";
    stream.write_all(head.as_bytes()).expect("it takes the head");
    stream.write_all(chunk(&line("x", "actions", ACTIONS)).as_bytes()).expect("it takes a line");
    stream.set_read_timeout(Some(Duration::from_secs(20))).expect("a limit");
    let (mut packed, mut piece) = (Vec::new(), [0; 4096]);
    loop {
        let read = stream.read(&mut piece).expect("the answer comes while the batch goes on");
        assert_ne!(read, 0, "it hung up");
        packed.extend(&piece[..read]);
        let Some(head_end) = packed.windows(4).position(|four| four == b"\r\n\r\n") else {
            continue;
        };
        let body: Vec<u8> = unchunked(&packed[head_end + 4..]);
        let mut plain = Vec::new();
        // Cut off in the middle of the stream: what can be read before that is what counts.
        let _ = flate2::read::GzDecoder::new(&body[..]).read_to_end(&mut plain);
        if plain.ends_with(b"\n") {
            assert!(plain.starts_with(br#"{"id":"x","line":1,"kind":"actions","status":200"#));
            return;
        }
    }
}

/// The complete chunks of a body.
fn unchunked(mut body: &[u8]) -> Vec<u8> {
    let mut plain = Vec::new();
    while let Some(at) = body.windows(2).position(|two| two == b"\r\n") {
        let size = std::str::from_utf8(&body[..at]).expect("a size");
        let size = usize::from_str_radix(size, 16).expect("a size");
        let Some(chunk) = body.get(at + 2..at + 2 + size) else { break };
        plain.extend(chunk);
        body = body.get(at + 4 + size..).unwrap_or_default();
    }
    plain
}

#[test]
fn a_batch_begins_with_the_line_it_is_asked_to() {
    let text = line("a", "actions", ACTIONS) + "\nnot JSON\n" + &line("d", "actions", ACTIONS);
    let from = |first: &str| {
        let path = format!("/v1/batches?first_line={first}&lang=de");
        send("POST", &path, &[LINES], text.as_bytes())
    };
    for (first, numbers, lines) in
        [("1", vec![1, 3, 4], 3), ("2", vec![3, 4], 2), ("4", vec![4], 1), ("99", vec![], 0)]
    {
        let (answers, summary) = taken_apart(&from(first));
        let told: Vec<u64> = answers.iter().filter_map(|line| line["line"].as_u64()).collect();
        assert_eq!(told, numbers, "{first}");
        assert_eq!((&summary["lines"], &summary["complete"]), (&json!(lines), &json!(true)));
    }
    for wrong in ["0", "-1", "1.5", "x", "", "9223372036854775808"] {
        let problem = from(wrong).problem();
        assert_eq!(problem["errors"][0]["parameter"], "first_line", "{wrong}");
        assert_eq!(problem["errors"][0]["code"], "out_of_range", "{wrong}");
    }
}

/// RFC 9110, 10.1.1: not one byte of the body is sent before that, by callers who ask first.
#[test]
fn who_asks_whether_to_go_on_is_told_at_once() {
    for coding in ["", "content-encoding: gzip\r\n"] {
        let mut stream = TcpStream::connect(address()).expect("a connection");
        stream.set_read_timeout(Some(Duration::from_secs(20))).expect("a limit");
        let head = format!(
            "POST /v1/batches HTTP/1.1\r\nhost: test\r\nconnection: close\r\n{coding}\
             content-type: application/x-ndjson\r\ntransfer-encoding: chunked\r\n\
             expect: 100-continue\r\n\r\n"
        );
        stream.write_all(head.as_bytes()).expect("it takes the head");
        let mut said = [0; 25];
        stream.read_exact(&mut said).expect("it answers");
        assert_eq!(&said, b"HTTP/1.1 100 Continue\r\n\r\n");
    }
}
