//! Who may call, and how much: keys, their rights and their quotas.

use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;

use hookspan::http::App;
use hookspan::http::connections::Connections;
use hookspan::http::keys::Keys;
use hookspan::http::keys::admission::{Access, Public};
use hookspan::http::limits::Limits;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use crate::exhaustion::long_job;
use crate::server::{ACTIONS, BARN, Reply, example, post, send_to, serving};

/// A key as an operator would make it.
pub fn key(name: &str) -> String {
    format!("{name}-{}", "0123456789abcdef".repeat(3))
}

/// Its hash as it stands in the file.
pub fn hash(key: &str) -> String {
    let hash: [u8; 32] = Sha256::digest(key.as_bytes()).into();
    // As the number it is, in digits to the base of 16.
    hash.chunks(16).fold(String::new(), |text, half| {
        let half = u128::from_be_bytes(half.try_into().expect("half of it"));
        format!("{text}{half:032x}")
    })
}

/// A file of keys of its own, removed when done with.
pub struct KeyFile(pub PathBuf);

impl KeyFile {
    pub fn new(keys: &Value) -> Self {
        static NUMBER: AtomicU32 = AtomicU32::new(0);
        let name = format!(
            "hookspan-keys-{}-{}.json",
            std::process::id(),
            NUMBER.fetch_add(1, Ordering::Relaxed)
        );
        let file = Self(std::env::temp_dir().join(name));
        file.write(&json!({ "keys": keys }).to_string());
        file
    }

    pub fn write(&self, text: &str) {
        std::fs::write(&self.0, text).expect("it can be written");
    }
}

impl Drop for KeyFile {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}

/// A server that asks everybody for a key.
fn guarded(keys: &Value, limits: Limits) -> (Keys, KeyFile, SocketAddr) {
    let file = KeyFile::new(keys);
    let keys = Keys::open(&file.0).expect("it is a file of keys");
    let access = Access { keys: Some(keys.clone()), loopback_needs_key: true, ..Access::default() };
    let (_, address) = serving(App::new(&limits).guarded_by(access), Connections::default());
    (keys, file, address)
}

fn entry(name: &str, limits: &Value) -> Value {
    json!({"name": name, "sha256": [hash(&key(name))], "limits": limits})
}

fn asked(address: SocketAddr, path: &str, body: &str, key: &str) -> Reply {
    let bearer = format!("Bearer {key}");
    let kind = if path == "/v1/batches" { "application/x-ndjson" } else { "application/json" };
    let headers = [("content-type", kind), ("authorization", &bearer)];
    send_to(address, "POST", path, &headers, body.as_bytes())
}

fn read(address: SocketAddr, path: &str, headers: &[(&str, &str)]) -> Reply {
    send_to(address, "GET", path, headers, b"")
}

/// Status and code of a refusal.
fn refused(reply: &Reply) -> (u16, String) {
    (reply.status, reply.problem()["code"].as_str().expect("a code").to_owned())
}

/// The parameters of one policy in a list of structured fields.
fn parameter(list: &str, policy: &str, name: &str) -> u64 {
    let member = list
        .split(", ")
        .find(|member| member.starts_with(&format!("\"{policy}\";")))
        .unwrap_or_else(|| panic!("{policy} is not in {list}"));
    let value = member.split(';').find_map(|part| part.strip_prefix(&format!("{name}=")));
    value.and_then(|value| value.parse().ok()).unwrap_or_else(|| panic!("{name} in {member}"))
}

#[test]
fn without_a_key_there_is_a_challenge() {
    let (_, _file, address) = guarded(&json!([entry("crm", &json!({}))]), Limits::default());
    let bare = send_to(
        address,
        "POST",
        "/v1/actions",
        &[("content-type", "application/json")],
        ACTIONS.as_bytes(),
    );
    assert_eq!(refused(&bare), (401, "unauthorized".to_owned()));
    assert_eq!(bare.header("www-authenticate"), "Bearer realm=\"hookspan\"");
    assert_eq!(bare.header("ratelimit"), "", "quotas are for those who have a key");
    let unknown = "Bearer realm=\"hookspan\", error=\"invalid_token\"";
    for wrong in [&key("other"), "", "short", &key("crm")[1..], &"x".repeat(5000)] {
        let reply = asked(address, "/v1/actions", ACTIONS, wrong);
        assert_eq!(refused(&reply), (401, "unauthorized".to_owned()), "{wrong}");
        assert_eq!(reply.header("www-authenticate"), unknown, "{wrong}");
        assert!(wrong.is_empty() || !reply.text().contains(wrong), "a key is never repeated");
    }
    for other in [format!("Basic {}", key("crm")), key("crm"), format!("Bearer\t{}", key("crm"))] {
        let reply = read(address, "/v1/nowhere", &[("authorization", &other)]);
        assert_eq!(refused(&reply), (401, "unauthorized".to_owned()), "{other}");
    }
    // What is there and what is not is told to those who may know.
    assert_eq!(read(address, "/v1/nowhere", &[]).status, 401);
    let known = format!("bearer {}", key("crm"));
    assert_eq!(read(address, "/v1/nowhere", &[("authorization", &known)]).status, 404);
}

#[test]
fn a_key_changes_nothing_but_the_head_of_an_answer() {
    let (_, _file, address) = guarded(&json!([entry("crm", &json!({}))]), Limits::default());
    let open = post("/v1/layouts", BARN.as_bytes());
    let keyed = asked(address, "/v1/layouts", BARN, &key("crm"));
    assert_eq!((keyed.status, &keyed.body), (open.status, &open.body));
    let policy = keyed.header("ratelimit-policy");
    assert_eq!(
        policy,
        "\"requests\";q=600;w=60, \"cpu\";q=60;qu=\"hookspan-cpu-seconds\";w=60, \
         \"at-once\";q=8;qu=\"concurrent-requests\""
    );
    assert_eq!(parameter(keyed.header("ratelimit"), "requests", "r"), 599);
    assert!(parameter(keyed.header("ratelimit"), "cpu", "r") < 60, "it has been billed");
}

#[test]
fn two_keys_are_in_force_while_one_takes_the_place_of_the_other() {
    let [old, new] = ["old", "new"].map(key);
    let (keys, file, address) =
        guarded(&json!([{"name": "crm", "sha256": [hash(&old)]}]), Limits::default());
    let status = |key: &str| asked(address, "/v1/actions", ACTIONS, key).status;
    assert_eq!((status(&old), status(&new)), (200, 401));
    let both = json!({"keys": [{"name": "crm", "sha256": [hash(&old), hash(&new)]}]});
    file.write(&both.to_string());
    assert_eq!(status(&new), 401, "not before the file is read again");
    assert!(keys.reload().expect("it is one"));
    assert!(!keys.reload().expect("it is one"), "nothing has changed since");
    assert_eq!((status(&old), status(&new)), (200, 200));
    let one = json!({"keys": [{"name": "crm", "sha256": [hash(&new).to_uppercase()]}]});
    file.write(&one.to_string());
    assert!(keys.reload().expect("it is one"));
    assert_eq!((status(&old), status(&new)), (401, 200));
    for broken in ["", "{", r#"{"keys": [{"name": "crm", "sha256": []}]}"#] {
        file.write(broken);
        assert!(keys.reload().is_err(), "{broken}");
        assert_eq!((status(&old), status(&new)), (401, 200), "the keys stay as they were");
    }
}

#[test]
fn a_reload_forgives_nothing() {
    let limits = json!({"requests": {"quota": 2, "window_s": 3600}});
    let (keys, file, address) = guarded(&json!([entry("crm", &limits)]), Limits::default());
    let left = || {
        let reply = asked(address, "/v1/actions", ACTIONS, &key("crm"));
        parameter(reply.header("ratelimit"), "requests", "r")
    };
    assert_eq!(left(), 1);
    let more = json!({"keys": [entry("crm", &limits), entry("app", &json!({}))]});
    file.write(&more.to_string());
    assert!(keys.reload().expect("it is one"));
    assert_eq!(left(), 0, "the same limits, the same account");
}

#[test]
fn a_quota_of_requests_is_for_one_key() {
    let limits = json!({"requests": {"quota": 2, "window_s": 3600}});
    let keys = json!([entry("little", &limits), entry("much", &json!({}))]);
    let (_, _file, address) = guarded(&keys, Limits::default());
    for left in [1, 0] {
        let reply = asked(address, "/v1/actions", ACTIONS, &key("little"));
        assert_eq!(reply.status, 200);
        assert_eq!(parameter(reply.header("ratelimit"), "requests", "r"), left);
    }
    let over = asked(address, "/v1/actions", ACTIONS, &key("little"));
    assert_eq!(refused(&over), (429, "too_many_requests".to_owned()));
    let after: u64 = over.header("retry-after").parse().expect("seconds");
    assert!((1700..=1800).contains(&after), "half of the window: {after}");
    assert_eq!(parameter(over.header("ratelimit"), "requests", "r"), 0);
    assert_eq!(parameter(over.header("ratelimit"), "requests", "t"), after, "the same moment");
    assert_eq!(asked(address, "/v1/actions", ACTIONS, &key("much")).status, 200);
}

#[test]
fn processor_time_is_billed_and_has_a_quota() {
    let keys = json!([entry(
        "crm",
        &json!({"cpu_s": {"quota": 1, "window_s": 86_400}, "search_limit": 20_000_000})
    )]);
    // Until it is cut short, the job takes more than there is.
    let limits = Limits { deadline: Some(Duration::from_secs(3)), ..Limits::default() };
    let (_, _file, address) = guarded(&keys, limits);
    let (mut sent, job) = (0, long_job());
    let over = loop {
        let reply = asked(address, "/v1/layouts", &job, &key("crm"));
        if reply.status == 429 {
            break reply;
        }
        sent += 1;
        assert!(sent < 50, "the quota is never used up");
    };
    assert!(sent > 0, "the first is let in");
    assert_eq!(refused(&over), (429, "too_many_requests".to_owned()));
    assert!(over.problem()["detail"].as_str().expect("a text").contains("processor"));
    assert!(over.header("retry-after").parse::<u64>().expect("seconds") > 60);
    assert_eq!(parameter(over.header("ratelimit"), "cpu", "r"), 0);
}

/// A batch whose caller has sent its head and nothing else.
fn open_batch(address: SocketAddr, key: &str) -> TcpStream {
    let mut stream = TcpStream::connect(address).expect("a connection");
    stream.set_read_timeout(Some(Duration::from_secs(60))).expect("a limit");
    let head = format!(
        "POST /v1/batches HTTP/1.1\r\nhost: test\r\nauthorization: Bearer {key}\r\n\
         content-type: application/x-ndjson\r\ntransfer-encoding: chunked\r\n\r\n"
    );
    stream.write_all(head.as_bytes()).expect("it takes the head");
    let mut begun = [0; 12];
    stream.read_exact(&mut begun).expect("it answers");
    assert_eq!(&begun, b"HTTP/1.1 200");
    stream
}

#[test]
fn so_many_requests_of_a_key_are_under_way() {
    let keys =
        json!([entry("app", &json!({"at_once": 1, "batches": true})), entry("other", &json!({})),]);
    let (_, _file, address) = guarded(&keys, Limits::default());
    let batch = open_batch(address, &key("app"));
    let over = asked(address, "/v1/actions", ACTIONS, &key("app"));
    assert_eq!(refused(&over), (429, "too_many_requests".to_owned()));
    assert_eq!(over.header("retry-after"), "1");
    assert_eq!(asked(address, "/v1/actions", ACTIONS, &key("other")).status, 200);
    drop(batch);
    for _ in 0..500 {
        if asked(address, "/v1/actions", ACTIONS, &key("app")).status == 200 {
            return;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    panic!("the turn of the batch is not given back");
}

#[test]
fn a_job_asks_for_no_longer_search_than_its_key_may() {
    let limits = json!({"search_limit": 300_000, "batches": true});
    let (_, _file, address) = guarded(&json!([entry("crm", &limits)]), Limits::default());
    let of = |limit: u64| {
        let mut job = example(BARN);
        job["wishes"]["search_limit"] = json!(limit);
        job
    };
    let bearer = format!("Bearer {}", key("crm"));
    for form in ["application/json", "image/svg+xml", "text/html"] {
        let headers =
            [("content-type", "application/json"), ("accept", form), ("authorization", &bearer)];
        let asked = |limit| {
            send_to(address, "POST", "/v1/layouts", &headers, of(limit).to_string().as_bytes())
        };
        assert_eq!(asked(300_000).status, 200, "{form}");
        let over = asked(300_001);
        assert_eq!(refused(&over), (422, "invalid_request".to_owned()), "{form}");
        let fault = &over.problem()["errors"][0];
        assert_eq!(fault["pointer"], "/wishes/search_limit");
        assert_eq!(fault["code"], "out_of_range");
    }
    let line = json!({"kind": "layout", "job": of(300_001)}).to_string();
    let answer = asked(address, "/v1/batches", &line, &key("crm"));
    assert!(
        answer.text().contains("\"pointer\":\"/job/wishes/search_limit\""),
        "{}",
        answer.text()
    );
}

#[test]
fn batches_are_a_right() {
    let keys = json!([entry("app", &json!({})), entry("nightly", &json!({"batches": true}))]);
    let (_, _file, address) = guarded(&keys, Limits::default());
    let line = json!({"kind": "actions", "job": example(ACTIONS)}).to_string();
    let without = asked(address, "/v1/batches", &line, &key("app"));
    assert_eq!(refused(&without), (403, "forbidden".to_owned()));
    assert!(without.header("www-authenticate").contains("error=\"insufficient_scope\""));
    let with = asked(address, "/v1/batches", &line, &key("nightly"));
    assert_eq!(with.status, 200);
    assert!(with.text().contains("\"complete\":true"), "{}", with.text());
}

/// A batch goes on at the pace its key may compute at, and no line of it is refused for that.
#[test]
fn a_batch_waits_for_its_quota_and_loses_no_line() {
    let limits = json!({"batches": true, "cpu_s": {"quota": 1, "window_s": 1}});
    let (keys, _file, address) = guarded(&json!([entry("nightly", &limits)]), Limits::default());
    let known = keys.find(&key("nightly")).expect("it is known");
    // What it owes is paid back in two seconds.
    known.meter().cpu.spend(Duration::from_millis(900));
    let line = json!({"kind": "actions", "job": example(ACTIONS)}).to_string() + "\n";
    let mut stream = open_batch(address, &key("nightly"));
    known.meter().cpu.spend(Duration::from_millis(1500));
    write!(stream, "{:x}\r\n{line}\r\n0\r\n\r\n", line.len()).expect("it takes the line");
    let begin = std::time::Instant::now();
    let mut answer = String::new();
    let mut piece = [0; 4096];
    while !answer.contains("\"summary\"") {
        let read = stream.read(&mut piece).expect("it answers");
        assert!(read > 0, "{answer}");
        answer.push_str(&String::from_utf8_lossy(&piece[..read]));
    }
    assert!(answer.contains("\"status\":200") && answer.contains("\"answered\":1"), "{answer}");
    assert!(begin.elapsed() > Duration::from_millis(300), "it did not wait");
}

#[test]
fn pages_are_as_public_as_they_are_said_to_be() {
    let keys = json!([entry("crm", &json!({}))]);
    for (public, documents, catalogues) in
        [(Public::All, 200, 200), (Public::Documents, 200, 401), (Public::Nothing, 401, 401)]
    {
        let file = KeyFile::new(&keys);
        let access = Access {
            keys: Some(Keys::open(&file.0).expect("it is one")),
            loopback_needs_key: true,
            public,
            ..Access::default()
        };
        let app = App::new(&Limits::default()).guarded_by(access);
        let (_, address) = serving(app, Connections::default());
        let bearer = format!("Bearer {}", key("crm"));
        for (paths, status) in [
            (
                &[
                    "/",
                    "/start.js",
                    "/docs/",
                    "/openapi.json",
                    "/openapi-3.0.json",
                    "/problems/",
                    "/problems/busy",
                ][..],
                documents,
            ),
            (&["/v1/components", "/v1/warnings", "/v1/rules"], catalogues),
            // Open to everybody, and here there is none.
            (&["/v1/signing-key"], if documents == 200 { 404 } else { documents }),
            (&["/livez", "/readyz"], 200),
            (&["/metrics", "/v1/layouts", "/nowhere"], 401),
        ] {
            for path in paths {
                assert_eq!(read(address, path, &[]).status, status, "{public:?} {path}");
                let with = read(address, path, &[("authorization", &bearer)]);
                assert_ne!(with.status, 401, "{public:?} {path}");
            }
        }
    }
}

#[test]
fn this_machine_is_open_unless_a_request_was_passed_on() {
    let file = KeyFile::new(&json!([entry("crm", &json!({}))]));
    let keys = Some(Keys::open(&file.0).expect("it is one"));
    let app = App::new(&Limits::default()).guarded_by(Access { keys, ..Access::default() });
    let (_, address) = serving(app, Connections::default());
    let status = |header: Option<(&'static str, &str)>| {
        let mut headers = vec![("content-type", "application/json")];
        headers.extend(header);
        send_to(address, "POST", "/v1/actions", &headers, ACTIONS.as_bytes()).status
    };
    assert_eq!(status(None), 200);
    assert_eq!(read(address, "/metrics", &[]).status, 200);
    for name in ["forwarded", "via", "x-forwarded-for", "x-forwarded-host", "x-real-ip"] {
        assert_eq!(status(Some((name, "127.0.0.1"))), 401, "{name}");
    }
    // Who brings a key is held to it, wherever from.
    assert_eq!(status(Some(("authorization", &format!("Bearer {}", key("other"))))), 401);
    assert_eq!(status(Some(("authorization", &format!("Bearer {}", key("crm"))))), 200);
}

#[test]
fn counters_are_a_right_or_for_this_machine() {
    let keys = json!([entry("app", &json!({})), entry("watch", &json!({"metrics": true}))]);
    let (_, _file, address) = guarded(&keys, Limits::default());
    let with =
        |key: String| read(address, "/metrics", &[("authorization", &format!("Bearer {key}"))]);
    assert_eq!(refused(&with(key("app"))), (403, "forbidden".to_owned()));
    assert_eq!(with(key("watch")).status, 200);
    // Where there are no keys, whoever is not here has nothing to do with them.
    let (_, open) = serving(App::new(&Limits::default()), Connections::default());
    assert_eq!(read(open, "/metrics", &[]).status, 200);
    let passed_on = read(open, "/metrics", &[("x-forwarded-for", "192.0.2.1")]);
    assert_eq!(refused(&passed_on), (403, "forbidden".to_owned()));
    assert_eq!(read(open, "/v1/rules", &[("x-forwarded-for", "192.0.2.1")]).status, 200);
}
