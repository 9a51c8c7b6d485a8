//! What the steps of a trace are.

use crate::codes::quantity::Quantity;

use super::Language;

macro_rules! names {
    ($($quantity:ident: $english:literal, $german:literal;)+) => {
        /// A quantity by its name.
        #[must_use]
        pub const fn name(quantity: Quantity, language: Language) -> &'static str {
            match language {
                Language::English => match quantity { $(Quantity::$quantity => $english),+ },
                Language::German => match quantity { $(Quantity::$quantity => $german),+ },
            }
        }
    };
}

names! {
    // Snow.
    GroundSnow: "ground snow load", "Schneelast am Boden";
    SnowShape: "snow shape coefficient", "Formbeiwert der Schneelast";
    Exposure: "exposure coefficient", "Umgebungskoeffizient";
    Thermal: "thermal coefficient", "Temperaturkoeffizient";
    RoofSnow: "snow load on the roof", "Schneelast auf dem Dach";
    SnowSquareToSlope: "snow square to the slope", "Schnee senkrecht zur Dachfläche";
    SnowDownSlope: "snow down the slope", "Schnee hangabwärts";
    ExceptionalGroundSnow: "exceptional ground snow", "außergewöhnliche Schneelast am Boden";
    SnowByWind: "shape coefficient of drifted snow", "Formbeiwert des angewehten Schnees";
    SnowSlidDown: "shape coefficient of snow slid from above", "Formbeiwert des abgerutschten Schnees";
    DriftShape: "shape coefficient where a drift is deepest", "größter Formbeiwert einer Schneeverwehung";
    DriftLength: "length of a drift on plan", "Länge einer Schneeverwehung im Grundriss";
    EavesSnow: "snow hanging over the eaves", "Schneeüberhang an der Traufe";
    SnowLeft: "snow square to the slope, left frame", "Schnee senkrecht zur Dachfläche, linker Rahmen";
    SnowRight: "snow square to the slope, right frame", "Schnee senkrecht zur Dachfläche, rechter Rahmen";
    SnowDownLeft: "snow down the slope, left frame", "Schnee hangabwärts, linker Rahmen";
    SnowDownRight: "snow down the slope, right frame", "Schnee hangabwärts, rechter Rahmen";

    // Wind.
    BasicWindVelocity: "basic wind velocity", "Basiswindgeschwindigkeit";
    BasicVelocityPressure: "basic velocity pressure", "Basisgeschwindigkeitsdruck";
    RiseWithAltitude: "rise with altitude", "Erhöhung mit der Meereshöhe";
    Roughness: "roughness factor", "Rauigkeitsbeiwert";
    MeanWindVelocity: "mean wind velocity", "mittlere Windgeschwindigkeit";
    TurbulenceIntensity: "turbulence intensity", "Turbulenzintensität";
    PeakVelocityPressure: "peak velocity pressure", "Böengeschwindigkeitsdruck";
    FixingsLoadedArea: "loaded area of fixings", "Lasteinzugsfläche der Befestigungen";
    ModulesLoadedArea: "loaded area of modules", "Lasteinzugsfläche der Module";
    RaftersLoadedArea: "loaded area of rafters", "Lasteinzugsfläche der Sparren";
    PersonAtWork: "person at work on the roof", "Person bei Arbeiten auf dem Dach";
    LoadHeight: "slope force of modules above the bolts", "Hangkraft der Module über den Schrauben der Schiene";
    PatchArea: "part of the module in the zone", "Teil des Moduls in der Zone";
    PatchAlong: "middle of that part along the eaves", "Mitte dieses Teils entlang der Traufe";
    PatchUp: "middle of that part up the slope", "Mitte dieses Teils hangaufwärts";
    ShareAtMiddle: "share of a force at mid-module", "Anteil einer Kraft in Modulmitte";
    CouplePerSlope: "normal force per slope force", "Normalkraft je Hangkraft";
    WindLeft: "wind at the left frame", "Wind am linken Rahmen";
    WindRight: "wind at the right frame", "Wind am rechten Rahmen";
    SuctionCoefficient: "suction coefficient", "Sogbeiwert";
    PressureCoefficient: "pressure coefficient", "Druckbeiwert";

    // Weight.
    ModuleWeight: "weight of a module", "Gewicht eines Moduls";
    ClampWeight: "weight of a clamp", "Gewicht einer Klemme";
    RailWeight: "weight of the rail", "Gewicht der Schiene";

    // Screws.
    GapUnderFoot: "gap under the foot", "Spalt unter der Grundplatte";
    LengthInRafter: "length in the rafter", "Länge im Sparren";
    ThreadedLength: "threaded length", "Gewindelänge im Sparren";
    WithdrawalParameter: "withdrawal parameter", "Ausziehparameter";
    Withdrawal: "withdrawal", "Ausziehtragfähigkeit";
    Tension: "tension", "Zugtragfähigkeit";
    EmbedmentStrength: "embedment strength", "Lochleibungsfestigkeit";
    LateralCapacity: "lateral capacity", "Tragfähigkeit auf Abscheren";
    GroupFactor: "group factor", "Beiwert der Gruppe";
    RowFactor: "row factor", "Beiwert der Reihe";
    DesignPull: "design pull", "Bemessungswert auf Herausziehen";
    DesignShear: "design shear", "Bemessungswert auf Abscheren";

    // Rail.
    DesignMomentNormal: "design moment, normal", "Bemessungsmoment senkrecht zur Dachfläche";
    DesignMomentSlope: "design moment, slope", "Bemessungsmoment hangabwärts";
    SpanOverDeflection: "span over deflection", "Stützweite durch Durchbiegung";

    // Covering.
    Headlap: "headlap", "Höhenüberdeckung";
    LowerTileTop: "top of the lower tile above the battens' underside",
        "Oberkante des unteren Ziegels über der Lattenunterseite";
    ClearanceWithoutPackers: "clearance without packers", "Freiraum ohne Unterlegplatten";
    ClearanceWithPackers: "clearance with packers", "Freiraum mit Unterlegplatten";

    // Forces.
    ForceSquareToRoof: "force square to the roof", "Kraft senkrecht zur Dachfläche";
    ForceDownSlope: "force down the slope", "Kraft hangabwärts";
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// Each quantity has a name of its own in each language, unlike its name in the others.
    #[test]
    fn every_quantity_has_its_name() {
        let mut names = BTreeSet::new();
        for quantity in Quantity::ALL {
            for language in Language::ALL {
                let name = name(*quantity, language);
                assert!(!name.is_empty() && name.trim() == name, "{quantity:?}: {name:?}");
                assert!(names.insert(name), "{quantity:?}: {name:?} is taken");
            }
        }
    }
}
