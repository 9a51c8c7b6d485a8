//! Bodies that come packed: gzip (RFC 1952) or zstd (RFC 8878), read to the end of their last member.
//!
//! Both formats may be several packed pieces one after the other, as tools make them that pack in
//! parallel or append to a file: all of them belong to the body. Unpacking goes on as the body is
//! read, so the limits of a body count what is unpacked.

use std::io;

use async_compression::tokio::bufread::{GzipDecoder, ZstdDecoder};
use axum::body::Body;
use axum::extract::Request;
use axum::http::header::{ACCEPT_ENCODING, CONTENT_ENCODING, CONTENT_LENGTH};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use futures_util::TryStreamExt;
use tokio::io::AsyncBufRead;
use tokio_util::io::{ReaderStream, StreamReader};

/// How a body is packed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Packing {
    None,
    Gzip,
    Zstd,
}

/// The request with its body unpacked.
///
/// # Errors
/// 415 where the body is packed in another way; the header says in which ways it can be.
pub async fn unpacked(request: Request) -> Result<Request, Response> {
    let Some(packing) = packing(request.headers()) else {
        let ways = [(ACCEPT_ENCODING, HeaderValue::from_static("gzip, zstd"))];
        return Err((StatusCode::UNSUPPORTED_MEDIA_TYPE, ways).into_response());
    };
    let (mut parts, body) = request.into_parts();
    let body = match packing {
        Packing::None => body,
        Packing::Gzip => {
            let mut decoder = GzipDecoder::new(bytes_of(body));
            decoder.multiple_members(true);
            Body::from_stream(ReaderStream::new(decoder))
        }
        Packing::Zstd => {
            let mut decoder = ZstdDecoder::new(bytes_of(body));
            decoder.multiple_members(true);
            Body::from_stream(ReaderStream::new(decoder))
        }
    };
    if packing != Packing::None {
        parts.headers.remove(CONTENT_ENCODING);
        parts.headers.remove(CONTENT_LENGTH);
    }
    Ok(Request::from_parts(parts, body))
}

/// How a body is packed by its header; nothing where that is none of the ways known.
fn packing(headers: &HeaderMap) -> Option<Packing> {
    let mut said = headers.get_all(CONTENT_ENCODING).iter();
    let Some(coding) = said.next() else { return Some(Packing::None) };
    // Packed twice over is not a way that is known.
    if said.next().is_some() {
        return None;
    }
    match coding.to_str().ok()?.trim().to_ascii_lowercase().as_str() {
        "gzip" | "x-gzip" => Some(Packing::Gzip),
        "zstd" => Some(Packing::Zstd),
        "identity" | "" => Some(Packing::None),
        _ => None,
    }
}

fn bytes_of(body: Body) -> impl AsyncBufRead + Send + Unpin + 'static {
    StreamReader::new(body.into_data_stream().map_err(io::Error::other))
}
