//! Choices to start from.

use super::{Best, EQUAL, Search};

/// Times hooks are taken away anew, each time asking the combination that refused before.
const TRIES: usize = 4;

impl Search<'_> {
    /// Takes a choice for the fewest known, if it holds and has the hooks that stand.
    pub(super) fn begin_with(&mut self, hooks: &[usize]) {
        let candidates = &self.segment.candidates;
        let fits = hooks.len() >= 2
            && hooks.windows(2).all(|pair| pair[0] < pair[1])
            && hooks.last().is_some_and(|last| *last < candidates.len())
            && (0..candidates.len()).all(|i| !candidates[i].stands || hooks.contains(&i))
            && self.segment.ends_are_short(hooks);
        if fits {
            self.probe.take(hooks);
            if let Some(utilisation) = self.within(self.bound) {
                self.fewest = Some((hooks.to_vec(), utilisation));
            }
            self.probe.take(&[]);
        }
    }

    /// Looks for a choice of few hooks: from all, or from the fewest known where a walk may take
    /// long.
    pub(super) fn guess(&mut self) {
        let many = self.are_many();
        for _ in 0..TRIES {
            let mut hooks = match &self.fewest {
                None => self.everything(),
                Some((fewest, _)) if many => fewest.clone(),
                Some(_) => return,
            };
            let known = hooks.len();
            if self.fewest.is_none() {
                if self.allowance.is_spent() || !self.may_pass(&hooks) {
                    break;
                }
                self.leave_out(&mut hooks);
            }
            while self.exchange(&mut hooks) {}
            if self.fewest.is_some() && hooks.len() == known {
                break;
            }
            self.begin_with(&hooks);
        }
        self.probe.keep(0);
    }

    /// Leaves out every hook that the combinations asked first can do without, from left to right.
    fn leave_out(&mut self, hooks: &mut Vec<usize>) {
        let mut at = 0;
        while at < hooks.len() && !self.allowance.is_spent() {
            let candidate = hooks.remove(at);
            if self.segment.candidates[candidate].stands || !self.may_pass(hooks) {
                hooks.insert(at, candidate);
            }
            at += 1;
        }
    }

    /// Puts one hook in place of two neighbours or two in place of three, if the combinations asked
    /// first let it.
    fn exchange(&mut self, hooks: &mut Vec<usize>) -> bool {
        let n = self.segment.candidates.len();
        let widths = if self.are_many() { 2..=3 } else { 2..=2 };
        for width in widths {
            for at in 0..(hooks.len() + 1).saturating_sub(width) {
                let low = at.checked_sub(1).map_or(0, |left| hooks[left] + 1);
                let high = hooks.get(at + width).map_or(n, |right| *right);
                let old = at..at + width;
                if hooks[old.clone()].iter().any(|i| self.segment.candidates[*i].stands) {
                    continue;
                }
                for first in low..high {
                    if self.allowance.is_spent() {
                        return false;
                    }
                    let seconds = if width == 2 { first..first + 1 } else { first + 1..high };
                    for second in seconds {
                        let mut fewer = hooks.clone();
                        let new = [first, second];
                        fewer.splice(old.clone(), new[..width - 1].iter().copied());
                        if self.may_pass(&fewer) {
                            *hooks = fewer;
                            return true;
                        }
                    }
                }
            }
        }
        false
    }

    /// Whether the combinations asked first let these hooks pass.
    fn may_pass(&mut self, hooks: &[usize]) -> bool {
        self.weighed += 1;
        self.spend(1, hooks.len());
        self.probe.take(hooks);
        hooks.len() >= 2 && self.segment.ends_are_short(hooks) && self.probe.passes(self.bound)
    }

    /// Quick descent from the best subset known: hooks are moved to the next free candidate as long
    /// as that lowers the largest utilisation.
    pub(super) fn improve(&mut self) {
        let Some(Best { subset, utilisation, .. }) = &self.best else { return };
        let (mut subset, known) = (subset.clone(), *utilisation);
        let n = self.segment.candidates.len();
        let mut best = f64::INFINITY;
        loop {
            let mut better = None;
            for i in 0..subset.len() {
                let low = if i == 0 { 0 } else { subset[i - 1] + 1 };
                let high = subset.get(i + 1).map_or(n, |next| *next);
                for to in [subset[i].wrapping_sub(1), subset[i] + 1] {
                    if !(low..high).contains(&to) || self.exhausted() {
                        continue;
                    }
                    let from = std::mem::replace(&mut subset[i], to);
                    if let Some(utilisation) = self.look(&subset, best.min(known) - EQUAL) {
                        best = utilisation;
                        better = Some((i, to));
                    }
                    subset[i] = from;
                }
            }
            match better {
                Some((i, to)) => subset[i] = to,
                None => break,
            }
        }
        // The rail has its say only now: it seldom governs, and its checks cost the most.
        self.probe.take(&subset);
        if best < known
            && let Some(utilisation) = self.within(known)
        {
            self.best = Some(Best { utilisation, subset, guessed: true });
        }
        self.probe.take(&[]);
    }

    /// Utilisation of these hooks alone, without the rail, if the free ends are short enough.
    fn look(&mut self, hooks: &[usize], bound: f64) -> Option<f64> {
        self.weighed += 1;
        self.spend(1, hooks.len());
        if !self.segment.ends_are_short(hooks) {
            return None;
        }
        self.probe.take(hooks);
        if !self.probe.passes(bound) {
            return None;
        }
        self.spend(self.segment.cases.len(), hooks.len());
        self.segment.hooks_within(hooks, bound, &mut self.space)
    }

    /// Takes hooks away one by one from all, as long as one can go.
    pub(super) fn thin_out(&mut self) -> Option<Vec<usize>> {
        let mut kept = self.everything();
        self.passes(&kept).then_some(())?;
        let mut at = 0;
        while at < kept.len() && !self.allowance.is_spent() {
            if self.segment.candidates[kept[at]].stands {
                at += 1;
                continue;
            }
            let candidate = kept.remove(at);
            if !self.passes(&kept) {
                kept.insert(at, candidate);
                at += 1;
            }
        }
        Some(kept)
    }

    /// Hooks spread over the candidates as evenly as these let them, half as many again each time
    /// until they pass: a few choices only, for when nothing more may be asked.
    pub(super) fn spread_evenly(&mut self) -> Option<Vec<usize>> {
        let candidates = &self.segment.candidates;
        let first = candidates.iter().rposition(|place| place.may_be_first)?;
        let last = candidates.iter().position(|place| place.may_be_last)?;
        let stands = |at: &usize| candidates[*at].stands;
        let standing: Vec<usize> = (0..candidates.len()).filter(stands).collect();
        let mut spaces = self.lower_bound.max(2) - 1;
        while first < last && spaces < last - first {
            let mut hooks: Vec<usize> =
                (0..=spaces).map(|i| first + (last - first) * i / spaces).collect();
            hooks.extend(&standing);
            hooks.sort_unstable();
            hooks.dedup();
            if self.passes(&hooks) {
                return Some(hooks);
            }
            spaces += spaces.div_ceil(2);
        }
        let all = self.everything();
        self.passes(&all).then_some(all)
    }

    pub(super) fn passes(&mut self, hooks: &[usize]) -> bool {
        self.probe.take(hooks);
        self.segment.ends_are_short(hooks) && self.within(self.bound).is_some()
    }
}
