//! Callers: of single requests, and of batches whose answers are taken while they are sent.

use std::convert::Infallible;
use std::net::SocketAddr;
use std::time::{Duration, Instant};

use futures_util::{Stream, stream::StreamExt};
use http_body_util::{BodyExt, StreamBody};
use hyper::Request;
use hyper::body::{Bytes, Frame};
use hyper::client::conn::http1::handshake;
use hyper::header::{CONTENT_TYPE, HOST};
use hyper_util::rt::TokioIo;

/// What came back, and after how long.
pub struct Reply {
    pub status: u16,
    pub media_type: String,
    pub body: Vec<u8>,
    pub took: Duration,
}

/// Sends requests over connections it keeps.
pub struct Caller(ureq::Agent);

impl Caller {
    pub fn new() -> Self {
        let config = ureq::Agent::config_builder()
            .http_status_as_error(false)
            .timeout_global(Some(Duration::from_secs(300)))
            .proxy(None);
        Self(config.build().into())
    }

    pub fn post(&self, url: &str, headers: &[(&str, &str)], body: &[u8]) -> Reply {
        let begin = Instant::now();
        let mut request = ureq::http::Request::post(url);
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let request = request.body(body).expect("a request");
        let mut reply = self.0.run(request).unwrap_or_else(|error| panic!("{url}: {error}"));
        let media_type = reply.headers().get("content-type").and_then(|kind| kind.to_str().ok());
        let media_type = media_type.unwrap_or_default().to_owned();
        let limited = reply.body_mut().with_config().limit(1 << 30);
        let body = limited.read_to_vec().unwrap_or_else(|error| panic!("{url}: {error}"));
        Reply { status: reply.status().as_u16(), media_type, body, took: begin.elapsed() }
    }
}

/// Sends pieces of a batch and hands out its answer as it comes, until it ends, breaks off, or `each`
/// has had enough.
pub async fn batch(
    address: SocketAddr,
    pieces: impl Stream<Item = Bytes> + Send + 'static,
    mut each: impl FnMut(&[u8]) -> bool,
) {
    let stream = tokio::net::TcpStream::connect(address).await.expect("the service listens");
    let (mut sender, connection) = handshake(TokioIo::new(stream)).await.expect("it speaks HTTP");
    // It ends with its sender, or with the service.
    tokio::spawn(connection);
    let request = Request::post("/v1/batches")
        .header(HOST, "localhost")
        .header(CONTENT_TYPE, "application/x-ndjson")
        .body(StreamBody::new(pieces.map(|piece| Ok::<_, Infallible>(Frame::data(piece)))))
        .expect("a request");
    let mut response = sender.send_request(request).await.expect("the answer begins");
    assert_eq!(response.status(), 200);
    while let Some(Ok(frame)) = response.frame().await {
        if frame.data_ref().is_some_and(|piece| !each(piece)) {
            return;
        }
    }
}
