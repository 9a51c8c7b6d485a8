//! Rafters that nobody has seen yet: the places of the first of them that are looked at, and the request
//! with the rafters there, which is then understood like any other.

use crate::assessment::Assumed;
use crate::placement::{Job, array as placed};
use crate::units::Length;
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::layout::LayoutRequest;
use crate::wire::phases::{KnownOfRafters, Unmeasured};

use super::array::{MAX_CROSSINGS, crossings};
use super::filling::MAX_MODULES;
use super::{Noted, Notes, Taken, take};

/// A place of the first rafter, and the rafters that follow from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Phase {
    /// Axis of the first rafter, mm.
    pub first_mm: f64,
    /// Centres, mm.
    pub spacing_mm: f64,
    /// Rafters up to the other end of the slope.
    pub count: u32,
}

/// The phases of a request whose rafters are not measured.
#[derive(Debug, Clone)]
pub struct Phases {
    /// Those to look at, by spacing and first rafter; there is one.
    pub all: Vec<Phase>,
    /// The first of them understood.
    pub first: Taken,
    /// From one place of the first rafter to the next.
    pub step: Length,
    /// The one that the caller wants to see, by its index.
    pub shown: Option<usize>,
    /// What was assumed of them.
    pub assumptions: Vec<Noted>,
}

/// Centres where nobody knows any, mm. Common practice on houses: 650 to 800 in new German roofs as a trade
/// encyclopedia has it, 600 of British trusses.
const USUAL_SPACINGS: [f64; 3] = [600.0, 700.0, 800.0];

/// From one place of the first rafter to the next where the caller names no step, mm; judgement.
const STEP: f64 = 50.0;

/// Most phases that one job may have.
const MAX_PHASES: usize = 100;

/// Most rafters of a slope, as of one whose rafters are measured.
const MAX_RAFTERS: u32 = 600;

const UNMEASURED: &str = "/roof/rafters/unmeasured";
const SPACING: &str = "/roof/rafters/spacing_mm";
const SPACINGS: &str = "/roof/rafters/unmeasured/spacings_mm";
const STEP_AT: &str = "/roof/rafters/unmeasured/step_mm";
const SHOWN: &str = "/roof/rafters/unmeasured/shown_first_mm";

impl Phase {
    /// With the first rafter here and centres of so much, up to the right end of the slope.
    fn on(right: f64, first_mm: f64, spacing_mm: f64) -> Self {
        // A billionth is let go, so that a rafter on the very edge counts.
        let further = ((right - first_mm) / spacing_mm + 1e-9).floor().clamp(0.0, 1e6);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a count")]
        let count = further as u32 + 1;
        Self { first_mm, spacing_mm, count }
    }

    /// The request with its rafters here.
    #[must_use]
    pub fn request(&self, of: &LayoutRequest) -> LayoutRequest {
        let mut here = of.clone();
        let rafters = &mut here.roof.rafters;
        rafters.unmeasured = None;
        rafters.positions_mm = None;
        rafters.first_mm = Some(self.first_mm);
        rafters.spacing_mm = Some(self.spacing_mm);
        rafters.count = Some(self.count);
        here
    }

    fn positions(&self) -> impl Iterator<Item = Length> + use<> {
        let Self { first_mm, spacing_mm, count } = *self;
        (0..count).map(move |i| Length::from_mm(first_mm + spacing_mm * f64::from(i)))
    }
}

/// Understands a request whose rafters are not measured.
///
/// # Errors
/// Every fault that the schema cannot see.
pub fn take_phases(request: &LayoutRequest, said: &Unmeasured) -> Result<Phases, Vec<Fault>> {
    let mut notes = Notes::default();
    nothing_named(request, &mut notes);
    let slope = ends(request);
    let spacings = spacings(request, said, slope, &mut notes);
    let step = step(said, &spacings, &mut notes);
    let mut all = in_steps(slope, &spacings, step);
    let shown = shown(said, slope, &spacings, &mut all, &mut notes);
    if all.len() > MAX_PHASES {
        let detail = format!(
            "There would be {} places of the first rafter to look at; one job may have {MAX_PHASES}.",
            all.len()
        );
        notes.fault(STEP_AT, FaultCode::OutOfRange, detail);
    }
    // Other faults of the request are found with rafters anywhere.
    let first = if notes.faults.is_empty() {
        all.first().map(|phase| phase.request(request))
    } else {
        None
    };
    let first = take(&first.unwrap_or_else(|| anywhere(request, slope)));
    let first = first.map_err(|faults| notes.faults.extend(faults)).ok();
    if let Some(first) = first.as_ref().filter(|_| notes.faults.is_empty()) {
        not_too_many_together(&first.job, &all, &mut notes);
    }
    match first {
        Some(first) if notes.faults.is_empty() => {
            notes.note(UNMEASURED, Assumed::RaftersAtEqualCentres);
            let step = Length::from_mm(step);
            Ok(Phases { all, first, step, shown, assumptions: notes.assumptions })
        }
        _ => Err(notes.faults),
    }
}

/// Refuses whatever speaks of rafters as if somebody had seen them.
fn nothing_named(request: &LayoutRequest, notes: &mut Notes) {
    let rafters = &request.roof.rafters;
    let measured = rafters.positions_mm.as_ref().is_some_and(|all| !all.is_empty());
    if measured || rafters.first_mm.is_some() || rafters.count.is_some() {
        notes.fault(
            "/roof/rafters",
            FaultCode::ChooseOne,
            "Give positions_mm, or first_mm, spacing_mm and count, or say that they are unmeasured.",
        );
    }
    let number = "Rafters that are not measured have no numbers yet.";
    if !rafters.barred.is_empty() {
        notes.fault("/roof/rafters/barred", FaultCode::Contradiction, number);
    }
    if request.savings == Some(true) {
        let why = "What would save hooks is asked of measured rafters.";
        notes.fault("/savings", FaultCode::Contradiction, why);
    }
    if request.room_to_move.is_some() {
        let why =
            "How far hooks may stand from where they are set out is asked of measured rafters.";
        notes.fault("/room_to_move", FaultCode::Contradiction, why);
    }
    for (i, obstacle) in request.roof.obstacles.iter().enumerate() {
        if obstacle.cuts_rafters.as_ref().is_some_and(|said| !said.is_empty()) {
            let pointer = format!("/roof/obstacles/{i}/cuts_rafters");
            notes.fault(pointer, FaultCode::Contradiction, number);
        }
    }
    if request.roof.provenance.as_ref().is_some_and(|of| of.rafter_positions.is_some()) {
        notes.fault(
            "/roof/provenance/rafter_positions",
            FaultCode::Contradiction,
            "It says how a value is known that is not given.",
        );
    }
    if request.kept.is_some() {
        let why = "Hooks that are there stand on rafters, which can be measured at them.";
        notes.contradiction([UNMEASURED, "/kept"], why);
    }
}

/// Left and right end of the slope, mm.
fn ends(request: &LayoutRequest) -> [f64; 2] {
    let across = request.roof.outline_mm.iter().map(|[x, _]| *x);
    let left = across.clone().fold(f64::INFINITY, f64::min);
    [left, across.fold(f64::NEG_INFINITY, f64::max)]
}

/// The centres to look at.
fn spacings(
    request: &LayoutRequest,
    said: &Unmeasured,
    [left, right]: [f64; 2],
    notes: &mut Notes,
) -> Vec<f64> {
    let given: Vec<(String, f64)> = match (said.known, request.roof.rafters.spacing_mm) {
        (KnownOfRafters::Spacing, spacing) => {
            if !said.spacings_mm.is_empty() {
                let why = "Where the spacing is known there are no others to look at.";
                notes.fault(SPACINGS, FaultCode::Contradiction, why);
            }
            if spacing.is_none() {
                let why = "\"spacing_mm\" is required and is not there: it is said to be known.";
                notes.fault(SPACING, FaultCode::Missing, why);
            }
            spacing.map(|spacing| (SPACING.to_owned(), spacing)).into_iter().collect()
        }
        (KnownOfRafters::Nothing, Some(_)) => {
            let why = "Nothing is said to be known of the rafters, and their spacing is given.";
            notes.contradiction([SPACING, "/roof/rafters/unmeasured/known"], why);
            Vec::new()
        }
        (KnownOfRafters::Nothing, None) if said.spacings_mm.is_empty() => {
            let usual = USUAL_SPACINGS.map(Length::from_mm);
            notes.note(SPACINGS, Assumed::UsualSpacings(usual));
            USUAL_SPACINGS.map(|spacing| (SPACINGS.to_owned(), spacing)).to_vec()
        }
        (KnownOfRafters::Nothing, None) => {
            let each = said.spacings_mm.iter().enumerate();
            each.map(|(i, spacing)| (format!("{SPACINGS}/{i}"), *spacing)).collect()
        }
    };
    let mut out: Vec<f64> = Vec::with_capacity(given.len());
    for (pointer, spacing) in given {
        if out.contains(&spacing) {
            notes.fault(pointer, FaultCode::Contradiction, format!("{spacing} is named twice."));
            continue;
        }
        if right - left < 2.0 * spacing {
            let why = format!(
                "At centres of {spacing} mm a slope {} mm long may have a single rafter.",
                right - left
            );
            notes.fault(pointer.clone(), FaultCode::OutOfRange, why);
        }
        let Phase { count, .. } = Phase::on(right, left, spacing);
        if count > MAX_RAFTERS {
            let why = format!(
                "At centres of {spacing} mm the slope has {count} rafters; it may have {MAX_RAFTERS}."
            );
            notes.fault(pointer, FaultCode::OutOfRange, why);
        }
        out.push(spacing);
    }
    out
}

/// From one place to the next, mm: less than any spacing.
fn step(said: &Unmeasured, spacings: &[f64], notes: &mut Notes) -> f64 {
    let step = said.step_mm.unwrap_or(STEP);
    if said.step_mm.is_none() {
        notes.note(STEP_AT, Assumed::PhaseStep(Length::from_mm(step)));
    }
    if let Some(spacing) = spacings.iter().find(|spacing| step >= **spacing) {
        let why = format!(
            "{step} is no less than the spacing of {spacing} mm: only one place would be looked at."
        );
        notes.fault(STEP_AT, FaultCode::OutOfRange, why);
    }
    step
}

/// Every phase in steps from the left end of the slope, short of one spacing, where it begins anew.
fn in_steps([left, right]: [f64; 2], spacings: &[f64], step: f64) -> Vec<Phase> {
    let of = |spacing: &f64| {
        let spacing = *spacing;
        let places = (0_u32..).map(move |k| step * f64::from(k));
        // A millionth of a millimetre is let go: a place so near to one spacing is the first again.
        let places = places.take_while(move |place| *place < spacing - 1e-6);
        places.map(move |place| Phase::on(right, left + place, spacing))
    };
    spacings.iter().flat_map(of).collect()
}

/// The index of the phase that the caller wants to see, which comes among the others.
fn shown(
    said: &Unmeasured,
    [left, right]: [f64; 2],
    spacings: &[f64],
    all: &mut Vec<Phase>,
    notes: &mut Notes,
) -> Option<usize> {
    let first = said.shown_first_mm?;
    if said.known == KnownOfRafters::Nothing {
        let why = "Where the spacing is not known no first rafter can be asked for.";
        notes.fault(SHOWN, FaultCode::Contradiction, why);
        return None;
    }
    let spacing = *spacings.first()?;
    if !(left..left + spacing).contains(&first) {
        let why = format!(
            "The first rafter stands at {left} mm, the left end of the slope, or less than {spacing} mm further."
        );
        notes.fault(SHOWN, FaultCode::OutOfRange, why);
        return None;
    }
    let at = all.partition_point(|phase| phase.first_mm < first - 1e-6);
    if all.get(at).is_none_or(|phase| phase.first_mm > first + 1e-6) {
        all.insert(at, Phase::on(right, first, spacing));
    }
    Some(at)
}

/// The request with rafters anywhere and nothing that names one, to find its other faults.
fn anywhere(request: &LayoutRequest, [left, right]: [f64; 2]) -> LayoutRequest {
    let mut anywhere = Phase::on(right, left, (right - left).max(1.0) / 4.0).request(request);
    anywhere.kept = None;
    anywhere.roof.rafters.barred.clear();
    for obstacle in &mut anywhere.roof.obstacles {
        obstacle.cuts_rafters = None;
    }
    anywhere
}

/// The phases of a request are one job together, and have its limits.
fn not_too_many_together(job: &Job, all: &[Phase], notes: &mut Notes) {
    let modules = placed::modules(&job.fields).len() * all.len();
    if modules > MAX_MODULES {
        let detail = format!(
            "At all {} places of the first rafter there are {modules} modules together; one job may have {MAX_MODULES}. Take a longer step, or lay out the fields in several jobs.",
            all.len()
        );
        notes.fault(STEP_AT, FaultCode::OutOfRange, detail);
    }
    let mut roof = job.roof.clone();
    let mut crossed = 0;
    for phase in all {
        roof.rafters.positions = phase.positions().collect();
        crossed += crossings((&roof, &job.covering), &job.fields, job.rail_axis);
    }
    if crossed > MAX_CROSSINGS {
        let detail = format!(
            "At all {} places of the first rafter the rails cross rafters in {crossed} places together; one job may have {MAX_CROSSINGS}. Take a longer step, or lay out the fields in several jobs.",
            all.len()
        );
        notes.fault(STEP_AT, FaultCode::OutOfRange, detail);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn phases_end_short_of_one_spacing() {
        let firsts = |spacings: &[f64], step| -> Vec<f64> {
            let all = in_steps([10.0, 6010.0], spacings, step);
            all.iter().map(|phase| phase.first_mm).collect()
        };
        assert_eq!(firsts(&[600.0], 200.0), [10.0, 210.0, 410.0]);
        assert_eq!(firsts(&[600.0], 250.0), [10.0, 260.0, 510.0]);
        assert_eq!(firsts(&[600.0, 700.0], 300.0), [10.0, 310.0, 10.0, 310.0, 610.0]);
        // In binary three tenths of a spacing fall a little short of it.
        assert_eq!(firsts(&[600.3], 200.1).len(), 3);
    }

    #[test]
    fn rafters_go_on_to_the_other_end_of_the_slope() {
        assert_eq!(Phase::on(6000.0, 0.0, 600.0).count, 11);
        assert_eq!(Phase::on(6000.0, 1.0, 600.0).count, 10);
        assert_eq!(Phase::on(6000.0, 599.0, 600.0).count, 10);
        assert_eq!(Phase::on(6000.0, 601.0, 600.0).count, 9);
    }
}
