//! Combinations and series of tests of EN 1990, and aluminium of EN 1999-1-1.

use hookspan::codes::eurocode::annex;
use hookspan::codes::eurocode::en1990_2002 as basis;
use hookspan::codes::eurocode::en1990_2002_annex_d::{self as testing, Variation};
use hookspan::codes::eurocode::en1991_1_1_2002 as imposed;
use hookspan::codes::eurocode::en1993_1_8_2005 as steel;
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
        "bolt_in_shear_and_tension" => bolt(inputs),
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
        "consequence_factor" => {
            let k_fi = |class| {
                let annex = annex::find(inputs.text("annex")).expect("an annex");
                basis::consequence_factor(class, annex)
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

/// Factors of every strength combination, named `<combination>_<action>`.
fn combinations(inputs: &Inputs) -> Values {
    let annex = annex::find(inputs.text("annex")).expect("an annex");
    let altitude = Length::from_m(inputs.number("altitude_m"));
    let psi_0_snow = basis::snow_combination_factor(altitude, annex);
    let k_fi = basis::consequence_factor(ConsequenceClass::Medium, annex);
    basis::combinations(annex, basis::PartialFactors::of(annex, k_fi), psi_0_snow, false)
        .into_iter()
        .filter(|combination| combination.situation == Situation::Persistent)
        .flat_map(|combination| {
            let basis::Combination { factors, .. } = combination;
            let factors = [("g", factors.permanent), ("s", factors.snow), ("w", factors.wind)];
            factors.map(|(action, factor)| (format!("{}_{action}", combination.name), factor))
        })
        .chain(values([("psi_0_snow", psi_0_snow), ("psi_0_wind", annex.psi_0_wind)]))
        .collect()
}

fn bolt(inputs: &Inputs) -> Values {
    let class = match inputs.text("bolt_class") {
        "8.8" => BoltClass::Steel8Point8,
        "A2-70" => BoltClass::Stainless70,
        other => panic!("no case is of class {other}"),
    };
    let diameter = Length::from_mm(inputs.number("diameter_mm"));
    let a_s = steel::stress_area(diameter).expect("a listed diameter");
    let (f_ub, alpha_v) = steel::bolt_strength(class);
    let tension = steel::tension_resistance(f_ub, a_s, 1.25);
    let bolt = BoltResistance {
        shear: steel::shear_resistance(alpha_v, f_ub, a_s, 1.25),
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
