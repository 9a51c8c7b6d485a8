//! Does it hold: demand against resistance, one file per member.
//!
//! A utilisation is demand over resistance: 1 is just enough. Every check is a pure function of
//! forces and properties, and the search for the fewest hooks runs the very functions that write
//! the answer.
//!
//! **Layer.** Knows rules, mechanics and covering; nothing of requests or placement.

pub mod bolt;
pub mod boundary;
pub mod bounds;
pub mod clearance;
pub mod foot;
pub mod hook;
pub mod module;
pub mod probe;
pub mod rafter;
pub mod rail;
mod screening;
pub mod screws;
pub mod segment;
pub mod sideways;
pub mod stacks;
pub mod windows;

/// The checks by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Check {
    /// The hook itself.
    Hook,
    /// The bolt that holds the rail to it, and its slot.
    Bolt,
    /// Its screws.
    Screws,
    /// The timber its foot presses on.
    FootBearing,
    /// The arm against the tile below.
    Clearance,
    /// Bending of the rail.
    RailBending,
    /// Deflection of the rail.
    RailDeflection,
    /// A load on a module.
    Module,
    /// A clamp.
    Clamp,
    /// Slip of a clamp down the slope.
    ClampSlip,
    /// Bending or shear of a rafter.
    Rafter,
}

impl Check {
    /// Name in answers.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hook => "hook",
            Self::Bolt => "bolt",
            Self::Screws => "screws",
            Self::FootBearing => "foot_bearing",
            Self::Clearance => "clearance",
            Self::RailBending => "rail_bending",
            Self::RailDeflection => "rail_deflection",
            Self::Module => "module",
            Self::Clamp => "clamp",
            Self::ClampSlip => "clamp_slip",
            Self::Rafter => "rafter",
        }
    }
}

/// The largest utilisation seen so far, and what it belongs to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Governing {
    /// Utilisation.
    pub utilisation: f64,
    /// Index of the combination.
    pub combination: usize,
}

impl Governing {
    /// Nothing yet.
    pub const NONE: Self = Self { utilisation: 0.0, combination: 0 };

    /// Keeps the larger; of equals the first combination, in whatever order they are seen. Tells
    /// whether this is kept.
    pub fn see(&mut self, utilisation: f64, combination: usize) -> bool {
        let first_of_equals = utilisation > 0.0
            && utilisation.to_bits() == self.utilisation.to_bits()
            && combination < self.combination;
        let kept = utilisation > self.utilisation || first_of_equals;
        if kept {
            *self = Self { utilisation, combination };
        }
        kept
    }
}
