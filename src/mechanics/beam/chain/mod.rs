//! A part of a beam, support by support, and what can be said before the rest is known.
//!
//! Chains that begin alike share the elimination of what they share, of the stiffness and of the
//! loads. What stands at a support depends on those left of it alone, so a support taken back
//! leaves nothing behind.
//!
//! Everything is told as if supports were taken from left to right. A chain that takes them from
//! right to left ([`Chain::from_right`]) is one of the mirrored beam: what it says of left and right
//! goes for right and left, and rotations change their sense. Two chains of either kind that end at
//! the same support make up a beam ([`Meeting`]).

mod from_right;
mod left_part;
mod meeting;
mod sag;

use std::cell::OnceCell;
use std::num::NonZeroU32;

use super::bay::{Bay, Held};
use super::joint::{Element, Joint, Springs};
use super::lanes::Both;
use super::{Case, Strip, Superposition};

pub use from_right::{FromRight, Told};
pub use left_part::{Influences, Part, Units};
pub use meeting::{Meeting, Side};
pub use sag::Sag;

/// A subset of the candidates of two strips alike but for their stiffness and loads, taken from left
/// to right under a few loads, with the elimination of their equations up to the last one.
#[derive(Debug, Clone)]
pub struct Chain<'a, const LOADS: usize> {
    strips: [&'a Strip; 2],
    rigidity: Both,
    springs: Springs<Both>,
    /// Supports of both strips are springs.
    sprung: bool,
    /// Supports are taken from right to left.
    mirrored: bool,
    /// Each load on both strips.
    loads: [[Case; 2]; LOADS],
    nodes: Vec<Node<LOADS>>,
    /// Bays between candidates, as far as they were asked for, and where to find them: by left and
    /// right candidate.
    bays: Vec<BayUnder<LOADS>>,
    places: Vec<Option<NonZeroU32>>,
    /// What is beyond each candidate if it is the first, and if it is the last support.
    over: Vec<OnceCell<[End<LOADS>; 2]>>,
}

/// A bay and what each load does in it.
#[derive(Debug, Clone, Copy)]
struct BayUnder<const LOADS: usize> {
    element: Element<Both>,
    length: f64,
    hinged: bool,
    cut_off: bool,
    held: [Held<Both>; LOADS],
}

/// A free end under each load.
#[derive(Debug, Clone, Copy)]
struct End<const LOADS: usize> {
    reach: f64,
    /// Force and moment on the support.
    on: [[Both; 2]; LOADS],
    /// Deflection of its tip from the line it leaves the support with.
    sag: [Both; LOADS],
}

/// One support of a chain; of every quantity one for each load.
#[derive(Debug, Clone, Copy)]
struct Node<const LOADS: usize> {
    candidate: usize,
    joint: Joint<Both>,
    /// Place of the bay on its left; none left of the first support.
    bay: Option<usize>,
    /// Force and moment of everything left of this support, condensed onto it.
    here: [[Both; 2]; LOADS],
    /// The same of the support before, with its own loads.
    before: [[Both; 2]; LOADS],
    /// Sum of the loads up to this support, one on its axis included.
    sum: [Both; LOADS],
}

impl<'a, const LOADS: usize> Chain<'a, LOADS> {
    /// No support yet; to be taken from left to right.
    ///
    /// The strips have the same candidates, hinges and load points.
    #[must_use]
    pub fn new(strips: [&'a Strip; 2], loads: [[Superposition; 2]; LOADS]) -> Self {
        let n = strips[0].candidates.len();
        let [a, b] = strips.map(Strip::springs);
        let load = |[a, b]: [Superposition; 2]| [strips[0].as_case(&a), strips[1].as_case(&b)];
        Self {
            strips,
            rigidity: Both(strips.map(|strip| strip.rigidity)),
            springs: Springs {
                stiffness: Both([a.stiffness, b.stiffness]),
                moves: Both([a.moves, b.moves]),
            },
            sprung: strips.iter().all(|strip| strip.stiffness.is_some()),
            mirrored: false,
            loads: loads.map(load),
            nodes: Vec::with_capacity(n),
            bays: Vec::new(),
            places: vec![None; n * n],
            over: vec![OnceCell::new(); n],
        }
    }

    /// The same strips without a support yet, to be taken from right to left.
    #[must_use]
    pub fn from_right(strips: [&'a Strip; 2], loads: [[Superposition; 2]; LOADS]) -> Self {
        Self { mirrored: true, ..Self::new(strips, loads) }
    }

    /// Moment about every candidate of all that one of the loads puts left of it on one of the
    /// strips, the beam cut free of its supports, N·mm.
    #[must_use]
    pub fn moments_from_left(&self, load: usize, strip: usize) -> Vec<f64> {
        self.strips[strip].moments_from_left(&self.loads[load][strip])
    }

    /// Place of the bay between two candidates.
    fn bay_between(&mut self, [i, j]: [usize; 2]) -> usize {
        let strip = self.strips[0];
        let at = i * strip.candidates.len() + j;
        if let Some(place) = self.places[at] {
            return place.get() as usize - 1;
        }
        let bay = Bay::between(strip, [i.min(j), i.max(j)]);
        let mut held = [Held::zero(); LOADS];
        for at in bay.loads(strip) {
            let unit = Held::units(&bay, self.strips, at);
            for (held, load) in held.iter_mut().zip(&self.loads) {
                held.add(&unit, Both(load.each_ref().map(|load| load.size(at))));
            }
        }
        for held in &mut held {
            held.sags = held.sags.map(|sag| sag / self.rigidity);
        }
        let mut element = Element::of_both(self.strips.map(|strip| bay.element(strip)));
        if self.mirrored {
            element = element.mirrored();
            held = held.map(Held::mirrored);
        }
        let (length, hinged, cut_off) = (bay.length(), bay.hinged(), bay.cut_off());
        self.bays.push(BayUnder { element, length, hinged, cut_off, held });
        self.places[at] = u32::try_from(self.bays.len()).ok().and_then(NonZeroU32::new);
        self.bays.len() - 1
    }

    /// The bay left of a support.
    fn bay(&self, node: &Node<LOADS>) -> Option<&BayUnder<LOADS>> {
        node.bay.map(|place| &self.bays[place])
    }

    fn free_ends(&self, candidate: usize) -> &[End<LOADS>; 2] {
        self.over[candidate].get_or_init(|| {
            let under = self.loads.each_ref().map(|loads| {
                [0, 1].map(|strip| self.strips[strip].free_ends(candidate, &loads[strip]))
            });
            let [left, right] = [0, 1].map(|end| {
                let both = |of: &dyn Fn(&super::FreeEnd) -> f64| {
                    under.each_ref().map(|[a, b]| Both([of(&a[end]), of(&b[end])]))
                };
                let (force, moment) = (both(&|end| end.on[0]), both(&|end| end.on[1]));
                End {
                    reach: under.first().map_or(0.0, |[a, _]| a[end].reach),
                    on: std::array::from_fn(|load| {
                        let turned = if self.mirrored { -moment[load] } else { moment[load] };
                        [force[load], turned]
                    }),
                    sag: both(&|end| end.sag),
                }
            });
            if self.mirrored { [right, left] } else { [left, right] }
        })
    }

    /// Force and moment that each load puts on a candidate from beyond it, if it is the first, and if
    /// it is the last support.
    #[must_use]
    pub fn on_free_ends(&self, candidate: usize) -> [[[Both; 2]; LOADS]; 2] {
        self.free_ends(candidate).each_ref().map(|end| end.on)
    }

    /// Takes this support as the first, cut off from whatever is left of it, which acts on it with
    /// this force and moment under each load.
    pub fn cut_at(&mut self, candidate: usize, acting: [[Both; 2]; LOADS]) {
        self.nodes.clear();
        self.begin(candidate, acting);
    }

    fn begin(&mut self, candidate: usize, here: [[Both; 2]; LOADS]) {
        self.nodes.push(Node {
            candidate,
            joint: Joint::first(&self.springs),
            bay: None,
            here,
            before: [[Both::ZERO; 2]; LOADS],
            sum: here.map(|[force, _]| force),
        });
    }

    /// Takes the next support to the right.
    pub fn push(&mut self, candidate: usize) {
        let zero = Both::ZERO;
        if self.nodes.is_empty() {
            self.begin(candidate, self.free_ends(candidate)[0].on);
            return;
        }
        let Some(before) = self.nodes.last().map(|last| last.candidate) else { return };
        let place = self.bay_between([before, candidate]);
        let BayUnder { element, held, .. } = &self.bays[place];
        let Some(last) = self.nodes.last_mut() else { return };
        let joint = last.joint.next(&self.springs, element);
        let mut next = Node {
            candidate,
            joint,
            bay: Some(place),
            here: [[zero; 2]; LOADS],
            before: [[zero; 2]; LOADS],
            sum: [zero; LOADS],
        };
        for (load, Held { on: f, .. }) in held.iter().enumerate() {
            let [force, moment] = last.here[load];
            // A rigid support does not move, whatever force is on it.
            next.before[load] = [self.springs.moves * (force + f[0]), moment + f[1]];
            let on = last.joint.hand_on(next.before[load]);
            next.here[load] = [f[2] - on[0], f[3] - on[1]];
            next.sum[load] = last.sum[load] + (f[0] + f[2]);
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
    use crate::mechanics::beam::bay::PLACES;
    use crate::mechanics::beam::{Member, StripParts};
    use crate::mechanics::elastic_line::elastic_line;
    use crate::mechanics::sweep::{self, Part, Profile};

    const RIGIDITY: f64 = 6.4e9;

    const CANDIDATES: [f64; 6] = [200.0, 900.0, 1700.0, 2600.0, 3300.0, 3950.0];

    /// A strip, with load points that bear nothing at `others`.
    fn strip(stiffness: Option<f64>, others: &[f64]) -> Strip {
        let mut points = vec![
            [50.0, 300.0, -500.0],
            [1100.0, 320.0, -420.0],
            [1150.0, 310.0, -380.0],
            [2250.0, 290.0, -300.0],
            [2300.0, 305.0, -120.0],
            [4000.0, 300.0, 80.0],
        ];
        points.extend(others.iter().map(|x| [*x, 0.0, 0.0]));
        points.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let column = |of: usize| points.iter().map(|point| point[of]).collect();
        Strip::new(StripParts {
            member: Member::Beam,
            start: 0.0,
            end: 4200.0,
            rigidity: RIGIDITY,
            stiffness,
            candidates: CANDIDATES.to_vec(),
            hinges: Vec::new(),
            load_points: column(0),
            cases: vec![
                Case { points: column(1), uniform: 0.02 },
                Case { points: column(2), uniform: 0.0 },
            ],
        })
    }

    const LOADS: [Superposition; 2] = [
        Superposition::new([(0, 1.35), (1, 0.0), (1, 0.0)]),
        Superposition::new([(0, 1.0), (1, 1.5), (1, 0.0)]),
    ];

    const SUBSETS: [&[usize]; 4] = [&[0, 5], &[0, 2, 5], &[1, 2, 3, 4], &[0, 1, 2, 3, 4, 5]];

    /// Beams on every kind of support beside every other, and a bar beside a beam.
    fn pairs_with_bars() -> impl Iterator<Item = [Strip; 2]> {
        let bars = [[None, Some(320.0)], [Some(320.0), None], [Some(320.0), Some(90.0)]];
        let beside_bar = bars.into_iter().map(|[beam, bar]| {
            let bar = Strip { member: Member::Bar, rigidity: 4e5, ..strip(bar, &[]) };
            [strip(beam, &[]), bar]
        });
        pairs(&[]).chain(beside_bar)
    }

    /// Every kind of support beside every other.
    fn pairs(others: &[f64]) -> impl Iterator<Item = [Strip; 2]> {
        [[None, None], [None, Some(320.0)], [Some(320.0), Some(90.0)]]
            .into_iter()
            .map(|kinds| kinds.map(|kind| strip(kind, others)))
    }

    fn taken<'a>(mut chain: Chain<'a, 2>, subset: &[usize]) -> Chain<'a, 2> {
        for candidate in subset {
            chain.push(*candidate);
        }
        chain
    }

    fn from_left(strips: &[Strip; 2]) -> Chain<'_, 2> {
        Chain::new(strips.each_ref(), LOADS.map(|load| [load; 2]))
    }

    fn from_right(strips: &[Strip; 2]) -> Chain<'_, 2> {
        Chain::from_right(strips.each_ref(), LOADS.map(|load| [load; 2]))
    }

    fn told(strips: &[Strip; 2], subset: &[usize]) -> Vec<Told<2>> {
        let chain = taken(from_left(strips), subset);
        let mut told: Vec<Told<2>> = chain.close(true).expect("a stable beam").collect();
        told.reverse();
        told
    }

    /// Forces on all supports at once.
    fn forces(strip: &Strip, subset: &[usize], load: &Superposition) -> Vec<f64> {
        let mut forces = Vec::new();
        strip.reactions(subset).expect("a stable beam").under(load, &mut forces);
        forces
    }

    fn gross(forces: &[f64]) -> f64 {
        forces.iter().map(|force| force.abs()).sum()
    }

    /// The same forces as from all supports at once, from either end.
    #[test]
    fn a_whole_chain_bears_what_its_supports_do() {
        for strips in pairs_with_bars() {
            for subset in SUBSETS {
                let told = told(&strips, subset);
                let turned: Vec<usize> = subset.iter().rev().copied().collect();
                let chain = taken(from_right(&strips), &turned);
                let mirrored: Vec<Told<2>> = chain.close(true).expect("a stable beam").collect();
                for (which, strip) in strips.iter().enumerate() {
                    for (lane, load) in LOADS.iter().enumerate() {
                        let expected = forces(strip, subset, load);
                        let within = 1e-10 * gross(&expected);
                        for told in [&told, &mirrored] {
                            for (told, expected) in told.iter().zip(&expected) {
                                assert!((told.force[lane].0[which] - expected).abs() < within);
                            }
                        }
                    }
                }
            }
        }
    }

    /// Tips as the sweep has them; bays as on the deflected line, and nowhere farther from the chord
    /// than the farthest place.
    #[test]
    fn sags_are_those_of_the_deflected_line() {
        let mut seen = 0;
        for subset in SUBSETS {
            let places: Vec<f64> = subset
                .windows(2)
                .map(|bay| [CANDIDATES[bay[0]], CANDIDATES[bay[1]]])
                .flat_map(|[a, b]| PLACES.map(|share| a + (b - a) * share))
                .collect();
            for strips in pairs(&places) {
                let told = told(&strips, subset);
                for (which, strip) in strips.iter().enumerate() {
                    let reactions = strip.reactions(subset).expect("a stable beam");
                    for (lane, load) in LOADS.iter().enumerate() {
                        let profile = Profile::of(strip, load, subset, &reactions);
                        let (mut spans, mut tips) = (Vec::new(), Vec::new());
                        sweep::deflections(&profile, RIGIDITY, |d| match d.part {
                            Part::Span => spans.push(d.deflection),
                            Part::FreeEnd => tips.push(d.deflection),
                        });
                        let sag = |m: usize, part: usize| {
                            let sag = told[m].sags[part].expect("asked for, no hinge");
                            sag.sag[lane].0[which].abs()
                        };
                        let last = told.len() - 1;
                        assert!((sag(1, 4) - tips[0]).abs() < 1e-9 * tips[0].max(1.0));
                        assert!((sag(last, 3) - tips[1]).abs() < 1e-9 * tips[1].max(1.0));
                        let line = elastic_line(&profile, RIGIDITY).expect("no hinge");
                        // Every place asked for is a station of the line.
                        let at = |x: f64| {
                            let near = line.iter().find(|point| (point[0] - x).abs() < 1e-6);
                            near.expect("a station")[1]
                        };
                        for (m, span) in spans.iter().enumerate() {
                            let [a, b] = [subset[m], subset[m + 1]].map(|end| CANDIDATES[end]);
                            for (place, share) in PLACES.iter().enumerate() {
                                let got = sag(m + 1, place);
                                assert!(got <= span * (1.0 + 1e-9), "{got} of {span}");
                                let chord = at(a) + (at(b) - at(a)) * share;
                                let drawn = (at(a + (b - a) * share) - chord).abs();
                                assert!((drawn - got).abs() < 1e-9 * span, "{drawn} {got}");
                                seen += 1;
                            }
                        }
                    }
                }
            }
        }
        assert_eq!(seen, 3 * 3 * 2 * 2 * (1 + 2 + 3 + 5));
    }

    /// Whatever follows: the forces told of a left part are those of the whole beam, with the force
    /// and the moment at its last support put in.
    #[test]
    fn a_left_part_foretells_what_any_right_part_makes_of_it() {
        let mut seen = 0;
        for strips in pairs_with_bars() {
            for (left, whole) in [
                (&[0, 1, 2][..], &[0, 1, 2, 4, 5][..]),
                (&[0, 1, 2], &[0, 1, 2, 3, 4, 5]),
                (&[1, 2, 3], &[1, 2, 3, 5]),
            ] {
                let chain = taken(from_left(&strips), left);
                let units = chain.units().expect("it stands");
                for (which, strip) in strips.iter().enumerate() {
                    let reactions = strip.reactions(whole).expect("a stable beam");
                    for (lane, load) in LOADS.iter().enumerate() {
                        let profile = Profile::of(strip, load, whole, &reactions);
                        let forces = forces(strip, whole, load);
                        let last = left.len() - 1;
                        let moment = -profile.moment[profile.supports[last]];
                        let of = |parts: [Both; 3]| {
                            let [certain, by_force, by_moment] = parts.map(|part| part.0[which]);
                            certain + by_force * forces[last] + by_moment * moment
                        };
                        let known = chain.influences(&units, lane);
                        let gross = gross(&forces);
                        for (back, near) in units.near(&known).enumerate() {
                            let expected = forces[last - 1 - back];
                            assert!((of(near) - expected).abs() < 1e-9 * gross, "{expected}");
                            seen += 1;
                        }
                        let sum: f64 = forces[..last].iter().sum();
                        assert!((of(units.sum(&known)) - sum).abs() < 1e-9 * gross, "{sum}");
                    }
                }
            }
        }
        assert_eq!(seen, 6 * 2 * 3 * 2 * 2);
    }

    /// Two parts that meet bear what the whole beam does, and their bays sag alike.
    #[test]
    fn parts_that_meet_are_the_whole_beam() {
        let mut seen = 0;
        for strips in pairs_with_bars() {
            for (left, right) in [
                (&[0, 1, 2][..], &[5, 4, 2][..]),
                (&[0, 2], &[5, 4, 3, 2]),
                (&[1, 2, 3, 4], &[5, 4]),
            ] {
                let whole = [left, &right.iter().rev().skip(1).copied().collect::<Vec<_>>()];
                let whole = whole.concat();
                let total = LOADS.map(|load| Both(strips.each_ref().map(|s| s.total_load(&load))));
                let sides = [taken(from_left(&strips), left), taken(from_right(&strips), right)];
                let parts = sides.each_ref().map(|side| side.part([true; 2]).expect("it stands"));
                let meeting = Meeting::of(&parts[0], &parts[1], &total).expect("a stable beam");
                let told = told(&strips, &whole);
                let shared = left.len() - 1;
                for (load, at) in meeting.iter().enumerate() {
                    let all: Vec<f64> = told.iter().map(|told| told.force[load].0[0]).collect();
                    let alike = |a: Both, b: Both| {
                        let apart = (a - b).abs().0;
                        assert!(apart.iter().all(|by| *by < 1e-9 * gross(&all)), "{a:?} {b:?}");
                    };
                    alike(at.force, told[shared].force[load]);
                    let lefts = told[..shared].iter().rev();
                    let rights = told[shared + 1..].iter();
                    for (part, side, told) in [
                        (0, Side::Left, lefts.collect::<Vec<_>>()),
                        (1, Side::Right, rights.collect::<Vec<_>>()),
                    ] {
                        let forces: Vec<_> = at.forces(&parts[part], load, side).collect();
                        assert_eq!(forces.len(), told.len());
                        let supports = [left, right][part].iter().rev().skip(1);
                        for (((support, force), told), expected) in
                            forces.iter().zip(told).zip(supports)
                        {
                            assert_eq!(support, expected);
                            alike(*force, told.force[load]);
                            seen += 1;
                        }
                    }
                    let bays = [(0, Side::Left), (1, Side::Right)]
                        .map(|(part, side)| at.sags(&parts[part], load, side).collect::<Vec<_>>());
                    let expected = told.iter().flat_map(|told| told.sags.iter().flatten());
                    let sizes = |sags: &mut dyn Iterator<Item = Both>| {
                        let mut sizes: Vec<Both> = sags.map(Both::abs).collect();
                        sizes.sort_by(|a, b| a.0[0].total_cmp(&b.0[0]));
                        sizes
                    };
                    let got = sizes(&mut bays.iter().flatten().map(|sag| sag.sag[0]));
                    let expected = sizes(&mut expected.map(|sag| sag.sag[load]));
                    assert_eq!(got.len(), expected.len());
                    for (got, expected) in got.iter().zip(&expected) {
                        let apart = (*got - *expected).abs().0;
                        assert!(apart.iter().all(|by| *by < 1e-9), "{got:?} {expected:?}");
                    }
                }
            }
        }
        assert_eq!(seen, 6 * 2 * (4 + 4 + 4));
    }
}
