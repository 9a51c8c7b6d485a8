//! Where an arm passes through the covering and where its foot stands, along the slope.
//!
//! **Derivation.** Measured up the slope from the tail edge the arm leaves under. The tile below
//! the arm has its own tail one gauge lower, so its head lies `L − g` above that edge (`L − G` in a
//! crown covering): over this length the arm lies between tiles. The head stands `p` above the
//! upper edge of its batten; the next batten lies one gauge higher and is `w` wide. A foot that is
//! to stand between head and batten has therefore from `L − g` to `L − w − p`, which is
//! `g − w − p` long.
//!
//! Over the head of the lower tile the arm is higher above it than at the exit only if it does not
//! follow the slope of the tiles; the least is what remains at the exit.
//!
//! **Left out.** Camber along the slope, uneven battens, the height of the foot's own crank.

use super::Covering;
use crate::units::Length;

/// Length over which the arm lies between tiles: from the head of the lower tile to the exit.
#[must_use]
pub fn covered_length(covering: &Covering) -> Length {
    covering.tile_length - covering.gauge
}

/// Clear length along the slope between two battens.
#[must_use]
pub fn between_battens(covering: &Covering) -> Length {
    covering.gauge - covering.batten_width
}

/// Clear length between the head of the lower tile and the next batten, where a foot can stand
/// without a cut. Negative where heads reach the next batten.
#[must_use]
pub fn clear_bay(covering: &Covering) -> Length {
    between_battens(covering) - covering.head_projection
}

/// Room of a foot along the slope; negative where it stands on something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FootRoom {
    /// From the head of the lower tile up to the foot.
    pub above_head: Length,
    /// From the foot up to the next batten.
    pub below_batten: Length,
}

/// Room of a foot of one length whose lower edge lies `up` the slope from the exit.
#[must_use]
pub fn foot_room(covering: &Covering, up: Length, foot_length: Length) -> FootRoom {
    let head = covered_length(covering);
    let batten = head + clear_bay(covering);
    FootRoom { above_head: up - head, below_batten: batten - (up + foot_length) }
}

impl FootRoom {
    /// How far the foot would have to move up the slope (negative: down) to stand free, no farther
    /// than needed; zero where it does. Where it is too long for the bay, the nearest that is free
    /// of the tile.
    #[must_use]
    pub fn shift(&self) -> Length {
        if self.above_head < Length::ZERO {
            -self.above_head
        } else {
            self.below_batten.min(Length::ZERO).max(-self.above_head)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::covering::Laying;

    /// Trade figures, rounded as they are given there: reach 230 mm and a bay of about 85 mm for
    /// beaver-tail 380 mm at a headlap of 80 mm on 30×50 battens, 165 mm and about 45 mm for plain
    /// tile 265 mm at 65 mm on 25×38, 300 mm and 150 mm for slate 500 mm at 100 mm on 25×50 whose
    /// heads end at the batten.
    #[test]
    fn reach_and_bay_are_those_of_the_usual_coverings() {
        for (length, gauge, batten, heads, reach, bay) in [
            (380.0, 150.0, 50.0, 15.0, 230.0, 85.0),
            (265.0, 100.0, 38.0, 18.0, 165.0, 44.0),
            (500.0, 200.0, 50.0, 0.0, 300.0, 150.0),
        ] {
            let covering = covering(length, gauge, batten, heads);
            assert!((covered_length(&covering).mm() - reach).abs() < 1e-9);
            assert!((clear_bay(&covering).mm() - bay).abs() < 1e-9);
        }
    }

    #[test]
    fn a_foot_moves_no_farther_than_it_must() {
        let covering = covering(380.0, 155.0, 50.0, 15.0);
        let room =
            |up: f64, foot: f64| foot_room(&covering, Length::from_mm(up), Length::from_mm(foot));
        // Head at 225 mm, batten at 315 mm.
        let free = room(228.0, 80.0);
        assert_eq!((free.above_head.mm(), free.below_batten.mm()), (3.0, 7.0));
        assert_eq!(free.shift(), Length::ZERO);
        assert!((room(230.0, 90.0).shift().mm() + 5.0).abs() < 1e-9);
        assert!((room(220.0, 80.0).shift().mm() - 5.0).abs() < 1e-9);
        // Ten too long: down to the head, not onto it.
        assert!((room(230.0, 100.0).shift().mm() + 5.0).abs() < 1e-9);
    }

    fn covering(length: f64, gauge: f64, batten: f64, heads: f64) -> Covering {
        let mm = Length::from_mm;
        Covering {
            laying: Laying::DoubleLap,
            tile_length: mm(length),
            tile_thickness: mm(14.0),
            camber: Length::ZERO,
            cover_width: mm(183.0),
            gauge: mm(gauge),
            first_course: Length::ZERO,
            batten_thickness: mm(30.0),
            batten_width: mm(batten),
            half_bond: true,
            joint_origin: Length::ZERO,
            troughs: Vec::new(),
            head_projection: mm(heads),
            nibs: Vec::new(),
        }
    }
}
