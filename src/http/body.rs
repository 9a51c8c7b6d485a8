//! A body as handlers ask for it: its media type and its size are right, nobody has looked at it yet.

use axum::body::{Bytes, HttpBody};
use axum::extract::{FromRequest, Request};
use axum::http::HeaderMap;
use axum::http::header::CONTENT_TYPE;
use bytes::BytesMut;
use http_body_util::BodyExt;

use crate::http::App;
use crate::http::call::Call;
use crate::http::limits::Held;
use crate::http::problem::{Problem, ProblemCode};

/// A body that is declared as JSON and within the size limit. Its bytes keep their room in memory.
#[derive(Debug)]
pub struct Body {
    /// The bytes.
    pub bytes: Bytes,
    /// Their share of the memory for bodies.
    pub room: Held,
    /// The request they are of.
    pub call: Call,
}

impl FromRequest<App> for Body {
    type Rejection = Problem;

    async fn from_request(request: Request, app: &App) -> Result<Self, Problem> {
        declared_as_json(request.headers())?;
        // Who cannot be served is told before anything is read.
        let call = request.extensions().get::<Call>().cloned().unwrap_or_default();
        app.places.admit(&call)?;
        let longest = app.limits.body;
        let read = tokio::time::timeout(longest, read(request, app, call));
        read.await.unwrap_or_else(|_| {
            let detail = format!("The body was not complete after {} s.", longest.as_secs_f64());
            Err(Problem::new(ProblemCode::BodyTooSlow, detail))
        })
    }
}

/// Reads a body piece by piece, each within the limit and the memory there is.
async fn read(request: Request, app: &App, call: Call) -> Result<Body, Problem> {
    let limit = app.limits.max_body_bytes;
    let too_large =
        || Problem::new(ProblemCode::TooLarge, format!("The body is larger than {limit} bytes."));
    let mut body = request.into_body();
    if body.size_hint().lower() > limit as u64 {
        return Err(too_large());
    }
    let (mut bytes, mut room) = (BytesMut::new(), Held::default());
    while let Some(frame) = body.frame().await {
        // The connection broke, or the coding was wrong; there may be nobody to read this.
        let frame = frame.map_err(|error| {
            tracing::debug!(%error, "a body broke off");
            Problem::new(ProblemCode::MalformedJson, "The body could not be read to its end.")
        })?;
        let Ok(piece) = frame.into_data() else { continue };
        let all = bytes.len() + piece.len();
        if all > limit {
            return Err(too_large());
        }
        app.room.hold(&mut room, all)?;
        call.receive(piece.len());
        bytes.extend_from_slice(&piece);
    }
    Ok(Body { bytes: bytes.freeze(), room, call })
}

/// `application/json` and every `…+json`; parameters such as a charset are read over, since JSON
/// is UTF-8 and the gate insists on it.
fn declared_as_json(headers: &HeaderMap) -> Result<(), Problem> {
    declared(headers, "application/json", |subtype| {
        subtype == "json" || (subtype.ends_with("+json") && subtype.len() > "+json".len())
    })
}

/// JSON documents one a line, by any of the names that are in use for it.
///
/// # Errors
/// `unsupported_media_type` for everything else.
pub fn declared_as_lines(headers: &HeaderMap) -> Result<(), Problem> {
    declared(headers, "application/x-ndjson", |subtype| {
        matches!(subtype, "x-ndjson" | "ndjson" | "jsonl" | "x-jsonlines" | "octet-stream")
    })
}

fn declared(
    headers: &HeaderMap,
    wanted: &str,
    accepts: impl FnOnce(&str) -> bool,
) -> Result<(), Problem> {
    let refuse = |detail: String| Err(Problem::new(ProblemCode::UnsupportedMediaType, detail));
    let Some(declared) = headers.get(CONTENT_TYPE) else {
        return refuse(format!("The request has no Content-Type; {wanted} is needed."));
    };
    let declared = declared.to_str().unwrap_or_default();
    let essence = declared.split(';').next().unwrap_or_default().trim().to_ascii_lowercase();
    if essence.strip_prefix("application/").is_some_and(accepts) {
        Ok(())
    } else {
        refuse(format!("The Content-Type of the request is not {wanted}."))
    }
}
