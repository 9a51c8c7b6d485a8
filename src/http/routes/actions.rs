//! `POST /v1/actions`.

use axum::extract::{RawQuery, State};
use axum::response::Response;

use crate::http::App;
use crate::http::body::Body;
use crate::http::check::checkable;
use crate::http::documents::example_actions;
use crate::http::problem::Problem;
use crate::http::query;
use crate::http::responses::JobProblems;
use crate::model::actions::{ActionsAnswer, ActionsRequest};
use crate::service::layout::Options;

checkable!(ActionsRequest);

/// Show what acts on a slope, with every number and clause
///
/// Snow, wind by direction and roof zone, weight, and every combination with its factors, for a
/// slope that needs no rafters, tiles or hooks yet. The same figures are part of every layout; here
/// the trace is always there. The same request gives the same bytes.
#[utoipa::path(
    post, path = "/v1/actions", tag = "actions", operation_id = "show_actions",
    request_body(
        content = ActionsRequest, content_type = "application/json",
        description = "Site, building and module.",
        example = json!(example_actions()),
    ),
    responses((status = OK, description = "What acts.", body = ActionsAnswer), JobProblems),
)]
pub async fn show_actions(
    State(app): State<App>,
    RawQuery(query): RawQuery,
    Body(bytes): Body,
) -> Result<Response, Problem> {
    query::none(query.as_deref())?;
    app.answer::<ActionsRequest>(Options::default(), bytes).await
}
