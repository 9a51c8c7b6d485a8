//! Which form of an answer the caller wants: JSON, a drawing or the printable sheet, and in which
//! language (RFC 9110, 12.5.1 and 12.5.4).
//!
//! JSON is what a caller gets who has no preference. A header that cannot be read is as none: some
//! clients send media ranges no standard has, and mean "anything".

use axum::http::header::{ACCEPT, ACCEPT_LANGUAGE, CONTENT_TYPE, VARY};
use axum::http::{HeaderMap, HeaderName, HeaderValue};
use axum::response::{IntoResponse, Response};
use headers_accept::Accept;
use mediatype::MediaType;
use mediatype::names::{APPLICATION, CHARSET, HTML, IMAGE, JSON, SVG, TEXT, XML};
use mediatype::values::UTF_8;

use crate::http::problem::{Problem, ProblemCode};
use crate::language::Language;

/// A form an answer can have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// JSON.
    Json,
    /// A drawing.
    Drawing,
    /// The printable sheet.
    Sheet,
}

impl Form {
    /// Every form; JSON first, for callers without a preference.
    pub const ALL: [Self; 3] = [Self::Json, Self::Drawing, Self::Sheet];

    /// Its media type, and the same with the charset it is always in.
    fn media_types(self) -> &'static [MediaType<'static>; 2] {
        const JSON_TYPES: &[MediaType<'static>; 2] = &[
            MediaType::new(APPLICATION, JSON),
            MediaType::from_parts(APPLICATION, JSON, None, &[(CHARSET, UTF_8)]),
        ];
        const DRAWING: &[MediaType<'static>; 2] = &[
            MediaType::from_parts(IMAGE, SVG, Some(XML), &[]),
            MediaType::from_parts(IMAGE, SVG, Some(XML), &[(CHARSET, UTF_8)]),
        ];
        const SHEET: &[MediaType<'static>; 2] = &[
            MediaType::new(TEXT, HTML),
            MediaType::from_parts(TEXT, HTML, None, &[(CHARSET, UTF_8)]),
        ];
        match self {
            Self::Json => JSON_TYPES,
            Self::Drawing => DRAWING,
            Self::Sheet => SHEET,
        }
    }

    const fn content_type(self) -> &'static str {
        match self {
            Self::Json => "application/json",
            Self::Drawing => "image/svg+xml; charset=utf-8",
            Self::Sheet => "text/html; charset=utf-8",
        }
    }
}

/// The form of `available` that suits the caller best; among equals the one named first.
///
/// # Errors
/// `not_acceptable` when the caller takes none of them.
pub fn chosen(headers: &HeaderMap, available: &[Form]) -> Result<Form, Problem> {
    let first = available.first().copied().unwrap_or(Form::Json);
    let Some(accept) = joined(headers, &ACCEPT).and_then(|text| text.parse::<Accept>().ok()) else {
        return Ok(first);
    };
    // A range with a charset matches only a type with one: asked for when nothing else fits, so
    // that refusing a type refuses it under both names.
    let negotiated = |name: usize| {
        let offered = available.iter().map(|form| &form.media_types()[name]);
        let found = accept.negotiate(offered)?;
        available.iter().copied().find(|form| form.media_types()[name] == *found)
    };
    negotiated(0).or_else(|| negotiated(1)).ok_or_else(|| {
        let offered: Vec<String> =
            available.iter().map(|form| form.media_types()[0].to_string()).collect();
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
pub fn text(form: Form, text: String) -> Response {
    ([(CONTENT_TYPE, HeaderValue::from_static(form.content_type()))], text).into_response()
}

/// Says that the answer depends on the language the caller reads.
#[must_use]
pub fn spoken(mut response: Response) -> Response {
    response.headers_mut().append(VARY, HeaderValue::from_static("accept-language"));
    response
}

/// Says that the answer depends on what the caller accepts.
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
        chosen(&headers, &Form::ALL).ok()
    }

    #[test]
    fn the_preferred_form_is_chosen_and_json_when_there_is_no_preference() {
        for (accept, form) in [
            ("*/*", Some(Form::Json)),
            ("", Some(Form::Json)),
            ("application/*", Some(Form::Json)),
            ("application/json; charset=UTF-8", Some(Form::Json)),
            ("image/svg+xml", Some(Form::Drawing)),
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
