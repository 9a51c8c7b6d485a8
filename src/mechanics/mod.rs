//! Statics without standards: a beam on point springs, the lever rule, a rigid plate under an
//! eccentric load.
//!
//! **Layer.** Knows no roof, no product and no standard.

pub mod beam;
pub mod bedded_plate;
pub mod bent_bar;
pub mod elastic_line;
pub mod lever;
pub mod plate;
pub mod pressed_edge;
pub mod skyline;
pub mod sweep;
