//! The verdict with its reason in one sentence, and one line for each cause.

use crate::assessment::{Assessment, Cause, Declaration, DeclaredBy, Fact, Reason, Scope, Spot};
use crate::assessment::{Value, Verdict};

use super::findings::sentence;
use super::{Language, Reader};

/// The verdict and its reason, in one sentence.
#[must_use]
pub fn headline(assessed: &Assessment, reader: Reader) -> String {
    let language = reader.language;
    let without: Vec<&str> = assessed.not_assessed().map(|of| scope(of, language)).collect();
    let verdict = verdict(assessed.verdict(), language);
    let verdict = match (without.is_empty(), language) {
        (true, _) => verdict.to_owned(),
        (false, Language::English) => format!("{verdict} (not assessed: {})", without.join(", ")),
        (false, Language::German) => format!("{verdict} (nicht beurteilt: {})", without.join(", ")),
    };
    let (of, reason) = match assessed.reason() {
        Reason::Nothing => (1, nothing(language).to_owned()),
        Reason::Found(finding, of) => (of, first_sentence(&finding.fact, reader)),
        Reason::Declared(taken, of) => (of, declared(&taken.declaration, language)),
    };
    match (of, language) {
        (1, _) => format!("{verdict}: {reason}"),
        (of, Language::English) => format!("{verdict}, for {of} reasons, first: {reason}"),
        (of, Language::German) => format!("{verdict}, aus {of} Gründen, zuerst: {reason}"),
    }
}

/// What is found of one cause, in one line: the most serious place, and where else.
#[must_use]
pub fn line(cause: &Cause<'_>, reader: Reader) -> String {
    let said = sentence(&cause.first.fact, reader);
    let elsewhere: Vec<String> =
        cause.elsewhere().iter().map(|at| spot(at, reader.language)).collect();
    let (all, elsewhere) = (cause.others.len() + 1, elsewhere.join(", "));
    match (all, elsewhere.is_empty(), reader.language) {
        (1, _, _) => said,
        (_, true, Language::English) => format!("{said} Found {all} times."),
        (_, true, Language::German) => format!("{said} Insgesamt {all}-mal festgestellt."),
        (_, false, Language::English) => format!("{said} The same at: {elsewhere}."),
        (_, false, Language::German) => format!("{said} Ebenso bei: {elsewhere}."),
    }
}

/// A ground of declarations in words.
#[must_use]
pub const fn ground(by: DeclaredBy, language: Language) -> &'static str {
    match (by, language) {
        (DeclaredBy::Tested, Language::English) => "tested",
        (DeclaredBy::Tested, Language::German) => "geprüft durch Versuche",
        (DeclaredBy::Approved, Language::English) => "approved",
        (DeclaredBy::Approved, Language::German) => "durch Zulassung gedeckt",
        (DeclaredBy::OtherParty, Language::English) => "verified by another party",
        (DeclaredBy::OtherParty, Language::German) => "von anderer Seite nachgewiesen",
        (DeclaredBy::NotApplicable, Language::English) => "not applicable",
        (DeclaredBy::NotApplicable, Language::German) => "nicht zutreffend",
    }
}

/// A scope in words.
#[must_use]
pub const fn scope(scope: Scope, language: Language) -> &'static str {
    match (scope, language) {
        (Scope::Fixing, Language::English) => "fixing",
        (Scope::Fixing, Language::German) => "Befestigung",
        (Scope::Rail, Language::English) => "rails",
        (Scope::Rail, Language::German) => "Schienen",
        (Scope::Modules, Language::English) => "modules",
        (Scope::Modules, Language::German) => "Module",
        (Scope::Rafters, Language::English) => "rafters",
        (Scope::Rafters, Language::German) => "Sparren",
        (Scope::Covering, Language::English) => "covering",
        (Scope::Covering, Language::German) => "Deckung",
        (Scope::Data, Language::English) => "data",
        (Scope::Data, Language::German) => "Angaben",
    }
}

/// A declaration as a sentence.
fn declared(declaration: &Declaration, language: Language) -> String {
    let Declaration { check, by, who, document } = declaration;
    let (code, by) = (check.code, ground(*by, language));
    match language {
        Language::English => format!("{who} answers for {code} ({by}, {document})."),
        Language::German => format!("{who} steht für {code} ein ({by}, {document})."),
    }
}

const fn verdict(verdict: Verdict, language: Language) -> &'static str {
    let words = language.words();
    match (verdict, language) {
        (Verdict::Holds, _) => words.holds,
        (Verdict::HoldsWithWarnings, _) => words.holds_with_warnings,
        (Verdict::Fails, _) => words.fails,
        (Verdict::Incomplete, Language::English) => "Incomplete",
        (Verdict::Incomplete, Language::German) => "Unvollständig",
    }
}

const fn nothing(language: Language) -> &'static str {
    match language {
        Language::English => "every check that was asked for ran and passed.",
        Language::German => "Jeder verlangte Nachweis wurde geführt und ist erfüllt.",
    }
}

fn spot(spot: &Spot, language: Language) -> String {
    match (spot, language) {
        (Spot::Named(name), _) => name.clone(),
        (Spot::Rafter(number), Language::English) => format!("rafter {number}"),
        (Spot::Rafter(number), Language::German) => format!("Sparren {number}"),
        (Spot::Obstacle(place), Language::English) => format!("obstacle {place}"),
        (Spot::Obstacle(place), Language::German) => format!("Hindernis {place}"),
        (Spot::Side(side), Language::English) => format!("side {side}"),
        (Spot::Side(side), Language::German) => format!("Seite {side}"),
    }
}

/// The first sentence of what is said of a fact: it says what is so; others say more of it.
fn first_sentence(fact: &Fact, reader: Reader) -> String {
    let said = sentence(fact, reader);
    // A name is the caller's and may itself look like the end of a sentence.
    let names = fact.parameters().into_iter().flat_map(|(_, value)| match value {
        Value::Name(name) => vec![name],
        Value::Names(names) => names,
        _ => Vec::new(),
    });
    let names: Vec<String> = names.filter(|name| name.contains('.')).collect();
    let within_name = |at: usize| {
        names.iter().any(|name| {
            let mut found = said.match_indices(name.as_str());
            found.any(|(start, _)| start <= at && at < start + name.len())
        })
    };
    let ends = said.match_indices(". ").map(|(at, _)| at);
    let end = ends.filter(|at| !within_name(*at)).find(|at| {
        let next = said[at + 2..].chars().next();
        next.is_some_and(|next| next.is_uppercase() || next.is_numeric())
    });
    end.map_or_else(|| said.clone(), |at| said[..=at].to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::samples;
    use crate::language::Units;

    /// A reason is a whole sentence, in every language, and no piece of one.
    #[test]
    fn the_first_sentence_of_every_fact_stands_by_itself() {
        for fact in samples(true).into_iter().chain(samples(false)) {
            for language in Language::ALL {
                let reader = Reader { language, units: Units::Metric };
                let reason = first_sentence(&fact, reader);
                let code = fact.kind().code;
                assert!(reason.ends_with('.') && reason.len() > 20, "{code}: {reason}");
                let opened = reason.matches('(').count();
                assert_eq!(opened, reason.matches(')').count(), "{code}: {reason}");
                assert!(!reason[..reason.len() - 1].contains(". "), "{code}: {reason}");
            }
        }
    }

    #[test]
    fn a_name_ends_no_sentence() {
        let rail = "Mill. East".to_owned();
        let fact = Fact::TooFewHooks { rail, hooks: 1 };
        let said = first_sentence(&fact, Reader::default());
        assert!(said.starts_with("Rail Mill. East needs two hooks"), "{said}");
    }
}
