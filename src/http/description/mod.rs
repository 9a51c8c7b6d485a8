//! The OpenAPI description of the service: what bodies are held against, and what is published.

mod examples;
mod headers;
mod operations;
mod report;
pub(super) mod rules;
mod schemas;
mod three_zero;

use std::sync::OnceLock;

use serde_json::Value;
use utoipa::OpenApi;
use utoipa::openapi::security::{HttpAuthScheme, HttpBuilder, SecurityRequirement, SecurityScheme};
use utoipa::openapi::tag::TagBuilder;

pub use report::report_schema_text;

/// Everything of the description that does not follow from the routes.
#[derive(OpenApi)]
#[openapi(
    info(
        title = "hookspan",
        description = "Lays out and checks the roof hooks of a solar array on a tiled or slated pitched roof. Send a roof slope, an array, a site and the parts; the answer says on which rafters the hooks go, how much every hook, screw, rail, clamp, module and rafter is used, which clause and which combination of actions governs, and what the service had to assume. The service keeps nothing: the same request gives the same bytes.\n\nEvery length, force and load carries its unit in the name of its field. Coordinates lie in the roof plane: `x` along the eaves to the right, `y` up the slope in true length, origin at the lower left end of the eaves line, seen from outside.\n\nA request with faults is refused as a whole, with a JSON pointer, a code and a sentence for each fault. A layout that fails a check is an answer, not an error.\n\n**Change.** This is a preview: until version 1.0, members and values may change with every minor version, and the change log says which. From then on, what is under `/v1` is only added to. A reader of answers takes members and values it does not know in its stride; the schema of each list of values says what becomes of others. What is to go is marked `deprecated` here first, and answers that touch it carry `Deprecation` (RFC 9745) and `Sunset` (RFC 8594), at least twelve months ahead.\n\n**Cautions.** The answer supports planning; it does not replace the judgement of a structural engineer, the instructions that come with the parts, or local rules. Work at height, on old roof coverings (some contain asbestos) and on electrical installations belongs in trained and licensed hands. The embedded parts are invented for demonstration and must not be used for a real roof.",
        license(name = "Apache-2.0", identifier = "Apache-2.0"),
    ),
    servers((url = "/", description = "Where this description was fetched.")),
    tags(
        (name = "batches", description = "Many jobs at once."),
        (name = "catalogue", description = "What requests and answers refer to: parts, warnings, rules."),
        (name = "service", description = "The service itself."),
    ),
    components(schemas(crate::http::problem::Problem, crate::http::query::AnswerForm, crate::http::query::TraceLevel, crate::http::query::ViewName, crate::http::query::LanguageTag, crate::http::query::UnitSystem, crate::wire::signature::Signature, crate::wire::tables::TableName, crate::wire::sheets::SheetPart)),
)]
struct Heading;

/// Name of the way in which a caller says who it is.
const KEY_NAME: &str = "key";

/// What that is.
const KEY: &str = "The key the operator gave you. Which addresses ask for one is the operator's \
    choice; callers on the same machine usually need none. Answers to a key carry `RateLimit-Policy` \
    and `RateLimit`: what it may do, and what is left of that.";

/// The description before any route is added to it, with further tags before its own.
pub(super) fn heading(tags: &[(&str, &str)]) -> utoipa::openapi::OpenApi {
    let mut heading = Heading::openapi();
    let tags = tags
        .iter()
        .map(|(tag, about)| TagBuilder::new().name(*tag).description(Some(*about)).build());
    let key = HttpBuilder::new().scheme(HttpAuthScheme::Bearer).description(Some(KEY)).build();
    if let Some(components) = &mut heading.components {
        components.add_security_scheme(KEY_NAME, SecurityScheme::Http(key));
    }
    // Without a key, or with one: which of the two is the operator's choice.
    let none = SecurityRequirement::default();
    let key = SecurityRequirement::new(KEY_NAME, std::iter::empty::<&str>());
    heading.security = Some(vec![none, key]);
    heading.tags = Some(tags.chain(heading.tags.unwrap_or_default()).collect());
    heading
}

/// The description as a JSON value.
///
/// # Panics
/// Never: a description is texts, numbers and lists, and the tests write it.
pub fn openapi_value() -> &'static Value {
    static VALUE: OnceLock<Value> = OnceLock::new();
    VALUE.get_or_init(|| {
        let description = super::api().into_openapi();
        let mut value = serde_json::to_value(description)
            .expect("the description holds texts and numbers only");
        schemas::complete(&mut value);
        rules::say(&mut value["components"]["schemas"]);
        headers::say(&mut value);
        examples::show(&mut value);
        value
    })
}

/// The description as published: indented JSON with a final line feed.
pub fn openapi_text() -> &'static str {
    static TEXT: OnceLock<String> = OnceLock::new();
    TEXT.get_or_init(|| format!("{:#}\n", openapi_value()))
}

/// The same for tools that know `OpenAPI` 3.0 only.
pub fn openapi_30_value() -> &'static Value {
    static VALUE: OnceLock<Value> = OnceLock::new();
    VALUE.get_or_init(|| three_zero::of(openapi_value()))
}

/// That as published.
pub fn openapi_30_text() -> &'static str {
    static TEXT: OnceLock<String> = OnceLock::new();
    TEXT.get_or_init(|| format!("{:#}\n", openapi_30_value()))
}
