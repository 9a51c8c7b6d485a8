//! What the figures of parts rest on: held against what the evidence gives.
//!
//! Evidence never makes a figure: it is stated in the part, and refused where its tests, or the bar of
//! the arm, give less.

use crate::checks::arm::ArmAsBar;
use crate::codes::vocabulary::{Characteristic, Distribution, Series};
use crate::codes::{Code, Rules};
use crate::service::figures::{self, Figure, FigureKind};
use crate::wire::components::{Hook, HookResistance, ResistanceBasis, ResistanceKind};
use crate::wire::evidence::{Evidence, EvidenceKind, PartKind, TestDistribution, TestSeries};
use crate::wire::fault::FaultCode;

use super::Notes;

/// A figure of a part and what it rests on.
#[derive(Debug, Clone)]
pub struct Rests {
    /// Kind of part.
    pub part: PartKind,
    /// Field whose own module it is, by its id.
    pub field: Option<String>,
    /// The figure, a pointer inside the part.
    pub figure: &'static str,
    /// Its value.
    pub stated: f64,
    /// What it rests on.
    pub by: EvidenceKind,
    /// The document.
    pub document: Option<String>,
    /// What tests give, and what the figure may be by them.
    pub tested: Option<(Characteristic, f64)>,
}

/// Whose evidence it is, and where that stands in the request.
#[derive(Debug, Clone, Copy)]
pub struct Of<'a> {
    /// Kind of part.
    pub part: PartKind,
    /// Field whose own module it is, by its id.
    pub field: Option<&'a str>,
    /// Pointer to the part.
    pub at: &'a str,
}

impl<'a> Of<'a> {
    /// That of a part of the job.
    #[must_use]
    pub const fn job(part: PartKind, at: &'a str) -> Self {
        Self { part, field: None, at }
    }
}

/// Looks at the evidence of a part that is no hook.
pub fn of_part<P>(
    of: Of<'_>,
    wire: &P,
    (evidence, known): (&[Evidence], &'static [Figure<P>]),
    rules: Rules,
    notes: &mut Notes,
) {
    for (i, stated) in evidence.iter().enumerate() {
        let entry = Entry::new(of, (i, stated), evidence);
        let Some((figure, value)) = entry.figure(wire, known, notes) else { continue };
        if stated.by == EvidenceKind::Bar {
            entry.fault("by", FaultCode::Contradiction, ONLY_OF_THE_ARM, notes);
            continue;
        }
        let kind = figure.kind;
        entry.rests(figure.pointer, (kind, value), rules, notes);
    }
}

/// Looks at the evidence of a hook, whose arm may be known as a flat bar.
pub fn of_hook(wire: &Hook, bar: Option<&ArmAsBar>, rules: Rules, notes: &mut Notes) {
    let of = Of::job(PartKind::Hook, "/components/hook");
    for (i, stated) in wire.evidence.iter().enumerate() {
        let entry = Entry::new(of, (i, stated), &wire.evidence);
        let Some((figure, value)) = entry.figure(wire, figures::HOOK, notes) else { continue };
        let kind = match (figure.kind, &wire.resistance) {
            (FigureKind::OfHook, Some(resistance)) => {
                entry.agrees_with(resistance.basis, notes);
                match resistance.kind {
                    ResistanceKind::Design => FigureKind::Design,
                    ResistanceKind::Characteristic => FigureKind::Characteristic,
                }
            }
            (kind, _) => kind,
        };
        if stated.by == EvidenceKind::Bar {
            entry.within_the_bar(figure.pointer, (wire, value), bar, notes);
            // A figure of the bar is one, whoever writes it down: joint and foot are not in it.
            notes.remarks.hook.resistance_of_bar |= figure.kind == FigureKind::OfHook;
            notes.remarks.hook.stiffness_of_bar |= figure.pointer == NORMAL_STIFFNESS;
        }
        entry.rests(figure.pointer, (kind, value), rules, notes);
    }
}

const NORMAL_STIFFNESS: &str = "/stiffness/normal_kn_per_mm";

const ONLY_OF_THE_ARM: &str =
    "Only resistances and stiffnesses of a hook whose arm.grade is given can rest on its bar.";

/// Partial factor of characteristic resistances where none is given: tension failure of steel, EN 1993.
pub const USUAL_PARTIAL_FACTOR: f64 = 1.25;

/// Rounding of a stated figure that is let pass.
const ROUNDING: f64 = 1e-9;

/// One entry of the evidence of a part.
struct Entry<'a> {
    of: Of<'a>,
    at: String,
    stated: &'a Evidence,
    repeated: bool,
}

impl<'a> Entry<'a> {
    fn new(of: Of<'a>, (i, stated): (usize, &'a Evidence), all: &[Evidence]) -> Self {
        let repeated = all.iter().take(i).any(|earlier| earlier.figure == stated.figure);
        Self { of, at: format!("{}/evidence/{i}", of.at), stated, repeated }
    }

    fn fault(&self, member: &str, code: FaultCode, detail: impl Into<String>, notes: &mut Notes) {
        notes.fault(format!("{}/{member}", self.at), code, detail);
    }

    /// The figure it is about and its value, where the part states it.
    fn figure<P>(
        &self,
        wire: &P,
        known: &'static [Figure<P>],
        notes: &mut Notes,
    ) -> Option<(&'static Figure<P>, f64)> {
        let name = &self.stated.figure;
        let Some(figure) = known.iter().find(|figure| figure.pointer == *name) else {
            let usual = known.first().map_or("", |figure| figure.pointer);
            let detail = format!("The part has no such figure; one it has is \"{usual}\".");
            self.fault("figure", FaultCode::UnknownValue, detail, notes);
            return None;
        };
        if self.repeated {
            let detail = "The evidence of this figure is stated twice.";
            self.fault("figure", FaultCode::Contradiction, detail, notes);
            return None;
        }
        let value = (figure.of)(wire);
        if value.is_none() {
            let detail = "The part does not state this figure.";
            self.fault("figure", FaultCode::Contradiction, detail, notes);
        }
        Some((figure, value?))
    }

    /// The basis of the hook's resistances says the same.
    fn agrees_with(&self, basis: ResistanceBasis, notes: &mut Notes) {
        use EvidenceKind::{Approval, Bar, Declared, Test};
        let agrees = match basis {
            ResistanceBasis::Test | ResistanceBasis::Approval => {
                matches!(self.stated.by, Test | Approval)
            }
            ResistanceBasis::Calculation => matches!(self.stated.by, Bar | Declared),
            ResistanceBasis::Unknown => self.stated.by == Declared,
        };
        if !agrees {
            let detail = "resistance.basis says that the resistances rest on something else.";
            self.fault("by", FaultCode::Contradiction, detail, notes);
        }
    }

    /// What is said to be that of the bar is no more than that.
    fn within_the_bar(
        &self,
        pointer: &str,
        (wire, value): (&Hook, f64),
        bar: Option<&ArmAsBar>,
        notes: &mut Notes,
    ) {
        let divisor = wire.resistance.as_ref().map_or(1.0, design_divisor);
        let gives = bar.and_then(|bar| match pointer {
            "/resistance/press_kn" | "/resistance/lift_kn" => Some(bar.normal.kn() * divisor),
            "/resistance/slope_kn" => Some(bar.slope.kn() * divisor),
            NORMAL_STIFFNESS => Some(bar.normal_stiffness.kn_per_mm()),
            "/stiffness/slope_kn_per_mm" => Some(bar.slope_stiffness.kn_per_mm()),
            _ => None,
        });
        match gives {
            None => self.fault("by", FaultCode::Contradiction, ONLY_OF_THE_ARM, notes),
            Some(gives) if value > gives * (1.0 + ROUNDING) => {
                let detail =
                    format!("The arm as a flat bar gives {gives:.4}; the part states {value}.");
                self.fault("by", FaultCode::Contradiction, detail, notes);
            }
            Some(_) => {}
        }
    }

    /// Notes what the figure rests on.
    fn rests(
        &self,
        figure: &'static str,
        (kind, value): (FigureKind, f64),
        rules: Rules,
        notes: &mut Notes,
    ) {
        let Evidence { by, document, series, .. } = self.stated;
        let by = *by;
        if matches!(by, EvidenceKind::Approval | EvidenceKind::Test) && document.is_none() {
            let detail = "Name the document of the approval or the tests.";
            self.fault("document", FaultCode::Missing, detail, notes);
        }
        let tested = match (by, series) {
            (EvidenceKind::Test, None) => {
                let detail = "Give the results of the tests.";
                self.fault("series", FaultCode::Missing, detail, notes);
                return;
            }
            (EvidenceKind::Test, Some(series)) => {
                let tested = self.tested(series, (kind, value), rules, notes);
                if tested.is_none() {
                    return;
                }
                tested
            }
            (_, Some(_)) => {
                let detail = "Results of tests go with \"by\": \"test\" only.";
                self.fault("series", FaultCode::Contradiction, detail, notes);
                return;
            }
            (_, None) => None,
        };
        let Of { part, field, .. } = self.of;
        let (field, document) = (field.map(str::to_owned), document.clone());
        notes.evidence.push(Rests { part, field, figure, stated: value, by, document, tested });
    }

    /// What the tests give, where the figure is no more than they allow.
    fn tested(
        &self,
        wire: &TestSeries,
        (kind, value): (FigureKind, f64),
        rules: Rules,
        notes: &mut Notes,
    ) -> Option<(Characteristic, f64)> {
        if kind == FigureKind::Measure {
            let detail = "This is no figure that follows from a series of tests.";
            self.fault("by", FaultCode::Contradiction, detail, notes);
            return None;
        }
        let found = rules.characteristic(&series(wire)).map_err(|silent| {
            let detail = format!("{silent}.");
            self.fault("series/values", FaultCode::NotCovered, detail, notes);
        });
        let found = found.ok()?;
        let bears = match (kind, wire.partial_factor) {
            (FigureKind::Design, Some(factor)) => found.value / factor,
            (FigureKind::Design, None) => {
                let detail = "A design value needs the partial factor between it and the characteristic one.";
                self.fault("series/partial_factor", FaultCode::Missing, detail, notes);
                return None;
            }
            (_, Some(_)) => {
                let detail = "The figure is no design value: no partial factor lies before it.";
                self.fault("series/partial_factor", FaultCode::Contradiction, detail, notes);
                return None;
            }
            (FigureKind::Mean, None) => found.mean,
            (_, None) => found.value,
        };
        if value > bears * (1.0 + ROUNDING) {
            let detail = format!("The tests give {bears:.4}; the part states {value}.");
            self.fault("series", FaultCode::Contradiction, detail, notes);
            return None;
        }
        Some((found, bears))
    }
}

fn series(wire: &TestSeries) -> Series {
    Series {
        values: wire.values.clone(),
        distribution: match wire.distribution {
            TestDistribution::Normal => Distribution::Normal,
            TestDistribution::Lognormal => Distribution::Lognormal,
        },
        known_variation: wire.known_variation,
    }
}

/// What a stated resistance of the hook is divided by to become a design value.
fn design_divisor(resistance: &HookResistance) -> f64 {
    match resistance.kind {
        ResistanceKind::Design => 1.0,
        ResistanceKind::Characteristic => resistance.partial_factor.unwrap_or(USUAL_PARTIAL_FACTOR),
    }
}

/// Whether somebody tested or approved the stiffness of the hook square to the roof.
pub fn stiffness_is_proven(wire: &Hook) -> bool {
    let proof =
        |stated: &Evidence| matches!(stated.by, EvidenceKind::Test | EvidenceKind::Approval);
    wire.evidence.iter().any(|stated| stated.figure == NORMAL_STIFFNESS && proof(stated))
}
