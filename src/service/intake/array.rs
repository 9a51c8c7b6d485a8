//! Fields of modules: on the roof, off the obstacles, clear of each other.

use crate::assessment::Assumed;
use crate::checks::segment::Hold;
use crate::covering::{Covering, courses};
use crate::geometry::Rect;
use crate::hardware::Module;
use crate::placement::Job;
use crate::placement::array::{Field, Placed, modules};
use crate::placement::rail_axis::RailAxis;
use crate::roof::Roof;
use crate::units::Length;
use crate::wire::array::{
    ModuleArray, ModuleField, Objective, Orientation, RailDirection, RailsHeldBy,
};
use crate::wire::building::SlopeRequest;
use crate::wire::fault::FaultCode;

use super::filling::MAX_MODULES;
use super::parts::Parts;
use super::roof::TakenRoof;
use super::{Common, Notes, filling};

/// Most places of a job where a rail crosses a rafter: a memory of some hundred megabytes if each had
/// a hook.
pub const MAX_CROSSINGS: usize = 40_000;

/// Rails under a row of modules.
const RAILS_OF_A_ROW: usize = 2;

/// The fields, those that are to be filled too, with every module looked at where it lies.
pub fn fields(
    request: &Common<'_>,
    (roof, parts): (Option<&TakenRoof>, Option<&Parts>),
    (own, axis): (&[Module], RailAxis),
    notes: &mut Notes,
) -> Vec<Field> {
    let wire = &request.array.fields;
    let places = places(wire);
    if places > MAX_MODULES as u64 {
        notes.fault(
            "/array/fields",
            FaultCode::OutOfRange,
            format!("The fields have {places} places; one job may have {MAX_MODULES}."),
        );
        return Vec::new();
    }
    let given = wire.iter().zip(own).enumerate();
    let given = given.map(|(i, (field, module))| self::field(i, (field, module), wire, notes));
    let fields = given.collect();
    let fields = filling::fill(request, fields, (roof, parts), notes);
    let placed = modules(&fields);
    if let Some(taken) = roof {
        let roof = &taken.roof;
        let crossings = crossings((roof, &taken.covering), &fields, axis);
        not_too_many_crossings(crossings, notes);
        on_the_roof(roof, &placed, notes);
        off_obstacles(roof, &placed, notes);
    }
    clear_of_each_other(fields.len(), &placed, notes);
    fields
}

/// Which way the rails run that stand on hooks.
///
/// Rails up the slope are laid under columns of modules, so that the rows of a field lie one above the other.
pub fn rail_axis(request: &Common<'_>, notes: &mut Notes) -> RailAxis {
    if request.array.rail_direction == RailDirection::AlongEaves {
        return RailAxis::AlongEaves;
    }
    if request.room.is_some() {
        let why = "Hooks under rails up the slope stand where courses end: they have no room along the rail.";
        notes.fault("/room_to_move", FaultCode::NotCovered, why);
    }
    if request.array.rail_direction == RailDirection::Crossing {
        only_laid_out(request, notes);
        notes.note("/array/rail_direction", Assumed::SlopeForceAlongRail);
        notes.note("/array/rail_direction", Assumed::CrossingRails);
        return RailAxis::UpSlope;
    }
    for (index, field) in request.array.fields.iter().enumerate() {
        let member = match field {
            field if field.fill.is_some() => "fill",
            field if field.row_shifts_mm.iter().any(|shift| *shift != 0.0) => "row_shifts_mm",
            _ => continue,
        };
        notes.fault(
            format!("/array/fields/{index}/{member}"),
            FaultCode::NotCovered,
            "Rails up the slope lie under columns of modules: give rows and columns of the field, none of them shifted.",
        );
    }
    if request.wishes.is_some_and(|wishes| wishes.objective == Some(Objective::SameRafters)) {
        let why = "Rails up the slope lie over one rafter each: only rails along the eaves can share theirs.";
        notes.fault("/wishes/objective", FaultCode::NotCovered, why);
    }
    notes.note(
        "/array/rail_direction",
        match hold_of(request.array) {
            Hold::AllHooks => Assumed::SlopeForceAlongRail,
            Hold::LowestHook | Hold::HighestHook => Assumed::RailsSlide,
        },
    );
    RailAxis::UpSlope
}

/// Which hooks hold a rail along its axis.
pub fn hold(request: &Common<'_>, notes: &mut Notes) -> Hold {
    const MEMBER: &str = "/array/rails_held_by";
    let (array, hold) = (request.array, hold_of(request.array));
    match (array.rail_direction, array.rails_held_by) {
        (RailDirection::UpSlope, None) => notes.note(MEMBER, Assumed::HeldByAllHooks),
        (RailDirection::UpSlope, _)
        | (_, None)
        | (RailDirection::Crossing, Some(RailsHeldBy::AllHooks)) => {}
        (RailDirection::AlongEaves, Some(_)) => {
            let why = "Rails along the eaves take the force down the slope across their axis, by all their hooks: only rails up the slope are held along it.";
            notes.fault(MEMBER, FaultCode::Contradiction, why);
        }
        (RailDirection::Crossing, Some(_)) => {
            let why = "Where rails cross, all hooks hold the lower ones along their axis: a lower rail that one hook holds is not computed.";
            notes.fault(MEMBER, FaultCode::NotCovered, why);
        }
    }
    if hold != Hold::AllHooks && request.kept.is_some() {
        let why = "Beside what is kept, rails are held by all their hooks: which hook of a rail that goes on would be made fast is not computed.";
        notes.fault(MEMBER, FaultCode::NotCovered, why);
    }
    hold
}

/// Which hooks hold a rail along its axis, whichever way it runs.
pub(super) fn hold_of(array: &ModuleArray) -> Hold {
    match array.rails_held_by {
        None | Some(RailsHeldBy::AllHooks) => Hold::AllHooks,
        Some(RailsHeldBy::LowestHook) => Hold::LowestHook,
        Some(RailsHeldBy::HighestHook) => Hold::HighestHook,
    }
}

/// Rails that cross are laid out. What is built of them is not looked at again, and nothing of them is kept.
fn only_laid_out(request: &Common<'_>, notes: &mut Notes) {
    let said = [
        (request.event.is_some(), "/event"),
        (request.kept.is_some(), "/kept"),
        (request.capacity, "/capacity"),
    ];
    let in_step = [Some(Objective::Staggered), Some(Objective::SameRafters)];
    if request.wishes.is_some_and(|wishes| in_step.contains(&wishes.objective)) {
        let why = "Rails that cross are laid out with the fewest hooks or with even spacing.";
        notes.fault("/wishes/objective", FaultCode::NotCovered, why);
    }
    for (_, pointer) in said.into_iter().filter(|(said, _)| *said) {
        let why = "Rails that cross are laid out only: what stands of them is not computed.";
        notes.fault(pointer, FaultCode::NotCovered, why);
    }
}

/// A hook can stand wherever a rail crosses a rafter, and where none hold the answer has one on each.
fn not_too_many_crossings(crossings: usize, notes: &mut Notes) {
    if crossings > MAX_CROSSINGS {
        let detail = format!(
            "The rails have {crossings} places for hooks; one job may have {MAX_CROSSINGS}. Lay out the fields in several jobs."
        );
        notes.fault("/array/fields", FaultCode::OutOfRange, detail);
    }
}

/// Places where a rail along the eaves crosses a rafter, or one up the slope the tails of a course.
pub fn crossings((roof, covering): (&Roof, &Covering), fields: &[Field], axis: RailAxis) -> usize {
    let of_field = |field: &Field| {
        let Rect { y, .. } = field.bounds();
        match axis {
            RailAxis::AlongEaves => {
                let rows = (0..field.rows).map(|row| {
                    let [first, last] = field.row_ends(row);
                    let under = |x: &&Length| (first..=last).contains(&x.mm());
                    roof.rafters.positions.iter().filter(under).count()
                });
                RAILS_OF_A_ROW * rows.sum::<usize>()
            }
            RailAxis::UpSlope => {
                let [low, high] = y.map(Length::from_mm);
                let under = courses::courses_between(covering, low, high).count();
                RAILS_OF_A_ROW * field.columns as usize * under
            }
        }
    };
    fields.iter().map(of_field).sum()
}

/// The slopes of a building are one job together, and have its limits.
pub fn not_too_many_together<'a>(
    wire: &[SlopeRequest],
    jobs: impl Iterator<Item = &'a Job>,
    notes: &mut Notes,
) {
    let places: u64 = wire.iter().map(|slope| places(&slope.array.fields)).sum();
    if places > MAX_MODULES as u64 {
        let detail = format!(
            "The fields of all slopes have {places} places; one job may have {MAX_MODULES}. Send the slopes in several jobs."
        );
        notes.fault("/slopes", FaultCode::OutOfRange, detail);
    }
    let of = |job: &Job| crossings((&job.roof, &job.covering), &job.fields, job.rail_axis);
    let crossings: usize = jobs.map(of).sum();
    if crossings > MAX_CROSSINGS {
        let detail = format!(
            "The rails of all slopes have {crossings} places for hooks; one job may have {MAX_CROSSINGS}. Send the slopes in several jobs."
        );
        notes.fault("/slopes", FaultCode::OutOfRange, detail);
    }
}

/// Places for modules in fields.
fn places(fields: &[ModuleField]) -> u64 {
    fields.iter().map(|field| u64::from(field.rows) * u64::from(field.columns)).sum()
}

fn field(
    index: usize,
    (wire, module): (&ModuleField, &Module),
    all: &[ModuleField],
    notes: &mut Notes,
) -> Field {
    if all.iter().take(index).any(|other| other.id == wire.id) {
        notes.fault(
            format!("/array/fields/{index}/id"),
            FaultCode::Contradiction,
            format!("Another field is already called \"{}\".", wire.id),
        );
    }
    let mut inside = 0_u64;
    let mut seen = std::collections::BTreeSet::new();
    for (i, [row, column]) in wire.omitted.iter().enumerate() {
        if *row >= wire.rows || *column >= wire.columns {
            notes.fault(
                format!("/array/fields/{index}/omitted/{i}"),
                FaultCode::OutOfRange,
                format!(
                    "The field has rows 0 to {} and columns 0 to {}.",
                    wire.rows - 1,
                    wire.columns - 1
                ),
            );
        } else if seen.insert([row, column]) {
            inside += 1;
        }
    }
    let shifts = wire.row_shifts_mm.len();
    if shifts > 0 && shifts != wire.rows as usize {
        notes.fault(
            format!("/array/fields/{index}/row_shifts_mm"),
            FaultCode::Contradiction,
            format!("The field has {} rows, and {shifts} of them are shifted.", wire.rows),
        );
    }
    if wire.fill.is_none() && inside == u64::from(wire.rows) * u64::from(wire.columns) {
        notes.fault(
            format!("/array/fields/{index}/omitted"),
            FaultCode::Contradiction,
            "Every module of the field is left out.",
        );
    }
    Field {
        id: wire.id.clone(),
        module: module.clone(),
        has_own_module: wire.module.is_some(),
        origin: wire.origin_mm,
        rows: wire.rows,
        columns: wire.columns,
        portrait: wire.orientation == Orientation::Portrait,
        column_gap: Length::from_mm(wire.column_gap_mm),
        row_gap: Length::from_mm(wire.row_gap_mm),
        omitted: wire.omitted.clone(),
        row_shifts: wire.row_shifts_mm.iter().copied().map(Length::from_mm).collect(),
    }
}

/// One fault per field and kind, naming the modules it is about.
fn report(
    placed: &[Placed],
    bad: impl Fn(&Placed) -> bool,
    code: FaultCode,
    what: &str,
    notes: &mut Notes,
) {
    const NAMED: usize = 5;
    let fields = placed.last().map_or(0, |p| p.field + 1);
    for field in 0..fields {
        let found: Vec<String> = placed
            .iter()
            .filter(|p| p.field == field && bad(p))
            .map(|p| format!("[{}, {}]", p.row, p.column))
            .collect();
        if found.is_empty() {
            continue;
        }
        let more = found.len().saturating_sub(NAMED);
        let tail = if more > 0 { format!(" and {more} more") } else { String::new() };
        let named: Vec<String> = found.into_iter().take(NAMED).collect();
        notes.fault(
            format!("/array/fields/{field}"),
            code,
            format!("{what}: row and column {}{tail}.", named.join(", ")),
        );
    }
}

fn on_the_roof(roof: &Roof, placed: &[Placed], notes: &mut Notes) {
    report(
        placed,
        |p| !roof.outline.covers(&p.rect),
        FaultCode::OffRoof,
        "Modules lie wholly or partly off the roof",
        notes,
    );
}

fn off_obstacles(roof: &Roof, placed: &[Placed], notes: &mut Notes) {
    report(
        placed,
        |p| roof.obstacles.iter().any(|o| o.outline.overlaps(&p.rect)),
        FaultCode::OnObstacle,
        "Modules lie on an obstacle",
        notes,
    );
}

fn clear_of_each_other(fields: usize, placed: &[Placed], notes: &mut Notes) {
    for later in 1..fields {
        let others: Vec<&Placed> = placed.iter().filter(|p| p.field < later).collect();
        let hit = placed
            .iter()
            .filter(|p| p.field == later)
            .find_map(|p| others.iter().find(|o| o.rect.overlap(&p.rect) > 1e-6).map(|o| (p, *o)));
        if let Some((p, other)) = hit {
            notes.fault(
                format!("/array/fields/{later}"),
                FaultCode::Overlap,
                format!(
                    "Its module [{}, {}] overlaps module [{}, {}] of field {}.",
                    p.row, p.column, other.row, other.column, other.field
                ),
            );
        }
    }
}
