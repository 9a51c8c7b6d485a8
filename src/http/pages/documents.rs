//! The pages the service publishes: the browser of its description, the start page, the page on the roof,
//! one page for each kind of problem and the list of these. Nothing here is fetched from elsewhere.

use axum::Router;
use axum::extract::{Path, State};
use axum::http::header::{CONTENT_TYPE, VARY};
use axum::http::{HeaderMap, HeaderName, HeaderValue};
use axum::response::{Html, IntoResponse, Redirect, Response};
use axum::routing::get;
use utoipa_swagger_ui::{Config, SwaggerUi};

use crate::http::App;
use crate::http::pages::{landing, roof};
use crate::http::problem::{Problem, ProblemCode};
use crate::http::representation;
use crate::language::Language;

/// Every page.
pub fn pages() -> Router<App> {
    Router::new()
        .route("/", get(landing_page))
        .route("/start.js", get(start_script))
        .route(roof::START, get(roof_page))
        .route(
            roof::address(Language::English),
            get(|| async { Html(roof::page(Language::English)) }),
        )
        .route(
            roof::address(Language::German),
            get(|| async { Html(roof::page(Language::German)) }),
        )
        .route(
            "/roof/page.js",
            get(|| async { part("text/javascript; charset=utf-8", roof::SCRIPT) }),
        )
        .route("/roof/worker.js", get(roof_worker))
        .route("/roof/page.css", get(|| async { part("text/css; charset=utf-8", roof::STYLE) }))
        .route("/roof/icon.svg", get(|| async { part("image/svg+xml", roof::ICON) }))
        .route("/roof/example.json", get(|| async { part("application/json", roof::example()) }))
        .route("/problems", get(problems_moved))
        .route(landing::PROBLEMS, get(problems_page))
        .route("/problems/{code}", get(problem_page))
        .merge(docs())
}

/// `GET /docs`: the browser of the description, all of it served from here.
fn docs() -> Router<App> {
    // Without this the page asks a validator on the public network about every description.
    // Without the bar on top, which shows nothing of ours.
    let config = Config::new(["/openapi.json"]).validator_url("none").use_base_layout();
    SwaggerUi::new("/docs").config(config).into()
}

/// `GET /`: what this is, for people.
async fn landing_page(State(app): State<App>) -> Html<String> {
    Html(app.landing_page.as_ref().to_owned())
}

/// `GET /start.js`: the script of the start page.
async fn start_script() -> Response {
    let kind = HeaderValue::from_static("text/javascript; charset=utf-8");
    ([(CONTENT_TYPE, kind)], landing::SCRIPT).into_response()
}

/// `GET /roof`: the page on the roof, in the language asked for.
async fn roof_page(headers: HeaderMap) -> Response {
    let address = roof::address(representation::language(&headers));
    ([(VARY, HeaderValue::from_static("accept-language"))], Redirect::temporary(address))
        .into_response()
}

/// What keeps the page on the roof. It may answer for `/roof`, too, which is above where it lies.
async fn roof_worker() -> impl IntoResponse {
    let scope = (HeaderName::from_static("service-worker-allowed"), roof::START);
    ([scope], part("text/javascript; charset=utf-8", roof::worker()))
}

/// A file of the page on the roof.
fn part(kind: &'static str, text: impl IntoResponse) -> Response {
    let mut answer = text.into_response();
    answer.headers_mut().insert(CONTENT_TYPE, HeaderValue::from_static(kind));
    answer
}

/// `GET /problems`: the list is where its entries are below it.
async fn problems_moved() -> Redirect {
    Redirect::permanent(landing::PROBLEMS)
}

/// `GET /problems/`: every kind of problem.
async fn problems_page() -> Html<String> {
    Html(landing::problems_page())
}

/// `GET /problems/{code}`: where the `type` of a problem leads.
async fn problem_page(Path(code): Path<String>) -> Response {
    let address = format!("/problems/{code}");
    match ProblemCode::ALL.into_iter().find(|code| code.type_uri() == address) {
        Some(code) => Html(landing::problem_page(code)).into_response(),
        None => {
            Problem::new(ProblemCode::NotFound, "There is no such kind of problem.").into_response()
        }
    }
}
