//! What no choice of hooks can do: lower bounds for the search.
//!
//! Everything here may only refute; that nothing refutes proves nothing. Each argument is written
//! at its function, and `tests/properties` holds the search that uses them against exhaustive
//! enumeration.

use crate::mechanics::beam::{Chain, LeftPart};
use crate::units::Force;

use super::foot::FootModel;
use super::screws::Resistance;
use super::segment::{Limit, Segment, Workspace};
use super::{clearance, hook, screws};

/// What single hooks can bear at most within a bound, kept as long as the bound stays.
#[derive(Debug, Clone, Default)]
pub struct Borne {
    bound: f64,
    ranges: Vec<Option<[Range; 2]>>,
}

impl Borne {
    fn of(&mut self, case: usize, bound: f64, work_out: impl FnOnce() -> [Range; 2]) -> [Range; 2] {
        if self.bound.to_bits() != bound.to_bits() {
            self.bound = bound;
            self.ranges.clear();
        }
        if self.ranges.len() <= case {
            self.ranges.resize(case + 1, None);
        }
        *self.ranges[case].get_or_insert_with(work_out)
    }
}

impl Segment {
    /// Fewest hooks that could carry the loads if they all shared them equally.
    ///
    /// Valid because every utilisation is a convex function of the hook's two forces that is zero
    /// without them: the mean of the hooks' utilisations is at least the utilisation under the
    /// mean force, and the largest is at least the mean. Feet off their rafter's axis are replaced
    /// by one that is never more loaded.
    #[must_use]
    pub fn fewest_by_equilibrium(&self, bound: f64) -> usize {
        let Some(first) = self.candidates.first() else {
            return usize::MAX;
        };
        let Some(foot) = &self.least_foot else {
            return 2;
        };
        let setting = &self.settings[first.setting];
        let passes = |hooks: usize| {
            self.cases.iter().zip(&setting.screws).all(|(case, resistance)| {
                let share = |total: f64| Force::from_n(total / hooks as f64);
                let n = share(self.normal.total_load(&case.normal));
                let s = share(self.slope.total_load(&case.slope));
                let used = match &case.limit {
                    Limit::Strength => hook::utilisation(&self.hook, n, s)
                        .max(screws::utilisation(foot, resistance, n, s)),
                    Limit::Service => clearance::used(&self.hook, setting.clearance, n),
                };
                used <= bound
            })
        };
        (2..=self.candidates.len()).find(|k| passes(*k)).unwrap_or(self.candidates.len() + 1)
    }

    /// Whether no subset that starts with this one and adds at most `more` hooks to its right, and
    /// at least one, can stay within `bound`.
    ///
    /// Asked in the combinations that refused last. The hooks left of the last one depend on
    /// everything to the right through two numbers, the force on the last hook and the moment in
    /// the rail over it ([`Chain::influences`]). Both have limits of their own, and every hook's own
    /// limits narrow them further; what is left of them gives each hook a range of forces. A hook
    /// none of whose range passes refutes. And what the hooks taken do not carry is left to those
    /// added, whose mean utilisation follows as in [`Self::fewest_by_equilibrium`]; fewer of them
    /// would each carry more.
    #[must_use]
    pub fn refutes(
        &self,
        normal: &Chain<'_>,
        slope: &Chain<'_>,
        subset: &[usize],
        more: usize,
        bound: f64,
        (space, borne): (&Workspace, &mut Borne),
    ) -> bool {
        const COMBINATIONS: usize = 2;
        let (Some(least), Some(first)) = (&self.least_foot, subset.first()) else { return false };
        // A foot no other is loaded less than there is only where all are set alike.
        let resistances = &self.settings[self.candidates[*first].setting].screws;
        let strength = |i: &usize| match self.cases[*i].limit {
            Limit::Strength => Some((*i, resistances[*i])),
            Limit::Service => None,
        };
        for (index, resistance) in space.order.iter().filter_map(strength).take(COMBINATIONS) {
            let case = &self.cases[index];
            let [own_n, own_s] =
                borne.of(index, bound, || self.own_ranges(least, &resistance, bound));
            let (left_n, left_s) =
                match (normal.influences(&case.normal), slope.influences(&case.slope)) {
                    (LeftPart::Stands(n), LeftPart::Stands(s)) => (n, s),
                    (LeftPart::NeverStable, _) | (_, LeftPart::NeverStable) => return true,
                    // Over a last hook that the rail left of it hangs from by a hinge alone, nothing
                    // is known of the hooks before, and so nothing of what is left for those added.
                    (LeftPart::Hangs, _) | (_, LeftPart::Hangs) => continue,
                };
            let m_n = (self.limits.normal * bound).nmm();
            let m_s = (self.limits.slope * bound).nmm();
            let (Some(at_n), Some(at_s)) = (
                Unknown::narrowed(own_n, m_n, left_n.near()),
                Unknown::narrowed(own_s, m_s, left_s.near()),
            ) else {
                return true;
            };
            let influences = left_n.near().iter().zip(left_s.near());
            for (candidate, (by_n, by_s)) in subset.iter().rev().skip(1).zip(influences) {
                // What passes lies in the hook's own range too.
                let n = at_n.force_by(by_n).within(own_n);
                let s = at_s.force_by(by_s).within(own_s);
                if n.is_empty() || s.is_empty() {
                    return true;
                }
                let foot = &self.candidates[*candidate].foot;
                if self.least_used(foot, &resistance, n, s) > bound {
                    return true;
                }
            }
            let rest_n = at_n.left_of(self.normal.total_load(&case.normal), &left_n.sum);
            let rest_s = at_s.left_of(self.slope.total_load(&case.slope), &left_s.sum);
            let share = 1.0 / more as f64;
            if self.least_used(least, &resistance, rest_n.times(share), rest_s.times(share)) > bound
            {
                return true;
            }
        }
        false
    }

    /// Ranges outside of which a single hook cannot pass, normal and slope.
    ///
    /// Two straight limits bound each end: the linear interaction of the hook, and the pull of the
    /// most loaded screw, which the other force may relieve at the price of the interaction. The
    /// end of the range is where both meet.
    fn own_ranges(&self, foot: &FootModel, resistance: &Resistance, bound: f64) -> [Range; 2] {
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

    /// Least utilisation of a hook and its screws when both forces lie somewhere in a range.
    fn least_used(
        &self,
        foot: &FootModel,
        resistance: &Resistance,
        normal: Range,
        slope: Range,
    ) -> f64 {
        let nearest = |r: Range| Force::from_n(r.0.max(0.0) + r.1.min(0.0));
        let both = |r: Range| [r.0, r.1].map(Force::from_n);
        hook::utilisation(&self.hook, nearest(normal), nearest(slope))
            .max(screws::least_utilisation(foot, resistance, both(normal), both(slope)))
            - SLACK
    }
}

/// A bound reached by another path than the check itself must not refute what just passes.
const SLACK: f64 = 1e-7;

/// Numbers from the first to the second.
#[derive(Debug, Clone, Copy)]
struct Range(f64, f64);

impl Range {
    fn is_empty(self) -> bool {
        self.0 > self.1 + SLACK * (1.0 + self.0.abs())
    }
    const fn within(self, other: Self) -> Self {
        Self(self.0.max(other.0), self.1.min(other.1))
    }
    fn plus(self, other: Self) -> Self {
        Self(self.0 + other.0, self.1 + other.1)
    }
    fn less(self, other: Self) -> Self {
        Self(self.0 - other.1, self.1 - other.0)
    }
    fn times(self, k: f64) -> Self {
        let (a, b) = (self.0 * k, self.1 * k);
        Self(a.min(b), a.max(b))
    }
}

/// The two numbers through which the rest of the beam acts: force on the last hook, moment there.
#[derive(Debug, Clone, Copy)]
struct Unknown {
    force: Range,
    moment: Range,
}

impl Unknown {
    /// Narrows both by what every hook to the left can bear; `None` when nothing is left.
    fn narrowed(own: Range, moment: f64, influences: &[[f64; 3]]) -> Option<Self> {
        // Farther hooks hardly feel the last one: they narrow nothing worth the time.
        const NEAREST: usize = 3;
        let mut at = Self { force: own, moment: Range(-moment, moment) };
        for [certain, by_force, by_moment] in influences.iter().take(NEAREST) {
            let borne = own.less(Range(*certain, *certain));
            at.moment = at.moment.within(solved(borne, at.force.times(*by_force), *by_moment));
            at.force = at.force.within(solved(borne, at.moment.times(*by_moment), *by_force));
        }
        (!at.force.is_empty() && !at.moment.is_empty()).then_some(at)
    }

    /// What of a total is left to the hooks right of the last one, when `sum` of it is taken by
    /// those left of it: force and moment at the last count in both, and only once.
    fn left_of(&self, total: f64, [certain, by_force, by_moment]: &[f64; 3]) -> Range {
        self.force_by(&[total - certain, -1.0 - by_force, -by_moment])
    }

    fn force_by(&self, [certain, by_force, by_moment]: &[f64; 3]) -> Range {
        Range(*certain, *certain)
            .plus(self.force.times(*by_force))
            .plus(self.moment.times(*by_moment))
    }
}

/// Range of `x` for which `other + factor · x` can lie in `borne`.
fn solved(borne: Range, other: Range, factor: f64) -> Range {
    // Where the influence has died away it narrows nothing.
    if factor.abs() < 1e-9 {
        return Range(f64::NEG_INFINITY, f64::INFINITY);
    }
    borne.less(other).times(1.0 / factor)
}
