//! Which form of an answer the caller wants: JSON, a drawing, the printable sheet or a table, and in
//! which language (RFC 9110, 12.5.1 and 12.5.4).
//!
//! JSON is what a caller gets who has no preference. A header that cannot be read is as none: some
//! clients send media ranges no standard has, and mean "anything".

use axum::extract::Request;
use axum::http::header::{ACCEPT, ACCEPT_LANGUAGE, CONTENT_DISPOSITION, CONTENT_TYPE, VARY};
use axum::http::{HeaderMap, HeaderName, HeaderValue, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use headers_accept::Accept;
use mediatype::names::{APPLICATION, CHARSET, CSV, HTML, IMAGE, JSON, SVG, TEXT, XML};
use mediatype::values::UTF_8;
use mediatype::{MediaType, Name, Value};

use crate::http::problem::{Problem, ProblemCode};
use crate::language::Language;
use crate::service::shown::Shown;

/// A form an answer can have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// JSON.
    Json,
    /// A drawing.
    Drawing,
    /// The printable sheet.
    Sheet,
    /// A table of comma-separated values.
    Table,
    /// A JSON Schema.
    Schema,
    /// JSON documents one a line.
    Lines,
}

impl Form {
    /// Every form of a job that is drawn; JSON first, for callers without a preference.
    pub const OF_JOBS: [Self; 4] = [Self::Json, Self::Drawing, Self::Sheet, Self::Table];

    const fn media_type(self) -> MediaType<'static> {
        const SCHEMA: Name<'static> = Name::new_unchecked("schema");
        const LINES: Name<'static> = Name::new_unchecked("x-ndjson");
        match self {
            Self::Json => MediaType::new(APPLICATION, JSON),
            Self::Drawing => MediaType::from_parts(IMAGE, SVG, Some(XML), &[]),
            Self::Sheet => MediaType::new(TEXT, HTML),
            Self::Table => MediaType::new(TEXT, CSV),
            Self::Schema => MediaType::from_parts(APPLICATION, SCHEMA, Some(JSON), &[]),
            Self::Lines => MediaType::new(APPLICATION, LINES),
        }
    }

    /// The value of `Content-Type`.
    #[must_use]
    pub const fn content_type(self) -> HeaderValue {
        HeaderValue::from_static(match self {
            Self::Json => "application/json",
            Self::Drawing => "image/svg+xml; charset=utf-8",
            Self::Sheet => "text/html; charset=utf-8",
            // RFC 4180, 3: the first line names the columns.
            Self::Table => "text/csv; charset=utf-8; header=present",
            Self::Schema => "application/schema+json",
            Self::Lines => "application/x-ndjson",
        })
    }
}

/// The form of `available` that suits the caller best; among equals the one named first.
///
/// # Errors
/// `not_acceptable` when the caller takes none of them.
pub fn chosen(headers: &HeaderMap, available: &[Form]) -> Result<Form, Problem> {
    let offered: Vec<MediaType> = available.iter().map(|form| form.media_type()).collect();
    let at = suits(accepted(headers).as_ref(), &offered)?;
    Ok(available.get(at).copied().unwrap_or(Form::Json))
}

/// The layer of answers that have one form, whatever that is.
///
/// # Errors
/// `not_acceptable` when the caller does not take it.
pub async fn acceptable(request: Request, next: Next) -> Result<Response, Problem> {
    let accept = accepted(request.headers());
    let response = next.run(request).await;
    let kind = response.headers().get(CONTENT_TYPE).and_then(|kind| kind.to_str().ok());
    if let Some(kind) = kind.and_then(|kind| MediaType::parse(kind).ok())
        && response.status() == StatusCode::OK
    {
        suits(accept.as_ref(), &[kind.essence()])?;
    }
    Ok(response)
}

/// What the caller takes; nothing where it has no preference.
fn accepted(headers: &HeaderMap) -> Option<Accept> {
    joined(headers, &ACCEPT)?.parse().ok()
}

/// Which of these types suits the caller best; among equals the first.
fn suits(accept: Option<&Accept>, offered: &[MediaType]) -> Result<usize, Problem> {
    let Some(accept) = accept else { return Ok(0) };
    // A range with a charset matches only a type with one, in the same letters: asked for when nothing
    // else fits, so that refusing a type refuses it under every name.
    let in_small_letters = [(CHARSET, Value::new("utf-8").unwrap_or(UTF_8))];
    let names: [&[(Name, Value)]; 3] = [&[], &[(CHARSET, UTF_8)], &in_small_letters];
    let best = |name: &&[(Name, Value)]| {
        let of: Vec<MediaType> = offered
            .iter()
            .map(|kind| MediaType::from_parts(kind.ty, kind.subty, kind.suffix, name))
            .collect();
        let found = accept.negotiate(&of)?;
        of.iter().position(|kind| kind == found)
    };
    names.iter().find_map(best).ok_or_else(|| {
        let offered: Vec<String> = offered.iter().map(MediaType::to_string).collect();
        Problem::new(
            ProblemCode::NotAcceptable,
            format!("The request accepts none of: {}.", offered.join(", ")),
        )
    })
}

/// The language that suits the caller best; English when none does.
#[must_use]
pub fn language(headers: &HeaderMap) -> Language {
    let header = joined(headers, &ACCEPT_LANGUAGE).unwrap_or_default();
    let mut best = (0.0, Language::default());
    for range in header.split(',') {
        let (tag, parameters) = range.split_once(';').unwrap_or((range, ""));
        let primary = tag.trim().split('-').next().unwrap_or_default();
        let weight = match parameters.trim().strip_prefix("q=") {
            Some(q) => q.trim().parse::<f64>().unwrap_or(0.0),
            None => 1.0,
        };
        let known = Language::ALL.into_iter().find(|l| l.tag().eq_ignore_ascii_case(primary));
        if let Some(language) = known
            && weight > best.0
        {
            best = (weight, language);
        }
    }
    best.1
}

fn joined(headers: &HeaderMap, name: &HeaderName) -> Option<String> {
    let values: Vec<&str> =
        headers.get_all(name).iter().filter_map(|value| value.to_str().ok()).collect();
    let joined = values.join(",");
    (!joined.trim().is_empty()).then_some(joined)
}

/// A text in a form.
#[must_use]
pub fn text(form: Form, text: impl IntoResponse) -> Response {
    ([(CONTENT_TYPE, form.content_type())], text).into_response()
}

/// A job as people look at it. What is a file to keep has a name (RFC 6266).
#[must_use]
pub fn shown(form: Form, shown: Shown) -> Response {
    let mut response = text(form, shown.text);
    let named = shown.file_name.map(|name| format!("attachment; filename=\"{name}\""));
    if let Some(named) = named.and_then(|named| HeaderValue::from_str(&named).ok()) {
        response.headers_mut().insert(CONTENT_DISPOSITION, named);
    }
    response
}

/// Says that the answer depends on the language the caller reads.
#[must_use]
pub fn spoken(mut response: Response) -> Response {
    response.headers_mut().append(VARY, HeaderValue::from_static("accept-language"));
    response
}

/// Says that the answer depends on the forms the caller takes.
#[must_use]
pub fn formed(mut response: Response) -> Response {
    response.headers_mut().append(VARY, HeaderValue::from_static("accept"));
    response
}

/// Says that the answer depends on all that the caller accepts.
#[must_use]
pub fn varying(mut response: Response) -> Response {
    let by = HeaderValue::from_static("accept, accept-language");
    response.headers_mut().append(VARY, by);
    response
}

#[cfg(test)]
mod tests {
    use super::*;

    fn accepting(accept: &str) -> Option<Form> {
        let headers = HeaderMap::from_iter([(ACCEPT, accept.parse().expect("a header"))]);
        chosen(&headers, &Form::OF_JOBS).ok()
    }

    #[test]
    fn the_preferred_form_is_chosen_and_json_when_there_is_no_preference() {
        for (accept, form) in [
            ("*/*", Some(Form::Json)),
            ("", Some(Form::Json)),
            ("application/*", Some(Form::Json)),
            ("application/json; charset=UTF-8", Some(Form::Json)),
            ("text/html; charset=utf-8", Some(Form::Sheet)),
            ("image/svg+xml", Some(Form::Drawing)),
            ("text/csv", Some(Form::Table)),
            ("text/csv; charset=utf-8", Some(Form::Table)),
            ("text/*", Some(Form::Sheet)),
            ("image/*", Some(Form::Drawing)),
            ("text/html,application/xhtml+xml,*/*;q=0.8", Some(Form::Sheet)),
            ("text/html;q=0.5, image/svg+xml;q=0.7, application/json;q=0.6", Some(Form::Drawing)),
            ("application/json;q=0, */*;q=0.1", Some(Form::Drawing)),
            ("text/html;q=0, */*", Some(Form::Json)),
            ("application/json;q=0.2, text/html;q=0.1", Some(Form::Json)),
            ("application/pdf", None),
            ("application/json;q=0", None),
            // What a widespread client library sends; "*" is no media range.
            ("text/html, image/gif, *; q=.2, */*; q=.2", Some(Form::Json)),
        ] {
            assert_eq!(accepting(accept), form, "{accept}");
        }
        assert_eq!(chosen(&HeaderMap::new(), &[Form::Json]).ok(), Some(Form::Json));
    }

    #[test]
    fn the_preferred_language_is_chosen_and_english_when_it_is_none_of_ours() {
        for (accept, language) in [
            ("de", Language::German),
            ("de-AT,de;q=0.9,en;q=0.8", Language::German),
            ("fr, en;q=0.4, de;q=0.6", Language::German),
            ("en-GB, de", Language::English),
            ("fr", Language::English),
            ("de;q=0", Language::English),
            ("de;q=NaN, en;q=0.1", Language::English),
            ("", Language::English),
        ] {
            let headers =
                HeaderMap::from_iter([(ACCEPT_LANGUAGE, accept.parse().expect("a header"))]);
            assert_eq!(super::language(&headers), language, "{accept}");
        }
    }
}
