//! Peak pressure: given, by a country's zone, or by velocity and terrain; and the coefficients.

use crate::actions::wind::{Net, WindSite};
use crate::codes::eurocode::annex::{Annex, WindPressureRule, de};
use crate::codes::eurocode::en1991_1_4_2005::coefficients::Coefficients;
use crate::codes::eurocode::en1991_1_4_2005::velocity::{self, TerrainCategory};
use crate::model::fault::FaultCode;
use crate::model::site::{
    Site as WireSite, TerrainCategory as WireTerrain, WindModel, WindSetting,
};
use crate::service::intake::Notes;
use crate::service::intake::actions::Place;
use crate::units::{Length, Pressure, Speed};

pub(super) fn wind(
    place: &Place<'_>,
    annex: &Annex,
    altitude: Length,
    notes: &mut Notes,
) -> Option<WindSite> {
    let wire = &place.site.wind;
    let height = Length::from_m(place.ridge_height_m);
    let by_zone = wire.zone.is_some() || wire.setting.is_some();
    let by_velocity = wire.basic_velocity_m_per_s.is_some() || wire.terrain_category.is_some();
    let by_pressure = wire.peak_pressure_kn_per_m2.is_some();
    if usize::from(by_zone) + usize::from(by_velocity) + usize::from(by_pressure) != 1 {
        notes.fault(
            "/site/wind",
            FaultCode::ChooseOne,
            "Give one of: zone with setting, basic_velocity_m_per_s with terrain_category, or \
             peak_pressure_kn_per_m2.",
        );
        return None;
    }
    if let Some(peak) = wire.peak_pressure_kn_per_m2 {
        return Some(WindSite {
            source: "given by the caller".to_owned(),
            basic: None,
            peak: Pressure::from_kn_per_m2(peak),
        });
    }
    if by_zone {
        return wind_by_zone(place, annex, height, altitude, notes);
    }
    wind_by_velocity(place, annex, height, notes)
}

fn wind_by_zone(
    place: &Place<'_>,
    annex: &Annex,
    height: Length,
    altitude: Length,
    notes: &mut Notes,
) -> Option<WindSite> {
    let wire = &place.site.wind;
    if annex.wind_pressure != WindPressureRule::GermanTable {
        notes.fault(
            "/site/wind/zone",
            FaultCode::Contradiction,
            format!(
                "Annex {} has no wind zones; give basic_velocity_m_per_s with terrain_category.",
                annex.code
            ),
        );
        return None;
    }
    if wire.orography_factor.is_some() {
        notes.fault(
            "/site/wind/orography_factor",
            FaultCode::Contradiction,
            "The table of pressures by zone leaves no room for orography; give \
             peak_pressure_kn_per_m2 for an exposed site.",
        );
    }
    if wire.setting.is_none() {
        notes.fault(
            "/site/wind/setting",
            FaultCode::Missing,
            "A wind zone needs its setting: inland, coast or north_sea_islands.",
        );
    }
    let zone = wire.zone.as_deref().map(|zone| (zone, de::WindZone::parse(zone)));
    match zone {
        None => {
            notes.fault("/site/wind/zone", FaultCode::Missing, "A setting needs its wind zone.");
        }
        Some((zone, None)) => notes.fault(
            "/site/wind/zone",
            FaultCode::UnknownValue,
            format!("There is no wind zone \"{zone}\" in annex DE; there are 1, 2, 3 and 4."),
        ),
        Some((_, Some(_))) => {}
    }
    let (name, known) = zone?;
    let (known, setting) = (known?, wire.setting?);
    let setting = match setting {
        WindSetting::Inland => de::Setting::Inland,
        WindSetting::Coast => de::Setting::Coast,
        WindSetting::NorthSeaIslands => de::Setting::NorthSeaIslands,
    };
    match de::peak_pressure(known, setting, height, altitude) {
        Ok(peak) => Some(WindSite {
            source: format!("annex DE, zone {name}, ridge at {} m", height.m()),
            basic: Some(velocity::velocity_pressure(annex.air_density, de::basic_velocity(known))),
            peak,
        }),
        Err(silent) => {
            notes.fault(
                if silent.condition.contains("altitude") {
                    "/site/altitude_m"
                } else if silent.condition.contains("setting") {
                    "/site/wind/setting"
                } else {
                    "/roof/ridge_height_m"
                },
                FaultCode::NotCovered,
                format!("{silent}; give site.wind.peak_pressure_kn_per_m2."),
            );
            None
        }
    }
}

fn wind_by_velocity(
    place: &Place<'_>,
    annex: &Annex,
    height: Length,
    notes: &mut Notes,
) -> Option<WindSite> {
    let wire = &place.site.wind;
    if annex.wind_pressure == WindPressureRule::GermanTable {
        notes.fault(
            "/site/wind/basic_velocity_m_per_s",
            FaultCode::Contradiction,
            "Annex DE changes the pressure profile of the standard; give zone with setting, or \
             peak_pressure_kn_per_m2.",
        );
        return None;
    }
    for (missing, pointer) in [
        (wire.basic_velocity_m_per_s.is_none(), "/site/wind/basic_velocity_m_per_s"),
        (wire.terrain_category.is_none(), "/site/wind/terrain_category"),
    ] {
        if missing {
            notes.fault(
                pointer,
                FaultCode::Missing,
                "Basic velocity and terrain category belong together.",
            );
        }
    }
    let orography = notes.assume(
        "/site/wind/orography_factor",
        wire.orography_factor,
        1.0,
        "1.0",
        "flat terrain, EN 1991-1-4 4.3.3",
    );
    let (velocity_m_per_s, category) = (wire.basic_velocity_m_per_s?, wire.terrain_category?);
    let category = match category {
        WireTerrain::Zero => TerrainCategory::Zero,
        WireTerrain::I => TerrainCategory::I,
        WireTerrain::II => TerrainCategory::Ii,
        WireTerrain::III => TerrainCategory::Iii,
        WireTerrain::IV => TerrainCategory::Iv,
    };
    let pressure = velocity::peak_pressure(
        Speed::from_m_per_s(velocity_m_per_s),
        category,
        height,
        orography,
        annex.air_density,
    );
    match pressure {
        Ok(pressure) => Some(WindSite {
            source: format!(
                "EN 1991-1-4 4.5, v_b {velocity_m_per_s} m/s, ridge at {} m",
                height.m()
            ),
            basic: Some(pressure.q_b),
            peak: pressure.q_p,
        }),
        Err(silent) => {
            notes.fault("/roof/ridge_height_m", FaultCode::NotCovered, silent.to_string());
            None
        }
    }
}

pub(super) fn net(wire: &WireSite, notes: &mut Notes) -> Option<Net> {
    let model = notes.assume(
        "/site/wind/model",
        wire.wind.model,
        WindModel::RoofSurface,
        "roof_surface",
        "a module takes the full external coefficient of the zone it lies in: no published \
         reduction for open-edged arrays is confirmed here",
    );
    match (model, wire.wind.net_coefficients) {
        (WindModel::RoofSurface, None) => Some(Net::RoofSurface),
        (WindModel::Given, Some(given)) => {
            Some(Net::Given(Coefficients { suction: given.suction, pressure: given.pressure }))
        }
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
