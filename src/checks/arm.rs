//! The arm of a hook as what it is: a flat bar, held by the foot and bent twice.
//!
//! **Model.** The bar rises at the lower edge of the foot, runs down the slope by the hook's reach and
//! rises to the bolt, which stands at the upper end of its slot. It is bent most where it leaves the
//! foot, by `N·a + S·H`. A force that acts `e` to the side of the bar's axis twists it by as much as
//! the force times `e` besides; both together stress it by the root of the sum of their squares.
//!
//! The joint of arm and foot, the plate of the foot and the bolt are no part of this.

use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::codes::vocabulary::BarResistance;
use crate::hardware::Hook;
use crate::mechanics::bent_bar::BentBar;
use crate::units::{Force, Length, SecondMoment, Stiffness};

/// What an arm bears and how far it gives, as a flat bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArmAsBar {
    /// Design resistance square to the roof, pressing and lifting alike.
    pub normal: Force,
    /// Design resistance along the slope.
    pub slope: Force,
    /// Spring square to the roof.
    pub normal_stiffness: Stiffness,
    /// Spring along the slope.
    pub slope_stiffness: Stiffness,
    /// How far a slope force presses it towards the roof, per what the same force would square to it;
    /// the same for every steel.
    pub cross_share: f64,
}

/// A declared figure this many times what the bar gives rests on more than the bar: a calculation
/// that leads there deserves to be seen. Own judgement: a bar strained to its tensile strength bears
/// about so much more than one that yields.
pub const FAR_ABOVE: f64 = 1.5;

/// The legs of an arm, the bolt at the upper end of its slot.
fn legs(hook: &Hook) -> BentBar {
    let rise = hook.arm_underside + hook.arm_thickness / 2.0;
    let bolt = hook.bolt_height + hook.slot_range / 2.0;
    BentBar { rise, run: hook.reach, upstand: (bolt - rise).max(Length::ZERO) }
}

/// The arm of a hook as a bar of this resistance, loaded so far to the side of its axis.
#[must_use]
pub fn as_bar(hook: &Hook, bar: &BarResistance, aside: Length) -> ArmAsBar {
    let legs = legs(hook);
    let bears = |arm: Length| {
        let used = ((arm * Force::from_n(1.0)) / bar.bending)
            .hypot((aside * Force::from_n(1.0)) / bar.torsion);
        Force::from_n(1.0 / used)
    };
    let (b, t) = (hook.arm_width.mm(), hook.arm_thickness.mm());
    let rigidity = bar.elasticity * SecondMoment::from_mm4(b * t.powi(3) / 12.0);
    let flexibility = legs.flexibility();
    let [normal_stiffness, slope_stiffness] = flexibility.springs(rigidity);
    ArmAsBar {
        normal: bears(legs.run),
        slope: bears(legs.rise + legs.upstand),
        normal_stiffness,
        slope_stiffness,
        cross_share: flexibility.cross_share(),
    }
}

/// The same under a force down the slope that a rail up the slope puts on it so far beside its upright: that also
/// bends the arm about its other axis, which a flat bar of width `b` and thickness `t` resists `b/t` times as
/// well.
#[must_use]
pub fn beside(hook: &Hook, bar: ArmAsBar, off: Length) -> ArmAsBar {
    let legs = legs(hook);
    let bent = (off / (legs.rise + legs.upstand)) * (hook.arm_thickness / hook.arm_width);
    ArmAsBar { slope: bar.slope / (1.0 + bent), ..bar }
}

/// How much farther the arm comes down where the rail lies so far down the slope from its bolt, per what it
/// does under a rail on it: the force square to the roof turns the end of the arm as well.
#[must_use]
pub fn turned_share(hook: &Hook, beyond: Length) -> f64 {
    legs(hook).flexibility().beyond_share(beyond.max(Length::ZERO))
}

/// The arm by itself: its legs, and how far its end gives.
#[must_use]
pub fn steps(hook: &Hook) -> [Step; 7] {
    const GEOMETRY: Source = Source::Other("geometry of the arm");
    const BAR: Source = Source::Other("flat bar bent twice, virtual work");
    const TURNED: Source = Source::Other("e_r·(a·h_1 + a²/2)/(EI·δ_NN), 0 where included");
    let legs = legs(hook);
    let flexibility = legs.flexibility();
    let mm =
        |quantity, symbol, length: Length| Step::new(quantity, symbol, length.mm(), "mm", GEOMETRY);
    let give = |quantity, symbol, value| Step::new(quantity, symbol, value, "mm³", BAR);
    [
        mm(Quantity::ArmRise, "h_1", legs.rise),
        mm(Quantity::ArmRun, "a", legs.run),
        mm(Quantity::ArmUpstand, "h_2", legs.upstand),
        give(Quantity::ArmGivesNormal, "EI·δ_NN", flexibility.normal),
        give(Quantity::ArmGivesCross, "EI·δ_NS", flexibility.cross),
        Step::new(Quantity::ArmCrossShare, "r_a", flexibility.cross_share(), "", BAR),
        Step::new(Quantity::ArmTurnedShare, "κ", hook.turned_share, "", TURNED),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Moment, Stress};

    /// A bar of 30 by 8 mm over 260 mm that bears 0.1 kN·m: 0.1/0.26 = 0.3846 kN pressing, and
    /// 0.1/0.105 = 0.9524 kN down the slope. Loaded 20 mm to its side and twisted with 0.02 kN·m at
    /// most: 1/√(2.6² + 1.0²) = 0.3590 kN.
    #[test]
    fn an_arm_bears_what_its_bar_does_by_hand() {
        let knm = Moment::from_knm;
        let bar = BarResistance {
            bending: knm(0.1),
            torsion: knm(0.02),
            elasticity: Stress::from_n_per_mm2(200_000.0),
        };
        let hook = Hook::sample();
        let straight = as_bar(&hook, &bar, Length::ZERO);
        assert!((straight.normal.kn() - 0.384_615).abs() < 1e-6);
        assert!((straight.slope.kn() - 0.952_381).abs() < 1e-6);
        let twisted = as_bar(&hook, &bar, Length::from_mm(20.0));
        assert!((twisted.normal.kn() - 0.358_979).abs() < 1e-6, "{:?}", twisted.normal);
        // Rise 74 mm: 260²·74 + 260³/3 = 10 861 067 mm³ over 200 000·1280 N·mm².
        assert!((straight.normal_stiffness.n_per_mm() - 23.5704).abs() < 1e-3);
    }
}
