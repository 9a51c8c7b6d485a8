//! What one hook fewer would mean on a rail segment: the choice of so many hooks that is used least.
//!
//! Every choice of that number is weighed where they are not too many: arguments of the search that screen choices
//! hold within a bound of 1, and what is looked for here mostly lies above it. Otherwise the choices at hand are
//! those with one of the hooks left out, and hooks are moved from there as long as that lowers the largest
//! utilisation. What that comes to bounds the best from above.

use crate::checks::segment::{Segment, Workspace};
use crate::checks::{Check, Governing};
use crate::effort::Allowance;

use super::laid::LaidSegment;

/// Choices that are weighed one by one at most.
const MOST: usize = 3000;

/// The choice that is used least.
#[derive(Debug, Clone, PartialEq)]
pub struct OneFewer {
    /// How many hooks that is.
    pub hooks: usize,
    /// What governs it; `None` where no choice holds the rail within its free ends.
    pub governing: Option<(Check, Governing)>,
    /// Every choice was weighed.
    pub exact: bool,
}

/// One hook fewer than a segment has; `None` of one that has none to lose, or where the steps are spent.
#[must_use]
pub fn one_fewer(laid: &LaidSegment, allowance: &mut Allowance) -> Option<OneFewer> {
    let segment = &laid.segment;
    let hooks = laid.found.subset.len().checked_sub(1)?;
    let few = choices(segment.candidates.len(), hooks).filter(|count| *count <= MOST);
    let mut best = Best { segment, used: f64::INFINITY, subset: None, space: Workspace::default() };
    if let Some(count) = few {
        allowance.spend((count * hooks * segment.cases.len()) as u64);
        if allowance.is_spent() {
            return None;
        }
        best.every(&mut Vec::with_capacity(hooks), 0, hooks);
    } else {
        best.near(&laid.found.subset, allowance);
    }
    let subset = best.subset;
    if subset.is_none() && few.is_none() {
        return None;
    }
    let result = subset.and_then(|subset| segment.check_all(&subset));
    let governing = result.map(|result| result.governing()).map(|(check, most, _)| (check, most));
    Some(OneFewer { hooks, governing, exact: few.is_some() })
}

/// How many choices of so many hooks there are, if they can be counted.
fn choices(places: usize, hooks: usize) -> Option<usize> {
    let hooks = hooks.min(places.checked_sub(hooks)?);
    (0..hooks).try_fold(1_usize, |count, i| Some(count.checked_mul(places - i)? / (i + 1)))
}

struct Best<'a> {
    segment: &'a Segment,
    used: f64,
    subset: Option<Vec<usize>>,
    space: Workspace,
}

impl Best<'_> {
    /// Weighs every choice that adds `more` hooks to those taken, right of candidate `from`.
    fn every(&mut self, taken: &mut Vec<usize>, from: usize, more: usize) {
        if more == 0 {
            self.weigh(taken);
            return;
        }
        for next in from..(self.segment.candidates.len() + 1).saturating_sub(more) {
            taken.push(next);
            self.every(taken, next + 1, more - 1);
            taken.pop();
            if self.segment.candidates[next].stands {
                return;
            }
        }
    }

    /// Weighs a choice: whether it is better than the best so far.
    fn weigh(&mut self, subset: &[usize]) -> bool {
        let candidates = &self.segment.candidates;
        let all_stand = (0..candidates.len()).all(|i| !candidates[i].stands || subset.contains(&i));
        if subset.len() < 2 || !all_stand || !self.segment.are_apart(subset) {
            return false;
        }
        let used = self.segment.within_alone(subset, self.used, &mut self.space);
        let better = used.filter(|used| *used < self.used);
        if let Some(used) = better {
            self.used = used;
            self.subset = Some(subset.to_vec());
        }
        better.is_some()
    }

    /// Leaves out each of these hooks, and moves the others of what is best then.
    fn near(&mut self, hooks: &[usize], allowance: &mut Allowance) {
        let steps = (hooks.len() * self.segment.cases.len()) as u64;
        for left_out in 0..hooks.len() {
            allowance.spend(steps);
            let mut fewer = hooks.to_vec();
            fewer.remove(left_out);
            self.weigh(&fewer);
        }
        while let Some(best) = self.subset.clone() {
            let mut moved = false;
            for at in 0..best.len() {
                for to in [best[at].wrapping_sub(1), best[at] + 1] {
                    let free = to < self.segment.candidates.len() && !best.contains(&to);
                    if !free || allowance.is_spent() {
                        continue;
                    }
                    allowance.spend(steps);
                    let mut other = best.clone();
                    other[at] = to;
                    moved |= self.weigh(&other);
                }
            }
            if !moved {
                return;
            }
        }
    }
}
