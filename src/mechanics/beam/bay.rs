//! The beam between two neighbouring supports: its stiffness, and what its loads put on them.

use super::span::HeldSpan;
use super::{Case, Strip};

/// A bay, in the order `w_left, θ_left, w_right, θ_right`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bay {
    /// Stiffness.
    pub(super) k: [[f64; 4]; 4],
    /// Length, mm.
    pub(super) length: f64,
    /// More than one hinge between two supports: a bar without a support of its own, refused.
    pub(super) mechanism: bool,
    /// A hinge is in it.
    pub(super) hinged: bool,
}

/// What loads in a bay do while its ends are held.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Held {
    /// Forces and moments on the ends.
    pub(super) on: [f64; 4],
    /// Deflection of the middle, mm; of a bay without a hinge.
    pub(super) sag: f64,
}

impl Bay {
    /// The bay between two candidates, and what loads in it do: told to `each` for a line load of 1
    /// (`None`) and for a load of 1 at every load point in it.
    pub(super) fn of(
        strip: &Strip,
        [i, j]: [usize; 2],
        mut each: impl FnMut(Option<usize>, &Held),
    ) -> Self {
        let (a, b) = (strip.candidates[i], strip.candidates[j]);
        let mut inside = strip.hinges.iter().filter(|h| a <= **h && **h < b).map(|h| h - a);
        let hinge = inside.next();
        let mechanism = inside.next().is_some();
        let span = HeldSpan { length: b - a, hinge };
        let sag = span.sag_under_line_load() / strip.rigidity;
        each(None, &Held { on: span.under_line_load(), sag });
        // A load on the axis of the left support belongs to the bay before.
        let first = strip.load_points.partition_point(|x| *x <= a);
        let inside = strip.load_points.iter().enumerate().skip(first);
        for (at, x) in inside.take_while(|(_, x)| **x <= b) {
            let sag = span.sag_under_point_load(x - a) / strip.rigidity;
            each(Some(at), &Held { on: span.under_point_load(x - a), sag });
        }
        Self {
            k: if mechanism { [[0.0; 4]; 4] } else { span.stiffness(strip.rigidity) },
            length: b - a,
            mechanism,
            hinged: hinge.is_some(),
        }
    }
}

impl Held {
    /// Adds what a load does to what another does.
    pub(super) fn add(&mut self, other: &Self, load: f64) {
        for (sum, part) in self.on.iter_mut().zip(other.on) {
            *sum += part * load;
        }
        self.sag += other.sag * load;
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
    pub(super) bay: Bay,
    /// Forces and moments on the held ends: case by case in each of the four.
    held: Vec<f64>,
}

impl LoadedBay {
    pub(super) fn of(strip: &Strip, ends: [usize; 2]) -> Self {
        let lanes = strip.cases.len();
        let mut held = vec![0.0; 4 * lanes];
        let bay = Bay::of(strip, ends, |at, unit| {
            for (row, part) in held.chunks_exact_mut(lanes.max(1)).zip(unit.on) {
                for (sum, case) in row.iter_mut().zip(&strip.cases) {
                    *sum += part * case.size(at);
                }
            }
        });
        Self { bay, held }
    }

    /// Forces and moments on the held ends, each for every case.
    pub(super) fn held(&self) -> [&[f64]; 4] {
        let lanes = self.held.len() / 4;
        let (left, right) = self.held.split_at(2 * lanes);
        let ((a, b), (c, d)) = (left.split_at(lanes), right.split_at(lanes));
        [a, b, c, d]
    }
}
