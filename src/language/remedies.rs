//! What would lift the failing checks of a layout: what is changed, what that leaves, what to ask.

use crate::assessment::remedies::{Change, Move, Remedy, Standing};
use crate::units::Length;

use super::{Language, Reader};

/// A remedy in a few sentences.
#[must_use]
pub fn remedy(remedy: &Remedy, before: &Standing, reader: Reader) -> String {
    let and = match reader.language {
        Language::English => ", and ",
        Language::German => " und ",
    };
    let changes: Vec<String> = remedy.changes.iter().map(|of| change(of, reader)).collect();
    let changes = first_letter_up(&changes.join(and));
    let mut sentences = vec![format!("{changes}: {}", effect(before, &remedy.after, reader))];
    sentences.push(left(&remedy.after, reader.language));
    sentences.extend(open(&remedy.after.new_incomplete(before), reader.language));
    sentences.extend(remedy.changes.iter().filter_map(|of| ask(of, reader)));
    sentences.join(" ")
}

/// Hooks and highest utilisation, with and without.
pub(super) fn effect(before: &Standing, after: &Standing, reader: Reader) -> String {
    let [then, now] = [before, after].map(|of| reader.utilisation(of.used));
    let hooks = match (before.hooks == after.hooks, reader.language) {
        (true, Language::English) => format!("{} hooks as before", after.hooks),
        (true, Language::German) => format!("wie zuvor {} Dachhaken", after.hooks),
        (false, Language::English) => format!("{} hooks instead of {}", after.hooks, before.hooks),
        (false, Language::German) => format!("{} statt {} Dachhaken", after.hooks, before.hooks),
    };
    if now == then {
        return match reader.language {
            Language::English => format!("{hooks}, highest utilisation {now}."),
            Language::German => format!("{hooks}, höchste Auslastung {now}."),
        };
    }
    match reader.language {
        Language::English => format!("{hooks}, highest utilisation {now} instead of {then}."),
        Language::German => format!("{hooks}, höchste Auslastung {now} statt {then}."),
    }
}

/// What still fails, by code.
fn left(after: &Standing, language: Language) -> String {
    let failing = after.failing.join(", ");
    match (after.is_cured(), language) {
        (true, Language::English) => "Nothing fails any more.".to_owned(),
        (true, Language::German) => "Damit ist kein Nachweis mehr verfehlt.".to_owned(),
        (false, Language::English) => format!("Still failing: {failing}."),
        (false, Language::German) => format!("Weiterhin verfehlt: {failing}."),
    }
}

/// What is not verified with it, by code.
fn open(codes: &[&str], language: Language) -> Option<String> {
    let codes = (!codes.is_empty()).then(|| codes.join(", "))?;
    Some(match language {
        Language::English => format!("Not verified with it: {codes}."),
        Language::German => format!("Damit nicht nachgewiesen: {codes}."),
    })
}

/// A change as the beginning of a sentence.
pub(super) fn change(change: &Change, say: Reader) -> String {
    let length = |of: &Length| say.length(*of);
    match (change, say.language) {
        (Change::AnyPattern, Language::English) => "let the hooks stand in any pattern".to_owned(),
        (Change::AnyPattern, Language::German) => {
            "die Dachhaken in beliebiger Anordnung setzen".to_owned()
        }
        (Change::WiderSearch { weighed }, Language::English) => {
            format!("weigh up to {weighed} patterns of a rail segment")
        }
        (Change::WiderSearch { weighed }, Language::German) => {
            format!("bis zu {weighed} Anordnungen je Schienenabschnitt prüfen")
        }
        (Change::MoveAlong(moves), language) => {
            let way = match language {
                Language::English => ["to the right", "to the left"],
                Language::German => ["nach rechts", "nach links"],
            };
            moved(moves, way, say)
        }
        (Change::MoveUp(moves), language) => {
            let way = match language {
                Language::English => ["up the slope", "down the slope"],
                Language::German => ["nach oben", "nach unten"],
            };
            moved(moves, way, say)
        }
        (Change::RailEnds { from, to }, Language::English) => format!(
            "let the rails run {} beyond the modules instead of {}",
            length(to),
            length(from)
        ),
        (Change::RailEnds { from, to }, Language::German) => format!(
            "die Schienen {} statt {} über die Module hinausführen",
            length(to),
            length(from)
        ),
        (Change::HigherPackers { clearance, stack, .. }, Language::English) => format!(
            "pack the feet {} high and so ask for a clearance of {} before load",
            length(stack),
            length(clearance)
        ),
        (Change::HigherPackers { clearance, stack, .. }, Language::German) => format!(
            "die Grundplatten {} hoch unterlegen und so vor der Belastung {} Freiraum verlangen",
            length(stack),
            length(clearance)
        ),
        (Change::ScrewLength { from, to, thread }, Language::English) => format!(
            "take screws {} long instead of {}, with {} of thread",
            length(to),
            length(from),
            length(thread)
        ),
        (Change::ScrewLength { from, to, thread }, Language::German) => format!(
            "Schrauben von {} statt {} Länge nehmen, mit {} Gewinde",
            length(to),
            length(from),
            length(thread)
        ),
        (Change::ThickerScrew { from, to, .. }, Language::English) => {
            format!("take screws of {} diameter instead of {}", length(to), length(from))
        }
        (Change::ThickerScrew { from, to, .. }, Language::German) => {
            format!("Schrauben mit {} statt {} Durchmesser nehmen", length(to), length(from))
        }
        (Change::WiderFoot { from, to, width }, language) => {
            wider_foot([*from, *to], *width, (language, say))
        }
    }
}

fn moved(moves: &[Move], [ahead, back]: [&str; 2], say: Reader) -> String {
    let each = moves.iter().map(|Move { name, by, .. }| {
        let way = if *by < Length::ZERO { back } else { ahead };
        let by = say.length(by.abs());
        match say.language {
            Language::English => format!("field {name} {by} {way}"),
            Language::German => format!("Feld {name} um {by} {way}"),
        }
    });
    let each = each.collect::<Vec<_>>().join(", ");
    match say.language {
        Language::English => format!("move {each}"),
        Language::German => format!("{each} verschieben"),
    }
}

fn wider_foot(
    [from, to]: [Length; 2],
    width: Length,
    (language, say): (Language, Reader),
) -> String {
    let width = say.length(width);
    let [before, after] = [from, to].map(|of| say.length(of));
    match (from == to, language) {
        (true, Language::English) => format!("take a hook with a foot {width} wide"),
        (true, Language::German) => {
            format!("einen Dachhaken mit {width} breiter Grundplatte nehmen")
        }
        (false, Language::English) => format!(
            "take a hook with a foot {width} wide, whose arm can sit {after} instead of {before} to either side of the rafter axis"
        ),
        (false, Language::German) => format!(
            "einen Dachhaken mit {width} breiter Grundplatte nehmen, dessen Arm {after} statt {before} neben der Sparrenachse sitzen kann"
        ),
    }
}

/// What the maker of the other part is to be asked.
pub(super) fn ask(change: &Change, say: Reader) -> Option<String> {
    let text = match (change, say.language) {
        (
            Change::AnyPattern
            | Change::WiderSearch { .. }
            | Change::MoveAlong(_)
            | Change::MoveUp(_)
            | Change::RailEnds { .. }
            | Change::HigherPackers { limit: None, piece: None, .. },
            _,
        ) => return None,
        (Change::HigherPackers { stack, limit: Some(_), .. }, Language::English) => format!(
            "Ask the maker of the packers whether they may be stacked to {}.", say.length(*stack)
        ),
        (Change::HigherPackers { stack, limit: Some(_), .. }, Language::German) => format!(
            "Beim Hersteller der Unterlegplatten erfragen, ob sie {} hoch gestapelt werden dürfen.",
            say.length(*stack)
        ),
        (Change::HigherPackers { piece: Some(piece), .. }, Language::English) => {
            format!("This takes a packer of {} that is not among those given.", say.length(*piece))
        }
        (Change::HigherPackers { piece: Some(piece), .. }, Language::German) => format!(
            "Dazu gehört eine Unterlegplatte von {}, die nicht angegeben ist.",
            say.length(*piece)
        ),
        (Change::ScrewLength { .. }, Language::English) => {
            "All other figures of the screw are kept as declared: ask its maker for its thread at this length.".to_owned()
        }
        (Change::ScrewLength { .. }, Language::German) => {
            "Alle anderen Werte der Schraube sind die angegebenen: Beim Hersteller die Gewindelänge zu dieser Länge erfragen.".to_owned()
        }
        (Change::ThickerScrew { .. }, Language::English) => {
            "Its core and withdrawal parameter are taken low, tension and yield moment from the thinner screw: ask its maker for them, and the hook's whether the holes of the foot take it.".to_owned()
        }
        (Change::ThickerScrew { .. }, Language::German) => {
            "Kerndurchmesser und Ausziehparameter sind niedrig angesetzt, Zugtragfähigkeit und Fließmoment von der dünneren Schraube übernommen: Beim Hersteller der Schraube diese Werte und bei dem des Dachhakens erfragen, ob die Löcher der Grundplatte passen.".to_owned()
        }
        (Change::WiderFoot { .. }, Language::English) => {
            "The declared resistance and stiffness of the hook are kept: ask its maker whether they hold with this foot.".to_owned()
        }
        (Change::WiderFoot { .. }, Language::German) => {
            "Angegebene Tragfähigkeit und Steifigkeit des Dachhakens sind beibehalten: Beim Hersteller erfragen, ob sie mit dieser Grundplatte gelten.".to_owned()
        }
    };
    Some(text)
}

pub(super) fn first_letter_up(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::{Utilisation, Verdict};
    use crate::language::Units;
    use crate::units::Stress;

    fn standing(failing: &[&'static str], hooks: usize, used: f64) -> Standing {
        Standing {
            verdict: Verdict::Fails,
            failing: failing.to_vec(),
            incomplete: Vec::new(),
            warnings: Vec::new(),
            hooks,
            used: Utilisation::sample(used),
        }
    }

    /// One of each kind; a new one does not compile before it has its words.
    fn all() -> Vec<Change> {
        let mm = Length::from_mm;
        let moves =
            [12.0, -7.0].map(|by| Move { field: 0, name: "A".to_owned(), by: mm(by) }).to_vec();
        let packers = |limit, piece| Change::HigherPackers {
            clearance: mm(9.0),
            stack: mm(12.0),
            limit,
            piece,
        };
        vec![
            Change::AnyPattern,
            Change::WiderSearch { weighed: 2_000_000 },
            Change::MoveAlong(moves.clone()),
            Change::MoveUp(moves),
            Change::RailEnds { from: mm(40.0), to: mm(52.0) },
            packers(None, None),
            packers(Some(mm(12.0)), None),
            packers(None, Some(mm(12.0))),
            Change::ScrewLength { from: mm(140.0), to: mm(180.0), thread: mm(80.0) },
            Change::ThickerScrew {
                from: mm(8.0),
                to: mm(10.0),
                core: mm(6.0),
                withdrawal: Some(Stress::from_n_per_mm2(9.8)),
            },
            Change::WiderFoot { from: mm(45.0), to: mm(60.0), width: mm(170.0) },
            Change::WiderFoot { from: mm(45.0), to: mm(45.0), width: mm(170.0) },
        ]
    }

    #[test]
    fn every_remedy_has_its_sentences() {
        let before = standing(&["screw.overloaded", "rail.free-end-too-long"], 17, 1.4);
        for change in all() {
            for failing in [&[][..], &["rail.free-end-too-long"]] {
                let after = standing(failing, 6, 0.93);
                let of = Remedy { changes: vec![change.clone()], after };
                let said = |language, units| {
                    remedy(&of, &before, Reader { language, units, ..Reader::default() })
                };
                for units in Units::ALL {
                    let all = Language::ALL.map(|language| said(language, units));
                    for text in &all {
                        assert!(text.ends_with('.') && !text.contains(".."), "{text}");
                        assert!(text.chars().next().is_some_and(char::is_uppercase), "{text}");
                        assert!(text.contains("17") && text.contains('6'), "{text}");
                    }
                    assert_ne!(all[0], all[1]);
                }
                for language in Language::ALL {
                    let imperial = said(language, Units::Imperial);
                    assert!(!imperial.contains(" mm"), "{imperial}");
                }
            }
        }
    }

    #[test]
    fn a_remedy_reads_as_people_say_it() {
        let (before, after) = (standing(&["screw.overloaded"], 17, 1.4), standing(&[], 6, 0.93));
        let mm = Length::from_mm;
        let change = Change::ScrewLength { from: mm(140.0), to: mm(180.0), thread: mm(80.0) };
        let said = remedy(&Remedy { changes: vec![change], after }, &before, Reader::default());
        let begins = "Take screws 180 mm long instead of 140 mm, with 80 mm of thread: 6 hooks \
                      instead of 17, highest utilisation 93.0 % instead of 140.0 %. Nothing fails any \
                      more. All other figures";
        assert!(said.starts_with(begins), "{said}");
    }
}
