//! Quantities of the trace and reasons of parts in German: what an answer still says in English,
//! sentence by sentence.
//!
//! A sentence that is not here is shown as it is and marked as English. Figures within a sentence
//! are carried over in their order.

use crate::language::Language;

/// A sentence of the answer in another language; nothing where it is English already or unknown.
pub fn translated(english: &str, language: Language) -> Option<String> {
    match language {
        Language::English => None,
        Language::German => german(english),
    }
}

fn german(english: &str) -> Option<String> {
    let (pattern, figures) = without_figures(english);
    let (_, german) = SENTENCES.iter().find(|(known, _)| *known == pattern)?;
    let mut figures = figures.into_iter();
    let mut out = String::with_capacity(german.len());
    for letter in german.chars() {
        match letter {
            FIGURE => out.push_str(&figures.next().unwrap_or_default()),
            other => out.push(other),
        }
    }
    Some(out)
}

/// Stands for a figure.
const FIGURE: char = '#';

/// A sentence with a mark for each figure that stands by itself, and the figures.
fn without_figures(text: &str) -> (String, Vec<String>) {
    let mut figures = Vec::new();
    let words: Vec<String> = text
        .split(' ')
        .map(|word| {
            if word.parse::<f64>().is_err() {
                return word.to_owned();
            }
            figures.push(word.to_owned());
            FIGURE.to_string()
        })
        .collect();
    (words.join(" "), figures)
}

/// English and German.
#[rustfmt::skip]
const SENTENCES: &[(&str, &str)] = &[
    // Why so many parts are needed.
    ("# hooks on # rails", "# Haken auf # Schienen"),
    ("# hooks × # screws", "# Haken × # Schrauben"),
    ("# hooks × # tiles", "# Haken × # Ziegel"),
    ("# hooks × # bolt with nut", "# Haken × # Schraube mit Mutter"),
    ("# rail segments × # ends", "# Schienenabschnitte × # Enden"),
    ("# pieces make # rail segments", "aus # Stücken werden # Schienenabschnitte"),
    ("# of this thickness under # hooks", "# dieser Dicke unter # Haken"),
    ("cutting plan: # of # bars", "Zuschnitt: # von # Stangen"),
    ("one between two neighbours on every rail", "eine zwischen zwei Nachbarn auf jeder Schiene"),
    // Quantities.
    ("ground snow load", "Schneelast am Boden"),
    ("snow shape coefficient", "Formbeiwert der Schneelast"),
    ("exposure coefficient", "Umgebungskoeffizient"),
    ("thermal coefficient", "Temperaturkoeffizient"),
    ("snow load on the roof", "Schneelast auf dem Dach"),
    ("snow square to the slope", "Schnee senkrecht zur Dachfläche"),
    ("snow down the slope", "Schnee hangabwärts"),
    ("exceptional ground snow", "außergewöhnliche Schneelast am Boden"),
    ("basic velocity pressure", "Basisgeschwindigkeitsdruck"),
    ("basic wind velocity", "Basiswindgeschwindigkeit"),
    ("rise with altitude", "Erhöhung mit der Meereshöhe"),
    ("roughness factor", "Rauigkeitsbeiwert"),
    ("mean wind velocity", "mittlere Windgeschwindigkeit"),
    ("turbulence intensity", "Turbulenzintensität"),
    ("peak velocity pressure", "Böengeschwindigkeitsdruck"),
    ("loaded area of fixings", "Lasteinzugsfläche der Befestigungen"),
    ("loaded area of modules", "Lasteinzugsfläche der Module"),
    ("loaded area of rafters", "Lasteinzugsfläche der Sparren"),
    ("person at work on the roof", "Person bei Arbeiten auf dem Dach"),
    ("weight of a module", "Gewicht eines Moduls"),
    ("weight of a clamp", "Gewicht einer Klemme"),
    ("weight of the rail", "Gewicht der Schiene"),
    ("headlap", "Höhenüberdeckung"),
    ("top of the lower tile above the battens' underside", "Oberkante des unteren Ziegels über der Lattenunterseite"),
    ("clearance without packers", "Freiraum ohne Unterlegplatten"),
    ("clearance with packers", "Freiraum mit Unterlegplatten"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::layout::LayoutRequest;
    use crate::model::parts::PartKind;
    use crate::service::layout::run;
    use crate::service::request::Options;

    /// Whatever quantities and reasons the examples give are said in German.
    #[test]
    fn every_quantity_and_reason_of_the_examples_has_its_german() {
        let mut texts = Vec::new();
        for job in [
            include_str!("../../../tests/data/layout-barn.json"),
            include_str!("../../../tests/data/layout-cottage.json"),
        ] {
            let request: LayoutRequest = serde_json::from_str(job).expect("a request");
            let options = Options { trace: true, ..Options::default() };
            let answer = run(&request, String::new(), &options).expect("no fault");
            let trace = answer.trace.expect("asked for");
            texts.extend(trace.into_iter().filter(|l| l.element.is_empty()).map(|l| l.quantity));
            // The reason of the modules lists names of fields.
            let lines = answer.parts.lines.into_iter();
            texts.extend(lines.filter(|line| line.kind != PartKind::Module).map(|line| line.why));
        }
        let missing: Vec<&String> = texts.iter().filter(|text| german(text).is_none()).collect();
        assert!(texts.len() > 30, "only {} were looked at", texts.len());
        assert_eq!(missing, Vec::<&String>::new());
    }

    #[test]
    fn figures_are_carried_over() {
        assert_eq!(german("44 hooks on 4 rails").as_deref(), Some("44 Haken auf 4 Schienen"));
        assert_eq!(german("a sentence nobody has written"), None);
    }
}
