//! The OpenAPI description of the service: what bodies are held against, and what is published.

use std::sync::OnceLock;

use serde_json::{Map, Value, json};
use utoipa::OpenApi;
use utoipa::openapi::security::{HttpAuthScheme, HttpBuilder, SecurityRequirement, SecurityScheme};
use utoipa::openapi::tag::TagBuilder;

/// Everything of the description that does not follow from the routes.
#[derive(OpenApi)]
#[openapi(
    info(
        title = "hookspan",
        description = "Lays out and checks the roof hooks of a solar array on a tiled or slated pitched roof. Send a roof slope, an array, a site and the parts; the answer says on which rafters the hooks go, how much every hook, screw, rail, clamp, module and rafter is used, which clause and which combination of actions governs, and what the service had to assume. The service keeps nothing: the same request gives the same bytes.\n\nEvery length, force and load carries its unit in the name of its field. Coordinates lie in the roof plane: `x` along the eaves to the right, `y` up the slope in true length, origin at the lower left end of the eaves line, seen from outside.\n\nA request with faults is refused as a whole, with a JSON pointer, a code and a sentence for each fault. A layout that fails a check is an answer, not an error.\n\n**Cautions.** The answer supports planning; it does not replace the judgement of a structural engineer, the instructions that come with the parts, or local rules. Work at height, on old roof coverings (some contain asbestos) and on electrical installations belongs in trained and licensed hands. The embedded parts are invented for demonstration and must not be used for a real roof.",
        license(name = "Apache-2.0", identifier = "Apache-2.0"),
    ),
    tags(
        (name = "batches", description = "Many jobs at once."),
        (name = "catalogue", description = "What requests and answers refer to: parts, warnings, rules."),
        (name = "service", description = "The service itself."),
    ),
    components(schemas(crate::http::problem::Problem, crate::http::query::AnswerForm, crate::http::query::TraceLevel, crate::http::query::ViewName, crate::http::query::LanguageTag, crate::http::query::UnitSystem)),
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
        let schemas = &mut value["components"]["schemas"];
        say_tags(schemas);
        let_empty_lists_stand(schemas);
        tell_apart(schemas);
        value
    })
}

/// The description as published: indented JSON with a final line feed.
pub fn openapi_text() -> &'static str {
    static TEXT: OnceLock<String> = OnceLock::new();
    TEXT.get_or_init(|| format!("{:#}\n", openapi_value()))
}

/// An empty list is an absent list: a least number of entries holds only where there are any.
fn let_empty_lists_stand(schemas: &mut Value) {
    for schema in schemas.as_object_mut().into_iter().flat_map(Map::values_mut) {
        let required = schema.get("required").cloned().unwrap_or_default();
        let is_required = |name: &str| {
            required.as_array().is_some_and(|names| names.iter().any(|known| known == name))
        };
        let Some(members) = schema.get_mut("properties").and_then(Value::as_object_mut) else {
            continue;
        };
        for (_, list) in members.iter_mut().filter(|(name, _)| !is_required(name)) {
            let Some(list) =
                list.as_object_mut().filter(|list| list.get("type") == Some(&json!("array")))
            else {
                continue;
            };
            let least = list.remove("minItems").and_then(|least| least.as_u64()).unwrap_or(0);
            if least > 1 {
                list.insert("not".to_owned(), json!({ "minItems": 1, "maxItems": least - 1 }));
            }
        }
    }
}

/// What a member that is a tag is for, in one schema with the tag: the two come as parts of a whole, which
/// generators take for an object.
fn say_tags(schemas: &mut Value) {
    let objects = schemas.as_object_mut().into_iter().flat_map(Map::values_mut);
    let members = objects.filter_map(|schema| schema.get_mut("properties")?.as_object_mut());
    for member in members.flat_map(Map::values_mut) {
        let Some([tag, about]) = member.get("allOf").and_then(Value::as_array).map(Vec::as_slice)
        else {
            continue;
        };
        let mut said = tag.clone();
        said["description"] = about["description"].clone();
        *member = said;
    }
}

/// Names the member that tells the alternatives of every choice of objects apart, with the schema each of
/// its values stands for: without it, generated clients try one after the other and take the first that
/// fits.
fn tell_apart(schemas: &mut Value) {
    let mut found: Vec<(String, Map<String, Value>)> = Vec::new();
    for (name, schema) in schemas.as_object().into_iter().flatten() {
        let alternatives = schema["oneOf"].as_array().into_iter().flatten();
        let mapping = alternatives.filter_map(|alternative| {
            let reference = alternative["$ref"].as_str()?;
            let named = reference.rsplit('/').next()?;
            let kind = schemas[named]["properties"]["kind"]["enum"][0].as_str()?;
            Some((kind.to_owned(), Value::from(reference)))
        });
        let mapping: Map<String, Value> = mapping.collect();
        if !mapping.is_empty() {
            found.push((name.clone(), mapping));
        }
    }
    for (name, mapping) in found {
        schemas[name]["discriminator"] = json!({ "propertyName": "kind", "mapping": mapping });
    }
}
