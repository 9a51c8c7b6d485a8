//! Why hooks added do not make a rail hold.

use crate::assessment::NoHelp;

use super::findings::label;
use super::{Language, Reader};

/// The reason in a sentence.
#[must_use]
pub fn no_help(why: &NoHelp, reader: Reader) -> String {
    match (why, reader.language) {
        (NoHelp::NotStable, Language::English) => {
            "The rail does not stand even with hooks on every free rafter.".to_owned()
        }
        (NoHelp::NotStable, Language::German) => {
            "Auch mit Dachhaken auf jedem freien Sparren steht die Schiene nicht.".to_owned()
        }
        (NoHelp::EndNotHeld, Language::English) => {
            "No free rafter is near enough to hold an end of the rail.".to_owned()
        }
        (NoHelp::EndNotHeld, Language::German) => {
            "Kein freier Sparren ist nahe genug, um ein Ende der Schiene zu halten.".to_owned()
        }
        (NoHelp::Governs { element, check, utilisation, combination }, language) => {
            let used = reader.utilisation(*utilisation);
            let check = label(*check, language);
            let element = self::element(element, language);
            match language {
                Language::English => format!(
                    "With hooks on every free rafter {element} governs with {check} {used} in \
                     {combination}."
                ),
                Language::German => format!(
                    "Mit Dachhaken auf jedem freien Sparren ist {element} maßgebend: {check} {used} \
                     in {combination}."
                ),
            }
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
        (Element::OnRafter(rafter), Language::English) => format!("a hook on rafter {rafter}"),
        (Element::OnRafter(rafter), Language::German) => {
            format!("ein Dachhaken auf Sparren {rafter}")
        }
    }
}
