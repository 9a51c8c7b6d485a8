//! Lays out and checks the roof hooks of a solar array on a tiled or slated pitched roof.
//!
//! The modules below are listed top layer first; `tests/layers.rs` holds the direction of their
//! dependencies.

// Plain comments: the documentation of a module is its own header.
pub mod config; // flags and environment, read once into one struct
pub mod report; // what the answers of many jobs come to
pub mod verify; // whether signed answers are what was signed
pub mod solve; // jobs without HTTP: files and pipes in, answers or problems out
pub mod http; // routes, checked bodies, problems, published description
pub mod service; // one pure pipeline per endpoint: request in, answer or faults out
pub mod components; // the embedded illustrative parts a request may name by id
pub mod wire; // the wire: what a request may say and what an answer says
pub mod drawing; // pictures of a layout: the slope, the section through a hook, plots along a rail
pub mod language; // what people read, in every language
pub mod assessment; // what was found, as values, and the verdict it leaves
pub mod parts; // what to order, how to cut the rails, what to carry up
pub mod survey; // what was measured on the roof: packers and slots that make a straight rail
pub mod placement; // where rails and hooks go, and the proof that fewer will not do
pub mod checks; // does it hold: demand against resistance, one file per member
pub mod covering; // where courses and tiles lie, and how high they stand
pub mod codes; // what the standards say, one file per document and edition
pub mod mechanics; // statics without standards: beam on springs, rigid plate
pub mod hardware; // the parts as the calculation sees them
pub mod roof; // the roof as the calculation sees it
pub mod geometry; // plane figures of the slope
pub mod units; // quantities with units
pub mod effort; // what one job may take, in steps and bytes
