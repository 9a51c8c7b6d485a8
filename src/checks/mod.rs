//! Does it hold: demand against resistance, one file per member.
//!
//! A utilisation is demand over resistance: 1 is just enough. Every check is a pure function of
//! forces and properties, and the search for the fewest hooks runs the very functions that write
//! the answer.
//!
//! **Layer.** Knows rules, mechanics and covering; nothing of requests or placement.

pub mod arm;
pub mod bolt;
pub mod boundary;
pub mod bounds;
pub mod clearance;
pub mod crossing;
pub mod foot;
pub mod hook;
pub mod module;
pub mod probe;
pub mod rafter;
pub mod rail;
pub mod roll;
mod screening;
pub mod screws;
pub mod segment;
pub mod sideways;
pub mod stacks;
pub mod windows;

macro_rules! checks {
    ($($(#[$what:meta])+ $check:ident = $name:literal;)+) => {
        /// The checks by name.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Check {
            $($(#[$what])+ $check,)+
        }

        impl Check {
            /// Every check.
            pub const ALL: &'static [Self] = &[$(Self::$check),+];

            /// Name in answers.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self {
                    $(Self::$check => $name,)+
                }
            }
        }
    };
}

checks! {
    /// The hook itself.
    Hook = "hook";
    /// The bolt that holds the rail to it, and its slot.
    Bolt = "bolt";
    /// Its screws.
    Screws = "screws";
    /// The timber its foot presses on.
    FootBearing = "foot_bearing";
    /// The arm against the tile below.
    Clearance = "clearance";
    /// Bending of the rail.
    RailBending = "rail_bending";
    /// Deflection of the rail.
    RailDeflection = "rail_deflection";
    /// Bending of the rail where its pieces meet.
    Splice = "splice";
    /// The connector that holds an upper rail on a lower one.
    Crossing = "crossing";
    /// A load on a module.
    Module = "module";
    /// A clamp.
    Clamp = "clamp";
    /// Slip of a clamp down the slope.
    ClampSlip = "clamp_slip";
    /// Bending or shear of a rafter.
    Rafter = "rafter";
}

/// What a check is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Member {
    /// Hooks with all that holds them and that they hold by.
    Fixing,
    /// Rails.
    Rail,
    /// Modules and their clamps.
    Module,
    /// Rafters.
    Rafter,
}

impl Member {
    /// Every member.
    pub const ALL: [Self; 4] = [Self::Fixing, Self::Rail, Self::Module, Self::Rafter];
}

impl Check {
    /// What it is a check of.
    #[must_use]
    pub const fn member(self) -> Member {
        match self {
            Self::Hook | Self::Bolt | Self::Screws | Self::FootBearing | Self::Clearance => {
                Member::Fixing
            }
            Self::RailBending | Self::RailDeflection | Self::Splice | Self::Crossing => {
                Member::Rail
            }
            Self::Module | Self::Clamp | Self::ClampSlip => Member::Module,
            Self::Rafter => Member::Rafter,
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

/// What uses most of its resistance; of equals the first, and nothing where nothing is used.
pub fn most_used<T>(all: impl IntoIterator<Item = (T, Governing)>) -> Option<(T, Governing)> {
    all.into_iter()
        .filter(|(_, governing)| governing.utilisation > 0.0)
        .reduce(|most, next| if next.1.utilisation > most.1.utilisation { next } else { most })
}
