//! `POST /v1/actions`.

use axum::extract::{RawQuery, State};
use axum::http::HeaderMap;
use axum::response::Response;

use crate::http::App;
use crate::http::body::Body;
use crate::http::job::Kind;
use crate::http::problem::Problem;
use crate::http::query::SpokenParameters;
use crate::http::responses::DrawnProblems;
use crate::http::routes::ActionsReply;
use crate::wire::actions::ActionsRequest;

/// Show what acts on a slope, with every number and clause
///
/// Snow, wind by direction and roof zone, weight, and every combination with its factors, for a
/// slope that needs no rafters, tiles or hooks yet. The same figures are part of every layout; here
/// the trace is always there. The same request gives the same bytes.
#[utoipa::path(
    post, path = "/v1/actions", tag = "actions", operation_id = "show_actions",
    params(SpokenParameters),
    request_body(
        content = ActionsRequest, content_type = "application/json",
        description = "Site, building and module.",
        example = json!(ActionsRequest::example()),
    ),
    responses((status = OK, description = "What acts.", body = ActionsReply), DrawnProblems),
)]
pub async fn show_actions(
    State(app): State<App>,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
    body: Body,
) -> Result<Response, Problem> {
    app.answer::<ActionsRequest>(&headers, query.as_deref(), body).await
}
