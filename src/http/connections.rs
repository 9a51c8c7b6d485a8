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
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use tokio::net::{TcpListener, TcpSocket, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio_io_timeout::TimeoutStream;
use tower::ServiceExt;

use crate::http::call::Peer;

/// Most bytes a connection keeps of what it reads ahead: of a head, or of a body.
const READ_AHEAD: usize = 64 * 1024;

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
    let graceful = GracefulShutdown::new();
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
                    connect(stream, Peer(peer.ip()), place, &routes, limits, &graceful);
                }
                Err(error) => {
                    tracing::warn!(%error, "a connection could not be taken");
                    tokio::time::sleep(BREATH).await;
                }
            },
        }
    }
    drop(listener);
    let left = graceful.count();
    tokio::time::timeout(grace, graceful.shutdown()).await.map_err(|_| left)
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

/// Serves one connection in a task of its own.
fn connect(
    stream: TcpStream,
    peer: Peer,
    place: Option<OwnedSemaphorePermit>,
    routes: &Router,
    limits: Connections,
    graceful: &GracefulShutdown,
) {
    // Answers are written whole; small ones should not wait for each other.
    let _ = stream.set_nodelay(true);
    let mut stream = TimeoutStream::new(stream);
    stream.set_write_timeout(Some(limits.write));
    let routes = routes.clone();
    let service = service_fn(move |mut request: Request<Incoming>| {
        request.extensions_mut().insert(peer);
        routes.clone().oneshot(request.map(Body::new))
    });
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(limits.head)
        .max_buf_size(READ_AHEAD)
        .serve_connection(TokioIo::new(Box::pin(stream)), service);
    let watched = graceful.watch(connection);
    tokio::spawn(async move {
        let _place = place;
        if let Err(error) = watched.await {
            tracing::debug!(%error, "a connection broke off");
        }
    });
}
