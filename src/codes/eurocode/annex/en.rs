//! Recommended values: what the standards print in their notes when no country speaks.

use super::{Annex, PartialFactors, Strength};
use crate::codes::cited::Source;
use crate::codes::eurocode::en1991_1_1_2002::maintenance_force;
use crate::codes::eurocode::en1991_1_3_2003::{ClimateRegion, EN1991_1_3, annex_c_ground_load};
use crate::codes::eurocode::en1991_1_4_2005::EN1991_1_4;
use crate::codes::eurocode::en1991_1_4_2005::tables::RECOMMENDED;
use crate::codes::eurocode::en1991_1_4_2005::velocity::TerrainCategory;
use crate::codes::eurocode::en1995_1_1_2004::timber::CrackFactorRule;
use crate::codes::eurocode::profile::{self, Profile, velocity_step};
use crate::codes::eurocode::site_steps::ground_snow_step;
use crate::codes::vocabulary::{
    Evidence, Exceptional, GroundSnow, LoadDuration, PeakPressure, SiteFault, SiteField, SnowSite,
    Trouble, WindSite,
};
use crate::units::{Density, Length};

/// The recommended values.
///
/// Partly from memory: the note above each value says which.
pub const ANNEX: Annex = Annex {
    code: "EN",
    title: "Recommended values",
    revision: "EN-2",
    strength: Strength::Single {
        // EN 1990:2002+A1 Table A1.2(B). Confirmed: a public library and a textbook agree.
        factors: PartialFactors {
            permanent_unfavourable: 1.35,
            permanent_favourable: 1.00,
            variable: 1.50,
        },
        // EN 1990:2002 Annex B, Table B3. One source: a help page on consequence classes, which
        // prints 0.9 and 1.1.
        consequence: [0.9, 1.0, 1.1],
    },
    combination_evidence: Evidence::OneSource,
    // EN 1990:2002+A1 Table A1.1. Confirmed: a public library and a national summary agree.
    psi_0_wind: 0.6,
    psi_0_snow_low: 0.5,
    psi_0_snow_high: 0.7,
    snow_altitude_limit: Length::from_m(1000.0),
    // EN 1991-1-3:2003, 4.3(1). Confirmed: printed worked example (0.65 becomes 1.30).
    exceptional_snow_factor: Some(2.0),
    // Eq. (6.11b) with `ψ_2` of wind, which is 0. From memory that it is not `ψ_1`.
    psi_wind_accidental: 0.0,
    // EN 1991-1-1:2002, as recommended. From memory.
    maintenance_force: maintenance_force(),
    // EN 1991-1-3:2003, Figure 5.3. Confirmed: a printed worked example, a library and a worked page.
    drifted_shape: None,
    least_exposure: None,
    least_thermal: None,
    // EN 1991-1-3:2003, 6.3(1). Confirmed: two help documents. No limit of k beside the formula's own.
    eaves_snow_above: Length::from_m(800.0),
    eaves_snow_k: f64::INFINITY,
    // EN 1991-1-3:2003 Annex C. From memory.
    roof_snow_law: None,
    ground_snow,
    snow_ways: &[&[SiteField::GroundSnow], &[SiteField::SnowRegion, SiteField::SnowZone]],
    peak_pressure,
    wind_ways: WIND_WAYS,
    places: None,
    roof_tables: RECOMMENDED,
    // EN 1991-1-4:2005, 4.5(1) note 2. Confirmed: worked examples and three libraries.
    air_density: Density::from_kg_per_m3(1.25),
    // EN 1995-1-1:2004 Table 2.2 lists snow under both short and medium term and wind under
    // short term. From memory; the altitude as the border follows the practice of most annexes.
    snow_duration_low: LoadDuration::Short,
    snow_duration_high: LoadDuration::Medium,
    wind_duration: LoadDuration::Short,
    // EN 1995-1-1:2004 Table 2.3. Confirmed: a public library and a printed handbook.
    gamma_m_connections: 1.3,
    gamma_m_solid_timber: 1.3,
    gamma_m_accidental: 1.0,
    timber_law: None,
    // EN 1995-1-1:2004+A1:2008, 6.1.7(2). Confirmed in one clause-by-clause library.
    k_cr_rule: CrackFactorRule::Fixed(0.67),
    // EN 1999-1-1:2007 Table 6.1. Confirmed: a printed teaching example.
    gamma_m1_aluminium: 1.10,
    // EN 1993-1-8:2005 Table 2.1. From memory.
    gamma_m2_steel: 1.25,
    // EN 1993-1-1:2005, 6.1(1). Confirmed: two published resistance tables.
    gamma_m0_steel: 1.0,
};

/// The recommended values before snow over the eaves was computed.
///
/// Partly from memory: as [`ANNEX`].
pub const EN_1: Annex =
    Annex { revision: "EN-1", eaves_snow_above: Length::from_m(f64::INFINITY), ..ANNEX };

const WIND_WAYS: &[&[SiteField]] =
    &[&[SiteField::BasicVelocity, SiteField::TerrainCategory], &[SiteField::PeakPressure]];

/// Ground snow of the European maps, EN 1991-1-3:2003 Annex C.
fn ground_snow(site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    const INSTEAD: &[SiteField] = &[SiteField::GroundSnow];
    let find = || {
        let region =
            SiteField::SnowRegion.read(site.region, ClimateRegion::NAMES, ClimateRegion::parse)?;
        let number = |text: &str| text.parse::<f64>().ok();
        let zone = SiteField::SnowZone.read(site.zone, region.zone_names(), number)?;
        let at = |altitude| annex_c_ground_load(region, zone, altitude);
        // At sea level only the zone can be at fault.
        at(Length::ZERO).map_err(SiteField::SnowZone.silent(INSTEAD))?;
        at(site.altitude.max(Length::ZERO)).map_err(SiteField::Altitude.silent(INSTEAD))
    };
    let load = find().map_err(|fault| vec![fault])?;
    let zone = site.zone.unwrap_or_default();
    Ok(GroundSnow {
        load,
        described: format!("EN 1991-1-3 Annex C, zone {zone}, altitude {} m", site.altitude.m()),
        evidence: Evidence::FromMemory,
        exceptional: Exceptional::NotSaid,
        steps: vec![ground_snow_step(load, Source::clause(EN1991_1_3, "Table C.1"))],
    })
}

/// Peak pressure by the logarithmic profile over a terrain category, EN 1991-1-4:2005, 4.5.
fn peak_pressure(site: &WindSite<'_>) -> Result<PeakPressure, Vec<SiteFault>> {
    if site.zone.is_some() || site.setting.is_some() {
        return Err(vec![SiteField::WindZone.with(Trouble::Unused { instead: WIND_WAYS })]);
    }
    let velocity = SiteField::BasicVelocity.need(site.basic_velocity);
    let terrain = SiteField::TerrainCategory.read(
        site.terrain,
        TerrainCategory::NAMES,
        TerrainCategory::parse,
    );
    let (v_b, terrain) = match (velocity, terrain) {
        (Ok(velocity), Ok(terrain)) => (velocity, terrain),
        (velocity, terrain) => {
            return Err(velocity.err().into_iter().chain(terrain.err()).collect());
        }
    };
    let profile = Profile {
        velocity: (v_b, velocity_step("v_b", v_b, Source::Given)),
        terrain: (terrain.terrain(), Source::clause(EN1991_1_4, "Table 4.1")),
        air_density: (ANNEX.air_density, Source::clause(EN1991_1_4, "4.5(1)")),
        peak_factor: None,
        described: format!(
            "EN 1991-1-4 4.5, v_b {} m/s, ridge at {} m",
            v_b.m_per_s(),
            site.height.m()
        ),
        evidence: Evidence::Confirmed,
    };
    profile::peak_pressure(profile, site).map_err(|fault| vec![fault])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Speed;

    #[test]
    fn flat_terrain_has_the_orography_factor_one() {
        let at = |orography| {
            peak_pressure(&WindSite {
                zone: None,
                setting: None,
                peak: None,
                basic_velocity: Some(Speed::from_m_per_s(25.0)),
                terrain: Some("II"),
                shore_distance: None,
                orography,
                height: Length::from_m(8.0),
                altitude: Length::ZERO,
            })
        };
        let [silent, one] = [at(None), at(Some(1.0))].map(|found| found.expect("covered").pressure);
        assert_eq!(silent, one);
    }
}
