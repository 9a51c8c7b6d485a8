//! The foot plate: what a hook's forces do to its screws.
//!
//! **Model.** Rigid plate, screws pull but do not push. With `reach` from the foot's lower edge
//! down the slope to the rail bolt, `h` the bolt's height above the face the foot bears on
//! (packers included), `L_f` the foot's length:
//! * pressing, the plate turns about its lower edge, `M = N·reach + S·h`;
//! * lifting, about its upper edge, `M = −N·(reach + L_f) − S·h`;
//! * `T_i = M·d_i/Σd²` where `M > 0`; both pivots are looked at and the larger pull counts.
//! * Lifting, no screw is credited with less than its equal share of the lift: the moment of the
//!   slope force may relieve the turning, not the lift itself.
//!
//! Sideways, with the arm `e` off the rafter axis, the plate turns about the edge of the timber it
//! bears on, half-width `b`: pressing by `N·(e − b)` once the arm stands outside, lifting by
//! `|N|·e`; these pulls are added. The slope force is shared equally, and its moment about the
//! screws' centre is added as a vector.
//!
//! **Checked by** hand sums in the tests below; statics only, no source needed.

use crate::hardware::Foot;
use crate::mechanics::plate;
use crate::units::{Force, Length, Moment};

/// Demand on one screw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Demand {
    /// Pull along the screw.
    pub pull: Force,
    /// Shear across it.
    pub shear: Force,
}

/// A foot with its levers worked out.
#[derive(Debug, Clone, PartialEq)]
pub struct FootModel {
    reach: Length,
    height: Length,
    length: Length,
    arm_offset: Length,
    half_bearing: Length,
    screws: Vec<ScrewLevers>,
}

/// A foot in a few numbers, for bounds on what it can carry.
#[derive(Debug, Clone, Copy)]
pub struct FootLevers {
    /// Largest pull per moment about the lower edge, 1/mm.
    pub lower_edge: f64,
    /// Largest pull per moment about the upper edge, 1/mm.
    pub upper_edge: f64,
    /// Arm of a pressing force about the lower edge.
    pub press_arm: Length,
    /// Arm of a lifting force about the upper edge.
    pub lift_arm: Length,
    /// Arm of the slope force about either.
    pub slope_arm: Length,
    /// Largest shear per slope force.
    pub shear: f64,
}

/// Pull of a screw per unit of moment about each edge, and shear per unit of slope force.
#[derive(Debug, Clone, Copy, PartialEq)]
struct ScrewLevers {
    lower_edge: f64,
    upper_edge: f64,
    near_side: f64,
    far_side: f64,
    shear: f64,
}

impl FootModel {
    /// Works out the levers.
    ///
    /// `height` is that of the rail bolt above the bearing face; `arm_offset` how far the arm
    /// stands from the rafter axis (positive to the right); `bearing_width` that of the timber.
    #[must_use]
    pub fn new(
        foot: &Foot,
        reach: Length,
        height: Length,
        arm_offset: Length,
        bearing_width: Length,
    ) -> Self {
        let half_bearing = foot.width.min(bearing_width) / 2.0;
        let n = foot.screws.len() as f64;
        let sign = if arm_offset < Length::ZERO { -1.0 } else { 1.0 };
        let centre = |axis: usize| foot.screws.iter().map(|s| s[axis]).sum::<Length>() / n;
        let (cx, cy) = (centre(0), centre(1));
        let polar: f64 =
            foot.screws.iter().map(|s| (s[0] - cx).mm().powi(2) + (s[1] - cy).mm().powi(2)).sum();
        let lever = (arm_offset - cx).mm();
        let turn = if polar > 0.0 { lever / polar } else { 0.0 };
        let about_edges = per_moment(foot, |s| s[1]).zip(per_moment(foot, |s| foot.length - s[1]));
        let about_sides = per_moment(foot, |s| half_bearing - sign * s[0])
            .zip(per_moment(foot, |s| half_bearing + sign * s[0]));
        let levers = foot.screws.iter().zip(about_edges).zip(about_sides);
        let screws = levers
            .map(|((s, (lower_edge, upper_edge)), (near_side, far_side))| {
                let along = 1.0 / n + turn * (s[0] - cx).mm();
                let across = turn * (s[1] - cy).mm();
                let shear = along.hypot(across);
                ScrewLevers { lower_edge, upper_edge, near_side, far_side, shear }
            })
            .collect();
        Self {
            reach,
            height,
            length: foot.length,
            arm_offset: arm_offset.abs(),
            half_bearing,
            screws,
        }
    }

    /// Number of screws.
    #[must_use]
    pub fn screws(&self) -> usize {
        self.screws.len()
    }

    /// Largest pull a unit of moment about the lower and about the upper edge puts on a screw, the
    /// arms of normal and slope force about those edges, and the largest shear per slope force.
    #[must_use]
    pub fn levers(&self) -> FootLevers {
        let largest = |of: fn(&ScrewLevers) -> f64| self.screws.iter().map(of).fold(0.0, f64::max);
        FootLevers {
            lower_edge: largest(|s| s.lower_edge),
            upper_edge: largest(|s| s.upper_edge),
            press_arm: self.reach,
            lift_arm: self.reach + self.length,
            slope_arm: self.height,
            shear: largest(|s| s.shear),
        }
    }

    /// Of each screw: its pull per unit of moment about the lower and about the upper edge, its shear
    /// per slope force, and its pull sideways per pressing and per lifting force.
    pub fn screw_levers(&self) -> impl Iterator<Item = [f64; 5]> + '_ {
        let beyond = (self.arm_offset - self.half_bearing).max(Length::ZERO).mm();
        let offset = self.arm_offset.mm();
        self.screws.iter().map(move |s| {
            [s.lower_edge, s.upper_edge, s.shear, beyond * s.near_side, offset * s.far_side]
        })
    }

    /// Demand on every screw under a normal and a slope force.
    pub fn demands(&self, normal: Force, slope: Force) -> impl Iterator<Item = Demand> + '_ {
        let about_lower = normal * self.reach + slope * self.height;
        let about_upper = -(normal * (self.reach + self.length)) - slope * self.height;
        let lift = (-normal).max(Force::ZERO);
        let press = normal.max(Force::ZERO);
        let about_near = press * (self.arm_offset - self.half_bearing);
        let about_far = lift * self.arm_offset;
        let share = lift / self.screws.len() as f64;
        let along = slope.abs();
        let pulled = |moment: Moment, lever: f64| Force::from_n(moment.nmm().max(0.0) * lever);
        self.screws.iter().map(move |screw| {
            let tilting = pulled(about_lower, screw.lower_edge)
                .max(pulled(about_upper, screw.upper_edge))
                .max(share);
            let sideways = pulled(about_near, screw.near_side) + pulled(about_far, screw.far_side);
            Demand { pull: tilting + sideways, shear: along * screw.shear }
        })
    }

    /// A foot none of whose screws is loaded more than those of any of `feet`: for lower bounds. `None`
    /// of no feet.
    ///
    /// Sideways pulls are dropped and each screw keeps its smallest shear.
    #[must_use]
    pub fn least_loaded<'a>(mut feet: impl Iterator<Item = &'a Self>) -> Option<Self> {
        let mut least = feet.next()?.clone();
        least.arm_offset = Length::ZERO;
        for screw in &mut least.screws {
            screw.near_side = 0.0;
            screw.far_side = 0.0;
        }
        for foot in feet {
            for (least, screw) in least.screws.iter_mut().zip(&foot.screws) {
                least.shear = least.shear.min(screw.shear);
            }
        }
        Some(least)
    }
}

/// Pull of each screw of a foot per unit of moment about the edge they are this far from.
fn per_moment(
    foot: &Foot,
    distance: impl Fn(&[Length; 2]) -> Length + Clone,
) -> impl Iterator<Item = f64> {
    plate::pulls(Moment::from_nmm(1.0), foot.screws.iter().map(distance)).map(Force::n)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn foot() -> Foot {
        let mm = Length::from_mm;
        Foot {
            length: mm(90.0),
            width: mm(140.0),
            thickness: mm(6.0),
            lateral_range: mm(45.0),
            screws: vec![[mm(-14.0), mm(15.0)], [mm(14.0), mm(75.0)]],
        }
    }

    fn demands(offset: f64, n: f64, s: f64) -> Vec<Demand> {
        let mm = Length::from_mm;
        FootModel::new(&foot(), mm(262.0), mm(105.0), mm(offset), mm(50.0))
            .demands(Force::from_kn(n), Force::from_kn(s))
            .collect()
    }

    /// By hand: M = 1.0·262 + 0.5·105 = 314.5 kN·mm, Σd² = 15² + 75² = 5850 mm²,
    /// T = 314.5·75/5850 = 4.032 kN and 314.5·15/5850 = 0.806 kN; shear 0.25 kN each.
    #[test]
    fn pressing_pulls_the_upper_screw() {
        let d = demands(0.0, 1.0, 0.5);
        assert!((d[1].pull.kn() - 4.032_05).abs() < 1e-4);
        assert!((d[0].pull.kn() - 0.806_41).abs() < 1e-4);
        assert!((d[0].shear.kn() - 0.25).abs() < 1e-12);
    }

    /// By hand: M = 0.8·352 − 0.3·105 = 250.1 kN·mm about the upper edge; the lower screw is
    /// 75 mm from it: 250.1·75/5850 = 3.206 kN.
    #[test]
    fn lifting_pulls_the_lower_screw() {
        let d = demands(0.0, -0.8, 0.3);
        assert!((d[0].pull.kn() - 3.206_41).abs() < 1e-4);
    }

    /// The moment of a large slope force must not wish the lift away: half of 0.1 kN each.
    #[test]
    fn a_lift_is_never_less_than_its_equal_share() {
        let d = demands(0.0, -0.1, 0.4);
        assert!(d.iter().all(|d| d.pull.kn() >= 0.05));
    }

    /// By hand, arm 45 mm right of the axis on a 50 mm batten: M = 1.0·(45 − 25) = 20 kN·mm about
    /// the batten's right edge, 11 and 39 mm from the screws: 20·39/(121 + 1521) = 0.475 kN on the
    /// left one, which the slope-wise moment pulls by 262·15/5850 = 0.672 kN.
    #[test]
    fn an_arm_beyond_the_batten_pulls_the_far_screw() {
        let d = demands(45.0, 1.0, 0.0);
        assert!((d[0].pull.kn() - (0.671_79 + 0.475_03)).abs() < 1e-4);
    }
}
