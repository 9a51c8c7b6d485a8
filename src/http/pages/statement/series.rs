//! The table of tests on the form: what they gave, or lines to write it on.

use maud::{Markup, html};
use serde_json::Value;

use super::rows::{StatedPart, written};
use crate::language::Words;
use crate::wire::evidence::{EvidenceAnswer, TestedAnswer};

/// Lines to write on.
const LINES: usize = 3;

/// The tests of a part; nothing where a statement names none.
pub fn tests(of: &StatedPart<'_>, words: &Words) -> Markup {
    let entries = of.evidence.iter().filter(|entry| entry.part == of.part);
    let tested: Vec<_> =
        entries.filter_map(|entry| Some((entry, entry.tested.as_ref()?))).collect();
    if tested.is_empty() && !of.stated.is_null() {
        return html! {};
    }
    html! {
        h3 { (words.form_tests) }
        p { (words.form_tests_how) }
        table .tests {
            thead { tr {
                th scope="col" { (words.form_figure) }
                th scope="col" { (words.form_results) }
                th scope="col" { (words.form_distribution) }
                th scope="col" { "n" } th scope="col" { "m" } th scope="col" { "V" }
                th scope="col" { "k" sub { "n" } } th scope="col" { "X" sub { "k" } }
                th scope="col" { "γ" }
                th scope="col" { (words.form_value) }
            } }
            tbody {
                @for (entry, tested) in &tested { (line(of, entry, tested, words)) }
                @if tested.is_empty() {
                    @for _ in 0..LINES { tr { @for _ in 0..10 { td .fill {} } } }
                }
            }
        }
    }
}

fn line(
    of: &StatedPart<'_>,
    entry: &EvidenceAnswer,
    tested: &TestedAnswer,
    words: &Words,
) -> Markup {
    let series = series(of.stated, entry.figure);
    let factor = series["partial_factor"].as_f64();
    html! {
        tr {
            th scope="row" { code { (entry.figure) } }
            td { (results(series, words)) }
            td { (distribution(series, words)) }
            td { (tested.tests) }
            td { (words.number(tested.mean, 3)) }
            td {
                (words.figure(tested.variation, 3))
                @if series["known_variation"].is_number() { " " (words.form_known) }
            }
            td { (words.figure(tested.fractile_factor, 2)) }
            td { (words.number(tested.characteristic, 3)) }
            td { @if let Some(factor) = factor { (words.number(factor, 3)) } @else { "–" } }
            td { (words.number(entry.stated, 3)) }
        }
    }
}

/// The series of a figure, as the part states it.
fn series<'a>(part: &'a Value, figure: &str) -> &'a Value {
    let mut entries = part["evidence"].as_array().into_iter().flatten();
    entries.find(|entry| entry["figure"] == figure).map_or(&Value::Null, |entry| &entry["series"])
}

fn results(series: &Value, words: &Words) -> String {
    let values = series["values"].as_array().into_iter().flatten();
    values.map(|value| written(value, words)).collect::<Vec<_>>().join("; ")
}

fn distribution(series: &Value, words: &Words) -> &'static str {
    if series["distribution"] == "lognormal" { words.form_lognormal } else { words.form_normal }
}
