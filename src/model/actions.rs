//! Answer: the actions on the array, with every intermediate value.

use serde::Serialize;
use utoipa::ToSchema;

use super::shapes::PointSchema;

/// What acts on the array.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct Actions {
    /// Snow.
    pub snow: SnowActions,
    /// Wind.
    pub wind: WindActions,
    /// Weight of the array.
    pub weight: WeightActions,
    /// The combinations every check runs through.
    pub combinations: Vec<CombinationActions>,
}

/// Snow on the slope.
#[derive(Debug, Clone, Serialize, ToSchema)]
pub struct SnowActions {
    /// Where the ground load comes from.
    pub ground_load_source: String,
    /// Characteristic ground load `sk`, kN/m².
    pub ground_load_kn_per_m2: f64,
    /// Shape coefficient `mu1`.
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
    /// Force on a snow guard at the eaves, if there is one, kN per m of eaves. For information.
    pub guard_force_kn_per_m: f64,
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
    /// Loaded area the coefficients are read at, m².
    pub loaded_area_m2: f64,
    /// Every roof zone for every wind direction.
    pub zones: Vec<WindZone>,
}

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
    /// Factor on the wind.
    pub wind: f64,
    /// Modification factor of timber, by the action of shortest duration.
    pub k_mod: f64,
    /// Clause the combination follows.
    pub clause: String,
}

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
