//! The boundary through which the rest of a rail acts on a part of it: a force and a moment at its
//! last hook, as far as they are known.

use crate::mechanics::beam::{Both, Lanes};

use super::bounds::{FAR, Ranges};
use super::screening::PROBES;

/// Ranges of the force and the moment that act on a hook from one side, under each combination.
#[derive(Debug, Clone, Copy)]
pub struct Acting(pub(super) [[Ranges; 2]; PROBES]);

impl Acting {
    /// Nothing is known of either.
    pub(super) const UNKNOWN: Self = Self([[Ranges::EVERYTHING; 2]; PROBES]);

    /// Force and moment under one of the combinations.
    pub(super) const fn under(&self, probe: usize) -> [Ranges; 2] {
        self.0[probe]
    }

    /// What acts where either may.
    pub(super) fn or(&self, other: &Self) -> Self {
        let of = |probe: usize, which: usize| self.0[probe][which].or(other.0[probe][which]);
        Self(std::array::from_fn(|probe| [0, 1].map(|which| of(probe, which))))
    }

    /// The same as told from the other end: a moment changes its sense.
    #[must_use]
    pub fn seen_from_ahead(&self) -> Self {
        Self(self.0.map(|[force, moment]| [force, moment.times(Both::splat(-1.0))]))
    }
}

/// The force on the last hook of a part, and the moment in the rail over it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Unknown {
    pub(super) force: Ranges,
    pub(super) moment: Ranges,
}

/// A quantity by those two numbers, and what of it does not depend on them.
#[derive(Debug, Clone, Copy)]
pub(super) struct Linear {
    pub(super) certain: Ranges,
    pub(super) by: [Both; 2],
}

/// What is certain, by force and by moment.
impl From<[Both; 3]> for Linear {
    fn from([certain, force, moment]: [Both; 3]) -> Self {
        Self { certain: Ranges::at(certain), by: [force, moment] }
    }
}

impl Unknown {
    /// Narrows both by what every hook to the left, the nearest first, can bear of its own; `None` when
    /// nothing is left.
    pub(super) fn narrowed(mut self, near: impl Iterator<Item = (Linear, Ranges)>) -> Option<Self> {
        // Farther hooks hardly feel the last one: they narrow nothing worth the time.
        const NEAREST: usize = 2;
        for (Linear { certain, by: [by_force, by_moment] }, own) in near.take(NEAREST) {
            let borne = own.less(certain);
            self.moment = self.moment.within(solved(borne, self.force.times(by_force), by_moment));
            self.force = self.force.within(solved(borne, self.moment.times(by_moment), by_force));
        }
        (!self.force.is_empty() && !self.moment.is_empty()).then_some(self)
    }

    /// Narrows both by what acts beyond the last hook, a force and a moment, when the loads beyond
    /// it are these and `rest` of all loads is left to the hooks there.
    pub(super) fn acted_on(
        mut self,
        [force, moment]: [Ranges; 2],
        beyond: Both,
        rest: &Linear,
    ) -> Self {
        self.moment = self.moment.within(moment);
        let carried = Ranges::at(beyond).less(force);
        let other = rest.certain.plus(self.moment.times(rest.by[1]));
        self.force = self.force.within(solved(carried, other, rest.by[0]));
        self
    }

    /// What of a total is left to the hooks right of the last one, when `sum` of it is taken by
    /// those left of it: force and moment at the last count in both, and only once.
    pub(super) fn left_of(total: Ranges, sum: &Linear) -> Linear {
        Linear { certain: total.less(sum.certain), by: [Both::splat(-1.0) - sum.by[0], -sum.by[1]] }
    }

    /// The ranges of a quantity.
    pub(super) fn of(&self, Linear { certain, by: [by_force, by_moment] }: &Linear) -> Ranges {
        certain.plus(self.force.times(*by_force)).plus(self.moment.times(*by_moment))
    }
}

/// Ranges of `x` for which `other + factor · x` can lie in `borne`.
fn solved(borne: Ranges, other: Ranges, factor: Both) -> Ranges {
    // Where the influence has died away it narrows nothing.
    let died = |factor: f64| factor.abs() < 1e-9;
    let within = borne.less(other).times(factor.map(|f| if died(f) { 0.0 } else { 1.0 / f }));
    let beyond = factor.map(|f| if died(f) { FAR } else { 0.0 });
    Ranges { low: within.low - beyond, high: within.high + beyond }
}
