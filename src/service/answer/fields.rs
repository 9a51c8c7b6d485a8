//! Fields as they were filled, for a request that says where their modules lie.

use crate::placement::Job;
use crate::placement::array::{Field, modules};
use crate::service::intake::Filled;
use crate::units::Length;
use crate::wire::array::{FilledField, ModuleChoice, ModuleField, Orientation};

/// The fields that were filled, unrounded: posted again they are the same.
#[must_use]
pub fn filled(job: &Job, filled: &[Filled]) -> Vec<FilledField> {
    let own = |Filled { place, module }: &Filled| {
        let field = job.fields.get(*place)?;
        let modules = modules(std::slice::from_ref(field)).len() as u64;
        Some(FilledField { place: *place as u64, modules, field: explicit(field, module.as_ref()) })
    };
    filled.iter().filter_map(own).collect()
}

fn explicit(field: &Field, module: Option<&ModuleChoice>) -> ModuleField {
    ModuleField {
        id: field.id.clone(),
        module: module.cloned(),
        origin_mm: field.origin,
        rows: field.rows,
        columns: field.columns,
        orientation: if field.portrait { Orientation::Portrait } else { Orientation::Landscape },
        column_gap_mm: field.column_gap.mm(),
        row_gap_mm: field.row_gap.mm(),
        omitted: field.omitted.clone(),
        row_shifts_mm: field.row_shifts.iter().copied().map(Length::mm).collect(),
        fill: None,
    }
}
