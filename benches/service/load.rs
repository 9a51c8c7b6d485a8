//! Load on a server: connections that are kept, requests that are all alike.
//!
//! *Closed loop*: each connection sends its next request when it has its answer; what comes out is
//! the rate the server can do. *Open loop*: requests are due at even intervals whatever the server
//! does, and each is timed from when it was due, not from when a connection was free to send it, so
//! a server that stalls is seen to stall.

use std::net::SocketAddr;
use std::sync::Arc;
use std::time::{Duration, Instant};

use http_body_util::{BodyExt, Full};
use hyper::body::{Body, Bytes};
use hyper::client::conn::http1::{SendRequest, handshake};
use hyper::header::{CONTENT_TYPE, HOST};
use hyper::{Request, Response, body::Incoming};
use hyper_util::rt::TokioIo;
use tokio::net::TcpStream;
use tokio::sync::{Mutex, mpsc};
use tokio::task::JoinSet;

/// Connections of the closed loop: enough that the server never waits for the caller.
const CLOSED: usize = 16;
/// Connections of the open loop: as many requests may be under way at once.
const OPEN: usize = 128;

/// How often the open loop looks which requests are due: this much at most is added to a latency.
const TICK: Duration = Duration::from_micros(100);

/// What is asked, and where.
#[derive(Debug, Clone)]
pub struct Target {
    /// Server.
    pub address: SocketAddr,
    /// Path.
    pub path: &'static str,
    /// JSON body.
    pub body: Bytes,
}

/// Latencies of an open loop, each from when a request was due to the last byte of its answer.
#[derive(Default)]
pub struct Answered {
    /// Of requests that were answered with 200.
    pub answered: Vec<Duration>,
    /// Of those that were told to come again later, with 503.
    pub refused: Vec<Duration>,
}

/// Answers per second when every connection always has a request under way.
pub async fn closed_loop(target: &Target, lasts: Duration) -> f64 {
    let begin = Instant::now();
    let mut connections = JoinSet::new();
    for _ in 0..CLOSED {
        let target = target.clone();
        connections.spawn(async move {
            let mut connection = open(target.address).await;
            let mut answers = 0;
            while begin.elapsed() < lasts {
                assert_eq!(ask(&mut connection, &target).await, 200, "{}", target.path);
                answers += 1;
            }
            answers
        });
    }
    let answers: u32 = connections.join_all().await.into_iter().sum();
    f64::from(answers) / begin.elapsed().as_secs_f64()
}

/// Latencies at `rate` requests per second.
pub async fn open_loop(target: &Target, rate: f64, lasts: Duration) -> Answered {
    let (give, due) = mpsc::unbounded_channel();
    let due = Arc::new(Mutex::new(due));
    let mut connections = JoinSet::new();
    for _ in 0..OPEN {
        let (target, due) = (target.clone(), Arc::clone(&due));
        let mut connection = open(target.address).await;
        connections.spawn(async move {
            let mut found = Answered::default();
            while let Some(at) = next(&due).await {
                match ask(&mut connection, &target).await {
                    200 => found.answered.push(at.elapsed()),
                    503 => found.refused.push(at.elapsed()),
                    status => panic!("{} answered with {status}", target.path),
                }
            }
            found
        });
    }
    // A thread of its own keeps time: timers of the runtime count whole milliseconds.
    let clock = std::thread::spawn(move || {
        let begin = Instant::now();
        let mut dues =
            (0_u32..).map(|number| begin + Duration::from_secs_f64(f64::from(number) / rate));
        let mut dues = dues.by_ref().take_while(|at| *at < begin + lasts).peekable();
        while dues.peek().is_some() {
            std::thread::sleep(TICK);
            while let Some(at) = dues.next_if(|at| *at <= Instant::now()) {
                give.send(at).expect("the connections wait");
            }
        }
    });
    let mut all = Answered::default();
    for found in connections.join_all().await {
        all.answered.extend(found.answered);
        all.refused.extend(found.refused);
    }
    clock.join().expect("the clock ran");
    all
}

/// When the next request is due, once that time has come.
async fn next(due: &Mutex<mpsc::UnboundedReceiver<Instant>>) -> Option<Instant> {
    due.lock().await.recv().await
}

/// A connection of its own.
pub async fn open<B>(address: SocketAddr) -> SendRequest<B>
where
    B: Body<Data = Bytes> + Send + 'static,
    B::Error: Into<Box<dyn std::error::Error + Send + Sync>>,
{
    let stream = TcpStream::connect(address).await.expect("the server listens");
    stream.set_nodelay(true).expect("a connection can be set to send at once");
    let (sender, connection) = handshake(TokioIo::new(stream)).await.expect("it speaks HTTP");
    // It ends with its sender.
    tokio::spawn(connection);
    sender
}

/// A request with a body of the given type.
pub fn request<B>(path: &str, media_type: &str, body: B) -> Request<B> {
    Request::post(path)
        .header(HOST, "localhost")
        .header(CONTENT_TYPE, media_type)
        .body(body)
        .expect("a request")
}

/// Sends the request and takes the whole answer; its status.
async fn ask(connection: &mut SendRequest<Full<Bytes>>, target: &Target) -> u16 {
    connection.ready().await.expect("the connection is kept");
    let request = request(target.path, "application/json", Full::new(target.body.clone()));
    let mut response = connection.send_request(request).await.expect("an answer");
    read(&mut response, |_| ()).await;
    response.status().as_u16()
}

/// Hands out an answer as it comes.
pub async fn read(response: &mut Response<Incoming>, mut each: impl FnMut(&[u8])) {
    while let Some(frame) = response.frame().await {
        if let Some(piece) = frame.expect("the answer comes whole").data_ref() {
            each(piece);
        }
    }
}
