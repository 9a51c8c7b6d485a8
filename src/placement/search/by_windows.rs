//! Where candidates are very many: the fewest hooks, and of all choices of as many the one used
//! least, among the rows of windows that no argument refutes.
//!
//! Windows are gathered from the right and from the left for all numbers of hooks up to the most of
//! interest, which gives a lower bound; then for one number after another from the right, from the
//! left and from the right again, each time among those left over (`checks/windows/`). Where they do
//! not reach from end to end, no choice of that number passes. Otherwise the choices left are walked
//! through, from left to right, with what may act from the right known of every window.

use crate::checks::windows::{Hooks, WINDOW, Windows};

use super::{Best, STEPS, Search};

/// Times windows are gathered anew for a combination that refused what those asked let pass.
const TURNS: u32 = 4;

/// What is looked for among the choices of a number of hooks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wanted {
    /// Any that passes.
    Any,
    /// The one used least.
    LeastUsed,
}

/// How looking for it ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ended {
    /// One was found.
    Found,
    /// All choices were seen or refuted.
    AllSeen,
    /// A combination that was not asked refused what windows let pass, and is asked from now on.
    Turned,
    /// The limit was reached.
    CutShort,
}

impl Search<'_> {
    /// Looks for fewer hooks than the fewest known, the fewest first.
    pub(super) fn count_by_windows(&mut self) {
        let all = self.segment.candidates.len();
        self.turns = TURNS;
        let most = self.fewest.as_ref().map_or(all, |(hooks, _)| hooks.len() - 1);
        while self.lower_bound <= most.min(WINDOW - 1) {
            match self.without_windows(self.lower_bound, Wanted::Any) {
                Ended::Found | Ended::CutShort => return,
                Ended::Turned => {}
                Ended::AllSeen => self.lower_bound += 1,
            }
        }
        while self.lower_bound <= most {
            let Some(windows) = self.windows_of_at_most(most, self.bound) else { return };
            let Some(fewest) = windows.fewest(self.segment) else {
                self.lower_bound = most + 1;
                return;
            };
            self.lower_bound = self.lower_bound.max(fewest);
            while self.lower_bound <= most {
                match self.among(&windows, self.lower_bound, Wanted::Any) {
                    Ended::Found | Ended::CutShort => return,
                    Ended::Turned => break,
                    Ended::AllSeen => self.lower_bound += 1,
                }
            }
        }
    }

    /// Looks for the choice of so many hooks that is used least.
    pub(super) fn rank_by_windows(&mut self, hooks: usize) {
        self.turns = TURNS;
        if hooks < WINDOW {
            while self.without_windows(hooks, Wanted::LeastUsed) == Ended::Turned {}
            return;
        }
        while let Some(windows) = self.windows_of_at_most(hooks, self.bound_now()) {
            if self.among(&windows, hooks, Wanted::LeastUsed) != Ended::Turned {
                return;
            }
        }
    }

    /// Looks among all choices of fewer hooks than a window has.
    fn without_windows(&mut self, hooks: usize, wanted: Wanted) -> Ended {
        let ended = self.walk(None, 0, hooks, wanted);
        self.probe.keep(0);
        ended
    }

    /// Windows of choices of at most so many hooks, told from the left.
    fn windows_of_at_most(&mut self, hooks: usize, bound: f64) -> Option<Windows> {
        self.probe.stay_within(bound);
        let patience = (self.left(), &*self.allowance);
        let from_right = Windows::of_at_most(hooks, &self.probe, &self.spans, patience);
        let from_right = self.counted(from_right)?;
        self.windows_of(Hooks::AtMost(hooks), &from_right)
    }

    /// Those among windows told from one end that belong to choices of so many hooks, told from the
    /// other.
    fn windows_of(&mut self, hooks: Hooks, among: &Windows) -> Option<Windows> {
        let patience = (self.left(), &*self.allowance);
        let windows = among.told_back(&self.probe, &self.spans, hooks, patience);
        self.counted(windows)
    }

    /// What is left of the limit.
    fn left(&self) -> u64 {
        self.limit.saturating_sub(self.weighed)
    }

    /// Counts what was asked to gather windows against the limit.
    fn counted(&mut self, windows: Result<Windows, u64>) -> Option<Windows> {
        self.weighed =
            windows.as_ref().map_or(self.limit, |windows| self.weighed + windows.asked());
        self.allowance.spend(windows.as_ref().map_or_else(|steps| *steps, Windows::steps));
        windows.ok()
    }

    /// Looks among choices of so many hooks made up of windows told from the left.
    fn among(&mut self, windows: &Windows, hooks: usize, wanted: Wanted) -> Ended {
        let mut told = None;
        // From the right, from the left and from the right again.
        for _ in 0..3 {
            let Some(again) =
                self.windows_of(Hooks::Exactly(hooks), told.as_ref().unwrap_or(windows))
            else {
                return Ended::CutShort;
            };
            if again.fewest(self.segment).is_none() {
                return Ended::AllSeen;
            }
            told = Some(again);
        }
        let ended = self.walk(told.as_ref(), 0, hooks, wanted);
        self.probe.keep(0);
        ended
    }

    /// Walks through all choices that add `more` hooks right of candidate `from`, in lexicographic
    /// order.
    fn walk(
        &mut self,
        windows: Option<&Windows>,
        from: usize,
        more: usize,
        wanted: Wanted,
    ) -> Ended {
        let Some(more) = more.checked_sub(1) else {
            return self.look_at(wanted);
        };
        let candidates = &self.segment.candidates;
        for (next, candidate) in candidates.iter().enumerate().skip(from) {
            let first = self.probe.subset().is_empty();
            if first && !candidate.may_be_first {
                // Candidates run away from the left end: none further right can be first either.
                break;
            }
            if self.exhausted() {
                return Ended::CutShort;
            }
            if self.follows(next) && (more > 0 || candidate.may_be_last) {
                self.probe.push(next);
                self.spend(1, 1);
                let ended = if self.is_refuted_by(windows, more, wanted) {
                    Ended::AllSeen
                } else {
                    self.walk(windows, next + 1, more, wanted)
                };
                if ended != Ended::AllSeen {
                    return ended;
                }
                self.probe.pop();
            }
            if candidate.stands {
                break;
            }
        }
        Ended::AllSeen
    }

    /// Whether no choice that begins with the hooks taken and has so many more passes.
    fn is_refuted_by(&mut self, windows: Option<&Windows>, more: usize, wanted: Wanted) -> bool {
        let hooks = self.probe.subset();
        let Some(windows) = windows.filter(|_| hooks.len() >= WINDOW) else { return false };
        let Some(acting) = windows.right_of(hooks, more) else { return true };
        let acting = acting.seen_from_ahead();
        self.weighed += 1;
        self.spend(1, STEPS);
        let bound = self.bound_for(wanted);
        self.probe.refutes(more, bound, Some(&acting))
    }

    fn bound_for(&self, wanted: Wanted) -> f64 {
        match wanted {
            Wanted::Any => self.bound,
            Wanted::LeastUsed => self.bound_now(),
        }
    }

    /// Weighs the hooks taken.
    fn look_at(&mut self, wanted: Wanted) -> Ended {
        let turns = self.turns;
        let used = self.within(self.bound_for(wanted));
        let subset = || self.probe.subset().to_vec();
        match (used, wanted) {
            (Some(utilisation), Wanted::Any) => {
                self.fewest = Some((subset(), utilisation));
                Ended::Found
            }
            (Some(utilisation), Wanted::LeastUsed) => {
                self.best = Some(Best { utilisation, subset: subset(), guessed: false });
                Ended::AllSeen
            }
            (None, _) if self.turns < turns => Ended::Turned,
            (None, _) => Ended::AllSeen,
        }
    }
}
