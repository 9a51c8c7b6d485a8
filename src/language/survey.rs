//! What a survey says: why a rail cannot be straight, what would help, what is still to be measured.

use crate::survey::{Measurement, NoStack, Reason, Remedy};

use super::{Language, Reader};

/// Why packers and slots could not be chosen, hooks called by these names from left to right.
#[must_use]
pub fn obstruction(reason: &Reason, hooks: &[&str], reader: Reader) -> String {
    let list = |places: &[usize]| places.iter().map(|at| hooks[*at]).collect::<Vec<_>>().join(", ");
    let each = |without: &[NoStack]| {
        let said = without.iter().map(|hook| no_stack(hook, hooks[hook.hook], reader));
        said.collect::<Vec<_>>().join("; ")
    };
    match (reason, reader.language) {
        (Reason::NoStack(without), Language::English) => {
            format!("No stack of packers is right for some hooks: {}.", each(without))
        }
        (Reason::NoStack(without), Language::German) => {
            format!("Für manche Haken passt kein Stapel von Unterlegplatten: {}.", each(without))
        }
        (Reason::NotStraight { proud, low, by }, Language::English) => format!(
            "{} stand out too far and {} lie too low for one straight rail: the slots are {} short, \
             whatever the packers.",
            list(proud),
            list(low),
            reader.length(*by)
        ),
        (Reason::NotStraight { proud, low, by }, Language::German) => format!(
            "{} stehen zu weit vor und {} liegen zu tief für eine gerade Schiene: Den Langlöchern \
             fehlen {}, gleich mit welchen Unterlegplatten.",
            list(proud),
            list(low),
            reader.length(*by)
        ),
        (Reason::SlotShorterThanSteps { hooks }, Language::English) => format!(
            "The slots are shorter than the steps between stacks of packers, and no stacks bring {} \
             into line.",
            list(hooks)
        ),
        (Reason::SlotShorterThanSteps { hooks }, Language::German) => format!(
            "Die Langlöcher sind kürzer als die Stufen der Stapel, und keine Stapel bringen {} in \
             eine Flucht.",
            list(hooks)
        ),
    }
}

fn no_stack(without: &NoStack, hook: &str, reader: Reader) -> String {
    let needed = reader.length(without.needed);
    match (without.highest, reader.language) {
        (Some(highest), Language::English) => {
            format!("{hook} needs {needed}; the highest it can have is {}", reader.length(highest))
        }
        (Some(highest), Language::German) => {
            format!("{hook} braucht {needed}; möglich sind höchstens {}", reader.length(highest))
        }
        (None, Language::English) => format!(
            "{hook} needs {needed}, and the tile above leaves no room for the arm even without packers"
        ),
        (None, Language::German) => format!(
            "{hook} braucht {needed}, und der obere Ziegel lässt dem Arm auch ohne Unterlegplatten \
             keinen Raum"
        ),
    }
}

/// A change that makes a straight rail possible.
#[must_use]
pub fn remedy(remedy: &Remedy, hooks: &[&str], reader: Reader) -> String {
    match (remedy, reader.language) {
        (Remedy::LongerSlot { by }, Language::English) => {
            format!("hooks whose slots are {} longer", reader.length(*by))
        }
        (Remedy::LongerSlot { by }, Language::German) => {
            format!("Haken mit {} längeren Langlöchern", reader.length(*by))
        }
        (Remedy::HigherStack { to }, Language::English) => format!(
            "stacks of up to {}, where packers, screws and rules allow them",
            reader.length(*to)
        ),
        (Remedy::HigherStack { to }, Language::German) => format!(
            "Stapel bis {}, wo Unterlegplatten, Schrauben und Regeln das zulassen",
            reader.length(*to)
        ),
        (Remedy::LowerFace { hook, by }, Language::English) => {
            format!("{} planed off what the foot of {} bears on", reader.length(*by), hooks[*hook])
        }
        (Remedy::LowerFace { hook, by }, Language::German) => format!(
            "{} von dem abhobeln, worauf die Grundplatte von {} steht",
            reader.length(*by),
            hooks[*hook]
        ),
    }
}

/// What is to be measured at a hook, and what it decides.
#[must_use]
pub fn measurement(what: Measurement, hook: &str, reader: Reader) -> String {
    match (what, reader.language) {
        (Measurement::Clearance, Language::English) => format!(
            "Clearance between arm and tile below at hook {hook}, unloaded: it decides the packers."
        ),
        (Measurement::Clearance, Language::German) => format!(
            "Freiraum zwischen Arm und unterem Ziegel an Dachhaken {hook}, unbelastet: Er entscheidet \
             über die Unterlegplatten."
        ),
        (Measurement::Level, Language::English) => format!(
            "Bearing face at hook {hook} above a taut string along the rail: it decides packers and \
             slot."
        ),
        (Measurement::Level, Language::German) => format!(
            "Auflagefläche an Dachhaken {hook} über einer gespannten Schnur entlang der Schiene: Sie \
             entscheidet über Unterlegplatten und Langloch."
        ),
    }
}
