//! A span held at both ends: its stiffness, and what loads between two supports put on them.

use super::joint::Element;

/// A span held at both ends, with at most one hinge: what unit loads put on its ends, in the order
/// of the element between them.
#[derive(Debug, Clone, Copy)]
pub(super) struct HeldSpan {
    pub(super) length: f64,
    pub(super) hinge: Option<f64>,
}

impl HeldSpan {
    /// Its stiffness under this flexural rigidity.
    pub(super) fn stiffness(&self, ei: f64) -> Element<f64> {
        let l = self.length;
        let per = |factor: f64, by: f64| factor * ei / by;
        let Some(la) = self.hinge else {
            let (k0, k1, k2) = (per(12.0, l.powi(3)), per(6.0, l.powi(2)), per(2.0, l));
            let twice = 2.0 * k2;
            return Element {
                left: [k0, k1, twice],
                across: [[-k0, k1], [-k1, k2]],
                right: [k0, -k1, twice],
                mechanism: false,
            };
        };
        // Two cantilevers that pass shear to each other: one stiffness, one mode.
        let lb = l - la;
        let shear = per(3.0, la.powi(3) + lb.powi(3));
        let k = |row: f64, column: f64| shear * row * column;
        Element {
            left: [k(1.0, 1.0), k(1.0, la), k(la, la)],
            across: [[k(1.0, -1.0), k(1.0, lb)], [k(la, -1.0), k(la, lb)]],
            right: [k(-1.0, -1.0), k(-1.0, lb), k(lb, lb)],
            mechanism: false,
        }
    }

    /// Under a line load of 1 over its whole length.
    pub(super) fn under_line_load(&self) -> [f64; 4] {
        let l = self.length;
        let Some(la) = self.hinge else {
            return [l / 2.0, l * l / 12.0, l / 2.0, -l * l / 12.0];
        };
        let lb = l - la;
        let gap = (la.powi(4) - lb.powi(4)) / 8.0;
        Self::closed(la, lb, [la, la * la / 2.0, lb, -lb * lb / 2.0], gap)
    }

    /// Under a point load of 1 at distance `a` from its left end.
    pub(super) fn under_point_load(&self, a: f64) -> [f64; 4] {
        let l = self.length;
        let b = l - a;
        let Some(la) = self.hinge else {
            return [
                b * b * (3.0 * a + b) / l.powi(3),
                a * b * b / (l * l),
                a * a * (a + 3.0 * b) / l.powi(3),
                -a * a * b / (l * l),
            ];
        };
        let lb = l - la;
        // Deflection of a cantilever's tip, times its flexural rigidity.
        let tip = |reach: f64, at: f64| at * at * (3.0 * reach - at) / 6.0;
        if a <= la {
            Self::closed(la, lb, [1.0, a, 0.0, 0.0], tip(la, a))
        } else {
            Self::closed(la, lb, [0.0, 0.0, 1.0, -b], -tip(lb, b))
        }
    }

    /// Deflection at a share of its length from the left end under a line load of 1, times its
    /// flexural rigidity; of a span without a hinge.
    pub(super) fn sag_under_line_load(&self, place: f64) -> f64 {
        (self.length * self.length * place * (1.0 - place)).powi(2) / 24.0
    }

    /// The same under a point load of 1 at distance `a` from its left end.
    pub(super) fn sag_under_point_load(&self, a: f64, place: f64) -> f64 {
        let l = self.length;
        let x = place * l;
        // Seen from the end on this side of the load.
        let (x, far, near) = if x <= a { (x, a, l - a) } else { (l - x, l - a, a) };
        near * near * x * x * (3.0 * far * l - x * (3.0 * far + near)) / (6.0 * l.powi(3))
    }

    /// Two cantilevers with a gap between their tips, closed by the shear they pass to each other.
    fn closed(la: f64, lb: f64, free: [f64; 4], gap: f64) -> [f64; 4] {
        let shear = gap * 3.0 / (la.powi(3) + lb.powi(3));
        [free[0] - shear, free[1] - shear * la, free[2] + shear, free[3] - shear * lb]
    }
}
