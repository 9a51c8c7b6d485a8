//! Rafters, bearings on them and rails under a combination: partial factors and factors on strength
//! stay in here.

use super::annex::Annex;
use super::en1993_1_1_2005 as bars;
use super::en1993_1_8_2005 as steel;
use super::en1995_1_1_2004::EN1995;
use super::en1995_1_1_2004::timber::{self, EN338, ServiceClass, Support};
use super::en1999_1_1_2007::{self as aluminium, EN1999};
use crate::codes::cited::{Source, Step};
use crate::codes::code::{RafterSection, Timber};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::{
    AxialResistance, BarResistance, BearingTimber, BoltClass, BoltResistance, Combination, FlatBar,
    LoadDuration, RailResistance, Situation,
};
use crate::roof::BearingFace;
use crate::units::{Area, FlexuralRigidity, Force, Length, Moment, SectionModulus, Stress};

/// Unit of stresses.
const STRESS: &str = "N/mm²";

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
    design_strength(annex, combination, class.f_c_90_k) * bearing_factor(on)
}

fn bearing_factor(on: &BearingTimber) -> f64 {
    let support = match on.face {
        BearingFace::Rafter(depth) => Support::Discrete { depth },
        BearingFace::CounterBatten(depth) if on.backed => Support::Continuous { depth },
        BearingFace::CounterBatten(_) | BearingFace::Boarding => Support::Other,
    };
    timber::bearing_factor(support, on.clear)
}

/// `k_mod` and an ordinary `γ_M` with their clauses.
fn strength_steps(annex: &Annex, combination: &Combination, ordinary: f64) -> [Step; 2] {
    let clause = |number| Source::clause(EN1995, number);
    let k_mod = duration_factor(combination);
    let gamma_m = partial_factor(annex, combination, ordinary);
    let [k_mod_from, gamma_m_from] = match (annex.timber_law, combination.duration) {
        (Some(law), _) => law.map(Source::Clause),
        (None, LoadDuration::ShortInstantaneous) => {
            [Source::clause("DIN EN 1995-1-1/NA", "Table NA.1"), clause("2.4.1, Table 2.3")]
        }
        (None, _) => ["3.1.3, Table 3.1", "2.4.1, Table 2.3"].map(clause),
    };
    [
        Step::new(Quantity::DurationFactor, "k_mod", k_mod, "", k_mod_from),
        Step::new(Quantity::PartialFactor, "γ_M", gamma_m, "", gamma_m_from),
    ]
}

/// Factors on what screws bear in a combination.
pub(super) fn connection_steps(annex: &Annex, combination: &Combination) -> [Step; 2] {
    strength_steps(annex, combination, annex.gamma_m_connections)
}

/// [`bearing_strength`] with its provenance.
pub(super) fn bearing_steps(
    annex: &Annex,
    on: &BearingTimber,
    combination: &Combination,
) -> [Step; 5] {
    let Timber::Eurocode(class) = on.timber;
    let step = |quantity, symbol, stress: Stress, source| {
        Step::new(quantity, symbol, stress.n_per_mm2(), STRESS, source)
    };
    let clause = |number| Source::clause(EN1995, number);
    let class_table = Source::clause(EN338, "Table 1");
    let [k_mod, gamma_m] = strength_steps(annex, combination, annex.gamma_m_solid_timber);
    let borne = bearing_strength(annex, on, combination);
    [
        step(Quantity::CrossGrainStrength, "f_c,90,k", class.f_c_90_k, class_table),
        k_mod,
        gamma_m,
        Step::new(Quantity::BearingFactor, "k_c,90", bearing_factor(on), "", clause("6.1.5")),
        step(Quantity::BearingStrength, "k_c,90 f_c,90,d", borne, clause("Eq. (6.3)")),
    ]
}

/// Mean modulus across the grain.
pub(super) fn across_grain(timber: Timber) -> Step {
    let Timber::Eurocode(class) = timber;
    let source = Source::clause(EN338, "Table 1");
    Step::new(Quantity::TimberAcrossGrain, "E_90", class.e_90_mean.n_per_mm2(), STRESS, source)
}

/// How far pressure spreads beyond the edge of a foot, along the grain only.
pub(super) const fn bearing_spread(on: &BearingTimber) -> Length {
    match on.face {
        BearingFace::Rafter(_) | BearingFace::CounterBatten(_) => timber::BEARING_SPREAD,
        // The grain of boards runs across the slope.
        BearingFace::Boarding => Length::ZERO,
    }
}

/// Stresses and strengths of a rafter.
///
/// The slenderness of the rafter is not looked at: battens hold its upper edge.
struct RafterStrength {
    modulus: SectionModulus,
    bending: Stress,
    k_h: f64,
    f_m_d: Stress,
    k_cr: f64,
    shear: Stress,
    f_v_d: Stress,
}

impl RafterStrength {
    /// EN 1995-1-1, 6.1.6 and 6.1.7.
    fn of(
        annex: &Annex,
        section: &RafterSection,
        combination: &Combination,
        (moment, shear): (Moment, Force),
    ) -> Self {
        let Timber::Eurocode(class) = section.timber;
        let design = |f_k| design_strength(annex, combination, f_k);
        let k_h = timber::depth_factor(section.depth);
        let modulus = timber::rectangle_modulus(section.width, section.depth);
        let k_cr = timber::crack_factor(annex.k_cr_rule, class.f_v_k);
        Self {
            modulus,
            bending: timber::bending_stress(moment, modulus),
            k_h,
            f_m_d: design(class.f_m_k) * k_h,
            k_cr,
            shear: timber::shear_stress(shear, k_cr, section.width, section.depth),
            f_v_d: design(class.f_v_k),
        }
    }

    fn utilisation(&self) -> [f64; 2] {
        [self.bending / self.f_m_d, self.shear / self.f_v_d]
    }
}

/// Utilisation in bending and in shear, EN 1995-1-1, 6.1.6 and 6.1.7.
pub(super) fn rafter_utilisation(
    annex: &Annex,
    section: &RafterSection,
    combination: &Combination,
    effects: (Moment, Force),
) -> [f64; 2] {
    RafterStrength::of(annex, section, combination, effects).utilisation()
}

/// [`rafter_utilisation`] with its provenance.
pub(super) fn rafter_steps(
    annex: &Annex,
    section: &RafterSection,
    combination: &Combination,
    (moment, shear): (Moment, Force),
) -> [Vec<Step>; 2] {
    const STATICS: Source = Source::Other("span moved along the slope");
    let Timber::Eurocode(class) = section.timber;
    let found = RafterStrength::of(annex, section, combination, (moment, shear));
    let [bent, sheared] = found.utilisation();
    let clause = |number| Source::clause(EN1995, number);
    let class_table = Source::clause(EN338, "Table 1");
    let stress = |quantity, symbol, stress: Stress, source| {
        Step::new(quantity, symbol, stress.n_per_mm2(), STRESS, source)
    };
    let [k_mod, gamma_m] = strength_steps(annex, combination, annex.gamma_m_solid_timber);
    let used = |value, source| Step::new(Quantity::Utilisation, "u", value, "", source);
    let bending = vec![
        Step::new(Quantity::RafterMoment, "M", moment.knm(), "kN·m", STATICS),
        Step::new(Quantity::RafterModulus, "W", found.modulus.mm3(), "mm³", clause("6.1.6")),
        stress(Quantity::BendingStress, "σ_m", found.bending, clause("6.1.6(1)")),
        stress(Quantity::BendingStrength, "f_m,k", class.f_m_k, class_table),
        k_mod,
        gamma_m,
        Step::new(Quantity::DepthFactor, "k_h", found.k_h, "", clause("Eq. (3.1)")),
        stress(Quantity::DesignBendingStrength, "k_h f_m,d", found.f_m_d, clause("Eq. (2.14)")),
        used(bent, clause("6.1.6(1)")),
    ];
    let shear = vec![
        Step::new(Quantity::RafterShear, "V", shear.kn(), "kN", STATICS),
        Step::new(Quantity::CrackFactor, "k_cr", found.k_cr, "", clause("6.1.7(2)")),
        stress(Quantity::ShearStress, "τ", found.shear, clause("Eqs. (6.13), (6.13a)")),
        stress(Quantity::ShearStrength, "f_v,k", class.f_v_k, class_table),
        k_mod,
        gamma_m,
        stress(Quantity::DesignShearStrength, "f_v,d", found.f_v_d, clause("Eq. (2.14)")),
        used(sheared, clause("Eq. (6.13)")),
    ];
    [bending, shear]
}

/// Resistance of a bolt, EN 1993-1-8, Table 3.4.
pub(super) fn bolt(annex: &Annex, diameter: Length, class: BoltClass) -> Option<BoltResistance> {
    let (a_s, (f_ub, alpha_v)) = (steel::stress_area(diameter)?, steel::bolt_strength(class));
    let gamma_m2 = annex.gamma_m2_steel;
    let tension = steel::tension_resistance(f_ub, a_s, gamma_m2);
    Some(BoltResistance {
        shear: steel::shear_resistance(alpha_v, f_ub, a_s, gamma_m2),
        tension,
        tension_beside_shear: steel::tension_beside_shear(tension),
    })
}

/// Resistance of a flat bar, EN 1993-1-1, 6.2.5 and 6.2.7.
pub(super) fn flat_bar(annex: &Annex, bar: &FlatBar) -> BarResistance {
    let section = [bar.width, bar.thickness];
    let f_y = bars::yield_strength(bar.grade, bar.thickness);
    let gamma_m0 = bars::section_factor(bar.grade) * annex.gamma_m0_steel;
    BarResistance {
        bending: bars::plastic_moment(section, f_y, gamma_m0),
        torsion: bars::torsion_resistance(section, f_y, gamma_m0),
        elasticity: bars::modulus_of_elasticity(bar.grade),
    }
}

/// A resistance of a bolt with its clause.
pub(super) const fn bolt_steps(resistance: &BoltResistance) -> [Step; 3] {
    const CLAUSE: Source = Source::clause(steel::EN1993_1_8, "Table 3.4");
    let BoltResistance { shear, tension, tension_beside_shear } = *resistance;
    [
        Step::new(Quantity::BoltShearResistance, "F_v,Rd", shear.kn(), "kN", CLAUSE),
        Step::new(Quantity::BoltTensionResistance, "F_t,Rd", tension.kn(), "kN", CLAUSE),
        Step::new(
            Quantity::BoltTensionBesideShear,
            "1.4 F_t,Rd",
            tension_beside_shear.kn(),
            "kN",
            CLAUSE,
        ),
    ]
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

/// Resistance of a rail along its axis, EN 1999-1-1.
pub(super) fn rail_axial(
    annex: &Annex,
    (area, rigidity): (Area, FlexuralRigidity),
    proof_strength: Stress,
) -> AxialResistance {
    AxialResistance {
        force: aluminium::axial_resistance(area, proof_strength, annex.gamma_m1_aluminium),
        critical: aluminium::critical_force_by_length(rigidity),
    }
}

/// A resistance of a rail along its axis with its clause.
pub(super) fn rail_axial_step(resistance: &AxialResistance) -> Step {
    let clause = Source::clause(EN1999, "6.2.3");
    Step::new(Quantity::DesignAxialForce, "N_Rd", resistance.force.kn(), "kN", clause)
}

/// A resistance of a rail with its clause.
pub(super) const fn rail_steps(resistance: &RailResistance) -> [Step; 2] {
    let clause = Source::clause(EN1999, "6.2.5");
    [
        Step::new(Quantity::DesignMomentNormal, "M_n,Rd", resistance.normal.knm(), "kN·m", clause),
        Step::new(Quantity::DesignMomentSlope, "M_s,Rd", resistance.slope.knm(), "kN·m", clause),
    ]
}
