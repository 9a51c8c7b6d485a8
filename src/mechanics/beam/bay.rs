//! The beam between two neighbouring supports: its stiffness, and what its loads put on them.

use super::bar::HeldBar;
use super::joint::Element;
use super::lanes::{Both, Lanes};
use super::span::HeldSpan;
use super::{Case, Member, Strip};

/// A bay between two candidates of a strip, and of every strip with the same candidates and hinges.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bay {
    span: HeldSpan,
    ends: [f64; 2],
    mechanism: bool,
}

/// Where sags are asked for, as shares of a bay's length: its middle, and on both sides of it, where
/// an end bay sags most.
pub(super) const PLACES: [f64; 3] = [0.42, 0.5, 0.58];

/// The middle among them.
pub(super) const MIDDLE: usize = 1;

/// What loads in a bay do while its ends are held, in the order `w_left, θ_left, w_right, θ_right`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Held<T> {
    /// Forces and moments on the ends.
    pub(super) on: [T; 4],
    /// Deflections at [`PLACES`], mm; of a bay without a hinge.
    pub(super) sags: [T; 3],
}

impl Bay {
    /// The bay between two candidates, the left one first.
    pub(super) fn between(strip: &Strip, [i, j]: [usize; 2]) -> Self {
        let (a, b) = (strip.candidates[i], strip.candidates[j]);
        let mut inside = strip.hinges.iter().filter(|h| a <= **h && **h < b).map(|h| h - a);
        let hinge = inside.next();
        let mechanism = inside.next().is_some();
        Self { span: HeldSpan { length: b - a, hinge }, ends: [a, b], mechanism }
    }

    /// Length, mm.
    pub(super) const fn length(&self) -> f64 {
        self.span.length
    }

    /// Whether a hinge is in it.
    pub(super) const fn hinged(&self) -> bool {
        self.span.hinge.is_some()
    }

    /// Whether a hinge over its left support cuts it off from its neighbour.
    pub(super) fn cut_off(&self) -> bool {
        self.span.hinge == Some(0.0)
    }

    /// Its stiffness as a bay of this strip.
    pub(super) fn element(&self, strip: &Strip) -> Element<f64> {
        match strip.member {
            Member::Beam => {
                Element { mechanism: self.mechanism, ..self.span.stiffness(strip.rigidity) }
            }
            Member::Bar => self.bar().stiffness(strip.rigidity),
        }
    }

    /// A hinge passes the force along the axis on.
    const fn bar(&self) -> HeldBar {
        HeldBar { length: self.span.length }
    }

    /// The loads there may be in it: a line load (`None`), and one at every load point in it. A load on
    /// the axis of the left support belongs to the bay before.
    pub(super) fn loads(&self, strip: &Strip) -> impl Iterator<Item = Option<usize>> + use<> {
        let [a, b] = self.ends.map(|end| strip.load_points.partition_point(|x| *x <= end));
        std::iter::once(None).chain((a..b).map(Some))
    }

    /// What such a load of 1 does in it, deflections times flexural rigidity.
    pub(super) fn unit(&self, strip: &Strip, load: Option<usize>) -> Held<f64> {
        let at = load.map(|load| strip.load_points[load] - self.ends[0]);
        match (strip.member, at) {
            (Member::Beam, None) => Held {
                on: self.span.under_line_load(),
                sags: PLACES.map(|place| self.span.sag_under_line_load(place)),
            },
            (Member::Beam, Some(at)) => Held {
                on: self.span.under_point_load(at),
                sags: PLACES.map(|place| self.span.sag_under_point_load(at, place)),
            },
            (Member::Bar, None) => Held { on: self.bar().under_line_load(), sags: [0.0; 3] },
            (Member::Bar, Some(at)) => Held { on: self.bar().under_point_load(at), sags: [0.0; 3] },
        }
    }
}

impl Held<Both> {
    /// What a load of 1 does in a bay of each of two strips.
    pub(super) fn units(bay: &Bay, [a, b]: [&Strip; 2], load: Option<usize>) -> Self {
        let first = bay.unit(a, load);
        let second = if a.member == b.member { first } else { bay.unit(b, load) };
        let both = |of: &dyn Fn(&Held<f64>) -> f64| Both([of(&first), of(&second)]);
        Self {
            on: std::array::from_fn(|row| both(&|held| held.on[row])),
            sags: std::array::from_fn(|place| both(&|held| held.sags[place])),
        }
    }
}

impl<T: Lanes> Held<T> {
    /// Nothing.
    pub(super) fn zero() -> Self {
        Self { on: [T::splat(0.0); 4], sags: [T::splat(0.0); 3] }
    }

    /// Adds what a load does, of which a unit does this.
    pub(super) fn add(&mut self, unit: &Self, load: T) {
        for (sum, part) in self.on.iter_mut().zip(unit.on) {
            *sum = *sum + part * load;
        }
        for (sum, part) in self.sags.iter_mut().zip(unit.sags) {
            *sum = *sum + part * load;
        }
    }

    /// The same in the mirrored beam.
    pub(super) fn mirrored(self) -> Self {
        let [w_left, turn_left, w_right, turn_right] = self.on;
        let [left, middle, right] = self.sags;
        Self { on: [w_right, -turn_right, w_left, -turn_left], sags: [right, middle, left] }
    }
}

impl Case {
    /// How much of a unit load there is: of the line load, or at a load point.
    pub(super) fn size(&self, at: Option<usize>) -> f64 {
        at.map_or(self.uniform, |at| self.points[at])
    }
}

/// A bay and what every case of its strip does in it.
#[derive(Debug, Clone)]
pub(super) struct LoadedBay {
    pub(super) element: Element<f64>,
    /// Forces and moments on the held ends: case by case in each of the four.
    held: Vec<f64>,
}

impl LoadedBay {
    pub(super) fn of(strip: &Strip, ends: [usize; 2]) -> Self {
        let lanes = strip.cases.len();
        let mut held = vec![0.0; 4 * lanes];
        let bay = Bay::between(strip, ends);
        for load in bay.loads(strip) {
            let unit = bay.unit(strip, load);
            for (row, part) in held.chunks_exact_mut(lanes.max(1)).zip(unit.on) {
                for (sum, case) in row.iter_mut().zip(&strip.cases) {
                    *sum += part * case.size(load);
                }
            }
        }
        Self { element: bay.element(strip), held }
    }

    /// Forces and moments on the held ends, each for every case.
    pub(super) fn held(&self) -> [&[f64]; 4] {
        let lanes = self.held.len() / 4;
        let (left, right) = self.held.split_at(2 * lanes);
        let ((a, b), (c, d)) = (left.split_at(lanes), right.split_at(lanes));
        [a, b, c, d]
    }
}
