//! Rules and site: which annex, how much snow, how much wind.

mod snow;
mod wind;

use crate::actions::snow::SnowSite;
use crate::actions::wind::{Net, WindSite};
use crate::codes::eurocode::annex::{self, Annex};
use crate::codes::eurocode::en1990_2002::{ConsequenceClass, consequence_factor};
use crate::model::fault::FaultCode;
use crate::model::roof::RoofForm;
use crate::model::site::{ConsequenceClass as WireClass, RulesChoice};
use crate::units::Length;

use super::Notes;
use super::actions::Place;

/// The site, resolved.
pub struct Site {
    /// Snow.
    pub snow: SnowSite,
    /// Wind.
    pub wind: WindSite,
    /// Coefficients on modules.
    pub net: Net,
    /// `K_FI`.
    pub k_fi: f64,
    /// Altitude.
    pub altitude: Length,
}

/// The annex asked for.
pub fn annex(choice: &RulesChoice, notes: &mut Notes) -> Option<&'static Annex> {
    let Some(annex) = annex::find(&choice.annex) else {
        let known: Vec<&str> = annex::ALL.iter().map(|a| a.code).collect();
        notes.fault(
            "/rules/annex",
            FaultCode::UnknownRules,
            format!("There is no annex \"{}\"; there are {}.", choice.annex, known.join(", ")),
        );
        return None;
    };
    if let Some(revision) = choice.revision.as_deref().filter(|r| *r != annex.revision) {
        notes.fault(
            "/rules/revision",
            FaultCode::UnknownRules,
            format!(
                "Revision \"{revision}\" of annex {} is not available; this service has {}.",
                annex.code, annex.revision
            ),
        );
    }
    notes.assume(
        "/rules/revision",
        choice.revision.clone(),
        String::new(),
        annex.revision,
        "the newest",
    );
    Some(annex)
}

/// Snow, wind and class of a site.
pub fn site(place: &Place<'_>, annex: &'static Annex, notes: &mut Notes) -> Option<Site> {
    let wire = place.site;
    let altitude = Length::from_m(wire.altitude_m);
    let snow = snow::snow(wire, annex, altitude, notes);
    let wind = wind::wind(place, annex, altitude, notes);
    if place.form != RoofForm::Duopitch {
        notes.fault(
            "/roof/form",
            FaultCode::NotCovered,
            "Wind zones are computed for duopitch roofs only, so far.",
        );
    }
    let net = wind::net(wire, notes);
    let class = notes.assume(
        "/site/consequence_class",
        wire.consequence_class,
        WireClass::CC2,
        "CC2",
        "ordinary buildings",
    );
    let k_fi = consequence_factor(match class {
        WireClass::CC1 => ConsequenceClass::Cc1,
        WireClass::CC2 => ConsequenceClass::Cc2,
        WireClass::CC3 => ConsequenceClass::Cc3,
    });
    Some(Site { snow: snow?, wind: wind?, net: net?, k_fi, altitude })
}
