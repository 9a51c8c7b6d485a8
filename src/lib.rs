//! Lays out and checks the roof hooks of a solar array on a tiled or slated pitched roof.
//!
//! The map, top layer first; `tests/layers.rs` holds the direction of dependencies:

/// The embedded illustrative parts a request may name by id.
pub mod components;
/// Flags and environment, read once into one struct.
pub mod config;
/// HTTP: routes, checked bodies, problems, published description.
pub mod http;
/// One pure pipeline per endpoint: request in, answer or faults out.
pub mod jobs;
/// The wire: what a request may say and what an answer says.
pub mod model;
/// What the standards say, one file per document and edition.
pub mod rules;
/// One job without HTTP: file or standard input in, answer or problem out.
pub mod solve;
/// Quantities with units.
pub mod units;
