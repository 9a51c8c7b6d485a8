//! The combinations a part of a rail is screened by before all others.

use super::segment::Segment;

/// Combinations asked before all others, carried along as hooks are taken from left to right.
pub(super) const PROBES: usize = 2;

impl Segment {
    /// The combination that uses hooks with equal shares of the loads most, and the next one,
    /// of the other sense if there is one.
    pub(super) fn likely_to_govern(&self) -> Option<[usize; PROBES]> {
        let foot = self.candidates.first().map(|first| &*first.foot)?;
        let each = 0..self.cases.len();
        let used: Vec<f64> =
            each.clone().map(|case| self.used_at_likely_worst(case, foot)).collect();
        let on_equal_shares = || -> Vec<f64> {
            let hooks = self.candidates.len();
            each.clone().map(|case| self.used_on_equal_shares(case, foot, hooks)).collect()
        };
        let lifts = |case: usize| self.normal.total_load(&self.cases[case].normal) < 0.0;
        let most_used = |used: &[f64], among: &dyn Fn(usize) -> bool| {
            let among = (0..used.len()).filter(|case| among(*case));
            among.reduce(|most, case| if used[case] > used[most] { case } else { most })
        };
        let first = most_used(&used, &|_| true)?;
        // Where one hook holds the rail alone, the others have no more than their shares.
        let other = match self.gathered {
            Some(_) => most_used(&on_equal_shares(), &|case| case != first),
            None => most_used(&used, &|case| lifts(case) != lifts(first)),
        };
        let second = other.or_else(|| most_used(&used, &|case| case != first)).unwrap_or(first);
        Some([first, second])
    }
}
