//! What is certain of a left part before the rest of the beam is known.

use std::ops::Range;

use super::sag::{Sag, tip, turned};
use super::{BayUnder, Chain, Node};
use crate::mechanics::beam::bay::{MIDDLE, PLACES};
use crate::mechanics::beam::lanes::{Both, Lanes};

/// Supports left of the last one of which [`Influences`] speaks one by one. Farther ones hardly
/// feel what comes: what was found of them when they were near still holds.
pub const NEAR: usize = 4;

/// How the supports left of the last one depend on the rest of the beam, which acts through two
/// numbers alone, and linearly: the force on the last support, and the bending moment there. This
/// is what one unit of either does, which no load changes.
#[derive(Debug, Clone, Copy)]
pub struct Units {
    /// Supports spoken of.
    count: usize,
    /// Displacements of the last supports, the last one first.
    moved: [[[Both; 2]; NEAR + 2]; 2],
    /// Forces on the nearest supports left of the last, the nearest first.
    near: [[Both; NEAR]; 2],
    /// Sum of the forces on all supports left of the last.
    sum: [Both; 2],
}

/// The same, as far as it is certain before those two numbers are known: what the loads of one
/// combination do.
#[derive(Debug, Clone, Copy)]
pub struct Influences {
    moved: [[Both; 2]; NEAR + 2],
    near: [Both; NEAR],
    /// It follows from statics: it is what loads there are up to the last support, less what the
    /// last bay hands on to that.
    sum: Both,
}

impl Units {
    /// Force on each of the nearest supports, the nearest first, in three parts: certain, by force
    /// and by moment.
    pub fn near<'u>(&'u self, certain: &'u Influences) -> impl Iterator<Item = [Both; 3]> + 'u {
        (0..self.count).map(|m| [certain.near[m], self.near[0][m], self.near[1][m]])
    }

    /// Sum of the forces on all supports left of the last, in the same parts.
    #[must_use]
    pub const fn sum(&self, certain: &Influences) -> [Both; 3] {
        [certain.sum, self.sum[0], self.sum[1]]
    }
}

/// All that a part of a beam that ends at the same support has to know of this one, under a few
/// loads: of every quantity what a unit of the force on that support and of the moment over it does,
/// and what is certain under each load.
#[derive(Debug, Clone)]
pub struct Part<const LOADS: usize> {
    /// Forces on the supports left of the last, the nearest first.
    pub(super) forces: Vec<Linear<LOADS>>,
    /// Their sum.
    pub(super) sum: Linear<LOADS>,
    /// Rotation over the last support.
    pub(super) turn: Linear<LOADS>,
    /// How the bays sag under each of the loads this was asked of.
    pub(super) sags: [Vec<Sag<3>>; LOADS],
}

/// A quantity by the force on a support, by the moment over it, and what is certain of it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Linear<const LOADS: usize> {
    pub(super) by: [Both; 2],
    pub(super) certain: [Both; LOADS],
}

impl<const LOADS: usize> Chain<'_, LOADS> {
    /// Whether a beam is never stable on these supports, whatever follows.
    #[must_use]
    pub fn never_stable(&self) -> bool {
        self.nodes.last().is_some_and(|end| !end.joint.stable)
    }

    /// What can be said before the supports right of the last one are known; `None` where the part
    /// does not stand by itself, but hangs on what follows.
    #[must_use]
    pub fn units(&self) -> Option<Units> {
        let (end, before) = self.nodes.split_last()?;
        let bay = self.bay(end).filter(|_| end.joint.stable && end.joint.stands())?;
        let left = end.joint.left;
        let unit = Both::splat(1.0) / left[2];
        // A rigid support does not move, whatever it carries.
        let by_force = self.springs.moves / self.springs.stiffness;
        let mut moved = [[[Both::ZERO; 2]; NEAR + 2]; 2];
        moved[0][0] = [by_force, -(left[1] * unit) * by_force];
        moved[1][0] = [Both::ZERO, unit];
        let count = before.len().min(NEAR);
        for (back, node) in before.iter().rev().enumerate().take(NEAR + 1) {
            for moved in &mut moved {
                moved[back + 1] = node.joint.follow([Both::ZERO; 2], moved[back]);
            }
        }
        let mut near = [[Both::ZERO; NEAR]; 2];
        let mut sum = [Both::ZERO; 2];
        for ((near, sum), moved) in near.iter_mut().zip(&mut sum).zip(&moved) {
            self.near_forces(&mut near[..count], moved, None);
            *sum = bay.element.on_moved(moved[1], moved[0])[1];
        }
        Some(Units { count, moved, near, sum })
    }

    /// What of the supports left of the last one is certain under one of the loads.
    #[must_use]
    pub fn influences(&self, units: &Units, load: usize) -> Influences {
        let last = self.nodes.len() - 1;
        let end = &self.nodes[last];
        let mut moved = [[Both::ZERO; 2]; NEAR + 2];
        moved[0] = [Both::ZERO, end.here[load][1] * units.moved[1][0][1]];
        for back in 0..last.min(NEAR + 1) {
            let before = self.nodes[last - back].before[load];
            moved[back + 1] = self.nodes[last - back - 1].joint.follow(before, moved[back]);
        }
        let mut near = [Both::ZERO; NEAR];
        self.near_forces(&mut near[..units.count], &moved, Some(load));
        let sum = self.sum_left(&moved, load);
        Influences { moved, near, sum }
    }

    /// The supports taken as a part of a beam that goes on beyond the last one; of the supports the
    /// nearest, of the bays none. `None` where nothing is known of it by itself.
    #[must_use]
    pub fn near_part(&self) -> Option<Part<LOADS>> {
        let units = self.units()?;
        let influences: [_; LOADS] = std::array::from_fn(|load| self.influences(&units, load));
        let linear = |by: [Both; 2], certain: &dyn Fn(&Influences) -> Both| Linear {
            by,
            certain: influences.each_ref().map(certain),
        };
        let force = |m: usize| linear(units.near.map(|near| near[m]), &|known| known.near[m]);
        Some(Part {
            forces: (0..units.count).map(force).collect(),
            sum: linear(units.sum, &|known| known.sum),
            turn: linear(units.moved.map(|moved| moved[0][1]), &|known| known.moved[0][1]),
            sags: [const { Vec::new() }; LOADS],
        })
    }

    /// The same with all its supports, and the sags of all its bays under some of the loads.
    #[must_use]
    pub fn part(&self, sagging: [bool; LOADS]) -> Option<Part<LOADS>> {
        let units = self.units()?;
        let (end, before) = self.nodes.split_last()?;
        let zero = [Both::ZERO; 2];
        let moved_by = [0, 1].map(|unit| {
            self.followed(units.moved[unit][0], before.iter().rev().map(|node| (node, zero)))
        });
        let moved: [Vec<[Both; 2]>; LOADS] = std::array::from_fn(|load| {
            let first = [Both::ZERO, end.here[load][1] * units.moved[1][0][1]];
            let loads = self.nodes.iter().rev().map(|node| node.before[load]);
            self.followed(first, before.iter().rev().zip(loads))
        });
        let forces_by = moved_by.each_ref().map(|moved| self.forces(moved, None));
        let forces: [Vec<Both>; LOADS] =
            std::array::from_fn(|load| self.forces(&moved[load], Some(load)));
        let linear = |m: usize| Linear {
            by: forces_by.each_ref().map(|forces| forces[m]),
            certain: forces.each_ref().map(|forces| forces[m]),
        };
        let sags = std::array::from_fn(|load| {
            let parts = [&moved[load][..], &moved_by[0], &moved_by[1]];
            let bays = before.len();
            let asked = sagging[load].then(|| self.sags_of(parts, bays, 0..PLACES.len(), load));
            asked.into_iter().flatten().collect()
        });
        Some(Part {
            forces: (0..before.len()).map(linear).collect(),
            sum: Linear {
                by: units.sum,
                certain: std::array::from_fn(|load| self.sum_left(&moved[load], load)),
            },
            turn: Linear {
                by: moved_by.each_ref().map(|moved| moved[0][1]),
                certain: moved.each_ref().map(|moved| moved[0][1]),
            },
            sags,
        })
    }

    /// Displacements from the last support on to the left, each under what its joint carries.
    fn followed<'n>(
        &'n self,
        first: [Both; 2],
        before: impl Iterator<Item = (&'n Node<LOADS>, [Both; 2])>,
    ) -> Vec<[Both; 2]> {
        let mut moved = Vec::with_capacity(self.nodes.len());
        moved.push(first);
        for (node, loads) in before {
            moved.push(node.joint.follow(loads, moved[moved.len() - 1]));
        }
        moved
    }

    /// Forces on all supports left of the last, the nearest first.
    fn forces(&self, moved: &[[Both; 2]], load: Option<usize>) -> Vec<Both> {
        let mut forces = vec![Both::ZERO; moved.len() - 1];
        self.near_forces(&mut forces, moved, load);
        forces
    }

    /// Sum of the forces on all supports left of the last that a load alone makes.
    fn sum_left(&self, moved: &[[Both; 2]], load: usize) -> Both {
        let end = &self.nodes[self.nodes.len() - 1];
        let handed_on = self.bay(end).map_or(Both::ZERO, |BayUnder { element, held, .. }| {
            held[load].on[2] - element.on_moved(moved[1], moved[0])[1]
        });
        end.sum[load] - handed_on
    }

    /// How the nearest bays left of the last support sag in their middle, those with a hinge left out,
    /// and the left free end where that is near, under one of the loads.
    pub fn sags<'s>(
        &'s self,
        units: &'s Units,
        influences: &'s Influences,
        load: usize,
    ) -> impl Iterator<Item = Sag<3>> + 's {
        let parts = [&influences.moved[..], &units.moved[0], &units.moved[1]];
        self.sags_of(parts, units.count, MIDDLE..MIDDLE + 1, load)
    }

    /// The same of so many bays and some places in each, by the displacements from the last support
    /// on to the left.
    fn sags_of<'s>(
        &'s self,
        parts: [&'s [[Both; 2]]; 3],
        bays: usize,
        places: Range<usize>,
        load: usize,
    ) -> impl Iterator<Item = Sag<3>> + 's {
        let last = self.nodes.len() - 1;
        let of_bays = (0..bays).flat_map(move |back| {
            let under = self.bay(&self.nodes[last - back]).filter(|under| !under.hinged);
            let places = places.clone();
            under.into_iter().flat_map(move |BayUnder { length, held, .. }| {
                places.clone().map(move |place| {
                    let mut sag = parts.map(|u| turned(u[back + 1], u[back], *length, place));
                    sag[0] = sag[0] + held[load].sags[place];
                    Sag { length: *length, sag }
                })
            })
        });
        let first_bay = self.nodes.get(1).and_then(|node| self.bay(node));
        let left_end = first_bay.filter(|under| last < parts[0].len() && !under.cut_off);
        let left_end = left_end.map(move |BayUnder { length, .. }| {
            let end = &self.free_ends(self.nodes[0].candidate)[0];
            let mut sag = parts.map(|u| tip(u[last], u[last - 1], -length, -end.reach));
            sag[0] = sag[0] + end.sag[load];
            Sag { length: 2.0 * end.reach, sag }
        });
        of_bays.chain(left_end)
    }

    /// Forces on the supports left of the last one, the nearest first, from displacements that begin
    /// with those of the last; with what a load puts on them, or without.
    fn near_forces(&self, forces: &mut [Both], moved: &[[Both; 2]], load: Option<usize>) {
        for (force, [w, _]) in forces.iter_mut().zip(&moved[1..]) {
            *force = self.springs.stiffness * *w;
        }
        if !self.sprung {
            for (back, force) in forces.iter_mut().enumerate() {
                let rigid = self.on_rigid(back, &moved[back..], load);
                *force = self.of_rigid(*force, rigid);
            }
        }
    }

    /// Rigid supports do not move: forces follow from the bays on both sides.
    fn on_rigid(&self, back: usize, moved: &[[Both; 2]], load: Option<usize>) -> Both {
        let m = self.nodes.len() - 2 - back;
        let mut force = Both::ZERO;
        if let Some(BayUnder { element, held, .. }) = self.bay(&self.nodes[m + 1]) {
            let on = element.on_moved(moved[1], moved[0])[0];
            force = load.map_or(force, |load| held[load].on[0]) - on;
        }
        if let Some(BayUnder { element, held, .. }) = self.bay(&self.nodes[m]) {
            let on = element.on_moved(moved[2], moved[1])[1];
            force = force + load.map_or(Both::ZERO, |load| held[load].on[2]) - on;
        } else if let Some(load) = load {
            force = force + self.nodes[m].here[load][0];
        }
        force
    }

    /// Of each strip the force of its kind of support.
    pub(super) fn of_rigid(&self, spring: Both, rigid: Both) -> Both {
        let Both(moves) = self.springs.moves;
        let of = |strip: usize| if moves[strip] > 0.0 { spring.0[strip] } else { rigid.0[strip] };
        Both([of(0), of(1)])
    }
}
