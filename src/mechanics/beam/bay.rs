//! The beam between two neighbouring supports: its stiffness, and what its loads put on them.

use super::span::HeldSpan;
use super::{Case, Strip};

/// A bay, in the order `w_left, θ_left, w_right, θ_right`.
#[derive(Debug, Clone)]
pub(super) struct Bay {
    /// Stiffness.
    pub(super) k: [[f64; 4]; 4],
    /// More than one hinge between two supports: a bar without a support of its own, refused.
    pub(super) mechanism: bool,
    /// Forces on the held ends under a line load of 1.
    line: [f64; 4],
    /// First load point within it; one on the axis of the left support belongs to the bay before.
    first: usize,
    /// Forces on the held ends under a load of 1 at each load point.
    shares: Vec<[f64; 4]>,
}

impl Bay {
    pub(super) fn of(strip: &Strip, i: usize, j: usize) -> Self {
        let (a, b) = (strip.candidates[i], strip.candidates[j]);
        let mut inside = strip.hinges.iter().filter(|h| a <= **h && **h < b).map(|h| h - a);
        let hinge = inside.next();
        let mechanism = inside.next().is_some();
        let span = HeldSpan { length: b - a, hinge };
        let first = strip.load_points.partition_point(|x| *x <= a);
        let end = strip.load_points.partition_point(|x| *x <= b);
        Self {
            k: if mechanism { [[0.0; 4]; 4] } else { span.stiffness(strip.rigidity) },
            mechanism,
            line: span.under_line_load(),
            first,
            shares: strip.load_points[first..end]
                .iter()
                .map(|x| span.under_point_load(x - a))
                .collect(),
        }
    }

    /// Forces and moments its loads put on its ends while these are held.
    pub(super) fn held_forces(&self, case: &Case) -> [f64; 4] {
        let mut forces = self.line.map(|f| f * case.uniform);
        for (share, load) in self.shares.iter().zip(&case.points[self.first..]) {
            for (force, part) in forces.iter_mut().zip(share) {
                *force += part * load;
            }
        }
        forces
    }
}
