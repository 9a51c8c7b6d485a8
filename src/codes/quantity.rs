//! What a step of a calculation finds: a closed list, so that every language has a name for each.

macro_rules! quantities {
    ($($(#[$doc:meta])+ $name:ident,)+) => {
        /// A quantity that the trace of an answer shows.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Quantity {
            $($(#[$doc])+ $name,)+
        }

        impl Quantity {
            /// Every quantity.
            pub const ALL: &[Self] = &[$(Self::$name),+];
        }
    };
}

quantities! {
    /// Characteristic snow load on the ground.
    GroundSnow,
    /// Shape coefficient of snow on a roof.
    SnowShape,
    /// Exposure coefficient.
    Exposure,
    /// Thermal coefficient.
    Thermal,
    /// Snow load on the roof, on plan.
    RoofSnow,
    /// Snow on the slope, square to it.
    SnowSquareToSlope,
    /// Snow on the slope, down it.
    SnowDownSlope,
    /// Snow on the ground as an accidental action.
    ExceptionalGroundSnow,
    /// Shape coefficient of what the wind drifts against a wall.
    SnowByWind,
    /// Shape coefficient of what slides down from a higher roof.
    SnowSlidDown,
    /// Shape coefficient of snow where a drift is deepest.
    DriftShape,
    /// How far a drift reaches.
    DriftLength,
    /// Snow hanging over the eaves.
    EavesSnow,
    /// Snow in an arrangement square to the slope at the left frame of a module.
    SnowLeft,
    /// Snow in an arrangement square to the slope at the right frame of a module.
    SnowRight,
    /// Snow in an arrangement down the slope at the left frame of a module.
    SnowDownLeft,
    /// Snow in an arrangement down the slope at the right frame of a module.
    SnowDownRight,
    /// Basic wind velocity.
    BasicWindVelocity,
    /// Velocity pressure of the basic wind velocity.
    BasicVelocityPressure,
    /// Factor for sites high above the sea.
    RiseWithAltitude,
    /// Roughness factor.
    Roughness,
    /// Mean wind velocity.
    MeanWindVelocity,
    /// Turbulence intensity.
    TurbulenceIntensity,
    /// Peak velocity pressure.
    PeakVelocityPressure,
    /// Area of roof that loads a fixing.
    FixingsLoadedArea,
    /// Area of roof that loads a module.
    ModulesLoadedArea,
    /// Area of roof that loads a rafter.
    RaftersLoadedArea,
    /// Weight of a person at work on the roof.
    PersonAtWork,
    /// Height of the slope force of modules above the bolts.
    LoadHeight,
    /// Part of a module that lies in a wind zone.
    PatchArea,
    /// Middle of that part along the eaves.
    PatchAlong,
    /// Middle of that part up the slope.
    PatchUp,
    /// What a rail takes of a force at mid-module.
    ShareAtMiddle,
    /// Normal force on a rail per slope force of its modules.
    CouplePerSlope,
    /// Wind at the left frame of a module on a rail.
    WindLeft,
    /// Wind at the right frame of a module on a rail.
    WindRight,
    /// Coefficient of wind that lifts.
    SuctionCoefficient,
    /// Coefficient of wind that presses.
    PressureCoefficient,
    /// Weight of a module.
    ModuleWeight,
    /// Weight of a clamp.
    ClampWeight,
    /// Weight of the rail by length.
    RailWeight,
    /// Gap between foot and rafter.
    GapUnderFoot,
    /// Length of a screw in the rafter.
    LengthInRafter,
    /// Length of its thread in the rafter.
    ThreadedLength,
    /// Withdrawal parameter.
    WithdrawalParameter,
    /// Characteristic withdrawal capacity.
    Withdrawal,
    /// Characteristic tension capacity.
    Tension,
    /// Embedment strength.
    EmbedmentStrength,
    /// Characteristic lateral capacity.
    LateralCapacity,
    /// What a screw counts among those pulled together.
    GroupFactor,
    /// What a screw counts in a row along the grain.
    RowFactor,
    /// Design withdrawal capacity.
    DesignPull,
    /// Design lateral capacity.
    DesignShear,
    /// Design moment of the rail, bent square to the slope.
    DesignMomentNormal,
    /// Design moment of the rail, bent down the slope.
    DesignMomentSlope,
    /// Span over the deflection allowed.
    SpanOverDeflection,
    /// How far a tile covers the one below.
    Headlap,
    /// Top of the lower tile above the underside of the battens.
    LowerTileTop,
    /// Clearance of an arm without packers.
    ClearanceWithoutPackers,
    /// Clearance of an arm with its packers.
    ClearanceWithPackers,
    /// Force on a hook, square to the roof.
    ForceSquareToRoof,
    /// Force on a hook, down the slope.
    ForceDownSlope,
}
