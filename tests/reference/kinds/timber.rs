//! Timber and screws: EN 1995-1-1 and EN 338.

use hookspan::codes::eurocode::annex;
use hookspan::codes::eurocode::en1995_1_1_2004::screws_axial::{self as axial, Thread};
use hookspan::codes::eurocode::en1995_1_1_2004::screws_lateral::{
    self as lateral, PlateGrip, Predrilling,
};
use hookspan::codes::eurocode::en1995_1_1_2004::screws_spacing as spacing;
use hookspan::codes::eurocode::en1995_1_1_2004::timber::{self, ServiceClass};
use hookspan::codes::vocabulary::{LoadDuration, ScrewResistance};
use hookspan::units::{Angle, Density, Force, Length, LineLoad, Moment, Stress};

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "strength_class" => strength_class(inputs),
        "k_mod" => k_mod(inputs),
        "crack_factor" => {
            let rule = annex::find(inputs.text("annex")).expect("an annex").k_cr_rule;
            let f_v_k = Stress::from_n_per_mm2(inputs.number("f_v_k_n_per_mm2"));
            values([("k_cr", timber::crack_factor(rule, f_v_k))])
        }
        "depth_factor" => values([("k_h", timber::depth_factor(mm(inputs, "h_mm")))]),
        "timber_beam" => beam(inputs),
        "lateral_buckling" => buckling(inputs),
        "screw_withdrawal" => withdrawal(inputs),
        "screw_withdrawal_declared" => declared_withdrawal(inputs),
        "screw_head_pull_through" => {
            let f_head_k = Stress::from_n_per_mm2(inputs.number("f_head_k_n_per_mm2"));
            let (rho_k, rho_a) =
                (density(inputs, "rho_k_kg_per_m3"), density(inputs, "rho_a_kg_per_m3"));
            let one = axial::head_pull_through(f_head_k, mm(inputs, "d_h_mm"), rho_k, rho_a);
            let n_ef = axial::effective_number(count(inputs));
            values([("n_ef", n_ef), ("f_ax_rk_n", (one * n_ef).n())])
        }
        "embedment_strength" => {
            let angle = Angle::from_deg(inputs.number_or("load_to_grain_deg", 0.0));
            let rho_k = density(inputs, "rho_k_kg_per_m3");
            let f_h =
                lateral::embedment_strength(mm(inputs, "d_mm"), rho_k, predrilling(inputs), angle);
            values([("f_h_k_n_per_mm2", f_h.n_per_mm2())])
        }
        "yield_moment" => {
            let d_ef = lateral::effective_diameter(mm(inputs, "d_core_mm"));
            let f_u = Stress::from_n_per_mm2(inputs.number("f_u_n_per_mm2"));
            let m_y = lateral::yield_moment(f_u, d_ef);
            values([("d_ef_mm", d_ef.mm()), ("m_y_rk_nmm", m_y.nmm())])
        }
        "lateral_steel_timber" => steel_timber(inputs),
        "lateral_steel_timber_gap" => gap(inputs),
        "lateral_steel_timber_screw" => screw(inputs),
        "combined_axial_lateral" => {
            let force = |name| Force::from_n(inputs.number(name));
            let screw = ScrewResistance {
                pull: force("f_ax_rd_n"),
                shear: force("f_v_rd_n"),
                interaction: lateral::combined_interaction(),
            };
            let used = screw.utilisation(force("f_ax_ed_n"), force("f_v_ed_n"));
            values([("utilisation", used), ("sum_of_squares", used.powi(2))])
        }
        "head_clamping" => {
            let share = lateral::head_clamping(mm(inputs, "plate_mm"), mm(inputs, "diameter_mm"));
            values([("share", share)])
        }
        "bearing_factor" => {
            let depth = mm(inputs, "depth_mm");
            let support = match inputs.text("support") {
                "continuous" => timber::Support::Continuous { depth },
                "discrete" => timber::Support::Discrete { depth },
                _ => timber::Support::Other,
            };
            let k_c_90 = timber::bearing_factor(support, mm(inputs, "clear_distance_mm"));
            let mut found = values([("k_c_90", k_c_90)]);
            if inputs.get("f_c_90_k_n_per_mm2").is_some() {
                let f_k = Stress::from_n_per_mm2(inputs.number("f_c_90_k_n_per_mm2"));
                let factors = (inputs.number("k_mod"), inputs.number("gamma_m"));
                let borne = timber::design_strength(f_k, factors.0, factors.1) * k_c_90;
                found.insert("borne_n_per_mm2".to_owned(), borne.n_per_mm2());
            }
            found
        }
        _ => return distances(kind, inputs),
    })
}

/// Kinds about the place of screws in timber.
fn distances(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "axial_distances" => {
            let d = axial::axial_distances(mm(inputs, "d_mm"));
            let least = axial::minimum_point_side_length(mm(inputs, "d_mm"));
            values([
                ("a1_mm", d.a1.mm()),
                ("a2_mm", d.a2.mm()),
                ("a1_cg_mm", d.a1_cg.mm()),
                ("a2_cg_mm", d.a2_cg.mm()),
                ("l_ef_min_mm", least.mm()),
                ("t_min_mm", axial::least_timber(mm(inputs, "d_mm")).mm()),
            ])
        }
        "lateral_distances" => {
            let angle = Angle::from_deg(inputs.number("load_to_grain_deg"));
            least_distances(&spacing::lateral_distances(
                mm(inputs, "d_mm"),
                predrilling(inputs),
                angle,
            ))
        }
        "bolt_distances" => {
            let angle = Angle::from_deg(inputs.number("load_to_grain_deg"));
            least_distances(&spacing::bolt_distances(mm(inputs, "d_mm"), angle))
        }
        "effective_number_of_bolts" => {
            let (a1, d) = (mm(inputs, "a1_mm"), mm(inputs, "d_mm"));
            let n_ef = spacing::effective_number_of_bolts(count(inputs), a1, d);
            let d_ef = lateral::effective_diameter(mm(inputs, "core_mm"));
            values([("n_ef", n_ef), ("d_ef_mm", d_ef.mm())])
        }
        "effective_number_in_row" => {
            let (a1, d) = (mm(inputs, "a1_mm"), mm(inputs, "d_mm"));
            let n = count(inputs);
            let n_ef = spacing::effective_number_in_row(n, a1, d, predrilling(inputs));
            let n_ef = n_ef.expect("covered");
            values([("n_ef", n_ef), ("k_ef", n_ef.log(n as f64))])
        }
        _ => return None,
    })
}

fn least_distances(d: &spacing::LateralDistances) -> Values {
    values([
        ("a1_mm", d.a1.mm()),
        ("a2_mm", d.a2.mm()),
        ("a3_t_mm", d.a3_t.mm()),
        ("a3_c_mm", d.a3_c.mm()),
        ("a4_t_mm", d.a4_t.mm()),
        ("a4_c_mm", d.a4_c.mm()),
    ])
}

fn mm(inputs: &Inputs, name: &str) -> Length {
    Length::from_mm(inputs.number(name))
}

fn density(inputs: &Inputs, name: &str) -> Density {
    Density::from_kg_per_m3(inputs.number(name))
}

/// The number of screws, one when left out.
fn count(inputs: &Inputs) -> usize {
    let n = inputs.get("n").map_or(Some(1), serde_json::Value::as_u64).expect("a whole number");
    usize::try_from(n).expect("a number of screws")
}

fn predrilling(inputs: &Inputs) -> Predrilling {
    if inputs.flag("predrilled") { Predrilling::Predrilled } else { Predrilling::None }
}

fn strength_class(inputs: &Inputs) -> Values {
    let class = timber::strength_class(inputs.text("class")).expect("a class");
    values([
        ("f_m_k", class.f_m_k.n_per_mm2()),
        ("f_t_0_k", class.f_t_0_k.n_per_mm2()),
        ("f_c_0_k", class.f_c_0_k.n_per_mm2()),
        ("f_c_90_k", class.f_c_90_k.n_per_mm2()),
        ("f_v_k", class.f_v_k.n_per_mm2()),
        ("e_mean", class.e_mean.n_per_mm2()),
        ("e_05", class.e_05.n_per_mm2()),
        ("e_90_mean", class.e_90_mean.n_per_mm2()),
        ("g_mean", class.g_mean.n_per_mm2()),
        ("rho_k", class.rho_k.kg_per_m3()),
        ("rho_mean", class.rho_mean.kg_per_m3()),
    ])
}

fn k_mod(inputs: &Inputs) -> Values {
    let class = match inputs.text("service_class") {
        "1" => ServiceClass::One,
        "2" => ServiceClass::Two,
        "3" => ServiceClass::Three,
        other => panic!("no service class {other}"),
    };
    values([
        ("permanent", timber::k_mod(class, LoadDuration::Permanent)),
        ("long", timber::k_mod(class, LoadDuration::Long)),
        ("medium", timber::k_mod(class, LoadDuration::Medium)),
        ("short", timber::k_mod(class, LoadDuration::Short)),
        ("short_instantaneous", timber::k_mod(class, LoadDuration::ShortInstantaneous)),
        ("instantaneous", timber::k_mod(class, LoadDuration::Instantaneous)),
    ])
}

/// A simple beam under uniform load: stresses and design strengths.
fn beam(inputs: &Inputs) -> Values {
    let (b, h) = (mm(inputs, "b_mm"), mm(inputs, "h_mm"));
    let span = Length::from_m(inputs.number("span_m"));
    let load = LineLoad::from_kn_per_m(inputs.number("load_kn_per_m"));
    let (k_mod, gamma_m) = (inputs.number("k_mod"), inputs.number("gamma_m"));
    let bonus = inputs.number_or("strength_bonus", 1.0);
    let f_m_k = Stress::from_n_per_mm2(inputs.number("f_m_k_n_per_mm2"));
    let f_v_k = Stress::from_n_per_mm2(inputs.number("f_v_k_n_per_mm2"));
    let v = load * span * 0.5;
    let m = v * span * 0.25;
    let sigma_m = timber::bending_stress(m, timber::rectangle_modulus(b, h));
    let f_m_d = timber::design_strength(f_m_k * bonus, k_mod, gamma_m);
    let tau = timber::shear_stress(v, inputs.number("k_cr"), b, h);
    values([
        ("m_knm", m.knm()),
        ("v_kn", v.kn()),
        ("sigma_m_n_per_mm2", sigma_m.n_per_mm2()),
        ("f_m_d_n_per_mm2", f_m_d.n_per_mm2()),
        ("utilisation_bending", sigma_m / f_m_d),
        ("tau_n_per_mm2", tau.n_per_mm2()),
        ("f_v_d_n_per_mm2", timber::design_strength(f_v_k, k_mod, gamma_m).n_per_mm2()),
    ])
}

fn buckling(inputs: &Inputs) -> Values {
    let f_m_k = Stress::from_n_per_mm2(inputs.number("f_m_k_n_per_mm2"));
    let sigma = if inputs.get("sigma_m_crit_n_per_mm2").is_some() {
        Stress::from_n_per_mm2(inputs.number("sigma_m_crit_n_per_mm2"))
    } else {
        let e_05 = Stress::from_n_per_mm2(inputs.number("e_05_n_per_mm2"));
        let (b, h) = (mm(inputs, "b_mm"), mm(inputs, "h_mm"));
        timber::critical_bending_stress(b, h, mm(inputs, "l_ef_mm"), e_05)
    };
    let lambda = timber::relative_slenderness(f_m_k, sigma);
    values([("lambda_rel_m", lambda), ("k_crit", timber::lateral_buckling_factor(lambda))])
}

fn withdrawal(inputs: &Inputs) -> Values {
    let thread = Thread { outer: mm(inputs, "d_mm"), inner: mm(inputs, "d_1_mm") };
    let (l_ef, rho_k) = (mm(inputs, "l_ef_mm"), density(inputs, "rho_k_kg_per_m3"));
    let angle = Angle::from_deg(inputs.number("angle_to_grain_deg"));
    let f_ax_k = axial::thread_withdrawal_strength(thread, l_ef, rho_k).expect("covered");
    let one = axial::thread_withdrawal_capacity(thread, l_ef, rho_k, angle).expect("covered");
    let n_ef = axial::effective_number(count(inputs));
    values([
        ("f_ax_k_n_per_mm2", f_ax_k.n_per_mm2()),
        ("n_ef", n_ef),
        ("f_ax_rk_n", (one * n_ef).n()),
    ])
}

fn declared_withdrawal(inputs: &Inputs) -> Values {
    let f_ax_k = Stress::from_n_per_mm2(inputs.number("f_ax_k_n_per_mm2"));
    let (d, l_ef) = (mm(inputs, "d_mm"), mm(inputs, "l_ef_mm"));
    let (rho_k, rho_a) = (density(inputs, "rho_k_kg_per_m3"), density(inputs, "rho_a_kg_per_m3"));
    let angle = Angle::from_deg(inputs.number("angle_to_grain_deg"));
    let one = axial::declared_withdrawal_capacity(f_ax_k, d, l_ef, rho_k, rho_a, angle);
    let group = one * axial::effective_number(count(inputs));
    let design = timber::design_resistance(group, inputs.number("k_mod"), inputs.number("gamma_m"));
    values([("f_ax_rk_one_kn", one.kn()), ("f_ax_rd_kn", design.kn())])
}

/// The standard's own plate equations, both groups.
fn steel_timber(inputs: &Inputs) -> Values {
    let f_h = Stress::from_n_per_mm2(inputs.number("f_h_n_per_mm2"));
    let m_y = Moment::from_nmm(inputs.number("m_y_nmm"));
    let (t, d) = (mm(inputs, "t_mm"), mm(inputs, "d_mm"));
    let rope = Force::from_n(inputs.number("f_ax_rk_n"));
    values([
        ("thin_n", lateral::thin_plate_capacity(t, f_h, d, m_y, rope).force.n()),
        ("thick_n", lateral::thick_plate_capacity(t, f_h, d, m_y, rope).force.n()),
    ])
}

fn gap(inputs: &Inputs) -> Values {
    let grip = match inputs.text("plate") {
        "thin" => PlateGrip::Thin,
        "thick" => PlateGrip::Thick,
        other => panic!("no plate {other}"),
    };
    let f_h = Stress::from_n_per_mm2(inputs.number("f_h_n_per_mm2"));
    let m_y = Moment::from_nmm(inputs.number("m_y_nmm"));
    let (gap, t, d) = (mm(inputs, "gap_mm"), mm(inputs, "t_mm"), mm(inputs, "d_mm"));
    let capacity = lateral::capacity_across_gap(grip, gap, t, f_h, d, m_y);
    let two_sided = capacity.mode.contains("two hinges") || capacity.mode.contains("one hinge in");
    values([("f_v_rk_n", capacity.force.n()), ("hinge_in_timber", f64::from(u8::from(two_sided)))])
}

/// A screw from its thread and density to its capacity under a plate in contact.
fn screw(inputs: &Inputs) -> Values {
    let d_ef = lateral::effective_diameter(mm(inputs, "d_core_mm"));
    let rho_k = density(inputs, "rho_k_kg_per_m3");
    let along = Angle::from_deg(0.0);
    let f_h = lateral::embedment_strength(d_ef, rho_k, predrilling(inputs), along);
    let m_y = Moment::from_nmm(inputs.number("m_y_nmm"));
    let (t_s, t) = (mm(inputs, "t_s_mm"), mm(inputs, "t_mm"));
    let whole = lateral::lateral_capacity(t_s, Length::ZERO, t, f_h, d_ef, d_ef, m_y);
    let thin = lateral::thin_plate_capacity(t, f_h, d_ef, m_y, Force::ZERO);
    let thick = lateral::thick_plate_capacity(t, f_h, d_ef, m_y, Force::ZERO);
    let steps = lateral::between_thin_and_thick(t_s, d_ef, thin, thick);
    assert_eq!(whole, steps, "the single entry and its steps differ");
    values([("d_ef_mm", d_ef.mm()), ("f_v_rk_n", whole.force.n())])
}
