//! Findings as sentences: one function a language, which has an arm for every fact or does not
//! compile.

mod english;
mod german;

use crate::assessment::Fact;
use crate::checks::Check;

use super::{Language, Reader, ordinal};

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

/// Modules, as the reader knows them.
fn modules_named(modules: &[String], say: Reader) -> String {
    modules.iter().map(|module| say.module(module)).collect::<Vec<_>>().join(", ")
}

/// What has these indices, by number, with commas between them and a word before the last.
fn numbers(indices: &[usize], and: &str) -> String {
    let mut words: Vec<String> = indices.iter().map(|index| ordinal(*index).to_string()).collect();
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
    use crate::language::{Medium, Units};
    use crate::units::Length;

    /// Whatever is found is said in every language and in both systems of units, with all that can be
    /// there and with nothing that need not.
    #[test]
    fn every_finding_has_its_sentence() {
        let media = [Medium::Data, Medium::Paper];
        for (full, medium) in [true, false].into_iter().flat_map(|full| media.map(|of| (full, of)))
        {
            for fact in samples(full) {
                let said = |language, units| sentence(&fact, Reader { language, units, medium });
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

    /// Whoever holds a sheet has no request: nothing is named there that only a request knows.
    #[test]
    fn paper_names_no_member_of_a_request() {
        for fact in samples(true).into_iter().chain(samples(false)) {
            for language in Language::ALL {
                let reader = Reader { language, medium: Medium::Paper, ..Reader::default() };
                let said = sentence(&fact, reader);
                let code = fact.kind().code;
                // Units and symbols of clauses are no riddles.
                let said = ["/m", "l_ef"].iter().fold(said, |said, known| said.replace(known, ""));
                assert!(!said.contains(['_', '`']), "{code}: {said}");
                let riddle = |mark: char| {
                    let after = said.split(mark).skip(1).filter_map(|rest| rest.chars().next());
                    after.into_iter().any(char::is_lowercase)
                };
                assert!(!riddle('.') && !riddle('/'), "{code}: {said}");
            }
        }
    }

    /// A fitter reads it on the roof.
    #[test]
    fn a_foot_that_rolls_is_told_in_two_short_sentences() {
        let roll = samples(true).into_iter().find(|fact| matches!(fact, Fact::FootRolls { .. }));
        let roll = roll.expect("one of every kind");
        for language in Language::ALL {
            let said = sentence(&roll, Reader { language, ..Reader::default() });
            assert_eq!(said.matches(". ").count(), 1, "{said}");
            assert!(said.chars().count() < 300 && !said.contains("wishes"), "{said}");
        }
    }

    /// Nobody stands a negative distance above anything.
    #[test]
    fn an_arm_that_is_too_low_is_told_by_how_much() {
        let low = |clearance| Fact::ClearanceBelowMinimum {
            hooks: Some(vec!["A1-1".to_owned()]),
            clearance: Length::from_mm(clearance),
            least: Length::from_mm(5.0),
            highest_stack: None,
        };
        for (clearance, language, told) in [
            (
                -22.0,
                Language::English,
                "Hooks A1-1: the arm is 27 mm too low: it would lie 22 mm below the top of the tile under it, and has to stand 5 mm above.",
            ),
            (
                1.5,
                Language::English,
                "Hooks A1-1: the arm is 3.5 mm too low: it stands 1.5 mm above the tile below, and 5 mm are asked for.",
            ),
            (
                -22.0,
                Language::German,
                "Dachhaken A1-1: Der Arm liegt 27 mm zu tief: 22 mm unter der Oberkante des unteren Ziegels, und 5 mm darüber sind verlangt.",
            ),
            (
                1.5,
                Language::German,
                "Dachhaken A1-1: Der Arm liegt 3,5 mm zu tief: 1,5 mm über dem unteren Ziegel, und 5 mm sind verlangt.",
            ),
        ] {
            let reader = Reader { language, ..Reader::default() };
            assert_eq!(sentence(&low(clearance), reader), told);
        }
    }

    #[test]
    fn numbers_are_told_as_people_tell_them() {
        assert_eq!(numbers(&[0], "and"), "1");
        assert_eq!(numbers(&[4, 5], "and"), "5 and 6");
        assert_eq!(numbers(&[4, 5, 9], "und"), "5, 6 und 10");
    }
}
