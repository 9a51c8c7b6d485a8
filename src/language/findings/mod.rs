//! Findings as sentences: one function a language, which has an arm for every fact or does not
//! compile.

mod english;
mod german;

use crate::assessment::Fact;
use crate::checks::Check;

use super::{Language, Reader};

/// What was found, in a sentence or two: what and where. What would help is said of nothing that was not
/// tried.
#[must_use]
pub fn sentence(fact: &Fact, reader: Reader) -> String {
    match reader.language {
        Language::English => english::sentence(fact, reader),
        Language::German => german::sentence(fact, reader),
    }
}

/// A check in words.
#[must_use]
pub const fn label(check: Check, language: Language) -> &'static str {
    match language {
        Language::English => english::label(check),
        Language::German => german::label(check),
    }
}

/// Hooks that a sentence begins with, where they are not all of them.
fn whose(hooks: Option<&Vec<String>>, noun: &str) -> String {
    hooks.map_or_else(String::new, |hooks| format!("{noun} {}: ", hooks.join(", ")))
}

/// Numbers with commas between them and a word before the last.
fn numbers(numbers: &[usize], and: &str) -> String {
    let mut words: Vec<String> = numbers.iter().map(usize::to_string).collect();
    match (words.pop(), words.is_empty()) {
        (None, _) => String::new(),
        (Some(only), true) => only,
        (Some(last), false) => format!("{} {and} {last}", words.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::samples;
    use crate::language::Units;

    /// Whatever is found is said in every language and in both systems of units, with all that can be
    /// there and with nothing that need not.
    #[test]
    fn every_finding_has_its_sentence() {
        for full in [true, false] {
            for fact in samples(full) {
                let said = |language, units| sentence(&fact, Reader { language, units });
                for units in Units::ALL {
                    let all = Language::ALL.map(|language| said(language, units));
                    for sentence in &all {
                        let ends = sentence.ends_with('.');
                        assert!(ends && sentence.len() > 20, "{}: {sentence}", fact.kind().code);
                        let riddles = ["  ", "{", "..", " .", "None", "Some"];
                        let riddle = riddles.iter().find(|riddle| sentence.contains(**riddle));
                        assert_eq!(riddle, None, "{}: {sentence}", fact.kind().code);
                    }
                    assert_ne!(all[0], all[1], "{}", fact.kind().code);
                }
                for language in Language::ALL {
                    let imperial = said(language, Units::Imperial);
                    for metric in [" mm", " kN", " m²"] {
                        assert!(!imperial.contains(metric), "{}: {imperial}", fact.kind().code);
                    }
                }
            }
        }
    }

    #[test]
    fn numbers_are_told_as_people_tell_them() {
        assert_eq!(numbers(&[4], "and"), "4");
        assert_eq!(numbers(&[4, 5], "and"), "4 and 5");
        assert_eq!(numbers(&[4, 5, 9], "und"), "4, 5 und 9");
    }
}
