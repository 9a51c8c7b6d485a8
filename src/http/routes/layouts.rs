//! `POST /v1/layouts`.

use axum::extract::{RawQuery, State};
use axum::http::HeaderMap;
use axum::response::Response;

use crate::http::App;
use crate::http::body::Body;
use crate::http::job::Kind;
use crate::http::problem::Problem;
use crate::http::query::DrawnParameters;
use crate::http::responses::DrawnProblems;
use crate::http::routes::LayoutReply;
use crate::wire::layout::LayoutRequest;

/// Lay out the hooks of one slope
///
/// Places rails and hooks for the modules of one roof slope and checks them: hook, screws,
/// clearance above the tile, rail, clamps, modules and rafters. A layout that fails a check is an
/// answer, not a problem: read `verdict` and `warnings`. The same request gives the same bytes.
///
/// Before the tiles are off, `roof.rafters.unmeasured` says that nobody has seen the rafters yet: the
/// answer then has an order that suffices wherever they stand, as far as that was looked at.
///
/// With `Accept: image/svg+xml` the answer is a drawing, with `Accept: text/html` a sheet to print,
/// with `Accept: text/csv` the table that `table` names.
#[utoipa::path(
    post, path = "/v1/layouts", tag = "layouts", operation_id = "create_layout",
    params(DrawnParameters),
    request_body(
        content = LayoutRequest, content_type = "application/json",
        description = "The job: site, roof, array, parts and wishes.",
        example = json!(LayoutRequest::example()),
    ),
    responses(
        (status = OK, description = "The layout with its checks.", content(
            (LayoutReply = "application/json"), (String = "image/svg+xml"), (String = "text/html"),
            (String = "text/csv"),
        )),
        DrawnProblems,
    ),
)]
pub async fn create_layout(
    State(app): State<App>,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
    body: Body,
) -> Result<Response, Problem> {
    app.answer::<LayoutRequest>(&headers, query.as_deref(), body).await
}
