//! `POST /v1/buildings`: request and answer.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::actions::Actions;
use super::array::{FilledField, ModuleArray, Wishes};
use super::capacity::CapacityAnswer;
use super::components::Components;
use super::declarations::{Declaration, TakenOver};
use super::evidence::EvidenceAnswer;
use super::kinds::BuildingTag;
use super::layout::{
    CoveringAnswer, HookAnswer, JobUtilisation, ModuleAnswer, Optimality, RafterAnswer, RailAnswer,
};
use super::parts::PartsAnswer;
use super::provenance::{Assumption, Engine, TraceLine, WeakestProvenance};
use super::record::Record;
use super::remarks::{Cause, Caution, MissingInput, Verdict, Warning};
use super::remedies::Remedies;
use super::roof::Roof;
use super::scopes::{ScopeName, Verdicts};
use super::short::Completion;
use super::site::{RulesChoice, Site};

/// A job on several slopes of one building: the place, the parts and the wishes once, roof and array of
/// each slope.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct BuildingRequest {
    /// The caller's own name of the job; echoed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 200, example = "orchard-house")]
    pub reference: Option<String>,
    /// Rules to compute by.
    pub rules: RulesChoice,
    /// The place.
    pub site: Site,
    /// The slopes.
    #[schema(min_items = 1, max_items = 12)]
    pub slopes: Vec<SlopeRequest>,
    /// The parts, the same on every slope.
    pub components: Components,
    /// What the caller wants of the layouts, and of their order.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub wishes: Option<Wishes>,
    /// Say how much snow and wind the hooks of each slope bear. Only where it is true: it costs some twenty
    /// times the checks of the job.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = true)]
    pub capacity: Option<bool>,
    /// Whether to try what would lift the failing checks of a slope that fails. Absent: it is tried.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = true)]
    pub remedies: Option<bool>,
    /// What the verdict is asked on; everything where it is left out. `fixing`, `rail`, `covering`
    /// and `data` are always asked. A scope that is not asked reads `not_assessed`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_items = 6, example = json!(["fixing", "rail", "modules", "covering", "data"]))]
    pub scopes: Option<Vec<ScopeName>>,
    /// Checks that cannot run here and that somebody else answers for, on every slope.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub declarations: Vec<Declaration>,
}

/// One slope of a building.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct SlopeRequest {
    /// What of it was completed before it was read: no member of its own.
    #[serde(skip)]
    #[schema(ignore)]
    pub completions: Vec<Completion>,
    /// Name of the slope. Assumed S1, S2 and so on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, min_length = 1, max_length = 16, example = "south")]
    pub id: Option<String>,
    /// The roof as it is on this slope, in the frame of its own eaves: `length_m` runs along them.
    pub roof: Roof,
    /// The array on it. Modules may differ from slope to slope.
    pub array: ModuleArray,
}

/// The layouts of all slopes of a building, with one order.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct BuildingAnswer {
    /// What this is.
    #[schema(inline)]
    pub kind: BuildingTag,
    /// Echo of the request's reference.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub reference: Option<String>,
    /// What computed this.
    pub engine: Engine,
    /// SHA-256 of the request without `capacity`, `remedies` and empty lists in canonical form
    /// (RFC 8785), hexadecimal.
    pub input_digest: String,
    /// Id of the part that the hooks are, as the request names or describes it.
    #[schema(example = "plain-tile-side-hook-12")]
    pub hook_part: String,
    /// The judgement in a word: the worst of the slopes.
    pub verdict: Verdict,
    /// The verdict with the slopes it is of, and its reason, in one sentence.
    #[schema(example = "Fails, on slope S2: A1-3: screws 134.0 % in 7.")]
    pub headline: String,
    /// The verdict by scope, each the worst of the slopes.
    pub verdicts: Verdicts,
    /// Highest utilisation of all slopes.
    pub utilisation: JobUtilisation,
    /// How many hooks on all slopes, and whether fewer could do.
    pub optimality: BuildingOptimality,
    /// What to order for all slopes, how to cut the rails of all of them, what to carry up.
    pub parts: PartsAnswer,
    /// The slopes, in the order of the request.
    pub slopes: Vec<SlopeAnswer>,
    /// What is to be found out, supplied or looked at, as far as it is the same for every slope. The slopes
    /// have the rest.
    pub missing: Vec<MissingInput>,
    /// What was found on every slope alike, one line a cause, most serious first.
    pub causes: Vec<Cause>,
    /// What the reader must know of every slope alike, most serious first. The slopes have the rest.
    pub warnings: Vec<Warning>,
    /// Cautions that go with every answer.
    pub cautions: Vec<Caution>,
    /// What figures of the parts rest on, where their makers say so, with what tests give.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub evidence: Vec<EvidenceAnswer>,
    /// Every value and every choice of model the service made for the caller, as far as it is the same for
    /// every slope. The slopes have the rest.
    pub assumptions: Vec<Assumption>,
    /// The weakest provenance it rests on, where the request marks how its values are known.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub provenance: Option<WeakestProvenance>,
}

/// How many hooks all slopes have, and whether fewer could do.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct BuildingOptimality {
    /// Hooks of all slopes.
    pub hooks: u64,
    /// True when it is proven of every slope that no smaller number passes on any of its rails.
    pub proven: bool,
    /// No layouts with fewer hooks than this can pass, with the fields where they are, these parts and this
    /// pattern.
    pub lower_bound: u64,
}

/// The layout of one slope with its checks: what a layout of this slope by itself says, its rails cut by the
/// plan of the building. Rails, hooks and modules have the names they have there; `path` leads into this
/// answer, `pointer` into the request for the building.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SlopeAnswer {
    /// Name of the slope.
    #[schema(example = "south")]
    pub id: String,
    /// SHA-256 that names the job on this slope, hexadecimal: that of its layout, survey and recheck by
    /// itself.
    pub job_key: String,
    /// The judgement in a word, with what is found on every slope alike.
    pub verdict: Verdict,
    /// The verdict and its reason, in one sentence.
    #[schema(example = "Fails: A1-3: screws 134.0 % in 7.")]
    pub headline: String,
    /// The verdict by scope; the verdict is the worst of those that were asked.
    pub verdicts: Verdicts,
    /// Checks that did not run and that somebody declared to answer for.
    pub declarations: Vec<TakenOver>,
    /// Highest utilisation of the slope.
    pub utilisation: JobUtilisation,
    /// How many hooks, and whether fewer could do.
    pub optimality: Optimality,
    /// How much snow and wind it bears; on request.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub capacity: Option<CapacityAnswer>,
    /// The actions.
    pub actions: Actions,
    /// The covering as computed.
    pub covering: CoveringAnswer,
    /// The rails.
    pub rails: Vec<RailAnswer>,
    /// The hooks, rail by rail from left to right.
    pub hooks: Vec<HookAnswer>,
    /// The rafters that carry hooks.
    pub rafters: Vec<RafterAnswer>,
    /// The modules.
    pub modules: Vec<ModuleAnswer>,
    /// What to keep in order to check the slope again once it is built: a recheck of this slope by itself
    /// takes it.
    pub record: Record,
    /// Fields that were asked to be filled, as they were: given instead, they are the same job.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(required = false)]
    pub fields: Vec<FilledField>,
    /// What would lift the failing checks of a slope that fails, tried on this slope alone. An edit of what
    /// the slopes share changes all of them.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub remedies: Option<Remedies>,
    /// What is to be found out, supplied or looked at on this slope.
    pub missing: Vec<MissingInput>,
    /// What was found on this slope, one line a cause, most serious first.
    pub causes: Vec<Cause>,
    /// What the reader must know of this slope, place by place, most serious first.
    pub warnings: Vec<Warning>,
    /// What figures of its modules rest on, where their maker says so.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub evidence: Vec<EvidenceAnswer>,
    /// Every value the service made for the caller on this slope.
    pub assumptions: Vec<Assumption>,
    /// Every quantity with symbol, value, unit and clause; on request with `?trace=full`.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub trace: Option<Vec<TraceLine>>,
}
