//! Connections: how many, and how long each may take over a head, over reading an answer, over doing
//! nothing.

use std::io;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::body::Body;
use axum::extract::Request;
use hyper::body::Incoming;
use hyper::service::service_fn;
use hyper_util::rt::{TokioExecutor, TokioIo, TokioTimer};
use hyper_util::server::conn::auto::Builder;
use tokio::net::{TcpListener, TcpSocket, TcpStream};
use tokio::sync::Semaphore;
use tokio_io_timeout::TimeoutStream;
use tokio_util::sync::CancellationToken;
use tokio_util::task::TaskTracker;
use tower::ServiceExt;

use crate::http::call::Peer;
use crate::http::pulse::{Over, Pulse};

/// Most bytes a connection keeps of what it reads ahead: of a head, or of a body.
const READ_AHEAD: usize = 64 * 1024;

/// Requests under way at once on a connection that speaks HTTP/2. Their computations wait in the same
/// queues as all others.
const STREAMS: u32 = 64;

/// Most bytes of the body of one of them that are sent before they are asked for.
const AHEAD_OF_A_STREAM: u32 = 64 * 1024;

/// Most bytes of the headers of one of them, as HTTP/2 counts (RFC 9113, 6.5.2): more than
/// [`head`](super::head) lets pass, so that it is the one to say so.
const HEADERS_OF_A_STREAM: u32 = 64 * 1024;

/// Most bytes of bodies such a connection sends before they are asked for, all requests together.
const AHEAD_OF_STREAMS: u32 = 256 * 1024;

/// Requests that may be taken back, on such a connection, before anybody has looked at them.
const TAKEN_BACK: usize = 20;

/// How long to wait after a connection could not be taken: the machine has run out of something.
const BREATH: Duration = Duration::from_millis(100);

/// Connections that wait in the system until they are taken, as far as it allows: those of a burst are
/// not to be turned away meanwhile.
const BACKLOG: u32 = 4096;

/// What connections may take.
#[derive(Debug, Clone, Copy)]
pub struct Connections {
    /// At once; more wait in the queue of the system.
    pub most: usize,
    /// Longest time for the head of a request, and between two requests.
    pub head: Duration,
    /// Longest time in which nothing of an answer is taken.
    pub write: Duration,
}

impl Default for Connections {
    fn default() -> Self {
        Self { most: 512, head: Duration::from_secs(10), write: Duration::from_secs(30) }
    }
}

/// Listens at an address.
///
/// # Errors
/// The address cannot be listened on.
pub fn listen(address: SocketAddr) -> io::Result<TcpListener> {
    let socket = if address.is_ipv4() { TcpSocket::new_v4() } else { TcpSocket::new_v6() }?;
    // An instance that follows another does not wait for the last connections of that one. Elsewhere
    // the same word would let two listen at once.
    #[cfg(unix)]
    socket.set_reuseaddr(true)?;
    socket.bind(address)?;
    socket.listen(BACKLOG)
}

/// Serves connections until `drained`, then finishes the requests under way; `Ok` once all are done,
/// `Err` with how many are left when `grace` is over after that.
///
/// # Errors
/// The number of connections that are cut off.
pub async fn serve(
    listener: TcpListener,
    routes: Router,
    limits: Connections,
    drained: impl Future<Output = ()>,
    grace: Duration,
) -> Result<(), usize> {
    let places = Arc::new(Semaphore::new(limits.most));
    let (connected, ending) = (TaskTracker::new(), CancellationToken::new());
    let mut drained = std::pin::pin!(drained);
    loop {
        let accepted = async {
            // Never closed.
            let place = Arc::clone(&places).acquire_owned().await.ok();
            (place, listener.accept().await)
        };
        tokio::select! {
            biased;
            () = &mut drained => break,
            (place, accepted) = accepted => match accepted {
                Ok((stream, peer)) => {
                    let serving =
                        connection(stream, Peer(peer.ip()), routes.clone(), limits, ending.clone());
                    connected.spawn(async move {
                        serving.await;
                        drop(place);
                    });
                }
                Err(error) => {
                    tracing::warn!(%error, "a connection could not be taken");
                    tokio::time::sleep(BREATH).await;
                }
            },
        }
    }
    drop(listener);
    let left = connected.len();
    ending.cancel();
    connected.close();
    tokio::time::timeout(grace, connected.wait()).await.map_err(|_| left)
}

/// Returns when the process is asked to end.
pub async fn asked_to_end() {
    #[cfg(unix)]
    if let Ok(mut end) = tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate()) {
        tokio::select! {
            _ = end.recv() => return,
            _ = tokio::signal::ctrl_c() => return,
        }
    }
    if let Err(error) = tokio::signal::ctrl_c().await {
        tracing::warn!(%error, "no signal can stop this instance in order");
        std::future::pending::<()>().await;
    }
}

/// Serves one connection until it is over, or `ending` says to finish what is under way.
async fn connection(
    stream: TcpStream,
    peer: Peer,
    routes: Router,
    limits: Connections,
    ending: CancellationToken,
) {
    // Answers are written whole; small ones should not wait for each other.
    let _ = stream.set_nodelay(true);
    let mut stream = TimeoutStream::new(stream);
    stream.set_write_timeout(Some(limits.write));
    let pulse = Pulse::new();
    let begin = pulse.clone();
    let service = service_fn(move |mut request: Request<Incoming>| {
        request.extensions_mut().insert(peer);
        let under_way = begin.begin(request.version());
        let answer = routes.clone().oneshot(request.map(Body::new));
        async move { answer.await.map(|answer| answer.map(|body| under_way.until_taken(body))) }
    });
    let mut builder = Builder::new(TokioExecutor::new());
    builder
        .http1()
        .timer(TokioTimer::new())
        .header_read_timeout(limits.head)
        .max_buf_size(READ_AHEAD)
        .http2()
        .timer(TokioTimer::new())
        .max_concurrent_streams(STREAMS)
        .max_pending_accept_reset_streams(TAKEN_BACK)
        .max_header_list_size(HEADERS_OF_A_STREAM)
        .initial_stream_window_size(AHEAD_OF_A_STREAM)
        .initial_connection_window_size(AHEAD_OF_STREAMS)
        .max_send_buf_size(READ_AHEAD)
        // Finds out whether the other end is still there while something is under way.
        .keep_alive_interval(limits.write)
        .keep_alive_timeout(limits.write);
    let serving = builder.serve_connection(TokioIo::new(Box::pin(stream)), service);
    let mut serving = std::pin::pin!(serving);
    let mut told = false;
    loop {
        tokio::select! {
            served = serving.as_mut() => {
                if let Err(error) = served {
                    tracing::debug!(%error, "a connection broke off");
                }
                return;
            }
            () = ending.cancelled(), if !told => {}
            over = pulse.over(limits.head, limits.write) => {
                if told || over == Over::Stalled {
                    tracing::debug!(?over, "a connection is cut off");
                    return;
                }
            }
        }
        // What is under way is finished. Who does not hang up then is cut off after as long again.
        told = true;
        pulse.rest();
        serving.as_mut().graceful_shutdown();
    }
}
