//! The wire: what a request may say and what an answer says.
//!
//! Plain `f64` with the unit in the field name; every field documents meaning, unit, range and
//! an example, and the published description is generated from here.
//!
//! **Layer.** Only `service` and `http` know these types; the calculation gets resolved values.

pub mod actions;
pub mod array;
pub mod batch;
pub mod building;
pub mod built;
pub mod capacity;
pub mod catalogue;
pub mod choices;
pub mod components;
pub mod declarations;
pub mod distances;
pub(crate) mod enumeration;
mod envelope;
pub mod evidence;
pub mod fault;
pub mod filling;
pub mod kinds;
pub mod layout;
pub mod parts;
pub mod phases;
pub mod provenance;
pub mod recheck;
pub mod record;
pub mod remarks;
pub mod remedies;
pub mod report;
pub mod savings;
pub mod roof;
pub mod room;
pub mod scopes;
mod shapes;
pub mod sheets;
pub mod short;
pub mod signature;
pub mod site;
pub mod statement;
pub mod summary;
pub mod survey;
pub mod tables;
pub mod utilisation;
pub mod watertight;
