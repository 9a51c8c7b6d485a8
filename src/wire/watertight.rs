//! Request and answer: at what pitch a covering keeps the water out, and what helps it below that.

use crate::wire::enumeration::enumeration;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// A rule pitch somebody states.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct StatedPitch {
    /// The flattest pitch at which the covering by itself is proof against rain, degrees.
    #[schema(minimum = 5, maximum = 75, example = 30.0)]
    pub rule_pitch_deg: f64,
    /// The flattest pitch at which it may be laid at all, whatever lies under it, degrees. Assumed 12° less
    /// than the rule pitch and no less than 10° for tiles, 10° less than the rule pitch for slates.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 5, maximum = 75, example = 18.0)]
    pub least_pitch_deg: Option<f64>,
    /// The document it is taken from, or who says it.
    #[schema(
        min_length = 1,
        max_length = 200,
        example = "rule of the roofers' guild for tiles, table 3"
    )]
    pub source: String,
}

/// A rule pitch the maker of the covering states.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct MakersPitch {
    /// The flattest pitch at which the covering by itself is proof against rain, degrees.
    #[schema(minimum = 5, maximum = 75, example = 25.0)]
    pub rule_pitch_deg: f64,
    /// The flattest pitch at which it may be laid at all, whatever lies under it, degrees. Assumed like that
    /// of the guild.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 5, maximum = 75, example = 15.0)]
    pub least_pitch_deg: Option<f64>,
    /// The document it is taken from.
    #[schema(min_length = 1, max_length = 200, example = "data sheet of the tile, page 2")]
    pub source: String,
    /// The contract in which the maker's pitch is agreed, where it is lower than that of the guild. Left out,
    /// the guild's governs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, min_length = 1, max_length = 200, example = "contract, section 4")]
    pub agreed_in: Option<String>,
}

/// What keeps water out under the covering.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Underlay {
    /// Its class by the German guild's rules, from 1, a watertight sub-roof, to 5, the least; 6 until March
    /// 2024, since then among 5.
    #[schema(minimum = 1, maximum = 6, example = 3)]
    pub class: u32,
    /// Where that is known from.
    #[schema(
        min_length = 1,
        max_length = 200,
        example = "seen where the roof was opened, three places"
    )]
    pub source: String,
}

enumeration! {
    /// How hooks pass through the covering.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum HookPassage {
        /// Through the laps of the tiles, notched or ground where need be.
        Headlap,
        /// Through a part that fits many tiles, and this one roughly.
        UniversalPart,
        /// Through a part made for this tile, laid like it and without work on it.
        SystemPart,
    }
}

/// At what pitch the covering keeps the water out by itself, and at what it may be laid at all.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RulePitchAnswer {
    /// The rule pitch that governs, degrees.
    pub rule_pitch_deg: f64,
    /// The least pitch that governs, degrees.
    pub least_pitch_deg: f64,
    /// Whose rule pitch it is.
    pub by: RulePitchBy,
    /// The document, as the caller names it, or what the assumed value rests on.
    pub source: String,
    /// The contract that agrees the maker's pitch, as the caller names it, where that decides.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub agreed_in: Option<String>,
    /// Class of the underlay that is asked for, where the roof is flatter than the rule pitch and no flatter
    /// than the least.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub underlay_class_needed: Option<u32>,
    /// Class of the underlay there is, where it is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub underlay_class: Option<u32>,
    /// Where that is known from, as the caller says.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub underlay_source: Option<String>,
}

enumeration! {
    /// Whose rule pitch it is.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RulePitchBy {
        /// That of the trade's rules.
        Guild,
        /// That of the maker.
        Maker,
        /// Assumed: common practice for such coverings.
        CommonPractice,
    }
}
