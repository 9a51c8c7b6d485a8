//! What acts on a slope: the clauses of EN 1990 and EN 1991 composed, with the annex's choices.

use super::annex::{Annex, Least};
use super::en1990_2002::{self as en1990, Action};
use super::en1991_1_1_2002 as en1991_1_1;
use super::en1991_1_3_2003 as en1991_1_3;
use super::en1991_1_4_2005::EN1991_1_4;
use super::roof_zones::{self, RoofZone};
use super::site_steps::{PRESSURE, ground_snow_step, peak_pressure_step};
use crate::codes::Clause;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    Arrangement, Building, Combination, CombinationBasis, Direction, Evidence, Exceptional,
    ExceptionalGround, ExceptionalLoad, Face, FactorSet, Factors, Gathers, GroundSnow,
    LoadDuration, LoadOfPlace, LoadedArea, NetCoefficients, OnSlope, PeakPressure, Person,
    PlaceOnMaps, SiteFault, SiteField, Situation, Snow, SnowConditions, SnowOfPlace, SnowSite,
    Trouble, WindCase, WindField, WindSite, ZoneOnSlope,
};
use crate::units::{Angle, Area, Length, Pressure};

const SNOW: &str = en1991_1_3::EN1991_1_3;

/// Where a place lies on the maps of the annex.
pub(super) fn on_maps(annex: &Annex, place: &str) -> Result<PlaceOnMaps, SiteFault> {
    let places = annex.places.ok_or(SiteField::Place.with(Trouble::NoPlaces))?;
    let unknown = || {
        let given = place.to_owned();
        SiteField::Place.with(Trouble::UnknownPlace { given, known: places.known })
    };
    places.on_maps(place).ok_or_else(unknown)
}

/// Snow on the ground: as given, or as the annex's map has it.
pub(super) fn ground_snow(
    annex: &Annex,
    site: &SnowSite<'_>,
) -> Result<GroundSnow, Vec<SiteFault>> {
    let ground = match site.place.map(|place| (place, place.snow)) {
        Some((place, SnowOfPlace::Load(table))) => ground_snow_of_place(annex, site, place, &table),
        _ => ground_snow_described(annex, site),
    };
    let mut faults = Vec::new();
    let coefficients = [
        (SiteField::Exposure, site.exposure, annex.least_exposure),
        (SiteField::Thermal, site.thermal, annex.least_thermal),
    ];
    for (field, given, least) in coefficients {
        let fault = |least: Least| field.silent(&[])(least.rule);
        faults.extend(least.filter(|least| given.is_some_and(|c| c < least.value)).map(fault));
    }
    match ground {
        Ok(ground) => match exceptional(annex, site, ground.exceptional) {
            Ok(exceptional) if faults.is_empty() => Ok(GroundSnow { exceptional, ..ground }),
            settled => Err(settled.err().into_iter().chain(faults).collect()),
        },
        Err(found) => Err(found.into_iter().chain(faults).collect()),
    }
}

/// As a number or by a zone.
fn ground_snow_described(annex: &Annex, site: &SnowSite<'_>) -> Result<GroundSnow, Vec<SiteFault>> {
    match (site.load, site.zone) {
        (Some(load), None) if site.region.is_none() => Ok(GroundSnow {
            load,
            described: Source::Given.to_string(),
            evidence: Evidence::Given,
            exceptional: Exceptional::NotSaid,
            steps: vec![ground_snow_step(load, Source::Given)],
        }),
        (None, zone) if zone.is_some() || annex.snow_ways.iter().any(|way| way.is_empty()) => {
            (annex.ground_snow)(site)
        }
        _ => Err(vec![SiteField::Snow.with(Trouble::ChooseOne { ways: annex.snow_ways })]),
    }
}

/// Of a place whose load a table has: that settles it, and any other description contradicts it.
fn ground_snow_of_place(
    annex: &Annex,
    site: &SnowSite<'_>,
    place: &PlaceOnMaps,
    table: &LoadOfPlace,
) -> Result<GroundSnow, Vec<SiteFault>> {
    let described = [
        (SiteField::GroundSnow, site.load.is_some()),
        (SiteField::SnowZone, site.zone.is_some()),
        (SiteField::SnowRegion, site.region.is_some()),
    ];
    let twice = described.into_iter().filter(|(_, said)| *said);
    let mut faults: Vec<SiteFault> = twice
        .map(|(field, _)| field.with(Trouble::Included { beside: SiteField::Place }))
        .collect();
    match table.at(site.altitude) {
        Ok(load) if faults.is_empty() => {
            let (name, altitude) = (&place.name, table.altitude.m());
            Ok(GroundSnow {
                load,
                described: format!("annex {}, {name}, listed at {altitude} m", annex.code),
                evidence: place.evidence,
                exceptional: Exceptional::NotSaid,
                steps: vec![ground_snow_step(load, Source::Clause(table.rule.clause))],
            })
        }
        Ok(_) => Err(faults),
        Err(rule) => {
            faults.push(SiteField::Altitude.silent(&[SiteField::SnowZone])(rule));
            Err(faults)
        }
    }
}

/// Exceptional snow by what the map says of it and, where it is silent, by what the caller says.
fn exceptional(
    annex: &Annex,
    site: &SnowSite<'_>,
    by_map: Exceptional,
) -> Result<Exceptional, SiteFault> {
    let given = |load| ExceptionalGround {
        load: ExceptionalLoad::Load(load),
        source: Source::Given,
        evidence: Evidence::Given,
    };
    match (by_map, site.exceptional, site.exceptional_load) {
        (Exceptional::NotSaid, None, None) => Ok(Exceptional::NotSaid),
        (Exceptional::NotSaid, Some(false), None) => Ok(Exceptional::None),
        (Exceptional::NotSaid, Some(false), Some(_)) => {
            let beside = SiteField::ExceptionalSnow;
            let trouble = Trouble::Settled { by: beside, as_flag: false };
            Err(SiteField::ExceptionalLoad.with(trouble))
        }
        (Exceptional::NotSaid, None, Some(_)) => {
            Err(SiteField::ExceptionalSnow.with(Trouble::Missing { known: &["true"] }))
        }
        (Exceptional::NotSaid, Some(true), Some(load)) => Ok(Exceptional::Considered(given(load))),
        (Exceptional::NotSaid, Some(true), None) => {
            let factor = SiteField::ExceptionalLoad.need(annex.exceptional_snow_factor)?;
            Ok(Exceptional::Considered(ExceptionalGround {
                load: ExceptionalLoad::Multiple(factor),
                source: Source::clause(SNOW, "Eq. (4.1)"),
                evidence: Evidence::Confirmed,
            }))
        }
        (Exceptional::None | Exceptional::Considered(_), said, given) => {
            let there = by_map != Exceptional::None;
            if given.is_some() {
                let beside = SiteField::SnowZone;
                return Err(SiteField::ExceptionalLoad.with(Trouble::Included { beside }));
            }
            if said.is_some_and(|said| said != there) {
                let trouble = Trouble::Settled { by: SiteField::SnowZone, as_flag: there };
                return Err(SiteField::ExceptionalSnow.with(trouble));
            }
            Ok(by_map)
        }
    }
}

/// Peak pressure: as given, or as the annex finds it.
pub(super) fn peak_pressure(
    annex: &Annex,
    site: &WindSite<'_>,
) -> Result<PeakPressure, Vec<SiteFault>> {
    if site.shore_distance.is_some()
        && !annex.wind_ways.iter().any(|way| way.contains(&SiteField::ShoreDistance))
    {
        let trouble = Trouble::Unused { instead: annex.wind_ways };
        return Err(vec![SiteField::ShoreDistance.with(trouble)]);
    }
    let by_zone = site.zone.is_some() || site.setting.is_some();
    // A category of terrain or a velocity belongs to a zone where the annex reads zones so.
    let zones_have = |field| {
        let mut ways = annex.wind_ways.iter();
        ways.any(|way| way.contains(&SiteField::WindZone) && way.contains(&field))
    };
    let terrain = site.terrain.is_some() && !(by_zone && zones_have(SiteField::TerrainCategory));
    let velocity =
        site.basic_velocity.is_some() && !(by_zone && zones_have(SiteField::BasicVelocity));
    let by_velocity = velocity || terrain || site.shore_distance.is_some();
    let ways = [by_zone, by_velocity, site.peak.is_some()];
    if ways.into_iter().filter(|given| *given).count() != 1 {
        return Err(vec![SiteField::Wind.with(Trouble::ChooseOne { ways: annex.wind_ways })]);
    }
    if site.peak.is_some() && site.orography.is_some() {
        let pair = [SiteField::Orography, SiteField::PeakPressure];
        let fault = |[field, beside]: [SiteField; 2]| field.with(Trouble::Included { beside });
        return Err(vec![fault(pair), fault([pair[1], pair[0]])]);
    }
    match site.peak {
        Some(pressure) => Ok(PeakPressure {
            pressure,
            basic: None,
            described: Source::Given.to_string(),
            evidence: Evidence::Given,
            steps: vec![peak_pressure_step(pressure, Source::Given)],
        }),
        None => (annex.peak_pressure)(site),
    }
}

/// The undrifted arrangement governs, as the others of Figure 5.3 put half of it on one slope; where a
/// country has a coefficient of its own for drifted snow, the greater of the two governs, for snow takes no
/// part where it helps.
pub(super) fn snow(
    annex: &Annex,
    ground: GroundSnow,
    conditions: SnowConditions,
    pitch: Angle,
    run: Length,
) -> Snow {
    let even = shape_factor(annex, pitch, conditions.held);
    let drifted = annex
        .drifted_shape
        .filter(|_| conditions.over_ridge)
        .map(|drifted| ((drifted.factor)(pitch), drifted.clause))
        .filter(|(factor, _)| *factor > even);
    let shape = drifted.map_or(even, |(factor, _)| factor);
    let (c_e, c_t) = (conditions.exposure, conditions.thermal);
    let roof = |ground| en1991_1_3::roof_load(shape, c_e.value, c_t.value, ground);
    let exceptional = match ground.exceptional {
        Exceptional::Considered(there) if conditions.exceptional => Some(there),
        _ => None,
    };
    let exceptional_ground = exceptional.map(|there| match there.load {
        ExceptionalLoad::Multiple(c_esl) => en1991_1_3::exceptional_ground_load(c_esl, ground.load),
        ExceptionalLoad::Load(load) => load,
    });
    let s = roof(ground.load);
    let on_slope = en1991_1_3::on_slope(s, pitch);
    // A guard holds the snow whose force it takes.
    let by_guard = shape_factor(annex, pitch, true);
    let held = en1991_1_3::roof_load(by_guard, c_e.value, c_t.value, ground.load);

    let clause = |number| Clause::new(SNOW, number);
    let of_clause = |number| Source::Clause(clause(number));
    let [by_pitch, by_wind, on_roof] = annex.roof_snow_law.map_or_else(
        || ["Table 5.2", "5.2(7)", "Eq. (5.1)"].map(clause),
        |law| [law.shape_clause, law.exposure_clause, law.roof_clause],
    );
    let mut steps = ground.steps.clone();
    steps.push(Step::new(Quantity::SnowShape, "mu_1", even, "", Source::Clause(by_pitch)));
    steps.extend(drifted.map(|(factor, clause)| {
        Step::new(Quantity::DriftedSnowShape, "mu", factor, "", Source::Clause(clause))
    }));
    steps.extend([
        Step::new(
            Quantity::Exposure,
            "C_e",
            c_e.value,
            "",
            Source::given_or(c_e.by_caller, by_wind),
        ),
        Step::new(
            Quantity::Thermal,
            "C_t",
            c_t.value,
            "",
            Source::given_or(c_t.by_caller, clause("5.2(8)")),
        ),
        Step::new(Quantity::RoofSnow, "s", s.kn_per_m2(), PRESSURE, Source::Clause(on_roof)),
    ]);
    steps.extend(on_slope_steps(&on_slope, of_clause("5.2(5)")));
    if let Some((load, ExceptionalGround { source, .. })) = exceptional_ground.zip(exceptional) {
        let quantity = Quantity::ExceptionalGroundSnow;
        steps.push(Step::new(quantity, "s_Ad", load.kn_per_m2(), PRESSURE, source));
    }
    Snow {
        shape,
        roof: s,
        on_slope,
        exceptional_ground,
        exceptional_on_slope: en1991_1_3::on_slope(
            exceptional_ground.map_or(Pressure::ZERO, roof),
            pitch,
        ),
        guard: en1991_1_3::guard_force(held, run, pitch),
        arrangements: Vec::new(),
        ground,
        conditions,
        steps,
    }
}

/// `μ` of a slope, and of one that keeps its snow (`held`), as the annex has it.
fn shape_factor(annex: &Annex, pitch: Angle, held: bool) -> f64 {
    annex
        .roof_snow_law
        .map_or_else(|| en1991_1_3::shape_factor(pitch, held), |law| (law.shape)(pitch, held))
}

fn on_slope_steps(on: &OnSlope, source: Source) -> [Step; 2] {
    [
        Step::new(Quantity::SnowSquareToSlope, "s cos²α", on.normal.kn_per_m2(), PRESSURE, source),
        Step::new(Quantity::SnowDownSlope, "s cosα sinα", on.slope.kn_per_m2(), PRESSURE, source),
    ]
}

/// Zones of the roof on one of its slopes, every direction.
pub(super) fn wind(
    annex: &Annex,
    peak: PeakPressure,
    building: &Building,
    face: &Face<'_>,
    loaded_area: Area,
    net: NetCoefficients,
) -> Result<WindField, SiteFault> {
    let tables = &annex.roof_tables;
    let mut evidence = Evidence::Given;
    let mut zones = Vec::new();
    for direction in Direction::ALL {
        if let NetCoefficients::Given(coefficients) = net {
            zones.push(ZoneOnSlope {
                direction,
                name: "given",
                region: face.outline.region(),
                coefficients,
                source: Source::Given,
            });
            continue;
        }
        let found = roof_zones::roof_zones(tables, building, face, direction, loaded_area)
            .map_err(SiteField::Pitch.silent(&[]))?;
        evidence = found.iter().map(|zone| zone.evidence).fold(evidence, Evidence::max);
        zones.extend(found.into_iter().map(|zone| ZoneOnSlope {
            direction,
            name: zone.name,
            source: of_zone(tables.document, net, &zone),
            coefficients: net.of(zone.coefficients),
            region: zone.region,
        }));
    }
    let loaded_area = match net {
        NetCoefficients::RoofSurface | NetCoefficients::Equalised { .. } => {
            Some(LoadedArea { area: loaded_area, source: Source::clause(EN1991_1_4, "7.2.1") })
        }
        NetCoefficients::Given(_) => None,
    };
    Ok(WindField { peak, net, evidence, loaded_area, zones })
}

/// Where the coefficients of a zone come from.
const fn of_zone(document: &'static str, net: NetCoefficients, zone: &RoofZone) -> Source {
    let clause = Clause::new(document, zone.clause);
    match (net, zone.reading) {
        (NetCoefficients::Equalised { .. }, _) => Source::Case(clause, "times the caller's factor"),
        (_, Some(reading)) => Source::Case(clause, reading),
        (_, None) => Source::Clause(clause),
    }
}

/// All combinations: wind cases whose coefficients are zero over the whole slope are left out.
pub(super) fn combinations(
    annex: &Annex,
    basis: &CombinationBasis,
    wind: &WindField,
    arrangements: &[Arrangement],
) -> Vec<Combination> {
    let psi_0_snow = en1990::snow_combination_factor(basis.altitude, annex);
    let design = design_factors(annex, basis);
    let mut out = Vec::new();
    for row in en1990::combinations(annex, design, psi_0_snow, basis.exceptional_snow) {
        let Some(sense) = row.wind else {
            out.push(combination(annex, basis.altitude, &row, None));
            continue;
        };
        for direction in Direction::ALL {
            let case = WindCase { direction, sense };
            if wind.acts(case) {
                out.push(combination(annex, basis.altitude, &row, Some(case)));
            }
        }
    }
    for (i, arrangement) in arrangements.iter().enumerate() {
        drifted(&mut out, i, arrangement.gathers);
    }
    out
}

/// Partial factors on the actions, with the factor of the consequence class.
const fn design_factors(annex: &Annex, basis: &CombinationBasis) -> en1990::DesignFactors {
    match basis.factors {
        FactorSet::Design => en1990::DesignFactors::of(annex, basis.consequence),
        FactorSet::One => en1990::DesignFactors::ONE,
    }
}

/// Adds every combination with evenly lying snow once more, with the snow lying in another way.
pub(super) fn drifted(all: &mut Vec<Combination>, arrangement: usize, gathers: Gathers) {
    let snowy = |c: &&Combination| {
        c.snow.is_none() && (c.factors.snow > 0.0 || c.factors.exceptional_snow > 0.0)
    };
    let again = |even: &Combination| {
        // `uls:G+S+W:front:pressing` becomes `uls:G+S+W:valley:front:pressing`.
        let mut parts: Vec<&str> = even.id.split(':').collect();
        parts.insert(2, gathers.name());
        Combination { id: parts.join(":"), snow: Some(arrangement), ..even.clone() }
    };
    let more: Vec<Combination> = all.iter().filter(snowy).map(again).collect();
    all.extend(more);
}

/// A person on the roof. Duration class of maintenance: short-term, EN 1995-1-1, Table 2.2, from memory.
pub(super) fn person(annex: &Annex, basis: &CombinationBasis) -> Person {
    let design = design_factors(annex, basis);
    let permanent = design.main.unfavourable;
    Person {
        combination: Combination {
            id: "uls:G+Q".to_owned(),
            situation: Situation::Persistent,
            factors: Factors { permanent, snow: 0.0, exceptional_snow: 0.0, wind: 0.0 },
            wind: None,
            snow: None,
            duration: LoadDuration::Short,
            clause: design.clause,
        },
        weight: annex.maintenance_force,
        source: Source::clause(en1991_1_1::EN1991_1_1, "6.3.4.2, Table 6.10"),
        factor: design.main.variable,
    }
}

pub(super) fn combination(
    annex: &Annex,
    altitude: Length,
    row: &en1990::Combination,
    wind: Option<WindCase>,
) -> Combination {
    let limit = match row.situation {
        Situation::Persistent => "uls",
        Situation::Accidental => "acc",
        Situation::Characteristic => "sls",
    };
    let id = match wind {
        None => format!("{limit}:{}", row.name),
        Some(WindCase { direction, sense }) => {
            format!("{limit}:{}:{}:{}", row.name, direction.name(), sense.name())
        }
    };
    Combination {
        id,
        situation: row.situation,
        factors: row.factors,
        wind,
        snow: None,
        duration: match row.shortest {
            Action::Permanent => LoadDuration::Permanent,
            Action::Snow if altitude > annex.snow_altitude_limit => annex.snow_duration_high,
            Action::Snow => annex.snow_duration_low,
            Action::Wind => annex.wind_duration,
        },
        clause: row.clause,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codes::vocabulary::ConsequenceClass;

    /// Snow and wind do not meet somebody who works on the roof.
    #[test]
    fn a_person_is_combined_with_the_weight_alone() {
        let annex = crate::codes::eurocode::annex::find("EN").expect("the recommended values");
        let basis = CombinationBasis {
            consequence: ConsequenceClass::Medium,
            altitude: Length::ZERO,
            exceptional_snow: false,
            factors: FactorSet::Design,
        };
        let Person { combination, factor, .. } = person(annex, &basis);
        let factors = combination.factors;
        assert_eq!((factors.permanent, factor), (1.35, 1.5));
        assert_eq!((factors.snow, factors.exceptional_snow, factors.wind), (0.0, 0.0, 0.0));
    }
}
