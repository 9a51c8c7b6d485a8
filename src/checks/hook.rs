//! The hook itself, and its spring.

use crate::checks::arm;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::hardware::{Hook, NormalSpring};
use crate::units::{Force, Length};

/// Utilisation of a hook: `|N|/R_press or R_lift + |S|/R_slope`, linear interaction.
///
/// Linear because a declared pair of resistances says nothing about how they share the material;
/// no hook is stronger under both than this assumes if each was declared alone.
#[must_use]
pub fn utilisation(hook: &Hook, normal: Force, slope: Force) -> f64 {
    let [by_normal, by_slope] = shares(hook, normal, slope);
    by_normal + by_slope
}

/// What normal and slope force use of a hook.
fn shares(hook: &Hook, normal: Force, slope: Force) -> [f64; 2] {
    [normal.abs() / against(hook, normal), slope.abs() / hook.slope]
}

fn against(hook: &Hook, normal: Force) -> Force {
    if normal >= Force::ZERO { hook.press } else { hook.lift }
}

/// [`utilisation`] with its provenance.
#[must_use]
pub fn steps(hook: &Hook, normal: Force, slope: Force) -> [Step; 5] {
    const DECLARED: Source = Source::Other("declared, or of the bar");
    const AT_RAIL: Source = Source::Other(
        "declared, or of the bar; by 1 + |e_r|/a where the rail's place is not included",
    );
    const LINEAR: Source = Source::Other("linear interaction");
    let [by_normal, by_slope] = shares(hook, normal, slope);
    let used = utilisation(hook, normal, slope);
    let resistance = |quantity, symbol, force: Force, source| {
        Step::new(quantity, symbol, force.kn(), "kN", source)
    };
    let share = |quantity, symbol, value| Step::new(quantity, symbol, value, "", LINEAR);
    [
        resistance(Quantity::HookNormalResistance, "R_N", against(hook, normal), AT_RAIL),
        resistance(Quantity::HookSlopeResistance, "R_S", hook.slope, DECLARED),
        share(Quantity::NormalShare, "N/R_N", by_normal),
        share(Quantity::SlopeShare, "S/R_S", by_slope),
        share(Quantity::Utilisation, "u", used),
    ]
}

/// The hook with what a rail beside its bolt leaves of its resistances square to the roof: where they
/// are declared at the bolt, `|N|` at the distance `off` along the slope bends the arm by
/// `1 + |off|/reach` times as much. A rail down the slope also presses its end farther: see
/// [`arm::turned_share`]. The slope force is taken to act at the height of the bolt.
#[must_use]
pub fn hung(hook: Hook, off: Length) -> Hook {
    if off.abs() <= hook.includes_offset {
        return hook;
    }
    let factor = 1.0 + off.abs() / hook.reach;
    let turned_share = arm::turned_share(&hook, off);
    let NormalSpring { stiffness, cross_share, .. } = hook.normal_spring;
    Hook {
        press: hook.press / factor,
        lift: hook.lift / factor,
        turned_share,
        normal_spring: NormalSpring {
            stiffness: stiffness.map(|k| k / (1.0 + turned_share)),
            cross_share: cross_share / (1.0 + turned_share),
            ..hook.normal_spring
        },
        ..hook
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Pressing 1.2/2.0 + 0.3/1.5 = 0.8; lifting 0.5/1.0 + 0.3/1.5 = 0.7. With the rail 26 mm beside
    /// its bolt the arm of 260 mm is bent by 1.1 times as much: 1.1·0.6 + 0.2 = 0.86.
    #[test]
    fn a_hook_is_used_by_both_forces_by_hand() {
        let used =
            |hook: &Hook, n: f64, s: f64| utilisation(hook, Force::from_kn(n), Force::from_kn(s));
        let hook = Hook::sample();
        assert!((used(&hook, 1.2, 0.3) - 0.8).abs() < 1e-12);
        assert!((used(&hook, -0.5, -0.3) - 0.7).abs() < 1e-12);
        let hung = hung(hook, Length::from_mm(26.0));
        assert!((used(&hung, 1.2, 0.3) - 0.86).abs() < 1e-12);
    }
}
