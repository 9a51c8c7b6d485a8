//! Combinations and series of tests of EN 1990, and aluminium of EN 1999-1-1.

use hookspan::codes::eurocode::annex::{self, Strength};
use hookspan::codes::eurocode::en1990_2002 as basis;
use hookspan::codes::eurocode::en1990_2002_annex_d::{self as testing, Variation};
use hookspan::codes::eurocode::en1991_1_1_2002 as imposed;
use hookspan::codes::eurocode::en1993_1_8_2005 as steel;
use hookspan::codes::eurocode::en1995_1_1_2004::timber::{self, ServiceClass};
use hookspan::codes::eurocode::en1999_1_1_2007 as aluminium;
use hookspan::codes::vocabulary::{
    BoltClass, BoltResistance, ConsequenceClass, Distribution, RailResistance, Series, Situation,
};
use hookspan::units::{Force, Length, Moment, SectionModulus, Stress};

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "combinations" => combinations(inputs),
        "combined_action" => {
            let all = combinations(inputs);
            let name = inputs.text("combination");
            let of = |action: &str| all[&format!("{name}_{action}")] * inputs.number(action);
            values([("e_d", of("g") + of("s") + of("w"))])
        }
        "bolt_in_shear_and_tension" => bolt(inputs),
        "bolt_resistance" => {
            let (shear, tension) = bolt_resistances(inputs);
            values([("shear_rd_n", shear.n()), ("tension_rd_n", tension.n())])
        }
        "bolt_stress_area" => {
            let area = steel::stress_area(Length::from_mm(inputs.number("diameter_mm")));
            values([("a_s_mm2", area.expect("a listed diameter").mm2())])
        }
        "fractile_factor" => {
            let n =
                inputs.get("tests").and_then(serde_json::Value::as_u64).expect("a number of tests");
            let factor = |variation| {
                testing::fractile_factor(usize::try_from(n).expect("few"), variation).ok()
            };
            let named = [("k_n_known", Variation::Known), ("k_n_unknown", Variation::Unknown)];
            let found = named.into_iter().filter_map(|(name, of)| Some((name, factor(of)?)));
            found.map(|(name, k_n)| (name.to_owned(), k_n)).collect()
        }
        "characteristic_value" => {
            let series = Series {
                values: serde_json::from_value(inputs.get("values").expect("values").clone())
                    .expect("a list of numbers"),
                distribution: match inputs.text("distribution") {
                    "normal" => Distribution::Normal,
                    "lognormal" => Distribution::Lognormal,
                    other => panic!("no case is distributed {other}"),
                },
                known_variation: inputs
                    .get("known_variation")
                    .map(|_| inputs.number("known_variation")),
            };
            let found = testing::characteristic_value(&series).expect("covered");
            values([("x_k", found.value)])
        }
        "annex_values" => annex_values(inputs),
        "annex_loads" => {
            let annex = annex::find(inputs.text("annex")).expect("an annex");
            values([("maintenance_kn", annex.maintenance_force.kn())])
        }
        "annex_durations" => {
            let annex = annex::find(inputs.text("annex")).expect("an annex");
            let k_mod = |duration| timber::k_mod(ServiceClass::Two, duration);
            values([
                ("k_mod_snow_low", k_mod(annex.snow_duration_low)),
                ("k_mod_snow_high", k_mod(annex.snow_duration_high)),
                ("k_mod_wind", k_mod(annex.wind_duration)),
            ])
        }
        "combined_load" => combined_load(inputs),
        "lifted_load" => {
            let (g, w) = (inputs.number("g_kn_per_m2"), inputs.number("w_kn_per_m2"));
            let factors = combinations(inputs);
            values([("net_kn_per_m2", factors["G-W_w"] * w - factors["G-W_g"] * g)])
        }
        "consequence_factor" => {
            let k_fi = |class| {
                let annex = annex::find(inputs.text("annex")).expect("an annex");
                let Strength::Single { consequence, .. } = annex.strength else {
                    panic!("the annex prints factors by class")
                };
                basis::consequence_factor(class, consequence)
            };
            values([
                ("cc1", k_fi(ConsequenceClass::Low)),
                ("cc2", k_fi(ConsequenceClass::Medium)),
                ("cc3", k_fi(ConsequenceClass::High)),
            ])
        }
        "maintenance_force" => values([("q_k_kn", imposed::maintenance_force().kn())]),
        "aluminium_biaxial_bending" => {
            let f_o = Stress::from_n_per_mm2(inputs.number("f_o_n_per_mm2"));
            let resistance = |w: &str| {
                let w_el = SectionModulus::from_mm3(inputs.number(w));
                aluminium::bending_resistance(w_el, f_o, inputs.number("gamma_m1"))
            };
            let (m_y_rd, m_z_rd) = (resistance("w_y_mm3"), resistance("w_z_mm3"));
            let interaction = aluminium::biaxial_interaction();
            let rail = RailResistance { normal: m_y_rd, slope: m_z_rd, interaction };
            let m_y = Moment::from_nmm(inputs.number("m_y_nmm"));
            let m_z = Moment::from_nmm(inputs.number("m_z_nmm"));
            values([
                ("m_y_rd_nmm", m_y_rd.nmm()),
                ("m_z_rd_nmm", m_z_rd.nmm()),
                ("utilisation", rail.utilisation(m_y, m_z)),
            ])
        }
        _ => return None,
    })
}

/// Values of an annex, by the names of its fields; those without bound are left out.
fn annex_values(inputs: &Inputs) -> Values {
    let code = inputs.text("annex");
    let revision = inputs.get("revision").map(|_| inputs.text("revision"));
    let annex = annex::revisions(code)
        .find(|annex| revision.is_none_or(|revision| annex.revision == revision))
        .expect("an annex");
    let Strength::Single { factors, consequence: [low, medium, high] } = annex.strength else {
        panic!("the annex prints factors by class")
    };
    values([
        ("permanent_unfavourable", factors.permanent_unfavourable),
        ("permanent_favourable", factors.permanent_favourable),
        ("variable", factors.variable),
        ("consequence_low", low),
        ("consequence_medium", medium),
        ("consequence_high", high),
        ("snow_altitude_limit_m", annex.snow_altitude_limit.m()),
        ("exceptional_snow_factor", annex.exceptional_snow_factor.unwrap_or(0.0)),
        ("eaves_snow_above_m", annex.eaves_snow_above.m()),
        ("eaves_snow_k", annex.eaves_snow_k),
        ("air_density_kg_per_m3", annex.air_density.kg_per_m3()),
        ("gamma_m_connections", annex.gamma_m_connections),
        ("gamma_m_solid_timber", annex.gamma_m_solid_timber),
        ("gamma_m_accidental", annex.gamma_m_accidental),
        ("gamma_m1_aluminium", annex.gamma_m1_aluminium),
        ("gamma_m2_steel", annex.gamma_m2_steel),
    ])
}

/// Factors of every combination, named `<combination>_<action>`, those that are not of strength with
/// their situation before it: `service:`, `accidental:`.
fn combinations(inputs: &Inputs) -> Values {
    let annex = annex::find(inputs.text("annex")).expect("an annex");
    let altitude = Length::from_m(inputs.number("altitude_m"));
    let psi_0_snow = basis::snow_combination_factor(altitude, annex);
    let class = match inputs.get("class").map(|_| inputs.text("class")) {
        Some("CC1") => ConsequenceClass::Low,
        Some("CC3") => ConsequenceClass::High,
        Some("CC2") | None => ConsequenceClass::Medium,
        Some(other) => panic!("no class {other}"),
    };
    basis::combinations(annex, basis::DesignFactors::of(annex, class), psi_0_snow, true)
        .into_iter()
        .flat_map(|combination| {
            let basis::Combination { factors, name, situation, .. } = combination;
            let situation = match situation {
                Situation::Persistent => "",
                Situation::Characteristic => "service:",
                Situation::Accidental => "accidental:",
            };
            let factors = [
                ("g", factors.permanent),
                ("s", factors.snow),
                ("w", factors.wind),
                ("a", factors.exceptional_snow),
            ];
            factors.map(|(action, factor)| (format!("{situation}{name}_{action}"), factor))
        })
        .chain(values([("psi_0_snow", psi_0_snow), ("psi_0_wind", annex.psi_0_wind)]))
        .collect()
}

/// Weight, snow and pressing wind together, either of the two leading.
fn combined_load(inputs: &Inputs) -> Values {
    let loads = ["g", "s", "w"].map(|load| (load, inputs.number(&format!("{load}_kn_per_m2"))));
    let factors = combinations(inputs);
    let led = |name: &str| {
        let of = |(load, value): &(&str, f64)| factors[&format!("{name}_{load}")] * value;
        loads.iter().map(of).sum::<f64>()
    };
    let [snow, wind] = ["G+S+W", "G+W+S"].map(led);
    values([
        ("snow_leading_kn_per_m2", snow),
        ("wind_leading_kn_per_m2", wind),
        ("most_kn_per_m2", snow.max(wind)),
    ])
}

/// In shear and in tension.
fn bolt_resistances(inputs: &Inputs) -> (Force, Force) {
    let class = match inputs.text("bolt_class") {
        "4.6" => BoltClass::Steel4Point6,
        "5.6" => BoltClass::Steel5Point6,
        "8.8" => BoltClass::Steel8Point8,
        "10.9" => BoltClass::Steel10Point9,
        "A2-50" => BoltClass::Stainless50,
        "A2-70" => BoltClass::Stainless70,
        "A4-80" => BoltClass::Stainless80,
        other => panic!("no case is of class {other}"),
    };
    let diameter = Length::from_mm(inputs.number("diameter_mm"));
    let a_s = steel::stress_area(diameter).expect("a listed diameter");
    let (f_ub, alpha_v) = steel::bolt_strength(class);
    let shear = steel::shear_resistance(alpha_v, f_ub, a_s, 1.25);
    (shear, steel::tension_resistance(f_ub, a_s, 1.25))
}

fn bolt(inputs: &Inputs) -> Values {
    let (shear, tension) = bolt_resistances(inputs);
    let bolt = BoltResistance {
        shear,
        tension,
        tension_beside_shear: steel::tension_beside_shear(tension),
    };
    let [shear, tension] = ["shear_n", "tension_n"].map(|name| Force::from_n(inputs.number(name)));
    values([
        ("shear_rd_n", bolt.shear.n()),
        ("tension_rd_n", bolt.tension.n()),
        ("utilisation", bolt.utilisation(shear, tension)),
    ])
}
