//! Snow on the ground: given, by a country's zone, or by a climatic region.

use crate::actions::snow::SnowSite;
use crate::codes::eurocode::annex::{Annex, GroundSnowRule, de};
use crate::codes::eurocode::en1991_1_3_2003::{ClimateRegion, annex_c_ground_load};
use crate::model::fault::FaultCode;
use crate::model::site::{ClimateRegion as WireRegion, Site as WireSite};
use crate::service::intake::Notes;
use crate::units::{Length, Pressure};

pub(super) fn snow(
    wire: &WireSite,
    annex: &Annex,
    altitude: Length,
    notes: &mut Notes,
) -> Option<SnowSite> {
    let ground = ground_snow(wire, annex, altitude, notes);
    let exposure = notes.assume(
        "/site/exposure_factor",
        wire.exposure_factor,
        1.0,
        "1.0",
        "normal topography, EN 1991-1-3 Table 5.1",
    );
    let thermal = notes.assume(
        "/site/thermal_factor",
        wire.thermal_factor,
        1.0,
        "1.0",
        "no melting from below, EN 1991-1-3 5.2(8)",
    );
    let held = notes.assume(
        "/site/snow_held",
        wire.snow_held,
        false,
        "false",
        "no guard or parapet below the array; with one the shape coefficient is at least 0.8",
    );
    let exceptional = notes.assume(
        "/site/snow/exceptional",
        wire.snow.exceptional,
        false,
        "false",
        "exceptional snow is considered where the caller says the site calls for it",
    );
    let (ground, source) = ground?;
    Some(SnowSite {
        source,
        ground,
        exceptional: exceptional.then_some(annex.exceptional_snow_factor),
        exposure,
        thermal,
        held,
    })
}

fn ground_snow(
    wire: &WireSite,
    annex: &Annex,
    altitude: Length,
    notes: &mut Notes,
) -> Option<(Pressure, String)> {
    let snow = &wire.snow;
    match (snow.ground_load_kn_per_m2, snow.zone.as_deref()) {
        (Some(load), None) if snow.region.is_none() => {
            Some((Pressure::from_kn_per_m2(load), "given by the caller".to_owned()))
        }
        (None, Some(zone)) => match annex.ground_snow {
            GroundSnowRule::GermanZones => german_snow(snow.region, zone, altitude, notes),
            GroundSnowRule::AnnexC => annex_c_snow(snow.region, zone, altitude, notes),
        },
        _ => {
            notes.fault(
                "/site/snow",
                FaultCode::ChooseOne,
                match annex.ground_snow {
                    GroundSnowRule::GermanZones => {
                        "Give either ground_load_kn_per_m2 or zone, and no region."
                    }
                    GroundSnowRule::AnnexC => {
                        "Give either ground_load_kn_per_m2 or region with zone."
                    }
                },
            );
            None
        }
    }
}

fn german_snow(
    region: Option<WireRegion>,
    zone: &str,
    altitude: Length,
    notes: &mut Notes,
) -> Option<(Pressure, String)> {
    if region.is_some() {
        notes.fault(
            "/site/snow/region",
            FaultCode::Contradiction,
            "Annex DE has zones of its own; a region belongs to annex EN.",
        );
        return None;
    }
    let Some(known) = de::SnowZone::parse(zone) else {
        notes.fault(
            "/site/snow/zone",
            FaultCode::UnknownValue,
            format!("There is no snow zone \"{zone}\" in annex DE; there are 1, 1a, 2, 2a and 3."),
        );
        return None;
    };
    match de::ground_snow_load(known, altitude.max(Length::ZERO)) {
        Ok(load) => Some((load, format!("annex DE, zone {zone}, altitude {} m", altitude.m()))),
        Err(silent) => {
            notes.fault(
                "/site/altitude_m",
                FaultCode::NotCovered,
                format!("{silent}; give site.snow.ground_load_kn_per_m2."),
            );
            None
        }
    }
}

fn annex_c_snow(
    region: Option<WireRegion>,
    zone: &str,
    altitude: Length,
    notes: &mut Notes,
) -> Option<(Pressure, String)> {
    let Some(region) = region else {
        notes.fault(
            "/site/snow/region",
            FaultCode::Missing,
            "A zone of EN 1991-1-3 Annex C needs its region.",
        );
        return None;
    };
    let region = match region {
        WireRegion::Alpine => ClimateRegion::Alpine,
        WireRegion::CentralEast => ClimateRegion::CentralEast,
        WireRegion::Greece => ClimateRegion::Greece,
        WireRegion::Iberian => ClimateRegion::Iberian,
        WireRegion::Mediterranean => ClimateRegion::Mediterranean,
        WireRegion::CentralWest => ClimateRegion::CentralWest,
        WireRegion::SwedenFinland => ClimateRegion::SwedenFinland,
        WireRegion::UkIreland => ClimateRegion::UkIreland,
    };
    let Ok(number) = zone.parse::<f64>() else {
        notes.fault(
            "/site/snow/zone",
            FaultCode::UnknownValue,
            format!("\"{zone}\" is not a zone number of EN 1991-1-3 Annex C."),
        );
        return None;
    };
    match annex_c_ground_load(region, number, altitude.max(Length::ZERO)) {
        Ok(load) => {
            notes.remarks.snow_from_memory = true;
            let source = format!("EN 1991-1-3 Annex C, zone {zone}, altitude {} m", altitude.m());
            Some((load, source))
        }
        Err(silent) => {
            notes.fault(
                "/site/snow/zone",
                FaultCode::NotCovered,
                format!("{silent}; give ground_load_kn_per_m2 instead."),
            );
            None
        }
    }
}
