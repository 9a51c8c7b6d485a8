//! The maker's form: every member of a part with its unit and limits, what it rests on, and what a
//! plain `holds` needs. Rows follow from the published schema, needs from the catalogue of findings.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use serde_json::Value;

use super::published;
use crate::language::{Language, Words, makers};
use crate::model::evidence::{EvidenceAnswer, EvidenceKind, PartKind};
use crate::model::statement::{NeededFigure, StatementAnswer, StatementRequest};
use crate::service::statement::{PARTS, needed};

const STYLE: &str = include_str!("form.css");

/// The form without anything filled in, for one kind of part or for all.
#[must_use]
pub fn empty_form(part: Option<PartKind>, language: Language) -> String {
    let parts = PARTS.into_iter().filter(|of| part.is_none_or(|part| part == *of));
    let sections = parts.map(|part| {
        section(
            &Section { part, stated: &Value::Null, evidence: &[] },
            &needed(part, language),
            language,
        )
    });
    page(&sections.collect::<Vec<_>>(), [None, None], language)
}

/// The form of a statement.
#[must_use]
pub fn filled_form(
    statement: &StatementRequest,
    answer: &StatementAnswer,
    language: Language,
) -> String {
    let stated = serde_json::to_value(statement).unwrap_or_default();
    let parts = PARTS.into_iter().filter(|part| stated.get(part.name()).is_some());
    let sections = parts.map(|part| {
        let needed: Vec<_> = answer.needed.iter().filter(|n| n.part == part).cloned().collect();
        let of = Section { part, stated: &stated[part.name()], evidence: &answer.evidence };
        section(&of, &needed, language)
    });
    let head = [&statement.maker, &statement.document].map(|text| Some(text.as_str()));
    page(&sections.collect::<Vec<_>>(), head, language)
}

/// The schema of a kind of part.
fn schema_of(part: PartKind) -> &'static Value {
    published(match part {
        PartKind::Hook => "Hook",
        PartKind::Screw => "Screw",
        PartKind::Rail => "Rail",
        PartKind::Clamp => "Clamp",
        PartKind::Module => "Module",
    })
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

/// A part of the form, with what a statement says of it.
struct Section<'a> {
    part: PartKind,
    stated: &'a Value,
    evidence: &'a [EvidenceAnswer],
}

/// A member of a part.
struct Row {
    pointer: String,
    required: bool,
    schema: &'static Value,
}

/// Every member of a part that is no object, in the order of the schema.
fn rows(schema: &'static Value, at: &str, required: bool, found: &mut Vec<Row>) {
    let schema = resolved(schema);
    let Some(members) = schema["properties"].as_object() else {
        found.push(Row { pointer: at.to_owned(), required, schema });
        return;
    };
    let needed = schema["required"].as_array().map_or(&[][..], Vec::as_slice);
    for (member, schema) in members.iter().filter(|(member, _)| *member != "evidence") {
        let required = required && needed.iter().any(|name| name == member);
        rows(schema, &format!("{at}/{member}"), required, found);
    }
}

/// The schema a reference leads to.
fn resolved(schema: &'static Value) -> &'static Value {
    let choice = ["oneOf", "allOf", "anyOf"].iter().find_map(|of| schema[*of].get(0));
    let target = schema["$ref"].as_str().or_else(|| choice?["$ref"].as_str());
    let name = target.and_then(|target| target.rsplit('/').next());
    name.map_or(schema, published)
}

fn section(of: &Section<'_>, needed: &[NeededFigure], language: Language) -> Markup {
    let words = language.words();
    let mut all = Vec::new();
    rows(schema_of(of.part), "", true, &mut all);
    html! {
        section {
            h2 { (title(of.part, words)) }
            table {
                thead { tr {
                    th scope="col" { (words.form_figure) }
                    th scope="col" { (words.form_value) }
                    th scope="col" { (words.form_limits) }
                    th scope="col" { (words.form_rests_on) }
                    th scope="col" { (words.form_document) }
                } }
                tbody { @for row in &all { (line(of, row, language)) } }
            }
            p { "* " (words.form_required) }
            (tests(of, words))
            h3 { (words.form_needed) }
            ul .needed {
                @for needed in needed {
                    li {
                        span .box { @if needed.stated { "☑" } @else { "☐" } } " "
                        @for (i, figure) in needed.figures.iter().enumerate() {
                            @if i > 0 { " " (words.form_or) " " }
                            code { (figure) }
                        }
                        ": " (needed.why) " " code { (needed.check) }
                    }
                }
            }
        }
    }
}

fn line(of: &Section<'_>, row: &Row, language: Language) -> Markup {
    let words = language.words();
    let key = format!("{}{}", of.part.name(), row.pointer);
    let label = makers::member(&key, language).unwrap_or(&row.pointer);
    let value = of.stated.pointer(&row.pointer).map(text);
    let rests = of.evidence.iter().find(|e| e.part == of.part && e.figure == row.pointer);
    let number = row.schema["type"] == "number" || row.schema["type"] == "integer";
    html! {
        tr {
            th scope="row" { (label) @if row.required { " *" } br; code { (row.pointer) } }
            td .fill { (value.unwrap_or_default()) " " (unit(&row.pointer)) }
            td { (limits(row.schema)) }
            td .boxes {
                @if number {
                    @for (kind, word) in grounds(of.part, &row.pointer, words) {
                        span { (if rests.is_some_and(|r| r.by == kind) { "☑" } else { "☐" }) " " (word) } " "
                    }
                }
            }
            td .fill { @if let Some(document) = rests.and_then(|r| r.document.as_ref()) { (document) } }
        }
    }
}

/// What a figure can rest on.
fn grounds(part: PartKind, pointer: &str, words: &Words) -> Vec<(EvidenceKind, &'static str)> {
    let mut all = vec![
        (EvidenceKind::Declared, words.form_declared),
        (EvidenceKind::Approval, words.form_approval),
        (EvidenceKind::Test, words.form_test),
    ];
    let of_arm = ["/resistance/press", "/resistance/lift", "/resistance/slope", "/stiffness/"];
    if part == PartKind::Hook && of_arm.iter().any(|start| pointer.starts_with(start)) {
        all.push((EvidenceKind::Bar, words.form_bar));
    }
    all
}

/// The tests: what they gave, or lines to write it on.
fn tests(of: &Section<'_>, words: &Words) -> Markup {
    let tested = of.evidence.iter().filter(|e| e.part == of.part && e.tested.is_some());
    let tested: Vec<_> = tested.collect();
    html! {
        h3 { (words.form_tests) }
        p { (words.form_tests_how) }
        table {
            thead { tr {
                th scope="col" { (words.form_figure) }
                th scope="col" { "n" } th scope="col" { "m" } th scope="col" { "V" }
                th scope="col" { "k" sub { "n" } } th scope="col" { "X" sub { "k" } }
                th scope="col" { (words.form_value) }
            } }
            tbody {
                @for evidence in &tested {
                    @if let Some(tested) = &evidence.tested {
                        tr {
                            th scope="row" { code { (evidence.figure) } }
                            td { (tested.tests) }
                            td { (words.number(tested.mean, 3)) }
                            td { (words.number(tested.variation, 3)) }
                            td { (words.number(tested.fractile_factor, 2)) }
                            td { (words.number(tested.characteristic, 3)) }
                            td { (words.number(evidence.stated, 3)) }
                        }
                    }
                }
                @if tested.is_empty() { @for _ in 0..3 { tr { @for _ in 0..7 { td .fill {} } } } }
            }
        }
    }
}

/// A value as it is written on paper.
fn text(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

/// The unit at the end of a member's name.
fn unit(pointer: &str) -> &'static str {
    const UNITS: [(&str, &str); 14] = [
        ("_kn_per_mm", "kN/mm"),
        ("_kn_per_m2", "kN/m²"),
        ("_n_per_mm2", "N/mm²"),
        ("_kg_per_m3", "kg/m³"),
        ("_kg_per_m", "kg/m"),
        ("_knm", "kN·m"),
        ("_nmm", "N·mm"),
        ("_kn", "kN"),
        ("_kg", "kg"),
        ("_mm4", "mm⁴"),
        ("_mm3", "mm³"),
        ("_mm2", "mm²"),
        ("_mm", "mm"),
        ("_deg", "°"),
    ];
    UNITS.iter().find(|(end, _)| pointer.ends_with(end)).map_or("", |(_, unit)| unit)
}

/// Least and greatest value, or the words there are.
fn limits(schema: &Value) -> String {
    if let Some(words) = schema["enum"].as_array() {
        return words.iter().map(text).collect::<Vec<_>>().join(", ");
    }
    let ends = ["minimum", "maximum"].map(|end| schema[end].as_f64());
    match ends {
        [Some(least), Some(most)] => format!("{least} – {most}"),
        _ => String::new(),
    }
}

fn page(sections: &[Markup], [maker, document]: [Option<&str>; 2], language: Language) -> String {
    let words = language.words();
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
                        dt { (words.form_maker) } dd .fill { (maker.unwrap_or_default()) }
                        dt { (words.form_document) } dd .fill { (document.unwrap_or_default()) }
                    }
                }
                main { @for section in sections { (section) } }
                footer { p { (words.form_caution) } }
            }
        }
    };
    page.into_string()
}
