//! How much snow and wind the job bears, and what an observed event came to.

use maud::{Markup, html};

use crate::checks::Check;
use crate::language::findings::label;
use crate::language::{Language, Words};
use crate::wire::capacity::{
    CapacityAnswer, CapacityOutcome, CapacityScope, EventAnswer, InspectedElement, LoadCapacity,
    ScopeCapacity,
};

use super::{Content, head};
use crate::service::wording::named;

/// Hooks of an event that a sheet names.
const NAMED: usize = 5;

/// Both, as far as they were asked for.
pub fn capacity(content: &Content<'_>, language: Language) -> Markup {
    html! {
        @if let Some(event) = content.event { (happened(event, language)) }
        @if let Some(borne) = content.capacity { (statement(borne, language)) }
    }
}

fn happened(event: &EventAnswer, language: Language) -> Markup {
    let words = language.words();
    let within = if event.within_resistances { words.event_within } else { words.event_not_within };
    let kn = |value: f64| words.figure(value, 2);
    html! {
        h3 { (words.event) }
        p { strong { (within) } " " (words.event_note) }
        p {
            (words.ground_snow) ": " (kn(event.ground_snow_kn_per_m2)) " kN/m² ("
            (words.on_the_roof) " " (kn(event.snow_on_roof_kn_per_m2)) ", "
            (words.of_the_site) " " (kn(event.site_ground_snow_kn_per_m2)) ") · "
            (words.gust) ": " (kn(event.peak_pressure_kn_per_m2)) " kN/m² ("
            (words.of_the_site) " " (kn(event.site_peak_pressure_kn_per_m2)) ")"
        }
        (first(event.inspect_first.iter().take(NAMED), language))
    }
}

fn first<'a>(elements: impl Iterator<Item = &'a InspectedElement>, language: Language) -> Markup {
    let words = language.words();
    let named = elements.map(|one| {
        let used = words.used(one.utilisation, 1);
        format!("{} ({} {used})", named(&one.element, words), check(&one.check, language))
    });
    html! { p { (words.inspect_first) ": " (named.collect::<Vec<_>>().join(", ")) } }
}

fn statement(borne: &CapacityAnswer, language: Language) -> Markup {
    let words = language.words();
    let loads = [(words.ground_snow, &borne.ground_snow), (words.gust, &borne.peak_pressure)];
    html! {
        h3 { (words.bears) }
        p { (words.bears_note) }
        table tabindex="0" {
            (head(&[
                words.load, words.scope, words.characteristic, words.first_limit, words.observed,
                words.first_limit,
            ]))
            tbody {
                @for (name, load) in loads {
                    @for (by_rules, observed) in load.characteristic.iter().zip(&load.observed) {
                        tr {
                            th scope="row" {
                                (name) " (" (words.figure(load.of_the_job_kn_per_m2, 2)) ")"
                            }
                            td { (scope(by_rules.scope, words)) @if !by_rules.complete { " *" } }
                            td .main { (value(by_rules, load, words)) }
                            td { (limit(by_rules, language)) }
                            td .main { (value(observed, load, words)) }
                            td { (limit(observed, language)) }
                        }
                    }
                }
            }
        }
    }
}

const fn scope(scope: CapacityScope, words: &Words) -> &'static str {
    match scope {
        CapacityScope::Fixing => words.fixing,
        CapacityScope::Rail => words.rails,
        CapacityScope::Modules => words.modules,
        CapacityScope::Rafters => words.rafters_checked,
    }
}

/// A load rounded down, with what it is on the roof.
fn value(of: &ScopeCapacity, load: &LoadCapacity, words: &Words) -> String {
    let down = |value: f64| words.figure((value * 100.0 + 1e-6).floor() / 100.0, 2);
    match of.outcome {
        CapacityOutcome::Limited => {
            let borne = of.load_kn_per_m2.map_or_else(String::new, down);
            of.on_roof_kn_per_m2.map_or_else(
                || borne.clone(),
                |on_roof| format!("{borne} ({} {})", words.on_the_roof, down(on_roof)),
            )
        }
        CapacityOutcome::NoLimitFound => format!("> {}", down(load.greatest_kn_per_m2)),
        CapacityOutcome::Never => words.bears_none.to_owned(),
        CapacityOutcome::FailsOtherwise => words.fails_otherwise.to_owned(),
        CapacityOutcome::NotChecked | CapacityOutcome::Undecided => words.not_verified.to_owned(),
    }
}

fn limit(of: &ScopeCapacity, language: Language) -> String {
    let both = of.check.as_ref().zip(of.element.as_ref());
    both.map_or_else(String::new, |(name, element)| {
        format!("{}, {}", named(element, language.words()), check(name, language))
    })
}

/// A check by its name in answers.
fn check(name: &str, language: Language) -> String {
    let known = Check::ALL.iter().find(|check| check.name() == name);
    known.map_or(language.words().part_splice, |check| label(*check, language)).to_owned()
}
