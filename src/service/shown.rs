//! A job as people look at it: drawings and the printable sheet, from the same core and the same
//! answer as the JSON.

use serde::Serialize;

use crate::drawing::{CannotDraw, Caption, Figure, plan, section};
use crate::language::{Language, Medium, Reader};
use crate::placement::laid::Layout;
use crate::placement::{Job, Objective};
use crate::wire::built::Built;
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::layout::{LayoutAnswer, LayoutRequest};
use crate::wire::provenance::Engine;
use crate::wire::recheck::{RecheckAnswer, RecheckRequest};
use crate::wire::remarks::Verdict;
use crate::wire::scopes::Verdicts;
use crate::wire::sheets::SheetPart;
use crate::wire::survey::{SurveyAnswer, SurveyRequest};
use crate::wire::tables::TableName;

use super::answer::{Worst, worst_of};
use super::layout::{Told, laid_out};
use super::recheck::rechecked;
use super::request::{Options, Request};
use super::sheet::{self, Mended, Sheet};
use super::survey::surveyed;
use super::trace;
use super::wording::{element, not_assessed, verdict};

/// What is drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum View {
    /// The slope with everything on it.
    Slope,
    /// The section through a hook; through the one used most when none is named.
    Section(Option<String>),
    /// The wind zones of all four directions.
    Wind,
}

/// How people look at a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Look {
    /// On a sheet to print, or one part of it.
    Sheet(SheetPart),
    /// In a drawing.
    Drawing(View),
    /// In a table.
    Table(TableName),
}

/// A job as people look at it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// The file: SVG, HTML or comma-separated values.
    pub text: String,
    /// The verdict it shows, where its kind has one.
    pub verdict: Option<Verdict>,
    /// Name of a file to keep; what is looked at and left has none.
    pub file_name: Option<String>,
}

impl Shown {
    /// A page or drawing, which a browser shows.
    #[must_use]
    pub const fn page(text: String, verdict: Option<Verdict>) -> Self {
        Self { text, verdict, file_name: None }
    }
}

/// A request whose answer can be drawn.
pub trait Drawn: Serialize {
    /// The parts its sheet has.
    const PARTS: &'static [SheetPart];

    /// The job, its layout and its answer.
    ///
    /// # Errors
    /// Every fault of the request that its schema cannot see.
    fn seen(&self, options: &Options) -> Result<Seen, Vec<Fault>>;

    /// The same with what no drawing shows.
    ///
    /// # Errors
    /// As [`Drawn::seen`].
    fn seen_in_full(&self, options: &Options) -> Result<Seen, Vec<Fault>> {
        self.seen(options)
    }

    /// A drawing as an SVG file.
    ///
    /// # Errors
    /// As [`Drawn::seen`], and a hook that is not there.
    fn drawing(
        &self,
        input_digest: &str,
        view: &View,
        options: &Options,
    ) -> Result<Shown, Vec<Fault>> {
        let language = options.reader.language;
        let seen = self.seen(options)?;
        let caption = seen.caption(input_digest, language);
        let figure = drawn(&seen.job, &seen.layout, view, &caption, language)?;
        let text = figure.into_file();
        Ok(Shown::page(text, seen.verdict()))
    }

    /// The printable sheet as an HTML file.
    ///
    /// # Errors
    /// As [`Drawn::seen`].
    fn sheet(
        &self,
        input_digest: &str,
        part: SheetPart,
        options: &Options,
    ) -> Result<Shown, Vec<Fault>> {
        let language = options.reader.language;
        let reader = Reader { medium: Medium::Paper, ..options.reader };
        let seen = self.seen_in_full(&Options { reader, ..options.clone() })?;
        let sheet = Sheet {
            job: &seen.job,
            layout: &seen.layout,
            content: match &seen.answer {
                Answer::Layout(answer) => answer.as_ref().into(),
                Answer::Recheck(answer) => answer.as_ref().into(),
                Answer::Survey(answer) => answer.as_ref().into(),
            },
            mended: seen.mended.as_ref().map(|layout| Mended::of(&seen.job, layout)),
            built: seen.built.as_ref(),
            slope: None,
            part,
            worst: &seen.worst(),
            caption: &seen.caption(input_digest, language),
            trace: &trace::lines(&seen.job, &seen.layout, language),
            request: &readable(self),
        };
        Ok(Shown::page(sheet::write(&sheet, language), seen.verdict()))
    }
}

/// What drawings and sheets are made from.
#[derive(Debug)]
pub struct Seen {
    job: Job,
    layout: Layout,
    /// With what would make a built job hold.
    mended: Option<Layout>,
    reference: Option<String>,
    answer: Answer,
    /// What stands of a built job, with what was found.
    built: Option<Built>,
}

#[derive(Debug)]
enum Answer {
    Layout(Box<LayoutAnswer>),
    Recheck(Box<RecheckAnswer>),
    Survey(Box<SurveyAnswer>),
}

impl Drawn for LayoutRequest {
    const PARTS: &'static [SheetPart] = &SheetPart::EVERY;

    fn seen(&self, options: &Options) -> Result<Seen, Vec<Fault>> {
        seen(self, options, Told::WithoutRemedies)
    }

    fn seen_in_full(&self, options: &Options) -> Result<Seen, Vec<Fault>> {
        seen(self, options, Told::WithRemedies)
    }
}

fn seen(request: &LayoutRequest, options: &Options, told: Told) -> Result<Seen, Vec<Fault>> {
    let (job, layout, answer) = laid_out(request, options, told)?;
    let answer = Answer::Layout(Box::new(answer));
    Ok(Seen {
        job,
        layout,
        mended: None,
        reference: request.reference.clone(),
        answer,
        built: None,
    })
}

impl Drawn for RecheckRequest {
    const PARTS: &'static [SheetPart] = &SheetPart::WITHOUT_ORDER;

    fn seen(&self, options: &Options) -> Result<Seen, Vec<Fault>> {
        let (job, layout, answer, mended) = rechecked(self, options)?;
        let answer = Answer::Recheck(Box::new(answer));
        let built = Some(self.built.clone());
        Ok(Seen { job, layout, mended, reference: self.reference.clone(), answer, built })
    }
}

impl Drawn for SurveyRequest {
    const PARTS: &'static [SheetPart] = &SheetPart::WITHOUT_ORDER;

    fn seen(&self, options: &Options) -> Result<Seen, Vec<Fault>> {
        let (job, layout, answer, mended) = surveyed(self, options)?;
        let built = answer.record.built.clone();
        let answer = Answer::Survey(Box::new(answer));
        Ok(Seen { job, layout, mended, reference: self.reference.clone(), answer, built })
    }
}

impl Seen {
    fn verdict(&self) -> Option<Verdict> {
        match &self.answer {
            Answer::Layout(answer) => LayoutRequest::verdict(answer),
            Answer::Recheck(answer) => RecheckRequest::verdict(answer),
            Answer::Survey(answer) => SurveyRequest::verdict(answer),
        }
    }

    fn worst(&self) -> Worst {
        worst_of(&self.job, &self.layout)
    }

    fn caption(&self, input_digest: &str, language: Language) -> Caption {
        let words = language.words();
        let worst = self.worst();
        let checked = |answer: &'_ RecheckAnswer| {
            let hooks = answer.hooks.len();
            let judged = (answer.verdict, &answer.verdicts);
            (answer.engine.clone(), result(judged, hooks, &worst, language))
        };
        let (engine, result) = match &self.answer {
            Answer::Layout(answer) => {
                let hooks = answer.hooks.len();
                let judged = (answer.verdict, &answer.verdicts);
                let text = result(judged, hooks, &worst, language);
                let proven = answer.optimality.proven;
                let text = if proven { format!("{text}, {}", words.fewest_proven) } else { text };
                (answer.engine.clone(), in_pattern(text, &self.job, language))
            }
            Answer::Recheck(answer) => checked(answer),
            Answer::Survey(answer) => checked(&answer.recheck),
        };
        caption(self.reference.as_deref(), result, &engine, input_digest, language)
    }
}

/// A request as indented JSON.
pub(super) fn readable(request: &(impl Serialize + ?Sized)) -> String {
    // A request was JSON before it was read, so this does not fail.
    serde_json::to_string_pretty(request).unwrap_or_default()
}

/// What a job comes to, with the pattern its hooks were asked to stand in.
pub(super) fn in_pattern(result: String, job: &Job, language: Language) -> String {
    match job.wishes.objective {
        Objective::SameRafters => format!("{result}, {}", language.words().on_same_rafters),
        Objective::FewestHooks | Objective::EvenSpacing | Objective::Staggered => result,
    }
}

/// One view of a layout.
pub(super) fn drawn(
    job: &Job,
    layout: &Layout,
    view: &View,
    caption: &Caption,
    language: Language,
) -> Result<Figure, Vec<Fault>> {
    match view {
        View::Slope => Ok(plan::draw(job, layout, caption, language)),
        View::Wind => Ok(plan::wind(job, layout, caption, language)),
        View::Section(hook) => section::draw(job, layout, hook.as_deref(), caption, language)
            .map_err(|cannot| vec![no_hook(cannot)]),
    }
}

fn no_hook(cannot: CannotDraw) -> Fault {
    let detail = match cannot {
        CannotDraw::NoSuchHook => "No hook of this layout has the id given as \"hook\".",
        CannotDraw::NoHook => "The layout has no hook to show a section of.",
    };
    Fault::new("", FaultCode::UnknownValue, detail)
}

/// What a job comes to in one line: the verdict, what is used most, how many hooks there are.
pub(super) fn result(
    (judged, by_scope): (Verdict, &Verdicts),
    hooks: usize,
    worst: &Worst,
    language: Language,
) -> String {
    let words = language.words();
    let without = not_assessed(by_scope, language)
        .map_or_else(String::new, |without| format!(" · {}: {without}", words.not_assessed));
    format!(
        "{}{without} · {} {} ({}) · {}: {hooks}",
        verdict(judged, words),
        words.used_most,
        words.used(worst.used, 1),
        element(&worst.element, words),
        words.hooks,
    )
}

/// Title, result and small print.
pub(super) fn caption(
    reference: Option<&str>,
    result: String,
    engine: &Engine,
    input_digest: &str,
    language: Language,
) -> Caption {
    let words = language.words();
    let origin = format!(
        "hookspan {} · {} · {} {}",
        engine.version,
        engine.rules.id,
        words.request_digest,
        input_digest.get(..16).unwrap_or(input_digest),
    );
    Caption {
        title: reference.map(str::to_owned),
        result,
        footer: vec![words.planning_aid.to_owned(), origin],
    }
}
