//! A subset of supports, eliminated from left to right.
//!
//! Chains that begin alike share the elimination of what they share, of the stiffness and of every
//! load case asked for: a case is carried on from the last support it has reached by the same
//! path. Every support taken gets a number of its own, and what was carried to it bears that
//! number; another number means another path, and the case is carried there anew. What comes out
//! does not depend on what was asked before.

use std::cell::Cell;

use super::Strip;
use super::bay::Bay;

/// A subset of a strip's candidates, taken from left to right, with the elimination of its
/// equations up to the last one.
#[derive(Debug, Clone)]
pub struct Chain<'a> {
    strip: &'a Strip,
    nodes: Vec<Node<'a>>,
    /// Supports taken so far, those taken back included.
    taken: u64,
    /// Each case at each support of the chain, case by case.
    carried: Vec<Cell<Carried>>,
    /// What the last support does to those before it, once asked for.
    units: Cell<Units>,
}

/// One support of a chain.
#[derive(Debug, Clone, Copy)]
struct Node<'a> {
    candidate: usize,
    /// Its own number.
    number: u64,
    /// The bay on its left; none left of the first support.
    bay: Option<&'a Bay>,
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

/// A case carried to a support.
#[derive(Debug, Clone, Copy, Default)]
struct Carried {
    /// Number of the support it was carried to.
    number: u64,
    /// Loads of the support before, everything left of that condensed onto it.
    before: [f64; 2],
    /// Everything left of this support, condensed onto it.
    here: [f64; 2],
    /// Sum of the loads up to this support, one on its axis included.
    sum: f64,
}

/// Supports left of the last one of which [`Influences`] speaks one by one. Farther ones hardly
/// feel what comes: what was found of them when they were near still holds.
pub const NEAR: usize = 4;

/// Displacements of the last supports, the last one first, under a unit of force on the last and
/// under a unit of moment there.
#[derive(Debug, Clone, Copy, Default)]
struct Units {
    /// Number of the last support.
    number: u64,
    by_force: [[f64; 2]; NEAR + 2],
    by_moment: [[f64; 2]; NEAR + 2],
}

/// How the forces left of the last support depend on the rest of the beam under one case:
/// `certain + by_force · F + by_moment · M`, each as those three, with `F` the force on the last
/// support and `M` the bending moment there. Everything to the right acts through these two
/// numbers alone, and linearly.
#[derive(Debug, Clone, Copy)]
pub struct Influences {
    near: [[f64; 3]; NEAR],
    count: usize,
    /// Sum of the forces on all supports left of the last. It follows from statics: it is what
    /// loads there are up to the last support, less what the last bay hands on to that.
    pub sum: [f64; 3],
}

impl Influences {
    /// Force on each of the nearest supports, the nearest first.
    #[must_use]
    pub fn near(&self) -> &[[f64; 3]] {
        &self.near[..self.count]
    }
}

/// What can be said of a chain before its right part is known.
#[derive(Debug, Clone, Copy)]
pub enum LeftPart {
    /// It is never stable, whatever follows.
    NeverStable,
    /// It hangs on what follows: nothing is known.
    Hangs,
    /// It stands by itself.
    Stands(Influences),
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
        let supports = strip.candidates.len();
        Self {
            strip,
            nodes: Vec::with_capacity(supports),
            taken: 0,
            carried: vec![Cell::default(); supports * strip.cases.len()],
            units: Cell::default(),
        }
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
        self.taken += 1;
        let number = self.taken;
        let Some(last) = self.nodes.last_mut() else {
            self.nodes.push(Node {
                candidate,
                number,
                bay: None,
                left: spring,
                bending: 0.0,
                inverse: [0.0; 3],
                coupling: [[0.0; 2]; 2],
                stable: true,
            });
            return;
        };
        let bay = strip.bay(last.candidate, candidate);
        let k = &bay.k;
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
        let stable = last.stable && stable && !bay.mechanism;
        self.nodes.push(Node {
            candidate,
            number,
            bay: Some(bay),
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

    /// How the supports left of the last one depend on what follows.
    #[must_use]
    pub fn influences(&self, case: usize) -> LeftPart {
        let last = self.nodes.len() - 1;
        let end = &self.nodes[last];
        if !end.stable {
            return LeftPart::NeverStable;
        }
        let (Some(bay), true) = (end.bay, end.left[2] > MISSING * end.bending) else {
            return LeftPart::Hangs;
        };
        let carried = self.carry(case);
        let units = self.units();
        let count = last.min(NEAR);
        let known = last.min(NEAR + 1);
        let mut certain = [[0.0; 2]; NEAR + 2];
        certain[0] = [0.0, carried.here[1] / end.left[2]];
        for back in 0..known {
            let m = last - back;
            let before = if back == 0 { carried.before } else { self.at(case, m).before };
            certain[back + 1] = self.nodes[m - 1].follow(before, certain[back]);
        }
        let parts = [&certain, &units.by_force, &units.by_moment];
        let mut near = [[0.0; 3]; NEAR];
        for (back, force) in near.iter_mut().enumerate().take(count) {
            *force = self.near_force(case, last - 1 - back, parts.map(|u| &u[back..]));
        }
        let held = bay.held_forces(&self.strip.cases[case]);
        let on = [held[2], 0.0, 0.0];
        let handed_on: [f64; 3] =
            std::array::from_fn(|part| on[part] - on_right(bay, parts[part][1], parts[part][0]));
        let sum = [carried.sum - handed_on[0], -handed_on[1], -handed_on[2]];
        LeftPart::Stands(Influences { near, count, sum })
    }

    /// Displacements under unit force and moment, which no case changes.
    fn units(&self) -> Units {
        let last = self.nodes.len() - 1;
        let end = &self.nodes[last];
        let mut units = self.units.get();
        if units.number == end.number {
            return units;
        }
        units.number = end.number;
        // A rigid support does not move, whatever it carries.
        units.by_force[0] =
            self.strip.stiffness.map_or([0.0; 2], |k| [1.0 / k, -end.left[1] / (end.left[2] * k)]);
        units.by_moment[0] = [0.0, 1.0 / end.left[2]];
        for back in 0..last.min(NEAR + 1) {
            let node = &self.nodes[last - 1 - back];
            units.by_force[back + 1] = node.follow([0.0; 2], units.by_force[back]);
            units.by_moment[back + 1] = node.follow([0.0; 2], units.by_moment[back]);
        }
        self.units.set(units);
        units
    }

    /// Force on support `m` from displacements that begin with those of its right neighbour: as
    /// certain, by force and by moment.
    fn near_force(&self, case: usize, m: usize, u: [&[[f64; 2]]; 3]) -> [f64; 3] {
        if let Some(k) = self.strip.stiffness {
            return u.map(|u| k * u[1][0]);
        }
        // Rigid supports do not move: forces follow from the bays on both sides.
        let case_of = &self.strip.cases[case];
        let mut force = [0.0; 3];
        if let Some(right) = self.nodes[m + 1].bay {
            force[0] += right.held_forces(case_of)[0];
            for (force, u) in force.iter_mut().zip(u) {
                *force -= on_left(right, u[1], u[0]);
            }
        }
        if let Some(left) = self.nodes[m].bay {
            force[0] += left.held_forces(case_of)[2];
            for (force, u) in force.iter_mut().zip(u) {
                *force -= on_right(left, u[2], u[1]);
            }
        } else {
            force[0] += self.strip.left_overhang(self.nodes[m].candidate, case)[0];
        }
        force
    }

    fn cell(&self, case: usize, m: usize) -> &Cell<Carried> {
        &self.carried[case * self.strip.candidates.len() + m]
    }
    fn at(&self, case: usize, m: usize) -> Carried {
        self.cell(case, m).get()
    }

    /// Carries the loads of a case through the elimination to the last support, from the last one
    /// they have reached.
    fn carry(&self, case: usize) -> Carried {
        let strip = self.strip;
        let rigid = strip.stiffness.is_none();
        let reached =
            (0..self.nodes.len()).rev().find(|m| self.at(case, *m).number == self.nodes[*m].number);
        let (mut m, mut carried) = reached.map_or_else(
            || {
                let first = &self.nodes[0];
                let here = strip.left_overhang(first.candidate, case);
                let carried =
                    Carried { number: first.number, before: [0.0; 2], here, sum: here[0] };
                self.cell(case, 0).set(carried);
                (0, carried)
            },
            |m| (m, self.at(case, m)),
        );
        while let Some(next) = self.nodes.get(m + 1) {
            let node = &self.nodes[m];
            let f = next.bay.map_or([0.0; 4], |bay| bay.held_forces(&strip.cases[case]));
            let mut before = [carried.here[0] + f[0], carried.here[1] + f[1]];
            if rigid {
                before[0] = 0.0;
            }
            let z = times(node.inverse, before);
            let c = &node.coupling;
            carried = Carried {
                number: next.number,
                before,
                here: [
                    f[2] - (c[0][0] * z[0] + c[1][0] * z[1]),
                    f[3] - (c[0][1] * z[0] + c[1][1] * z[1]),
                ],
                sum: carried.sum + (f[0] + f[2]),
            };
            m += 1;
            self.cell(case, m).set(carried);
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
        let chain = self.chain;
        let (strip, nodes) = (chain.strip, &chain.nodes);
        let rigid = strip.stiffness.is_none();
        let last = nodes.len() - 1;
        let carried = chain.carry(case);
        let end = strip.right_overhang(nodes[last].candidate, case);
        let mut g = [carried.here[0] + end[0], carried.here[1] + end[1]];
        if rigid {
            g[0] = 0.0;
        }
        let u = &mut out.displacement;
        u.clear();
        u.resize(nodes.len(), [0.0; 2]);
        let mut next = times(self.inverse, g);
        u[last] = next;
        for m in (0..last).rev() {
            next = nodes[m].follow(chain.at(case, m + 1).before, next);
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
            out.force[0] += strip.left_overhang(nodes[0].candidate, case)[0];
            out.force[last] += end[0];
            for (m, bay) in nodes.iter().filter_map(|node| node.bay).enumerate() {
                let (k, f) = (&bay.k, bay.held_forces(&strip.cases[case]));
                let rotation = [u[m][1], u[m + 1][1]];
                out.force[m] += f[0] - (k[0][1] * rotation[0] + k[0][3] * rotation[1]);
                out.force[m + 1] += f[2] - (k[2][1] * rotation[0] + k[2][3] * rotation[1]);
            }
        }
    }
}

impl Node<'_> {
    /// Displacement of this support from its loads and the displacement of the next.
    fn follow(&self, loads: [f64; 2], next: [f64; 2]) -> [f64; 2] {
        let c = &self.coupling;
        let rest = [
            loads[0] - (c[0][0] * next[0] + c[0][1] * next[1]),
            loads[1] - (c[1][0] * next[0] + c[1][1] * next[1]),
        ];
        times(self.inverse, rest)
    }
}

/// Force a bay's own stiffness sets against displacements of its ends, at the left end.
fn on_left(bay: &Bay, left: [f64; 2], right: [f64; 2]) -> f64 {
    let k = &bay.k[0];
    k[0] * left[0] + k[1] * left[1] + k[2] * right[0] + k[3] * right[1]
}

/// The same at the right end.
fn on_right(bay: &Bay, left: [f64; 2], right: [f64; 2]) -> f64 {
    let k = &bay.k[2];
    k[0] * left[0] + k[1] * left[1] + k[2] * right[0] + k[3] * right[1]
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
