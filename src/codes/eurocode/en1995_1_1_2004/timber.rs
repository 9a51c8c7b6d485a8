//! Sections 2, 3 and 6: strength of solid timber and the checks of a rafter, with the classes of
//! EN 338:2016.

use crate::codes::vocabulary::LoadDuration;
use crate::units::{Density, Force, Length, Moment, SectionModulus, Stress};

/// Document of the strength classes, as cited.
pub(in crate::codes::eurocode) const EN338: &str = "EN 338:2016";

/// A strength class of solid softwood.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timber {
    /// Name of the class, `"C24"`.
    pub name: &'static str,
    /// `f_m,k`: bending.
    pub f_m_k: Stress,
    /// `f_t,0,k`: tension along the grain.
    pub f_t_0_k: Stress,
    /// `f_c,0,k`: compression along the grain.
    pub f_c_0_k: Stress,
    /// `f_c,90,k`: compression across the grain.
    pub f_c_90_k: Stress,
    /// `f_v,k`: shear.
    pub f_v_k: Stress,
    /// `E_0,mean`: mean modulus along the grain.
    pub e_mean: Stress,
    /// `E_0,05`: lower modulus along the grain.
    pub e_05: Stress,
    /// `E_90,mean`: mean modulus across the grain.
    pub e_90_mean: Stress,
    /// `G_mean`: mean shear modulus.
    pub g_mean: Stress,
    /// `ρ_k`: lower density.
    pub rho_k: Density,
    /// `ρ_mean`: mean density.
    pub rho_mean: Density,
}

/// EN 338:2016 Table 1, softwood; N/mm² and kg/m³.
#[rustfmt::skip]
const EN_338: &[Timber] = &[
    //          f_m   f_t,0 f_c,0 f_c,90 f_v   E_0      E_05    E_90   G      rho_k rho_mean
    row("C16", [16.0,  8.5, 17.0, 2.2,   3.2,  8000.0, 5400.0, 270.0, 500.0], [310.0, 370.0]),
    row("C18", [18.0, 10.0, 18.0, 2.2,   3.4,  9000.0, 6000.0, 300.0, 560.0], [320.0, 380.0]),
    row("C20", [20.0, 11.5, 19.0, 2.3,   3.6,  9500.0, 6400.0, 320.0, 590.0], [330.0, 400.0]),
    row("C22", [22.0, 13.0, 20.0, 2.4,   3.8, 10000.0, 6700.0, 330.0, 630.0], [340.0, 410.0]),
    row("C24", [24.0, 14.5, 21.0, 2.5,   4.0, 11000.0, 7400.0, 370.0, 690.0], [350.0, 420.0]),
    row("C27", [27.0, 16.5, 22.0, 2.5,   4.0, 11500.0, 7700.0, 380.0, 720.0], [360.0, 430.0]),
    row("C30", [30.0, 19.0, 24.0, 2.7,   4.0, 12000.0, 8000.0, 400.0, 750.0], [380.0, 460.0]),
    row("C35", [35.0, 22.5, 25.0, 2.7,   4.0, 13000.0, 8700.0, 430.0, 810.0], [390.0, 470.0]),
    row("C40", [40.0, 26.0, 27.0, 2.8,   4.0, 14000.0, 9400.0, 470.0, 880.0], [400.0, 480.0]),
];

const fn row(name: &'static str, stresses: [f64; 9], densities: [f64; 2]) -> Timber {
    let [f_m_k, f_t_0_k, f_c_0_k, f_c_90_k, f_v_k, e_mean, e_05, e_90_mean, g_mean] = stresses;
    let [rho_k, rho_mean] = densities;
    Timber {
        name,
        f_m_k: Stress::from_n_per_mm2(f_m_k),
        f_t_0_k: Stress::from_n_per_mm2(f_t_0_k),
        f_c_0_k: Stress::from_n_per_mm2(f_c_0_k),
        f_c_90_k: Stress::from_n_per_mm2(f_c_90_k),
        f_v_k: Stress::from_n_per_mm2(f_v_k),
        e_mean: Stress::from_n_per_mm2(e_mean),
        e_05: Stress::from_n_per_mm2(e_05),
        e_90_mean: Stress::from_n_per_mm2(e_90_mean),
        g_mean: Stress::from_n_per_mm2(g_mean),
        rho_k: Density::from_kg_per_m3(rho_k),
        rho_mean: Density::from_kg_per_m3(rho_mean),
    }
}

/// The strength class of this name, C16 to C40.
///
/// EN 338:2016 Table 1.
///
/// Confirmed: three independent transcriptions, `E_90,mean` by two. Earlier editions differ (C24 had
/// `f_v,k` 2.5).
#[must_use]
pub fn strength_class(name: &str) -> Option<&'static Timber> {
    EN_338.iter().find(|timber| timber.name == name)
}

/// Moisture the timber lives in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ServiceClass {
    /// 1: heated rooms.
    One,
    /// 2: under a roof, not heated.
    Two,
    /// 3: weather.
    Three,
}

/// `k_mod`: factor on strength for load duration and moisture, solid timber and screws in it.
///
/// EN 1995-1-1:2004, 3.1.3, Table 3.1; the class between short and instantaneous is the mean of
/// the two, DIN EN 1995-1-1/NA Table NA.1.
///
/// Confirmed: three public libraries, the German mean by one of them only.
#[must_use]
pub const fn k_mod(service_class: ServiceClass, duration: LoadDuration) -> f64 {
    match service_class {
        ServiceClass::One | ServiceClass::Two => match duration {
            LoadDuration::Permanent => 0.60,
            LoadDuration::Long => 0.70,
            LoadDuration::Medium => 0.80,
            LoadDuration::Short => 0.90,
            LoadDuration::ShortInstantaneous => 1.00,
            LoadDuration::Instantaneous => 1.10,
        },
        ServiceClass::Three => match duration {
            LoadDuration::Permanent => 0.50,
            LoadDuration::Long => 0.55,
            LoadDuration::Medium => 0.65,
            LoadDuration::Short => 0.70,
            LoadDuration::ShortInstantaneous => 0.80,
            LoadDuration::Instantaneous => 0.90,
        },
    }
}

/// `f_d`: design value of a strength.
///
/// EN 1995-1-1:2004, 2.4.1(1)P, Eq. (2.14): `f_d = k_mod · f_k / γ_M`.
///
/// Confirmed: printed worked examples.
#[must_use]
pub fn design_strength(f_k: Stress, k_mod: f64, gamma_m: f64) -> Stress {
    f_k * (k_mod / gamma_m)
}

/// `F_Rd`: design value of a resistance.
///
/// EN 1995-1-1:2004, 2.4.3(1)P, Eq. (2.17): `F_Rd = k_mod · F_Rk / γ_M`.
///
/// Confirmed: a printed worked example (screws in withdrawal).
#[must_use]
pub fn design_resistance(f_rk: Force, k_mod: f64, gamma_m: f64) -> Force {
    f_rk * (k_mod / gamma_m)
}

/// `k_h`: bonus on bending strength for shallow solid timber.
///
/// EN 1995-1-1:2004, 3.2(3), Eq. (3.1): `k_h = min((150 / h)^0.2, 1.3)` for `h < 150 mm`, else 1;
/// for `ρ_k ≤ 700 kg/m³`, which all classes of [`strength_class`] are.
///
/// One source: a clause-by-clause library.
#[must_use]
pub fn depth_factor(h: Length) -> f64 {
    if h <= Length::ZERO {
        1.3
    } else if h < Length::from_mm(150.0) {
        f64::min((150.0 / h.mm()).powf(0.2), 1.3)
    } else {
        1.0
    }
}

/// `W`: section modulus of a rectangle.
///
/// EN 1995-1-1:2004, 6.1.6 (elastic section): `W = b h² / 6`.
///
/// Confirmed: printed worked examples, by their bending stress.
#[must_use]
pub fn rectangle_modulus(b: Length, h: Length) -> SectionModulus {
    SectionModulus::from_mm3(b.mm() * h.mm() * h.mm() / 6.0)
}

/// `σ_m`: bending stress.
///
/// EN 1995-1-1:2004, 6.1.6(1): `σ_m = M / W`.
///
/// Confirmed: printed worked examples.
#[must_use]
pub fn bending_stress(m: Moment, w: SectionModulus) -> Stress {
    m / w
}

/// How a country counts the cracks in sawn timber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CrackFactorRule {
    /// One number for all solid timber.
    Fixed(f64),
    /// A stress over the shear strength, so that their product stays the same.
    OverShearStrength {
        /// What is divided by `f_v,k`.
        numerator: Stress,
    },
}

/// `k_cr`: share of the width that carries shear.
///
/// EN 1995-1-1:2004+A1:2008, 6.1.7(2): 0.67 recommended, or as the country says.
///
/// One source each: a clause-by-clause library, and a German help page whose 0.65 for C24 is read as
/// 1.3 times 0.5.
#[must_use]
pub fn crack_factor(rule: CrackFactorRule, f_v_k: Stress) -> f64 {
    match rule {
        CrackFactorRule::Fixed(k_cr) => k_cr,
        CrackFactorRule::OverShearStrength { numerator } => f64::min(numerator / f_v_k, 1.0),
    }
}

/// `τ`: greatest shear stress in a rectangle.
///
/// EN 1995-1-1:2004+A1:2008, 6.1.7, Eqs. (6.13) and (6.13a): `τ = 1.5 V / (k_cr b h)`.
///
/// Confirmed: a library; printed examples with `k_cr = 1`.
#[must_use]
pub fn shear_stress(v: Force, k_cr: f64, b: Length, h: Length) -> Stress {
    v * 1.5 / (b * h * k_cr)
}

/// `σ_m,crit`: bending stress at which a rectangle of softwood buckles sideways.
///
/// EN 1995-1-1:2004, 6.3.3(2), Eq. (6.32): `σ_m,crit = 0.78 b² E_0,05 / (h l_ef)`.
///
/// Confirmed: two libraries and a printed example.
#[must_use]
pub fn critical_bending_stress(b: Length, h: Length, l_ef: Length, e_05: Stress) -> Stress {
    e_05 * (0.78 * (b / h) * (b / l_ef))
}

/// `λ_rel,m`: relative slenderness in bending.
///
/// EN 1995-1-1:2004, 6.3.3(2), Eq. (6.30): `λ_rel,m = √(f_m,k / σ_m,crit)`.
///
/// Confirmed: two printed examples.
#[must_use]
pub fn relative_slenderness(f_m_k: Stress, sigma_m_crit: Stress) -> f64 {
    (f_m_k / sigma_m_crit).sqrt()
}

/// `k_crit`: reduction of bending strength for sideways buckling.
///
/// EN 1995-1-1:2004, 6.3.3(4), Eq. (6.34): 1 to `λ = 0.75`, `1.56 - 0.75 λ` to 1.4, `1 / λ²` above.
///
/// Confirmed: two printed examples and two libraries.
#[must_use]
pub fn lateral_buckling_factor(lambda_rel_m: f64) -> f64 {
    if lambda_rel_m <= 0.75 {
        1.0
    } else if lambda_rel_m <= 1.4 {
        1.56 - 0.75 * lambda_rel_m
    } else {
        lambda_rel_m.powi(-2)
    }
}

/// What carries a timber that is pressed on across the grain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Support {
    /// It lies on hard ground all along.
    Continuous {
        /// Its depth `h`.
        depth: Length,
    },
    /// It lies on supports of its own, far from what presses.
    Discrete {
        /// Its depth `h`.
        depth: Length,
    },
    /// Anything else, or not known.
    Other,
}

/// `k_c,90`: how much more than `f_c,90,d` solid softwood bears where it is pressed on a part of its
/// length.
///
/// EN 1995-1-1:2004+A1:2008, 6.1.5(2) to (4): with a clear distance `l_1 ≥ 2 h` between what presses,
/// 1.25 on a continuous support and 1.5 on discrete ones; 1.0 else. Tile battens are not counted as
/// what presses: they carry a small part of the stress (judgement).
///
/// Confirmed: two sources.
#[must_use]
pub fn bearing_factor(support: Support, l_1: Length) -> f64 {
    match support {
        Support::Continuous { depth } if l_1 >= 2.0 * depth => 1.25,
        Support::Discrete { depth } if l_1 >= 2.0 * depth => 1.5,
        Support::Continuous { .. } | Support::Discrete { .. } | Support::Other => 1.0,
    }
}

/// How far a contact counts as longer on a side where the timber goes on along the grain.
///
/// EN 1995-1-1:2004+A1:2008, 6.1.5(1). The clause lengthens a contact by no more than its own length,
/// which whoever uses this sees to.
pub const BEARING_SPREAD: Length = Length::from_mm(30.0);
