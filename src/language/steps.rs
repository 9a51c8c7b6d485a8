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
    DriftedSnowShape: "shape coefficient of snow drifted over the ridge", "Formbeiwert des über den First verwehten Schnees";
    Exposure: "exposure coefficient", "Umgebungskoeffizient";
    Thermal: "thermal coefficient", "Temperaturkoeffizient";
    RoofSnow: "snow load on the roof", "Schneelast auf dem Dach";
    SnowSquareToSlope: "snow square to the slope", "Schnee senkrecht zur Dachfläche";
    SnowDownSlope: "snow down the slope", "Schnee dachabwärts";
    ExceptionalGroundSnow: "exceptional ground snow", "außergewöhnliche Schneelast am Boden";
    SnowByWind: "shape coefficient of drifted snow", "Formbeiwert des angewehten Schnees";
    SnowSlidDown: "shape coefficient of snow slid from above", "Formbeiwert des abgerutschten Schnees";
    DriftShape: "shape coefficient where a drift is deepest", "größter Formbeiwert einer Schneeverwehung";
    DriftLength: "length of a drift on plan", "Länge einer Schneeverwehung im Grundriss";
    EavesSnow: "snow hanging over the eaves", "Schneeüberhang an der Traufe";
    SnowLeft: "snow square to the slope, left frame", "Schnee senkrecht zur Dachfläche, linker Rahmen";
    SnowRight: "snow square to the slope, right frame", "Schnee senkrecht zur Dachfläche, rechter Rahmen";
    SnowDownLeft: "snow down the slope, left frame", "Schnee dachabwärts, linker Rahmen";
    SnowDownRight: "snow down the slope, right frame", "Schnee dachabwärts, rechter Rahmen";

    // Wind.
    BasicWindVelocity: "basic wind velocity", "Basiswindgeschwindigkeit";
    BasicVelocityPressure: "basic velocity pressure", "Basisgeschwindigkeitsdruck";
    RiseWithAltitude: "rise with altitude", "Erhöhung mit der Meereshöhe";
    ReferenceHeight: "height above ground", "Höhe über Grund";
    AirDensity: "density of air", "Dichte der Luft";
    TablePressure: "peak velocity pressure of the table", "Böengeschwindigkeitsdruck der Tabelle";
    RoughnessLength: "roughness length", "Rauigkeitslänge";
    TerrainFactor: "terrain factor", "Geländefaktor";
    Orography: "orography factor", "Topographiebeiwert";
    Roughness: "roughness factor", "Rauigkeitsbeiwert";
    MeanWindVelocity: "mean wind velocity", "mittlere Windgeschwindigkeit";
    ShoreDistance: "distance from the shore", "Abstand von der Küste";
    WindExposure: "exposure factor of the wind", "Geländefaktor des Windes";
    TurbulenceFactor: "turbulence factor", "Turbulenzfaktor";
    PeakFactor: "peak factor of gusts", "Spitzenfaktor der Böen";
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
    SuctionFactor: "equalisation of suction", "Druckausgleich bei Sog";
    PressureFactor: "equalisation of pressure", "Druckausgleich bei Druck";
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
    DurationFactor: "factor for load duration and moisture", "Modifikationsbeiwert";
    PartialFactor: "partial factor", "Teilsicherheitsbeiwert";
    WithdrawalParameter: "withdrawal parameter", "Ausziehparameter";
    Withdrawal: "withdrawal", "Ausziehtragfähigkeit";
    Tension: "tension", "Zugtragfähigkeit";
    TimberDensity: "characteristic density of the timber", "charakteristische Rohdichte des Holzes";
    EffectiveDiameter: "effective diameter of the screw", "wirksamer Schraubendurchmesser";
    EmbedmentStrength: "embedment strength", "Lochleibungsfestigkeit";
    LateralCapacity: "lateral capacity", "Tragfähigkeit auf Abscheren";
    GroupFactor: "group factor", "Beiwert der Gruppe";
    RowFactor: "row factor", "Beiwert der Reihe";
    DesignPull: "design pull", "Bemessungswert auf Herausziehen";
    DesignShear: "design shear", "Bemessungswert auf Abscheren";

    // Rail.
    DesignMomentNormal: "design moment, normal", "Bemessungsmoment senkrecht zur Dachfläche";
    DesignMomentSlope: "design moment, slope", "Bemessungsmoment dachabwärts";
    DesignAxialForce: "design axial force", "Bemessungswert der Normalkraft";
    CriticalForce: "critical force", "Verzweigungslast";
    RailAxialForce: "axial force of the rail", "Normalkraft der Schiene";
    SpanOverDeflection: "span over deflection", "Stützweite durch Durchbiegung";

    // Covering.
    Headlap: "headlap", "Höhenüberdeckung";
    LowerTileTop: "top of the lower tile above the battens' underside",
        "Oberkante des unteren Ziegels über der Lattenunterseite";
    BoltBeyondExit: "from the tail edge the arm leaves under down to the rail bolt",
        "von der Ziegelkante, an der der Arm austritt, bis zur Schienenschraube";
    Narrowing: "how much nearer the lower tile comes to the arm towards the bolt",
        "um wie viel der untere Ziegel dem Arm zur Schraube hin näher kommt";
    ClearanceWithoutPackers: "clearance without packers", "Freiraum ohne Unterlegplatten";
    ClearanceUnderRail: "clearance under a rail at the lower end of its slots",
        "Abstand unter einer Schiene am unteren Ende ihrer Langlöcher";
    ClearanceWithPackers: "clearance with packers", "Freiraum mit Unterlegplatten";

    // Forces.
    ForceSquareToRoof: "force square to the roof", "Kraft senkrecht zur Dachfläche";
    ForceDownSlope: "force down the slope", "Kraft dachabwärts";
    Utilisation: "utilisation", "Auslastung";

    // Hook, bolt and arm.
    HookNormalResistance: "resistance of the hook square to the roof",
        "Tragfähigkeit des Hakens senkrecht zur Dachfläche";
    HookSlopeResistance: "resistance of the hook down the slope",
        "Tragfähigkeit des Hakens dachabwärts";
    NormalShare: "used by the normal force", "Auslastung durch die Normalkraft";
    SlopeShare: "used by the slope force", "Auslastung durch die Hangkraft";
    BoltShearResistance: "bolt in shear", "Abschertragfähigkeit der Schraube der Schiene";
    BoltTensionResistance: "bolt in tension", "Zugtragfähigkeit der Schraube der Schiene";
    BoltTensionBesideShear: "bolt in tension beside shear",
        "Zugtragfähigkeit der Schraube neben Abscheren";
    BoltPrying: "pull on the bolt per normal force", "Zug in der Schraube je Normalkraft";
    BoltShearAlong: "shear, bolt along the slope", "Abscheren, Schraube in Hangrichtung";
    BoltTensionAlong: "tension, bolt along the slope", "Zug, Schraube in Hangrichtung";
    BoltShearSquare: "shear, bolt square to the roof", "Abscheren, Schraube senkrecht zur Dachfläche";
    BoltTensionSquare: "tension, bolt square to the roof", "Zug, Schraube senkrecht zur Dachfläche";
    SlotSlip: "slip along the slot", "Gleiten im Langloch";
    ForceAlongGroove: "force along the groove of the rail", "Kraft längs der Schienennut";
    GrooveSlip: "slip along the groove of the rail", "Gleiten längs der Schienennut";
    HookStiffness: "stiffness of the hook square to the roof",
        "Steifigkeit des Hakens senkrecht zur Dachfläche";
    ArmStiffness: "stiffness of the arm alone", "Steifigkeit des Arms allein";
    FootStiffness: "stiffness of the turning foot at the rail bolt",
        "Steifigkeit der sich drehenden Grundplatte am Schienenbolzen";
    CrossShare: "slope force that presses the arm down, per force",
        "Dachschub, der den Arm niederdrückt, je Kraft";
    ArmMovement: "arm pressed down by", "Eindrückung des Arms";

    // Foot.
    NormalArm: "arm of the normal force", "Hebelarm der Normalkraft";
    SlopeArm: "arm of the slope force", "Hebelarm der Hangkraft";
    MomentAboutEdge: "moment about the edge", "Moment um die Kante";
    PullArm: "from the edge to the pulls", "von der Kante zu den Zugkräften";
    MomentAboutPulls: "moment about the pulls", "Moment um die Zugkräfte";
    StripWidth: "width of the strip", "Breite des Streifens";
    StripSpread: "spread beyond the edge", "Ausbreitung über die Kante hinaus";
    LongestStrip: "longest strip", "größte Länge des Streifens";
    StripStrength: "borne per length of the strip", "Tragfähigkeit je Länge des Streifens";
    LongestStripMoment: "moment of the longest strip", "Moment des längsten Streifens";
    StripLength: "length of the strip", "Länge des Streifens";
    StripForce: "force of the strip", "Druckkraft des Streifens";
    TotalPull: "pull of all screws", "Zugkraft aller Schrauben";
    StripUsed: "utilisation of the strip", "Auslastung des Streifens";
    BearingFactor: "bearing factor", "Querdruckbeiwert";
    CrossGrainStrength: "strength across the grain", "Querdruckfestigkeit";
    BearingStrength: "stress borne under the foot", "aufnehmbare Pressung unter der Grundplatte";
    BearingArea: "area under the foot", "Fläche unter der Grundplatte";
    PlainPressing: "used by plain pressing", "Auslastung durch reine Pressung";
    ScrewCount: "screws of the foot", "Holzschrauben der Grundplatte";
    SharpLeverLower: "pull per moment, lower edge", "Zug je Moment, untere Kante";
    PullShareLower: "share of the pulls, lower edge", "Anteil an den Zugkräften, untere Kante";
    SharpLeverUpper: "pull per moment, upper edge", "Zug je Moment, obere Kante";
    PullShareUpper: "share of the pulls, upper edge", "Anteil an den Zugkräften, obere Kante";
    SidewaysPull: "pull from turning sideways", "Zug aus seitlichem Kippen";
    ShearPerSlope: "shear per slope force", "Abscheren je Hangkraft";
    ScrewPull: "pull on the screw", "Zug an der Holzschraube";
    ScrewShear: "shear on the screw", "Abscheren der Holzschraube";
    PullUsed: "used by pull", "Auslastung auf Herausziehen";
    ShearUsed: "used by shear", "Auslastung auf Abscheren";

    // Bending of the rail.
    PlaceOnRail: "place along the eaves", "Stelle entlang der Traufe";
    RailMomentNormal: "moment of the rail, normal", "Moment der Schiene senkrecht zur Dachfläche";
    RailMomentSlope: "moment of the rail, slope", "Moment der Schiene dachabwärts";
    DeflectedLength: "span, or twice the free end", "Stützweite oder doppelte Kraglänge";
    Deflection: "deflection", "Durchbiegung";
    AllowedDeflection: "deflection allowed", "zulässige Durchbiegung";

    // Modules and clamps.
    WeightOnModule: "design weight on the module", "Eigengewicht auf dem Modul, Bemessungswert";
    SnowOnModule: "design snow on the module", "Schnee auf dem Modul, Bemessungswert";
    ExceptionalSnowOnModule: "exceptional snow on the module",
        "außergewöhnlicher Schnee auf dem Modul";
    WindOnModule: "design wind on the module", "Wind auf dem Modul, Bemessungswert";
    ModuleArea: "area of the module", "Fläche des Moduls";
    ModuleLoad: "load on the module", "Last auf dem Modul";
    ModuleCapacity: "capacity of the module", "Tragfähigkeit des Moduls";
    ClampLift: "lift on the clamp", "abhebende Kraft an der Klemme";
    ClampLiftResistance: "clamp against lift", "Tragfähigkeit der Klemme gegen Abheben";
    ClampSlope: "slope force on the clamp", "Hangkraft an der Klemme";
    ClampSlopeResistance: "clamp against slip", "Tragfähigkeit der Klemme gegen Gleiten";
    StopForce: "force on the stop", "Kraft am Anschlag";
    StopResistance: "resistance of the stop", "Tragfähigkeit des Anschlags";

    // Rafters.
    RafterMoment: "moment of the rafter", "Moment des Sparrens";
    RafterModulus: "section modulus of the rafter", "Widerstandsmoment des Sparrens";
    BendingStress: "bending stress", "Biegespannung";
    DepthFactor: "depth factor", "Höhenbeiwert";
    BendingStrength: "bending strength", "Biegefestigkeit";
    DesignBendingStrength: "design bending strength", "Bemessungswert der Biegefestigkeit";
    RafterShear: "shear of the rafter", "Querkraft des Sparrens";
    CrackFactor: "crack factor", "Rissbeiwert";
    ShearStress: "shear stress", "Schubspannung";
    ShearStrength: "shear strength", "Schubfestigkeit";
    DesignShearStrength: "design shear strength", "Bemessungswert der Schubfestigkeit";

    // How a foot is set and turns, and the loads on a rail.
    BoltAboveFoot: "rail bolt above the underside of the foot",
        "Schienenschraube über der Unterseite der Grundplatte";
    SlotReserve: "rail bolt above the middle of its slot, most",
        "Schienenschraube über der Mitte ihres Langlochs, höchstens";
    SlotReserveBelow: "rail bolt below the middle of its slot, most",
        "Schienenschraube unter der Mitte ihres Langlochs, höchstens";
    PackersUnderFoot: "packers under the foot",
        "Unterlegplatten unter der Grundplatte";
    SoftUnderFoot: "soft layers under the foot",
        "weiche Schichten unter der Grundplatte";
    ClampedLayers: "half the layers the screws cross, as far as the plate holds their heads",
        "halbe von den Holzschrauben durchquerte Schichten, soweit die Platte ihre Köpfe hält";
    BoltHighest: "rail bolt above the face under the foot, highest",
        "Schienenschraube über der Auflagefläche, höchstens";
    BoltLowest: "rail bolt above the face under the foot, lowest",
        "Schienenschraube über der Auflagefläche, mindestens";
    TimberAcrossGrain: "modulus of the timber across the grain",
        "Elastizitätsmodul des Holzes quer zur Faser";
    BedDepth: "depth of timber that gives",
        "nachgebende Holzdicke";
    BedWidth: "width of timber under the foot",
        "Holzbreite unter der Grundplatte";
    ScrewAxialStiffness: "stiffness of a screw along its axis",
        "Steifigkeit einer Holzschraube in Achsrichtung";
    PressedLength: "pressed length of the turning foot",
        "gedrückte Länge der sich drehenden Grundplatte";
    TurningSpring: "moment of timber and screws per angle",
        "Moment von Holz und Schrauben je Drehwinkel";
    PlateLength: "from the lower edge of the foot to the farthest screws",
        "von der Unterkante der Grundplatte zu den fernsten Holzschrauben";
    PlateWidth: "width of the plate that bends",
        "mittragende Breite der Grundplatte";
    PlateSpring: "moment of the plate per angle",
        "Moment der Platte je Drehwinkel";
    FootSpring: "moment of timber, screws and plate per angle",
        "Moment von Holz, Schrauben und Platte je Drehwinkel";
    ArmTurnedShare: "farther down for the rail beside the bolt, share",
        "weiter nach unten durch die Schiene neben der Schraube, Anteil";
    RailAxis: "axis of the rail beside its bolts", "Schienenachse neben ihren Schrauben";
    PlateMoment: "moment where the arm rises from the plate",
        "Moment, wo der Arm aus der Platte aufsteigt";
    PlateResistance: "design moment of the plate as a bar",
        "Bemessungsmoment der Platte als Stab";
    RollingMoment: "largest moment that rolls a foot", "größtes Moment, das eine Grundplatte kippt";
    RollingForce: "most that rolling adds to a hook", "größte Kraft, die das Kippen einem Haken zufügt";
    FootAllowance: "allowance on what the foot gives",
        "Zuschlag auf die Nachgiebigkeit der Grundplatte";
    TurningArm: "from the lower edge of the foot to the rail",
        "von der Unterkante der Grundplatte zur Schiene";
    ArmRise: "rise of the arm at the foot",
        "Anstieg des Arms an der Grundplatte";
    ArmRun: "run of the arm down the slope",
        "Länge des Arms dachabwärts";
    ArmUpstand: "rise of the arm to the bolt",
        "Anstieg des Arms zur Schraube";
    ArmGivesNormal: "arm under a force square to the roof, movement times rigidity per force",
        "Arm unter Kraft senkrecht zur Dachfläche, Weg mal Biegesteifigkeit je Kraft";
    ArmGivesCross: "the same under a force down the slope",
        "dasselbe unter einer Kraft dachabwärts";
    ArmCrossShare: "slope force that presses the arm alone down, per force",
        "Dachschub, der den Arm allein niederdrückt, je Kraft";
    ContactWidth: "width of timber that the foot touches",
        "Breite des Holzes, das die Grundplatte berührt";
    ArmAside: "arm beside the axis of the rafter",
        "Arm neben der Sparrenachse";
    ScrewsAboutCentre: "squared distances of the screws from their centre",
        "Abstandsquadrate der Schrauben von ihrem Schwerpunkt";
    ArmBesideCentre: "arm beside the centre of the screws, positive to the right",
        "Arm neben dem Schwerpunkt der Holzschrauben, positiv nach rechts";
    FrameWeight: "module at a frame, square to the roof",
        "Modul am Rahmen, senkrecht zur Dachfläche";
    FrameWeightDown: "module at a frame, down the slope",
        "Modul am Rahmen, dachabwärts";
    FrameClamp: "clamp at the end of a row, half of it between modules, square to the roof",
        "Klemme am Reihenende, zwischen Modulen je die Hälfte, senkrecht zur Dachfläche";
    FrameClampDown: "the same clamp, down the slope",
        "dieselbe Klemme, dachabwärts";
    FrameSnow: "even snow at a frame, square to the roof",
        "gleichmäßiger Schnee am Rahmen, senkrecht zur Dachfläche";
    FrameSnowDown: "even snow at a frame, down the slope",
        "gleichmäßiger Schnee am Rahmen, dachabwärts";
    FrameExceptionalSnow: "exceptional snow at a frame, square to the roof",
        "außergewöhnlicher Schnee am Rahmen, senkrecht zur Dachfläche";
    FrameExceptionalSnowDown: "exceptional snow at a frame, down the slope",
        "außergewöhnlicher Schnee am Rahmen, dachabwärts";
    RailLineWeight: "weight of the rail, square to the roof",
        "Gewicht der Schiene, senkrecht zur Dachfläche";
    RailLineWeightDown: "weight of the rail, down the slope",
        "Gewicht der Schiene, dachabwärts";
    RailRigidityNormal: "bending stiffness of the rail, square to the roof",
        "Biegesteifigkeit der Schiene, senkrecht zur Dachfläche";
    RailRigiditySlope: "bending stiffness of the rail, along the slope",
        "Biegesteifigkeit der Schiene, dachabwärts";
    CrossingLift: "what a connector of crossing rails bears that lifts them apart", "Bemessungswert eines Kreuzverbinders gegen Abheben";
    CrossingSlide: "what a connector of crossing rails bears along the lower rail", "Bemessungswert eines Kreuzverbinders längs der unteren Schiene";
    RailAxialRigidity: "axial stiffness of the rail", "Dehnsteifigkeit der Schiene";
    LowerFrameShare: "share of the mean on the lower frame", "Anteil des unteren Rahmens am Mittel";
    UpperFrameShare: "share of the mean on the upper frame", "Anteil des oberen Rahmens am Mittel";
    SupportSpringNormal: "spring of every hook under the rail, square to the roof",
        "Feder jedes Hakens unter der Schiene, senkrecht zur Dachfläche";
    SupportSpringSlope: "spring of every hook under the rail, along the slope",
        "Feder jedes Hakens unter der Schiene, dachabwärts";
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
