//! Steps of the trace that are the same whether a value is given or an annex finds it: ground snow,
//! velocity pressures; and what annexes without a map of snow say to a zone.

use super::en1991_1_4_2005::EN1991_1_4;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{GroundSnow, SiteFault, SiteField, SnowSite, Trouble};
use crate::units::{Density, Length, Pressure};

/// Unit of loads on areas.
pub(super) const PRESSURE: &str = "kN/m²";

/// Snow on the ground with its provenance.
pub(super) const fn ground_snow_step(load: Pressure, source: Source) -> Step {
    Step::new(Quantity::GroundSnow, "s_k", load.kn_per_m2(), PRESSURE, source)
}

/// Ground snow of an annex in which no zone gives it.
///
/// # Errors
/// Always: every description by zone or region is of no use there.
pub(super) fn no_map_of_snow(
    site: &SnowSite<'_>,
    ways: &'static [&'static [SiteField]],
) -> Result<GroundSnow, Vec<SiteFault>> {
    let said = [(SiteField::SnowRegion, site.region), (SiteField::SnowZone, site.zone)];
    let unused = |field: SiteField| field.with(Trouble::Unused { instead: ways });
    Err(said.iter().filter(|(_, said)| said.is_some()).map(|(field, _)| unused(*field)).collect())
}

/// Peak pressure with its provenance.
pub(super) const fn peak_pressure_step(pressure: Pressure, source: Source) -> Step {
    Step::new(Quantity::PeakVelocityPressure, "q_p", pressure.kn_per_m2(), PRESSURE, source)
}

/// Basic velocity pressure with its provenance.
pub(super) const fn basic_pressure_step(pressure: Pressure) -> Step {
    let source = Source::clause(EN1991_1_4, "Eq. (4.10)");
    Step::new(Quantity::BasicVelocityPressure, "q_b", pressure.kn_per_m2(), PRESSURE, source)
}

/// Density of air with its provenance.
pub(super) const fn air_density_step(rho: Density, source: Source) -> Step {
    Step::new(Quantity::AirDensity, "ρ", rho.kg_per_m3(), "kg/m³", source)
}

/// Height at which the peak pressure on a pitched roof is read: that of its ridge.
pub(super) const fn height_step(z: Length) -> Step {
    let source = Source::clause(EN1991_1_4, "7.2.5");
    Step::new(Quantity::ReferenceHeight, "z", z.m(), "m", source)
}
