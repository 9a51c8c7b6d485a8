//! The maker's form: every member of a part with its unit and limits, what it rests on, and what a
//! plain `holds` needs. Rows follow from the published schema, needs from the catalogue of findings.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use serde_json::Value;

use super::rows::{Needed, Row, StatedPart, rows, written};
use super::series;
use crate::language::{Language, Words, makers};
use crate::service::figures::{FigureKind, kind_of};
use crate::service::request::{Options, Request};
use crate::service::shown::Shown;
use crate::service::statement::{PARTS, needed};
use crate::wire::evidence::{EvidenceKind, PartKind};
use crate::wire::fault::Fault;
use crate::wire::sheets::SheetPart;
use crate::wire::statement::{NeededFigure, StatementAnswer, StatementRequest};

const STYLE: &str = include_str!("form.css");

/// The form without anything filled in, for one kind of part or for all.
#[must_use]
pub fn empty_form(part: Option<PartKind>, language: Language) -> String {
    let parts = PARTS.into_iter().filter(|of| part.is_none_or(|part| part == *of));
    let sections = parts.map(|part| {
        let of = StatedPart { part, stated: &Value::Null, evidence: &[] };
        section(&of, &needed(part, language), language)
    });
    page(&sections.collect::<Vec<_>>(), &Head::default(), language)
}

/// The sheet of a statement: the form, filled in, which has one part only.
///
/// # Errors
/// Every fault of the statement that its schema cannot see.
pub fn sheet(
    statement: &StatementRequest,
    digest: &str,
    _: SheetPart,
    options: &Options,
) -> Result<Shown, Vec<Fault>> {
    let answer = statement.answer(digest.to_owned().into(), options)?;
    let text = filled_form(statement, &answer, options.reader.language);
    Ok(Shown::page(text, StatementRequest::verdict(&answer)))
}

/// The form of a statement.
fn filled_form(
    statement: &StatementRequest,
    answer: &StatementAnswer,
    language: Language,
) -> String {
    let stated = serde_json::to_value(statement).unwrap_or_default();
    let parts = PARTS.into_iter().filter(|part| stated.get(part.name()).is_some());
    let sections = parts.map(|part| {
        let needed: Vec<_> = answer.needed.iter().filter(|n| n.part == part).cloned().collect();
        let of = StatedPart { part, stated: &stated[part.name()], evidence: &answer.evidence };
        section(&of, &needed, language)
    });
    let head = Head {
        maker: &statement.maker,
        document: &statement.document,
        rules: &answer.engine.rules.id,
    };
    page(&sections.collect::<Vec<_>>(), &head, language)
}

const fn title(part: PartKind, words: &Words) -> &'static str {
    match part {
        PartKind::Hook => words.hook,
        PartKind::Screw => words.screw,
        PartKind::Rail => words.rail,
        PartKind::Clamp => words.clamp,
        PartKind::Module => words.module,
    }
}

fn section(of: &StatedPart<'_>, needed: &[NeededFigure], language: Language) -> Markup {
    let words = language.words();
    html! {
        section {
            h2 { (title(of.part, words)) }
            table .figures {
                thead { tr {
                    th scope="col" { (words.form_figure) }
                    th scope="col" { (words.form_value) }
                    th scope="col" { (words.form_limits) }
                    th scope="col" { (words.form_evidence) }
                    th scope="col" { (words.form_document) }
                } }
                tbody { @for row in &rows(of.part) { (line(of, row, language)) } }
            }
            p { "* " (words.form_required) }
            p { "(*) " (words.form_required_with) }
            (series::tests(of, words))
            @if !needed.is_empty() {
                h3 { (words.form_needed) }
                ul .needed { @for needed in needed { (need(needed, words)) } }
            }
        }
    }
}

fn need(needed: &NeededFigure, words: &Words) -> Markup {
    html! {
        li {
            (boxed(needed.stated)) " "
            @for (i, figure) in needed.figures.iter().enumerate() {
                @if i > 0 { " " (words.form_or) " " }
                code { (figure) }
            }
            ": " (needed.why) " " code { (needed.check) }
        }
    }
}

const fn boxed(ticked: bool) -> &'static str {
    if ticked { "☑" } else { "☐" }
}

fn line(of: &StatedPart<'_>, row: &Row, language: Language) -> Markup {
    let words = language.words();
    let key = format!("{}{}", of.part.name(), row.pointer);
    let label = makers::member(&key, language).unwrap_or(&row.pointer);
    let rests = of.evidence.iter().find(|e| e.part == of.part && e.figure == row.pointer);
    let mark = match row.needed {
        Needed::Always => "\u{a0}*",
        Needed::WithItsGroup => "\u{a0}(*)",
        Needed::No => "",
    };
    html! {
        tr {
            th scope="row" { (label) (mark) br; code { (row.pointer) } }
            (value(of.stated.pointer(&row.pointer), row, language))
            td { (row.limits(words)) }
            td .boxes {
                @for (kind, word) in grounds(of.part, &row.pointer, words) {
                    span { (boxed(rests.is_some_and(|r| r.by == kind))) " " (word) } " "
                }
            }
            td .fill { @if let Some(document) = rests.and_then(|r| r.document.as_ref()) { (document) } }
        }
    }
}

/// The value that is stated with its unit, or the choices with the one that is taken.
fn value(stated: Option<&Value>, row: &Row, language: Language) -> Markup {
    let words = language.words();
    let stated = stated.map(|value| written(value, words));
    let choices = row.choices();
    html! {
        td .fill .boxes[!choices.is_empty()] {
            @for choice in &choices {
                span {
                    (boxed(stated.as_ref() == Some(choice))) " "
                    (makers::choice(choice, language).unwrap_or(choice))
                } " "
            }
            @if choices.is_empty() { (stated.unwrap_or_default()) " " (row.unit()) }
        }
    }
}

/// What a figure can rest on; nothing where it is no figure.
fn grounds(part: PartKind, pointer: &str, words: &Words) -> Vec<(EvidenceKind, &'static str)> {
    let Some(kind) = kind_of(part, pointer) else { return Vec::new() };
    let mut all = vec![
        (EvidenceKind::Declared, words.form_declared),
        (EvidenceKind::Approval, words.form_approval),
    ];
    if kind != FigureKind::Measure {
        all.push((EvidenceKind::Test, words.form_test));
    }
    if part == PartKind::Hook && matches!(kind, FigureKind::OfHook | FigureKind::Mean) {
        all.push((EvidenceKind::Bar, words.form_bar));
    }
    all
}

/// What stands above the parts.
#[derive(Default)]
struct Head<'a> {
    maker: &'a str,
    document: &'a str,
    rules: &'a str,
}

fn page(sections: &[Markup], head: &Head<'_>, language: Language) -> String {
    let words = language.words();
    let Head { maker, document, rules } = head;
    let page = html! {
        (DOCTYPE)
        html lang=(language.tag()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (words.form_title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { (words.form_title) }
                    p { (words.form_purpose) }
                    dl {
                        dt { (words.form_maker) } dd { (maker) }
                        dt { (words.form_number) } dd { (document) }
                        dt { (words.form_rules) } dd { (rules) }
                    }
                }
                main { @for section in sections { (section) } }
                footer {
                    dl {
                        dt { (words.form_signed_at) } dd {}
                        dt { (words.form_signed_by) } dd {}
                    }
                    p { (words.form_caution) }
                }
            }
        }
    };
    page.into_string()
}
