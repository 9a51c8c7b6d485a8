//! Why hooks added do not make a rail hold.

use crate::assessment::{FreePlaces, NoHelp};

use super::findings::label;
use super::{Language, Reader, ordinal};

/// The reason in a sentence, where hooks are added in such places.
#[must_use]
pub fn no_help(why: &NoHelp, places: FreePlaces, reader: Reader) -> String {
    let (every_free, no_free) = free(places, reader.language);
    match (why, reader.language) {
        (NoHelp::NotStable, Language::English) => {
            format!("The rail does not stand even with hooks {every_free}.")
        }
        (NoHelp::NotStable, Language::German) => {
            format!("Auch mit Dachhaken {every_free} steht die Schiene nicht.")
        }
        (NoHelp::EndNotHeld, Language::English) => {
            format!("{no_free} is near enough to hold an end of the rail.")
        }
        (NoHelp::EndNotHeld, Language::German) => {
            format!("{no_free} ist nahe genug, um ein Ende der Schiene zu halten.")
        }
        (NoHelp::Governs { element, check, utilisation, combination }, language) => {
            let used = reader.utilisation(*utilisation);
            let check = label(*check, language);
            let element = self::element(element, language);
            match language {
                Language::English => format!(
                    "With hooks {every_free} {element} governs with {check} {used} in \
                     {combination}."
                ),
                Language::German => format!(
                    "Mit Dachhaken {every_free} ist {element} maßgebend: {check} {used} \
                     in {combination}."
                ),
            }
        }
    }
}

/// Every free place for a hook, and none.
const fn free(places: FreePlaces, language: Language) -> (&'static str, &'static str) {
    match (places, language) {
        (FreePlaces::Rafters, Language::English) => ("on every free rafter", "No free rafter"),
        (FreePlaces::Courses, Language::English) => ("under every free course", "No free course"),
        (FreePlaces::Rafters, Language::German) => {
            ("auf jedem freien Sparren", "Kein freier Sparren")
        }
        (FreePlaces::Courses, Language::German) => {
            ("unter jeder freien Ziegelreihe", "Keine freie Ziegelreihe")
        }
    }
}

fn element(element: &crate::assessment::Element, language: Language) -> String {
    use crate::assessment::Element;
    match (element, language) {
        (Element::Rail, Language::English) => "the rail".to_owned(),
        (Element::Rail, Language::German) => "die Schiene".to_owned(),
        (Element::Hook(name), Language::English) => format!("hook {name}"),
        (Element::Hook(name), Language::German) => format!("Dachhaken {name}"),
        (Element::OnRafter(rafter), Language::English) => {
            format!("a hook on rafter {}", ordinal(*rafter))
        }
        (Element::OnRafter(rafter), Language::German) => {
            format!("ein Dachhaken auf Sparren {}", ordinal(*rafter))
        }
        (Element::UnderCourse(course), Language::English) => {
            format!("a hook under course {}", course + 1)
        }
        (Element::UnderCourse(course), Language::German) => {
            format!("ein Dachhaken unter Ziegelreihe {}", course + 1)
        }
    }
}
