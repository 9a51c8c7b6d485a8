//! Modules: that of the array, and those that fields have of their own.

use crate::assessment::Assumed;
use crate::codes::Rules;
use crate::components::usual::IllustrativeModule;
use crate::hardware::Module;
use crate::placement::array::Field;
use crate::service::figures;
use crate::units::{Area, Length, Pressure, weight_of_kg};
use crate::wire::array::{Module as WireModule, ModuleArray, ModuleChoice, ModuleField};
use crate::wire::evidence::PartKind;
use crate::wire::fault::FaultCode;

use super::Notes;
use super::evidence::{self, Of};
use super::short::nothing_called;

/// The module of the array.
pub const OF_THE_ARRAY: Of<'_> = Of::job(PartKind::Module, "/array/module");

/// The module of every field: its own, or that of the array.
pub fn of_fields(wire: &ModuleArray, rules: Rules, notes: &mut Notes) -> Vec<Module> {
    let of_array = module(OF_THE_ARRAY, &wire.module, rules, notes);
    let of_field = |(i, field): (usize, &ModuleField)| match &field.module {
        // Where none is called so, that is a fault already.
        Some(own) => own_module((i, field), own, rules, notes).unwrap_or_else(|| of_array.clone()),
        None => of_array.clone(),
    };
    let modules = wire.fields.iter().enumerate().map(of_field).collect();
    if wire.fields.iter().all(|field| field.module.is_some()) {
        notes.fault(
            OF_THE_ARRAY.at,
            FaultCode::Contradiction,
            "Every field names a module of its own, so no field has this one: give one of theirs here, and leave it out of its fields.",
        );
    }
    modules
}

/// The own module of a field; `None` where none is called so.
fn own_module(
    (index, field): (usize, &ModuleField),
    wire: &ModuleChoice,
    rules: Rules,
    notes: &mut Notes,
) -> Option<Module> {
    let at = format!("/array/fields/{index}/module");
    let of = Of { part: PartKind::Module, field: Some(&field.id), at: &at };
    match wire {
        ModuleChoice::Inline(wire) => Some(module(of, wire, rules, notes)),
        ModuleChoice::Id(id) => {
            let Some(illustrative) = IllustrativeModule::find(id) else {
                notes.fault(at, FaultCode::UnknownComponent, nothing_called(id));
                return None;
            };
            notes.remarks.invented_modules.push((index, id.clone()));
            Some(module(of, &illustrative.whole(), rules, notes))
        }
    }
}

/// A module, and what its figures rest on.
pub fn module(of: Of<'_>, wire: &WireModule, rules: Rules, notes: &mut Notes) -> Module {
    let zone = |zone: [f64; 2], member: &str, notes: &mut Notes| {
        if zone[0] > zone[1] {
            notes.fault(
                format!("{}/{member}", of.at),
                FaultCode::Contradiction,
                format!(
                    "The zone begins at {} mm and ends before that, at {} mm.",
                    zone[0], zone[1]
                ),
            );
        }
        zone.map(Length::from_mm)
    };
    long_side_first(of.at, [wire.length_mm, wire.width_mm], notes);
    let module = Module {
        length: Length::from_mm(wire.length_mm),
        width: Length::from_mm(wire.width_mm),
        thickness: Length::from_mm(wire.thickness_mm),
        weight: weight_of_kg(wire.mass_kg),
        press: Pressure::from_kn_per_m2(wire.press_capacity_kn_per_m2),
        lift: Pressure::from_kn_per_m2(wire.lift_capacity_kn_per_m2),
        clamp_zone: zone(wire.clamp_zone_mm, "clamp_zone_mm", notes),
        short_side_clamp_zone: wire
            .short_side_clamp_zone_mm
            .map(|z| zone(z, "short_side_clamp_zone_mm", notes)),
    };
    evidence::of_part(of, wire, (&wire.evidence, figures::MODULE), rules, notes);
    module
}

/// Length and width of a module are not exchanged.
pub fn long_side_first(at: &str, [length_mm, width_mm]: [f64; 2], notes: &mut Notes) {
    if width_mm > length_mm {
        notes.fault(
            format!("{at}/width_mm"),
            FaultCode::Contradiction,
            "The width is the short side: it cannot be more than the length.",
        );
    }
}

/// Areas of modules, each once, in their order.
pub fn areas(modules: &[Module]) -> Vec<Area> {
    let mut areas: Vec<Area> = Vec::new();
    for area in modules.iter().map(Module::area) {
        if !areas.contains(&area) {
            areas.push(area);
        }
    }
    areas
}

/// One clamp is described, whatever the heights of the frames.
pub fn clamped_alike(fields: &[Field], notes: &mut Notes) {
    let mut frames: Vec<Length> = fields.iter().map(|field| field.module.thickness).collect();
    frames.sort_by(|a, b| a.mm().total_cmp(&b.mm()));
    frames.dedup();
    if frames.len() > 1 {
        notes.note("/components/clamp", Assumed::ClampForFrames(frames));
    }
}
