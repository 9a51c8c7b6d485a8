//! `POST /v1/statements`, the schema of a statement and the form to fill in.

use axum::extract::{RawQuery, State};
use axum::http::HeaderMap;
use axum::response::Response;
use utoipa::IntoParams;

use crate::http::App;
use crate::http::body::Body;
use crate::http::job::Kind;
use crate::http::pages::statement;
use crate::http::problem::Problem;
use crate::http::query::{self, LanguageTag, SpokenParameters};
use crate::http::representation::{self, Form};
use crate::http::responses::{DrawnProblems, ListProblems};
use crate::http::routes::StatementReply;
use crate::wire::evidence::PartKind;
use crate::wire::statement::StatementRequest;

/// Check a maker's statement of parts
///
/// A statement has parts in the form in which a request takes them, each with the evidence of its
/// figures: declared, an approval, a series of tests, or the arm as a flat bar. Tests are evaluated by
/// EN 1990 Annex D; a figure that its tests or the bar do not reach is a fault. The answer lists what has
/// no evidence, and what is still to be stated before a job with these parts can plainly hold. Every part
/// of a statement can be put into a request as it stands.
///
/// With `Accept: text/html` the answer is the maker's form, filled in.
#[utoipa::path(
    post, path = "/v1/statements", tag = "statements", operation_id = "check_statement",
    params(SpokenParameters),
    request_body(
        content = StatementRequest, content_type = "application/json",
        description = "The parts and what their figures rest on.",
        example = json!(StatementRequest::example()),
    ),
    responses(
        (status = OK, description = "What the figures rest on, and what is left open.", content(
            (StatementReply = "application/json"), (String = "text/html"),
        )),
        DrawnProblems,
    ),
)]
pub async fn check_statement(
    State(app): State<App>,
    headers: HeaderMap,
    RawQuery(query): RawQuery,
    body: Body,
) -> Result<Response, Problem> {
    app.answer::<StatementRequest>(&headers, query.as_deref(), body).await
}

/// Get the schema of a maker's statement
///
/// A JSON Schema (draft 2020-12) that stands by itself, to write and check statements by.
#[utoipa::path(
    get, path = "/v1/statements/schema", tag = "statements", operation_id = "get_statement_schema",
    responses((status = OK, description = "The schema.", content(
            (Object = "application/schema+json"), (Object = "application/json"),
        )), ListProblems),
)]
pub async fn get_statement_schema(headers: HeaderMap) -> Result<Response, Problem> {
    // A schema is JSON, and most callers know it by that name alone.
    let form = representation::chosen(&headers, &[Form::Schema, Form::Json])?;
    Ok(representation::formed(representation::text(form, statement::schema_text())))
}

/// Parameters of the empty form.
#[derive(IntoParams)]
#[into_params(parameter_in = Query)]
#[expect(dead_code, reason = "the description reads it, and nothing else")]
pub struct FormParameters {
    /// Kind of part; all of them when absent.
    #[param(nullable = false)]
    part: Option<PartKind>,
    /// Language of the form, whatever `Accept-Language` says.
    #[param(nullable = false)]
    lang: Option<LanguageTag>,
}

/// Get the maker's form
///
/// A page to print and fill in: every figure of a part with its unit and limits, what it rests on, and
/// what has to be stated before a job can plainly hold.
#[utoipa::path(
    get, path = "/v1/statements/form", tag = "statements", operation_id = "get_statement_form",
    params(FormParameters),
    responses((status = OK, description = "The form.", body = String, content_type = "text/html"), ListProblems),
)]
pub async fn get_statement_form(
    headers: HeaderMap,
    RawQuery(query): RawQuery,
) -> Result<Response, Problem> {
    let (part, language) = query::of_form(query.as_deref())?;
    let language = language.unwrap_or_else(|| representation::language(&headers));
    let form = statement::empty_form(part, language);
    Ok(representation::spoken(representation::text(Form::Sheet, form)))
}
