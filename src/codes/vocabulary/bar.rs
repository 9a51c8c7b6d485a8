//! A solid flat bar of steel.

use crate::units::{Length, Moment, Stress};

/// Grade of steel a flat bar is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SteelGrade {
    /// S235 of EN 10025-2.
    S235,
    /// S275 of EN 10025-2.
    S275,
    /// S355 of EN 10025-2.
    S355,
    /// 1.4301 of EN 10088.
    Stainless1_4301,
    /// 1.4401 of EN 10088.
    Stainless1_4401,
}

/// A flat bar: its section and what it is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlatBar {
    /// Width.
    pub width: Length,
    /// Thickness, in the direction in which it is bent.
    pub thickness: Length,
    /// Grade.
    pub grade: SteelGrade,
}

/// What a flat bar bears, and how stiff its steel is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarResistance {
    /// Design moment about the axis along its width.
    pub bending: Moment,
    /// Design torsion.
    pub torsion: Moment,
    /// Modulus of elasticity.
    pub elasticity: Stress,
}
