//! A subset of supports, eliminated from left to right.
//!
//! Chains that begin alike share the elimination of what they share, of the stiffness and of every
//! load case. What stands at a support depends on those left of it alone, so a support taken back
//! leaves nothing behind.

use std::cell::Cell;

use super::bay::Bay;
use super::{Strip, Superposition};

/// A subset of a strip's candidates, taken from left to right, with the elimination of its
/// equations up to the last one.
#[derive(Debug, Clone)]
pub struct Chain<'a> {
    strip: &'a Strip,
    nodes: Vec<Node<'a>>,
    /// What every case comes to at each support: [`ROWS`] rows of all cases.
    carried: Vec<f64>,
    /// Supports taken so far, those taken back included.
    taken: u64,
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

/// Rows carried to each support.
const ROWS: usize = 5;

/// Force and moment of everything left of a support, condensed onto it.
const HERE: [usize; 2] = [0, 1];

/// Loads of the support before, everything left of that condensed onto it.
const BEFORE: [usize; 2] = [2, 3];

/// Sum of the loads up to a support, one on its axis included.
const SUM: usize = 4;

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

/// Deflection and force of every support of a chain under one load.
#[derive(Debug, Clone, Default)]
pub struct Supports {
    /// Force on each support, N.
    pub force: Vec<f64>,
    /// Deflection of each support, mm.
    pub deflection: Vec<f64>,
}

/// Forces on the supports of a chain under every case of its strip.
#[derive(Debug, Clone, Default)]
pub struct Reactions {
    cases: usize,
    /// Of each support, one for every case, N.
    force: Vec<f64>,
    /// Deflection and rotation of a support and of the one right of it.
    moved: [Vec<f64>; 4],
}

impl Reactions {
    /// Forces on a support, one for every case, N.
    #[must_use]
    pub fn at(&self, support: usize) -> &[f64] {
        &self.force[support * self.cases..][..self.cases]
    }

    /// Force on every support under a load, N.
    pub fn under<'a>(&'a self, load: &'a Superposition) -> impl Iterator<Item = f64> + 'a {
        self.force.chunks_exact(self.cases.max(1)).map(|of_case| load.sum(of_case))
    }

    /// Forces on the supports, support by support one for every case, N.
    #[must_use]
    pub fn forces(&self) -> &[f64] {
        &self.force
    }
}

impl<'a> Chain<'a> {
    /// No support yet.
    #[must_use]
    pub fn new(strip: &'a Strip) -> Self {
        let supports = strip.candidates.len();
        Self {
            strip,
            nodes: Vec::with_capacity(supports),
            carried: vec![0.0; supports * ROWS * strip.cases.len()],
            taken: 0,
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
            self.begin(candidate);
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
        self.carry(bay);
    }

    /// Loads on the first support.
    fn begin(&mut self, candidate: usize) {
        let strip = self.strip;
        let cases = strip.cases.len();
        for case in 0..cases {
            let [force, moment] = strip.left_overhang(candidate, case);
            self.carried[HERE[0] * cases + case] = force;
            self.carried[HERE[1] * cases + case] = moment;
            self.carried[SUM * cases + case] = force;
        }
    }

    /// Carries every case through the elimination of the last support but one.
    fn carry(&mut self, bay: &Bay) {
        let m = self.nodes.len() - 2;
        let Node { inverse: i, coupling: c, .. } = self.nodes[m];
        let movable = if self.strip.stiffness.is_some() { 1.0 } else { 0.0 };
        let cases = self.strip.cases.len();
        let (before, after) = self.carried.split_at_mut((m + 1) * ROWS * cases);
        let from = |row: usize| (m * ROWS + row) * cases;
        let (from_0, from_1) =
            (&before[from(HERE[0])..][..cases], &before[from(HERE[1])..][..cases]);
        let from_sum = &before[from(SUM)..][..cases];
        let [f0, f1, f2, f3] = bay.held().map(|held| &held[..cases]);
        let (here_0, after) = after.split_at_mut(cases);
        let (here_1, after) = after.split_at_mut(cases);
        let (before_0, after) = after.split_at_mut(cases);
        let (before_1, after) = after.split_at_mut(cases);
        let sum = &mut after[..cases];
        for case in 0..cases {
            // A rigid support does not move, whatever force is on it.
            let b = [movable * (from_0[case] + f0[case]), from_1[case] + f1[case]];
            let z = times(i, b);
            before_0[case] = b[0];
            before_1[case] = b[1];
            here_0[case] = f2[case] - (c[0][0] * z[0] + c[1][0] * z[1]);
            here_1[case] = f3[case] - (c[0][1] * z[0] + c[1][1] * z[1]);
            sum[case] = from_sum[case] + (f0[case] + f2[case]);
        }
    }

    /// What was carried to a support, one value for every case.
    fn row(&self, m: usize, row: usize) -> &[f64] {
        let cases = self.strip.cases.len();
        &self.carried[(m * ROWS + row) * cases..][..cases]
    }

    fn both_rows(&self, m: usize, rows: [usize; 2], load: &Superposition) -> [f64; 2] {
        rows.map(|row| load.sum(self.row(m, row)))
    }

    /// Takes back the last support.
    pub fn pop(&mut self) {
        self.nodes.pop();
    }

    /// How the supports left of the last one depend on what follows.
    #[must_use]
    pub fn influences(&self, load: &Superposition) -> LeftPart {
        let last = self.nodes.len() - 1;
        let end = &self.nodes[last];
        if !end.stable {
            return LeftPart::NeverStable;
        }
        let (Some(bay), true) = (end.bay, end.left[2] > MISSING * end.bending) else {
            return LeftPart::Hangs;
        };
        let units = self.units();
        let count = last.min(NEAR);
        let known = last.min(NEAR + 1);
        let mut certain = [[0.0; 2]; NEAR + 2];
        certain[0] = [0.0, load.sum(self.row(last, HERE[1])) / end.left[2]];
        for back in 0..known {
            let m = last - back;
            let before = self.both_rows(m, BEFORE, load);
            certain[back + 1] = self.nodes[m - 1].follow(before, certain[back]);
        }
        let parts = [&certain, &units.by_force, &units.by_moment];
        let mut near = [[0.0; 3]; NEAR];
        for (back, force) in near.iter_mut().enumerate().take(count) {
            *force = self.near_force(load, last - 1 - back, parts.map(|u| &u[back..]));
        }
        let on = [load.sum(bay.held()[2]), 0.0, 0.0];
        let handed_on: [f64; 3] =
            std::array::from_fn(|part| on[part] - on_right(bay, parts[part][1], parts[part][0]));
        let sum = [load.sum(self.row(last, SUM)) - handed_on[0], -handed_on[1], -handed_on[2]];
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
    fn near_force(&self, load: &Superposition, m: usize, u: [&[[f64; 2]]; 3]) -> [f64; 3] {
        if let Some(k) = self.strip.stiffness {
            return u.map(|u| k * u[1][0]);
        }
        // Rigid supports do not move: forces follow from the bays on both sides.
        let mut force = [0.0; 3];
        if let Some(right) = self.nodes[m + 1].bay {
            force[0] += load.sum(right.held()[0]);
            for (force, u) in force.iter_mut().zip(u) {
                *force -= on_left(right, u[1], u[0]);
            }
        }
        if let Some(left) = self.nodes[m].bay {
            force[0] += load.sum(left.held()[2]);
            for (force, u) in force.iter_mut().zip(u) {
                *force -= on_right(left, u[2], u[1]);
            }
        } else {
            force[0] += load.sum(self.row(m, HERE[0]));
        }
        force
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
    /// Forces on all supports under every case, written over `out`.
    pub fn solve(&self, out: &mut Reactions) {
        let chain = self.chain;
        let (strip, nodes) = (chain.strip, &chain.nodes);
        let cases = strip.cases.len();
        let last = nodes.len() - 1;
        out.cases = cases;
        out.force.clear();
        out.force.resize(nodes.len() * cases, 0.0);
        out.moved.iter_mut().for_each(|row| row.resize(cases, 0.0));
        let (here_0, here_1) = (chain.row(last, HERE[0]), chain.row(last, HERE[1]));
        for case in 0..cases {
            let end = strip.right_overhang(nodes[last].candidate, case);
            let force = if strip.stiffness.is_some() { here_0[case] + end[0] } else { 0.0 };
            let moved = times(self.inverse, [force, here_1[case] + end[1]]);
            out.moved[0][case] = moved[0];
            out.moved[1][case] = moved[1];
            if strip.stiffness.is_none() {
                // Rigid supports do not move: forces follow from the bays on both sides.
                out.force[last * cases + case] = end[0];
            }
        }
        for m in (0..last).rev() {
            if let Some(k) = strip.stiffness {
                let forces = &mut out.force[(m + 1) * cases..][..cases];
                forces.iter_mut().zip(&out.moved[0]).for_each(|(force, moved)| *force = k * moved);
            }
            let Node { inverse: i, coupling: c, .. } = nodes[m];
            let (before_0, before_1) = (chain.row(m + 1, BEFORE[0]), chain.row(m + 1, BEFORE[1]));
            let [next_0, next_1, here_0, here_1] = &mut out.moved;
            let rows = [&*next_0, &*next_1].map(|row| &row[..cases]);
            let (here_0, here_1) = (&mut here_0[..cases], &mut here_1[..cases]);
            for case in 0..cases {
                let next = [rows[0][case], rows[1][case]];
                let rest = [
                    before_0[case] - (c[0][0] * next[0] + c[0][1] * next[1]),
                    before_1[case] - (c[1][0] * next[0] + c[1][1] * next[1]),
                ];
                let moved = times(i, rest);
                here_0[case] = moved[0];
                here_1[case] = moved[1];
            }
            if let (None, Some(bay)) = (strip.stiffness, nodes[m + 1].bay) {
                let (k, held) = (&bay.k, bay.held());
                for case in 0..cases {
                    let turned = [out.moved[3][case], out.moved[1][case]];
                    let on = |row: usize| {
                        held[row][case] - (k[row][1] * turned[0] + k[row][3] * turned[1])
                    };
                    out.force[m * cases + case] += on(0);
                    out.force[(m + 1) * cases + case] += on(2);
                }
            }
            let [next_0, next_1, here_0, here_1] = &mut out.moved;
            std::mem::swap(next_0, here_0);
            std::mem::swap(next_1, here_1);
        }
        match strip.stiffness {
            Some(k) => {
                let forces = &mut out.force[..cases];
                forces.iter_mut().zip(&out.moved[0]).for_each(|(force, moved)| *force = k * moved);
            }
            None => {
                let forces = &mut out.force[..cases];
                forces.iter_mut().zip(chain.row(0, HERE[0])).for_each(|(force, on)| *force += on);
            }
        }
    }

    /// Forces on all supports and their deflections under one load.
    #[must_use]
    pub fn supports(&self, load: &Superposition) -> Supports {
        let mut reactions = Reactions::default();
        self.solve(&mut reactions);
        let force: Vec<f64> = reactions.under(load).collect();
        let deflection = force.iter().map(|force| self.chain.strip.settlement(*force)).collect();
        Supports { force, deflection }
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
