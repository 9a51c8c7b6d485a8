//! Warnings and cautions in the languages other than that of the answer, by code.

use crate::language::Language;

/// What a warning says in a word, where the answer's own message is in another language.
pub fn warning(code: &str, language: Language) -> Option<&'static str> {
    match language {
        Language::English => None,
        Language::German => find(WARNINGS, code),
    }
}

/// A caution in another language than the answer's.
pub fn caution(code: &str, language: Language) -> Option<&'static str> {
    match language {
        Language::English => None,
        Language::German => find(CAUTIONS, code),
    }
}

fn find(table: &[(&str, &'static str)], code: &str) -> Option<&'static str> {
    table.iter().find(|(known, _)| *known == code).map(|(_, text)| *text)
}

/// Warnings in German.
#[rustfmt::skip]
const WARNINGS: &[(&str, &str)] = &[
    ("rail.no-hook-pattern-passes", "Keine Anordnung der Dachhaken an dieser Schiene besteht alle Nachweise."),
    ("rail.free-end-too-long", "Der äußerste Sparren liegt zu weit vom Schienenende: Kragarm zu lang."),
    ("rail.too-few-rafters", "Unter dem Schienenabschnitt liegen weniger als zwei nutzbare Sparren."),
    ("rail.not-stable", "Gelenkige Stöße machen die Schiene beweglich."),
    ("array.inside-obstacle-clearance", "Module liegen im freizuhaltenden Streifen um ein Hindernis."),
    ("rail.rails-overlap", "Zwei Schienen liegen übereinander oder berühren sich."),
    ("hook.foot-longer-than-bay", "Die Grundplatte ist länger als der lichte Abstand der Traglatten."),
    ("hook.foot-does-not-fit", "Die Grundplatte stünde auf einem Ziegelkopf oder unter einer Traglatte: Der Dachhaken passt nicht unter diese Deckung."),
    ("hook.foot-off-roof", "Die Grundplatte eines Dachhakens stünde außerhalb der Dachfläche oder auf einem Hindernis."),
    ("rail.off-roof", "Eine Schiene läuft über den Rand der Dachfläche hinaus oder in ein Hindernis."),
    ("parts.invented", "Teile aus dem eingebauten Beispielsatz sind erfunden: kein Ergebnis für ein wirkliches Dach."),
    ("roof.edge-not-computed", "Wind oder Schnee an einer Seite der Dachfläche (Grat, Kehle, Wandanschluss, Versatz) ist nicht berechnet."),
    ("snow.guard-not-computed", "Ein Schneefang steht auf der Fläche, der Schnee gilt aber nicht als gehalten: Die Last darüber wäre zu klein."),
    ("rafter.cut-by-opening", "Eine Öffnung schneidet einen Sparren; die Last auf den Sparren daneben ist nicht berechnet."),
    ("covering.below-rule-pitch", "Das Dach ist flacher als jede Regeldachneigung dieser Deckung: Dachdecker fragen."),
    ("search.not-ranked", "Die Anzahl der Dachhaken ist bewiesen; die am wenigsten ausgelastete Anordnung davon nicht."),
    ("search.spread-for-rafters", "Die wenigsten Dachhaken überlasten einen Sparren; sie sind auf mehr Sparren verteilt."),
    ("rail.no-course-in-clamp-zone", "Keine Ziegelreihe erlaubt eine Schiene innerhalb der Klemmbereiche der Module."),
    ("clearance.below-minimum", "Der Hakenarm liegt näher am unteren Ziegel als verlangt."),
    ("screw.too-short", "Schraube zu kurz: weniger als 6 d Gewinde im Sparren."),
    ("module.overloaded", "Die Last auf ein Modul übersteigt, was es trägt."),
    ("clamp.overloaded", "Der Sog auf eine Klemme übersteigt, was sie hält."),
    ("rafter.overloaded", "Ein Sparren versagt auf Biegung oder Schub."),
    ("hook.overloaded", "Ein Dachhaken ist über seine Tragfähigkeit belastet."),
    ("screw.overloaded", "Die Schrauben eines Dachhakens sind über ihre Tragfähigkeit belastet."),
    ("clearance.closes-under-load", "Der Hakenarm setzt unter Last auf dem unteren Ziegel auf."),
    ("rail.overloaded", "Eine Schiene ist über ihre Biegefestigkeit belastet."),
    ("rail.deflects-too-far", "Eine Schiene biegt sich weiter durch als erlaubt."),
    ("rail.too-few-hooks", "Weniger als zwei Dachhaken halten einen Teil einer Schiene."),
    ("rail.outside-clamp-zone", "Eine Schiene liegt, wo die Module nicht geklemmt werden dürfen."),
    ("array.row-without-two-rails", "Module einer Reihe liegen nicht auf zwei Schienen."),
    ("rail.longer-than-continuous", "Eine Schiene ist ohne Dehnfuge länger, als ihre Ausdehnung erlaubt."),
    ("hook.misses-rafter", "Unter einem Dachhaken liegt kein Sparren: er zählt nicht als tragend."),
    ("hook.beyond-rail-end", "Ein Dachhaken steht außerhalb seiner Schiene oder in einer Dehnfuge: er zählt nicht als tragend."),
    ("hook.on-another-hook", "Zwei Dachhaken einer Schiene stehen an einer Stelle: der zweite zählt nicht."),
    ("packers.stack-too-high", "Der Stapel der Unterlegplatten ist höher als zulässig."),
    ("screw.outside-rules", "Die Regeln erfassen die Schraube oder ihre Abstände nicht: nicht nachgewiesen."),
    ("screw.too-near-rafter-edge", "Eine Schraube steht näher am Sparrenrand, als die Regeln erlauben."),
    ("screw.too-near-another", "Zwei Schrauben stehen näher beieinander, als die Regeln erlauben."),
    ("hook.resistance-basis-unknown", "Worauf die Tragfähigkeit des Dachhakens beruht, ist unbekannt."),
    ("clearance.stiffness-unknown", "Die Steifigkeit des Dachhakens fehlt: Freiraum unter Last nicht nachgewiesen."),
    ("layers.insulation-under-foot", "Die Schrauben queren Dämmung: Sache der Tragwerksplanung."),
    ("clamp.short-side-zone-unknown", "Für das Klemmen an der kurzen Seite ist kein Klemmbereich angegeben."),
    ("rail.splice-outside-rules", "Ein Schienenstoß liegt im Endfeld, im Kragarm, am Dachhaken oder unter einer Klemme."),
    ("rail.splice-in-middle-third", "Ein Schienenstoß liegt im mittleren Drittel eines Feldes."),
    ("parts.cutting-not-proven", "Der Zuschnitt der Schienen geht auf; dass er der beste ist, ist nicht bewiesen."),
    ("search.limit-reached", "Die Suche wurde abgebrochen; weniger Dachhaken könnten reichen."),
    ("hook.arm-off-rafter-axis", "Hakenarme stehen neben der Sparrenachse: prüfen, ob die Hakenwerte dafür gelten."),
    ("hook.foot-tight-in-bay", "Die Grundplatte füllt den Platz zwischen den Traglatten; Ziegelköpfe ragen hinein."),
    ("screw.near-counter-batten-edge", "Schrauben stehen nahe am Rand der Konterlattung: Spaltgefahr."),
    ("foot.edge-presses-into-timber", "Die Kante der Grundplatte drückt sich ins Holz; die Schrauben ziehen stärker als berechnet."),
    ("screw.edge-under-sideways-load", "Der Randabstand der Schrauben reicht für die seitliche Last nicht."),
    ("screw.longer-than-rafter", "Die Schraube tritt unter dem Sparren aus."),
    ("rafter.not-verified", "Ohne Spannweite sind die Sparren nicht nachgewiesen."),
    ("rafter.added-load", "Die Anlage erhöht die ständige Last eines Sparrens um mehr als 15 %."),
    ("snow.table-from-memory", "Die Schneelast folgt einer nicht nachgeschlagenen Tabelle: mit der Norm vergleichen."),
    ("roof.plan-mismatch", "Umriss und Gebäudebreite passen nicht zu einem Satteldach dieser Neigung."),
    ("rail.expansion-gap-needs-room", "An der Dehnfuge reicht der Modulabstand nicht für zwei Endklemmen."),
    ("clamp.gap-differs", "Der Modulabstand ist nicht der, den die Mittelklemme ergibt."),
    ("rail.off-course-line", "Eine Schiene liegt nicht, wo ihre Hakenarme aus der Deckung träten."),
    ("rail.end-shorter-than-clamp", "Die Schiene endet vor der Endklemme."),
    ("hook.no-trough-in-reach", "Manche Sparren nehmen keinen Dachhaken auf, weil kein Wellental erreichbar ist."),
    ("hook.foot-meets-batten-or-tile", "Die Grundplatte steht zwischen Ziegelkopf und Traglatte nicht frei: tiefer setzen oder zuschneiden."),
    ("tile.arm-along-joint-below", "Der Hakenarm liegt über einer Seitenfuge der Reihe darunter."),
    ("tile.notch-deeper-than-tile", "Die nötige Ausklinkung ist tiefer, als der Ziegel dick ist: Ersatzziegel nehmen."),
    ("survey.no-stack-clears-tile", "Kein Stapel von Unterlegplatten hält den Hakenarm vom unteren und vom oberen Ziegel frei."),
    ("survey.rail-not-straight", "Mit diesen Unterlegplatten und Langlöchern wird die Schiene nicht gerade."),
    ("survey.not-measured", "Maße fehlen: Unterlegplatten können nicht gewählt werden."),
    ("survey.search-ended", "Die Suche nach Unterlegplatten wurde abgebrochen."),
    ("survey.slot-nearly-used-up", "Ein Langloch ist fast ausgeschöpft."),
    ("survey.packing-not-proven", "Dass weniger Unterlegplatten nicht reichen, ist nicht bewiesen."),
];

/// Cautions in German.
#[rustfmt::skip]
const CAUTIONS: &[(&str, &str)] = &[
    ("work-at-height", "Arbeit auf dem Dach kann töten. Gerüst und Absturzsicherung kommen vor allem anderen; Deckung, Fenster und Platten tragen unter Umständen niemanden."),
    ("not-an-approval", "Dies ist eine Rechenhilfe. Sie gibt nichts frei und ersetzt weder Tragwerksplanung noch Dachdecker-Fachbetrieb noch die Anleitungen der verwendeten Teile."),
    ("local-rules-first", "Örtliches Baurecht, Nationale Anhänge in gültiger Fassung und die Fachregeln des Dachdeckerhandwerks gehen diesem Ergebnis vor."),
    ("check-on-site", "Das Ergebnis ist so gut wie die Maße. Weichen Sparren, Latten, Schichten oder Ziegel ab: anhalten und neu rechnen."),
    ("old-roof", "Beschädigte, veränderte oder durchhängende Dachstühle und Nagelplattenbinder gehören vor jeder Zusatzlast in die Hand der Tragwerksplanung."),
    ("asbestos", "Alte Faserzementplatten können Asbest enthalten. Nicht bohren, schneiden oder betreten; prüfen lassen und Fachbetrieben überlassen."),
    ("electrical", "Module stehen bei Tageslicht unter Spannung. Elektroarbeiten, Erdung und Blitzschutz gehören zu Elektrofachkräften."),
    ("sliding-snow", "Schnee rutscht plötzlich von Modulen. Auf das achten, was darunter liegt; Schneefänge müssen für die Anlage bemessen sein."),
    ("weathertightness", "Jede geöffnete Reihe muss wieder liegen wie zuvor und befestigt sein; unter der Regeldachneigung sind Zusatzmaßnahmen nötig."),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::{cautions, warnings};

    #[test]
    fn every_code_has_its_text_in_every_language() {
        let mut missing = Vec::new();
        for kind in warnings::CATALOGUE {
            missing.extend(find(WARNINGS, kind.code).is_none().then_some(kind.code));
        }
        for kind in cautions::CAUTIONS {
            missing.extend(find(CAUTIONS, kind.code).is_none().then_some(kind.code));
        }
        assert_eq!(missing, Vec::<&str>::new());
    }

    #[test]
    fn no_text_is_left_of_a_code_that_is_gone() {
        for (code, _) in WARNINGS {
            assert!(warnings::CATALOGUE.iter().any(|kind| kind.code == *code), "{code}");
        }
        for (code, _) in CAUTIONS {
            assert!(cautions::CAUTIONS.iter().any(|caution| caution.code == *code), "{code}");
        }
    }
}
