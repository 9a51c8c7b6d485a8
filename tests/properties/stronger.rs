//! Rails made of stronger parts: so that few hooks pass on a rail whose own parts ask for many.

use hookspan::checks::segment::Segment;
use hookspan::codes::vocabulary::Resistance;

/// The same rail under the same loads, all of whose parts and timber bear so many times as much.
///
/// No product ever searches within a bound above 1, and above it not every argument of the search
/// holds. Wider bounds are tried on stronger parts instead.
pub fn stronger(segment: &Segment, times: f64) -> Segment {
    let mut stronger = segment.clone();
    let hook = &mut stronger.hook;
    for resistance in [&mut hook.press, &mut hook.lift, &mut hook.slope] {
        *resistance = *resistance * times;
    }
    for setting in &mut stronger.settings {
        setting.clearance = setting.clearance * times;
        for strength in &mut setting.timber {
            *strength = *strength * times;
        }
        if let Resistance::Known(screws) = &mut setting.screws {
            for screw in screws {
                screw.pull = screw.pull * times;
                screw.shear = screw.shear * times;
            }
        }
    }
    let rail = &mut stronger.limits;
    rail.ratio /= times;
    rail.bending.normal = rail.bending.normal * times;
    rail.bending.slope = rail.bending.slope * times;
    if let Some(axial) = &mut rail.axial {
        axial.force = axial.force * times;
        axial.critical = axial.critical * times;
    }
    stronger
}
