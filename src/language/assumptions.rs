//! Assumptions as people read them: what was assumed, and why.

use crate::assessment::Assumed;
use crate::codes::vocabulary::Evidence;
use crate::units::Length;

use super::{Language, Reader};

/// What was assumed: a figure, a word of the request, or a statement.
#[must_use]
#[expect(clippy::too_many_lines, reason = "one arm for every assumption that is no figure")]
pub fn value(assumed: &Assumed, reader: Reader) -> String {
    let of = |english: &str, german: &str| match reader.language {
        Language::English => english.to_owned(),
        Language::German => german.to_owned(),
    };
    match assumed {
        Assumed::UsualSpares { hooks, others } => {
            let [hooks, others] = [hooks, others].map(|percent| reader.number(*percent, 1));
            match reader.language {
                Language::English => {
                    format!("{hooks} % spare hooks, {others} % of other parts, sold singly")
                }
                Language::German => format!(
                    "{hooks} % Zuschlag bei Haken, {others} % bei anderen Teilen, einzeln erhältlich"
                ),
            }
        }
        Assumed::Equalised { suction, pressure, .. } => {
            let [suction, pressure] = [suction, pressure].map(|factor| reader.number(*factor, 3));
            of(
                &format!("{suction} of every suction, {pressure} of every pressure of the roof"),
                &format!("{suction} von jedem Sog, {pressure} von jedem Druck des Daches"),
            )
        }
        Assumed::ClampForFrames(frames) => {
            let frames = lengths(frames, reader);
            of(
                &format!("clamps for frames of {frames}, all with these figures"),
                &format!("Klemmen für Rahmen von {frames}, alle mit diesen Werten"),
            )
        }
        Assumed::LoadHeights(heights) => lengths(heights, reader),
        Assumed::RailEnds(rails) => of(
            &format!("ends of {rails} rails as a layout would have them"),
            &format!("Enden von {rails} Schienen, wie eine Planung sie hätte"),
        ),
        Assumed::ClearanceByGeometry(hooks) => of(
            &format!("clearance at {hooks} hooks from the geometry of the covering"),
            &format!("Freiraum an {hooks} Haken aus der Geometrie der Deckung"),
        ),
        Assumed::RaftersAtEqualCentres => of(
            "rafters at equal centres from one end of the slope to the other",
            "Sparren in gleichem Achsabstand von einem Ende der Dachfläche zum anderen",
        ),
        Assumed::UsualSpacings(spacings) => {
            let [first, second, last] = spacings.map(|spacing| reader.length(spacing));
            of(&format!("{first}, {second} and {last}"), &format!("{first}, {second} und {last}"))
        }
        Assumed::AlongEaves => of("along the eaves", "traufparallel"),
        Assumed::Portrait => of("portrait", "hochkant"),
        Assumed::MiddleNib => of("one nib in the middle", "eine Nase in der Mitte"),
        Assumed::TroughsAnywhere => of("anywhere", "überall"),
        Assumed::RigidNormal | Assumed::RigidSlope => of("rigid", "starr"),
        Assumed::WithdrawalByFormula => of("EN 1995-1-1 Eq. (8.39)", "EN 1995-1-1 Gl. (8.39)"),
        Assumed::HooksOnAxes(_) => of(
            "hooks stand on the axes of their rafters",
            "Haken stehen auf den Achsen ihrer Sparren",
        ),
        Assumed::SpliceAsRail => of("as the uncut rail", "wie die ungestoßene Schiene"),
        Assumed::ArmBends => of(
            "the arm of a hook bends as a flat bar",
            "der Arm eines Hakens biegt sich als Flachstab",
        ),
        Assumed::HooksThroughLaps => of("through the laps", "durch die Überdeckung"),
        Assumed::PartyWallAsVerge => {
            of("wind zones those of a verge", "Dachbereiche die eines Ortgangs")
        }
        Assumed::PartyWallBelowCovering => of(
            "the party wall ends below the covering",
            "die Haustrennwand endet unter der Deckung",
        ),
        Assumed::EdgesByCourse => {
            of("each side is what it runs as", "jede Seite ist, wonach sie verläuft")
        }
        Assumed::HippedZones => of(
            "zone M on the whole of a slope along the wind, behind L",
            "Bereich M auf der ganzen Dachfläche längs zum Wind, hinter L",
        ),
        Assumed::ObstacleLow => {
            of("low enough for the wind to sweep over", "so niedrig, dass der Wind darüberstreicht")
        }
        Assumed::SnowAboveArray => of(
            "the array carries the snow that lies on it",
            "die Anlage trägt den Schnee, der auf ihr liegt",
        ),
        Assumed::OwnLoadedAreas => of(
            "every element collects wind from an area of its own",
            "jedes Bauteil sammelt Wind von seiner eigenen Fläche",
        ),
        Assumed::SlopeForceShared => of(
            "slope force shared like the normal force",
            "Dachschub verteilt wie die Kraft senkrecht zum Dach",
        ),
        Assumed::SlopeForceAlongRail => of(
            "the slope force goes along the rails and is shared by their hooks",
            "der Dachschub geht entlang der Schienen und verteilt sich auf ihre Haken",
        ),
        Assumed::RailsSlide => of(
            "the slope force goes along the rails into the one hook that holds each of them",
            "der Dachschub geht entlang der Schienen in den einen Haken, der jede hält",
        ),
        Assumed::HeldByAllHooks => of("by all their hooks", "durch alle ihre Haken"),
        Assumed::CrossingRails => of(
            "rails in two layers of one profile, held together by connectors that do not give",
            "Schienen in zwei Lagen aus einem Profil, gehalten von Kreuzverbindern, die nicht nachgeben",
        ),
        Assumed::FootTurnsAboutEdge => {
            of("foot turns about its plate edge", "Grundplatte dreht um ihren Rand")
        }
        Assumed::DeflectionFromChord => {
            of("deflection from the chord", "Durchbiegung von der Sehne")
        }
        Assumed::LayersCarryNothing => of(
            "layers under the foot carry nothing across the screw",
            "Schichten unter der Grundplatte tragen quer zur Schraube nichts",
        ),
        Assumed::PlateGrip => of(
            "plate gripped by the thread's outer diameter",
            "Platte vom Gewindeaußendurchmesser gefasst",
        ),
        Assumed::EdgeStrip => {
            of("the foot's edge bears on a strip", "der Plattenrand steht auf einem Streifen")
        }
        Assumed::RailElastic => of("rail is elastic", "Schiene bleibt elastisch"),
        Assumed::Linear => of("rail and hooks are linear", "Schiene und Haken sind linear"),
        Assumed::ServiceClassTwo => of("service class 2", "Nutzungsklasse 2"),
        Assumed::TilesFlat => {
            of("tiles are flat and battens even", "Ziegel sind eben, Latten gleichmäßig")
        }
        Assumed::RafterSpanWorst => of(
            "rafter span lies where it hurts most",
            "Sparrenfeld liegt, wo es am ungünstigsten ist",
        ),
        Assumed::WindOnBareCovering => of(
            "rafters bear the wind on the covering beside the array",
            "Sparren tragen den Wind auf der Deckung neben der Anlage",
        ),
        Assumed::PersonOnRafter => of(
            "one person at work on the roof, for rafters only",
            "eine Person bei Arbeiten auf dem Dach, nur für die Sparren",
        ),
        Assumed::RollHeldByRail => of(
            "a foot whose pulled screws stand beside the rafter's axis is held by its rail",
            "eine Grundplatte, deren gezogene Schrauben neben der Sparrenachse sitzen, wird von ihrer Schiene gehalten",
        ),
        Assumed::OneBolt => of(
            "one bolt with nut from hook to rail; clamps and splices come with their own",
            "eine Schraube mit Mutter vom Haken zur Schiene; Klemmen und Verbinder bringen ihre mit",
        ),
        Assumed::ClampsInPairs => of(
            "clamps in pairs of rails: one between two neighbours, one beyond each end",
            "Klemmen auf beiden Schienen: eine zwischen zwei Nachbarn, eine an jedem Ende",
        ),
        Assumed::CapsAtEnds => of(
            "a cap at either end of every rail segment",
            "eine Kappe an jedem Ende jedes Schienenabschnitts",
        ),
        Assumed::FewestSplices => of(
            "fewest splices first, least rail second",
            "zuerst die wenigsten Stöße, dann die wenigste Schiene",
        ),
        figure => figure.value().map_or_else(String::new, |value| reader.value(&value)),
    }
}

fn lengths(lengths: &[Length], reader: Reader) -> String {
    let each: Vec<String> = lengths.iter().map(|length| reader.length(*length)).collect();
    each.join(", ")
}

/// Why it was assumed.
#[must_use]
#[expect(clippy::too_many_lines, reason = "one arm for every assumption there is")]
pub fn why(assumed: &Assumed, reader: Reader) -> String {
    let (english, german) = match assumed {
        Assumed::Equalised { evidence, .. } => {
            return match reader.language {
                Language::English => {
                    format!("evidence, as given and not examined here: {evidence}")
                }
                Language::German => {
                    format!("Beleg, wie angegeben und hier nicht geprüft: {evidence}")
                }
            };
        }
        Assumed::SnowZoneOfPlace { place, known, .. }
        | Assumed::WindZoneOfPlace { place, known, .. } => {
            let [english, german] = match known {
                Evidence::Given | Evidence::Confirmed => {
                    ["by the list of the rules", "nach der Liste der Vorschrift"]
                }
                Evidence::OneSource | Evidence::FromMemory | Evidence::StandIn => {
                    ["by one list of open data", "nach einer einzigen Liste offener Daten"]
                }
            };
            return match reader.language {
                Language::English => format!("all of {place} lies in it, {english}"),
                Language::German => format!("ganz {place} liegt darin, {german}"),
            };
        }
        Assumed::HooksOnAxes(within) => {
            let within = reader.length(*within);
            return match reader.language {
                Language::English => format!(
                    "where a hook is recorded within {within} of a rafter, its own place is taken \
                     for the axis"
                ),
                Language::German => format!(
                    "steht ein Haken laut Aufzeichnung höchstens {within} neben einem Sparren, gilt \
                     sein Ort als Achse"
                ),
            };
        }
        Assumed::Revision(_) => ("the newest", "die neueste"),
        Assumed::OrdinaryBuilding => ("ordinary buildings", "gewöhnliche Gebäude"),
        Assumed::Exposure(_) => (
            "normal topography, EN 1991-1-3 Table 5.1",
            "übliche Topografie, EN 1991-1-3 Tabelle 5.1",
        ),
        Assumed::Thermal(_) => (
            "no melting from below, EN 1991-1-3 5.2(8)",
            "kein Abtauen von unten, EN 1991-1-3 5.2(8)",
        ),
        Assumed::SnowNotHeld => (
            "no guard or parapet below the array; with one the shape coefficient is at least 0.8",
            "kein Schneefang und keine Attika unter der Anlage; damit wäre der Formbeiwert mindestens 0,8",
        ),
        Assumed::SnowHeld => (
            "a guard stands on the slope, or a wall or valley runs along its lower edge: the shape coefficient is at least 0.8",
            "auf der Dachfläche steht ein Schneefang, oder an ihrem unteren Rand verläuft eine Wand oder Kehle: der Formbeiwert ist mindestens 0,8",
        ),
        Assumed::LeastWallHeight(_) => (
            "along eaves or ridge a wall is as high everywhere; along a verge any height up to the greatest may occur, and the greatest drift of all counts",
            "an Traufe oder First ist eine Wand überall gleich hoch; am Ortgang kann jede Höhe bis zur größten vorkommen, und die größte Verwehung zählt",
        ),
        Assumed::UpperRun(_) => (
            "the whole width of the taller roof, on the safe side",
            "die ganze Breite des höheren Dachs, auf der sicheren Seite",
        ),
        Assumed::PitchBeyondHip(_) => (
            "pitch of the slope beyond the hip, by where the hip runs: both slopes have their eaves at the same height; wind that meets it passes along this slope",
            "Neigung der Dachfläche jenseits des Grats, nach dem Verlauf des Grats: beide haben ihre Traufe auf gleicher Höhe; Wind auf sie streicht an dieser Fläche entlang",
        ),
        Assumed::HippedZones => (
            "where zone N begins is not confirmed, and N nowhere lifts more than M; for the same reason strips along hips are measured square to them, and where two overlap the one that lifts more counts; the slope opposite is taken to pitch as this one does",
            "wo Bereich N beginnt, ist nicht bestätigt, und N saugt nirgends stärker als M; aus demselben Grund werden Streifen an Graten rechtwinklig zu ihnen gemessen, und wo zwei sich überdecken, zählt der mit dem größeren Sog; die gegenüberliegende Dachfläche gilt als gleich geneigt",
        ),
        Assumed::EdgesByCourse => (
            "level sides of the outline are eaves and ridge, slanting ones hips",
            "waagerechte Seiten des Umrisses sind Traufe und First, geneigte sind Grate",
        ),
        Assumed::SnowAboveArray => (
            "its slope force goes into clamps and hooks; what slides down from the covering above and leans against the upper edge of the array is not counted, and the array is no guard for what lies above it",
            "sein Dachschub geht in Klemmen und Dachhaken; was von der Deckung darüber abrutscht und sich gegen den oberen Rand der Anlage lehnt, zählt nicht, und die Anlage ist kein Schneefang für den Schnee darüber",
        ),
        Assumed::NoExceptionalSnow => (
            "until the request says whether the site calls for exceptional snow, none is computed and the job is incomplete",
            "solange die Anfrage nicht sagt, ob am Standort außergewöhnlicher Schnee anzusetzen ist, wird keiner gerechnet und der Nachweis bleibt unvollständig",
        ),
        Assumed::ObstacleLow => (
            "windows, guards, step irons and aerials gather no snow; one that stands out higher needs its height",
            "Fenster, Schneefänge, Tritte und Antennen sammeln keinen Schnee; was höher herausragt, braucht seine Höhe",
        ),
        Assumed::OpeningFitting(_) => (
            "an opening cuts every rafter that does not clear it by this much, for its frame; a judgement: who has looked can name them",
            "eine Öffnung schneidet jeden Sparren, der ihr nicht so viel Platz für den Rahmen lässt; eine Einschätzung: wer nachgesehen hat, kann sie nennen",
        ),
        Assumed::FlatTerrain(_) => {
            ("flat terrain, EN 1991-1-4 4.3.3", "ebenes Gelände, EN 1991-1-4 4.3.3")
        }
        Assumed::RoofSurface => (
            "a module takes the full external coefficient of the zone it lies in: no published reduction for open-edged arrays is confirmed here",
            "ein Modul bekommt den vollen Außendruckbeiwert seiner Zone: eine veröffentlichte Abminderung für offene Anlagen ist hier nicht bestätigt",
        ),
        Assumed::FixingArea(_) => (
            "for hooks, their screws, clamps and the rails on them: EN 1991-1-4 7.2.1 means c_pe,1 for small elements and fixings",
            "für Haken, ihre Schrauben, Klemmen und die Schienen darauf: c_pe,1 ist nach EN 1991-1-4 7.2.1 für kleine Bauteile und Befestigungen gedacht",
        ),
        Assumed::ObstacleStrip(_) => (
            "no strip around the obstacle is asked for",
            "ein freier Streifen um das Hindernis ist nicht verlangt",
        ),
        Assumed::RaftersAtEqualCentres => (
            "the rafters are not measured; the bay at a gable or beside an opening often is another",
            "die Sparren sind nicht gemessen; am Ortgang oder neben einer Öffnung ist das Feld oft ein anderes",
        ),
        Assumed::UsualSpacings(_) => (
            "common practice on houses, no source that binds; older roofs have rafters further apart or nearer",
            "gängige Praxis im Wohnungsbau, ohne verbindliche Quelle; alte Dächer haben weitere oder engere Abstände",
        ),
        Assumed::PhaseStep(_) => (
            "not said; the longer the step, the more may lie between two places looked at (judgement)",
            "nicht angegeben; je länger der Schritt, desto mehr kann zwischen zwei Lagen liegen (Ermessen)",
        ),
        Assumed::NoTrusses => (
            "rafters of sawn timber; trusses must be said, for their designer has to agree",
            "Sparren aus Vollholz; Binder sind anzugeben, denn wer sie bemessen hat, muss zustimmen",
        ),
        Assumed::ExistingLoad(_) => (
            "usual weight of such a covering with battens and rafters, from memory",
            "übliches Gewicht einer solchen Deckung mit Latten und Sparren, aus dem Gedächtnis",
        ),
        Assumed::CounterBattenWidth(_) => (
            "common practice; the foot turns about its edge when the arm stands sideways",
            "gängige Praxis; um ihren Rand dreht sich die Grundplatte, wenn der Arm seitlich steht",
        ),
        Assumed::BearingClass(_) => (
            "not said; C24, or the class of the rafters where that is lower (judgement)",
            "nicht angegeben; C24 oder, wo sie niedriger ist, die Klasse der Sparren (Urteil)",
        ),
        Assumed::ScrewPoint(_) => (
            "one diameter; where the screw comes out below the rafter, its point holds nothing",
            "ein Durchmesser; kommt die Schraube unter dem Sparren heraus, trägt ihre Spitze nicht",
        ),
        Assumed::SlotEnds(_) => (
            "not known; each check takes the end of the slot where it is worse",
            "nicht bekannt; jeder Nachweis nimmt das ungünstigere Ende des Langlochs",
        ),
        Assumed::RectangularSlope(_) => (
            "no outline is given: a rectangle over the building from eaves to ridge without overhang, this long up the slope",
            "kein Umriss angegeben: ein Rechteck über dem Gebäude von der Traufe zum First ohne Überstand, in der Falllinie so lang",
        ),
        Assumed::RafterClass(_) => (
            "not said; the lowest class that rafters are usually graded to (judgement)",
            "nicht angegeben; die niedrigste Klasse, in die Sparren üblicherweise sortiert werden (Urteil)",
        ),
        Assumed::UsualCovering(_) => (
            "named by id: usual format and laying, courses and joints from the lower left corner; what its figures rest on is told at GET /v1/usual",
            "mit Kennung benannt: übliches Format und übliche Deckung, Reihen und Fugen ab der unteren linken Ecke; worauf die Maße beruhen, steht unter GET /v1/usual",
        ),
        Assumed::UsualGauge(_) => (
            "length of the tile less the least headlap for this pitch; a roof may be laid closer: measure ten courses",
            "Ziegellänge weniger Mindestüberdeckung für diese Neigung; ein Dach kann enger gedeckt sein: zehn Reihen messen",
        ),
        Assumed::UsualLayers(_) => (
            "named by id: a usual build-up; look where the covering is open",
            "mit Kennung benannt: ein üblicher Aufbau; nachsehen, wo die Deckung offen ist",
        ),
        Assumed::AlongEaves => (
            "not said; `up_slope` lays them up the slope",
            "nicht angegeben; mit `up_slope` laufen sie in Dachneigung",
        ),
        Assumed::FieldName(_) => (
            "not said; fields are lettered in their order",
            "nicht angegeben; Felder werden in ihrer Reihenfolge mit Buchstaben benannt",
        ),
        Assumed::SlopeName(_) => (
            "not said; slopes are numbered in their order",
            "nicht angegeben; Dachflächen werden in ihrer Reihenfolge nummeriert",
        ),
        Assumed::Portrait => ("not said; common practice", "nicht angegeben; gängige Praxis"),
        Assumed::ClampForFrames(_) => (
            "the modules have frames of several heights, and one clamp is described; ask its maker whether it comes for each of them and holds as much",
            "die Module haben Rahmen verschiedener Höhe, und beschrieben ist eine Klemme; beim Hersteller erfragen, ob es sie für jede gibt und ob sie ebenso viel hält",
        ),
        Assumed::ColumnGap(_) => (
            "what the clamp between two modules takes",
            "was die Klemme zwischen zwei Modulen braucht",
        ),
        Assumed::MiddleOfSlope(_) | Assumed::MiddleOfSlopeUp(_) => (
            "not said; the field lies in the middle of the slope",
            "nicht angegeben; das Feld liegt in der Mitte der Dachfläche",
        ),
        Assumed::WholeSlopeFilled => (
            "no region is given: the field is filled over the whole slope",
            "kein Bereich angegeben: das Feld wird über die ganze Dachfläche gefüllt",
        ),
        Assumed::FilledInColumns => (
            "not said; columns stand one above the other, which is what most roofs show",
            "nicht angegeben; die Spalten stehen übereinander, wie auf den meisten Dächern",
        ),
        Assumed::FilledAwayFromPartyWall(_) => (
            "no distance from the party wall is stated; fields are filled to the largest that is known of, as if it were asked for",
            "zur Haustrennwand ist kein Abstand angegeben; Felder werden bis zum größten gefüllt, der bekannt ist, als wäre er verlangt",
        ),
        Assumed::MiddleNib => (
            "common practice, no source; it decides whether a nib is in the way of the arm",
            "gängige Praxis, ohne Quelle; danach richtet sich, ob eine Nase dem Arm im Weg ist",
        ),
        Assumed::TroughsAnywhere => (
            "no troughs are given, so the arm is taken to leave on the rafter axis",
            "Wellentäler sind nicht angegeben, also tritt der Arm auf der Sparrenachse aus",
        ),
        Assumed::HeadProjection(_) => (
            "common practice, no source; the heads of tiles take that much of the space for the foot",
            "gängige Praxis, ohne Quelle; so viel vom Platz der Grundplatte nehmen die Ziegelköpfe ein",
        ),
        Assumed::RulePitch(_) => (
            "common practice for such coverings: German guild rules and slaters' tables as quoted by trade encyclopedias; guild and maker of this covering decide",
            "gängige Praxis für solche Deckungen: deutsche Fachregeln und Schiefertabellen, wie Fachlexika sie zitieren; maßgebend sind Fachregel und Hersteller dieser Deckung",
        ),
        Assumed::LeastPitch(_) => (
            "not given: 12° below the rule pitch and no less than 10° for tiles, 10° below it for slates, as quoted from German guild rules",
            "nicht angegeben: 12° unter der Regeldachneigung und mindestens 10° bei Ziegeln, 10° darunter bei Schiefer, wie aus deutschen Fachregeln zitiert",
        ),
        Assumed::HooksThroughLaps => (
            "not given: the usual way of a hook, which the trade's rules do not allow below the rule pitch",
            "nicht angegeben: der übliche Weg eines Hakens, den die Fachregeln unter der Regeldachneigung nicht zulassen",
        ),
        Assumed::EdgeDistance(_) => (
            "common practice for modules: from every edge in the training of British installers, and the least of what German advice to owners names; less is warned of",
            "gängige Praxis für Module: von jedem Rand in der Ausbildung britischer Installateure und das Kleinste, was deutsche Ratgeber nennen; vor weniger wird gewarnt",
        ),
        Assumed::PartyWallFace(_) => (
            "not given: the side of the outline is taken for the face of the party wall",
            "nicht angegeben: die Seite des Umrisses gilt als Wandfläche der Haustrennwand",
        ),
        Assumed::LongRow(_) => (
            "not given how far roofs run on beyond the party wall: so far that the zones of the wind grow no more, twice the height of the ridge (EN 1991-1-4 7.2.5)",
            "nicht angegeben, wie weit Dächer jenseits der Haustrennwand weitergehen: so weit, dass die Dachbereiche nicht mehr wachsen, das Doppelte der Firsthöhe (EN 1991-1-4 7.2.5)",
        ),
        Assumed::PartyWallAsVerge => (
            "on the safe side also where the roof next door runs on; nothing is taken off for that",
            "auf der sicheren Seite auch dort, wo das Nachbardach weitergeht; abgezogen wird dafür nichts",
        ),
        Assumed::PartyWallBelowCovering => (
            "not said to rise: no snow drifts against it; where it does, describe it in roof.abutments",
            "nicht als aufragend angegeben: Schnee wird nicht dagegen verweht; ragt sie auf, unter roof.abutments beschreiben",
        ),
        Assumed::HookPartialFactor(_) => (
            "the larger of the factors for steel, EN 1993-1-4 5.1",
            "der größere der Beiwerte für Stahl, EN 1993-1-4 5.1",
        ),
        Assumed::RigidNormal => (
            "not given: loads are shared as on rigid hooks, and the clearance is not verified",
            "nicht angegeben: Lasten verteilen sich wie auf starre Haken, der Freiraum ist nicht nachgewiesen",
        ),
        Assumed::WholeSection(_) => (
            "not declared: the walls of the rail yield before they buckle (section class 3 or better, EN 1999-1-1 6.1.4)",
            "nicht angegeben: die Wände der Schiene fließen, bevor sie beulen (Querschnittsklasse 3 oder besser, EN 1999-1-1 6.1.4)",
        ),
        Assumed::SpliceAsRail => (
            "not declared: a stiff splice bears the moments of the uncut rail; ask its maker",
            "nicht angegeben: ein steifer Stoß trägt die Momente der ungestoßenen Schiene; beim Hersteller erfragen",
        ),
        Assumed::ArmGrade(_) => (
            "the strongest of the usual grades; declared values are compared with a bar of it",
            "die festeste der üblichen Sorten; angegebene Werte werden mit einem Stab daraus verglichen",
        ),
        Assumed::LoadOnArmAxis(_) => (
            "not given: the rail bears on the axis of the arm and does not twist it",
            "nicht angegeben: die Schiene liegt in der Achse des Arms auf und verdreht ihn nicht",
        ),
        Assumed::BarResistanceNormal(_) | Assumed::BarResistanceSlope(_) => (
            "not declared: plastic bending, with torsion, of the arm as a flat bar where it leaves the foot, EN 1993-1-1 6.2.5 and 6.2.7; joint and plate of the foot are no part of it",
            "nicht angegeben: plastische Biegung, mit Torsion, des Arms als Flachstab am Übergang zur Grundplatte, EN 1993-1-1 6.2.5 und 6.2.7; Anschluss und Grundplatte gehören nicht dazu",
        ),
        Assumed::BarStiffnessNormal(_) | Assumed::BarStiffnessSlope(_) => (
            "not declared: elastic bending of the arm as a flat bar, the bolt at the upper end of its slot",
            "nicht angegeben: elastische Biegung des Arms als Flachstab, Schienenschraube am oberen Ende des Langlochs",
        ),
        Assumed::StiffnessWithFoot(true) => (
            "it or the resistance rests on tests or an approval, so the stiffness is taken to be that of a hook screwed to timber",
            "sie oder der Widerstand beruht auf Versuchen oder einer Zulassung; die Steifigkeit gilt daher als die eines auf Holz verschraubten Hakens",
        ),
        Assumed::StiffnessWithFoot(false) => (
            "no test or approval is named, so the stiffness is taken to be that of the arm alone; what the foot gives is added",
            "weder Versuch noch Zulassung genannt; die Steifigkeit gilt daher als die des Arms allein, die Nachgiebigkeit der Grundplatte kommt hinzu",
        ),
        Assumed::FootGives(_) => (
            "what a foot as drawn gives at the rail bolt, added to the arm, without packers; it turns on screws of 780·d^0.2·l^0.4 (mm, N) each, usual in approvals, from memory, and on a 60-mm depth of timber across the grain, and its plate bends as wide as the arm and the way to the farthest screw, own judgement; a fifth more of it counts against the clearance",
            "Nachgiebigkeit der Grundplatte wie gezeichnet am Schienenbolzen, zusätzlich zum Arm, ohne Unterlegplatten; sie dreht sich auf Schrauben von je 780·d^0,2·l^0,4 (mm, N), in Zulassungen üblich, aus dem Gedächtnis, und auf einer 60-mm-Tiefe Holz quer zur Faser, und ihre Platte biegt sich so breit wie der Arm und der Weg zur fernsten Schraube, eigene Einschätzung; gegen den Abstand zählt ein Fünftel mehr davon",
        ),
        Assumed::ArmLevel(_) => (
            "not given: the arm runs level from where it leaves the covering to the bolt, while the tile below rises towards it",
            "nicht angegeben: der Arm verläuft vom Austritt aus der Deckung bis zur Schraube gleich hoch, während der Ziegel darunter zu ihm ansteigt",
        ),
        Assumed::RigidSlope => (
            "not given: slope loads are shared as on rigid hooks",
            "nicht angegeben: Dachschub verteilt sich wie auf starre Haken",
        ),
        Assumed::WithdrawalDensity(_) => (
            "the density withdrawal parameters are usually declared for",
            "die Rohdichte, für die Ausziehparameter üblicherweise angegeben sind",
        ),
        Assumed::WithdrawalByFormula => {
            ("no declared parameter is given", "kein erklärter Parameter ist angegeben")
        }
        Assumed::SpliceLength(_) => (
            "common practice, no source; hooks and clamps keep off that length",
            "gängige Praxis, ohne Quelle; Haken und Klemmen halten sich von dieser Länge fern",
        ),
        Assumed::LoadHeight(_) | Assumed::LoadHeights(_) => (
            "half the depth of the rail and the thickness of the module: where snow lies; the slope force there presses the lower rail of a row and lifts the upper one",
            "halbe Schienenhöhe und Moduldicke: dort liegt der Schnee; der Dachschub dort drückt auf die untere Schiene einer Reihe und hebt die obere",
        ),
        Assumed::ResistanceAtBolt(_) => (
            "taken to be declared for forces at the bolt: a rail beside it leaves less of them; ask the maker where the rail stood",
            "als für Kräfte an der Schraube erklärt genommen: eine Schiene daneben lässt weniger davon; den Hersteller fragen, wo die Schiene saß",
        ),
        Assumed::RailBesideUpright(_) => (
            "half the rail and half the arm: a rail bolted to the side of its hook, down the slope, where it turns arm, foot and bolt the most, and a rail up the slope to the right of it; measure it on the parts",
            "halbe Schiene und halber Arm: eine seitlich an den Haken geschraubte Schiene, dachabwärts, wo sie Arm, Grundplatte und Schraube am stärksten verdreht, eine Schiene in Dachneigung rechts davon; an den Teilen messen",
        ),
        Assumed::RailWeightless | Assumed::ClampWeightless => (
            "none is chosen yet: its weight is left out",
            "noch nicht gewählt: das Gewicht bleibt weg",
        ),
        Assumed::FewestHooks => ("the usual aim", "das übliche Ziel"),
        Assumed::FullUse(_) => {
            ("full use of the design resistance", "volle Auslastung des Bemessungswiderstands")
        }
        Assumed::MinClearance(_) => (
            "common practice for the unloaded arm; no standard says it",
            "gängige Praxis für den unbelasteten Arm; keine Norm sagt es",
        ),
        Assumed::MinRoomAbove(_) => (
            "common practice: the tile above must not ride on the arm; no standard says it",
            "gängige Praxis: der Ziegel darüber darf nicht auf dem Arm reiten; keine Norm sagt es",
        ),
        Assumed::SearchLimit(_) => {
            ("bounds the time of one rail segment", "begrenzt die Rechenzeit je Schienenabschnitt")
        }
        Assumed::ArmsTowardsJoints => (
            "common practice: near a joint a tile is notched at its edge and the arm lies over the middle of the tile below",
            "gängige Praxis: nahe einer Fuge wird ein Ziegel am Rand ausgeklinkt, und der Arm liegt über der Mitte des Ziegels darunter",
        ),
        Assumed::LeastLength => (
            "the least rail bought is the least waste; of such plans the one with the fewest bars",
            "am wenigsten gekaufte Schiene ist am wenigsten Verschnitt; davon der Plan mit den wenigsten Stangen",
        ),
        Assumed::MinPiece(_) => (
            "common practice, no source; no shorter piece is joined, no shorter offcut kept",
            "gängige Praxis, ohne Quelle; kürzere Stücke werden nicht gestoßen, kürzere Reste nicht aufgehoben",
        ),
        Assumed::UsualSpares { .. }
        | Assumed::Spares(_)
        | Assumed::CapsAtEnds
        | Assumed::RowGap(_) => ("common practice, no source", "gängige Praxis, ohne Quelle"),
        Assumed::SoldSingly => ("sold singly", "einzeln erhältlich"),
        Assumed::RailEnds(_) => (
            "no ends are given: the outer module edges and the end projection of the rail, cut where it would be longer than it may be",
            "Enden sind nicht angegeben: äußere Modulkanten und Überstand der Schiene, getrennt, wo sie sonst zu lang wäre",
        ),
        Assumed::ClearanceByGeometry(_) => (
            "found.clearance_mm is not given there; a measured one is better evidence",
            "found.clearance_mm fehlt dort; ein gemessener Freiraum ist der bessere Beleg",
        ),
        Assumed::OwnLoadedAreas => (
            "external coefficients fall with the loaded area, EN 1991-1-4 7.2.1: a module is judged at its own area, fixings at theirs; a rafter gets the forces of its hooks, which is on the safe side",
            "Außendruckbeiwerte sinken mit der Lasteinzugsfläche, EN 1991-1-4 7.2.1: ein Modul wird mit seiner eigenen Fläche nachgewiesen, Befestigungen mit ihrer; ein Sparren bekommt die Kräfte seiner Haken, was auf der sicheren Seite liegt",
        ),
        Assumed::SlopeForceShared => (
            "a module shares both between its two rails by the lever rule; how far each rail holds against sliding is statically undetermined",
            "ein Modul gibt beides nach dem Hebelgesetz an seine zwei Schienen ab; wie weit jede Schiene gegen Abgleiten hält, ist statisch unbestimmt",
        ),
        Assumed::SlopeForceAlongRail => (
            "rail and hooks are a chain of bars on the springs of the hooks down the slope; what changes of temperature add where hooks hold a rail in several places is left to the length it may have without an expansion gap",
            "Schiene und Haken sind eine Stabkette auf den Federn der Haken in Hangrichtung; was Temperaturwechsel hinzufügen, wo Haken eine Schiene an mehreren Stellen halten, bleibt der Länge überlassen, die sie ohne Dehnfuge haben darf",
        ),
        Assumed::RailsSlide => (
            "the bolt of that hook is tightened in the groove; on all other hooks the rail slides without friction, so that it grows and shrinks with the temperature, and they bear what acts square to the slope alone",
            "die Schraube dieses Hakens ist in der Nut angezogen; auf allen anderen Haken gleitet die Schiene reibungsfrei, so dass sie sich mit der Temperatur dehnen kann, und sie tragen nur, was senkrecht zum Dach wirkt",
        ),
        Assumed::HeldByAllHooks => (
            "their bolts are tightened in the groove at every hook, as is usual; a rail made fast to one hook and free to slide on the others is declared",
            "ihre Schrauben sind an jedem Haken in der Nut angezogen, wie üblich; dass eine Schiene nur an einem Haken fest ist und auf den anderen gleitet, wird angegeben",
        ),
        Assumed::CrossingRails => (
            "both layers are solved together; a force down the slope acts at the upper face of the lower rail, half its depth above its bolts, and its couple goes into the lower rail over the width of the upper one, which is taken as its depth; rails do not twist, and that a lower rail which bends moves its upper face along the slope is left out",
            "beide Lagen werden gemeinsam berechnet; der Dachschub wirkt an der Oberseite der unteren Schiene, um ihre halbe Höhe über ihren Schrauben, und sein Moment geht über die Breite der oberen, als die ihre Höhe gilt, in die untere Schiene; Schienen verdrehen sich nicht, und dass eine untere Schiene, die sich biegt, ihre Oberseite längs der Dachneigung verschiebt, bleibt außer Acht",
        ),
        Assumed::AreaByMass(_) => (
            "its mass over the density of aluminium, 2700 kg/m³ (EN 1999-1-1 3.2.5, from memory), or of steel, 7850 kg/m³, by its modulus",
            "seine Masse durch die Dichte von Aluminium, 2700 kg/m³ (EN 1999-1-1 3.2.5, aus dem Gedächtnis), oder von Stahl, 7850 kg/m³, nach seinem Elastizitätsmodul",
        ),
        Assumed::FootTurnsAboutEdge => (
            "rigid plate, screws pull only; pressing it turns about its lower edge, lifting about its upper one, sideways about the edge of the timber",
            "starre Platte, Schrauben nehmen nur Zug auf; bei Druck dreht sie um den unteren Rand, bei Sog um den oberen, seitlich um die Holzkante",
        ),
        Assumed::DeflectionFromChord => (
            "a span's deflection is measured from the line through its two displaced hooks, a free end's from that line prolonged, where the end is three depths of the rail long or more; each direction by itself",
            "die Durchbiegung eines Felds zählt von der Linie durch seine zwei verschobenen Haken, die eines freien Endes von deren Verlängerung, wenn es mindestens drei Schienenhöhen lang ist; jede Richtung für sich",
        ),
        Assumed::LayersCarryNothing => (
            "packers, counter-batten and layers between foot and rafter are a free gap in the yield model, without rope effect",
            "Unterlegplatten, Konterlatte und Schichten zwischen Grundplatte und Sparren sind im Fließmodell ein freier Spalt, ohne Seilwirkung",
        ),
        Assumed::PlateGrip => (
            "whether the foot counts as thin or thick is judged by the outer diameter of the screw, and a thick one by holes less than a tenth of it wider",
            "ob die Grundplatte dünn oder dick ist, richtet sich nach dem Außendurchmesser der Schraube; eine dicke hat Löcher, die weniger als ein Zehntel davon weiter sind",
        ),
        Assumed::EdgeStrip => (
            "own model: the edge of a foot bears on a strip of yielding timber that spreads along the grain on the outer side only (EN 1995-1-1 6.1.5), and screws in the far half pull",
            "eigenes Modell: der Rand der Grundplatte steht auf einem Streifen nachgebenden Holzes, der sich nur nach außen in Faserrichtung verbreitert (EN 1995-1-1 6.1.5); es ziehen die Schrauben der fernen Hälfte",
        ),
        Assumed::RailElastic => (
            "bending about both axes is summed linearly against the proof strength",
            "Biegung um beide Achsen wird linear summiert, gegen die Dehngrenze",
        ),
        Assumed::ArmBends => (
            "the arm rises at the lower edge of the foot, runs down the slope and rises to the bolt; its slope force presses it onto the tile as far as a bar of this shape gives; loads are shared among hooks by the springs of each direction alone",
            "der Arm steigt am unteren Rand der Grundplatte auf, läuft dachabwärts und steigt zur Schienenschraube; der Dachschub drückt ihn so weit auf den Ziegel, wie ein Stab dieser Form nachgibt; Lasten verteilen sich auf die Haken nach den Federn jeder Richtung für sich",
        ),
        Assumed::Linear => (
            "no contact with tiles is counted on; a hook gives alike whether pressed or lifted",
            "auf Ziegelkontakt wird nicht gebaut; ein Haken gibt auf Druck und Sog gleich nach",
        ),
        Assumed::ServiceClassTwo => (
            "timber under a roof covering, EN 1995-1-1 2.3.1.3",
            "Holz unter einer Dachdeckung, EN 1995-1-1 2.3.1.3",
        ),
        Assumed::TilesFlat => (
            "clearances before load come from the geometry of the covering: measure on site",
            "Freiräume vor Belastung folgen aus der Geometrie der Deckung: vor Ort messen",
        ),
        Assumed::RafterSpanWorst => (
            "one simply supported span is moved from eaves to ridge, with the forces of the hooks where they stand, the permanent load everywhere, and snow on whatever no module covers; the supports of the rafter, its overhang at the eaves and forces along it are left out",
            "ein Einfeld wird von der Traufe zum First verschoben, mit den Hakenkräften an ihrem Ort, ständiger Last überall und Schnee, wo kein Modul liegt; Auflager, Überstand an der Traufe und Kräfte längs des Sparrens bleiben weg",
        ),
        Assumed::WindOnBareCovering => (
            "external coefficients of the roof zones at the area a rafter carries, EN 1991-1-4 7.2.1; suction is passed on to the rafter and relieves nothing that presses; pressure inside the building is left out",
            "Außendruckbeiwerte der Dachbereiche für die Fläche, die ein Sparren trägt, EN 1991-1-4 7.2.1; Sog geht an den Sparren weiter und entlastet nichts, was drückt; der Druck im Gebäude bleibt weg",
        ),
        Assumed::PersonOnRafter => (
            "the force of EN 1991-1-1 6.3.4, category H, from memory, anywhere on the span beside the weights, without snow and wind; hooks are not checked for a person: nobody may step on them",
            "die Kraft nach EN 1991-1-1 6.3.4, Kategorie H, aus dem Gedächtnis, irgendwo im Feld neben dem Eigengewicht, ohne Schnee und Wind; Haken sind dafür nicht nachgewiesen: niemand darf darauf treten",
        ),
        Assumed::RollHeldByRail => (
            "the arm passes the moment about the line of the slope to the rail; hooks and rail must bear what that changes over stiff hooks, in either sense, and the rail the moment itself, on top of everything else (own derivation)",
            "der Arm gibt das Moment um die Falllinie an die Schiene weiter; Haken und Schiene müssen tragen, was das über starren Haken in beiden Richtungen ändert, die Schiene auch das Moment selbst, zusätzlich zu allem anderen (eigene Herleitung)",
        ),
        Assumed::OneBolt => (
            "the parts of the request do not say what they are delivered with",
            "die Teile der Anfrage sagen nicht, womit sie geliefert werden",
        ),
        Assumed::ClampsInPairs => (
            "every module is held on both its rails; at an expansion gap both neighbours get end clamps, for nothing bridges it",
            "jedes Modul ist auf beiden Schienen gehalten; an einer Dehnfuge bekommen beide Nachbarn Endklemmen, denn nichts überbrückt sie",
        ),
        Assumed::FewestSplices => (
            "a splice is a weak point and costs a part and work, so none is added to save rail; pieces lie on two hooks or more, splices keep off hooks, clamps and the middle third of a span as far as possible",
            "ein Stoß ist eine Schwachstelle und kostet Teil und Arbeit, also kommt keiner hinzu, um Schiene zu sparen; Stücke liegen auf mindestens zwei Haken, Stöße meiden Haken, Klemmen und möglichst das mittlere Drittel eines Felds",
        ),
    };
    match reader.language {
        Language::English => english.to_owned(),
        Language::German => german.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::Units;

    #[test]
    fn every_assumption_is_said_in_every_language_and_system_of_units() {
        for assumed in Assumed::samples() {
            for units in Units::ALL {
                let [english, german] =
                    Language::ALL.map(|language| Reader { language, units, ..Reader::default() });
                assert!(!value(&assumed, english).is_empty(), "{}", assumed.code());
                assert!(!value(&assumed, german).is_empty(), "{}", assumed.code());
                assert_ne!(why(&assumed, english), why(&assumed, german), "{}", assumed.code());
                if units == Units::Imperial {
                    let said = value(&assumed, english) + &why(&assumed, english);
                    assert!(!said.contains(" mm") && !said.contains(" kN"), "{said}");
                }
            }
        }
    }
}
