//! The order, one line for each part.

use crate::wire::parts::{PartLine, PartsAnswer};
use crate::wire::phases::PhasesAnswer;
use crate::wire::remarks::Verdict;

use super::csv::{Column, write};
use super::name_of;

struct Row<'a> {
    line: &'a PartLine,
    verdict: Verdict,
}

/// What is ordered. Where rafters are not measured, that is the order that suffices wherever they stand, as on
/// the sheet.
pub fn order(parts: &PartsAnswer, phases: Option<&PhasesAnswer>, verdict: Verdict) -> String {
    let suffices = phases.map(|phases| &phases.order).filter(|order| !order.is_empty());
    let lines = suffices.unwrap_or(&parts.lines);
    let columns: [Column<Row<'_>>; 13] = [
        Column { name: "kind", cell: |row| name_of(&row.line.kind).into() },
        Column { name: "part", cell: |row| row.line.part.as_deref().into() },
        Column { name: "size_mm", cell: |row| row.line.size_mm.into() },
        Column {
            name: "module_length_mm",
            cell: |row| row.line.module_mm.map(|[l, _, _]| l).into(),
        },
        Column {
            name: "module_width_mm",
            cell: |row| row.line.module_mm.map(|[_, w, _]| w).into(),
        },
        Column {
            name: "module_frame_mm",
            cell: |row| row.line.module_mm.map(|[_, _, h]| h).into(),
        },
        Column { name: "needed", cell: |row| row.line.needed.into() },
        Column { name: "spare", cell: |row| row.line.spare.into() },
        Column { name: "ordered", cell: |row| row.line.ordered.into() },
        Column { name: "pack_size", cell: |row| row.line.pack_size.into() },
        Column { name: "mass_of_needed_kg", cell: |row| row.line.mass_kg.into() },
        Column { name: "why", cell: |row| row.line.why.as_str().into() },
        Column { name: "verdict", cell: |row| name_of(&row.verdict).into() },
    ];
    write(&columns, lines.iter().map(|line| Row { line, verdict }))
}
