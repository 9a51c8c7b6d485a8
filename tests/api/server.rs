//! A real server on a port of its own, in a thread of this test program.

use std::net::SocketAddr;
use std::sync::OnceLock;
use std::time::Duration;

use hookspan::http::connections::{self, Connections};
use hookspan::http::limits::Limits;
use hookspan::http::{App, router};
use serde_json::Value;
use ureq::http::{HeaderMap, Request};

/// Body limit of the test server: above every honest request, small enough to exceed quickly.
pub const MAX_BODY_BYTES: usize = 64 * 1024;

/// The barn, byte for byte as callers have it.
pub const BARN: &str = include_str!("../data/layout-barn.json");
/// The cottage.
pub const COTTAGE: &str = include_str!("../data/layout-cottage.json");

/// A cottage with modules of two kinds.
pub const TWO_MODULES: &str = include_str!("../data/layout-two-modules.json");

/// Both slopes of a gable house.
pub const GABLE: &str = include_str!("../data/building-gable.json");
/// The barn with what may be chosen.
pub const CHOICES: &str = include_str!("../data/choices-barn.json");
/// The barn as it was built.
pub const BUILT: &str = include_str!("../data/recheck-barn.json");
pub const TERRACE_BUILT: &str = include_str!("../data/recheck-terrace.json");
/// The barn before anything lies on it.
pub const ACTIONS: &str = include_str!("../data/actions-barn.json");

/// What was measured along a rail of it.
pub const SURVEY: &str = include_str!("../data/survey-barn.json");
/// A maker's statement.
pub const STATEMENT: &str = include_str!("../data/statement-trough-hook.json");

/// What came back.
pub struct Reply {
    pub status: u16,
    pub headers: HeaderMap,
    pub body: Vec<u8>,
}

impl Reply {
    /// The body as JSON.
    pub fn json(&self) -> Value {
        serde_json::from_slice(&self.body)
            .unwrap_or_else(|e| panic!("not JSON: {e}: {}", String::from_utf8_lossy(&self.body)))
    }

    /// The body as text.
    pub fn text(&self) -> &str {
        std::str::from_utf8(&self.body).expect("UTF-8")
    }

    /// A header, or `""`.
    pub fn header(&self, name: &str) -> &str {
        self.headers.get(name).and_then(|value| value.to_str().ok()).unwrap_or("")
    }

    /// The body as a problem: asserts that it is one and that it agrees with its own status.
    pub fn problem(&self) -> Value {
        assert_eq!(self.header("content-type"), "application/problem+json", "{}", self.text());
        let problem = self.json();
        assert_eq!(problem["status"], self.status);
        let code = problem["code"].as_str().expect("a code");
        assert_eq!(problem["type"], format!("/problems/{code}"));
        for field in ["title", "detail"] {
            assert!(!problem[field].as_str().unwrap_or_default().is_empty(), "{field} is empty");
        }
        problem
    }
}

/// Address of the server all tests share, started by the first.
pub fn address() -> SocketAddr {
    static ADDRESS: OnceLock<SocketAddr> = OnceLock::new();
    *ADDRESS.get_or_init(|| {
        let limits = Limits {
            max_body_bytes: MAX_BODY_BYTES,
            jobs_at_once: 2,
            waiting: 1000,
            queue: Duration::from_secs(30),
            deadline: Some(Duration::from_secs(60)),
            ..Limits::default()
        };
        started(limits, Connections::default()).1
    })
}

/// Starts a server, which runs as long as the program.
pub fn started(limits: Limits, connections: Connections) -> (App, SocketAddr) {
    serving(App::new(&limits), connections)
}

/// Starts a server of this instance.
pub fn serving(app: App, connections: Connections) -> (App, SocketAddr) {
    let (say, hear) = std::sync::mpsc::channel();
    std::thread::spawn(move || {
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .worker_threads(2)
            .enable_all()
            .build()
            .expect("a runtime");
        runtime.block_on(async {
            let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await.expect("a port");
            say.send((app.clone(), listener.local_addr().expect("an address")))
                .expect("a test waits");
            let never = std::future::pending();
            let served =
                connections::serve(listener, router(app), connections, never, Duration::ZERO);
            served.await.expect("it serves");
        });
    });
    hear.recv().expect("the server started")
}

/// Sends one request on a connection of its own.
pub fn send(method: &str, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Reply {
    send_to(address(), method, path, headers, body)
}

/// The same to another server.
pub fn send_to(
    address: SocketAddr,
    method: &str,
    path: &str,
    headers: &[(&str, &str)],
    body: &[u8],
) -> Reply {
    let agent: ureq::Agent = ureq::Agent::config_builder()
        .http_status_as_error(false)
        .max_redirects(0)
        .allow_non_standard_methods(true)
        .timeout_global(Some(Duration::from_secs(60)))
        .proxy(None)
        .build()
        .into();
    let mut request = Request::builder().method(method).uri(format!("http://{address}{path}"));
    for (name, value) in headers {
        request = request.header(*name, *value);
    }
    let reply = if body.is_empty() && matches!(method, "GET" | "HEAD" | "DELETE" | "OPTIONS") {
        agent.run(request.body(()).expect("a request"))
    } else {
        agent.run(request.body(body).expect("a request"))
    };
    let mut reply = reply.unwrap_or_else(|error| panic!("{method} {path}: {error}"));
    Reply {
        status: reply.status().as_u16(),
        headers: reply.headers().clone(),
        body: reply.body_mut().read_to_vec().expect("a body"),
    }
}

/// `GET`.
pub fn get(path: &str) -> Reply {
    send("GET", path, &[], b"")
}

/// `POST` of a JSON body.
pub fn post(path: &str, body: &[u8]) -> Reply {
    send("POST", path, &[("content-type", "application/json")], body)
}

/// An example as a value to change.
pub fn example(text: &str) -> Value {
    serde_json::from_str(text).expect("an example is JSON")
}

/// An example with other values at some pointers; null takes a member away.
pub fn changed(text: &str, edits: &[(&str, Value)]) -> Value {
    let mut job = example(text);
    for (at, value) in edits {
        let (parent, last) = at.rsplit_once('/').expect("a pointer");
        let parent = job.pointer_mut(parent).expect("a member of the example");
        match value {
            Value::Null => drop(parent.as_object_mut().expect("an object").remove(last)),
            value => parent[last] = value.clone(),
        }
    }
    job
}

/// An example with all that is known of it: no opening cuts its rafters, and their span is given.
pub fn all_known(text: &str) -> Value {
    let mut job = example(text);
    job["roof"]["obstacles"] = serde_json::json!([]);
    job["roof"]["rafters"]["span_m"] = serde_json::json!(3.0);
    job
}

/// The answer to a job.
pub fn answer(path: &str, job: &Value) -> Value {
    let reply = post(path, job.to_string().as_bytes());
    assert_eq!(reply.status, 200, "{}", reply.text());
    reply.json()
}

/// A figure or a name of a finding, whatever its type.
#[track_caller]
pub fn param<'a>(finding: &'a Value, name: &str) -> &'a Value {
    let typed = finding["params"][name].as_object().filter(|typed| typed.len() == 1);
    typed.and_then(|typed| typed.values().next()).unwrap_or_else(|| panic!("no {name}: {finding}"))
}

/// A value that has to be a number.
pub fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is not a number"))
}

/// A value that has to be a list.
pub fn list(value: &Value) -> &[Value] {
    value.as_array().map_or_else(|| panic!("{value} is not a list"), Vec::as_slice)
}

/// Warnings of a code.
pub fn warnings<'a>(answer: &'a Value, code: &str) -> Vec<&'a Value> {
    list(&answer["warnings"]).iter().filter(|w| w["code"] == code).collect()
}
