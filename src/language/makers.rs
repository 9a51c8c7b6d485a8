//! The maker's form: names of the figures of parts, and why a plain `holds` needs them.

use super::Language;

macro_rules! rows {
    ($(#[$doc:meta])* $name:ident { $($key:literal: $english:literal, $german:literal;)+ }) => {
        $(#[$doc])*
        #[must_use]
        pub fn $name(key: &str, language: Language) -> Option<&'static str> {
            const ROWS: &[(&str, [&str; 2])] = &[$(($key, [$english, $german])),+];
            let (_, [english, german]) = ROWS.iter().find(|(of, _)| *of == key)?;
            Some(match language {
                Language::English => english,
                Language::German => german,
            })
        }

        #[cfg(test)]
        mod $name {
            /// Every key there is a text for.
            pub const KEYS: &[&str] = &[$($key),+];
        }
    };
}

rows! {
    /// Name of a member of a part, by kind of part and pointer inside it.
    member {
        "hook/id": "Article", "Artikel";
        "hook/name": "Name", "Bezeichnung";
        "hook/resistance/press_kn": "Resistance pressing on the roof", "Tragfähigkeit, drückend auf das Dach";
        "hook/resistance/lift_kn": "Resistance lifting off the roof", "Tragfähigkeit, abhebend vom Dach";
        "hook/resistance/slope_kn": "Resistance down the slope", "Tragfähigkeit in Richtung der Dachneigung";
        "hook/resistance/kind": "Design or characteristic values", "Bemessungs- oder charakteristische Werte";
        "hook/resistance/partial_factor": "Partial factor of characteristic values", "Teilsicherheitsbeiwert charakteristischer Werte";
        "hook/resistance/basis": "What the resistances rest on", "Worauf die Tragfähigkeiten beruhen";
        "hook/resistance/includes_bolt": "Resistances include rail bolt and slot", "Tragfähigkeiten schließen Schienenschraube und Langloch ein";
        "hook/resistance/includes_offset_mm": "Distance of the rail's axis from the bolt that is included", "Abstand der Schienenachse von der Schraube, der eingeschlossen ist";
        "hook/stiffness/normal_kn_per_mm": "Stiffness square to the roof", "Steifigkeit senkrecht zum Dach";
        "hook/stiffness/includes_foot": "Stiffness square to the roof measured on a hook screwed to timber", "Steifigkeit senkrecht zur Dachfläche an einem auf Holz verschraubten Haken gemessen";
        "hook/stiffness/slope_kn_per_mm": "Stiffness along the slope", "Steifigkeit in Richtung der Dachneigung";
        "hook/arm/underside_height_mm": "Underside of the arm above the underside of the foot", "Unterkante des Arms über Unterkante der Grundplatte";
        "hook/arm/underside_at_bolt_mm": "Underside of the arm below the rail bolt", "Unterkante des Arms unter der Schienenschraube";
        "hook/arm/thickness_mm": "Thickness of the arm", "Dicke des Arms";
        "hook/arm/width_mm": "Width of the arm", "Breite des Arms";
        "hook/arm/reach_mm": "From the foot's lower edge down the slope to the rail bolt", "Von der Unterkante der Grundplatte in Dachneigung bis zur Schienenschraube";
        "hook/arm/bolt_height_mm": "Height of the rail bolt, slot in the middle", "Höhe der Schienenschraube, Langloch in Mittelstellung";
        "hook/arm/bolt_beyond_exit_mm": "From the tail edge of the tile down the slope to the rail bolt", "Von der Unterkante des Ziegels in Dachneigung bis zur Schienenschraube";
        "hook/arm/grade": "Steel of the arm", "Stahl des Arms";
        "hook/arm/load_aside_mm": "Distance of the rail's bearing to the side of the arm's axis", "Seitlicher Abstand der Schienenauflage von der Achse des Arms";
        "hook/bolt/diameter_mm": "Diameter of the rail bolt", "Durchmesser der Schienenschraube";
        "hook/bolt/class": "Strength class of the rail bolt", "Festigkeitsklasse der Schienenschraube";
        "hook/bolt/slot_slip_kn": "What the tightened bolt holds along its slot", "Was die angezogene Schraube längs des Langlochs hält";
        "hook/slot_range_mm": "Range of the slot", "Verstellbereich des Langlochs";
        "hook/foot/length_mm": "Length of the foot along the slope", "Länge der Grundplatte in Richtung der Dachneigung";
        "hook/foot/width_mm": "Width of the foot", "Breite der Grundplatte";
        "hook/foot/thickness_mm": "Thickness of the foot", "Dicke der Grundplatte";
        "hook/foot/lateral_range_mm": "How far the arm can sit to either side", "Wie weit der Arm nach beiden Seiten sitzen kann";
        "hook/foot/screws_mm": "Screws: from the axis | from the lower edge; the next", "Schrauben: von der Achse | von der Unterkante; die nächste";
        "hook/mass_kg": "Mass", "Masse";
        "hook/substitute_tiles": "Metal substitute tiles for one hook", "Metall-Ersatzziegel je Haken";

        "screw/id": "Article", "Artikel";
        "screw/diameter_mm": "Outer diameter of the thread", "Außendurchmesser des Gewindes";
        "screw/core_diameter_mm": "Core diameter of the thread", "Kerndurchmesser des Gewindes";
        "screw/length_mm": "Length under the head", "Länge unter dem Kopf";
        "screw/thread_length_mm": "Length of the thread", "Gewindelänge";
        "screw/point_mm": "Length of the point", "Länge der Spitze";
        "screw/head_diameter_mm": "Diameter of the head", "Kopfdurchmesser";
        "screw/withdrawal_n_per_mm2": "Characteristic withdrawal parameter", "Charakteristischer Ausziehparameter";
        "screw/withdrawal_density_kg_per_m3": "Density of the timber it is stated for", "Rohdichte des Holzes, für die er gilt";
        "screw/tension_kn": "Characteristic tension capacity", "Charakteristische Zugtragfähigkeit";
        "screw/yield_moment_nmm": "Characteristic yield moment", "Charakteristisches Fließmoment";
        "screw/predrilled": "Holes are drilled before driving", "Löcher werden vorgebohrt";
        "screw/spacings/a1_mm": "Least distance between screws along the grain", "Mindestabstand der Schrauben in Faserrichtung";
        "screw/spacings/a2_mm": "Least distance between screws across the grain", "Mindestabstand der Schrauben quer zur Faser";
        "screw/spacings/edge_mm": "Least distance to an edge of the timber", "Mindestabstand zum Holzrand";
        "screw/spacings/timber_mm": "Least thickness of the timber", "Mindestdicke des Holzes";
        "screw/spacings/source": "Where the distances are stated", "Wo die Abstände stehen";

        "rail/id": "Article", "Artikel";
        "rail/material": "Material", "Werkstoff";
        "rail/depth_mm": "Height of the profile", "Höhe des Profils";
        "rail/i_normal_mm4": "Second moment of area, load square to the roof", "Flächenträgheitsmoment, Last senkrecht zum Dach";
        "rail/i_slope_mm4": "Second moment of area, load along the slope", "Flächenträgheitsmoment, Last in Dachneigung";
        "rail/w_normal_mm3": "Section modulus, load square to the roof", "Widerstandsmoment, Last senkrecht zum Dach";
        "rail/w_slope_mm3": "Section modulus, load along the slope", "Widerstandsmoment, Last in Dachneigung";
        "rail/modulus_n_per_mm2": "Elastic modulus", "Elastizitätsmodul";
        "rail/proof_strength_n_per_mm2": "Characteristic 0.2 % proof strength", "Charakteristische 0,2-%-Dehngrenze";
        "rail/mass_kg_per_m": "Mass per metre", "Masse je Meter";
        "rail/stock_lengths_mm": "Lengths it is delivered in", "Lieferlängen";
        "rail/kerf_mm": "Width of a saw cut", "Breite eines Sägeschnitts";
        "rail/max_cantilever_mm": "Longest free end", "Größte Auskragung";
        "rail/max_continuous_mm": "Longest rail without an expansion gap", "Größte Länge ohne Dehnfuge";
        "rail/end_projection_mm": "Length beyond the outermost module", "Überstand über das äußerste Modul";
        "rail/deflection_limit_ratio": "Deflection limit: span over", "Grenze der Durchbiegung: Stützweite durch";
        "rail/splice": "What a splice passes on", "Was ein Stoß überträgt";
        "rail/splice_moment/normal_knm": "Design moment of a splice, load square to the roof", "Bemessungsmoment des Stoßes, Last senkrecht zum Dach";
        "rail/splice_moment/slope_knm": "Design moment of a splice, load along the slope", "Bemessungsmoment des Stoßes, Last in Dachneigung";
        "rail/crossing/lift_kn": "Design force lifting a crossing rail off, of its connector", "Bemessungswert eines Kreuzverbinders gegen Abheben";
        "rail/crossing/slide_kn": "Design force along the lower of two crossing rails, of their connector", "Bemessungswert eines Kreuzverbinders längs der unteren Schiene";
        "rail/groove_slip_kn": "What the bolt at a hook, tightened in the groove, holds along the rail", "Was die in der Nut angezogene Schraube an einem Haken längs der Schiene hält";
        "rail/splice_force_kn": "Design force along its axis that a splice passes on", "Bemessungswert der Normalkraft, die ein Stoß weitergibt";
        "rail/area_mm2": "Area of the section", "Querschnittsfläche";
        "rail/effective_share": "Share of the section moduli that counts", "Wirksamer Anteil der Widerstandsmomente";
        "rail/splice_length_mm": "Length of rail a splice takes", "Schienenlänge, die ein Stoß braucht";
        "rail/load_height_mm": "Height above the bolts at which the modules push", "Höhe über den Schrauben, in der die Module schieben";
        "rail/axis_offset_mm": "Axis of the rail from the bolt", "Schienenachse ab Schraube";

        "clamp/id": "Article", "Artikel";
        "clamp/mid_gap_mm": "Gap a mid clamp makes", "Fuge, die eine Mittelklemme lässt";
        "clamp/lift_kn": "Design lift of one clamp", "Bemessungswert abhebend je Klemme";
        "clamp/slope_kn": "Design resistance against slip down the slope", "Bemessungswert gegen Abrutschen in Dachneigung";
        "clamp/slope_stop_kn": "Design resistance of a stop below the lowest row", "Bemessungswert eines Anschlags unter der untersten Reihe";
        "clamp/mass_kg": "Mass", "Masse";
        "clamp/end_width_mm": "Rail an end clamp needs", "Schiene, die eine Endklemme braucht";

        "module/length_mm": "Long side", "Lange Seite";
        "module/width_mm": "Short side", "Kurze Seite";
        "module/thickness_mm": "Height of the frame", "Rahmenhöhe";
        "module/mass_kg": "Mass", "Masse";
        "module/clamp_zone_mm": "Clamp zone of the long side, from its ends", "Klemmbereich der langen Seite, von ihren Enden";
        "module/short_side_clamp_zone_mm": "Clamp zone of the short side, from its ends", "Klemmbereich der kurzen Seite, von ihren Enden";
        "module/press_capacity_kn_per_m2": "Design pressure", "Bemessungswert Druck";
        "module/lift_capacity_kn_per_m2": "Design suction", "Bemessungswert Sog";
    }
}

rows! {
    /// A word of the wire that is chosen on the form. What is no word, such as a steel grade, stays as it is.
    choice {
        "true": "yes", "ja";
        "false": "no", "nein";
        "design": "design values", "Bemessungswerte";
        "characteristic": "characteristic values", "charakteristische Werte";
        "test": "tests", "Versuche";
        "approval": "approval", "Zulassung";
        "calculation": "calculation", "Berechnung";
        "unknown": "unknown", "unbekannt";
        "stiff": "moments: stiff", "Momente: biegesteif";
        "hinge": "no moments: a hinge", "keine Momente: Gelenk";
    }
}

rows! {
    /// Why a figure is needed, by the code of the finding a job has without it.
    why {
        "screw.outside-rules": "The rules for withdrawal cover threads of 6 to 12 mm whose core is 0.6 to 0.75 of that.", "Die Regeln für das Ausziehen gelten für Gewinde von 6 bis 12 mm, deren Kern 0,6 bis 0,75 davon misst.";
        "screw.too-near-rafter-edge": "On narrow rafters the rules ask for more distance to the edge than there is; the approval of the screw may allow less.", "Auf schmalen Sparren verlangen die Regeln mehr Randabstand, als da ist; die Zulassung der Schraube kann weniger erlauben.";
        "screw.too-near-another": "In small feet the rules ask for more distance between screws than there is; their approval may allow less.", "In kleinen Grundplatten verlangen die Regeln mehr Schraubenabstand, als da ist; ihre Zulassung kann weniger erlauben.";
        "screw.rafter-too-thin": "The rules cover timber from 12 diameters; the approval of the screw may allow less.", "Die Regeln gelten für Holz ab 12 Durchmessern; die Zulassung der Schraube kann weniger erlauben.";
        "screw.edge-under-sideways-load": "An arm beside the rafter's axis pushes its screws towards the edge, which asks for more distance; their approval may allow less.", "Ein Arm neben der Sparrenachse drückt seine Schrauben zum Rand, was mehr Abstand verlangt; ihre Zulassung kann weniger erlauben.";
        "hook.resistance-basis-unknown": "Resistances count only where somebody says what they rest on.", "Tragfähigkeiten zählen nur, wenn jemand sagt, worauf sie beruhen.";
        "hook.resistance-of-its-bar": "Without resistances those of the arm as a flat bar count, in which joint and foot are missing.", "Ohne Tragfähigkeiten zählen die des Arms als Flachstahl, in denen Anschluss und Grundplatte fehlen.";
        "foot.plate-not-shown": "Where the plate of the foot would yield as a bar, the resistances need tests or an approval.", "Wo die Platte als Stab fließen würde, brauchen die Tragfähigkeiten Versuche oder eine Zulassung.";
        "hook.stronger-than-its-bar": "A resistance far above that of the arm as a flat bar needs tests or an approval.", "Eine Tragfähigkeit weit über der des Arms als Flachstahl braucht Versuche oder eine Zulassung.";
        "hook.stiffer-than-its-bar": "A stiffness far above that of the arm as a flat bar needs tests or an approval.", "Eine Steifigkeit weit über der des Arms als Flachstahl braucht Versuche oder eine Zulassung.";
        "hook.stiffness-of-its-bar": "Without a stiffness it is calculated: the arm as a flat bar on a foot that turns on its screws. A test of the whole hook says more.", "Ohne Angabe wird die Steifigkeit berechnet: der Arm als Flachstahl auf einer Grundplatte, die sich auf ihren Schrauben dreht. Ein Versuch am ganzen Haken sagt mehr.";
        "clearance.stiffness-unknown": "Without a stiffness nobody knows whether the arm touches the tile under load.", "Ohne Steifigkeit weiß niemand, ob der Arm unter Last den Ziegel berührt.";
        "bolt.unknown": "The bolt that holds the rail is verified by diameter and class, unless the resistances of the hook include it.", "Die Schraube, die die Schiene hält, wird nach Durchmesser und Klasse nachgewiesen, wenn die Tragfähigkeiten des Hakens sie nicht einschließen.";
        "bolt.slot-slip-unknown": "No rule says what a bolt holds along its slot, unless the resistances of the hook include it.", "Keine Regel sagt, was eine Schraube längs ihres Langlochs hält, wenn die Tragfähigkeiten des Hakens es nicht einschließen.";
        "clamp.slip-unknown": "Nothing but the clamps keeps the modules from slipping down the slope; friction is not assumed.", "Nur die Klemmen halten die Module gegen Abrutschen; Reibung wird nicht angenommen.";
        "rail.hold-of-one-hook-unknown": "A rail up the slope that one hook holds pushes all its force down the slope along its groove there.", "Eine Schiene in Dachneigung, die ein Haken hält, gibt dort allen Dachschub längs ihrer Nut ab.";
        "rail.crossing-unknown": "Where rails cross, connectors hold the upper ones on the lower ones against lift and down the slope.", "Wo Schienen kreuzen, halten Kreuzverbinder die oberen auf den unteren, gegen Abheben und in Dachneigung.";
        "rail.splice-force-unknown": "Rails up the slope take the slope force along their axis, and so do their splices.", "Schienen in Dachneigung nehmen den Dachschub entlang ihrer Achse auf, und ihre Stöße auch.";
        "clamp.short-side-zone-unknown": "Modules laid landscape are clamped on their short sides.", "Quer verlegte Module werden an ihren kurzen Seiten geklemmt.";
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::CATALOGUE;

    #[test]
    fn whatever_a_maker_has_to_state_says_why() {
        // That embedded parts are invented no figure of a part settles.
        let asked = |code: &str| {
            let of = CATALOGUE.iter().find(|kind| kind.code == code);
            of.is_some_and(|kind| !kind.stated_at.is_empty()) && code != "parts.invented"
        };
        for kind in CATALOGUE {
            assert_eq!(
                why(kind.code, Language::German).is_some(),
                asked(kind.code),
                "{}",
                kind.code
            );
        }
        for code in why::KEYS {
            assert!(asked(code), "{code} is no finding a maker can settle");
        }
    }

    #[test]
    fn nothing_is_named_twice() {
        for names in [member::KEYS, choice::KEYS, why::KEYS] {
            for (i, name) in names.iter().enumerate() {
                assert!(!names[i + 1..].contains(name), "{name}");
            }
        }
    }
}
