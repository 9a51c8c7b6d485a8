//! What to order, how to cut the rails, and what to carry up to each field.
//!
//! **Layer.** Beside `survey`: knows the results of placement and the parts, nothing of requests.

pub mod bars;
pub mod cutting;
pub mod kinds;
pub mod splicing;
pub mod take_off;
pub mod tally;

use crate::units::Length;

use bars::Aim;

/// What the order should look like.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// What the cutting plan saves first.
    pub aim: Aim,
    /// Shortest piece worth joining to another, and shortest offcut worth keeping.
    pub min_piece: Length,
    /// Spares and packs.
    pub allowances: Allowances,
}

/// Spares and packs by kind of part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowances {
    /// Hooks.
    pub hook: Allowance,
    /// Screws.
    pub screw: Allowance,
    /// Substitute tiles.
    pub substitute_tile: Allowance,
    /// Packers.
    pub packer: Allowance,
    /// Bolts between hook and rail.
    pub bolt_set: Allowance,
    /// Splices.
    pub splice: Allowance,
    /// Mid clamps.
    pub mid_clamp: Allowance,
    /// End clamps.
    pub end_clamp: Allowance,
    /// End caps.
    pub end_cap: Allowance,
}

/// Spare and pack of one kind of part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowance {
    /// Spare in percent of the exact count.
    pub spare_percent: f64,
    /// Parts in a pack; at least one.
    pub pack: u32,
}

impl Allowance {
    /// Neither spare nor pack: what is counted is ordered.
    pub const EXACT: Self = Self { spare_percent: 0.0, pack: 1 };

    /// Spare parts on top of an exact count, in whole parts.
    #[must_use]
    pub fn spare(&self, needed: u64) -> u64 {
        // A billionth is let go, so that 5 % of 40 are 2. Percentages are small: no overflow.
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count")]
        let spare = (needed as f64 * self.spare_percent / 100.0 - 1e-9).ceil().max(0.0) as u64;
        spare
    }

    /// What to order: a number of parts in whole packs.
    #[must_use]
    pub fn in_packs(&self, parts: u64) -> u64 {
        parts.next_multiple_of(u64::from(self.pack.max(1)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn count_spare_and_order_are_three_figures() {
        let five = Allowance { spare_percent: 5.0, pack: 50 };
        assert_eq!(five.spare(40), 2);
        assert_eq!(five.spare(41), 3);
        assert_eq!(five.in_packs(40 + 2), 50);
        assert_eq!(five.spare(0), 0);
        assert_eq!(five.in_packs(0), 0);
        assert_eq!(Allowance::EXACT.spare(7), 0);
        assert_eq!(Allowance::EXACT.in_packs(7), 7);
    }
}
