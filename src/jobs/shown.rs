//! A job as people look at it: drawings and the printable sheet, from the same core and the same
//! answer as the JSON.

use serde::Serialize;

use crate::drawing::{CannotDraw, Caption, Figure, plan, section};
use crate::model::fault::{Fault, FaultCode};
use crate::model::layout::{Engine, JobUtilisation, LayoutAnswer, LayoutRequest, Verdict};
use crate::model::recheck::RecheckRequest;
use crate::parts::take_off::take_off;
use crate::placement::Job;
use crate::placement::built;
use crate::placement::layout::{Layout, lay_out};
use crate::wording::{Language, Words};

use super::intake::{self, Taken, TakenBuilt};
use super::sheet::{self, Sheet};
use super::warnings::Warnings;
use super::{report, trace};

/// What is drawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum View {
    /// The slope with everything on it.
    Slope,
    /// The section through a hook; through the one used most when none is named.
    Section(Option<String>),
}

/// A request whose answer can be drawn.
pub trait Drawn {
    /// A drawing as an SVG file.
    ///
    /// # Errors
    /// Every fault of the request that its schema cannot see, and a hook that is not there.
    fn drawing(
        &self,
        input_digest: &str,
        view: &View,
        language: Language,
    ) -> Result<String, Vec<Fault>>;

    /// The printable sheet as an HTML file.
    ///
    /// # Errors
    /// Every fault of the request that its schema cannot see.
    fn sheet(&self, input_digest: &str, language: Language) -> Result<String, Vec<Fault>>;
}

impl Drawn for LayoutRequest {
    fn drawing(
        &self,
        input_digest: &str,
        view: &View,
        language: Language,
    ) -> Result<String, Vec<Fault>> {
        let Taken { job, order, assumptions, remarks } = intake::take(self)?;
        let mut layout = lay_out(&job);
        let take_off = take_off(&job, &layout, &order);
        take_off.cut(&mut layout);
        let ordered =
            report::Ordered { components: &self.components, order: &order, take_off: &take_off };
        let answer = report::layout(&job, &layout, &ordered, assumptions, &remarks);
        let result = result_of(&answer, language.words());
        let caption =
            caption(self.reference.as_deref(), result, &answer.engine, input_digest, language);
        figure(&job, &layout, view, &caption, language).map(Figure::into_file)
    }

    fn sheet(&self, input_digest: &str, language: Language) -> Result<String, Vec<Fault>> {
        let Taken { job, order, assumptions, remarks } = intake::take(self)?;
        let mut layout = lay_out(&job);
        let take_off = take_off(&job, &layout, &order);
        take_off.cut(&mut layout);
        let ordered =
            report::Ordered { components: &self.components, order: &order, take_off: &take_off };
        let answer = report::layout(&job, &layout, &ordered, assumptions, &remarks);
        let result = result_of(&answer, language.words());
        let caption =
            caption(self.reference.as_deref(), result, &answer.engine, input_digest, language);
        Ok(sheet::write(
            &Sheet {
                job: &job,
                layout: &layout,
                content: (&answer).into(),
                caption: &caption,
                trace: &trace::lines(&job, &layout),
                request: &readable(self),
            },
            language,
        ))
    }
}

impl Drawn for RecheckRequest {
    fn drawing(
        &self,
        input_digest: &str,
        view: &View,
        language: Language,
    ) -> Result<String, Vec<Fault>> {
        let TakenBuilt { taken: Taken { job, assumptions, remarks, .. }, built, lines } =
            intake::take_built(self)?;
        let checked = built::check(&job, &built, lines);
        let answer =
            report::recheck(&job, &built, &checked, assumptions, &remarks, &Warnings::default());
        let result =
            result(answer.verdict, answer.hooks.len(), &answer.utilisation, language.words());
        let caption =
            caption(self.reference.as_deref(), result, &answer.engine, input_digest, language);
        figure(&job, &checked.layout, view, &caption, language).map(Figure::into_file)
    }

    fn sheet(&self, input_digest: &str, language: Language) -> Result<String, Vec<Fault>> {
        let TakenBuilt { taken: Taken { job, assumptions, remarks, .. }, built, lines } =
            intake::take_built(self)?;
        let checked = built::check(&job, &built, lines);
        let answer =
            report::recheck(&job, &built, &checked, assumptions, &remarks, &Warnings::default());
        let result =
            result(answer.verdict, answer.hooks.len(), &answer.utilisation, language.words());
        let caption =
            caption(self.reference.as_deref(), result, &answer.engine, input_digest, language);
        Ok(sheet::write(
            &Sheet {
                job: &job,
                layout: &checked.layout,
                content: (&answer).into(),
                caption: &caption,
                trace: &trace::lines(&job, &checked.layout),
                request: &readable(self),
            },
            language,
        ))
    }
}

/// A request as indented JSON.
fn readable(request: &impl Serialize) -> String {
    // A request was JSON before it was read, so this does not fail.
    serde_json::to_string_pretty(request).unwrap_or_default()
}

/// One view of a layout.
fn figure(
    job: &Job,
    layout: &Layout,
    view: &View,
    caption: &Caption,
    language: Language,
) -> Result<Figure, Vec<Fault>> {
    match view {
        View::Slope => Ok(plan::draw(job, layout, caption, language)),
        View::Section(hook) => section::draw(job, layout, hook.as_deref(), caption, language)
            .map_err(|cannot| vec![no_hook(cannot)]),
    }
}

fn no_hook(cannot: CannotDraw) -> Fault {
    let detail = match cannot {
        CannotDraw::NoSuchHook => {
            "No hook of this layout has the id given by the query parameter \"hook\"."
        }
        CannotDraw::NoHook => "The layout has no hook to show a section of.",
    };
    Fault::new("", FaultCode::UnknownValue, detail)
}

/// A verdict in words.
#[must_use]
pub const fn verdict(verdict: Verdict, words: &Words) -> &'static str {
    match verdict {
        Verdict::Holds => words.holds,
        Verdict::HoldsWithWarnings => words.holds_with_warnings,
        Verdict::Fails => words.fails,
        Verdict::Incomplete => words.incomplete,
    }
}

fn result_of(answer: &LayoutAnswer, words: &Words) -> String {
    let text = result(answer.verdict, answer.hooks.len(), &answer.utilisation, words);
    if answer.optimality.proven { format!("{text}, {}", words.fewest_proven) } else { text }
}

fn result(judged: Verdict, hooks: usize, used: &JobUtilisation, words: &Words) -> String {
    format!(
        "{} · {} {} ({}) · {}: {hooks}",
        verdict(judged, words),
        words.used_most,
        percent(used.max),
        used.element,
        words.hooks,
    )
}

/// A utilisation that is rounded already, in per cent with one decimal.
#[must_use]
pub fn percent(used: f64) -> String {
    format!("{:.1} %", (used * 1000.0 - 1e-6).ceil() / 10.0 + 0.0)
}

fn caption(
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
