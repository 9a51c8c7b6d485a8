//! What a layout comes to whose rafters are off by a tolerance, in a sentence.

use crate::assessment::Utilisation;
use crate::checks::Check;
use crate::units::Length;

use super::findings::label;
use super::{Language, Reader};

/// The worst that was found: what is used most, by which check and how far; whether that is allowed, and whether
/// every choice of sides was tried.
#[must_use]
pub fn rafters_off(
    tolerance: Length,
    (element, check, used): (&str, Check, Utilisation),
    (is_allowed, every_choice): (bool, bool),
    reader: Reader,
) -> String {
    let (by, check) = (reader.length(tolerance), label(check, reader.language));
    let used = reader.utilisation(used);
    let (begin, beyond, tried) = match (reader.language, every_choice) {
        (Language::English, true) => (
            format!("Rafters {by} off, each to its own side: highest utilisation"),
            ", more than is allowed",
            "Every choice of sides was tried.",
        ),
        (Language::English, false) => (
            format!("Rafters {by} off, each to its own side: highest utilisation found"),
            ", more than is allowed",
            "Not every choice of sides was tried.",
        ),
        (Language::German, true) => (
            format!("Sparren um {by} versetzt, jeder zu seiner Seite: höchste Ausnutzung"),
            ", mehr als zulässig",
            "Alle Möglichkeiten wurden geprüft.",
        ),
        (Language::German, false) => (
            format!(
                "Sparren um {by} versetzt, jeder zu seiner Seite: höchste gefundene Ausnutzung"
            ),
            ", mehr als zulässig",
            "Nicht alle Möglichkeiten wurden geprüft.",
        ),
    };
    let beyond = if is_allowed { "" } else { beyond };
    format!("{begin} {used} ({element}, {check}){beyond}. {tried}")
}

/// Hooks of a rail cannot stand so.
#[must_use]
pub fn cannot_stand(tolerance: Length, rail: &str, reader: Reader) -> String {
    let by = reader.length(tolerance);
    match reader.language {
        Language::English => {
            format!("Rafters {by} off, each to its own side: hooks of {rail} cannot stand so.")
        }
        Language::German => format!(
            "Sparren um {by} versetzt, jeder zu seiner Seite: Dachhaken von {rail} können so nicht stehen."
        ),
    }
}

/// Feet of a rail tip sideways, and what would hold them bears no more.
#[must_use]
pub fn tips(tolerance: Length, rail: &str, reader: Reader) -> String {
    let by = reader.length(tolerance);
    match reader.language {
        Language::English => format!(
            "Rafters {by} off, each to its own side: feet of {rail} tend to tip sideways, and what would hold them bears no more."
        ),
        Language::German => format!(
            "Sparren um {by} versetzt, jeder zu seiner Seite: Grundplatten von {rail} neigen zum seitlichen Kippen, und was sie halten müsste, trägt nicht mehr."
        ),
    }
}

/// The steps of the job were spent before anything was tried.
#[must_use]
pub fn not_tried(tolerance: Length, reader: Reader) -> String {
    let by = reader.length(tolerance);
    match reader.language {
        Language::English => format!(
            "Rafters {by} off, each to its own side: not tried, the steps of the job were spent."
        ),
        Language::German => format!(
            "Sparren um {by} versetzt, jeder zu seiner Seite: nicht geprüft, die Rechenschritte des Auftrags waren verbraucht."
        ),
    }
}
