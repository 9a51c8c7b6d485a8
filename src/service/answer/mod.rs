//! From core to wire: the answer of a layout.

mod actions;
pub mod building;
mod capacity;
mod departures;
pub mod choices;
mod element_names;
mod elements;
mod evidence;
mod event;
mod fields;
mod findings;
mod parts;
pub mod phases;
pub mod record;
mod remedies;
mod repair_parts;
pub mod room;
pub mod savings;
mod suggestion;
mod summary;
pub mod survey;
pub(in crate::service) mod tiles;
mod worst;

use crate::assessment::{self, Assessment, Assumed, Finding, Remarks};
use crate::codes::{Code, Rules};
use crate::language::headline::headline;
use crate::language::{Reader, cautions};
use crate::placement::Job;
use crate::placement::actions::Actions;
use crate::placement::built::{Built, Checked};
use crate::placement::kept::Kept;
use crate::placement::laid::{LaidSegment, Layout};
use crate::placement::search::Outcome;
use crate::units::{Area, Force};
use crate::wire::actions::ActionsAnswer;
use crate::wire::kinds::{ActionsTag, LayoutTag, RecheckTag};
use crate::wire::layout::{
    HookAnswer, InAnyPattern, LayoutAnswer, Optimality, SearchOutcome, SegmentOptimality,
};
use crate::wire::provenance::{Assumption, Engine, EngineRules};
use crate::wire::recheck::RecheckAnswer;
use crate::wire::record::Record;
use crate::wire::record::Recorded;
use crate::wire::remarks::{Caution, Verdict};

pub use elements::{combination_id as combination_name, hook_id as hook_name, hooks_on};
pub use evidence::evidence;
pub use fields::filled;
pub use parts::{Ordered, OrderedSlope, on_slope, parts};
pub use remedies::remedies;
pub use suggestion::suggestion;
pub use summary::Summarised;
pub use worst::{Element, Worst, worst_of};

use element_names::ElementNames;
use findings::Told;

use super::intake::Noted;
use super::{mechanics, rounding};
pub use findings::{act, scope_name, severity};

/// Writes the answer to a layout as it was assessed. Reference, digest, filled fields, remedies,
/// evidence and trace are the caller's to add.
#[must_use]
pub fn layout(
    job: &Job,
    layout: &Layout,
    ordered: &Ordered<'_>,
    assumed: &[Noted],
    (remarks, assessed): (&Remarks, &Assessment),
    reader: Reader,
) -> LayoutAnswer {
    let kept = ordered.kept;
    let hooks = elements::hooks(job, layout, kept);
    let told = Told::of(assessed, &ElementNames::of_layout(job, layout));
    LayoutAnswer {
        kind: LayoutTag,
        reference: None,
        engine: engine(job.rules),
        input_digest: String::new(),
        job_key: String::new(),
        hook_part: String::new(),
        verdict: findings::verdict(assessed.verdict()),
        headline: headline(assessed, reader),
        verdicts: findings::verdicts(assessed.verdicts),
        declarations: findings::declarations(assessed, reader),
        utilisation: worst_of(job, layout).answer(job),
        optimality: optimality(job, layout, !kept.is_empty()),
        capacity: remarks.capacity.then(|| capacity::capacity(job, layout, assessed)),
        actions: actions::of_job(job, &remarks.rules),
        covering: tiles::covering(job),
        rails: elements::rails(job, layout, kept),
        rafters: elements::rafters(job, layout),
        modules: elements::modules(job, layout),
        parts: parts(&[OrderedSlope::alone(job, layout)], ordered, reader.language),
        record: Record {
            built: Some(record::as_laid_out(job, layout, (ordered.kept, ordered.there))),
            recorded: Recorded::default(),
        },
        hooks,
        fields: Vec::new(),
        missing: told.missing(reader),
        phases: None,
        remedies: None,
        savings: None,
        room_to_move: None,
        causes: told.causes(reader),
        warnings: told.warnings(reader),
        cautions: cautions(reader),
        evidence: Vec::new(),
        assumptions: assumptions(assumed, &[&Assumed::OF_MODEL, &Assumed::OF_ORDERS], reader),
        provenance: findings::weakest_provenance(&remarks.provenance),
        trace: None,
    }
}

/// Hooks of a built job, as they are set out.
#[must_use]
pub fn as_built(job: &Job, layout: &Layout) -> Vec<HookAnswer> {
    elements::hooks(job, layout, &Kept::default())
}

/// Writes the answer of a recheck, with what else was found, for a reader. Reference, digest, difference,
/// suggestion, evidence and trace are the caller's to add.
#[must_use]
pub fn recheck(
    job: &Job,
    built: &Built,
    checked: &Checked,
    assumed: &[Noted],
    remarks: &Remarks,
    (found, reader): (&[Finding], Reader),
) -> (RecheckAnswer, Assessment) {
    let layout = &checked.layout;
    let kept = &Kept::default();
    let assessed = assessment::of_built(job, built, checked, remarks, found);
    let told = Told::of(&assessed, &ElementNames::of_layout(job, layout));
    let answer = RecheckAnswer {
        kind: Some(RecheckTag),
        reference: None,
        engine: engine(job.rules),
        input_digest: String::new(),
        job_key: String::new(),
        hook_part: String::new(),
        verdict: findings::verdict(assessed.verdict()),
        headline: headline(&assessed, reader),
        verdicts: findings::verdicts(assessed.verdicts),
        declarations: findings::declarations(&assessed, reader),
        utilisation: worst_of(job, layout).answer(job),
        difference: None,
        suggestion: None,
        departures: departures::departures(job, built),
        missing: told.missing(reader),
        capacity: remarks.capacity.then(|| capacity::capacity(job, layout, &assessed)),
        event: remarks.event.map(|of_site| event::event(job, layout, of_site)),
        actions: actions::of_job(job, &remarks.rules),
        covering: tiles::covering(job),
        rails: elements::rails(job, layout, kept),
        hooks: elements::hooks(job, layout, kept),
        rafters: elements::rafters(job, layout),
        modules: elements::modules(job, layout),
        causes: told.causes(reader),
        warnings: told.warnings(reader),
        cautions: cautions(reader),
        evidence: Vec::new(),
        assumptions: assumptions(assumed, &[&Assumed::OF_MODEL], reader),
        provenance: findings::weakest_provenance(&remarks.provenance),
        trace: None,
    };
    (answer, assessed)
}

/// Writes the answer to a question for the actions alone. Reference, digest and trace are the
/// caller's to add.
#[must_use]
pub fn actions_alone(
    rules: Rules,
    acting: (&Actions, (Force, Area)),
    assumed: &[Noted],
    remarks: &Remarks,
    reader: Reader,
) -> ActionsAnswer {
    let assessed = assessment::of_actions(remarks);
    ActionsAnswer {
        kind: ActionsTag,
        reference: None,
        engine: engine(rules),
        input_digest: String::new(),
        actions: actions::actions(rules, acting, &remarks.rules),
        warnings: Told::of(&assessed, &ElementNames::default()).warnings(reader),
        cautions: cautions(reader),
        assumptions: assumptions(assumed, &[], reader),
        trace: Vec::new(),
    }
}

/// Verdict and highest utilisation of a built job, without the rest of its answer.
#[must_use]
pub fn standing(job: &Job, built: &Built, checked: &Checked, remarks: &Remarks) -> (Verdict, f64) {
    let verdict = assessment::of_built(job, built, checked, remarks, &[]).verdict();
    (findings::verdict(verdict), rounding::utilisation(worst_of(job, &checked.layout).used))
}

/// What was assumed of the request, and choices of model.
#[must_use]
pub fn assumptions(noted: &[Noted], of_model: &[&[Assumed]], reader: Reader) -> Vec<Assumption> {
    let noted = noted.iter().map(|noted| (&*noted.pointer, &noted.assumed));
    let of_model = of_model.iter().flat_map(|choices| choices.iter()).map(|choice| ("", choice));
    noted
        .chain(of_model)
        .map(|(pointer, assumed)| findings::assumption(pointer, assumed, reader))
        .collect()
}

/// Cautions that go with every answer.
#[must_use]
pub fn cautions(reader: Reader) -> Vec<Caution> {
    let text = |caution: cautions::Caution| caution.text(reader.language);
    cautions::Caution::ALL.iter().map(|c| Caution { code: c.code(), text: text(*c) }).collect()
}

/// What computed an answer.
#[must_use]
pub fn engine(rules: Rules) -> Engine {
    Engine {
        version: env!("CARGO_PKG_VERSION").to_owned(),
        model: mechanics::MODEL,
        rules: EngineRules { id: rules.id(), revision: rules.revision().to_owned() },
    }
}

fn optimality(job: &Job, layout: &Layout, keeps: bool) -> Optimality {
    let there = |laid: &LaidSegment| laid.hooks().filter(|place| place.stands).count() as u64;
    let all_there: u64 = layout.segments().map(there).sum();
    // A number of hooks is proven for checks that were made: not where one could not be.
    let verified = layout.footings.iter().all(|f| f.capacity.is_ok())
        && job.hook.normal_spring.stiffness.is_some();
    let rails: Vec<SegmentOptimality> = layout
        .rails
        .iter()
        .filter(|rail| !rail.line.is_upper())
        .flat_map(|rail| {
            rail.segments.iter().enumerate().filter_map(|(s, laid)| {
                Some(SegmentOptimality {
                    rail: rail.line.id.clone(),
                    segment: s as u64,
                    candidates: laid.segment.candidates.len() as u64,
                    hooks: laid.found.subset.len() as u64,
                    kept: keeps.then(|| there(laid)),
                    lower_bound: laid.found.lower_bound as u64,
                    outcome: match laid.found.outcome {
                        Outcome::FewestProven => SearchOutcome::FewestProven,
                        Outcome::FewestProvenNotRanked => SearchOutcome::FewestProvenNotRanked,
                        Outcome::BestFound => SearchOutcome::BestFound,
                        Outcome::Spread => SearchOutcome::SpreadForRafters,
                        Outcome::Together => SearchOutcome::BearOnEachOther,
                        Outcome::NonePasses => SearchOutcome::NonePasses,
                        Outcome::NoneFound => SearchOutcome::NoneFound,
                        Outcome::Given => return None,
                    },
                    weighed: laid.found.weighed,
                })
            })
        })
        .collect();
    let hooks: u64 = rails.iter().map(|r| r.hooks).sum();
    Optimality {
        hooks,
        kept: keeps.then_some(all_there),
        added: keeps.then(|| hooks - all_there),
        proven: verified && layout.segments().all(|s| s.found.outcome.is_proven()),
        lower_bound: rails.iter().map(|r| r.lower_bound).sum(),
        in_any_pattern: layout.in_any_pattern.map(|free| InAnyPattern {
            hooks: free.hooks as u64,
            saved: hooks.saturating_sub(free.hooks as u64),
            proven: verified && free.proven,
        }),
        rails,
    }
}
