//! Peak pressure over a terrain by the logarithmic profile, with the steps that led to it: what every
//! country shares that keeps the profile of the standard, whatever terrains and velocities it has.

use super::en1991_1_4_2005::EN1991_1_4;
use super::en1991_1_4_2005::velocity::{self, Terrain};
use super::site_steps::{air_density_step, basic_pressure_step, height_step, peak_pressure_step};
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{Evidence, PeakPressure, SiteFault, SiteField, Trouble, WindSite};
use crate::units::{Density, Speed};

/// What a country reads off its maps and tables for the profile.
pub(super) struct Profile {
    /// `v_b`, and where it comes from.
    pub(super) velocity: (Speed, Step),
    /// The ground upwind, and the table that describes it.
    pub(super) terrain: (Terrain, Source),
    /// `ρ`, and where it comes from.
    pub(super) air_density: (Density, Source),
    /// `k_p` where it is not the recommended one, and where it stands.
    pub(super) peak_factor: Option<(f64, Source)>,
    /// For people.
    pub(super) described: String,
    /// How well all this is known.
    pub(super) evidence: Evidence,
}

/// Names a country has for values, the value of each, and where they stand.
type Named<T> = (&'static [&'static str], fn(&str) -> Option<T>, Source);

/// How a country describes the wind of a site by a zone of its map or by a velocity, and by one of its
/// terrains.
pub(super) struct ZonesAndTerrains {
    /// Its code.
    pub(super) code: &'static str,
    /// All its ways of describing the wind.
    pub(super) ways: &'static [&'static [SiteField]],
    /// Names of its zones, the basic velocity of each, and where it stands.
    pub(super) zones: Named<Speed>,
    /// Names of its terrains, each as the profile needs it, and where they stand.
    pub(super) terrains: Named<Terrain>,
    /// `ρ`, and where it comes from.
    pub(super) air_density: (Density, Source),
    /// How well all this is known.
    pub(super) evidence: Evidence,
}

impl ZonesAndTerrains {
    /// Peak pressure at the ridge of a site so described.
    pub(super) fn peak_pressure(
        &self,
        site: &WindSite<'_>,
    ) -> Result<PeakPressure, Vec<SiteFault>> {
        if site.setting.is_some() {
            return Err(vec![SiteField::WindSetting.with(Trouble::Unused { instead: self.ways })]);
        }
        let (names, velocity_of, table) = self.zones;
        let velocity = match (site.zone, site.basic_velocity) {
            (Some(_), _) => SiteField::WindZone
                .read(site.zone, names, velocity_of)
                .map(|v_b| (v_b, velocity_step("v_b,0", v_b, table))),
            (None, given) => SiteField::BasicVelocity.need(given).map(given_velocity),
        };
        let over = VelocityAndTerrains {
            code: self.code,
            ways: self.ways,
            terrains: self.terrains,
            air_density: self.air_density,
            peak_factor: None,
            evidence: self.evidence,
        };
        over.at_ridge(velocity, site)
    }
}

/// How a country describes the wind of a site by a velocity that the caller looks up, and by one of its
/// terrains.
pub(super) struct VelocityAndTerrains {
    /// Its code.
    pub(super) code: &'static str,
    /// All its ways of describing the wind.
    pub(super) ways: &'static [&'static [SiteField]],
    /// Names of its terrains, each as the profile needs it, and where they stand.
    pub(super) terrains: Named<Terrain>,
    /// `ρ`, and where it comes from.
    pub(super) air_density: (Density, Source),
    /// `k_p` where it is not the recommended one, and where it stands.
    pub(super) peak_factor: Option<(f64, Source)>,
    /// How well all this is known.
    pub(super) evidence: Evidence,
}

impl VelocityAndTerrains {
    /// Peak pressure at the ridge of a site so described.
    pub(super) fn peak_pressure(
        &self,
        site: &WindSite<'_>,
    ) -> Result<PeakPressure, Vec<SiteFault>> {
        no_zones(site, self.ways)?;
        let velocity = SiteField::BasicVelocity.need(site.basic_velocity);
        self.at_ridge(velocity.map(given_velocity), site)
    }

    /// The same of a velocity, however it was found.
    pub(super) fn at_ridge(
        &self,
        velocity: Result<(Speed, Step), SiteFault>,
        site: &WindSite<'_>,
    ) -> Result<PeakPressure, Vec<SiteFault>> {
        let (names, terrain_of, table) = self.terrains;
        let terrain = SiteField::TerrainCategory.read(site.terrain, names, terrain_of);
        let (velocity, terrain) = match (velocity, terrain) {
            (Ok(velocity), Ok(terrain)) => (velocity, terrain),
            (velocity, terrain) => {
                return Err(velocity.err().into_iter().chain(terrain.err()).collect());
            }
        };
        let zone = site.zone.map_or_else(String::new, |zone| format!("zone {zone}, "));
        let shore = site.shore_distance.map_or_else(String::new, |shore| {
            format!("{} km from the shore, ", shore.m() / 1000.0)
        });
        let profile = Profile {
            velocity,
            terrain: (terrain, table),
            air_density: self.air_density,
            peak_factor: self.peak_factor,
            described: format!(
                "annex {}, {zone}{shore}v_b {} m/s, terrain {}, ridge at {} m",
                self.code,
                velocity.0.m_per_s(),
                site.terrain.unwrap_or_default(),
                site.height.m()
            ),
            evidence: self.evidence,
        };
        peak_pressure(profile, site).map_err(|fault| vec![fault])
    }
}

/// A velocity that was stated, as the profile takes it.
const fn given_velocity(v_b: Speed) -> (Speed, Step) {
    (v_b, velocity_step("v_b", v_b, Source::Given))
}

/// That no zone is given where the annex has none, nor a setting in it.
pub(super) fn no_zones(
    site: &WindSite<'_>,
    ways: &'static [&'static [SiteField]],
) -> Result<(), Vec<SiteFault>> {
    let said = [(SiteField::WindZone, site.zone), (SiteField::WindSetting, site.setting)];
    let unused = |field: SiteField| field.with(Trouble::Unused { instead: ways });
    let faults: Vec<SiteFault> =
        said.iter().filter(|(_, said)| said.is_some()).map(|(field, _)| unused(*field)).collect();
    if faults.is_empty() { Ok(()) } else { Err(faults) }
}

/// The velocity as a step.
pub(super) const fn velocity_step(symbol: &'static str, v: Speed, source: Source) -> Step {
    Step::new(Quantity::BasicWindVelocity, symbol, v.m_per_s(), "m/s", source)
}

/// Peak pressure at the ridge, EN 1991-1-4:2005, 4.5.
pub(super) fn peak_pressure(
    profile: Profile,
    site: &WindSite<'_>,
) -> Result<PeakPressure, SiteFault> {
    let Profile { velocity: (v_b, given), terrain: (terrain, table), described, evidence, .. } =
        profile;
    let (rho, rho_source) = profile.air_density;
    let c_o = site.orography.unwrap_or(1.0);
    let k_p = profile.peak_factor.map_or(velocity::PEAK_FACTOR, |(k_p, _)| k_p);
    let found = velocity::peak_pressure(v_b, terrain, site.height, c_o, rho, k_p)
        .map_err(SiteField::RidgeHeight.silent(&[SiteField::PeakPressure]))?;
    let step = |quantity, symbol, value, unit, number| {
        Step::new(quantity, symbol, value, unit, Source::clause(EN1991_1_4, number))
    };
    let mut steps = vec![
        given,
        air_density_step(rho, rho_source),
        basic_pressure_step(found.q_b),
        height_step(site.height),
        Step::new(Quantity::RoughnessLength, "z_0", terrain.z_0.m(), "m", table),
        match terrain.k_r {
            Some(k_r) => Step::new(Quantity::TerrainFactor, "k_r", k_r, "", table),
            None => step(Quantity::TerrainFactor, "k_r", found.k_r, "", "Eq. (4.5)"),
        },
        step(Quantity::Orography, "c_o", c_o, "", "4.3.3"),
        step(Quantity::Roughness, "c_r", found.c_r, "", "Eq. (4.4)"),
        step(Quantity::MeanWindVelocity, "v_m", found.v_m.m_per_s(), "m/s", "Eq. (4.3)"),
    ];
    // The recommended factor of 1 goes without saying.
    if (terrain.k_i - 1.0).abs() > 0.0 {
        steps.push(Step::new(Quantity::TurbulenceFactor, "k_I", terrain.k_i, "", table));
    }
    steps.push(step(Quantity::TurbulenceIntensity, "I_v", found.i_v, "", "Eq. (4.7)"));
    if let Some((k_p, source)) = profile.peak_factor {
        steps.push(Step::new(Quantity::PeakFactor, "k_p", k_p, "", source));
    }
    steps.push(peak_pressure_step(found.q_p, Source::clause(EN1991_1_4, "Eq. (4.8)")));
    Ok(PeakPressure { pressure: found.q_p, basic: Some(found.q_b), described, evidence, steps })
}
