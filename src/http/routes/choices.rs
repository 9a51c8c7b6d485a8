//! `POST /v1/choices`.

use axum::extract::{RawQuery, State};
use axum::http::HeaderMap;
use axum::response::Response;

use crate::http::App;
use crate::http::body::Body;
use crate::http::job::Kind;
use crate::http::problem::Problem;
use crate::http::query::SpokenParameters;
use crate::http::responses::DrawnProblems;
use crate::http::routes::ChoicesReply;
use crate::wire::choices::ChoicesRequest;

/// Find the best of many layouts of one job
///
/// Takes a job as `POST /v1/layouts` does, with what of it may be chosen: positions of its fields, hooks, screws,
/// rails and clamps. Every combination is laid out and judged as by itself. The answer has the best by what is
/// aimed for (hooks, price, mass, tiles that come off, minutes, or a weighted sum), in full; a table of what
/// the others come to and what governs them; and what fewer hooks cost.
///
/// A layout that fails is never the best, and one of which something could not be verified only where none holds,
/// unless the request says otherwise. A choice that cannot be laid is counted with its reason. Where the steps of
/// the job do not suffice for all choices, `complete` is false and the answer says how many were not come to.
#[utoipa::path(
    post, path = "/v1/choices", tag = "choices", operation_id = "choose_layout",
    params(SpokenParameters),
    request_body(
        content = ChoicesRequest, content_type = "application/json",
        description = "The job, what may be chosen, and what for.",
        example = json!(ChoicesRequest::example()),
    ),
    responses((status = OK, description = "The best layout, and what the choices come to.", body = ChoicesReply), DrawnProblems),
)]
pub async fn choose_layout(
    State(app): State<App>,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
    body: Body,
) -> Result<Response, Problem> {
    app.answer::<ChoicesRequest>(&headers, query.as_deref(), body).await
}
