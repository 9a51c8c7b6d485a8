//! The zone of a map: as the request has it, or that of the place of the site.

use crate::assessment::Assumed;
use crate::codes::vocabulary::{Evidence, PlaceOnMaps, SiteFault, SiteField, SnowOfPlace, Trouble};
use crate::codes::{Code, Rules};
use crate::service::intake::Notes;

use super::faults;

/// Where the site lies on the maps, if its request says so and the annex knows.
///
/// # Errors
/// [`Told`] where the annex does not.
pub(super) fn on_maps(
    place: Option<&str>,
    rules: Rules,
    notes: &mut Notes,
) -> Result<Option<PlaceOnMaps>, Told> {
    let found = place.map(|place| rules.on_maps(place)).transpose();
    found.map_err(|fault| told(rules, &fault, notes))
}

/// Faults were found, and noted.
#[derive(Debug, Clone, Copy)]
pub(super) struct Told;

/// A zone, and how well it is known.
pub(super) struct Zone<'a> {
    pub(super) name: Option<&'a str>,
    pub(super) evidence: Evidence,
}

/// The zone of the map of snow. It is asked for where nothing else says how much snow there is.
pub(super) fn of_snow<'a>(
    given: Option<&'a str>,
    is_asked_for: bool,
    (place, rules): (Option<&PlaceOnMaps>, Rules),
    notes: &mut Notes,
) -> Result<Zone<'a>, Told> {
    let zones = place.and_then(|place| match place.snow {
        SnowOfPlace::Zones(zones) => Some((place, zones)),
        SnowOfPlace::Load(_) => None,
    });
    let assumed = |zone, place, known| Assumed::SnowZoneOfPlace { zone, place, known };
    zone((SiteField::SnowZone, given, is_asked_for), zones, (assumed, rules), notes)
}

/// The zone of the map of wind. It is asked for where nothing else says how strong the wind is.
pub(super) fn of_wind<'a>(
    given: Option<&'a str>,
    is_asked_for: bool,
    (place, rules): (Option<&PlaceOnMaps>, Rules),
    notes: &mut Notes,
) -> Result<Zone<'a>, Told> {
    let zones = place.map(|place| (place, place.wind_zones));
    let zones = zones.filter(|(_, zones)| !zones.is_empty());
    let assumed = |zone, place, known| Assumed::WindZoneOfPlace { zone, place, known };
    zone((SiteField::WindZone, given, is_asked_for), zones, (assumed, rules), notes)
}

fn zone<'a>(
    (field, given, is_asked_for): (SiteField, Option<&'a str>, bool),
    place: Option<(&PlaceOnMaps, &'static [&'static str])>,
    (assumed, rules): (impl Fn(&'static str, String, Evidence) -> Assumed, Rules),
    notes: &mut Notes,
) -> Result<Zone<'a>, Told> {
    let as_given = Zone { name: given, evidence: Evidence::Given };
    let Some((place, zones)) = place else { return Ok(as_given) };
    let name = place.name.clone();
    match (given, zones) {
        (Some(given), zones) if !zones.contains(&given) => {
            let trouble = Trouble::Elsewhere { place: name, given: given.to_owned(), zones };
            Err(told(rules, &field.with(trouble), notes))
        }
        (None, [zone]) if is_asked_for => {
            notes.note(faults::pointer(field), assumed(zone, name, place.evidence));
            Ok(Zone { name: Some(zone), evidence: place.evidence })
        }
        (None, zones) if is_asked_for => {
            let trouble = Trouble::SeveralZones { place: name, zones };
            Err(told(rules, &field.with(trouble), notes))
        }
        _ => Ok(as_given),
    }
}

fn told(rules: Rules, fault: &SiteFault, notes: &mut Notes) -> Told {
    faults::note(rules, fault, notes);
    Told
}
