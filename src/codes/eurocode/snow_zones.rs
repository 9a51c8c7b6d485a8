//! Snow on the ground by a zone of a map and the altitude: what every country shares that has such a map,
//! whatever its zones are called and however its loads rise.

use super::site_steps::ground_snow_step;
use crate::codes::NotCovered;
use crate::codes::cited::Source;
use crate::codes::vocabulary::{
    Evidence, Exceptional, GroundSnow, SiteFault, SiteField, SnowSite, Trouble,
};
use crate::units::{Length, Pressure};

/// How a country describes the snow of a site by a zone `Z` of its map.
pub(super) struct ZonesAndAltitude<Z> {
    /// Its code.
    pub(super) code: &'static str,
    /// All its ways of describing the snow.
    pub(super) ways: &'static [&'static [SiteField]],
    /// Names of its zones.
    pub(super) names: &'static [&'static str],
    /// Reads one of them.
    pub(super) parse: fn(&str) -> Option<Z>,
    /// `s_k` of a zone at an altitude, which is never below that of the sea.
    pub(super) load: fn(Z, Length) -> Result<Pressure, NotCovered>,
    /// Where it stands.
    pub(super) source: Source,
    /// How well it is known.
    pub(super) evidence: Evidence,
}

impl<Z: Copy> ZonesAndAltitude<Z> {
    /// The zone of a site and the snow on its ground, with nothing said of exceptional snow.
    pub(super) fn ground_snow(
        &self,
        site: &SnowSite<'_>,
    ) -> Result<(Z, GroundSnow), Vec<SiteFault>> {
        let (zone, load) = self.find(site).map_err(|fault| vec![fault])?;
        let name = site.zone.unwrap_or_default();
        let altitude = site.altitude.m();
        let ground = GroundSnow {
            load,
            described: format!("annex {}, zone {name}, altitude {altitude} m", self.code),
            evidence: self.evidence,
            exceptional: Exceptional::NotSaid,
            steps: vec![ground_snow_step(load, self.source)],
        };
        Ok((zone, ground))
    }

    fn find(&self, site: &SnowSite<'_>) -> Result<(Z, Pressure), SiteFault> {
        const INSTEAD: &[SiteField] = &[SiteField::GroundSnow];
        if site.region.is_some() {
            return Err(SiteField::SnowRegion.with(Trouble::Unused { instead: self.ways }));
        }
        let zone = SiteField::SnowZone.read(site.zone, self.names, self.parse)?;
        // At sea level only the zone can be at fault.
        (self.load)(zone, Length::ZERO).map_err(SiteField::SnowZone.silent(INSTEAD))?;
        let load = (self.load)(zone, site.altitude.max(Length::ZERO))
            .map_err(SiteField::Altitude.silent(INSTEAD))?;
        Ok((zone, load))
    }
}
