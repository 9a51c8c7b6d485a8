//! `POST /v1/surveys`: request and answer.

use std::borrow::Cow;

use serde::{Deserialize, Serialize};
use utoipa::openapi::{ArrayBuilder, Ref, RefOr, Schema};
use utoipa::{PartialSchema, ToSchema};

use super::array::{ModuleArray, Wishes};
use super::built::{Built, RafterCondition};
use super::components::Components;
use super::declarations::Declaration;
use super::kinds::SurveyTag;
use super::provenance::ReadingProvenance;
use super::recheck::RecheckAnswer;
use super::record::Record;
use super::roof::Roof;
use super::scopes::ScopeName;
use super::site::{RulesChoice, Site};
use crate::wire::enumeration::enumeration;
use crate::wire::envelope::job_request;

job_request! {
    /// A job whose hooks stand or are about to, and what was measured along one of its rails or along any of them.
    #[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
    #[serde(deny_unknown_fields)]
    pub struct SurveyRequest {
        /// Limits of utilisation and clearance to hold the job to; `objective` has nothing to say here.
        wishes,
        asks {}
        holds {
            /// Rails and hooks as they are. What was found earlier, at other rails, belongs to their hooks.
            pub built: Built,
            /// What was measured; it goes before what `built` says of the same hooks.
            pub measured: Measured,
        }
    }
}

/// What was measured, along one rail or at hooks of any.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// The rail, by its name in `built`, if it is one. Absent: every rail at whose hooks something was measured, so
    /// that a field can be surveyed in pieces and in any order.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, min_length = 1, max_length = 64, example = "A1")]
    pub rail: Option<String>,
    /// Hooks, in any order. A hook that is left out on a rail that is surveyed is named as missing. None, without a
    /// rail: nothing was measured yet.
    #[schema(max_items = 10_000)]
    pub hooks: Vec<MeasuredHook>,
}

/// What was measured at one hook. What is left out is as `built` or the drawing has it; without
/// clearance and level nothing can be chosen for the rail, and they are named as missing.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct MeasuredHook {
    /// Name of the hook in `built`.
    #[schema(min_length = 1, max_length = 64, example = "A1-2")]
    pub id: String,
    /// Axis of the rafter the foot is screwed to, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -200_000, maximum = 200_000, example = 2431.0)]
    pub rafter_x_mm: Option<f64>,
    /// Width of that rafter, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 20, maximum = 400, example = 80.0)]
    pub rafter_width_mm: Option<f64>,
    /// How the timber of that rafter was found. The worst that was found at any hook holds for the whole rafter:
    /// one that is split or rotten takes no other hook, and hooks on a rotten one count as carrying nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_condition: Option<RafterCondition>,
    /// Thickness of the counter-batten there, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 200, example = 24.0)]
    pub counter_batten_mm: Option<f64>,
    /// Length of the screws that are there, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 20, maximum = 1000, example = 160.0)]
    pub screw_length_mm: Option<f64>,
    /// Clearance between arm and tile below, unloaded and with the packers of `built` in place, mm. It is
    /// measured where it is least, mostly at the lower end of the arm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -100, maximum = 200, example = 6.0)]
    pub clearance_mm: Option<f64>,
    /// How far the face the packers lie on stands out above a taut string along the rail, square to
    /// the roof; negative below it, mm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -500, maximum = 500, example = 4.5)]
    pub level_mm: Option<f64>,
    /// Room between arm and tile above with the packers of `built` in place, mm. Where it is given,
    /// the packers chosen leave `wishes.min_room_above_mm` of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = -100, maximum = 200, example = 9.0)]
    pub room_above_mm: Option<f64>,
    /// From the arm's axis to the nearest side joint of the course it leaves under, mm. It takes the
    /// place of the one that follows from the drawing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1000, example = 12.0)]
    pub side_joint_mm: Option<f64>,
    /// How these readings are known. Nothing is said in the answer of what is not marked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub provenance: Option<ReadingProvenance>,
}

/// Packers and slots for the rails that were surveyed, and the whole job rechecked with them.
#[derive(Debug, Clone, Serialize)]
pub struct SurveyAnswer {
    /// What this is.
    pub kind: SurveyTag,
    /// What to do along each rail that was surveyed, in the order of `built.rails`.
    pub surveyed: Vec<Levelling>,
    /// What is still to be measured, rail by rail: first rails that were begun, those with the fewest readings left
    /// at the head, then the others, those whose arms come nearest to the tile under load at the head.
    pub to_measure: Vec<RailToMeasure>,
    /// What to keep in order to check the job again: rails and hooks with what was measured and chosen.
    pub record: Record,
    /// The job rechecked with what was measured and, where they could be chosen, the new packers.
    /// While measurements are missing its verdict is `incomplete`, whatever `warnings` say of the
    /// packers in place.
    #[serde(flatten)]
    pub recheck: RecheckAnswer,
}

/// The members of a recheck and two of its own, in one object: a schema put together of others is what
/// generators of clients understand least.
impl PartialSchema for SurveyAnswer {
    fn schema() -> RefOr<Schema> {
        let (RefOr::T(Schema::Object(mut object)), RefOr::T(Schema::Object(mut kind))) =
            (RecheckAnswer::schema(), SurveyTag::schema())
        else {
            return RecheckAnswer::schema();
        };
        object.description = Some(
            "Packers and slots for the rails that were surveyed, and the whole job rechecked with them."
                .to_owned(),
        );
        let list = |of: &str, about: &str| {
            ArrayBuilder::new().items(Ref::from_schema_name(of)).description(Some(about)).build()
        };
        let surveyed = list(
            "Levelling",
            "What to do along each rail that was surveyed, in the order of `built.rails`.",
        );
        let to_measure = list(
            "RailToMeasure",
            "What is still to be measured, rail by rail: first rails that were begun, those with the fewest readings left at the head, then the others, those whose arms come nearest to the tile under load at the head.",
        );
        kind.description = Some("What this is.".to_owned());
        object.properties.insert("kind".to_owned(), Schema::Object(kind).into());
        object.properties.insert("surveyed".to_owned(), surveyed.into());
        object.properties.insert("to_measure".to_owned(), to_measure.into());
        let mut record = Ref::from_schema_name("Record");
        "What to keep in order to check the job again: rails and hooks with what was measured and chosen."
            .clone_into(&mut record.description);
        object.properties.insert("record".to_owned(), record.into());
        object.required.extend(["surveyed", "to_measure", "record"].map(str::to_owned));
        RefOr::T(Schema::Object(object))
    }
}

impl ToSchema for SurveyAnswer {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed("SurveyAnswer")
    }

    fn schemas(schemas: &mut Vec<(String, RefOr<Schema>)>) {
        schemas.push((Levelling::name().into_owned(), Levelling::schema()));
        Levelling::schemas(schemas);
        schemas.push((RailToMeasure::name().into_owned(), RailToMeasure::schema()));
        RailToMeasure::schemas(schemas);
        schemas.push((Record::name().into_owned(), Record::schema()));
        Record::schemas(schemas);
        RecheckAnswer::schemas(schemas);
    }
}

/// What to do along one rail.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Levelling {
    /// The rail.
    #[schema(example = "A1")]
    pub rail: String,
    /// How the choice ended.
    pub outcome: LevellingOutcome,
    /// The line the rail will lie on; only where packers and slots could be chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub line: Option<RailLine>,
    /// Whether the tiles over its hooks may be closed once packers, slots and screws are as said here: the rail is
    /// levelled, and nothing that was found of it or of all rails fails or was left open on hooks, rails, rafters or
    /// covering.
    pub may_close: bool,
    /// Hook by hook from left to right or upwards; empty where packers and slots could not be chosen.
    pub hooks: Vec<HookSetting>,
    /// Why packers and slots could not be chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub obstruction: Option<Obstruction>,
}

enumeration! {
    /// How the choice of packers and slots ended.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum LevellingOutcome {
        /// The rail comes out straight, with clearance enough at every hook.
        Levelled,
        /// No packers and slots bring it out straight with clearance enough.
        Impossible,
        /// The search limit ended the search before it found any.
        Undecided,
        /// Measurements are missing; see `missing`.
        Incomplete,
    }
}

/// What is still to be measured along one rail.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RailToMeasure {
    /// The rail.
    #[schema(example = "A2")]
    pub rail: String,
    /// Whether something was measured along it already.
    pub begun: bool,
    /// Hook by hook from left to right or upwards.
    pub hooks: Vec<HookToMeasure>,
}

/// What is still to be measured at one hook.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct HookToMeasure {
    /// The hook.
    #[schema(example = "A2-1")]
    pub id: String,
    /// The readings.
    pub measure: Vec<NeededReading>,
}

enumeration! {
    /// A reading without which packers cannot be chosen.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum NeededReading {
        /// Clearance under its arm, `clearance_mm`.
        ClearanceMm,
        /// How far its bearing face stands out above the string, `level_mm`.
        LevelMm,
    }
}

/// The straight line a rail will lie on.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RailLine {
    /// Sum of all packers, mm: no other choice needs less.
    pub packing_mm: f64,
    /// Pieces of packing: with the same sum no other choice needs fewer.
    pub pieces: u64,
    /// Sum of the distances of all bolts from the middle of their slots, mm.
    pub slots_off_middle_mm: f64,
    /// How much higher the rail comes to lie over the string at its last hook than at its first, mm.
    pub rise_mm: f64,
    /// True when it is proven that no choice is better.
    pub proven: bool,
    /// No choice needs less packing than this, mm.
    pub packing_bound_mm: f64,
}

/// What to do at one hook.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct HookSetting {
    /// The hook.
    #[schema(example = "A1-1")]
    pub id: String,
    /// Axis of its rafter, mm.
    pub x_mm: f64,
    /// Height of its bolt above the eaves line, where its rail runs up the slope, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub y_mm: Option<f64>,
    /// Packers for under its foot, thickest first, mm.
    pub packers_mm: Vec<f64>,
    /// Their sum, mm.
    pub packed_mm: f64,
    /// What the packers are for.
    pub packed_for: PackedFor,
    /// The bolt in its slot, from the end nearer to the roof, mm.
    pub slot_mm: f64,
    /// The same from the middle of the slot, positive away from the roof, mm.
    pub slot_from_middle_mm: f64,
    /// Clearance between arm and tile below that remains before load, mm.
    pub clearance_mm: f64,
    /// How far the characteristic load moves the arm towards the tile; absent when the hook's
    /// stiffness is not known, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub deflection_mm: Option<f64>,
    /// Clearance that remains under the characteristic load, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clearance_under_load_mm: Option<f64>,
    /// Room that remains between arm and tile above, where it was measured, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub room_above_mm: Option<f64>,
}

enumeration! {
    /// What packers are for.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum PackedFor {
        /// There are none.
        Nothing,
        /// The arm needs them to stand clear of the tile.
        Clearance,
        /// The rail needs them to lie straight; the arm would stand clear without, or with less.
        Level,
    }
}

/// Why packers and slots could not be chosen.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Obstruction {
    /// The reason in a word.
    pub kind: ObstructionKind,
    /// The reason in a sentence.
    pub message: String,
    /// Hooks that stand out too far, or that have no stack, or that cannot be lined up.
    pub hooks: Vec<String>,
    /// Hooks that lie too low for the others, where the rail would have to bend.
    pub low_hooks: Vec<String>,
    /// By how much: what the highest stack lacks, or what the slots lack; 0 where no single figure
    /// says it, mm.
    pub by_mm: f64,
    /// Each of these makes it possible by itself.
    pub remedies: Vec<Remedy>,
}

enumeration! {
    /// Why packers and slots could not be chosen, in a word.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ObstructionKind {
        /// At some hooks no stack gives enough clearance and leaves enough room above.
        NoStack,
        /// No straight line passes through the slots of some hooks.
        NotStraight,
        /// The slots are shorter than the steps between stacks.
        SlotShorterThanSteps,
    }
}

/// A change that makes a straight rail possible.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Remedy {
    /// What to change.
    pub kind: RemedyKind,
    /// Hook to do it at, where it is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub hook: Option<String>,
    /// By how much at least; for stacks, up to what height, mm.
    pub mm: f64,
    /// The change in a sentence.
    pub message: String,
}

enumeration! {
    /// What to change.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RemedyKind {
        /// Hooks with longer slots.
        LongerSlot,
        /// Higher stacks, with screws to suit.
        HigherStack,
        /// Timber planed off under one foot.
        LowerFace,
    }
}
