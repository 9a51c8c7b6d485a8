//! `POST /v1/choices`: a layout with freedom, what it is chosen by, and what all choices come to.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::components::{ClampChoice, HookChoice, RailChoice, ScrewChoice};
use super::fault::FaultCode;
use super::kinds::ChoicesTag;
use super::layout::{JobUtilisation, LayoutAnswer, LayoutRequest};
use super::parts::OrderedKind;
use super::provenance::Engine;
use super::remarks::{Caution, Verdict};
use super::remedies::Edit;
use super::shapes::PointSchema;
use crate::wire::enumeration::enumeration;

/// A job, and what of it may be chosen: every choice is laid out as by itself, and the best is answered in full.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ChoicesRequest {
    /// The caller's own name of the question; echoed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 200, example = "mill-barn-south-best")]
    pub reference: Option<String>,
    /// The job as a request for a layout. As it stands it is one of the choices.
    pub job: LayoutRequest,
    /// What may be chosen beside what the job says.
    pub choices: Choices,
    /// What the best has least of.
    pub aim: Aim,
    /// Verdict that the best has to have at least. Assumed `holds_with_warnings`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub least_verdict: Option<LeastVerdict>,
    /// What parts cost and how long work takes. What is left out counts nothing, and the answer says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rates: Option<Rates>,
    /// How many choices the table of the answer has at most. Assumed 50.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 1, maximum = 1000, example = 50)]
    pub rows: Option<u32>,
}

/// What may be chosen. Every combination of positions and parts is a choice, up to 10 000 of them.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Choices {
    /// Where fields may lie. Each entry moves its fields together.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub positions: Vec<Positions>,
    /// Hooks that may be taken in the place of that of the job. No two hooks may have the same id.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub hooks: Vec<HookAlternative>,
    /// Screws, likewise.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub screws: Vec<ScrewAlternative>,
    /// Rails, likewise.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub rails: Vec<RailAlternative>,
    /// Clamps, likewise.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50)]
    pub clamps: Vec<ClampAlternative>,
}

/// Where some fields may lie, as shifts from where the job has them.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Positions {
    /// Names of the fields, which move together. Absent: every field of the job.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schema(max_items = 50, example = json!(["A"]))]
    pub fields: Vec<String>,
    /// Shifts to the right. Absent: none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub right: Option<Shifts>,
    /// Shifts up the slope. Absent: none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub up: Option<Shifts>,
}

/// Shifts in equal steps: `from_mm`, one step further, and so on up to `to_mm`.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Shifts {
    /// The first, mm; negative to the left or down the slope.
    #[schema(minimum = -20_000, maximum = 20_000, example = -100.0)]
    pub from_mm: f64,
    /// Not beyond this, mm.
    #[schema(minimum = -20_000, maximum = 20_000, example = 100.0)]
    pub to_mm: f64,
    /// From one to the next, mm.
    #[schema(minimum = 1, maximum = 20_000, example = 10.0)]
    pub step_mm: f64,
}

macro_rules! alternative {
    (
        $(#[$doc:meta])+
        $name:ident {
            $(#[$of_part:meta])+
            $part:ident: $choice:ident
            $(#[$of_price:meta])+
            price
            $(#[$of_minutes:meta])+
            minutes
        }
    ) => {
        $(#[$doc])+
        #[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
        #[serde(deny_unknown_fields)]
        pub struct $name {
            $(#[$of_part])+
            pub $part: $choice,
            $(#[$of_price])+
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false, minimum = 0, maximum = 1_000_000, example = 8.5)]
            pub price: Option<f64>,
            $(#[$of_minutes])+
            #[serde(default, skip_serializing_if = "Option::is_none")]
            #[schema(nullable = false, minimum = 0, maximum = 10_000, example = 6.0)]
            pub minutes: Option<f64>,
        }
    };
}
alternative!(
    /// A hook that may be taken.
    HookAlternative {
        /// The hook, in full or by id.
        hook: HookChoice
        /// Price of one hook, in any currency that all prices are in.
        price
        /// Minutes it takes to fit one hook.
        minutes
    }
);
alternative!(
    /// A screw that may be taken.
    ScrewAlternative {
        /// The screw, in full or by id.
        screw: ScrewChoice
        /// Price of one screw, in any currency that all prices are in.
        price
        /// Minutes it takes to fit one screw.
        minutes
    }
);
alternative!(
    /// A rail that may be taken.
    RailAlternative {
        /// The rail, in full or by id.
        rail: RailChoice
        /// Price of one metre of it, in any currency that all prices are in.
        price
        /// Minutes it takes to fit one metre of it.
        minutes
    }
);
alternative!(
    /// A clamp that may be taken.
    ClampAlternative {
        /// The clamp, in full or by id.
        clamp: ClampChoice
        /// Price of one clamp, mid or end, in any currency that all prices are in.
        price
        /// Minutes it takes to fit one clamp, mid or end.
        minutes
    }
);

/// What the best has least of: a sum of figures, each with its weight. What is left out counts nothing, so that
/// `{"hooks": 1}` aims for the fewest hooks.
#[derive(Debug, Clone, Copy, PartialEq, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Aim {
    /// For each hook.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1_000_000, example = 1.0)]
    pub hooks: Option<f64>,
    /// For each unit of the price of what is ordered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1_000_000, example = 1.0)]
    pub price: Option<f64>,
    /// For each kilogram of the array.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1_000_000, example = 0.1)]
    pub mass: Option<f64>,
    /// For each tile that comes off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1_000_000, example = 0.5)]
    pub tiles_lifted: Option<f64>,
    /// For each minute of work.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1_000_000, example = 0.9)]
    pub minutes: Option<f64>,
}

enumeration! {
    /// Verdict that the best has to have at least.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum LeastVerdict {
        /// It holds, and nothing needs attention.
        Holds,
        /// It holds, with or without warnings.
        HoldsWithWarnings,
        /// Nothing that was checked fails. Layouts of which something was not verified are then chosen among as if it
        /// had been.
        Incomplete,
    }
}

/// What one of each costs and how long it takes. Of hook, screw, rail and clamp it is that of the job's own;
/// alternatives have their own.
#[derive(Debug, Clone, PartialEq, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Rates {
    /// A hook.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub hook: Option<Rate>,
    /// A screw.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub screw: Option<Rate>,
    /// A metre of rail: priced as bought, in whole bars, and timed as built in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rail: Option<Rate>,
    /// A clamp, mid or end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clamp: Option<Rate>,
    /// A packer of any thickness.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub packer: Option<Rate>,
    /// A bolt with nut between hook and rail, or a connector where rails cross.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub bolt_set: Option<Rate>,
    /// A metal substitute tile.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub substitute_tile: Option<Rate>,
    /// A splice.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub splice: Option<Rate>,
    /// A cap for an end of a rail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub end_cap: Option<Rate>,
    /// A module.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub module: Option<Rate>,
    /// A tile that comes off and is laid again, or is replaced.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub lifted_tile: Option<Rate>,
}

impl Rates {
    /// Those of one part of a kind, of rails of a metre.
    #[must_use]
    pub const fn of(&self, kind: OrderedKind) -> Option<Rate> {
        match kind {
            OrderedKind::Module => self.module,
            OrderedKind::Hook => self.hook,
            OrderedKind::Screw => self.screw,
            OrderedKind::SubstituteTile => self.substitute_tile,
            OrderedKind::Packer => self.packer,
            OrderedKind::BoltSet | OrderedKind::CrossingConnector => self.bolt_set,
            OrderedKind::RailBar | OrderedKind::RailPiece => self.rail,
            OrderedKind::Splice => self.splice,
            OrderedKind::MidClamp | OrderedKind::EndClamp => self.clamp,
            OrderedKind::EndCap => self.end_cap,
        }
    }

    /// Whether anything has a figure.
    #[must_use]
    pub fn any(&self, figure: fn(&Rate) -> Option<f64>) -> bool {
        let Self {
            hook,
            screw,
            rail,
            clamp,
            packer,
            bolt_set,
            substitute_tile,
            splice,
            end_cap,
            module,
            lifted_tile,
        } = self;
        let parts = [hook, screw, rail, clamp, packer, bolt_set, substitute_tile, splice, end_cap];
        parts.into_iter().chain([module, lifted_tile]).flatten().any(|of| figure(of).is_some())
    }
}

/// What one costs and how long it takes.
#[derive(Debug, Clone, Copy, PartialEq, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Rate {
    /// Price, in any currency that all prices are in. It counts for what is ordered, spares and whole packs with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 1_000_000, example = 8.5)]
    pub price: Option<f64>,
    /// Minutes of work. They count for what is built in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, minimum = 0, maximum = 10_000, example = 6.0)]
    pub minutes: Option<f64>,
}

/// What the choices come to, and the best of them in full.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ChoicesAnswer {
    /// What this is.
    #[schema(inline)]
    pub kind: ChoicesTag,
    /// Echo of the request's reference.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub reference: Option<String>,
    /// What computed this.
    pub engine: Engine,
    /// SHA-256 of the request without empty lists in canonical form (RFC 8785), hexadecimal.
    pub input_digest: String,
    /// Verdict on the best; `fails` where every choice that was laid out fails, and `incomplete` where none was.
    pub verdict: Verdict,
    /// Verdict that the best had to have at least.
    pub least_verdict: LeastVerdict,
    /// Whether the best has it. Where no choice has, the best is the one that is nearest to it: a verdict less
    /// bad, then fewer matters that are not verified, and only then the aim.
    pub reached: bool,
    /// What became of how many choices.
    pub counts: ChoiceCounts,
    /// Whether every choice was laid out or refused, so that none is better than the best. False where the steps
    /// of the job were spent before: the best is then the best of those that were laid out.
    pub complete: bool,
    /// No choice that is as good by its verdict has less of what is aimed for than this; absent where some were not
    /// come to, of which nothing is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = 36.0)]
    pub no_better_than: Option<f64>,
    /// The best choice; absent where every one fails. One that fails is never the best.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub best: Option<ChoiceRow>,
    /// The best choice as a JSON Patch (RFC 6902) of `job`: the answer to the request for a layout so
    /// changed is `layout`.
    pub edits: Vec<Edit>,
    /// The job as it stands; absent where it cannot be laid, or was not looked at.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub as_asked: Option<ChoiceRow>,
    /// Choices that were laid out, best first, as many as were asked for.
    pub rows: Vec<ChoiceRow>,
    /// Of the choices that are as good as the best by their verdict: those than which none has both fewer hooks and
    /// a lower price, fewest hooks first. Absent without any price.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(required = false)]
    pub hooks_against_price: Vec<ChoiceRow>,
    /// Why choices cannot be laid, each reason once.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(required = false)]
    pub refused: Vec<RefusedChoices>,
    /// Kinds of part that have no price and count nothing; absent where no part has one.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(required = false)]
    pub without_price: Vec<OrderedKind>,
    /// Kinds of part that have no minutes and count nothing; absent where none has any.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(required = false)]
    pub without_minutes: Vec<OrderedKind>,
    /// The layout of the best, as `POST /v1/layouts` answers it; absent where every choice fails.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub layout: Option<LayoutAnswer>,
    /// Cautions that go with every answer.
    pub cautions: Vec<Caution>,
}

/// What became of the choices. All but the first make up the first.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, ToSchema)]
pub struct ChoiceCounts {
    /// Choices there are, the job as it stands among them.
    #[schema(example = 882)]
    pub choices: u64,
    /// Laid out and judged.
    #[schema(example = 870)]
    pub laid_out: u64,
    /// Refused, for they cannot be laid, such as modules that would lie off the roof.
    #[schema(example = 12)]
    pub refused: u64,
    /// Not come to, because the steps of the job were spent.
    pub not_reached: u64,
}

/// A choice, and what it comes to.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct ChoiceRow {
    /// The choice.
    pub choice: Choice,
    /// Verdict on its layout.
    pub verdict: Verdict,
    /// Code of what fails first, where something does.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "rail.free-end-too-long")]
    pub fails_by: Option<&'static str>,
    /// Codes of what is not verified.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(required = false, example = json!(["rafter.may-be-cut"]))]
    pub not_verified: Vec<&'static str>,
    /// Highest utilisation and what governs it.
    pub utilisation: JobUtilisation,
    /// Hooks.
    #[schema(example = 36)]
    pub hooks: u64,
    /// No layout of this choice with fewer hooks passes; as many as `hooks` where these are proven to be the fewest.
    #[schema(example = 36)]
    pub lower_bound: u64,
    /// Tiles that come off, each counted once.
    pub tiles_lifted: u64,
    /// Mass of the array, kg.
    pub mass_kg: f64,
    /// Price of what is ordered, as far as prices are given; absent without any.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub price: Option<f64>,
    /// Minutes of work, as far as they are given; absent without any.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub minutes: Option<f64>,
    /// What is aimed for: the less the better.
    pub aim: f64,
}

/// A choice.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Choice {
    /// How far the fields of each entry of `positions` are shifted to the right and up the slope, mm.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(required = false, value_type = Vec<PointSchema>, example = json!([[-40.0, 10.0]]))]
    pub shifts_mm: Vec<[f64; 2]>,
    /// Id of the hook.
    pub hook: String,
    /// Id of the screw.
    pub screw: String,
    /// Id of the rail.
    pub rail: String,
    /// Id of the clamp.
    pub clamp: String,
}

/// Choices that cannot be laid for the same reason.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct RefusedChoices {
    /// How many.
    pub choices: u64,
    /// The first of them.
    pub first: Choice,
    /// Pointer into the request (RFC 6901).
    #[schema(example = "/job/array/fields/0")]
    pub pointer: String,
    /// Kind of fault.
    #[schema(example = "off_roof")]
    pub code: FaultCode,
    /// The fault of the first of them in a plain sentence.
    pub detail: String,
}
