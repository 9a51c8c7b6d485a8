//! Snow on the ground, as the request describes it, and how it lies on the roof.

use crate::assessment::Assumed;
use crate::codes::vocabulary::{
    Evidence, Exceptional, GroundSnow, PlaceOnMaps, SnowConditions, SnowSite, Stated,
};
use crate::codes::{Code, Rules};
use crate::service::intake::Notes;
use crate::service::intake::place::Place;
use crate::units::{Length, Pressure};
use crate::wire::roof::RoofForm;
use crate::wire::site::{ClimateRegion, Site as WireSite};

use super::{faults, zones};

pub(super) fn snow(
    place: &Place<'_>,
    maps: Option<(Rules, Option<&PlaceOnMaps>)>,
    altitude: Length,
    notes: &mut Notes,
) -> (Option<GroundSnow>, SnowConditions) {
    let wire = place.site;
    let ground = maps.and_then(|maps| ground_snow(wire, maps, altitude, notes));
    let exposure =
        notes.assume("/site/exposure_factor", wire.exposure_factor, 1.0, Assumed::Exposure);
    let thermal = notes.assume("/site/thermal_factor", wire.thermal_factor, 1.0, Assumed::Thermal);
    let held = notes.assume("/site/snow_held", wire.snow_held, place.holds_snow, |held| {
        if held { Assumed::SnowHeld } else { Assumed::SnowNotHeld }
    });
    // Some maps say, zone by zone, what other countries leave to be said.
    let settled = ground.as_ref().and_then(|ground| match ground.exceptional {
        Exceptional::NotSaid => wire.snow.exceptional,
        Exceptional::None => Some(false),
        Exceptional::Considered(_) => Some(true),
    });
    let said = settled.or(wire.snow.exceptional);
    notes.remarks.snow.exceptional_unasked = said.is_none();
    let exceptional =
        notes.assume("/site/snow/exceptional", said, false, |_| Assumed::NoExceptionalSnow);
    let conditions = SnowConditions {
        exceptional,
        exposure: Stated { value: exposure, by_caller: wire.exposure_factor.is_some() },
        thermal: Stated { value: thermal, by_caller: wire.thermal_factor.is_some() },
        held,
        over_ridge: place.form != RoofForm::Monopitch,
    };
    (ground, conditions)
}

fn ground_snow(
    wire: &WireSite,
    (rules, maps): (Rules, Option<&PlaceOnMaps>),
    altitude: Length,
    notes: &mut Notes,
) -> Option<GroundSnow> {
    let load_known = wire.snow.ground_load_kn_per_m2.is_some();
    let given = wire.snow.zone.as_deref();
    let zone = zones::of_snow(given, !load_known, (maps, rules), notes).ok()?;
    let described = SnowSite {
        zone: zone.name,
        region: wire.snow.region.map(region_name),
        load: wire.snow.ground_load_kn_per_m2.map(Pressure::from_kn_per_m2),
        place: maps,
        exceptional: wire.snow.exceptional,
        exceptional_load: wire.snow.exceptional_load_kn_per_m2.map(Pressure::from_kn_per_m2),
        exposure: wire.exposure_factor,
        thermal: wire.thermal_factor,
        altitude,
    };
    match rules.ground_snow(&described) {
        Ok(ground) => {
            let ground = GroundSnow { evidence: ground.evidence.max(zone.evidence), ..ground };
            // Of the table of a country the findings on its rules tell.
            let annex_c = described.region.is_some();
            notes.remarks.snow.from_memory |= annex_c && ground.evidence == Evidence::FromMemory;
            Some(ground)
        }
        Err(found) => {
            for fault in &found {
                faults::note(rules, fault, notes);
            }
            None
        }
    }
}

/// Name of a region on the map.
const fn region_name(region: ClimateRegion) -> &'static str {
    match region {
        ClimateRegion::Alpine => "alpine",
        ClimateRegion::CentralEast => "central_east",
        ClimateRegion::Greece => "greece",
        ClimateRegion::Iberian => "iberian",
        ClimateRegion::Mediterranean => "mediterranean",
        ClimateRegion::CentralWest => "central_west",
        ClimateRegion::SwedenFinland => "sweden_finland",
        ClimateRegion::UkIreland => "uk_ireland",
    }
}
