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

/// How much of the head of a tile can be cut away under a foot where its whole projection above the
/// batten is less: the tile still hangs (common practice, no source).
const HEAD_TRIM: Length = Length::from_mm(10.0);

/// How much of the edge of a batten can be cut away beside a foot: it lies on the rafter there
/// (common practice, no source).
const BATTEN_TRIM: Length = Length::from_mm(10.0);

/// How much farther than drawn an arm may leave the covering: its bolt, with the rail on it, moves
/// down the slope by as much (common practice, no source).
pub const EXIT_EXTRA: Length = Length::from_mm(10.0);

/// Battens are laid no more exactly than this.
const LAYING: Length = Length::from_mm(1.0);

/// Whether a foot can be fitted, and what has to be done for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fit {
    /// It stands free.
    Free,
    /// It does once these are done; each is zero where it is not needed.
    Worked {
        /// Hook and rail set lower on the slope.
        lower: Length,
        /// Cut from the head of the tile below the arm.
        trim_head: Length,
        /// Cut from the lower edge of the next batten.
        trim_batten: Length,
    },
    /// It cannot be fitted: it meets more than can be cut away.
    Blocked {
        /// Over the head of the tile below the arm, as drawn.
        on_head: Length,
        /// Under the next batten, as drawn.
        under_batten: Length,
    },
}

impl Fit {
    /// What it asks for: the more, the greater.
    #[must_use]
    pub fn weight(&self) -> (u8, f64) {
        match self {
            Self::Free => (0, 0.0),
            Self::Worked { lower, trim_head, trim_batten } => {
                (1, (*lower + *trim_head + *trim_batten).mm())
            }
            Self::Blocked { on_head, under_batten } => (2, (*on_head + *under_batten).mm()),
        }
    }
}

impl FootRoom {
    /// Whether a foot with this room can be fitted when hook and rail may come to lie lower by up
    /// to `may_lower`. Moving comes before cutting.
    #[must_use]
    pub fn fit(&self, covering: &Covering, may_lower: Length) -> Fit {
        let head_trim = covering.head_projection.max(HEAD_TRIM);
        let on_head = |lower: Length| (lower - self.above_head).max(Length::ZERO);
        let under_batten = |lower: Length| (-self.below_batten - lower).max(Length::ZERO);
        let least = (-self.below_batten - BATTEN_TRIM).max(Length::ZERO);
        let most = may_lower.min(self.above_head + head_trim);
        if on_head(Length::ZERO) <= LAYING && under_batten(Length::ZERO) <= LAYING {
            Fit::Free
        } else if least <= most {
            let lower = (-self.below_batten).max(least).min(most);
            Fit::Worked { lower, trim_head: on_head(lower), trim_batten: under_batten(lower) }
        } else {
            Fit::Blocked {
                on_head: on_head(Length::ZERO),
                under_batten: under_batten(Length::ZERO),
            }
        }
    }
}

/// From the lower edge of a foot down to the bolt: the range in which one of this length stands
/// free, when the bolt lies so far beyond the exit. `None` where the foot is too long for the bay.
#[must_use]
pub fn fitting_reach(
    covering: &Covering,
    foot_length: Length,
    bolt_beyond_exit: Length,
) -> Option<[Length; 2]> {
    let spare = clear_bay(covering) - foot_length;
    let least = covered_length(covering) + bolt_beyond_exit;
    (spare >= Length::ZERO).then_some([least, least + spare])
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

    /// By hand: head at 225 mm, next batten at 315 mm, 15 mm of head and 10 mm of batten to cut.
    #[test]
    fn a_foot_moves_before_anything_is_cut() {
        let covering = covering(380.0, 155.0, 50.0, 15.0);
        let mm = Length::from_mm;
        let fit = |up: f64, foot: f64, may_lower: f64| {
            foot_room(&covering, mm(up), mm(foot)).fit(&covering, mm(may_lower))
        };
        let worked = |lower: f64, head: f64, batten: f64| Fit::Worked {
            lower: mm(lower),
            trim_head: mm(head),
            trim_batten: mm(batten),
        };
        let blocked =
            |head: f64, batten: f64| Fit::Blocked { on_head: mm(head), under_batten: mm(batten) };
        for (up, foot, may_lower, expected) in [
            (228.0, 80.0, 10.0, Fit::Free),
            // 5 mm under the batten: lowered where it may be, the batten cut where not.
            (230.0, 90.0, 10.0, worked(5.0, 0.0, 0.0)),
            (230.0, 90.0, 0.0, worked(0.0, 0.0, 5.0)),
            // On the head.
            (220.0, 80.0, 10.0, worked(0.0, 5.0, 0.0)),
            (210.0, 80.0, 10.0, worked(0.0, 15.0, 0.0)),
            (209.0, 80.0, 10.0, blocked(16.0, 0.0)),
            // Too long for the bay by ten: lowered onto the head, which is cut.
            (230.0, 100.0, 20.0, worked(15.0, 10.0, 0.0)),
            (225.0, 116.0, 0.0, blocked(0.0, 26.0)),
        ] {
            assert_eq!(fit(up, foot, may_lower), expected, "{up} {foot} {may_lower}");
        }
    }

    /// Slates 500 x 250 at a gauge of 200 mm, a reach of 240 mm with the bolt 30 mm beyond the exit:
    /// the foot stands 210 mm above the exit and the head below reaches up to 300 mm.
    #[test]
    fn a_reach_too_short_for_the_covering_is_told_with_one_that_fits() {
        let covering = covering(500.0, 200.0, 50.0, 15.0);
        let mm = Length::from_mm;
        let fit = foot_room(&covering, mm(210.0), mm(120.0)).fit(&covering, EXIT_EXTRA);
        assert_eq!(fit, Fit::Blocked { on_head: mm(90.0), under_batten: Length::ZERO });
        let reach = fitting_reach(&covering, mm(120.0), mm(30.0)).expect("the bay is 135 mm long");
        assert_eq!(reach, [330.0, 345.0].map(mm));
        assert_eq!(fitting_reach(&covering, mm(136.0), mm(30.0)), None);
        let fits = foot_room(&covering, reach[1] - mm(30.0), mm(120.0));
        assert_eq!(fits.fit(&covering, Length::ZERO), Fit::Free);
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
