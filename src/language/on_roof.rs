//! Texts of the page that is used on the roof: for the fitter, with one hand, in the sun.

use super::Language;

macro_rules! texts {
    ($($name:ident: $english:literal, $german:literal;)+) => {
        /// Every text of the page in one language.
        #[derive(Debug)]
        pub struct OnRoof {
            $(#[doc = $english] pub $name: &'static str,)+
        }

        impl OnRoof {
            /// Every text with its name, for the script of the page.
            pub fn all(&self) -> impl Iterator<Item = (&'static str, &'static str)> {
                [$((stringify!($name), self.$name)),+].into_iter()
            }
        }

        const ENGLISH: OnRoof = OnRoof { $($name: $english,)+ };
        const GERMAN: OnRoof = OnRoof { $($name: $german,)+ };
    };
}

texts! {
    title: "On the roof", "Auf dem Dach";
    about: "Measure hook by hook. Everything is kept on this phone and sent whenever there is a network.",
        "Haken für Haken messen. Alles bleibt auf diesem Telefon und wird gesendet, sobald Netz da ist.";
    other_language: "Deutsch", "English";
    before_you_climb: "Before you climb", "Vor dem Aufsteigen";
    begin: "Begin", "Beginnen";
    choose_job: "Choose a file with the job", "Datei mit dem Auftrag wählen";
    take_example: "Take an example (illustrative)", "Ein Beispiel nehmen (zur Anschauung)";
    needs_script: "This page needs a script that this browser does not run. Use the form on the printed sheet.",
        "Diese Seite braucht ein Skript, das dieser Browser nicht ausführt. Das Formblatt auf dem gedruckten Blatt verwenden.";
    not_a_job: "This file is not a job in JSON.", "Diese Datei ist kein Auftrag in JSON.";
    planning: "The service plans the hooks …", "Der Dienst plant die Haken …";
    cannot_plan: "The service could not be reached, and this job has no hooks yet. Try again where there is a network.",
        "Der Dienst war nicht erreichbar, und dieser Auftrag hat noch keine Haken. Mit Netz erneut versuchen.";
    refused_job: "The service refuses this job:", "Der Dienst weist diesen Auftrag zurück:";
    verdict: "Verdict", "Ergebnis";
    sent: "Everything entered is in this verdict, of", "Alles Eingegebene ist in diesem Ergebnis, von";
    sending: "Being sent …", "Wird gesendet …";
    not_sent: "Not sent yet: kept on this phone. It is sent by itself when there is a network.",
        "Noch nicht gesendet: auf diesem Telefon aufbewahrt. Wird mit Netz von selbst gesendet.";
    before_these: "Last verdict, before what was entered since, of", "Letztes Ergebnis, vor dem seither Eingegebenen, von";
    no_verdict: "No verdict yet.", "Noch kein Ergebnis.";
    not_judged: "No verdict of what was entered last", "Kein Ergebnis zum zuletzt Eingegebenen";
    unread: "Not sent, because something entered is no number. Correct it or leave it blank, at",
        "Nicht gesendet, weil etwas Eingegebenes keine Zahl ist. Berichtigen oder leer lassen, bei";
    so_far: "So far:", "Bis jetzt:";
    not_measured: "Hooks without clearance or level:", "Dachhaken ohne Freiraum oder Höhe:";
    as_planned: "They are judged as planned.", "Sie sind wie geplant beurteilt.";
    no_hooks: "This job has no rails and hooks to measure.", "Dieser Auftrag hat keine Schienen und Dachhaken zum Messen.";
    refused: "The service refuses what was entered:", "Der Dienst weist das Eingegebene zurück:";
    not_kept: "This phone cannot keep it: do not close this page before everything is sent.",
        "Dieses Telefon kann es nicht aufbewahren: Seite nicht schließen, bevor alles gesendet ist.";
    holds: "✓ Holds", "✓ Nachweis erfüllt";
    holds_with_warnings: "✓ Holds, with warnings", "✓ Nachweis erfüllt, mit Warnungen";
    fails: "✗ Fails: stop", "✗ Nicht eingehalten: anhalten";
    incomplete: "? Incomplete: not everything is verified", "? Unvollständig: nicht alles nachgewiesen";
    reasons: "Why", "Warum";
    hook: "Hook", "Dachhaken";
    of_rail: "of rail", "an Schiene";
    planned_x: "Rafter planned at x", "Sparren geplant bei x";
    planned_packers: "Packers planned", "Unterlegplatten geplant";
    packers_now: "Packers to use", "Unterlegplatten zu verwenden";
    slot_now: "Bolt in its slot, from the end near the roof", "Schraube im Langloch, vom dachnahen Ende";
    none: "none", "keine";
    not_yet: "not yet known", "noch nicht bekannt";
    measured: "Measured here", "Hier gemessen";
    leave_blank: "Leave blank what you did not measure.", "Nicht Gemessenes leer lassen.";
    rafter_x: "Axis of the rafter from the left end of the eaves", "Sparrenachse vom linken Traufende";
    rafter_width: "Width of the rafter", "Breite des Sparrens";
    counter_batten: "Thickness of the counter-batten", "Dicke der Konterlatte";
    screw_length: "Length of the screws", "Länge der Schrauben";
    clearance: "Clearance between arm and tile below, where it is least, with the packers planned",
        "Freiraum zwischen Arm und Ziegel darunter, wo er am kleinsten ist, mit den geplanten Unterlegplatten";
    level: "Face under the packers above (+) or below (−) the string", "Fläche unter den Unterlegplatten über (+) oder unter (−) der Schnur";
    room_above: "Room between arm and tile above, with the packers planned",
        "Luft zwischen Arm und Ziegel darüber, mit den geplanten Unterlegplatten";
    side_joint: "Arm to the nearest side joint", "Arm zur nächsten Seitenfuge";
    condition: "Rafter", "Sparren";
    not_looked: "not looked at", "nicht angesehen";
    sound: "sound", "gesund";
    split: "split", "gerissen";
    rotten: "rotten", "faul";
    no_number: "This is no number. Write it like 1240 or 12.5, without a sign between thousands.",
        "Das ist keine Zahl. Wie 1240 oder 12,5 schreiben, ohne Zeichen zwischen Tausendern.";
    done: "Done here", "Hier erledigt";
    screwed: "Screwed into the rafter", "In den Sparren geschraubt";
    packed: "Packers in place", "Unterlegplatten eingebaut";
    closed: "Tiles closed and fixed again", "Ziegel geschlossen und wieder befestigt";
    may_close: "This rail may be closed once packers, slots and screws are as said.",
        "Diese Schiene darf geschlossen werden, sobald Unterlegplatten, Langlöcher und Schrauben wie angegeben sind.";
    stays_open: "Leave this rail open for now.", "Diese Schiene vorerst offen lassen.";
    closed_too_soon: "Ticked as closed, though the rail should still be open:",
        "Als geschlossen angekreuzt, obwohl die Schiene noch offen bleiben soll:";
    closed_unsure: "Ticked as closed, though it is not known yet whether the rail may be:",
        "Als geschlossen angekreuzt, obwohl noch nicht bekannt ist, ob die Schiene es sein darf:";
    photos: "Photos: the names of their files are kept, the pictures stay on the phone",
        "Fotos: die Dateinamen werden vermerkt, die Bilder bleiben auf dem Telefon";
    take_photo: "Add a photo", "Foto hinzufügen";
    remove: "Remove", "Entfernen";
    note: "Note", "Notiz";
    next_to_measure: "Next to measure", "Als Nächstes messen";
    suggested: "Suggested change, and the verdict with it", "Vorgeschlagene Änderung und das Ergebnis damit";
    take_off: "Take off", "Abnehmen";
    set_anew: "Set anew, with packers and screws of", "Neu setzen, mit Unterlegplatten und Schrauben von";
    add: "Add a hook", "Dachhaken hinzufügen";
    rafter: "rafter", "Sparren";
    record: "As-built record", "Ausführungsprotokoll";
    record_about: "The record has everything entered here, with ticks, photos' names and notes. What was not sent is marked.",
        "Es enthält alles hier Eingegebene, mit Häkchen, Fotonamen und Notizen. Nicht Gesendetes ist gekennzeichnet.";
    save_record: "Save the record as a file", "Als Datei sichern";
    open_sheet: "Open the sheet to print", "Blatt zum Drucken öffnen";
    forget: "Remove this job from the phone", "Diesen Auftrag vom Telefon entfernen";
    forget_surely: "Press again to remove it for good", "Zum endgültigen Entfernen nochmals drücken";
    previous: "Back", "Zurück";
    next: "Next", "Weiter";
    hooks: "Hooks", "Dachhaken";
    access: "Key of the service, if it asks for one; kept on this phone", "Schlüssel des Dienstes, falls er einen verlangt; bleibt auf diesem Telefon";
    failed_sheet: "The sheet needs a network.", "Das Blatt braucht Netz.";
}

impl OnRoof {
    /// Those of a language.
    #[must_use]
    pub const fn of(language: Language) -> &'static Self {
        match language {
            Language::English => &ENGLISH,
            Language::German => &GERMAN,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_text_is_empty_or_left_in_english() {
        for ((name, english), (_, german)) in ENGLISH.all().zip(GERMAN.all()) {
            assert!(!english.is_empty() && !german.is_empty(), "{name}");
            assert_ne!(english, german, "{name}");
        }
    }
}
