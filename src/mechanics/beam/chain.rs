//! A subset of supports, eliminated from left to right.

use super::Strip;

/// A subset of a strip's candidates, taken from left to right, with the elimination of its
/// equations up to the last one.
#[derive(Debug, Clone)]
pub struct Chain<'a> {
    strip: &'a Strip,
    nodes: Vec<Node>,
}

/// One support of a chain.
#[derive(Debug, Clone, Copy)]
struct Node {
    candidate: usize,
    /// Spring and everything left of this support, condensed onto it.
    left: [f64; 3],
    /// Rotational stiffness of the span to the left, with nothing condensed.
    bending: f64,
    /// Inverse of the diagonal block, once the span to the right is known.
    inverse: [f64; 3],
    /// Coupling to the next support.
    coupling: [[f64; 2]; 2],
    stable: bool,
}

/// Deflection, rotation and force of every support of a chain under one case.
#[derive(Debug, Clone, Default)]
pub struct Supports {
    /// Force on each support, N.
    pub force: Vec<f64>,
    /// Deflection of each support, mm.
    pub deflection: Vec<f64>,
    displacement: Vec<[f64; 2]>,
}

impl<'a> Chain<'a> {
    /// No support yet.
    #[must_use]
    pub fn new(strip: &'a Strip) -> Self {
        Self { strip, nodes: Vec::with_capacity(strip.candidates.len()) }
    }

    /// The whole subset at once.
    #[must_use]
    pub fn of(strip: &'a Strip, subset: &[usize]) -> Self {
        let mut chain = Self::new(strip);
        for candidate in subset {
            chain.push(*candidate);
        }
        chain
    }

    /// Supports taken so far.
    #[must_use]
    pub fn len(&self) -> usize {
        self.nodes.len()
    }
    /// True before the first support.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.nodes.is_empty()
    }

    /// Takes the next support to the right.
    pub fn push(&mut self, candidate: usize) {
        let strip = self.strip;
        let spring = match strip.stiffness {
            Some(k) => [k, 0.0, 0.0],
            None => [1.0, 0.0, 0.0],
        };
        let Some(last) = self.nodes.last_mut() else {
            self.nodes.push(Node {
                candidate,
                left: spring,
                bending: 0.0,
                inverse: [0.0; 3],
                coupling: [[0.0; 2]; 2],
                stable: true,
            });
            return;
        };
        let element = &strip.elements[last.candidate * strip.candidates.len() + candidate];
        let k = element.k;
        // A rigid support has no deflection to solve for: its rows and columns drop out.
        let w = if strip.stiffness.is_some() { 1.0 } else { 0.0 };
        let s = [last.left[0] + w * k[0][0], last.left[1] + w * k[0][1], last.left[2] + k[1][1]];
        let (inverse, stable) = invert(s, last.bending + k[1][1]);
        last.inverse = inverse;
        last.coupling = [[w * k[0][2], w * k[0][3]], [w * k[1][2], k[1][3]]];
        let c = last.coupling;
        // Cᵀ S⁻¹ C, symmetric.
        let ic = [
            [
                inverse[0] * c[0][0] + inverse[1] * c[1][0],
                inverse[0] * c[0][1] + inverse[1] * c[1][1],
            ],
            [
                inverse[1] * c[0][0] + inverse[2] * c[1][0],
                inverse[1] * c[0][1] + inverse[2] * c[1][1],
            ],
        ];
        let left = [
            spring[0] + w * k[2][2] - (c[0][0] * ic[0][0] + c[1][0] * ic[1][0]),
            spring[1] + w * k[2][3] - (c[0][0] * ic[0][1] + c[1][0] * ic[1][1]),
            spring[2] + k[3][3] - (c[0][1] * ic[0][1] + c[1][1] * ic[1][1]),
        ];
        let stable = last.stable && stable && !element.mechanism;
        self.nodes.push(Node {
            candidate,
            left,
            bending: k[3][3],
            inverse: [0.0; 3],
            coupling: [[0.0; 2]; 2],
            stable,
        });
    }

    /// Takes back the last support.
    pub fn pop(&mut self) {
        self.nodes.pop();
    }

    /// How the force on every support left of the last one depends on the rest of the beam under
    /// one case: `certain + by_force · F + by_moment · M`, written over `out` as those three, with
    /// `F` the force on the last support and `M` the bending moment there. False when the chain
    /// can never be stable; nothing in `out` when it is not stable without what lies to the right.
    ///
    /// Everything to the right acts through these two numbers alone, and linearly.
    #[must_use]
    pub fn influences(
        &self,
        case: usize,
        out: &mut Vec<[f64; 3]>,
        scratch: &mut Vec<[f64; 2]>,
    ) -> bool {
        let strip = self.strip;
        let (cases, n) = (strip.cases.len(), strip.candidates.len());
        let last = self.nodes.len() - 1;
        let end = &self.nodes[last];
        out.clear();
        if !end.stable || end.left[2] <= MISSING * end.bending {
            return end.stable;
        }
        let carried = self.eliminate(case, scratch);
        let stiffness = end.left[2];
        // Displacement of the last support: certain, per unit of its deflection, per unit of moment.
        let mut u = [
            [0.0, carried[1] / stiffness],
            [1.0, -end.left[1] / stiffness],
            [0.0, 1.0 / stiffness],
        ];
        out.resize(last + 1, [0.0; 3]);
        for m in (0..last).rev() {
            let node = &self.nodes[m];
            let right = u;
            let c = &node.coupling;
            let load = [scratch[m], [0.0; 2], [0.0; 2]];
            for (own, (next, load)) in u.iter_mut().zip(right.iter().zip(load)) {
                *own = times(
                    node.inverse,
                    [
                        load[0] - (c[0][0] * next[0] + c[0][1] * next[1]),
                        load[1] - (c[1][0] * next[0] + c[1][1] * next[1]),
                    ],
                );
            }
            if let Some(k) = strip.stiffness {
                // Per unit of force on the last support rather than of its deflection.
                out[m] = [k * u[0][0], u[1][0], k * u[2][0]];
                continue;
            }
            let pair = node.candidate * n + self.nodes[m + 1].candidate;
            let (k, f) = (&strip.elements[pair].k, &strip.fixed[pair * cases + case]);
            // Rigid supports do not move: only the moment is left, and forces follow from the span.
            for part in [0, 2] {
                let at = |row: usize| k[row][1] * u[part][1] + k[row][3] * right[part][1];
                let held = if part == 0 { [f[0], f[2]] } else { [0.0; 2] };
                out[m][part] += held[0] - at(0);
                out[m + 1][part] += held[1] - at(2);
            }
        }
        if strip.stiffness.is_none() {
            out[0][0] += strip.overhang_left[self.nodes[0].candidate * cases + case][0];
        }
        out.truncate(last);
        true
    }

    /// Carries the loads of a case through the elimination, node by node, to the last support.
    fn eliminate(&self, case: usize, loads: &mut Vec<[f64; 2]>) -> [f64; 2] {
        let strip = self.strip;
        let (cases, n) = (strip.cases.len(), strip.candidates.len());
        let rigid = strip.stiffness.is_none();
        loads.clear();
        let mut carried = strip.overhang_left[self.nodes[0].candidate * cases + case];
        for pair in self.nodes.windows(2) {
            let node = &pair[0];
            let f = &strip.fixed[(node.candidate * n + pair[1].candidate) * cases + case];
            let mut g = [carried[0] + f[0], carried[1] + f[1]];
            if rigid {
                g[0] = 0.0;
            }
            loads.push(g);
            let z = times(node.inverse, g);
            let c = &node.coupling;
            carried = [
                f[2] - (c[0][0] * z[0] + c[1][0] * z[1]),
                f[3] - (c[0][1] * z[0] + c[1][1] * z[1]),
            ];
        }
        carried
    }

    /// Closes the chain at its last support. `None` when the beam can move without bending.
    #[must_use]
    pub fn close(&self) -> Option<Closed<'_>> {
        let (first, last) = (self.nodes.first()?, self.nodes.last()?);
        let strip = self.strip;
        let free_end_hinged =
            strip.hinges.first().is_some_and(|h| *h <= strip.candidates[first.candidate])
                || strip.hinges.last().is_some_and(|h| *h >= strip.candidates[last.candidate]);
        let (inverse, stable) = invert(last.left, last.bending);
        (stable && last.stable && self.nodes.len() >= 2 && !free_end_hinged)
            .then_some(Closed { chain: self, inverse })
    }
}

/// A complete chain, ready for load cases.
#[derive(Debug, Clone)]
pub struct Closed<'a> {
    chain: &'a Chain<'a>,
    inverse: [f64; 3],
}

impl Closed<'_> {
    /// Support forces and displacements under one case, written over `out`.
    pub fn solve(&self, case: usize, out: &mut Supports) {
        let strip = self.chain.strip;
        let nodes = &self.chain.nodes;
        let cases = strip.cases.len();
        let n = strip.candidates.len();
        let rigid = strip.stiffness.is_none();
        let last = nodes.len() - 1;
        let u = &mut out.displacement;
        let carried = self.chain.eliminate(case, u);
        let end = strip.overhang_right[nodes[last].candidate * cases + case];
        let mut g = [carried[0] + end[0], carried[1] + end[1]];
        if rigid {
            g[0] = 0.0;
        }
        let mut next = times(self.inverse, g);
        u.push(next);
        for m in (0..last).rev() {
            let node = &nodes[m];
            let c = &node.coupling;
            let g = [
                u[m][0] - (c[0][0] * next[0] + c[0][1] * next[1]),
                u[m][1] - (c[1][0] * next[0] + c[1][1] * next[1]),
            ];
            next = times(node.inverse, g);
            u[m] = next;
        }
        out.force.clear();
        out.deflection.clear();
        if let Some(k) = strip.stiffness {
            out.deflection.extend(u.iter().map(|d| d[0]));
            out.force.extend(u.iter().map(|d| k * d[0]));
        } else {
            out.deflection.resize(nodes.len(), 0.0);
            out.force.resize(nodes.len(), 0.0);
            out.force[0] += strip.overhang_left[nodes[0].candidate * cases + case][0];
            out.force[last] += end[0];
            for m in 0..last {
                let pair = nodes[m].candidate * n + nodes[m + 1].candidate;
                let (k, f) = (&strip.elements[pair].k, &strip.fixed[pair * cases + case]);
                let rotation = [u[m][1], u[m + 1][1]];
                out.force[m] += f[0] - (k[0][1] * rotation[0] + k[0][3] * rotation[1]);
                out.force[m + 1] += f[2] - (k[2][1] * rotation[0] + k[2][3] * rotation[1]);
            }
        }
    }
}

/// Share of a rotational stiffness below which what condensation leaves of it is rounding.
const MISSING: f64 = 1e-12;

/// Inverse of a symmetric 2×2 block `[a, b, d]`, and whether it is safely positive definite.
///
/// A beam that can move without bending does so by turning over some support: of the rotational
/// stiffness `bending` put together there, condensation then leaves only what rounding does.
fn invert([a, b, d]: [f64; 3], bending: f64) -> ([f64; 3], bool) {
    let determinant = a * d - b * b;
    let sound = a > 0.0 && d > MISSING * bending && determinant > 1e-11 * a * d;
    if sound {
        ([d / determinant, -b / determinant, a / determinant], true)
    } else {
        ([0.0; 3], false)
    }
}

fn times(m: [f64; 3], v: [f64; 2]) -> [f64; 2] {
    [m[0] * v[0] + m[1] * v[1], m[1] * v[0] + m[2] * v[1]]
}
