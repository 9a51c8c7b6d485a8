//! From core to wire: the answer to a building. What every slope says alike is told once, above them.

use std::collections::HashSet;

use crate::assessment::{Assessment, Assumed, Verdicts};
use crate::language::Reader;
use crate::language::headline::{headline, headline_of_slopes};
use crate::placement::laid::Layout;
use crate::service::intake::Taken;
use crate::service::intake::building::{in_building, is_of_a_slope};
use crate::wire::building::{BuildingAnswer, BuildingOptimality, SlopeAnswer};
use crate::wire::evidence::EvidenceAnswer;
use crate::wire::kinds::BuildingTag;
use crate::wire::layout::JobUtilisation;
use crate::wire::parts::PartsAnswer;
use crate::wire::provenance::Assumption;
use crate::wire::record::{Record, Recorded};
use crate::wire::remarks::{Cause, MissingInput, Warning};
use crate::wire::remedies::Remedies;

use super::element_names::ElementNames;
use super::findings::{self, Told};
use super::{
    actions, assumptions, capacity, elements, engine, evidence, optimality, record, tiles, worst_of,
};

/// A slope as it is laid out and assessed.
#[derive(Debug)]
pub struct AssessedSlope<'a> {
    /// Its name.
    pub id: &'a str,
    /// What was understood of it.
    pub taken: &'a Taken,
    /// Its layout, with the rails cut.
    pub layout: &'a Layout,
    /// What it comes to.
    pub assessed: &'a Assessment,
}

/// Writes the answer to a building: its slopes with what would lift their failing checks, its parts, and
/// which of the slopes is used most. Reference, digest, keys and traces are the caller's to add.
#[must_use]
pub fn building(
    slopes: &[AssessedSlope<'_>],
    remedies: Vec<Option<Remedies>>,
    parts: PartsAnswer,
    most_used: usize,
    reader: Reader,
) -> BuildingAnswer {
    let rules = slopes[0].taken.job.rules;
    let named: Vec<(&str, &Assessment)> = slopes.iter().map(|of| (of.id, of.assessed)).collect();
    let worst = Verdicts::worst_of(slopes.iter().map(|of| of.assessed.verdicts));
    let marked = slopes.iter().flat_map(|of| of.taken.remarks.provenance.iter().cloned());
    let marked: Vec<_> = marked.collect();
    let mut told: Vec<SlopeAnswer> =
        slopes.iter().zip(remedies).map(|(of, remedies)| slope(of, remedies, reader)).collect();
    for (at, slope) in told.iter_mut().enumerate() {
        point_into_request(slope, at);
    }
    let common = Common::of(&mut told);
    for (at, slope) in told.iter_mut().enumerate() {
        lead_into_answer(slope, at);
    }
    let sum = |of: fn(&SlopeAnswer) -> u64| told.iter().map(of).sum();
    BuildingAnswer {
        kind: BuildingTag,
        reference: None,
        engine: engine(rules),
        input_digest: String::new(),
        hook_part: String::new(),
        verdict: findings::verdict(worst.whole()),
        headline: headline_of_slopes(&named, reader),
        verdicts: findings::verdicts(worst),
        utilisation: JobUtilisation {
            slope: Some(told[most_used].id.clone()),
            ..told[most_used].utilisation.clone()
        },
        optimality: BuildingOptimality {
            hooks: sum(|slope| slope.optimality.hooks),
            proven: told.iter().all(|slope| slope.optimality.proven),
            lower_bound: sum(|slope| slope.optimality.lower_bound),
        },
        parts,
        missing: common.missing,
        causes: common.causes,
        warnings: common.warnings,
        cautions: super::cautions(reader),
        evidence: common.evidence,
        assumptions: common.assumptions,
        provenance: findings::weakest_provenance(&marked),
        slopes: told,
    }
}

/// What a layout of the slope by itself says, as far as it is of the slope.
fn slope(of: &AssessedSlope<'_>, remedies: Option<Remedies>, reader: Reader) -> SlopeAnswer {
    let AssessedSlope { id, taken, layout, assessed } = *of;
    let Taken { job, kept, remarks, .. } = taken;
    let told = Told::of(assessed, &ElementNames::of_layout(job, layout));
    let of_model = [&Assumed::OF_MODEL[..], &Assumed::OF_ORDERS[..]];
    SlopeAnswer {
        id: id.to_owned(),
        job_key: String::new(),
        verdict: findings::verdict(assessed.verdict()),
        headline: headline(assessed, reader),
        verdicts: findings::verdicts(assessed.verdicts),
        declarations: findings::declarations(assessed, reader),
        utilisation: worst_of(job, layout).answer(job),
        optimality: optimality(job, layout, false),
        capacity: remarks.capacity.then(|| capacity::capacity(job, layout, assessed)),
        actions: actions::of_job(job, &remarks.rules),
        covering: tiles::covering(job),
        rails: elements::rails(job, layout, kept),
        hooks: elements::hooks(job, layout, kept),
        rafters: elements::rafters(job, layout),
        modules: elements::modules(job, layout),
        record: Record {
            built: Some(record::as_laid_out(job, layout, (kept, None))),
            recorded: Recorded::default(),
        },
        fields: super::filled(job, &taken.filled),
        remedies,
        missing: told.missing(reader),
        causes: told.causes(reader),
        warnings: told.warnings(reader),
        evidence: evidence(&taken.evidence),
        assumptions: assumptions(&taken.assumptions, &of_model, reader),
        trace: None,
    }
}

/// What every slope says alike.
struct Common {
    missing: Vec<MissingInput>,
    causes: Vec<Cause>,
    warnings: Vec<Warning>,
    evidence: Vec<EvidenceAnswer>,
    assumptions: Vec<Assumption>,
}

impl Common {
    /// Takes it from the slopes: what is about the whole of a slope or about the order, and points at
    /// nothing that a slope has for itself.
    fn of(slopes: &mut [SlopeAnswer]) -> Self {
        let warnings = shared(
            slopes,
            |slope| &mut slope.warnings,
            |warning| {
                let of_slope = warning.pointer.as_deref().is_some_and(is_of_a_slope);
                !of_slope && (warning.path.is_empty() || is_of_the_order(&warning.path))
            },
        );
        let told: HashSet<&str> = warnings.iter().map(|warning| warning.id.as_str()).collect();
        let causes = shared(
            slopes,
            |slope| &mut slope.causes,
            |cause| cause.findings.iter().all(|id| told.contains(id.as_str())),
        );
        let mut missing =
            shared(slopes, |slope| &mut slope.missing, |missing| !is_of_a_slope(&missing.pointer));
        for missing in &mut missing {
            // What is found at places of each slope has one finding on each.
            missing.finding.take_if(|id| !told.contains(id.as_str()));
        }
        let evidence = shared(slopes, |slope| &mut slope.evidence, |_| true);
        let assumptions = shared(
            slopes,
            |slope| &mut slope.assumptions,
            |assumed| !is_of_a_slope(&assumed.pointer),
        );
        Self { missing, causes, warnings, evidence, assumptions }
    }
}

/// Whether a pointer into an answer leads to what all slopes have together.
fn is_of_the_order(path: &str) -> bool {
    path.starts_with("/parts/")
}

/// Takes out of a list of each slope the entries that may be common and that every slope has, in their order
/// on the first.
fn shared<T: PartialEq>(
    slopes: &mut [SlopeAnswer],
    list: impl Fn(&mut SlopeAnswer) -> &mut Vec<T>,
    may_be_common: impl Fn(&T) -> bool,
) -> Vec<T> {
    let Some((first, others)) = slopes.split_first_mut() else { return Vec::new() };
    let mut others: Vec<&mut Vec<T>> = others.iter_mut().map(&list).collect();
    let of_first = list(first);
    let (common, own) = std::mem::take(of_first).into_iter().partition(|entry| {
        may_be_common(entry) && others.iter().all(|other| other.contains(entry))
    });
    *of_first = own;
    for other in &mut others {
        other.retain(|entry| !common.contains(entry));
    }
    common
}

/// Whatever a slope says of its request points into that for the building.
fn point_into_request(slope: &mut SlopeAnswer, at: usize) {
    let into_building = |pointer: &mut String| *pointer = in_building(pointer, at);
    slope.warnings.iter_mut().filter_map(|found| found.pointer.as_mut()).for_each(into_building);
    slope.missing.iter_mut().for_each(|missing| into_building(&mut missing.pointer));
    let remedies = slope.remedies.iter_mut().flat_map(|remedies| &mut remedies.helping);
    remedies.flat_map(|remedy| &mut remedy.edits).for_each(|edit| into_building(&mut edit.path));
}

/// Whatever a slope says of its answer leads to its place in that of the building.
fn lead_into_answer(slope: &mut SlopeAnswer, at: usize) {
    let found = slope.warnings.iter_mut().map(|warning| &mut warning.path);
    let causes = slope.causes.iter_mut().flat_map(|cause| &mut cause.paths);
    for path in found.chain(causes).filter(|path| !is_of_the_order(path)) {
        path.insert_str(0, &format!("/slopes/{at}"));
    }
}
