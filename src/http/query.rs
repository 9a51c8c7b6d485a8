//! Query parameters. An unknown one is a fault, as an unknown field of the body is: a misspelt
//! `trace` must not pass for a request without. So is one that the form asked for has no use for.

use std::collections::BTreeSet;

use axum::extract::Request;
use axum::http::Method;
use serde::Serialize;
use utoipa::{IntoParams, ToSchema};

use crate::http::forms::Offer;
use crate::http::problem::Problem;
use crate::http::representation::Form;
use crate::language::{Language, Medium, Reader, Units};
use crate::service::request::Options;
use crate::service::shown::{Look, View};
use crate::service::statement::PARTS;
use crate::wire::enumeration::enumeration;
use crate::wire::evidence::PartKind;
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::sheets::SheetPart;
use crate::wire::tables::TableName;

enumeration! {
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
}

enumeration! {
    /// How much of an answer is told.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum AnswerForm {
        /// All of it.
        #[default]
        Full,
        /// Verdicts, highest utilisation, counts and codes: under 1.5 kB.
        Summary,
    }
}

/// How the sentences of an answer are to be said, as far as the query says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Spoken {
    language: Option<Language>,
    units: Option<Units>,
}

impl Spoken {
    /// The reader, who speaks `usual` where the query names no language.
    fn reader(self, usual: Language) -> Reader {
        Reader {
            language: self.language.unwrap_or(usual),
            units: self.units.unwrap_or_default(),
            medium: Medium::Data,
        }
    }
}

/// What is asked of an answer as JSON.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Written {
    answer: AnswerForm,
    trace: TraceLevel,
    spoken: Spoken,
}

impl Written {
    const PARAMETERS: [&'static str; 4] = ["answer", "trace", "lang", "units"];

    /// Those of an answer whose trace nobody has to ask for.
    const WITHOUT_TRACE: [&'static str; 3] = ["answer", "lang", "units"];

    /// The options of an answer for a caller who speaks `usual` where the query names no language.
    #[must_use]
    pub fn options(self, usual: Language) -> Options {
        let (trace, reader) = (self.trace == TraceLevel::Full, self.spoken.reader(usual));
        let summary = self.answer == AnswerForm::Summary;
        Options { trace, reader, summary, ..Options::default() }
    }
}

/// Reads the kind of part and the language of the maker's form.
///
/// # Errors
/// `invalid_request`, as [`Asked::from_query`].
pub fn of_form(query: Option<&str>) -> Result<(Option<PartKind>, Option<Language>), Problem> {
    let kinds = PARTS.map(|part| (part.name(), part));
    let mut pairs = Pairs::of(query);
    let asked = (pairs.choice("part", &kinds), pairs.language());
    pairs.finish(&["part", "lang"], None)?;
    Ok(asked)
}

/// The layer of operations that take no parameter.
///
/// # Errors
/// `invalid_request`, as [`Asked::from_query`], for a question; other methods are not answered.
pub async fn none_taken(request: Request) -> Result<Request, Problem> {
    if matches!(*request.method(), Method::GET | Method::HEAD) {
        Pairs::of(request.uri().query()).finish(&[], None)?;
    }
    Ok(request)
}

/// Reads what is asked of a batch: its answers, and the line they begin with.
///
/// # Errors
/// `invalid_request`, as [`Asked::from_query`].
pub fn of_batch(query: Option<&str>) -> Result<(Written, u64), Problem> {
    let mut pairs = Pairs::of(query);
    let asked = (pairs.written(), pairs.first_line());
    pairs.finish(&["first_line", "answer", "trace", "lang", "units"], None)?;
    Ok(asked)
}

enumeration! {
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
}

enumeration! {
    /// Languages of sentences, drawings and sheets.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum LanguageTag {
        /// English.
        En,
        /// German.
        De,
    }
}

/// Parameters of an operation that also draws.
#[derive(IntoParams)]
#[into_params(parameter_in = Query)]
#[expect(dead_code, reason = "the description reads it, and nothing else")]
pub struct DrawnParameters {
    /// `summary` answers in short.
    #[param(nullable = false)]
    answer: Option<AnswerForm>,
    /// `full` adds every quantity with symbol, value, unit and clause to the answer.
    #[param(nullable = false)]
    trace: Option<TraceLevel>,
    /// What a drawing (`Accept: image/svg+xml`) shows; the slope when absent.
    #[param(nullable = false)]
    view: Option<ViewName>,
    /// With `view=section`: id of the hook it goes through, such as `A1-1`, or of a building with its slope, such as `S1/A1-1`; the one used most when absent.
    #[param(nullable = false)]
    hook: Option<String>,
    /// Who a sheet (`Accept: text/html`) is for; everybody when absent. Rechecks and surveys have no order.
    #[param(nullable = false)]
    part: Option<SheetPart>,
    /// What a table (`Accept: text/csv`) lists; the setting-out when absent. Rechecks and surveys have no
    /// order.
    #[param(nullable = false)]
    table: Option<TableName>,
    /// Language of sentences, drawings and sheets, whatever `Accept-Language` says.
    #[param(nullable = false)]
    lang: Option<LanguageTag>,
    /// Units of the figures in sentences; the members of an answer keep the units in their names.
    #[param(nullable = false)]
    units: Option<UnitSystem>,
}

/// Parameters of an operation that answers with JSON documents and nothing else.
#[derive(IntoParams)]
#[into_params(parameter_in = Query)]
#[expect(dead_code, reason = "the description reads it, and nothing else")]
pub struct WrittenParameters {
    /// `summary` answers in short.
    #[param(nullable = false)]
    answer: Option<AnswerForm>,
    /// `full` adds every quantity with symbol, value, unit and clause to every answer.
    #[param(nullable = false)]
    trace: Option<TraceLevel>,
    /// Language of sentences, whatever `Accept-Language` says.
    #[param(nullable = false)]
    lang: Option<LanguageTag>,
    /// Units of the figures in sentences; the members of an answer keep the units in their names.
    #[param(nullable = false)]
    units: Option<UnitSystem>,
}

/// Last line a batch can begin at: what every reader of the description can write as a whole number.
const LAST_LINE: u64 = i64::MAX as u64;

/// Parameters of a batch beside those of its answers.
#[derive(IntoParams)]
#[into_params(parameter_in = Query)]
#[expect(dead_code, reason = "the description reads it, and nothing else")]
pub struct BatchParameters {
    /// First line to answer, counted from 1: those before it are counted and passed over. With the
    /// `next_line` of a summary, a batch that was cut short goes on with the same file.
    #[param(nullable = false, minimum = 1, example = 1)]
    first_line: Option<u64>,
}

/// Parameters of an operation whose trace is always there.
#[derive(IntoParams)]
#[into_params(parameter_in = Query)]
#[expect(dead_code, reason = "the description reads it, and nothing else")]
pub struct SpokenParameters {
    /// `summary` answers in short.
    #[param(nullable = false)]
    answer: Option<AnswerForm>,
    /// Language of sentences, whatever `Accept-Language` says.
    #[param(nullable = false)]
    lang: Option<LanguageTag>,
    /// Units of the figures in sentences; the members of an answer keep the units in their names.
    #[param(nullable = false)]
    units: Option<UnitSystem>,
}

enumeration! {
    /// Systems of units.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum UnitSystem {
        /// Millimetres and kilonewtons.
        Metric,
        /// Inches and pounds.
        Imperial,
    }
}

impl From<LanguageTag> for Language {
    fn from(tag: LanguageTag) -> Self {
        match tag {
            LanguageTag::En => Self::English,
            LanguageTag::De => Self::German,
        }
    }
}

impl From<UnitSystem> for Units {
    fn from(system: UnitSystem) -> Self {
        match system {
            UnitSystem::Metric => Self::Metric,
            UnitSystem::Imperial => Self::Imperial,
        }
    }
}

/// What is asked of a job, in the form its answer is to have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Asked {
    /// The answer.
    Answer(Written),
    /// What people look at, and the language they read.
    Look(Look, Option<Language>),
}

impl Asked {
    /// Reads the parameters that go with a form of a kind that has so much on offer.
    ///
    /// # Errors
    /// `invalid_request` with one fault for every parameter that is unknown, repeated, has an
    /// unknown value or does not go with the form.
    pub fn from_query(form: Form, query: Option<&str>, offer: Offer) -> Result<Self, Problem> {
        let mut pairs = Pairs::of(query);
        let (asked, allowed): (_, &[&str]) = match form {
            // Whatever is written as JSON is asked for alike.
            Form::Json | Form::Schema | Form::Lines if offer.trace => {
                (Self::Answer(pairs.written()), &Written::PARAMETERS)
            }
            Form::Json | Form::Schema | Form::Lines => {
                (Self::Answer(pairs.without_trace()), &Written::WITHOUT_TRACE)
            }
            Form::Drawing => {
                let look = Look::Drawing(pairs.view());
                (Self::Look(look, pairs.language()), &["view", "hook", "lang"])
            }
            Form::Sheet if offer.parts.is_empty() => {
                (Self::Look(Look::Sheet(SheetPart::All), pairs.language()), &["lang"])
            }
            Form::Sheet => {
                let look = Look::Sheet(pairs.part(offer));
                (Self::Look(look, pairs.language()), &["part", "lang"])
            }
            Form::Table => {
                let look = Look::Table(pairs.table(offer));
                (Self::Look(look, pairs.language()), &["table", "lang"])
            }
        };
        pairs.finish(allowed, Some(offer)).map(|()| asked)
    }

    /// The options of an answer for a caller who speaks `usual` where the query names no language.
    #[must_use]
    pub fn options(&self, usual: Language) -> Options {
        match self {
            Self::Answer(written) => written.options(usual),
            Self::Look(_, language) => {
                let language = language.unwrap_or(usual);
                let reader = Reader { language, ..Reader::default() };
                Options { reader, ..Options::default() }
            }
        }
    }
}

/// Every parameter that goes with one form of an answer only, and that form; `trace` with those alone
/// that have it on offer.
const OF_FORMS: [(&str, Form, &str); 7] = [
    ("answer", Form::Json, "JSON"),
    ("trace", Form::Json, "JSON"),
    ("units", Form::Json, "JSON"),
    ("view", Form::Drawing, "a drawing (Accept: image/svg+xml)"),
    ("hook", Form::Drawing, "view=section of a drawing (Accept: image/svg+xml)"),
    ("part", Form::Sheet, "a sheet (Accept: text/html)"),
    ("table", Form::Table, "a table (Accept: text/csv)"),
];

/// Most parameters of one query that are refused by their names.
const MOST_NAMES: usize = 20;

struct Pairs {
    pairs: Vec<(String, String)>,
    faults: Vec<Fault>,
}

impl Pairs {
    fn of(query: Option<&str>) -> Self {
        let pairs = form_urlencoded::parse(query.unwrap_or_default().as_bytes()).into_owned();
        Self { pairs: pairs.collect(), faults: Vec::new() }
    }

    fn refuse(&mut self, name: &str, code: FaultCode, detail: impl Into<String>) {
        self.faults.push(Fault::of_parameter(name, code, detail));
    }

    /// The value of a parameter, given at most once.
    fn value(&mut self, name: &str) -> Option<String> {
        let mut values = self.pairs.iter().filter(|pair| pair.0 == name).map(|pair| pair.1.clone());
        let (first, second) = (values.next(), values.next());
        drop(values);
        if second.is_some() {
            let detail = format!("The query gives \"{name}\" more than once.");
            self.refuse(name, FaultCode::Contradiction, detail);
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
            self.refuse(name, FaultCode::UnknownValue, detail);
        }
        found
    }

    fn trace(&mut self) -> TraceLevel {
        let levels = [("none", TraceLevel::None), ("full", TraceLevel::Full)];
        self.choice("trace", &levels).unwrap_or_default()
    }

    fn answer(&mut self) -> AnswerForm {
        let forms = [("full", AnswerForm::Full), ("summary", AnswerForm::Summary)];
        self.choice("answer", &forms).unwrap_or_default()
    }

    fn written(&mut self) -> Written {
        let answer = self.answer();
        let trace = self.trace();
        if answer == AnswerForm::Summary && trace == TraceLevel::Full {
            self.refuse(
                "trace",
                FaultCode::Contradiction,
                "A summary has no trace: leave out one of \"answer\" and \"trace\".",
            );
        }
        Written { answer, trace, spoken: self.spoken() }
    }

    fn without_trace(&mut self) -> Written {
        Written { answer: self.answer(), trace: TraceLevel::None, spoken: self.spoken() }
    }

    fn spoken(&mut self) -> Spoken {
        let systems = [("metric", UnitSystem::Metric), ("imperial", UnitSystem::Imperial)];
        Spoken { language: self.language(), units: self.choice("units", &systems).map(Into::into) }
    }

    fn language(&mut self) -> Option<Language> {
        self.choice("lang", &[("en", LanguageTag::En), ("de", LanguageTag::De)]).map(Into::into)
    }

    fn first_line(&mut self) -> u64 {
        let Some(value) = self.value("first_line") else { return 1 };
        let line = value.parse().ok().filter(|line| (1..=LAST_LINE).contains(line));
        line.unwrap_or_else(|| {
            let detail = format!(
                "The query parameter \"first_line\" is not a whole number from 1 to {LAST_LINE}."
            );
            self.refuse("first_line", FaultCode::OutOfRange, detail);
            1
        })
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
                "hook",
                FaultCode::Contradiction,
                "The query parameter \"hook\" goes with view=section only.",
            );
        }
        if view == Some(ViewName::Wind) {
            return View::Wind;
        }
        View::Slope
    }

    fn part(&mut self, offer: Offer) -> SheetPart {
        let parts: Vec<_> = offer.parts.iter().map(|part| (part.name(), *part)).collect();
        self.choice("part", &parts).unwrap_or_default()
    }

    fn table(&mut self, offer: Offer) -> TableName {
        let tables: Vec<_> = offer.tables.iter().map(|table| (table.name(), *table)).collect();
        self.choice("table", &tables).unwrap_or(TableName::SettingOut)
    }

    /// Refuses whatever is not allowed; of what is on offer elsewhere it can say what it goes with.
    fn finish(mut self, allowed: &[&str], offer: Option<Offer>) -> Result<(), Problem> {
        let known = if allowed.is_empty() { "none".to_owned() } else { allowed.join(", ") };
        let names: BTreeSet<String> = self.pairs.iter().map(|pair| pair.0.clone()).collect();
        // One query can have more names than are worth an answer of that length.
        for name in names.iter().filter(|name| !allowed.contains(&name.as_str())).take(MOST_NAMES) {
            let on_offer = |known: &str, form| {
                offer.is_some_and(|offer| {
                    let has = match known {
                        "trace" => offer.trace,
                        "part" => !offer.parts.is_empty(),
                        _ => true,
                    };
                    has && offer.has(form)
                })
            };
            let elsewhere =
                OF_FORMS.iter().find(|(known, form, _)| *known == name && on_offer(known, *form));
            match elsewhere {
                Some((_, _, form)) => self.refuse(
                    name,
                    FaultCode::Contradiction,
                    format!("The query parameter \"{name}\" goes with {form} only."),
                ),
                None => self.refuse(
                    name,
                    FaultCode::UnknownField,
                    format!("The query parameter \"{name}\" is unknown; known here: {known}."),
                ),
            }
        }
        if self.faults.is_empty() { Ok(()) } else { Err(Problem::faults(self.faults)) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_known_parameter_passes() {
        let read = |query| {
            let written = of_batch(query).ok()?.0;
            let options = written.options(Language::English);
            Some((options.trace, options.reader.language, options.reader.units))
        };
        let usual = Some((false, Language::English, Units::Metric));
        for query in [None, Some(""), Some("trace=none"), Some("units=metric"), Some("lang=en")] {
            assert_eq!(read(query), usual, "{query:?}");
        }
        let all = Some("units=imperial&trace=full&lang=de");
        assert_eq!(read(all), Some((true, Language::German, Units::Imperial)));
        for wrong in
            ["trace", "trace=Full", "Trace=full", "x=1", "trace=full&trace=none", "units=si"]
        {
            assert_eq!(read(Some(wrong)), None, "{wrong}");
        }
        let summary =
            |query| Some(of_batch(Some(query)).ok()?.0.options(Language::English).summary);
        let told = ["answer=summary", "answer=full", "answer=summary&trace=none"].map(summary);
        assert_eq!(told, [Some(true), Some(false), Some(true)]);
        for wrong in ["answer=short", "answer=summary&trace=full"] {
            assert_eq!(summary(wrong), None, "{wrong}");
        }
    }

    /// Everything any kind has.
    const ALL: Offer = Offer {
        trace: true,
        sheet: true,
        parts: &SheetPart::EVERY,
        drawing: true,
        tables: &TableName::ALL,
    };

    #[test]
    fn a_sheet_has_the_parts_it_has() {
        let sheet = |query: &str, offer| Asked::from_query(Form::Sheet, Some(query), offer).ok();
        let asked = |part| Some(Asked::Look(Look::Sheet(part), None));
        assert_eq!(sheet("", ALL), asked(SheetPart::All));
        for part in SheetPart::EVERY {
            let query = format!("part={}", part.name());
            assert_eq!(sheet(&query, ALL), asked(part));
            assert!(Asked::from_query(Form::Json, Some(&query), ALL).is_err());
        }
        let built = Offer { parts: &SheetPart::WITHOUT_ORDER, ..ALL };
        assert_eq!(sheet("part=crew", built), asked(SheetPart::Crew));
        assert_eq!(sheet("part=order", built), None);
        let whole = Offer { parts: &[], ..ALL };
        assert_eq!((sheet("", whole), sheet("part=all", whole)), (asked(SheetPart::All), None));
    }

    #[test]
    fn a_table_is_one_that_is_on_offer() {
        let table = |query: &str, offer| Asked::from_query(Form::Table, Some(query), offer).ok();
        let listed = |table| Some(Asked::Look(Look::Table(table), None));
        assert_eq!(table("", ALL), listed(TableName::SettingOut));
        for name in TableName::ALL {
            let query = format!("table={}", name.name());
            assert_eq!(table(&query, ALL), listed(name));
        }
        let built = Offer { tables: &TableName::WITHOUT_ORDER, ..ALL };
        assert_eq!(table("table=utilisations", built), listed(TableName::Utilisations));
        assert_eq!(table("table=order", built), None);
        for wrong in ["table=hooks", "table=order&view=slope", "table=order&units=metric"] {
            assert_eq!(table(wrong, ALL), None, "{wrong}");
        }
        assert!(Asked::from_query(Form::Json, Some("table=order"), ALL).is_err());
    }

    #[test]
    fn a_parameter_goes_with_its_form() {
        let drawing = |query| Asked::from_query(Form::Drawing, Some(query), ALL).ok();
        let drawn = |view, language| Some(Asked::Look(Look::Drawing(view), language));
        assert_eq!(drawing(""), drawn(View::Slope, None));
        assert_eq!(
            drawing("view=section&hook=A%201-2&lang=de"),
            drawn(View::Section(Some("A 1-2".to_owned())), Some(Language::German))
        );
        for wrong in ["hook=A1-1", "view=slope&hook=A1-1", "trace=full", "lang=fr", "view=x"] {
            assert_eq!(drawing(wrong), None, "{wrong}");
        }
        for (form, wrong) in
            [(Form::Json, "view=slope"), (Form::Sheet, "view=slope"), (Form::Sheet, "units=metric")]
        {
            assert!(Asked::from_query(form, Some(wrong), ALL).is_err(), "{wrong}");
        }
        let nothing = Offer { trace: false, sheet: false, parts: &[], drawing: false, tables: &[] };
        let json = |query| Asked::from_query(Form::Json, Some(query), nothing);
        assert!(json("answer=summary").is_ok());
        assert!(json("trace=full").is_err(), "it is always there");
    }
}
