//! How values are spread, in whole steps: counts that add up to the same whatever the order, and quantiles of
//! known resolution, in memory that does not grow with the number of values.
//!
//! A value is rounded up to a step of 0.0001, which answers have anyway. Up to [`EXACT_TO`] every step is
//! counted by itself; from there on steps are put together by twos, fours and so on, as the value doubles, so
//! that those of a value are less than a part in [`PARTS`] of it.

use std::collections::BTreeMap;

use crate::wire::report::{Bin, Quantile, Resolution};

/// Steps in one.
const STEPS: f64 = 1e4;

/// Steps that are counted each by itself.
const EXACT: u64 = 1 << 14;

/// What is put together is less than this part of the value.
const PARTS: u64 = EXACT / 2;

/// Up to which value steps are counted each by itself.
pub const EXACT_TO: f64 = EXACT as f64 / STEPS;

/// Upper ends of the ranges that are told, in steps.
const ENDS: [u64; 15] = [
    1000, 2000, 3000, 4000, 5000, 6000, 7000, 8000, 9000, 10_000, 11_000, 12_000, 15_000, 20_000,
    50_000,
];

/// Shares that are told, in thousandths.
const SHARES: [u64; 4] = [500, 900, 950, 990];

/// How some values are spread.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Spread {
    count: u64,
    max: u64,
    /// How many lie up to the last of so many steps, and above the one before.
    steps: BTreeMap<u64, u64>,
    ranges: [u64; ENDS.len() + 1],
}

/// How far a quantile may lie above the exact one.
#[must_use]
pub fn resolution() -> Resolution {
    Resolution { step: 1.0 / STEPS, exact_to: EXACT_TO, share: 1.0 / PARTS as f64 }
}

/// Upper ends of the ranges that are told; the last range has none.
pub fn ends() -> impl Iterator<Item = f64> {
    ENDS.into_iter().map(value)
}

/// A value that is not negative in steps, rounded up.
#[must_use]
pub fn steps(value: f64) -> u64 {
    /// The rounding of the arithmetic.
    const LET_GO: f64 = 1e-6;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the cast ends at both ends of the type"
    )]
    let steps = (value * STEPS - LET_GO).ceil() as u64;
    steps
}

fn value(steps: u64) -> f64 {
    steps as f64 / STEPS
}

/// The last of the steps that are counted together with one.
const fn last_of(steps: u64) -> u64 {
    if steps <= EXACT {
        return steps;
    }
    let before = steps - 1;
    let together = (1 << (before.ilog2() - EXACT.ilog2() + 1)) - 1;
    (before | together).saturating_add(1)
}

impl Spread {
    /// Takes a value that is not negative.
    pub fn take(&mut self, value: f64) {
        let steps = steps(value);
        self.count += 1;
        self.max = self.max.max(steps);
        *self.steps.entry(last_of(steps)).or_default() += 1;
        let range = ENDS.partition_point(|end| *end < steps);
        if let Some(range) = self.ranges.get_mut(range) {
            *range += 1;
        }
    }

    /// Takes what another has.
    pub fn add(&mut self, other: &Self) {
        self.count += other.count;
        self.max = self.max.max(other.max);
        for (last, count) in &other.steps {
            *self.steps.entry(*last).or_default() += count;
        }
        for (range, count) in self.ranges.iter_mut().zip(&other.ranges) {
            *range += count;
        }
    }

    /// How many there are.
    #[must_use]
    pub const fn count(&self) -> u64 {
        self.count
    }

    /// The largest, rounded up.
    #[must_use]
    pub fn max(&self) -> f64 {
        value(self.max)
    }

    /// What usual shares are at most; none where there is no value.
    #[must_use]
    pub fn quantiles(&self) -> Vec<Quantile> {
        let of = |thousandths| {
            Some(Quantile { share: thousandths as f64 / 1e3, value: self.at_most(thousandths)? })
        };
        SHARES.into_iter().filter_map(of).collect()
    }

    /// The least value that so many thousandths are not above, rounded up.
    fn at_most(&self, thousandths: u64) -> Option<f64> {
        let wanted = u128::from(self.count) * u128::from(thousandths);
        let mut so_far = 0;
        let found = self.steps.iter().find(|(_, count)| {
            so_far += **count;
            u128::from(so_far) * 1000 >= wanted
        });
        // What is counted together with the largest is no larger.
        found.map(|(last, _)| value((*last).min(self.max)))
    }

    /// How many lie in each range that has some.
    #[must_use]
    pub fn bins(&self) -> Vec<Bin> {
        let ends = ENDS.iter().copied().map(value);
        let above = std::iter::once(0.0).chain(ends.clone());
        let up_to = ends.map(Some).chain([None]);
        let bins = above.zip(up_to).zip(&self.ranges);
        bins.map(|((above, up_to), answers)| Bin { above, up_to, answers: *answers })
            .filter(|bin| bin.answers > 0)
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_step_is_counted_with_few_others() {
        let mut last = 0;
        for steps in (0..40_000).chain((1 << 20) - 9..(1 << 20) + 9).chain(u64::MAX - 9..=u64::MAX)
        {
            let end = last_of(steps);
            assert!(end >= steps && end >= last, "{steps} ends at {end}");
            assert!(
                steps <= EXACT && end == steps || (end - steps) * PARTS < steps,
                "{steps}: {end}"
            );
            assert_eq!(last_of(end), end, "{steps}");
            last = end;
        }
    }

    #[test]
    fn values_of_answers_are_steps() {
        assert_eq!([0.0, 0.9709, 1.0, 2.1285].map(steps), [0, 9709, 10_000, 21_285]);
        assert_eq!(steps(0.970_91), 9710);
        assert_eq!([1e300, f64::INFINITY].map(steps), [u64::MAX; 2]);
    }

    #[test]
    fn what_is_just_enough_is_in_the_range_that_ends_there() {
        let mut spread = Spread::default();
        for value in [0.0, 0.1, 1.0, 1.0001, 7.0] {
            spread.take(value);
        }
        let bins: Vec<_> = spread.bins().iter().map(|b| (b.above, b.up_to, b.answers)).collect();
        let expected =
            [(0.0, Some(0.1), 2), (0.9, Some(1.0), 1), (1.0, Some(1.1), 1), (5.0, None, 1)];
        assert_eq!(bins, expected);
    }

    #[test]
    fn nothing_has_no_quantile() {
        assert!(Spread::default().quantiles().is_empty() && Spread::default().bins().is_empty());
    }

    proptest! {
        #![proptest_config(ProptestConfig { max_shrink_iters: 0, ..ProptestConfig::default() })]

        /// Against the values in order: the nearest rank (Hyndman and Fan 1996, definition 1).
        #[test]
        fn quantiles_are_those_of_the_values_within_the_resolution(
            values in prop::collection::vec(
                prop_oneof![0.0..2.0_f64, 0.0..50.0_f64, 0.0..1e5_f64], 1..300),
            cut in 0..300_usize,
        ) {
            let cut = cut.min(values.len());
            let (mut whole, mut one, mut other) =
                (Spread::default(), Spread::default(), Spread::default());
            for (at, value) in values.iter().enumerate() {
                whole.take(*value);
                if at < cut { one.take(*value) } else { other.take(*value) }
            }
            other.add(&one);
            prop_assert_eq!(&whole, &other);
            let mut sorted = values.clone();
            sorted.sort_by(f64::total_cmp);
            let Resolution { step, exact_to, share } = resolution();
            for (Quantile { value, .. }, at) in whole.quantiles().into_iter().zip(SHARES) {
                let rank = usize::try_from(at).expect("small") * sorted.len();
                let exact = sorted[rank.div_ceil(1000) - 1];
                let more = if exact > exact_to - step { share * exact } else { 0.0 };
                prop_assert!(value > exact - 1e-9, "{} for {}", value, exact);
                prop_assert!(value < exact + step + more + 1e-9, "{} for {}", value, exact);
            }
            let in_ranges: u64 = whole.bins().iter().map(|bin| bin.answers).sum();
            prop_assert_eq!(in_ranges, whole.count());
            for Bin { above, up_to, answers } in whole.bins() {
                let lies = |v: &&f64| {
                    (**v > above || above == 0.0) && up_to.is_none_or(|end| **v <= end)
                };
                prop_assert_eq!(values.iter().filter(lies).count() as u64, answers);
            }
        }
    }
}
