//! Snow: EN 1991-1-3 and the German annex.

use hookspan::codes::eurocode::Eurocode;
use hookspan::codes::eurocode::annex::de::{self, SnowZone};
use hookspan::codes::eurocode::annex::{es, es_cte, fr};
use hookspan::codes::eurocode::en1991_1_3_2003::{self as snow, ClimateRegion, Topography};
use hookspan::codes::vocabulary::{Exceptional, ExceptionalLoad, SnowSite};
use hookspan::codes::{Clause, Code};
use hookspan::units::{Angle, Length, Pressure};

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "snow_roof" => roof(inputs),
        "snow_shape_factor" => {
            let pitch = Angle::from_deg(inputs.number("pitch_deg"));
            values([("mu_1", snow::shape_factor(pitch, inputs.flag("held")))])
        }
        "snow_exposure" => {
            let c_e = |topography| snow::exposure_coefficient(topography);
            values([
                ("windswept", c_e(Topography::Windswept)),
                ("normal", c_e(Topography::Normal)),
                ("sheltered", c_e(Topography::Sheltered)),
            ])
        }
        "snow_line_load" => {
            let s = Pressure::from_kn_per_m2(inputs.number("s_kn_per_m2"));
            let q = s * Length::from_m(inputs.number("width_m"));
            values([("q_kn_per_m", q.kn_per_m())])
        }
        "snow_on_slope" => {
            let s = Pressure::from_kn_per_m2(inputs.number("s_kn_per_m2"));
            let parts = snow::on_slope(s, Angle::from_deg(inputs.number("pitch_deg")));
            values([
                ("normal_kn_per_m2", parts.normal.kn_per_m2()),
                ("slope_kn_per_m2", parts.slope.kn_per_m2()),
            ])
        }
        "snow_guard_force" => {
            let s = Pressure::from_kn_per_m2(inputs.number("s_kn_per_m2"));
            let pitch = Angle::from_deg(inputs.number("pitch_deg"));
            let force = snow::guard_force(s, Length::from_m(inputs.number("plan_run_m")), pitch);
            values([("f_s_kn_per_m", force.kn_per_m())])
        }
        "snow_eaves_overhang" => {
            let s = Pressure::from_kn_per_m2(inputs.number("s_kn_per_m2"));
            let load = snow::eaves_overhang_load(s, snow::EAVES_SNOW_KN_PER_M3, f64::INFINITY)
                .expect("covered");
            values([("s_e_kn_per_m", load.kn_per_m())])
        }
        "snow_return_period" => {
            let s_k = Pressure::from_kn_per_m2(inputs.number("s_k_kn_per_m2"));
            let (p_n, v) = (inputs.number("p_n"), inputs.number("v"));
            let s_n = snow::ground_load_for_return_period(s_k, p_n, v).expect("covered");
            values([("s_n_kn_per_m2", s_n.kn_per_m2())])
        }
        "snow_ground_annex_c" => {
            let region = ClimateRegion::parse(inputs.text("region")).expect("a region");
            let altitude = Length::from_m(inputs.number("altitude_m"));
            let s_k = snow::annex_c_ground_load(region, inputs.number("zone"), altitude);
            values([("s_k_kn_per_m2", s_k.expect("covered").kn_per_m2())])
        }
        "snow_ground_fr" => french_map(inputs),
        "site_ground_snow" => site_ground_snow(inputs),
        "snow_ground_es" => {
            let zone = es::SnowZone::parse(inputs.text("zone")).expect("a zone");
            let altitude = Length::from_m(inputs.number("altitude_m"));
            let s_k = es::ground_snow_load(Clause::new("DB SE-AE", "Table E.2"), zone, altitude);
            values([
                ("refused", f64::from(u8::from(s_k.is_err()))),
                ("s_k_kn_per_m2", s_k.map_or(f64::NAN, Pressure::kn_per_m2)),
            ])
        }
        "snow_roof_es" => {
            let pitch = Angle::from_deg(inputs.number("pitch_deg"));
            let mu = es_cte::shape_of_slope(pitch, inputs.flag("held"));
            let s_k = Pressure::from_kn_per_m2(inputs.number("s_k_kn_per_m2"));
            values([
                ("mu", mu),
                ("q_n_kn_per_m2", snow::roof_load(mu, 1.0, 1.0, s_k).kn_per_m2()),
                ("p_n_kn_per_m", es_cte::ice_at_eaves(mu, s_k).kn_per_m()),
            ])
        }
        "snow_valley_es" => {
            let pitches = ["pitch_deg", "other_pitch_deg"].map(|name| inputs.number(name));
            let mu = es_cte::shape_in_valley(pitches.map(Angle::from_deg));
            values([("mu", mu.expect("covered"))])
        }
        "snow_ground_de" => {
            let zone = SnowZone::parse(inputs.text("zone")).expect("a zone");
            let altitude = Length::from_m(inputs.number("altitude_m"));
            let s_k = de::ground_snow_load(zone, altitude).expect("covered");
            let factor = de::ANNEX.exceptional_snow_factor.expect("a factor");
            let s_ad = snow::exceptional_ground_load(factor, s_k);
            values([("s_k_kn_per_m2", s_k.kn_per_m2()), ("s_ad_kn_per_m2", s_ad.kn_per_m2())])
        }
        _ => return None,
    })
}

/// By an annex, from what a request says of its snow; exceptional snow where the map or the case has any.
fn site_ground_snow(inputs: &Inputs) -> Values {
    let rules = Eurocode::with_annex(inputs.text("annex")).expect("an annex");
    let site = SnowSite {
        zone: inputs.get("zone").map(|_| inputs.text("zone")),
        altitude: Length::from_m(inputs.number("altitude_m")),
        ..SnowSite::default()
    };
    let found = rules.ground_snow(&site).expect("no faults");
    let mut values = values([("s_k_kn_per_m2", found.load.kn_per_m2())]);
    if let Exceptional::Considered(there) = found.exceptional {
        let ExceptionalLoad::Load(load) = there.load else { panic!("the map has no load") };
        values.insert("s_ad_kn_per_m2".to_owned(), load.kn_per_m2());
    }
    values
}

/// France: the map by itself, zones without exceptional snow as zero.
fn french_map(inputs: &Inputs) -> Values {
    let zone = fr::SnowZone::parse(inputs.text("zone")).expect("a zone");
    let s_k = fr::ground_snow_load(zone, Length::from_m(inputs.number("altitude_m")));
    let s_ad = fr::exceptional_snow_load(zone).unwrap_or(Pressure::ZERO);
    values([
        ("s_k_kn_per_m2", s_k.expect("covered").kn_per_m2()),
        ("s_ad_kn_per_m2", s_ad.kn_per_m2()),
    ])
}

fn roof(inputs: &Inputs) -> Values {
    let s_k = Pressure::from_kn_per_m2(inputs.number("s_k_kn_per_m2"));
    let (c_e, c_t) = (inputs.number("c_e"), inputs.number("c_t"));
    let pitch = Angle::from_deg(inputs.number("pitch_deg"));
    let mu_1 = snow::shape_factor(pitch, inputs.flag("held"));
    let s_ad = snow::exceptional_ground_load(inputs.number("c_esl"), s_k);
    let load = |mu, ground| snow::roof_load(mu, c_e, c_t, ground).kn_per_m2();
    let [even, drifted, _] = snow::duopitch_arrangements(mu_1, mu_1);
    values([
        ("mu_1", mu_1),
        ("s_even_kn_per_m2", load(even.this, s_k)),
        ("s_drifted_this_kn_per_m2", load(drifted.this, s_k)),
        ("s_drifted_other_kn_per_m2", load(drifted.other, s_k)),
        ("s_ad_kn_per_m2", s_ad.kn_per_m2()),
        ("s_exceptional_even_kn_per_m2", load(even.this, s_ad)),
        ("s_exceptional_drifted_this_kn_per_m2", load(drifted.this, s_ad)),
        ("s_exceptional_drifted_other_kn_per_m2", load(drifted.other, s_ad)),
    ])
}
