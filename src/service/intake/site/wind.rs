//! Peak pressure, as the request describes the wind of its site; and the coefficients.

use crate::assessment::Assumed;
use crate::codes::vocabulary::{Coefficients, NetCoefficients, PeakPressure, WindSite};
use crate::codes::{Code, Rules};
use crate::model::fault::FaultCode;
use crate::model::site::{Site as WireSite, TerrainCategory, WindModel, WindSetting};
use crate::service::intake::Notes;
use crate::service::intake::place::Place;
use crate::units::{Length, Pressure, Speed};

use super::faults;

pub(super) fn wind(
    place: &Place<'_>,
    rules: Rules,
    altitude: Length,
    notes: &mut Notes,
) -> Option<PeakPressure> {
    let wire = &place.site.wind;
    // Only a profile over terrain asks for it.
    let orography = if wire.basic_velocity_m_per_s.is_some() {
        let pointer = "/site/wind/orography_factor";
        Some(notes.assume(pointer, wire.orography_factor, 1.0, Assumed::FlatTerrain))
    } else {
        wire.orography_factor
    };
    let described = WindSite {
        zone: wire.zone.as_deref(),
        setting: wire.setting.map(setting_name),
        basic_velocity: wire.basic_velocity_m_per_s.map(Speed::from_m_per_s),
        terrain: wire.terrain_category.map(category_name),
        orography,
        peak: wire.peak_pressure_kn_per_m2.map(Pressure::from_kn_per_m2),
        height: Length::from_m(place.ridge_height_m),
        altitude,
    };
    match rules.peak_pressure(&described) {
        Ok(peak) => Some(peak),
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
        TerrainCategory::IV => "IV",
    }
}

pub(super) fn net(wire: &WireSite, notes: &mut Notes) -> Option<NetCoefficients> {
    let model = notes.assume("/site/wind/model", wire.wind.model, WindModel::RoofSurface, |_| {
        Assumed::RoofSurface
    });
    match (model, wire.wind.net_coefficients) {
        (WindModel::RoofSurface, None) => Some(NetCoefficients::RoofSurface),
        (WindModel::Given, Some(given)) => Some(NetCoefficients::Given(Coefficients {
            suction: given.suction,
            pressure: given.pressure,
        })),
        (WindModel::RoofSurface, Some(_)) => {
            notes.fault(
                "/site/wind/net_coefficients",
                FaultCode::Contradiction,
                "Net coefficients are used with model \"given\" only.",
            );
            None
        }
        (WindModel::Given, None) => {
            notes.fault(
                "/site/wind/net_coefficients",
                FaultCode::Missing,
                "Model \"given\" needs the net coefficients.",
            );
            None
        }
    }
}
