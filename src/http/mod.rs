//! HTTP: the only place, beside `main` and `config`, that names the web framework and status codes,
//! and beside `verify` that names raw JSON values.
//!
//! A request passes the layers of [`router`], then one handler of [`routes`]. What a handler
//! answers is documented beside it, so the router below is also the published description.
//!
//! **Layer.** Top: calls `service`, `components` and, for the catalogues, `codes`.

mod answers;
pub mod batch;
pub mod body;
pub mod call;
pub mod gate;
pub mod description;
pub mod connections;
pub mod cors;
mod fixed;
pub mod forms;
mod head;
pub mod job;
pub mod keys;
pub mod limits;
pub mod lines;
mod methods;
pub mod metrics;
mod packed;
mod pages;
pub mod problem;
mod pulse;
mod query;
pub mod record;
mod representation;
mod responses;
mod routes;
pub mod signature;
mod trace_context;

use std::any::Any;
use std::future::ready;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use axum::Router;
use axum::body::Body;
use axum::http::header::{
    CONTENT_SECURITY_POLICY, HeaderName, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS, X_FRAME_OPTIONS,
};
use axum::http::{HeaderMap, HeaderValue, Response};
use axum::middleware::{from_fn, from_fn_with_state, map_request, map_response};
use axum::response::IntoResponse;
use tokio::sync::watch;
use tower::util::option_layer;
use tower_http::CompressionLevel;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::compression::CompressionLayer;
use tower_http::request_id::{MakeRequestUuid, PropagateRequestIdLayer, SetRequestIdLayer};
use tower_http::set_header::SetResponseHeaderLayer;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::effort::Stop;
use crate::http::answers::{answered, for_caller, shown, until};
use crate::http::call::Call;
use crate::http::cors::Origins;
use crate::http::job::Kind;
use crate::http::keys::admission::{self, Access};
use crate::http::limits::{Limits, Places, Room};
use crate::http::metrics::{Fullness, Lane, Metrics};
use crate::http::pages::{documents, landing};
use crate::http::problem::Problem;
use crate::http::query::Asked;
use crate::http::record::Records;
use crate::http::routes::{JobKind, batches, catalogue, meta, statements};
use crate::service::request::Options;
use crate::service::signing::Signer;

/// What every handler can reach.
#[derive(Debug, Clone)]
pub struct App {
    places: Places,
    room: Room,
    limits: Limits,
    access: Access,
    origins: Option<Origins>,
    signer: Option<Arc<Signer>>,
    records: Records,
    landing_page: Arc<str>,
    /// True once this instance is about to end.
    ending: watch::Receiver<bool>,
    end: Arc<watch::Sender<bool>>,
    ready: Arc<AtomicBool>,
}

impl App {
    /// Prepares the service: published description, compiled checks, start page.
    #[must_use]
    pub fn new(limits: &Limits) -> Self {
        for kind in JobKind::ALL {
            kind.contract().prepare();
        }
        batch::prepare();
        let (end, ending) = watch::channel(false);
        let metrics = Metrics::default();
        Self {
            ending,
            end: Arc::new(end),
            ready: Arc::new(AtomicBool::new(true)),
            places: Places::new(limits, metrics.clone()),
            access: Access::default(),
            origins: None,
            signer: None,
            records: Records::new(metrics, USUAL_LINES),
            room: Room::new(limits.bodies_bytes),
            limits: *limits,
            landing_page: landing::page().into(),
        }
    }

    /// The same, where it is decided who may call.
    #[must_use]
    pub fn guarded_by(self, access: Access) -> Self {
        Self { access, ..self }
    }

    /// The same, where programs of these origins may read answers in a browser.
    #[must_use]
    pub fn shared_with(self, origins: Option<Origins>) -> Self {
        Self { origins, ..self }
    }

    /// The same, where answers are signed.
    #[must_use]
    pub fn signing_with(self, signer: Option<Arc<Signer>>) -> Self {
        Self { signer, ..self }
    }

    /// The same, with so many lines of the log a second for requests without a key.
    #[must_use]
    pub fn with_lines(self, a_second: u32) -> Self {
        let records = Records::new(self.places.metrics().clone(), a_second);
        Self { records, ..self }
    }

    /// What this instance counts.
    #[must_use]
    pub fn metrics(&self) -> &Metrics {
        self.places.metrics()
    }

    /// Everything that is counted, as Prometheus reads it.
    fn metrics_text(&self) -> String {
        let bodies = self.room.taken();
        self.metrics().text(&Fullness { bodies, ..self.places.fullness() })
    }

    /// From now on `/readyz` says no; requests are still answered.
    pub fn no_longer_ready(&self) {
        self.ready.store(false, Ordering::Relaxed);
    }

    /// Ends batches: they begin no further line and say in their summary where to go on.
    pub fn end_batches(&self) {
        self.end.send_replace(true);
    }

    /// Ends every computation that is still under way; its caller is told to send it again.
    pub fn end_computations(&self) {
        self.places.end();
    }

    /// What a handler of a job does: all of it, from the bytes of the request to those of the
    /// answer, off the threads that serve connections. Which of the forms of its kind the answer gets,
    /// and in which language, is for the caller to say.
    async fn answer<R: Kind>(
        &self,
        headers: &HeaderMap,
        query: Option<&str>,
        body: body::Body,
    ) -> Result<Response<Body>, Problem> {
        let offer = R::FORMS.offer();
        let form = representation::chosen(headers, &offer.forms())?;
        let asked = Asked::from_query(form, query, offer)?;
        let (call, metrics) = (body.call.clone(), self.metrics().clone());
        let options = for_caller(asked.options(representation::language(headers)), &call);
        let options = Options { signer: self.signer.clone(), ..options };
        let job = move |stop: &Stop| {
            let options = until(options, stop);
            match &asked {
                Asked::Answer(_) => answered::<R>(&body, &options, &metrics),
                Asked::Look(look, _) => shown::<R>(&body, look, &options, &metrics)
                    .map(|shown| representation::shown(form, shown)),
            }
        };
        self.computed(&call, job).await.map(representation::varying)
    }

    /// What a computation answers, which counts until its caller has taken it.
    async fn computed(
        &self,
        call: &Call,
        job: impl FnOnce(&Stop) -> Result<Response<Body>, Problem> + Send + 'static,
    ) -> Result<Response<Body>, Problem> {
        let answer = self.places.compute(call, job).await??;
        Ok(answer.map(|body| self.places.unread(Lane::single).counted(body)))
    }
}

/// Lines of the log a second for requests without a key, unless somebody says otherwise.
const USUAL_LINES: u32 = 100;

/// Every documented route.
fn api() -> OpenApiRouter<App> {
    OpenApiRouter::with_openapi(description::heading(JobKind::TAGS))
        .merge(JobKind::routes().route_layer(map_response(methods::taking("application/json"))))
        .merge(
            OpenApiRouter::new()
                .routes(routes!(batches::run_batch))
                .route_layer(map_response(methods::taking("application/x-ndjson"))),
        )
        .merge(fixed_api())
        .merge(watching_api())
        .merge(signing_api())
}

/// The key that answers are signed with, which is the operator's and changes when that is wanted.
fn signing_api() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(meta::get_signing_key))
        .route_layer(from_fn(representation::acceptable))
        .route_layer(map_request(query::none_taken))
}

/// Digest of a request of a kind, as its answer names it.
///
/// # Errors
/// Why it has none: there is no such kind, or the request has faults.
pub fn digest_of(kind: &str, request: &[u8]) -> Result<String, String> {
    let kind = JobKind::ALL.iter().find(|known| known.name() == kind);
    let kind = kind.ok_or("it does not say which kind of job it answers")?;
    kind.digest(request).map_err(|problem| format!("the request is refused: {}", problem.said()))
}

/// Those by which an instance is watched.
fn watching_api() -> OpenApiRouter<App> {
    OpenApiRouter::new()
        .routes(routes!(meta::get_livez))
        .routes(routes!(meta::get_readyz))
        .route_layer(from_fn(representation::acceptable))
        // Behind that layer: what reads counters names formats of its own.
        .routes(routes!(meta::get_metrics))
        .route_layer(map_request(query::none_taken))
}

/// Those whose answer stays the same as long as the version does.
fn fixed_api() -> OpenApiRouter<App> {
    let mut routes = OpenApiRouter::new()
        .routes(routes!(catalogue::list_components))
        .routes(routes!(catalogue::get_component))
        .routes(routes!(catalogue::list_usual))
        .routes(routes!(catalogue::list_warnings))
        .routes(routes!(catalogue::list_rules))
        .routes(routes!(statements::get_statement_schema))
        .routes(routes!(meta::get_openapi))
        .routes(routes!(meta::get_openapi_30))
        .route_layer(map_request(query::none_taken))
        // Behind that layer: it takes parameters.
        .routes(routes!(statements::get_statement_form));
    fixed::describe(routes.get_openapi_mut());
    routes.route_layer(from_fn(representation::acceptable)).route_layer(map_response(fixed::tagged))
}

/// All routes, and what is around them.
pub fn router(app: App) -> Router {
    let (access, records) = (app.access.clone(), app.records.clone());
    let origins = app.origins.clone();
    let pages = documents::pages()
        .route_layer(map_request(query::none_taken))
        .route_layer(from_fn(representation::acceptable))
        .route_layer(map_response(fixed::tagged));
    let routes = Router::from(api()).merge(pages).with_state(app);
    inside_the_layers(routes, access, origins.as_ref(), records)
}

/// What an address of its own answers: counters and health, to everybody who reaches it.
pub fn metrics_router(app: App) -> Router {
    let access = Access { open_metrics: true, ..Access::default() };
    let records = app.records.clone();
    let routes = Router::from(watching_api()).with_state(app);
    inside_the_layers(routes, access, None, records)
}

/// The layers every request passes, the last named first. Public so that a bench can put a route
/// that does nothing inside the same ones.
pub fn inside_the_layers(
    routes: Router,
    access: Access,
    origins: Option<&Origins>,
    records: Records,
) -> Router {
    let shared = origins.map(|origins| from_fn_with_state(cors::layer(origins), cors::shared));
    let windows = packed::Windows::default();
    routes
        .layer(from_fn(methods::asked_for))
        .layer(map_request(move |request| {
            ready(packed::unpacked(request, windows.clone()).map_err(|refused| *refused))
        }))
        .layer(from_fn_with_state(access, admission::admitted))
        .layer(map_request(head::checked))
        .layer(CatchPanicLayer::custom(panicked))
        // Many clients ask for compression by default, and it runs on the threads that serve
        // connections: a quarter of the size is enough, a sixth cost three times as much.
        .layer(CompressionLayer::new().quality(CompressionLevel::Fastest))
        // Outside of compression, which says 406 over the answer itself where no coding is accepted.
        .layer(map_response(problem::speak_in_problems))
        .layer(from_fn(fixed::unchanged))
        // Outside of whatever refuses: a preflight has no key, and a program has to read problems, too.
        .layer(option_layer(shared))
        .layer(header(X_CONTENT_TYPE_OPTIONS, "nosniff"))
        .layer(header(X_FRAME_OPTIONS, "DENY"))
        .layer(header(REFERRER_POLICY, "no-referrer"))
        .layer(header(
            CONTENT_SECURITY_POLICY,
            // The page under /docs sets styles and pictures from its own script.
            "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; \
             base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
        ))
        .layer(PropagateRequestIdLayer::x_request_id())
        .layer(from_fn_with_state(records, record::recorded))
        .layer(SetRequestIdLayer::x_request_id(MakeRequestUuid))
        .layer(map_request(head::without_wild_id))
}

fn header(name: HeaderName, value: &'static str) -> SetResponseHeaderLayer<HeaderValue> {
    SetResponseHeaderLayer::if_not_present(name, HeaderValue::from_static(value))
}

#[expect(clippy::needless_pass_by_value, reason = "the layer asks for this signature")]
fn panicked(cause: Box<dyn Any + Send + 'static>) -> Response<Body> {
    let cause = cause
        .downcast_ref::<String>()
        .map(String::as_str)
        .or_else(|| cause.downcast_ref::<&str>().copied())
        .unwrap_or("no message");
    tracing::error!(cause, "a handler panicked");
    Problem::internal().into_response()
}

#[cfg(test)]
mod tests {
    use axum::routing::get;

    use super::*;

    /// Over a real connection: a panic must not cost the caller the answer.
    #[tokio::test(flavor = "multi_thread", worker_threads = 2)]
    async fn a_handler_that_panics_gives_a_bare_problem() {
        async fn broken() {
            panic!("planted, with a secret");
        }
        let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await.expect("a port");
        let address = listener.local_addr().expect("an address");
        let routes = inside_the_layers(
            Router::new().route("/broken", get(broken)),
            Access::default(),
            None,
            Records::new(Metrics::default(), 1),
        );
        tokio::spawn(async move { axum::serve(listener, routes).await });
        let reply = tokio::task::spawn_blocking(move || {
            let agent: ureq::Agent =
                ureq::Agent::config_builder().http_status_as_error(false).build().into();
            let mut reply = agent.get(format!("http://{address}/broken")).call().expect("a reply");
            let body = reply.body_mut().read_to_string().expect("a body");
            (reply.status().as_u16(), reply.headers().contains_key("x-request-id"), body)
        });
        let (status, has_id, body) = reply.await.expect("the client ran");
        assert_eq!((status, has_id), (500, true));
        assert!(body.contains("\"code\":\"internal\"") && !body.contains("secret"), "{body}");
    }
}
