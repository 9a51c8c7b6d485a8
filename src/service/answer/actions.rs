//! The actions as the answer shows them.

use crate::actions::Actions as Acting;
use crate::actions::combinations::Combination;
use crate::actions::wind::Wind;
use crate::codes::eurocode::en1990_2002 as en1990;
use crate::codes::eurocode::en1991_1_4_2005::duopitch::Direction;
use crate::model::actions::{
    Actions, CombinationActions, Situation, SnowActions, WeightActions, WindActions, WindDirection,
    WindZone,
};
use crate::units::Pressure;

use super::rounding::{factor, load, mm};

/// Snow, wind, weight and combinations.
pub fn actions(actions: &Acting) -> Actions {
    let snow = &actions.snow;
    let kn = |p: Pressure| load(p.kn_per_m2());
    Actions {
        snow: SnowActions {
            ground_load_source: snow.site.source.clone(),
            ground_load_kn_per_m2: kn(snow.site.ground),
            shape_factor: factor(snow.shape),
            exposure_factor: factor(snow.site.exposure),
            thermal_factor: factor(snow.site.thermal),
            roof_load_kn_per_m2: kn(snow.roof),
            normal_kn_per_m2: kn(snow.on_slope.normal),
            slope_kn_per_m2: kn(snow.on_slope.slope),
            exceptional_ground_load_kn_per_m2: snow.exceptional_ground.map(kn),
            guard_force_kn_per_m: load(snow.guard.kn_per_m()),
        },
        wind: wind(&actions.wind),
        weight: WeightActions {
            module_kn_per_m2: load(actions.weight.module.kn() / actions.wind.loaded_area.m2()),
            clamps_kn_per_module: load(2.0 * actions.weight.clamp.kn()),
            rail_kn_per_m: load(actions.weight.rail.kn_per_m()),
        },
        combinations: combinations(&actions.combinations),
    }
}

fn wind(wind: &Wind) -> WindActions {
    WindActions {
        peak_pressure_source: wind.site.source.clone(),
        basic_pressure_kn_per_m2: wind.site.basic.map(|p| load(p.kn_per_m2())),
        peak_pressure_kn_per_m2: load(wind.site.peak.kn_per_m2()),
        loaded_area_m2: load(wind.loaded_area.m2()),
        zones: wind
            .zones
            .iter()
            .map(|zone| WindZone {
                direction: match zone.direction {
                    Direction::Front => WindDirection::Front,
                    Direction::Back => WindDirection::Back,
                    Direction::Left => WindDirection::Left,
                    Direction::Right => WindDirection::Right,
                },
                zone: zone.name.to_owned(),
                outline_mm: zone.rect.corners().map(|p| p.map(mm)).to_vec(),
                suction: factor(zone.coefficients.suction),
                pressure: factor(zone.coefficients.pressure),
            })
            .collect(),
    }
}

fn combinations(all: &[Combination]) -> Vec<CombinationActions> {
    all.iter()
        .map(|c| {
            let (situation, clause) = match c.factors.situation {
                en1990::Situation::Persistent => {
                    (Situation::Persistent, "EN 1990:2002 6.4.3.2, Eq. (6.10)")
                }
                en1990::Situation::Accidental => {
                    (Situation::Accidental, "EN 1990:2002 6.4.3.3, Eq. (6.11b)")
                }
                en1990::Situation::Characteristic => {
                    (Situation::Characteristic, "EN 1990:2002 6.5.3(2)a, Eq. (6.14b)")
                }
            };
            CombinationActions {
                id: c.id.clone(),
                situation,
                weight: factor(c.factors.permanent),
                snow: factor(c.factors.snow),
                exceptional_snow: factor(c.factors.exceptional_snow),
                wind: factor(c.factors.wind_factor),
                k_mod: factor(c.k_mod),
                clause: clause.to_owned(),
            }
        })
        .collect()
}
