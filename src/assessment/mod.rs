//! What a job comes to: findings as values, and the verdict they leave.
//!
//! Every check either ran and passed, ran and failed, or did not run. What failed, what did not run
//! and what a person must act on becomes a [`Finding`]; the [`Verdict`] follows from the severities
//! of the findings, by scope. Nothing above this room decides anything: `language` makes sentences of
//! findings, answers and papers write them down.
//!
//! **Layer.** Above placement, survey and parts; knows no wire type and no words.

mod along_rails;
mod assumption;
mod built;
mod cause;
mod courses;
mod crossing;
mod declaration;
mod details;
mod distances;
mod ends;
mod fact;
mod fit;
mod footing;
mod kept;
mod members;
mod provenance;
mod rails;
pub mod remedies;
mod repair;
mod request;
mod roll;
mod splices;
mod strength;
mod surroundings;
mod survey;
mod value;
mod verdict;
mod watertight;

pub use assumption::Assumed;
pub use cause::{Cause, Reason, Spot};
pub use declaration::{Act, Declaration, DeclaredBy, TakenOver};
#[cfg(test)]
pub use fact::samples;
pub use fact::{CATALOGUE, Fact, Kind, ParameterKind};
pub use provenance::{Provenance, weakest};
pub use repair::{Element, FreePlaces, NoHelp, why_no_help};
pub use request::{Remarks, Unmeasured, of_actions};
pub use survey::{Left, in_order, of_levelling};
pub use value::{
    Bound, CuttingAim, EdgeName, End, HeldBy, ObstacleUnknown, PartName, PassageName, PatternAsked,
    RafterCheck, RuleOf, RuleValue, Sense, Share, SideName, SlopeEnd, SpliceKind, SplicePlace,
    Utilisation, Value, ValueKind,
};
pub use verdict::{Asked, Verdict, Verdicts};

use crate::parts::take_off::OnSlope;
use crate::placement::Job;
use crate::placement::built::{Built, Checked};
use crate::placement::laid::Layout;

/// How much a finding matters; the most serious first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// A check fails, or the thing cannot be built.
    Failure,
    /// Something that decides did not run.
    Incomplete,
    /// Something a person must act on.
    Warning,
    /// For information.
    Notice,
}

/// What a verdict can be asked on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// Hook, screws, foot, bolt, clearance.
    Fixing,
    /// The rails.
    Rail,
    /// The modules and their clamps.
    Modules,
    /// The rafters.
    Rafters,
    /// Whether the hook fits the courses, and what becomes of the tiles.
    Covering,
    /// What was assumed, invented or not measured.
    Data,
}

impl Scope {
    /// Every scope.
    pub const ALL: [Self; 6] =
        [Self::Fixing, Self::Rail, Self::Modules, Self::Rafters, Self::Covering, Self::Data];

    /// Whether a verdict without it would say nothing of the array on the roof.
    #[must_use]
    pub const fn is_always_asked(self) -> bool {
        match self {
            Self::Fixing | Self::Rail | Self::Covering | Self::Data => true,
            Self::Modules | Self::Rafters => false,
        }
    }
}

/// What of an answer a finding is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// All of it.
    Whole,
    /// The rails.
    Rails,
    /// One rail.
    Rail(usize),
    /// A segment of a rail.
    Segment(usize, usize),
    /// The hooks.
    Hooks,
    /// One hook, counted through all rails.
    Hook(usize),
    /// The modules.
    Modules,
    /// One module.
    Module(usize),
    /// The rafters.
    Rafters,
    /// One of the rafters that carry hooks.
    Rafter(usize),
    /// The covering.
    Covering,
    /// The snow.
    Snow,
    /// The wind zones.
    WindZones,
    /// The cutting plan.
    Cutting,
    /// A surveyed rail.
    Survey(usize),
    /// The line of one.
    SurveyLine(usize),
    /// A hook of one.
    SurveyHook(usize, usize),
    /// Why one cannot be straight.
    SurveyObstruction(usize),
}

/// A fact and what it is about.
#[derive(Debug, Clone)]
pub struct Finding {
    /// The fact.
    pub fact: Fact,
    /// What of the answer it is about.
    pub place: Place,
}

impl Finding {
    /// What kind of fact it is.
    #[must_use]
    pub const fn kind(&self) -> &'static Kind {
        self.fact.kind()
    }
}

/// Collects findings.
#[derive(Debug, Default)]
struct Findings(Vec<Finding>);

impl Findings {
    fn add(&mut self, place: Place, fact: Fact) {
        self.0.push(Finding { fact, place });
    }
}

/// What was found, and what it leaves of the verdict.
#[derive(Debug, Clone)]
pub struct Assessment {
    /// The findings, most serious first.
    pub findings: Vec<Finding>,
    /// What did not run and somebody answers for.
    pub taken_over: Vec<TakenOver>,
    /// The verdict by scope.
    pub verdicts: Verdicts,
    /// The scopes that were asked.
    asked: Asked,
}

impl Assessment {
    fn of(mut found: Findings, remarks: &Remarks) -> Self {
        let taken_over = declaration::take_over(&mut found, &remarks.declarations);
        let Findings(mut findings) = found;
        cause::sort(&mut findings);
        let asked = remarks.asked;
        let verdicts = Verdicts::of(&findings, &taken_over, asked);
        Self { findings, taken_over, verdicts, asked }
    }

    /// The verdict in all.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        let unmeasured = |finding: &Finding| matches!(finding.fact, Fact::NotMeasured { .. });
        if self.findings.iter().any(unmeasured) {
            // The packers are still to be chosen: a check that fails without them settles nothing.
            Verdict::Incomplete
        } else {
            self.verdicts.whole()
        }
    }

    /// The findings that bear on a scope that was asked, most serious first.
    pub fn that_matter(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| self.asked.concerns(finding.kind()))
    }

    /// Whether a scope fails for a reason that is no matter of how much acts: such a finding has no
    /// utilisation to tell.
    #[must_use]
    pub fn fails_whatever_acts(&self, scope: Scope) -> bool {
        self.on(scope).any(|kind| {
            let loaded = kind.parameters.iter().any(|parameter| parameter.name == "utilisation");
            kind.severity == Severity::Failure && !loaded
        })
    }

    /// Whether everything that decides a scope was run.
    #[must_use]
    pub fn is_complete(&self, scope: Scope) -> bool {
        self.on(scope).all(|kind| kind.severity != Severity::Incomplete)
    }

    fn on(&self, scope: Scope) -> impl Iterator<Item = &'static Kind> {
        self.findings.iter().map(Finding::kind).filter(move |kind| kind.scopes.contains(&scope))
    }
}

/// Assesses a layout, with what its take-off says of it.
#[must_use]
pub fn of_layout(
    job: &Job,
    layout: &Layout,
    take_off: OnSlope<'_>,
    remarks: &Remarks,
) -> Assessment {
    let mut out = Findings::default();
    rails::rails(job, layout, &mut out);
    rails::same_rafters(layout, &mut out);
    crossing::crossing(job, layout, &mut out);
    ends::free_ends(job, layout, &mut out);
    courses::course_lines(job, layout, &mut out);
    kept::kept(job, layout, &mut out);
    fit::fit(job, layout, &mut out);
    members::out_of_reach(job, layout, &mut out);
    splices::splices(job, layout, take_off, &mut out);
    whole_job(job, layout, remarks, &mut out);
    Assessment::of(out, remarks)
}

/// Assesses a job as built, with what else was `noted`.
#[must_use]
pub fn of_built(
    job: &Job,
    built: &Built,
    checked: &Checked,
    remarks: &Remarks,
    noted: &[Finding],
) -> Assessment {
    let mut out = Findings::default();
    built::built(job, built, checked, &mut out);
    fit::fit(job, &checked.layout, &mut out);
    whole_job(job, &checked.layout, remarks, &mut out);
    out.0.extend_from_slice(noted);
    Assessment::of(out, remarks)
}

/// What is looked at alike whether hooks are proposed or built.
fn whole_job(job: &Job, layout: &Layout, remarks: &Remarks, out: &mut Findings) {
    rails::rails_that_meet(job, layout, out);
    courses::short_sides(job, layout, out);
    roll::rolling(job, layout, out);
    along_rails::held(job, layout, out);
    surroundings::surroundings(job, layout, out);
    distances::distances(job, layout, out);
    watertight::watertight(job, out);
    footing::feet(job, out);
    footing::rails_over_tiles(job, layout, out);
    footing::plates(job, layout, out);
    footing::little_left(job, layout, out);
    members::arms(job, layout, out);
    members::bolt(job, layout, out);
    members::tiles(job, layout, out);
    members::modules(job, layout, out);
    members::rafters(job, layout, out);
    details::details(job, layout, out);
    request::from_the_request(remarks, out);
}
