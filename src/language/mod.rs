//! Values into sentences, in every language and both systems of units; and the texts of papers, one row
//! per text. What is missing in one language does not compile.
//!
//! Codes, ids and the names of the JSON are the same in every language and are not here.
//!
//! **Layer.** Above `assessment`, whose findings it makes sentences of; decides nothing.

pub mod assumptions;
pub mod cautions;
mod figures;
pub mod findings;
pub mod headline;
pub mod inputs;
pub mod makers;
pub mod members;
pub mod on_roof;
mod quantities;
pub mod remedies;
pub mod room;
pub mod savings;
pub mod repair;
pub mod steps;
pub mod survey;
pub mod tally;

pub use quantities::{Medium, Reader, Units};

/// The number by which people call what has this index. Whatever is written in words, in answers as on
/// paper, counts from 1; indices and pointers of the data count from 0.
#[must_use]
pub const fn ordinal(index: usize) -> usize {
    index.saturating_add(1)
}

/// A module as papers call it, whose rows and columns count from 1; other names are left as they are.
#[must_use]
pub fn module_on_paper(name: &str) -> String {
    let mut parts = name.rsplitn(3, '/');
    let (column, row, field) = (parts.next(), parts.next(), parts.next());
    let number = |part: Option<&str>| part.and_then(|digits| digits.parse().ok()).map(ordinal);
    match (field, number(row), number(column)) {
        (Some(field), Some(row), Some(column)) => format!("{field}/{row}/{column}"),
        _ => name.to_owned(),
    }
}

/// Languages drawings and sheets are written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// German.
    German,
}

impl Language {
    /// Every language.
    pub const ALL: [Self; 2] = [Self::English, Self::German];

    /// Its tag (BCP 47).
    #[must_use]
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
        }
    }

    /// What is written in it.
    #[must_use]
    pub const fn words(self) -> &'static Words {
        match self {
            Self::English => &ENGLISH,
            Self::German => &GERMAN,
        }
    }
}

/// What a covering is made of: slates are no tiles, and tiles that interlock may be of concrete.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pieces {
    /// Flat tiles.
    Tiles,
    /// Slates.
    Slates,
    /// Tiles that interlock.
    Pantiles,
}

/// What a covering's pieces are called in a language.
#[derive(Debug, Clone, Copy)]
pub struct OfCovering {
    /// A course.
    pub course: &'static str,
    /// Pieces that come off.
    pub to_lift: &'static str,
    /// Pieces that are replaced or cut.
    pub to_treat: &'static str,
}

impl Words {
    /// The words for a covering.
    #[must_use]
    pub const fn of_covering(&self, pieces: Pieces) -> OfCovering {
        let [course, to_lift, to_treat] = match pieces {
            Pieces::Tiles => [self.course, self.tiles_to_lift, self.tile_treatment],
            Pieces::Slates => [self.course_of_slates, self.slates_to_lift, self.slate_treatment],
            Pieces::Pantiles => {
                [self.course_of_pantiles, self.pantiles_to_lift, self.pantile_treatment]
            }
        };
        OfCovering { course, to_lift, to_treat }
    }
}

macro_rules! words {
    ($($name:ident: $english:literal, $german:literal;)+) => {
        /// Every text of one language.
        #[derive(Debug)]
        pub struct Words {
            $(#[doc = $english] pub $name: &'static str,)+
        }
        const ENGLISH: Words = Words { $($name: $english,)+ };
        const GERMAN: Words = Words { $($name: $german,)+ };
    };
}

words! {
    decimal_sign: ".", ",";

    // Roof and parts.
    eaves: "Eaves", "Traufe";
    ridge: "Ridge", "First";
    left_verge: "Left verge", "Ortgang li.";
    right_verge: "Right verge", "Ortgang re.";
    left_end: "Left end", "Linkes Ende";
    right_end: "Right end", "Rechtes Ende";
    wall_above: "Wall", "Wand";
    apex: "Top", "Spitze";
    rafter: "Rafter", "Sparren";
    rafters: "Rafters", "Sparren";
    course: "course", "Ziegelreihe";
    hook: "Hook", "Dachhaken";
    hooks: "Hooks", "Dachhaken";
    rail: "Rail", "Schiene";
    rails: "Rails", "Schienen";
    module: "Module", "Modul";
    modules: "Modules", "Module";
    packers: "Packers", "Unterlegplatten";
    screws: "Screws", "Schrauben";
    clearance: "Clearance", "Freiraum";
    chimney: "Chimney", "Schornstein";
    roof_window: "Roof window", "Dachfenster";
    dormer: "Dormer", "Gaube";
    vent: "Vent", "Lüfter";
    flue: "Flue", "Abgasrohr";
    snow_guard: "Snow guard", "Schneefang";
    step_iron: "Step iron", "Trittstufe";
    aerial: "Aerial", "Antenne";
    other_obstacle: "Obstacle", "Hindernis";

    // The maker's form, and what stands of it on a sheet.
    evidence: "What the makers' figures rest on", "Worauf die Herstellerangaben beruhen";
    form_title: "Maker's statement of parts", "Herstellererklärung zu Bauteilen";
    form_purpose: "What a maker states here can be put into a job as it is. Whatever is left open, the job lists as assumed or as missing.",
        "Was ein Hersteller hier angibt, geht unverändert in eine Berechnung ein. Was offen bleibt, führt die Berechnung als Annahme oder als fehlend auf.";
    form_maker: "Maker", "Hersteller";
    form_document: "Document, issue, page", "Dokument, Ausgabe, Seite";
    form_figure: "Figure", "Angabe";
    form_value: "Value", "Wert";
    form_limits: "Range", "Bereich";
    form_to: "to", "bis";
    form_evidence: "Evidence", "Grundlage";
    form_number: "Statement, issue", "Erklärung, Ausgabe";
    form_rules: "Rules and annex", "Regelwerk und Anhang";
    form_signed_at: "Place, date", "Ort, Datum";
    form_signed_by: "Name, signature", "Name, Unterschrift";
    form_required: "Without it no job can be computed.", "Ohne diese Angabe ist keine Berechnung möglich.";
    form_required_with: "Needed as soon as any figure of its group, the first part of its name, is stated.",
        "Nötig, sobald eine Angabe ihrer Gruppe, des ersten Teils ihres Namens, gemacht wird.";
    form_declared: "declaration", "Erklärung";
    form_approval: "approval", "Zulassung";
    form_test: "tests", "Versuche";
    form_bar: "arm as a flat bar", "Arm als Flachstahl";
    form_tests: "Tests", "Versuche";
    form_results: "Results", "Ergebnisse";
    form_distribution: "Distribution", "Verteilung";
    form_normal: "normal", "normal";
    form_lognormal: "lognormal", "lognormal";
    form_known: "(known beforehand)", "(vorab bekannt)";
    form_tests_how: "EN 1990 Annex D: n results under the conditions of use, mean m, coefficient of variation V (at least 0.10 where it is not known beforehand), factor kₙ by Table D1, characteristic value Xₖ = m (1 − kₙ V), or of a lognormal distribution by the logarithms. Give every single result, the distribution that is taken, and V where it is known beforehand. A design value is Xₖ over its partial factor γ; a stiffness is the mean.",
        "EN 1990 Anhang D: n Ergebnisse unter Einsatzbedingungen, Mittelwert m, Variationskoeffizient V (mindestens 0,10, wenn er nicht vorab bekannt ist), Beiwert kₙ nach Tabelle D1, charakteristischer Wert Xₖ = m (1 − kₙ V), bei Lognormalverteilung über die Logarithmen. Alle Einzelergebnisse angeben, dazu die gewählte Verteilung und V, wenn er vorab bekannt ist. Ein Bemessungswert ist Xₖ geteilt durch den Teilsicherheitsbeiwert γ, eine Steifigkeit der Mittelwert.";
    form_needed: "What a job needs to hold without reservation, where it applies", "Was ein Nachweis ohne Vorbehalt braucht, soweit es zutrifft";
    form_or: "or", "oder";
    form_caution: "A statement is no approval. It replaces neither a structural engineer nor the instructions of the part; national and local rules come first.",
        "Eine Erklärung ist keine Zulassung. Sie ersetzt weder Tragwerksplaner noch Montageanleitung; nationale und örtliche Regeln gehen vor.";

    // Drawing of the slope.
    roof_plan: "Roof slope with hooks", "Dachfläche mit Dachhaken";
    seen_from_outside: "Seen from outside, facing the slope. True lengths on the slope, in mm.",
        "Blick von außen auf die Dachfläche. Wahre Längen in der Dachschräge, in mm.";
    counting: "Course 1 is the first full course above the eaves (0 in the data), 0 one below it. Tiles of a course count from its left end; the first, cut or whole, is 1. Rafters count from the left as well: the first is 1 (0 in the data). So do modules: row 1 is at the eaves, column 1 at the left. Left and right are as seen from outside, facing the slope.",
        "Ziegelreihe 1 ist die erste volle Reihe über der Traufe (0 in den Daten), 0 eine darunter. Ziegel einer Reihe zählen von ihrem linken Ende; der erste, geschnitten oder ganz, ist 1. Auch Sparren zählen von links: der erste ist 1 (0 in den Daten). Ebenso Module: Zeile 1 liegt an der Traufe, Spalte 1 links. Links und rechts gelten bei Blick von außen auf die Dachfläche.";
    part_of: "Part", "Teil";
    numbers_at_hooks: "Beside a hook stands its number on the rail: hook 7 of rail A2 is A2-7.", "Am Haken steht seine Nummer an der Schiene: Haken 7 der Schiene A2 ist A2-7.";
    from_left: "x: from the left end of the eaves to the rafter axis",
        "x: vom linken Ende der Traufe bis zur Sparrenachse";
    from_eaves: "y: from the eaves line up the slope to the rail bolts",
        "y: von der Trauflinie die Schräge hinauf bis zu den Schienenschrauben";
    legend: "Legend", "Legende";
    legend_hook: "Hook; the dark sector is its utilisation",
        "Dachhaken; der dunkle Sektor ist seine Auslastung";
    legend_to_add: "Open ring: hook to add", "Offener Ring: zusätzlicher Dachhaken";
    legend_most_used: "Double ring: the hook used most", "Doppelring: am stärksten ausgelasteter Haken";
    legend_over: "Square: loaded beyond its limit", "Quadrat: über seine Grenze belastet";
    legend_unverified: "Diamond: not verified", "Raute: nicht nachgewiesen";
    legend_rail: "Rail", "Schiene";
    legend_there: "Grey: there already", "Grau: schon vorhanden";
    legend_splice: "Splice, with its x", "Schienenstoß, mit x";
    legend_gap: "Expansion gap, with its x", "Dehnfuge, mit x";
    legend_module: "Module: field/row/column", "Modul: Feld/Zeile/Spalte";
    legend_rafter: "Rafter with axis; below it number and x", "Sparren mit Achse, darunter Nummer und x";
    legend_barred: "Rafter that takes no further hook", "Sparren, der keinen weiteren Dachhaken nimmt";
    legend_course: "Tail edges of the courses", "Unterkanten der Ziegelreihen";
    legend_zone: "Wind zone, coefficient of lift", "Dachbereich mit Sogbeiwert";
    legend_keep_clear: "Obstacle with number and the strip to keep clear", "Hindernis mit Nummer und freizuhaltendem Streifen";
    legend_strip: "Array to stay behind this line", "Anlage muss hinter dieser Linie bleiben";
    wind_from_front: "wind onto the eaves", "Wind auf die Traufe";
    wind_from_back: "wind from behind the slope", "Wind von hinter der Dachfläche";
    wind_from_left: "wind from the left", "Wind von links";
    wind_from_right: "wind from the right", "Wind von rechts";
    wind_zones: "Wind zones", "Dachbereiche";
    wind_zones_note: "Each wind by itself. Below each plan: zone, coefficient of lift, coefficient of pressure. Thin: modules.",
        "Jede Windrichtung für sich. Unter jedem Plan: Bereich, Sogbeiwert, Druckbeiwert. Dünn: Module.";
    governs: "governs", "maßgebend";

    // Section.
    section: "Section through hook", "Schnitt durch Dachhaken";
    section_note: "Square to the eaves, slope drawn level. Outline of hook and tiles simplified; dimensions true.",
        "Senkrecht zur Traufe, Dachschräge waagrecht gezeichnet. Haken und Ziegel vereinfacht, Maße wahr.";
    towards_eaves: "to the eaves", "zur Traufe";
    towards_ridge: "to the ridge", "zum First";
    pitch: "Pitch", "Dachneigung";
    batten: "Batten", "Traglattung";
    layers_under_foot: "Layers under the foot", "Schichten unter der Grundplatte";
    layers_beside_foot: "Layers beside the foot", "Schichten neben der Grundplatte";
    foot: "Foot", "Grundplatte";
    arm: "Arm", "Hakenarm";
    tile_below: "Tile below the arm", "Ziegel unter dem Hakenarm";
    tile_above: "Tile above: let the arm in or use a substitute tile",
        "Ziegel darüber: Arm einlassen oder Ersatzziegel";
    reach: "Reach of the arm", "Ausladung des Arms";
    bolt_height: "Bolt height", "Höhe der Schienenschraube";
    bolt_beyond_exit: "Bolt beyond tail edge", "Schienenschraube vor Ziegelunterkante";
    embedment: "Embedment", "Einbindetiefe";
    detail: "Detail at the least clearance", "Einzelheit am kleinsten Freiraum";
    before_load: "before load", "unbelastet";
    under_load: "under load", "belastet";
    not_verified: "not verified", "nicht nachgewiesen";
    no_packers: "none", "keine";
    drawn_larger: "drawn larger", "vergrößert";

    // Plots.
    plot_utilisation: "Utilisation along the rail", "Auslastung entlang der Schiene";
    plot_moment: "Bending moment square to the roof", "Biegemoment senkrecht zum Dach";
    plot_deflection: "Deflection square to the roof", "Durchbiegung senkrecht zum Dach";
    limit: "limit", "Grenze";

    // The result in a line, and small print.
    holds: "Holds", "Nachweis erfüllt";
    holds_with_warnings: "Holds, with warnings", "Nachweis erfüllt, mit Warnungen";
    fails: "Fails", "Nachweis nicht eingehalten";
    incomplete: "Incomplete: not everything is verified", "Unvollständig: nicht alles ist nachgewiesen";
    not_assessed: "Not assessed", "Nicht beurteilt";
    used_most: "highest utilisation", "höchste Auslastung";
    fewest_proven: "fewest for this position of the field, these parts and this pattern, proven",
        "geringste Anzahl für diese Lage des Modulfelds, diese Teile und diese Anordnung, bewiesen";
    on_same_rafters: "all rails of a field on the same rafters", "alle Schienen eines Feldes an denselben Sparren";
    planning_aid: "Calculation aid, no approval. Measure and check on site; local rules, structural engineer and roofer come first.",
        "Rechenhilfe, keine Freigabe. Vor Ort messen und prüfen; örtliche Regeln, Tragwerksplanung und Dachdecker gehen vor.";
    request_digest: "Request", "Anfrage";

    // The sheet.
    sheet: "Setting-out and check sheet", "Montageplan mit Nachweis";
    kind_layout: "to be built", "zu bauen";
    kind_recheck: "check of what stands", "Nachweis des Bestands";
    kind_survey: "packing as surveyed, and check of what stands", "Unterlegen nach Aufmaß, Nachweis des Bestands";
    kind_event: "judgement of an observed event", "Beurteilung eines Ereignisses";
    customer: "Customer", "Auftraggeber";
    site: "Site", "Bauort";
    drawn_up_by: "Drawn up by", "Aufgestellt von";
    date: "Date", "Datum";
    page: "Page", "Seite";
    of_pages: "of", "von";
    stop_across: "DO NOT BUILD", "NICHT BAUEN";
    inspect_across: "INSPECT FIRST", "ERST ANSEHEN";
    contents: "Contents", "Inhalt";
    slope: "Roof slope", "Dachfläche";
    slopes: "Roof slopes", "Dachflächen";
    on_every_slope: "On every roof slope", "Auf jeder Dachfläche";
    order_of_all_slopes: "Order for all roof slopes", "Bestellung für alle Dachflächen";
    stop_plan_fails: "Do not build or order from this sheet", "Nach diesem Blatt weder bauen noch bestellen";
    stop_plan_incomplete: "Do not build or order from this sheet yet",
        "Nach diesem Blatt noch nicht bauen und noch nicht bestellen";
    stop_plan_unmeasured: "Order from this sheet, and do not build from it",
        "Nach diesem Blatt bestellen, aber nicht bauen";
    stop_built_fails: "Do not build on these hooks", "Auf diese Dachhaken nicht weiterbauen";
    stop_built_incomplete: "Do not build on these hooks yet", "Auf diese Dachhaken noch nicht weiterbauen";
    stop_event: "Do not rely on these hooks before they are inspected",
        "Auf diese Dachhaken kein Verlass, bevor sie angesehen sind";
    stop_fails_why: "As it stands it does not hold. What is marked ✗ has to be changed first, then everything is computed again and a new sheet printed.",
        "So hält es nicht. Zuerst ist zu ändern, was mit ✗ bezeichnet ist, dann wird alles neu gerechnet und ein neues Blatt gedruckt.";
    stop_incomplete_why: "Nothing that was checked fails, but not everything could be checked. Settle what is listed here first, then have it computed again and print a new sheet.",
        "Was geprüft werden konnte, hält; nicht alles konnte geprüft werden. Zuerst klären, was hier steht, dann neu rechnen lassen und ein neues Blatt drucken.";
    stop_unmeasured_why: "The order suffices for every place of the first rafter that was looked at. Before anything is fixed, measure every rafter, have it computed again and print a new sheet.",
        "Die Bestellung reicht für jede Lage des ersten Sparrens, die untersucht wurde. Vor dem Befestigen jeden Sparren messen, neu rechnen lassen und ein neues Blatt drucken.";
    help_below: "What would make it hold is listed below, hook by hook.", "Was es tragfähig macht, steht unten, Haken für Haken.";
    act_measure: "Measure or look", "Messen oder nachsehen";
    act_ask_maker: "Ask the maker", "Hersteller fragen";
    act_ask_engineer: "Ask a structural engineer", "Tragwerksplanung fragen";
    act_look_up: "Look it up", "Nachschlagen";
    act_change: "Change the plan", "Planung ändern";
    act_declare: "Have somebody answer for it", "Jemanden dafür einstehen lassen";
    act_prove: "Have it tested or approved", "Prüfen oder zulassen lassen";
    for_the_crew: "For the crew", "Für die Montage";
    for_the_engineer: "For the engineer", "Für die Tragwerksplanung";
    setting_out: "Setting out, hook by hook", "Einmessen, Haken für Haken";
    setting_out_note: "Distances in mm: x from the left end of the eaves to the rafter axis, y from the eaves line up the slope to the rail bolts. The clearance is the least between arm and tile below before any load, mostly at the lower end of the arm; if you measure less, stop and have it computed again with what you measured: packers clear the tile, but screws hold less on them. Tick what is done.",
        "Abstände in mm: x vom linken Traufende zur Sparrenachse, y von der Trauflinie die Schräge hinauf zu den Schienenschrauben. Der Freiraum ist der kleinste zwischen Arm und unterem Ziegel vor jeder Last, meist am unteren Ende des Arms; ist er kleiner, anhalten und mit dem gemessenen Maß neu rechnen lassen: Unterlegplatten schaffen Platz, aber die Holzschrauben halten darauf weniger. Erledigtes abhaken.";
    each_hook: "At every hook", "An jedem Dachhaken";
    foot_on_axis: "Packers lie between the foot and what it stands on. The foot stands centred over the axis of the rafter; its arm sits on the foot so that it leaves the covering at the x in bold.",
        "Unterlegplatten liegen zwischen der Grundplatte und dem, worauf sie steht. Die Grundplatte steht mittig über der Sparrenachse; der Arm sitzt auf ihr so, dass er beim fett gedruckten x austritt.";
    foot_above_bolt: "From the rail bolt up the slope to the lower edge of the foot:", "Von der Schienenschraube die Dachschräge hinauf bis zur Unterkante der Grundplatte:";
    screws_of_hook: "Screws", "Schrauben";
    screw_places: "Screws, in mm, to the right of the foot's middle / up from its lower edge",
        "Schrauben, in mm, rechts der Mitte der Grundplatte / über ihrer Unterkante";
    drill_first_with: "Drill their holes first with", "Vorbohren mit";
    drill_source: "in softwood: 0.7 of the thread, down to the half millimetre; EN 1995-1-1 10.4.5, from memory. What the screw's approval says goes before it.",
        "in Nadelholz: 0,7 des Gewindes, auf halbe Millimeter abgerundet; EN 1995-1-1 10.4.5, aus dem Gedächtnis. Die Zulassung der Schraube geht vor.";
    rail_in_slot: "Bolt the rail in the slots so that it lies straight.",
        "Die Schiene so in den Langlöchern verschrauben, dass sie gerade liegt.";
    rail_high_in_slot: "Keep its bolts above the lower ends of the slots by at least",
        "Ihre Schrauben über den unteren Enden der Langlöcher halten, um mindestens";
    rail_right_of_hooks: "Bolt the rail to the right of the hooks, seen from the eaves. From the axis of an arm to that of the rail",
        "Die Schiene von der Traufe gesehen rechts an die Haken schrauben. Von der Achse eines Arms zu jener der Schiene";
    rail_left_of_hooks: "Bolt the rail to the left of the hooks, seen from the eaves. From the axis of an arm to that of the rail",
        "Die Schiene von der Traufe gesehen links an die Haken schrauben. Von der Achse eines Arms zu jener der Schiene";
    pieces_in_place: "Pieces, left to right", "Stücke, von links";
    pieces_upwards: "Pieces, from the eaves", "Stücke, von der Traufe";
    arm_x: "Arm at x", "Arm bei x";
    from_right_edge: "To right edge", "Zum rechten Rand";
    course_and_column: "Course / tile", "Reihe / Ziegel";
    side_joint: "Arm to side joint", "Arm zur Seitenfuge";
    screw: "Screw", "Schraube";
    screws_in: "Screws in", "Verschraubt";
    tiles_closed: "Tiles closed", "Deckung zu";
    needed_clearance: "Clearance, at least", "Freiraum, mindestens";
    tiles_to_lift: "Tiles to take off, course / tiles", "Ziegel aufnehmen, Reihe / Ziegel";
    there_already: "there already", "schon vorhanden";
    may_be_closed: "Once packers, slots and screws are as said here, the tiles over this rail may be closed.", "Sind Unterlegplatten, Langlöcher und Schrauben wie hier angegeben, darf über dieser Schiene eingedeckt werden.";
    stays_open: "Keep the tiles over this rail open: something of it fails or was left open, see the findings.", "Über dieser Schiene offen lassen: etwas an ihr ist nicht eingehalten oder offen, siehe die Befunde.";
    still_to_measure: "Still to be measured, the most urgent first", "Noch zu messen, das Dringendste zuerst";
    reading_clearance: "clearance between arm and tile below", "Freiraum zwischen Arm und Ziegel darunter";
    reading_level: "face of the foot above the string", "Auflagefläche über der Schnur";
    held_by_hook: "tighten in the groove at hook {}, leave it free to slide on the others", "in der Nut fest an Haken {}, auf den anderen gleitend lassen";
    course_of_slates: "course", "Gebinde";
    course_of_pantiles: "course", "Reihe";
    slates_to_lift: "Slates to take off, course / slates", "Schiefer aufnehmen, Gebinde / Schiefer";
    pantiles_to_lift: "Tiles to take off, course / tiles", "Pfannen oder Dachsteine aufnehmen, Reihe / Stück";
    slate_treatment: "Slates to treat, course / slate", "Schiefer bearbeiten, Gebinde / Schiefer";
    pantile_treatment: "Tiles to treat, course / tile", "Pfannen oder Dachsteine bearbeiten, Reihe / Stück";
    tile_treatment: "Tiles to treat, course / tile", "Ziegel bearbeiten, Reihe / Ziegel";
    metal_tile: "metal tile", "Metallersatzziegel";
    substitute_below: "below", "unten";
    substitute_above: "above", "oben";
    substitute_beside: "beside", "daneben";
    notch: "notch", "ausklinken";
    notches: "Notches: course / tile: from – to along its lower edge, from its left side joint × height, mm.",
        "Ausklinken: Reihe / Ziegel: von – bis entlang der Unterkante, ab der linken Seitenfuge × Höhe, mm.";
    bolts_below_tail: "bolts below the tail edge of this course:", "Schienenschrauben unter der Unterkante dieser Reihe:";
    above_rail: "above rail", "über Schiene";
    order_of_work: "Order of work", "Arbeitsfolge";
    work_secure: "Scaffold, edge protection and weather first; nobody below. Keep as much open as can be closed the same day.",
        "Zuerst Gerüst, Absturzsicherung und Wetter; unten niemand. Nur so viel öffnen, wie am selben Tag geschlossen wird.";
    work_set_out: "Find the rafters and the first course; open at the lowest rail and measure the other rails from it.",
        "Sparren und erste Reihe aufsuchen; an der untersten Schiene öffnen und die anderen Schienen von dort messen.";
    work_open: "Take off the tiles of the list, those that metal ones replace among them; number them and lay them aside safely. Cut the membrane only where a foot has to reach the timber.",
        "Ziegel der Liste aufnehmen, auch jene, die Metallersatzziegel ersetzen; bezeichnen und sicher ablegen. Die Unterdeckbahn nur schneiden, wo eine Grundplatte auf das Holz muss.";
    work_fix: "Set packers and foot over the rafter axis, drill where asked for, drive every screw. Timber that is split, rotten or elsewhere than drawn: stop.",
        "Unterlegplatten und Grundplatte über der Sparrenachse setzen, vorbohren wo verlangt, jede Schraube eindrehen. Holz gerissen, morsch oder anders als gezeichnet: anhalten.";
    work_measure: "Measure and write down at every hook what the form asks for; compare the clearance with the list.",
        "An jedem Haken messen und eintragen, was das Formblatt verlangt; den Freiraum mit der Liste vergleichen.";
    work_photo: "Photograph the opening before it is closed.", "Die Öffnung fotografieren, bevor sie geschlossen wird.";
    work_membrane: "Close the membrane again: each cut and each screw taped or sealed as its maker says, laps shedding water downwards.",
        "Die Unterdeckbahn wieder schließen: jeden Schnitt und jede Schraube nach Herstellerangabe verkleben oder abdichten, Überlappungen wasserführend nach unten.";
    work_close: "Lay metal and lifted tiles again as they lay, notched where the list says; none may ride on an arm. Fix them again: clips, nails or screws as before and as the wind zone asks for.",
        "Metallersatzziegel und aufgenommene Ziegel wieder verlegen wie zuvor, ausgeklinkt wo verlangt; keiner darf auf einem Arm aufliegen. Wieder befestigen: Klammern, Nägel oder Schrauben wie zuvor und wie es der Dachbereich verlangt.";
    work_rails: "Bolt the rails straight, splices and free ends as listed, tighten to the maker's torque; then modules and clamps.",
        "Schienen gerade verschrauben, Stöße und freie Enden nach Liste, mit dem Anzugsmoment des Herstellers; dann Module und Klemmen.";
    work_hand_over: "Hand the form and the photos to the office; what differs is computed again.",
        "Formblatt und Fotos ins Büro; was abweicht, wird neu gerechnet.";
    photo_list: "Photos", "Fotos";
    photo: "Photo", "Foto";
    photo_before: "The whole slope before and after, and each gable.", "Die ganze Dachfläche vorher und nachher, und jeder Giebel.";
    photo_opening: "Every opening with the name of its hook: rafter, layers, packers, foot and screw heads, a tape laid across in view.",
        "Jede Öffnung mit dem Namen ihres Hakens: Sparren, Schichten, Unterlegplatten, Grundplatte und Schraubenköpfe, ein Maßband quer im Bild.";
    photo_membrane: "Every cut of the membrane after it is closed.", "Jeder Schnitt der Unterdeckbahn, nachdem er geschlossen ist.";
    photo_after: "Every arm with its tiles closed, the clearance in view; splices, expansion gaps and rail ends.",
        "Jeder Arm bei geschlossener Deckung, der Freiraum sichtbar; Stöße, Dehnfugen und Schienenenden.";
    as_built: "As built", "Wie gebaut";
    as_built_note: "In mm; what a survey asks for. Rafter: its axis from the left end of the eaves. Clearance: arm to tile below where it is least, packers in place. Level: the face under the packers above (+) or below (−) a string along the rail. Room: arm to tile above.",
        "In mm; was ein Aufmaß verlangt. Sparren: Achse vom linken Traufende. Freiraum: Arm zum unteren Ziegel an der engsten Stelle, Unterlegplatten eingebaut. Höhe: Fläche unter den Unterlegplatten über (+) oder unter (−) einer Schnur entlang der Schiene. Luft: Arm zum oberen Ziegel.";
    not_as_planned: "Not as planned", "Nicht wie geplant";
    all_as_planned: "Everything that was found is as planned.", "Alles, was festgestellt wurde, ist wie geplant.";
    quantity: "What", "Was";
    planned_mm: "Planned, mm", "Geplant, mm";
    found_mm: "Found, mm", "Vorgefunden, mm";
    by_mm: "Off by, mm", "Abweichung, mm";
    built_by: "Built by", "Ausgeführt von";
    looked_at_by: "Checked on the roof by", "Auf dem Dach geprüft von";
    taken_over_by: "Handed over to", "Übergeben an";
    name_in_print: "Name", "Name";
    signature: "Signature", "Unterschrift";
    look_again: "Look at it again as often as the makers of the parts say, and after every storm and every heavy snow; have what has moved or broken computed again. Every ______ months, by: ____________",
        "Wiederkehrend prüfen, so oft die Hersteller der Teile es verlangen, und nach jedem Sturm und jedem starken Schneefall; was sich verschoben hat oder gebrochen ist, neu rechnen lassen. Alle ______ Monate, durch: ____________";
    found_rafter_x: "Rafter at x", "Sparren bei x";
    found_rafter_width: "Rafter width", "Sparrenbreite";
    found_rafter_condition: "Rafter: sound, split, rotten", "Sparren: gesund, gerissen, faul";
    condition_sound: "sound", "gesund";
    condition_split: "split", "gerissen";
    condition_rotten: "rotten", "faul";
    found_counter_batten: "Counter-batten", "Konterlatte";
    found_screw_length: "Screw length", "Schraubenlänge";
    found_packers: "Packers", "Unterlegplatten";
    found_clearance: "Clearance", "Freiraum";
    found_level: "Level ±", "Höhe ±";
    found_room_above: "Room above", "Luft darüber";
    found_side_joint: "Arm to side joint", "Arm zur Seitenfuge";
    room_for_arm: "arm needs", "Arm braucht";
    cover_row: "cover row", "Deckschicht";
    bed_row: "bed row", "Lagerschicht";
    nib_off: "nib off", "Nase ab";
    packers_and_slots: "Packers and slots", "Unterlegplatten und Langlöcher";
    levelled: "With these the rail comes out straight.", "Damit wird die Schiene gerade.";
    cannot_be_levelled: "No packers and slots bring the rail out straight with clearance enough.",
        "Mit keinen Unterlegplatten und Langlöchern wird die Schiene gerade und der Freiraum groß genug.";
    levelling_undecided: "The search ended before it found any.", "Die Suche endete ohne Ergebnis.";
    levelling_incomplete: "Measurements are missing.", "Es fehlen Maße.";
    packed_for: "Packed for", "Unterlegt für";
    for_level: "level", "Flucht";
    slot: "Bolt in slot, from the roof end, mm", "Schienenschraube im Langloch, vom dachseitigen Ende, mm";
    from_slot_middle: "from the middle, mm", "von der Mitte, mm";
    packed_tick: "Packed", "Unterlegt";
    to_find_out: "To settle first", "Zuerst zu klären";
    what_would_help: "What would make it hold", "Was es tragfähig macht";
    each_tried: "Each of these was laid out and checked as a whole; best first. A part that is not given needs its maker's figures.",
        "Jede Änderung wurde im Ganzen ausgelegt und nachgewiesen; die beste zuerst. Zu einem anderen Teil gehören die Werte seines Herstellers.";
    nothing_tried_helps: "None of the changes that were tried helps.", "Keine der geprüften Änderungen hilft.";
    not_all_tried: "Not every change was tried to its end: the steps of the job were spent.",
        "Nicht jede Änderung wurde zu Ende geprüft: Die Rechenschritte des Auftrags waren verbraucht.";
    what_would_save: "What one change would save", "Was eine Änderung spart";
    each_saving_tried: "Each of these was laid out and checked as a whole, by itself; what saves most first. A part that is not given needs its maker's figures.",
        "Jede Änderung wurde für sich im Ganzen ausgelegt und nachgewiesen; was am meisten spart, zuerst. Zu einem anderen Teil gehören die Werte seines Herstellers.";
    nothing_tried_saves: "None of the changes that were tried saves anything.", "Keine der geprüften Änderungen spart etwas.";
    one_hook_fewer: "One hook fewer on a rail", "Ein Dachhaken weniger an einer Schiene";
    room_of_hooks: "Where a rafter is not where it was drawn", "Wenn ein Sparren nicht liegt wie gezeichnet";
    room_on_rafters: "Each hook by itself, all others as set out: if its rafter lies off by no more than this, set the hook on the axis of the rafter and go on. If it lies further off, or if several do, stop, measure, and have the job computed again.",
        "Jeder Haken für sich, alle anderen wie eingemessen: Liegt sein Sparren um nicht mehr als dies daneben, den Haken auf die Sparrenachse setzen und weiterarbeiten. Liegt er weiter daneben oder sind es mehrere, anhalten, messen und neu rechnen lassen.";
    room_left: "To the left, mm", "Nach links, mm";
    room_right: "To the right, mm", "Nach rechts, mm";
    room_ends_at: "Ends at", "Endet an";
    room_tipping: "foot tips sideways", "Grundplatte kippt seitlich";
    room_screw_edge: "screw too near the edge", "Schraube zu nah am Rand";
    room_no_trough: "no trough in reach", "kein Wellental in Reichweite";
    room_rail_end: "end of the rail", "Ende der Schiene";
    room_free_end: "free end too long", "freies Ende zu lang";
    room_next_hook: "next hook", "nächster Haken";
    room_not_tried: "not tried further", "weiter nicht geprüft";
    not_all_rooms: "Not every hook was looked at: the steps of the job were spent.",
        "Nicht jeder Haken wurde geprüft: Die Rechenschritte des Auftrags waren verbraucht.";
    with_all_this: "With all of this", "Mit alledem";
    feet_to_set_anew: "Feet to set anew", "Neu zu setzende Grundplatten";
    set_out_as_below: "set out as all others", "eingemessen wie alle anderen";
    parts_for_repair: "Parts for it, without spares", "Teile dafür, ohne Zuschlag";
    before_and_with: "Before and with all of it", "Vorher und mit alledem";
    as_it_stands: "as it stands", "wie es ist";
    repaired: "with all of it", "mit alledem";
    hooks_to_take_off: "Hooks to take off, because their rafters are rotten", "Abzunehmende Dachhaken, weil ihre Sparren faul sind";
    part_covering_tile: "Tile of the covering, laid again", "Ziegel der Deckung, wieder einzudecken";
    freed: "Left over", "Wird frei";
    hooks_to_add: "Hooks to add", "Zusätzliche Dachhaken";
    rail_cuts: "Rails", "Schienen";
    lower_rails: "Lower rails, on the hooks", "Untere Schienen, an den Haken";
    upper_rails: "Upper rails, on the lower ones with a connector at every crossing", "Obere Schienen, auf den unteren, mit einem Verbinder an jeder Kreuzung";
    from_x: "from x", "von x";
    to_x: "to x", "bis x";
    from_y: "from y", "von y";
    to_y: "to y", "bis y";
    length: "Length", "Länge";
    splices_at: "Splices at x", "Stöße bei x";
    gaps_at: "Expansion gaps at x", "Dehnfugen bei x";
    free_ends: "Free ends left / right", "Freie Enden links / rechts";
    splices_at_y: "Splices at y", "Stöße bei y";
    gaps_at_y: "Expansion gaps at y", "Dehnfugen bei y";
    free_ends_up: "Free ends lower / upper", "Freie Enden unten / oben";
    order: "To order", "Bestellliste";
    order_note: "Spares and pack sizes are as asked for; where nothing was asked, what was taken is listed under assumptions, in the engineer's part.", "Zuschläge und Packungsgrößen wie verlangt; wo nichts verlangt war, stehen die gewählten bei den Annahmen im Teil für die Tragwerksplanung.";
    order_of_phases_note: "It suffices for every place of the first rafter in the table below that does not fail. What is drawn, cut and carried up on this sheet is for the place shown here.",
        "Sie reicht für jede Lage des ersten Sparrens in der Tabelle darunter, die nicht scheitert. Was auf diesem Blatt gezeichnet, zugeschnitten und aufs Dach getragen wird, gilt für die hier gezeigte Lage.";
    phases: "Where the first rafter may stand", "Wo der erste Sparren stehen kann";
    shown_here: "shown here", "hier gezeigt";
    first_rafter_at: "First rafter at x", "Erster Sparren bei x";
    centres: "Centres", "Achsabstand";
    part: "Part", "Teil";
    needed: "Needed", "Gebraucht";
    spare: "Spare", "Zuschlag";
    ordered: "To order", "Zu bestellen";
    mass: "Mass", "Masse";
    cutting: "Cutting the rails", "Zuschnitt der Schienen";
    bar: "Bar", "Stange";
    pieces: "Pieces, in the order they are cut from the bar", "Stücke in der Reihenfolge des Schnitts";
    offcut: "Offcut (✓ keep it)", "Rest (✓ aufheben)";
    carry_up: "To carry up", "Aufs Dach zu tragen";
    module_field: "Field", "Modulfeld";
    part_module: "Module", "Modul";
    part_hook: "Roof hook", "Dachhaken";
    part_screw: "Screw", "Holzschraube";
    part_substitute_tile: "Metal substitute tile", "Metallersatzziegel";
    part_packer: "Packer", "Unterlegplatte";
    part_crossing_connector: "Connector of crossing rails", "Kreuzverbinder";
    part_bolt_set: "Bolt and nut at the hook", "Schraube mit Mutter am Haken";
    part_rail_bar: "Rail, bar", "Schiene, Stange";
    part_rail_piece: "Rail, piece", "Schiene, Stück";
    part_splice: "Splice", "Schienenverbinder";
    part_mid_clamp: "Mid clamp", "Mittelklemme";
    part_end_clamp: "End clamp", "Endklemme";
    part_end_cap: "End cap", "Endkappe";
    warnings: "Warnings", "Warnungen";
    no_warnings: "No warnings.", "Keine Warnungen.";
    failure: "Fails", "Nicht eingehalten";
    unverified: "Not verified", "Nicht nachgewiesen";
    warning: "Warning", "Warnung";
    notice: "Notice", "Hinweis";
    cautions: "Before anyone climbs", "Bevor jemand aufs Dach steigt";
    verdict: "Verdict", "Ergebnis";
    by_scope: "By scope", "Im Einzelnen";
    declared: "Taken over by declaration, not verified here", "Durch Erklärung übernommen, hier nicht nachgewiesen";
    instead_of: "instead of", "anstelle von";
    governed_by: "governed by", "maßgebend";
    in_combination: "in combination", "in Kombination";
    inputs: "Inputs as received", "Eingaben wie erhalten";
    inputs_note: "Every member of the request. Counted from 1 where they are listed.", "Alle Angaben der Anfrage. Aufgelistetes zählt von 1.";
    the_job: "Job", "Auftrag";
    yes: "yes", "ja";
    no: "no", "nein";
    none_given: "none", "keine";
    field: "Value", "Wert";
    place: "Place in the request", "Stelle der Anfrage";
    assumptions: "Assumptions", "Annahmen";
    why: "Why", "Warum";
    choice_of_model: "model", "Modell";
    actions: "Actions and intermediate values", "Einwirkungen und Zwischenwerte";
    quantity_and_clause: "Quantity · clause or evidence", "Größe · Abschnitt oder Grundlage";
    symbol_and_value: "Symbol and value", "Zeichen und Wert";
    combinations: "Combinations", "Kombinationen";
    weight: "Weight", "Eigenlast";
    snow: "Snow", "Schnee";
    wind: "Wind", "Wind";
    bears: "What the job bears", "Was die Anlage trägt";
    bears_note: "Largest snow on the ground and largest gust pressure before a check passes its limit, in kN/m², the other load as computed (in brackets: the value of the job). As observed means every partial factor 1: it leaves no margin. With * not every check was run, and another limit may come first.",
        "Größte Bodenschneelast und größter Böengeschwindigkeitsdruck, bevor ein Nachweis seine Grenze überschreitet, in kN/m²; die andere Last wie angesetzt (in Klammern: der angesetzte Wert). „Beobachtet“ heißt mit allen Teilsicherheitsbeiwerten 1 und lässt keine Reserve. Bei * wurde nicht jeder Nachweis geführt; eine andere Grenze kann früher kommen.";
    load: "Load", "Last";
    scope: "Scope", "Bereich";
    fixing: "Fixing", "Befestigung";
    characteristic: "Characteristic", "Charakteristisch";
    observed: "As observed", "Beobachtet";
    first_limit: "First limit", "Erste Grenze";
    ground_snow: "Snow on the ground", "Bodenschneelast";
    gust: "Gust pressure", "Böendruck";
    on_the_roof: "on the roof", "auf dem Dach";
    of_the_site: "of the site", "am Standort anzusetzen";
    bears_none: "none holds", "keine";
    fails_otherwise: "fails for another reason", "hält aus anderem Grund nicht";
    event: "Observed event", "Beobachtetes Ereignis";
    event_within: "Within the resistances, as far as checks were run.",
        "Innerhalb der Widerstände, soweit Nachweise geführt wurden.";
    event_not_within: "Beyond a limit.", "Eine Grenze ist überschritten.";
    event_note: "Every factor 1, design resistances. No statement on the loads the site is designed for.",
        "Alle Beiwerte 1, Bemessungswerte der Widerstände. Keine Aussage zu den Lasten, für die zu bemessen ist.";
    inspect_first: "To inspect first", "Zuerst ansehen";
    utilisations: "Utilisation of the hooks", "Auslastung der Dachhaken";
    chain: "Calculation for hook", "Rechengang für Haken";
    module_or_hook: "Module or hook", "Modul oder Haken";
    chain_note: "The most used hook: every check in the combination that governs it, from forces to utilisation. Actions, coefficients and assumed values follow below.",
        "Der am stärksten ausgelastete Haken: jeder Nachweis in seiner maßgebenden Kombination, von den Kräften bis zur Auslastung. Einwirkungen, Beiwerte und Annahmen folgen unten.";
    supports: "Loads and supports of rail", "Lasten und Auflager der Schiene";
    supports_note: "Loads at the side frames of the modules with their factors, and (▲) the forces of the hooks that carry them, in the combinations above: a beam with the bending stiffnesses, springs and own weight of the chain, hinged where splices are declared as hinges. The rail runs from",
        "Lasten an den Seitenrahmen der Module samt Beiwerten und (▲) die Kräfte der Haken, die sie tragen, in den Kombinationen oben: ein Balken mit den Biegesteifigkeiten, Federn und dem Eigengewicht aus dem Rechengang, gelenkig an Stößen, die als Gelenke angegeben sind. Die Schiene reicht von";
    each_in_its_own: "Each column has the largest value of the combination that governs it; N and S are those of the combination named. Utilisations are rounded up.",
        "Jede Spalte zeigt den größten Wert der Kombination, die für sie maßgebend ist; N und S gehören zur genannten Kombination. Auslastungen sind aufgerundet.";
    each_column_largest: "Each column has its largest value over all combinations; they need not occur together.",
        "Jede Spalte zeigt ihren größten Wert über alle Kombinationen; sie treten nicht zwingend zusammen auf.";
    utilisation: "Utilisation", "Auslastung";
    timber: "Timber under the foot", "Holz unter der Grundplatte";
    most_of_a_screw: "most in one screw", "höchster Wert einer Schraube";
    combination: "Combination", "Kombination";
    combination_number: "Comb. no.", "Komb. Nr.";
    number_sign: "No.", "Nr.";
    normal_force: "N, kN (pressing +)", "N, kN (Druck +)";
    slope_force: "S, kN (down the slope +)", "S, kN (dachabwärts +)";
    under_load_mm: "Under load, mm", "Belastet, mm";
    unloaded_mm: "Before load, mm", "Unbelastet, mm";
    rails_checked: "Utilisation of the rails", "Auslastung der Schienen";
    bending: "Bending", "Biegung";
    deflection: "Deflection", "Durchbiegung";
    limit_mm: "Limit", "Grenzwert";
    rafters_checked: "Rafters", "Sparren";
    press: "Pressing, kN", "Druck, kN";
    lift: "Lifting, kN", "Sog, kN";
    down: "Down the slope, kN", "Dachschub, kN";
    added_load: "Added load", "Zusatzlast";
    shear: "Shear", "Schub";
    bending_before: "Bending before", "Biegung vorher";
    shear_before: "Shear before", "Schub vorher";
    person: "Person", "Person";
    modules_checked: "Modules and clamps", "Module und Klemmen";
    clamp: "Clamp", "Klemme";
    plots: "Along the rails that are used most", "Entlang der am stärksten ausgelasteten Schienen";
    hook_initial: "H", "H";
    bolt_initial: "B", "M";
    screws_initial: "S", "S";
    timber_initial: "T", "G";
    clearance_initial: "C", "F";
    plots_note: "Bars: largest utilisation of each hook, numbered along the rail, with the check that governs: H hook, S screws, C clearance. Below: moments of all strength combinations as a band, and the deflected line of the governing combination.",
        "Balken: größte Auslastung jedes Hakens, entlang der Schiene gezählt, mit dem maßgebenden Nachweis: H Haken, S Schrauben, F Freiraum. Darunter: Momente aller Tragfähigkeitskombinationen als Band und die Biegelinie der maßgebenden Kombination.";
    signed_off: "Set out by / checked by / date", "Eingemessen von / geprüft von / Datum";

    // The report on many answers.
    report: "Report on answers", "Auswertung von Ergebnissen";
    report_answers: "Answers", "Ergebnisse";
    report_problems: "Refused lines", "Abgewiesene Zeilen";
    report_unread: "Lines that could not be read", "Nicht lesbare Zeilen";
    report_whole: "All", "Alle";
    report_by_kind: "By kind of job", "Nach Art des Auftrags";
    report_by_rules: "By rules", "Nach Regelwerk";
    report_by_scope: "By scope", "Nach Bereich";
    report_job: "Job", "Auftrag";
    report_rules: "Rules", "Regelwerk";
    report_by_hook: "By hook", "Nach Dachhaken";
    report_layout: "Layouts", "Auslegungen";
    report_building: "Buildings", "Gebäude";
    report_choices: "Choices", "Variantenvergleiche";
    report_recheck: "Rechecks", "Nachprüfungen";
    report_survey: "Surveys", "Aufmaße";
    report_actions: "Actions", "Einwirkungen";
    report_statement: "Makers' statements", "Herstellererklärungen";
    report_read_first: "Read this first", "Zuerst lesen";
    report_not_comparable: "The answers are not all of the same mechanics and rules: their figures are not comparable with each other. What follows is of all of them together.",
        "Die Ergebnisse beruhen nicht alle auf denselben Rechenregeln und Normständen: Ihre Zahlen sind nicht miteinander vergleichbar. Was folgt, zählt alle zusammen.";
    report_without: "Lines of the batch without an answer", "Zeilen des Stapels ohne Ergebnis";
    report_repeated: "Lines answered more than once, each answer counted", "Zeilen mit mehreren Ergebnissen, jedes gezählt";
    report_broken_off: "Batches that broke off", "Abgebrochene Stapel";
    report_worst: "The worst first", "Die schlechtesten zuerst";
    report_line: "Line", "Zeile";
    report_id: "Id", "Kennung";
    report_governs: "Governed by", "Maßgebend";
    report_reason: "Verdict and reason, as the answer says", "Ergebnis und Grund laut Antwort";
    report_none: "None.", "Keine.";
    report_findings: "What was found", "Was festgestellt wurde";
    report_clause: "Clause", "Abschnitt";
    report_code: "Code", "Code";
    report_severity: "Severity", "Schwere";
    report_spread: "How utilisations are spread", "Verteilung der Auslastungen";
    report_spread_note: "Answers in each range of the highest utilisation of a job, by the check that governs it. The dashed line is 100 %.",
        "Ergebnisse je Bereich der höchsten Auslastung eines Auftrags, nach maßgebendem Nachweis. Die gestrichelte Linie liegt bei 100 %.";
    report_check: "Check", "Nachweis";
    report_half: "50 % of them up to", "50 % davon bis";
    report_nine_tenths: "90 % up to", "90 % bis";
    report_all_but_twentieth: "95 % up to", "95 % bis";
    report_all_but_hundredth: "99 % up to", "99 % bis";
    report_highest: "Highest", "Höchste";
    report_resolution: "Shares are rounded up, by no more than 0.01 %, and beyond 163 % by another 0.0123 % of the value.",
        "Anteile sind aufgerundet, um höchstens 0,01 %, über 163 % zusätzlich um 0,0123 % des Werts.";
    report_changes: "What changed against records", "Änderungen gegenüber früheren Ergebnissen";
    report_compared: "Compared", "Verglichen";
    report_verdict_changed: "With another verdict", "Mit anderem Ergebnis";
    report_used_more: "Used more", "Höher ausgelastet";
    report_used_less: "Used less", "Niedriger ausgelastet";
    report_from: "From", "Von";
    report_to: "To", "Nach";
    report_cause: "Possible cause", "Mögliche Ursache";
    report_cause_note: "Every change that is known to lie between a record and its answer is named, whether or not the job feels it.",
        "Genannt ist jede Änderung, die zwischen dem früheren und dem jetzigen Ergebnis liegt, ob der Auftrag sie spürt oder nicht.";
    report_bears: "What jobs bear, the least first", "Was Anlagen tragen, die schwächsten zuerst";
    report_bears_note: "Loads as observed, with every partial factor 1: they leave no margin. With * not every check was run, and another limit may come first.",
        "Beobachtete Lasten mit allen Teilsicherheitsbeiwerten 1: ohne Reserve. Bei * wurde nicht jeder Nachweis geführt; eine andere Grenze kann früher kommen.";
    report_bears_load: "Bears, kN/m²", "Trägt, kN/m²";
    report_computed_with: "Computed with, kN/m²", "Angesetzt, kN/m²";
    report_event: "Which roofs to look at first", "Welche Dächer zuerst anzusehen sind";
    report_event_note: "Rechecks of an observed event that fail or are incomplete under it. Look from the ground or by photograph; nobody climbs a roof under snow or after a storm without protection.",
        "Nachprüfungen eines beobachteten Ereignisses, die unter ihm nicht eingehalten oder unvollständig sind. Vom Boden oder auf Bildern ansehen; unter Schnee oder nach Sturm steigt niemand ungesichert aufs Dach.";
    report_event_of: "Rechecks of an event", "Nachprüfungen eines Ereignisses";
    report_event_within: "Within the resistances, as far as checks were run", "Innerhalb der Widerstände, soweit Nachweise geführt wurden";
    report_engines: "What computed them", "Womit gerechnet wurde";
    report_version: "Version (mechanics)", "Version (Rechenregeln)";
    report_revision: "Revision", "Stand";
    report_first_line: "First line", "Erste Zeile";
    report_other: "other than this program", "nicht von diesem Programm";
    report_place: "Place", "Stelle";
    report_detail: "What is wrong", "Was nicht stimmt";
}
