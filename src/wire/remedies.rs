//! Answer: what would lift the failing checks of a layout.

use serde::Serialize;
use utoipa::ToSchema;

use super::array::{ModuleField, Objective, Wishes};
use super::components::{Clamp, Hook, Packers, Rail, Screw};
use super::declarations::Declaration;
use super::evidence::Evidence;
use super::remarks::Verdict;
use crate::wire::enumeration::enumeration;

/// Changes that lift failing checks, each of them tried: the whole job was laid out and judged with it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Remedies {
    /// How often the job was laid out with a change, or with several.
    pub tried: u64,
    /// Whether every try came to its end. False where the steps of the job were spent before.
    pub complete: bool,
    /// Those that help, best first: what leaves less failing; then what takes no other part, or fewer;
    /// then fewer changes; then fewer hooks. Of each kind of change the best. Empty where nothing
    /// helps that was tried.
    pub helping: Vec<LayoutRemedy>,
}

/// A change, or several made together, that lifts failing checks.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct LayoutRemedy {
    /// The kinds of change.
    #[schema(example = json!(["screw_length"]))]
    pub changes: Vec<&'static str>,
    /// What is changed, what that leaves, and what is to be asked of a maker.
    #[schema(
        example = "Take screws 180 mm long instead of 140 mm: 6 hooks instead of 17, highest utilisation 93.1 % instead of 140.2 %. Nothing fails any more."
    )]
    pub message: String,
    /// The same as a JSON Patch (RFC 6902) of the request: the answer to the request so changed has the
    /// figures below.
    pub edits: Vec<Edit>,
    /// Whether a part is needed that the request does not have.
    pub other_part: bool,
    /// Members of the request that are kept as declared, or put at a safe value, and are to be asked of
    /// the maker of the other part.
    #[schema(example = json!(["/components/screw/thread_length_mm"]))]
    pub to_ask: Vec<&'static str>,
    /// The verdict with it.
    pub verdict: Verdict,
    /// Hooks without it and with it.
    #[schema(value_type = Vec<u64>, min_items = 2, max_items = 2, example = json!([17, 6]))]
    pub hooks: [u64; 2],
    /// Highest utilisation without it and with it.
    #[schema(value_type = Vec<f64>, min_items = 2, max_items = 2, example = json!([1.4012, 0.9307]))]
    pub max_utilisation: [f64; 2],
    /// Codes of the causes it lifts.
    #[schema(example = json!(["screw.overloaded"]))]
    pub lifts: Vec<&'static str>,
    /// Codes of the causes that still fail.
    pub still_failing: Vec<&'static str>,
    /// Codes of what is not verified with it and was, or had nothing to be verified: such as rafters
    /// that now carry hooks.
    pub new_incomplete: Vec<&'static str>,
    /// Codes of the warnings that come with it.
    pub new_warnings: Vec<&'static str>,
}

/// An operation of a JSON Patch.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Edit {
    /// The operation.
    pub op: EditOperation,
    /// Pointer into the request (RFC 6901).
    #[schema(example = "/components/screw/length_mm")]
    pub path: String,
    /// What comes there: any value (RFC 6902), as the request takes it at `path`.
    #[schema(value_type = Value)]
    pub value: EditValue,
}

enumeration! {
    /// An operation of a JSON Patch.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum EditOperation {
        /// Puts a value into a member, in the place of what is there.
        Add,
    }
}

/// A value that comes into a request.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum EditValue {
    /// A number.
    Number(f64),
    /// A whole number.
    Count(u64),
    /// Several numbers.
    Numbers(Vec<f64>),
    /// All fields, where some were to be filled.
    Fields(Vec<ModuleField>),
    /// An aim.
    Objective(Objective),
    /// All wishes, where there were none.
    Wishes(Box<Wishes>),
    /// The id of an embedded part.
    Id(String),
    /// A hook in full, where an embedded one was named.
    Hook(Box<Hook>),
    /// A screw in full.
    Screw(Box<Screw>),
    /// A rail in full.
    Rail(Box<Rail>),
    /// A clamp in full.
    Clamp(Box<Clamp>),
    /// Packers in full.
    Packers(Box<Packers>),
    /// What the figures of a part rest on, without those that are now another part's.
    Evidence(Vec<Evidence>),
    /// What is declared, without what is declared of other parts.
    Declarations(Vec<Declaration>),
}
