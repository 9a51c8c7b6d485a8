//! `POST /v1/buildings`.

use axum::extract::{RawQuery, State};
use axum::http::HeaderMap;
use axum::response::Response;

use crate::http::App;
use crate::http::body::Body;
use crate::http::job::Kind;
use crate::http::problem::Problem;
use crate::http::query::DrawnParameters;
use crate::http::responses::DrawnProblems;
use crate::http::routes::BuildingReply;
use crate::wire::building::BuildingRequest;

/// Lay out the hooks of several slopes of one building
///
/// Lays out and checks each slope as `POST /v1/layouts` does, with the place, the parts and the wishes said
/// once, and makes one order and one cutting plan for all rails of all slopes. Each slope has the search of
/// a job of its own. The verdict is the worst of the slopes; what is so on every slope is told once, above
/// them.
///
/// With `Accept: image/svg+xml` the answer is a drawing, the slopes one below the other; with
/// `Accept: text/html` a sheet to print, slope by slope with one order; with `Accept: text/csv`
/// the table that `table` names, of all slopes. A hook is asked for with its slope,
/// such as `S1/A1-1`.
#[utoipa::path(
    post, path = "/v1/buildings", tag = "buildings", operation_id = "create_building",
    params(DrawnParameters),
    request_body(
        content = BuildingRequest, content_type = "application/json",
        description = "The job: site, parts and wishes, and of each slope its roof and its array.",
        example = json!(BuildingRequest::example()),
    ),
    responses(
        (status = OK, description = "The layouts with their checks, and one order.", content(
            (BuildingReply = "application/json"), (String = "image/svg+xml"), (String = "text/html"),
            (String = "text/csv"),
        )),
        DrawnProblems,
    ),
)]
pub async fn create_building(
    State(app): State<App>,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
    body: Body,
) -> Result<Response, Problem> {
    app.answer::<BuildingRequest>(&headers, query.as_deref(), body).await
}
