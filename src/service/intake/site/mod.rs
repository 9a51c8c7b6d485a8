//! Rules and site: which family of codes, which annex, how much snow, how much wind.

mod faults;
mod snow;
mod wind;
mod zones;

use crate::assessment::Assumed;
use crate::codes::eurocode::{Eurocode, annex};
use crate::codes::vocabulary::{
    ConsequenceClass, GroundSnow, NetCoefficients, PeakPressure, SnowConditions,
};
use crate::codes::{Code, Rules};
use crate::units::Length;
use crate::wire::fault::FaultCode;
use crate::wire::site::{ConsequenceClass as WireClass, RulesChoice, RulesFamily};

use super::Notes;
use super::place::Place;

pub use faults::note as note_fault;
pub use wind::FixingArea;

/// The site, resolved.
pub struct Site {
    /// Snow on the ground.
    pub ground_snow: GroundSnow,
    /// How it lies on the roof.
    pub snow: SnowConditions,
    /// Wind.
    pub wind: PeakPressure,
    /// Coefficients on modules.
    pub net: NetCoefficients,
    /// Area at which coefficients on fixings are read.
    pub fixing_area: FixingArea,
    /// Consequence of failure.
    pub consequence: ConsequenceClass,
    /// Altitude.
    pub altitude: Length,
}

/// The rules asked for: the one place that knows which families there are.
pub fn rules(choice: &RulesChoice, notes: &mut Notes) -> Option<Rules> {
    let found = match choice.family {
        RulesFamily::Eurocode => Eurocode::with_annex(&choice.annex).map(Rules::Eurocode),
    };
    let Some(rules) = found else {
        let known = match choice.family {
            RulesFamily::Eurocode => faults::joined(annex::ALL.iter().map(|a| a.code), "and"),
        };
        notes.fault(
            "/rules/annex",
            FaultCode::UnknownRules,
            format!(
                "There is no annex \"{}\"; there are {known}. Elsewhere the recommended values, EN, take \
                 site.snow.ground_load_kn_per_m2 and site.wind.basic_velocity_m_per_s with \
                 site.wind.terrain_category.",
                choice.annex,
            ),
        );
        return None;
    };
    Some(in_revision(rules, choice.revision.as_deref(), notes))
}

/// The rules in the revision asked for, the newest where none is.
fn in_revision(rules: Rules, asked: Option<&str>, notes: &mut Notes) -> Rules {
    let Some(asked) = asked else {
        notes.assume("/rules/revision", None, String::new(), |_| {
            Assumed::Revision(rules.revision())
        });
        return rules;
    };
    let Some(found) = rules.revisions().find(|rules| rules.revision() == asked) else {
        let known: Vec<&str> = rules.revisions().map(|rules| rules.revision()).collect();
        notes.fault(
            "/rules/revision",
            FaultCode::UnknownRules,
            format!(
                "There is no revision \"{asked}\" of annex {}; there are {}.",
                rules.annex(),
                known.join(", ")
            ),
        );
        return rules;
    };
    if found.revision() != rules.revision() {
        notes.remarks.earlier_revision = Some([found.revision(), rules.revision()]);
    }
    found
}

/// The recommended values: what is looked at under no particular rules is looked at under these, so that
/// its faults are told together with that of the rules.
pub fn recommended() -> Rules {
    Rules::Eurocode(Eurocode::new(annex::RECOMMENDED))
}

/// Snow, wind and class of a site. Without rules its snow and wind cannot be read, and everything else
/// about it is.
pub fn site(place: &Place<'_>, rules: Option<Rules>, notes: &mut Notes) -> Option<Site> {
    let wire = place.site;
    let altitude = Length::from_m(wire.altitude_m);
    // A place that nobody knows is a fault by itself: what it would have said is not missed besides.
    let maps = rules.and_then(|rules| {
        let maps = zones::on_maps(wire.place.as_deref(), rules, notes).ok()?;
        Some((rules, maps))
    });
    let maps = maps.as_ref().map(|(rules, maps)| (*rules, maps.as_ref()));
    let (ground_snow, snow) = snow::snow(place, maps, altitude, notes);
    let wind = maps.and_then(|maps| wind::wind(place, maps, altitude, notes));
    let net = wind::net(wire, notes);
    let fixing_area = wind::fixing_area(wire, notes);
    let class =
        notes.assume("/site/consequence_class", wire.consequence_class, WireClass::CC2, |_| {
            Assumed::OrdinaryBuilding
        });
    let consequence = match class {
        WireClass::CC1 => ConsequenceClass::Low,
        WireClass::CC2 => ConsequenceClass::Medium,
        WireClass::CC3 => ConsequenceClass::High,
    };
    Some(Site {
        ground_snow: ground_snow?,
        snow,
        wind: wind?,
        net: net?,
        fixing_area: fixing_area?,
        consequence,
        altitude,
    })
}
