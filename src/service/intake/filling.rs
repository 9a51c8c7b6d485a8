//! Fields that are to be filled: what is left open of them, and where their modules come to lie.

use crate::assessment::Assumed;
use crate::geometry::{Outline, Rect};
use crate::placement::array::{Field, modules};
use crate::placement::expansion::EXPANSION_GAP;
use crate::placement::filling::{
    self, LOOKS, MOST_COLUMNS, MOST_ROWS, Room, Rows, Unfilled, Wanted,
};
use crate::placement::rail_lines;
use crate::roof::{Edge, LARGEST_FIRE_DISTANCE, Roof};
use crate::units::Length;
use crate::wire::array::ModuleChoice;
use crate::wire::fault::FaultCode;
use crate::wire::filling::{Fill, FilledRows};

use super::parts::Parts;
use super::roof::TakenRoof;
use super::{Common, Notes};

/// Most modules one job may have.
pub const MAX_MODULES: usize = 5000;

/// A field that was filled.
#[derive(Debug, Clone)]
pub struct Filled {
    /// Its place among the fields.
    pub place: usize,
    /// The module it names of its own.
    pub module: Option<ModuleChoice>,
}

/// Fields of a request that are to be filled.
pub fn filled(request: &Common<'_>) -> Vec<Filled> {
    let module = |place: usize| request.array.fields[place].module.clone();
    asked(request).map(|(place, _)| Filled { place, module: module(place) }).collect()
}

fn asked<'a>(request: &Common<'a>) -> impl Iterator<Item = (usize, &'a Fill)> + use<'a> {
    let fields = request.array.fields.iter().enumerate();
    fields.filter_map(|(place, field)| Some((place, field.fill.as_ref()?)))
}

/// The fields with those filled that are to be: one after the other, clear of all that are given and of
/// those filled before. A request with other faults is not filled: what would come of it is not known.
pub fn fill(
    request: &Common<'_>,
    mut fields: Vec<Field>,
    (roof, parts): (Option<&TakenRoof>, Option<&Parts>),
    notes: &mut Notes,
) -> Vec<Field> {
    let asked: Vec<(usize, &Fill)> = asked(request).collect();
    if !request.fills {
        for (place, _) in &asked {
            notes.fault(
                format!("/array/fields/{place}/fill"),
                FaultCode::Contradiction,
                "What stands on a roof is not filled: give the field with its rows and columns, as the answer to the layout has it among its fields.",
            );
        }
        return fields;
    }
    let regions: Vec<Option<Outline>> =
        asked.iter().map(|(place, fill)| region(*place, fill, notes)).collect();
    let rows: Vec<Rows> = asked.iter().map(|(place, fill)| how(*place, fill, notes)).collect();
    let (Some(roof), Some(parts)) = (roof, parts) else { return fields };
    if asked.is_empty() || !notes.faults.is_empty() {
        return fields;
    }
    unknown_party_walls(&roof.roof, notes);
    let mut left = MAX_MODULES as u64 - fields.iter().map(Field::places).sum::<u64>();
    for (((place, fill), region), rows) in asked.iter().zip(&regions).zip(rows) {
        let taken = taken(&fields, &fields[*place], parts);
        let room = Room {
            roof: &roof.roof,
            region: region.as_ref(),
            taken: &taken,
            rail_ends: parts.rail.end_projection.mm(),
        };
        let field = fields[*place].clone();
        let has_rails = |bottom: Length| {
            let hook = (&roof.covering, parts.hook.bolt_beyond_exit);
            rail_lines::on_courses(hook, &field, bottom).is_some()
        };
        let wanted = Wanted {
            field: field.clone(),
            rows,
            most: fill.most_modules,
            places: left,
            looks: LOOKS / asked.len() as f64,
        };
        match filling::fill(room, &wanted, &has_rails) {
            Ok(filled) => {
                left -= filled.places();
                fields[*place] = filled;
            }
            Err(why) => refused(*place, why, &wanted, notes),
        }
    }
    fields
}

fn region(place: usize, fill: &Fill, notes: &mut Notes) -> Option<Outline> {
    let pointer = format!("/array/fields/{place}/fill/region_mm");
    let Some(points) = &fill.region_mm else {
        notes.note(&pointer, Assumed::WholeSlopeFilled);
        return None;
    };
    let region = Outline::new(points);
    region
        .map_err(|bad| {
            let why = super::roof::sentence(&bad.to_string());
            notes.fault(pointer, FaultCode::BadOutline, why);
        })
        .ok()
}

fn how(place: usize, fill: &Fill, notes: &mut Notes) -> Rows {
    let pointer = format!("/array/fields/{place}/fill/rows");
    match notes.assume(&pointer, fill.rows, FilledRows::Aligned, |_| Assumed::FilledInColumns) {
        FilledRows::Aligned => Rows::Aligned,
        FilledRows::Shifted => Rows::Shifted,
    }
}

/// Where nobody says how far from a party wall the array stays, fields are filled to where nobody asks.
fn unknown_party_walls(roof: &Roof, notes: &mut Notes) {
    let unknown = roof.distances.party_walls.iter().filter(|wall| wall.fire.is_none());
    for wall in unknown {
        debug_assert_eq!(roof.edges.get(wall.side), Some(&Edge::PartyWall));
        let pointer = format!("/roof/edges/{}", wall.side);
        notes.note(&pointer, Assumed::FilledAwayFromPartyWall(LARGEST_FIRE_DISTANCE));
    }
}

/// What modules of other fields take up: with the gap between rows above and below them, and beside them
/// with room for the ends of rails, their clamps and an expansion gap.
fn taken(fields: &[Field], own: &Field, parts: &Parts) -> Vec<Rect> {
    let ends = parts.rail.end_projection.max(parts.clamp.end_width) * 2.0 + EXPANSION_GAP;
    let beside = ends.max(own.column_gap).mm();
    let above = own.row_gap.mm();
    let around = |rect: Rect| Rect {
        x: [rect.x[0] - beside, rect.x[1] + beside],
        y: [rect.y[0] - above, rect.y[1] + above],
    };
    modules(fields).into_iter().map(|placed| around(placed.rect)).collect()
}

fn refused(place: usize, why: Unfilled, wanted: &Wanted, notes: &mut Notes) {
    let pointer = format!("/array/fields/{place}/fill");
    let [across, up] = wanted.field.module_size().map(Length::mm);
    match why {
        Unfilled::NoRoom => notes.fault(
            pointer,
            FaultCode::OffRoof,
            format!(
                "Not one module of {across:.0} mm along the eaves and {up:.0} mm up the slope fits: within the region and the slope, as far from edges and party walls as modules stay, clear of obstacles and other fields."
            ),
        ),
        Unfilled::TooMany { modules } => notes.fault(
            pointer,
            FaultCode::OutOfRange,
            format!(
                "There is room for {modules} modules. A field may have {MOST_ROWS} rows and {MOST_COLUMNS} columns, and one job {MAX_MODULES} places: give a smaller region_mm, or most_modules."
            ),
        ),
    }
}
