//! Resistances: what a screwed plate and a rail bear, or that the rules do not say.

use crate::codes::cited::Step;
use crate::codes::{NotCovered, Timber};
use crate::roof::BearingFace;
use crate::units::{Density, FlexuralRigidity, Force, Length, Moment, Stress};

/// A resistance the rules know, or are silent about.
///
/// Where they are silent a check has nothing to compare with: it is not run, and its element is
/// reported as not verified.
#[derive(Debug, Clone, PartialEq)]
pub enum Resistance<T> {
    /// What is borne.
    Known(T),
    /// The rule that does not cover the case.
    Silent(NotCovered),
}

impl<T> Resistance<T> {
    /// The resistance where it is known.
    #[must_use]
    pub const fn known(&self) -> Option<&T> {
        match self {
            Self::Known(resistance) => Some(resistance),
            Self::Silent(_) => None,
        }
    }
}

impl<T> From<Result<T, NotCovered>> for Resistance<T> {
    fn from(found: Result<T, NotCovered>) -> Self {
        match found {
            Ok(resistance) => Self::Known(resistance),
            Err(silent) => Self::Silent(silent),
        }
    }
}

/// How two demands on one element add up to its utilisation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Interaction {
    /// The sum of the shares.
    Linear,
    /// The root of the sum of their squares, so that it grows with the demands as they do.
    RootOfSquares,
}

impl Interaction {
    /// Utilisation under two demands, each over its resistance.
    #[must_use]
    #[inline]
    pub fn utilisation(self, [one, other]: [f64; 2]) -> f64 {
        match self {
            Self::Linear => one + other,
            Self::RootOfSquares => one.hypot(other),
        }
    }
}

/// Design resistance of one screw of a plate under one combination.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScrewResistance {
    /// Against pull.
    pub pull: Force,
    /// Against shear.
    pub shear: Force,
    /// How both demands meet.
    pub interaction: Interaction,
}

impl ScrewResistance {
    /// Utilisation under pull and shear, both as magnitudes. Without a demand an absent resistance
    /// does no harm.
    #[must_use]
    #[inline]
    pub fn utilisation(&self, pull: Force, shear: Force) -> f64 {
        self.interaction.utilisation(self.shares(pull, shear))
    }

    /// What pull and shear, both as magnitudes, use by themselves.
    #[must_use]
    #[inline]
    pub fn shares(&self, pull: Force, shear: Force) -> [f64; 2] {
        let share = |ed: Force, rd: Force| if ed == Force::ZERO { 0.0 } else { ed / rd };
        [share(pull, self.pull), share(shear, self.shear)]
    }
}

/// Design resistance of a rail in bending about its two axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RailResistance {
    /// Moment under load square to the roof.
    pub normal: Moment,
    /// Moment under load along the slope.
    pub slope: Moment,
    /// How both moments meet.
    pub interaction: Interaction,
}

impl RailResistance {
    /// Utilisation under two moments in one place. A resistance of zero gives an infinite
    /// utilisation under any moment and none without one.
    #[must_use]
    #[inline]
    pub fn utilisation(&self, normal: Moment, slope: Moment) -> f64 {
        let share = |m: Moment, rd: Moment| if m == Moment::ZERO { 0.0 } else { m.abs() / rd };
        self.interaction.utilisation([share(normal, self.normal), share(slope, self.slope)])
    }
}

/// Design resistance of a rail to a force along its axis, beside what bends it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxialResistance {
    /// Force of either sense.
    pub force: Force,
    /// Critical force times the square of the length without a support.
    pub critical: FlexuralRigidity,
}

impl AxialResistance {
    /// Critical force of a part so long.
    #[must_use]
    pub fn critical_over(&self, length: Length) -> Force {
        Force::from_n(self.critical.nmm2() / length.mm().powi(2))
    }

    /// Utilisation under a force along the axis where bending alone uses so much, with the rail so long
    /// without a support. The force is taken as one that presses, and so as one that bends it further.
    #[must_use]
    #[inline]
    pub fn utilisation(&self, bent: f64, force: Force, length: Length) -> f64 {
        let share = force.abs().n() * length.mm().powi(2) / self.critical.nmm2();
        if share >= 1.0 {
            return f64::INFINITY;
        }
        bent / (1.0 - share) + force.abs() / self.force
    }
}

/// A steel plate screwed to timber.
#[derive(Debug, Clone, Copy)]
pub struct ScrewedPlate<'a> {
    /// Outer diameter of the thread.
    pub diameter: Length,
    /// Inner diameter of the thread.
    pub core: Length,
    /// Declared withdrawal strength and the density it was declared at.
    pub withdrawal: Option<(Stress, Density)>,
    /// Declared tension of the steel.
    pub tension: Force,
    /// Yield moment.
    pub yield_moment: Moment,
    /// Whether holes are drilled first.
    pub predrilled: bool,
    /// Where the screws stand, across and along the grain.
    pub positions: &'a [[Length; 2]],
    /// Thickness of the plate.
    pub plate: Length,
    /// What does not bear between plate and timber.
    pub gap: Length,
    /// Length of a screw in the timber.
    pub embedment: Length,
    /// Threaded length in the timber.
    pub threaded: Length,
}

/// What the screws of a plate bear.
#[derive(Debug, Clone, PartialEq)]
pub struct Connection {
    /// Design resistance of one screw, combination by combination.
    pub design: Vec<ScrewResistance>,
    /// How its characteristic values were found.
    pub steps: Vec<Step>,
}

/// Timber that the foot of a hook presses on, across the grain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BearingTimber {
    /// The face.
    pub face: BearingFace,
    /// Whether it lies on hard ground all along: on nothing that gives way.
    pub backed: bool,
    /// Clear distance to the next foot along the grain.
    pub clear: Length,
    /// Strength class.
    pub timber: Timber,
}

/// A screw as the rules for its place in timber see it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlacedScrew {
    /// Outer diameter of the thread.
    pub diameter: Length,
    /// Inner diameter of the thread.
    pub core: Length,
    /// Whether holes are drilled first.
    pub predrilled: bool,
}

/// Least distances of screws in timber, and the least timber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScrewDistances {
    /// Thickness of the timber along the screw, for the distances to hold.
    pub timber: Length,
    /// Between screws along the grain, under pull and lateral load.
    pub along: Length,
    /// Between screws across the grain, under pull and lateral load.
    pub across: Length,
    /// To an edge, under pull.
    pub pulled_edge: Length,
    /// To an edge a lateral load does not point at.
    pub unloaded_edge: Length,
    /// To an edge a lateral load points at.
    pub loaded_edge: Length,
}

/// Strength class of a bolt, as its head is marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BoltClass {
    /// 4.6.
    Steel4Point6,
    /// 5.6.
    Steel5Point6,
    /// 8.8.
    Steel8Point8,
    /// 10.9.
    Steel10Point9,
    /// A2-50 and A4-50.
    Stainless50,
    /// A2-70 and A4-70.
    Stainless70,
    /// A2-80 and A4-80.
    Stainless80,
}

/// What a bolt bears.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoltResistance {
    /// In shear, in one plane.
    pub shear: Force,
    /// In tension.
    pub tension: Force,
    /// In tension, as it counts in the sum with shear.
    pub tension_beside_shear: Force,
}

impl BoltResistance {
    /// Utilisation under shear and tension, both as magnitudes.
    #[must_use]
    pub fn utilisation(&self, shear: Force, tension: Force) -> f64 {
        let together = shear / self.shear + tension / self.tension_beside_shear;
        together.max(tension / self.tension)
    }
}
