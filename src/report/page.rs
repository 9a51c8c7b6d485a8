//! A report as a page to read and to print: one file without script and without anything to fetch. Texts are in
//! the reader's language; sources, codes and names of rules are as answers have them, and reasons in the
//! language of the answers.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use crate::assessment::Scope;
use crate::checks::Check;
use crate::drawing::bars::{self, Bar};
use crate::language::findings::label;
use crate::language::headline::scope;
use crate::language::{Language, Words};
use crate::service::wording::{named, verdict};
use crate::wire::batch::VerdictCounts;
use crate::wire::capacity::CapacityScope;
use crate::wire::kinds::JobKind;
use crate::wire::remarks::{Severity, Verdict};
use crate::wire::report::{
    Capacities, CapacityRow, Changes, EventCount, LineRange, LoadCapacities, Report, RowName,
    UtilisationSpread, WorstRow,
};
use crate::wire::scopes::ScopeName;

use super::spread;

const STYLE: &str = include_str!("report.css");

/// Ranges of lines that a page names; JSON has them all.
const MOST_RANGES: usize = 20;

/// Writes the page.
#[must_use]
pub fn write(report: &Report, language: Language) -> String {
    let words = language.words();
    let page = html! {
        (DOCTYPE)
        html lang=(language.tag()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (words.report) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { (words.report) }
                    p {
                        (words.report_answers) ": " (report.lines.answers)
                        " · " (words.report_problems) ": " (report.lines.problems)
                        " · " (words.report_unread) ": " (report.lines.unread)
                    }
                }
                main {
                    (read_first(report, words))
                    (cautions(report, words))
                    @if let Some(event) = &report.event { (of_event(event, language)) }
                    (counts(report, language))
                    section aria-labelledby="worst" {
                        h2 #worst { (words.report_worst) }
                        (answers(&report.worst, language))
                    }
                    (spreads(report, language))
                    (findings(report, language))
                    @if let Some(changes) = &report.changes { (changed(changes, language)) }
                    @if let Some(capacity) = &report.capacity { (borne(capacity, language)) }
                    (left(report, words))
                    (engines(report, words))
                }
                footer { p { "hookspan " (report.version) " (" (report.model) "). " (words.planning_aid) } }
            }
        }
    };
    page.into_string()
}

fn head(columns: &[&str]) -> Markup {
    html! { thead { tr { @for column in columns { th scope="col" { (column) } } } } }
}

/// What makes the report less than one of all answers of a batch.
fn read_first(report: &Report, words: &Words) -> Markup {
    let answered = &report.answered;
    let unsound = !report.comparable
        || answered.without + answered.repeated + report.lines.unread + report.lines.broken_off > 0;
    let ranges = |name: &str, number: u64, of: &[LineRange]| {
        html! { @if number > 0 { li { (name) ": " (number) " (" (listed(of)) ")" } } }
    };
    html! {
        @if unsound {
            section .first aria-labelledby="first" {
                h2 #first { (words.report_read_first) }
                ul {
                    @if !report.comparable { li { (words.report_not_comparable) } }
                    (ranges(words.report_without, answered.without, &answered.without_ranges))
                    (ranges(words.report_repeated, answered.repeated, &answered.repeated_ranges))
                    @if report.lines.broken_off > 0 {
                        li { (words.report_broken_off) ": " (report.lines.broken_off) }
                    }
                    @if report.lines.unread > 0 {
                        li { (words.report_unread) ": " (report.lines.unread) }
                    }
                }
            }
        }
    }
}

fn listed(ranges: &[LineRange]) -> String {
    let shown = ranges.iter().take(MOST_RANGES).map(|LineRange { first, last }| {
        if first == last { first.to_string() } else { format!("{first}..{last}") }
    });
    let more = (ranges.len() > MOST_RANGES).then(|| "…".to_owned());
    shown.chain(more).collect::<Vec<_>>().join(", ")
}

fn cautions(report: &Report, words: &Words) -> Markup {
    html! {
        section .cautions aria-labelledby="cautions" {
            h2 #cautions { (words.cautions) }
            ul { @for caution in &report.cautions { li { (caution.text) } } }
        }
    }
}

fn of_event(event: &EventCount, language: Language) -> Markup {
    let words = language.words();
    html! {
        section aria-labelledby="event" {
            h2 #event { (words.report_event) }
            p { (words.report_event_note) }
            p {
                (words.report_event_of) ": " (event.answers)
                " · " (words.report_event_within) ": " (event.within_resistances)
            }
            (answers(&event.look_at, language))
        }
    }
}

fn counts(report: &Report, language: Language) -> Markup {
    let words = language.words();
    let cells = |answers: u64, verdicts: &VerdictCounts| {
        let VerdictCounts { holds, holds_with_warnings, fails, incomplete } = verdicts;
        html! {
            td { (answers) } td { (fails) } td { (incomplete) } td { (holds_with_warnings) } td { (holds) }
        }
    };
    let columns = |first| {
        let fails = verdict(Verdict::Fails, words);
        let incomplete = verdict(Verdict::Incomplete, words);
        let warned = verdict(Verdict::HoldsWithWarnings, words);
        let holds = verdict(Verdict::Holds, words);
        [first, words.report_answers, fails, incomplete, warned, holds]
    };
    html! {
        section aria-labelledby="counts" {
            h2 #counts { (words.verdict) }
            table tabindex="0" {
                caption { (words.report_by_kind) }
                (head(&columns(words.report_job)))
                tbody {
                    tr { th scope="row" { (words.report_whole) } (cells(report.lines.answers, &report.verdicts)) }
                    @for row in &report.by_kind {
                        tr { th scope="row" { (kind(row.of, words)) } (cells(row.answers, &row.verdicts)) }
                    }
                }
            }
            @for (caption, first, rows) in [
                (words.report_by_rules, words.report_rules, &report.by_rules),
                (words.report_by_hook, words.hook, &report.by_hook),
            ] {
                @if !rows.is_empty() {
                    table tabindex="0" {
                        caption { (caption) }
                        (head(&columns(first)))
                        tbody {
                            @for row in rows {
                                tr { th scope="row" { code { (row.name) } } (cells(row.answers, &row.verdicts)) }
                            }
                        }
                    }
                }
            }
            table tabindex="0" {
                caption { (words.report_by_scope) }
                (head(&columns(words.scope)))
                tbody {
                    @for row in &report.by_scope {
                        @let VerdictCounts { holds, holds_with_warnings, fails, incomplete } = row.verdicts;
                        @let assessed = holds + holds_with_warnings + fails + incomplete;
                        tr {
                            th scope="row" { (scope(scope_of(row.scope), language)) }
                            (cells(assessed, &row.verdicts))
                        }
                    }
                }
            }
        }
    }
}

fn answers(rows: &[WorstRow], language: Language) -> Markup {
    let words = language.words();
    let columns = [
        words.report_line,
        words.report_id,
        words.verdict,
        words.utilisation,
        words.report_governs,
        words.report_reason,
    ];
    html! {
        @if rows.is_empty() { p { (words.report_none) } } @else {
            table tabindex="0" {
                (head(&columns))
                tbody {
                    @for row in rows {
                        tr {
                            th scope="row" { (row.of.line) }
                            td .text { (of_whom(&row.of)) }
                            td .text {
                                (verdict(row.verdict, words))
                                @if let Some(engine) = &row.other_engine { " [" (engine) "]" }
                            }
                            td { @if let Some(used) = row.utilisation { (words.used(used, 1)) } }
                            td .text { (governs(row, language)) }
                            td .text { (row.headline.as_deref().unwrap_or_default()) }
                        }
                    }
                }
            }
        }
    }
}

/// The id of a line and the reference of its job.
fn of_whom(of: &RowName) -> String {
    let names = [&of.id, &of.reference].into_iter().flatten();
    let names: Vec<&str> = names.map(String::as_str).collect();
    names.join(" · ")
}

fn governs(row: &WorstRow, language: Language) -> String {
    let check = row.check.as_deref().map(|check| check_in_words(check, language));
    let element = row.element.as_deref().map(|element| named(element, language.words()));
    let parts = [row.slope.clone(), element, check, row.combination.clone()];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// A check in words; by its name where this version does not know it.
fn check_in_words(name: &str, language: Language) -> String {
    let known = Check::ALL.iter().find(|check| check.name() == name);
    known.map_or_else(|| name.to_owned(), |check| label(*check, language).to_owned())
}

fn spreads(report: &Report, language: Language) -> Markup {
    let words = language.words();
    let columns = [
        words.report_check,
        words.report_answers,
        words.report_half,
        words.report_nine_tenths,
        words.report_all_but_twentieth,
        words.report_all_but_hundredth,
        words.report_highest,
    ];
    let name = |spread: &UtilisationSpread| {
        let check = spread.check.as_deref();
        check.map_or_else(|| words.report_whole.to_owned(), |check| check_in_words(check, language))
    };
    html! {
        @if !report.utilisation.is_empty() {
            section aria-labelledby="spreads" {
                h2 #spreads { (words.report_spread) }
                table tabindex="0" {
                    (head(&columns))
                    tbody {
                        @for spread in &report.utilisation {
                            tr {
                                th scope="row" { (name(spread)) }
                                td { (spread.answers) }
                                @for quantile in &spread.quantiles { td { (words.used(quantile.value, 2)) } }
                                td { (words.used(spread.max, 2)) }
                            }
                        }
                    }
                }
                p { (words.report_resolution) }
                p { (words.report_spread_note) }
                @for spread in &report.utilisation {
                    figure tabindex="0" { (bars::draw(&name(spread), &bars_of(spread, words)).svg) }
                }
            }
        }
    }
}

/// A bar for every range, so that plots stand in line below each other.
fn bars_of(spread: &UtilisationSpread, words: &Words) -> Vec<Bar> {
    let percent = |value: f64| words.number(value * 100.0, 0);
    let above: Vec<f64> = std::iter::once(0.0).chain(spread::ends()).collect();
    let up_to: Vec<Option<f64>> = spread::ends().map(Some).chain([None]).collect();
    let bar = |(above, up_to): (f64, Option<f64>)| {
        let count = spread.bins.iter().find(|bin| bin.up_to == up_to).map_or(0, |bin| bin.answers);
        let range = match up_to {
            Some(end) => format!("{}–{}", percent(above), percent(end)),
            None => format!("> {}", percent(above)),
        };
        Bar { range, count, beyond: above >= 1.0 }
    };
    above.into_iter().zip(up_to).map(bar).collect()
}

fn findings(report: &Report, language: Language) -> Markup {
    let words = language.words();
    let columns = [
        words.report_code,
        words.report_severity,
        words.report_answers,
        words.scope,
        words.report_clause,
    ];
    html! {
        @if !report.findings.is_empty() {
            section aria-labelledby="findings" {
                h2 #findings { (words.report_findings) }
                table tabindex="0" {
                    (head(&columns))
                    tbody {
                        @for row in &report.findings {
                            @let scopes = row.scopes.iter().map(|of| scope(scope_of(*of), language));
                            tr {
                                th scope="row" { code { (row.code) } }
                                td .text { (severity(row.severity, words)) }
                                td { (row.answers) }
                                td .text { (scopes.collect::<Vec<_>>().join(", ")) }
                                td .text lang="en" { (row.source.as_deref().unwrap_or_default()) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn changed(changes: &Changes, language: Language) -> Markup {
    let words = language.words();
    html! {
        section aria-labelledby="changes" {
            h2 #changes { (words.report_changes) }
            p {
                (words.report_compared) ": " (changes.compared)
                " · " (words.report_verdict_changed) ": " (changes.verdict_changed)
                " · " (words.report_used_more) ": " (changes.used_more)
                " · " (words.report_used_less) ": " (changes.used_less)
            }
            @if !changes.verdicts.is_empty() {
                table tabindex="0" {
                    (head(&[words.report_from, words.report_to, words.report_answers]))
                    tbody {
                        @for row in &changes.verdicts {
                            tr {
                                th scope="row" { (verdict(row.from, words)) }
                                td .text { (verdict(row.to, words)) }
                                td { (row.answers) }
                            }
                        }
                    }
                }
            }
            @if !changes.causes.is_empty() {
                p { (words.report_cause_note) }
                table tabindex="0" {
                    (head(&[words.report_cause, words.report_answers, words.report_verdict_changed]))
                    tbody {
                        @for row in &changes.causes {
                            tr {
                                th scope="row" { code { (row.cause) } }
                                td { (row.answers) }
                                td { (row.verdict_changed) }
                            }
                        }
                    }
                }
            }
            (answers(&changes.worst, language))
        }
    }
}

fn borne(capacity: &Capacities, language: Language) -> Markup {
    let words = language.words();
    html! {
        section aria-labelledby="bears" {
            h2 #bears { (words.report_bears) }
            p { (words.report_bears_note) }
            (borne_of(words.ground_snow, &capacity.ground_snow, language))
            (borne_of(words.gust, &capacity.peak_pressure, language))
        }
    }
}

fn borne_of(load: &str, capacities: &LoadCapacities, language: Language) -> Markup {
    let words = language.words();
    let columns = [
        words.report_line,
        words.report_id,
        words.report_bears_load,
        words.report_computed_with,
        words.scope,
        words.first_limit,
    ];
    let limit = |row: &CapacityRow| {
        let check = row.check.as_deref().map(|check| check_in_words(check, language));
        let element = row.element.as_deref().map(|element| named(element, words));
        [row.slope.clone(), element, check].into_iter().flatten().collect::<Vec<_>>().join(", ")
    };
    html! {
        @if !capacities.smallest.is_empty() {
            table tabindex="0" {
                caption { (load) }
                (head(&columns))
                tbody {
                    @for row in &capacities.smallest {
                        tr {
                            th scope="row" { (row.of.line) }
                            td .text { (of_whom(&row.of)) }
                            td { (words.figure(row.load_kn_per_m2, 4)) @if !row.complete { "*" } }
                            td { (words.figure(row.of_the_job_kn_per_m2, 4)) }
                            td .text { (scope(scope_of_load(row.scope), language)) }
                            td .text { (limit(row)) }
                        }
                    }
                }
            }
        }
    }
}

/// Lines without an answer.
fn left(report: &Report, words: &Words) -> Markup {
    let (problems, unread) = (&report.problems.listed, &report.unread.listed);
    html! {
        @if !problems.is_empty() {
            section aria-labelledby="problems" {
                h2 #problems { (words.report_problems) }
                table tabindex="0" {
                    (head(&[words.report_line, words.report_id, words.report_code, words.report_place, words.report_detail]))
                    tbody {
                        @for row in problems {
                            tr {
                                th scope="row" { (row.line) }
                                td .text { (row.id.as_deref().unwrap_or_default()) }
                                td .text { code { (row.code) } }
                                td .text { code { (row.pointer.as_deref().unwrap_or_default()) } }
                                td .text lang="en" { (row.detail) }
                            }
                        }
                    }
                }
            }
        }
        @if !unread.is_empty() {
            section aria-labelledby="unread" {
                h2 #unread { (words.report_unread) }
                table tabindex="0" {
                    (head(&[words.report_line, words.report_place, words.report_detail]))
                    tbody {
                        @for row in unread {
                            @let place = row.file.as_deref().zip(row.line_of_file);
                            tr {
                                th scope="row" { @if let Some(line) = row.line { (line) } }
                                td .text { @if let Some((file, line)) = place { (file) ":" (line) } }
                                td .text lang="en" { (row.detail) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn engines(report: &Report, words: &Words) -> Markup {
    let columns = [
        words.report_version,
        words.report_rules,
        words.report_revision,
        words.report_answers,
        words.report_first_line,
    ];
    html! {
        @if !report.engines.is_empty() {
            section aria-labelledby="engines" {
                h2 #engines { (words.report_engines) }
                table tabindex="0" {
                    (head(&columns))
                    tbody {
                        @for row in &report.engines {
                            tr {
                                th scope="row" {
                                    (row.version) " (" (row.model) ")"
                                    @if !row.own { ", " (words.report_other) }
                                }
                                td .text { code { (row.rules) } }
                                td .text { (row.revision) }
                                td { (row.answers) }
                                td { (row.first_line) }
                            }
                        }
                    }
                }
            }
        }
    }
}

const fn kind(of: JobKind, words: &Words) -> &'static str {
    match of {
        JobKind::Layout => words.report_layout,
        JobKind::Building => words.report_building,
        JobKind::Choices => words.report_choices,
        JobKind::Recheck => words.report_recheck,
        JobKind::Survey => words.report_survey,
        JobKind::Actions => words.report_actions,
        JobKind::Statement => words.report_statement,
    }
}

const fn severity(of: Severity, words: &Words) -> &'static str {
    match of {
        Severity::Failure => words.failure,
        Severity::Incomplete => words.unverified,
        Severity::Warning => words.warning,
        Severity::Notice => words.notice,
    }
}

const fn scope_of(name: ScopeName) -> Scope {
    match name {
        ScopeName::Fixing => Scope::Fixing,
        ScopeName::Rail => Scope::Rail,
        ScopeName::Modules => Scope::Modules,
        ScopeName::Rafters => Scope::Rafters,
        ScopeName::Covering => Scope::Covering,
        ScopeName::Data => Scope::Data,
    }
}

const fn scope_of_load(name: CapacityScope) -> Scope {
    match name {
        CapacityScope::Fixing => Scope::Fixing,
        CapacityScope::Rail => Scope::Rail,
        CapacityScope::Modules => Scope::Modules,
        CapacityScope::Rafters => Scope::Rafters,
    }
}
