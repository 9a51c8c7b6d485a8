//! What was assumed, because a request left it open, and choices of model that hold for every job: a
//! code and a typed value each. `language` says them and why.

use crate::codes::vocabulary::Evidence;
use crate::units::{Angle, Area, Density, Force, Length, LineLoad, Pressure, Stiffness};

use super::Value;

/// Something assumed.
#[derive(Debug, Clone, PartialEq)]
pub enum Assumed {
    /// `roof.rectangular-slope`.
    RectangularSlope(Length),
    /// `rafters.strength-class`.
    RafterClass(&'static str),
    /// `covering.usual`.
    UsualCovering(String),
    /// `covering.usual-gauge`.
    UsualGauge(Length),
    /// `layers.usual`.
    UsualLayers(String),
    /// `field.name`.
    FieldName(String),
    /// `slope.name`.
    SlopeName(String),
    /// `field.column-gap`.
    ColumnGap(Length),
    /// `field.row-gap`.
    RowGap(Length),
    /// `field.origin-along-eaves`.
    MiddleOfSlope(Length),
    /// `field.origin-up-slope`.
    MiddleOfSlopeUp(Length),
    /// `field.fill-region`.
    WholeSlopeFilled,
    /// `field.fill-rows`.
    FilledInColumns,
    /// `field.fill-party-wall`.
    FilledAwayFromPartyWall(Length),
    /// `array.rails-along-eaves`.
    AlongEaves,
    /// `field.portrait`.
    Portrait,
    /// `rules.revision`.
    Revision(&'static str),
    /// `site.consequence-class`.
    OrdinaryBuilding,
    /// `site.exposure-factor`.
    Exposure(f64),
    /// `site.thermal-factor`.
    Thermal(f64),
    /// `snow.not-held`.
    SnowNotHeld,
    /// `snow.held`.
    SnowHeld,
    /// `abutment.least-height`.
    LeastWallHeight(Length),
    /// `abutment.upper-run`.
    UpperRun(Length),
    /// `hip.pitch-beyond`.
    PitchBeyondHip(Angle),
    /// `roof.edges-by-course`.
    EdgesByCourse,
    /// `wind.hipped-zones`.
    HippedZones,
    /// `snow.not-exceptional`.
    NoExceptionalSnow,
    /// `wind.orography-factor`.
    FlatTerrain(f64),
    /// `wind.model`.
    RoofSurface,
    /// `snow.zone`.
    SnowZoneOfPlace {
        /// The zone.
        zone: &'static str,
        /// The place as a sentence names it.
        place: String,
        /// How well that is known.
        known: Evidence,
    },
    /// `wind.zone`.
    WindZoneOfPlace {
        /// The zone.
        zone: &'static str,
        /// The place as a sentence names it.
        place: String,
        /// How well that is known.
        known: Evidence,
    },
    /// `wind.equalisation`.
    Equalised {
        /// Factor on suction.
        suction: f64,
        /// Factor on pressure.
        pressure: f64,
        /// Where both come from, in the words of the caller.
        evidence: String,
    },
    /// `wind.loaded-area`.
    FixingArea(Area),
    /// `obstacle.clearance`.
    ObstacleStrip(Length),
    /// `obstacle.low`.
    ObstacleLow,
    /// `obstacle.cuts-rafters`.
    OpeningFitting(Length),
    /// `rafters.equal-centres`.
    RaftersAtEqualCentres,
    /// `rafters.usual-spacings`.
    UsualSpacings([Length; 3]),
    /// `rafters.phase-step`.
    PhaseStep(Length),
    /// `rafters.not-trussed`.
    NoTrusses,
    /// `rafters.existing-load`.
    ExistingLoad(Pressure),
    /// `layers.counter-batten-width`.
    CounterBattenWidth(Length),
    /// `layers.bearing-strength-class`.
    BearingClass(&'static str),
    /// `hook.slot-setting`.
    SlotEnds(Length),
    /// `screw.point`.
    ScrewPoint(Length),
    /// `tile.nibs`.
    MiddleNib,
    /// `covering.troughs`.
    TroughsAnywhere,
    /// `tile.head-projection`.
    HeadProjection(Length),
    /// `covering.rule-pitch`.
    RulePitch(Angle),
    /// `covering.least-pitch`.
    LeastPitch(Angle),
    /// `covering.hook-passage`.
    HooksThroughLaps,
    /// `array.edge-distance`.
    EdgeDistance(Length),
    /// `party-wall.face`.
    PartyWallFace(Length),
    /// `party-wall.roof-beyond`.
    LongRow(Length),
    /// `party-wall.as-verge`.
    PartyWallAsVerge,
    /// `party-wall.below-covering`.
    PartyWallBelowCovering,
    /// `hook.partial-factor`.
    HookPartialFactor(f64),
    /// `hook.arm-grade`.
    ArmGrade(&'static str),
    /// `hook.load-aside`.
    LoadOnArmAxis(Length),
    /// `hook.arm-level`.
    ArmLevel(Length),
    /// `hook.bar-resistance-normal`.
    BarResistanceNormal(Force),
    /// `hook.bar-resistance-slope`.
    BarResistanceSlope(Force),
    /// `hook.bar-stiffness-normal`.
    BarStiffnessNormal(Stiffness),
    /// `hook.resistance-at-bolt`.
    ResistanceAtBolt(Length),
    /// `hook.stiffness-includes-foot`.
    StiffnessWithFoot(bool),
    /// `hook.foot-gives`.
    FootGives(Stiffness),
    /// `hook.bar-stiffness-slope`.
    BarStiffnessSlope(Stiffness),
    /// `hook.stiffness-normal`.
    RigidNormal,
    /// `hook.stiffness-slope`.
    RigidSlope,
    /// `screw.withdrawal-density`.
    WithdrawalDensity(Density),
    /// `screw.withdrawal`.
    WithdrawalByFormula,
    /// `rail.effective-share`.
    WholeSection(f64),
    /// `rail.splice-moment`.
    SpliceAsRail,
    /// `rail.splice-length`.
    SpliceLength(Length),
    /// `rail.load-height`.
    LoadHeight(Length),
    /// `rail.load-heights`.
    LoadHeights(Vec<Length>),
    /// `rail.axis-offset`.
    RailBesideUpright(Length),
    /// `rail.weight`.
    RailWeightless,
    /// `clamp.weight`.
    ClampWeightless,
    /// `clamp.frames`.
    ClampForFrames(Vec<Length>),
    /// `wishes.objective`.
    FewestHooks,
    /// `wishes.max-utilisation`.
    FullUse(f64),
    /// `wishes.min-clearance`.
    MinClearance(Length),
    /// `wishes.min-room-above`.
    MinRoomAbove(Length),
    /// `wishes.search-limit`.
    SearchLimit(u64),
    /// `wishes.arm-position`.
    ArmsTowardsJoints,
    /// `order.stock-aim`.
    LeastLength,
    /// `order.min-piece`.
    MinPiece(Length),
    /// `order.allowances`.
    UsualSpares {
        /// Spare hooks, percent.
        hooks: f64,
        /// Spares of other parts, percent.
        others: f64,
    },
    /// `order.spare-percent`.
    Spares(f64),
    /// `order.pack-size`.
    SoldSingly,
    /// `built.rail-ends`.
    RailEnds(usize),
    /// `built.clearance`.
    ClearanceByGeometry(usize),
    /// `built.hooks-on-axes`.
    HooksOnAxes(Length),
    /// `model.snow-above`.
    SnowAboveArray,
    /// `model.loaded-areas`.
    OwnLoadedAreas,
    /// `model.slope-force`.
    SlopeForceShared,
    /// `model.slope-force-along-rail`.
    SlopeForceAlongRail,
    /// `model.rails-slide`.
    RailsSlide,
    /// `array.rails-held-by-all-hooks`.
    HeldByAllHooks,
    /// `model.crossing-rails`.
    CrossingRails,
    /// `rail.area`.
    AreaByMass(Area),
    /// `model.foot-edge`.
    FootTurnsAboutEdge,
    /// `model.deflection`.
    DeflectionFromChord,
    /// `model.layers`.
    LayersCarryNothing,
    /// `model.plate-grip`.
    PlateGrip,
    /// `model.edge-strip`.
    EdgeStrip,
    /// `model.rail-elastic`.
    RailElastic,
    /// `model.arm`.
    ArmBends,
    /// `model.linear`.
    Linear,
    /// `model.service-class`.
    ServiceClassTwo,
    /// `model.tiles-flat`.
    TilesFlat,
    /// `model.rafter-span`.
    RafterSpanWorst,
    /// `model.rafter-wind`.
    WindOnBareCovering,
    /// `model.person`.
    PersonOnRafter,
    /// `model.foot-roll`.
    RollHeldByRail,
    /// `model.one-bolt`.
    OneBolt,
    /// `model.clamps`.
    ClampsInPairs,
    /// `model.end-caps`.
    CapsAtEnds,
    /// `model.fewest-splices`.
    FewestSplices,
}

impl Assumed {
    /// Stable code.
    #[expect(clippy::too_many_lines, reason = "a table")]
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Revision(_) => "rules.revision",
            Self::OrdinaryBuilding => "site.consequence-class",
            Self::Exposure(_) => "site.exposure-factor",
            Self::Thermal(_) => "site.thermal-factor",
            Self::SnowNotHeld => "snow.not-held",
            Self::SnowHeld => "snow.held",
            Self::LeastWallHeight(_) => "abutment.least-height",
            Self::UpperRun(_) => "abutment.upper-run",
            Self::PitchBeyondHip(_) => "hip.pitch-beyond",
            Self::EdgesByCourse => "roof.edges-by-course",
            Self::HippedZones => "wind.hipped-zones",
            Self::NoExceptionalSnow => "snow.not-exceptional",
            Self::FlatTerrain(_) => "wind.orography-factor",
            Self::RoofSurface => "wind.model",
            Self::SnowZoneOfPlace { .. } => "snow.zone",
            Self::WindZoneOfPlace { .. } => "wind.zone",
            Self::Equalised { .. } => "wind.equalisation",
            Self::FixingArea(_) => "wind.loaded-area",
            Self::ObstacleStrip(_) => "obstacle.clearance",
            Self::ObstacleLow => "obstacle.low",
            Self::OpeningFitting(_) => "obstacle.cuts-rafters",
            Self::RaftersAtEqualCentres => "rafters.equal-centres",
            Self::UsualSpacings(_) => "rafters.usual-spacings",
            Self::PhaseStep(_) => "rafters.phase-step",
            Self::NoTrusses => "rafters.not-trussed",
            Self::ExistingLoad(_) => "rafters.existing-load",
            Self::CounterBattenWidth(_) => "layers.counter-batten-width",
            Self::BearingClass(_) => "layers.bearing-strength-class",
            Self::SlotEnds(_) => "hook.slot-setting",
            Self::ScrewPoint(_) => "screw.point",
            Self::RectangularSlope(_) => "roof.rectangular-slope",
            Self::RafterClass(_) => "rafters.strength-class",
            Self::UsualCovering(_) => "covering.usual",
            Self::UsualGauge(_) => "covering.usual-gauge",
            Self::UsualLayers(_) => "layers.usual",
            Self::FieldName(_) => "field.name",
            Self::SlopeName(_) => "slope.name",
            Self::ColumnGap(_) => "field.column-gap",
            Self::RowGap(_) => "field.row-gap",
            Self::MiddleOfSlope(_) => "field.origin-along-eaves",
            Self::MiddleOfSlopeUp(_) => "field.origin-up-slope",
            Self::WholeSlopeFilled => "field.fill-region",
            Self::FilledInColumns => "field.fill-rows",
            Self::FilledAwayFromPartyWall(_) => "field.fill-party-wall",
            Self::AlongEaves => "array.rails-along-eaves",
            Self::Portrait => "field.portrait",
            Self::MiddleNib => "tile.nibs",
            Self::TroughsAnywhere => "covering.troughs",
            Self::HeadProjection(_) => "tile.head-projection",
            Self::RulePitch(_) => "covering.rule-pitch",
            Self::LeastPitch(_) => "covering.least-pitch",
            Self::HooksThroughLaps => "covering.hook-passage",
            Self::EdgeDistance(_) => "array.edge-distance",
            Self::PartyWallFace(_) => "party-wall.face",
            Self::LongRow(_) => "party-wall.roof-beyond",
            Self::PartyWallAsVerge => "party-wall.as-verge",
            Self::PartyWallBelowCovering => "party-wall.below-covering",
            Self::HookPartialFactor(_) => "hook.partial-factor",
            Self::RigidNormal => "hook.stiffness-normal",
            Self::RigidSlope => "hook.stiffness-slope",
            Self::WithdrawalDensity(_) => "screw.withdrawal-density",
            Self::WithdrawalByFormula => "screw.withdrawal",
            Self::SpliceLength(_) => "rail.splice-length",
            Self::LoadHeight(_) => "rail.load-height",
            Self::LoadHeights(_) => "rail.load-heights",
            Self::ResistanceAtBolt(_) => "hook.resistance-at-bolt",
            Self::RailBesideUpright(_) => "rail.axis-offset",
            Self::RailWeightless => "rail.weight",
            Self::ClampWeightless => "clamp.weight",
            Self::ClampForFrames(_) => "clamp.frames",
            Self::FewestHooks => "wishes.objective",
            Self::FullUse(_) => "wishes.max-utilisation",
            Self::MinClearance(_) => "wishes.min-clearance",
            Self::MinRoomAbove(_) => "wishes.min-room-above",
            Self::SearchLimit(_) => "wishes.search-limit",
            Self::ArmsTowardsJoints => "wishes.arm-position",
            Self::LeastLength => "order.stock-aim",
            Self::MinPiece(_) => "order.min-piece",
            Self::UsualSpares { .. } => "order.allowances",
            Self::Spares(_) => "order.spare-percent",
            Self::SoldSingly => "order.pack-size",
            Self::RailEnds(_) => "built.rail-ends",
            Self::ClearanceByGeometry(_) => "built.clearance",
            Self::HooksOnAxes(_) => "built.hooks-on-axes",
            Self::SnowAboveArray => "model.snow-above",
            Self::OwnLoadedAreas => "model.loaded-areas",
            Self::SlopeForceShared => "model.slope-force",
            Self::SlopeForceAlongRail => "model.slope-force-along-rail",
            Self::RailsSlide => "model.rails-slide",
            Self::HeldByAllHooks => "array.rails-held-by-all-hooks",
            Self::CrossingRails => "model.crossing-rails",
            Self::AreaByMass(_) => "rail.area",
            Self::FootTurnsAboutEdge => "model.foot-edge",
            Self::DeflectionFromChord => "model.deflection",
            Self::LayersCarryNothing => "model.layers",
            Self::PlateGrip => "model.plate-grip",
            Self::EdgeStrip => "model.edge-strip",
            Self::RailElastic => "model.rail-elastic",
            Self::WholeSection(_) => "rail.effective-share",
            Self::SpliceAsRail => "rail.splice-moment",
            Self::ArmGrade(_) => "hook.arm-grade",
            Self::LoadOnArmAxis(_) => "hook.load-aside",
            Self::ArmLevel(_) => "hook.arm-level",
            Self::BarResistanceNormal(_) => "hook.bar-resistance-normal",
            Self::BarResistanceSlope(_) => "hook.bar-resistance-slope",
            Self::BarStiffnessNormal(_) => "hook.bar-stiffness-normal",
            Self::StiffnessWithFoot(_) => "hook.stiffness-includes-foot",
            Self::FootGives(_) => "hook.foot-gives",
            Self::BarStiffnessSlope(_) => "hook.bar-stiffness-slope",
            Self::ArmBends => "model.arm",
            Self::Linear => "model.linear",
            Self::ServiceClassTwo => "model.service-class",
            Self::TilesFlat => "model.tiles-flat",
            Self::RafterSpanWorst => "model.rafter-span",
            Self::WindOnBareCovering => "model.rafter-wind",
            Self::PersonOnRafter => "model.person",
            Self::RollHeldByRail => "model.foot-roll",
            Self::OneBolt => "model.one-bolt",
            Self::ClampsInPairs => "model.clamps",
            Self::CapsAtEnds => "model.end-caps",
            Self::FewestSplices => "model.fewest-splices",
        }
    }

    /// Its value; nothing where it is a choice of model or more than one figure.
    #[expect(clippy::too_many_lines, reason = "a row for each kind")]
    #[must_use]
    pub fn value(&self) -> Option<Value> {
        Some(match self {
            Self::Revision(revision) => Value::Name(revision.to_string()),
            Self::OrdinaryBuilding => Value::Name("CC2".to_owned()),
            Self::Exposure(factor)
            | Self::Thermal(factor)
            | Self::FlatTerrain(factor)
            | Self::FullUse(factor)
            | Self::WholeSection(factor)
            | Self::HookPartialFactor(factor) => Value::Share(*factor),
            Self::SnowNotHeld | Self::NoExceptionalSnow | Self::NoTrusses => Value::Flag(false),
            Self::SnowHeld => Value::Flag(true),
            Self::StiffnessWithFoot(includes) => Value::Flag(*includes),
            Self::RoofSurface => Value::Name("roof_surface".to_owned()),
            Self::BearingClass(name) | Self::RafterClass(name) | Self::ArmGrade(name) => {
                Value::Name((*name).to_owned())
            }
            Self::BarResistanceNormal(force) | Self::BarResistanceSlope(force) => {
                Value::Force(*force)
            }
            Self::BarStiffnessNormal(stiffness)
            | Self::FootGives(stiffness)
            | Self::BarStiffnessSlope(stiffness) => Value::Stiffness(*stiffness),
            Self::FixingArea(area) => Value::Area(*area),
            Self::AreaByMass(area) => Value::Section(*area),
            Self::ObstacleStrip(length)
            | Self::OpeningFitting(length)
            | Self::PhaseStep(length)
            | Self::RectangularSlope(length)
            | Self::UsualGauge(length)
            | Self::ColumnGap(length)
            | Self::RowGap(length)
            | Self::MiddleOfSlope(length)
            | Self::MiddleOfSlopeUp(length)
            | Self::FilledAwayFromPartyWall(length)
            | Self::LeastWallHeight(length)
            | Self::UpperRun(length)
            | Self::CounterBattenWidth(length)
            | Self::SlotEnds(length)
            | Self::LoadOnArmAxis(length)
            | Self::ArmLevel(length)
            | Self::ScrewPoint(length)
            | Self::HeadProjection(length)
            | Self::EdgeDistance(length)
            | Self::PartyWallFace(length)
            | Self::LongRow(length)
            | Self::SpliceLength(length)
            | Self::LoadHeight(length)
            | Self::ResistanceAtBolt(length)
            | Self::RailBesideUpright(length)
            | Self::MinClearance(length)
            | Self::MinRoomAbove(length)
            | Self::MinPiece(length)
            | Self::HooksOnAxes(length) => Value::Length(*length),
            Self::ExistingLoad(load) => Value::Pressure(*load),
            Self::RulePitch(pitch) | Self::LeastPitch(pitch) | Self::PitchBeyondHip(pitch) => {
                Value::Angle(*pitch)
            }
            Self::SnowZoneOfPlace { zone, .. } | Self::WindZoneOfPlace { zone, .. } => {
                Value::Name((*zone).to_owned())
            }
            Self::HooksThroughLaps => Value::Name("headlap".to_owned()),
            Self::PartyWallAsVerge => Value::Name("verge".to_owned()),
            Self::UsualCovering(name)
            | Self::UsualLayers(name)
            | Self::FieldName(name)
            | Self::SlopeName(name) => Value::Name(name.clone()),
            Self::WholeSlopeFilled => Value::Name("outline_mm".to_owned()),
            Self::FilledInColumns => Value::Name("aligned".to_owned()),
            Self::AlongEaves => Value::Name("along_eaves".to_owned()),
            Self::HeldByAllHooks => Value::Name("all_hooks".to_owned()),
            Self::Portrait => Value::Name("portrait".to_owned()),
            Self::MiddleNib => Value::Name("middle".to_owned()),
            Self::TroughsAnywhere => Value::Name("anywhere".to_owned()),
            Self::SpliceAsRail => Value::Name("as_rail".to_owned()),
            Self::RigidNormal | Self::RigidSlope => Value::Name("rigid".to_owned()),
            Self::WithdrawalDensity(density) => Value::Density(*density),
            Self::WithdrawalByFormula => Value::Name("formula".to_owned()),
            Self::RailWeightless => Value::LineLoad(LineLoad::ZERO),
            Self::ClampWeightless => Value::Force(Force::ZERO),
            Self::FewestHooks => Value::Name("fewest_hooks".to_owned()),
            Self::SearchLimit(choices) => Value::Count(*choices),
            Self::ArmsTowardsJoints => Value::Name("towards_side_joint".to_owned()),
            Self::LeastLength => Value::Name("least_length".to_owned()),
            Self::Spares(percent) => Value::Percent(*percent),
            Self::SoldSingly => Value::Count(1),
            Self::RailEnds(count) | Self::ClearanceByGeometry(count) => Value::Count(*count as u64),
            Self::UsualSpares { .. }
            | Self::Equalised { .. }
            | Self::RaftersAtEqualCentres
            | Self::UsualSpacings(_)
            | Self::ClampForFrames(_)
            | Self::LoadHeights(_)
            | Self::EdgesByCourse
            | Self::HippedZones
            | Self::ObstacleLow
            | Self::PartyWallBelowCovering
            | Self::SnowAboveArray
            | Self::OwnLoadedAreas
            | Self::SlopeForceShared
            | Self::SlopeForceAlongRail
            | Self::RailsSlide
            | Self::CrossingRails
            | Self::FootTurnsAboutEdge
            | Self::DeflectionFromChord
            | Self::LayersCarryNothing
            | Self::PlateGrip
            | Self::EdgeStrip
            | Self::RailElastic
            | Self::ArmBends
            | Self::Linear
            | Self::ServiceClassTwo
            | Self::TilesFlat
            | Self::RafterSpanWorst
            | Self::WindOnBareCovering
            | Self::PersonOnRafter
            | Self::RollHeldByRail
            | Self::OneBolt
            | Self::ClampsInPairs
            | Self::CapsAtEnds
            | Self::FewestSplices => return None,
        })
    }

    /// Choices of model that hold for every job.
    pub const OF_MODEL: [Self; 17] = [
        Self::SnowAboveArray,
        Self::OwnLoadedAreas,
        Self::SlopeForceShared,
        Self::FootTurnsAboutEdge,
        Self::DeflectionFromChord,
        Self::LayersCarryNothing,
        Self::PlateGrip,
        Self::EdgeStrip,
        Self::RailElastic,
        Self::ArmBends,
        Self::Linear,
        Self::ServiceClassTwo,
        Self::TilesFlat,
        Self::RafterSpanWorst,
        Self::WindOnBareCovering,
        Self::PersonOnRafter,
        Self::RollHeldByRail,
    ];

    /// Choices of model that hold for every order.
    pub const OF_ORDERS: [Self; 4] =
        [Self::OneBolt, Self::ClampsInPairs, Self::CapsAtEnds, Self::FewestSplices];

    /// One of each, so that every one can be said in a test.
    #[cfg(test)]
    #[must_use]
    #[expect(clippy::too_many_lines, reason = "one line for every assumption")]
    pub fn samples() -> Vec<Self> {
        let length = Length::from_mm(25.0);
        let values = [
            Self::RectangularSlope(length),
            Self::RafterClass("C16"),
            Self::UsualCovering("A".to_owned()),
            Self::UsualGauge(length),
            Self::UsualLayers("A".to_owned()),
            Self::FieldName("A".to_owned()),
            Self::SlopeName("S1".to_owned()),
            Self::ColumnGap(length),
            Self::RowGap(length),
            Self::MiddleOfSlope(length),
            Self::MiddleOfSlopeUp(length),
            Self::WholeSlopeFilled,
            Self::FilledInColumns,
            Self::FilledAwayFromPartyWall(length),
            Self::AlongEaves,
            Self::Portrait,
            Self::Revision("XX-1"),
            Self::OrdinaryBuilding,
            Self::Exposure(1.0),
            Self::Thermal(1.0),
            Self::SnowNotHeld,
            Self::SnowHeld,
            Self::LeastWallHeight(length),
            Self::UpperRun(length),
            Self::PitchBeyondHip(Angle::from_deg(38.0)),
            Self::EdgesByCourse,
            Self::HippedZones,
            Self::NoExceptionalSnow,
            Self::FlatTerrain(1.0),
            Self::RoofSurface,
            Self::SnowZoneOfPlace {
                zone: "A2",
                place: "24 (Dordogne)".to_owned(),
                known: Evidence::OneSource,
            },
            Self::WindZoneOfPlace {
                zone: "1",
                place: "CN (Cuneo)".to_owned(),
                known: Evidence::Confirmed,
            },
            Self::Equalised { suction: 0.6, pressure: 1.0, evidence: "report 17".to_owned() },
            Self::FixingArea(Area::from_m2(1.0)),
            Self::AreaByMass(Area::from_mm2(352.0)),
            Self::SlopeForceAlongRail,
            Self::RailsSlide,
            Self::HeldByAllHooks,
            Self::CrossingRails,
            Self::ObstacleStrip(length),
            Self::ObstacleLow,
            Self::OpeningFitting(length),
            Self::RaftersAtEqualCentres,
            Self::UsualSpacings([length; 3]),
            Self::PhaseStep(length),
            Self::NoTrusses,
            Self::ExistingLoad(Pressure::from_kn_per_m2(0.85)),
            Self::CounterBattenWidth(length),
            Self::BearingClass("C24"),
            Self::SlotEnds(length),
            Self::ScrewPoint(length),
            Self::MiddleNib,
            Self::TroughsAnywhere,
            Self::HeadProjection(length),
            Self::RulePitch(Angle::from_deg(30.0)),
            Self::LeastPitch(Angle::from_deg(30.0)),
            Self::HooksThroughLaps,
            Self::EdgeDistance(length),
            Self::PartyWallFace(length),
            Self::LongRow(length),
            Self::PartyWallAsVerge,
            Self::PartyWallBelowCovering,
            Self::HookPartialFactor(1.25),
            Self::WholeSection(1.0),
            Self::SpliceAsRail,
            Self::ArmGrade("S355"),
            Self::LoadOnArmAxis(length),
            Self::ArmLevel(length),
            Self::BarResistanceNormal(Force::from_kn(0.5)),
            Self::BarResistanceSlope(Force::from_kn(0.5)),
            Self::BarStiffnessNormal(Stiffness::from_kn_per_mm(0.1)),
            Self::StiffnessWithFoot(false),
            Self::FootGives(Stiffness::from_kn_per_mm(0.4)),
            Self::BarStiffnessSlope(Stiffness::from_kn_per_mm(0.1)),
            Self::RigidNormal,
            Self::RigidSlope,
            Self::WithdrawalDensity(Density::from_kg_per_m3(350.0)),
            Self::WithdrawalByFormula,
            Self::SpliceLength(length),
            Self::LoadHeight(length),
            Self::LoadHeights(vec![length, length * 2.0]),
            Self::ResistanceAtBolt(length),
            Self::RailBesideUpright(length),
            Self::RailWeightless,
            Self::ClampWeightless,
            Self::ClampForFrames(vec![length, length * 2.0]),
            Self::FewestHooks,
            Self::FullUse(1.0),
            Self::MinClearance(length),
            Self::MinRoomAbove(length),
            Self::SearchLimit(7),
            Self::ArmsTowardsJoints,
            Self::LeastLength,
            Self::MinPiece(length),
            Self::UsualSpares { hooks: 2.0, others: 5.0 },
            Self::Spares(5.0),
            Self::SoldSingly,
            Self::RailEnds(3),
            Self::ClearanceByGeometry(3),
            Self::HooksOnAxes(length),
        ];
        values.into_iter().chain(Self::OF_MODEL).chain(Self::OF_ORDERS).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_unique() {
        let all = Assumed::samples();
        for (i, one) in all.iter().enumerate() {
            assert!(all[i + 1..].iter().all(|other| other.code() != one.code()), "{}", one.code());
        }
    }
}
