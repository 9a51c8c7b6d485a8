//! A left part of a beam, support by support, and what can be said before the rest is known.
//!
//! Chains that begin alike share the elimination of what they share, of the stiffness and of the
//! loads. What stands at a support depends on those left of it alone, so a support taken back
//! leaves nothing behind.

mod from_right;
mod left_part;
mod sag;

use std::cell::OnceCell;
use std::num::NonZeroU32;

use super::bay::{Bay, Held};
use super::joint::Joint;
use super::{Case, FreeEnd, Strip, Superposition};

pub use from_right::{FromRight, Told};
pub use left_part::{Influences, LeftPart, Units};
pub use sag::Sag;

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

    /// Moment about every candidate of all that one of the loads puts left of it, the beam cut free
    /// of its supports, N·mm.
    #[must_use]
    pub fn moments_from_left(&self, load: usize) -> Vec<f64> {
        self.strip.moments_from_left(&self.loads[load])
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
