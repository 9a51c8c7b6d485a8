//! Peak pressure, as the request describes the wind of its site; the coefficients, and the area they
//! are read at.

use crate::assessment::Assumed;
use crate::codes::vocabulary::{
    Coefficients, NetCoefficients, PeakPressure, PlaceOnMaps, WindSite,
};
use crate::codes::{Code, Rules};
use crate::service::intake::Notes;
use crate::service::intake::place::Place;
use crate::units::{Area, Length, Pressure, Speed};
use crate::wire::fault::FaultCode;
use crate::wire::site::{
    Equalisation, LoadedAreaBasis, Site as WireSite, TerrainCategory, WindModel, WindSetting,
};

use super::{faults, zones};

pub(super) fn wind(
    place: &Place<'_>,
    (rules, maps): (Rules, Option<&PlaceOnMaps>),
    altitude: Length,
    notes: &mut Notes,
) -> Option<PeakPressure> {
    let wire = &place.site.wind;
    let otherwise = wire.basic_velocity_m_per_s.is_some() || wire.peak_pressure_kn_per_m2.is_some();
    let zone = zones::of_wind(wire.zone.as_deref(), !otherwise, (maps, rules), notes).ok()?;
    // Only a profile over terrain asks for it.
    let over_terrain = wire.basic_velocity_m_per_s.is_some() || wire.terrain_category.is_some();
    let orography = if over_terrain {
        let pointer = "/site/wind/orography_factor";
        Some(notes.assume(pointer, wire.orography_factor, 1.0, Assumed::FlatTerrain))
    } else {
        wire.orography_factor
    };
    let described = WindSite {
        zone: zone.name,
        setting: wire.setting.map(setting_name),
        basic_velocity: wire.basic_velocity_m_per_s.map(Speed::from_m_per_s),
        terrain: wire.terrain_category.map(category_name),
        shore_distance: wire.shore_distance_km.map(|km| Length::from_m(km * 1000.0)),
        orography,
        peak: wire.peak_pressure_kn_per_m2.map(Pressure::from_kn_per_m2),
        height: Length::from_m(place.ridge_height_m),
        altitude,
    };
    match rules.peak_pressure(&described) {
        Ok(peak) => Some(PeakPressure { evidence: peak.evidence.max(zone.evidence), ..peak }),
        Err(found) => {
            for fault in &found {
                faults::note(rules, fault, notes);
            }
            None
        }
    }
}

/// Name of a setting in the annexes that distinguish them.
const fn setting_name(setting: WindSetting) -> &'static str {
    match setting {
        WindSetting::Inland => "inland",
        WindSetting::Coast => "coast",
        WindSetting::NorthSeaIslands => "north_sea_islands",
    }
}

/// Name of a terrain category.
const fn category_name(category: TerrainCategory) -> &'static str {
    match category {
        TerrainCategory::Zero => "0",
        TerrainCategory::I => "I",
        TerrainCategory::II => "II",
        TerrainCategory::III => "III",
        TerrainCategory::IIIa => "IIIa",
        TerrainCategory::IIIb => "IIIb",
        TerrainCategory::IV => "IV",
        TerrainCategory::V => "V",
    }
}

pub(super) fn net(wire: &WireSite, notes: &mut Notes) -> Option<NetCoefficients> {
    let model = notes.assume("/site/wind/model", wire.wind.model, WindModel::RoofSurface, |_| {
        Assumed::RoofSurface
    });
    let wind = &wire.wind;
    let given = needed(
        ("net_coefficients", "net coefficients"),
        wind.net_coefficients.as_ref(),
        (WindModel::Given, model),
        notes,
    );
    let equalisation = needed(
        ("equalisation", "equalisation"),
        wind.equalisation.as_ref(),
        (WindModel::Equalised, model),
        notes,
    );
    match model {
        WindModel::RoofSurface => Some(NetCoefficients::RoofSurface),
        WindModel::Equalised => equalised(equalisation?, notes),
        WindModel::Given => given.map(|given| {
            NetCoefficients::Given(Coefficients {
                suction: given.suction,
                pressure: given.pressure,
            })
        }),
    }
}

/// A member that one of the models needs and none of the others has a use for.
fn needed<'a, T>(
    (member, spoken): (&str, &str),
    given: Option<&'a T>,
    (of, model): (WindModel, WindModel),
    notes: &mut Notes,
) -> Option<&'a T> {
    let pointer = format!("/site/wind/{member}");
    let name = model_name(of);
    if of == model && given.is_none() {
        let detail = format!("Model \"{name}\" needs the {spoken}.");
        notes.fault(pointer, FaultCode::Missing, detail);
    } else if of != model && given.is_some() {
        let detail = format!("Only model \"{name}\" has a use for the {spoken}.");
        notes.fault(pointer, FaultCode::Contradiction, detail);
    }
    given
}

const fn model_name(model: WindModel) -> &'static str {
    match model {
        WindModel::RoofSurface => "roof_surface",
        WindModel::Equalised => "equalised",
        WindModel::Given => "given",
    }
}

fn equalised(given: &Equalisation, notes: &mut Notes) -> Option<NetCoefficients> {
    const POINTER: &str = "/site/wind/equalisation";
    if given.evidence.trim().is_empty() {
        let pointer = format!("{POINTER}/evidence");
        notes.fault(pointer, FaultCode::Missing, "The evidence says nothing.");
        return None;
    }
    let (suction, pressure) = (given.suction_factor, given.pressure_factor);
    let evidence = given.evidence.clone();
    notes.note(POINTER, Assumed::Equalised { suction, pressure, evidence });
    Some(NetCoefficients::Equalised { suction, pressure })
}

/// Area at which the coefficients on fixings are read.
#[derive(Debug, Clone)]
pub enum FixingArea {
    /// The area of a module.
    Module,
    /// This area, and the caller's reason where it is the caller's.
    Fixing(Area, Option<String>),
}

/// EN 1991-1-4 7.2.1: `c_pe,1` is meant for small elements and fixings of 1 m² or less.
const FIXING: Area = Area::from_m2(1.0);

pub(super) fn fixing_area(wire: &WireSite, notes: &mut Notes) -> Option<FixingArea> {
    const POINTER: &str = "/site/wind/loaded_area";
    let pointer = |member: &str| format!("{POINTER}/{member}");
    let given_net = wire.wind.model == Some(WindModel::Given);
    let Some(given) = &wire.wind.loaded_area else {
        if !given_net {
            notes.note(POINTER, Assumed::FixingArea(FIXING));
        }
        return Some(FixingArea::Fixing(FIXING, None));
    };
    if given_net {
        notes.fault(
            POINTER,
            FaultCode::Contradiction,
            "Given net coefficients are used as they are: they are read at no loaded area.",
        );
        return None;
    }
    let own = given.basis == LoadedAreaBasis::Given;
    let members = [("area_m2", given.area_m2.is_some()), ("reason", given.reason.is_some())];
    for (member, _) in members.into_iter().filter(|(_, there)| *there != own) {
        if own {
            let detail = format!("Basis \"given\" needs the {}.", spoken(member));
            notes.fault(pointer(member), FaultCode::Missing, detail);
        } else {
            let detail = format!("The {} goes with basis \"given\" only.", spoken(member));
            notes.fault(pointer(member), FaultCode::Contradiction, detail);
        }
    }
    if given.reason.as_ref().is_some_and(|reason| reason.trim().is_empty()) {
        notes.fault(pointer("reason"), FaultCode::Missing, "The reason says nothing.");
    }
    match given.basis {
        LoadedAreaBasis::Fixing => Some(FixingArea::Fixing(FIXING, None)),
        LoadedAreaBasis::Module => Some(FixingArea::Module),
        LoadedAreaBasis::Given => {
            Some(FixingArea::Fixing(Area::from_m2(given.area_m2?), given.reason.clone()))
        }
    }
}

/// A member as a sentence names it.
fn spoken(member: &str) -> &str {
    if member == "area_m2" { "area" } else { member }
}
