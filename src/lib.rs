//! Lays out and checks the roof hooks of a solar array on a tiled or slated pitched roof.
//!
//! The modules below are listed top layer first; `tests/layers.rs` holds the direction of their
//! dependencies.

// Plain comments: the documentation of a module is its own header.
pub mod config; // flags and environment, read once into one struct
pub mod solve; // one job without HTTP: file or standard input in, answer or problem out
pub mod http; // routes, checked bodies, problems, published description
pub mod jobs; // one pure pipeline per endpoint: request in, answer or faults out
pub mod components; // the embedded illustrative parts a request may name by id
pub mod model; // the wire: what a request may say and what an answer says
pub mod rules; // what the standards say, one file per document and edition
pub mod units; // quantities with units
