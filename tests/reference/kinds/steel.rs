//! Flat bars of steel: EN 1993-1-1 and EN 1993-1-4.

use hookspan::codes::eurocode::en1993_1_1_2005 as bars;
use hookspan::codes::vocabulary::SteelGrade;
use hookspan::units::{Length, Stress};

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    let mm = |name| Length::from_mm(inputs.number(name));
    let section = || [mm("width_mm"), mm("thickness_mm")];
    let f_y = || Stress::from_n_per_mm2(inputs.number("f_y_n_per_mm2"));
    Some(match kind {
        "flat_bar_steel" => {
            let grade = grade(inputs.text("grade"));
            values([
                ("f_y_n_per_mm2", bars::yield_strength(grade, mm("thickness_mm")).n_per_mm2()),
                ("e_n_per_mm2", bars::modulus_of_elasticity(grade).n_per_mm2()),
                ("gamma_m0", bars::section_factor(grade)),
            ])
        }
        "flat_bar_bending" => {
            let moment = bars::plastic_moment(section(), f_y(), inputs.number("gamma_m0"));
            values([("moment_nmm", moment.nmm())])
        }
        "flat_bar_torsion" => {
            let moment = bars::torsion_resistance(section(), f_y(), inputs.number("gamma_m0"));
            values([("moment_nmm", moment.nmm())])
        }
        _ => return None,
    })
}

fn grade(name: &str) -> SteelGrade {
    match name {
        "S235" => SteelGrade::S235,
        "S275" => SteelGrade::S275,
        "S355" => SteelGrade::S355,
        "1.4301" => SteelGrade::Stainless1_4301,
        "1.4401" => SteelGrade::Stainless1_4401,
        other => panic!("no grade is called {other}"),
    }
}
