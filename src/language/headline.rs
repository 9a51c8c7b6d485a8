//! The verdict with its reason in one sentence, and one line for each cause.

use crate::assessment::{Assessment, Cause, Declaration, DeclaredBy, Fact, Reason, Scope, Spot};
use crate::assessment::{Utilisation, Value, Verdict};

use super::findings::sentence;
use super::{Language, Reader, ordinal};

/// The verdict and its reason, in one sentence.
#[must_use]
pub fn headline(assessed: &Assessment, reader: Reader) -> String {
    let verdict = verdict_on(assessed, reader.language);
    let (of, reason) = reason(assessed, reader);
    match (of, reader.language) {
        (1, _) => format!("{verdict}: {reason}"),
        (of, Language::English) => format!("{verdict}, for {of} reasons, first: {reason}"),
        (of, Language::German) => format!("{verdict}, aus {of} Gründen, zuerst: {reason}"),
    }
}

/// The worst verdict of the slopes of a building, each with its name, on which of them it is, and the reason
/// on the first of these, in one sentence.
#[must_use]
pub fn headline_of_slopes(slopes: &[(&str, &Assessment)], reader: Reader) -> String {
    let worst = slopes.iter().map(|(_, assessed)| assessed.verdict()).max();
    let concerned = slopes.iter().filter(|(_, assessed)| Some(assessed.verdict()) == worst);
    let ids: Vec<&str> = concerned.clone().map(|(id, _)| *id).collect();
    let Some((first, assessed)) = concerned.clone().next() else { return String::new() };
    if worst == Some(Verdict::Holds) {
        return headline(assessed, reader);
    }
    let verdict = verdict_on(assessed, reader.language);
    let (of, reason) = reason(assessed, reader);
    let all = ids.join(", ");
    match (ids.len(), of, reader.language) {
        (1, 1, Language::English) => format!("{verdict}, on slope {all}: {reason}"),
        (1, 1, Language::German) => format!("{verdict}, auf Dachfläche {all}: {reason}"),
        (1, of, Language::English) => {
            format!("{verdict}, on slope {all} for {of} reasons, first: {reason}")
        }
        (1, of, Language::German) => {
            format!("{verdict}, auf Dachfläche {all} aus {of} Gründen, zuerst: {reason}")
        }
        (_, 1, Language::English) => format!("{verdict}, on slopes {all}; on {first}: {reason}"),
        (_, 1, Language::German) => {
            format!("{verdict}, auf den Dachflächen {all}; auf {first}: {reason}")
        }
        (_, of, Language::English) => {
            format!("{verdict}, on slopes {all}; on {first} for {of} reasons, first: {reason}")
        }
        (_, of, Language::German) => format!(
            "{verdict}, auf den Dachflächen {all}; auf {first} aus {of} Gründen, zuerst: {reason}"
        ),
    }
}

/// The verdict in words, with what was not asked.
fn verdict_on(assessed: &Assessment, language: Language) -> String {
    let without: Vec<&str> = assessed.not_assessed().map(|of| scope(of, language)).collect();
    let verdict = verdict(assessed.verdict(), language);
    match (without.is_empty(), language) {
        (true, _) => verdict.to_owned(),
        (false, Language::English) => format!("{verdict} (not assessed: {})", without.join(", ")),
        (false, Language::German) => format!("{verdict} (nicht beurteilt: {})", without.join(", ")),
    }
}

/// How many reasons a verdict has, and the first in words.
fn reason(assessed: &Assessment, reader: Reader) -> (usize, String) {
    match assessed.reason() {
        Reason::Nothing => (1, nothing(reader.language).to_owned()),
        Reason::Found(finding, of) => (of, first_sentence(&finding.fact, reader)),
        Reason::Declared(taken, of) => (of, declared(&taken.declaration, reader.language)),
    }
}

/// What is found of one cause, in one line: the most serious place, and where else. The figures of one
/// place are told as those of others only where they are the same.
#[must_use]
pub fn line(cause: &Cause<'_>, reader: Reader) -> String {
    let said = sentence(&cause.first.fact, reader);
    if cause.others.is_empty() {
        return said;
    }
    let spots = cause.elsewhere();
    let more = if spots.is_empty() { cause.others.len() } else { spots.len() };
    let spots: Vec<String> = spots.iter().map(|at| spot(at, reader)).collect();
    let at = match (spots.is_empty(), reader.language) {
        (true, _) => String::new(),
        (false, Language::English) => format!(" at: {}", spots.join(", ")),
        (false, Language::German) => format!(" bei: {}", spots.join(", ")),
    };
    let how = cause.others_used().map_or_else(String::new, |range| between(range, reader));
    let how = if spots.is_empty() { how.trim_end_matches(',') } else { &*how };
    let rest = match (cause.is_alike(), cause.is_ranked(), reader.language) {
        (true, _, Language::English) if spots.is_empty() => format!("Found {more} more times."),
        (true, _, Language::German) if spots.is_empty() => format!("Noch {more}-mal festgestellt."),
        (true, _, Language::English) => format!("The same{at}."),
        (true, _, Language::German) => format!("Ebenso{at}."),
        (false, true, Language::English) => format!("This is the worst; {more} more{how}{at}."),
        (false, true, Language::German) => {
            format!("Das ist die ungünstigste Stelle; {more} weitere{how}{at}.")
        }
        (false, false, Language::English) => {
            format!("These figures are for this place only; {more} more with others{at}.")
        }
        (false, false, Language::German) => {
            format!("Diese Zahlen gelten nur hier; {more} weitere mit anderen{at}.")
        }
    };
    format!("{said} {rest}")
}

/// A range of utilisations, to go on with a sentence.
fn between(range: [Utilisation; 2], reader: Reader) -> String {
    let [low, high] = range.map(|used| reader.utilisation(used));
    match (low == high, reader.language) {
        (true, Language::English) => format!(", with {low},"),
        (true, Language::German) => format!(", mit {low},"),
        (false, Language::English) => format!(", from {low} to {high},"),
        (false, Language::German) => format!(", von {low} bis {high},"),
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

fn spot(spot: &Spot, reader: Reader) -> String {
    match (spot, reader.language) {
        (Spot::Named(name), _) => reader.module(name),
        (Spot::Rafter(number), Language::English) => format!("rafter {}", ordinal(*number)),
        (Spot::Rafter(number), Language::German) => format!("Sparren {}", ordinal(*number)),
        (Spot::Obstacle(place), Language::English) => format!("obstacle {}", ordinal(*place)),
        (Spot::Obstacle(place), Language::German) => format!("Hindernis {}", ordinal(*place)),
        (Spot::Side(side), Language::English) => format!("side {}", ordinal(*side)),
        (Spot::Side(side), Language::German) => format!("Seite {}", ordinal(*side)),
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

    /// A reason is a whole sentence, in every language, and no piece of one.
    #[test]
    fn the_first_sentence_of_every_fact_stands_by_itself() {
        for fact in samples(true).into_iter().chain(samples(false)) {
            for language in Language::ALL {
                let reader = Reader { language, ..Reader::default() };
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
