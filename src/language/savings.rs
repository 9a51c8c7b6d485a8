//! What would save hooks or tiles: what is changed and what it saves; what one hook fewer would mean.

use crate::assessment::Utilisation;
use crate::assessment::remedies::{Change, Standing};
use crate::checks::Check;

use super::findings::label;
use super::remedies::{ask, change, effect, first_letter_up};
use super::{Language, Reader};

/// A saving in a few sentences: hooks and tiles that come off, without it and with it.
#[must_use]
pub fn saving(
    of: &Change,
    (before, after): (&Standing, &Standing),
    [then, now]: [u64; 2],
    reader: Reader,
) -> String {
    let changed = first_letter_up(&change(of, reader));
    let tiles = match (then == now, reader.language) {
        (true, Language::English) => format!("{now} tiles come off as before."),
        (true, Language::German) => format!("Wie zuvor werden {now} Ziegel aufgenommen."),
        (false, Language::English) => format!("{now} tiles come off instead of {then}."),
        (false, Language::German) => format!("{now} statt {then} Ziegel werden aufgenommen."),
    };
    let mut sentences = vec![format!("{changed}: {}", effect(before, after, reader)), tiles];
    sentences.extend(ask(of, reader));
    sentences.join(" ")
}

/// What one hook fewer would mean on a segment of a rail, counted from 1 where it has several.
#[must_use]
pub fn one_hook_fewer(
    (rail, segment): (&str, Option<usize>),
    hooks: usize,
    used: Option<(Check, Utilisation)>,
    exact: bool,
    reader: Reader,
) -> String {
    let (has, english) = (hooks + 1, reader.language == Language::English);
    let segment = segment.map_or_else(String::new, |number| {
        if english { format!(", segment {number},") } else { format!(", Abschnitt {number},") }
    });
    let Some((check, used)) = used else {
        return if english {
            format!(
                "{rail}{segment} with {hooks} hooks instead of {has}: not held within its free ends."
            )
        } else {
            format!(
                "{rail}{segment} mit {hooks} statt {has} Dachhaken: innerhalb der freien Enden nicht gehalten."
            )
        };
    };
    let (check, used) = (label(check, reader.language), reader.utilisation(used));
    match (exact, reader.language) {
        (true, Language::English) => {
            format!("{rail}{segment} with {hooks} hooks instead of {has}: {check} {used} at best.")
        }
        (true, Language::German) => {
            format!(
                "{rail}{segment} mit {hooks} statt {has} Dachhaken: {check} bestenfalls {used}."
            )
        }
        (false, Language::English) => format!(
            "{rail}{segment} with {hooks} hooks instead of {has}: {check} {used} in the best choice that was tried; not all were."
        ),
        (false, Language::German) => format!(
            "{rail}{segment} mit {hooks} statt {has} Dachhaken: {check} {used} in der besten Anordnung, die geprüft wurde; nicht alle wurden es."
        ),
    }
}
