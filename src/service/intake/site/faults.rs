//! Where the fields of a site stand in a request, and what is said of the faults a code finds in
//! them.

use crate::codes::vocabulary::{SiteFault, SiteField, Trouble};
use crate::codes::{Code, Rules};
use crate::service::intake::Notes;
use crate::wire::fault::FaultCode;

/// Where a field stands in every request that has a site, and its name in a sentence.
const fn of(field: SiteField) -> (&'static str, &'static str) {
    match field {
        SiteField::Place => ("/site/place", "place"),
        SiteField::Altitude => ("/site/altitude_m", "altitude"),
        SiteField::RidgeHeight => ("/roof/ridge_height_m", "ridge height"),
        SiteField::Pitch => ("/roof/pitch_deg", "pitch"),
        SiteField::Snow => ("/site/snow", "snow"),
        SiteField::GroundSnow => ("/site/snow/ground_load_kn_per_m2", "ground load"),
        SiteField::SnowZone => ("/site/snow/zone", "snow zone"),
        SiteField::SnowRegion => ("/site/snow/region", "snow region"),
        SiteField::ExceptionalSnow => ("/site/snow/exceptional", "exceptional snow"),
        SiteField::ExceptionalLoad => {
            ("/site/snow/exceptional_load_kn_per_m2", "exceptional ground load")
        }
        SiteField::Exposure => ("/site/exposure_factor", "exposure coefficient"),
        SiteField::Thermal => ("/site/thermal_factor", "thermal coefficient"),
        SiteField::Wind => ("/site/wind", "wind"),
        SiteField::WindZone => ("/site/wind/zone", "wind zone"),
        SiteField::WindSetting => ("/site/wind/setting", "wind setting"),
        SiteField::BasicVelocity => ("/site/wind/basic_velocity_m_per_s", "basic wind velocity"),
        SiteField::TerrainCategory => ("/site/wind/terrain_category", "terrain category"),
        SiteField::ShoreDistance => ("/site/wind/shore_distance_km", "distance from the shore"),
        SiteField::Orography => ("/site/wind/orography_factor", "orography factor"),
        SiteField::PeakPressure => ("/site/wind/peak_pressure_kn_per_m2", "peak pressure"),
    }
}

/// Where a field stands in a request.
pub const fn pointer(field: SiteField) -> &'static str {
    of(field).0
}

/// A field as its place in the request is spoken of, `site.snow.zone`.
fn member(field: SiteField) -> String {
    of(field).0.trim_start_matches('/').replace('/', ".")
}

/// Notes a fault that the rules found in the description of a site.
pub fn note(rules: Rules, fault: &SiteFault, notes: &mut Notes) {
    let (pointer, name) = of(fault.field);
    let annex = rules.annex();
    let together = |fields: &[SiteField]| joined(fields.iter().copied().map(member), "with");
    let one_of = |ways: &[&[SiteField]]| joined(ways.iter().map(|way| together(way)), "or");
    let (code, detail) = match &fault.trouble {
        Trouble::Missing { known: [] } => {
            (FaultCode::Missing, format!("Annex {annex} needs the {name} as well."))
        }
        Trouble::Missing { known } => {
            let known = joined(known.iter().copied(), "or");
            (FaultCode::Missing, format!("Annex {annex} needs the {name} as well: {known}."))
        }
        Trouble::Unknown { given, known } => {
            let known = joined(known.iter().copied(), "and");
            let detail =
                format!("There is no {name} \"{given}\" in annex {annex}; there are {known}.");
            (FaultCode::UnknownValue, detail)
        }
        Trouble::UnknownPlace { given, known } => {
            let detail =
                format!("There is no {name} \"{given}\" in annex {annex}; there are {known}.");
            (FaultCode::UnknownValue, detail)
        }
        Trouble::NoPlaces => {
            let detail = format!(
                "No list of places is known for annex {annex}: give the zones by its maps, which the \
                 standards body publishes and building authorities know."
            );
            (FaultCode::Contradiction, detail)
        }
        Trouble::SeveralZones { place, zones } => {
            let zones = joined(zones.iter().copied(), "and");
            let detail =
                format!("{place} lies in several zones, {zones}: give the {name} of the site.");
            (FaultCode::Missing, detail)
        }
        Trouble::Elsewhere { place, given, zones } => {
            let zones = joined(zones.iter().copied(), "and");
            let detail = format!("{place} lies in {name} {zones}, not in \"{given}\".");
            (FaultCode::Contradiction, detail)
        }
        Trouble::Unused { instead } => {
            let instead = one_of(instead);
            let detail = format!("Annex {annex} has no use for the {name}; give {instead}.");
            (FaultCode::Contradiction, detail)
        }
        Trouble::Included { beside } => {
            let beside = member(*beside);
            let detail = format!(
                "Give the {name} or {beside}, not both: the effect of one is part of the other."
            );
            (FaultCode::Contradiction, detail)
        }
        Trouble::Settled { by, as_flag } => {
            let by = of(*by).1;
            let detail = format!("In annex {annex} the {by} settles it: {as_flag}.");
            (FaultCode::Contradiction, detail)
        }
        Trouble::Silent { rule, instead: [] } => (FaultCode::NotCovered, format!("{rule}.")),
        Trouble::Silent { rule, instead } => {
            (FaultCode::NotCovered, format!("{rule}; give {}.", together(instead)))
        }
        Trouble::ChooseOne { ways } => {
            let detail = format!("Give exactly one of these: {}.", one_of(ways));
            (FaultCode::ChooseOne, detail)
        }
    };
    notes.fault(pointer, code, detail);
}

/// `a, b and c`.
pub fn joined(items: impl Iterator<Item = impl Into<String>>, last: &str) -> String {
    let mut items: Vec<String> = items.map(Into::into).collect();
    match items.pop() {
        None => String::new(),
        Some(only) if items.is_empty() => only,
        Some(end) => format!("{} {last} {end}", items.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_names_its_place_and_what_is_known_there() {
        let rules = Rules::all().next().expect("a rule set");
        let mut notes = Notes::default();
        let trouble = Trouble::Unknown { given: "9".to_owned(), known: &["1", "2", "3"] };
        note(rules, &SiteField::WindZone.with(trouble), &mut notes);
        let ways: &[&[SiteField]] =
            &[&[SiteField::SnowRegion, SiteField::SnowZone], &[SiteField::GroundSnow]];
        note(rules, &SiteField::Snow.with(Trouble::ChooseOne { ways }), &mut notes);
        let said: Vec<(&str, &str)> =
            notes.faults.iter().map(|f| (f.pointer.as_str(), f.detail.as_str())).collect();
        let zone = format!(
            "There is no wind zone \"9\" in annex {}; there are 1, 2 and 3.",
            rules.annex()
        );
        let choose = "Give exactly one of these: site.snow.region with site.snow.zone or \
                      site.snow.ground_load_kn_per_m2.";
        assert_eq!(said, [("/site/wind/zone", &*zone), ("/site/snow", choose)]);
    }
}
