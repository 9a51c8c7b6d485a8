//! Answers of the catalogues: embedded parts, warnings, rules.

use serde::Serialize;
use utoipa::ToSchema;

use super::array::Module;
use super::components::{Clamp, Hook, Packers, Rail, Screw};
use super::declarations::Act;
use super::kinds::{ClampTag, HookTag, PackersTag, RailTag, ScrewTag};
use super::remarks::Severity;
use super::roof::{Covering, Layers};
use super::scopes::ScopeName;
use crate::wire::enumeration::enumeration;

/// The embedded parts.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ComponentsAnswer {
    /// What these parts must not be used for.
    pub notice: &'static str,
    /// The parts, kind by kind.
    pub components: Vec<ComponentEntry>,
}

macro_rules! entries {
    ($($(#[$doc:meta])+ $entry:ident: $kind:ident($part:ident) as $tag:ident;)+) => {
        $(
            $(#[$doc])+
            #[derive(Debug, Clone, Serialize, ToSchema)]
            pub struct $entry {
                /// Kind of part.
                #[schema(inline)]
                pub kind: $tag,
                /// Id, to be used in a request in place of the part.
                #[schema(example = "demo-rail-40")]
                pub id: &'static str,
                /// Always true: every figure is invented.
                #[schema(example = true)]
                pub illustrative: bool,
                /// What this part must not be used for.
                pub notice: &'static str,
                /// The part in full, as a request can give it.
                pub part: &'static $part,
            }

            impl $entry {
                /// An embedded part for the catalogue.
                #[must_use]
                pub fn of(part: &'static $part, notice: &'static str) -> Self {
                    Self { kind: $tag, id: &part.id, illustrative: true, notice, part }
                }
            }
        )+

        /// One embedded part.
        #[derive(Debug, Clone, Serialize, ToSchema)]
        #[serde(untagged)]
        pub enum ComponentEntry {
            $($(#[$doc])+ $kind($entry),)+
        }

        impl ComponentEntry {
            /// Its kind.
            #[must_use]
            pub const fn kind(&self) -> ComponentKind {
                match self {
                    $(Self::$kind(_) => ComponentKind::$kind,)+
                }
            }

            /// Its id.
            #[must_use]
            pub const fn id(&self) -> &'static str {
                match self {
                    $(Self::$kind(entry) => entry.id,)+
                }
            }
        }
    };
}

entries! {
    /// An embedded roof hook.
    HookEntry: Hook(Hook) as HookTag;
    /// An embedded wood screw.
    ScrewEntry: Screw(Screw) as ScrewTag;
    /// An embedded rail.
    RailEntry: Rail(Rail) as RailTag;
    /// An embedded module clamp.
    ClampEntry: Clamp(Clamp) as ClampTag;
    /// An embedded set of packers.
    PackersEntry: Packers(Packers) as PackersTag;
}

enumeration! {
    /// Kinds of part.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ComponentKind {
        /// Roof hooks.
        Hook,
        /// Wood screws.
        Screw,
        /// Rails.
        Rail,
        /// Module clamps.
        Clamp,
        /// Sets of packers.
        Packers,
    }
}

impl ComponentKind {
    /// Name of the kind, as on the wire.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hook => "hook",
            Self::Screw => "screw",
            Self::Rail => "rail",
            Self::Clamp => "clamp",
            Self::Packers => "packers",
        }
    }
}

/// What a request may name by id where it is usual: coverings, build-ups, and modules for illustration.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct UsualAnswer {
    /// What must not be forgotten of them.
    pub notice: &'static str,
    /// Coverings, for `roof.covering`.
    pub coverings: Vec<UsualCoveringEntry>,
    /// Build-ups between rafter and tiling battens, for `roof.layers`.
    pub layers: Vec<UsualLayersEntry>,
    /// Illustrative modules, for `array.module`.
    pub modules: Vec<IllustrativeModuleEntry>,
}

/// A usual covering.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct UsualCoveringEntry {
    /// Id, to be used in a request in place of the covering.
    #[schema(example = "plain-tile-380x180-double-lap")]
    pub id: &'static str,
    /// What it is.
    pub about: &'static str,
    /// What its figures rest on.
    pub source: &'static str,
    /// Pitch of the covering as it is shown here, degrees.
    pub shown_at_pitch_deg: f64,
    /// The covering in full at that pitch, as a request can give it: its gauge follows the pitch.
    pub covering: Covering,
    /// Gauge by pitch.
    pub gauges: Vec<GaugeEntry>,
}

/// The gauge up to a pitch.
#[derive(Debug, Clone, Copy, Serialize, ToSchema)]
pub struct GaugeEntry {
    /// Up to this pitch, degrees; the last holds for all steeper ones.
    pub up_to_pitch_deg: f64,
    /// Gauge, mm.
    pub gauge_mm: f64,
}

/// A usual build-up.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct UsualLayersEntry {
    /// Id, to be used in a request in place of the layers.
    #[schema(example = "counter-batten-30-on-rafters")]
    pub id: &'static str,
    /// What it is.
    pub about: &'static str,
    /// What its figures rest on.
    pub source: &'static str,
    /// The layers in full, as a request can give them.
    pub layers: Layers,
}

/// An illustrative module.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct IllustrativeModuleEntry {
    /// Id, to be used in a request in place of the module.
    #[schema(example = "demo-module-1762x1134")]
    pub id: &'static str,
    /// What it is.
    pub about: &'static str,
    /// The module in full, as a request can give it. What it bears and where it is held is invented.
    pub module: Module,
}

/// Every warning an answer can carry.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WarningsAnswer {
    /// The warnings.
    pub warnings: Vec<WarningEntry>,
}

/// One kind of warning.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WarningEntry {
    /// Stable code: never renamed or reused.
    #[schema(example = "rail.free-end-too-long")]
    pub code: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What it says.
    pub meaning: &'static str,
    /// Scopes of the verdict it matters to.
    #[schema(example = json!(["rail"]))]
    pub scopes: Vec<ScopeName>,
    /// What lifts it, where something did not run; the usual act first.
    pub acts: Vec<Act>,
    /// Clause or practice it rests on.
    pub source: &'static str,
    /// What `params` of such a warning can hold.
    pub params: Vec<ParamEntry>,
}

/// A figure or name of a warning.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ParamEntry {
    /// Name in `params`, with its unit.
    #[schema(example = "limit_mm")]
    pub name: &'static str,
    /// Type of its value.
    #[serde(rename = "type")]
    pub kind: ParamKind,
    /// Unit of its value; absent where it has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "mm")]
    pub unit: Option<&'static str>,
    /// What it is.
    pub meaning: &'static str,
}

enumeration! {
    /// Type of a figure or name of a warning.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum ParamKind {
        /// A number.
        Number,
        /// A whole number: how many, or a number by which something goes.
        Integer,
        /// A name.
        Text,
        /// A list of names.
        Texts,
        /// A list of whole numbers by which things go.
        Integers,
        /// Yes or no.
        Flag,
    }
}

/// The rules this version computes by.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RulesAnswer {
    /// Rule sets a request can choose.
    pub rule_sets: Vec<RuleSetEntry>,
    /// Every clause the service knows: how far it is confirmed, and whether answers rest on it.
    pub clauses: Vec<ClauseEntry>,
}

/// One rule set.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct RuleSetEntry {
    /// Family of standards, for `rules.family`.
    #[schema(example = "eurocode")]
    pub family: &'static str,
    /// Annex, for `rules.annex`.
    #[schema(example = "DE")]
    pub annex: &'static str,
    /// Name for people.
    pub title: &'static str,
    /// Revision of today, for `rules.revision`.
    #[schema(example = "DE-3")]
    pub revision: &'static str,
    /// Earlier revisions a job can still ask for, the newest first.
    pub earlier_revisions: Vec<&'static str>,
}

/// One clause.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ClauseEntry {
    /// Document and edition.
    pub document: &'static str,
    /// Clause, equation or table.
    pub number: &'static str,
    /// What it gives.
    pub quantity: &'static str,
    /// Where in the source code it is written.
    pub function: &'static str,
    /// How far it is confirmed.
    pub confirmed: Confirmation,
    /// By what it is confirmed; absent for what rests on memory.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub confirmed_by: Option<&'static str>,
    /// Whether answers rest on it.
    #[serde(rename = "use")]
    pub usage: Usage,
}

enumeration! {
    /// How far a clause is confirmed.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Confirmation {
        /// By independent sources.
        Confirmed,
        /// By one source, or a part of it by no more than one.
        OneSource,
        /// In part; the rest is written from memory.
        PartlyFromMemory,
        /// By none: written from memory.
        FromMemory,
    }
}

enumeration! {
    /// Whether answers rest on a clause.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Usage {
        /// Requests are computed by it.
        Applied,
        /// Written and tested, but no request leads to it.
        Available,
    }
}
