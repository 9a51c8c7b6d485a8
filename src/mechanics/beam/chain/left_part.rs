//! What is certain of a left part before the rest of the beam is known.

use super::sag::{Sag, tip, turned};
use super::{BayUnder, Chain};
use crate::mechanics::beam::bay::{MIDDLE, PLACES};
use crate::mechanics::beam::joint::Springs;
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

    /// Displacements of both ends of a bay, the right one first, so many before the last.
    fn around(&self, certain: &Influences, back: usize) -> [[[Both; 2]; 3]; 2] {
        let parts = [&certain.moved, &self.moved[0], &self.moved[1]];
        [parts.map(|moved| moved[back]), parts.map(|moved| moved[back + 1])]
    }

    /// Sum of the forces on all supports left of the last, in the same parts.
    #[must_use]
    pub const fn sum(&self, certain: &Influences) -> [Both; 3] {
        [certain.sum, self.sum[0], self.sum[1]]
    }
}

/// All that a part of a beam that ends at the same support has to know of this one, under a few
/// loads: of every quantity what a unit of deflection of that support and of rotation over it does,
/// and what is certain under each load where it neither moves nor turns.
#[derive(Debug, Clone)]
pub struct Part<const LOADS: usize> {
    /// That support in both beams.
    pub(super) springs: Springs<Both>,
    /// It is a spring in both.
    pub(super) sprung: bool,
    /// Stiffness of all of it against moving that support, its spring included.
    pub(super) stiffness: [Both; 3],
    /// Force and moment on that support under each load.
    pub(super) here: [[Both; 2]; LOADS],
    /// The candidates before it, the nearest first, and the forces on them.
    pub(super) forces: Vec<(usize, Linear<LOADS>)>,
    /// Their sum.
    pub(super) sum: Linear<LOADS>,
    /// How the bays sag under each of the loads this was asked of.
    pub(super) sags: [Vec<Sag<3>>; LOADS],
}

/// A quantity by the deflection of a support, by its rotation, and what is certain of it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Linear<const LOADS: usize> {
    pub(super) by: [Both; 2],
    pub(super) certain: [Both; LOADS],
}

/// Displacements of a support in the parts of a [`Linear`].
#[derive(Debug, Clone, Copy)]
struct Moved<const LOADS: usize> {
    by: [[Both; 2]; 2],
    certain: [[Both; 2]; LOADS],
}

impl<const LOADS: usize> Moved<LOADS> {
    const fn under(&self, load: usize) -> [[Both; 2]; 3] {
        [self.certain[load], self.by[0], self.by[1]]
    }
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

    /// The supports taken as a part of a beam that goes on beyond the last one, with the sags of the
    /// bays between them under some of the loads; `None` of a single support, and where the beam is
    /// not stable whatever follows.
    #[must_use]
    pub fn part(&self, sagging: [bool; LOADS]) -> Option<Part<LOADS>> {
        let last = self.nodes.len().checked_sub(1)?;
        let end = &self.nodes[last];
        let bay = self.bay(end).filter(|_| end.joint.stable)?;
        let (zero, one) = (Both::ZERO, Both::splat(1.0));
        let mut right =
            Moved { by: [[self.springs.moves, zero], [zero, one]], certain: [[zero; 2]; LOADS] };
        let mut here = self.followed(last, &right);
        let mut part = Part {
            springs: self.springs,
            sprung: self.sprung,
            stiffness: end.joint.left,
            here: end.here,
            forces: Vec::with_capacity(last),
            sum: Linear {
                by: [0, 1].map(|unit| bay.element.on_moved(here.by[unit], right.by[unit])[1]),
                certain: std::array::from_fn(|load| {
                    self.sum_left(&[right.certain[load], here.certain[load]], load)
                }),
            },
            sags: sagging.map(|asked| {
                let places = if asked { PLACES.len() * last + 1 } else { 0 };
                Vec::with_capacity(places)
            }),
        };
        for back in 0..last {
            let m = last - 1 - back;
            let left = if m > 0 { self.followed(m, &here) } else { here };
            let force = |load: Option<usize>, of: &dyn Fn(&Moved<LOADS>) -> [Both; 2]| {
                let spring = self.springs.stiffness * of(&here)[0];
                if self.sprung {
                    return spring;
                }
                let around = [of(&right), of(&here), of(&left)];
                self.springs.of_kind(spring, self.on_rigid(back, &around, load))
            };
            let force = Linear {
                by: [0, 1].map(|unit| force(None, &|moved| moved.by[unit])),
                certain: std::array::from_fn(|load| {
                    force(Some(load), &|moved| moved.certain[load])
                }),
            };
            part.forces.push((self.nodes[m].candidate, force));
            for load in (0..LOADS).filter(|load| sagging[*load]) {
                let around = [right.under(load), here.under(load)];
                self.sags_beside(m, around, load, &mut part.sags[load]);
            }
            (right, here) = (here, left);
        }
        Some(part)
    }

    /// Displacements of the support left of one, from those of that.
    fn followed(&self, support: usize, moved: &Moved<LOADS>) -> Moved<LOADS> {
        let (node, joint) = (&self.nodes[support], &self.nodes[support - 1].joint);
        Moved {
            by: moved.by.map(|by| joint.follow([Both::ZERO; 2], by)),
            certain: std::array::from_fn(|load| {
                joint.follow(node.before[load], moved.certain[load])
            }),
        }
    }

    /// How the bay right of a support sags by the displacements of both its ends, the right one first,
    /// and the free end left of it if there is one.
    fn sags_beside(
        &self,
        support: usize,
        around: [[[Both; 2]; 3]; 2],
        load: usize,
        sags: &mut Vec<Sag<3>>,
    ) {
        let Some(bay) = self.bay(&self.nodes[support + 1]) else { return };
        if !bay.hinged {
            sags.extend((0..PLACES.len()).map(|place| Self::sag_in(bay, &around, load, place)));
        }
        if support == 0 && !bay.cut_off {
            sags.push(self.sag_of_left_end(bay, &around, load));
        }
    }

    /// How one place of a bay sags by the displacements of its ends, the right one first.
    fn sag_in(
        bay: &BayUnder<LOADS>,
        [right, left]: &[[[Both; 2]; 3]; 2],
        load: usize,
        place: usize,
    ) -> Sag<3> {
        let mut sag = [0, 1, 2].map(|part| turned(left[part], right[part], bay.length, place));
        sag[0] = sag[0] + bay.held[load].sags[place];
        Sag { length: bay.length, sag }
    }

    /// How the left free end sags by the displacements of the ends of the first bay, the right one
    /// first.
    fn sag_of_left_end(
        &self,
        bay: &BayUnder<LOADS>,
        [right, left]: &[[[Both; 2]; 3]; 2],
        load: usize,
    ) -> Sag<3> {
        let end = &self.free_ends(self.nodes[0].candidate)[0];
        let mut sag = [0, 1, 2].map(|part| tip(left[part], right[part], -bay.length, -end.reach));
        sag[0] = sag[0] + end.sag[load];
        Sag { length: 2.0 * end.reach, sag }
    }

    /// Force and moment that the bay left of a support hands on to it, so many before the last, under
    /// one of the loads, in the parts certain, by force and by moment.
    #[must_use]
    pub fn handed_on(
        &self,
        before_last: usize,
        units: &Units,
        influences: &Influences,
        load: usize,
    ) -> [[Both; 2]; 3] {
        let node = &self.nodes[self.nodes.len() - 1 - before_last];
        let Some(BayUnder { element, held, .. }) = self.bay(node) else {
            return [node.here[load], [Both::ZERO; 2], [Both::ZERO; 2]];
        };
        let [_, _, force, moment] = held[load].on;
        let mut handed_on = [&influences.moved, &units.moved[0], &units.moved[1]].map(|moved| {
            element.on_right_end(moved[before_last + 1], moved[before_last]).map(|on| -on)
        });
        handed_on[0] = [handed_on[0][0] + force, handed_on[0][1] + moment];
        handed_on
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
    /// under one of the loads.
    pub fn sags<'s>(
        &'s self,
        units: &'s Units,
        influences: &'s Influences,
        load: usize,
    ) -> impl Iterator<Item = Sag<3>> + 's {
        let last = self.nodes.len() - 1;
        (0..units.count).filter_map(move |back| {
            let bay = self.bay(&self.nodes[last - back]).filter(|under| !under.hinged)?;
            Some(Self::sag_in(bay, &units.around(influences, back), load, MIDDLE))
        })
    }

    /// How the left free end sags under one of the loads, where it is near and not cut off.
    #[must_use]
    pub fn end_sag(&self, units: &Units, influences: &Influences, load: usize) -> Option<Sag<3>> {
        let last = self.nodes.len() - 1;
        let first_bay = self.nodes.get(1).and_then(|node| self.bay(node));
        let bay = first_bay.filter(|under| last <= NEAR + 1 && !under.cut_off)?;
        Some(self.sag_of_left_end(bay, &units.around(influences, last - 1), load))
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
                *force = self.springs.of_kind(*force, rigid);
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
}
