//! Snow on the ground by the altitude alone: what every country shares that has no map of snow, or one
//! whose zones all rise alike.

use super::site_steps::ground_snow_step;
use crate::codes::NotCovered;
use crate::codes::cited::Source;
use crate::codes::vocabulary::{
    Evidence, Exceptional, GroundSnow, SiteFault, SiteField, SnowSite, Trouble,
};
use crate::units::{Length, Pressure};

/// How a country describes the snow of a site by nothing but its altitude.
pub(super) struct AltitudeAlone {
    /// Its code.
    pub(super) code: &'static str,
    /// `s_k` at an altitude, which is never below that of the sea.
    pub(super) load: fn(Length) -> Result<Pressure, NotCovered>,
    /// Where it stands.
    pub(super) source: Source,
    /// How well it is known.
    pub(super) evidence: Evidence,
}

impl AltitudeAlone {
    /// The snow on the ground of a site, with nothing said of exceptional snow.
    pub(super) fn ground_snow(&self, site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
        const INSTEAD: &[SiteField] = &[SiteField::GroundSnow];
        let said = [(SiteField::SnowRegion, site.region), (SiteField::SnowZone, site.zone)];
        let unused = |field: SiteField| field.with(Trouble::Unused { instead: &[INSTEAD] });
        let faults = said.iter().filter(|(_, said)| said.is_some());
        let faults: Vec<SiteFault> = faults.map(|(field, _)| unused(*field)).collect();
        if !faults.is_empty() {
            return Err(faults);
        }
        let load = (self.load)(site.altitude.max(Length::ZERO))
            .map_err(|rule| vec![SiteField::Altitude.silent(INSTEAD)(rule)])?;
        Ok(GroundSnow {
            load,
            described: format!("annex {}, altitude {} m", self.code, site.altitude.m()),
            evidence: self.evidence,
            exceptional: Exceptional::NotSaid,
            steps: vec![ground_snow_step(load, self.source)],
        })
    }
}
