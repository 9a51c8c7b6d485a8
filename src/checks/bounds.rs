//! What no choice of hooks can do: lower bounds for the search.
//!
//! Everything here may only refute; that nothing refutes proves nothing. Each argument is written
//! at its function, and `tests/properties` holds the search that uses them against exhaustive
//! enumeration.

use crate::mechanics::beam::{Both, Member};
use crate::units::{Force, Stress};

use super::foot::{Demand, FootModel};
use super::segment::{Limit, Segment, Setting};

impl Segment {
    /// Fewest hooks that could carry the loads if they all shared them equally.
    ///
    /// Valid because every utilisation is a convex function of the hook's two forces that is zero
    /// without them: the mean of the hooks' utilisations is at least the utilisation under the
    /// mean force, and the largest is at least the mean. Feet off their rafter's axis are replaced
    /// by one that is never more loaded. The pull of a foot whose timber fails is not convex, so that
    /// nothing follows within a bound above 1.
    #[must_use]
    pub fn fewest_by_equilibrium(&self, bound: f64) -> usize {
        if self.candidates.is_empty() {
            return usize::MAX;
        }
        let Some(foot) = self.least_foot.as_ref().filter(|_| bound <= 1.0) else {
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

    /// Utilisation of a hook that has its share of what acts square to the slope, and of what acts along it its share
    /// or, where it holds the rail alone, all.
    pub(super) fn used_at_likely_worst(&self, case: usize, foot: &FootModel) -> f64 {
        if self.gathered.is_none() {
            return self.used_on_equal_shares(case, foot, self.candidates.len());
        }
        let load = &self.cases[case];
        let n = self.normal.total_load(&load.normal) / self.candidates.len() as f64;
        let s = self.slope.total_load(&load.slope);
        self.used_with(foot, self.candidates[0].setting, case, [n, s].map(Force::from_n))
    }

    /// Ranges outside of which a single hook cannot pass, normal and slope.
    ///
    /// Two straight limits bound each end: the linear interaction of the hook, and the pull of the
    /// most loaded screw, which the other force may relieve at the price of the interaction. The
    /// end of the range is where both meet.
    fn own_ranges(&self, foot: &FootModel, setting: usize, case: usize, bound: f64) -> Ranges {
        let setting = &self.settings[setting];
        if let Limit::Service = self.cases[case].limit {
            let press = pressed_within(setting, bound).min(FAR);
            return Ranges { low: Both([-FAR; 2]), high: Both([press, FAR]) };
        }
        let screw = setting.screw_bound(case);
        let levers = foot.levers();
        let pull = screw.pull.n() * bound;
        let moment = |lever: f64| if lever > 0.0 { pull / lever } else { f64::INFINITY };
        let (about_lower, about_upper) = (moment(levers.lower_edge), moment(levers.upper_edge));
        let (press, lift, slope) = (self.hook.press.n(), self.hook.lift.n(), self.hook.slope.n());
        let (press_arm, lift_arm) = (levers.press_arm.mm(), levers.lift_arm.mm());
        let (slope_arm, relief_arm) = (levers.slope_arm.mm(), levers.relief_arm.mm());
        // Largest f with f/own + x/other <= bound and f·arm - x·relief <= moment for some x >= 0.
        let most = |own: f64, other: f64, arm: f64, relief: f64, moment: f64| {
            let alone = own * bound;
            if alone * arm <= moment {
                return alone;
            }
            let x = (alone * arm - moment) / (relief + own * arm / other);
            own * (bound - x / other).max(0.0)
        };
        let shear =
            if levers.shear > 0.0 { screw.shear.n() * bound / levers.shear } else { f64::INFINITY };
        let down = most(slope, lift, slope_arm, press_arm, about_lower);
        let up = most(slope, press, slope_arm, lift_arm, about_upper);
        let share = 1.0 / foot.screws() as f64;
        let sideways = foot.screw_levers().fold([0.0_f64; 2], |most, [_, press, lift]| {
            [most[0].max(press), most[1].max(share + lift)]
        });
        // A screw that is not pulled so bears any force.
        let [press_sideways, lift_sideways] = sideways.map(|lever| pull / lever);
        let pressed = most(press, slope, press_arm, relief_arm, about_lower).min(press_sideways);
        let lifted = most(lift, slope, lift_arm, relief_arm, about_upper).min(lift_sideways);
        Ranges { low: Both([-lifted, -up.min(shear)]), high: Both([pressed, down.min(shear)]) }
    }

    /// What a hook on a foot bears in a case within a bound, and the rail.
    pub(super) fn borne(&self, foot: &FootModel, setting: usize, case: usize, bound: f64) -> Borne {
        let own = self.own_ranges(foot, setting, case, bound);
        let setting = &self.settings[setting];
        let bound = bound + SLACK;
        let per = |force: f64| 1.0 / (force * bound);
        if let Limit::Service = self.cases[case].limit {
            let press = pressed_within(setting, bound);
            return Borne {
                own,
                moment: Ranges::EVERYTHING,
                within: Within::Clearance { press, cross_share: setting.spring.cross_share },
            };
        }
        let screw = setting.screw_bound(case);
        let rail = &self.limits.bending;
        let moment = Both([rail.normal, rail.slope].map(|m| (m * bound).nmm()));
        // The argument from the mean over all hooks needs pulls that are convex in the forces. They are
        // while the timber holds, as it does in every choice within a bound of 1. For a higher bound the
        // pulls on an infinitely hard edge serve: they are convex for all forces and never larger.
        let hard = Stress::from_n_per_mm2(f64::INFINITY);
        let timber = if bound <= 1.0 + SLACK { setting.timber[case] } else { hard };
        Borne {
            own,
            moment: Ranges { low: -moment, high: moment },
            within: Within::Strength(Strength {
                press: per(self.hook.press.n()),
                lift: per(self.hook.lift.n()),
                slope: per(self.hook.slope.n()),
                foot: FootBorne {
                    foot: foot.clone(),
                    timber,
                    timber_within: bound,
                    pull: per(screw.pull.n()),
                    shear: per(screw.shear.n()),
                },
            }),
        }
    }

    /// Utilisation of the rail in the middle of a bay or at its end: only deflection, and one
    /// that leaves room for the rounding of another path to it; nothing where the end may be too
    /// short to be judged.
    pub(super) fn sag_used(&self, case: usize, length: f64, sag: Both) -> f64 {
        match self.cases[case].limit {
            Limit::Service if self.limits.surely_judges(length) => {
                let Both([normal, slope]) = sag.abs();
                // A bar does not sag: what its supports move is no deflection of the rail.
                let slope = if self.slope.member() == Member::Bar { 0.0 } else { slope };
                self.limits.deflection_of(normal.max(slope) / length) - SLACK
            }
            Limit::Service | Limit::Strength => 0.0,
        }
    }
}

/// Largest pressing force that uses no more than this share of the clearance.
fn pressed_within(setting: &Setting, bound: f64) -> f64 {
    let stiffness = setting.spring.stiffness;
    stiffness.map_or(f64::INFINITY, |k| (setting.clearance * bound).mm() * k.n_per_mm())
}

/// A bound reached by another path than the check itself must not refute what just passes.
pub(super) const SLACK: f64 = 1e-7;

/// So far out that no force (N) or moment (N·mm) is known to be farther.
pub(super) const FAR: f64 = 1e12;

/// Two ranges of numbers, one for the normal and one for the slope direction.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ranges {
    pub(super) low: Both,
    pub(super) high: Both,
}

impl Ranges {
    /// Every number there may be.
    pub(super) const EVERYTHING: Self = Self { low: Both([-FAR; 2]), high: Both([FAR; 2]) };

    /// One number each.
    pub(super) const fn at(point: Both) -> Self {
        Self { low: point, high: point }
    }
    /// Whether one of the two has nothing in it.
    pub(super) fn is_empty(self) -> bool {
        let past = |low: f64, high: f64| low > high + SLACK * (1.0 + low.abs());
        past(self.low.0[0], self.high.0[0]) || past(self.low.0[1], self.high.0[1])
    }
    pub(super) fn nearest_to_zero(self) -> Both {
        self.low.max(Both::ZERO) + self.high.min(Both::ZERO)
    }
    /// The smallest ranges that both are in.
    pub(super) fn or(self, other: Self) -> Self {
        Self { low: self.low.min(other.low), high: self.high.max(other.high) }
    }
    pub(super) fn within(self, other: Self) -> Self {
        Self { low: self.low.max(other.low), high: self.high.min(other.high) }
    }
    pub(super) fn plus(self, other: Self) -> Self {
        Self { low: self.low + other.low, high: self.high + other.high }
    }
    pub(super) fn less(self, other: Self) -> Self {
        Self { low: self.low - other.high, high: self.high - other.low }
    }
    pub(super) fn times(self, k: Both) -> Self {
        let (a, b) = (self.low * k, self.high * k);
        Self { low: a.min(b), high: a.max(b) }
    }
}

/// What a hook, its screws and the rail bear in one case within a bound: of the hook everything as a
/// share, 1 at most.
#[derive(Debug, Clone)]
pub(super) struct Borne {
    /// Outside of these it surely does not pass.
    pub(super) own: Ranges,
    /// Moment in the rail, N·mm.
    pub(super) moment: Ranges,
    within: Within,
}

/// What a case asks of a hook.
#[derive(Debug, Clone)]
#[expect(
    clippy::large_enum_variant,
    reason = "most cases are of the large one, and it is read often"
)]
enum Within {
    /// That hook, screws and timber bear its forces.
    Strength(Strength),
    /// That its arm stays clear of the tile: the largest force that presses there, and the share of the
    /// slope force that does.
    Clearance { press: f64, cross_share: f64 },
}

/// What a hook bears per force, and its foot.
#[derive(Debug, Clone)]
struct Strength {
    press: f64,
    lift: f64,
    slope: f64,
    foot: FootBorne,
}

/// What a foot, its screws and the timber under it bear in one case within a bound.
#[derive(Debug, Clone)]
struct FootBorne {
    foot: FootModel,
    timber: Stress,
    timber_within: f64,
    /// Share of what a screw bears, per pull and per shear.
    pull: f64,
    shear: f64,
}

impl FootBorne {
    /// Whether screws and timber may pass under forces somewhere in these ranges: what the lower edge
    /// bears rises with both forces, what the upper one bears falls with both, so that either has its
    /// least in a corner.
    fn allows(&self, forces: Ranges) -> bool {
        let [low, high] = [forces.low, forces.high].map(|Both(f)| f.map(Force::from_n));
        let nearest = forces.nearest_to_zero().0.map(Force::from_n);
        let loaded = self.foot.least_under([low, high], nearest, self.timber);
        loaded.timber_used() <= self.timber_within
            && loaded.demands().all(|Demand { pull, shear }| {
                let [pull, shear] = [pull.n() * self.pull, shear.n() * self.shear];
                pull * pull + shear * shear <= 1.0
            })
    }
}

impl Borne {
    /// Whether the hook may pass with forces somewhere in these ranges and in its own.
    pub(super) fn may_bear(&self, forces: Ranges) -> bool {
        let forces = forces.within(self.own);
        !forces.is_empty() && self.allows(forces)
    }

    /// Whether the hook may pass with forces somewhere in these ranges.
    pub(super) fn allows(&self, forces: Ranges) -> bool {
        match &self.within {
            Within::Strength(strength) => strength.allows(forces),
            Within::Clearance { press, cross_share } => {
                let Both([n, s]) = forces.low;
                n + s.max(0.0) * cross_share <= *press
            }
        }
    }
}

impl Strength {
    fn allows(&self, forces: Ranges) -> bool {
        let Both([n, s]) = forces.nearest_to_zero();
        let (press, lift, along) = (n.max(0.0), (-n).max(0.0), s.abs());
        press * self.press + lift * self.lift + along * self.slope <= 1.0
            && self.foot.allows(forces)
    }
}
