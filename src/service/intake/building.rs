//! A building: every slope of it is understood as a layout of that slope alone, and what is said of it
//! points into the request for the building.

use crate::assessment::Assumed;
use crate::wire::building::{BuildingRequest, SlopeRequest};
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::layout::LayoutRequest;
use crate::wire::short::Completion;

use super::short::{self, Completed, Said};
use super::{Noted, Notes, Taken, array, take};

/// A slope of a building understood.
#[derive(Debug, Clone)]
pub struct TakenSlope {
    /// Its name.
    pub id: String,
    /// The request for a layout of it alone.
    pub alone: LayoutRequest,
    /// The same understood.
    pub taken: Taken,
}

/// Members that each slope has for itself.
const OF_A_SLOPE: [&str; 2] = ["/roof", "/array"];

/// A pointer into the request for a layout of one slope, as it is in the request for the building.
#[must_use]
pub fn in_building(pointer: &str, slope: usize) -> String {
    let is_within = |member: &str| {
        let rest = pointer.strip_prefix(member);
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
    };
    if OF_A_SLOPE.into_iter().any(is_within) {
        format!("/slopes/{slope}{pointer}")
    } else {
        pointer.to_owned()
    }
}

/// Whether a pointer into the request for a building leads to one of its slopes.
#[must_use]
pub fn is_of_a_slope(pointer: &str) -> bool {
    pointer.starts_with("/slopes/")
}

/// What a document says of one of its slopes, as if the slope were all of it.
struct OfSlope<'a> {
    said: &'a dyn Said,
    slope: usize,
}

impl Said for OfSlope<'_> {
    fn number(&self, pointer: &str) -> Option<f64> {
        self.said.number(&in_building(pointer, self.slope))
    }

    fn text(&self, pointer: &str) -> Option<&str> {
        self.said.text(&in_building(pointer, self.slope))
    }

    fn count(&self, pointer: &str) -> usize {
        self.said.count(&in_building(pointer, self.slope))
    }

    fn has(&self, pointer: &str) -> bool {
        self.said.has(&in_building(pointer, self.slope))
    }
}

/// Completes a request for a building, slope by slope.
#[must_use]
pub fn completed(said: &dyn Said) -> Completed {
    let mut out = Completed::default();
    for slope in 0..said.count("/slopes") {
        let own = short::completed(&OfSlope { said, slope });
        let on_slope = |what| Completion::OnSlope(slope, Box::new(what));
        out.completions.extend(own.completions.into_iter().map(on_slope));
        for mut filled in own.filled {
            filled.pointer = in_building(&filled.pointer, slope);
            out.filled.push(filled);
        }
        for mut fault in own.faults {
            fault.pointer = in_building(&fault.pointer, slope);
            out.faults.push(fault);
        }
    }
    out
}

/// Hands every slope what of it was completed.
#[must_use]
pub fn with_completions(
    mut request: BuildingRequest,
    completions: Vec<Completion>,
) -> BuildingRequest {
    for completion in completions {
        if let Completion::OnSlope(slope, what) = completion
            && let Some(slope) = request.slopes.get_mut(slope)
        {
            slope.completions.push(*what);
        }
    }
    request
}

/// Understands a request for a building.
///
/// # Errors
/// Every fault that the schema cannot see: those of all slopes, and of what they share each once.
pub fn take_building(request: &BuildingRequest) -> Result<Vec<TakenSlope>, Vec<Fault>> {
    let mut notes = Notes::default();
    let ids = ids(&request.slopes, &mut notes);
    let mut slopes = Vec::with_capacity(ids.len());
    let mut found: Vec<(Fault, Vec<&str>)> = Vec::new();
    for (at, (id, slope)) in ids.iter().zip(&request.slopes).enumerate() {
        let alone = alone(request, slope);
        match take(&alone) {
            Ok(mut taken) => {
                told_of_building(&mut taken, at);
                if slope.id.is_none() {
                    let (pointer, id) = (format!("/slopes/{at}/id"), id.clone());
                    taken.assumptions.push(Noted { pointer, assumed: Assumed::SlopeName(id) });
                }
                slopes.push(TakenSlope { id: id.clone(), alone, taken });
            }
            Err(faults) => {
                for mut fault in faults {
                    fault.pointer = in_building(&fault.pointer, at);
                    match found.iter_mut().find(|(known, _)| *known == fault) {
                        Some((_, on)) => on.push(id),
                        None => found.push((fault, vec![id])),
                    }
                }
            }
        }
    }
    let jobs = slopes.iter().map(|slope| &slope.taken.job);
    array::not_too_many_together(&request.slopes, jobs, &mut notes);
    let faults = found.into_iter().map(|(fault, on)| attributed(fault, &on, ids.len()));
    notes.faults.extend(faults);
    if notes.faults.is_empty() { Ok(slopes) } else { Err(notes.faults) }
}

/// A fault of something that slopes share and that only some of them have says which.
fn attributed(fault: Fault, on: &[&str], slopes: usize) -> Fault {
    if is_of_a_slope(&fault.pointer) || on.len() == slopes {
        return fault;
    }
    let noun = if on.len() == 1 { "slope" } else { "slopes" };
    let detail = format!("On {noun} {}: {}", on.join(", "), fault.detail);
    Fault { detail, ..fault }
}

/// What is said of a slope points into the request for the building.
fn told_of_building(taken: &mut Taken, slope: usize) {
    for noted in &mut taken.assumptions {
        noted.pointer = in_building(&noted.pointer, slope);
    }
    for (pointer, _) in &mut taken.remarks.provenance {
        *pointer = in_building(pointer, slope);
    }
}

/// The names of the slopes.
fn ids(slopes: &[SlopeRequest], notes: &mut Notes) -> Vec<String> {
    let numbered = |at: usize| format!("S{}", at + 1);
    let named = slopes.iter().enumerate();
    let ids: Vec<String> =
        named.map(|(at, of)| of.id.clone().unwrap_or_else(|| numbered(at))).collect();
    for (at, id) in ids.iter().enumerate() {
        if ids[..at].contains(id) {
            let detail = format!("Another slope is already called \"{id}\".");
            notes.fault(format!("/slopes/{at}/id"), FaultCode::Contradiction, detail);
        }
    }
    ids
}

/// The request for a layout of one slope alone.
fn alone(request: &BuildingRequest, slope: &SlopeRequest) -> LayoutRequest {
    let SlopeRequest { completions, id: _, roof, array } = slope.clone();
    LayoutRequest {
        completions,
        reference: request.reference.clone(),
        rules: request.rules.clone(),
        site: request.site.clone(),
        roof,
        array,
        components: request.components.clone(),
        wishes: request.wishes.clone(),
        capacity: request.capacity,
        remedies: request.remedies,
        savings: None,
        room_to_move: None,
        kept: None,
        scopes: request.scopes.clone(),
        declarations: request.declarations.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_of_what_is_shared_says_on_which_slopes_unless_it_is_on_all() {
        let fault = |pointer: &str| Fault::new(pointer, FaultCode::Contradiction, "Too long.");
        let said = |pointer: &str, on: &[&str]| attributed(fault(pointer), on, 3).detail;
        assert_eq!(said("/components/hook", &["a", "b", "c"]), "Too long.");
        assert_eq!(said("/components/hook", &["b"]), "On slope b: Too long.");
        assert_eq!(said("/components/hook", &["a", "c"]), "On slopes a, c: Too long.");
        assert_eq!(said("/slopes/1/roof", &["b"]), "Too long.");
    }

    #[test]
    fn only_what_a_slope_has_for_itself_is_below_it() {
        let cases = [
            ("/roof", "/slopes/3/roof"),
            ("/roof/edges/1", "/slopes/3/roof/edges/1"),
            ("/array/fields/0/id", "/slopes/3/array/fields/0/id"),
            ("/roofs", "/roofs"),
            ("/components/hook", "/components/hook"),
            ("/site/snow_held", "/site/snow_held"),
            ("", ""),
        ];
        for (alone, together) in cases {
            assert_eq!(in_building(alone, 3), together);
        }
    }
}
