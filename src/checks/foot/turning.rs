//! How far a hook gives because its foot turns on the timber.
//!
//! **Model.** The plate is rigid, the timber under it an elastic bed, the screws give along their axes
//! ([`bedded_plate`]). The foot turns about its lower edge by what the moment of the hook's forces takes,
//! `N·a + S·h`, and the rail bolt comes down by `a` times the angle.
//!
//! **How sure.** EN 1995-1-1:2004+A1:2008 gives no stiffness for either (7.1 is of slip across the
//! screw): what screws give by is a formula usual in approvals, from memory, the softer of the two there
//! are; the depth of timber that gives is own judgement. Both are meant to be soft rather than stiff.

use crate::checks::screws::Seat;
use crate::hardware::{Foot, Hook, Screw};
use crate::mechanics::bedded_plate;
use crate::units::{Length, Moment, Stiffness, Stress};

/// Depth of timber across the grain that gives under the plate: a counter-batten and some of the rafter.
const BED_DEPTH: Length = Length::from_mm(60.0);

/// Mean modulus across the grain of C24, EN 338:2016 Table 1, from memory.
const ACROSS_GRAIN: Stress = Stress::from_n_per_mm2(370.0);

/// Moment per radian of a foot on timber of this width; `None` where its screws do not reach the rafter.
#[must_use]
pub fn spring(foot: &Foot, bearing_width: Length, screw: &Screw, seat: &Seat) -> Option<Moment> {
    if seat.threaded <= Length::ZERO {
        return None;
    }
    let width = foot.width.min(bearing_width).mm();
    let bed = ACROSS_GRAIN.n_per_mm2() / BED_DEPTH.mm() * width;
    let pulled = axial_stiffness(screw.diameter, seat.threaded).n_per_mm();
    let ups = foot.screws.iter().map(|[_, up]| up.mm());
    let turned = bedded_plate::turning_spring(bed, pulled, ups);
    (turned > 0.0).then(|| Moment::from_nmm(turned))
}

/// Axial stiffness of a screw by diameter and thread in the timber, N/mm: 780·d^0.2·l^0.4. Usual in
/// approvals of self-tapping screws, from memory.
fn axial_stiffness(diameter: Length, thread: Length) -> Stiffness {
    Stiffness::from_n_per_mm(780.0 * diameter.mm().powf(0.2) * thread.mm().powf(0.4))
}

/// A hook whose spring is that of its arm alone, on a foot that turns: with its bolt so far down the slope
/// from the edge the foot turns about, and so high above it.
#[must_use]
pub fn turning(hook: Hook, spring: Moment, [reach, height]: [Length; 2]) -> Hook {
    let Some(arm) = hook.normal_stiffness else { return hook };
    let foot = Stiffness::from_n_per_mm(spring.nmm() / reach.mm().powi(2));
    let (by_arm, by_foot) = (1.0 / arm.n_per_mm(), 1.0 / foot.n_per_mm());
    let cross = by_arm * hook.cross_share + reach.mm() * height.mm() / spring.nmm();
    let gives = by_arm + by_foot;
    Hook {
        normal_stiffness: Some(Stiffness::from_n_per_mm(1.0 / gives)),
        foot_stiffness: Some(foot),
        cross_share: cross / gives,
        ..hook
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 780 · 8^0.2 · 60^0.4 = 780 · 1.51572 · 5.14256 = 6,080 N/mm.
    #[test]
    fn a_screw_gives_by_hand() {
        let mm = Length::from_mm;
        let stiffness = axial_stiffness(mm(8.0), mm(60.0)).n_per_mm();
        assert!((stiffness - 6080.0).abs() < 1.0, "{stiffness}");
    }

    /// An arm of 200 N/mm, cross share 0.1, on a foot of 40 kN·m: 1/200 + 260²/4e7 = 0.00669 mm/N, so
    /// 149.48 N/mm; across 0.0005 + 260 · 100/4e7 = 0.00115 of 0.00669, 0.17190.
    #[test]
    fn a_hook_on_a_turning_foot_gives_by_hand() {
        let hook = Hook { cross_share: 0.1, ..Hook::sample() };
        let mm = Length::from_mm;
        let soft = turning(hook, Moment::from_nmm(4e7), [mm(260.0), mm(100.0)]);
        let stiffness = soft.normal_stiffness.expect("a spring").n_per_mm();
        assert!((stiffness - 149.477).abs() < 1e-3, "{stiffness}");
        assert!((soft.cross_share - 0.171_898).abs() < 1e-6, "{}", soft.cross_share);
    }
}
