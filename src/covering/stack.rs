//! How high the tiles stand: heights above the underside of the tiling battens.
//!
//! **Derivation.** A tile hangs with its head on a batten of thickness `t_b` and rests with its
//! tail on the tile of the next lower layer. Both being flat, of thickness `t` and equally
//! inclined to the rafter by the slope `θ` (rise over run), the underside at distance `s` from
//! the tail stands at `t_b + θ·(L − s)`; the tail (`s = 0`) rests on top of a tile whose own tail
//! lies one gauge lower: `t_b + θ·L = t_b + θ·(L − g) + t`, so `θ = t/g`. The arm leaves at the
//! tail of the next course, `s = g` on the tile it lies over: top there `t_b + t + θ·(L − g)`.
//! * Double lap, `L = 2g + H`: `t_b + 2t + t·H/g`.
//! * Interlocking, `L = g + H`: the same expression, `t_b + t + t·H/g`; the profile's trough is
//!   taken as the flat of the tile.
//! * Crown: two layers on each batten spacing `G`, `θ = 2t/G`; the arm lies over the upper one,
//!   whose underside starts one tile higher: `t_b + 2t + θ·H` with `L = G + H`.
//!
//! Camber is added where it may stand highest. Uneven battens and tile tolerances are not in it:
//! measure.

use super::{Covering, Laying};
use crate::units::Length;

/// Overlap of a course by the next one that still covers it: `L − 2g`, `L − G` or `L − g`.
#[must_use]
pub fn headlap(covering: &Covering) -> Length {
    match covering.laying {
        Laying::DoubleLap => covering.tile_length - covering.gauge * 2.0,
        Laying::Crown | Laying::Interlocking => covering.tile_length - covering.gauge,
    }
}

/// Slope of a tile against the rafter, rise over run: a tile lies that much flatter. `t/g` for one
/// layer a gauge, `2t/G` for the two of a crown covering.
#[must_use]
pub fn tile_slope(covering: &Covering) -> f64 {
    covering.tile_thickness / covering.gauge * layers_a_gauge(covering)
}

/// Tiles on a square metre of slope: one for every gauge and cover width, two in a crown covering.
#[must_use]
pub fn tiles_per_m2(covering: &Covering) -> f64 {
    layers_a_gauge(covering) / (covering.gauge * covering.cover_width).m2()
}

fn layers_a_gauge(covering: &Covering) -> f64 {
    if covering.laying == Laying::Crown { 2.0 } else { 1.0 }
}

/// Top of the tile under the arm, where the arm leaves, above the underside of the battens.
#[must_use]
pub fn lower_tile_top(covering: &Covering) -> Length {
    let t = covering.tile_thickness;
    let layers = match covering.laying {
        Laying::DoubleLap | Laying::Crown => t * 2.0,
        Laying::Interlocking => t,
    };
    let rise = headlap(covering) * tile_slope(covering);
    covering.batten_thickness + layers + rise + covering.camber
}

/// How much higher the tile under the arm stands so far down the slope from where the arm leaves the
/// covering: it lies flatter than the rafters and rises to its tail, a gauge farther down.
#[must_use]
pub fn rise_beyond_exit(covering: &Covering, beyond: Length) -> Length {
    beyond.max(Length::ZERO).min(covering.gauge) * tile_slope(covering)
}

/// Top of the highest tile between two places down the slope from where an arm leaves the covering, above
/// the underside of the battens; up the slope from there the tile lies that the arm leaves under.
#[must_use]
pub fn highest_top(covering: &Covering, [from, to]: [Length; 2]) -> Length {
    let gauge = covering.gauge;
    // Courses are alike: each rises to its tail, where the next one's tile begins anew.
    let into_course = Length::from_mm(from.mm().rem_euclid(gauge.mm()));
    lower_tile_top(covering) + rise_beyond_exit(covering, into_course + (to - from))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn covering(laying: Laying, length: f64, gauge: f64, t: f64, batten: f64) -> Covering {
        let mm = Length::from_mm;
        Covering {
            laying,
            tile_length: mm(length),
            tile_thickness: mm(t),
            camber: Length::ZERO,
            cover_width: mm(183.0),
            gauge: mm(gauge),
            first_course: Length::ZERO,
            batten_thickness: mm(batten),
            batten_width: mm(50.0),
            half_bond: true,
            joint_origin: Length::ZERO,
            troughs: Vec::new(),
            head_projection: mm(15.0),
            nibs: Vec::new(),
        }
    }

    /// Worked by hand from the derivation above, 380 mm tiles of 14 mm on 30 mm battens at a
    /// headlap of 80 mm: 30 + 28 + 14·80/150 = 65.5 double-lap, 30 + 28 + 28·80/300 = 65.5 crown.
    #[test]
    fn flat_tiles_stand_as_worked_by_hand() {
        for (laying, gauge) in [(Laying::DoubleLap, 150.0), (Laying::Crown, 300.0)] {
            let covering = covering(laying, 380.0, gauge, 14.0, 30.0);
            assert!((headlap(&covering).mm() - 80.0).abs() < 1e-9);
            assert!((lower_tile_top(&covering).mm() - 65.466_666).abs() < 1e-4);
        }
    }

    /// 14 mm over a gauge of 150 mm: 3 mm over 32.14 mm, the whole 14 mm at the tail, no more beyond it.
    #[test]
    fn the_tile_below_rises_to_its_tail() {
        let covering = covering(Laying::DoubleLap, 380.0, 150.0, 14.0, 30.0);
        let rise = |beyond: f64| rise_beyond_exit(&covering, Length::from_mm(beyond)).mm();
        assert!((rise(32.142_857) - 3.0).abs() < 1e-6);
        assert!((rise(150.0) - 14.0).abs() < 1e-9 && (rise(400.0) - 14.0).abs() < 1e-9);
        assert!(rise(-20.0).abs() < 1e-12);
    }

    /// A rail from 30 to 70 mm below the tail edge lies over 14 · 70/150 = 6.53 mm more than there, one
    /// across the tail of that tile over all 14 mm; one from 80 to 40 mm above the edge over the tile the arm
    /// leaves under, 14 · 110/150 = 10.27 mm; 30 to 70 mm into the next course it is 6.53 mm again.
    #[test]
    fn a_rail_lies_over_the_highest_tile_under_it() {
        let covering = covering(Laying::DoubleLap, 380.0, 150.0, 14.0, 30.0);
        let rise = |from: f64, to: f64| {
            let top = highest_top(&covering, [from, to].map(Length::from_mm));
            (top - lower_tile_top(&covering)).mm()
        };
        assert!((rise(30.0, 70.0) - 6.533_333).abs() < 1e-5);
        assert!((rise(130.0, 170.0) - 14.0).abs() < 1e-9);
        assert!((rise(-80.0, -40.0) - 10.266_667).abs() < 1e-5);
        assert!((rise(180.0, 220.0) - 6.533_333).abs() < 1e-5);
    }
}
