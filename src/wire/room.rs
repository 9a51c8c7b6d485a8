//! `room_to_move` of a layout: what is asked and what is answered.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::utilisation::JobUtilisation;
use crate::wire::enumeration::enumeration;

/// That the room of every hook is asked for, and whether the layout bears rafters that are off.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct RoomWanted {
    /// How far every rafter may be off, each to its own side, mm. Absent: that is not asked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 100, example = 20.0)]
    pub tolerance_mm: Option<f64>,
}

/// How far hooks may stand from where they are set out, of a layout that does not fail.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RoomToMove {
    /// Whether all that was asked was looked at. False where the steps of the job were spent before.
    pub complete: bool,
    /// The room of every hook, rail by rail. Empty of a layout that fails.
    pub hooks: Vec<HookRoom>,
    /// Whether the layout bears rafters that are off by the tolerance, where that was asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rafters_off: Option<RaftersOffAnswer>,
}

/// The stretch along its rail in which one hook may stand, all others where they are set out, with every check
/// passed. A hook is tried every 5 mm and, from the last of these that passes, every millimetre; nothing is
/// tried more than 100 mm away. Its rafter is taken to lie where the hook is tried, and the arm where it would then
/// leave the covering; what the rafters themselves bear is among the checks where their span is given.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct HookRoom {
    /// The hook.
    #[schema(example = "A1-2")]
    pub hook: String,
    /// To the left.
    pub left: RoomWay,
    /// To the right.
    pub right: RoomWay,
}

/// How far a hook may go one way.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RoomWay {
    /// From where it is set out, mm.
    #[schema(example = 35.0)]
    pub by_mm: f64,
    /// The axis of its rafter there, from the left end of the eaves line, mm.
    #[schema(example = 1265.0)]
    pub at_mm: f64,
    /// Why no further.
    pub stop: RoomStop,
    /// The check that does not pass beyond, where it is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "screws")]
    pub check: Option<String>,
}

enumeration! {
    /// Why a hook may go no further.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RoomStop {
        /// A check does not pass.
        Check,
        /// A foot tends to tip sideways, and what would hold it bears no more.
        Tipping,
        /// With the arm farther off the axis a screw stands too near to the edge of the rafter.
        ScrewEdge,
        /// No trough of the covering is within the lateral range of the foot.
        NoTrough,
        /// The rail ends.
        RailEnd,
        /// A free end of the rail would be too long.
        FreeEnd,
        /// The next hook stands there.
        NextHook,
        /// It was tried no further.
        NotTried,
    }
}

/// What rafters come to that are all off by the tolerance, each to its own side.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RaftersOffAnswer {
    /// The tolerance, mm.
    #[schema(example = 20.0)]
    pub tolerance_mm: f64,
    /// False where something was found that does not pass, true where all that was to be tried passes. Absent
    /// where the steps of the job were spent before either.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub passes: Option<bool>,
    /// Whether every choice of sides was tried on every rail. False: the worst of all may be worse than what was
    /// found, which is the worst of choices that load a hook, a rail or a rafter most as a rule.
    pub every_choice: bool,
    /// Choices of sides that were tried, rail by rail.
    pub tried: u64,
    /// The highest utilisation that was found.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub worst: Option<JobUtilisation>,
    /// A rail whose hooks cannot stand so, or tip sideways.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rail: Option<String>,
    /// Which of both, or why they cannot.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub stop: Option<RoomStop>,
    /// The same in a sentence.
    #[schema(
        example = "Rafters 20 mm off, each to its own side: highest utilisation 98.1 % (A1-2, screws). Every choice of sides was tried."
    )]
    pub message: String,
}
