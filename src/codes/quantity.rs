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
    /// Shape coefficient of snow drifted over a ridge.
    DriftedSnowShape,
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
    /// Height above ground at which the pressure is read.
    ReferenceHeight,
    /// Density of air.
    AirDensity,
    /// Peak velocity pressure of the table, before the rise with altitude.
    TablePressure,
    /// Roughness length of the ground.
    RoughnessLength,
    /// Terrain factor.
    TerrainFactor,
    /// Orography factor.
    Orography,
    /// Roughness factor.
    Roughness,
    /// Mean wind velocity.
    MeanWindVelocity,
    /// Distance from the shore upwind.
    ShoreDistance,
    /// Exposure factor of the wind over a terrain.
    WindExposure,
    /// Turbulence factor of a country.
    TurbulenceFactor,
    /// Peak factor of the gusts.
    PeakFactor,
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
    /// Factor of equalisation on suction.
    SuctionFactor,
    /// Factor of equalisation on pressure.
    PressureFactor,
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
    /// Factor on the strength of timber for load duration and moisture.
    DurationFactor,
    /// Partial factor of a resistance.
    PartialFactor,
    /// Withdrawal parameter.
    WithdrawalParameter,
    /// Characteristic withdrawal capacity.
    Withdrawal,
    /// Characteristic tension capacity.
    Tension,
    /// Embedment strength.
    EmbedmentStrength,
    /// Characteristic density of the timber.
    TimberDensity,
    /// Diameter a screw is calculated with across its axis.
    EffectiveDiameter,
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
    /// Design resistance of a rail along its axis.
    DesignAxialForce,
    /// Critical force of a rail pressed along its axis.
    CriticalForce,
    /// Force along the axis of a rail.
    RailAxialForce,
    /// Design force that lifts an upper rail off a lower one, of the connector between them.
    CrossingLift,
    /// Design force along the lower rail, of the connector between crossing rails.
    CrossingSlide,
    /// Span over the deflection allowed.
    SpanOverDeflection,
    /// How far a tile covers the one below.
    Headlap,
    /// Top of the lower tile above the underside of the battens.
    LowerTileTop,
    /// How much nearer the lower tile is to the arm below the bolt than where the arm leaves.
    Narrowing,
    /// From the tail edge the arm leaves under down the slope to the rail bolt.
    BoltBeyondExit,
    /// Clearance of an arm without packers.
    ClearanceWithoutPackers,
    /// Clearance of an arm with its packers.
    ClearanceWithPackers,
    /// Clearance under a rail at the lower end of its slots, packers in place.
    ClearanceUnderRail,
    /// Force on a hook, square to the roof.
    ForceSquareToRoof,
    /// Force on a hook, down the slope.
    ForceDownSlope,
    /// Demand over resistance.
    Utilisation,
    /// Resistance of a hook square to the roof.
    HookNormalResistance,
    /// Resistance of a hook down the slope.
    HookSlopeResistance,
    /// What the normal force uses of it.
    NormalShare,
    /// What the slope force uses of it.
    SlopeShare,
    /// Shear resistance of a bolt.
    BoltShearResistance,
    /// Tension resistance of a bolt.
    BoltTensionResistance,
    /// Tension resistance of a bolt in the sum with shear.
    BoltTensionBesideShear,
    /// Pull on a bolt per normal force of a rail beside it.
    BoltPrying,
    /// Shear of a bolt that points along the slope.
    BoltShearAlong,
    /// Tension of a bolt that points along the slope.
    BoltTensionAlong,
    /// Shear of a bolt that points square to the roof.
    BoltShearSquare,
    /// Tension of a bolt that points square to the roof.
    BoltTensionSquare,
    /// Force at which a bolt slips along its slot.
    SlotSlip,
    /// Force along a rail up the slope that its bolt at a hook holds.
    ForceAlongGroove,
    /// Force at which a bolt slips along the groove of a rail.
    GrooveSlip,
    /// Arm of the normal force about an edge of the foot.
    NormalArm,
    /// Arm of the slope force about an edge of the foot.
    SlopeArm,
    /// Moment of the loads about an edge of the foot.
    MomentAboutEdge,
    /// From that edge to the resultant of the screws that pull.
    PullArm,
    /// Moment of the loads about that resultant.
    MomentAboutPulls,
    /// Width of the strip an edge presses on.
    StripWidth,
    /// How far pressure spreads beyond the edge.
    StripSpread,
    /// What timber bears per length of the strip.
    StripStrength,
    /// Length the strip may have.
    LongestStrip,
    /// Moment the longest strip balances.
    LongestStripMoment,
    /// Length of the strip.
    StripLength,
    /// Force the strip presses back with.
    StripForce,
    /// What all screws pull together.
    TotalPull,
    /// Utilisation of the strip.
    StripUsed,
    /// Factor on the bearing of timber across the grain.
    BearingFactor,
    /// Characteristic strength of timber across the grain.
    CrossGrainStrength,
    /// Stress timber bears across the grain.
    BearingStrength,
    /// Area of timber that takes plain pressing.
    BearingArea,
    /// What plain pressing uses of it.
    PlainPressing,
    /// Number of screws of a foot.
    ScrewCount,
    /// Pull of a screw per moment about the lower edge, without a strip.
    SharpLeverLower,
    /// Its share of all pulls about the lower edge.
    PullShareLower,
    /// Pull of a screw per moment about the upper edge, without a strip.
    SharpLeverUpper,
    /// Its share of all pulls about the upper edge.
    PullShareUpper,
    /// Pull of a screw from a foot turned sideways.
    SidewaysPull,
    /// Shear of a screw per slope force.
    ShearPerSlope,
    /// Pull on a screw.
    ScrewPull,
    /// Shear on a screw.
    ScrewShear,
    /// What pull uses of a screw.
    PullUsed,
    /// What shear uses of a screw.
    ShearUsed,
    /// Stiffness of a hook square to the roof.
    HookStiffness,
    /// Stiffness of the arm of a hook alone.
    ArmStiffness,
    /// What the foot of a hook gives at the rail bolt.
    FootStiffness,
    /// How far a slope force presses the arm towards the roof, per what it would square to it.
    CrossShare,
    /// How far an arm is pressed down.
    ArmMovement,
    /// Place on a rail.
    PlaceOnRail,
    /// Moment of a rail, bent square to the slope.
    RailMomentNormal,
    /// Moment of a rail, bent down the slope.
    RailMomentSlope,
    /// Span of a rail, or twice its free end.
    DeflectedLength,
    /// Deflection of a rail.
    Deflection,
    /// Deflection allowed.
    AllowedDeflection,
    /// Weight of a module square to it, with its factor.
    WeightOnModule,
    /// Snow square to a module, with its factor.
    SnowOnModule,
    /// Exceptional snow square to a module.
    ExceptionalSnowOnModule,
    /// Wind on a module, with its factor.
    WindOnModule,
    /// Area of a module.
    ModuleArea,
    /// Load on a module by area, as a magnitude.
    ModuleLoad,
    /// What a module bears by area.
    ModuleCapacity,
    /// Lift on a clamp.
    ClampLift,
    /// What a clamp bears of lift.
    ClampLiftResistance,
    /// Force on a clamp down the slope.
    ClampSlope,
    /// What a clamp bears down the slope.
    ClampSlopeResistance,
    /// Force on a stop below a module.
    StopForce,
    /// What a stop bears.
    StopResistance,
    /// Moment of a rafter.
    RafterMoment,
    /// Section modulus of a rafter.
    RafterModulus,
    /// Bending stress of a rafter.
    BendingStress,
    /// Factor on bending strength for shallow timber.
    DepthFactor,
    /// Characteristic bending strength.
    BendingStrength,
    /// Design bending strength.
    DesignBendingStrength,
    /// Shear of a rafter.
    RafterShear,
    /// Share of the width that carries shear.
    CrackFactor,
    /// Shear stress of a rafter.
    ShearStress,
    /// Characteristic shear strength.
    ShearStrength,
    /// Design shear strength.
    DesignShearStrength,
    /// Rail bolt above the underside of the foot.
    BoltAboveFoot,
    /// How far the bolt may stand from the middle of its slot.
    SlotReserve,
    /// The same downwards.
    SlotReserveBelow,
    /// Height of the packers.
    PackersUnderFoot,
    /// Layers under the foot that bear nothing.
    SoftUnderFoot,
    /// What the layers that screws cross add to the height of the bolt.
    ClampedLayers,
    /// Rail bolt above the face the foot bears on, highest.
    BoltHighest,
    /// The same, lowest.
    BoltLowest,
    /// Modulus of the timber across the grain.
    TimberAcrossGrain,
    /// Depth of timber that gives under the foot.
    BedDepth,
    /// Width of timber that gives under the foot.
    BedWidth,
    /// Stiffness of a screw along its axis.
    ScrewAxialStiffness,
    /// Length of the foot that presses while it turns.
    PressedLength,
    /// Moment per angle of the foot.
    TurningSpring,
    /// From the lower edge of the foot to its farthest screws.
    PlateLength,
    /// Width of the plate that bends.
    PlateWidth,
    /// Moment per angle of the plate.
    PlateSpring,
    /// Moment per angle of timber, screws and plate.
    FootSpring,
    /// How much farther an arm comes down because its rail lies off the bolt.
    ArmTurnedShare,
    /// Axis of a rail from its bolts, down the slope.
    RailAxis,
    /// Moment of a hook's forces where its arm rises from the plate.
    PlateMoment,
    /// Design moment of the plate of the foot as a bar.
    PlateResistance,
    /// Largest moment by which a foot tends to roll.
    RollingMoment,
    /// Most that the rolling of feet adds to a hook.
    RollingForce,
    /// How many times what the foot gives counts against a clearance.
    FootAllowance,
    /// From the edge the foot turns about to the axis of the rail.
    TurningArm,
    /// Rise of the arm at the foot.
    ArmRise,
    /// Run of the arm down the slope.
    ArmRun,
    /// Rise of the arm to the bolt.
    ArmUpstand,
    /// How far the arm gives square to the roof, times its rigidity.
    ArmGivesNormal,
    /// How far it gives there under a force down the slope.
    ArmGivesCross,
    /// Cross share of the arm alone.
    ArmCrossShare,
    /// Width of timber the foot touches.
    ContactWidth,
    /// The arm beside the axis of the rafter.
    ArmAside,
    /// Sum of the squared distances of the screws from their centre.
    ScrewsAboutCentre,
    /// The arm beside the centre of the screws.
    ArmBesideCentre,
    /// Weight of a module at a frame, square to the roof.
    FrameWeight,
    /// The same down the slope.
    FrameWeightDown,
    /// Weight of a clamp at an end of a row.
    FrameClamp,
    /// The same down the slope.
    FrameClampDown,
    /// Even snow at a frame, square to the roof.
    FrameSnow,
    /// The same down the slope.
    FrameSnowDown,
    /// Exceptional snow at a frame, square to the roof.
    FrameExceptionalSnow,
    /// The same down the slope.
    FrameExceptionalSnowDown,
    /// Weight of the rail square to the roof.
    RailLineWeight,
    /// The same down the slope.
    RailLineWeightDown,
    /// Rigidity of the rail square to the roof.
    RailRigidityNormal,
    /// The same along the slope.
    RailRigiditySlope,
    /// Axial stiffness of a rail up the slope.
    RailAxialRigidity,
    /// Share of the mean that the lower frame of a module takes square to the slope.
    LowerFrameShare,
    /// The same of the upper frame.
    UpperFrameShare,
    /// Spring of every hook under the rail, square to the roof.
    SupportSpringNormal,
    /// The same along the slope.
    SupportSpringSlope,
}
