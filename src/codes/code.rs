//! The questions the product asks of a family of codes.
//!
//! The set is closed: a family that leaves one unanswered does not compile.

use super::NotCovered;
use super::cited::Step;
use super::eurocode::en1995_1_1_2004::timber;
use super::vocabulary::{
    Arranged, Arrangement, AxialResistance, BarResistance, BearingTimber, BoltClass,
    BoltResistance, Building, Characteristic, Combination, CombinationBasis, Connection, Evidence,
    Face, FlatBar, Gatherer, GroundSnow, NetCoefficients, PeakPressure, Person, PlaceOnMaps,
    PlacedScrew, RailResistance, ScrewDistances, ScrewResistance, ScrewedPlate, Series, SiteFault,
    Snow, SnowConditions, SnowSite, WindField, WindSite,
};
use crate::units::{Angle, Area, FlexuralRigidity, Force, Length, Moment, SectionModulus, Stress};

/// A strength class of timber, as the family that has it knows it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Timber {
    /// A class of EN 338.
    Eurocode(&'static timber::Timber),
}

/// A rafter as its resistance needs it.
#[derive(Debug, Clone, Copy)]
pub struct RafterSection {
    /// Breadth.
    pub width: Length,
    /// Depth.
    pub depth: Length,
    /// Timber.
    pub timber: Timber,
}

/// A family of codes with the choices of a country.
pub trait Code {
    /// Family and annex, `eurocode/EN`.
    fn id(&self) -> String;

    /// Annex, as a request asks for it.
    fn annex(&self) -> &'static str;

    /// Name of the annex for people.
    fn title(&self) -> &'static str;

    /// Changes whenever any value of the annex does.
    fn revision(&self) -> &'static str;

    /// Timber of this strength class; `None` when the family does not have it.
    fn timber(&self, class: &str) -> Option<Timber>;

    /// Where a place lies on the maps of the annex.
    ///
    /// # Errors
    /// That the annex has no list of places, or none with this one.
    fn on_maps(&self, place: &str) -> Result<PlaceOnMaps, SiteFault>;

    /// Snow on the ground of a site.
    ///
    /// # Errors
    /// Every fault of the description, in document order.
    fn ground_snow(&self, site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>>;

    /// Peak velocity pressure at the ridge of a building on a site.
    ///
    /// # Errors
    /// Every fault of the description, in document order.
    fn peak_pressure(&self, site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>>;

    /// Snow on a slope of this pitch and horizontal length.
    fn snow(
        &self,
        ground: GroundSnow,
        conditions: SnowConditions,
        pitch: Angle,
        run: Length,
    ) -> Snow;

    /// Wind on a slope of a building, on elements of this loaded area.
    ///
    /// # Errors
    /// The fault of a building the rules have no zones for.
    fn wind(
        &self,
        peak: PeakPressure,
        building: &Building,
        face: &Face<'_>,
        loaded_area: Area,
        net: NetCoefficients,
    ) -> Result<WindField, SiteFault>;

    /// The ways snow can lie on a slope of this pitch at this altitude beside where these things
    /// gather it.
    fn snow_arrangements(
        &self,
        snow: &Snow,
        slope: (Angle, Length),
        gatherers: &[Gatherer],
    ) -> Arranged;

    /// All combinations of what acts, those with snow once more for each of its arrangements. Winds that have no coefficient anywhere on the slope are
    /// left out.
    fn combinations(
        &self,
        basis: &CombinationBasis,
        wind: &WindField,
        arrangements: &[Arrangement],
    ) -> Vec<Combination>;

    /// All combinations of what was observed, snow and the wind of one direction, each by itself and both
    /// together: every factor 1, and nothing beside them but weights.
    fn observed(&self, basis: &CombinationBasis, wind: &WindField, snow: &Snow)
    -> Vec<Combination>;

    /// How well the factors that combine actions are known.
    fn combination_evidence(&self) -> Evidence;

    /// Somebody at work on the roof, while there is no snow on it and no wind.
    fn person(&self, basis: &CombinationBasis) -> Person;

    /// Factor on the strength of timber for load duration and moisture.
    fn duration_factor(&self, combination: &Combination) -> f64;

    /// What the screws of a plate on timber bear, one combination after the other.
    ///
    /// # Errors
    /// The rule that does not cover the connection.
    fn connection(
        &self,
        plate: &ScrewedPlate<'_>,
        timber: Timber,
        combinations: &[Combination],
    ) -> Result<Connection, NotCovered>;

    /// A design resistance of [`Self::connection`] in a combination with its provenance.
    fn screw_steps(&self, combination: &Combination, resistance: &ScrewResistance) -> [Step; 4];

    /// Least length of thread in timber for a screw to count as held.
    fn least_thread(&self, diameter: Length) -> Length;

    /// Least distances of screws whose lateral load is at this angle to the grain.
    fn screw_distances(&self, screw: &PlacedScrew, load_to_grain: Angle) -> ScrewDistances;

    /// Stress that timber bears across the grain under the edge of a foot.
    fn bearing_strength(&self, on: &BearingTimber, combination: &Combination) -> Stress;

    /// A stress of [`Self::bearing_strength`] with its provenance.
    fn bearing_steps(&self, on: &BearingTimber, combination: &Combination) -> [Step; 5];

    /// How far pressure spreads in timber beyond the edge of a foot.
    fn bearing_spread(&self, on: &BearingTimber) -> Length;

    /// Mean modulus of a timber across the grain, N/mm².
    fn across_grain(&self, timber: Timber) -> Step;

    /// How far a plate clamps the heads of its screws: 0 where it lets them turn, 1 where it holds
    /// them square.
    fn head_clamping(&self, plate: Length, diameter: Length) -> f64;

    /// Utilisation of a rafter in bending and in shear.
    fn rafter_utilisation(
        &self,
        section: &RafterSection,
        combination: &Combination,
        moment: Moment,
        shear: Force,
    ) -> [f64; 2];

    /// [`Self::rafter_utilisation`] with its provenance, in bending and in shear.
    fn rafter_steps(
        &self,
        section: &RafterSection,
        combination: &Combination,
        moment: Moment,
        shear: Force,
    ) -> [Vec<Step>; 2];

    /// What a bolt of this nominal diameter bears; `None` for a diameter the rules do not list.
    fn bolt(&self, diameter: Length, class: BoltClass) -> Option<BoltResistance>;

    /// The characteristic value that a series of tests gives.
    ///
    /// # Errors
    /// The rule that does not cover the series.
    fn characteristic(&self, series: &Series) -> Result<Characteristic, NotCovered>;

    /// What a solid flat bar bears, bent about the axis along its width.
    fn flat_bar(&self, bar: &FlatBar) -> BarResistance;

    /// A resistance of [`Self::bolt`] with its provenance.
    fn bolt_steps(&self, resistance: &BoltResistance) -> [Step; 3];

    /// Resistance of a rail with these section moduli, normal and slope.
    fn rail(&self, moduli: [SectionModulus; 2], proof_strength: Stress) -> RailResistance;

    /// Resistance of a rail of this section and rigidity, about the axis it is softer about, along its axis.
    fn rail_axial(
        &self,
        section: (Area, FlexuralRigidity),
        proof_strength: Stress,
    ) -> AxialResistance;

    /// A resistance of [`Self::rail_axial`] with its provenance.
    fn rail_axial_step(&self, resistance: &AxialResistance) -> Step;

    /// A resistance of [`Self::rail`] with its provenance.
    fn rail_steps(&self, resistance: &RailResistance) -> [Step; 2];
}
