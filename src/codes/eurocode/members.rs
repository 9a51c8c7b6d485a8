//! Rafters, bearings on them and rails under a combination: partial factors and factors on strength
//! stay in here.

use super::annex::Annex;
use super::en1993_1_1_2005 as bars;
use super::en1993_1_8_2005::{self as steel, GAMMA_M2};
use super::en1995_1_1_2004::timber::{self, ServiceClass, Support};
use super::en1999_1_1_2007::{self as aluminium, EN1999};
use crate::codes::cited::{Source, Step};
use crate::codes::code::{RafterSection, Timber};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    BarResistance, BearingTimber, BoltClass, BoltResistance, Combination, FlatBar, RailResistance,
    Situation,
};
use crate::roof::BearingFace;
use crate::units::{Force, Length, Moment, SectionModulus, Stress};

/// `k_mod` under a roof.
pub(super) const fn duration_factor(combination: &Combination) -> f64 {
    timber::k_mod(ServiceClass::Two, combination.duration)
}

/// `γ_M` in a combination: the `ordinary` one, save in accidental combinations.
pub(super) const fn partial_factor(annex: &Annex, combination: &Combination, ordinary: f64) -> f64 {
    match combination.situation {
        Situation::Accidental => annex.gamma_m_accidental,
        Situation::Persistent | Situation::Characteristic => ordinary,
    }
}

fn design_strength(annex: &Annex, combination: &Combination, f_k: Stress) -> Stress {
    let gamma_m = partial_factor(annex, combination, annex.gamma_m_solid_timber);
    timber::design_strength(f_k, duration_factor(combination), gamma_m)
}

/// `k_c,90 f_c,90,d` under the edge of a foot, EN 1995-1-1, 6.1.5.
pub(super) fn bearing_strength(
    annex: &Annex,
    on: &BearingTimber,
    combination: &Combination,
) -> Stress {
    let Timber::Eurocode(class) = on.timber;
    let support = match on.face {
        BearingFace::Rafter(depth) => Support::Discrete { depth },
        BearingFace::CounterBatten(depth) if on.backed => Support::Continuous { depth },
        BearingFace::CounterBatten(_) | BearingFace::Boarding => Support::Other,
    };
    let k_c_90 = timber::bearing_factor(support, on.clear);
    design_strength(annex, combination, class.f_c_90_k) * k_c_90
}

/// How far pressure spreads beyond the edge of a foot, along the grain only.
pub(super) const fn bearing_spread(on: &BearingTimber) -> Length {
    match on.face {
        BearingFace::Rafter(_) | BearingFace::CounterBatten(_) => timber::BEARING_SPREAD,
        // The grain of boards runs across the slope.
        BearingFace::Boarding => Length::ZERO,
    }
}

/// Utilisation in bending and in shear, EN 1995-1-1, 6.1.6 and 6.1.7.
///
/// The slenderness of the rafter is not looked at: battens hold its upper edge.
pub(super) fn rafter_utilisation(
    annex: &Annex,
    section: &RafterSection,
    combination: &Combination,
    moment: Moment,
    shear: Force,
) -> [f64; 2] {
    let Timber::Eurocode(class) = section.timber;
    let design = |f_k| design_strength(annex, combination, f_k);
    let f_m_d = design(class.f_m_k) * timber::depth_factor(section.depth);
    let modulus = timber::rectangle_modulus(section.width, section.depth);
    let k_cr = timber::crack_factor(annex.k_cr_rule, class.f_v_k);
    let shear_stress = timber::shear_stress(shear, k_cr, section.width, section.depth);
    [timber::bending_stress(moment, modulus) / f_m_d, shear_stress / design(class.f_v_k)]
}

/// Resistance of a bolt, EN 1993-1-8, Table 3.4.
pub(super) fn bolt(diameter: Length, class: BoltClass) -> Option<BoltResistance> {
    let (a_s, (f_ub, alpha_v)) = (steel::stress_area(diameter)?, steel::bolt_strength(class));
    let tension = steel::tension_resistance(f_ub, a_s, GAMMA_M2);
    Some(BoltResistance {
        shear: steel::shear_resistance(alpha_v, f_ub, a_s, GAMMA_M2),
        tension,
        tension_beside_shear: steel::tension_beside_shear(tension),
    })
}

/// Resistance of a flat bar, EN 1993-1-1, 6.2.5 and 6.2.7.
pub(super) fn flat_bar(bar: &FlatBar) -> BarResistance {
    let section = [bar.width, bar.thickness];
    let (f_y, gamma_m0) =
        (bars::yield_strength(bar.grade, bar.thickness), bars::section_factor(bar.grade));
    BarResistance {
        bending: bars::plastic_moment(section, f_y, gamma_m0),
        torsion: bars::torsion_resistance(section, f_y, gamma_m0),
        elasticity: bars::modulus_of_elasticity(bar.grade),
    }
}

/// Resistance of a rail about its axes, EN 1999-1-1.
pub(super) fn rail(
    annex: &Annex,
    moduli: [SectionModulus; 2],
    proof_strength: Stress,
) -> RailResistance {
    let about =
        |modulus| aluminium::bending_resistance(modulus, proof_strength, annex.gamma_m1_aluminium);
    let [normal, slope] = moduli.map(about);
    RailResistance { normal, slope, interaction: aluminium::biaxial_interaction() }
}

/// A resistance of a rail with its clause.
pub(super) const fn rail_steps(resistance: &RailResistance) -> [Step; 2] {
    let clause = Source::clause(EN1999, "6.2.5");
    [
        Step::new(Quantity::DesignMomentNormal, "M_n,Rd", resistance.normal.knm(), "kN·m", clause),
        Step::new(Quantity::DesignMomentSlope, "M_s,Rd", resistance.slope.knm(), "kN·m", clause),
    ]
}
