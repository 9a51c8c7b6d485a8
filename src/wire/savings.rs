//! Answer: what one change of a layout would save, and what one hook fewer would mean.

use serde::Serialize;
use utoipa::ToSchema;

use super::remarks::Verdict;
use super::remedies::Edit;
use super::utilisation::JobUtilisation;

/// What would save hooks, or tiles that come off: of a layout that does not fail.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Savings {
    /// How often the job was laid out with a change.
    pub tried: u64,
    /// Whether every try came to its end. False where the steps of the job were spent before.
    pub complete: bool,
    /// One change each that saves something and leaves no more open, those first that save the most hooks, then
    /// the most tiles that come off. Of each kind of change the best. Empty where nothing saves that was tried, and
    /// of a layout that fails: see `remedies`.
    pub changes: Vec<Saving>,
    /// What one hook fewer would mean, for each segment of a rail whose hooks were searched in any pattern.
    pub one_hook_fewer: Vec<OneHookFewer>,
}

/// One change that saves something: the whole job was laid out and judged with it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Saving {
    /// The kind of change.
    #[schema(example = "move_along_eaves")]
    pub change: &'static str,
    /// What is changed, what that saves, and what is to be asked of a maker.
    #[schema(
        example = "Move field A 200 mm to the right: 40 hooks instead of 44, highest utilisation 98.1 % instead of 97.4 %. 88 tiles come off instead of 96."
    )]
    pub message: String,
    /// The same as a JSON Patch (RFC 6902) of the request: the answer to the request so changed has the figures
    /// below.
    pub edits: Vec<Edit>,
    /// Whether a part is needed that the request does not have.
    pub other_part: bool,
    /// Members of the request that are kept as declared and are to be asked of the maker of the other part.
    #[schema(example = json!(["/components/screw/thread_length_mm"]))]
    pub to_ask: Vec<&'static str>,
    /// The verdict with it.
    pub verdict: Verdict,
    /// Hooks without it and with it.
    #[schema(value_type = Vec<u64>, min_items = 2, max_items = 2, example = json!([44, 40]))]
    pub hooks: [u64; 2],
    /// Tiles that come off without it and with it, each counted once.
    #[schema(value_type = Vec<u64>, min_items = 2, max_items = 2, example = json!([96, 88]))]
    pub tiles_lifted: [u64; 2],
    /// Whether its hooks are proven to be the fewest with it.
    pub proven: bool,
    /// What is used most with it.
    pub utilisation: JobUtilisation,
    /// Codes of the warnings that come with it.
    pub new_warnings: Vec<&'static str>,
}

/// What one hook fewer would mean on a segment of a rail.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct OneHookFewer {
    /// Id of the rail.
    #[schema(example = "A1")]
    pub rail: String,
    /// Segment of the rail, counted from 0.
    pub segment: u64,
    /// Hooks it would have.
    pub hooks: u64,
    /// Highest utilisation of the choice of so many hooks that is used least, of all places of the segment. Absent
    /// where so few hold the rail nowhere within its free ends.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = 1.0413)]
    pub utilisation: Option<f64>,
    /// True where every choice was weighed. False: this is the best of those that were, and the best of all may be
    /// used less.
    pub exact: bool,
    /// Check that governs there.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "screws")]
    pub check: Option<String>,
    /// Combination that governs there.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub combination: Option<String>,
    /// The same in a sentence.
    #[schema(example = "A1 with 5 hooks instead of 6: screws 104.2 % at best.")]
    pub message: String,
}
