//! `POST /v1/rechecks`.

use axum::extract::{RawQuery, State};
use axum::response::Response;

use crate::http::App;
use crate::http::body::Body;
use crate::http::check::{Checkable, Contract};
use crate::http::documents::example_recheck;
use crate::http::problem::Problem;
use crate::http::query::TraceLevel;
use crate::http::responses::JobProblems;
use crate::model::recheck::{RecheckAnswer, RecheckRequest};

impl Checkable for RecheckRequest {
    fn contract() -> &'static Contract {
        static CONTRACT: Contract = Contract::new("RecheckRequest");
        &CONTRACT
    }
}

/// Check the rails and hooks of a built job
///
/// Takes rails and hooks where they are, with what was found on the roof, and checks everything a
/// layout is checked for; compares with an earlier answer when one is given. A job that fails is an
/// answer, not a problem: read `verdict` and `warnings`. What cannot be verified makes the verdict
/// `incomplete` at best, and `missing` says what is to be found out. The same request gives the
/// same bytes.
#[utoipa::path(
    post, path = "/v1/rechecks", tag = "rechecks", operation_id = "create_recheck",
    params(("trace" = Option<TraceLevel>, Query, description = "`full` adds every quantity with symbol, value, unit and clause to the answer.")),
    request_body(
        content = RecheckRequest, content_type = "application/json",
        description = "The job as for a layout, and its rails and hooks as built.",
        example = json!(example_recheck()),
    ),
    responses((status = OK, description = "The job with its checks.", body = RecheckAnswer), JobProblems),
)]
pub async fn create_recheck(
    State(app): State<App>,
    RawQuery(query): RawQuery,
    Body(bytes): Body,
) -> Result<Response, Problem> {
    app.answer::<RecheckRequest>(query.as_deref(), bytes).await
}
