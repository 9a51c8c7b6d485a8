//! The actions as the answer shows them.

use crate::assessment::RuleValue;
use crate::codes::vocabulary::{
    Against, Arrangement, Direction, Drift, Evidence, Situation as Limit, ZoneOnSlope,
};
use crate::codes::{Code, Rules};
use crate::placement::Job;
use crate::placement::actions::{Actions as Acting, OnModules, Wind};
use crate::placement::array::{self, Field};
use crate::units::{Area, Force, Pressure};
use crate::wire::actions::{
    Actions, CombinationActions, FieldActions, FieldZone, Known, LoadedAreas, RuledValue,
    Situation, SnowActions, SnowArrangement, SnowDrift, ValueEvidence, WeightActions, WindActions,
    WindDirection, WindZone, ZoneCoefficients,
};

use super::rounding::{factor, load, mm};

/// What acts on a job.
pub fn of_job(job: &Job, known: &[(RuleValue, Evidence)]) -> Actions {
    let module = &job.fields[0].module;
    let of_first = actions(job.rules, (&job.actions, (module.weight, module.area())), known);
    if array::kinds(&job.fields).len() == 1 {
        return of_first;
    }
    Actions {
        fields: job.fields.iter().map(|field| on_field(&job.actions, field)).collect(),
        ..of_first
    }
}

fn on_field(actions: &Acting, field: &Field) -> FieldActions {
    let module = &field.module;
    let on = actions.wind.on(module.area());
    FieldActions {
        field: field.id.clone(),
        module_kn_per_m2: per_area(module.weight, module.area()),
        loaded_areas: loaded_areas(on, None),
        zones: zones(on)
            .map(|(zone, on_modules)| FieldZone {
                suction: factor(zone.coefficients.suction),
                pressure: factor(zone.coefficients.pressure),
                on_modules: coefficients(on_modules),
            })
            .collect(),
    }
}

fn per_area(weight: Force, area: Area) -> f64 {
    load(weight.kn() / area.m2())
}

/// The zones with their coefficients on fixings and on modules.
fn zones(on: &OnModules) -> impl Iterator<Item = (&ZoneOnSlope, &ZoneOnSlope)> {
    on.fixings.zones.iter().zip(&on.modules.zones)
}

fn coefficients(of: &ZoneOnSlope) -> ZoneCoefficients {
    ZoneCoefficients {
        suction: factor(of.coefficients.suction),
        pressure: factor(of.coefficients.pressure),
    }
}

fn loaded_areas(on: &OnModules, reason: Option<&String>) -> Option<LoadedAreas> {
    let (fixings, modules) = on.fixings.loaded_area.zip(on.modules.loaded_area)?;
    Some(LoadedAreas {
        fixings_m2: load(fixings.area.m2()),
        modules_m2: load(modules.area.m2()),
        reason: reason.cloned(),
    })
}

/// Snow, wind, weight and combinations, with weight and area of a module.
pub fn actions(
    rules: Rules,
    (actions, (weight, area)): (&Acting, (Force, Area)),
    known: &[(RuleValue, Evidence)],
) -> Actions {
    let snow = &actions.snow;
    let kn = |p: Pressure| load(p.kn_per_m2());
    Actions {
        snow: SnowActions {
            ground_load_source: snow.ground.described.clone(),
            ground_load_kn_per_m2: kn(snow.ground.load),
            shape_factor: factor(snow.shape),
            exposure_factor: factor(snow.conditions.exposure.value),
            thermal_factor: factor(snow.conditions.thermal.value),
            roof_load_kn_per_m2: kn(snow.roof),
            normal_kn_per_m2: kn(snow.on_slope.normal),
            slope_kn_per_m2: kn(snow.on_slope.slope),
            exceptional_ground_load_kn_per_m2: snow.exceptional_ground.map(kn),
            guard_force_kn_per_m: load(snow.guard.kn_per_m()),
            arrangements: snow.arrangements.iter().map(arrangement).collect(),
        },
        wind: wind(&actions.wind),
        weight: WeightActions {
            module_kn_per_m2: per_area(weight, area),
            clamps_kn_per_module: load(2.0 * actions.weight.clamp.kn()),
            rail_kn_per_m: load(actions.weight.rail.kn_per_m()),
        },
        fields: Vec::new(),
        combinations: combinations(rules, actions),
        evidence: evidence(known),
    }
}

fn evidence(known: &[(RuleValue, Evidence)]) -> Vec<ValueEvidence> {
    let of = |(value, evidence): &(RuleValue, Evidence)| ValueEvidence {
        value: match value {
            RuleValue::GroundSnow => RuledValue::GroundSnow,
            RuleValue::ExceptionalSnow => RuledValue::ExceptionalSnow,
            RuleValue::PeakPressure => RuledValue::PeakPressure,
            RuleValue::WindCoefficients => RuledValue::WindCoefficients,
            RuleValue::SnowDrifts => RuledValue::SnowDrifts,
            RuleValue::CombinationFactors => RuledValue::CombinationFactors,
        },
        known: known_as(*evidence),
    };
    known.iter().map(of).collect()
}

const fn known_as(evidence: Evidence) -> Known {
    match evidence {
        Evidence::Given => Known::Given,
        Evidence::Confirmed => Known::Confirmed,
        Evidence::OneSource => Known::OneSource,
        Evidence::FromMemory => Known::FromMemory,
        Evidence::StandIn => Known::StandIn,
    }
}

fn arrangement(arrangement: &Arrangement) -> SnowArrangement {
    let hanging = !arrangement.eaves.is_empty();
    SnowArrangement {
        id: arrangement.gathers.name().to_owned(),
        base_shape_factor: factor(arrangement.base),
        drifts: arrangement.drifts.iter().map(drift).collect(),
        eaves_kn_per_m: hanging.then_some(load(arrangement.over_eaves[0].kn_per_m())),
    }
}

fn drift(drift: &Drift) -> SnowDrift {
    let (side, obstacle) = match drift.against {
        Against::Side(side) => (Some(side), None),
        Against::Obstacle(obstacle) => (None, Some(obstacle)),
    };
    let (shape_factor, length_m) = (factor(drift.factor), load(drift.reach.m()));
    SnowDrift { side, obstacle, shape_factor, length_m }
}

fn wind(wind: &Wind) -> WindActions {
    let peak = &wind.zoned().peak;
    WindActions {
        peak_pressure_source: peak.described.clone(),
        basic_pressure_kn_per_m2: peak.basic.map(|p| load(p.kn_per_m2())),
        peak_pressure_kn_per_m2: load(peak.pressure.kn_per_m2()),
        loaded_areas: loaded_areas(&wind.first, wind.reason.as_ref()),
        zones: zones(&wind.first)
            .map(|(zone, on_modules)| WindZone {
                direction: match zone.direction {
                    Direction::Front => WindDirection::Front,
                    Direction::Back => WindDirection::Back,
                    Direction::Left => WindDirection::Left,
                    Direction::Right => WindDirection::Right,
                },
                zone: zone.name.to_owned(),
                outline_mm: zone.region.points().iter().map(|p| [p.x, p.y].map(mm)).collect(),
                suction: factor(zone.coefficients.suction),
                pressure: factor(zone.coefficients.pressure),
                on_modules: coefficients(on_modules),
            })
            .collect(),
    }
}

fn combinations(rules: Rules, actions: &Acting) -> Vec<CombinationActions> {
    let all = actions.combinations.iter().map(|combination| (combination, None));
    let person = actions.person.iter();
    all.chain(person.map(|person| (&person.combination, Some(factor(person.factor)))))
        .map(|(combination, person)| CombinationActions {
            id: combination.id.clone(),
            situation: match combination.situation {
                Limit::Persistent => Situation::Persistent,
                Limit::Accidental => Situation::Accidental,
                Limit::Characteristic => Situation::Characteristic,
            },
            weight: factor(combination.factors.permanent),
            snow: factor(combination.factors.snow),
            exceptional_snow: factor(combination.factors.exceptional_snow),
            snow_arrangement: combination
                .snow
                .map(|i| actions.snow.arrangements[i].gathers.name().to_owned()),
            wind: factor(combination.factors.wind),
            person,
            k_mod: factor(rules.duration_factor(combination)),
            clause: combination.clause.to_string(),
        })
        .collect()
}
