//! What single countries have in place of EN 1991-1-3 and EN 1991-1-4.

use hookspan::codes::Code;
use hookspan::codes::eurocode::Eurocode;
use hookspan::codes::eurocode::annex::{at, dk, fi, gb, gr, it, no, pt};
use hookspan::codes::eurocode::en1991_1_4_2005::velocity::{Terrain, TerrainCategory};
use hookspan::codes::vocabulary::{SnowOfPlace, SnowSite};
use hookspan::units::{Angle, Length, Speed};

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "snow_drifted_shape_at" => {
            let pitch = Angle::from_deg(inputs.number("pitch_deg"));
            values([("mu", at::drifted_shape_factor(pitch))])
        }
        "snow_drifted_shape_gb" => {
            let pitch = Angle::from_deg(inputs.number("pitch_deg"));
            values([("mu", gb::drifted_shape_factor(pitch))])
        }
        "zones_of_place" => zones_of_place(inputs),
        "snow_of_place" => snow_of_place(inputs),
        "wind_zone_of" => values([("v_b_0_m_per_s", zone_velocity(inputs).m_per_s())]),
        "wind_terrain_of" => {
            let Terrain { z_0, z_min, k_r, .. } = terrain_of(inputs);
            let k_r = k_r.map(|k_r| ("k_r", k_r));
            let known = [("z_0_m", z_0.m()), ("z_min_m", z_min.m())];
            known.into_iter().chain(k_r).map(|(name, value)| (name.to_owned(), value)).collect()
        }
        "wind_exposure_at" => {
            let category = at::TerrainCategory::parse(inputs.text("terrain")).expect("a category");
            let z = Length::from_m(inputs.number("z_m"));
            values([("c_e", at::exposure_factor(category, z).expect("covered"))])
        }
        "wind_exposure_gb" => {
            let shore = Length::from_m(inputs.number("shore_km") * 1000.0);
            let c_e = gb::exposure_factor(Length::from_m(inputs.number("z_m")), shore);
            values([("c_e", c_e.expect("covered"))])
        }
        "wind_shore_dk" => {
            let shore = Length::from_m(inputs.number("shore_km") * 1000.0);
            values([("v_b_0_m_per_s", dk::basic_velocity(shore).m_per_s())])
        }
        "wind_altitude_factor_gb" => {
            let [altitude, z] = ["altitude_m", "z_m"].map(|of| Length::from_m(inputs.number(of)));
            values([("c_alt", gb::altitude_factor(altitude, z))])
        }
        "wind_terrain_no" => {
            let Terrain { z_0, z_min, k_r, .. } = no::terrain_of(category(inputs));
            let k_r = k_r.expect("the annex prints it");
            values([("k_r", k_r), ("z_0_m", z_0.m()), ("z_min_m", z_min.m())])
        }
        "wind_altitude_factor_no" => {
            let region = no::WindRegion::parse(inputs.text("zone")).expect("a region");
            let v_b_0 = Speed::from_m_per_s(inputs.number("v_b_0_m_per_s"));
            let altitude = Length::from_m(inputs.number("altitude_m"));
            let c_alt = no::altitude_factor(Some(region), v_b_0, altitude);
            values([("c_alt", c_alt.expect("covered"))])
        }
        _ => return None,
    })
}

/// Whether a place lies in the zones the case names, in how many it lies, and what single ones lead to at the
/// altitude: the snow on the ground, and the basic velocity of Italy.
fn zones_of_place(inputs: &Inputs) -> Values {
    let rules = Eurocode::with_annex(inputs.text("annex")).expect("an annex");
    let found = rules.on_maps(inputs.text("place")).expect("a place of the list");
    let mut all = Values::new();
    let snow_zones = match found.snow {
        SnowOfPlace::Zones(zones) => zones,
        SnowOfPlace::Load(_) => &[],
    };
    for (map, zones) in [("snow", snow_zones), ("wind", found.wind_zones)] {
        let name = format!("{map}_zone");
        if inputs.get(&name).is_some() {
            let inside = zones.contains(&inputs.text(&name));
            all.insert(format!("in_{name}"), f64::from(u8::from(inside)));
            all.insert(format!("{name}s"), zones.iter().map(|_| 1.0).sum());
        }
    }
    if inputs.get("altitude_m").is_none() {
        return all;
    }
    let altitude = Length::from_m(inputs.number("altitude_m"));
    if let &[zone] = snow_zones {
        let site = SnowSite { zone: Some(zone), altitude, ..SnowSite::default() };
        let ground = rules.ground_snow(&site).expect("no faults");
        all.insert("s_k_kn_per_m2".to_owned(), ground.load.kn_per_m2());
    }
    if let (&[zone], "IT") = (found.wind_zones, inputs.text("annex")) {
        let zone = it::WindZone::parse(zone).expect("a zone");
        let v_b = it::basic_velocity(zone, altitude).expect("covered");
        all.insert("v_b_m_per_s".to_owned(), v_b.m_per_s());
    }
    all
}

/// The snow a table has of a place, beside its altitude.
fn snow_of_place(inputs: &Inputs) -> Values {
    let rules = Eurocode::with_annex(inputs.text("annex")).expect("an annex");
    let place = rules.on_maps(inputs.text("place")).expect("a place of the list");
    let SnowOfPlace::Load(table) = place.snow else { panic!("the list has zones") };
    let site = SnowSite { place: Some(&place), altitude: table.altitude, ..SnowSite::default() };
    let ground = rules.ground_snow(&site).expect("no faults");
    values([("altitude_m", table.altitude.m()), ("s_k_kn_per_m2", ground.load.kn_per_m2())])
}

fn category(inputs: &Inputs) -> TerrainCategory {
    TerrainCategory::parse(inputs.text("terrain")).expect("a terrain category")
}

/// Basic velocity of a zone of an annex.
fn zone_velocity(inputs: &Inputs) -> Speed {
    let zone = inputs.text("zone");
    let found = match inputs.text("annex") {
        "FI" => fi::WindZone::parse(zone).map(fi::basic_velocity),
        "GR" => gr::WindZone::parse(zone).map(gr::basic_velocity),
        "PT" => pt::WindZone::parse(zone).map(pt::basic_velocity),
        other => panic!("no case reads zones of {other}"),
    };
    found.expect("a zone")
}

/// Terrain of an annex.
fn terrain_of(inputs: &Inputs) -> Terrain {
    match inputs.text("annex") {
        "FI" => fi::terrain_of(category(inputs)),
        "PT" => {
            let category = pt::TerrainCategory::parse(inputs.text("terrain"));
            pt::terrain_of(category.expect("a category"))
        }
        other => panic!("no case reads terrains of {other}"),
    }
}
