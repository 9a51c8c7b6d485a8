//! Peak pressure from a basic pressure and an exposure factor over a terrain: what countries share whose
//! annex or law has no profile of turbulence, but such factors, by whatever formula.

use super::en1991_1_4_2005::EN1991_1_4;
use super::en1991_1_4_2005::velocity::velocity_pressure;
use super::profile::velocity_step;
use super::site_steps::{PRESSURE, basic_pressure_step, height_step, peak_pressure_step};
use crate::codes::NotCovered;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{Evidence, PeakPressure, SiteFault, SiteField, Trouble, WindSite};
use crate::units::{Density, Length, Pressure, Speed};

/// Wind over open country, before any terrain.
#[derive(Clone, Copy)]
pub(super) struct Basic {
    /// The velocity, and where it comes from.
    pub(super) velocity: Step,
    /// The pressure.
    pub(super) pressure: Pressure,
    /// The pressure, and where it comes from.
    pub(super) step: Step,
}

impl Basic {
    /// A velocity and the pressure that a country has for it.
    pub(super) const fn new(
        velocity: Step,
        (symbol, pressure, source): (&'static str, Pressure, Source),
    ) -> Self {
        let quantity = Quantity::BasicVelocityPressure;
        let step = Step::new(quantity, symbol, pressure.kn_per_m2(), PRESSURE, source);
        Self { velocity, pressure, step }
    }

    /// A velocity that was stated, and the pressure it makes.
    pub(super) fn of(air: Density, v_b: Speed) -> Self {
        let pressure = velocity_pressure(air, v_b);
        let velocity = velocity_step("v_b", v_b, Source::Given);
        Self { velocity, pressure, step: basic_pressure_step(pressure) }
    }
}

/// What a terrain makes of the basic pressure.
pub(super) struct Exposure {
    /// `c_e(z)`.
    pub(super) factor: f64,
    /// What it was worked out from and itself, in order.
    pub(super) steps: Vec<Step>,
}

impl Exposure {
    /// A factor by the rule that gives it.
    pub(super) fn new(factor: f64, rule: Source) -> Self {
        let step = Step::new(Quantity::WindExposure, "c_e(z)", factor, "", rule);
        Self { factor, steps: vec![step] }
    }

    /// A factor over a ground that a table describes, with the factor of hills where it has one.
    pub(super) fn over(
        ground: Roughness,
        hills: Option<(&'static str, f64)>,
        factor: f64,
        [table, rule]: [Source; 2],
    ) -> Self {
        let step = |quantity, symbol, value, unit, source| {
            Step::new(quantity, symbol, value, unit, source)
        };
        let mut steps = vec![
            step(Quantity::TerrainFactor, "k_r", ground.k_r, "", table),
            step(Quantity::RoughnessLength, "z_0", ground.z_0.m(), "m", table),
        ];
        let hills = hills.map(|(symbol, c_o)| step(Quantity::Orography, symbol, c_o, "", rule));
        steps.extend(hills);
        steps.extend(Self::new(factor, rule).steps);
        Self { factor, steps }
    }
}

/// What a country reads off a name, if it has that name, and unless its rules do not cover the rest.
type Read<T> = Option<Result<T, NotCovered>>;

/// The wind of a zone at an altitude.
type WindOf = fn(&str, Length) -> Read<Basic>;

/// The exposure over a terrain at a height, with an orography factor.
type ExposureOf = fn(&str, Length, f64) -> Read<Exposure>;

/// How a country describes the wind of a site by a zone of its map or by a velocity, and by one of its
/// terrains.
pub(super) struct ZonesAndExposure {
    /// Its code.
    pub(super) code: &'static str,
    /// All its ways of describing the wind.
    pub(super) ways: &'static [&'static [SiteField]],
    /// Names of its zones, and the wind of each.
    pub(super) zones: (&'static [&'static str], WindOf),
    /// The pressure of a velocity.
    pub(super) of_velocity: fn(Speed) -> Basic,
    /// Names of its terrains, and the exposure over each.
    pub(super) terrains: (&'static [&'static str], ExposureOf),
    /// Whether the exposure has room for hills.
    pub(super) orography: bool,
    /// How well all this is known.
    pub(super) evidence: Evidence,
}

impl ZonesAndExposure {
    /// Peak pressure at the ridge of a site so described.
    pub(super) fn peak_pressure(
        &self,
        site: &WindSite<'_>,
    ) -> Result<PeakPressure, Vec<SiteFault>> {
        if site.setting.is_some() {
            return Err(vec![SiteField::WindSetting.with(Trouble::Unused { instead: self.ways })]);
        }
        let mut faults = Vec::new();
        if !self.orography && site.orography.is_some_and(|c_o| c_o > 1.0) {
            const INSTEAD: &[&[SiteField]] = &[&[SiteField::PeakPressure]];
            faults.push(SiteField::Orography.with(Trouble::Unused { instead: INSTEAD }));
        }
        match (self.basic(site), self.exposure(site)) {
            (Ok(basic), Ok(exposure)) if faults.is_empty() => Ok(self.found(site, basic, exposure)),
            (basic, exposure) => {
                faults.extend(basic.err().into_iter().chain(exposure.err()));
                Err(faults)
            }
        }
    }

    fn basic(&self, site: &WindSite<'_>) -> Result<Basic, SiteFault> {
        if site.zone.is_none() {
            return SiteField::BasicVelocity.need(site.basic_velocity).map(self.of_velocity);
        }
        let (names, wind_of) = self.zones;
        SiteField::WindZone
            .read(site.zone, names, |name| wind_of(name, site.altitude))?
            .map_err(SiteField::Altitude.silent(&[SiteField::BasicVelocity]))
    }

    fn exposure(&self, site: &WindSite<'_>) -> Result<Exposure, SiteFault> {
        let (names, exposure_of) = self.terrains;
        let c_o = site.orography.unwrap_or(1.0);
        SiteField::TerrainCategory
            .read(site.terrain, names, |name| exposure_of(name, site.height, c_o))?
            .map_err(SiteField::RidgeHeight.silent(&[SiteField::PeakPressure]))
    }

    fn found(&self, site: &WindSite<'_>, basic: Basic, exposure: Exposure) -> PeakPressure {
        let q_p = basic.pressure * exposure.factor;
        let zone = site.zone.map_or_else(String::new, |zone| format!("zone {zone}, "));
        let mut steps = vec![basic.velocity, basic.step, height_step(site.height)];
        steps.extend(exposure.steps);
        steps.push(peak_pressure_step(q_p, Source::clause(EN1991_1_4, "Eq. (4.8)")));
        PeakPressure {
            pressure: q_p,
            basic: Some(basic.pressure),
            described: format!(
                "annex {}, {zone}altitude {} m, terrain {}, ridge at {} m",
                self.code,
                site.altitude.m(),
                site.terrain.unwrap_or_default(),
                site.height.m()
            ),
            evidence: self.evidence,
            steps,
        }
    }
}

/// Ground upwind with the terrain factor that a country prints for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Roughness {
    /// `k_r`: terrain factor.
    pub k_r: f64,
    /// `z_0`: roughness length.
    pub z_0: Length,
    /// `z_min`: height below which the exposure stays constant.
    pub z_min: Length,
}

impl Roughness {
    /// `k_r² c_o ln(z/z_0) [c_o ln(z/z_0) + 7]`: the profile of EN 1991-1-4, 4.3 to 4.5, with the terrain
    /// factor as printed.
    pub(super) fn exposure(&self, z: Length, c_o: f64) -> f64 {
        let log = c_o * (z.max(self.z_min) / self.z_0).ln();
        self.k_r * self.k_r * log * (log + 7.0)
    }
}
