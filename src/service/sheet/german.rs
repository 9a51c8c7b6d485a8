//! Assumptions, quantities and reasons in German: what an answer says in English, sentence by sentence.
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

/// A sentence with a mark for each figure that stands by itself, and the figures. A sentence that
/// cites a standard is taken whole: the numbers of its clause are no figures.
fn without_figures(text: &str) -> (String, Vec<String>) {
    if text.contains("EN 19") {
        return (text.to_owned(), Vec::new());
    }
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
    // Why something is assumed.
    ("the newest", "die neueste"),
    ("ordinary buildings", "gewöhnliche Gebäude"),
    ("none is chosen yet: its weight is left out", "noch nicht gewählt: das Gewicht bleibt weg"),
    ("normal topography, EN 1991-1-3 Table 5.1", "übliche Topografie, EN 1991-1-3 Tabelle 5.1"),
    ("no melting from below, EN 1991-1-3 5.2(8)", "kein Abtauen von unten, EN 1991-1-3 5.2(8)"),
    ("no guard or parapet below the array; with one the shape coefficient is at least #", "kein Schneefang und keine Attika unter der Anlage; damit wäre der Formbeiwert mindestens #"),
    ("exceptional snow is considered where the caller says the site calls for it", "außergewöhnlicher Schnee wird angesetzt, wo die Anfrage ihn für den Standort nennt"),
    ("a module takes the full external coefficient of the zone it lies in: no published reduction for open-edged arrays is confirmed here", "ein Modul bekommt den vollen Außendruckbeiwert seiner Zone: eine veröffentlichte Abminderung für offene Anlagen ist hier nicht bestätigt"),
    ("flat terrain, EN 1991-1-4 4.3.3", "ebenes Gelände, EN 1991-1-4 4.3.3"),
    ("usual weight of such a covering with battens and rafters, from memory", "übliches Gewicht einer solchen Deckung mit Latten und Sparren, aus dem Gedächtnis"),
    ("common practice; the foot turns about its edge when the arm stands sideways", "gängige Praxis; um ihren Rand dreht sich die Grundplatte, wenn der Arm seitlich steht"),
    ("common practice, no source; the heads of tiles take that much of the space for the foot", "gängige Praxis, ohne Quelle; so viel vom Platz der Grundplatte nehmen die Ziegelköpfe ein"),
    ("common practice, no source; it decides whether a nib is in the way of the arm", "gängige Praxis, ohne Quelle; danach richtet sich, ob eine Nase dem Arm im Weg ist"),
    ("no troughs are given, so the arm is taken to leave on the rafter axis", "Wellentäler sind nicht angegeben, also tritt der Arm auf der Sparrenachse aus"),
    ("no strip around the obstacle is asked for", "ein freier Streifen um das Hindernis ist nicht verlangt"),
    ("common practice, no source; hooks and clamps keep off that length", "gängige Praxis, ohne Quelle; Haken und Klemmen halten sich von dieser Länge fern"),
    ("the larger of the factors for steel, EN 1993-1-4 5.1", "der größere der Beiwerte für Stahl, EN 1993-1-4 5.1"),
    ("not given: loads are shared as on rigid hooks, and the clearance is not verified", "nicht angegeben: Lasten verteilen sich wie auf starre Haken, der Freiraum ist nicht nachgewiesen"),
    ("not given: slope loads are shared as on rigid hooks", "nicht angegeben: Hangabtrieb verteilt sich wie auf starre Haken"),
    ("the density withdrawal parameters are usually declared for", "die Rohdichte, für die Ausziehparameter üblicherweise angegeben sind"),
    ("no declared parameter is given", "kein erklärter Parameter ist angegeben"),
    ("the usual aim", "das übliche Ziel"),
    ("full use of the design resistance", "volle Ausnutzung des Bemessungswiderstands"),
    ("common practice for the unloaded arm; no standard says it", "gängige Praxis für den unbelasteten Arm; keine Norm sagt es"),
    ("common practice: the tile above must not ride on the arm; no standard says it", "gängige Praxis: der Ziegel darüber darf nicht auf dem Arm reiten; keine Norm sagt es"),
    ("common practice: near a joint a tile is notched at its edge and the arm lies over the middle of the tile below", "gängige Praxis: nahe einer Fuge wird ein Ziegel am Rand ausgeklinkt, und der Arm liegt über der Mitte des Ziegels darunter"),
    ("bounds the time of one rail segment", "begrenzt die Rechenzeit je Schienenabschnitt"),
    ("the least rail bought is the least waste; of such plans the one with the fewest bars", "am wenigsten gekaufte Schiene ist am wenigsten Verschnitt; davon der Plan mit den wenigsten Stangen"),
    ("common practice, no source; no shorter piece is joined, no shorter offcut kept", "gängige Praxis, ohne Quelle; kürzere Stücke werden nicht gestoßen, kürzere Reste nicht aufgehoben"),
    ("common practice, no source", "gängige Praxis, ohne Quelle"),
    ("sold singly", "einzeln erhältlich"),
    ("no ends are given: the outer module edges and the end projection of the rail, cut where it would be longer than it may be", "Enden sind nicht angegeben: äußere Modulkanten und Überstand der Schiene, getrennt, wo sie sonst zu lang wäre"),
    ("found.clearance_mm is not given there; a measured one is better evidence", "found.clearance_mm fehlt dort; ein gemessener Freiraum ist der bessere Beleg"),
    ("where a hook is recorded within # mm of a rafter, its own place is taken for the axis", "steht ein Haken laut Aufzeichnung höchstens # mm neben einem Sparren, gilt sein Ort als Achse"),
    // What is assumed, where it is no mere figure or name of the interface.
    ("one nib in the middle", "eine Nase in der Mitte"),
    ("anywhere", "überall"),
    ("rigid", "starr"),
    ("# % spare hooks, # % of other parts, sold singly", "# % Zuschlag bei Haken, # % bei anderen Teilen, einzeln erhältlich"),
    ("ends of # rails as a layout would have them", "Enden von # Schienen, wie eine Planung sie hätte"),
    ("clearance at # hooks from the geometry of the covering", "Freiraum an # Haken aus der Geometrie der Deckung"),
    ("hooks stand on the axes of their rafters", "Haken stehen auf den Achsen ihrer Sparren"),
    // Choices of model.
    ("slope force shared like the normal force", "Hangabtrieb verteilt wie die Kraft senkrecht zum Dach"),
    ("a module shares both between its two rails by the lever rule; the small turning moment of the slope force about the rails is left out", "ein Modul gibt beides nach dem Hebelgesetz an seine zwei Schienen ab; das kleine Drehmoment des Hangabtriebs um die Schienen bleibt weg"),
    ("foot turns about its plate edge", "Grundplatte dreht um ihren Rand"),
    ("rigid plate, screws pull only; pressing it turns about its lower edge, lifting about its upper one, sideways about the edge of the timber", "starre Platte, Schrauben nehmen nur Zug auf; bei Druck dreht sie um den unteren Rand, bei Sog um den oberen, seitlich um die Holzkante"),
    ("deflection from the chord", "Durchbiegung von der Sehne"),
    ("a span's deflection is measured from the line through its two displaced hooks, a free end's from that line prolonged; each direction by itself", "die Durchbiegung eines Felds zählt von der Linie durch seine zwei verschobenen Haken, die eines freien Endes von deren Verlängerung; jede Richtung für sich"),
    ("layers under the foot carry nothing across the screw", "Schichten unter der Grundplatte tragen quer zur Schraube nichts"),
    ("packers, counter-batten and layers between foot and rafter are a free gap in the yield model, without rope effect", "Unterlegplatten, Konterlatte und Schichten zwischen Grundplatte und Sparren sind im Fließmodell ein freier Spalt, ohne Seilwirkung"),
    ("plate gripped by the thread's outer diameter", "Platte vom Gewindeaußendurchmesser gefasst"),
    ("whether the foot counts as thin or thick is judged by the outer diameter of the screw, and a thick one by holes less than a tenth of it wider", "ob die Grundplatte dünn oder dick ist, richtet sich nach dem Außendurchmesser der Schraube; eine dicke hat Löcher, die weniger als ein Zehntel davon weiter sind"),
    ("timber under the foot's edge holds", "Holz unter dem Rand der Grundplatte hält"),
    ("the edge the foot turns about is taken as hard; the bearing of counter-batten or rafter across the grain under it is not checked", "der Rand, um den die Grundplatte dreht, gilt als hart; die Pressung von Konterlatte oder Sparren quer zur Faser darunter ist nicht nachgewiesen"),
    ("rail is elastic", "Schiene bleibt elastisch"),
    ("bending about both axes is summed linearly against the proof strength", "Biegung um beide Achsen wird linear summiert, gegen die Dehngrenze"),
    ("rail and hooks are linear", "Schiene und Haken sind linear"),
    ("no contact with tiles is counted on; a hook gives alike whether pressed or lifted", "auf Ziegelkontakt wird nicht gebaut; ein Haken gibt auf Druck und Sog gleich nach"),
    ("service class #", "Nutzungsklasse #"),
    ("timber under a roof covering, EN 1995-1-1 2.3.1.3", "Holz unter einer Dachdeckung, EN 1995-1-1 2.3.1.3"),
    ("tiles are flat and battens even", "Ziegel sind eben, Latten gleichmäßig"),
    ("clearances before load come from the geometry of the covering: measure on site", "Freiräume vor Belastung folgen aus der Geometrie der Deckung: vor Ort messen"),
    ("rafter span lies where it hurts most", "Sparrenfeld liegt, wo es am ungünstigsten ist"),
    ("the hooks of a rafter are run over one simply supported span as a train of loads, with the permanent load and the snow on uncovered tiles spread over it; wind on uncovered tiles and the supports of the rafter are left out", "die Haken eines Sparrens laufen als Lastenzug über ein Einfeld, dazu ständige Last und Schnee auf freier Deckung als Streckenlast; Wind auf freie Deckung und die Auflager des Sparrens bleiben weg"),
    ("one bolt with nut from hook to rail; clamps and splices come with their own", "eine Schraube mit Mutter vom Haken zur Schiene; Klemmen und Verbinder bringen ihre mit"),
    ("the parts of the request do not say what they are delivered with", "die Teile der Anfrage sagen nicht, womit sie geliefert werden"),
    ("clamps in pairs of rails: one between two neighbours, one beyond each end", "Klemmen auf beiden Schienen: eine zwischen zwei Nachbarn, eine an jedem Ende"),
    ("every module is held on both its rails; at an expansion gap both neighbours get end clamps, for nothing bridges it", "jedes Modul ist auf beiden Schienen gehalten; an einer Dehnfuge bekommen beide Nachbarn Endklemmen, denn nichts überbrückt sie"),
    ("a cap at either end of every rail segment", "eine Kappe an jedem Ende jedes Schienenabschnitts"),
    ("fewest splices first, least rail second", "zuerst die wenigsten Stöße, dann die wenigste Schiene"),
    ("a splice is a weak point and costs a part and work, so none is added to save rail; pieces lie on two hooks or more, splices keep off hooks, clamps and the middle third of a span as far as possible", "ein Stoß ist eine Schwachstelle und kostet Teil und Arbeit, also kommt keiner hinzu, um Schiene zu sparen; Stücke liegen auf mindestens zwei Haken, Stöße meiden Haken, Klemmen und möglichst das mittlere Drittel eines Felds"),
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
    ("loaded area", "Lasteinzugsfläche"),
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
    use crate::model::components::HookChoice;
    use crate::model::layout::LayoutRequest;
    use crate::model::parts::{PartKind, PartLine};
    use crate::model::provenance::{Assumption, TraceLine};
    use crate::model::recheck::RecheckRequest;
    use crate::service::layout::run;
    use crate::service::request::Options;
    use crate::service::request::Request;

    /// What is a sentence and no figure, unit or name of the interface.
    fn is_prose(text: &str) -> bool {
        text.contains(' ')
            && !text.starts_with(|c: char| c.is_ascii_digit())
            && !text.starts_with("EN ")
            && !text.starts_with("DE-")
    }

    fn layout(
        job: &str,
        change: impl FnOnce(&mut LayoutRequest),
    ) -> (Vec<Assumption>, Vec<TraceLine>, Vec<PartLine>) {
        let mut request: LayoutRequest = serde_json::from_str(job).expect("a request");
        change(&mut request);
        let answer = run(&request, String::new(), &Options { trace: true, ..Options::default() })
            .expect("no fault");
        (answer.assumptions, answer.trace.expect("asked for"), answer.parts.lines)
    }

    /// Leaves out what may be left out.
    fn bare(request: &mut LayoutRequest) {
        request.wishes = None;
        request.site.exposure_factor = None;
        request.site.thermal_factor = None;
        request.site.snow_held = None;
        request.site.consequence_class = None;
        if let HookChoice::Inline(hook) = &mut request.components.hook {
            hook.stiffness = None;
        }
    }

    /// Whatever examples assume, as they are and with everything left out that may be, is said in
    /// German.
    #[test]
    fn every_assumption_of_the_examples_has_its_german() {
        let barn = include_str!("../../../tests/data/layout-barn.json");
        let cottage = include_str!("../../../tests/data/layout-cottage.json");
        let recheck = include_str!("../../../tests/data/recheck-barn.json");
        let built: RecheckRequest = serde_json::from_str(recheck).expect("a request");
        let built = built.answer(String::new(), &Options::default()).expect("no fault");
        let mut all = built.assumptions;
        let mut quantities = Vec::new();
        let mut reasons = Vec::new();
        for (assumptions, trace, lines) in
            [layout(barn, bare), layout(barn, |_| ()), layout(cottage, |_| ())]
        {
            all.extend(assumptions);
            quantities.extend(trace.into_iter().filter(|line| line.element.is_empty()));
            // That of the modules lists names of fields.
            reasons.extend(lines.into_iter().filter(|line| line.kind != PartKind::Module));
        }
        let why = all.iter().map(|a| a.why.as_str());
        let values = all.iter().map(|a| a.value.as_str()).filter(|value| is_prose(value));
        let mut missing: Vec<&str> = why
            .chain(values)
            .chain(quantities.iter().map(|line| line.quantity.as_str()))
            .chain(reasons.iter().map(|line| line.why.as_str()))
            .filter(|text| german(text).is_none())
            .collect();
        missing.sort_unstable();
        missing.dedup();
        assert!(all.len() > 60, "only {} assumptions were looked at", all.len());
        assert_eq!(missing, Vec::<&str>::new());
    }

    #[test]
    fn figures_are_carried_over_and_clauses_stay() {
        assert_eq!(
            german("clearance at 32 hooks from the geometry of the covering").as_deref(),
            Some("Freiraum an 32 Haken aus der Geometrie der Deckung")
        );
        assert_eq!(
            german("flat terrain, EN 1991-1-4 4.3.3").as_deref(),
            Some("ebenes Gelände, EN 1991-1-4 4.3.3")
        );
        assert_eq!(german("a sentence nobody has written"), None);
    }
}
