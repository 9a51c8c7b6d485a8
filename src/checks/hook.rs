//! The hook itself, and its spring.

use crate::hardware::Hook;
use crate::units::Force;

/// Utilisation of a hook: `|N|/R_press or R_lift + |S|/R_slope`, linear interaction.
///
/// Linear because a declared pair of resistances says nothing about how they share the material;
/// no hook is stronger under both than this assumes if each was declared alone.
#[must_use]
pub fn utilisation(hook: &Hook, normal: Force, slope: Force) -> f64 {
    let against = if normal >= Force::ZERO { hook.press } else { hook.lift };
    normal.abs() / against + slope.abs() / hook.slope
}
