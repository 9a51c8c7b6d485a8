//! The parts as the calculation sees them: resolved values, design resistances, units as types.
//!
//! **Layer.** Bottom: knows only `units`.

use crate::geometry::Rect;
use crate::units::{
    Area, Density, FlexuralRigidity, Force, Length, LineLoad, Moment, Pressure, SectionModulus,
    Stiffness, Stress,
};

/// A roof hook. Heights are measured from the underside of its foot.
#[derive(Debug, Clone)]
pub struct Hook {
    /// Design resistance pressing on the roof.
    pub press: Force,
    /// Design resistance lifting.
    pub lift: Force,
    /// Design resistance along the slope.
    pub slope: Force,
    /// Whether these include the rail bolt and its slot.
    pub includes_bolt: bool,
    /// How far the axis of the rail may lie from the bolt for them to hold as they are.
    pub includes_offset: Length,
    /// Design moment of the plate of its foot, where no test or approval stands behind the resistances.
    pub plate_bending: Option<Moment>,
    /// How much farther its arm comes down because the rail lies off its bolt; nothing where its figures
    /// include that. It is in the springs.
    pub turned_share: f64,
    /// Spring square to the roof, on a foot as drawn.
    pub normal_spring: NormalSpring,
    /// The arm's part of it, where the foot gives besides; `None` where the two are not told apart.
    pub arm_spring: Option<NormalSpring>,
    /// Spring along the slope; `None` is not known, and taken as rigid.
    pub slope_stiffness: Option<Stiffness>,
    /// How far to the side of the arm's axis the rail bears on it.
    pub load_aside: Length,
    /// Underside of the arm where it leaves the covering.
    pub arm_underside: Length,
    /// The same at the lower end of the arm, below the rail bolt.
    pub arm_underside_at_bolt: Length,
    /// Width of the arm.
    pub arm_width: Length,
    /// Thickness of the arm.
    pub arm_thickness: Length,
    /// From the foot's lower edge down the slope to the rail bolt.
    pub reach: Length,
    /// Height of the rail bolt.
    pub bolt_height: Length,
    /// From the tail edge the arm leaves under, down the slope to the rail bolt.
    pub bolt_beyond_exit: Length,
    /// How far the bolt can be moved in its slot.
    pub slot_range: Length,
    /// Metal tiles that take the place of tiles at one hook.
    pub substitute_tiles: u32,
    /// The foot.
    pub foot: Foot,
    /// Weight; the statics leave it out.
    pub weight: Force,
}

/// How far a hook comes down towards the tile under load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NormalSpring {
    /// Of a force square to the roof, at the rail bolt; `None` is not known, and taken as rigid.
    pub stiffness: Option<Stiffness>,
    /// The foot's part of that, turning on its screws; `None` where it is not told apart from the arm's.
    pub foot: Option<Stiffness>,
    /// How far a force down the slope presses the arm onto the tile, per what the same force would if it
    /// acted square to the roof.
    pub cross_share: f64,
}

impl NormalSpring {
    /// One of which nothing is known.
    pub const RIGID: Self = Self { stiffness: None, foot: None, cross_share: 0.0 };
}

impl Hook {
    /// What it takes of the slope on a rafter with its axis at `x`, from its rail up to the end of its foot.
    #[must_use]
    pub fn footprint(&self, x: Length, rail: Length) -> Rect {
        let half = self.foot.width.mm() / 2.0;
        let up = (self.reach + self.foot.length).mm();
        let (x, y) = (x.mm(), rail.mm());
        Rect { x: [x - half, x + half], y: [y, y + up] }
    }
}

#[cfg(test)]
impl Hook {
    /// A hook for tests that work a check by hand: 2 kN pressing, 1 kN lifting, 1.5 kN down the slope,
    /// a spring of 0.2 kN/mm and an arm of 260 mm.
    pub(crate) fn sample() -> Self {
        let mm = Length::from_mm;
        Self {
            press: Force::from_kn(2.0),
            lift: Force::from_kn(1.0),
            slope: Force::from_kn(1.5),
            includes_bolt: true,
            includes_offset: Length::ZERO,
            plate_bending: None,
            turned_share: 0.0,
            normal_spring: NormalSpring {
                stiffness: Some(Stiffness::from_n_per_mm(200.0)),
                ..NormalSpring::RIGID
            },
            arm_spring: None,
            slope_stiffness: None,
            load_aside: Length::ZERO,
            arm_underside: mm(70.0),
            arm_underside_at_bolt: mm(70.0),
            arm_width: mm(30.0),
            arm_thickness: mm(8.0),
            reach: mm(260.0),
            bolt_height: mm(105.0),
            bolt_beyond_exit: mm(30.0),
            slot_range: Length::ZERO,
            substitute_tiles: 0,
            foot: Foot {
                length: mm(90.0),
                width: mm(140.0),
                thickness: mm(6.0),
                lateral_range: mm(45.0),
                screws: vec![[mm(0.0), mm(15.0)], [mm(0.0), mm(75.0)]],
            },
            weight: Force::ZERO,
        }
    }
}

/// The foot plate.
#[derive(Debug, Clone)]
pub struct Foot {
    /// Along the slope.
    pub length: Length,
    /// Across the slope.
    pub width: Length,
    /// Plate thickness.
    pub thickness: Length,
    /// How far the arm may sit to either side of the rafter axis.
    pub lateral_range: Length,
    /// Screws: across from the rafter axis, and up from the lower edge.
    pub screws: Vec<[Length; 2]>,
}

/// A wood screw.
#[derive(Debug, Clone)]
pub struct Screw {
    /// Outer diameter of the thread.
    pub diameter: Length,
    /// Core diameter.
    pub core: Length,
    /// Length under the head.
    pub length: Length,
    /// Length of thread, point included.
    pub thread: Length,
    /// Length of the point.
    pub point: Length,
    /// Declared characteristic withdrawal parameter and the density it holds for, kg/m³.
    pub withdrawal: Option<(Stress, crate::units::Density)>,
    /// Characteristic tension capacity.
    pub tension: Force,
    /// Characteristic yield moment.
    pub yield_moment: Moment,
    /// Holes are drilled first.
    pub predrilled: bool,
    /// Least distances its approval gives, in place of those of the rules.
    pub spacings: Option<Spacings>,
}

/// Least distances of a screw by its own approval.
#[derive(Debug, Clone, PartialEq)]
pub struct Spacings {
    /// Between screws along the grain.
    pub along: Length,
    /// Between screws across the grain.
    pub across: Length,
    /// To an edge.
    pub edge: Length,
    /// Thickness of the timber along the screw, where the approval gives one of its own.
    pub timber: Option<Length>,
    /// The approval, as the caller names it.
    pub source: String,
}

/// A rail profile.
#[derive(Debug, Clone)]
pub struct RailProfile {
    /// Height of the profile, taken as its width too.
    pub depth: Length,
    /// `E·I` under load square to the roof.
    pub normal_rigidity: FlexuralRigidity,
    /// `E·I` under load along the slope.
    pub slope_rigidity: FlexuralRigidity,
    /// Elastic section modulus under load square to the roof.
    pub normal_modulus: SectionModulus,
    /// Elastic section modulus under load along the slope.
    pub slope_modulus: SectionModulus,
    /// Design force along its axis that a splice passes on, if it is known.
    pub splice_force: Option<Force>,
    /// Design forces of the connector that holds one such rail on another that it crosses, where it is known:
    /// lifting it off, and along the lower one.
    pub crossing: Option<[Force; 2]>,
    /// Design force along it that the bolt at a hook holds in its groove; `None` where nothing declares it.
    pub groove_slip: Option<Force>,
    /// Area of its section.
    pub area: Area,
    /// Modulus of elasticity.
    pub modulus: Stress,
    /// Characteristic 0.2 % proof strength.
    pub proof_strength: Stress,
    /// Weight.
    pub weight: LineLoad,
    /// Longest stock length.
    pub longest_stock: Length,
    /// Every stock length, in any order.
    pub stock_lengths: Vec<Length>,
    /// Width of a saw cut.
    pub kerf: Length,
    /// Length of rail a splice takes, half to either side of the joint.
    pub splice_length: Length,
    /// Longest free end.
    pub max_cantilever: Length,
    /// Longest rail without expansion gap.
    pub max_continuous: Length,
    /// Beyond the outer edge of the outermost module.
    pub end_projection: Length,
    /// Span divided by this is the deflection allowed.
    pub deflection_ratio: f64,
    /// Its axis from its bolts, down the slope.
    pub axis_offset: Length,
    /// Height above its bolts at which the slope force of the modules acts, if it is declared.
    pub load_height: Option<Length>,
    /// Splices pass shear only.
    pub hinged_splices: bool,
    /// Design moments of a stiff splice, normal and slope; `None` is those of the rail.
    pub splice_moment: Option<[Moment; 2]>,
}

/// What a rail is made of, as far as its modulus of elasticity tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Metal {
    /// Aluminium.
    Aluminium,
    /// Steel.
    Steel,
}

impl Metal {
    /// Of this modulus of elasticity: aluminium has 70 000 N/mm², steel 210 000.
    #[must_use]
    pub fn of(modulus: Stress) -> Self {
        if modulus < Stress::from_n_per_mm2(140_000.0) { Self::Aluminium } else { Self::Steel }
    }

    /// Its density: EN 1999-1-1 3.2.5; EN 1993-1-1 3.2.6 and EN 1991-1-1 Table A.4; from memory.
    #[must_use]
    pub const fn density(self) -> Density {
        Density::from_kg_per_m3(match self {
            Self::Aluminium => 2700.0,
            Self::Steel => 7850.0,
        })
    }

    /// Its expansion, 1/K: EN 1999-1-1 3.2.5 and EN 1993-1-1 3.2.6, from memory.
    #[must_use]
    pub const fn expansion(self) -> f64 {
        match self {
            Self::Aluminium => 23e-6,
            Self::Steel => 12e-6,
        }
    }
}

impl RailProfile {
    /// What it is made of.
    #[must_use]
    pub fn metal(&self) -> Metal {
        Metal::of(self.modulus)
    }

    /// `E·A`.
    #[must_use]
    pub fn axial_rigidity(&self) -> Force {
        self.modulus * self.area
    }
}

/// A module clamp.
#[derive(Debug, Clone)]
pub struct Clamp {
    /// Design lift one clamp holds.
    pub lift: Force,
    /// Design force down the slope one clamp holds its modules against; `None` is not known.
    pub slope: Option<Force>,
    /// Design force down the slope that one stop under the lowest row takes, where there are stops.
    pub stop: Option<Force>,
    /// Weight.
    pub weight: Force,
    /// Gap between modules a mid clamp makes.
    pub mid_gap: Length,
    /// Length of rail an end clamp takes beyond the module.
    pub end_width: Length,
}

/// Packers for under the foot.
#[derive(Debug, Clone)]
pub struct Packers {
    /// Thicknesses, any order.
    pub thicknesses: Vec<Length>,
    /// Highest stack.
    pub max_stack: Length,
}

/// A module.
#[derive(Debug, Clone, PartialEq)]
pub struct Module {
    /// Long side.
    pub length: Length,
    /// Short side.
    pub width: Length,
    /// Height of the frame.
    pub thickness: Length,
    /// Weight.
    pub weight: Force,
    /// Design pressure it takes.
    pub press: Pressure,
    /// Design suction it takes.
    pub lift: Pressure,
    /// Where the long side may be clamped, from either end.
    pub clamp_zone: [Length; 2],
    /// Where the short side may be clamped, from either end, if at all.
    pub short_side_clamp_zone: Option<[Length; 2]>,
}

impl Module {
    /// Its area.
    #[must_use]
    pub fn area(&self) -> Area {
        self.length * self.width
    }
}
