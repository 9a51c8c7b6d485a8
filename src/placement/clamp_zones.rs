//! Where modules may be clamped, and where the rails under them would best lie.

use crate::units::Length;

use super::array::Field;
use super::rail_axis::RailAxis;

/// Where a module may be clamped, counted from its lower edge, lower and upper rail; where rails run up the
/// slope, from its left edge, left and right rail.
///
/// `None` when nothing is known about clamping the sides the clamps would sit on.
#[must_use]
pub fn clamp_zones(field: &Field, axis: RailAxis) -> Option<[[Length; 2]; 2]> {
    let module = &field.module;
    let [_, across] = axis.turned(field.module_size());
    // Clamps sit on the sides that rails cross: the long ones where those run along the rails' neighbours.
    let crosses_long_sides = field.portrait == (axis == RailAxis::AlongEaves);
    let zone =
        if crosses_long_sides { Some(module.clamp_zone) } else { module.short_side_clamp_zone };
    zone.map(|[near, far]| [[near, far], [across - far, across - near]])
}

/// Without a known clamp zone the rails still have to lie under the module, one in each half.
#[must_use]
pub fn zones_or_halves(field: &Field, axis: RailAxis) -> [[Length; 2]; 2] {
    let [_, across] = axis.turned(field.module_size());
    let half = across / 2.0;
    clamp_zones(field, axis).unwrap_or([[Length::ZERO, half], [half, across]])
}

/// Where the rails of a module would best lie.
#[must_use]
pub fn quarters(field: &Field, axis: RailAxis) -> [Length; 2] {
    let [_, across] = axis.turned(field.module_size());
    [across * 0.25, across * 0.75]
}
