//! A maker's statement: its parts are looked at as those of a job are.

use crate::codes::Rules;
use crate::units::Length;
use crate::wire::array::RailDirection;
use crate::wire::fault::Fault;
use crate::wire::statement::StatementRequest;

use super::{Noted, Notes, Rests, hook, module, parts, site};

/// A statement understood.
#[derive(Debug, Clone)]
pub struct TakenStatement {
    /// Rules its figures were found by.
    pub rules: Rules,
    /// What a job would assume of its parts.
    pub assumptions: Vec<Noted>,
    /// What its figures rest on.
    pub evidence: Vec<Rests>,
}

/// Understands a statement.
///
/// # Errors
/// Every fault that the schema cannot see.
pub fn take_statement(request: &StatementRequest) -> Result<TakenStatement, Vec<Fault>> {
    let mut notes = Notes::default();
    let rules = site::rules(&request.rules, &mut notes);
    parts_of(request, rules.unwrap_or_else(site::recommended), &mut notes);
    let Notes { mut faults, mut assumptions, evidence, .. } = notes;
    // A job keeps its parts elsewhere.
    let of_faults = faults.iter_mut().map(|fault| &mut fault.pointer);
    let of_assumptions = assumptions.iter_mut().map(|noted| &mut noted.pointer);
    for pointer in of_faults.chain(of_assumptions) {
        as_here(pointer);
    }
    match rules {
        Some(rules) if faults.is_empty() => Ok(TakenStatement { rules, assumptions, evidence }),
        _ => Err(faults),
    }
}

fn parts_of(request: &StatementRequest, rules: Rules, notes: &mut Notes) {
    let upright = request.hook.as_ref().map(|hook| hook.arm.thickness_mm);
    let rail = request
        .rail
        .as_ref()
        .map(|part| parts::rail(part, upright, RailDirection::AlongEaves, notes));
    if let Some(part) = &request.hook {
        let hook = hook::hook(part, Length::ZERO, rules, notes);
        if let (Some((hook, _)), Some(bolt)) = (hook, &part.bolt) {
            let offset = rail.as_ref().map_or(Length::ZERO, |rail| rail.axis_offset);
            parts::bolt(bolt, (hook.slot_range, offset), rules, notes);
        }
    }
    if let Some(part) = &request.screw {
        parts::evidence_of_screw(part, rules, notes);
        parts::screw(part, notes);
    }
    if let Some(part) = &request.rail {
        parts::evidence_of_rail(part, rules, notes);
    }
    if let Some(part) = &request.clamp {
        parts::evidence_of_clamp(part, rules, notes);
    }
    if let Some(part) = &request.module {
        module::module(module::OF_THE_ARRAY, part, rules, notes);
    }
}

fn as_here(pointer: &mut String) {
    let elsewhere = ["/components", "/array"];
    if let Some(rest) = elsewhere.iter().find_map(|at| pointer.strip_prefix(at)) {
        *pointer = rest.to_owned();
    }
}
