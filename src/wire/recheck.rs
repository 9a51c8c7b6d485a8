//! `POST /v1/rechecks`: request and answer.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::actions::Actions;
use super::array::{ModuleArray, Wishes};
use super::built::Built;
use super::capacity::{CapacityAnswer, Event, EventAnswer};
use super::components::Components;
use super::declarations::{Declaration, TakenOver};
use super::evidence::EvidenceAnswer;
use super::kinds::RecheckTag;
use super::layout::{
    CoveringAnswer, HookAnswer, JobUtilisation, ModuleAnswer, RafterAnswer, RailAnswer, TileWork,
};
use super::provenance::{Assumption, Engine, TraceLine, WeakestProvenance};
use super::record::Recorded;
use super::remarks::{Cause, Caution, MissingInput, Verdict, Warning};
use super::roof::Roof;
use super::scopes::{ScopeName, Verdicts};
use super::site::{RulesChoice, Site};
use crate::wire::enumeration::enumeration;
use crate::wire::envelope::{job_answer, job_request};

job_request! {
    /// A built job: the same parts as a layout, and where its rails and hooks are.
    #[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
    #[serde(deny_unknown_fields)]
    pub struct RecheckRequest {
        /// Limits of utilisation and clearance to hold the job to; `objective` has nothing to say here.
        wishes,
        asks {
            /// Say how much snow and wind the hooks bear. Only where it is true: it costs some twenty times the
            /// checks of the job.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false, example = true)]
            pub capacity: Option<bool>,
            /// What was observed, to be judged in the place of the actions of the site. It says nothing of how
            /// much more the job would bear, so it has no place beside `capacity`.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub event: Option<Event>,
        }
        holds {
            /// Rails and hooks as they are.
            pub built: Built,
            /// What an earlier answer said, to be compared with.
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub recorded: Option<Recorded>,
        }
    }
}

job_answer! {
    /// A built job with its checks.
    #[derive(Debug, Clone, Serialize, ToSchema)]
    pub struct RecheckAnswer {
        is {
            // As part of a survey it leaves this for the whole to say.
            /// What this is.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(inline, required = true, nullable = false)]
            pub kind: Option<RecheckTag>,
        }
        /// SHA-256 of the request without `recorded`, `capacity` and empty lists in canonical form
        /// (RFC 8785), hexadecimal: the same job keeps its digest whatever it is compared with.
        input_digest,
        /// The judgement in a word; never better than what it rests on.
        verdict,
        tells {
            /// How this answer differs from the record, when one is given.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub difference: Option<Difference>,
            /// What would make it hold, where it does not.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub suggestion: Option<Suggestion>,
            /// Where hooks are not as planned, hook by hook. Absent where all are.
            #[serde(skip_serializing_if = "Vec::is_empty")]
            #[schema(required = false)]
            pub departures: Vec<Departure>,
            /// What is to be found out or measured before the job can be said to hold.
            pub missing: Vec<MissingInput>,
            /// Whether the observed event was within the resistances, where the request has one. Verdict, checks
            /// and actions are then those of the event, and nothing is suggested.
            #[serde(skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false)]
            pub event: Option<EventAnswer>,
        }
        /// The hooks that carry, rail by rail from left to right or upwards; `warnings` name those that do not.
        hooks,
        orders {}
    }
}

/// A quantity at a hook that is not as planned: as the request draws the roof, with its screws.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Departure {
    /// The hook.
    #[schema(example = "A1-2")]
    pub hook: String,
    /// The quantity.
    pub quantity: DepartingQuantity,
    /// As planned, mm.
    #[schema(example = 2400.0)]
    pub planned_mm: f64,
    /// As found, mm.
    #[schema(example = 2431.0)]
    pub found_mm: f64,
    /// Found less planned, mm.
    #[schema(example = 31.0)]
    pub by_mm: f64,
}

enumeration! {
    /// A quantity that can depart from the plan.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum DepartingQuantity {
        /// Axis of the rafter under the hook, from the left end of the eaves line.
        RafterX,
        /// Width of that rafter.
        RafterWidth,
        /// Thickness of the counter-batten.
        CounterBatten,
        /// Length of the screws.
        ScrewLength,
        /// Clearance between arm and tile below before load, where it was measured; planned is what the packers
        /// in place would leave on the roof as drawn.
        Clearance,
    }
}

/// How an answer differs from a record; what the record does not say is not compared.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Difference {
    /// Highest utilisation of the record.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub recorded_max_utilisation: Option<f64>,
    /// Highest utilisation now.
    pub max_utilisation: f64,
    /// Now less then; positive is more used.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub change: Option<f64>,
    /// Verdict of the record.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub recorded_verdict: Option<Verdict>,
    /// The verdict is another.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub verdict_changed: Option<bool>,
    /// Another revision of the rules was used.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rules_changed: Option<bool>,
    /// Another version of the service was used.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub engine_changed: Option<bool>,
    /// Other mechanics were used.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub model_changed: Option<bool>,
    /// The job itself is not the one of the record.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub input_changed: Option<bool>,
    /// What may have made the difference, as far as the record tells: every cause that is known to lie
    /// between it and this answer, whether or not this job feels it. What the record is silent on is
    /// not among them.
    pub causes: Vec<DifferenceCause>,
}

enumeration! {
    /// What may have made an answer differ from a record.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum DifferenceCause {
        /// The job itself is another.
        Input,
        /// The values of the annex are of another revision.
        AnnexValues,
        /// Coefficients of the wind on fixings are read at 1 m², or at the area the job states.
        LoadedArea,
        /// The wind acts on each part of a module in the zone it lies in, at the centroid of the part.
        WindPatches,
        /// Slope forces act above the bolts, and their couple on the two rails counts.
        LoadHeight,
        /// Snow drifts against walls, into valleys, around obstacles and over eaves.
        SnowDrifts,
        /// The edge of a foot bears on a strip of timber and not on a line.
        FootBearing,
        /// Only thread inside the rafter holds.
        ThreadInRafter,
        /// The height of the bolt in its slot lengthens the lever of the foot.
        SlotSetting,
        /// The arm of a hook is a bar with a resistance and springs of its own.
        ArmAsBar,
        /// Wind is combined without the snow it was combined with, where snow helps, and lifting wind with
        /// the full weight.
        WindWithoutSnow,
        /// A hook whose stiffness is not declared gives by its foot as well as by its arm.
        FootTurns,
        /// The clearance of an arm is taken where it is least, at its lower end where it runs level.
        LeastClearance,
        /// A rail whose axis is not stated lies beside its hook, not on its bolt, and one that bears on the arm
        /// beside its axis loads the foot on either side.
        RailBesideHook,
        /// The underside of a rail must not touch the tile below.
        RailOverTile,
        /// The wind on the covering beside the array ends where a slope that is no rectangle does.
        WindWithinOutline,
        /// A module whose edge lies at the very end of a rail is carried by it, which rounding could undo.
        ModulesAtRailEnds,
        /// Something is asked for now that the record did without: it had a verdict that this answer leaves
        /// open. `missing` says what.
        DataAskedFor,
    }
}

/// What would make the job hold: feet set anew where that suffices, hooks added elsewhere. Every hook stays
/// where it stands, except those on rotten rafters, which come off.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Suggestion {
    /// Hooks to take off, because their rafters are rotten.
    pub take_off: Vec<String>,
    /// Hooks whose foot is to be set anew, with other packers or longer screws.
    pub refit: Vec<RefittedFoot>,
    /// Hooks to add, set as a layout would set them.
    pub add: Vec<AddedHook>,
    /// What was found for each part of a rail that does not hold.
    pub segments: Vec<SegmentRepair>,
    /// Parts it takes beside those built in, and parts it leaves over.
    pub parts: RepairParts,
    /// Verdict of the whole job with all of it.
    pub verdict: Verdict,
    /// Highest utilisation of the whole job with all of it.
    pub max_utilisation: f64,
}

/// A foot to set anew.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RefittedFoot {
    /// The hook.
    #[schema(example = "A1-1")]
    pub hook: String,
    /// Packers for under the foot, mm: the lowest stack that clears the tile.
    pub packers_mm: Vec<f64>,
    /// Length of the screws, mm: as they are, or the shortest usual one that holds.
    pub screw_length_mm: f64,
}

/// A hook to add.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct AddedHook {
    /// Rail.
    #[schema(example = "A1")]
    pub rail: String,
    /// Rafter, counted from 0 at the left.
    pub rafter: u64,
    /// Its axis, mm.
    pub x_mm: f64,
    /// Height of its bolt above the eaves line, where its rail runs up the slope, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub y_mm: Option<f64>,
    /// Packers for under the foot, mm.
    pub packers_mm: Vec<f64>,
    /// What is to be done to the tiles.
    pub tiles: TileWork,
}

/// What a repair changes in the parts that are built in, without spares. Screws that come out are not
/// counted as left over: they are not driven a second time (common practice, no source).
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RepairParts {
    /// Hooks.
    pub hooks: PartsChange,
    /// Bolts with nuts between hook and rail.
    pub bolt_sets: PartsChange,
    /// Metal tiles.
    pub substitute_tiles: PartsChange,
    /// Tiles of the covering to be laid again where metal ones come off.
    pub covering_tiles: u64,
    /// Screws by length, shortest first.
    pub screws: Vec<ScrewsNeeded>,
    /// Packers by thickness, thickest first.
    pub packers: Vec<PackersChange>,
}

/// Parts that a repair takes and leaves over.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct PartsChange {
    /// Built in by it.
    pub needed: u64,
    /// Taken out by it, to be used again.
    pub freed: u64,
}

impl PartsChange {
    /// Whether anything changes.
    #[must_use]
    pub const fn is_any(self) -> bool {
        self.needed > 0 || self.freed > 0
    }
}

/// Screws of one length that a repair takes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct ScrewsNeeded {
    /// Length, mm.
    pub length_mm: f64,
    /// Driven by it.
    pub needed: u64,
}

/// Packers of one thickness that a repair takes and leaves over.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, ToSchema)]
pub struct PackersChange {
    /// Thickness, mm.
    pub thickness_mm: f64,
    /// Built in by it.
    pub needed: u64,
    /// Taken out by it, to be used again.
    pub freed: u64,
}

/// What hooks added can do for one part of a rail.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SegmentRepair {
    /// Id of the rail.
    pub rail: String,
    /// Segment of the rail, counted from 0.
    pub segment: u64,
    /// How the search ended.
    pub outcome: RepairOutcome,
    /// Rafters without a hook of this rail that could take one; of a rail along the eaves.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub free_rafters: Option<u64>,
    /// Courses without a hook of this rail that could take one; of a rail up the slope.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub free_courses: Option<u64>,
    /// Hooks to add.
    pub add: u64,
    /// Why none helps, and what would.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub reason: Option<String>,
}

enumeration! {
    /// How the search for a repair ended.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RepairOutcome {
        /// It holds once feet are set anew; no hook is to be added.
        FeetSuffice,
        /// The fewest that make it hold, proven, for the rails and hooks that stand and these parts.
        FewestProven,
        /// These make it hold; fewer may.
        BestFound,
        /// It does not hold with a hook on every free rafter or course, nor on any choice of them.
        NoneHelps,
        /// None found among the choices weighed.
        NoneFound,
    }
}
