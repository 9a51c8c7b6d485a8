//! HTTP/2 without TLS by callers that know of it beforehand (RFC 9113, 3.3): the same answers, and
//! nobody stays who asks for nothing.

use std::future::Future;
use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::time::{Duration, Instant};

use futures_util::stream;
use hookspan::http::connections::Connections;
use hookspan::http::limits::Limits;
use http_body_util::{BodyExt, Full, StreamBody, combinators::BoxBody};
use hyper::body::{Bytes, Frame};
use hyper::client::conn::http2::{Builder, SendRequest};
use hyper::{Request, Version};
use hyper_util::rt::{TokioExecutor, TokioIo};
use serde_json::json;

use crate::server::{ACTIONS, BARN, address, example, post, started};

/// What a client says first, and a frame of settings without any (RFC 9113, 3.4 and 6.5).
const PREFACE: &[u8] = b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n\0\0\0\x04\0\0\0\0\0";

type Sent = BoxBody<Bytes, std::convert::Infallible>;

fn run<T>(what: impl Future<Output = T>) -> T {
    let runtime =
        tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
    let most = Duration::from_secs(60);
    runtime.block_on(async { tokio::time::timeout(most, what).await.expect("it ends") })
}

/// A client, and what ends with its connection.
async fn connected(
    address: SocketAddr,
    window: u32,
) -> (SendRequest<Sent>, tokio::task::JoinHandle<()>) {
    let stream = tokio::net::TcpStream::connect(address).await.expect("a connection");
    let (client, connection) = Builder::new(TokioExecutor::new())
        .initial_stream_window_size(window)
        .handshake(TokioIo::new(stream))
        .await
        .expect("it speaks HTTP/2");
    let ended = tokio::spawn(async move {
        let _ = connection.await;
    });
    (client, ended)
}

fn request(method: &str, path: &str, kind: &str, body: Sent) -> Request<Sent> {
    Request::builder()
        .method(method)
        .uri(format!("http://test{path}"))
        .header("content-type", kind)
        .body(body)
        .expect("a request")
}

fn whole(text: &str) -> Sent {
    Full::new(Bytes::from(text.to_owned())).boxed()
}

#[test]
fn a_job_has_the_same_answer() {
    run(async {
        let (mut client, _ended) = connected(address(), 65_535).await;
        for (path, body) in [("/v1/layouts", BARN), ("/v1/actions", ACTIONS), ("/v1/actions", "{")]
        {
            let plain = post(path, body.as_bytes());
            let job = request("POST", path, "application/json", whole(body));
            let reply = client.send_request(job).await.expect("an answer");
            assert_eq!((reply.version(), reply.status().as_u16()), (Version::HTTP_2, plain.status));
            assert_eq!(reply.headers()["content-type"], plain.header("content-type"));
            let bytes = reply.into_body().collect().await.expect("all of it").to_bytes();
            assert!(bytes == plain.body, "{path}: {} bytes", bytes.len());
        }
    });
}

/// Each line is answered before the next one is sent.
#[test]
fn a_batch_goes_on_in_both_directions() {
    run(async {
        let (mut client, _ended) = connected(address(), 65_535).await;
        let (send, lines) = tokio::sync::mpsc::channel::<String>(1);
        let frames = stream::unfold(lines, |mut lines| async {
            let line = lines.recv().await?;
            Some((Ok(Frame::data(Bytes::from(line))), lines))
        });
        let body = StreamBody::new(frames);
        let batch = request("POST", "/v1/batches", "application/x-ndjson", BodyExt::boxed(body));
        let job = |id: u32| {
            format!(
                "{}\n",
                json!({"id": id.to_string(), "kind": "actions", "job": example(ACTIONS)})
            )
        };
        send.send(job(0)).await.expect("it is open");
        let mut answer = client.send_request(batch).await.expect("an answer").into_body();
        let mut text = String::new();
        for id in 1..4 {
            while text.lines().count() < id || !text.ends_with('\n') {
                let frame = answer.frame().await.expect("more").expect("of it");
                text += std::str::from_utf8(frame.data_ref().expect("data")).expect("UTF-8");
            }
            send.send(job(u32::try_from(id).expect("few"))).await.expect("it is open");
        }
        drop(send);
        let rest = answer.collect().await.expect("all of it").to_bytes();
        text += std::str::from_utf8(&rest).expect("UTF-8");
        assert_eq!(
            text.lines().filter(|line| line.contains("\"status\":200")).count(),
            4,
            "{text}"
        );
        assert!(
            text.lines().last().is_some_and(|line| line.contains("\"complete\":true")),
            "{text}"
        );
    });
}

fn short() -> Connections {
    Connections { head: Duration::from_millis(200), ..Connections::default() }
}

/// Nothing, a part of what either version begins with, or a beginning without a request.
#[test]
fn who_asks_for_nothing_does_not_stay() {
    let (_, address) = started(Limits::default(), short());
    // Headers to be continued, of a request on stream 1 (6.2).
    let half: &[u8] = &[PREFACE, b"\0\0\x01\x01\0\0\0\0\x01\x82"].concat();
    for said in [&b""[..], b"P", b"PRI * HTTP/2.0\r\n", b"GET /livez HTT", PREFACE, half] {
        let begin = Instant::now();
        let mut stream = TcpStream::connect(address).expect("a connection");
        stream.set_read_timeout(Some(Duration::from_secs(20))).expect("a limit");
        stream.write_all(said).expect("it takes it");
        let mut heard = Vec::new();
        if let Err(error) = stream.read_to_end(&mut heard) {
            assert_ne!(error.kind(), std::io::ErrorKind::WouldBlock, "{said:?} stays");
        }
        assert!(begin.elapsed() >= Duration::from_millis(150), "{said:?} has its time");
        assert!(begin.elapsed() < Duration::from_secs(10), "{said:?} stays");
    }
}

/// This client answers every ping.
#[test]
fn a_client_with_nothing_under_way_does_not_stay() {
    let (_, address) = started(Limits::default(), short());
    run(async {
        let (mut client, ended) = connected(address, 65_535).await;
        let asked = client.send_request(request("GET", "/livez", "text/plain", whole("")));
        asked.await.expect("an answer").into_body().collect().await.expect("all of it");
        ended.await.expect("it ends");
    });
}

#[test]
fn an_answer_nobody_opens_a_window_for_is_not_kept() {
    let write = Duration::from_millis(200);
    let connections = Connections { write, ..Connections::default() };
    let (_, address) = started(Limits::default(), connections);
    run(async {
        let (mut client, ended) = connected(address, 1024).await;
        let asked = client.send_request(request("GET", "/openapi.json", "text/plain", whole("")));
        let _unread = asked.await.expect("an answer");
        ended.await.expect("it ends");
    });
}
