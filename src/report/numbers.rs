//! Which numbers of lines were seen, a bit for each: so much is needed to say which are not there.

use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use crate::wire::report::LineRange;

/// Numbers that are kept together.
const TOGETHER: u64 = 4096;
const WORDS: usize = (TOGETHER / 64) as usize;

/// A set of numbers, small where they lie close together.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Numbers(BTreeMap<u64, Box<[u64; WORDS]>>);

impl Numbers {
    /// Puts a number in; whether it was there already.
    pub fn put(&mut self, number: u64) -> bool {
        let words = self.0.entry(number / TOGETHER).or_insert_with(|| Box::new([0; WORDS]));
        let (word, bit) = (number % TOGETHER / 64, 1 << (number % 64));
        // The remainder is less than there are words.
        let Some(word) = usize::try_from(word).ok().and_then(|word| words.get_mut(word)) else {
            return false;
        };
        let there = *word & bit != 0;
        *word |= bit;
        there
    }

    /// Puts in all numbers of another; those that both have.
    pub fn add(&mut self, other: &Self) -> Self {
        let mut both = Self::default();
        for (at, theirs) in &other.0 {
            let Some(ours) = self.0.get_mut(at) else {
                self.0.insert(*at, theirs.clone());
                continue;
            };
            let mut common = Box::new([0; WORDS]);
            for ((ours, theirs), common) in
                ours.iter_mut().zip(theirs.iter()).zip(common.iter_mut())
            {
                *common = *ours & theirs;
                *ours |= theirs;
            }
            if common.iter().any(|word| *word != 0) {
                both.0.insert(*at, common);
            }
        }
        both
    }

    /// How many there are.
    #[must_use]
    pub fn count(&self) -> u64 {
        let words = self.0.values().flat_map(|words| words.iter());
        words.map(|word| u64::from(word.count_ones())).sum()
    }

    /// The least and the greatest.
    #[must_use]
    pub fn ends(&self) -> Option<(u64, u64)> {
        let mut ranges = self.ranges();
        let first = ranges.next()?;
        Some((first.first, ranges.last().unwrap_or(first).last))
    }

    /// The numbers in ranges, ascending.
    pub fn ranges(&self) -> impl Iterator<Item = LineRange> {
        let mut numbers = self.numbers().peekable();
        std::iter::from_fn(move || {
            let first = numbers.next()?;
            let mut last = first;
            while let Some(next) = numbers.next_if(|next| last.checked_add(1) == Some(*next)) {
                last = next;
            }
            Some(LineRange { first, last })
        })
    }

    /// The numbers that are not there, of some, in ranges and ascending.
    pub fn gaps(&self, of: RangeInclusive<u64>) -> impl Iterator<Item = LineRange> {
        let (first, last) = of.into_inner();
        let mut next = first;
        let there = self.ranges().map(|range| (range.first, range.last));
        // What follows the last of them ends the last gap.
        there.chain([(last.saturating_add(1), u64::MAX)]).filter_map(move |(from, to)| {
            let gap = (from.min(last.saturating_add(1)) > next)
                .then(|| LineRange { first: next, last: from.min(last.saturating_add(1)) - 1 });
            next = next.max(to.saturating_add(1));
            gap
        })
    }

    fn numbers(&self) -> impl Iterator<Item = u64> {
        self.0.iter().flat_map(|(at, words)| {
            let of_word = move |(word, bits): (usize, &u64)| {
                let (begin, bits) = (at * TOGETHER + word as u64 * 64, *bits);
                (0..64).filter(move |bit| bits >> bit & 1 == 1).map(move |bit| begin + bit)
            };
            words.iter().enumerate().flat_map(of_word)
        })
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use proptest::prelude::*;

    use super::*;

    fn flat(ranges: impl Iterator<Item = LineRange>) -> Vec<u64> {
        ranges.flat_map(|range| range.first..=range.last).collect()
    }

    #[test]
    fn gaps_lie_between_and_at_both_ends() {
        let mut numbers = Numbers::default();
        for number in [3, 4, 5, 9, 4096, 4097] {
            assert!(!numbers.put(number));
        }
        assert!(numbers.put(4096));
        assert_eq!((numbers.count(), numbers.ends()), (6, Some((3, 4097))));
        let gaps: Vec<_> = numbers.gaps(1..=4100).map(|gap| (gap.first, gap.last)).collect();
        assert_eq!(gaps, [(1, 2), (6, 8), (10, 4095), (4098, 4100)]);
        assert_eq!(flat(numbers.gaps(4..=8)), [6, 7, 8]);
        assert_eq!(numbers.gaps(3..=5).count(), 0);
        assert_eq!(flat(Numbers::default().gaps(1..=3)), [1, 2, 3]);
    }

    #[test]
    fn the_greatest_number_there_is_ends_a_range() {
        let mut numbers = Numbers::default();
        for number in [u64::MAX, 1, u64::MAX - 1] {
            assert!(!numbers.put(number));
        }
        assert_eq!(numbers.ends(), Some((1, u64::MAX)));
        let gaps: Vec<_> = numbers.gaps(1..=u64::MAX).map(|gap| (gap.first, gap.last)).collect();
        assert_eq!(gaps, [(2, u64::MAX - 2)]);
    }

    proptest! {
        #![proptest_config(ProptestConfig { max_shrink_iters: 0, ..ProptestConfig::default() })]

        #[test]
        fn a_set_of_numbers_is_one(
            one in prop::collection::vec(prop_oneof![1..200_u64, 4000..4200_u64, 1..1_000_000_u64], 0..200),
            other in prop::collection::vec(1..5000_u64, 0..200),
            range in (1..5000_u64, 0..5000_u64),
        ) {
            let set = |of: &[u64]| of.iter().copied().collect::<BTreeSet<u64>>();
            let numbers = |of: &[u64]| {
                let mut numbers = Numbers::default();
                let again = of.iter().filter(|number| numbers.put(**number)).count();
                prop_assert_eq!(again, of.len() - set(of).len());
                Ok(numbers)
            };
            let (mut ours, theirs) = (numbers(&one)?, numbers(&other)?);
            let both = ours.add(&theirs);
            let (known, too) = (set(&one), set(&other));
            let all: Vec<u64> = known.union(&too).copied().collect();
            prop_assert_eq!(flat(ours.ranges()), all.clone());
            prop_assert_eq!(ours.count(), all.len() as u64);
            prop_assert_eq!(flat(both.ranges()), known.intersection(&too).copied().collect::<Vec<_>>());
            let (first, last) = (range.0, range.0 + range.1);
            let without: Vec<u64> = (first..=last).filter(|number| !all.contains(number)).collect();
            prop_assert_eq!(flat(ours.gaps(first..=last)), without);
        }
    }
}
