//! Two parts of a beam that end at the same support, put together.

use super::{Part, Sag};
use crate::mechanics::beam::lanes::{Both, Lanes};

/// What two parts that make up a beam do to each other at the support they share, under one load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Meeting {
    /// Force on the support.
    pub force: Both,
    /// Bending moment over it.
    pub moment: Both,
}

impl Meeting {
    /// Where a part told from left to right and one told from right to left meet, under each load,
    /// of which there is this sum on the whole beam; `None` where they leave a beam free to move, or
    /// nearly.
    ///
    /// Two conditions for two unknowns: the beam is smooth over the support, so that the rotations
    /// of the two parts, of opposite sense, cancel; and all supports together carry the load.
    #[must_use]
    pub fn of<const LOADS: usize>(
        left: &Part<LOADS>,
        right: &Part<LOADS>,
        total: &[Both; LOADS],
    ) -> Option<[Self; LOADS]> {
        let one = Both::splat(1.0);
        let turn = [0, 1].map(|unit| left.turn.by[unit] + right.turn.by[unit]);
        let sum = [one + left.sum.by[0] + right.sum.by[0], left.sum.by[1] + right.sum.by[1]];
        let (a, b) = (turn[0] * sum[1], turn[1] * sum[0]);
        let determinant = a - b;
        if !determinant.abs().exceeds((a.abs() + b.abs()) * SINGULAR) {
            return None;
        }
        let inverse = one / determinant;
        Some(std::array::from_fn(|load| {
            let turned = left.turn.certain[load] + right.turn.certain[load];
            let rest = total[load] - (left.sum.certain[load] + right.sum.certain[load]);
            Self {
                force: -(turned * sum[1] + turn[1] * rest) * inverse,
                moment: (turn[0] * rest + turned * sum[0]) * inverse,
            }
        }))
    }

    /// Forces on the supports of one of the parts but the one shared, the nearest to that first.
    pub fn forces<const LOADS: usize>(
        self,
        part: &Part<LOADS>,
        load: usize,
    ) -> impl Iterator<Item = Both> + '_ {
        part.forces.iter().map(move |force| self.settle(force.certain[load], force.by))
    }

    /// How the bays of one of the parts sag, if it was asked of that load.
    pub fn sags<const LOADS: usize>(
        self,
        part: &Part<LOADS>,
        load: usize,
    ) -> impl Iterator<Item = Sag<1>> + '_ {
        part.sags[load].iter().map(move |Sag { length, sag: [certain, by @ ..] }| Sag {
            length: *length,
            sag: [self.settle(*certain, *by)],
        })
    }

    fn settle(self, certain: Both, [by_force, by_moment]: [Both; 2]) -> Both {
        certain + by_force * self.force + by_moment * self.moment
    }
}

/// Share of a determinant's terms below which what is left of them is rounding.
const SINGULAR: f64 = 1e-9;
