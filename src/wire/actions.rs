//! `POST /v1/actions`: request and answer; and in every answer, the actions on the array with every
//! intermediate value.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::components::{ClampChoice, RailChoice};
use super::kinds::ActionsTag;
use super::provenance::{Assumption, Engine, TraceLine};
use super::remarks::{Caution, Warning};
use super::roof::{EdgeKind, Point, RoofForm};
use super::shapes::PointSchema;
use super::site::{RulesChoice, Site};
use crate::wire::enumeration::enumeration;

/// What acts here? Every field stands where a layout has it; what only hooks, rails and rafters
/// need is left out.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ActionsRequest {
    /// The caller's own name of the job; echoed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, max_length = 200, example = "mill-barn-south")]
    pub reference: Option<String>,
    /// Rules to compute by.
    pub rules: RulesChoice,
    /// The place.
    pub site: Site,
    /// The slope and the building under it.
    pub roof: ActionsRoof,
    /// What is to lie on the slope.
    pub array: ActionsArray,
    /// Parts that are chosen already, for their weight.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub components: Option<ActionsParts>,
}

/// The slope and the building under it, as far as snow and wind see them. Snow lies evenly here: where
/// it drifts follows from edges and obstacles, which a layout has.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ActionsRoof {
    /// Form of the whole roof.
    pub form: RoofForm,
    /// Pitch of the rafters, degrees.
    #[schema(minimum = 5, maximum = 75, example = 42.0)]
    pub pitch_deg: f64,
    /// Height of the ridge above the ground, m: the reference height of the wind.
    #[schema(minimum = 2, maximum = 200, example = 8.2)]
    pub ridge_height_m: f64,
    /// Length of the building along the eaves, in plan, m; of a house in a row that of the whole row.
    #[schema(minimum = 2, maximum = 500, example = 12.4)]
    pub length_m: f64,
    /// Width of the building across the eaves, in plan, m.
    #[schema(minimum = 2, maximum = 200, example = 8.6)]
    pub width_m: f64,
    /// Outline of the slope, counter-clockwise, first point not repeated, mm.
    #[schema(value_type = Vec<PointSchema>, min_items = 3, max_items = 100, example = json!([[0, 0], [12400, 0], [12400, 5786], [0, 5786]]))]
    pub outline_mm: Vec<Point>,
    /// What each side of the outline is; side `i` runs from point `i` to the next. The zones of a hipped roof
    /// begin at its hips: there assumed by where each side runs, level ones as eaves and ridge, slanting ones
    /// as hips.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, min_items = 3, max_items = 100, example = json!(["eaves", "verge", "ridge", "verge"]))]
    pub edges: Option<Vec<EdgeKind>>,
}

/// What is to lie on the slope.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ActionsArray {
    /// The module: at its area the coefficients of the wind on modules are read.
    pub module: ActionsModule,
}

/// A module, as far as actions go.
#[derive(Debug, Clone, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ActionsModule {
    /// Long side, mm.
    #[schema(minimum = 300, maximum = 3000, example = 1762.0)]
    pub length_mm: f64,
    /// Short side, mm.
    #[schema(minimum = 300, maximum = 3000, example = 1134.0)]
    pub width_mm: f64,
    /// Mass, kg.
    #[schema(minimum = 1, maximum = 100, example = 21.5)]
    pub mass_kg: f64,
}

/// Parts that are chosen already. The weight of one that is not given is assumed to be zero.
#[derive(Debug, Clone, Default, Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct ActionsParts {
    /// The rail.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub rail: Option<RailChoice>,
    /// The module clamp.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub clamp: Option<ClampChoice>,
}

/// What acts, with every number and its clause.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ActionsAnswer {
    /// What this is.
    #[schema(inline)]
    pub kind: ActionsTag,
    /// Echo of the request's reference.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub reference: Option<String>,
    /// What computed this.
    pub engine: Engine,
    /// SHA-256 of the request without empty lists in canonical form (RFC 8785), hexadecimal.
    pub input_digest: String,
    /// The actions.
    pub actions: Actions,
    /// What the reader must know, most severe first.
    pub warnings: Vec<Warning>,
    /// Cautions that go with every answer.
    pub cautions: Vec<Caution>,
    /// Every value the service assumed for the caller.
    pub assumptions: Vec<Assumption>,
    /// Every quantity with symbol, value, unit and clause.
    pub trace: Vec<TraceLine>,
}

/// What acts on the array.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Actions {
    /// Snow.
    pub snow: SnowActions,
    /// Wind.
    pub wind: WindActions,
    /// Weight of the array.
    pub weight: WeightActions,
    /// Where fields have different modules: what of `wind` and `weight`, which are then those of the
    /// first field, is another on each. Absent where all have the same.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(nullable = false)]
    pub fields: Vec<FieldActions>,
    /// The combinations every check runs through.
    pub combinations: Vec<CombinationActions>,
    /// How well each value is known that the rules give, or that the caller gives in its place. The printed
    /// standards were not at hand.
    pub evidence: Vec<ValueEvidence>,
}

/// How well a value of the actions is known.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct ValueEvidence {
    /// The value.
    pub value: RuledValue,
    /// How well it is known.
    pub known: Known,
}

enumeration! {
    /// What the rules give.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum RuledValue {
        /// Snow on the ground.
        GroundSnow,
        /// Exceptional snow on the ground.
        ExceptionalSnow,
        /// Peak velocity pressure.
        PeakPressure,
        /// Pressure coefficients of the roof.
        WindCoefficients,
        /// Snow that drifts against walls and obstacles, where the rule of the country was not seen.
        SnowDrifts,
        /// Partial factors, combination factors and the factors of consequence classes.
        CombinationFactors,
    }
}

enumeration! {
    /// How well a value is known.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Known {
        /// The request gives it.
        Given,
        /// By independent sources or a printed example.
        Confirmed,
        /// By one source, or a part of it by no more than one.
        OneSource,
        /// By none: all of it or a part is written from memory.
        FromMemory,
        /// What the country says was not seen: what the standard recommends stands in for it.
        StandIn,
    }
}

/// What acts on one field as its module has it.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct FieldActions {
    /// Field.
    #[schema(example = "B")]
    pub field: String,
    /// Weight of a module per its area, kN/m².
    pub module_kn_per_m2: f64,
    /// Areas the coefficients are read at; absent where the caller gives the coefficients.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub loaded_areas: Option<LoadedAreas>,
    /// Coefficients of the roof zones, one entry for each of `wind.zones` and in their order.
    pub zones: Vec<FieldZone>,
}

/// The coefficients of a roof zone on one field.
#[derive(Debug, Clone, Copy, Serialize, ToSchema)]
pub struct FieldZone {
    /// Lifting coefficient on fixings, zero or negative.
    pub suction: f64,
    /// Pressing coefficient on fixings, zero or positive.
    pub pressure: f64,
    /// Coefficients on modules.
    pub on_modules: ZoneCoefficients,
}

/// Snow on the slope.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SnowActions {
    /// Where the ground load comes from.
    pub ground_load_source: String,
    /// Characteristic ground load `sk`, kN/m².
    pub ground_load_kn_per_m2: f64,
    /// Shape coefficient `mu1`, or that of snow drifted over the ridge where a country has its own and it
    /// is greater.
    pub shape_factor: f64,
    /// Exposure coefficient `Ce`.
    pub exposure_factor: f64,
    /// Thermal coefficient `Ct`.
    pub thermal_factor: f64,
    /// Roof load `s` per area of plan, kN/m².
    pub roof_load_kn_per_m2: f64,
    /// Part of `s` square to the slope, per area of slope, kN/m².
    pub normal_kn_per_m2: f64,
    /// Part of `s` down the slope, per area of slope, kN/m².
    pub slope_kn_per_m2: f64,
    /// Exceptional ground load `sAd`, where asked for, kN/m².
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub exceptional_ground_load_kn_per_m2: Option<f64>,
    /// Force on a snow guard at the eaves, if there is one, from the snow it holds on the whole slope
    /// above, kN per m of eaves. For information.
    pub guard_force_kn_per_m: f64,
    /// Ways the snow can lie besides evenly, each in combinations that have its name; absent where
    /// there are none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schema(nullable = false)]
    pub arrangements: Vec<SnowArrangement>,
}

/// One way the snow can lie that is not even over the slope.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SnowArrangement {
    /// Name in combinations: `wall-above`, `wall-below`, `wall-left`, `wall-right`, `valley`,
    /// `obstacles` or `eaves`.
    #[schema(example = "wall-above")]
    pub id: String,
    /// Shape coefficient on all of the slope.
    pub base_shape_factor: f64,
    /// What lies on it besides.
    pub drifts: Vec<SnowDrift>,
    /// Snow that hangs over the eaves, in the arrangement `eaves`, kN per m.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub eaves_kn_per_m: Option<f64>,
}

/// Snow that lies deepest along a line and thins out evenly; in valleys of `ES-CTE` it is as deep all over
/// its length.
#[derive(Debug, Clone, Copy, Serialize, ToSchema)]
pub struct SnowDrift {
    /// Side of the outline it lies against, counted from 0.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub side: Option<usize>,
    /// Obstacle it lies around, by place in the request.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub obstacle: Option<usize>,
    /// Shape coefficient where it is deepest.
    pub shape_factor: f64,
    /// How far it reaches, in plan, m.
    pub length_m: f64,
}

/// Wind on the slope.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WindActions {
    /// Where the peak pressure comes from.
    pub peak_pressure_source: String,
    /// Basic velocity pressure `qb`, where it is known, kN/m².
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub basic_pressure_kn_per_m2: Option<f64>,
    /// Peak velocity pressure `qp` at ridge height, kN/m².
    pub peak_pressure_kn_per_m2: f64,
    /// Areas the coefficients are read at; absent where the caller gives the coefficients.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub loaded_areas: Option<LoadedAreas>,
    /// Every roof zone for every wind direction.
    pub zones: Vec<WindZone>,
}

/// Areas the coefficients of the wind are read at (EN 1991-1-4 7.2.1): the larger the area an
/// element collects wind from, the less of a peak it feels. That of a rafter stands with the rafter.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct LoadedAreas {
    /// Hooks, their screws, clamps, and the rails on them, m².
    pub fixings_m2: f64,
    /// Modules, m².
    pub modules_m2: f64,
    /// The caller's reason for the area of the fixings, where that is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub reason: Option<String>,
}

enumeration! {
    /// Wind directions as seen standing outside, facing the slope.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum WindDirection {
        /// Towards this slope's eaves.
        Front,
        /// Over the ridge from behind.
        Back,
        /// Onto the left gable.
        Left,
        /// Onto the right gable.
        Right,
    }
}

/// One roof zone for one wind direction.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WindZone {
    /// Where the wind comes from.
    pub direction: WindDirection,
    /// Letter of the zone, EN 1991-1-4 Figure 7.8.
    #[schema(example = "F")]
    pub zone: String,
    /// Outline on the slope, mm.
    #[schema(value_type = Vec<PointSchema>)]
    pub outline_mm: Vec<[f64; 2]>,
    /// Lifting coefficient on fixings, zero or negative.
    pub suction: f64,
    /// Pressing coefficient on fixings, zero or positive.
    pub pressure: f64,
    /// Coefficients on modules.
    pub on_modules: ZoneCoefficients,
}

/// The coefficients of a roof zone at one loaded area.
#[derive(Debug, Clone, Copy, Serialize, ToSchema)]
pub struct ZoneCoefficients {
    /// Lifting coefficient, zero or negative.
    pub suction: f64,
    /// Pressing coefficient, zero or positive.
    pub pressure: f64,
}

/// Weight of the array per area of module.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct WeightActions {
    /// Weight of a module per its area, kN/m².
    pub module_kn_per_m2: f64,
    /// Weight of the clamps of one module, kN.
    pub clamps_kn_per_module: f64,
    /// Weight of a rail, kN/m.
    pub rail_kn_per_m: f64,
}

/// One combination of actions, as factors on the characteristic values.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct CombinationActions {
    /// Name, quoted wherever the combination governs.
    #[schema(example = "uls:G+S+W:front:pressing")]
    pub id: String,
    /// What the combination is for.
    pub situation: Situation,
    /// Factor on the weight.
    pub weight: f64,
    /// Factor on the snow.
    pub snow: f64,
    /// Factor on the exceptional snow.
    pub exceptional_snow: f64,
    /// How the snow lies, an `id` of `snow.arrangements`; absent where it lies evenly.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "wall-above")]
    pub snow_arrangement: Option<String>,
    /// Factor on the wind.
    pub wind: f64,
    /// Factor on the weight of a person at work on the roof, for rafters alone; absent where nobody
    /// is.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub person: Option<f64>,
    /// Modification factor of timber, by the action of shortest duration.
    pub k_mod: f64,
    /// Clause the combination follows.
    pub clause: String,
}

enumeration! {
    /// What a combination is for.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum Situation {
        /// Strength, persistent and transient.
        Persistent,
        /// Strength, accidental.
        Accidental,
        /// Serviceability, characteristic.
        Characteristic,
    }
}
