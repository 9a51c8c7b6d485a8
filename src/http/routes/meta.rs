//! The service itself: its description and its health.

use std::sync::atomic::Ordering;

use axum::extract::State;
use axum::http::HeaderValue;
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use utoipa::ToSchema;

use crate::http::App;
use crate::http::description;
use crate::http::metrics;
use crate::http::problem::{Problem, ProblemCode};
use crate::http::responses::{
    HealthProblems, ListProblems, LookupProblems, MetricsProblems, ReadyProblems, json,
};
use crate::wire::signature::SigningKey;

/// Health of this instance.
#[derive(Debug, Serialize, ToSchema)]
pub struct Health {
    /// `ok` whenever there is an answer at all.
    #[schema(example = "ok")]
    status: &'static str,
    /// Version of the service.
    #[schema(example = "0.1.0")]
    version: &'static str,
}

const OK: Health = Health { status: "ok", version: env!("CARGO_PKG_VERSION") };

/// Get this description
///
/// The OpenAPI description of exactly the version that answers.
#[utoipa::path(
    get, path = "/openapi.json", tag = "service", operation_id = "get_openapi",
    responses((status = OK, description = "The OpenAPI 3.1 description.", body = Object, content_type = "application/json"), ListProblems),
)]
pub async fn get_openapi() -> Response {
    let kind = (CONTENT_TYPE, HeaderValue::from_static("application/json"));
    ([kind], description::openapi_text()).into_response()
}

/// Get this description in the words of OpenAPI 3.0
///
/// For tools that know no later version: the same service, described as far as 3.0.3 can.
#[utoipa::path(
    get, path = "/openapi-3.0.json", tag = "service", operation_id = "get_openapi_30",
    responses((status = OK, description = "The OpenAPI 3.0.3 description.", body = Object, content_type = "application/json"), ListProblems),
)]
pub async fn get_openapi_30() -> Response {
    let kind = (CONTENT_TYPE, HeaderValue::from_static("application/json"));
    ([kind], description::openapi_30_text()).into_response()
}

/// Ask whether the process lives
///
/// For the supervisor that restarts it.
#[utoipa::path(
    get, path = "/livez", tag = "service", operation_id = "get_livez",
    responses((status = OK, description = "It lives.", body = Health), HealthProblems),
)]
pub async fn get_livez() -> Response {
    json(&OK)
}

/// Ask whether the service takes requests
///
/// It does as soon as it listens: everything it needs is prepared before. It does not once it was
/// asked to stop: then whoever sends requests should send them elsewhere.
#[utoipa::path(
    get, path = "/readyz", tag = "service", operation_id = "get_readyz",
    responses((status = OK, description = "It takes requests.", body = Health), ReadyProblems),
)]
pub async fn get_readyz(State(app): State<App>) -> Response {
    if app.ready.load(Ordering::Relaxed) { json(&OK) } else { Problem::ending().into_response() }
}

/// Get the key that answers are signed with
///
/// The public key, as a JSON Web Key (RFC 8037) that is named by its thumbprint (RFC 7638). Not found where this
/// instance signs nothing.
#[utoipa::path(
    get, path = "/v1/signing-key", tag = "service", operation_id = "get_signing_key",
    responses((status = OK, description = "The public key.", body = SigningKey), LookupProblems),
)]
pub async fn get_signing_key(State(app): State<App>) -> Response {
    let Some(signer) = &app.signer else {
        let detail = "This instance has no key to sign answers with.";
        return Problem::new(ProblemCode::NotFound, detail).into_response();
    };
    json(&signer.public().published())
}

/// Read the counters of this instance
///
/// Requests, refusals, bytes, waits, computations by kind, processor time, places, lines of batches:
/// in the text format of `OpenMetrics` 1.0, which Prometheus reads. Answered to callers on the same
/// machine, to keys with the right to it, and on an address of its own where the operator set one.
#[utoipa::path(
    get, path = "/metrics", tag = "service", operation_id = "get_metrics",
    responses((status = OK, description = "The counters.", body = String, content_type = "application/openmetrics-text"), MetricsProblems),
)]
pub async fn get_metrics(State(app): State<App>) -> Response {
    let kind = (CONTENT_TYPE, HeaderValue::from_static(metrics::MEDIA_TYPE));
    ([kind], app.metrics_text()).into_response()
}
