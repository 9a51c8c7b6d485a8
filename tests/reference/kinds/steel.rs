//! Flat bars of steel, bolts in slots, rails in torsion: EN 1993 and EN 1999-1-1.

use hookspan::codes::eurocode::en1993_1_1_2005 as bars;
use hookspan::codes::eurocode::en1993_1_8_2005::{self as bolts, BoltInPlate};
use hookspan::codes::eurocode::en1999_1_1_2007 as aluminium;
use hookspan::codes::vocabulary::SteelGrade;
use hookspan::units::{Area, Force, Length, Stress};

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
        "slot_bearing" => {
            let strength = |name| Stress::from_n_per_mm2(inputs.number(name));
            let bolt = BoltInPlate {
                diameter: mm("diameter_mm"),
                hole: mm("hole_mm"),
                plate: mm("plate_mm"),
                end: mm("end_mm"),
                edge: mm("edge_mm"),
            };
            let f_u = strength("f_u_n_per_mm2");
            let resistance =
                bolts::slot_bearing_resistance(&bolt, strength("f_ub_n_per_mm2"), f_u, 1.25);
            values([("bearing_rd_n", resistance.n())])
        }
        "rail_torsion" => {
            let resistance = aluminium::closed_torsion_resistance(
                Area::from_mm2(inputs.number("enclosed_area_mm2")),
                mm("wall_mm"),
                Stress::from_n_per_mm2(inputs.number("f_o_n_per_mm2")),
                inputs.number("gamma_m1"),
            );
            let torque = Force::from_n(inputs.number("normal_n")) * mm("offset_mm");
            let used = torque / resistance;
            values([("resistance_nmm", resistance.nmm()), ("utilisation", used)])
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
