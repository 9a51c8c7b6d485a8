//! The one shape in which this service says no, and the table of all its kinds.
//!
//! Three readers: a program branches on `code`, a caller reads `detail` and the pointers in
//! `errors`, an operator reads the log by request id. Internal detail goes only to the log.

use std::num::NonZeroU32;
use std::sync::atomic::{AtomicU16, Ordering};
use std::time::Duration;

use axum::Json;
use axum::http::header::{
    CACHE_CONTROL, CONTENT_LENGTH, CONTENT_TYPE, ETAG, RETRY_AFTER, WWW_AUTHENTICATE,
};
use axum::http::{HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use utoipa::ToSchema;

use crate::http::gate::fault::{BodyFault, MOST_FAULTS};
use crate::wire::enumeration::enumeration;
use crate::wire::fault::{Fault, FaultCode};

/// Times after which those who were refused are asked to come back are spread over so many seconds.
const SPREAD_SECONDS: u16 = 4;

/// Media type of every problem.
pub const MEDIA_TYPE: &str = "application/problem+json";

/// A problem (RFC 9457).
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Problem {
    /// Relative address of this kind of problem in the documentation.
    #[serde(rename = "type")]
    #[schema(example = "/problems/invalid_request")]
    type_uri: &'static str,
    /// The kind in a few words; the same in every answer of this kind.
    #[schema(example = "The request has faults")]
    title: &'static str,
    /// HTTP status.
    #[schema(minimum = 400, maximum = 599, example = 422)]
    status: u16,
    /// Stable name for programs to branch on.
    code: ProblemCode,
    /// What happened this time, for a person; never internal detail.
    #[schema(example = "1 fault was found.")]
    detail: String,
    /// Line of the body at which it stops being JSON, counted from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1)]
    line: Option<usize>,
    /// Column of that line, in bytes, counted from 1; 0 just before the line's first byte.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    column: Option<usize>,
    /// Every fault found in the request, in the order of the document.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(required = false)]
    errors: Vec<Fault>,
    /// Seconds after which to try again, for the header of that name.
    #[serde(skip)]
    retry_after_seconds: Option<NonZeroU32>,
    /// What a caller has to bring, for the header `WWW-Authenticate`.
    #[serde(skip)]
    challenge: Option<Challenge>,
}

/// What is wrong with the key of a request (RFC 6750, 3.1).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Challenge {
    Missing,
    Unknown,
    WithoutRight,
}

impl Challenge {
    /// The value of `WWW-Authenticate` (RFC 9110, 11.6.1).
    const fn field(self) -> HeaderValue {
        HeaderValue::from_static(match self {
            // Where a request brings no key there is nothing to say of one.
            Self::Missing => "Bearer realm=\"hookspan\"",
            Self::Unknown => "Bearer realm=\"hookspan\", error=\"invalid_token\"",
            Self::WithoutRight => "Bearer realm=\"hookspan\", error=\"insufficient_scope\"",
        })
    }
}

enumeration! {
    /// Kinds of problem. Names are stable: none is ever renamed or reused.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ProblemCode {
        /// The body is not JSON.
        MalformedJson,
        /// The body is JSON and has faults, all listed in `errors`.
        InvalidRequest,
        /// The body is not declared as JSON (or as lines of it), or is packed in an unknown way.
        UnsupportedMediaType,
        /// The body is larger than this service takes.
        TooLarge,
        /// The request needs a key, or brings one that is none.
        Unauthorized,
        /// The key has no right to this.
        Forbidden,
        /// The quota of the key is used up.
        TooManyRequests,
        /// Nothing is at this address.
        NotFound,
        /// The address does not take this method.
        MethodNotAllowed,
        /// No form of the answer is one the caller takes.
        NotAcceptable,
        /// The request is not HTTP as it has to be, or parts of its head are too long.
        MalformedRequest,
        /// The body took too long to arrive.
        BodyTooSlow,
        /// The address is too long.
        AddressTooLong,
        /// The headers are too long.
        HeadersTooLarge,
        /// Too many computations are under way.
        Busy,
        /// The computation took longer than this service lets one take.
        Overdue,
        /// This instance is about to end.
        Ending,
        /// A mistake of this service; the log holds its cause under the request id.
        Internal,
    }
}

impl ProblemCode {
    /// Every kind.
    pub const ALL: [Self; 18] = [
        Self::MalformedJson,
        Self::InvalidRequest,
        Self::UnsupportedMediaType,
        Self::TooLarge,
        Self::Unauthorized,
        Self::Forbidden,
        Self::TooManyRequests,
        Self::NotFound,
        Self::MethodNotAllowed,
        Self::NotAcceptable,
        Self::MalformedRequest,
        Self::BodyTooSlow,
        Self::AddressTooLong,
        Self::HeadersTooLarge,
        Self::Busy,
        Self::Overdue,
        Self::Ending,
        Self::Internal,
    ];

    /// The only place that knows a status, an address, a title or what to do about a kind.
    #[rustfmt::skip]
    const fn row(self) -> (StatusCode, &'static str, &'static str, &'static str) {
        match self {
            Self::MalformedJson        => (StatusCode::BAD_REQUEST,            "/problems/malformed_json",         "The body is not JSON",                   "Correct the text at the line and column given."),
            Self::InvalidRequest       => (StatusCode::UNPROCESSABLE_ENTITY,   "/problems/invalid_request",        "The request has faults",                 "Correct every entry of `errors`: `pointer` says where (RFC 6901), `code` what kind, `detail` why."),
            Self::UnsupportedMediaType => (StatusCode::UNSUPPORTED_MEDIA_TYPE, "/problems/unsupported_media_type", "The body is declared as something else", "Send `Content-Type: application/json`, or `application/x-ndjson` to `/v1/batches`; of content codings, gzip and zstd are taken."),
            Self::TooLarge             => (StatusCode::PAYLOAD_TOO_LARGE,      "/problems/too_large",              "The body is too large",                  "Send a smaller body, or ask the operator to raise the limit."),
            Self::Unauthorized         => (StatusCode::UNAUTHORIZED,           "/problems/unauthorized",           "A key is needed",                        "Send `Authorization: Bearer` and the key the operator gave you."),
            Self::Forbidden            => (StatusCode::FORBIDDEN,              "/problems/forbidden",              "The key has no right to this",           "Ask the operator for a key that has the right `detail` names."),
            Self::TooManyRequests      => (StatusCode::TOO_MANY_REQUESTS,      "/problems/too_many_requests",      "The quota of the key is used up",        "Send the same request again after `Retry-After` seconds; `RateLimit-Policy` says what the key may do, `RateLimit` what is left of it."),
            Self::NotFound             => (StatusCode::NOT_FOUND,              "/problems/not_found",              "Nothing is at this address",             "Compare the address with `/openapi.json`."),
            Self::MethodNotAllowed     => (StatusCode::METHOD_NOT_ALLOWED,     "/problems/method_not_allowed",     "The address does not take this method",  "Use a method of the `Allow` header."),
            Self::NotAcceptable        => (StatusCode::NOT_ACCEPTABLE,         "/problems/not_acceptable",         "No form of the answer is accepted",      "Accept one of the media types that `detail` lists, or `*/*`; of content codings gzip, zstd or identity."),
            Self::MalformedRequest     => (StatusCode::BAD_REQUEST,            "/problems/malformed_request",      "The request is not valid HTTP",          "Send HTTP as RFC 9112 has it, with exactly one `Host`."),
            Self::BodyTooSlow          => (StatusCode::REQUEST_TIMEOUT,        "/problems/body_too_slow",          "The body took too long to arrive",       "Send the body in one go."),
            Self::AddressTooLong       => (StatusCode::URI_TOO_LONG,           "/problems/address_too_long",       "The address is too long",                "Send the job in the body; an address here needs no more than a few hundred bytes."),
            Self::HeadersTooLarge      => (StatusCode::REQUEST_HEADER_FIELDS_TOO_LARGE, "/problems/headers_too_large", "The headers are too large",         "Leave out headers this service has no use for, cookies above all."),
            Self::Busy                 => (StatusCode::SERVICE_UNAVAILABLE,    "/problems/busy",                   "Too many computations are under way",    "Send the same request again after `Retry-After` seconds."),
            Self::Overdue              => (StatusCode::SERVICE_UNAVAILABLE,    "/problems/overdue",                "The computation took too long",          "Ask for less, with fewer rows or a smaller `wishes.search_limit`, or compute the job with `hookspan solve`, which has all the time it needs."),
            Self::Ending               => (StatusCode::SERVICE_UNAVAILABLE,    "/problems/ending",                 "This instance is about to end",          "Send the same request again after `Retry-After` seconds; another instance will take it."),
            Self::Internal             => (StatusCode::INTERNAL_SERVER_ERROR,  "/problems/internal",               "A mistake of this service",              "Tell the operator the `x-request-id` of the answer."),
        }
    }

    /// HTTP status of this kind.
    #[must_use]
    pub const fn status(self) -> StatusCode {
        self.row().0
    }

    /// Relative address of this kind in the documentation.
    #[must_use]
    pub const fn type_uri(self) -> &'static str {
        self.row().1
    }

    /// Its name for programs.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.type_uri().rsplit('/').next().unwrap_or_default()
    }

    /// The kind in a few words.
    #[must_use]
    pub const fn title(self) -> &'static str {
        self.row().2
    }

    /// What the caller can do about it.
    #[must_use]
    pub const fn advice(self) -> &'static str {
        self.row().3
    }
}

impl Problem {
    /// What happened, and what is wrong first, where several things are.
    #[must_use]
    pub fn said(&self) -> String {
        match self.errors.first() {
            Some(fault) => format!("{} {}: {}", self.detail, fault.pointer, fault.detail),
            None => self.detail.clone(),
        }
    }

    /// A problem of a kind, with what happened this time.
    pub fn new(code: ProblemCode, detail: impl Into<String>) -> Self {
        Self {
            type_uri: code.type_uri(),
            title: code.title(),
            status: code.status().as_u16(),
            code,
            detail: detail.into(),
            line: None,
            column: None,
            errors: Vec::new(),
            retry_after_seconds: None,
            challenge: None,
        }
    }

    /// All faults of a request, in one problem.
    #[must_use]
    pub fn faults(errors: Vec<Fault>) -> Self {
        let detail = match errors.len() {
            1 => "1 fault was found.".to_owned(),
            n if n >= MOST_FAULTS => format!("{n} or more faults were found; not all are listed."),
            n => format!("{n} faults were found."),
        };
        Self { errors, ..Self::new(ProblemCode::InvalidRequest, detail) }
    }

    /// Too many computations are under way.
    #[must_use]
    pub fn busy(detail: impl Into<String>) -> Self {
        Self::again(ProblemCode::Busy, detail)
    }

    /// The computation took longer than it may.
    #[must_use]
    pub fn overdue(deadline: Duration) -> Self {
        let detail = format!("The computation was not done after {} s.", deadline.as_secs_f64());
        Self::new(ProblemCode::Overdue, detail)
    }

    /// The request brings no key.
    #[must_use]
    pub fn no_key() -> Self {
        let challenge = Some(Challenge::Missing);
        Self { challenge, ..Self::new(ProblemCode::Unauthorized, "The request has no key.") }
    }

    /// What the request brings is no key, or none any more.
    #[must_use]
    pub fn unknown_key() -> Self {
        let challenge = Some(Challenge::Unknown);
        let detail = "What the request brings is none of the keys in force.";
        Self { challenge, ..Self::new(ProblemCode::Unauthorized, detail) }
    }

    /// The key has no right to this.
    #[must_use]
    pub fn forbidden(detail: impl Into<String>) -> Self {
        let challenge = Some(Challenge::WithoutRight);
        Self { challenge, ..Self::new(ProblemCode::Forbidden, detail) }
    }

    /// A quota is used up for so many seconds.
    #[must_use]
    pub fn too_many(detail: impl Into<String>, after_seconds: u32) -> Self {
        let retry_after_seconds = NonZeroU32::new(after_seconds);
        Self { retry_after_seconds, ..Self::new(ProblemCode::TooManyRequests, detail) }
    }

    /// This instance is about to end.
    #[must_use]
    pub fn ending() -> Self {
        Self::again(ProblemCode::Ending, "The instance ends before this is computed.")
    }

    /// A problem that has passed when the request is sent again. Those refused one after the other
    /// are told different times, so that they do not all come back at once.
    fn again(code: ProblemCode, detail: impl Into<String>) -> Self {
        static REFUSED: AtomicU16 = AtomicU16::new(0);
        let after = 1 + REFUSED.fetch_add(1, Ordering::Relaxed) % SPREAD_SECONDS;
        let retry_after_seconds = NonZeroU32::new(after.into());
        Self { retry_after_seconds, ..Self::new(code, detail) }
    }

    /// A mistake of this service. The cause belongs in the log, never here.
    #[must_use]
    pub fn internal() -> Self {
        Self::new(ProblemCode::Internal, "The request could not be computed.")
    }

    /// What a problem of this kind looks like, for the published description.
    #[must_use]
    pub fn example(code: ProblemCode) -> Self {
        match code {
            ProblemCode::InvalidRequest => Self::faults(vec![Fault::new(
                "/roof/pitch_deg",
                FaultCode::OutOfRange,
                "95 is more than the largest allowed value, 75.",
            )]),
            ProblemCode::MalformedJson => {
                BodyFault::NotJson { line: 3, column: 17, what: "expected `,` or `}`".to_owned() }
                    .into()
            }
            ProblemCode::Busy | ProblemCode::Ending => {
                Self { retry_after_seconds: NonZeroU32::new(2), ..Self::new(code, code.advice()) }
            }
            ProblemCode::Internal => Self::internal(),
            ProblemCode::Unauthorized => Self::no_key(),
            _ => Self::new(code, code.advice()),
        }
    }

    /// The same, where the request is part of a larger document: `at` is the pointer to it.
    #[must_use]
    pub fn inside(mut self, at: &str) -> Self {
        for fault in &mut self.errors {
            fault.pointer.insert_str(0, at);
        }
        self
    }

    /// Kind of the problem.
    #[must_use]
    pub const fn code(&self) -> ProblemCode {
        self.code
    }
}

/// Gives answers that the framework made itself (an unknown address, a wrong method) the shape of
/// a problem; status and headers such as `Allow` stay.
pub async fn speak_in_problems(response: Response) -> Response {
    let (mut parts, body) = response.into_parts();
    // What the framework refuses it has not read as JSON.
    let made =
        |code: &ProblemCode| code.status() == parts.status && *code != ProblemCode::MalformedJson;
    let code = ProblemCode::ALL.into_iter().find(made);
    let ours = parts.headers.get(CONTENT_TYPE).is_some_and(|kind| kind == MEDIA_TYPE);
    let Some(code) = code.filter(|_| !ours) else {
        return Response::from_parts(parts, body);
    };
    let (made, body) = Problem::new(code, code.advice()).into_response().into_parts();
    for of_the_body in [CONTENT_LENGTH, ETAG, CACHE_CONTROL] {
        parts.headers.remove(of_the_body);
    }
    parts.headers.extend(made.headers);
    parts.extensions.extend(made.extensions);
    Response::from_parts(parts, body)
}

impl From<BodyFault> for Problem {
    fn from(fault: BodyFault) -> Self {
        match fault {
            BodyFault::NotJson { line, column, what } => Self {
                line: Some(line),
                column: Some(column),
                ..Self::new(
                    ProblemCode::MalformedJson,
                    format!("Line {line}, column {column}: {what}."),
                )
            },
            BodyFault::Faults(errors) => Self::faults(errors),
        }
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let (retry_after, challenge, code) = (self.retry_after_seconds, self.challenge, self.code);
        let mut response = (self.code.status(), Json(self)).into_response();
        let headers = response.headers_mut();
        headers.insert(CONTENT_TYPE, HeaderValue::from_static(MEDIA_TYPE));
        if let Some(seconds) = retry_after {
            headers.insert(RETRY_AFTER, HeaderValue::from(seconds.get()));
        }
        if let Some(challenge) = challenge {
            headers.insert(WWW_AUTHENTICATE, challenge.field());
        }
        // For the log and the counters.
        response.extensions_mut().insert(code);
        response
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_is_told_to_come_back_is_told_when() {
        let mut times = std::collections::BTreeSet::new();
        for _ in 0..SPREAD_SECONDS {
            let response = Problem::busy("Nothing is free.").into_response();
            assert_eq!(response.status(), StatusCode::SERVICE_UNAVAILABLE);
            assert_eq!(response.headers()[CONTENT_TYPE], MEDIA_TYPE);
            let seconds = response.headers()[RETRY_AFTER].to_str().expect("a number").parse();
            let seconds: u16 = seconds.expect("a number");
            assert!((1..=SPREAD_SECONDS).contains(&seconds));
            times.insert(seconds);
        }
        assert!(times.len() > 1, "not all come back at once");
    }

    #[test]
    fn every_kind_lives_at_the_address_of_its_code() {
        for code in ProblemCode::ALL {
            let name = serde_json::to_value(code).expect("a code is a text");
            let name = name.as_str().expect("a code is a text");
            assert_eq!(code.type_uri(), format!("/problems/{name}"));
            assert!(code.status().is_client_error() || code.status().is_server_error());
        }
    }
}
