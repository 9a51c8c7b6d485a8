//! Where the counts of an order come from.

use crate::parts::tally::Tally;

use super::Language;

/// The reason of a count, in a few words.
#[must_use]
pub fn reason(tally: &Tally, language: Language) -> String {
    match language {
        Language::English => english(tally),
        Language::German => german(tally),
    }
}

fn english(tally: &Tally) -> String {
    match tally {
        Tally::PerField(fields) => each(fields, "field"),
        Tally::HooksOnRails { hooks, rails } => format!("{hooks} hooks on {rails} rails"),
        Tally::HooksAdded { hooks, there, rails } => {
            format!("{hooks} hooks added to {there} that are there, on {rails} rails")
        }
        Tally::ScrewsOfHooks { hooks, screws } => format!("{hooks} hooks × {screws} screws"),
        Tally::TilesOfHooks { hooks, tiles } => format!("{hooks} hooks × {tiles} tiles"),
        Tally::PackersUnderHooks { packers, hooks } => {
            format!("{packers} of this thickness under {hooks} hooks")
        }
        Tally::OnePerCrossing { crossings } => format!("{crossings} crossings × 1 connector"),
        Tally::BoltsOfHooks { hooks } => format!("{hooks} hooks × 1 bolt with nut"),
        Tally::BarsOfPlan { bars, all } => format!("cutting plan: {bars} of {all} bars"),
        Tally::PiecesOfSegments { pieces, segments } => {
            format!("{pieces} pieces make {segments} rail segments")
        }
        Tally::PiecesAdded { pieces, joints } => {
            format!("{pieces} pieces added, {joints} of them to ends of rails that are there")
        }
        Tally::MostOfPlaces { places } => {
            format!("the most at any of {places} places of the first rafter")
        }
        Tally::EndsAdded { ends } => format!("{ends} ends of rails that are added"),
        Tally::BetweenNeighbours => "one between two neighbours on every rail".to_owned(),
        Tally::EndsOfSegments { segments } => format!("{segments} rail segments × 2 ends"),
    }
}

fn german(tally: &Tally) -> String {
    match tally {
        Tally::PerField(fields) => each(fields, "Modulfeld"),
        Tally::HooksOnRails { hooks, rails } => format!("{hooks} Haken auf {rails} Schienen"),
        Tally::HooksAdded { hooks, there, rails } => {
            format!("{hooks} Haken zu {there} vorhandenen, auf {rails} Schienen")
        }
        Tally::ScrewsOfHooks { hooks, screws } => format!("{hooks} Haken × {screws} Schrauben"),
        Tally::TilesOfHooks { hooks, tiles } => format!("{hooks} Haken × {tiles} Ziegel"),
        Tally::PackersUnderHooks { packers, hooks } => {
            format!("{packers} dieser Dicke unter {hooks} Haken")
        }
        Tally::OnePerCrossing { crossings } => format!("{crossings} Kreuzungen × 1 Verbinder"),
        Tally::BoltsOfHooks { hooks } => format!("{hooks} Haken × 1 Schraube mit Mutter"),
        Tally::BarsOfPlan { bars, all } => format!("Zuschnitt: {bars} von {all} Stangen"),
        Tally::PiecesOfSegments { pieces, segments } => {
            format!("aus {pieces} Stücken werden {segments} Schienenabschnitte")
        }
        Tally::PiecesAdded { pieces, joints } => {
            format!("{pieces} neue Stücke, {joints} davon an Enden vorhandener Schienen")
        }
        Tally::MostOfPlaces { places } => {
            format!("das meiste aus {places} Lagen des ersten Sparrens")
        }
        Tally::EndsAdded { ends } => format!("{ends} neue Schienenenden"),
        Tally::BetweenNeighbours => "eine zwischen zwei Nachbarn auf jeder Schiene".to_owned(),
        Tally::EndsOfSegments { segments } => format!("{segments} Schienenabschnitte × 2 Enden"),
    }
}

/// The count of every field.
fn each(fields: &[(String, u64)], noun: &str) -> String {
    let each: Vec<String> = fields.iter().map(|(id, own)| format!("{noun} {id}: {own}")).collect();
    each.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every reason is given in every language, with the same figures.
    #[test]
    fn every_count_has_its_reason() {
        let figures = |said: &str| -> Vec<u64> {
            let words = said.split(|letter: char| !letter.is_ascii_digit());
            words.filter_map(|word| word.parse().ok()).collect()
        };
        for tally in Tally::samples() {
            let [english, german] = Language::ALL.map(|language| reason(&tally, language));
            assert_ne!(english, german, "{tally:?}");
            assert_eq!(figures(&english), figures(&german), "{tally:?}");
            for said in [english, german] {
                assert!(said.len() > 10 && !said.contains("  "), "{tally:?}: {said}");
            }
        }
    }
}
