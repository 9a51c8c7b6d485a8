//! What was observed, in the place of the actions of the site.

use crate::codes::vocabulary::{GroundSnow, PeakPressure, SiteFault, SnowSite, WindSite};
use crate::codes::{Code, Rules};
use crate::units::{Angle, Length, Pressure};
use crate::wire::capacity::Event;
use crate::wire::fault::FaultCode;

use super::Notes;
use super::site::{Site, note_fault};

/// Faults of an event that need nothing but itself. The answer of what a job bears has no meaning
/// beside it.
pub(super) fn faults(event: &Event, capacity: bool, notes: &mut Notes) {
    if event.ground_snow_kn_per_m2.is_some() && event.snow_on_roof_kn_per_m2.is_some() {
        notes.contradiction(
            ["/event/ground_snow_kn_per_m2", "/event/snow_on_roof_kn_per_m2"],
            "Give the snow on the ground or that on the roof: one follows from the other.",
        );
    }
    let nothing = event.ground_snow_kn_per_m2.is_none()
        && event.snow_on_roof_kn_per_m2.is_none()
        && event.peak_pressure_kn_per_m2.is_none();
    if nothing {
        let detail = "An event has snow on the ground, snow on the roof or a peak pressure.";
        notes.fault("/event", FaultCode::Missing, detail);
    }
    if capacity {
        notes.contradiction(
            ["/capacity", "/event"],
            "What a job bears is asked of the actions of its site: leave out the event, or ask \
             by itself.",
        );
    }
}

/// The site with what was observed for its snow and its wind; `None` only with faults noted.
pub(super) fn observed(
    event: &Event,
    rules: Rules,
    site: Site,
    pitch: Angle,
    notes: &mut Notes,
) -> Option<Site> {
    notes.remarks.event = Some([site.ground_snow.load, site.wind.pressure]);
    // Neither the map nor exceptional snow matters to what lay there.
    notes.remarks.snow.exceptional_unasked = false;
    notes.remarks.snow.from_memory = false;
    notes.assumptions.retain(|noted| noted.pointer != "/site/snow/exceptional");
    let mut conditions = site.snow;
    conditions.exceptional = false;
    let load = match event.snow_on_roof_kn_per_m2 {
        Some(on_roof) => {
            let one = Pressure::from_kn_per_m2(1.0);
            let ground = ground_snow(rules, one, site.altitude);
            let ground = noted(rules, ground, notes)?;
            let per_ground = rules.snow(ground, conditions, pitch, Length::ZERO).roof;
            if on_roof > 0.0 && per_ground <= Pressure::ZERO {
                let detail = "By the rules no snow stays on a slope of this pitch. If it was held, say so \
                     in /site/snow_held; else give the snow on the ground.";
                notes.fault("/event/snow_on_roof_kn_per_m2", FaultCode::NotCovered, detail);
                return None;
            }
            if on_roof > 0.0 { on_roof / per_ground.kn_per_m2() } else { 0.0 }
        }
        None => event.ground_snow_kn_per_m2.unwrap_or(0.0),
    };
    let ground = ground_snow(rules, Pressure::from_kn_per_m2(load), site.altitude);
    let wind = Pressure::from_kn_per_m2(event.peak_pressure_kn_per_m2.unwrap_or(0.0));
    Some(Site {
        ground_snow: noted(rules, ground, notes)?,
        wind: noted(rules, peak_pressure(rules, wind, site.altitude), notes)?,
        snow: conditions,
        ..site
    })
}

fn ground_snow(
    rules: Rules,
    load: Pressure,
    altitude: Length,
) -> Result<GroundSnow, Vec<SiteFault>> {
    rules.ground_snow(&SnowSite { load: Some(load), altitude, ..SnowSite::default() })
}

fn peak_pressure(
    rules: Rules,
    peak: Pressure,
    altitude: Length,
) -> Result<PeakPressure, Vec<SiteFault>> {
    rules.peak_pressure(&WindSite { peak: Some(peak), altitude, ..WindSite::default() })
}

fn noted<T>(rules: Rules, found: Result<T, Vec<SiteFault>>, notes: &mut Notes) -> Option<T> {
    found.map_err(|faults| faults.iter().for_each(|fault| note_fault(rules, fault, notes))).ok()
}
