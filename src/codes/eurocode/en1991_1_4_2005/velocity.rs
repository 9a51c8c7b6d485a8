//! Section 4: wind velocity and velocity pressure over flat or hilly ground.
//!
//! One function per quantity of the section, and [`peak_pressure`] that goes through them all.
//!
//! **Checked by** `tests/reference/cases/en1991_1_4/` (printed examples and three libraries).

use super::EN1991_1_4;
use crate::codes::{Clause, NotCovered};
use crate::units::{Density, Length, Pressure, Speed};

/// How rough the ground upwind is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TerrainCategory {
    /// 0: sea and coast open to the sea.
    Zero,
    /// I: lakes, flat land without obstacles.
    I,
    /// II: low vegetation, single obstacles.
    Ii,
    /// III: villages, suburbs, forest.
    Iii,
    /// IV: towns.
    Iv,
}

impl TerrainCategory {
    /// Every name there is.
    pub const NAMES: &'static [&'static str] = &["0", "I", "II", "III", "IV"];

    /// Reads the standard's own spelling: `0`, `I`, `II`, `III`, `IV`.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        match text {
            "0" => Some(Self::Zero),
            "I" => Some(Self::I),
            "II" => Some(Self::Ii),
            "III" => Some(Self::Iii),
            "IV" => Some(Self::Iv),
            _ => None,
        }
    }

    /// `z_0` and `z_min`, both in metres.
    const fn table_4_1(self) -> (f64, f64) {
        match self {
            Self::Zero => (0.003, 1.0),
            Self::I => (0.01, 1.0),
            Self::Ii => (0.05, 2.0),
            Self::Iii => (0.3, 5.0),
            Self::Iv => (1.0, 10.0),
        }
    }

    /// As the profile over it needs it, with the recommended turbulence factor.
    #[must_use]
    pub const fn terrain(self) -> Terrain {
        Terrain { z_0: roughness_length(self), z_min: minimum_height(self), k_r: None, k_i: 1.0 }
    }
}

/// Ground upwind as the logarithmic profile needs it: of a category of the standard, or of one that a
/// country has in its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Terrain {
    /// `z_0`: roughness length.
    pub z_0: Length,
    /// `z_min`: height below which the profile stays constant.
    pub z_min: Length,
    /// `k_r`: terrain factor where a country prints it; else it follows from `z_0` by Eq. (4.5).
    pub k_r: Option<f64>,
    /// `k_I`: turbulence factor, recommended 1 (4.4(1)).
    pub k_i: f64,
}

/// `z_0`: roughness length.
///
/// EN 1991-1-4:2005, 4.3.2, Table 4.1: 0.003, 0.01, 0.05, 0.3 and 1.0 m.
///
/// Confirmed: five independent sources.
#[must_use]
pub const fn roughness_length(category: TerrainCategory) -> Length {
    Length::from_m(category.table_4_1().0)
}

/// `z_min`: height below which the profile stays constant.
///
/// EN 1991-1-4:2005, 4.3.2, Table 4.1: 1, 1, 2, 5 and 10 m.
///
/// Confirmed: five independent sources.
#[must_use]
pub const fn minimum_height(category: TerrainCategory) -> Length {
    Length::from_m(category.table_4_1().1)
}

/// `v_b`: basic wind velocity.
///
/// EN 1991-1-4:2005, 4.2(2)P, Eq. (4.1): `v_b = c_dir · c_season · v_b,0`.
///
/// Confirmed: several independent sources.
#[must_use]
pub fn basic_velocity(c_dir: f64, c_season: f64, v_b_0: Speed) -> Speed {
    v_b_0 * (c_dir * c_season)
}

/// `c_prob`: change of the basic velocity with the annual probability of being exceeded.
///
/// EN 1991-1-4:2005, 4.2(2)P note 4, Eq. (4.2):
/// `c_prob = [(1 - K ln(-ln(1 - p))) / (1 - K ln(-ln 0.98))]^n`; recommended `K = 0.2`, `n = 0.5`.
///
/// Confirmed: two independent implementations.
///
/// # Errors
/// [`NotCovered`] unless `0 < p < 1` and the bracket is positive, which it is for every return
/// period above a year with the recommended `K`.
pub fn probability_factor(p: f64, k: f64, n: f64) -> Result<f64, NotCovered> {
    let clause = Clause::new(EN1991_1_4, "4.2(2)P note 4");
    clause.covers(p > 0.0 && p < 1.0, "0 < p < 1")?;
    let gumbel = |p: f64| 1.0 - k * (-(1.0 - p).ln()).ln();
    let bracket = gumbel(p) / gumbel(0.02);
    clause.covers(bracket > 0.0 && bracket.is_finite(), "the bracket is positive")?;
    Ok(bracket.powf(n))
}

/// `q_b`: basic velocity pressure; with another velocity, the pressure that velocity makes.
///
/// EN 1991-1-4:2005, 4.5(1), Eq. (4.10): `q_b = ½ ρ v_b²`.
///
/// Confirmed: printed examples and three libraries.
#[must_use]
pub fn velocity_pressure(rho: Density, v: Speed) -> Pressure {
    Pressure::from_n_per_m2(0.5 * rho.kg_per_m3() * v.m_per_s().powi(2))
}

/// `k_r`: terrain factor.
///
/// EN 1991-1-4:2005, 4.3.2(1), Eq. (4.5): `k_r = 0.19 (z_0 / z_0,II)^0.07`, `z_0,II = 0.05 m`; as printed
/// where a country prints it.
///
/// Confirmed: printed examples and three libraries.
#[must_use]
pub fn terrain_factor(terrain: Terrain) -> f64 {
    terrain.k_r.unwrap_or_else(|| 0.19 * (terrain.z_0.m() / 0.05).powf(0.07))
}

/// `ln(z / z_0)` with `z` not below `z_min`: the shape both profiles share.
fn log_height(terrain: Terrain, z: Length) -> f64 {
    (z.max(terrain.z_min) / terrain.z_0).ln()
}

/// `c_r(z)`: roughness factor.
///
/// EN 1991-1-4:2005, 4.3.2(1), Eq. (4.4): `c_r = k_r ln(z / z_0)`, constant below `z_min`.
///
/// Confirmed: printed examples and three libraries. Holds to 200 m: see [`peak_pressure`].
#[must_use]
pub fn roughness_factor(terrain: Terrain, z: Length) -> f64 {
    terrain_factor(terrain) * log_height(terrain, z)
}

/// `v_m(z)`: mean wind velocity.
///
/// EN 1991-1-4:2005, 4.3.1(1), Eq. (4.3): `v_m = c_r · c_o · v_b`.
///
/// Confirmed: printed examples and three libraries.
#[must_use]
pub fn mean_velocity(c_r: f64, c_o: f64, v_b: Speed) -> Speed {
    v_b * (c_r * c_o)
}

/// `I_v(z)`: turbulence intensity.
///
/// EN 1991-1-4:2005, 4.4(1), Eq. (4.7): `I_v = k_I / (c_o ln(z / z_0))`, constant below `z_min`.
///
/// Confirmed: printed examples and three libraries. `c_o` must be positive: see [`peak_pressure`].
#[must_use]
pub fn turbulence_intensity(terrain: Terrain, z: Length, c_o: f64) -> f64 {
    terrain.k_i / (c_o * log_height(terrain, z))
}

/// `k_p`: recommended peak factor of the gusts. EN 1991-1-4:2005, 4.5(1): the 7 of Eq. (4.8) is twice 3.5.
pub const PEAK_FACTOR: f64 = 3.5;

/// Peak velocity pressure with the quantities it was built from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PeakPressure {
    /// `q_b`: basic velocity pressure.
    pub q_b: Pressure,
    /// `k_r`: terrain factor.
    pub k_r: f64,
    /// `c_r(z)`: roughness factor.
    pub c_r: f64,
    /// `v_m(z)`: mean wind velocity.
    pub v_m: Speed,
    /// `I_v(z)`: turbulence intensity.
    pub i_v: f64,
    /// `c_e(z) = q_p / q_b`: exposure factor.
    pub c_e: f64,
    /// `q_p(z)`: peak velocity pressure.
    pub q_p: Pressure,
}

/// `q_p(z)`: peak velocity pressure at height `z`.
///
/// EN 1991-1-4:2005, 4.5(1), Eq. (4.8): `q_p = (1 + 7 I_v) · ½ ρ v_m²`, or with a country's own peak factor
/// `1 + 2 k_p I_v`; for a pitched roof `z` is the ridge height (7.2.4 to 7.2.6). `c_o` is the orography
/// factor, 1 on flat ground.
///
/// Confirmed: four printed examples, and three independent libraries to six digits.
///
/// # Errors
/// [`NotCovered`] outside `0 m ≤ z ≤ 200 m` (4.3.2(1)) and unless `c_o > 0` and `v_b > 0`.
pub fn peak_pressure(
    v_b: Speed,
    terrain: Terrain,
    z: Length,
    c_o: f64,
    rho: Density,
    k_p: f64,
) -> Result<PeakPressure, NotCovered> {
    Clause::new(EN1991_1_4, "4.3.2(1)")
        .covers((0.0..=200.0).contains(&z.m()), "0 m <= z <= 200 m")?;
    Clause::new(EN1991_1_4, "4.3.3").covers(c_o > 0.0, "the orography factor is positive")?;
    Clause::new(EN1991_1_4, "4.2(2)P")
        .covers(v_b > Speed::ZERO, "the wind velocity is positive")?;

    let c_r = roughness_factor(terrain, z);
    let v_m = mean_velocity(c_r, c_o, v_b);
    let i_v = turbulence_intensity(terrain, z, c_o);
    let q_b = velocity_pressure(rho, v_b);
    let gusts = 1.0 + 2.0 * k_p * i_v;
    Ok(PeakPressure {
        q_b,
        k_r: terrain_factor(terrain),
        c_r,
        v_m,
        i_v,
        c_e: gusts * (c_r * c_o).powi(2),
        q_p: velocity_pressure(rho, v_m) * gusts,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_clauses_are_silent_beyond_their_ends() {
        let probable = |p: f64| probability_factor(p, 0.2, 0.5).is_ok();
        assert!(probable(0.02) && !probable(0.0) && !probable(1.0) && !probable(1.02));
        // With K = 1 the bracket passes zero at p = 1 - exp(-e) = 0.934.
        assert!(probability_factor(0.9, 1.0, 0.5).is_ok());
        assert!(probability_factor(0.95, 1.0, 0.5).is_err());
        let peak = |z: f64, c_o: f64| {
            let rho = Density::from_kg_per_m3(1.25);
            let v_b = Speed::from_m_per_s(25.0);
            let (terrain, z) = (TerrainCategory::Ii.terrain(), Length::from_m(z));
            peak_pressure(v_b, terrain, z, c_o, rho, PEAK_FACTOR).is_ok()
        };
        assert!(peak(200.0, 1.0) && !peak(200.1, 1.0) && !peak(-0.1, 1.0));
        assert!(peak(10.0, 0.05) && !peak(10.0, 0.0));
    }
}
