//! A chain closed at its last support, told from right to left.

use super::sag::{Sag, tip, turned};
use super::{BayUnder, Chain, End};
use crate::mechanics::beam::joint::times;
use crate::mechanics::beam::lanes::Both;

impl<'a, const LOADS: usize> Chain<'a, LOADS> {
    /// Forces on the supports taken, if there are no others, from right to left, and if asked how the
    /// bays sag; `None` when a beam can move without bending.
    #[must_use]
    pub fn close(&self, sagging: bool) -> Option<FromRight<'_, 'a, LOADS>> {
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
        Some(FromRight { chain: self, sagging, left: self.nodes.len(), moved, on_right })
    }
}

/// Forces on the supports of a whole chain, from right to left, one for each load.
#[derive(Debug, Clone)]
pub struct FromRight<'c, 'a, const LOADS: usize> {
    chain: &'c Chain<'a, LOADS>,
    sagging: bool,
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
        let sags = if self.sagging { self.sags(&before, &here) } else { [None; 5] };
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
            std::array::from_fn(|load| chain.springs.of_kind(spring[load], rigid[load]))
        };
        Some(Told { force, sags })
    }
}

impl<const LOADS: usize> FromRight<'_, '_, LOADS> {
    /// Sags of the bay left of a support, and of the free ends next to it.
    fn sags(
        &self,
        before: &[[Both; 2]; LOADS],
        here: &[[Both; 2]; LOADS],
    ) -> [Option<Sag<LOADS>>; 5] {
        let chain = self.chain;
        let node = &chain.nodes[self.left];
        let Some(bay) = chain.bay(node) else { return [None; 5] };
        let of_bay = |place: usize| {
            let sag = |load: usize| {
                let BayUnder { length, held, .. } = bay;
                held[load].sags[place] + turned(before[load], here[load], *length, place)
            };
            (!bay.hinged).then(|| Sag { length: bay.length, sag: std::array::from_fn(sag) })
        };
        let of_end = |end: &End<LOADS>, near: &[[Both; 2]; LOADS], far, length, reach| {
            let sag = |load: usize| {
                let far: &[[Both; 2]; LOADS] = far;
                end.sag[load] + tip(near[load], far[load], length, reach)
            };
            Sag { length: 2.0 * end.reach, sag: std::array::from_fn(sag) }
        };
        let is_last = self.left + 1 == chain.nodes.len();
        let right_end = (is_last && !bay.cut_off).then(|| {
            let end = &chain.free_ends(node.candidate)[1];
            of_end(end, here, before, bay.length, end.reach)
        });
        let left_end = (self.left == 1 && !bay.cut_off).then(|| {
            let end = &chain.free_ends(chain.nodes[0].candidate)[0];
            of_end(end, before, here, -bay.length, -end.reach)
        });
        [of_bay(0), of_bay(1), of_bay(2), right_end, left_end]
    }
}

/// What a chain tells of one support.
#[derive(Debug, Clone, Copy)]
pub struct Told<const LOADS: usize> {
    /// Force on it, under each load, N.
    pub force: [Both; LOADS],
    /// Some places in the bay on its left, if that has no hinge, and the free ends next to it, right
    /// and left, if no hinge cuts it off from them; all of them only if asked for.
    pub sags: [Option<Sag<LOADS>>; 5],
}
