//! Stacks of packers: which heights a stock of thicknesses reaches, and of how few pieces.
//!
//! **Model.** Any number of pieces of each thickness. Thicknesses are read in hundredths of a
//! millimetre, none is given finer; so the heights are a finite set of multiples of what all
//! thicknesses are multiples of, and a table over all of them is exact.

use crate::hardware::Packers;
use crate::units::Length;

/// No stack is taller than a metre, whatever limit is asked for: it bounds the table.
const TALLEST: usize = 100_000;

/// Every height that can be stacked from a stock, up to its limit.
#[derive(Debug, Clone)]
pub struct Stacks {
    /// What all thicknesses are multiples of, in hundredths of a millimetre.
    step: usize,
    /// Per height in steps: pieces and thickest possible last piece, in steps as well, of the stack
    /// of fewest pieces.
    fewest: Vec<Option<(usize, usize)>>,
}

impl Stacks {
    /// Hundredths of a millimetre in a millimetre.
    pub const GRAIN: f64 = 100.0;

    /// All stacks of `packers` up to their limit.
    #[must_use]
    pub fn of(packers: &Packers) -> Self {
        let top = hundredths(packers.max_stack).min(TALLEST);
        let mut sizes: Vec<usize> =
            packers.thicknesses.iter().map(|t| hundredths(*t)).filter(|t| *t > 0).collect();
        sizes.sort_unstable_by(|a, b| b.cmp(a));
        sizes.dedup();
        let step = sizes.iter().copied().reduce(common_divisor).unwrap_or(1);
        for size in &mut sizes {
            *size /= step;
        }
        let mut fewest: Vec<Option<(usize, usize)>> = vec![None; top / step + 1];
        fewest[0] = Some((0, 0));
        for h in 1..fewest.len() {
            for size in &sizes {
                let Some((pieces, _)) = h.checked_sub(*size).and_then(|rest| fewest[rest]) else {
                    continue;
                };
                if fewest[h].is_none_or(|(best, _)| pieces + 1 < best) {
                    fewest[h] = Some((pieces + 1, *size));
                }
            }
        }
        Self { step, fewest }
    }

    /// The heights in hundredths of a millimetre, lowest first, each with its fewest pieces. The
    /// first is no packer at all.
    pub fn heights(&self) -> impl Iterator<Item = (usize, usize)> {
        let stacked = self.fewest.iter().enumerate();
        stacked.filter_map(|(h, best)| best.map(|(pieces, _)| (h * self.step, pieces)))
    }

    /// The lowest height, in hundredths of a millimetre, that is not below `least`.
    #[must_use]
    pub fn lowest_from(&self, least: Length) -> Option<usize> {
        let from = whole((least.mm() * Stacks::GRAIN - 1e-6).ceil()).div_ceil(self.step);
        let height = (from..self.fewest.len()).find(|h| self.fewest[*h].is_some())?;
        Some(height * self.step)
    }

    /// The pieces of a height given in hundredths of a millimetre: as few as possible, then the
    /// thickest, thickest first. Empty for a height that cannot be stacked.
    #[must_use]
    pub fn pieces(&self, height: usize) -> Vec<Length> {
        let mut stack = Vec::new();
        if !height.is_multiple_of(self.step) {
            return stack;
        }
        let mut rest = height / self.step;
        while let Some(Some((pieces, size))) = self.fewest.get(rest) {
            if *pieces == 0 {
                break;
            }
            stack.push(Length::from_mm((size * self.step) as f64 / Stacks::GRAIN));
            rest -= size;
        }
        stack.sort_by(|a, b| b.mm().total_cmp(&a.mm()));
        stack
    }
}

fn common_divisor(a: usize, b: usize) -> usize {
    if b == 0 { a } else { common_divisor(b, a % b) }
}

/// A length in hundredths of a millimetre, zero when it is negative.
fn hundredths(length: Length) -> usize {
    whole((length.mm() * Stacks::GRAIN).round())
}

/// A rounded number as a count, zero when it is negative.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the argument is rounded and the conversion saturates"
)]
const fn whole(rounded: f64) -> usize {
    rounded as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stacks(thicknesses: &[f64], max: f64) -> Stacks {
        Stacks::of(&Packers {
            thicknesses: thicknesses.iter().map(|t| Length::from_mm(*t)).collect(),
            max_stack: Length::from_mm(max),
        })
    }

    #[test]
    fn a_height_takes_the_fewest_pieces_even_where_the_thickest_first_would_not() {
        let stacks = stacks(&[1.0, 3.0, 4.0], 10.0);
        let pieces: Vec<f64> = stacks.pieces(600).iter().map(|t| t.mm()).collect();
        assert_eq!(pieces, [3.0, 3.0], "4 + 1 + 1 would be three");
    }

    #[test]
    fn heights_are_those_that_can_be_stacked() {
        let heights: Vec<_> = stacks(&[2.0, 5.0], 8.0).heights().collect();
        assert_eq!(heights, [(0, 0), (200, 1), (400, 2), (500, 1), (600, 3), (700, 2), (800, 4)]);
    }

    #[test]
    fn no_stock_no_limit_or_an_odd_number_stacks_nothing() {
        assert_eq!(stacks(&[], 20.0).heights().count(), 1);
        assert_eq!(stacks(&[1.0], -3.0).heights().count(), 1);
        assert_eq!(stacks(&[0.0, -1.0, f64::NAN], f64::NAN).heights().count(), 1);
        assert_eq!(stacks(&[500_000.0], f64::INFINITY).heights().count(), 1);
        assert_eq!(stacks(&[1.0], 20.0).pieces(150), []);
    }
}
