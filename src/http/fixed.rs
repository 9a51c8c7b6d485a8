//! Answers that stay the same as long as the version does: pages, description, catalogues. Each carries
//! a tag of its bytes (RFC 9110, 8.8.3); who has them already names the tag and is told that they are
//! still the ones, without a body.
//!
//! The tag is strong where the bytes go out as they are. Packed ones carry the same tag, marked weak:
//! their bytes are the packer's, whose next version may make others, and a weak tag promises the same
//! content and no more (8.8.3.3). `If-None-Match` compares weakly (13.1.2), so a tag that came with one
//! coding serves for every other.

use axum::body::Body;
use axum::extract::Request;
use axum::http::header::{
    CACHE_CONTROL, CONTENT_ENCODING, CONTENT_LENGTH, CONTENT_TYPE, ETAG, IF_NONE_MATCH,
};
use axum::http::{HeaderValue, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use http_body_util::BodyExt;
use utoipa::openapi::header::HeaderBuilder;
use utoipa::openapi::{OpenApi, RefOr, ResponseBuilder};

use crate::http::problem::Problem;
use crate::http::responses::no_body;
use crate::service::digest::input_digest;

/// What marks a tag as weak.
const WEAK: &str = "W/";

/// The answer with its tag. It may be kept, and is asked for again each time: only the service knows
/// whether it is still of the same version.
pub async fn tagged(response: Response) -> Response {
    if response.status() != StatusCode::OK {
        return response;
    }
    let (mut parts, body) = response.into_parts();
    let bytes = match body.collect().await {
        Ok(body) => body.to_bytes(),
        Err(error) => {
            tracing::error!(%error, "a fixed answer could not be read");
            return Problem::internal().into_response();
        }
    };
    parts.headers.insert(ETAG, tag(&bytes));
    parts.headers.insert(CACHE_CONTROL, HeaderValue::from_static("no-cache"));
    Response::from_parts(parts, Body::from(bytes))
}

/// The tag of an answer: half a SHA-256 tells any two apart.
fn tag(bytes: &[u8]) -> HeaderValue {
    let half = &input_digest(bytes)[..32];
    HeaderValue::try_from(format!("\"{half}\"")).expect("digits in quotes are a value")
}

/// The layer outside compression: it weakens the tag of what was packed, and answers 304 where the
/// caller has the content already.
pub async fn unchanged(request: Request, next: Next) -> Response {
    let known: Vec<HeaderValue> =
        request.headers().get_all(IF_NONE_MATCH).iter().cloned().collect();
    let response = next.run(request).await;
    let (mut parts, body) = response.into_parts();
    if parts.status != StatusCode::OK {
        return Response::from_parts(parts, body);
    }
    let packed = parts.headers.contains_key(CONTENT_ENCODING);
    let Some(tag) = parts.headers.get(ETAG).and_then(|tag| tag.to_str().ok()) else {
        return Response::from_parts(parts, body);
    };
    let has_it = known.iter().any(|known| names(known, tag));
    if packed && let Ok(weak) = HeaderValue::try_from(format!("{WEAK}{tag}")) {
        parts.headers.insert(ETAG, weak);
    }
    if !has_it {
        return Response::from_parts(parts, body);
    }
    parts.status = StatusCode::NOT_MODIFIED;
    for of_the_body in [CONTENT_TYPE, CONTENT_ENCODING, CONTENT_LENGTH] {
        parts.headers.remove(of_the_body);
    }
    Response::from_parts(parts, no_body())
}

/// Whether `If-None-Match` names a tag. No tag has a quote within, so what stands between commas is
/// ours, quotes included, or is none of ours.
fn names(known: &HeaderValue, tag: &str) -> bool {
    let known = known.to_str().unwrap_or_default();
    let mut tags = known.split(',').map(str::trim);
    known.trim() == "*" || tags.any(|known| known.strip_prefix(WEAK).unwrap_or(known) == tag)
}

/// Says of every operation there is so far that its answer is fixed.
pub fn describe(openapi: &mut OpenApi) {
    let tag = || {
        let about = "Tag of the content, for `If-None-Match`; weak where the answer is compressed.";
        HeaderBuilder::new().description(Some(about)).build()
    };
    let operations = openapi.paths.paths.values_mut().filter_map(|path| path.get.as_mut());
    for responses in operations.map(|operation| &mut operation.responses.responses) {
        if let Some(RefOr::T(answer)) = responses.get_mut("200") {
            answer.headers.insert(ETAG.as_str().to_owned(), tag().into());
        }
        let unchanged = ResponseBuilder::new()
            .description("The content is the one `If-None-Match` names.")
            .header(ETAG.as_str(), tag());
        responses.insert(StatusCode::NOT_MODIFIED.as_str().to_owned(), unchanged.into());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 9110, 8.8.3.2: tags are the same by weak comparison where what is quoted is.
    #[test]
    fn tags_are_compared_weakly_and_as_a_whole() {
        let named = |known: &'static str| names(&HeaderValue::from_static(known), "\"1\"");
        for known in ["\"1\"", "W/\"1\"", "*", " * ", "\"0\", W/\"1\",\"2\"", ",, \"1\""] {
            assert!(named(known), "{known}");
        }
        for other in ["", "1", "\"2\"", "W/\"2\"", "w/\"1\"", "\"1", "\"11\"", "\"a*\"", "*, \"2\""]
        {
            assert!(!named(other), "{other}");
        }
    }
}
