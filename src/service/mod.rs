//! One pure pipeline per endpoint: request in, answer or faults out.
//!
//! **Layer.** Knows the types of `wire` and everything below; no HTTP.

pub mod actions;
pub mod answer;
pub mod batch;
pub mod building;
pub mod choices;
pub mod digest;
pub mod figures;
pub mod intake;
mod laying;
pub mod layout;
pub mod mechanics;
mod phases;
pub mod recheck;
mod remedies;
mod room;
mod savings;
pub mod request;
pub mod rounding;
mod sheet;
pub mod shown;
pub mod signing;
pub mod statement;
mod steps;
pub mod survey;
pub mod tables;
pub mod trace;
pub mod wording;
