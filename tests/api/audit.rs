//! What the log says of requests, and what it never says; keys in the program itself.
#![cfg(unix)]

use std::io::{BufRead, BufReader, Read};
use std::net::SocketAddr;
use std::process::{Child, Command, Stdio};

use serde_json::{Value, json};

use crate::keys::{KeyFile, hash, key};
use crate::server::{ACTIONS, Reply, example, send_to};

/// The program, with its log.
struct Program {
    child: Child,
    log: BufReader<std::process::ChildStderr>,
    address: SocketAddr,
    said: Vec<Value>,
}

impl Program {
    fn started(arguments: &[&str]) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_hookspan"))
            .args(["--bind", "127.0.0.1:0", "--log-format", "json"])
            .args(arguments)
            .stderr(Stdio::piped())
            .spawn()
            .expect("it starts");
        let log = BufReader::new(child.stderr.take().expect("piped"));
        let address = ([127, 0, 0, 1], 0).into();
        let mut program = Self { child, log, address, said: Vec::new() };
        let line = program.until(|line| line["fields"]["message"] == "listening");
        let address = line["fields"]["address"].as_str().expect("an address");
        program.address = address.parse().expect("an address");
        program
    }

    /// Reads the log up to such a line.
    fn until(&mut self, wanted: impl Fn(&Value) -> bool) -> Value {
        loop {
            let mut line = String::new();
            assert!(self.log.read_line(&mut line).expect("a log") > 0, "it ended: {:?}", self.said);
            let line: Value = serde_json::from_str(&line).expect("one object a line");
            self.said.push(line.clone());
            if wanted(&line) {
                return line;
            }
        }
    }

    fn signal(&self, name: &str) {
        let sent = Command::new("kill").args([name, &self.child.id().to_string()]).status();
        assert!(sent.expect("it runs").success());
    }

    /// Ends it; everything it said.
    fn ended(mut self) -> String {
        self.signal("-TERM");
        let mut rest = String::new();
        self.log.read_to_string(&mut rest).expect("a log");
        self.child.wait().expect("it ends");
        let said: Vec<String> = self.said.iter().map(Value::to_string).collect();
        said.join("\n") + &rest
    }

    fn post(&self, path: &str, kind: &str, body: &str, headers: &[(&str, &str)]) -> Reply {
        let headers = [&[("content-type", kind)], headers].concat();
        send_to(self.address, "POST", path, &headers, body.as_bytes())
    }
}

#[test]
fn what_is_done_with_a_key_has_a_line_without_key_or_payload() {
    let crm = json!({"name": "crm", "sha256": [hash(&key("crm"))], "limits": {"batches": true}});
    let file = KeyFile::new(&json!([crm]));
    let path = file.0.to_str().expect("a path");
    // Not even one line a second for those without a key.
    let mut program =
        Program::started(&["--keys", path, "--loopback-needs-key", "--access-lines", "0"]);
    let bearer = format!("Bearer {}", key("crm"));
    let mut job = example(ACTIONS);
    job["reference"] = json!("not-for-the-log");
    let body = job.to_string();
    let trace = "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01";
    let headers = [("authorization", &bearer[..]), ("traceparent", trace)];
    let answer = program.post("/v1/actions?lang=de", "application/json", &body, &headers);
    let line = program.until(|line| line["target"] == "hookspan::audit");
    assert_eq!(answer.status, 200, "{}", answer.text());
    let fields = &line["fields"];
    assert!(line["timestamp"].as_str().is_some_and(|time| time.starts_with("20")), "{line}");
    assert_eq!(fields["key"], "crm");
    assert_eq!(fields["route"], "/v1/actions");
    assert_eq!(fields["digest"], answer.json()["input_digest"]);
    assert_eq!(fields["received"], body.len());
    assert_eq!(fields["sent"], answer.body.len());
    assert_eq!(fields["status"], 200);
    let cpu = fields["cpu_ms"].as_f64().expect("a time");
    assert!(cpu > 0.0 && cpu < 60_000.0, "{cpu}");
    let span = &line["span"];
    assert_eq!(span["trace"], "4bf92f3577b34da6a3ce929d0e0e4736");
    assert_eq!(span["parent"], "00f067aa0ba902b7");
    assert_eq!(span["id"], answer.header("x-request-id"));
    assert!(answer.header("traceresponse").contains(span["span"].as_str().expect("a name")));

    // A batch has a line of its own at its end, with what became of its lines.
    let lines = format!("{}\n{{}}\n", json!({"kind": "actions", "job": job}));
    program.post("/v1/batches", "application/x-ndjson", &lines, &headers);
    let line = program.until(|line| line["fields"]["message"] == "a batch ended");
    let fields = &line["fields"];
    assert_eq!((&fields["answered"], &fields["refused"]), (&json!(1), &json!(1)));
    assert_eq!((&fields["ending"], &fields["next_line"]), (&json!("complete"), &json!(3)));
    let line = program.until(|line| line["target"] == "hookspan::audit");
    assert_eq!(line["fields"]["received"], lines.len());

    // Refused with a key: a line. Without one: none.
    program.post("/v1/actions", "application/json", "{}", &[]);
    program.post("/v1/actions", "application/json", "{}", &headers);
    let line = program.until(|line| line["target"] == "hookspan::audit");
    assert_eq!(
        (&line["fields"]["status"], &line["fields"]["problem"]),
        (&json!(422), &json!("invalid_request"))
    );
    let log = program.ended();
    assert!(!log.contains("hookspan::access"), "{log}");
    for secret in [&key("crm")[..], &hash(&key("crm")), "not-for-the-log", "lang=de", "Bearer"] {
        assert!(!log.contains(secret), "the log says {secret}");
    }
}

#[test]
fn the_file_of_keys_is_read_again_when_told() {
    let of = |name: &str| json!({"name": "crm", "sha256": [hash(&key(name))]});
    let file = KeyFile::new(&json!([of("old")]));
    let path = file.0.to_str().expect("a path");
    let mut program = Program::started(&["--keys", path, "--loopback-needs-key"]);
    let status = |program: &Program, name: &str| {
        let bearer = format!("Bearer {}", key(name));
        let headers = [("authorization", &bearer[..])];
        program.post("/v1/actions", "application/json", ACTIONS, &headers).status
    };
    assert_eq!((status(&program, "old"), status(&program, "new")), (200, 401));
    file.write(&json!({"keys": [of("new")]}).to_string());
    program.signal("-HUP");
    program.until(|line| line["fields"]["message"] == "the keys have changed");
    assert_eq!((status(&program, "old"), status(&program, "new")), (401, 200));
    file.write("{");
    program.signal("-HUP");
    program.until(|line| line["level"] == "ERROR");
    assert_eq!(status(&program, "new"), 200);
    // Also without being told, a few seconds later.
    file.write(&json!({"keys": [of("old")]}).to_string());
    program.until(|line| line["fields"]["message"] == "the keys have changed");
    assert_eq!((status(&program, "old"), status(&program, "new")), (200, 401));
    program.ended();
}

#[test]
fn who_may_call_is_said_at_the_start_or_it_does_not_start() {
    let file = KeyFile::new(&json!([{"name": "crm", "sha256": [hash(&key("crm"))]}]));
    let path = file.0.to_str().expect("a path");
    let program = Program::started(&[]);
    assert!(program.ended().contains("everybody on this machine may call"));
    let program = Program::started(&["--keys", path]);
    let log = program.ended();
    assert!(log.contains("callers need a key") && log.contains("\"key\":\"crm\""), "{log}");
    file.write("{}");
    for (arguments, said) in [
        (&["--keys", path][..], "holds no keys"),
        (&["--keys", "/no/such/file"], "holds no keys"),
        (&["--keys", path, "--anonymous"], "say one of them"),
        (&["--loopback-needs-key"], "needs a file of keys"),
        (&["--bind", "0.0.0.0:0"], "--keys"),
    ] {
        let output = Command::new(env!("CARGO_BIN_EXE_hookspan")).args(arguments).output();
        let output = output.expect("it runs");
        assert_eq!(output.status.code(), Some(1), "{arguments:?}");
        let told = String::from_utf8_lossy(&output.stderr);
        assert!(told.contains(said), "{arguments:?}: {told}");
    }
}

#[test]
fn counters_have_an_address_of_their_own_where_wanted() {
    let mut program = Program::started(&["--metrics-bind", "127.0.0.1:0", "--drain-seconds", "0"]);
    let said = |line: &Value| line["fields"]["message"] == "metrics are open to who reaches this";
    let line = program.until(said);
    let address = line["fields"]["address"].as_str().expect("an address");
    let address = address.parse().expect("an address");
    let get = |path: &str| send_to(address, "GET", path, &[("x-forwarded-for", "192.0.2.1")], b"");
    assert_eq!(get("/livez").status, 200);
    assert!(get("/metrics").text().ends_with("# EOF\n"));
    assert_eq!(get("/v1/rules").status, 404, "nothing else is there");
    program.ended();
}
