//! How far a hook gives because its foot turns on the timber and its plate bends.
//!
//! **Model.** The foot turns about its lower edge by what the moment of the hook's forces takes,
//! `N·a + S·h`, and the rail bolt comes down by `a` times the angle. Two things give, one after the other:
//! * the timber under the plate, an elastic bed, and the screws, along their axes ([`bedded_plate`]);
//! * the plate itself, a beam from the edge at which the arm rises to the farthest screws, turned at that
//!   edge: `θ = M·y/(3·E·I)`. It counts as wide as the arm and `y` more, no wider than it is.
//!
//! **How sure.** EN 1995-1-1:2004+A1:2008 gives no stiffness for the screws (7.1 is of slip across them):
//! what they give by is a formula usual in approvals, from memory, the softer of the two there are; the
//! depth of timber that gives and the width of plate that bends are own judgement. All are meant to be
//! soft rather than stiff; the clearance of an arm is held against [`ALLOWANCE`] times what the foot gives,
//! so that it does not rest on the last tenth of them.

use crate::checks::screws::Seat;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::hardware::{Foot, Hook, NormalSpring, Screw};
use crate::mechanics::bedded_plate::{self, Turned};
use crate::units::{Length, Moment, Stiffness, Stress};

/// Depth of timber across the grain that gives under the plate: a counter-batten and some of the rafter.
const BED_DEPTH: Length = Length::from_mm(60.0);

/// Modulus of the plate: that of stainless steel, the lower of the usual ones, EN 1993-1-4 2.1.3.
const STEEL: Stress = Stress::from_n_per_mm2(200_000.0);

/// What a foot gives is counted so many times where an arm must not touch its tile: own judgement, for
/// stiffnesses from memory. Loads are shared by the springs as they are.
pub const ALLOWANCE: f64 = 1.2;

/// A foot on timber of a width that turns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurningFoot {
    /// Width of timber it stands on.
    width: Length,
    /// Stiffness of a screw along its axis.
    screw: Stiffness,
    /// Length that is pressed.
    pressed: Length,
    /// Moment per radian of timber and screws.
    on_timber: Moment,
    /// From the edge to the farthest screws.
    plate_length: Length,
    /// Width of plate that bends.
    plate_width: Length,
    /// Moment per radian of the plate.
    plate: Moment,
    /// Modulus of the timber across the grain.
    across_grain: Step,
}

/// How the foot of a hook turns on timber of this width and modulus across the grain; `None` where its
/// screws do not reach the rafter.
#[must_use]
pub fn on_timber(
    hook: &Hook,
    (bearing_width, across_grain): (Length, Step),
    screw: &Screw,
    seat: &Seat,
) -> Option<TurningFoot> {
    if seat.threaded <= Length::ZERO {
        return None;
    }
    let foot = &hook.foot;
    let width = foot.width.min(bearing_width);
    let bed = across_grain.value / BED_DEPTH.mm() * width.mm();
    let screw = axial_stiffness(screw.diameter, seat.threaded);
    let ups = foot.screws.iter().map(|[_, up]| up.mm());
    let Turned { pressed, spring } = bedded_plate::turned(bed, screw.n_per_mm(), ups);
    let plate_length = plate_length(foot);
    let plate_width = plate_width(hook);
    (spring > 0.0).then(|| TurningFoot {
        width,
        screw,
        pressed: Length::from_mm(pressed),
        on_timber: Moment::from_nmm(spring),
        plate_length,
        plate_width,
        plate: plate_spring(plate_width, foot.thickness, plate_length),
        across_grain,
    })
}

/// From the edge at which the arm rises to the farthest screws.
fn plate_length(foot: &Foot) -> Length {
    foot.screws.iter().map(|[_, up]| *up).fold(Length::ZERO, Length::max)
}

/// Width of the plate that bends: the arm and the way to the farthest screws more, at most the foot.
#[must_use]
pub fn plate_width(hook: &Hook) -> Length {
    hook.foot.width.min(hook.arm_width + plate_length(&hook.foot))
}

/// Moment per radian of a plate that is turned at one end and held at the other.
fn plate_spring(width: Length, thickness: Length, length: Length) -> Moment {
    let inertia = width.mm() * thickness.mm().powi(3) / 12.0;
    Moment::from_nmm(3.0 * STEEL.n_per_mm2() * inertia / length.mm())
}

impl TurningFoot {
    /// Moment per radian of timber, screws and plate together.
    #[must_use]
    pub fn spring(&self) -> Moment {
        Moment::from_nmm(1.0 / (1.0 / self.on_timber.nmm() + 1.0 / self.plate.nmm()))
    }

    /// The same with the [`ALLOWANCE`].
    #[must_use]
    pub fn softened(&self) -> Moment {
        Moment::from_nmm(self.spring().nmm() / ALLOWANCE)
    }

    /// How it was found, with the bolt so far from the edge it turns about.
    #[must_use]
    pub fn steps(&self, reach: Length) -> [Step; 12] {
        const JUDGEMENT: Source = Source::Other("own judgement");
        const APPROVALS: Source =
            Source::Other("780·d^0.2·l_ef^0.4, usual in approvals, from memory");
        const GEOMETRY: Source = Source::Other("geometry of the foot");
        const BED: Source = Source::Other("rigid plate on an elastic bed, screws beyond a_φ pull");
        const SPREAD: Source = Source::Other("arm and y_f more, at most the foot; own judgement");
        const PLATE: Source = Source::Other("3·E·(b_p·t³/12)/y_f, E = 200 000 N/mm²");
        const BOTH: Source = Source::Other("1/(1/K_φ + 1/K_p)");
        let mm = |quantity, symbol, length: Length, source| {
            Step::new(quantity, symbol, length.mm(), "mm", source)
        };
        let knm = |quantity, symbol, moment: Moment, source| {
            Step::new(quantity, symbol, moment.knm(), "kN·m", source)
        };
        let screw = self.screw.n_per_mm();
        [
            self.across_grain,
            mm(Quantity::BedDepth, "t_90", BED_DEPTH, JUDGEMENT),
            mm(Quantity::BedWidth, "b_90", self.width, GEOMETRY),
            Step::new(Quantity::ScrewAxialStiffness, "k_ax", screw, "N/mm", APPROVALS),
            mm(Quantity::PressedLength, "a_φ", self.pressed, BED),
            knm(Quantity::TurningSpring, "K_φ", self.on_timber, BED),
            mm(Quantity::PlateLength, "y_f", self.plate_length, GEOMETRY),
            mm(Quantity::PlateWidth, "b_p", self.plate_width, SPREAD),
            knm(Quantity::PlateSpring, "K_p", self.plate, PLATE),
            knm(Quantity::FootSpring, "K", self.spring(), BOTH),
            Step::new(Quantity::FootAllowance, "γ_φ", ALLOWANCE, "", JUDGEMENT),
            mm(Quantity::TurningArm, "e_φ", reach, GEOMETRY),
        ]
    }
}

/// Axial stiffness of a screw by diameter and thread in the timber, N/mm: 780·d^0.2·l^0.4. Usual in
/// approvals of self-tapping screws, from memory.
fn axial_stiffness(diameter: Length, thread: Length) -> Stiffness {
    Stiffness::from_n_per_mm(780.0 * diameter.mm().powf(0.2) * thread.mm().powf(0.4))
}

/// From the edge a foot turns about down the slope to the axis of the rail, `offset` below its bolt.
#[must_use]
pub fn to_rail(hook: &Hook, offset: Length) -> Length {
    hook.reach + offset.max(Length::ZERO)
}

/// An arm on a foot that turns so hard, with the rail so far from the edge it turns about and its bolt so
/// high above it; by itself where nothing is known of how the foot turns.
#[must_use]
pub fn on_foot(arm: NormalSpring, foot: Option<Moment>, at_bolt: [Length; 2]) -> NormalSpring {
    foot.map_or(arm, |foot| turning(arm, foot, at_bolt))
}

/// An arm on a foot that turns so hard: with its bolt so far down the slope from the edge the foot turns
/// about, and so high above it.
#[must_use]
fn turning(arm: NormalSpring, foot: Moment, [reach, height]: [Length; 2]) -> NormalSpring {
    let Some(alone) = arm.stiffness else { return arm };
    let at_bolt = Stiffness::from_n_per_mm(foot.nmm() / reach.mm().powi(2));
    let (by_arm, by_foot) = (1.0 / alone.n_per_mm(), 1.0 / at_bolt.n_per_mm());
    let cross = by_arm * arm.cross_share + reach.mm() * height.mm() / foot.nmm();
    let gives = by_arm + by_foot;
    NormalSpring {
        stiffness: Some(Stiffness::from_n_per_mm(1.0 / gives)),
        foot: Some(at_bolt),
        cross_share: cross / gives,
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

    /// A beam on two supports turned by a moment at one of them, as in any table of beams: `θ = M·l/(3·E·I)`.
    /// 105 · 6³/12 = 1890 mm⁴ over 75 mm: 3 · 200 000 · 1890/75 = 15.12 kN·m.
    #[test]
    fn a_plate_bends_by_hand() {
        let mm = Length::from_mm;
        let spring = plate_spring(mm(105.0), mm(6.0), mm(75.0));
        assert!((spring.knm() - 15.12).abs() < 1e-9, "{spring:?}");
    }

    /// An arm of 200 N/mm, cross share 0.1, on a foot of 40 kN·m: 1/200 + 260²/4e7 = 0.00669 mm/N, so
    /// 149.48 N/mm; across 0.0005 + 260 · 100/4e7 = 0.00115 of 0.00669, 0.17190.
    #[test]
    fn a_hook_on_a_turning_foot_gives_by_hand() {
        let arm = NormalSpring {
            stiffness: Some(Stiffness::from_n_per_mm(200.0)),
            foot: None,
            cross_share: 0.1,
        };
        let mm = Length::from_mm;
        let soft = turning(arm, Moment::from_nmm(4e7), [mm(260.0), mm(100.0)]);
        let stiffness = soft.stiffness.expect("a spring").n_per_mm();
        assert!((stiffness - 149.477).abs() < 1e-3, "{stiffness}");
        assert!((soft.cross_share - 0.171_898).abs() < 1e-6, "{}", soft.cross_share);
    }
}
