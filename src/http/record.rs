//! One line of the log for each request: who asked for what, what became of it and what it cost. Never
//! the body, the query, a header or a key.
//!
//! What was done with a key is always written (`hookspan::audit`). All other requests share so many
//! lines a second (`hookspan::access`); the next line says how many were left out.

use std::pin::Pin;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::task::{Context, Poll};
use std::time::Instant;

use axum::body::{Body, Bytes, HttpBody};
use axum::extract::{MatchedPath, Request, State};
use axum::http::StatusCode;
use axum::middleware::Next;
use axum::response::Response;
use governor::{DefaultDirectRateLimiter, Quota, RateLimiter};
use hyper::body::{Frame, SizeHint};
use tracing::Instrument;

use crate::http::call::{Call, Peer};
use crate::http::head;
use crate::http::metrics::Metrics;
use crate::http::problem::ProblemCode;
use crate::http::trace_context::TraceContext;

/// Where requests are recorded; clones share it.
#[derive(Debug, Clone)]
pub struct Records {
    metrics: Metrics,
    lines: Option<Arc<Lines>>,
}

/// The lines a second there are for requests without a key.
#[derive(Debug)]
struct Lines {
    limiter: DefaultDirectRateLimiter,
    left_out: AtomicU64,
}

impl Records {
    /// Counts in `metrics`, and writes so many lines a second of requests without a key.
    #[must_use]
    pub fn new(metrics: Metrics, lines_a_second: u32) -> Self {
        let lines = std::num::NonZeroU32::new(lines_a_second).map(|most| {
            let limiter = RateLimiter::direct(Quota::per_second(most));
            Arc::new(Lines { limiter, left_out: AtomicU64::new(0) })
        });
        Self { metrics, lines }
    }

    /// Whether the next line may be written, and how many were left out before it.
    fn line(&self) -> Option<u64> {
        let lines = self.lines.as_ref()?;
        if lines.limiter.check().is_ok() {
            return Some(lines.left_out.swap(0, Ordering::Relaxed));
        }
        lines.left_out.fetch_add(1, Ordering::Relaxed);
        None
    }
}

/// The layer around every request.
pub async fn recorded(
    State(records): State<Records>,
    mut request: Request,
    next: Next,
) -> Response {
    let context = TraceContext::of(request.headers());
    let call = Call::from(request.extensions().get::<Peer>().copied());
    request.extensions_mut().insert(call.clone());
    let route = request.extensions().get::<MatchedPath>().map(|path| path.as_str().to_owned());
    let span = span(&request, &context);
    let mut record = Record {
        records,
        call,
        route: route.unwrap_or_else(|| "none".to_owned()),
        span: span.clone(),
        begin: Instant::now(),
        status: None,
        problem: None,
        sent: 0,
    };
    let mut response = next.run(request).instrument(span).await;
    record.status = Some(response.status());
    record.problem = response.extensions().get::<ProblemCode>().map(|code| code.name());
    context.answer(response.headers_mut());
    response.map(|body| Body::new(Recorded { body, record }))
}

/// What every line of the log about a request says of it.
fn span(request: &Request, context: &TraceContext) -> tracing::Span {
    let id = request.headers().get("x-request-id").and_then(|id| id.to_str().ok()).unwrap_or("");
    let method = head::shortened(request.method().as_str(), 16);
    let path = head::shortened(request.uri().path(), 120);
    let span = tracing::info_span!(
        "request", id, method, path, trace = %context.trace, span = %context.own,
        parent = tracing::field::Empty
    );
    if let Some(parent) = context.parent {
        span.record("parent", tracing::field::display(parent));
    }
    span
}

/// A request under way; written when its answer has been sent, or nobody takes it any more.
struct Record {
    records: Records,
    call: Call,
    route: String,
    span: tracing::Span,
    begin: Instant,
    /// Nothing where the caller left before there was an answer.
    status: Option<StatusCode>,
    problem: Option<&'static str>,
    sent: u64,
}

impl Drop for Record {
    fn drop(&mut self) {
        let status = self.status.map_or(0, |status| status.as_u16());
        let received = self.call.received();
        self.records.metrics.answered(&self.route, status, self.problem);
        self.records.metrics.moved(received, self.sent);
        let digest = self.call.digest();
        let cpu_ms = self.call.spent().as_secs_f64() * 1e3;
        let took_ms = self.begin.elapsed().as_secs_f64() * 1e3;
        let (route, sent, problem) = (self.route.as_str(), self.sent, self.problem);
        let _inside = self.span.enter();
        if let Some(key) = self.call.key() {
            tracing::info!(
                target: "hookspan::audit",
                key = key.name(), route, digest, received, sent, cpu_ms, took_ms, status, problem,
                "answered"
            );
        } else if let Some(left_out) = self.records.line() {
            let peer = self.call.peer().map(tracing::field::display);
            tracing::info!(
                target: "hookspan::access",
                peer, route, digest, received, sent, cpu_ms, took_ms, status, problem, left_out,
                "answered"
            );
        }
    }
}

/// An answer whose bytes are counted.
struct Recorded {
    body: Body,
    record: Record,
}

impl HttpBody for Recorded {
    type Data = Bytes;
    type Error = axum::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, axum::Error>>> {
        let frame = std::task::ready!(Pin::new(&mut self.body).poll_frame(cx));
        if let Some(Ok(frame)) = &frame {
            self.record.sent += frame.data_ref().map_or(0, Bytes::len) as u64;
        }
        Poll::Ready(frame)
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_left_out_and_counted() {
        let records = Records::new(Metrics::default(), 2);
        assert_eq!([records.line(), records.line()], [Some(0), Some(0)]);
        let written = std::iter::repeat_with(|| records.line()).take(1000).flatten().count();
        assert!(written < 100, "{written} lines at once");
        assert_eq!(Records::new(Metrics::default(), 0).line(), None);
    }
}
