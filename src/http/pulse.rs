//! Whether a connection still serves anybody. HTTP/1 asks that of itself; with HTTP/2 a caller that
//! answers pings could stay for ever with nothing under way, and could leave an answer lying by never
//! opening its window, which no timeout of the socket sees.

use std::collections::BTreeMap;
use std::pin::Pin;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::task::{Context, Poll, ready};
use std::time::Duration;

use axum::body::{Body, Bytes, HttpBody};
use axum::http::Version;
use hyper::body::{Frame, SizeHint};
use tokio::time::Instant;

/// An answer is handed on in pieces of so many bytes, so that what of it is taken can be seen.
const PIECE: usize = 16 * 1024;

/// Why a connection is to end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Over {
    /// Nothing is under way.
    Idle,
    /// An answer is not taken.
    Stalled,
}

/// The requests of one connection; clones are of the same one.
#[derive(Debug, Clone)]
pub struct Pulse(Arc<Mutex<State>>);

#[derive(Debug)]
struct State {
    /// From its first request on, HTTP/1 has its own limits.
    http1: bool,
    under_way: usize,
    idle_since: Instant,
    /// Answers that wait for their caller, and since when.
    waiting: BTreeMap<u64, Instant>,
    begun: u64,
}

impl Pulse {
    /// That of a connection which was just taken.
    pub fn new() -> Self {
        Self(Arc::new(Mutex::new(State {
            http1: false,
            under_way: 0,
            idle_since: Instant::now(),
            waiting: BTreeMap::new(),
            begun: 0,
        })))
    }

    fn state(&self) -> MutexGuard<'_, State> {
        // Nothing in here panics half-way.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A request has come.
    pub fn begin(&self, version: Version) -> UnderWay {
        let mut state = self.state();
        state.http1 |= version != Version::HTTP_2;
        state.under_way += 1;
        state.begun += 1;
        UnderWay { pulse: self.clone(), number: state.begun }
    }

    /// Nothing is under way from now on only: so long has the caller to hang up.
    pub fn rest(&self) {
        self.state().idle_since = Instant::now();
    }

    /// Returns once nothing has been under way for `head`, or nothing of an answer was taken for `write`.
    pub async fn over(&self, head: Duration, write: Duration) -> Over {
        loop {
            let next = {
                let state = self.state();
                let idle = (state.under_way == 0).then(|| (state.idle_since + head, Over::Idle));
                let oldest = state.waiting.values().min();
                let stalled = oldest.map(|since| (*since + write, Over::Stalled));
                if state.http1 {
                    None
                } else {
                    Some(idle.into_iter().chain(stalled).min_by_key(|(at, _)| *at))
                }
            };
            let Some(next) = next else { return std::future::pending().await };
            match next {
                Some((at, why)) if at <= Instant::now() => return why,
                Some((at, _)) => tokio::time::sleep_until(at).await,
                // Whatever begins now is over no sooner.
                None => tokio::time::sleep(head.min(write)).await,
            }
        }
    }
}

/// A request that is under way until its answer has been handed on.
#[derive(Debug)]
pub struct UnderWay {
    pulse: Pulse,
    number: u64,
}

impl UnderWay {
    fn waits(&self) {
        self.pulse.state().waiting.insert(self.number, Instant::now());
    }

    fn is_taken(&self) {
        self.pulse.state().waiting.remove(&self.number);
    }

    /// The answer to it.
    pub fn until_taken(self, body: Body) -> Body {
        if self.pulse.state().http1 {
            return body;
        }
        self.waits();
        Body::new(Taken { body, rest: Bytes::new(), under_way: self })
    }
}

impl Drop for UnderWay {
    fn drop(&mut self) {
        let mut state = self.pulse.state();
        state.waiting.remove(&self.number);
        state.under_way -= 1;
        state.idle_since = Instant::now();
    }
}

/// An answer that is asked for the next piece only as its caller makes room for it.
struct Taken {
    body: Body,
    rest: Bytes,
    under_way: UnderWay,
}

impl HttpBody for Taken {
    type Data = Bytes;
    type Error = axum::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, axum::Error>>> {
        self.under_way.is_taken();
        if self.rest.is_empty() {
            match ready!(Pin::new(&mut self.body).poll_frame(cx)) {
                Some(Ok(frame)) => match frame.into_data() {
                    Ok(data) => self.rest = data,
                    Err(frame) => return Poll::Ready(Some(Ok(frame))),
                },
                other => return Poll::Ready(other),
            }
        }
        let most = self.rest.len().min(PIECE);
        let piece = self.rest.split_to(most);
        self.under_way.waits();
        Poll::Ready(Some(Ok(Frame::data(piece))))
    }

    fn is_end_stream(&self) -> bool {
        self.rest.is_empty() && self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        let (rest, of_body) = (self.rest.len() as u64, self.body.size_hint());
        let mut hint = SizeHint::new();
        hint.set_lower(of_body.lower() + rest);
        if let Some(upper) = of_body.upper() {
            hint.set_upper(upper + rest);
        }
        hint
    }
}
