//! Right parts of choices, gathered once for all left parts that may meet them.
//!
//! A choice that has hooks on both sides of a line through the candidates is made up of a left part
//! that ends at the first hook beyond that line and a right part that begins there. Its count of
//! pairs is larger than that of the left parts a walk would go on from; but the elimination from
//! either side is done once for each part, and a pair is a few multiplications.

use std::ops::RangeInclusive;

use crate::checks::probe::{Part, Probe};

/// Right parts are gathered from half of the candidates, and at most from so many.
const FARTHEST: usize = 20;

/// Most right parts kept: with more, they begin farther to the right.
const MOST: usize = 2048;

/// A right part of a choice.
struct RightPart {
    /// Its hooks, from left to right.
    hooks: Vec<usize>,
    /// What a left part that ends at its first hook has to know of it; `None` where it tells nothing
    /// of itself.
    part: Option<Part>,
    /// How often other combinations had come to be asked when that was worked out.
    turn: u32,
}

/// Right parts that no argument refutes, by themselves.
pub(super) struct RightParts<'a> {
    /// From right to left.
    probe: Probe<'a>,
    /// First candidate they begin at.
    line: usize,
    /// By their first hook, those together that have most to the right in common.
    from: Vec<Vec<RightPart>>,
    /// How often other combinations have come to be asked.
    turn: u32,
    /// By their first hook and by how many they add to it, how many there are.
    adding: Vec<Vec<u64>>,
}

impl<'a> RightParts<'a> {
    /// Those of choices of at most so many hooks that may stay within a bound, and how many parts
    /// were asked about.
    pub(super) fn gather(
        probe: &Probe<'a>,
        spans: &[bool],
        most: usize,
        bound: f64,
    ) -> (Self, u64) {
        let n = probe.segment().candidates.len();
        let mut length = (n / 2).min(FARTHEST);
        let mut asked = 0;
        loop {
            let probe = probe.from_right();
            let from = std::iter::repeat_with(Vec::new).take(n).collect();
            let mut parts =
                Self { probe, line: n - length, from, turn: 0, adding: vec![vec![0; n]; n] };
            let mut gathering = Gathering { spans, most, bound, asked: 0, kept: 0 };
            let all = parts.gather_before(n, &mut gathering);
            asked += gathering.asked;
            if all {
                return (parts, asked);
            }
            length -= length.div_ceil(8);
        }
    }

    /// Gathers those that go on with a hook left of a candidate; whether that was not too many.
    fn gather_before(&mut self, right: usize, gathering: &mut Gathering<'_>) -> bool {
        let segment = self.probe.segment();
        let n = segment.candidates.len();
        for next in (self.line..right).rev() {
            let candidate = &segment.candidates[next];
            let taken = self.probe.subset();
            if taken.is_empty() && !candidate.may_be_last {
                // Candidates run away from the right end: none further left can be last either.
                return true;
            }
            let follows = taken.last().is_none_or(|last| gathering.spans[next * n + last]);
            // A left part adds one hook at least.
            let taken = taken.len();
            let more = gathering.most.saturating_sub(taken + 1);
            if follows && more > 0 {
                self.probe.push(next);
                gathering.asked += 1;
                let several = taken > 0;
                let goes_on = !several || !self.probe.refutes(more, gathering.bound, None);
                if several && goes_on {
                    gathering.kept += 1;
                    let hooks = self.probe.subset().iter().rev().copied().collect();
                    self.adding[next][taken] += 1;
                    self.from[next].push(RightPart { hooks, part: self.probe.part(), turn: 0 });
                }
                let few = gathering.kept <= MOST;
                let all = few && (!goes_on || self.gather_before(next, gathering));
                self.probe.pop();
                if !all {
                    return false;
                }
            }
            if candidate.stands {
                return true;
            }
        }
        true
    }

    /// Whether right parts begin at a candidate.
    pub(super) const fn begin_at(&self, candidate: usize) -> bool {
        candidate >= self.line
    }

    /// Right parts that begin at a candidate and add so many hooks to it.
    pub(super) fn count(&self, at: usize, adds: &RangeInclusive<usize>) -> u64 {
        let adding = &self.adding[at];
        let to = adding.len().min(adds.end() + 1);
        adding.get(*adds.start()..to).map_or(0, |counts| counts.iter().sum())
    }

    /// Choices made up of the hooks of a probe and a right part that begins at the last of them and
    /// adds so many, in lexicographic order, without those that surely do not stay within its bound
    /// in the combinations it asks. `None` where the hooks tell nothing of themselves.
    pub(super) fn meet(
        &mut self,
        left: &Probe<'a>,
        adds: &RangeInclusive<usize>,
    ) -> Option<Vec<Vec<usize>>> {
        let at = *left.subset().last()?;
        let part = left.part()?;
        if self.probe.asks_others_than(left) {
            self.probe = left.from_right();
            self.turn += 1;
        }
        let mut choices = Vec::new();
        for right in self.from[at].iter_mut().filter(|right| adds.contains(&right.adds())) {
            if right.turn != self.turn {
                right.turn = self.turn;
                right.ask(&mut self.probe);
            }
            if right.part.as_ref().is_none_or(|other| left.lets_meet(&part, other)) {
                choices.push([left.subset(), &right.hooks[1..]].concat());
            }
        }
        choices.sort();
        Some(choices)
    }
}

impl RightPart {
    /// Hooks it adds to one that is there already.
    fn adds(&self) -> usize {
        self.hooks.len() - 1
    }

    /// Asks the combinations of a probe that goes from right to left.
    fn ask(&mut self, probe: &mut Probe<'_>) {
        let from_right: Vec<usize> = self.hooks.iter().rev().copied().collect();
        probe.take(&from_right);
        self.part = probe.part();
    }
}

/// What is gathered, and how much of it so far.
struct Gathering<'s> {
    spans: &'s [bool],
    most: usize,
    bound: f64,
    asked: u64,
    kept: usize,
}
