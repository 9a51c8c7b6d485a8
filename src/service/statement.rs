//! `POST /v1/statements`: a maker's statement of parts in; out comes what its figures rest on and
//! what it leaves open.

use crate::assessment::{CATALOGUE, Fact, Kind};
use crate::language::{Language, makers};
use crate::wire::components::ResistanceBasis;
use crate::wire::evidence::PartKind;
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::kinds::StatementTag;
use crate::wire::remarks::Verdict;
use crate::wire::statement::{NeededFigure, StatedFigure, StatementAnswer, StatementRequest};

use super::answer;
use super::figures::{self, Figure};
use super::intake::{self, TakenStatement};
use super::request::{Names, Options, Request};

impl Request for StatementRequest {
    type Answer = StatementAnswer;

    fn answer(&self, names: Names<'_>, options: &Options) -> Result<StatementAnswer, Vec<Fault>> {
        run(self, names.input_digest, options)
    }

    /// A statement is no job: nothing holds or fails in it.
    fn verdict(_: &StatementAnswer) -> Option<Verdict> {
        None
    }

    fn cut_short(_: &StatementAnswer) -> Option<bool> {
        None
    }
}

/// Looks at a statement. Pure: the same statement gives the same answer.
///
/// # Errors
/// Every fault of the statement that its schema cannot see.
pub fn run(
    request: &StatementRequest,
    input_digest: String,
    options: &Options,
) -> Result<StatementAnswer, Vec<Fault>> {
    if PARTS.iter().all(|part| !has(request, *part)) {
        let detail = "State at least one of hook, screw, rail, clamp and module.";
        return Err(vec![Fault::new("", FaultCode::ChooseOne, detail)]);
    }
    let TakenStatement { rules, assumptions, evidence } = intake::take_statement(request)?;
    let evidence = answer::evidence(&evidence);
    let mut without_evidence = stated(request);
    without_evidence.retain(|figure| {
        !evidence.iter().any(|e| e.part == figure.part && e.figure == figure.figure)
    });
    Ok(StatementAnswer {
        kind: StatementTag,
        maker: request.maker.clone(),
        document: request.document.clone(),
        engine: answer::engine(rules),
        input_digest,
        needed: needed_of(request, options.reader.language),
        without_evidence,
        evidence,
        assumptions: answer::assumptions(&assumptions, &[], options.reader),
        cautions: answer::cautions(options.reader),
    })
}

/// Kinds of part a statement can have, in its order.
pub const PARTS: [PartKind; 5] =
    [PartKind::Hook, PartKind::Screw, PartKind::Rail, PartKind::Clamp, PartKind::Module];

fn has(request: &StatementRequest, part: PartKind) -> bool {
    match part {
        PartKind::Hook => request.hook.is_some(),
        PartKind::Screw => request.screw.is_some(),
        PartKind::Rail => request.rail.is_some(),
        PartKind::Clamp => request.clamp.is_some(),
        PartKind::Module => request.module.is_some(),
    }
}

/// Every figure a statement states.
fn stated(request: &StatementRequest) -> Vec<StatedFigure> {
    fn of<P>(part: PartKind, wire: Option<&P>, known: &'static [Figure<P>]) -> Vec<StatedFigure> {
        let has = |figure: &&Figure<P>| wire.is_some_and(|wire| (figure.of)(wire).is_some());
        let stated = known.iter().filter(has);
        stated.map(|figure| StatedFigure { part, figure: figure.pointer }).collect()
    }
    [
        of(PartKind::Hook, request.hook.as_ref(), figures::HOOK),
        of(PartKind::Screw, request.screw.as_ref(), figures::SCREW),
        of(PartKind::Rail, request.rail.as_ref(), figures::RAIL),
        of(PartKind::Clamp, request.clamp.as_ref(), figures::CLAMP),
        of(PartKind::Module, request.module.as_ref(), figures::MODULE),
    ]
    .concat()
}

/// Whether a basis of the hook's resistances is what a finding asks for: a known one, or else tests or an
/// approval.
fn settles(basis: ResistanceBasis, check: &str) -> bool {
    match basis {
        ResistanceBasis::Test | ResistanceBasis::Approval => true,
        ResistanceBasis::Calculation => check == (Fact::BasisUnknown {}).kind().code,
        ResistanceBasis::Unknown => false,
    }
}

/// What the maker of a kind of part has to state for a plain `holds`, from the catalogue of findings.
#[must_use]
pub fn needed(part: PartKind, language: Language) -> Vec<NeededFigure> {
    CATALOGUE.iter().filter_map(|kind| needed_for(kind, part, language)).collect()
}

fn needed_for(kind: &'static Kind, part: PartKind, language: Language) -> Option<NeededFigure> {
    let inside = |member: &'static str| member.strip_prefix(place(part)).filter(|m| !m.is_empty());
    let figures: Vec<&'static str> = kind.stated_at.iter().copied().filter_map(inside).collect();
    (!figures.is_empty()).then(|| NeededFigure {
        part,
        figures,
        stated: false,
        check: kind.code,
        severity: answer::severity(kind.severity),
        scopes: kind.scopes.iter().map(|scope| answer::scope_name(*scope)).collect(),
        acts: kind.acts.iter().map(|act| answer::act(*act)).collect(),
        why: makers::why(kind.code, language).unwrap_or(kind.meaning),
    })
}

/// Where a job keeps the part.
const fn place(part: PartKind) -> &'static str {
    match part {
        PartKind::Hook => "/components/hook",
        PartKind::Screw => "/components/screw",
        PartKind::Rail => "/components/rail",
        PartKind::Clamp => "/components/clamp",
        PartKind::Module => "/array/module",
    }
}

fn needed_of(request: &StatementRequest, language: Language) -> Vec<NeededFigure> {
    let parts = PARTS.into_iter().filter(|part| has(request, *part));
    let mut all: Vec<_> = parts.flat_map(|part| needed(part, language)).collect();
    for needed in &mut all {
        needed.stated = needed.figures.iter().any(|figure| states(request, needed, figure));
    }
    all
}

/// Whether a statement states a figure or group of figures.
fn states(request: &StatementRequest, needed: &NeededFigure, group: &str) -> bool {
    let part = needed.part;
    let named = match group {
        "/resistance/basis" => {
            let resistance = request.hook.as_ref().and_then(|hook| hook.resistance.as_ref());
            resistance.is_some_and(|resistance| settles(resistance.basis, needed.check))
        }
        "/resistance/includes_bolt" => {
            let resistance = request.hook.as_ref().and_then(|hook| hook.resistance.as_ref());
            resistance.and_then(|resistance| resistance.includes_bolt) == Some(true)
        }
        "/short_side_clamp_zone_mm" => {
            request.module.as_ref().is_some_and(|m| m.short_side_clamp_zone_mm.is_some())
        }
        _ => false,
    };
    let below = |figure: &StatedFigure| {
        let rest = figure.figure.strip_prefix(group);
        figure.part == part && rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
    };
    named || stated(request).iter().any(below)
}
