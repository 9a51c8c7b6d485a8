//! From wire to core: every fault is collected, every value the caller left open is assumed here,
//! and nowhere else, and listed.

mod actions;
mod array;
mod asked;
mod beside;
pub mod building;
mod built;
pub mod choices;
mod distances;
mod edges;
mod evidence;
mod event;
mod filling;
mod gatherers;
mod hook;
mod kept;
mod module;
mod order;
mod parts;
mod phases;
mod place;
mod provenance;
mod roof;
pub mod short;
mod site;
mod statement;
mod survey;
mod watertight;

use crate::assessment::{Assumed, Remarks};
use crate::checks::segment::Hold;
use crate::codes::Code;
use crate::codes::vocabulary::Face;
use crate::effort::Effort;
use crate::parts::Order;
use crate::placement::actions::Weight;
use crate::placement::array::Field;
use crate::placement::kept::Kept;
use crate::placement::rail_axis::RailAxis;
use crate::placement::{self, ArmPosition, Job, Objective, Wishes};
use crate::units::Length;
use crate::wire::array::{
    ArmPosition as WireArmPosition, ModuleArray, Objective as WireObjective, RailDirection,
    Wishes as WireWishes,
};
use crate::wire::built::Built;
use crate::wire::capacity::Event;
use crate::wire::components::Components;
use crate::wire::declarations::Declaration;
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::layout::LayoutRequest;
use crate::wire::recheck::RecheckRequest;
use crate::wire::roof::Roof;
use crate::wire::room::RoomWanted;
use crate::wire::scopes::ScopeName;
use crate::wire::short::Completion;
use crate::wire::site::{RulesChoice, Site};
use crate::wire::survey::SurveyRequest;

pub use actions::{TakenActions, take_actions};
pub use building::{TakenSlope, take_building};
pub use built::{TakenBuilt, take_built};
pub use choices::{TakenChoices, take_choices};
pub use evidence::Rests;
pub use filling::Filled;
pub use phases::{Phase, Phases, take_phases};
pub use statement::{TakenStatement, take_statement};
pub use survey::{SurveyedHook, SurveyedRail, TakenSurvey, take_survey};

use parts::Parts;
use place::Place;

/// What every kind of job is described by, wherever its request keeps it.
#[derive(Debug, Clone, Copy)]
pub struct Common<'a> {
    /// Rules to compute by.
    pub rules: &'a RulesChoice,
    /// The place.
    pub site: &'a Site,
    /// What was completed before the request was read.
    pub completions: &'a [Completion],
    /// The roof.
    pub roof: &'a Roof,
    /// The array.
    pub array: &'a ModuleArray,
    /// The parts.
    pub components: &'a Components,
    /// What the caller wants.
    pub wishes: Option<&'a WireWishes>,
    /// Whether fields may be filled: those of what stands are said.
    pub fills: bool,
    /// Whether it is asked how much the job bears.
    pub capacity: bool,
    /// What was observed.
    pub event: Option<&'a Event>,
    /// What is there already of a layout.
    pub kept: Option<&'a Built>,
    /// What is asked of the room of a layout's hooks.
    pub room: Option<&'a RoomWanted>,
    /// What the verdict is asked on.
    pub scopes: Option<&'a [ScopeName]>,
    /// Checks that somebody answers for.
    pub declarations: &'a [Declaration],
}

macro_rules! common_of {
    ($($request:ty { $fills:expr, $capacity:expr, $event:expr, $kept:expr, $room:expr }),+) => {
        $(impl<'a> From<&'a $request> for Common<'a> {
            fn from(request: &'a $request) -> Self {
                Self {
                    rules: &request.rules,
                    site: &request.site,
                    completions: &request.completions,
                    roof: &request.roof,
                    array: &request.array,
                    components: &request.components,
                    wishes: request.wishes.as_ref(),
                    fills: $fills,
                    capacity: $capacity(request),
                    event: $event(request),
                    kept: $kept(request),
                    room: $room(request),
                    scopes: request.scopes.as_deref(),
                    declarations: &request.declarations,
                }
            }
        })+
    };
}
common_of!(
    LayoutRequest {
        true,
        |of: &LayoutRequest| of.capacity == Some(true),
        |_| None,
        |of: &'a LayoutRequest| of.kept.as_ref(),
        |of: &'a LayoutRequest| of.room_to_move.as_ref()
    },
    RecheckRequest {
        false,
        |of: &RecheckRequest| of.capacity == Some(true),
        |of: &'a RecheckRequest| of.event.as_ref(),
        |_| None,
        |_| None
    },
    SurveyRequest { false, |_| false, |_| None, |_| None, |_| None }
);

/// A request understood.
#[derive(Debug, Clone)]
pub struct Taken {
    /// The job.
    pub job: Job,
    /// What is there already of its layout.
    pub kept: Kept,
    /// What its order should look like.
    pub order: Order,
    /// Fields that were filled.
    pub filled: Vec<Filled>,
    /// What was assumed.
    pub assumptions: Vec<Noted>,
    /// What figures of the parts rest on.
    pub evidence: Vec<Rests>,
    /// What the rest of the answer needs to know of the request.
    pub remarks: Remarks,
}

/// Understands a request.
///
/// # Errors
/// Every fault that the schema cannot see, in document order.
pub fn take<'a>(request: impl Into<Common<'a>>) -> Result<Taken, Vec<Fault>> {
    let mut notes = Notes::default();
    let common = request.into();
    let mut job = job(&common, &mut notes);
    let kept = kept::kept(&common, job.as_mut().map(|(job, _)| job), &mut notes);
    // What stands is looked at as it stands.
    if let (true, Some((job, _)), Some(kept)) = (common.fills, &job, &kept) {
        beside::beside_others(job, kept, &mut notes);
    }
    match job.zip(kept) {
        Some(((job, order), kept)) if notes.faults.is_empty() => {
            let Notes { assumptions, evidence, remarks, .. } = notes;
            let filled = filling::filled(&common);
            Ok(Taken { job, kept, order, filled, assumptions, evidence, remarks })
        }
        _ => Err(notes.faults),
    }
}

fn job(request: &Common<'_>, notes: &mut Notes) -> Option<(Job, Order)> {
    let place = Place::from(request);
    notes.remarks.capacity = request.capacity;
    if let Some(event) = request.event {
        event::faults(event, request.capacity, notes);
    }
    asked::asked(request, notes);
    short::noted(request.completions, request, notes);
    // Every part is looked at before any is missed, so that all faults are seen at once.
    let chosen = site::rules(request.rules, notes);
    let site = site::site(&place, chosen, notes);
    let rules = chosen.unwrap_or_else(site::recommended);
    let roof = roof::roof(request, notes);
    let own = module::of_fields(request.array, rules, notes);
    let parts = parts::parts(request.components, request.array.rail_direction, rules, notes);
    let wishes = wishes(request, notes);
    let longest = parts.as_ref().map(|parts| parts.rail.longest_stock);
    let order = order::order(request.wishes.and_then(|w| w.order.as_ref()), longest, notes);
    let rail_axis = array::rail_axis(request, notes);
    let fields = array::fields(request, (roof.as_ref(), parts.as_ref()), (&own, rail_axis), notes);
    let (rules, site, roof, parts) = (chosen?, site?, roof?, parts?);
    let hook = parts::hung(&parts, rail_axis, notes);
    let bolt = parts.bolt.and_then(|bolt| {
        parts::bolt(&bolt, (parts.hook.slot_range, parts.rail.axis_offset), rules, notes)
    });
    let bolt = match rail_axis {
        RailAxis::AlongEaves => bolt,
        RailAxis::UpSlope => parts::in_groove(bolt, parts.rail.groove_slip),
    };
    let hold = array::hold(request, notes);
    let timber = roof::timber(rules, roof.strength_class, roof::RAFTER_CLASS, notes)?;
    let bearing_timber =
        roof::timber(rules, roof.bearing_strength_class, roof::BEARING_CLASS, notes)?;

    let across_grain = rules.across_grain(bearing_timber);
    let hook = parts::on_its_foot(hook, (&roof.roof, across_grain), (&parts, rail_axis), notes);

    let weight = Weight { clamp: parts.clamp.weight, rail: parts.rail.weight };
    let mut load_heights = load_heights(&parts, &fields, notes);
    if request.array.rail_direction == RailDirection::Crossing {
        // An upper rail is held at its lower face.
        for height in &mut load_heights {
            *height += parts.rail.depth / 2.0;
        }
    }
    module::clamped_alike(&fields, notes);
    let modules = placement::array::modules(&fields);
    let gatherings = gatherers::gatherers(request.roof, &roof.roof, &modules, notes);
    let face = Face { outline: &roof.roof.outline, edges: &roof.roof.edges };
    let actions = actions::actions(
        &place,
        rules,
        site,
        (&face, roof.roof.rafters.carried_area()),
        (weight, &module::areas(&own), &gatherings),
        notes,
    )?;
    let job = Job {
        rules,
        roof: roof.roof,
        covering: roof.covering,
        watertight: roof.watertight,
        timber,
        bearing_timber,
        fields,
        rail_axis,
        rails_cross: request.array.rail_direction == RailDirection::Crossing,
        hold,
        hook,
        bolt,
        screw: parts.screw,
        rail: parts.rail,
        clamp: parts.clamp,
        packers: parts.packers,
        load_heights,
        actions,
        wishes,
        effort: Effort::default(),
    };
    Some((job, order))
}

/// Snow lies on the glass. Weight acts lower, and is taken to act there too: it is little.
fn load_heights(parts: &Parts, fields: &[Field], notes: &mut Notes) -> Vec<Length> {
    if let Some(declared) = parts.rail.load_height {
        return vec![declared; fields.len()];
    }
    let height = |field: &Field| parts.rail.depth / 2.0 + field.module.thickness;
    let heights: Vec<Length> = fields.iter().map(height).collect();
    let mut differing = heights.clone();
    differing.sort_by(|a, b| a.mm().total_cmp(&b.mm()));
    differing.dedup();
    let assumed = match differing[..] {
        [height] => Assumed::LoadHeight(height),
        _ => Assumed::LoadHeights(differing),
    };
    notes.note("/components/rail/load_height_mm", assumed);
    heights
}

fn wishes(request: &Common<'_>, notes: &mut Notes) -> Wishes {
    let wire = &request.wishes.cloned().unwrap_or_default();
    let objective =
        notes.assume("/wishes/objective", wire.objective, WireObjective::FewestHooks, |_| {
            Assumed::FewestHooks
        });
    Wishes {
        objective: match objective {
            WireObjective::FewestHooks => Objective::FewestHooks,
            WireObjective::EvenSpacing => Objective::EvenSpacing,
            WireObjective::Staggered => Objective::Staggered,
            WireObjective::SameRafters => Objective::SameRafters,
        },
        max_utilisation: notes.assume(
            "/wishes/max_utilisation",
            wire.max_utilisation,
            1.0,
            Assumed::FullUse,
        ),
        min_clearance: notes.assume(
            "/wishes/min_clearance_mm",
            wire.min_clearance_mm.map(Length::from_mm),
            Length::from_mm(5.0),
            Assumed::MinClearance,
        ),
        min_room_above: notes.assume(
            "/wishes/min_room_above_mm",
            wire.min_room_above_mm.map(Length::from_mm),
            Length::from_mm(3.0),
            Assumed::MinRoomAbove,
        ),
        arms: arms(wire, notes),
        search_limit: notes.assume(
            "/wishes/search_limit",
            wire.search_limit,
            match array::hold_of(request.array) {
                Hold::AllHooks => DEFAULT_SEARCH_LIMIT,
                Hold::LowestHook | Hold::HighestHook => LIMIT_OF_HELD_RAILS,
            },
            Assumed::SearchLimit,
        ),
    }
}

fn arms(wire: &WireWishes, notes: &mut Notes) -> ArmPosition {
    let wanted = notes.assume(
        "/wishes/arm_position",
        wire.arm_position,
        WireArmPosition::TowardsSideJoint,
        |_| Assumed::ArmsTowardsJoints,
    );
    match wanted {
        WireArmPosition::TowardsSideJoint => ArmPosition::TowardsSideJoint,
        WireArmPosition::RafterAxis => ArmPosition::RafterAxis,
    }
}

/// Patterns weighed per segment when the caller sets no limit.
pub const DEFAULT_SEARCH_LIMIT: u64 = 200_000;
/// The same where one hook holds a rail alone: what it bears besides is known late, so that more choices are weighed
/// in full, and a rail that does not hold would take as long as ten others.
const LIMIT_OF_HELD_RAILS: u64 = 20_000;

/// Faults and assumptions as they are found.
#[derive(Debug, Default)]
pub struct Notes {
    faults: Vec<Fault>,
    assumptions: Vec<Noted>,
    evidence: Vec<Rests>,
    remarks: Remarks,
}

/// Something assumed, and the pointer to where the caller could have said otherwise.
#[derive(Debug, Clone)]
pub struct Noted {
    /// Pointer into the request.
    pub pointer: String,
    /// What was assumed.
    pub assumed: Assumed,
}

impl Notes {
    fn fault(&mut self, pointer: impl Into<String>, code: FaultCode, detail: impl Into<String>) {
        self.faults.push(Fault::new(pointer, code, detail));
    }

    /// Two statements that exclude each other: a fault at either.
    fn contradiction(&mut self, pointers: [&str; 2], detail: &str) {
        for pointer in pointers {
            self.fault(pointer, FaultCode::Contradiction, detail);
        }
    }

    /// The caller's value, or the default, which is then listed.
    fn assume<T: Clone>(
        &mut self,
        pointer: &str,
        given: Option<T>,
        default: T,
        assumed: impl FnOnce(T) -> Assumed,
    ) -> T {
        given.unwrap_or_else(|| {
            self.note(pointer, assumed(default.clone()));
            default
        })
    }

    /// Something that is taken for granted.
    fn note(&mut self, pointer: &str, assumed: Assumed) {
        self.assumptions.push(Noted { pointer: pointer.to_owned(), assumed });
    }
}
