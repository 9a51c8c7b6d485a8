//! Snow on the slope.

use crate::codes::eurocode::en1991_1_3_2003::{self as en1991_1_3, OnSlope};
use crate::units::{Angle, Length, LineLoad, Pressure};

/// Snow on the ground and how the roof holds it.
#[derive(Debug, Clone)]
pub struct SnowSite {
    /// Where the ground load comes from, for people.
    pub source: String,
    /// `s_k`.
    pub ground: Pressure,
    /// `C_esl`, where exceptional snow is to be considered.
    pub exceptional: Option<f64>,
    /// `C_e`.
    pub exposure: f64,
    /// `C_t`.
    pub thermal: f64,
    /// Kept from sliding off.
    pub held: bool,
}

/// Snow on the slope.
#[derive(Debug, Clone)]
pub struct Snow {
    /// What it was worked out from.
    pub site: SnowSite,
    /// `μ_1`.
    pub shape: f64,
    /// `s`, per area of plan.
    pub roof: Pressure,
    /// The same per area of slope, in two directions.
    pub on_slope: OnSlope,
    /// `s_Ad` on the ground, if any.
    pub exceptional_ground: Option<Pressure>,
    /// Exceptional snow on the slope, zero if none.
    pub exceptional_on_slope: OnSlope,
    /// Force on a guard at the eaves.
    pub guard: LineLoad,
}

impl Snow {
    /// Works out the snow on a slope of the given pitch and horizontal length.
    ///
    /// The undrifted arrangement governs: the others of Figure 5.3 put half of it on one slope.
    #[must_use]
    pub fn on(site: SnowSite, pitch: Angle, plan_run: Length) -> Self {
        let shape = en1991_1_3::shape_factor(pitch, site.held);
        let roof = |ground| en1991_1_3::roof_load(shape, site.exposure, site.thermal, ground);
        let exceptional_ground =
            site.exceptional.map(|c| en1991_1_3::exceptional_ground_load(c, site.ground));
        let s = roof(site.ground);
        Self {
            shape,
            roof: s,
            on_slope: en1991_1_3::on_slope(s, pitch),
            exceptional_ground,
            exceptional_on_slope: en1991_1_3::on_slope(
                exceptional_ground.map_or(Pressure::ZERO, roof),
                pitch,
            ),
            guard: en1991_1_3::guard_force(s, plan_run, pitch),
            site,
        }
    }
}
