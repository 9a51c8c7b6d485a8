//! `POST /v1/rechecks`.

use axum::extract::{RawQuery, State};
use axum::http::HeaderMap;
use axum::response::Response;

use crate::http::App;
use crate::http::body::Body;
use crate::http::job::Kind;
use crate::http::problem::Problem;
use crate::http::query::DrawnParameters;
use crate::http::responses::DrawnProblems;
use crate::http::routes::RecheckReply;
use crate::wire::recheck::RecheckRequest;

/// Check the rails and hooks of a built job
///
/// Takes rails and hooks where they are, with what was found on the roof, and checks everything a
/// layout is checked for; compares with an earlier answer when one is given. A job that fails is an
/// answer, not a problem: read `verdict` and `warnings`. What cannot be verified makes the verdict
/// `incomplete` at best, and `missing` says what is to be found out. The same request gives the
/// same bytes.
///
/// With `Accept: image/svg+xml` the answer is a drawing, with `Accept: text/html` a sheet to print,
/// with `Accept: text/csv` the table that `table` names.
#[utoipa::path(
    post, path = "/v1/rechecks", tag = "rechecks", operation_id = "create_recheck",
    params(DrawnParameters),
    request_body(
        content = RecheckRequest, content_type = "application/json",
        description = "The job as for a layout, and its rails and hooks as built.",
        example = json!(RecheckRequest::example()),
    ),
    responses(
        (status = OK, description = "The job with its checks.", content(
            (RecheckReply = "application/json"), (String = "image/svg+xml"), (String = "text/html"),
            (String = "text/csv"),
        )),
        DrawnProblems,
    ),
)]
pub async fn create_recheck(
    State(app): State<App>,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
    body: Body,
) -> Result<Response, Problem> {
    app.answer::<RecheckRequest>(&headers, query.as_deref(), body).await
}
