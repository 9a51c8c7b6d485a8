//! Whether a layout still passes when every rafter may be off by a tolerance, each to its own side.
//!
//! **What is tried.** Of a part of a rail with few hooks, every choice of sides. Of one with more, for each hook
//! those that load it or the rail beside it most as a rule: its neighbours away from it or towards it and so on
//! in turn along the rail, and all hooks left of a place moved one way and all right of it the other; from the worst
//! of these, hooks are moved to their other side as long as that makes it worse. What is found so bounds the
//! worst from below, and the answer says that it is not of every choice. Under a rafter, all rails are taken
//! with the hooks beside it moved away from it and so on in turn.
//!
//! **Units.** Lengths along the eaves.
//!
//! **Checked by** `tests/api/room_to_move.rs`: by rechecks of every choice of sides.

use crate::checks::{Check, Governing};
use crate::effort::Allowance;
use crate::units::Length;

use super::laid::{Element, LaidSegment, Layout};
use super::moved::{self, Obstacle};
use super::{Job, rafters};

/// Hooks of which every choice of sides is tried.
pub const FEW: usize = 7;

/// What rafters that are off come to.
#[derive(Debug, Clone, PartialEq)]
pub struct RaftersOff {
    /// The worst that was found of what could be checked.
    pub worst: Option<Worst>,
    /// A part of a rail, by rail and segment, whose hooks cannot stand so, or tip sideways.
    pub obstacle: Option<([usize; 2], Obstacle)>,
    /// Choices of sides that were tried.
    pub tried: u64,
    /// Every choice of sides was tried on every rail.
    pub every: bool,
    /// It came to its end before the steps were spent.
    pub complete: bool,
}

/// What is used most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worst {
    /// Check.
    pub check: Check,
    /// Of what.
    pub element: Element,
    /// How far, and in which combination.
    pub governing: Governing,
}

impl RaftersOff {
    /// Whether all that was to be tried passes; `None` where the steps were spent and all that was tried does.
    #[must_use]
    pub fn passes(&self, job: &Job) -> Option<bool> {
        let allows = |worst: Worst| job.wishes.allow(worst.governing.utilisation);
        let passes = self.obstacle.is_none() && self.worst.is_none_or(allows);
        (self.complete || !passes).then_some(passes)
    }
}

/// What a layout with rails along the eaves comes to when its rafters are off by as much as the tolerance.
#[must_use]
pub fn rafters_off(
    job: &Job,
    layout: &Layout,
    tolerance: Length,
    allowance: &mut Allowance,
) -> RaftersOff {
    let found = RaftersOff { worst: None, obstacle: None, tried: 0, every: true, complete: true };
    let mut tries = Tries { job, layout, tolerance, allowance, found };
    for (r, rail) in layout.rails.iter().enumerate() {
        for s in 0..rail.segments.len() {
            tries.segment([r, s]);
        }
    }
    tries.rafters();
    tries.found
}

/// A side for each hook of a segment: to the right, or to the left.
type Sides = Vec<bool>;

struct Tries<'a> {
    job: &'a Job,
    layout: &'a Layout,
    tolerance: Length,
    allowance: &'a mut Allowance,
    found: RaftersOff,
}

impl Tries<'_> {
    fn segment(&mut self, at: [usize; 2]) {
        let hooks = self.laid(at).found.subset.len();
        if hooks <= FEW {
            for choice in 0..1_usize << hooks {
                self.weigh(at, &(0..hooks).map(|hook| choice >> hook & 1 == 1).collect());
            }
            return;
        }
        self.found.every = false;
        let mut worst: Option<(f64, Sides)> = None;
        for sides in starts(hooks) {
            let used = self.weigh(at, &sides);
            if worst.as_ref().is_none_or(|(most, _)| used > *most) {
                worst = Some((used, sides));
            }
        }
        while let Some((most, sides)) = worst.take() {
            for hook in 0..hooks {
                let mut other = sides.clone();
                other[hook] = !other[hook];
                let used = self.weigh(at, &other);
                if worst.as_ref().map_or(most, |(used, _)| *used) < used {
                    worst = Some((used, other));
                }
            }
        }
    }

    /// The rafters, each with the hooks beside it moved away from it on every rail.
    fn rafters(&mut self) {
        if self.job.roof.rafters.span.is_none() {
            return;
        }
        let mut rails = self.layout.rails.clone();
        for (index, rafter) in self.layout.rafters.iter().enumerate() {
            for own in [false, true] {
                let with = rafter.hooks.iter().map(|[r, s, h]| {
                    let hooks = self.laid([*r, *s]).found.subset.len();
                    Some(([*r, *s], self.moved([*r, *s], &turned(hooks, *h, own, true)).ok()?))
                });
                // Hooks that cannot stand so were told of where their rail was tried.
                let with: Vec<_> = with.collect::<Option<_>>().unwrap_or_default();
                if with.is_empty() || !self.spend(&with) {
                    continue;
                }
                let (job, layout) = (self.job, self.layout);
                let found = moved::with_segments(&mut rails, with, |rails| {
                    let under = |at: usize| at == rafter.rafter;
                    rafters::under_some(job, &layout.footings, rails, &layout.modules, under)
                });
                for used in found.iter().flat_map(|of| of.utilisation.into_iter().flatten()) {
                    self.see(Check::Rafter, Element::Rafter(index), used);
                }
            }
        }
    }

    fn laid(&self, [r, s]: [usize; 2]) -> &LaidSegment {
        &self.layout.rails[r].segments[s]
    }

    fn moved(&self, at: [usize; 2], sides: &Sides) -> Result<LaidSegment, Obstacle> {
        let by = |right: &bool| if *right { self.tolerance } else { -self.tolerance };
        let moves: Vec<Length> = sides.iter().map(by).collect();
        moved::segment(self.job, self.layout, at, &moves)
    }

    /// Counts what checking segments takes; false where the steps are spent.
    fn spend(&mut self, with: &[([usize; 2], LaidSegment)]) -> bool {
        let of = |laid: &LaidSegment| (laid.found.subset.len() * laid.segment.cases.len()) as u64;
        self.allowance.spend(with.iter().map(|(_, laid)| of(laid)).sum());
        self.found.complete &= !self.allowance.is_spent();
        self.found.complete
    }

    /// How far a choice of sides uses a segment: without end where its hooks cannot stand so.
    fn weigh(&mut self, at: [usize; 2], sides: &Sides) -> f64 {
        let laid = self.laid(at);
        self.allowance.spend((sides.len() * laid.segment.cases.len()) as u64);
        if self.allowance.is_spent() {
            self.found.complete = false;
            return 0.0;
        }
        self.found.tried += 1;
        let moved = match self.moved(at, sides) {
            Ok(moved) => moved,
            Err(obstacle) => {
                self.found.obstacle = self.found.obstacle.or(Some((at, obstacle)));
                return f64::INFINITY;
            }
        };
        if moved::passes(self.job, &moved) == Err(Obstacle::Tipping) {
            self.found.obstacle = self.found.obstacle.or(Some((at, Obstacle::Tipping)));
        }
        let Some((check, governing, hook)) = moved.result.map(|result| result.governing()) else {
            return f64::INFINITY;
        };
        let [r, s] = at;
        let element = hook.map_or(Element::Rail(r), |h| Element::Hook([r, s, h]));
        self.see(check, element, governing);
        governing.utilisation
    }

    fn see(&mut self, check: Check, element: Element, governing: Governing) {
        let most = self.found.worst.map_or(0.0, |worst| worst.governing.utilisation);
        if governing.utilisation > most {
            self.found.worst = Some(Worst { check, element, governing });
        }
    }
}

/// Choices of sides that load some hook most as a rule.
fn starts(hooks: usize) -> impl Iterator<Item = Sides> {
    let about = (0..hooks).flat_map(move |hook| {
        [[false, false], [false, true], [true, false], [true, true]]
            .map(|[own, away]| turned(hooks, hook, own, away))
    });
    let parted = (0..=hooks).flat_map(move |from| {
        [false, true].map(|right| (0..hooks).map(|hook| (hook < from) == right).collect())
    });
    about.chain(parted)
}

/// The hooks beside one moved away from it or towards it, those beside them the other way, and so on.
fn turned(hooks: usize, hook: usize, own: bool, away: bool) -> Sides {
    let side = |other: usize| match other.cmp(&hook) {
        std::cmp::Ordering::Equal => own,
        std::cmp::Ordering::Greater => (other - hook).is_multiple_of(2) != away,
        std::cmp::Ordering::Less => (hook - other).is_multiple_of(2) == away,
    };
    (0..hooks).map(side).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hooks_beside_one_go_away_from_it_and_those_beside_them_come_back() {
        let told = |sides: Sides| -> String {
            sides.iter().map(|right| if *right { '>' } else { '<' }).collect()
        };
        assert_eq!(told(turned(7, 3, true, true)), "<><>><>");
        assert_eq!(told(turned(7, 3, false, false)), "><><<><");
        assert_eq!(told(turned(4, 0, true, true)), ">><>");
    }
}
