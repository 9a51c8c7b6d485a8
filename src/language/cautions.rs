//! Cautions that go with every answer. Each country's law and the products' own instructions come
//! before anything computed here.

use super::Language;

macro_rules! cautions {
    ($($name:ident = $code:literal, $english:literal, $german:literal;)+) => {
        /// A caution that goes with every answer.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Caution {
            $(#[doc = $english] $name,)+
        }

        impl Caution {
            /// Every caution, most urgent first.
            pub const ALL: &[Self] = &[$(Self::$name),+];

            /// Stable code.
            #[must_use]
            pub const fn code(self) -> &'static str {
                match self { $(Self::$name => $code),+ }
            }

            /// What it says.
            #[must_use]
            pub const fn text(self, language: Language) -> &'static str {
                match language {
                    Language::English => match self { $(Self::$name => $english),+ },
                    Language::German => match self { $(Self::$name => $german),+ },
                }
            }
        }
    };
}

cautions! {
    WorkAtHeight = "work-at-height",
        "Work on a roof can kill. Scaffold and edge protection come before anything else; roof coverings, windows and sheets may not carry a person.",
        "Arbeit auf dem Dach kann töten. Gerüst und Absturzsicherung kommen vor allem anderen; Deckung, Fenster und Platten tragen unter Umständen niemanden.";
    HooksAreNoSteps = "hooks-are-no-steps",
        "Nobody steps on a hook, hangs from one or leans a ladder on one, before or after the rails are on: hooks and rails are not checked for a person. Use roof ladders and work platforms.",
        "Niemand tritt auf einen Dachhaken, hängt sich daran oder lehnt eine Leiter an, weder vor noch nach der Montage der Schienen: Haken und Schienen sind nicht für Personen nachgewiesen. Dachleitern und Arbeitsbühnen benutzen.";
    NotAnApproval = "not-an-approval",
        "This is a calculation aid. It approves nothing and replaces neither a structural engineer nor a licensed roofer nor the instructions of the parts used.",
        "Dies ist eine Rechenhilfe. Sie gibt nichts frei und ersetzt weder Tragwerksplanung noch Dachdecker-Fachbetrieb noch die Anleitungen der verwendeten Teile.";
    LocalRulesFirst = "local-rules-first",
        "Local building law, national annexes in their current edition and the rules of the roofing trade take precedence over this result.",
        "Örtliches Baurecht, Nationale Anhänge in gültiger Fassung und die Fachregeln des Dachdeckerhandwerks gehen diesem Ergebnis vor.";
    CheckOnSite = "check-on-site",
        "The result is as good as the measurements. Where rafters, battens, layers or tiles differ on site, stop and compute again.",
        "Das Ergebnis ist so gut wie die Maße. Weichen Sparren, Latten, Schichten oder Ziegel ab: anhalten und neu rechnen.";
    OldRoof = "old-roof",
        "A damaged, altered or sagging roof structure, and trussed rafters, need a structural engineer before any load is added.",
        "Beschädigte, veränderte oder durchhängende Dachstühle und Nagelplattenbinder gehören vor jeder Zusatzlast in die Hand der Tragwerksplanung.";
    Asbestos = "asbestos",
        "Old fibre-cement slates and sheets may contain asbestos. Do not drill, cut or walk on them; have them tested and left to licensed people.",
        "Alte Faserzementplatten können Asbest enthalten. Nicht bohren, schneiden oder betreten; prüfen lassen und Fachbetrieben überlassen.";
    Electrical = "electrical",
        "Modules are live in daylight. Electrical work, bonding and lightning protection are for qualified electricians.",
        "Module stehen bei Tageslicht unter Spannung. Elektroarbeiten, Erdung und Blitzschutz gehören zu Elektrofachkräften.";
    SlidingSnow = "sliding-snow",
        "Snow slides off modules suddenly. Look at what lies below; guards must be designed for the array.",
        "Schnee rutscht plötzlich von Modulen. Auf das achten, was darunter liegt; Schneefänge müssen für die Anlage bemessen sein.";
    Weathertightness = "weathertightness",
        "Every opened course must be closed so that tiles lie as before and are fixed again; below the covering's own least pitch extra measures are needed.",
        "Jede geöffnete Reihe muss wieder liegen wie zuvor und befestigt sein; unter der Regeldachneigung sind Zusatzmaßnahmen nötig.";
}
