//! The roof as the calculation sees it: rafters, and what lies between them and the tiles.
//!
//! **Layer.** Bottom, beside `hardware`.

mod sides;

pub use sides::{End, Side, hip_at};

use crate::geometry::{Outline, Point, Rect};
use crate::units::{Angle, Area, Length, Pressure};

/// Form of a roof.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Two slopes that meet at a ridge.
    Duopitch,
    /// One slope.
    Monopitch,
    /// Slopes on all sides, which meet at ridge and hips.
    Hipped,
}

/// One slope.
#[derive(Debug, Clone)]
pub struct Roof {
    /// Form of the whole roof.
    pub form: Form,
    /// Pitch of the rafters.
    pub pitch: Angle,
    /// Outline of the slope.
    pub outline: Outline,
    /// What each side of the outline is; side `i` runs from point `i` to the next.
    pub edges: Vec<Edge>,
    /// What modules keep away from.
    pub obstacles: Vec<Obstacle>,
    /// The rafters.
    pub rafters: Rafters,
    /// Layers under the covering.
    pub layers: Layers,
    /// How far the array has to stay from edges and party walls.
    pub distances: Distances,
}

/// What a side of the outline is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names are the trade's own")]
pub enum Edge {
    Eaves,
    Verge,
    Ridge,
    Hip,
    Valley,
    Abutment,
    PartyWall,
}

/// How far the array has to stay from edges of the slope and from party walls.
#[derive(Debug, Clone, Default)]
pub struct Distances {
    /// From every edge of a kind.
    pub edges: Vec<EdgeDistance>,
    /// From each party wall.
    pub party_walls: Vec<PartyWall>,
}

/// How far a part of the array has to stay from every edge of a kind.
#[derive(Debug, Clone)]
pub struct EdgeDistance {
    /// Kind of edge.
    pub edge: Edge,
    /// Part of the array.
    pub part: ArrayPart,
    /// What must lie between them.
    pub least: Length,
    /// The rule, as the caller names it; `None` where it is common practice.
    pub source: Option<String>,
}

/// A part of the array.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ArrayPart {
    /// The modules.
    Modules,
    /// The rails with their ends.
    Rails,
    /// The hooks, from the rail to the upper end of the foot.
    Hooks,
}

/// A party wall.
#[derive(Debug, Clone)]
pub struct PartyWall {
    /// Side of the outline.
    pub side: usize,
    /// From the side to the face of the wall, under the covering.
    pub face: Length,
    /// What must lie between wall and array for the sake of fire, and the regulation; `None` where
    /// nobody says.
    pub fire: Option<(Length, String)>,
}

/// The largest distance from party walls that is known of: beyond it nobody has to ask. Building
/// regulations of German states, second-hand.
pub const LARGEST_FIRE_DISTANCE: Length = Length::from_mm(1250.0);

impl PartyWall {
    /// How far from its face the array stays: what is asked for, or as far as nobody has to ask.
    #[must_use]
    pub fn kept(&self) -> Length {
        self.fire.as_ref().map_or(LARGEST_FIRE_DISTANCE, |(least, _)| *least)
    }
}

/// Kinds of obstacle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "the names are the trade's own")]
pub enum ObstacleKind {
    Chimney,
    RoofWindow,
    Dormer,
    Vent,
    Flue,
    SnowGuard,
    StepIron,
    Aerial,
    Other,
}

/// Something modules keep away from.
#[derive(Debug, Clone)]
pub struct Obstacle {
    /// What it is.
    pub kind: ObstacleKind,
    /// Its outline.
    pub outline: Outline,
    /// Strip around it that stays free.
    pub clearance: Length,
    /// Rafters it cuts, where somebody looked.
    pub cuts: Option<Vec<usize>>,
}

impl Obstacle {
    /// Whether it is a pipe that needs no trimmers.
    #[must_use]
    pub fn is_a_pipe(&self) -> bool {
        /// As wide as such a pipe may be; judgement.
        const WIDEST: f64 = 150.0;
        let [left, right] = self.outline.bounds().x;
        matches!(self.kind, ObstacleKind::Vent | ObstacleKind::Flue) && right - left <= WIDEST
    }

    /// Whether it stands in an opening of the roof; what lies on the covering does not, and a pipe goes
    /// between rafters. One of unknown kind is taken to.
    #[must_use]
    pub fn is_an_opening(&self) -> bool {
        match self.kind {
            ObstacleKind::SnowGuard | ObstacleKind::StepIron | ObstacleKind::Aerial => false,
            ObstacleKind::Vent | ObstacleKind::Flue => !self.is_a_pipe(),
            ObstacleKind::Chimney
            | ObstacleKind::RoofWindow
            | ObstacleKind::Dormer
            | ObstacleKind::Other => true,
        }
    }

    /// Whether a rectangle lies on it or inside its strip. A millionth of a millimetre is let go:
    /// modules laid out exactly at the clearance are clear.
    #[must_use]
    pub fn reaches(&self, rect: &Rect) -> bool {
        let strip = self.clearance.mm();
        let around = self.outline.bounds();
        let grown = Rect {
            x: [around.x[0] - strip, around.x[1] + strip],
            y: [around.y[0] - strip, around.y[1] + strip],
        };
        // Far away is the usual case and needs no polygon.
        grown.overlap(rect) > 0.0
            && if strip > 0.0 {
                self.outline.distance(rect) < strip - 1e-6
            } else {
                self.outline.overlaps(rect)
            }
    }
}

/// The rafters.
#[derive(Debug, Clone)]
pub struct Rafters {
    /// Axes from left to right.
    pub positions: Vec<Length>,
    /// Breadth.
    pub width: Length,
    /// Depth.
    pub depth: Length,
    /// Longest free span along the slope, if known.
    pub span: Option<Length>,
    /// Whether they are chords of trusses.
    pub trussed: bool,
    /// Permanent load of covering and timber per area of slope.
    pub permanent: Pressure,
    /// Those that take no hook, from left to right.
    pub barred: Vec<usize>,
    /// Those whose timber was found unsound, from left to right. They take no hook but those they hold already.
    pub unsound: Vec<(usize, Unsound)>,
}

/// What was found wrong with the timber of a rafter, the worst last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unsound {
    /// It is split: what screws bear in it no rule says.
    Split,
    /// It is rotten: it holds no screw.
    Rotten,
}

/// Room on either side of an opening for its frame; judgement.
pub const FITTING: Length = Length::from_mm(20.0);

/// An opening that cuts rafters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cut {
    /// The obstacle in it, by place.
    pub obstacle: usize,
    /// Rafters it cuts, from left to right.
    pub rafters: Vec<usize>,
    /// Whole rafters beside it, which trimmers lay the load of those cut on.
    pub beside: Vec<usize>,
}

impl Roof {
    /// A side of the outline, from its first point to the next.
    #[must_use]
    pub fn side(&self, side: usize) -> [Point; 2] {
        let points = self.outline.points();
        [points[side], points[(side + 1) % points.len()]]
    }

    /// Every opening that cuts rafters: those it is said to cut, or all that do not clear its outline
    /// with the room its frame takes. Trimmers lay their load on the nearest whole rafter on either side.
    #[must_use]
    pub fn cuts(&self) -> Vec<Cut> {
        let count = self.rafters.positions.len();
        let cut = |(obstacle, opening): (usize, &Obstacle)| {
            let rafters = match &opening.cuts {
                Some(said) => said.clone(),
                None if opening.is_an_opening() => {
                    self.rafters_across(opening.outline.bounds().x, self.timber_half())
                }
                // A pipe goes between rafters, unless its outline says that it goes through one.
                None if opening.is_a_pipe() => {
                    self.rafters_across(opening.outline.bounds().x, Length::ZERO)
                }
                None => Vec::new(),
            };
            let is_cut = |rafter: usize| rafters.contains(&rafter);
            let next_to_one =
                |rafter: usize| is_cut(rafter + 1) || rafter.checked_sub(1).is_some_and(is_cut);
            let beside = (0..count).filter(|r| !is_cut(*r) && next_to_one(*r)).collect();
            (!rafters.is_empty()).then_some(Cut { obstacle, rafters, beside })
        };
        self.obstacles.iter().enumerate().filter_map(cut).collect()
    }

    /// From the axis of a rafter to where an opening clears its timber.
    fn timber_half(&self) -> Length {
        self.rafters.width / 2.0 + FITTING
    }

    /// Rafters that do not clear an opening between these two places, mm, by so far from their axes.
    fn rafters_across(&self, [left, right]: [f64; 2], half: Length) -> Vec<usize> {
        let half = half.mm();
        let axes = self.rafters.positions.iter().enumerate();
        let across = axes.filter(|(_, x)| x.mm() - half < right && left < x.mm() + half);
        across.map(|(rafter, _)| rafter).collect()
    }
}

impl Rafters {
    /// Every rafter a hook may stand on, from left to right: its number and its axis.
    pub fn open(&self) -> impl Iterator<Item = (usize, Length)> + '_ {
        let all = self.positions.iter().copied().enumerate();
        all.filter(|(rafter, _)| !self.is_barred(*rafter))
    }

    /// Whether a rafter takes no hook but those that it may hold already.
    #[must_use]
    pub fn is_barred(&self, rafter: usize) -> bool {
        self.barred.binary_search(&rafter).is_ok() || self.found_unsound(rafter).is_some()
    }

    /// What was found wrong with the timber of a rafter, if anything was.
    #[must_use]
    pub fn found_unsound(&self, rafter: usize) -> Option<Unsound> {
        self.unsound.iter().find_map(|(of, what)| (*of == rafter).then_some(*what))
    }

    /// Least area of roof a rafter carries on its span, if that is known.
    #[must_use]
    pub fn carried_area(&self) -> Option<Area> {
        let widths = (0..self.positions.len()).map(|rafter| self.carried_width(rafter));
        Some(widths.reduce(Length::min)? * self.span?)
    }

    /// The strip of roof one rafter carries, left and right.
    #[must_use]
    pub fn strip(&self, rafter: usize) -> [Length; 2] {
        let at = |i: usize| self.positions.get(i).copied();
        let x = at(rafter).unwrap_or(Length::ZERO);
        let left = rafter.checked_sub(1).and_then(at).map(|left| x - left);
        let right = at(rafter + 1).map(|right| right - x);
        let [left, right] = [left.or(right), right.or(left)].map(|bay| bay.unwrap_or(Length::ZERO));
        [x - left / 2.0, x + right / 2.0]
    }

    /// Width of roof one rafter carries: half the way to either neighbour, a full bay at the ends.
    #[must_use]
    pub fn carried_width(&self, rafter: usize) -> Length {
        let [left, right] = self.strip(rafter);
        right - left
    }
}

/// Layers under the covering, as they matter to a hook.
#[derive(Debug, Clone, PartialEq)]
pub struct Layers {
    /// Between the face the foot bears on and the rafter: the screw crosses it without support.
    pub under_foot: Length,
    /// Of that, what is too soft to bear on: insulation.
    pub soft_under_foot: Length,
    /// Underside of the tiling battens above the face the foot bears on.
    pub battens_above_foot: Length,
    /// The face the foot bears on.
    pub face: BearingFace,
    /// Width of timber the foot bears on.
    pub bearing_width: Length,
}

/// The face a foot bears on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BearingFace {
    /// A rafter of this depth.
    Rafter(Length),
    /// Boards across the rafters.
    Boarding,
    /// A counter-batten of this thickness, along the rafter it lies on.
    CounterBatten(Length),
}
