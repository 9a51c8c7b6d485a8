//! Straight beam on point springs: support forces.
//!
//! **Model.** Euler–Bernoulli, constant section, each support a linear spring or rigid, a hinge
//! where a splice passes no bending. Two unknowns per support (deflection, rotation); the block
//! tridiagonal system is eliminated from left to right and solved back, so the result has no
//! tolerance and no iteration count. Loads between supports enter as exact fixed-end forces,
//! loads beyond the outer supports as force and moment on them.
//!
//! **Why candidates.** The search asks for the same beam on many different subsets of the same
//! supports. A [`Strip`] holds everything that belongs to a pair of neighbouring supports, worked
//! out once; a [`Chain`] walks through one subset and can take back its last support.
//!
//! **Signs.** `x` grows to the right; loads, deflections and support forces are positive towards
//! the roof; a moment is positive when it stretches the face towards the roof.
//!
//! **Units.** N and mm throughout: matrix assembly is one of the places where quantities are
//! unwrapped.
//!
//! **Left out.** Shear deformation, torsion, contact that opens under uplift.
//!
//! **Checked by** `tests/reference` (span tables, textbook examples, general frame solvers) and
//! `tests/properties` (equilibrium, mirror symmetry).

mod chain;
mod span;

pub use chain::{Chain, Closed, Supports};
use span::HeldSpan;

/// One load case: a force at each of the strip's load points and a line load over its length.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// Force at each load point, N.
    pub points: Vec<f64>,
    /// Line load, N/mm.
    pub uniform: f64,
}

/// A beam, the places it may be supported at, and its load cases.
#[derive(Debug, Clone)]
pub struct Strip {
    start: f64,
    end: f64,
    rigidity: f64,
    stiffness: Option<f64>,
    candidates: Vec<f64>,
    hinges: Vec<f64>,
    load_points: Vec<f64>,
    cases: Vec<Case>,
    elements: Vec<Element>,
    fixed: Vec<[f64; 4]>,
    overhang_left: Vec<[f64; 2]>,
    overhang_right: Vec<[f64; 2]>,
}

/// What a strip is made of.
#[derive(Debug, Clone)]
pub struct StripParts {
    /// Left end, mm.
    pub start: f64,
    /// Right end, mm.
    pub end: f64,
    /// Flexural rigidity `E·I`, N·mm².
    pub rigidity: f64,
    /// Spring of every support, N/mm; `None` is rigid.
    pub stiffness: Option<f64>,
    /// Where supports may stand, ascending, within the ends, mm.
    pub candidates: Vec<f64>,
    /// Hinges, ascending, mm. One over a support belongs to the span on its right.
    pub hinges: Vec<f64>,
    /// Where point loads act, ascending, within the ends, mm.
    pub load_points: Vec<f64>,
    /// Load cases.
    pub cases: Vec<Case>,
}

/// Stiffness of the beam between two neighbouring supports, in the order
/// `w_left, θ_left, w_right, θ_right`.
#[derive(Debug, Clone, Copy)]
struct Element {
    k: [[f64; 4]; 4],
    /// More than one hinge between two supports: a bar without a support of its own, refused.
    mechanism: bool,
}

impl Strip {
    /// Works out everything that belongs to pairs of supports.
    #[must_use]
    pub fn new(parts: StripParts) -> Self {
        let n = parts.candidates.len();
        let cases = parts.cases.len();
        let mut strip = Self {
            start: parts.start,
            end: parts.end,
            rigidity: parts.rigidity,
            stiffness: parts.stiffness,
            candidates: parts.candidates,
            hinges: parts.hinges,
            load_points: parts.load_points,
            cases: parts.cases,
            elements: Vec::with_capacity(n * n),
            fixed: vec![[0.0; 4]; n * n * cases],
            overhang_left: vec![[0.0; 2]; n * cases],
            overhang_right: vec![[0.0; 2]; n * cases],
        };
        let mut forces = vec![[0.0; 4]; cases];
        for i in 0..n {
            for j in 0..n {
                strip.elements.push(strip.element(i, j));
                if i < j {
                    strip.fixed_end_forces(i, j, &mut forces);
                    let pair = (i * n + j) * cases;
                    strip.fixed[pair..pair + cases].copy_from_slice(&forces);
                }
            }
            for c in 0..cases {
                strip.overhang_left[i * cases + c] = strip.overhang(i, c, Side::Left);
                strip.overhang_right[i * cases + c] = strip.overhang(i, c, Side::Right);
            }
        }
        strip
    }

    /// Left and right end, mm.
    #[must_use]
    pub const fn ends(&self) -> (f64, f64) {
        (self.start, self.end)
    }
    /// Flexural rigidity, N·mm².
    #[must_use]
    pub const fn rigidity(&self) -> f64 {
        self.rigidity
    }
    /// Where supports may stand, mm.
    #[must_use]
    pub fn candidates(&self) -> &[f64] {
        &self.candidates
    }
    /// Where point loads act, mm.
    #[must_use]
    pub fn load_points(&self) -> &[f64] {
        &self.load_points
    }
    /// Hinges, mm.
    #[must_use]
    pub fn hinges(&self) -> &[f64] {
        &self.hinges
    }
    /// Deflection of a support under a force on it, mm.
    #[must_use]
    pub fn settlement(&self, force: f64) -> f64 {
        self.stiffness.map_or(0.0, |k| force / k)
    }
    /// The load cases.
    #[must_use]
    pub fn cases(&self) -> &[Case] {
        &self.cases
    }
    /// Sum of all loads of a case, N.
    #[must_use]
    pub fn total_load(&self, case: usize) -> f64 {
        let case = &self.cases[case];
        case.points.iter().sum::<f64>() + case.uniform * (self.end - self.start)
    }

    fn element(&self, i: usize, j: usize) -> Element {
        let mut k = [[0.0; 4]; 4];
        if i >= j {
            return Element { k, mechanism: false };
        }
        let (a, b) = (self.candidates[i], self.candidates[j]);
        let l = b - a;
        let ei = self.rigidity;
        let mut inside = self.hinges.iter().filter(|h| a <= **h && **h < b);
        match (inside.next(), inside.next()) {
            (None, _) => {
                let (k0, k1, k2) = (12.0 * ei / l.powi(3), 6.0 * ei / l.powi(2), 2.0 * ei / l);
                k = [
                    [k0, k1, -k0, k1],
                    [k1, 2.0 * k2, -k1, k2],
                    [-k0, -k1, k0, -k1],
                    [k1, k2, -k1, 2.0 * k2],
                ];
                Element { k, mechanism: false }
            }
            (Some(h), None) => {
                // Two cantilevers that pass shear to each other: one stiffness, one mode.
                let (la, lb) = (h - a, b - h);
                let shear = 3.0 * ei / (la.powi(3) + lb.powi(3));
                let v = [1.0, la, -1.0, lb];
                for (row, vr) in k.iter_mut().zip(v) {
                    for (cell, vc) in row.iter_mut().zip(v) {
                        *cell = shear * vr * vc;
                    }
                }
                Element { k, mechanism: false }
            }
            (Some(_), Some(_)) => Element { k, mechanism: true },
        }
    }

    /// Forces and moments the loads between two supports put on them while these are held, for
    /// every case: written over `out`.
    fn fixed_end_forces(&self, i: usize, j: usize, out: &mut [[f64; 4]]) {
        let (xa, xb) = (self.candidates[i], self.candidates[j]);
        let hinge = self.hinges.iter().find(|h| xa <= **h && **h < xb).map(|h| h - xa);
        let span = HeldSpan { length: xb - xa, hinge };
        let line = span.under_line_load();
        for (forces, case) in out.iter_mut().zip(&self.cases) {
            *forces = line.map(|f| f * case.uniform);
        }
        for (p, x) in self.load_points.iter().enumerate() {
            if xa < *x && *x <= xb {
                let share = span.under_point_load(x - xa);
                for (forces, case) in out.iter_mut().zip(&self.cases) {
                    for (force, part) in forces.iter_mut().zip(share) {
                        *force += part * case.points[p];
                    }
                }
            }
        }
    }

    /// Force and moment on an outermost support from everything beyond it.
    fn overhang(&self, i: usize, case: usize, side: Side) -> [f64; 2] {
        let x0 = self.candidates[i];
        let case = &self.cases[case];
        let reach = match side {
            Side::Left => x0 - self.start,
            Side::Right => self.end - x0,
        };
        let mut force = case.uniform * reach;
        let mut moment = case.uniform * reach * reach / 2.0;
        for (x, p) in self.load_points.iter().zip(&case.points) {
            let beyond = match side {
                Side::Left => x0 - x,
                Side::Right => x - x0,
            };
            // A load on the axis of a support counts once: with the span on its left, or here.
            let counts = match side {
                Side::Left => beyond >= 0.0,
                Side::Right => beyond > 0.0,
            };
            if counts {
                force += p;
                moment += p * beyond;
            }
        }
        match side {
            Side::Left => [force, -moment],
            Side::Right => [force, moment],
        }
    }
}

#[derive(Clone, Copy)]
enum Side {
    Left,
    Right,
}
