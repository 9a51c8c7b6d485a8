//! Two parts of a beam that end at the same support, put together.

use super::left_part::Linear;
use super::{Part, Sag};
use crate::mechanics::beam::joint::{invert, times};
use crate::mechanics::beam::lanes::Both;

/// What two parts that make up a beam do at the support they share, under one load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Meeting {
    /// Force on the support.
    pub force: Both,
    /// Its deflection, and the rotation of the beam over it as the left part sees it.
    moved: [Both; 2],
}

/// Which of the two parts of a meeting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The one told from left to right.
    Left,
    /// The one told from right to left: a rotation has the other sense.
    Right,
}

impl Meeting {
    /// Where a part told from left to right and one told from right to left meet, under each load,
    /// of which there is this sum on the whole beam; `None` where they leave a beam free to move, or
    /// nearly.
    #[must_use]
    pub fn of<const LOADS: usize>(
        left: &Part<LOADS>,
        right: &Part<LOADS>,
        total: &[Both; LOADS],
    ) -> Option<[Self; LOADS]> {
        let ([a, b, d], [e, f, g]) = (left.stiffness, right.stiffness);
        // Its spring is in both.
        let (inverse, sound) = invert([a + e - left.springs.stiffness, b - f, d + g], d + g);
        sound.then(|| {
            std::array::from_fn(|load| {
                let ([force, moment], [from_right, turning]) = (left.here[load], right.here[load]);
                let on = [left.springs.moves * (force + from_right), moment - turning];
                let moved = times(inverse, on);
                let mut at = Self { force: left.springs.stiffness * moved[0], moved };
                if !left.sprung {
                    // What a rigid support takes is what is left of the load.
                    let sums = at.settle(&left.sum, load, Side::Left)
                        + at.settle(&right.sum, load, Side::Right);
                    at.force = left.springs.of_kind(at.force, total[load] - sums);
                }
                at
            })
        })
    }

    /// The candidates of one of the parts but the one shared, the nearest to that first, and the forces
    /// on them.
    pub fn forces<const LOADS: usize>(
        self,
        part: &Part<LOADS>,
        load: usize,
        side: Side,
    ) -> impl Iterator<Item = (usize, Both)> + '_ {
        part.forces.iter().map(move |(at, force)| (*at, self.settle(force, load, side)))
    }

    /// How the bays of one of the parts sag, if it was asked of that load.
    pub fn sags<const LOADS: usize>(
        self,
        part: &Part<LOADS>,
        load: usize,
        side: Side,
    ) -> impl Iterator<Item = Sag<1>> + '_ {
        let [w, turn] = self.seen_from(side);
        part.sags[load].iter().map(move |Sag { length, sag: [certain, by_w, by_turn] }| Sag {
            length: *length,
            sag: [*certain + *by_w * w + *by_turn * turn],
        })
    }

    fn settle<const LOADS: usize>(self, of: &Linear<LOADS>, load: usize, side: Side) -> Both {
        let [w, turn] = self.seen_from(side);
        of.certain[load] + of.by[0] * w + of.by[1] * turn
    }

    fn seen_from(self, side: Side) -> [Both; 2] {
        let [w, turn] = self.moved;
        match side {
            Side::Left => [w, turn],
            Side::Right => [w, -turn],
        }
    }
}
