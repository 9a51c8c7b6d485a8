//! A chain closed at its last support, told from right to left.

use super::sag::{Sag, tip, turned};
use super::{BayUnder, Chain};
use crate::mechanics::beam::FreeEnd;
use crate::mechanics::beam::joint::times;

impl<'a, const LOADS: usize> Chain<'a, LOADS> {
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
