//! What the checks of a subset came to.

use std::collections::BTreeSet;

use std::ops::Index;

use crate::checks::crossing::CrossingResult;
use crate::checks::{Check, Governing, most_used};
use crate::mechanics::sweep::Deflection;
use crate::units::Force;

/// Largest utilisation of one hook by check, and its forces where the largest of all occurs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HookResult {
    /// The hook.
    pub hook: Governing,
    /// The bolt and its slot.
    pub bolt: Governing,
    /// The screws.
    pub screws: Governing,
    /// The timber under the foot.
    pub timber: Governing,
    /// The clearance.
    pub clearance: Governing,
    /// Normal force in the governing combination.
    pub normal: Force,
    /// Slope force in the governing combination.
    pub slope: Force,
    /// Largest force in serviceability that presses the arm towards the tile, the part of the slope force
    /// that does so included.
    pub service_press: Force,
    /// Largest pull on a screw.
    pub screw_pull: Force,
    /// Largest shear on a screw.
    pub screw_shear: Force,
}

impl HookResult {
    /// The combinations that govern some check, in their order. A check that uses nothing has none.
    #[must_use]
    pub fn combinations(&self) -> Vec<usize> {
        let used = self.by_check().into_iter().filter(|(_, found)| found.utilisation > 0.0);
        let all: BTreeSet<usize> = used.map(|(_, found)| found.combination).collect();
        all.into_iter().collect()
    }

    /// Nothing acts.
    pub const NONE: Self = Self {
        hook: Governing::NONE,
        bolt: Governing::NONE,
        screws: Governing::NONE,
        timber: Governing::NONE,
        clearance: Governing::NONE,
        normal: Force::ZERO,
        slope: Force::ZERO,
        service_press: Force::ZERO,
        screw_pull: Force::ZERO,
        screw_shear: Force::ZERO,
    };

    /// Every check of a hook with what governs it. A field that is none is named here as such.
    #[must_use]
    pub const fn by_check(&self) -> [(Check, Governing); 5] {
        let Self {
            hook,
            bolt,
            screws,
            timber,
            clearance,
            normal: _,
            slope: _,
            service_press: _,
            screw_pull: _,
            screw_shear: _,
        } = *self;
        [
            (Check::Hook, hook),
            (Check::Bolt, bolt),
            (Check::Screws, screws),
            (Check::FootBearing, timber),
            (Check::Clearance, clearance),
        ]
    }

    /// The check that governs this hook.
    #[must_use]
    pub fn governing(&self) -> (Check, Governing) {
        most_used(self.by_check()).unwrap_or((Check::Hook, Governing::NONE))
    }
}

/// Everything about one subset.
#[derive(Debug, Clone)]
pub struct SegmentResult {
    /// Each hook of the subset.
    pub hooks: Vec<HookResult>,
    /// Normal and slope force of each hook in each case.
    pub forces: Forces,
    /// Bending of the rail.
    pub bending: Governing,
    /// Deflection of the rail.
    pub deflection: Governing,
    /// Where the rail's deflection governs.
    pub deflected: Option<Deflection>,
    /// Bending where its pieces meet, once their places are known and where it is declared what a splice
    /// bears: [`Segment::splices_used`](super::Segment::splices_used).
    pub splice: Option<Governing>,
    /// Its crossings with the lower rails that bear it, along the rail; none where hooks do.
    pub crossings: Vec<CrossingResult>,
}

/// Normal and slope force of each hook in each case: `forces[case][hook]`.
#[derive(Debug, Clone, Default)]
pub struct Forces {
    pub(super) hooks: usize,
    pub(super) of_case: Vec<[Force; 2]>,
}

impl Forces {
    /// Case by case, the forces of all hooks.
    pub fn iter(&self) -> impl Iterator<Item = &[[Force; 2]]> {
        self.of_case.chunks_exact(self.hooks.max(1))
    }
}

impl Index<usize> for Forces {
    type Output = [[Force; 2]];

    fn index(&self, case: usize) -> &[[Force; 2]] {
        &self.of_case[case * self.hooks..][..self.hooks]
    }
}

impl SegmentResult {
    /// Every check of the rail with what governs it. A field that is none is named here as such.
    #[must_use]
    pub fn by_check(&self) -> [(Check, Governing); 4] {
        let Self { hooks: _, forces: _, bending, deflection, deflected: _, splice, crossings } =
            self;
        let splice = match splice {
            Some(splice) => *splice,
            None => Governing::NONE,
        };
        let crossings = crossings.iter().map(|crossing| ((), crossing.used));
        let crossing = most_used(crossings).map_or(Governing::NONE, |most| most.1);
        [
            (Check::RailBending, *bending),
            (Check::RailDeflection, *deflection),
            (Check::Splice, splice),
            (Check::Crossing, crossing),
        ]
    }

    /// Every check of the rail and of its hooks; the hook's index when it is one of a hook.
    pub fn checks(&self) -> impl Iterator<Item = ((Check, Option<usize>), Governing)> {
        let of_rail = self.by_check().map(|(check, governing)| ((check, None), governing));
        let of_hooks = self.hooks.iter().enumerate().flat_map(|(h, hook)| {
            hook.by_check().map(|(check, governing)| ((check, Some(h)), governing))
        });
        of_rail.into_iter().chain(of_hooks)
    }

    /// The check that governs the segment; the hook's index when it is one of a hook.
    #[must_use]
    pub fn governing(&self) -> (Check, Governing, Option<usize>) {
        let ((check, hook), governing) =
            most_used(self.checks()).unwrap_or(((Check::RailBending, None), self.bending));
        (check, governing, hook)
    }
}
