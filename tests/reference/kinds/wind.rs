//! Wind: EN 1991-1-4 and the German annex.

use hookspan::codes::Code;
use hookspan::codes::eurocode::Eurocode;
use hookspan::codes::eurocode::annex::de::{self, Setting, WindZone};
use hookspan::codes::eurocode::annex::{self, es, es_cte, fr, it, nl, pl};
use hookspan::codes::eurocode::en1991_1_4_2005::coefficients::{self, WindAngle};
use hookspan::codes::eurocode::en1991_1_4_2005::duopitch::{self, Zone};
use hookspan::codes::eurocode::en1991_1_4_2005::hipped;
use hookspan::codes::eurocode::en1991_1_4_2005::monopitch;
use hookspan::codes::eurocode::en1991_1_4_2005::plan::{self, FacePlan, ZoneInPlan};
use hookspan::codes::eurocode::en1991_1_4_2005::tables::RoofTables;
use hookspan::codes::eurocode::en1991_1_4_2005::velocity::{self, Terrain, TerrainCategory};
use hookspan::codes::vocabulary::{Direction, WindSite};
use hookspan::units::{Angle, Area, Density, Length, Speed};

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "wind_peak_pressure" => peak_pressure(inputs),
        "wind_terrain" => {
            let category = category(inputs);
            values([
                ("z_0_m", velocity::roughness_length(category).m()),
                ("z_min_m", velocity::minimum_height(category).m()),
            ])
        }
        "wind_probability_factor" => {
            let p = 1.0 / inputs.number("return_period_years");
            let (k, n) = (inputs.number("k"), inputs.number("n"));
            values([("c_prob", velocity::probability_factor(p, k, n).expect("covered"))])
        }
        "wind_gust_speed_de" => {
            let z = Length::from_m(inputs.number("z_m"));
            let factor = de::terrain_peak_factor(category(inputs), z).expect("covered");
            let v_b = inputs.number("v_b_m_per_s");
            values([("v_gust_km_per_h", v_b * factor.sqrt() * 3.6)])
        }
        "wind_zone_de" => {
            let zone = WindZone::parse(inputs.text("zone")).expect("a zone");
            let v_b_0 = de::basic_velocity(zone);
            let q_b = velocity::velocity_pressure(de::ANNEX.air_density, v_b_0);
            values([("v_b_0_m_per_s", v_b_0.m_per_s()), ("q_b_kn_per_m2", q_b.kn_per_m2())])
        }
        "wind_zone_fr" => {
            let zone = fr::WindZone::parse(inputs.text("zone")).expect("a zone");
            values([("v_b_0_m_per_s", fr::basic_velocity(zone).m_per_s())])
        }
        "wind_peak_pressure_de" | "wind_profile_de" => german_pressure(kind, inputs),
        "wind_zone_nl" => {
            let area = nl::WindArea::parse(inputs.text("zone")).expect("an area");
            values([("v_b_0_m_per_s", nl::basic_velocity(area).m_per_s())])
        }
        "wind_terrain_nl" => {
            let category = nl::TerrainCategory::parse(inputs.text("terrain")).expect("a category");
            let Terrain { z_0, z_min, k_i, .. } = nl::terrain_of(category);
            values([("z_0_m", z_0.m()), ("z_min_m", z_min.m()), ("k_i", k_i)])
        }
        "wind_zone_pl" => {
            let zone = pl::WindZone::parse(inputs.text("zone")).expect("a zone");
            let altitude = Length::from_m(inputs.number("altitude_m"));
            values([
                ("v_b_0_m_per_s", pl::basic_velocity(zone, altitude).m_per_s()),
                ("q_b_kn_per_m2", pl::basic_pressure(zone, altitude).kn_per_m2()),
            ])
        }
        "wind_exposure_pl" => {
            let z = Length::from_m(inputs.number("z_m"));
            values([("c_e", pl::exposure_factor(category(inputs), z).expect("covered"))])
        }
        "wind_terrain_fr" => {
            use fr::TerrainCategory;
            let category = TerrainCategory::parse(inputs.text("terrain")).expect("a category");
            let Terrain { z_0, z_min, k_i, .. } = fr::terrain_of(category);
            assert_eq!(k_i.to_bits(), fr::turbulence_factor(z_0).to_bits());
            values([("z_0_m", z_0.m()), ("z_min_m", z_min.m()), ("k_i", k_i)])
        }
        "site_peak_pressure" => site_peak_pressure(inputs),
        "wind_altitude_factor_de" => {
            let altitude = Length::from_m(inputs.number("altitude_m"));
            values([("factor", de::altitude_factor(altitude).expect("covered"))])
        }
        "cpe_area_interpolation" => {
            let area = Area::from_m2(inputs.number("area_m2"));
            let (cpe_1, cpe_10) = (inputs.number("cpe_1"), inputs.number("cpe_10"));
            values([("cpe", coefficients::area_interpolation(cpe_1, cpe_10, area))])
        }
        "cpe_duopitch" => coefficient(inputs),
        "cpe_duopitch_face" => {
            let pitch = Angle::from_deg(inputs.number("pitch_deg"));
            let area = Area::from_m2(inputs.number("area_m2"));
            let found = coefficients::duopitch(
                tables(inputs),
                direction(inputs),
                zone(inputs),
                pitch,
                area,
            );
            let found = found.expect("covered");
            values([("suction", found.suction), ("pressure", found.pressure)])
        }
        "wind_edge_dimension" => {
            let (b, h) = (inputs.number("b_m"), inputs.number("h_m"));
            let e = plan::edge_dimension(Length::from_m(b), Length::from_m(h));
            values([("e_m", e.m())])
        }
        "duopitch_zones" => zones(inputs),
        "cpe_monopitch" => monopitch_coefficients(inputs),
        "monopitch_zones" => monopitch_zones(inputs),
        "cpe_hipped" => hipped_coefficients(inputs),
        _ => return by_law(kind, inputs),
    })
}

/// Of countries whose law has exposure factors with terrains of its own.
fn by_law(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "wind_zone_es" => {
            let zone = es::WindZone::parse(inputs.text("zone")).expect("a zone");
            let q_b = es_cte::basic_pressure(zone).kn_per_m2();
            let v_b = es::basic_velocity(zone).m_per_s();
            values([("v_b_m_per_s", v_b), ("q_b_kn_per_m2", q_b)])
        }
        "wind_ground_es" => {
            let ground = es_cte::ground_of(degree(inputs));
            let (z_0, z_min) = (ground.z_0.m(), ground.z_min.m());
            values([("k", ground.k_r), ("l_m", z_0), ("z_min_m", z_min)])
        }
        "wind_exposure_es" => {
            let z = Length::from_m(inputs.number("z_m"));
            let c_e = es_cte::exposure_factor(degree(inputs), z);
            values([("c_e", c_e.expect("covered"))])
        }
        "wind_zone_it" => {
            let zone = it::WindZone::parse(inputs.text("zone")).expect("a zone");
            let altitude = Length::from_m(inputs.number("altitude_m"));
            let v_b = it::basic_velocity(zone, altitude).expect("covered");
            values([("v_b_m_per_s", v_b.m_per_s())])
        }
        "wind_ground_it" => {
            let ground = it::ground_of(exposure_category(inputs));
            let (z_0, z_min) = (ground.z_0.m(), ground.z_min.m());
            values([("k_r", ground.k_r), ("z_0_m", z_0), ("z_min_m", z_min)])
        }
        "wind_exposure_it" => {
            let (z, c_t) = (Length::from_m(inputs.number("z_m")), inputs.number_or("c_t", 1.0));
            let c_e = it::exposure_factor(exposure_category(inputs), z, c_t);
            values([("c_e", c_e.expect("covered"))])
        }
        _ => return None,
    })
}

/// The tables of an annex, the recommended ones where none is named.
fn tables<'a>(inputs: &Inputs) -> &'a RoofTables {
    let code = inputs.get("annex").map_or("EN", |_| inputs.text("annex"));
    &annex::find(code).expect("an annex").roof_tables
}

fn category(inputs: &Inputs) -> TerrainCategory {
    TerrainCategory::parse(inputs.text("terrain")).expect("a terrain category")
}

fn exposure_category(inputs: &Inputs) -> it::ExposureCategory {
    it::ExposureCategory::parse(inputs.text("terrain")).expect("an exposure category")
}

fn degree(inputs: &Inputs) -> es_cte::Degree {
    es_cte::Degree::parse(inputs.text("terrain")).expect("a degree of roughness")
}

fn direction(inputs: &Inputs) -> Direction {
    match inputs.text("direction") {
        "front" => Direction::Front,
        "back" => Direction::Back,
        "left" => Direction::Left,
        "right" => Direction::Right,
        other => panic!("no direction {other}"),
    }
}

fn zone(inputs: &Inputs) -> Zone {
    match inputs.text("zone") {
        "F" => Zone::F,
        "G" => Zone::G,
        "H" => Zone::H,
        "I" => Zone::I,
        "J" => Zone::J,
        other => panic!("no zone {other}"),
    }
}

fn peak_pressure(inputs: &Inputs) -> Values {
    let v_b = Speed::from_m_per_s(inputs.number("v_b_m_per_s"));
    let v_b = velocity::basic_velocity(1.0, 1.0, v_b);
    let terrain = category(inputs).terrain();
    let z = Length::from_m(inputs.number("z_m"));
    let c_o = inputs.number_or("c_o", 1.0);
    let rho = Density::from_kg_per_m3(inputs.number_or("rho_kg_per_m3", 1.25));
    let k_p = velocity::PEAK_FACTOR;
    let all = velocity::peak_pressure(v_b, terrain, z, c_o, rho, k_p).expect("covered");
    values([
        ("q_b_n_per_m2", all.q_b.n_per_m2()),
        ("k_r", velocity::terrain_factor(terrain)),
        ("c_r", velocity::roughness_factor(terrain, z)),
        ("v_m_m_per_s", velocity::mean_velocity(all.c_r, c_o, v_b).m_per_s()),
        ("i_v", velocity::turbulence_intensity(terrain, z, c_o)),
        ("c_e", all.c_e),
        ("q_p_n_per_m2", all.q_p.n_per_m2()),
    ])
}

/// By an annex, from what a request says of its wind.
fn site_peak_pressure(inputs: &Inputs) -> Values {
    let rules = Eurocode::with_annex(inputs.text("annex")).expect("an annex");
    let given = |name: &str| inputs.get(name).map(|_| inputs.number(name));
    let found = rules.peak_pressure(&WindSite {
        zone: inputs.get("zone").map(|_| inputs.text("zone")),
        basic_velocity: given("v_b_m_per_s").map(Speed::from_m_per_s),
        terrain: inputs.get("terrain").map(|_| inputs.text("terrain")),
        shore_distance: given("shore_km").map(|km| Length::from_m(km * 1000.0)),
        orography: given("c_o"),
        height: Length::from_m(inputs.number("z_m")),
        altitude: Length::from_m(inputs.number_or("altitude_m", 0.0)),
        ..WindSite::default()
    });
    let found = found.expect("no faults");
    let q_b = found.basic.expect("a basic pressure");
    values([
        ("q_b_kn_per_m2", q_b.kn_per_m2()),
        ("c_e", found.pressure.kn_per_m2() / q_b.kn_per_m2()),
        ("q_p_kn_per_m2", found.pressure.kn_per_m2()),
        ("q_p_n_per_m2", found.pressure.n_per_m2()),
    ])
}

fn german_pressure(kind: &str, inputs: &Inputs) -> Values {
    let zone = WindZone::parse(inputs.text("zone")).expect("a zone");
    let setting = Setting::parse(inputs.text("setting")).expect("a setting");
    let height = Length::from_m(inputs.number("height_m"));
    let altitude = Length::from_m(inputs.number_or("altitude_m", 0.0));
    let q_p = match kind {
        "wind_profile_de" => de::profile_pressure(zone, setting, height, altitude),
        _ => de::peak_pressure(zone, setting, height, altitude),
    };
    values([("q_p_kn_per_m2", q_p.expect("covered").kn_per_m2())])
}

fn coefficient(inputs: &Inputs) -> Values {
    let angle = match inputs.text("wind") {
        "across_ridge" => WindAngle::AcrossRidge,
        "along_ridge" => WindAngle::AlongRidge,
        other => panic!("no wind {other}"),
    };
    let pitch = Angle::from_deg(inputs.number("pitch_deg"));
    let area = Area::from_m2(inputs.number("area_m2"));
    let found = coefficients::roof_coefficients(tables(inputs), angle, zone(inputs), pitch, area);
    let found = found.expect("covered");
    values([("suction", found.suction), ("pressure", found.pressure)])
}

/// The first rectangle of each zone, measured as it lies on the face.
fn zones(inputs: &Inputs) -> Values {
    let building = FacePlan {
        length: Length::from_m(inputs.number("length_m")),
        width: Length::from_m(inputs.number("width_m")),
        face_run: Length::from_m(inputs.number("width_m") / 2.0),
        face_length: Length::from_m(inputs.number("length_m")),
        height: Length::from_m(inputs.number("height_m")),
    };
    let found = duopitch::duopitch_zones(&building, direction(inputs));
    let measure = |ZoneInPlan { zone, x, run }: &ZoneInPlan<Zone>| {
        let name = format!("{zone:?}").to_lowercase();
        let lengths = [("x", x[1] - x[0]), ("run", run[1] - run[0])];
        lengths.map(|(side, length)| (format!("{name}_{side}_m"), length.m()))
    };
    found.iter().rev().flat_map(measure).collect()
}

/// Both sets of every zone the direction has.
fn monopitch_coefficients(inputs: &Inputs) -> Values {
    use monopitch::Zone;
    let (pitch, area) = (inputs.number("pitch_deg"), inputs.number("area_m2"));
    let (pitch, area) = (Angle::from_deg(pitch), Area::from_m2(area));
    let zones = [Zone::F, Zone::FUp, Zone::FLow, Zone::G, Zone::H, Zone::I];
    let found = zones.into_iter().filter_map(|zone| {
        let found =
            monopitch::coefficients(tables(inputs), direction(inputs), zone, pitch, area).ok()?;
        let name = format!("{zone:?}").to_lowercase();
        Some([
            (format!("{name}_suction"), found.suction),
            (format!("{name}_pressure"), found.pressure),
        ])
    });
    found.flatten().collect()
}

/// Both sets of every zone.
fn hipped_coefficients(inputs: &Inputs) -> Values {
    let (pitch, area) = (inputs.number("pitch_deg"), inputs.number("area_m2"));
    let (pitch, area) = (Angle::from_deg(pitch), Area::from_m2(area));
    let found = hipped::Zone::ALL.into_iter().flat_map(|zone| {
        let found = hipped::coefficients(tables(inputs), zone, pitch, area).expect("covered");
        let name = format!("{zone:?}").to_lowercase();
        [(format!("{name}_suction"), found.suction), (format!("{name}_pressure"), found.pressure)]
    });
    found.collect()
}

/// The first rectangle of each zone, measured as it lies on the roof.
fn monopitch_zones(inputs: &Inputs) -> Values {
    let building = FacePlan {
        length: Length::from_m(inputs.number("length_m")),
        width: Length::from_m(inputs.number("run_m")),
        face_length: Length::from_m(inputs.number("length_m")),
        face_run: Length::from_m(inputs.number("run_m")),
        height: Length::from_m(inputs.number("height_m")),
    };
    let found = monopitch::zones(&building, direction(inputs));
    let measure = |ZoneInPlan { zone, x, run }: &ZoneInPlan<monopitch::Zone>| {
        let name = format!("{zone:?}").to_lowercase();
        let lengths = [("x", x[1] - x[0]), ("run", run[1] - run[0])];
        lengths.map(|(side, length)| (format!("{name}_{side}_m"), length.m()))
    };
    found.iter().rev().flat_map(measure).collect()
}
