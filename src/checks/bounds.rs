//! What no choice of hooks can do: lower bounds for the search.
//!
//! Everything here may only refute; that nothing refutes proves nothing. Each argument is written
//! at its function, and `tests/properties` holds the search that uses them against exhaustive
//! enumeration.

use crate::units::{Force, Length};

use super::foot::FootModel;
use super::segment::{Limit, Segment};
use super::{clearance, hook, screws};

impl Segment {
    /// Fewest hooks that could carry the loads if they all shared them equally.
    ///
    /// Valid because every utilisation is a convex function of the hook's two forces that is zero
    /// without them: the mean of the hooks' utilisations is at least the utilisation under the
    /// mean force, and the largest is at least the mean. Feet off their rafter's axis are replaced
    /// by one that is never more loaded.
    #[must_use]
    pub fn fewest_by_equilibrium(&self, bound: f64) -> usize {
        if self.candidates.is_empty() {
            return usize::MAX;
        }
        let Some(foot) = &self.least_foot else {
            return 2;
        };
        let passes = |hooks: usize| {
            (0..self.cases.len()).all(|case| self.used_on_equal_shares(case, foot, hooks) <= bound)
        };
        (2..=self.candidates.len()).find(|k| passes(*k)).unwrap_or(self.candidates.len() + 1)
    }

    /// Utilisation of a hook that has its equal share of the loads.
    pub(super) fn used_on_equal_shares(&self, case: usize, foot: &FootModel, hooks: usize) -> f64 {
        let load = &self.cases[case];
        let share = |total: f64| Force::from_n(total / hooks as f64);
        let n = share(self.normal.total_load(&load.normal));
        let s = share(self.slope.total_load(&load.slope));
        self.used_with(foot, self.candidates[0].setting, case, [n, s])
    }

    /// Ranges outside of which a single hook cannot pass, normal and slope.
    ///
    /// Two straight limits bound each end: the linear interaction of the hook, and the pull of the
    /// most loaded screw, which the other force may relieve at the price of the interaction. The
    /// end of the range is where both meet.
    pub(super) fn own_ranges(&self, foot: &FootModel, case: usize, bound: f64) -> [Range; 2] {
        let setting = &self.settings[self.candidates[0].setting];
        if let Limit::Service = self.cases[case].limit {
            return [
                Range(f64::NEG_INFINITY, self.pressed_within(setting.clearance, bound)),
                Range::ALL,
            ];
        }
        let resistance = &setting.screws[case];
        let levers = foot.levers();
        let pull = resistance.pull.n() * bound.sqrt();
        let moment = |lever: f64| if lever > 0.0 { pull / lever } else { f64::INFINITY };
        let (about_lower, about_upper) = (moment(levers.lower_edge), moment(levers.upper_edge));
        let (press, lift, slope) = (self.hook.press.n(), self.hook.lift.n(), self.hook.slope.n());
        let (press_arm, lift_arm, slope_arm) =
            (levers.press_arm.mm(), levers.lift_arm.mm(), levers.slope_arm.mm());
        // Largest f with f/own + x/other <= bound and f·arm - x·relief <= moment for some x >= 0.
        let most = |own: f64, other: f64, arm: f64, relief: f64, moment: f64| {
            let alone = own * bound;
            if alone * arm <= moment {
                return alone;
            }
            let x = (alone * arm - moment) / (relief + own * arm / other);
            own * (bound - x / other).max(0.0)
        };
        let shear = if levers.shear > 0.0 {
            resistance.shear.n() * bound.sqrt() / levers.shear
        } else {
            f64::INFINITY
        };
        let down = most(slope, lift, slope_arm, press_arm, about_lower);
        let up = most(slope, press, slope_arm, lift_arm, about_upper);
        [
            Range(
                -most(lift, slope, lift_arm, slope_arm, about_upper),
                most(press, slope, press_arm, slope_arm, about_lower),
            ),
            Range(-up.min(shear), down.min(shear)),
        ]
    }

    /// Utilisation of the rail in the middle of a bay or at its end: only deflection, and one
    /// that leaves room for the rounding of another path to it.
    pub(super) fn sag_used(&self, case: usize, length: f64, sag: f64) -> f64 {
        match self.cases[case].limit {
            Limit::Service if length > 0.0 => self.limits.deflection_of(sag.abs() / length) - SLACK,
            Limit::Service | Limit::Strength => 0.0,
        }
    }

    /// Largest pressing force that uses no more than this share of a clearance.
    fn pressed_within(&self, clearance: Length, bound: f64) -> f64 {
        self.hook
            .normal_stiffness
            .map_or(f64::INFINITY, |k| (clearance * bound).mm() * k.n_per_mm())
    }

    /// Least utilisation of a hook and its screws when both forces lie somewhere in a range.
    pub(super) fn least_used(
        &self,
        foot: &FootModel,
        case: usize,
        normal: Range,
        slope: Range,
    ) -> f64 {
        let nearest = |r: Range| Force::from_n(r.nearest_to_zero());
        let setting = &self.settings[self.candidates[0].setting];
        if let Limit::Service = self.cases[case].limit {
            return clearance::used(&self.hook, setting.clearance, nearest(normal)) - SLACK;
        }
        let both = |r: Range| [r.0, r.1].map(Force::from_n);
        let resistance = &setting.screws[case];
        hook::utilisation(&self.hook, nearest(normal), nearest(slope))
            .max(screws::least_utilisation(foot, resistance, both(normal), both(slope)))
            - SLACK
    }
}

/// A bound reached by another path than the check itself must not refute what just passes.
pub(super) const SLACK: f64 = 1e-7;

/// Numbers from the first to the second.
#[derive(Debug, Clone, Copy)]
pub(super) struct Range(pub(super) f64, pub(super) f64);

impl Range {
    pub(super) const ALL: Self = Self(f64::NEG_INFINITY, f64::INFINITY);

    pub(super) fn is_empty(self) -> bool {
        self.0 > self.1 + SLACK * (1.0 + self.0.abs())
    }
    pub(super) const fn nearest_to_zero(self) -> f64 {
        if self.0 > 0.0 {
            self.0
        } else if self.1 < 0.0 {
            self.1
        } else {
            0.0
        }
    }
    pub(super) const fn within(self, other: Self) -> Self {
        Self(
            if self.0 > other.0 { self.0 } else { other.0 },
            if self.1 < other.1 { self.1 } else { other.1 },
        )
    }
    pub(super) fn plus(self, other: Self) -> Self {
        Self(self.0 + other.0, self.1 + other.1)
    }
    pub(super) fn less(self, other: Self) -> Self {
        Self(self.0 - other.1, self.1 - other.0)
    }
    pub(super) fn times(self, k: f64) -> Self {
        let (a, b) = (self.0 * k, self.1 * k);
        if k < 0.0 { Self(b, a) } else { Self(a, b) }
    }
}
