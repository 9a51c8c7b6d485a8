//! How what a request says is known.

use crate::assessment::Provenance;
use crate::wire::built::{Built as WireBuilt, Found};
use crate::wire::fault::FaultCode;
use crate::wire::provenance::{FoundProvenance, Provenance as WireProvenance, RoofProvenance};
use crate::wire::roof::Roof as WireRoof;
use crate::wire::survey::{Measured, MeasuredHook};

use super::Notes;

/// A value that can be marked: its member, whether it is given, and the mark.
type Marked = (&'static str, bool, Option<WireProvenance>);

/// Marks of the roof.
pub fn of_roof(wire: &WireRoof, notes: &mut Notes) {
    let Some(of) = &wire.provenance else { return };
    let positions =
        if wire.rafters.positions_mm.is_some() { "rafters/positions_mm" } else { "rafters" };
    let RoofProvenance { outline, pitch, ridge_height, rafter_positions, rafter_width, .. } = *of;
    let RoofProvenance { rafter_depth, rafter_span, strength_class, layers, covering, .. } = *of;
    let marked: [(&str, &str, bool, Option<WireProvenance>); 10] = [
        ("outline", "outline_mm", true, outline),
        ("pitch", "pitch_deg", true, pitch),
        ("ridge_height", "ridge_height_m", true, ridge_height),
        ("rafter_positions", positions, true, rafter_positions),
        ("rafter_width", "rafters/width_mm", true, rafter_width),
        ("rafter_depth", "rafters/depth_mm", true, rafter_depth),
        ("rafter_span", "rafters/span_m", wire.rafters.span_m.is_some(), rafter_span),
        ("strength_class", "rafters/strength_class", true, strength_class),
        ("layers", "layers", true, layers),
        ("covering", "covering", true, covering),
    ];
    for (name, value, given, mark) in marked {
        note(&format!("/roof/provenance/{name}"), format!("/roof/{value}"), (given, mark), notes);
    }
}

/// Marks of what was found at built hooks, save those of values that others have taken the place of: by
/// hook and member.
pub fn of_built(
    root: &str,
    wire: &WireBuilt,
    replaced: impl Fn(usize, &str) -> bool,
    notes: &mut Notes,
) {
    for (h, hook) in wire.hooks.iter().enumerate() {
        let Some(found) = &hook.found else { continue };
        let Some(provenance) = &found.provenance else { continue };
        let kept = |value: &str| !replaced(h, value);
        each(&format!("{root}/hooks/{h}/found"), &found_values(found, provenance), kept, notes);
    }
}

fn found_values(found: &Found, of: &FoundProvenance) -> [Marked; 7] {
    [
        ("rafter_x_mm", found.rafter_x_mm.is_some(), of.rafter_x),
        ("rafter_width_mm", found.rafter_width_mm.is_some(), of.rafter_width),
        ("counter_batten_mm", found.counter_batten_mm.is_some(), of.counter_batten),
        ("clearance_mm", found.clearance_mm.is_some(), of.clearance),
        ("side_joint_mm", found.side_joint_mm.is_some(), of.side_joint),
        ("slot_mm", found.slot_mm.is_some(), of.slot),
        ("screw_length_mm", found.screw_length_mm.is_some(), of.screw_length),
    ]
}

/// Marks of the readings of a survey.
pub fn of_survey(measured: &Measured, notes: &mut Notes) {
    for (m, hook) in measured.hooks.iter().enumerate() {
        each(&format!("/measured/hooks/{m}"), &readings(hook), |_| true, notes);
    }
}

/// Whether a value of this member was read at a hook.
pub fn is_read(hook: &MeasuredHook, value: &str) -> bool {
    readings(hook).iter().any(|(member, given, _)| *member == value && *given)
}

fn readings(hook: &MeasuredHook) -> [Marked; 8] {
    let of = hook.provenance.clone().unwrap_or_default();
    [
        ("rafter_x_mm", hook.rafter_x_mm.is_some(), of.rafter_x),
        ("rafter_width_mm", hook.rafter_width_mm.is_some(), of.rafter_width),
        ("counter_batten_mm", hook.counter_batten_mm.is_some(), of.counter_batten),
        ("screw_length_mm", hook.screw_length_mm.is_some(), of.screw_length),
        ("clearance_mm", hook.clearance_mm.is_some(), of.clearance),
        ("level_mm", hook.level_mm.is_some(), of.level),
        ("room_above_mm", hook.room_above_mm.is_some(), of.room_above),
        ("side_joint_mm", hook.side_joint_mm.is_some(), of.side_joint),
    ]
}

fn each(at: &str, values: &[Marked], kept: impl Fn(&str) -> bool, notes: &mut Notes) {
    for (value, given, mark) in values {
        let pointer = format!("{at}/provenance/{}", value.trim_end_matches("_mm"));
        if kept(value) || !given {
            note(&pointer, format!("{at}/{value}"), (*given, *mark), notes);
        }
    }
}

/// Keeps a mark, or says that there is nothing it could be of.
fn note(
    pointer: &str,
    value: String,
    (given, mark): (bool, Option<WireProvenance>),
    notes: &mut Notes,
) {
    match mark {
        None => {}
        Some(_) if !given => notes.fault(
            pointer,
            FaultCode::Contradiction,
            "It says how a value is known that is not given.",
        ),
        Some(mark) => notes.remarks.provenance.push((value, provenance_of(mark))),
    }
}

const fn provenance_of(wire: WireProvenance) -> Provenance {
    match wire {
        WireProvenance::Measured => Provenance::Measured,
        WireProvenance::Inferred => Provenance::Inferred,
        WireProvenance::Assumed => Provenance::Assumed,
    }
}
