//! General dowel equations: AWC TR12, with the material rules of the NDS that its published tables
//! rest on. Those rules are here, not in the crate, because only the tables need them.
//!
//! Inputs are in pounds and inches as printed; the crate gets millimetres and newtons.

use hookspan::codes::tr12_2015::{hinged_end, rotating_end, yield_load};
use hookspan::units::{Force, Length, LineLoad, Moment};

use super::{Values, values};
use crate::case::Inputs;

const LBF_N: f64 = 4.448_221_615_260_5;
const INCH_MM: f64 = 25.4;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    Some(match kind {
        "dowel_across_gap" => example(inputs),
        "dowel_bolted_single_shear" => bolts(inputs),
        "dowel_lag_steel_plate" => lag_screws(inputs),
        _ => return None,
    })
}

/// One member of a connection, in pounds and inches.
#[derive(Clone, Copy)]
struct Member {
    /// Embedment per length of dowel.
    q: f64,
    /// Depth of the dowel in it.
    l: f64,
    /// Yield moment of the dowel in it.
    m: f64,
}

/// Yield loads of a single shear plane in the order `Im, Is, II, IIIm, IIIs, IV`, in pounds.
fn modes(main: Member, side: Member, gap: f64) -> [f64; 6] {
    let line = |q: f64| LineLoad::from_kn_per_m(q * LBF_N / INCH_MM);
    let inches = |l: f64| Length::from_mm(l * INCH_MM);
    let moment = |m: f64| Moment::from_nmm(m * LBF_N * INCH_MM);
    let rotating = |one: Member| rotating_end(line(one.q), inches(one.l));
    let hinged = |one: Member| hinged_end(line(one.q), moment(one.m));
    let pounds = |load: Force| load.n() / LBF_N;
    let load = |side, main| pounds(yield_load(side, main, inches(gap)));
    [
        main.q * main.l,
        side.q * side.l,
        load(rotating(side), rotating(main)),
        // In mode III the hinge lies in the member that does not turn.
        load(hinged(side), rotating(main)),
        load(rotating(side), hinged(main)),
        load(hinged(side), hinged(main)),
    ]
}

fn example(inputs: &Inputs) -> Values {
    let d = inputs.number("d_in");
    let m = inputs.number("f_yb_psi") * d.powi(3) / 6.0;
    let member = |fe, l| Member { q: inputs.number(fe) * d, l: inputs.number(l), m };
    let main = member("f_em_psi", "l_m_in");
    let side = member("f_es_psi", "l_s_in");
    let yields = modes(main, side, inputs.number("gap_in"));
    let r_d = ["r_d_i", "r_d_i", "r_d_ii", "r_d_iii", "r_d_iii", "r_d_iv"];
    let reduced: [f64; 6] = std::array::from_fn(|i| yields[i] / inputs.number(r_d[i]));
    let [im, is, ii, iiim, iiis, iv] = reduced;
    let z = reduced.into_iter().fold(f64::INFINITY, f64::min);
    values([
        ("im_lbf", im),
        ("is_lbf", is),
        ("ii_lbf", ii),
        ("iiim_lbf", iiim),
        ("iiis_lbf", iiis),
        ("iv_lbf", iv),
        ("z_lbf", z),
    ])
}

/// Dowel bearing strength at an angle to the grain, NDS 12.3.3 and 12.3.4, `D >= 1/4 in`.
fn bearing(g: f64, d: f64, angle_deg: f64) -> f64 {
    let (along, across) = (11_200.0 * g, 6_100.0 * g.powf(1.45) / d.sqrt());
    let (sin, cos) = angle_deg.to_radians().sin_cos();
    along * across / (along * sin * sin + across * cos * cos)
}

/// Smallest reduced mode, NDS Table 12.3.1B for `D >= 1/4 in`.
fn reduced(yields: [f64; 6], k_theta: f64) -> f64 {
    let r_d = [4.0, 4.0, 3.6, 3.2, 3.2, 3.2];
    yields.iter().zip(r_d).map(|(z, r)| z / (r * k_theta)).fold(f64::INFINITY, f64::min)
}

fn bolts(inputs: &Inputs) -> Values {
    let (d, g) = (inputs.number("d_in"), inputs.number("g"));
    let m = inputs.number("f_yb_psi") * d.powi(3) / 6.0;
    let angles = [inputs.number("main_angle_deg"), inputs.number("side_angle_deg")];
    let main = Member { q: bearing(g, d, angles[0]) * d, l: inputs.number("l_m_in"), m };
    let side = Member { q: bearing(g, d, angles[1]) * d, l: inputs.number("l_s_in"), m };
    let k_theta = 1.0 + 0.25 * f64::max(angles[0], angles[1]) / 90.0;
    values([("z_lbf", reduced(modes(main, side, 0.0), k_theta))])
}

fn lag_screws(inputs: &Inputs) -> Values {
    let (d, d_r) = (inputs.number("d_in"), inputs.number("d_r_in"));
    let (g, t_s) = (inputs.number("g"), inputs.number("t_s_in"));
    let m = inputs.number("f_yb_psi") * d_r.powi(3) / 6.0;
    let side = Member { q: inputs.number("f_es_psi") * d_r, l: t_s, m };
    let l = inputs.number("penetration_in");
    let z = |angle: f64| {
        // Bearing goes by the nominal diameter, its width by the root.
        let main = Member { q: bearing(g, d, angle) * d_r, l, m };
        let yields = modes(main, side, 0.0);
        let k_theta = 1.0 + 0.25 * angle / 90.0;
        if d_r < 0.25 {
            let k_d = if d_r <= 0.17 { 2.2 } else { 10.0 * d_r + 0.5 };
            yields.into_iter().fold(f64::INFINITY, f64::min) / (k_d * k_theta)
        } else {
            reduced(yields, k_theta)
        }
    };
    values([("z_along_lbf", z(0.0)), ("z_across_lbf", z(90.0))])
}
