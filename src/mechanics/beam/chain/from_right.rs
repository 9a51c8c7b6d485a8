//! A chain closed at its last support, told from right to left.

use super::sag::{Sag, tip, turned};
use super::{BayUnder, Chain, End};
use crate::mechanics::beam::joint::times;
use crate::mechanics::beam::lanes::Both;

impl<'a, const LOADS: usize> Chain<'a, LOADS> {
    /// Forces on the supports taken, if there are no others, from right to left; `None` when a beam
    /// can move without bending.
    #[must_use]
    pub fn close(&self) -> Option<FromRight<'_, 'a, LOADS>> {
        let [first, .., last] = self.nodes.as_slice() else { return None };
        let inverse = last.joint.close()?;
        let [left, right] = if self.mirrored { [last, first] } else { [first, last] };
        if self.strips.iter().any(|strip| strip.turns_freely(left.candidate, right.candidate)) {
            return None;
        }
        let over = self.free_ends(last.candidate)[1].on;
        let moved = std::array::from_fn(|load| {
            let [force, moment] = [0, 1].map(|row| last.here[load][row] + over[load][row]);
            times(inverse, [self.springs.moves * force, moment])
        });
        let on_right = over.map(|[force, _]| force);
        Some(FromRight { chain: self, left: self.nodes.len(), moved, on_right })
    }
}

/// Forces on the supports of a whole chain, from right to left, one for each load.
#[derive(Debug, Clone)]
pub struct FromRight<'c, 'a, const LOADS: usize> {
    chain: &'c Chain<'a, LOADS>,
    /// Supports not told yet.
    left: usize,
    /// Displacement of the next one to tell.
    moved: [[Both; 2]; LOADS],
    /// What a rigid support takes from its right.
    on_right: [Both; LOADS],
}

impl<const LOADS: usize> Iterator for FromRight<'_, '_, LOADS> {
    type Item = Told<LOADS>;

    fn next(&mut self) -> Option<Told<LOADS>> {
        self.left = self.left.checked_sub(1)?;
        let chain = self.chain;
        let node = &chain.nodes[self.left];
        let here = self.moved;
        if let Some(before) = self.left.checked_sub(1).map(|m| &chain.nodes[m]) {
            self.moved =
                std::array::from_fn(|load| before.joint.follow(node.before[load], here[load]));
        }
        let before = self.moved;
        let under = chain.bay(node);
        let straight = under.filter(|under| !under.hinged);
        let middle = straight.map(|BayUnder { length, held, .. }| Sag {
            length: *length,
            sag: std::array::from_fn(|load| {
                held[load].sag + turned(before[load], here[load], *length)
            }),
        });
        let free_end = |end: &End<LOADS>, near: &[[Both; 2]; LOADS], far, length, reach| Sag {
            length: 2.0 * end.reach,
            sag: std::array::from_fn(|load| {
                let far: &[[Both; 2]; LOADS] = far;
                end.sag[load] + tip(near[load], far[load], length, reach)
            }),
        };
        let is_last = self.left + 1 == chain.nodes.len();
        let right_end = straight.filter(|_| is_last).map(|bay| {
            let end = &chain.free_ends(node.candidate)[1];
            free_end(end, &here, &before, bay.length, end.reach)
        });
        let left_end = straight.filter(|_| self.left == 1).map(|bay| {
            let end = &chain.free_ends(chain.nodes[0].candidate)[0];
            free_end(end, &before, &here, -bay.length, -end.reach)
        });
        let spring = here.map(|[w, _]| chain.springs.stiffness * w);
        let force = if chain.sprung {
            spring
        } else {
            // Rigid supports do not move: forces follow from the bays on both sides.
            let right = self.on_right;
            let rigid: [Both; LOADS] = if let Some(BayUnder { element, held, .. }) = under {
                let on = std::array::from_fn::<_, LOADS, _>(|load| {
                    element.on_held([before[load][1], here[load][1]])
                });
                self.on_right = std::array::from_fn(|load| held[load].on[0] - on[load][0]);
                std::array::from_fn(|load| right[load] + (held[load].on[2] - on[load][1]))
            } else {
                std::array::from_fn(|load| right[load] + node.here[load][0])
            };
            std::array::from_fn(|load| chain.of_rigid(spring[load], rigid[load]))
        };
        Some(Told { force, sags: [middle, right_end, left_end] })
    }
}

/// What a chain tells of one support.
#[derive(Debug, Clone, Copy)]
pub struct Told<const LOADS: usize> {
    /// Force on it, under each load, N.
    pub force: [Both; LOADS],
    /// The bay on its left, and the free ends next to that, if they have no hinge.
    pub sags: [Option<Sag<LOADS>>; 3],
}
