//! EN 1991-1-4:2005+A1:2010, wind: from the map to the pressure on a piece of roof.
//!
//! **Signs.** Coefficients and pressures are positive when they press on the surface.
//!
//! **Left out.** Structural factor (1 for stiff small parts), internal pressure, friction, flat
//! and multispan roofs, skins behind skins (7.2.10).

pub mod coefficients;
pub mod duopitch;
pub mod hipped;
pub mod monopitch;
pub mod plan;
pub mod tables;
pub mod velocity;

pub(super) const EN1991_1_4: &str = "EN 1991-1-4:2005+A1:2010";
