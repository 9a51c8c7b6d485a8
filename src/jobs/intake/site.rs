//! Rules and site: which annex, how much snow, how much wind.

use crate::actions::snow::SnowSite;
use crate::actions::wind::{Net, WindSite};
use crate::model::fault::FaultCode;
use crate::model::roof::RoofForm;
use crate::model::site::{
    ClimateRegion as WireRegion, ConsequenceClass as WireClass, RulesChoice, Site as WireSite,
    TerrainCategory as WireTerrain, WindModel, WindSetting,
};
use crate::rules::annex::{self, Annex, GroundSnowRule, WindPressureRule, de};
use crate::rules::en1990_2002::{ConsequenceClass, consequence_factor};
use crate::rules::en1991_1_3_2003::{ClimateRegion, annex_c_ground_load};
use crate::rules::en1991_1_4_2005::coefficients::Coefficients;
use crate::rules::en1991_1_4_2005::velocity::{self, TerrainCategory};
use crate::units::{Length, Pressure, Speed};

use super::{Common, Notes};

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
pub fn site(request: &Common<'_>, annex: &'static Annex, notes: &mut Notes) -> Option<Site> {
    let wire = &request.site;
    let altitude = Length::from_m(wire.altitude_m);
    let snow = snow(wire, annex, altitude, notes);
    let wind = wind(request, annex, altitude, notes);
    if request.roof.form != RoofForm::Duopitch {
        notes.fault(
            "/roof/form",
            FaultCode::NotCovered,
            "Wind zones are computed for duopitch roofs only, so far.",
        );
    }
    let net = net(wire, notes);
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

fn snow(wire: &WireSite, annex: &Annex, altitude: Length, notes: &mut Notes) -> Option<SnowSite> {
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

fn wind(
    request: &Common<'_>,
    annex: &Annex,
    altitude: Length,
    notes: &mut Notes,
) -> Option<WindSite> {
    let wire = &request.site.wind;
    let height = Length::from_m(request.roof.ridge_height_m);
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
        return wind_by_zone(request, annex, height, altitude, notes);
    }
    wind_by_velocity(request, annex, height, notes)
}

fn wind_by_zone(
    request: &Common<'_>,
    annex: &Annex,
    height: Length,
    altitude: Length,
    notes: &mut Notes,
) -> Option<WindSite> {
    let wire = &request.site.wind;
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
    request: &Common<'_>,
    annex: &Annex,
    height: Length,
    notes: &mut Notes,
) -> Option<WindSite> {
    let wire = &request.site.wind;
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

fn net(wire: &WireSite, notes: &mut Notes) -> Option<Net> {
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
