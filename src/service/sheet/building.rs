//! The sheet of a building: what is so on every slope, the slopes one by one, then one order and one cutting
//! plan for all of them; after that, again slope by slope, what an engineer checks.

use maud::{Markup, html};

use crate::drawing::Caption;
use crate::language::Language;
use crate::wire::building::BuildingAnswer;
use crate::wire::sheets::SheetPart;

use super::{
    Content, Sheet, causes, cautions, checks, declarations, engineer, heading, inputs, order, page,
    section_figure, setting_out, sign, stop, used_most,
};

/// The sheet of a building.
pub struct BuildingSheet<'a> {
    /// Those of its slopes: their answers have no order.
    pub slopes: &'a [Sheet<'a>],
    /// Which of them is used most.
    pub most_used: usize,
    /// Who it is for.
    pub part: SheetPart,
    /// The answer.
    pub answer: &'a BuildingAnswer,
    /// Title, result and small print.
    pub caption: &'a Caption,
    /// The request as JSON.
    pub request: &'a str,
}

/// Writes the sheet.
#[must_use]
pub fn write(sheet: &BuildingSheet<'_>, language: Language) -> String {
    let words = language.words();
    let title = sheet.caption.title.as_deref().unwrap_or(words.sheet);
    let whole = sheet.whole();
    let part = sheet.part;
    let main = html! {
        section aria-labelledby="whole" {
            h2 #whole { (if part.shows(SheetPart::Crew) { words.for_the_crew } else { words.slopes }) }
            (stop::stop(&whole, "stop", language))
            (verdicts(sheet, language))
            @if !whole.causes.is_empty() {
                h3 { (words.on_every_slope) }
                (causes(&whole, language))
            }
            @if part != SheetPart::Order {
                @for (at, slope) in sheet.slopes.iter().enumerate() { (found(slope, at, language)) }
            }
            @if part.shows(SheetPart::Crew) { (cautions(&whole, language)) }
        }
        @if part.shows(SheetPart::Crew) {
            @for (at, slope) in sheet.slopes.iter().enumerate() {
                (of_the_crew(slope, at, language))
            }
        }
        @if part.shows(SheetPart::Order) {
            section aria-labelledby="order" {
                h2 #order { (words.order_of_all_slopes) }
                (order::order((&sheet.answer.parts, None), words.order, language))
            }
        }
        @if part.shows(SheetPart::Engineer) { section .engineer aria-labelledby="engineer" {
            @for (at, slope) in sheet.slopes.iter().enumerate() {
                (of_the_engineer(slope, at, language))
            }
            (engineer::evidence(&whole, words))
            (engineer::assumptions(&whole, language))
            (inputs::inputs(sheet.request, language))
        } }
    };
    let counts = sheet.slopes.iter().map(|slope| slope.content.counts());
    let counts = counts.fold([0; 3], |sum, of| [sum[0] + of[0], sum[1] + of[1], sum[2] + of[2]]);
    let most = used_most(&sheet.slopes[sheet.most_used], language);
    let heading = heading(&whole, (title, part), (&most, counts), language);
    page(title, &whole, (&heading, &main), sheet.caption, language)
}

impl BuildingSheet<'_> {
    /// What the answer says of all slopes together, with the figures of the one that is used most.
    fn whole(&self) -> Content<'_> {
        let Self { answer, most_used, .. } = *self;
        Content {
            verdict: answer.verdict,
            headline: &answer.headline,
            verdicts: &answer.verdicts,
            utilisation: &answer.utilisation,
            causes: &answer.causes,
            missing: &answer.missing,
            cautions: &answer.cautions,
            assumptions: &answer.assumptions,
            evidence: &answer.evidence,
            declarations: &[],
            remedies: None,
            savings: None,
            ..Content::of_slope(&answer.slopes[most_used], answer)
        }
    }
}

/// What each slope comes to.
fn verdicts(sheet: &BuildingSheet<'_>, language: Language) -> Markup {
    let words = language.words();
    html! {
        h3 { (words.slopes) }
        ul .warnings {
            @for slope in &sheet.answer.slopes {
                li { strong { (slope.id) } ": " (sign(slope.verdict)) " " (slope.headline) }
            }
        }
    }
}

/// What was found on a slope. It stands with what was found on the others, so that its drawings begin on a page
/// of their own without a nearly empty one before them.
fn found(slope: &Sheet<'_>, at: usize, language: Language) -> Markup {
    let words = language.words();
    let content = &slope.content;
    // What stands in the way on every slope is told above all of them.
    let stops = content.causes.iter().any(|cause| stop::tells(content, cause));
    html! {
        h3 { (words.slope) " " (slope.slope.unwrap_or_default()) }
        @if stops { (stop::stop(content, &format!("stop-{at}"), language)) }
        (causes(content, language))
        (declarations(content, language))
    }
}

/// The pages of a slope that the crew works by.
fn of_the_crew(slope: &Sheet<'_>, at: usize, language: Language) -> Markup {
    let words = language.words();
    let title = format!("slope-{at}");
    let heading = html! { h2 id=(title) { (words.slope) " " (slope.slope.unwrap_or_default()) } };
    html! {
        section .slope aria-labelledby=(title) {
            (setting_out(slope, &heading, language))
            (section_figure(slope, language))
        }
    }
}

/// What an engineer checks on a slope; the first of them stands below the heading of all.
fn of_the_engineer(slope: &Sheet<'_>, at: usize, language: Language) -> Markup {
    let words = language.words();
    let content = &slope.content;
    let heading = html! {
        @if at == 0 { h2 #engineer { (words.for_the_engineer) } }
        h2 { (words.slope) " " (slope.slope.unwrap_or_default()) }
    };
    html! {
        (checks(slope, &heading, language))
        (engineer::evidence(content, words))
        @if !content.assumptions.is_empty() { (engineer::assumptions(content, language)) }
    }
}
