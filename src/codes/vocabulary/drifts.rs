//! Snow that does not lie evenly: what gathers it, and how it lies then.

use crate::codes::NotCovered;
use crate::codes::cited::Step;
use crate::geometry::{Point, Ramp, Rect};
use crate::units::{Angle, Area, Force, Length, LineLoad, Pressure};

/// Something beside the slope or on it that gathers snow. Places in mm of the roof plane; a line has the
/// slope to its left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Gatherer {
    /// A taller building.
    Wall(Wall),
    /// A valley towards another slope.
    Valley {
        /// Its side of the outline.
        side: usize,
        /// The line of it.
        line: [Point; 2],
        /// From the valley to the ridge, on plan.
        run: Length,
        /// Pitch of the slope on the other side.
        other_pitch: Angle,
    },
    /// Something that stands on the slope.
    Obstacle {
        /// By place in the request.
        obstacle: usize,
        /// Around it.
        bounds: Rect,
        /// Above the covering.
        height: Length,
        /// Coefficient of the snow at it, where somebody answers for one.
        factor: Option<f64>,
    },
    /// Eaves with modules close above them.
    Eaves {
        /// Their side of the outline.
        side: usize,
        /// The line of them.
        line: [Point; 2],
    },
}

/// A taller building beside the slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wall {
    /// Side of the outline.
    pub side: usize,
    /// The line of it.
    pub line: [Point; 2],
    /// Which way the wall lies from the slope.
    pub towards: Towards,
    /// Least and greatest height above the covering.
    pub heights: [Length; 2],
    /// Width of the taller roof and of this one, on plan and square to the wall.
    pub widths: [Length; 2],
    /// Pitch and length on plan of the slope of the taller roof that falls towards the wall.
    pub upper_slope: (Angle, Length),
}

/// Which way something lies from the slope.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Towards {
    /// Up the slope.
    Above,
    /// Down it.
    Below,
    /// To the left.
    Left,
    /// To the right.
    Right,
}

/// Where snow gathers in an arrangement.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gathers {
    /// Against walls that lie the same way.
    Wall(Towards),
    /// In valleys.
    Valley,
    /// Around what stands on the slope.
    Obstacles,
    /// Over the eaves.
    Eaves,
}

impl Gathers {
    /// Name in ids.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Wall(Towards::Above) => "wall-above",
            Self::Wall(Towards::Below) => "wall-below",
            Self::Wall(Towards::Left) => "wall-left",
            Self::Wall(Towards::Right) => "wall-right",
            Self::Valley => "valley",
            Self::Obstacles => "obstacles",
            Self::Eaves => "eaves",
        }
    }
}

/// What snow lies against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Against {
    /// A side of the outline.
    Side(usize),
    /// An obstacle, by place in the request.
    Obstacle(usize),
}

/// One way the snow can lie that is not even over the slope.
#[derive(Debug, Clone, PartialEq)]
pub struct Arrangement {
    /// Where it gathers.
    pub gathers: Gathers,
    /// Coefficient on all of the slope.
    pub base: f64,
    /// What lies on it besides.
    pub drifts: Vec<Drift>,
    /// Lines of eaves with snow hanging over them.
    pub eaves: Vec<[Point; 2]>,
    /// What hangs there per length, from characteristic and from exceptional snow on the ground.
    pub over_eaves: [LineLoad; 2],
    /// How it was found.
    pub steps: Vec<Step>,
    /// Pitch of the slope.
    pitch: Angle,
}

/// Snow that lies deepest along a line and thins out evenly on plan, or ends at once.
#[derive(Debug, Clone, PartialEq)]
pub struct Drift {
    /// What it lies against.
    pub against: Against,
    /// Coefficient along the line.
    pub factor: f64,
    /// How far it reaches on plan.
    pub reach: Length,
    /// Where it lies, on plan in mm.
    ramps: Vec<Ramp>,
    /// How it was found.
    pub steps: Vec<Step>,
}

/// Snow on the ground as characteristic or as accidental action.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GroundLevel {
    /// `s_k`.
    Characteristic,
    /// `s_Ad`.
    Exceptional,
}

/// A vertical force of snow on part of a rectangle, and where it acts in the roof plane, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SnowPatch {
    /// The force.
    pub weight: Force,
    /// Its place.
    pub at: Point,
}

impl Drift {
    /// Along lines of a slope of this pitch, with what they border to their left.
    #[must_use]
    pub fn new(
        against: Against,
        factor: f64,
        reach: Length,
        lines: &[[Point; 2]],
        pitch: Angle,
        steps: Vec<Step>,
    ) -> Self {
        let ramp = |line: &[Point; 2]| Ramp::new(line.map(|end| end.on_plan(pitch)), reach.mm());
        Self { against, factor, reach, ramps: lines.iter().map(ramp).collect(), steps }
    }

    /// The same, as deep all over its reach as along the line.
    #[must_use]
    pub fn level(mut self) -> Self {
        self.ramps = self.ramps.into_iter().map(Ramp::level).collect();
        self
    }

    /// Its coefficient along the line above that on all of the slope.
    fn excess(&self, base: f64) -> f64 {
        (self.factor - base).max(0.0)
    }
}

/// How far above the eaves modules may begin and still bear what hangs over them, mm; judgement.
pub const NEAR_EAVES: f64 = 300.0;

impl Arrangement {
    /// With nothing but this coefficient on a slope of this pitch.
    #[must_use]
    pub const fn new(gathers: Gathers, base: f64, pitch: Angle) -> Self {
        Self {
            gathers,
            base,
            drifts: Vec::new(),
            eaves: Vec::new(),
            over_eaves: [LineLoad::ZERO; 2],
            steps: Vec::new(),
            pitch,
        }
    }

    /// Forces on a module, from the load per area of plan at a coefficient of 1: what lies on all of it at its middle, each drift at its own centroid, and
    /// what hangs over the eaves at its lower edge.
    pub fn on_module<'a>(
        &'a self,
        (unit, level): (Pressure, GroundLevel),
        module: &'a Rect,
    ) -> impl Iterator<Item = SnowPatch> + 'a {
        let force = move |plan: f64| unit * Area::from_mm2(plan);
        let even = SnowPatch {
            weight: force(self.base * module.area() * self.pitch.cos()),
            at: module.centre(),
        };
        let corners = self.corners(module);
        let drifted = self.drifts.iter().flat_map(move |drift| {
            let excess = drift.excess(self.base);
            let heaps = drift.ramps.iter().filter_map(move |ramp| ramp.over(&corners));
            heaps.map(move |heap| SnowPatch {
                weight: force(excess * heap.volume),
                at: Point { x: heap.at.x, y: heap.at.y / self.pitch.cos() },
            })
        });
        let over_eaves = self.over_eaves[level as usize];
        let hanging = self.eaves.iter().filter_map(move |line| {
            let [left, right] = Gatherer::eaves_below(line, module)?;
            let at = Point { x: f64::midpoint(left, right), y: module.y[0] };
            Some(SnowPatch { weight: over_eaves * Length::from_mm(right - left), at })
        });
        std::iter::once(even).chain(drifted).chain(hanging)
    }

    /// Weight of the snow on a module if it lay everywhere as deep as where it is deepest.
    #[must_use]
    pub fn most_on_module(&self, (unit, level): (Pressure, GroundLevel), module: &Rect) -> Force {
        let over_eaves = self.over_eaves[level as usize];
        let hanging = self.eaves.iter().filter_map(|line| Gatherer::eaves_below(line, module));
        let hanging = hanging.map(|[left, right]| over_eaves * Length::from_mm(right - left));
        let plan = Area::from_mm2(module.area() * self.pitch.cos());
        unit * self.greatest_on(module) * plan + hanging.sum()
    }

    /// The greatest coefficient anywhere on a rectangle, or one that is greater: drifts that overlap
    /// are greatest in the same place.
    #[must_use]
    pub fn greatest_on(&self, rect: &Rect) -> f64 {
        let corners = self.corners(rect);
        let drifts = self.drifts.iter().flat_map(|drift| {
            let excess = drift.excess(self.base);
            drift.ramps.iter().map(move |ramp| excess * ramp.greatest_over(&corners))
        });
        self.base + drifts.sum::<f64>()
    }

    fn corners(&self, rect: &Rect) -> [Point; 4] {
        rect.corners().map(|[x, y]| Point { x, y }.on_plan(self.pitch))
    }
}

impl Gatherer {
    /// The part of a line of eaves that a module lies close above, left and right.
    #[must_use]
    pub fn eaves_below([from, to]: &[Point; 2], module: &Rect) -> Option<[f64; 2]> {
        let above = module.y[0] - from.y.max(to.y);
        let [left, right] = [from.x.max(module.x[0]), to.x.min(module.x[1])];
        (above <= NEAR_EAVES && left < right).then_some([left, right])
    }
}

/// Ways snow can lie besides evenly, and what the rules know nothing of.
#[derive(Debug, Clone, Default)]
pub struct Arranged {
    /// The ways.
    pub arrangements: Vec<Arrangement>,
    /// What gathers snow in a way the rules do not cover, by place among what was asked.
    pub silent: Vec<(usize, NotCovered)>,
    /// That some of the ways follow a rule that stands in for that of the country.
    pub stands_in: bool,
}
