//! The hook itself, and its spring.

use crate::hardware::Hook;
use crate::units::{Force, Length};

/// Utilisation of a hook: `|N|/R_press or R_lift + |S|/R_slope`, linear interaction.
///
/// Linear because a declared pair of resistances says nothing about how they share the material;
/// no hook is stronger under both than this assumes if each was declared alone.
#[must_use]
pub fn utilisation(hook: &Hook, normal: Force, slope: Force) -> f64 {
    let against = if normal >= Force::ZERO { hook.press } else { hook.lift };
    normal.abs() / against + slope.abs() / hook.slope
}

/// The hook with what a rail beside its bolt leaves of its resistances square to the roof: where they
/// are declared at the bolt, `|N|` at the distance `off` along the slope bends the arm by
/// `1 + |off|/reach` times as much. The slope force is taken to act at the height of the bolt.
#[must_use]
pub fn hung(hook: Hook, off: Length) -> Hook {
    let off = off.abs();
    if off <= hook.includes_offset {
        return hook;
    }
    let factor = 1.0 + off / hook.reach;
    Hook { press: hook.press / factor, lift: hook.lift / factor, ..hook }
}
