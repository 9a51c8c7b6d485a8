//! The rules a job is computed by: one of the families, with its annex.

use super::NotCovered;
use super::cited::Step;
use super::code::{Code, RafterSection, Timber};
use super::eurocode::{Eurocode, annex};
use super::vocabulary::{
    Arranged, Arrangement, AxialResistance, BarResistance, BearingTimber, BoltClass,
    BoltResistance, Building, Characteristic, Combination, CombinationBasis, Connection, Evidence,
    Face, FlatBar, Gatherer, GroundSnow, NetCoefficients, PeakPressure, Person, PlaceOnMaps,
    PlacedScrew, RailResistance, ScrewDistances, ScrewResistance, ScrewedPlate, Series, SiteFault,
    Snow, SnowConditions, SnowSite, WindField, WindSite,
};
use crate::units::{Angle, Area, FlexuralRigidity, Force, Length, Moment, SectionModulus, Stress};

/// A family of codes with its annex. Dispatched statically: there are few families, and they are
/// asked from inside loops.
#[derive(Debug, Clone, Copy)]
pub enum Rules {
    /// EN 1990 and what follows, first generation.
    Eurocode(Eurocode),
}

impl Rules {
    /// Every rule set there is.
    pub fn all() -> impl Iterator<Item = Self> {
        annex::ALL.iter().map(|annex| Self::Eurocode(Eurocode::new(annex)))
    }

    /// These rules in every revision there is, the newest first.
    pub fn revisions(&self) -> impl Iterator<Item = Self> {
        match self {
            Self::Eurocode(code) => code.revisions().map(Self::Eurocode),
        }
    }

    /// Name of the family on the wire.
    #[must_use]
    pub const fn family(&self) -> &'static str {
        match self {
            Self::Eurocode(_) => Eurocode::FAMILY,
        }
    }
}

/// Hands every question to the family that is asked.
macro_rules! ask_the_family {
    ($(fn $question:ident($($argument:ident: $type:ty),*) -> $answer:ty;)+) => {
        impl Code for Rules {
            $(#[inline]
            fn $question(&self, $($argument: $type),*) -> $answer {
                match self {
                    Self::Eurocode(code) => code.$question($($argument),*),
                }
            })+
        }
    };
}

ask_the_family! {
    fn id() -> String;
    fn annex() -> &'static str;
    fn title() -> &'static str;
    fn revision() -> &'static str;
    fn timber(class: &str) -> Option<Timber>;
    fn on_maps(place: &str) -> Result<PlaceOnMaps, SiteFault>;
    fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>>;
    fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>>;
    fn snow(ground: GroundSnow, conditions: SnowConditions, pitch: Angle, run: Length) -> Snow;
    fn wind(
        peak: PeakPressure,
        building: &Building,
        face: &Face<'_>,
        loaded_area: Area,
        net: NetCoefficients
    ) -> Result<WindField, SiteFault>;
    fn snow_arrangements(
        snow: &Snow,
        slope: (Angle, Length),
        gatherers: &[Gatherer]
    ) -> Arranged;
    fn combinations(
        basis: &CombinationBasis,
        wind: &WindField,
        arrangements: &[Arrangement]
    ) -> Vec<Combination>;
    fn observed(basis: &CombinationBasis, wind: &WindField, snow: &Snow) -> Vec<Combination>;
    fn combination_evidence() -> Evidence;
    fn person(basis: &CombinationBasis) -> Person;
    fn duration_factor(combination: &Combination) -> f64;
    fn connection(
        plate: &ScrewedPlate<'_>,
        timber: Timber,
        combinations: &[Combination]
    ) -> Result<Connection, NotCovered>;
    fn screw_steps(combination: &Combination, resistance: &ScrewResistance) -> [Step; 4];
    fn least_thread(diameter: Length) -> Length;
    fn screw_distances(screw: &PlacedScrew, load_to_grain: Angle) -> ScrewDistances;
    fn bearing_strength(on: &BearingTimber, combination: &Combination) -> Stress;
    fn bearing_steps(on: &BearingTimber, combination: &Combination) -> [Step; 5];
    fn bearing_spread(on: &BearingTimber) -> Length;
    fn across_grain(timber: Timber) -> Step;
    fn head_clamping(plate: Length, diameter: Length) -> f64;
    fn rafter_utilisation(
        section: &RafterSection,
        combination: &Combination,
        moment: Moment,
        shear: Force
    ) -> [f64; 2];
    fn rafter_steps(
        section: &RafterSection,
        combination: &Combination,
        moment: Moment,
        shear: Force
    ) -> [Vec<Step>; 2];
    fn bolt(diameter: Length, class: BoltClass) -> Option<BoltResistance>;
    fn characteristic(series: &Series) -> Result<Characteristic, NotCovered>;
    fn flat_bar(bar: &FlatBar) -> BarResistance;
    fn bolt_steps(resistance: &BoltResistance) -> [Step; 3];
    fn rail(moduli: [SectionModulus; 2], proof_strength: Stress) -> RailResistance;
    fn rail_axial(section: (Area, FlexuralRigidity), proof_strength: Stress) -> AxialResistance;
    fn rail_axial_step(resistance: &AxialResistance) -> Step;
    fn rail_steps(resistance: &RailResistance) -> [Step; 2];
}
