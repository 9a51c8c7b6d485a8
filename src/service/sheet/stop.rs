//! What stands in the way of building: said on top of a sheet whose job does not hold, with what is to be
//! done first.

use maud::{Markup, html};

use crate::language::members::place;
use crate::language::{Language, Words};
use crate::wire::declarations::Act;
use crate::wire::remarks::{Cause, MissingInput, Severity, Verdict};

use super::{Content, listed, mending, sign};

/// What is found where nobody has seen the rafters.
const UNMEASURED: &str = "rafters.not-measured";

/// The notice, with an id of its own on the page; nothing on a sheet whose job holds.
pub fn stop(content: &Content<'_>, id: &str, language: Language) -> Markup {
    let words = language.words();
    let Some((title, why)) = notice(content, words) else { return html! {} };
    html! {
        section .stop aria-labelledby=(id) {
            h3 id=(id) { (sign(content.verdict)) " " (title) }
            p { (why) }
            (listed(of(content, Severity::Failure), words))
            @if let Some(remedies) = content.remedies { (mending::tried(remedies, words)) }
            @if content.suggestion.is_some() { p { (words.help_below) } }
            @if content.causes.iter().any(is_open) || !content.missing.is_empty() {
                h4 { (words.to_find_out) }
                ul .warnings { (to_settle(content, language)) }
            }
        }
    }
}

/// Whether a job must not be built as it is.
pub const fn is_needed(content: &Content<'_>) -> bool {
    matches!(content.verdict, Verdict::Fails | Verdict::Incomplete)
}

/// Whether a cause is told in the notice, and so nowhere else.
pub fn tells(content: &Content<'_>, cause: &Cause) -> bool {
    let decides = matches!(cause.severity, Severity::Failure | Severity::Incomplete);
    decides && is_needed(content)
}

/// The notice in a line, to be said on every printed page; nothing of a job that holds.
pub fn title(content: &Content<'_>, words: &Words) -> Option<String> {
    let (title, _) = notice(content, words)?;
    Some(format!("{} {title}", sign(content.verdict)))
}

fn notice<'a>(content: &Content<'_>, words: &'a Words) -> Option<(&'a str, &'a str)> {
    let is_plan = content.parts.is_some();
    match content.verdict {
        Verdict::Holds | Verdict::HoldsWithWarnings => None,
        Verdict::Fails if content.event.is_some() => Some((words.stop_event, words.event_note)),
        Verdict::Fails if is_plan => Some((words.stop_plan_fails, words.stop_fails_why)),
        Verdict::Fails => Some((words.stop_built_fails, words.stop_fails_why)),
        Verdict::Incomplete if may_order(content) => {
            Some((words.stop_plan_unmeasured, words.stop_unmeasured_why))
        }
        Verdict::Incomplete if is_plan => {
            Some((words.stop_plan_incomplete, words.stop_incomplete_why))
        }
        Verdict::Incomplete => Some((words.stop_built_incomplete, words.stop_incomplete_why)),
    }
}

/// Whether nothing is open but where the rafters stand, and the order suffices wherever that was looked at.
fn may_order(content: &Content<'_>) -> bool {
    let suffices = content.phases.is_some_and(|phases| phases.failing == 0);
    let mut open = content.causes.iter().filter(|cause| is_open(cause));
    suffices && open.all(|cause| cause.code == UNMEASURED)
}

fn of<'a>(content: &'a Content<'_>, severity: Severity) -> impl Iterator<Item = &'a Cause> {
    content.causes.iter().filter(move |cause| cause.severity == severity)
}

fn is_open(cause: &Cause) -> bool {
    cause.severity == Severity::Incomplete
}

/// What is open, each once: what is to be done, what it is about, and where.
fn to_settle(content: &Content<'_>, language: Language) -> Markup {
    let words = language.words();
    // A survey asks hook by hook for what its finding names in one sentence.
    let told = |item: &&MissingInput| {
        content
            .causes
            .iter()
            .any(|cause| cause.code == item.check && cause.line.starts_with(&item.why))
    };
    html! {
        @for cause in of(content, Severity::Incomplete) {
            @let places = content.missing.iter().filter(|item| item.check == cause.code).filter(told);
            @let places: Vec<&MissingInput> = places.collect();
            li {
                strong {
                    "? " (places.first().map_or(words.unverified, |item| act(item.act, words)))
                }
                @if !places.is_empty() { " (" (named(&places, language)) ")" }
                ": " (cause.line) " " code { (cause.code) }
            }
        }
        @for item in content.missing.iter().filter(|item| !told(item)) {
            li { strong { "? " (act(item.act, words)) } ": " (item.why) }
        }
    }
}

/// The places of the request where it would be settled, in words, each once.
fn named(items: &[&MissingInput], language: Language) -> String {
    let mut places: Vec<String> = Vec::new();
    for place in items.iter().map(|item| place(&item.pointer, language)) {
        if !places.contains(&place) {
            places.push(place);
        }
    }
    places.join(", ")
}

const fn act(act: Act, words: &Words) -> &'static str {
    match act {
        Act::Measure => words.act_measure,
        Act::AskMaker => words.act_ask_maker,
        Act::AskEngineer => words.act_ask_engineer,
        Act::LookUp => words.act_look_up,
        Act::Change => words.act_change,
        Act::Declare => words.act_declare,
        Act::Prove => words.act_prove,
    }
}
