//! What is certain of a left part before the rest of the beam is known.

use super::sag::{Sag, tip, turned};
use super::{BayUnder, Chain};
use crate::mechanics::beam::bay::Bay;

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

impl<const LOADS: usize> Chain<'_, LOADS> {
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
