//! Members of a request in the words of the trade, for people who hold paper and no request.

use super::{Language, Medium, Reader, module_on_paper, ordinal};

/// One row per member that a sentence or a list of papers can name: its path, with `*` for an index, and
/// what it is. `{}` stands for the number of what was indexed.
const MEMBERS: &[(&str, [&str; 2])] = &[
    ("missing", ["To settle first", "Zuerst zu klären"]),
    ("found.rafter_x_mm", ["place of the rafter", "Lage des Sparrens"]),
    ("array.module", ["module", "Modul"]),
    (
        "array.module.short_side_clamp_zone_mm",
        ["clamp zone of the short sides of the module", "Klemmbereich der kurzen Modulseiten"],
    ),
    ("array.fields.*.module", ["module of field no. {}", "Modul des Feldes Nr. {}"]),
    (
        "array.fields.*.module.short_side_clamp_zone_mm",
        [
            "clamp zone of the short sides of the modules of field no. {}",
            "Klemmbereich der kurzen Seiten der Module des Feldes Nr. {}",
        ],
    ),
    ("array.rail_direction", ["direction of the rails", "Richtung der Schienen"]),
    (
        "array.rails_held_by",
        ["which hooks hold a rail along its axis", "welche Haken eine Schiene längs halten"],
    ),
    ("built.hooks", ["hooks as built", "Dachhaken wie gebaut"]),
    ("built.hooks.*", ["hook no. {} as built", "Dachhaken Nr. {} wie gebaut"]),
    (
        "built.hooks.*.found.rafter_x_mm",
        ["place of the rafter at hook no. {}", "Lage des Sparrens an Dachhaken Nr. {}"],
    ),
    ("built.rails", ["rails as built", "Schienen wie gebaut"]),
    ("start_mm", ["left end of the rail", "linkes Ende der Schiene"]),
    ("end_mm", ["right end of the rail", "rechtes Ende der Schiene"]),
    ("components.bolt", ["bolt", "Schraube mit Mutter"]),
    ("components.clamp", ["clamp", "Klemme"]),
    (
        "components.clamp.slope_kn",
        ["what a clamp holds down the slope", "was eine Klemme dachabwärts hält"],
    ),
    (
        "components.clamp.slope_stop_kn",
        ["what a stop holds down the slope", "was ein Anschlag dachabwärts hält"],
    ),
    ("components.hook", ["hook", "Dachhaken"]),
    ("components.hook.bolt", ["bolt at the hook", "Schraube am Dachhaken"]),
    (
        "components.hook.bolt.slot_slip_kn",
        ["what the bolt holds along its slot", "was die Schraube im Langloch hält"],
    ),
    (
        "components.hook.foot.screws_mm",
        ["places of the screws in the foot", "Lage der Schrauben in der Grundplatte"],
    ),
    ("components.hook.resistance", ["resistance of the hook", "Tragfähigkeit des Dachhakens"]),
    (
        "components.hook.resistance.basis",
        ["what the hook's resistance rests on", "worauf die Tragfähigkeit des Dachhakens beruht"],
    ),
    (
        "components.hook.resistance.includes_bolt",
        [
            "whether the hook's resistance includes its bolt",
            "ob die Tragfähigkeit des Dachhakens die Schraube einschließt",
        ],
    ),
    (
        "components.hook.stiffness.normal_kn_per_mm",
        ["stiffness of the hook", "Steifigkeit des Dachhakens"],
    ),
    ("components.packers", ["packers", "Unterlegplatten"]),
    ("components.rail", ["rail", "Schiene"]),
    (
        "components.rail.groove_slip_kn",
        ["what the bolt holds along the rail", "was die Schraube längs der Schiene hält"],
    ),
    (
        "components.rail.crossing",
        ["what a connector of crossing rails bears", "was ein Kreuzverbinder der Schienen trägt"],
    ),
    (
        "components.rail.splice_force_kn",
        [
            "what force along the rail a splice passes on",
            "welche Normalkraft ein Schienenstoß weitergibt",
        ],
    ),
    (
        "components.rail.splice_moment",
        ["what a splice of the rail bears", "was ein Schienenstoß trägt"],
    ),
    ("components.screw", ["screw", "Schraube"]),
    (
        "components.screw.spacings",
        ["distances by the approval of the screw", "Abstände nach Zulassung der Schraube"],
    ),
    (
        "components.screw.spacings.timber_mm",
        [
            "least timber by the approval of the screw",
            "Mindestholzdicke nach Zulassung der Schraube",
        ],
    ),
    (
        "components.screw.withdrawal_n_per_mm2",
        ["withdrawal parameter of the screw", "Ausziehparameter der Schraube"],
    ),
    ("measured.hooks", ["survey of the hooks", "Aufmaß der Dachhaken"]),
    ("measured.hooks.*", ["survey of hook no. {}", "Aufmaß an Dachhaken Nr. {}"]),
    (
        "measured.hooks.*.clearance_mm",
        ["clearance at hook no. {} of the survey", "Freiraum an Dachhaken Nr. {} des Aufmaßes"],
    ),
    (
        "measured.hooks.*.level_mm",
        [
            "height of the bearing face at hook no. {} of the survey",
            "Höhe der Auflagefläche an Dachhaken Nr. {} des Aufmaßes",
        ],
    ),
    ("roof", ["roof", "Dach"]),
    ("roof.abutments", ["walls beside the slope", "Wandanschlüsse"]),
    ("roof.covering", ["covering", "Deckung"]),
    (
        "roof.covering.guild_pitch",
        ["rule pitch by the trade's rules", "Regeldachneigung nach Fachregel"],
    ),
    (
        "roof.covering.hook_passage",
        ["how hooks pass through the covering", "Durchführung der Dachhaken"],
    ),
    ("roof.covering.maker_pitch", ["rule pitch by the maker", "Regeldachneigung nach Hersteller"]),
    (
        "roof.covering.maker_pitch.agreed_in",
        [
            "contract that agrees the maker's pitch",
            "Vertrag über die Regeldachneigung des Herstellers",
        ],
    ),
    ("roof.covering.underlay", ["underlay", "Unterdeckung"]),
    ("roof.edge_distances", ["distances from the edges", "Randabstände"]),
    ("roof.edges.*", ["side {} of the outline", "Seite {} des Umrisses"]),
    ("roof.layers", ["layers on the rafters", "Schichten auf den Sparren"]),
    ("roof.layers.insulation_mm", ["insulation on the rafters", "Dämmung auf den Sparren"]),
    ("roof.obstacles.*", ["obstacle {}", "Hindernis {}"]),
    (
        "roof.obstacles.*.cuts_rafters",
        ["rafters cut by obstacle {}", "durch Hindernis {} unterbrochene Sparren"],
    ),
    (
        "roof.obstacles.*.drift_shape_factor",
        [
            "shape coefficient of drifted snow at obstacle {}",
            "Formbeiwert für Schneeverwehung an Hindernis {}",
        ],
    ),
    ("roof.obstacles.*.height_mm", ["height of obstacle {}", "Höhe von Hindernis {}"]),
    ("roof.outline_mm", ["outline of the slope", "Umriss der Dachfläche"]),
    ("roof.party_walls", ["party walls", "Haustrennwände"]),
    ("fire_distance", ["distance from the party wall", "Abstand von der Haustrennwand"]),
    ("roof.pitch_deg", ["pitch of the roof", "Dachneigung"]),
    ("roof.rafters", ["rafters", "Sparren"]),
    ("roof.rafters.depth_mm", ["depth of the rafters", "Höhe der Sparren"]),
    ("roof.rafters.positions_mm", ["places of the rafters", "Lage der Sparren"]),
    ("roof.rafters.span_m", ["span of the rafters", "Spannweite der Sparren"]),
    (
        "roof.rafters.strength_class",
        ["strength class of the rafters", "Festigkeitsklasse der Sparren"],
    ),
    (
        "roof.rafters.trussed",
        ["whether the rafters are trusses", "ob die Sparren Nagelplattenbinder sind"],
    ),
    ("roof.rafters.width_mm", ["width of the rafters", "Breite der Sparren"]),
    ("roof.ridge_height_m", ["height of the ridge", "Firsthöhe"]),
    ("roof.valleys", ["valleys", "Kehlen"]),
    (
        "site.snow.exceptional",
        ["exceptional snow at the site", "außergewöhnlicher Schnee am Standort"],
    ),
    (
        "site.snow.exceptional_load_kn_per_m2",
        ["exceptional snow on the ground", "außergewöhnliche Schneelast am Boden"],
    ),
    ("site.snow.ground_load_kn_per_m2", ["snow on the ground", "Schneelast am Boden"]),
    ("site.snow_held", ["whether something holds the snow", "ob etwas den Schnee hält"]),
    ("site.wind.model", ["model of the wind", "Windmodell"]),
    (
        "site.wind.net_coefficients",
        ["wind coefficients of an engineer", "Windbeiwerte der Tragwerksplanung"],
    ),
    ("site.wind.peak_pressure_kn_per_m2", ["peak pressure", "Böengeschwindigkeitsdruck"]),
    ("wishes.max_utilisation", ["limit of utilisation", "Grenze der Auslastung"]),
];

impl Reader {
    /// A member by its path, as the reader knows it: readers of data by its name, those of paper by what
    /// it is.
    #[must_use]
    pub fn member(self, path: &str) -> String {
        self.named(path, None)
    }

    /// The same of something that has an index, such as an obstacle.
    #[must_use]
    pub fn member_at(self, path: &str, index: usize) -> String {
        self.named(path, Some(index))
    }

    /// A member of a module: that of the job, or the own one of the field at a place.
    #[must_use]
    pub fn member_of_module(self, name: &str, field: Option<usize>) -> String {
        match field {
            None => self.member(&format!("array.module.{name}")),
            Some(field) => self.member_at(&format!("array.fields.*.module.{name}"), field),
        }
    }

    /// A module by its name in the data; on paper its row and column count from 1.
    #[must_use]
    pub fn module(self, name: &str) -> String {
        match self.medium {
            Medium::Data => name.to_owned(),
            Medium::Paper => module_on_paper(name),
        }
    }

    fn named(self, path: &str, index: Option<usize>) -> String {
        match (self.medium, self.language) {
            (Medium::Data, _) => path.rsplit_once(".*.").map_or(path, |(_, name)| name).to_owned(),
            (Medium::Paper, Language::English) => {
                format!("“{}”", words(path, index, self.language))
            }
            (Medium::Paper, Language::German) => format!("„{}“", words(path, index, self.language)),
        }
    }

    /// Values that a finding names by pointer, as the reader knows them.
    #[must_use]
    pub fn pointers(self, pointers: &[String]) -> String {
        let each = pointers.iter().map(|pointer| match self.medium {
            Medium::Data => pointer.clone(),
            Medium::Paper => place(pointer, self.language),
        });
        each.collect::<Vec<_>>().join(", ")
    }
}

/// The place in a request that a pointer leads to, in words: that of the member itself or, where it has
/// none of its own, of what it belongs to.
#[must_use]
pub fn place(pointer: &str, language: Language) -> String {
    let (path, index) = path_of(pointer);
    words(&path, index, language)
}

/// A pointer as a path with `*` for every index, and the first index. Of a building it begins where the
/// slope does: on paper the slope is told beside it.
fn path_of(pointer: &str) -> (String, Option<usize>) {
    let below_slope = pointer.strip_prefix("/slopes/").and_then(|rest| rest.split_once('/'));
    let pointer = below_slope.map_or(pointer, |(_, below)| below);
    let parts = || pointer.trim_start_matches('/').split('/');
    let index = |part: &str| part.parse::<usize>().ok();
    let path: Vec<&str> = parts().map(|part| index(part).map_or(part, |_| "*")).collect();
    (path.join("."), parts().find_map(index))
}

fn words(path: &str, index: Option<usize>, language: Language) -> String {
    let known = |of: &str| MEMBERS.iter().find(|(path, _)| *path == of);
    let mut outwards = std::iter::successors(Some(path), |of| Some(of.rsplit_once('.')?.0));
    let Some((_, [english, german])) = outwards.find_map(known) else {
        return match language {
            Language::English => "the details given".to_owned(),
            Language::German => "die Angaben".to_owned(),
        };
    };
    let text = match language {
        Language::English => english,
        Language::German => german,
    };
    let number = index.map_or_else(String::new, |index| ordinal(index).to_string());
    text.replace("{}", &number)
}

/// Whether a place has words of its own.
#[cfg(test)]
#[must_use]
pub fn is_named(pointer: &str) -> bool {
    let (path, _) = path_of(pointer);
    MEMBERS.iter().any(|(known, _)| *known == path)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_told_in_words_and_counted_from_one() {
        let english = |pointer| place(pointer, Language::English);
        assert_eq!(english("/roof/obstacles/0/cuts_rafters"), "rafters cut by obstacle 1");
        assert_eq!(english("/roof/edges/3"), "side 4 of the outline");
        // What has no words of its own is told by what it belongs to.
        assert_eq!(english("/roof/covering/tile/length_mm"), "covering");
        assert_eq!(english("/built/hooks/6/found/slot_mm"), "hook no. 7 as built");
        assert_eq!(english("/nowhere"), "the details given");
        assert_eq!(english("/slopes/1/roof/edges/3"), "side 4 of the outline");
        let german = place("/roof/rafters/span_m", Language::German);
        assert_eq!(german, "Spannweite der Sparren");
    }

    #[test]
    fn modules_count_from_one_on_paper() {
        let paper = Reader { medium: Medium::Paper, ..Reader::default() };
        assert_eq!(paper.module("A/0/3"), "A/1/4");
        assert_eq!(paper.module("east/1/0/3"), "east/1/1/4");
        for other in ["A1-3", "south/A1-3", "A/x/3", "A/0/", ""] {
            assert_eq!(paper.module(other), other);
        }
        assert_eq!(Reader::default().module("A/0/3"), "A/0/3");
    }

    #[test]
    fn every_member_is_named_once_in_every_language() {
        for (i, (path, words)) in MEMBERS.iter().enumerate() {
            assert!(MEMBERS[..i].iter().all(|(other, _)| other != path), "{path} twice");
            assert!(words.iter().all(|word| !word.contains('_') && word.len() > 3), "{path}");
            // A number can only be told of what is indexed.
            let numbered = words.map(|word| word.contains("{}"));
            assert!(numbered[0] == numbered[1] && (!numbered[0] || path.contains('*')), "{path}");
        }
    }
}
