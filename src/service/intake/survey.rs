//! What was measured along a rail, joined to what was built.

use crate::placement::built::{Built, is_on_rotten};
use crate::survey::MOST_HOOKS;
use crate::units::Length;
use crate::wire::built::{Built as WireBuilt, Found};
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::provenance::{FoundProvenance, Provenance};
use crate::wire::survey::{Measured, MeasuredHook, SurveyRequest};

use super::built::{self, TakenBuilt, understand};
use super::{Common, Notes, provenance};

/// A survey understood.
#[derive(Debug, Clone)]
pub struct TakenSurvey {
    /// The job with what was measured in the place of what was drawn.
    pub built: TakenBuilt,
    /// The rails along which something was measured, in their order.
    pub rails: Vec<SurveyedRail>,
    /// Rails and hooks in the words of a request, with what was measured.
    pub joined: WireBuilt,
}

/// A rail along which something was measured.
#[derive(Debug, Clone)]
pub struct SurveyedRail {
    /// The rail, by place.
    pub rail: usize,
    /// Every hook of it, from left to right or upwards.
    pub hooks: Vec<SurveyedHook>,
}

impl SurveyedRail {
    /// Names of its hooks, along it.
    #[must_use]
    pub fn hook_names<'a>(&self, built: &'a Built) -> Vec<&'a str> {
        self.hooks.iter().map(|surveyed| &*built.hooks[surveyed.hook].id).collect()
    }
}

/// What is known of one hook of the rail.
#[derive(Debug, Clone, Copy)]
pub struct SurveyedHook {
    /// The hook, by place among those built.
    pub hook: usize,
    /// Its place among those measured; none when it was not.
    pub measured: Option<usize>,
    /// Clearance with the packers in place.
    pub clearance: Option<Length>,
    /// Bearing face above the string.
    pub level: Option<Length>,
    /// Room to the tile above.
    pub room_above: Option<Length>,
}

/// Understands a survey.
///
/// # Errors
/// Every fault that the schema cannot see.
pub fn take_survey(request: &SurveyRequest) -> Result<TakenSurvey, Vec<Fault>> {
    let mut notes = Notes::default();
    let places = places(request, &mut notes);
    let rails = rails(request, &places, &mut notes);
    let joined = joined(&request.built, &request.measured, &places);
    let understood = understand(&Common::from(request), &joined, &mut notes);
    let measured = &request.measured;
    let read = |h: usize, value: &str| {
        let at = places.iter().position(|place| *place == Some(h));
        at.is_some_and(|m| provenance::is_read(&measured.hooks[m], value))
    };
    provenance::of_built(built::ROOT, &request.built, read, &mut notes);
    provenance::of_survey(measured, &mut notes);
    restate(&mut notes.faults, &request.measured, &places);
    match understood {
        Some(understood) if notes.faults.is_empty() => {
            let built = understood.with(notes);
            let surveyed = |rail: usize| {
                let hooks = hooks(request, &built, rail, &places);
                SurveyedRail { rail, hooks }
            };
            let rails = rails.into_iter().map(surveyed).collect();
            let mut joined = joined;
            mark(&mut joined, request, &places);
            Ok(TakenSurvey { built, rails, joined })
        }
        _ => Err(notes.faults),
    }
}

/// The rails that are surveyed, by place.
fn rails(request: &SurveyRequest, places: &[Option<usize>], notes: &mut Notes) -> Vec<usize> {
    let SurveyRequest { built, measured, .. } = request;
    let place_of = |name: &str| built.rails.iter().position(|rail| rail.id == name);
    let mut rails: Vec<usize> = if let Some(name) = &measured.rail {
        let place = place_of(name);
        if place.is_none() {
            let why = format!("No rail is called \"{name}\".");
            notes.fault("/measured/rail", FaultCode::UnknownValue, why);
        }
        place.into_iter().collect()
    } else {
        let hooks = places.iter().filter_map(|place| built.hooks.get((*place)?));
        hooks.filter_map(|hook| place_of(&hook.rail)).collect()
    };
    rails.sort_unstable();
    rails.dedup();
    let pointer = if measured.rail.is_some() { "/measured/rail" } else { "/measured/hooks" };
    for rail in &rails {
        let name = &built.rails[*rail].id;
        let hooks = built.hooks.iter().filter(|hook| hook.rail == *name).count();
        if hooks == 0 || hooks > MOST_HOOKS {
            notes.fault(
                pointer,
                FaultCode::OutOfRange,
                format!("Rail \"{name}\" has {hooks} hooks; a survey takes 1 to {MOST_HOOKS}."),
            );
        }
    }
    rails
}

/// Place of every measured hook among those built.
fn places(request: &SurveyRequest, notes: &mut Notes) -> Vec<Option<usize>> {
    let SurveyRequest { built, measured, .. } = request;
    let mut places: Vec<Option<usize>> = Vec::with_capacity(measured.hooks.len());
    for (m, hook) in measured.hooks.iter().enumerate() {
        let place = built.hooks.iter().position(|other| other.id == hook.id);
        let mut fault = |code, detail| {
            notes.fault(format!("/measured/hooks/{m}/id"), code, detail);
        };
        match place {
            None => {
                fault(FaultCode::UnknownValue, format!("No hook is called \"{}\".", hook.id));
            }
            Some(h) if measured.rail.as_ref().is_some_and(|rail| built.hooks[h].rail != *rail) => {
                fault(
                    FaultCode::Contradiction,
                    format!("Hook \"{}\" belongs to rail \"{}\".", hook.id, built.hooks[h].rail),
                );
            }
            Some(_) if places.contains(&place) => {
                fault(FaultCode::Contradiction, format!("Hook \"{}\" is measured twice.", hook.id));
            }
            Some(_) => {}
        }
        places.push(place);
    }
    places
}

/// What was built, with what was measured in its place.
fn joined(built: &WireBuilt, measured: &Measured, places: &[Option<usize>]) -> WireBuilt {
    let mut joined = built.clone();
    for (hook, place) in measured.hooks.iter().zip(places) {
        let Some(at) = place.and_then(|place| joined.hooks.get_mut(place)) else { continue };
        let before = at.found.take().unwrap_or_default();
        let MeasuredHook { rafter_x_mm, rafter_width_mm, .. } = *hook;
        at.found = Some(Found {
            rafter_x_mm: rafter_x_mm.or(before.rafter_x_mm),
            rafter_width_mm: rafter_width_mm.or(before.rafter_width_mm),
            rafter_condition: hook.rafter_condition.or(before.rafter_condition),
            counter_batten_mm: hook.counter_batten_mm.or(before.counter_batten_mm),
            clearance_mm: hook.clearance_mm.or(before.clearance_mm),
            side_joint_mm: hook.side_joint_mm.or(before.side_joint_mm),
            // The survey is what says how the bolt is to be set.
            slot_mm: before.slot_mm,
            screw_length_mm: hook.screw_length_mm.or(before.screw_length_mm),
            // Looked at where each was written.
            provenance: None,
        });
    }
    joined
}

/// Says of what was joined how it is known, as was said of it where each was written.
fn mark(joined: &mut WireBuilt, request: &SurveyRequest, places: &[Option<usize>]) {
    for (read, place) in request.measured.hooks.iter().zip(places) {
        let Some(place) = *place else { continue };
        let before = request.built.hooks[place].found.as_ref();
        let known = before.and_then(|found| found.provenance.clone());
        let (Some(found), known) = (joined.hooks[place].found.as_mut(), known.unwrap_or_default())
        else {
            continue;
        };
        let marks = read.provenance.clone().unwrap_or_default();
        // What was read goes before what was known, with its mark or without one.
        let of = |value: Option<f64>, mark: Option<Provenance>, known: Option<Provenance>| {
            if value.is_some() { mark } else { known }
        };
        let all = FoundProvenance {
            rafter_x: of(read.rafter_x_mm, marks.rafter_x, known.rafter_x),
            rafter_width: of(read.rafter_width_mm, marks.rafter_width, known.rafter_width),
            counter_batten: of(read.counter_batten_mm, marks.counter_batten, known.counter_batten),
            clearance: of(read.clearance_mm, marks.clearance, known.clearance),
            side_joint: of(read.side_joint_mm, marks.side_joint, known.side_joint),
            slot: known.slot,
            screw_length: of(read.screw_length_mm, marks.screw_length, known.screw_length),
        };
        found.provenance = (all != FoundProvenance::default()).then_some(all);
    }
}

/// Points faults of what was joined at where the caller wrote it.
fn restate(faults: &mut [Fault], measured: &Measured, places: &[Option<usize>]) {
    for (m, (hook, place)) in measured.hooks.iter().zip(places).enumerate() {
        let (Some(h), true) = (place, hook.counter_batten_mm.is_some()) else { continue };
        let joined = format!("/built/hooks/{h}/found/counter_batten_mm");
        for fault in faults.iter_mut().filter(|fault| fault.pointer == joined) {
            fault.pointer = format!("/measured/hooks/{m}/counter_batten_mm");
        }
    }
}

/// Every hook of the rail along it, with what was measured at it. One on a rotten rafter comes off, so that no
/// packers are chosen for it, unless that is all the rail has.
fn hooks(
    request: &SurveyRequest,
    built: &TakenBuilt,
    rail: usize,
    places: &[Option<usize>],
) -> Vec<SurveyedHook> {
    let all = &built.built.hooks;
    let mut own: Vec<usize> = (0..all.len()).filter(|h| all[*h].rail == rail).collect();
    let comes_off = |hook: &usize| is_on_rotten(&built.taken.job, &all[*hook]);
    if !own.iter().all(comes_off) {
        own.retain(|hook| !comes_off(hook));
    }
    own.sort_by(|a, b| all[*a].along().mm().total_cmp(&all[*b].along().mm()));
    own.into_iter()
        .map(|hook| {
            let measured = places.iter().position(|place| *place == Some(hook));
            let at = measured.map(|m| &request.measured.hooks[m]);
            let length =
                |of: fn(&MeasuredHook) -> Option<f64>| at.and_then(of).map(Length::from_mm);
            let found = request.built.hooks[hook].found.as_ref().and_then(|f| f.clearance_mm);
            SurveyedHook {
                hook,
                measured,
                clearance: length(|h| h.clearance_mm).or(found.map(Length::from_mm)),
                level: length(|h| h.level_mm),
                room_above: length(|h| h.room_above_mm),
            }
        })
        .collect()
}
