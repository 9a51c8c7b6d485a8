//! What was built: rails and hooks by name, every foot as it was found.

use std::collections::{BTreeMap, BTreeSet};

use crate::assessment::Assumed;
use crate::parts::Order;
use crate::placement::Job;
use crate::placement::built::{self, Built, BuiltHook, BuiltRail, Unplaced};
use crate::placement::footing::{Footing, FoundFooting, UnderRails};
use crate::placement::kept::Kept;
use crate::placement::rail_lines::RailLine;
use crate::roof::Unsound;
use crate::units::Length;
use crate::wire::array::RailDirection;
use crate::wire::built::{
    Built as WireBuilt, BuiltHook as WireHook, BuiltRail as WireRail, Found, RafterCondition,
};
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::recheck::RecheckRequest;

use super::{Common, Notes, Taken, provenance, roof};

/// A recheck understood.
#[derive(Debug, Clone)]
pub struct TakenBuilt {
    /// The job its rails and hooks belong to.
    pub taken: Taken,
    /// Rails and hooks.
    pub built: Built,
    /// Where the rails lie, in the same order.
    pub lines: Vec<RailLine>,
}

/// Where it stands in a request.
pub const ROOT: &str = "/built";

/// What says nothing where nothing is laid out.
const OF_LAYOUTS_ONLY: [&str; 5] = [
    "/wishes/objective",
    "/wishes/search_limit",
    "/wishes/arm_position",
    "/wishes/order",
    "/components/rail/splice_length_mm",
];

/// Understands a recheck.
///
/// # Errors
/// Every fault that the schema cannot see.
pub fn take_built(request: &RecheckRequest) -> Result<TakenBuilt, Vec<Fault>> {
    let mut notes = Notes::default();
    let understood = understand(&Common::from(request), &request.built, &mut notes);
    provenance::of_built(ROOT, &request.built, |_, _| false, &mut notes);
    match understood {
        Some(understood) if notes.faults.is_empty() => Ok(understood.with(notes)),
        _ => Err(notes.faults),
    }
}

/// A built job as far as its notes are not yet in it.
pub struct Understood {
    pub job: Job,
    pub order: Order,
    pub built: Built,
    pub lines: Vec<RailLine>,
}

impl Understood {
    /// Closes the notes.
    pub fn with(self, notes: Notes) -> TakenBuilt {
        let Self { job, order, built, lines } = self;
        let Notes { assumptions, evidence, remarks, .. } = notes;
        let kept = Kept::default();
        let taken = Taken { job, kept, order, filled: Vec::new(), assumptions, evidence, remarks };
        TakenBuilt { taken, built, lines }
    }
}

/// Reads a job and what was built of it. `None` only with faults noted.
pub fn understand(common: &Common<'_>, wire: &WireBuilt, notes: &mut Notes) -> Option<Understood> {
    let (job, order) = super::job(common, notes).unzip();
    if common.array.rail_direction == RailDirection::Crossing {
        let why = "Rails that cross are laid out only: what stands of them is not computed.";
        notes.fault("/array/rail_direction", FaultCode::NotCovered, why);
    }
    notes.assumptions.retain(|a| !OF_LAYOUTS_ONLY.iter().any(|of| a.pointer.starts_with(of)));
    let named = rails_by_name(ROOT, wire, common.array.rail_direction, notes);
    let built = hooks(ROOT, (common, job.as_ref()), wire, &named, notes)?;
    let (mut job, order) = job.zip(order)?;
    on_open_rafters(&job, &built, notes)?;
    // Rails end where they were planned to, before anybody knew what was found.
    let lines = lines(&job, (&built, common.array.rail_direction), notes)?;
    job.roof.rafters.unsound = built.unsound(&job);
    let before = notes.faults.len();
    for (r, line) in lines.iter().enumerate() {
        let (told, segments) = (line.spliced_at.as_deref(), line.segments.clone());
        spliced(ROOT, r, told, (segments, job.rail.longest_stock), notes);
    }
    if notes.faults.len() > before {
        return None;
    }
    assumed(ROOT, &job, wire, &built, notes);
    if wire.hooks.iter().all(|h| h.found.as_ref().is_some_and(|found| found.slot_mm.is_some())) {
        notes.assumptions.retain(|noted| !matches!(noted.assumed, Assumed::SlotEnds(_)));
    }
    Some(Understood { job, order, built, lines })
}

/// The member of a rail that says where its line lies.
pub const fn across(direction: RailDirection) -> &'static str {
    match direction {
        RailDirection::AlongEaves => "y_mm",
        RailDirection::UpSlope | RailDirection::Crossing => "x_mm",
    }
}

/// Where the line of a rail lies across its direction, which is said of each by its own member.
fn placed(at: &str, wire: &WireRail, direction: RailDirection, notes: &mut Notes) {
    let (is, is_not, other, why) = match direction {
        RailDirection::AlongEaves => (
            wire.y_mm,
            wire.x_mm,
            "x_mm",
            "A rail along the eaves lies at a height, y_mm: leave this out.",
        ),
        RailDirection::UpSlope | RailDirection::Crossing => (
            wire.x_mm,
            wire.y_mm,
            "y_mm",
            "A rail up the slope lies at x_mm, and its lower end is start_mm: leave this out.",
        ),
    };
    if is.is_none() {
        missing(at, across(direction), notes);
    }
    if is_not.is_some() {
        notes.fault(format!("{at}/{other}"), FaultCode::Contradiction, why);
    }
}

/// That a member which the direction of the rails asks for is not there.
fn missing(at: &str, member: &str, notes: &mut Notes) {
    let why = format!("\"{member}\" is required and is not there.");
    notes.fault(format!("{at}/{member}"), FaultCode::Missing, why);
}

/// The rails by their names.
pub fn rails_by_name<'a>(
    root: &str,
    wire: &'a WireBuilt,
    direction: RailDirection,
    notes: &mut Notes,
) -> BTreeMap<&'a str, usize> {
    let beyond = match direction {
        RailDirection::AlongEaves => "right of",
        RailDirection::UpSlope | RailDirection::Crossing => "above",
    };
    let mut named = BTreeMap::new();
    for (r, rail) in wire.rails.iter().enumerate() {
        placed(&format!("{root}/rails/{r}"), rail, direction, notes);
        if named.contains_key(rail.id.as_str()) {
            notes.fault(
                format!("{root}/rails/{r}/id"),
                FaultCode::Contradiction,
                format!("Another rail is already called \"{}\".", rail.id),
            );
        } else {
            named.insert(rail.id.as_str(), r);
        }
        for (i, at) in rail.splices_mm.iter().enumerate() {
            let pointer = format!("{root}/rails/{r}/splices_mm/{i}");
            if i > 0 && *at <= rail.splices_mm[i - 1] {
                let before = rail.splices_mm[i - 1];
                let why = format!("{at} does not lie {beyond} the splice before it, {before}.");
                notes.fault(pointer, FaultCode::NotAscending, why);
            } else if rail.start_mm.is_some_and(|start| *at <= start)
                || rail.end_mm.is_some_and(|end| end <= *at)
            {
                notes.fault(
                    pointer,
                    FaultCode::Contradiction,
                    format!("The rail does not reach {at}."),
                );
            }
        }
        if let (Some(start), Some(end)) = (rail.start_mm, rail.end_mm)
            && end <= start
        {
            notes.fault(
                format!("{root}/rails/{r}/end_mm"),
                FaultCode::Contradiction,
                format!("The rail ends at {end} mm, not {beyond} its start at {start} mm."),
            );
        }
    }
    named
}

/// Most ways in which feet are set times rails they are under: what is known of each is kept for every
/// rail. A job with 200 rails may have measured 10 000 feet one by one.
const MOST_SETTINGS: usize = 2_000_000;

/// The hooks, each with the way its foot is set. `None` when one of them makes no sense, or there
/// is no job they could belong to.
pub fn hooks(
    root: &str,
    (common, job): (&Common<'_>, Option<&Job>),
    wire: &WireBuilt,
    rails: &BTreeMap<&str, usize>,
    notes: &mut Notes,
) -> Option<Built> {
    let mut seen = BTreeSet::new();
    let mut ways: Vec<FoundFooting> = Vec::new();
    let mut hooks = Vec::with_capacity(wire.hooks.len());
    let before = notes.faults.len();
    for (h, hook) in wire.hooks.iter().enumerate() {
        if !seen.insert(hook.id.as_str()) {
            notes.fault(
                format!("{root}/hooks/{h}/id"),
                FaultCode::Contradiction,
                format!("Another hook is already called \"{}\".", hook.id),
            );
        }
        let rail = rails.get(hook.rail.as_str()).copied();
        if rail.is_none() {
            notes.fault(
                format!("{root}/hooks/{h}/rail"),
                FaultCode::UnknownValue,
                format!("No rail is called \"{}\".", hook.rail),
            );
        }
        let at = format!("{root}/hooks/{h}");
        let y = height(&at, (hook, rail.map(|rail| &wire.rails[rail])), common, notes);
        let Some(way) = way_of(common, job.zip(y), &at, hook, notes) else { continue };
        let footing = ways.iter().position(|known| *known == way).unwrap_or_else(|| {
            ways.push(way);
            ways.len() - 1
        });
        let measured = hook.found.as_ref().and_then(|f| f.rafter_x_mm);
        hooks.push(BuiltHook {
            id: hook.id.clone(),
            rail: rail.unwrap_or_default(),
            x: Length::from_mm(measured.unwrap_or(hook.x_mm)),
            y: hook.y_mm.map(Length::from_mm),
            arm_x: hook.arm_x_mm.map(Length::from_mm),
            measured: measured.is_some(),
            unsound: hook.found.as_ref().and_then(|found| unsound(found.rafter_condition?)),
            footing,
        });
    }
    if ways.len() * wire.rails.len() > MOST_SETTINGS {
        let why = format!(
            "The feet are set in {} ways under {} rails; the product may not exceed {MOST_SETTINGS}.",
            ways.len(),
            wire.rails.len()
        );
        notes.fault(format!("{root}/hooks"), FaultCode::OutOfRange, why);
    }
    let job = job.filter(|_| notes.faults.len() == before)?;
    let rail = |rail: &WireRail| {
        Some(BuiltRail {
            id: rail.id.clone(),
            across: Length::from_mm(rail.x_mm.or(rail.y_mm)?),
            ends: [rail.start_mm, rail.end_mm].map(|x| x.map(Length::from_mm)),
            splices: (!rail.splices_mm.is_empty())
                .then(|| rail.splices_mm.iter().copied().map(Length::from_mm).collect()),
        })
    };
    let rails = wire.rails.iter().map(rail).collect::<Option<_>>()?;
    let mut built = Built { rails, hooks, ways, footings: Vec::new() };
    let clear = built.clear(job);
    for way in &mut built.ways {
        way.rails.clear = clear;
        built.footings.push(Footing::found(job, way));
    }
    Some(built)
}

/// What is wrong with timber that was found like this.
const fn unsound(condition: RafterCondition) -> Option<Unsound> {
    match condition {
        RafterCondition::Sound => None,
        RafterCondition::Split => Some(Unsound::Split),
        RafterCondition::Rotten => Some(Unsound::Rotten),
    }
}

/// The height at which a hook holds its rail: its own where that runs up the slope, else that of the rail.
fn height(
    at: &str,
    (hook, rail): (&WireHook, Option<&WireRail>),
    common: &Common<'_>,
    notes: &mut Notes,
) -> Option<Length> {
    match common.array.rail_direction {
        RailDirection::AlongEaves => {
            if hook.y_mm.is_some() {
                let why = "A hook lies at the height of its rail along the eaves: leave this out.";
                notes.fault(format!("{at}/y_mm"), FaultCode::Contradiction, why);
            }
            rail?.y_mm.map(Length::from_mm)
        }
        RailDirection::UpSlope | RailDirection::Crossing => {
            if hook.y_mm.is_none() {
                missing(at, "y_mm", notes);
            }
            hook.y_mm.map(Length::from_mm)
        }
    }
}

/// How the foot of one hook is set.
fn way_of(
    common: &Common<'_>,
    on: Option<(&Job, Length)>,
    at: &str,
    hook: &WireHook,
    notes: &mut Notes,
) -> Option<FoundFooting> {
    let found = hook.found.clone().unwrap_or_default();
    let Found { counter_batten_mm, rafter_width_mm, .. } = found;
    let drawn = &common.roof.layers;
    let rafter_width = rafter_width_mm.unwrap_or(common.roof.rafters.width_mm);
    let counter_batten = counter_batten_mm.unwrap_or(drawn.counter_batten_mm);
    let depth = common.roof.rafters.depth_mm;
    let layers = roof::layers_of(drawn, counter_batten, [rafter_width, depth]);
    // A fault of the drawing itself is said there.
    if layers.is_none() && counter_batten_mm.is_some() {
        notes.fault(
            format!("{at}/found/counter_batten_mm"),
            FaultCode::Contradiction,
            "The foot bears on the counter-batten, whose thickness is 0 here.",
        );
    }
    let (job, y) = on?;
    let range = job.hook.slot_range;
    if found.slot_mm.is_some_and(|slot| slot > range.mm()) {
        notes.fault(
            format!("{at}/found/slot_mm"),
            FaultCode::Contradiction,
            format!("The slot has a range of {} mm.", range.mm()),
        );
    }
    Some(FoundFooting {
        packers: hook.packers_mm.iter().copied().map(Length::from_mm).collect(),
        layers: layers?,
        rafter_width: Length::from_mm(rafter_width),
        rails: UnderRails {
            // Known once all rails are.
            clear: Length::ZERO,
            bolt_beyond_exit: built::bolt_beyond_exit(job, y),
        },
        slot: found.slot_mm.map(Length::from_mm),
        screw_length: found.screw_length_mm.map_or(job.screw.length, Length::from_mm),
        clearance: found.clearance_mm.map(Length::from_mm),
        side_joint: found.side_joint_mm.map(Length::from_mm),
    })
}

fn lines(
    job: &Job,
    (built, direction): (&Built, RailDirection),
    notes: &mut Notes,
) -> Option<Vec<RailLine>> {
    built::lines(job, built)
        .map_err(|unplaced| {
            for (rail, why) in unplaced {
                let at = format!("{ROOT}/rails/{rail}");
                let member = format!("{at}/{}", across(direction));
                let (pointer, code) = match why {
                    Unplaced::TooShort | Unplaced::TooLow => (at, FaultCode::Contradiction),
                    Unplaced::NoRow | Unplaced::NoColumn | Unplaced::OnAnother => {
                        (member, FaultCode::Contradiction)
                    }
                    Unplaced::Third => (member, FaultCode::NotCovered),
                };
                notes.fault(pointer, code, format!("{why}."));
            }
        })
        .ok()
}

/// What the last digit of a place may be off by.
const LAST_DIGIT: Length = Length::from_mm(0.5);

/// Refuses hooks on rafters that take none.
fn on_open_rafters(job: &Job, built: &Built, notes: &mut Notes) -> Option<()> {
    let before = notes.faults.len();
    for (h, hook) in built.hooks.iter().enumerate() {
        let rafter = built::rafter_under(job, hook);
        if let Some(rafter) = rafter.filter(|rafter| job.roof.rafters.is_barred(*rafter)) {
            let why = format!("It stands on rafter {rafter}, which is barred: leave out either.");
            notes.fault(format!("{ROOT}/hooks/{h}"), FaultCode::Contradiction, why);
        }
    }
    (notes.faults.len() == before).then_some(())
}

/// Looks whether every splice that is told of a rail lies in one of its parts and leaves pieces that bars can
/// be cut to: one that lay beside the rail would be checked nowhere.
pub fn spliced(
    root: &str,
    rail: usize,
    told: Option<&[Length]>,
    (parts, bar): (Vec<[Length; 2]>, Length),
    notes: &mut Notes,
) {
    // That they do not rise from left to right was said already.
    let rises = |told: &&[Length]| told.windows(2).all(|pair| pair[0] < pair[1]);
    let Some(told) = told.filter(rises) else { return };
    for (i, at) in told.iter().enumerate() {
        if !parts.iter().any(|ends| ends[0] < *at && *at < ends[1]) {
            let why = format!("{} lies beside the rail or in its expansion gap.", at.mm());
            let pointer = format!("{root}/rails/{rail}/splices_mm/{i}");
            notes.fault(pointer, FaultCode::Contradiction, why);
        }
    }
    for ends in &parts {
        let within = told.iter().filter(|at| ends[0] < **at && **at < ends[1]);
        let meet: Vec<Length> = within.copied().chain([ends[1]]).collect();
        let begins = std::iter::once(ends[0]).chain(meet.iter().copied());
        let longest = begins.zip(&meet).map(|(from, to)| *to - from).reduce(Length::max);
        if let Some(longest) = longest.filter(|piece| *piece > bar + LAST_DIGIT) {
            let why = format!(
                "They leave a piece of {:.0} mm; the longest bar has {:.0} mm.",
                longest.mm(),
                bar.mm()
            );
            let pointer = format!("{root}/rails/{rail}/splices_mm");
            notes.fault(pointer, FaultCode::Contradiction, why);
        }
    }
}

/// What is taken for granted of the rails and hooks.
pub fn assumed(root: &str, job: &Job, wire: &WireBuilt, built: &Built, notes: &mut Notes) {
    let open_ends = built.rails.iter().filter(|r| r.ends.iter().any(Option::is_none)).count();
    if open_ends > 0 {
        notes.note(&format!("{root}/rails"), Assumed::RailEnds(open_ends));
    }
    let measured =
        |h: &&WireHook| h.found.as_ref().is_some_and(|found| found.clearance_mm.is_some());
    let open = wire.hooks.len() - wire.hooks.iter().filter(measured).count();
    if open > 0 {
        notes.note(&format!("{root}/hooks"), Assumed::ClearanceByGeometry(open));
    }
    let off = built
        .hooks
        .iter()
        .filter(|h| !h.measured)
        .filter_map(|h| built::nearest_rafter(job, h.x).map(|(_, off)| off))
        .filter(|off| *off > Length::ZERO && *off <= built::OFF_RAFTER)
        .fold(Length::ZERO, Length::max);
    if off > Length::ZERO {
        notes.note(&format!("{root}/hooks"), Assumed::HooksOnAxes(built::OFF_RAFTER));
    }
}
