//! The hooks with their places, one line for each.

use crate::wire::layout::{HookAnswer, TileRun};

use super::OnSlope;
use super::csv::{Cell, Column, write};
use super::name_of;

struct Row<'a> {
    on: OnSlope<'a>,
    hook: &'a HookAnswer,
}

/// Where the hooks stand, and what is under their feet. Rafters, courses and tiles count from 1, as on the
/// sheet.
pub fn setting_out(slopes: &[OnSlope<'_>]) -> String {
    let columns: [Column<Row<'_>>; 22] = [
        Column { name: "slope", cell: |row| row.on.slope.into() },
        Column { name: "hook", cell: |row| row.hook.id.as_str().into() },
        Column { name: "rail", cell: |row| row.hook.rail.as_str().into() },
        Column { name: "kept", cell: |row| row.hook.kept.as_deref().into() },
        Column { name: "rafter_from_1", cell: |row| (row.hook.rafter + 1).into() },
        Column { name: "x_mm", cell: |row| row.hook.x_mm.into() },
        Column { name: "y_mm", cell: |row| row.hook.y_mm.into() },
        Column { name: "from_left_edge_mm", cell: |row| row.hook.from_left_edge_mm.into() },
        Column { name: "from_right_edge_mm", cell: |row| row.hook.from_right_edge_mm.into() },
        Column { name: "arm_x_mm", cell: |row| row.hook.arm_x_mm.into() },
        Column { name: "arm_shift_mm", cell: |row| row.hook.arm_shift_mm.into() },
        Column { name: "course_from_1", cell: |row| (row.hook.course + 1).into() },
        Column { name: "tile_from_verge", cell: |row| row.hook.column_from_verge.into() },
        Column { name: "side_joint_mm", cell: |row| row.hook.side_joint_mm.into() },
        Column { name: "tiles_off", cell: |row| row.hook.tiles.lift_count.into() },
        Column { name: "tiles_off_by_course", cell: |row| tiles_off(&row.hook.tiles.lift) },
        Column { name: "tiles_replaced", cell: |row| count(row.hook.tiles.substitute.len()) },
        Column { name: "packers_mm", cell: |row| packers(&row.hook.packers_mm) },
        Column { name: "clearance_mm", cell: |row| row.hook.clearance_mm.into() },
        Column { name: "holds_rail", cell: |row| holds_rail(row.hook) },
        Column { name: "embedment_mm", cell: |row| row.hook.embedment_mm.into() },
        Column { name: "verdict", cell: |row| name_of(&row.on.verdict).into() },
    ];
    let rows = slopes.iter().flat_map(|on| on.hooks.iter().map(|hook| Row { on: *on, hook }));
    write(&columns, rows)
}

/// That the rail is made fast to this hook alone.
fn holds_rail(hook: &HookAnswer) -> Cell {
    hook.holds_rail.then_some("yes").into()
}

fn count(of: usize) -> Cell {
    i64::try_from(of).ok().into()
}

/// Packers, thickest first; none where the foot stands on the rafter itself.
fn packers(thicknesses: &[f64]) -> Cell {
    let texts: Vec<String> = thicknesses.iter().map(f64::to_string).collect();
    match texts.len() {
        0 => Cell::Empty,
        _ => texts.join(" + ").into(),
    }
}

/// Tiles that come off, course by course: `course 9: 20 to 22; course 10: 21`. A dash or slash between two
/// numbers would be a date to a spreadsheet.
fn tiles_off(runs: &[TileRun]) -> Cell {
    let run = |run: &TileRun| {
        let [first, last] = run.from_verge;
        let until = if last > first { format!(" to {last}") } else { String::new() };
        let row = run.row.map(|row| format!(" ({})", name_of(&row)));
        format!("course {}: {first}{until}{}", run.course + 1, row.unwrap_or_default())
    };
    runs.iter().map(run).collect::<Vec<_>>().join("; ").into()
}
