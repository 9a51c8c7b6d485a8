//! Where an answer comes from: what computed it, what it assumed, how what it was told is known, and the
//! clause of every quantity.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::remarks::Plain;
use crate::wire::enumeration::enumeration;

/// What computed an answer.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
pub struct Engine {
    /// Version of this service.
    pub version: String,
    /// Number of the mechanics: where it is the same, so are the figures, save for the values of an annex.
    #[schema(example = 2)]
    pub model: u32,
    /// Rule set.
    pub rules: EngineRules,
}

/// Rule set of an answer.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
pub struct EngineRules {
    /// Family and annex.
    #[schema(example = "eurocode/DE")]
    pub id: String,
    /// Revision, to pin in a later request.
    #[schema(example = "DE-1")]
    pub revision: String,
}

/// A value or a choice of model the service made for the caller.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Assumption {
    /// Stable code.
    #[schema(example = "wishes.min-clearance")]
    pub code: &'static str,
    /// Pointer into the request where the caller could have said otherwise; `""` for a choice of model.
    pub pointer: String,
    /// The value, a number, a text or true or false: what the request would have at `pointer`, where that
    /// member is a single value. Absent where what is assumed is more than one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, value_type = Option<Value>, example = 5.0)]
    pub value: Option<Plain>,
    /// Its unit, where it has one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "mm")]
    pub unit: Option<&'static str>,
    /// What was assumed, for people.
    #[schema(example = "5 mm")]
    pub said: String,
    /// Why.
    pub why: String,
}

/// One quantity of the calculation.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct TraceLine {
    /// Element it belongs to, or `""`. What a check makes of it stands under element, combination and
    /// check: `A1-3/uls:G+S/hook`, for the combination that governs that check.
    pub element: String,
    /// What it is, for people.
    pub quantity: String,
    /// Symbol.
    pub symbol: String,
    /// Value.
    pub value: f64,
    /// Unit, empty for a pure number.
    pub unit: &'static str,
    /// Clause.
    pub clause: String,
}

enumeration! {
    /// How a value of the request is known; the weakest comes last.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Provenance {
        /// Measured or seen on the roof.
        Measured,
        /// Worked out of something else: photographs, drawings, the same house next door.
        Inferred,
        /// Taken for granted.
        Assumed,
    }
}

/// How what is said of the roof is known.
#[derive(Debug, Clone, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct RoofProvenance {
    /// The outline of the slope.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub outline: Option<Provenance>,
    /// The pitch.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub pitch: Option<Provenance>,
    /// The height of the ridge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub ridge_height: Option<Provenance>,
    /// Where the rafters lie.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_positions: Option<Provenance>,
    /// Their breadth.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_width: Option<Provenance>,
    /// Their depth.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_depth: Option<Provenance>,
    /// Their span, where it is given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_span: Option<Provenance>,
    /// Their strength class.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub strength_class: Option<Provenance>,
    /// The layers between rafter and battens, the counter-batten among them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub layers: Option<Provenance>,
    /// Size and laying of the tiles, and their battens.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub covering: Option<Provenance>,
}

/// How what was found at a built hook is known. Only what is given can be marked.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct FoundProvenance {
    /// `rafter_x_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_x: Option<Provenance>,
    /// `rafter_width_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_width: Option<Provenance>,
    /// `counter_batten_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub counter_batten: Option<Provenance>,
    /// `clearance_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clearance: Option<Provenance>,
    /// `side_joint_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub side_joint: Option<Provenance>,
    /// `slot_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub slot: Option<Provenance>,
    /// `screw_length_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub screw_length: Option<Provenance>,
}

/// How the readings of a survey at one hook are known. Only what is given can be marked.
#[derive(Debug, Clone, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ReadingProvenance {
    /// `rafter_x_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_x: Option<Provenance>,
    /// `rafter_width_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafter_width: Option<Provenance>,
    /// `counter_batten_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub counter_batten: Option<Provenance>,
    /// `screw_length_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub screw_length: Option<Provenance>,
    /// `clearance_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clearance: Option<Provenance>,
    /// `level_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub level: Option<Provenance>,
    /// `room_above_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub room_above: Option<Provenance>,
    /// `side_joint_mm`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub side_joint: Option<Provenance>,
}

/// The weakest provenance an answer rests on, among the values that are marked.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WeakestProvenance {
    /// How weak it is.
    pub weakest: Provenance,
    /// Pointers into the request, to every value that is known no better.
    #[schema(example = json!(["/roof/rafters/positions_mm"]))]
    pub values: Vec<String>,
}
