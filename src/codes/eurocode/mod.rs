//! The Eurocodes, first generation: a file per document and edition, and the choices of countries.
//!
//! [`Eurocode`] answers the questions of [`Code`] from the clause functions: each of its files
//! composes the clauses of one subject, and cites them as it goes.

pub mod annex;
pub mod en1990_2002;
pub mod en1990_2002_annex_d;
pub mod en1991_1_1_2002;
mod drifts;
pub mod en1991_1_3_2003;
pub mod en1991_1_4_2005;
pub mod en1993_1_1_2005;
pub mod en1993_1_8_2005;
pub mod en1995_1_1_2004;
pub mod en1999_1_1_2007;

mod actions;
mod connection;
mod exposure;
mod members;
mod observed;
mod profile;
mod roof_zones;
mod site_steps;
mod snow_altitude;
mod snow_zones;

use annex::Annex;
use en1995_1_1_2004::timber;

use super::NotCovered;
use super::cited::Step;
use super::code::{Code, RafterSection, Timber};
use super::vocabulary::{
    Arranged, Arrangement, AxialResistance, BarResistance, BearingTimber, BoltClass,
    BoltResistance, Building, Characteristic, Combination, CombinationBasis, Connection, Evidence,
    Face, FlatBar, Gatherer, GroundSnow, NetCoefficients, PeakPressure, Person, PlaceOnMaps,
    PlacedScrew, RailResistance, ScrewDistances, ScrewResistance, ScrewedPlate, Series, SiteFault,
    Snow, SnowConditions, SnowSite, WindField, WindSite,
};
use crate::units::{Angle, Area, FlexuralRigidity, Force, Length, Moment, SectionModulus, Stress};

/// The Eurocodes with the choices of a country.
#[derive(Debug, Clone, Copy)]
pub struct Eurocode {
    annex: &'static Annex,
}

impl Eurocode {
    /// Name of the family on the wire.
    pub const FAMILY: &'static str = "eurocode";

    /// The Eurocodes as this country reads them.
    #[must_use]
    pub const fn new(annex: &'static Annex) -> Self {
        Self { annex }
    }

    /// The Eurocodes with the annex of this code, letter case as printed.
    #[must_use]
    pub fn with_annex(code: &str) -> Option<Self> {
        annex::find(code).map(Self::new)
    }

    /// The same with every revision of the annex, the newest first.
    pub fn revisions(&self) -> impl Iterator<Item = Self> {
        annex::revisions(self.annex.code).map(Self::new)
    }
}

impl Code for Eurocode {
    fn id(&self) -> String {
        format!("{}/{}", Self::FAMILY, self.annex.code)
    }

    fn annex(&self) -> &'static str {
        self.annex.code
    }

    fn title(&self) -> &'static str {
        self.annex.title
    }

    fn revision(&self) -> &'static str {
        self.annex.revision
    }

    fn timber(&self, class: &str) -> Option<Timber> {
        timber::strength_class(class).map(Timber::Eurocode)
    }

    fn on_maps(&self, place: &str) -> Result<PlaceOnMaps, SiteFault> {
        actions::on_maps(self.annex, place)
    }

    fn ground_snow(&self, site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
        actions::ground_snow(self.annex, site)
    }

    fn peak_pressure(&self, site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
        actions::peak_pressure(self.annex, site)
    }

    fn snow(
        &self,
        ground: GroundSnow,
        conditions: SnowConditions,
        pitch: Angle,
        run: Length,
    ) -> Snow {
        actions::snow(self.annex, ground, conditions, pitch, run)
    }

    fn wind(
        &self,
        peak: PeakPressure,
        building: &Building,
        face: &Face<'_>,
        loaded_area: Area,
        net: NetCoefficients,
    ) -> Result<WindField, SiteFault> {
        actions::wind(self.annex, peak, building, face, loaded_area, net)
    }

    fn snow_arrangements(
        &self,
        snow: &Snow,
        slope: (Angle, Length),
        gatherers: &[Gatherer],
    ) -> Arranged {
        drifts::arrangements(self.annex, snow, slope, gatherers)
    }

    fn combinations(
        &self,
        basis: &CombinationBasis,
        wind: &WindField,
        arrangements: &[Arrangement],
    ) -> Vec<Combination> {
        actions::combinations(self.annex, basis, wind, arrangements)
    }

    fn observed(
        &self,
        basis: &CombinationBasis,
        wind: &WindField,
        snow: &Snow,
    ) -> Vec<Combination> {
        observed::combinations(self.annex, basis.altitude, wind, snow)
    }

    fn combination_evidence(&self) -> Evidence {
        self.annex.combination_evidence
    }

    fn person(&self, basis: &CombinationBasis) -> Person {
        actions::person(self.annex, basis)
    }

    fn duration_factor(&self, combination: &Combination) -> f64 {
        members::duration_factor(combination)
    }

    fn connection(
        &self,
        plate: &ScrewedPlate<'_>,
        timber: Timber,
        combinations: &[Combination],
    ) -> Result<Connection, NotCovered> {
        connection::connection(self.annex, plate, timber, combinations)
    }

    fn screw_steps(&self, combination: &Combination, resistance: &ScrewResistance) -> [Step; 4] {
        connection::steps(self.annex, combination, resistance)
    }

    fn least_thread(&self, diameter: Length) -> Length {
        en1995_1_1_2004::screws_axial::minimum_point_side_length(diameter)
    }

    fn screw_distances(&self, screw: &PlacedScrew, load_to_grain: Angle) -> ScrewDistances {
        connection::distances(screw, load_to_grain)
    }

    fn bearing_strength(&self, on: &BearingTimber, combination: &Combination) -> Stress {
        members::bearing_strength(self.annex, on, combination)
    }

    fn bearing_steps(&self, on: &BearingTimber, combination: &Combination) -> [Step; 5] {
        members::bearing_steps(self.annex, on, combination)
    }

    fn bearing_spread(&self, on: &BearingTimber) -> Length {
        members::bearing_spread(on)
    }

    fn across_grain(&self, timber: Timber) -> Step {
        members::across_grain(timber)
    }

    fn head_clamping(&self, plate: Length, diameter: Length) -> f64 {
        en1995_1_1_2004::screws_lateral::head_clamping(plate, diameter)
    }

    fn rafter_utilisation(
        &self,
        section: &RafterSection,
        combination: &Combination,
        moment: Moment,
        shear: Force,
    ) -> [f64; 2] {
        members::rafter_utilisation(self.annex, section, combination, (moment, shear))
    }

    fn rafter_steps(
        &self,
        section: &RafterSection,
        combination: &Combination,
        moment: Moment,
        shear: Force,
    ) -> [Vec<Step>; 2] {
        members::rafter_steps(self.annex, section, combination, (moment, shear))
    }

    fn bolt(&self, diameter: Length, class: BoltClass) -> Option<BoltResistance> {
        members::bolt(self.annex, diameter, class)
    }

    fn characteristic(&self, series: &Series) -> Result<Characteristic, NotCovered> {
        en1990_2002_annex_d::characteristic_value(series)
    }

    fn flat_bar(&self, bar: &FlatBar) -> BarResistance {
        members::flat_bar(self.annex, bar)
    }

    fn bolt_steps(&self, resistance: &BoltResistance) -> [Step; 3] {
        members::bolt_steps(resistance)
    }

    fn rail(&self, moduli: [SectionModulus; 2], proof_strength: Stress) -> RailResistance {
        members::rail(self.annex, moduli, proof_strength)
    }

    fn rail_axial(
        &self,
        section: (Area, FlexuralRigidity),
        proof_strength: Stress,
    ) -> AxialResistance {
        members::rail_axial(self.annex, section, proof_strength)
    }

    fn rail_axial_step(&self, resistance: &AxialResistance) -> Step {
        members::rail_axial_step(resistance)
    }

    fn rail_steps(&self, resistance: &RailResistance) -> [Step; 2] {
        members::rail_steps(resistance)
    }
}
