//! The program itself: solving without HTTP, printing the description, refusing to be open.

use std::io::Write;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

use crate::server::{BARN, post};

fn hookspan(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_hookspan"))
        .args(arguments)
        .env_remove("HOOKSPAN_BIND")
        .env_remove("HOOKSPAN_ANONYMOUS")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    // A program that does not read its input closes it; that is not what is tested.
    let _ = child.stdin.take().expect("piped").write_all(input);
    child.wait_with_output().expect("the program ends")
}

#[test]
fn a_faulty_job_gives_the_same_problem_as_over_http() {
    let body = BARN.replace("\"pitch_deg\": 42.0", "\"pitch_deg\": 95");
    let output = hookspan(&["solve"], body.as_bytes());
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stdout.is_empty());
    let problem: Value = serde_json::from_slice(&output.stderr).expect("a problem");
    assert_eq!(problem, post("/v1/layouts", body.as_bytes()).problem());
    assert_eq!(problem["errors"][0]["pointer"], "/roof/pitch_deg");
}

#[test]
fn a_good_job_gives_the_same_bytes_as_over_http() {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/layout-barn.json");
    for arguments in [&["solve", file][..], &["solve", "-"], &["solve"]] {
        let output = hookspan(arguments, BARN.as_bytes());
        assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
        let mut over_http = post("/v1/layouts", BARN.as_bytes()).body;
        over_http.push(b'\n');
        assert_eq!(output.stdout, over_http, "{arguments:?}");
    }
}

#[test]
fn the_trace_is_there_when_asked_for() {
    let traced = hookspan(&["solve", "--trace"], BARN.as_bytes());
    let traced: Value = serde_json::from_slice(&traced.stdout).expect("an answer");
    assert!(traced["trace"].as_array().is_some_and(|lines| !lines.is_empty()));
    assert_eq!(traced, post("/v1/layouts?trace=full", BARN.as_bytes()).json());
    assert!(post("/v1/layouts", BARN.as_bytes()).json()["trace"].is_null());
}

#[test]
fn what_cannot_be_read_ends_with_2() {
    let output = hookspan(&["solve", "/no/such/file.json"], b"");
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("cannot read"));
}

#[test]
fn the_description_is_printed() {
    let output = hookspan(&["openapi"], b"");
    assert_eq!(output.status.code(), Some(0));
    // Not assert_eq: thousands of differing bytes help nobody.
    assert!(output.stdout == include_bytes!("../../openapi/hookspan.json"), "drifted");
}

#[test]
fn an_open_address_is_refused_unless_meant() {
    let output = hookspan(&["--bind", "0.0.0.0:0"], b"");
    assert_eq!(output.status.code(), Some(1));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("--anonymous") && said.contains("API keys"), "{said}");
}

/// Starts it as an operator does, asks it once, ends it as an operator does.
#[cfg(unix)]
#[test]
fn it_serves_by_default_and_stops_in_order() {
    use std::io::{BufRead, BufReader};
    let mut child = Command::new(env!("CARGO_BIN_EXE_hookspan"))
        .args(["--bind", "127.0.0.1:0", "--log-format", "json"])
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut log = BufReader::new(child.stderr.take().expect("piped")).lines();
    let listening = std::iter::from_fn(|| log.next())
        .map(|line| line.expect("the log is text"))
        .map(|line| serde_json::from_str::<Value>(&line).expect("the log is JSON"))
        .find(|event| event["fields"]["message"] == "listening")
        .expect("it says where it listens");
    let address = listening["fields"]["address"].as_str().expect("an address");
    assert!(listening["fields"]["limits"].as_str().is_some_and(|l| l.contains("max_body_bytes")));
    let reply = ureq::get(format!("http://{address}/livez")).call().expect("it answers");
    assert_eq!(reply.status(), 200);
    let stop = Command::new("kill").args(["-TERM", &child.id().to_string()]).status();
    assert!(stop.expect("kill runs").success());
    assert_eq!(child.wait().expect("it ends").code(), Some(0));
}
