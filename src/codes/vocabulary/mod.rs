//! All that other rooms may know of a code: cases, loads and resistances in words every family of
//! codes can speak.
//!
//! What only one family knows stays inside it: its partial factors and factors on strength, its
//! tables, its zones. Values come with the [`Step`](super::cited::Step)s that led to them.
//!
//! **Units.** As named by the types; plain numbers are factors.

mod bar;
mod combination;
mod connection;
mod drifts;
mod evidence;
mod site;
mod snow;
mod testing;
mod wind;

pub use bar::{BarResistance, FlatBar, SteelGrade};
pub use combination::{
    Combination, CombinationBasis, ConsequenceClass, FactorSet, Factors, LoadDuration, Person,
    Situation,
};
pub use connection::{
    AxialResistance, BearingTimber, BoltClass, BoltResistance, Connection, Interaction,
    PlacedScrew, RailResistance, Resistance, ScrewDistances, ScrewResistance, ScrewedPlate,
};
pub use drifts::{
    Against, Arranged, Arrangement, Drift, Gatherer, Gathers, GroundLevel, SnowPatch, Towards, Wall,
};
pub use evidence::Evidence;
pub use site::{
    LoadOfPlace, PlaceOnMaps, SiteFault, SiteField, SnowOfPlace, SnowSite, Trouble, WindSite,
};

pub use snow::{
    Exceptional, ExceptionalGround, ExceptionalLoad, GroundSnow, OnSlope, Snow, SnowConditions,
    Stated,
};
pub use testing::{Characteristic, Distribution, Series};
pub use wind::{
    Building, ByCase, Coefficients, Direction, Face, LoadedArea, NetCoefficients, PeakPressure,
    Sense, WindCase, WindField, WindPatch, ZoneOnSlope,
};
