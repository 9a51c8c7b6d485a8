//! The beam between two neighbouring supports: its stiffness, and what its loads put on them.

use super::span::HeldSpan;
use super::{Strip, Superposition};

/// A bay, in the order `w_left, θ_left, w_right, θ_right`.
#[derive(Debug, Clone)]
pub(super) struct Bay {
    /// Stiffness.
    pub(super) k: [[f64; 4]; 4],
    /// More than one hinge between two supports: a bar without a support of its own, refused.
    pub(super) mechanism: bool,
    /// Forces and moments the loads of every case put on its ends while these are held: case by
    /// case in each of the four.
    held: Vec<f64>,
    /// Length, mm.
    pub(super) length: f64,
    /// Deflection of its middle from the held ends under every case, mm; none with a hinge in it.
    sags: Option<Vec<f64>>,
}

impl Bay {
    pub(super) fn of(strip: &Strip, i: usize, j: usize) -> Self {
        let (a, b) = (strip.candidates[i], strip.candidates[j]);
        let mut inside = strip.hinges.iter().filter(|h| a <= **h && **h < b).map(|h| h - a);
        let hinge = inside.next();
        let mechanism = inside.next().is_some();
        let span = HeldSpan { length: b - a, hinge };
        // A load on the axis of the left support belongs to the bay before.
        let first = strip.load_points.partition_point(|x| *x <= a);
        let end = strip.load_points.partition_point(|x| *x <= b);
        let lanes = strip.cases.len();
        let mut held = vec![0.0; 4 * lanes];
        let mut sags = hinge.is_none().then(|| vec![0.0; lanes]);
        let line = span.under_line_load();
        for (lane, case) in strip.cases.iter().enumerate() {
            for (row, force) in line.iter().enumerate() {
                held[row * lanes + lane] = force * case.uniform;
            }
            if let Some(sags) = &mut sags {
                sags[lane] = span.sag_under_line_load() * case.uniform / strip.rigidity;
            }
        }
        for (at, x) in strip.load_points.iter().enumerate().take(end).skip(first) {
            let share = span.under_point_load(x - a);
            let sag = span.sag_under_point_load(x - a) / strip.rigidity;
            for (lane, case) in strip.cases.iter().enumerate() {
                for (row, part) in share.iter().enumerate() {
                    held[row * lanes + lane] += part * case.points[at];
                }
                if let Some(sags) = &mut sags {
                    sags[lane] += sag * case.points[at];
                }
            }
        }
        Self {
            k: if mechanism { [[0.0; 4]; 4] } else { span.stiffness(strip.rigidity) },
            mechanism,
            held,
            length: b - a,
            sags,
        }
    }

    pub(super) const fn has_no_hinge(&self) -> bool {
        self.sags.is_some()
    }

    /// Deflection of its middle from the held ends under a load.
    pub(super) fn sag(&self, load: &Superposition) -> Option<f64> {
        self.sags.as_ref().map(|sags| load.sum(sags))
    }

    /// Forces and moments the loads put on its ends while these are held, each for every case.
    pub(super) fn held(&self) -> [&[f64]; 4] {
        let lanes = self.held.len() / 4;
        let (left, right) = self.held.split_at(2 * lanes);
        let ((a, b), (c, d)) = (left.split_at(lanes), right.split_at(lanes));
        [a, b, c, d]
    }
}
