//! Single requests: layouts and rechecks, and beside each a route that does nothing.
//!
//! The route that does nothing takes the same bytes, gives the same number of bytes, and stands
//! behind the same layers with the same log, in a process of its own: what it can do is what this
//! machine can do over HTTP. It computes nothing and does not leave the threads of its connections.

use axum::Router;
use axum::body::Bytes;
use axum::extract::DefaultBodyLimit;
use axum::http::header::CONTENT_TYPE;
use axum::routing::post;
use hookspan::http::inside_the_layers;
use hookspan::http::keys::admission::Access;
use hookspan::http::metrics::Metrics;
use hookspan::http::record::Records;

use crate::child::Server;
use crate::figures::{figure, percentile, time, timed};
use crate::load::{Target, closed_loop, open_loop};
use crate::scenes::{KINDS, Kind};
use crate::{Effort, cores};

/// Environment variable that makes this program the server that does nothing.
const ECHO: &str = "HOOKSPAN_BENCH_ECHO";

/// Share of the highest rate at which latencies are taken.
const LOADED: f64 = 0.7;

/// Rates and latencies of every kind of request.
pub async fn measure(effort: &Effort) {
    let (service, echo) = (Server::service(), Server::own(ECHO));
    for Kind { name: kind, path, body, answer, .. } in KINDS {
        let name = |what: &str| format!("{kind}: {what}");
        figure("http", &name("request"), body.len() as f64 / 1e3, "kB");
        figure("http", &name("answer"), answer(body).len() as f64 / 1e3, "kB");
        let (answers, took) = timed(|| one_after_another(body, answer, effort));
        let computed = answers / took.as_secs_f64();
        figure("http", &name("computed here on one core"), computed, "/s");

        let body = Bytes::from_static(body);
        let ours = Target { address: service.address, path, body: body.clone() };
        let nothing = Target { address: echo.address, path, body };
        // Warm up: threads started, pages touched.
        for target in [&ours, &nothing] {
            closed_loop(target, effort.load / 4).await;
        }
        let [rate, most] =
            [closed_loop(&ours, effort.load).await, closed_loop(&nothing, effort.load).await];
        figure("http", &name("highest rate"), rate, "/s");
        figure("http", &name("highest rate of the echo"), most, "/s");
        figure("http", &name("rate over that of the echo"), rate / most, "");
        let ideal = computed * cores() as f64;
        figure("http", &name("rate over computing on all cores"), rate / ideal, "");

        let mut medians = Vec::new();
        for (who, target, rate) in [("", &ours, rate), ("echo, ", &nothing, most)] {
            let mut found = open_loop(target, LOADED * rate, effort.load).await;
            let median = percentile(&mut found.answered, 0.5);
            let late = percentile(&mut found.answered, 0.99);
            time("http", &name(&format!("{who}p50 at 70 %")), median);
            time("http", &name(&format!("{who}p99 at 70 %")), late);
            let apart = late.as_secs_f64() / median.as_secs_f64();
            figure("http", &name(&format!("{who}p99 over p50")), apart, "");
            figure("http", &name(&format!("{who}refused")), found.refused.len() as f64, "");
            medians.push(median.as_secs_f64());
        }
        figure("http", &name("p50 over that of the echo"), medians[0] / medians[1], "");
    }
    figure("http", "memory of the service, most", service.most_memory_mb(), "MB");
}

/// Answers computed one after another in this thread, within half the time of a load.
fn one_after_another(body: &[u8], answer: fn(&[u8]) -> Vec<u8>, effort: &Effort) -> f64 {
    let begin = std::time::Instant::now();
    let mut answers = 0.0;
    while begin.elapsed() < effort.load / 2 {
        std::hint::black_box(answer(body));
        answers += 1.0;
    }
    answers
}

/// Whether this process was started to be the server that does nothing.
pub fn is_the_echo() -> bool {
    std::env::var_os(ECHO).is_some()
}

/// Serves until killed.
pub fn serve_the_echo() {
    let address = std::env::var(ECHO).expect("the address to listen on");
    tracing_subscriber::fmt().with_ansi(false).with_writer(std::io::stderr).init();
    let mut routes = Router::new();
    for Kind { path, body, answer, .. } in KINDS {
        let answer = Bytes::from(answer(body));
        let echo = async move |_body: Bytes| ([(CONTENT_TYPE, "application/json")], answer.clone());
        routes = routes.route(path, post(echo));
    }
    let routes = inside_the_layers(
        routes.layer(DefaultBodyLimit::max(1 << 20)),
        Access::default(),
        None,
        Records::new(Metrics::default(), 100),
    );
    let runtime = tokio::runtime::Runtime::new().expect("a runtime starts");
    runtime.block_on(async move {
        let listener = tokio::net::TcpListener::bind(address).await.expect("the port is free");
        axum::serve(listener, routes).await.expect("it serves");
    });
}
