//! The printable sheet: what the crew sets out by, then what an engineer checks.
//!
//! One HTML file without script and without anything to fetch. Texts are in the reader's language;
//! sources, which an answer cites in English only, are marked as English. Templates are checked by the
//! compiler, and every value in them is escaped.

mod as_built;
mod building;
mod capacity;
mod chain;
mod crew;
mod engineer;
mod inputs;
mod mending;
mod order;
mod paged;
mod room;
mod savings;
mod stop;
mod supports;

use std::collections::BTreeSet;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::checks::Check;
use crate::drawing::{Caption, Figure, plan, plots, section};
use crate::language::findings::label;
use crate::language::{Language, Words};
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::wire::actions::Actions;
use crate::wire::building::{BuildingAnswer, SlopeAnswer};
use crate::wire::built::Built;
use crate::wire::capacity::{CapacityAnswer, EventAnswer};
use crate::wire::declarations::TakenOver;
use crate::wire::evidence::EvidenceAnswer;
use crate::wire::layout::{
    HookAnswer, JobUtilisation, LayoutAnswer, ModuleAnswer, RafterAnswer, RailAnswer,
};
use crate::wire::parts::PartsAnswer;
use crate::wire::phases::PhasesAnswer;
use crate::wire::provenance::{Assumption, TraceLine};
use crate::wire::recheck::{Departure, RecheckAnswer, Suggestion};
use crate::wire::remarks::{Cause, Caution, MissingInput, Severity, Verdict};
use crate::wire::remedies::Remedies;
use crate::wire::room::RoomToMove;
use crate::wire::savings::Savings;
use crate::wire::scopes::Verdicts;
use crate::wire::sheets::SheetPart;
use crate::wire::survey::{Levelling, RailToMeasure, SurveyAnswer};

pub use building::{BuildingSheet, write as write_building};

use super::answer::{Worst, as_built};
use super::wording::{by_scope, declared_by, element, not_assessed, verdict};

const STYLE: &str = include_str!("sheet.css");

/// What every kind of answer tells a sheet.
pub struct Content<'a> {
    verdict: Verdict,
    utilisation: &'a JobUtilisation,
    actions: &'a Actions,
    rails: &'a [RailAnswer],
    hooks: &'a [HookAnswer],
    rafters: &'a [RafterAnswer],
    modules: &'a [ModuleAnswer],
    headline: &'a str,
    verdicts: &'a Verdicts,
    declarations: &'a [TakenOver],
    causes: &'a [Cause],
    cautions: &'a [Caution],
    assumptions: &'a [Assumption],
    evidence: &'a [EvidenceAnswer],
    parts: Option<&'a PartsAnswer>,
    phases: Option<&'a PhasesAnswer>,
    levellings: Option<&'a [Levelling]>,
    to_measure: &'a [RailToMeasure],
    missing: &'a [MissingInput],
    suggestion: Option<&'a Suggestion>,
    departures: &'a [Departure],
    remedies: Option<&'a Remedies>,
    savings: Option<&'a Savings>,
    room: Option<&'a RoomToMove>,
    capacity: Option<&'a CapacityAnswer>,
    event: Option<&'a EventAnswer>,
}

/// What layouts and rechecks both answer.
macro_rules! common {
    ($answer:ident) => {
        Content {
            verdict: $answer.verdict,
            utilisation: &$answer.utilisation,
            actions: &$answer.actions,
            rails: &$answer.rails,
            hooks: &$answer.hooks,
            rafters: &$answer.rafters,
            modules: &$answer.modules,
            headline: &$answer.headline,
            verdicts: &$answer.verdicts,
            declarations: &$answer.declarations,
            causes: &$answer.causes,
            cautions: &$answer.cautions,
            assumptions: &$answer.assumptions,
            evidence: &$answer.evidence,
            parts: None,
            phases: None,
            levellings: None,
            to_measure: &[],
            missing: &$answer.missing,
            suggestion: None,
            departures: &[],
            remedies: None,
            savings: None,
            room: None,
            capacity: $answer.capacity.as_ref(),
            event: None,
        }
    };
}

impl<'a> From<&'a LayoutAnswer> for Content<'a> {
    fn from(answer: &'a LayoutAnswer) -> Self {
        let remedies = answer.remedies.as_ref();
        let phases = answer.phases.as_ref();
        let (savings, room) = (answer.savings.as_ref(), answer.room_to_move.as_ref());
        Self { parts: Some(&answer.parts), phases, remedies, savings, room, ..common!(answer) }
    }
}

impl<'a> Content<'a> {
    /// What the answer to a building says of one of its slopes.
    #[must_use]
    pub fn of_slope(slope: &'a SlopeAnswer, building: &'a BuildingAnswer) -> Self {
        Self {
            verdict: slope.verdict,
            utilisation: &slope.utilisation,
            actions: &slope.actions,
            rails: &slope.rails,
            hooks: &slope.hooks,
            rafters: &slope.rafters,
            modules: &slope.modules,
            headline: &slope.headline,
            verdicts: &slope.verdicts,
            declarations: &slope.declarations,
            causes: &slope.causes,
            cautions: &[],
            assumptions: &slope.assumptions,
            evidence: &slope.evidence,
            parts: Some(&building.parts),
            phases: None,
            levellings: None,
            to_measure: &[],
            missing: &slope.missing,
            suggestion: None,
            departures: &[],
            remedies: slope.remedies.as_ref(),
            savings: None,
            room: None,
            capacity: slope.capacity.as_ref(),
            event: None,
        }
    }
}

impl<'a> From<&'a RecheckAnswer> for Content<'a> {
    fn from(answer: &'a RecheckAnswer) -> Self {
        let suggestion = answer.suggestion.as_ref();
        let (event, departures) = (answer.event.as_ref(), &answer.departures[..]);
        Self { suggestion, departures, event, ..common!(answer) }
    }
}

impl<'a> From<&'a SurveyAnswer> for Content<'a> {
    fn from(answer: &'a SurveyAnswer) -> Self {
        let (levellings, to_measure) = (Some(&answer.surveyed[..]), &answer.to_measure[..]);
        Self { levellings, to_measure, ..Self::from(&answer.recheck) }
    }
}

/// A built job with what would make it hold, as it is set out.
pub struct Mended<'a> {
    layout: &'a Layout,
    hooks: Vec<HookAnswer>,
}

impl<'a> Mended<'a> {
    /// From its layout.
    #[must_use]
    pub fn of(job: &Job, layout: &'a Layout) -> Self {
        Self { layout, hooks: as_built(job, layout) }
    }

    /// The hooks that stand nowhere yet.
    fn added(&self, standing: &[HookAnswer]) -> Vec<&HookAnswer> {
        let is_new = |hook: &&HookAnswer| standing.iter().all(|other| other.id != hook.id);
        self.hooks.iter().filter(is_new).collect()
    }
}

/// A sheet's job: the core, and what only the request knows.
pub struct Sheet<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its layout.
    pub layout: &'a Layout,
    /// The answer.
    pub content: Content<'a>,
    /// A built job with what would make it hold.
    pub mended: Option<Mended<'a>>,
    /// What stands of a built job, with what was found.
    pub built: Option<&'a Built>,
    /// Who it is for.
    pub part: SheetPart,
    /// Which slope of a building it is.
    pub slope: Option<&'a str>,
    /// What is used most.
    pub worst: &'a Worst,
    /// Title, result and small print.
    pub caption: &'a Caption,
    /// Quantities with clauses.
    pub trace: &'a [TraceLine],
    /// The request as JSON.
    pub request: &'a str,
}

/// Writes the sheet.
#[must_use]
pub fn write(sheet: &Sheet<'_>, language: Language) -> String {
    let words = language.words();
    let title = sheet.caption.title.as_deref().unwrap_or(words.sheet);
    let content = &sheet.content;
    let order = content.parts.filter(|_| sheet.part.shows(SheetPart::Order));
    let order = order.map(|parts| order::order((parts, content.phases), words.order, language));
    let main = html! {
        @if sheet.part.shows(SheetPart::Crew) {
            section aria-labelledby="crew" {
                h2 #crew { (words.for_the_crew) }
                (stop::stop(content, "stop", language))
                (cautions(content, language))
                (causes(content, language))
                (declarations(content, language))
                (mending::surveyed(content, words))
                (setting_out(sheet, &mending::suggested(sheet, words), language))
                @if let Some(order) = &order { (order) }
                (section_figure(sheet, language))
            }
        } @else {
            (stop::stop(content, "stop", language))
            @if let Some(order) = &order { (order) (savings::savings(content, words)) } @else {
                (causes(content, language))
                (declarations(content, language))
            }
        }
        @if sheet.part.shows(SheetPart::Engineer) {
            section .engineer aria-labelledby="engineer" {
                (checks(sheet, &html! { h2 #engineer { (words.for_the_engineer) } }, language))
                (engineer::evidence(content, words))
                (engineer::assumptions(content, language))
                (inputs::inputs(sheet.request, language))
            }
        }
    };
    let most = used_most(sheet, language);
    let of = (title, sheet.part);
    let heading = heading(content, of, (&most, content.counts()), language);
    page(title, content, (&heading, &main), sheet.caption, language)
}

/// A page with its head, its main part and its small print.
fn page(
    title: &str,
    content: &Content<'_>,
    (heading, main): (&Markup, &Markup),
    caption: &Caption,
    language: Language,
) -> String {
    let words = language.words();
    let page = html! {
        (DOCTYPE)
        html lang=(language.tag()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) " · " (words.sheet) }
                style { (PreEscaped(STYLE)) }
                (paged::margins(title, content, caption, words))
            }
            body {
                (paged::across(content, words))
                header { (heading) }
                main { (main) }
                footer { @for line in &caption.footer { p { (line) } } }
            }
        }
    };
    page.into_string()
}

/// What the crew sets out by, below a heading: the slope page by page, its hooks one by one, its rails.
fn setting_out(sheet: &Sheet<'_>, heading: &Markup, language: Language) -> Markup {
    let words = language.words();
    let with = sheet.mended.as_ref().map_or(sheet.layout, |mended| mended.layout);
    html! {
        div .across {
            (heading)
            @for page in plan::pages(sheet.job, [sheet.layout, with], &sheet.bare(words), language) {
                (figure(&page, "page"))
            }
            (figure(&plan::legend(sheet.job, [sheet.layout, with], language), "legend"))
            (crew::setting_out(sheet, words))
            (as_built::order_of_work(words))
        }
        (room::room(sheet, language))
        (as_built::form(sheet, words))
        (crew::rails(sheet, words))
    }
}

/// What an engineer checks, below a heading: utilisations with how they were found, members, what acts.
fn checks(sheet: &Sheet<'_>, heading: &Markup, language: Language) -> Markup {
    let words = language.words();
    let wind = plan::wind(sheet.job, sheet.layout, &sheet.bare(words), language);
    html! {
        (heading)
        (engineer::utilisations(sheet, words))
        (chain::chain(sheet, words))
        (supports::supports(sheet, words))
        (capacity::capacity(&sheet.content, language))
        (savings::savings(&sheet.content, words))
        (plot_figures(sheet, language))
        (engineer::members(&sheet.content, words))
        (engineer::actions(sheet, language))
        (figure(&wind, "wind"))
    }
}

impl Sheet<'_> {
    /// On the sheet a drawing needs no heading of its own but the slope of a building.
    fn bare(&self, words: &Words) -> Caption {
        let title = self.slope.map(|slope| format!("{} {slope}", words.slope));
        Caption { title, ..Caption::default() }
    }
}

/// The head of a table: the names of its columns. A table too wide for the screen is scrolled by
/// itself, so every table can be reached with the keyboard.
fn head(columns: &[&str]) -> Markup {
    html! {
        thead {
            tr { @for column in columns { th scope="col" { (column) } } }
        }
    }
}

/// The head of a sheet: what it comes to, what is used most, and how many hooks, modules and rails there are.
fn heading(
    content: &Content<'_>,
    (title, part): (&str, SheetPart),
    (used_most, counts): (&Markup, [usize; 3]),
    language: Language,
) -> Markup {
    let words = language.words();
    let counted = [words.hooks, words.modules, words.rails].into_iter().zip(counts);
    html! {
        h1 { (title) }
        p .kind {
            (words.sheet) " · " (content.kind(words))
            @match part {
                SheetPart::All => {}
                SheetPart::Crew => { " · " (words.for_the_crew) }
                SheetPart::Order => { " · " (words.order) }
                SheetPart::Engineer => { " · " (words.for_the_engineer) }
            }
        }
        dl .lines {
            @for line in [words.customer, words.site, words.drawn_up_by, words.date] {
                div { dt { (line) } dd {} }
            }
        }
        @if !stop::is_needed(content) {
            p .headline { (sign(content.verdict)) " " (content.headline) }
        }
        dl .key {
            div {
                dt { (words.verdict) }
                dd { (sign(content.verdict)) " " (verdict(content.verdict, words)) }
            }
            @if let Some(without) = not_assessed(content.verdicts, language) {
                div { dt { (words.not_assessed) } dd { "– " (without) } }
            }
            div {
                dt { (words.by_scope) }
                dd .scopes {
                    @for (scope, on) in by_scope(content.verdicts, language) {
                        span { (scope) " " (on.map_or("–", sign)) }
                    }
                }
            }
            div { dt { (words.used_most) } dd { (used_most) } }
            @for (noun, count) in counted { div { dt { (noun) } dd { (count) } } }
        }
    }
}

/// What is used most, of a building with its slope, and by how much.
fn used_most(sheet: &Sheet<'_>, language: Language) -> Markup {
    let (words, worst) = (language.words(), sheet.worst);
    html! {
        (words.used(worst.used, 1)) " · "
        @if let Some(slope) = sheet.slope { (words.slope) " " (slope) " · " }
        (element(&worst.element, words)) ", " (label(worst.check, language)) ", "
        code { (sheet.content.utilisation.combination) }
    }
}

impl Content<'_> {
    /// What kind of job it is, in words.
    const fn kind(&self, words: &Words) -> &'static str {
        match (self.parts, self.levellings, self.event) {
            (Some(_), ..) => words.kind_layout,
            (None, Some(_), _) => words.kind_survey,
            (None, None, Some(_)) => words.kind_event,
            (None, None, None) => words.kind_recheck,
        }
    }

    /// Hooks, modules and rails.
    const fn counts(&self) -> [usize; 3] {
        [self.hooks.len(), self.modules.len(), self.rails.len()]
    }
}

/// A shape for each verdict, so that it is told without colour.
const fn sign(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Holds => "✓",
        Verdict::HoldsWithWarnings => "✓ !",
        Verdict::Fails => "✗",
        Verdict::Incomplete => "?",
    }
}

fn cautions(content: &Content<'_>, language: Language) -> Markup {
    let words = language.words();
    html! {
        section .cautions aria-labelledby="cautions" {
            h3 #cautions { (words.cautions) }
            ul {
                @for caution in content.cautions { li { (caution.text) } }
            }
        }
    }
}

/// What else was found, one line a cause.
fn causes(content: &Content<'_>, language: Language) -> Markup {
    let words = language.words();
    let others: Vec<&Cause> =
        content.causes.iter().filter(|cause| !stop::tells(content, cause)).collect();
    html! {
        h3 { (words.warnings) }
        @if others.is_empty() {
            p { (words.no_warnings) }
        } @else {
            (listed(others.into_iter(), words))
        }
    }
}

/// Causes, one line each.
fn listed<'a>(causes: impl Iterator<Item = &'a Cause>, words: &Words) -> Markup {
    html! {
        ul .warnings {
            @for cause in causes {
                li {
                    strong { (severity(cause.severity, words)) } " " (cause.line) " "
                    code { (cause.code) }
                }
            }
        }
    }
}

fn severity(severity: Severity, words: &Words) -> String {
    match severity {
        Severity::Failure => format!("✗ {}", words.failure),
        Severity::Incomplete => format!("? {}", words.unverified),
        Severity::Warning => format!("! {}", words.warning),
        Severity::Notice => format!("· {}", words.notice),
    }
}

/// Who answers for what was not verified.
fn declarations(content: &Content<'_>, language: Language) -> Markup {
    let words = language.words();
    html! {
        @if !content.declarations.is_empty() {
            h3 { (words.declared) }
            ul .warnings {
                @for taken in content.declarations {
                    li {
                        strong { (taken.who) } ", " (declared_by(taken.by, language)) ", "
                        (taken.document) ". " (words.instead_of) ": "
                        (taken.instead_of.join(" ")) " " code { (taken.check) }
                    }
                }
            }
        }
    }
}

fn figure(figure: &Figure, class: &str) -> Markup {
    /// On a screen a drawing is made no smaller than this: what does not fit is scrolled.
    const LEAST: f64 = 0.7;
    let least = format!("--least: {:.0}px", figure.size[0] * LEAST);
    html! { figure class=(class) style=(least) tabindex="0" { (figure.svg) } }
}

fn section_figure(sheet: &Sheet<'_>, language: Language) -> Markup {
    let caption = sheet.bare(language.words());
    let drawn = section::on_page(sheet.job, sheet.layout, &caption, language);
    // A layout without hooks has no section.
    html! { @if let Ok(drawn) = &drawn { (figure(drawn, "section")) } }
}

/// The rails of the hook that is used most, of the largest moment and of the largest deflection: what the
/// others come to stands in the tables.
fn plot_figures(sheet: &Sheet<'_>, language: Language) -> Markup {
    let words = language.words();
    let layout = sheet.layout;
    let of_hook = layout.most_used_hook().map(|[rail, ..]| rail);
    let [bent, moved] =
        [Check::RailBending, Check::RailDeflection].map(|check| layout.rail_used_most_by(check));
    let shown: BTreeSet<usize> = [of_hook, bent, moved].into_iter().flatten().collect();
    html! {
        h3 { (words.plots) }
        p .note { (words.plots_note) }
        @for rail in shown {
            (figure(&plots::draw(sheet.job, layout, rail, language), "plot"))
        }
    }
}

/// Millimetres as the crew reads them.
fn mm(value: f64) -> String {
    format!("{:.0}", value + 0.0)
}

/// Places along a rail.
fn places(values: impl IntoIterator<Item = f64>) -> String {
    let list: Vec<String> = values.into_iter().map(mm).collect();
    if list.is_empty() { "–".to_owned() } else { list.join(", ") }
}

/// A stack of packers, thickest first.
fn stack(packers_mm: &[f64], words: &Words) -> String {
    if packers_mm.is_empty() {
        return "–".to_owned();
    }
    let each: Vec<String> = packers_mm.iter().map(|packer| words.number(*packer, 1)).collect();
    each.join(" + ")
}
