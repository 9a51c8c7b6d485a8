//! Query parameters. An unknown one is a fault, as an unknown field of the body is: a misspelt
//! `trace` must not pass for a request without. So is one that the form asked for has no use for.

use serde::Serialize;
use utoipa::{IntoParams, ToSchema};

use crate::http::problem::Problem;
use crate::http::representation::Form;
use crate::language::Language;
use crate::model::fault::{Fault, FaultCode};
use crate::service::layout::Options;
use crate::service::shown::View;

/// How much of the calculation an answer shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum TraceLevel {
    /// Results only.
    #[default]
    None,
    /// Every quantity with symbol, value, unit and clause.
    Full,
}

impl From<TraceLevel> for Options {
    fn from(level: TraceLevel) -> Self {
        Self { trace: level == TraceLevel::Full }
    }
}

impl TraceLevel {
    /// Reads `trace` from a query that can have nothing else.
    ///
    /// # Errors
    /// `invalid_request`, as [`Asked::from_query`].
    pub fn from_query(query: Option<&str>) -> Result<Self, Problem> {
        let mut reader = Reader::over(query);
        let level = reader.trace();
        reader.finish(&["trace"])?;
        Ok(level)
    }
}

/// Reads a query where no parameter is known.
///
/// # Errors
/// `invalid_request` when there is one.
pub fn none(query: Option<&str>) -> Result<(), Problem> {
    if query.unwrap_or_default().split('&').all(str::is_empty) {
        return Ok(());
    }
    let detail = "The query has an unknown parameter; this operation takes none.";
    Err(Problem::faults(vec![Fault::new("", FaultCode::UnknownField, detail)]))
}

/// What a drawing shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum ViewName {
    /// The slope with everything on it.
    Slope,
    /// The section through a hook.
    Section,
    /// The wind zones of all four directions, each with its coefficients.
    Wind,
}

/// Languages of drawings and sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum LanguageTag {
    /// English.
    En,
    /// German.
    De,
}

/// Parameters of an operation that also draws.
#[derive(IntoParams)]
#[into_params(parameter_in = Query)]
#[expect(dead_code, reason = "the description reads it, and nothing else")]
pub struct DrawnParameters {
    /// `full` adds every quantity with symbol, value, unit and clause to the answer.
    #[param(nullable = false)]
    trace: Option<TraceLevel>,
    /// What a drawing (`Accept: image/svg+xml`) shows; the slope when absent.
    #[param(nullable = false)]
    view: Option<ViewName>,
    /// Id of the hook a section goes through; the one used most when absent.
    #[param(nullable = false, example = "A1-1")]
    hook: Option<String>,
    /// Language of a drawing or sheet, whatever `Accept-Language` says.
    #[param(nullable = false)]
    lang: Option<LanguageTag>,
}

impl From<LanguageTag> for Language {
    fn from(tag: LanguageTag) -> Self {
        match tag {
            LanguageTag::En => Self::English,
            LanguageTag::De => Self::German,
        }
    }
}

/// What is asked of a job, in the form its answer is to have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Asked {
    /// The answer.
    Answer(TraceLevel),
    /// A drawing.
    Drawing(View, Option<Language>),
    /// The sheet.
    Sheet(Option<Language>),
}

impl Asked {
    /// Reads the parameters that go with a form.
    ///
    /// # Errors
    /// `invalid_request` with one fault for every parameter that is unknown, repeated, has an
    /// unknown value or does not go with the form. Their pointer is `""`: a query has no place in
    /// the body.
    pub fn from_query(form: Form, query: Option<&str>) -> Result<Self, Problem> {
        let mut reader = Reader::over(query);
        match form {
            Form::Json => {
                let level = reader.trace();
                reader.finish(&["trace"]).map(|()| Self::Answer(level))
            }
            Form::Drawing => {
                let (view, language) = (reader.view(), reader.language());
                reader.finish(&["view", "hook", "lang"]).map(|()| Self::Drawing(view, language))
            }
            Form::Sheet => {
                let language = reader.language();
                reader.finish(&["lang"]).map(|()| Self::Sheet(language))
            }
        }
    }
}

/// Every parameter there is, and the form it goes with.
const PARAMETERS: [(&str, &str); 4] = [
    ("trace", "JSON"),
    ("view", "a drawing (Accept: image/svg+xml)"),
    ("hook", "view=section of a drawing (Accept: image/svg+xml)"),
    ("lang", "a drawing or a sheet (Accept: image/svg+xml or text/html)"),
];

struct Reader {
    pairs: Vec<(String, String)>,
    faults: Vec<Fault>,
}

impl Reader {
    fn over(query: Option<&str>) -> Self {
        let pairs = form_urlencoded::parse(query.unwrap_or_default().as_bytes()).into_owned();
        Self { pairs: pairs.collect(), faults: Vec::new() }
    }

    fn refuse(&mut self, code: FaultCode, detail: impl Into<String>) {
        self.faults.push(Fault::new("", code, detail));
    }

    /// The value of a parameter, given at most once.
    fn value(&mut self, name: &str) -> Option<String> {
        let mut values = self.pairs.iter().filter(|pair| pair.0 == name).map(|pair| pair.1.clone());
        let (first, second) = (values.next(), values.next());
        drop(values);
        if second.is_some() {
            let detail = format!("The query gives \"{name}\" more than once.");
            self.refuse(FaultCode::Contradiction, detail);
        }
        first
    }

    /// One of the allowed values of a parameter.
    fn choice<T: Copy>(&mut self, name: &str, allowed: &[(&str, T)]) -> Option<T> {
        let value = self.value(name)?;
        let found = allowed.iter().find(|(text, _)| *text == value).map(|(_, choice)| *choice);
        if found.is_none() {
            let names: Vec<&str> = allowed.iter().map(|(text, _)| *text).collect();
            let detail = format!(
                "The query parameter \"{name}\" has an unknown value; allowed are: {}.",
                names.join(", ")
            );
            self.refuse(FaultCode::UnknownValue, detail);
        }
        found
    }

    fn trace(&mut self) -> TraceLevel {
        let levels = [("none", TraceLevel::None), ("full", TraceLevel::Full)];
        self.choice("trace", &levels).unwrap_or_default()
    }

    fn language(&mut self) -> Option<Language> {
        self.choice("lang", &[("en", LanguageTag::En), ("de", LanguageTag::De)]).map(Into::into)
    }

    fn view(&mut self) -> View {
        let views =
            [("slope", ViewName::Slope), ("section", ViewName::Section), ("wind", ViewName::Wind)];
        let view = self.choice("view", &views);
        let hook = self.value("hook");
        if view == Some(ViewName::Section) {
            return View::Section(hook);
        }
        if hook.is_some() {
            self.refuse(
                FaultCode::Contradiction,
                "The query parameter \"hook\" goes with view=section only.",
            );
        }
        if view == Some(ViewName::Wind) {
            return View::Wind;
        }
        View::Slope
    }

    fn finish(mut self, allowed: &[&str]) -> Result<(), Problem> {
        for name in self.pairs.iter().map(|pair| pair.0.clone()).collect::<Vec<_>>() {
            let known = PARAMETERS.iter().find(|(known, _)| *known == name);
            match known {
                _ if allowed.contains(&name.as_str()) => {}
                Some((_, form)) => self.refuse(
                    FaultCode::Contradiction,
                    format!("The query parameter \"{name}\" goes with {form} only."),
                ),
                None => self.refuse(
                    FaultCode::UnknownField,
                    format!(
                        "The query has an unknown parameter; known are: {}.",
                        allowed.join(", ")
                    ),
                ),
            }
        }
        self.faults.dedup();
        if self.faults.is_empty() { Ok(()) } else { Err(Problem::faults(self.faults)) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_known_parameter_passes() {
        let read = |query| TraceLevel::from_query(query);
        assert_eq!(read(None).expect("no query"), TraceLevel::None);
        assert_eq!(read(Some("")).expect("empty query"), TraceLevel::None);
        assert_eq!(read(Some("trace=full")).expect("known"), TraceLevel::Full);
        assert_eq!(read(Some("trace=none")).expect("known"), TraceLevel::None);
        for wrong in ["trace", "trace=Full", "Trace=full", "x=1", "trace=full&trace=none"] {
            assert!(read(Some(wrong)).is_err(), "{wrong}");
        }
    }

    #[test]
    fn a_parameter_goes_with_its_form() {
        let drawing = |query| Asked::from_query(Form::Drawing, Some(query)).ok();
        assert_eq!(drawing(""), Some(Asked::Drawing(View::Slope, None)));
        assert_eq!(
            drawing("view=section&hook=A%201-2&lang=de"),
            Some(Asked::Drawing(View::Section(Some("A 1-2".to_owned())), Some(Language::German)))
        );
        for wrong in ["hook=A1-1", "view=slope&hook=A1-1", "trace=full", "lang=fr", "view=x"] {
            assert_eq!(drawing(wrong), None, "{wrong}");
        }
        for (form, wrong) in [(Form::Json, "lang=de"), (Form::Sheet, "view=slope")] {
            assert!(Asked::from_query(form, Some(wrong)).is_err(), "{wrong}");
        }
    }
}
