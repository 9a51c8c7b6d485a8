//! EN 1995-1-1:2004+A1:2008, timber structures: timber itself, and screws in it.
//!
//! **Signs.** Strengths and resistances are positive.
//!
//! **Left out.** Timber-to-timber connections, fire, serviceability, glued products.

pub mod screws_axial;
pub mod screws_lateral;
pub mod screws_spacing;
pub mod timber;

pub(super) const EN1995: &str = "EN 1995-1-1:2004+A1:2008";
