//! The arm against the tile below: contact is the limit.

use crate::checks::stacks::Stacks;
use crate::codes::cited::{Source, Step};
use crate::codes::quantity::Quantity;
use crate::covering::{Covering, stack};
use crate::hardware::{Hook, NormalSpring, Packers};
use crate::roof::Layers;
use crate::units::{Force, Length, Stiffness};

/// Least clearance between arm and tile below before any load, without packers. May be negative.
///
/// `beyond` is from the tail edge the arm leaves under down the slope to the bolt, where the rail really
/// lies. Between the two, arm and tile are taken as straight, so the least is at one end or at the tail
/// of the tile.
#[must_use]
pub fn unloaded(hook: &Hook, layers: &Layers, covering: &Covering, beyond: Length) -> Length {
    let above = hook.arm_underside - layers.battens_above_foot;
    above - stack::lower_tile_top(covering) - narrowing(hook, covering, beyond)
}

/// How much less clearance there is below the bolt than where the arm leaves the covering; nothing for
/// an arm that leads away from the tile.
#[must_use]
pub fn narrowing(hook: &Hook, covering: &Covering, beyond: Length) -> Length {
    if beyond <= Length::ZERO {
        return Length::ZERO;
    }
    // Where the bolt stands beyond the tail of the tile, the tail is what the arm meets first.
    let meets = covering.gauge.min(beyond);
    let made_for = hook.bolt_beyond_exit;
    // An arm that leaves farther up than it is made for is level up there.
    let along = (meets + made_for - beyond).max(Length::ZERO);
    let rises = if made_for > Length::ZERO {
        (hook.arm_underside_at_bolt - hook.arm_underside) * (along / made_for)
    } else {
        Length::ZERO
    };
    (stack::rise_beyond_exit(covering, beyond) - rises).max(Length::ZERO)
}

/// Least clearance between the underside of a rail of this depth and the tiles below before any load,
/// without packers, with its bolt at the lower end of its slot. It lies over so much of the slope, counted down
/// the slope from the tail edge the arm leaves under: a whole gauge where it runs up the slope. May be negative.
#[must_use]
pub fn under_rail(
    hook: &Hook,
    layers: &Layers,
    covering: &Covering,
    (over, depth): ([Length; 2], Length),
) -> Length {
    let underside = hook.bolt_height - hook.slot_range / 2.0 - depth / 2.0;
    let top = stack::highest_top(covering, over);
    underside - layers.battens_above_foot - top
}

/// The force square to the roof that would press the arm as far towards the tile as these two forces
/// do. One up the slope is not counted on to relieve it.
#[must_use]
#[inline]
pub fn pressing(spring: &NormalSpring, normal: Force, slope: Force) -> Force {
    normal + slope.max(Force::ZERO) * spring.cross_share
}

/// How much of a clearance the arm uses up under a [`pressing`] force; 0 when it is lifted, and
/// without bound when there is none to use.
#[must_use]
pub fn used(spring: &NormalSpring, clearance: Length, pressing: Force) -> f64 {
    match spring.stiffness {
        Some(k) if pressing > Force::ZERO => {
            if clearance > Length::ZERO {
                (pressing / k) / clearance
            } else {
                f64::INFINITY
            }
        }
        _ => 0.0,
    }
}

/// [`used`] with its provenance; nothing where the stiffness of the hook is not known.
pub fn steps(
    spring: &NormalSpring,
    clearance: Length,
    [normal, slope]: [Force; 2],
) -> impl Iterator<Item = Step> {
    const DECLARED_OR_BAR: Source = Source::Other("declared, or the arm as a flat bar");
    const TURNING: Source = Source::Other("K/(γ_φ·e_φ²); stiffnesses from memory");
    const SPRING: Source = Source::Other("spring of arm and foot");
    const BAR: Source = Source::Other(
        "arm as a bent bar, r_a/(1 + κ); with what its foot turns k·(r_a/((1 + κ)·k_a) + h_max/(e_φ·k_f))",
    );
    let pressing = pressing(spring, normal, slope);
    let (share, cross) = (used(spring, clearance, pressing), spring.cross_share);
    spring.stiffness.into_iter().flat_map(move |k| {
        let step = |quantity, symbol, k: Stiffness, source| {
            Step::new(quantity, symbol, k.kn_per_mm(), "kN/mm", source)
        };
        let apart = spring.foot.map(|foot| {
            let arm = 1.0 / (1.0 / k.n_per_mm() - 1.0 / foot.n_per_mm());
            [
                step(Quantity::ArmStiffness, "k_a", Stiffness::from_n_per_mm(arm), DECLARED_OR_BAR),
                step(Quantity::FootStiffness, "k_f", foot, TURNING),
            ]
        });
        let source = if apart.is_some() { SPRING } else { DECLARED_OR_BAR };
        let both = step(Quantity::HookStiffness, "k", k, source);
        let down = (pressing / k).max(Length::ZERO);
        let under_load = [
            Step::new(Quantity::CrossShare, "r", cross, "", BAR),
            Step::new(Quantity::ArmMovement, "(N + r·S)/k", down.mm(), "mm", SPRING),
            Step::new(Quantity::ClearanceWithPackers, "c", clearance.mm(), "mm", GEOMETRY),
            Step::new(Quantity::Utilisation, "u", share, "", SPRING),
        ];
        apart.into_iter().flatten().chain([both]).chain(under_load)
    })
}

/// Where a clearance comes from.
const GEOMETRY: Source = Source::Other("geometry of the covering");

/// The stack of packers that lifts a clearance to the least one asked for: as low as possible,
/// then of as few pieces as possible, then of the thickest. `None` when no stack within the limit
/// does it.
#[must_use]
pub fn packers_for(packers: &Packers, have: Length, want: Length) -> Option<Vec<Length>> {
    let stacks = Stacks::of(packers);
    stacks.lowest_from(want - have).map(|height| stacks.pieces(height))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 0.9 kN on 0.2 kN/mm press the arm down by 4.5 mm: 0.75 of 6 mm, and nothing where it lifts.
    #[test]
    fn an_arm_uses_up_its_clearance_by_hand() {
        let (spring, clearance) = (Hook::sample().normal_spring, Length::from_mm(6.0));
        assert!((used(&spring, clearance, Force::from_kn(0.9)) - 0.75).abs() < 1e-12);
        assert!(used(&spring, clearance, Force::from_kn(-0.9)).abs() < f64::EPSILON);
        assert!(used(&spring, Length::ZERO, Force::from_kn(0.9)).is_infinite());
    }

    /// A force of 0.5 kN down the slope on an arm whose cross share is 0.2 adds 0.1 kN; up the slope it
    /// takes nothing off.
    #[test]
    fn a_slope_force_presses_the_arm_onto_the_tile_by_hand() {
        let spring = NormalSpring { cross_share: 0.2, ..NormalSpring::RIGID };
        let pressed = |n: f64, s: f64| pressing(&spring, Force::from_kn(n), Force::from_kn(s)).kn();
        assert!((pressed(0.9, 0.5) - 1.0).abs() < 1e-12);
        assert!((pressed(0.9, -0.5) - 0.9).abs() < 1e-12);
    }

    #[test]
    fn a_stack_is_low_first_and_then_of_few_pieces() {
        let packers = Packers {
            thicknesses: [1.0, 2.0, 3.0, 5.0, 10.0].map(Length::from_mm).to_vec(),
            max_stack: Length::from_mm(20.0),
        };
        let stack = |have: f64| {
            packers_for(&packers, Length::from_mm(have), Length::from_mm(5.0))
                .map(|s| s.iter().map(|t| t.mm()).collect::<Vec<_>>())
        };
        assert_eq!(stack(5.0), Some(vec![]));
        assert_eq!(stack(1.0), Some(vec![3.0, 1.0]));
        assert_eq!(stack(-2.5), Some(vec![5.0, 3.0]));
        assert_eq!(stack(-15.5), None);
    }

    /// Foot of 60 and hook of 40 N/mm: 1/40 - 1/60 = 1/120, so the arm by itself has 120 N/mm.
    #[test]
    fn the_trace_tells_arm_and_foot_apart() {
        let n_per_mm = Stiffness::from_n_per_mm;
        let spring = NormalSpring {
            stiffness: Some(n_per_mm(40.0)),
            foot: Some(n_per_mm(60.0)),
            cross_share: 0.0,
        };
        let forces = [Force::from_kn(0.1), Force::ZERO];
        let steps: Vec<Step> = steps(&spring, Length::from_mm(6.0), forces).collect();
        let arm = steps.iter().find(|step| step.quantity == Quantity::ArmStiffness);
        assert!((arm.expect("it is told").value - 0.12).abs() < 1e-9);
    }
}
