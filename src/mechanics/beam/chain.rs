//! A left part of a beam, support by support, and what can be said before the rest is known.
//!
//! Chains that begin alike share the elimination of what they share, of the stiffness and of the
//! loads. What stands at a support depends on those left of it alone, so a support taken back
//! leaves nothing behind.

use std::cell::OnceCell;
use std::num::NonZeroU32;

use super::bay::{Bay, Held};
use super::joint::{Joint, times};
use super::{Case, FreeEnd, Strip, Superposition};

/// A subset of a strip's candidates, taken from left to right under a few loads, with the
/// elimination of its equations up to the last one.
#[derive(Debug, Clone)]
pub struct Chain<'a, const LOADS: usize> {
    strip: &'a Strip,
    loads: [Case; LOADS],
    nodes: Vec<Node<LOADS>>,
    /// Bays between candidates, as far as they were asked for, and where to find them: by left and
    /// right candidate.
    bays: Vec<BayUnder<LOADS>>,
    places: Vec<Option<NonZeroU32>>,
    /// What is beyond each candidate if it is the first, and if it is the last support.
    over: Vec<OnceCell<[FreeEnd<LOADS>; 2]>>,
}

/// A bay and what each load does in it.
#[derive(Debug, Clone, Copy)]
struct BayUnder<const LOADS: usize> {
    bay: Bay,
    held: [Held; LOADS],
}

/// One support of a chain; of every quantity one for each load.
#[derive(Debug, Clone, Copy)]
struct Node<const LOADS: usize> {
    candidate: usize,
    joint: Joint,
    /// Place of the bay on its left; none left of the first support.
    bay: Option<usize>,
    /// Force and moment of everything left of this support, condensed onto it.
    here: [[f64; LOADS]; 2],
    /// The same of the support before, with its own loads.
    before: [[f64; LOADS]; 2],
    /// Sum of the loads up to this support, one on its axis included.
    sum: [f64; LOADS],
}

/// Supports left of the last one of which [`Influences`] speaks one by one. Farther ones hardly
/// feel what comes: what was found of them when they were near still holds.
pub const NEAR: usize = 4;

/// Displacements of the last supports, the last one first, under a unit of force on the last and
/// under a unit of moment there: what no load changes.
#[derive(Debug, Clone, Copy)]
pub struct Units {
    by_force: [[f64; 2]; NEAR + 2],
    by_moment: [[f64; 2]; NEAR + 2],
}

/// How the forces left of the last support depend on the rest of the beam under one load:
/// `certain + by_force · F + by_moment · M`, each as those three, with `F` the force on the last
/// support and `M` the bending moment there. Everything to the right acts through these two
/// numbers alone, and linearly.
#[derive(Debug, Clone, Copy)]
pub struct Influences {
    near: [[f64; 3]; NEAR],
    count: usize,
    /// Displacements of the last supports that are certain, the last one first.
    certain: [[f64; 2]; NEAR + 2],
    /// Sum of the forces on all supports left of the last. It follows from statics: it is what
    /// loads there are up to the last support, less what the last bay hands on to that.
    pub sum: [f64; 3],
}

/// How far the middle of a bay is from the straight line through its supports, or the tip of a free
/// end from the line through the nearest two, in some parts.
#[derive(Debug, Clone, Copy)]
pub struct Sag<const PARTS: usize> {
    /// Length of the bay, twice that of the free end, mm.
    pub length: f64,
    /// Deflection from that line, mm.
    pub sag: [f64; PARTS],
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
    Stands(Units),
}

impl<'a, const LOADS: usize> Chain<'a, LOADS> {
    /// No support yet.
    #[must_use]
    pub fn new(strip: &'a Strip, loads: [Superposition; LOADS]) -> Self {
        let n = strip.candidates.len();
        Self {
            strip,
            loads: loads.map(|load| strip.as_case(&load)),
            nodes: Vec::with_capacity(n),
            bays: Vec::new(),
            places: vec![None; n * n],
            over: vec![OnceCell::new(); n],
        }
    }

    /// Place of the bay between two candidates.
    fn bay_between(&mut self, [i, j]: [usize; 2]) -> usize {
        let at = i * self.strip.candidates.len() + j;
        if let Some(place) = self.places[at] {
            return place.get() as usize - 1;
        }
        let mut held = [Held::default(); LOADS];
        let bay = Bay::of(self.strip, [i, j], |at, unit| {
            for (held, load) in held.iter_mut().zip(&self.loads) {
                held.add(unit, load.size(at));
            }
        });
        self.bays.push(BayUnder { bay, held });
        self.places[at] = u32::try_from(self.bays.len()).ok().and_then(NonZeroU32::new);
        self.bays.len() - 1
    }

    /// The bay left of a support.
    fn bay(&self, node: &Node<LOADS>) -> Option<&BayUnder<LOADS>> {
        node.bay.map(|place| &self.bays[place])
    }

    fn free_ends(&self, candidate: usize) -> &[FreeEnd<LOADS>; 2] {
        self.over[candidate].get_or_init(|| self.strip.free_ends(candidate, &self.loads))
    }

    /// Takes the next support to the right.
    pub fn push(&mut self, candidate: usize) {
        let strip = self.strip;
        let zero = [0.0; LOADS];
        if self.nodes.is_empty() {
            let here = self.free_ends(candidate)[0].on;
            self.nodes.push(Node {
                candidate,
                joint: Joint::first(strip),
                bay: None,
                here,
                before: [zero; 2],
                sum: here[0],
            });
            return;
        }
        let Some(before) = self.nodes.last().map(|last| last.candidate) else { return };
        let place = self.bay_between([before, candidate]);
        let BayUnder { bay, held } = &self.bays[place];
        let Some(last) = self.nodes.last_mut() else { return };
        let joint = last.joint.next(strip, bay);
        let mut next = Node {
            candidate,
            joint,
            bay: Some(place),
            here: [zero; 2],
            before: [zero; 2],
            sum: zero,
        };
        for (lane, Held { on: f, .. }) in held.iter().enumerate() {
            // A rigid support does not move, whatever force is on it.
            next.before[0][lane] = strip.movable(last.here[0][lane] + f[0]);
            next.before[1][lane] = last.here[1][lane] + f[1];
            let on = last.joint.hand_on([next.before[0][lane], next.before[1][lane]]);
            next.here[0][lane] = f[2] - on[0];
            next.here[1][lane] = f[3] - on[1];
            next.sum[lane] = last.sum[lane] + (f[0] + f[2]);
        }
        self.nodes.push(next);
    }

    /// Takes back the last support.
    pub fn pop(&mut self) {
        self.nodes.pop();
    }

    /// What can be said before the supports right of the last one are known.
    #[must_use]
    pub fn left_part(&self) -> LeftPart {
        let Some((end, before)) = self.nodes.split_last() else { return LeftPart::Hangs };
        if !end.joint.stable {
            return LeftPart::NeverStable;
        }
        if end.bay.is_none() || !end.joint.stands() {
            return LeftPart::Hangs;
        }
        let left = end.joint.left;
        let mut units = Units { by_force: [[0.0; 2]; NEAR + 2], by_moment: [[0.0; 2]; NEAR + 2] };
        // A rigid support does not move, whatever it carries.
        units.by_force[0] =
            self.strip.stiffness.map_or([0.0; 2], |k| [1.0 / k, -left[1] / (left[2] * k)]);
        units.by_moment[0] = [0.0, 1.0 / left[2]];
        for (back, node) in before.iter().rev().enumerate().take(NEAR + 1) {
            units.by_force[back + 1] = node.joint.follow([0.0; 2], units.by_force[back]);
            units.by_moment[back + 1] = node.joint.follow([0.0; 2], units.by_moment[back]);
        }
        LeftPart::Stands(units)
    }

    /// How the supports left of the last one depend on what follows, under one of the loads.
    #[must_use]
    pub fn influences(&self, units: &Units, load: usize) -> Influences {
        let last = self.nodes.len() - 1;
        let end = &self.nodes[last];
        let count = last.min(NEAR);
        let mut certain = [[0.0; 2]; NEAR + 2];
        certain[0] = [0.0, end.here[1][load] / end.joint.left[2]];
        for back in 0..last.min(NEAR + 1) {
            let before = self.nodes[last - back].before.map(|row| row[load]);
            certain[back + 1] = self.nodes[last - back - 1].joint.follow(before, certain[back]);
        }
        let parts = [&certain, &units.by_force, &units.by_moment];
        let mut near = [[0.0; 3]; NEAR];
        for (back, force) in near.iter_mut().enumerate().take(count) {
            *force = self.near_force(load, last - 1 - back, parts.map(|u| &u[back..]));
        }
        let handed_on: [f64; 3] = std::array::from_fn(|part| {
            let Some(BayUnder { bay, held }) = self.bay(end) else { return 0.0 };
            let on = on_right(bay, parts[part][1], parts[part][0]);
            if part == 0 { held[load].on[2] - on } else { -on }
        });
        let sum = [end.sum[load] - handed_on[0], -handed_on[1], -handed_on[2]];
        Influences { near, count, certain, sum }
    }

    /// How the nearest bays left of the last support sag, those with a hinge left out, and the left
    /// free end where that is near, under one of the loads.
    pub fn sags<'s>(
        &'s self,
        units: &'s Units,
        influences: &'s Influences,
        load: usize,
    ) -> impl Iterator<Item = Sag<3>> + 's {
        let last = self.nodes.len() - 1;
        let parts = [&influences.certain, &units.by_force, &units.by_moment];
        let bays = (0..influences.count).filter_map(move |back| {
            let node = &self.nodes[last - back];
            self.bay(node).filter(|under| !under.bay.hinged).map(|BayUnder { bay, held }| {
                let mut sag = parts.map(|u| turned(u[back + 1], u[back], bay.length));
                sag[0] += held[load].sag;
                Sag { length: bay.length, sag }
            })
        });
        let first_bay = self.nodes.get(1).and_then(|node| self.bay(node));
        let left_end = first_bay.filter(|under| last <= NEAR + 1 && !under.bay.hinged);
        let left_end = left_end.map(move |BayUnder { bay, .. }| {
            let end = &self.free_ends(self.nodes[0].candidate)[0];
            let mut sag = parts.map(|u| tip(u[last], u[last - 1], -bay.length, -end.reach));
            sag[0] += end.sag[load];
            Sag { length: 2.0 * end.reach, sag }
        });
        bays.chain(left_end)
    }

    /// Force on support `m` from displacements that begin with those of its right neighbour: as
    /// certain, by force and by moment.
    fn near_force(&self, load: usize, m: usize, u: [&[[f64; 2]]; 3]) -> [f64; 3] {
        if let Some(k) = self.strip.stiffness {
            return u.map(|u| k * u[1][0]);
        }
        // Rigid supports do not move: forces follow from the bays on both sides.
        let mut force = [0.0; 3];
        if let Some(BayUnder { bay, held }) = self.bay(&self.nodes[m + 1]) {
            force[0] += held[load].on[0];
            for (force, u) in force.iter_mut().zip(u) {
                *force -= on_left(bay, u[1], u[0]);
            }
        }
        if let Some(BayUnder { bay, held }) = self.bay(&self.nodes[m]) {
            force[0] += held[load].on[2];
            for (force, u) in force.iter_mut().zip(u) {
                *force -= on_right(bay, u[2], u[1]);
            }
        } else {
            force[0] += self.nodes[m].here[0][load];
        }
        force
    }

    /// Forces on the supports taken, if there are no others, from right to left; `None` when the
    /// beam can move without bending.
    #[must_use]
    pub fn close(&self) -> Option<FromRight<'_, 'a, LOADS>> {
        let strip = self.strip;
        let [first, .., last] = self.nodes.as_slice() else { return None };
        let inverse = last.joint.close()?;
        if strip.turns_freely(first.candidate, last.candidate) {
            return None;
        }
        let over = self.free_ends(last.candidate)[1].on;
        let moved = std::array::from_fn(|lane| {
            let force = strip.movable(last.here[0][lane] + over[0][lane]);
            times(inverse, [force, last.here[1][lane] + over[1][lane]])
        });
        Some(FromRight { chain: self, left: self.nodes.len(), moved, on_right: over[0] })
    }
}

/// Forces on the supports of a whole chain, from right to left, one for each load.
#[derive(Debug, Clone)]
pub struct FromRight<'c, 'a, const LOADS: usize> {
    chain: &'c Chain<'a, LOADS>,
    /// Supports not told yet.
    left: usize,
    /// Displacement of the next one to tell.
    moved: [[f64; 2]; LOADS],
    /// What a rigid support takes from its right.
    on_right: [f64; LOADS],
}

impl<const LOADS: usize> Iterator for FromRight<'_, '_, LOADS> {
    type Item = Told<LOADS>;

    fn next(&mut self) -> Option<Told<LOADS>> {
        self.left = self.left.checked_sub(1)?;
        let node = &self.chain.nodes[self.left];
        let here = self.moved;
        if let Some(before) = self.left.checked_sub(1).map(|m| &self.chain.nodes[m]) {
            self.moved = std::array::from_fn(|lane| {
                before.joint.follow(node.before.map(|row| row[lane]), here[lane])
            });
        }
        let before = self.moved;
        let under = self.chain.bay(node);
        let middle = under.filter(|under| !under.bay.hinged).map(|BayUnder { bay, held }| Sag {
            length: bay.length,
            sag: std::array::from_fn(|lane| {
                held[lane].sag + turned(before[lane], here[lane], bay.length)
            }),
        });
        let free_end = |end: &FreeEnd<LOADS>, near: &[[f64; 2]; LOADS], far, length, reach| Sag {
            length: 2.0 * end.reach,
            sag: std::array::from_fn(|lane| {
                let far: &[[f64; 2]; LOADS] = far;
                end.sag[lane] + tip(near[lane], far[lane], length, reach)
            }),
        };
        let is_last = self.left + 1 == self.chain.nodes.len();
        let bay = under.map(|under| &under.bay).filter(|bay| !bay.hinged);
        let right_end = bay.filter(|_| is_last).map(|bay| {
            let end = &self.chain.free_ends(node.candidate)[1];
            free_end(end, &here, &before, bay.length, end.reach)
        });
        let left_end = bay.filter(|_| self.left == 1).map(|bay| {
            let end = &self.chain.free_ends(self.chain.nodes[0].candidate)[0];
            free_end(end, &before, &here, -bay.length, -end.reach)
        });
        let force = match (self.chain.strip.stiffness, under) {
            (Some(k), _) => here.map(|moved| k * moved[0]),
            // Rigid supports do not move: forces follow from the bays on both sides.
            (None, Some(BayUnder { bay, held })) => {
                let on = |row: usize, lane: usize| {
                    let turned =
                        bay.k[row][1] * self.moved[lane][1] + bay.k[row][3] * here[lane][1];
                    held[lane].on[row] - turned
                };
                let right = self.on_right;
                self.on_right = std::array::from_fn(|lane| on(0, lane));
                std::array::from_fn(|lane| right[lane] + on(2, lane))
            }
            (None, None) => std::array::from_fn(|lane| self.on_right[lane] + node.here[0][lane]),
        };
        Some(Told { force, sags: [middle, right_end, left_end] })
    }
}

/// What a chain tells of one support.
#[derive(Debug, Clone, Copy)]
pub struct Told<const LOADS: usize> {
    /// Force on it, under each load, N.
    pub force: [f64; LOADS],
    /// The bay on its left, and the free ends next to that, if they have no hinge.
    pub sags: [Option<Sag<LOADS>>; 3],
}

/// Deflection of the middle of a bay from its chord by the slopes of its ends: a cubic turns an
/// eighth of the span from each.
fn turned(left: [f64; 2], right: [f64; 2], length: f64) -> f64 {
    (left[1] - right[1]) * length / 8.0
}

/// Deflection of the tip of a free end, `reach` beyond a support, from the line through that and
/// the next support, as far as the slope over the support goes beyond that line; `length` from
/// that next support to this, both signed towards the tip.
fn tip(near: [f64; 2], far: [f64; 2], length: f64, reach: f64) -> f64 {
    (near[1] - (near[0] - far[0]) / length) * reach
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::beam::StripParts;
    use crate::mechanics::elastic_line::elastic_line;
    use crate::mechanics::sweep::{self, Part, Profile};

    const RIGIDITY: f64 = 6.4e9;

    fn strip(stiffness: Option<f64>) -> Strip {
        Strip::new(StripParts {
            start: 0.0,
            end: 4200.0,
            rigidity: RIGIDITY,
            stiffness,
            candidates: vec![200.0, 900.0, 1700.0, 2600.0, 3300.0, 3950.0],
            hinges: Vec::new(),
            load_points: vec![50.0, 1100.0, 1150.0, 2250.0, 2300.0, 4000.0],
            cases: vec![
                Case { points: vec![300.0, 320.0, 310.0, 290.0, 305.0, 300.0], uniform: 0.02 },
                Case { points: vec![-500.0, -420.0, -380.0, -300.0, -120.0, 80.0], uniform: 0.0 },
            ],
        })
    }

    const LOADS: [Superposition; 2] = [
        Superposition::new([(0, 1.35), (1, 0.0), (1, 0.0)]),
        Superposition::new([(0, 1.0), (1, 1.5), (1, 0.0)]),
    ];

    const SUBSETS: [&[usize]; 4] = [&[0, 5], &[0, 2, 5], &[1, 2, 3, 4], &[0, 1, 2, 3, 4, 5]];

    fn told(strip: &Strip, subset: &[usize]) -> Vec<Told<2>> {
        let mut chain = Chain::new(strip, LOADS);
        for candidate in subset {
            chain.push(*candidate);
        }
        let mut told: Vec<Told<2>> = chain.close().expect("a stable beam").collect();
        told.reverse();
        told
    }

    /// The same forces as from all supports at once.
    #[test]
    fn a_whole_chain_bears_what_its_supports_do() {
        for stiffness in [None, Some(320.0)] {
            let strip = strip(stiffness);
            for subset in SUBSETS {
                let reactions = strip.reactions(subset).expect("a stable beam");
                for (lane, load) in LOADS.iter().enumerate() {
                    let mut expected = Vec::new();
                    reactions.under(load, &mut expected);
                    let gross: f64 = expected.iter().map(|force| force.abs()).sum();
                    for (told, expected) in told(&strip, subset).iter().zip(expected) {
                        assert!((told.force[lane] - expected).abs() < 1e-10 * gross);
                    }
                }
            }
        }
    }

    /// Tips as the sweep has them; middles as on the deflected line, and no farther from the chord
    /// than the farthest place.
    #[test]
    fn sags_are_those_of_the_deflected_line() {
        let mut seen = 0;
        for stiffness in [None, Some(320.0)] {
            let strip = strip(stiffness);
            for subset in SUBSETS {
                let reactions = strip.reactions(subset).expect("a stable beam");
                let told = told(&strip, subset);
                for (lane, load) in LOADS.iter().enumerate() {
                    let profile = Profile::of(&strip, load, subset, &reactions);
                    let (mut spans, mut tips) = (Vec::new(), Vec::new());
                    sweep::deflections(&profile, RIGIDITY, |d| match d.part {
                        Part::Span => spans.push(d.deflection),
                        Part::FreeEnd => tips.push(d.deflection),
                    });
                    let sag = |m: usize, part: usize| {
                        told[m].sags[part].expect("no hinge").sag[lane].abs()
                    };
                    let last = told.len() - 1;
                    assert!((sag(1, 2) - tips[0]).abs() < 1e-9 * tips[0].max(1.0));
                    assert!((sag(last, 1) - tips[1]).abs() < 1e-9 * tips[1].max(1.0));
                    let line = elastic_line(&profile, RIGIDITY).expect("no hinge");
                    let at = |x: f64| {
                        let right = line.partition_point(|point| point[0] < x).max(1);
                        let [a, b] = [line[right - 1], line[right]];
                        a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0])
                    };
                    for (m, span) in spans.iter().enumerate() {
                        let middle = sag(m + 1, 0);
                        assert!(middle <= span * (1.0 + 1e-9), "{middle} of {span}");
                        let [a, b] = [m, m + 1].map(|m| profile.x[profile.supports[m]]);
                        let drawn = at(f64::midpoint(a, b)) - f64::midpoint(at(a), at(b));
                        // The points of the line lie close, but not on the middle.
                        assert!((drawn.abs() - middle).abs() < 0.02 * span, "{drawn} {middle}");
                        seen += 1;
                    }
                }
            }
        }
        assert_eq!(seen, 2 * 2 * (1 + 2 + 3 + 5));
    }

    /// Whatever follows: the forces told of a left part are those of the whole beam, with the force
    /// and the moment at its last support put in.
    #[test]
    fn a_left_part_foretells_what_any_right_part_makes_of_it() {
        let mut seen = 0;
        for stiffness in [None, Some(320.0)] {
            let strip = strip(stiffness);
            for (left, whole) in [
                (&[0, 1, 2][..], &[0, 1, 2, 4, 5][..]),
                (&[0, 1, 2], &[0, 1, 2, 3, 4, 5]),
                (&[1, 2, 3], &[1, 2, 3, 5]),
            ] {
                let mut chain = Chain::new(&strip, LOADS);
                for candidate in left {
                    chain.push(*candidate);
                }
                let LeftPart::Stands(units) = chain.left_part() else { panic!("it stands") };
                let reactions = strip.reactions(whole).expect("a stable beam");
                for (lane, load) in LOADS.iter().enumerate() {
                    let profile = Profile::of(&strip, load, whole, &reactions);
                    let mut forces = Vec::new();
                    reactions.under(load, &mut forces);
                    let last = left.len() - 1;
                    let moment = -profile.moment[profile.supports[last]];
                    let of = |[certain, by_force, by_moment]: &[f64; 3]| {
                        certain + by_force * forces[last] + by_moment * moment
                    };
                    let told = chain.influences(&units, lane);
                    let gross: f64 = forces.iter().map(|force| force.abs()).sum();
                    for (back, near) in told.near().iter().enumerate() {
                        let expected = forces[last - 1 - back];
                        assert!((of(near) - expected).abs() < 1e-9 * gross, "{expected}");
                        seen += 1;
                    }
                    let sum: f64 = forces[..last].iter().sum();
                    assert!((of(&told.sum) - sum).abs() < 1e-9 * gross, "{sum}");
                }
            }
        }
        assert_eq!(seen, 2 * 3 * 2 * 2);
    }
}
