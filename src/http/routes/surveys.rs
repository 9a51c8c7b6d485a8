//! `POST /v1/surveys`.

use axum::extract::{RawQuery, State};
use axum::http::HeaderMap;
use axum::response::Response;

use crate::http::App;
use crate::http::body::Body;
use crate::http::job::Kind;
use crate::http::problem::Problem;
use crate::http::query::DrawnParameters;
use crate::http::responses::DrawnProblems;
use crate::http::routes::SurveyReply;
use crate::wire::survey::SurveyRequest;

/// Choose packers and slots for surveyed rails
///
/// Takes a job whose hooks stand or are about to, and what was measured along one of its rails, or at hooks of
/// any: clearance under each arm and how far each bearing face stands out above a taut string. Answers
/// rail by rail which packers go under which foot and where each bolt sits in its slot so that the rail comes
/// out straight, every arm has its clearance, before load and under it, and packing is least; or
/// why that cannot be and what would help. Then rechecks the whole job with what was found and
/// chosen. Missing measurements make the verdict `incomplete`, and `missing` lists them; `to_measure` says what to
/// measure next, along all rails. The same request gives the same bytes.
///
/// With `Accept: image/svg+xml` the answer is a drawing, with `Accept: text/html` a sheet to print:
/// packers and slots hook by hook, then the job as rechecked with them. With `Accept: text/csv` it is the
/// table that `table` names, with the packers that were chosen.
#[utoipa::path(
    post, path = "/v1/surveys", tag = "surveys", operation_id = "create_survey",
    params(DrawnParameters),
    request_body(
        content = SurveyRequest, content_type = "application/json",
        description = "The job as for a recheck, and what was measured along its rails.",
        example = json!(SurveyRequest::example()),
    ),
    responses(
        (status = OK, description = "Packers and slots, and the job with its checks.", content(
            (SurveyReply = "application/json"), (String = "image/svg+xml"), (String = "text/html"),
            (String = "text/csv"),
        )),
        DrawnProblems,
    ),
)]
pub async fn create_survey(
    State(app): State<App>,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
    body: Body,
) -> Result<Response, Problem> {
    app.answer::<SurveyRequest>(&headers, query.as_deref(), body).await
}
