//! Answers: JSON in the order of the structs, and the problems each kind of operation documents.

use std::collections::BTreeMap;
use std::convert::Infallible;

use axum::body::{Body, Bytes};
use axum::http::HeaderValue;
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use futures_util::stream;
use serde::Serialize;
use utoipa::openapi::{ContentBuilder, Ref, RefOr, ResponseBuilder, response};
use utoipa::{IntoResponses, ToSchema};

use crate::http::problem::{self, Problem, ProblemCode};

/// An answer as JSON: members in the order of the struct, so equal answers are equal bytes.
pub fn json<T: Serialize>(answer: &T) -> Response {
    match serde_json::to_vec(answer) {
        Ok(bytes) => json_text(bytes),
        Err(error) => {
            tracing::error!(%error, "an answer could not be written as JSON");
            Problem::internal().into_response()
        }
    }
}

/// The same of what is written already.
pub fn json_text(bytes: Vec<u8>) -> Response {
    ([(CONTENT_TYPE, HeaderValue::from_static("application/json"))], bytes).into_response()
}

/// No body, and no `Content-Length` that says so: 204 must not have one, and that of a 304 would have to
/// be that of the content (RFC 9110, 8.6).
pub fn no_body() -> Body {
    Body::from_stream(stream::empty::<Result<Bytes, Infallible>>())
}

/// Problems of an operation that takes a body and computes.
pub struct JobProblems;

impl IntoResponses for JobProblems {
    fn responses() -> BTreeMap<String, RefOr<response::Response>> {
        use ProblemCode as P;
        documented(&[
            P::MalformedJson,
            P::TooLarge,
            P::UnsupportedMediaType,
            P::InvalidRequest,
            P::Unauthorized,
            P::TooManyRequests,
            P::BodyTooSlow,
            P::Busy,
            P::Overdue,
            P::Ending,
            P::Internal,
        ])
    }
}

/// Problems of an operation that answers line by line: everything else is said of a line.
pub struct StreamProblems;

impl IntoResponses for StreamProblems {
    fn responses() -> BTreeMap<String, RefOr<response::Response>> {
        use ProblemCode as P;
        documented(&[
            P::NotAcceptable,
            P::UnsupportedMediaType,
            P::InvalidRequest,
            P::Unauthorized,
            P::Forbidden,
            P::TooManyRequests,
            P::Busy,
            P::Internal,
        ])
    }
}

/// Problems of an operation that also draws.
pub struct DrawnProblems;

impl IntoResponses for DrawnProblems {
    fn responses() -> BTreeMap<String, RefOr<response::Response>> {
        let mut responses = JobProblems::responses();
        responses.extend(documented(&[ProblemCode::NotAcceptable]));
        responses
    }
}

/// Problems of an operation that looks one thing up.
pub struct LookupProblems;

impl IntoResponses for LookupProblems {
    fn responses() -> BTreeMap<String, RefOr<response::Response>> {
        let mut responses = ListProblems::responses();
        responses.extend(documented(&[ProblemCode::NotFound]));
        responses
    }
}

/// Problems of an operation that has an answer for everybody it is open to.
pub struct ListProblems;

impl IntoResponses for ListProblems {
    fn responses() -> BTreeMap<String, RefOr<response::Response>> {
        use ProblemCode as P;
        let mut responses = HealthProblems::responses();
        responses.extend(documented(&[P::Unauthorized, P::TooManyRequests]));
        responses
    }
}

/// Problems of the counters, which not everybody may read.
pub struct MetricsProblems;

impl IntoResponses for MetricsProblems {
    fn responses() -> BTreeMap<String, RefOr<response::Response>> {
        let mut responses = ListProblems::responses();
        responses.extend(documented(&[ProblemCode::Forbidden]));
        responses
    }
}

/// Problems of an operation that always has an answer.
pub struct HealthProblems;

impl IntoResponses for HealthProblems {
    fn responses() -> BTreeMap<String, RefOr<response::Response>> {
        use ProblemCode as P;
        documented(&[P::InvalidRequest, P::NotAcceptable, P::Internal])
    }
}

/// Problems of the question whether the service takes requests.
pub struct ReadyProblems;

impl IntoResponses for ReadyProblems {
    fn responses() -> BTreeMap<String, RefOr<response::Response>> {
        let mut responses = HealthProblems::responses();
        responses.extend(documented(&[ProblemCode::Ending]));
        responses
    }
}

fn documented(codes: &[ProblemCode]) -> BTreeMap<String, RefOr<response::Response>> {
    let statuses = codes.iter().map(|code| code.status());
    let of = |status| codes.iter().copied().filter(move |code| code.status() == status);
    statuses
        .map(|status| {
            (status.as_str().to_owned(), document(&of(status).collect::<Vec<_>>()).into())
        })
        .collect()
}

/// The problems that share a status.
fn document(codes: &[ProblemCode]) -> response::Response {
    let example = codes.first().and_then(|code| serde_json::to_value(Problem::example(*code)).ok());
    let about: Vec<String> =
        codes.iter().map(|code| format!("{}. {}", code.title(), code.advice())).collect();
    let content = ContentBuilder::new()
        .schema(Some(Ref::from_schema_name(Problem::name())))
        .example(example)
        .build();
    ResponseBuilder::new()
        .description(about.join("\n\n"))
        .content(problem::MEDIA_TYPE, content)
        .build()
}
