//! Which hooks hold a rail along its axis.
//!
//! A rail up the slope takes the force down the slope along its axis. Either all its hooks share that force by their
//! springs, or it is made fast to one of them and slides on the others, so that it may grow with temperature:
//! then that hook bears all of it.
//!
//! **Searched by holder.** Which hook is the lowest, or the highest, depends on the choice of hooks. A search
//! therefore asks of every candidate that may be it: which choice is best among those that it holds. What acts along
//! the rail is gathered at that candidate ([`Strip::gathered_at`]), so that it bears all of it in every choice, and
//! bounds and proofs are those of any other segment.

use crate::checks::hook;
use crate::codes::cited::Source;
use crate::mechanics::beam::Strip;
use crate::units::Force;

use super::{Candidate, Limit, Segment};

/// Which hooks hold a rail up the slope along its axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Hold {
    /// All of them, by their springs.
    #[default]
    AllHooks,
    /// The lowest alone.
    LowestHook,
    /// The highest alone.
    HighestHook,
}

/// A segment of which one candidate holds the rail.
#[derive(Debug, Clone)]
pub struct Held {
    /// The segment, with the candidates that may stand beside the one that holds the rail; that one stands.
    pub segment: Segment,
    /// Candidates left out before the first of them.
    pub left_out: usize,
}

impl Segment {
    /// Which hook of a choice holds the rail alone, by its place in the choice; `None` where all do.
    #[must_use]
    pub fn holder(&self, subset: &[usize]) -> Option<usize> {
        match self.hold {
            Hold::AllHooks => None,
            Hold::LowestHook => Some(0),
            Hold::HighestHook => subset.len().checked_sub(1),
        }
    }

    /// The segment once for every candidate that may hold the rail alone; none where all hooks do.
    ///
    /// No hook stands beyond the one that holds the rail. Where some stand already, that is the outermost of
    /// them, or one beyond it.
    #[must_use]
    pub fn by_holder(&self) -> Vec<Held> {
        let all = 0..self.candidates.len();
        let stands = |at: &usize| self.candidates[*at].stands;
        let (from, to) = match self.hold {
            Hold::AllHooks => return Vec::new(),
            Hold::LowestHook => (0, all.clone().find(stands).map_or(all.end, |at| at + 1)),
            Hold::HighestHook => (all.clone().rev().find(stands).unwrap_or(0), all.end),
        };
        let may_hold = |at: &usize| match self.hold {
            Hold::LowestHook => self.candidates[*at].may_be_first,
            Hold::HighestHook | Hold::AllHooks => self.candidates[*at].may_be_last,
        };
        (from..to).filter(may_hold).filter_map(|at| self.held_by(at)).collect()
    }

    fn held_by(&self, holder: usize) -> Option<Held> {
        let (left_out, within) = match self.hold {
            Hold::LowestHook => (holder, holder..self.candidates.len()),
            Hold::HighestHook | Hold::AllHooks => (0, 0..holder + 1),
        };
        let mut candidates: Vec<Candidate> = self.candidates[within].to_vec();
        candidates.get_mut(holder - left_out)?.stands = true;
        let mut segment = self.with_candidates(candidates);
        let [normal, gathered] =
            Strip::gathered_at(&segment.normal, &segment.slope, holder - left_out)?;
        segment.normal = normal;
        segment.gathered = Some(Box::new(gathered));
        Some(Held { segment, left_out })
    }

    /// Whether the hook that holds the rail alone is over a bound by what acts along the rail, before anything acts
    /// square to the slope, which only adds to it in hook and bolt: then no choice passes.
    #[must_use]
    pub fn overloads_any_holder(&self, bound: f64) -> bool {
        let strength = self.cases.iter().filter(|case| matches!(case.limit, Limit::Strength));
        strength.map(|case| Force::from_n(self.slope.total_load(&case.slope))).any(|slope| {
            let bolt = self.bolt.map_or(0.0, |bolt| bolt.utilisation(Force::ZERO, slope));
            hook::utilisation(&self.hook, Force::ZERO, slope).max(bolt) > bound
        })
    }

    /// Where forces along the axis come from.
    pub(super) const fn statics_along(&self) -> Source {
        match self.hold {
            Hold::AllHooks => Source::Other("chain of bars on springs"),
            Hold::LowestHook | Hold::HighestHook => {
                Source::Other("equilibrium along the rail, which one hook holds")
            }
        }
    }

    /// The strip along the slope as a search walks it.
    #[must_use]
    pub(in crate::checks) fn walked(&self) -> &Strip {
        self.gathered.as_deref().unwrap_or(&self.slope)
    }
}
