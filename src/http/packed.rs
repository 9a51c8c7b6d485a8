//! Bodies that come packed: gzip (RFC 1952) or zstd (RFC 8878), read to the end of their last member.
//!
//! Both formats may be several packed pieces one after the other, as tools make them that pack in
//! parallel or append to a file: all of them belong to the body. Unpacking goes on as the body is
//! read, so the limits of a body count what is unpacked.

use std::io;
use std::sync::Arc;

use async_compression::tokio::bufread::{GzipDecoder, ZstdDecoder};
use async_compression::zstd::DParameter;
use axum::body::Body;
use axum::extract::Request;
use axum::http::header::{ACCEPT_ENCODING, CONTENT_ENCODING, CONTENT_LENGTH};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use futures_util::{StreamExt, TryStreamExt};
use tokio::io::AsyncBufRead;
use tokio::sync::Semaphore;
use tokio_util::io::{ReaderStream, StreamReader};

use crate::http::problem::Problem;

/// How a body is packed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Packing {
    None,
    Gzip,
    Zstd,
}

/// Largest window of zstd as a power of two, 8 MiB: what RFC 8878 (3.1.1.1.2) asks a decoder to take, and
/// a few bytes of a body make it keep all of that.
const WINDOW_LOG: u32 = 23;

/// Windows of zstd that are kept at one time.
const MOST_WINDOWS: usize = 8;

/// The memory there is to unpack zstd.
#[derive(Debug, Clone)]
pub struct Windows(Arc<Semaphore>);

impl Default for Windows {
    fn default() -> Self {
        Self(Arc::new(Semaphore::new(MOST_WINDOWS)))
    }
}

/// The request with its body unpacked.
///
/// # Errors
/// 415 where the body is packed in another way; the header says in which ways it can be. 503 where too
/// many bodies are being unpacked.
pub fn unpacked(request: Request, windows: Windows) -> Result<Request, Box<Response>> {
    let Some(packing) = packing(request.headers()) else {
        let ways = [(ACCEPT_ENCODING, HeaderValue::from_static("gzip, zstd"))];
        return Err(Box::new((StatusCode::UNSUPPORTED_MEDIA_TYPE, ways).into_response()));
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
            let Ok(window) = windows.0.try_acquire_owned() else {
                let detail = "As many packed bodies are being read as there is memory for.";
                return Err(Box::new(Problem::busy(detail).into_response()));
            };
            let most = [DParameter::window_log_max(WINDOW_LOG)];
            let mut decoder = ZstdDecoder::with_params(bytes_of(body), &most);
            decoder.multiple_members(true);
            let unpacked = ReaderStream::new(decoder);
            Body::from_stream(unpacked.inspect(move |_| {
                // Kept as long as the decoder is.
                let _ = &window;
            }))
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
