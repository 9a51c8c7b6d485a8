//! Buffers of the checks, so that looking at a subset allocates nothing.

use crate::mechanics::beam::Reactions;
use crate::mechanics::sweep::{Profile, Sweep};

/// Buffers one thread of work reuses.
#[derive(Debug, Clone, Default)]
pub struct Workspace {
    /// Forces on the hooks of the subset looked at, normal and slope.
    pub(super) reactions: [Reactions; 2],
    /// The same under one combination, N.
    pub(super) forces: [Vec<f64>; 2],
    /// Moments along the rail.
    pub(super) sweeps: [Sweep; 2],
    /// The same under one combination.
    pub(super) profiles: [Profile; 2],
    /// Cases, those that refused last first.
    pub(super) order: Vec<usize>,
    pub(super) refused: Option<usize>,
}

impl Workspace {
    /// The case that refused the subset checked last.
    #[must_use]
    pub const fn refused_last(&self) -> Option<usize> {
        self.refused
    }

    pub(super) fn refuse(&mut self, rank: usize) {
        self.order[..=rank].rotate_right(1);
        self.refused = self.order.first().copied();
    }
}
