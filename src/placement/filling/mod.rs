//! A field filled with as many whole modules as its part of the slope holds.
//!
//! **Where a module may lie.** At a fixed height the left edges of modules that lie on the roof and in the
//! region, and as far from everything as they must, are a few closed stretches, found exactly (`room`).
//!
//! **Sideways.** Columns have a fixed pitch, and which phase of it holds the most is found exactly
//! (`phases`): with aligned rows one phase for the stretches of all rows together, with shifted rows one for
//! each row.
//!
//! **Up the slope.** Rows have a fixed pitch too. Every whole millimetre of it is tried, and every height at
//! which a row comes flush with a corner of the roof, the region, an obstacle or another module, each with the
//! distance that is kept from it (`heights`). No placing at any of these heights holds more.
//! Where all sides lie along the eaves or up the slope, the flush heights alone have the most there is, save
//! for what the round corners of distances give; beside oblique sides a height between two millimetres can
//! hold more than both. On slopes that are too much to look at by the millimetre, steps are longer
//! (`LOOKS`), and only what was looked at is compared.
//!
//! **Rails.** A row in which no tail edge lets arms out under both clamp zones cannot have rails: it stays
//! empty, unless that is so of all rows everywhere. Heights are therefore chosen by the modules in rows
//! that can have rails.
//!
//! **Ties.** Of placings with as many modules the one with the fewest runs of neighbours, as each has a pair
//! of rails of its own; then, where fewer modules are wanted than there is room for, the most even rows; then
//! the one whose modules lie most nearly in the middle between what limits their rows to the left and to the
//! right. Of heights that are left, the middle of the longest stretch of them, so that there is as much
//! room above as below; where fewer modules are wanted than there is room for, the one that puts them nearest
//! to the middle of what can be filled. Then the lowest.
//!
//! The method is a sweep and an enumeration, both in a fixed order: the same job is filled alike.

mod heights;
mod phases;
mod placing;
mod room;
mod selection;

pub use placing::Rows;
pub use room::Room;

use std::cmp::Ordering;

use crate::geometry::Rect;
use crate::units::Length;

use super::array::Field;
use heights::Heights;
use placing::{Placing, Row};
use room::Ground;

/// Most rows of a field, and most columns.
pub const MOST_ROWS: u32 = 100;
/// See [`MOST_ROWS`].
pub const MOST_COLUMNS: u32 = 200;

/// Sides of roof, region, obstacles and modules that may be looked at, all heights together: a few seconds
/// at the worst. Roofs need less than a hundredth of it.
pub const LOOKS: f64 = 20e6;

/// What a field is to be filled with.
#[derive(Debug, Clone)]
pub struct Wanted {
    /// The field: its name, its gaps, its modules and how they stand. Where they lie is found.
    pub field: Field,
    /// How rows lie to each other.
    pub rows: Rows,
    /// Most modules; `None` where all there is room for are wanted.
    pub most: Option<u32>,
    /// Most places, empty ones between modules among them.
    pub places: u64,
    /// Sides that may be looked at, see [`LOOKS`].
    pub looks: f64,
}

/// Why a field was not filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unfilled {
    /// There is no room for a single module.
    NoRoom,
    /// There is room for more rows, columns or places than a field may have.
    TooMany {
        /// Modules there is room for.
        modules: i64,
    },
}

/// Fills a field. `has_rails` says of the lower edge of a row whether it can have a pair of rails.
///
/// # Errors
/// [`Unfilled`].
pub fn fill(
    room: Room<'_>,
    wanted: &Wanted,
    has_rails: &dyn Fn(Length) -> bool,
) -> Result<Field, Unfilled> {
    let size = wanted.field.module_size().map(Length::mm);
    let pitch = [size[0] + wanted.field.column_gap.mm(), size[1] + wanted.field.row_gap.mm()];
    let ground = Ground::new(room, size);
    let heights = Heights::of(&ground, size[1], pitch[1], wanted.looks);
    let with_rails = |y: f64| has_rails(Length::from_mm(y));
    let best = best(&ground, &heights, (wanted, pitch), &with_rails)
        .or_else(|| best(&ground, &heights, (wanted, pitch), &|_| true));
    field(&best.ok_or(Unfilled::NoRoom)?, &ground, wanted)
}

/// The best placing of all heights.
fn best(
    ground: &Ground<'_>,
    heights: &Heights,
    (wanted, pitch): (&Wanted, [f64; 2]),
    has_rails: &dyn Fn(f64) -> bool,
) -> Option<Placing> {
    let rows_at = |lowest: f64| -> Vec<Row> {
        let rows = heights.rows(lowest).filter(|(_, y)| has_rails(*y));
        let rows = rows.map(|(number, y)| Row { number, y, free: ground.free(y) });
        rows.filter(|row| !row.free.is_empty()).collect()
    };
    let most = wanted.most.map_or(i64::MAX, i64::from);
    let mut counted = Vec::with_capacity(heights.lowest.len());
    let mut filled = [f64::INFINITY, f64::NEG_INFINITY];
    for lowest in &heights.lowest {
        let rows = rows_at(*lowest);
        for Row { y, .. } in &rows {
            filled = [filled[0].min(*y), filled[1].max(*y)];
        }
        counted.push(placing::most(&rows, wanted.rows, pitch[0]).min(most));
    }
    let modules = counted.iter().copied().max().filter(|modules| *modules > 0)?;
    let middle = f64::midpoint(filled[0], filled[1]);
    let with_most = heights.lowest.iter().zip(&counted).filter(|(_, count)| **count == modules);
    let placings = with_most.filter_map(|(lowest, _)| {
        let size = (ground.width(), pitch[0]);
        placing::best(&rows_at(*lowest), wanted.rows, size, (modules, middle))
    });
    let mut best: Vec<Placing> = Vec::new();
    for placing in placings {
        match best.first().map(|first| placing.rank().cmp(&first.rank())) {
            Some(Ordering::Greater) => continue,
            Some(Ordering::Less) => best.clear(),
            Some(Ordering::Equal) | None => {}
        }
        best.push(placing);
    }
    // The lowest first: those of two heights a pitch apart are the same rows.
    best.sort_by(|a, b| a.lowest().total_cmp(&b.lowest()));
    let is_all = modules < most;
    let aim = if is_all {
        longest_stretch(best.iter().map(Placing::lowest), heights.step)
    } else {
        middle
    };
    let off = |placing: &Placing| {
        let own = if is_all { placing.lowest() } else { placing.middle() };
        (own - aim).abs()
    };
    best.into_iter().reduce(|a, b| if off(&b) < off(&a) { b } else { a })
}

/// The middle of the longest stretch of heights, ascending, that are no more than a step apart.
fn longest_stretch(heights: impl Iterator<Item = f64>, step: f64) -> f64 {
    let mut stretches: Vec<[f64; 2]> = Vec::new();
    for height in heights {
        match stretches.last_mut() {
            Some(stretch) if height <= stretch[1] + 1.5 * step => stretch[1] = height,
            _ => stretches.push([height; 2]),
        }
    }
    let longer = |a: [f64; 2], b: [f64; 2]| if b[1] - b[0] > a[1] - a[0] { b } else { a };
    stretches.into_iter().reduce(longer).map_or(0.0, |[low, high]| f64::midpoint(low, high))
}

/// The field of a placing.
fn field(placing: &Placing, ground: &Ground<'_>, wanted: &Wanted) -> Result<Field, Unfilled> {
    let too_many = Unfilled::TooMany { modules: placing.modules() };
    let rows = &placing.rows;
    let (lowest, highest) = rows.first().zip(rows.last()).ok_or(Unfilled::NoRoom)?;
    let count = u32::try_from(highest.number - lowest.number + 1).map_err(|_| too_many)?;
    let columns = rows.iter().filter_map(|row| row.runs.last().map(|run| run.first + run.modules));
    let columns = columns.max().and_then(|columns| u32::try_from(columns).ok()).ok_or(too_many)?;
    if count > MOST_ROWS || columns > MOST_COLUMNS {
        return Err(too_many);
    }
    let mut field = Field {
        origin: [lowest.left, lowest.y],
        rows: count,
        columns,
        omitted: Vec::new(),
        row_shifts: Vec::new(),
        ..wanted.field.clone()
    };
    if field.places() > wanted.places {
        return Err(too_many);
    }
    let mut shifts = vec![0.0; count as usize];
    for row in 0..count {
        let own = rows.iter().find(|own| own.number == lowest.number + i64::from(row));
        let runs = own.map_or(&[][..], |own| &own.runs);
        let holds = |column: u32| {
            let column = i64::from(column);
            runs.iter().any(|run| (run.first..run.first + run.modules).contains(&column))
        };
        field.omitted.extend((0..columns).filter(|c| !holds(*c)).map(|column| [row, column]));
        if let Some(own) = own {
            shifts[row as usize] = own.left - lowest.left;
        }
    }
    if shifts.iter().any(|shift| *shift != 0.0) {
        field.row_shifts = shifts.into_iter().map(Length::from_mm).collect();
    }
    clear(field, ground)
}

/// The field without modules that the checks refuse for the last digit of a flush place.
fn clear(mut field: Field, ground: &Ground<'_>) -> Result<Field, Unfilled> {
    let placed = super::array::modules(std::slice::from_ref(&field));
    let refused = placed.iter().filter(|module| {
        let rect: &Rect = &module.rect;
        !ground.allows(rect)
    });
    let refused: Vec<[u32; 2]> = refused.map(|module| [module.row, module.column]).collect();
    if refused.len() == placed.len() {
        return Err(Unfilled::NoRoom);
    }
    field.omitted.extend(refused);
    field.omitted.sort_unstable();
    Ok(field)
}

#[cfg(test)]
mod tests;
